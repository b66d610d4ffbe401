"""The first two pages of the summary, which stand alone."""

from collections.abc import Mapping, Sequence
from typing import Any

from outrigger.actions.places import inches
from outrigger.base.quantity import length
from outrigger.cases.model import Case
from outrigger.cases.settings import Override
from outrigger.report import cautions, handed, verdict_words, words
from outrigger.report.draw import section as figures
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
from outrigger.studies.compare import as_said, flat
from outrigger.verdict.design import CheckResult, Design

PRELIMINARY = (
    "PRELIMINARY: not for construction, bidding or permit until adopted by the engineer of record"
)
ADOPTION = (Blank(2.5, "adopted by"), "   ", Blank(1.35, "licence"), "   ", Blank(1.2, "date"))
MOST_ROWS, MOST_LINES = 18, 26  # of the ratio table, and of all tables, on the second page
TIE = "\N{NO-BREAK SPACE}"
LONGEST_NAME = 60  # of the job among the facts; it stands in full above them
MOST_LINK_LINES, LETTERS_OF_WHY = 14, 46  # of the hold-downs, there
MOST_MISSING = 4  # of what is not given, on the cover
FACTS = (
    ("name", "project"), ("number", "number"), ("address", "address"), ("location", "location"),
    ("sheet", "sheet"), ("detail", "detail"), ("prepared_by", "prepared by"),
    ("checked_by", "checked by"), ("engineer_of_record", "engineer of record"),
)  # fmt: skip
RULES = (
    ("code", "code"), ("jurisdiction", "jurisdiction"), ("amendments", "amendments"),
    ("risk_category", "risk category"),
)  # fmt: skip
LOADS = {
    "garage_roof.dead": "dead, garage roof", "garage_roof.live": "roof live",
    "garage_roof.storage": "storage in the attic",
    "garage_roof.strip_dead": "dead, roof over the gap",
    "garage_roof.line.D": "dead on the wall line", "garage_roof.line.L": "storage on the wall line",
    "garage_roof.line.Lr": "roof live on the wall line",
    "garage_roof.line.S": "snow on the wall line",
    "garage_roof.line.W_up": "wind up on the wall line",
    "garage_roof.line.W_down": "wind down on the wall line",
    "garage_wall.dead": "dead, garage wall", "house_roof.dead": "dead on the back span",
    "house_roof.live": "roof live on the back span", "house_roof.snow": "snow on the back span",
    "house_roof.wind_uplift": "wind suction on the back span",
    "snow.ground": "ground snow", "snow.roof": "roof snow", "snow.drift_line": "snow drift, extra",
    "wind.speed": "wind speed", "wind.uplift": "wind up, net", "wind.down": "wind down, net",
    "garage_wall.out_of_plane_wind": "wind square to the wall",
    "garage_wall.along": "along the wall",
    "seismic.sds": "seismic, SDS",
}  # fmt: skip


def front(
    design: Design,
    raw: Mapping[str, Any],
    overrides: Sequence[Override],
    sample: bool,
    anchors: Mapping[int, str],
) -> list[Section]:
    """Cover and second page."""
    return [
        Section("", _cover(design, raw, overrides, sample), 0, "cover"),
        Section("Checks, the closest first", [*_ratios(design, anchors)], 2, "checks"),
        Section("Loads handed to the house", _house(design), 2, "house"),
        Section("Hold-downs", _hold_downs(design, anchors), 2, "hold-downs"),
        Section("Not checked here", _not_checked(design), 2, "not-checked"),
    ]


