"""The marks page as a PDF to build from, its plan and the pattern of one piece on it; of several
runs a page each, and what to buy for all. Same input, same bytes."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from outrigger.layout.layout import LaidOut
from outrigger.report.crew import Speaker, page
from outrigger.report.draw.pattern import pattern
from outrigger.report.draw.plan import PAGE_POINTS, plan
from outrigger.report.draw.svg import svg
from outrigger.report.screen.layout import page_data

TEMPLATE = Path(__file__).with_name("layout.typ")
PATTERN_POINTS = 540.0


def pdf(
    laid: Sequence[LaidOut],
    sample: bool,
    language: str = "en",
    paper: str = "us-letter",
    together: dict[str, Any] | None = None,
) -> bytes:
    """The crew's pages: a fixed template, every text passed as data; `together`: what is bought for
    all of several runs."""
    from outrigger.report.write import typeset  # slow to load; only a page needs it

    say = Speaker(language)
    runs = [_run(one, say, sample or one.case.project.invented) for one in laid]
    data = {"paper": paper, "runs": runs, "together": together or {}, "lang": language}
    return typeset.pdf(TEMPLATE, data)


def _run(laid: LaidOut, say: Speaker, sample: bool) -> dict[str, Any]:
    """One run: its words as the fonts have them, its drawings."""
    from outrigger.report.write import typeset

    drawn = plan(laid, sample, wide=PAGE_POINTS, alone=False)
    piece = pattern(laid, say, PATTERN_POINTS)
    return {
        **typeset.all_printed(page_data(laid, sample)),
        "crew": typeset.all_printed(page(laid, say, sample)),
        "plan": svg(drawn),
        "plan_said": drawn.said,
        "pattern": svg(piece),
        "pattern_said": piece.said,
    }
