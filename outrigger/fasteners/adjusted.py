"""Adjusted values of connections, and lateral load with withdrawal. NDS 2018 11.3, 12.4.

Each factor of Table 11.3.1 is a step, also when it is 1. Forces lb, W lb/in. Numbers or arrays
alike, except the fastener.
"""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.base import tables
from outrigger.fasteners.trade_names import Fastener
from outrigger.formula.formula import Formula, Step, amount, formula, given
from outrigger.formula.numbers import Num, least, sqrt, where
from outrigger.wood.adjusted import Conditions, Method, Temperature

TABLE_11_3_1 = "NDS 2018 Table 11.3.1"
LARGEST_CD = 1.6  # NDS 2018 11.3.2: the impact factor is not for connections
END_GRAIN = 0.67  # Ceg of a lateral load, NDS 2018 12.5.2.2; from memory
TOE_LATERAL, TOE_WITHDRAWAL = 0.83, 0.67  # Ctn, NDS 2018 12.5.4; from memory
LARGEST_LAMBDA = 1.0  # NDS 2018 Table N3 footnote


@formula("Z_adj", "lb", clause=TABLE_11_3_1)
def adjusted_lateral_asd(
    Z: Num, CD: Num, CM: Num, Ct: Num, Cg: Num, CDelta: Num, Ceg: Num, Cdi: Num, Ctn: Num
) -> Num:
    """Adjusted lateral design value, ASD."""
    return Z * CD * CM * Ct * Cg * CDelta * Ceg * Cdi * Ctn


@formula("Z_adj", "lb", clause=TABLE_11_3_1)
def adjusted_lateral_lrfd(
    Z: Num,
    CM: Num,
    Ct: Num,
    Cg: Num,
    CDelta: Num,
    Ceg: Num,
    Cdi: Num,
    Ctn: Num,
    KF: Num,
    phi: Num,
    lam: Num,
) -> Num:
    """Adjusted lateral design value, LRFD."""
    return Z * CM * Ct * Cg * CDelta * Ceg * Cdi * Ctn * KF * phi * lam


@formula("W_adj", "lb/in", clause=TABLE_11_3_1)
def adjusted_withdrawal_asd(W: Num, CD: Num, CM: Num, Ct: Num, Ceg: Num, Ctn: Num) -> Num:
    """Adjusted withdrawal design value, ASD."""
    return W * CD * CM * Ct * Ceg * Ctn


@formula("W_adj", "lb/in", clause=TABLE_11_3_1)
def adjusted_withdrawal_lrfd(
    W: Num, CM: Num, Ct: Num, Ceg: Num, Ctn: Num, KF: Num, phi: Num, lam: Num
) -> Num:
    """Adjusted withdrawal design value, LRFD."""
    return W * CM * Ct * Ceg * Ctn * KF * phi * lam


@formula("WH_adj", "lb", clause=TABLE_11_3_1)
def adjusted_pull_through_asd(WH: Num, CD: Num, CM: Num, Ct: Num) -> Num:
    """Adjusted head pull-through design value, ASD."""
    return WH * CD * CM * Ct


@formula("WH_adj", "lb", clause=TABLE_11_3_1)
def adjusted_pull_through_lrfd(WH: Num, CM: Num, Ct: Num, KF: Num, phi: Num, lam: Num) -> Num:
    """Adjusted head pull-through design value, LRFD."""
    return WH * CM * Ct * KF * phi * lam


@formula("Wp_adj", "lb", clause="NDS 2018 12.2")
def withdrawal_of_one(W_adj: Num, pt: Num) -> Num:
    """Adjusted withdrawal design value of one fastener."""
    return W_adj * pt


@formula("R_f", "lb", clause="statics")
def resultant(V_f: Num, T_f: Num) -> Num:
    """Load on one fastener, lateral and pull together."""
    return sqrt(V_f**2 + T_f**2)


@formula("Z_alpha", "lb", clause="NDS 2018 12.4.1, Eq. 12.4-1")
def combined_screw(Wp_adj: Num, Z_adj: Num, cos2_alpha: Num, sin2_alpha: Num) -> Num:
    """Lag and wood screws at an angle to the wood surface."""
    return Wp_adj * Z_adj / (Wp_adj * cos2_alpha + Z_adj * sin2_alpha)


