"""Reads the data: tables of values as CSV, worked examples as TOML, the sources by name."""

import csv
import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
from msgspec import Struct, field
from numpy.typing import NDArray

from outrigger.base import tables
from outrigger.base.errors import TableError
from outrigger.base.tables import Row
from outrigger.proof.compared import HAIR, STATUSES, Compared, Source, half, number

DATA = Path(__file__).with_name("data")
_KEYS = ("source", "at", "status", "what", "how", "given", "printed")


@cache
def sources() -> dict[str, Source]:
    """Every source by the name that the rows have for it."""
    with (DATA / "sources.csv").open(encoding="utf-8", newline="") as file:
        return {row["name"]: Source(**row) for row in csv.DictReader(file)}


def source(name: str, where: str) -> Source:
    """The source of a row.

    Raises:
        TableError: no such source is named.
    """
    found = sources().get(name)
    if found is None:
        raise TableError(f"{where}: no source {name!r} in sources.csv.")
    return found


def rows(name: str) -> list[Row]:
    """The rows of a data file.

    Raises:
        TableError: no such file, its header lacks a line, or a row's status is not legal.
    """
    return list(tables.read(DATA / f"{name}.csv", STATUSES).rows)


def column(listed: Sequence[Row], name: str) -> NDArray[np.float64]:
    """A column as numbers, feet and inches as inches; a blank cell is NaN."""
    return np.array([number(row[name] or "nan") for row in listed])


class Example(Struct, frozen=True):
    """A worked example: what is given, in the source's units; what it prints, by name and unit."""

    source: str
    at: str
    status: str
    what: str
    how: str
    given: Mapping[str, Any]
    printed: Mapping[str, str]
    allow: Mapping[str, Sequence[Any]] = field(default_factory=dict)
    differs: Mapping[str, str] = field(default_factory=dict)


def examples(name: str) -> list[Example]:
    """The worked examples of a data file.

    Raises:
        TableError: a key is missing or not known, or a status is not legal.
    """
    raw = tomllib.loads((DATA / f"{name}.toml").read_text(encoding="utf-8"))["example"]
    found = []
    for count, one in enumerate(raw, 1):
        where = f"{name}.toml, example {count}"
        missing = [key for key in _KEYS if key not in one]
        more = set(one) - {*_KEYS, "allow", "differs"}
        if missing or more:
            raise TableError(f"{where}: {'no ' + missing[0] if missing else sorted(more)[0]}.")
        if one["status"] not in STATUSES:
            allowed = ", ".join(STATUSES)
            raise TableError(f"{where}: status {one['status']!r}. Allowed: {allowed}.")
        found.append(Example(**one))
    return found


def compared(
    group: str,
    row: Mapping[str, str],
    what: str,
    here: Any,
    *,
    unit: str = "",
    printed: str | None = None,
    status: str | None = None,
    allow: float | None = None,
    why: str = "",
) -> Compared:
    """A row of a data file beside the program's number.

    `printed`, `status`: where the row's `value` and `status` are not the ones; `allow`: half of
    `round_to` or of the last digit, unless it is more, and `why`.
    """
    text = row["value"] if printed is None else printed
    rounded = row.get("round_to")
    if allow is None:
        allow = float(rounded) / 2 + HAIR if rounded else half(text)
    return Compared(
        group=group,
        source=source(row["source"], f"{group}, {row['at']}"),
        at=row["at"],
        what=what,
        printed=text,
        value=number(text),
        here=float(np.asarray(here).item()),
        unit=unit,
        status=row["status"] if status is None else status,
        allowed=float(allow),
        why=why,
        differs=row.get("differs") or "",
    )


def worked(group: str, example: Example, found: Mapping[str, Any]) -> list[Compared]:
    """What an example prints beside what was found under the same names.

    Raises:
        TableError: it prints what was not worked.
    """
    listed = []
    for name, text in example.printed.items():
        if name not in found:
            raise TableError(f"{example.source}, {example.at}: {name!r} is not worked.")
        allowed, why = example.allow.get(name, (half(text), ""))
        said, _, unit = name.partition(", ")
        listed.append(
            Compared(
                group=group,
                source=source(example.source, f"{group}, {example.at}"),
                at=example.at,
                what=said,
                of=example.what,
                printed=text,
                value=number(text),
                here=float(np.asarray(found[name]).item()),
                unit=unit,
                status=example.status,
                allowed=float(allowed),
                why=why,
                differs=example.differs.get(name, ""),
            )
        )
    return listed
