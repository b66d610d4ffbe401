"""The first two pages of the summary, which stand alone."""

from collections.abc import Mapping, Sequence

from outrigger.actions.design_loads import DesignLoad
from outrigger.cases.model import Case
from outrigger.cases.settings import Override
from outrigger.report import cautions, handed, verdict_words, words
from outrigger.report.draw import section as figures
from outrigger.report.rows import closest_first, in_words, keys
from outrigger.report.write.document import (
    AdoptionBox,
    Bar,
    Blank,
    Block,
    Bold,
    Bullets,
    Figure,
    Inline,
    Page,
    PageBreak,
    Paragraph,
    Runs,
    Section,
    Table,
)
from outrigger.studies.for_summary import Findings
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design

PRELIMINARY = (
    "PRELIMINARY: not for construction, bidding or permit until adopted by the engineer of record"
)
ADOPTION = (Blank(2.5, "adopted by"), "   ", Blank(1.35, "licence"), "   ", Blank(1.2, "date"))
MOST_ROWS, MOST_LINES = 18, 26  # of the ratio table, and of all tables, on the second page
TIE = "\N{NO-BREAK SPACE}"
LONGEST_NAME = 60  # of the job among the facts; it stands in full above them
MOST_LINK_LINES, LETTERS_OF_WHY = 14, 46  # of the hold-downs, there
MOST_MISSING = 4  # of what is not given, on the cover
DIGITS = {"psf": 1, "plf": 0}  # of a derived load
FACTS = (
    ("name", "project"), ("number", "number"), ("address", "address"), ("location", "location"),
    ("sheet", "sheet"), ("detail", "detail"), ("prepared_by", "prepared by"),
    ("checked_by", "checked by"), ("engineer_of_record", "engineer of record"),
)  # fmt: skip
RULES = (
    ("code", "code"), ("jurisdiction", "jurisdiction"), ("amendments", "amendments"),
    ("risk_category", "risk category"),
)  # fmt: skip


def front(
    found: Findings,
    overrides: Sequence[Override],
    sample: bool,
    anchors: Mapping[int, str],
) -> list[Section]:
    """Cover and second page."""
    design = found.design
    return [
        Section("", _cover(found, overrides, sample), 0, "cover"),
        Section("Checks, the closest first", [*_ratios(design, anchors)], 2, "checks"),
        Section("Loads handed to the house", _house(design), 2, "house"),
        Section("Hold-downs", _hold_downs(design, anchors), 2, "hold-downs"),
        Section("Not checked here", _not_checked(design), 2, "not-checked"),
    ]


def _cover(found: Findings, overrides: Sequence[Override], sample: bool) -> list[Block]:
    design = found.design
    return [
        AdoptionBox(PRELIMINARY, ADOPTION),
        _facts(design.case),
        Paragraph((Bold(verdict_words.verdict_line(design, sample)),), "lead"),
        *(Paragraph(f"Set on the command line: {one.text}.", "small") for one in overrides),
        *_missing(design),
        Paragraph(words.title(design)),
        Figure(figures.section(design), _alt(design), "", 0.0),
        *_design_loads(found.loads),
        PageBreak(),
    ]


def _facts(case: Case) -> Table:
    """Project on the left, rules on the right; a blank where the file says nothing."""

    def fact(section: object, key: str) -> Runs:
        text = words.printable(str(getattr(section, key) or ""))
        return text or (Blank(0, ""),)

    basis = case.basis
    wood = f"{basis.wood}, {basis.method}"
    left: list[tuple[str, Runs]] = [(label, fact(case.project, key)) for key, label in FACTS]
    left[0] = (FACTS[0][1], words.shortened(words.printable(case.project.name), LONGEST_NAME))
    right: list[tuple[str, Runs]] = [
        ("revision", (Bold(words.printable(case.project.revision)),)),
        ("date", fact(case.project, "date")),
        *((label, fact(basis, key)) for key, label in RULES),
        ("loads", basis.loads),
        ("wood", wood),
        ("case", words.digest(case.digest)),
    ]
    rows = [(a, x, b, y) for (a, x), (b, y) in zip(left, right, strict=True)]
    return Table((), rows, "llll", (1.2, 2.5, 0.95, 2.2), "Project and rules")


