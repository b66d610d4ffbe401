"""Formula, Step and Check: a formula is stated once and serves numbers, print and algebra.

A formula is a function of arithmetic only. Called, it gives numbers for floats and arrays alike.
Its printed line is read from its own source, so that the standard's constants print as written.
A `Step` is a formula with its inputs, or a value taken from a table. A `Check` holds a demand
against a capacity, with the steps that led there.
"""

import ast
import inspect
import textwrap
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any, Literal, NamedTuple, Protocol

import numpy as np
from numpy.typing import NDArray

from outrigger.formula.notation import symbol

Array = NDArray[np.float64]
Bools = NDArray[np.bool_]
Num = float | Array
"""A number, or an array of numbers that broadcasts to (cases, combinations)."""


class Element(NamedTuple):
    """Which element of the arrays a printed line shows.

    Arrays over combinations take `combination`; arrays of `columns` columns, one for each distinct
    CD or lambda, take `column`.
    """

    case: int = 0
    combination: int = 0
    column: int = 0
    columns: int = 0


FIRST = Element()


def least(*values: Num) -> Num:
    """Smallest of the values, element by element."""
    smallest = values[0]
    for value in values[1:]:
        smallest = np.minimum(smallest, value)
    return smallest


def greatest(*values: Num) -> Num:
    """Largest of the values, element by element."""
    largest = values[0]
    for value in values[1:]:
        largest = np.maximum(largest, value)
    return largest


def where(condition: Any, yes: Num, no: Num) -> Num:
    """Element by element: `yes` where the condition holds, else `no`."""
    return np.where(condition, yes, no)[()]


def sqrt(value: Num) -> Num:
    """Square root, element by element."""
    return np.sqrt(value)


def sin_deg(angle: Num) -> Num:
    """Sine of an angle in degrees, element by element."""
    return np.sin(np.radians(angle))


def cos_deg(angle: Num) -> Num:
    """Cosine of an angle in degrees, element by element."""
    return np.cos(np.radians(angle))


def pick(value: Num, element: Element = FIRST) -> float:
    """One element of a number or of an array that broadcasts to (cases, combinations)."""
    if np.ndim(value) == 0:
        return float(value)
    table = np.atleast_2d(np.asarray(value))
    cases, columns = table.shape
    case = 0 if cases == 1 else element.case
    column = element.column if columns == element.columns else element.combination
    return float(table[case, 0 if columns == 1 else column])


@dataclass(frozen=True, eq=False)
class Formula:
    """One formula of a standard, stated once.

    `symbol` and the function's arguments are keys of the notation; `unit` is the unit of the
    result; `constants` gives the unit of each dimensional constant, by its text in the source.
    """

    symbol: str
    unit: str
    clause: str
    function: Callable[..., Any]
    constants: Mapping[str, str] = field(default_factory=dict)

    def __call__(self, *args: Any, **kwargs: Any) -> Any:
        """The number, or the array of numbers."""
        return self.function(*args, **kwargs)

    def step(self, **inputs: "Num | Step") -> "Step":
        """The formula with these inputs: numbers, arrays, or the steps that gave them."""
        numbers = {name: amount(given) for name, given in inputs.items()}
        value = self.function(**numbers)
        return Step(self.symbol, value, self.unit, self.clause, formula=self, inputs=inputs)

    @cached_property
    def arguments(self) -> tuple[str, ...]:
        """Names of the arguments, in order."""
        return tuple(inspect.signature(self.function).parameters)

    @property
    def meaning(self) -> str:
        """First line of the function's docstring."""
        return (inspect.getdoc(self.function) or "").partition("\n")[0]

    @cached_property
    def source(self) -> str:
        """Text of the function."""
        return textwrap.dedent(inspect.getsource(self.function))

    @cached_property
    def tree(self) -> ast.expr:
        """The one returned expression, as a syntax tree.

        Raises:
            TypeError: the function is more than one `return` of arithmetic.
        """
        body = ast.parse(self.source).body[0]
        assert isinstance(body, ast.FunctionDef)
        statements = [s for s in body.body if not is_docstring(s)]
        if len(statements) != 1 or not isinstance(statements[0], ast.Return):
            raise TypeError(f"{body.name}: a formula is one return of arithmetic, no more")
        assert statements[0].value is not None
        return statements[0].value

    def constant(self, node: ast.Constant) -> str:
        """A constant as written in the source: 1.20 stays 1.20."""
        return ast.get_source_segment(self.source, node) or str(node.value)

    def text(self) -> str:
        """The right-hand side in symbols, as one line of text."""
        return _Printer(self, lambda name: (symbol(name).text, _ATOM)).print()

    def text_with(self, numbers: Mapping[str, float]) -> str:
        """The right-hand side with numbers put in, as one line of text."""

        def number(name: str) -> tuple[str, int]:
            value = numbers[name]
            return show(value), _ATOM if value >= 0 else _SIGN

        return _Printer(self, number).print()


