"""How a file as the page has it stands beside the disk: stamps, what differs, who shares a base."""

import hashlib
import tomllib
from collections.abc import Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

from outrigger.base.errors import OutriggerError
from outrigger.cases.names import BASE_KEY
from outrigger.cases.read import read_text
from outrigger.cases.settings import Override
from outrigger.page.sheet import Sheet, at

ELSEWHERE = (
    "The file has been changed elsewhere since this page read it: Save does not write over that. "
    "Reload to see it; what you changed here is then gone, so note it first."
)
BASE_ELSEWHERE = (
    "{base} has been changed since this page read it. This answer is of it as it stands now."
)
MOST_LOOKED_AT = 200  # files of a folder


def stamped(own: str, sheet: Sheet | None) -> str:
    """What a file is known by: `own`, of its own text, and of its base where it has one."""
    base = "" if sheet is None else sheet.base_said
    return f"{own}.{hashlib.sha256(base.encode()).hexdigest()}" if base else own


def own_part(stamp: str) -> str:
    """Of a stamp, what is of the file's own text."""
    return stamp.partition(".")[0]


def told(sheet: Sheet, own: str, stamp: str) -> str:
    """What is said where the disk, whose file is known by `own`, or the base of a file is another
    than that of a stamp."""
    found = [ELSEWHERE] if own != own_part(stamp) else []
    before, now = stamp.partition(".")[2], stamped("", sheet).removeprefix(".")
    if before != now:
        found.append(BASE_ELSEWHERE.format(base=sheet.base_name or "The base"))
    return " ".join(found)


def differing(before: Mapping[str, Any], now: Mapping[str, Any]) -> list[Override]:
    """The keys in which two files differ."""
    return [
        Override(key, at(now, key), at(before, key))
        for key in dict.fromkeys((*_flat(now), *_flat(before)))
        if at(now, key) != at(before, key)
    ]


def _flat(tables: Mapping[str, Any]) -> list[str]:
    """The keys of a file, a table and a key each."""
    return [
        f"{name}.{key}" if isinstance(table, dict) else name
        for name, table in tables.items()
        for key in (table if isinstance(table, dict) else [""])
    ]


def as_ended(text: str, before: bytes) -> str:
    """A text with the line ends that most lines of a file have."""
    crlf = 2 * before.count(b"\r\n") > before.count(b"\n")
    return text.replace("\n", "\r\n") if crlf else text


def over(path: Path) -> tuple[str, ...]:
    """The case files of the same folder whose base a file is, by name."""
    return tuple(one.name for one in _over(path))


def _over(path: Path) -> Iterator[Path]:
    whole = path.resolve()
    for one in sorted(path.parent.glob("*.toml"))[:MOST_LOOKED_AT]:
        with suppress(OutriggerError, OSError, ValueError):  # such a file is looked at elsewhere
            text = read_text(one)
            base = tomllib.loads(text).get(BASE_KEY) if BASE_KEY in text else None
            if isinstance(base, str) and base and (one.parent / base).resolve() == whole:
                yield one
