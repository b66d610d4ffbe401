"""What each outrigger hands to the house, unfactored and by source, as a list; of a layout the
largest over its marks, each with its mark."""

from collections.abc import Callable, Iterator

import numpy as np
from msgspec import Struct

from outrigger.actions.geometry import column
from outrigger.actions.model import Model
from outrigger.actions.reactions import ByReaction, reactions, side_reactions
from outrigger.base.units import plf
from outrigger.checks.block_ends import ENDS, at_row_ends
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.plate import header_load
from outrigger.checks.tipping import to_blocks
from outrigger.formula.check import Check
from outrigger.formula.numbers import Array
from outrigger.marks.bays import over_openings
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.worst_mark import ALIKE

LOAD_CASES = ("D", "L", "Lr", "S", "W_up", "W_down", "E")
SIDE_CASES = ("H_away", "H_toward", "A", "E_away", "E_toward")
ALONG = "along"  # the place of what acts along the member: all hold-downs


class Handed(Struct, frozen=True):
    """A force at one place under one load case, from one source: lb, and plf of wall at the
    outriggers' spacing; `mark`: of a layout the one with the most, from the datum; `pieces`: how
    many outriggers bring it side by side, 2 of a pair, together."""

    at: str
    source: str
    case: str
    force: float
    per_foot: float
    mark: int | None = None
    pieces: int = 1


def square(design: Design) -> list[Handed]:
    """Reactions square to the sheathing; up is positive."""
    return list(_handed(design, reactions))


def in_plane(design: Design) -> list[Handed]:
    """Forces in the plane of the sheathing: along the member, and across it by place."""
    return list(_handed(design, side_reactions))


def tipping(design: Design) -> list[CheckResult]:
    """The moments that the blocking takes, each in its governing combination, of a layout at the
    mark with the most."""
    return _most(design, to_blocks)


def at_ends_of_row(design: Design) -> list[CheckResult]:
    """What toe-nailed blocks lift and press at the ends of the row, likewise."""
    toe_nailed = any(check.link == ENDS for check in design.checks)
    return _most(design, at_row_ends) if toe_nailed else []


def by_others(design: Design) -> dict[str, float]:
    """What each header that others design carries at most, lb, in the combinations of the method,
    by the marks that it spans."""
    return {
        over: float(np.max(header_load(design.member, column(apart)).value))
        for over, apart in over_openings(design.case, by_others=True).items()
    }


def _most(design: Design, rows_of: Callable[[LoadedMember], list[Check]]) -> list[CheckResult]:
    over, number = design.worked.over_marks, design.mark
    found = []
    for check in rows_of(over.member):
        rows = [over.row(check, i) for i in range(over.batch.count)]
        here = [over.numbers[row.case] == number for row in rows]
        most = max(range(len(rows)), key=lambda i: (rows[i].demand, here[i]))
        found.append(rows[most])
    return [row for row in found if row.demand]


def _handed(design: Design, by_place: Callable[[Model], dict[str, ByReaction]]) -> Iterator[Handed]:
    over = design.worked.over_marks
    checked = over.numbers.index(design.mark)
    pieces = np.broadcast_to(over.batch.pieces[:, 0], over.batch.count)
    apart = np.broadcast_to(over.shape.spacing[:, 0], over.batch.count) * pieces
    for place, by_reaction in by_place(over.model).items():
        for (source, case), ways in by_reaction.items():
            forces = pieces * np.array(
                [np.broadcast_to(one[:, 0], over.batch.count) for one in ways]
            )
            assert np.all(np.isfinite(forces))
            for way, i in _largest(forces, checked):
                force = float(forces[way, i])
                per_foot = float(plf(force / apart[i]))
                yield Handed(place, source, case, force, per_foot, over.numbers[i], int(pieces[i]))


def _largest(forces: Array, checked: int) -> Iterator[tuple[int, int]]:
    """Where the largest force stands, (ways the load may lie, marks), and the largest the other way
    where there is one; the mark that is checked before others alike."""
    for sign in (1.0, -1.0) if abs(forces.max()) >= abs(forces.min()) else (-1.0, 1.0):
        most = float((sign * forces).max())
        if most > 0 or (most == 0 and not np.any(forces)):
            here = sign * forces[:, checked]
            if here.max() >= most * (1 - ALIKE):
                yield int(np.argmax(here)), checked
            else:
                way, mark = np.unravel_index(np.argmax(sign * forces), forces.shape)
                yield int(way), int(mark)
        if not np.any(forces):
            return
