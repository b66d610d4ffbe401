"""One case over a range of gaps: ratios, what governs, the largest gap that works, what each needs.

Every number comes from `design`, run for all gaps at once; where an answer turns is searched
exactly (`gap_turns`, `gap_back_spans`, `gap_clips`). The limit of the case file on the gap does not
hold here.
"""

from collections.abc import Callable, Hashable
from fractions import Fraction

import numpy as np
from msgspec.structs import replace

from outrigger.actions.geometry import geometry
from outrigger.base.errors import InputError
from outrigger.base.units import SIXTEENTH
from outrigger.cases.batch import Batch, batch_of
from outrigger.cases.model import Case
from outrigger.formula.numbers import Array
from outrigger.studies import gap_clips, gap_turns, search
from outrigger.studies.gap_back_spans import least_back_spans
from outrigger.studies.gap_cases import at_gap, fields_of, more_open
from outrigger.studies.gap_study import GapRow, GapStudy
from outrigger.studies.kept import known, largest_of_each, slim
from outrigger.studies.reserve import least_back_span
from outrigger.studies.screen import governing
from outrigger.studies.search import MOST_GAP_IN
from outrigger.verdict.back_span import short_back, short_backs
from outrigger.verdict.design import Design, design
from outrigger.verdict.unknown import OpenInEach

MOST_GAPS = 10_000


def gaps(start: float, stop: float, step: float) -> Array:
    """Gaps from start to stop, in, each exactly as it would be typed.

    Raises:
        InputError: no range, or more than 10,000 gaps.
    """
    if not 0 < start <= stop <= MOST_GAP_IN or step <= 0:
        raise InputError(f"--from, --to, --step: 0 < from <= to <= {MOST_GAP_IN:g} in, step > 0.")
    first, last, by = (Fraction(v).limit_denominator(10**6) for v in (start, stop, step))
    if by == 0:
        raise InputError(f"--step {step:g} in: smaller than a tape shows. Take a larger step.")
    count = int((last - first) / by) + 1
    if count > MOST_GAPS:
        raise InputError(f"--step: {count:,} gaps; at most {MOST_GAPS:,}. Take a larger step.")
    return np.array([float(first + i * by) for i in range(count)])


def beside(values: Array, width: float) -> Array:
    """The gaps of a range, and one more among them where it is none of them."""
    return np.unique(np.append(values, width))


def study(
    case: Case,
    values: Array,
    *,
    before: float | None = None,
    cut: bool = False,
    told: Callable[[int], None] | None = None,
) -> GapStudy:
    """A case over gaps, in, ascending; `told` hears how many are done.

    Raises:
        InputError: cut pieces leave no back span at the smallest gap.
    """
    fields = fields_of(case, before, cut)
    shortest = least_back_span(case)
    no_room = None
    if cut:
        made_for = case.gap.width if before is None else before
        spare = (case.outrigger.back_span - shortest) * geometry(Batch(case)).plan
        no_room = made_for + spare
        values = values[values <= no_room]
        if not len(values):
            raise InputError(
                f"--cut: even the smallest gap leaves a back span under {shortest:g} in."
            )
    as_asked = at_gap(case, fields, case.gap.width)
    asked = design(case if as_asked == case else as_asked)  # it knows what it was read from
    rows, only = _rows(asked, fields, values, told)
    least, least_more = least_back_spans(asked, only, values, shortest)
    arms = np.broadcast_to(geometry(batch_of(case, fields(values))).arm.ravel(), len(values))
    listed = gap_clips.listed(case, fields, values)
    rows = [
        replace(
            row,
            caution=short_back(row.back_span, float(arms[i])),
            least_back_span=least[i],
            least_caution=None if (back := least[i]) is None else short_back(back, float(arms[i])),
            least_more=least_more[i],
            listed={p: needed[i] if row.pulls[p] else 0.0 for p, needed in listed.items()},
        )
        for i, row in enumerate(rows)
    ]
    every = np.arange(SIXTEENTH, min(MOST_GAP_IN, no_room or MOST_GAP_IN) + 1e-9, SIXTEENTH)
    largest, least_gap = gap_turns.ends(gap_turns.by_gap(case, only, fields), every)
    at = every[0] if largest is None else largest.first
    beyond = None
    if np.isfinite(at):
        beyond = slim(design(at_gap(case, fields, at)).closest)
    widest = None if largest is None else short_backs(case, fields(np.array([largest.last])))[0]
    more = () if largest is None else more_open(asked, fields(np.array([largest.last])))[0] or ()
    return GapStudy(
        case=case,
        asked=asked,
        before=before,
        cut=cut,
        rows=rows,
        stretches=gap_turns.stretches(case, fields, rows),
        largest=largest,
        least=least_gap,
        beyond=beyond,
        no_room=no_room,
        largest_caution=widest,
        more=more,
        sure=gap_turns.surely(asked, fields, np.union1d(every, values)) if more else None,
    )


def _rows(
    asked: Design, fields: search.Fields, values: Array, told: Callable[[int], None] | None
) -> tuple[list[GapRow], frozenset[Hashable]]:
    """The rows without their needs, and the combinations that govern a check of some row."""
    rows, case, only = [], asked.case, governing(asked.worked)
    pulls = gap_clips.pulls(case, fields, values)
    for part, result in search.designs(case, fields(values), told):
        width = part.stop - part.start
        back, length = (np.broadcast_to(v.ravel(), (width,))
                        for v in (result.shape.back_span, result.shape.length))  # fmt: skip
        largest = {
            group: np.broadcast_to(of, (width,)) for group, of in largest_of_each(result).items()
        }
        said = OpenInEach(result)
        only |= governing(result.worked)
        rows += [
            GapRow(
                gap=float(values[part][i]),
                back_span=float(back[i]),
                length=float(length[i]),
                works=bool(result.works[i]),
                verdict=said.verdict(i),
                open=said.keys(i),
                sure=bool(result.works[i]) and not said.missing(i),
                more=said.more(i, asked) if result.works[i] else (),
                ratios={group: known(float(of[i])) for group, of in largest.items()},
                governing=slim(result.closest(i)),
                pulls={place: float(pull[part][i]) for place, pull in pulls.items()},
            )
            for i in range(width)
        ]
    return rows, only
