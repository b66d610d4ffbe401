"""A card for one lumber and clip: the largest gap, or the least back span, over spacing, snow and
roof span.

Every cell is found by whole designs on a grid of lengths people measure; nothing between two cells
is interpolated. What is open in the case stays open.
"""

from collections.abc import Callable, Sequence
from functools import cached_property
from itertools import product
from typing import Literal

import numpy as np
from msgspec import Struct

from outrigger.actions.geometry import TRADE_SPACINGS_IN
from outrigger.base import units
from outrigger.base.errors import InputError
from outrigger.cases import one_snow
from outrigger.cases.model import Case
from outrigger.cases.paths import with_numbers
from outrigger.formula.check import Status
from outrigger.formula.numbers import Array, Bools
from outrigger.marks.of_case import spacings_laid_out
from outrigger.studies import search
from outrigger.studies.reserve import back_span_lines, least_back_span, named_places
from outrigger.studies.screen import Index, Marks, Screen, governing
from outrigger.verdict.back_span import ShortBack, short_backs
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, design
from outrigger.verdict.unknown import Unknown, more_open

Over = Literal["gap", "back span"]

SNOWS_PSF = (20.0, 30.0, 40.0, 50.0, 70.0)
SPANS_FT = (12.0, 16.0, 20.0, 24.0, 28.0, 32.0)
GAP = (1.0, 24.0, 0.25)  # from, to, step, in
BACK_SPAN_STEP_IN = 1.0
LOOK_IN = {"gap": 1.0, "back span": 6.0}  # first look; between two that agree nothing is asked


class Cell(Struct, frozen=True, eq=False):
    """One spacing (in), snow (psf) and roof span (ft): the lengths that work, in, or None.

    house_snow: on the house roof, psf, where it has a snow of its own; None: it has none.
    low to high work, all of them at the first look; `stops`: the check that decides just past the
    largest gap or just under the least back span, and in a blank cell at the length that comes
    closest. None: it works to the end of what was looked at. `caution`: where the back span is
    short beside the arm at the largest gap, or the least back span is. `open`: what is open at
    those lengths and not in the case as stated: then it is not known to work.
    """

    spacing: float
    snow: float
    house_snow: float | None
    span: float
    low: float | None
    high: float | None
    stops: CheckResult | None
    over: Over
    to_the_end: bool  # every smaller gap, or longer back span, of the grid works too
    caution: ShortBack | None = None
    open: tuple[str, ...] = ()

    @property
    def works(self) -> bool:
        """Some length works, and nothing more is open there than in the case as stated."""
        return self.low is not None and not self.open


class Card(Struct, frozen=True, eq=False, dict=True):
    """Cells in the order of spacings, snows, spans; `lengths`: the grid that was looked at, in."""

    asked: Design
    over: Over
    snow_key: str
    spacings: tuple[float, ...]
    snows: tuple[float, ...]
    spans: tuple[float, ...]
    lengths: Array
    cells: list[Cell]

    @property
    def works(self) -> bool:
        """Some cell is neither blank nor open."""
        return any(cell.works for cell in self.cells)

    @property
    def open(self) -> list[str]:
        """What is open in some cells alone, each once."""
        return list(dict.fromkeys(text for cell in self.cells for text in cell.open))

    @cached_property
    def unknown(self) -> Unknown:
        """What is open in it."""
        return Unknown(self.asked)

    @property
    def answer(self) -> Status:
        """Pass when some cell works; open: cannot say, for what is missing, or since every cell
        that is not blank is open."""
        if self.open and not self.works:
            return "open"
        return self.unknown.answer(self.works)


def card(
    case: Case,
    over: Over = "gap",
    *,
    spacings: Sequence[float] = TRADE_SPACINGS_IN,
    snows: Sequence[float] = SNOWS_PSF,
    spans: Sequence[float] = SPANS_FT,
    told: Callable[[int, int], None] | None = None,
) -> Card:
    """The card of a case; spacings in, snows psf, spans ft; `told` hears designs done, and of how
    many.

    The stated snow is swept at its own level: ground snow where the file gives it, else roof snow;
    a house roof's own snow in the same proportion.

    Raises:
        InputError: the roof's load does not follow from a span and a snow.
    """
    asked = design(case)
    snow_key = _snow_key(case)
    places = list(product(spacings, snows, spans))
    lengths = _lengths(case, over)
    finder = _Finder(asked, over, snow_key, places, lengths, told)
    return Card(
        asked=asked,
        over=over,
        snow_key=snow_key,
        spacings=tuple(spacings),
        snows=tuple(snows),
        spans=tuple(spans),
        lengths=lengths,
        cells=finder.cells(),
    )


