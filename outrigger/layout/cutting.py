"""Pieces cut from stock lengths: what to buy, how to cut it, how close that is to the least.

Every cut takes a kerf; each stock length first loses its squaring allowance. Over all ways to fill
a stick, whole numbers of sticks are sought by HiGHS: the least length bought, of these the fewest
sticks, the most alike, and one by a fixed order, so that a job has one list. Plain numbers, in.
"""

import math
import zlib
from collections.abc import Iterator, Sequence

import numpy as np
from msgspec import Struct

from outrigger.base.errors import InputError, OutriggerError
from outrigger.formula.numbers import Array

ROUND_OFF = 1e-9
MOST_NODES = (
    1000  # of a search; real jobs end in the first, beyond it the bound says how close it is
)


SLACK = 1e-6
OPTIONS: dict[str, bool | int | float] = {  # one thread and one seed: the same answer every time
    "output_flag": False,
    "threads": 1,
    "random_seed": 0,
    "mip_rel_gap": 0.0,
    "mip_abs_gap": 0.0,
    "mip_max_nodes": MOST_NODES,
}


class Stick(Struct, frozen=True):
    """A stock length, in, and how many of each piece are cut from it."""

    stock: float
    cuts: tuple[int, ...]


class Packing(Struct, frozen=True):
    """What to buy. Lengths in; sticks with their count, the longest stock first."""

    lengths: tuple[float, ...]
    sticks: tuple[tuple[Stick, int], ...]
    bound: float  # no packing buys less

    @property
    def bought(self) -> float:
        """Total length of stock."""
        return sum(stick.stock * count for stick, count in self.sticks)

    @property
    def used(self) -> float:
        """Length that ends in pieces."""
        return sum(
            n * length * count
            for stick, count in self.sticks
            for n, length in zip(stick.cuts, self.lengths, strict=True)
        )

    @property
    def waste(self) -> float:
        """Part of what is bought that does not end in a piece."""
        return 1 - self.used / self.bought

    @property
    def over(self) -> float:
        """Length bought beyond the bound: at most so far from the least; 0 is the least."""
        return max(self.bought - self.bound, 0.0)

    def offcut(self, stick: Stick) -> float:
        """Offcut of one stick, kerfs and squaring included."""
        return stick.stock - sum(n * x for n, x in zip(stick.cuts, self.lengths, strict=True))


def pack(
    pieces: Sequence[tuple[float, int]], stock: Sequence[float], *, kerf: float, squaring: float
) -> Packing:
    """The stock to buy for pieces (length, count), and how to cut it.

    Raises:
        InputError: a piece that no stock length holds.
    """
    pieces = sorted(((x, n) for x, n in pieces if n), reverse=True)
    lengths, wanted = tuple(x for x, _ in pieces), tuple(n for _, n in pieces)
    room = {s: s - squaring + kerf for s in sorted(set(stock))}  # the last cut needs no kerf
    longest = max(room)
    if lengths[0] + kerf > room[longest] + ROUND_OFF:
        raise InputError(
            f"layout.stock: the longest, {longest:g} in, does not hold a piece of {lengths[0]:g} "
            f"in with {squaring:g} in to square its end. Add a longer one."
        )
    takes = [x + kerf for x in lengths]
    patterns = [
        Stick(s, cuts) for s, space in room.items() for cuts in _patterns(takes, wanted, space)
    ]
    counts, bound = _fewest(patterns, wanted)
    count: dict[Stick, int] = {}
    left = wanted
    for stick in (stick for stick, n in zip(patterns, counts, strict=True) for _ in range(n)):
        cuts = tuple(min(n, still) for n, still in zip(stick.cuts, left, strict=True))
        left = tuple(still - n for n, still in zip(cuts, left, strict=True))
        if any(cuts):
            count[Stick(stick.stock, cuts)] = count.get(Stick(stick.stock, cuts), 0) + 1
    ordered = sorted(count.items(), key=lambda one: (-one[0].stock, one[0].cuts))
    return Packing(lengths, tuple(ordered), bound)


