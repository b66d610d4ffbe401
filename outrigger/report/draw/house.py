"""The house side of a section: sheathing, what carries the edge, finish, rafters, insulation."""

from outrigger.actions.places import EDGE
from outrigger.base.quantity import length, sixteenths
from outrigger.cases.below import BLOCKING, TOP_PLATE
from outrigger.marks.framing import HALF_RAFTER_IN, framing_centres
from outrigger.report import words
from outrigger.report.draw.primitives import Dash
from outrigger.report.draw.scene import HOUSE, PLATE_IN, Scene
from outrigger.verdict.envelopes import ASD, PUSH, envelopes
from outrigger.wood import dressed

RAFTER_IN = 5.5  # drawn where the depth of the framing is not given
ALONG = (0.45, 0.3, 0.6, 0.75, 0.9)  # of the back span: places that show it as well
PAST = 8.0  # points that the house runs on past the inner end


def house(scene: Scene) -> None:
    """All of it, from the top."""
    _insulation(scene)
    _sheathing(scene)
    _edge(scene)
    _rafters(scene)


def _inner(scene: Scene) -> float:
    return scene.start - PAST * scene.point


def _insulation(scene: Scene) -> None:
    """Insulation over the deck beside the outrigger, and how it covers it."""
    over = scene.case.gap.roof_insulation
    if not over:
        return
    face = scene.finish_face / scene.cos
    scene.area(
        scene.block(_inner(scene), 0.0, face, over),
        "house",
        hatch="soft",
        weight=0.4,
        dash="dashed",
    )
    cover = over - scene.deep
    how = (
        f"{sixteenths(cover)} of it over the outriggers" if cover > 0
        else f"outriggers stand {sixteenths(-cover)} out of it" if cover < 0
        else "flush with the outriggers"
    )  # fmt: skip
    tip = scene.at(scene.start * 0.62, max(over - scene.point, over * 0.9))
    scene.name(f"roof insulation {length(over)}, {how}", tip, "up", 130)


def _sheathing(scene: Scene) -> None:
    end = scene.framing_face / scene.cos
    scene.area(scene.block(_inner(scene), -scene.panel, end, 0.0), "house", fill=0.72, weight=0.7)
    roof = scene.case.house_roof
    kind = words.shortened(words.printable(roof.sheathing), 60) or "sheathing"
    thick = "" if roof.sheathing_thickness is None else f"{length(roof.sheathing_thickness)} "
    scene.name(f"{thick}{kind}", scene.at(scene.start * 0.9, -scene.panel / 2), "down", 120)


def rafter_depth(scene: Scene) -> float:
    """Depth of the house framing, as stated or as drawn."""
    given = scene.case.house_rafter
    size = given.size if given is not None else None
    return RAFTER_IN if size is None else dressed.read_size(size).d


def _rafters(scene: Scene) -> None:
    """The framing under the clips: cut where it crosses, a band where it runs along."""
    roof, deep = scene.case.house_roof, rafter_depth(scene)
    top, low = -scene.panel, -scene.panel - deep
    given = scene.case.house_rafter
    size = "rafters" if given is None or not given.size else f"{given.size} rafters"
    unknown = "" if given is not None and given.size else ", depth not given"
    apart = "" if roof.framing_spacing is None else f" at {words.spacing(roof.framing_spacing)}"
    edge = (scene.framing_face - (roof.edge_support_width or 0.0)) / scene.cos
    if roof.framing_parallel:
        band = scene.block(_inner(scene), low, edge - 2 * scene.point, top)
        scene.area(band, "framing", fill=None, weight=0.5, dash="dashed")
        said = f"house {size}{apart}, running along{unknown}"
        tips = tuple(scene.at(scene.start * at, low + 0.25 * deep) for at in ALONG)
        scene.name(said, tips[0], "down", 112, HOUSE, tips[1:])
        return
    if roof.framing_parallel is None:
        return
    centres = framing_centres(
        spacing=roof.framing_spacing, offset=roof.framing_offset, at=roof.framing_at,
        reach=-_inner(scene),
    )  # fmt: skip
    drawn = []
    for at in () if centres is None else centres:
        x = -float(at)
        if x - HALF_RAFTER_IN > _inner(scene) and x + HALF_RAFTER_IN < edge:
            scene.crossed(scene.block(x - HALF_RAFTER_IN, low, x + HALF_RAFTER_IN, top), "framing")
            drawn.append(x)
    if drawn:
        nearest = min(drawn, key=lambda x: abs(x - scene.start * 0.6))
        said = f"house {size}{apart}, crossing{unknown}"
        others = tuple(scene.at(x, low) for x in drawn if x != nearest)
        scene.name(said, scene.at(nearest, low), "down", 112, HOUSE, others)


