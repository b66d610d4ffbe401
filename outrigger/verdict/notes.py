"""What a design takes for granted; values of unverified source that it used.

What it must be warned of stands in `dangers`.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from outrigger.actions.places import place_name
from outrigger.base import tables
from outrigger.base.quantity import length
from outrigger.cases.hold_down import SHEATHING_ONLY, HoldDown, at_edge, built, through
from outrigger.cases.model import Case
from outrigger.checks.loaded_member import WALL
from outrigger.fasteners.bent_leg import why_by_analogy
from outrigger.fasteners.trade_names import read_fastener
from outrigger.formula.formula import Step
from outrigger.loads.combinations import Combination
from outrigger.loads.gravity import MOST_OF_FIRST_INTERIOR, first_interior
from outrigger.marks.of_case import row_of
from outrigger.verdict.design import Design
from outrigger.verdict.first_inside import takes_more
from outrigger.verdict.notes_below import below_notes

SUCTION_NOTE = (
    "wind pressing down on the back span is not applied, house_roof.wind_down is not given; its "
    "suction is"
)
ROOFLESS = "carries no roof by the file's word: a gable truss and its rake overhang stand on a wall"
RIDGE_NOTE = (
    "rafters on a ridge beam are counted as trusses, what the beam takes too; state less as "
    "garage_roof.line"
)
WORKER = "one worker, 300 lb (ASCE 7 Table 4.3-1, as in UFC 3-301-01 Table E-1)"


def of(result: Design) -> list[str]:
    """What is taken for granted, then the values of unverified source that were used."""
    return [*assumed(result), *(f"unverified value used: {text}" for text in unverified(result))]


def _unpressed(result: Design) -> bool:
    """Whether wind presses the garage roof, and nothing says how it presses the house roof."""
    parts = result.model.parts
    stated = result.case.house_roof.wind_down is not None
    return "W_down" in parts and "W_press_back" not in parts and not stated


def _on_a_ridge_beam(case: Case) -> bool:
    """Whether the wall is counted more than rafters on a ridge beam bring it."""
    roof = case.garage_roof
    return roof.bearing and roof.line is None and roof.form == "rafters with ridge beam"


def roofless(case: Case) -> list[str]:
    """What a wall that carries no roof leaves out: told beside the verdict."""
    return [] if case.garage_roof.bearing else [ROOFLESS]


def assumed(result: Design) -> list[str]:
    """What a design takes for granted."""
    case = result.case
    found = [
        *(["no point load on the garage wall"] if not case.garage_roof.point else []),
        *(f"a point load from {p.source or 'a point'} falls whole on one outrigger"
          + (", and holds no other down" if p.W_up < p.D else "")
          for p in case.garage_roof.point if result.mark is None),
        *_mark_notes(result),
        *result.wood.notes,
        *_kind_notes(result),
        *(["the roof overhangs both walls alike"] if case.garage_roof.overhang else []),
        *([RIDGE_NOTE] if _on_a_ridge_beam(case) else []),
        *([SUCTION_NOTE] if _unpressed(result) else []),
        *_wind_notes(result),
        *_share_notes(result),
        *below_notes(case),
    ]  # fmt: skip
    if case.basis.method == "LRFD":
        found.append(
            "listed clip values are held to the ASD combinations; droop is at service level"
        )
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
    over = result.worked.over_marks
    if np.any(over.main.lifts) or np.any(over.clips.lifts):
        found.append("under net uplift the edge lifts off and the row of clips holds alone")
    if over.clips.no_tie is not None and np.any(over.clips.no_tie > 0):
        found.append(
            "where an edge tie is missing the other checks are computed as if it were there"
        )
    if result.wood.row.note:
        found.append(f"{result.wood.row.species}: {result.wood.row.note}")
    return found


def _wind_notes(result: Design) -> list[str]:
    """What part of the wind droops the member, and whose pressures that part is of."""
    wind, parts = result.case.wind, result.model.parts
    found = []
    of = "that of component-and-cladding pressures alone (IBC Table 1604.3 note f)"
    if {"W_up", "W_down"} & set(parts):
        if wind.method == "main":
            found.append(f"droop takes 0.6 of main-system wind: 0.42 is {of}")
        elif wind.speed is None:
            found.append(f"droop takes 0.42 of stated wind as {of}")
    if {"A_one", "A_other"} & set(parts):
        found.append(f"droop takes 0.6 of the force along the wall: 0.42 is {of}")
    return found


FLASHING = (
    "sheet metal flashing along the gap moves by itself: 10 ft of it over 100 F about 0.08 in in "
    "steel, 0.15 in in aluminum (6.5 and 12.8 millionths a degree, from memory)"
)


def _kind_notes(result: Design) -> list[str]:
    """What is taken of the kind of member and of its clips."""
    case, found = result.case, list[str]()
    if case.outrigger.bottom_notch:
        found.append("the notch is cut square over the bearing, its reach inward not known")
    for hold in case.hold_down:
        found += _clip_notes(hold, place_name(hold.at, case.outrigger.back_span))
        if _into_plates(case, hold):
            found.append("edge: the clips' fasteners reach no deeper than two plates, 3 in, taken")
    if case.limits.joint_width is not None:
        found.append(FLASHING)
    found += _stiff_below(case)
    return found


def _stiff_below(case: Case) -> list[str]:
    """What the movement of the wall leaves out, where members of the house are not given."""
    limits, house = case.limits, {"edge": case.house_edge, "back": case.house_rafter}
    if limits.joint_width is None and limits.below_clearance is None:
        return []
    lacking = " and ".join(at for at, one in house.items() if one is None)
    return [f"movement of the wall: the house below the {lacking} does not sag"] if lacking else []


def _into_plates(case: Case, hold: HoldDown) -> bool:
    """Whether it stands with fasteners of its own on plates of the house that are not given."""
    on_wall = case.house_edge is None and case.house_roof.edge_support == WALL
    return on_wall and at_edge(hold) and built(hold) and hold.into != SHEATHING_ONLY


def _clip_notes(hold: HoldDown, name: str) -> list[str]:
    """What a hold-down's own fasteners leave open, in words."""
    found = []
    fastened = hold.side_fastener or hold.deck_fastener or hold.steel
    if not built(hold):
        if fastened:
            found.append(f"{name}: the listing holds its own fasteners and steel, not checked here")
        return found
    if hold.deck_fastener and hold.steel and not through(hold):
        deck = read_fastener(hold.deck_fastener)
        why = why_by_analogy(deck.kind, deck.head)
        found += [f"{name}: {why}"] if why else []
    if None in (hold.fastener_spacing, hold.edge_distance, hold.end_distance):
        found.append(f"{name}: spacing, edge and end distances not given are taken as enough")
    return found


