"""What acts on the tie of the garage wall at the wall line of one outrigger, and the least that it
must hold whatever acts. Statics, ASCE 7 1.4."""

from functools import cached_property
from typing import Any

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions.combined import Combined
from outrigger.actions.places import WALL_LINE
from outrigger.cases.below import WallTie
from outrigger.checks.loaded_member import LoadedMember
from outrigger.formula.check import Check, Rule
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array, Num, sqrt
from outrigger.loads import integrity

WALL_TIE = Kind("wall_tie", "wall tie", stands_at=WALL_LINE)
UPLIFT = Link(WALL_TIE, "uplift", "uplift")
ALONG, ACROSS = (
    Link(WALL_TIE, "along", "along"),
    Link(WALL_TIE, "across", "across"),
)
LEAST_ALONG = Link(WALL_TIE, "along, least", "the least along")
LEAST_ACROSS = Link(WALL_TIE, "across, least", "the least across")
SPLIT = Link(WALL_TIE, "splitting", "splitting")
NO_SIDE = "no rated_lateral is given"
NOT_GIVEN = "what ties the garage wall to the outrigger is not given"


@formula("T_clip", "lb", clause="statics")
def pull_of_tie(T_line: Num, n_ties: Num) -> Num:
    """Uplift on one tie or fastener."""
    return T_line / n_ties


@formula("V_clip", "lb", clause="statics")
def push_of_tie(F_along: Num, F_across: Num, n_ties: Num) -> Num:
    """Side force on one tie or fastener."""
    return sqrt(F_along**2 + F_across**2) / n_ties


class AtWallLine(Struct, frozen=True, eq=False, dict=True):
    """What acts at the wall line of one outrigger in the combinations of a set, lb, its size."""

    member: LoadedMember
    actions: Combined

    def _combined(self, by_part: dict[str, Array]) -> Array:
        model = self.member.model
        return self.actions.combinations.combine(model.table(by_part))

    @cached_property
    def uplift(self) -> Array:
        """Net uplift, square to the sheathing."""
        P = self._combined(dict(self.member.model.by_axis.square.wall_line))
        return np.maximum(-P, 0.0)

    @cached_property
    def along(self) -> Array:
        """Force along the outrigger."""
        model = self.member.model
        tilt, on = model.shape.tilt, model.loads
        found = {part: H * (tilt.cos if tilt.down else 1.0) for part, H in on.on_wall.items()}
        if tilt.down:
            found |= {part: P * tilt.sin for part, P in on.wall_line.items()}
        return np.abs(self._combined(found))

    @cached_property
    def across(self) -> Array:
        """Force along the wall, or down a slope across the outrigger."""
        on = self.member.model.by_axis.across
        return np.zeros((1, 1)) if on is None else np.abs(self._combined(dict(on.wall_line)))


def tie_row(
    at: AtWallLine, link: Link, clause: str, demand: Step, cap: Step | None, **more: Any
) -> Check:
    """A row of the tie in the combinations of its actions."""
    check = Check(
        link=link,
        place=WALL_LINE,
        clause=clause,
        demand=demand.value,
        capacity=None if cap is None else cap.value,
        unit=demand.unit,
        steps=(demand,) if cap is None else (demand, cap),
    )
    return replace(at.member.over(check, at.actions), **more)


class Tie(Struct, frozen=True, eq=False):
    """A tie under what acts at the wall line."""

    at: AtWallLine
    tie: WallTie

    @property
    def count(self) -> Num:
        """How many hold: fasteners through the plate all of them, listed ties those that fit."""
        every = bool(self.tie.fastener)
        return float(self.tie.count) if every else self.at.member.batch.fit(self.tie.count)

    @property
    def T(self) -> Step:
        """Uplift on one of it."""
        T = given("T_line", self.at.uplift, "lb", "statics", "net, square to the sheathing")
        return pull_of_tie.step(T_line=T, n_ties=self.count)

    @property
    def forces(self) -> dict[str, Num | Step]:
        """What pushes it along and across."""
        return {
            "F_along": given("F_along", self.at.along, "lb", "statics", "along the outrigger"),
            "F_across": given("F_across", self.at.across, "lb", "statics", "along the wall"),
        }

    @property
    def pushed(self) -> list[tuple[Link, Step]]:
        """What pushes it, each way, where anything does."""
        along, across = self.forces.values()
        both = ((ALONG, along), (ACROSS, across))
        return [(link, F) for link, F in both if isinstance(F, Step) and np.any(F.value > 0)]

    def side(self, time: Num) -> Step | None:
        """What all of it holds sideways, lb; None: not known."""
        raise NotImplementedError

    @property
    def held(self) -> tuple[Rule, str]:
        """Whether it stays open, and why."""
        return "", ""

    def least(self) -> list[Check]:
        """The least that it must hold each way. ASCE 7 1.4.3, 1.4.4, recalled."""
        member, on = self.at.member, self.at.member.model.loads
        method = "ASD" if not self.tie.fastener else member.conditions.method
        none = np.zeros((1, 1))
        live = on.wall_line.get("L", none) + on.wall_line.get("Lr", none)
        beam = integrity.member(D_line=on.wall_line["D"], L_line=live)
        wall = integrity.wall(
            q=member.batch.load("garage_wall.dead"),
            h_wall=member.batch.load("garage_wall.height"),
            s_plan=member.model.shape.plan_spacing,
        )
        larger = wall if np.all(wall.value >= beam.value) else beam
        along = replace(larger, value=np.maximum(wall.value, beam.value))
        cap, (rule, why) = self.side(integrity.TIMES[method]), self.held
        why = why if cap is not None else NO_SIDE
        rows = []
        for link, N in ((LEAST_ALONG, along), (LEAST_ACROSS, beam)):
            F = integrity.factored(N, method)
            row = tie_row(self.at, link, N.clause, F, cap, rule=rule, why=why)
            rows.append(replace(row, combinations=()))
        return rows
