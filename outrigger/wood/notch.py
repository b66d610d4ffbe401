"""Notches at the house wall, and shear near a bearing and under torsion. NDS 2018 3.4.3, 4.4.3.

Lengths in, forces lb, stresses psi. Floats or arrays.
"""

from outrigger.formula.formula import formula
from outrigger.formula.numbers import Num, least, sqrt


@formula("h_limit", "in", clause="NDS 2018 4.4.3")
def deepest_inside(d: Num) -> Num:
    """Deepest notch away from the ends of the member."""
    return d / 6


@formula("d_n", "in", clause="geometry")
def net_depth(d: Num, h_notch: Num) -> Num:
    """Depth left at a notch."""
    return d - h_notch


@formula("Vr_adj", "lb", clause="NDS 2018 3.4.3.2(a), Eq. 3.4-3")
def tension_side(Fv_adj: Num, b: Num, d_n: Num, d: Num) -> Num:
    """Shear at a notch on the tension side."""
    return (2 / 3 * Fv_adj * b * d_n) * (d_n / d) ** 2


@formula("Vr_adj", "lb", clause="NDS 2018 3.4.3.2(e), Eq. 3.4-5")
def compression_side(Fv_adj: Num, b: Num, d: Num, d_n: Num, e_notch: Num) -> Num:
    """Shear at a notch on the compression side that reaches e inward of the bearing, e up to dn."""
    return 2 / 3 * Fv_adj * b * (d - (d - d_n) / d_n * least(e_notch, d_n))


@formula("V", "lb", clause="NDS 2018 3.4.3.1(a)")
def near_support(V_full: Num, P: Num, x_load: Num, d: Num, w_arm: Num, l_near: Num) -> Num:
    """Shear beside a bearing: a load within d of its face counts x / d, even load there not."""
    return V_full - P * (1 - least(1, x_load / d)) - w_arm * l_near


@formula("T_arm", "lb-in", clause="statics")
def torque(V_across: Num, d: Num) -> Num:
    """Torque in the arm: forces across act at the top of the member."""
    return V_across * d / 2


@formula("T_ply", "lb-in", clause="statics: the plies twist side by side")
def torque_of_ply(T_arm: Num, n_plies: Num) -> Num:
    """Torque in one ply."""
    return T_arm / n_plies


@formula("f_torsion", "psi", clause="Saint-Venant torsion of a rectangle, handbook series")
def torsion_stress(T_arm: Num, d_long: Num, b_short: Num) -> Num:
    """Shear stress of torsion at the middle of the longer side."""
    return (
        3
        * T_arm
        / (d_long * b_short**2)
        * (
            1
            + 0.6095 * (b_short / d_long)
            + 0.8865 * (b_short / d_long) ** 2
            - 1.8023 * (b_short / d_long) ** 2 * (b_short / d_long)
            + 0.9100 * ((b_short / d_long) ** 2) ** 2
        )
    )


@formula("fv", "psi", clause="NDS 2018 3.4.2; both axes, torsion added: our rule")
def shear_of_both(fv_square: Num, fv_across: Num, f_torsion: Num) -> Num:
    """Shear stress of both axes together, torsion added."""
    return sqrt(fv_square**2 + fv_across**2) + f_torsion
