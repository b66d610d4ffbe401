"""A case file over another: `base = "job.toml"` lets several cases share loads, clips and rules.

The file's own keys win: table by table, a list of tables as a whole. A base stands on no other.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from outrigger.cases.names import BASE_KEY

SOURCE, RATED, RATED_SOURCE = "_source", "rated_", "rated_source"


def merged(base: Mapping[str, Any], own: Mapping[str, Any]) -> dict[str, Any]:
    """The tables of a file over those of its base. Where a value is stated anew, what the base says
    of its source goes: that source is of the other value."""
    found = {key: value for key, value in base.items() if not _of_another(key, own)}
    for key, value in own.items():
        below = base.get(key)
        if isinstance(below, Mapping) and isinstance(value, Mapping):
            value = merged(below, value)
        found[key] = value
    found.pop(BASE_KEY, None)
    return found


def _of_another(key: str, own: Mapping[str, Any]) -> bool:
    """Whether a key of the base is the source of what the file states anew."""
    if key in own:
        return False
    if key == RATED_SOURCE:
        return any(one.startswith(RATED) for one in own)
    return key.endswith(SOURCE) and key.removesuffix(SOURCE) in own


def kept_lines(
    lines: Mapping[str, int], base: Mapping[str, Any], own: Mapping[str, Any]
) -> dict[str, int]:
    """The lines of a base, by key, without those whose value the file over it replaces."""
    gone = [key for key in _replaced(base, own) if key]
    return {
        key: line
        for key, line in lines.items()
        if not any(key == one or key.startswith((f"{one}.", f"{one}[")) for one in gone)
    }


def _replaced(base: Mapping[str, Any], own: Mapping[str, Any], above: str = "") -> Iterator[str]:
    for key, value in own.items():
        if key not in base:
            continue
        if isinstance(value, Mapping) and isinstance(base[key], Mapping):
            yield from _replaced(base[key], value, f"{above}{key}.")
        else:
            yield f"{above}{key}"
