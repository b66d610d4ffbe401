"""A rectangle: area, section modulus, moment of inertia."""

from outrigger.formula.formula import formula
from outrigger.formula.numbers import Num


@formula("A", "in2", clause="geometry")
def area(b: Num, d: Num) -> Num:
    """Area of a rectangle."""
    return b * d


@formula("S", "in3", clause="geometry")
def section_modulus(b: Num, d: Num) -> Num:
    """Section modulus of a rectangle, load along d."""
    return b * d**2 / 6


@formula("I", "in4", clause="geometry")
def moment_of_inertia(b: Num, d: Num) -> Num:
    """Moment of inertia of a rectangle, load along d."""
    return b * d**3 / 12
