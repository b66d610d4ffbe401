"""Assumptions and limits that travel with a design; values of unverified source that it used."""

import numpy as np

from outrigger.actions.geometry import Geometry, any_load, truss_spacing
from outrigger.actions.places import place_name
from outrigger.base import tables
from outrigger.base.quantity import length
from outrigger.cases.sections import HoldDown
from outrigger.checks.one_clip import built, through
from outrigger.fasteners.trade_names import read_fastener
from outrigger.formula.formula import Step
from outrigger.marks.of_case import row_of
from outrigger.verdict.design import Design

ROW_NOTE = (
    "how a row of hold-downs shares is not known: each is held to the larger of its part in the "
    "row and the whole pull alone"
)
SUCTION_NOTE = "wind pressing down on the back span is not applied; its suction is"
FIRST_INTERIOR = 1.15  # share of the first interior outrigger under a continuous plate


def of(result: Design) -> list[str]:
    """Assumptions and limits, then the values of unverified source that were used."""
    return [*assumed(result), *(f"unverified value used: {text}" for text in unverified(result))]


def assumed(result: Design) -> list[str]:
    """Assumptions and limits that travel with a design."""
    case, shape = result.case, result.shape
    found = [
        *(["no point load on the wall line"] if not case.garage_roof.point else []),
        *(f"a point load from {p.source or 'a point'} falls whole on one outrigger"
          for p in case.garage_roof.point if case.mark is None),
        *_mark_notes(result),
        *result.wood.notes,
        *_kind_notes(result),
        *(["the roof overhangs both walls alike"] if any_load(case.garage_roof.overhang) else []),
        *(ROW_NOTE for _ in range(len(result.model.supports) > 2)),
        *(SUCTION_NOTE for _ in range("W_down" in result.model.parts)),
        *_back_span_notes(shape),
        *_share_notes(result),
    ]  # fmt: skip
    if case.basis.method == "LRFD":
        found.append(
            "listed clip values are held to the ASD combinations; droop is at service level"
        )
    if case.garage_wall.studs_over_outriggers:
        found.append("the plate and studs above carry what lands between the studs")
    if case.outrigger.repetitive:
        found.append(
            "Cr claimed: three or more outriggers, at most 24 in apart, joined by sheathing that "
            "shares the load at the section that governs"
        )
    if case.basis.loads == "ASCE 7-22":
        found.append("snow, wind and their reactions are at strength level (ASCE 7-22)")
        found.append("the adopted code may pair ASCE 7-22 with a later wood standard than NDS 2018")
    else:
        found.append("wind and its reactions are at strength level; snow is not (ASCE 7-16)")
    if np.any(result.main.lifts) or np.any(result.clips.lifts):
        found.append("under net uplift the edge lifts off and the row of hold-downs holds alone")
    if result.clips.no_tie is not None and np.any(result.clips.no_tie > 0):
        found.append(
            "where an edge tie is missing the other checks are computed as if it were there"
        )
    if result.wood.row.note:
        found.append(f"{result.wood.row.species}: {result.wood.row.note}")
    return found


def _back_span_notes(shape: Geometry) -> list[str]:
    arm, back = float(np.max(shape.arm)), float(np.min(shape.back_span))
    said = f"the back span, {length(back)}, is"
    if back < arm:
        return [f"{said} shorter than the arm, {length(arm)}: the clip pulls more than the load"]
    if back < 2 * arm:
        return [f"{said} less than twice the arm, {length(arm)}: strongly consider a longer one"]
    if back < 3 * arm:
        return [f"{said} less than three times the arm, {length(arm)}"]
    return []


FLASHING = (
    "sheet metal flashing along the gap moves by itself: 10 ft of it over 100 F about 0.08 in in "
    "steel, 0.15 in in aluminum (6.5 and 12.8 millionths a degree, from memory)"
)


