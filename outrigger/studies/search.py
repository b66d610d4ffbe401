"""Exact search over whole designs: where an answer turns as one stated number grows.

An answer is a function from numbers, an array (n,), to yes or no of each, one `design` for all of
them. Nothing is interpolated: a number is found by asking designs until no float lies between the
last yes and the first no.

Many searches at once (`turns`): each round is one set of designs that answers for all of them; a
straight line through the ratios only says where to ask next.
"""

from collections.abc import Callable, Hashable, Iterator, Mapping
from functools import partial
from typing import TypeVar

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from outrigger.actions.geometry import geometry
from outrigger.actions.loads import share_of_wall
from outrigger.cases.batch import Batch, Grades, batch_of
from outrigger.cases.model import Case
from outrigger.checks.loaded_member import LoadedMember
from outrigger.formula.numbers import Array, Bools
from outrigger.marks.of_case import at_marks, row_of
from outrigger.verdict.design import Designs
from outrigger.verdict.first_inside import at_first_inside, takes_more
from outrigger.verdict.worked import CHUNK, FIRST, Worked, loaded_of, worked_of

# bytes, let go untouched: the usual allocator keeps twice the largest piece that was let go, and
# need not find memory anew, page by page, for every array (a tenth of `card`); no other minds
np.empty(31 << 20, dtype=np.uint8)
# parts into which one batch cuts each stretch that is left, and rows of all: a batch costs as much
# as fifty of its rows, so that more rows in fewer batches cost less
SECTIONS, FEWEST, ROWS = 16, 4, 80
FEWEST_OF_EACH = 3  # of many cases at once, whose rows outweigh the batch
FINEST = 1e-12  # of the stretch first given: nearer to zero than this is zero
MOST_BACK_SPAN_IN = 240.0  # the longest that any study looks at: no stock is longer
MOST_GAP_IN = 48.0  # the widest that any study looks at
# of the stretch that is left: how close to the guess is asked too
NEAR = np.array([sign * 2.0**-k for k in range(3, 48, 4) for sign in (-1, 1)])

Found = TypeVar("Found", Worked, LoadedMember)
counted = partial(worked_of, counted=True)
Answer = Callable[[Array], Bools]
OfEach = Callable[[NDArray[np.intp], Array], Bools]  # of the index of a case and a number
Judge = Callable[[NDArray[np.intp], Array], tuple[Bools, Array]]
Fields = Callable[[Array], Mapping[str, Array]]  # numbers to the stated fields that follow


class Few(Struct, frozen=True):
    """What is looked at where a no is enough: some load combinations, one at least; `inside`: the
    first outrigger inside a continuous plate alone, where there is one; `mark`: of a layout the one
    of this number, or the first where it is not there, None: all."""

    only: frozenset[Hashable]
    inside: bool = True
    mark: int | None = None

    def at(self, every: Batch, owner: NDArray[np.intp]) -> tuple[Batch, NDArray[np.intp]]:
        """Of the marks of cases, each with its case, those that are looked at."""
        if self.mark is None or every.mark is None:
            return every, owner
        first = np.unique(owner, return_index=True)[1]
        here = np.flatnonzero(every.mark.number[:, 0] == self.mark)
        first[owner[here]] = here
        return every.taken(first), owner[first]

    def of(self, batch: Batch) -> Batch:
        """Cases, looked at so."""
        if self.inside and takes_more(batch, shape := geometry(batch)).all():
            share, every = share_of_wall(batch, shape), np.arange(batch.count)
            batch = at_first_inside(batch, shape, share, every)
        return replace(batch, only=self.only)


class Turn(Struct, frozen=True):
    """Where an answer turns: the last number at which it holds, the next at which it does not."""

    last: float
    first: float


