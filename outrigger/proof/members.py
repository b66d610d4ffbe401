"""Worked examples of members: stability, stress, interaction, bearing, deflection.

Each function works one kind of example from what the source gives, and returns its numbers by the
names that the data has for them. The bending value of wall studs by SDPWS is not worked but given.
"""

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np

from outrigger.base import units
from outrigger.formula.formula import Step, given
from outrigger.proof.compared import Compared
from outrigger.proof.members_alike import ALONE
from outrigger.proof.read import examples, worked
from outrigger.statics.beam import Beam, Load, Point, Uniform, solve
from outrigger.wood import adjusted as adjust
from outrigger.wood import axial, bearing, deflection, lumber, rectangle
from outrigger.wood import bending as wood_bending
from outrigger.wood import shear as wood_shear
from outrigger.wood.adjusted import Conditions, adjusted
from outrigger.wood.lumber import Wood

GROUP = "stability"
ONE = given("CL", 1.0)
DRY = Conditions()
HELD_IN = 1e-3  # between points that sheathing holds
FAR_IN = 12.0  # of a bearing from the end of its member
AT_CENTRE = "concentrated load at centre, no intermediate lateral support"
BRACED_AT_CENTRE = "concentrated load at centre, lateral support at centre"

Given = Mapping[str, Any]
Numbers = dict[str, Any]


def _wood(g: Given) -> Wood:
    return lumber.wood(g["species"], g["grade"], g["size"])


def _S(wood: Wood) -> Step:
    return rectangle.section_modulus.step(b=wood.size.b, d=wood.size.d)


def _inertia(wood: Wood) -> float:
    return float(rectangle.moment_of_inertia(wood.size.b, wood.size.d))


def _bends(wood: Wood, M: Any, Fb_star: Step, CL: Step = ONE) -> Any:
    return wood_bending.bending(place="span", M=M, S=_S(wood), Fb_star=Fb_star, CL=CL, Cfu=ONE)


def hoist(g: Given) -> Numbers:
    """A beam braced at its ends, a hoist at centre and its own weight; every factor but CL is 1."""
    wood, span = _wood(g), units.inches(g["span_ft"])
    b, d = wood.size.b, wood.size.d
    le = wood_bending.effective_length("single span", AT_CENTRE, span, d)
    Fb_star, Emin_adj = (adjusted(name, wood, DRY, 1.0) for name in ("Fb", "Emin"))
    CL = wood_bending.stability(le, b, d, Fb_star, Emin_adj).CL
    EI = deflection.bending_stiffness(adjusted("E", wood, DRY, 1.0).value, _inertia(wood))
    self_weight = units.pounds_per_inch(g["self_plf"])
    loads: list[Load] = [
        Point(span / 2, [[g["hoist_lb"], 0.0]]),
        Uniform(0.0, span, [[0.0, self_weight]]),
    ]
    beam = solve(Beam((0.0, span), EI, 0.0, span), loads)
    per_foot_pound = _bends(wood, units.inches(1.0), Fb_star, CL)  # under a moment of 1 ft-lb
    R = beam.reactions[0, 0, 0]
    crushing = bearing.bearing(
        link=ALONE, place="end", R=R, b=b, l_bearing=g["bearing_in"],
        Fc_perp_adj=adjusted("Fc_perp", wood, DRY, 1.0),
    )  # fmt: skip
    shear = wood_shear.shear(place="end", V=R, b=b, d=d, Fv_adj=adjusted("Fv", wood, DRY, 1.0))
    found = {step.symbol: step.value for step in CL.chain()}
    sag = beam.deflection(span / 2).sum()
    return {
        "le, in": le.value,
        "RB": found["RB"],
        "FbE, psi": found["FbE"],
        "CL": CL.value,
        "Fb', psi": per_foot_pound.capacity,
        "largest moment, ft-lb": 1 / per_foot_pound.ratio,
        "moment, ft-lb": beam.moment(span / 2).sum() / units.inches(1.0),
        "fv, psi": shear.demand,
        "fc across the grain, psi": crushing.demand,
        "Fc' across the grain, psi": crushing.capacity,
        "deflection, in": sag,
        "span over deflection": span / sag,
    }


