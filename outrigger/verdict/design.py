"""A design: what follows from a case. `design(case)` is the one path of every command."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from outrigger.actions.axes import acting
from outrigger.actions.combined import Combined, combine
from outrigger.actions.geometry import Geometry, any_load, column, geometry
from outrigger.actions.loads import Loads, loads_on
from outrigger.actions.model import CRUSH_IN, Model, unit_droop
from outrigger.actions.places import place_name
from outrigger.actions.reactions import reactions_by_case, side_reactions
from outrigger.actions.response import stiffness
from outrigger.actions.sums import combination_set
from outrigger.base import tables
from outrigger.base.quantity import length
from outrigger.cases.model import Case, HoldDown
from outrigger.checks.every import all_checks
from outrigger.checks.loaded_member import LEAST_CONTACT_IN, SHEATHING_PSI, Desk, contact
from outrigger.checks.movement import Shape, bent, movements
from outrigger.checks.one_clip import built, through
from outrigger.checks.sideways import across_at, along_at
from outrigger.fasteners.trade_names import read_fastener
from outrigger.formula.check import Check, Status
from outrigger.formula.formula import Step
from outrigger.formula.numbers import Array, Bools
from outrigger.loads.combinations import PARTS
from outrigger.marks.of_case import at_marks, row_of
from outrigger.verdict import unsaid as stated
from outrigger.wood import lumber
from outrigger.wood.adjusted import Conditions

REPETITIVE_MOST_IN = 24.0
ROW_NOTE = (
    "how a row of hold-downs shares is not known: each is held to the larger of its part in the "
    "row and the whole pull alone"
)
SUCTION_NOTE = "wind pressing down on the back span is not applied; its suction is"
FIRST_INTERIOR = 1.15  # share of the first interior outrigger under a continuous plate


@dataclass(frozen=True, eq=False)
class Row:
    """One check of one case at its governing combination. ratio None: see `Check.status`."""

    check: Check
    case: int
    status: Status
    combination: int
    demand: float
    capacity: float | None
    ratio: float | None

    @property
    def combination_text(self) -> str:
        """The combination's name; empty where a rule has none."""
        named = self.check.combinations
        return named[self.combination].text if named else ""

    @property
    def combination_words(self) -> str:
        """The combination in words."""
        named = self.check.combinations
        return named[self.combination].words if named else ""


