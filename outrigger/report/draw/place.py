"""Where labels stand: beside what they name, on no other text and on nothing that is drawn.

A label is tried row by row away from its tip, at several places along each row; of those that are
free the one with the shortest leader is taken that crosses no other.
"""

import math
from collections.abc import Iterator, Sequence
from typing import Literal

from msgspec import Struct, field
from msgspec.structs import replace

from outrigger.report.draw import lettering
from outrigger.report.draw.primitives import LETTERS, Layer, Line, Point, Text

Way = Literal["up", "down", "right", "left"]
WAYS: tuple[Way, ...] = ("up", "down", "left", "right")
ROW = 5.0  # points from one row to the next
LEADER = 0.45  # weight of a leader, points
ROWS = 64
NEAREST = 10.0  # points of a leader, at least
AIR = 2.5  # points around a text
BESIDE = 4.0  # points that a text starts aside of its tip, so that others' leaders pass
FAR, TURNED = 70.0, 80.0  # points; past these another side of the tip is tried, at a cost
LONG = 160.0  # points of a leader that is still to come
SHUT = 90.0  # points that it costs to stand in the way of a label that is still to come
CROSSED = 60.0  # points that a crossing of two leaders costs
SLANTED = 0.8  # points that a point aside costs
SHIFTS = (0.0, 1.0, 0.5, 0.15, 0.85, 0.3, 0.7, -0.25, 1.25, -0.6, 1.6, -1.0, 2.0, -1.6, 2.6)
# of a label's width, the tip from its left side
OUTS = (10.0, 22.0, 40.0, 65.0, 100.0, 150.0)  # points aside of the tip, to the right or left of it

Shape = Sequence[Point]  # convex; two points: a line
Placed = tuple[float, Text, Shape]  # what it costs, the text in its place, its leader


def touch(one: Shape, other: Shape) -> bool:
    """Whether two convex shapes overlap."""
    if _apart(one, other, (1.0, 0.0)) or _apart(one, other, (0.0, 1.0)):
        return False
    axes = [axis for shape in (one, other) for axis in _normals(shape)]
    return not any(_apart(one, other, axis) for axis in axes)


def _normals(shape: Shape) -> Iterator[Point]:
    for (x0, y0), (x1, y1) in zip(shape, [*shape[1:], shape[0]], strict=True):
        if x0 != x1 and y0 != y1:  # along the sheet it was looked at already
            yield (y0 - y1, x1 - x0)


def _apart(one: Shape, other: Shape, axis: Point) -> bool:
    a = [x * axis[0] + y * axis[1] for x, y in one]
    b = [x * axis[0] + y * axis[1] for x, y in other]
    return max(a) <= min(b) or max(b) <= min(a)


def rectangle(x0: float, y0: float, x1: float, y1: float) -> tuple[Point, ...]:
    """The corners of a rectangle along the sheet."""
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def corners(text: Text, air: float = 0.0) -> tuple[Point, ...]:
    """The corners of a text's box, with air around it."""
    w, h = text.wide / 2 + air, text.high / 2 + air
    c, s = math.cos(math.radians(text.turn)), math.sin(math.radians(text.turn))
    return tuple(
        (text.at[0] + x * c - y * s, text.at[1] + x * s + y * c)
        for x, y in ((-w, -h), (w, -h), (w, h), (-w, h))
    )


Bounds = tuple[float, float, float, float]  # left, low, right, high


def _bounds(shape: Shape) -> Bounds:
    xs, ys = [x for x, _ in shape], [y for _, y in shape]
    return min(xs), min(ys), max(xs), max(ys)


def _is_level(shape: Shape) -> bool:
    """Whether a shape fills its bounds: a rectangle or a line along the sheet."""
    sides = zip(shape, [*shape[1:], shape[0]], strict=True)
    return all(x0 == x1 or y0 == y1 for (x0, y0), (x1, y1) in sides)


class Shapes:
    """Shapes to keep clear of, each with its bounds, which tell most of them apart."""

    def __init__(self) -> None:
        self.all: list[tuple[Bounds, bool, Shape]] = []

    def add(self, *shapes: Shape) -> None:
        """Keep these too."""
        self.all += [(_bounds(one), _is_level(one), one) for one in shapes]

    def touched(self, shape: Shape) -> Iterator[Shape]:
        """Those that a shape overlaps."""
        return (self.all[i][2] for i in self._touched(shape))

    def clear(self, shape: Shape) -> bool:
        """Whether a shape overlaps none of them."""
        found = next(self._touched(shape), None)
        if found:
            self.all.insert(0, self.all.pop(found))  # the next one tried overlaps it, too
        return found is None

    def _touched(self, shape: Shape) -> Iterator[int]:
        x0, y0, x1, y1 = _bounds(shape)
        level = _is_level(shape)
        for i, ((a0, b0, a1, b1), fills, one) in enumerate(self.all):
            near = a0 < x1 and x0 < a1 and b0 < y1 and y0 < b1
            if near and ((level and fills) or touch(shape, one)):
                yield i

    def heights(self) -> Iterator[float]:
        """Where they end, below and above."""
        for (_, y0, _, y1), _, _ in self.all:
            yield from (y0, y1)


