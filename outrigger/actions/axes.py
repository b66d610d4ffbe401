"""Loads turned into the axes of the member: square to the sheathing, along it, across it.

Loads are vertical, but for wind on the strip and the back span (square to the sheathing), wind on
the garage wall (horizontal, square to the wall) and force along the wall. Down the slope a
vertical load has a part along the member; across the slope, one across it, down the slope.

A force along the member acts at its top and is resisted at its bottom. In the arm it runs d/2
above the axis; what is resisted at the edge turns the member by another d/2: so the arm's couple
stands at the wall line and at the edge, half in each. Loads on the back span turn it by the whole
depth, taken at the edge. In lb and in, by part, columns of cases.
"""

from collections.abc import Mapping

import numpy as np
from msgspec import Struct, field
from msgspec.structs import replace

from outrigger.actions.geometry import Geometry, column
from outrigger.actions.loads import Loads
from outrigger.actions.response import covered_gain
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Array, Num, cos_deg, sin_deg
from outrigger.loads.parts import SIDEWAYS

SQUARE = (
    "W_up",
    "W_down",
    "W_back",
    "W_press_back",
)  # on strip and back span: square to the sheathing


@formula("P_square", "lb", clause="statics")
def square_part(P_line: Num, theta_roof: Num) -> Num:
    """Part of a vertical load square to the sheathing."""
    return P_line * cos_deg(theta_roof)


@formula("F_along", "lb", clause="statics")
def along_part(P_line: Num, theta_roof: Num) -> Num:
    """Part of a vertical load along the member, down the slope."""
    return P_line * sin_deg(theta_roof)


@formula("F_across", "lb", clause="statics")
def across_part(P_line: Num, theta_roof: Num) -> Num:
    """Part of a vertical load across the member, down the slope."""
    return P_line * sin_deg(theta_roof)


@formula("P_square", "lb", clause="statics")
def square_part_of_wind(H_wall: Num, theta_roof: Num) -> Num:
    """What wind away from the house, on a member that falls away from it, lifts."""
    return -H_wall * sin_deg(theta_roof)


@formula("F_along", "lb", clause="statics")
def along_part_of_wind(H_wall: Num, theta_roof: Num) -> Num:
    """Part of the wind on the garage wall along the member."""
    return H_wall * cos_deg(theta_roof)


class ByAxis(Struct, frozen=True, eq=False):
    """Loads in the axes of the member.

    `square`: as `Loads`, square to the sheathing, with the couples of the forces along;
    `across`: as `Loads`, down a slope across the member or along the garage wall; None: nothing.
    `on_arm`, `on_back`: forces along the member, lb, outward positive, by part.
    """

    square: Loads
    across: Loads | None
    on_arm: Mapping[str, Array] = field(default_factory=dict)
    on_back: Mapping[str, Array] = field(default_factory=dict)
    steps: Mapping[str, tuple[Step, ...]] = field(default_factory=dict)


def by_axis(on: Loads, shape: Geometry, d: float) -> ByAxis:
    """The loads of a case in the axes of its member; d in, its depth as laid."""
    tilt = shape.tilt
    square = _part(on, tilt.cos, 1.0)
    on_arm: dict[str, Array] = dict(on.on_wall)
    on_back: dict[str, Array] = {}
    if tilt.down:
        lifted = {part: -H * tilt.sin for part, H in on.on_wall.items()}
        square = replace(square, wall_line={**square.wall_line, **lifted})
        on_arm, on_back = _along(_part(on, tilt.sin, 0.0), shape)
        for part, H in on.on_wall.items():
            on_arm[part] = H * tilt.cos
    if on_arm or on_back:
        both = {*on_arm, *on_back}
        none = column(0.0)
        at_edge = {
            part: on_arm.get(part, none) * d / 2 + on_back.get(part, none) * d for part in both
        }
        at_wall = {part: F * d / 2 for part, F in on_arm.items()}
        square = replace(square, couple_wall=at_wall, couple_edge=at_edge)
    across = None
    if tilt.across or on.along_wall:
        across = _part(on, tilt.sin if tilt.across else 0.0, 0.0)
        across = replace(across, wall_line={**across.wall_line, **on.along_wall})
    return ByAxis(square, across, on_arm, on_back, wall_steps(on, shape))


