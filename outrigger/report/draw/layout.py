"""The layout as a PDF page and as a plan to scale. Same input, same bytes."""

import textwrap
from pathlib import Path
from typing import Any

from outrigger.base.quantity import feet_and_inches, length, tape
from outrigger.base.units import POINTS_PER_INCH
from outrigger.layout.layout import LaidOut, MarkLine
from outrigger.report import verdict_words, words
from outrigger.report.draw.style import LINE, caution, own_style, saved
from outrigger.report.screen.layout import datum, failing, page_data

TEMPLATE = Path(__file__).with_name("layout.typ")
INCHES, LONG_INCHES, LEAST_INCHES = 11.0, 17.0, 8.0  # widths of the sheet
LONG_RUN_IN = 360.0  # a longer run goes on the wider sheet
MOST_SCALE = 0.05  # inches on the sheet for one of the job
HEAD_INCHES, FOOT_INCHES = 0.55, 0.35
LINE_INCHES, LINE_CHARACTERS = 0.17, 13.5  # of the verdict: its height, and so many to an inch
FAILING = "0.45"  # of a piece that fails
DOTS = 150
FOOT_POINTS = 7.5  # size of the cautions
MARKED_MOST = 26  # marks whose number and distance fit beside each other


def pdf(laid: LaidOut, sample: bool) -> bytes:
    """The framer's page: a fixed template, every text passed as data."""
    from outrigger.report.write import typeset  # slow to load; only a page needs it

    return typeset.pdf(TEMPLATE, typeset.all_printed(page_data(laid, sample)))


def plan(laid: LaidOut, kind: str, sample: bool) -> bytes:
    """A plan to scale, kind "svg" or "png": marks, framing, clips; those that miss are crosses."""
    from matplotlib.figure import Figure

    layout = laid.case.layout
    assert layout is not None
    shape = laid.design.shape
    run = float(layout.run)
    inner, arm, end = (float(v[0, 0]) for v in (shape.house_end, shape.arm, shape.end))
    face = float(shape.face[0, 0])
    with own_style({"font.size": 8}):
        left, right, top, low = -8.0, run + 34, inner - 24, end + 26
        scale = min((LONG_INCHES if run > LONG_RUN_IN else INCHES) / (right - left), MOST_SCALE)
        wide, tall = max(scale * (right - left), LEAST_INCHES), scale * (low - top)
        said = textwrap.wrap(verdict(laid, sample), int(LINE_CHARACTERS * wide))
        warned = caution(laid.design, wide, FOOT_POINTS)
        under = (warned.count("\n") + 1) * LINE * FOOT_POINTS / POINTS_PER_INCH
        foot = FOOT_INCHES + under
        high = tall + HEAD_INCHES + LINE_INCHES * len(said) + foot
        figure = Figure(figsize=(wide, high))
        axes = figure.add_axes((0, foot / high, scale * (right - left) / wide, tall / high))
        axes.set_aspect("equal")
        axes.axis("off")
        _framing(axes, laid, run, inner)
        for opening in layout.openings:
            corners = [opening.start, opening.end, opening.end, opening.start]
            axes.fill(
                corners, [inner, inner, face, face], fill=False, hatch="///", lw=1.0, ec="0.4"
            )
            middle = (opening.start + opening.end) / 2
            axes.text(middle, inner / 2, "opening", ha="center", va="center",
                      bbox={"fc": "white", "ec": "none"})  # fmt: skip
        axes.plot([0, run], [0, 0], color="black", lw=0.8, ls=":")
        axes.plot([0, run], [face, face], color="black", lw=2.0)
        axes.plot([0, run], [arm, arm], color="black", lw=0.8, ls="-.")
        for line in laid.lines:
            _piece(axes, line, inner, end, laid)
        _datum(axes, laid, run, inner)
        for y, text in ((0, "house wall"), (arm, "garage wall"), (inner, "house roof")):
            axes.text(run + 2, y, text, va="center", ha="left")
        axes.set_xlim(left, right)
        axes.set_ylim(low, top)
        _legend(figure, laid)
        figure.text(
            0.1 / wide,
            (foot - 0.05) / high,
            warned,
            va="top",
            fontsize=FOOT_POINTS,
            linespacing=LINE,
        )
        title = f"{words.SAMPLE}. " if sample else ""
        title += f"{words.printable(laid.case.project.name)}: plan of the outriggers, to scale"
        figure.text(0.1 / wide, 1 - 0.25 / high, title, fontsize=11, weight="bold")
        what = f"{words.title(laid.design)}. {words.ENGINEERS_LINE}"
        figure.text(0.1 / wide, 1 - 0.45 / high, what)
        for i, text in enumerate(said):
            at = 0.45 + LINE_INCHES * (i + 1)
            figure.text(0.1 / wide, 1 - at / high, text, weight="bold")
        return saved(figure, kind, DOTS)


