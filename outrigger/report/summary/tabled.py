"""Formulas at several places as blocks: each once in symbols, then a column of numbers a place."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Protocol

from outrigger.formula import layout as maths
from outrigger.formula import text as as_text
from outrigger.formula.formula import Step, amount
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import Element, pick
from outrigger.formula.text import show, unit_text
from outrigger.report.summary import repeated
from outrigger.report.write.document import (
    Block,
    Bold,
    Calculation,
    Inline,
    Maths,
    Paragraph,
    Runs,
    Table,
)

MOST_PLACES = 6  # of one table: as many as a column of the page has room for
SYMBOL_WIDE, NUMBER_WIDE = 1.35, 1.0


class Lines(Protocol):
    """What numbers the lines of a document."""

    labels: dict[repeated.Key, int]
    count: int
    formulas: dict[tuple[str, str], int]

    def meanings(self, step: Step) -> Iterator[str]:
        """What the symbols of a line are, where they stand for the first time."""


def table(
    lines: Lines, rows: repeated.Rows, element: Element, named: Mapping[repeated.Key, str]
) -> list[Block]:
    """The formulas in symbols, then the numbers put in, place by place, under their line number."""
    said = [_said_of(rows, row) for row in rows.rows]
    of_all, of_each = repeated.common(said)
    places = [_name(row, named) for row in rows.rows]
    blocks: list[Block] = list(_formulas(lines, rows, of_all))
    first = lines.count + 1
    own = {item.key for item in rows.given}
    quantities = list(_quantities(rows, element))
    for row in rows.rows:
        lines.count += 1
        for item in row:
            lines.labels[item.key] = lines.count
            for key in item.inputs.values():
                if key in own:
                    lines.labels.setdefault(key, lines.count)
    same = [q for q in quantities if q.same and not q.result]
    if same:
        blocks.append(
            Paragraph(("With ", *_joined([one.with_value for one in same]), "."), "small")
        )
    shown = [q for q in quantities if q.result or not q.same]
    numbers = range(first, first + len(places))
    for start in range(0, len(places), MOST_PLACES):
        chosen = slice(start, start + MOST_PLACES)
        head: list[Runs] = ["", *(f"({n})" for n in numbers[chosen])]
        body: list[tuple[Runs, ...]] = [(one.head, *one.cells[chosen]) for one in shown]
        count = len(head) - 1
        widths = (SYMBOL_WIDE, *(NUMBER_WIDE,) * count, *(() if count > 3 else (4.0 - count,)))
        if count <= 3:  # numbers do not drift apart
            head.append("")
            body = [(*row, "") for row in body]
        align = "l" + "r" * count + "l" * (len(head) - 1 - count)
        blocks.append(Table(head, body, align, widths, "The numbers put in, place by place"))
    told = [
        ", ".join(filter(None, (place, own_said)))
        for place, own_said in zip(places, of_each, strict=True)
    ]
    listed = [*_alike(first, told)]
    if listed:
        blocks.append(Paragraph(f"{'. '.join(listed)}.", "small"))
    return blocks


def _alike(first: int, told: Sequence[str]) -> Iterator[str]:
    """What is said of each place, of neighbors alike at once."""
    start = 0
    for at in range(1, len(told) + 1):
        if at == len(told) or told[at] != told[start]:
            last = f" to ({first + at - 1})" if at - start > 1 else ""
            if told[start]:
                yield f"({first + start}){last} {told[start]}"
            start = at


def _name(row: Sequence[repeated.Item], named: Mapping[repeated.Key, str]) -> str:
    return next((name for item in row if (name := named.get(item.key, ""))), "")


def _said_of(rows: repeated.Rows, row: Sequence[repeated.Item]) -> str:
    """What is said of the steps of a row and of the values that it alone takes."""
    own = {item.key: item for item in rows.given}
    found: list[str] = []
    for item in row:
        found += [own[key].said for key in item.inputs.values() if key in own]
        found.append(item.said)
    return "; ".join(filter(None, found))


def _formulas(lines: Lines, rows: repeated.Rows, of_all: Sequence[str]) -> Iterator[Block]:
    """Each formula in symbols, unless it stands above."""
    for i, item in enumerate(rows.rows[0]):
        step = item.step
        assert step.formula is not None
        name, text = symbol(step.symbol).text, as_text.in_symbols(step.formula)
        known = lines.formulas.get((name, text))
        lines.count += 1
        line = maths.Line(
            (maths.Sign(symbol(step.symbol)), maths.in_symbols(step.formula)), f"{name} = {text}"
        )
        told = [*lines.meanings(step)]
        if i == len(rows.rows[0]) - 1:
            told += of_all
        told = [f"as ({known})", *told] if known is not None else told
        lines.formulas.setdefault((name, text), lines.count)
        yield Calculation(str(lines.count), line, "; ".join(dict.fromkeys(told)))


class Quantity:
    """One quantity of a table: its symbol, and its number at each place."""

    def __init__(self, name: str, unit: str, numbers: Sequence[str], result: bool) -> None:
        sign = symbol(name)
        self.sign = Maths(maths.Sign(sign), sign.text)
        self.unit = unit_text(unit)
        self.numbers, self.result = numbers, result
        self.same = len(set(numbers)) == 1

    @property
    def head(self) -> Runs:
        """Symbol and unit."""
        return (self.sign, f" {self.unit}") if self.unit else (self.sign,)

    @property
    def cells(self) -> list[Runs]:
        """The numbers, a result in bold."""
        return [(Bold(one),) if self.result else one for one in self.numbers]

    @property
    def with_value(self) -> tuple[Inline, ...]:
        """Symbol, number and unit, of what is the same at all places."""
        return (self.sign, f" = {self.numbers[0]} {self.unit}".rstrip())


def _joined(parts: Sequence[tuple[Inline, ...]]) -> tuple[Inline, ...]:
    found: list[Inline] = []
    for one in parts:
        found += [", ", *one] if found else one
    return tuple(found)


def _quantities(rows: repeated.Rows, element: Element) -> Iterator[Quantity]:
    """Every number that the formulas take, and what they give, in the order of the work."""
    told = set[tuple[str, ...]]()
    for at, item in enumerate(rows.rows[0]):
        formula = item.step.formula
        assert formula is not None
        for name in formula.arguments:
            before = {earlier.key for row in rows.rows for earlier in row[:at]}
            if all(row[at].inputs.get(name) in before for row in rows.rows):
                continue  # the row gives it
            numbers = [_put_in(row[at], name, element) for row in rows.rows]
            if (name, *numbers) not in told:
                told.add((name, *numbers))
                yield Quantity(name, symbol(name).unit, numbers, False)
        results = [_result(row[at].step, element) for row in rows.rows]
        yield Quantity(item.step.symbol, item.step.unit, results, True)


def _put_in(item: repeated.Item, name: str, element: Element) -> str:
    """A number put in."""
    return show(pick(amount(item.step.inputs[name]), element))


def _result(step: Step, element: Element) -> str:
    other, value = step.taken(element), show(pick(step.value, element))
    return value if other is None else f"{show(other)}, taken {value}"
