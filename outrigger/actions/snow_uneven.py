"""Snow that lies unevenly, each with the balanced snow of its case: heavy on one side of the ridge,
drifted against the house, slid off it, and what the garage brings to the house roof.

ASCE 7 7.6, 7.7 and 7.9. On the wall line by statics over the garage span, on the strip by position.
"""

from typing import Any

import numpy as np
from msgspec.structs import replace

from outrigger.actions.design_loads import DesignLoad
from outrigger.actions.geometry import column
from outrigger.actions.snow_from_ground import Ground
from outrigger.actions.snow_lies import Lie
from outrigger.actions.snow_on_house import OnHouseRoof
from outrigger.base.quantity import NONE
from outrigger.base.units import feet, inches, pounds_per_inch, psi
from outrigger.cases.weather import Drift, Sliding
from outrigger.formula.formula import Step, amount, given
from outrigger.formula.numbers import Array, greatest, pick
from outrigger.loads.snow import drift as snow_drift
from outrigger.loads.snow import rules as snow_rules
from outrigger.loads.snow import sliding as snow_sliding
from outrigger.loads.snow import unbalanced as snow_unbalanced


def unbalanced(ground: Ground) -> tuple[dict[str, Lie], list[str]]:
    """Unbalanced snow of a gable or hip, heavy on this side or on the other."""
    shape = ground.case.garage_roof.shape
    if ground.case.snow.unbalanced == NONE:
        return {}, ["unbalanced snow: none, by the file's word"]
    if shape not in ("gable", "hip"):
        return {}, [f"unbalanced snow: none, the roof is {shape}"] if shape else []
    if ground.case.garage_roof.line is not None:
        return {}, ["unbalanced snow: not computed beside line; the sheet holds it, or not"]
    if np.any(ground.span == 0):
        return {}, ["unbalanced snow: not computed, no span is given"]
    if ground.edition == "ASCE 7-22" and ground.W2 is None:
        return {}, ["unbalanced snow: not computed, winter_wind is not given"]
    found = snow_unbalanced.unbalanced(
        ground.edition,
        pg_psf=ground.pg,
        ps_psf=ground.ps,
        slope_deg=ground.slope,
        span_ft=ground.span,
        overhang_ft=ground.overhang,
        rafters=ground.case.garage_roof.form != "trusses",
        Is=ground.Is,
        W2=ground.W2,
    )
    if not np.any(found.applies):
        return {}, [found.why()]
    windward, leeward, over, extent = found.steps
    source = f"{ground.edition} 7.6.1"
    said = [
        ground.load("unbalanced snow windward", windward, source),
        ground.load("unbalanced snow leeward", leeward, source),
        ground.load("unbalanced snow over the ridge", over, source, extent),
    ]
    derived = tuple(one for one in said if one.value)
    if not ground.case.garage_roof.bearing:
        why = f"{found.why()}; over the gap the most beside the ridge, at every outrigger"
        return {"S_near": _beside_the_ridge(leeward, over, found.steps, derived)}, [why]
    near = _segments(ground, found.toward_house, found.steps)
    far = _segments(ground, found.from_house, found.steps)
    return {"S_near": replace(near, derived=derived), "S_far": far}, [found.why()]


def _beside_the_ridge(
    leeward: Step, over: Step, steps: tuple[Step, ...], derived: tuple[DesignLoad, ...]
) -> Lie:
    """On the strip beside a gable wall, where the ridge runs out over it."""
    strip = psi(np.asarray(leeward.value) + np.asarray(over.value)) + column(0.0)
    return Lie(column(0.0), strip, steps, derived=derived)


