"""The cover of the summary: the box, the facts, the verdict, the section, the design loads."""

from collections.abc import Sequence

from outrigger.actions.design_loads import DesignLoad
from outrigger.cases.model import Case
from outrigger.cases.settings import Override
from outrigger.report import proved, verdict_words, words
from outrigger.report.draw.section import section
from outrigger.report.draw.svg import svg
from outrigger.report.summary.criteria import criteria
from outrigger.report.write.document import (
    AdoptionBox,
    Blank,
    Block,
    Bold,
    Bullets,
    Figure,
    Page,
    PageBreak,
    Paragraph,
    Runs,
    Table,
)
from outrigger.studies.for_summary import Findings
from outrigger.verdict.design import Design
from outrigger.verdict.notes import roofless

PRELIMINARY = (
    "PRELIMINARY: not for construction, bidding or permit until adopted by the engineer of record"
)
ADOPTION = (Blank(2.5, "adopted by"), "   ", Blank(1.35, "license"), "   ", Blank(1.2, "date"))
LONGEST_NAME = 60  # of the job among the facts; it stands in full above them
MOST_MISSING = 4  # of what is not given, on the cover
MOST_ELSEWHERE = 8  # of other marks, the most first
MOST_LOADS = 7  # in one column, so that the section keeps its room
SPEED = "wind.speed"  # no load yet: the basic wind speed of ASCE 7 is at strength level
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


def cover(found: Findings, overrides: Sequence[Override], sample: bool) -> list[Block]:
    """The first page."""
    design = found.design
    return [
        AdoptionBox(PRELIMINARY, ADOPTION),
        _facts(design.case),
        Paragraph((Bold(verdict_words.verdict_line(design, sample)),), "lead"),
        *(Paragraph((Bold(f"The wall {text}."),), "small") for text in roofless(design.case)),
        *(Paragraph(f"Set on the command line: {one.text}.", "small") for one in overrides),
        *_missing(design),
        *_elsewhere(design),
        Paragraph(words.title(design)),
        Figure(
            svg(section(design, sample, alone=False, brief=True)), section_said(design), "", 0.0
        ),
        criteria(design),
        *_design_loads(found.loads),
        Paragraph(proved.line(), "small"),
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
        ("revision", (Bold(words.rev(case)),)),
        ("date", fact(case.project, "date")),
        *((label, fact(basis, key)) for key, label in RULES),
        ("loads", basis.loads),
        ("wood", wood),
        ("case", words.digest(case.digest)),
    ]
    rows = [(a, x, b, y) for (a, x), (b, y) in zip(left, right, strict=True)]
    return Table((), rows, "llll", (1.2, 2.5, 0.95, 2.2), "Project and rules")


def section_said(design: Design) -> str:
    """The section in words, for those who do not see it."""
    clips = ", ".join(f"{hold.count} at {hold.name}" for hold in design.case.hold_down)
    return (
        f"Section to scale. {words.title(design)}. Clips: {clips or 'none'}. The "
        "garage wall stands on the outer end and presses with the load P."
    )


def _elsewhere(design: Design) -> list[Block]:
    """What other marks of a layout use more of than the one that the rows are of."""
    said = verdict_words.at_other_marks(design, MOST_ELSEWHERE)
    return [Paragraph(said, "small")] if said else []


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
    """The loads as stated, each with its level and its source; a long list in two columns."""
    cells: list[tuple[Runs, ...]] = []
    for load in loads:
        if load.key:
            value = f"{load.value:,.6g} {load.unit}".rstrip()
            source: Runs = words.printable(load.source) or (Blank(0, ""),)
            level = load.level or ("strength" if load.key == SPEED else "")
            cells.append((load.name, (Bold(value),), level, source))
    head = ("design load", "stated", "level", "source")
    if len(cells) <= MOST_LOADS:
        return [Table(head, cells, "llll", (2.7, 0.8, 0.8, 2.7), "Design loads")]
    half = -(-len(cells) // 2)
    right = [*cells[half:], ("", "", "", "")][:half]
    rows = [(*one, *other) for one, other in zip(cells[:half], right, strict=True)]
    widths = (1.55, 0.65, 0.65, 0.85) * 2
    return [Table(head * 2, rows, "l" * 8, widths, "Design loads, in two columns")]


def derived(loads: Sequence[DesignLoad]) -> list[Block]:
    """What follows from the stated loads, level by level."""
    found = [load for load in loads if not load.key]
    levels = dict.fromkeys(load.level for load in found)
    return [_derived([one for one in found if one.level == level]) for level in levels]


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
