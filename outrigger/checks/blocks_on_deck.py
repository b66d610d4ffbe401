"""Blocks fastened to the deck: up through the sheathing into each block, all along it.

A tight block of full depth takes the push of the outrigger at its top and turns about its own
fasteners; one stands outside the last outrigger at each end of a row. The deck lies on a member
that runs along under the blocks, a plate or a crossing rafter, pressed by the outriggers and
fastened by its own nails. NDS 2018 12.2, 12.3, 12.4. Forces lb, lengths in.
"""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions.places import EDGE
from outrigger.base.errors import InputError
from outrigger.cases.hold_down import on_rafters
from outrigger.cases.sections import BlockingToDeck, HouseRoof
from outrigger.checks.block_ends import CREEP, block_length
from outrigger.checks.loaded_member import (
    BLOCKING,
    CROSSING_MEMBER,
    PLATE_THICKNESS_IN,
)
from outrigger.checks.one_clip import dead_pulls
from outrigger.checks.panel import weaker
from outrigger.checks.tipping import ROLL_OVER, Tip
from outrigger.fasteners import adjusted as values
from outrigger.fasteners import dowel_bearing, withdrawal
from outrigger.fasteners.adjusted import Use
from outrigger.fasteners.dowel_bearing import Layer
from outrigger.fasteners.lateral import reference_lateral
from outrigger.fasteners.trade_names import Fastener, read_fastener
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Link
from outrigger.formula.numbers import Num, greatest

TO_DECK = Link(ROLL_OVER, "blocks to the deck", "blocks to the deck")
DECK = Link(ROLL_OVER, "deck to its framing", "deck to its framing")
WHOLE = 1e-9  # of a spacing, from lengths that are sums of decimals


@formula("F_base", "lb", clause="statics: the larger, clips or not")
def force_at_base(F_top: Num, R_across: Num) -> Num:
    """Force across that a block hands to the deck."""
    return greatest(F_top, R_across)


@formula("V_f", "lb", clause="statics")
def shear_along_block(F_base: Num, n_block: Num) -> Num:
    """Shear on one fastener of a block."""
    return F_base / n_block


@formula("T_f", "lb", clause="statics: about the middle of the row of fasteners")
def pull_along_block(M_roll: Num, s_block: Num, n_block: Num) -> Num:
    """Pull on the last fastener of a block."""
    return 6 * M_roll / (s_block * n_block * (n_block + 1))


@formula("V_f", "lb", clause="statics")
def shear_of_deck(F_base: Num, s_nail: Num, s_row: Num) -> Num:
    """Shear on one of the deck's own nails over the spacing of the outriggers."""
    return F_base * s_nail / s_row


@formula("T_f", "lb", clause="statics: all of the deck over one spacing in contact to M = R s/6")
def pull_of_deck(M_roll: Num, s_row: Num, R: Num, s_nail: Num) -> Num:
    """Pull on one of the deck's own nails, less what the outrigger presses."""
    return (greatest(6 * M_roll / s_row, R) - R) * s_nail / s_row


class Through(Struct, frozen=True, eq=False):
    """A fastener through the sheathing into wood of gravity G and so deep, of which at most tm in
    count."""

    tip: Tip
    fastener: Fastener
    G_panel: Step
    thickness: float
    G: Step
    tm: float
    deep: float
    use: Use

    @property
    def p(self) -> Step:
        """Penetration into the wood."""
        t = given("ts", self.thickness, "in", "", "sheathing")
        return dowel_bearing.penetration.step(
            L_f=self.fastener.step("L_f"), ts=t, g_gap=0.0, tm=self.tm
        )

    @property
    def open_why(self) -> str:
        """What keeps it open: values that no table here has."""
        if not self.fastener.small:
            return "distances of fasteners of 1/4 in and over in a block are not computed"
        return withdrawal.outside_pull_through(self.fastener.head, self.thickness)

    @property
    def why_nothing(self) -> str:
        """Why its penetration counts for nothing."""
        return dowel_bearing.why_nothing(self.fastener, float(np.asarray(self.p.value)))

    def lateral(self) -> Step:
        """Z' with the panel as the side member."""
        f = self.fastener
        side = Layer(
            dowel_bearing.in_wood(f, self.G_panel),
            given("ls", self.thickness, "in", "", "sheathing"),
        )
        Z = reference_lateral(f, dowel_bearing.in_wood(f, self.G), side, self.p).Z
        return values.adjusted_lateral(Z, f, self.use, self.tip.times)

    def pull(self) -> Step:
        """The less of withdrawal and of the head's pull through the panel."""
        f, use, times = self.fastener, self.use, self.tip.times
        W_adj = values.adjusted_withdrawal(
            withdrawal.reference_withdrawal(f, self.G), f, use, times
        )
        beyond = dowel_bearing.comes_out(f, self.thickness, 0.0, self.deep)
        pt = withdrawal.counted_length(f, self.p, beyond)
        Wp = values.withdrawal_of_one.step(W_adj=W_adj, pt=pt)
        WH = withdrawal.pull_through(f.step("DH"), self.G_panel, self.thickness)
        return weaker.step(Wp_adj=Wp, WH_adj=values.adjusted_pull_through(WH, f, use, times))

    def row(self, link: Link, V: Step, T: Step, cure: str) -> Check:
        """Shear and pull of one, together, and what helps. NDS 2018 12.4."""
        cap = replace(self.pull(), symbol="Wp_adj")
        R, at_angle = values.combined(self.fastener, self.lateral(), cap, V, T)
        row = self.tip.row(link, "NDS 2018 12.4", R, at_angle)
        if self.open_why:
            return replace(row, rule="open", why=self.open_why)
        if self.why_nothing:
            return replace(row, why=self.why_nothing)
        smooth = self.fastener.kind == "nail" and not self.fastener.ring
        if smooth and dead_pulls(self.tip.member, T):
            return replace(row, rule="open", why=CREEP)
        return replace(row, why=cure)


