"""What ties the bottom plate of the garage wall to each outrigger, at the wall line.

Uplift of all that stands there, net of its dead load, and what pushes it along the outrigger or
along the wall; never less than the minimums of ASCE 7 1.4. Listed values in the ASD combinations,
fasteners straight down through the plate in the method's own: NDS 2018 12.2, 12.3, 12.4.
"""

from functools import cached_property

import numpy as np
from msgspec.structs import replace

from outrigger.checks.hold_downs import BUILT_DRY, DRY_ONLY
from outrigger.checks.loaded_member import (
    COOL,
    FRAMING_G,
    PLATE_THICKNESS_IN,
    LoadedMember,
)
from outrigger.checks.tie_actions import (
    ACROSS,
    ALONG,
    NO_SIDE,
    NOT_GIVEN,
    SPLIT,
    UPLIFT,
    WALL_TIE,
    AtWallLine,
    Tie,
    push_of_tie,
    tie_row,
)
from outrigger.checks.tie_fasteners import Through, washer_row
from outrigger.fasteners import listed as connections
from outrigger.fasteners.adjusted import combined as pulled_and_pushed
from outrigger.fasteners.trade_names import read_fastener
from outrigger.formula.check import Check, Rule
from outrigger.formula.formula import Step, given
from outrigger.formula.numbers import Num
from outrigger.loads.gravity import fastener_gravity
from outrigger.wood import shear


def wall_tie(member: LoadedMember) -> list[Check]:
    """Every row of the tie; where it is not given, what is open."""
    tie = member.case.wall_tie
    if tie is None:
        return _not_given(member)
    listed = not tie.fastener
    at = AtWallLine(member, member.clips if listed else member.main)
    found = Listed(at, tie) if listed else Straight(at, tie)
    return [*found.rows(), *found.least()]


def _not_given(member: LoadedMember) -> list[Check]:
    """Open where the wall line is pulled up or pushed sideways."""
    at = AtWallLine(member, member.main)
    acts = ((UPLIFT, at.uplift, "T_line"), (ALONG, at.along, "F_along"),
            (ACROSS, at.across, "F_across"))  # fmt: skip
    return [
        tie_row(at, link, "statics", given(symbol, force, "lb", "statics", ""), None, why=NOT_GIVEN)
        for link, force, symbol in acts
        if np.any(force > 0)
    ]


class Listed(Tie, frozen=True, eq=False):
    """A listed tie, in the ASD combinations."""

    def side(self, time: Num) -> Step | None:
        """Listed side values, lowered to the duration of the load."""
        tie = self.tie
        if tie.rated_lateral is None:
            return None
        listed = given("F_listed", tie.rated_lateral, "lb", "listing", self._source)
        return connections.rated_lateral(listed, tie.rated_for, time, self.count)

    @property
    def _source(self) -> str:
        return self.tie.rated_source or "source not given"

    @property
    def held(self) -> tuple[Rule, str]:
        """A listing for another wood, or for dry and cool service, stays open."""
        member, wood = self.at.member, self.tie.rated_wood
        if wood is not None:
            plate = member.case.garage_wall.plate_species
            G = min(
                fastener_gravity(member.model.wood.row.species),
                FRAMING_G if plate is None else fastener_gravity(plate),
            )
            if fastener_gravity(wood) > G:
                listed = fastener_gravity(wood)
                return "open", f"listed for G {listed:g} ({wood}), but the wood here is G {G:g}"
        if member.conditions.wet or member.conditions.temperature != COOL:
            return "open", DRY_ONLY
        if not member.case.outrigger.seasoned:
            return "open", BUILT_DRY
        return "", ""

    def rows(self) -> list[Check]:
        """Uplift, with the side force that acts with it, then each way by itself."""
        tie, at, (rule, why) = self.tie, self.at, self.held
        times = at.actions.combinations.times
        side = self.side(times)
        said = why if side is not None else NO_SIDE
        pushed = [tie_row(at, link, "listed value", F, side, rule=rule, why=said)
                  for link, F in self.pushed]  # fmt: skip
        if not np.any(at.uplift > 0):
            return pushed
        if tie.rated_uplift is None:
            none = "the garage wall is pulled up, and no rated_uplift is given"
            return [tie_row(at, UPLIFT, "listed value", self.T, None, why=none), *pushed]
        listed = given("T_listed", tie.rated_uplift, "lb", "listing", self._source)
        cap = connections.rated_uplift(listed, tie.rated_for, times).cap
        pull = tie_row(at, UPLIFT, "listed value", self.T, cap, rule=rule, why=why)
        values = (cap.value, 0.0 if side is None else side.value)
        if not pushed or side is None or not all(np.all(np.asarray(v) > 0) for v in values):
            return [pull, *pushed]
        force = connections.resultant.step(**self.forces)
        ratio = connections.pull_and_slide.step(
            T_clip=self.T, T_cap=cap, F_result=force, F_place=side
        )
        one = given("r_listed", 1.0, "", "listed values", "the most")
        clause = "listed values, linear interaction"
        return [tie_row(at, UPLIFT, clause, ratio, one, rule=rule, why=why), *pushed]


