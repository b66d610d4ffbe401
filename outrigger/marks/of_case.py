"""From a case with a layout to its marks: what each carries, and which of its clips land.

Lengths in, from the datum, along the sheathing; what the garage wall hands down is in plan.
"""

from collections.abc import Sequence
from functools import cached_property, lru_cache
from typing import Any, Literal, NamedTuple

import numpy as np
from msgspec import Struct
from msgspec.structs import astuple
from numpy.typing import NDArray

from outrigger.actions.geometry import tilt_of, truss_spacing
from outrigger.base.errors import InputError
from outrigger.cases.batch import Batch, Mark, UnderPlate
from outrigger.cases.hold_down import on_rafters
from outrigger.cases.model import Case
from outrigger.cases.paths import with_values
from outrigger.formula.numbers import Array
from outrigger.marks import row as marks
from outrigger.marks.feet import off_crossing, off_parallel, on_edge_wood, thickness
from outrigger.marks.framing import framing_centres, lands
from outrigger.marks.row import Piece, Taken

MOVES_MARKS = ("outrigger.spacing", "layout.run", "layout.first_mark")
ROUNDED = 9  # decimals within which two marks carry the same


class Wanted(NamedTuple):
    """What the marks of one case follow from."""

    run: float
    spacing: float
    thickness: float
    start: Literal["half space", "flush"]
    first_mark: float | None
    last: Literal["flush", "on spacing"]
    openings: tuple[tuple[float, float], ...]
    double: bool
    double_at: tuple[int, ...]
    plan: float  # plan length of an inch of run
    trusses: float | Literal["uniform"]
    offset: float | None
    points: tuple[float, ...]
    by_others: tuple[bool, ...]  # of each opening, whether others design its header


class RowOfMarks(Struct, frozen=True, eq=False, dict=True):
    """The marks of one case, nearest the datum first; arrays over them, points (marks, loads)."""

    wanted: Wanted
    pieces: tuple[Piece, ...]
    tributary: Array
    carried: Array
    share: Array
    points: Array
    plates: tuple[UnderPlate, ...]  # arrays over the marks
    side_by_side: Array
    bay: Array
    widest: Array
    near: Array
    past: Array
    taken: tuple[Taken, ...]

    @cached_property
    def undesigned(self) -> tuple[Taken, ...]:
        """The bays that an opening takes whose header nobody is said to design."""
        by_others = self.wanted.by_others
        return tuple(one for one in self.taken if not all(by_others[i] for i in one.openings))

    @cached_property
    def opening(self) -> Array:
        """The longest of those, of each mark alike; 0: none."""
        return np.full(len(self.pieces), max((one.apart for one in self.undesigned), default=0.0))

    @cached_property
    def alike(self) -> tuple[Any, Any]:
        """Marks that stand for all: one of each that carries the same, and of each mark which."""
        table = np.column_stack([
            self.tributary, self.carried, self.share, self.points,
            *(of for plate in self.plates for of in astuple(plate)),
            self.side_by_side, self.bay, self.widest, self.near, self.past,
        ])  # fmt: skip
        _, first, which = np.unique(
            table.round(ROUNDED), axis=0, return_index=True, return_inverse=True
        )
        order = np.argsort(first)  # the first mark of each kind, nearest the datum first
        return first[order], np.argsort(order)[which.reshape(-1)]


def row_of(case: Case) -> RowOfMarks:
    """The marks of a case.

    Raises:
        InputError: no layout is given, or its run holds fewer than two marks.
    """
    return _row(wanted_of(case))


def wanted_of(case: Case) -> Wanted:
    """What the marks of a case follow from.

    Raises:
        InputError: no layout is given.
    """
    layout, roof = case.layout, case.garage_roof
    if layout is None:
        raise InputError('layout.run: is not given. Add [layout] with run = "24 ft", say.')

    tilt = tilt_of(case)
    return Wanted(
        layout.run,
        case.outrigger.spacing,
        thickness(case),
        layout.start,
        layout.first_mark,
        layout.last,
        tuple((o.start, o.end) for o in layout.openings),
        layout.double_at_openings,
        tuple(sorted(layout.double_at)),
        tilt.cos if tilt.across else 1.0,
        truss_spacing(case),
        layout.member_offset,
        tuple(point.at for point in roof.point),
        tuple(o.header is not None for o in layout.openings),
    )


