"""The member: bending, stability, shear, bearing and deflection. NDS 2018 chapters 3 and 4.

Lengths in, forces lb, moments lb-in, stresses psi. Every function takes floats or arrays that
broadcast to (cases, combinations).
"""

from dataclasses import replace

import numpy as np

from outrigger.base import tables
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, amount, changed, formula, given
from outrigger.formula.numbers import Num, cos_deg, least, sin_deg, sqrt, where
from outrigger.wood.adjusted import adjusted_bending

SLENDERNESS_LIMIT = 50.0  # NDS 2018 3.3.3.7


@formula("fb", "psi", clause="NDS 2018 3.3.2")
def bending_stress(M: Num, S: Num) -> Num:
    """Bending stress at the extreme fibre."""
    return M / S


@formula("le", "in", clause="NDS 2018 Table 3.3.3")
def effective_length_of(k_lu: Num, lu: Num, k_d: Num, d: Num) -> Num:
    """Effective length of a bending member; the coefficients are the table's."""
    return k_lu * lu + k_d * d


@formula("RB", "", clause="NDS 2018 3.3.3.6")
def slenderness(le: Num, d: Num, b: Num) -> Num:
    """Slenderness ratio of a bending member."""
    return sqrt(le * d / b**2)


@formula("FbE", "psi", clause="NDS 2018 3.3.3.8")
def critical_buckling(Emin_adj: Num, RB: Num) -> Num:
    """Critical buckling design value, bending."""
    return 1.20 * Emin_adj / RB**2


@formula("CL", "", clause="NDS 2018 3.3.3.8, Eq. 3.3-6")
def beam_stability(FbE: Num, Fb_star: Num) -> Num:
    """Beam stability factor."""
    return (1 + FbE / Fb_star) / 1.9 - sqrt(
        ((1 + FbE / Fb_star) / 1.9) ** 2 - (FbE / Fb_star) / 0.95
    )


@formula("CL", "", clause="smaller of the two sides of the edge")
def stability_at_edge(CL_arm: Num, CL_back: Num) -> Num:
    """Beam stability factor at the edge: the hogging moment there serves both sides."""
    return least(CL_arm, CL_back)


@formula("FcE", "psi", clause="NDS 2018 3.7.1.5")
def critical_column_buckling(Emin_adj: Num, le: Num, d: Num) -> Num:
    """Critical buckling design value, compression; d in the plane of buckling."""
    return 0.822 * Emin_adj / (le / d) ** 2


@formula("CP", "", clause="NDS 2018 3.7.1.5, Eq. 3.7-1")
def column_stability(FcE: Num, Fc_star: Num, c: Num) -> Num:
    """Column stability factor; c is 0.8 for sawn lumber."""
    return (1 + FcE / Fc_star) / (2 * c) - sqrt(
        ((1 + FcE / Fc_star) / (2 * c)) ** 2 - (FcE / Fc_star) / c
    )


@formula("fv", "psi", clause="NDS 2018 3.4.2, Eq. 3.4-2")
def shear_stress(V: Num, b: Num, d: Num) -> Num:
    """Horizontal shear stress in a rectangle."""
    return 3 * V / (2 * b * d)


@formula("Vr_adj", "lb", clause="NDS 2018 3.4.3.3, Eq. 3.4-6")
def split_near_end(Fv_adj: Num, b: Num, d_e: Num, d: Num) -> Num:
    """Shear at a connection less than 5 d from the end; d_e from the unloaded edge."""
    return 2 / 3 * Fv_adj * b * d_e * (d_e / d) ** 2


@formula("Vr_adj", "lb", clause="NDS 2018 3.4.3.3, Eq. 3.4-7")
def split_inside(Fv_adj: Num, b: Num, d_e: Num) -> Num:
    """Shear at a connection 5 d or more from the end."""
    return 2 / 3 * Fv_adj * b * d_e


@formula("fc_perp", "psi", clause="NDS 2018 3.10.2")
def bearing_stress(R: Num, b: Num, l_bearing: Num) -> Num:
    """Compression across the grain under a reaction."""
    return R / (b * l_bearing)


@formula("Cb", "", clause="NDS 2018 3.10.4, Eq. 3.10-2", constants={"0.375": "in"})
def bearing_area(l_bearing: Num) -> Num:
    """Bearing area factor, under 6 in long and 3 in or more from the end."""
    return (l_bearing + 0.375) / l_bearing


@formula("F_theta", "psi", clause="NDS 2018 3.10.3, Eq. 3.10-1")
def at_an_angle(Fc_star: Num, Fc_perp_adj: Num, theta_grain: Num) -> Num:
    """Bearing value at an angle between load and grain (Hankinson)."""
    return (
        Fc_star
        * Fc_perp_adj
        / (Fc_star * sin_deg(theta_grain) ** 2 + Fc_perp_adj * cos_deg(theta_grain) ** 2)
    )


