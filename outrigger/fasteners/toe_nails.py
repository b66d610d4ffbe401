"""Toe-nails: how deep they reach, and their values in the side of a member.

Started a third of their length from the end, at 30 degrees to the face of the piece that they hold.
NDS 2018 12.1.6.3, 12.5.4. Lengths in, forces lb.
"""

from msgspec.structs import replace

from outrigger.base import tables
from outrigger.fasteners import adjusted, dowel_bearing, withdrawal
from outrigger.fasteners.adjusted import Use
from outrigger.fasteners.dowel_bearing import Layer
from outrigger.fasteners.lateral import reference_lateral
from outrigger.fasteners.trade_names import Fastener
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Num, cos_deg, least

SLOPE_DEG = 30.0
CLAUSE = "NDS 2018 12.1.6.3"


@formula("ls", "in", clause=CLAUSE)
def length_in_side(L_f: Num) -> Num:
    """Bearing length of a toe-nail in the piece that it holds."""
    return L_f / 3


@formula("p", "in", clause=CLAUSE)
def reach(L_f: Num, theta_toe: Num, tm: Num) -> Num:
    """Penetration of a toe-nail square to the side that it enters, no more than is there."""
    return least(L_f * cos_deg(theta_toe) - L_f / 3, tm)


def penetration(nail: Fastener, tm: Num) -> Step:
    """Penetration into a side tm in thick; in withdrawal too, where the shank is longer."""
    note = "about 30 degrees, started a third of the length from the end"
    theta = given("theta_toe", SLOPE_DEG, "deg", CLAUSE, note, tables.MEMORY)
    return reach.step(L_f=nail.step("L_f"), theta_toe=theta, tm=tm)


def lateral(nail: Fastener, G_side: Step, G_main: Step, tm: Num, use: Use, time: Num) -> Step:
    """Z' of one toe-nail through a piece of G_side into the side of one of G_main, tm in thick."""
    side = Layer(dowel_bearing.in_wood(nail, G_side), _recalled(nail))
    main = dowel_bearing.in_wood(nail, G_main)
    Z = reference_lateral(nail, main, side, penetration(nail, tm)).Z
    return adjusted.adjusted_lateral(Z, nail, use, time, toe_nailed=True)


def pull(nail: Fastener, G: Step, tm: Num, use: Use, time: Num) -> Step:
    """W'p of one toe-nail in the side of a piece of G, tm in thick."""
    W = withdrawal.reference_withdrawal(nail, G)
    W_adj = adjusted.adjusted_withdrawal(W, nail, use, time, toe_nailed=True)
    pt = withdrawal.counted_length(nail, penetration(nail, tm))
    return adjusted.withdrawal_of_one.step(W_adj=W_adj, pt=pt)


def _recalled(nail: Fastener) -> Step:
    return replace(length_in_side.step(L_f=nail.step("L_f")), status=tables.MEMORY)
