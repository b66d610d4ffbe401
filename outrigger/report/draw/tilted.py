"""The member seen along its length, tilted with the sheathing, under its vertical load."""

import math
from collections.abc import Sequence

from outrigger.report.draw.primitives import Area, Item, Line, Point, Text
from outrigger.report.draw.scene import Scene
from outrigger.report.draw.sheet import extent


def tilted(scene: Scene, items: Sequence[Item]) -> list[Item]:
    """Drawn under the section: member, sheathing, load, in the section's own scale."""
    point, theta = scene.point, math.radians(scene.design.shape.tilt.theta)
    wide, deep = scene.design.member.b, scene.deep
    low = min(y for one in items for _, y in extent(one))
    reach = 1.6 * deep
    middle = scene.left + reach + 30 * point
    base = low - deep - 46 * point - reach * math.sin(theta)

    def at(x: float, up: float) -> Point:
        return (middle + x * math.cos(theta) + up * math.sin(theta),
                base - x * math.sin(theta) + up * math.cos(theta))  # fmt: skip

    top = at(0.0, deep)
    tail = (top[0], top[1] + 22 * point)
    neck = (top[0], top[1] + 6 * point)
    wing = 2.6 * point
    said = f"seen along the outrigger: tilted {scene.design.shape.tilt.theta:.1f}° with the roof"
    text: Text = scene.places.text(said, 150)
    right = middle + reach + 12 * point + text.wide / 2
    return [
        Area((at(-reach, 0), at(reach, 0), at(reach, -scene.panel), at(-reach, -scene.panel)),
             "house", 0.72),
        Area((at(-wide / 2, 0), at(wide / 2, 0), at(wide / 2, deep), at(-wide / 2, deep)),
             "member", 1.0, weight=1.1),
        Line((tail, neck), "loads", 1.2),
        Area((top, (neck[0] - wing, neck[1]), (neck[0] + wing, neck[1])), "loads", 0.0, weight=0),
        scene.places.put(Text((right, base + deep / 2), text.lines, text.wide, text.high)),
    ]  # fmt: skip