def is_docstring(statement: ast.stmt) -> bool:
    """Whether a statement is a bare string."""
    return (
        isinstance(statement, ast.Expr)
        and isinstance(statement.value, ast.Constant)
        and isinstance(statement.value.value, str)
    )


def formula(
    symbol: str, unit: str, *, clause: str, constants: Mapping[str, str] | None = None
) -> Callable[[Callable[..., Any]], Formula]:
    """Decorator: makes a function of arithmetic a `Formula`. Units as in the notation."""

    def decorate(function: Callable[..., Any]) -> Formula:
        return Formula(symbol, unit, clause, function, constants or {})

    return decorate


@dataclass(frozen=True, eq=False)
class Terms:
    """A value as a sum over the load parts: factors (combinations, parts), amounts (cases, parts).

    `scale`: what every term is multiplied by, 1 or -1.
    """

    parts: Sequence[str]
    factors: Array
    amounts: Array
    scale: float = 1.0

    def at(self, element: Element = FIRST) -> list[tuple[str, float, float]]:
        """Part, factor and amount of each term that is not zero, at one element."""
        amounts = self.amounts[element.case if len(self.amounts) > 1 else 0] * self.scale
        row = zip(self.parts, self.factors[element.combination], amounts, strict=True)
        return [(part, float(f), float(a)) for part, f, a in row if f and a]


@dataclass(frozen=True, eq=False)
class Step:
    """One line of a calculation: a formula with its inputs, or a value given or looked up.

    `value` is a number or an array; `note` says where a value without a formula comes from;
    `status` is that of its table row (SEEN, DERIVED, MEMORY), empty for computed values;
    `terms`: the sum over the load parts that the value is.
    """

    symbol: str
    value: Num
    unit: str
    clause: str
    note: str = ""
    status: str = ""
    formula: Formula | None = None
    inputs: "Mapping[str, Num | Step]" = field(default_factory=dict)
    terms: Terms | None = None

    def numbers(self, element: Element = FIRST) -> dict[str, float]:
        """The inputs at one element."""
        return {name: pick(amount(given), element) for name, given in self.inputs.items()}

    def summed(self, element: Element = FIRST) -> list[tuple[str, float, float]]:
        """The terms at one element, where they add up to the value there."""
        found = self.terms.at(element) if self.terms is not None and self.formula is None else []
        total = sum(factor * size for _, factor, size in found)
        return found if found and same(total, pick(self.value, element)) else []

    def taken(self, element: Element = FIRST) -> float | None:
        """What the formula gives where the value is another: its size, or not below zero."""
        if self.formula is None:
            return None
        numbers = {name: np.float64(value) for name, value in self.numbers(element).items()}
        with np.errstate(divide="ignore", invalid="ignore"):  # 0 / 0, where a limit is taken
            found = float(np.ravel(self.formula(**numbers))[0])
        return None if same(found, pick(self.value, element)) else found

    def text(self, element: Element = FIRST) -> str:
        """The printed line at one element: symbols, numbers put in, value with its unit."""
        parts = [symbol(self.symbol).text]
        if self.formula is not None:
            parts += [self.formula.text(), self.formula.text_with(self.numbers(element))]
        elif terms := self.summed(element):
            parts.append(sum_text(terms))
        value = pick(self.value, element)
        if (other := self.taken(element)) is not None:
            parts.append(f"{show(other)}, taken as {show(value)} {unit_text(self.unit)}".rstrip())
        else:
            parts.append(f"{show(value)} {unit_text(self.unit)}".rstrip())
        if len(parts) > 2 and parts[-1] == parts[-2]:  # numbers alone are the value already
            parts.pop()
        return " = ".join(parts)

    def chain(self) -> "Iterator[Step]":
        """The steps that led here, earliest first, each once, this one last."""
        seen: set[int] = set()

        def walk(step: Step) -> Iterator[Step]:
            for given in step.inputs.values():
                if isinstance(given, Step) and id(given) not in seen:
                    seen.add(id(given))
                    yield from walk(given)
            yield step

        return walk(self)


