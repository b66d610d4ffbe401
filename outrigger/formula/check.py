"""A check: a demand against a capacity, with the steps that led there."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, Protocol

import numpy as np
from numpy.typing import NDArray

from outrigger.formula.formula import Step
from outrigger.formula.numbers import Array, Element, Num, pick

Status = Literal["pass", "fail", "open"]
Rule = Literal["", "open", "analogy", "fail"]


class Named(Protocol):
    """A load combination: its name as the standard prints it, in words, and where it is from."""

    @property
    def text(self) -> str:
        """Name: D + S."""

    @property
    def words(self) -> str:
        """In words: dead + snow."""

    @property
    def source(self) -> str:
        """Where its load factors stand; empty where no standard lists it."""

    @property
    def status(self) -> str:
        """Status of the load factors."""

    @property
    def time_source(self) -> str:
        """Where its CD or lambda stands; empty where it has none."""

    @property
    def time_status(self) -> str:
        """Status of its CD or lambda."""


@dataclass(frozen=True, eq=False)
class Check:
    """A demand against a capacity, at one place.

    `demand` and `capacity` are numbers or arrays that broadcast to (cases, combinations);
    capacity None: not given, open where there is a demand. `rule`: "" the ratio decides; "open" it
    stays open unless the ratio is over 1 (fail); "analogy" over 1 is open, else pass; "fail" it
    fails whatever the ratio. `why` gives the reason in words.
    `columns`: for each combination the column of a capacity (and of steps) that has one column for
    each distinct CD or lambda only. `combinations` names them. `grows_with`: where the demand too
    has one column for each distinct CD or lambda, what it grows with, of one case in every
    combination: the demand of a column is that of the largest.
    """

    id: str
    place: str
    clause: str
    demand: Num
    capacity: Num | None
    unit: str
    steps: tuple[Step, ...]
    link: str = ""
    rule: Rule = ""
    why: str = ""
    columns: NDArray[np.intp] | None = None
    combinations: Sequence[Named] = ()
    grows_with: Callable[[int], Array] | None = None

    @property
    def is_distance(self) -> bool:
        """A distance between fasteners and edges, needed against had: not a strength."""
        return self.id.startswith("hold_down") and self.unit == "in"

    @property
    def ratio(self) -> Num | None:
        """Demand over capacity; 0 where the demand is 0; None without a capacity."""
        return None if self.capacity is None else self._divided(self.demand, self.capacity)

    def _divided(self, demand: Num, capacity: Num) -> Num:
        capacity = np.asarray(capacity, dtype=float)
        by_column = capacity.ndim > 0 and 1 < capacity.shape[-1] == self._distinct
        if by_column and self.grows_with is None and self.columns is not None:
            capacity = capacity[..., self.columns]
        if np.all(capacity > 0):
            return np.asarray(demand / capacity)[()]
        demand, capacity = np.broadcast_arrays(np.asarray(demand, dtype=float), capacity)
        nothing = np.zeros(demand.shape)
        full = np.where(capacity == 0, np.inf, nothing)
        ratio = np.divide(demand, capacity, out=full, where=capacity != 0)
        return np.asarray(np.where(demand == 0, nothing, ratio))[()]

    @cached_property
    def largest_ratio(self) -> Array:
        """Per case: the largest ratio, (cases,).

        Raises:
            ValueError: the check has no capacity, so it has no ratio.
        """
        ratio = self.ratio
        if ratio is None:
            raise ValueError(f"{self.id} at {self.place}: no capacity is given, so no ratio")
        return np.asarray(np.max(np.atleast_2d(ratio), axis=1))

    def worst(self) -> tuple[Array, NDArray[np.intp]]:
        """Per case: the largest ratio and the index of its combination.

        Raises:
            ValueError: the check has no capacity, so it has no ratio.
        """
        largest = self.largest_ratio
        return largest, np.array([self.governing(case) for case in range(len(largest))])

    def governing(self, case: int = 0) -> int:
        """Index of a case's governing combination: largest ratio, else largest demand.

        The first of several alike; 0 where there is no demand.
        """
        demand = self._row(self.demand, case)
        ratio = demand
        if self.capacity is not None:
            ratio = np.atleast_1d(self._divided(demand, self._row(self.capacity, case)))
        if not np.isfinite(ratio.max()):
            ratio = np.where(np.isfinite(ratio), 0.0, demand)
        if self.grows_with is None or self.columns is None or not np.any(ratio):
            return int(np.argmax(ratio))
        force = self.grows_with(case)
        alike = np.broadcast_to(ratio == ratio.max(), self._distinct)
        of_column = [force[self.columns == i].max() for i in range(self._distinct)]
        return int(np.argmax(alike[self.columns] & (force == np.array(of_column)[self.columns])))

    @staticmethod
    def _row(table: Num, case: int) -> Array:
        rows: Array = np.atleast_2d(np.asarray(table, dtype=float))
        return np.asarray(rows[case if len(rows) > 1 else 0])

    @property
    def _distinct(self) -> int:
        """How many distinct CD or lambda there are; 0 without combinations."""
        return 0 if self.columns is None else int(self.columns.max()) + 1

    def demand_at(self, case: int, combination: int) -> float:
        """The demand of one case in one combination; of a column, that of its largest."""
        return pick(self.demand, self._element(case, combination))

    def capacity_at(self, case: int, combination: int) -> float | None:
        """The capacity of one case in one combination; None where none is given."""
        if self.capacity is None:
            return None
        return pick(self.capacity, self._element(case, combination))

    def element(self, case: int = 0) -> Element:
        """Where a case's governing combination stands in the arrays of the steps."""
        return self._element(case, self.governing(case))

    def _element(self, case: int, combination: int) -> Element:
        if self.columns is None:
            return Element(case, combination)
        return Element(case, combination, int(self.columns[combination]), self._distinct)

    def status(self, case: int = 0) -> Status:
        """Pass, fail or open for one case. A ratio of exactly 1 passes; NaN never does."""
        if self.rule == "fail":
            return "fail"
        if self.capacity is None:
            needed = np.any(self._row(self.demand, case) != 0)
            return "open" if needed or self.rule == "open" else "pass"
        largest = self._row(self.largest_ratio[:, None], case)[0]
        if not largest <= 1:
            return "open" if self.rule == "analogy" else "fail"
        return "open" if self.rule == "open" else "pass"
