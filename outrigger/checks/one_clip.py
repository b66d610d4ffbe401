"""What the links of a built hold-down share: one clip, its forces, withdrawal, distances.

NDS 2018 chapters 11 and 12. Lengths in, forces lb, (cases, combinations) of the method's own set.
"""

from typing import Any

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions.places import BACK
from outrigger.base.quantity import length
from outrigger.cases.hold_down import HoldDown, through
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.side_values import (
    Held,
    below_framing,
    deck_value,
    framing_penetration,
    row_of,
)
from outrigger.checks.sideways import side_forces
from outrigger.fasteners import adjusted as connection_values
from outrigger.fasteners import dowel_bearing, withdrawal
from outrigger.fasteners import listed as connections
from outrigger.fasteners import spacing as fastener_spacing
from outrigger.fasteners.adjusted import Use
from outrigger.fasteners.dowel_bearing import Layer
from outrigger.fasteners.trade_names import Fastener, read_fastener
from outrigger.formula.check import Check, Rule
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Num, sqrt
from outrigger.marks.feet import off_crossing, on_bare_panel
from outrigger.marks.framing import HALF_RAFTER_IN, free_edge, lands

PANEL_G = 0.40  # of a panel, smooth shanks: APA test work
HOLD_DOWN = Kind(
    "hold_down", "pull-out", engineers="uplift", by_place=True, place_first=True, chained=True
)


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


class Clip(Struct, frozen=True, eq=False):
    """One clip of a place in the method's own combinations: uplift and side force on it, lb."""

    member: LoadedMember
    name: str
    hold: HoldDown
    U: Step
    V: Step
    pushed_across: bool  # a force across acts here

    @property
    def held(self) -> Held:
        """The place and what holds it."""
        return Held(self.member, self.name, self.hold)

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


def clip_of(member: LoadedMember, name: str, hold: HoldDown) -> Clip:
    """One clip of a place, under the uplift of the place."""
    place = given("T_place", member.main.uplift[name], "lb", "statics", f"uplift at {name}")
    place = member.closed_pull(place, name, member.hand)
    n = member.batch.clips(hold)
    U = connections.per_clip.step(T_place=place, n_clips=n)
    along, across = side_forces(member, member.main, name)
    V = side_force_of_clip.step(F_along=along, F_across=across, n_clips=n)
    return Clip(
        member=member,
        name=name,
        hold=hold,
        U=replace(U, symbol="U_clip"),
        V=V,
        pushed_across=bool(np.any(np.asarray(across.value) != 0)),
    )


def withdrawal_value(
    clip: Clip, fastener: Fastener, G: Step, p: Step, beyond: Num = 0.0, use: Use | None = None
) -> Step:
    """Adjusted withdrawal value of one fastener, lb, over the combinations; `beyond`: what of it
    comes out of the wood, in."""
    W = withdrawal.reference_withdrawal(fastener, G)
    W_adj = connection_values.adjusted_withdrawal(
        W, fastener, use or clip.held.use, clip.member.main.combinations.times
    )
    pt = withdrawal.counted_length(fastener, p, beyond)
    return connection_values.withdrawal_of_one.step(W_adj=W_adj, pt=pt)


def in_framing(clip: Clip, deck: Fastener, T: Step, V: Step, side: Layer | None) -> Check:
    """Withdrawal from the framing together with the side force. NDS 2018 12.2, 12.4."""
    member, p = clip.member, framing_penetration(clip.held, deck)
    G, use = member.framing_G_at(clip.name), clip.held.use_below
    Wp = withdrawal_value(clip, deck, G, p, below_framing(clip.held, deck), use)
    more: dict[str, Any] = {"why": dowel_bearing.why_nothing(deck, float(np.asarray(p.value)))}
    if dead_pulls(member, T) and deck.kind == "nail" and not deck.ring and not more["why"]:
        more = {"rule": "open", "why": "dead load alone pulls smooth nails: they creep out"}
    if not np.any(np.asarray(V.value) != 0):
        return clip.row(DECK, "NDS 2018 12.2", T, Wp, **more)
    if side is None:
        why = "a side force acts, and the clip's steel is not given"
        return clip.row(DECK, "NDS 2018 12.4", T, None, why=why)
    why = row_of(clip.held, deck).why
    if why and not more["why"]:
        more = {"rule": "open", "why": why}
    Z_adj = deck_value(clip.held, deck, p, side)
    R, cap = connection_values.combined(deck, Z_adj, Wp, V, T)
    return clip.row(DECK, "NDS 2018 12.4", R, cap, **more)


