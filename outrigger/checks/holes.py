"""The hole of a screw or lag that goes down through the outrigger: the breadth left beside it.

NDS 2018 3.1.2; the hole taken as wide as the shank. Lengths in, forces lb.
"""

import numpy as np
from msgspec.structs import replace

from outrigger.actions.places import EDGE
from outrigger.cases.hold_down import through
from outrigger.checks.bracing import bracing
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.notches import net_depth
from outrigger.fasteners.trade_names import read_fastener
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Link
from outrigger.formula.numbers import Num
from outrigger.wood import bending, rectangle
from outrigger.wood.adjusted import flat_use

AT_HOLE = Link(bending.BENDING, "at the hole", "at the hole")


@formula("b_net", "in", clause="NDS 2018 3.1.2")
def net_breadth(b: Num, D_hole: Num) -> Num:
    """Breadth left beside a hole."""
    return b - D_hole


def breadth_left(member: LoadedMember, place: str) -> float | Step:
    """Breadth at a place, in: beside the hole of what goes down through the outrigger there."""
    hold = member.holds.get(place)
    if hold is None or not through(hold) or not hold.deck_fastener:
        return member.b
    D = read_fastener(hold.deck_fastener).D
    return net_breadth.step(b=member.b, D_hole=given("D_hole", D, "in", "", "shank"))


def at_hole(member: LoadedMember, place: str) -> Check:
    """Bending through the hole of a place."""
    names = [name for name, _ in member.model.supports]
    inner = member.main.M[names.index(place)]
    M = member.force("M", np.abs(member.M_edge if place == EDGE else inner), "lb-in", f"at {place}")
    d = net_depth(member) if place == EDGE else member.d
    row = bending.bending(
        link=AT_HOLE,
        place=place,
        M=M,
        S=rectangle.section_modulus.step(b=breadth_left(member, place), d=d),
        Fb_star=member.adjusted("Fb"),
        CL=bracing(member).CL_over(member, place),
        Cfu=flat_use(member.model.wood, member.flat),
    )
    return member.over(replace(row, clause="NDS 2018 3.1.2, 3.3"))
