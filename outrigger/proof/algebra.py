"""sympy as the second solver: beams in exact fractions, formulas from what they stand for.

A formula is derived from its condition (a quadratic, an integral, the equilibrium of stress blocks)
and both are put to the same numbers.
"""

from collections.abc import Iterator
from typing import Any

import sympy
from msgspec import Struct

from outrigger.fasteners import yield_modes
from outrigger.loads.snow import rules
from outrigger.proof.beams import inputs, solved
from outrigger.proof.read import rows
from outrigger.statics.exact import Load, exact_beam
from outrigger.wood import axial, bending, rectangle

SHARE, WHY = 1e-9, "a billionth: round-off of floats"
STIFF = 10**30  # no shear deflection: the closed forms leave it out
x = sympy.Symbol("x", real=True)


class Again(Struct, frozen=True):
    """One number solved again; `size`: of the largest of its kind, where it may be 0."""

    at: str
    what: str
    exact: float
    here: float
    unit: str = ""
    size: float = 0.0


def solved_again() -> Iterator[Again]:
    """Beams, then formulas."""
    yield from _beams()
    yield from _stability()
    yield from _sections()
    yield from _yield_modes()
    yield from _reactions()


def _load(case: str, g: dict[str, float]) -> Load:
    """The load of a case as the exact beam takes it."""
    L, tip = g["L"], g["L"] + g["a"]
    return {
        "a": lambda: Load("point", tip, tip, g["P"]),
        "b": lambda: Load("even", L, tip, g["w"]),
        "c": lambda: Load("even", 0.0, tip, g["w"]),
        "d": lambda: Load("point", g["c"], g["c"], g["P"]),
        "e": lambda: Load("couple", tip, tip, g["M0"]),
        "f": lambda: Load("even", 0.0, L, g["w"]),
    }[case]()


def _beams() -> Iterator[Again]:
    """The overhanging beams of the closed forms, in exact fractions."""
    for row in rows("beam_closed_forms"):
        g, case = inputs(row), row["case"]
        tip = g["L"] + g["a"]
        found = exact_beam((0.0, g["L"]), [_load(case, g)], g["EI"], STIFF, tip)
        ours = solved(case, g)
        R = ours.reactions[0, 0]
        name = f"overhanging beam, case {case}{row['set']}"
        most = max(abs(one) for one in found.reactions)
        for number, exact in enumerate(found.reactions):
            yield Again(name, f"reaction {number + 1}", exact, R[number], "lb", most)
        inside = ours.moment(g["L"]).item()
        yield Again(name, "moment at the wall", found.moment, inside, "lb-in", most * g["L"])
        droop = ours.deflection(tip).item()
        yield Again(name, "deflection at the tip", found.deflection, droop, "in")


def _roots(expression: Any) -> list[float]:
    return [float(one) for one in sympy.roots(sympy.Poly(expression, x))]


def _smaller_root(a: Any, b: Any, c: Any) -> float:
    return min(_roots(a * x**2 + b * x + c))


def _stability() -> Iterator[Again]:
    """CL and CP: the smaller roots of the two curves of buckling and crushing."""
    for F_buckling, F_star in ((1776, 1500), (970, 1725), (6000, 1100)):
        r = sympy.Rational(F_buckling, F_star)
        what = f"buckling at {F_buckling}, strength {F_star} psi"
        exact = _smaller_root(sympy.Rational(95, 100), -(1 + r), r)
        yield Again("CL", what, exact, bending.beam_stability(F_buckling, F_star))
        exact = _smaller_root(sympy.Rational(8, 10), -(1 + r), r)
        yield Again("CP", what, exact, axial.column_stability(F_buckling, F_star, 0.8))


def _sections() -> Iterator[Again]:
    """I as the integral of b y^2, S as I over d/2."""
    b, d = sympy.Rational(3, 2), sympy.Rational(37, 4)
    inertia = sympy.integrate(b * x**2, (x, -d / 2, d / 2))
    size = float(b), float(d)
    yield Again(
        "2x10", "I, the integral", float(inertia), rectangle.moment_of_inertia(*size), "in4"
    )
    S = float(inertia / (d / 2))
    yield Again("2x10", "S, I over d/2", S, rectangle.section_modulus(*size), "in3")


def _yield_modes() -> Iterator[Again]:
    """Modes II to IV from the equilibrium of stress blocks: a dowel turns in a member, or bends."""
    D, Fyb, Fem, Fes, lm, ls = map(sympy.Rational, ("0.148", 90000, 3500, 4650, "1.25", "0.75"))
    q_m, q_s, My = Fem * D, Fes * D, Fyb * D**3 / 6

    def turning(q: Any, length: Any) -> Any:
        """Moment at the face of a member in which the dowel turns under a shear x."""
        near = (length + x / q) / 2
        far = length - near
        return q * far * (near + far / 2) - q * near**2 / 2

    def hinged(q: Any) -> Any:
        """The same where the dowel bends and the shear has been taken up at the hinge."""
        return My - x**2 / (2 * q)

    blocks = {
        "II": turning(q_s, ls) + turning(q_m, lm),
        "IIIm": hinged(q_s) + turning(q_m, lm),
        "IIIs": turning(q_s, ls) + hinged(q_m),
        "IV": hinged(q_s) + hinged(q_m),
    }
    known = {"D": D, "Fyb": Fyb, "Fem": Fem, "Fes": Fes, "lm": lm, "ls": ls}
    terms: dict[str, Any] = {name: float(value) for name, value in known.items()} | {"Rd": 1.0}
    for one in (
        yield_modes.strength_ratio,
        yield_modes.length_ratio,
        yield_modes.coefficient_1,
        yield_modes.coefficient_2,
        yield_modes.coefficient_3,
    ):
        terms[one.symbol] = one(**{name: terms[name] for name in one.arguments})
    for mode, equilibrium in blocks.items():
        exact = max(_roots(equilibrium))
        one = yield_modes.SINGLE[mode]
        ours = one(**{name: terms[name] for name in one.arguments})
        yield Again(f"yield mode {mode}", "nail 0.148 in, Rd 1", exact, ours, "lb")


def _reactions() -> Iterator[Again]:
    """Reactions of an even load and of a drift, as integrals of moments about the far bearing."""
    span = 18
    for name, q, start, end in (
        ("even", sympy.Integer(20), -2, 18),
        ("drift", 30 * (1 - x / 9), 0, 9),
    ):
        exact = float(sympy.integrate(q * (span - x) / span, (x, start, end)))
        first, last = (float(q.subs(x, at)) for at in (start, end))
        part = rules.Segment(start, end, first, last)
        ours = rules.reaction_at_wall_line([part], span_ft=span, overhang_ft=2.0).value
        yield Again("reaction at the wall line", name, exact, float(ours), "plf")
