"""Adjusted design values, NDS 2018 Table 4.3.1, ASD and LRFD by one path.

A property's formula stands twice, as Table 4.3.1 prints it for each method: with CD in ASD, with
KF, phi and lambda in LRFD. `adjusted` chooses the formula and puts every factor in as a step, also
when it is 1. CT (truss chords, 4.4.2) does not apply to outriggers and is left out.
"""

from typing import Literal

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.base import tables
from outrigger.base.errors import InputError
from outrigger.formula.formula import Formula, Step, formula, given
from outrigger.formula.numbers import Bools, Num, where
from outrigger.wood.lumber import Wood
from outrigger.wood.reference import TABLES

Method = Literal["ASD", "LRFD"]
Temperature = Literal["to 100 F", "100 to 125 F", "125 to 150 F"]

TABLE_4_3_1 = "NDS 2018 Table 4.3.1"
REPETITIVE_MOST_IN = 24.0  # between members, NDS 2018 4.3.9


@formula("Fb_star", "psi", clause=TABLE_4_3_1)
def bending_star_asd(Fb: Num, CD: Num, CM: Num, Ct: Num, CF: Num, Ci: Num, Cr: Num) -> Num:
    """Bending value with every factor except Cfu and CL, ASD."""
    return Fb * CD * CM * Ct * CF * Ci * Cr


@formula("Fb_star", "psi", clause=TABLE_4_3_1)
def bending_star_lrfd(
    Fb: Num, CM: Num, Ct: Num, CF: Num, Ci: Num, Cr: Num, KF: Num, phi: Num, lam: Num
) -> Num:
    """Bending value with every factor except Cfu and CL, LRFD."""
    return Fb * CM * Ct * CF * Ci * Cr * KF * phi * lam


@formula("Fb_adj", "psi", clause=TABLE_4_3_1)
def adjusted_bending(Fb_star: Num, CL: Num, Cfu: Num) -> Num:
    """Adjusted bending design value."""
    return Fb_star * CL * Cfu


@formula("Ft_adj", "psi", clause=TABLE_4_3_1)
def adjusted_tension_asd(Ft: Num, CD: Num, CM: Num, Ct: Num, CF: Num, Ci: Num) -> Num:
    """Adjusted tension design value, ASD."""
    return Ft * CD * CM * Ct * CF * Ci


@formula("Ft_adj", "psi", clause=TABLE_4_3_1)
def adjusted_tension_lrfd(
    Ft: Num, CM: Num, Ct: Num, CF: Num, Ci: Num, KF: Num, phi: Num, lam: Num
) -> Num:
    """Adjusted tension design value, LRFD."""
    return Ft * CM * Ct * CF * Ci * KF * phi * lam


@formula("Fv_adj", "psi", clause=TABLE_4_3_1)
def adjusted_shear_asd(Fv: Num, CD: Num, CM: Num, Ct: Num, Ci: Num) -> Num:
    """Adjusted shear design value, ASD."""
    return Fv * CD * CM * Ct * Ci


@formula("Fv_adj", "psi", clause=TABLE_4_3_1)
def adjusted_shear_lrfd(Fv: Num, CM: Num, Ct: Num, Ci: Num, KF: Num, phi: Num, lam: Num) -> Num:
    """Adjusted shear design value, LRFD."""
    return Fv * CM * Ct * Ci * KF * phi * lam


@formula("Fc_perp_adj", "psi", clause=TABLE_4_3_1)
def adjusted_bearing_asd(Fc_perp: Num, CM: Num, Ct: Num, Ci: Num, Cb: Num) -> Num:
    """Adjusted bearing design value across the grain, ASD: no CD."""
    return Fc_perp * CM * Ct * Ci * Cb


@formula("Fc_perp_adj", "psi", clause=TABLE_4_3_1)
def adjusted_bearing_lrfd(
    Fc_perp: Num, CM: Num, Ct: Num, Ci: Num, Cb: Num, KF: Num, phi: Num
) -> Num:
    """Adjusted bearing design value across the grain, LRFD: no lambda."""
    return Fc_perp * CM * Ct * Ci * Cb * KF * phi


