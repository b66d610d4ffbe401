"""Lumber: species, grades and sizes as stamped, with reference design values and their status.

NDS Supplement 2018, Tables 1A (sizes), 4A, 4B, 4C and 4D (design values).
"""

import difflib
import re
from collections.abc import Iterator, Sequence
from functools import cache
from typing import Literal

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from outrigger.base import tables
from outrigger.base.errors import InputError, TableError
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Num
from outrigger.wood.other_names import SAWN_ALONE, engineered, size_meant

Column = NDArray[np.float64]
Kind = Literal["dimension", "southern pine", "machine rated", "timber"]
DEPTHS_IN = (4, 6, 8, 10, 12)  # nominal, of dimension lumber
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
TIMBER_LEAST_IN = 5  # nominal; Table 4D: 5x5 and larger
DIMENSION_THICKNESSES_IN = (2, 3, 4)  # nominal; the size factors have rows for no others
LIGHT_FRAMING_WIDEST_IN = 4  # nominal; Table 4A: 2 to 4 in wide
MACHINE_RATED_GREATEST_IN = 2  # nominal thickness; Table 4C: 2 in and less (from memory)
STUD_STOPS_IN = 8  # nominal width; Table 4A: wider Stud takes the values of No. 3
RECALLED = "from memory, not read in print: use none before it is read there"
BOTH = "No. 1/No. 2"
LIGHT_FRAMING = ("Construction", "Standard", "Utility")


@formula("A", "in2", clause="geometry")
def area(b: Num, d: Num) -> Num:
    """Area of a rectangle."""
    return b * d


@formula("S", "in3", clause="geometry")
def section_modulus(b: Num, d: Num) -> Num:
    """Section modulus of a rectangle, load along d."""
    return b * d**2 / 6


@formula("I", "in4", clause="geometry")
def moment_of_inertia(b: Num, d: Num) -> Num:
    """Moment of inertia of a rectangle, load along d."""
    return b * d**3 / 12


@formula("CF", "", clause="NDS Supplement 2018 Tables 4B, 4D", constants={"12": "in"})
def size_factor_deep(d: Num) -> Num:
    """Size factor of a member deeper than 12 in."""
    return (12 / d) ** (1 / 9)


class Value(Struct, frozen=True):
    """A published value with its unit and its status (`base.tables.STATUSES`)."""

    value: float
    unit: str
    status: str


class Size(Struct, frozen=True):
    """A cross section: nominal and dressed sizes in inches, on edge (d is the larger side)."""

    nominal_b: float
    nominal_d: float
    b: float
    d: float
    status: str
    note: str = ""

    @property
    def name(self) -> str:
        """As sold: 2x6."""
        return f"{self.nominal_b:g}x{self.nominal_d:g}"

    @property
    def is_timber(self) -> bool:
        """5x5 and larger (Table 4D)."""
        return self.nominal_b >= TIMBER_LEAST_IN

    @property
    def timber_class(self) -> str:
        """Table 4D: more than 2 in deeper than thick is a beam, else a post (nominal sizes)."""
        beam = self.nominal_d - self.nominal_b > 2
        return "Beams & Stringers" if beam else "Posts & Timbers"


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
        return "by eye" if self.kind in ("dimension", "southern pine") else self.kind

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


def words(text: str) -> str:
    """A name for comparison: lower case, hyphens as spaces, single spaces."""
    return " ".join(re.sub(r"[-‐–]", " ", text.lower()).split())


def letters(text: str) -> str:
    """A stamp for comparison: lower case, # as no, without spaces, hyphens or dots."""
    return re.sub(r"[\s.\-]", "", text.lower().replace("#", "no"))


@cache
def species_names() -> tuple[str, ...]:
    """Every species or species combination of Tables 4A to 4D, in alphabetical order."""
    names = {r["species"] for t in ("table_4a", "table_4b", "table_4d") for r in _rows(t)}
    return tuple(sorted(names | {r["species"] for r in _rows("table_4c_species")}))


