"""Assumptions of the checks of what carries on: the house under the outriggers."""

from collections.abc import Iterator

from outrigger.base.quantity import length
from outrigger.cases.below import (
    BLOCKING,
    CROSSING_MEMBER,
    HEADER,
    RAFTER,
    TOP_PLATE,
    HouseEdge,
)
from outrigger.cases.model import Case
from outrigger.checks.house_edge import END_BEARING_IN
from outrigger.checks.plate import ALIKE


def below_notes(case: Case) -> list[str]:
    """What was taken of the tables that the case has."""
    edge, tie = case.house_edge, case.wall_tie
    found = [] if edge is None else list(_house_edge(edge))
    wall = case.garage_wall
    if wall.stud_spacing is not None and wall.studs_over_outriggers:
        bays = case.outrigger.spacing / wall.stud_spacing
        if abs(bays - round(bays)) > ALIKE:
            apart = f"those {length(wall.stud_spacing)} apart, which may stand anywhere"
            found.append(f"a stud stands over every outrigger by the file's word, beside {apart}")
    if wall.plates > 1 and (wall.stud_spacing is not None or not wall.studs_over_outriggers):
        found.append(f"all {wall.plates} plates of the garage wall carry what lands between the "
                     "outriggers, none with a joint there")  # fmt: skip
    if wall.studs is not None:
        found.append("the studs over the outriggers: held by the wall's sheathing, loaded on their "
                     "middle")  # fmt: skip
    if case.house_rafter is not None:
        found += _house_rafter(case)
    if tie is not None and tie.fastener:
        found.append("the wall tie's fasteners stand in the middle of the outrigger, side by side")
    return found


def _house_rafter(case: Case) -> Iterator[str]:
    if case.house_rafter is None or case.house_rafter.kind == "truss":
        return
    beside = case.house_roof.framing_parallel
    row = "a row of outriggers at its worst, a worker on one"
    stands = "one outrigger on each, at mid-span" if beside else row
    yield f"the house rafters: {stands}; simple spans, dry, held by the sheathing from above alone"


def _house_edge(edge: HouseEdge) -> Iterator[str]:
    below = f"the {edge.kind} under the outriggers"
    if edge.kind == RAFTER:
        at = "where it is said"
        if edge.edge_at is None:
            at = "at its mid-span, for shear and bearing right at an end"
        yield f"{below}: one outrigger on each, its edge {at}, its other places at mid-span"
    else:
        stands = "the row of outriggers at its worst place, a worker on one of them"
        yield f"{below}: a simple span, {stands}"
    if edge.kind == TOP_PLATE and edge.plies > 1:
        yield f"{below}: all {edge.plies} plates carry, none with a joint between the studs there"
    if edge.kind in (TOP_PLATE, CROSSING_MEMBER):
        yield f"{below}: where it runs on, its supports and its shear as of two equal spans"
    if edge.kind != TOP_PLATE:
        yield f"{below}: held upright at its ends, and nowhere between"
    if edge.ends is not None and edge.ends.fastener:
        yield f"{below}: fastened through framing 1 1/2 in thick into its end grain"
    elif edge.kind in (HEADER, RAFTER) and edge.end_bearing is None:
        yield f"{below}: {END_BEARING_IN:g} in of bearing at each end taken"
    if edge.kind == BLOCKING:
        yield f"{below}: what its ends are fastened to is not checked"
    if edge.stud is not None:
        yield "the studs below: held by the wall's sheathing, and loaded on their middle"
        if not edge.stud.wind:
            said = "none by the file's word" if edge.stud.wind is not None else "not given"
            yield f"the studs below: under compression alone, the wind on that wall {said}"