@formula("Fc_star", "psi", clause=TABLE_4_3_1)
def compression_star_asd(Fc: Num, CD: Num, CM: Num, Ct: Num, CF: Num, Ci: Num) -> Num:
    """Compression value with every factor except CP, ASD."""
    return Fc * CD * CM * Ct * CF * Ci


@formula("Fc_star", "psi", clause=TABLE_4_3_1)
def compression_star_lrfd(
    Fc: Num, CM: Num, Ct: Num, CF: Num, Ci: Num, KF: Num, phi: Num, lam: Num
) -> Num:
    """Compression value with every factor except CP, LRFD."""
    return Fc * CM * Ct * CF * Ci * KF * phi * lam


@formula("Fc_adj", "psi", clause=TABLE_4_3_1)
def adjusted_compression(Fc_star: Num, CP: Num) -> Num:
    """Adjusted compression design value parallel to grain."""
    return Fc_star * CP


@formula("E_adj", "psi", clause=TABLE_4_3_1)
def adjusted_modulus(E: Num, CM: Num, Ct: Num, Ci: Num) -> Num:
    """Adjusted modulus of elasticity, both methods."""
    return E * CM * Ct * Ci


@formula("E", "psi", clause="NDS Supplement 2018 Table 4D")
def timber_modulus_flat(E: Num, Cfu: Num) -> Num:
    """Modulus of elasticity of a timber loaded on its wide face."""
    return E * Cfu


@formula("Emin", "psi", clause="NDS Supplement 2018 Table 4D")
def timber_stability_modulus_flat(Emin: Num, Cfu: Num) -> Num:
    """Modulus of elasticity for stability of a timber loaded on its wide face."""
    return Emin * Cfu


@formula("Emin_adj", "psi", clause=TABLE_4_3_1)
def adjusted_stability_modulus_asd(Emin: Num, CM: Num, Ct: Num, Ci: Num) -> Num:
    """Adjusted modulus of elasticity for stability, ASD."""
    return Emin * CM * Ct * Ci


@formula("Emin_adj", "psi", clause=TABLE_4_3_1)
def adjusted_stability_modulus_lrfd(Emin: Num, CM: Num, Ct: Num, Ci: Num, KF: Num, phi: Num) -> Num:
    """Adjusted modulus of elasticity for stability, LRFD: no lambda."""
    return Emin * CM * Ct * Ci * KF * phi


FORMULAS: dict[str, dict[Method, Formula]] = {
    "Fb": {"ASD": bending_star_asd, "LRFD": bending_star_lrfd},
    "Ft": {"ASD": adjusted_tension_asd, "LRFD": adjusted_tension_lrfd},
    "Fv": {"ASD": adjusted_shear_asd, "LRFD": adjusted_shear_lrfd},
    "Fc_perp": {"ASD": adjusted_bearing_asd, "LRFD": adjusted_bearing_lrfd},
    "Fc": {"ASD": compression_star_asd, "LRFD": compression_star_lrfd},
    "E": {"ASD": adjusted_modulus, "LRFD": adjusted_modulus},
    "Emin": {"ASD": adjusted_stability_modulus_asd, "LRFD": adjusted_stability_modulus_lrfd},
}
TIMBER_FLAT = {"E": timber_modulus_flat, "Emin": timber_stability_modulus_flat}


class Conditions(Struct, frozen=True):
    """What the wood is used under. `wet`: moisture over 19 % in service, for an extended time."""

    method: Method = "ASD"
    wet: bool = False
    temperature: Temperature = "to 100 F"
    incised: bool = False
    repetitive: bool | Bools = False  # an array where spacing is swept past 24 in
    flat: bool = False  # laid flat: load on the wide face


