"""The published-number tables as texts: header, rows, and what may be in them."""

import csv
from collections import Counter, defaultdict
from decimal import ROUND_HALF_UP, Decimal
from itertools import pairwise

from outrigger.base import tables

FILES = sorted(tables.files())
LUMBER_FILES = {
    *("table_4a", "table_4b", "table_4c", "table_4c_species", "table_4d", "dressed_sizes"),
    *("size_factors", "wet_service", "temperature", "incising", "repetitive", "flat_use"),
    *("load_duration", "format_conversion", "effective_length", "specific_gravity"),
    *("disagreements", "stamps", "grade_stamps"),
}
HEADER = ["standard", "edition", "table", "units", "status", "checked"]
STATUSES = {"SEEN", "DERIVED", "SECOND-HAND", "OTHER EDITION", "MEMORY"}
STRENGTHS = ("Fb", "Ft", "Fc", "E")
FIRST_FIVE = ("Select Structural", "No. 1 & Btr", "No. 1", "No. 1/No. 2", "No. 2")
JOISTS = (*FIRST_FIVE, "No. 3")
FRAMING = ("Construction", "Standard", "Utility")


def lines(name):
    return tables.files()[name].read_text(encoding="utf-8").splitlines()


def header(name):
    """The provenance lines `# key: value`, in order."""
    return [tuple(x[2:].split(": ", 1)) for x in lines(name) if x.startswith("# ")]


def read(name):
    """The rows of a table as texts; each call gives fresh copies."""
    return list(csv.DictReader(x for x in lines(name) if not x.startswith("#")))


def number(row, column):
    return Decimal(row[column])


def rounded(value, digits):
    """Rounded half up to so many decimals, as tables are printed."""
    return value.quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP)


def name_of(row):
    keys = ("species", "grade", "size_class")
    return " ".join(row[k] for k in keys if row.get(k))


def by_species(rows):
    """Species -> grade -> row of Table 4A."""
    found = defaultdict(dict)
    for row in rows:
        found[row["species"]][row["grade"]] = row
    return found


def falls(rows, grades, where):
    """Faults where Fb, Ft, Fc or E rises from one grade of a sequence to the next below it."""
    have = [g for g in grades if g in rows]
    return [
        f"{where}: {c} of {a} {rows[a][c]} < {b} {rows[b][c]}"
        for a, b in pairwise(have)
        for c in STRENGTHS
        if number(rows[a], c) < number(rows[b], c)
    ]


def repeated(rows, *columns):
    count = Counter(tuple(r[c] for c in columns) for r in rows)
    return [key for key, n in count.items() if n > 1]


G_WITHOUT_ROW = {"Baldcypress", "Yellow Cedar"}


def covering(rows, width, thickness):
    """The rows whose ranges hold a nominal width and thickness; a blank end is open."""

    def holds(row, column, value):
        low, high = row[f"{column}_from"], row[f"{column}_to"]
        return (not low or Decimal(low) <= value) and (not high or value <= Decimal(high))

    return [r for r in rows if holds(r, "width", width) and holds(r, "thickness", thickness)]
