"""What is near the line: ratios close to 1, and checks that a small change of dimension decides."""

import numpy as np

from outrigger.actions.geometry import tail_of
from outrigger.base.plain import deciding
from outrigger.base.quantity import length
from outrigger.cases.batch import Batch, batch_of
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, designs_of

NEAR = 0.05  # of 1
SMALL_IN = 0.25  # what a bearing or a setback may be off by
PLATE_PART = 6  # the wall line may stand a sixth of its plate off


def of(result: Design) -> list[tuple[CheckResult, str]]:
    """Ratios within 5 % of 1, and checks that a small change of dimension decides, with why.

    The wall line is moved by a sixth of the garage plate, the bearing's length and its setback
    changed by 1/4 in, each alone, both ways: one design of all of them together.
    """
    found = [
        (row, f"used {deciding(row.ratio, 3)}")
        for row in result.rows
        if row.ratio is not None and abs(row.ratio - 1) <= NEAR
    ]
    said, moved = _moved(result.worked.batch)
    ends = {"pass": "passes", "fail": "fails", "open": "is open"}
    near = designs_of(moved)
    for row in near.rows(0):
        check, first = row.check, row.status
        changes = [text for i, text in enumerate(said, 1) if check.status(i) != first]
        if changes:
            found.append((row, f"{ends[first]}, but not with {' or '.join(changes)}"))
    return found


def _moved(batch: Batch) -> tuple[list[str], Batch]:
    """Words of each small change, and the cases with each of them behind the case as it is."""
    case, gap = batch.case, batch.case.gap
    part = gap.garage_plate / PLATE_PART
    whole = {
        "gap.width": gap.width, "gap.edge_bearing": gap.edge_bearing,
        "gap.edge_setback": gap.edge_setback,
        "outrigger.tail": tail_of(case),
    }  # fmt: skip
    changes = [
        (f"the garage wall {length(part)} farther out",
         {"gap.width": part, "outrigger.tail": -part}),
        (f"the garage wall {length(part)} farther in",
         {"gap.width": -part, "outrigger.tail": part}),
        *((f"{length(SMALL_IN)} {word} {name}", {key: sign * SMALL_IN})
          for key, name in (("gap.edge_bearing", "bearing"), ("gap.edge_setback", "setback"))
          for word, sign in (("more", 1), ("less", -1))),
    ]  # fmt: skip
    kept = [
        (words, {key: max(whole[key] + by, 0.0) for key, by in change.items()})
        for words, change in changes
        if all(whole[key] + by > 0 or key != "gap.edge_bearing" for key, by in change.items())
        and whole["gap.width"] + change.get("gap.width", 0.0) > 0
    ]
    rows = [whole, *({**whole, **change} for _, change in kept)]
    columns = {key: np.array([row[key] for row in rows]) for key in whole}
    moved = batch_of(batch.case, columns)
    if batch.mark is not None:
        moved = moved.with_mark(batch.mark)
    return [words for words, _ in kept], moved
