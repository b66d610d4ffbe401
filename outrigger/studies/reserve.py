"""How far each stated number can go, alone, before the answer changes, and what then decides.

The answer is whether the case works: what is open stays open. Every number is found by whole
designs, to the last float; the limits of the case file on gap and spacing do not hold here.
"""

from collections.abc import Iterator, Mapping
from functools import cached_property

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from outrigger.actions.places import ENDS, place_name
from outrigger.base import units
from outrigger.base.units import SIXTEENTH
from outrigger.cases import one_snow
from outrigger.cases.bounds import (
    LEAST_APART_IN,
    LEAST_BACK_SPAN_IN,
    LEAST_SPACING_IN,
    LEAST_SPAN_IN,
)
from outrigger.cases.model import Case
from outrigger.formula.check import Status
from outrigger.formula.numbers import Array
from outrigger.loads.wind.velocity import SPEED_LEAST_MPH, SPEED_MOST_MPH
from outrigger.marks.of_case import spacings_laid_out
from outrigger.studies import search
from outrigger.studies.screen import Marks, Screen, governing
from outrigger.studies.search import MOST_BACK_SPAN_IN, Few, Turn
from outrigger.verdict.back_span import ShortBack, short_backs
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, Designs, design
from outrigger.verdict.unknown import OpenInEach, Unknown

LOOKS = 16  # first look at each way, closer together near the stated value
MOST_SPACING_IN = 96.0
SPACING_LOOK_IN = 1.0  # whether a layout stands: between two that do it is taken to
MOST_ROOF_SPAN_IN = 1200.0
MOST_PSF, MOST_PLF = 200.0, 3000.0
LEAST_CLIP_LB, MOST_CLIP_LB = 1.0, 5000.0
SPANS = ("gap.width", "outrigger.back_span")  # what changes the back span beside the arm
TRUSS_SHEET = {"S": "snow", "D": "dead", "W_up": "wind up", "W_down": "wind down"}


class Quantity(Struct, frozen=True):
    """One stated number: its name, its key in the file, its unit, how far it is looked at.

    now, low, high and step (what people round it to) in lb and in; `times` turns those into the
    unit.
    """

    name: str
    key: str
    unit: str
    now: float
    low: float
    high: float
    step: float
    times: float = 1.0


class Side(Struct, frozen=True, eq=False):
    """One way from a stated number. turn None: the answer is the same as far as it was looked at.

    `turn.last` works, `turn.first`, the next float, does not; `shown`: the last that works rounded
    to where it still works, itself run; `stops`: the check that decides at `turn.first`; `caution`:
    where the back span is short beside the arm at what is shown; `open`: what is missing there and
    not in the case as stated, in words: then it is not known to work.
    """

    quantity: Quantity
    up: bool
    turn: Turn | None = None
    shown: float | None = None
    stops: CheckResult | None = None
    caution: ShortBack | None = None
    open: tuple[str, ...] = ()

    @property
    def change(self) -> float:
        """How far away it turns, as a part of the stated number."""
        return np.inf if self.turn is None else abs(self.turn.last / self.quantity.now - 1)


class Reserve(Struct, frozen=True, eq=False, dict=True):
    """How far each number of a case can go alone, both ways."""

    asked: Design
    sides: list[Side]

    @cached_property
    def works(self) -> bool:
        """The case works as stated."""
        return self.asked.works

    @cached_property
    def unknown(self) -> Unknown:
        """What is open in it."""
        return Unknown(self.asked)

    @property
    def answer(self) -> Status:
        """Pass when it works, or one change makes it work; open: cannot say."""
        return self.unknown.answer(self.works or self.nearest is not None)

    @property
    def nearest(self) -> Side | None:
        """The side whose turn is the smallest part of its stated number away; None: no turn."""
        found = [side for side in self.sides if side.turn is not None and side.quantity.now]
        return min(found, key=lambda side: side.change, default=None)


def reserve(case: Case) -> Reserve:
    """How far each stated number can go alone before the answer changes.

    A stretch narrower than the first look that does not change the answer at its ends is not seen.
    """
    asked = design(case)
    sweep = Sweep(case, quantities(case))
    works = asked.works
    found = [Side(one, up) for one in sweep.quantities for up in (False, True)]
    looks = [_looks(side) for side in found]
    which = np.repeat([sweep.quantities.index(side.quantity) for side in found], LOOKS)
    screen = Screen(governing(asked.worked), sweep.marks)
    held, _ = screen.judged(which, np.concatenate(looks))
    at, ends = list[int](), list[list[float]]()
    for i, (side, look) in enumerate(zip(found, looks, strict=True)):
        own = slice(i * LOOKS, (i + 1) * LOOKS)
        changed = np.flatnonzero(held[own] != works)
        if len(changed):
            k, way = int(changed[0]), 1 if works else -1  # from the one that works
            at.append(i)
            ends.append([side.quantity.now if not k else look[k - 1], look[k]][::way])
    asks = np.array([which[i * LOOKS] for i in at], dtype=np.intp)
    holds, fails = np.reshape(ends, (-1, 2)).T
    other = screen.over(lambda k, values, look: sweep.marks(asks[k], values, look))
    found_at = other.turns(holds, fails)
    for i, side in zip(
        at, _told(asked, sweep, [found[i] for i in at], found_at, asks), strict=True
    ):
        found[i] = side
    return Reserve(asked, found)


