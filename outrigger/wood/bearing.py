"""Bearing across the grain and at an angle to it. NDS 2018 3.10."""

import numpy as np

from outrigger.formula.check import Check
from outrigger.formula.formula import Step, changed, formula, given
from outrigger.formula.kind import Link
from outrigger.formula.numbers import Num, cos_deg, sin_deg, where


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
    *,
    link: Link,
    place: str,
    R: Num | Step,
    b: Num,
    l_bearing: Num | Step,
    Fc_perp_adj: Step,
) -> Check:
    """Crushing across the grain under a reaction; R lb (tension bears nothing); b, l in.

    Source: NDS 2018 3.10.2.
    """
    fc_perp = bearing_stress.step(
        R=changed(R, lambda r: np.maximum(r, 0.0)), b=b, l_bearing=l_bearing
    )
    return Check(
        link=link,
        place=place,
        clause="NDS 2018 3.10.2",
        demand=fc_perp.value,
        capacity=Fc_perp_adj.value,
        unit="psi",
        steps=(fc_perp, Fc_perp_adj),
    )
