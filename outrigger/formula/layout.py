"""Formulas set in two dimensions: one layout of a formula's tree, printed for Typst and as MathML.

`text.py` prints the same tree as one line of text. A fraction or a sum that is raised to a
power stands in parentheses in all three.
"""

import ast
from collections.abc import Callable, Iterable, Mapping, Sequence
from xml.sax.saxutils import escape

from msgspec import Struct

from outrigger.formula.formula import Formula, Step
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import FIRST, Element, pick
from outrigger.formula.symbol import Symbol
from outrigger.formula.text import line as text_line
from outrigger.formula.text import show, unit_text


class Sign(Struct, frozen=True):
    """A symbol of the notation."""

    symbol: Symbol


class Text(Struct, frozen=True):
    """A number, a unit, a word: upright."""

    text: str


class Operator(Struct, frozen=True):
    """Between two parts: +, −, ×, =."""

    text: str


class Beside(Struct, frozen=True):
    """Parts side by side."""

    parts: tuple["Part", ...]


class Fence(Struct, frozen=True):
    """Parentheses around a part; bars for the size of a number."""

    inside: "Part"
    bars: bool = False


class Fraction(Struct, frozen=True):
    """One part over another."""

    above: "Part"
    below: "Part"


class Power(Struct, frozen=True):
    """A part raised to another."""

    base: "Part"
    exponent: "Part"


class Root(Struct, frozen=True):
    """A square root."""

    inside: "Part"


PLUS, MINUS = Operator("+"), Operator("−")

Part = Sign | Text | Operator | Beside | Fence | Fraction | Power | Root
Leaf = Callable[[str], Part]

_SUM, _PRODUCT, _ATOM = 1, 2, 3
_SIGNS: dict[type[ast.operator], tuple[str, int]] = {
    ast.Add: ("+", _SUM), ast.Sub: ("−", _SUM), ast.Mult: ("×", _PRODUCT),
}  # fmt: skip
_WORDS = {"least": "least of ", "greatest": "greatest of ", "sin_deg": "sin", "cos_deg": "cos"}


def in_symbols(formula: Formula) -> Part:
    """The right-hand side in symbols."""
    return _Setter(formula, lambda name: Sign(symbol(name))).set()


def with_numbers(formula: Formula, numbers: Mapping[str, float]) -> Part:
    """The right-hand side with numbers put in; a negative number in parentheses."""
    return _Setter(formula, lambda name: number(numbers[name])).set()


def number(value: float) -> Part:
    """A number put into a formula."""
    text = Text(show(value))
    return Fence(text) if value < 0 else text


class _Setter:
    """Lays out a formula's tree; `leaf` gives the part for a name."""

    def __init__(self, formula: Formula, leaf: Leaf) -> None:
        self.formula = formula
        self.leaf = leaf

    def set(self) -> Part:
        return self.part(self.formula.tree)[0]

    def part(self, node: ast.expr) -> tuple[Part, int]:
        """A node's layout and how strongly it binds."""
        match node:
            case ast.Name(id=name):
                return self.leaf(name), _ATOM
            case ast.Constant():
                return Text(self.formula.constant(node)), _ATOM
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                return Beside((Operator("−"), self.inside(operand, _PRODUCT))), _SUM
            case ast.BinOp(left=left, op=ast.Div(), right=right):
                return Fraction(self.part(left)[0], self.part(right)[0]), _PRODUCT
            case ast.BinOp(left=left, op=ast.Pow(), right=right):
                base = self.inside(left, _ATOM)
                return Power(base, self.exponent(right)), _ATOM
            case ast.BinOp(left=left, op=op, right=right):
                sign, rank = _SIGNS[type(op)]
                other = rank if isinstance(op, ast.Mult) else rank + isinstance(op, ast.Sub)
                parts = (self.inside(left, rank), Operator(sign), self.inside(right, other))
                return Beside(parts), rank
            case ast.Call(func=ast.Name(id="sqrt"), args=[inner]):
                return Root(self.part(inner)[0]), _ATOM
            case ast.Call(func=ast.Name(id=name), args=arguments):
                listed: list[Part] = []
                for argument in arguments:
                    listed += (
                        [Text(", "), self.part(argument)[0]] if listed else [self.part(argument)[0]]
                    )
                return Beside((Text(_WORDS[name]), Fence(Beside(tuple(listed))))), _ATOM
        raise TypeError(f"{self.formula.symbol}: {ast.dump(node)} is not arithmetic")

    def inside(self, node: ast.expr, least_rank: int) -> Part:
        """An operand, in parentheses when it binds less than is needed."""
        layout, rank = self.part(node)
        return layout if rank >= least_rank else Fence(layout)

    def exponent(self, node: ast.expr) -> Part:
        """An exponent keeps its fraction on one line: 1/3."""
        match node:
            case ast.BinOp(
                left=ast.Constant() as above, op=ast.Div(), right=ast.Constant() as below
            ):
                return Text(f"{self.formula.constant(above)}/{self.formula.constant(below)}")
        return self.part(node)[0]


