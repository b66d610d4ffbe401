"""The layout of a run: every mark with its loads and ratio, cut list, materials, better placings.

`layout(case) -> LaidOut`: one batch of `design` over the marks, and the design of the worst.
"""

from collections.abc import Iterator, Sequence
from functools import cached_property

import numpy as np
from msgspec import Struct

from outrigger.actions.geometry import TRADE_SPACINGS_IN
from outrigger.actions.places import BACK, WALL_LINE
from outrigger.base.units import SIXTEENTH
from outrigger.cases.model import Case
from outrigger.cases.paths import with_numbers
from outrigger.checks.plate import HEADER
from outrigger.formula.check import Status
from outrigger.formula.numbers import Array
from outrigger.layout.cutting import Packing
from outrigger.layout.materials import Cut, Item, cuts, materials, packed
from outrigger.marks.feet import on_bare_panel
from outrigger.marks.framing import framing_centres, lands
from outrigger.marks.of_case import clip_offsets, pieces_of, row_of, wanted_of
from outrigger.marks.row import Piece
from outrigger.verdict.back_span import ShortBack, short_back
from outrigger.verdict.check_result import CheckResult, closest_of
from outrigger.verdict.design import Design, Designs, design

GRAVITY = ("L", "Lr", "S")
HOUSE_FRAMING = "face of the house framing"


class MarkLine(Struct, frozen=True, eq=False):
    """One mark: its piece, what it carries of the run, the wall and the roof (in), loads on its
    wall line (lb, unfactored), the check that governs it, how far its clips lie off the framing."""

    number: int
    piece: Piece
    tributary: float
    carried: float
    share: float
    loads: dict[str, float]
    governing: CheckResult
    status: Status
    off: dict[str, float]

    @property
    def misses(self) -> dict[str, float]:
        """The places whose clips miss, with how far they lie off the nearest framing centre."""
        return {at: off for at, off in self.off.items() if not lands(np.asarray(off))}


class Better(Struct, frozen=True):
    """Another value of one key and how many clips then miss; with a first mark, how far the row is
    shifted, in, away from the datum; with a back span its caution, where it is short."""

    key: str
    value: float
    misses: int
    shift: float = 0.0
    caution: ShortBack | None = None


class LaidOut(Struct, frozen=True, eq=False, dict=True):
    """A run laid out. `design` is that of the worst mark."""

    case: Case
    design: Design
    lines: tuple[MarkLine, ...]
    centres: Array | None  # of the house framing
    cuts: tuple[Cut, ...]
    packing: Packing
    items: tuple[Item, ...]

    @property
    def worst(self) -> int:
        """Number of the worst mark."""
        assert self.design.mark is not None
        return self.design.mark

    @property
    def crossing(self) -> bool:
        """Whether the house framing crosses under the outriggers."""
        return self.case.house_roof.framing_parallel is False

    @property
    def clips(self) -> int:
        """Places of clips into framing, over all marks."""
        return sum(len(line.off) for line in self.lines)

    @property
    def misses(self) -> int:
        """Of those the ones that miss."""
        return sum(len(line.misses) for line in self.lines)

    @property
    def fails(self) -> bool:
        """The wall fails: nothing of it is to be built."""
        return self.design.verdict == "fail"

    @property
    def failing(self) -> list[int]:
        """Numbers of the marks that fail."""
        return [line.number for line in self.lines if line.status == "fail"]

    @property
    def moving(self) -> str:
        """The load case that comes and goes with the most on a wall line."""
        loads = self.lines[self.worst - 1].loads
        return max(GRAVITY, key=lambda part: loads[part])

    @property
    def along(self) -> tuple[tuple[str, float], ...]:
        """Places along each piece, in from its outer end: where it is held and how it lies."""
        shape, gap = self.design.shape, self.case.gap
        end = float(shape.end[0, 0])
        past_framing = end - float(gap.edge_setback) - float(gap.edge_bearing) / 2
        held = [(name, end - float(x[0, 0])) for name, x in reversed(self.design.model.supports)]
        return (
            (WALL_LINE, float(shape.tail[0, 0])),
            (HOUSE_FRAMING, past_framing),
            *held,
        )

    @cached_property
    def better(self) -> tuple[Better, ...]:
        """What alone would land more clips: the first mark, a closer spacing, other places."""
        return tuple(_better(self)) if self.misses else ()


