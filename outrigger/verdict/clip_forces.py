"""What the clips of each place carry in their governing combination."""

from dataclasses import dataclass

from outrigger.checks.one_clip import HOLD_DOWN
from outrigger.checks.sideways import across_at, along_at
from outrigger.formula.numbers import Array
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design


@dataclass(frozen=True)
class ClipForces:
    """What the clips of one place carry in their governing combination, lb."""

    at: str
    combination: str
    uplift: float
    along: float
    across: float
    count: int


def clip_forces(result: Design) -> list[ClipForces]:
    """The hold-downs, each in the combination that governs its pull."""
    counts = {name: hold.count for name, hold in result.model.hold_downs.items()}
    names = [name for name, _ in result.model.supports]
    found = []
    worst: dict[tuple[str, bool], CheckResult] = {}
    for row in result.rows:  # of a chain of links the weakest
        if row.check.kind == HOLD_DOWN:
            key = (row.check.place, row.check.link.missing)
            old = worst.get(key)
            if old is None or (row.ratio or 0.0) > (old.ratio or 0.0):
                worst[key] = row
    for row in worst.values():
        place = row.check.place
        actions = (
            result.main if row.check.combinations is result.main.combinations.all else result.clips
        )
        missing = row.check.link.missing

        def at(table: Array | None, row: CheckResult = row) -> float:
            if table is None:
                return 0.0
            return float(table[0, row.column])

        uplift = row.demand if missing else at(actions.uplift.get(place))
        along = at(along_at(result.model, actions, place))
        across = at(across_at(names, actions, place))
        count = 1 if missing else counts.get(place, 1)
        found.append(ClipForces(place, row.combination, uplift, along, across, count))
    return found
