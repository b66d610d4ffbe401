"""Velocity pressure of the wind, and what the wind modules share. Units psf, ft, mph.

ASCE 7 chapter 26, 7-16 and 7-22, at strength level. In 7-16 the directionality factor Kd is part
of qh; in 7-22 it is not and stands in every pressure equation instead. `Velocity` knows which, and
only the pressure formulas of its edition are used with it, so that Kd enters once.

Components and cladding: wind_components.py. Main wind force resisting system: wind_main.py.
"""

from collections.abc import Sequence

import numpy as np
from msgspec import Struct, field
from msgspec.structs import replace

from outrigger.base.errors import InputError, RangeError
from outrigger.base.tables import load
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Num, greatest, where

EDITIONS = ("ASCE 7-16", "ASCE 7-22")
HEIGHT_MOST_FT = 60.0  # 28.2 low-rise buildings, 30.3
SPEED_LEAST_MPH, SPEED_MOST_MPH = 85.0, 250.0  # about what the maps of 26.5 show
SLOPE_MOST_DEG = 45.0  # last roof figure of 30.3
EXPOSURE_B_LOW_FT = 30.0  # footnote of Table 26.10-1: chapter 28, exposure B, under 30 ft


@formula("z_wind", "ft", clause="ASCE 7 Table 26.10-1, note 1", constants={"15": "ft"})
def height_for_exposure(h_mean: Num) -> Num:
    """Height for Kz, not under 15 ft."""
    return greatest(h_mean, 15)


@formula("Kz", "", clause="ASCE 7 Table 26.10-1, note 1")
def exposure_coefficient(c_Kz: Num, r_z: Num) -> Num:
    """Velocity pressure exposure coefficient."""
    return c_Kz * r_z


@formula(
    "qh", "psf", clause="ASCE 7-16 Eq. 26.10-1, Kd included", constants={"0.00256": "psf/mph2"}
)
def velocity_pressure_716(Kz: Num, Kzt: Num, Kd: Num, Ke: Num, V_wind: Num) -> Num:
    """Velocity pressure at the mean roof height, 7-16: Kd is in it."""
    return 0.00256 * Kz * Kzt * Kd * Ke * V_wind**2


@formula(
    "qh", "psf", clause="ASCE 7-22 Eq. 26.10-1, Kd not included", constants={"0.00256": "psf/mph2"}
)
def velocity_pressure_722(Kz: Num, Kzt: Num, Ke: Num, V_wind: Num) -> Num:
    """Velocity pressure at the mean roof height, 7-22: Kd is in the pressure equations."""
    return 0.00256 * Kz * Kzt * Ke * V_wind**2


class Velocity(Struct, frozen=True, eq=False):
    """Velocity pressure at the mean roof height, and what the pressures need with it.

    `qh_low_rise` is qh of chapter 28, which differs in exposure B under 30 ft.
    """

    edition: str
    h: Step
    Kd: Step
    qh: Step
    qh_low_rise: Step


class RoofWind(Struct, frozen=True, eq=False):
    """Net wind on a roof surface, strength level: positive numbers in psf, and how they came about.

    `zone` is the zone and load case that governs the uplift, `reason` why it was taken. `notes`
    are assumptions to print. The chains of `uplift` and `down` hold every step.
    """

    uplift: Step
    down: Step
    zone: str
    reason: str
    also: tuple[Step, ...] = ()
    notes: tuple[str, ...] = field(default=())

    @property
    def uplift_psf(self) -> Num:
        """Net uplift, psf."""
        return self.uplift.value

    @property
    def down_psf(self) -> Num:
        """Net pressure down, psf."""
        return self.down.value

    @property
    def steps(self) -> tuple[Step, ...]:
        """The governing steps."""
        return (self.uplift, self.down, *self.also)


def velocity(
    *,
    edition: str,
    speed_mph: Num,
    exposure: str,
    mean_height_ft: Num,
    kzt: Num = 1.0,
    elevation_ft: Num = 0.0,
) -> Velocity:
    """Velocity pressure qh at the mean roof height, with Kz, Ke and Kd as steps.

    Args:
        edition: "ASCE 7-16" or "ASCE 7-22".
        speed_mph: basic wind speed of that edition, strength level; 85 to 250 mph.
        exposure: "B", "C" or "D".
        mean_height_ft: mean roof height, over 0 and up to 60 ft.
        kzt: topographic factor, 1.0 or more.
        elevation_ft: ground above sea level; 0 gives Ke 1, which is on the safe side.

    Raises:
        InputError: no such edition.
        RangeError: exposure, speed, height or Kzt outside its range.

    Source: ASCE 7 26.5 to 26.10.
    """
    if edition not in EDITIONS:
        raise InputError(f"edition {edition!r}: not on file. Allowed: {', '.join(EDITIONS)}.")
    exposures = [row["exposure"] for row in load("wind_kz").matching(edition=edition)]
    if exposure not in exposures:
        raise RangeError(
            f"exposure {exposure!r}: {edition} 26.7 has exposures {', '.join(exposures)}."
        )
    within("wind speed", speed_mph, SPEED_LEAST_MPH, SPEED_MOST_MPH, "mph", _SPEED)
    above_zero("mean roof height", mean_height_ft, "ft")
    within("mean roof height", mean_height_ft, 0.0, HEIGHT_MOST_FT, "ft", _HEIGHT)
    within("kzt", kzt, 1.0, np.inf, "", "ASCE 7 26.8: Kzt is 1.0 on flat ground and more on hills")
    h = given("h_mean", mean_height_ft, "ft", "stated")
    Kz = _Kz(edition, exposure, h)
    Ke = elevation_factor(edition, elevation_ft)
    Kd = factor("Kd", "Kd", edition)
    others = {"Kzt": given("Kzt", kzt, "", f"{edition} 26.8", "stated"), "Ke": Ke}
    others["V_wind"] = given("V_wind", speed_mph, "mph", f"{edition} 26.5", "stated")

    def pressure(Kz: Step) -> Step:
        if edition == "ASCE 7-16":
            return velocity_pressure_716.step(Kz=Kz, Kd=Kd, **others)
        return velocity_pressure_722.step(Kz=Kz, **others)

    return Velocity(edition, h, Kd, pressure(Kz), pressure(_Kz_low_rise(Kz, exposure, h, edition)))


