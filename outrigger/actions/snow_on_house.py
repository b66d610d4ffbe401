"""Snow that the garage's wall and roof bring to the house roof: a drift against the step, and what
slides off the garage roof.

Worked out in every case with snow. What it follows from and the file does not say is listed, with
the loads handed to the house; "none" is the file's own word. ASCE 7 7.7 and 7.9, in psf and feet.
"""

from collections.abc import Callable
from typing import Literal

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions.geometry import Geometry, column
from outrigger.base.quantity import NONE
from outrigger.base.units import feet
from outrigger.cases.batch import Batch
from outrigger.cases.model import Case
from outrigger.cases.weather import Drift, OnHouse
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Array, Num, greatest
from outrigger.loads.snow import drift as snow_drift
from outrigger.loads.snow import sliding as snow_sliding
from outrigger.loads.snow.drift import Drift as FoundDrift
from outrigger.loads.snow.sliding import OTHER_PITCH, REACH_FT, SLIPPERY_PITCH
from outrigger.loads.snow.sliding import Sliding as FoundSliding

What = Literal["drift", "sliding"]
TITLES: dict[What, str] = {
    "drift": "snow drifted on the house roof against the garage wall",
    "sliding": "snow slid off the garage roof onto the house roof",
}
ROOF_AT_WALL_FT = 1.0  # from the top of the garage wall to the top of its roof there, taken


@formula("h_step", "ft", clause="geometry")
def step_over_house(h_wall_ft: Num, d_plumb: Num, h_roof: Num) -> Num:
    """Garage roof over the house roof at the wall: outrigger, wall and roof on each other."""
    return h_wall_ft + d_plumb + h_roof


class OnHouseRoof(Struct, frozen=True, eq=False):
    """One kind of snow on the house roof: what was found, None where there is none; why, in words;
    `lacks`: keys that it waits for."""

    what: What
    why: str
    found: FoundDrift | FoundSliding | None = None
    lacks: tuple[str, ...] = ()

    @property
    def pressure(self) -> Step | None:
        """At the garage wall."""
        if self.found is None:
            return None
        return self.found.peak if isinstance(self.found, FoundDrift) else self.found.pressure

    @property
    def length_ft(self) -> Num:
        """How far it lies from the garage wall."""
        if self.found is None:
            return 0.0
        return self.found.width.value if isinstance(self.found, FoundDrift) else (
            self.found.length_ft
        )  # fmt: skip

    @property
    def applies(self) -> bool:
        """Whether there is any, in some case."""
        return self.found is not None and bool(np.any(self.found.applies))

    @property
    def psf(self) -> float | None:
        """At the garage wall, of the first case; None: not worked out."""
        if self.lacks:
            return None
        return 0.0 if self.pressure is None else float(np.ravel(self.pressure.value)[0])

    @property
    def ft(self) -> float | None:
        """How far it lies from the garage wall, of the first case; None: not worked out."""
        return None if self.lacks else float(np.ravel(self.length_ft)[0])

    @property
    def said(self) -> str:
        """In a line: how much, or why none, or what is missing."""
        if self.lacks:
            listed = " and ".join(self.lacks)
            return f"{TITLES[self.what]}: not worked out and not counted, not given: {listed}"
        if not self.psf:
            return f"{TITLES[self.what]}: {self.why}"
        fall = "falling to nothing" if self.what == "drift" else "even"
        load = f"{self.psf:.1f} psf at the wall, {fall} over {self.ft:.1f} ft"
        return f"{TITLES[self.what]}: {load}; {self.why}"


def lacking(case: Case, what: What) -> tuple[str, ...]:
    """The keys that one kind of snow on the house roof waits for."""
    snow, roof = case.snow, case.garage_roof
    stated = snow.on_house if isinstance(snow.on_house, OnHouse) else OnHouse.model_construct()
    drawn = snow.drift if isinstance(snow.drift, Drift) else None
    if snow.on_house == NONE or snow.ground == 0:
        return ()
    if snow.ground is None:
        return ("snow.ground",)
    if what == "sliding":
        if not roof.bearing or roof.shape == "high at the house":
            return ()
        lacks = [] if roof.shape else ["garage_roof.shape"]
        if roof.pitch is None:
            lacks.append("garage_roof.pitch")
        elif SLIPPERY_PITCH < roof.pitch <= OTHER_PITCH and stated.slippery is None:
            lacks.append("snow.on_house.slippery")
        wide = roof.span or stated.garage_length or drawn
        return (*lacks, *([] if wide else ["snow.on_house.garage_length"]))
    high = stated.step or case.garage_wall.height is not None
    needed = {
        "garage_wall.height": high or (drawn and drawn.on == "house roof"),
        "snow.on_house.house_length": stated.house_length or drawn,
        "snow.on_house.garage_length": stated.garage_length or drawn or roof.span,
        "snow.on_house.winter_wind": case.basis.loads == "ASCE 7-16" or snow.winter_wind,
    }
    return tuple(key for key, is_known in needed.items() if not is_known)


