"""Each load case on the wall line of one outrigger: its line load, its force, its steps."""

from collections.abc import Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions.geometry import Geometry, column
from outrigger.actions.snow_lies import Lie
from outrigger.cases.batch import Batch
from outrigger.formula.formula import Step, given
from outrigger.formula.numbers import Array
from outrigger.loads import gravity as loads

HAIR_LB = 1e-6  # less than this is nothing


class OnLine(Struct, frozen=True, eq=False):
    """One part of the load on the wall line: what the roof brings, lb/in, None: nothing; all of it
    on one outrigger, lb, the steps that add up to it, and those before them."""

    w: Step | None
    P: Array
    totals: list[Step]
    before: Sequence[Step] = ()

    @property
    def line(self) -> Array:
        """What the roof brings, lb/in."""
        return column(0.0) if self.w is None else np.asarray(self.w.value)


def _on_line(w: Step | None, share: Array, others: list[Step], before: Sequence[Step]) -> OnLine:
    """A part from its line load, if it has one, and its other forces, lb."""
    forces = others if w is None else [loads.share_of_line.step(w_roof=w, l_share=share), *others]
    P = sum((np.asarray(force.value) for force in forces), column(0.0))
    if w is None:
        return OnLine(None, P, forces, before)
    return OnLine(w, P, [w, *forces], before)


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


def elsewhere(batch: Batch) -> dict[str, OnLine]:
    """Without a layout a point load stands on one outrigger, and holds no other of the row down:
    what to take off for those, of each point load that holds down more than it lifts."""
    if batch.case.layout is not None:
        return {}
    points = [point for point in batch.case.garage_roof.point if point.W_up < point.D]
    off = {"D_else": -sum(point.D for point in points), "W_else": sum(p.W_up for p in points)}
    note = "point loads stand on one outrigger alone"
    steps = {part: given("P", column(P), "lb", "", note) for part, P in off.items() if P}
    return {part: OnLine(None, np.asarray(step.value), [step]) for part, step in steps.items()}


def not_sure(batch: Batch, shape: Geometry, dead: OnLine, wind: OnLine) -> OnLine | None:
    """What a mark of a layout lacks of dead load, upward, where that helps: it has the larger share
    of both models of the plate of everything, and the weight that holds it down may be less in the
    model that lifts it most. None where neither has less, and without a layout.

    Wind up and dead load in the same proportion, as in ASD 0.6D + 0.6W. On the safe side in LRFD,
    where the wind counts for more, since no model has more of it than the larger share; without
    wind less is lacking, and the same with wind lifts more.
    """
    mark = batch.mark
    if mark is None or not mark.plates:
        return None
    net = dead.line + wind.line
    q, h = batch.load("garage_wall.dead"), batch.load("garage_wall.height")
    forces = [point.D - point.W_up for point in batch.case.garage_roof.point]

    def on_mark(symbol: str, l_share: Array, s_mark: Array, points: Array) -> Step:
        step = loads.net_on_mark.step(
            w_dead=dead.w or 0.0, w_wind=wind.w or 0.0, l_share=l_share,
            q=q, h_wall=h, s_mark=s_mark,
        )  # fmt: skip
        if forces:
            total = sum((P * points[:, i : i + 1] for i, P in enumerate(forces)), column(0.0))
            P_point = given("P_point", total, "lb", "", "its parts of the point loads")
            step = loads.net_with_points.step(
                P_line=replace(step, symbol="P_line"), P_point=P_point
            )
        return replace(step, symbol=symbol)

    breaks, runs = (
        on_mark(symbol, np.where(net < 0, one.most, one.least), one.carried, one.points)
        for symbol, one in zip(("P_breaks", "P_runs"), mark.plates, strict=True)
    )
    larger = on_mark("P_larger", mark.share, shape.plan_spacing, mark.points)
    less = loads.not_sure.step(P_breaks=breaks, P_runs=runs, P_larger=larger)
    P = np.asarray(less.value)
    return OnLine(None, P, [less]) if np.any(P < -HAIR_LB) else None


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
