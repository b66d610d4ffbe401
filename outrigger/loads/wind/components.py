"""Wind on components and cladding: roof surface and garage wall. Units psf, sf, ft, degrees.

ASCE 7 section 30.3, 7-16 and 7-22, mean roof height up to 60 ft, gable roofs up to 45 degrees, at
strength level. The roof figures on file are those of gable roofs; hip and monoslope roofs, steps,
parapets and open buildings have their own and are not covered. The reduction of the wall's
coefficients on roofs up to 10 degrees is not taken. Nothing is taken off for shielding: the garage
wall that faces the house gets the full pressure.
"""

from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from outrigger.base.errors import InputError
from outrigger.base.tables import SEEN, load
from outrigger.formula.formula import Step, amount, formula, given
from outrigger.formula.numbers import Num, greatest
from outrigger.loads.wind.areas import wall_area
from outrigger.loads.wind.coefficients import (
    FLAT,
    coefficient,
    figure_of,
    width_of_zones,
    zones_to_compare,
)
from outrigger.loads.wind.velocity import (
    SLOPE_MOST_DEG,
    RoofWind,
    Velocity,
    above_zero,
    factor,
    internal,
    within,
)

Surface = Literal["roof", "overhang"]
Line = Literal["eave", "gable end"]
WALL = "30.3-1"
OVERHANG_GCPI = (
    "assumption: internal pressure acts on the overhang too; overhang coefficients hold both "
    "faces, and sources differ on it: the larger suction is taken"
)
# The zones of a figure that can stand along a line of the roof's edge; on a tie the first is named.
EDGE_ZONES: dict[Line, tuple[str, ...]] = {"eave": ("3e", "2e"), "gable end": ("3r", "3e", "2n")}
EDGE_ZONES_BARE = ("3", "2")  # 30.3-2A, and every figure of 7-22
WALL_ZONES = ("4", "5")


@formula("p_net", "psf", clause="ASCE 7-16 Eq. 30.3-1")
def pressure_716(qh: Num, GCp: Num, GCpi: Num) -> Num:
    """Net pressure, 7-16: Kd is in qh."""
    return qh * (GCp - GCpi)


@formula("p_net", "psf", clause="ASCE 7-22 Eq. 30.3-1")
def pressure_722(qh: Num, Kd: Num, GCp: Num, GCpi: Num) -> Num:
    """Net pressure, 7-22: Kd here, not in qh."""
    return qh * Kd * (GCp - GCpi)


@formula("p_net", "psf", clause="ASCE 7-22 30.7")
def overhang_over_wall_722(qh: Num, Kd: Num, GCp: Num, GCp_wall: Num, GCpi: Num) -> Num:
    """Net pressure on an overhang, 7-22: roof above, the pressure of the wall below."""
    return qh * Kd * (GCp - GCp_wall - GCpi)


@formula("p_up", "psf", clause="ASCE 7 30.2.2")
def uplift_at_least(p_net: Num, p_least: Num) -> Num:
    """Net uplift, not under the minimum."""
    return greatest(-p_net, p_least)


@formula("p_down", "psf", clause="ASCE 7 30.2.2")
def down_at_least(p_net: Num, p_least: Num) -> Num:
    """Net pressure down, not under the minimum."""
    return greatest(p_net, p_least)


@formula("p_in", "psf", clause="ASCE 7 30.2.2")
def inward_at_least(p_net: Num, p_least: Num) -> Num:
    """Net pressure on the wall, not under the minimum."""
    return greatest(p_net, p_least)


@formula("p_out", "psf", clause="ASCE 7 30.2.2")
def outward_at_least(p_net: Num, p_least: Num) -> Num:
    """Net suction on the wall, not under the minimum."""
    return greatest(-p_net, p_least)


@formula("w_in", "plf", clause="statics")
def inward_line(p_in: Num, h_wall_ft: Num) -> Num:
    """Inward force at the wall line: half the height of a wall hinged at both ends."""
    return p_in * h_wall_ft / 2


@formula("w_out", "plf", clause="statics")
def outward_line(p_out: Num, h_wall_ft: Num) -> Num:
    """Outward force at the wall line: half the height of a wall hinged at both ends."""
    return p_out * h_wall_ft / 2


