"""Values as people write them in a case file: each read, or refused with what was probably meant.

Quantities with a unit and their sizes are read by `sizes`; what a key takes is named in `fields`.
"""

import datetime
import difflib
import math
import re
from collections.abc import Callable

from outrigger.base import quantity
from outrigger.base.errors import InputError
from outrigger.cases.bounds import LIMITS, MEMBER_SPACINGS_IN, MOST_ELEVATION_IN, STEEPEST
from outrigger.cases.listing import read_base
from outrigger.cases.sizes import INCHES_ALONE, measured
from outrigger.wood import dressed, stamps

RISK_CATEGORIES = dict(zip("1234", ("I", "II", "III", "IV"), strict=True))
PLACES = ("back", "edge", "wall line")
# the house wall is the edge; what else the two are called
OTHER_PLACES = {
    "wall": "edge", "house": "edge", "house wall": "edge", "front": "edge", "rear": "back",
    "end": "back", "inside": "back",
}  # fmt: skip
EDITIONS = {"16": "ASCE 7-16", "22": "ASCE 7-22"}
# editions of the codes that adopt them, from memory
CODE_YEARS = {"2018": "ASCE 7-16", "2021": "ASCE 7-16", "2024": "ASCE 7-22"}


def number(value: object) -> float:
    """A number as it stands in the file, nought or more."""
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise InputError(f"needs a number, not {_written(value)}.")
    if not math.isfinite(value):
        raise InputError("needs a finite number.")
    if value < 0:
        raise InputError("must not be negative.")
    return float(value)


def flag(value: object) -> bool:
    """True or false."""
    if not isinstance(value, bool):
        word = str(value).strip().lower()
        meant = "true" if word in ("true", "yes") else "false" if word in ("false", "no") else ""
        hint = f" Did you mean {meant}?" if meant else ""
        raise InputError(f"needs true or false, without quotes, not {_written(value)}.{hint}")
    return value


def count(value: object) -> int:
    """A whole number, one at least."""
    if isinstance(value, bool) or not isinstance(value, int) or value < 1:
        bare = str(value).strip()
        hint = f" Did you mean {bare}?" if re.fullmatch(r"[1-9]\d*", bare) else ""
        said = "needs a whole number of 1 or more, without quotes"
        raise InputError(f"{said}, not {_written(value)}.{hint}")
    return value


def few(most: int) -> Callable[[object], int]:
    """A count up to a most."""

    def read(value: object) -> int:
        found = count(value)
        if found > most:
            raise InputError(f"{found} is more than {most}, which is the most taken here.")
        return found

    return read


def elevation(value: object) -> float:
    """Feet above the sea, on a site that may be built on."""
    none = isinstance(value, str) and value.strip().lower() == quantity.NONE
    high = 0.0 if none else quantity.read(value, "length", ("ft",))
    inches = INCHES_ALONE.fullmatch(str(value).lower())
    if high and inches:
        raise InputError(f'in inches. Did you mean "{inches[1]} ft"?')
    if high > MOST_ELEVATION_IN:
        raise InputError(f"over {quantity.length(MOST_ELEVATION_IN)}: no town is so high.")
    return high


def risk_category(value: object) -> str:
    """I to IV, in any letters, as a figure, or with its words before it."""
    said = re.sub(r"^(risk\s+)?category\s+", "", str(value).strip().lower()).upper()
    said = RISK_CATEGORIES.get(said, said)
    if isinstance(value, bool) or said not in ("", *RISK_CATEGORIES.values()):
        raise InputError(f"allowed are {', '.join(RISK_CATEGORIES.values())}.")
    return said


def text(value: object) -> str:
    """Text, in a line of its own."""
    if not isinstance(value, str):
        plain = isinstance(value, (int, float)) and not isinstance(value, bool)
        hint = f' Did you mean "{value}"?' if plain else ""
        raise InputError(f"needs text in quotes, not {_written(value)}.{hint}")
    return _one_line(value)


def _one_line(written: str) -> str:
    """A text in a line, so that none of its own can look like one of the program."""
    lines = written.splitlines()
    return written if lines == [written] else " ".join(line.strip() for line in lines)


def job_name(value: object) -> str:
    """The name of the job, which no case is without."""
    if not text(value).strip():
        raise InputError("is needed: name the job.")
    return text(value)


def date_text(value: object) -> str:
    """A date, or the text of one, as text."""
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value.isoformat()
    if not isinstance(value, str) or not value.strip():
        raise InputError('needs a date, 2026-03-02, or its text, "2 March 2026".')
    return _one_line(value)


def within(low: float, high: float, what: str) -> Callable[[object], float]:
    """A number between two."""

    def read(value: object) -> float:
        found = number(value)
        if not low <= found <= high:
            raise InputError(f"{what} lies between {low:g} and {high:g}.")
        return found

    return read


def number_or_words(low: float, high: float, what: str) -> Callable[[object], str | float]:
    """A factor, or the words of its table's row: `between_keys` looks whether it has them."""

    def read(value: object) -> str | float:
        if isinstance(value, str) and not re.search(r"\d", value):
            return value
        return within(low, high, what)(value)

    return read


def joint_class(value: object) -> str | float:
    """The class of a sealant."""
    if value == "100/50":
        return "100/50"
    if isinstance(value, bool) or value not in (12.5, 25, 35, 50):
        raise InputError('the classes of ASTM C920 are 12.5, 25, 35, 50 and "100/50".')
    return number(value)


