"""The curves of shear, moment and droop. One ink; what is said is said by words, too."""

from collections.abc import Iterable, Iterator

import numpy as np
from msgspec.structs import replace

from outrigger.actions.places import WALL_LINE
from outrigger.base.quantity import feet_and_inches
from outrigger.report import words
from outrigger.report.draw.place import Places, Way, rectangle
from outrigger.report.draw.primitives import Area, Dot, Drawing, Item, Line
from outrigger.report.draw.sheet import bounded, extent
from outrigger.studies.curves import Curve, Curves

WIDE_POINTS, SIDE_POINTS = 254.0, 30.0  # as the summary sets it
TALL_POINTS = 26.0  # of a curve, from its least to its most
APART_POINTS = 8.0
LEAST = 2e-2  # of the largest value: what is less has no number


def diagrams(drawn: Curves) -> Drawing:
    """Shear, moment and droop along the member, with their values at the places that matter."""
    start, end = float(drawn.x[0]), float(drawn.x[-1])
    point = (end - start) / (WIDE_POINTS - 2 * SIDE_POINTS)
    left, right = start - SIDE_POINTS * point, end + SIDE_POINTS * point
    places = Places(left, right, point)
    items: list[Item] = []
    top = 0.0
    for name, unit, curve, sign in (
        ("shear", "lb", drawn.V, 1.0), ("moment", "lb-in", drawn.M, 1.0),
        ("droop", "in", drawn.droop, -1.0),  # down is drawn down
    ):  # fmt: skip
        made = list(_curve(places, drawn, curve, unit, sign, top))
        low, high = _heights(made)
        title = places.text(f"{name}, {unit}", 200, bold=True)
        where = (start + title.wide / 2, high + 4 * point + title.high / 2)
        items += [*made, places.put(replace(title, at=where))]
        top = low - APART_POINTS * point
    items += _places_below(places, drawn, top + APART_POINTS * point)
    return bounded("Shear, moment and droop along the outrigger", items, left, right, point)


def _heights(items: Iterable[Item]) -> tuple[float, float]:
    ys = [y for one in items for _, y in extent(one)]
    return min(ys), max(ys)


def _curve(
    places: Places, drawn: Curves, curve: Curve, unit: str, sign: float, top: float
) -> Iterator[Item]:
    """A curve under `top`, its zero line, supports, and its values beside their points."""
    point, values = places.point, sign * curve.values
    reach = float(np.max(np.abs(values))) or 1.0
    low, high = min(float(values.min()), 0.0), max(float(values.max()), 0.0)
    scale = TALL_POINTS * point / ((high - low) or 1.0)
    zero = top - high * scale - 26 * point
    line = tuple((float(x), zero + float(y) * scale) for x, y in zip(drawn.x, values, strict=True))
    ends = (line[-1][0], zero), (line[0][0], zero)
    yield Area((*line, *ends), "member", 0.88, weight=0.0)
    yield Line(line, "member", 1.1)
    yield Line((ends[1], ends[0]), "member", 0.6)
    size = 3.2 * point
    for _, x in drawn.supports:
        yield Area(
            ((x, zero), (x - size, zero - 2 * size), (x + size, zero - 2 * size)), "house", 0
        )
        places.keep(rectangle(x - size, zero - 2 * size, x + size, zero))
    places.keep(*zip(line[::6], line[6::6], strict=False), ends)
    for _, at, value in curve.marks:
        if abs(value) < LEAST * reach:
            continue
        tip = (at, zero + sign * value * scale)
        said = words.amount(value, unit).removesuffix(f" {unit}").replace("-", "−")
        yield Dot(tip, "member", 1.5)
        way: Way = "right" if at == drawn.x[-1] else "up" if tip[1] >= zero else "down"
        yield from places.label(places.text(said, 200), [tip], way)


def _places_below(places: Places, drawn: Curves, low: float) -> list[Item]:
    """The names of the places, with their distance from the house wall."""
    wall = next(at for name, at, _ in drawn.droop.marks if name == WALL_LINE)
    found: list[Item] = []
    for name, at in (*drawn.supports, (WALL_LINE, wall)):
        text = places.text(f"{words.place(name)}\n{feet_and_inches(abs(at))}", 200)
        found += places.label(text, [(at, low)], "down")
    return found


def said_of(places: Iterable[tuple[str, float, float]], unit: str) -> str:
    """Values of a curve in words, for those who do not see it."""
    return "; ".join(
        f"{words.place(name)} {words.amount(value, unit)}" for name, _, value in places
    )
