"""Where labels stand: beside what they name, on no other text and on nothing that is drawn.

A label is tried row by row away from its tip, at several places along each row; of those that are
free the one with the shortest leader is taken that crosses no other.
"""

import math
from collections.abc import Iterator, Sequence
from typing import Literal

import numpy as np
from msgspec import Struct, field
from msgspec.structs import replace
from numpy.typing import NDArray

from outrigger.formula.numbers import Array, Bools, greatest, least
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
ROWS_AT_ONCE = 16  # whose places are looked at in one sum: a tenth of `draw`

Shape = Sequence[Point]  # convex; two points: a line
Placed = tuple[float, Text, Shape]  # what it costs, the text in its place, its leader


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


class Shapes:
    """Shapes to keep clear of: their corners, (shapes, corners, 2), the last one again and again
    where a shape has fewer. All that is asked of many shapes is one sum of arrays."""

    def __init__(self, *shapes: Shape) -> None:
        """`shapes`: the first of them."""
        self._corners = np.empty((0, 2, 2))
        self.add(*shapes)

    def add(self, *shapes: Shape) -> None:
        """Keep these too."""
        if shapes:
            most = max(self._corners.shape[1], *(len(one) for one in shapes))
            more = np.array([[*one, *[one[-1]] * (most - len(one))] for one in shapes])
            here = self._corners.shape[1]
            kept = self._corners[:, np.minimum(np.arange(most), here - 1)]
            self._corners = np.concatenate([kept, more])
            self._bounds = _bounds(self._corners)
            self._slanted = _slanted(self._corners)

    def touched(self, shapes: Array) -> Bools:
        """Which of them each of some shapes overlaps, (shapes, these)."""
        if not len(self._corners):
            return np.zeros((len(shapes), 0), dtype=bool)
        near = self._near(shapes)  # which two shapes along the sheet fill
        one, other = np.nonzero(near & (_slanted(shapes)[:, None] | self._slanted))
        near[one, other] = ~_apart(shapes[one], self._corners[other])
        return near

    def _near(self, shapes: Array) -> Bools:
        """Whose bounds overlap, (shapes, these)."""
        x0, y0, x1, y1 = _bounds(shapes)[..., None]
        a0, b0, a1, b1 = self._bounds
        found: Bools = (a0 < x1) & (x0 < a1)
        found &= b0 < y1
        found &= y0 < b1
        return found

    def heights(self) -> Iterator[float]:
        """Where they end, below and above."""
        yield from self._corners[..., 1].ravel().tolist()


def _bounds(shapes: Array) -> Array:
    """Left, low, right and high of shapes, (4, shapes)."""
    by_corner = shapes.transpose(1, 2, 0)  # the longer side side by side in memory
    low, high = by_corner[0], by_corner[0]
    for corner in by_corner[1:]:
        low, high = np.minimum(low, corner), np.maximum(high, corner)
    return np.concatenate([low, high])


def _slanted(shapes: Array) -> Bools:
    """Whether a shape does not fill its bounds: neither a rectangle nor a line along the sheet."""
    x, y = shapes[..., 0], shapes[..., 1]
    found = (x[:, 0] != x[:, -1]) & (y[:, 0] != y[:, -1])
    for i in range(1, shapes.shape[1]):
        found |= (x[:, i] != x[:, i - 1]) & (y[:, i] != y[:, i - 1])
    return np.asarray(found)


def _apart(ones: Array, others: Array) -> Bools:
    """Of pairs of shapes whose bounds overlap, whether a line along a side of one of them goes
    between the two, (pairs,)."""
    found = np.zeros(len(ones), dtype=bool)
    if not len(ones):
        return found
    ones, others = ones.transpose(1, 2, 0), others.transpose(1, 2, 0)
    for shape in (ones, others):
        for (x0, y0), (x1, y1) in zip(shape, np.roll(shape, -1, axis=0), strict=True):
            x, y = y0 - y1, x1 - x0
            a, b = ([x * u + y * v for u, v in of] for of in (ones, others))
            free = (greatest(*a) <= least(*b)) | (greatest(*b) <= least(*a))
            found |= free & (x != 0) & (y != 0)  # along the sheet it was looked at already
    return found


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

    def free(self, shapes: Array) -> NDArray[np.intp]:
        """Which of some shapes, (shapes, corners, 2), stand where nothing is."""
        x = shapes[..., 0]
        left = np.flatnonzero(((self.left <= x) & (x <= self.right)).all(axis=1))
        for others in (self.texts, self.taken, self.leaders):
            left = left[~others.touched(shapes[left]).any(axis=1)]
        return left

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
        reach = np.array([text.wide / 2, text.high / 2])
        square = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)]) * (reach + air)
        for start in range(0, ROWS, ROWS_AT_ONCE):
            nearest, costs, middles = self._rows(text, tip, way, range(start, start + ROWS_AT_ONCE))
            if best is not None and nearest >= best[0]:
                break
            if best is not None:
                costs, middles = costs[costs < best[0]], middles[costs < best[0]]
            boxes = middles[:, None] + square
            free = self.free(boxes)
            costs, middles, boxes = costs[free], middles[free], boxes[free]
            near = np.clip(tip, middles - reach, middles + reach)
            leaders = np.stack([near, np.broadcast_to(tip, near.shape)], axis=1)
            crossed = self.leaders.touched(leaders).sum(axis=1)
            shut = self.wanted.touched(boxes).sum(axis=1)
            whole = costs + (CROSSED * crossed + SHUT * shut) * self.point
            whole[self.texts.touched(leaders).any(axis=1)] = np.inf
            if len(whole) and whole.min() < (np.inf if best is None else best[0]):
                at = int(np.argmin(whole))
                moved = replace(text, at=tuple(middles[at].tolist()))
                best = (float(whole[at]), moved, self._leader(moved, tip))
        return best

    def _rows(self, text: Text, tip: Point, way: Way, rows: range) -> tuple[float, Array, Array]:
        """Of some rows the least cost of what follows; of each middle to try what it costs, in, and
        where it is, (middles, 2)."""
        point, (x, y), side = self.point, tip, 1 if way in ("up", "right") else -1
        low = self.left + text.wide / 2 + AIR * point
        high = self.right - text.wide / 2 - AIR * point
        found = []
        for row in rows:
            away = ROW * row * point
            if way in ("up", "down"):
                away += NEAREST * point
                level = y + side * (away + text.high / 2)
                for shift in SHIFTS:
                    beside = {0.0: BESIDE, 1.0: -BESIDE}.get(shift, 0.0) * point
                    at = min(max(x + text.wide * (0.5 - shift) + beside, low), high)
                    aside = max(0.0, abs(at - x) - text.wide / 2)
                    found.append((away, away + SLANTED * aside, at, level))
            else:
                for out in OUTS:
                    at = x + side * (out * point + text.wide / 2)
                    found += [(away, away + out * point, at, y + up) for up in (away, -away)]
        table = np.array(found)
        return float(table[0, 0]), table[:, 1], table[:, 2:]

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