def layout(case: Case) -> LaidOut:
    """The layout of a case.

    Raises:
        InputError: no layout is given, fewer than two marks, no stock that holds a piece.
    """
    row = row_of(case)
    _, which = row.alike
    worst = design(case)
    found = Designs(worst.worked.over_marks)
    off = clip_offsets(case, row.pieces, row.wanted.run)
    beside = {mark for one in row.undesigned for mark in (one.before, one.before + 1)}
    lines = []
    for i, piece in enumerate(row.pieces):
        j = int(which[i])
        own = {at: float(values[i]) for at, values in off.items()}
        hit = all(lands(np.asarray(value)) for value in own.values())
        own_checks = [c for c in found.checks if c.link != HEADER or i + 1 in beside]
        states = {check.status(j) for check in own_checks}
        status: Status = (
            "fail" if "fail" in states else "pass" if states == {"pass"} and hit else "open"
        )
        lines.append(
            MarkLine(
                number=i + 1,
                piece=piece,
                tributary=float(row.tributary[i]),
                carried=float(row.carried[i]),
                share=float(row.share[i]),
                loads=_loads(found, j),
                governing=_governing(found, j),
                status=status,
                off=own,
            )
        )
    pieces = cuts(case, row.pieces, worst.shape)
    house = case.house_roof
    centres = framing_centres(
        spacing=house.framing_spacing,
        offset=house.framing_offset,
        at=house.framing_at,
        reach=case.outrigger.back_span if house.framing_parallel is False else row.wanted.run,
    )
    return LaidOut(
        case=case,
        design=worst,
        lines=tuple(lines),
        centres=centres,
        cuts=tuple(pieces),
        packing=packed(case, pieces),
        items=tuple(materials(case, row.pieces, pieces)),
    )


def _governing(found: Designs, j: int) -> CheckResult:
    """The check that decides a mark: of one that fails a check that does."""
    closest = found.closest(j)
    if closest.status == "fail":
        return closest
    failing = [row for row in found.rows(j) if row.status == "fail"]
    return closest_of(failing) if failing else closest


def _loads(found: Designs, j: int) -> dict[str, float]:
    """Loads on the wall line of one mark, lb; of the snow cases the largest."""

    def at(table: Array) -> float:
        values = np.asarray(table).reshape(-1)
        return float(values[j if len(values) > 1 else 0])

    on = found.worked.loads
    others = {part: at(P) for part, P in on.wall_line.items() if part not in on.snow_cases}
    return {**others, "S": at(on.snow)}


def _better(laid: LaidOut) -> Iterator[Better]:
    """Other values of single keys that land more clips than the file's."""
    case, house = laid.case, laid.case.house_roof
    if laid.crossing:
        x = dict(laid.design.model.supports)
        for at, off in laid.lines[0].misses.items():
            here = -float(x[at][0, 0])
            key = "outrigger.back_span" if at == BACK else f"hold_down at {at}"
            if here - off > 0:
                arm = float(laid.design.shape.arm[0, 0])
                short = short_back(here - off, arm) if at == BACK else None
                yield Better(key, here - off, laid.misses - len(laid.lines), caution=short)
        return
    missed = {at for line in laid.lines for at in line.misses}
    if all(on_bare_panel(case, hold) for hold in case.hold_down if hold.name in missed):
        return  # two feet and one rafter: no placing lands both
    firsts = {x: _missed(case, "layout.first_mark", x) for x in _first_marks(laid)}
    best = min(firsts, key=lambda x: (firsts[x], abs(_shift(laid, x))))
    if firsts[best] < laid.misses:
        yield Better("layout.first_mark", best, firsts[best], _shift(laid, best))
    tried = [*reversed(TRADE_SPACINGS_IN)]
    if house.framing_spacing is not None:
        tried += [house.framing_spacing / n for n in (1, 2, 3)]
    closer = {s: _missed(case, "outrigger.spacing", s) for s in tried if s < case.outrigger.spacing}
    widest = min(closer, key=lambda s: (closer[s], -s), default=0.0)
    if closer and closer[widest] < laid.misses:
        yield Better("outrigger.spacing", widest, closer[widest])


def _shift(laid: LaidOut, first_mark: float) -> float:
    """How far a first mark shifts the row, at most half a spacing either way, in."""
    wanted = wanted_of(laid.case)
    here = wanted.first_mark
    if here is None:
        here = 0.0 if wanted.start == "flush" else -wanted.thickness / 2
    half = wanted.spacing / 2
    return (first_mark - here + half) % wanted.spacing - half


def _first_marks(laid: LaidOut) -> list[float]:
    """First marks, within one spacing, that put some pieces on the centres of the framing, or in
    the middle between two of them; to a sixteenth."""
    assert laid.centres is not None
    spacing, half = laid.case.outrigger.spacing, float(laid.lines[0].piece.thickness) / 2
    on = np.unique(((laid.centres - half) % spacing).round(6))
    tried = np.concatenate([on, (on[1:] + on[:-1]) / 2])
    return sorted({round(float(x) / SIXTEENTH) * SIXTEENTH for x in tried})


def _missed(case: Case, key: str, value: float) -> int:
    """How many clips miss with another value of one key."""
    changed = with_numbers(case, {key: value})
    wanted = wanted_of(changed)
    off: Sequence[Array] = list(clip_offsets(changed, pieces_of(wanted), wanted.run).values())
    return int(sum(np.sum(~lands(one)) for one in off))