def pitch(value: object) -> float:
    """Rise over 12: the rise."""
    found = (
        re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*(?::|/|in)\s*12\s*", value)
        if isinstance(value, str)
        else None
    )
    if found is None:
        raise InputError(f'needs rise and run, "4:12".{_rise_meant(str(value))}')
    if float(found[1]) > STEEPEST:
        raise InputError(f"steeper than {STEEPEST:g}:12, the most taken here.")
    return float(found[1])


def _rise_meant(written: str) -> str:
    """What was probably meant by a pitch that is none: a rise, a slope in degrees, run and rise."""
    said = written.strip().lower()
    first = re.match(r"\d+(?:\.\d+)?", said)
    if said in ("flat", "level", quantity.NONE):
        return ' Did you mean "0:12"?'
    if first is None:
        return ""
    rest = said[first.end() :].strip()
    if turned := re.fullmatch(r"[:/]\s*(\d+(?:\.\d+)?)", rest):
        return f' Did you mean "{turned[1]}:12"?' if first[0] == "12" else ""
    if rest in ("deg", "degrees", "°") and float(first[0]) < 70:
        return f' Did you mean "{12 * math.tan(math.radians(float(first[0]))):.3g}:12"?'
    return f' Did you mean "{first[0]}:12"?' if not rest and float(first[0]) <= STEEPEST else ""


def limit(value: object) -> float:
    """A limit of a droop, 240 or L/240: the number under the line."""
    found = re.fullmatch(r"\s*[lL]\s*/\s*(\d+)\s*", value) if isinstance(value, str) else None
    divisor = float(found[1]) if found else number(value)
    if not LIMITS[0] <= divisor <= LIMITS[1]:
        raise InputError('needs the number under the line, from 60 to 2000: 240 or "L/240".')
    return divisor


def percent(value: object) -> float:
    """A percentage: its number."""
    found = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*%\s*", value) if isinstance(value, str) else None
    if found is None:
        raise InputError('needs a percentage, "6 %".')
    return float(found[1])


def place(value: object) -> str | float:
    """A place on the member: a word, or a length from the edge."""
    if isinstance(value, str) and value.strip().lower() in PLACES:
        return value.strip().lower()
    if isinstance(value, str) and not re.search(r"\d", value):
        word = value.strip().lower()
        near = difflib.get_close_matches(word, PLACES, n=1)
        meant = OTHER_PLACES.get(word) or next(iter(near), "")
        hint = f' Did you mean "{meant}"?' if meant else ""
        raise InputError(f'not a length, nor "back" or "edge".{hint}')
    return quantity.read(value, "length")


def side_height(value: object) -> str | float:
    """Height of a clip's fasteners, or the words of a strap."""
    if isinstance(value, str) and value.strip().lower() == "over the top":
        return "over the top"
    return quantity.read(value, "length")


def member_spacing(value: object) -> str | float:
    """Spacing of trusses, or the word for a load without members."""
    if isinstance(value, str) and value.strip().lower() == "uniform":
        return "uniform"
    apart = measured("length", none=False)(value)
    if not MEMBER_SPACINGS_IN[0] <= apart <= MEMBER_SPACINGS_IN[1]:
        raise InputError("from 6 in to 10 ft.")
    return apart


def rated_into(value: object) -> str:
    """What a listing is for, kept as it is written."""
    try:
        read_base(text(value))
    except InputError as error:
        raise InputError(_of_it(error)) from None
    return text(value)


def category(value: object) -> object:
    """A seismic design category in any letters; none of them, as it is written."""
    if not isinstance(value, str):
        return value
    said = re.sub(r"^(seismic\s+)?(design\s+)?category\s+", "", value.strip().lower())
    return said.upper() if said != quantity.NONE else quantity.NONE


def loads_edition(value: object) -> str:
    """The edition of ASCE 7, as people write it; never from a code's year, which is asked back."""
    said = str(value).strip().lower()
    if found := re.fullmatch(r"(?:asce)?(?:/sei)?[\s-]*7[\s-]+(?:20)?(16|22)", said):
        return EDITIONS[found[1]]
    allowed = ", ".join(f'"{one}"' for one in EDITIONS.values())
    year = re.search(r"20(18|21|24)\b", said)
    hint = (
        f' The {year[0]} codes adopt "{CODE_YEARS[year[0]]}": ask the department.' if year else ""
    )
    raise InputError(f"allowed are {allowed}.{hint}")


def letter(value: object) -> object:
    """One letter, large or small."""
    return value.strip().upper() if isinstance(value, str) and len(value.strip()) == 1 else value


def species(value: object) -> str:
    """A species by the name on file."""
    try:
        return stamps.read_species(text(value))
    except InputError as error:
        first, *candidates = _of_it(error).splitlines()
        listed = "; ".join(line.strip() for line in candidates)
        raise InputError(f"{first} {listed}." if listed else first) from None


def size(value: object) -> str:
    """A size of lumber by the name on file."""
    try:
        return dressed.read_size(text(value)).name
    except InputError as error:
        raise InputError(_of_it(error)) from None


def _of_it(error: InputError) -> str:
    """What an error says of a value, without the value, which stands beside the key."""
    return str(error).partition('": ')[2] or str(error)


def _written(value: object) -> str:
    """A value as the file wrote it, near enough to be found there."""
    if isinstance(value, bool):
        return str(value).lower()
    return f'"{value}"' if isinstance(value, str) else str(value)
