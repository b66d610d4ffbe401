"""Crushing at the garage wall, at the house wall and at the back. NDS 2018 3.10, APA TT-001B."""

import numpy as np
from msgspec.structs import replace

from outrigger.actions import by_hand
from outrigger.actions.places import BACK, EDGE, WALL_LINE
from outrigger.cases.below import HEADER
from outrigger.checks.loaded_member import (
    BACK_BEARING_IN,
    BLOCKING,
    COMMON,
    COOL,
    CROSSING_MEMBER,
    FRAMING_PSI,
    LEAST_CONTACT_IN,
    PANEL_ONLY,
    RAFTER,
    RAFTER_TAIL,
    SHEATHING_LRFD,
    SHEATHING_PSI,
    LoadedMember,
    breadth_at,
    contact,
)
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, Terms, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Num
from outrigger.wood import bearing, lumber, reference
from outrigger.wood.adjusted import FORMULAS, Conditions, adjusted, factor_step, temperature

WALL_BEARING = Kind("wall_bearing", "crushing", engineers="bearing", stands_at=WALL_LINE)
EDGE_BEARING = Kind("edge_bearing", "crushing", engineers="bearing", stands_at=EDGE)
BACK_BEARING = Kind("back_bearing", "crushing", engineers="bearing", stands_at=BACK)
OUTRIGGER, SHEATHING, FRAMING, PLATE = "outrigger", "sheathing", "framing below", "garage plate"


def _crushing(
    member: LoadedMember, kind: Kind, place: str, R: Step, length: Num | Step, Cb: Step
) -> Check:
    """The member crushed across its grain."""
    return _layer(member, kind, place, OUTRIGGER, R, length, member.adjusted("Fc_perp", Cb))


def other_wood(member: LoadedMember, species: str | None) -> Step:
    """Fc_perp of a plate or of house framing, Cb 1: the least of its grades; dry, and as hot as
    the outrigger."""
    if species is None:
        value, note, status = FRAMING_PSI, "species not given: 335 psi taken", ""
    else:
        rows = [g for g in reference.grades(species) if g.graded == reference.BY_EYE]
        least = min((g.values["Fc_perp"] for g in rows), key=lambda v: v.value)
        value, note, status = least.value, f"{species}, least of its grades, dry", least.status
    tabulated = given("Fc_perp", value, "psi", "NDS Supplement 2018", note, status)
    dry = replace(member.conditions, wet=False)
    plain: dict[str, Num | Step] = {
        "Fc_perp": tabulated,
        "CM": 1.0,
        "Ct": 1.0 if dry.temperature == COOL else temperature("Fc_perp", dry),
        "Ci": 1.0,
        "Cb": 1.0,
    }
    chosen = FORMULAS["Fc_perp"][member.conditions.method]
    for name in chosen.arguments[len(plain) :]:
        plain[name] = factor_step(name, "Fc_perp", member.model.wood, member.conditions, 1.0)
    return chosen.step(**plain)


def _layer(
    member: LoadedMember, kind: Kind, place: str, layer: str, R: Step, length: Num | Step, cap: Step
) -> Check:
    """One layer of a bearing: outrigger, sheathing, plate, framing."""
    b = member.b if place == WALL_LINE else breadth_at(member, place)
    row = bearing.bearing(
        link=Link(kind, layer, layer), place=place, R=R, b=b, l_bearing=length, Fc_perp_adj=cap
    )
    return member.over(row)


def _sheathing(member: LoadedMember, kind: Kind, place: str, R: Step, length: Num | Step) -> Check:
    """The roof sheathing under the member. APA TT-001B: no CD, no Cb; LRFD x 1.5 by analogy."""
    stated = member.case.house_roof.sheathing_bearing
    value = SHEATHING_PSI if stated is None else stated
    note = "taken, dry panel between two solids" if stated is None else "as stated"
    if member.conditions.method == "LRFD":
        value, note = value * SHEATHING_LRFD, f"{note}; x 1.5 for LRFD by analogy"
    cap = given("Fc_perp_adj", value, "psi", "APA TT-001B", note)
    row = _layer(member, kind, place, SHEATHING, R, length, cap)
    if stated is None and (member.conditions.wet or member.conditions.temperature != COOL):
        hot = "a cool panel: give house_roof.sheathing_bearing for this temperature"
        wet = "a dry panel: give house_roof.sheathing_bearing for wet service"
        why = f"360 psi is for {wet if member.conditions.wet else hot}"
        return replace(row, clause="APA TT-001B", rule="open", why=why)
    return replace(row, clause="APA TT-001B")


