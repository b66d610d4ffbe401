"""The reference lateral value of one fastener, short penetration included. NDS 2018 12.3, 12.3.5.

At a penetration under that of the lateral tables (10D, lags 8D) two routes are allowed: the modes
at the bearing length itself, and the tables' value in proportion. They differ; the smaller is
taken and named. Lengths in, forces lb.
"""

from typing import Any

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.fasteners.dowel_bearing import Layer, bearing_length, deep_enough, proration
from outrigger.fasteners.trade_names import Fastener, multiple
from outrigger.fasteners.yield_modes import YieldLimits, single_shear
from outrigger.formula.formula import Step, amount, formula, given
from outrigger.formula.numbers import Num, least, where

DIRECT, PRORATED, NOTHING = "direct", "in proportion", "nothing counts"


@formula("Z", "lb", clause="NDS 2018 12.3.5.3 and footnotes of the lateral tables: the smaller")
def smaller_route(Z_direct: Num, C_p: Num, Z_full: Num) -> Num:
    """The modes themselves, and the tables' value in proportion to the penetration."""
    return least(Z_direct, C_p * Z_full)


class Lateral(Struct, frozen=True, eq=False):
    """Z of one fastener, lb; the modes at its own bearing length (`direct`) and at the penetration
    of the lateral tables (`full`); which of the two gave Z (`route`, for arrays an array)."""

    Z: Step
    direct: YieldLimits
    full: YieldLimits
    route: Any


def reference_lateral(
    fastener: Fastener,
    Fem: Step,
    side: Layer,
    p: Num | Step,
    *,
    theta: Num = 0.0,
    gap: Num | Step | None = None,
) -> Lateral:
    """Z of one fastener in single shear, lb.

    Args:
        fastener: nail, wood screw or lag screw.
        Fem: dowel bearing strength of the main member, psi.
        side: the side member.
        p: penetration into the main member, tip included, in.
        theta: angle of load to grain in the main member, deg.
        gap: a gap between the members, in; None when they touch.

    Z is 0 where the penetration is under the least that the standard lets count.
    """
    C_p = proration(fastener, p)
    lm = bearing_length(fastener, p)
    if np.all(C_p.value == 1):
        direct = single_shear(fastener, Layer(Fem, lm, theta), side, gap)
        route = np.full(np.shape(amount(p)), DIRECT)
        return Lateral(direct.Z, direct, direct, route if route.ndim else DIRECT)
    if not np.all(amount(lm) > 0):
        # no bearing length has no modes; C_p is 0 there, so this one is never used
        lm = given("lm", where(amount(lm) > 0, lm.value, fastener.D), "in", lm.clause, "none")
    n_full = multiple(fastener.kind, "full_D")
    short = C_p.value < 1
    note = f"penetration of the lateral tables, {n_full.value:g}D, or lm where it is deeper"
    at_tables = given("lm", where(short, n_full.value * fastener.D, lm.value), "in", "", note)
    direct, full = (
        single_shear(fastener, Layer(Fem, length, theta), side, gap) for length in (lm, at_tables)
    )
    Z = smaller_route.step(
        Z_direct=replace(direct.Z, symbol="Z_direct"),
        C_p=C_p,
        Z_full=replace(full.Z, symbol="Z_full"),
    )
    prorated = C_p.value * full.Z.value < direct.Z.value
    route = np.where(prorated, PRORATED, DIRECT)
    route = np.where(deep_enough(fastener, p), route, NOTHING)
    return Lateral(Z, direct, full, route if route.ndim else str(route))