def adjusted(
    name: str, wood: Wood, conditions: Conditions, time: Num, Cb: Num | Step = 1.0
) -> Step:
    """The adjusted value of one property: Fb and Fc starred, all others primed.

    Args:
        name: Fb, Ft, Fv, Fc_perp, Fc, E or Emin.
        wood: species, grade and size.
        conditions: method, moisture, temperature, incising, repetitive use, laying.
        time: CD in ASD, lambda in LRFD; a number or an array over combinations.
        Cb: bearing area factor, for Fc_perp.

    Raises:
        InputError: a factor does not exist for this lumber (incised or repetitive timber).

    Source: NDS 2018 Table 4.3.1; 4.3.2 to 4.3.14 for the factors.
    """
    chosen = FORMULAS[name][conditions.method]
    inputs: dict[str, Num | Step] = {name: wood.reference(name)}
    if conditions.flat and wood.row.kind == "timber" and name in TIMBER_FLAT:
        inputs[name] = TIMBER_FLAT[name].step(**inputs, Cfu=flat_use(wood, True, "Cfu_E"))
    for factor in chosen.arguments[1:]:
        if factor == "Cb":
            inputs[factor] = Cb if isinstance(Cb, Step) else given("Cb", Cb, "", "NDS 2018 3.10.4")
        else:
            inputs[factor] = factor_step(factor, name, wood, conditions, time)
    return chosen.step(**inputs)


def factor_step(factor: str, name: str, wood: Wood, conditions: Conditions, time: Num) -> Step:
    """One factor of Table 4.3.1 for one property, as a step with its source.

    Raises:
        InputError: the factor does not exist for this lumber.
    """
    match factor:
        case "CD":
            return replace(given("CD", time, "", "NDS 2018 2.3.2"), of_combination=True)
        case "lam":
            return replace(given("lam", time, "", "NDS 2018 Table N3"), of_combination=True)
        case "KF" | "phi":
            row = tables.load("format_conversion").find(property=name)
            table = "NDS 2018 Table N1" if factor == "KF" else "NDS 2018 Table N2"
            return given(factor, float(row[factor]), "", table, "", row["status"])
        case "CM":
            return wet_service(name, wood, conditions.wet)
        case "Ct":
            return temperature(name, conditions)
        case "CF":
            return wood.CF[name]
        case "Ci":
            return incising(name, wood, conditions.incised)
        case "Cr":
            return repetitive(wood, conditions.repetitive)
    raise KeyError(factor)


def wet_service(name: str, wood: Wood, wet: bool) -> Step:
    """CM. NDS Supplement 2018, factor pages of Tables 4A, 4B, 4C, 4D.

    Fb: 1.0 when Fb CF is 1,150 psi or less; Fc: 1.0 when Fc CF is 750 psi or less, before any
    other factor. Southern Pine and Mixed Southern Pine timbers: 1.0.
    """
    clause = "NDS 2018 4.3.3"
    if not wet:
        return given("CM", 1.0, "", clause, "dry in service")
    prefix = TABLES[wood.row.kind]
    row = next(r for r in tables.load("wet_service").rows if r["table"].startswith(prefix))
    value: Num = float(row["E_Emin" if name in ("E", "Emin") else name])
    note = f"wet in service, Table {prefix}"
    if wood.row.kind == "timber" and "Southern Pine" in wood.row.species:
        value, note = 1.0, f"{note}: Southern Pine timbers, 1.0"
    limit = row[f"limit_{name}_CF"] if name in ("Fb", "Fc") else ""
    if limit:
        tabulated = wood.value(name) * wood.CF[name].value
        if np.all(tabulated <= float(limit)):
            first = float(np.ravel(tabulated)[0])
            value, note = 1.0, f"{note}: {name} CF = {first:g}, not over {limit} psi"
        else:
            value = where(tabulated <= float(limit), 1.0, value)
    return given("CM", value, "", clause, note, row["status"])


