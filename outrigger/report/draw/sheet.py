"""What stands on every drawing: the job and the verdict over it, the cautions under it."""

from collections.abc import Iterable, Sequence

from outrigger.report import words
from outrigger.report.cautions import two_lines
from outrigger.report.draw import lettering
from outrigger.report.draw.place import corners
from outrigger.report.draw.primitives import (
    Area,
    Dimension,
    Dot,
    Drawing,
    Item,
    Line,
    Point,
    Text,
)
from outrigger.verdict.design import Design

MARGIN = 8.0  # points
HEAD, FOOT = 11.0, 8.0  # size of letters over and under a drawing


def framed(
    items: Sequence[Item], design: Design, *, title: str, verdict: str, sample: bool,
    left: float, right: float, point: float, alone: bool = True,
) -> Drawing:  # fmt: skip
    """A drawing between its head and its foot; `alone`: it travels without a document around it,
    so that the job, SAMPLE and the cautions stand on it too."""
    ys = [y for one in items for _, y in extent(one)]
    low, high = min(ys) - MARGIN * point, max(ys) + MARGIN * point
    wide = (right - left) / point - 2 * MARGIN
    head = [(verdict, 9.5, True)] if verdict else []
    if alone:
        first = f"{words.SAMPLE}. {title}" if sample else title
        case = f"{words.title(design)}. {words.revision(design.case).replace('    ', ', ')}"
        head = [(first, HEAD, True), (case, 9.0, False), *head]
    drawn = list(items)
    for text, size, bold in reversed(head):
        one = _block(text, wide, size, bold, left, point)
        drawn.append(_at(one, left, high + one.high / 2 + 2 * point, point))
        high += one.high + 2 * point
    if alone:
        for text in (words.ENGINEERS_LINE, *two_lines(design)):
            one = _block(text, wide, FOOT, False, left, point)
            drawn.append(_at(one, left, low - one.high / 2, point))
            low -= one.high + 0.5 * point
    return Drawing(
        title, tuple(drawn), (left, low - MARGIN * point), (right, high + MARGIN * point), point
    )


def bounded(title: str, items: Sequence[Item], left: float, right: float, point: float) -> Drawing:
    """A drawing without head and foot: the document around it has them."""
    ys = [y for one in items for _, y in extent(one)]
    low, high = min(ys) - MARGIN * point, max(ys) + MARGIN * point
    return Drawing(title, tuple(items), (left, low), (right, high), point)


def _block(text: str, wide: float, size: float, bold: bool, left: float, point: float) -> Text:
    lines = lettering.folded(lettering.plain(text), wide, size, bold)
    w, h = lettering.box(lines, size, bold)
    return Text((left, 0.0), lines, w * point, h * point, "frame", size, bold)


def _at(one: Text, left: float, y: float, point: float) -> Text:
    x = left + MARGIN * point + one.wide / 2
    return Text((x, y), one.lines, one.wide, one.high, one.layer, one.size, one.bold)


def extent(one: Item) -> Iterable[Point]:
    """The corners that a thing on the sheet reaches to."""
    match one:
        case Line() | Area():
            return one.points
        case Dot():
            return (one.at,)
        case Text():
            return corners(one)
        case Dimension():
            return (one.start, one.end, *one.feet, *corners(one.text))
