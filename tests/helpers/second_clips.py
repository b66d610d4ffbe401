"""Hold-downs of the second program: pull, side force, sliding, splitting. One case.

A listed value counts in the ASD set in either method, lowered by CD / CD of its column, never
raised; pull and side force add up. NDS 2018 2.3.2, 3.4.3.3, 11 and 12; statics.
"""

import math

import numpy as np
from second_built import built, side_value
from second_loads import Acting

LISTED = {"wind": 1.6, "roof live": 1.25, "snow": 1.15, "live": 1.0, "dead": 0.9}


def place(x, back):
    return "edge" if x == 0 else "back" if x == back else f"{x:g} in"


def clips(checks):
    """The rows of the hold-downs, into the ratios of the checks."""
    m, n = checks.m, checks.n
    a = checks.a if n["method"] == "ASD" else Acting(m, "ASD")
    order = {x: i for i, x in enumerate(m.supports)}
    holds = {h["x"]: h for h in n["holds"]}
    listed = {x: h for x, h in holds.items() if "up" in h}
    lowered = {x: 1.0 if h["for"] == "any duration" else np.minimum(1, a.time / LISTED[h["for"]])
               for x, h in listed.items()}  # fmt: skip
    F_along = along(checks, a, listed) if listed else None
    F_across = a.reactions_across if m.sideways is not None else None
    for x, h in holds.items():
        name, i = place(x, m.back), order[-x]
        if "deck" in h:
            N, share = np.zeros(1), 0.0
            if checks.N_all is not None:
                N, values = abs(total_along(checks.a, m)), side_values(checks, holds)
                whole = sum(values.values())
                share = 1.0 if x == 0 else np.where(whole > 0, values[x] / whole, 0)
            built(checks, name, i, h, N * share)
            continue
        ratio = a.pulls[i] / h["count"] / (h["up"] * lowered[x])
        side = h["side"] * h["count"] * lowered[x]
        if F_along is not None or F_across is not None:
            F = np.hypot(0 if F_along is None else F_along[x],
                         0 if F_across is None else F_across[i])  # fmt: skip
            ratio = ratio + F / side
        checks.put(f"hold_down:{name}", name, "rated clip", ratio)
        if F_across is not None:
            checks.put("slide", name, "across", F_across[i] / side)
        if h.get("height"):
            split(checks, x, name, h, checks.a.pulls[i])
    if F_along is not None:
        N = abs(total_along(a, m))
        if 0.0 in holds:
            checks.put("slide", "edge", "along", N / (holds[0.0]["side"] * holds[0.0]["count"]
                                                      * lowered[0.0]))  # fmt: skip
        else:
            caps = sum(h["side"] * h["count"] * lowered[x] for x, h in holds.items())
            checks.put("slide", "back", "along", N / caps)
    elif checks.N_all is not None and "deck" in next(iter(holds.values())):
        N = abs(total_along(checks.a, m))
        caps = {x: side_value(checks, place(x, m.back), h) for x, h in holds.items()}
        cap = caps[0.0] if 0.0 in caps else sum(caps.values())
        with np.errstate(divide="ignore", invalid="ignore"):
            ratio = np.where(N == 0, 0, N / cap)
        checks.put("slide", "edge" if 0.0 in caps else "back", "along", ratio)
    if not m.tied and len(m.supports) == 2:
        sets = {id(s): s for s in (a, checks.a)}.values()
        if any(np.any(-s.R[-1] > 1e-9) for s in sets):
            checks.ratios["hold_down:edge", "edge", "no tie"] = math.inf


def side_values(checks, holds):
    """Side value of built clips by place; by their number where they have none."""
    found = {x: side_value(checks, place(x, checks.m.back), h) for x, h in holds.items()}
    if not any(np.any(v > 0) for v in found.values()):
        return {x: np.full(1, float(h["count"])) for x, h in holds.items()}
    return found


def total_along(a, m):
    return sum(a.of(v) for v in m.forces_along)


def along(checks, a, holds):
    """Force along at each place: the edge's clip may carry all; inward by side values."""
    if checks.N_all is None:
        return None
    N = abs(total_along(a, checks.m))
    whole = sum(h["side"] * h["count"] for h in holds.values())
    return {x: N if x == 0 else N * h["side"] * h["count"] / whole for x, h in holds.items()}


def split(checks, x, name, h, pull):
    """Tension across the grain at side fasteners, 3.4.3.3."""
    m = checks.m
    de, x = min(h["height"], m.d), -x
    near = min(m.end - x, x - m.house_end) < 5 * m.d
    b = m.b / m.plies * min(m.plies, h["count"])
    cap = 2 / 3 * checks.Fv * b * de * ((de / m.d) ** 2 if near else 1)
    checks.put(f"split:{name}", name, "side fasteners", pull / cap)
