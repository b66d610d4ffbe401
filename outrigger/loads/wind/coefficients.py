"""External pressure coefficients GCp of components and cladding, by figure, zone and area.

ASCE 7 Figures 30.3-1 and 30.3-2A to 30.3-2D. Between the two end points of a curve the figures
draw a straight line over the log10 of the effective wind area; outside them it is level.
"""

import numpy as np
from msgspec.structs import replace

from outrigger.base.errors import InputError
from outrigger.base.tables import Row, load, worst
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Array, Num, greatest, least, where
from outrigger.loads.wind.velocity import above_zero, joined

FLAT = "30.3-2A"  # the figure of roofs up to 7 degrees
_COLUMNS = ("A1_sf", "GCp1", "A2_sf", "GCp2")


@formula("GCp", "", clause="ASCE 7 30.3")
def interpolated_in_area(GCp1: Num, GCp2: Num, log_A: Num, log_A1: Num, log_A2: Num) -> Num:
    """External pressure coefficient, a straight line in the log of the effective wind area."""
    return GCp1 + (GCp2 - GCp1) * ((log_A - log_A1) / (log_A2 - log_A1))


@formula("a_zone", "ft", clause="ASCE 7 Figs. 30.3-1 and 30.3-2, a", constants={"3": "ft"})
def zone_width(B_plan: Num, h_mean: Num) -> Num:
    """Width of the edge zones."""
    return greatest(least(0.1 * B_plan, 0.4 * h_mean), 0.04 * B_plan, 3)


@formula("a_zone", "ft", clause="ASCE 7 Fig. 30.3-2A")
def zone_width_flat(h_mean: Num) -> Num:
    """Width of the edge zones on a roof up to 7 degrees."""
    return 0.6 * h_mean


def figure_of(edition: str, theta_deg: float) -> str:
    """The roof figure of a slope."""
    rows = load("wind_gcp").matching(edition=edition, surface="roof")  # from flat to steep
    return next(row["figure"] for row in rows if theta_deg <= float(row["theta_to_deg"]))


def zones_to_compare(
    zone: str, edge: tuple[str, ...], rows: list[Row], where_from: str
) -> tuple[str, ...]:
    """The zones to compare: the stated one, or those along the edge."""
    if zone == "worst":
        return edge
    listed = sorted({name for row in rows for name in row["zones"].split()})
    if zone not in listed:
        raise InputError(
            f'zone "{zone}": {where_from} has no such zone. Its zones: {", ".join(listed)}; '
            'or "worst".'
        )
    return (zone,)


def coefficient(
    edition: str, rows: list[Row], zones: tuple[str, ...], area: Step
) -> tuple[Step, str]:
    """GCp at an area, the most negative of the zones element by element, and the zone it is from.

    Between the end points of a curve a straight line in log10 of the area, level outside them.
    Where a curve is read in two ways the more negative reading counts.
    """
    A = np.asarray(area.value, dtype=float)
    curves = [(zone, curve) for zone in zones for curve in _readings(_of(rows, zone))]
    taken, index = _ends(curves[0][1], A), np.zeros(A.shape, dtype=int)
    for number, (_, curve) in enumerate(curves[1:], 1):
        other = _ends(curve, A)
        worse = _on_curve(other, A) < _on_curve(taken, A)
        taken = {c: where(worse, other[c], taken[c]) for c in _COLUMNS}
        index = np.where(worse, number, index)
    found = [curves[k] for k in np.flatnonzero(np.bincount(index.ravel()))]
    names = list(dict.fromkeys(zone for zone, _ in found))
    used = [row for _, curve in found for row in curve]
    clause = f"{edition} Fig. {used[0]['figure']}"
    place = "every zone" if used[0]["sign"] == "pos" else f"zone {joined(names)}"
    said = [f"{used[0]['surface']}, {place}", *dict.fromkeys(r["note"] for r in used)]
    note = "; ".join(text for text in said if text)
    status = worst(*(r["status"] for r in used))
    log_A = Step(
        "log_A",
        np.log10(np.clip(A, taken["A1_sf"], taken["A2_sf"]))[()],
        "",
        clause,
        "log10 of the area",
        inputs={"A_eff": area},
    )
    step = interpolated_in_area.step(
        GCp1=given("GCp1", taken["GCp1"], "", clause, note, status),
        GCp2=given("GCp2", taken["GCp2"], "", clause, note, status),
        log_A=log_A,
        log_A1=_log_end("log_A1", taken["A1_sf"], clause),
        log_A2=_log_end("log_A2", taken["A2_sf"], clause),
    )
    return replace(step, clause=clause), joined(names)


def width_of_zones(h: Step, figure: str, least_plan_ft: Num) -> Step:
    """Width of the edge zones."""
    if figure == FLAT:
        return zone_width_flat.step(h_mean=h)
    above_zero("least plan dimension", least_plan_ft, "ft")
    return zone_width.step(B_plan=given("B_plan", least_plan_ft, "ft", "stated"), h_mean=h)


def _of(rows: list[Row], zone: str) -> list[Row]:
    """The rows of a zone."""
    return [row for row in rows if zone in row["zones"].split()]


def _readings(rows: list[Row]) -> list[list[Row]]:
    """The rows of a zone as curves: in pieces where one has a knee, another from the same area on
    where the figure is read in two ways."""
    curves: list[list[Row]] = []
    for row in rows:
        if not curves or row["A1_sf"] == curves[-1][0]["A1_sf"]:
            curves.append([row])
        else:
            curves[-1].append(row)
    return curves


def _ends(rows: list[Row], A: Array) -> dict[str, Num]:
    """The end points of a zone's curve; past a knee those of the next piece."""
    ends: dict[str, Num] = {c: float(rows[0][c]) for c in _COLUMNS}
    for row in rows[1:]:
        past = float(row["A1_sf"]) < A
        ends = {c: where(past, float(row[c]), ends[c]) for c in _COLUMNS}
    return ends


def _on_curve(ends: dict[str, Num], A: Array) -> Num:
    """GCp between end points, for comparing zones."""
    first, last = np.log10(ends["A1_sf"]), np.log10(ends["A2_sf"])
    log_A = np.log10(np.clip(A, ends["A1_sf"], ends["A2_sf"]))
    value: Num = interpolated_in_area(ends["GCp1"], ends["GCp2"], log_A, first, last)
    return value


def _log_end(symbol: str, sf: Num, clause: str) -> Step:
    """The area at an end of the curve; its status is that of the GCp there."""
    note = f"log10 of {sf:g} sf" if np.ndim(sf) == 0 else "log10 of the area at the curve's end"
    return given(symbol, np.log10(sf), "", clause, note)
