"""A member of the house under the outriggers, by itself. NDS 2018 chapter 3.

A span under the row of outriggers at its worst place, each with the push or the pull of one of its
places in every combination: bent as a simple span; what runs on over its supports loads them, and
is sheared beside them, as two equal spans do. With them what the member carries already: pressing
where it harms, and only sure dead load where it helps. Where a combination has the worker, one
outrigger of the row has him, at its own worst place, the others have not.
"""

from collections.abc import Callable, Mapping
from functools import cached_property
from typing import Literal

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from outrigger.actions.carried import Factors, factors_beside, terms
from outrigger.actions.combined import Combined, combine
from outrigger.actions.places import EDGE
from outrigger.base.units import plf
from outrigger.cases import one_snow
from outrigger.cases.below import CROSSING_MEMBER, RAFTER, TOP_PLATE, HouseEdge
from outrigger.checks.house_edge_load import (
    Brought,
    end_shear_of_rafter,
    moment_of_rafter,
    more_by_worker,
    more_by_worker_on_piece,
    of_a_pair,
    pushes,
    vertical,
)
from outrigger.checks.loaded_member import LoadedMember
from outrigger.formula.check import Check
from outrigger.formula.formula import Formula, Step, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array, Bools, Num, either
from outrigger.loads import row_of_loads as rows_of
from outrigger.wood import lumber
from outrigger.wood.adjusted import Conditions

HOUSE_EDGE = Kind("house_edge", "member below", stands_at=EDGE)
HOUSE_RAFTER = Kind("house_rafter", "house rafter")
Way = Literal["both", "down", "up"]
SAID: dict[Way, str] = {
    "both": "pushes down {}, or lifts where that is more",
    "down": "pushes down {}",
    "up": "the tie {} lifts",
}
END_BEARING_IN = 1.5  # of a header or a rafter, where it is not given: the least of the trade


