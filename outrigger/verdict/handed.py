"""What each outrigger hands to the house, unfactored, as a list."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from outrigger.base.units import plf
from outrigger.formula.numbers import Array
from outrigger.verdict.design import Design

LOAD_CASES = ("D", "L", "Lr", "S", "W_up", "W_down", "E")
SIDE_CASES = ("H_away", "H_toward", "A")
ALONG = "along"  # the place of what acts along the member: all hold-downs


@dataclass(frozen=True)
class Handed:
    """A force at one place under one load case: lb, and plf of wall at the outriggers' spacing."""

    at: str
    case: str
    force: float
    per_foot: float


def square(design: Design) -> list[Handed]:
    """Reactions square to the sheathing; up is positive."""
    return list(_handed(design, design.reactions))


def in_plane(design: Design) -> list[Handed]:
    """Forces in the plane of the sheathing: along the member, and across it by place."""
    return list(_handed(design, design.side_reactions))


def _handed(design: Design, table: dict[str, dict[str, Array]]) -> Iterator[Handed]:
    apart = float(design.shape.spacing[0, 0])
    for place, by_case in table.items():
        for name, force in by_case.items():
            value = float(force[0, 0])
            assert np.isfinite(value)
            yield Handed(place, name, value, float(plf(value / apart)))