def works(case: Case, path: str) -> Answer:
    """Whether the case works, at every mark of a layout, over one number, "gap.width" say."""

    def answer(values: Array) -> Bools:
        held = np.ones(len(values), dtype=bool)
        for part, result, owner in every_mark(case, {path: values}):
            np.logical_and.at(held[part], owner, result.works)
        return held

    return answer


def designs(
    case: Case,
    values: Mapping[str, Array],
    told: Callable[[int], None] | None = None,
    grades: Grades | None = None,
) -> Iterator[tuple[slice, Designs]]:
    """The designs of a sweep, in chunks and in order, each with the cases that it holds.

    values: numbers (n,) by stated field; `told` hears how many cases are done; `grades`: of each
    case its own, where they differ.
    """
    for part, worked, _ in _chunks(case, values, counted, marked=False, grades=grades):
        yield part, Designs(worked)
        if told is not None:
            told(part.stop)


def every_mark(
    case: Case, values: Mapping[str, Array], few: Few | None = None, grades: Grades | None = None
) -> Iterator[tuple[slice, Designs, NDArray[np.intp]]]:
    """As `designs`, but of every mark of a layout and not of the worst alone; with the case of the
    chunk that each is of. `few`: what is looked at, which can refuse a case and never pass it."""
    for part, worked, owner in _chunks(case, values, counted, marked=True, few=few, grades=grades):
        yield part, Designs(worked), owner


def every_load(
    case: Case, values: Mapping[str, Array]
) -> Iterator[tuple[slice, LoadedMember, NDArray[np.intp]]]:
    """As `every_mark`, up to the actions: what asks for one check alone works out no other."""
    return _chunks(case, values, loaded_of, marked=True)


