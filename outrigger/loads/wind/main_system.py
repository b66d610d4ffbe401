"""Wind on the roof as part of the main wind force resisting system. Units psf, ft, degrees.

ASCE 7 28.3 (envelope) and 27.3 (directional), 7-16 and 7-22, mean roof height up to 60 ft and not
over the least plan dimension, gable roofs up to 45 degrees, at strength level. Both are computed
and the larger is taken. Open where a reaction gathers wind from more than one surface; an
outrigger gathers it from one, so components and cladding (wind_components.py) is the usual choice.

An overhang takes the pressure that 28.3.3 and 27.3.3 put under a windward one, with the strongest
suction on its top. Not covered: hip and monoslope roofs. The minimum loads of 27.1.5 and 28.3.4 act
sideways on the projected building and give no uplift.
"""

from collections.abc import Callable
from itertools import pairwise

import numpy as np
from msgspec.structs import replace

from outrigger.base.errors import InputError, RangeError
from outrigger.base.tables import Row, load
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Array, Num, greatest
from outrigger.loads.wind.velocity import (
    SLOPE_MOST_DEG,
    RoofWind,
    Velocity,
    above_zero,
    factor,
    internal,
    joined,
    within,
)

ENVELOPE_ZONES = ("2", "3", "2E", "3E")  # roof; E within the end strip
LOAD_CASES = ("A", "B")  # wind square to the ridge, wind along it
NORMAL_FROM_DEG = 10.0  # Fig. 27.3-1: under it wind square to the ridge counts as along
_ALONG = "wind along the ridge, within h/2 of the gable end"
_TABLE_SLOPES = (10, 15, 20, 25, 30, 35, 45)


@formula("GCpf", "", clause="ASCE 7 Fig. 28.3-1")
def envelope_in_slope(GCpf_1: Num, GCpf_2: Num, theta_roof: Num, theta_1: Num, theta_2: Num) -> Num:
    """Coefficient of the envelope procedure between two slopes."""
    return GCpf_1 + (GCpf_2 - GCpf_1) * ((theta_roof - theta_1) / (theta_2 - theta_1))


@formula("Cp", "", clause="ASCE 7 Fig. 27.3-1")
def directional_in_slope(
    Cp_theta1: Num, Cp_theta2: Num, theta_roof: Num, theta_1: Num, theta_2: Num
) -> Num:
    """Coefficient of the directional procedure between two slopes."""
    return Cp_theta1 + (Cp_theta2 - Cp_theta1) * ((theta_roof - theta_1) / (theta_2 - theta_1))


@formula("h_L", "", clause="ASCE 7 Fig. 27.3-1")
def height_over_length(h_mean: Num, B_plan: Num) -> Num:
    """Height over the least plan dimension, which gives the largest h/L."""
    return h_mean / B_plan


@formula("Cp", "", clause="ASCE 7 Fig. 27.3-1")
def directional_in_height(Cp_1: Num, Cp_2: Num, h_L: Num, h_L1: Num, h_L2: Num) -> Num:
    """Coefficient of the directional procedure between two rows of h/L."""
    return Cp_1 + (Cp_2 - Cp_1) * ((h_L - h_L1) / (h_L2 - h_L1))


@formula("p_28", "psf", clause="ASCE 7-16 Eq. 28.3-1")
def envelope_pressure_716(qh: Num, GCpf: Num, GCpi: Num) -> Num:
    """Net pressure, envelope procedure, 7-16: Kd is in qh."""
    return qh * (GCpf - GCpi)


@formula("p_28", "psf", clause="ASCE 7-22 Eq. 28.3-1")
def envelope_pressure_722(qh: Num, Kd: Num, GCpf: Num, GCpi: Num) -> Num:
    """Net pressure, envelope procedure, 7-22: Kd here, not in qh."""
    return qh * Kd * (GCpf - GCpi)


@formula("p_27", "psf", clause="ASCE 7-16 Eq. 27.3-1, q and qi are qh")
def directional_pressure_716(qh: Num, G_gust: Num, Cp: Num, GCpi: Num) -> Num:
    """Net pressure, directional procedure, 7-16: Kd is in qh."""
    return qh * G_gust * Cp - qh * GCpi