class Line(Struct, frozen=True):
    """One line of a calculation: parts joined by equals signs, and the same as text."""

    parts: tuple[Part, ...]
    text: str


def all_one(names: Iterable[str]) -> Line:
    """Symbols that are all 1: CM = Ct = Ci = 1."""
    signs = [symbol(name) for name in names]
    parts: tuple[Part, ...] = (*(Sign(one) for one in signs), Text("1"))
    return Line(parts, " = ".join([*(one.text for one in signs), "1"]))


def side_by_side(lines: Sequence[Line]) -> Line:
    """Values side by side: GCp1 = −2.5, GCp2 = −1.2."""
    found: list[Part] = []
    for one in lines:
        found += [Text(", ")] if found else []
        for part in one.parts:
            found += [Operator("="), part] if part is not one.parts[0] else [part]
    return Line((Beside(tuple(found)),), ", ".join(one.text for one in lines))


def line(
    step: Step, element: Element = FIRST, terms: Sequence[tuple[str, float, float]] = ()
) -> Line:
    """A step at one element: symbol, right-hand side, numbers put in, value with its unit; `terms`
    that add up to it, where it has no arithmetic of its own."""
    parts: list[Part] = [Sign(symbol(step.symbol))]
    value = pick(step.value, element)
    result = Text(f"{show(value)} {unit_text(step.unit)}".rstrip())
    if step.formula is not None:
        put_in = with_numbers(step.formula, step.numbers(element))
        parts.append(in_symbols(step.formula))
        other = step.taken(element)
        if other is not None and abs(other + value) <= 1e-9 * max(1.0, abs(value)):
            parts.append(Fence(put_in, bars=True))  # its size
        elif other is not None:
            parts.append(put_in)
            result = Text(f"{show(other)}, taken as {result.text}")
        elif put_in != result:
            parts.append(put_in)
    elif terms := step.summed(element) or terms:
        parts.append(products([(factor, size) for _, factor, size in terms]))
    elif added := step.added(element):
        parts.append(total(added))
    return Line((*parts, result), text_line(step, element, terms))


def total(numbers: Sequence[float]) -> Part:
    """A sum of numbers."""
    parts: list[Part] = []
    for one in numbers:
        parts += [PLUS, number(one)] if parts else [number(one)]
    return Beside(tuple(parts))


def products(terms: Sequence[tuple[float, float]]) -> Part:
    """A sum of factor times amount."""
    parts: list[Part] = []
    for factor, size in terms:
        parts += [Operator("+")] if parts else []
        parts += [number(factor), Operator("×"), number(size)]
    return Beside(tuple(parts))


def terms(part: Part) -> list[Part]:
    """A part cut at its outer plus and minus signs, where it may go on in the next line."""
    if not isinstance(part, Beside) or not any(one in (PLUS, MINUS) for one in part.parts[1:]):
        return [part]
    found: list[list[Part]] = [[]]
    for one in part.parts:
        if one in (PLUS, MINUS) and found[-1]:
            found.append([])
        found[-1] += terms(one) if not found[-1] and isinstance(one, Beside) else [one]
    return [Beside(tuple(one)) if len(one) > 1 else one[0] for one in found]


