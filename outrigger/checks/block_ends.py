"""Blocks toe-nailed at their ends: the row of outriggers and blocks as one frame.

Each end of a block turns with its outrigger. A block between two outriggers of many takes from each
half of its moment; the last outrigger of a row has one block only. Of that block, m at its end,
V = 2 m / L across it, and on the outrigger m + V b / 2 = M: so m = M L / s and V = 2 M / s, s = L +
b. Two outriggers alone are no worse. V lifts the last outrigger at one end of the row; at the other
the block, which lies on the deck, presses there itself.
NDS 2018 12.2, 12.3, 12.4, 12.5.4. Forces lb, lengths in.
"""

import numpy as np
from msgspec.structs import replace

from outrigger.cases.sections import BlockingFastening
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.one_clip import dead_pulls
from outrigger.checks.tipping import ROLL_OVER, Tip, tips
from outrigger.checks.tipping_clips import last_outrigger
from outrigger.fasteners import dowel_bearing, toe_nails
from outrigger.fasteners.adjusted import combined
from outrigger.fasteners.trade_names import read_fastener
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Link
from outrigger.formula.numbers import Num

TOE_NAILED = "toe-nailed"
ENDS = Link(ROLL_OVER, "ends of the blocks", "toe-nails of the blocks")
LAST_BLOCK = Link(ROLL_OVER, "last block", "last block")
CREEP = "dead load alone pulls smooth nails: they creep out; ring shank nails, say"


@formula("L_block", "in", clause="geometry")
def block_length(s_row: Num, b: Num) -> Num:
    """Length of a block, clear between two outriggers."""
    return s_row - b


@formula("M_end", "lb-in", clause="statics: the last outrigger of a row has one block")
def end_moment(M_roll: Num, L_block: Num, s_row: Num) -> Num:
    """Moment at the end of the last block."""
    return M_roll * L_block / s_row


@formula("V_end", "lb", clause="statics: the last outrigger of a row has one block")
def end_shear(M_roll: Num, s_row: Num) -> Num:
    """Shear across the last block."""
    return 2 * M_roll / s_row


@formula("T_f", "lb", clause="statics: the outermost, all of the force across beside")
def pull_on_outermost(M_end: Num, s_spread: Num, R_across: Num, n_block: Num) -> Num:
    """Pull on the highest or the lowest fastener of an end."""
    return M_end / s_spread + R_across / n_block


@formula("V_f", "lb", clause="statics")
def shear_of_one(V_end: Num, n_block: Num) -> Num:
    """Shear on one fastener of an end."""
    return V_end / n_block


def end_rows(tip: Tip, listed: Tip, ends: BlockingFastening) -> list[Check]:
    """The toe-nails of the last block, and what holds the last outrigger down; `listed`: the same
    in the combinations of listed values."""
    return [_nails(tip, ends), last_outrigger(listed, shear_of_last_block(listed))]


def shear_of_last_block(tip: Tip) -> Step:
    """What the last block lifts the last outrigger by, or at the other end of the row presses."""
    return end_shear.step(M_roll=tip.M, s_row=tip.s_row)


def at_row_ends(member: LoadedMember) -> list[Check]:
    """What the last block lifts the last outrigger by at one end of a row, and at the other presses
    on the deck; none where the blocks are not toe-nailed."""
    ends = member.case.outrigger.blocking_fastening
    if ends is None or ends.driven != TOE_NAILED:
        return []
    return [
        tip.row(LAST_BLOCK, "statics", shear_of_last_block(tip), None)
        for tip in tips(member, member.main)
    ]


def _nails(tip: Tip, ends: BlockingFastening) -> Check:
    member, nail = tip.member, read_fastener(ends.fastener)
    L = block_length.step(s_row=tip.s_row, b=member.b)
    M = end_moment.step(M_roll=tip.M, L_block=L, s_row=tip.s_row)
    n = given("n_block", float(ends.count), "", "", "at one end of a block")
    spread = given("s_spread", ends.spread, "in", "", "from the lowest to the highest")
    T = pull_on_outermost.step(M_end=M, s_spread=spread, R_across=tip.R, n_block=n)
    V = shear_of_one.step(V_end=shear_of_last_block(tip), n_block=n)
    G, thick = member.own_G, member.b
    Z_adj = toe_nails.lateral(nail, G, G, thick, tip.use, tip.times)
    Wp = toe_nails.pull(nail, G, thick, tip.use, tip.times)
    R, cap = combined(nail, Z_adj, Wp, V, T)
    row = tip.row(ENDS, "NDS 2018 12.4.2, 12.5.4", R, cap)
    if nail.kind != "nail":
        return replace(row, rule="open", why="toe-nails are nails: no value of a screw so driven")
    p = float(np.asarray(toe_nails.penetration(nail, thick).value))
    if lost := dowel_bearing.why_nothing(nail, p):
        return replace(row, why=lost)
    if not nail.ring and dead_pulls(member, T):
        return replace(row, rule="open", why=CREEP)
    return replace(row, why="more nails in each end, or blocking_to_deck")
