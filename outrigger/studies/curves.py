"""What a calculation summary shows of a design beyond its checks.

Unfactored loads in one table, the curves of shear, moment and droop at the combinations that
govern, and the same beam solved in exact fractions. Of the first case of a design.
"""

import numpy as np
from msgspec import Struct

from outrigger.actions.places import EDGE, WALL_LINE
from outrigger.actions.response import Response
from outrigger.checks.movement import TOTAL, transient, with_dead
from outrigger.formula.numbers import Array, pick
from outrigger.statics import beam as statics
from outrigger.statics.exact import Load, exact_beam
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.wood.bending import IN_BENDING

SAMPLES = 240  # points along the member
BESIDE_IN = 1e-6  # either side of a jump


def _first(value: Array | float) -> float:
    return float(np.ravel(value)[0])


class Curve(Struct, frozen=True, eq=False):
    """One quantity along the member, and its values at the places that matter."""

    values: Array
    marks: tuple[tuple[str, float, float], ...]  # place, x in, value


class Curves(Struct, frozen=True, eq=False):
    """Shear lb and moment lb-in in one combination, droop in in another, along x in."""

    x: Array
    supports: tuple[tuple[str, float], ...]
    V: Curve
    M: Curve
    droop: Curve
    strength: CheckResult
    service: CheckResult


def curves(design: Design) -> Curves:
    """Shear and moment where bending at the edge governs, droop where the total droop does.

    Every support holds both ways; of a sloped member what acts square to the sheathing.
    """
    bending = next(r for r in design.rows if r.check.link == IN_BENDING and r.check.place == EDGE)
    total = next(r for r in design.rows if r.check.link == TOTAL)
    whole, over = design.model.whole, design.main.combinations
    arm, end = (pick(v) for v in (design.shape.arm, design.shape.end))
    start = pick(design.shape.house_end)
    supports = [(n, _first(x)) for n, x in zip(whole.names, whole.x, strict=True)]
    jumps = [x for _, x in supports] + [arm]
    sides = [x + side for x in jumps for side in (-BESIDE_IN, BESIDE_IN)]
    x = np.unique(np.clip([*np.linspace(start, end, SAMPLES), *sides], start, end))
    solution = whole.solution

    def strength(amounts: Array) -> Array:
        return np.asarray(over.combine(amounts)[:, bending.column])

    V, M = strength(solution.shear(x)), strength(solution.moment(x))
    droop = _droop(design, whole, total, solution.deflection(x))
    places = [*supports, (WALL_LINE, arm)]
    shears = [
        (name, at, float(strength(solution.shear(np.array([at]), side))[0]))
        for name, at in places
        for side in _sides(name, supports)
    ]
    moments = [
        (n, at, float(strength(solution.moment(np.array([at]), "left"))[0])) for n, at in places
    ]
    drops = [
        (name, at, float(_droop(design, whole, total, solution.deflection(np.array([at])))[0]))
        for name, at in ((WALL_LINE, arm), ("end", end))
    ]
    inside = (x > supports[0][1]) & (x < 0)
    for values, marks in ((M, moments), (droop, drops)):
        top = int(np.argmax(np.where(inside, np.abs(values), -1)))
        if top > 0 and inside[top - 1] and inside[min(top + 1, len(x) - 1)]:
            marks.append(("back span", float(x[top]), float(values[top])))
    return Curves(
        x=x,
        supports=tuple(supports),
        V=Curve(V, tuple(shears)),
        M=Curve(M, tuple(moments)),
        droop=Curve(droop, tuple(drops)),
        strength=bending,
        service=total,
    )


def _sides(name: str, supports: list[tuple[str, float]]) -> tuple[statics.Side, ...]:
    """The sides of a place that are worth a value: both, but one at the wall line."""
    return ("left", "right") if name in dict(supports) else ("left",)


def _droop(design: Design, whole: Response, row: CheckResult, amounts: Array) -> Array:
    """Total droop in a service combination, creep on its long-term part."""
    rows = with_dead(transient(design.member))
    service = rows[row.column]
    K_cr = pick(design.member.creep.value)
    parts = design.model.parts
    factors = [K_cr * service.long.get(p, 0.0) + service.short.get(p, 0.0) for p in parts]
    return np.asarray(np.sum(amounts * np.array(factors), axis=1))


class Compared(Struct, frozen=True):
    """A number of the program beside the one of the beam solved in exact fractions."""

    what: str
    unit: str
    here: float
    exact: float

    @property
    def off(self) -> float:
        """Their difference as a part of the exact one."""
        return abs(self.here - self.exact) / max(abs(self.exact), 1e-12)


def independent(design: Design, drawn: Curves) -> list[Compared]:
    """The beam of the curves in exact fractions: reactions, moment at the edge, droop."""
    whole, over, parts = design.model.whole, design.main.combinations, design.model.parts
    stiff = design.model.stiff
    rows = with_dead(transient(design.member))
    service = rows[drawn.service.column]
    K_cr = pick(design.member.creep.value)
    strength = {
        p: float(f) for p, f in zip(parts, over.factors[drawn.strength.column], strict=True)
    }
    droop = {p: K_cr * service.long.get(p, 0.0) + service.short.get(p, 0.0) for p in parts}
    arm = pick(design.shape.arm)
    x = [at for _, at in drawn.supports]
    found: list[Compared] = []
    for factors, wanted in ((strength, "strength"), (droop, "droop")):
        loads = [
            Load(kind, at, to, size)
            for kind, at, to, sizes in _plain(whole.loads)
            if (size := sum(float(s) * factors[p] for s, p in zip(sizes, parts, strict=True)))
        ]
        exact = exact_beam(x, loads, stiff.EI_number, stiff.GA_number, arm)
        if wanted == "droop":
            here = next(v for name, _, v in drawn.droop.marks if name == WALL_LINE)
            found.append(Compared("droop at the garage wall", "in", here, exact.deflection))
            continue
        moment = next(v for name, _, v in drawn.M.marks if name == EDGE)
        found.append(Compared("moment at the house wall", "lb-in", moment, exact.moment))
        for i, (name, _) in enumerate(drawn.supports):
            here = float(over.combine(whole.R[i])[0, drawn.strength.column])
            found.append(Compared(name, "lb", here, exact.reactions[i]))
    return found


def _plain(loads: tuple[statics.Load, ...]) -> list[tuple[str, float, float, Array]]:
    """Kind, start, end and size by part of each load of the first case."""
    found = []
    for load in loads:
        match load:
            case statics.Point(at=at, force=size):
                row = ("point", at, at, size)
            case statics.Couple(at=at, moment=size):
                row = ("couple", at, at, size)
            case statics.Uniform(start=at, end=to, load=size):
                row = ("even", at, to, size)
            case statics.Ramp(start=at, end=to, load=size):
                row = ("growing", at, to, size)
        kind, at, to, size = row
        ends = (float(np.ravel(v)[0]) for v in (at, to))
        found.append((kind, *ends, np.atleast_2d(np.asarray(size))[0]))
    return found
