"""Algebra: the sympy expression of a formula, and a beam in exact fractions.

The only module that imports sympy.
"""

import ast
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import sympy

from outrigger.formula.formula import Formula

FUNCTIONS = {
    "sqrt": sympy.sqrt,
    "least": sympy.Min,
    "greatest": sympy.Max,
    "sin_deg": lambda angle: sympy.sin(angle * sympy.pi / 180),
    "cos_deg": lambda angle: sympy.cos(angle * sympy.pi / 180),
}


def expression(formula: Formula) -> Any:
    """A formula as a sympy expression in positive symbols, its constants exact rationals.

    Raises:
        TypeError: the formula holds something other than arithmetic.
    """

    def build(node: ast.expr) -> Any:
        match node:
            case ast.Name(id=name):
                return sympy.Symbol(name, positive=True)
            case ast.Constant():
                return sympy.Rational(formula.constant(node))
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                return -build(operand)
            case ast.BinOp(left=left, op=ast.Add(), right=right):
                return build(left) + build(right)
            case ast.BinOp(left=left, op=ast.Sub(), right=right):
                return build(left) - build(right)
            case ast.BinOp(left=left, op=ast.Mult(), right=right):
                return build(left) * build(right)
            case ast.BinOp(left=left, op=ast.Div(), right=right):
                return build(left) / build(right)
            case ast.BinOp(left=left, op=ast.Pow(), right=right):
                return build(left) ** build(right)
            case ast.Call(func=ast.Name(id=name), args=arguments):
                return FUNCTIONS[name](*(build(a) for a in arguments))
        raise TypeError(f"{formula.symbol}: {ast.dump(node)} is not arithmetic")

    return build(formula.tree)


@dataclass(frozen=True)
class Load:
    """A load on a beam: "point" lb and "couple" lb-in at `start`; "even" lb/in, and "growing" from
    nothing to lb/in, from `start` to `end`. In, down positive, a couple as a load beyond it."""

    kind: str
    start: float
    end: float
    size: float


@dataclass(frozen=True)
class ExactBeam:
    """Reactions lb by support, moment lb-in just inside the last one, deflection in at a place."""

    reactions: tuple[float, ...]
    moment: float
    deflection: float


def exact_beam(
    supports: Sequence[float], loads: Sequence[Load], EI: float, GA: float, at: float
) -> ExactBeam:
    """A beam on rigid supports, each holding both ways, in exact fractions.

    Equilibrium and the deflections of nothing at the supports, with bending and shear, make one
    set of linear equations in the reactions and the two constants of the elastic line.

    Args:
        supports: x in, ascending.
        loads: of one combination.
        EI, GA: lb-in2, lb.
        at: x in of the wanted deflection.
    """
    exact = sympy.Rational
    places = [exact(x) for x in supports]
    terms: list[tuple[Any, Any, int]] = []  # at, size, power of the moment's term
    for load in loads:
        a, b, q = exact(load.start), exact(load.end), exact(load.size)
        if load.kind == "point":
            terms.append((a, -q, 1))
        elif load.kind == "couple":
            terms.append((a, q, 0))
        elif load.kind == "even":
            terms += [(a, -q / 2, 2), (b, q / 2, 2)]
        elif b > a:  # growing: its slope up to the end, where it stops whole
            terms += [(a, -q / (b - a) / 6, 3), (b, q / (b - a) / 6, 3), (b, q / 2, 2)]

    def bracket(x: Any, start: Any, power: int) -> Any:
        return (x - start) ** power if x > start else exact(0)

    def moment_of(x: Any, own: Sequence[tuple[Any, Any, int]]) -> Any:
        return sum((size * bracket(x, start, n) for start, size, n in own), exact(0))

    def bent(x: Any, own: Sequence[tuple[Any, Any, int]]) -> Any:
        """Deflection of the terms alone: bending twice integrated, and shear."""
        return sum(
            (
                -size * bracket(x, start, n + 2) / ((n + 1) * (n + 2)) / exact(EI)
                + (size * bracket(x, start, n) / exact(GA) if n else 0)
                for start, size, n in own
            ),
            exact(0),
        )

    far = max([exact(load.end) for load in loads] + [places[-1]]) + 1
    count = len(places)
    rows, right = [], []
    rows.append([far - x for x in places] + [0, 0])  # no moment beyond the end
    right.append(-moment_of(far, terms))
    rows.append([far + 1 - x for x in places] + [0, 0])
    right.append(-moment_of(far + 1, terms))
    for x in places:
        rows.append([bent(x, [(other, exact(1), 1)]) for other in places] + [1, x])
        right.append(-bent(x, terms))
    solved = list(sympy.Matrix(rows).LUsolve(sympy.Matrix(right)))
    whole = [*terms, *((x, R, 1) for x, R in zip(places, solved, strict=False))]
    x = exact(at)
    return ExactBeam(
        tuple(float(R) for R in solved[:count]),
        float(moment_of(places[-1], whole)),
        float(bent(x, whole) + solved[count] + solved[count + 1] * x),
    )
