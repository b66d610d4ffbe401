"""The stretches of the back span between supports: shears at their ends, moments inside."""

from itertools import pairwise

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from outrigger.actions.loads import Loads
from outrigger.actions.response import Response
from outrigger.actions.sums import Combinations
from outrigger.formula.numbers import Array, Bools, greatest
from outrigger.statics.beam import Side

PLACES = 32  # parts of a span with an uneven load; between two places a moment hardly differs


class Span(Struct, frozen=True, eq=False):
    """One stretch of back span between supports: x of its inner end and length in, a column; the
    rest (cases, combinations): moment lb-in and even load lb/in that the shears of an even load
    follow from; shears lb at its inner and outer end; `peak`: where the shear is zero inside it, x
    and moment (0: it is not zero there); `few`: places under an uneven load and their moment where
    it peaks, in the combinations that have one alone, (places, cases, ...)."""

    x: Array
    length: Array
    M_inner: Array
    V_even: Array
    w: Array
    V_inner: Array
    V_outer: Array
    peak: tuple[Array, Array]
    few: tuple[Array, Array] | None = None

    def even_moment(self, x: Array) -> Array:
        """Moment at a place under the even load; 0 outside the stretch."""
        s = x - self.x
        return np.where(
            (s > 0) & (s < self.length), self.M_inner + self.V_even * s - self.w * (s * s) / 2, 0.0
        )


class BackSpan(Struct, frozen=True, eq=False):
    """The back span about one axis, in the combinations of a set: M lb-in at the supports,
    `uneven` where its load is not even, `those` the combinations that are so in some case; its
    stretches, inner first."""

    solved: "Solved"
    M: list[Array]
    uneven: Bools
    those: NDArray[np.intp]
    stretches: list[Span]

    def moment_at(self, x: Array) -> Array:
        """Moment between the supports, lb-in, its size: by the moments at their ends under an even
        load, by the beam itself where the load is not even."""
        M = sum((np.abs(span.even_moment(x)) for span in self.stretches), np.zeros((1, 1)))
        if len(self.those):
            few, here = _only(self.solved, self.those), self.uneven[:, self.those]
            solved = np.where(x < 0, np.abs(few.moment(x)), 0.0)
            M = np.array(np.broadcast_to(M, (max(len(M), len(solved)), M.shape[1])))
            M[:, self.those] = np.where(here, solved, M[:, self.those])
        return np.asarray(M)

    def largest_between(self, far: Array, near: Array) -> Array:
        """Largest moment from x = far to x = near, both ends included, but for the edge's own."""

        def within(x: Array) -> Bools:
            return np.asarray((far <= x) & (x <= near))

        found = [self.moment_at(x) for x in (far, near)]
        supports = zip(self.solved.x[:-1], self.M[:-1], strict=True)
        found += [np.where(within(x), np.abs(M), 0.0) for x, M in supports]
        peaks = (span.peak for span in self.stretches)
        most = greatest(*found, *(np.where(within(x), np.abs(M), 0) for x, M in peaks))
        few = [np.where(within(x), np.abs(M), 0) for x, M in self._few]
        return self._with_few(np.asarray(most), few)

    @property
    def largest(self) -> Array:
        """Largest moment inside the back span and over its inner supports."""
        inside = [np.abs(span.peak[1]) for span in self.stretches]
        most = greatest(*inside, *(np.abs(M) for M in self.M[:-1]))
        return self._with_few(np.asarray(most), [np.abs(M) for _, M in self._few])

    @property
    def _few(self) -> list[tuple[Array, Array]]:
        return [span.few for span in self.stretches if span.few is not None]

    def _with_few(self, most: Array, few: list[Array]) -> Array:
        """The larger of moments in every combination and of those in the few alone."""
        if few:
            those = np.asarray(greatest(*(M.max(axis=0) for M in few)))
            most = np.array(np.broadcast_to(most, (max(len(most), len(those)), most.shape[1])))
            most[:, self.those] = np.maximum(most[:, self.those], those)
        return most


