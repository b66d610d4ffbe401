"""Whether cases work, asked of few load combinations first: the searches of a study.

The ratio of a check is the largest over all combinations, so that what some of them refuse all of
them refuse. A search asks by those that governed so far, of which there are few; where it ends,
every combination is asked, and what then governs is asked by from there on. The answers are those
of every combination (`tests/laws/test_screen.py`), for a twentieth of the work of a row.
"""

from collections.abc import Callable, Hashable, Iterator
from copy import copy
from typing import Any

import numpy as np
from msgspec.structs import replace
from numpy.typing import NDArray

from outrigger.formula.numbers import Array, Bools
from outrigger.formula.settled import Settled
from outrigger.loads.combinations import Combination
from outrigger.studies import search
from outrigger.studies.search import Few, Turn
from outrigger.verdict.design import Designs
from outrigger.verdict.worked import Worked

FEW_ROWS = 1_000  # what `search.ROWS` is of rows with few combinations

Index = NDArray[np.intp]
Values = NDArray[Any]
# rows of what was asked, what follows, and of each of its cases the row that it is of
Marks = Iterator[tuple[slice | Index, Designs, Index]]
Ask = Callable[[Index, Values, Few | None], Marks]  # of the index of a search and its number, (n,)


class Screen:
    """Some searches over designs, each of which turns on one number."""

    def __init__(self, only: frozenset[Hashable], ask: Ask, *, inside: bool = True) -> None:
        """`only`: the combinations that come first, those that govern what is known already.
        `inside`: few look at the first outrigger inside alone, and their ratios tell nothing."""
        self.ask = ask
        self.look: Few | None = Few(only, inside)

    def over(self, ask: Ask) -> "Screen":
        """Other searches, with what is known so far."""
        other = copy(self)
        other.ask = ask
        return other

    def at_mark(self, mark: int | None) -> "Screen":
        """The same searches, few of which look at one mark of a layout alone, None: at all."""
        other = copy(self)
        other.look = None if self.look is None else replace(self.look, mark=mark)
        return other

    def every(self, which: Index, values: Values) -> tuple[Bools, Array]:
        """Whether the cases work, and their largest ratio, by every combination; those that govern
        are asked by from here on."""
        return self._asked(which, values, None)

    def few(self, which: Index, values: Values) -> tuple[Bools, Array]:
        """The same by few combinations: a no is a no, a ratio at most that of all."""
        return self._asked(which, values, self.look)

    def judged(self, which: Index, values: Values) -> tuple[Bools, Array]:
        """Whether the cases work; the ratio of one that does not is at most that of all."""
        held, ratios = self.few(which, values)
        passing = np.flatnonzero(held)
        if len(passing) and self.look is not None:
            held[passing], ratios[passing] = self.every(which[passing], values[passing])
        return held, ratios

    def closest(self, which: Index, values: Values, ratios: Array) -> Index:
        """Of searches that find nothing the row that has the least ratio, the first of several.

        which, values, ratios: (searches, rows) of `judged`, not of the first outrigger inside.
        """
        every, ratios = np.arange(len(which)), ratios.copy()
        sure = np.zeros(ratios.shape, dtype=bool)
        while True:
            at: Index = np.argmin(ratios, axis=1)
            left = np.flatnonzero(~sure[every, at])
            if not len(left):
                return at
            rows = left, at[left]
            ratios[rows], sure[rows] = self.every(which[rows], values[rows])[1], True

    def turns(self, holds: Array, fails: Array) -> list[Turn]:
        """Where each search turns, as `search.turns`."""
        if not len(holds):
            return []
        each = np.arange(len(holds))
        _, ratios = self.every(np.tile(each, 2), np.hstack([holds, fails]))
        while True:
            found = search.turns(self.few, holds, fails, ratios, FEW_ROWS)
            if self._all_hold(each, np.array([one.last for one in found])):
                return found

    def least_of_each(self, cases: int, steps: Array, unit: float) -> Array:
        """Of each of many cases the least number at which it works, as `search.least_of_each`."""

        def answer(which: Index, values: Values) -> Bools:
            return self.few(which, values)[0]

        def held(values: Values) -> bool:
            which = np.flatnonzero(~np.isnan(values))
            return not len(which) or self._all_hold(which, values[which])

        while True:
            at = search.first_step(answer, cases, steps, FEW_ROWS)
            if held(np.append(steps, np.nan)[at]):
                break
        while True:
            found = search.refined(answer, at, steps, unit, FEW_ROWS)
            if held(found):
                return found

    def _all_hold(self, which: Index, values: Values) -> bool:
        """Whether what few let pass every combination does; where not, what refused it is asked by
        too: a combination, else the outrigger that is checked beside the first one inside, and
        where neither is known, everything."""
        before = self.look
        held, _ = self.every(which, values)
        if not held.all() and before is not None and self.look == before:
            self.look = replace(before, inside=False) if before.inside else None
        return bool(held.all())

    def _asked(self, which: Index, values: Values, look: Few | None) -> tuple[Bools, Array]:
        held, ratios = np.ones(len(which), dtype=bool), np.zeros(len(which))
        for rows, result, owner in self.ask(which, values, look):
            at = np.arange(len(which))[rows][owner]
            np.logical_and.at(held, at, result.works)
            # no more than that of all: by few the first outrigger inside may be looked at where by
            # all the one before it fails already
            alone = look is not None and not look.inside
            np.maximum.at(ratios, at, result.own if alone else result.with_inside)
            if look is None and self.look is not None:
                self.look = replace(self.look, only=self.look.only | governing(result.worked))
        return held, ratios


def governing(worked: Worked) -> frozenset[Hashable]:
    """The combinations that govern a check of some case."""
    found = set[Hashable]()
    inside = () if worked.inside is None else worked.inside[0].checks
    for check in (*worked.checks, *inside):
        named = check.combinations
        if check.capacity is not None and named and isinstance(named[0], Combination):
            at = check.columns if isinstance(check, Settled) else check.worst()[1]
            found.update(named[i] for i in np.unique(at).tolist())
    return frozenset(found or {worked.main.combinations.all[0]})
