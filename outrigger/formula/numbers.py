"""Numbers, and arrays of them that broadcast to (cases, combinations)."""

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Bools = NDArray[np.bool_]
Num = float | Array
"""A number, or an array of numbers that broadcasts to (cases, combinations)."""


class Element(NamedTuple):
    """Which element of the arrays a printed line shows."""

    case: int = 0
    combination: int = 0


FIRST = Element()


def least(*values: Num) -> Num:
    """Smallest of the values, element by element."""
    smallest = values[0]
    for value in values[1:]:
        smallest = np.minimum(smallest, value)
    return smallest


def greatest(*values: Num) -> Num:
    """Largest of the values, element by element."""
    largest = values[0]
    for value in values[1:]:
        largest = np.maximum(largest, value)
    return largest


def where(condition: Any, yes: Num, no: Num) -> Num:
    """Element by element: `yes` where the condition holds, else `no`."""
    return np.where(condition, yes, no)[()]


def either(condition: Any, yes: Array, no: Array) -> Array:
    """As `where`; the one of them where that is all, which takes no time."""
    if not np.any(condition):
        return no
    return yes if np.all(condition) else np.where(condition, yes, no)


def sqrt(value: Num) -> Num:
    """Square root, element by element."""
    return np.sqrt(value)


def sin_deg(angle: Num) -> Num:
    """Sine of an angle in degrees, element by element."""
    return np.sin(np.radians(angle))


def cos_deg(angle: Num) -> Num:
    """Cosine of an angle in degrees, element by element."""
    return np.cos(np.radians(angle))


def pick(value: Num, element: Element = FIRST) -> float:
    """One element of a number or of an array that broadcasts to (cases, combinations)."""
    if np.ndim(value) == 0:
        return float(value)
    table = np.atleast_2d(np.asarray(value))
    cases, combinations = table.shape
    case = 0 if cases == 1 else element.case
    return float(table[case, 0 if combinations == 1 else element.combination])
