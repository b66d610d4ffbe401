"""The garage side of a section: plates and filler, wall, roof, and the load P that they bring."""

from outrigger.base.quantity import length
from outrigger.formula.numbers import pick
from outrigger.report import words
from outrigger.report.draw.place import rectangle
from outrigger.report.draw.scene import LOADS, PLATE_IN, WALLS, Scene

WALL_POINTS = 62.0  # of the garage wall that is drawn, at most
ARROW_POINTS = 30.0
ROOF_POINTS = 38.0
PARTS = ("D", "L", "Lr", "S", "W_up", "W_down", "E")
RUN = 12.0


def garage(scene: Scene) -> None:
    """All of it, from the member up."""
    plate = scene.case.gap.garage_plate
    left, right = scene.wall_line - plate / 2, scene.wall_line + plate / 2
    top = _plates(scene, left, right)
    _load(scene, _wall(scene, left, right, top))
    _tie(scene, right, top)


def _plates(scene: Scene, left: float, right: float) -> float:
    """The level plates on the member, on a slope with a tapered filler below; their top."""
    count = scene.case.garage_wall.plates
    y = scene.top_at(left)
    if scene.sin:
        end = min(right, scene.at(scene.end, scene.deep)[0])
        scene.area(((left, y), (end, y), (end, scene.top_at(end))), "garage", hatch="wood")
        most = y - scene.top_at(end)
        said = f"tapered filler, 0 to {length(most)}"
        scene.name(said, (end, y - most * 0.4), "right", rank=WALLS)
    for i in range(count):
        box = rectangle(left, y + i * PLATE_IN, right, y + (i + 1) * PLATE_IN)
        scene.area(box, "garage", hatch="wood")
    many = "garage plate" if count == 1 else f"{count} plates"
    said = f"{many} {length(scene.case.gap.garage_plate)} wide"
    scene.name(said, (right, y + count * PLATE_IN * 0.6), "right", rank=WALLS)
    return y + count * PLATE_IN


def _wall(scene: Scene, left: float, right: float, top: float) -> float:
    """The wall, broken off where it is too high for the sheet; its top."""
    height = scene.case.garage_wall.height
    most = WALL_POINTS * (0.2 if scene.brief else 1.0) * scene.point
    drawn = most if height is None else min(height, most)
    broken = height is None or height > drawn
    high = top + drawn
    scene.area(rectangle(left, top, right, high), "garage")
    scene.line((scene.wall_line, top - 4 * scene.point), (scene.wall_line, high),
               layer="garage", weight=0.4, dash="center", gray=0.4)  # fmt: skip
    said = "garage wall" + ("" if height is None else f" {length(height)} high")
    scene.name(said, (right, top + drawn * 0.45), "right", rank=WALLS)
    if broken:
        middle, size = top + 0.72 * drawn, 2.5 * scene.point
        for dy in (-size, size):
            a, b = left - 2 * size, right + 2 * size
            mid = scene.wall_line
            scene.line((a, middle + dy), (mid - size, middle + dy), (mid, middle + dy + size),
                       (mid, middle + dy - size), (mid + size, middle + dy), (b, middle + dy),
                       layer="garage", weight=0.5)  # fmt: skip
    _roof(scene, high)
    return high


def _roof(scene: Scene, high: float) -> None:
    """The garage roof away from the house, where the wall carries one."""
    roof = scene.case.garage_roof
    if not roof.bearing or scene.brief:
        return
    long = ROOF_POINTS * scene.point
    eave = roof.overhang or 0.0
    x0, x1 = scene.wall_line, scene.wall_line + long
    rise = {"low at the house": 1.0, "high at the house": -1.0}.get(roof.shape or "", 1.0)
    slope = rise * (roof.pitch or 0.0) / RUN
    scene.line((x0, high), (x1, high), layer="garage", weight=0.9)
    if slope > 0:
        out = min(eave, 40 * scene.point)
        scene.line((x0 - out, high - out * slope), (x1, high + long * slope),
                   layer="garage", weight=0.9)  # fmt: skip
    scene.places.keep(((x0, high), (x1, high)), ((x0, high), (x1, high + long * max(slope, 0))))
    span = "" if roof.span is None else f", span {length(roof.span)}"
    scene.name(f"garage roof: {roof.form}{span}", (x1 - 4 * scene.point, high), "right", 95, WALLS)


def _load(scene: Scene, high: float) -> None:
    """P on the wall line, vertical on the site, and what it is made of."""
    tip = (scene.wall_line, high + 1.5 * scene.point)
    long = ARROW_POINTS * (0.6 if scene.brief else 1.0)
    tail = (scene.wall_line, tip[1] + long * scene.point)
    scene.arrow(tail, tip, "loads")
    if scene.brief:
        scene.name("P", tail, "right", rank=LOADS)
        return
    on = scene.design.loads
    found = {part: pick(P) for part, P in on.wall_line.items() if part not in on.snow_cases}
    found["S"] = pick(on.snow)
    listed = [
        f"{words.load_case(part)} {words.pounds(abs(found[part]))}"
        for part in PARTS
        if round(found.get(part, 0.0))
    ]
    who = "one outrigger" if scene.design.mark is None else f"mark {scene.design.mark}, the worst"
    strength = "snow and wind" if scene.case.basis.loads == "ASCE 7-22" else "wind"
    level = f" ({strength} at strength level)" if listed else ""
    said = f"P on {who}, unfactored{level}: {', '.join(listed) or 'nothing stated'}"
    scene.name(said, tail, "up", 146, LOADS)


def _tie(scene: Scene, right: float, top: float) -> None:
    """What ties the wall down, by its words."""
    tie = scene.case.wall_tie
    if tie is None:
        return
    what = words.printable(tie.fastener) if tie.fastener else "listed"
    if tie.rated_uplift is not None:
        what = f"listed {words.pounds(tie.rated_uplift)} up each"
    pairs = words.ties_on_a_pair(scene.case, tie)
    said = f"wall tie: {tie.count}{pairs}, {what}"
    scene.name(said, (right, top - 0.9 * PLATE_IN), "right", rank=WALLS)