@formula("p_27", "psf", clause="ASCE 7-22 Eq. 27.3-1, q and qi are qh")
def directional_pressure_722(qh: Num, Kd: Num, G_gust: Num, Cp: Num, GCpi: Num) -> Num:
    """Net pressure, directional procedure, 7-22: Kd here, not in qh."""
    return qh * Kd * G_gust * Cp - qh * Kd * GCpi


@formula("p_28", "psf", clause="ASCE 7-16 28.3.3")
def envelope_overhang_716(qh: Num, GCpf: Num, GCp_under: Num) -> Num:
    """Net pressure on a windward overhang, envelope procedure, 7-16: Kd is in qh."""
    return qh * (GCpf - GCp_under)


@formula("p_28", "psf", clause="ASCE 7-22 28.3.3")
def envelope_overhang_722(qh: Num, Kd: Num, GCpf: Num, GCp_under: Num) -> Num:
    """Net pressure on a windward overhang, envelope procedure, 7-22: Kd here, not in qh."""
    return qh * Kd * (GCpf - GCp_under)


@formula("p_27", "psf", clause="ASCE 7-16 27.3.3")
def directional_overhang_716(qh: Num, G_gust: Num, Cp: Num, Cp_under: Num) -> Num:
    """Net pressure on a windward overhang, directional procedure, 7-16: Kd is in qh."""
    return qh * G_gust * (Cp - Cp_under)


@formula("p_27", "psf", clause="ASCE 7-22 27.3.3")
def directional_overhang_722(qh: Num, Kd: Num, G_gust: Num, Cp: Num, Cp_under: Num) -> Num:
    """Net pressure on a windward overhang, directional procedure, 7-22: Kd here, not in qh."""
    return qh * Kd * G_gust * (Cp - Cp_under)


@formula("p_up", "psf", clause="the larger of ASCE 7 28.3 and 27.3")
def larger_uplift(p_28: Num, p_27: Num) -> Num:
    """Net uplift: the larger of the two procedures."""
    return greatest(-p_28, -p_27)


@formula("p_down", "psf", clause="the larger of ASCE 7 28.3 and 27.3")
def larger_down(p_28: Num, p_27: Num) -> Num:
    """Net pressure down: the larger of the two procedures; 27.3 always leaves some."""
    return greatest(p_28, p_27)


def roof(
    at: Velocity, *, theta_deg: float, enclosure: str, least_plan_ft: Num, zone: str = "worst"
) -> RoofWind:
    """Net uplift and net pressure down on the roof over the wall line.

    Args:
        at: velocity pressure (`wind.velocity`).
        theta_deg: roof slope, 0 to 45 degrees.
        enclosure: "enclosed" or "partially enclosed".
        least_plan_ft: least plan dimension, ft, not under the mean roof height.
        zone: envelope zone of the roof, 2, 3, 2E or 3E; "worst" compares all four. The
            directional procedure has no zones: its worst case is always taken.

    Raises:
        InputError: no such zone.
        TableError: no such enclosure.
        RangeError: slope over 45 degrees, or the building higher than its least plan dimension.
    """
    within(
        "roof slope",
        theta_deg,
        0.0,
        SLOPE_MOST_DEG,
        "deg",
        f"the figures of {at.edition} 27.3 on file end there",
    )
    above_zero("least plan dimension", least_plan_ft, "ft")
    if np.any(np.asarray(at.h.value) > np.asarray(least_plan_ft)):
        raise RangeError(
            f"mean roof height over the least plan dimension: {at.edition} 28.2 holds for low-rise "
            "buildings, no higher than that and up to 60 ft."
        )
    if zone not in (*ENVELOPE_ZONES, "worst"):
        raise InputError(
            f'zone "{zone}": {at.edition} Fig. 28.3-1 has no such roof zone. Its roof zones: '
            f'{", ".join(ENVELOPE_ZONES)}; or "worst".'
        )
    theta = given("theta_roof", theta_deg, "deg", "stated")
    ratio = height_over_length.step(
        h_mean=at.h, B_plan=given("B_plan", least_plan_ft, "ft", "stated")
    )
    out, pull = (internal(enclosure, at.edition, sign=s) for s in (1, -1))
    zones = ENVELOPE_ZONES if zone == "worst" else (zone,)
    up_28 = _envelope(at, theta, zones, out, min)
    down_28 = _envelope(at, theta, zones, pull, max)
    up_27 = _directional(at, _suction(ratio, at.edition), out)
    down_27 = _directional(at, _pressure(theta, at.edition), pull)
    taken = np.asarray(up_28.value) <= np.asarray(up_27.value)
    names = [up.note for up, some in ((up_28, taken.any()), (up_27, (~taken).any())) if some]
    return RoofWind(
        uplift=larger_uplift.step(p_28=up_28, p_27=up_27),
        down=larger_down.step(p_28=down_28, p_27=down_27),
        zone=joined(names),
        reason="envelope (28.3) and directional (27.3) procedures: the larger uplift is taken",
        notes=(
            f"{at.edition} Figs. 28.3-1 and 27.3-1 for gable roofs",
            "h/L with the least plan dimension for uplift, the lowest h/L for pressure down",
        ),
    )


