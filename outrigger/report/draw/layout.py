"""The layout as a PDF page to build from, its plan on it. Same input, same bytes."""

from pathlib import Path

from outrigger.layout.layout import LaidOut
from outrigger.report.draw.plan import PAGE_POINTS, plan
from outrigger.report.draw.svg import svg
from outrigger.report.screen.layout import page_data

TEMPLATE = Path(__file__).with_name("layout.typ")


def pdf(laid: LaidOut, sample: bool) -> bytes:
    """The framer's page: a fixed template, every text passed as data."""
    from outrigger.report.write import typeset  # slow to load; only a page needs it

    drawn = plan(laid, sample, wide=PAGE_POINTS)  # on a page that may be torn off
    data = typeset.all_printed(page_data(laid, sample))
    return typeset.pdf(TEMPLATE, {**data, "plan": svg(drawn), "plan_said": drawn.said})
