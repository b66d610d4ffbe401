"""Which mark of a layout is the worst: plain arrays over checks and marks."""

import numpy as np
from numpy.typing import NDArray

from outrigger.formula.check import FAILS
from outrigger.formula.numbers import Array

ALIKE = 1e-9  # of a ratio or a force: within it two marks have the same


def worst_of_each(
    ratios: Array, levels: NDArray[np.intp], owner: NDArray[np.intp]
) -> NDArray[np.intp]:
    """Of each case the mark that is checked: ratios and levels (checks, marks), owner (marks,) the
    case of each, ascending from 0.

    One that fails before one that is open, and that before one that passes; then where most checks
    fail without a ratio; then the largest ratio of what fails, then of all, but only of checks that
    differ from mark to mark: a distance or a slenderness is the same at all of them and would
    choose none. The first of several alike.
    """
    starts = np.flatnonzero(np.append(True, np.diff(owner) > 0))
    finite = np.where(np.isfinite(ratios), ratios, 0.0)
    most = np.maximum.reduceat(finite, starts, axis=1)
    least = np.minimum.reduceat(np.where(finite > 0, finite, np.inf), starts, axis=1)
    differs = most > least * (1 + ALIKE)  # where a mark is not loaded at all, that tells nothing
    counted = np.where(differs[:, owner], finite, 0.0)
    fails = levels == FAILS
    order = np.lexsort((
        -np.arange(len(owner)),
        counted.max(axis=0),
        np.where(fails, counted, 0.0).max(axis=0),
        (np.isinf(ratios) & fails).sum(axis=0),
        levels.max(axis=0),
        owner,
    ))  # fmt: skip
    return np.asarray(order[np.append(starts[1:], len(owner)) - 1])
