"""Every value of a table that was not read in a named source: by table, with what is said of it."""

from msgspec import Struct

from outrigger.base import tables
from outrigger.base.tables import DERIVED, MEMORY, OTHER_EDITION, SECOND_HAND, Row, Table

REMARKS = ("note", "witness")
FEW = 3
LISTED = (MEMORY, SECOND_HAND, OTHER_EDITION, DERIVED)  # the least sure first


class Unverified(Struct, frozen=True):
    """One value: its row, and the columns that a status of their own is for ("" the row's)."""

    row: str
    of: str
    status: str


class Listing(Struct, frozen=True):
    """The values of one table that are listed, and how many rows it has in all."""

    name: str
    title: str
    rows: int
    values: tuple[Unverified, ...]

    def of_status(self, status: str) -> list[Unverified]:
        """Those of one status."""
        return [one for one in self.values if one.status == status]


def unverified() -> list[Listing]:
    """Each table that has any, in the order of their names."""
    found = []
    for name in sorted(tables.files()):
        table = tables.load(name)
        values = tuple(_values(table))
        if values:
            found.append(Listing(name, table.title, len(table.rows), values))
    return found


def _values(table: Table) -> list[Unverified]:
    keys = _keys(table)
    found = []
    for row in table.rows:
        for column, status in row.items():
            if status in LISTED and (column == "status" or column.endswith("_status")):
                of = column.removesuffix("status").removesuffix("_")
                found.append(Unverified(", ".join(_label(row, keys)), of, status))
    return found


def _keys(table: Table) -> list[str]:
    """The fewest first columns that tell the rows of a table apart; of twins the first few."""
    columns = [c for c in table.rows[0] if c not in REMARKS and not c.endswith("status")]
    for count in range(1, len(columns) + 1):
        keys = columns[:count]
        if len({tuple(row[key] for key in keys) for row in table.rows}) == len(table.rows):
            return keys
    return columns[:FEW]


def _label(row: Row, keys: list[str]) -> list[str]:
    """A row by its cells, a bare number with its column."""
    return [
        f"{key} {row[key]}" if row[key].replace(".", "").isdigit() else row[key]
        for key in keys
        if row[key]
    ]