def _alt(design: Design) -> str:
    clips = ", ".join(f"{hold.count} at {hold.name}" for hold in design.case.hold_down)
    return (
        f"Section to scale. {words.title(design)}. Clips: {clips or 'none'}. The "
        "garage wall stands on the outer end and presses with the load P."
    )


def _missing(design: Design) -> list[Block]:
    """What keeps the verdict open, and who has it."""
    if not design.not_given:
        return []
    items = [f"{one.key}: {one.question} Ask: {one.who}." for one in design.not_given]
    more = len(items) - MOST_MISSING
    shown: list[Runs] = list(items[:MOST_MISSING])
    if more > 0:
        shown.append((f"and {more} more, ", Page("questions")))
    return [Paragraph((Bold("Not given:"),), "small"), Bullets(shown, "small")]


def _design_loads(loads: Sequence[DesignLoad]) -> list[Block]:
    """The loads, stated and derived, each with its level and its source."""
    rows: list[tuple[Runs, ...]] = []
    for load in loads:
        if load.key:
            value = f"{load.value:,.6g} {load.unit}".rstrip()
            source: Runs = words.printable(load.source) or (Blank(0, ""),)
            rows.append((load.name, (Bold(value),), load.level or "", source))
    head = ("design load", "stated", "level", "source")
    table = Table(head, rows, "llll", (1.9, 0.9, 0.8, 3.4), "Design loads")
    derived = [load for load in loads if not load.key]
    levels = dict.fromkeys(load.level for load in derived)
    return [table, *(_derived([x for x in derived if x.level == level]) for level in levels)]


def _derived(loads: Sequence[DesignLoad]) -> Paragraph:
    """What follows from the stated loads at one level, loads of one source together."""
    groups = [
        f"{_said([load for load in loads if load.source == source])} ({source})"
        for source in dict.fromkeys(load.source for load in loads)
    ]
    return Paragraph(f"Derived, {loads[0].level} level: {'; '.join(groups)}.", "small")


def _said(loads: Sequence[DesignLoad]) -> str:
    """Loads of one source: name, value and unit, and the length that each lies on."""
    return ", ".join(
        f"{load.name} {load.value:.{DIGITS[load.unit]}f} {load.unit}"
        + (f" over {load.over_ft:.1f} ft" if load.over_ft else "")
        for load in loads
    )


def _ratios(design: Design, anchors: Mapping[int, str]) -> list[Block]:
    rows = closest_first(design.rows)
    kept = [r for r in rows if r.status != "pass"]
    links, _ = _links(design)
    others = sum(map(_lines, links)) + len(_sideways(design)) + len(words.weakest(rows))
    shown = rows[: max(min(MOST_ROWS, MOST_LINES - others), len(kept))]
    return [ratio_table(shown, anchors), *_rest(rows, shown), *under(design, shown)]


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
                words.what(row),
                words.amount(row.demand, row.check.unit),
                "" if words.quiet(row) else words.limit(row),
                used,
                (Bar(row.ratio),),
                letters.get(row.combination, ""),
                (Page(anchors[id(row.check)]),),
            )
        )
    head = ("where", "what", "load", "limit", "used", "1.00 at the tick", "under", "see")
    widths = (1.0, 1.8, 0.8, 0.8, 0.75, 1.0, 0.45, 0.5)
    return Table(
        head, body, "llrrrlll", widths, "Every check: load, limit, their ratio, and its page"
    )


def _rest(rows: Sequence[CheckResult], shown: Sequence[CheckResult]) -> list[Block]:
    hidden = rows[len(shown) :]
    if not hidden:
        return []
    largest = max((r.ratio or 0.0) for r in hidden)
    said = f"{len(hidden)} more pass, none over {words.ratio(largest)}: "
    return [Paragraph((said, Page("all-checks"), "."), "small")]


