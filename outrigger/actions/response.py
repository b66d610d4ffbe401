"""Statics of one outrigger: its stiffness, and what every unfactored part of the load does."""

from collections.abc import Callable, Mapping
from itertools import pairwise

import numpy as np
from msgspec import Struct

from outrigger.actions.geometry import Geometry
from outrigger.actions.loads import Loads
from outrigger.actions.places import EDGE
from outrigger.base.errors import InputError
from outrigger.cases.bounds import LEAST_APART_IN
from outrigger.formula.formula import Step
from outrigger.formula.numbers import Array
from outrigger.statics import beam as statics
from outrigger.wood import deflection, lumber, rectangle
from outrigger.wood.adjusted import Conditions, adjusted


class Response(Struct, frozen=True, eq=False):
    """Statics of the unfactored parts, (cases, parts), on one set of supports.

    M lb-in and R lb at the supports (inner first), w_back lb/in, V_arm lb just outside the edge,
    droop in at the wall line; `solution`: the beam itself, for its shape between; `loads`: what it
    carries, part by part.
    """

    names: tuple[str, ...]
    x: tuple[Array, ...]
    R: list[Array]
    M: list[Array]
    w_back: Array
    V_arm: Array
    V_wall: Array
    droop: Array
    solution: statics.Solution
    loads: tuple[statics.Load, ...] = ()


class Stiffness(Struct, frozen=True, eq=False):
    """EI lb-in2 and GA lb of the member, from E adjusted, with their steps."""

    EI: Step
    GA: Step

    @property
    def EI_number(self) -> float:
        """EI as a number, of the first case."""
        return float(np.ravel(self.EI.value)[0])

    @property
    def GA_number(self) -> float:
        """GA as a number, of the first case."""
        return float(np.ravel(self.GA.value)[0])

    @property
    def each(self) -> tuple[Array, Array]:
        """EI and GA of each case, (cases,), or (1,): their grades alone may tell them apart."""
        return np.ravel(self.EI.value), np.ravel(self.GA.value)


def stiffness(wood: lumber.Wood, conditions: Conditions, b: float, d: float) -> Stiffness:
    """Bending and shear stiffness, load along d."""
    E_true = deflection.true_modulus.step(E_adj=adjusted("E", wood, conditions, 1.0))
    inertia = rectangle.moment_of_inertia.step(b=b, d=d)
    G_v = deflection.rigidity.step(E_true=E_true)
    area = rectangle.area.step(b=b, d=d)
    return Stiffness(
        deflection.bending_stiffness.step(E_true=E_true, I=inertia),
        deflection.shear_stiffness.step(G_v=G_v, A=area),
    )


