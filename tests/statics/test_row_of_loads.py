"""A row of equal loads at its worst place, against the same row moved along a beam of statics."""

import numpy as np
import pytest
import sympy
from stiffness_method import stiffness_method

from outrigger.loads.row_of_loads import (
    end_shear_of_row,
    middle_shear_of_row,
    moment_of_row,
    most_on_two_spans,
    on_middle_support,
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


def test_what_two_spans_bring_to_the_support_between():
    """a (3 L^2 - a^2) / (2 L^3) of a load a from an outer support. 16 in spans. Loads at 16 in, at
    both mid-spans: 2 x 0.5 (3 - 0.25) / 2 = 2 x 0.6875 = 1.375. At 12 in: one over it and two at a
    = 4: 1 + 2 x 0.25 (3 - 0.0625) / 2 = 1.7344; two astride at a = 10: 2 x 0.625 (3 - 0.390625) / 2
    = 1.6309, so 1.7344. At 24 in two astride at a = 4 bring 0.7344, one over it 1. At 6 in five,
    a = 10 and 4: 1 + 2 (0.81543 + 0.36719) = 3.3652; six, a = 13, 7, 1: 0.8125 (3 - 0.66016) / 2 =
    0.95056, 0.4375 (3 - 0.19141) / 2 = 0.61438, 0.0625 (3 - 0.00391) / 2 = 0.09363: 3.3171. And
    5/4 w L: 2 lb/in x 20 = 40; where it helps w L: 32."""
    for apart, most, n in ((16.0, 1.375, 2), (12.0, 1.7344, 3), (24.0, 1.0, 1), (6.0, 3.3652, 5)):
        number, odd = most_on_two_spans(16.0, apart)
        assert (float(number), float(odd)) == (n, n % 2)
        found = float(on_middle_support(1, number, odd, apart, 16, 0))
        assert found == pytest.approx(most, abs=5e-5)
    assert float(on_middle_support(0, 1, 1, 16, 16, 2)) == 40
    assert float(on_middle_support(0, 1, 1, 16, 16, -2)) == -32


def test_shear_beside_the_support_that_two_spans_run_on_over():
    """16 in spans, loads at 16 in, one right beside the support: 1. At 8 in: 1 + 1/2, and the
    moment over the support of two loads at mid-span, 2 x (0.5 x 0.75 / 4) L: 1.6875. And 5/8 w L:
    2 x 10 = 20."""
    for apart, n, most in ((16.0, 1, 1.0), (8.0, 2, 1.6875)):
        assert float(middle_shear_of_row(1, n, apart, 16, 2)) == pytest.approx(most + 20)


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


@pytest.mark.parametrize("ratio", [0.4, 0.75, 1.0, 1.27, 1.5, 2.0, 3.0])
def test_two_spans_by_another_solver(ratio):
    """Two spans that run on, the row moved along by 1/32 of its spacing, solved by stiffness: what
    the middle support takes, and the shear right beside it. The worst places lie on those steps."""
    apart, span = 16.0, 16.0 * ratio
    R, V = 0.0, 0.0
    for k in range(32):
        x = [k * apart / 32 + i * apart for i in range(-9, 9)]
        x = [span + at for at in x if -span + 1e-9 < at < span - 1e-9]
        if not x:
            continue
        loads = [("point", at, 1.0) for at in x]
        supports = [0.0, span, 2 * span]
        found = stiffness_method(supports, [np.inf] * 3, 1e6, np.inf, 0.0, 2 * span, loads)
        R = max(R, float(found.reactions[1]))
        over = float(k == 0)  # right over the support: beside it, all of it is shear
        V = max(V, found.shear[span, "right"] + over, -found.shear[span, "left"] + over)
    n, odd = most_on_two_spans(span, apart)
    assert float(on_middle_support(1.0, n, odd, apart, span, 0.0)) == pytest.approx(R, rel=1e-9)
    at_end = worst_row(span, apart).at_end
    assert float(middle_shear_of_row(1.0, at_end, apart, span, 0.0)) == pytest.approx(V, rel=1e-9)


def test_the_influence_of_a_load_on_two_spans():
    """Sympy: slope-deflection of two equal spans, the outer ends hinged: M over the support by a
    load at a in one of them, and the two shears beside it."""
    P, a, L, EI, turn = sympy.symbols("P a L EI turn", positive=True)
    fixed = P * a * (L**2 - a**2) / (2 * L**2)  # far end hinged, near end held
    near = fixed - 3 * EI * turn / L
    (solved,) = sympy.solve(near - 3 * EI * turn / L, turn)
    M = sympy.simplify(near.subs(turn, solved))
    assert sympy.simplify(M - P * a * (L**2 - a**2) / (4 * L**2)) == 0
    R = (P * a / L + M / L) + M / L
    assert sympy.simplify(R - P * a * (3 * L**2 - a**2) / (2 * L**3)) == 0
    z, s = sympy.symbols("z s", positive=True)
    one = sympy.expand((R / P).subs(a, L - z * L))
    assert sympy.expand(one - (1 - 3 * z**2 / 2 + z**3 / 2)) == 0
    for count in range(1, 9):  # the sum, term by term
        places = [abs(k - sympy.Rational(count - 1, 2)) * s / L for k in range(count)]
        total = sympy.expand(sum(one.subs(z, at) for at in places))
        stated = on_middle_support.function(1, sympy.Integer(count), count % 2, s, L, 0)
        assert sympy.simplify(total - stated) == 0
