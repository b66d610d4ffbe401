"""Snow of ASCE 7-16 and 7-22, chapter 7, on one roof: balanced, minimum, rain on snow.

Plain numbers or arrays in psf, ft, pcf, plf and degrees. 7-16 snow is at allowable-stress level,
7-22 snow at strength level. Unbalanced, drifted and sliding snow have files of their own. Not
covered: ice at eaves (7.4.5), partial loading (7.5), curved and sawtooth roofs, ponding.
"""

import re

import numpy as np

from outrigger.base.errors import InputError, RangeError
from outrigger.base.quantity import tidied
from outrigger.base.tables import SECOND_HAND, load
from outrigger.formula.formula import Step, amount, formula, given
from outrigger.formula.numbers import Num, greatest, least, where
from outrigger.loads.combinations import Edition
from outrigger.loads.snow.rules import (
    ABOVE_ZERO,
    DEGREE_ROUNDING,
    FINITE,
    Given,
    Provision,
    Why,
    importance,
    read,
    refuse_ground_snow,
    refuse_length,
    refuse_outside,
    refuse_slope,
    where_it_applies,
)

LOW_SLOPE_DEG = 15.0
EXPOSURES = ("fully exposed", "partially exposed", "sheltered")


@formula("p_f", "psf", clause="ASCE 7-16 Eq. 7.3-1")
def flat_roof_snow_716(Ce: Num, C_thermal: Num, Is: Num, p_g: Num) -> Num:
    """Flat-roof snow load, 7-16, at allowable-stress level."""
    return 0.7 * Ce * C_thermal * Is * p_g


@formula("p_f", "psf", clause="ASCE 7-22 Eq. 7.3-1")
def flat_roof_snow_722(Ce: Num, C_thermal: Num, p_g: Num) -> Num:
    """Flat-roof snow load, 7-22, at strength level."""
    return 0.7 * Ce * C_thermal * p_g


@formula("Cs", "", clause="ASCE 7 Fig. 7.4-1")
def slope_factor_line(theta_snow: Num, theta_knee: Num) -> Num:
    """Slope factor: 1 up to the knee, a straight line to 0 at 70 degrees."""
    return greatest(0, least(1, (70 - theta_snow) / (70 - theta_knee)))


@formula("p_s", "psf", clause="ASCE 7 Eq. 7.4-1")
def sloped_roof_snow(Cs: Num, p_f: Num) -> Num:
    """Balanced snow load of the sloped roof."""
    return Cs * p_f


@formula("p_m", "psf", clause="ASCE 7-16 7.3.4", constants={"20": "psf"})
def minimum_716(Is: Num, p_g: Num) -> Num:
    """Minimum snow load of a low-slope roof, 7-16: Is pg up to pg 20 psf, then 20 Is."""
    return Is * least(p_g, 20)


@formula("p_m", "psf", clause="ASCE 7-22 7.3.3")
def minimum_722(p_g: Num, p_m_max: Num) -> Num:
    """Minimum snow load of a low-slope roof, 7-22."""
    return least(p_g, p_m_max)


def by_risk_category(edition: Edition, category: str) -> Step:
    """Is of a risk category in 7-16; pm,max in 7-22."""
    row = load("snow_risk").find(risk_category=category)
    said = f"risk category {category}"
    if edition == "ASCE 7-16":
        clause = "ASCE 7-16 Table 1.5-2"
        return given("Is", float(row["Is_716"]), "", clause, said, row["status"])
    value = float(row["pm_max_722_psf"])
    return given("p_m_max", value, "psf", "ASCE 7-22 7.3.3", said, row["status"])


def exposure_factor(text: str) -> Step:
    """Ce of "C, partially exposed": terrain and exposure, the same in both editions.

    Raises:
        InputError: the table has no value there.
    """
    rows = load("snow_Ce").rows
    terrain, _, exposure = (part.strip() for part in tidied(text).partition(","))
    row = next((r for r in rows if r["terrain"].lower() == terrain), None)
    if row is None:
        listed = "; ".join(r["terrain"] for r in rows)
        raise InputError(f"Table 7.3-1 has the terrains {listed}, then a comma and the exposure.")
    have = [place for place in EXPOSURES if row[place] != "NA"]
    if exposure not in have:
        raise InputError(f"Table 7.3-1 has, in terrain {row['terrain']}: {', '.join(have)}.")
    note = f"terrain {row['terrain']}, {exposure}"
    return given("Ce", float(row[exposure]), "", "ASCE 7 Table 7.3-1", note, row["status"])


