"""What the whole proof counts, recorded, for pages that cannot wait for it. A test compares."""

import tomllib
from dataclasses import dataclass
from functools import cache

from outrigger.proof.read import DATA

FILE = DATA / "count.toml"


@dataclass(frozen=True)
class Count:
    """Published values that are reproduced, of how many sources."""

    values: int
    sources: int


@cache
def recorded() -> Count:
    """The count of the data that lie beside it."""
    return Count(**tomllib.loads(FILE.read_text(encoding="utf-8")))