def drift(ground: Ground) -> tuple[dict[str, Lie], list[str]]:
    """Drift on the garage roof against the house."""
    stated_drift = ground.case.snow.drift
    if isinstance(stated_drift, Drift) and stated_drift.on == "house roof":
        return {}, ["drift on the garage roof, against the house: not asked for (on)"]
    if not isinstance(stated_drift, Drift):
        word = "none, by the file's word" if stated_drift == NONE else "not given"
        if ground.case.snow.drift_line is not None:
            word = "stated as a load on the garage wall"
        return {}, [f"drift snow: {word}"]
    lies: dict[str, Lie] = {}
    house, garage = stated_drift.house_length, stated_drift.garage_length
    found = _drift(ground, house, garage, stated_drift.house_step)
    reasons = [f"garage roof: {found.why()}", *_compared(found), *buried(found)]
    for part, rules in (("S_lee", ("leeward", "leeward across the gap")),
                        ("S_wind", (snow_drift.WINDWARD, snow_drift.WINDWARD_UNCUT)),
                        ):  # fmt: skip
        kept = [c for c in found.candidates if c.rule in rules]
        if kept and np.any(found.applies):
            lies[part] = _drifted(ground, kept)
    return lies, reasons


def sliding(ground: Ground) -> tuple[dict[str, Lie], list[str]]:
    """Snow slid off the house roof, over 15 ft from its eave."""
    stated_slide = ground.case.snow.sliding
    if not isinstance(stated_slide, Sliding):
        word = "none, by the file's word" if stated_slide == NONE else "not given"
        return {}, [f"sliding snow: {word}"]
    drawn = ground.case.snow.drift
    lower = ground.span + ground.overhang - _house_face(ground)
    if isinstance(drawn, Drift) and np.any(ground.span == 0):
        lower = feet(column(drawn.garage_length))
    step = feet(column(drawn.house_step)) if isinstance(drawn, Drift) else None
    found = snow_sliding.sliding(
        pf_upper_psf=ground.pf,
        run_ft=feet(column(stated_slide.house_run)),
        slope_deg=snow_rules.slope_of(stated_slide.house_slope),
        slippery=stated_slide.slippery,
        lower_ft=lower,
        step_ft=step,
        gap_ft=None if step is None else feet(ground.batch.column("gap.width")),
    )
    if not np.any(found.applies):
        return {}, [found.why()]
    dry = ground.dry()
    line = _reaction(ground, [found.segment(_house_face(ground))])
    total = dry.line + pounds_per_inch(np.asarray(line.value))
    strip = dry.strip + psi(np.asarray(found.pressure.value))
    said = ground.load("sliding snow", found.pressure, f"{ground.edition} 7.9", found.length_ft)
    steps = (*dry.steps, found.line, found.pressure, line)
    return {"S_slide": Lie(total, strip, steps, derived=(said,))}, [found.why()]


def on_house(ground: Ground, one: OnHouseRoof) -> Lie:
    """Balanced snow on the garage side, without rain (7.9, 7.10), and one kind of snow that it
    brings to the house roof."""
    assert one.found is not None and one.pressure is not None
    dry, q = ground.dry(), psi(np.asarray(one.pressure.value))
    width = inches(np.asarray(one.length_ft))
    name = "drift on the house roof" if one.what == "drift" else "sliding onto the house roof"
    said = ground.load(name, one.pressure, one.pressure.clause, one.length_ft)
    if isinstance(one.found, snow_sliding.Sliding):
        steps = (*dry.steps, one.found.line, one.found.pressure)
        return Lie(dry.line, dry.strip, steps, house_even=q, even_width=width, derived=(said,))
    steps = (*dry.steps, *one.found.steps)
    return Lie(dry.line, dry.strip, steps, house=q, house_width=width, derived=(said,))


