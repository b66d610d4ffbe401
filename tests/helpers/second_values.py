"""Design values of the second program: NDS 2018 Table 4.3.1 in plain floats.

The numbers are read from the tables' own files; nothing of the program is imported. `n` is a draw
of random_cases.py: plain words and numbers in lb and in.
"""

import csv
import math
from functools import cache
from pathlib import Path

TABLES = Path(__file__).parents[2] / "species_tables"
PHI = {"Fb": 0.85, "Ft": 0.80, "Fv": 0.75, "Fc": 0.90, "Fc_perp": 0.90, "Emin": 0.85, "Z": 0.65}
KF = {"Fb": 2.54, "Ft": 2.70, "Fv": 2.88, "Fc": 2.40, "Fc_perp": 1.67, "Emin": 1.76, "Z": 3.32}
WET = {"Fb": 0.85, "Ft": 1.0, "Fv": 0.97, "Fc_perp": 0.67, "Fc": 0.8, "E": 0.9, "Emin": 0.9}
HOT = ("to 100 F", "100 to 125 F", "125 to 150 F")
DRESSED = {2: 1.5, 3: 2.5, 4: 3.5, 6: 5.5, 8: 7.25, 10: 9.25, 12: 11.25}  # dimension lumber
CF_4A = {4: (1.5, 1.5, 1.15), 6: (1.3, 1.3, 1.1), 8: (1.2, 1.2, 1.05), 10: (1.1, 1.1, 1.0),
         12: (1.0, 1.0, 1.0)}  # fmt: skip
CF_4A_THICK_FB = {4: 1.5, 6: 1.3, 8: 1.3, 10: 1.2, 12: 1.1}  # 4 in thick
CFU = {4: 1.1, 6: 1.15, 8: 1.15, 10: 1.2, 12: 1.2}  # 2 and 3 in thick
CFU_THICK = {4: 1.0, 6: 1.05, 8: 1.05, 10: 1.1, 12: 1.1}


@cache
def rows(folder, name):
    """Rows of a table without its header lines."""
    lines = (TABLES / folder / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@cache
def reference(species, grade, nominal_d):
    """Tabulated values by name, and whether Table 4B holds them."""
    if "Southern Pine" in species:
        found = [r for r in rows("lumber", "table_4b") if (r["species"], r["grade"]) == (
            species, grade) and int(r["width_from"]) <= nominal_d
            and (not r["width_to"] or nominal_d <= int(r["width_to"]))]  # fmt: skip
    else:
        found = [r for r in rows("lumber", "table_4a") if (r["species"], r["grade"]) == (
            species, grade)]  # fmt: skip
    (row,) = found
    names = ("Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "G")
    return {name: float(row[name]) for name in names}, "Southern Pine" in species


@cache
def least_fc_perp(species):
    """Fc_perp of framing or a plate: the least of the species' grades in 4A or 4B."""
    both = rows("lumber", "table_4a") + rows("lumber", "table_4b")
    return min(float(r["Fc_perp"]) for r in both if r["species"] == species)


@cache
def gravity(species):
    """G of Table 12.3.3A."""
    (row,) = [r for r in rows("lumber", "specific_gravity") if r["species"] == species]
    return float(row["G"])


def size_factors(n):
    """CF of Fb, Ft, Fc: 4A by width and thickness; 4B carries them, but for Fb 4 in thick."""
    thick, wide = n["size"]
    if "Southern Pine" in n["species"]:
        return (1.1 if thick == 4 and wide >= 8 else 1.0), 1.0, 1.0
    fb, ft, fc = CF_4A[wide]
    return (CF_4A_THICK_FB[wide] if thick == 4 else fb), ft, fc


def adjusted(n, name, time=1.0, Cb=1.0, repetitive=True):
    """The adjusted value of Table 4.3.1 but for CL, Cfu and CP; time: CD or lambda."""
    tabulated, _ = reference(n["species"], n["grade"], n["size"][1])
    value = tabulated[name]
    CF = dict(zip(("Fb", "Ft", "Fc"), size_factors(n), strict=True)).get(name, 1.0)
    value *= CF
    if n["wet"]:
        spared = {"Fb": 1150.0, "Fc": 750.0}.get(name, 0.0)
        if tabulated[name] * CF > spared:
            value *= WET[name]
    hot = HOT.index(n["temperature"])
    if name in ("Ft", "E", "Emin"):
        value *= (1.0, 0.9, 0.9)[hot]
    else:
        value *= ((1.0, 0.7, 0.5) if n["wet"] else (1.0, 0.8, 0.7))[hot]
    if n["incised"]:
        value *= {"E": 0.95, "Emin": 0.95, "Fc_perp": 1.0}.get(name, 0.80)
    if name == "Fb" and repetitive and n["repetitive"] and n["spacing"] <= 24:
        value *= 1.15
    if name == "Fc_perp":
        value *= Cb
    if n["method"] == "LRFD" and name != "E":
        value *= KF[name] * PHI[name]
    return value * time if name not in ("E", "Emin", "Fc_perp") else value


def flat_use(n):
    """Cfu of the wide face."""
    thick, wide = n["size"]
    return 1.0 if thick == wide else (CFU_THICK if thick == 4 else CFU)[wide]


def beam_length(lu, d, cantilever=False):
    """le of Table 3.3.3: a cantilever loaded at its end, or any loading."""
    if cantilever:
        return 1.87 * lu if lu < 7 * d else 1.44 * lu + 3 * d
    if lu < 7 * d:
        return 2.06 * lu
    return 1.63 * lu + 3 * d if lu <= 14.3 * d else 1.84 * lu


def slenderness(le, b, d):
    """RB of 3.3.3.6."""
    return math.sqrt(le * d) / b


def stability(Emin, RB, Fb_star):
    """CL of 3.3.3.8."""
    ratio = 1.2 * Emin / RB**2 / Fb_star
    half = (1 + ratio) / 1.9
    return half - (half * half - ratio / 0.95) ** 0.5


def column(Emin, le_over_d, Fc_star):
    """FcE and CP of 3.7.1.5, c 0.8."""
    FcE = 0.822 * Emin / le_over_d**2
    half = (1 + FcE / Fc_star) / 1.6
    return FcE, half - (half * half - FcE / Fc_star / 0.8) ** 0.5
