"""Load combinations of the second program, typed from ASCE 7 2.3 and 2.4.

Each row with every subset of its transient loads, and every way these lie on arm and back span:
each of them there or not, balanced snow by half on one where it lies on both. Nothing is left out
because it cannot govern. A combination: factors by part, and CD or lambda.
"""

from functools import cache
from itertools import product

import numpy as np

CD = {"D": 0.9, "L": 1.0, "S": 1.15, "Lr": 1.25, "worker": 1.25, "W": 1.6, "E": 1.6}
# D, L, roof live, snow of 7-16, snow of 7-22, W, Ev and Eh, lambda; a roof load at a time
ASD = [
    (1.0, 0, 0, 0, 0, 0, 0), (1.0, 1.0, 0, 0, 0, 0, 0), (1.0, 0, 1.0, 1.0, 0.7, 0, 0),
    (1.0, 0.75, 0.75, 0.75, 0.525, 0, 0), (1.0, 0, 0, 0, 0, 0.6, 0),
    (1.0, 0.75, 0.75, 0.75, 0.525, 0.45, 0), (0.6, 0, 0, 0, 0, 0.6, 0),
    (1.0, 0, 0, 0, 0, 0, 0.7), (1.0, 0.75, 0, 0.75, 0.1, 0, 0.525), (0.6, 0, 0, 0, 0, 0, -0.7),
]  # fmt: skip
LRFD = [
    (1.4, 0, 0, 0, 0, 0, 0, 0.6), (1.2, 1.6, 0.5, 0.5, 0.3, 0, 0, 0.8),
    (1.2, 1.0, 1.6, 1.6, 1.0, 0, 0, 0.8), (1.2, 0, 1.6, 1.6, 1.0, 0.5, 0, 0.8),
    (1.2, 1.0, 0.5, 0.5, 0.3, 1.0, 0, 1.0), (0.9, 0, 0, 0, 0, 1.0, 0, 1.0),
    (1.2, 1.0, 0, 0.2, 0.15, 0, 1.0, 1.0), (0.9, 0, 0, 0, 0, 0, -1.0, 1.0),
]  # fmt: skip
LAMBDA_STORAGE = 0.7  # 1.2D + 1.6L, L storage
HELPS = {"ASD": 0.6, "LRFD": 0.9}
ROOF = [(1, 1), (1, 0), (0, 1)]
SNOW = [*ROOF, (1, 0.5), (0.5, 1)]
SIDES = ("H_away", "H_toward", "A_one", "A_other", "E_away", "E_toward")


@cache
def combinations(edition, method, parts, Ev_per_D, net_up):
    """(factors (combinations, parts), times) of the parts that a case has."""
    found = {}
    for row in ASD if method == "ASD" else LRFD:
        if row[6] and not Ev_per_D:
            continue
        for factors, time in of_row(row, edition, method, parts, Ev_per_D):
            found[tuple(factors.get(p, 0.0) for p in parts), time] = None
    D, P, time = (1.0, 1.0, CD["worker"]) if method == "ASD" else (1.2, 1.6, 0.8)
    for back in ({"D_back": D}, {"D_back": HELPS[method]}, {"D_own": HELPS[method]}):
        factors = {"D": D, "worker": P, **back}
        found[tuple(factors.get(p, 0.0) for p in parts), time] = None
    for back in (0.0, 1.0) if net_up else ():
        factors = {"D": -net_up, "D_back": back}
        time = CD["E"] if method == "ASD" else 1.0
        found[tuple(factors.get(p, 0.0) for p in parts), time] = None
    return np.array([f for f, _ in found]), np.array([t for _, t in found])


def of_row(row, edition, method, parts, Ev_per_D):
    """The combinations of one row of the standard."""
    D, L, live, snow_716, snow_722, W, E = row[:7]
    S = snow_722 if edition == "ASCE 7-22" else snow_716
    Ev = E * Ev_per_D
    roofs = [{}]
    roofs += [{"Lr": live * a, "Lr_back": live * b} for a, b in ROOF if live]
    both = {"S", "S_back"} <= set(parts)
    roofs += [{"S": S * a, "S_back": S * b} for a, b in (SNOW if both else ROOF) if S]
    winds = [{}]
    for arm, back in product((None, "W_up", "W_down"), (None, "W_back", "W_press_back")):
        if W and (arm or back):
            winds.append({name: W for name in (arm, back) if name})
    sides = [{}]
    for side in SIDES:  # one at a time; E with the earthquake, H with wind, A with either
        factor = {"H": W, "E": abs(E), "A": W or abs(E)}[side[0]]
        if factor and side in parts:
            sides.append({side: factor})
    for storage, roof, wind, side in product((0.0, L) if L else (0.0,), roofs, winds, sides):
        loads = {"L": storage, **roof, **wind, **side}
        loads = {p: f for p, f in loads.items() if f and p in parts}
        if method == "ASD":
            kinds = [{"H": "W", "A": "W"}.get(p[0], p.partition("_")[0]) for p in loads]
            time = max([CD["D"], *(CD[k] for k in kinds), *([CD["E"]] if E else [])])
        else:
            time = LAMBDA_STORAGE if row[:2] == (1.2, 1.6) and loads.get("L") else row[7]
        yield {"D": D + Ev, "D_back": D + Ev, **loads}, time
        if HELPS[method] < D:
            yield {"D": D + Ev, "D_back": HELPS[method] + min(Ev, 0.0), **loads}, time
