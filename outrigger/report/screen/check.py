"""A design on screen: words before symbols, one ink, at the width of the terminal."""

import textwrap
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from outrigger.cases.settings import Override
from outrigger.report import cautions, handed, verdict_words, words
from outrigger.report.screen import arithmetic
from outrigger.report.words import wrap
from outrigger.verdict import near, notes
from outrigger.verdict.design import CheckResult, Design
from outrigger.verdict.unsaid import stated_none

if TYPE_CHECKING:
    from outrigger.studies.changes import Way  # most runs pass, and start sooner without it

WIDE = 80
MOST_CASES = 4  # load cases that fit side by side
BAR = 10  # characters for a ratio of 1.00


def page(
    design: Design,
    width: int,
    *,
    sample: bool = False,
    overrides: Sequence[Override] = (),
    steps: bool = False,
    ways: "Sequence[Way] | None" = None,
    command: "Callable[[Way], str]" = lambda way: way.setting,
) -> str:
    """The whole output of `check` for one case.

    ways: changes that would make it pass, None where they were not looked for; `command` gives the
    command that tries one.
    """
    width = max(30, width)
    rows = design.rows()
    line = verdict_words.verdict_line(design, sample)
    if ways:
        line += f" {'Works' if ways[0].verdict == 'pass' else 'Nothing fails'} {ways[0].words}."
    said = wrap(line, width)
    parts = [*[wrap(o.text, width) for o in overrides], heading(design, width), said, ""]
    parts += [
        _table(rows, width),
        *_nothing_to_carry(rows, width),
        _shared(design, rows, width),
        "",
    ]
    parts += [_house(design, width), "", *_reasons(design, rows, width)]
    parts += [*_ways(design, ways, command, width), *_lists(design, width)]
    if steps:
        parts += ["", arithmetic.page(design, rows, width)]
    parts += ["", said, wrap(words.ENGINEERS_LINE, width)]
    return words.whole(parts, sample)


def heading(design: Design, width: int) -> str:
    """The job, its member and its basis, in three lines where they fit."""
    project = design.case.project
    right = words.revision(design.case)
    room = width - len(right) - 2
    name = words.printable(project.name)
    one_line = len(name) <= room
    lines = [f"{name:<{room}}  {right}"] if one_line else [wrap(name, width), wrap(right, width)]
    basis = design.case.basis
    lines += [
        wrap(words.title(design), width),
        wrap(f"{basis.method}, {basis.loads}, {basis.wood}", width),
    ]
    return "\n".join(lines)


def _keys(rows: Sequence[CheckResult]) -> dict[str, str]:
    """A letter for each combination that governs a row."""
    texts = dict.fromkeys(r.combination_text for r in rows if r.combination_text)
    return {text: chr(ord("a") + i) for i, text in enumerate(texts)}


def _shown(rows: Sequence[CheckResult]) -> list[CheckResult]:
    """The rows of the table, the closest first; rows without a demand are told in one line."""
    order = {"fail": 0, "open": 1, "pass": 1}
    kept = [r for r in rows if r.demand or not r.check.kind.quiet]
    return sorted(
        kept,
        key=lambda r: (
            order[r.status] if r.ratio is None else 1,
            -(r.ratio if r.ratio is not None else 9.0),
        ),
    )


def _table(rows: Sequence[CheckResult], width: int) -> str:
    shown = _shown(rows)
    keys = _keys(shown)
    where = max(len(words.place(row.check.place)) for row in shown)
    what = max(len(words.what(row)) for row in shown)
    lines = [f"  {'where':<{where}} {'what':<{what}} {'load':>9} {'limit':>9}  used  1.00 at |"]
    lines += [_wide(row, keys, where, what) for row in shown]
    if max(map(len, lines)) > width:
        return "\n".join(_narrow(row, keys, width) for row in shown)
    return "\n".join(lines)


def _wide(row: CheckResult, keys: dict[str, str], where: int, what: int) -> str:
    place, check = words.place(row.check.place), words.what(row)
    load, used = words.amount(row.demand, row.check.unit), words.ratio(row.ratio)
    key = keys.get(row.combination_text, "") if len(keys) > 1 else ""
    first = f"  {place:<{where}} {check:<{what}} {load:>9} {words.limit(row):>9} {used:>5}"
    return f"{first}  {bar(row)} {key}".rstrip()


def bar(row: CheckResult) -> str:
    """Twelve characters: `=` for each tenth, a tick at 1.00; a word where there is no ratio."""
    if row.status == "open":
        return "open".ljust(BAR + 2)
    if row.ratio is None:
        return "FAILS".ljust(BAR + 2)
    marks = min(round(row.ratio * BAR), BAR)
    over = "=" if row.ratio > 1 else " "
    return f"{'=' * marks:<{BAR}}|{over}"


def _narrow(row: CheckResult, keys: dict[str, str], width: int) -> str:
    key = keys.get(row.combination_text, "")
    combination = f", {key}" if key and len(keys) > 1 else ""
    used = words.ratio(row.ratio)
    said = {"fail": " FAILS", "open": " open", "pass": ""}[row.status]
    load = words.amount(row.demand, row.check.unit)
    first = f"{words.place(row.check.place)}: {words.what(row)} {used}{said}"
    return "\n".join(
        (wrap(first, width), wrap(f"{load}, limit {words.limit(row)}{combination}", width, "  "))
    )


def _nothing_to_carry(rows: Sequence[CheckResult], width: int) -> list[str]:
    quiet = [words.what(r) for r in rows if r.check.kind.quiet and not r.demand]
    said = f"Nothing to carry: {', '.join(quiet)} (no side force)."
    return [wrap(said, width, "  ")] if quiet else []