def under(design: Design, rows: Sequence[CheckResult]) -> list[Block]:
    """The combinations in words."""
    said = in_words(rows)
    listed = "; ".join(f"{key} {said[text]} ({text})" for text, key in keys(rows).items())
    clips = " ".join(handed.lowered(design, rows))
    blocks: list[Block] = [Paragraph(f"Under: {listed}.", "small")] if listed else []
    return [*blocks, *([Paragraph(clips, "small")] if clips else [])]


def _house(design: Design) -> list[Block]:
    table, cases = handed.table(design)
    rows: list[tuple[Runs, ...]] = []
    for phrase, cells in table:
        loads: list[Runs] = [
            "" if cell is None else (Bold(f"{cell[0]:,.0f}{TIE}lb"), f" ({cell[1]:,.0f}{TIE}plf)")
            for cell in cells
        ]
        rows.append((phrase, *loads))
    head = ("the house carries", *map(words.load_case, cases))
    title = handed.title(design)
    return [
        Table(
            head,
            rows,
            "l" + "r" * len(cases),
            (2.6, *(1.0,) * len(cases)),
            "Loads handed to the house",
        ),
        *(Paragraph((Bold(text),), "small") for text in _sideways(design)),
        Paragraph(f"{words.capital(title)}. {handed.bent(design)}", "small"),
    ]


def _sideways(design: Design) -> list[str]:
    return [*handed.in_plane(design), *handed.turned(design)]


def _links(design: Design) -> tuple[list[CheckResult], list[CheckResult]]:
    """Links of the hold-downs that stand on the second page, the weakest first, and the rest."""
    rows = [r for r in design.rows if r.check.id.partition(":")[0] in ("hold_down", "split")]
    shown, used = list[CheckResult](), 0
    for row in closest_first(rows):
        used += _lines(row)
        if shown and used > MOST_LINK_LINES:
            break
        shown.append(row)
    return shown, closest_first(rows)[len(shown) :]


def _under_or_why(row: CheckResult) -> str:
    why = words.printable(row.check.why) if row.status != "pass" else ""
    return "; ".join(text for text in (row.combination_words, why) if text)


def _lines(row: CheckResult) -> int:
    """How many lines a row of the links takes."""
    return 1 + len(_under_or_why(row)) // LETTERS_OF_WHY


def _hold_downs(design: Design, anchors: Mapping[int, str]) -> list[Block]:
    """The chain of each hold-down, its weakest link first."""
    rows, more = _links(design)
    body: list[tuple[Runs, ...]] = []
    for row in rows:
        state = {"fail": "FAILS", "open": "open", "pass": ""}[row.status]
        used = words.ratio(row.ratio) if row.ratio is not None else ""
        body.append(
            (
                words.place(row.check.place),
                row.check.link or words.what(row),
                words.amount(row.demand, row.check.unit),
                words.limit(row),
                (used, " ", Bold(state)),
                _under_or_why(row),
            )
        )
    head = ("where", "link", "load", "limit", "used", "under, or why")
    if not body:
        return [Paragraph("No hold-down is given.")]
    widths = (0.9, 1.2, 0.8, 0.8, 0.8, 2.6)
    rest: list[Block] = []
    if weak := words.weakest(design.rows):
        rest = [Paragraph(" ".join(weak), "small")]
    if more:
        rest += [Paragraph((f"{len(more)} more: ", Page("all-checks"), "."), "small")]
    return [Table(head, body, "llrrrl", widths, "Links of the hold-downs"), *rest]


def _not_checked(design: Design) -> list[Block]:
    listed = [one for one in cautions.cautions(design) if one.not_checked]
    rows: list[tuple[Runs, ...]] = [(words.capital(one.short), (Blank(0, "by"),)) for one in listed]
    return [
        Table((), rows, "ll", (5.2, 1.9), "Not checked, and by whom it is"),
        Paragraph(words.ENGINEERS_LINE, "small"),
    ]