@dataclass(frozen=True, eq=False)
class Design:
    """What follows from a case, for one or many cases at once."""

    case: Case
    wood: lumber.Wood
    shape: Geometry
    loads: Loads
    model: Model
    main: Combined
    clips: Combined
    checks: tuple[Check, ...]
    desk: Desk

    @property
    def count(self) -> int:
        """How many cases; 1 where nothing swept reaches any check."""
        sides = [side for c in self.checks for side in (c.demand, c.capacity) if side is not None]
        return max(len(np.atleast_2d(np.asarray(side))) for side in sides)

    @cached_property
    def not_given(self) -> list[stated.NotGiven]:
        """Needed, and not in the file."""
        return stated.not_given(self.case)

    @cached_property
    def not_covered(self) -> list[str]:
        """In the file, and not computed."""
        return stated.not_covered(self.case)

    @cached_property
    def defaults(self) -> list[str]:
        """Taken because the file leaves them out."""
        return stated.defaults(self.case)

    def row(self, check: Check, case: int = 0) -> Row:
        """One check at its governing combination."""
        combination = check.governing(case)
        demand = check.demand_at(case, combination)
        capacity = check.capacity_at(case, combination)
        ratio = None
        if capacity is not None and capacity > 0 and check.rule != "fail":
            ratio = demand / capacity if demand else 0.0
        elif demand == 0 and check.rule != "fail" and capacity is not None:
            ratio = 0.0
        status = check.status(case)
        return Row(check, case, status, combination, demand, capacity, ratio)

    def rows(self, case: int = 0) -> list[Row]:
        """Every check of one case."""
        return [self.row(check, case) for check in self.checks]

    def verdict(self, case: int = 0) -> Status:
        """Fail if any check fails, else open if anything is open, not given or not covered."""
        found = {check.status(case) for check in self.checks}
        if "fail" in found:
            return "fail"
        return "open" if "open" in found or self.not_given or self.not_covered else "pass"

    def governing(self, case: int = 0) -> Row:
        """The check that decides: one that fails by a rule, else the largest ratio."""
        rows = self.rows(case)
        by_rule = [row for row in rows if row.status == "fail" and row.ratio is None]
        if by_rule:
            return by_rule[0]
        strengths = [row for row in rows if not row.check.is_distance or row.status != "pass"]
        return max(strengths, key=lambda row: -1.0 if row.ratio is None else row.ratio)

    @cached_property
    def ratios(self) -> Array:
        """The largest ratio of each check, (checks, cases).

        NaN where none is known; infinite where a rule or a missing tie decides.
        """
        found = np.full((len(self.checks), self.count), np.nan)
        for check, row in zip(self.checks, found, strict=True):
            if check.rule == "fail":
                row[:] = np.inf
            elif check.capacity is not None:
                row[:] = check.largest_ratio
        return found

    @cached_property
    def working(self) -> Bools:
        """Of each case: no check fails, and none that has a ratio is over 1. What is open stays
        open."""
        known = np.array([c.capacity is not None or c.rule == "fail" for c in self.checks])
        return np.asarray(np.all(self.ratios[known] <= 1, axis=0))

    @cached_property
    def leading(self) -> NDArray[np.intp]:
        """Of each case: which of the checks governs, as `governing` has it."""
        analogy = np.array([[check.rule == "analogy"] for check in self.checks])
        distance = np.array([[check.is_distance] for check in self.checks])
        aside = (np.isinf(self.ratios) & analogy) | ((self.ratios <= 1) & distance)
        shown = np.where(aside, np.nan, self.ratios)
        return np.asarray(np.argmax(np.where(np.isnan(shown), -1.0, shown), axis=0))

    def leading_row(self, case: int) -> Row:
        """As `governing`, without the rows of the others."""
        at = case if len(self.leading) > 1 else 0  # a number that reaches no check is one case
        return self.row(self.checks[self.leading[at]], case)

    def works(self, case: int = 0) -> bool:
        """No check fails and none that has a ratio is over 1: what is open stays open."""
        return bool(self.working[case])

    @cached_property
    def reactions(self) -> dict[str, dict[str, Array]]:
        """Unfactored reactions, lb, square to the sheathing, by place and load case."""
        return reactions_by_case(self.model)

    @cached_property
    def side_reactions(self) -> dict[str, dict[str, Array]]:
        """Unfactored forces in the plane of the sheathing, lb: along, and across by place."""
        return side_reactions(self.model)

    @cached_property
    def tip_stiffness(self) -> Array:
        """Force at the wall line for 1 in of movement there, lb/in."""
        return 1 / unit_droop(self.model)

    @cached_property
    def bent(self) -> Shape:
        """Bow of the back span, and turn of the end at the wall line, of the first case."""
        return bent(self.desk)

    @cached_property
    def near_the_line(self) -> list[tuple[Row, str]]:
        """What a small change of dimension, or 5 % of load, would decide; of a single case."""
        return near_the_line(self)

    @cached_property
    def notes(self) -> list[str]:
        """Assumptions and limits of this case, in words."""
        return notes(self)


