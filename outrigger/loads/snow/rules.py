"""What the snow provisions share: reasons in words, refusals, parts of a roof, their reaction.

Plain numbers or arrays in psf, ft, plf and degrees; each may be the step that gave it.
"""

import sys
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.base.errors import InputError, RangeError
from outrigger.base.tables import SEEN
from outrigger.base.units import INCHES_PER_FOOT
from outrigger.formula.formula import Step, amount, formula
from outrigger.formula.numbers import FIRST, Element, Num, greatest, least, pick, where
from outrigger.loads.combinations import Edition

Given = Num | Step
"""A number, an array, or the step that gave it."""

ABOVE_ZERO, FINITE = sys.float_info.min, sys.float_info.max
DEGREE_ROUNDING = 1e-6  # 2:12 in degrees is the same slope however it was worked out


@formula("w_snow", "plf", clause="statics")
def reaction_of_even_load(q_0: Num, x_0: Num, x_1: Num, L_bearings: Num) -> Num:
    """Reaction on the wall line of an even load on a part of the roof, by moments."""
    return q_0 * (x_1 - x_0) * (L_bearings - (x_0 + x_1) / 2) / L_bearings


@formula("w_snow", "plf", clause="statics")
def reaction_of_taper(q_0: Num, q_1: Num, x_0: Num, x_1: Num, L_bearings: Num) -> Num:
    """Reaction on the wall line of a load that changes evenly along a part, by moments."""
    return (
        (x_1 - x_0)
        * ((q_0 + q_1) / 2 * (L_bearings - x_0) - (x_1 - x_0) * (q_0 + 2 * q_1) / 6)
        / L_bearings
    )


class Why(Struct, frozen=True, eq=False):
    """The reason of a choice in words, element by element: the first that holds."""

    reasons: Sequence[tuple[Any, str]]
    numbers: Mapping[str, Num]

    def __call__(self, element: Element = FIRST) -> str:
        """The reason at one element, its numbers put in."""
        said = {name: f"{round(pick(n, element), 2):g}" for name, n in self.numbers.items()}
        text = next(text for holds, text in self.reasons if pick(holds, element))
        return text.format(**said)


class Provision(Struct, frozen=True, eq=False):
    """What a provision gives: a step, 0 where it does not apply; whether it applies, and why."""

    step: Step
    applies: Any
    why: Why


class Segment(Struct, frozen=True, eq=False):
    """Snow on a part of the garage roof: ft from the wall line, psf at start and end.

    Toward the far bearing is positive, the overhang negative; without `end_psf` it is even.
    """

    start_ft: Num
    end_ft: Num
    psf: Num
    end_psf: Num | None = None


def refuse_outside(what: str, value: Given, low: float, high: float, rule: str) -> None:
    """Refuses a number, or any one of an array, outside the range of a provision.

    Raises:
        RangeError: the first value outside, and the range in words.
    """
    numbers = np.ravel(np.asarray(amount(value), dtype=float))
    outside = numbers[~((numbers >= low) & (numbers <= high))]
    if outside.size:
        raise RangeError(f"{what} {outside[0]:g}: {rule}.")


def refuse_ground_snow(pg_psf: Given) -> None:
    """Refuses a ground snow load under 0."""
    refuse_outside("ground snow, psf,", pg_psf, 0, FINITE, "a snow load is 0 or more")


def refuse_slope(slope_deg: Given) -> None:
    """Refuses a slope that no roof has."""
    rule = "a roof slopes 0 to under 90 degrees"
    refuse_outside("slope, degrees,", slope_deg, 0, 90 - DEGREE_ROUNDING, rule)


def refuse_length(what: str, value: Given) -> None:
    """Refuses a length that is not over 0."""
    refuse_outside(f"{what}, ft,", value, ABOVE_ZERO, FINITE, "a length over 0 is needed")


def rise(slope_deg: Given) -> Num:
    """Pitch of a slope in degrees: rise in inches per foot."""
    pitch: Num = np.tan(np.radians(amount(slope_deg))) * INCHES_PER_FOOT
    return pitch


def slope_of(pitch: float) -> float:
    """Slope in degrees of a rise in inches per foot."""
    return float(np.degrees(np.arctan(pitch / INCHES_PER_FOOT)))


def read(step: Step, note: str = "", status: str = SEEN) -> Step:
    """The step with the status and the source of its formula."""
    return replace(step, note=note, status=status)


def where_it_applies(step: Step, applies: Any, note: str) -> Step:
    """The step where the condition holds, else 0; `note` says the condition."""
    if np.all(applies):
        return step
    value = where(applies, step.value, 0.0)
    if not np.any(applies):  # nothing rests on the formula, nor on its source
        return replace(step, value=value, note=note, status="", formula=None, inputs={})
    return replace(step, value=value, note=note, formula=None, inputs={step.symbol: step})


def importance(edition: Edition, Is: Given | None) -> dict[str, Given]:
    """The importance factor as an argument: needed in 7-16, refused in 7-22.

    Raises:
        InputError: missing in 7-16, given in 7-22.
        RangeError: not over 0.
    """
    if edition == "ASCE 7-22":
        if Is is not None:
            raise InputError(
                f"importance = {pick(amount(Is)):g}: ASCE 7-22 has no importance factor for snow; "
                "its ground snow is mapped by risk category. Leave it out."
            )
        return {}
    if Is is None:
        raise InputError("importance: ASCE 7-16 needs Is, 0.8 to 1.2 by risk category.")
    refuse_outside("importance", Is, ABOVE_ZERO, FINITE, "a factor over 0, 1.0 in category II")
    return {"Is": Is}


def reaction_at_wall_line(
    segments: Sequence[Segment], *, span_ft: Given, overhang_ft: Given = 0.0
) -> Step:
    """Reaction on the wall line of snow on parts of the garage roof, plf, by statics.

    The roof spans simply from the wall line, at 0, to its other bearing, at `span_ft`. What lies
    outward of the overhang is not on this roof and is left out.
    """
    refuse_length("span", span_ft)
    steps = [_part(one, 0.0 - np.asarray(amount(overhang_ft)), span_ft) for one in segments]
    if len(steps) == 1:
        return steps[0]
    inputs = {str(number): step for number, step in enumerate(steps)}
    total: Num = sum(step.value for step in steps)
    return Step("w_snow", total, "plf", "statics", "sum of the parts", inputs=inputs)


def _part(one: Segment, edge: Num, span: Given) -> Step:
    """Reaction of one segment, what lies outward of the edge of the roof cut off."""
    start = least(greatest(one.start_ft, edge), one.end_ft)
    if one.end_psf is None:
        parts = {"x_0": start, "x_1": one.end_ft, "L_bearings": span}
        return reaction_of_even_load.step(q_0=one.psf, **parts)
    length = np.asarray(one.end_ft) - one.start_ft
    gone = (start - one.start_ft) / where(length > 0, length, 1.0)
    first = one.psf + (one.end_psf - one.psf) * gone
    return reaction_of_taper.step(
        q_0=first, q_1=one.end_psf, x_0=start, x_1=one.end_ft, L_bearings=span
    )
