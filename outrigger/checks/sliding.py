"""Sliding: force along the member, and across it at each place, against the clips' side values.

Listed side values in the ASD set, those of fasteners in the method's own. NDS 2018 chapter 12.
"""

from collections.abc import Iterable
from typing import Any

import numpy as np
from msgspec.structs import replace

from outrigger.actions.combined import Combined
from outrigger.actions.places import BACK, EDGE
from outrigger.cases.hold_down import HoldDown, built, through
from outrigger.checks.hold_downs import listing_holds
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.side_values import (
    lateral_capacity,
    lateral_holds,
    lateral_of_place,
)
from outrigger.checks.sideways import (
    across_at,
    nothing_acts,
    reaction_across,
)
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, given
from outrigger.formula.kind import Kind, Link

SLIDE = Kind("slide", "sliding", quiet=True)
ALONG, ACROSS = Link(SLIDE, "along", "along"), Link(SLIDE, "across", "across")


def slides(member: LoadedMember) -> list[Check]:
    """Sliding along the slope, and across it at each place."""
    rows = _along(member) + _across(member)
    return rows or [nothing_acts(Link(SLIDE, "", ""), "lb")]


def _value(member: LoadedMember, name: str, hold: HoldDown) -> tuple[Combined, Step | None]:
    """The combinations that a place is held in, and its side value; None: not given."""
    if _by_fasteners(hold):
        return member.main, lateral_of_place(member, name, hold)
    return member.clips, lateral_capacity(member, hold)


def _by_fasteners(hold: HoldDown) -> bool:
    """Whether its side value is that of its own fasteners, and of no listing."""
    return built(hold) and hold.rated_lateral is None


def _held(member: LoadedMember, holds: Iterable[HoldDown]) -> dict[str, Any]:
    """Rule and reason of a row whose listed side values are for another wood, base or service."""
    found = (listing_holds(member, hold) for hold in holds if not _by_fasteners(hold))
    return next(({"rule": rule, "why": why} for rule, why in found if rule), {})


def _leans(hold: HoldDown) -> bool:
    """A bent clip, whose upright leg a force across bends: not computed."""
    return _by_fasteners(hold) and not through(hold)


def _along(member: LoadedMember) -> list[Check]:
    if member.main.side.N_all is None:
        return []
    holds = lateral_holds(member.model)
    place = EDGE if EDGE in holds else BACK
    chosen = {EDGE: holds[EDGE]} if EDGE in holds else holds
    found = [_value(member, name, hold) for name, hold in chosen.items()]
    actions = found[0][0] if found else member.clips
    total = actions.side.N_all
    assert total is not None
    note = "along the member: no friction is counted"
    demand = given("F_along", np.abs(total), "lb", "statics", note)
    row = Check(
        link=ALONG,
        place=place,
        clause="statics",
        demand=demand.value,
        capacity=None,
        unit="lb",
        steps=(demand,),
    )
    if not found:
        why = "no clip reaches framing: what keeps the outrigger from sliding is not known"
        return [member.over(replace(row, why=why), actions)]
    if len({_by_fasteners(h) for h in chosen.values()}) > 1:
        why = "listed and built clips together: how they share the force is not known"
        return [member.over(replace(row, why=why), actions)]
    caps = [cap for _, cap in found if cap is not None]
    if len(caps) < len(found):
        where = "at the edge, which may carry all of it" if EDGE in holds else "that resists it"
        why = f"no side value (rated_lateral) is given of the clip {where}"
        return [member.over(replace(row, why=why), actions)]
    whole = np.asarray(sum((cap.value for cap in caps[1:]), caps[0].value))
    if EDGE in holds:
        why = "the clips at the edge may carry all of it: more side rating there, or a stop"
        row = replace(row, why=why)
    by_fasteners = any(map(_by_fasteners, chosen.values()))
    clause = "NDS 2018 12.3" if by_fasteners else "listed value"
    row = replace(row, clause=clause, capacity=whole, steps=(demand, *caps))
    return [member.over(replace(row, **_held(member, chosen.values())), actions)]


def _across(member: LoadedMember) -> list[Check]:
    rows, holds = [], lateral_holds(member.model)
    names = [name for name, _ in member.model.supports]
    if member.main.side.R_across is None:
        return []
    for name in names:
        actions, cap = _value(member, name, holds[name]) if name in holds else (member.clips, None)
        if name in holds and _leans(holds[name]):
            cap = None
        force = across_at(names, actions, name)
        assert force is not None
        demand = given("R_across", force, "lb", "statics", f"across the member at {name}")
        hand = member.side_hand if actions is member.main else member.clip_side_hand
        if hand is not None:
            demand = reaction_across(hand, name, force)
        clause = "NDS 2018 12.3" if actions is member.main and cap is not None else "listed value"
        row = Check(
            link=ACROSS,
            place=name,
            clause=clause,
            demand=force,
            capacity=None,
            unit="lb",
            steps=(demand,),
        )
        if cap is None:
            why = (
                "no side value (rated_lateral) is known of the clip here"
                if name in holds
                else "no hold-down into framing holds the outrigger sideways here"
            )
            row = replace(row, why=why)
        else:
            row = replace(row, capacity=cap.value, steps=(demand, cap))
            row = replace(row, **_held(member, [holds[name]]))
        rows.append(member.over(row, actions))
    return rows