def own_axes(case: Case) -> dict[str, tuple[float, ...]]:
    """The usual spacings, snows and spans, and the case's own among them; of spacings those along
    which its layout stands."""
    snow = case.snow.ground if case.snow.roof is None else case.snow.roof
    psf = [] if not snow else [round(units.psf(snow), 6)]
    span = [] if case.garage_roof.span is None else [units.feet(case.garage_roof.span)]
    apart = np.unique([*TRADE_SPACINGS_IN, case.outrigger.spacing])
    return {
        "spacings": tuple(spacings_laid_out(case, apart).tolist()),
        "snows": tuple(sorted({*SNOWS_PSF, *psf})),
        "spans": tuple(sorted({*SPANS_FT, *span})),
    }


def _snow_key(case: Case) -> str:
    roof, snow = case.garage_roof, case.snow
    if not roof.bearing or roof.line is not None:
        raise InputError(
            "card: the roof's load does not follow from garage_roof.span here (a truss sheet's "
            "line, or a wall that bears no roof). Give span and snow instead."
        )
    if snow.roof is None and snow.ground == 0:
        raise InputError('card: no snow to change. Give [snow] ground = "25 psf", or roof.')
    return "snow.ground" if snow.roof is None and snow.ground is not None else "snow.roof"


def _lengths(case: Case, over: Over) -> Array:
    """The grid of gaps or back spans, in; of back spans the lines of framing across the outriggers,
    where the back clips land, else every inch."""
    if over == "back span":
        return back_span_lines(case, BACK_SPAN_STEP_IN, least_back_span(case))
    start, end, step = GAP
    return np.asarray(start + np.arange(round((end - start) / step) + 1) * step)


