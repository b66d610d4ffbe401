"""All marks of a layout in the summary: where, what each carries, its worst ratio."""

from outrigger.base.quantity import feet_and_inches, length
from outrigger.layout.layout import LaidOut
from outrigger.report import words
from outrigger.report.draw.plan import PAGE_POINTS, plan
from outrigger.report.draw.svg import svg
from outrigger.report.screen import layout as layout_page
from outrigger.report.write.document import Block, Bullets, Chapter, Figure, Paragraph, Runs, Table


def marks(laid: LaidOut | None, sample: bool) -> list[Chapter]:
    """The layout, where the case has one: its plan, and a row for each mark."""
    if laid is None:
        return []
    moving = words.load_case(laid.moving)
    rows: list[tuple[Runs, ...]] = [
        (
            f"{line.number}",
            feet_and_inches(float(line.piece.near)),
            length(line.carried),
            length(line.share),
            words.amount(line.loads["D"], "lb"),
            words.amount(line.loads[laid.moving], "lb"),
            words.subject(line.governing),
            words.ratio(line.governing.ratio)
            + ("" if line.status == "pass" else f" {line.status}"),
            layout_page.clips(line),
        )
        for line in laid.lines
    ]
    head = (
        "mark",
        "from the datum",
        "wall",
        "roof",
        "dead",
        moving,
        "closest check",
        "used",
        "clips",
    )
    widths = (0.4, 0.85, 0.65, 0.65, 0.65, 0.7, 2.0, 0.65, 0.8)
    drawn = svg(plan(laid, sample, wide=PAGE_POINTS, alone=False))
    said = f"Plan of the marks. {layout_page.summary(laid)}"
    blocks: list[Block] = [
        Paragraph(f"Datum: {layout_page.datum(laid)}. {layout_page.summary(laid)}"),
        Figure(drawn, said),
        Table(head, rows, "rrrrrrlrl", widths, "Every mark with what it carries"),
        Paragraph(
            "Wall and roof: lengths that the mark carries. Loads on the garage wall.", "small"
        ),
        Bullets(layout_page.notes(laid), "small"),
    ]
    return [Chapter("Marks", blocks, 2, "marks")]