def _drifted(ground: Ground, candidates: list[Any]) -> Lie:
    """Balanced snow and the larger of some drifts: at the wall line by statics, and by
    position on the strip."""
    face, dry = _house_face(ground), ground.dry()
    lines, steps = [], [*dry.steps]
    for one in candidates:
        line = _reaction(ground, [one.segment(face)])
        lines.append(pounds_per_inch(np.asarray(line.value)))
        steps += [one.peak, one.width, line]
    peaks = [psi(np.asarray(one.peak.value)) for one in candidates]
    peak = np.asarray(greatest(*peaks))
    widths = np.asarray(greatest(*(inches(np.asarray(one.width.value)) for one in candidates)))
    slope = np.where(widths > 0, -peak / np.where(widths > 0, widths, 1.0), 0.0)
    said = tuple(
        ground.load(f"drift {one.rule}", one.peak, one.peak.clause, one.width)
        for one in candidates
        if np.any(one.peak.value)
    )
    line = dry.line + np.asarray(greatest(*lines))
    return Lie(line, dry.strip + peak, tuple(steps), slope, derived=said)


def _segments(ground: Ground, segments: Any, steps: tuple[Step, ...]) -> Lie:
    """A load in parts on the garage roof, with the strip as at the eave."""
    at_eave = np.asarray(amount(segments[0].psf))
    line = _reaction(ground, segments)
    total = pounds_per_inch(np.asarray(line.value))
    return Lie(total, psi(at_eave) + np.zeros_like(total), (*steps, line))


def _reaction(ground: Ground, segments: Any) -> Step:
    """Reaction on the wall line, plf, by statics; none where the wall bears no roof."""
    if not ground.case.garage_roof.bearing or np.any(ground.span == 0):
        return given("w_snow", column(0.0), "plf", "", "the wall bears no roof")
    cut = [_within_span(ground, one) for one in segments]  # beyond the bearing it would relieve
    return snow_rules.reaction_at_wall_line(cut, span_ft=ground.span, overhang_ft=ground.overhang)


def _within_span(ground: Ground, one: snow_rules.Segment) -> snow_rules.Segment:
    """A part of the roof's snow as far as the far bearing."""
    end = np.minimum(np.asarray(one.end_ft), ground.span)
    if one.end_psf is None:
        return snow_rules.Segment(one.start_ft, end, one.psf)
    length = np.asarray(one.end_ft) - np.asarray(one.start_ft)
    part = (end - one.start_ft) / np.where(length > 0, length, 1.0)
    return snow_rules.Segment(
        one.start_ft, end, one.psf, one.psf + (np.asarray(one.end_psf) - one.psf) * part
    )


def _house_face(ground: Ground) -> Array:
    """From the wall line to the face of the house, ft; negative, toward the house."""
    return np.asarray(feet((ground.shape.face - ground.shape.arm) * ground.shape.plan))


def _drift(ground: Ground, upper: float, lower: float, step: float) -> snow_drift.Drift:
    gap = feet(ground.batch.column("gap.width"))
    return snow_drift.drift_at_step(
        ground.edition,
        pg_psf=ground.pg,
        ps_psf=ground.ps,
        step_ft=feet(column(step)),
        upper_ft=feet(column(upper)),
        lower_ft=feet(column(lower)),
        Is=ground.Is,
        W2=ground.W2,
        gap_ft=gap,
    )


def _compared(found: snow_drift.Drift) -> list[str]:
    """The candidates of a drift beside each other, in words."""
    said = [
        f"{one.rule} {pick(amount(one.peak)):.1f} psf over {pick(amount(one.width)):.1f} ft"
        for one in found.candidates
    ]
    return [f"drifts compared: {'; '.join(said)}"] if np.any(found.applies) else []


def buried(found: "snow_drift.Drift | snow_sliding.Sliding | None") -> list[str]:
    """A caution where a whole drift is dropped because the balanced snow nearly fills the step."""
    if not isinstance(found, snow_drift.Drift):
        return []
    deep, step = (pick(amount(found.clear.inputs[key])) for key in ("h_b", "h_step"))
    most = step / (1 + snow_drift.LEAST_CLEAR)
    if deep <= most:
        return []
    return [
        f"caution: the balanced snow, {deep:.2f} ft deep, fills the step; at {most:.2f} ft or less "
        "all of the drift is back"
    ]
