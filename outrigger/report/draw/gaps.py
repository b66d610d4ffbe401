"""The ratios of a case over a range of gaps as a picture: PNG or SVG, the same bytes each time.

A picture travels alone: it says itself what works, what is open, what fails without a curve.
"""

import math
import textwrap
from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from outrigger.base.errors import InputError
from outrigger.base.quantity import length, sixteenths
from outrigger.base.units import POINTS_PER_INCH
from outrigger.formula.kind import Group
from outrigger.formula.numbers import Array
from outrigger.report import words
from outrigger.report.draw.style import LINE, caution, own_style, saved
from outrigger.report.screen.gap import verdict
from outrigger.report.screen.gap_words import down
from outrigger.studies.gap_study import GapStudy

if TYPE_CHECKING:  # loaded only when drawing
    from matplotlib.axes import Axes

KINDS = (".png", ".svg")
MOST_LINES = 6  # more do not read apart in one ink
# of a line its strokes and its marks: told apart without color, at arm's length
STYLES = (("-", ""), ("--", ""), (":", ""), ("-", "o"), ("--", "^"), ("-.", "s"))
MARKS_APART = 0.12  # of the width of the picture
TICKS_IN, MOST_TICKS = (0.0625, 0.125, 0.25, 0.5, 1.0, 2.0), 12
TOP = 2.0  # ratios above are off the picture
INK, FAINT, FAILING = "#1a1a1a", "#8c8c8c", "#e4e4e4"
MADE_UP = "#c9c9c9"  # of SAMPLE across the picture: seen on the shading too
GROUND = {"facecolor": "white", "edgecolor": "none", "pad": 0.8}
TITLE_CHARACTERS = 108  # of a line over the picture
SHEET = (8.5, 5.8)  # in
FOOT_POINTS = 7.5  # size of the text below
LINE_HEIGHT = 0.05  # of a label, of the height of the picture


def draw(found: GapStudy, kind: str, sample: bool = False) -> bytes:
    """The picture as PNG or SVG, by the ending `kind` of the file.

    Raises:
        InputError: another ending.
    """
    if kind.lower() not in KINDS:
        raise InputError(f'--plot: "{kind}" is not drawn. Name a file in {" or ".join(KINDS)}.')
    from matplotlib.figure import Figure
    from matplotlib.layout_engine import ConstrainedLayoutEngine

    below = _below(found, sample)
    foot = (below.count("\n") + 2) * LINE * FOOT_POINTS / POINTS_PER_INCH / SHEET[1]
    with own_style({"font.size": 10}):
        frame = ConstrainedLayoutEngine(rect=(0.0, foot, 1.0, 1.0 - foot))
        figure = Figure(figsize=SHEET, layout=frame)
        axes = figure.add_subplot()
        _shaded(axes, found)
        _lines(axes, found)
        _frame(axes, found, sample)
        figure.text(0.01, 0.005, below, fontsize=FOOT_POINTS, linespacing=LINE)
        return saved(figure, kind.lower()[1:], 150)


def _below(found: GapStudy, sample: bool) -> str:
    """What stands under the picture: the case, and the cautions."""
    foot = f"case {words.digest(found.asked.case.digest)}. {words.ENGINEERS_LINE}"
    said = f"{words.SAMPLE}. {foot}" if sample else foot
    return f"{said}\n{caution(found.asked, SHEET[0], FOOT_POINTS)}"


def _lines(axes: "Axes", found: GapStudy) -> None:
    """The checks with the largest ratios, each with its name at its end."""
    gaps = np.array([row.gap for row in found.rows])
    groups = dict.fromkeys(group for row in found.rows for group in row.ratios)
    curves = {}
    for group in groups:
        ratios = np.array([_ratio(row.ratios.get(group)) for row in found.rows])
        if np.any(ratios > 0):
            curves[group] = ratios
    shown = sorted(curves, key=lambda group: -float(np.nanmax(curves[group])))[:MOST_LINES]
    ends = {}
    top = _top(found)
    for i, (group, (strokes, mark)) in enumerate(zip(shown, STYLES, strict=False)):
        axes.plot(
            gaps, curves[group], color=INK, linestyle=strokes, linewidth=1.4, marker=mark,
            markersize=5, markerfacecolor="white", markevery=(i / 50, MARKS_APART),
        )  # fmt: skip
        if (end := _end(gaps, curves[group], top)) is not None:
            ends[group] = end
    reach = float(gaps[-1] - gaps[0]) or 1.0
    for group, y in _apart(ends, top).items():
        axes.annotate(
            words.group_name(group), ends[group], (float(gaps[-1]) + 0.02 * reach, y),
            va="center", color=INK, annotation_clip=False, fontsize=9,
            arrowprops={"arrowstyle": "-", "color": FAINT, "linewidth": 0.6},
        )  # fmt: skip


def _end(gaps: Array, curve: Array, top: float) -> tuple[float, float] | None:
    """Where a line ends, or leaves the picture at its top."""
    known = np.flatnonzero(curve <= top)
    if not len(known):
        return None
    last = int(known[-1])
    x, y = float(gaps[last]), float(curve[last])
    if last + 1 < len(gaps) and curve[last + 1] > top:
        part = (top - y) / float(curve[last + 1] - curve[last])
        return x + part * float(gaps[last + 1] - gaps[last]), top
    return x, y


