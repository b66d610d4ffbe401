"""Droop at the garage wall: of the wood, and with what its clips and its bearing give."""

import numpy as np
from msgspec import Struct

from outrigger.actions.places import BACK, EDGE
from outrigger.checks.bearing import EDGE_BEARING
from outrigger.checks.loaded_member import COMMON, LoadedMember
from outrigger.checks.one_clip import HOLD_DOWN
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Kind
from outrigger.formula.numbers import Array, Num

SLIP_IN = 0.125  # of a clip at its listed value, taken where it is not given, and listed


@formula("u_slip", "in", clause="statics")
def slip_at_wall(u_clip: Num, r_clip: Num, a: Num, L_b: Num) -> Num:
    """Movement at the wall line by slip of the back clip."""
    return u_clip * r_clip * a / L_b


@formula(
    "u_crush", "in", clause="NDS 2018 4.2.6: 0.04 in at the design value", constants={"0.04": "in"}
)
def crush_at_wall(r_layers: Num, a: Num, L_b: Num) -> Num:
    """Movement at the wall line by crushing of the layers at the edge."""
    return 0.04 * r_layers * (1 + a / L_b)


@formula("u_droop", "in", clause="sum of the movements")
def droop_of_all(D_T: Num, u_slip: Num, u_crush: Num) -> Num:
    """Droop at the wall line with slip of the back clip and crushing at the edge."""
    return D_T + u_slip + u_crush


class AtWall(Struct, frozen=True, eq=False):
    """Largest droop at the garage wall, in, columns: of the wood alone, creep included; by slip of
    the back clip and by crushing at the house wall; all together. `known`: of slip and crushing,
    whether what they are scaled by is given; else they are 0 here, and the whole is more."""

    wood: Step
    slip: Step
    crush: Step
    whole: Step
    known: tuple[bool, bool]


def at_wall(member: LoadedMember, total: Array, others: list[Check]) -> AtWall:
    """The droop at the garage wall with slip and crushing counted.

    total: droop of the wood in every service combination, creep included, up negative; others: the
    strength checks, whose ratios scale slip and crushing.
    """
    shape, stated = member.model.shape, member.case.limits.clip_slip
    lever = {"a": shape.arm, "L_b": shape.back_span}
    u_clip: Num | Step = SLIP_IN if stated is None else stated
    if stated is None:
        u_clip = given("u_clip", SLIP_IN, "in", COMMON, "at its listed value, taken")
    slip = slip_at_wall.step(u_clip=u_clip, r_clip=used_up(others, HOLD_DOWN, BACK), **lever)
    crush = crush_at_wall.step(r_layers=used_up(others, EDGE_BEARING, EDGE), **lever)
    most = np.max(np.maximum(total, 0.0), axis=1, keepdims=True)
    wood = given("D_T", most, "in", "NDS 2018 3.5.2", "largest droop of the wood alone")
    whole = droop_of_all.step(D_T=wood, u_slip=slip, u_crush=crush)
    known = (_has_ratio(others, HOLD_DOWN, BACK), _has_ratio(others, EDGE_BEARING, EDGE))
    return AtWall(wood, slip, crush, whole, known)


def _has_ratio(checks: list[Check], kind: Kind, place: str) -> bool:
    here = [c for c in checks if c.kind == kind and c.place == place and not c.link.is_distance]
    return any(c.capacity is not None and c.rule != "fail" for c in here)


def used_up(checks: list[Check], kind: Kind, place: str) -> Array:
    """Largest ratio of a kind at a place, a column: summed over the layers of a bearing, which all
    give; of a chain of links the weakest; 0 without a capacity."""
    total = np.zeros((1, 1))
    for check in checks:
        here = check.kind == kind and check.place == place
        if here and check.capacity is not None and check.rule != "fail":
            largest = check.largest_ratio[:, None]
            largest = np.where(np.isfinite(largest), largest, 0.0)
            total = np.maximum(total, largest) if kind.chained else total + largest
    return total