class Site(Struct, frozen=True, eq=False):
    """What both follow from: the ground snow and the garage roof's own, psf; its slope, degrees;
    `deep`: the outrigger, in."""

    batch: Batch
    shape: Geometry
    deep: float
    pg: Array
    pf: Step
    ps: Step
    slope: float
    Is: "Num | Step | None"

    @property
    def case(self) -> Case:
        """What is stated alike of every case."""
        return self.batch.case

    @property
    def stated(self) -> OnHouse:
        """The table of its own, or an empty one."""
        found = self.case.snow.on_house
        return found if isinstance(found, OnHouse) else OnHouse.model_construct()

    @property
    def drawn(self) -> Drift | None:
        """The geometry of a drift that is asked for."""
        return self.case.snow.drift if isinstance(self.case.snow.drift, Drift) else None

    @property
    def step(self) -> Step:
        """Garage roof over the house roof at the wall, ft."""
        drawn = self.drawn
        if self.stated.step:
            return given("h_step", feet(self.stated.step), "ft", "", "snow.on_house.step")
        if drawn is not None and drawn.on == "house roof":
            return given("h_step", feet(drawn.house_step), "ft", "", "snow.drift.house_step")
        return step_over_house.step(
            h_wall_ft=feet(self.case.garage_wall.height or 0.0),
            d_plumb=feet(self.deep / self.shape.tilt.cos),
            h_roof=given("h_roof", ROOF_AT_WALL_FT, "ft", "", "12 in taken"),
        )

    @property
    def house_ft(self) -> float | None:
        """Length of the house roof, ft; None: not given."""
        length = self.stated.house_length or (self.drawn and self.drawn.house_length)
        return float(feet(length)) if length else None

    @property
    def garage_ft(self) -> Array:
        """Length of the garage roof, ft."""
        length = self.stated.garage_length or (self.drawn and self.drawn.garage_length)
        if length:
            return column(feet(length))
        span, hung = self.batch.load("garage_roof.span"), self.batch.load("garage_roof.overhang")
        return np.asarray(feet(span + 2 * hung))

    @property
    def run_ft(self) -> Array:
        """Eave to ridge of the garage roof, or all of a roof that falls to the house, ft."""
        one_way = self.case.garage_roof.shape == "low at the house"
        if self.case.garage_roof.span is None:
            return self.garage_ft if one_way else self.garage_ft / 2
        span, hung = self.batch.load("garage_roof.span"), self.batch.load("garage_roof.overhang")
        return np.asarray(feet(span + 2 * hung if one_way else span / 2 + hung))


def waiting(case: Case) -> tuple[OnHouseRoof, ...]:
    """Both where no ground snow is stated."""
    return tuple(
        OnHouseRoof(what, _none(case), lacks=lacking(case, what)) for what in TITLES
    )  # fmt: skip


def _none(case: Case) -> str:
    return "none, by the file's word (snow.on_house)" if case.snow.on_house == NONE else ""


def on_house_roof(site: Site) -> tuple[OnHouseRoof, ...]:
    """Drift and sliding on the house roof, from the ground snow."""
    case = site.case
    if case.snow.on_house == NONE:
        return waiting(case)
    missing = {what: lacking(case, what) for what in TITLES}
    return tuple(
        OnHouseRoof(what, "", lacks=lacks) if lacks else WORKED[what](site)
        for what, lacks in missing.items()
    )


def _drift(site: Site) -> OnHouseRoof:
    """7.7: the garage is the higher structure, the house roof the lower one."""
    step = site.step
    found = snow_drift.drift_at_step(
        site.case.basis.loads,
        pg_psf=site.pg,
        ps_psf=site.ps,
        step_ft=replace(step, value=column(step.value)),
        upper_ft=site.garage_ft,
        lower_ft=column(site.house_ft),
        Is=site.Is,
        W2=site.case.snow.winter_wind,
        gap_ft=feet(site.batch.column("gap.width")),
    )
    how = step.note or "the outrigger, the wall on it and 12 in of roof, taken"
    return OnHouseRoof("drift", f"{found.why()} (step: {how})", _everywhere(found))


def _everywhere(found: FoundDrift) -> FoundDrift:
    """The drift with the highest peak and the largest width of every rule: the outrigger lies
    beside the step alone, where a rule with less snow on the whole roof may bring it more."""
    peak, width = (
        np.asarray(greatest(*(getattr(one, name).value for one in found.candidates)))
        for name in ("peak", "width")
    )
    if np.all(peak <= found.peak.value) and np.all(width <= found.width.value):
        return found
    note = "the largest of every rule, since the outrigger lies beside the step alone"
    return replace(
        found,
        peak=replace(found.peak, value=peak, note=note),
        width=replace(found.width, value=width, note=note),
    )


def _sliding(site: Site) -> OnHouseRoof:
    """7.9: what slides off the garage roof, over 15 ft of the house roof."""
    roof = site.case.garage_roof
    if not roof.bearing:
        return OnHouseRoof("sliding", "none, a gable end sheds nothing")
    if roof.shape == "high at the house":
        return OnHouseRoof("sliding", "none, the garage roof falls away from the house")
    found = snow_sliding.sliding(
        pf_upper_psf=site.pf,
        run_ft=site.run_ft,
        slope_deg=site.slope,
        slippery=bool(site.stated.slippery),
        lower_ft=site.house_ft or REACH_FT,
    )
    return OnHouseRoof("sliding", found.why(), found)


WORKED: dict[What, Callable[[Site], OnHouseRoof]] = {"drift": _drift, "sliding": _sliding}
