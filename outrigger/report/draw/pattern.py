"""The pattern of one piece to scale: garage wall, house bearing, clips and blocks, each measured in
from the outer end, in letters to be read from afar."""

from outrigger.actions.places import EDGE, WALL_LINE
from outrigger.base.quantity import tape
from outrigger.layout import crew
from outrigger.layout.layout import HOUSE_FRAMING, LaidOut
from outrigger.report.crew import Speaker, places
from outrigger.report.draw import lettering
from outrigger.report.draw.place import rectangle
from outrigger.report.draw.primitives import Area, Dash, Dimension, Dot, Drawing, Item, Line, Text
from outrigger.report.draw.sheet import bounded

BIG, SMALL = 13.0, 10.0  # points of the lengths, and of the words
ROW, TWO_LINES = 16.5, 27.0  # points from one dimension to the next
TALLEST = 36.0  # points of the piece
ASIDE = 10.0  # points at the left


def pattern(laid: LaidOut, say: Speaker, wide: float) -> Drawing:
    """The pattern, `wide` points."""
    listed = places(laid, say)
    labels = [_label(said) for said, _ in listed]
    row = ROW if len(labels[0]) == 1 else TWO_LINES
    beside = max(lettering.box(one, SMALL)[0] for one in labels) + 12
    whole = laid.cuts[0].length
    point = whole / (wide - ASIDE - beside - lettering.width('000-15/16"', BIG, True) - 14)
    size = laid.design.wood.size
    flat = laid.case.outrigger.laid == "flat"
    deep = min(size.b if flat else size.d, TALLEST * point)
    items: list[Item] = [Area(rectangle(0.0, 0.0, whole, deep), "member", 0.95, weight=1.4)]
    items += _on_it(laid, deep, point)
    for i, ((_, x), label) in enumerate(zip(listed, labels, strict=True), 1):
        y = -i * row * point
        w, h = (one * point for one in lettering.box((tape(x),), BIG, True))
        at = whole + 8 * point
        number = Text((at + w / 2, y), (tape(x),), w, h, "dimensions", BIG, True)
        items.append(Line(((x, y), (at - 3 * point, y)), "dimensions", 0.3, "dotted", 0.5))
        feet = ((0.0, 0.0), (x, 0.0))
        items.append(Dimension((0.0, y), (x, y), feet, "", x, number))
        w2, h2 = (one * point for one in lettering.box(label, SMALL))
        items.append(Text((at + w + 8 * point + w2 / 2, y), label, w2, h2, "text", SMALL))
    return bounded("One piece", items, -ASIDE * point, wide * point - ASIDE * point, point)


def _label(said: dict[str, str]) -> tuple[str, ...]:
    """A line in each language."""
    return tuple(filter(None, (said["en"], said["es"])))


def _on_it(laid: LaidOut, deep: float, point: float) -> list[Item]:
    """Blocks behind the piece, its center lines, its clips."""
    found: list[Item] = []
    half = laid.design.wood.size.b / 2
    for x in crew.blocks_along(laid) or ():
        shape = rectangle(x - half, 0.0, x + half, deep)
        found.append(Area(shape, "framing", None, "wood", 0.8, "dashed"))
    clipped = {hold.name for hold in laid.case.hold_down}
    for name, x in laid.along:
        dash: Dash = "" if name == HOUSE_FRAMING else "center"
        weight = 2.0 if name == HOUSE_FRAMING else 0.8
        top = deep + (9 * point if name in (WALL_LINE, EDGE) else 3 * point)
        found.append(Line(((x, 0.0), (x, top)), "member", weight, dash))
        if name in clipped:
            found.append(Dot((x, deep / 3), "fasteners", 4.0))
    return found
