"""Every check of a case: bending and shear here, the others by name.

One function for each check; `all_checks` lists them in the order of the load path.
"""

from dataclasses import replace

import numpy as np

from outrigger.actions.places import EDGE, WALL_LINE
from outrigger.checks.axial import combined
from outrigger.checks.bearing import back_bearing, edge_bearing, plate, wall_bearing
from outrigger.checks.bracing import Bracing, blocked, bracing
from outrigger.checks.hold_downs import hold_downs, splits
from outrigger.checks.loaded_member import Desk, largest
from outrigger.checks.notches import net_depth, notches, relieved
from outrigger.checks.sideways import form, rolls
from outrigger.checks.sliding import slides
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, given
from outrigger.formula.numbers import Array, greatest
from outrigger.wood import bending as wood_bending
from outrigger.wood import lumber, notch
from outrigger.wood import shear as wood_shear
from outrigger.wood.adjusted import flat_use


def all_checks(desk: Desk) -> list[Check]:
    """Every check, in the order of the load path: wall line to house."""
    brace = bracing(desk)
    rows = [*wall_bearing(desk), *plate(desk), *bending(desk, brace), *combined(desk, brace)]
    rows += [*shear(desk), *notches(desk)]
    rows += [*edge_bearing(desk), *back_bearing(desk), *hold_downs(desk), *splits(desk)]
    return [*rows, *slides(desk), *rolls(desk), *form(desk)]


def bending(desk: Desk, brace: Bracing) -> list[Check]:
    """Square to the sheathing, at the edge and in the back span. NDS 2018 3.3."""
    size, b, d = desk.model.wood.size, desk.b, net_depth(desk)
    S = lumber.section_modulus.step(b=b, d=d)
    Fb_star, Cfu = desk.adjusted("Fb"), flat_use(desk.model.wood, desk.flat)
    stops = blocked(desk.case)
    one_ply = size.d if desk.flat else size.b
    held = stops is None or any(np.all(x == 0) for x in stops) or desk.d <= one_ply
    hogging, inside = desk.edge_moment, desk.main.set.size(*brace.M_inside)
    M = desk.force("M", hogging.largest, "lb-in", "at the house edge")
    if desk.hand is not None:
        M = replace(desk.hand.moment(), value=M.value)
    CL, CL_back = brace.CL(desk, EDGE), brace.CL(desk, "back span")
    at_edge = wood_bending.bending(place=EDGE, M=M, S=S, Fb_star=Fb_star, CL=CL, Cfu=Cfu, held=held)
    M_back = desk.force("M", inside.largest, "lb-in", "largest inside the back span")
    S_back = lumber.section_modulus.step(b=b, d=desk.d)
    in_back = wood_bending.bending(
        place="back span", M=M_back, S=S_back, Fb_star=Fb_star, CL=CL_back, Cfu=Cfu
    )
    slender = [
        *wood_bending.slenderness_check(EDGE, CL),
        *wood_bending.slenderness_check("back span", CL_back),
    ]
    rows = [desk.over(at_edge, by=hogging), desk.over(in_back, by=inside)]
    return [*rows, *_steepest(slender)]


def _steepest(rows: list[Check]) -> list[Check]:
    """One slenderness row: case by case the largest RB."""
    if not rows:
        return []
    largest = greatest(*(row.demand for row in rows))
    shown = max(rows, key=lambda row: float(np.ravel(row.demand)[0]))
    return [replace(shown, place=EDGE, demand=largest)]


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
        if side.V_across is not None or (desk.case.outrigger.near_support_relief and place == EDGE):
            V, by = _by_hand(desk, link, over.combine(sums)), None
        else:
            by = over.size_of(sums)
            V = _by_hand(desk, link, by.largest)
        if place == EDGE and desk.case.outrigger.near_support_relief:
            V = relieved(desk, V)
        rows.append(desk.over(_shear(desk, place, link, V, Fv_adj, side.V_across), by=by))
    for place, link, tables in house:
        by = over.size(*tables) if side.V_back is None else None
        V = _by_hand(desk, link, largest(tables) if by is None else by.largest)
        rows.append(desk.over(_shear(desk, place, link, V, Fv_adj, side.V_back), by=by))
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
