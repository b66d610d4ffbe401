"""The form: groups of fields, each a key of the case file."""

from collections.abc import Callable, Mapping, Sequence
from functools import cached_property
from typing import Any

from msgspec import Struct

from outrigger.base import quantity

Given = Mapping[str, Any]
BY_HAND = "stands in the file; change it there"
TABLE = "as stated below"  # of a key that is "none" or a table: its keys are fields of their own


class Field(Struct, frozen=True):
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


class Link(Struct, frozen=True):
    """Where a field is found, and what it is called there."""

    id: str
    name: str


Links = Mapping[str, Link]


class Group(Struct, frozen=True):
    """Fields that are asked together: whose they are, where the answer is found, and whether they
    are asked, by what is given."""

    title: str
    where: str
    who: str
    fields: tuple[Field, ...]
    only: Callable[[Given], bool] = lambda given: True


class Form(Struct, frozen=True, dict=True):
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
