"""Wind of ASCE 7 chapters 26 to 30: coefficients, official pressures, worked examples."""

from collections.abc import Callable, Mapping
from typing import Any

from outrigger.base.tables import Row, load
from outrigger.formula.formula import given
from outrigger.loads.wind import components, velocity
from outrigger.loads.wind.coefficients import coefficient
from outrigger.loads.wind.velocity import Velocity
from outrigger.proof.compared import Compared, farthest, half
from outrigger.proof.read import compared, examples, rows, worked

GROUP = "wind"
ASD = 0.6  # of wind at strength level, 2.4.1
IRC_HEIGHT_FT = 30.0
LOWEST_FT, KZ_WITHIN = 15.0, 0.01  # of Table 26.10-1; of its cells, what the constants give
THETA = {"30.3-2B": 15.0, "30.3-2C": 25.0, "30.3-2D": 40.0}  # deg, a slope of each figure

Given = Mapping[str, Any]
Numbers = dict[str, Any]


def at(edition: str, qh_Kd: float, h: float = 15.0) -> Velocity:
    """A velocity pressure whose effective qh Kd is known."""
    Kd = given("Kd", 0.85)
    qh = given("qh", qh_Kd if edition == "ASCE 7-16" else qh_Kd / 0.85, "psf")
    return Velocity(edition, given("h_mean", h, "ft"), Kd, qh, qh)


def _roof(g: Given, **more: Any) -> Any:
    return components.roof(
        at(g["edition"], g["qh_Kd_psf"]), theta_deg=g["theta_deg"], area_sf=float(g["area_sf"]),
        enclosure="enclosed", zone=g["zone"], **more,
    )  # fmt: skip


def roof(g: Given) -> Numbers:
    """Uplift on a zone of a roof."""
    return {"uplift, psf": _roof(g).uplift_psf}


def least(g: Given) -> Numbers:
    """The least net pressure, at allowable stress."""
    return {"pressure, psf": ASD * _roof(g).down_psf}


def overhang(g: Given) -> Numbers:
    """Internal pressure as an overhang counts it."""
    steps = _roof(g, surface="overhang").uplift.chain()
    return {"GCpi": abs(next(s for s in steps if s.symbol == "GCpi").value)}


def speed(g: Given) -> Numbers:
    """Kh and qh of a speed."""
    qh = velocity.velocity(
        edition=g["edition"], speed_mph=float(g["V_mph"]), exposure=g["exposure"],
        mean_height_ft=float(g["h_ft"]),
    ).qh  # fmt: skip
    return {"Kh": qh.inputs["Kz"].value, "qh, psf": qh.value}  # type: ignore[union-attr]


def irc(g: Given) -> Numbers:
    """A pressure of IRC Table R301.2(2) by its own coefficient: holds qh."""
    qh = velocity.velocity(
        edition="ASCE 7-16", speed_mph=float(g["V_mph"]), exposure="B",
        mean_height_ft=IRC_HEIGHT_FT,
    ).qh  # fmt: skip
    return {"pressure, psf": ASD * components.pressure_716(qh.value, g["GCp"], g["GCpi"])}


HOW: dict[str, Callable[[Given], Numbers]] = {
    "roof": roof, "least": least, "overhang": overhang, "velocity": speed, "irc": irc,
}  # fmt: skip


def worked_wind() -> list[Compared]:
    """Every worked example of wind."""
    return [row for one in examples("wind") for row in worked(GROUP, one, HOW[one.how](one.given))]


def coefficients() -> list[Compared]:
    """GCp of a zone at an area; of several zones the one that is farthest off."""
    found = []
    for row in rows("wind_coefficients"):
        keys = {key: row[key] for key in ("edition", "figure", "surface", "sign")}
        curves = load("wind_gcp").matching(**keys)
        area = given("A_eff", float(row["area_ft2"]), "sf")
        here = farthest(
            row["value"],
            (
                float(coefficient(row["edition"], curves, (zone,), area)[0].value)
                for zone in row["zone"].split()
            ),
        )
        edition = row["edition"].removeprefix("ASCE ")
        what = f"GCp, {edition} {row['surface']}, zone {row['zone']}, {row['sign']}"
        found.append(compared(GROUP, row, f"{what}, {row['area_ft2']} sf", here))
    return found


def official_pressures() -> list[Compared]:
    """RAS 127-20: uplift at allowable stress; its Kz over 15 ft is that of the table's cells."""
    found = []
    for row in rows("ras_127_20"):
        h = float(row["h_ft"])
        where = velocity.velocity(
            edition="ASCE 7-16", speed_mph=float(row["V_mph"]), exposure=row["exposure"],
            mean_height_ft=h,
        )  # fmt: skip

        def pressure(zone: str, where: Velocity = where, row: Row = row) -> float:
            uplift = components.roof(
                where, theta_deg=THETA[row["figure"]], area_sf=float(row["area_ft2"]),
                enclosure="enclosed", zone=zone,
            ).uplift_psf  # fmt: skip
            return -ASD * float(uplift)

        allow, why = half(row["value"]), ""
        if h > LOWEST_FT:
            Kz = float(where.qh.inputs["Kz"].value)  # type: ignore[union-attr]
            allow += abs(float(row["value"])) * KZ_WITHIN / Kz
            why = "from Kz of Table 26.10-1, which the constants give within 0.01"
        here = farthest(row["value"], map(pressure, row["zones"].split()))
        what = f"Fig. {row['figure']}, zones {row['zones']}, exposure {row['exposure']}, h {h:g} ft"
        found.append(compared(GROUP, row, what, here, unit="psf", allow=allow, why=why))
    return found


def exposure() -> list[Compared]:
    """Kz by the constants, beside the cells of the table; Ke beside those of its own."""
    found = []
    for row in rows("exposure_coefficients"):
        new = row["edition"] == "ASCE 7-22"
        here = speed({**row, "V_mph": 115, "h_ft": row["z_ft"]})["Kh"]
        why = "from the constants of Table 26.11-1, which stand beside the cells"
        what = f"Kz, exposure {row['exposure']}, {row['z_ft']} ft"
        found.append(compared(GROUP, row, what, here, allow=0.012 if new else KZ_WITHIN, why=why))
    for row in rows("elevation_factors"):
        here = velocity.elevation_factor("ASCE 7-16", float(row["elevation_ft"])).value
        found.append(compared(GROUP, row, f"Ke at {row['elevation_ft']} ft", here))
    return found


def envelope() -> list[Compared]:
    """GCpf of the envelope procedure, cell by cell."""
    found = []
    for row in rows("envelope_coefficients"):
        case, slope = row["load_case"], row["theta_deg"]
        held = load("wind_gcpf").find(load_case=case, theta_to=slope)
        for cell in (name for name in row if name.startswith("z")):
            what = f"GCpf, load case {case}, {slope} deg, zone {cell[1:]}"
            found.append(compared(GROUP, row, what, float(held[cell]), printed=row[cell]))
    return found


def directional() -> list[Compared]:
    """Cp of the directional procedure, cell by cell."""
    found = []
    for row in rows("directional_coefficients"):
        held = load("wind_cp").find(surface=row["surface"], h_over_L=row["h_over_L"])
        for cell in (name for name in row if name.startswith("t") and name[1:].isdigit()):
            what = f"Cp, {row['surface']}, h/L {row['h_over_L']}, {cell[1:]} deg"
            found.append(compared(GROUP, row, what, float(held[cell]), printed=row[cell]))
    return found
