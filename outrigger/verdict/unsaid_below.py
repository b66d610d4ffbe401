"""What the tables of what carries on leave unsaid, where the file has them."""

from collections.abc import Iterator

from outrigger.cases.below import BLOCKING, CROSSING_MEMBER, HouseEdge
from outrigger.cases.model import Case
from outrigger.verdict.unsaid import CODE, DESIGNER, ENGINEER, FRAMER, NotGiven, snows, windless


def not_given(case: Case) -> list[NotGiven]:
    """Every load or condition of these tables that is needed and absent."""
    return [] if case.house_edge is None else list(_house_edge(case, case.house_edge))


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
    hung = edge.kind in (BLOCKING, CROSSING_MEMBER)
    if hung and edge.ends is None and edge.end_bearing is None:
        question = f"how is each end of {called} held?"
        yield NotGiven(f"{key}.ends", question, FRAMER)
