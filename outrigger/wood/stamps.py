"""Species and grades as they are stamped or written, read exactly: nothing vague is guessed."""

import difflib
import re
from collections.abc import Sequence
from functools import cache

from outrigger.base import tables
from outrigger.base.errors import InputError
from outrigger.wood.dressed import Size
from outrigger.wood.other_names import SAWN_ALONE, engineered
from outrigger.wood.reference import Grade, fits, grades, species_names

STUD_STOPS_IN = 8  # nominal width; Table 4A: wider Stud takes the values of No. 3
BOTH = "No. 1/No. 2"


def words(text: str) -> str:
    """A name for comparison: lower case, hyphens as spaces, single spaces."""
    return " ".join(re.sub(r"[-‐–]", " ", text.lower()).split())


def letters(text: str) -> str:
    """A stamp for comparison: lower case, # as no, without spaces, hyphens or dots."""
    return re.sub(r"[\s.\-]", "", text.lower().replace("#", "no"))


def read_species(text: str) -> str:
    """The species of a name or of an exact agency stamp.

    Raises:
        InputError: anything vaguer; the candidates are listed, none is chosen.
    """
    exact = {words(name): name for name in species_names()}
    exact |= {words(r["stamp"]): r["species"] for r in tables.load("stamps").rows}
    if words(text) in exact:
        return exact[words(text)]
    stamps = {letters(r["stamp"]): r["species"] for r in tables.load("stamps").rows}
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
    for row in tables.load("stamps").rows:
        stamps.setdefault(row["species"], []).append(row["stamp"])
    return stamps


def stamp_of(species: str) -> str:
    """The stamp of a species, where it has one; else its name."""
    return _stamps_by_species().get(species, [species])[0]


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


@cache
def _grade_stamps() -> dict[str, tables.Row]:
    return {letters(row["stamp"]): row for row in tables.load("grade_stamps").rows}
