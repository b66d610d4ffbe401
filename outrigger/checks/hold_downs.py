"""Hold-downs against their listed values, a missing edge tie, splitting at side fasteners."""

import numpy as np
from msgspec.structs import replace

from outrigger.actions.combined import Combined
from outrigger.actions.places import EDGE
from outrigger.base.quantity import length
from outrigger.cases.hold_down import (
    BLOCKING,
    SHEATHING_ONLY,
    STRAP,
    THROUGH,
    HoldDown,
    astride,
    at_edge,
    built,
    clip_or_through,
    through,
)
from outrigger.cases.listing import read_base
from outrigger.cases.sections import HouseRoof
from outrigger.checks.built_clip import chain
from outrigger.checks.holes import at_hole
from outrigger.checks.loaded_member import COOL, LoadedMember, framing_gravity
from outrigger.checks.one_clip import HOLD_DOWN, clip_of
from outrigger.checks.panel import panel
from outrigger.checks.side_values import lateral_capacity
from outrigger.checks.sideways import side_forces, side_forces_act
from outrigger.fasteners import listed as connections
from outrigger.fasteners.trade_names import read_fastener
from outrigger.formula.check import Check, Rule
from outrigger.formula.formula import Step, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array
from outrigger.loads.gravity import fastener_gravity
from outrigger.marks.feet import on_bare_panel
from outrigger.wood import shear

CLIP = Link(HOLD_DOWN, "clip", "each", weakest="the clip, not known")
RATED = Link(HOLD_DOWN, "rated clip", "each", weakest="the listed clip itself")
BLOCKS = Link(
    HOLD_DOWN,
    "blocks between rafters",
    "",
    "blocks between the rafters",
    weakest="the blocks under its feet, not checked",
)
NO_INNER_FOOT = (
    "a strap on one piece of a pair has no foot between the two, which touch: what it holds with "
    "one foot is not known; a strap over both, or clips on the outer faces, by the engineer"
)
DRY_ONLY = "listed values are for dry, cool service: the listing must give this one"
BUILT_DRY = (
    "listed values are for wood that is dry when the clip goes on: the listing must give this"
)
NO_TIE = Link(HOLD_DOWN, "no tie", "no tie there", "uplift", missing=True)
SPLIT = Kind("split", "splitting", engineers="tension across grain", by_place=True, chained=True)
SPLIT_AT_SIDE = Link(
    SPLIT, "side fasteners", "", weakest="the outrigger splits at its side fasteners"
)


def hold_downs(member: LoadedMember) -> list[Check]:
    """Uplift at each hold-down against its listed value; a missing edge tie. Listed value."""
    rows = list[Check]()
    for name in member.clips.held:
        hold = member.holds.get(name)
        rows += [_on_a_pair(member, hold, row) for row in _of_place(member, name, hold)]
    sets = [member.clips] if member.clips is member.main else [member.main, member.clips]
    for actions in sets:  # 0.9D + W may lift where 0.6D + 0.6W does not
        if actions.no_tie is not None and np.any(actions.no_tie > 0):
            rows.append(member.over(_missing_tie(member, actions, actions.no_tie), actions))
    return rows


def _of_place(member: LoadedMember, name: str, hold: HoldDown | None) -> list[Check]:
    """The rows of one place."""
    if hold is not None and built(hold):
        rows = chain(member, name, hold)
    else:
        rows = [_clip(member, name, hold)]
        if hold is not None and hold.into == SHEATHING_ONLY:  # what carries the panel on
            rows += panel(clip_of(member, name, hold))
        if hold is not None and through(hold) and hold.deck_fastener:
            rows.append(at_hole(member, name))
    if hold is not None and hold.into == BLOCKING:
        rows.append(_blocks(member, name, hold))
    return rows


def _on_a_pair(member: LoadedMember, hold: HoldDown | None, row: Check) -> Check:
    """A row of a strap on one piece of a pair stays open: it has a foot on the outer side alone."""
    if hold is None or not astride(hold) or not np.any(member.batch.paired):
        return row
    return replace(row, open_at=member.batch.paired[:, 0], why=row.why or NO_INNER_FOOT)


