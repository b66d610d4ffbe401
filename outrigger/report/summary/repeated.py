"""A formula at several places: once in symbols, then a table of the numbers that are put in.

A row is a place, a column a number of it; formulas of which one takes what another gives, place by
place, make one table.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property

from msgspec import Struct, field

from outrigger.formula import text as as_text
from outrigger.formula.formula import Step
from outrigger.formula.layout import Line

LEAST_ROWS = 3  # of a single formula; of two and more, two rows pay
Key = tuple[str, str]


class Item(Struct, frozen=True, eq=False, dict=True):
    """A step that is to be printed: its key, its line and what is said of it; `read`: it is a
    value that is given or looked up; `inputs`: the keys of the steps that it takes, by name."""

    key: Key
    step: Step
    line: Line
    said: str
    read: bool
    inputs: Mapping[str, Key] = field(default_factory=dict)

    @cached_property
    def formula(self) -> str:
        """Its formula in symbols; empty where it has none."""
        one = self.step
        return "" if one.formula is None else f"{one.symbol} = {as_text.in_symbols(one.formula)}"


class Rows(Struct, frozen=True, eq=False):
    """Rows of one table: in each a step of every formula, in the order in which they follow."""

    rows: Sequence[Sequence[Item]]
    given: list[Item] = field(default_factory=list)  # values that stand in the table alone

    @property
    def items(self) -> list[Item]:
        """All its steps."""
        return [*self.given, *(item for row in self.rows for item in row)]


Unit = Item | Rows


def units(items: Sequence[Item]) -> list[Unit]:
    """Steps in an order in which each stands behind what it takes, those alike as tables."""
    found = _tables(items)
    while True:
        ordered = _ordered(items, found)
        if ordered is not None:
            return ordered
        found.pop()  # a table that would need itself


def _tables(items: Sequence[Item]) -> list[Rows]:
    """The tables, the longest first."""
    groups: dict[str, list[Item]] = {}
    for item in items:
        if item.formula:
            groups.setdefault(item.formula, []).append(item)
    several = {name: group for name, group in groups.items() if len(group) > 1}
    tables: list[list[list[Item]]] = []
    used = set[str]()
    for name, group in several.items():
        if name in used:
            continue
        rows = [[item] for item in group]
        used.add(name)
        while (more := _next(rows, several, used)) is not None:
            used.add(more[0].formula)
            for row, item in zip(rows, more, strict=True):
                last = [item.key in other.inputs.values() for other in row]
                row.insert(last.index(True) if any(last) else len(row), item)
        if len(rows) >= LEAST_ROWS or len(rows[0]) > 1:
            tables.append(rows)
    made = [Rows(rows) for rows in tables]
    for one in made:
        one.given.extend(_own(one, items))
    return sorted(made, key=lambda one: -len(one.items))


def _next(
    rows: list[list[Item]], groups: Mapping[str, list[Item]], used: set[str]
) -> list[Item] | None:
    """The steps of another formula that take what these rows give, or give what they take, one of
    them each row."""
    for name, group in groups.items():
        if name in used or len(group) != len(rows):
            continue
        found = [[item for item in group if _meet(item, row)] for row in rows]
        chosen = [one[0] for one in found if len(one) == 1]
        if len({item.key for item in chosen}) == len(rows):
            return chosen
    return None


def _meet(item: Item, row: Sequence[Item]) -> bool:
    """Whether a step takes what the last of a row gives, or gives what one of it takes."""
    takes = row[-1].key in item.inputs.values()
    return takes or any(item.key in other.inputs.values() for other in row)


def _own(table: Rows, items: Sequence[Item]) -> Iterator[Item]:
    """Values that are given, or looked up, and that this table alone takes."""
    inside = {item.key for row in table.rows for item in row}
    takers: dict[Key, set[Key]] = {}
    for item in items:
        for key in item.inputs.values():
            takers.setdefault(key, set()).add(item.key)
    for item in items:
        by = takers.get(item.key, set())
        if by and by <= inside and item.read and not item.inputs:
            yield item


def _ordered(items: Sequence[Item], tables: Sequence[Rows]) -> list[Unit] | None:
    """Each unit behind what it takes, as near to the first order as that allows; None: a circle."""
    of: dict[Key, Unit] = {item.key: item for item in items}
    for table in tables:
        of |= {item.key: table for item in table.items}
    waiting = list(dict.fromkeys(of[item.key] for item in items))
    needs: dict[Unit, set[Unit]] = {}
    for item in items:
        unit = of[item.key]
        taken = {of[key] for key in item.inputs.values() if key in of}
        needs.setdefault(unit, set()).update(taken - {unit})
    found: list[Unit] = []
    while waiting:
        ready = next((one for one in waiting if needs[one] <= set(found)), None)
        if ready is None:
            return None
        found.append(ready)
        waiting.remove(ready)
    return found


def common(said: Sequence[str]) -> tuple[list[str], list[str]]:
    """What is said of every row, and what of each one alone."""
    parts = [list(dict.fromkeys(filter(None, one.split("; ")))) for one in said]
    counts = Counter(part for one in parts for part in one)
    of_all = [part for part in counts if counts[part] == len(parts)]
    return of_all, ["; ".join(part for part in one if part not in of_all) for one in parts]