def _shared(design: Design, rows: Sequence[CheckResult], width: int) -> str:
    """The combinations in words, once."""
    shown = _shown(rows)
    keys = _keys(shown)
    said: dict[str, str] = {}
    for row in shown:
        if row.combination_text:
            said.setdefault(row.combination_text, row.combination_words)
    if len(keys) == 1:
        ((text, phrase),) = said.items()
        lines = [wrap(f"All under {phrase} ({text}).", width, "  ")]
    else:
        lines = [wrap(f"{keys[t]}: {phrase} ({t})", width, "  ") for t, phrase in said.items()]
    lines += [
        wrap(text, width, "  ") for text in (*handed.lowered(design, shown), *words.weakest(rows))
    ]
    return "\n".join(lines)


def _house(design: Design, width: int) -> str:
    """Loads handed to the house, unfactored, in words."""
    table, cases = handed.table(design)
    title = f"The house carries, {handed.title(design)}:"
    if width < WIDE or len(cases) > MOST_CASES:
        lines = [wrap(title, width)]
        for phrase, by_case in table.items():
            said = ", ".join(
                f"{words.load_case(c)} {by_case[c][0]:,.0f} lb ({by_case[c][1]:,.0f} plf)"
                for c in cases if c in by_case
            )  # fmt: skip
            lines.append(wrap(f"{phrase}: {said}", width, "  "))
    else:
        lines = [wrap(title, width), *_house_table(table, cases, width)]
    lines += [
        wrap(text, width, "  ") for text in (*handed.in_plane(design), *handed.turned(design))
    ]
    return "\n".join([*lines, wrap(handed.bent(design), width)])


def _house_table(
    table: dict[str, dict[str, tuple[float, float]]], cases: list[str], width: int
) -> list[str]:
    label = max((len(phrase) for phrase in table), default=0)
    column = 11
    label = min(label, width - 3 - column * len(cases))
    lines = [" " * (label + 3) + "".join(f"{words.load_case(c):>{column}}" for c in cases)]
    for phrase, by_case in table.items():
        pounds, lines_plf = "", ""
        for c in cases:
            force, plf = by_case.get(c, (None, None))
            pounds += f"{'' if force is None else f'{force:,.0f} lb':>{column}}"
            lines_plf += f"{'' if plf is None else f'{plf:,.0f} plf':>{column}}"
        first, *rest = textwrap.wrap(phrase, label) or [""]
        second = rest[0] if rest else ""
        lines += [f"  {first:<{label}} {pounds}", f"  {second:<{label}} {lines_plf}"]
        lines += [f"  {more}" for more in rest[1:]]
    return lines


def _reasons(design: Design, rows: Sequence[CheckResult], width: int) -> list[str]:
    """What fails, is open, is not given or not computed, with what to do."""
    lines = []
    for row in rows:
        if row.status != "pass" and row.check.why:
            state = "Fails" if row.status == "fail" else "Open"
            lines.append(wrap(f"{state}: {words.subject(row)}: {row.check.why}.", width))
    if design.not_given:
        lines.append(wrap("Not given, so not a pass. Add the line, or ask:", width))
        for one in design.not_given:
            lines.append(wrap(f"{one.key}: {one.question} Ask: {one.who}.", width, "  "))
            lines.append(wrap(f"add {one.line}", width, "    "))
    if design.not_covered:
        lines.append(wrap("In the file but not computed, so not a pass:", width))
        lines += [wrap(text, width, "  ") for text in design.not_covered]
    return [*lines, ""] if lines else []


def _ways(
    design: Design, ways: "Sequence[Way] | None", command: "Callable[[Way], str]", width: int
) -> list[str]:
    """Single changes that would do, each with the command that tries it."""
    if not ways:
        failing = ways is not None and design.verdict() == "fail"
        return [wrap("No single change that was tried makes it work.", width), ""][: 2 * failing]
    passing = ways[0].verdict == "pass"
    title = "What would make it a pass" if passing else "With what nothing fails, still open"
    lines = [wrap(f"{title}, each alone, run in full:", width)]
    for way in ways:
        used = "" if way.closest.ratio is None else f" {words.ratio(way.closest.ratio)}"
        lines.append(
            wrap(f"{way.words}: closest then {words.subject(way.closest)}{used}", width, "  ")
        )
        lines += words.command_lines(command(way), width, "    ")
    return [*lines, ""]


def _lists(design: Design, width: int) -> list[str]:
    """Assumptions, defaults, zeros by the user's word, cautions."""
    lines = ["Loads:", *(wrap(reason, width, "  ") for reason in design.loads.reasons)]
    if close := [f"{words.subject(row)} {text}" for row, text in near.of(design)]:
        lines.append(wrap(f"Near the line: {'; '.join(close)}.", width))
    recalled = notes.unverified(design)
    assumed = notes.assumed(design)
    lines.append(wrap(f"Assumed: {'; '.join(assumed)}.", width))
    lines.append(wrap(f"Recalled and not verified: {'; '.join(recalled)}.", width))
    if design.defaults:
        lines.append(wrap(f"Taken by default: {'; '.join(design.defaults)}.", width))
    if none := stated_none(design.case):
        lines.append(wrap(f"None, by the file's word: {', '.join(none)}.", width))
    if sources := design.case.sources:
        said = "; ".join(f"{key} from {text}" for key, text in sources.items())
        lines.append(wrap(f"Sources: {said}.", width))
    return [*lines, *cautions.caution_lines(design, width)]
