"""The first two pages of the summary, which stand alone."""

from collections.abc import Mapping, Sequence

from outrigger.cases.settings import Override
from outrigger.report import words
from outrigger.report.rows import keys
from outrigger.report.summary.cover import cover, derived
from outrigger.report.summary.criteria import combinations, load_path
from outrigger.report.summary.gathered import Gathered, by_load, questions_of, under
from outrigger.report.summary.hand_over import plans
from outrigger.report.summary.loads import take_down
from outrigger.report.summary.unfactored import unfactored
from outrigger.report.summary.work import sentence
from outrigger.report.write.document import (
    Bar,
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
from outrigger.studies.for_summary import Findings
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.envelopes import LEVELS

TIE = "\N{NO-BREAK SPACE}"


def front(
    found: Findings,
    on: Gathered,
    overrides: Sequence[Override],
    sample: bool,
    anchors: Mapping[int, str],
) -> list[Chapter]:
    """Cover and second page."""
    design = found.design
    return [
        Chapter("", cover(found, overrides, sample), 0, "cover"),
        Chapter("Checks, the closest first", _ratios(on, anchors), 2, "checks"),
        Chapter("Loads handed to the house", _house(on), 2, "house"),
        Chapter("Load path", load_path(design), 2, "not-checked"),
        Chapter("Copy to the plans", plans(on.lines, by_load(design)), 2, "plans", columns=2),
        Chapter("Questions for the engineer", _asked(on), 2, "questions", columns=2),
    ]


def _asked(on: Gathered) -> list[Block]:
    """The questions that there is room for; where the rest stands."""
    listed, more = questions_of(on)
    rest: list[Runs] = [(f"and {more} more, ", Page("all-questions"))] if more else []
    return [Bullets([*listed, *rest], "small")]


def behind(found: Findings) -> list[Chapter]:
    """What stands right behind the front pages: the combinations, which loads apply, and why."""
    design, on = found.design, found.design.loads
    return [
        Chapter("Combinations and patterns", combinations(design), 2, "combinations"),
        take_down(design),
        unfactored(found),
        Chapter(
            "Which loads apply, and why",
            [Bullets([sentence(r) for r in on.reasons], "small"), *derived(found.loads)],
            2, "why", columns=2,
        ),
    ]  # fmt: skip


def _ratios(on: Gathered, anchors: Mapping[int, str]) -> list[Block]:
    table = ratio_table(on.shown, anchors)
    return [table, *_rest(on.rows, on.shown), *under_table(on.design, on.shown)]


def ratio_table(rows: Sequence[CheckResult], anchors: Mapping[int, str]) -> Table:
    """Rows of the ratio table."""
    letters = keys(rows)
    body: list[tuple[Runs, ...]] = []
    for row in rows:
        states: dict[str, Inline] = {"fail": Bold("FAILS"), "open": Bold("open"), "pass": ""}
        state = states[row.status]
        used: Runs = (words.ratio(row.ratio) if row.ratio is not None else "", " ", state)
        body.append(
            (
                words.place(row.check.place),
                words.what(row, engineers=True),
                words.amount(row.demand, row.check.unit),
                "" if words.quiet(row) else words.limit(row),
                used,
                (Bar(row.ratio),),
                letters.get(row.combination, ""),
                (Page(anchors[id(row.check)]),) if id(row.check) in anchors else "",
            )
        )
    head = ("where", "what", "demand", "capacity", "used", "1.00 at the tick", "under", "see")
    widths = (0.9, 2.2, 0.75, 0.75, 0.75, 0.85, 0.45, 0.5)
    return Table(
        head, body, "llrrrlll", widths, "Every check: demand, capacity, their ratio, and its page"
    )


def _rest(rows: Sequence[CheckResult], shown: Sequence[CheckResult]) -> list[Block]:
    hidden = rows[len(shown) :]
    if not hidden:
        return []
    largest = max((r.ratio or 0.0) for r in hidden)
    said = f"{len(hidden)} more pass, none over {words.ratio(largest)}: "
    return [Paragraph((said, Page("all-checks"), "."), "small")]


def under_table(design: Design, rows: Sequence[CheckResult]) -> list[Block]:
    """The combinations as the standard writes them."""
    return [Paragraph(said, "small") for said in under(design, rows)]


def _house(on: Gathered) -> list[Block]:
    """The most that each place takes, at ASD and at strength level."""
    rows: list[tuple[Runs, ...]] = []
    for phrase, levels in on.most:
        cells: list[Runs] = [phrase]
        at = {one.level: one for one in levels}
        for level in LEVELS:
            one = at.get(level)
            if one is None:
                cells += ["", "", ""]
            else:
                cells += [(Bold(f"{one.force:,.0f}{TIE}lb"),), f"{one.per_foot:,.0f}{TIE}plf"]
                along = "" if one.line[0] == one.name else f"; plf {one.line[0]}"
                cells.append(f"{one.name}{along}")
        rows.append(tuple(cells))
    head = ("the house carries, at most", "ASD", "", "under", "strength", "", "under")
    one_alone = any(one.alone for _, levels in on.most for one in levels)
    without = ", without the worker, who stands on one alone" if one_alone else ""
    said = (
        f"Under {words.each(on.design)}, over every combination and pattern; plf is the worst "
        f"placed outrigger over its spacing{without}. By load and source, unfactored: "
    )
    return [
        Table(
            head, rows, "lrrlrrl", (1.7, 0.6, 0.65, 1.95, 0.6, 0.65, 1.95),
            "Loads handed to the house",
        ),
        *(
            Paragraph((Bold(words.capital(text)),), "small")
            for text in (*on.diaphragm, *on.turned)
        ),
        Paragraph((said, Page(by_load(on.design)), "."), "small"),
    ]  # fmt: skip
