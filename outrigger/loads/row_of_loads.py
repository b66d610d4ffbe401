"""A row of equal loads, evenly apart, at its worst place on a simple span, or on two equal spans of
a member that runs on over the support between them. Statics.

lb and in, floats or arrays. Beside the row an even load, whose largest moment is added though it
stands at mid-span: the sum is no less than what any place has. The row is as long as may be.

Two equal spans L, a load at a from an outer support: the middle one takes P a (3 L^2 - a^2) /
(2 L^3), the moment over it is P a (L^2 - a^2) / (4 L^2); of an even load it takes 5/4 w L, 5/8 from
each side (any handbook, beam of two equal spans). The middle support of two spans takes more than
any of three and more. The moment over it is no more than at the worst place of a simple span but
for rows about half a span apart: 0.3 % there.

One outrigger of a row may bring more than the others: one worker stands on one of them. What he
brings more stands where a single load does the most, wherever the row stands.
"""

import math

import numpy as np
from msgspec import Struct

from outrigger.formula.formula import formula
from outrigger.formula.numbers import Array, Num, greatest

A_HAIR = 1e-9  # a load right at the far support counts for nothing


@formula("M", "lb-in", clause="statics: mid-span between the load and the middle of those on it")
def moment_of_row(
    R_one: Num, n_row: Num, l_beam: Num, e_row: Num, s_row: Num, q_row: Num, w_beam: Num
) -> Num:
    """Largest moment by a row of loads, and by what lies there evenly."""
    return (
        R_one * (n_row * (l_beam / 2 - e_row) ** 2 / l_beam - s_row * q_row * (q_row + 1) / 2)
        + w_beam * l_beam**2 / 8
    )


@formula("V", "lb", clause="statics: one load right beside the support, the row beyond it")
def end_shear_of_row(R_one: Num, n_end: Num, s_row: Num, l_beam: Num, w_beam: Num) -> Num:
    """Largest shear at an end by a row of loads, and by what lies there evenly."""
    return R_one * (n_end - n_end * (n_end - 1) / 2 * s_row / l_beam) + w_beam * l_beam / 2


@formula(
    "R_stud", "lb", clause="statics: two equal spans run on, a (3 L^2 - a^2) / (2 L^3) of each"
)
def on_middle_support(
    R_one: Num, n_two: Num, k_odd: Num, s_row: Num, l_beam: Num, w_beam: Num
) -> Num:
    """Largest load of a row on the support that two equal spans run on over.

    One load right over it or two astride: the sum of 1 - 3 z^2 / 2 + z^3 / 2 over the loads, each
    z L off the support. An even load that helps counts no more than a span of it.
    """
    return R_one * (
        n_two
        - (s_row / l_beam) ** 2
        * (n_two * (n_two**2 - 1) / 8 - (n_two**2 * (n_two**2 - 2) + k_odd) / 64 * s_row / l_beam)
    ) + greatest(5 * w_beam * l_beam / 4, w_beam * l_beam)


@formula("V", "lb", clause="statics: two equal spans run on, one load right beside their support")
def middle_shear_of_row(R_one: Num, n_end: Num, s_row: Num, l_beam: Num, w_beam: Num) -> Num:
    """Largest shear beside the support that two equal spans run on over.

    1 - z of each load of that span, z L off the support, and the moment over it, of both, by L."""
    return R_one * (
        n_end
        - n_end
        * (n_end - 1)
        * (s_row / l_beam) ** 2
        * ((2 * n_end - 1) / 4 - n_end * (n_end - 1) / 8 * s_row / l_beam)
    ) + greatest(5 * w_beam * l_beam / 8, w_beam * l_beam / 2)


@formula(
    "M", "lb-in", clause="statics: what one brings more, at mid-span", adds=("M_row", "R_more")
)
def one_more_at_mid_span(M_row: Num, R_more: Num, l_beam: Num) -> Num:
    """Largest moment, one outrigger of the row bringing more."""
    return M_row + R_more * l_beam / 4


@formula(
    "V", "lb", clause="statics: what one brings more, at the support", adds=("V_row", "R_more")
)
def one_more_beside_support(V_row: Num, R_more: Num) -> Num:
    """Largest shear beside a support, one outrigger of the row bringing more."""
    return V_row + R_more


@formula("R_stud", "lb", clause="statics: what one brings more, over it", adds=("R_row", "R_more"))
def one_more_on_support(R_row: Num, R_more: Num) -> Num:
    """Largest load on a support, one outrigger of the row bringing more."""
    return R_row + R_more


def most_on_two_spans(l_beam: Num, s_row: Num) -> tuple[Array, Array]:
    """How many loads stand on two spans where their middle support takes most, and 1 where that is
    odd. What a load brings there falls faster the farther off it stands, so the row is even about
    the support, with the most loads that fit, or one less."""
    span, apart = (np.asarray(v, dtype=float) for v in (l_beam, s_row))
    fit = np.floor(2 * span / apart + A_HAIR) + 1
    by_n = [on_middle_support(1.0, n, n % 2, apart, span, 0.0) for n in (fit, fit - 1)]
    n = np.where(by_n[0] * (1 + A_HAIR) < by_n[1], fit - 1, fit)
    return n, n % 2


class Row(Struct, frozen=True, eq=False):
    """How a row stands where its moment is largest: `n` loads on the span, the one it is under
    `e` in from mid-span with `q` loads on that side; `at_end`: how many stand on the span where
    one is right beside an end."""

    n: Array
    e: Array
    q: Array
    at_end: Array


def worst_row(l_beam: Num, s_row: Num) -> Row:
    """The place of a row of loads `s_row` in apart on a span of `l_beam` in."""
    span, apart = (np.asarray(v, dtype=float) for v in (l_beam, s_row))
    most = math.ceil(float(np.max(span / apart))) + 1
    zero = np.zeros(np.broadcast_shapes(span.shape, apart.shape))
    best = Row(zero + 1, zero, zero, np.maximum(np.ceil(span / apart - A_HAIR), 1) + zero)
    largest = moment_of_row(1.0, 1.0, span, 0.0, apart, 0.0, 0.0) + zero
    for n in range(2, most + 1):
        e, q = (apart / 4, n / 2 - 1) if n % 2 == 0 else (zero, (n - 1) / 2)
        M = moment_of_row(1.0, n, span, e, apart, q, 0.0)
        # the farthest load must still stand on the span
        fits = (n / 2 - 0.25 * (n % 2 == 0) - 0.5 * (n % 2)) * apart <= span / 2
        more = fits & (largest * (1 + A_HAIR) < M)
        largest = np.where(more, M, largest)
        best = Row(
            np.where(more, n, best.n), np.where(more, e, best.e), np.where(more, q, best.q),
            best.at_end,
        )  # fmt: skip
    return best
