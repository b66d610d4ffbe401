"""The published tables: CSV files with a provenance header, looked up exactly."""

import csv
from collections.abc import Sequence
from functools import cache
from pathlib import Path

from msgspec import Struct

from outrigger.base.errors import TableError

HEADER_KEYS = ("standard", "edition", "table", "units", "status", "checked")
SEEN, DERIVED = "SEEN", "DERIVED"
SECOND_HAND, OTHER_EDITION, MEMORY = "SECOND-HAND", "OTHER EDITION", "MEMORY"
STATUSES = (SEEN, DERIVED, SECOND_HAND, OTHER_EDITION, MEMORY)  # the surest first
UNSURE = (MEMORY, OTHER_EDITION, SECOND_HAND)  # with a warning wherever such a value is used
NAMED = (*UNSURE, DERIVED)  # listed with each result, the least sure first
WORDS = {  # as they print
    SEEN: "seen",
    DERIVED: "derived",
    SECOND_HAND: "second-hand",
    OTHER_EDITION: "other edition",
    MEMORY: "from memory",
}

Row = dict[str, str]


class Table(Struct, frozen=True, eq=False):
    """One published table: its provenance and its rows as printed."""

    name: str
    header: dict[str, str]
    rows: tuple[Row, ...]

    @property
    def title(self) -> str:
        """Standard, edition and table, for people."""
        return f"{self.header['standard']} {self.header['edition']}, {self.header['table']}"

    def matching(self, **columns: str) -> list[Row]:
        """Rows whose columns hold exactly these texts; there may be none."""
        return list(_matching(self, tuple(columns.items())))

    def find(self, **columns: str) -> Row:
        """The one row whose columns hold exactly these texts.

        Raises:
            TableError: no such row, or more than one; the rows the table has are listed.
        """
        found = self.matching(**columns)
        if len(found) == 1:
            return found[0]
        wanted = ", ".join(f"{c} {text}" for c, text in columns.items())
        have = list(dict.fromkeys(", ".join(r[c] for c in columns) for r in self.rows))
        count = "no row" if not found else f"{len(found)} rows"
        raise TableError(f"{self.title}: {count} for {wanted}. It has: {'; '.join(have)}.")


@cache
def _matching(table: Table, columns: tuple[tuple[str, str], ...]) -> tuple[Row, ...]:
    return tuple(r for r in table.rows if all(r[c] == text for c, text in columns))


def folder() -> Path:
    """The folder of the tables: inside the package in a wheel, beside it in a source tree.

    Raises:
        TableError: it is in neither place.
    """
    package = Path(__file__).parents[1]
    for place in (package / "species_tables", package.parent / "species_tables"):
        if place.is_dir():
            return place
    raise TableError(f"species_tables: no such folder in or beside {package}. Install again.")


@cache
def files() -> dict[str, Path]:
    """Every table on file by its name, whichever folder it lies in.

    Raises:
        TableError: two tables of one name.
    """
    found: dict[str, Path] = {}
    for path in sorted(folder().rglob("*.csv")):
        if path.stem in found:
            raise TableError(f"{path.stem}: two tables of this name: {found[path.stem]}, {path}.")
        found[path.stem] = path
    return found


@cache
def load(name: str) -> Table:
    """A table by its file name without `.csv`.

    Raises:
        TableError: no such file, or one that cannot be read as a table.
    """
    path = files().get(name)
    if path is None:
        raise TableError(f"{name}: no such table. On file: {', '.join(sorted(files()))}.")
    return read(path)


def read(path: Path, statuses: Sequence[str] = STATUSES) -> Table:
    """A table of a file, its rows of these statuses.

    Raises:
        TableError: a provenance line is missing, or a row's status is not legal.
    """
    lines = path.read_text(encoding="utf-8").splitlines()
    comments = [line for line in lines if line.startswith("#")]
    pairs = (line[1:].partition(":") for line in comments)
    header = {key.strip(): text.strip() for key, _, text in pairs}
    missing = [key for key in HEADER_KEYS if not header.get(key)]
    if missing:
        raise TableError(f"{path.name}: the header lacks '# {missing[0]}: ...'.")
    rows = tuple(csv.DictReader(lines[len(comments) :]))
    for number, row in enumerate(rows, 1):
        wrong = [
            c for c, text in row.items() if c.endswith("_status") and text not in ("", *statuses)
        ]
        if row.get("status") not in statuses or wrong:
            column = wrong[0] if wrong else "status"
            raise TableError(
                f"{path.name}, row {number}: {column} {row.get(column)!r}. "
                f"Allowed: {', '.join(statuses)}."
            )
    return Table(path.stem, header, rows)


def worst(*statuses: str) -> str:
    """The least sure of several statuses; empty ones, of computed values, do not count."""
    return max(statuses, key=lambda status: STATUSES.index(status) if status else -1, default="")


def in_range(row: Row, column: str, value: float) -> bool:
    """Whether a value lies in a row's `<column>_from` to `<column>_to`; a blank end is open."""
    low, high = row[f"{column}_from"], row[f"{column}_to"]
    return (not low or float(low) <= value) and (not high or value <= float(high))
