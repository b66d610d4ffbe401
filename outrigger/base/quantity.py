"""Lengths, loads and pressures as the trade writes them, to pounds and inches, and back.

Any fraction is read exactly; only printing rounds.
"""

import re
from fractions import Fraction
from typing import Literal

from outrigger.base import units
from outrigger.base.errors import InputError

Kind = Literal["length", "pressure", "line load", "force", "stress", "stiffness", "speed"]

_VULGAR = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅓": "1/3", "⅔": "2/3",
}  # fmt: skip
NUMBER = r"(?:\d+[\s-]+\d+/\d+|\d+/\d+|\d+\.\d*|\.\d+|\d+)"
_FEET = r"(?:ft|feet|foot|')"
_INCHES = r'(?:in|inch|inches|")'
_LENGTH = re.compile(
    rf"(?:(?P<feet>{NUMBER})\s*{_FEET}\.?)?\s*-?\s*(?:(?P<inches>{NUMBER})\s*{_INCHES}\.?)?"
    r"(?:\s*(?:o\.?\s?c\.?|on cent(?:er|re)))?"
)
_PER_UNIT: dict[str, tuple[Kind, float]] = {
    "psf": ("pressure", 1 / units.SQUARE_INCHES_PER_SQUARE_FOOT),
    "plf": ("line load", 1 / units.INCHES_PER_FOOT),
    "lb/ft": ("line load", 1 / units.INCHES_PER_FOOT),
    "lb": ("force", 1.0),
    "lbs": ("force", 1.0),
    "psi": ("stress", 1.0),
    "lb/in": ("stiffness", 1.0),
    "mph": ("speed", 1.0),
}
EXAMPLES: dict[Kind, str] = {
    "length": "7 1/2 in",
    "pressure": "15 psf",
    "line load": "120 plf",
    "force": "450 lb",
    "stress": "360 psi",
    "stiffness": "8000 lb/in",
    "speed": "115 mph",
}
NONE = "none"
LONGEST = 40  # characters; no quantity of the trade is longer


def read(text: object, kind: Kind, units: tuple[str, ...] = ()) -> float:
    """A quantity of one kind, in lb and in (psi, lb/in, lb; mph stays); `units`: those that a
    number without one may mean, the kind's usual one where none are named.

    Raises:
        InputError: a bare number, another kind of unit, or not a quantity; the fix is shown.
    """
    if isinstance(text, bool) or not isinstance(text, str):
        shown = str(text).lower() if isinstance(text, bool) else text
        raise InputError(
            f"needs text with a unit, such as {_suggest(text, kind, units)}, not {shown}."
        )
    plain = tidied(text)
    if len(plain) > LONGEST:
        raise InputError(f'too long for a {kind}. Write it as "{EXAMPLES[kind]}".')
    if plain.startswith("-"):
        raise InputError("negative: give the size; the key says the direction.")
    value = _length(plain) if kind == "length" else None
    if value is not None:
        return value
    # 1,200 and 12,000; never 1,2 or 0,500, which mean 1.2 and 0.5 elsewhere
    whole = re.sub(r"^[1-9]\d{0,2}(,\d{3})+(?![\d,])", lambda m: m[0].replace(",", ""), plain)
    found = re.fullmatch(rf"({NUMBER})\s*([a-z/]+)\.?", whole)
    if found and found[2] in _PER_UNIT:
        own, factor = _PER_UNIT[found[2]]
        if own == kind:
            return float(_fraction(found[1])) * factor
        raise InputError(
            f'a {own} ({found[2]}), but a {kind} is needed, such as "{EXAMPLES[kind]}".'
        )
    if found and found[2] == "kpa" and kind == "pressure":
        raise InputError(f"kPa is not read; 1 kPa is 20.9 psf.{_meant(plain, kind)}")
    if kind != "length" and _length(plain) is not None:
        raise InputError(f'a length, but a {kind} is needed, such as "{EXAMPLES[kind]}".')
    if re.fullmatch(NUMBER, plain):
        raise InputError(f"has no unit. Did you mean {_suggest(plain, kind, units)}?")
    example = "24 ft" if kind == "length" and units[:1] == ("ft",) else EXAMPLES[kind]
    raise InputError(f'not a {kind}. Write it as "{example}".{_meant(plain, kind)}')


def _meant(plain: str, kind: Kind) -> str:
    """What was probably meant, as a sentence with a blank before it; or empty."""
    from outrigger.base.meant import meant  # only what is wrong needs it

    return meant(plain, kind)


def in_trade(value: float, kind: Kind) -> tuple[float, str]:
    """A quantity as `read` gives it, in the unit that the trade writes, and that unit."""
    match kind:
        case "pressure":
            return units.psf(value), "psf"
        case "line load":
            return units.plf(value), "plf"
    return value, EXAMPLES[kind].rpartition(" ")[2]


def tidied(text: str) -> str:
    """Text in lower case, one blank between words, plain fractions, quotes and dashes."""
    for mark, fraction in _VULGAR.items():
        text = text.replace(mark, f" {fraction} ")
    text = text.replace("''", '"').translate(str.maketrans("′’‘″”“–−", "'''\"\"\"--"))
    return " ".join(text.lower().split())


def _fraction(text: str) -> Fraction:
    """A whole number, decimal, fraction or mixed number, exactly."""
    if re.search(r"/0+$", text):
        raise InputError("a fraction over zero.")
    return sum((Fraction(part) for part in re.split(r"[\s-]+", text)), Fraction(0))


def _length(plain: str) -> float | None:
    found = _LENGTH.fullmatch(plain)
    if found is None or not (found["feet"] or found["inches"]):
        return None
    feet = _fraction(found["feet"] or "0")
    return float(feet * units.INCHES_PER_FOOT + _fraction(found["inches"] or "0"))


def _suggest(text: object, kind: Kind, units: tuple[str, ...]) -> str:
    """A number with each unit that it may mean, in quotes; an example where it is no number."""
    if isinstance(text, bool) or not re.fullmatch(NUMBER, str(text)):
        return f'"{EXAMPLES[kind]}"'
    own = EXAMPLES[kind].rpartition(" ")[2]
    return " or ".join(f'"{text} {unit}"' for unit in units or (own,))


def sixteenths(inches: float) -> str:
    """A length for people: inches and sixteenths, 7 1/2 in."""
    return f"{_mixed(round(inches * 16))} in"


def feet_and_inches(inches: float) -> str:
    """A length for people: 3'-11 1/4\". Rounded to sixteenths before it is split."""
    total = round(abs(inches) * 16)
    feet, rest = divmod(total, 16 * units.INCHES_PER_FOOT)
    sign = "-" if inches < 0 and total else ""
    none = "0 " if feet and 0 < rest < 16 else ""  # 13'-0 3/4", lest it be read as 13 3/4
    return f"{sign}{feet}'-{none}{_mixed(rest)}\""


def tape(inches: float) -> str:
    """A length as marked along a tape, in inches: 47-1/4\". Rounded to sixteenths."""
    return f'{_mixed(round(inches * 16)).replace(" ", "-")}"'


def length(inches: float) -> str:
    """A length for people: whole feet as ft from 3 ft on, else inches and sixteenths."""
    feet = inches / units.INCHES_PER_FOOT
    return f"{feet:g} ft" if feet >= 3 and feet == int(feet) else sixteenths(inches)


def _mixed(sixteenths_: int) -> str:
    sign = "-" if sixteenths_ < 0 else ""
    whole, part = divmod(abs(sixteenths_), 16)
    if not part:
        return f"{sign}{whole}"
    fraction = Fraction(part, 16)
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"
