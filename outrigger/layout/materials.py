"""What to buy and cut for a layout: outriggers, blocks, stock, clips, fasteners, sealing, flashing.

Lengths in. Pieces that reach over a bearing are rounded up to a sixteenth, what must fit between
two others down.
"""

import math
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from outrigger.actions.geometry import Geometry
from outrigger.actions.places import BACK, EDGE
from outrigger.base.units import inches
from outrigger.cases.batch import on_a_pair, on_one_face
from outrigger.cases.below import WallTie
from outrigger.cases.hold_down import BLOCKING, HoldDown, through
from outrigger.cases.model import Case
from outrigger.layout.cutting import Packing, pack
from outrigger.marks.row import Piece, exact

STOCK_FT = (8, 10, 12, 14, 16)  # taken when none is given; common practice, no source
SPARE = Fraction(11, 10)  # fasteners to buy for each that is driven; common practice, no source
FLASHING_FT, LAP_IN, TURN_IN = 10, 4.0, 4.0  # common practice, no source
_NOISE = 1e-6  # of a sixteenth, from lengths that are sums of decimals


class Cut(Struct, frozen=True):
    """Pieces of one length: what they are, the length, how many."""

    what: str
    length: float
    count: int


class Item(Struct, frozen=True):
    """A line of the material list: how many, of what, and how the number came about."""

    count: int
    what: str
    how: str = ""


def piece_length(shape: Geometry) -> float:
    """Length of one outrigger: behind the back, back span, arm, tail; up to a sixteenth."""
    return math.ceil(float(shape.length[0, 0]) * 16 - _NOISE) / 16


def cuts(case: Case, row: Sequence[Piece], shape: Geometry) -> list[Cut]:
    """Outriggers, ply by ply, and the blocks between them at each blocked place.

    No block is cut across an opening.
    """
    found = [Cut("outrigger", piece_length(shape), len(row) * case.outrigger.plies)]
    layout = case.layout
    openings = [] if layout is None else layout.openings
    places = len(case.outrigger.blocking or [])
    blocks: Counter[float] = Counter()
    for a, b in pairwise(row):
        across = any(exact(o.start) < b.near and a.far < exact(o.end) for o in openings)
        clear = math.floor((b.near - a.far) * 16) / 16
        if clear > 0 and not across:
            blocks[clear] += places
    return found + [Cut("block", x, n) for x, n in sorted(blocks.items(), reverse=True) if n]


def packed(case: Case, pieces: Sequence[Cut]) -> Packing:
    """The stock that the pieces are cut from.

    Raises:
        InputError: a piece that no stock length holds.
    """
    layout = case.layout
    assert layout is not None
    stock = layout.stock or [float(inches(feet)) for feet in STOCK_FT]
    wanted: Counter[float] = Counter()
    for one in pieces:
        wanted[one.length] += one.count
    return pack(
        list(wanted.items()), stock, kerf=float(layout.kerf), squaring=float(layout.squaring)
    )


def materials(case: Case, row: Sequence[Piece], pieces: Sequence[Cut]) -> list[Item]:
    """Clips and fasteners by place, penetrations to seal, flashing; lumber is in the packing."""
    found: list[Item] = []
    for hold in case.hold_down:
        found += _of_place(hold, row)
    if case.wall_tie is not None:
        found.append(_ties(case.wall_tie, row))
    blocks = sum(one.count for one in pieces if one.what == "block")
    fastening = case.outrigger.blocking_fastening
    if fastening is not None and blocks:
        driven = blocks * 2 * fastening.count
        how = f"{fastening.count} each end of {blocks} blocks, and a tenth more"
        found.append(Item(spared(driven), f"{fastening.fastener}, blocks", how))
    found += _into_deck(case, pieces)
    found.append(Item(len(row), "penetrations to seal", "each outrigger through the air barrier"))
    found.append(_flashing(case))
    return found