def _kind_notes(result: Design) -> list[str]:
    """What the kind of member and its lie ask of the site."""
    case, tilt, found = result.case, result.shape.tilt, list[str]()
    if case.outrigger.plies > 1:
        found.append("the plies share the load only if they are fastened together as one member")
        if any(through(h) for h in case.hold_down):
            found.append("a lag stands in one ply: the others must be tied to it")
    if tilt.down:
        found.append(
            "the garage plate bears on the sloping outrigger through a tapered filler as wide as "
            "itself; a level seat cut into the top is a notch on the side in tension: not allowed"
        )
    if case.outrigger.bottom_notch:
        found.append("the notch is cut square over the bearing, its reach inward not known")
    for hold in case.hold_down:
        found += _clip_notes(hold, place_name(hold.at, case), result.member.b)
    if case.limits.joint_width is not None:
        found.append(FLASHING)
    return found


def _clip_notes(hold: HoldDown, name: str, b: float) -> list[str]:
    """What a hold-down's own fasteners leave open, in words."""
    found = []
    fastened = hold.side_fastener or hold.deck_fastener or hold.steel
    if not built(hold):
        if fastened:
            found.append(f"{name}: the listing holds its own fasteners and steel, not checked here")
        return found
    if hold.count == 1 and not through(hold):
        found.append(f"{name}: one clip on one side twists the outrigger, pull x {b / 2:g} in")
    if hold.side_fastener and read_fastener(hold.side_fastener).length > b:
        found.append(f"{name}: its side fasteners come out on the other side")
    if None in (hold.fastener_spacing, hold.edge_distance, hold.end_distance):
        found.append(f"{name}: spacing, edge and end distances not given are taken as enough")
    return found


def _mark_notes(result: Design) -> list[str]:
    """Which mark of a layout is checked, and how the wall is shared among them."""
    case = result.case
    if case.layout is None or case.mark is None or result.count > 1:
        return []
    row = row_of(case)
    number = int(case.mark.number.ravel()[0])
    at = length(float(row.pieces[number - 1].near))
    said = f"checked at mark {number} of {len(row.pieces)}, {at} from the datum, the worst of them"
    return [said, *share_notes(result)]


def share_notes(result: Design) -> list[str]:
    """How the wall is shared among the marks of a layout."""
    row = row_of(result.case)
    found = [
        "each mark carries the larger of a plate that breaks over every outrigger and one that "
        "runs on, on rigid supports"
    ]
    if row.wanted.trusses != "uniform":
        found.append(
            "roof members stand at both ends of the run and between them by their spacing"
            if row.wanted.offset is not None
            else "the place of the roof members is not given: each mark at its worst alignment"
        )
    return found


def _share_notes(result: Design) -> list[str]:
    share, spacing = result.loads.share, result.shape.plan_spacing
    apart = truss_spacing(result.case)
    close = isinstance(apart, float) and bool(np.all(share >= spacing) and np.all(apart <= spacing))
    bearing = result.case.garage_roof.bearing and result.case.mark is None
    if not bearing or not (apart == "uniform" or close):
        return []
    limit = 1 / FIRST_INTERIOR
    near = [r for r in result.rows() if r.ratio is not None and r.ratio > limit]
    listed = "; over 0.87 here: " + ", ".join(
        dict.fromkeys(f"{r.check.id} {r.ratio:.2f}" for r in near)
    )
    text = "the first interior outrigger of a continuous plate may take 1.15 x this share"
    return [text + (listed if near else "; no check is over 0.87")]


def unverified(result: Design) -> list[str]:
    """Values with status MEMORY that this design used."""
    found: list[str] = [f"{name} of {result.wood.row.species} {result.wood.row.grade}"
                        for name in result.wood.unverified]  # fmt: skip
    for check in result.checks:
        for top in check.steps:
            for step in top.chain():
                if step.status == tables.UNVERIFIED:
                    found.append(_named(step))
    if any(np.any(p != 0) for p in (result.loads.wall_line["W_up"],)):
        found.append("0.42 W for deflection (IBC Table 1604.3 note f)")
    found.append("one worker, 300 lb (ASCE 7 Table 4.3-1)")
    for steps in (*result.loads.steps.values(), result.loads.quake):
        for top in steps:
            found += [_named(s) for s in top.chain() if s.status == tables.UNVERIFIED]
    sources = {c.source for c in result.main.combinations.all if c.status == tables.UNVERIFIED}
    found += [s for s in sorted(sources) if not s.startswith("worker")]
    return list(dict.fromkeys(found))


def _named(step: Step) -> str:
    return f"{step.symbol}, {step.clause}" + (f", {step.note}" if step.note else "")