def deck_rows(tip: Tip, stated: BlockingToDeck) -> list[Check]:
    """The blocks' fasteners, and the deck's own nails beside them."""
    house = tip.member.case.house_roof
    F = force_at_base.step(F_top=tip.F_top, R_across=tip.R)
    G_panel, why = _panel(house)
    if G_panel is None:
        return [replace(tip.row(one, "NDS 2018 12.4", F, None), why=why) for one in (TO_DECK, DECK)]
    return [_blocks(tip, stated, F, G_panel), _deck(tip, F, G_panel)]


def _panel(house: HouseRoof) -> tuple[Step | None, str]:
    """G of the sheathing; None: not known, and what to give."""
    missing = [key for key in ("sheathing", "sheathing_thickness") if not getattr(house, key)]
    if missing:
        return (
            None,
            f"the blocks are fastened to the sheathing: give house_roof.{', '.join(missing)}",
        )
    try:
        return dowel_bearing.panel_gravity(house.sheathing), ""
    except InputError as error:
        return None, str(error).rstrip(".")


def _blocks(tip: Tip, stated: BlockingToDeck, F: Step, G_panel: Step) -> Check:
    """The fasteners of one block, which is of the outriggers' lumber and depth."""
    member = tip.member
    L = block_length.step(s_row=tip.s_row, b=member.b)
    whole = np.floor(np.asarray(L.value) / stated.spacing + WHOLE)
    note = "whole ones along the block"
    n = given("n_block", np.maximum(whole, 1.0), "", "", note)
    s = given("s_block", stated.spacing, "in", "", "spacing of the fasteners")
    through = Through(
        tip, read_fastener(stated.fastener), G_panel,
        member.case.house_roof.sheathing_thickness or 0.0, member.own_G, member.d, member.d,
        tip.use,
    )  # fmt: skip
    V = shear_along_block.step(F_base=F, n_block=n)
    T = pull_along_block.step(M_roll=tip.M, s_block=s, n_block=replace(n, inputs={"L_block": L}))
    row = through.row(TO_DECK, V, T, "closer or larger fasteners in each block")
    if np.all(whole >= 2):
        return row
    few = "under two fasteners in a block: nothing keeps it from turning; space them closer"
    held = 0.0 if row.capacity is None else row.capacity
    return replace(row, capacity=np.where(whole >= 2, held, 0.0), why=few)


def _deck(tip: Tip, F: Step, G_panel: Step) -> Check:
    """The deck's own nails in the member that runs along under the blocks."""
    member, house = tip.member, tip.member.case.house_roof
    spacing = house.sheathing_nail_spacing
    if not house.sheathing_nail or not spacing:
        row = tip.row(DECK, "NDS 2018 12.4", F, None)
        why = "the deck hands it on: give house_roof.sheathing_nail, sheathing_nail_spacing"
        return replace(row, why=why)
    if not _runs_along(tip):
        row = tip.row(DECK, "statics", tip.M, None)
        why = (
            "no member runs along under the blocks here: how the deck bends between its framing "
            "has no published value on file"
        )
        return replace(row, why=why)
    s = given("s_nail", spacing, "in", "", "of the deck's own nails")
    use = replace(tip.use, conditions=member.below(tip.name))
    through = Through(
        tip, read_fastener(house.sheathing_nail), G_panel, house.sheathing_thickness or 0.0,
        member.framing_G_at(tip.name), PLATE_THICKNESS_IN, member.depth_below(tip.name), use,
    )  # fmt: skip
    V = shear_of_deck.step(F_base=F, s_nail=s, s_row=tip.s_row)
    T = pull_of_deck.step(M_roll=tip.M, s_row=tip.s_row, R=tip.push, s_nail=s)
    return through.row(DECK, V, T, "nail the deck closer along the blocks")


def _runs_along(tip: Tip) -> bool:
    """Whether framing runs along the house wall under the blocks of a place."""
    house, hold = tip.member.case.house_roof, tip.member.holds.get(tip.name)
    if tip.name == EDGE:
        return house.edge_support in ("wall", BLOCKING, CROSSING_MEMBER)
    return house.framing_parallel is False and hold is not None and on_rafters(hold)