class Solved(Struct, frozen=True, eq=False):
    """The beam in the combinations of a set: x of its supports in columns, on all of them, and,
    where the edge lifts off, on those that are left (None: it never does)."""

    x: list[Array]
    over: Combinations
    whole: Response
    lifted: Response | None
    lifts: Bools

    def moment(self, x: Array) -> Array:
        """Moment at a place."""
        at = x[:, 0]
        M = self.over.combine(self.whole.solution.moment(at, "left"))
        if self.lifted is None:
            return M
        free = self.over.combine(self.lifted.solution.moment(at, "left"))
        return np.where(self.lifts, free, M)

    def moments(self, x: Array) -> Array:
        """As `moment`, at many places at once: (places, cases, 1) to (places, cases, ...)."""
        M = self._each(self.whole, x)
        return M if self.lifted is None else np.where(self.lifts, self._each(self.lifted, x), M)

    def _each(self, on: Response, x: Array) -> Array:
        by_part = on.solution.moments(x, "left")
        rows = self.over.combine(by_part.reshape(-1, by_part.shape[-1]))
        return rows.reshape(*by_part.shape[:2], -1)

    def shear(self, x: Array, side: Side) -> Array:
        """Shear at one side of a place."""
        at = x[:, 0]
        V = self.over.combine(self.whole.solution.shear(at, side))
        if self.lifted is None:
            return V
        free = self.over.combine(self.lifted.solution.shear(at, side))
        return np.where(self.lifts, free, V)


def back_span(on: Loads, solved: Solved, M: list[Array]) -> BackSpan:
    """The back span from the moments at its supports, lb-in, and the load between them; `on`: the
    loads about the same axis."""
    over, uneven = solved.over, np.zeros((1, 1), dtype=bool)
    drifted = {part: peak != 0 for part, (peak, _) in on.house.items()}
    for part, (q, _) in on.shed.items():  # even as far as the back counts as the other even loads
        cut = (q != 0) & (solved.whole.w_back[:, [over.parts.index(part)]] == 0)
        drifted |= {part: cut} if np.any(cut) else {}
    if drifted:
        loaded = over.factors[:, [over.parts.index(part) for part in drifted]] != 0
        for here, with_it in zip(drifted.values(), loaded.T, strict=True):
            uneven = uneven | (here & with_it)
    those = np.flatnonzero(np.any(uneven, axis=0))
    w, found = over.combine(solved.whole.w_back), []
    for (inner, outer), ends in zip(pairwise(solved.x), pairwise(M), strict=True):
        span = even_span(inner, outer - inner, *ends, w)
        found.append(_worse(span, solved, outer, uneven, those) if len(those) else span)
    return BackSpan(solved, M, uneven, those, found)


def even_span(x: Array, length: Array, M_inner: Array, M_outer: Array, w: Array) -> Span:
    """A stretch under an even load, from the moments at its ends."""
    of_moments, of_load = (M_outer - M_inner) / length, w * (length / 2)
    V_inner, V_outer = of_moments + of_load, of_moments - of_load
    turns = V_inner * V_outer < 0  # shear passes through zero inside, at V / w from the inner end
    over_w = np.divide(V_inner, w, out=np.zeros_like(V_inner), where=turns)
    gained = np.divide(V_inner**2, w, out=np.zeros_like(V_inner), where=turns) / 2
    peak = (x + over_w, np.where(turns, M_inner + gained, 0.0))
    return Span(
        x=x,
        length=length,
        M_inner=M_inner,
        V_even=V_inner,
        w=w,
        V_inner=V_inner,
        V_outer=V_outer,
        peak=peak,
    )


def _only(solved: Solved, those: NDArray[np.intp]) -> Solved:
    """The beam in some of the combinations alone, with the same sums."""
    over = solved.over
    listed = tuple(over.all[i] for i in those)
    few = replace(over, all=listed, factors=over.factors[those], times=over.times[:, those])
    lifts = solved.lifts if solved.lifts.shape[1] == 1 else solved.lifts[:, those]
    return replace(solved, over=few, lifts=lifts)


def _worse(one: Span, solved: Solved, outer: Array, uneven: Bools, those: NDArray[np.intp]) -> Span:
    """The larger of each where the load is uneven: by the moments at the ends under an even load,
    and by the beam itself, its moments at places inside."""

    some, here = _only(solved, those), uneven[:, those]

    def larger(a: Array, b: Array) -> Array:
        found = np.array(np.broadcast_to(a, (max(len(a), len(b)), a.shape[1])))
        own = found[:, those]
        found[:, those] = np.where(here & (np.abs(b) > np.abs(own)), b, own)
        return found

    x = np.stack([one.x + (outer - one.x) * k / PLACES for k in range(PLACES + 1)])
    inside = some.moments(x)  # all places in one sum: a quarter of a small batch's time saved
    size = np.abs(inside)
    peak = (size[1:-1] >= size[:-2]) & (size[1:-1] >= size[2:])  # not a mere slope
    return replace(
        one,
        V_inner=larger(one.V_inner, some.shear(one.x, "right")),
        V_outer=larger(one.V_outer, some.shear(outer, "left")),
        few=(x[1:-1], np.where(here & peak, inside[1:-1], 0.0)),
    )
