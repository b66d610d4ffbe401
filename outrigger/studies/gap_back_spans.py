"""The least back span that works at each gap, with nothing more open than in the case as stated."""

from collections.abc import Callable, Hashable

import numpy as np

from outrigger.base.units import SIXTEENTH
from outrigger.cases.paths import with_numbers
from outrigger.formula.numbers import Array
from outrigger.studies import search
from outrigger.studies.gap_cases import more_open
from outrigger.studies.kept import known
from outrigger.studies.screen import Index, Marks, Screen
from outrigger.verdict.design import Design
from outrigger.verdict.not_covered import not_covered
from outrigger.verdict.unknown import head

BACK_SPAN_STEPS_IN = 6.0  # first look; a stretch that works and is shorter is not seen
LONGER_IN = 24.0  # looked at at once, for a back span that leaves no more open


def least_back_spans(
    asked: Design, only: frozenset[Hashable], values: Array, shortest: float
) -> tuple[list[float | None], list[tuple[str, ...]]]:
    """The least back span that works at each gap, to a sixteenth, with nothing more missing than in
    the case as stated if there is one: clips miss the framing at some. And what more is missing
    with it."""

    def swept(which: Index, backs: Array) -> dict[str, Array]:
        return {"gap.width": values[which], "outrigger.back_span": backs}

    def ask(which: Index, backs: Array, look: search.Few | None) -> Marks:
        return search.every_mark(asked.case, swept(which, backs), look)

    first = np.ceil(shortest / SIXTEENTH) * SIXTEENTH
    steps = np.arange(first, search.MOST_BACK_SPAN_IN + SIXTEENTH, BACK_SPAN_STEPS_IN)
    screen = Screen(only, ask)
    found = screen.least_of_each(len(values), steps, SIXTEENTH)
    works = np.flatnonzero(~np.isnan(found))
    more = dict(zip(works.tolist(), more_open(asked, swept(works, found[works])), strict=True))
    for start in np.arange(0.0, search.MOST_BACK_SPAN_IN, LONGER_IN):
        _longer(asked, swept, screen, found, more, start)
    return [known(float(back)) for back in found], [more.get(i) or () for i in range(len(found))]


def _longer(
    asked: Design,
    swept: Callable[[Index, Array], dict[str, Array]],
    screen: Screen,
    found: Array,
    more: dict[int, tuple[str, ...] | None],
    start: float,
) -> None:
    """Where more is open with the back span that was found, one that is longer, by no less than
    the start and up to 2 ft more, with nothing more open."""
    left = np.array([i for i, said in more.items() if said], dtype=np.intp)
    longer = start + np.arange(SIXTEENTH, LONGER_IN + SIXTEENTH, SIXTEENTH)
    which, backs = np.repeat(left, len(longer)), np.add.outer(found[left], longer).ravel()
    lands = np.isin(backs, _covered(asked, np.unique(backs)))
    which, backs = which[lands], backs[lands]
    held, _ = screen.few(which, backs)
    queue = [iter(backs[held & (which == i)].tolist()) for i in left]
    while now := [(i, back) for i, own in zip(left, queue, strict=True)
                  if more[i] and (back := next(own, None)) is not None]:  # fmt: skip
        at, tried = np.array([i for i, _ in now]), np.array([back for _, back in now])
        for (i, back), said in zip(now, more_open(asked, swept(at, tried)), strict=True):
            if said == ():
                found[i], more[i] = back, ()


def _covered(asked: Design, backs: Array) -> Array:
    """The back spans at which nothing is left uncomputed that is not in the case as stated."""
    before = {head(text) for text in asked.not_covered}
    cases = (with_numbers(asked.case, {"outrigger.back_span": back}) for back in backs.tolist())
    found = [{head(text) for text in not_covered(case)} <= before for case in cases]
    return backs[np.array(found, dtype=bool) & (backs <= search.MOST_BACK_SPAN_IN)]
