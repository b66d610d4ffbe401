"""Hold-downs built of fasteners, link by link: a bent clip, or a lag through the outrigger.

A bent clip: side fasteners into the outrigger, a leg that bends, deck fasteners through the
sheathing into the framing below. A lag through the outrigger: its washer on top, its thread in the
framing. Each link is a row; the weakest governs. NDS 2018 chapters 11 and 12, AISI S100, statics.
Own combinations of the method: unlike a listed value, nothing here is ASD only.
"""

import numpy as np
from msgspec.structs import replace

from outrigger.base import tables
from outrigger.base.quantity import length
from outrigger.cases.hold_down import SHEATHING_ONLY, HoldDown, through
from outrigger.checks.holes import at_hole
from outrigger.checks.loaded_member import COMMON, LoadedMember
from outrigger.checks.one_clip import (
    DECK,
    Clip,
    clip_of,
    distances,
    in_framing,
    part_of_clip,
    pull_of_one,
    sheathing_only,
    side_of_one,
    withdrawal_value,
)
from outrigger.checks.panel import panel
from outrigger.checks.side_values import (
    group_value,
    into_outrigger,
    steel_side,
    why_side_row,
    wood_side,
)
from outrigger.fasteners import adjusted as connection_values
from outrigger.fasteners import bent_leg as clip_leg
from outrigger.fasteners import dowel_bearing
from outrigger.fasteners.trade_names import Fastener, read_fastener
from outrigger.formula.check import Check, Rule
from outrigger.formula.formula import Step, amount, formula, given
from outrigger.formula.numbers import Num, least, sqrt

TOE_IN = 0.5  # fastener line to the toe of the leg, taken: common practice, no source
WIDEST_LEG_IN = 4.0  # of a clip, taken: the file does not say how wide it is
LEANS = "a force across pulls the side fasteners and bends the upright leg: not computed"
PRIES = "a force across pries the foot up on one side: its pull on the deck fasteners: not computed"
SIDE = part_of_clip("side fasteners", "its fasteners into the outrigger slip")
SIDE_PULLED = part_of_clip("side fasteners, bend held", "its fasteners into the outrigger pull out")
LEG = part_of_clip("bent leg", "its leg bends open")
HEAD = part_of_clip("head on the clip", "the heads pull through its steel")
WASHER = part_of_clip("washer", "the washer sinks into the outrigger")


@formula("F_group", "lb", clause="statics")
def force_of_group(U_clip: Num, V_clip: Num) -> Num:
    """Uplift and side force on the fasteners of one clip, together."""
    return sqrt(U_clip**2 + V_clip**2)


@formula("V_f", "lb", clause="statics")
def share_of_one(F_group: Num, n_f: Num) -> Num:
    """Lateral force on one side fastener of a clip."""
    return F_group / n_f


@formula("w_leg", "in", clause="engineering judgement: 2 e and a head for each fastener")
def leg_width(n_f: Num, e_leg: Num, DH: Num, w_most: Num) -> Num:
    """Width of the leg that bends with its fasteners, no wider than a clip is."""
    return least(n_f * (2 * e_leg + DH), w_most)


@formula("T_f", "lb", clause="statics: two rows of side fasteners")
def row_pull(M_side: Num, s_actual: Num, n_f: Num) -> Num:
    """Pull on one side fastener of the row that a held bend pulls."""
    return M_side / (s_actual * n_f)


@formula("A_washer", "in2", clause="geometry")
def washer_area(pi: Num, D_washer: Num, D_hole: Num) -> Num:
    """Area of a round washer less its hole."""
    return pi / 4 * (D_washer**2 - D_hole**2)


@formula("fc_perp", "psi", clause="NDS 2018 3.10.2")
def washer_stress(T_f: Num, A_washer: Num) -> Num:
    """Compression across the grain under the washer."""
    return T_f / A_washer


