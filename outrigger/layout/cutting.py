"""Pieces cut from stock lengths: what to buy, how to cut it, how close that is to the least.

Every cut takes a kerf; each stock length first loses its squaring allowance. Sought is the least
total length bought. A bound from the linear programme over all cutting patterns says how close the
answer is; where they meet it is the least possible. Plain numbers, in.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from outrigger.base.errors import InputError
from outrigger.formula.numbers import Array

ROUND_OFF = 1e-9
MOST_STATES = 20_000  # of what the whole sticks of the linear programme leave over
MOST_TURNS = 500


@dataclass(frozen=True)
class Stick:
    """A stock length, in, and how many of each piece are cut from it."""

    stock: float
    cuts: tuple[int, ...]


@dataclass(frozen=True)
class Packing:
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
    parts, prices = _relaxed(patterns, wanted)
    bound = _sum_of_stock(float(prices @ wanted), tuple(room))
    search = _Search(patterns, lengths, prices, tuple(room))
    chosen = min(search.tries(parts, wanted), key=lambda sticks: sum(s.stock for s in sticks))
    count: dict[Stick, int] = {}
    over = list(wanted)
    for stick in chosen:
        cuts = _least(stick.cuts, over)
        over = [o - c for o, c in zip(over, cuts, strict=True)]
        if any(cuts):
            held = Stick(min(s for s in room if _fits(cuts, takes, room[s])), cuts)
            count[held] = count.get(held, 0) + 1
    ordered = sorted(count.items(), key=lambda one: (-one[0].stock, one[0].cuts))
    return Packing(lengths, tuple(ordered), bound)


def _fits(cuts: Sequence[int], takes: Sequence[float], space: float) -> bool:
    return sum(n * x for n, x in zip(cuts, takes, strict=True)) <= space + ROUND_OFF


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


def _relaxed(patterns: Sequence[Stick], wanted: Sequence[int]) -> tuple[list[float], Array]:
    """Fractions of sticks of least total length, and a price of each piece.

    The simplex method over all patterns. The prices are lowered until no pattern is worth more than
    its stick, so that they bound every packing whenever the search stops.
    """
    m = len(wanted)
    A = np.array([p.cuts for p in patterns], dtype=float).T
    A = np.concatenate([A, -np.eye(m)], axis=1)  # more pieces than wanted do no harm
    c = np.array([p.stock for p in patterns] + [0.0] * m)
    basis = [int(np.argmin(np.where(A[i] > 0, c / np.maximum(A[i], ROUND_OFF), np.inf)))
             for i in range(m)]  # fmt: skip
    single = np.array([[float(i == j) * max(A[i, b], 1.0) for j in range(m)]
                       for i, b in enumerate(basis)]).T  # fmt: skip
    A, c = np.concatenate([A, single], axis=1), np.concatenate([c, c[basis]])
    basis = list(range(A.shape[1] - m, A.shape[1]))
    d = np.array(wanted, dtype=float)
    x = np.linalg.solve(A[:, basis], d)
    prices = np.linalg.solve(A[:, basis].T, c[basis])
    for _ in range(MOST_TURNS):
        worth = c - prices @ A
        enter = int(np.argmin(worth))
        if worth[enter] >= -ROUND_OFF * max(c):
            break
        way = np.linalg.solve(A[:, basis], A[:, enter])
        steps = np.where(way > ROUND_OFF, x / np.where(way > ROUND_OFF, way, 1.0), np.inf)
        basis[int(np.argmin(steps))] = enter
        x = np.maximum(np.linalg.solve(A[:, basis], d), 0.0)
        prices = np.linalg.solve(A[:, basis].T, c[basis])
    prices = np.maximum(prices, 0.0)
    n = len(patterns)
    worth = prices @ A[:, :n]
    prices = prices * min(1.0, float(np.min(c[:n] / np.maximum(worth, ROUND_OFF))))
    parts = [0.0] * n
    for column, amount in zip(basis, x, strict=True):
        if column < n:
            parts[column] = float(amount)
    return parts, prices


class _Search:
    """Whole sticks for what is wanted. `prices`: of each piece, at most its stick's length in any
    pattern, so that prices times pieces is a bound on every packing of them."""

    def __init__(
        self,
        patterns: Sequence[Stick],
        lengths: Sequence[float],
        prices: Array,
        stock: tuple[float, ...],
    ) -> None:
        self.prices, self.lengths, self.stock = prices, lengths, stock
        self.patterns = sorted(patterns, key=lambda p: p.stock - float(prices @ p.cuts))
        self.order = patterns
        self.known: dict[tuple[int, ...], tuple[float, Stick | None]] = {}

    def tries(self, parts: Sequence[float], wanted: tuple[int, ...]) -> Iterator[list[Stick]]:
        """Packings: the least possible where few pieces are wanted, else the whole sticks of the
        linear programme, and of it one fewer of each, with the least for what they leave."""
        if math.prod(n + 1 for n in wanted) <= MOST_STATES:
            yield self.fewest(wanted)
            return
        whole = [math.floor(n + ROUND_OFF) for n in parts]
        for less in (0, 1):
            taken = [p for p, n in zip(self.order, whole, strict=True) for _ in range(n - less)]
            left = wanted
            for stick in taken:
                left = _less(left, stick.cuts)
            small = math.prod(n + 1 for n in left) <= MOST_STATES
            yield [*taken, *(self.fewest(left) if small else self.greedy(left))]

    def fewest(self, wanted: tuple[int, ...]) -> list[Stick]:
        """Sticks of least total length."""
        found = []
        while any(wanted):
            stick = self._next(wanted)[1]
            assert stick is not None
            found.append(stick)
            wanted = _less(wanted, stick.cuts)
        return found

    def _next(self, left: tuple[int, ...]) -> tuple[float, Stick | None]:
        """Least total for what is left, and a stick to begin with: the first piece still wanted is
        in the next stick, whichever that is."""
        first = next((i for i, n in enumerate(left) if n), None)
        if first is None:
            return 0.0, None
        if left in self.known:
            return self.known[left]
        bound = _sum_of_stock(float(self.prices @ left), self.stock)
        best: tuple[float, Stick | None] = (math.inf, None)
        seen = set()
        for stick in self.patterns:
            rest = _less(left, stick.cuts)
            at_least = stick.stock + float(self.prices @ rest)
            if not stick.cuts[first] or (stick.stock, rest) in seen or at_least >= best[0]:
                continue
            seen.add((stick.stock, rest))
            total = stick.stock + self._next(rest)[0]
            if total < best[0]:
                best = (total, stick)
            if total <= bound:
                break
        self.known[left] = best
        return best

    def greedy(self, wanted: tuple[int, ...]) -> list[Stick]:
        """Stick after stick, each the one that wastes the least part of itself."""
        found = []
        while any(wanted):

            def used(stick: Stick, left: tuple[int, ...] = wanted) -> float:
                cut = zip(_least(stick.cuts, left), self.lengths, strict=True)
                return sum(n * x for n, x in cut) / stick.stock

            found.append(max(self.patterns, key=used))
            wanted = _less(wanted, found[-1].cuts)
        return found


def _least(a: Sequence[int], b: Sequence[int]) -> tuple[int, ...]:
    return tuple(min(x, y) for x, y in zip(a, b, strict=True))


def _less(wanted: tuple[int, ...], cuts: tuple[int, ...]) -> tuple[int, ...]:
    return tuple(max(n - c, 0) for n, c in zip(wanted, cuts, strict=True))


def _sum_of_stock(bound: float, stock: Sequence[float]) -> float:
    """The least total of whole sticks that is not under the bound."""
    step = math.gcd(*(round(s * 16) for s in stock)) / 16
    exact = all(abs(s * 16 - round(s * 16)) < ROUND_OFF for s in stock)
    return math.ceil(bound / step - ROUND_OFF) * step if exact else bound
