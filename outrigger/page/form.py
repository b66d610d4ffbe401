"""The form: groups of fields, each a key of the case file; what is typed, read in its words."""

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from outrigger.base import quantity
from outrigger.base.errors import InputError
from outrigger.cases.filled import filled, stated
from outrigger.cases.one_snow import SNOWS
from outrigger.cases.read import parse
from outrigger.cases.settings import apply_all, saved_text

Given = Mapping[str, Any]
BY_HAND = "stands in the file; change it there"
TABLE = "as stated below"  # of a key that is "none" or a table: its keys are fields of their own


@dataclass(frozen=True)
class Field:
    """One key: what it is called, what it is, the unit of a bare number, the words it may have
    (as typed, as said), words to offer, how it is read. No reader: it is only shown."""

    key: str
    label: str
    about: str
    read: Callable[[str, Given], dict[str, Any]] | None
    unit: str = ""
    options: tuple[tuple[str, str], ...] = ()
    offers: str = ""

    @property
    def id(self) -> str:
        """Its name in the page."""
        return "f-" + "".join(c if c.isalnum() else "-" for c in self.key)


@dataclass(frozen=True)
class Link:
    """Where a field is found, and what it is called there."""

    id: str
    name: str


Links = Mapping[str, Link]


@dataclass(frozen=True)
class Group:
    """Fields that are asked together: whose they are, where the answer is found, and whether they
    are asked, by what is given."""

    title: str
    where: str
    who: str
    fields: tuple[Field, ...]
    only: Callable[[Given], bool] = lambda given: True


@dataclass(frozen=True)
class Form:
    """The questions of a case, and the rest of its keys, by table; words to offer by list."""

    asked: tuple[Group, ...]
    rest: tuple[Group, ...]
    offers: Mapping[str, Sequence[str]]

    @cached_property
    def fields(self) -> list[Field]:
        """Every field."""
        return [field for group in (*self.asked, *self.rest) for field in group.fields]

    @cached_property
    def by_key(self) -> dict[str, Field]:
        """Every field, by its key."""
        return {field.key: field for field in self.fields}

    @cached_property
    def links(self) -> "Links":
        """Where each key is found in the page."""
        return {
            field.key: Link(field.id, f"{group.title}: {field.label}")
            for group in (*self.asked, *self.rest)
            for field in group.fields
        }


def shown(value: Any) -> str:
    """A value as a field shows it, and as it may be typed."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        if any(isinstance(one, dict) for one in value):
            return BY_HAND
        return ", ".join(map(str, value)) or quantity.NONE
    return str(value)


def places_of(text: str) -> list[str]:
    """The places of the clips, in the order of the file, as the keys of fields name them."""
    entries = parse(text, "").get("hold_down")
    listed = entries if isinstance(entries, list) else []
    return [str(one.get("at", "")).strip().lower() for one in listed if isinstance(one, dict)]


def values_of(form: Form, text: str) -> dict[str, str]:
    """What every field shows of a file; a field that it does not state is not there."""
    given = stated(text)
    found = {field.key: shown(given[field.key]) for field in form.fields if field.key in given}
    tables = {key.rpartition(".")[0] for key in given}
    for field in form.fields:
        if field.key in tables and (TABLE, TABLE) in field.options:
            found[field.key] = TABLE
    return found


def hidden(form: Form, text: str) -> list[int]:
    """The groups that are not asked, by their place, and of which the file states nothing."""
    given = stated(text)
    return [
        i
        for i, group in enumerate(form.asked)
        if not group.only(given) and not any(field.key in given for field in group.fields)
    ]


@dataclass(frozen=True)
class Taken:
    """A file's text with answers in it; what was refused, by key, and why; what moved with them."""

    text: str
    refused: dict[str, str]
    told: list[str]


def taken(form: Form, text: str, typed: Mapping[str, str]) -> Taken:
    """The text of a file with what was typed in its fields, by key; nothing typed takes a key out.

    Raises:
        InputError: a key that is no field.
    """
    refused, told, given = dict[str, str](), list[str](), stated(text)
    for key, piece in typed.items():
        field = form.by_key.get(key)
        if field is None or field.read is None:
            raise InputError(f"{key}: no field of this page. Load it again.")
        try:
            values = field.read(piece.strip(), given) if piece.strip() else {key: None}
            if key in SNOWS and key in given and values[key] is not None:
                text, said = _one_snow(text, key, values[key])
                told += said
            else:
                text = filled(text, values)
            given = stated(text)
        except InputError as error:
            refused[key] = str(error)
    return Taken(text, refused, told)


def _one_snow(text: str, key: str, value: Any) -> tuple[str, list[str]]:
    """Another snow, and every snow of the site that moves with it, as a setting has it."""
    tables = parse(text, "")
    overrides = apply_all(tables, [f"{key}={json.dumps(value)}"])
    return saved_text(text, overrides, tables), [one.text for one in overrides if one.too]
