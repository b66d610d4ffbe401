"""Shear on both sides of the edge and in the rest of the back span. NDS 2018 3.4.2."""

import numpy as np
from msgspec.structs import replace

from outrigger.actions import by_hand
from outrigger.actions.places import EDGE, WALL_LINE
from outrigger.checks.loaded_member import LoadedMember, largest
from outrigger.checks.notches import net_depth, relieved
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, given
from outrigger.formula.kind import Link
from outrigger.formula.numbers import Array
from outrigger.wood import notch
from outrigger.wood import shear as wood_shear
from outrigger.wood.shear import IN_SHEAR, SHEAR

ARM_SIDE = Link(SHEAR, "arm side", "arm side")
BY_WALL = Link(SHEAR, "by the wall", "by the wall")
HOUSE_SIDE = Link(SHEAR, "house side", "house side")


def shear(member: LoadedMember) -> list[Check]:
    """Both sides of the edge and the rest of the back span. NDS 2018 3.4.2.

    The shear of both axes together; on the arm, torsion too unless it is blocked at the wall line
    (the standard gives no value for torsion: Fv' is used).
    """
    Fv_adj, stretches, hand = member.adjusted("Fv"), member.main.back_span.stretches, member.hand
    whole, over = member.model.whole, member.main.combinations
    row = len(member.model.supports) > 2
    beside = [member.main.V_house] if row else []  # of two supports it is that of the stretch
    elsewhere = [s.V_inner for s in stretches] + [s.V_outer for s in stretches[:-1]]
    V_arm = member.force("V", over.combine(whole.V_arm), "lb", ARM_SIDE.more)
    V_house = largest([stretches[-1].V_outer, *beside])
    V_edge = member.force("V", V_house, "lb", HOUSE_SIDE.more)
    V_back = member.force("V", largest(elsewhere), "lb", "largest in the back span")
    if hand is not None:
        V_arm = by_hand.attach(hand.arm_shear(), V_arm.value)
        V_edge = by_hand.attach(hand.house_shear(), V_edge.value, by_hand.size)
        V_back = by_hand.attach(hand.back_shear(), V_back.value, by_hand.size)
    if member.case.outrigger.near_support_relief:
        V_arm = relieved(member, V_arm)
    rows = [_on_arm(member, EDGE, ARM_SIDE, V_arm, Fv_adj)]
    if "W_up" in member.model.parts:  # the strip then works against the uplift
        V_wall = member.force("V", over.combine(whole.V_wall), "lb", BY_WALL.more)
        closed = None if hand is None else hand.wall_shear()
        if closed is not None:
            V_wall = by_hand.attach(closed, V_wall.value)
        rows.append(_on_arm(member, "arm", BY_WALL, V_wall, Fv_adj))
    rows.append(_in_house(member, EDGE, HOUSE_SIDE, V_edge, Fv_adj))
    rows.append(_in_house(member, "back span", IN_SHEAR, V_back, Fv_adj))
    return [member.over(row) for row in rows]


def _on_arm(member: LoadedMember, place: str, link: Link, V: Step, Fv_adj: Step) -> Check:
    """Shear of a stretch of the arm, with what acts across and twists it."""
    row = _square(member, place, link, V, Fv_adj)
    across = member.main.side.V_across
    return row if across is None else _both_axes(member, row, across, on_arm=True)


def _in_house(member: LoadedMember, place: str, link: Link, V: Step, Fv_adj: Step) -> Check:
    """Shear of a stretch of the back span, with what acts across."""
    row = _square(member, place, link, V, Fv_adj)
    across = member.main.side.V_back
    return row if across is None else _both_axes(member, row, across, on_arm=False)


def _square(member: LoadedMember, place: str, link: Link, V: Step, Fv_adj: Step) -> Check:
    d = net_depth(member) if place == EDGE else member.d
    return wood_shear.shear(link=link, place=place, V=V, b=member.b, d=d, Fv_adj=Fv_adj)


def _both_axes(member: LoadedMember, row: Check, across: Array, *, on_arm: bool) -> Check:
    """The row with the shear across the member and the torsion of the arm."""
    fv_square, Fv_adj = row.steps
    V = member.force("V", np.abs(across), "lb", "across the member")
    if on_arm and member.side_hand is not None:
        V = by_hand.attach(member.side_hand.arm_shear(), V.value, by_hand.size)
    fv_across = wood_shear.shear_stress.step(V=V, b=member.b, d=net_depth(member))
    twist = given(
        "f_torsion", np.zeros((1, 1)), "psi", "", "blocked at the garage wall, or not here"
    )
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