_SPEED = (
    "the maps of ASCE 7 26.5 lie between these; a lower number may be an allowable-stress or "
    "fastest-mile speed, a higher one km/h"
)
_HEIGHT = "ASCE 7 28.2 and 30.3 end there; a taller building needs 27 and 30.4"


def _Kz(edition: str, exposure: str, h: Step) -> Step:
    """Kz at the mean roof height; Tables 26.10-1 and 26.11-1."""
    row = load("wind_kz").find(edition=edition, exposure=exposure)
    said, status = f"exposure {exposure}", row["status"]
    table = f"{edition} Table 26.11-1"
    zg = given("zg", float(row["zg_ft"]), "ft", table, said, status)
    alpha = given("alpha_wind", float(row["alpha"]), "", table, said, status)
    c = given("c_Kz", float(row["coefficient"]), "", f"{edition} Table 26.10-1", "", status)
    z = height_for_exposure.step(h_mean=h)
    ratio = (np.asarray(z.value) / float(row["zg_ft"])) ** (2 / float(row["alpha"]))
    r_z = Step(
        "r_z",
        ratio[()],
        "",
        f"{edition} Table 26.10-1, note 1",
        "(z / zg)^(2 / α)",
        inputs={"z_wind": z, "zg": zg, "alpha_wind": alpha},
    )
    return exposure_coefficient.step(c_Kz=c, r_z=r_z)


def _Kz_low_rise(Kz: Step, exposure: str, h: Step, edition: str) -> Step:
    """Kz of chapter 28: not under 0.70 in exposure B under 30 ft, else Kz."""
    low = np.asarray(h.value) < EXPOSURE_B_LOW_FT
    if exposure != "B" or not np.any(low):
        return Kz
    row = load("wind_factors").find(name="Kz chapter 28, exposure B")
    value = where(low, float(row["value"]), Kz.value)
    note = "chapter 28, exposure B under 30 ft: 0.70 in place of the formula"
    inputs = {} if np.all(low) else {"Kz": Kz}
    clause = f"{edition} {row['clause']}"
    return Step("Kz", value, "", clause, note, row["status"], inputs=inputs)


def elevation_factor(edition: str, elevation_ft: Num) -> Step:
    """Ke, ground elevation in ft. ASCE 7 Table 26.9-1, note 2."""
    z_e = given("z_e", elevation_ft, "ft", "stated")
    Ke = np.exp(-0.0000362 * np.asarray(elevation_ft, dtype=float))[()]
    note = "e^(−0.0000362 ze)"
    return Step("Ke", Ke, "", f"{edition} Table 26.9-1", note, inputs={"z_e": z_e})


def factor(symbol: str, name: str, edition: str) -> Step:
    """A single value of wind_factors.csv, with its clause and status."""
    row = load("wind_factors").find(name=name)
    clause = f"{edition} {row['clause']}"
    return given(symbol, float(row["value"]), row["unit"], clause, row["note"], row["status"])


def internal(enclosure: str, edition: str, *, sign: int) -> Step:
    """GCpi with the sign that adds: +1 with suction on the outside, -1 with pressure.

    Raises:
        TableError: no such enclosure; those on file are named.
    """
    step = factor("GCpi", f"GCpi {enclosure}", edition)
    acts = "pushing out from inside" if sign > 0 else "pulling in from inside"
    return replace(step, value=sign * step.value, note=f"{enclosure}, {acts}; {step.note}")


def within(name: str, value: Num, low: float, high: float, unit: str, reason: str) -> None:
    """Refuse a number, or any of an array, outside a provision's range.

    Raises:
        RangeError: naming the value, the range and the provision.
    """
    numbers = np.atleast_1d(np.asarray(value, dtype=float)).ravel()
    outside = numbers[~((numbers >= low) & (numbers <= high))]
    if not len(outside):
        return
    here = f"{low:g} to {high:g} {unit}" if np.isfinite(high) else f"{low:g} or more {unit}"
    found = f"{name} {outside[0]:g} {unit}".rstrip()
    raise RangeError(f"{found}: outside {here.rstrip()}: {reason}.")


def above_zero(name: str, value: Num, unit: str) -> None:
    """Refuse zero, negative and NaN.

    Raises:
        RangeError: naming the value.
    """
    numbers = np.atleast_1d(np.asarray(value, dtype=float)).ravel()
    if not np.all(numbers > 0):
        wrong = numbers[~(numbers > 0)][0]
        raise RangeError(f"{name} {wrong:g} {unit}: must be over 0 {unit}.")


def joined(names: Sequence[str]) -> str:
    """Names in words: 3e; 2e or 3e."""
    return " or ".join(names)
