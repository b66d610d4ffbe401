"""What a case states, key by key, in the units of its file."""

from collections.abc import Collection
from typing import Any

from outrigger.base.quantity import NONE, in_trade, length
from outrigger.cases.kinds import kind_of
from outrigger.cases.model import Case
from outrigger.cases.sections import Section

# Tables in the order they are listed; keys of the project say nothing of the calculation.
TABLES = (
    "basis", "gap", "outrigger", "house_roof", "garage_roof", "garage_wall", "snow", "wind",
    "seismic", "limits",
)  # fmt: skip
PITCHES = ("pitch", "house_slope")
LIMITS = ("live_deflection", "total_deflection")
PLACES = ("at", "member_spacing", "side_height", "blocking", "framing_at")  # lengths; 0 is one


def stated_list(case: Case, without: Collection[str] = ()) -> list[tuple[str, str]]:
    """Table and what it states, `without` the keys named ("gap.width")."""
    listed = [(name, _line(getattr(case, name), f"{name}.", without)) for name in TABLES]
    listed += [("hold_down", _line(hold, "hold_down.", without)) for hold in case.hold_down]
    return [(name.replace("_", " "), text) for name, text in listed if text]


def _line(part: Section, prefix: str, without: Collection[str] = ()) -> str:
    """The keys of a table that the file gives, each with its value."""
    said = [
        f"{key.replace('_', ' ')} {_value(part, key, getattr(part, key))}"
        for key in type(part).model_fields
        if key in part.model_fields_set
        and prefix + key not in without
        and getattr(part, key) not in (None, "", [])
    ]
    return ", ".join(said)


def _value(part: Section, key: str, value: Any) -> str:
    """One value of a key as the trade writes it."""
    if isinstance(value, Section):
        return f"({_line(value, f'{key}.')})"
    if isinstance(value, list):
        return " and ".join(_value(part, key, one) for one in value) or NONE
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not isinstance(value, (int, float)):
        return str(value)
    kind = kind_of(type(part), key)
    if key in PLACES or (kind == "length" and value):
        return length(value)
    if kind is not None:
        number, unit = in_trade(value, kind)
        return f"{number:,.6g} {unit}" if value else NONE
    if key in LIMITS:
        return f"twice the arm / {value:g}"
    return f"{value:g}:12" if key in PITCHES else f"{value:g}"