def typst(layout: Part, within: bool = False, low: bool = True) -> str:
    """A layout as Typst math. Text stands in quotes; it comes from the notation and numbers.

    `within` parentheses, a root or another fraction, a fraction stands on one line, a/b, where the
    formula is to be `low`; it is longer for it.
    """
    match layout:
        case Sign(symbol=one):
            mark, subscript = _marked(one)
            base = one.base if len(one.base) == 1 else f'italic("{one.base}")'
            below = f'_"{subscript}"' if subscript else ""
            return base + {"′": "'", "*": "^*", "": ""}[mark] + below
        case Text(text=text):
            return f'"{text}"'
        case Operator(text=text):
            return {"×": "times", "−": "minus"}.get(text, text)
        case Beside(parts=parts):
            product = within and Operator("×") in parts
            return " ".join(
                f"({typst(part, within, low)})"
                if product and isinstance(part, Fraction)
                else typst(part, within, low)
                for part in parts
            )
        case Fence(inside=inside, bars=bars):
            return f"abs({typst(inside, low, low)})" if bars else f"({typst(inside, low, low)})"
        case Fraction(above=above, below=below) if within:
            return " slash ".join(
                f"({typst(one, True, low)})"
                if isinstance(one, Beside | Fraction)
                else typst(one, True, low)
                for one in (above, below)
            )
        case Fraction(above=above, below=below):
            return f"frac({typst(above, low, low)}, {typst(below, low, low)})"
        case Power(base=base, exponent=exponent):
            inner = typst(base, within, low)
            marked = isinstance(base, Sign) and base.symbol.mark == "*"
            return f"{f'({inner})' if marked else inner}^({typst(exponent, True, low)})"
        case Root(inside=inside):
            return f"sqrt({typst(inside, low, low)})"


def _marked(one: Symbol) -> tuple[str, str]:
    """A symbol's prime or star, and its subscript, which may go on behind the mark."""
    return one.mark[:1], one.subscript + one.mark[1:]


def mathml(layout: Part) -> str:
    """A layout as the inside of a MathML element."""
    match layout:
        case Sign(symbol=one):
            mark, subscript = _marked(one)
            upright = len(one.base) == 1 and not one.base.isalpha()
            style = ' mathvariant="normal"' if upright else ""
            base = f"<mi{style}>{escape(one.base)}</mi>"
            below = f"<mtext>{escape(subscript)}</mtext>" if subscript else ""
            above = f"<mo>{escape(mark)}</mo>" if mark else ""
            if below and above:
                return f"<msubsup>{base}{below}{above}</msubsup>"
            if below:
                return f"<msub>{base}{below}</msub>"
            return f"<msup>{base}{above}</msup>" if above else base
        case Text(text=text):
            plain = text.replace(",", "").replace(".", "").isdecimal()
            tag = "mn" if plain else "mtext"
            kept = text.replace(" ", "\N{NO-BREAK SPACE}") if text[-1:] == " " else text
            return f"<{tag}>{escape(kept)}</{tag}>"
        case Operator(text=text):
            return f"<mo>{text}</mo>"
        case Beside(parts=parts):
            return f"<mrow>{''.join(mathml(part) for part in parts)}</mrow>"
        case Fence(inside=inside, bars=bars):
            left, right = ("|", "|") if bars else ("(", ")")
            return f"<mrow><mo>{left}</mo>{mathml(inside)}<mo>{right}</mo></mrow>"
        case Fraction(above=above, below=below):
            return f"<mfrac>{mathml(above)}{mathml(below)}</mfrac>"
        case Power(base=base, exponent=exponent):
            return f"<msup>{mathml(base)}{mathml(exponent)}</msup>"
        case Root(inside=inside):
            return f"<msqrt>{mathml(inside)}</msqrt>"
