"""What the whole proof counts, recorded, for pages that cannot wait for it. A test compares."""

import tomllib
from functools import cache

from msgspec import Struct

from outrigger.proof.read import DATA

FILE = DATA / "count.toml"


class Count(Struct, frozen=True):
    """Published values that are reproduced, of how many sources."""

    values: int
    sources: int


@cache
def recorded() -> Count:
    """The count of the data that lie beside it."""
    return Count(**tomllib.loads(FILE.read_text(encoding="utf-8")))
