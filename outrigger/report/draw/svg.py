"""A drawing as SVG: text stays text, escaped; no script, no name of a file or a place."""

from functools import cache
from pathlib import Path
from typing import Any

from outrigger.report.draw.primitives import LEADING, Drawing, Point

TEMPLATE = Path(__file__).with_name("drawing.svg.j2")
DASHES = {"dashed": "6 3", "center": "8 2 1.5 2", "dotted": "1 2"}  # points
ASCENT = 0.93  # of the size, from the top of a line to its base


@cache
def _template() -> Any:
    import jinja2  # only a picture needs it

    environment = jinja2.Environment(
        autoescape=True, undefined=jinja2.StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    environment.globals |= {"gray": gray, "dashes": DASHES}
    return environment.from_string(TEMPLATE.read_text(encoding="utf-8"))


def svg(drawing: Drawing) -> str:
    """The picture, its size in points."""

    def at(point: Point) -> str:
        x = (point[0] - drawing.low[0]) / drawing.point
        y = (drawing.high[1] - point[1]) / drawing.point
        return f"{x:.2f},{y:.2f}"

    items = [{"kind": type(one).__name__, "of": one} for one in drawing.items]
    found = _template().render(
        drawing=drawing, items=items, at=at, path=lambda points: " ".join(map(at, points)),
        lines=lambda text: _lines(drawing, text), ticks=lambda one: ticks(drawing, one),
    )  # fmt: skip
    return str(found)


def gray(value: float) -> str:
    """A gray: 0 ink, 1 paper."""
    level = round(255 * value)
    return f"#{level:02x}{level:02x}{level:02x}"


def ticks(drawing: Drawing, one: Any) -> list[tuple[Point, Point]]:
    """The strokes of a dimension: its line, a tick at each end, its extension lines."""
    size, found = 3.0 * drawing.point, [(one.start, one.end)]
    for foot, (x, y) in zip(one.feet, (one.start, one.end), strict=True):
        found.append(((x - size, y - size), (x + size, y + size)))
        dx, dy = x - foot[0], y - foot[1]
        long = (dx * dx + dy * dy) ** 0.5
        if long > 4 * drawing.point:
            ux, uy = dx / long * drawing.point, dy / long * drawing.point
            found.append(((foot[0] + 2 * ux, foot[1] + 2 * uy), (x + 4 * ux, y + 4 * uy)))
    return found


def _lines(drawing: Drawing, text: Any) -> dict[str, Any]:
    """Where the lines of a text stand: each its x, y and words, and how the whole is turned."""
    x = (text.at[0] - drawing.low[0]) / drawing.point
    y = (drawing.high[1] - text.at[1]) / drawing.point
    side = {"left": -0.5, "center": 0.0, "right": 0.5}[text.align] * text.wide / drawing.point
    top = y - text.high / drawing.point / 2
    step = text.size * LEADING
    rows = [
        (f"{x + side:.2f}", f"{top + i * step + ASCENT * text.size:.2f}", line)
        for i, line in enumerate(text.lines)
    ]
    turned = f"rotate({-text.turn:.3f} {x:.2f} {y:.2f})" if text.turn else ""
    anchor = {"left": "start", "center": "middle", "right": "end"}[text.align]
    return {"rows": rows, "turned": turned, "anchor": anchor}
