"""Each load case on the wall line of one outrigger: its line load, its force, its steps."""

from collections.abc import Sequence

import numpy as np
from msgspec import Struct

from outrigger.actions.geometry import Geometry, column
from outrigger.actions.snow_lies import Lie
from outrigger.cases.batch import Batch
from outrigger.formula.formula import Step, given
from outrigger.formula.numbers import Array
from outrigger.loads import gravity as loads


class OnLine(Struct, frozen=True, eq=False):
    """One part of the load on the wall line: what the roof brings, lb/in, all of it on one
    outrigger, lb, the steps that add up to it, and those before them."""

    line: Array
    P: Array
    totals: list[Step]
    before: Sequence[Step] = ()


def _on_line(w: Step | None, share: Array, others: list[Step], before: Sequence[Step]) -> OnLine:
    """A part from its line load, if it has one, and its other forces, lb."""
    forces = others if w is None else [loads.share_of_line.step(w_roof=w, l_share=share), *others]
    P = sum((np.asarray(force.value) for force in forces), column(0.0))
    if w is None:
        return OnLine(column(0.0), P, forces, before)
    return OnLine(np.asarray(w.value), P, [w, *forces], before)


def snow_line(batch: Batch, part: str, lie: Lie, share: Array) -> OnLine:
    """One case of snow on the wall line."""
    roof = batch.case.garage_roof
    if roof.line is not None:
        line = batch.load("garage_roof.line.S")
        if part == "S":
            line = line + batch.load("snow.drift_line")
        total = given("w_roof", line, "lb/in", "", "line load as stated")
    elif roof.bearing:
        total = given("w_roof", lie.line, "lb/in", "statics over the garage span", "snow")
        even = _roof_line(batch, lie.strip)
        if np.array_equal(np.asarray(even.value), lie.line):  # the whole roof alike
            total = even
    else:
        drift = batch.load("snow.drift_line")
        total = given("w_roof", drift, "lb/in", "", "stated drift only")
    return _on_line(total, share, _points(batch, "S"), lie.steps)


def _roof_line(batch: Batch, q: Array, on_overhang: Step | None = None) -> Step:
    """Load of the whole garage roof on the wall line, lb/in; q psi, the overhang's apart if any."""
    span, overhang = batch.load("garage_roof.span"), batch.load("garage_roof.overhang")
    if on_overhang is not None:
        return loads.roof_line_load_with_overhang.step(
            q=q, l_span=span, q_overhang=on_overhang, l_overhang=overhang
        )
    return loads.roof_line_load.step(q=q, l_span=span, l_overhang=overhang)


def _points(batch: Batch, part: str) -> list[Step]:
    """Point loads of one load case: whole on one outrigger, or by the marks of a layout."""
    found, mark = [], batch.mark
    for i, point in enumerate(batch.case.garage_roof.point):
        force = getattr(point, part)
        if force:
            how = "whole on one outrigger" if mark is None else "its part at this mark"
            note = f"point load from {point.source or 'a point'}, {how}"
            signed = -column(force) if part == "W_up" else column(force)
            signed = signed if mark is None else signed * column(mark.points[:, i])
            found.append(given("P", signed, "lb", "", note))
    return found


def not_sure(batch: Batch, shape: Geometry) -> OnLine | None:
    """What of the wall's and the point loads' dead load a mark of a layout has under one model of
    the plate and not under the other, upward: where dead load helps, the other's is sure. None
    where they agree, and without a layout. The roof's has the share of the wind that lifts it."""
    mark = batch.mark
    if mark is None:
        return None
    forces = [
        loads.weight_not_sure.step(
            q=batch.load("garage_wall.dead"),
            h_wall=batch.load("garage_wall.height"),
            s_plan=shape.plan_spacing,
            s_least=mark.least,
        )
    ]
    more = mark.points - mark.least_points
    for i, point in enumerate(batch.case.garage_roof.point):
        note = f"point load from {point.source or 'a point'}, its part that is not sure"
        forces.append(given("P", -column(point.D) * column(more[:, i]), "lb", "", note))
    forces = [force for force in forces if np.any(np.asarray(force.value) != 0)]
    return _on_line(None, mark.share, forces, ()) if forces else None


def load_line(
    batch: Batch,
    part: str,
    q: Array,
    share: Array,
    shape: Geometry,
    on_overhang: Step | None = None,
) -> OnLine:
    """One load case on the wall line."""
    roof = batch.case.garage_roof
    sign = -1.0 if part == "W_up" else 1.0
    line: Step | None = None
    others = _points(batch, part)
    if roof.bearing and roof.line is not None:
        amount = batch.load(f"garage_roof.line.{part}") * sign
        line = given("w_roof", amount, "lb/in", "", "line load as stated")
    elif roof.bearing:
        line = _roof_line(batch, q, on_overhang)
    if part == "D":
        weight = loads.wall_weight.step(
            q=batch.load("garage_wall.dead"),
            h_wall=batch.load("garage_wall.height"),
            s_plan=shape.plan_spacing,
        )
        others = [weight, *others]
    return _on_line(line, share, others, ())
