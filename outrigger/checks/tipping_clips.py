"""Tipping over sideways against listed clips: a pair of them as a couple, and those of the last
outrigger of a row, which its block lifts. Listed values, in the ASD combinations. Forces lb."""

import numpy as np
from msgspec.structs import replace

from outrigger.cases.hold_down import CLIP, SHEATHING_ONLY, HoldDown
from outrigger.checks.hold_downs import listed_uplift, listing_holds
from outrigger.checks.side_values import lateral_capacity
from outrigger.checks.sideways import side_forces
from outrigger.checks.tipping import ROLL_OVER, Tip
from outrigger.fasteners import listed as connections
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Link
from outrigger.formula.numbers import Num, greatest

PAIR = Link(ROLL_OVER, "pair of clips", "by the pair of clips")
LIFT = Link(ROLL_OVER, "ends of the row", "clips of the last outrigger")
ONE_FACE = (
    "the clips of a piece of a pair stand on its outer face alone: no pair of them holds it upright"
)
WAYS = (
    "outrigger.blocking_to_deck, fasteners up through the sheathing into each block; or toe-nails "
    "at their ends, outrigger.blocking_fastening"
)


@formula("T_roll", "lb", clause="statics: the far third of the width presses")
def pull_of_pair(T_clip: Num, M_roll: Num, b: Num, n_clips: Num) -> Num:
    """Pull on a clip of the side that lifts, half of the clips on each side."""
    return T_clip + M_roll / (2 * b / 3 * (n_clips / 2))


@formula("T_row", "lb", clause="statics")
def pull_at_last(V_end: Num, T_place: Num, R: Num) -> Num:
    """Uplift at a place of the last outrigger, which its block lifts."""
    return greatest(V_end + T_place, R) - R


def by_pair(tip: Tip) -> Check | None:
    """A pair of listed clips, one on each side, as a couple; None: there is none, or a value of it
    is not known."""
    hold = tip.member.holds.get(tip.name)
    if hold is None or not _paired(hold) or tip.name not in tip.actions.uplift:
        return None
    batch, n = tip.member.batch, float(hold.count)
    T = given("T_place", tip.actions.uplift[tip.name], "lb", "statics", f"uplift at {tip.name}")
    T_clip = connections.per_clip.step(T_place=T, n_clips=n)
    couple = pull_of_pair.step(T_clip=T_clip, M_roll=tip.M, b=tip.member.b, n_clips=n)
    row = _listed(tip, PAIR, hold, couple)
    if row is not None and np.any(batch.paired):
        return replace(row, open_at=batch.paired[:, 0], why=ONE_FACE)
    return None if row is None else replace(row, why=row.why or f"fasten the blocks: {WAYS}")


def last_outrigger(tip: Tip, V_end: Step) -> Check:
    """The hold-down of the last outrigger, lifted by the last block where the push here does not
    keep it down."""
    hold = tip.member.holds.get(tip.name)
    pull = tip.actions.uplift.get(tip.name, np.zeros((1, 1)))
    T = given("T_place", pull, "lb", "statics", f"uplift at {tip.name}")
    T_row = pull_at_last.step(V_end=V_end, T_place=T, R=tip.push)
    if hold is not None and hold.rated_uplift is not None:
        whole = replace(T_row, symbol="T_place")
        T_clip = connections.per_clip.step(T_place=whole, n_clips=tip.member.batch.clips(hold))
        if (row := _listed(tip, LIFT, hold, T_clip)) is not None:
            return row
    why = (
        "the last block of the row lifts the last outrigger here, and no clip listed for uplift "
        "and sideways holds it: list it, or fasten the blocks to the deck "
        "(outrigger.blocking_to_deck)"
    )
    return replace(tip.row(LIFT, "statics", T_row, None), why=why)


def _listed(tip: Tip, link: Link, hold: HoldDown, T: Step) -> Check | None:
    """The pull on one clip with the side force of its place, linear; None: a value is missing."""
    cap, side = listed_uplift(tip.member, hold).cap, lateral_capacity(tip.member, hold)
    if side is None or not all(np.any(np.asarray(v.value) > 0) for v in (cap, side)):
        return None
    along, across = side_forces(tip.member, tip.actions, tip.name)
    force = connections.resultant.step(F_along=along, F_across=across)
    ratio = connections.pull_and_slide.step(
        T_clip=replace(T, symbol="T_clip"), T_cap=cap, F_result=force, F_place=side
    )
    one = given("r_listed", 1.0, "", "listed values", "the most")
    rule, why = listing_holds(tip.member, hold)
    row = tip.row(link, "listed values, linear interaction", ratio, one)
    return replace(row, rule=rule, why=why)


def _paired(hold: HoldDown) -> bool:
    """Whether listed clips stand one on each side, into wood."""
    listed = hold.rated_uplift is not None and hold.rated_lateral is not None
    beside = hold.kind == CLIP and hold.side_height != "over the top" and hold.count % 2 == 0
    return listed and beside and hold.into not in (None, SHEATHING_ONLY)
