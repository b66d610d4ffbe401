"""The results that travel in a summary's PDF, held against its own case computed again."""

from collections.abc import Iterator, Mapping
from typing import Any

from outrigger.base.errors import InputError
from outrigger.base.plain import one_line
from outrigger.formula.text import show
from outrigger.report import words
from outrigger.report.data import check as data
from outrigger.verdict.design import Design

LEAST_DIFFERENCE = 1e-9  # of a number; less is the last bits of another machine
MOST_SHOWN = 20
LONGEST = 60  # letters of a value that is shown


def compared(name: str, before: Mapping[str, Any], result: Design) -> tuple[bool, str]:
    """Whether the results that a PDF carries are those of a design, and what differs, in words. The
    pages are not read: the reader compares their digest.

    Raises:
        InputError: results that no check wrote.
    """
    sample = result.case.project.invented or bool(before.get("sample"))
    now = data.as_data(result, sample)
    try:
        old, new = _flat(before), _flat(now)
    except RecursionError:
        raise InputError(f"{name}: the results in it are none of a check.") from None
    lines = [f"{name}: case {words.digest(str(now['digest']))}"]
    version = old.pop("program.version", ""), new.pop("program.version", "")
    if version[0] != version[1]:
        lines.append(f"made by version {_text(version[0])}, computed again by {version[1]}")
    other = [key for key in {**old, **new} if not _alike(old.get(key), new.get(key))]
    verdict = f"{str(now['verdict']).upper()}."
    verdict = words.of_sample(verdict) if sample else verdict
    if other:
        lines.append(
            f"Differs: the case inside does not give the results inside, {len(other)} of "
            f"{len(new)} values. Verdict now: {verdict}"
        )
        lines += [
            f"  {one_line(key)}: was {_text(old.get(key))}, is {_text(new.get(key))}"
            for key in other[:MOST_SHOWN]
        ]
        if len(other) > MOST_SHOWN:
            lines.append(f"  and {len(other) - MOST_SHOWN} more")
    else:
        lines.append(
            f"Same: the case inside gives the results inside, all {len(new)} values. {verdict}"
        )
    lines.append(
        "The pages are not read: compare the case above with the one at the foot of each page."
    )
    return not other, "\n".join(lines)


def _flat(value: Any) -> dict[str, Any]:
    """Every value by the path to it; two of one path are told apart."""
    found: dict[str, Any] = {}
    for path, one in _paths(value):
        name, times = path, 1
        while name in found:
            times += 1
            name = f"{path} #{times}"
        found[name] = one
    return found


def _paths(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    if isinstance(value, Mapping):
        for key, one in value.items():
            yield from _paths(one, f"{path}.{key}" if path else str(key))
    elif isinstance(value, list):
        for number, one in enumerate(value):
            yield from _paths(one, f"{path}[{_name(one, number)}]")
    else:
        yield path, value


def _name(one: Any, number: int) -> str:
    """How a row of a list is named: by what it is, where it says so."""
    if isinstance(one, Mapping) and "id" in one:
        return ", ".join(str(one[k]) for k in ("id", "place", "link") if one.get(k))
    return str(number)


def _alike(one: Any, other: Any) -> bool:
    if isinstance(one, bool) or isinstance(other, bool):
        return one is other
    numbers = (int, float)
    if isinstance(one, numbers) and isinstance(other, numbers):
        return abs(one - other) <= LEAST_DIFFERENCE * max(1.0, abs(one), abs(other))
    return bool(one == other)


def _text(value: Any) -> str:
    if isinstance(value, float):
        return show(value)
    return "not there" if value is None else words.shortened(one_line(str(value)), LONGEST)
