"""What the clips of each place carry in their governing combination; of a layout the largest over
its marks."""

import numpy as np
from msgspec import Struct

from outrigger.checks.one_clip import HOLD_DOWN
from outrigger.checks.side_values import along_at
from outrigger.checks.sideways import across_at
from outrigger.formula.numbers import Array
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.worked import Worked
from outrigger.verdict.worst_mark import ALIKE


class ClipForces(Struct, frozen=True):
    """What the clips of one place carry in their governing combination, lb; `mark`: of a layout
    the one where they are pulled the most."""

    at: str
    combination: str
    uplift: float
    along: float
    across: float
    count: int
    mark: int | None = None


def clip_forces(result: Design) -> list[ClipForces]:
    """The hold-downs, each in the combination that governs its pull."""
    over = result.worked.over_marks
    checked = over.numbers.index(result.mark)
    most: dict[tuple[str, bool], ClipForces] = {}
    for i in (checked, *(i for i in range(over.batch.count) if i != checked)):
        for key, forces in _of_case(over, i).items():
            if key not in most or forces.uplift > most[key].uplift * (1 + ALIKE):
                most[key] = forces
    return list(most.values())


def most_pulls(result: Design) -> dict[str, float]:
    """The largest pull on one clip of each place, lb, of any combination and mark (ASD)."""
    over = result.worked.over_marks
    return {
        hold.name: float(np.max(over.clips.uplift.get(hold.name, 0.0) / over.batch.clips(hold)))
        for hold in result.case.hold_down
    }


def _of_case(worked: Worked, case: int) -> dict[tuple[str, bool], ClipForces]:
    """The hold-downs of one case by place, and whether nothing is there to hold."""
    counts = {
        name: int(np.broadcast_to(worked.batch.clips(hold), (worked.batch.count, 1))[case, 0])
        for name, hold in worked.model.hold_downs.items()
    }
    names = [name for name, _ in worked.model.supports]
    worst: dict[tuple[str, bool], CheckResult] = {}
    for check in worked.checks:  # of a chain of links the weakest; a distance carries nothing
        if check.kind == HOLD_DOWN and not check.link.is_distance:
            row = worked.row(check, case)
            key = (row.check.place, row.check.link.missing)
            old = worst.get(key)
            if old is None or (row.ratio or 0.0) > (old.ratio or 0.0):
                worst[key] = row
    found = {}
    for key, row in worst.items():
        place, missing = key
        main = row.check.combinations is worked.main.combinations.all
        actions = worked.main if main else worked.clips

        def at(table: Array | None, row: CheckResult = row) -> float:
            if table is None:
                return 0.0
            return float(table[case if len(table) > 1 else 0, row.column])

        uplift = row.demand if missing else at(actions.uplift.get(place))
        along = at(along_at(worked.member, actions, place))
        across = at(across_at(names, actions, place))
        count, mark = 1 if missing else counts.get(place, 1), worked.numbers[case]
        found[key] = ClipForces(
            at=place,
            combination=row.combination,
            uplift=uplift,
            along=along,
            across=across,
            count=count,
            mark=mark,
        )
    return found
