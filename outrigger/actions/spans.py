"""The stretches of the back span between supports: shears at their ends, the moment inside."""

from dataclasses import dataclass

import numpy as np

from outrigger.actions.model import Model
from outrigger.actions.sums import Combinations
from outrigger.formula.numbers import Array, Bools


@dataclass(frozen=True, eq=False)
class Span:
    """One stretch of back span between supports, (cases, combinations): length in, shears lb at
    its inner and outer end, and the moment lb-in where shear is zero inside it (else 0)."""

    length: Array
    V_inner: Array
    V_outer: Array
    M_inside: Array


def spans(model: Model, over: Combinations, M: list[Array], w_back: Array) -> list[Span]:
    """The stretches of the back span, inner first: end moments and an even load between them.

    M lb-in at the supports, w_back lb/in on the back span, (cases, combinations) of the set.
    """
    found = []
    drifted = {part: peak != 0 for part, (peak, _) in model.by_axis.square.house.items()}
    for i in range(len(model.supports) - 1):
        length = model.supports[i + 1][1] - model.supports[i][1]
        span = even_span(length, M[i], M[i + 1], w_back)
        if drifted:
            loaded = over.factors[:, [over.parts.index(part) for part in drifted]] != 0
            here = [p & with_it for p, with_it in zip(drifted.values(), loaded.T, strict=True)]
            span = _worse(span, _uneven(model, over, i, length), np.any(here, axis=0))
        found.append(span)
    return found


def even_span(length: Array, M_inner: Array, M_outer: Array, w: Array) -> Span:
    """A stretch under an even load, from the moments at its ends."""
    of_moments, of_load = (M_outer - M_inner) / length, w * (length / 2)
    V_inner, V_outer = of_moments + of_load, of_moments - of_load
    turns = V_inner * V_outer < 0  # shear passes through zero inside, at V / w from the inner end
    gained = np.divide(V_inner**2, w, out=np.zeros_like(V_inner), where=turns) / 2
    return Span(length, V_inner, V_outer, np.where(turns, M_inner + gained, 0.0))


def _worse(one: Span, other: Span, uneven: Bools) -> Span:
    """The larger of each where the load is uneven: by places, and by the moments at the ends."""

    def larger(a: Array, b: Array) -> Array:
        return np.where(uneven & (np.abs(b) > np.abs(a)), b, a)

    return Span(
        one.length,
        larger(one.V_inner, other.V_inner),
        larger(one.V_outer, other.V_outer),
        larger(one.M_inside, other.M_inside),
    )


def _uneven(model: Model, over: Combinations, i: int, length: Array) -> Span:
    """A stretch under a load that is not even: shears at its ends, moment at places inside."""
    whole = model.whole
    assert whole.M_between is not None and whole.V_ends is not None
    inside = [over.combine(M) for M in (whole.M[i], *whole.M_between[i], whole.M[i + 1])]
    largest = np.zeros_like(inside[0])
    for before, M, after in zip(inside, inside[1:], inside[2:], strict=False):
        peak = (np.abs(M) >= np.abs(before)) & (np.abs(M) >= np.abs(after))  # not a mere slope
        largest = np.where(peak & (np.abs(M) > np.abs(largest)), M, largest)
    V_i, V_o = whole.V_ends[i]
    return Span(length, over.combine(V_i), over.combine(V_o), largest)
