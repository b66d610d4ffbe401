"""Forces along and across the outrigger at its places, tipping over sideways, the roof's form.

A force along slides the outrigger over the sheathing; only hold-downs into framing resist it, and
friction is never counted. A force across is held at each place by its own reaction, and it tips
the member over sideways: blocking at edge and back takes that moment, or the member's own width.
"""

from dataclasses import replace

import numpy as np

from outrigger.actions import by_hand
from outrigger.actions.by_hand import Hand
from outrigger.actions.combined import Combined
from outrigger.actions.geometry import column
from outrigger.actions.places import BACK, EDGE, WALL_LINE
from outrigger.cases.batch import Batch
from outrigger.checks.bracing import blocked
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.side_values import along_at
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array, Num

ROLL_OVER = Kind("roll_over", "tipping over sideways", engineers="overturning", quiet=True)
BLOCKED, OWN_WIDTH = Link(ROLL_OVER, "blocking", ""), Link(ROLL_OVER, "own width", "")
FORM = Kind("form", "rafters not tied")
UNTIED = Link(FORM, "", "")


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


@formula("M_hold", "lb-in", clause="statics")
def own_width(R: Num, b: Num) -> Num:
    """Moment that the push on the house resists with the whole width still in contact."""
    return R * b / 6


def across_at(model_places: list[str], actions: Combined, place: str) -> Array | None:
    """Force across the member at one place, lb; None: there is none."""
    if actions.side.R_across is None:
        return None
    return np.abs(actions.side.R_across[model_places.index(place)])


def side_forces_act(actions: Combined) -> bool:
    """Whether anything acts along or across the member."""
    return actions.side.N_all is not None or actions.side.R_across is not None


def side_forces(member: LoadedMember, actions: Combined, place: str) -> tuple[Step, Step]:
    """Forces along and across the member at one place, lb; zero where none act."""
    names = [name for name, _ in member.model.supports]
    along, across = along_at(member, actions, place), across_at(names, actions, place)
    none = np.zeros((1, 1))
    return (
        given("F_along", none if along is None else along, "lb", "statics", f"at {place}"),
        given("F_across", none if across is None else across, "lb", "statics", f"at {place}"),
    )


def reaction_across(hand: Hand, name: str, force: Array) -> Step:
    """A reaction across by its closed form, its size."""
    closed = hand.edge_push() if name == EDGE else hand.back_pull()
    return replace(by_hand.attach(closed, force, by_hand.size), symbol="R_across")


def rolls(member: LoadedMember) -> list[Check]:
    """Tipping over sideways. Statics.

    Blocked at edge and back: the moment handed to the blocking there, open until the
    engineer has it. Not blocked: the push at the edge within the member's own width resists.
    """
    rows = []
    side = member.main.side
    if side.R_across is not None and side.V_across is not None:
        rows += _blocked(member) if blocked_both(member.batch) else _unblocked(member)
    return rows or [nothing_acts(Link(ROLL_OVER, "", ""), "lb-in")]


def nothing_acts(link: Link, unit: str) -> Check:
    """A row of a member on which nothing acts sideways."""
    none = np.zeros((1, 1))
    return Check(
        link=link, place=EDGE, clause="statics", demand=none, capacity=1.0, unit=unit, steps=()
    )


def blocked_both(batch: Batch) -> bool:
    """Whether blocking stands at edge and back; not given counts as blocked, and is listed."""
    stops, ends = blocked(batch), (column(0.0), batch.column("outrigger.back_span"))
    return stops is None or all(any(np.all(x == end) for x in stops) for end in ends)


def _blocked(member: LoadedMember) -> list[Check]:
    side, rows = member.main.side, []
    assert side.R_across is not None and side.V_across is not None
    V = given("V_across", np.abs(side.V_across), "lb", "statics", "at the top of the arm")
    if member.side_hand is not None:
        closed = by_hand.attach(member.side_hand.arm_shear(), V.value, by_hand.size)
        V = replace(closed, symbol="V_across")
    for name, index in ((EDGE, -1), (BACK, 0)):
        R = given("R_across", np.abs(side.R_across[index]), "lb", "statics", f"at {name}")
        if member.side_hand is not None:
            R = reaction_across(member.side_hand, name, np.asarray(R.value))
        if name == EDGE:
            moment = roll_moment_at_edge.step(V_across=V, R_across=R, d=member.d)
        else:
            moment = roll_moment_at_back.step(R_across=R, d=member.d)
        force = force_on_blocks.step(M_roll=moment, d=member.d)
        row = Check(
            link=BLOCKED,
            place=name,
            clause="statics",
            demand=moment.value,
            capacity=None,
            unit="lb-in",
            steps=(moment, force),
            why=_blocks_say(member),
        )
        rows.append(member.over(row))
    return rows


@formula("F_top", "lb", clause="statics")
def force_on_blocks(M_roll: Num, d: Num) -> Num:
    """Force that the blocks beside the member carry on at its top."""
    return M_roll / d


def _blocks_say(member: LoadedMember) -> str:
    """Why blocking stays open: its nails are pulled, and nothing is known of the row."""
    said = "the blocks pass it on along their row, as a push at the top: what holds the row?"
    if member.case.outrigger.blocking_fastening is None:
        return f"{said} Give it to the engineer"
    return (
        f"{said} The nails into the ends of the blocks would be pulled out of end grain, which NDS "
        "12.1.6.1 does not allow: fasten the blocks to the deck or the plate"
    )


def _unblocked(member: LoadedMember) -> list[Check]:
    side = member.main.side
    assert side.R_across is not None and side.V_across is not None
    whole = np.abs(sum(side.R_across[1:], side.R_across[0]))
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


def form(member: LoadedMember) -> list[Check]:
    """Rafters that are not tied fail by rule."""
    roof = member.case.garage_roof
    if not roof.bearing or roof.form != "untied rafters":
        return []
    why = "untied rafters push the wall over: tie them, hang them on a ridge beam, or use trusses"
    row = Check(
        link=UNTIED,
        place=WALL_LINE,
        clause="statics",
        demand=1.0,
        capacity=0.0,
        unit="",
        steps=(),
        rule="fail",
        why=why,
    )
    return [row]
