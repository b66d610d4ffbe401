"""Species, grades and design values on screen and as data, each with source and status."""

import textwrap
from collections.abc import Sequence
from itertools import groupby
from typing import Any

from tabulate import tabulate

from outrigger.base.tables import DERIVED, MEMORY, OTHER_EDITION, SECOND_HAND
from outrigger.formula.notation import symbol
from outrigger.report.cautions import without_case
from outrigger.wood.reference import RECALLED, UNITS, Grade, Value

MARKS = {MEMORY: "*", DERIVED: "+"}
LEGEND = {
    "*": f"* unverified, {RECALLED}; check keeps such a grade open.",
    "+": "+ derived: computed by the standard's own identity, not read.",
}
TOLD = {
    SECOND_HAND: "second-hand, read in transcriptions that name no author",
    OTHER_EDITION: "other edition, read in a later edition of the table only",
}
CLOSING = (
    "Values read in transcriptions of the tables, not in the printed standard: "
    "the engineer of record checks the governing row in print."
)
NARROW = 72  # below this many columns a grade takes a paragraph, not a row


def as_rows(grades: Sequence[Grade]) -> list[dict[str, Any]]:
    """The grades as plain data: value, unit and status of each property."""
    return [
        {
            "species": grade.species,
            "grade": grade.grade,
            "size_class": grade.size_class,
            **{
                name: {"value": plain(value.value), "unit": value.unit, "status": value.status}
                for name, value in grade.values.items()
            },
            "source": grade.source,
            "agency": grade.agency,
            "note": grade.note,
        }
        for grade in grades
    ]


def plain(value: float) -> float | int:
    """A whole number without its decimal point."""
    return int(value) if value == int(value) else value


def species_page(counts: Sequence[tuple[str, str, str]], width: int) -> str:
    """Every species with its stamps and its tables."""
    if width >= NARROW:
        body = tabulate(counts, headers=("species", "stamps", "tables"), disable_numparse=True)
    else:
        body = "\n".join(
            f"{name}\n  {', '.join(t for t in (stamps, tables) if t)}"
            for name, stamps, tables in counts
        )
    more = "One species: outrigger lumber SPECIES, by its full name or its exact stamp."
    return "\n\n".join((body, wrap(more, width), *_closing(width)))


def grades_page(heading: str, grades: Sequence[Grade], width: int) -> str:
    """The grades of one species: values in psi, by table and size class."""
    parts = [wrap(heading, width)]
    marks: set[str] = set()
    for (source, size_class), rows in groupby(grades, key=lambda g: (g.source, g.size_class)):
        block = list(rows)
        marks |= {MARKS.get(v.status, "") for g in block for v in g.values.values()}
        agencies = ", ".join(dict.fromkeys(g.agency for g in block if g.agency))
        title = f"{size_class}. {source}" + (f", graded by {agencies}" if agencies else "")
        parts.append("\n".join((wrap(title, width), _block(block, width), *_notes(block, width))))
    parts += [wrap(LEGEND[mark], width) for mark in LEGEND if mark in marks]
    parts += _closing(width)
    return "\n\n".join(parts)


def _closing(width: int) -> list[str]:
    return [wrap(CLOSING, width), "\n".join(wrap(text, width) for text in without_case())]


def _block(grades: Sequence[Grade], width: int) -> str:
    names = [symbol(n).text for n in UNITS]
    if width < NARROW:
        lines = [
            f"{g.grade}: "
            + ", ".join(f"{n} {_cell(v)}" for n, v in zip(names, _values(g), strict=True))
            for g in grades
        ]
        return "\n".join(wrap(f"{line}. All psi but G.", width) for line in lines)
    table = [[g.grade, *map(_cell, _values(g))] for g in grades]
    headers = ["psi (G none)", *names]
    align = ["left"] + ["right"] * len(names)
    return tabulate(table, headers=headers, disable_numparse=True, colalign=align)


def _values(grade: Grade) -> list[Value]:
    return [grade.values[n] for n in UNITS]


def _cell(value: Value) -> str:
    return f"{plain(value.value)}{MARKS.get(value.status, '')}"


def _notes(grades: Sequence[Grade], width: int) -> list[str]:
    told: dict[str, list[str]] = {}
    for grade in grades:
        for text in (*_statuses(grade), grade.note):
            if text:
                told.setdefault(text, []).append(grade.grade)
    return [
        wrap(f"{text}: {'all of these' if len(n) == len(grades) else ', '.join(n)}", width)
        for text, n in told.items()
    ]


def _statuses(grade: Grade) -> list[str]:
    """What is said in words of the values of a grade, and of which."""
    found = []
    for status, said in TOLD.items():
        names = [symbol(n).text for n, v in grade.values.items() if v.status == status]
        some = f"{', '.join(names)} " if len(names) < len(grade.values) else ""
        found += [f"{some}{said}"] if names else []
    return found


def wrap(text: str, width: int) -> str:
    """A paragraph folded to the width of the terminal."""
    return textwrap.fill(text, max(20, width), subsequent_indent="  ")
