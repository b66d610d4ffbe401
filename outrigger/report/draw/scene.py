"""The scene of a section: lengths of the design, what is drawn so far, the labels still to place.

Along the member x is 0 at the house edge, positive outward; up is square to the sheathing. On the
sheet the house and garage walls are plumb, whatever the roof slopes.
"""

from collections.abc import Iterator

import numpy as np
from msgspec import Struct, field
from msgspec.structs import replace

from outrigger.base.quantity import feet_and_inches, length
from outrigger.cases.model import Case
from outrigger.formula.numbers import pick
from outrigger.report.draw import lettering
from outrigger.report.draw.place import Places, Shapes, Way, corners
from outrigger.report.draw.primitives import (
    Area,
    Dash,
    Dimension,
    Hatch,
    Item,
    Layer,
    Line,
    Point,
    Text,
)
from outrigger.verdict.design import Design

PLATE_IN = 1.5  # thickness of a plate of 2x lumber
RIGHT_POINTS, LEFT_POINTS = 150.0, 42.0  # of the sheet, for words beside the drawing
BRIEF_RIGHT, BRIEF_LEFT, BRIEF_STUB = 64.0, 14.0, 14.0  # of a brief one
MARGIN = 6.0  # points between a label and the edge of the sheet
STUB_POINTS = 58.0  # of the house wall below
FAILS, LOADS, CLIPS, WALLS, HOUSE, LAST = range(6)  # ranks of labels: the first has the best place
SHOWN = (FAILS, LOADS, CLIPS)  # in a small place
BESIDE = 5.0  # points between a dimension that is short and its text