def overhang(
    at: Velocity, *, theta_deg: float, enclosure: str, least_plan_ft: Num, zone: str = "worst"
) -> RoofWind:
    """Net uplift and net pressure down on the overhang over the wall line; arguments as `roof`.

    Down is that of the roof: neither procedure has a value of its own for it. The pressure from
    below would take some off, and a roof's internal suction, which an overhang has not, is in it.

    Source: ASCE 7 28.3.3 and 27.3.3, recalled.
    """
    on_roof = roof(
        at, theta_deg=theta_deg, enclosure=enclosure, least_plan_ft=least_plan_ft, zone=zone
    )
    theta = given("theta_roof", theta_deg, "deg", "stated")
    B = given("B_plan", least_plan_ft, "ft", "stated")
    zones = ENVELOPE_ZONES if zone == "worst" else (zone,)
    GCpf = _worst_GCpf(at, theta, zones, min)
    Cp = _suction(height_over_length.step(h_mean=at.h, B_plan=B), at.edition)
    G = factor("G_gust", "G_gust", at.edition)
    under_28 = factor("GCp_under", "GCp under an overhang, chapter 28", at.edition)
    under_27 = factor("Cp_under", "Cp under an overhang, chapter 27", at.edition)
    low = at.qh_low_rise
    if at.edition == "ASCE 7-16":
        p_28 = envelope_overhang_716.step(qh=low, GCpf=GCpf, GCp_under=under_28)
        p_27 = directional_overhang_716.step(qh=at.qh, G_gust=G, Cp=Cp, Cp_under=under_27)
    else:
        p_28 = envelope_overhang_722.step(qh=low, Kd=at.Kd, GCpf=GCpf, GCp_under=under_28)
        p_27 = directional_overhang_722.step(qh=at.qh, Kd=at.Kd, G_gust=G, Cp=Cp, Cp_under=under_27)
    return RoofWind(
        uplift=larger_uplift.step(p_28=p_28, p_27=p_27),
        down=on_roof.down,
        zone=on_roof.zone,
        reason="pressure below and suction above at once (28.3.3 and 27.3.3, the larger)",
        notes=("assumption: wind down on an overhang as on the roof, with internal pressure",),
    )


def _envelope(
    at: Velocity, theta: Step, zones: tuple[str, ...], GCpi: Step, worst: Callable[..., Step]
) -> Step:
    """Net pressure of the envelope procedure: the worst of the zones and both load cases."""
    GCpf, qh = _worst_GCpf(at, theta, zones, worst), at.qh_low_rise
    if at.edition == "ASCE 7-16":
        step = envelope_pressure_716.step(qh=qh, GCpf=GCpf, GCpi=GCpi)
    else:
        step = envelope_pressure_722.step(qh=qh, Kd=at.Kd, GCpf=GCpf, GCpi=GCpi)
    return replace(step, note=f"28.3 {GCpf.note}")


def _worst_GCpf(
    at: Velocity, theta: Step, zones: tuple[str, ...], worst: Callable[..., Step]
) -> Step:
    """GCpf of the worst of the zones and both load cases."""
    found = [_GCpf(at.edition, theta, zone, case) for case in LOAD_CASES for zone in zones]
    return worst(found, key=lambda step: float(np.asarray(step.value)))


