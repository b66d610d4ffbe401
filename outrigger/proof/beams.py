"""Beams: handbook closed forms, rows of equal spans, and sympy as a second solver."""

from collections.abc import Mapping
from typing import Any

from outrigger.base.tables import DERIVED, Row
from outrigger.proof.compared import Compared
from outrigger.proof.read import compared, rows, source
from outrigger.statics.beam import Beam, Couple, Point, Solution, Uniform, solve

GROUP = "statics"
INPUTS = {"L": "L_in", "a": "a_in", "c": "c_in", "P": "P_lb", "w": "w_lb_per_in", "M0": "M0_lb_in",
          "EI": "EI_lb_in2"}  # fmt: skip
SHARE = 1e-6  # 8 digits in the shortest column, some of them of a rounded place
WHY = "a millionth: 8 digits, some of them of a rounded place"
SPAN_IN, EVEN = 48.0, 10.0  # of a row of spans, which its ratios do not hang on


def load_of(case: str, g: Mapping[str, Any]) -> Point | Uniform | Couple:
    """The load of a case: a point at the tip, even on the overhang, even on all, a point between
    the supports, a couple at the tip, even between the supports."""
    tip = g["L"] + g["a"]
    match case:
        case "a":
            return Point(tip, g["P"])
        case "b":
            return Uniform(g["L"], tip, g["w"])
        case "c":
            return Uniform(0, tip, g["w"])
        case "d":
            return Point(g["c"], g["P"])
        case "e":
            return Couple(tip, g["M0"])
        case _:
            return Uniform(0, g["L"], g["w"])


def inputs(row: Row) -> dict[str, float]:
    """What a row gives, by the symbols of the closed forms."""
    return {symbol: float(row[name]) for symbol, name in INPUTS.items() if row[name]}


def solved(case: str, g: Mapping[str, float]) -> Solution:
    """The beam of a case: pin at 0, roller at L, free end at L + a; no shear deflection."""
    return solve(Beam((0, g["L"]), g["EI"], 0, g["L"] + g["a"]), [load_of(case, g)])


def closed_forms() -> list[Compared]:
    """Reactions, moment at the wall, deflections and slopes of six cases."""
    found = []
    for row in rows("beam_closed_forms"):
        g = inputs(row)
        beam, L, tip = solved(row["case"], g), g["L"], g["L"] + g["a"]
        R1, R2 = beam.reactions[0, 0]
        slopes = beam.slope((0, L, tip))[:, 0]
        worked = {
            "R1_lb": (R1, "lb", 0.0),
            "R2_lb": (R2, "lb", 0.0),
            # a moment of 0 is printed in two cases: round-off of the reaction over the span
            "M_wall_lb_in": (beam.moment(L).item(), "lb-in", R2 * L * SHARE),
            "tip_defl_in": (beam.deflection(tip).item(), "in", 0.0),
            "slope_x0": (slopes[0], "", 0.0),
            "slope_wall": (slopes[1], "", slopes[0]),  # one is printed as 0
            "slope_tip": (slopes[2], "", 0.0),
            "backspan_extreme_defl_in": (
                beam.deflection(float(row["at_x_in"])).item(), "in", 0.0,
            ),
        }  # fmt: skip
        for name, (here, unit, size) in worked.items():
            text = row[name]
            allow = SHARE * max(abs(float(text)), abs(size))
            what = f"case {row['case']}{row['set']}: {name}"
            found.append(
                compared(GROUP, row, what, here, unit=unit, printed=text, allow=allow, why=WHY)
            )
    return found


def rows_of_spans() -> list[Compared]:
    """Reaction of the first support inside, over w L."""
    found = []
    for row in rows("continuous_beams"):
        n = int(row["spans"])
        loaded = range(1, n + 1) if row["loaded"] == "all" else map(int, row["loaded"].split())
        loads = [Uniform((i - 1) * SPAN_IN, i * SPAN_IN, EVEN) for i in loaded]
        supports = tuple(i * SPAN_IN for i in range(n + 1))
        beam = solve(Beam(supports, 1e7, 0.0, n * SPAN_IN), loads)
        what = f"first reaction inside, {n} spans, loaded: {row['loaded']}"
        here = beam.reactions[0, 0, 1] / (EVEN * SPAN_IN)
        found.append(compared(GROUP, row, what, here))
    return found


def by_sympy() -> list[Compared]:
    """The same beams in exact fractions, and formulas derived again: sympy as the second solver."""
    from outrigger.proof import algebra  # slow to load

    who = source("sympy", GROUP)
    return [
        Compared(
            GROUP, who, one.at, one.what, f"{one.exact:.10g}", one.exact, float(one.here), one.unit,
            DERIVED, float(max(abs(one.exact), one.size)) * algebra.SHARE, algebra.WHY,
        )
        for one in algebra.solved_again()
    ]  # fmt: skip
