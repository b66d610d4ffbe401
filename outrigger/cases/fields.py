"""The kinds of value a case file holds, each read from what the user wrote, its error in words."""

import datetime
import difflib
import math
import re
from collections.abc import Callable
from typing import Annotated, Literal

from pydantic import BeforeValidator, WithJsonSchema

from outrigger.base import quantity
from outrigger.base.errors import InputError
from outrigger.cases.kinds import Form, Range, Written
from outrigger.cases.listing import read_base
from outrigger.cases.sizes import (
    INCHES_ALONE,
    at_least,
    behind_a_clip,
    from_least,
    measured,
    no_more,
    up_to,
)
from outrigger.wood import lumber

NONE = quantity.NONE


LEAST_SPAN_IN = 48.0
STEEPEST = 36.0  # rise over 12
LEAST_RISE_IN = 12.0  # of a wall, or a step between roofs
LEAST_BACK_SPAN_IN = 6.0
LEAST_APART_IN = 1.0  # between two places that hold the member
LEAST_MEAN_HEIGHT_IN = 72.0
MOST_ELEVATION_IN = 180_000.0  # 15,000 ft: higher than any town
LIMITS = (60.0, 2000.0)  # of a droop: what the length is divided by
MEMBER_SPACINGS_IN = (6.0, 120.0)
RISK_CATEGORIES = dict(zip("1234", ("I", "II", "III", "IV"), strict=True))
PLACES = ("back", "edge", "wall line")
# the house wall is the edge; what else the two are called
OTHER_PLACES = {
    "wall": "edge", "house": "edge", "house wall": "edge", "front": "edge", "rear": "back",
    "end": "back", "inside": "back",
}  # fmt: skip
SHEATHING_IN = (1 / 32, 3.0)  # thickness; of metal at the least
NAIL_SPACINGS_IN = (0.5, 24.0)  # of a panel's own nails
PLATES_IN = (1.5, 12.0)  # widths of a wall's plate: of a 2x4 on edge to a 2x12 flat
BEARINGS_IN = (0.5, 24.0)  # lengths along an outrigger
LEAST_BEHIND_IN, BEHIND_IN = 0.5, 3.0  # wood behind the back clip
# the least that is real, from the trade: the lightest metal roofs, walls, snow of the mild states
LEAST_TRUSS_DEAD_PSF, LEAST_DECK_DEAD_PSF, LEAST_WALL_DEAD_PSF = 5.0, 2.0, 3.0
LEAST_LIVE_PSF, LEAST_SNOW_PSF, LEAST_WIND_PSF = 10.0, 3.0, 5.0
LEAST_SPEED_MPH = 70.0
MOST_CLIP_LB = 3000.0  # of one clip or strap on a piece of 2x lumber


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise InputError(f"needs a number, not {_written(value)}.")
    if not math.isfinite(value):
        raise InputError("needs a finite number.")
    if value < 0:
        raise InputError("must not be negative.")
    return float(value)


def _flag(value: object) -> bool:
    if not isinstance(value, bool):
        word = str(value).strip().lower()
        meant = "true" if word in ("true", "yes") else "false" if word in ("false", "no") else ""
        hint = f" Did you mean {meant}?" if meant else ""
        raise InputError(f"needs true or false, without quotes, not {_written(value)}.{hint}")
    return value


