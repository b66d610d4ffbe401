"""Exact search over whole designs: where an answer turns as one stated number grows.

An answer is a function from numbers, an array (n,), to yes or no of each, one `design` for all of
them. Nothing is interpolated: a number is found by asking designs until no float lies between the
last yes and the first no.

Many searches at once (`turns`): each round is one set of designs that answers for all of them; a
straight line through the ratios only says where to ask next.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from outrigger.cases.batch import Batch, batch_of
from outrigger.cases.model import Case
from outrigger.formula.numbers import Array, Bools
from outrigger.marks.of_case import at_marks, row_of
from outrigger.verdict.design import Designs, designs_of
from outrigger.verdict.worked import combinations_in

CHUNK = 3200  # cases of one design: more take more memory than they save in time
SECTIONS = 32  # parts into which one design cuts the stretch that is left
MOST_AT_ONCE = 300_000  # cases times combinations of one design: they take half a gigabyte
FINEST = 1e-12  # of the stretch first given: nearer to zero than this is zero
MOST_BACK_SPAN_IN = 240.0  # the longest that any study looks at: no stock is longer
NEAR = (2.0**-6, 2.0**-16)  # of the stretch that is left: how close to the guess is asked too

Answer = Callable[[Array], Bools]
Judge = Callable[[NDArray[np.intp], Array], tuple[Bools, Array]]
Fields = Callable[[Array], Mapping[str, Array]]  # numbers to the stated fields that follow


@dataclass(frozen=True)
class Turn:
    """Where an answer turns: the last number at which it holds, the next at which it does not."""

    last: float
    first: float


def works(case: Case, path: str | Fields) -> Answer:
    """Whether the case works, at every mark of a layout, over one stated number, "gap.width" say,
    or over the fields that follow from one."""

    def answer(values: Array) -> Bools:
        fields = {path: values} if isinstance(path, str) else path(values)
        held = np.ones(len(values), dtype=bool)
        for part, result, owner in every_mark(case, fields):
            np.logical_and.at(held[part], owner, result.works)
        return held

    return answer


def designs(
    case: Case, values: Mapping[str, Array], told: Callable[[int], None] | None = None
) -> Iterator[tuple[slice, Designs]]:
    """The designs of a sweep, in chunks and in order, each with the cases that it holds.

    values: numbers (n,) by stated field; `told` hears how many cases are done.
    """
    for part, swept in chunks(case, values):
        yield part, designs_of(swept)
        if told is not None:
            told(part.stop)


def every_mark(
    case: Case, values: Mapping[str, Array]
) -> Iterator[tuple[slice, Designs, NDArray[np.intp]]]:
    """As `designs`, but of every mark of a layout and not of the worst alone; with the case of the
    chunk that each is of."""
    for part, swept in chunks(case, values):
        owner = np.arange(part.stop - part.start)
        if case.layout is not None:
            swept, owner = at_marks(swept)
        yield part, designs_of(swept), owner


def chunks(case: Case, values: Mapping[str, Array]) -> Iterator[tuple[slice, Batch]]:
    """The swept cases, so many at once that what is computed of them stays in bounds."""
    count = max(len(column) for column in values.values())
    kinds = 1 if case.layout is None else len(row_of(case).alike[0])
    for whole in _cut(slice(0, count), CHUNK // kinds):
        for part in _cut(
            whole, MOST_AT_ONCE // (kinds * combinations_in(_swept(case, values, whole)))
        ):
            yield part, _swept(case, values, part)


def _cut(whole: slice, size: int) -> Iterator[slice]:
    """A slice in parts of a size, of one at least."""
    step = max(1, size)
    for start in range(whole.start, whole.stop, step):
        yield slice(start, min(start + step, whole.stop))


def _swept(case: Case, values: Mapping[str, Array], part: slice) -> Batch:
    return batch_of(case, {path: of[part] for path, of in values.items()})


def turn(answer: Answer, holds: float, fails: float) -> Turn:
    """Where the answer turns between a number at which it holds and one at which it does not.

    Either may be the larger. Where it turns more than once, the turn nearest to `holds` that the
    sections meet.
    """
    least = abs(fails - holds) * FINEST
    while max(abs(holds), abs(fails)) > least and np.nextafter(holds, fails) != fails:
        inside = np.linspace(holds, fails, SECTIONS + 1)[1:-1]
        inside = inside[(inside != holds) & (inside != fails)]
        if not len(inside):
            inside = np.array([np.nextafter(holds, fails)])
        held = answer(inside)
        stops = len(inside) if np.all(held) else int(np.argmin(held))
        holds, fails = (
            float(inside[stops - 1]) if stops else holds,
            float(inside[stops]) if stops < len(inside) else fails,
        )
    return Turn(holds, fails)


def last_that_holds(answer: Answer, values: Array, known: Bools | None = None) -> Turn | None:
    """Where the answer stops holding for good, over ascending values; None: it holds at none.

    The values say how narrow a stretch may be and still be seen; `known`: the answers at them.
    `first` is infinite where the answer holds at the last value too.
    """
    held = np.flatnonzero(answer(values) if known is None else known)
    if not len(held):
        return None
    last = int(held[-1])
    if last == len(values) - 1:
        return Turn(float(values[last]), np.inf)
    return turn(answer, float(values[last]), float(values[last + 1]))


def least_of_each(
    answer: Callable[[NDArray[np.intp], Array], Bools], cases: int, steps: Array, unit: float
) -> Array:
    """Of each of many cases the least number at which an answer holds, to a whole `unit`.

    answer: from the index of a case and a number, arrays (n,), to yes or no; steps: ascending
    multiples of the unit, the first that holds being refined from the one before it. NaN: the
    answer holds at none of them.
    """
    every = np.arange(cases)
    held = answer(np.repeat(every, len(steps)), np.tile(steps, cases)).reshape(cases, -1)
    at = np.argmax(held, axis=1)
    high, low = steps[at], steps[np.maximum(at - 1, 0)]
    parts = np.arange(1, SECTIONS // 4)
    while np.any(high - low > unit):
        inside = (
            low[:, None] + np.round((high - low)[:, None] * parts / (SECTIONS // 4) / unit) * unit
        )
        inside = np.clip(inside, low[:, None], high[:, None])
        held_in = answer(np.repeat(every, len(parts)), inside.ravel()).reshape(cases, -1)
        held_in &= inside > low[:, None]
        row = np.concatenate([low[:, None], inside, high[:, None]], axis=1)
        ends = np.ones((cases, 1), dtype=bool)
        first = np.argmax(np.concatenate([~ends, held_in, ends], axis=1), axis=1)
        high, low = row[every, first], row[every, first - 1]
    return np.where(held.any(axis=1), high, np.nan)


def turns(judge: Judge, holds: Array, fails: Array) -> list[Turn]:
    """Where each search turns between a number at which it works and one at which it does not.

    judge: from the index of a search and a number, arrays (n,), to whether it works there and its
    largest ratio. Either end may be the larger. Where an answer turns more than once, one of them.
    """
    every = np.arange(len(holds))
    ends = [holds.astype(float), fails.astype(float)]
    over = [judge(every, end)[1] - 1 for end in ends]
    least = np.abs(ends[1] - ends[0]) * FINEST
    while True:
        asked = [
            (i, value)
            for i in every
            for value in _inside(ends[0][i], ends[1][i], over[0][i], over[1][i], least[i])
        ]
        if not asked:
            return [Turn(float(last), float(first)) for last, first in zip(*ends, strict=True)]
        which = np.array([i for i, _ in asked])
        values = np.array([value for _, value in asked])
        works, ratios = judge(which, values)
        for i in every:
            own = np.flatnonzero(which == i)
            if not len(own):
                continue
            own = own[np.argsort(np.abs(values[own] - ends[0][i]))]  # from the end that holds
            no = np.flatnonzero(~works[own])
            stop = int(no[0]) if len(no) else len(own)
            for end, at in ((0, stop - 1), (1, stop)):
                if 0 <= at < len(own):
                    ends[end][i], over[end][i] = values[own[at]], ratios[own[at]] - 1


def _inside(holds: float, fails: float, under: float, over: float, least: float) -> Iterator[float]:
    """Numbers to ask next, strictly between the ends; none when the search is done."""
    if max(abs(holds), abs(fails)) <= least or np.nextafter(holds, fails) == fails:
        return
    wide = fails - holds
    asked = {holds + wide / 2}
    if np.isfinite(over) and over > under:
        guess = holds + wide * min(max(-under / (over - under), 0.0), 1.0)
        asked |= {guess, float(np.nextafter(guess, fails)), float(np.nextafter(guess, holds))}
        asked |= {guess + sign * part * wide for part in NEAR for sign in (-1, 1)}
    low, high = sorted((holds, fails))
    inside = [value for value in asked if low < value < high]
    yield from inside or [float(np.nextafter(holds, fails))]
