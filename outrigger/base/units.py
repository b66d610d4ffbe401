"""Conversions. Inside: pounds and inches only. Every 12 or 144 of the project lives here."""

from typing import Any

POINTS_PER_INCH = 72.0  # of type
INCHES_PER_FOOT = 12
SQUARE_INCHES_PER_SQUARE_FOOT = 144
CUBIC_INCHES_PER_CUBIC_FOOT = 1728
SIXTEENTH = 1 / 16  # in, the finest mark on a tape


def inches(feet_: Any) -> Any:
    """Feet to inches."""
    return feet_ * INCHES_PER_FOOT


def psi(psf_: Any) -> Any:
    """Pounds per square foot to pounds per square inch."""
    return psf_ / SQUARE_INCHES_PER_SQUARE_FOOT


def pounds_per_inch(plf_: Any) -> Any:
    """Pounds per foot of length to pounds per inch."""
    return plf_ / INCHES_PER_FOOT


def pounds_per_cubic_inch(pcf: Any) -> Any:
    """Pounds per cubic foot to pounds per cubic inch."""
    return pcf / CUBIC_INCHES_PER_CUBIC_FOOT


def feet(inches_: Any) -> Any:
    """Inches to feet."""
    return inches_ / INCHES_PER_FOOT


def square_feet(square_inches: Any) -> Any:
    """Square inches to square feet."""
    return square_inches / SQUARE_INCHES_PER_SQUARE_FOOT


def psf(psi_: Any) -> Any:
    """Pounds per square inch to pounds per square foot."""
    return psi_ * SQUARE_INCHES_PER_SQUARE_FOOT


def plf(pounds_per_inch_: Any) -> Any:
    """Pounds per inch of length to pounds per foot."""
    return pounds_per_inch_ * INCHES_PER_FOOT