def _chunks(
    case: Case,
    values: Mapping[str, Array],
    of: Callable[[Batch], Found],
    *,
    marked: bool,
    few: Few | None = None,
    grades: Grades | None = None,
) -> Iterator[tuple[slice, Found, NDArray[np.intp]]]:
    """What follows from the swept cases, so many at once that it stays in bounds; of each row the
    case that it is of. The first chunk tells how many combinations there are."""
    count = max((len(column) for column in values.values()), default=1)
    kinds = 1 if case.layout is None else len(row_of(case).alike[0])
    start, size = 0, FIRST if few is None else CHUNK // len(few.only)
    while start < count:
        part = slice(start, min(start + max(1, size // kinds), count))
        swept = batch_of(case, {path: column[part] for path, column in values.items()})
        owner = np.arange(part.stop - start)
        if grades is not None:
            swept = replace(swept, grades=grades.taken(start + owner))
        if marked and case.layout is not None:
            swept, owner = at_marks(swept)
            if few is not None:
                swept, owner = few.at(swept, owner)
        found = of(swept if few is None else few.of(swept))
        yield part, found, owner
        start, size = part.stop, CHUNK // len(found.main.combinations.all)


def least_of_each(answer: OfEach, cases: int, steps: Array, unit: float, rows: int = ROWS) -> Array:
    """Of each of many cases the least number at which an answer holds, to a whole `unit`.

    answer: from the index of a case and a number, arrays (n,), to yes or no; steps: ascending
    multiples of the unit, the first that holds being refined from the one before it. NaN: the
    answer holds at none of them. `rows`: asked at once.
    """
    return refined(answer, first_step(answer, cases, steps, rows), steps, unit, rows)


def refined(
    answer: OfEach, at: NDArray[np.intp], steps: Array, unit: float, rows: int = ROWS
) -> Array:
    """From the first step that holds in each case to the least number; `rows`: asked at once."""
    held = at < len(steps)
    high, low = steps[np.minimum(at, len(steps) - 1)], steps[np.clip(at - 1, 0, len(steps) - 1)]
    while len(left := np.flatnonzero(held & (high - low > unit))):
        parts = max(FEWEST_OF_EACH, rows // len(left))
        wide = (high[left] - low[left])[:, None]
        asked = low[left, None] + np.round(wide * np.arange(1, parts) / parts / unit) * unit
        holds = answer(np.repeat(left, parts - 1), asked.ravel()).reshape(len(left), -1)
        holds &= asked > low[left, None]
        row = np.concatenate([low[left, None], asked, high[left, None]], axis=1)
        ends = np.ones((len(left), 1), dtype=bool)
        every = np.arange(len(left))
        first = np.argmax(np.concatenate([~ends, holds, ends], axis=1), axis=1)
        high[left], low[left] = row[every, first], row[every, first - 1]
    return np.where(held, high, np.nan)


def first_step(answer: OfEach, cases: int, steps: Array, rows: int = ROWS) -> NDArray[np.intp]:
    """The first step at which the answer holds in each case, their number where at none. A few
    steps at a time, of the cases that are left: most hold early."""
    count, start = len(steps), 0
    found = np.full(cases, count)
    while start < count and len(left := np.flatnonzero(found == count)):
        some = np.arange(start, min(start + max(FEWEST, rows // len(left)), count))
        held = answer(np.repeat(left, len(some)), np.tile(steps[some], len(left)))
        held = held.reshape(len(left), -1)
        found[left] = np.where(held.any(axis=1), start + np.argmax(held, axis=1), count)
        start += len(some)
    return found


def turns(
    judge: Judge, holds: Array, fails: Array, ratios: Array | None = None, rows: int = ROWS
) -> list[Turn]:
    """Where each search turns between a number at which it works and one at which it does not.

    judge: from the index of a search and a number, arrays (n,), to whether it works there and its
    largest ratio, NaN where there is none; `ratios`: those at the ends, where they are known.
    Either end may be the larger. Where an answer turns more than once, one of them.
    """
    every = np.arange(len(holds))
    ends = [holds.astype(float), fails.astype(float)]
    least = np.abs(ends[1] - ends[0]) * FINEST
    if ratios is None:
        ratios = judge(np.tile(every, 2), np.hstack(ends))[1]
    over = np.reshape(ratios - 1, (2, -1))
    while True:
        left = [i for i in every if _apart(ends[0][i], ends[1][i], least[i])]
        if not left:
            return [Turn(float(last), float(first)) for last, first in zip(*ends, strict=True)]
        parts = int(np.clip(rows // len(left) // 2, FEWEST, SECTIONS))
        asked = [_inside(ends[0][i], ends[1][i], over[0][i], over[1][i], parts) for i in left]
        works, ratios = judge(np.repeat(left, [len(own) for own in asked]), np.hstack(asked))
        done = 0
        for i, own in zip(left, asked, strict=True):
            at = slice(done, done := done + len(own))
            no = np.flatnonzero(~works[at])
            stop = int(no[0]) if len(no) else len(own)
            for end, k in ((0, stop - 1), (1, stop)):
                if 0 <= k < len(own):
                    ends[end][i], over[end][i] = own[k], ratios[at][k] - 1


def _apart(holds: float, fails: float, least: float) -> bool:
    """Whether numbers are left between the two ends of a search."""
    return max(abs(holds), abs(fails)) > least and bool(np.nextafter(holds, fails) != fails)


def _inside(holds: float, fails: float, under: float, over: float, parts: int) -> Array:
    """Numbers to ask next, strictly between the ends, from the one that holds: the sections, and
    where a straight line through the ratios points, closer and closer to it."""
    wide = fails - holds
    asked = [holds + wide * np.arange(1, parts) / parts]
    if np.isfinite(over) and over > under:
        guess = holds + wide * min(max(-under / (over - under), 0.0), 1.0)
        asked += [guess + wide * NEAR, np.nextafter(guess, [holds, fails]), np.array([guess])]
    values = np.unique(np.hstack(asked))
    values = values[(values > min(holds, fails)) & (values < max(holds, fails))]
    if not len(values):
        return np.array([np.nextafter(holds, fails)])
    return values if holds < fails else values[::-1]
