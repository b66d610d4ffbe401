"""What a change of the gap costs on site: pieces, boards, clips, flashing, cover, heat."""

import math
from dataclasses import dataclass

import numpy as np

from outrigger import band
from outrigger.case import Layout
from outrigger.design import Design, design
from outrigger.formula import Step
from outrigger.geometry import any_load
from outrigger.study import SIXTEENTH, GapStudy, at_gap, clip_pulls, fields_of
from outrigger.units import INCHES_PER_FOOT

STOCK_IN = tuple(float(ft * INCHES_PER_FOOT) for ft in (8, 10, 12, 14, 16))  # as sold
FLASHING_LENGTH_IN = 120.0  # sheet metal comes so, before laps
KERF_IN = float(Layout.model_fields["kerf"].default)
SQUARING_IN = float(Layout.model_fields["squaring"].default)


@dataclass(frozen=True)
class Yield:
    """Pieces from one board of `board` in, before and after; `until`: the widest gap, in, that
    still gives as many as after; `boards`: for the whole wall, None where it or they are none."""

    board: float
    before: int
    after: int
    until: float
    boards: int | None


@dataclass(frozen=True, eq=False)
class Change:
    """One design after another gap; lengths in, forces lb.

    lengths: of a piece, before and after; `pieces` along the wall, None without [layout];
    `flashing`: lengths of it, None likewise; `girth`: what it gains; `cover`: roof insulation above
    the outriggers, None where it is not given, negative where they stand out of it; `pulls`: on one
    clip of each place, before and after, None where it has no clips; `heat`: R of the band with
    the wood in it, before and after.
    """

    before: Design
    after: Design
    lengths: tuple[float, float]
    pieces: int | None
    flashing: int | None
    girth: float
    cover: float | None
    yields: list[Yield]
    stock_stated: bool
    pulls: dict[str, tuple[float | None, ...]]
    heat: tuple[Step, Step]


def pieces_per_board(length: float, board: float, kerf: float, squaring: float) -> int:
    """Whole pieces from a board, its end squared first, a kerf between two of them; all in."""
    return max(0, math.floor((board - squaring + kerf) / (length + kerf)))


def longest_piece(pieces: int, board: float, kerf: float, squaring: float) -> float:
    """The longest piece, in, of which a board still gives so many."""
    return (board - squaring + kerf) / pieces - kerf


def change(before: Design, after: Design) -> Change:
    """What follows from one design in place of another of the same case with another gap."""
    case, layout = after.case, after.case.layout
    lengths = _number(before.shape.length), _number(after.shape.length)
    kerf, squaring = (KERF_IN, SQUARING_IN) if layout is None else (layout.kerf, layout.squaring)
    stock = tuple(layout.stock) if layout is not None else ()
    run = None if layout is None else layout.run
    plan, gap = after.shape.plan, case.gap.width
    spacing = _number(after.shape.spacing)
    pieces = None if layout is None else math.ceil(layout.run / spacing)
    yields = []
    for board in stock or STOCK_IN:
        was, now = (pieces_per_board(one, board, kerf, squaring) for one in lengths)
        if now or was:
            room = longest_piece(max(now, 1), board, kerf, squaring) - lengths[1]
            boards = math.ceil(pieces / now) if pieces and now else None
            yields.append(Yield(board, was, now, gap + room * plan, boards))
    one, other = clip_pulls(before, 1), clip_pulls(after, 1)
    pulls = {
        place: tuple(float(of[place][0]) if place in of else None for of in (one, other))
        for place in dict.fromkeys((*one, *other))
    }
    over = case.gap.roof_insulation
    return Change(
        before, after, lengths,
        pieces,
        None if run is None else math.ceil(run / FLASHING_LENGTH_IN),
        (gap - before.case.gap.width) / plan,
        None if over is None or not any_load(over) else over - after.desk.d,
        yields, bool(stock), pulls, (heat(before), heat(after)),
    )  # fmt: skip


def of(found: GapStudy) -> Change | None:
    """The change that was asked: from the file's gap to the command's; where the command asks for
    none, from the stated gap to the largest that works, None where none does."""
    if found.before is not None:
        return change(_at(found, found.before), found.asked)
    if found.largest is None:
        return None
    widest = math.floor(found.largest.last / SIXTEENTH) * SIXTEENTH
    return change(found.asked, _at(found, widest))


def _at(found: GapStudy, width: float) -> Design:
    """The design at one gap."""
    fields = fields_of(found.case, found.before, found.cut)
    return design(at_gap(found.case, fields, width))


def heat(result: Design) -> Step:
    """R of the band in the gap with the outriggers in it; an estimate."""
    width = result.case.gap.width / result.shape.plan
    G = result.wood.row.values["G"].value
    return band.resistance(width, result.desk.b, _number(result.shape.spacing), G)


def _number(column: object) -> float:
    return float(np.ravel(np.asarray(column))[0])