def _looks(side: Side) -> Array:
    """Numbers from the stated one to the end of the way, closer together near it."""
    one = side.quantity
    end = one.high if side.up else one.low
    return one.now + (end - one.now) * (np.arange(1, LOOKS + 1) / LOOKS) ** 2


def _told(
    asked: Design,
    sweep: "Sweep",
    sides: list[Side],
    ends: list[Turn],
    which: NDArray[np.intp],
) -> Iterator[Side]:
    """The sides with where they turn, the rounded value that works, and what then decides."""
    if not sides:
        return
    rounded = [_rounded(side.quantity, end) for side, end in zip(sides, ends, strict=True)]
    values = np.array([*(end.first for end in ends), *rounded])
    count, stops, holds = len(sides), dict[int, CheckResult](), dict[int, bool]()
    more = dict[int, tuple[str, ...]]()
    for rows, result in sweep.designs(np.tile(which, 2), values):
        said = OpenInEach(result)
        for at, row in enumerate(rows):
            if row < count:
                stops[row] = result.closest(at)
            else:
                more[row] = said.more(at, asked)
            holds[row] = bool(result.works[at])
    for i, (side, end) in enumerate(zip(sides, ends, strict=True)):
        shown = rounded[i] if holds[count + i] else end.last
        key, caution = side.quantity.key, None
        if key in SPANS:
            caution = short_backs(sweep.case, {key: np.array([shown])})[0]
        yield Side(side.quantity, side.up, end, shown, stops[i], caution, more[count + i])


def _rounded(one: Quantity, end: Turn) -> float:
    """The last that works, rounded to where it works still."""
    steps = end.last / one.step
    return float((np.floor(steps) if end.first > end.last else np.ceil(steps)) * one.step)


class Sweep:
    """Designs of a case in which one of several numbers is changed in each row."""

    def __init__(self, case: Case, asked: list[Quantity]) -> None:
        self.case, self.quantities = named_places(case), asked
        self.now = np.array([one.now for one in asked])

    def designs(
        self, which: NDArray[np.intp], values: Array
    ) -> Iterator[tuple[NDArray[np.intp], Designs]]:
        """Rows with number `which[i]` set to `values[i]`, all else as stated: indices, design."""
        for rows, fields in self._apart(which, values):
            for part, result in search.designs(self.case, fields):
                yield rows[part], result

    def marks(self, which: NDArray[np.intp], values: Array, look: Few | None) -> Marks:
        """The same at every mark, by few combinations, as `search.every_mark`."""
        for rows, fields in self._apart(which, values):
            for part, result, owner in search.every_mark(self.case, fields, look):
                yield rows[part], result, owner

    def _apart(
        self, which: NDArray[np.intp], values: Array
    ) -> Iterator[tuple[NDArray[np.intp], Mapping[str, Array]]]:
        """Rows that are swept together, and their fields.

        A load stated as none is swept by itself: beside others it would be a load of theirs too,
        of no size, that brings in its combinations and what else acts in them.
        """
        apart = np.where(self.now[which] == 0, which, -1)
        for group in np.unique(apart):
            rows = np.flatnonzero(apart == group)
            yield rows, self._fields(which[rows], values[rows])

    def _fields(self, which: NDArray[np.intp], values: Array) -> Mapping[str, Array]:
        table = np.tile(self.now, (len(which), 1))
        table[np.arange(len(which)), which] = values
        swept = {one.key: table[:, i] for i, one in enumerate(self.quantities) if i in which}
        return one_snow.moved(self.case, swept)


def named_places(case: Case) -> Case:
    """The case with hold-downs at the back span's distance named the back: they move with it."""
    holds = []
    for hold in case.hold_down:
        name = place_name(hold.at, case.outrigger.back_span)
        holds.append(hold.model_copy(update={"at": name}) if name in ENDS else hold)
    return case.model_copy(update={"hold_down": holds})