def _mark_notes(result: Design) -> list[str]:
    """Which mark of a layout is checked, and how the wall is shared among them."""
    number = result.mark
    if number is None:
        return []
    row = row_of(result.case)
    at = length(float(row.pieces[number - 1].near))
    said = f"checked at mark {number} of {len(row.pieces)}, {at} from the datum, the worst of them"
    return [said, *share_notes(result)]


def share_notes(result: Design) -> list[str]:
    """How the wall is shared among the marks of a layout."""
    row = row_of(result.case)
    found = [
        "each mark carries the larger of a plate that breaks over every outrigger and one that "
        "runs on, on rigid supports; uplift is that of the one that lifts the mark more"
    ]
    if row.wanted.trusses != "uniform":
        found.append(
            "roof members stand at both ends of the run and between them by their spacing"
            if row.wanted.offset is not None
            else "the place of the roof members is not given: each mark at its worst alignment"
        )
    return found


def _share_notes(result: Design) -> list[str]:
    if not takes_more(result.worked.batch, result.shape)[0]:
        return []
    limit = 1 / MOST_OF_FIRST_INTERIOR
    near = [r for r in result.rows if r.ratio is not None and r.ratio > limit]
    listed = f"; over {limit:.2f} here: " + ", ".join(
        dict.fromkeys(f"{r.check.id} {r.ratio:.2f}" for r in near)
    )
    two, three, more = (f"{first_interior(bays):.2f}" for bays in (2, 3, 4))
    text = (
        "the first interior outrigger of a continuous plate takes more than this share: x "
        f"{two} over two bays, {three} over three, up to {more} over more (three-moment equation)"
    )
    return [text + (listed if near else f"; no check is over {limit:.2f}")]


def unverified(result: Design) -> list[str]:
    """Values that this design used and that are not surely the standard's, each with its word."""
    return [f"{text} ({word})" for word, texts in doubtful(result).items() for text in texts]


def doubtful(result: Design) -> dict[str, list[str]]:
    """The same values by the word of their status, the least sure first."""
    found = {status: list[str]() for status in tables.NAMED}
    for text, status in _used(result):
        if status in found and text not in found[status]:
            found[status].append(text)
    return {tables.WORDS[status]: texts for status, texts in found.items() if texts}


def _used(result: Design) -> Iterator[tuple[str, str]]:
    """What this design rests on, with its status."""
    wood = result.wood
    of = {"dressed size": wood.size.name, "G": f"{wood.row.species} {wood.row.grade}, own weight"}
    for name, status in wood.unverified.items():
        if name in of:  # the others are steps
            yield f"{name} of {of[name]}", status
    tops = [top for check in result.checks for top in check.steps]
    tops += [top for steps in (*result.loads.steps.values(), result.loads.quake) for top in steps]
    places: dict[tuple[str, str, str], dict[str, None]] = {}
    for step in {id(s): s for top in tops for s in top.chain()}.values():
        inner = [given for given in step.inputs.values() if isinstance(given, Step)]
        if step.status and not any(s.symbol == step.symbol and s.status for s in inner):
            places.setdefault((step.clause, step.note, step.status), {})[step.symbol] = None
    for (clause, note, status), symbols in places.items():
        yield ", ".join(text for text in (*symbols, clause, note) if text), status
    yield WORKER, tables.SECOND_HAND
    yield from _of_combinations([*result.main.combinations.all, *result.clips.combinations.all])


def _of_combinations(used: Sequence[Combination]) -> Iterator[tuple[str, str]]:
    """Load factors, then lambda or CD, each section's combinations together."""
    found: dict[tuple[str, str, str], dict[str, None]] = {}
    for one in used:
        section, id = one.section, one.id
        if one.ours:
            section, id = one.source, ""
        else:
            found.setdefault((section, "", one.status), {})[id] = None
        factor = f"lambda {one.time:g} with "
        found.setdefault((section, factor, one.time_status), {})[id] = None
    for (section, factor, status), ids in found.items():
        listed = ", ".join(sorted(ids))
        many = "s" if len(ids) > 1 else ""
        yield f"{factor}{section}" + (f" combination{many} {listed}" if listed else ""), status
