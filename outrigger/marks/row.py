"""Marks of a row of pieces along a run, from one datum, and what each carries. Plain numbers, in.

A mark is the near edge of its piece; the piece lies beyond it, away from the datum. Marks are exact
fractions: each is a multiple of the spacing, never a sum of rounded ones.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import Any, Literal, NamedTuple

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.base.errors import InputError
from outrigger.formula.numbers import Array

PLATE_IN = 1.5  # thickness of one garage plate, over which a load spreads
OFFSETS = 96  # alignments of a row of trusses that are tried; between two a share hardly differs
_GAUSS = 1 / 3**0.5  # two points, exact for the cubics of a continuous plate


class Piece(Struct, frozen=True):
    """One outrigger of the row: near edge and thickness, in; whether it is one of a pair."""

    near: Fraction
    thickness: Fraction
    pair: bool = False

    @property
    def far(self) -> Fraction:
        """Its far edge."""
        return self.near + self.thickness

    @property
    def centre(self) -> Fraction:
        """Its centre."""
        return self.near + self.thickness / 2


def exact(inches: Any) -> Fraction:
    """A length as written: 19.2 is 96/5."""
    return Fraction(str(float(inches)))


def pieces(
    *,
    run: float,
    spacing: float,
    thickness: float,
    start: Literal["half space", "flush"] = "half space",
    first_mark: float | None = None,
    last: Literal["flush", "on spacing"] = "flush",
    openings: Sequence[tuple[float, float]] = (),
    double: bool = False,
    double_at: Sequence[int] = (),
) -> tuple[Piece, ...]:
    """The pieces of a run, nearest the datum first; lengths in.

    start "half space": a piece at the datum, the first space short by half a thickness, so that
    centres and panel edges fall on multiples of the spacing; "flush": every space full, edge to
    edge; first_mark: the first piece there. last "flush": a piece ends the run. A piece that
    reaches into an opening is left out; `double` puts another beside each neighbour, away from it;
    `double_at`: beside the marks of these numbers, counted from the datum without any pair.

    Raises:
        InputError: a run shorter than two pieces, or no two pieces left; no mark of such a number,
            or no room for a second piece there.
    """
    L, s, t = exact(run), exact(spacing), exact(thickness)
    if 2 * t > L:
        raise InputError(f"layout.run: {run:g} in is too short for two pieces of {thickness:g} in.")
    found = [Piece(near, t) for near in _regular(L, s, t, start, first_mark)]
    if last == "flush":
        end = Piece(L - t, t)
        found = [*(p for p in found if p.far <= end.near), end]
    for begin, close in openings:
        found = [p for p in found if p.near >= exact(close) or p.far <= exact(begin)]
    if double or double_at:
        found = _doubled(found, openings if double else (), double_at, L)
    if len(found) < 2:
        raise InputError("layout: fewer than two marks are left in the run: nothing to lay out.")
    return tuple(found)


def _regular(
    L: Fraction, s: Fraction, t: Fraction, start: str, first_mark: float | None
) -> list[Fraction]:
    """Near edges by the spacing, as far as a whole piece fits."""
    if first_mark is not None:
        first, short = exact(first_mark), Fraction(0)
    else:
        first, short = Fraction(0), t / 2 if start == "half space" else Fraction(0)
    count = int((L - first) / s) + 2 if first <= L else 0
    edges = [first + k * s - (short if k else 0) for k in range(count)]
    return [edge for edge in edges if edge + t <= L]


def _doubled(
    row: list[Piece],
    openings: Sequence[tuple[float, float]],
    numbers: Sequence[int],
    L: Fraction,
) -> list[Piece]:
    """The row with the neighbours of each opening doubled, where there is room, and the marks of
    some numbers."""
    found = dict.fromkeys(row)

    def double(piece: Piece, sign: int) -> bool:
        """Put another beside it, on one side of it; whether there is room."""
        more = replace(piece, near=piece.near + sign * piece.thickness, pair=True)
        room = more.near >= 0 and more.far <= L
        clear = all(more.far <= p.near or p.far <= more.near for p in found)
        if room and clear:
            found.pop(piece, None)
            found.update({replace(piece, pair=True): None, more: None})
        return room and clear

    for begin, close in openings:
        before = [p for p in row if p.far <= exact(begin)]
        after = [p for p in row if p.near >= exact(close)]
        for beside, sign in ((before[-1:], -1), (after[:1], 1)):
            for piece in beside:
                if piece in found:  # between two openings it is one of a pair already
                    double(piece, sign)
    for number in numbers:
        if not 1 <= number <= len(row):
            raise InputError(f"layout.double_at: no mark {number}; the marks are 1 to {len(row)}.")
        piece = row[number - 1]
        if piece in found and not double(piece, 1) and not double(piece, -1):
            raise InputError(f"layout.double_at: no room for a second piece at mark {number}.")
    return sorted(found, key=lambda p: p.near)


class Supports(Struct, frozen=True, eq=False):
    """Where the row holds the plate: centres in, and for each piece its support and its part."""

    at: Array
    of: Any
    part: Array

    @property
    def pieces(self) -> Array:
        """How many pieces the support of each is."""
        return np.asarray(1 / self.part)

    @property
    def nearest(self) -> Array:
        """From each support to the next of them, whichever is nearer."""
        apart = np.diff(self.at, prepend=-np.inf, append=np.inf)
        return np.asarray(np.minimum(apart[:-1], apart[1:]))

    def each(self, whole: Array) -> Array:
        """What each piece takes of what its support carries; a pair shares alike."""
        return np.asarray((whole[self.of].T * self.part).T)


def supports(row: Sequence[Piece]) -> Supports:
    """The supports of a row: a piece, or the middle of a pair side by side."""
    at: list[list[Piece]] = []
    for piece in row:
        beside = at and at[-1][-1].pair and piece.pair and at[-1][-1].far == piece.near
        if beside and len(at[-1]) == 1:
            at[-1].append(piece)
        else:
            at.append([piece])
    centres = np.array([float(sum(p.centre for p in g) / len(g)) for g in at])
    of = np.array([i for i, group in enumerate(at) for _ in group], dtype=np.intp)
    part = np.array([1 / len(at[i]) for i in of])
    return Supports(centres, of, part)


def outward(row: Sequence[Piece]) -> Array:
    """The free side of each piece of a pair: -1 toward the datum, 1 away from it; 0 of others."""
    of = supports(row).of
    before = np.append(False, of[1:] == of[:-1])
    after = np.append(of[1:] == of[:-1], False)
    return np.asarray(before.astype(float) - after.astype(float))


class Taken(NamedTuple):
    """A bay that openings take: the mark before it, 0 for the start of the run; its length, in;
    which of the openings."""

    before: int
    apart: float
    openings: tuple[int, ...]


class Bays(Struct, frozen=True, eq=False):
    """Beside each piece, in: its longest bay that no opening takes, and that one does, 0 for none;
    the bays that an opening takes."""

    clear: Array
    widest: Array
    taken: tuple[Taken, ...]


def bays(
    row: Sequence[Piece], *, run: float, spacing: float, openings: Sequence[tuple[float, float]]
) -> Bays:
    """The bays of a row, from middle to middle of its pieces, and to the ends of the run where an
    opening reaches them. An opening takes a bay where it leaves more than a spacing free."""
    L, s = exact(run), exact(spacing)
    ends = [Fraction(0), *(p.centre for p in row), L]
    faces = [(Fraction(0), Fraction(0)), *((p.near, p.far) for p in row), (L, L)]
    clear, widest = np.zeros(len(row) + 2), np.zeros(len(row) + 2)
    taken = []
    for i in range(len(row) + 1):
        at_end = i in (0, len(row))
        apart = float(ends[i + 1] - ends[i])
        near, far = faces[i][1], faces[i + 1][0]
        crossing = [k for k, (a, b) in enumerate(openings) if exact(a) < far and near < exact(b)]
        free = ends[i + 1] - ends[i] > (s / 2 + row[0].thickness if at_end else s)
        opened = bool(crossing) and free
        if opened:
            taken.append(Taken(i, apart, tuple(crossing)))
        for beside in (i, i + 1):
            if opened:
                widest[beside] = max(widest[beside], apart)
            elif not at_end:
                clear[beside] = max(clear[beside], apart)
    return Bays(clear[1:-1], widest[1:-1], tuple(taken))


def past_the_ends(row: Sequence[Piece], *, run: float, taken: Sequence[Taken]) -> Array:
    """From the middle of the end pieces to the ends of the run, in; 0 where the run ends within a
    plate's thickness of the piece, where an opening takes that end, and of the other pieces."""
    found, L, opened = np.zeros(len(row)), exact(run), {one.before for one in taken}
    for i, at_end, clear, reach in (
        (0, 0, row[0].near, row[0].centre),
        (-1, len(row), L - row[-1].far, L - row[-1].centre),
    ):
        if clear > PLATE_IN and at_end not in opened:
            found[i] = float(reach)
    return found


