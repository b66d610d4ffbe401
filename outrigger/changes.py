"""What changed between two cases, in input and in results."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from outrigger.design import Design, Row


@dataclass(frozen=True)
class Changed:
    """One line of what changed: a key and its text before and now; empty where it is not there."""

    key: str
    before: str
    now: str


@dataclass(frozen=True)
class CheckChanged:
    """A check before and now; None where one of the cases has no such check."""

    before: Row | None
    now: Row | None


@dataclass(frozen=True)
class Changes:
    """What changed since an earlier case: its revision and verdict, input, checks."""

    revision: str
    verdict: str
    input: tuple[Changed, ...]
    checks: tuple[CheckChanged, ...]


def since(
    earlier: Design, raw_earlier: Mapping[str, Any], now: Design, raw: Mapping[str, Any]
) -> Changes:
    """The changes from one case to another; raw: the tables of their files, as written."""
    before, after = dict(flat(raw_earlier)), dict(flat(raw))
    keys = dict.fromkeys((*before, *after))
    texts = tuple(
        Changed(key, before.get(key, ""), after.get(key, ""))
        for key in keys
        if before.get(key) != after.get(key)
    )
    old = {_name(row): row for row in earlier.rows()}
    new = {_name(row): row for row in now.rows()}
    checks = tuple(
        CheckChanged(old.get(name), new.get(name))
        for name in dict.fromkeys((*old, *new))
        if _facts(old.get(name)) != _facts(new.get(name))
    )
    return Changes(earlier.case.project.revision, earlier.verdict(), texts, checks)


def _name(row: Row) -> tuple[str, str, str]:
    return row.check.id, row.check.place, row.check.link


def _facts(row: Row | None) -> object:
    return None if row is None else (row.status, row.demand, row.capacity, row.combination_text)


def flat(raw: Any, path: str = "") -> Iterator[tuple[str, str]]:
    """Every key of a file's tables with its value as text: "hold_down[back].count", "2".

    A table of a list is named by its place, where it has one.
    """
    if isinstance(raw, Mapping):
        for key, value in raw.items():
            yield from flat(value, f"{path}.{key}" if path else str(key))
    elif isinstance(raw, list) and raw and all(isinstance(one, Mapping) for one in raw):
        for number, one in enumerate(raw, 1):
            yield from flat(one, f"{path}[{one.get('at', number)}]")
    else:
        yield path, as_written(raw)


def as_written(value: Any) -> str:
    """A value of a file for people: text without its quotes, true and false, lists with commas."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return ", ".join(map(as_written, value)) or "none"
    return str(value)