def thermal_factor(edition: Edition, text: str) -> Step:
    """Ct by the use of the building, "unheated"; 7-22 heated roofs: `heated_thermal_factor`.

    Raises:
        InputError: the table of this edition has no such building.
    """
    rows, building = load("snow_Ct").matching(edition=edition), tidied(text)
    row = next((r for r in rows if building in re.split(", | or ", r["condition"])), None)
    if row is None:
        listed = "; ".join(r["condition"] for r in rows)
        heated = " A heated roof: give roof_r." if edition == "ASCE 7-22" else ""
        raise InputError(f"{edition} Table 7.3-2 has: {listed}.{heated}")
    clause = f"{edition} Table 7.3-2"
    return given("C_thermal", float(row["Ct"]), "", clause, building, row["status"])


def heated_thermal_factor(roof_r: Given, pg_psf: Given) -> Step:
    """Ct of a heated roof, 7-22, by R-value and ground snow.

    Source: ASCE 7-22 Table 7.3-3; the table allows straight-line interpolation both ways. Its ends
    are stated ends (R 20 or less, pg 10 or less, pg 70 or more), and over R 50 it is 1.20, so
    nothing is extrapolated.
    """
    refuse_ground_snow(pg_psf)
    refuse_outside("roof R", roof_r, ABOVE_ZERO, FINITE, "Table 7.3-3 takes an R-value over 0")
    table, R = load("snow_Ct_heated"), amount(roof_r)
    columns = [name for name in table.rows[0] if name.isdigit()]
    *rows, over_50 = table.rows
    ends, snows = [float(row["R_roof"]) for row in rows], [float(name) for name in columns]
    value: Num = np.asarray(0.0)
    for row, unit in zip(rows, np.eye(len(rows)), strict=True):
        in_row = np.interp(amount(pg_psf), snows, [float(row[name]) for name in columns])
        value = value + np.interp(R, ends, unit) * in_row
    note = "linear by R-value and ground snow; R 20 or less, pg 10 or less, pg 70 or more and over "
    note += "R 50 as the table states them"
    return Step(
        "C_thermal",
        where(np.asarray(R) > ends[-1], float(over_50["10"]), value),
        "",
        "ASCE 7-22 Table 7.3-3",
        note,
        rows[0]["status"],
        inputs={"R_roof": roof_r, "p_g": pg_psf},
    )


def flat_roof_snow(
    edition: Edition, *, pg_psf: Given, Ce: Given, Ct: Given, Is: Given | None = None
) -> Step:
    """Flat-roof snow load pf, psf."""
    refuse_ground_snow(pg_psf)
    for name, factor in (("exposure", Ce), ("thermal", Ct)):
        refuse_outside(name, factor, ABOVE_ZERO, FINITE, "a factor over 0")
    equation = flat_roof_snow_716 if edition == "ASCE 7-16" else flat_roof_snow_722
    return read(equation.step(Ce=Ce, C_thermal=Ct, **importance(edition, Is), p_g=pg_psf))


def slope_factor(
    edition: Edition,
    *,
    slope_deg: Given,
    Ct: Given,
    slippery: bool = False,
    room_to_shed: bool = False,
    warm_insulated: bool = False,
) -> Step:
    """Cs by the slope and the panel (warm, intermediate, cold) of Ct.

    The slippery line needs a slippery, unobstructed roof with room below its eave for the snow; a
    roof against a house wall has none, so it is never taken unless `room_to_shed`. 7-16 gives it
    to a warm roof only at R 30, or R 20 ventilated: `warm_insulated`.

    Raises:
        RangeError: a 7-16 Ct between two panels, a slope that is no roof's.
    """
    refuse_slope(slope_deg)
    year = "716" if edition == "ASCE 7-16" else "722"
    table, C_thermal = load("snow_Cs"), np.asarray(amount(Ct))
    warm, middle, cold = (table.find(panel=panel) for panel in ("warm", "intermediate", "cold"))
    is_warm = C_thermal <= float(warm[f"Ct_{year}_to"])
    is_cold = C_thermal >= float(cold[f"Ct_{year}_from"])
    between = C_thermal[~is_warm & ~is_cold & ~np.isclose(C_thermal, float(middle["Ct_716_to"]))]
    if between.size and year == "716":
        panels = "ASCE 7-16 Fig. 7.4-1 has Ct 1.0 or less, 1.1, and 1.2 or more"
        raise RangeError(f"thermal {between[0]:g}: {panels}.")
    slides = slippery and room_to_shed
    line = {
        row["panel"]: float(row[f"knee_{'slippery' if slides else 'other'}_deg"])
        for row in table.rows
    }
    if slides and year == "716" and not warm_insulated:
        line["warm"] = float(warm["knee_other_deg"])
    knee = where(is_warm, line["warm"], where(is_cold, line["cold"], line["intermediate"]))
    surface = "slippery, with room to shed" if slides else "other surface, or no room to shed"
    note = f"{surface}; warm, intermediate or cold by Ct"
    clause, status = f"{edition} Fig. 7.4-1", warm["status"]
    theta_knee = Step("theta_knee", knee, "deg", clause, note, status, inputs={"C_thermal": Ct})
    Cs = slope_factor_line.step(theta_snow=slope_deg, theta_knee=theta_knee)
    return read(Cs, "", status)