class EdgeMember(Struct, frozen=True, eq=False, dict=True):
    """The member below and what it carries, lb and in, (cases, combinations).

    `listed`: in the ASD combinations, for listed values; `kind`: what its rows are; `at`: the place
    of the outriggers that stands on it, none of them where it is empty; `own`: what it carries
    already, lb/in by load case, where that is not stated of it.
    """

    member: LoadedMember
    edge: HouseEdge
    listed: bool = False
    kind: Kind = HOUSE_EDGE
    at: str = EDGE
    own: Mapping[str, Num] | None = None

    def link(self, what: str) -> Link:
        """One of its rows."""
        return Link(self.kind, what, what)

    @cached_property
    def wood(self) -> lumber.Wood:
        """Its lumber."""
        return lumber.wood(self.edge.species, self.edge.grade, self.edge.size)

    @property
    def flat(self) -> bool:
        """A plate lies flat."""
        return self.edge.kind == TOP_PLATE

    @property
    def runs_on(self) -> bool:
        """Whether it runs on over its supports: a plate over studs, what crosses bearings of its
        own; not what is hung or fastened between two."""
        edge = self.edge
        crosses = edge.kind == CROSSING_MEMBER and self.kind == HOUSE_EDGE
        fastened = edge.ends is not None and bool(edge.ends.fastener)
        return self.flat or (crosses and edge.end_bearing is not None and not fastened)

    @property
    def conditions(self) -> Conditions:
        """What its wood is used under: its own moisture, the job's temperature."""
        own = self.member.conditions
        return Conditions(
            own.method,
            wet=self.edge.moisture == "wet",
            temperature=own.temperature,
            flat=self.flat,
        )

    @property
    def b(self) -> float:
        """Breadth, all plies, in."""
        size = self.wood.size
        return (size.d if self.flat else size.b) * self.edge.plies

    @property
    def d(self) -> float:
        """Depth along the load, in."""
        return self.wood.size.b if self.flat else self.wood.size.d

    @cached_property
    def spacing(self) -> Array:
        """From one outrigger to the next, in, a pair taken as one: of a layout no more than the
        mark's own, nor with a point load on it than to the next."""
        batch = self.member.batch
        spacing = batch.column("outrigger.spacing")
        own = np.minimum(spacing, self.member.model.shape.spacing * batch.pieces)
        return np.where(self._crowded, spacing, np.minimum(own, self._near))

    @property
    def _near(self) -> Array:
        """To the next outrigger that may have half of a point load on both, in: of a layout with a
        point load; beyond any spacing where there is none."""
        batch = self.member.batch
        if batch.mark is None or not batch.case.garage_roof.point:
            return np.full((1, 1), np.inf)
        return batch.mark.near

    @property
    def _crowded(self) -> Bools:
        """Whether that one is nearer than half the spacing: it is taken to stand at the same
        place."""
        return np.asarray(self._near < self.member.batch.column("outrigger.spacing") / 2)

    @cached_property
    def pieces(self) -> Array:
        """How many outriggers stand at one place: both of a pair, and one that is crowded."""
        return self.member.batch.pieces + self._crowded

    @cached_property
    def lines(self) -> Mapping[str, Num]:
        """What it carries already by load case, lb/in; not given counts as none, and is asked."""
        stated = self.edge.carries
        if self.own is not None:
            return self.own
        if stated is None or isinstance(stated, str):
            return {}
        found = {case: getattr(stated, case) for case in type(stated).model_fields}
        lines: dict[str, Num] = {case: float(line) for case, line in found.items() if line}
        if "S" in lines:  # it moves with the snow
            lines["S"] = self.member.batch.column(one_snow.BELOW)
        return lines

    @cached_property
    def factors(self) -> Factors:
        """The combinations of the outriggers and of what the member carries, together."""
        wind = {"W"} if self.edge.stud is not None and self.edge.stud.wind else set[str]()
        cases = frozenset({*self.lines, *wind})
        return factors_beside(self.member.model, self._own.combinations, cases)

    @property
    def _own(self) -> Combined:
        return self.member.clips if self.listed else self.member.main

    @property
    def in_asd(self) -> "EdgeMember":
        """Itself in the ASD combinations, for listed values."""
        return self if self.member.clips is self.member.main else replace(self, listed=True)

    @cached_property
    def actions(self) -> Combined:
        """What the outrigger does in them."""
        own, over = self._own, self.factors.combinations
        if over is own.combinations:
            return own
        return combine(self.member.model, over, own.edge_stiffness)

    @property
    def times(self) -> Array:
        """CD or lambda of each."""
        return self.actions.combinations.times

    @cached_property
    def down(self) -> Brought:
        """What presses it."""
        return self._brought(pushes, self.factors.down(self.lines))

    @cached_property
    def up(self) -> Brought:
        """What lifts it."""
        return self._brought(lambda on: on.uplift, self.factors.up(self.lines))

    def _brought(self, of: Callable[[Combined], Mapping[str, Array]], own: Array) -> Brought:
        """Of its own place, and of the others but the edge; of a pair both pieces."""
        none, on, every = np.zeros((1, 1)), self.actions, of(self.actions)
        worker = edge = every.get(self.at, none)
        rest, more = none, None
        if self.edge.kind == RAFTER:
            rest = sum((F for name, F in every.items() if name not in (EDGE, self.at)), none)
        elif on.no_worker is not None:
            edge = on.beside(worker, of(on.no_worker).get(self.at, none))
        if edge is not worker:
            at = self.with_worker
            more = np.asarray(self._straight(np.maximum(worker[:, at] - edge[:, at], 0.0)).value)
        if self._paired:
            edge, rest = self.pieces * edge, self.pieces * rest
        R_one, R_rest = (np.asarray(self.vertical(F, "").value) for F in (edge, rest))
        return Brought(edge, rest, worker, own, R_one, R_rest, more)

    @cached_property
    def with_worker(self) -> NDArray[np.intp]:
        """The combinations that have the worker."""
        return self.actions.combinations.with_worker

    @cached_property
    def _paired(self) -> bool:
        return bool(np.any(self.pieces > 1))

    def vertical(self, force: Array, note: str, symbol: str = "R_one") -> Step:
        """A force square to the sheathing with what goes along it, straight down; `force` is of
        both pieces of a pair."""
        if not self._paired:
            return self._straight(force, note, symbol)
        n = given("n_pair", self.pieces, "", "", "they stand at one place")
        each = self._straight(force / self.pieces, note, "R_each")
        return replace(of_a_pair.step(R_each=each, n_pair=n), symbol=symbol)

    def _straight(self, force: Array, note: str = "", symbol: str = "R_one") -> Step:
        """The same of one outrigger, or of one piece of a pair."""
        tilt, found = self.member.model.shape.tilt, given(symbol, force, "lb", "statics", note)
        if tilt.way == "level":
            return found
        theta = given("theta_roof", tilt.theta, "deg", "", "slope of the house roof")
        return replace(vertical.step(R=replace(found, symbol="R"), theta_roof=theta), symbol=symbol)

    def worst(
        self,
        of: Formula,
        lengths: dict[str, Num | Step],
        way: Way = "both",
        more: Formula | None = None,
    ) -> Step:
        """A force of the member under its load, pressed or lifted: whichever is more, or one.
        `more`: with what the one outrigger of a row that has the worker brings more."""
        if (of, way) not in self._worst:
            self._worst[of, way] = self._worked(of, lengths, way, more)
        return self._worst[of, way]

    @cached_property
    def _worst(self) -> dict[tuple[Formula, Way], Step]:
        """The forces that were asked for: several rows ask for the same."""
        return {}

    def _worked(
        self, of: Formula, lengths: dict[str, Num | Step], way: Way, more: Formula | None
    ) -> Step:
        names = [name for name in of.arguments if name in ("R_one", "R_rest", "w_beam")]
        adds = None if more is None else more.adds
        numbers = lengths_of(lengths)

        def value(load: Brought) -> Array:
            found = {"R_one": load.R_one, "R_rest": load.R_rest, "w_beam": load.own}
            force = np.asarray(of(**numbers, **{name: found[name] for name in names}))
            if more is not None and adds is not None and load.R_more is not None:
                at = self.with_worker
                known = numbers | {adds[0]: force[:, at], adds[1]: load.R_more}
                force[:, at] = more(**{name: known[name] for name in more.arguments})
            return force

        if way == "both":
            up, down = value(self.up), value(self.down)
            lifted = up > down
            worst = either(lifted, up, down)
        else:
            load = self.up if way == "up" else self.down
            lifted, worst = np.full((1, 1), way == "up"), value(load)

        def row() -> dict[str, Num | Step]:
            said = SAID[way].format("at the edge" if self.at == EDGE else "there")
            one = self.vertical(either(lifted, self.up.edge, self.down.edge), said)
            steps = lengths | {"R_one": one, "w_beam": self.carried(lifted)}
            if "R_rest" in names:
                rest = either(lifted, self.up.rest, self.down.rest)
                steps["R_rest"] = self.vertical(rest, "its other places, the same way", "R_rest")
            return steps

        def whole() -> dict[str, Num | Step]:
            assert more is not None and adds is not None
            steps = row()
            steps[adds[0]] = replace(of.step(**steps), symbol=adds[0])
            steps[adds[1]] = self._more(steps["R_one"], lifted)
            return {name: steps[name] for name in more.arguments}

        loads = {"both": (self.up, self.down), "up": (self.up,), "down": (self.down,)}[way]
        if more is None or all(load.R_more is None for load in loads):
            return of.later(worst, row)
        return more.later(worst, whole)

    def _more(self, one: Num | Step, lifted: Bools) -> Step:
        """What the outrigger with the worker brings more than another, of a pair its one piece."""
        worker = either(lifted, self.up.worker, self.down.worker)
        his = self._straight(worker, "with the worker on it", "R_worker")
        if self._paired and isinstance(one, Step):
            found = more_by_worker_on_piece.step(R_worker=his, R_each=one.inputs["R_each"])
        else:
            found = more_by_worker.step(R_worker=his, R_one=one)
        return replace(found, value=np.maximum(found.value, 0.0), how=not_below_0)

    def carried(self, lifted: Bools) -> Step:
        """What it carries already, pressed or lifted."""
        own, on = either(lifted, self.up.own, self.down.own), self.factors
        sum_ = terms(self.lines, lifted, on.lifting, on.pressing)
        return given("w_beam", own, "lb/in", "", self.said, terms=sum_)

    @cached_property
    def said(self) -> str:
        """What it carries already, in words."""
        if not self.lines:
            return "nothing but the outriggers" if self.edge.carries else "not given"
        first = {case: plf(float(np.ravel(line)[0])) for case, line in self.lines.items()}
        return "factor x load, plf / 12: " + ", ".join(f"{c} {w:.4g}" for c, w in first.items())

    def row(self, check: Check) -> Check:
        """A row in its combinations."""
        return replace(check, combinations=self.actions.combinations.all)

    @cached_property
    def place(self) -> rows_of.Row:
        """How the row of outriggers stands on it."""
        return rows_of.worst_row(self.edge.span, self.spacing)

    def moment(self, way: Way = "both") -> Step:
        """Largest moment, lb-in."""
        edge = self.edge
        if edge.kind == RAFTER:
            return self.worst(moment_of_rafter, self.of_rafter, way)
        at = self.place
        return self.worst(
            rows_of.moment_of_row,
            {"n_row": at.n, "l_beam": edge.span, "e_row": at.e, "s_row": self.spacing,
             "q_row": at.q},
            way,
            rows_of.one_more_at_mid_span,
        )  # fmt: skip

    @property
    def of_rafter(self) -> dict[str, Num | Step]:
        """Where the edge bends a rafter most: at mid-span where it is not said."""
        stated = self.edge.edge_at
        x = given("x_at", self.edge.span / 2 if stated is None else stated, "in", "",
                  "not given: mid-span" if stated is None else "as stated")  # fmt: skip
        return {"x_at": x, "l_beam": self.edge.span}

    @property
    def of_rafter_end(self) -> dict[str, Num | Step]:
        """How near the edge stands to a bearing of a rafter: right on it where it is not said."""
        stated, span = self.edge.edge_at, self.edge.span
        near = 0.0 if stated is None else min(stated, span - stated)
        note = "not given: right at a bearing" if stated is None else "to its nearer bearing"
        return {"x_at": given("x_at", near, "in", "", note), "l_beam": span}

    @property
    def at_end(self) -> dict[str, Num | Step]:
        """How the row stands where one outrigger is right at an end."""
        return {"n_end": self.place.at_end, "s_row": self.spacing, "l_beam": self.edge.span}

    def end_shear(self, way: Way = "both") -> Step:
        """Largest shear at an end, lb."""
        if self.edge.kind == RAFTER:
            return self.worst(end_shear_of_rafter, self.of_rafter_end, way)
        of = rows_of.middle_shear_of_row if self.runs_on else rows_of.end_shear_of_row
        return self.worst(of, self.at_end, way, rows_of.one_more_beside_support)

    def on_support(self, way: Way) -> Step:
        """What one of its supports takes, lb: of two spans that run on over it, else of its own."""
        if not self.runs_on:
            return replace(self.end_shear(way), symbol="R")
        n, odd = rows_of.most_on_two_spans(self.edge.span, self.spacing)
        two: dict[str, Num | Step] = {
            "n_two": n, "k_odd": odd, "s_row": self.spacing, "l_beam": self.edge.span,
        }  # fmt: skip
        return self.worst(rows_of.on_middle_support, two, way, rows_of.one_more_on_support)


def not_below_0(number: Num) -> Num:
    """Nothing where it is less."""
    return np.maximum(number, 0.0)


def lengths_of(lengths: dict[str, Num | Step]) -> dict[str, Num]:
    """The numbers of lengths that may be steps."""
    return {name: one.value if isinstance(one, Step) else one for name, one in lengths.items()}
