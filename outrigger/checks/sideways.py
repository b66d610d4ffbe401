"""Forces along and across the outrigger at its places; the roof's form.

A force along slides the outrigger over the sheathing; only hold-downs into framing resist it, and
friction is never counted. A force across is held at each place by its own reaction; how it tips
the member over: `tipping`.
"""

import numpy as np
from msgspec.structs import replace

from outrigger.actions import by_hand
from outrigger.actions.by_hand import Hand
from outrigger.actions.combined import Combined
from outrigger.actions.places import EDGE, WALL_LINE
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.side_values import along_at
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array

FORM = Kind("form", "rafters not tied")
UNTIED = Link(FORM, "", "")


def across_at(model_places: list[str], actions: Combined, place: str) -> Array | None:
    """Force across the member at one place, lb; None: there is none."""
    if actions.side.R_across is None:
        return None
    return np.abs(actions.side.R_across[model_places.index(place)])


def side_forces_act(actions: Combined) -> bool:
    """Whether anything acts along or across the member."""
    return actions.side.N_all is not None or actions.side.R_across is not None


def side_forces(member: LoadedMember, actions: Combined, place: str) -> tuple[Step, Step]:
    """Forces along and across the member at one place, lb; zero where none act."""
    names = [name for name, _ in member.model.supports]
    along, across = along_at(member, actions, place), across_at(names, actions, place)
    none = np.zeros((1, 1))
    return (
        given("F_along", none if along is None else along, "lb", "statics", f"at {place}"),
        given("F_across", none if across is None else across, "lb", "statics", f"at {place}"),
    )


def reaction_across(hand: Hand, name: str, force: Array) -> Step:
    """A reaction across by its closed form, its size."""
    closed = hand.edge_push() if name == EDGE else hand.back_pull()
    return replace(by_hand.attach(closed, force, by_hand.size), symbol="R_across")


def nothing_acts(link: Link, unit: str) -> Check:
    """A row of a member on which nothing acts sideways."""
    none = np.zeros((1, 1))
    return Check(
        link=link, place=EDGE, clause="statics", demand=none, capacity=1.0, unit=unit, steps=()
    )


def form(member: LoadedMember) -> list[Check]:
    """Rafters that are not tied fail by rule."""
    roof = member.case.garage_roof
    if not roof.bearing or roof.form != "untied rafters":
        return []
    why = "untied rafters push the wall over: tie them, hang them on a ridge beam, or use trusses"
    row = Check(
        link=UNTIED,
        place=WALL_LINE,
        clause="statics",
        demand=1.0,
        capacity=0.0,
        unit="",
        steps=(),
        rule="fail",
        why=why,
    )
    return [row]