@formula("p_back", "psf", clause="the largest of ASCE 7 7.3, with 7.10")
def snow_of_low_roof(p_f: Num, p_rain: Num, p_m: Num) -> Num:
    """Snow on the back span: flat-roof snow and rain on it, or the minimum."""
    return greatest(p_f + p_rain, p_m)


def balanced_snow(Cs: Given, pf_psf: Given) -> Step:
    """Balanced snow ps = Cs pf, psf."""
    return read(sloped_roof_snow.step(Cs=Cs, p_f=pf_psf))


def minimum_low_slope(
    edition: Edition,
    *,
    pg_psf: Given,
    slope_deg: Given,
    Is: Given | None = None,
    pm_max_psf: Given | None = None,
) -> Provision:
    """Minimum pm of a hip, gable or monoslope roof under 15 degrees, psf.

    An even case of its own, never with drifted, sliding, unbalanced or partial snow.

    Raises:
        InputError: 7-22 without pm,max; see `importance`.
    """
    refuse_ground_snow(pg_psf)
    refuse_slope(slope_deg)
    factor = importance(edition, Is)
    if edition == "ASCE 7-16":
        step = minimum_716.step(**factor, p_g=pg_psf)
    else:
        step = minimum_722.step(p_g=pg_psf, p_m_max=_largest_minimum(pm_max_psf))
    low = np.less(amount(slope_deg), LOW_SLOPE_DEG - DEGREE_ROUNDING)
    why = Why(
        [
            (low, "minimum applies: {slope} degrees is under 15"),
            (True, "no minimum: {slope} degrees is not under 15"),
        ],
        {"slope": amount(slope_deg)},
    )
    step = where_it_applies(read(step, "", SECOND_HAND), low, "for slopes under 15 degrees")
    return Provision(step, low, why)


def rain_on_snow(
    edition: Edition,
    *,
    pg_psf: Given,
    slope_deg: Given,
    run_ft: Given,
    pm_max_psf: Given | None = None,
) -> Provision:
    """Rain on snow, psf, added to the balanced case only. `run_ft`: eave to ridge, horizontal.

    Source: 7.10: slope in degrees under W/50, and pg not over 20 psf (7-16) or pm,max (7-22).
    """
    refuse_ground_snow(pg_psf)
    refuse_slope(slope_deg)
    refuse_length("eave to ridge", run_ft)
    old = edition == "ASCE 7-16"
    pg, slope, flat = amount(pg_psf), amount(slope_deg), np.asarray(amount(run_ft)) / 50
    most = 20.0 if old else amount(_largest_minimum(pm_max_psf))
    none, deep, steep = np.equal(pg, 0), np.greater(pg, most), np.greater_equal(slope, flat)
    applies = ~(none | deep | steep)
    note = "for slopes under W/50 with little ground snow"
    value = 5.0 if old else 8.0
    clause, status = f"{edition} 7.10", SECOND_HAND if np.any(applies) else ""
    step = given("p_rain", where(applies, value, 0.0), "psf", clause, note, status)
    why = Why(
        [
            (none, "no rain on snow: no ground snow"),
            (deep, "no rain on snow: ground snow {pg} psf is over {most} psf"),
            (steep, "no rain on snow: {slope} degrees is not under W/50 = {flat}"),
            (True, "rain on snow applies: {slope} degrees is under W/50 = {flat}"),
        ],
        {"pg": pg, "most": most, "slope": slope, "flat": flat},
    )
    return Provision(step, applies, why)


def _largest_minimum(pm_max_psf: Given | None) -> Given:
    """pm,max as given.

    Raises:
        InputError: it is not.
    """
    if pm_max_psf is None:
        raise InputError("pm,max: ASCE 7-22 needs it: 25, 30, 35 or 40 psf by risk category.")
    return pm_max_psf