class WallWind(Struct, frozen=True, eq=False):
    """Net wind on the garage wall, strength level: positive numbers, and how they came about.

    Inward pushes the wall toward the garage's inside, outward sucks it the other way. Which of the
    two pushes an outrigger toward the house is the caller's to say.
    """

    inward: Step
    outward: Step
    inward_line: Step
    outward_line: Step
    zone: str
    reason: str

    @property
    def inward_psf(self) -> Num:
        """Net pressure, psf."""
        return self.inward.value

    @property
    def outward_psf(self) -> Num:
        """Net suction, psf."""
        return self.outward.value

    @property
    def inward_plf(self) -> Num:
        """Force at the wall line, plf of wall."""
        return self.inward_line.value

    @property
    def outward_plf(self) -> Num:
        """Force at the wall line, plf of wall."""
        return self.outward_line.value

    @property
    def steps(self) -> tuple[Step, ...]:
        """The governing steps."""
        return (self.inward_line, self.outward_line)


def roof(
    at: Velocity,
    *,
    theta_deg: float,
    area_sf: Num | Step,
    enclosure: str,
    zone: str = "worst",
    along: Line = "eave",
    surface: Surface = "roof",
    least_plan_ft: Num | None = None,
) -> RoofWind:
    """Net uplift and net pressure down on the roof over the wall line.

    Args:
        at: velocity pressure (`wind.velocity`).
        theta_deg: roof slope, 0 to 45 degrees.
        area_sf: effective wind area. For an outrigger the roof area whose wind it takes, as the
            caller works it out; by 26.2 its width need not be under a third of the span.
        enclosure: "enclosed" or "partially enclosed".
        zone: a zone of the figure, or "worst": the worst that can stand along the line.
        along: the roof edge at the wall line; the zones of 7-16 differ.
        surface: "overhang" for a roof with open air below it.
        least_plan_ft: least plan dimension, for the width of the zones; it changes no pressure.

    Down takes the figure's positive values, for an overhang too (an assumption, said in a note).

    Raises:
        InputError: the figure has no such zone, or no such line or surface.
        TableError: no such enclosure.
        RangeError: slope over 45 degrees, or no area.
    """
    _allowed("along", along, tuple(EDGE_ZONES))
    _allowed("surface", surface, ("roof", "overhang"))
    within("roof slope", theta_deg, 0.0, SLOPE_MOST_DEG, "deg", f"{at.edition} 30.3 ends there")
    above_zero("effective wind area", amount(area_sf), "sf")
    stated = given("A_eff", amount(area_sf), "sf", f"{at.edition} 26.2", "stated")
    area = area_sf if isinstance(area_sf, Step) else stated
    figure = figure_of(at.edition, theta_deg)
    curves = [r for r in load("wind_gcp").matching(edition=at.edition, figure=figure)]
    own = [r for r in curves if r["surface"] == surface]
    suction = [r for r in own or curves if r["sign"] == "neg"]
    edge = edge_zones(at.edition, theta_deg, along)
    zones = zones_to_compare(zone, edge, suction, f"{at.edition} Fig. {figure} ({surface})")
    GCp, taken = coefficient(at.edition, suction, zones, area)
    least_psf = factor("p_least", "minimum net pressure", at.edition)
    up, notes = _suction(at, surface, bool(own), GCp, area, enclosure)
    positive = [r for r in curves if r["surface"] == "roof" and r["sign"] == "pos"]
    press, _ = coefficient(at.edition, positive, ("all",), area)
    down = _net(at, press, internal(enclosure, at.edition, sign=-1))
    if surface == "overhang":
        notes += ("assumption: wind down on an overhang as on the roof, with internal pressure",)
    return RoofWind(
        uplift=uplift_at_least.step(p_net=up, p_least=least_psf),
        down=down_at_least.step(p_net=down, p_least=least_psf),
        zone=taken,
        reason=_reason(zone, taken, edge, f"along the {along}", f"{at.edition} Fig. {figure}"),
        also=() if least_plan_ft is None else (width_of_zones(at.h, figure, least_plan_ft),),
        notes=(f"{at.edition} Fig. {figure} is for gable roofs", *notes),
    )


def edge_zones(edition: str, theta_deg: float, along: Line) -> tuple[str, ...]:
    """The zones that can stand along a line of the roof's edge, by edition and slope."""
    bare = edition == "ASCE 7-22" or figure_of(edition, theta_deg) == FLAT
    return EDGE_ZONES_BARE if bare else EDGE_ZONES[along]