def design(case: Case) -> Design:
    """What follows from a case; swept fields hold arrays (cases, 1). With a layout: of the mark
    that is the worst in each.

    Raises:
        InputError: species, grade, size or a factor that the tables do not have.
    """
    if case.layout is not None and case.mark is None:
        case = _at_worst_mark(case)
    piece = case.outrigger
    wood = lumber.wood(piece.species, piece.grade, piece.size)
    conditions = Conditions(
        case.basis.method,
        wet=piece.moisture == "wet",
        temperature=piece.temperature,
        incised=piece.incised,
        repetitive=_repetitive(case),
        flat=piece.laid == "flat",
    )
    shape = geometry(case)
    on = loads_on(case, wood, shape)
    present = on.present
    parts = tuple(part for part in PARTS if part in present)
    size = wood.size
    b, d = (size.d, size.b) if conditions.flat else (size.b, size.d)
    stiff = stiffness(wood, conditions, b * piece.plies, d)
    other = replace(conditions, flat=not conditions.flat)
    side = stiffness(wood, other, d * piece.plies, b)  # the plies bend side by side
    model = Model(case, wood, shape, on, parts, stiff, acting(on, shape, d), side)
    quake = (on.Ev_per_D, on.net_up)
    main_set = combination_set(case.basis.loads, conditions.method, parts, *quake)
    clip_set = combination_set(case.basis.loads, "ASD", parts, *quake)
    edge_stiffness = _edge_stiffness(case, wood, b * piece.plies, d)
    main = combine(model, main_set, edge_stiffness)
    clips = main if clip_set is main_set else combine(model, clip_set, edge_stiffness)
    desk = Desk(model, conditions, main, clips)
    strength = all_checks(desk)
    checks = (*strength, *movements(desk, strength))
    return Design(case, wood, shape, on, model, main, clips, checks, desk)


def _at_worst_mark(case: Case) -> Case:
    """Each case at the mark with the largest ratio; the first where a rule decides for several."""
    every, owner = at_marks(case)
    found = design(every).ratios
    ratios = np.broadcast_to(found, (len(found), len(owner)))
    finite = np.where(np.isfinite(ratios), ratios, 0.0).max(axis=0)
    order = np.lexsort((-np.arange(len(owner)), finite, np.isinf(ratios).sum(axis=0), owner))
    last_of_owner = np.append(np.flatnonzero(np.diff(owner[order])), len(owner) - 1)
    return every.taken(order[last_of_owner])


def _repetitive(case: Case) -> bool | Bools:
    """Whether Cr is claimed and may be, case by case: 24 in at most (NDS 2018 4.3.9)."""
    if not case.outrigger.repetitive:
        return False
    close = column(case.outrigger.spacing) <= REPETITIVE_MOST_IN
    return bool(close[0, 0]) if len(close) == 1 else close


def _edge_stiffness(case: Case, wood: lumber.Wood, b: float, d: float) -> Array:
    """Spring at the edge, lb/in: bearing area x design value / 0.04 in, two layers in series."""
    area = b * np.maximum(contact(case, d), LEAST_CONTACT_IN)
    panel = case.house_roof.sheathing_bearing or SHEATHING_PSI
    give = CRUSH_IN / (area * wood.row.values["Fc_perp"].value) + CRUSH_IN / (area * panel)
    return np.asarray(1 / give)


def notes(result: Design) -> list[str]:
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
    found += [f"unverified value used: {text}" for text in unverified(result)]
    return found


NEAR = 0.05  # of 1
SMALL_IN = 0.25  # what a bearing or a setback may be off by
PLATE_PART = 6  # the wall line may stand a sixth of its plate off


def near_the_line(result: Design) -> list[tuple[Row, str]]:
    """Ratios within 5 % of 1, and checks that a small change of dimension decides, with why.

    The wall line is moved by a sixth of the garage plate, the bearing's length and its setback
    changed by 1/4 in, each alone, both ways: one design of all of them together.
    """
    rows = result.rows()
    found = [
        (row, f"used {row.ratio:.3f}")
        for row in rows
        if row.ratio is not None and abs(row.ratio - 1) <= NEAR
    ]
    if result.count > 1:
        return found
    said, moved = _moved(result.case)
    ends = {"pass": "passes", "fail": "fails", "open": "is open"}
    near = design(moved)
    for check in near.checks:
        row, first = near.row(check), check.status(0)
        changes = [text for i, text in enumerate(said, 1) if check.status(i) != first]
        if changes:
            found.append((row, f"{ends[first]}, but not with {' or '.join(changes)}"))
    return found


