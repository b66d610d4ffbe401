"""Bending of the member and its stability. NDS 2018 3.3.

Lengths in, forces lb, moments lb-in, stresses psi. Every function takes floats or arrays that
broadcast to (cases, combinations).
"""

from collections.abc import Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.base import tables
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, amount, changed, formula, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Num, greatest, least, sqrt, where
from outrigger.wood.adjusted import adjusted_bending

SLENDERNESS_LIMIT = 50.0  # NDS 2018 3.3.3.7
BENDING = Kind("bending", "bending")
IN_BENDING, SLENDERNESS = Link(BENDING, "", ""), Link(BENDING, "slenderness RB", "slenderness RB")


@formula("fb", "psi", clause="NDS 2018 3.3.2")
def bending_stress(M: Num, S: Num) -> Num:
    """Bending stress at the extreme fibre."""
    return M / S


@formula("le", "in", clause="NDS 2018 Table 3.3.3")
def effective_length_of(k_lu: Num, lu: Num, k_d: Num, d: Num) -> Num:
    """Effective length of a bending member; the coefficients are the table's."""
    return k_lu * lu + k_d * d


@formula("RB", "", clause="NDS 2018 3.3.3.6")
def slenderness(le: Num, d: Num, b: Num) -> Num:
    """Slenderness ratio of a bending member."""
    return sqrt(le * d / b**2)


@formula("FbE", "psi", clause="NDS 2018 3.3.3.8")
def critical_buckling(Emin_adj: Num, RB: Num) -> Num:
    """Critical buckling design value, bending."""
    return 1.20 * Emin_adj / RB**2


@formula("CL", "", clause="NDS 2018 3.3.3.8, Eq. 3.3-6")
def beam_stability(FbE: Num, Fb_star: Num) -> Num:
    """Beam stability factor."""
    return (1 + FbE / Fb_star) / 1.9 - sqrt(
        ((1 + FbE / Fb_star) / 1.9) ** 2 - (FbE / Fb_star) / 0.95
    )


@formula("CL", "", clause="smaller of the two sides of the edge")
def stability_at_edge(CL_arm: Num, CL_back: Num) -> Num:
    """Beam stability factor at the edge: the hogging moment there serves both sides."""
    return least(CL_arm, CL_back)


def effective_length(member: str, loading: str, lu: Num, d: Num) -> Step:
    """le of a bending member for a row of Table 3.3.3.

    Args:
        member, loading: as the table names them ("cantilever", "uniform load").
        lu: unsupported length of the compression edge, in.
        d: depth, in.

    The row's coefficients change at lu/d = 7, and for "any loading not listed" at 14.3.

    Raises:
        TableError: the table has no such row.
    """
    row = tables.load("effective_length").find(member=member, loading=loading)
    slender = np.asarray(lu) / d
    k_lu = where(slender < 7, float(row["lu_coefficient_short"]), float(row["lu_coefficient_long"]))
    k_d = where(slender < 7, 0.0, float(row["d_coefficient_long"] or 0))
    if row["lu_coefficient_over_14_3"]:
        very = slender > 14.3
        k_lu = where(very, float(row["lu_coefficient_over_14_3"]), k_lu)
        k_d = where(very, 0.0, k_d)
    note = f"{member}, {loading}"
    clause = "NDS 2018 Table 3.3.3"
    coefficient = given("k_lu", k_lu, "", clause, note, row["status"])
    depth = given("k_d", k_d, "", clause, note, row["status"])
    return effective_length_of.step(k_lu=coefficient, lu=lu, k_d=depth, d=d)


class Stability(Struct, frozen=True, eq=False):
    """CL of a bending member, with the slenderness RB and the buckling value FbE, psi, of each
    unsupported length behind it; none where the member is stable."""

    CL: Step
    RB: tuple[Step, ...] = ()
    FbE: tuple[Step, ...] = ()

    @property
    def least_FbE(self) -> Step | None:
        """The smaller FbE, case by case; None where the member is stable."""
        if not self.FbE:
            return None
        first = min(self.FbE, key=lambda step: float(np.min(step.value)))
        return replace(first, value=np.asarray(least(*(step.value for step in self.FbE))))


