"""Group action factor, NDS 2018 11.3.6: by hand, and the row of springs itself, solved."""

import numpy as np
import pytest

from outrigger.fasteners.group import group_factor
from outrigger.formula.formula import given


def factor(n, side, main, D=1.0, s=4.0):
    EA_m, EA_s = (given(name, ea, "lb", "", "") for name, ea in (("EA_m", main), ("EA_s", side)))
    return float(group_factor(D, n, s, EA_m, EA_s).value)


def test_two_lags_by_hand():
    """3/8 in, 4 in apart, 2x6 of 1.6e6 psi on a rafter 2x8 of 1.4e6 psi: gamma 180,000 x 0.22964 =
    41,335 lb/in; EA 13.2e6 and 15.225e6 lb; u 1 + 82,670 x (75.758 + 65.681)e-9 = 1.0116927; m = u
    less sqrt(u^2 - 1) = 0.1533639: 0.8583288; R 0.866995. n 2: m^2 0.7367283, m^4 0.5427686:
    0.8583288 x 0.4572314 / (2 (1.6387401 x 1.8583288 - 0.4572314)) = 0.3924549 / 5.1762176 =
    0.0758189, x 1.866995 / 0.1416712 = 13.178366: 0.99917."""
    assert factor(2, 13.2e6, 15.225e6, D=0.375) == pytest.approx(0.99917, abs=1e-5)


def springs(n, side, main, slip, s):
    """Mean over largest force of n springs between two bars, pulled at opposite ends: between two
    fasteners the bars stretch by what is in them, and the slip changes by that."""
    a, b = np.zeros((n, n)), np.zeros(n)
    for i in range(n - 1):
        # slip[i+1] - slip[i] = s (main force - side force); the side has shed F[0..i], the main
        # gathered them: pulled at its far end the main holds sum(F[:i+1]), the side 1 - that
        a[i, i], a[i, i + 1] = -1 / slip, 1 / slip
        a[i, : i + 1] -= s / main + s / side
        b[i] = -s / side
    a[n - 1], b[n - 1] = 1.0, 1.0
    F = np.linalg.solve(a, b)
    return 1 / (n * F.max())


@pytest.mark.parametrize("n", [2, 3, 5, 8])
@pytest.mark.parametrize(("side", "main"), [(7e6, 14e6), (14e6, 7e6), (9e6, 9e6), (3e6, 30e6)])
def test_the_row_as_springs(n, side, main):
    """What the formula sums up: the largest force in the row is at an end."""
    slip = 180_000 * 0.75**1.5
    assert factor(n, side, main, D=0.75, s=3.5) == pytest.approx(
        springs(n, side, main, slip, 3.5), rel=1e-9
    )


def test_one_alone_or_a_small_one_is_whole():
    assert factor(1, 7e6, 14e6) == 1.0
    assert factor(4, 7e6, 14e6, D=0.242) == 1.0
