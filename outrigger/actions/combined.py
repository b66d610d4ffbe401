"""Actions of whole load combinations, (cases, combinations), on one outrigger.

Superposition of the unfactored parts; where an edge without a tie would lift off a longer row of
hold-downs, the same row without the edge.
"""

from functools import cached_property

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions.model import Model
from outrigger.actions.places import EDGE
from outrigger.actions.response import Response, respond
from outrigger.actions.spans import BackSpan, Solved, back_span
from outrigger.actions.sums import Combinations
from outrigger.formula.numbers import Array, Bools, greatest


class Combined(Struct, frozen=True, eq=False, dict=True):
    """Actions of the combinations of one set, (cases, combinations); what is not asked for is not
    worked out.

    R lb, M lb-in at the supports (inner first); lifts: cells where the edge lifts off and the row
    of hold-downs holds without it; edge_stiffness lb/in, a column.
    """

    model: Model
    combinations: Combinations
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
        nearest = self.combinations.combine(self.model.alone[supports[-2][0]].R[-1])
        return np.where(self.lifts, self.R[-1], np.maximum(self.R[-1], nearest))

    @cached_property
    def V_arm(self) -> Array:
        """Shear on the arm at the edge, lb."""
        return self.combinations.combine(self.model.whole.V_arm)

    @cached_property
    def V_house(self) -> Array:
        """Shear on the house side of the edge, lb, the larger of a push there and of its tie's
        pull."""
        pushed = np.where(self.lifts, 0.0, self.R_edge - self.V_arm)
        if not self.model.tied:
            return pushed
        pull = self.edge_pull
        pulled = np.where(pull > 0, -pull - self.V_arm, 0.0)
        return np.where(np.abs(pulled) > np.abs(pushed), pulled, pushed)

    @cached_property
    def edge_pull(self) -> Array:
        """Uplift at an edge that is tied, lb: of the rigid row, or about the next hold-down inward
        with nothing from behind it, whichever is more.

        The rigid row lets the member bear far inward too, at the back, which little give near the
        edge undoes; the next hold-down bears then, and what lies behind it is borne there.
        """
        rigid = _upward(self.R[-1])
        if len(self.model.supports) == 2:
            return rigid
        name, x = self.model.supports[-2]
        beside = self.model.alone[name]
        R_edge, M_inner = (self.combinations.combine(v) for v in (beside.R[-1], beside.M[0]))
        return np.maximum(rigid, _upward(R_edge + M_inner / x))

    @cached_property
    def w_back(self) -> Array:
        """Load on the back span, lb/in."""
        return self.combinations.combine(self.model.whole.w_back)

    @cached_property
    def side(self) -> "SideForces":
        """Forces along and across the member."""
        return side_forces(self.model, self.combinations)

    @cached_property
    def back_span(self) -> BackSpan:
        """The back span, square to the sheathing."""
        model = self.model
        free = model.lifted if np.any(self.lifts) else None
        x = [at for _, at in model.supports]
        solved = Solved(x, self.combinations, model.whole, free, self.lifts)
        return back_span(model.by_axis.square, solved, self.M)

    @cached_property
    def no_worker(self) -> "Combined | None":
        """The combinations that have the worker, of an outrigger beside the one that he stands on;
        None: none has him."""
        if not len(self.combinations.with_worker):
            return None
        return combine(self.model, self.combinations.without_worker(), self.edge_stiffness)

    def beside(self, force: Array, others: Array) -> Array:
        """A force of every outrigger of a row while one of them has the worker. `force`: as if each
        had him, in every combination; `others`: without him, in those that have him."""
        if force.shape[1] < len(self.combinations.all):  # nothing, the same in each of them
            return force
        found = force.copy()
        found[:, self.combinations.with_worker] = others
        return found

    @property
    def held(self) -> list[str]:
        """Places whose uplift a hold-down has to hold, inner first; the edge where it is tied."""
        names = [name for name, _ in self.model.supports]
        return names if self.model.tied else names[:-1]

    @cached_property
    def uplift(self) -> dict[str, Array]:
        """Uplift of each place that is held, lb; 0 where it is pushed down."""
        found = _uplift(self)
        return found | {EDGE: self.edge_pull} if self.model.tied else found

    @cached_property
    def push(self) -> dict[str, Array]:
        """Push down on each place, lb, 0 where it is pulled up: of the row, or of a hold-down as
        the only one beside the edge, whichever is more."""
        model, names = self.model, [name for name, _ in self.model.supports]
        found = {name: np.maximum(R, 0.0) for name, R in zip(names, self.R, strict=True)}
        if len(names) > 2:
            for name in names[:-1]:
                alone = self.combinations.combine(model.alone[name].R[0])
                found[name] = np.maximum(found[name], alone)
        return found | {EDGE: np.maximum(self.R_edge, 0.0)}

    @cached_property
    def no_tie(self) -> Array | None:
        """Uplift at the edge, lb, that a missing tie would have to carry; None: there is a tie, or
        a row of hold-downs holds without it."""
        row = self.model.lifted is not None
        return None if self.model.tied or row else _upward(self.R[-1])