def _cover(
    design: Design, raw: Mapping[str, Any], overrides: Sequence[Override], sample: bool
) -> list[Block]:
    return [
        AdoptionBox(PRELIMINARY, ADOPTION),
        _facts(design.case),
        Paragraph((Bold(verdict_words.verdict_line(design, sample)),), "lead"),
        *(Paragraph(f"Set on the command line: {one.text}.", "small") for one in overrides),
        *_missing(design),
        Paragraph(words.title(design)),
        Figure(figures.section(design), _alt(design), "", 0.0),
        *_design_loads(design.case, raw),
        *_from_the_codes(design),
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
    clips = ", ".join(
        f"{hold.count} at {hold.at if isinstance(hold.at, str) else inches(hold.at)}"
        for hold in design.case.hold_down
    )
    return (
        f"Section to scale. {words.title(design)}. Clips: {clips or 'none'}. The "
        " garage wall stands on the outer end and presses with the load P."
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


def _design_loads(case: Case, raw: Mapping[str, Any]) -> list[Block]:
    """Loads as stated, each with its level and its source."""
    written = {key: as_said(value) for key, value in flat(raw).items()}
    modern = case.basis.loads == "ASCE 7-22"
    rows: list[tuple[Runs, ...]] = []
    for key, name in LOADS.items():
        value = written.get(key)
        if value is None or value == "none":
            continue
        strength = key.startswith("wind") or "wind" in key or "W_" in key or key == "seismic.sds"
        strength = strength or (
            modern and (key.startswith("snow") or key.endswith((".S", ".snow")))
        )
        level = "" if key == "wind.speed" else "strength" if strength else "service"
        source = case.sources.get(key)
        said: Runs = words.printable(source) if source else (Blank(0, ""),)
        rows.append((name, (Bold(words.printable(value)),), level, said))
    for point in case.garage_roof.point:
        rows.append(
            (f"point load at {length(point.at)}", "see inputs", "", words.printable(point.source))
        )
    head = ("design load", "stated", "level", "source")
    return [Table(head, rows, "llll", (1.9, 0.9, 0.8, 3.4), "Design loads")]


def _from_the_codes(design: Design) -> list[Block]:
    """Pressures that follow from the stated ones."""
    found = [reason for reason in design.loads.reasons if "psf" in reason]
    return [Paragraph(f"{'; '.join(found)}.", "small")] if found else []


def ordered(rows: Sequence[CheckResult]) -> list[CheckResult]:
    """The rows, those without a ratio that fail or are open first, then the closest."""
    rank = {"fail": 0, "open": 1, "pass": 2}
    return sorted(rows, key=lambda r: (rank[r.status], -9.0 if r.ratio is None else -r.ratio))


def keys(rows: Sequence[CheckResult]) -> dict[str, str]:
    """A letter for each combination that governs a row."""
    texts = dict.fromkeys(r.combination_text for r in rows if r.combination_text)
    return {text: chr(ord("a") + i) for i, text in enumerate(texts)}


def _ratios(design: Design, anchors: Mapping[int, str]) -> list[Block]:
    rows = ordered(design.rows())
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
                letters.get(row.combination_text, ""),
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
    said = {r.combination_text: r.combination_words for r in rows if r.combination_text}
    listed = "; ".join(f"{key} {said[text]} ({text})" for text, key in keys(rows).items())
    clips = " ".join(handed.lowered(design, rows))
    blocks: list[Block] = [Paragraph(f"Under: {listed}.", "small")] if listed else []
    return [*blocks, *([Paragraph(clips, "small")] if clips else [])]


def _house(design: Design) -> list[Block]:
    table, cases = handed.table(design)
    rows: list[tuple[Runs, ...]] = []
    for phrase, by_case in table.items():
        cells: list[Runs] = [phrase]
        for load in cases:
            pounds, plf = by_case.get(load, (None, None))
            said = "" if pounds is None else f"{pounds:,.0f}{TIE}lb"
            cells.append((Bold(said), f" ({plf:,.0f}{TIE}plf)") if plf is not None else "")
        rows.append(tuple(cells))
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
        Paragraph(f"{title[0].upper()}{title[1:]}. {handed.bent(design)}", "small"),
    ]


def _sideways(design: Design) -> list[str]:
    return [*handed.in_plane(design), *handed.turned(design)]


def _links(design: Design) -> tuple[list[CheckResult], list[CheckResult]]:
    """Links of the hold-downs that stand on the second page, the weakest first, and the rest."""
    rows = [r for r in design.rows() if r.check.kind.chained]
    shown, used = list[CheckResult](), 0
    for row in ordered(rows):
        used += _lines(row)
        if shown and used > MOST_LINK_LINES:
            break
        shown.append(row)
    return shown, ordered(rows)[len(shown) :]


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
                row.check.link.id or words.what(row),
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
    if weak := words.weakest(design.rows()):
        rest = [Paragraph(" ".join(weak), "small")]
    if more:
        rest += [Paragraph((f"{len(more)} more: ", Page("all-checks"), "."), "small")]
    return [Table(head, body, "llrrrl", widths, "Links of the hold-downs"), *rest]


def _not_checked(design: Design) -> list[Block]:
    listed = [one for one in cautions.cautions(design) if one.not_checked]
    rows: list[tuple[Runs, ...]] = [
        (f"{one.short[0].upper()}{one.short[1:]}", (Blank(0, "by"),)) for one in listed
    ]
    return [
        Table((), rows, "ll", (5.2, 1.9), "Not checked, and by whom it is"),
        Paragraph(words.ENGINEERS_LINE, "small"),
    ]
