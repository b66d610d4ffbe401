"""What is missing as an ask sheet: by person, each question with a setting that answers it."""

import json

from msgspec import Struct

from outrigger.actions.places import place_name
from outrigger.base.shell import quoted
from outrigger.cases import described
from outrigger.cases.model import Case
from outrigger.verdict.design import Design
from outrigger.verdict.missing_fact import NotGiven

NO_LOAD = "none"
# what a key that is not zero needs beside it
NEEDS = {
    "snow.ground": "snow.exposure, snow.thermal, garage_roof.shape, snow.drift, snow.sliding",
    "wind.uplift": "wind.down; or, in place of both, wind.speed with wind.exposure, "
    "wind.mean_height, wind.enclosure, garage_roof.pitch and shape",
    "seismic.category": "seismic.sds from B on",
    "snow.drift": "if there is one, [snow.drift] on, house_step, house_length, garage_length",
    "snow.sliding": "if there is any, [snow.sliding] house_run, house_slope",
    "snow.on_house": "if there is any, snow.ground in place of snow.roof, and "
    "snow.on_house.house_length",
    "hold_down": "[[hold_down]] at, count, rated_uplift, rated_lateral, rated_for, rated_wood, "
    "rated_into, rated_source, rated_across_grain, into; one at the back, one at the edge where "
    "wind lifts",
}


class Ask(Struct, frozen=True):
    """One question: the setting that answers it, with a value to be replaced, and what else that
    key will need."""

    question: str
    setting: str
    needs: str = ""


def by_person(design: Design) -> dict[str, list[NotGiven]]:
    """Every missing fact, by who has it, people in the order in which they are first asked."""
    found: dict[str, list[NotGiven]] = {}
    for one in design.not_given:
        found.setdefault(one.who, []).append(one)
    return found


def asks(design: Design) -> dict[str, list[Ask]]:
    """The sheet: the questions of each person."""
    case, people = design.case, by_person(design)
    return {
        who: [Ask(one.question, _setting(case, one), NEEDS.get(one.key, "")) for one in facts]
        for who, facts in people.items()
    }


def settings(design: Design) -> list[str]:
    """The settings alone, each once: they stand on a command line as they are."""
    each = (_setting(design.case, one) for one in design.not_given)
    return list(dict.fromkeys(filter(None, each)))


def _setting(case: Case, one: NotGiven) -> str:
    """A fact as a word of a command; empty: a whole table is missing."""
    section, _, field = one.key.rpartition(".")
    if not section:
        return ""
    if section.startswith("hold_down["):
        hold = case.hold_down[int(section.removeprefix("hold_down[").removesuffix("]"))]
        section = f"hold_down[{place_name(hold.at, case.outrigger.back_span)}]"
    return quoted(f"{section}.{field}={_word(described.of(one.key).value)}")


def _word(value: object) -> str:
    """A value as a setting has it, to be replaced by the true one; of a load, none."""
    if value is None:
        return NO_LOAD
    return value if isinstance(value, str) else json.dumps(value)