def tributaries(at: Array, run: float) -> Array:
    """Length of run each support carries by halves of its bays, the ends by the end ones, in.

    They sum to the run.
    """
    middles = (at[1:] + at[:-1]) / 2
    return np.diff(np.concatenate(([0.0], middles, [run])))


def simple_parts(at: Array, x: Array) -> Array:
    """Part of a force at x that each support takes when the plate breaks over each, (n, places).

    Beyond the end ones, all of it goes to the end one. Source: statics, the lever rule.
    """
    return np.stack([np.interp(x, at, row) for row in np.eye(len(at))])


def continuous_parts(at: Array, x: Array) -> Array:
    """Part of a force at x that each support takes under one continuous plate, (n, places).

    The influence line of a reaction is the plate bent by moving that support by one: the natural
    cubic spline through 1 there and 0 at the others, straight beyond the ends. Rigid supports, no
    shear deformation. Source: statics, Mueller-Breslau.
    """
    n = len(at)
    value, bend = np.eye(n), np.zeros((n, n))  # bend: second derivatives at the supports
    h = np.diff(at)
    if n > 2:
        inside = np.arange(n - 2)
        A = np.zeros((n - 2, n - 2))
        A[inside, inside] = (h[:-1] + h[1:]) / 3
        A[inside[:-1], inside[1:]] = A[inside[1:], inside[:-1]] = h[1:-1] / 6
        kink = np.diff(np.diff(value, axis=0) / h[:, None], axis=0)
        bend[1:-1] = np.linalg.solve(A, kink)
    i = np.clip(np.searchsorted(at, x, side="right") - 1, 0, n - 2)
    b = (x - at[i]) / h[i]
    a = 1 - b
    inside_a, inside_b = np.clip(a, 0, 1)[:, None], np.clip(b, 0, 1)[:, None]
    curve = (inside_a**3 - inside_a) * bend[i] + (inside_b**3 - inside_b) * bend[i + 1]
    out = np.maximum(-b, 0) + np.maximum(b - 1, 0)  # beyond the ends the spline runs straight
    slope = np.where((b < 0)[:, None], bend[i + 1], bend[i])  # the end supports do not bend it
    inner = a[:, None] * value[i] + b[:, None] * value[i + 1]
    scale = (h[i] ** 2 / 6)[:, None]
    return np.asarray((inner + scale * (curve + out[:, None] * slope)).T)


