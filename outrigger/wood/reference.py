"""Reference design values of every grade of every species, with their status.

NDS Supplement 2018, Tables 4A, 4B, 4C and 4D.
"""

from collections.abc import Iterator
from functools import cache
from typing import Literal

from msgspec import Struct

from outrigger.base import tables
from outrigger.wood.dressed import Size

Kind = Literal["dimension", "southern pine", "machine rated", "timber"]
TABLES: dict[Kind, str] = {  # of the NDS Supplement
    "dimension": "4A", "southern pine": "4B", "machine rated": "4C", "timber": "4D",
}  # fmt: skip
UNITS = {
    "Fb": "psi",
    "Ft": "psi",
    "Fv": "psi",
    "Fc_perp": "psi",
    "Fc": "psi",
    "E": "psi",
    "Emin": "psi",
    "G": "",
}
STRENGTHS = ("Fb", "Ft", "Fv", "Fc_perp", "Fc")
LIGHT_FRAMING_WIDEST_IN = 4  # nominal; Table 4A: 2 to 4 in wide
MACHINE_RATED_GREATEST_IN = 2  # nominal thickness; Table 4C: 2 in and less (from memory)
BY_EYE = "by eye"
RECALLED = "from memory, not read in print: use none before it is read there"
LIGHT_FRAMING = ("Construction", "Standard", "Utility")


class Value(Struct, frozen=True):
    """A published value with its unit and its status (`base.tables.STATUSES`)."""

    value: float
    unit: str
    status: str


class Grade(Struct, frozen=True):
    """One row of Table 4A, 4B or 4D, or a grade of 4C with the values of its species."""

    species: str
    grade: str
    size_class: str
    kind: Kind
    values: dict[str, Value]
    agency: str
    source: str
    note: str = ""

    @property
    def graded(self) -> str:
        """What its grades may be exchanged for: dimension lumber by eye has two tables."""
        return BY_EYE if self.kind in ("dimension", "southern pine") else self.kind

    @property
    def recalled(self) -> str:
        """Its strength values that were read nowhere, in words; empty where there is none."""
        names = [n for n in STRENGTHS if self.values[n].status == tables.MEMORY]
        said = f"{', '.join(names)} of {self.species} {self.grade}"
        return f"{said}: {RECALLED}" if names else ""

    @property
    def unverified(self) -> dict[str, str]:
        """The values that are not surely the table's: name and status."""
        return {n: v.status for n, v in self.values.items() if v.status in tables.NAMED}


@cache
def species_names() -> tuple[str, ...]:
    """Every species or species combination of Tables 4A to 4D, in alphabetical order."""
    names = {r["species"] for t in ("table_4a", "table_4b", "table_4d") for r in _rows(t)}
    return tuple(sorted(names | {r["species"] for r in _rows("table_4c_species")}))


@cache
def grades(species: str) -> tuple[Grade, ...]:
    """Every grade on file of a species (its full name), by table in the order printed."""
    found = [
        *_plain("table_4a", species, "dimension"),
        *_plain("table_4b", species, "southern pine"),
    ]
    found += [*_machine_rated(species), *_plain("table_4d", species, "timber")]
    return tuple(found)


def grade_names() -> tuple[str, ...]:
    """Every grade of any species on file, each once."""
    return tuple(dict.fromkeys(row.grade for name in species_names() for row in grades(name)))


def fits(grade: Grade, size: Size) -> bool:
    """Whether a row of the tables covers a size."""
    if grade.kind == "timber" or size.is_timber:
        return grade.kind == "timber" and size.is_timber and grade.size_class == size.timber_class
    if grade.kind == "southern pine":
        row = tables.load("table_4b").find(
            species=grade.species, grade=grade.grade, size_class=grade.size_class
        )
        deepest = row["width_to"] in ("", "12")  # over 12 in: the 12 in row times CF 0.9
        if row["width_from"] == "2.5" and size.nominal_b < 2.5:
            return False  # Dense Structural is 2-1/2 to 4 in thick
        low, high = float(row["width_from"]), float(row["width_to"] or "inf")
        return low <= size.nominal_d <= high or (deepest and size.nominal_d > high)
    if grade.kind == "machine rated":
        return size.nominal_b <= MACHINE_RATED_GREATEST_IN
    return grade.grade not in LIGHT_FRAMING or size.nominal_d <= LIGHT_FRAMING_WIDEST_IN


def _rows(table: str) -> tuple[tables.Row, ...]:
    return tables.load(table).rows


def _plain(name: str, species: str, kind: Kind) -> Iterator[Grade]:
    """Rows of a table that prints every value of a grade in one row."""
    table = tables.load(name)
    for row in table.matching(species=species):
        values = {n: Value(float(row[n]), unit, row["status"]) for n, unit in UNITS.items()}
        where = row["size_class"]
        source, note = table.title, row["note"]
        yield Grade(
            species=species,
            grade=row["grade"],
            size_class=where,
            kind=kind,
            values=values,
            agency=row["agency"],
            source=source,
            note=note,
        )


def _machine_rated(species: str) -> Iterator[Grade]:
    """Grades of Table 4C with Fv, Fc_perp and G of the species' row that covers their E."""
    table, shared = tables.load("table_4c"), tables.load("table_4c_species")
    for row in table.rows:
        modulus = float(row["E"]) / 1e6
        covering = [r for r in shared.matching(species=species) if tables.in_range(r, "E", modulus)]
        if not covering:
            continue
        own = max(covering, key=lambda r: float(r["E_from"]))  # the narrowest row governs
        values = {}
        for name, unit in UNITS.items():
            source = own if name in ("Fv", "Fc_perp", "G") else row
            status = row["Emin_status"] if name == "Emin" else source["status"]
            values[name] = Value(float(source[name]), unit, status)
        size_class = "machine rated, 2 in and less in thickness"
        yield Grade(
            species=species,
            grade=row["grade"],
            size_class=size_class,
            kind="machine rated",
            values=values,
            agency="",
            source=table.title,
            note=own["note"],
        )