@formula("Z_alpha", "lb", clause="NDS 2018 12.4.2, Eq. 12.4-2")
def combined_nail(Wp_adj: Num, Z_adj: Num, cos_alpha: Num, sin_alpha: Num) -> Num:
    """Nails at an angle to the wood surface."""
    return Wp_adj * Z_adj / (Wp_adj * cos_alpha + Z_adj * sin_alpha)


FORMULAS: dict[str, dict[Method, Formula]] = {
    "Z": {"ASD": adjusted_lateral_asd, "LRFD": adjusted_lateral_lrfd},
    "W": {"ASD": adjusted_withdrawal_asd, "LRFD": adjusted_withdrawal_lrfd},
    "WH": {"ASD": adjusted_pull_through_asd, "LRFD": adjusted_pull_through_lrfd},
}


class Use(Struct, frozen=True):
    """How a connection is made and used: `conditions` of the member for method, moisture in
    service and temperature; `wet_built`: over 19 % moisture when fastened."""

    conditions: Conditions
    wet_built: bool = False


def adjusted_lateral(
    Z: Step,
    fastener: Fastener,
    use: Use,
    time: Num,
    *,
    Cg: Num | Step = 1.0,
    CDelta: Num | Step = 1.0,
    end_grain: bool = False,
    toe_nailed: bool = False,
) -> Step:
    """Z' of one fastener, lb. `time`: CD in ASD, lambda in LRFD, a number or an array.

    Cg and CDelta are 1 for D under 1/4 in; for larger fasteners the caller's. `end_grain`: it
    stands in the end grain of the main member; `toe_nailed`: driven at a slope. Both by factors
    that are recalled.
    """
    group = {
        "Cg": Cg if isinstance(Cg, Step) else given("Cg", Cg, "", "NDS 2018 11.3.6"),
        "CDelta": (
            CDelta if isinstance(CDelta, Step) else given("CDelta", CDelta, "", "NDS 2018 12.5.1")
        ),
    }
    if end_grain:
        note = "into end grain, lateral"
        group["Ceg"] = given("Ceg", END_GRAIN, "", "NDS 2018 12.5.2", note, tables.MEMORY)
    if toe_nailed:
        group["Ctn"] = _toe(TOE_LATERAL)
    return _adjusted("Z", Z, fastener, use, time, group)


def _toe(factor: float) -> Step:
    return given("Ctn", factor, "", "NDS 2018 12.5.4", "toe-nailed", tables.MEMORY)


def adjusted_withdrawal(
    W: Step, fastener: Fastener, use: Use, time: Num, *, toe_nailed: bool = False
) -> Step:
    """W' of one fastener, lb per inch of pt."""
    have = {"Ctn": _toe(TOE_WITHDRAWAL)} if toe_nailed else {}
    return _adjusted("W", W, fastener, use, time, have)


def adjusted_pull_through(WH: Step, fastener: Fastener, use: Use, time: Num) -> Step:
    """W_H' of one fastener, lb."""
    return _adjusted("WH", WH, fastener, use, time, {})


def _adjusted(
    name: str, value: Step, fastener: Fastener, use: Use, time: Num, have: dict[str, Step]
) -> Step:
    chosen = FORMULAS[name][use.conditions.method]
    inputs: dict[str, Num | Step] = {name: value}
    for factor in chosen.arguments[1:]:
        inputs[factor] = have.get(factor) or factor_step(factor, name, fastener, use, time)
    return chosen.step(**inputs)


def factor_step(factor: str, value_of: str, fastener: Fastener, use: Use, time: Num) -> Step:
    """One factor of Table 11.3.1 for Z, W or WH of a fastener, as a step with its source."""
    match factor:
        case "CD":
            note = "at most 1.6 for connections"
            step = given("CD", least(time, LARGEST_CD), "", "NDS 2018 11.3.2", note)
            return replace(step, of_combination=True)
        case "lam":
            note = "at most 1.0 for connections"
            step = given("lam", least(time, LARGEST_LAMBDA), "", "NDS 2018 Table N3", note)
            return replace(step, of_combination=True)
        case "KF" | "phi":
            row = tables.load("format_conversion").find(property="connections")
            table = "NDS 2018 Table N1" if factor == "KF" else "NDS 2018 Table N2"
            return given(factor, float(row[factor]), "", table, "connections", row["status"])
        case "CM":
            return wet_service(value_of, fastener, use)
        case "Ct":
            return temperature(use.conditions.wet, use.conditions.temperature)
        case "Ceg" | "Cdi" | "Ctn":
            clause, why = _NOT_HERE[factor]
            return given(factor, 1.0, "", clause, why)
    raise KeyError(factor)


