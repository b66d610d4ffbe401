"""Published values as `outrigger prove` has them, for tests that hold more than the values."""

import pytest

from outrigger.proof.compared import half
from outrigger.proof.members_alike import ALONE
from outrigger.proof.read import column, rows

__all__ = ["ALONE", "column", "printed", "rows"]


def printed(text):
    """A number as printed, within half a unit of its last digit: 1,776 is 1776 +- 0.5."""
    return pytest.approx(float(text.replace(",", "")), abs=half(text), rel=0)
