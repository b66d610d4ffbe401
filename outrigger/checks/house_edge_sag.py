"""Deflection of the member under the outriggers, by itself. NDS 2018 3.5, statics."""

from collections.abc import Mapping
from functools import cache, lru_cache
from typing import NamedTuple

import numpy as np
from msgspec.structs import replace

from outrigger.actions.carried import added, terms
from outrigger.actions.places import BACK, EDGE
from outrigger.actions.sums import summed
from outrigger.cases.below import RAFTER
from outrigger.checks.house_edge import EdgeMember
from outrigger.checks.movement import HELPING_DEAD, Services, transient, with_dead
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Array, Num
from outrigger.loads.parts import SNOW_CASES
from outrigger.statics import beam as statics
from outrigger.wood import deflection, rectangle
from outrigger.wood.adjusted import adjusted

LIVE_CASES = ("L", "Lr", "S", "W_up", "W_down")


class Load(NamedTuple):
    """Of one outrigger, lb; along the member, lb/in; the factor of each load case of that."""

    one: Array
    own: Array
    factors: Mapping[str, Array]


class BothWays(NamedTuple):
    """What presses the member, and what lifts it, negative."""

    down: Load
    up: Load


@formula("D_ST", "in", clause="statics: at mid-span, E as tabulated")
def deflection_of_row(R_one: Num, c_row: Num, w_beam: Num, l_beam: Num, EI: Num) -> Num:
    """Deflection under a row of loads, and under what lies there evenly."""
    return R_one * c_row + 5 * w_beam * l_beam**4 / (384 * EI)


def deflections(below: EdgeMember) -> list[Check]:
    """Deflection at mid-span, live and with dead load, by the limits of the job. NDS 2018 3.5."""
    member, edge = below.member, below.edge
    EI = _stiffness(below)
    unit = _unit_row(below, float(np.asarray(EI.value).ravel()[0]))
    c = given("c_row", unit, "in/lb", "statics", "by 1 lb of each outrigger at the worst place")
    K_cr = deflection.creep_factor(edge.moisture == "wet", member.case.outrigger.seasoned)
    live = transient(member, _parts(below))
    limits, rows = member.case.limits, list[Check]()
    for said, services, limit in (
        ("live", live, limits.live_deflection),
        ("total", with_dead(live), limits.total_deflection),
    ):
        if not services:
            continue
        long, short = _terms(below, services, c, EI, float(np.asarray(K_cr.value).ravel()[0]))
        check = deflection.deflection(
            link=below.link(f"{said} deflection"),
            place=below.at or BACK,
            long_term=long,
            short_term=short,
            K_cr=K_cr,
            span=edge.span,
            limit=limit,
        )
        rows.append(replace(check, combinations=services))
    return rows


def _stiffness(below: EdgeMember) -> Step:
    """EI by the tabulated E, which holds the deflection of shear already."""
    E_adj = adjusted("E", below.wood, below.conditions, 1.0)
    inertia = rectangle.moment_of_inertia.step(b=below.b, d=below.d)
    return deflection.bending_stiffness.step(E_true=replace(E_adj, symbol="E_true"), I=inertia)


def _parts(below: EdgeMember) -> tuple[str, ...]:
    """The parts of the load, and those that only the member carries."""
    parts = below.member.model.parts
    known = {part.removesuffix("_back") for part in parts}
    known |= {"S"} & {part.partition("_")[0] for part in parts}
    return (*parts, *(case for case in LIVE_CASES if case in below.lines and case not in known))


def _terms(
    below: EdgeMember, services: Services, c: Step, EI: Step, K_cr: float
) -> tuple[Step, Step]:
    """Long and short term of every service row, pressed or lifted: whichever is more in all."""
    long, short = (_service(below, services, term) for term in ("long", "short"))

    def alone(load: Load) -> Array:
        R = load.one / below.member.model.shape.tilt.cos
        return np.asarray(deflection_of_row(R, c.value, load.own, below.edge.span, EI.value))

    helps = alone(long.up) > 0  # while it is lifted
    lifted = K_cr * np.where(helps, 0.0, -alone(long.up)) - alone(short.up) > K_cr * alone(
        long.down
    ) + alone(short.down)

    def step(load: BothWays) -> Step:
        down, up = load
        R, own = np.where(lifted, up.one, down.one), np.where(lifted, up.own, down.own)
        sum_ = terms(below.lines, lifted, up.factors, down.factors)
        return deflection_of_row.step(
            R_one=below.vertical(R, "at the edge, service"),
            c_row=c,
            w_beam=given("w_beam", own, "lb/in", "", below.said, terms=sum_),
            l_beam=below.edge.span,
            EI=EI,
        )

    of_long = step(long)
    value = np.where(lifted & helps, 0.0, of_long.value)
    return replace(of_long, symbol="D_LT", value=value), step(short)


