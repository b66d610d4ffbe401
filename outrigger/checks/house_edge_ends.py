"""What carries the member under the outriggers on: its ends, and the studs.

NDS 2018 3.7, 3.9, 3.10, 12.3. Listed values in the ASD combinations. Not given: none of it.
"""

from typing import Any

import numpy as np
from msgspec.structs import replace

from outrigger.actions.places import EDGE
from outrigger.cases.below import (
    BLOCKING,
    CROSSING_MEMBER,
    HEADER,
    TOP_PLATE,
    MemberEnds,
)
from outrigger.checks.bearing import other_wood
from outrigger.checks.hold_downs import DRY_ONLY
from outrigger.checks.house_edge import (
    HOUSE_EDGE,
    EdgeMember,
)
from outrigger.checks.house_edge_sag import deflections
from outrigger.checks.house_edge_self import bearing_length, in_itself
from outrigger.checks.loaded_member import COOL, LoadedMember
from outrigger.fasteners import adjusted as connection_values
from outrigger.fasteners import dowel_bearing
from outrigger.fasteners import listed as connections
from outrigger.fasteners.adjusted import Use
from outrigger.fasteners.dowel_bearing import Layer
from outrigger.fasteners.lateral import reference_lateral
from outrigger.fasteners.trade_names import read_fastener
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Link
from outrigger.formula.numbers import Num
from outrigger.loads.gravity import fastener_gravity
from outrigger.wood import bearing, dressed, lumber
from outrigger.wood.adjusted import adjusted
from outrigger.wood.column import StudLinks, column

ENDS_BEAR = Link(HOUSE_EDGE, "bearing at its ends", "bearing at its ends")
BELOW_ENDS = Link(HOUSE_EDGE, "bearing at its ends, framing", "its ends on the framing")
ON_STUD = Link(HOUSE_EDGE, "plate on the stud", "plate on the stud")
FASTENED = Link(HOUSE_EDGE, "fasteners of its ends", "fasteners of its ends")
HANGER = Link(HOUSE_EDGE, "listed at its ends", "listed at its ends")
HELD_UP = Link(HOUSE_EDGE, "uplift at its ends", "uplift at its ends")
LINKS = StudLinks(
    Link(HOUSE_EDGE, "stud", "stud"),
    Link(HOUSE_EDGE, "stud, stability", "stud, stability"),
    Link(HOUSE_EDGE, "stud, slenderness", "stud, slenderness"),
)
SIDE_IN = 1.5  # of what a block ends against, taken


@formula("Z_end", "lb", clause="NDS 2018 11.2.1")
def value_of_end(n_fast: Num, Z_adj: Num) -> Num:
    """Lateral value of the fasteners of one end."""
    return n_fast * Z_adj


@formula("N_stud", "lb", clause="statics")
def share_of_stud(R_stud: Num, n_studs: Num) -> Num:
    """Compression of one of the studs that share it."""
    return R_stud / n_studs


def house_edge(member: LoadedMember) -> list[Check]:
    """Every row of the member under the outriggers; none where it is not given."""
    edge = member.case.house_edge
    if edge is None:
        return []
    below = EdgeMember(member, edge)
    return [*in_itself(below), *_ends(below), *_column(below), *deflections(below)]


def _row(below: EdgeMember, link: Link, clause: str, demand: Step, cap: Step | None,
         **more: Any) -> Check:  # fmt: skip
    check = Check(
        link=link,
        place=EDGE,
        clause=clause,
        demand=np.maximum(demand.value, 0.0),
        capacity=None if cap is None else cap.value,
        unit=demand.unit,
        steps=(demand,) if cap is None else (demand, cap),
    )
    return below.row(replace(check, **more))


def _ends(below: EdgeMember) -> list[Check]:
    """How its ends hold: by fasteners or listed values, or by bearing and a tie against uplift."""
    edge, ends = below.edge, below.edge.ends
    if ends is not None and ends.fastener:
        return [_fastened(below, ends)]
    if edge.kind in (BLOCKING, CROSSING_MEMBER) and edge.end_bearing is None:
        return _hung(below, ends)
    down = [_plate_on_stud(below)] if edge.kind == TOP_PLATE else _end_bearing(below)
    lifts = np.any(np.asarray(below.on_support("up").value) > 0)
    return [*down, *([_held_up(below, ends)] if lifts else [])]


def _fastened(below: EdgeMember, ends: MemberEnds) -> Check:
    """Fasteners through what it ends against into its end grain. NDS 2018 12.3, 12.5.2."""
    member, fastener = below.member, read_fastener(ends.fastener)
    G = given("G", fastener_gravity(below.edge.species), "", "NDS 2018 Table 12.3.3A",
              below.edge.species)  # fmt: skip
    p = dowel_bearing.penetration.step(
        L_f=fastener.step("L_f"), ts=SIDE_IN, g_gap=0.0, tm=below.edge.span
    )
    side = Layer(dowel_bearing.in_wood(fastener, member.framing_G, 90.0), SIDE_IN, 90.0)
    Z = reference_lateral(fastener, dowel_bearing.in_wood(fastener, G, 90.0), side, p, theta=90.0).Z
    use = Use(below.conditions)
    Z_adj = connection_values.adjusted_lateral(Z, fastener, use, below.times, end_grain=True)
    cap = value_of_end.step(n_fast=float(ends.count or 1), Z_adj=Z_adj)
    more: dict[str, Any] = {"why": dowel_bearing.why_nothing(fastener, float(p.value))}
    if not fastener.small:
        more = {"rule": "open", "why": "distances and Cg of large fasteners are not computed here"}
    return _row(below, FASTENED, "NDS 2018 12.3", _reaction_of_end(below), cap, **more)


