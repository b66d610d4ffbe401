"""Places along the outrigger that hold it: their names and x."""

import numpy as np

from outrigger.actions.geometry import column
from outrigger.cases.model import Case
from outrigger.formula.numbers import Array

EDGE, BACK, WALL_LINE = "edge", "back", "wall line"


def places(case: Case) -> list[tuple[str, Array]]:
    """Names and x of the supports, inner first: back, hold-downs between, edge."""
    between = sorted(
        (h.at for h in case.hold_down if isinstance(h.at, float) and not _is_end(h.at, case)),
        reverse=True,
    )
    inner = [(inches(at), column(-at)) for at in between]
    return [(BACK, -column(case.outrigger.back_span)), *inner, (EDGE, column(0.0))]


def inches(at: float) -> str:
    """The name of a place by its distance from the edge: 16 in, 30.5 in."""
    return f"{at:g} in"


def place_name(at: str | float, case: Case) -> str:
    """The name of a stated place: a distance equal to the back span is the back, 0 the edge."""
    if isinstance(at, str):
        return at
    if at == 0:
        return EDGE
    return BACK if bool(np.all(column(case.outrigger.back_span) == at)) else inches(at)


def _is_end(at: float, case: Case) -> bool:
    return place_name(at, case) in (EDGE, BACK)
