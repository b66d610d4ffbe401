"""Unbalanced snow of a gable or hip garage roof, ridge along the wall. ASCE 7-16, 7-22, 7.6.1.

Plain numbers or arrays in psf, ft and degrees. Wind carries snow over the ridge, from either side.
Not covered: hip ends, ridges square to the wall, curved and multiple-ridge roofs.
"""

from typing import Any

import numpy as np
from msgspec import Struct

from outrigger.base.tables import MEMORY, SECOND_HAND, SEEN
from outrigger.formula.formula import Step, amount, formula, given
from outrigger.formula.numbers import Num, least, sqrt, where
from outrigger.loads.combinations import Edition
from outrigger.loads.snow.drift_height import density, drift_height
from outrigger.loads.snow.rules import (
    DEGREE_ROUNDING,
    FINITE,
    Given,
    Segment,
    Why,
    importance,
    read,
    refuse_length,
    refuse_outside,
    refuse_slope,
    slope_of,
    where_it_applies,
)

LEAST_SLOPE_DEG = 2.38  # 1/2:12, the printed degrees and the pitch itself both within
MOST_SLOPE_DEG = slope_of(7)  # printed 30.2 degrees; 7:12 itself, 30.26, is within
NARROW_FT = 20.0  # eave to ridge


@formula("W_ridge", "ft", clause="geometry")
def eave_to_ridge(L_bearings: Num, l_eave: Num) -> Num:
    """Horizontal distance from eave to ridge, the ridge over the middle of the span."""
    return L_bearings / 2 + l_eave


@formula("p_windward", "psf", clause="ASCE 7 7.6.1")
def windward_snow(p_s: Num) -> Num:
    """Snow on the windward side."""
    return 0.3 * p_s


@formula("p_leeward", "psf", clause="ASCE 7-16 7.6.1")
def narrow_leeward_716(Is: Num, p_g: Num) -> Num:
    """Even snow on the leeward side of a narrow roof of rafters, 7-16."""
    return Is * p_g


@formula("p_ridge", "psf", clause="ASCE 7 7.6.1")
def snow_over_ridge(h_d: Num, gamma_snow: Num, S_run: Num) -> Num:
    """Snow blown over the ridge, on top of the balanced snow of the leeward side."""
    return h_d * gamma_snow / sqrt(S_run)


@formula("l_ridge", "ft", clause="ASCE 7 7.6.1")
def extent_over_ridge(h_d: Num, S_run: Num) -> Num:
    """Extent of the snow blown over the ridge, from the ridge."""
    return 8 * h_d * sqrt(S_run) / 3


class Unbalanced(Struct, frozen=True, eq=False):
    """The two unbalanced cases of the roof, each in place of the balanced one.

    `toward_house`: the house side is leeward; `from_house`: the far side is. Loads are 0 where the
    provision does not apply. `steps` hold the loads: windward, leeward, over the ridge, its extent.
    """

    toward_house: tuple[Segment, ...]
    from_house: tuple[Segment, ...]
    steps: tuple[Step, ...]
    applies: Any
    why: Why


