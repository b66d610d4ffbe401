"""Snow of a case: from what the file states to loads on the wall line and the strip.

Snow goes to the wall line by statics over the garage span, and to the strip by position. Each case
of snow says in one line why it does or does not apply. ASCE 7 keeps its feet and psf; what leaves
this module is in pounds and inches.
"""

from typing import Any

import numpy as np
from msgspec import Struct, field
from msgspec.structs import replace

from outrigger.actions.design_loads import DesignLoad, derived
from outrigger.actions.geometry import Geometry, column
from outrigger.actions.snow_on_house import OnHouseRoof, Site, on_house_roof, waiting
from outrigger.base.units import feet, inches, pounds_per_inch, psf, psi
from outrigger.cases.batch import Batch
from outrigger.cases.fields import NONE
from outrigger.cases.kinds import SNOW_LEVEL
from outrigger.cases.model import Case
from outrigger.cases.sections import Drift, Sliding
from outrigger.formula.formula import Step, amount, given
from outrigger.formula.numbers import Array, Num, greatest
from outrigger.loads.gravity import roof_line_load
from outrigger.loads.snow import drift as snow_drift
from outrigger.loads.snow import roof as snow
from outrigger.loads.snow import rules as snow_rules
from outrigger.loads.snow import sliding as snow_sliding
from outrigger.loads.snow import unbalanced as snow_unbalanced

ON_HOUSE = {"drift": "S_house", "sliding": "S_shed"}  # the parts of what lies on the house roof
USUAL_RISK = "II"  # taken where basis.risk_category is not given
LONGEST_RUN_FT = 100.0  # of a house roof, where none is stated


class Lie(Struct, frozen=True, eq=False):
    """How one load lies, in lb and in, columns of cases.

    `line` lb/in on the wall line; `strip` psi on arm and tail, growing by `strip_slope` psi per in
    of x past the house face (0: even); `house` psi on the house roof at the garage wall, falling to
    nothing over `house_width` in (0: none); `house_even` psi even there over `even_width` in.
    `steps`: how it came about; `derived`: what it is made of, for people, where that follows from
    the ground snow.
    """

    line: Array
    strip: Array
    steps: tuple[Step, ...] = ()
    strip_slope: Array = field(default_factory=lambda: column(0.0))
    house: Array = field(default_factory=lambda: column(0.0))
    house_width: Array = field(default_factory=lambda: column(0.0))
    house_even: Array = field(default_factory=lambda: column(0.0))
    even_width: Array = field(default_factory=lambda: column(0.0))
    derived: tuple[DesignLoad, ...] = ()


class Snow(Struct, frozen=True, eq=False):
    """Snow by part, the back span's even snow, reasons, and what the garage brings to the house
    roof."""

    lies: dict[str, Lie]
    back: Array
    reasons: list[str]
    on_house: tuple[OnHouseRoof, ...] = ()


def snow_of(batch: Batch, shape: Geometry, deep: float) -> Snow:
    """Snow of the cases; `deep`: the outrigger, in."""
    case, stated_snow, roof = batch.case, batch.case.snow, batch.case.garage_roof
    back = batch.load("house_roof.snow")
    if stated_snow.ground is None or stated_snow.roof is not None:
        on_roof = psf(batch.load("snow.roof"))
        pf = given("p_f", on_roof, "psf", case.basis.loads, "roof snow, stated")
        lies = {"S": _with_line(batch, _even(batch, pf))}
        some = bool(np.any(amount(pf) != 0))
        reasons = _stated_reasons(case) if some else ["snow: none stated"]
        on_sheet = roof.line is not None and bool(roof.line.S)
        on_house = waiting(case) if some or on_sheet else ()
        return Snow(lies, back, [*reasons, *(one.said for one in on_house)], on_house)
    ground = Ground(batch, shape)
    balanced, on_back = ground.balanced(), ground.back_span()
    if case.house_roof.snow is None:
        back = psi(np.asarray(on_back.value))
        under = ground.load("snow on the back span", on_back, on_back.note)
        balanced = replace(
            balanced,
            steps=(*balanced.steps, on_back),
            derived=(*balanced.derived, under),
        )
    lies = {"S": _with_line(batch, balanced)}
    if np.all(ground.pg == 0):
        return Snow(lies, back, ["snow: none, the ground snow is none"])
    reasons = [ground.reason]
    if case.house_roof.snow is None:
        reasons.append(f"snow on the back span: {_first(on_back):.1f} psf, {on_back.note}")
    for found, why in (ground.minimum(), ground.unbalanced(), ground.drift(), ground.sliding()):
        lies |= found
        reasons += why
    if roof.shape is None:
        reasons.append("unbalanced snow: the shape of the roof is not given")
    on_house = on_house_roof(ground.site(deep))
    lies |= {part: ground.on_house(one) for one in on_house if one.applies
             for part in (ON_HOUSE[one.what],)}  # fmt: skip
    reasons += [one.said for one in on_house]
    reasons += [caution for one in on_house for caution in _buried(one.found)]
    return Snow(lies, back, reasons, on_house)


