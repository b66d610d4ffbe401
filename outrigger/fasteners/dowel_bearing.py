"""Bearing of a dowel in wood, panel and steel, and how deep it stands. NDS 2018 12.3.3, 12.3.5.

Lengths in, stresses psi, angles deg between load and grain. Numbers or arrays alike, except the
fastener. Fe is not rounded: the standard's table rounds it to 50 psi.
"""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.base import tables
from outrigger.base.errors import InputError
from outrigger.base.quantity import read, tidied
from outrigger.fasteners.trade_names import Fastener, multiple
from outrigger.formula.formula import Step, amount, formula, given
from outrigger.formula.numbers import Bools, Num, least, sqrt, where

TABLE_12_3_3 = "NDS 2018 Table 12.3.3"


@formula("Fe", "psi", clause=TABLE_12_3_3, constants={"16600": "psi"})
def small_dowel_bearing(G: Num) -> Num:
    """Dowel bearing strength, D under 1/4 in: no effect of the angle to grain."""
    return 16600 * G**1.84


@formula("Fe_par", "psi", clause=TABLE_12_3_3, constants={"11200": "psi"})
def bearing_along_grain(G: Num) -> Num:
    """Dowel bearing strength along the grain, D of 1/4 in and over."""
    return 11200 * G


@formula("Fe_perp", "psi", clause=TABLE_12_3_3, constants={"6100": "psi in^(1/2)"})
def bearing_across_grain(G: Num, D_nom: Num) -> Num:
    """Dowel bearing strength across the grain, D of 1/4 in and over."""
    return 6100 * G**1.45 / sqrt(D_nom)


@formula("Fe", "psi", clause="NDS 2018 12.3.4, Eq. 12.3-11")
def bearing_at_angle(Fe_par: Num, Fe_perp: Num, sin2_theta: Num, cos2_theta: Num) -> Num:
    """Dowel bearing strength at an angle to grain."""
    return Fe_par * Fe_perp / (Fe_par * sin2_theta + Fe_perp * cos2_theta)


@formula("p", "in", clause="geometry")
def penetration(L_f: Num, ts: Num, g_gap: Num, tm: Num) -> Num:
    """Penetration into the main member, never more than its thickness."""
    return least(L_f - ts - g_gap, tm)


def comes_out(fastener: Fastener, ts: Num, gap: Num, tm: Num) -> Num:
    """How far it comes out of the main member on its far side, in."""
    return np.maximum(fastener.length - ts - gap - tm, 0.0)


@formula("lm", "in", clause="NDS 2018 12.3.5.3")
def bearing_length_in_main(p: Num, E_tip: Num) -> Num:
    """Bearing length in the main member: half of the tip does not bear."""
    return p - E_tip / 2


@formula("C_p", "", clause="NDS 2018, footnotes of Tables 12L to 12R")
def proration_small(p: Num, n_full: Num, D_nom: Num) -> Num:
    """Penetration over that of the tables; nails and wood screws, the tip counts."""
    return least(1, p / (n_full * D_nom))


@formula("C_p", "", clause="NDS 2018, footnotes of Tables 12J and 12K")
def proration_lag(p: Num, E_tip: Num, n_full: Num, D_nom: Num) -> Num:
    """Penetration over that of the tables; lag screws, the tip does not count."""
    return least(1, (p - E_tip) / (n_full * D_nom))


class Layer(Struct, frozen=True, eq=False):
    """One member of a joint: dowel bearing strength, bearing length, angle of load to grain."""

    Fe: Step
    length: Num | Step
    theta: Num = 0.0


class Steel(Struct, frozen=True):
    """Steel of a clip: thickness in; Fe, Fy, Fu psi; `status` the worse of its two rows, that of
    Fy and Fu apart."""

    name: str
    t: float
    Fe: float
    Fy: float
    Fu: float
    status: str
    Fy_status: str

    def step(self, key: str) -> Step:
        """Fe, Fy, Fu, ts or t_leg as a step."""
        values = {"Fe": self.Fe, "Fy": self.Fy, "Fu": self.Fu, "ts": self.t, "t_leg": self.t}
        unit = "in" if key in ("ts", "t_leg") else "psi"
        status = self.status if key in ("Fe", "ts", "t_leg") else self.Fy_status
        return given(key, values[key], unit, "NDS 2018 Tables 12K and 12P", self.name, status)


def in_wood(fastener: Fastener, G: Num | Step, theta: Num = 0.0) -> Step:
    """Fe of a fastener in wood at an angle to grain (deg)."""
    if fastener.small:
        return small_dowel_bearing.step(G=G)
    sin2 = (np.sin(np.radians(np.asarray(theta, dtype=float))) ** 2)[()]
    note = f"load at {theta:g} deg to the grain" if np.ndim(theta) == 0 else "load at its angle"
    return bearing_at_angle.step(
        Fe_par=bearing_along_grain.step(G=G),
        Fe_perp=bearing_across_grain.step(G=G, D_nom=fastener.step("D_nom")),
        sin2_theta=given("sin2_theta", sin2, "", "geometry", note),
        cos2_theta=given("cos2_theta", 1 - sin2, "", "geometry", note),
    )