def wall_bearing(member: LoadedMember) -> list[Check]:
    """Crushing under the garage wall: the outrigger and the plate. NDS 2018 3.10.

    Down the slope the plate sits level: the whole load crushes the outrigger at 90 - theta to its
    grain. Across the slope the plate lies on the tilted member.
    """
    shape, model = member.model.shape, member.model
    on_line = (model.loads if shape.tilt.down else model.by_axis.square).wall_line
    table, chosen = model.table(on_line), member.main.combinations
    R = member.force("R", chosen.combine(table), "lb", "load of the garage wall")
    R = replace(R, terms=Terms(model.parts, chosen.factors, table))
    length = shape.wall_bearing
    plate = member.batch.column("gap.garage_plate")
    to_end = np.maximum(shape.tail - plate / 2, 0.0)
    Cb = bearing.bearing_area_factor(length, to_end)
    species = member.case.garage_wall.plate_species
    own = _crushing(member, WALL_BEARING, WALL_LINE, R, length, Cb)
    if shape.tilt.down:
        own = _on_level_seat(member, own)
    plate_cap = other_wood(member, species)
    return [own, _layer(member, WALL_BEARING, WALL_LINE, PLATE, R, length, plate_cap)]


def _on_level_seat(member: LoadedMember, row: Check) -> Check:
    """The row with the bearing value at an angle to the grain. NDS 2018 3.10.3."""
    theta = given("theta_roof", member.model.shape.tilt.theta, "deg", "", "slope of the house roof")
    angle = bearing.angle_to_grain.step(theta_roof=theta)
    fc, Fc_perp = row.steps
    Fc_star = member.adjusted("Fc")
    cap = bearing.at_an_angle.step(Fc_star=Fc_star, Fc_perp_adj=Fc_perp, theta_grain=angle)
    return replace(row, clause="NDS 2018 3.10.3", capacity=cap.value, steps=(fc, cap))


def edge_bearing(member: LoadedMember) -> list[Check]:
    """Crushing at the house wall: outrigger, sheathing, framing below. NDS 2018 3.10."""
    R = member.force("R", member.main.R_edge, "lb", "pushes down on the house at the edge")
    if member.hand is not None:
        R = by_hand.attach(member.hand.edge_push(), R.value)
    touching, shape = contact(member.batch, member.d), member.model.shape
    length = np.where(touching > 0, touching, LEAST_CONTACT_IN)
    nearer = np.minimum(shape.end, -shape.house_end) - length / 2
    Cb = bearing.bearing_area_factor(length, nearer)
    rows = [
        _crushing(member, EDGE_BEARING, EDGE, R, length, Cb),
        _sheathing(member, EDGE_BEARING, EDGE, R, length),
        _layer(member, EDGE_BEARING, EDGE, FRAMING, R, length, _below(member)),
    ]
    if np.any(touching == 0):
        why = "the bearing is set back past what is below it: nothing carries the edge"
        rows = [replace(row, why=why) for row in rows]
    support = member.case.house_roof.edge_support
    if support == PANEL_ONLY:
        why = "nothing but the panel is below the edge: put a wall, blocking or framing under it"
        rows[1] = replace(rows[1], capacity=0.0, rule="fail", why=why)
    if support == RAFTER_TAIL:
        why = "a rafter tail bends under this load: the engineer must check the rafter"
        rows[2] = replace(rows[2], rule="open", why=why)
    if support in (BLOCKING, CROSSING_MEMBER, RAFTER) and member.case.house_edge is None:
        why = f"the {support} under the outriggers is not checked: its bending and its ends"
        rows[2] = replace(rows[2], rule="open", why=why)
    return rows


def _below(member: LoadedMember) -> Step:
    """Fc_perp of what lies under the edge: of the member where it is given, else as framing; of a
    header no more than of the plate that lies on it, as framing."""
    edge = member.case.house_edge
    as_framing = other_wood(member, member.case.house_roof.framing_species)
    if edge is None:
        return as_framing
    own = member.conditions
    use = Conditions(own.method, wet=edge.moisture == "wet", temperature=own.temperature)
    wood = lumber.wood(edge.species, edge.grade, edge.size)
    its_own = adjusted("Fc_perp", wood, use, 1.0)
    plate_less = edge.kind == HEADER and np.all(as_framing.value < its_own.value)
    return as_framing if plate_less else its_own


def back_bearing(member: LoadedMember) -> list[Check]:
    """Crushing where a hold-down place is pushed down. NDS 2018 3.10, Cb 1."""
    rows = []
    Cb = given("Cb", 1.0, "", "NDS 2018 3.10.4", "1 taken")
    below = other_wood(member, member.case.house_roof.framing_species)
    for (name, _), table in zip(member.model.supports[:-1], member.main.R, strict=False):
        if not np.any(table > 0):
            continue
        R = member.force("R", table, "lb", f"pushes down at {name}")
        if member.hand is not None:  # two supports: the back
            R = by_hand.attach(member.hand.back_push(), R.value)
        length = given("l_bearing", BACK_BEARING_IN, "in", COMMON, "1 1/2 in taken")
        rows += [
            _crushing(member, BACK_BEARING, name, R, length, Cb),
            _sheathing(member, BACK_BEARING, name, R, length),
            _layer(member, BACK_BEARING, name, FRAMING, R, length, below),
        ]
    return rows
