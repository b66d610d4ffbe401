"""The house rafter that the inner hold-downs are fastened to, where it is given.

Rafters that cross below the outriggers: each place stands on one of them, a row of outriggers at
its worst place. Rafters beside the outriggers: one outrigger on each, all its places at mid-span.
With them the rafter's own roof: dead, live, snow and the drift on it where it harms; wind, and no
more than sure dead load, where they lift. NDS 2018 chapter 3, listed values in the ASD set.
"""

from typing import Any

import numpy as np
from msgspec.structs import replace

from outrigger.actions.geometry import column
from outrigger.actions.places import BACK
from outrigger.cases.below import CROSSING_MEMBER, RAFTER, HouseEdge, HouseRafter
from outrigger.checks.bearing import other_wood
from outrigger.checks.hold_downs import DRY_ONLY
from outrigger.checks.house_edge import END_BEARING_IN, HOUSE_RAFTER, EdgeMember
from outrigger.checks.house_edge_sag import deflections
from outrigger.checks.loaded_member import COMMON, COOL, LoadedMember
from outrigger.fasteners import listed as connections
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Link
from outrigger.formula.numbers import Array, Num, greatest
from outrigger.wood import bearing, bending, rectangle, shear
from outrigger.wood.adjusted import adjusted, flat_use

TRUSS = Link(HOUSE_RAFTER, "truss", "a truss")


@formula("R", "lb", clause="statics: its end shear, and what its overhang adds")
def at_bearing(V: Num, w_beam: Num, l_over: Num, l_beam: Num) -> Num:
    """What the outer bearing of a rafter takes."""
    return V + w_beam * l_over * (1 + l_over / (2 * l_beam))


def house_rafter(member: LoadedMember) -> list[Check]:
    """Every row of the rafter; none where it is not given; of a truss what its designer is told."""
    rafter = member.case.house_rafter
    if rafter is None:
        return []
    if rafter.kind == "truss":
        return [_truss(member)]
    rows = list[Check]()
    for below in _members(member, rafter):
        rows += _of_one(below, rafter)
    return rows


def _truss(member: LoadedMember) -> Check:
    found = member.main
    pulls = sum(found.uplift[name] for name, _ in member.model.supports[:-1])
    push = sum(np.maximum(R, 0.0) for R in found.R[:-1])
    F = given("R", np.maximum(pulls, push), "lb", "statics", "of one outrigger, up or down")
    why = "a house truss: its designer must approve what the outriggers pull and push"
    row = Check(
        link=TRUSS, place=BACK, clause="statics", demand=F.value, capacity=None, unit="lb",
        steps=(F,), rule="open", why=why,
    )  # fmt: skip
    return member.over(row)


def _members(member: LoadedMember, rafter: HouseRafter) -> list[EdgeMember]:
    """The rafter under each place, or under all of them."""
    beside = bool(member.case.house_roof.framing_parallel)
    stated = HouseEdge.model_construct(
        kind=RAFTER if beside else CROSSING_MEMBER,
        size=rafter.size,
        plies=1,
        species=rafter.species,
        grade=rafter.grade,
        moisture="dry",
        span=rafter.span,
        edge_at=None,
        near_support_relief=False,
        stud=None,
        carries=None,
        ends=None,
        end_bearing=rafter.bearing,
    )
    own = _own(member, rafter, beside)
    places = [""] if beside else [name for name, _ in member.model.supports[:-1]]
    return [EdgeMember(member, stated, kind=HOUSE_RAFTER, at=at, own=own) for at in places]


def _own(member: LoadedMember, rafter: HouseRafter, beside: bool) -> dict[str, Num]:
    """The rafter's own roof by load case, lb/in of its span: psf of plan times its spacing."""
    on, shape = member.model.loads, member.model.shape
    apart, span = float(rafter.spacing or 0.0), float(rafter.span or 1.0)
    none = column(0.0)
    psi = {case: on.back.get(f"{case}_back", none) / shape.plan_area for case in ("D", "Lr", "S")}
    psi["W_up"] = -on.back.get("W_back", none) / shape.spacing
    psi["W_down"] = on.back.get("W_press_back", none) / shape.spacing
    for peak, width in (on.house[part] for part in on.house):
        drift = peak / shape.plan_area
        if beside:  # its triangle at the outer end, as an even load that brings no less
            reach = np.minimum(width, span)
            share = np.asarray(greatest(8 * reach / 3 / span**2, np.full((1, 1), 2 / span)))
            drift = drift * reach / 2 * (1 - reach / (3 * span)) * share
        psi["S_house"] = drift
    for q, _ in (on.shed[part] for part in on.shed):  # beside: as if it lay on all of the span
        psi["S_shed"] = q / shape.plan_area
    return {case: q * apart for case, q in psi.items() if np.any(q != 0)}


