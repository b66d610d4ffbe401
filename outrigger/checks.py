"""Every check of a case: bending and shear here, the others by name.

One function for each check; `all_checks` lists them in the order of the load path.
"""

from dataclasses import replace

import numpy as np

from outrigger import lumber, member
from outrigger.actions import BACK, EDGE, WALL_LINE
from outrigger.adjust import flat_use
from outrigger.bearing_checks import back_bearing, edge_bearing, plate, wall_bearing
from outrigger.case import Case
from outrigger.clip_checks import hold_downs, splits
from outrigger.combine import spans
from outrigger.desk import Desk, largest
from outrigger.formula import Array, Check, greatest
from outrigger.geometry import column
from outrigger.side_checks import form, rolls, slides


def all_checks(desk: Desk) -> list[Check]:
    """Every check, in the order of the load path: wall line to house."""
    rows = [*wall_bearing(desk), *plate(desk), *bending(desk), *shear(desk)]
    rows += [*edge_bearing(desk), *back_bearing(desk), *hold_downs(desk), *splits(desk)]
    return [*rows, *slides(desk), *rolls(desk), *form(desk)]


def blocked(case: Case) -> list[Array] | None:
    """Distances of the blocked places from the edge into the house, in; None: not given."""
    if case.outrigger.blocking is None:
        return None
    named = {EDGE: column(0.0), BACK: column(case.outrigger.back_span)}
    return [
        named[p] if isinstance(p, str) else column(p)
        for p in case.outrigger.blocking
        if p != WALL_LINE
    ]


def bending(desk: Desk) -> list[Check]:
    """Strong axis at the edge and in the back span. NDS 2018 3.3."""
    size, b, d = desk.model.wood.size, desk.b, desk.d
    S = lumber.section_modulus.step(b=b, d=d)
    Fb_star, Emin_adj = desk.adjusted("Fb"), desk.adjusted("Emin")
    Cfu = flat_use(desk.model.wood, desk.flat)
    stops = blocked(desk.case)
    one_ply = size.d if desk.flat else size.b  # stability by the single ply
    # not blocked inward: free to the inner end; a hold-down is not blocking
    free = desk.model.shape.back_span + desk.model.shape.behind_back
    lines = np.concatenate(
        np.broadcast_arrays(column(0.0), free, *(np.minimum(x, free) for x in stops or [])), axis=1
    )
    lines = np.sort(lines, axis=1)
    lu_next = np.min(np.where(lines > 0, lines, np.inf), axis=1, keepdims=True)
    lu_longest = np.max(np.diff(lines, axis=1), axis=1, keepdims=True)
    CL = member.edge_stability(
        arm=desk.model.shape.arm,
        back_lu=lu_next,
        b=one_ply,
        d=d,
        Fb_star=Fb_star,
        Emin_adj=Emin_adj,
    )
    held = stops is None or any(np.all(x == 0) for x in stops) or d <= one_ply
    M = desk.force("M", M_edge(desk), "lb-in", "at the house edge")
    if desk.hand is not None:
        M = replace(desk.hand.moment(), value=M_edge(desk))
    at_edge = member.bending(place=EDGE, M=M, S=S, Fb_star=Fb_star, CL=CL, Cfu=Cfu, held=held)
    le = member.effective_length("either", "any loading not listed", lu_longest, d)
    CL_back = member.stability(le, one_ply, d, Fb_star, Emin_adj)
    inside = largest([s.M_inside for s in spans(desk.model, desk.main)] + desk.main.M[:-1])
    M_back = desk.force("M", inside, "lb-in", "largest inside the back span")
    in_back = member.bending(place="back span", M=M_back, S=S, Fb_star=Fb_star, CL=CL_back, Cfu=Cfu)
    slender = [*member.slenderness_check(EDGE, CL), *member.slenderness_check("back span", CL_back)]
    return [desk.over(at_edge), desk.over(in_back), *_steepest(slender)]


def M_edge(desk: Desk) -> Array:
    """Moment at the edge, lb-in: the larger of its two sides, which forces along tell apart."""
    inner, couple = desk.main.M[-1], desk.main.side.couple_edge
    if couple is None:
        return inner
    outer = inner + couple  # hogging is negative
    return np.where(np.abs(outer) > np.abs(inner), outer, inner)


def _steepest(rows: list[Check]) -> list[Check]:
    """One slenderness row: case by case the largest RB."""
    if not rows:
        return []
    largest = greatest(*(row.demand for row in rows))
    shown = max(rows, key=lambda row: float(np.ravel(row.demand)[0]))
    return [replace(shown, place=EDGE, demand=largest)]


def shear(desk: Desk) -> list[Check]:
    """Both sides of the edge and the rest of the back span, full V. NDS 2018 3.4.2."""
    Fv_adj = desk.adjusted("Fv")
    stretches = spans(desk.model, desk.main)
    elsewhere = [s.V_inner for s in stretches] + [s.V_outer for s in stretches[:-1]]
    sides = [
        (EDGE, "arm side", desk.main.V_arm),
        (EDGE, "house side", largest([stretches[-1].V_outer, desk.main.V_house])),
        ("back span", "", largest(elsewhere)),
    ]
    if "W_up" in desk.model.parts:  # the strip then works against the uplift
        sides.insert(1, ("arm", "by the wall", desk.main.V_wall))
    rows = []
    for place, link, V in sides:
        force = desk.force("V", V, "lb", link or "largest in the back span")
        if link == "arm side" and desk.hand is not None:
            force = replace(desk.hand.arm_shear(), value=V)
        row = member.shear(place=place, V=force, b=desk.b, d=desk.d, Fv_adj=Fv_adj)
        rows.append(desk.over(replace(row, link=link)))
    return rows
