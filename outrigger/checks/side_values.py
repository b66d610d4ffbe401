"""What the hold-downs of a place may carry sideways, and their shares of a force along the member.

Listed side values, or the fasteners of built clips: into the outrigger and into the framing, the
weaker. NDS 2018 12.3. Lengths in, forces lb, (cases, combinations).
"""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions.combined import Combined
from outrigger.actions.model import Model
from outrigger.actions.places import BACK, EDGE
from outrigger.cases.hold_down import SHEATHING_ONLY, HoldDown, built, through
from outrigger.checks.loaded_member import LoadedMember
from outrigger.fasteners import adjusted as connection_values
from outrigger.fasteners import dowel_bearing, group
from outrigger.fasteners import lateral as lateral_values
from outrigger.fasteners import listed as connections
from outrigger.fasteners import spacing as fastener_spacing
from outrigger.fasteners.adjusted import Use
from outrigger.fasteners.dowel_bearing import Layer
from outrigger.fasteners.lateral import Lateral
from outrigger.fasteners.trade_names import Fastener, read_fastener
from outrigger.formula.formula import Step, amount, formula, given
from outrigger.formula.numbers import Array, Num, least
from outrigger.wood import lumber
from outrigger.wood.adjusted import adjusted

PANEL_IN = 0.75  # thickness of sheathing taken where it is not given, and listed


class Held(Struct, frozen=True, eq=False):
    """A place and what holds it."""

    member: LoadedMember
    name: str
    hold: HoldDown

    @property
    def use(self) -> Use:
        """Moisture and temperature; unseasoned lumber was wet when it was fastened."""
        return Use(self.member.conditions, wet_built=not self.member.case.outrigger.seasoned)

    @property
    def use_below(self) -> Use:
        """The same of the wood of the house under it."""
        return replace(self.use, conditions=self.member.below(self.name))

    @property
    def panel(self) -> Step:
        """Thickness of the sheathing, in."""
        stated = self.member.case.house_roof.sheathing_thickness
        value = PANEL_IN if stated is None else stated
        note = "sheathing not given: 3/4 in taken" if stated is None else "sheathing"
        return given("g_gap", value, "in", "", note)

    @property
    def pulled_along(self) -> bool:
        """Whether a force along the member may reach it."""
        total = self.member.main.side.N_all
        return total is not None and self.hold.into != SHEATHING_ONLY and bool(np.any(total != 0))


def steel_side(hold: HoldDown) -> Layer | None:
    """The clip's steel as the side member; None where it is not given."""
    if not hold.steel:
        return None
    steel = dowel_bearing.read_steel(hold.steel)
    return Layer(steel.step("Fe"), steel.step("ts"), 0.0)


def wood_side(at: Held, deck: Fastener) -> Layer:
    """The outrigger as the side member of a fastener through it, across its grain."""
    return Layer(dowel_bearing.in_wood(deck, at.member.own_G, 90.0), at.member.d, 90.0)


def framing_penetration(at: Held, deck: Fastener) -> Step:
    """Penetration into the house framing, below steel or outrigger and the sheathing, in."""
    return dowel_bearing.penetration.step(
        L_f=deck.step("L_f"), ts=_above(at), g_gap=at.panel, tm=at.member.depth_below(at.name)
    )


def below_framing(at: Held, deck: Fastener) -> Num:
    """How far it comes out below that framing, in."""
    return dowel_bearing.comes_out(
        deck, amount(_above(at)), amount(at.panel), at.member.depth_below(at.name)
    )


def _above(at: Held) -> Num | Step:
    """Steel or outrigger, or both, that it goes through above the sheathing, in."""
    hold = at.hold
    if not hold.steel:
        return at.member.d if through(hold) else 0.0
    steel = dowel_bearing.read_steel(hold.steel)
    if not through(hold):
        return steel.step("ts")
    note = "outrigger and the plate on it"
    return given("ts", at.member.d + steel.t, "in", "geometry", note)


def framing_lateral(at: Held, deck: Fastener, p: Step, side: Layer) -> lateral_values.Lateral:
    """Lateral value of one deck fastener; the sheathing between counts as a gap."""
    Fem = dowel_bearing.in_wood(deck, at.member.framing_G_at(at.name), 90.0)
    return lateral_values.reference_lateral(deck, Fem, side, p, theta=90.0, gap=at.panel)


