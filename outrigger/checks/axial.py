"""Axial force and bending about both axes, in the arm and in the back span. NDS 2018 3.9.

Force along the member is tension or compression by its sign in each combination. The arm is a
column fixed at the edge and free at its end; the back span is held at its supports edgewise and
at the blocked places flatwise. How much of the force passes the edge is not known: all of it is
taken on the house side too, with the moment at the edge.
"""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions import by_hand
from outrigger.actions.places import EDGE
from outrigger.checks.bracing import Bracing
from outrigger.checks.holes import breadth_left
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.notches import net_depth
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, amount, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array, Num, greatest
from outrigger.wood import axial, bending, rectangle
from outrigger.wood.adjusted import adjusted, adjusted_bending, adjusted_compression, flat_use

ARM, BACK_SPAN = "arm", "back span"


def _at_the_limit() -> np.errstate:
    """Stress equal to what buckles it: the amplification has no end, and the row of what keeps the
    member stable fails."""
    return np.errstate(divide="ignore", invalid="ignore")


BOTH_WAYS = Link(Kind("biaxial", "bending both ways", engineers="biaxial bending"), "", "")
AXIAL = Kind("axial_bending", "bending and force along", engineers="combined axial")
TENSION = Link(AXIAL, "tension", "", "bending and pull")
TENSION_LESS = Link(AXIAL, "tension, compression edge", "", "bending less pull")
COMPRESSION = Link(AXIAL, "compression", "", "bending and push")
BUCKLING = Link(AXIAL, "compression, stability", "", "buckling")
SLENDERNESS = Link(AXIAL, "slenderness", "", "slenderness")
ANY = "statics"


class BothAxes(Struct, frozen=True, eq=False):
    """Bending at one place: stresses and values, axis 1 edgewise, axis 2 flatwise (None: none).

    `FbE` None: the member is stable edgewise and nothing is amplified.
    """

    place: str
    fb1: Step
    Fb1_adj: Step
    Fb1_tension: Step
    fb2: Step | None
    Fb2_adj: Step | None
    FbE: Step | None
    fb1_most: Step | None = None  # of the largest moment, for the tension edge; None: fb1


def combined(member: LoadedMember, brace: Bracing) -> list[Check]:
    """Every interaction of axial force and bending that the case has."""
    side = member.main.side
    if side.N_arm is None and side.M_across is None:
        return []
    rows = list[Check]()
    if side.M_across is not None:
        at_edge = _both_axes(member, brace, EDGE, member.M_edge, side.M_across, brace.at_edge.CL)
        inside = _both_axes(
            member, brace, BACK_SPAN, brace.M_back, brace.M_across, brace.in_back.CL, hole=False
        )
        rows += [*_biaxial(member, at_edge), *_biaxial(member, inside)]
    if side.N_arm is not None:
        arm = _both_axes(member, brace, ARM, member.M_arm, side.M_across, brace.at_edge.CL)
        assert side.N_all is not None
        rows += _axial(member, brace, arm, side.N_arm)
        rows += _axial(member, brace, _house_side(member, brace), side.N_all)
    return rows


def _house_side(member: LoadedMember, brace: Bracing) -> "BothAxes":
    """Bending on the house side: at the edge, or of an unbraced stretch of the back span where its
    moment over its own CL is more. The tension edge has no CL: the larger moment."""
    side, at_edge, in_back = member.main.side, brace.at_edge.CL, brace.in_back.CL
    M_edge, across = np.abs(member.M_arm), side.M_across
    if member.flat:
        inside = brace.M_back > M_edge
    else:
        inside = brace.M_back / in_back.value > M_edge / at_edge.value
    if not np.any(inside | (brace.M_largest > M_edge)):
        return _both_axes(member, brace, BACK_SPAN, M_edge, across, at_edge)
    M, CL = np.where(inside, brace.M_back, M_edge), at_edge
    if not member.flat:
        note = "of the edge, or of the stretch between blocks, whichever has the larger M / CL"
        CL = given("CL", np.where(inside, in_back.value, at_edge.value), "", at_edge.clause, note)
        CL = replace(CL, inputs={"CL_edge": at_edge, "CL_back": in_back})
    if across is not None and brace.M_across is not None:
        across = np.where(inside, np.maximum(np.abs(across), brace.M_across), across)
    found = _both_axes(member, brace, BACK_SPAN, M, across, CL)
    most = _both_axes(member, brace, BACK_SPAN, np.maximum(M_edge, brace.M_largest), across, CL)
    return replace(found, fb1_most=most.fb1)