def pieces_of(wanted: Wanted) -> tuple[Piece, ...]:
    """The pieces of a row.

    Raises:
        InputError: the run holds fewer than two.
    """
    return marks.pieces(
        run=wanted.run,
        spacing=wanted.spacing,
        thickness=wanted.thickness,
        start=wanted.start,
        first_mark=wanted.first_mark,
        last=wanted.last,
        openings=wanted.openings,
        double=wanted.double,
        double_at=wanted.double_at,
    )


def bays_of(wanted: Wanted, row: Sequence[Piece]) -> marks.Bays:
    """The bays beside the pieces of a row, and those that its openings take."""
    return marks.bays(row, run=wanted.run, spacing=wanted.spacing, openings=wanted.openings)


@lru_cache(maxsize=512)
def _row(wanted: Wanted) -> RowOfMarks:
    row = pieces_of(wanted)
    held, plan, beside = marks.supports(row), wanted.plan, bays_of(wanted, row)
    at, run = held.at * plan, wanted.run * plan
    even = marks.even_shares(at, run)
    shares = np.stack([even, even], axis=1)  # of each model the most and the least
    if wanted.trusses != "uniform":
        shares = marks.truss_shares(at, run, wanted.trusses, wanted.offset)
    points = marks.point_parts(at, np.array(wanted.points) * plan)
    return RowOfMarks(
        wanted=wanted,
        pieces=row,
        tributary=held.each(marks.tributaries(held.at, wanted.run)),
        carried=held.each(even.max(axis=0)),
        share=held.each(shares.max(axis=(0, 1))),
        points=held.each(points.max(axis=0)),
        plates=tuple(
            UnderPlate(*(held.each(of).reshape(len(row), -1) for of in (wall, *roof, forces)))
            for wall, roof, forces in zip(even, shares, points, strict=True)
        ),
        side_by_side=held.pieces,
        bay=beside.clear,
        widest=beside.widest,
        near=held.nearest[held.of],
        past=marks.past_the_ends(row, run=wanted.run, taken=beside.taken),
        taken=beside.taken,
    )


def _rows(batch: Batch) -> list[RowOfMarks]:
    """The marks of every case; cases of the same run, spacing and first mark have the same."""
    moved = [path for path in MOVES_MARKS if path in batch.columns]
    if not moved:
        return [row_of(batch.case)] * batch.count
    table = np.hstack([batch.columns[path] for path in moved])
    each, which = np.unique(table, axis=0, return_inverse=True)
    found = [
        row_of(with_values(batch.case, dict(zip(moved, one, strict=True)))) for one in each.tolist()
    ]
    return [found[i] for i in which.ravel()]


def _plates(row: RowOfMarks, first: Any) -> list[tuple[Array, ...]]:
    """What some marks of a row carry under each model of the plate."""
    return [astuple(plate.taken(first)) for plate in row.plates]


def at_marks(batch: Batch) -> tuple[Batch, NDArray[np.intp]]:
    """One case for each mark that carries otherwise than the marks before it, of every case; and of
    each, which of the cases it is of.

    Raises:
        InputError: see `row_of`.
    """
    rows = _rows(batch)
    firsts = [row.alike[0] for row in rows]
    owner = np.repeat(np.arange(len(rows)), [len(first) for first in firsts])

    def column(name: str) -> Array:
        values = [getattr(row, name)[first] for row, first in zip(rows, firsts, strict=True)]
        return np.asarray(np.concatenate(values).reshape(len(owner), -1))

    mark = Mark(
        number=np.concatenate(firsts).reshape(-1, 1) + 1,
        tributary=column("tributary"),
        carried=column("carried"),
        share=column("share"),
        points=column("points"),
        pieces=column("side_by_side"),
        bay=column("bay"),
        widest=column("widest"),
        opening=column("opening"),
        near=column("near"),
        past=column("past"),
        plates=tuple(
            UnderPlate(*map(np.concatenate, zip(*each, strict=True)))
            for each in zip(*map(_plates, rows, firsts), strict=True)
        ),
    )
    return batch.taken(owner).with_mark(mark), owner


