"""Formulas and steps as one line of text."""

import ast
from collections.abc import Callable, Mapping, Sequence

import numpy as np

from outrigger.formula.formula import Formula, Step
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import FIRST, Element, pick


def in_symbols(formula: Formula) -> str:
    """The right-hand side in symbols, as one line of text."""
    return _Printer(formula, lambda name: (symbol(name).text, _ATOM)).print()


def in_numbers(formula: Formula, numbers: Mapping[str, float]) -> str:
    """The right-hand side with numbers put in, as one line of text."""

    def number(name: str) -> tuple[str, int]:
        value = numbers[name]
        return show(value), _ATOM if value >= 0 else _SIGN

    return _Printer(formula, number).print()


def line(
    step: Step, element: Element = FIRST, terms: Sequence[tuple[str, float, float]] = ()
) -> str:
    """The printed line at one element: symbols, numbers put in, value with its unit; `terms` that
    add up to it, where it has no arithmetic of its own."""
    parts = [symbol(step.symbol).text]
    if step.formula is not None:
        parts += [in_symbols(step.formula), in_numbers(step.formula, step.numbers(element))]
    elif terms := step.summed(element) or terms:
        parts.append(sum_text(terms))
    elif added := step.added(element):
        parts.append(" + ".join(show(one) if one >= 0 else f"({show(one)})" for one in added))
    value = pick(step.value, element)
    if (other := step.taken(element)) is not None:
        parts.append(f"{show(other)}, taken as {show(value)} {unit_text(step.unit)}".rstrip())
    else:
        parts.append(f"{show(value)} {unit_text(step.unit)}".rstrip())
    if len(parts) > 2 and parts[-1] == parts[-2]:  # numbers alone are the value already
        parts.pop()
    return " = ".join(parts)


def sum_text(terms: Sequence[tuple[str, float, float]]) -> str:
    """Factor times amount, term by term: 1 × 310 + 0.6 × (−120)."""

    def number(value: float) -> str:
        return show(value) if value >= 0 else f"({show(value)})"

    return " + ".join(f"{number(f)} × {number(a)}" for _, f, a in terms)


UNIT_TEXT = {"in2": "in²", "in3": "in³", "in4": "in⁴", "lb-in2": "lb-in²", "deg": "°"}


def unit_text(unit: str) -> str:
    """A unit for people: in² for in2."""
    return UNIT_TEXT.get(unit, unit)


def show(value: float) -> str:
    """A number for people: five significant digits, all digits before the point, no exponent."""
    if not np.isfinite(value):
        return "no number"
    if value == 0:
        return "0"
    if abs(value) >= 10_000:
        text = f"{value:,.0f}"
    else:
        digits = max(0, 4 - int(np.floor(np.log10(abs(value)))))
        text = f"{value:.{digits}f}"
        text = text.rstrip("0").rstrip(".") if "." in text else text
    return text.replace("-", "−")


_SUM, _PRODUCT, _SIGN, _POWER, _ATOM = range(1, 6)


_OPERATORS: dict[type[ast.operator], tuple[str, int]] = {
    ast.Add: (" + ", _SUM),
    ast.Sub: (" − ", _SUM),
    ast.Mult: (" × ", _PRODUCT),
    ast.Div: (" / ", _PRODUCT),
    ast.Pow: ("^", _POWER),
}


_FUNCTIONS = {
    "sqrt": "√",
    "least": "least of ",
    "greatest": "greatest of ",
    "sin_deg": "sin",
    "cos_deg": "cos",
}


class _Printer:
    """Prints a formula's tree as text; `leaf` gives the text and the rank of a name."""

    def __init__(self, formula: Formula, leaf: Callable[[str], tuple[str, int]]) -> None:
        self.formula = formula
        self.leaf = leaf

    def print(self) -> str:
        return self.expression(self.formula.tree)[0]

    def expression(self, node: ast.expr, first: bool = True) -> tuple[str, int]:
        """Text of a node and how strongly it binds; `first`: nothing stands before it."""
        match node:
            case ast.Name(id=name):
                text, rank = self.leaf(name)
                return (text, rank) if first or rank != _SIGN else (f"({text})", _ATOM)
            case ast.Constant():
                return self.formula.constant(node), _ATOM
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                text = f"−{self.inside(operand, _SIGN + 1, False)}"
                return (text, _SIGN) if first else (f"({text})", _ATOM)
            case ast.BinOp(left=left, op=op, right=right):
                sign, rank = _OPERATORS[type(op)]
                # a power binds its base tighter; the right of − and / must bind tighter
                one = self.inside(left, _ATOM if rank == _POWER else rank, first)
                loose = isinstance(op, (ast.Add, ast.Mult))
                other = self.inside(right, rank if loose else rank + 1, False)
                if isinstance(op, ast.Mult) and _has_division(right):
                    other = f"({self.expression(right)[0]})"
                return f"{one}{sign}{other}", rank
            case ast.Call(func=ast.Name(id=name), args=arguments):
                listed = ", ".join(self.expression(a)[0] for a in arguments)
                return f"{_FUNCTIONS.get(name, name)}({listed})", _ATOM
        raise TypeError(f"{self.formula.symbol}: {ast.dump(node)} is not arithmetic")

    def inside(self, node: ast.expr, least_rank: int, first: bool) -> str:
        """Text of an operand, in parentheses when it binds less than is needed."""
        text, rank = self.expression(node, first)
        return text if rank >= least_rank else f"({self.expression(node)[0]})"


def _has_division(node: ast.expr) -> bool:
    """Whether the top of a product is a division: a × (b / c) keeps its parentheses."""
    return isinstance(node, ast.BinOp) and isinstance(node.op, ast.Div)
