"""The case at each gap of a range, and what is open there that is not in the case as stated."""

from collections.abc import Mapping

import numpy as np

from outrigger.actions.geometry import geometry
from outrigger.cases.batch import Batch
from outrigger.cases.model import Case
from outrigger.cases.paths import with_numbers
from outrigger.formula.numbers import Array
from outrigger.studies import search
from outrigger.verdict.design import Design
from outrigger.verdict.unknown import OpenInEach


def fields_of(case: Case, before: float | None, cut: bool) -> search.Fields:
    """What follows from a gap: itself, and for cut pieces the back span that it leaves."""
    if not cut:
        return lambda values: {"gap.width": values}
    made_for = case.gap.width if before is None else before
    plan, back = geometry(Batch(case)).plan, case.outrigger.back_span

    def fields(values: Array) -> dict[str, Array]:
        return {"gap.width": values, "outrigger.back_span": back - (values - made_for) / plan}

    return fields


def at_gap(case: Case, fields: search.Fields, width: float) -> Case:
    """The case with one gap, in."""
    at = fields(np.array([width]))
    return with_numbers(case, {path: float(column[0]) for path, column in at.items()})


def more_open(asked: Design, swept: Mapping[str, Array]) -> list[tuple[str, ...] | None]:
    """Of each case what is missing and not in the case as stated; None: it does not work."""
    found = list[tuple[str, ...] | None]()
    for part, result in search.designs(asked.case, swept):
        said = OpenInEach(result)
        found += [
            said.more(i, asked) if result.works[i] else None for i in range(part.stop - part.start)
        ]
    return found