def stud(g: Given) -> Numbers:
    """A stud that sheathing holds flatwise, with wind on it, and the plate it stands on."""
    wood, height, CD = _wood(g), g["height_in"], g["CD"]
    b, d = wood.size.b, wood.size.d
    Emin, Fc_star = adjusted("Emin", wood, DRY, CD), adjusted("Fc", wood, DRY, CD)
    slender, FcE1 = axial.buckling(axial.KE_PINNED, height, d, Emin)
    _, held = axial.buckling(axial.KE_PINNED, HELD_IN, b, Emin)
    CP = axial.stability_factor(FcE1, held, Fc_star)
    Fc_adj = adjust.adjusted_compression(Fc_star.value, CP.value)
    fc = axial.compression_stress(g["P_lb"], rectangle.area(b, d))
    wind = Uniform(0.0, height, units.pounds_per_inch(g.get("wind_plf", 0.0)))
    M = solve(Beam((0.0, height), 1e6, 0.0, height), [wind]).moment(height / 2).item()
    Fb_star = adjusted("Fb", wood, DRY, CD)
    fb = _bends(wood, M, Fb_star).demand
    Fb_adj = g.get("Fb_adj_psi", Fb_star.value)
    found = {
        "le/d": slender.value,
        "Fc*, psi": Fc_star.value,
        "FcE, psi": FcE1.value,
        "CP": CP.value,
        "Fc', psi": Fc_adj,
        "fc, psi": fc,
        "fc/Fc'": fc / Fc_adj,
        "M, lb-in": M,
        "fb, psi": fb,
        "Eq. 3.9-3": axial.compression_and_bending(fc, Fc_adj, fb, Fb_adj, FcE1.value),
        "by buckling, lb": Fc_adj / fc * g["P_lb"],
    }
    if "plate_in" in g:
        found["by crushing, lb"] = _crushing(wood, g, None)
        found["by crushing with Cb, lb"] = _crushing(wood, g, FAR_IN)
    return found


def _crushing(wood: Wood, g: Given, to_end: float | None) -> Any:
    """The load at which the ratio of 1 lb on the plate is used up."""
    Cb = bearing.bearing_area_factor(g["plate_in"], to_end)
    check = bearing.bearing(
        link=ALONE, place="plate", R=1.0, b=wood.size.d, l_bearing=g["plate_in"],
        Fc_perp_adj=adjusted("Fc_perp", wood, DRY, g["CD"], Cb),
    )  # fmt: skip
    assert check.ratio is not None
    return 1 / check.ratio


def chord(g: Given) -> Numbers:
    """A chord in tension, bent by an even load, unbraced."""
    wood, CD = _wood(g), g["CD"]
    b, d = wood.size.b, wood.size.d
    Fb_star = adjusted("Fb", wood, DRY, CD)
    le = wood_bending.effective_length("single span", "uniform load", units.inches(g["span_ft"]), d)
    CL = wood_bending.stability(le, b, d, Fb_star, adjusted("Emin", wood, DRY, CD)).CL
    ft = axial.tension_stress(g["T_lb"], rectangle.area(b, d))
    fb = wood_bending.bending_stress(g["M_lb_in"], rectangle.section_modulus(b, d))
    Ft_adj = adjusted("Ft", wood, DRY, CD).value
    bends = _bends(wood, np.ones(1), Fb_star, CL).capacity
    return {
        "ft, psi": ft,
        "Ft', psi": Ft_adj,
        "Fb*, psi": Fb_star.value,
        "CL": CL.value,
        "Fb**, psi": bends,
        "Eq. 3.9-1": axial.tension_and_bending(ft, Ft_adj, fb, Fb_star.value),
        "Eq. 3.9-2": axial.bending_less_tension(fb, ft, bends),
    }