def _into_deck(case: Case, pieces: Sequence[Cut]) -> list[Item]:
    """Fasteners up through the sheathing into the blocks at house wall and back, as many in a short
    block as in one of the whole spacing; and the blocks outside the last outriggers there."""
    stated, blocks = case.outrigger.blocking_to_deck, [p for p in pieces if p.what == "block"]
    if stated is None or not blocks:
        return []
    places = case.outrigger.blocking or []
    on_deck = len([one for one in places if one in (EDGE, BACK)])
    each = math.floor(max(one.length for one in blocks) / stated.spacing + _NOISE)
    outside = 2 * on_deck
    count = sum(one.count for one in blocks) * on_deck // len(places) + outside
    how = f"{each} in each of {count} blocks, up through the sheathing, and a tenth more"
    where = "at house wall and back, one outside the last outrigger at each end of the row"
    return [
        Item(outside, "more blocks, outside the row", where),
        Item(spared(count * each), f"{stated.fastener}, blocks to the deck", how),
    ]


def spared(driven: int) -> int:
    """Fasteners to buy for those that are driven: a tenth more, rounded up."""
    return math.ceil(driven * SPARE)


def _of_place(hold: HoldDown, row: Sequence[Piece]) -> list[Item]:
    at = hold.at if isinstance(hold.at, str) else f"{hold.at:g} in from the edge"
    members, paired = len(row), sum(piece.pair for piece in row)
    on_piece = on_a_pair(hold)
    clips = (members - paired) * hold.count + paired * on_piece
    each = "outrigger" if through(hold) else hold.kind
    how = f"{hold.count} on each outrigger"
    if paired and on_piece != hold.count:
        how += f", {on_piece} on the outer face of each piece of a pair"
    how += f", {hold.steel} steel" if hold.steel and not through(hold) else ""
    found = [Item(clips, f"{hold.kind}s, {at}", how)]
    legs = (
        (hold.side_fastener, hold.side_fasteners, "into the outrigger"),
        (hold.deck_fastener, hold.deck_fasteners, "into the house roof"),
    )
    for fastener, count, into in legs:
        if fastener and count:
            how = f"{count} in each {each}, {into}, and a tenth more"
            found.append(Item(spared(clips * count), f"{fastener}, {at}", how))
    if through(hold):
        found[0] = Item(clips, f"screws through the outrigger, {at}", found[0].how)
        found = found[1:] or found
    elif not hold.side_fastener and not hold.deck_fastener:
        how = f"{found[0].how}; fasteners as its listing says"
        found[0] = Item(clips, f"{hold.kind}s, {at}", how)
    if hold.into == BLOCKING:
        how = "right under every foot, before the clips; size and nails by the engineer"
        found.append(Item(members, f"blocks or pairs of them between the house rafters, {at}", how))
    return found


def _ties(tie: WallTie, row: Sequence[Piece]) -> Item:
    """What ties the garage plate to the outriggers: fasteners, or listed ties as they fit."""
    paired = sum(piece.pair for piece in row)
    how = f"{tie.count} on each outrigger"
    if tie.fastener:
        how += ", down through the plate, and a tenth more"
        return Item(spared(len(row) * tie.count), f"{tie.fastener}, garage plate", how)
    on_piece = on_one_face(tie.count)
    if paired and on_piece != tie.count:
        how += f", {on_piece} on the outer face of each piece of a pair"
    count = (len(row) - paired) * tie.count + paired * on_piece
    return Item(count, "ties, garage plate", f"{how}; fasteners as its listing says")


def flashing_lengths(run: float) -> int:
    """Lengths of flashing along a run, in, with their laps."""
    return max(math.ceil((run - LAP_IN) / (float(inches(FLASHING_FT)) - LAP_IN)), 1)


def _flashing(case: Case) -> Item:
    """Flashing over the gap: girth, lengths with their laps. Common practice, no source."""
    layout = case.layout
    assert layout is not None
    count = flashing_lengths(float(layout.run))
    girth = float(case.gap.width) + 2 * TURN_IN
    how = f"girth {girth:g} in: the gap and {TURN_IN:g} in each side; {LAP_IN:g} in laps"
    return Item(count, f"flashing over the gap, {FLASHING_FT} ft", how)