def _ratio(value: float | None) -> float:
    return math.nan if value is None else value


def _apart(ends: dict[Group, tuple[float, float]], top: float) -> dict[Group, float]:
    """Heights of the labels, the lowest first, no two on one another, none over the picture, which
    is `top` high; of those that leave it at the top the first is highest, so that none cross."""
    placed: dict[Group, float] = {}
    floor = -math.inf
    for group, (_, y) in sorted(ends.items(), key=lambda item: (item[1][1], -item[1][0])):
        floor = placed[group] = max(y, floor + LINE_HEIGHT * top)
    ceiling = top
    for group in reversed(placed):
        placed[group] = min(placed[group], ceiling)
        ceiling = placed[group] - LINE_HEIGHT * top
    return placed


def _top(found: GapStudy) -> float:
    """The largest ratio that the picture shows."""
    known = [r for row in found.rows for r in row.ratios.values() if r is not None]
    return min(TOP, max(1.15, 1.05 * max(known, default=1.0)))


def _shaded(axes: "Axes", found: GapStudy) -> None:
    """Stretches of gaps that do not work, each out to the next that does, and what they are."""
    for start, end in failing(found):
        axes.axvspan(start, end, color=FAILING, zorder=-1, linewidth=0)
        axes.text(
            (start + end) / 2, 0.97 * _top(found), "FAILS", ha="center", va="top", color=INK,
            fontsize=9, weight="bold", bbox=GROUND, zorder=3,
        )  # fmt: skip


def failing(found: GapStudy) -> list[tuple[float, float]]:
    """Stretches of the range that do not work, in; between two gaps that were run the one that
    works ends it, or the exact largest gap where that lies between."""
    stretches: list[tuple[float, float]] = []
    last = -math.inf if found.largest is None else found.largest.last
    before = None  # the last gap that works
    for row in found.rows:
        if row.works:
            if stretches and stretches[-1][1] == math.inf:
                stretches[-1] = (stretches[-1][0], row.gap)
            before = row.gap
        elif not stretches or stretches[-1][1] != math.inf:
            start = row.gap if before is None else max(before, last if last < row.gap else before)
            stretches.append((start, math.inf))
    return [(start, min(end, found.rows[-1].gap)) for start, end in stretches]


def _title(found: GapStudy, sample: bool) -> list[str]:
    """The job, the verdict of the screen, and what fails by a rule, which no curve shows."""
    lines = [words.job(found.asked), words.title(found.asked), verdict(found, sample)]
    lines += [f"No curve shows it: {text}." for text in _ruled(found)]
    return [one for text in lines for one in textwrap.wrap(text, TITLE_CHARACTERS)]


def _ruled(found: GapStudy) -> Iterator[str]:
    """What fails by a rule somewhere in the range, and at which gaps."""
    at: dict[str, list[float]] = {}
    for row in found.rows:
        if not row.works and row.governing.ratio is None:
            at.setdefault(words.subject(row.governing), []).append(row.gap)
    for subject, gaps in at.items():
        yield f"{subject} fails by a rule from {length(gaps[0])} to {length(gaps[-1])}"


def _frame(axes: "Axes", found: GapStudy, sample: bool) -> None:
    """Axes with their units, the limit, the gaps asked for and found, the job."""
    first, last = found.rows[0].gap, found.rows[-1].gap
    case = found.asked.case
    top = _top(found)
    axes.set_ylim(0.0, top)
    axes.set_xlim(first, last if last > first else first + 1)
    axes.axhline(1.0, color=INK, linewidth=0.8)
    axes.text(first, 1.0, " limit", va="bottom", color=INK, fontsize=9)
    marks = []
    if found.before is not None:
        marks.append((case.gap.width, f"asked: {length(case.gap.width)}", FAINT))
    if found.largest is not None and math.isfinite(found.largest.first):
        sure = found.answer == "pass" and found.stops is not None
        word = "works to" if sure else "by what is stated, to"
        end = found.stops if sure and found.stops is not None else found.largest.last
        marks.append((end, f"{word} {down(end)}", INK))
    for level, (x, text, ink) in zip((0.02, 0.09), marks, strict=False):
        if first <= x <= last:
            axes.axvline(x, color=ink, linewidth=0.8, linestyle=(0, (2, 3)))
            axes.text(x, level * top, f" {text}", color=ink, fontsize=9, bbox=GROUND)
    step = next((one for one in TICKS_IN if (last - first) / one <= MOST_TICKS), TICKS_IN[-1])
    at = [step * n for n in range(math.ceil(first / step), math.floor(last / step) + 1)]
    axes.set_xticks(at, [sixteenths(x).removesuffix(" in") for x in at])
    axes.set_xlabel("clear width of the gap, in")
    axes.set_ylabel("demand over capacity")
    axes.spines[["top", "right"]].set_visible(False)
    axes.set_title("\n".join(_title(found, sample)), loc="left", fontsize=9)
    if sample:
        axes.text(
            0.5, 0.5, "SAMPLE", transform=axes.transAxes, fontsize=60, color=MADE_UP,
            ha="center", va="center", rotation=20, zorder=0,
        )  # fmt: skip
