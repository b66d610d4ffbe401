"""What a drawing is made of: lines, areas, texts, dimensions. Inches of the building; y runs up.

Weights and sizes of letters are points of the sheet, whatever the scale. Every writer prints the
same list; none of them decides where anything stands.
"""

from typing import Literal

from msgspec import Struct

from outrigger.base.quantity import feet_and_inches

Point = tuple[float, float]
Layer = Literal[
    "house", "garage", "gap", "member", "fasteners", "framing", "loads", "dimensions", "text",
    "fails", "frame",
]  # fmt: skip
Dash = Literal["", "dashed", "center", "dotted"]
Hatch = Literal["", "wood", "soft", "fails"]
LETTERS = 9.0  # points
LEADING = 1.25  # from line to line, of the size of the letters


class Line(Struct, frozen=True):
    """A line through points."""

    points: tuple[Point, ...]
    layer: Layer
    weight: float = 0.7
    dash: Dash = ""
    gray: float = 0.0  # 0 ink, 1 paper


class Area(Struct, frozen=True):
    """A closed area. `fill`: gray of it, 0 ink and 1 paper, None where what lies below shows;
    `weight` 0: without an outline."""

    points: tuple[Point, ...]
    layer: Layer
    fill: float | None = 1.0
    hatch: Hatch = ""
    weight: float = 0.7
    dash: Dash = ""


class Dot(Struct, frozen=True):
    """A round mark, its radius in points of the sheet."""

    at: Point
    layer: Layer
    radius: float
    fill: float | None = 0.0
    weight: float = 0.7


class Text(Struct, frozen=True):
    """Lines of plain text in a box whose middle is `at`; `wide` and `high` in inches, turned by
    `turn` degrees against the clock."""

    at: Point
    lines: tuple[str, ...]
    wide: float
    high: float
    layer: Layer = "text"
    size: float = LETTERS
    bold: bool = False
    align: Literal["left", "center", "right"] = "left"
    turn: float = 0.0
    gray: float = 0.0


class Dimension(Struct, frozen=True):
    """A length from `start` to `end`, which lie on its line; `feet`: the two points it measures,
    from which its extension lines start; `name` stands before the length in its `text`."""

    start: Point
    end: Point
    feet: tuple[Point, Point]
    name: str
    length: float
    text: Text

    @property
    def in_feet(self) -> str:
        """Its text with the length in feet and inches."""
        return f"{self.name} {feet_and_inches(self.length)}".strip()


Item = Line | Area | Dot | Text | Dimension


class Drawing(Struct, frozen=True):
    """A drawing: its items, what it shows, and its frame. `point`: inches of the building for one
    point of the sheet."""

    title: str
    items: tuple[Item, ...]
    low: Point
    high: Point
    point: float

    @property
    def wide(self) -> float:
        """Width of the sheet, points."""
        return (self.high[0] - self.low[0]) / self.point

    @property
    def tall(self) -> float:
        """Height of the sheet, points."""
        return (self.high[1] - self.low[1]) / self.point

    @property
    def said(self) -> str:
        """Its words, for those who do not see it."""
        texts = [one.text if isinstance(one, Dimension) else one for one in self.items]
        lines = [" ".join(one.lines) for one in texts if isinstance(one, Text)]
        return f"{self.title}. It says: {'; '.join(lines)}."