def _edge(scene: Scene) -> None:
    """What carries the edge, the wall's finish, and the bearing."""
    case, face = scene.case, scene.framing_face
    bottom = -scene.below
    kind, given = case.house_roof.edge_support, case.house_edge
    under = case.house_roof.edge_support_width or case.gap.edge_bearing
    left = face - under
    if kind != "panel only":
        low, plates = bottom, 0.0
        if given is not None:
            deep = dressed.read_size(given.size).d
            plates = PLATE_IN * given.plies if given.kind == TOP_PLATE else deep
            if given.kind == BLOCKING:
                low = min(scene.under_at(x) for x in (left, face)) - deep
        top = ((face, scene.under_at(face)), (left, scene.under_at(left)))
        dash: Dash = "dashed" if kind is None else ""
        scene.area(((left, low), (face, low), *top), "house", hatch="wood", dash=dash)
        if plates and scene.under_at(face) - plates > low:
            y = scene.under_at(face) - plates
            scene.line((left, y), (face, y), layer="house")
        said = f"house wall: {_below(scene)}{_push(scene, left, low)}"
        tips = tuple((left, y * low + (1 - y) * scene.under_at(left)) for y in (0.7, 0.4, 0.95))
        scene.name(said, tips[0], "left", 122, HOUSE, tips[1:])
    if (finish := scene.finish_face - face) > 0:
        top = ((scene.finish_face, scene.under_at(scene.finish_face)), (face, scene.under_at(face)))
        scene.area(((face, bottom), (scene.finish_face, bottom), *top), "house", fill=0.8)
        stated = case.gap.house_finish is not None
        said = f"house finish {length(finish)}" + ("" if stated else ", taken")
        scene.name(said, (face + finish / 2, bottom + 6 * scene.point), "left", rank=HOUSE)
    half = case.gap.edge_bearing / 2
    scene.line(scene.at(-half), scene.at(half), layer="house", weight=2.2)


def _push(scene: Scene, left: float, low: float) -> str:
    """The most that the wall carries: an arrow at the foot of what is drawn of it, and words."""
    found = [
        one for one in envelopes(scene.design, (ASD,))
        if (one.at, one.way) == (EDGE, PUSH) and round(one.force)
    ]  # fmt: skip
    if not found or scene.brief:
        return ""
    x, point = (left + scene.framing_face) / 2, scene.point
    scene.arrow((x, low - 20 * point), (x, low - point), "loads")
    square = "" if scene.design.shape.tilt.way == "level" else ", square to the roof"
    pair = ", a pair" if found[0].pieces > 1 else ""
    return f"; carries up to {words.pounds(found[0].force)} (ASD{pair}{square})"


def _below(scene: Scene) -> str:
    """What stands right under the edge, in words."""
    given = scene.case.house_edge
    if given is None:
        kind = scene.case.house_roof.edge_support
        return {None: "edge support not given", "wall": "plate or studs below"}.get(kind, str(kind))
    plies = f"{given.plies} " if given.plies > 1 else ""
    return f"{given.kind}, {plies}{given.size}"
