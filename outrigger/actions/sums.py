"""Sums over the load parts in every combination of a method."""

from collections.abc import Hashable
from functools import cache

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from outrigger.formula.numbers import Array
from outrigger.loads import combinations
from outrigger.loads.combinations import Combination
from outrigger.loads.parts import PARTS
from outrigger.wood.adjusted import Method


def summed(amounts: Array, factors: Array) -> Array:
    """Sums over the parts, in their order: (cases, parts) and (rows, parts) to (cases, rows).

    By einsum, whose sums run in the order of the parts whatever the number of cases; BLAS's do
    not, nor einsum's own of a single row, which is therefore taken twice. The longer side lies side
    by side in memory, a sixth of a row's time; parts that bring nothing are left out, a twelfth.
    """
    used = np.flatnonzero(amounts.any(axis=0))
    if len(used) < amounts.shape[1]:
        amounts, factors = amounts[:, used], factors[:, used]
    few = len(factors) == 1
    by_part = np.ascontiguousarray(factors.repeat(1 + few, axis=0).T)
    by_case = np.ascontiguousarray(amounts.T)
    found: Array = (
        np.einsum("pc,pk->ck", by_case, by_part)
        if len(factors) >= len(amounts)
        else np.einsum("pc,pk->kc", by_case, by_part).T
    )
    return found[:, :1] if few else found


class Combinations(Struct, frozen=True, eq=False):
    """The combinations of one method over the parts present, as arrays.

    factors (combinations, parts); times (1, combinations): CD or lambda of each.
    """

    method: Method
    all: tuple[Combination, ...]
    parts: tuple[str, ...]
    factors: Array
    times: Array

    def combine(self, amounts: Array) -> Array:
        """Sums over the parts, in their order: (cases, parts) to (cases, combinations)."""
        return summed(amounts, self.factors)

    @property
    def with_worker(self) -> NDArray[np.intp]:
        """Where those stand that have the worker."""
        return np.flatnonzero(self.factors[:, self.parts.index("worker")])

    def without_worker(self) -> "Combinations":
        """Those that have the worker, without him."""
        at = self.with_worker
        every, factors = tuple(self.all[i] for i in at), self.factors[at]
        factors[:, self.parts.index("worker")] = 0.0
        return Combinations(self.method, every, self.parts, factors, self.times[:, at])

    def among(self, only: frozenset[Hashable]) -> "Combinations":
        """Those that are among some others; every one where none is."""
        return _among(self, only)


@cache
def _among(found: Combinations, only: frozenset[Hashable]) -> Combinations:
    at = [i for i, one in enumerate(found.all) if one in only]
    if not at:
        return found
    every = tuple(found.all[i] for i in at)
    return Combinations(found.method, every, found.parts, found.factors[at], found.times[:, at])


@cache
def combinations_of(
    edition: combinations.Edition,
    method: Method,
    parts: tuple[str, ...],
    Ev_per_D: float,
    net_up: float,
    in_row: bool,
) -> Combinations:
    """The combinations of a method for the parts present; the others as `combinations` has them."""
    found = combinations.combinations(edition, method, frozenset(parts), Ev_per_D, net_up, in_row)
    at = [PARTS.index(part) for part in parts]
    factors = np.array([c.factors for c in found])[:, at]
    return Combinations(method, found, parts, factors, np.array([[c.time for c in found]]))