def sum_text(terms: Sequence[tuple[str, float, float]]) -> str:
    """Factor times amount, term by term: 1 × 310 + 0.6 × (−120)."""

    def number(value: float) -> str:
        return show(value) if value >= 0 else f"({show(value)})"

    return " + ".join(f"{number(f)} × {number(a)}" for _, f, a in terms)


def same(one: float, other: float) -> bool:
    """Whether two numbers are one, but for the last bits."""
    return abs(one - other) <= 1e-9 * max(1.0, abs(one), abs(other))


UNIT_TEXT = {"in2": "in²", "in3": "in³", "in4": "in⁴", "lb-in2": "lb-in²", "deg": "°"}


def unit_text(unit: str) -> str:
    """A unit for people: in² for in2."""
    return UNIT_TEXT.get(unit, unit)


def given(
    symbol: str,
    value: Num,
    unit: str = "",
    clause: str = "",
    note: str = "",
    status: str = "",
    terms: Terms | None = None,
) -> Step:
    """A step without a formula: a stated input, a table row, a sum over the load parts."""
    return Step(symbol, value, unit, clause, note, status, terms=terms)


def amount(value: "Num | Step") -> Num:
    """The number in a step, or the number itself."""
    return value.value if isinstance(value, Step) else value


def changed(value: "Num | Step", how: Callable[[Any], Any]) -> "Num | Step":
    """A number, or a step's number, put through `how`: its size, say, whatever its sign."""
    if isinstance(value, Step):
        return replace(value, value=how(value.value))
    number: Num = how(value)
    return number


Status = Literal["pass", "fail", "open"]
Rule = Literal["", "open", "analogy", "fail"]


class Named(Protocol):
    """A load combination: its name as the standard prints it, and in words."""

    @property
    def text(self) -> str:
        """Name: D + S."""

    @property
    def words(self) -> str:
        """In words: dead + snow."""


