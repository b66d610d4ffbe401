"""Loads on one outrigger, from psf and plf to pounds. Plain numbers or arrays in lb and in.

Sources are given with each formula; factors of safety and combinations are in combinations.py.
"""

import math

import numpy as np

from outrigger.formula import Num, formula
from outrigger.lumber import Wood
from outrigger.tables import load
from outrigger.units import pounds_per_cubic_inch

WORKER_LB = 300.0  # ASCE 7 Table 4.3-1, from memory: unverified
SELF_WEIGHT_MOISTURE = 19.0  # percent
SHRINKAGE_PER_POINT = 0.0020  # of a dimension across the grain; common practice, no source


@formula("w_roof", "lb/in", clause="statics")
def roof_line_load(q: Num, l_span: Num, l_overhang: Num) -> Num:
    """Roof reaction on the wall line, per length of wall."""
    return q * (l_span / 2 + l_overhang)


@formula("P", "lb", clause="statics")
def share_of_line(w_roof: Num, l_share: Num) -> Num:
    """Roof reaction on one outrigger."""
    return w_roof * l_share


@formula("P", "lb", clause="statics")
def wall_weight(q: Num, h_wall: Num, s_plan: Num) -> Num:
    """Weight of the garage wall on one outrigger."""
    return q * h_wall * s_plan


@formula("w_strip", "lb/in", clause="statics")
def strip_load(q: Num, s_plan: Num) -> Num:
    """Load of a roof surface straight on one outrigger, per length of outrigger."""
    return q * s_plan


@formula(
    "gamma_wood",
    "pcf",
    clause="NDS Supplement 2018 3.1.3",
    constants={"62.4": "pcf"},
)
def density(G: Num, mc: Num) -> Num:
    """Density of wood at a moisture content in percent."""
    return 62.4 * (G / (1 + 0.009 * G * mc)) * (1 + mc / 100)


@formula("pf", "psi", clause="ASCE 7-16 Eq. 7.3-1")
def flat_roof_snow_716(Ce: Num, C_thermal: Num, Is: Num, pg: Num) -> Num:
    """Flat-roof snow load, 7-16, at allowable-stress level."""
    return 0.7 * Ce * C_thermal * Is * pg


@formula("pf", "psi", clause="ASCE 7-22 Eq. 7.3-1")
def flat_roof_snow_722(Ce: Num, C_thermal: Num, pg: Num) -> Num:
    """Flat-roof snow load, 7-22, at strength level."""
    return 0.7 * Ce * C_thermal * pg


def self_weight(wood: Wood, area: Num) -> Num:
    """Weight of the member per length, lb/in, at 19 % moisture; area in2."""
    pcf: float = density(wood.row.values["G"].value, SELF_WEIGHT_MOISTURE)
    return pounds_per_cubic_inch(pcf) * area


def truss_share(truss_spacing: Num, outrigger_spacing: Num) -> Num:
    """Length of wall whose roof load one outrigger takes, in, at the worst alignment.

    Trusses on plates that span simply between outriggers: a truss right over the outrigger, and
    what its neighbours within one bay send. Both spacings in plan, in.

    Source: statics: st x sum over k of max(0, 1 - |k| st / so).
    """
    ratio = np.asarray(truss_spacing, dtype=float) / outrigger_spacing
    share = np.ones_like(ratio)
    for k in range(1, math.ceil(1 / float(np.min(ratio))) + 1):
        share = share + 2 * np.maximum(0.0, 1 - k * ratio)
    return np.asarray(share * truss_spacing)[()]


def specific_gravity(species: str, otherwise: float) -> float:
    """G of a species for fasteners (NDS Table 12.3.3A); `otherwise` where it has no row."""
    rows = load("specific_gravity").matching(species=species)
    return float(rows[0]["G"]) if rows else otherwise