class _Finder:
    """The search of a card: which lengths of the grid work at each place."""

    def __init__(
        self,
        asked: Design,
        over: Over,
        snow_key: str,
        places: list[tuple[float, float, float]],
        lengths: Array,
        told: Callable[[int, int], None] | None,
    ) -> None:
        self.asked, self.over, self.snow_key = asked, over, snow_key
        self.case = named_places(asked.case)
        self.places, self.lengths, self.told = places, lengths, told
        self.done = 0
        self.table = np.array(places)
        self.screen = Screen(governing(asked.worked), self._ask, inside=False)

    @property
    def _length(self) -> str:
        return "gap.width" if self.over == "gap" else "outrigger.back_span"

    def _swept(self, which: Index, at: Index) -> dict[str, Array]:
        spacing, snow, span = self.table[which].T
        return one_snow.moved(
            self.case,
            {
                "outrigger.spacing": spacing,
                self.snow_key: units.psi(snow),
                "garage_roof.span": units.inches(span),
                self._length: self.lengths[at],
            },
        )

    def _house_snow(self, snow: float) -> float | None:
        """The house roof's own snow beside one of the garage roof, psf."""
        own = self.case.house_roof.snow
        with_it = one_snow.moved(self.case, {self.snow_key: units.psi(snow)})
        return None if own is None else float(units.psf(with_it.get(one_snow.HOUSE, own)))

    def _ask(self, which: Index, at: Index, look: search.Few | None) -> Marks:
        """Places at lengths of the grid."""
        before = self.done
        for part, result, owner in search.every_mark(self.case, self._swept(which, at), look):
            yield part, result, owner
            self.done = before + part.stop
            if self.told is not None:
                self.told(self.done, before + len(which))

    def cells(self) -> list[Cell]:
        """First look, then the stretch that works refined to the grid, then what stops it."""
        count, step = len(self.places), self.lengths[1] - self.lengths[0]
        every = max(1, round(LOOK_IN[self.over] / step))
        looks = np.unique([*range(0, len(self.lengths), every), len(self.lengths) - 1])
        which, at = np.repeat(np.arange(count), len(looks)), np.tile(looks, count)
        held, ratios = self.screen.judged(which, at)
        ends = [_stretch(row, looks, self.over) for row in held.reshape(count, -1)]
        ends = self._refined(ends)
        short = short_backs(self.case, {self._length: self.lengths})
        open_at = self._open(ends)
        stops = self._stops(ends, self._closest(ends, looks, ratios.reshape(count, -1)))
        cells = []
        for i, ((spacing, snow, span), (low, high)) in enumerate(
            zip(self.places, ends, strict=True)
        ):
            blank = low < 0
            least, most = (None if blank else float(self.lengths[at]) for at in (low, high))
            far = low == 0 if self.over == "gap" else high == len(self.lengths) - 1
            cells.append(
                Cell(
                    spacing=spacing,
                    snow=snow,
                    house_snow=self._house_snow(snow),
                    span=span,
                    low=least,
                    high=most,
                    stops=stops[i],
                    over=self.over,
                    to_the_end=far,
                    caution=None if blank else short[high if self.over == "gap" else low],
                    open=open_at[i],
                )
            )
        return cells

    def _refined(self, ends: list[tuple[int, int]]) -> list[tuple[int, int]]:
        """Each end moved outward as far as every length of the grid up to it works."""
        every = max(1, round(LOOK_IN[self.over] / (self.lengths[1] - self.lengths[0])))
        last = len(self.lengths) - 1
        asked = [
            (i, end, at)
            for i, pair in enumerate(ends)
            if pair[0] >= 0
            for end, sign in ((0, -1), (1, 1))
            for at in (pair[end] + sign * k for k in range(1, every))
            if 0 <= at <= last
        ]
        if not asked:
            return ends
        held, _ = self.screen.judged(
            np.array([i for i, *_ in asked]), np.array([at for *_, at in asked])
        )
        found = [list(pair) for pair in ends]
        for (i, end, at), works in zip(asked, held, strict=True):
            if works and abs(at - found[i][end]) == 1:
                found[i][end] = at
        return [(low, high) for low, high in found]

    def _closest(self, ends: list[tuple[int, int]], looks: Index, ratios: Array) -> Index:
        """Where each blank cell comes closest, among the looks; 0 elsewhere."""
        found = np.zeros(len(ends), dtype=np.intp)
        blank = np.flatnonzero([low < 0 for low, _ in ends])
        if len(blank):
            which, at = np.meshgrid(blank, looks, indexing="ij")
            found[blank] = looks[self.screen.closest(which, at, ratios[blank])]
        return found

    def _open(self, ends: list[tuple[int, int]]) -> list[tuple[str, ...]]:
        """What is open at the lengths of each cell that is not in the case as stated."""
        found: list[dict[str, None]] = [{} for _ in ends]
        some = [(i, at) for i, pair in enumerate(ends) if pair[0] >= 0 for at in sorted({*pair})]
        which, at = (np.array([one[k] for one in some], dtype=np.intp) for k in (0, 1))
        if not some:
            return [()] * len(ends)
        swept = self._swept(which, at)
        for part, result in search.designs(self.case, swept):
            for i in range(part.stop - part.start):
                k = part.start + i
                one = with_numbers(self.case, {p: float(of[k]) for p, of in swept.items()})
                said = more_open(result, i, one, self.asked)
                found[int(which[k])] |= dict.fromkeys(said)
        return [tuple(texts) for texts in found]

    def _stops(self, ends: list[tuple[int, int]], closest: Index) -> list[CheckResult | None]:
        """The check that decides just beyond each cell; of a blank one where it comes closest."""
        step = 1 if self.over == "gap" else -1
        past = [(high if step > 0 else low) + step for low, high in ends]
        past = [int(near) if low < 0 else at
                for at, (low, _), near in zip(past, ends, closest, strict=True)]  # fmt: skip
        inside = [0 <= at < len(self.lengths) for at in past]
        at = np.clip(past, 0, len(self.lengths) - 1)
        rows: list[CheckResult | None] = []
        for part, result in search.designs(self.case, self._swept(np.arange(len(ends)), at)):
            rows += [
                result.closest(i) if inside[part.start + i] else None
                for i in range(part.stop - part.start)
            ]
        return rows


def _stretch(held: Bools, looks: Index, over: Over) -> tuple[int, int]:
    """The stretch of lengths that work: that of the largest gap, or of the least back span."""
    yes = np.flatnonzero(held)
    if not len(yes):
        return -1, -1
    if over == "gap":
        last = first = int(yes[-1])
        while first > 0 and held[first - 1]:
            first -= 1
    else:
        first = last = int(yes[0])
        while last < len(held) - 1 and held[last + 1]:
            last += 1
    return int(looks[first]), int(looks[last])
