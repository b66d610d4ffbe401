"""Group action factor of large fasteners in a row. NDS 2018 11.3.6, Eq. 11.3-1.

A row stands in line with the force; each fastener is a spring between two members that stretch.
Wood to wood, 1/4 in and over. Lengths in, forces lb.
"""

import numpy as np

from outrigger.formula.formula import Step, amount, formula, given
from outrigger.formula.numbers import Num, least, sqrt

CLAUSE = "NDS 2018 11.3.6, Eq. 11.3-1"


@formula("gamma_slip", "lb/in", clause=CLAUSE, constants={"180000": "lb/in^2.5"})
def slip_of_wood(D_nom: Num) -> Num:
    """Load per slip of one bolt or lag, wood to wood."""
    return 180000 * D_nom**1.5


@formula("EA_s", "lb", clause=CLAUSE)
def stretch_of_side(E_adj: Num, b: Num, d: Num) -> Num:
    """Stiffness of the side member along its grain, its whole section."""
    return E_adj * b * d


@formula("EA_m", "lb", clause=CLAUSE)
def stretch_of_main(E: Num, b: Num, d: Num) -> Num:
    """Stiffness of the main member along its grain, its whole section."""
    return E * b * d


@formula("R_EA", "", clause=CLAUSE)
def ratio_of_stretch(EA_s: Num, EA_m: Num) -> Num:
    """The lesser of the two stiffnesses over the greater."""
    return least(EA_s / EA_m, EA_m / EA_s)


@formula("u_row", "", clause=CLAUSE)
def u_of_row(gamma_slip: Num, s_actual: Num, EA_m: Num, EA_s: Num) -> Num:
    """u: slip of a fastener beside the stretch between two."""
    return 1 + gamma_slip * s_actual / 2 * (1 / EA_m + 1 / EA_s)


@formula("m_row", "", clause=CLAUSE)
def m_of_row(u_row: Num) -> Num:
    """m, from u."""
    return u_row - sqrt(u_row**2 - 1)


@formula("Cg", "", clause=CLAUSE)
def group_action(m_row: Num, m_n: Num, n_lags: Num, R_EA: Num) -> Num:
    """What a row carries over what its fasteners would each alone."""
    return (
        m_row
        * (1 - m_n**2)
        / (n_lags * ((1 + R_EA * m_n) * (1 + m_row) - 1 + m_n**2))
        * ((1 + R_EA) / (1 - m_row))
    )


def group_factor(D_nom: Num | Step, n: int, s: Num | Step, EA_m: Step, EA_s: Step) -> Step:
    """Cg of a row of n fasteners s apart; 1 of one alone or under 1/4 in."""
    if n < 2 or float(np.max(amount(D_nom))) < 0.25:
        return given("Cg", 1.0, "", CLAUSE, "one in a row, or under 1/4 in")
    slip = slip_of_wood.step(D_nom=D_nom)
    u = u_of_row.step(gamma_slip=slip, s_actual=s, EA_m=EA_m, EA_s=EA_s)
    R = ratio_of_stretch.step(EA_s=EA_s, EA_m=EA_m)
    m = m_of_row.step(u_row=u)
    m_n = Step("m_n", m.value**n, "", CLAUSE, f"m to the power of {n}", inputs={"m_row": m})
    return group_action.step(m_row=m, m_n=m_n, n_lags=float(n), R_EA=R)
