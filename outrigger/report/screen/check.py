"""A design on screen: words before symbols, one ink, at the width of the terminal."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from outrigger.cases.settings import Override
from outrigger.report import cautions, handed, verdict_words, words
from outrigger.report.rows import closest_first, in_words, keys
from outrigger.report.screen import arithmetic
from outrigger.report.screen.columns import columns
from outrigger.report.words import wrap
from outrigger.verdict import near, notes
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.envelopes import Most
from outrigger.verdict.taken import stated_none

if TYPE_CHECKING:
    from outrigger.studies.changes import Way  # most runs pass, and start sooner without it

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
    rows = design.rows
    line = verdict_words.verdict_line(design, sample)
    if ways:
        line += f" {'Works' if ways[0].verdict == 'pass' else 'Nothing fails'} {ways[0].words}."
    said = wrap(line, width)
    said = "\n".join(
        [said, *(wrap(f"The wall {text}.", width) for text in notes.roofless(design.case))]
    )
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


def _shown(rows: Sequence[CheckResult]) -> list[CheckResult]:
    """The rows of the table, the closest first; rows without a demand are told in one line."""
    return closest_first(r for r in rows if r.demand or not r.check.kind.quiet)


def _table(rows: Sequence[CheckResult], width: int) -> str:
    shown = _shown(rows)
    letters = keys(shown)
    head = ("where", "what", "has", "takes", "used", " 1.00 at |", "")
    cells = [head, *(_cells(row, letters) for row in shown)]
    lines = columns(cells, "llrrrll", width, least=(0, 0, 9, 9, 5))
    return "\n".join(lines or [_narrow(row, letters, width) for row in shown])


def _cells(row: CheckResult, letters: dict[str, str]) -> tuple[str, ...]:
    """A row: place, check, what it has and takes, used, bar, letter of its combination."""
    return (
        words.place(row.check.place),
        words.what(row),
        words.amount(row.demand, row.check.unit),
        words.limit(row),
        words.ratio(row.ratio),
        f" {bar(row)}",
        letters.get(row.combination, "") if len(letters) > 1 else "",
    )


def bar(row: CheckResult) -> str:
    """Twelve characters: `=` for each tenth, a tick at 1.00; a word where there is no ratio."""
    if row.status == "open":
        return "open".ljust(BAR + 2)
    if row.ratio is None:
        return "FAILS".ljust(BAR + 2)
    marks = min(round(row.ratio * BAR), BAR)
    over = "=" if row.ratio > 1 else " "
    return f"{'=' * marks:<{BAR}}|{over}"


def _narrow(row: CheckResult, letters: dict[str, str], width: int) -> str:
    key = letters.get(row.combination, "")
    combination = f", {key}" if key and len(letters) > 1 else ""
    used = words.ratio(row.ratio)
    said = {"fail": " FAILS", "open": " open", "pass": ""}[row.status]
    load = words.amount(row.demand, row.check.unit)
    first = f"{words.place(row.check.place)}: {words.what(row)} {used}{said}"
    return "\n".join(
        (
            wrap(first, width),
            wrap(f"has {load}, takes {words.limit(row)}{combination}", width, "  "),
        )
    )


def _nothing_to_carry(rows: Sequence[CheckResult], width: int) -> list[str]:
    quiet = [words.what(r) for r in rows if r.check.kind.quiet and not r.demand]
    said = f"Nothing to carry: {', '.join(quiet)} (no side force)."
    return [wrap(said, width, "  ")] if quiet else []


def _shared(design: Design, rows: Sequence[CheckResult], width: int) -> str:
    """The combinations in words, once."""
    shown = _shown(rows)
    letters = keys(shown)
    said = in_words(shown)
    if len(said) == 1:
        ((text, phrase),) = said.items()
        lines = [wrap(f"All under {phrase} ({text}).", width, "  ")]
    else:
        lines = [wrap(f"{letters[t]}: {phrase} ({t})", width, "  ") for t, phrase in said.items()]
    lines += [
        wrap(text, width, "  ") for text in (*handed.lowered(design, shown), *words.weakest(rows))
    ]
    lines.append(wrap(handed.droop(design), width, "  "))
    if other := verdict_words.at_other_marks(design, None):
        lines.append(wrap(other, width, "  "))
    return "\n".join(lines)


def _house(design: Design, width: int) -> str:
    """Loads handed to the house in words: the most of each place, and unfactored by load."""
    table, cases = handed.table(design)
    lines = [wrap(f"The house carries, under {words.each(design)}, at most:", width)]
    lines += [wrap(text, width, "  ") for text in _most(design)]
    lines.append(
        wrap(f"Raw loads, for the engineer; the house carries, {handed.title(design)}:", width)
    )
    lines += [wrap(f"{phrase}: {_told(cells, cases)}", width, "  ") for phrase, cells in table]
    lines += [
        wrap(text, width, "  ")
        for text in (
            *handed.sideways(design),
            *handed.diaphragm(design),
            *handed.turned(design),
        )
    ]
    lines += [wrap(text, width, "  ") for text in handed.snow_on_house(design)]
    return "\n".join([*lines, wrap(handed.bent(design), width)])


def _most(design: Design) -> list[str]:
    """The largest push and pull of each place, over every combination and pattern."""
    return [
        f"{phrase}: " + "; ".join(_one(one) for one in levels)
        for phrase, levels in handed.most(design)
    ]


def _one(one: Most) -> str:
    """The most at one level; of the worker on one outrigger the wall without him."""
    force, line = f"{one.level} {one.force:,.0f} lb", f"{one.per_foot:,.0f} plf"
    if one.alone:
        of = "" if one.line[1] == one.combination else f", {one.line[1]}"
        return f"{force}, {one.combination}, under one of them; without the worker {line}{of}"
    return f"{force} ({line}), {one.combination}"


def _told(cells: Sequence[handed.Cell], cases: Sequence[str]) -> str:
    """The loads of one place in a line."""
    return ", ".join(
        f"{words.load_case(case)} {cell[0]:,.0f} lb ({cell[1]:,.0f} plf)"
        for case, cell in zip(cases, cells, strict=True)
        if cell is not None
    )


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
        failing = ways is not None and design.verdict == "fail"
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
    """Cautions, zeros by the user's word; then what the loads follow from, and what is taken."""
    lines = cautions.caution_lines(design, width)
    if none := stated_none(design.case):
        lines.append(wrap(f"None, by the file's word: {', '.join(none)}.", width))
    lines += ["", "Loads:", *(wrap(reason, width, "  ") for reason in design.loads.reasons)]
    if close := [f"{words.subject(row)} {text}" for row, text in near.of(design)]:
        lines.append(wrap(f"Near the line: {'; '.join(close)}.", width))
    assumed = notes.assumed(design)
    lines.append(wrap(f"Taken for granted: {'; '.join(assumed)}.", width))
    for word, values in notes.doubtful(design).items():
        lines.append(wrap(f"Not verified, {word}: {'; '.join(values)}.", width))
    if design.defaults:
        lines.append(wrap(f"Taken by default: {'; '.join(design.defaults)}.", width))
    if sources := design.case.sources:
        said = "; ".join(f"{key} from {text}" for key, text in sources.items())
        lines.append(wrap(f"Sources: {said}.", width))
    return lines