@formula("theta_grain", "deg", clause="geometry", constants={"90": "deg"})
def angle_to_grain(theta_roof: Num) -> Num:
    """Angle between a vertical load and the grain of a member that slopes."""
    return 90 - theta_roof


@formula("E_true", "psi", clause="NDS 2018 Appendix D")
def true_modulus(E_adj: Num) -> Num:
    """E without the shear deflection that the tabulated E of sawn lumber includes."""
    return 1.03 * E_adj


@formula("G_v", "psi", clause="common practice, no source")
def rigidity(E_true: Num) -> Num:
    """Modulus of rigidity of sawn lumber."""
    return E_true / 16


@formula("EI", "lb-in2", clause="statics")
def bending_stiffness(E_true: Num, I: Num) -> Num:  # noqa: E741  the symbol of the trade
    """Bending stiffness."""
    return E_true * I


@formula("GA", "lb", clause="statics")
def shear_stiffness(G_v: Num, A: Num) -> Num:
    """Shear stiffness of a rectangle: shape factor 5/6."""
    return 5 / 6 * G_v * A


@formula("D_T", "in", clause="NDS 2018 3.5.2, Eq. 3.5-1")
def total_deflection_of(K_cr: Num, D_LT: Num, D_ST: Num) -> Num:
    """Total deflection: creep on the long-term part."""
    return K_cr * D_LT + D_ST


@formula("D_limit", "in", clause="IBC Table 1604.3")
def deflection_limit(l_limit: Num, n_limit: Num) -> Num:
    """Deflection limit, a fraction of the span; for a cantilever, of twice the arm."""
    return l_limit / n_limit


def effective_length(member: str, loading: str, lu: Num, d: Num) -> Step:
    """le of a bending member for a row of Table 3.3.3.

    Args:
        member, loading: as the table names them ("cantilever", "uniform load").
        lu: unsupported length of the compression edge, in.
        d: depth, in.

    The row's coefficients change at lu/d = 7, and for "any loading not listed" at 14.3.

    Raises:
        TableError: the table has no such row.
    """
    row = tables.load("effective_length").find(member=member, loading=loading)
    slender = np.asarray(lu) / d
    k_lu = where(slender < 7, float(row["lu_coefficient_short"]), float(row["lu_coefficient_long"]))
    k_d = where(slender < 7, 0.0, float(row["d_coefficient_long"] or 0))
    if row["lu_coefficient_over_14_3"]:
        very = slender > 14.3
        k_lu = where(very, float(row["lu_coefficient_over_14_3"]), k_lu)
        k_d = where(very, 0.0, k_d)
    note = f"{member}, {loading}"
    clause = "NDS 2018 Table 3.3.3"
    coefficient = given("k_lu", k_lu, "", clause, note, row["status"])
    depth = given("k_d", k_d, "", clause, note, row["status"])
    return effective_length_of.step(k_lu=coefficient, lu=lu, k_d=depth, d=d)


def stability(le: Num | Step, b: Num, d: Num, Fb_star: Step, Emin_adj: Step) -> Step:
    """CL of a rectangle for an effective length. NDS 2018 3.3.3.

    1.0 where d is not over b (3.3.3.1) or where nothing is unsupported. `slenderness_check` holds
    RB to its limit.
    """
    stable = (np.asarray(d) <= b) | (np.asarray(amount(le)) == 0)
    if np.all(stable):
        return given("CL", 1.0, "", "NDS 2018 3.3.3.1", "not deeper than wide, or no length")
    if np.any(stable):  # sizes of both kinds in one batch
        le = where(stable, 1.0, amount(le))
    RB = slenderness.step(le=le, d=d, b=b)
    FbE = critical_buckling.step(Emin_adj=Emin_adj, RB=RB)
    CL = beam_stability.step(FbE=FbE, Fb_star=Fb_star)
    return replace(CL, value=where(stable, 1.0, CL.value)) if np.any(stable) else CL


def edge_stability(
    *, arm: Num, back_lu: Num, b: Num, d: Num, Fb_star: Step, Emin_adj: Step
) -> Step:
    """CL at the edge: smaller of the arm's and the back span's.

    The arm: a cantilever loaded at its free end, lu = arm. The back span: a single span under any
    loading, `back_lu` to the next blocked place. A hold-down is not blocking. All lengths in.
    """
    on_arm = effective_length("cantilever", "concentrated load at the unsupported end", arm, d)
    on_back = effective_length("either", "any loading not listed", back_lu, d)
    return stability_at_edge.step(
        CL_arm=stability(on_arm, b, d, Fb_star, Emin_adj),
        CL_back=stability(on_back, b, d, Fb_star, Emin_adj),
    )


