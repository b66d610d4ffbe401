"""The curves of shear, moment and droop with their witness, and the evidence of the hold-downs."""

from outrigger.report import handed, words
from outrigger.report.draw import diagrams
from outrigger.report.draw.section import section
from outrigger.report.draw.svg import svg
from outrigger.report.summary.cover import section_said
from outrigger.report.write.document import (
    Block,
    Bold,
    Chapter,
    Figure,
    Paragraph,
    Runs,
    Table,
)
from outrigger.studies.for_summary import Findings
from outrigger.verdict.design import Design


def dimensioned(found: Findings, sample: bool) -> Figure:
    """The section at full size, as a framer builds it."""
    drawn = svg(section(found.design, sample, alone=False))
    return Figure(drawn, section_said(found.design))


def curves(found: Findings) -> Chapter:
    """Diagrams with their values, and the same beam solved another way."""
    design, drawn, rows = found.design, found.curves, found.witness
    strength, service = drawn.strength, drawn.service
    alt = (
        f"Shear: {diagrams.said_of(drawn.V.marks, 'lb')}. "
        f"Moment: {diagrams.said_of(drawn.M.marks, 'lb-in')}. "
        f"Droop: {diagrams.said_of(drawn.droop.marks, 'in')}."
    )
    said = (
        f"Shear and moment under {strength.combination_words} ({strength.combination}), where "
        f"bending at the house wall governs; droop under {service.combination_words} "
        f"({service.combination}), creep included. Hogging is drawn down, as is droop."
    )
    if len(drawn.supports) > 2:
        said += " The row of hold-downs is drawn as it shares on rigid supports."
    if design.shape.tilt.way != "level":
        said += " What acts square to the sheathing."
    listed = ", ".join(f"{_named(row.what)} {words.amount(row.exact, row.unit)}" for row in rows)
    check = (
        f"The same beam solved in exact fractions gives {listed}: the algebra of these "
        "curves holds; that model and loads are right it does not show."
    )
    turned = f"{handed.droop(design)} {handed.bent(design)}"
    return Chapter(
        "Shear, moment and droop",
        [
            Figure(svg(diagrams.diagrams(drawn)), alt, said),
            Paragraph(turned, "small"),
            Paragraph(check, "small"),
        ],
        2,
        "curves",
        columns=2,
    )


def _named(what: str) -> str:
    return f"{words.place(what)} reaction" if " in" not in what and "at the" not in what else what


def evidence(design: Design) -> Chapter:
    """Each listed hold-down in one row: value, column read, what it is listed for, where."""
    rows: list[tuple[Runs, ...]] = []
    for hold in design.case.hold_down:
        place = words.place(hold.name)
        if hold.rated_uplift is None and (hold.side_fastener or hold.deck_fastener):
            said = "no listing: built of fasteners, see its links"
            rows.append((place, f"{hold.count}", *("",) * 5, said))
            continue
        listed = "" if hold.rated_uplift is None else words.amount(hold.rated_uplift, "lb")
        side = "" if hold.rated_lateral is None else words.amount(hold.rated_lateral, "lb")
        rows.append(
            (
                place,
                f"{hold.count}",
                (Bold(listed),),
                (Bold(side),),
                hold.rated_for or "not given",
                hold.rated_wood or "not given",
                hold.rated_into or "not given",
                words.printable(hold.rated_source) or "not given",
            )
        )
    head = ("where", "clips", "uplift, each", "side, each", "column read", "wood listed",
            "listed into", "report, schedule, page")  # fmt: skip
    blocks: list[Block] = [Paragraph("No hold-down is given.")]
    if rows:
        widths = (0.8, 0.45, 0.75, 0.7, 0.8, 1.1, 0.9, 1.6)
        blocks = [Table(head, rows, "lrrrllll", widths, "Evidence of the listed hold-downs")]
        blocks.append(
            Paragraph(
                "A listed value is lowered to the duration of the load that it holds, by CD over "
                "the CD of the column read, and never raised.", "small")
        )  # fmt: skip
    if weak := words.weakest(design.rows):
        blocks.append(Paragraph(" ".join(weak), "small"))
    return Chapter("Evidence of the hold-downs", blocks, 2, "hold-downs")