def _reaction_of_end(below: EdgeMember) -> Step:
    """What the fasteners of one end take, pressed or lifted."""
    return replace(below.end_shear(), symbol="R")


def _hung(below: EdgeMember, ends: MemberEnds | None) -> list[Check]:
    """Ends by listed hangers; open where nothing is given of them."""
    rows = []
    known = below.in_asd if ends is not None else below
    for way, key in (("down", "rated_down"), ("up", "rated_up")):
        demand = replace(known.end_shear("down" if way == "down" else "up"), symbol="R")
        if way == "up" and not np.any(np.asarray(demand.value) > 0):
            continue
        why = f"how its ends are held is not given: house_edge.ends (fastener, count, or {key})"
        rows.append(_listed(known, HANGER if way == "down" else HELD_UP, demand, ends, key, why))
    return rows


def _listed(
    below: EdgeMember, link: Link, demand: Step, ends: MemberEnds | None, key: str, why: str
) -> Check:
    """A demand at an end against a listed value, lowered to the duration of the load."""
    value = None if ends is None else getattr(ends, key)
    if ends is None or value is None:
        return _row(below, link, "listed value", demand, None, why=why)
    listed = given("T_listed", value, "lb", "listing", f"house_edge.ends {key}")
    cap = connections.rated_uplift(listed, ends.rated_for, below.times).cap
    use = below.conditions
    more: dict[str, Any] = {}
    if use.wet or use.temperature != COOL:
        more = {"rule": "open", "why": DRY_ONLY}
    return _row(below, link, "listed value", demand, cap, **more)


def _held_up(below: EdgeMember, ends: MemberEnds | None) -> Check:
    """Net uplift at its ends, which bearing does not hold."""
    known = below.in_asd
    why = "pulled up, and what ties it down at its ends is not given: house_edge.ends rated_up"
    return _listed(known, HELD_UP, known.on_support("up"), ends, "rated_up", why)


def _end_bearing(below: EdgeMember) -> list[Check]:
    """Crushing of its ends, and of the framing that they stand on. NDS 2018 3.10, Cb 1."""
    member, length = below.member, bearing_length(below)
    R = below.on_support("down")
    own = adjusted("Fc_perp", below.wood, below.conditions, 1.0)
    rows = [(ENDS_BEAR, own)]
    if below.edge.kind != HEADER:  # a header stands on the end grain of its studs
        rows.append((BELOW_ENDS, other_wood(member, member.case.house_roof.framing_species)))
    where: dict[str, Any] = {"place": EDGE, "b": below.b, "l_bearing": length}
    return [
        below.row(bearing.bearing(link=link, R=R, Fc_perp_adj=cap, **where)) for link, cap in rows
    ]


def _plate_on_stud(below: EdgeMember) -> Check:
    """The plate crushed on one stud, as wide as the narrower of both. NDS 2018 3.10, Cb 1."""
    stud, width = below.edge.stud, below.wood.size.d
    size = None if stud is None else dressed.read_size(stud.size)
    length = below.wood.size.b if size is None else size.b
    breadth = width if size is None else min(width, size.d)
    note = "of the stud" if size is not None else "of a 2x stud, taken"
    row = bearing.bearing(
        link=ON_STUD,
        place=EDGE,
        R=below.on_support("down"),
        b=breadth,
        l_bearing=given("l_bearing", length, "in", "", note),
        Fc_perp_adj=adjusted("Fc_perp", below.wood, below.conditions, 1.0),
    )
    return below.row(row)


def _column(below: EdgeMember) -> list[Check]:
    """The stud under a plate, or at each end of a header, as a column. NDS 2018 3.7, 3.9."""
    stud = below.edge.stud
    if stud is None:
        return []
    R = replace(below.on_support("down"), symbol="R_stud")
    wind = None
    if stud.wind:
        pressed = below.factors.of["W"] * stud.wind * below.edge.span
        over = "one stud spacing" if below.edge.kind == TOP_PLATE else "the whole opening"
        wind = given("w_stud", pressed, "lb/in", "", f"wind on the house wall over {over}")
    rows = column(
        LINKS,
        EDGE,
        wood=lumber.wood(stud.species, stud.grade, stud.size),
        use=replace(below.conditions, flat=False),
        time=below.times,
        N=share_of_stud.step(R_stud=R, n_studs=float(stud.count)),
        height=stud.height,
        wind=wind,
    )
    return [row if row.link == LINKS.slender else below.row(row) for row in rows]
