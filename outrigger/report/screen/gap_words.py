"""Words of the pages on gaps: lengths rounded the safe way, what decides and under what."""

import math

from outrigger.base.quantity import sixteenths
from outrigger.base.units import SIXTEENTH
from outrigger.report import words
from outrigger.verdict.check_result import CheckResult


def down(inches: float) -> str:
    """A length rounded down to sixteenths: a largest one."""
    return sixteenths(math.floor(inches / SIXTEENTH) * SIXTEENTH)


def up(inches: float) -> str:
    """A length rounded up to sixteenths: a least one."""
    return sixteenths(math.ceil(inches / SIXTEENTH) * SIXTEENTH)


def decimal(inches: float) -> str:
    """A length to a hundred-thousandth, cut off and not rounded."""
    return f"{math.floor(inches * 1e5) / 1e5:.5f} in"


def closest(row: CheckResult) -> str:
    """What decides, with its ratio or why."""
    if row.ratio is None:
        return f"{words.subject(row)}{': ' + row.check.why if row.check.why else ''}"
    return f"{words.subject(row)}, {words.ratio(row.ratio)}"


def inches(value: float) -> str:
    """A gap as asked: in sixteenths where it is one, else in decimals."""
    parts = value / SIXTEENTH
    return sixteenths(value) if parts == round(parts) else f"{value:.4g} in"


def length_of(value: float) -> str:
    """A gap: as asked where it is sixteenths, else to five decimals."""
    return inches(value) if (value / SIXTEENTH).is_integer() else decimal(value)


def under(row: CheckResult) -> str:
    """The combination of a row, behind a comma."""
    named = row.combination_words
    return f", under {named} ({row.combination})" if named else ""
