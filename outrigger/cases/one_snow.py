"""One site has one snow: where the garage roof's moves, a house roof's own psf moves with it.

A house roof whose snow follows from the ground snow needs none of this: it is computed anew.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from outrigger.base import quantity, units
from outrigger.base.errors import InputError

if TYPE_CHECKING:  # a case knows its settings, and they come here
    from outrigger.cases.model import Case

HOUSE = "house_roof.snow"
SNOWS = ("snow.roof", "snow.ground")


def moved(case: "Case", values: Mapping[str, Any]) -> dict[str, Any]:
    """Values by path, numbers or arrays in lb and in, and beside another snow that of the house
    roof in the same proportion; not where it is among the values itself."""
    found = dict(values)
    for key, stated in zip(SNOWS, (case.snow.roof, case.snow.ground), strict=True):
        if key in values and HOUSE not in values and stated and case.house_roof.snow:
            found[HOUSE] = case.house_roof.snow * (values[key] / stated)
    return found


def moves(case: "Case") -> bool:
    """Whether the house roof has a snow of its own, and a snow of the garage roof to go by."""
    stated = case.snow.ground if case.snow.roof is None else case.snow.roof
    return bool(case.house_roof.snow and stated)


def stays(case: "Case") -> bool:
    """Whether the house roof has a snow of its own that nothing tells how to move."""
    return bool(case.house_roof.snow) and not moves(case)


def in_proportion(house: object, before: object, after: object) -> str:
    """A house roof's snow as a file writes it, after another snow in place of one; empty: it has
    none of its own, or there is none to go by."""
    try:
        own, was, now = (
            0.0 if is_none(one) else quantity.read(one, "pressure")
            for one in (house, before, after)
        )
    except InputError:
        return ""  # a fault of the case, or not given
    if not own or not was:
        return ""
    if not now:
        return quantity.NONE
    digits = f"{units.psf(own * (now / was)):.9f}".rstrip("0").removesuffix(".")
    return f"{digits} psf"


def is_none(written: object) -> bool:
    """Whether a file says none."""
    return isinstance(written, str) and quantity.tidied(written) == quantity.NONE
