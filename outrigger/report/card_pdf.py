"""The card as a one-page PDF: a fixed template, numbers and words passed as data."""

from pathlib import Path

from outrigger.card import Card
from outrigger.report.card_page import as_printed

TEMPLATE = Path(__file__).with_name("card.typ")


def pdf(result: Card, sample: bool = False) -> bytes:
    """The page; the same bytes for the same card."""
    from outrigger.report import typeset  # slow to load; only a page needs it

    return typeset.pdf(TEMPLATE, typeset.all_printed(as_printed(result, sample)))