def _clip(member: LoadedMember, name: str, hold: HoldDown | None) -> Check:
    pull = member.clips.uplift[name]
    place = given("T_place", pull, "lb", "statics", f"uplift at {name}")
    if hold is None:
        return _not_known(member, name, place, "no clip is given here")
    place = member.closed_pull(place, name, member.clip_hand)
    T = connections.per_clip.step(T_place=place, n_clips=member.batch.clips(hold))
    if hold.rated_uplift is None:
        return _not_known(member, name, T, _unknown(hold))
    cap = listed_uplift(member, hold).cap
    rule, why = listing_holds(member, hold)
    if not np.any(np.asarray(cap.value)):
        why = "its listed value is none"
    row = Check(
        link=RATED,
        place=name,
        clause="listed value",
        demand=T.value,
        capacity=cap.value,
        unit="lb",
        steps=(T, cap),
        rule=rule,
        why=why,
    )
    return member.over(_with_side_force(member, name, hold, row), member.clips)


def _unknown(hold: HoldDown) -> str:
    """Why it is not known what a place without a listed value holds."""
    if clip_or_through(hold):
        return f"a clip, or a screw down through the outrigger: {hold.path('kind')} is not said"
    if hold.kind == STRAP:
        return "no listed uplift of the strap is given"
    if hold.kind == THROUGH:
        return "neither a listed uplift nor the screw through the outrigger is given"
    return "neither a listed uplift nor the clip's fasteners are given"


def _blocks(member: LoadedMember, name: str, hold: HoldDown) -> Check:
    """Blocks between the rafters that the feet stand on: what holds them is for the engineer."""
    actions = member.main if built(hold) else member.clips
    T = given("T_place", actions.uplift[name], "lb", "statics", f"uplift at {name}")
    T = member.closed_pull(T, name, member.hand if built(hold) else member.clip_hand)
    why = (
        "the blocks between the rafters, their ends and these rafters are not checked: they "
        "take this pull, and any side force: the engineer says how they are held"
    )
    return member.over(_open(BLOCKS, name, "statics", T, why), actions)


def _not_known(member: LoadedMember, name: str, T: Step, why: str) -> Check:
    """A place whose hold-down is not given, or not what it holds."""
    return member.over(_open(CLIP, name, "listed value", T, why), member.clips)


def _open(link: Link, name: str, clause: str, T: Step, why: str) -> Check:
    """A pull that nothing here can be held to."""
    return Check(
        link=link,
        place=name,
        clause=clause,
        demand=T.value,
        capacity=None,
        unit="lb",
        steps=(T,),
        rule="open",
        why=why,
    )


def listed_uplift(member: LoadedMember, hold: HoldDown) -> connections.Listed:
    """The listed value of one clip of a place; none stated counts as 0."""
    source = hold.rated_source or "source not given"
    rated = member.batch.load(hold.path("rated_uplift"))
    listed = given("T_listed", rated, "lb", "listing", source)
    return connections.rated_uplift(listed, hold.rated_for, member.clips.combinations.times)


def _with_side_force(member: LoadedMember, name: str, hold: HoldDown, row: Check) -> Check:
    """The row with the force along and across that the same clips carry, linear interaction."""
    if not side_forces_act(member.clips):
        return row
    along, across = side_forces(member, member.clips, name)
    force = connections.resultant.step(F_along=along, F_across=across)
    T, cap = row.steps
    side = lateral_capacity(member, hold)
    if side is None:
        if np.any(np.asarray(force.value) != 0):
            why = "these clips also carry a side force, and no rated_lateral is given"
            return replace(row, rule="open", why=row.why or why)
        return row
    if not np.any(np.asarray(cap.value)):
        return row  # nothing in pull: it fails already
    if not np.any(np.asarray(side.value)):
        if np.any(np.asarray(force.value) != 0):
            why = "these clips also carry a side force, and their listed side value is none"
            return replace(row, capacity=0.0, why=why)
        return row
    ratio = connections.pull_and_slide.step(T_clip=T, T_cap=cap, F_result=force, F_place=side)
    clause = "listed values, linear interaction"
    return replace(row, clause=clause, demand=ratio.value, capacity=1.0, unit="", steps=(ratio,))


