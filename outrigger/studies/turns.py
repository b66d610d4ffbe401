"""Many exact searches at once: each round is one set of designs that answers for all of them.

As in `search`, nothing is interpolated: a straight line through the ratios only says where to ask
next, and a search ends when no float lies between the last yes and the first no.
"""

from collections.abc import Callable, Iterator

import numpy as np
from numpy.typing import NDArray

from outrigger.formula.numbers import Array, Bools
from outrigger.studies.search import FINEST, Turn
from outrigger.verdict.design import Design

NEAR = (2.0**-6, 2.0**-16)  # of the stretch that is left: how close to the guess is asked too

Judge = Callable[[NDArray[np.intp], Array], tuple[Bools, Array]]


def judged(result: Design) -> tuple[Bools, Array]:
    """Of each case of a design: whether it works, and its largest ratio."""
    ratios = np.where(np.isnan(result.ratios), 0.0, result.ratios)
    return result.working, ratios.max(axis=0)


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