def _part(on: Loads, share: float, of_square: float) -> Loads:
    """The same loads times `share`; those square to the sheathing times `of_square`."""

    def of(part: str) -> float:
        return of_square if part in SQUARE else share

    return replace(
        on,
        wall_line={part: P * share for part, P in on.wall_line.items() if part not in SIDEWAYS},
        strip={part: q * of(part) for part, q in on.strip.items()},
        back={part: q * of(part) for part, q in on.back.items()},
        self_weight=on.self_weight * share,
        worker=on.worker * share,
        strip_ramp={part: q * share for part, q in on.strip_ramp.items()},
        house={part: (peak * share, width) for part, (peak, width) in on.house.items()},
        shed={part: (q * share, width) for part, (q, width) in on.shed.items()},
    )


def _along(on: Loads, shape: Geometry) -> tuple[dict[str, Array], dict[str, Array]]:
    """Sums of distributed and point loads, lb: on arm and tail, and on the house side."""
    arm = {part: P.copy() for part, P in on.wall_line.items()}
    open_length = shape.end - np.minimum(on.covered, shape.arm)  # the overhang covers the rest
    for part, q in on.strip.items():
        length = shape.end if part == "D" else open_length
        arm[part] = arm.get(part, column(0.0)) + q * length
    for part, q in on.strip_ramp.items():
        start, at_start, at_arm = covered_gain(on, shape)
        covered = (at_start + at_arm) / 2 * (shape.arm - start)
        arm[part] = arm[part] + q * ((shape.end - shape.face) / 2 - covered)
    arm["D"] = arm["D"] + on.self_weight * shape.end
    arm["worker"] = on.worker
    back = {part: q * shape.back_span for part, q in on.back.items()}
    own = -on.self_weight * shape.house_end
    back |= {"D_back": back.get("D_back", column(0.0)) + own, "D_own": own}
    for part, (peak, width) in on.house.items():
        outer = _falling(peak, width, shape.arm)
        arm[part] = arm.get(part, column(0.0)) + outer
        whole = _falling(peak, width, shape.arm + shape.back_span)
        back[part] = back.get(part, column(0.0)) + whole - outer
    for part, (q, width) in on.shed.items():
        outer = q * np.minimum(width, shape.arm)
        arm[part] = arm.get(part, column(0.0)) + outer
        whole = q * np.minimum(width, shape.arm + shape.back_span)
        back[part] = back.get(part, column(0.0)) + whole - outer
    return arm, back


def _falling(peak: Array, width: Array, reach: Array) -> Array:
    """Sum of a drift that falls from `peak` to nothing over `width`, up to `reach` from it, lb."""
    reach = np.minimum(width, reach)
    return peak * reach * (1 - reach / np.where(width > 0, 2 * width, np.inf))


def wall_steps(on: Loads, shape: Geometry) -> dict[str, tuple[Step, ...]]:
    """The take-down of the wall line's loads into the axes of the member, by part."""
    theta = given("theta_roof", shape.tilt.theta, "deg", "", "slope of the house roof")
    steps: dict[str, tuple[Step, ...]] = {}
    if shape.tilt.way == "level":
        return steps
    other = along_part if shape.tilt.down else across_part
    for part, total in on.wall_line.items():
        P = given("P_line", total, "lb", "", "the sum, vertical")
        steps[part] = (
            square_part.step(P_line=P, theta_roof=theta),
            other.step(P_line=P, theta_roof=theta),
        )
    if shape.tilt.down:
        for part, force in on.on_wall.items():
            H = given("H_wall", force, "lb", "", "on the garage wall, horizontal")
            steps[part] = (
                square_part_of_wind.step(H_wall=H, theta_roof=theta),
                along_part_of_wind.step(H_wall=H, theta_roof=theta),
            )
    return steps
