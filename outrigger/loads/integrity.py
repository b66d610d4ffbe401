"""Structural integrity: the least that a connection must hold sideways. ASCE 7 1.4.

Strength level, lb and in. Every value is recalled: status MEMORY. Not covered: 1.4.2, 1 % of the
dead load of each floor, which the garage's own braced lines carry.
"""

from msgspec.structs import replace

from outrigger.base.tables import MEMORY
from outrigger.base.units import psi
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Num, greatest
from outrigger.wood.adjusted import Method

LEAST_PSF = 5.0  # on the face of the wall
FACTORS: dict[Method, float] = {"ASD": 0.7, "LRFD": 1.0}  # of a notional load, 2.6.1 and 2.6.2
TIMES: dict[Method, float] = {"ASD": 1.0, "LRFD": 0.8}  # CD, lambda: none is printed for it
OURS = "no row of its own: as with dead and live load alone"


@formula("N_member", "lb", clause="ASCE 7 1.4.3")
def least_of_member(D_line: Num, L_line: Num) -> Num:
    """Least force along a member at its support: 5 % of its dead and live load there."""
    return 0.05 * (D_line + L_line)


@formula("N_wall", "lb", clause="ASCE 7 1.4.4")
def least_of_wall(q: Num, q_least: Num, h_wall: Num, s_plan: Num) -> Num:
    """Least force square to a wall at its foot: 0.2 of the weight of its lower half, 5 psf."""
    return greatest(0.2 * q, q_least) * h_wall / 2 * s_plan


@formula("F_least", "lb", clause="ASCE 7 2.6")
def least_force(k_N: Num, N_least: Num) -> Num:
    """What a connection must hold at least."""
    return k_N * N_least


def member(*, D_line: Num, L_line: Num) -> Step:
    """Along a member at its support, strength level; D and live load there, lb."""
    return replace(least_of_member.step(D_line=D_line, L_line=L_line), status=MEMORY)


def wall(*, q: Num, h_wall: Num, s_plan: Num) -> Step:
    """Square to a wall at its foot, strength level; its weight psi, height and width in."""
    least = given("q_least", psi(LEAST_PSF), "psi", "ASCE 7 1.4.4", "5 psf", MEMORY)
    step = least_of_wall.step(q=q, q_least=least, h_wall=h_wall, s_plan=s_plan)
    return replace(step, status=MEMORY)


def factored(N: Step, method: Method) -> Step:
    """The force in the combinations of a method."""
    k = given("k_N", FACTORS[method], "", "ASCE 7 2.6", "notional load", MEMORY)
    return replace(least_force.step(k_N=k, N_least=replace(N, symbol="N_least")), status=MEMORY)
