"""Bending and shear of the member under the outriggers. NDS 2018 3.3, 3.4."""

import numpy as np

from outrigger.actions.places import EDGE
from outrigger.cases.below import RAFTER
from outrigger.checks.house_edge import END_BEARING_IN, EdgeMember
from outrigger.checks.loaded_member import COMMON
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Num
from outrigger.loads import row_of_loads as rows_of
from outrigger.wood import bending, rectangle, shear
from outrigger.wood.adjusted import adjusted, flat_use


def in_itself(below: EdgeMember) -> list[Check]:
    """Bending and shear of the member. NDS 2018 3.3, 3.4."""
    wood, use, edge = below.wood, below.conditions, below.edge
    Fb_star = adjusted("Fb", wood, use, below.times)
    CL = given("CL", 1.0, "", "NDS 2018 3.3.3.1", "flat")
    if not below.flat:  # nothing but its ends is counted on to hold it upright
        le = bending.effective_length("either", "any loading not listed", edge.span, below.d)
        Emin_adj = adjusted("Emin", wood, use, 1.0)
        CL = bending.stability(le, below.b, below.d, Fb_star, Emin_adj).CL
    S = rectangle.section_modulus.step(b=below.b, d=below.d)
    Cfu = flat_use(wood, below.flat)
    bent = bending.bending(
        link=below.link("bending"),
        place=EDGE,
        M=below.moment(),
        S=S,
        Fb_star=Fb_star,
        CL=CL,
        Cfu=Cfu,
    )
    Fv_adj = adjusted("Fv", wood, use, below.times)
    V = relieved(below) if edge.near_support_relief else below.end_shear()
    cut = shear.shear(
        link=below.link("shear"), place=EDGE, V=V, b=below.b, d=below.d, Fv_adj=Fv_adj
    )
    return [below.row(bent), below.row(cut)]


@formula("V", "lb", clause="NDS 2018 3.4.3.1: the first load a depth from the support")
def relieved_shear_of_row(
    R_one: Num, n_end: Num, s_row: Num, l_beam: Num, w_beam: Num, d: Num
) -> Num:
    """Shear at an end without the loads within a depth of the support."""
    return R_one * (
        n_end * (l_beam - d) / l_beam - n_end * (n_end - 1) / 2 * s_row / l_beam
    ) + w_beam * (l_beam / 2 - d)


@formula(
    "V",
    "lb",
    clause="NDS 2018 3.4.3.1: what one brings more, a depth off",
    adds=("V_row", "R_more"),
)
def one_more_off_support(V_row: Num, R_more: Num, l_beam: Num, d: Num) -> Num:
    """Shear without the loads within a depth of the support, one outrigger bringing more."""
    return V_row + R_more * (l_beam - d) / l_beam


def relieved(below: EdgeMember) -> Step:
    """Shear less what stands within a depth of the support; full where the row or the span is too
    short for it, of what runs on over its supports, and of a rafter, whose load is not known to
    stand away from its end."""
    edge, d = below.edge, below.d
    short = bool(np.any(below.spacing < d)) or edge.span <= 2 * d
    if edge.kind == RAFTER or below.runs_on or short:
        return below.end_shear()
    left = np.maximum(np.ceil((edge.span - d) / below.spacing - rows_of.A_HAIR), 1.0)
    lengths: dict[str, Num | Step] = {
        "n_end": given("n_end", left, "", "", "the first a depth from the support"),
        "s_row": below.spacing, "l_beam": edge.span, "d": d,
    }  # fmt: skip
    return below.worst(relieved_shear_of_row, lengths, more=one_more_off_support)


def bearing_length(below: EdgeMember) -> Step:
    """Length of bearing at its ends, in."""
    stated = below.edge.end_bearing
    if stated is None:
        return given("l_bearing", END_BEARING_IN, "in", COMMON, "1 1/2 in taken")
    return given("l_bearing", stated, "in", "", "as stated")
