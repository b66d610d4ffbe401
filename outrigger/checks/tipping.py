"""A force across tips the outrigger over sideways: what holds it against that.

Blocked at edge and back: blocks fastened to the deck, blocks toe-nailed at their ends, or a pair of
listed clips. Not blocked: the push at the edge within the member's own width. Statics; lb and in.
"""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions import by_hand
from outrigger.actions.combined import Combined
from outrigger.actions.geometry import column
from outrigger.actions.places import BACK, EDGE
from outrigger.cases.batch import Batch
from outrigger.checks.bracing import blocked
from outrigger.checks.loaded_member import LoadedMember, largest
from outrigger.checks.sideways import reaction_across
from outrigger.fasteners.adjusted import Use
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array, Num

ROLL_OVER = Kind("roll_over", "tipping over sideways", engineers="overturning", quiet=True)
BLOCKED, OWN_WIDTH = Link(ROLL_OVER, "blocking", ""), Link(ROLL_OVER, "own width", "")


@formula("M_roll", "lb-in", clause="statics")
def roll_moment(F_side: Num, d: Num) -> Num:
    """Moment that tips the member over sideways: a side force at its top."""
    return F_side * d


@formula("M_roll", "lb-in", clause="statics")
def roll_moment_at_edge(V_across: Num, R_across: Num, d: Num) -> Num:
    """Moment to the blocking at the edge: the arm's torque, and the reaction at the bottom."""
    return (V_across + R_across) * d / 2


@formula("M_roll", "lb-in", clause="statics")
def roll_moment_at_back(R_across: Num, d: Num) -> Num:
    """Moment to the blocking at the back: the reaction at the bottom of the member."""
    return R_across * d / 2


@formula("M_roll", "lb-in", clause="statics")
def moment_of_both(M_each: Num, n_pair: Num) -> Num:
    """Moment of the pieces of a pair together."""
    return M_each * n_pair


@formula("R_across", "lb", clause="statics")
def force_of_both(F_each: Num, n_pair: Num) -> Num:
    """Reaction across of the pieces of a pair together."""
    return F_each * n_pair


@formula("M_hold", "lb-in", clause="statics")
def own_width(R: Num, b: Num) -> Num:
    """Moment that the push on the house resists with the whole width still in contact."""
    return R * b / 6


@formula("F_top", "lb", clause="statics")
def force_on_blocks(M_roll: Num, d: Num) -> Num:
    """Force that the blocks beside the member carry on at its top."""
    return M_roll / d


class Tip(Struct, frozen=True, eq=False):
    """What tips the member at one place, in the combinations of a set: the moment M, the force
    across R there, its size."""

    member: LoadedMember
    actions: Combined
    name: str
    M: Step
    R: Step

    @property
    def F_top(self) -> Step:
        """Push on the blocks at the top of the member."""
        return force_on_blocks.step(M_roll=self.M, d=self.member.d)

    @property
    def s_row(self) -> Step:
        """Spacing of the outriggers; a shorter bay of a layout tips in proportion less."""
        apart = self.member.batch.column("outrigger.spacing")
        return given("s_row", apart, "in", "", "spacing")

    @property
    def push(self) -> Step:
        """Push down on the house here, 0 where it is pulled up."""
        names = [name for name, _ in self.member.model.supports]
        R = np.maximum(self.actions.R[names.index(self.name)], 0.0)
        return given("R", R, "lb", "statics", "pushes on the house here")

    @property
    def use(self) -> Use:
        """Moisture and temperature; unseasoned lumber was wet when it was fastened."""
        wet_built = not self.member.case.outrigger.seasoned
        return Use(self.member.conditions, wet_built=wet_built)

    @property
    def times(self) -> Num:
        """CD or lambda of each combination."""
        return self.actions.combinations.times

    def row(self, link: Link, clause: str, demand: Step, cap: Step | None) -> Check:
        """A row of it."""
        check = Check(
            link=link,
            place=self.name,
            clause=clause,
            demand=demand.value,
            capacity=None if cap is None else cap.value,
            unit=demand.unit,
            steps=(demand,) if cap is None else (demand, cap),
        )
        return self.member.over(check, self.actions)


def tips(member: LoadedMember, actions: Combined) -> list[Tip]:
    """The moments at edge and back; none where nothing acts across.

    What a hold-down between them holds sideways tips the member there, and is blocked at one of the
    two: the back takes the largest of what the hold-downs inward of the edge may hold.
    """
    side = actions.side
    if side.R_across is None or side.V_across is None:
        return []
    hand = member.side_hand if actions is member.main else member.clip_side_hand
    V = given("V_across", np.abs(side.V_across), "lb", "statics", "at the top of the arm")
    if hand is not None:
        V = replace(by_hand.attach(hand.arm_shear(), V.value, by_hand.size), symbol="V_across")
    found = []
    for name, force in ((EDGE, np.abs(side.R_across[-1])), (BACK, largest(side.R_across[:-1]))):
        R = given("R_across", force, "lb", "statics", f"at {name}")
        if hand is not None:
            R = reaction_across(hand, name, force)
        M = (
            roll_moment_at_edge.step(V_across=V, R_across=R, d=member.d)
            if name == EDGE
            else roll_moment_at_back.step(R_across=R, d=member.d)
        )
        found.append(Tip(member, actions, name, *_of_both(member, M, R)))
    return found


def _of_both(member: LoadedMember, M: Step, R: Step) -> tuple[Step, Step]:
    """Moment and force across of both pieces of a pair, which stand between two blocks as one."""
    if not np.any(member.batch.paired):
        return M, R
    n = given("n_pair", member.batch.pieces, "", "", "a pair stands side by side")
    return (
        moment_of_both.step(M_each=replace(M, symbol="M_each"), n_pair=n),
        force_of_both.step(F_each=replace(R, symbol="F_each"), n_pair=n),
    )


def to_blocks(member: LoadedMember) -> list[Check]:
    """The moments that the blocks at edge and back take, whatever holds the blocks; none where they
    do not stand there or nothing tips."""
    if not blocked_both(member.batch):
        return []
    rows = []
    for tip in tips(member, member.main):
        row = tip.row(BLOCKED, "statics", tip.M, None)
        rows.append(replace(row, steps=(tip.M, tip.F_top)))
    return rows


def blocked_both(batch: Batch) -> bool:
    """Whether blocking stands at edge and back; not given counts as blocked, and is listed."""
    stops, ends = blocked(batch), (column(0.0), batch.column("outrigger.back_span"))
    return stops is None or all(any(np.all(x == end) for x in stops) for end in ends)


def not_blocked(member: LoadedMember) -> list[Check]:
    """Tipping of a member that is not blocked at both; none where nothing acts across."""
    side = member.main.side
    if side.R_across is None:
        return []
    whole: Array = np.abs(sum(side.R_across[1:], side.R_across[0]))
    F = given("F_side", whole, "lb", "statics", "across the member, at its top")
    moment = roll_moment.step(F_side=F, d=member.d)
    push = given(
        "R", np.maximum(member.main.R[-1], 0.0), "lb", "statics", "pushes on the house here"
    )
    hold = own_width.step(R=push, b=member.b)
    row = Check(
        link=OWN_WIDTH,
        place=EDGE,
        clause="statics",
        demand=moment.value,
        capacity=hold.value,
        unit="lb-in",
        steps=(moment, hold),
        why="not blocked at edge and back: only its own width keeps it from tipping over; block it",
    )
    return [member.over(row)]