class SideForces(Struct, frozen=True, eq=False):
    """Forces along and across the member in the combinations of a set.

    N_arm lb, in the arm at the edge, and N_all lb, with the back span's: outward positive;
    couple_edge lb-in, what the edge adds to the moment there. R_across lb by support, what holds
    the member against sliding down the slope; V_across lb and M_across lb-in at the edge, on the
    arm; `back`: the back span, V_back the largest shear there. None: nothing acts so.
    """

    N_arm: Array | None = None
    N_all: Array | None = None
    couple_edge: Array | None = None
    R_across: list[Array] | None = None
    V_across: Array | None = None
    M_across: Array | None = None
    back: BackSpan | None = None
    V_back: Array | None = None


def side_forces(model: Model, over: Combinations) -> SideForces:
    """Forces along and across in every combination of a set."""
    on, found = model.by_axis, SideForces()
    if on.on_arm or on.on_back:
        arm, inside = (over.combine(model.table(by)) for by in (on.on_arm, on.on_back))
        edge = over.combine(model.table(on.square.couple_edge))
        found = replace(found, N_arm=arm, N_all=arm + inside, couple_edge=edge)
    across = model.sideways
    if across is not None:
        M, never = [over.combine(m) for m in across.M], np.zeros((1, 1), dtype=bool)
        solved = Solved([at for _, at in model.supports], over, across, None, never)
        assert model.by_axis.across is not None
        back = back_span(model.by_axis.across, solved, M)
        found = replace(
            found,
            R_across=_row_across(model, over, across),
            V_across=over.combine(across.V_arm),
            M_across=M[-1],
            back=back,
            V_back=_larger_size(*(v for s in back.stretches for v in (s.V_inner, s.V_outer))),
        )
    return found


def _larger_size(*tables: Array) -> Array:
    return np.asarray(greatest(*map(np.abs, tables)))


def _row_across(model: Model, over: Combinations, whole: Response) -> list[Array]:
    """Reactions across, lb; how a row of three or more shares is not known: the larger of its part
    and what each would hold as the only one beside the edge, the edge what it holds then."""
    R = [over.combine(r) for r in whole.R]
    *inner, edge = model.supports
    if len(inner) < 2 or model.by_axis.across is None:
        return R
    on, shape, parts, stiff = model.by_axis.across, model.shape, model.parts, model.side
    for i, one in enumerate(inner):
        alone = [over.combine(r) for r in respond(on, shape, parts, stiff, [one, edge]).R]
        for at, value in ((i, alone[0]), (len(inner), alone[1])):
            R[at] = np.where(np.abs(value) > np.abs(R[at]), value, R[at])
    return R


def combine(model: Model, over: Combinations, edge_stiffness: Array) -> Combined:
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
    return Combined(
        model=model, combinations=over, edge_stiffness=edge_stiffness, R=R, M=M, lifts=lifts
    )


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
    model, over, lifts = on.model, on.combinations, on.lifts
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
