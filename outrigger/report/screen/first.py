"""The first screen of `check`: what a person asks, in a window of 30 lines; the rest is behind
--all.

Never left out: verdict, what is missing, rows that fail or are open, what was stated as none,
cautions of the case, the engineer's line.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING

import numpy as np

from outrigger.actions.places import EDGE
from outrigger.cases.settings import Override
from outrigger.checks.movement import TOTAL
from outrigger.checks.one_clip import HOLD_DOWN
from outrigger.report import cautions, verdict_words, words
from outrigger.report.rows import worst_first
from outrigger.report.screen.check import heading
from outrigger.report.screen.columns import columns
from outrigger.report.words import wrap
from outrigger.verdict import notes
from outrigger.verdict.asked import by_person
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.clip_forces import most_pulls
from outrigger.verdict.design import Design
from outrigger.verdict.envelopes import ASD, PULL, PUSH, envelopes
from outrigger.verdict.taken import stated_none
from outrigger.verdict.unknown import in_words, loads_missing

if TYPE_CHECKING:
    from outrigger.studies.changes import Way

WINDOW, NARROW_WINDOW = 30, 45  # lines that a person sees at once
MOST_ROWS, LEAST_ROWS = 8, 1  # unless more fail or are open
NARROW = 60  # columns under which a row has no figures beside its ratio
TENTH, MOST_OVER = 10, 3  # characters for 1.00, and past the tick
UNCUT = 999  # columns, before lines are cut to the screen


def page(
    design: Design,
    width: int,
    *,
    sample: bool = False,
    overrides: Sequence[Override] = (),
    ways: "Sequence[Way] | None" = None,
    command: "Callable[[Way], str]" = lambda way: way.setting,
) -> str:
    """The first screen of a case; `ways`: changes that cure it, None: none was tried; `command`
    tries one."""
    width = max(30, width)
    top = [*(wrap(one.text, width) for one in overrides), heading(design, width), ""]
    top += [wrap(verdict_words.verdict_line(design, sample), width)]
    top += [wrap(f"The wall {text}.", width) for text in notes.roofless(design.case)]
    top += [*_cures(design, ways, command, width), *_missing(design, width), ""]
    below = [wrap(other, width)] if (other := verdict_words.at_other_marks(design)) else []
    below += [wrap(house(design), width), *_none(design, width)]
    below += [wrap(f"Caution: {one.short}.", width) for one in cautions.of_case(design)]
    said = cautions.few(cautions.not_checked(design))
    below.append(wrap(f"Not checked: {said}. In full: --all.", width))
    below += [wrap(words.adopted_line(design.verdict, sample), width)]
    used = sum(part.count("\n") + 1 for part in (*top, *below)) + 2 * sample
    room = (WINDOW if width >= NARROW else NARROW_WINDOW) - used - 1
    return words.whole([*top, *_rows(design, width, room), *below], sample)


def _rows(design: Design, width: int, room: int) -> list[str]:
    """One row a place and kind, the worst of its layers, as many as there is room for; what fails
    and is open always."""
    worst = worst_of_each(design.rows)
    kept = sum(row.status != "pass" for row in worst)
    shown = worst[: max(kept, min(MOST_ROWS, room), LEAST_ROWS)]
    if width < NARROW:
        lines = [
            wrap(" ".join([*_cells(row)[:3], word(row)]).rstrip(), width, "  ") for row in shown
        ]
    else:
        pulls = most_pulls(design)
        cells = [(*_cells(row), figures(design, row, pulls)) for row in shown]
        lines = _cut(columns(cells, "llrll", UNCUT, between="  ") or [], width)
    hidden = worst[len(shown) :]
    if hidden:
        most = words.ratio(max(row.ratio or 0.0 for row in hidden))
        lines.append(f"  {len(hidden)} more, none over {most}: --all")
    return lines


def worst_of_each(rows: Sequence[CheckResult]) -> list[CheckResult]:
    """Of each place and kind the worst row that has something to carry."""
    found: dict[tuple[str, str], CheckResult] = {}
    for row in worst_first(rows):
        if row.demand or row.status != "pass":
            found.setdefault((row.check.place, row.check.kind.name), row)
    return list(found.values())


def _cells(row: CheckResult) -> tuple[str, str, str, str]:
    """Place, what, ratio, and a bar or a word."""
    used = "" if row.ratio is None else words.ratio(row.ratio)
    return words.place(row.check.place), row.check.kind.name, used, _bar(row)


def _bar(row: CheckResult) -> str:
    """A tenth of the limit each mark, a tick at 1.00, and what is over it past the tick."""
    if row.status == "open" or row.ratio is None:
        return word(row)
    marks = round(row.ratio * TENTH)
    bar = f"{'=' * min(marks, TENTH):<{TENTH}}|"
    over = min(math.ceil((row.ratio - 1) * TENTH), MOST_OVER)
    return f"{word(row):<{TENTH}}|{'>' * over}" if row.status == "fail" else bar


def word(row: CheckResult) -> str:
    """What a row is beside one that passes."""
    return {"pass": "", "open": "open", "fail": "FAILS"}[row.status]


def figures(design: Design, row: CheckResult, pulls: Mapping[str, float]) -> str:
    """What it has and what it takes; of a clip its pull; why it is open."""
    if row.status != "pass" and row.check.why:
        return words.printable(row.check.why)
    if row.check.kind == HOLD_DOWN and row.check.unit != "lb":
        return f"up to {pulls.get(row.check.place, 0.0):,.0f} lb each"
    if not row.check.unit or row.capacity is None:
        return ""
    unit = row.check.unit
    takes = words.amount(row.capacity, unit).removesuffix(f" {unit}")
    has = words.amount(row.demand, unit)
    if row.check.link == TOTAL:  # the limit is one of the wood: what clips and bearing give is said
        whole = float(np.ravel(design.at_wall.whole.value)[0])
        has = f"{has} of wood ({whole:.3f} with clips)"
    return f"{has}, takes {takes}"


def _cut(lines: Sequence[str], width: int) -> list[str]:
    """Lines no wider than the screen; a word that does not fit goes, and three points say so."""
    cut = []
    for line in lines:
        bare = line.rstrip()
        cut.append(bare if len(bare) <= width else f"{bare[: width - 4].rsplit(' ', 1)[0]} ...")
    return cut


def house(design: Design) -> str:
    """What the house gets, in a sentence: ASD level."""
    most = {(one.at, one.way): one.force for one in envelopes(design, (ASD,))}
    edge = []
    for way, said in ((PUSH, "down"), (PULL, "up")):
        if round(force := most.get((EDGE, way), 0.0)):
            edge.append(f"{force:,.0f} lb {said}")
    clips = []
    for (at, way), force in most.items():
        if way == PULL and at != EDGE and round(force):
            clips.append(f"{words.clip(at)} {force:,.0f} lb up")
    parts = [f"wall {', '.join(edge)}" if edge else "", *clips]
    listed = "; ".join(one for one in parts if one)
    if not listed:
        return ""
    how = "by the loads given" if loads_missing(design) else "at most"
    return f"The house gets {how}, {words.each(design)} (ASD): {listed}."


def _cures(
    design: Design, ways: "Sequence[Way] | None", command: "Callable[[Way], str]", width: int
) -> list[str]:
    """What cures a case that does not pass, the cheapest in labor first, each run in full."""
    if ways is None:
        return []
    lines = [wrap(said, width)] if (said := cures_title(design, ways)) else []
    if not ways:
        return lines
    cells = [(one.words, then(one)) for one in ways]
    listed = [(*cell, one.setting) for cell, one in zip(cells, ways, strict=True)]
    table = columns(listed, "lll", width, between="  ") if width >= NARROW else None
    lines += table or [wrap(", ".join(filter(None, one)), width, "  ") for one in cells]
    return [*lines, *words.command_lines(f"try: {command(ways[0])}", width, "  ")]


def cures_title(design: Design, ways: "Sequence[Way]") -> str:
    """What is said above the changes that cure a case, or in their place; empty: nothing is."""
    if not ways:
        none = "No single change that was tried, and no two, make it work."
        return none if design.verdict == "fail" else ""
    left = sorted({way.left for way in ways} - {0})
    many = " to ".join(map(str, left[:1] + left[1:][-1:]))
    if len(ways[0].settings) > 1:
        leave = f" and leave {many} open" if left else ""
        return f"No single change does; any two of one line cure it{leave}; each run in full:"
    leaves = f" and leaves {many} open" if left else ""
    return f"Any one of these cures it{leaves}; each run in full:"


def then(way: "Way") -> str:
    """The closest ratio with a change."""
    return "" if way.closest.ratio is None else f"then {words.ratio(way.closest.ratio)}"


def _missing(design: Design, width: int) -> list[str]:
    """What is not given, by who has it, and what is not computed."""
    people = by_person(design)
    lines = [wrap("Missing, by who has it:", width)] if people else []
    for who, facts in people.items():
        lines.append(wrap(f"{who}: {', '.join(dict.fromkeys(map(in_words, facts)))}", width, "  "))
    return lines + [wrap(f"Not computed: {text}", width) for text in design.not_covered]


def _none(design: Design, width: int) -> list[str]:
    said = stated_none(design.case)
    return [wrap(f"You said none of: {', '.join(said)}.", width)] if said else []
