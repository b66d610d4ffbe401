"""What is missing as an ask sheet: by person, each question with a setting that answers it."""

from dataclasses import dataclass

from outrigger.actions.places import place_name
from outrigger.base.shell import quoted
from outrigger.cases.model import Case
from outrigger.verdict.design import Design
from outrigger.verdict.unsaid import NotGiven

NO_LOAD = "none"
# a value of the right form for each key, to be replaced by the true one; loads: none
VALUES = {
    "run": "24 ft", "grade": "No. 2", "category": "B", "sds": "0.20", "height": "3 ft",
    "studs_over_outriggers": "true", "edge_support": "wall", "moisture": "dry",
    "blocking": '["edge", "back"]', "into": "framing", "side_fastener": "10d x 1 1/2 in",
    "deck_fastener": "lag 3/8 in x 9 in", "rated_uplift": "400 lb",
    "rated_into": "framing through OSB 7/16 in", "framing_spacing": "16 in",
    "framing_parallel": "true", "side_height": "4 in", "sheathing_thickness": "7/16 in",
    "rated_for": "wind", "rated_wood": "Spruce-Pine-Fir", "rated_source": "report, table, page",
    "rated_across_grain": "true", "rated_lateral": "150 lb", "pitch": "4:12", "shape": "gable",
    "direction": "down the slope", "member_spacing": "24 in", "overhang": "12 in",
    "house_finish": "1/2 in", "plate_species": "Spruce-Pine-Fir",
    "framing_species": "Spruce-Pine-Fir", "joint_class": "50", "moisture_change": "6 %",
    "clip_slip": "1/8 in", "below_clearance": "1 in", "sheathing_bearing": "360 psi",
}  # fmt: skip
# what a key that is not zero needs beside it
NEEDS = {
    "snow.ground": "snow.exposure, snow.thermal, garage_roof.shape, snow.drift, snow.sliding",
    "wind.uplift": "wind.down; or, in place of both, wind.speed with wind.exposure, "
    "wind.mean_height, wind.enclosure, garage_roof.pitch and shape",
    "seismic.category": "seismic.sds from B on",
    "snow.drift": "if there is one, [snow.drift] on, house_step, house_length, garage_length",
    "snow.sliding": "if there is any, [snow.sliding] house_run, house_slope",
    "hold_down": "[[hold_down]] at, count, rated_uplift, rated_lateral, rated_for, rated_wood, "
    "rated_into, rated_source, rated_across_grain, into; one at the back, one at the edge where "
    "wind lifts",
}


@dataclass(frozen=True)
class Ask:
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
    value = "report, table, page" if field.endswith("_source") else VALUES.get(field, NO_LOAD)
    return quoted(f"{section}.{field}={value}")
