"""Tables 4A to 4D and 12.3.3A of the NDS and its Supplement 2018, and the figures 30.3 of ASCE 7, a
second time: each value from memory, written before the table was looked at.

`tests/data/printed` holds them; `-` stands where memory was not sure, or was not kept against two
written witnesses. Redwood is the open grain. Emin is held by its equation.
"""

import csv
from collections import defaultdict
from decimal import Decimal
from pathlib import Path

import pytest
from table_rows import read

PRINTED = sorted((Path(__file__).parents[1] / "data" / "printed").glob("*.csv"))
VALUES = {"Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "G", "A1_sf", "GCp1", "A2_sf", "GCp2"}


def by_key(rows, columns):
    """Key -> its rows in order; a curve of two pieces has two."""
    found = defaultdict(list)
    for row in rows:
        found[tuple(row[c] for c in columns)].append(row)
    return found


@pytest.mark.parametrize("path", PRINTED, ids=lambda path: path.stem)
def test_each_value_is_the_printed_one(path):
    """Digit for digit, as a number: 0.5 is 0.50."""
    with path.open(encoding="utf-8") as text:
        printed = list(csv.DictReader(text))
    keys = [c for c in printed[0] if c not in VALUES]
    table = by_key(read(path.stem), keys)
    differ = [
        f"{' '.join(key)} {column}: printed {one[column]}, the table has {row[column]}"
        for key, rows in by_key(printed, keys).items()
        for one, row in zip(rows, table[key], strict=True)
        for column in VALUES & set(one)
        if one[column] != "-" and Decimal(one[column]) != Decimal(row[column] or "NaN")
    ]
    assert differ == []
