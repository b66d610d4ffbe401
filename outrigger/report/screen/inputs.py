"""What a case states, key by key, in the units of its file."""

from collections.abc import Collection
from typing import Any

from outrigger.base.quantity import NONE, in_trade, length
from outrigger.cases.kinds import form_of, kind_of
from outrigger.cases.model import Case
from outrigger.cases.section import Section

# Tables in the order they are listed; keys of the project say nothing of the calculation.
TABLES = (
    "basis", "gap", "outrigger", "house_roof", "garage_roof", "garage_wall", "snow", "wind",
    "seismic", "limits",
)  # fmt: skip
BELOW = ("wall_tie", "house_edge", "house_rafter")  # where they are given


def stated_list(case: Case, without: Collection[str] = ()) -> list[tuple[str, str]]:
    """Table and what it states, `without` the keys named ("gap.width")."""
    listed = [
        (name, _line(part, f"{name}.", without))
        for name in (*TABLES, *BELOW)
        if (part := getattr(case, name)) is not None
    ]
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
        said = [
            _number(part, key, one) if isinstance(one, float) else _value(part, key, one)
            for one in value
        ]
        return " and ".join(said) or NONE
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not isinstance(value, (int, float)):
        return str(value)
    if kind_of(type(part), key) is not None and value == 0:
        return NONE
    return _number(part, key, value)


def _number(part: Section, key: str, value: float) -> str:
    """A number of a key with its unit; a place at 0 is a place."""
    kind, form = kind_of(type(part), key), form_of(type(part), key)
    if kind == "length" or form == "length or word":
        return length(value)
    if kind is not None:
        number, unit = in_trade(value, kind)
        return f"{number:,.6g} {unit}"
    match form:
        case "limit":
            return f"twice the arm / {value:g}"
        case "pitch":
            return f"{value:g}:12"
    return f"{value:g}"