def chain(member: LoadedMember, name: str, hold: HoldDown) -> list[Check]:
    """The links of the clips at one place, in the order of the load path."""
    clip = clip_of(member, name, hold)
    if through(hold):
        rows = _through(clip)
    else:
        rows = [_bent_across(r, clip) for r in (*_side(clip), *_leg(clip), *_deck(clip))]
    return [*rows, *(panel(clip) if hold.into == SHEATHING_ONLY else [])]


def _bent_across(row: Check, clip: Clip) -> Check:
    """A link of a bent clip that a force across also loads, in ways that are not computed."""
    bent = {SIDE: LEANS, SIDE_PULLED: LEANS, LEG: LEANS, HEAD: PRIES, DECK: PRIES}
    if not clip.pushed_across or row.rule or row.link not in bent:
        return row
    return replace(row, rule="open", why=row.why or bent[row.link])


def _side(clip: Clip) -> list[Check]:
    """Clip to outrigger: lateral, across the grain. NDS 2018 12.3."""
    hold, member = clip.hold, clip.member
    fastener = read_fastener(hold.side_fastener)
    count = float(hold.side_fasteners or 1)
    demand = force_of_group.step(U_clip=clip.U, V_clip=clip.V)
    steel = steel_side(hold)
    if steel is None:
        why = "the clip's steel is not given: its bearing is not known"
        return [clip.row(SIDE, "NDS 2018 12.3.1", demand, None, why=why)]
    found, p = into_outrigger(clip.held, fastener, steel)
    how = f"mode {found.direct.mode}, penetration {found.route}"
    found = replace(found, Z=replace(found.Z, note=how))
    times = member.main.combinations.times
    Z_adj = connection_values.adjusted_lateral(found.Z, fastener, clip.held.use, times)
    cap = group_value.step(n_f=count, Z_adj=Z_adj)
    lost = dowel_bearing.why_nothing(fastener, float(p.value))
    why = why_side_row(hold, fastener)
    rule: Rule = "open" if why else ""
    row = clip.row(SIDE, "NDS 2018 12.3.1", demand, cap, rule=rule, why=lost or why)
    return [row, *_pulled_side(clip, fastener, count, Z_adj, p)]


def _pulled_side(clip: Clip, fastener: Fastener, count: float, Z_adj: Step, p: Step) -> list[Check]:
    """A bend that is held turns the side fasteners: their rows pull and press. NDS 2018 12.4."""
    hold, member = clip.hold, clip.member
    if not _held(hold) or hold.leg_offset is None or hold.fastener_spacing is None:
        return []
    M = clip_leg.side_couple.step(U_leg=clip.U, e_leg=hold.leg_offset)
    T = row_pull.step(M_side=M, s_actual=hold.fastener_spacing, n_f=count / 2)
    force = force_of_group.step(U_clip=clip.U, V_clip=clip.V)
    V = share_of_one.step(F_group=force, n_f=count)
    steel = steel_side(hold)
    ts = 0.0 if steel is None else amount(steel.length)
    beyond = dowel_bearing.comes_out(fastener, ts, 0.0, member.b)
    Wp = withdrawal_value(clip, fastener, member.own_G, p, beyond)
    R, cap = connection_values.combined(fastener, Z_adj, Wp, V, T)
    return [clip.row(SIDE_PULLED, "NDS 2018 12.4", R, cap)]


def _held(hold: HoldDown) -> bool:
    return bool(hold.bend_held) and hold.fastener_spacing is not None


def _leg(clip: Clip) -> list[Check]:
    """The bent leg: bending at the fastener line. AISI S100 and statics."""
    hold = clip.hold
    if not hold.deck_fastener:
        return []
    if not hold.steel or hold.leg_offset is None:
        why = "steel and leg_offset are not given: how the leg bends and pries is not known"
        return [clip.row(LEG, "statics", clip.U, None, why=why)]
    steel, deck = dowel_bearing.read_steel(hold.steel), read_fastener(hold.deck_fastener)
    e = given("e_leg", hold.leg_offset, "in", "", "as stated")
    M = clip_leg.leg_moment(clip.U, e, bend_held=_held(hold))
    w = leg_width.step(
        n_f=float(hold.deck_fasteners or 1), e_leg=e, DH=deck.step("DH"), w_most=WIDEST_LEG_IN
    )
    cap = clip_leg.leg_capacity(
        steel.step("Fy"), w, steel.step("t_leg"), clip.held.use.conditions.method
    )
    why = "" if _held(hold) or not hold.bend_held else (
        "bend_held needs fastener_spacing of the side fasteners: taken as free"
    )  # fmt: skip
    return [clip.row(LEG, "AISI S100 F2, statics", M, cap, why=why)]