def _GCpf(edition: str, theta: Step, zone: str, load_case: str) -> Step:
    """GCpf of a roof zone, a straight line in the slope between rows."""
    clause, said = f"{edition} Fig. 28.3-1", f"zone {zone}, load case {load_case}"
    slope = float(np.asarray(theta.value))
    rows = load("wind_gcpf").matching(load_case=load_case)
    for row in rows:
        if float(row["theta_from"]) <= slope <= float(row["theta_to"]):
            return given("GCpf", float(row[f"z{zone}"]), "", clause, said, row["status"])
    before, after = next(
        (a, b) for a, b in pairwise(rows) if float(a["theta_to"]) < slope < float(b["theta_from"])
    )
    step = envelope_in_slope.step(
        GCpf_1=given("GCpf_1", float(before[f"z{zone}"]), "", clause, said, before["status"]),
        GCpf_2=given("GCpf_2", float(after[f"z{zone}"]), "", clause, said, after["status"]),
        theta_roof=theta,
        theta_1=given("theta_1", float(before["theta_to"]), "deg", clause),
        theta_2=given("theta_2", float(after["theta_from"]), "deg", clause),
    )
    return replace(step, clause=f"{clause}, straight line in the slope", note=said)


def _directional(at: Velocity, Cp: Step, GCpi: Step) -> Step:
    """Net pressure of the directional procedure."""
    G = factor("G_gust", "G_gust", at.edition)
    if at.edition == "ASCE 7-16":
        step = directional_pressure_716.step(qh=at.qh, G_gust=G, Cp=Cp, GCpi=GCpi)
    else:
        step = directional_pressure_722.step(qh=at.qh, Kd=at.Kd, G_gust=G, Cp=Cp, GCpi=GCpi)
    return replace(step, note=f"27.3 {Cp.note}")


def _suction(h_L: Step, edition: str) -> Step:
    """Cp of the strongest suction on the roof: wind along the ridge, within h/2 of the gable end.

    The wall line runs through that part. Under 10 degrees wind square to the ridge has the same
    value; on steeper roofs the windward and leeward slopes never have a stronger one.
    """
    rows = load("wind_cp").matching(surface="along, suction")
    clause, status = f"{edition} Fig. 27.3-1", rows[0]["status"]
    low, high = (float(row["h_over_L"]) for row in rows)
    x: Array = np.clip(np.asarray(h_L.value, dtype=float), low, high)
    said = [f"wind along the ridge, h/L {row['h_over_L']}" for row in rows]
    step = directional_in_height.step(
        Cp_1=given("Cp_1", float(rows[0]["t10"]), "", clause, said[0], status),
        Cp_2=given("Cp_2", float(rows[1]["t10"]), "", clause, said[1], status),
        h_L=Step("h_L", x[()], "", clause, "kept to the table's rows", inputs={"h_L": h_L}),
        h_L1=given("h_L1", low, "", clause),
        h_L2=given("h_L2", high, "", clause),
    )
    return replace(step, clause=f"{clause}, straight line in h/L", note=_ALONG)


def _pressure(theta: Step, edition: str) -> Step:
    """Cp that presses most or lifts least: the row of the lowest h/L, the safe side for down."""
    if float(np.asarray(theta.value)) < NORMAL_FROM_DEG:
        (row,) = load("wind_cp").matching(surface="along, pressure")
        clause, said = f"{edition} Fig. 27.3-1", "slope under 10°, the smaller suction"
        return given("Cp", float(row["t10"]), "", clause, said, row["status"])
    row = load("wind_cp").matching(surface="windward, pressure")[0]
    return _in_slope(row, theta, edition)


def _in_slope(row: Row, theta: Step, edition: str) -> Step:
    """Cp of one row at a slope of 10 degrees or more, a straight line between its columns."""
    clause = f"{edition} Fig. 27.3-1"
    said = f"{row['surface']}, h/L {row['h_over_L']}"
    slope = float(np.asarray(theta.value))
    if slope in _TABLE_SLOPES:
        return given("Cp", float(row[f"t{slope:g}"]), "", clause, said, row["status"])
    low, high = next((a, b) for a, b in pairwise(_TABLE_SLOPES) if a < slope < b)
    step = directional_in_slope.step(
        Cp_theta1=given("Cp_theta1", float(row[f"t{low}"]), "", clause, said, row["status"]),
        Cp_theta2=given("Cp_theta2", float(row[f"t{high}"]), "", clause, said, row["status"]),
        theta_roof=theta,
        theta_1=given("theta_1", float(low), "deg", clause),
        theta_2=given("theta_2", float(high), "deg", clause),
    )
    return replace(step, clause=f"{clause}, straight line in the slope", note=said)