def temperature(name: str, conditions: Conditions) -> Step:
    """Ct. NDS 2018 Table 2.3.3, sustained temperature."""
    columns: dict[Temperature, str] = {
        "to 100 F": "to_100F",
        "100 to 125 F": "to_125F",
        "125 to 150 F": "to_150F",
    }
    moisture = "wet" if conditions.wet else "dry"
    for row in tables.load("temperature").rows:
        if name in _group(row["property"]) and row["moisture"] in (moisture, "wet or dry"):
            value = float(row[columns[conditions.temperature]])
            note = f"{conditions.temperature}, {moisture}"
            return given("Ct", value, "", "NDS 2018 Table 2.3.3", note, row["status"])
    raise KeyError(name)


def incising(name: str, wood: Wood, incised: bool) -> Step:
    """Ci. NDS 2018 Table 4.3.8, dimension lumber.

    Raises:
        InputError: incised timber: the table has no factor for it.
    """
    clause = "NDS 2018 Table 4.3.8"
    if not incised:
        return given("Ci", 1.0, "", clause, "not incised")
    if wood.row.kind == "timber":
        raise InputError(
            f"incised = true: {clause} has no factor for timbers such as {wood.size.name}. "
            "Ask the treater for values, or use dimension lumber."
        )
    row = next(r for r in tables.load("incising").rows if name in _group(r["property"]))
    note = "incised parallel to grain, to the limits of the table"
    return given("Ci", float(row["Ci"]), "", clause, note, row["status"])


def repetitive(wood: Wood, stated: bool | Bools) -> Step:
    """Cr, only when stated. NDS 2018 4.3.9: dimension lumber, three or more, 24 in at most,
    joined by an element that shares the load.

    Raises:
        InputError: a timber: the clause is for 2 to 4 in thick lumber.
    """
    clause = "NDS 2018 4.3.9"
    if not np.any(stated):
        return given("Cr", 1.0, "", clause, "not claimed")
    if wood.row.kind == "timber":
        raise InputError(
            f"repetitive = true: {clause} is for lumber 2 to 4 in thick, not {wood.size.name}."
        )
    row = tables.load("repetitive").find(factor="Cr")
    note = "three or more, at most 24 in apart, joined by an element that shares the load"
    value = where(stated, float(row["value"]), 1.0)
    return given("Cr", value, "", clause, note, row["status"])


def flat_use(wood: Wood, flat: bool, column: str = "Cfu_Fb") -> Step:
    """Cfu, load on the wide face. NDS 2018 4.3.7; Supplement Tables 4A, 4B, 4C, 4D.

    `column` Cfu_Fb is for bending, Cfu_E for the stiffness of timbers. Dense grades of timbers
    take the row of their plain grade: the table names none (our reading).

    Raises:
        InputError: the table has no factor for this lumber.
    """
    clause = "NDS 2018 4.3.7"
    size = wood.size
    if not flat:
        return given("Cfu", 1.0, "", clause, "load on the narrow face")
    if size.nominal_b == size.nominal_d:
        return given("Cfu", 1.0, "", clause, "square: no wide face")
    timber = wood.row.kind == "timber"
    if timber and size.timber_class == "Posts & Timbers":
        return given("Cfu", 1.0, "", clause, "Posts & Timbers: the same on both faces")
    for row in tables.load("flat_use").rows:
        if row["table"] == "4C" or timber != (row["table"] == "4D"):
            continue  # 4C has no rows of its own: those of 4A serve it (from memory)
        if timber and wood.row.grade.removeprefix("Dense ") not in row["grades"].split("; "):
            continue
        in_size = tables.in_range(row, "width", size.nominal_d)
        if in_size and tables.in_range(row, "thickness", size.nominal_b):
            note = f"{size.name} loaded on the wide face"
            recalled = tables.MEMORY if wood.row.kind == "machine rated" else ""
            status = tables.worst(recalled, row["status"])
            return given("Cfu", float(row[column]), "", clause, note, status)
    raise InputError(f'laid = "flat": no flat-use factor on file for {wood.row.grade} {size.name}.')


def _group(text: str) -> list[str]:
    """The properties a table row lists: "Fb; Fv; Fc" or "Fb, Ft"."""
    return text.replace(",", ";").replace("; ", ";").replace(" ", "").split(";")
