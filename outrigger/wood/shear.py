"""Horizontal shear, and tension across the grain at a connection. NDS 2018 3.4."""

import numpy as np

from outrigger.formula.check import Check
from outrigger.formula.formula import Step, changed, formula
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Num


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


SHEAR = Kind("shear", "shear")
IN_SHEAR = Link(SHEAR, "", "")


def shear(
    *, link: Link = IN_SHEAR, place: str, V: Num | Step, b: Num, d: Num, Fv_adj: Step
) -> Check:
    """Horizontal shear in a rectangle; V lb, either sign; b, d in. NDS 2018 3.4.2.

    Full V: no load near the support is left out (3.4.3.1).
    """
    fv = shear_stress.step(V=changed(V, np.abs), b=b, d=d)
    return Check(
        link=link,
        place=place,
        clause="NDS 2018 3.4.2",
        demand=fv.value,
        capacity=Fv_adj.value,
        unit="psi",
        steps=(fv, Fv_adj),
    )
