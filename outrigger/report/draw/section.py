"""The section to scale, dimensioned as a framer builds it. What is said is said by words, too."""

import math

from outrigger.base.quantity import length
from outrigger.report import verdict_words, words
from outrigger.report.draw.clips import hold_downs, place_of
from outrigger.report.draw.garage import garage
from outrigger.report.draw.house import house, rafter_depth
from outrigger.report.draw.place import rectangle
from outrigger.report.draw.primitives import Dot, Drawing
from outrigger.report.draw.scene import CLIPS, FAILS, WALLS, Scene
from outrigger.report.draw.sheet import framed
from outrigger.report.draw.tilted import tilted
from outrigger.verdict.design import Design

WIDE_POINTS = 504.0  # of a sheet that fits between the margins of a page
BRIEF_POINTS = 330.0  # of a brief one
MOST_FAILING = 4  # of one place, by name
HALF_BLOCK_IN = 0.75
BRIEF_ROW = 10.0
ROW_POINTS = 32.0  # from the foot of the house wall to the length of the gap


def section(design: Design, sample: bool, *, alone: bool = True, brief: bool = False) -> Drawing:
    """The outrigger over the house wall and the gap; `alone`: no document stands around it;
    `brief`: the main lengths and names alone, under a verdict that stands there already."""
    scene = Scene(design, BRIEF_POINTS if brief else WIDE_POINTS, brief)
    _gap(scene)
    house(scene)
    _member(scene)
    _blocks(scene)
    garage(scene)
    hold_downs(scene)
    _failing(scene)
    _lengths(scene)
    items = [*scene.items, *scene.labels()]
    if design.shape.tilt.across and not brief:
        items += tilted(scene, items)
    return framed(
        items, design, title=f"{words.printable(design.case.project.name)}: section, to scale",
        verdict="" if brief else verdict_words.verdict_line(design, sample), sample=sample,
        left=scene.left, right=scene.right, point=scene.point, alone=alone,
    )  # fmt: skip


def _gap(scene: Scene) -> None:
    """The gap, shaded between its plumb faces."""
    low = -scene.below - 4 * scene.point
    high = scene.top_at(scene.garage_face)
    box = rectangle(scene.finish_face, low, scene.garage_face, high)
    scene.area(box, "gap", fill=0.86, weight=0.0, solid=False)


def _member(scene: Scene) -> None:
    """The outrigger, its plies and notches."""
    piece, half = scene.case.outrigger, scene.case.gap.edge_bearing / 2
    scene.area(scene.block(scene.start, 0.0, scene.end, scene.deep), "member", weight=1.1)
    scene.line(scene.at(scene.start, scene.deep / 2), scene.at(scene.end, scene.deep / 2),
               weight=0.4, dash="center", gray=0.6)  # fmt: skip
    if piece.bottom_notch:
        notch = scene.block(-half, 0.0, half, piece.bottom_notch)
        scene.area(notch, "member", hatch="fails", weight=1.1, solid=False)
        said = f"notch {length(piece.bottom_notch)} deep in the bottom, its reach not given"
        scene.name(said, scene.at(half, piece.bottom_notch / 2), "down", 120, CLIPS)
    if piece.top_notch:
        notch = scene.block(-half, scene.deep - piece.top_notch, half, scene.deep)
        scene.area(notch, "member", hatch="fails", weight=1.1, solid=False)
        said = f"notch {length(piece.top_notch)} deep in the top, its reach not given"
        scene.name(said, scene.at(-half, scene.deep - piece.top_notch / 2), "up", 120, CLIPS)
    plies = f"{piece.plies} plies, each " if piece.plies > 1 else ""
    flat = ", laid flat" if piece.laid == "flat" else ""
    row = scene.design.wood.row
    said = (
        f"{plies}{scene.design.wood.size.name} {row.species} {row.grade}{flat} at "
        f"{words.spacing(piece.spacing)}"
    )
    scene.name(said, scene.at(scene.end, 0.3 * scene.deep), "right", rank=WALLS)


def _blocks(scene: Scene) -> None:
    """Blocks between the outriggers, cut through."""
    listed = scene.case.outrigger.blocking or []
    names = []
    for one in listed:
        name = one if isinstance(one, str) else f"{one:g} in"
        x = place_of(scene, name) if isinstance(one, str) else -float(one)
        box = scene.block(x - HALF_BLOCK_IN, 0.0, x + HALF_BLOCK_IN, scene.deep)
        scene.crossed(box, "member", "dashed")
        names.append((words.place(name).removeprefix("clip "), x))
    if names:
        said = f"solid blocks between: {', '.join(name for name, _ in names)}"
        tips = tuple(scene.at(x + HALF_BLOCK_IN, 0.9 * scene.deep) for _, x in reversed(names))
        scene.name(said, tips[0], "up", others=tips[1:])


def _failing(scene: Scene) -> None:
    """A ring where something fails, and what."""
    by_place: dict[str, list[str]] = {}
    for row in scene.design.rows:
        if row.status == "fail":
            ratio = f" {words.ratio(row.ratio)}" if row.ratio is not None else ""
            by_place.setdefault(row.check.place, []).append(f"{words.what(row)}{ratio}")
    for place, found in by_place.items():
        x = place_of(scene, place)
        scene.items.append(Dot(scene.at(x, scene.deep / 2), "fails", 9.0, None, 2.0))
        more = [f"and {len(found) - MOST_FAILING} more"] if len(found) > MOST_FAILING else []
        said = "FAILS" if scene.brief else f"FAILS: {', '.join(found[:MOST_FAILING] + more)}"
        scene.name(said, scene.at(x, scene.deep / 2), "up", 150, FAILS)


def _lengths(scene: Scene) -> None:
    """Gap and bearing in one row below, what is measured along the member in the next."""
    point, half = scene.point, scene.case.gap.edge_bearing / 2
    foot, low = -scene.below, -scene.below - (BRIEF_ROW if scene.brief else ROW_POINTS) * point
    gap = ((scene.finish_face, foot), (scene.garage_face, foot))
    scene.dimension("gap", scene.case.gap.width, gap, *((x, low) for x, _ in gap))
    turn = -math.degrees(math.atan2(scene.sin, scene.cos))
    if scene.sin:
        said = f"bearing {length(2 * half)} along the slope"
        scene.name(said, scene.at(half), "left", 130)
    elif not scene.brief:
        feet = ((-half, foot), (half, foot))
        scene.dimension("bearing", 2 * half, feet, (-half, low), (half, low))
    depth = (-low + 20 * point) * scene.cos + scene.sin * 8 * half
    room = (14 if scene.brief else 40) * point  # for names under the rafters
    depth = max(depth, scene.panel + rafter_depth(scene) + room)
    stops = [("tail", scene.arm, scene.end), ("back span", -scene.back, 0.0),
             ("arm", 0.0, scene.arm)]  # fmt: skip
    for name, x0, x1 in stops:
        if x1 - x0 > 0 and not (scene.brief and name == "tail"):
            feet = (scene.at(x0), scene.at(x1))
            ends = (scene.at(x0, -depth), scene.at(x1, -depth))
            scene.dimension(name, x1 - x0, feet, *ends, turn=turn)
    if scene.brief:
        return
    x = scene.start - 16 * point
    feet = (scene.at(scene.start), scene.at(scene.start, scene.deep))
    scene.dimension("", scene.deep, feet, scene.at(x), scene.at(x, scene.deep),
                    turn=90 + turn, upright=True)  # fmt: skip
