"""Actions of whole load combinations, (cases, combinations), on one outrigger.

Superposition of the unfactored parts; where an edge without a tie would lift off a longer row of
hold-downs, the same row without the edge.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

import numpy as np

from outrigger.actions.axes import Acting
from outrigger.actions.geometry import Geometry
from outrigger.actions.loads import Loads
from outrigger.actions.places import EDGE, place_name, places
from outrigger.actions.response import Response, Stiffness, respond
from outrigger.actions.sums import Force, Set
from outrigger.cases.model import Case
from outrigger.formula.numbers import Array, Bools, greatest
from outrigger.loads.combinations import SNOW_CASES
from outrigger.statics import beam as statics
from outrigger.wood import lumber

_NONE = np.zeros((1, 1))
CRUSH_IN = 0.04  # crushing at the tabulated stress, NDS 2018 4.2.6


@dataclass(frozen=True, eq=False)
class Model:
    """What the statics of a case needs: its loads, parts and stiffness."""

    case: Case
    wood: lumber.Wood
    shape: Geometry
    loads: Loads
    parts: tuple[str, ...]
    stiff: Stiffness
    acting: Acting
    side: Stiffness  # bending across the member

    @property
    def supports(self) -> list[tuple[str, Array]]:
        """Every support, inner first."""
        return places(self.case)

    @property
    def tied(self) -> bool:
        """Whether a hold-down stands at the edge."""
        return any(place_name(h.at, self.case) == EDGE for h in self.case.hold_down)

    def respond(
        self, supports: list[tuple[str, Array]], springs: Array | float = np.inf
    ) -> Response:
        """Statics of the parts on some supports."""
        return respond(self.acting.square, self.shape, self.parts, self.stiff, supports, springs)

    @cached_property
    def whole(self) -> Response:
        """Every support holding both ways."""
        return self.respond(self.supports)

    @cached_property
    def sideways(self) -> Response | None:
        """What acts across the member, every support holding both ways; None: nothing does."""
        if self.acting.across is None:
            return None
        return respond(self.acting.across, self.shape, self.parts, self.side, self.supports)

    def table(self, by_part: Mapping[str, Array]) -> Array:
        """A column by part as (cases, parts)."""
        columns = [np.atleast_2d(by_part.get(part, _NONE)) for part in self.parts]
        return np.concatenate(np.broadcast_arrays(*columns), axis=1)

    @cached_property
    def lifted(self) -> Response | None:
        """The row of hold-downs without the edge; None where fewer than two are left."""
        inner = self.supports[:-1]
        return self.respond(inner) if len(inner) > 1 else None

    @cached_property
    def alone(self) -> dict[str, Response]:
        """Each hold-down as the only one beside the edge."""
        *inner, edge = self.supports
        return {name: self.respond([(name, x), edge]) for name, x in inner}

    @cached_property
    def nearest_two(self) -> Response | None:
        """The hold-down nearest the edge and the next inward, the edge lifted off."""
        inner = self.supports[:-1]
        return self.respond(inner[-2:]) if len(inner) > 1 else None

    def sprung(self, edge_stiffness: Array) -> list[Response]:
        """With every stated stiffness at 1/2, 1 and 2 times, the edge rigid and as a spring.

        Empty unless every hold-down states its stiffness. edge_stiffness lb/in, a column.
        """
        stated = {place_name(h.at, self.case): h for h in self.case.hold_down}
        names = [name for name, _ in self.supports[:-1]]
        if not names or not all(n in stated and stated[n].stiffness for n in names):
            return []
        k = [float(stated[n].stiffness or 0.0) * stated[n].count for n in names]
        found = []
        for times in (0.5, 1.0, 2.0):
            for edge in (np.full_like(edge_stiffness, np.inf), edge_stiffness):
                row = [np.full_like(edge, times * one) for one in k]
                springs = np.concatenate([*row, edge], axis=1)
                found.append(self.respond(self.supports, springs if len(edge) > 1 else springs[0]))
        return found


@dataclass(frozen=True, eq=False)
class Combined:
    """Actions of the combinations of one set, (cases, combinations); what is not asked for is not
    worked out.

    R lb, M lb-in at the supports (inner first); lifts: cells where the edge lifts off and the row
    of hold-downs holds without it; edge_stiffness lb/in, a column.
    """

    model: Model
    set: Set
    edge_stiffness: Array
    R: list[Array]
    M: list[Array]
    lifts: Bools

    @cached_property
    def R_edge(self) -> Array:
        """Push at the edge, lb, with the row of hold-downs sharing or the nearest of them alone,
        whichever is more: how a row shares is not known."""
        supports = self.model.supports
        if len(supports) == 2:
            return self.R[-1]
        nearest = self.set.combine(self.model.alone[supports[-2][0]].R[-1])
        return np.where(self.lifts, self.R[-1], np.maximum(self.R[-1], nearest))

    @cached_property
    def V_arm(self) -> Array:
        """Shear on the arm at the edge, lb."""
        return self.set.combine(self.model.whole.V_arm)

    @cached_property
    def V_house(self) -> Array:
        """Shear on the house side of the edge, lb."""
        return np.where(self.lifts, 0.0, self.R_edge - self.V_arm)

    @cached_property
    def w_back(self) -> Array:
        """Load on the back span, lb/in."""
        return self.set.combine(self.model.whole.w_back)

    @cached_property
    def side(self) -> "Sideways":
        """Forces along and across the member."""
        return sideways(self.model, self.set)

    @property
    def held(self) -> list[str]:
        """Places whose uplift a hold-down has to hold, inner first; the edge where it is tied."""
        names = [name for name, _ in self.model.supports]
        return names if self.model.tied else names[:-1]

    @cached_property
    def uplift(self) -> dict[str, Array]:
        """Uplift of each place that is held, lb; 0 where it is pushed down."""
        found = _uplift(self)
        return found | {EDGE: _upward(self.R[-1])} if self.model.tied else found

    def pull(self, place: str) -> Force:
        """The same of one place: the largest under each CD or lambda."""
        if len(self.model.supports) > 2:
            return self.set.push(self.uplift[place])
        return self.set.pull(self.R[-1 if place == EDGE else 0])

    @cached_property
    def no_tie(self) -> Array | None:
        """Uplift at the edge, lb, that a missing tie would have to carry; None: there is a tie, or
        a row of hold-downs holds without it."""
        row = self.model.lifted is not None
        return None if self.model.tied or row else _upward(self.R[-1])


@dataclass(frozen=True, eq=False)
class Sideways:
    """Forces along and across the member in the combinations of a set.

    N_arm lb, in the arm at the edge, and N_all lb, with the back span's: outward positive;
    couple_edge lb-in, what the edge adds to the moment there. R_across lb by support, what holds
    the member against sliding down the slope; V_across lb and M_across lb-in at the edge, on the
    arm; M_back, V_back the largest of the back span. None: nothing acts so.
    """

    N_arm: Array | None = None
    N_all: Array | None = None
    couple_edge: Array | None = None
    R_across: list[Array] | None = None
    V_across: Array | None = None
    M_across: Array | None = None
    M_back: Array | None = None
    V_back: Array | None = None


def sideways(model: Model, over: Set) -> Sideways:
    """Forces along and across in every combination of a set."""
    on, found = model.acting, Sideways()
    if on.on_arm or on.on_back:
        arm, back = (over.combine(model.table(by)) for by in (on.on_arm, on.on_back))
        edge = over.combine(model.table(on.square.couple_edge))
        found = replace(found, N_arm=arm, N_all=arm + back, couple_edge=edge)
    across = model.sideways
    if across is not None:
        M, w = [over.combine(m) for m in across.M], over.combine(across.w_back)
        x = [at for _, at in model.supports]
        spans = [
            _even(b - a, *pair, w) for (a, b), pair in zip(pairwise(x), pairwise(M), strict=True)
        ]
        found = replace(
            found,
            R_across=_row_across(model, over, across),
            V_across=over.combine(across.V_arm),
            M_across=M[-1],
            M_back=_larger_size(*(s.M_inside for s in spans), *M[:-1]),
            V_back=_larger_size(*(v for s in spans for v in (s.V_inner, s.V_outer))),
        )
    return found


def _larger_size(*tables: Array) -> Array:
    return np.asarray(greatest(*map(np.abs, tables)))


def _row_across(model: Model, over: Set, whole: Response) -> list[Array]:
    """Reactions across, lb; how a row of three or more shares is not known: the larger of its part
    and what each would hold as the only one beside the edge, the edge what it holds then."""
    R = [over.combine(r) for r in whole.R]
    *inner, edge = model.supports
    if len(inner) < 2 or model.acting.across is None:
        return R
    on, shape, parts, stiff = model.acting.across, model.shape, model.parts, model.side
    for i, one in enumerate(inner):
        alone = [over.combine(r) for r in respond(on, shape, parts, stiff, [one, edge]).R]
        for at, value in ((i, alone[0]), (len(inner), alone[1])):
            R[at] = np.where(np.abs(value) > np.abs(R[at]), value, R[at])
    return R


def combine(model: Model, over: Set, edge_stiffness: Array) -> Combined:
    """The actions of every combination of a set."""
    R = [over.combine(r) for r in model.whole.R]
    M = [over.combine(m) for m in model.whole.M]
    lifts = np.zeros((1, 1), dtype=bool)
    if not model.tied and model.lifted is not None:
        lifts = R[-1] < 0
        free_R = [*(over.combine(r) for r in model.lifted.R), np.zeros_like(R[-1])]
        free_M = [over.combine(m) for m in model.lifted.M]
        R = [np.where(lifts, free, held) for free, held in zip(free_R, R, strict=True)]
        # the moment at the edge follows from the arm alone, whatever the supports
        M = [np.where(lifts, f, h) for f, h in zip([*free_M, M[-1]], M, strict=True)]
    return Combined(model, over, edge_stiffness, R, M, lifts)


def _upward(R: Array) -> Array:
    """What a place pulls up, lb; 0 where it is pushed down."""
    pull = -R
    return np.asarray(np.maximum(pull, 0.0, out=pull))


def _uplift(on: Combined) -> dict[str, Array]:
    """Uplift demand at each hold-down inside the edge.

    The larger of the row as it stands and the hold-down as the only one (edge pressed), or, where
    the edge lifts off, the nearest with the next inward. With stated stiffness the spring results
    replace the second value.
    """
    model, over, lifts = on.model, on.set, on.lifts
    names = [name for name, _ in model.supports[:-1]]
    demand = {n: _upward(r) for n, r in zip(names, on.R, strict=False)}
    if len(names) < 2:
        return demand
    sprung = model.sprung(on.edge_stiffness)
    if sprung:
        for response in sprung:
            for name, r in zip(names, response.R, strict=False):
                demand[name] = np.maximum(demand[name], -over.combine(r))
        return demand
    for name in names:
        one = model.alone[name]
        pressed = over.combine(one.R[-1]) >= 0
        alone = np.where(pressed & ~lifts, -over.combine(one.R[0]), 0.0)
        demand[name] = np.maximum(demand[name], alone)
    if model.nearest_two is not None:
        nearest = names[-1]
        pull = np.where(lifts, -over.combine(model.nearest_two.R[-1]), 0.0)
        demand[nearest] = np.maximum(demand[nearest], pull)
    return demand


@dataclass(frozen=True, eq=False)
class Span:
    """One stretch of back span between supports, (cases, combinations): length in, shears lb at
    its inner and outer end, and the moment lb-in where shear is zero inside it (else 0)."""

    length: Array
    V_inner: Array
    V_outer: Array
    M_inside: Array


def spans(model: Model, actions: Combined) -> list[Span]:
    """The stretches of the back span, inner first: end moments and an even load between them."""
    found = []
    over = actions.set
    drifted = {part: peak != 0 for part, (peak, _) in model.acting.square.house.items()}
    for i in range(len(model.supports) - 1):
        length = model.supports[i + 1][1] - model.supports[i][1]
        span = _even(length, actions.M[i], actions.M[i + 1], actions.w_back)
        if drifted:
            loaded = over.factors[:, [over.parts.index(part) for part in drifted]] != 0
            here = [p & with_it for p, with_it in zip(drifted.values(), loaded.T, strict=True)]
            span = _worse(span, _uneven(model, over, i, length), np.any(here, axis=0))
        found.append(span)
    return found


def _even(length: Array, M_i: Array, M_o: Array, w: Array) -> Span:
    """A stretch under an even load, from the moments at its ends."""
    even = w * (length / 2)
    V_i = (M_o - M_i) / length
    V_o = V_i - even
    V_i += even
    M = V_i * V_o
    turns = M < 0  # shear passes through zero inside, at V_i / w from the inner end
    np.multiply(V_i, V_i, out=M)  # M_i + V_i^2 / 2 w there, in place: these tables are large
    np.divide(M, w, out=M, where=turns)
    M /= 2
    M += M_i
    M *= turns
    return Span(length, V_i, V_o, M)


def _worse(one: Span, other: Span, uneven: Bools) -> Span:
    """The larger of each where the load is uneven: by places, and by the moments at the ends."""

    def larger(a: Array, b: Array) -> Array:
        return np.where(uneven & (np.abs(b) > np.abs(a)), b, a)

    return Span(
        one.length,
        larger(one.V_inner, other.V_inner),
        larger(one.V_outer, other.V_outer),
        larger(one.M_inside, other.M_inside),
    )


def _uneven(model: Model, over: Set, i: int, length: Array) -> Span:
    """A stretch under a load that is not even: shears at its ends, moment at places inside."""
    whole = model.whole
    assert whole.M_between is not None and whole.V_ends is not None
    inside = [over.combine(M) for M in (whole.M[i], *whole.M_between[i], whole.M[i + 1])]
    largest = np.zeros_like(inside[0])
    for before, M, after in zip(inside, inside[1:], inside[2:], strict=False):
        peak = (np.abs(M) >= np.abs(before)) & (np.abs(M) >= np.abs(after))  # not a mere slope
        largest = np.where(peak & (np.abs(M) > np.abs(largest)), M, largest)
    V_i, V_o = whole.V_ends[i]
    return Span(length, over.combine(V_i), over.combine(V_o), largest)


def unit_droop(model: Model) -> Array:
    """Droop at the wall line under 1 lb there, in, every support holding."""
    x = [np.broadcast_to(at[:, 0], model.shape.arm[:, 0].shape) for _, at in model.supports]
    shape, stiff = model.shape, model.stiff
    beam = statics.Beam(
        np.stack(np.broadcast_arrays(*x), axis=-1),
        stiff.EI_number,
        shape.house_end[:, 0],
        shape.end[:, 0],
        stiff.GA_number,
    )
    solved = statics.solve(beam, [statics.Point(shape.arm[:, 0], 1.0)])
    return solved.deflection(shape.arm[:, 0])


CASES = {
    "D": ("D", "D_back"), "L": ("L",), "Lr": ("Lr", "Lr_back"), "W_up": ("W_up", "W_back"),
    "W_down": ("W_down",), "H_away": ("H_away",), "H_toward": ("H_toward",), "A": ("A_one",),
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
    found, on = dict[str, dict[str, Array]](), model.acting
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
