"""The rest of the summary: how near, inputs, assumptions, questions, revisions, notation."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from outrigger.cases.settings import Override
from outrigger.report import cautions, handed, provenance, words
from outrigger.report.rows import keys
from outrigger.report.screen import compare as compare_page
from outrigger.report.screen import frame as sweep_words
from outrigger.report.screen import reserve as reserve_page
from outrigger.report.screen.frame import ANY_WIDTH
from outrigger.report.summary import front as summary_front
from outrigger.report.summary.gathered import BY_LOAD, Gathered, by_load
from outrigger.report.summary.witness import evidence
from outrigger.report.summary.work import Work
from outrigger.report.write.document import (
    Blank,
    Block,
    Bold,
    Bullets,
    Chapter,
    Inline,
    Page,
    Paragraph,
    Runs,
    Table,
)
from outrigger.studies.compare import Comparison, as_said, flat
from outrigger.studies.for_summary import Findings
from outrigger.verdict import notes
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.taken import stated_none

EMPTY_REVISIONS = 3
LEAST_IN_TABLE = 0.5  # used less than this, a check stands in a line
LEAST_NUMBERS = 0.25  # and under this with its ratio alone
TIE = "\N{NO-BREAK SPACE}"
SET = " (set on the command line)"


def near_the_line(found: Findings) -> list[Chapter]:
    """What a small change decides."""
    decided = [words.capital(f"{words.subject(row)} {text}.") for row, text in found.near]
    said = "A wall line a sixth of its plate off, a bearing or setback 1/4 in off, or 5 % of load"
    blocks: list[Block] = [Paragraph(f"{said}, decides:"), Bullets(decided)]
    if not decided:
        blocks = [Paragraph(f"{said}, decides nothing.")]
    return [Chapter("How near the line", blocks, 2, "near", columns=2)]


def reserves(found: Findings) -> list[Chapter]:
    """How far each stated number can go, alone, before the answer changes."""
    works, sides = found.reserve.works, found.reserve.sides
    rows: list[tuple[Runs, ...]] = []
    for side in sides:
        if side.turn is None or side.shown is None or side.stops is None:
            continue
        one, way = side.quantity, reserve_page.WAYS[works, side.up]
        now, shown = (sweep_words.number(one, value) for value in (one.now, side.shown))
        can = (f"{way} ", Bold(shown), reserve_page.marks(side))
        rows.append((f"{one.name} {now}", can, words.subject(side.stops)))
    said = (
        "All else as stated, each of these alone can go so far before a check fails."
        if works
        else "It does not work as stated. All else as stated, each of these alone makes it work."
    )
    same = "; ".join(reserve_page.looked(side) for side in sides if side.turn is None)
    blocks: list[Block] = [Paragraph(said)] if rows else []
    if rows:
        head = ("now", "can go" if works else "must go", "then decides")
        blocks.append(Table(head, rows, "lll", (1.6, 1.5, 2.5), "Reserve"))
        under = sweep_words.caution_lines((side.caution for side in sides), ANY_WIDTH)
        under += reserve_page.under(found.reserve, ANY_WIDTH)
        blocks += [Paragraph(text.strip(), "small") for text in under]
    if same:
        blocks.append(Paragraph(f"No change of the answer as far as was looked: {same}.", "small"))
    return [Chapter("Reserve", blocks, 2, "reserve", columns=2)]


def back(
    found: Findings, on: Gathered, raw: Mapping[str, Any], overrides: Sequence[Override], work: Work
) -> list[Chapter]:
    """What stands behind the arithmetic."""
    design = found.design
    return [
        *near_the_line(found),
        *reserves(found),
        Chapter("The rest of the checks", _rest(on, work), 2, "all-checks", columns=2),
        _inputs(design, raw, overrides),
        Chapter("Cautions and assumptions", _assumptions(design), 2, "assumptions", columns=2),
        *_more_questions(on),
        *_by_load(design),
        evidence(design),
        _revisions(design, found.earlier),
    ]


def _rest(on: Gathered, work: Work) -> list[Block]:
    """The checks that the second page has no room for, of those that carry anything: a table of
    those that are used half or more, the others in a line each."""
    shown = {id(row) for row in on.shown}
    rows = [row for row in on.rows if id(row) not in shown and row.demand]
    half = [row for row in rows if row.status != "pass" or (row.ratio or 0.0) >= LEAST_IN_TABLE]
    letters, body = keys(half), list[tuple[Runs, ...]]()
    for row in half:
        used: Runs = words.ratio(row.ratio) if row.ratio is not None else ""
        limit = "" if words.quiet(row) else words.limit(row)
        demand = words.amount(row.demand, row.check.unit)
        under = letters.get(row.combination, "")
        body.append((_where_and_what(row), demand, limit, used, under, *_page(row, work)))
    blocks: list[Block] = []
    if body:
        head = ("where, what", "demand", "capacity", "used", "under", "see")
        widths = (2.2, 0.8, 0.9, 0.55, 0.55, 0.5)
        blocks.append(Table(head, body, "lrrrll", widths, "The rest of the checks"))
        blocks += summary_front.under_table(on.design, half)
    if less := [row for row in rows if row not in half]:
        said = f"Used under {LEAST_IN_TABLE:g}, with demand of capacity from {LEAST_NUMBERS:g} up: "
        blocks.append(Paragraph((Bold(said), *_less(less, work), "."), "small"))
    return blocks


def _where_and_what(row: CheckResult) -> str:
    return f"{words.place(row.check.place)}: {words.what(row, engineers=True)}"


def _page(row: CheckResult, work: Work) -> tuple[Runs]:
    anchor = work.anchors.get(id(row.check))
    return ("" if anchor is None else (Page(anchor),),)


def _less(rows: Sequence[CheckResult], work: Work) -> Iterator[Inline]:
    """Checks that are used little, one behind the other, place by place."""
    places = dict.fromkeys(words.place(row.check.place) for row in rows)
    for i, place in enumerate(places):
        yield f"{'. ' if i else ''}{words.capital(place)}: "
        at = [row for row in rows if words.place(row.check.place) == place]
        for j, row in enumerate(at):
            ratio = row.ratio or 0.0
            said = f"{', ' if j else ''}{words.what(row, engineers=True)}"
            if ratio >= LEAST_NUMBERS and not words.quiet(row):
                load = f"{words.amount(row.demand, row.check.unit)} of {words.limit(row)}"
                said += f" {load.replace(' ', TIE)},"
            yield f"{said}{TIE}{words.ratio(ratio)}"
            if (anchor := work.anchors.get(id(row.check))) is not None:
                yield " "
                yield Page(anchor)


def _inputs(design: Design, raw: Mapping[str, Any], overrides: Sequence[Override]) -> Chapter:
    """Stated, defaulted and not given, apart."""
    changed = {one.key for stated in overrides for one in (stated, *stated.too)}
    tables: dict[str, list[str]] = {}
    for key, value in flat(raw).items():
        table, _, name = key.partition(".")
        if table != "project":
            said = f"{name} {words.printable(as_said(value))}{SET if key in changed else ''}"
            tables.setdefault(table, []).append(said)
    stated: list[Runs] = [(Bold(f"{table}: "), ", ".join(said)) for table, said in tables.items()]
    blocks: list[Block] = [Paragraph((Bold("As stated"),), "small"), Bullets(stated, "small")]
    if none := stated_none(design.case):
        blocks.append(_list("None, by the file's word", none))
    if design.defaults:
        blocks.append(_list("Taken by default", design.defaults))
    missing = [f"{one.key}: {one.question} ({one.who})" for one in design.not_given]
    blocks.append(_list("Not given", missing or ["nothing that is needed"]))
    if design.not_covered:
        blocks.append(_list("In the file but not computed", design.not_covered))
    return Chapter("Inputs", blocks, 2, "inputs", columns=2)


def _by_load(design: Design) -> list[Chapter]:
    """Of a layout, unfactored and the most over its marks, what the garage side and the back span
    bring apart; else they stand part by part in the table of what is on one outrigger."""
    if by_load(design) != BY_LOAD:
        return []
    table, cases = handed.table(design)
    items: list[Runs] = []
    for phrase, cells in table:
        runs: list[Inline] = [f"{words.capital(phrase)}: "]
        for case, one in zip(cases, cells, strict=True):
            if one is not None:
                runs += [f"{words.load_case(case)} ", Bold(f"{one[0]:,.0f}{TIE}lb"),
                         f" {one[1]:,.0f}{TIE}plf, "]  # fmt: skip
        items.append((*runs[:-1], str(runs[-1]).removesuffix(", ")))
    blocks: list[Block] = [
        Bullets([*items, *map(words.capital, handed.sideways(design))], "small"),
        *(Paragraph(words.printable(text), "small") for text in handed.snow_on_house(design)),
        Paragraph(f"{words.capital(handed.title(design))}.", "small"),
    ]
    return [Chapter("Loads handed to the house, by load", blocks, 2, BY_LOAD, columns=2)]


def _list(title: str, items: Sequence[str]) -> Paragraph:
    return Paragraph((Bold(f"{title}: "), "; ".join(map(words.printable, items)) + "."), "small")


def _assumptions(design: Design) -> list[Block]:
    kept = notes.assumed(design)
    values = notes.unverified(design)
    warned = [*(words.capital(one.long) for one in cautions.cautions(design)), cautions.SEALED]
    blocks: list[Block] = [
        Paragraph((Bold("Cautions, the most dangerous first"),)),
        Bullets(warned, "small"),
        Paragraph((Bold("Taken for granted"),)),
        Bullets([words.capital(f"{note}.") for note in kept], "run"),
    ]
    if values:
        said = "Values of unverified source: check each in print"
        blocks += [Paragraph((Bold(f"{said}. "), provenance.DEFINITIONS), "small")]
        blocks.append(Bullets(values, "run"))
    return blocks


def _more_questions(on: Gathered) -> list[Chapter]:
    """All that is asked, where the front page has not the room."""
    if len(on.questions) <= on.room:
        return []
    title = "All questions for the engineer"
    return [Chapter(title, [Bullets(on.questions, "small")], 2, "all-questions", columns=2)]


def _revisions(design: Design, earlier: Comparison | None) -> Chapter:
    project = design.case.project
    date: Runs = words.printable(project.date or "") or (Blank(0, ""),)
    what: Runs = (Blank(0, ""),)
    by: Runs = words.printable(project.prepared_by) or (Blank(0, ""),)
    blocks: list[Block] = []
    if earlier is not None:
        was = words.rev(earlier.before.case)
        what = f"see below: changes since revision {was}"
        blocks = _changed(earlier)
    rows: list[tuple[Runs, ...]] = [((Bold(words.rev(design.case)),), date, what, by)]
    rows += [((Blank(0, ""),),) * 4] * EMPTY_REVISIONS
    table = Table(("revision", "date", "what changed", "by"), rows, "llll", (0.8, 1.0, 2.4, 1.0),
                  "Revisions")  # fmt: skip
    return Chapter("Revisions", [table, *blocks], 2, "revisions", columns=2)


def _changed(found: Comparison) -> list[Block]:
    """Input and results that changed since the earlier case."""
    tables: list[tuple[str, list[tuple[str, str, str]]]] = [
        ("input", [(one.key, one.before, one.after) for one in found.inputs]),
        ("used of each limit", compare_page.ratios(found)),
        ("handed to the house", compare_page.forces(found)),
        ("pieces and clips", compare_page.pieces(found)),
    ]
    blocks: list[Block] = []
    for title, lines in tables:
        kept = [tuple(map(words.printable, line)) for line in lines if line[1] != line[2]]
        if kept:
            head = (title, "before", "now")
            blocks.append(Table(head, kept, "lrr", (2.6, 1.4, 1.4), f"Changed: {title}"))
        else:
            blocks.append(Paragraph(f"No change: {title}."))
    before, now = (one.verdict.upper() for one in (found.before, found.after))
    return [*blocks, Paragraph((Bold(f"Verdict: {before} before, {now} now."),))]
