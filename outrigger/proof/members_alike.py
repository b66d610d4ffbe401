"""Many members at once, as tables of spans take them: no shear deflection and no creep."""

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from outrigger.formula.formula import Step, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Num
from outrigger.statics.beam import Beam
from outrigger.wood import adjusted as adjust
from outrigger.wood import bending, rectangle
from outrigger.wood import deflection as wood_deflection
from outrigger.wood.adjusted import Conditions
from outrigger.wood.lumber import Wood

Numbers = NDArray[np.float64]
NONE = given("CL", 1.0)  # a factor that a published table leaves at 1
ALONE = Link(Kind("alone", "check"), "", "")  # of one formula of the standard, no outrigger


def stacked(
    woods: Sequence[Wood], conditions: Sequence[Conditions], CD: Sequence[float] | Numbers
) -> tuple[Step, Step, Numbers]:
    """Fb*, S and E'I of many members as arrays: the look-ups are the only loop."""

    def values(name: str) -> Numbers:
        return np.array(
            [
                adjust.adjusted(name, wood, use, time).value
                for wood, use, time in zip(woods, conditions, CD, strict=True)
            ]
        )

    b = np.array([wood.size.b for wood in woods])
    d = np.array([wood.size.d for wood in woods])
    S = rectangle.section_modulus.step(b=b, d=d)
    EI = wood_deflection.bending_stiffness(values("E"), rectangle.moment_of_inertia(b, d))
    return given("Fb_star", values("Fb"), "psi"), S, EI


def beams(span: Num, arm: Num, EI: Num) -> Beam:
    """Members on two supports, one for each row; shear deflection left out."""
    return Beam(np.stack((0 * np.asarray(span), span), axis=1), EI, 0.0, span + arm)


def bending_ratio(M: Num, S: Step, Fb_star: Step) -> Num | None:
    """Ratio of the bending check, braced, on the narrow face."""
    return bending.bending(place="row", M=M, S=S, Fb_star=Fb_star, CL=NONE, Cfu=NONE).ratio


def deflection_ratio(deflection: Num, span: Num, limit: Num) -> Num | None:
    """Ratio of the deflection check without creep: the tables take none."""
    return wood_deflection.deflection(
        link=ALONE,
        place="row",
        long_term=0.0,
        short_term=deflection,
        K_cr=wood_deflection.creep_factor(wet=False, seasoned=True),
        span=span,
        limit=limit,
    ).ratio


def largest(ratio: Callable[[Numbers], Numbers], most: Numbers) -> Numbers:
    """Per row, the largest length up to `most` at which the ratio is not over 1, by bisection."""
    low, high = np.full(most.shape, 1.0), most.copy()
    reached = ratio(most) <= 1
    for _ in range(60):  # 300 in / 2^60: to the last bit
        middle = (low + high) / 2
        passes = ratio(middle) <= 1
        low, high = np.where(passes, middle, low), np.where(passes, high, middle)
    return np.where(reached, most, low)
