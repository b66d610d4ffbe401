"""Places along the outrigger that hold it: their names and x."""

import numpy as np

from outrigger.actions.geometry import column
from outrigger.cases.batch import Batch
from outrigger.formula.numbers import Array, Num

EDGE, BACK, WALL_LINE = "edge", "back", "wall line"
ENDS = (BACK, EDGE)


def places(batch: Batch) -> list[tuple[str, Array]]:
    """Names and x of the supports, inner first: back, hold-downs between, edge."""
    back = batch.column("outrigger.back_span")
    stated = [hold.at for hold in batch.case.hold_down if isinstance(hold.at, float)]
    between = sorted((at for at in stated if place_name(at, back) not in ENDS), reverse=True)
    inner = [(inches(at), column(-at)) for at in between]
    return [(BACK, -back), *inner, (EDGE, column(0.0))]


def inches(at: float) -> str:
    """The name of a place by its distance from the edge: 16 in, 30.5 in."""
    return f"{at:g} in"


def place_name(at: str | float, back_span: Num) -> str:
    """The name of a stated place: a distance equal to the back span is the back, 0 the edge."""
    if isinstance(at, str):
        return at
    if at == 0:
        return EDGE
    return BACK if bool(np.all(back_span == at)) else inches(at)
