"""Loads on one outrigger, from psf and plf to pounds. Plain numbers or arrays in lb and in.

Sources are given with each formula; factors of safety and combinations are in `combinations`.
"""

import math

import numpy as np
from msgspec.structs import replace

from outrigger.base.tables import load
from outrigger.base.units import pounds_per_cubic_inch
from outrigger.formula.formula import Step, formula
from outrigger.formula.numbers import Num, greatest, least, where
from outrigger.wood import reference
from outrigger.wood.lumber import Wood

WORKER_LB = 300.0  # ASCE 7 Table 4.3-1, read in UFC 3-301-01 Table E-1: second-hand
SELF_WEIGHT_MOISTURE = 19.0  # percent
MOST_OF_FIRST_INTERIOR = 1.25  # over two bays, the most of any
LEAST_LIVE_PSF, MOST_LIVE_PSF = 12.0, 20.0 * (1 + 1e-9)  # 4.8.2; a hair for conversion


@formula("w_roof", "lb/in", clause="statics")
def roof_line_load(q: Num, l_span: Num, l_overhang: Num) -> Num:
    """Roof reaction on the wall line, per length of wall; both walls overhung alike."""
    return q * (l_span / 2 + l_overhang)


@formula("w_roof", "lb/in", clause="statics")
def roof_line_load_with_overhang(q: Num, l_span: Num, q_overhang: Num, l_overhang: Num) -> Num:
    """Roof reaction on the wall line where the overhangs carry a load of their own, alike."""
    return q * l_span / 2 + q_overhang * l_overhang


@formula("P", "lb", clause="statics")
def share_of_line(w_roof: Num, l_share: Num) -> Num:
    """Roof reaction on one outrigger."""
    return w_roof * l_share


@formula("w_load", "lb/in", clause="statics")
def strip_load(q: Num, s_strip: Num) -> Num:
    """Load of a roof right on one outrigger, level."""
    return q * s_strip


@formula("w_load", "lb/in", clause="statics")
def strip_load_with_self(q: Num, s_strip: Num, w_self: Num) -> Num:
    """Dead load of a roof right on one outrigger, level, with its own weight."""
    return q * s_strip + w_self


@formula("P", "lb", clause="statics")
def wall_weight(q: Num, h_wall: Num, s_plan: Num) -> Num:
    """Weight of the garage wall on one outrigger."""
    return q * h_wall * s_plan


@formula("P_mark", "lb", clause="statics")
def net_on_mark(w_dead: Num, w_wind: Num, l_share: Num, q: Num, h_wall: Num, s_mark: Num) -> Num:
    """Dead load and wind up on one mark, by what it carries of the roof and of the wall."""
    return (w_dead + w_wind) * l_share + q * h_wall * s_mark


@formula("P_mark", "lb", clause="statics")
def net_with_points(P_line: Num, P_point: Num) -> Num:
    """The same with its parts of the point loads."""
    return P_line + P_point


@formula("P", "lb", clause="statics")
def not_sure(P_breaks: Num, P_runs: Num, P_larger: Num) -> Num:
    """What one model of the plate has less than the larger shares of both, upward."""
    return least(P_breaks, P_runs, P_larger) - P_larger


@formula("H_wall", "lb", clause="statics")
def wall_wind(q: Num, h_wall: Num, s_plan: Num) -> Num:
    """Wind square to the garage wall on one outrigger: half the height, the top held."""
    return q * h_wall / 2 * s_plan


@formula("A_wall", "lb", clause="statics")
def wall_force(w_along: Num, s_plan: Num) -> Num:
    """Force along the garage wall on one outrigger."""
    return w_along * s_plan


@formula("H_wall", "lb", clause="statics")
def wall_wind_of_line(w_square: Num, s_plan: Num) -> Num:
    """Wind square to the garage wall on one outrigger, from its line load."""
    return w_square * s_plan


@formula(
    "gamma_wood",
    "pcf",
    clause="NDS Supplement 2018 3.1.3",
    constants={"62.4": "pcf"},
)
def density(G: Num, mc: Num) -> Num:
    """Density of wood at a moisture content in percent."""
    return 62.4 * (G / (1 + 0.009 * G * mc)) * (1 + mc / 100)


@formula("R_1", "", clause="ASCE 7 4.8.2", constants={"0.001": "1/sf"})
def reduction_by_area(A_t: Num) -> Num:
    """Reduction of roof live load by tributary area, between 200 and 600 sf."""
    return least(1, greatest(0.6, 1.2 - 0.001 * A_t))


@formula("R_2", "", clause="ASCE 7 4.8.2")
def reduction_by_slope(F_rise: Num) -> Num:
    """Reduction of roof live load by slope, inches of rise in a foot, between 4 and 12."""
    return least(1, greatest(0.6, 1.2 - 0.05 * F_rise))


@formula("L_r", "psf", clause="ASCE 7 Eq. 4.8-1", constants={"12": "psf", "20": "psf"})
def roof_live(L_o: Num, R_1: Num, R_2: Num) -> Num:
    """Roof live load, not under 12 nor over 20 psf."""
    return greatest(12, least(20, L_o * R_1 * R_2))


def reduced_roof_live(psf: Num, area_sf: Num, rise_per_foot: Num) -> Step:
    """Roof live load reduced for one member: psf, its tributary area sf, rise in a foot.

    4.8.2 is for ordinary roofs, 20 psf: more than that, none, and what is under its least value of
    12 psf stay as stated.
    """
    R_1 = reduction_by_area.step(A_t=area_sf)
    R_2 = reduction_by_slope.step(F_rise=rise_per_foot)
    step = roof_live.step(L_o=psf, R_1=R_1, R_2=R_2)
    ordinary = np.greater(psf, LEAST_LIVE_PSF) & np.less_equal(psf, MOST_LIVE_PSF)
    if np.all(ordinary):
        return step
    note = "not reduced: 4.8.2 is for 12 to 20 psf"
    return replace(step, value=where(ordinary, step.value, psf), note=note, formula=None, inputs={})


def self_weight(wood: Wood, area: Num) -> Num:
    """Weight of the member per length, lb/in, at 19 % moisture; area in2."""
    pcf = density(wood.value("G"), SELF_WEIGHT_MOISTURE)
    return np.asarray(pounds_per_cubic_inch(pcf) * area)[()]


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


def first_interior(bays: int) -> float:
    """What the first outrigger inside a continuous plate takes, in shares of its own spacing.

    Equal bays, every one loaded alike, rigid outriggers: 5/4 over two bays, 11/10 over three; 8/7
    over four is the largest of the rest, and 1.15 is taken for all of them. One bay has none
    inside: its own share. Not covered: bays loaded in part, up to 1.22.

    Source: three-moment equation.
    """
    return {1: 1.0, 2: MOST_OF_FIRST_INTERIOR, 3: 1.10}.get(bays, 1.15)


def fastener_gravity(species: str) -> float:
    """G of a species for fasteners (NDS Table 12.3.3A); the least of its design values where that
    table has no row."""
    rows = load("specific_gravity").matching(species=species)
    if rows:
        return float(rows[0]["G"])
    return min(one.values["G"].value for one in reference.grades(species))
