"""A case written out: changed beside its base, saying only what differs; or whole, in one file."""

import os
import tomllib
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from outrigger.base.errors import InputError
from outrigger.cases.base import merged, of_the_old
from outrigger.cases.names import BASE_KEY, table_and_key
from outrigger.cases.read import CaseFile
from outrigger.cases.settings import ALIKE, Override, stands_at


def saved(
    file: CaseFile, overrides: Sequence[Override], tables: Mapping[str, Any], to: Path
) -> str:
    """The text of a case with settings put over it, as the new file `to`: its comments kept and,
    where it stands on a base, only what differs from that.

    Raises:
        InputError: the file is spelled in a way that the settings do not fit into.
    """
    if file.base is None:
        return saved_text(file.text, overrides, tables)
    import tomlkit

    base = file.base.tables()
    document: Any = tomlkit.parse(file.text if file.text.endswith("\n") else f"{file.text}\n")
    if not _same_folder(file.path, to):
        document[BASE_KEY] = _from(file.base.path, to)
    try:
        for _ in range(2):  # a value stated anew leaves the base's source behind
            _put(document, merged(base, document.unwrap()), base, tables)
        text = tomlkit.dumps(document)
        own = tomllib.loads(text)
        same = merged(base, own) == tables and not of_the_old(base, own, "")
    except (ValueError, LookupError, TypeError, AttributeError):  # tomlkit's, on rare spellings
        same = False
    if not same:
        keys = ", ".join(one.key for one in overrides)
        raise InputError(
            f"{keys}: cannot be written into {file.path.name} beside its base, "
            f"{file.base.path.name}, as these are spelled. Write it in by hand."
        )
    return text


def whole(file: CaseFile, overrides: Sequence[Override], tables: Mapping[str, Any]) -> str:
    """The text of a case with settings put over it, in one file that needs no other.

    Raises:
        InputError: as `saved`.
    """
    if file.base is None:
        return saved_text(file.text, overrides, tables)
    import tomlkit

    return f"# {file.path.name} and its base, {file.base.path.name}, in one\n\n" + tomlkit.dumps(
        tables
    )


def saved_text(text: str, overrides: Sequence[Override], tables: Mapping[str, Any]) -> str:
    """The text of a case file with overrides written into it, its comments kept; read again it has
    those `tables`.

    Raises:
        InputError: it would not; the file is written in a way that the overrides do not fit into.
    """
    if not overrides:
        return text
    try:
        saved = _written_into(text, overrides)
        same = tomllib.loads(saved) == tables
    except (ValueError, LookupError, TypeError, AttributeError):  # tomlkit's, on rare spellings
        same = False
    if not same:
        keys = ", ".join(override.key for override in overrides)
        raise InputError(
            f"{keys}: cannot be written into this file as it is spelled. Write it in by hand, or "
            "give each table its own line, [garage_roof] say."
        )
    return saved


def _written_into(text: str, overrides: Sequence[Override]) -> str:
    import tomlkit

    document: Any = tomlkit.parse(text if text.endswith("\n") else f"{text}\n")
    for override in (one for stated in overrides for one in (stated, *stated.too)):
        first, rest = table_and_key(override.key)
        *path, field = [first, *rest.split(".")]
        if (alike := ALIKE.fullmatch(override.key)) is not None:
            entries = document["hold_down"]
            like = next(e for e in entries if stands_at(document, e, override.value))
            entries.append({**like.unwrap(), "at": alike[1]})
            continue
        if path[0].startswith("hold_down["):
            place = path[0].removeprefix("hold_down[").removesuffix("]")
            table = next(e for e in document["hold_down"] if stands_at(document, e, place))
        else:
            table = document
            for step in path:
                if step not in table:
                    own_line = table is document
                    table[step] = tomlkit.table() if own_line else tomlkit.inline_table()
                table = table[step]
        table[field] = _item(override.value)
    return tomlkit.dumps(document)


def _item(value: Any) -> Any:
    """A value as it is written on one line."""
    import tomlkit

    if isinstance(value, dict):
        table = tomlkit.inline_table()
        table.update({key: _item(one) for key, one in value.items()})
        return table
    return value


def _put(
    document: Any, now: Mapping[str, Any], base: Mapping[str, Any], wanted: Mapping[str, Any]
) -> None:
    """Write into a document what it does not say yet; now: what it says on its base."""
    import tomlkit

    top = isinstance(document, tomlkit.TOMLDocument)
    for key, value in wanted.items():
        before, below = now.get(key), base.get(key)
        if before == value:
            continue
        if isinstance(value, Mapping) and isinstance(before or {}, Mapping):
            if key not in document:
                document[key] = tomlkit.table() if top else tomlkit.inline_table()
            _put(document[key], before or {}, below if isinstance(below, Mapping) else {}, value)
        elif key in document and _alike_lists(before, value):
            for entry, was, one in zip(document[key], before or (), value, strict=True):
                _put(entry, was, {}, one)
        else:
            document[key] = value


def _alike_lists(one: Any, other: Any) -> bool:
    """Whether both are lists of as many tables."""
    both = isinstance(one, list) and isinstance(other, list) and len(one) == len(other)
    return both and all(isinstance(entry, Mapping) for entry in (*one, *other))


def _same_folder(one: Path, other: Path) -> bool:
    return one.parent.resolve() == other.parent.resolve()


def _from(base: Path, to: Path) -> str:
    """The way to a base from the folder of another file."""
    try:
        return Path(os.path.relpath(base.resolve(), to.parent.resolve())).as_posix()
    except ValueError:  # on another drive
        return base.resolve().as_posix()
