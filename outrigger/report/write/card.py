"""The card as a one-page PDF: a fixed template, numbers and words passed as data."""

from pathlib import Path

from outrigger.report.screen.card import as_printed
from outrigger.studies.card import Card

TEMPLATE = Path(__file__).with_name("card.typ")


def pdf(result: Card, sample: bool = False) -> bytes:
    """The page; the same bytes for the same card."""
    from outrigger.report.write import typeset  # slow to load; only a page needs it

    return typeset.pdf(TEMPLATE, typeset.all_printed(as_printed(result, sample)))
