"""The leg of a thin steel clip under uplift: prying, bending, pull-over. Plain statics.

The uplift U is in the bend, the fasteners at e from the bend, the toe that bears at a beyond them.
Bend free: one row of side fasteners, one clip. Bend held: two rows in the vertical leg, or clips on
both sides; then the side fasteners take a couple too and must be checked for it. Without a toe that
bears there is no equilibrium but by fixity. Lengths in, forces lb.
"""

from collections.abc import Mapping

from outrigger.base import tables
from outrigger.formula.formula import Formula, Step, formula, given
from outrigger.formula.numbers import Num, least
from outrigger.wood.adjusted import Method

STATICS = "statics"
# The heads that pull-over is for, in: screws with 5/16 to 1/2 in, on a sheet of the provisions in
# City of Everett, Washington, permit record 1550732 p. 46; later editions, from memory, to 3/4 in.
LEAST_HEAD_IN = 0.312  # 5/16 in as the tables of heads print it


@formula("T_head", "lb", clause=STATICS)
def pull_bend_free(U_leg: Num, e_leg: Num, a_toe: Num) -> Num:
    """Pull on the fasteners, prying included, bend free to turn."""
    return U_leg * (1 + e_leg / a_toe)


@formula("T_head", "lb", clause=STATICS)
def pull_bend_held(U_leg: Num, e_leg: Num, a_toe: Num) -> Num:
    """Pull on the fasteners, prying included, bend held: contraflexure mid-leg."""
    return U_leg * (1 + e_leg / (2 * a_toe))


@formula("M_leg", "lb-in", clause=STATICS)
def moment_bend_free(U_leg: Num, e_leg: Num) -> Num:
    """Moment in the leg at the fastener line, bend free to turn."""
    return U_leg * e_leg


@formula("M_leg", "lb-in", clause=STATICS)
def moment_bend_held(U_leg: Num, e_leg: Num) -> Num:
    """Moment in the leg at the fastener line and at the bend, bend held."""
    return U_leg * e_leg / 2


@formula("M_side", "lb-in", clause=STATICS)
def side_couple(U_leg: Num, e_leg: Num) -> Num:
    """Couple on the side fasteners that hold the bend."""
    return U_leg * e_leg / 2


@formula("Mn_leg", "lb-in", clause="AISI S100 F2")
def leg_yield_moment(Fy: Num, w_leg: Num, t_leg: Num) -> Num:
    """Moment of the leg at first yield."""
    return Fy * (w_leg * t_leg**2 / 6)


@formula("M_cap", "lb-in", clause="AISI S100 F2")
def leg_moment_asd(Mn_leg: Num, omega: Num) -> Num:
    """Moment that the leg may carry, ASD."""
    return Mn_leg / omega


@formula("M_cap", "lb-in", clause="AISI S100 F2")
def leg_moment_lrfd(Mn_leg: Num, phi_steel: Num) -> Num:
    """Moment that the leg may carry, LRFD."""
    return phi_steel * Mn_leg


@formula("dw_head", "in", clause="AISI S100 J4", constants={"0.5": "in"})
def counted_head(DH: Num) -> Num:
    """What counts of a head: no more than 1/2 in."""
    return least(DH, 0.5)


@formula("Pn_over", "lb", clause="AISI S100 J4")
def nominal_pull_over(t_leg: Num, dw_head: Num, Fu: Num) -> Num:
    """Nominal pull-over of a head or washer through thin steel."""
    return 1.5 * t_leg * dw_head * Fu


@formula("P_cap", "lb", clause="AISI S100 J4")
def pull_over_asd(Pn_over: Num, omega: Num) -> Num:
    """Pull-over that one head may carry, ASD."""
    return Pn_over / omega


@formula("P_cap", "lb", clause="AISI S100 J4")
def pull_over_lrfd(Pn_over: Num, phi_steel: Num) -> Num:
    """Pull-over that one head may carry, LRFD."""
    return phi_steel * Pn_over


def fastener_pull(U: Num | Step, e: Num | Step, a_toe: Num | Step, *, bend_held: bool) -> Step:
    """Pull on the fasteners of the leg, prying included, lb. No CD and no wood factor in it."""
    one = pull_bend_held if bend_held else pull_bend_free
    return one.step(U_leg=U, e_leg=e, a_toe=a_toe)


def leg_moment(U: Num | Step, e: Num | Step, *, bend_held: bool) -> Step:
    """Moment in the leg, lb-in."""
    return (moment_bend_held if bend_held else moment_bend_free).step(U_leg=U, e_leg=e)


def leg_capacity(Fy: Num | Step, w: Num | Step, t: Num | Step, method: Method) -> Step:
    """Moment that the leg may carry, lb-in.

    Fy psi; w the clip's width less the hole at the fastener line, in; t in. No load duration
    factor: it is steel.
    """
    Mn = leg_yield_moment.step(Fy=Fy, w_leg=w, t_leg=t)
    return _safe(leg_moment_asd, leg_moment_lrfd, {"Mn_leg": Mn}, "leg bending", method)


def pull_over(t: Num | Step, dw: Num | Step, Fu: Num | Step, method: Method) -> Step:
    """Pull-over that one head may carry, lb; dw the diameter of the head or its washer, in.

    The provisions are for screws with heads of 5/16 in and more: see `why_by_analogy`.
    """
    Pn = nominal_pull_over.step(t_leg=t, dw_head=counted_head.step(DH=dw), Fu=Fu)
    return _safe(pull_over_asd, pull_over_lrfd, {"Pn_over": Pn}, "pull-over", method)


def why_by_analogy(kind: str, DH: float) -> str:
    """Why pull-over of a head (in) is not the provisions' own; "" when it is."""
    if DH < LEAST_HEAD_IN:
        return f"a head of {DH:g} in is under the 5/16 in that pull-over is for: by analogy"
    return "" if kind == "screw" else f"pull-over is for screws: of a {kind} by analogy"


def _safe(
    asd: Formula, lrfd: Formula, nominal: Mapping[str, Step], check: str, method: Method
) -> Step:
    row = tables.load("clip_steel_safety").find(check=check)
    clause = f"AISI S100 {row['section']}"
    if method == "ASD":
        omega = given("omega", float(row["omega"]), "", clause, "", row["status"])
        return asd.step(**nominal, omega=omega)
    phi = given("phi_steel", float(row["phi"]), "", clause, "", row["phi_status"])
    return lrfd.step(**nominal, phi_steel=phi)
