"""What a key of the case file says of its number: the kind of quantity, and a load's level."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal, get_args

from pydantic import BaseModel

from outrigger.base import quantity


@dataclass(frozen=True)
class Written:
    """How a key writes its quantity: of which kind, and whether it may be "none"."""

    kind: quantity.Kind
    none: bool = True

    def __get_pydantic_json_schema__(self, core: object, handler: object) -> dict[str, Any]:
        """The quantity in the JSON Schema: a text with its unit."""
        examples = [quantity.EXAMPLES[self.kind]] + ([quantity.NONE] if self.none else [])
        return {"type": "string", "description": self.kind, "examples": examples}


LoadLevel = Literal["service", "strength"]


@dataclass(frozen=True)
class Level:
    """The level at which a key states its load, by the edition of ASCE 7."""

    of_7_16: LoadLevel
    of_7_22: LoadLevel

    def of(self, edition: str) -> LoadLevel:
        """The level in one edition."""
        return self.of_7_22 if edition == "ASCE 7-22" else self.of_7_16


SERVICE = Level("service", "service")
STRENGTH = Level("strength", "strength")
SNOW_LEVEL = Level("service", "strength")  # ground snow of 7-22 is at strength level


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


def kind_of(table: type[BaseModel], key: str) -> quantity.Kind | None:
    """The kind of quantity that a key of a table holds, or None."""
    return next((one.kind for one in _marks(table, key) if isinstance(one, Written)), None)


def level_of(table: type[BaseModel], key: str, edition: str) -> LoadLevel | None:
    """The level at which a key of a table states its load; None: it states none."""
    found = (one.of(edition) for one in _marks(table, key) if isinstance(one, Level))
    return next(found, None)