def even_shares(at: Array, run: float) -> Array:
    """Length of an even load on the plate that each support takes, in, (2, n): of a plate that
    breaks over each, and of a continuous one."""
    ends = np.concatenate(([0.0], at, [run]))
    middle, half = (ends[1:] + ends[:-1]) / 2, np.diff(ends) / 2
    x = np.concatenate([middle - half * _GAUSS, middle + half * _GAUSS])
    whole = continuous_parts(at, x) @ np.concatenate([half, half])
    return np.stack([tributaries(at, run), whole])


def trusses(run: float, spacing: float, offset: float) -> tuple[Array, Array]:
    """Places of the roof members and the length of roof each carries, in: by the spacing from the
    offset, and one at each end of the run; each carries half its bays, so they sum to the run."""
    first = offset % spacing
    places = first + spacing * np.arange(int(run / spacing) + 1)
    inside = places[(places > 0) & (places < run)]
    at = np.concatenate(([0.0], inside, [run]))
    return at, tributaries(at, run)


def truss_shares(at: Array, run: float, spacing: float, offset: float | None) -> Array:
    """Length of roof that each support takes from a row of trusses, in, (2, 2, n): of a plate that
    breaks over each, and of a continuous one, the most and the least; these differ where the offset
    is None, any alignment."""
    if offset is None:
        tried = np.concatenate([spacing * np.arange(OFFSETS) / OFFSETS, at % spacing])
    else:
        tried = np.array([offset])
    rows = [trusses(run, spacing, float(one)) for one in tried]
    x = np.concatenate([places for places, _ in rows])  # all at once: the plate is solved once
    stops = np.cumsum([len(places) for places, _ in rows])
    found = []
    for parts in (simple_parts, continuous_parts):
        table = np.split(parts(at, x), stops[:-1], axis=1)
        each = [np.array(own) @ carried for own, (_, carried) in zip(table, rows, strict=True)]
        found.append([np.max(each, axis=0), np.min(each, axis=0)])
    return np.array(found)


def point_parts(at: Array, x: Array) -> Array:
    """Part of each force at x that each support takes under each of the plates, (2, n, forces)."""
    return np.stack([simple_parts(at, x), continuous_parts(at, x)])
