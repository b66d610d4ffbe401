"""Lumber: a size of a grade of a species, with its reference design values and size factors.

NDS Supplement 2018, Tables 4A, 4B, 4C and 4D. Sizes are read in `dressed`, species and grades in
`stamps`; the values stand in `reference`.
"""

from collections.abc import Iterator, Sequence
from functools import cache

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from outrigger.base import tables
from outrigger.base.errors import TableError
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Num
from outrigger.wood.dressed import Size, read_size
from outrigger.wood.reference import TABLES, UNITS, Grade
from outrigger.wood.stamps import read_grade, read_species

Column = NDArray[np.float64]


@formula("CF", "", clause="NDS Supplement 2018 Tables 4B, 4D", constants={"12": "in"})
def size_factor_deep(d: Num) -> Num:
    """Size factor of a member deeper than 12 in."""
    return (12 / d) ** (1 / 9)


class Wood(Struct, frozen=True):
    """A size of a grade of a species: what the checks need to know of the lumber.

    `CF` holds the size factor of Fb, Ft and Fc as steps; `notes` say how the words were read.
    `each`: of many cases in several grades the values of each, (cases, 1); `row` is then the first.
    """

    row: Grade
    size: Size
    CF: dict[str, Step]
    notes: tuple[str, ...]
    each: dict[str, Column] | None = None

    @property
    def unverified(self) -> dict[str, str]:
        """What is not surely the tables', of the grade, its size and its CF: name and status."""
        found = {**self.row.unverified, "dressed size": self.size.status}
        found |= {f"CF of {name}": step.status for name, step in self.CF.items()}
        return {name: status for name, status in found.items() if status in tables.NAMED}

    def value(self, name: str) -> Num:
        """A reference design value, psi; G without a unit."""
        return self.row.values[name].value if self.each is None else self.each[name]

    def reference(self, name: str) -> Step:
        """A reference design value as a step: name, value, table, status."""
        value = self.row.values[name]
        text = f"{self.row.species} {self.row.grade}, {self.row.size_class}"
        return given(name, self.value(name), value.unit, self.row.source, text, value.status)


@cache
def wood(species: str, grade: str, size: str) -> Wood:
    """Species, grade and size as stamped, to reference values and size factors.

    Raises:
        InputError: any of the three cannot be read exactly.
    """
    section = read_size(size)
    name = read_species(species)
    row, notes = read_grade(grade, name, section)
    return Wood(row, section, size_factors(row, section), notes)


def together(woods: Sequence[Wood], which: NDArray[np.intp]) -> Wood:
    """Several grades of one kind in one size as the lumber of many cases, each of its own.

    which: of each case the number of its grade, (cases,).
    """

    def column(values: Iterator[Num]) -> Column:
        return np.array([float(value) for value in values])[which][:, None]

    values = {name: column(wood.value(name) for wood in woods) for name in UNITS}
    first = woods[0]
    CF = {
        name: replace(step, value=column(wood.CF[name].value for wood in woods))
        for name, step in first.CF.items()
    }
    return replace(first, CF=CF, each=values)


def size_factors(row: Grade, size: Size) -> dict[str, Step]:
    """CF of Fb, Ft and Fc. NDS Supplement 2018, Tables 4A, 4B, 4D (4C has none).

    For 4B every matching row applies: over 12 in wide and 4 in thick multiply.
    """
    name = TABLES[row.kind]
    factors = {n: 1.0 for n in ("Fb", "Ft", "Fc")}
    statuses = [tables.SEEN]
    lines = list(_size_factor_rows(name, row.grade, size))
    if name == "4A" and not lines:
        raise TableError(f"Table 4A: no size factor for {row.grade} in {size.name}.")
    for line in lines:
        statuses.append(line["status"])
        for n in factors:
            text = line[f"CF_{n}"]
            factors[n] *= size_factor_deep(size.d) if "12/d" in text else float(text)
    status = tables.worst(*statuses)
    source = f"NDS Supplement 2018, Table {name}, size factor"
    note = "does not apply" if name == "4C" else f"{size.name} {row.grade}"
    return {n: given("CF", v, "", source, note, status) for n, v in factors.items()}


def _size_factor_rows(table: str, grade: str, size: Size) -> Iterator[tables.Row]:
    for line in tables.load("size_factors").matching(table=table):
        dense = grade.startswith("Dense Structural")
        listed = grade in line["grades"].split("; ")
        if table == "4B":
            listed = dense == line["grades"].startswith("Dense Structural")
        elif table in ("4C", "4D"):
            listed = True
        deep = "12/d" not in line["CF_Fb"] or size.d > 12  # the formula begins over 12 in
        in_size = tables.in_range(line, "width", size.nominal_d)
        in_size &= tables.in_range(line, "thickness", size.nominal_b)
        if listed and deep and in_size:
            yield line
