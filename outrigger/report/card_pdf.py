"""The card as a one-page PDF: a fixed template, numbers and words passed as data."""

import json
from pathlib import Path

from outrigger.card import Card
from outrigger.report.card_page import as_printed

TEMPLATE = Path(__file__).with_name("card.typ")


def pdf(result: Card, sample: bool = False) -> bytes:
    """The page; the same bytes for the same card."""
    import typst  # slow to load; only a page needs it

    data = json.dumps(as_printed(result, sample))
    page = typst.compile(
        str(TEMPLATE), format="pdf", pdf_standards=["ua-1"], sys_inputs={"data": data}
    )
    return bytes(page)
