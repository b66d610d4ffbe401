"""The section to scale, as SVG. One ink; what is said is said by words, too."""

import re
from typing import Any

import numpy as np
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure
from matplotlib.patches import Polygon, Rectangle

from outrigger.actions.places import EDGE
from outrigger.base.quantity import length
from outrigger.formula.numbers import pick
from outrigger.report import words
from outrigger.report.draw.style import own_style, saved
from outrigger.verdict.design import Design

SETTINGS = {
    "font.family": "DejaVu Sans", "font.size": 9, "axes.linewidth": 0.6, "hatch.linewidth": 0.4,
}  # fmt: skip
INK, PALE, PAPER = "black", "0.75", "white"
WIDTH_IN = 7.0
POINTS = 72  # in an inch
MOST_HEIGHT_IN = 3.4


def svg(figure: Figure) -> str:
    """A figure as SVG, the same bytes each time."""
    FigureCanvasSVG(figure)
    return bare(saved(figure, "svg", POINTS, Creator=None).decode())


def bare(drawn: str) -> str:
    """An SVG without its metadata and without the file on the network that its head names."""
    start = drawn.index("<svg")
    return re.sub(r"\s*<metadata>.*?</metadata>", "", drawn[start:], count=1, flags=re.S)


def section(design: Design) -> str:
    """The outrigger over the house wall and the gap, to scale, with its lengths."""
    with own_style(SETTINGS):
        return svg(_section(design))


class _Drawing:
    """Axes in inches of the building, and the few marks that a section needs."""

    def __init__(self, axes: Any, unit: float) -> None:
        self.axes = axes
        self.unit = unit  # inches of the building for one point of the page

    def box(
        self, x: float, y: float, w: float, h: float, hatch: str = "", fill: str = PAPER
    ) -> None:
        self.axes.add_patch(
            Rectangle((x, y), w, h, facecolor=fill, edgecolor=INK, linewidth=0.7, hatch=hatch)
        )

    def measure(self, x0: float, x1: float, y: float, text: str) -> None:
        """A dimension line with ticks; its text above it, or beside it where it is short."""
        tick = 3 * self.unit
        self.axes.plot([x0, x1], [y, y], color=INK, linewidth=0.5)
        for x in (x0, x1):
            self.axes.plot([x - tick, x + tick], [y - tick, y + tick], color=INK, linewidth=0.8)
        room = len(text) * 5.6 * self.unit
        if room <= x1 - x0:
            self.axes.text((x0 + x1) / 2, y + 2 * self.unit, text, ha="center", va="bottom")
        else:
            clear = {"facecolor": PAPER, "edgecolor": "none", "pad": 0.8}
            self.axes.text(x1 + 5 * self.unit, y, text, ha="left", va="center", bbox=clear)

    def leader(self, x: float, y: float, to: tuple[float, float], text: str, ha: str) -> None:
        self.axes.annotate(
            text, xy=(x, y), xytext=to, ha=ha, va="center",
            arrowprops={"arrowstyle": "-", "linewidth": 0.5, "shrinkA": 1, "shrinkB": 0},
        )  # fmt: skip


def _section(design: Design) -> Figure:
    case, shape, size = design.case, design.shape, design.wood.size
    deep = size.b if case.outrigger.laid == "flat" else size.d
    start, end, arm, face = (pick(v) for v in (shape.house_end, shape.end, shape.arm, shape.face))
    back = pick(shape.back_span)
    bearing, plate = case.gap.edge_bearing, case.gap.garage_plate
    cos = shape.tilt.cos if shape.tilt.down else 1.0
    whole = end - start
    side = 0.20 * whole  # room for words on the right
    unit = (whole + side + 0.06 * whole) / (WIDTH_IN * 72)
    wall = max(10 * unit * 6, 1.3 * deep)
    below = 60 * unit
    low, high = -below - 44 * unit, deep + wall + 62 * unit
    height = min((high - low) / unit / 72, MOST_HEIGHT_IN + 1)
    figure = Figure(figsize=(WIDTH_IN, height))
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_xlim(start - 0.06 * whole, end + side)
    axes.set_ylim(low, high)
    axes.set_axis_off()
    axes.set_aspect("equal")
    draw = _Drawing(axes, unit)
    panel = case.house_roof.sheathing_thickness or 0.5
    house_face = bearing / 2 + case.gap.edge_setback
    # the house: sheathing, what carries its edge, finish
    draw.box(start - 0.05 * whole, -panel, house_face - start + 0.05 * whole, panel, hatch="......")
    under = case.house_roof.edge_support_width or bearing
    draw.box(house_face - under, -panel - below, under, below, hatch="////")
    finish = face - house_face
    if finish > 0:
        draw.box(house_face, -panel - below, finish, below, fill=PALE)
    # the member
    draw.box(start, 0.0, whole, deep)
    axes.plot([start, end], [deep * 0.5] * 2, color=PALE, linewidth=0.4, dashes=(12, 6))
    # the garage wall
    left = arm - plate / cos / 2
    draw.box(left, deep, plate / cos, 1.5, hatch="////")
    draw.box(left, deep + 1.5, plate / cos, wall)
    gap_end = face + case.gap.width / cos
    for x, y in ((face, -panel - below), (gap_end, deep)):
        axes.plot([x, x], [-panel - below - 18 * unit, y], color=INK, linewidth=0.4)
    _loads(draw, design, arm, deep + 1.5 + wall)
    names = _hold_downs(draw, design, deep, panel)
    # lengths
    above = deep + 14 * unit
    draw.measure(-back, 0.0, above, f"back span {length(back)}")
    axes.plot([0, 0], [deep, above + 4 * unit], color=INK, linewidth=0.4)
    axes.plot(
        [arm, arm],
        [-panel - below - 34 * unit, deep + 3],
        color=INK,
        linewidth=0.4,
        dashes=(6, 2, 1, 2),
    )
    axes.plot(
        [0, 0], [-panel - below - 34 * unit, 0], color=INK, linewidth=0.4, dashes=(6, 2, 1, 2)
    )
    low_line = -panel - below - 14 * unit
    draw.measure(face, gap_end, low_line, f"gap {length(case.gap.width)}")
    draw.measure(0.0, arm, low_line - 16 * unit, f"arm {length(arm)}")
    right = end + 8 * unit
    draw.leader(end, deep / 2, (right, deep / 2), _member(design), "left")
    draw.leader(left + plate / cos, deep + 0.75, (right, deep + 14 * unit), "garage plate", "left")
    axes.text(left + plate / cos + 5 * unit, deep + 1.5 + wall * 0.75, "garage wall", va="center")
    words_of_house = f"{case.house_roof.edge_support or 'edge support not given'} below"
    draw.leader(
        house_face - under, -panel - below * 0.6,
        (house_face - under - 12 * unit, -panel - below * 0.6), words_of_house, "right",
    )  # fmt: skip
    sheet = f"{length(panel)} {case.house_roof.sheathing or 'sheathing'}"
    x = start + 0.02 * whole
    draw.leader(x, -panel / 2, (x + 10 * unit, -panel - 22 * unit), sheet, "left")
    for x, text, ha in names:
        axes.text(x, deep + 30 * unit, text, ha=ha, va="bottom")
    if shape.tilt.way != "level":
        way = "down its slope" if shape.tilt.down else "tilted across its slope"
        said = f"drawn along the house roof: {shape.tilt.theta:.1f}°, {way}"
        axes.text(start - 0.05 * whole, high - 6 * unit, said, va="top")
    if shape.tilt.across:
        _tilted(figure, design, deep)
    return figure