def dead_pulls(member: LoadedMember, T: Step) -> bool:
    """Whether dead load alone pulls in some case."""
    over = member.main.combinations
    dead = [part in ("D", "D_less", "D_else", "D_back") for part in over.parts]
    others = np.all(over.factors[:, [not d for d in dead]] == 0, axis=1)
    return bool(np.any(np.asarray(T.value)[:, others] > 0))


def distances(clip: Clip, deck: Fastener) -> list[Check]:
    """Distances of the fasteners that are known, against those that give full value.

    The edge of the framing below, whose breadth is taken as 1 1/2 in; at the back the end of the
    outrigger behind it; of a lag through the outrigger its edge under a force across; what the file
    gives. Under
    1/4 in the standard has no numbers: the commentary's, by analogy. NDS 2018 12.5.1.
    """
    hold, member = clip.hold, clip.member
    rows = [_in_rafter(clip, deck)]
    if through(hold) and not deck.small:
        if clip.name == BACK:
            behind = member.batch.column("outrigger.behind_back")
            rows.append(_distance(clip, OUTRIGGER_END, deck, "end", "withdrawal", behind))
        if clip.pushed_across:
            loaded = ("edge, loaded", "across the grain")
            rows.append(_distance(clip, OUTRIGGER_EDGE, deck, *loaded, member.b / 2))
    if hold.side_fastener:
        side = read_fastener(hold.side_fastener)
        if hold.fastener_spacing is not None and side.small:
            across = ("spacing in a row", "across the grain")
            rows.append(_distance(clip, SPACING, side, *across, hold.fastener_spacing))
        end: Num | None = hold.end_distance
        said = "as stated"
        if end is None and clip.name == BACK:
            end, said = member.batch.column("outrigger.behind_back"), "what runs on behind it"
        if end is not None:
            pressed = ("end", "compression along the grain")
            rows.append(_distance(clip, OUTRIGGER_END, side, *pressed, end, said))
    return rows


def _in_rafter(clip: Clip, deck: Fastener) -> Check:
    """The edge of the framing below: from where the fastener stands in it, or on bare panel."""
    hold, case = clip.hold, clip.member.case
    load = "any" if deck.small else "withdrawal"
    off = off_crossing(case, hold, clip.member.batch.column("outrigger.back_span"))
    actual: Num = HALF_RAFTER_IN
    said = "middle of framing 1 1/2 in wide, taken"
    if hold.edge_distance is not None:
        actual, said = hold.edge_distance, "as stated"
    if off is not None and np.any(off):
        # a fastener that misses is told by itself: it has no edge
        free = np.where(lands(off), free_edge(off), HALF_RAFTER_IN)
        if np.any(free < actual):
            said = "framing 1 1/2 in wide: half of it less the offset"
        actual = np.minimum(actual, free)
    row = _distance(clip, RAFTER_EDGE, deck, "edge", load, actual, said)
    why = on_bare_panel(case, hold)
    if not why and off is not None and not np.any(lands(off)):
        amount = length(float(np.min(np.abs(off))))
        why = f"it stands {amount} from the middle of the rafter: beside it"
    if not why:
        return row
    return replace(row, capacity=None, steps=row.steps[:1], rule="open", why=why)


def _distance(
    clip: Clip,
    link: Link,
    fastener: Fastener,
    measure: str,
    load: str,
    actual: Num,
    said: str = "as stated",
) -> Check:
    """One distance against the rule for it."""
    needed = fastener_spacing.full_distance(fastener, measure, load)
    free = given("s_actual", actual, "in", "", said)
    why = "nearer than gives full value: a smaller fastener, or farther off"
    rule: Rule = "analogy" if fastener.small else ""
    row = clip.row(link, needed.clause, needed, free, rule=rule, why=why)
    return replace(row, combinations=())


def sheathing_only(clip: Clip, deck: Fastener, T: Step) -> Check:
    """No credit for withdrawal from a panel; an estimate in words."""
    W = withdrawal.reference_withdrawal(deck, PANEL_G)
    about = float(np.asarray(W.value)) * float(clip.held.panel.value)
    why = (
        "fasteners in sheathing only have no published withdrawal value under 6D; estimate "
        f"{about:.0f} lb each at G 0.40 of a panel, no design value: reach the framing"
    )
    return clip.row(PANEL_ONLY, "NDS 2018 12.1", T, None, why=why)
