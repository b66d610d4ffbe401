"""Bending square to the sheathing, at the edge and in the back span. NDS 2018 3.3."""

import numpy as np

from outrigger.actions import by_hand
from outrigger.actions.places import EDGE
from outrigger.checks.bracing import Bracing, blocked
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.notches import net_depth
from outrigger.formula.check import Check
from outrigger.wood import bending as wood_bending
from outrigger.wood import rectangle
from outrigger.wood.adjusted import flat_use


def bending(member: LoadedMember, brace: Bracing) -> list[Check]:
    """Square to the sheathing, at the edge and in the back span. NDS 2018 3.3."""
    size, b, d = member.model.wood.size, member.b, net_depth(member)
    S = rectangle.section_modulus.step(b=b, d=d)
    Fb_star, Cfu = member.adjusted("Fb"), flat_use(member.model.wood, member.flat)
    stops = blocked(member.batch)
    one_ply = size.d if member.flat else size.b
    held = stops is None or any(np.all(x == 0) for x in stops) or member.d <= one_ply
    M = member.force("M", np.abs(member.M_edge), "lb-in", "at the house wall")
    if member.hand is not None:  # forces along tell the sides of the edge apart: the larger counts
        outside = member.hand.arm_moment()
        M = by_hand.attach(member.hand.moment(), M.value, by_hand.size, outside)
    CL, CL_back = brace.CL(member, EDGE), brace.CL(member, "back span")
    at_edge = wood_bending.bending(place=EDGE, M=M, S=S, Fb_star=Fb_star, CL=CL, Cfu=Cfu, held=held)
    M_back = member.force("M", brace.M_back, "lb-in", brace.where)
    S_back = rectangle.section_modulus.step(b=b, d=member.d)
    in_back = wood_bending.bending(
        place="back span", M=M_back, S=S_back, Fb_star=Fb_star, CL=CL_back, Cfu=Cfu
    )
    rows = [member.over(at_edge), member.over(in_back)]
    slender = () if member.flat else brace.at_edge.RB + brace.longest.RB
    if slender:
        rows.append(wood_bending.slenderness_check(EDGE, slender))
    return rows