class Straight(Tie, frozen=True, eq=False, dict=True):
    """Fasteners straight down through the plate into the outrigger."""

    @cached_property
    def through(self) -> Through:
        """Their values."""
        member = self.at.member
        return Through(
            member=member,
            fastener=read_fastener(self.tie.fastener),
            count=float(self.tie.count),
            side_in=PLATE_THICKNESS_IN * member.case.garage_wall.plates,
            tail=member.model.shape.tail,
            pushed_across=bool(np.any(self.at.across > 0)),
        )

    def side(self, time: Num) -> Step | None:
        """Lateral value of all of them."""
        return self.through.side(time)

    @property
    def held(self) -> tuple[Rule, str]:
        """What is not computed of large fasteners, or a penetration that counts for nothing."""
        rule: Rule = "open" if self.through.why_open else ""
        return rule, self.through.why_open or self.through.why_nothing

    def rows(self) -> list[Check]:
        """Uplift with the side force that acts with it, each way by itself, splitting."""
        at, through, (rule, why) = self.at, self.through, self.held
        times = at.actions.combinations.times
        side, rows = through.side(times), list[Check]()
        rows += [tie_row(at, link, "NDS 2018 12.3", F, side, rule=rule, why=why)
                 for link, F in self.pushed]  # fmt: skip
        if not np.any(at.uplift > 0):
            return rows
        T, pull = self.T, through.pull(times)
        one: tuple[Step, Step] = (replace(T, symbol="T_f"), pull)
        clause = "NDS 2018 12.2"
        if self.pushed:
            V = replace(push_of_tie.step(**self.forces, n_ties=float(self.tie.count)), symbol="V_f")
            one = pulled_and_pushed(through.fastener, through.one(times), pull, V, one[0])
            clause = "NDS 2018 12.4"
        rows.insert(0, tie_row(at, UPLIFT, clause, *one, rule=rule, why=why))
        washer = washer_row(at.member, WALL_TIE, T, through)
        return [*rows, *([washer] if washer is not None else []), self._split()]

    def _split(self) -> Check:
        """The outrigger's top torn off along the fasteners' tips. NDS 2018 3.4.3.3."""
        member, at = self.at.member, self.at
        p, Fv_adj = self.through.penetration, member.adjusted("Fv")
        b = (
            member.b
            / member.case.outrigger.plies
            * min(member.case.outrigger.plies, self.tie.count)
        )
        d_e = replace(p, symbol="d_e", note="as deep as the fasteners reach")
        near = member.model.shape.tail < 5 * member.d
        close = shear.split_near_end.step(Fv_adj=Fv_adj, b=b, d_e=d_e, d=member.d)
        far = shear.split_inside.step(Fv_adj=Fv_adj, b=b, d_e=d_e)
        V = given("V", at.uplift, "lb", "statics", "uplift at the garage wall")
        row = tie_row(at, SPLIT, "NDS 2018 3.4.3.3", V, close if np.all(near) else far)
        row = replace(row, capacity=np.where(near, close.value, far.value))
        if not self.through.fastener.small:
            return row
        why = "by analogy with lags and bolts: longer fasteners, or a listed tie"
        return replace(row, rule="analogy", why=why)
