"""What every table of a case file has in common."""

from collections.abc import Mapping
from typing import Any, Self

from pydantic import BaseModel, ConfigDict

from outrigger.cases.kinds import range_of


class Section(BaseModel):
    """A table of the case file: unknown keys are errors; frozen."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, arbitrary_types_allowed=True, defer_build=True
    )

    def model_copy(self, *, update: Mapping[str, Any] | None = None, deep: bool = False) -> Self:
        """The same table with other values, in lb and in; numbers are held to their range.

        Raises:
            InputError: a number outside the range of its key.
        """
        for key, value in (update or {}).items():
            found = range_of(type(self), key)
            if found is not None and isinstance(value, (int, float)):
                found.check(key, value)
        return super().model_copy(update=update, deep=deep)
