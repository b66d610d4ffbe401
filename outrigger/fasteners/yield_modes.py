"""Lateral values of a dowel by the yield limit equations. NDS 2018 12.3.1, Tables 12.3.1A, B.

Z is the least of the modes; every mode is a step. With a gap between the members the modes are
those of the general dowel equations, see `dowel_gap`. Lengths in, forces lb, stresses psi.
"""

from collections.abc import Mapping
from typing import Any

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.base.errors import RangeError
from outrigger.fasteners import modes_over_a_gap as dowel_gap
from outrigger.fasteners.dowel_bearing import Layer
from outrigger.fasteners.trade_names import SMALL_D, Fastener
from outrigger.formula.formula import Formula, Step, formula, given
from outrigger.formula.numbers import Num, least, sqrt

TABLE_A, TABLE_B = "NDS 2018 Table 12.3.1A", "NDS 2018 Table 12.3.1B"
LARGEST_D = 1.0  # in; the equations hold to it


@formula("Re", "", clause=TABLE_A)
def strength_ratio(Fem: Num, Fes: Num) -> Num:
    """Bearing strength of the main over that of the side member."""
    return Fem / Fes


@formula("Rt", "", clause=TABLE_A)
def length_ratio(lm: Num, ls: Num) -> Num:
    """Bearing length in the main over that in the side member."""
    return lm / ls


@formula("k1", "", clause=TABLE_A)
def coefficient_1(Re: Num, Rt: Num) -> Num:
    """Coefficient of mode II."""
    return (sqrt(Re + 2 * Re**2 * (1 + Rt + Rt**2) + Rt**2 * Re**3) - Re * (1 + Rt)) / (1 + Re)


@formula("k2", "", clause=TABLE_A)
def coefficient_2(Re: Num, Fyb: Num, D: Num, Fem: Num, lm: Num) -> Num:
    """Coefficient of mode IIIm."""
    return -1 + sqrt(2 * (1 + Re) + 2 * Fyb * (1 + 2 * Re) * D**2 / (3 * Fem * lm**2))


@formula("k3", "", clause=TABLE_A)
def coefficient_3(Re: Num, Fyb: Num, D: Num, Fem: Num, ls: Num) -> Num:
    """Coefficient of mode IIIs."""
    return -1 + sqrt(2 * (1 + Re) / Re + 2 * Fyb * (2 + Re) * D**2 / (3 * Fem * ls**2))


@formula("Z_Im", "lb", clause=TABLE_A)
def mode_Im(D: Num, lm: Num, Fem: Num, Rd: Num) -> Num:
    """Mode Im, single shear: the main member is crushed."""
    return D * lm * Fem / Rd


@formula("Z_Is", "lb", clause=TABLE_A)
def mode_Is(D: Num, ls: Num, Fes: Num, Rd: Num) -> Num:
    """Mode Is, single shear: the side member is crushed."""
    return D * ls * Fes / Rd


@formula("Z_II", "lb", clause=TABLE_A)
def mode_II(k1: Num, D: Num, ls: Num, Fes: Num, Rd: Num) -> Num:
    """Mode II, single shear: the fastener turns in both members."""
    return k1 * D * ls * Fes / Rd


@formula("Z_IIIm", "lb", clause=TABLE_A)
def mode_IIIm(k2: Num, D: Num, lm: Num, Fem: Num, Re: Num, Rd: Num) -> Num:
    """Mode IIIm, single shear: a hinge in the side member, turning in the main."""
    return k2 * D * lm * Fem / ((1 + 2 * Re) * Rd)


@formula("Z_IIIs", "lb", clause=TABLE_A)
def mode_IIIs(k3: Num, D: Num, ls: Num, Fem: Num, Re: Num, Rd: Num) -> Num:
    """Mode IIIs, single shear: a hinge in the main member, turning in the side."""
    return k3 * D * ls * Fem / ((2 + Re) * Rd)


@formula("Z_IV", "lb", clause=TABLE_A)
def mode_IV(D: Num, Rd: Num, Fem: Num, Fyb: Num, Re: Num) -> Num:
    """Mode IV, single shear: a hinge in each member."""
    return D**2 / Rd * sqrt(2 * Fem * Fyb / (3 * (1 + Re)))


@formula("Z", "lb", clause="NDS 2018 12.3.1")
def least_single(Z_Im: Num, Z_Is: Num, Z_II: Num, Z_IIIm: Num, Z_IIIs: Num, Z_IV: Num) -> Num:
    """Least of the modes, single shear."""
    return least(Z_Im, Z_Is, Z_II, Z_IIIm, Z_IIIs, Z_IV)


@formula("K_theta", "", clause=TABLE_B, constants={"90": "deg"})
def angle_coefficient(theta: Num) -> Num:
    """Angle to grain coefficient, from the larger angle of the two members."""
    return 1 + 0.25 * (theta / 90)


