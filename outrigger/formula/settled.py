"""A check of many cases worked down to what is asked of each, its arrays let go."""

from functools import cached_property

import numpy as np
from msgspec.structs import asdict
from numpy.typing import NDArray

from outrigger.formula.check import Check
from outrigger.formula.numbers import Array, Num


class Settled(Check, frozen=True, eq=False, kw_only=True, dict=True):
    """A check at the governing combination of each case: `columns` (cases,) says which that is,
    or (1,) where all have the same; demand and capacity are columns of it, and there are no steps.

    Many cases keep so one number of each where their check has hundreds. Design one alone for its
    steps.
    """

    columns: NDArray[np.intp]
    most: Array
    standing: NDArray[np.intp]

    @cached_property
    def largest_ratio(self) -> Array:
        """Per case: the largest ratio, as it was."""
        return self.most if self.capacity is not None else super().largest_ratio

    @cached_property
    def levels(self) -> NDArray[np.intp]:
        """The status of each case, as it was."""
        return self.standing

    def governing(self, case: int = 0) -> int:
        """Index of a case's governing combination."""
        return int(self.columns[case if len(self.columns) > 1 else 0])


def settled(check: Check) -> Settled:
    """A check worked down; its numbers are the same to the last bit."""
    ratio = check.ratio
    table = np.atleast_2d(check.demand if ratio is None else ratio)
    columns = np.argmax(table, axis=1)
    most = table[np.arange(len(table)), columns]
    if ratio is not None:
        vars(check)["largest_ratio"] = most  # the same number, not looked for again
    if not np.isfinite(most).all():
        for case in np.flatnonzero(~np.isfinite(most)):
            columns[case] = check.governing(int(case))
    capacity = None if check.capacity is None else _at(check.capacity, columns)
    own = asdict(check) | {"demand": _at(check.demand, columns), "capacity": capacity, "steps": ()}
    return Settled(**own, columns=columns, most=most, standing=check.levels)


def _at(table: Num, columns: NDArray[np.intp]) -> Num:
    """A number, or of each case the one in its own column, (cases, 1)."""
    if np.ndim(table) == 0:
        return table
    rows = np.atleast_2d(np.asarray(table, dtype=float))
    across = columns if rows.shape[1] > 1 else np.zeros_like(columns)
    down = np.arange(len(columns)) if len(rows) > 1 else np.zeros_like(columns)
    return np.asarray(rows[down, across][:, None])
