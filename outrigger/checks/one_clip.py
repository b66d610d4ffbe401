"""What the links of a built hold-down share: one clip, its forces, withdrawal, distances.

NDS 2018 chapters 11 and 12. Lengths in, forces lb, (cases, combinations) of the method's own set.
"""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from outrigger.actions.places import BACK
from outrigger.base.quantity import length
from outrigger.cases.sections import HoldDown
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.sideways import side_forces
from outrigger.fasteners import adjusted as connection_values
from outrigger.fasteners import dowel_bearing, withdrawal
from outrigger.fasteners import lateral as lateral_values
from outrigger.fasteners import listed as connections
from outrigger.fasteners import spacing as fastener_spacing
from outrigger.fasteners.adjusted import Use
from outrigger.fasteners.dowel_bearing import Layer
from outrigger.fasteners.trade_names import Fastener, read_fastener
from outrigger.formula.check import Check, Rule
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Num, sqrt
from outrigger.marks.framing import HALF_RAFTER_IN

PANEL_IN = 0.75  # thickness of sheathing taken where it is not given, and listed
FRAMING_DEPTH_IN = 3.5  # of the house framing under the sheathing, the least taken
PANEL_G = 0.40  # of a panel, smooth shanks: APA test work
HOLD_DOWN = Kind("hold_down", "pull-out", by_place=True, place_first=True, chained=True)


def part_of_clip(said: str, weakest: str, *, is_distance: bool = False) -> Link:
    """A link of a built clip: said alike in data and on screen, and as the weakest."""
    return Link(HOLD_DOWN, said, "", said, weakest, is_distance=is_distance)


DECK = part_of_clip("deck fasteners", "its fasteners pull out of the house framing")
PANEL_ONLY = part_of_clip(
    "deck fasteners, panel only", "its fasteners stand in the sheathing alone"
)
RAFTER_EDGE = part_of_clip(
    "edge of the rafter", "the rafter is too narrow for its fasteners", is_distance=True
)
OUTRIGGER_END = part_of_clip(
    "end of the outrigger", "the lag stands too near the end of the outrigger", is_distance=True
)
OUTRIGGER_EDGE = part_of_clip(
    "edge of the outrigger", "the lag stands too near the edge of the outrigger", is_distance=True
)
SPACING = part_of_clip("fastener spacing", "its fasteners stand too close", is_distance=True)


@formula("V_clip", "lb", clause="statics")
def side_force_of_clip(F_along: Num, F_across: Num, n_clips: Num) -> Num:
    """Force along and across on one clip."""
    return sqrt(F_along**2 + F_across**2) / n_clips


@formula("T_f", "lb", clause="statics")
def pull_of_one(T_head: Num, n_f: Num) -> Num:
    """Pull on one fastener of a clip."""
    return T_head / n_f


@formula("V_f", "lb", clause="statics")
def side_of_one(V_clip: Num, n_f: Num) -> Num:
    """Side force on one fastener of a clip."""
    return V_clip / n_f


@dataclass(frozen=True, eq=False)
class Clip:
    """One clip of a place in the method's own combinations: uplift and side force on it, lb."""

    member: LoadedMember
    name: str
    hold: HoldDown
    U: Step
    V: Step
    pushed_across: bool  # a force across acts here
    pulled_along: bool

    @property
    def use(self) -> Use:
        """Moisture and temperature; unseasoned lumber was wet when it was fastened."""
        return Use(self.member.conditions, wet_built=not self.member.case.outrigger.seasoned)

    @property
    def panel(self) -> Step:
        """Thickness of the sheathing, in."""
        stated = self.member.case.house_roof.sheathing_thickness
        value = PANEL_IN if stated is None else stated
        note = "sheathing not given: 3/4 in taken" if stated is None else "sheathing"
        return given("g_gap", value, "in", "", note)

    def row(
        self, link: Link, clause: str, demand: Step, capacity: Step | None, **more: Any
    ) -> Check:
        """A link of the chain."""
        value = None if capacity is None else capacity.value
        steps = (demand,) if capacity is None else (demand, capacity)
        check = Check(
            link=link,
            place=self.name,
            clause=clause,
            demand=demand.value,
            capacity=value,
            unit=demand.unit,
            steps=steps,
        )
        return replace(self.member.over(check), **more)


def built(hold: HoldDown) -> bool:
    """Whether a hold-down is given by its fasteners and not by a listed value."""
    return hold.rated_uplift is None and bool(hold.side_fastener or hold.deck_fastener)