def _both_axes(
    member: LoadedMember, brace: Bracing, place: str, M: Array, M_across: Array | None, CL: Step,
    *, hole: bool = True,
) -> BothAxes:  # fmt: skip
    """Both bending stresses of a place, edgewise first, however the member is laid; `hole`: that of
    the edge, which its moment stands over on both sides, counts."""
    wood, plies = member.model.wood, member.case.outrigger.plies
    force = member.force("M", np.abs(M), "lb-in", "square to the sheathing")
    if member.hand is not None and place in (ARM, EDGE):
        outside = member.hand.arm_moment()
        forms = (outside,) if place == ARM else (member.hand.moment(), outside)
        force = by_hand.attach(forms[0], force.value, by_hand.size, *forms[1:])
    b = breadth_left(member, EDGE) if hole else member.b
    square, across = _stress(b, net_depth(member), force), None
    if M_across is not None:
        force = member.force("M", np.abs(M_across), "lb-in", "across the member")
        if member.side_hand is not None and place in (ARM, EDGE):
            force = by_hand.attach(member.side_hand.moment(), force.value, by_hand.size)
        # of one piece the hole is at its middle, of several at their inner faces
        b_across = member.b if plies == 1 else float(np.asarray(amount(b)))
        across = _stress(net_depth(member) * plies, b_across / plies, force)
    edgewise, flatwise = (across, square) if member.flat else (square, across)
    Fb1_star = adjusted(
        "Fb", wood, replace(member.conditions, flat=False), member.main.combinations.times
    )
    single = replace(member.conditions, flat=True, repetitive=False)
    Fb2_star = adjusted("Fb", wood, single, member.main.combinations.times)
    one = given("Cfu", 1.0, "", "NDS 2018 4.3.7", "load on the narrow face")
    Fb1_adj = adjusted_bending.step(Fb_star=Fb1_star, CL=CL, Cfu=one)
    Fb2_adj = None
    if flatwise is not None:
        stable = given("CL", 1.0, "", "NDS 2018 3.3.3.1", "flatwise")
        Cfu = flat_use(wood, True)
        Fb2_adj = adjusted_bending.step(Fb_star=Fb2_star, CL=stable, Cfu=Cfu)
        Fb2_adj, flatwise = replace(Fb2_adj, symbol="Fb2_adj"), replace(flatwise, symbol="fb2")
    if edgewise is None:
        edgewise = given("fb", np.zeros((1, 1)), "psi", ANY, "no force across")
    return BothAxes(
        place=place,
        fb1=replace(edgewise, symbol="fb1"),
        Fb1_adj=replace(Fb1_adj, symbol="Fb1_adj"),
        Fb1_tension=replace(Fb1_star, symbol="Fb1_tension"),
        fb2=flatwise,
        Fb2_adj=Fb2_adj,
        FbE=(brace.longest if place == BACK_SPAN else brace.at_edge).least_FbE,
    )


def _stress(b: Num | Step, d: float, M: Step) -> Step:
    return bending.bending_stress.step(M=M, S=rectangle.section_modulus.step(b=b, d=d))


def _biaxial(member: LoadedMember, at: BothAxes) -> list[Check]:
    """Bending about both axes. NDS 2018 3.9.2 without axial force."""
    shown: tuple[Step, ...] = ()
    if at.fb2 is None or at.Fb2_adj is None:
        return []
    if at.FbE is None:
        ratio = axial.both_ways_stable.step(
            fb1=at.fb1, Fb1_adj=at.Fb1_adj, fb2=at.fb2, Fb2_adj=at.Fb2_adj
        )
    else:
        with _at_the_limit():
            ratio = axial.both_ways.step(
                fb1=at.fb1,
                Fb1_adj=at.Fb1_adj,
                fb2=at.fb2,
                Fb2_adj=at.Fb2_adj,
                FbE=at.FbE,
            )
        stable = axial.stable_edgewise.step(fb1=at.fb1, FbE=at.FbE)
        ratio = axial.unless_unstable(ratio, stable)
        if np.any(np.asarray(stable.value) >= 1):
            shown = (stable, ratio)
    row = _interaction(member, BOTH_WAYS, at.place, "NDS 2018 3.9.2", ratio)
    return [replace(row, steps=shown or row.steps)]


def _interaction(member: LoadedMember, link: Link, place: str, clause: str, ratio: Step) -> Check:
    row = Check(
        link=link,
        place=place,
        clause=clause,
        demand=np.maximum(ratio.value, 0.0),
        capacity=1.0,
        unit="",
        steps=(ratio,),
    )
    return member.over(row)


