"""What each part of the load puts on one outrigger, unfactored, and what it does there.

The combinations add these numbers up; the lengths and the closed forms of a row stand beside them,
so that each is worked again with a pencil. Of the first case of a design.
"""

import numpy as np
from msgspec import Struct

from outrigger.actions import by_hand
from outrigger.actions import closed_forms as forms
from outrigger.actions.axes import SQUARE
from outrigger.actions.places import EDGE
from outrigger.base.errors import ContradictionError
from outrigger.base.units import psf
from outrigger.formula.formula import Step
from outrigger.formula.numbers import Array, pick
from outrigger.statics.exact import Load, exact_beam
from outrigger.verdict.design import Design


class PartLoad(Struct, frozen=True):
    """One part of the load on one outrigger, unfactored, square to the sheathing, and what it does.

    P lb on the wall line; w_arm, w_back lb/in on arm and back span, self weight in them, and the
    psf of the roof in them; W_end lb; F lb along the member; M lb-in just inside the edge and V lb
    outside it, hogging positive; R lb by support, pushed down positive; droop in at the wall line.
    """

    part: str
    P: float
    w_arm: float
    w_back: float
    W_end: float
    psf_arm: float
    psf_back: float
    F: float
    M: float
    V: float
    R: tuple[float, ...]
    droop: float


def part_loads(design: Design) -> list[PartLoad]:
    """Every part that the combinations are made of."""
    model, found, shape, whole = design.model, [], design.shape, design.model.whole
    on, plain, by_axis = model.by_axis.square, design.loads, model.by_axis
    weight = _first(on.self_weight)
    for i, part in enumerate(model.parts):
        arm = _first(on.strip.get(part, 0.0)) + (weight if part == "D" else 0.0)
        area = shape.spacing if part in SQUARE else shape.plan_area
        q_arm, q_back = (
            psf(_first(by.get(part, 0.0)) / _first(area)) for by in (plain.strip, plain.back)
        )
        along = sum(_first(by.get(part, 0.0)) for by in (by_axis.on_arm, by_axis.on_back))
        found.append(
            PartLoad(
                part=part,
                P=_first(on.wall_line.get(part, 0.0)),
                w_arm=arm,
                w_back=float(whole.w_back[0, i]),
                W_end=_first(on.worker) if part == "worker" else 0.0,
                psf_arm=q_arm,
                psf_back=q_back,
                F=along,
                M=-float(whole.M[-1][0, i]),
                V=float(whole.V_arm[0, i]),
                R=tuple(float(R[0, i]) for R in whole.R),
                droop=float(whole.droop[0, i]),
            )
        )
    return found


def _first(value: Array | float) -> float:
    return float(np.ravel(value)[0])


def drifted(design: Design) -> dict[str, list[Step]]:
    """How a part with a drift on the house roof, or snow slid onto it, adds up on two supports:
    M, V, the pull at the back and the push at the edge. None where it ends on the arm, where a
    force along turns the member too, or beside a longer row."""
    model, shape = design.model, design.shape
    on, found = model.by_axis.square, dict[str, list[Step]]()
    if len(model.supports) > 2 or shape.tilt.way != "level":
        return {}
    a, L_b = pick(shape.arm), pick(shape.back_span)
    rows = {one.part: one for one in part_loads(design)}
    for part in (*on.house, *on.shed):
        if part in on.house:
            peak, width = (_first(value) for value in on.house[part])
            shares = [max(0.0, 1 - x / width) if width else 0.0 for x in (a, min(width, a + L_b))]
            w_house, w_inner = (peak * share for share in shares)
        else:
            peak, width = (_first(value) for value in on.shed[part])
            w_house = w_inner = peak
        if width < a or part not in rows or rows[part].F or np.any(on.covered > 0):
            continue
        whole = part in on.shed and width >= a + L_b  # then it stands in w_back
        c = 0.0 if whole else min(width - a, L_b)
        found[part] = _steps(design, rows[part], (peak, w_house, w_inner, c))
    return found


def _steps(design: Design, row: PartLoad, drift: tuple[float, float, float, float]) -> list[Step]:
    """The closed forms of a row, each held to the statics."""
    shape, (peak, w_house, w_inner, c) = design.shape, drift
    arm = {"P": row.P, "a": pick(shape.arm), "w_arm": row.w_arm, "t": pick(shape.tail)}
    arm |= {"w_wall": peak, "w_house": w_house}
    L_b = pick(shape.back_span)
    M, V = forms.moment_beside_drift.step(**arm), forms.shear_beside_drift.step(**arm)
    back = {"w_back": row.w_back, "L_b": L_b, "c_drift": c, "w_house": w_house, "w_inner": w_inner}
    M, V = by_hand.attach(M, np.array([row.M])), by_hand.attach(V, np.array([row.V]))
    T = forms.pull_beside_drift.step(M_edge=M, **back)
    T = by_hand.attach(T, np.array([-row.R[0]]))
    R = forms.push_beside_drift.step(V=V, T_place=T, **back)
    return [by_hand.attach(R, np.array([row.R[-1]]))]


class Share(Struct, frozen=True):
    """What one support of a row takes: R = by_moment M + by_back w_back + by_own w_self, and V
    besides at the edge; M lb-in just inside the edge, w in lb/in, w_self on the end behind."""

    supports: tuple[str, ...]
    place: str
    by_moment: float
    by_back: float
    by_own: float


def shares(design: Design) -> list[Share]:
    """Of a row of three supports and more, what each takes, with all of them and with one hold-down
    beside the edge: exact fractions, the shear deflection in it."""
    model, shape = design.model, design.shape
    if len(model.supports) <= 2:
        return []
    places = [(name, _first(x)) for name, x in model.supports]
    alone = [[one, places[-1]] for one in places[:-1]]
    L_b, behind = pick(shape.back_span), pick(shape.house_end)
    loads = (
        Load("point", 1.0, 1.0, 1.0),
        Load("even", -L_b, 0.0, 1.0),
        Load("even", behind, -L_b, 1.0),
    )
    found = []
    for chosen in (places, *alone):
        x = [at for _, at in chosen]
        solved = [
            exact_beam(x, [load], model.stiff.EI_number, model.stiff.GA_number, 0.0).reactions
            if load.end > load.start or load.kind == "point"
            else (0.0,) * len(x)
            for load in loads
        ]
        names = tuple(name for name, _ in chosen)
        for i, name in enumerate(names):
            by_moment, by_back, by_own = (one[i] for one in solved)
            if name == EDGE:
                by_moment -= 1.0  # the unit load itself
            found.append(Share(names, name, by_moment, by_back, by_own))
    return found


def held(design: Design, rows: list[PartLoad], found: list[Share]) -> None:
    """Holds the shares of the whole row to the statics of every part.

    Raises:
        ContradictionError: one is another.
    """
    names = [name for name, _ in design.model.supports]
    weight = _first(design.model.by_axis.square.self_weight)
    on = design.model.by_axis.square
    for row in rows if found else ():
        own = weight if row.part in ("D_back", "D_own") else 0.0
        if row.part in (*on.house, *on.shed):
            continue
        for one, R in zip(found[: len(names)], row.R, strict=True):
            by = one.by_moment * row.M + one.by_back * row.w_back + one.by_own * own
            by += row.V if one.place == EDGE else 0.0
            if abs(by - R) > by_hand.AGREE * max(1.0, abs(row.M), *map(abs, row.R)):
                raise ContradictionError(f"{row.part}, {one.place}: {by:.9g} lb, and {R:.9g} lb")