@dataclass(frozen=True, eq=False)
class Check:
    """A demand against a capacity, at one place.

    `demand` and `capacity` are numbers or arrays that broadcast to (cases, combinations);
    capacity None: not given, open where there is a demand. `rule`: "" the ratio decides; "open" it
    stays open unless the ratio is over 1 (fail); "analogy" over 1 is open, else pass; "fail" it
    fails whatever the ratio. `why` gives the reason in words.
    `columns`: for each combination the column of a capacity (and of steps) that has one column for
    each distinct CD or lambda only. `combinations` names them. `grows_with`: where the demand too
    has one column for each distinct CD or lambda, what it grows with, of one case in every
    combination: the demand of a column is that of the largest.
    """

    id: str
    place: str
    clause: str
    demand: Num
    capacity: Num | None
    unit: str
    steps: tuple[Step, ...]
    link: str = ""
    rule: Rule = ""
    why: str = ""
    columns: NDArray[np.intp] | None = None
    combinations: Sequence[Named] = ()
    grows_with: Callable[[int], Array] | None = None

    @property
    def is_distance(self) -> bool:
        """A distance between fasteners and edges, needed against had: not a strength."""
        return self.id.startswith("hold_down") and self.unit == "in"

    @property
    def ratio(self) -> Num | None:
        """Demand over capacity; 0 where the demand is 0; None without a capacity."""
        return None if self.capacity is None else self._divided(self.demand, self.capacity)

    def _divided(self, demand: Num, capacity: Num) -> Num:
        capacity = np.asarray(capacity, dtype=float)
        by_column = capacity.ndim > 0 and 1 < capacity.shape[-1] == self._distinct
        if by_column and self.grows_with is None and self.columns is not None:
            capacity = capacity[..., self.columns]
        if np.all(capacity > 0):
            return np.asarray(demand / capacity)[()]
        demand, capacity = np.broadcast_arrays(np.asarray(demand, dtype=float), capacity)
        nothing = np.zeros(demand.shape)
        full = np.where(capacity == 0, np.inf, nothing)
        ratio = np.divide(demand, capacity, out=full, where=capacity != 0)
        return np.asarray(np.where(demand == 0, nothing, ratio))[()]

    @cached_property
    def largest_ratio(self) -> Array:
        """Per case: the largest ratio, (cases,).

        Raises:
            ValueError: the check has no capacity, so it has no ratio.
        """
        ratio = self.ratio
        if ratio is None:
            raise ValueError(f"{self.id} at {self.place}: no capacity is given, so no ratio")
        return np.asarray(np.max(np.atleast_2d(ratio), axis=1))

    def worst(self) -> tuple[Array, NDArray[np.intp]]:
        """Per case: the largest ratio and the index of its combination.

        Raises:
            ValueError: the check has no capacity, so it has no ratio.
        """
        largest = self.largest_ratio
        return largest, np.array([self.governing(case) for case in range(len(largest))])

    def governing(self, case: int = 0) -> int:
        """Index of a case's governing combination: largest ratio, else largest demand.

        The first of several alike; 0 where there is no demand.
        """
        demand = self._row(self.demand, case)
        ratio = demand
        if self.capacity is not None:
            ratio = np.atleast_1d(self._divided(demand, self._row(self.capacity, case)))
        if not np.isfinite(ratio.max()):
            ratio = np.where(np.isfinite(ratio), 0.0, demand)
        if self.grows_with is None or self.columns is None or not np.any(ratio):
            return int(np.argmax(ratio))
        force = self.grows_with(case)
        alike = np.broadcast_to(ratio == ratio.max(), self._distinct)
        of_column = [force[self.columns == i].max() for i in range(self._distinct)]
        return int(np.argmax(alike[self.columns] & (force == np.array(of_column)[self.columns])))

    @staticmethod
    def _row(table: Num, case: int) -> Array:
        rows: Array = np.atleast_2d(np.asarray(table, dtype=float))
        return np.asarray(rows[case if len(rows) > 1 else 0])

    @property
    def _distinct(self) -> int:
        """How many distinct CD or lambda there are; 0 without combinations."""
        return 0 if self.columns is None else int(self.columns.max()) + 1

    def demand_at(self, case: int, combination: int) -> float:
        """The demand of one case in one combination; of a column, that of its largest."""
        return pick(self.demand, self._element(case, combination))

    def capacity_at(self, case: int, combination: int) -> float | None:
        """The capacity of one case in one combination; None where none is given."""
        if self.capacity is None:
            return None
        return pick(self.capacity, self._element(case, combination))

    def element(self, case: int = 0) -> Element:
        """Where a case's governing combination stands in the arrays of the steps."""
        return self._element(case, self.governing(case))

    def _element(self, case: int, combination: int) -> Element:
        if self.columns is None:
            return Element(case, combination)
        return Element(case, combination, int(self.columns[combination]), self._distinct)

    def status(self, case: int = 0) -> Status:
        """Pass, fail or open for one case. A ratio of exactly 1 passes; NaN never does."""
        if self.rule == "fail":
            return "fail"
        if self.capacity is None:
            needed = np.any(self._row(self.demand, case) != 0)
            return "open" if needed or self.rule == "open" else "pass"
        largest = self._row(self.largest_ratio[:, None], case)[0]
        if not largest <= 1:
            return "open" if self.rule == "analogy" else "fail"
        return "open" if self.rule == "open" else "pass"


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
