"""Formulas as a spreadsheet writes them."""

import ast
from collections.abc import Mapping

from outrigger.formula.formula import Formula

FUNCTIONS = {
    "sqrt": "SQRT({})",
    "least": "MIN({})",
    "greatest": "MAX({})",
    "sin_deg": "SIN(RADIANS({}))",
    "cos_deg": "COS(RADIANS({}))",
}
_SUM, _PRODUCT, _POWER, _ATOM = range(1, 5)
_OPERATORS: dict[type[ast.operator], tuple[str, int]] = {
    ast.Add: ("+", _SUM),
    ast.Sub: ("-", _SUM),
    ast.Mult: ("*", _PRODUCT),
    ast.Div: ("/", _PRODUCT),
    ast.Pow: ("^", _POWER),
}


def cell_formula(formula: Formula, cells: Mapping[str, str]) -> str:
    """The right-hand side with a cell for each argument, without the sign of equality.

    Raises:
        TypeError: the formula holds something other than arithmetic.
    """

    def inside(node: ast.expr, least_rank: int) -> str:
        text, rank = expression(node)
        return text if rank >= least_rank else f"({text})"

    def expression(node: ast.expr) -> tuple[str, int]:
        match node:
            case ast.Name(id=name):
                return cells[name], _ATOM
            case ast.Constant():
                return formula.constant(node), _ATOM
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                # a sign binds closer than a power there: -2^2 is 4
                return f"(-{inside(operand, _ATOM)})", _ATOM
            case ast.BinOp(left=left, op=op, right=right):
                sign, rank = _OPERATORS[type(op)]
                one = inside(left, _ATOM if rank == _POWER else rank)
                return f"{one}{sign}{inside(right, rank + 1)}", rank
            case ast.Call(func=ast.Name(id=name), args=arguments):
                listed = ",".join(expression(one)[0] for one in arguments)
                return FUNCTIONS[name].format(listed), _ATOM
        raise TypeError(f"{formula.symbol}: {ast.dump(node)} is not arithmetic")

    return expression(formula.tree)[0]
