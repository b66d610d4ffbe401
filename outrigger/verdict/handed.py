"""What each outrigger hands to the house, unfactored, as a list; of a layout the largest over its
marks, each with its mark."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from outrigger.actions.model import Model
from outrigger.actions.reactions import reactions_by_case, side_reactions
from outrigger.base.units import plf
from outrigger.checks.sideways import BLOCKED
from outrigger.formula.numbers import Array
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.worst_mark import ALIKE

LOAD_CASES = ("D", "L", "Lr", "S", "W_up", "W_down", "E")
SIDE_CASES = ("H_away", "H_toward", "A")
ALONG = "along"  # the place of what acts along the member: all hold-downs


@dataclass(frozen=True)
class Handed:
    """A force at one place under one load case: lb, and plf of wall at the outriggers' spacing;
    `mark`: of a layout the one with the most, from the datum."""

    at: str
    case: str
    force: float
    per_foot: float
    mark: int | None = None


def square(design: Design) -> list[Handed]:
    """Reactions square to the sheathing; up is positive."""
    return list(_handed(design, reactions_by_case))


def in_plane(design: Design) -> list[Handed]:
    """Forces in the plane of the sheathing: along the member, and across it by place."""
    return list(_handed(design, side_reactions))


def tipping(design: Design) -> list[CheckResult]:
    """The moments that the blocking takes, each in its governing combination, of a layout at the
    mark with the most."""
    over, number = design.worked.over_marks, design.mark
    found = []
    for check in over.checks:
        if check.link == BLOCKED:
            rows = [over.row(check, i) for i in range(over.batch.count)]
            here = [over.numbers[row.case] == number for row in rows]
            most = max(range(len(rows)), key=lambda i: (rows[i].demand, here[i]))
            found.append(rows[most])
    return [row for row in found if row.demand]


def _handed(
    design: Design, by_place: Callable[[Model], dict[str, dict[str, Array]]]
) -> Iterator[Handed]:
    over = design.worked.over_marks
    checked = over.numbers.index(design.mark)
    apart = np.broadcast_to(over.shape.spacing[:, 0], over.batch.count)
    for place, by_case in by_place(over.model).items():
        for name, force in by_case.items():
            forces = np.broadcast_to(force[:, 0], over.batch.count)
            assert np.all(np.isfinite(forces))
            for i in _largest(forces, checked):
                value = float(forces[i])
                yield Handed(place, name, value, float(plf(value / apart[i])), over.numbers[i])


def _largest(forces: Array, checked: int) -> Iterator[int]:
    """Where the largest force stands, and the largest the other way where there is one; the mark
    that is checked before others alike."""
    for way in (1.0, -1.0) if abs(forces.max()) >= abs(forces.min()) else (-1.0, 1.0):
        most = float((way * forces).max())
        if most > 0 or (most == 0 and not np.any(forces)):
            at_checked = way * forces[checked] >= most * (1 - ALIKE)
            yield checked if at_checked else int(np.argmax(way * forces))
        if not np.any(forces):
            return
