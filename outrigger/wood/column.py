"""A wall stud as a column, sheathed so that it buckles only out of the wall. NDS 2018 3.7, 3.9.

Lengths in, forces lb, wind lb/in. No eccentricity: what it carries stands on its middle.
"""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Link
from outrigger.formula.numbers import Num
from outrigger.wood import axial, bending, lumber, rectangle
from outrigger.wood.adjusted import (
    Conditions,
    adjusted,
    adjusted_bending,
    adjusted_compression,
)


@formula("M", "lb-in", clause="statics: even wind on a simple span")
def moment_of_stud(w_stud: Num, h_stud: Num) -> Num:
    """Moment of wind on a stud."""
    return w_stud * h_stud**2 / 8


class StudLinks(Struct, frozen=True):
    """What the rows of one stud are called: itself, its buckling under wind, its slenderness."""

    stud: Link
    buckles: Link
    slender: Link


def column(
    links: StudLinks,
    place: str,
    *,
    wood: lumber.Wood,
    use: Conditions,
    time: Num,
    N: Step,
    height: float,
    wind: Step | None,
) -> list[Check]:
    """The rows of one stud: compression alone, or with the wind on it; then its slenderness.

    Args:
        links, place: what they are called, and where they stand.
        wood, use, time: its lumber, its conditions, CD or lambda of each combination.
        N, height, wind: compression lb, height in, wind on the stud lb/in (None: not known).
    """
    size = wood.size
    area = rectangle.area.step(b=size.b, d=size.d)
    fc = axial.compression_stress.step(N_compression=replace(N, symbol="N_compression"), A=area)
    Emin_adj, Fc_star = adjusted("Emin", wood, use, 1.0), adjusted("Fc", wood, use, time)
    slender, FcE = axial.buckling(axial.KE_PINNED, height, size.d, Emin_adj)
    CP = axial.column_stability.step(FcE=FcE, Fc_star=Fc_star, c=axial.C_SAWN)
    Fc_adj = adjusted_compression.step(Fc_star=Fc_star, CP=CP)
    limit = given("r_column", axial.SLENDEREST, "", "NDS 2018 3.7.1.4", "the most")
    thin = _row(links.slender, place, "NDS 2018 3.7.1.4", slender, limit)
    if wind is None:
        return [_row(links.stud, place, "NDS 2018 3.7.1", fc, Fc_adj), thin]
    S = rectangle.section_modulus.step(b=size.b, d=size.d)
    fb1 = bending.bending_stress.step(M=moment_of_stud.step(w_stud=wind, h_stud=height), S=S)
    one = given("CL", 1.0, "", "NDS 2018 4.4.1", "held by the sheathing of the wall")
    Cfu = given("Cfu", 1.0, "", "NDS 2018 4.3.7", "load on the narrow face")
    Fb1 = adjusted_bending.step(Fb_star=adjusted("Fb", wood, use, time), CL=one, Cfu=Cfu)
    FcE1 = replace(FcE, symbol="FcE1")
    with np.errstate(divide="ignore", invalid="ignore"):  # at the limit the other row decides
        ratio = axial.compression_and_bending.step(
            fc=fc,
            Fc_adj=Fc_adj,
            fb1=replace(fb1, symbol="fb1"),
            Fb1_adj=replace(Fb1, symbol="Fb1_adj"),
            FcE1=FcE1,
        )
    stable = axial.stable_one_axis.step(fc=fc, FcE1=FcE1)
    most = given("r_inter", 1.0, "", "NDS 2018 3.9.2", "the most")
    both = axial.unless_unstable(ratio, stable)
    return [
        _row(links.stud, place, "NDS 2018 3.9.2", both, most),
        _row(links.buckles, place, "NDS 2018 3.9.2", stable, most),
        thin,
    ]


def _row(link: Link, place: str, clause: str, demand: Step, cap: Step) -> Check:
    return Check(
        link=link, place=place, clause=clause, demand=demand.value, capacity=cap.value,
        unit=demand.unit, steps=(demand, cap),
    )  # fmt: skip