def read_species(text: str) -> str:
    """The species of a name or of an exact agency stamp.

    Raises:
        InputError: anything vaguer; the candidates are listed, none is chosen.
    """
    exact = {words(name): name for name in species_names()}
    exact |= {words(r["stamp"]): r["species"] for r in _rows("stamps")}
    if words(text) in exact:
        return exact[words(text)]
    stamps = {letters(r["stamp"]): r["species"] for r in _rows("stamps")}
    if letters(text) in stamps:
        return stamps[letters(text)]
    if engineered(text):
        raise InputError(f'species = "{text}": {SAWN_ALONE} "SPF" or "DF-L", say.')
    hint = ""
    if letters(text) in _grade_stamps():
        hint = " That is a grade: name the species first."
    listed = "\n".join(f"  {candidate}" for candidate in species_candidates(text))
    raise InputError(
        f'species = "{text}": not an exact name or stamp, and none is guessed.{hint} '
        f"Write one of these in full:\n{listed}"
    )


def species_candidates(text: str) -> list[str]:
    """Species that a vague name may mean, best first, each with its stamps; all if none fits."""
    stamps = _stamps_by_species()

    def hits(name: str) -> int:
        own = set(re.findall(r"[a-z]+", name.lower()))
        marks = [letters(stamp) for stamp in stamps.get(name, [])]
        asked = set(re.findall(r"[a-z]+", text.lower()))
        found = sum(w in own or any(m.startswith(w) for m in marks) for w in asked)
        return found or bool(letters(text)) * letters(name).startswith(letters(text))

    found = sorted((n for n in species_names() if hits(n)), key=lambda n: (-hits(n), n))
    if not found:
        near = difflib.get_close_matches(words(text), [words(n) for n in species_names()], n=5)
        found = [n for n in species_names() if words(n) in near] or list(species_names())
    return [f"{n}, stamped {', '.join(stamps[n])}" if n in stamps else n for n in found]


@cache
def _stamps_by_species() -> dict[str, list[str]]:
    stamps: dict[str, list[str]] = {}
    for row in _rows("stamps"):
        stamps.setdefault(row["species"], []).append(row["stamp"])
    return stamps


@cache
def grades(species: str) -> tuple[Grade, ...]:
    """Every grade on file of a species (its full name), by table in the order printed."""
    found = [
        *_plain("table_4a", species, "dimension"),
        *_plain("table_4b", species, "southern pine"),
    ]
    found += [*_machine_rated(species), *_plain("table_4d", species, "timber")]
    return tuple(found)


def species_list() -> list[tuple[str, str, str]]:
    """Every species with its stamps and the tables that hold it, as text."""
    stamps = _stamps_by_species()
    rows = []
    for name in species_names():
        sources = dict.fromkeys(g.source.rpartition("Table ")[2] for g in grades(name))
        rows.append((name, ", ".join(stamps.get(name, [])), " ".join(sources)))
    return rows


def rows_of_grade(text: str, species: str) -> tuple[tuple[Grade, ...], tuple[str, ...]]:
    """The rows of a stamped grade in every size, and notes on how it was read.

    Raises:
        InputError: not a grade of this species; the grades it has are listed.
    """
    name, notes = _grade_name(text)
    found = tuple(g for g in grades(species) if _is_grade(g, name))
    if not found:
        raise _no_such_grade(text, species, grades(species))
    return found, (*notes, *_row_note(found[0], name))


def read_grade(text: str, species: str, size: Size) -> tuple[Grade, tuple[str, ...]]:
    """The row of a stamped grade for a species and size, and notes on how it was read.

    Raises:
        InputError: not a grade of this species in this size; the grades it has are listed.
    """
    name, notes = _grade_name(text)
    if name == "Stud" and size.nominal_d >= STUD_STOPS_IN:
        name, notes = "No. 3", (*notes, "Stud 8 in and wider takes the values of No. 3")
    fitting = [g for g in grades(species) if fits(g, size)]
    for row in fitting:
        if _is_grade(row, name):
            return row, (*notes, *_row_note(row, name))
    raise _no_such_grade(text, species, fitting, f" in {size.name}")


