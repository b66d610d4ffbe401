"""Snow that follows from the ground snow: what every case has, balanced, least, on the back span.

ASCE 7 7.3, 7.4 and 7.10, by the edition of the case. What lies unevenly is in `snow_uneven`.
"""

from typing import Any

import numpy as np
from msgspec.structs import replace

from outrigger.actions.design_loads import DesignLoad, derived
from outrigger.actions.geometry import Geometry
from outrigger.actions.snow_lies import Lie, even
from outrigger.actions.snow_on_house import Site
from outrigger.base.units import feet, psf
from outrigger.cases.batch import Batch
from outrigger.cases.kinds import SNOW_LEVEL
from outrigger.cases.weather import Drift, Sliding
from outrigger.formula.formula import Step, amount, given
from outrigger.formula.numbers import Num, pick
from outrigger.loads.snow import roof as snow
from outrigger.loads.snow import rules as snow_rules

USUAL_RISK = "II"  # taken where basis.risk_category is not given
LONGEST_RUN_FT = 100.0  # from eave to ridge, where none is stated


class Ground:
    """Roof snow from ground snow, by the edition of the case."""

    def __init__(self, batch: Batch, shape: Geometry) -> None:
        case = batch.case
        self.batch, self.case, self.shape = batch, case, shape
        self.edition = case.basis.loads
        stated_snow, roof = case.snow, case.garage_roof
        self.pg = psf(batch.load("snow.ground"))
        risk = case.basis.risk_category or USUAL_RISK
        self.Is: Num | Step | None = None
        if self.edition == "ASCE 7-16":
            self.Is = stated_snow.importance
            if self.Is is None:
                self.Is = snow.by_risk_category(self.edition, risk)
        self.W2 = stated_snow.winter_wind
        Ct: Num | Step | str = 1.2 if stated_snow.thermal is None else stated_snow.thermal
        if stated_snow.thermal is None and stated_snow.roof_r is not None:
            Ct = snow.heated_thermal_factor(stated_snow.roof_r, self.pg)
        elif isinstance(Ct, str):
            Ct = snow.thermal_factor(self.edition, Ct)
        self.slope = snow_rules.slope_of(roof.pitch or 0.0)
        Ce: Num | Step | str = 1.0 if stated_snow.exposure is None else stated_snow.exposure
        if isinstance(Ce, str):
            Ce = snow.exposure_factor(Ce)
        p_g = given("p_g", self.pg, "psf", self.edition, "ground snow as stated")
        self.pf = snow.flat_roof_snow(self.edition, pg_psf=p_g, Ce=Ce, Ct=Ct, Is=self.Is)
        Cs = snow.slope_factor(self.edition, slope_deg=self.slope, Ct=Ct)
        self.ps = snow.balanced_snow(Cs, self.pf)
        modern = self.edition == "ASCE 7-22"
        self.pm_max = snow.by_risk_category(self.edition, risk) if modern else None
        self.span = feet(batch.load("garage_roof.span"))
        self.overhang = feet(batch.load("garage_roof.overhang"))
        ridged = roof.shape in ("gable", "hip", None)
        self.run = self.span / 2 + self.overhang if ridged else self.span + self.overhang
        if roof.span is None:
            self.run = np.full((1, 1), LONGEST_RUN_FT)

    def load(
        self, name: str, value: "Num | Step", source: str, over_ft: "Num | Step" = 0.0
    ) -> DesignLoad:
        """A snow load in psf, at the level of the edition."""
        return derived(name, value, "psf", SNOW_LEVEL.of(self.edition), source, over_ft)

    @property
    def reason(self) -> str:
        """How the balanced snow came about."""
        level = "strength level" if self.edition == "ASCE 7-22" else "allowable-stress level"
        ps = pick(amount(self.ps))
        return f"snow: {ps:.1f} psf balanced, from the ground snow ({self.edition}, {level})"

    def dry(self) -> Lie:
        """Balanced snow without rain on it, as it lies under drifts and what slid (7.9, 7.10)."""
        return even(self.batch, self.ps)

    def balanced(self) -> Lie:
        """Balanced snow, with rain on it where the standard asks for it."""
        lie = self.dry()
        source = f"from the ground snow, {self.edition} 7.3, 7.4"
        lie = replace(lie, derived=(self.load("balanced roof snow", self.ps, source),))
        rain = snow.rain_on_snow(
            self.edition,
            pg_psf=self.pg,
            slope_deg=self.slope,
            run_ft=self.run,
            pm_max_psf=self.pm_max,
        )
        if not np.any(rain.applies):
            return lie
        wet = even(self.batch, rain.step)
        on_it = self.load("rain on the snow", rain.step, rain.step.clause)
        return Lie(
            lie.line + wet.line,
            lie.strip + wet.strip,
            (*lie.steps, *wet.steps),
            derived=(*lie.derived, on_it),
        )

    def back_span(self) -> Step:
        """Snow of the house roof on the back span, psf, not reduced by a slope.

        One load goes with every case of snow, and each stands without it too: so the largest of
        flat-roof snow, rain on it, and the minimum of low slopes.
        """
        drift, slide = self.case.snow.drift, self.case.snow.sliding
        runs = [drift.house_length] if isinstance(drift, Drift) else []
        runs += [slide.house_run] if isinstance(slide, Sliding) else []
        run = max((float(feet(one)) for one in runs), default=LONGEST_RUN_FT)
        on: dict[str, Any] = {"pg_psf": self.pg, "pm_max_psf": self.pm_max}
        on["slope_deg"] = snow_rules.slope_of(self.case.house_roof.pitch or 0.0)
        rain = snow.rain_on_snow(self.edition, run_ft=run, **on).step
        least = snow.minimum_low_slope(self.edition, Is=self.Is, **on).step
        found = snow.snow_of_low_roof.step(p_f=self.pf, p_rain=rain, p_m=least)
        note = "flat-roof snow"
        if pick(amount(least)) > pick(amount(self.pf)) + pick(amount(rain)):
            note = "the minimum of a low slope"
        elif pick(amount(rain)):
            note = "flat-roof snow and rain on it"
        return replace(found, note=f"{note}, on the house roof")

    def minimum(self) -> tuple[dict[str, Lie], list[str]]:
        """The minimum for low slopes, a case of its own."""
        least = snow.minimum_low_slope(
            self.edition,
            pg_psf=self.pg,
            slope_deg=self.slope,
            Is=self.Is,
            pm_max_psf=self.pm_max,
        )
        why = f"minimum snow: {least.why()}"
        if not np.any(least.applies):
            return {}, [why]
        said = self.load("minimum roof snow", least.step, f"{self.edition} 7.3, a case of its own")
        return {"S_min": replace(even(self.batch, least.step), derived=(said,))}, [why]

    def site(self, deep: float) -> Site:
        """What the garage's snow on the house roof follows from."""
        return Site(
            batch=self.batch, shape=self.shape, deep=deep, pg=self.pg, pf=self.pf, ps=self.ps,
            slope=self.slope, Is=self.Is,
        )  # fmt: skip
