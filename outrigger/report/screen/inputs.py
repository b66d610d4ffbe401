"""What a case states, key by key, in the units of its file."""

from collections.abc import Collection
from functools import cache
from typing import Any

from outrigger.base import units
from outrigger.base.quantity import NONE, length
from outrigger.cases.model import Case
from outrigger.cases.sections import Section

# Tables in the order they are listed; keys of the project say nothing of the calculation.
TABLES = (
    "basis", "gap", "outrigger", "house_roof", "garage_roof", "garage_wall", "snow", "wind",
    "seismic", "limits",
)  # fmt: skip
PITCHES = ("pitch", "house_slope")
LIMITS = ("live_deflection", "total_deflection")
LENGTHS = ("at", "member_spacing", "side_height", "blocking", "framing_at")


def stated_list(case: Case, without: Collection[str] = ()) -> list[tuple[str, str]]:
    """Table and what it states, `without` the keys named ("gap.width")."""
    listed = [(name, _line(getattr(case, name), f"{name}.", without)) for name in TABLES]
    listed += [("hold_down", _line(hold, "hold_down.", without)) for hold in case.hold_down]
    return [(name.replace("_", " "), text) for name, text in listed if text]


def _line(part: Section, prefix: str, without: Collection[str] = ()) -> str:
    """The keys of a table that the file gives, each with its value."""
    kinds = _kinds(type(part))
    said = [
        f"{key.replace('_', ' ')} {_value(key, getattr(part, key), kinds.get(key, ''))}"
        for key in type(part).model_fields
        if key in part.model_fields_set
        and prefix + key not in without
        and getattr(part, key) not in (None, "", [])
    ]
    return ", ".join(said)


@cache
def _kinds(model: type[Section]) -> dict[str, str]:
    """The kind of quantity of each key that is one: length, pressure and so on."""
    found = {}
    for key, one in model.model_json_schema()["properties"].items():
        forms = [one, *one.get("anyOf", [])]
        found[key] = next((f["description"] for f in forms if "description" in f), "")
    return found


def _value(key: str, value: Any, kind: str) -> str:
    """One value as the trade writes it."""
    if isinstance(value, Section):
        return f"({_line(value, f'{key}.')})"
    if isinstance(value, list):
        return " and ".join(_value(key, one, kind) for one in value) or NONE
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not isinstance(value, (int, float)):
        return str(value)
    if kind and value == 0:
        return NONE
    match kind:
        case "length":
            return length(value)
        case "pressure":
            return f"{units.psf(value):.6g} psf"
        case "line load":
            return f"{units.plf(value):.6g} plf"
        case "force" | "stress" | "stiffness" | "speed":
            unit = {"force": "lb", "stress": "psi", "stiffness": "lb/in", "speed": "mph"}[kind]
            return f"{value:,.6g} {unit}"
    if key in LIMITS:
        return f"twice the arm / {value:g}"
    if key in PITCHES:
        return f"{value:g}:12"
    return length(value) if key in LENGTHS else f"{value:g}"
