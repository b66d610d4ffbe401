"""Head pull-through: NDS 2018 12.2.5, Table 12.2F."""

import pytest

from outrigger.fasteners import withdrawal


@pytest.mark.parametrize("DH", [0.25, 0.3, 0.5])
def test_the_two_equations_meet_at_two_and_a_half_heads(DH):
    """NDS 2018 Eq. 12.2-6a to 2.5 DH, 12.2-6b beyond: 690 x 2.5 = 1725, no jump, no more rise."""
    at = withdrawal.pull_through(DH, 0.42, 2.5 * DH).value
    assert at == pytest.approx(1725 * 3.141592653589793 * DH**2 * 0.42**2)
    assert withdrawal.pull_through(DH, 0.42, 2.5 * DH + 0.1).value == pytest.approx(at)
    half = withdrawal.pull_through(DH, 0.42, 1.25 * DH).value
    assert half == pytest.approx(at / 2)


def test_outside_the_table_is_said():
    assert withdrawal.outside_pull_through(0.281, 7 / 16) == ""
    assert withdrawal.outside_pull_through(0.234, 0.3125) == ""
    assert "Table 12.2F has round heads of 0.234 to 0.500 in" in (
        withdrawal.outside_pull_through(0.6, 0.4375)
    )
    assert withdrawal.outside_pull_through(0.3, 1.6)