def unbalanced(
    edition: Edition,
    *,
    pg_psf: Given,
    ps_psf: Given,
    slope_deg: Given,
    span_ft: Given,
    overhang_ft: Given = 0.0,
    rafters: bool = False,
    Is: Given | None = None,
    W2: Given | None = None,
) -> Unbalanced:
    """Snow on each side of the ridge, as parts of the roof from the wall line.

    The roof spans `span_ft` between bearings and overhangs both walls alike, its ridge in the
    middle; the overhang beyond the far bearing only relieves the wall line, so it carries nothing
    here. `rafters`: simply supported prismatic rafters from ridge to eave, which may take the
    even load of narrow roofs (W 20 ft or less); trusses are not.

    Raises:
        InputError: Is missing in 7-16 or given in 7-22; W2 missing where 7-22 needs a drift.
        RangeError: a slope or a length that no roof has, W2 outside what is mapped.
    """
    refuse_slope(slope_deg)
    refuse_length("span", span_ft)
    refuse_outside("overhang, ft,", overhang_ft, 0, FINITE, "an overhang is 0 or more")
    refuse_outside("balanced snow, psf,", ps_psf, 0, FINITE, "a snow load is 0 or more")
    factor, slope = importance(edition, Is), np.asarray(amount(slope_deg))
    W_ridge = eave_to_ridge.step(L_bearings=span_ft, l_eave=overhang_ft)
    none, narrow = np.equal(amount(pg_psf), 0), np.less_equal(W_ridge.value, NARROW_FT)
    flat, steep = slope < LEAST_SLOPE_DEG, slope > MOST_SLOPE_DEG + DEGREE_ROUNDING
    applies, even = ~(flat | steep | none), narrow & rafters
    windward = read(windward_snow.step(p_s=ps_psf))
    windward = where_it_applies(windward, applies & ~even, "0 on a narrow roof of rafters")
    leeward = _leeward(edition, pg_psf, ps_psf, even, factor)
    leeward = where_it_applies(leeward, applies, "0 where no unbalanced case is asked for")
    over, extent = _over_ridge(
        edition, pg_psf, W_ridge, slope_deg, applies & ~even, {"Is": Is, "W2": W2}
    )
    if not rafters and np.any(narrow & applies):  # which rule rests on what trusses are
        note = "W is 20 ft or less, but trusses are not prismatic rafters"
        over = read(over, note, MEMORY)
    eave, ridge, far = 0.0 - np.asarray(amount(overhang_ft)), amount(span_ft) / 2, amount(span_ft)
    to_house = Segment(ridge - least(extent.value, W_ridge.value), ridge, over.value)
    to_far = Segment(ridge, ridge + least(extent.value, ridge), over.value)
    why = Why(
        [
            (none, "no unbalanced snow: no ground snow"),
            (flat, "no unbalanced snow: {slope} degrees is under 2.38"),
            (steep, "no unbalanced snow: {slope} degrees is over 30.2"),
            (even, "unbalanced snow applies: rafters, eave to ridge {W} ft is not over 20"),
            (narrow, "unbalanced snow applies: eave to ridge {W} ft, but not of rafters"),
            (True, "unbalanced snow applies: eave to ridge {W} ft is over 20"),
        ],
        {"slope": slope, "W": W_ridge.value},
    )
    return Unbalanced(
        (Segment(eave, ridge, leeward.value), to_house, Segment(ridge, far, windward.value)),
        (Segment(eave, ridge, windward.value), Segment(ridge, far, leeward.value), to_far),
        (windward, leeward, over, extent),
        applies,
        why,
    )


def _leeward(
    edition: Edition, pg_psf: Given, ps_psf: Given, even: Any, factor: dict[str, Given]
) -> Step:
    """Even load of the leeward side: Is pg or pg on a narrow roof of rafters, else ps."""
    clause = f"{edition} 7.6.1"
    balanced = Step("p_leeward", amount(ps_psf), "psf", clause, "ps", inputs={"p_s": ps_psf})
    if not np.any(even):
        return balanced
    if edition == "ASCE 7-16":
        heap = read(narrow_leeward_716.step(**factor, p_g=pg_psf), "", SECOND_HAND)
    else:
        heap = Step("p_leeward", amount(pg_psf), "psf", clause, "pg", SEEN)
    if np.all(even):
        return heap
    value, inputs = where(even, heap.value, balanced.value), {"narrow": heap, "wide": balanced}
    return Step("p_leeward", value, "psf", clause, "the first where narrow", inputs=inputs)


def _over_ridge(
    edition: Edition,
    pg_psf: Given,
    W_ridge: Step,
    slope_deg: Given,
    here: Any,
    factors: dict[str, Any],
) -> tuple[Step, Step]:
    """Snow blown over the ridge and its extent; 0 and 0 where the rule does not ask for it."""
    clause, note = f"{edition} 7.6.1", "0 where the rule asks for none"
    if not np.any(here):
        return given("p_ridge", 0.0, "psf", clause, note), given("l_ridge", 0.0, "ft", clause, note)
    gamma = density(pg_psf)
    h_d = drift_height(
        edition, pg_psf=pg_psf, fetch_ft=W_ridge, gamma_pcf=gamma, at_ridge=True, **factors
    )
    slope = np.clip(np.asarray(amount(slope_deg)), LEAST_SLOPE_DEG, MOST_SLOPE_DEG)
    run: Num = (1 / np.tan(np.radians(slope)))[()]
    S_run = Step("S_run", run, "", "geometry", inputs={"theta_snow": slope_deg})
    over = read(snow_over_ridge.step(h_d=h_d, gamma_snow=gamma, S_run=S_run))
    extent = read(extent_over_ridge.step(h_d=h_d, S_run=S_run))
    return where_it_applies(over, here, note), where_it_applies(extent, here, note)