def through(hold: HoldDown) -> bool:
    """Whether the deck fastener goes through the outrigger itself."""
    return built(hold) and not hold.side_fastener


def clip_of(member: LoadedMember, name: str, hold: HoldDown) -> Clip:
    """One clip of a place, under the uplift of the place."""
    place = given("T_place", member.main.uplift[name], "lb", "statics", f"uplift at {name}")
    place = member.closed_pull(place, name, member.hand)
    U = connections.per_clip.step(T_place=place, n_clips=float(hold.count))
    along, across = side_forces(member, member.main, name)
    V = side_force_of_clip.step(F_along=along, F_across=across, n_clips=float(hold.count))
    acts = [bool(np.any(np.asarray(force.value) != 0)) for force in (across, along)]
    return Clip(member, name, hold, replace(U, symbol="U_clip"), V, *acts)


def withdrawal_value(clip: Clip, fastener: Fastener, G: Step, p: Step) -> Step:
    """Adjusted withdrawal value of one fastener, lb, over the combinations."""
    W = withdrawal.reference_withdrawal(fastener, G)
    W_adj = connection_values.adjusted_withdrawal(
        W, fastener, clip.use, clip.member.main.combinations.times
    )
    pt = withdrawal.counted_length(fastener, p)
    return connection_values.withdrawal_of_one.step(W_adj=W_adj, pt=pt)


def steel_side(hold: HoldDown) -> Layer | None:
    """The clip's steel as the side member; None where it is not given."""
    if not hold.steel:
        return None
    steel = dowel_bearing.read_steel(hold.steel)
    return Layer(steel.step("Fe"), steel.step("ts"), 0.0)


def wood_side(clip: Clip, deck: Fastener) -> Layer:
    """The outrigger as the side member of a fastener through it, across its grain."""
    return Layer(dowel_bearing.in_wood(deck, clip.member.own_G, 90.0), clip.member.d, 90.0)


def framing_penetration(clip: Clip, deck: Fastener) -> Step:
    """Penetration into the house framing, below steel or outrigger and the sheathing, in."""
    hold = clip.hold
    ts: Num | Step = clip.member.d if through(hold) else 0.0
    if hold.steel:
        steel = dowel_bearing.read_steel(hold.steel)
        ts = steel.step("ts")
        if through(hold):
            note = "outrigger and the plate on it"
            ts = given("ts", clip.member.d + steel.t, "in", "geometry", note)
    return dowel_bearing.penetration.step(
        L_f=deck.step("L_f"), ts=ts, g_gap=clip.panel, tm=FRAMING_DEPTH_IN
    )


def framing_lateral(clip: Clip, deck: Fastener, p: Step, side: Layer) -> lateral_values.Lateral:
    """Lateral value of one deck fastener; the sheathing between counts as a gap."""
    Fem = dowel_bearing.in_wood(deck, clip.member.framing_G, 90.0)
    return lateral_values.reference_lateral(deck, Fem, side, p, theta=90.0, gap=clip.panel)


def several_lags(hold: HoldDown, deck: Fastener) -> bool:
    """Whether more than one large fastener stands at a place: a row, whose Cg is not computed."""
    return not deck.small and hold.count * (hold.deck_fasteners or 1) > 1


def deck_value(clip: Clip, deck: Fastener, p: Step, side: Layer) -> Step:
    """Adjusted lateral value of one deck fastener, with CDelta of a lag pulled toward the end."""
    CDelta: Num | Step = 1.0
    if through(clip.hold) and clip.name == BACK and clip.pulled_along:
        behind = float(clip.member.case.outrigger.behind_back)
        tension = ("end", "tension along the grain")
        CDelta = fastener_spacing.geometry_factor(deck, *tension, behind)
    found, times = framing_lateral(clip, deck, p, side), clip.member.main.combinations.times
    return connection_values.adjusted_lateral(found.Z, deck, clip.use, times, CDelta=CDelta)