def _of_one(below: EdgeMember, rafter: HouseRafter) -> list[Check]:
    """The rafter under one place."""
    wood, place = below.wood, below.at or BACK
    use = replace(below.conditions, repetitive=rafter.repetitive)
    Fb_star, S = (
        adjusted("Fb", wood, use, below.times),
        rectangle.section_modulus.step(b=below.b, d=below.d),
    )
    Cfu = flat_use(wood, False)
    held = given("CL", 1.0, "", "NDS 2018 3.3.3.3", "held by the sheathing nailed on it")
    le = bending.effective_length("either", "any loading not listed", below.edge.span, below.d)
    free = bending.stability(le, below.b, below.d, Fb_star, adjusted("Emin", wood, use, 1.0)).CL
    rows = [_bent(below, "down", place, S, Fb_star, held, Cfu)]
    if np.any(np.asarray(below.moment("up").value) > 0):
        rows.append(_bent(below, "up", place, S, Fb_star, free, Cfu))
    cut = shear.shear(
        link=below.link("shear"), place=place, V=below.end_shear(), b=below.b, d=below.d,
        Fv_adj=adjusted("Fv", wood, use, below.times),
    )  # fmt: skip
    rows += [below.row(cut), *deflections(below), *_bears(below, rafter, place)]
    return [*rows, *_tied(below, rafter, place)]


def _bent(
    below: EdgeMember, way: Any, place: str, S: Step, Fb_star: Step, CL: Step, Cfu: Step
) -> Check:
    M = below.moment(way)
    what = "bending" if way == "down" else "bending, lifted"
    M = replace(M, value=np.maximum(M.value, 0.0))
    row = bending.bending(
        link=below.link(what), place=place, M=M, S=S, Fb_star=Fb_star, CL=CL, Cfu=Cfu
    )
    return below.row(row)


def _reaction(below: EdgeMember, rafter: HouseRafter, way: Any) -> Step:
    """What its outer bearing takes, lb."""
    V = below.end_shear(way)
    w = below.carried(np.full((1, 1), way == "up"))
    return at_bearing.step(V=V, w_beam=w, l_over=rafter.overhang, l_beam=below.edge.span)


def _bears(below: EdgeMember, rafter: HouseRafter, place: str) -> list[Check]:
    """Crushing of the rafter and of the plate at its outer bearing. NDS 2018 3.10, Cb 1."""
    stated = rafter.bearing
    note = "1 1/2 in taken" if stated is None else "as stated"
    length = given("l_bearing", stated or END_BEARING_IN, "in", COMMON if stated is None else "",
                   note)  # fmt: skip
    R = _reaction(below, rafter, "down")
    own = adjusted("Fc_perp", below.wood, below.conditions, 1.0)
    plate = other_wood(below.member, below.member.case.house_roof.framing_species)
    where: dict[str, Any] = {"place": place, "R": R, "b": below.b, "l_bearing": length}
    return [
        below.row(bearing.bearing(link=below.link(what), Fc_perp_adj=cap, **where))
        for what, cap in (("bearing at its end", own), ("its end on the plate", plate))
    ]


def _tied(below: EdgeMember, rafter: HouseRafter, place: str) -> list[Check]:
    """Net uplift at its outer bearing against its tie to the plate."""
    known, tie = below.in_asd, rafter.edge_tie
    R = _reaction(known, rafter, "up")
    pull: Array = np.maximum(R.value, 0.0)
    if not np.any(pull > 0):
        return []
    row = Check(
        link=below.link("uplift at its bearing"),
        place=place,
        clause="listed value",
        demand=pull,
        capacity=None,
        unit="lb",
        steps=(R,),
    )
    if tie is None:
        why = "pulled up, and what ties the rafter to the wall is not given: house_rafter.edge_tie"
        return [known.row(replace(row, why=why))]
    listed = given("T_listed", tie.rated, "lb", "listing", "house_rafter.edge_tie")
    cap = connections.rated_uplift(listed, tie.rated_for, known.times).cap
    row = replace(row, capacity=cap.value, steps=(R, cap))
    if below.conditions.temperature != COOL:
        row = replace(row, rule="open", why=DRY_ONLY)
    return [known.row(row)]
