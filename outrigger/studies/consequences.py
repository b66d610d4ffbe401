"""What a change of the gap costs on site: pieces, boards, clips, flashing, cover, heat."""

import math

import numpy as np
from msgspec import Struct

from outrigger.base.errors import InputError
from outrigger.base.units import SIXTEENTH, inches
from outrigger.cases.sections import Layout
from outrigger.formula.formula import Step
from outrigger.layout.cutting import Packing
from outrigger.layout.materials import STOCK_FT, cuts, flashing_lengths, packed
from outrigger.marks.of_case import row_of
from outrigger.studies import heat as band
from outrigger.studies.gap_cases import at_gap, fields_of
from outrigger.studies.gap_study import GapStudy
from outrigger.verdict.clip_forces import most_pulls
from outrigger.verdict.design import Design, design

KERF_IN = float(Layout.model_fields["kerf"].default)
SQUARING_IN = float(Layout.model_fields["squaring"].default)


class Yield(Struct, frozen=True):
    """Pieces from one board of `board` in, before and after; `until`: the widest gap, in, that
    still gives as many as after."""

    board: float
    before: int
    after: int
    until: float


class Change(Struct, frozen=True, eq=False):
    """One design after another gap; lengths in, forces lb.

    lengths: of a piece, before and after; `pieces`: outriggers along the wall, and `bought`: stock
    for them and their blocks, before and after, None without [layout] or where no stock is long
    enough; `flashing`: lengths of it, None likewise; `girth`: what it gains; `cover`: roof
    insulation above the outriggers, None where it is not given, negative where they stand out of
    it; `pulls`: on one clip of each place, before and after, None where it has no clips; `heat`:
    R of the band with the wood in it, before and after.
    """

    before: Design
    after: Design
    lengths: tuple[float, float]
    pieces: tuple[int | None, int | None]
    bought: tuple[Packing | None, Packing | None]
    flashing: int | None
    girth: float
    cover: float | None
    yields: list[Yield]
    stock_stated: bool
    pulls: dict[str, tuple[float | None, float | None]]
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
    stated = [] if layout is None else layout.stock
    plan, gap = after.shape.plan, case.gap.width
    yields = []
    for board in stated or [float(inches(feet)) for feet in STOCK_FT]:
        was, now = (pieces_per_board(one, board, kerf, squaring) for one in lengths)
        if now or was:
            room = longest_piece(max(now, 1), board, kerf, squaring) - lengths[1]
            yields.append(Yield(board, was, now, gap + room * plan))
    one, other = most_pulls(before), most_pulls(after)
    over = case.gap.roof_insulation
    return Change(
        before=before,
        after=after,
        lengths=lengths,
        pieces=(_pieces(before), _pieces(after)),
        bought=(_bought(before), _bought(after)),
        flashing=None if layout is None else flashing_lengths(layout.run),
        girth=(gap - before.case.gap.width) / plan,
        cover=None if over is None else over - after.member.d,
        yields=yields,
        stock_stated=bool(stated),
        pulls={
            place: (one.get(place), other.get(place)) for place in dict.fromkeys((*one, *other))
        },
        heat=(heat(before), heat(after)),
    )


def _pieces(result: Design) -> int | None:
    """Outriggers along the wall, all plies of them."""
    if result.case.layout is None:
        return None
    return len(row_of(result.case).pieces) * result.case.outrigger.plies


def _bought(result: Design) -> Packing | None:
    case = result.case
    if case.layout is None:
        return None
    try:
        return packed(case, cuts(case, row_of(case).pieces, result.shape))
    except InputError:
        return None  # no stock length holds the piece


def of(found: GapStudy) -> Change | None:
    """The change that was asked: from the file's gap to the command's; where the command asks for
    none, from the stated gap to the widest that can be said to work, None where there is none."""
    if found.before is not None:
        return change(_at(found, found.before), found.asked)
    if found.stops is None:
        return None
    widest = found.stops if found.more else math.floor(found.stops / SIXTEENTH) * SIXTEENTH
    return change(found.asked, _at(found, widest))


def _at(found: GapStudy, width: float) -> Design:
    """The design at one gap."""
    fields = fields_of(found.case, found.before, found.cut)
    return design(at_gap(found.case, fields, width))


def heat(result: Design) -> Step:
    """R of the band in the gap with the outriggers in it; an estimate."""
    width = result.case.gap.width / result.shape.plan
    G = result.wood.row.values["G"].value
    return band.resistance(width, result.member.b, result.case.outrigger.spacing, G)


def _number(column: object) -> float:
    return float(np.ravel(np.asarray(column))[0])
