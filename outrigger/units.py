"""Conversions. Inside: pounds and inches only. Every 12 or 144 of the project lives here."""

INCHES_PER_FOOT = 12
SQUARE_INCHES_PER_SQUARE_FOOT = 144
CUBIC_INCHES_PER_CUBIC_FOOT = 1728


def inches(feet: float) -> float:
    """Feet to inches."""
    return feet * INCHES_PER_FOOT


def psi(psf: float) -> float:
    """Pounds per square foot to pounds per square inch."""
    return psf / SQUARE_INCHES_PER_SQUARE_FOOT


def pounds_per_inch(plf: float) -> float:
    """Pounds per foot of length to pounds per inch."""
    return plf / INCHES_PER_FOOT


def pounds_per_cubic_inch(pcf: float) -> float:
    """Pounds per cubic foot to pounds per cubic inch."""
    return pcf / CUBIC_INCHES_PER_CUBIC_FOOT
