"""A row of equal loads at its worst place, against the same row moved along a beam of statics."""

import numpy as np
import pytest
from stiffness_method import stiffness_method

from outrigger.loads.row_of_loads import (
    between_two_spans,
    end_shear_of_row,
    moment_of_row,
    worst_row,
)
from outrigger.statics.beam import Beam, Point, solve

SPANS = [(16.0, 16.0), (14.5, 16.0), (36.0, 16.0), (48.0, 16.0), (60.0, 24.0), (72.0, 12.0),
         (40.0, 24.0), (30.0, 19.2), (96.0, 19.2), (22.5, 12.0)]  # fmt: skip


def moved(span, apart, steps=1600):
    """Largest moment, end shear and pull on the left support by 1 lb loads, the row moved along."""
    M, V = 0.0, 0.0
    for start in np.linspace(0.0, apart, steps, endpoint=False):
        x = np.arange(start, span + 1e-9, apart)
        if not len(x):  # all of the row stands beside the span
            continue
        beam = solve(Beam([0.0, span], 1e6, 0.0, span), [Point(at, 1.0) for at in x])
        M = max(M, float(np.max(beam.moment(x))))
        V = max(V, float(beam.reactions[0, 0, 0]))
    return M, V


@pytest.mark.parametrize(("span", "apart"), SPANS)
def test_the_worst_place_is_that_of_the_row_moved_along(span, apart):
    row = worst_row(span, apart)
    M = float(moment_of_row(1.0, row.n, span, row.e, apart, row.q, 0.0))
    V = float(end_shear_of_row(1.0, row.at_end, apart, span, 0.0))
    moment, shear = moved(span, apart)
    assert pytest.approx(moment, rel=2e-4) == M  # the moved row stands at places of apart / 1600
    assert moment * (1 - 1e-12) <= M
    assert pytest.approx(shear, rel=1e-9) == V


def test_two_loads_as_a_handbook_has_them():
    """Two equal moving loads a apart on a span L: M = P (2 L - a)^2 / (8 L) while a is under
    0.586 L, else P L / 4 (handbook, moving loads). P 1, L 40, a 16: (80 - 16)^2 / 320 = 12.8;
    a third load 16 in on brings 3 x 10 - 16 = 14 with the middle one at mid-span. a 24, over
    0.586 L = 23.4: 40 / 4 = 10."""
    assert float(moment_of_row(1, 2, 40, 4, 16, 0, 0)) == pytest.approx(12.8)
    row = worst_row(40.0, 16.0)
    assert float(moment_of_row(1, row.n, 40, row.e, 16, row.q, 0)) == pytest.approx(14.0)
    assert float(worst_row(40.0, 24.0).n) == 1


def test_what_stands_between_two_spans():
    """16 in spans, loads at 16 in: one load. At 12 in: 1 + 2 (1 - 12/16) = 1.5. At 6 in: 1 + 2
    (10/16 + 4/16) = 2.75. And w L: 2 lb/in x 16 = 32."""
    for apart, most in ((16.0, 1.0), (12.0, 1.5), (6.0, 2.75)):
        row = worst_row(16.0, apart)
        assert float(between_two_spans(1, row.at_end, apart, 16, 2)) == pytest.approx(most + 32)


def test_many_spacings_at_once():
    """A column of spacings gives each its own."""
    apart = np.array([[12.0], [16.0], [24.0], [40.0]])
    together = worst_row(48.0, apart)
    for i, one in enumerate(apart[:, 0]):
        alone = worst_row(48.0, one)
        for name in ("n", "e", "q", "at_end"):
            assert getattr(together, name)[i, 0] == getattr(alone, name), (one, name)


@pytest.mark.parametrize("ratio", [0.75, 1.0, 1.5, 1.8, 2.0, 2.5, 3.0, 4.1, 6.0])
def test_by_another_solver_too(ratio):
    """The row moved along by 1/32 of its spacing, solved by stiffness: the same moment and end
    shear. Every worst place lies on those steps: the row half, a quarter or none of its spacing
    off mid-span."""
    apart, span = 16.0, 16.0 * ratio
    row = worst_row(span, apart)
    M, V = 0.0, 0.0
    starts = {(span / 2 + k * apart / 32) % apart for k in range(32)} | {0.0}
    for start in starts:
        x = [float(at) for at in np.arange(start, span - 1e-9, apart) if at > 1e-9]
        at_support = float(start < 1e-9)  # right beside it, all of it is shear
        if not x:
            V = max(V, at_support)
            continue
        loads = [("point", at, 1.0) for at in x]
        found = stiffness_method(
            [0.0, span], [np.inf, np.inf], 1e6, np.inf, 0.0, span, loads, places=x
        )
        M = max([M, *found.moment.values()])
        V = max(V, at_support + found.shear[0.0, "right"])
    assert float(moment_of_row(1.0, row.n, span, row.e, apart, row.q, 0.0)) == pytest.approx(M)
    assert float(end_shear_of_row(1.0, row.at_end, apart, span, 0.0)) == pytest.approx(V)


@pytest.mark.parametrize("ratio", [0.75, 1.0, 1.5, 2.0, 3.0])
def test_the_support_between_two_spans_by_another_solver(ratio):
    """Two simple spans, hinged over their support: what their ends there bring together, and what
    stands right over it."""
    apart, span = 16.0, 16.0 * ratio
    row, most = worst_row(span, apart), 0.0
    for k in range(32):
        total = 0.0
        start = k * apart / 32
        for first in (start, (apart - start) % apart):  # from the support, either way
            x = [float(at) for at in np.arange(first, span - 1e-9, apart) if at > 0]
            if x:
                loads = [("point", at, 1.0) for at in x]
                ends = stiffness_method(
                    [0.0, span], [np.inf, np.inf], 1e6, np.inf, 0.0, span, loads
                )
                total += ends.reactions[0]
        most = max(most, total + (start == 0))
    found = float(between_two_spans(1.0, row.at_end, apart, span, 0.0))
    assert found == pytest.approx(most, rel=1e-9)