def _member(design: Design) -> str:
    plies = f"{design.case.outrigger.plies} " if design.case.outrigger.plies > 1 else ""
    return f"{plies}{design.wood.size.name}"


def _loads(draw: _Drawing, design: Design, arm: float, top: float) -> None:
    """The wall line's load: an arrow, vertical on the site."""
    tilt = design.shape.tilt
    lean = tilt.sin if tilt.down else 0.0
    long = 26 * draw.unit
    draw.axes.annotate(
        "P", xy=(arm, top), xytext=(arm - lean * long, top + long), ha="center", va="bottom",
        fontweight="bold", arrowprops={"arrowstyle": "-|>", "color": INK, "linewidth": 1.2},
    )  # fmt: skip


def _hold_downs(
    draw: _Drawing, design: Design, deep: float, panel: float
) -> list[tuple[float, str, str]]:
    """Straps over the member's side down into the house, and their names with their places."""
    found: list[tuple[float, str, str]] = []
    stated = design.model.hold_downs
    for name, x in zip(design.model.whole.names, design.model.whole.x, strict=True):
        at = float(np.ravel(x)[0])
        if name in stated:
            wide = 3 * draw.unit
            foot = -panel - 8 * draw.unit
            draw.box(at - wide, foot, 2 * wide, deep * 0.7 - foot, fill=INK)
            count = stated[name].count
            text = f"{words.place(name)}: {count} clip{'s' if count > 1 else ''}"
        else:
            text = f"{words.place(name)}: no tie" if name == EDGE else f"{words.place(name)}: none"
        if name == EDGE:
            wide, low = 5 * draw.unit, -8 * draw.unit
            corners = [(at, 0.0), (at - wide, low), (at + wide, low)]
            draw.axes.add_patch(
                Polygon(corners, closed=True, facecolor=PAPER, edgecolor=INK, linewidth=0.7)
            )
        found.append((at, text, "right" if name == EDGE else "center" if found else "left"))
    return found


def _tilted(figure: Figure, design: Design, deep: float) -> None:
    """The member seen along its length, tilted with the sheathing, under its vertical load."""
    wide = design.member.b
    axes = figure.add_axes((0.20, 0.02, 0.22, 0.36))
    theta = np.radians(design.shape.tilt.theta)
    turn = np.array([[np.cos(theta), np.sin(theta)], [-np.sin(theta), np.cos(theta)]])
    corners = (
        np.array([(-wide / 2, 0), (wide / 2, 0), (wide / 2, deep), (-wide / 2, deep)]) @ turn.T
    )
    axes.add_patch(Polygon(corners, closed=True, facecolor=PAPER, edgecolor=INK, linewidth=0.8))
    line = np.array([(-1.2 * deep, 0), (1.2 * deep, 0)]) @ turn.T
    axes.plot(line[:, 0], line[:, 1], color=INK, linewidth=1.5)
    top = turn @ np.array([0, deep])
    axes.annotate(
        "P", xy=(top[0], top[1]), xytext=(top[0], top[1] + 0.75 * deep), ha="center", va="bottom",
        fontweight="bold", arrowprops={"arrowstyle": "-|>", "color": INK, "linewidth": 1.2},
    )  # fmt: skip
    axes.set_xlim(-1.5 * deep, 1.5 * deep)
    axes.set_ylim(-0.7 * deep, 2.3 * deep)
    axes.set_aspect("equal")
    axes.set_axis_off()
