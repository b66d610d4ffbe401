"""The seal between the two buildings, and the free space below the wall. ASTM C920."""

from collections.abc import Mapping

import numpy as np
from msgspec.structs import replace

from outrigger.actions.geometry import column
from outrigger.actions.places import BACK, EDGE, WALL_LINE
from outrigger.checks.at_wall import crush_at_wall, slip_at_wall, used_up
from outrigger.checks.bearing import EDGE_BEARING
from outrigger.checks.house_edge import HOUSE_EDGE, HOUSE_RAFTER
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.one_clip import HOLD_DOWN
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Num, sqrt

TOTAL_SAG = "total deflection"  # how a member below calls its droop
JOINT = Kind("joint", "seal movement")
SLIP = Link(JOINT, "slip of the seal", "")
RISE = Link(JOINT, "rise of the wall", "rise of the wall")
SPACE_BELOW = Link(JOINT, "space below", "space below", "movement")


@formula("u_slip", "in", clause="statics")
def edge_slip_at_wall(u_clip: Num, r_clip: Num, a: Num, L_b: Num) -> Num:
    """Rise of the wall line by slip of the edge tie."""
    return u_clip * r_clip * (1 + a / L_b)


@formula("u_wall", "in", clause="sum of the movements")
def rise_at_wall(D_T: Num, u_slip: Num, u_build: Num) -> Num:
    """Rise of the wall line under wind, the buildings moving too."""
    return D_T + u_slip + u_build


@formula("u_shrink", "in", clause="common practice, no source: 0.2 % per point of moisture")
def shrinkage(mc_change: Num, d: Num) -> Num:
    """Shrinkage of the depth of the member."""
    return 0.0020 * mc_change * d


@formula("u_below", "in", clause="statics: what is below sags where the outrigger stands on it")
def sag_at_wall(sag_edge: Num, sag_back: Num, a: Num, L_b: Num) -> Num:
    """Movement at the wall line by the sag of the members below edge and back."""
    return sag_edge * (1 + a / L_b) + sag_back * a / L_b


@formula("u_wall", "in", clause="sum of the movements")
def movement_at_wall(
    D_T: Num, u_slip: Num, u_crush: Num, u_below: Num, u_shrink: Num, u_build: Num
) -> Num:
    """Movement at the wall line, the buildings moving too."""
    return D_T + u_slip + u_crush + u_below + u_shrink + u_build


@formula("u_joint", "in", clause="ASTM C920 class, slip along the joint")
def joint_capacity(S_class: Num, W_joint: Num) -> Num:
    """Slip that a sealed joint allows."""
    return sqrt((1 + S_class) ** 2 - 1) * W_joint


def seal(member: LoadedMember, total: Check, others: list[Check]) -> list[Check]:
    """The seal between the buildings, and the free space below the wall. ASTM C920."""
    limits, shape = member.case.limits, member.model.shape
    if limits.joint_width is None and limits.below_clearance is None:
        return []
    worst = np.asarray(total.steps[0].value)
    lever = {"a": shape.arm, "L_b": shape.back_span}
    u_clip = limits.clip_slip or 0.0
    slip = slip_at_wall.step(u_clip=u_clip, r_clip=used_up(others, HOLD_DOWN, BACK), **lever)
    crush = crush_at_wall.step(r_layers=used_up(others, EDGE_BEARING, EDGE), **lever)
    shrink = shrinkage.step(mc_change=limits.moisture_change or 0.0, d=member.d)
    stated = limits.building_movement
    note = "expected between the two buildings, " + ("not given" if stated is None else "as stated")
    between = given("u_build", stated or 0.0, "in", "", note)
    droop = np.max(np.maximum(worst, 0.0), axis=1, keepdims=True)
    moved = movement_at_wall.step(
        D_T=given("D_T", droop, "in", "total droop, see above"),
        u_slip=slip,
        u_crush=crush,
        u_below=_of_below(others, lever),
        u_shrink=shrink,
        u_build=between,
    )
    rise = np.max(np.maximum(-worst, 0.0), axis=1, keepdims=True)
    up = rise_at_wall.step(
        D_T=given("D_T", rise, "in", "rise under wind, see above"),
        u_slip=edge_slip_at_wall.step(
            u_clip=u_clip, r_clip=used_up(others, HOLD_DOWN, EDGE), **lever
        ),
        u_build=between,
    )
    rows = []
    if limits.joint_width is not None:
        known = limits.joint_class is not None
        S_class = 1.0 if limits.joint_class == "100/50" else float(limits.joint_class or 0.0) / 100
        allowed = joint_capacity.step(S_class=S_class, W_joint=column(limits.joint_width))
        for step, link in ((moved, SLIP), (up, RISE)):
            row = _joint(link, "ASTM C920", step)
            if known:
                row = replace(row, capacity=allowed.value, steps=(step, allowed))
            else:
                row = replace(row, why="the class of the sealant is not given")
            rows.append(row)
    if limits.below_clearance is not None:
        free = column(limits.below_clearance)
        rows.append(replace(_joint(SPACE_BELOW, "geometry", moved), capacity=free))
    return rows


def _of_below(others: list[Check], lever: Mapping[str, Num]) -> Step:
    """Movement by the members of the house below, where they are given: their droop at mid-span,
    creep and their own load counted."""
    edge = _sag(others, "sag_edge", HOUSE_EDGE, EDGE)
    return sag_at_wall.step(
        sag_edge=edge, sag_back=_sag(others, "sag_back", HOUSE_RAFTER, BACK), **lever
    )


def _sag(others: list[Check], symbol: str, kind: Kind, place: str) -> Step:
    """Largest droop of the member below a place, in, a column; none where it is not given."""
    link = Link(kind, TOTAL_SAG, TOTAL_SAG)
    found = [np.abs(np.asarray(c.demand)) for c in others if c.link == link and c.place == place]
    if not found:
        return given(symbol, np.zeros((1, 1)), "in", "", f"member below the {place} not given")
    most = np.max([np.max(np.atleast_2d(one), axis=1, keepdims=True) for one in found], axis=0)
    return given(symbol, most, "in", "", f"droop of the member below the {place}, see there")


def _joint(link: Link, clause: str, moved: Step) -> Check:
    """A movement, in, against nothing yet."""
    return Check(
        link=link,
        place=WALL_LINE,
        clause=clause,
        demand=moved.value,
        capacity=None,
        unit="in",
        steps=(moved,),
    )