class Scene(Struct, dict=True):
    """A section that is being drawn."""

    design: Design
    wide: float  # of the sheet, points
    brief: bool = False  # the main lengths and names alone, for a small place
    items: list[Item] = field(default_factory=list)
    asked: list[tuple[int, str, tuple[Point, ...], Way, float]] = field(default_factory=list)

    def __post_init__(self) -> None:
        shape, case = self.design.shape, self.case
        tilt = shape.tilt
        self.cos, self.sin = (tilt.cos, tilt.sin) if tilt.down else (1.0, 0.0)
        self.start, self.end = pick(shape.house_end), pick(shape.end)
        self.arm, self.back, self.tail = (
            pick(one) for one in (shape.arm, shape.back_span, shape.tail)
        )
        size = self.design.wood.size
        self.deep = size.b if case.outrigger.laid == "flat" else size.d
        self.panel = case.house_roof.sheathing_thickness or 0.5
        half = case.gap.edge_bearing / 2
        self.framing_face = (half + case.gap.edge_setback) * self.cos  # plumb lines, on the sheet
        self.finish_face = pick(shape.face) * self.cos
        self.garage_face = self.finish_face + case.gap.width
        self.wall_line = self.arm * self.cos
        corners = [self.at(x, up) for x in (self.start, self.end) for up in (0.0, self.deep)]
        left = min(x for x, _ in corners)
        right = max(*(x for x, _ in corners), self.wall_line + case.gap.garage_plate / 2)
        before, after = (BRIEF_LEFT, BRIEF_RIGHT) if self.brief else (LEFT_POINTS, RIGHT_POINTS)
        self.point = (right - left) / (self.wide - before - after)
        bounds = left - before * self.point, right + after * self.point
        self.left, self.right = bounds
        air = MARGIN * self.point
        self.places = Places(self.left + air, self.right - air, self.point)
        self.below = (BRIEF_STUB if self.brief else STUB_POINTS) * self.point + self.panel

    @property
    def case(self) -> Case:
        """What the user states."""
        return self.design.case

    def at(self, along: float, up: float = 0.0) -> Point:
        """A place on the sheet, of lengths along the member and square to it."""
        return (along * self.cos + up * self.sin, up * self.cos - along * self.sin)

    def block(self, x0: float, up0: float, x1: float, up1: float) -> tuple[Point, ...]:
        """The corners of a rectangle that lies with the member."""
        return tuple(self.at(x, up) for x, up in ((x0, up0), (x1, up0), (x1, up1), (x0, up1)))

    def top_at(self, x: float) -> float:
        """Height of the top of the member on the plumb line at x."""
        return (self.deep - x * self.sin) / self.cos

    def under_at(self, x: float) -> float:
        """Height of the underside of the sheathing on the plumb line at x."""
        return (-self.panel - x * self.sin) / self.cos

    def area(
        self, points: tuple[Point, ...], layer: Layer, *, fill: float | None = 1.0,
        hatch: Hatch = "", weight: float = 0.7, dash: Dash = "", solid: bool = True,
    ) -> None:  # fmt: skip
        """Draw an area; `solid`: labels keep off it."""
        self.items.append(Area(points, layer, fill, hatch, weight, dash))
        if solid:
            self.places.keep(points)

    def line(
        self, *points: Point, layer: Layer = "member", weight: float = 0.7, dash: Dash = "",
        gray: float = 0.0,
    ) -> None:  # fmt: skip
        """Draw a line."""
        self.items.append(Line(points, layer, weight, dash, gray))

    def crossed(self, points: tuple[Point, ...], layer: Layer, dash: Dash = "") -> None:
        """Wood that is cut through: its outline and both diagonals."""
        self.area(points, layer, dash=dash)
        a, b, c, d = points
        self.line(a, c, layer=layer, weight=0.4)
        self.line(b, d, layer=layer, weight=0.4)

    def arrow(self, tail: Point, tip: Point, layer: Layer, weight: float = 1.2) -> None:
        """An arrow, its head filled."""
        dx, dy = tip[0] - tail[0], tip[1] - tail[1]
        long = (dx * dx + dy * dy) ** 0.5
        ux, uy = dx / long * self.point, dy / long * self.point
        neck = (tip[0] - 7 * ux, tip[1] - 7 * uy)
        self.line(tail, neck, layer=layer, weight=weight)
        wings = ((neck[0] - 2.6 * uy, neck[1] + 2.6 * ux), (neck[0] + 2.6 * uy, neck[1] - 2.6 * ux))
        self.area((tip, *wings), layer, fill=0.0, weight=0.0)
        self.places.keep((tail, tip))

    def name(
        self, said: str, tip: Point, way: Way, wide: float = 130.0, rank: int = LAST,
        others: tuple[Point, ...] = (),
    ) -> None:  # fmt: skip
        """Ask for a label; it is placed when all is drawn, by its rank; `others`: tips that
        would do as well."""
        if not self.brief or rank in SHOWN:
            self.asked.append((rank, said, (tip, *others), way, wide))

    def labels(self) -> Iterator[Item]:
        """The labels, each where there is room."""
        asked = sorted(self.asked, key=lambda one: one[0])
        for i, (rank, said, tips, way, wide) in enumerate(asked):
            self.places.wanted = Shapes()
            for _, _, other, turned, _ in asked[i + 1 :]:
                self.places.want(other[0], turned)
            layer: Layer = "fails" if rank == FAILS else "text"
            text = self.places.text(said, wide, bold=rank == FAILS, layer=layer)
            yield from self.places.label(text, tips, way, layer)

    def dimension(
        self, name: str, measured: float, feet: tuple[Point, Point], start: Point, end: Point,
        *, turn: float = 0.0, upright: bool = False,
    ) -> None:  # fmt: skip
        """Draw a length; its text over the line, or where that is too short beside it."""
        said = f"{name} {length(measured)}".strip()
        strokes = [(start, end), *zip(feet, (start, end), strict=True)]
        self.places.keep(*(stroke for stroke in strokes if stroke[0] != stroke[1]))
        feet_said = f"{name} {feet_and_inches(measured)}".strip()  # as one writer has it
        wide = max(lettering.width(said), lettering.width(feet_said))
        text = self._beside(said, wide, start, end, turn, upright)
        if text is None:
            middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
            bare = self.places.text(said, 200, layer="dimensions")
            leader, text = self.places.label(bare, [middle], "down", "dimensions")
            self.items.append(leader)
        else:
            self.places.put(text)
        self.items.append(Dimension(start, end, feet, name, measured, text))

    def _beside(
        self, said: str, w: float, start: Point, end: Point, turn: float, upright: bool
    ) -> Text | None:
        """A text over the line of a length, past its end, or before its start; None: no room."""
        _, h = lettering.box((said,))
        point, dx, dy = self.point, end[0] - start[0], end[1] - start[1]
        long = (dx * dx + dy * dy) ** 0.5
        ux, uy, out = dx / long, dy / long, (w / 2 + BESIDE) * point
        off = (h / 2 + 1.5) * point
        over = ((start[0] + end[0]) / 2 - uy * off, (start[1] + end[1]) / 2 + ux * off)
        text = Text(over, (said,), w * point, h * point, "dimensions", align="center", turn=turn)
        if upright or (w + 4) * point <= long:
            return text
        for x, y in ((end[0] + ux * out, end[1] + uy * out),
                     (start[0] - ux * out, start[1] - uy * out)):  # fmt: skip
            moved = replace(text, at=(x, y))
            if len(self.places.free(np.array([corners(moved, point)]))):
                return moved
        return None