def every_piece(case: Case) -> Batch:
    """One case for each piece of the row, carrying its half bays: together they carry the run
    once, where each of `at_marks` carries the most that may come to it.

    Raises:
        InputError: see `row_of`.
    """
    row = row_of(case)
    wanted, held = row.wanted, marks.supports(row.pieces)
    bays = row.tributary.reshape(-1, 1)
    at, points = held.at * wanted.plan, np.array(wanted.points) * wanted.plan
    mark = Mark(
        number=np.arange(1, len(bays) + 1).reshape(-1, 1),
        tributary=bays,
        carried=bays * wanted.plan,
        share=bays * wanted.plan,
        points=held.each(marks.simple_parts(at, points)).reshape(len(bays), -1),
        pieces=row.side_by_side.reshape(-1, 1),
        bay=row.bay.reshape(-1, 1),
        widest=row.widest.reshape(-1, 1),
        opening=row.opening.reshape(-1, 1),
        near=row.near.reshape(-1, 1),
        past=row.past.reshape(-1, 1),
    )
    return Batch(case).taken(np.zeros(len(bays), dtype=np.intp)).with_mark(mark)


def spacings_laid_out(case: Case, spacings: Array) -> Array:
    """Of spacings, in, those at which the layout of a case stands: every one without a layout.

    Pairs at marks of stated numbers belong to the stated spacing: at another the marks of these
    numbers stand elsewhere along the wall, beside something else, or are not there.
    """
    if case.layout is None:
        return spacings
    if case.layout.double_at:
        return np.asarray(spacings[spacings == case.outrigger.spacing])
    wanted = wanted_of(case)
    held = [_two_marks(wanted._replace(spacing=float(one))) for one in spacings]
    return np.asarray(spacings[np.array(held, dtype=bool)])


def _two_marks(wanted: Wanted) -> bool:
    """Whether the run holds two marks at all."""
    try:
        return bool(pieces_of(wanted))
    except InputError:
        return False


def has_pairs(case: Case) -> bool:
    """Whether some marks of a layout are a pair."""
    return case.layout is not None and any(one.pair for one in pieces_of(wanted_of(case)))


def clip_offsets(case: Case, row: Sequence[Piece], run: float) -> dict[str, Array]:
    """For each place of clips into framing, how far each mark's fasteners lie off it, in; positive
    beyond a framing centre. Empty where the framing is not given.

    Over a wall, blocking or a crossing member the clips of the edge find wood at every mark.
    """
    house = case.house_roof
    crossing = house.framing_parallel is False
    back_span = np.array([[case.outrigger.back_span]])
    centres = framing_centres(
        spacing=house.framing_spacing, offset=house.framing_offset, at=house.framing_at, reach=run
    )
    if centres is None:
        return {}
    found: dict[str, Array] = {}
    middles = np.array([float(piece.centre) for piece in row])
    for hold in case.hold_down:
        if not on_rafters(hold):
            continue
        across = off_crossing(case, hold, back_span) if crossing else None
        if across is not None:
            off = np.full(len(middles), float(across[0, 0]))
        elif crossing or on_edge_wood(case, hold):  # or by the file's word over its own rafter
            off = np.zeros(len(middles))
        else:
            off = off_parallel(case, hold, middles, centres, marks.outward(row))
        found[hold.name] = off
    return found


def clips_off(case: Case) -> dict[str, float]:
    """Without a layout: the places that miss the rafters that cross below, and by how much."""
    back_span = np.array([[case.outrigger.back_span]])
    found = {hold.name: off_crossing(case, hold, back_span) for hold in case.hold_down}
    return {
        at: float(off[0, 0])
        for at, off in found.items()
        if off is not None and not lands(off)[0, 0]
    }


def missing(case: Case) -> list[int]:
    """Numbers of the marks some of whose clips miss the framing."""
    found: set[int] = set()
    wanted = wanted_of(case)
    for off in clip_offsets(case, pieces_of(wanted), wanted.run).values():
        found |= {int(n) + 1 for n in np.flatnonzero(~lands(off))}
    return sorted(found)