class InRow(Struct, frozen=True):
    """The factors of a row of large fasteners along the outrigger; `why`: what is not known of it,
    so that they are not computed."""

    why: str = ""
    Cg: Num | Step = 1.0
    CDelta: Num | Step = 1.0


def row_of(at: Held, deck: Fastener) -> InRow:
    """Lags or bolts at a place as one row along the outrigger, into a rafter beside it.

    A force across loads each by itself, which is never less. NDS 2018 11.3.6, 12.5.1.
    """
    hold, case = at.hold, at.member.case
    n = hold.count * (hold.deck_fasteners or 1)
    if deck.small or n < 2:
        return InRow()
    said, rafter, s = "a row of lags: ", case.house_rafter, hold.fastener_spacing
    if not through(hold):
        return InRow(f"{said}the steel between them, for Cg of NDS 11.3.6, is not known")
    if not case.house_roof.framing_parallel:
        return InRow(f"{said}Cg of NDS 11.3.6 is for a rafter along the outrigger alone")
    lacks = [] if s else [hold.path("fastener_spacing")]
    if rafter is None or not (rafter.size and rafter.species and rafter.grade):
        lacks.append("[house_rafter] with its size, species and grade")
    if lacks or s is None or rafter is None:
        return InRow(f"{said}Cg of NDS 11.3.6 needs {' and '.join(lacks)}")
    wood = lumber.wood(str(rafter.species), rafter.grade, str(rafter.size))
    E = adjusted("E", at.member.model.wood, at.member.conditions, 1.0)
    side = group.stretch_of_side.step(E_adj=E, b=at.member.b, d=at.member.d)
    main = group.stretch_of_main.step(E=wood.reference("E"), b=wood.size.b, d=wood.size.d)
    Cg = group.group_factor(deck.step("D_nom"), n, s, main, side)
    apart = ("spacing in a row", "along the grain")
    return InRow(Cg=Cg, CDelta=fastener_spacing.geometry_factor(deck, *apart, s))


def deck_value(at: Held, deck: Fastener, p: Step, side: Layer) -> Step:
    """Adjusted lateral value of one deck fastener, with CDelta of a lag pulled toward the end, or
    of its row where that is less."""
    row = row_of(at, deck)
    CDelta: Num | Step = row.CDelta
    if through(at.hold) and at.name == BACK and at.pulled_along:
        behind = at.member.batch.column("outrigger.behind_back")
        tension = ("end", "tension along the grain")
        to_end = fastener_spacing.geometry_factor(deck, *tension, behind)
        least_of = fastener_spacing.least_geometry
        in_row = isinstance(CDelta, Step)
        CDelta = least_of.step(CDelta_end=to_end, CDelta_row=CDelta) if in_row else to_end
    found, times = framing_lateral(at, deck, p, side), at.member.main.combinations.times
    return connection_values.adjusted_lateral(
        found.Z, deck, at.use_below, times, Cg=row.Cg, CDelta=CDelta
    )


def why_side_row(hold: HoldDown, fastener: Fastener) -> str:
    """What is not computed of several large side fasteners in the leg of a clip."""
    if fastener.small or (hold.side_fasteners or 1) < 2:
        return ""
    return "a row of lags in the leg of a clip: its Cg and distances (NDS 11.3.6) are not computed"


@formula("Z_group", "lb", clause="NDS 2018 11.2.1")
def group_value(n_f: Num, Z_adj: Num) -> Num:
    """Lateral value of the fasteners of one clip."""
    return n_f * Z_adj


@formula("F_place", "lb", clause="NDS 2018 12.3: the weaker of its two groups")
def clips_sideways(Z_side: Num, Z_deck: Num, n_clips: Num) -> Num:
    """Side value of the clips of a place: through the outrigger, and into the framing."""
    return least(Z_side, Z_deck) * n_clips


@formula("F_place", "lb", clause="NDS 2018 12.3")
def lags_sideways(Z_deck: Num, n_clips: Num) -> Num:
    """Side value of the lags of a place."""
    return Z_deck * n_clips


