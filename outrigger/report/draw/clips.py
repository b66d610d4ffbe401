"""The hold-downs of a section as they are stated: clips, straps over the top, screws through."""

from outrigger.actions.places import EDGE
from outrigger.cases.batch import on_a_pair
from outrigger.cases.hold_down import (
    BLOCKING,
    SHEATHING_ONLY,
    STRAP,
    HoldDown,
    down_through,
    through,
)
from outrigger.cases.model import Case
from outrigger.fasteners.trade_names import Fastener, read_fastener
from outrigger.formula.numbers import pick
from outrigger.report import words
from outrigger.report.draw.primitives import Dot
from outrigger.report.draw.scene import CLIPS, Scene
from outrigger.verdict.envelopes import ASD, PULL, envelopes

OVER = "over the top"
HALF_CLIP_IN = 0.75  # drawn; a listing has its own width
STEEL_POINTS = 1.6  # drawn thickness of a foot or a strap
LISTED_DEEP_IN = 1.0  # of a listed clip's fasteners into the deck, drawn
MOST_DOTS = 8


def hold_downs(scene: Scene) -> None:
    """Each hold-down at its place, with its words and what it is pulled by."""
    model = scene.design.model
    found = envelopes(scene.design, (ASD,))
    most = {(one.at, one.way): one.force for one in found}
    paired = {(one.at, one.way): one.pieces > 1 for one in found}
    for name, x in model.supports:
        at = float(x[0, 0])
        hold = model.hold_downs.get(name)
        tip = scene.deep
        if hold is not None:
            tip = _drawn(scene, hold, at)
        said = [_short(scene.case, name, hold) if scene.brief else _words(scene.case, name, hold)]
        if not scene.brief and round(pull := most.get((name, PULL), 0.0)):
            pair = ", a pair" if paired.get((name, PULL)) else ""
            said.append(f"pulled up to {words.pounds(pull)} (ASD{pair})")
        scene.name("\n".join(said), scene.at(at, tip), "up", 168, CLIPS)


def _short(case: Case, name: str, hold: HoldDown | None) -> str:
    """A hold-down in few words."""
    if hold is None:
        return _words(case, name, hold)
    kind = "through" if through(hold) else "strap" if hold.kind == STRAP else "clip"
    many = "s" if hold.count > 1 and kind != "through" else ""
    count = down_through(hold) if kind == "through" else hold.count
    return f"{words.place(name)}: {count} {kind}{many}{_of_a_pair(case, hold)}"


def _of_a_pair(case: Case, hold: HoldDown) -> str:
    """The section is of every outrigger: what of its clips a piece of a pair has, beside all."""
    return words.on_a_pair(case, hold.count, on_a_pair(hold))


def _words(case: Case, name: str, hold: HoldDown | None) -> str:
    """A hold-down as the framer buys it."""
    if hold is None:
        return f"{words.place(name)}: no tie" if name == EDGE else f"{words.place(name)}: none"
    where = words.place(name)
    if through(hold):
        kind = f"{down_through(hold)} through the outrigger"
    else:
        kind = "strap over the top" if hold.kind == STRAP or hold.side_height == OVER else "clip"
        if hold.count > 1:
            kind = f"{hold.count} {kind.replace('strap', 'straps').replace('clip', 'clips')}"
            kind += ", one each side" if hold.count == 2 and "clip" in kind else ""
        elif kind == "clip":
            kind = "1 clip, one side"
    parts = [f"{kind}{_of_a_pair(case, hold)}"]
    if hold.rated_uplift is not None:
        column = f" ({hold.rated_for})" if hold.rated_for else ""
        parts.append(f"listed {words.pounds(hold.rated_uplift)} each{column}")
    if hold.side_fastener:
        parts.append(f"{hold.side_fasteners or ''} {hold.side_fastener} into its side".strip())
    if hold.deck_fastener:
        times = "" if through(hold) and not hold.deck_fasteners else f"{hold.deck_fasteners or ''} "
        parts.append(f"{times}{hold.deck_fastener} down".strip())
    into = {None: "into: not given", BLOCKING: "into blocking", SHEATHING_ONLY: SHEATHING_ONLY}
    parts.append(into.get(hold.into, f"into {hold.into}"))
    return f"{where}: {words.printable(', '.join(parts))}"


def _drawn(scene: Scene, hold: HoldDown, at: float) -> float:
    """Draw it; how high its label points, square to the sheathing."""
    deck = read_fastener(hold.deck_fastener) if hold.deck_fastener else None
    if through(hold):
        return _through(scene, deck, at)
    steel = STEEL_POINTS * scene.point
    over = hold.kind == STRAP or hold.side_height == OVER
    high = scene.deep if over else min(_high(hold, scene.deep), scene.deep)
    foot = max(hold.foot, 2 * HALF_CLIP_IN) / 2
    left, right = at - HALF_CLIP_IN, at + HALF_CLIP_IN
    scene.area(scene.block(left, 0.0, right, high), "fasteners", fill=0.55, solid=False)
    scene.area(
        scene.block(at - foot, 0.0, at + foot, steel), "fasteners", fill=0.0, weight=0.4,
        solid=False,
    )  # fmt: skip
    if over:
        cap = scene.block(left - steel / 2, scene.deep, right + steel / 2, scene.deep + steel)
        scene.area(cap, "fasteners", fill=0.0, weight=0.4)
    _side_dots(scene, hold, at, high)
    deep = LISTED_DEEP_IN + scene.panel if deck is None else deck.length
    for side in (-0.35, 0.35):
        x = at + side * 2 * foot / 2
        scene.line(scene.at(x, steel), scene.at(x, steel - deep), layer="fasteners", weight=0.9,
                   dash="" if deck else "dashed")  # fmt: skip
    return scene.deep + (steel if over else 0.0) if over else high


def _high(hold: HoldDown, deep: float) -> float:
    """How high a clip reaches: to its highest fastener; of a listed one as drawn."""
    return hold.side_height + 0.5 if isinstance(hold.side_height, float) else 0.7 * deep


def _side_dots(scene: Scene, hold: HoldDown, at: float, high: float) -> None:
    count = min(hold.side_fasteners or 0, MOST_DOTS)
    for i in range(count):
        up = high - 0.5 - i * (high - 1.2) / max(count, 1)
        side = 0.25 if i % 2 else -0.25
        scene.items.append(Dot(scene.at(at + side, up), "fasteners", 0.9))


def _through(scene: Scene, deck: Fastener | None, at: float) -> float:
    """A screw or lag down through the outrigger: head, shank to its length."""
    head = (deck.head if deck else 0.5) / 2
    half = (deck.D if deck else 0.25) / 2
    long = deck.length if deck else scene.deep + scene.panel + 2
    thick = max(0.25, 2 * scene.point)
    scene.area(scene.block(at - half, scene.deep - long, at + half, scene.deep), "fasteners",
               fill=0.25, weight=0.5, solid=False)  # fmt: skip
    scene.area(scene.block(at - head, scene.deep, at + head, scene.deep + thick), "fasteners",
               fill=0.0, weight=0.5)  # fmt: skip
    return scene.deep + thick


def place_of(scene: Scene, place: str) -> float:
    """x of the place of a check."""
    supports = {name: float(x[0, 0]) for name, x in scene.design.model.supports}
    others = {
        "wall line": scene.arm, "arm": 0.6 * scene.arm, "gap": 0.6 * scene.arm,
        "back span": -0.5 * scene.back, "end": pick(scene.design.shape.end),
    }  # fmt: skip
    return (supports | others).get(place, 0.0)
