"""What the clips of each place carry in their governing combination."""

from dataclasses import dataclass

from outrigger.actions.places import place_name
from outrigger.checks.one_clip import HOLD_DOWN
from outrigger.checks.sideways import across_at, along_at
from outrigger.formula.numbers import Array
from outrigger.verdict.design import CheckResult, Design


@dataclass(frozen=True)
class ClipForces:
    """What the clips of one place carry in their governing combination, lb."""

    at: str
    combination: str
    uplift: float
    along: float
    across: float
    count: int


def clip_forces(result: Design, case: int = 0) -> list[ClipForces]:
    """The hold-downs of one case, each in the combination that governs its pull."""
    counts = {place_name(h.at, result.case): h.count for h in result.case.hold_down}
    names = [name for name, _ in result.model.supports]
    found = []
    worst: dict[tuple[str, bool], CheckResult] = {}
    for row in result.rows(case):  # of a chain of links the weakest
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
            return float(table[case if len(table) > 1 else 0, row.combination])

        uplift = row.demand if missing else at(actions.uplift.get(place))
        along = at(along_at(result.case, actions, place))
        across = at(across_at(names, actions, place))
        count = 1 if missing else counts.get(place, 1)
        found.append(ClipForces(place, row.combination_text, uplift, along, across, count))
    return found