def lateral_of_place(member: LoadedMember, name: str, hold: HoldDown) -> Step | None:
    """Side value of the built clips of a place, lb, over CD or lambda; None: it is not known."""
    if not hold.deck_fastener or hold.into == SHEATHING_ONLY:
        return None
    at, times = Held(member, name, hold), member.main.combinations.times
    deck = read_fastener(hold.deck_fastener)
    side = wood_side(at, deck) if through(hold) else steel_side(hold)
    if side is None:
        return None
    if row_of(at, deck).why:
        return None
    Z_adj = deck_value(at, deck, framing_penetration(at, deck), side)
    Z_deck = group_value.step(n_f=float(hold.deck_fasteners or 1), Z_adj=Z_adj)
    Z_deck = replace(Z_deck, symbol="Z_deck")
    if through(hold):
        return lags_sideways.step(Z_deck=Z_deck, n_clips=member.batch.clips(hold))
    fastener = read_fastener(hold.side_fastener)
    if why_side_row(hold, fastener):
        return None
    own, _ = into_outrigger(at, fastener, side)
    Z_own = connection_values.adjusted_lateral(own.Z, fastener, at.use, times)
    Z_side = group_value.step(n_f=float(hold.side_fasteners or 1), Z_adj=Z_own)
    return clips_sideways.step(
        Z_side=replace(Z_side, symbol="Z_side"), Z_deck=Z_deck, n_clips=member.batch.clips(hold)
    )


def into_outrigger(at: Held, fastener: Fastener, side: Layer) -> tuple[Lateral, Step]:
    """Lateral value of one side fastener, across the grain, and its penetration."""
    member = at.member
    p = dowel_bearing.penetration.step(
        L_f=fastener.step("L_f"), ts=side.length, g_gap=0.0, tm=member.b
    )
    Fem = dowel_bearing.in_wood(fastener, member.own_G, 90.0)
    return lateral_values.reference_lateral(fastener, Fem, side, p, theta=90.0), p


def lateral_capacity(member: LoadedMember, hold: HoldDown) -> Step | None:
    """What the listed clips of a place may carry sideways; None: no side value is given."""
    if hold.rated_lateral is None:
        return None
    source = hold.rated_source or "source not given"
    rated = member.batch.column(hold.path("rated_lateral"))
    listed = given("F_listed", rated, "lb", "listing", source)
    times = member.clips.combinations.times
    return connections.rated_lateral(listed, hold.rated_for, times, member.batch.clips(hold))


def lateral_holds(model: Model) -> dict[str, HoldDown]:
    """Hold-downs into framing, by place: what resists sliding."""
    return {name: h for name, h in model.hold_downs.items() if h.into != SHEATHING_ONLY}


def along_at(member: LoadedMember, actions: Combined, place: str) -> Array | None:
    """Force along the member that one place may have to carry, lb; None: there is none.

    The edge, where it has a hold-down into framing, may carry all of it; else, and inward of the
    edge, each place its share of all that stand in framing, by their side values.
    """
    total = actions.side.N_all
    if total is None:
        return None
    holds = lateral_holds(member.model)
    if place not in holds:
        return np.zeros_like(total)
    if place == EDGE:
        return np.abs(total)
    values = _side_values(member, actions, holds)
    whole = sum(values.values(), np.zeros((1, 1)))
    part = np.divide(values[place], whole, out=np.zeros_like(whole), where=whole > 0)
    return np.abs(total) * part


def _side_values(
    member: LoadedMember, actions: Combined, holds: dict[str, HoldDown]
) -> dict[str, Array]:
    """Side value of each place, lb: as listed, times the count, or of its fasteners.

    By their number where one is not known, or listed and built clips stand together, which leaves
    sliding open; where all are none, too.
    """
    batch = member.batch
    by_number = {name: np.reshape(batch.clips(hold), (-1, 1)) for name, hold in holds.items()}
    found = dict[str, Array]()
    kinds = set[bool]()
    for name, hold in holds.items():
        by_fasteners = built(hold) and hold.rated_lateral is None
        kinds.add(by_fasteners)
        if not by_fasteners and hold.rated_lateral is not None:
            found[name] = batch.column(hold.path("rated_lateral")) * batch.clips(hold)
        elif by_fasteners and actions is member.main:
            value = lateral_of_place(member, name, hold)
            if value is not None:
                found[name] = np.asarray(value.value)
    known = len(found) == len(holds) and len(kinds) == 1
    return found if known and any(np.any(v > 0) for v in found.values()) else by_number
