"""Shear on both sides of the edge and in the rest of the back span. NDS 2018 3.4.2."""

from dataclasses import replace

import numpy as np

from outrigger.actions.places import EDGE, WALL_LINE
from outrigger.checks.loaded_member import Desk, largest
from outrigger.checks.notches import net_depth, relieved
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, given
from outrigger.formula.numbers import Array
from outrigger.wood import notch
from outrigger.wood import shear as wood_shear


def shear(desk: Desk) -> list[Check]:
    """Both sides of the edge and the rest of the back span. NDS 2018 3.4.2.

    The shear of both axes together; on the arm, torsion too unless it is blocked at the wall line
    (the standard gives no value for torsion: Fv' is used).
    """
    Fv_adj, stretches = desk.adjusted("Fv"), desk.stretches
    whole, over, side = desk.model.whole, desk.main.set, desk.main.side
    row = len(desk.model.supports) > 2
    beside = [desk.main.V_house] if row else []  # of two supports it is that of the stretch
    elsewhere = [s.V_inner for s in stretches] + [s.V_outer for s in stretches[:-1]]
    arm = [(EDGE, "arm side", whole.V_arm)]
    if "W_up" in desk.model.parts:  # the strip then works against the uplift
        arm.append(("arm", "by the wall", whole.V_wall))
    house = [
        (EDGE, "house side", [stretches[-1].V_outer, *beside]),
        ("back span", "", elsewhere),
    ]
    rows = []
    for place, link, sums in arm:
        V = _by_hand(desk, link, over.combine(sums))
        if place == EDGE and desk.case.outrigger.near_support_relief:
            V = relieved(desk, V)
        rows.append(desk.over(_shear(desk, place, link, V, Fv_adj, side.V_across)))
    for place, link, tables in house:
        V = _by_hand(desk, link, largest(tables))
        rows.append(desk.over(_shear(desk, place, link, V, Fv_adj, side.V_back)))
    return rows


def _shear(desk: Desk, place: str, link: str, V: Step, Fv_adj: Step, across: Array | None) -> Check:
    d = net_depth(desk) if place == EDGE else desk.d
    row = wood_shear.shear(place=place, V=V, b=desk.b, d=d, Fv_adj=Fv_adj)
    on_arm = link in ("arm side", "by the wall")
    return replace(row if across is None else _both_axes(desk, row, across, on_arm), link=link)


def _by_hand(desk: Desk, link: str, V: Array) -> Step:
    """Shear of one stretch; by its closed form if there is one."""
    hand, closed = desk.hand, None
    if hand is not None:
        forms = {
            "arm side": hand.arm_shear,
            "by the wall": hand.wall_shear,
            "house side": hand.house_shear,
        }
        closed = forms.get(link, hand.back_shear)()
    said = link or "largest in the back span"
    return desk.force("V", V, "lb", said) if closed is None else replace(closed, value=V)


def _both_axes(desk: Desk, row: Check, across: Array, on_arm: bool) -> Check:
    """The row with the shear across the member and the torsion of the arm."""
    fv_square, Fv_adj = row.steps
    V = desk.force("V", np.abs(across), "lb", "across the member")
    if on_arm and desk.side_hand is not None:
        V = replace(desk.side_hand.arm_shear(), value=V.value)
    fv_across = wood_shear.shear_stress.step(V=V, b=desk.b, d=net_depth(desk))
    twist = given("f_torsion", np.zeros((1, 1)), "psi", "", "blocked at the wall line, or not here")
    if on_arm and WALL_LINE not in (desk.case.outrigger.blocking or []):
        at = desk.force("V_across", np.abs(across), "lb", "at the top of the arm")
        size, plies = desk.model.wood.size, desk.case.outrigger.plies
        T = notch.torque.step(V_across=at, d=desk.d)
        each = notch.torque_of_ply.step(T_arm=T, n_plies=float(plies)) if plies > 1 else T
        left = size.d if desk.flat else net_depth(desk)
        sides = sorted((left, net_depth(desk) if desk.flat else size.b))
        twist = notch.torsion_stress.step(T_arm=each, d_long=sides[1], b_short=sides[0])
    fv = notch.shear_of_both.step(
        fv_square=replace(fv_square, symbol="fv_square"),
        fv_across=replace(fv_across, symbol="fv_across"),
        f_torsion=twist,
    )
    return replace(row, demand=fv.value, steps=(fv, Fv_adj))