def _stated_reasons(case: Case) -> list[str]:
    """Why drift, sliding and unbalanced snow are not computed from a stated roof snow."""
    found = ["snow: roof snow as stated"]
    for name, value in (("drift", case.snow.drift), ("sliding", case.snow.sliding),
                        ("unbalanced", case.snow.unbalanced)):  # fmt: skip
        if value == NONE:
            found.append(f"{name} snow: none, by the file's word")
    if case.snow.drift_line is not None:
        found.append("drift snow: stated as a load on the garage wall")
    return found


def _even(batch: Batch, pressure: Step) -> Lie:
    """An even pressure in psf on the whole garage roof and the strip."""
    q = psi(np.asarray(pressure.value))
    roof = batch.case.garage_roof
    if roof.span is None or not roof.bearing:  # only the strip takes this
        return Lie(np.zeros_like(q), q, (pressure,))
    line = roof_line_load(q, batch.load("garage_roof.span"), batch.load("garage_roof.overhang"))
    return Lie(np.asarray(line), q, (pressure,))


def _with_line(batch: Batch, lie: Lie) -> Lie:
    """The stated drift on the wall line added to the balanced snow."""
    if batch.case.snow.drift_line is None:
        return lie
    extra = batch.column("snow.drift_line")
    step = given(
        "w_roof", extra, "lb/in", batch.case.basis.loads, "drift on the garage wall, stated"
    )
    return replace(lie, line=lie.line + extra, steps=(*lie.steps, step))


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

    def load(
        self, name: str, value: "Num | Step", source: str, over_ft: "Num | Step" = 0.0
    ) -> DesignLoad:
        """A snow load in psf, at the level of the edition."""
        return derived(name, value, "psf", SNOW_LEVEL.of(self.edition), source, over_ft)

    @property
    def reason(self) -> str:
        """How the balanced snow came about."""
        level = "strength level" if self.edition == "ASCE 7-22" else "allowable-stress level"
        ps = _first(self.ps)
        return f"snow: {ps:.1f} psf balanced, from the ground snow ({self.edition}, {level})"

    def balanced(self) -> Lie:
        """Balanced snow, with rain on it where the standard asks for it."""
        lie = _even(self.batch, self.ps)
        source = f"from the ground snow, {self.edition} 7.3, 7.4"
        lie = replace(lie, derived=(self.load("balanced roof snow", self.ps, source),))
        if not np.all(self.run > 0):
            return lie
        rain = snow.rain_on_snow(
            self.edition,
            pg_psf=self.pg,
            slope_deg=self.slope,
            run_ft=self.run,
            pm_max_psf=self.pm_max,
        )
        if not np.any(rain.applies):
            return lie
        wet = _even(self.batch, rain.step)
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
        if _first(least) > _first(self.pf) + _first(rain):
            note = "the minimum of a low slope"
        elif _first(rain):
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
        return {"S_min": replace(_even(self.batch, least.step), derived=(said,))}, [why]

    def unbalanced(self) -> tuple[dict[str, Lie], list[str]]:
        """Unbalanced snow of a gable or hip, heavy on this side or on the other."""
        shape = self.case.garage_roof.shape
        if self.case.snow.unbalanced == NONE:
            return {}, ["unbalanced snow: none, by the file's word"]
        if shape not in ("gable", "hip"):
            return {}, [f"unbalanced snow: none, the roof is {shape}"] if shape else []
        if self.case.garage_roof.line is not None:
            return {}, ["unbalanced snow: not computed beside line; the sheet holds it, or not"]
        if not self.case.garage_roof.bearing or np.any(self.span == 0):
            return {}, ["unbalanced snow: no span is given"]
        if self.edition == "ASCE 7-22" and self.W2 is None:
            return {}, ["unbalanced snow: not computed, winter_wind is not given"]
        found = snow_unbalanced.unbalanced(
            self.edition,
            pg_psf=self.pg,
            ps_psf=self.ps,
            slope_deg=self.slope,
            span_ft=self.span,
            overhang_ft=self.overhang,
            rafters=self.case.garage_roof.form != "trusses",
            Is=self.Is,
            W2=self.W2,
        )
        if not np.any(found.applies):
            return {}, [found.why()]
        near = self._segments(found.toward_house, found.steps)
        far = self._segments(found.from_house, found.steps)
        windward, leeward, over, extent = found.steps
        source = f"{self.edition} 7.6.1"
        said = [
            self.load("unbalanced snow windward", windward, source),
            self.load("unbalanced snow leeward", leeward, source),
            self.load("unbalanced snow over the ridge", over, source, extent),
        ]
        near = replace(near, derived=tuple(one for one in said if one.value))
        return {"S_near": near, "S_far": far}, [found.why()]

    def _segments(self, segments: Any, steps: tuple[Step, ...], extra: Num = 0.0) -> Lie:
        """A load in parts on the garage roof, with the strip as at the eave."""
        at_eave = np.asarray(amount(segments[0].psf)) + extra
        line = self._reaction(segments)
        total = pounds_per_inch(np.asarray(line.value))
        return Lie(total, psi(at_eave) + np.zeros_like(total), (*steps, line))

    def _reaction(self, segments: Any) -> Step:
        """Reaction on the wall line, plf, by statics; none where the wall bears no roof."""
        if not self.case.garage_roof.bearing or np.any(self.span == 0):
            return given("w_snow", column(0.0), "plf", "", "the wall bears no roof")
        cut = [self._within_span(one) for one in segments]  # beyond the bearing it would relieve
        return snow_rules.reaction_at_wall_line(cut, span_ft=self.span, overhang_ft=self.overhang)

    def _within_span(self, one: snow_rules.Segment) -> snow_rules.Segment:
        """A part of the roof's snow as far as the far bearing."""
        end = np.minimum(np.asarray(one.end_ft), self.span)
        if one.end_psf is None:
            return snow_rules.Segment(one.start_ft, end, one.psf)
        length = np.asarray(one.end_ft) - np.asarray(one.start_ft)
        part = (end - one.start_ft) / np.where(length > 0, length, 1.0)
        return snow_rules.Segment(
            one.start_ft, end, one.psf, one.psf + (np.asarray(one.end_psf) - one.psf) * part
        )

    @property
    def _house_face(self) -> Array:
        """From the wall line to the face of the house, ft; negative, toward the house."""
        return np.asarray(feet((self.shape.face - self.shape.arm) * self.shape.plan))

    def _drift(self, upper: float, lower: float, step: float) -> snow_drift.Drift:
        gap = feet(self.batch.column("gap.width"))
        return snow_drift.drift_at_step(
            self.edition,
            pg_psf=self.pg,
            ps_psf=self.ps,
            step_ft=feet(column(step)),
            upper_ft=feet(column(upper)),
            lower_ft=feet(column(lower)),
            Is=self.Is,
            W2=self.W2,
            gap_ft=gap,
        )

    def drift(self) -> tuple[dict[str, Lie], list[str]]:
        """Drift on the garage roof against the house."""
        stated_drift = self.case.snow.drift
        if isinstance(stated_drift, Drift) and stated_drift.on == "house roof":
            return {}, ["drift on the garage roof, against the house: not asked for (on)"]
        if not isinstance(stated_drift, Drift):
            word = "none, by the file's word" if stated_drift == NONE else "not given"
            if self.case.snow.drift_line is not None:
                word = "stated as a load on the garage wall"
            return {}, [f"drift snow: {word}"]
        lies: dict[str, Lie] = {}
        house, garage = stated_drift.house_length, stated_drift.garage_length
        found = self._drift(house, garage, stated_drift.house_step)
        reasons = [f"garage roof: {found.why()}", *_compared(found), *_buried(found)]
        for part, rules in (("S_lee", ("leeward", "leeward across the gap")),
                            ("S_wind", (snow_drift.WINDWARD, snow_drift.WINDWARD_UNCUT)),
                            ):  # fmt: skip
            kept = [c for c in found.candidates if c.rule in rules]
            if kept and np.any(found.applies):
                lies[part] = self._drifted(kept)
        return lies, reasons

    def site(self, deep: float) -> Site:
        """What the garage's snow on the house roof follows from."""
        return Site(
            batch=self.batch, shape=self.shape, deep=deep, pg=self.pg, pf=self.pf, ps=self.ps,
            slope=self.slope, Is=self.Is,
        )  # fmt: skip

    def on_house(self, one: OnHouseRoof) -> Lie:
        """Balanced snow on the garage side, without rain (7.9, 7.10), and one kind of snow that it
        brings to the house roof."""
        assert one.found is not None and one.pressure is not None
        even, q = _even(self.batch, self.ps), psi(np.asarray(one.pressure.value))
        width = inches(np.asarray(one.length_ft))
        name = "drift on the house roof" if one.what == "drift" else "sliding onto the house roof"
        said = self.load(name, one.pressure, one.pressure.clause, one.length_ft)
        if isinstance(one.found, snow_sliding.Sliding):
            steps = (*even.steps, one.found.line, one.found.pressure)
            return Lie(
                even.line, even.strip, steps, house_even=q, even_width=width, derived=(said,)
            )
        steps = (*even.steps, *one.found.steps)
        return Lie(even.line, even.strip, steps, house=q, house_width=width, derived=(said,))

    def _drifted(self, candidates: list[Any]) -> Lie:
        """Balanced snow and the larger of some drifts: at the wall line by statics, and by
        position on the strip."""
        face, even = self._house_face, _even(self.batch, self.ps)
        lines, steps = [], [*even.steps]
        for one in candidates:
            line = self._reaction([one.segment(face)])
            lines.append(pounds_per_inch(np.asarray(line.value)))
            steps += [one.peak, one.width, line]
        peaks = [psi(np.asarray(one.peak.value)) for one in candidates]
        peak = np.asarray(greatest(*peaks))
        widths = np.asarray(greatest(*(inches(np.asarray(one.width.value)) for one in candidates)))
        slope = np.where(widths > 0, -peak / np.where(widths > 0, widths, 1.0), 0.0)
        said = tuple(
            self.load(f"drift {one.rule}", one.peak, one.peak.clause, one.width)
            for one in candidates
            if np.any(one.peak.value)
        )
        line = even.line + np.asarray(greatest(*lines))
        return Lie(line, even.strip + peak, tuple(steps), slope, derived=said)

    def sliding(self) -> tuple[dict[str, Lie], list[str]]:
        """Snow slid off the house roof, over 15 ft from its eave."""
        stated_slide = self.case.snow.sliding
        if not isinstance(stated_slide, Sliding):
            word = "none, by the file's word" if stated_slide == NONE else "not given"
            return {}, [f"sliding snow: {word}"]
        stated_drift = self.case.snow.drift
        drawn = self.case.snow.drift
        lower = self.span + self.overhang - self._house_face
        if isinstance(drawn, Drift) and np.any(self.span == 0):
            lower = feet(column(drawn.garage_length))
        step = feet(column(stated_drift.house_step)) if isinstance(stated_drift, Drift) else None
        found = snow_sliding.sliding(
            pf_upper_psf=self.pf,
            run_ft=feet(column(stated_slide.house_run)),
            slope_deg=snow_rules.slope_of(stated_slide.house_slope),
            slippery=stated_slide.slippery,
            lower_ft=lower,
            step_ft=step,
            gap_ft=None if step is None else feet(self.batch.column("gap.width")),
        )
        if not np.any(found.applies):
            return {}, [found.why()]
        even = _even(self.batch, self.ps)
        line = self._reaction([found.segment(self._house_face)])
        total = even.line + pounds_per_inch(np.asarray(line.value))
        strip = even.strip + psi(np.asarray(found.pressure.value))
        said = self.load("sliding snow", found.pressure, f"{self.edition} 7.9", found.length_ft)
        steps = (*even.steps, found.line, found.pressure, line)
        return {"S_slide": Lie(total, strip, steps, derived=(said,))}, [found.why()]


def _first(step: "Num | Step") -> float:
    """The number of the first case."""
    return float(np.ravel(amount(step))[0])


def _compared(found: snow_drift.Drift) -> list[str]:
    """The candidates of a drift beside each other, in words."""
    said = [
        f"{one.rule} {_first(one.peak):.1f} psf over {_first(one.width):.1f} ft"
        for one in found.candidates
    ]
    return [f"drifts compared: {'; '.join(said)}"] if np.any(found.applies) else []


def _buried(found: "snow_drift.Drift | snow_sliding.Sliding | None") -> list[str]:
    """A caution where a whole drift is dropped because the balanced snow nearly fills the step."""
    if not isinstance(found, snow_drift.Drift):
        return []
    deep, step = (_first(found.clear.inputs[key]) for key in ("h_b", "h_step"))
    most = step / (1 + snow_drift.LEAST_CLEAR)
    if deep <= most:
        return []
    return [
        f"caution: the balanced snow, {deep:.2f} ft deep, fills the step; at {most:.2f} ft or less "
        "all of the drift is back"
    ]