@formula("KD", "", clause=TABLE_B, constants={"10": "1/in"})
def reduction_coefficient(D: Num) -> Num:
    """Reduction coefficient of a D over 0.17 in and under 1/4 in."""
    return 10 * D + 0.5


@formula("Rd", "", clause=TABLE_B)
def reduction_I(K_theta: Num) -> Num:
    """Reduction term of modes Im and Is, D from 1/4 in."""
    return 4 * K_theta


@formula("Rd", "", clause=TABLE_B)
def reduction_II(K_theta: Num) -> Num:
    """Reduction term of mode II, D from 1/4 in."""
    return 3.6 * K_theta


@formula("Rd", "", clause=TABLE_B)
def reduction_III(K_theta: Num) -> Num:
    """Reduction term of modes IIIm, IIIs and IV, D from 1/4 in."""
    return 3.2 * K_theta


@formula("Rd", "", clause=TABLE_B)
def reduction_small(KD: Num) -> Num:
    """Reduction term of every mode, D under 1/4 in."""
    return KD


@formula("Rd", "", clause=f"{TABLE_B} footnote 1")
def reduction_small_root(KD: Num, K_theta: Num) -> Num:
    """Reduction term of every mode: nominal D from 1/4 in, root under it."""
    return KD * K_theta


SINGLE = {
    "Im": mode_Im,
    "Is": mode_Is,
    "II": mode_II,
    "IIIm": mode_IIIm,
    "IIIs": mode_IIIs,
    "IV": mode_IV,
}


class YieldLimits(Struct, frozen=True, eq=False):
    """Z as the least of its modes, and each mode's step by name."""

    Z: Step
    modes: Mapping[str, Step]

    @property
    def mode(self) -> Any:
        """Name of the governing mode; of arrays, an array of names. Of equal modes the first."""
        values = np.broadcast_arrays(*(step.value for step in self.modes.values()))
        names = np.array(list(self.modes))[np.argmin(np.stack(values), axis=0)]
        return names if names.ndim else str(names)


def reduction_terms(fastener: Fastener, theta: Num) -> dict[str, Step]:
    """Rd of each mode, by the mode's name; theta (deg) the larger angle of the two members.

    Raises:
        RangeError: D over 1 in.
    """
    D = fastener.step("D")
    if fastener.D > LARGEST_D:
        raise RangeError(f"{fastener.name}: the yield limit equations hold to 1 in.")
    angle = given("theta", theta, "deg", "geometry", "larger angle of load to grain")
    K_theta = angle_coefficient.step(theta=angle)
    if fastener.Dr >= SMALL_D:
        large = {"I": reduction_I, "II": reduction_II, "III": reduction_III}
        terms = {name: one.step(K_theta=K_theta) for name, one in large.items()}
    else:
        KD = reduction_coefficient.step(D=D)
        if fastener.Dr <= 0.17:
            KD = given("KD", 2.2, "", TABLE_B, "D to 0.17 in")
        if fastener.small:
            Rd = reduction_small.step(KD=KD)
        else:
            Rd = reduction_small_root.step(KD=KD, K_theta=K_theta)
        terms = dict.fromkeys(("I", "II", "III"), Rd)
    kinds = {"Im": "I", "Is": "I", "II": "II", "IIIm": "III", "IIIs": "III", "IV": "III"}
    return {mode: terms[kind] for mode, kind in kinds.items()}


def single_shear(
    fastener: Fastener, main: Layer, side: Layer, gap: Num | Step | None = None
) -> YieldLimits:
    """Z of one fastener in single shear, lb.

    With a `gap` (in) between the members, empty or counted as empty, the general dowel equations.
    """
    known: dict[str, Num | Step] = {
        "D": fastener.step("D"),
        "Fyb": fastener.step("Fyb"),
        "Fem": _as("Fem", main.Fe),
        "Fes": _as("Fes", side.Fe),
        "lm": _as("lm", main.length),
        "ls": _as("ls", side.length),
    }
    Rd = reduction_terms(fastener, np.maximum(main.theta, side.theta))

    def made(one: Formula, more: Mapping[str, Num | Step]) -> Step:
        return one.step(**{name: (known | dict(more))[name] for name in one.arguments})

    if gap is not None:
        modes = dowel_gap.modes(known, gap, Rd)
    else:
        for one in (strength_ratio, length_ratio, coefficient_1, coefficient_2, coefficient_3):
            known[one.symbol] = made(one, {})
        modes = {name: made(one, {"Rd": Rd[name]}) for name, one in SINGLE.items()}
    return YieldLimits(least_single.step(**{f"Z_{n}": step for n, step in modes.items()}), modes)


def _as(key: str, value: Num | Step) -> Num | Step:
    """A step under the symbol that the equations have for it."""
    return replace(value, symbol=key) if isinstance(value, Step) else value