def in_framing(clip: Clip, deck: Fastener, T: Step, V: Step, side: Layer | None) -> Check:
    """Withdrawal from the framing together with the side force. NDS 2018 12.2, 12.4."""
    member, p = clip.member, framing_penetration(clip, deck)
    Wp = withdrawal_value(clip, deck, member.framing_G, p)
    more: dict[str, Any] = {"why": dowel_bearing.why_nothing(deck, float(np.asarray(p.value)))}
    if _dead_pulls(member, T) and deck.kind == "nail" and not deck.ring and not more["why"]:
        more = {"rule": "open", "why": "dead load alone pulls smooth nails: they creep out"}
    if not np.any(np.asarray(V.value) != 0):
        return clip.row(DECK, "NDS 2018 12.2", T, Wp, **more)
    if side is None:
        why = "a side force acts, and the clip's steel is not given"
        return clip.row(DECK, "NDS 2018 12.4", T, None, why=why)
    if several_lags(clip.hold, deck) and not more["why"]:
        more = {"rule": "open", "why": "a row of lags: Cg of NDS 11.3.6 is not computed"}
    Z_adj = deck_value(clip, deck, p, side)
    R, cap = connection_values.combined(deck, Z_adj, Wp, V, T)
    return clip.row(DECK, "NDS 2018 12.4", R, cap, **more)


def _dead_pulls(member: LoadedMember, T: Step) -> bool:
    """Whether dead load alone pulls in some case."""
    over = member.main.combinations
    dead = [part in ("D", "D_back") for part in over.parts]
    others = np.all(over.factors[:, [not d for d in dead]] == 0, axis=1)
    return bool(np.any(np.asarray(T.value)[:, others] > 0))


def distances(clip: Clip, deck: Fastener) -> list[Check]:
    """Distances of the fasteners that are known, against those that give full value.

    The edge of the framing below, whose breadth is taken as 1 1/2 in; for a lag through the
    outrigger its end behind it, and its edge under a force across; what the file gives. Under
    1/4 in the standard has no numbers: the commentary's, by analogy. NDS 2018 12.5.1.
    """
    hold, member = clip.hold, clip.member
    rows = [_in_rafter(clip, deck)]
    if through(hold) and not deck.small:
        if clip.name == BACK:
            behind = float(member.case.outrigger.behind_back)
            rows.append(_distance(clip, OUTRIGGER_END, deck, "end", "withdrawal", behind))
        if clip.pushed_across:
            loaded = ("edge, loaded", "across the grain")
            rows.append(_distance(clip, OUTRIGGER_EDGE, deck, *loaded, member.b / 2))
    if hold.side_fastener:
        side = read_fastener(hold.side_fastener)
        if hold.fastener_spacing is not None and side.small:
            across = ("spacing in a row", "across the grain")
            rows.append(_distance(clip, SPACING, side, *across, hold.fastener_spacing))
        if hold.end_distance is not None:
            pressed = ("end", "compression along the grain")
            rows.append(_distance(clip, OUTRIGGER_END, side, *pressed, hold.end_distance))
    return rows


def _in_rafter(clip: Clip, deck: Fastener) -> Check:
    """The edge of the framing below: in its middle, or beside a parallel rafter."""
    hold, house = clip.hold, clip.member.case.house_roof
    load = "any" if deck.small else "withdrawal"
    actual = HALF_RAFTER_IN if hold.edge_distance is None else hold.edge_distance
    row = _distance(clip, RAFTER_EDGE, deck, "edge", load, actual)
    off = clip.member.b / 2 + (hold.leg_offset or 0.0)
    if through(hold) or not house.framing_parallel or off < HALF_RAFTER_IN:
        return row
    why = (
        f"over a parallel rafter these fasteners stand {length(off)} from its middle, beside it: "
        "put blocking there"
    )
    return replace(row, capacity=None, steps=row.steps[:1], rule="open", why=why)


def _distance(
    clip: Clip, link: Link, fastener: Fastener, measure: str, load: str, actual: float
) -> Check:
    """One distance against the rule for it."""
    needed = fastener_spacing.full_distance(fastener, measure, load)
    middle = link == RAFTER_EDGE and clip.hold.edge_distance is None
    taken = "middle of framing 1 1/2 in wide, taken" if middle else "as stated"
    free = given("s_actual", actual, "in", "", taken)
    why = "nearer than gives full value: a smaller fastener, or farther off"
    rule: Rule = "analogy" if fastener.small else ""
    row = clip.row(link, needed.clause, needed, free, rule=rule, why=why)
    return replace(row, combinations=())


def sheathing_only(clip: Clip, deck: Fastener, T: Step) -> Check:
    """No credit for withdrawal from a panel; an estimate in words."""
    W = withdrawal.reference_withdrawal(deck, PANEL_G)
    about = float(np.asarray(W.value)) * float(clip.panel.value)
    why = (
        "fasteners in sheathing only have no published withdrawal value under 6D; estimate "
        f"{about:.0f} lb each at G 0.40 of a panel, no design value: reach the framing"
    )
    return clip.row(PANEL_ONLY, "NDS 2018 12.1", T, None, why=why)
