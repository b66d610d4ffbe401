"""Stiffness of the member, deflection with creep, and its limits. NDS 2018 3.5."""

import numpy as np

from outrigger.base import tables
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, amount, formula, given
from outrigger.formula.kind import Link
from outrigger.formula.numbers import Num


@formula("E_true", "psi", clause="NDS 2018 Appendix D")
def true_modulus(E_adj: Num) -> Num:
    """E without the shear deflection that the tabulated E of sawn lumber includes."""
    return 1.03 * E_adj


@formula("G_v", "psi", clause="common practice, no source")
def rigidity(E_true: Num) -> Num:
    """Modulus of rigidity of sawn lumber."""
    return E_true / 16


@formula("EI", "lb-in2", clause="statics")
def bending_stiffness(E_true: Num, I: Num) -> Num:  # noqa: E741  the symbol of the trade
    """Bending stiffness."""
    return E_true * I


@formula("GA", "lb", clause="statics")
def shear_stiffness(G_v: Num, A: Num) -> Num:
    """Shear stiffness of a rectangle: shape factor 5/6."""
    return 5 / 6 * G_v * A


@formula("D_T", "in", clause="NDS 2018 3.5.2, Eq. 3.5-1")
def total_deflection_of(K_cr: Num, D_LT: Num, D_ST: Num) -> Num:
    """Total deflection: creep on the long-term part."""
    return K_cr * D_LT + D_ST


@formula("D_limit", "in", clause="IBC Table 1604.3")
def deflection_limit(l_limit: Num, n_limit: Num) -> Num:
    """Deflection limit, a fraction of the span; for a cantilever, of twice the arm."""
    return l_limit / n_limit


def creep_factor(wet: bool, seasoned: bool) -> Step:
    """Kcr: seasoned lumber in dry use, or not. NDS 2018 3.5.2."""
    case = "seasoned lumber, dry in service" if seasoned and not wet else "unseasoned or wet"
    row = tables.load("creep").find(case=case)
    return given("K_cr", float(row["Kcr"]), "", "NDS 2018 3.5.2", case, row["status"])


def deflection(
    *,
    link: Link,
    place: str,
    long_term: Num | Step,
    short_term: Num | Step,
    K_cr: Step,
    span: Num,
    limit: Num,
) -> Check:
    """Deflection with creep against span / limit; the span is twice the arm for a cantilever.

    Args:
        long_term, short_term: immediate deflections, in, of the parts of one combination.
        span, limit: in; the denominator (240, say).

    Either sign: the size counts. IBC's own creep rule (0.5 D, footnote d) is not also applied.
    Source: NDS 2018 3.5.2; IBC Table 1604.3.
    """
    total = total_deflection_of.step(K_cr=K_cr, D_LT=long_term, D_ST=short_term)
    most = deflection_limit.step(l_limit=span, n_limit=limit)
    return Check(
        link=link,
        place=place,
        clause="NDS 2018 3.5.2, IBC Table 1604.3",
        demand=np.abs(amount(total)),
        capacity=most.value,
        unit="in",
        steps=(total, most),
    )