def _grade_name(text: str) -> tuple[str, tuple[str, ...]]:
    """The grade of a stamp, as the tables print it, and a note where another one designs it."""
    stamp = _grade_stamps().get(letters(text))
    if stamp is None:
        return text, ()
    return stamp["grade"], ((stamp["note"],) if "designed as" in stamp["note"] else ())


def _is_grade(row: Grade, name: str) -> bool:
    """Whether a row is the named grade; Canadian combinations print No. 1/No. 2 as one row."""
    return letters(row.grade) == letters(name) or (row.grade == BOTH and name in ("No. 1", "No. 2"))


def _row_note(row: Grade, name: str) -> tuple[str, ...]:
    shared = row.grade == BOTH and letters(name) != letters(BOTH)
    return (f"{row.species} prints {name} in its row {BOTH}",) if shared else ()


def _no_such_grade(text: str, species: str, has: Sequence[Grade], where: str = "") -> InputError:
    plain = ", ".join(dict.fromkeys(g.grade for g in has if g.kind != "machine rated"))
    machine = any(g.kind == "machine rated" for g in has)
    more = ", and machine-rated grades such as 1650f-1.5E" if machine else ""
    hint = f" {SAWN_ALONE}" if engineered(text) else ""
    return InputError(
        f'grade = "{text}": not a grade on file of {species}{where}. '
        f"It has: {plain or 'none'}{more}.{hint}"
    )


def read_size(text: str) -> Size:
    """A cross section from its name: 2x6, 2 x 6.

    Raises:
        InputError: not a size on file; the dressed sizes on file are listed.
    """
    match = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*[xX×]\s*(\d+(?:\.\d+)?)\s*", text)
    if match is None:
        meant = size_meant(text, _sold())
        raise InputError(f'size = "{text}": not a size. Write it as sold, "2x6".{meant}')
    nominal_b, nominal_d = float(match[1]), float(match[2])
    if nominal_d < nominal_b:
        raise InputError(
            f'size = "{text}": the smaller side comes first: "{nominal_d:g}x{nominal_b:g}"; '
            'laid = "flat" turns it.'
        )
    timber = nominal_b >= TIMBER_LEAST_IN
    if timber:
        sides, faces = {**_dressed("timber")}, {**_dressed("timber")}
    else:
        sides, faces = _dressed("thickness"), _dressed("width")
        sides = {n: row for n, row in sides.items() if n in DIMENSION_THICKNESSES_IN}
    if nominal_b not in sides or nominal_d not in faces:
        listed = ", ".join(f"{b:g}x{d:g}" for b in sides for d in faces if d >= b)
        meant = size_meant(text, _sold())
        raise InputError(f'size = "{text}": no such size. Dressed sizes on file: {listed}.{meant}')
    side, face = sides[nominal_b], faces[nominal_d]
    status = tables.worst(side["status"], face["status"])
    note = face["note"] if timber else ""
    return Size(nominal_b, nominal_d, float(side["dry_in"]), float(face["dry_in"]), status, note)


def sizes_sold() -> tuple[str, ...]:
    """The sizes of dimension lumber on file, as sold."""
    return tuple(f"{b:g}x{d:g}" for b, d, *_ in _sold() if d >= b)


def grade_names() -> tuple[str, ...]:
    """Every grade of any species on file, each once."""
    return tuple(dict.fromkeys(row.grade for name in species_names() for row in grades(name)))


def _sold() -> list[tuple[float, float, float, float]]:
    """The sizes of dimension lumber: nominal sides, dressed sides."""
    faces = _dressed("width")
    sides = {n: r for n, r in _dressed("thickness").items() if n in DIMENSION_THICKNESSES_IN}
    return [
        (b, d, float(side["dry_in"]), float(face["dry_in"]))
        for b, side in sides.items()
        for d, face in faces.items()
    ]


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


@cache
def _dressed(kind: str) -> dict[float, tables.Row]:
    rows = tables.load("dressed_sizes").matching(kind=kind)
    return {float(row["nominal_in"]): row for row in rows}


@cache
def _grade_stamps() -> dict[str, tables.Row]:
    return {letters(row["stamp"]): row for row in _rows("grade_stamps")}


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