def stability(le: Num | Step, b: Num, d: Num, Fb_star: Step, Emin_adj: Step) -> Stability:
    """CL of a rectangle for an effective length. NDS 2018 3.3.3.

    1.0 where d is not over b (3.3.3.1) or where nothing is unsupported. `slenderness_check` holds
    RB to its limit.
    """
    stable = (np.asarray(d) <= b) | (np.asarray(amount(le)) == 0)
    if np.all(stable):
        note = "not deeper than wide, or no length"
        return Stability(given("CL", 1.0, "", "NDS 2018 3.3.3.1", note))
    if np.any(stable):  # sizes of both kinds in one batch
        le = where(stable, 1.0, amount(le))
    RB = slenderness.step(le=le, d=d, b=b)
    FbE = critical_buckling.step(Emin_adj=Emin_adj, RB=RB)
    CL = beam_stability.step(FbE=FbE, Fb_star=Fb_star)
    if np.any(stable):
        CL = replace(CL, value=where(stable, 1.0, CL.value))
    return Stability(CL, (RB,), (FbE,))


def edge_stability(
    *, arm: Num, back_lu: Num, b: Num, d: Num, Fb_star: Step, Emin_adj: Step
) -> Stability:
    """CL at the edge: smaller of the arm's and the back span's.

    The arm: a cantilever loaded at its free end, lu = arm. The back span: a single span under any
    loading, `back_lu` to the next blocked place. A hold-down is not blocking. All lengths in.
    """
    on_arm = effective_length("cantilever", "concentrated load at the unsupported end", arm, d)
    on_back = effective_length("either", "any loading not listed", back_lu, d)
    arm_side = stability(on_arm, b, d, Fb_star, Emin_adj)
    back_side = stability(on_back, b, d, Fb_star, Emin_adj)
    CL = stability_at_edge.step(CL_arm=arm_side.CL, CL_back=back_side.CL)
    return Stability(CL, arm_side.RB + back_side.RB, arm_side.FbE + back_side.FbE)


def slenderness_check(place: str, RB: Sequence[Step]) -> Check:
    """The largest of several slendernesses, case by case, held to 50. NDS 2018 3.3.3.7."""
    shown = max(RB, key=lambda one: float(np.ravel(one.value)[0]))
    return Check(
        link=SLENDERNESS,
        place=place,
        clause="NDS 2018 3.3.3.7",
        demand=greatest(*(one.value for one in RB)),
        capacity=SLENDERNESS_LIMIT,
        unit="",
        steps=(shown,),
    )


def bending(
    *,
    link: Link = IN_BENDING,
    place: str,
    M: Num | Step,
    S: Step,
    Fb_star: Step,
    CL: Step,
    Cfu: Step,
    held: bool = True,
) -> Check:
    """Bending about one axis at one place.

    Args:
        link, place: what is bent, and where.
        M: moment, lb-in, either sign.
        S: section modulus, in3.
        Fb_star, CL, Cfu: as `adjust.adjusted`, `stability` and `adjust.flat_use` give them.
        held: the member is held against rotation at this bearing, or is not deeper than wide
            (3.3.3.1, 3.3.3.4); else the check fails by rule: a computed CL does not replace it.

    Source: NDS 2018 3.3.
    """
    fb = bending_stress.step(M=changed(M, np.abs), S=S)
    Fb_adj = adjusted_bending.step(Fb_star=Fb_star, CL=CL, Cfu=Cfu)
    check = Check(
        link=link,
        place=place,
        clause="NDS 2018 3.3.1",
        demand=fb.value,
        capacity=Fb_adj.value,
        unit="psi",
        steps=(fb, Fb_adj),
    )
    if held:
        return check
    why = "deeper than wide and not held against rotation here: block it at this place"
    return replace(check, clause="NDS 2018 3.3.3.4", capacity=0.0, rule="fail", why=why)
