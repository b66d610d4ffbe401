"""The first two pages of the summary, which stand alone."""

from collections.abc import Mapping, Sequence

from outrigger.cases.settings import Override
from outrigger.report import cautions, handed, words
from outrigger.report.rows import keys, worst_first
from outrigger.report.summary.cover import cover, derived
from outrigger.report.summary.criteria import combinations, load_path
from outrigger.report.summary.hand_over import plan_lines, plans, questions
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

LEAST_ROWS, MOST_ROWS = 4, 14  # of the ratio table on the second page
MOST_LINES = 29  # of all tables there
MOST_QUESTIONS, LEAST_QUESTIONS, FEW_OPEN = 5, 2, 3
TIE = "\N{NO-BREAK SPACE}"
LETTERS_OF_UNDER = 125  # in a line under the ratio table
LETTERS_OF_WAY, LETTERS_OF_COMBINATION = 26, 32  # in a line of what the house carries


def front(
    found: Findings,
    overrides: Sequence[Override],
    sample: bool,
    anchors: Mapping[int, str],
) -> list[Chapter]:
    """Cover and second page."""
    design = found.design
    return [
        Chapter("", cover(found, overrides, sample), 0, "cover"),
        Chapter("Checks, the closest first", [*_ratios(design, anchors)], 2, "checks"),
        Chapter("Loads handed to the house", _house(design), 2, "house"),
        Chapter("Load path", load_path(design), 2, "not-checked"),
        Chapter("Copy to the plans", plans(design), 2, "plans", columns=2),
        Chapter("Questions for the engineer", asked(design), 2, "questions", columns=2),
    ]


def room_for_questions(design: Design) -> int:
    """Fewer where many checks fail or are open, which stand above them on the page."""
    kept = sum(row.status != "pass" for row in design.rows)
    return MOST_QUESTIONS if kept <= FEW_OPEN else LEAST_QUESTIONS


def asked(design: Design) -> list[Block]:
    """The questions that there is room for; where the rest stands."""
    listed, room = questions(design), room_for_questions(design)
    if len(listed) > room:
        more = f"and {len(listed) - room + 1} more, "
        listed = [*listed[: room - 1], (more, Page("all-questions"))]
    return [Bullets(listed, "small")]


def behind(found: Findings) -> list[Chapter]:
    """What stands right behind the front pages: the combinations, which loads apply, and why."""
    design, on = found.design, found.design.loads
    return [
        Chapter("Combinations and patterns", combinations(design), 2, "combinations"),
        take_down(design),
        unfactored(design, found.parts),
        Chapter(
            "Which loads apply, and why",
            [Bullets([sentence(r) for r in on.reasons], "small"), *derived(found.loads)],
            2, "why", columns=2,
        ),
    ]  # fmt: skip


def _ratios(design: Design, anchors: Mapping[int, str]) -> list[Block]:
    rows, shown = worst_first(design.rows), on_front(design)
    return [ratio_table(shown, anchors), *_rest(rows, shown), *under(design, shown)]


def on_front(design: Design) -> Sequence[CheckResult]:
    """The rows that stand on the second page."""
    rows = worst_first(design.rows)
    return rows[: _count(design, rows)]


def _count(design: Design, rows: Sequence[CheckResult]) -> int:
    """How many rows the second page has room for; what fails or is open always stands there."""
    kept = max(LEAST_ROWS, sum(r.status != "pass" for r in rows))
    others = len(handed.turned(design)) + 2 * len(handed.diaphragm(design))
    for phrase, levels in handed.most(design):
        said = [len(phrase) / LETTERS_OF_WAY]
        said += [len(one.name) / LETTERS_OF_COMBINATION for one in levels]
        others += 1 + int(max(said))
    others += (
        len(plan_lines(design)) + min(len(questions(design)), room_for_questions(design))
    ) // 2
    others += len(cautions.not_checked(design)) // 3
    count = min(MOST_ROWS, len(rows))
    while count > kept and count + others + _letters(design, rows[:count]) > MOST_LINES:
        count -= 1
    return count


def _letters(design: Design, rows: Sequence[CheckResult]) -> int:
    """Lines that the combinations of these rows take under the table."""
    return sum(1 + len(said) // LETTERS_OF_UNDER for said in _under(design, rows))


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


def under(design: Design, rows: Sequence[CheckResult]) -> list[Block]:
    """The combinations as the standard writes them."""
    return [Paragraph(said, "small") for said in _under(design, rows)]


def _under(design: Design, rows: Sequence[CheckResult]) -> list[str]:
    listed = "; ".join(f"{key} {text}" for text, key in keys(rows).items())
    clips = " ".join(handed.lowered(design, rows))
    return [text for text in (f"Under: {listed}." if listed else "", clips) if text]


def _house(design: Design) -> list[Block]:
    """The most that each place takes, at ASD and at strength level."""
    rows: list[tuple[Runs, ...]] = []
    for phrase, levels in handed.most(design):
        cells: list[Runs] = [phrase]
        at = {one.level: one for one in levels}
        for level in LEVELS:
            one = at.get(level)
            if one is None:
                cells += ["", "", ""]
            else:
                cells += [(Bold(f"{one.force:,.0f}{TIE}lb"),), f"{one.per_foot:,.0f}{TIE}plf"]
                cells.append(one.name)
        rows.append(tuple(cells))
    head = ("the house carries, at most", "ASD", "", "under", "strength", "", "under")
    said = (
        "Under each outrigger, over every combination and pattern; plf is the worst placed "
        "outrigger over its spacing. By load and source, unfactored: "
    )
    return [
        Table(
            head, rows, "lrrlrrl", (1.7, 0.6, 0.65, 1.95, 0.6, 0.65, 1.95),
            "Loads handed to the house",
        ),
        *(
            Paragraph((Bold(text),), "small")
            for text in (*handed.diaphragm(design), *handed.turned(design))
        ),
        Paragraph((said, Page("by-load"), "."), "small"),
    ]  # fmt: skip
