"""How every number of a step follows from others: what a live workbook writes as formulas.

An `Item` is one number of the arithmetic, in every combination of its set where it differs there:
a formula of other items, a sum over the load parts, or a value that stands by itself (`Leaf`).
Where the program took another number than the formula gives, the item says so.
"""

from collections.abc import Callable, Hashable, Iterator, Sequence
from typing import Any, Literal

import numpy as np
from msgspec import Struct, field

from outrigger.formula.check import Named
from outrigger.formula.formula import Formula, Step, Terms, amount
from outrigger.formula.kind import Link
from outrigger.formula.numbers import Array, Bools, Num

Kind = Literal["load", "value", "stiffness", "derived", "length", "action"]
Way = Literal["leaf", "formula", "sum", "added", "least", "greatest", "time", "column"]
FORMS: dict[str, Callable[[Any], Any]] = {
    "": lambda number: number,
    "size": np.abs,
    "not below 0": lambda number: np.maximum(number, 0.0),
    "turned": lambda number: -number,
    "turned, not below 0": lambda number: np.maximum(-number, 0.0),
    # so it was in every combination; what is taken of a number of the other sign is not known
    "never below 0": lambda number: number,
    "turned, never below 0": lambda number: -number,
}
CLOSE, ROUND_OFF = 1e-9, 1e-13


class Leaf(Struct, eq=False):
    """A value that stands by itself, in one cell of the inputs.

    kind: "load" of the take-down, followed to the checks; "value" of wood, fasteners and listings;
    "stiffness", a value that the statics may have used too; "derived", a load that followed from a
    speed or a ground snow, as others did; "length" and "action", worked out by the program. No
    number follows those three but by the formulas that take them. part: of the load; key: of the
    case file, where it is that number; after: another that it keeps its proportion to; used: link
    and place of the checks.
    """

    kind: Kind
    symbol: str
    value: float
    unit: str
    clause: str = ""
    note: str = ""
    status: str = ""
    part: str = ""
    key: str = ""
    after: "Leaf | None" = None
    used: dict[tuple[Link, str], None] = field(default_factory=dict)


class Amounts(Struct, eq=False):
    """Unfactored amounts of the load parts, one item each, none where the part brings nothing."""

    symbol: str
    unit: str
    note: str
    parts: Sequence[str]
    values: Array
    items: "list[Item | None]"


class Item(Struct, eq=False):
    """One number, (combinations,) where it differs between them, else (1,).

    form: of `FORMS`, what is taken of the formula's number; fits: where that is the value;
    beside: other items, where the value is the largest of all.
    """

    way: Way
    symbol: str
    unit: str
    clause: str
    note: str
    status: str
    values: Array
    key: Hashable
    inputs: "dict[str, Item]" = field(default_factory=dict)
    formula: Formula | None = None
    form: str = ""
    fits: Bools | None = None
    beside: "tuple[Item, ...]" = ()
    leaf: Leaf | None = None
    amounts: Amounts | None = None
    table: int = 0

    @property
    def varies(self) -> bool:
        """Whether it differs between combinations."""
        return len(self.values) > 1

    @property
    def broken(self) -> bool:
        """Whether the program took another number than its formula gives, in some combination."""
        return self.fits is not None and not bool(np.all(self.fits))

    @property
    def left_out(self) -> bool:
        """Whether that other number is 0 wherever it is another: nothing acts so there."""
        return self.fits is not None and not bool(np.any(self.values[~self.fits]))

    def chain(self) -> "Iterator[Item]":
        """The items that led here, earliest first, each once, this one last."""
        seen: set[Hashable] = set()

        def walk(item: Item) -> Iterator[Item]:
            for one in (*item.inputs.values(), *item.beside):
                yield from walk(one)
            if item.key not in seen:
                seen.add(item.key)
                yield item

        return walk(self)

    def leaves(self) -> Iterator[Leaf]:
        """The values that it all hangs on."""
        for item in self.chain():
            if item.leaf is not None:
                yield item.leaf
            if item.amounts is not None:
                for one in item.amounts.items:
                    if one is not None:
                        yield from one.leaves()


class CombinationSet(Struct, eq=False):
    """Combinations that checks share: factors of the parts, as many tables as there are, and CD or
    lambda of each; known: rows of unfactored actions that a sum may be of; shown: sums that
    no check takes."""

    rows: Sequence[Named]
    times: Array | None = None
    parts: Sequence[str] = ()
    tables: list[Array] = field(default_factory=list)
    known: "Sequence[Amounts]" = ()
    shown: "list[Item]" = field(default_factory=list)

    def table(self, terms: Terms) -> int | None:
        """Which table the factors of a sum are, a new one if need be; None: not of this set."""
        if len(terms.factors) != len(self.rows) or (self.parts and terms.parts != self.parts):
            return None
        self.parts = terms.parts
        return self.number(terms.factors)

    def number(self, factors: Array) -> int:
        """Which table some factors are, a new one if need be."""
        for i, one in enumerate(self.tables):
            if one is factors or np.array_equal(one, factors):
                return i
        self.tables.append(factors)
        return len(self.tables) - 1

    def known_tables(self) -> Iterator[Array]:
        """The tables, and the first without the worker: of an outrigger beside the one with him."""
        yield from self.tables
        if "worker" in self.parts:
            factors = self.tables[0].copy()
            factors[:, self.parts.index("worker")] = 0.0
            yield factors


def numbers(value: Num) -> Array:
    """The numbers of the first case, (combinations,) or (1,)."""
    return np.asarray(np.atleast_2d(np.asarray(value, dtype=float))[0])


def close(one: Array, other: Array, scale: float = 0.0) -> Bools:
    """Where two numbers are one, but for the last bits; scale: of what was added up."""
    size = np.maximum(np.abs(one), np.abs(other))
    with np.errstate(invalid="ignore"):
        near = np.abs(one - other) <= CLOSE * size + ROUND_OFF * scale
    return np.asarray(near | (one == other))


def form_of(step: Step) -> str | None:
    """What a step takes of its formula's number: a key of `FORMS`; None: nothing of these."""
    if step.how is None:
        return ""
    probe = np.array([[-1.0, 2.0]])
    try:
        taken = np.asarray(step.how(probe), dtype=float)
    except (ValueError, TypeError):  # it looks at the place in the array too
        return None
    for name, form in FORMS.items():
        if taken.shape == probe.shape and np.array_equal(taken, form(probe)):
            return name
    return None


def taken_of(plain: Array, values: Array, scale: float = 0.0) -> str | None:
    """What values are of plain numbers, a key of `FORMS`; None: nothing of these."""
    fit = [form for form, of in FORMS.items() if np.all(close(of(plain), values, scale))]
    if not fit:
        return None
    if "size" not in fit or ("" not in fit and "turned" not in fit):
        return fit[0]
    return "never below 0" if "" in fit else "turned, never below 0"


def computed(step: Step) -> Array:
    """What the formula of a step gives in each combination."""
    assert step.formula is not None
    given = {name: np.asarray(amount(one), dtype=float) for name, one in step.inputs.items()}
    with np.errstate(divide="ignore", invalid="ignore"):
        return numbers(step.formula(**given))


def scale_of(step: Step) -> float:
    """The largest number of a step's unit among what led to it: its round-off is of that."""
    sizes = [
        np.max(np.abs(one.value), initial=0.0) for one in step.chain() if one.unit == step.unit
    ]
    return float(max(sizes))
