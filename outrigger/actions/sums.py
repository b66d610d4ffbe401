"""Sums over the load parts in every combination of a method, and the largest under each CD.

A demand that grows with one force alone, against a capacity that is one number under each CD
(lambda in LRFD), is largest where that force is: of all combinations of one CD no other can govern.
So checks of that kind go by the largest under each CD, and the force of every combination is
worked out only where one is to be named.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cache, cached_property
from itertools import pairwise
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from outrigger.formula.formula import Step
from outrigger.formula.numbers import Array, greatest
from outrigger.loads import combinations
from outrigger.loads.combinations import PARTS, Combination
from outrigger.wood.adjusted import Method

Runs = list[tuple[int, slice]]  # column of CD or lambda, and rows beside each other that have it


class _Distinct(NamedTuple):
    """The combinations that differ in the parts that act, or in CD or lambda."""

    factors: Array  # (parts, distinct)
    which: NDArray[np.intp] | slice  # of them each combination is
    runs: Runs


def summed(by_part: Array, factors: Array) -> Array:
    """Sums over the parts, (parts, cases) and (parts, rows) to (rows, cases): cases side by side.

    By einsum, whose sums run in the order of the parts whatever the number of cases; BLAS's do
    not, nor einsum's own of a single row, which is therefore taken twice.
    """
    few = factors.shape[1] == 1
    rows: Array = np.einsum(
        "pc,pk->kc", np.ascontiguousarray(by_part), factors.repeat(1 + few, axis=1)
    )
    return rows[:1] if few else rows


@dataclass(frozen=True, eq=False)
class Set:
    """The combinations of one method over the parts present, as arrays.

    factors (combinations, parts); times: the distinct CD or lambda; columns: which of them.
    """

    method: Method
    all: tuple[Combination, ...]
    parts: tuple[str, ...]
    factors: Array
    times: Array
    columns: Any
    _known: dict[bytes, _Distinct] = field(default_factory=dict)

    def combine(self, amounts: Array) -> Array:
        """Sums over the parts, in their order: (cases, parts) to (cases, combinations).

        Parts that are zero everywhere add nothing and are left out; combinations that are alike in
        the others are summed once.
        """
        sums, distinct = self._sums(amounts)
        return sums[distinct.which].T

    def _sums(self, amounts: Array) -> tuple[Array, _Distinct]:
        acts = np.asarray(amounts.any(axis=0))
        key = acts.tobytes()
        if key not in self._known:
            self._known[key] = self._without_twins(acts)
        distinct = self._known[key]
        return summed(amounts.T[acts], distinct.factors), distinct

    def _without_twins(self, acts: NDArray[np.bool_]) -> _Distinct:
        by_part = np.ascontiguousarray(self.factors.T[acts])
        rows = np.concatenate([self.columns[None, :], by_part])
        distinct, which = np.unique(rows, axis=1, return_inverse=True)
        if not 1 < distinct.shape[1] < by_part.shape[1]:
            return _Distinct(by_part, slice(None), self._runs)
        factors = np.ascontiguousarray(distinct[1:])
        return _Distinct(factors, which.ravel(), _runs(distinct[0]))

    @cached_property
    def _runs(self) -> Runs:
        return _runs(self.columns)

    def wide(self, step: Step) -> Step:
        """A value with one column for each CD or lambda, spread over the combinations."""
        value = np.asarray(step.value)
        many = value.ndim > 0 and value.shape[-1] > 1
        return replace(step, value=value[..., self.columns]) if many else step

    def push(self, table: Array) -> "Force":
        """What presses down, (cases, combinations): the largest counts."""
        return Force(_largest(table.T, self._runs), lambda case: _row(table, case))

    def pull(self, table: Array) -> "Force":
        """What pulls up, of a table that is positive down: the largest counts, or none."""
        pulled = _by_column(self._runs, lambda run: -table.T[run].min(axis=0))
        return Force(np.maximum(pulled, 0.0), lambda case: np.maximum(-_row(table, case), 0.0))

    def size(self, *tables: Array) -> "Force":
        """Either way, and of several the larger: the largest size counts."""

        def of(case: int) -> Array:
            return np.asarray(np.max([np.abs(_row(table, case)) for table in tables], axis=0))

        sizes = [_size(table.T, self._runs) for table in tables]
        return Force(np.asarray(greatest(*sizes)), of)

    def push_of(self, amounts: Array) -> "Force":
        """As `push`, of the sums over the parts."""
        sums, distinct = self._sums(amounts)
        return Force(_largest(sums, distinct.runs), lambda case: self._of(amounts, case))

    def size_of(self, amounts: Array) -> "Force":
        """As `size`, of the sums over the parts."""
        sums, distinct = self._sums(amounts)
        return Force(_size(sums, distinct.runs), lambda case: np.abs(self._of(amounts, case)))

    def _of(self, amounts: Array, case: int) -> Array:
        return np.asarray(self.combine(_row(amounts, case)[None, :])[0])


@dataclass(frozen=True, eq=False)
class Force:
    """A force in the combinations of a set: the largest under each CD or lambda, (cases, distinct),
    and `of` one case in every combination, (combinations,)."""

    largest: Array
    of: Callable[[int], Array]


def _row(table: Array, case: int) -> Array:
    return np.asarray(table[case if len(table) > 1 else 0])


def _runs(columns: NDArray[Any]) -> Runs:
    """Stretches of combinations beside each other under one CD or lambda."""
    starts = [0, *(np.flatnonzero(np.diff(columns)) + 1).tolist(), len(columns)]
    return [(int(columns[a]), slice(a, b)) for a, b in pairwise(starts)]


def _largest(by_combination: Array, runs: Runs) -> Array:
    """The largest of each column of the runs: (combinations, cases) to (cases, distinct)."""
    return _by_column(runs, lambda run: by_combination[run].max(axis=0))


def _size(by_combination: Array, runs: Runs) -> Array:
    """The largest size; a table of sizes is not made."""

    def size(run: slice) -> Array:
        rows = by_combination[run]
        return np.asarray(np.maximum(rows.max(axis=0), -rows.min(axis=0)))

    return _by_column(runs, size)


def _by_column(runs: Runs, of: Callable[[slice], Array]) -> Array:
    found: dict[int, Array] = {}
    for column, run in runs:
        most = of(run)
        found[column] = np.maximum(found[column], most) if column in found else most
    return np.stack([found[column] for column in sorted(found)]).T


@cache
def combination_set(
    edition: combinations.Edition,
    method: Method,
    parts: tuple[str, ...],
    Ev_per_D: float,
    net_up: float,
) -> Set:
    """The combinations of a method for the parts present; seismic factors as `combinations`."""
    found = combinations.combinations(edition, method, frozenset(parts), Ev_per_D, net_up)
    factors = np.array([[c.factors[PARTS.index(p)] for p in parts] for c in found])
    distinct = list(dict.fromkeys(c.time for c in found))
    columns = np.array([distinct.index(c.time) for c in found], dtype=np.intp)
    return Set(method, found, parts, factors, np.array([distinct]), columns)
