"""Notches at the house wall, and shear relieved near its bearing. NDS 2018 3.4.3, 4.4.3.

The file gives a notch by its depth at the edge. There the moment is largest: a notch on the side
in tension is refused, ours and not the standard's rule. On the compression side the limit of 4.4.3
for a place inside the member holds (d / 6), since the member runs on to both sides; its reach
inward is not given, so that the depth left carries the shear.
"""

import numpy as np
from msgspec.structs import replace

from outrigger.actions.places import EDGE
from outrigger.base.tables import MEMORY
from outrigger.checks.loaded_member import LoadedMember, contact
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, amount, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Bools
from outrigger.wood import notch

NOTCH = Kind("notch", "notch")


def net_depth(member: LoadedMember) -> float:
    """Depth left at the edge, in."""
    piece = member.case.outrigger
    return member.d - piece.top_notch - piece.bottom_notch


def notches(member: LoadedMember) -> list[Check]:
    """The notches at the edge: side, depth, and shear through what is left."""
    rows, piece = [], member.case.outrigger
    M = member.main.M[-1]
    for side, depth, pulled in (
        ("top", piece.top_notch, M < 0),
        ("bottom", piece.bottom_notch, M > 0),
    ):
        if depth:
            rows += _one(member, side, depth, np.any(pulled, axis=1, keepdims=True))
    return rows


def _one(member: LoadedMember, side: str, depth: float, tension: Bools) -> list[Check]:
    """A notch on one side, which is in tension in some combination of some cases."""
    h = given("h_notch", depth, "in", "", f"stated, on the {side}")
    limit = replace(notch.deepest_inside.step(d=member.d), status=MEMORY)  # recalled
    allowed = np.where(tension, 0.0, limit.value)
    steps = (h,) if np.all(tension) else (h, limit)
    row = Check(
        link=Link(NOTCH, f"{side}, depth", f"{side}, depth"),
        place=EDGE,
        clause="NDS 2018 4.4.3",
        demand=h.value,
        capacity=allowed,
        unit="in",
        steps=steps,
    )
    if np.any(tension):
        why = f"the {side} is in tension at the edge in some combination: no notch there"
        row = replace(row, why=why)
    return [row, _shear(member, side, h, tension)]


def _shear(member: LoadedMember, side: str, h: Step, tension: Bools) -> Check:
    """Shear through the depth left, the larger of both sides of the edge."""
    V_all = np.maximum(np.abs(member.main.V_arm), np.abs(member.main.V_house))
    V = member.force("V", V_all, "lb", "the larger side of the edge")
    d_n = notch.net_depth.step(d=member.d, h_notch=h)
    Fv_adj = member.adjusted("Fv")
    pulled = notch.tension_side.step(Fv_adj=Fv_adj, b=member.b, d_n=d_n, d=member.d)
    reach = given("e_notch", d_n.value, "in", "", "its reach is not given: as far as dn")
    pressed = notch.compression_side.step(
        Fv_adj=Fv_adj, b=member.b, d=member.d, d_n=d_n, e_notch=reach
    )
    cap = pulled if np.all(tension) else pressed
    row = Check(
        link=Link(NOTCH, f"{side}, shear", f"{side}, shear"),
        place=EDGE,
        clause=cap.clause,
        demand=V.value,
        capacity=np.where(tension, pulled.value, pressed.value),
        unit="lb",
        steps=(V, cap),
    )
    return member.over(row)


def relieved(member: LoadedMember, V: Step) -> Step:
    """Shear on the arm side less the load within d of the bearing face. NDS 2018 3.4.3.1(a).

    Only where the loads press on top and the edge bears below, and two supports hold the member;
    never in a combination with uplift. The load of the wall line and the even load of the strip;
    a drift that grows along the strip, and the worker, stay whole.
    """
    model, over = member.model, member.main.combinations
    if len(model.supports) > 2:
        return V
    on, shape = model.by_axis.square, model.shape
    face = contact(member.batch, member.d) / 2
    P = member.force("P", over.combine(model.table(on.wall_line)), "lb", "on the garage wall")
    strip = {**on.strip, "D": on.strip["D"] + on.self_weight}
    w = member.force("w_arm", over.combine(model.table(strip)), "lb/in", "strip and self weight")
    near = np.where(np.any(on.covered > 0), 0.0, np.minimum(face + member.d, shape.end))
    l_near = given("l_near", near, "in", "", "edge to d past the face of its bearing")
    x = given("x_load", shape.arm - face, "in", "", "face of the bearing to the garage wall")
    step = notch.near_support.step(V_full=replace(V, symbol="V_full"), P=P, x_load=x, d=member.d,
                                   w_arm=w, l_near=l_near)  # fmt: skip
    presses = _presses(member) & (np.asarray(P.value) >= 0) & (np.asarray(w.value) >= 0)
    return replace(step, value=np.where(presses, amount(step), V.value))


def _presses(member: LoadedMember) -> Bools:
    """Combinations in which no load lifts the arm."""
    over = member.main.combinations
    lifting = [i for i, part in enumerate(over.parts) if part == "W_up"]
    calm = np.all(over.factors[:, lifting] == 0, axis=1) & (over.factors[:, 0] >= 0)
    return np.asarray(calm)[None, :]
