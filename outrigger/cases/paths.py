"""The keys of a case by their path, as a setting writes them: gap.width, hold_down[back].count."""

import re
from collections.abc import Mapping
from numbers import Real
from typing import Any

from outrigger.base import quantity
from outrigger.base.errors import InputError
from outrigger.cases.faults import shown
from outrigger.cases.hold_down import HoldDown
from outrigger.cases.kinds import Range, kind_of, range_of
from outrigger.cases.model import Case
from outrigger.cases.section import Section, read_key

_HOLD = re.compile(r"hold_down\[([^\]]+)\]\.(\w+)")


def number_at(case: Case, path: str) -> float | None:
    """The number of a path; None: not given.

    Raises:
        InputError: no such path.
    """
    table, key = _table_of(case, path)
    return None if table is None else getattr(table, key)


def range_at(case: Case, path: str) -> Range:
    """The numbers that a path may hold.

    Raises:
        InputError: no such path, or it holds no number.
    """
    table, key = _table_of(case, path)
    if table is None:
        raise InputError(f"{path}: the case has no {path.rpartition('.')[0]} to change.")
    found = range_of(type(table), key)
    if found is None:
        raise InputError(f"{path}: holds no number that a sweep can change.")
    return found


def read_value(case: Case, path: str, written: object) -> Any:
    """A value of a path as the model holds it, read from text as a file writes it ("7 in", "2x8");
    a length may be a number, in inches. Sizes that catch feet written for inches do not hold.

    Raises:
        InputError: no such path, or a value that it cannot hold.
    """
    table, key = _table_of(case, path)
    if table is None:
        raise InputError(f"{path}: the case has no {path.rpartition('.')[0]} to change.")
    found, kind = range_of(type(table), key), kind_of(type(table), key)
    if found is None or kind is None:
        return read_key(type(table), key, written, path)
    if kind == "length" and isinstance(written, Real) and not isinstance(written, bool):
        number = float(written)
    elif isinstance(written, str) and written.strip().lower() == quantity.NONE:
        number = 0.0
    else:
        try:
            number = quantity.read(written, kind)
        except InputError as error:
            raise InputError(f"{path} = {shown(written)}: {error}") from None
    found.check(path, number)
    return number


def with_numbers(case: Case, numbers: Mapping[str, float]) -> Case:
    """The case with other numbers, in lb and in, by path.

    Raises:
        InputError: no such path, or a number outside its range.
    """
    for path, number in numbers.items():
        range_at(case, path).check(path, number)
    return with_values(case, numbers)


def with_values(case: Case, values: Mapping[str, Any]) -> Case:
    """The case with other values by path, each as the model holds it: numbers in lb and in, names
    in full."""
    if not values:
        return case
    changes: dict[str, dict[str, Any]] = {}
    holds = list(case.hold_down)
    for path, value in values.items():
        if (found := _HOLD.fullmatch(path)) is not None:
            holds = [h.model_copy(update={found[2]: value}) if h.name == found[1] else h
                     for h in holds]  # fmt: skip
            continue
        section, _, key = path.partition(".")
        inner, _, last = key.rpartition(".")
        if inner:  # garage_roof.line.D
            part = changes.get(section, {}).get(inner, getattr(getattr(case, section), inner))
            key, value = inner, part.model_copy(update={last: value})
        changes.setdefault(section, {})[key] = value
    parts: dict[str, Any] = {
        name: getattr(case, name).model_copy(update=by) for name, by in changes.items()
    }
    return case.model_copy(update=parts | ({"hold_down": holds} if holds != case.hold_down else {}))


def _table_of(case: Case, path: str) -> tuple[Section | None, str]:
    """The table that holds the last key of a path, None where the case leaves it out; and the key.

    Raises:
        InputError: no such path.
    """
    table: Any = case
    if (found := _HOLD.fullmatch(path)) is not None:
        key = found[2]
        if key not in HoldDown.model_fields:
            raise InputError(f"{path}: no such field to sweep.")
        table = next((hold for hold in case.hold_down if hold.name == found[1]), None)
        if table is None:
            raise InputError(f"{path}: no such clip to sweep.")
        return table, key
    *tables, key = path.split(".")
    for name in tables:
        if not isinstance(table, Section) or name not in type(table).model_fields:
            raise InputError(f"{path}: no such field to sweep.")
        table = getattr(table, name)
        if table is None:
            return None, key
    if not tables or not isinstance(table, Section) or key not in type(table).model_fields:
        raise InputError(f"{path}: no such field to sweep.")
    return table, key
