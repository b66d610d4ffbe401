"""What every table of a case file has in common."""

from collections.abc import Mapping
from functools import cache
from numbers import Real
from typing import Annotated, Any, Self

from pydantic import BaseModel, ConfigDict, TypeAdapter, ValidationError

from outrigger.base.errors import InputError
from outrigger.base.plain import one_line
from outrigger.cases.faults import shown
from outrigger.cases.kinds import range_of

LONGEST = 60  # letters of a value that a fault names


class Section(BaseModel):
    """A table of the case file: unknown keys are errors; frozen."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, arbitrary_types_allowed=True, defer_build=True
    )

    def model_copy(self, *, update: Mapping[str, Any] | None = None, deep: bool = False) -> Self:
        """The same table with other values: a number in lb and in is held to its range, all else is
        read as a file writes it.

        Raises:
            InputError: no such key, or a value that it cannot hold.
        """
        held = {key: held_value(type(self), key, value) for key, value in (update or {}).items()}
        return super().model_copy(update=held, deep=deep)


def held_value(table: type[BaseModel], key: str, value: Any) -> Any:
    """A value of a key as the table holds it: a number in lb and in, or what a file writes.

    Raises:
        InputError: no such key, or a value that it cannot hold.
    """
    if key not in table.model_fields:
        raise InputError(f"{key}: no such key.")
    is_number = isinstance(value, Real) and not isinstance(value, bool)
    if is_number and (found := range_of(table, key)) is not None:
        found.check(key, float(value))
        return value
    if isinstance(value, (list, tuple)) and any(isinstance(one, Real) for one in value):
        return value  # places and lengths in inches
    return read_key(table, key, value, key)


def read_key(table: type[BaseModel], key: str, written: Any, said: str) -> Any:
    """What a file writes for a key, as the table holds it; `said`: the key as a fault names it.

    Raises:
        InputError: a value that it cannot hold.
    """
    try:
        return _reader(table, key).validate_python(written)
    except ValidationError as error:
        first = error.errors()[0]
        reason = first.get("ctx", {}).get("error", first["msg"])
        reason = str(reason).replace("Input should be", "must be")
        raise InputError(f"{said} = {one_line(shown(written))[:LONGEST]}: {reason}") from None


@cache
def _reader(table: type[BaseModel], key: str) -> TypeAdapter[Any]:
    """What reads the value of a key."""
    field = table.model_fields[key]
    annotated: Any = field.annotation
    for one in field.metadata:
        annotated = Annotated[annotated, one]
    return TypeAdapter(annotated)