def _count(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or value < 1:
        bare = str(value).strip()
        hint = f" Did you mean {bare}?" if re.fullmatch(r"[1-9]\d*", bare) else ""
        said = "needs a whole number of 1 or more, without quotes"
        raise InputError(f"{said}, not {_written(value)}.{hint}")
    return value


def _few(most: int) -> Callable[[object], int]:
    def read(value: object) -> int:
        count = _count(value)
        if count > most:
            raise InputError(f"{count} is more than {most}, which is the most taken here.")
        return count

    return read


def _elevation(value: object) -> float:
    """Feet above the sea, on a site that may be built on."""
    none = isinstance(value, str) and value.strip().lower() == NONE
    number = 0.0 if none else quantity.read(value, "length", ("ft",))
    inches = INCHES_ALONE.fullmatch(str(value).lower())
    if number and inches:
        raise InputError(f'in inches. Did you mean "{inches[1]} ft"?')
    if number > MOST_ELEVATION_IN:
        raise InputError(f"over {quantity.length(MOST_ELEVATION_IN)}: no town is so high.")
    return number


def _risk_category(value: object) -> str:
    """I to IV, in any letters, as a figure, or with its words before it."""
    text = re.sub(r"^(risk\s+)?category\s+", "", str(value).strip().lower()).upper()
    text = RISK_CATEGORIES.get(text, text)
    if isinstance(value, bool) or text not in ("", *RISK_CATEGORIES.values()):
        raise InputError(f"allowed are {', '.join(RISK_CATEGORIES.values())}.")
    return text


def _string(value: object) -> str:
    if not isinstance(value, str):
        plain = isinstance(value, (int, float)) and not isinstance(value, bool)
        hint = f' Did you mean "{value}"?' if plain else ""
        raise InputError(f"needs text in quotes, not {_written(value)}.{hint}")
    return _one_line(value)


def _one_line(text: str) -> str:
    """A text in a line, so that none of its own can look like one of the program."""
    lines = text.splitlines()
    return text if lines == [text] else " ".join(line.strip() for line in lines)


def _job_name(value: object) -> str:
    if not _string(value).strip():
        raise InputError("is needed: name the job.")
    return _string(value)


def _date_text(value: object) -> str:
    """A date, or the text of one, as text."""
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value.isoformat()
    if not isinstance(value, str) or not value.strip():
        raise InputError('needs a date, 2026-03-02, or its text, "2 March 2026".')
    return _one_line(value)


def _within(low: float, high: float, what: str) -> Callable[[object], float]:
    def read(value: object) -> float:
        number = _number(value)
        if not low <= number <= high:
            raise InputError(f"{what} lies between {low:g} and {high:g}.")
        return number

    return read


def _number_or_words(low: float, high: float, what: str) -> Callable[[object], str | float]:
    """A factor, or the words of its table's row: `faults` looks whether the table has them."""

    def read(value: object) -> str | float:
        if isinstance(value, str) and not re.search(r"\d", value):
            return value
        return _within(low, high, what)(value)

    return read


def _joint_class(value: object) -> str | float:
    if value == "100/50":
        return "100/50"
    if isinstance(value, bool) or value not in (12.5, 25, 35, 50):
        raise InputError('the classes of ASTM C920 are 12.5, 25, 35, 50 and "100/50".')
    return _number(value)


def _pitch(value: object) -> float:
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
    text = written.strip().lower()
    number = re.match(r"\d+(?:\.\d+)?", text)
    if text in ("flat", "level", NONE):
        return ' Did you mean "0:12"?'
    if number is None:
        return ""
    rest = text[number.end() :].strip()
    if turned := re.fullmatch(r"[:/]\s*(\d+(?:\.\d+)?)", rest):
        return f' Did you mean "{turned[1]}:12"?' if number[0] == "12" else ""
    if rest in ("deg", "degrees", "°") and float(number[0]) < 70:
        return f' Did you mean "{12 * math.tan(math.radians(float(number[0]))):.3g}:12"?'
    return f' Did you mean "{number[0]}:12"?' if not rest and float(number[0]) <= STEEPEST else ""


def _limit(value: object) -> float:
    found = re.fullmatch(r"\s*[lL]\s*/\s*(\d+)\s*", value) if isinstance(value, str) else None
    number = float(found[1]) if found else _number(value)
    if not LIMITS[0] <= number <= LIMITS[1]:
        raise InputError('needs the number under the line, from 60 to 2000: 240 or "L/240".')
    return number


def _percent(value: object) -> float:
    found = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*%\s*", value) if isinstance(value, str) else None
    if found is None:
        raise InputError('needs a percentage, "6 %".')
    return float(found[1])


def _place(value: object) -> str | float:
    if isinstance(value, str) and value.strip().lower() in PLACES:
        return value.strip().lower()
    if isinstance(value, str) and not re.search(r"\d", value):
        word = value.strip().lower()
        near = difflib.get_close_matches(word, PLACES, n=1)
        meant = OTHER_PLACES.get(word) or next(iter(near), "")
        hint = f' Did you mean "{meant}"?' if meant else ""
        raise InputError(f'not a length, nor "back" or "edge".{hint}')
    return quantity.read(value, "length")


def _side_height(value: object) -> str | float:
    if isinstance(value, str) and value.strip().lower() == "over the top":
        return "over the top"
    return quantity.read(value, "length")


def _member_spacing(value: object) -> str | float:
    if isinstance(value, str) and value.strip().lower() == "uniform":
        return "uniform"
    number = measured("length", none=False)(value)
    if not MEMBER_SPACINGS_IN[0] <= number <= MEMBER_SPACINGS_IN[1]:
        raise InputError("from 6 in to 10 ft.")
    return number


def _rated_into(value: object) -> str:
    try:
        read_base(_string(value))
    except InputError as error:
        raise InputError(str(error).partition('": ')[2] or str(error)) from None
    return _string(value)


def _category(value: object) -> object:
    """A seismic design category in any letters; none of them, as it is written."""
    if not isinstance(value, str):
        return value
    text = re.sub(r"^(seismic\s+)?(design\s+)?category\s+", "", value.strip().lower())
    return text.upper() if text != NONE else NONE


EDITIONS = {"16": "ASCE 7-16", "22": "ASCE 7-22"}
# editions of the codes that adopt them, from memory
CODE_YEARS = {"2018": "ASCE 7-16", "2021": "ASCE 7-16", "2024": "ASCE 7-22"}


def _loads(value: object) -> str:
    """The edition of ASCE 7, as people write it; never from a code's year, which is asked back."""
    text = str(value).strip().lower()
    if found := re.fullmatch(r"(?:asce)?(?:/sei)?[\s-]*7[\s-]+(?:20)?(16|22)", text):
        return EDITIONS[found[1]]
    allowed = ", ".join(f'"{one}"' for one in EDITIONS.values())
    year = re.search(r"20(18|21|24)\b", text)
    hint = (
        f' The {year[0]} codes adopt "{CODE_YEARS[year[0]]}": ask the department.' if year else ""
    )
    raise InputError(f"allowed are {allowed}.{hint}")


def _letter(value: object) -> object:
    """One letter, large or small."""
    return value.strip().upper() if isinstance(value, str) and len(value.strip()) == 1 else value


def _species(value: object) -> str:
    try:
        return lumber.read_species(_string(value))
    except InputError as error:
        first, *candidates = str(error).partition('": ')[2].splitlines() or [str(error)]
        listed = "; ".join(line.strip() for line in candidates)
        raise InputError(f"{first} {listed}." if listed else first) from None


def _size(value: object) -> str:
    try:
        return lumber.read_size(_string(value)).name
    except InputError as error:
        raise InputError(str(error).partition('": ')[2] or str(error)) from None


def _written(value: object) -> str:
    """A value as the file wrote it, near enough to be found there."""
    if isinstance(value, bool):
        return str(value).lower()
    return f'"{value}"' if isinstance(value, str) else str(value)


Length = Annotated[
    float, BeforeValidator(measured("length", none=False)), Written("length", none=False)
]


Distance = Annotated[float, BeforeValidator(measured("length")), Written("length")]


Pressure = Annotated[float, BeforeValidator(measured("pressure")), Written("pressure")]


LineLoad = Annotated[float, BeforeValidator(measured("line load")), Written("line load")]


Force = Annotated[float, BeforeValidator(measured("force")), Written("force")]


Stress = Annotated[
    float, BeforeValidator(measured("stress", none=False)), Written("stress", none=False)
]


Stiffness = Annotated[
    float, BeforeValidator(measured("stiffness", none=False)), Written("stiffness", none=False)
]


Speed = Annotated[
    float,
    BeforeValidator(from_least("speed", LEAST_SPEED_MPH, none=False)),
    Written("speed", none=False),
]


Number = Annotated[float, BeforeValidator(_number), Range()]


Flag = Annotated[bool, BeforeValidator(_flag)]


Count = Annotated[int, BeforeValidator(_count)]


Text = Annotated[str, BeforeValidator(_string)]


Pitch = Annotated[
    float,
    BeforeValidator(_pitch),
    Form("pitch"),
    WithJsonSchema({"type": "string"}),
    Range(high=STEEPEST),
]


Limit = Annotated[
    float,
    BeforeValidator(_limit),
    Form("limit"),
    WithJsonSchema({"type": ["number", "string"]}),
    Range(*LIMITS),
]


Percent = Annotated[float, BeforeValidator(_percent), WithJsonSchema({"type": "string"}), Range()]


RatedInto = Annotated[str, BeforeValidator(_rated_into)]


Species = Annotated[str, BeforeValidator(_species)]


SizeName = Annotated[str, BeforeValidator(_size)]


_ANY_TEXT = WithJsonSchema({"type": "string"})
_OR_WORD = Form("length or word")


Place = Annotated[str | float, BeforeValidator(_place), _OR_WORD, _ANY_TEXT]


SideHeight = Annotated[str | float, BeforeValidator(_side_height), _OR_WORD, _ANY_TEXT]


MemberSpacing = Annotated[
    str | float, BeforeValidator(_member_spacing), _OR_WORD, _ANY_TEXT, Range(*MEMBER_SPACINGS_IN)
]


Category = Annotated[
    Literal["none", "A", "B", "C", "D", "D0", "D1", "D2", "E", "F"], BeforeValidator(_category)
]


LoadsEdition = Annotated[Literal["ASCE 7-16", "ASCE 7-22"], BeforeValidator(_loads)]


WindExposure = Annotated[Literal["B", "C", "D"], BeforeValidator(_letter)]


Nothing = Literal["none"]


LARGEST_GAP_IN, LARGEST_SPACING_IN = 24.0, 48.0
LEAST_SPACING_IN = 4.0  # nearer, no clip finds room between two
SPACINGS_IN = (12.0, 16.0, 19.2, 24.0)  # marked on a tape


GapWidth = Annotated[float, BeforeValidator(up_to(LARGEST_GAP_IN)), Written("length", none=False)]


Spacing = Annotated[
    float, BeforeValidator(up_to(LARGEST_SPACING_IN)), Written("length", none=False)
]
Thickness = Annotated[
    float,
    BeforeValidator(up_to(SHEATHING_IN[1], SHEATHING_IN[0], panel=True)),
    Written("length", none=False),
]
NailSpacing = Annotated[
    float,
    BeforeValidator(up_to(NAIL_SPACINGS_IN[1], NAIL_SPACINGS_IN[0])),
    Written("length", none=False),
]
FramingSpacing = Annotated[
    float,
    BeforeValidator(up_to(MEMBER_SPACINGS_IN[1], MEMBER_SPACINGS_IN[0])),
    Written("length", none=False),
]
JobName = Annotated[str, BeforeValidator(_job_name)]
DateText = Annotated[str, BeforeValidator(_date_text)]
ExposureFactor = Annotated[
    float | str, BeforeValidator(_number_or_words(0.7, 1.2, "Ce")), Range(0.7, 1.2)
]
ThermalFactor = Annotated[
    float | str, BeforeValidator(_number_or_words(0.85, 1.3, "Ct")), Range(0.85, 1.3)
]
# no map and no hill has more (common practice, no source)
TopographicFactor = Annotated[float, BeforeValidator(_within(0.5, 5.0, "Kzt")), Range(0.5, 5.0)]
WinterWind = Annotated[float, BeforeValidator(_within(0.0, 1.0, "W2")), Range(0.0, 1.0)]
RoofR = Annotated[float, BeforeValidator(_within(0.0, 200.0, "R")), Range(0.0, 200.0)]
# the largest of any site in the maps of ASCE 7 is under 3 g (common practice, no source)
SpectralAcceleration = Annotated[float, BeforeValidator(_within(0.0, 4.0, "SDS")), Range(0.0, 4.0)]
ImportanceFactor = Annotated[float, BeforeValidator(_within(0.8, 1.2, "Is")), Range(0.8, 1.2)]
JointClass = Annotated[str | float, BeforeValidator(_joint_class)]
Plies = Annotated[int, BeforeValidator(_few(3))]
Plates = Annotated[int, BeforeValidator(_few(4))]
Clips = Annotated[int, BeforeValidator(_few(8))]
Fasteners = Annotated[int, BeforeValidator(_few(24))]
RoofSpan = Annotated[float, BeforeValidator(at_least(LEAST_SPAN_IN)), Written("length", none=False)]
BackSpan = Annotated[
    float,
    BeforeValidator(at_least(LEAST_BACK_SPAN_IN, inches=True)),
    Written("length", none=False),
]
Run = Annotated[
    float,
    BeforeValidator(measured("length", none=False, units=("ft",))),
    Written("length", none=False),
]
Overhang = Annotated[
    float, BeforeValidator(measured("length", units=("in", "ft"))), Written("length")
]
PlateWidth = Annotated[
    float, BeforeValidator(up_to(PLATES_IN[1], PLATES_IN[0])), Written("length", none=False)
]
BearingLength = Annotated[
    float, BeforeValidator(up_to(BEARINGS_IN[1], BEARINGS_IN[0])), Written("length", none=False)
]
BehindBack = Annotated[
    float, BeforeValidator(behind_a_clip(LEAST_BEHIND_IN, BEHIND_IN)), Written("length")
]
TrussDead = Annotated[
    float, BeforeValidator(from_least("pressure", LEAST_TRUSS_DEAD_PSF)), Written("pressure")
]
DeckDead = Annotated[
    float, BeforeValidator(from_least("pressure", LEAST_DECK_DEAD_PSF)), Written("pressure")
]
WallDead = Annotated[
    float, BeforeValidator(from_least("pressure", LEAST_WALL_DEAD_PSF)), Written("pressure")
]
RoofLive = Annotated[
    float, BeforeValidator(from_least("pressure", LEAST_LIVE_PSF)), Written("pressure")
]
SnowLoad = Annotated[
    float, BeforeValidator(from_least("pressure", LEAST_SNOW_PSF)), Written("pressure")
]
WindPressure = Annotated[
    float, BeforeValidator(from_least("pressure", LEAST_WIND_PSF)), Written("pressure")
]
ClipValue = Annotated[float, BeforeValidator(no_more("force", MOST_CLIP_LB)), Written("force")]
RoofStep = Annotated[
    float, BeforeValidator(at_least(LEAST_RISE_IN, spelled=True)), Written("length", none=False)
]
WallHeight = Annotated[
    float, BeforeValidator(at_least(LEAST_RISE_IN, none=True, spelled=True)), Written("length")
]
MeanHeight = Annotated[
    float,
    BeforeValidator(at_least(LEAST_MEAN_HEIGHT_IN, spelled=True)),
    Written("length", none=False),
]
Elevation = Annotated[
    float, BeforeValidator(_elevation), Written("length"), Range(high=MOST_ELEVATION_IN)
]
RiskCategory = Annotated[Literal["", "I", "II", "III", "IV"], BeforeValidator(_risk_category)]
