"""Changes that would make a failing or open case pass, each verified by a full run: single ones,
the cheapest in labor first, or two together where no single one does.

A family of numbers (spacings, back spans, gaps) is one design with arrays; what is found is then
written as a setting, read again with the file and designed alone.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache
from itertools import combinations

import numpy as np
from msgspec import Struct

from outrigger.actions.geometry import TRADE_SPACINGS_IN
from outrigger.actions.places import BACK, EDGE, WALL_LINE
from outrigger.base.errors import OutriggerError
from outrigger.base.plain import series
from outrigger.base.quantity import length
from outrigger.base.shell import command, quoted
from outrigger.base.units import SIXTEENTH
from outrigger.cases.bounds import LEAST_BACK_SPAN_IN
from outrigger.cases.hold_down import SHEATHING_ONLY, HoldDown
from outrigger.cases.model import Case
from outrigger.checks.loaded_member import width_below
from outrigger.checks.notches import NOTCH
from outrigger.checks.one_clip import HOLD_DOWN
from outrigger.checks.sideways import FORM
from outrigger.checks.tipping import ROLL_OVER
from outrigger.formula.numbers import Array
from outrigger.layout.layout import layout
from outrigger.marks.feet import ONE_A_SIDE, over_one_rafter
from outrigger.marks.of_case import spacings_laid_out
from outrigger.studies import search
from outrigger.studies.changes_below import below
from outrigger.verdict.back_span import short_backs
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, design
from outrigger.wood import dressed, reference
from outrigger.wood.bending import BENDING
from outrigger.wood.shear import SHEAR

MOST, MOST_PAIRS = 5, 3
SPACINGS_IN = np.array([*reversed(TRADE_SPACINGS_IN), 9.6, 8.0])
BACK_SPAN_STEP_IN = 6.0
BEARINGS_IN = np.array([3.0, 3.5, 4.5, 5.5])
LISTED_LB = np.arange(50.0, 3001.0, 25.0)
MOST_CLIPS = 4
HOPE = 1.25  # two changes help by about the product of their shares; each is run whole all the same
RULED = 2.0  # in place of a ratio where a rule decides

Found = tuple[str, str]  # setting, and what it is in words


class Way(Struct, frozen=True, eq=False):
    """One change, or two together: the settings, what they are in words, the verdict with them,
    its closest check and how much is then still open."""

    settings: tuple[str, ...]
    words: str
    closest: CheckResult
    verdict: str
    left: int

    @property
    def setting(self) -> str:
        """The settings in a line, as a command takes them."""
        return " ".join(map(quoted, self.settings))


Read = Callable[[Sequence[str]], Case]  # the case with more settings, as the command line reads it
After = Callable[[tuple[str, ...]], Design | None]  # with settings; None: they are refused


def ways(result: Design, read: Read) -> list[Way]:
    """Up to five changes of a failing or open case, the cheapest in labor first; two together where
    no single one does.

    Where no change makes a failing case pass, those with which nothing fails any more: it stays
    open.
    """
    lacking = bool(result.not_given or result.not_covered)
    if result.verdict == "pass" or (result.verdict == "open" and lacking):
        return []
    after = _designed(read)
    singles = _tried(result, after, ([one] for one in _changes(result)), MOST)
    if singles or result.verdict == "open":
        return singles
    tools = [*_rules(result), *_plain(result)]
    return _tried(result, after, _twos(result, after, tools), MOST_PAIRS)


def _designed(read: Read) -> After:
    """The case with settings, designed once however often it is asked for."""

    @cache
    def after(settings: tuple[str, ...]) -> Design | None:
        try:
            return design(read(settings))
        except OutriggerError:
            return None  # the file's own limits, or no such lumber

    return after


def _twos(result: Design, after: After, tools: list[Found]) -> Iterator[list[Found]]:
    """Two changes of different keys, left out where a row that fails can hardly pass with both: it
    fails with each alone, and their shares of it together leave it well over 1."""
    before = _failing(result)
    every = {setting: after((setting,)) for setting, _ in tools}
    alone = {setting: _failing(one) for setting, one in every.items() if one is not None}
    for a, b in combinations([one for one in tools if one[0] in alone], 2):
        one, other = alone[a[0]], alone[b[0]]
        left = (
            one[row] * other[row] / before[row] for row in before if row in one and row in other
        )
        if _key(a) != _key(b) and all(ratio <= HOPE for ratio in left):
            yield [a, b]


def _failing(result: Design) -> dict[tuple[str, str], float]:
    """The largest ratio of what fails, by check and link; a rule is as good as any number, so that
    it stays what it was only where both leave it."""
    found = dict[tuple[str, str], float]()
    for row in result.rows:
        if row.status == "fail":
            key, ratio = (row.id, row.link), RULED if row.ratio is None else row.ratio
            found[key] = max(ratio, found.get(key, 0.0))
    return found


def _tried(result: Design, after: After, changes: Iterable[list[Found]], most: int) -> list[Way]:
    """Those of the changes with which the case passes, or at least nothing fails; the first of
    those that change the same keys."""
    lacking = bool(result.not_given or result.not_covered)
    passing, working = list[Way](), list[Way]()
    done = set[tuple[str, ...]]()
    for change in changes:
        keys = tuple(map(_key, change))
        if keys in done:
            continue
        settings = tuple(setting for setting, _ in change)
        changed = after(settings)
        if changed is None:
            continue
        words = " and ".join(words for _, words in change)
        way = Way(settings, words, changed.closest, changed.verdict, _left(changed))
        if way.verdict == "pass":
            passing.append(way)
            done.add(keys)
        elif result.verdict == "fail" and changed.works:
            working.append(way)
        if most in (len(passing), len(working) if lacking else 0):
            break
    return passing or working[:most]


def _left(result: Design) -> int:
    """How much keeps a case open: rows, what is not given, what is stated and not computed."""
    rows = sum(row.status == "open" for row in result.rows)
    return rows + len(result.not_given) + len(result.not_covered)


def _key(change: Found) -> str:
    return change[0].partition("=")[0]


def command_of(path: str, settings: list[str], way: Way) -> str:
    """The command that tries a way; path: of the case file, empty for the sample."""
    return command("check", path, [*settings, *way.settings])


def _changes(result: Design) -> Iterator[Found]:
    """Changes worth a full run, the cheapest in labor first."""
    case = result.case
    yield from _bearings(case)
    yield from _rules(result)
    yield from _clips(result)
    yield from below(result)
    yield from _at_marks(case)
    yield from _at_openings(case)
    yield from _another_ply(case)
    yield from _grades(result)
    yield from _deeper(case)
    yield from _closer(case)
    yield from _back_spans(case)
    yield from _narrower(case)


def _plain(result: Design) -> Iterator[Found]:
    """Changes to be made two at a time, though none of them may do alone; the cheapest first."""
    case = result.case
    for bearing in _longer(case):
        yield f"gap.edge_bearing={bearing:g}in", _bearing_words(case, bearing)
    for hold in case.hold_down:
        if any(c.kind == HOLD_DOWN and c.place == hold.name and c.status() != "pass"
               for c in result.checks) and hold.count < _most_clips(case, hold):  # fmt: skip
            count = hold.count + 1
            yield f"hold_down[{hold.name}].count={count}", f"with {count} {hold.name} clips"
    yield from below(result)
    yield from _at_openings(case)
    yield from _another_ply(case)
    size = dressed.read_size(case.outrigger.size)
    for depth in [d for d in dressed.DEPTHS_IN if d > size.nominal_d][:2]:
        yield f"size={size.nominal_b:g}x{depth}", f"with a {size.nominal_b:g}x{depth}"
    for apart in _closer_spacings(case)[:2]:
        yield f"spacing={apart:g}in", f"at {apart:g} in spacing"


def _another_ply(case: Case) -> Iterator[Found]:
    if case.outrigger.plies < 3:
        plies = case.outrigger.plies + 1
        said = "a pair in place of each" if plies == 2 else f"with {plies} plies"
        yield f"outrigger.plies={plies}", f"{said}, fastened together"


def _at_openings(case: Case) -> Iterator[Found]:
    """A pair beside each opening alone."""
    layout = case.layout
    if layout is not None and layout.openings and not layout.double_at_openings:
        yield "layout.double_at_openings=true", "a pair beside each opening"


def _at_marks(case: Case) -> Iterator[Found]:
    """A pair at the marks that fail, where they are few and none is paired yet."""
    if case.layout is None or case.layout.double_at or case.layout.double_at_openings:
        return
    laid = layout(case)
    if 0 < len(laid.failing) <= len(laid.lines) / 4:
        marks = [str(one) for one in laid.failing]
        said = f"{'marks' if marks[1:] else 'mark'} {series(marks)}"
        yield f"layout.double_at=[{', '.join(marks)}]", f"a pair at {said} alone"


def _rules(result: Design) -> Iterator[Found]:
    """What a rule refuses, or leaves open, put right."""
    case, piece = result.case, result.case.outrigger
    kinds = {c.kind for c in result.checks if c.status() != "pass"}
    untied = result.worked.over_marks.clips.no_tie
    if untied is not None and np.any(untied > 0) and case.hold_down:
        yield f"hold_down[{EDGE}]={BACK}", "with the clips of the back at the house wall too"
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


def _closer_spacings(case: Case) -> Array:
    """Trade spacings under the stated one, the widest first, along which a layout stands."""
    return spacings_laid_out(case, SPACINGS_IN[case.outrigger.spacing > SPACINGS_IN])


def _closer(case: Case) -> Iterator[Found]:
    spacings = _closer_spacings(case)
    apart = _first(case, "outrigger.spacing", spacings) if len(spacings) else None
    if apart is not None:
        yield f"spacing={apart:g}in", f"at {apart:g} in spacing"


def _deeper(case: Case) -> Iterator[Found]:
    """The next depths of the same thickness, then the next thickness."""
    size = dressed.read_size(case.outrigger.size)
    for depth in (d for d in dressed.DEPTHS_IN if d > size.nominal_d):
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
        for count in range(hold.count + 1, _most_clips(result.case, hold) + 1):
            holds = [h.model_copy(update={"count": count}) if h is hold else h
                     for h in result.case.hold_down]  # fmt: skip
            if design(result.case.model_copy(update={"hold_down": holds})).works:
                yield f"hold_down[{hold.name}].count={count}", f"with {count} {hold.name} clips"
                break


def _most_clips(case: Case, hold: HoldDown) -> int:
    """How many clips a place may take: one a side on a rafter that crosses there."""
    return ONE_A_SIDE if over_one_rafter(case, hold) else MOST_CLIPS


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
    alike = (g for g in reference.grades(row.species) if g.kind == row.kind)
    better = [g for g in alike if g.values["Fb"].value > Fb]
    for grade in sorted(better, key=lambda g: g.values["Fb"].value):
        if _works(case, grade=grade.grade):
            yield f"grade={grade.grade}", f"in {grade.grade}"
            return


def _bearings(case: Case) -> Iterator[Found]:
    longer = _longer(case)
    bearing = _first(case, "gap.edge_bearing", longer) if len(longer) else None
    if bearing is not None:
        yield f"gap.edge_bearing={bearing:g}in", _bearing_words(case, bearing)


def _longer(case: Case) -> Array:
    """Bearings longer than the stated one, no longer than what is below."""
    below = width_below(case)
    longer = BEARINGS_IN[case.gap.edge_bearing < BEARINGS_IN]
    return longer if below is None else longer[longer <= below]


def _bearing_words(case: Case, bearing: float) -> str:
    wood = ", wood as wide below" if width_below(case) is None else ""
    return f"{length(bearing)} of bearing at the house wall{wood}"
