"""Wind of a case: from what the file states to pressures on the roofs over one outrigger."""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions.design_loads import DesignLoad, derived
from outrigger.actions.geometry import Geometry, column
from outrigger.base.units import feet, psi
from outrigger.cases.batch import Batch
from outrigger.formula.formula import Step, given
from outrigger.formula.numbers import Array
from outrigger.loads.snow import rules as snow_rules
from outrigger.loads.wind import areas as wind_areas
from outrigger.loads.wind import components as wind_components
from outrigger.loads.wind import main_system as wind_main
from outrigger.loads.wind import velocity as wind_rules


class Pressures(Struct, frozen=True, eq=False):
    """Wind on the garage roof (uplift, down) and the back span (suction, press), psi, strength
    level.

    `overhang`: uplift of the garage roof's overhang, psi, where a wind speed gives it its own;
    `wall`: wind square to the garage wall, where a wind speed gives it; `derived`: each number that
    follows from that speed.
    """

    uplift: Step
    down: Step
    suction_back: Array
    press_back: Array
    reasons: tuple[str, ...]
    steps: dict[str, tuple[Step, ...]]
    overhang: Step | None = None
    wall: wind_components.WallWind | None = None
    derived: tuple[DesignLoad, ...] = ()


def wind_of(batch: Batch, shape: Geometry, share: Array) -> Pressures:
    """Wind of the cases; `share`: length of wall whose roof load the outrigger takes, in."""
    case, stated_wind = batch.case, batch.case.wind
    house, roof = case.house_roof, case.garage_roof
    suction, speed = batch.load("house_roof.wind_uplift"), batch.number("wind.speed")
    press = batch.load("house_roof.wind_down")
    if speed is None:
        edition = case.basis.loads
        up = given("q", batch.load("wind.uplift"), "psi", edition, "net uplift as stated")
        down = given("q", batch.load("wind.down"), "psi", edition, "net pressure down as stated")
        none = stated_wind.uplift is not None and not (np.any(up.value) or np.any(down.value))
        word = "none, by the file's word" if none else "net pressures as stated"
        if not none and roof.bearing and roof.line is None and batch.any("garage_roof.overhang"):
            word += ", on the overhang as on the roof"
        return Pressures(up, down, suction, press, (f"wind: {word}",), {})
    at = wind_rules.velocity(
        edition=case.basis.loads,
        speed_mph=speed,
        exposure=stated_wind.exposure or "C",
        mean_height_ft=float(feet(stated_wind.mean_height or 0.0)),
        kzt=1.0 if stated_wind.kzt is None else stated_wind.kzt,
        elevation_ft=float(feet(stated_wind.elevation or 0.0)),
    )
    enclosure = stated_wind.enclosure or "partially enclosed"
    zone = stated_wind.zone or "worst"
    theta = snow_rules.slope_of(roof.pitch or 0.0)
    run = column(0.0)
    if roof.bearing:
        run = batch.load("garage_roof.span") / 2 + batch.load("garage_roof.overhang")
    area = replace(
        wind_areas.roof_area.step(
            l_share_ft=feet(share),
            l_run_ft=feet(run),
            s_out_ft=feet(shape.spacing),
            l_end_ft=feet(shape.end),
        ),
        note="not widened to a third of the span, as it may be",
    )
    plan = None if stated_wind.least_plan is None else float(feet(stated_wind.least_plan))
    if stated_wind.method == "main":
        found = wind_main.roof(
            at, theta_deg=theta, enclosure=enclosure, least_plan_ft=plan or 0.0, zone=zone
        )
    else:
        found = wind_components.roof(
            at,
            theta_deg=theta,
            area_sf=area,
            enclosure=enclosure,
            zone=zone,
            along="eave" if roof.bearing else "gable end",
            least_plan_ft=plan,
        )
    hung = None
    if roof.bearing and roof.line is None and batch.any("garage_roof.overhang"):
        hung = _overhang(at, theta, area, enclosure, zone, plan, stated_wind.method)
    reasons = [_told("garage roof", found), *found.notes]
    listed = [
        derived("wind up on the garage roof", found.uplift, "psf", "strength", found.reason),
        derived("wind down on the garage roof", found.down, "psf", "strength", found.reason),
    ]
    steps = {"W_up": (found.uplift, *found.also), "W_down": (found.down,)}
    if hung is not None:
        listed.append(
            derived("wind up on the overhang", hung.uplift, "psf", "strength", hung.reason)
        )
        steps["W_up"] = (*steps["W_up"], replace(hung.uplift, note="on the overhang"))
        up_hung = float(np.ravel(hung.uplift_psf)[0])
        reasons.append(f"wind on the overhang of the garage roof: {up_hung:.1f} psf up, "
                       f"{hung.reason}")  # fmt: skip
        reasons += [note for note in hung.notes if note not in found.notes]
    if house.wind_uplift is None or house.wind_down is None:
        over = wind_components.roof(
            at,
            theta_deg=snow_rules.slope_of(house.pitch or 0.0),
            area_sf=wind_areas.back_area.step(
                s_out_ft=feet(shape.spacing), l_back_ft=feet(shape.back_span)
            ),
            enclosure=enclosure,
        )
        ways = (
            ("W_up", "suction", "up", over.uplift, house.wind_uplift),
            ("W_down", "pressure", "down", over.down, house.wind_down),
        )
        for part, name, way, pressure, own in ways:
            if own is not None:
                continue
            q = psi(np.asarray(pressure.value)) + np.zeros_like(shape.spacing)
            suction, press = (q, press) if part == "W_up" else (suction, q)
            noted = replace(pressure, note=f"{name} on the house roof, on the back span")
            steps[part] = (*steps[part], noted)
            listed.append(
                derived(f"wind {name} on the back span", pressure, "psf", "strength", over.reason)
            )
            first = float(np.ravel(pressure.value)[0])
            reasons.append(
                f"wind on the back span, taken at the stated mean height: {first:.1f} psf {way}, "
                f"{over.reason}"
            )
    wall = None
    height = case.garage_wall.height
    if height and case.garage_wall.out_of_plane_wind is None:
        wall = wind_components.wall(
            at,
            enclosure=enclosure,
            height_ft=float(feet(np.max(column(height)))),
            spacing_ft=feet(shape.plan_spacing),
        )
        source = f"{wall.reason}, at the outriggers"
        listed += [
            derived(f"wind square to the wall {way}", line, "plf", "strength", source)
            for way, line in (("inward", wall.inward_line), ("outward", wall.outward_line))
        ]
        inward, outward = (float(np.ravel(v)[0]) for v in (wall.inward_plf, wall.outward_plf))
        reasons.append(
            f"wind square to the wall, zone {wall.zone}: {inward:.0f} plf inward, {outward:.0f} "
            "plf outward at the outriggers, strength level"
        )
    up = given("q", psi(np.asarray(found.uplift_psf)) + np.zeros_like(share), "psi", "", "wind up")
    down = given(
        "q", psi(np.asarray(found.down_psf)) + np.zeros_like(share), "psi", "", "wind down"
    )
    q_hung = None
    if hung is not None:
        q_hung = psi(np.asarray(hung.uplift_psf)) + np.zeros_like(share)
        q_hung = given("q_overhang", q_hung, "psi", "", "wind up on the overhang")
    return Pressures(
        uplift=up,
        down=down,
        suction_back=suction,
        press_back=press,
        reasons=tuple(reasons),
        steps=steps,
        overhang=q_hung,
        wall=wall,
        derived=tuple(listed),
    )


def _overhang(
    at: wind_rules.Velocity,
    theta: float,
    area: Step,
    enclosure: str,
    zone: str,
    plan: float | None,
    method: str | None,
) -> wind_rules.RoofWind:
    """Wind on the garage roof's overhang by its own coefficients; the outrigger takes it together
    with the roof's, so the effective area is that of both."""
    if method == "main":
        return wind_main.overhang(
            at, theta_deg=theta, enclosure=enclosure, least_plan_ft=plan or 0.0, zone=zone
        )
    return wind_components.roof(
        at, theta_deg=theta, area_sf=area, enclosure=enclosure, zone=zone, surface="overhang"
    )


def _told(what: str, found: wind_rules.RoofWind) -> str:
    up, down = (float(np.ravel(v)[0]) for v in (found.uplift_psf, found.down_psf))
    said = f"{up:.1f} psf up, {down:.1f} psf down"
    return f"wind on the {what}: {said}, {found.reason}"