def respond(
    on: Loads,
    shape: Geometry,
    parts: tuple[str, ...],
    stiff: Stiffness,
    supports: list[tuple[str, Array]],
    springs: Array | float = np.inf,
) -> Response:
    """Statics of every part at once, on the given supports (inner first)."""
    cases = max(len(shape.arm), len(shape.back_span), len(shape.spacing), len(on.share))
    tables = (on.wall_line, on.strip, on.strip_ramp, on.back, on.couple_edge, on.couple_wall)
    cases = max(cases, *(len(amount) for by_part in tables for amount in by_part.values()))

    def spread(by_part: Mapping[str, Array]) -> Array:
        table = np.zeros((cases, len(parts)), order="F")
        for i, part in enumerate(parts):
            if part in by_part:
                table[:, i] = by_part[part][:, 0]
        return table

    for (inner_name, inner_x), (_, outer_x) in pairwise(supports):
        if np.any(outer_x - inner_x < LEAST_APART_IN):
            raise InputError(f"hold_down at {inner_name}: nearer than 1 in to the next place.")
    start, arm, end = (v[:, 0] for v in (shape.house_end, shape.arm, shape.end))
    x = [np.broadcast_to(at[:, 0], (cases,)) for _, at in supports]
    beam = statics.Beam(
        supports=np.stack(x, axis=-1),
        EI=stiff.each[0],
        start=start,
        end=end,
        GA=stiff.each[1],
        stiffness=springs,
    )
    back_start, edge = -shape.back_span[:, 0], 0.0
    weight = on.self_weight
    dead_strip = {"D": on.strip["D"] + weight}
    moving_strip = {part: q for part, q in on.strip.items() if part != "D"}
    inner = (shape.arm - on.covered)[:, 0]
    on_back, own = spread(on.back), spread({"D_back": weight, "D_own": weight})
    all_loads: list[statics.Load] = [
        statics.Point(arm, spread(on.wall_line)),
        statics.Point(end, spread({"worker": on.worker})),
        statics.Uniform(edge, end, spread(dead_strip)),
        statics.Uniform(edge, inner, spread(moving_strip)),
        statics.Uniform(arm, end, spread(moving_strip)),
        statics.Uniform(start, edge, own),
        statics.Uniform(back_start, edge, on_back),
    ]
    if on.couple_wall or on.couple_edge:
        all_loads.append(statics.Couple(arm, spread(on.couple_wall)))
        all_loads.append(statics.Couple(edge, spread(on.couple_edge)))
    if on.strip_ramp:
        all_loads.append(statics.Ramp(shape.face[:, 0], end, spread(on.strip_ramp)))
        if np.any(on.covered > 0):
            all_loads += _under_overhang(on, shape, spread)
    for part, (peak, width) in on.house.items():
        all_loads += _drift_on_house(part, peak, width, shape, spread)
    for part, (q, width) in on.shed.items():
        inner = np.maximum(shape.arm - width, -shape.back_span)[:, 0]
        all_loads.append(statics.Uniform(inner, arm, spread({part: q})))
    solved = statics.solve(beam, all_loads)
    # what lies on the back span alone gives the arm nothing: exactly nothing, no round-off
    beyond = np.array([part not in (*on.back, "D_back", "D_own") for part in parts])
    moments = [solved.moment(at, "left") for at in x]
    if supports[-1][0] == EDGE:
        moments[-1] = moments[-1] * (beyond | [part in on.couple_edge for part in parts])
    n = len(supports)
    return Response(
        names=tuple(name for name, _ in supports),
        x=tuple(at for _, at in supports),
        R=[solved.reactions[..., i] for i in range(n)],
        M=moments,
        w_back=on_back + own + spread({part: on.shed_behind(part, shape) for part in on.shed}),
        V_arm=solved.shear(edge, "right") * beyond,
        V_wall=solved.shear(arm, "left") * beyond,
        droop=solved.deflection(arm),
        solution=solved,
        loads=tuple(all_loads),
    )


def _under_overhang(on: Loads, shape: Geometry, spread: Callable[..., Array]) -> list[statics.Load]:
    """What the strip's drift gains where the roof's overhang covers it, taken off again."""
    start, at_start, at_arm = covered_gain(on, shape)
    gone = {part: -gain for part, gain in on.strip_ramp.items()}
    x, arm = (np.broadcast_to(v[:, 0], (len(start),)) for v in (start, shape.arm))
    return [
        statics.Uniform(x, arm, spread({part: q * at_start for part, q in gone.items()})),
        statics.Ramp(x, arm, spread({part: q * (at_arm - at_start) for part, q in gone.items()})),
    ]


def covered_gain(on: Loads, shape: Geometry) -> tuple[Array, Array, Array]:
    """Where the overhang's cover begins past the house face, x in, and the share of its whole gain
    that the strip's drift has there and at the wall line; 0 and 0 where nothing is covered."""
    start = np.maximum(shape.arm - on.covered, shape.face)
    reach, none = shape.end - shape.face, on.covered <= 0
    shares = [np.where(none, 0.0, (x - shape.face) / reach) for x in (start, shape.arm)]
    return start, shares[0], shares[1]


def _drift_on_house(
    part: str, peak: Array, width: Array, shape: Geometry, spread: Callable[..., Array]
) -> list[statics.Load]:
    """A drift with its peak at the garage wall, falling toward the house to the back."""
    arm, back = shape.arm, -shape.back_span
    start = np.maximum(arm - width, back)
    left = peak * (1 - (arm - start) / np.where(width > 0, width, np.inf))
    at, to = (np.broadcast_to(v[:, 0], (max(len(start), len(arm)),)) for v in (start, arm))
    return [
        statics.Uniform(at, to, spread({part: left})),
        statics.Ramp(at, to, spread({part: peak - left})),
    ]