def panel_gravity(panel: str) -> Step:
    """G of a wood structural panel, for lateral load and head pull-through, by its name.

    Raises:
        InputError: no such panel on file.
    """
    table = tables.load("panels")
    row = next((r for r in table.rows if r["panel"].lower() == tidied(panel)), None)
    if row is None:
        listed = ", ".join(r["panel"] for r in table.rows)
        raise InputError(f'"{panel}": no G of this panel on file. It has: {listed}.')
    clause = "NDS 2018 Table 12.3.3B"
    return given("G", float(row["G"]), "", clause, row["panel"], row["status"])


def read_steel(text: str) -> Steel:
    """Steel of a clip from its gage or its thickness: "16 ga", "1/4 in".

    Under 1/4 in ASTM A653 Grade 33 is taken, from 1/4 in on ASTM A36: the side plates of the
    standard's tables.

    Raises:
        InputError: no such gage, or not a thickness.
    """
    plain = tidied(text)
    gage = plain.removesuffix(".").removesuffix("gage").removesuffix("gauge").removesuffix("ga")
    sheets = tables.load("steel_sheets")
    if gage != plain:
        row = next((r for r in sheets.rows if r["gage"] == gage.strip()), None)
        if row is None:
            listed = ", ".join(f"{r['gage']} ga" for r in sheets.rows)
            raise InputError(f'"{text}": no such gage on file. It has: {listed}.')
        t, status, name = float(row["t_in"]), row["status"], f"{row['gage']} ga, {row['t_in']} in"
    else:
        t, status, name = read(text, "length"), "", plain
    if t <= 0:
        raise InputError("must be more than zero.")
    rows = tables.load("clip_steel").rows
    row = next(
        r
        for r in rows
        if (not r["t_from"] or t >= float(r["t_from"]))
        and (not r["t_under"] or t < float(r["t_under"]))
    )
    return Steel(
        f"{name}, {row['steel']}",
        t,
        float(row["Fe_psi"]),
        float(row["Fy_psi"]),
        float(row["Fu_psi"]),
        tables.worst(status, row["status"]),
        row["Fy_status"],
    )


def deep_enough(fastener: Fastener, p: Num | Step) -> Bools:
    """Whether the standard lets the penetration p (in, tip included) count at all.

    Lag screws 4D, the tip left out (12.1.4.6); wood screws (12.1.5.6) and nails (12.1.6.4) 6D.
    """
    needed = float(multiple(fastener.kind, "least_D").value) * fastener.D
    counted = amount(p) - (fastener.tip if fastener.kind == "lag" else 0.0)
    # a length of sixteenths less a thickness comes out a bit under 6D by rounding only
    return np.asarray(counted >= needed * (1 - 1e-12))


def why_nothing(fastener: Fastener, p: float) -> str:
    """Why a penetration (in) counts for nothing; "" when it counts."""
    if deep_enough(fastener, p):
        return ""
    row = tables.load("fastener_rules").find(kind=fastener.kind)
    n = float(row["least_D"])
    counted = p - (fastener.tip if fastener.kind == "lag" else 0.0)
    tip = ", the tip left out" if fastener.kind == "lag" else ""
    return (
        f"{fastener.name}: {max(counted, 0.0):.2f} in in the wood{tip}, under {n:g}D = "
        f"{n * fastener.D:.2f} in (NDS 2018 {row['clause'].partition(';')[0]}): nothing counts"
    )


def bearing_length(fastener: Fastener, p: Num | Step) -> Step:
    """lm for a penetration p (in, tip included): all of it from 10D on, else less half the tip.

    NDS 2018 12.3.5.3. The part under 10D is recalled; that lm is p at 10D follows from the lateral
    tables.
    """
    tip = fastener.step("E_tip")
    deep = amount(p) >= 10 * fastener.D
    note = "no part of the tip from p = 10D on" if np.all(deep) else tip.note
    counted = tip if not np.any(deep) else replace(tip, value=where(deep, 0.0, tip.value))
    if np.any(deep):
        counted = given("E_tip", counted.value, "in", "NDS 2018 12.3.5.3", note)
    step = bearing_length_in_main.step(p=p, E_tip=counted)
    return step if np.all(deep) else replace(step, status=tables.MEMORY)


def proration(fastener: Fastener, p: Num | Step) -> Step:
    """C_p for a penetration p (in, tip included); 0 where the penetration does not count."""
    n_full, D = multiple(fastener.kind, "full_D"), fastener.step("D_nom")
    if fastener.kind == "lag":
        step = proration_lag.step(p=p, E_tip=fastener.step("E_tip"), n_full=n_full, D_nom=D)
        if np.any(step.value < 1):
            step = replace(step, status=tables.MEMORY)
    else:
        step = proration_small.step(p=p, n_full=n_full, D_nom=D)
    deep = deep_enough(fastener, p)
    if np.all(deep):
        return step
    note = f"0 where the penetration is under {multiple(fastener.kind, 'least_D').value:g}D"
    return given("C_p", where(deep, step.value, 0.0), "", step.clause, note, step.status)