def _patterns(
    takes: Sequence[float], wanted: Sequence[int], space: float
) -> Iterator[tuple[int, ...]]:
    """Every way to fill a space that leaves no room for one more wanted piece."""

    def fill(i: int, left: float, cuts: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        if i == len(takes):
            more = any(
                x <= left + ROUND_OFF and n < w for x, n, w in zip(takes, cuts, wanted, strict=True)
            )
            if any(cuts) and not more:
                yield cuts
            return
        most = min(int((left + ROUND_OFF) / takes[i]), wanted[i])
        for n in range(most, -1, -1):
            yield from fill(i + 1, left - n * takes[i], (*cuts, n))

    return fill(0, space, ())


def _fewest(patterns: Sequence[Stick], wanted: Sequence[int]) -> tuple[list[int], float]:
    """How many of each pattern, and a length that no packing is under.

    Each search keeps what those before it found: the least length, in whole steps where the stock
    has them; the fewest sticks; the least sum of squares, sticks most alike; and the least sum of
    numbers that belong to the patterns by chance, so that one list is left.
    """
    stock = np.array([p.stock for p in patterns])
    step = math.gcd(*(round(s * 16) for s in stock)) / 16
    if np.any(np.abs(stock * 16 - np.round(stock * 16)) > ROUND_OFF):
        step = 1.0
    by_chance = np.array([zlib.crc32(repr(p).encode()) % 10**6 for p in patterns], dtype=float)
    steps, each = stock / step, np.ones(len(patterns))
    rows = np.array([p.cuts for p in patterns], dtype=float).T
    least = np.array(wanted, dtype=float)
    most = np.full(len(wanted), math.inf)  # more pieces than wanted do no harm
    found, bound = _search(steps, rows, least, most)
    bought = float(stock @ found)
    for kept, sought in ((steps, each), (each, steps**2), (steps**2, by_chance)):
        rows, most = np.vstack([rows, kept]), np.append(most, kept @ found)
        least = np.append(least, -math.inf)
        found, _ = _search(sought, rows, least, most, found)
    return [int(n) for n in found], min(bound * step, bought)


def _search(
    cost: Array, rows: Array, least: Array, most: Array, start: Array | None = None
) -> tuple[Array, float]:
    """Whole numbers, 0 or more, of least cost, each row of them between least and most; and what
    no such numbers cost less than.

    Raises:
        OutriggerError: the search ended without any.
    """
    import highspy  # only for a cut list

    model = highspy.HighsLp()
    model.num_row_, model.num_col_ = rows.shape
    model.col_cost_, model.row_lower_, model.row_upper_ = cost, least, most
    model.col_lower_, model.col_upper_ = np.zeros(len(cost)), np.full(len(cost), math.inf)
    model.integrality_ = [highspy.HighsVarType.kInteger] * len(cost)
    of_row, of_column = np.nonzero(rows)
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.start_ = np.searchsorted(of_row, np.arange(len(rows) + 1))
    model.a_matrix_.index_, model.a_matrix_.value_ = of_column, rows[of_row, of_column]
    # `Highs`, which stands on it, prints its name when it is made
    solver = highspy._core._Highs()
    for option, value in OPTIONS.items():
        solver.setOptionValue(option, value)
    solver.passModel(model)
    if start is not None:
        known = highspy.HighsSolution()
        known.col_value = list(start)
        solver.setSolution(known)
    solver.run()
    found = np.round(np.array(solver.getSolution().col_value))
    sums = rows @ found if len(found) == len(cost) else np.full(len(rows), math.nan)
    if not np.all((sums >= least - SLACK) & (sums <= most + SLACK)):
        status = solver.modelStatusToString(solver.getModelStatus())
        raise OutriggerError(
            f"No cut list: the search for the least lumber ended without one ({status})."
        )
    if solver.getModelStatus() == highspy.HighsModelStatus.kOptimal:
        return found, float(cost @ found)
    return found, float(solver.getInfo().mip_dual_bound)
