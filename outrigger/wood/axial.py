"""Axial force with bending, and bending about both axes. NDS 2018 3.7 and 3.9.

Axis 1 bends the member edgewise (load on its narrow face), axis 2 flatwise. Interactions have the
capacity 1. Every function takes floats or arrays that broadcast to (cases, combinations).
"""

import numpy as np
from msgspec.structs import replace

from outrigger.base import tables
from outrigger.formula.formula import Step, amount, formula, given
from outrigger.formula.numbers import Num, greatest, sqrt, where

C_SAWN = 0.8  # NDS 2018 3.7.1.5
SLENDEREST = 50.0  # NDS 2018 3.7.1.4
KE_CANTILEVER = 2.1  # NDS 2018 Appendix G, Table G1, fixed and free; from memory
KE_PINNED = 1.0


@formula("FcE", "psi", clause="NDS 2018 3.7.1.5")
def critical_column_buckling(Emin_adj: Num, le: Num, d: Num) -> Num:
    """Critical buckling design value, compression; d in the plane of buckling."""
    return 0.822 * Emin_adj / (le / d) ** 2


@formula("CP", "", clause="NDS 2018 3.7.1.5, Eq. 3.7-1")
def column_stability(FcE: Num, Fc_star: Num, c: Num) -> Num:
    """Column stability factor; c is 0.8 for sawn lumber."""
    return (1 + FcE / Fc_star) / (2 * c) - sqrt(
        ((1 + FcE / Fc_star) / (2 * c)) ** 2 - (FcE / Fc_star) / c
    )


@formula("ft", "psi", clause="NDS 2018 3.8.1")
def tension_stress(N_tension: Num, A: Num) -> Num:
    """Tension stress along the grain."""
    return N_tension / A


@formula("fc", "psi", clause="NDS 2018 3.6.3")
def compression_stress(N_compression: Num, A: Num) -> Num:
    """Compression stress along the grain."""
    return N_compression / A


@formula("le", "in", clause="NDS 2018 3.7.1.2")
def column_length(K_e: Num, l_column: Num) -> Num:
    """Effective length of a column in one plane."""
    return K_e * l_column


@formula("r_column", "", clause="NDS 2018 3.7.1.3")
def slenderness_of_column(le: Num, d: Num) -> Num:
    """Slenderness of a column in one plane."""
    return le / d


@formula("r_inter", "", clause="NDS 2018 3.9.1, Eq. 3.9-1")
def tension_and_bending(ft: Num, Ft_adj: Num, fb1: Num, Fb1_tension: Num) -> Num:
    """Tension and bending, CL left out."""
    return ft / Ft_adj + fb1 / Fb1_tension


@formula("r_inter", "", clause="NDS 2018 3.9.1, Eq. 3.9-1, with bending about both axes")
def tension_and_both(
    ft: Num, Ft_adj: Num, fb1: Num, Fb1_tension: Num, fb2: Num, Fb2_adj: Num
) -> Num:
    """Tension and bending about both axes, CL left out."""
    return ft / Ft_adj + fb1 / Fb1_tension + fb2 / Fb2_adj


@formula("r_inter", "", clause="NDS 2018 3.9.1, Eq. 3.9-2")
def bending_less_tension(fb1: Num, ft: Num, Fb1_adj: Num) -> Num:
    """The compression edge under bending and tension."""
    return (fb1 - ft) / Fb1_adj


@formula("r_inter", "", clause="NDS 2018 3.9.2, Eq. 3.9-3, one axis")
def compression_and_bending(fc: Num, Fc_adj: Num, fb1: Num, Fb1_adj: Num, FcE1: Num) -> Num:
    """Compression and edgewise bending, amplified."""
    return (fc / Fc_adj) ** 2 + fb1 / (Fb1_adj * (1 - fc / FcE1))


