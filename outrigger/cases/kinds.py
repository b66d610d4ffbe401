"""What a key of the case file says of its number: the kind of quantity, and a load's level."""

import math
from collections.abc import Iterator
from functools import cache
from typing import Any, Literal, get_args, get_origin

import numpy as np
from msgspec import Struct
from numpy.typing import ArrayLike
from pydantic import BaseModel

from outrigger.base import quantity
from outrigger.base.errors import InputError


class Written(Struct, frozen=True):
    """How a key writes its quantity: of which kind, and whether it may be "none"."""

    kind: quantity.Kind
    none: bool = True

    def __get_pydantic_json_schema__(self, core: object, handler: object) -> dict[str, Any]:
        """Text to pydantic; `schema` says with which unit."""
        return {"type": "string"}


class Form(Struct, frozen=True):
    """How a key writes a number that is no quantity, or a length that may be a word."""

    form: Literal["pitch", "limit", "length or word"]


class Range(Struct, frozen=True):
    """The numbers, in lb and in, that a key may hold; `above`: more than `low`, never equal to it.

    The sizes that catch feet written for inches belong to what is typed: no sweep is held to them.
    """

    low: float = 0.0
    high: float = math.inf
    above: bool = False

    @property
    def words(self) -> str:
        """What is allowed."""
        if self.high < math.inf:
            return f"must lie between {self.low:g} and {self.high:g}"
        return f"must be {'more than' if self.above else 'no less than'} {self.low:g}"

    def check(self, path: str, values: ArrayLike) -> None:
        """Refuse numbers outside the range.

        Raises:
            InputError: the path, the first such number, and what is allowed.
        """
        numbers = np.asarray(values, dtype=float).reshape(-1)
        low = numbers > self.low if self.above else numbers >= self.low
        wrong = numbers[~(low & (numbers <= self.high) & np.isfinite(numbers))]
        if len(wrong):
            raise InputError(f"{path} = {wrong[0]:g}: {self.words}, a finite number in lb and in.")


LoadLevel = Literal["service", "strength"]


class Level(Struct, frozen=True):
    """The level at which a key states its load, by the edition of ASCE 7."""

    of_7_16: LoadLevel
    of_7_22: LoadLevel

    def of(self, edition: str) -> LoadLevel:
        """The level in one edition."""
        return self.of_7_22 if edition == "ASCE 7-22" else self.of_7_16


SERVICE = Level("service", "service")
STRENGTH = Level("strength", "strength")
SNOW_LEVEL = Level("service", "strength")  # ground snow of 7-22 is at strength level


def table_in(annotation: Any) -> Any:
    """The table inside a type, of `RoofLine | None`, `list[Opening]`; None: there is none."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    found = (table_in(one) for one in get_args(annotation) if get_origin(annotation) is not Literal)
    return next((one for one in found if one is not None), None)


@cache
def _marks(table: type[BaseModel], key: str) -> tuple[object, ...]:
    """What the type of a key says of it."""
    field = table.model_fields[key]
    return (*field.metadata, *_said_by(field.annotation))


def _said_by(annotation: object) -> Iterator[object]:
    """What stands beside the types inside one: of `Length | None` what is said of Length."""
    yield from getattr(annotation, "__metadata__", ())
    for inside in get_args(annotation):
        yield from _said_by(inside)


def written_of(table: type[BaseModel], key: str) -> Written | None:
    """How a key of a table writes its quantity, or None."""
    return next((one for one in _marks(table, key) if isinstance(one, Written)), None)


def kind_of(table: type[BaseModel], key: str) -> quantity.Kind | None:
    """The kind of quantity that a key of a table holds, or None."""
    written = written_of(table, key)
    return written.kind if written else None


def form_of(table: type[BaseModel], key: str) -> str | None:
    """The form in which a key of a table writes its number, or None."""
    return next((one.form for one in _marks(table, key) if isinstance(one, Form)), None)


def range_of(table: type[BaseModel], key: str) -> Range | None:
    """The range of a key of a table that holds one number; None: it holds something else."""
    annotation = table.model_fields[key].annotation
    if list in (get_origin(one) for one in (annotation, *get_args(annotation))):
        return None
    marks = _marks(table, key)
    for one in marks:
        if isinstance(one, Range):
            return one
    written = next((one for one in marks if isinstance(one, Written)), None)
    return None if written is None else Range(above=not written.none)


def level_of(table: type[BaseModel], key: str, edition: str) -> LoadLevel | None:
    """The level at which a key of a table states its load; None: it states none."""
    found = (one.of(edition) for one in _marks(table, key) if isinstance(one, Level))
    return next(found, None)