def slenderness_check(place: str, CL: Step) -> list[Check]:
    """RB held to 50, for each slenderness that went into a CL. NDS 2018 3.3.3.7."""
    clause = "NDS 2018 3.3.3.7"
    return [
        Check("bending", place, clause, RB.value, SLENDERNESS_LIMIT, "", (RB,), "slenderness RB")
        for RB in CL.chain()
        if RB.symbol == "RB"
    ]


def bending(
    *, place: str, M: Num | Step, S: Step, Fb_star: Step, CL: Step, Cfu: Step, held: bool = True
) -> Check:
    """Bending about one axis at one place.

    Args:
        M: moment, lb-in, either sign.
        S: section modulus, in3.
        Fb_star, CL, Cfu: as `adjust.adjusted`, `stability` and `adjust.flat_use` give them.
        held: the member is held against rotation at this bearing, or is not deeper than wide
            (3.3.3.1, 3.3.3.4); else the check fails by rule: a computed CL does not replace it.

    Source: NDS 2018 3.3.
    """
    fb = bending_stress.step(M=changed(M, np.abs), S=S)
    Fb_adj = adjusted_bending.step(Fb_star=Fb_star, CL=CL, Cfu=Cfu)
    clause, steps = "NDS 2018 3.3.1", (fb, Fb_adj)
    if held:
        return Check("bending", place, clause, fb.value, Fb_adj.value, "psi", steps)
    why = "deeper than wide and not held against rotation here: block it at this place"
    return Check(
        "bending", place, "NDS 2018 3.3.3.4", fb.value, 0.0, "psi", steps, rule="fail", why=why
    )


def shear(*, place: str, V: Num | Step, b: Num, d: Num, Fv_adj: Step) -> Check:
    """Horizontal shear in a rectangle; V lb, either sign; b, d in. NDS 2018 3.4.2.

    Full V: no load near the support is left out (3.4.3.1).
    """
    fv = shear_stress.step(V=changed(V, np.abs), b=b, d=d)
    return Check("shear", place, "NDS 2018 3.4.2", fv.value, Fv_adj.value, "psi", (fv, Fv_adj))


def bearing_area_factor(l_bearing: Num, to_end: Num | None) -> Step:
    """Cb of one member of a bearing, by its own geometry. NDS 2018 3.10.4.

    Args:
        l_bearing: bearing length along this member's grain, in.
        to_end: from the bearing to this member's end, in; None: not known, so Cb is 1.
    """
    clause = "NDS 2018 3.10.4"
    if to_end is None:
        return given("Cb", 1.0, "", clause, "distance to the end not known")
    applies = (np.asarray(l_bearing) < 6) & (np.asarray(to_end) >= 3)
    if np.all(applies):
        return bearing_area.step(l_bearing=l_bearing)
    note = "1 where the bearing is 6 in or longer, or nearer than 3 in to the end"
    return given("Cb", where(applies, bearing_area(l_bearing), 1.0), "", clause, note)


def bearing(
    *, id: str, place: str, link: str, R: Num | Step, b: Num, l_bearing: Num, Fc_perp_adj: Step
) -> Check:
    """Crushing across the grain under a reaction; R lb (tension bears nothing); b, l in.

    Source: NDS 2018 3.10.2.
    """
    fc_perp = bearing_stress.step(
        R=changed(R, lambda r: np.maximum(r, 0.0)), b=b, l_bearing=l_bearing
    )
    steps = (fc_perp, Fc_perp_adj)
    return Check(id, place, "NDS 2018 3.10.2", fc_perp.value, Fc_perp_adj.value, "psi", steps, link)


def creep_factor(wet: bool, seasoned: bool) -> Step:
    """Kcr: seasoned lumber in dry use, or not. NDS 2018 3.5.2."""
    case = "seasoned lumber, dry in service" if seasoned and not wet else "unseasoned or wet"
    row = tables.load("creep").find(case=case)
    return given("K_cr", float(row["Kcr"]), "", "NDS 2018 3.5.2", case, row["status"])


def deflection(
    *,
    id: str,
    place: str,
    long_term: Num | Step,
    short_term: Num | Step,
    K_cr: Step,
    span: Num,
    limit: Num,
) -> Check:
    """Deflection with creep against span / limit; the span is twice the arm for a cantilever.

    Args:
        long_term, short_term: immediate deflections, in, of the parts of one combination.
        span, limit: in; the denominator (240, say).

    Either sign: the size counts. IBC's own creep rule (0.5 D, footnote d) is not also applied.
    Source: NDS 2018 3.5.2; IBC Table 1604.3.
    """
    total = total_deflection_of.step(K_cr=K_cr, D_LT=long_term, D_ST=short_term)
    most = deflection_limit.step(l_limit=span, n_limit=limit)
    clause = "NDS 2018 3.5.2, IBC Table 1604.3"
    return Check(id, place, clause, np.abs(amount(total)), most.value, "in", (total, most))