@formula("r_inter", "", clause="NDS 2018 3.9.2, Eq. 3.9-3")
def compression_and_both(
    fc: Num,
    Fc_adj: Num,
    fb1: Num,
    Fb1_adj: Num,
    FcE1: Num,
    fb2: Num,
    Fb2_adj: Num,
    FcE2: Num,
    FbE: Num,
) -> Num:
    """Compression and bending about both axes, amplified."""
    return (
        (fc / Fc_adj) ** 2
        + fb1 / (Fb1_adj * (1 - fc / FcE1))
        + fb2 / (Fb2_adj * (1 - fc / FcE2 - (fb1 / FbE) ** 2))
    )


@formula("r_inter", "", clause="NDS 2018 3.9.2, Eq. 3.9-3, no axial force")
def both_ways(fb1: Num, Fb1_adj: Num, fb2: Num, Fb2_adj: Num, FbE: Num) -> Num:
    """Bending about both axes."""
    return fb1 / Fb1_adj + fb2 / (Fb2_adj * (1 - (fb1 / FbE) ** 2))


@formula("r_inter", "", clause="NDS 2018 3.9.2, Eq. 3.9-3, no axial force, stable edgewise")
def both_ways_stable(fb1: Num, Fb1_adj: Num, fb2: Num, Fb2_adj: Num) -> Num:
    """Bending about both axes of a member that cannot roll: no amplification."""
    return fb1 / Fb1_adj + fb2 / Fb2_adj


@formula("r_stable", "", clause="NDS 2018 3.9.2, Eq. 3.9-4, no axial force")
def stable_edgewise(fb1: Num, FbE: Num) -> Num:
    """Edgewise bending against buckling, below 1."""
    return (fb1 / FbE) ** 2


@formula("r_stable", "", clause="NDS 2018 3.9.2")
def stable_one_axis(fc: Num, FcE1: Num) -> Num:
    """Compression against edgewise buckling, below 1."""
    return fc / FcE1


@formula("r_stable", "", clause="NDS 2018 3.9.2, Eq. 3.9-4")
def stable_both(fc: Num, FcE1: Num, FcE2: Num, fb1: Num, FbE: Num) -> Num:
    """Compression and edgewise bending against buckling, below 1."""
    return greatest(fc / FcE1, fc / FcE2 + (fb1 / FbE) ** 2)


def buckling(K_e: float, length: Num, d: Num, Emin_adj: Step) -> tuple[Step, Step]:
    """Slenderness le/d and FcE of one plane. Length and d (in that plane), in.

    Source: NDS 2018 3.7.1.2 to 3.7.1.5; Ke from Appendix G.
    """
    status = tables.MEMORY if K_e == KE_CANTILEVER else ""
    note = "fixed at the edge, free at the end" if K_e == KE_CANTILEVER else "held at both ends"
    K = given("K_e", K_e, "", "NDS 2018 Appendix G", note, status)
    le = column_length.step(K_e=K, l_column=length)
    return slenderness_of_column.step(le=le, d=d), critical_column_buckling.step(
        Emin_adj=Emin_adj, le=le, d=d
    )


def stability_factor(FcE1: Step, FcE2: Step, Fc_star: Step) -> Step:
    """CP by the plane that buckles first. NDS 2018 3.7.1.5."""
    first = np.asarray(FcE1.value) <= np.asarray(FcE2.value)
    chosen = FcE1 if np.all(first) else FcE2 if not np.any(first) else None
    if chosen is None:
        least = np.minimum(np.asarray(FcE1.value), np.asarray(FcE2.value))
        chosen = replace(FcE1, value=least)
    return column_stability.step(FcE=chosen, Fc_star=Fc_star, c=C_SAWN)


def unless_unstable(ratio: Step, stable: Step) -> Step:
    """An interaction, over 1 by more than the stability ratio wherever that is not below 1."""
    unstable = np.asarray(stable.value) >= 1
    if not np.any(unstable):
        return ratio
    note = "not stable: 1 + the stability ratio, since this one has no meaning there"
    return replace(ratio, value=where(unstable, 1 + amount(stable), ratio.value), note=note)
