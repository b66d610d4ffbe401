"""Single changes that would make a failing or open case pass, each verified by a full run.

A family of numbers (spacings, back spans, gaps) is one design with arrays; what is found is then
written as a setting, read again with the file and designed alone.
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from outrigger.actions.geometry import TRADE_SPACINGS_IN
from outrigger.actions.places import BACK, EDGE, WALL_LINE
from outrigger.base.errors import OutriggerError
from outrigger.base.quantity import length
from outrigger.base.shell import command
from outrigger.base.units import SIXTEENTH
from outrigger.cases.fields import LEAST_BACK_SPAN_IN
from outrigger.cases.model import Case
from outrigger.cases.sections import SHEATHING_ONLY
from outrigger.checks.notches import NOTCH
from outrigger.checks.one_clip import HOLD_DOWN
from outrigger.checks.sideways import FORM, ROLL_OVER
from outrigger.formula.numbers import Array
from outrigger.studies import search
from outrigger.verdict.back_span import short_backs
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, design
from outrigger.wood import lumber
from outrigger.wood.bending import BENDING
from outrigger.wood.shear import SHEAR

MOST = 5
SPACINGS_IN = np.array([*reversed(TRADE_SPACINGS_IN), 9.6, 8.0])
BACK_SPAN_STEP_IN = 6.0
BEARINGS_IN = np.array([3.0, 3.5, 4.5, 5.5])
LISTED_LB = np.arange(50.0, 3001.0, 25.0)
MOST_CLIPS = 4

Found = tuple[str, str]  # setting, and what it is in words


@dataclass(frozen=True, eq=False)
class Way:
    """One change: the setting, what it is in words, the design with it, its closest check."""

    setting: str
    words: str
    closest: CheckResult
    verdict: str


def ways(result: Design, read: Callable[[str], Case]) -> list[Way]:
    """Up to five single changes of a failing or open case, the plainest first.

    read: the case with one more setting, as the command line reads it. Where no change makes a
    failing case pass, those with which nothing fails any more: it stays open.
    """
    lacking = bool(result.not_given or result.not_covered)
    before = result.verdict
    if before == "pass" or (before == "open" and lacking):
        return []
    passing, working = list[Way](), list[Way]()
    for setting, words in _changes(result):
        try:
            after = design(read(setting))
        except OutriggerError:
            continue  # the file's own limits, or no such lumber
        way = Way(setting, words, after.closest, after.verdict)
        if way.verdict == "pass":
            passing.append(way)
        elif before == "fail" and after.works:
            working.append(way)
        if MOST in (len(passing), len(working) if lacking else 0):
            break
    return passing or working[:MOST]


def command_of(path: str, settings: list[str], way: Way) -> str:
    """The command that tries a way; path: of the case file, empty for the sample."""
    return command("check", path, [*settings, way.setting])


def _changes(result: Design) -> Iterator[Found]:
    """Changes worth a full run, the plainest first."""
    case = result.case
    yield from _rules(result)
    yield from _closer(case)
    yield from _deeper(case)
    yield from _clips(result)
    yield from _back_spans(case)
    yield from _narrower(case)
    yield from _grades(result)
    yield from _bearings(case)
    if case.outrigger.plies < 3:
        plies = case.outrigger.plies + 1
        yield f"outrigger.plies={plies}", f"with {plies} plies, fastened together"


def _rules(result: Design) -> Iterator[Found]:
    """What a rule refuses, or leaves open, put right."""
    case, piece = result.case, result.case.outrigger
    kinds = {c.kind for c in result.checks if c.status() != "pass"}
    if result.clips.no_tie is not None and np.any(result.clips.no_tie > 0) and case.hold_down:
        yield f"hold_down[{EDGE}]={BACK}", "with the clips of the back at the house edge too"
    places = [EDGE, BACK, WALL_LINE]
    missing = [p for p in places if p not in (piece.blocking or [])]
    if missing and kinds & {BENDING, ROLL_OVER, SHEAR}:
        listed = ", ".join(f'"{p}"' for p in [*(piece.blocking or []), *missing])
        yield f"outrigger.blocking=[{listed}]", f"blocked at the {', '.join(missing)} too"
    if piece.laid == "flat":
        yield "outrigger.laid=on edge", "laid on edge"
    for name in ("top_notch", "bottom_notch"):
        if getattr(piece, name) and NOTCH in kinds:
            yield f"outrigger.{name}=none", "without the notch"
    if FORM in kinds:
        yield "garage_roof.form=tied rafters", "with the rafters tied"
    for hold in case.hold_down:
        if hold.into == SHEATHING_ONLY:
            yield f"hold_down[{hold.name}].into=framing", f"with the {hold.name} clip into framing"


def _first(case: Case, path: str, values: Array) -> float | None:
    """The first of the values, in their order, at which the case works."""
    held = np.flatnonzero(search.works(case, path)(values))
    return float(values[held[0]]) if len(held) else None


def _closer(case: Case) -> Iterator[Found]:
    spacings = SPACINGS_IN[case.outrigger.spacing > SPACINGS_IN]
    apart = _first(case, "outrigger.spacing", spacings) if len(spacings) else None
    if apart is not None:
        yield f"spacing={apart:g}in", f"at {apart:g} in spacing"


def _deeper(case: Case) -> Iterator[Found]:
    """The next depths of the same thickness, then the next thickness."""
    size = lumber.read_size(case.outrigger.size)
    for depth in (d for d in lumber.DEPTHS_IN if d > size.nominal_d):
        name = f"{size.nominal_b:g}x{depth}"
        if _works(case, size=name):
            yield f"size={name}", f"with a {name}"
            return
    for breadth in (b for b in (3, 4) if b > size.nominal_b):
        name = f"{breadth}x{size.nominal_d:g}"
        if _works(case, size=name):
            yield f"size={name}", f"with a {name}"
            return


def _works(case: Case, **changes: object) -> bool:
    """Whether the case works with another member."""
    piece = case.outrigger.model_copy(update=changes)
    try:
        return design(case.model_copy(update={"outrigger": piece})).works
    except OutriggerError:
        return False


def _clips(result: Design) -> Iterator[Found]:
    """A better clip, or more of them, where a clip does not pass."""
    for hold in result.case.hold_down:
        rows = [c for c in result.checks if c.kind == HOLD_DOWN and c.place == hold.name]
        if all(c.status() == "pass" for c in rows):
            continue
        if hold.rated_uplift is not None:
            path = f"hold_down[{hold.name}].rated_uplift"
            better = LISTED_LB[hold.rated_uplift < LISTED_LB]
            listed = _first(result.case, path, better) if len(better) else None
            if listed is not None:
                short = "clip" if hold.name == BACK else path
                yield f"{short}={listed:g}lb", f"with {hold.name} clips listed for {listed:g} lb"
        for count in range(hold.count + 1, MOST_CLIPS + 1):
            holds = [h.model_copy(update={"count": count}) if h is hold else h
                     for h in result.case.hold_down]  # fmt: skip
            if design(result.case.model_copy(update={"hold_down": holds})).works:
                yield f"hold_down[{hold.name}].count={count}", f"with {count} {hold.name} clips"
                break


def _back_spans(case: Case) -> Iterator[Found]:
    """The back span in half feet that is nearest to the stated one."""
    stated = case.outrigger.back_span
    inner = [h.at + BACK_SPAN_STEP_IN for h in case.hold_down if isinstance(h.at, float)]
    least = max([LEAST_BACK_SPAN_IN, *inner])
    first = math.ceil(least / BACK_SPAN_STEP_IN) * BACK_SPAN_STEP_IN
    spans = np.arange(first, search.MOST_BACK_SPAN_IN + 1, BACK_SPAN_STEP_IN)
    spans = spans[np.argsort(np.abs(spans - stated), kind="stable")]
    back = _first(case, "outrigger.back_span", spans[spans != stated])
    if back is not None:
        short = short_backs(case, {"outrigger.back_span": np.array([back])})[0]
        caution = "" if short is None else f", a {short.words}"
        yield f"back_span={back:g}in", f"with a back span of {length(back)}{caution}"


def _narrower(case: Case) -> Iterator[Found]:
    gaps = np.arange(SIXTEENTH, case.gap.width, SIXTEENTH)
    gap = _first(case, "gap.width", gaps[::-1]) if len(gaps) else None
    if gap is not None:
        yield f"gap={gap:g}in", f"over a gap of {length(gap)}"


def _grades(result: Design) -> Iterator[Found]:
    """The weakest better grade of the same kind and species that works."""
    row, case = result.wood.row, result.case
    Fb = row.values["Fb"].value
    alike = (g for g in lumber.grades(row.species) if g.kind == row.kind)
    better = [g for g in alike if g.values["Fb"].value > Fb]
    for grade in sorted(better, key=lambda g: g.values["Fb"].value):
        if _works(case, grade=grade.grade):
            yield f"grade={grade.grade}", f"in {grade.grade}"
            return


def _bearings(case: Case) -> Iterator[Found]:
    below = case.house_roof.edge_support_width
    longer = BEARINGS_IN[case.gap.edge_bearing < BEARINGS_IN]
    if below is not None:
        longer = longer[longer <= below]
    bearing = _first(case, "gap.edge_bearing", longer) if len(longer) else None
    if bearing is not None:
        yield f"gap.edge_bearing={bearing:g}in", f"with {length(bearing)} of bearing at the edge"