def _pried(clip: Clip) -> Step:
    """Pull on the deck fasteners of one clip, prying included."""
    hold = clip.hold
    if hold.leg_offset is None:
        return replace(clip.U, symbol="T_head")
    return clip_leg.fastener_pull(
        clip.U,
        given("e_leg", hold.leg_offset, "in", "", "as stated"),
        given("a_toe", TOE_IN, "in", COMMON, "1/2 in taken"),
        bend_held=_held(hold),
    )


def _deck(clip: Clip) -> list[Check]:
    """Deck fasteners through the sheathing into framing. NDS 2018 12.2, 12.4."""
    hold = clip.hold
    if not hold.deck_fastener:
        why = "no deck_fastener is given: what holds the clip to the roof is not known"
        return [clip.row(DECK, "NDS 2018 12.2", clip.U, None, why=why)]
    deck, count = read_fastener(hold.deck_fastener), float(hold.deck_fasteners or 1)
    T = pull_of_one.step(T_head=_pried(clip), n_f=count)
    V = side_of_one.step(V_clip=clip.V, n_f=count)
    if hold.into == SHEATHING_ONLY:
        return [sheathing_only(clip, deck, T)]
    side, rows = steel_side(hold), list[Check]()
    if side is not None:
        steel = dowel_bearing.read_steel(hold.steel)
        over = clip_leg.pull_over(
            steel.step("t_leg"), deck.step("DH"), steel.step("Fu"), clip.held.use.conditions.method
        )
        why = clip_leg.why_by_analogy(deck.kind, deck.head)
        rule: Rule = "analogy" if why else ""
        rows.append(clip.row(HEAD, "AISI S100 J4", T, over, rule=rule, why=why))
    return [*rows, in_framing(clip, deck, T, V, side), *distances(clip, deck)]


def _through(clip: Clip) -> list[Check]:
    """A lag or screw through the outrigger into the framing: washer, thread, distances."""
    hold = clip.hold
    deck, count = read_fastener(hold.deck_fastener), float(hold.deck_fasteners or 1)
    T = pull_of_one.step(T_head=replace(clip.U, symbol="T_head"), n_f=count)
    V = side_of_one.step(V_clip=clip.V, n_f=count)
    if hold.into == SHEATHING_ONLY:
        return [sheathing_only(clip, deck, T)]
    side = wood_side(clip.held, deck)
    rows = [in_framing(clip, deck, T, V, side), *distances(clip, deck)]
    if deck.kind == "lag":
        rows.insert(0, _washer(clip, deck, T))
    return [*rows, at_hole(clip.member, clip.name)]


def _washer(clip: Clip, deck: Fastener, T: Step) -> Check:
    """A standard cut washer on top of the outrigger crushed into it. NDS 2018 3.10."""
    row = tables.load("washers").find(lag=length(deck.D))
    size = given(
        "D_washer",
        float(row["D_washer_in"]),
        "in",
        "ASME B18.21.1",
        "Type A plain washer, wide series, taken",
        row["status"],
    )
    pi = given("pi", np.pi, "", "", "circumference over diameter")
    hole = given("D_hole", deck.D, "in", "", "shank")
    A = washer_area.step(pi=pi, D_washer=size, D_hole=hole)
    fc = washer_stress.step(T_f=T, A_washer=A)
    cap = clip.member.adjusted("Fc_perp")
    return clip.row(WASHER, "NDS 2018 3.10.2", fc, cap)
