"""Closed forms of an outrigger on two supports, for the printed arithmetic: see `by_hand`."""

from outrigger.formula.formula import formula
from outrigger.formula.numbers import Num, greatest


@formula("M", "lb-in", clause="statics, two supports")
def edge_moment(P: Num, a: Num, w_arm: Num, t: Num, W_end: Num) -> Num:
    """Hogging moment at the house wall."""
    return P * a + w_arm * (a + t) ** 2 / 2 + W_end * (a + t)


@formula("V", "lb", clause="statics")
def arm_shear(P: Num, w_arm: Num, a: Num, t: Num, W_end: Num) -> Num:
    """Shear on the arm side of the house wall."""
    return P + w_arm * (a + t) + W_end


@formula("M", "lb-in", clause="statics, two supports")
def edge_moment_with_drift(
    P: Num, a: Num, w_arm: Num, t: Num, W_end: Num, w_fall: Num, x_face: Num
) -> Num:
    """Hogging moment at the house wall, the strip's drift changing evenly from the house face."""
    return (
        P * a
        + w_arm * (a + t) ** 2 / 2
        + W_end * (a + t)
        + w_fall * (a + t - x_face) / 2 * (x_face + 2 / 3 * (a + t - x_face))
    )


@formula("V", "lb", clause="statics")
def arm_shear_with_drift(
    P: Num, w_arm: Num, a: Num, t: Num, W_end: Num, w_fall: Num, x_face: Num
) -> Num:
    """Shear on the arm side, the strip's drift changing evenly from the house face."""
    return P + w_arm * (a + t) + W_end + w_fall * (a + t - x_face) / 2


@formula("M", "lb-in", clause="statics: what slid onto the house roof ends at the garage wall")
def moment_with_shed(M_strip: Num, w_shed: Num, a: Num) -> Num:
    """Moment at the edge with snow slid off the garage, from the back to the wall line."""
    return M_strip + w_shed * a**2 / 2


@formula("V", "lb", clause="statics: what slid onto the house roof ends at the garage wall")
def arm_shear_with_shed(V_strip: Num, w_shed: Num, a: Num) -> Num:
    """Shear on the arm side with snow slid off the garage."""
    return V_strip + w_shed * a


@formula("C_along", "lb-in", clause="statics: at the top of the member, resisted at its bottom")
def couple_of_force_along(F_arm: Num, F_back: Num, d: Num) -> Num:
    """Couple of the forces along the member."""
    return (F_arm + F_back) * d


@formula("M", "lb-in", clause="statics: the force runs d/2 above the axis")
def moment_of_arm(M_load: Num, F_arm: Num, d: Num) -> Num:
    """Hogging moment just outside the edge, with the force along the arm."""
    return M_load + F_arm * d / 2


@formula("M", "lb-in", clause="statics")
def moment_with_couple(M_load: Num, C_along: Num) -> Num:
    """Hogging moment just inside the edge, with the couple of the forces along."""
    return M_load + C_along


@formula("T_place", "lb", clause="statics, two supports")
def back_pull(M_edge: Num, L_b: Num, w_back: Num, w_self: Num, b_b: Num) -> Num:
    """Uplift at the back hold-down."""
    return M_edge / L_b - w_back * L_b / 2 - w_self * b_b * (L_b + b_b / 2) / L_b


@formula("R", "lb", clause="statics, two supports")
def edge_push(V: Num, M_edge: Num, L_b: Num, w_back: Num, w_self: Num, b_b: Num) -> Num:
    """Push on the house at the edge."""
    return V + M_edge / L_b + w_back * L_b / 2 - w_self * b_b**2 / (2 * L_b)


@formula("T_place", "lb", clause="statics", constants={"0": "lb"})
def edge_pull(R: Num) -> Num:
    """Uplift at the edge: the push on the house, turned round."""
    return greatest(0, -R)


@formula("V", "lb", clause="statics")
def shear_by_wall(P: Num, w_arm: Num, t: Num, W_end: Num) -> Num:
    """Shear on the arm just inside the garage wall."""
    return P + w_arm * t + W_end


@formula("V", "lb", clause="statics, two supports")
def shear_at_edge(M_edge: Num, M_behind: Num, L_b: Num, w_back: Num) -> Num:
    """Shear on the house side of the edge."""
    return (M_edge - M_behind) / L_b + w_back * L_b / 2


