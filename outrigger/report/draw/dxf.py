"""A drawing as DXF in inches: a layer for each kind of thing, real dimensions in feet and inches.

The same bytes each time: the dates and the identity of the file are fixed.
"""

import io
import math
from typing import Any

from outrigger.report.draw.primitives import (
    LEADING,
    Area,
    Dimension,
    Dot,
    Drawing,
    Line,
    Point,
    Text,
)
from outrigger.report.draw.svg import DASHES

LAYERS = {
    "house": 8, "garage": 5, "gap": 9, "member": 7, "fasteners": 1, "framing": 8, "loads": 6,
    "dimensions": 3, "text": 7, "fails": 1, "frame": 7,
}  # fmt: skip
STYLE = "OUTRIGGER"
CAPITAL = 0.72  # height of a capital, of the size of the letters
PAPER = 0.9  # of a gray: what is lighter is left open
INCHES = 1  # as the format numbers its units
PATTERNS = {"wood": ("ANSI31", 0.0), "soft": ("HONEY", 0.0), "fails": ("ANSI31", 90.0)}


def dxf(drawing: Drawing) -> bytes:
    """The bytes of the file."""
    import ezdxf

    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True  # dates and identity
    try:
        made = ezdxf.new("R2010", units=INCHES)
        _drawn(made, drawing)
        made.commit_pending_changes()
        for name in sorted(made.entitydb.dxf_types_in_use()):  # in one order, whatever the process
            made.classes.add_class(name)
        out = io.StringIO()
        made.write(out)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before
    return out.getvalue().encode("utf-8")


def _drawn(made: Any, drawing: Drawing) -> None:
    """Layers, styles and everything that is drawn."""
    for name, pattern in DASHES.items():
        strokes = [float(one) * drawing.point for one in pattern.split()]
        signed = [one if i % 2 == 0 else -one for i, one in enumerate(strokes)]
        made.linetypes.add(name.upper(), [sum(strokes), *signed], description=name)
    for name, color in LAYERS.items():
        made.layers.add(name.upper(), color=color)
    made.styles.add(STYLE, font="arial.ttf")
    _dimension_style(made, drawing.point)
    space = made.modelspace()
    for item in drawing.items:
        match item:
            case Line():
                space.add_lwpolyline(item.points, dxfattribs=_attributes(item))
            case Area():
                _area(space, item, drawing.point)
            case Dot():
                _dot(space, item, drawing.point)
            case Text():
                _text(space, item, drawing.point)
            case Dimension():
                _dimension(space, item)


def _attributes(item: Line | Area) -> dict[str, Any]:
    found: dict[str, Any] = {"layer": item.layer.upper(), "lineweight": _weight(item.weight)}
    if item.dash:
        found["linetype"] = item.dash.upper()
    return found


def _weight(points: float) -> int:
    """A weight of the list that the format has, in hundredths of a millimeter."""
    listed = (0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80)
    return min(listed, key=lambda one: abs(one - points * 2540 / 72))


def _area(space: Any, item: Area, point: float) -> None:
    attributes = _attributes(item)
    if item.fill is not None and item.fill < PAPER:
        gray = round(255 * item.fill)
        filled = space.add_hatch(color=256, dxfattribs={"layer": item.layer.upper()})
        if gray:
            filled.rgb = (gray, gray, gray)
        filled.paths.add_polyline_path(item.points, is_closed=True)
    if item.hatch:
        pattern, angle = PATTERNS[item.hatch]
        hatched = space.add_hatch(color=256, dxfattribs={"layer": item.layer.upper()})
        hatched.set_pattern_fill(pattern, scale=36 * point, angle=angle)
        hatched.paths.add_polyline_path(item.points, is_closed=True)
    if item.weight:
        space.add_lwpolyline(item.points, close=True, dxfattribs=attributes)


def _dot(space: Any, item: Dot, point: float) -> None:
    layer = {"layer": item.layer.upper()}
    space.add_circle(item.at, item.radius * point, dxfattribs=layer)
    if item.fill is not None and item.fill < PAPER:
        filled = space.add_hatch(color=256, dxfattribs=layer)
        filled.paths.add_edge_path().add_arc(item.at, item.radius * point)


def _text(space: Any, item: Text, point: float) -> None:
    """Each line by itself, at its base."""
    from ezdxf.enums import TextEntityAlignment as Align

    side, align = {
        "left": (-0.5, Align.LEFT), "center": (0.0, Align.CENTER), "right": (0.5, Align.RIGHT),
    }[item.align]  # fmt: skip
    step = item.size * LEADING * point
    for i, line in enumerate(item.lines):
        x = side * item.wide
        y = item.high / 2 - i * step - 0.93 * item.size * point
        where = _turned(item.at, x, y, item.turn)
        text = space.add_text(
            _plain(line), height=CAPITAL * item.size * point, rotation=item.turn,
            dxfattribs={"layer": item.layer.upper(), "style": STYLE},
        )  # fmt: skip
        text.set_placement(where, align=align)


def _turned(at: Point, x: float, y: float, degrees: float) -> Point:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return (at[0] + x * c - y * s, at[1] + x * s + y * c)


def _plain(text: str) -> str:
    """A text whose characters steer nothing: %% opens a code, ^ a control character."""
    return text.replace("%%", "% %").replace("^", "^ ")


def _dimension_style(made: Any, point: float) -> None:
    style = made.dimstyles.new("OUTRIGGER")
    set_to = {
        "dimtxt": CAPITAL * 9.0 * point, "dimtxsty": STYLE, "dimtsz": 3.0 * point,
        "dimexe": 4.0 * point, "dimexo": 2.0 * point, "dimgap": 1.5 * point, "dimscale": 1.0,
        "dimlfac": 1.0, "dimtad": 0, "dimlunit": 4, "dimfrac": 2, "dimrnd": 1 / 16,
    }  # fmt: skip
    for name, value in set_to.items():
        style.set_dxf_attrib(name, value)


def _dimension(space: Any, item: Dimension) -> None:
    """A real dimension; its text is the length in feet and inches, its name before it."""
    (x0, y0), (x1, y1) = item.start, item.end
    space.add_linear_dim(
        base=item.start, p1=item.feet[0], p2=item.feet[1],
        angle=math.degrees(math.atan2(y1 - y0, x1 - x0)), text=item.in_feet, location=item.text.at,
        text_rotation=item.text.turn, dimstyle="OUTRIGGER", dxfattribs={"layer": "DIMENSIONS"},
    ).render()  # fmt: skip
