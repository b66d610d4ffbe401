"""A case file filled in key by key: its comments kept, a blank line of the starter filled in."""

import re
import tomllib
from collections.abc import Mapping
from typing import Any

from outrigger.base.errors import InputError
from outrigger.cases.names import table_and_key
from outrigger.cases.sections import OPTIONAL

_HEADER = re.compile(r"\s*(#\s*)?\[+\s*([\w.]+)\s*\]+\s*(?:#.*)?$")
_HOLD = re.compile(r"hold_down\[([^\[\]]+)\]")
_ENTRY = re.compile(r"(\w+)\[(\d+)\]")  # of a list of tables
_VALUE = r"""(?:"(?:[^"\\]|\\.)*"|'[^']*'|[^#"'])*"""


def stated(text: str) -> dict[str, Any]:
    """What a file states by path: gap.width, snow.drift.on, hold_down[back].count."""
    return stated_in(tomllib.loads(text))


def stated_in(tables: Mapping[str, Any]) -> dict[str, Any]:
    """What the tables of a file state, by path."""
    found: dict[str, Any] = {}
    for name, table in tables.items():
        if name == "hold_down" and isinstance(table, list):
            for entry in table:
                if isinstance(entry, dict):
                    place = str(entry.get("at", "")).strip().lower()
                    found |= _flat(f"hold_down[{place}]", entry)
        else:
            found |= _flat(name, table)
    return found


def _flat(path: str, value: Any) -> dict[str, Any]:
    if value and isinstance(value, list) and all(isinstance(one, dict) for one in value):
        value = {f"[{i}]": one for i, one in enumerate(value)}
        return {k.replace(".[", "[", 1): v for k, v in _flat(path, value).items()}
    if not isinstance(value, dict):
        return {path: value}
    found: dict[str, Any] = {}
    for key, inner in value.items():
        found |= _flat(f"{path}.{key}", inner)
    return found


def filled(text: str, values: Mapping[str, Any]) -> str:
    """The text with values by path written into it; None takes a key out.

    Raises:
        InputError: the file is spelled in a way that they do not fit into.
    """
    for path, value in values.items():
        wanted = tomllib.loads(text)
        key, whole = _set(wanted, path, value)
        if key is None:
            continue
        written = _in_place(text, key, whole)
        if written is None or not _says(written, wanted):
            written = _by_document(text, key, whole)
        if not _says(written, wanted):
            raise InputError(
                f"{path}: cannot be written into this file as it is spelled. Write it in by hand."
            )
        text = written if value is not None else _without_empty_table(written, path)
    return text


def _without_empty_table(text: str, path: str) -> str:
    """The text with the header of a path's table made a remark, where that may be left out and
    nothing is left in it: a table that says nothing would still ask for what it needs."""
    section = table_and_key(path)[0]
    tables = tomllib.loads(text)
    if section not in OPTIONAL or tables.pop(section, None) != {}:
        return text
    found = re.sub(rf"(?m)^([ \t]*\[[ \t]*{section}[ \t]*\])", r"# \1", text, count=1)
    try:
        return found if tomllib.loads(found) == tables else text
    except ValueError:
        return text


def _says(text: str, tables: Mapping[str, Any]) -> bool:
    try:
        return _without_empty(tomllib.loads(text)) == _without_empty(tables)
    except ValueError:
        return False


def _without_empty(tables: Mapping[str, Any]) -> dict[str, Any]:
    return {name: table for name, table in tables.items() if table not in ({}, [])}


