"""End distance, edge distance and spacing of fasteners. NDS 2018 12.5.1 and its commentary.

Lengths in. Under 1/4 in the standard has no number, only that the wood must not split: the
commentary's guidance is given.
"""

import numpy as np

from outrigger.base import tables
from outrigger.base.errors import InputError
from outrigger.fasteners.trade_names import Fastener
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Num, least, where


@formula("s_full", "in", clause="NDS 2018 12.5.1")
def distance_of(n_D: Num, D_nom: Num) -> Num:
    """A distance as a multiple of D."""
    return n_D * D_nom


@formula("CDelta", "", clause="NDS 2018 12.5.1")
def geometry_ratio(s_actual: Num, s_full: Num) -> Num:
    """Geometry factor of an end distance or a spacing in a row."""
    return least(1, s_actual / s_full)


@formula("CDelta", "", clause="NDS 2018 12.5.1.2")
def least_geometry(CDelta_end: Num, CDelta_row: Num) -> Num:
    """The smallest of a group is that of the group."""
    return least(CDelta_end, CDelta_row)


def rows_for(fastener: Fastener, side: str = "steel") -> list[tables.Row]:
    """The spacing rules of a fastener; `side` wood or steel, which the guidance for D under
    1/4 in tells apart."""
    diameter = "under 1/4" if fastener.small else "1/4 and over"
    rows = tables.load("fastener_spacing").matching(diameter=diameter)
    return [r for r in rows if not fastener.small or r["note"].startswith(side)]


def full_distance(fastener: Fastener, measure: str, load: str, side: str = "steel") -> Step:
    """The distance that gives the full value, in; `measure` and `load` as the table names them.

    Raises:
        InputError: no such rule; the rules there are are listed.
    """
    rows = rows_for(fastener, side)
    row = next((r for r in rows if r["measure"] == measure and r["load"] in (load, "any")), None)
    if row is None:
        listed = "; ".join(f"{r['measure']}, {r['load']}" for r in rows)
        raise InputError(
            f"{measure}, {load}: no rule on file for {fastener.name}. It has: {listed}."
        )
    clause, note = f"NDS 2018 {row['clause']}", f"{row['measure']}, {row['load']}: {row['note']}"
    n_D = given("n_D", float(row["full_D"]), "", clause, note.rstrip(": "), row["status"])
    return distance_of.step(n_D=n_D, D_nom=fastener.step("D_nom"))


def geometry_factor(fastener: Fastener, measure: str, load: str, actual: Num) -> Step:
    """CDelta of an end distance or a spacing in a row, in: 0 under the least that is allowed.

    1 for D under 1/4 in. The smallest of a group is that of the group.
    """
    clause = "NDS 2018 12.5.1"
    if fastener.small:
        return given("CDelta", 1.0, "", clause, "D under 1/4 in")
    full = full_distance(fastener, measure, load)
    (row,) = (r for r in rows_for(fastener) if (r["measure"], r["load"]) == (measure, load))
    allowed = actual >= float(row["least_D"]) * fastener.D
    step = geometry_ratio.step(s_actual=actual, s_full=full)
    if np.all(allowed):
        return step
    note = f"under {row['least_D']}D: not allowed"
    return given("CDelta", where(allowed, step.value, 0.0), "", clause, note, row["status"])
