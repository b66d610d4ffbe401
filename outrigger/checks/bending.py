"""Bending square to the sheathing, at the edge and in the back span. NDS 2018 3.3."""

from dataclasses import replace

import numpy as np

from outrigger.actions.places import EDGE
from outrigger.checks.bracing import Bracing, blocked
from outrigger.checks.loaded_member import Desk, largest
from outrigger.checks.notches import net_depth
from outrigger.formula.check import Check
from outrigger.formula.numbers import greatest
from outrigger.wood import bending as wood_bending
from outrigger.wood import lumber
from outrigger.wood.adjusted import flat_use


def bending(desk: Desk, brace: Bracing) -> list[Check]:
    """Square to the sheathing, at the edge and in the back span. NDS 2018 3.3."""
    size, b, d = desk.model.wood.size, desk.b, net_depth(desk)
    S = lumber.section_modulus.step(b=b, d=d)
    Fb_star, Cfu = desk.adjusted("Fb"), flat_use(desk.model.wood, desk.flat)
    stops = blocked(desk.batch)
    one_ply = size.d if desk.flat else size.b
    held = stops is None or any(np.all(x == 0) for x in stops) or desk.d <= one_ply
    M = desk.force("M", np.abs(desk.M_edge), "lb-in", "at the house edge")
    if desk.hand is not None:
        M = replace(desk.hand.moment(), value=M.value)
    CL, CL_back = brace.CL(desk, EDGE), brace.CL(desk, "back span")
    at_edge = wood_bending.bending(place=EDGE, M=M, S=S, Fb_star=Fb_star, CL=CL, Cfu=Cfu, held=held)
    M_back = desk.force("M", largest(brace.M_inside), "lb-in", "largest inside the back span")
    S_back = lumber.section_modulus.step(b=b, d=desk.d)
    in_back = wood_bending.bending(
        place="back span", M=M_back, S=S_back, Fb_star=Fb_star, CL=CL_back, Cfu=Cfu
    )
    slender = [
        *wood_bending.slenderness_check(EDGE, CL),
        *wood_bending.slenderness_check("back span", CL_back),
    ]
    return [desk.over(at_edge), desk.over(in_back), *_steepest(slender)]


def _steepest(rows: list[Check]) -> list[Check]:
    """One slenderness row: case by case the largest RB."""
    if not rows:
        return []
    shown = max(rows, key=lambda row: float(np.ravel(row.demand)[0]))
    return [replace(shown, place=EDGE, demand=greatest(*(row.demand for row in rows)))]
