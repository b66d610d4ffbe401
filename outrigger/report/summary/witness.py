"""The curves of shear, moment and droop with their witness, and the evidence of the hold-downs."""

from outrigger.cases.hold_down import HoldDown
from outrigger.report import handed, words
from outrigger.report.draw import diagrams
from outrigger.report.draw.section import section
from outrigger.report.draw.svg import svg
from outrigger.report.summary.cover import section_said
from outrigger.report.write.document import (
    Block,
    Bold,
    Bullets,
    Chapter,
    Figure,
    Inline,
    Paragraph,
    Runs,
    runs,
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
        f"Shear and moment under {strength.combination}, where bending at the house wall governs; "
        f"droop under {service.combination}, creep included. Hogging is drawn down, as is droop."
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
            Figure(svg(diagrams.diagrams(drawn)), alt, said, 0.76),
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
    """Each listing of a hold-down in one item: value, column read, what it is for, where."""
    places: dict[Runs, list[str]] = {}
    for hold in design.case.hold_down:
        named = f"{words.clip(hold.name)}, {hold.count} to an outrigger"
        places.setdefault(_listing(hold), []).append(named)
    items: list[Runs] = [
        (f"{words.capital('; '.join(named))}: ", *runs(said)) for said, named in places.items()
    ]
    blocks: list[Block] = [Paragraph("No hold-down is given.", "small")]
    if items:
        said = "A listed value is lowered to the duration of the load that it holds, by CD over "
        said += "the CD of the column read, and never raised."
        told = " ".join([said, *words.weakest(design.rows)])
        blocks = [Bullets(items, "small"), Paragraph(told, "small")]
    return Chapter("Evidence of the hold-downs", blocks, 2, "hold-downs", columns=2)


def _listing(hold: HoldDown) -> Runs:
    """What a hold-down is listed for, and where that stands."""
    if hold.rated_uplift is None and (hold.side_fastener or hold.deck_fastener):
        return "no listing, built of fasteners: see its links."
    found: list[Inline] = []
    for name, value in (("uplift", hold.rated_uplift), ("side", hold.rated_lateral)):
        if value is not None:
            found += [f"{name} ", Bold(words.amount(value, "lb")), " each, "]
    wood, into = hold.rated_wood or "not given", hold.rated_into or "not given"
    found.append(f"column read: {hold.rated_for or 'not given'}; wood listed: {wood}; listed ")
    source = words.printable(hold.rated_source) or "not given"
    return (*found, f"into: {into}; report, schedule, page: {source}.")