def _axial(member: LoadedMember, brace: Bracing, at: BothAxes, N: Array) -> list[Check]:
    A = rectangle.area.step(b=breadth_left(member, EDGE), d=net_depth(member))
    rows = []
    if np.any(N > 0):
        rows += _tension(member, at, np.maximum(N, 0.0), A)
    if np.any(N < 0):
        rows += _compression(member, brace, at, np.maximum(-N, 0.0), A)
    return rows


def _tension(member: LoadedMember, at: BothAxes, N: Array, A: Step) -> list[Check]:
    """Tension with bending. NDS 2018 3.9.1. Bending alone stands in its own row."""
    pull = member.force("N_tension", N, "lb", "along the member")
    ft = axial.tension_stress.step(N_tension=pull, A=A)
    Ft_adj, free, fb1 = member.adjusted("Ft"), at.Fb1_tension, at.fb1_most or at.fb1
    if at.fb2 is None or at.Fb2_adj is None:
        ratio = axial.tension_and_bending.step(ft=ft, Ft_adj=Ft_adj, fb1=fb1, Fb1_tension=free)
    else:
        ratio = axial.tension_and_both.step(
            ft=ft, Ft_adj=Ft_adj, fb1=fb1, Fb1_tension=free,
            fb2=at.fb2, Fb2_adj=at.Fb2_adj,
        )  # fmt: skip
    less = axial.bending_less_tension.step(fb1=at.fb1, ft=ft, Fb1_adj=at.Fb1_adj)
    pulled = np.broadcast_to(N > 0, np.shape(ratio.value))
    ratio = replace(ratio, value=np.where(pulled, ratio.value, 0.0))
    less = replace(less, value=np.where(pulled, less.value, 0.0))
    clause = "NDS 2018 3.9.1"
    return [
        _interaction(member, TENSION, at.place, clause, ratio),
        _interaction(member, TENSION_LESS, at.place, clause, less),
    ]


def _compression(
    member: LoadedMember, brace: Bracing, at: BothAxes, N: Array, A: Step
) -> list[Check]:
    """Compression with bending, and what keeps it stable. NDS 2018 3.9.2, 3.7.1."""
    push = member.force("N_compression", N, "lb", "along the member")
    fc = axial.compression_stress.step(N_compression=push, A=A)
    edge, flat = brace.buckling(member, at.place)
    (slender1, FcE1), (slender2, FcE2) = edge, flat
    FcE1, FcE2 = replace(FcE1, symbol="FcE1"), replace(FcE2, symbol="FcE2")
    Fc_star = member.adjusted("Fc")
    CP = axial.stability_factor(FcE1, FcE2, Fc_star)
    Fc_adj = adjusted_compression.step(Fc_star=Fc_star, CP=CP)
    one = {"fc": fc, "Fc_adj": Fc_adj, "fb1": at.fb1, "Fb1_adj": at.Fb1_adj}
    if at.fb2 is None or at.Fb2_adj is None:
        with _at_the_limit():
            ratio = axial.compression_and_bending.step(**one, FcE1=FcE1)
        stable = axial.stable_one_axis.step(fc=fc, FcE1=FcE1)
    else:
        FbE = at.FbE or given("FbE", 1e9, "psi", "NDS 2018 3.3.3.1", "stable: no limit")
        with _at_the_limit():
            ratio = axial.compression_and_both.step(
                **one, FcE1=FcE1, fb2=at.fb2, Fb2_adj=at.Fb2_adj, FcE2=FcE2, FbE=FbE
            )
        stable = axial.stable_both.step(fc=fc, FcE1=FcE1, FcE2=FcE2, fb1=at.fb1, FbE=FbE)
    pushed = np.broadcast_to(N > 0, np.shape(ratio.value))
    ratio = axial.unless_unstable(ratio, stable)
    ratio = replace(ratio, value=np.where(pushed, ratio.value, 0.0))
    column = np.any(pushed, axis=-1, keepdims=True)  # cases that no combination pushes: no column
    stable = replace(stable, value=np.where(column, stable.value, 0.0))
    clause = "NDS 2018 3.9.2"
    return [
        _interaction(member, COMPRESSION, at.place, clause, ratio),
        _interaction(member, BUCKLING, at.place, clause, stable),
        Check(
            link=SLENDERNESS,
            place=at.place,
            clause="NDS 2018 3.7.1.4",
            demand=np.where(column, greatest(slender1.value, slender2.value), 0.0),
            capacity=axial.SLENDEREST,
            unit="",
            steps=(slender1, slender2),
        ),
    ]