def verdict(laid: LaidOut, sample: bool) -> str:
    """The verdict of the screen, which marks fail, and what is open: a plan travels alone."""
    text = verdict_words.verdict_line(laid.design, sample)
    reason = verdict_words.left_open(laid.design) if laid.fails else ""
    still = f"Open still: {reason}." if reason else ""
    return " ".join(part for part in (text, failing(laid), still) if part)


def _framing(axes: Any, laid: LaidOut, run: float, inner: float) -> None:
    """Centres of the house framing, dashed."""
    for at in () if laid.centres is None else laid.centres:
        if laid.crossing and inner <= -at <= 0:
            axes.plot([0, run], [-at, -at], color="0.45", lw=0.8, ls=(0, (6, 3)))
        elif not laid.crossing and 0 <= at <= run:
            axes.plot([at, at], [inner - 4, 0], color="0.45", lw=0.8, ls=(0, (6, 3)))


def _piece(axes: Any, line: MarkLine, inner: float, end: float, laid: LaidOut) -> None:
    """One outrigger, its number and mark, its clips: a dot that lands, a cross that misses."""
    near, far = float(line.piece.near), float(line.piece.far)
    fails = line.status == "fail"
    ink = FAILING if fails else "0.88"
    axes.fill([near, far, far, near], [inner, inner, end, end], fc=ink, ec="black", lw=0.7)
    middle = (near + far) / 2
    for at, x in laid.design.model.supports:
        if at not in laid.design.model.hold_downs:
            continue
        y = float(x[0, 0])
        missed, known = at in line.misses, at in line.off
        marker = "x" if missed else "o"
        axes.plot([middle], [y], marker, ms=6 if missed else 3.5, mew=1.4, color="black",
                  mfc="black" if known and not missed else "white", zorder=3)  # fmt: skip
    size = 7 if len(laid.lines) <= MARKED_MOST else 5
    beside = line.piece.pair and any(other.piece.far == line.piece.near for other in laid.lines)
    side = ("left" if beside else "right") if line.piece.pair else "center"
    axes.text(middle, end + 2, f"{line.number}", ha=side, va="top", fontsize=size,
              weight="bold" if fails else "normal")  # fmt: skip
    if fails:
        axes.text(middle, inner / 2, "FAILS", ha="center", va="center", rotation=90, fontsize=size,
                  weight="bold", bbox={"fc": "white", "ec": "none", "pad": 0.5})  # fmt: skip
    axes.text(middle + (4 if beside else 0), end + 7, tape(near), ha="right", va="top",
              rotation=45, fontsize=size, rotation_mode="anchor")  # fmt: skip


def _datum(axes: Any, laid: LaidOut, run: float, inner: float) -> None:
    y = inner - 14
    axes.plot([0, 0], [inner - 22, inner - 6], color="black", lw=2.0)
    axes.annotate("", (min(60.0, run / 2), y), (0, y), arrowprops={"arrowstyle": "-|>", "lw": 1.4})
    axes.text(min(62.0, run / 2), y, f"DATUM: {datum(laid)}", va="center", weight="bold")
    axes.text(run, y, f"run {feet_and_inches(run)}, gap {length(float(laid.case.gap.width))}",
              ha="right", va="center")  # fmt: skip


def _legend(figure: Any, laid: LaidOut) -> None:
    from matplotlib.lines import Line2D

    dot = {"ls": "none", "color": "black"}
    marks: list[tuple[str, dict[str, Any]]] = [
        ("house framing, centre", {"color": "0.45", "lw": 0.8, "ls": (0, (6, 3))}),
        ("clip on framing", {**dot, "marker": "o", "ms": 3.5}),
        ("clip misses framing", {**dot, "marker": "x", "ms": 6, "mew": 1.4}),
        ("clip, framing not known", {**dot, "marker": "o", "ms": 3.5, "mfc": "white"}),
    ]
    if laid.clips:
        del marks[3:]
    else:
        del marks[:3]
    shown = [Line2D([], [], label=label, **style) for label, style in marks]
    figure.legend(handles=shown, loc="lower left", ncols=4, frameon=False, fontsize=8)