class Places(Struct):
    """What stands on a sheet: `left` and `right` bound it, in; `point`: in for a point of it."""

    left: float
    right: float
    point: float
    taken: Shapes = field(default_factory=Shapes)  # no label goes here
    texts: Shapes = field(default_factory=Shapes)
    leaders: Shapes = field(default_factory=Shapes)
    wanted: Shapes = field(default_factory=Shapes)  # ways of leaders that are still to come

    def keep(self, *shapes: Shape) -> None:
        """Keep labels off these."""
        self.taken.add(*shapes)

    def want(self, tip: Point, way: Way) -> None:
        """A label is still to come: leave its leader a way."""
        x, y = tip
        far = {"up": (x, y + LONG * self.point), "down": (x, y - LONG * self.point)}.get(way)
        if far is not None:
            self.wanted.add((tip, far))

    def put(self, text: Text) -> Text:
        """A text whose place is given: labels keep off it."""
        self.texts.add(corners(text, AIR * self.point))
        return text

    def free(self, shape: Shape) -> bool:
        """Whether nothing stands there."""
        inside = all(self.left <= x <= self.right for x, _ in shape)
        others = (self.texts, self.taken, self.leaders)
        return inside and all(one.clear(shape) for one in others)

    def text(
        self, said: str, wide: float, *, bold: bool = False, layer: Layer = "text",
        size: float = LETTERS,
    ) -> Text:  # fmt: skip
        """A text, folded to a width in points, that stands nowhere yet."""
        lines = tuple(
            line
            for part in said.split("\n")
            for line in lettering.folded(lettering.plain(part), wide, size, bold)
        )
        w, h = lettering.box(lines, size, bold)
        point = self.point
        return Text((0.0, 0.0), lines, w * point, h * point, layer, size, bold)

    def label(
        self, text: Text, tips: Sequence[Point], way: Way = "up", layer: Layer = "text"
    ) -> tuple[Line, Text]:
        """A text near one of its tips, and its leader."""
        found = self._least(text, tips, (way,))
        if found is None or found[0] > FAR * self.point:
            turned = self._least(text, tips, [one for one in WAYS if one != way])
            if turned and (found is None or turned[0] + TURNED * self.point < found[0]):
                found = turned
        _, moved, leader = found or self._anywhere(text, tips[0], way)
        self.put(moved)
        self.leaders.add(leader)
        return Line(tuple(leader), layer, LEADER), moved

    def _least(self, text: Text, tips: Sequence[Point], ways: Sequence[Way]) -> Placed | None:
        """The best place of all, at any of the tips."""
        best: Placed | None = None
        for tip in tips:
            for way in ways:
                best = self._best(text, tip, way, best)
        return best

    def _best(self, text: Text, tip: Point, way: Way, best: Placed | None) -> Placed | None:
        """The free place with the least cost on one side of a tip, or the best before it."""
        air = AIR * self.point
        reach = text.wide / 2 + air, text.high / 2 + air
        for least, costs in self._rows(text, tip, way):
            if best is not None and least >= best[0]:
                break
            for cost, at in costs:
                if best is not None and cost >= best[0]:
                    continue
                (x, y), (w, h) = at, reach
                if not self.free(box := rectangle(x - w, y - h, x + w, y + h)):
                    continue
                leader = self._leader(moved := replace(text, at=at), tip)
                if not self.texts.clear(leader):
                    continue
                crossed = sum(1 for _ in self.leaders.touched(leader))
                shut = sum(1 for _ in self.wanted.touched(box))
                whole = cost + (CROSSED * crossed + SHUT * shut) * self.point
                if best is None or whole < best[0]:
                    best = (whole, moved, leader)
        return best

    def _rows(
        self, text: Text, tip: Point, way: Way
    ) -> Iterator[tuple[float, list[tuple[float, Point]]]]:
        """Row by row the least cost of what follows, and middles to try with their cost, in."""
        point, (x, y), side = self.point, tip, 1 if way in ("up", "right") else -1
        low = self.left + text.wide / 2 + AIR * point
        high = self.right - text.wide / 2 - AIR * point
        for row in range(ROWS):
            away, found = ROW * row * point, []
            if way in ("up", "down"):
                away += NEAREST * point
                level = y + side * (away + text.high / 2)
                for shift in SHIFTS:
                    beside = {0.0: BESIDE, 1.0: -BESIDE}.get(shift, 0.0) * point
                    at = min(max(x + text.wide * (0.5 - shift) + beside, low), high)
                    aside = max(0.0, abs(at - x) - text.wide / 2)
                    found.append((away + SLANTED * aside, (at, level)))
            else:
                for out in OUTS:
                    at = x + side * (out * point + text.wide / 2)
                    for level in (y + away, y - away):
                        found.append((away + out * point, (at, level)))
            yield away, found

    def _leader(self, text: Text, tip: Point) -> Shape:
        """From the nearest place on the box to the tip."""
        w, h, (x, y) = text.wide / 2, text.high / 2, text.at
        near = (min(max(tip[0], x - w), x + w), min(max(tip[1], y - h), y + h))
        return (near, tip)

    def _anywhere(self, text: Text, tip: Point, way: Way) -> Placed:
        """Past all that stands there: no leader is free of the other texts."""
        ys = [*self.texts.heights(), *self.taken.heights(), *self.leaders.heights()]
        away = AIR * 2 * self.point + text.high / 2
        y = min(ys) - away if way == "down" else max(ys) + away
        w = text.wide / 2 + AIR * self.point
        x = min(max(tip[0], self.left + w), self.right - w)
        moved = replace(text, at=(x, y))
        return 0.0, moved, self._leader(moved, tip)
