"""The general dowel equations: yield modes of a joint with a gap between its members. AWC TR12.

The yield load P of a mode solves A P^2 + B P + C = 0; Z = P / Rd. At no gap the modes are those of
NDS 2018 12.3.1. A layer between the members that is not counted on, such as sheathing or foam, is
a gap as thick as it: a safe lower bound. Lengths in, forces lb.
"""

from collections.abc import Mapping

from msgspec.structs import replace

from outrigger.formula.formula import Formula, Step, formula
from outrigger.formula.numbers import Num, sqrt

TR12 = "AWC TR12"


@formula("q_s", "lb/in", clause=TR12)
def side_resistance(Fes: Num, D: Num) -> Num:
    """Bearing resistance of the side member along the dowel."""
    return Fes * D


@formula("q_m", "lb/in", clause=TR12)
def main_resistance(Fem: Num, D: Num) -> Num:
    """Bearing resistance of the main member along the dowel."""
    return Fem * D


@formula("M_dowel", "lb-in", clause=TR12)
def plastic_moment(Fyb: Num, D: Num) -> Num:
    """Plastic moment of a round dowel."""
    return Fyb * D**3 / 6


@formula("A_dowel", "in/lb", clause=f"{TR12}, mode II")
def A_II(q_s: Num, q_m: Num) -> Num:
    """Coefficient of P squared, turning in both members."""
    return 1 / (4 * q_s) + 1 / (4 * q_m)


@formula("B_dowel", "in", clause=f"{TR12}, mode II")
def B_II(ls: Num, g_gap: Num, lm: Num) -> Num:
    """Coefficient of P, turning in both members."""
    return ls / 2 + g_gap + lm / 2


@formula("C_dowel", "lb-in", clause=f"{TR12}, mode II")
def C_II(q_s: Num, ls: Num, q_m: Num, lm: Num) -> Num:
    """Constant term, turning in both members."""
    return -q_s * ls**2 / 4 - q_m * lm**2 / 4


@formula("A_dowel", "in/lb", clause=f"{TR12}, mode IIIm")
def A_IIIm(q_s: Num, q_m: Num) -> Num:
    """Coefficient of P squared, a hinge in the side member."""
    return 1 / (2 * q_s) + 1 / (4 * q_m)


@formula("B_dowel", "in", clause=f"{TR12}, mode IIIm")
def B_IIIm(g_gap: Num, lm: Num) -> Num:
    """Coefficient of P, a hinge in the side member."""
    return g_gap + lm / 2


@formula("C_dowel", "lb-in", clause=f"{TR12}, mode IIIm")
def C_IIIm(M_dowel: Num, q_m: Num, lm: Num) -> Num:
    """Constant term, a hinge in the side member."""
    return -M_dowel - q_m * lm**2 / 4


@formula("A_dowel", "in/lb", clause=f"{TR12}, mode IIIs")
def A_IIIs(q_s: Num, q_m: Num) -> Num:
    """Coefficient of P squared, a hinge in the main member."""
    return 1 / (4 * q_s) + 1 / (2 * q_m)


@formula("B_dowel", "in", clause=f"{TR12}, mode IIIs")
def B_IIIs(ls: Num, g_gap: Num) -> Num:
    """Coefficient of P, a hinge in the main member."""
    return ls / 2 + g_gap


@formula("C_dowel", "lb-in", clause=f"{TR12}, mode IIIs")
def C_IIIs(q_s: Num, ls: Num, M_dowel: Num) -> Num:
    """Constant term, a hinge in the main member."""
    return -q_s * ls**2 / 4 - M_dowel


@formula("A_dowel", "in/lb", clause=f"{TR12}, mode IV")
def A_IV(q_s: Num, q_m: Num) -> Num:
    """Coefficient of P squared, a hinge in each member."""
    return 1 / (2 * q_s) + 1 / (2 * q_m)


@formula("B_dowel", "in", clause=f"{TR12}, mode IV")
def B_IV(g_gap: Num) -> Num:
    """Coefficient of P, a hinge in each member."""
    return g_gap


@formula("C_dowel", "lb-in", clause=f"{TR12}, mode IV")
def C_IV(M_dowel: Num) -> Num:
    """Constant term, a hinge in each member."""
    return -2 * M_dowel


@formula("P_dowel", "lb", clause=f"{TR12}, mode Im")
def crushed_main(q_m: Num, lm: Num) -> Num:
    """Yield load when the main member is crushed: a gap changes nothing."""
    return q_m * lm


@formula("P_dowel", "lb", clause=f"{TR12}, mode Is")
def crushed_side(q_s: Num, ls: Num) -> Num:
    """Yield load when the side member is crushed: a gap changes nothing."""
    return q_s * ls


@formula("P_dowel", "lb", clause=f"{TR12}: A P^2 + B P + C = 0")
def yield_load(A_dowel: Num, B_dowel: Num, C_dowel: Num) -> Num:
    """Yield load of a mode, the positive root."""
    return (-B_dowel + sqrt(B_dowel**2 - 4 * A_dowel * C_dowel)) / (2 * A_dowel)


@formula("Z", "lb", clause=f"{TR12}; NDS 2018 Table 12.3.1B")
def reduced(P_dowel: Num, Rd: Num) -> Num:
    """Design value of a mode."""
    return P_dowel / Rd


TERMS: dict[str, tuple[Formula, Formula, Formula]] = {
    "II": (A_II, B_II, C_II),
    "IIIm": (A_IIIm, B_IIIm, C_IIIm),
    "IIIs": (A_IIIs, B_IIIs, C_IIIs),
    "IV": (A_IV, B_IV, C_IV),
}
CRUSHED = {"Im": crushed_main, "Is": crushed_side}


def modes(
    known: Mapping[str, Num | Step], gap: Num | Step, Rd: Mapping[str, Step]
) -> dict[str, Step]:
    """Z of each mode of single shear with a gap (in), by the mode's name.

    `known` holds D, Fyb, Fem, Fes, lm and ls; `Rd` the reduction term of each mode.
    """
    have = {**known, "g_gap": gap}

    def made(one: Formula) -> Step:
        return one.step(**{name: have[name] for name in one.arguments})

    have |= {one.symbol: made(one) for one in (side_resistance, main_resistance, plastic_moment)}
    found = {}
    for mode in Rd:
        if mode in CRUSHED:
            P = made(CRUSHED[mode])
        else:
            A, B, C = (made(one) for one in TERMS[mode])
            P = yield_load.step(A_dowel=A, B_dowel=B, C_dowel=C)
        found[mode] = replace(reduced.step(P_dowel=P, Rd=Rd[mode]), symbol=f"Z_{mode}")
    return found
