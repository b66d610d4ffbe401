"""How high a drift of snow is, and how dense. ASCE 7-16 Fig. 7.6-1, ASCE 7-22 Eq. 7.6-1.

Plain numbers or arrays in psf, ft and pcf. Serves drifts at a step (7.7) and at a ridge (7.6.1).
"""

import numpy as np

from outrigger.base.errors import InputError
from outrigger.base.tables import SECOND_HAND
from outrigger.formula.formula import Step, amount, formula
from outrigger.formula.numbers import Num, least, sqrt, where
from outrigger.loads.combinations import Edition
from outrigger.loads.snow.rules import (
    Given,
    importance,
    read,
    refuse_ground_snow,
    refuse_length,
    refuse_outside,
    where_it_applies,
)

SHORTEST_FETCH_716 = 20.0  # ft


@formula(
    "gamma_snow",
    "pcf",
    clause="ASCE 7 Eq. 7.7-1",
    constants={"0.13": "1/ft", "14": "pcf", "30": "pcf"},
)
def snow_density(p_g: Num) -> Num:
    """Density of snow."""
    return least(0.13 * p_g + 14, 30)


@formula(
    "h_d",
    "ft",
    clause="ASCE 7-16 Fig. 7.6-1",
    constants={"0.43": "ft^(2/3)/psf^(1/4)", "10": "psf", "1.5": "ft"},
)
def drift_height_716(Is: Num, l_u: Num, p_g: Num) -> Num:
    """Drift height, 7-16, for a fetch of 20 ft or more."""
    return sqrt(Is) * (0.43 * l_u ** (1 / 3) * (p_g + 10) ** (1 / 4) - 1.5)


@formula("h_d", "ft", clause="ASCE 7-16 7.7.1")
def drift_height_of_short_fetch(Is: Num, p_g: Num, l_u: Num, gamma_snow: Num) -> Num:
    """What the drift height of a fetch under 20 ft need not exceed: all its snow in the drift."""
    return sqrt(Is * p_g * l_u / (4 * gamma_snow))


@formula(
    "h_d",
    "ft",
    clause="ASCE 7-22 Eq. 7.6-1",
    constants={"1.5": "ft/(psf^0.74 ft^0.70/pcf)^(1/2)"},
)
def drift_height_722(p_g: Num, l_u: Num, W2: Num, gamma_snow: Num) -> Num:
    """Drift height, 7-22, for any fetch."""
    return 1.5 * sqrt(p_g**0.74 * l_u**0.70 * W2**1.7 / gamma_snow)


def density(pg_psf: Given) -> Step:
    """Density of snow, pcf."""
    refuse_ground_snow(pg_psf)
    return read(snow_density.step(p_g=pg_psf))


def winter_wind(edition: Edition, W2: Given | None) -> dict[str, Given]:
    """The winter wind as an argument: needed in 7-22, refused in 7-16.

    Raises:
        InputError: missing in 7-22, given in 7-16.
        RangeError: outside what is mapped.
    """
    if edition == "ASCE 7-16":
        if W2 is not None:
            raise InputError("winter wind: ASCE 7-16 drifts have none. Leave it out.")
        return {}
    if W2 is None:
        raise InputError("winter wind: ASCE 7-22 drifts need W2, mapped 0.25 to 0.65.")
    refuse_outside("winter wind W2", W2, 0.25, 0.65, "ASCE 7-22 maps it from 0.25 to 0.65")
    return {"W2": W2}


def drift_height(
    edition: Edition,
    *,
    pg_psf: Given,
    fetch_ft: Given,
    gamma_pcf: Given,
    Is: Given | None = None,
    W2: Given | None = None,
    at_ridge: bool = False,
) -> Step:
    """hd, ft; 0 without ground snow. 7-16 takes a fetch of 20 ft at least.

    At a step, a shorter fetch has a limit of its own (7-16 7.7.1); `at_ridge`, for unbalanced snow
    (7.6.1), it has not.
    """
    refuse_ground_snow(pg_psf)
    refuse_length("fetch", fetch_ft)
    factor, wind = importance(edition, Is), winter_wind(edition, W2)
    snow = np.greater(amount(pg_psf), 0)
    if edition == "ASCE 7-22":
        step = drift_height_722.step(p_g=pg_psf, l_u=fetch_ft, **wind, gamma_snow=gamma_pcf)
        return where_it_applies(read(step), snow, "no ground snow, no drift")
    short = np.less(amount(fetch_ft), SHORTEST_FETCH_716)
    l_u = fetch_ft
    if np.any(short):
        raised = np.maximum(amount(fetch_ft), SHORTEST_FETCH_716)[()]
        clause, note = "ASCE 7-16 Fig. 7.6-1", "20 ft at least"
        l_u = Step("l_u", raised, "ft", clause, note, SECOND_HAND, inputs={"l_u": fetch_ft})
    step = read(drift_height_716.step(**factor, l_u=l_u, p_g=pg_psf))
    if np.any(short) and not at_ridge:
        all_of_it: dict[str, Given] = {"p_g": pg_psf, "l_u": fetch_ft, "gamma_snow": gamma_pcf}
        most = read(drift_height_of_short_fetch.step(**factor, **all_of_it), "", SECOND_HAND)
        value = where(short, least(step.value, most.value), step.value)
        note = "the lesser where the fetch is under 20 ft"
        inputs = {"figure": step, "most": most}
        step = Step("h_d", value, "ft", "ASCE 7-16 7.7.1", note, inputs=inputs)
    return where_it_applies(step, snow, "no ground snow, no drift")