def wet_service(value_of: str, fastener: Fastener, use: Use) -> Step:
    """CM of Z, W or WH. NDS 2018 Table 11.3.3: moisture when fastened and in service."""
    built = "wet" if use.wet_built else "dry"
    service = "wet" if use.conditions.wet else "dry"
    size = "under 1/4" if fastener.small else "1/4 and over"
    row = next(
        r
        for r in tables.load("connection_wet_service").rows
        if r["value"] == value_of
        and (r["fastener"] == "all" or fastener.kind in r["fastener"].split("; "))
        and r["D"] in ("", size)
        and r["built"] in ("any", built)
        and r["service"] in ("any", service)
    )
    note = f"{built} when fastened, {service} in service"
    status = "" if built == service == "dry" else row["status"]  # 1 by what the values are for
    return given("CM", float(row["CM"]), "", "NDS 2018 Table 11.3.3", note, status)


def temperature(wet: bool, sustained: Temperature) -> Step:
    """Ct of a connection. NDS 2018 Table 11.3.4, sustained temperature."""
    service = "wet" if wet else "dry"
    row = tables.load("connection_temperature").find(service=service)
    columns = ("to_100F", "to_125F", "to_150F")
    column = columns[("to 100 F", "100 to 125 F", "125 to 150 F").index(sustained)]
    note = f"{sustained}, {service}"
    status = "" if column == columns[0] else row["status"]  # 1 by what the values are for
    return given("Ct", float(row[column]), "", "NDS 2018 Table 11.3.4", note, status)


_NOT_HERE = {  # factor: clause, why it is 1
    "Ceg": ("NDS 2018 12.5.2", "side grain"),
    "Cdi": ("NDS 2018 12.5.3", "no diaphragm"),
    "Ctn": ("NDS 2018 12.5.4", "not toe-nailed"),
}


def combined(
    fastener: Fastener, Z_adj: Step, Wp_adj: Step, V: Num | Step, T: Num | Step
) -> tuple[Step, Step]:
    """Load R on one fastener and its capacity at R's angle to the wood surface, lb.

    V lateral, T pull (0 or more), lb. Wp_adj: the least of the tension values, where pull-through
    or pull-over is less than withdrawal. Lag and wood screws by 12.4.1, nails by 12.4.2; their
    forms are recalled.
    """
    R = resultant.step(V_f=V, T_f=T)
    none = np.equal(R.value, 0)
    size = where(none, 1.0, R.value)
    cos, sin = where(none, 1.0, amount(V) / size), amount(T) / size
    note = "α from the wood surface to the load"
    if fastener.kind == "nail":
        chosen = combined_nail
        turned = {"cos_alpha": np.abs(cos), "sin_alpha": sin}
    else:
        chosen = combined_screw
        turned = {"cos2_alpha": cos**2, "sin2_alpha": sin**2}
    steps = {key: given(key, value, "", "geometry", note) for key, value in turned.items()}
    with np.errstate(invalid="ignore"):
        step = chosen.step(Wp_adj=Wp_adj, Z_adj=Z_adj, **steps)
    # where one value is 0 the form may be 0 / 0: nothing pulls: Z' itself; nothing pushes aside:
    # W'p itself; both 0: nothing
    no_Z, no_W = np.equal(Z_adj.value, 0), np.equal(Wp_adj.value, 0)
    value = where(np.equal(amount(V), 0) & no_Z, Wp_adj.value, step.value)
    value = where(np.equal(amount(T), 0), Z_adj.value, value)
    value = where(no_Z & no_W, 0.0, value)
    return R, replace(step, value=value, status=tables.MEMORY)