def wall(
    at: Velocity, *, enclosure: str, height_ft: Num, spacing_ft: Num, zone: str = "worst"
) -> WallWind:
    """Net pressure and suction on the garage wall, and the force at the wall line.

    Args:
        at: velocity pressure (`wind.velocity`).
        enclosure: "enclosed" or "partially enclosed".
        height_ft: height of the wall, hinged at top and bottom.
        spacing_ft: length of wall that one outrigger takes.
        zone: "4", "5" (within the zone width of a corner), or "worst", which is 5.

    Raises:
        InputError: no such zone.
        TableError: no such enclosure.
        RangeError: no height or spacing.

    Source: ASCE 7 Fig. 30.3-1; the line load is statics.
    """
    above_zero("height of the wall", height_ft, "ft")
    above_zero("spacing", spacing_ft, "ft")
    h = given("h_wall_ft", height_ft, "ft", "stated")
    area = wall_area.step(h_wall_ft=h, s_wall_ft=given("s_wall_ft", spacing_ft, "ft", "stated"))
    rows = load("wind_gcp").matching(edition=at.edition, figure=WALL)
    suction = [r for r in rows if r["sign"] == "neg"]
    zones = zones_to_compare(zone, WALL_ZONES[::-1], suction, f"{at.edition} Fig. {WALL} (wall)")
    GCp_out, taken = coefficient(at.edition, suction, zones, area)
    GCp_in = _wall_pressure(at.edition, area)
    least_psf = factor("p_least", "minimum net pressure", at.edition)
    out = _net(at, GCp_out, internal(enclosure, at.edition, sign=1))
    press = _net(at, GCp_in, internal(enclosure, at.edition, sign=-1))
    inward = inward_at_least.step(p_net=press, p_least=least_psf)
    outward = outward_at_least.step(p_net=out, p_least=least_psf)
    return WallWind(
        inward=inward,
        outward=outward,
        inward_line=inward_line.step(p_in=inward, h_wall_ft=h),
        outward_line=outward_line.step(p_out=outward, h_wall_ft=h),
        zone=taken,
        reason=_reason(zone, taken, WALL_ZONES, "of a wall", f"{at.edition} Fig. {WALL}"),
    )


def _net(at: Velocity, GCp: Step, GCpi: Step) -> Step:
    """Net pressure of the edition: Kd is in qh, or stands here."""
    if at.edition == "ASCE 7-16":
        return pressure_716.step(qh=at.qh, GCp=GCp, GCpi=GCpi)
    return pressure_722.step(qh=at.qh, Kd=at.Kd, GCp=GCp, GCpi=GCpi)


def _suction(
    at: Velocity, surface: Surface, has_curves: bool, GCp: Step, area: Step, enclosure: str
) -> tuple[Step, tuple[str, ...]]:
    """Net suction on a roof or an overhang, and the assumption it rests on.

    An overhang: Eq. 30.9-1 (7-16) and 30.7-1 (7-22) as written carry GCpi, by D-3 of
    rohreng/anderson-rohr-calcs, docs/plans/2026-09-23-asce722-cc-plan.md; CIRSOC 102-2025 Art. 5.7
    takes none where there is no room below. The larger suction is taken.
    """
    if surface == "roof":
        return _net(at, GCp, internal(enclosure, at.edition, sign=1)), ()
    inside = internal(enclosure, at.edition, sign=1)
    if has_curves:
        clause = f"{at.edition} 30.3, overhang"
        return replace(_net(at, GCp, inside), clause=clause), (OVERHANG_GCPI,)
    note = "assumption: roof suction above and wall pressure below act at once"
    GCp_wall = replace(_wall_pressure(at.edition, area), symbol="GCp_wall")
    over = {"qh": at.qh, "Kd": at.Kd, "GCp": GCp, "GCp_wall": GCp_wall, "GCpi": inside}
    step = overhang_over_wall_722.step(**over)
    return replace(step, note=note, status=SEEN), (note, OVERHANG_GCPI)


def _wall_pressure(edition: str, area: Step) -> Step:
    """GCp of pressure on a wall."""
    rows = load("wind_gcp").matching(edition=edition, figure=WALL, sign="pos")
    return coefficient(edition, rows, ("4",), area)[0]


def _reason(zone: str, taken: str, edge: tuple[str, ...], place: str, figure: str) -> str:
    """Why this zone, in words."""
    if zone != "worst":
        return f"zone {taken} as stated{'' if taken in edge else f', not {place}'}, {figure}"
    return f"zone {taken}: the worst of zones {', '.join(sorted(edge))} of {figure}, {place}"


def _allowed(name: str, value: str, allowed: tuple[str, ...]) -> None:
    if value not in allowed:
        raise InputError(f'{name} "{value}": not known. Allowed: {", ".join(allowed)}.')
