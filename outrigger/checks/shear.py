"""Shear on both sides of the edge and in the rest of the back span. NDS 2018 3.4.2."""

from dataclasses import replace

import numpy as np

from outrigger.actions.places import EDGE, WALL_LINE
from outrigger.checks.loaded_member import LoadedMember, largest
from outrigger.checks.notches import net_depth, relieved
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, given
from outrigger.formula.numbers import Array
from outrigger.wood import notch
from outrigger.wood import shear as wood_shear


def shear(member: LoadedMember) -> list[Check]:
    """Both sides of the edge and the rest of the back span. NDS 2018 3.4.2.

    The shear of both axes together; on the arm, torsion too unless it is blocked at the wall line
    (the standard gives no value for torsion: Fv' is used).
    """
    Fv_adj, stretches = member.adjusted("Fv"), member.stretches
    whole, over, side = member.model.whole, member.main.combinations, member.main.side
    row = len(member.model.supports) > 2
    beside = [member.main.V_house] if row else []  # of two supports it is that of the stretch
    elsewhere = [s.V_inner for s in stretches] + [s.V_outer for s in stretches[:-1]]
    arm = [(EDGE, "arm side", whole.V_arm)]
    if "W_up" in member.model.parts:  # the strip then works against the uplift
        arm.append(("arm", "by the wall", whole.V_wall))
    house = [
        (EDGE, "house side", [stretches[-1].V_outer, *beside]),
        ("back span", "", elsewhere),
    ]
    rows = []
    for place, link, sums in arm:
        V = _by_hand(member, link, over.combine(sums))
        if place == EDGE and member.case.outrigger.near_support_relief:
            V = relieved(member, V)
        rows.append(member.over(_shear(member, place, link, V, Fv_adj, side.V_across)))
    for place, link, tables in house:
        V = _by_hand(member, link, largest(tables))
        rows.append(member.over(_shear(member, place, link, V, Fv_adj, side.V_back)))
    return rows


def _shear(
    member: LoadedMember, place: str, link: str, V: Step, Fv_adj: Step, across: Array | None
) -> Check:
    d = net_depth(member) if place == EDGE else member.d
    row = wood_shear.shear(place=place, V=V, b=member.b, d=d, Fv_adj=Fv_adj)
    on_arm = link in ("arm side", "by the wall")
    return replace(row if across is None else _both_axes(member, row, across, on_arm), link=link)


def _by_hand(member: LoadedMember, link: str, V: Array) -> Step:
    """Shear of one stretch; by its closed form if there is one."""
    hand, closed = member.hand, None
    if hand is not None:
        forms = {
            "arm side": hand.arm_shear,
            "by the wall": hand.wall_shear,
            "house side": hand.house_shear,
        }
        closed = forms.get(link, hand.back_shear)()
    said = link or "largest in the back span"
    return member.force("V", V, "lb", said) if closed is None else replace(closed, value=V)


def _both_axes(member: LoadedMember, row: Check, across: Array, on_arm: bool) -> Check:
    """The row with the shear across the member and the torsion of the arm."""
    fv_square, Fv_adj = row.steps
    V = member.force("V", np.abs(across), "lb", "across the member")
    if on_arm and member.side_hand is not None:
        V = replace(member.side_hand.arm_shear(), value=V.value)
    fv_across = wood_shear.shear_stress.step(V=V, b=member.b, d=net_depth(member))
    twist = given("f_torsion", np.zeros((1, 1)), "psi", "", "blocked at the wall line, or not here")
    if on_arm and WALL_LINE not in (member.case.outrigger.blocking or []):
        at = member.force("V_across", np.abs(across), "lb", "at the top of the arm")
        size, plies = member.model.wood.size, member.case.outrigger.plies
        T = notch.torque.step(V_across=at, d=member.d)
        each = notch.torque_of_ply.step(T_arm=T, n_plies=float(plies)) if plies > 1 else T
        left = size.d if member.flat else net_depth(member)
        sides = sorted((left, net_depth(member) if member.flat else size.b))
        twist = notch.torsion_stress.step(T_arm=each, d_long=sides[1], b_short=sides[0])
    fv = notch.shear_of_both.step(
        fv_square=replace(fv_square, symbol="fv_square"),
        fv_across=replace(fv_across, symbol="fv_across"),
        f_torsion=twist,
    )
    return replace(row, demand=fv.value, steps=(fv, Fv_adj))