def _service(below: EdgeMember, rows: Services, term: str) -> BothWays:
    """What stands on it, lb, and what the member carries, lb/in, in each service row: what presses,
    all of it; what lifts, with no more of its own than wind and the dead load that is sure."""
    model, lines, none = below.member.model, below.lines, np.zeros((1, 1))

    def of(case: str, *parts: str) -> Array:
        """The largest factor of any of the parts, (1, rows)."""
        most: Array = _factors((case, *parts), rows, term).max(axis=1)[None, :]
        return most

    factors = _factors(model.parts, rows, term)
    places = dict(zip(model.whole.names, model.whole.R, strict=True))
    on = [summed(places[below.at], factors) if below.at in places else none]
    if below.at == EDGE and len(model.supports) > 2:  # the nearest hold-down alone, where more
        alone = summed(model.alone[model.supports[-2][0]].R[-1], factors)
        on = [np.where(np.abs(alone) > np.abs(on[0]), alone, on[0])]
    if below.edge.kind == RAFTER:  # its other places too, no more than at mid-span
        on += [summed(R, factors) for name, R in places.items() if name not in (EDGE, below.at)]
    press = {"D": of("D"), "S": of("S", *SNOW_CASES, "S_back"), "Lr": of("Lr", "Lr_back")}
    press |= {case: of(case) for case in ("L", "W_down", "S_house", "S_shed")}
    lift = {"D": HELPING_DEAD * of("D"), "W_up": -of("W_up", "W_back")}
    pushed = below.pieces * sum((np.maximum(R, 0.0) for R in on), none)
    pulled = below.pieces * sum((np.minimum(R, 0.0) for R in on), none)
    return BothWays(
        down=Load(pushed, added(press, lines), press), up=Load(pulled, added(lift, lines), lift)
    )


@cache  # once for all batches: a tenth of a small one's time
def _factors(parts: tuple[str, ...], rows: Services, term: str) -> Array:
    """Factors of some parts in one term of each row, (rows, parts)."""
    return np.array([[getattr(row, term).get(part, 0.0) for part in parts] for row in rows])


def _unit_row(below: EdgeMember, EI: float) -> Array:
    """Mid-span deflection by 1 lb of every outrigger on the span, in/lb: one of them at mid-span,
    or two astride it; of a rafter by one at mid-span. By the beam itself."""
    if below.edge.kind == RAFTER:
        return _by_middle(below.edge.span, EI).deflection(below.edge.span / 2)
    each, at = np.unique(below.spacing, return_inverse=True)
    return _row(below.edge.span, EI, tuple(each.tolist()))[at.ravel()]


@lru_cache(64)  # once for all batches that stand alike: a twelfth of a small one's time
def _row(span: float, EI: float, each: tuple[float, ...]) -> Array:
    """The worse of the two, of each spacing."""
    apart = np.array(each)[:, None]
    reach = int(np.ceil(span / each[0])) + 1
    odd, even = np.arange(-reach, reach + 1), np.arange(-reach, reach) + 0.5
    return np.maximum(*(_sum(span, EI, span / 2 + k * apart) for k in (odd, even)))


def _sum(span: float, EI: float, places: Array) -> Array:
    """By those of some places that are on the span, (cases, places) to (cases, 1)."""
    here = _by_middle(span, EI).deflection(np.clip(places, 0.0, span).ravel())
    on = np.where((places > 0) & (places < span), here.reshape(places.shape), 0.0)
    return np.add.accumulate(on, axis=1)[:, -1:]  # in order, whatever the number of places


@lru_cache(64)
def _by_middle(span: float, EI: float) -> statics.Solution:
    """Under 1 lb at mid-span, which gives anywhere what 1 lb there gives at mid-span: Maxwell's
    theorem of reciprocal deflections."""
    beam = statics.Beam(supports=[0.0, span], EI=EI, start=0.0, end=span)
    return statics.solve(beam, [statics.Point(span / 2, 1.0)])