@formula("V", "lb", clause="statics, two supports")
def shear_at_back(M_edge: Num, M_behind: Num, L_b: Num, w_back: Num) -> Num:
    """Shear on the outer side of the back hold-down."""
    return (M_edge - M_behind) / L_b - w_back * L_b / 2


@formula("D_point", "in", clause="statics: a cantilever held at the edge")
def droop_of_point(P: Num, a: Num, EI: Num) -> Num:
    """Droop at the wall line by the load there, as if the member were held at the edge."""
    return P * a**3 / (3 * EI)


@formula("D_even", "in", clause="statics: a cantilever held at the edge")
def droop_of_even(w_arm: Num, a: Num, t: Num, EI: Num) -> Num:
    """Droop at the wall line by the even load on arm and tail, held at the edge."""
    return w_arm * a**2 * (3 * a**2 + 8 * a * t + 6 * t**2) / (24 * EI)


@formula("D_shear", "in", clause="statics: shear over the arm")
def droop_of_shear(P: Num, a: Num, w_arm: Num, t: Num, GA: Num) -> Num:
    """Droop at the wall line by the shear of the arm."""
    return (P * a + w_arm * a * (a + 2 * t) / 2) / GA


@formula("M_behind", "lb-in", clause="statics")
def moment_behind(w_self: Num, b_b: Num) -> Num:
    """Hogging moment at the back, of the member behind it."""
    return w_self * b_b**2 / 2


@formula("slope_edge", "", clause="statics: the back span under its end moments and its own load")
def slope_at_edge(M_edge: Num, M_behind: Num, L_b: Num, w_back: Num, EI: Num, GA: Num) -> Num:
    """Slope of the member at the edge, a rise over its run."""
    return (
        L_b * (2 * M_edge + M_behind) / (6 * EI)
        - w_back * L_b**3 / (24 * EI)
        + (M_edge - M_behind) / (L_b * GA)
    )


@formula("D_wall", "in", clause="statics")
def droop_at_wall(D_point: Num, D_even: Num, D_shear: Num, slope_edge: Num, a: Num) -> Num:
    """Droop at the wall line."""
    return D_point + D_even + D_shear + slope_edge * a


@formula("R", "lb", clause="statics")
def back_push(T_place: Num) -> Num:
    """Push on the house at the back: the uplift there, turned round."""
    return -T_place


@formula("M", "lb-in", clause="statics, two supports")
def moment_of_part(P: Num, a: Num, w_arm: Num, t: Num, W_end: Num, F_axis: Num, d: Num) -> Num:
    """Hogging moment just inside the house wall, with the couple of a force along."""
    return P * a + w_arm * (a + t) ** 2 / 2 + W_end * (a + t) + F_axis * d


@formula("M", "lb-in", clause="statics: a drift from the garage wall inward")
def moment_beside_drift(P: Num, a: Num, w_arm: Num, t: Num, w_wall: Num, w_house: Num) -> Num:
    """Hogging moment at the house wall, a drift on the house roof reaching over the arm."""
    return P * a + w_arm * (a + t) ** 2 / 2 + a**2 * (2 * w_wall + w_house) / 6


@formula("V", "lb", clause="statics: a drift from the garage wall inward")
def shear_beside_drift(P: Num, w_arm: Num, a: Num, t: Num, w_wall: Num, w_house: Num) -> Num:
    """Shear on the arm side, a drift on the house roof reaching over the arm."""
    return P + w_arm * (a + t) + a * (w_wall + w_house) / 2


@formula("T_place", "lb", clause="statics, two supports")
def pull_beside_drift(
    M_edge: Num, L_b: Num, w_back: Num, c_drift: Num, w_house: Num, w_inner: Num
) -> Num:
    """Uplift at the back hold-down, the drift ending on the back span or behind it."""
    return M_edge / L_b - w_back * L_b / 2 - c_drift**2 * (w_house + 2 * w_inner) / (6 * L_b)


@formula("R", "lb", clause="statics, two supports")
def push_beside_drift(
    V: Num, T_place: Num, w_back: Num, L_b: Num, c_drift: Num, w_house: Num, w_inner: Num
) -> Num:
    """Push on the house at the edge: all that lies on arm and back span, and the pull."""
    return V + T_place + w_back * L_b + c_drift * (w_house + w_inner) / 2
