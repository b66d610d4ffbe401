"""Quantities of a likely size: what no job has is asked back, with what was probably meant.

Feet written for inches, a decimal point too many or lost, no unit. Sweeps do not apply the sizes.
"""

import re
from collections.abc import Callable

from outrigger.base import quantity
from outrigger.base.errors import InputError

NONE = quantity.NONE
# of any quantity of its kind: far more than a house has, and far less than a slip of the keys
MOST: dict[quantity.Kind, str] = {
    "length": "1000 ft", "pressure": "1000 psf", "line load": "10000 plf", "force": "100000 lb",
    "stress": "2000 psi", "stiffness": "10000000 lb/in", "speed": "400 mph",
}  # fmt: skip
# panels are marked by their thickness: a whole number of inches is the numerator alone
PANELS = {"3": "3/8", "5": "5/8", "7": "7/16", "15": "15/32", "19": "19/32", "23": "23/32"}
Read = Callable[[object], float]
INCHES_ALONE = re.compile(r"""\s*([\d ,/.\-]*\d)\s*(?:in|inch|inches|"|''|”|″)\.?\s*""")
_FEET_ALONE = re.compile(r"\s*([\d /.\-]+)(?:ft|feet|')")


def measured(kind: quantity.Kind, *, none: bool = True, units: tuple[str, ...] = ()) -> Read:
    """A quantity of one kind; `none`: it may be zero, or "none"; `units`: those that a number
    without one most likely means, the kind's own where none are named."""

    def read(value: object) -> float:
        if isinstance(value, str) and value.strip().lower() == NONE:
            if not none:
                raise InputError("must be more than zero.")
            return 0.0
        number = quantity.read(value, kind, units)
        if not none and number <= 0:
            raise InputError("must be more than zero.")
        if number > quantity.read(MOST[kind], kind):
            raise InputError(f"over {MOST[kind]}, more than anything here has.")
        return number

    return read


def up_to(largest: float, least: float = 0.0, *, panel: bool = False) -> Read:
    """A length with a largest and a least size, in; `panel`: the thickness of one."""

    def read(value: object) -> float:
        number = measured("length", none=False)(value)
        if number > largest:
            raise InputError(f"over {largest:g} in.{_meant(_smaller(value, number, panel))}")
        if number < least:
            ten = 10 * number
            meant = f"{ten:g} in" if least <= ten <= largest and _decimal(value) else ""
            raise InputError(f"under {least:g} in.{_meant(meant)}")
        return number

    return read


def _smaller(value: object, number: float, panel: bool) -> str:
    """What was meant by a length that is too long: inches for feet, a tenth, a panel's mark, feet
    turned into inches."""
    if written := _FEET_ALONE.match(str(value)):
        return f"{written[1].strip()} in"
    inches = INCHES_ALONE.fullmatch(str(value).lower())
    if inches and panel and inches[1] in PANELS:
        return f"{PANELS[inches[1]]} in"
    if inches and number % 10 == 0:
        return f"{number / 10:g} in"
    return f"{number / 12:g} in" if inches and number % 12 == 0 else ""


def _number(value: object) -> float:
    """A number without a unit, or 0."""
    found = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*", str(value))
    return float(found[1]) if found else 0.0


def _decimal(value: object) -> bool:
    """Whether a number is written with a decimal point."""
    return bool(re.search(r"\d*\.\d", str(value)))


def _meant(text: str) -> str:
    return f' Did you mean "{text}"?' if text else ""


def at_least(
    least: float, *, none: bool = False, spelled: bool = False, inches: bool = False
) -> Read:
    """A length with a least size, in, to catch inches written for feet.

    `none`: "none" is allowed; `spelled`: a smaller one is, when it is written with its feet;
    `inches`: a number without a unit may mean inches too; of a `spelled` one, if it is so large.
    """

    def read(value: object) -> float:
        both = inches or (spelled and _number(value) >= least)
        units = ("ft", "in") if both else ("ft",)
        number = measured("length", none=none, units=units)(value)
        alone = INCHES_ALONE.fullmatch(str(value).lower())
        if not 0 < number < least or (spelled and not alone):
            return number
        hint = _meant(f"{alone[1]} ft") if alone else ""
        hint += f' If not, write "0 ft {alone[1]} in".' if spelled and alone else ""
        raise InputError(f"under {quantity.length(least)}.{hint}")

    return read


def from_least(kind: quantity.Kind, least: float, *, none: bool = True) -> Read:
    """A quantity that is nothing, or no less than `least` in the trade's unit: a load a tenth of
    its size is a slip of the decimal point. Where it is real, the least may be written."""

    def read(value: object) -> float:
        number = measured(kind, none=none)(value)
        said, unit = quantity.in_trade(number, kind)
        if not 0 < said < least * (1 - 1e-9):
            return number
        floor = f"{least:g} {unit}"
        nothing = '; "none" where there is none' if none else ""
        meant = _meant(f"{said * 10:g} {unit}")
        raise InputError(f'under {floor}.{meant} If not, write "{floor}"{nothing}.')

    return read


def no_more(kind: quantity.Kind, most: float) -> Read:
    """A quantity up to `most` in the trade's unit: ten times its size is a slip of the keys. Where
    it is real, the most may be written: of a capacity that is on the safe side."""

    def read(value: object) -> float:
        number = measured(kind)(value)
        said, unit = quantity.in_trade(number, kind)
        if said <= most:
            return number
        ceiling = f"{most:g} {unit}"
        meant = _meant(f"{said / 10:g} {unit}") if said <= 10 * most else ""
        raise InputError(f'over {ceiling}.{meant} If not, write "{ceiling}".')

    return read


def behind_a_clip(least: float, taken: float) -> Read:
    """Wood behind the back clip, in: none by the word alone, never by a nought."""

    def read(value: object) -> float:
        number = measured("length")(value)
        if isinstance(value, str) and value.strip().lower() == NONE:
            return 0.0
        if number < least:
            raise InputError(
                f"under {least:g} in: the clip would stand at the end of the piece. Did you mean "
                f'"{taken:g} in"? If not, write "none".'
            )
        return number

    return read