def beam(g: Given) -> Numbers:
    """A beam with a load at centre, in ASD and in LRFD."""
    wood, span, CD = _wood(g), units.inches(g["span_ft"]), g["CD"]
    b, d = wood.size.b, wood.size.d
    EI = deflection.bending_stiffness(adjusted("E", wood, DRY, CD).value, _inertia(wood))
    loads = [Point(span / 2, [[g["D_lb"], g["Lr_lb"]]])]
    solved = solve(Beam((0.0, span), EI, 0.0, span), loads)
    bends = _bends(wood, solved.moment(span / 2).sum(), adjusted("Fb", wood, DRY, CD))
    V = solved.shear(0.0).sum()
    shear = wood_shear.shear(place="end", V=V, b=b, d=d, Fv_adj=adjusted("Fv", wood, DRY, CD))
    droop = deflection.deflection(
        link=ALONE, place="span", long_term=0.0, short_term=solved.deflection(span / 2)[0, 1],
        K_cr=deflection.creep_factor(wet=False, seasoned=True), span=span, limit=360.0,
    )  # fmt: skip
    lrfd, lam, kip = Conditions(method="LRFD"), g["lam"], 1000.0
    per_kip_inch = _bends(wood, kip, adjusted("Fb", wood, lrfd, lam))
    per_kip = wood_shear.shear(place="end", V=kip, b=b, d=d, Fv_adj=adjusted("Fv", wood, lrfd, lam))
    assert per_kip.ratio is not None
    return {
        "S, in3": _S(wood).value,
        "I, in4": _inertia(wood),
        "Fb', psi": bends.capacity,
        "fb, psi": bends.demand,
        "Fv', psi": shear.capacity,
        "fv, psi": shear.demand,
        "live deflection, in": droop.demand,
        "its limit, in": droop.capacity,
        "Mu, k-in": (solved.moment(span / 2) * (1.2, 1.6)).sum() / kip,
        "Mn', k-in": 1 / per_kip_inch.ratio,
        "Vn', k": 1 / per_kip.ratio,
    }


def braced(g: Given) -> Numbers:
    """The same, braced at midspan."""
    wood = _wood(g)
    b, d = wood.size.b, wood.size.d
    le = wood_bending.effective_length("single span", BRACED_AT_CENTRE, g["lu_in"], d)
    return {"le, in": le.value, "RB": wood_bending.slenderness.step(le=le, d=d, b=b).value}


def wet(g: Given) -> Numbers:
    """Adjusted values of wet lumber."""
    wood, use = _wood(g), Conditions(wet=True)
    values = {name: adjusted(name, wood, use, g["CD"]) for name in ("Fb", "Ft", "Fv")}
    bends = _bends(wood, 1.0, values["Fb"]).capacity
    return {"Fb', psi": bends, "Ft', psi": values["Ft"].value, "Fv', psi": values["Fv"].value}


def header(g: Given) -> Numbers:
    """How long a header must bear; its moment."""
    wood, span = _wood(g), units.inches(g["span_ft"])
    line = np.array([[g["D_plf"], g["L_plf"], g["S_plf"]]])
    loads = [Uniform(0.0, span, units.pounds_per_inch(line))]
    solved = solve(Beam((0.0, span), 1e8, 0.0, span), loads)
    R = (solved.reactions[0, :, 0] * (1.0, 0.75, 0.75)).sum()
    check = bearing.bearing(
        link=ALONE, place="header", R=R, b=wood.size.b, l_bearing=1.0,
        Fc_perp_adj=adjusted("Fc_perp", wood, DRY, 1.0),
    )  # fmt: skip
    moment = solved.moment(span / 2)[0, :2].sum()
    return {
        "bearing length, in": check.ratio,  # of 1 in: as many inches as its ratio
        "moment of D + L, k-ft": moment / units.inches(1000.0),
    }


HOW: dict[str, Callable[[Given], Numbers]] = {
    one.__name__: one for one in (hoist, stud, chord, beam, braced, wet, header)
}


def worked_members() -> list[Compared]:
    """Every worked example of a member."""
    return [
        row for one in examples("members") for row in worked(GROUP, one, HOW[one.how](one.given))
    ]