def listing_holds(member: LoadedMember, hold: HoldDown) -> tuple[Rule, str]:
    """Whether a listing is for this wood and this base; else it stays open, with the reason."""
    place = EDGE if at_edge(hold) else ""
    if hold.rated_wood is not None:
        listed = fastener_gravity(hold.rated_wood)
        own = fastener_gravity(member.model.wood.row.species)
        weakest = min(own, framing_gravity(member.case, place))
        if weakest < listed:
            why = f"listed for G {listed:g} ({hold.rated_wood}), but the wood here is G {weakest:g}"
            return "open", why
    if member.below(place).wet or member.conditions.temperature != COOL:
        return "open", DRY_ONLY
    if not member.case.outrigger.seasoned:
        return "open", BUILT_DRY
    why = on_bare_panel(member.case, hold) or _other_base(member.case.house_roof, hold)
    return ("open", why) if why else ("", "")


def _other_base(house: HouseRoof, hold: HoldDown) -> str:
    """Why a listing is for another base than the clip stands on; empty where it is for this one,
    or where it is not given and asked for."""
    if not hold.rated_into or hold.into is None:
        return ""
    base = read_base(hold.rated_into)
    here = house.sheathing_thickness
    lies = "sheathing" if here is None else f"{house.sheathing or 'panel'} {length(here)}"
    if hold.into == SHEATHING_ONLY:
        if base.framing:
            return "listed into framing, but fastened into sheathing only"
        if base.is_other(house.sheathing):
            return f"listed into {hold.rated_into}, but {lies} is another panel"
        thinner = base.thickness is not None and here is not None and here < base.thickness
        return f"listed into {hold.rated_into}, but {lies} is thinner" if thinner else ""
    if not base.framing:
        return f"listed into {hold.rated_into}, but fastened into framing"
    if not base.through:
        return (
            f"the listing says into framing; {lies} lies between: does it hold through it? "
            f"Then {hold.path('rated_into')}=framing through {lies}"
        )
    thicker = base.thickness is not None and here is not None and here > base.thickness
    if thicker or base.is_other(house.sheathing):
        return f"listed through {base.through}, but {lies} lies between"
    return ""


def _missing_tie(member: LoadedMember, actions: Combined, demand: Array) -> Check:
    T = given("T_place", demand, "lb", "statics", "uplift at the edge that nothing holds")
    hand = member.clip_hand if actions is member.clips else member.hand
    T = member.closed_pull(T, EDGE, hand)
    row = Check(
        link=NO_TIE,
        place=EDGE,
        clause="statics",
        demand=demand,
        # no hold-down given at all is not given, not none
        capacity=0.0 if member.holds else None,
        unit="lb",
        steps=(T,),
        why='net uplift and no tie here: add [[hold_down]] with at = "edge"',
    )
    return member.over(row, actions)


def splits(member: LoadedMember) -> list[Check]:
    """Tension across the grain at side-fastened hold-downs. NDS 2018 3.4.3.3, by analogy.

    Left out where the listing covers it, the tie goes over the top, or the height is not given.
    """
    rows = []
    for name, hold in member.model.hold_downs.items():
        height = hold.side_height
        listed = hold.rated_across_grain and not built(hold)  # fasteners of its own have no listing
        if listed or not isinstance(height, float) or name not in member.main.held:
            continue
        rows.append(_split(member, name, hold, height))
    return rows


def _split(member: LoadedMember, name: str, hold: HoldDown, height: float) -> Check:
    """One place; the plies that count are those that a clip stands against."""
    shape, plies = member.model.shape, member.case.outrigger.plies
    x = dict(member.model.supports)[name]
    near = np.minimum(shape.end - x, x - shape.house_end) < 5 * member.d
    Fv_adj, d_e = member.adjusted("Fv"), min(height, member.d)
    b = member.b / plies * np.minimum(plies, member.batch.clips(hold))
    V = given("V", member.main.uplift[name], "lb", "statics", f"uplift at {name}")
    close = shear.split_near_end.step(Fv_adj=Fv_adj, b=b, d_e=d_e, d=member.d)
    far = shear.split_inside.step(Fv_adj=Fv_adj, b=b, d_e=d_e)
    row = Check(
        link=SPLIT_AT_SIDE,
        place=name,
        clause="NDS 2018 3.4.3.3",
        demand=V.value,
        capacity=np.where(near, close.value, far.value),
        unit="lb",
        steps=(V, close if np.all(near) else far),
    )
    row = member.over(row)
    if hold.side_fastener and not read_fastener(hold.side_fastener).small:
        return row
    # the clause is for bolts and lags; for nails and screws by analogy, so over 1 is open
    why = "by analogy with lags and bolts: give a listing across the grain, or go over the top"
    return replace(row, rule="analogy", why=why)