def least_back_span(case: Case) -> float:
    """The least back span that leaves every stated place on the member, in."""
    between = [h.at for h in named_places(case).hold_down if isinstance(h.at, float)]
    blocked = [x for x in case.outrigger.blocking or [] if isinstance(x, float)]
    behind = case.outrigger.behind_back
    return max(
        [LEAST_BACK_SPAN_IN, *(x + LEAST_APART_IN for x in between), *(x - behind for x in blocked)]
    )


def back_span_lines(case: Case, otherwise: float, least: float) -> Array:
    """Back spans from the least on that a study looks at, in: those that reach a line of framing
    across the outriggers; along them, or not given, steps of `otherwise`."""
    house = case.house_roof
    step, first = otherwise, 0.0
    if house.framing_parallel is False and house.framing_spacing and house.framing_at is None:
        step, first = house.framing_spacing, house.framing_offset
    lines = first + step * np.arange(int(MOST_BACK_SPAN_IN / step) + 1)
    return np.asarray(lines[(lines >= least) & (lines <= MOST_BACK_SPAN_IN)])


def quantities(case: Case) -> list[Quantity]:
    """The numbers of a case that are stated and can be asked about."""
    piece = case.outrigger
    lengths = [
        ("gap", "gap.width", case.gap.width, SIXTEENTH, search.MOST_GAP_IN, SIXTEENTH),
        *_spacing(case),
        ("back span", "outrigger.back_span", piece.back_span, least_back_span(case),
         MOST_BACK_SPAN_IN, SIXTEENTH),
    ]  # fmt: skip
    if case.garage_roof.bearing and case.garage_roof.line is None:
        span = case.garage_roof.span
        if span is not None:
            lengths.append(("roof span", "garage_roof.span", span, LEAST_SPAN_IN,
                            MOST_ROOF_SPAN_IN, 1.0))  # fmt: skip
    found = [Quantity(name, key, "in", *numbers) for name, key, *numbers in lengths]
    return [*found, *_loads(case), *_clips(case)]


def _spacing(case: Case) -> Iterator[tuple[str, str, float, float, float, float]]:
    """The spacing, as far as the layout stands at every one up to there; none where its marks are
    named by number: they are of the stated spacing."""
    apart = case.outrigger.spacing
    ends = []
    for end in (LEAST_SPACING_IN, MOST_SPACING_IN):
        looks = np.append(np.arange(apart, end, np.copysign(SPACING_LOOK_IN, end - apart)), end)
        laid = np.isin(looks, spacings_laid_out(case, looks))
        ends.append(float(looks[-1 if laid.all() else max(0, int(np.argmin(laid)) - 1)]))
    if case.layout is None or not case.layout.double_at:
        yield "spacing", "outrigger.spacing", apart, ends[0], ends[1], SIXTEENTH


def _loads(case: Case) -> Iterator[Quantity]:
    """Loads on the garage roof: from its truss sheet, or as pressures and wind speed."""
    roof, sheet = case.garage_roof, case.garage_roof.line
    if sheet is not None and roof.bearing:
        for part, words in TRUSS_SHEET.items():
            line = getattr(sheet, part)
            if line is not None:
                yield Quantity(
                    f"truss sheet, {words}", f"garage_roof.line.{part}", "plf", line, 0.0,
                    units.pounds_per_inch(MOST_PLF), units.pounds_per_inch(1.0), units.plf(1.0),
                )  # fmt: skip
        return
    snow = ("roof snow", "snow.roof", case.snow.roof)
    if case.snow.roof is None:
        snow = ("ground snow", "snow.ground", case.snow.ground)
    pressures = [snow, ("roof dead", "garage_roof.dead", roof.dead)]
    if case.wind.speed is None:
        pressures += [("wind up", "wind.uplift", case.wind.uplift),
                      ("wind down", "wind.down", case.wind.down)]  # fmt: skip
    for name, key, now in pressures:
        if now is not None:
            most, step = units.psi(MOST_PSF), units.psi(0.1)
            yield Quantity(name, key, "psf", now, 0.0, most, step, units.psf(1.0))
    if case.wind.speed is not None:
        yield Quantity(
            "wind speed", "wind.speed", "mph", case.wind.speed, SPEED_LEAST_MPH, SPEED_MOST_MPH, 1.0
        )


def _clips(case: Case) -> Iterator[Quantity]:
    """The listed uplift of the clips at each place."""
    for hold in named_places(case).hold_down:
        if hold.rated_uplift is not None:
            key = f"hold_down[{hold.name}].rated_uplift"
            name, now = f"{hold.name} clip, listed", hold.rated_uplift
            yield Quantity(name, key, "lb", now, LEAST_CLIP_LB, MOST_CLIP_LB, 1.0)
