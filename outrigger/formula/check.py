"""A check: a demand against a capacity, with the steps that led there."""

from collections.abc import Sequence
from functools import cached_property
from typing import Literal, Protocol

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from outrigger.formula.formula import Step
from outrigger.formula.kind import Group, Kind, Link
from outrigger.formula.numbers import Array, Bools, Element, Num, pick

Status = Literal["pass", "fail", "open"]
Rule = Literal["", "open", "analogy", "fail"]
STATUSES: tuple[Status, ...] = ("pass", "open", "fail")  # the worse the later
PASSES, OPEN, FAILS = range(3)


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


class Check(Struct, frozen=True, eq=False, kw_only=True, dict=True):
    """A demand against a capacity, at one place; `link`: what is checked there.

    `demand` and `capacity` are numbers or arrays that broadcast to (cases, combinations);
    capacity None: not given, open where there is a demand. `rule`: "" the ratio decides; "open" it
    stays open unless the ratio is over 1 (fail); "analogy" over 1 is open, else pass, as for a
    condition that nobody gave; "fail" it fails whatever the ratio. `why` gives the reason in words.
    `open_at`: of each case whether it stays open unless the ratio is over 1, (cases,).
    `combinations` names the columns; empty where a rule has none.
    """

    link: Link
    place: str
    clause: str
    demand: Num
    capacity: Num | None
    unit: str
    steps: tuple[Step, ...]
    rule: Rule = ""
    why: str = ""
    combinations: Sequence[Named] = ()
    open_at: Bools | None = None

    def __repr__(self) -> str:
        return f"<Check {', '.join(part for part in (self.id, self.place, self.link.id) if part)}>"

    @property
    def kind(self) -> Kind:
        """The kind of check."""
        return self.link.kind

    @property
    def group(self) -> Group:
        """The checks of the same id."""
        return Group(self.kind, self.place if self.kind.by_place else "")

    @property
    def id(self) -> str:
        """The id in data: its kind's, with the place where the kind has one for each."""
        return self.group.id

    @property
    def ratio(self) -> Num | None:
        """Demand over capacity; 0 where the demand is 0; None without a capacity."""
        return None if self.capacity is None else _divided(self.demand, self.capacity)

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
        demand = _row(self.demand, case)
        ratio = demand
        if self.capacity is not None:
            ratio = np.atleast_1d(_divided(demand, _row(self.capacity, case)))
        if not np.isfinite(ratio.max()):
            ratio = np.where(np.isfinite(ratio), 0.0, demand)
        return int(np.argmax(ratio))

    def demand_at(self, case: int, combination: int) -> float:
        """The demand of one case in one combination."""
        return pick(self.demand, Element(case, combination))

    def capacity_at(self, case: int, combination: int) -> float | None:
        """The capacity of one case in one combination; None where none is given."""
        if self.capacity is None:
            return None
        return pick(self.capacity, Element(case, combination))

    def element(self, case: int = 0) -> Element:
        """Where a case's governing combination stands in the arrays of the steps."""
        return Element(case, self.governing(case))

    @cached_property
    def levels(self) -> NDArray[np.intp]:
        """The status of each case as its number in `STATUSES`, (cases,), or (1,) where all have
        the same. A ratio of exactly 1 passes; NaN never does."""
        if self.rule == "fail":
            return np.array([FAILS])
        held: NDArray[np.intp] = np.array([OPEN if self.rule == "open" else PASSES])
        if self.open_at is not None:
            held = np.where(self.open_at, OPEN, held)
        if self.capacity is None:
            needed = np.any(np.atleast_2d(self.demand) != 0, axis=1)
            return np.where(needed, OPEN, held)
        over = OPEN if self.rule == "analogy" else FAILS
        return np.where(self.largest_ratio <= 1, held, over)

    def status(self, case: int = 0) -> Status:
        """Pass, fail or open for one case. A ratio of exactly 1 passes; NaN never does."""
        return STATUSES[int(self.levels[case if len(self.levels) > 1 else 0])]


def _divided(demand: Num, capacity: Num) -> Num:
    """Ratios; nothing over nothing is nothing, and something over nothing infinite."""
    capacity = np.asarray(capacity, dtype=float)
    if (capacity > 0).all():
        return np.asarray(demand / capacity)[()]
    demand, capacity = np.broadcast_arrays(np.asarray(demand, dtype=float), capacity)
    nothing = np.zeros(demand.shape)
    full = np.where(capacity == 0, np.inf, nothing)
    ratio = np.divide(demand, capacity, out=full, where=capacity != 0)
    return np.asarray(np.where(demand == 0, nothing, ratio))[()]


def _row(table: Num, case: int) -> Array:
    """One case of a number or an array, (combinations,) or (1,)."""
    rows: Array = np.atleast_2d(np.asarray(table, dtype=float))
    return np.asarray(rows[case if len(rows) > 1 else 0])
