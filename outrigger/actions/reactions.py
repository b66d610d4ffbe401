"""Unfactored reactions by place and load case."""

import numpy as np

from outrigger.actions.model import Model
from outrigger.formula.numbers import Array
from outrigger.loads.combinations import SNOW_CASES

CASES = {
    "D": ("D", "D_back"), "L": ("L",), "Lr": ("Lr", "Lr_back"), "W_up": ("W_up", "W_back"),
    "W_down": ("W_down",), "H_away": ("H_away",), "H_toward": ("H_toward",), "A": ("A_one",),
    "E_away": ("E_away",), "E_toward": ("E_toward",),
}  # fmt: skip


def reactions_by_case(model: Model) -> dict[str, dict[str, Array]]:
    """Unfactored reactions, lb, square to the sheathing, by place and load case.

    Every support holding both ways. Snow: of its cases the one with the largest reaction at the
    place. E: 0.2 SDS D.
    """
    whole = model.whole
    return {name: _by_case(model, R) for name, R in zip(whole.names, whole.R, strict=True)}


def side_reactions(model: Model) -> dict[str, dict[str, Array]]:
    """Unfactored forces in the sheathing's plane, lb, by load case: "along" the member, outward
    positive, all hold-downs together; across it by place, down the slope or one way positive."""
    found, on = dict[str, dict[str, Array]](), model.by_axis
    if on.on_arm or on.on_back:
        found["along"] = _by_case(model, model.table(on.on_arm) + model.table(on.on_back))
    across = model.sideways
    if across is not None:
        found |= {n: _by_case(model, R) for n, R in zip(across.names, across.R, strict=True)}
    return found


def _by_case(model: Model, amounts: Array) -> dict[str, Array]:
    """Sums over the parts of each load case, columns; amounts (cases, parts)."""
    by_part = {part: amounts[:, i : i + 1] for i, part in enumerate(model.parts)}
    by_case = {}
    for load, parts in CASES.items():
        chosen = [by_part[p] for p in parts if p in by_part]
        if chosen:
            by_case[load] = sum(chosen[1:], chosen[0])
    snows = [by_part[p] for p in ("S", *SNOW_CASES) if p in by_part]
    back = by_part.get("S_back", np.zeros((1, 1)))
    if snows or "S_back" in by_part:
        totals = [snow + back for snow in snows] or [back]
        largest = totals[0]
        for other in totals[1:]:
            largest = np.where(np.abs(other) > np.abs(largest), other, largest)
        by_case["S"] = largest
    if model.loads.Ev_per_D:
        by_case["E"] = model.loads.Ev_per_D * by_case["D"]
    return by_case
