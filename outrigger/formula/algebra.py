"""Algebra: the sympy expression of a formula."""

import ast
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