def _set(tables: dict[str, Any], path: str, value: Any) -> tuple[str | None, Any]:
    """Put a value into a file's tables; the key of two words that holds it, and what it holds then.
    No key: there was none to take out."""
    section, rest = table_and_key(path)
    key, _, inner = rest.partition(".")
    if hold := _HOLD.fullmatch(section):
        entries = tables.setdefault("hold_down", [])
        if not isinstance(entries, list) or not all(isinstance(one, dict) for one in entries):
            raise InputError(
                "[[hold_down]] is no list of tables in this file. Put that right first."
            )
        places = {str(e.get("at", "")).strip().lower(): e for e in entries}
        if hold[1] not in places and value is None:
            return None, None
        if hold[1] not in places:
            entries.append(places.setdefault(hold[1], {"at": hold[1]}))
        table = places[hold[1]]
    else:
        table = tables.setdefault(section, {})
    if not isinstance(table, dict):
        raise InputError(f"{section} is no table in this file. Put that right first.")
    if entry := _ENTRY.fullmatch(key):
        return _set_entry(table, section, entry[1], int(entry[2]), {inner: value})
    if inner:
        old = table.get(key)
        if value is None and not isinstance(old, dict):
            return None, None
        value = {**(old if isinstance(old, dict) else {}), inner: value}
        value = {name: one for name, one in value.items() if one is not None} or None
    if value is None and hold and set(table) == {"at", key}:
        tables["hold_down"].remove(table)  # nothing more is said of this place
        return section, None
    if value is None:
        return (f"{section}.{key}", None) if table.pop(key, None) is not None else (None, None)
    table[key] = value
    return f"{section}.{key}", value


def _set_entry(
    table: dict[str, Any], section: str, name: str, i: int, values: Mapping[str, Any]
) -> tuple[str | None, Any]:
    """Put values into one table of a list, layout.openings[0] say; as `_set`."""
    path, entries = f"{section}.{name}", table.get(name, [])
    if not isinstance(entries, list) or not all(isinstance(one, dict) for one in entries):
        raise InputError(f"{path} is no list of tables in this file. Put that right first.")
    gone = all(value is None for value in values.values())
    if i >= len(entries) and gone:
        return None, None
    if i > len(entries):
        raise InputError("fill in the one before it first.")
    entries = [dict(one) for one in entries] + ([{}] if i == len(entries) else [])
    now = {**entries[i], **values}
    entries[i] = {key: value for key, value in now.items() if value is not None}
    entries = [one for one in entries if one]
    table[name] = entries
    if not entries:
        del table[name]
    return path, entries or None


def _in_place(text: str, path: str, value: Any) -> str | None:
    """The text with the line of a key, blank or not, written anew; None: it has no such line."""
    section, key = table_and_key(path)
    if not key:
        return None
    if (hold := _HOLD.fullmatch(section)) and f"{section}.at" not in stated(text):
        line = _line(key, value, "")
        return f'{text.rstrip()}\n\n[[hold_down]]\nat = "{hold[1]}"\n{line}\n'
    lines, here = text.splitlines(), ""
    for i, line in enumerate(lines):
        if header := _HEADER.fullmatch(line):
            here = "" if header[1] else header[2]
        elif here == section and (
            found := re.fullmatch(rf"(?:#\s?)?{key}\s*={_VALUE}(?:#\s*(.*))?", line)
        ):
            lines[i] = _line(key, value, found[1] or "")
            return "\n".join(lines) + "\n"
    return None


def _line(key: str, value: Any, remark: str) -> str:
    """A line of a key. The example in its remark goes: beside a value it would read as another."""
    if value is None:
        return f"# {key} =   # {remark}".rstrip(" #")
    remark = re.sub(r"(?:^|[;.]? )[Ss]ay [\"\d].*$", "", remark.removeprefix("needed. ")).strip()
    return f"{key} = {_toml(value).as_string()}" + (f"   # {remark}" if remark else "")


def _by_document(text: str, path: str, value: Any) -> str:
    import tomlkit

    section, key = table_and_key(path)
    try:
        document: Any = tomlkit.parse(text if text.endswith("\n") else f"{text}\n")
        if hold := _HOLD.fullmatch(section):
            entries = document["hold_down"]
            table = next(e for e in entries if str(e["at"]).strip().lower() == hold[1])
        else:
            if section not in document:
                document[section] = tomlkit.table()
            table = document[section]
        if not key:
            del entries[[e["at"] for e in entries].index(table["at"])]
        elif value is None:
            del table[key]
        else:
            table[key] = _toml(value)
        return tomlkit.dumps(document)
    except (ValueError, LookupError, TypeError, AttributeError, StopIteration):  # rare spellings
        return ""


def _toml(value: Any) -> Any:
    """A value as it is written on one line."""
    import tomlkit

    if isinstance(value, dict):
        table = tomlkit.inline_table()
        table.update(value)
        return table
    if isinstance(value, list) and any(isinstance(one, dict) for one in value):
        array = tomlkit.array()
        array.extend(_toml(one) for one in value)
        return array
    return tomlkit.item(value)
