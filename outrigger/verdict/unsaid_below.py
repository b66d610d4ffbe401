"""What the tables of what carries on leave unsaid, where the file has them."""

from collections.abc import Iterator, Sequence

from outrigger.actions.snow_on_house import lacking
from outrigger.cases.below import BLOCKING, CROSSING_MEMBER, HouseEdge, WallTie
from outrigger.cases.model import Case
from outrigger.checks.tie_actions import WALL_TIE
from outrigger.formula.check import Check
from outrigger.verdict.missing_fact import CODE, DESIGNER, ENGINEER, FRAMER, MAKER, NotGiven
from outrigger.verdict.unsaid import snows, windless

ASKED = {  # what the garage's snow on the house roof may wait for; the rest is asked anyway
    "snow.on_house": (
        "snow that the garage wall and roof bring to the house roof, or none?",
        ENGINEER,
    ),
    "snow.on_house.house_length": ("how long is the house roof, square to the gap?", FRAMER),
    "snow.on_house.garage_length": ("how long is the garage roof, square to the gap?", FRAMER),
    "snow.on_house.winter_wind": ("winter wind W2 of the site?", CODE),
    "snow.on_house.slippery": ("is the garage roof slippery: metal, slate, membrane?", DESIGNER),
    "garage_roof.shape": ("shape of the garage roof?", DESIGNER),
}


def not_given(case: Case, checks: Sequence[Check]) -> list[NotGiven]:
    """Every load or condition of these tables that is needed and absent; `checks`: those of the
    case, which say whether anything pulls or pushes the garage wall."""
    edge, tie = case.house_edge, case.wall_tie
    found = [] if edge is None else list(_house_edge(case, edge))
    found += _on_house_roof(case) if snows(case) else []
    if tie is not None:
        return [*found, *_wall_tie(tie)]
    if any(check.kind == WALL_TIE for check in checks):
        question = "what ties the garage wall's bottom plate to each outrigger?"
        found.append(NotGiven("wall_tie", question, DESIGNER))
    return found


def _on_house_roof(case: Case) -> Iterator[NotGiven]:
    """What the drift and the sliding on the house roof wait for: they lie on the back span, and on
    the house rafters."""
    for key in dict.fromkeys((*lacking(case, "drift"), *lacking(case, "sliding"))):
        key = "snow.on_house" if key == "snow.ground" else key
        if key in ASKED:
            yield NotGiven(key, *ASKED[key])


def _wall_tie(tie: WallTie) -> Iterator[NotGiven]:
    if tie.fastener:
        return
    asked = {
        "rated_for": "for which loads is the wall tie listed? (computed as wind)",
        "rated_wood": "for which wood is the wall tie listed?",
        "rated_across_grain": "is the wall tie listed for a pull across the grain?",
    }
    for key, question in asked.items():
        if not getattr(tie, key):
            yield NotGiven(f"wall_tie.{key}", question, MAKER)
    if not tie.rated_source:
        question = "report and page of the wall tie's listing?"
        yield NotGiven("wall_tie.rated_source", question, MAKER, bears=False)


def _house_edge(case: Case, edge: HouseEdge) -> Iterator[NotGiven]:
    key, called = "house_edge", f"the {edge.kind} below the outriggers"
    if edge.moisture is None:
        yield NotGiven(f"{key}.moisture", f"{called}: dry or wet in service?", DESIGNER)
    if edge.carries is None:
        question = f"what does {called} carry already, along its length, or none?"
        yield NotGiven(f"{key}.carries", question, ENGINEER)
    elif not isinstance(edge.carries, str):
        asked = {"D": DESIGNER, "Lr": CODE}
        asked |= {"S": ENGINEER} if snows(case) or case.house_roof.snow else {}
        asked |= {} if windless(case) else {"W_up": ENGINEER}
        for load, who in asked.items():
            if getattr(edge.carries, load) is None:
                question = f"{load} that {called} carries already, or 0?"
                yield NotGiven(f"{key}.carries.{load}", question, who)
    if edge.stud is not None and edge.stud.wind is None and not windless(case):
        question = "wind on the studs of the house wall, square to it, or none?"
        yield NotGiven(f"{key}.stud.wind", question, ENGINEER)
    hung = edge.kind in (BLOCKING, CROSSING_MEMBER)
    if hung and edge.ends is None and edge.end_bearing is None:
        question = f"how is each end of {called} held?"
        yield NotGiven(f"{key}.ends", question, FRAMER)
