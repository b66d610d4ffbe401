"""A formula is stated once; a step is one line of a calculation. Neither knows a printer.

A formula is a function of arithmetic only. Called, it gives numbers for floats and arrays alike.
Its tree is read from its own source, so that the standard's constants print as written. A `Step`
is a formula with its inputs, or a value given or taken from a table.
"""

import ast
import inspect
import textwrap
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cached_property
from typing import Any

import numpy as np
from msgspec import Struct, field
from msgspec.structs import replace

from outrigger.formula.numbers import FIRST, Array, Element, Num, pick


class Formula(Struct, frozen=True, eq=False, dict=True):
    """One formula of a standard, stated once.

    `symbol` and the function's arguments are keys of the notation; `unit` is the unit of the
    result; `constants` gives the unit of each dimensional constant, by its text in the source.
    `adds`: what something is added to, and what; where that is nothing, the first alone prints.
    """

    symbol: str
    unit: str
    clause: str
    function: Callable[..., Any]
    constants: Mapping[str, str] = field(default_factory=dict)
    adds: tuple[str, str] | None = None

    def __call__(self, *args: Any, **kwargs: Any) -> Any:
        """The number, or the array of numbers."""
        return self.function(*args, **kwargs)

    def step(self, **inputs: "Num | Step") -> "Step":
        """The formula with these inputs: numbers, arrays, or the steps that gave them."""
        numbers = {name: amount(given) for name, given in inputs.items()}
        return self.line(self.function(**numbers), **inputs)

    def line(self, value: Num, **inputs: "Num | Step") -> "Step":
        """As `step`, of a number that is worked out already."""
        return Step(self.symbol, value, self.unit, self.clause, formula=self, inputs=inputs)

    def later(self, value: Num, inputs: "Callable[[], Mapping[str, Num | Step]]") -> "Step":
        """As `line`, its inputs not worked out before somebody asks for them."""
        return Step(self.symbol, value, self.unit, self.clause, formula=self, inputs=Later(inputs))

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

    def mentions(self, name: str) -> int:
        """How often an argument stands in the expression."""
        return sum(isinstance(one, ast.Name) and one.id == name for one in ast.walk(self.tree))

    def constant(self, node: ast.Constant) -> str:
        """A constant as written in the source: 1.20 stays 1.20."""
        line = self.source.splitlines()[node.lineno - 1].encode()
        return line[node.col_offset : node.end_col_offset].decode()


def is_docstring(statement: ast.stmt) -> bool:
    """Whether a statement is a bare string."""
    return (
        isinstance(statement, ast.Expr)
        and isinstance(statement.value, ast.Constant)
        and isinstance(statement.value.value, str)
    )


def formula(
    symbol: str,
    unit: str,
    *,
    clause: str,
    constants: Mapping[str, str] | None = None,
    adds: tuple[str, str] | None = None,
) -> Callable[[Callable[..., Any]], Formula]:
    """Decorator: makes a function of arithmetic a `Formula`. Units as in the notation."""

    def decorate(function: Callable[..., Any]) -> Formula:
        return Formula(symbol, unit, clause, function, constants or {}, adds)

    return decorate


class Terms(Struct, frozen=True, eq=False):
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


class Step(Struct, frozen=True, eq=False):
    """One line of a calculation: a formula with its inputs, or a value given or looked up.

    `value` is a number or an array; `note` says where a value without a formula comes from;
    `status` is that of its table row (`base.tables.STATUSES`), empty for computed values;
    `terms`: the sum over the load parts that the value is. `of_combination`: one value for each
    combination, CD or lambda, whose clause and status are the combination's. `how`: what the value
    is of the formula's or the sum's number, where it is not that itself: its size, say; `beside`:
    forms of other places, where the value is the largest of them.
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
    of_combination: bool = False
    how: Callable[[Any], Any] | None = None
    beside: "tuple[Step, ...]" = ()

    def numbers(self, element: Element = FIRST) -> dict[str, float]:
        """The inputs at one element."""
        return {name: pick(amount(given), element) for name, given in self.inputs.items()}

    def summed(self, element: Element = FIRST) -> list[tuple[str, float, float]]:
        """The terms at one element, where they add up to the value there."""
        found = self.terms.at(element) if self.terms is not None and self.formula is None else []
        total = sum(factor * size for _, factor, size in found)
        return found if found and same(total, pick(self.value, element)) else []

    def added(self, element: Element = FIRST) -> list[float]:
        """The inputs of a value without a formula that is their sum; empty where it is not."""
        found = list(self.numbers(element).values())
        plain = self.formula is None and self.terms is None and len(found) > 1
        return found if plain and same(sum(found), pick(self.value, element)) else []

    def taken(self, element: Element = FIRST) -> float | None:
        """What the formula gives where the value is another: its size, or not below zero."""
        if self.formula is None:
            return None
        numbers = {name: np.float64(value) for name, value in self.numbers(element).items()}
        with np.errstate(divide="ignore", invalid="ignore"):  # 0 / 0, where a limit is taken
            found = float(np.ravel(self.formula(**numbers))[0])
        return None if same(found, pick(self.value, element)) else found

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


def printed(steps: "Sequence[Step]", element: Element = FIRST) -> "tuple[Step, ...]":
    """Steps as they print at one element: where nothing is added to a number, the line is that
    number's own."""
    made: dict[int, Step] = {}

    def of(step: Step) -> Step:
        if id(step) not in made:
            made[id(step)] = shown(step)
        return made[id(step)]

    def shown(step: Step) -> Step:
        adds = None if step.formula is None else step.formula.adds
        if adds is not None and pick(amount(step.inputs[adds[1]]), element) == 0:
            to = step.inputs[adds[0]]
            assert isinstance(to, Step)
            return replace(of(to), symbol=step.symbol, value=step.value, how=step.how)
        inputs = {n: of(one) if isinstance(one, Step) else one for n, one in step.inputs.items()}
        beside = tuple(of(one) for one in step.beside)
        alike = all(inputs[name] is one for name, one in step.inputs.items())
        if alike and all(one is other for one, other in zip(beside, step.beside, strict=True)):
            return step
        return replace(step, inputs=inputs, beside=beside)

    return tuple(of(step) for step in steps)


class Later(Mapping[str, Any]):
    """Inputs of a step that are worked out when somebody asks for them: of many cases nobody
    does."""

    def __init__(self, inputs: "Callable[[], Mapping[str, Num | Step]]") -> None:
        """`inputs`: works them out."""
        self._inputs = inputs

    @cached_property
    def _found(self) -> "Mapping[str, Num | Step]":
        return self._inputs()

    def __getitem__(self, name: str) -> "Num | Step":
        return self._found[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._found)

    def __len__(self) -> int:
        return len(self._found)


def same(one: float, other: float) -> bool:
    """Whether two numbers are one, but for the last bits."""
    return abs(one - other) <= 1e-9 * max(1.0, abs(one), abs(other))


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
        before = value.how
        both = how if before is None else lambda number: how(before(number))
        return replace(value, value=how(value.value), how=both)
    number: Num = how(value)
    return number