def _moved(case: Case) -> tuple[list[str], Case]:
    """Words of each small change, and one case with all of them behind the case as it is."""
    gap, tail = case.gap, case.outrigger.tail
    plate = gap.garage_plate
    part = plate / PLATE_PART
    whole = {
        "gap.width": gap.width, "gap.edge_bearing": gap.edge_bearing,
        "gap.edge_setback": gap.edge_setback,
        "outrigger.tail": plate / 2 if tail is None else tail,
    }  # fmt: skip
    changes = [
        (f"the wall line {length(part)} farther out",
         {"gap.width": part, "outrigger.tail": -part}),
        (f"the wall line {length(part)} farther in",
         {"gap.width": -part, "outrigger.tail": part}),
        *((f"{length(SMALL_IN)} {word} {name}", {key: sign * SMALL_IN})
          for key, name in (("gap.edge_bearing", "bearing"), ("gap.edge_setback", "setback"))
          for word, sign in (("more", 1), ("less", -1))),
    ]  # fmt: skip
    kept = [
        (words, {key: max(whole[key] + by, 0.0) for key, by in change.items()})
        for words, change in changes
        if all(whole[key] + by > 0 or key != "gap.edge_bearing" for key, by in change.items())
        and whole["gap.width"] + change.get("gap.width", 0.0) > 0
    ]
    rows = [whole, *({**whole, **change} for _, change in kept)]
    columns = {key: np.array([row[key] for row in rows]) for key in whole}
    return [words for words, _ in kept], case.swept(columns)


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
        found += _clip_notes(hold, place_name(hold.at, case), result.desk.b)
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
    roof = result.case.garage_roof
    uniform = roof.member_spacing == "uniform" or (
        roof.member_spacing is None and roof.form != "trusses"
    )
    close = not uniform and bool(np.all(share * 1.0 >= spacing)) and _trusses_close(result)
    if not roof.bearing or not (uniform or close) or result.case.mark is not None:
        return []
    limit = 1 / FIRST_INTERIOR
    near = [r for r in result.rows() if r.ratio is not None and r.ratio > limit]
    listed = "; over 0.87 here: " + ", ".join(
        dict.fromkeys(f"{r.check.id} {r.ratio:.2f}" for r in near)
    )
    text = "the first interior outrigger of a continuous plate may take 1.15 x this share"
    return [text + (listed if near else "; no check is over 0.87")]


def _trusses_close(result: Design) -> bool:
    spacing = result.case.garage_roof.member_spacing
    apart = 24.0 if not isinstance(spacing, float) else spacing
    return bool(np.all(apart <= result.shape.plan_spacing))


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
    sources = {c.source for c in result.main.set.all if c.status == tables.UNVERIFIED}
    found += [s for s in sorted(sources) if not s.startswith("worker")]
    return list(dict.fromkeys(found))


def _named(step: Step) -> str:
    return f"{step.symbol}, {step.clause}" + (f", {step.note}" if step.note else "")


@dataclass(frozen=True)
class ClipForces:
    """What the clips of one place carry in their governing combination, lb."""

    at: str
    combination: str
    uplift: float
    along: float
    across: float
    count: int


def clip_forces(result: Design, case: int = 0) -> list[ClipForces]:
    """The hold-downs of one case, each in the combination that governs its pull."""
    counts = {place_name(h.at, result.case): h.count for h in result.case.hold_down}
    names = [name for name, _ in result.model.supports]
    found = []
    worst: dict[tuple[str, bool], Row] = {}
    for row in result.rows(case):  # of a chain of links the weakest
        if row.check.id.startswith("hold_down:"):
            key = (row.check.place, row.check.link == "no tie")
            old = worst.get(key)
            if old is None or (row.ratio or 0.0) > (old.ratio or 0.0):
                worst[key] = row
    for row in worst.values():
        place = row.check.place
        actions = result.main if row.check.combinations is result.main.set.all else result.clips
        missing = row.check.link == "no tie"

        def at(table: Array | None, row: Row = row) -> float:
            if table is None:
                return 0.0
            return float(table[case if len(table) > 1 else 0, row.combination])

        uplift = row.demand if missing else at(actions.uplift.get(place))
        along = at(along_at(result.case, actions, place))
        across = at(across_at(names, actions, place))
        count = 1 if missing else counts.get(place, 1)
        found.append(ClipForces(place, row.combination_text, uplift, along, across, count))
    return found
