"""Unfactored reactions by place, source and load case.

What the garage side brings and what lies on the back span are never set off against each other:
either may be there without the other.
"""

import numpy as np
from msgspec.structs import replace

from outrigger.actions.loads import Loads
from outrigger.actions.model import Model
from outrigger.actions.response import Response, Stiffness, respond
from outrigger.formula.numbers import Array
from outrigger.loads.parts import SNOW_CASES

GARAGE_SIDE, BACK_SPAN = "garage side", "back span"
ON_HOUSE = {  # parts with balanced snow on the garage side, and with it what it brings to the house
    "S_house": "drift on the house roof",
    "S_shed": "snow slid off the garage roof",
}
SOURCES = {
    GARAGE_SIDE: {
        "D": "D", "L": "L", "Lr": "Lr", "W_up": "W_up", "W_down": "W_down",
        "H_away": "H_away", "H_toward": "H_toward", "A": "A_one",
        "E_away": "E_away", "E_toward": "E_toward",
    },
    BACK_SPAN: {
        "D": "D_back", "Lr": "Lr_back", "S": "S_back", "W_up": "W_back", "W_down": "W_press_back",
    },
}  # fmt: skip

Reaction = tuple[str, str]  # source and load case
ByReaction = dict[Reaction, list[Array]]  # columns, one for each way the load may lie


def reactions(model: Model) -> dict[str, ByReaction]:
    """Unfactored reactions, lb, square to the sheathing, by place, source and load case.

    Every support holding both ways. Snow of the garage side: each of its cases; E: 0.2 SDS D.
    """
    return _of_row(model, model.whole, model.by_axis.square, model.stiff)


def side_reactions(model: Model) -> dict[str, ByReaction]:
    """Unfactored forces in the sheathing's plane, lb: "along" the member, outward positive, all
    hold-downs together; across it by place, down the slope or one way positive."""
    found, on = dict[str, ByReaction](), model.by_axis
    if on.on_arm or on.on_back:
        inside = model.table(on.on_back)
        found["along"] = _by_source(model, model.table(on.on_arm) + inside, inside)
    if model.sideways is not None and on.across is not None:
        found |= _of_row(model, model.sideways, on.across, model.side)
    return found


def _of_row(model: Model, row: Response, on: Loads, stiff: Stiffness) -> dict[str, ByReaction]:
    """The reactions of every support along one axis of the member."""
    drifts = [np.zeros((1, len(model.parts)))] * len(row.R)
    if on.house or on.shed:
        nothing = {"D": np.zeros((1, 1))}
        alone = replace(
            on, wall_line={}, strip=nothing, strip_ramp={}, back={}, couple_wall={},
            couple_edge={}, self_weight=np.zeros((1, 1)), worker=np.zeros((1, 1)),
        )  # fmt: skip
        drifts = respond(alone, model.shape, model.parts, stiff, model.supports).R
    each = zip(row.names, row.R, drifts, strict=True)
    return {name: _by_source(model, R, drift) for name, R, drift in each}


def _by_source(model: Model, amounts: Array, drift: Array) -> ByReaction:
    """The columns of the parts by source and load case; `amounts` (cases, parts), and of that what
    snow on the house roof alone brings."""
    found: ByReaction = {}

    def of(table: Array, name: str) -> Array:
        at = model.parts.index(name)
        return table[:, at : at + 1]

    for source, by_case in SOURCES.items():
        for case, name in by_case.items():
            if name in model.parts:
                found[source, case] = [of(amounts, name)]
    beside = amounts - drift
    if snows := [of(beside, name) for name in ("S", *SNOW_CASES) if name in model.parts]:
        found[GARAGE_SIDE, "S"] = snows
    for part, source in ON_HOUSE.items():
        if part in model.parts:
            found[source, "S"] = [of(drift, part)]
    if model.loads.Ev_per_D:
        for source in (GARAGE_SIDE, BACK_SPAN):
            if (source, "D") in found:
                found[source, "E"] = [model.loads.Ev_per_D * found[source, "D"][0]]
    return found
