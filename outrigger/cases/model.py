"""The case: what the user states of one run of outriggers, read and validated.

However a case is built, the same faults refuse it, those that lie between its keys included.
"""

import hashlib
import json
from collections.abc import Mapping
from typing import Any, Self

from msgspec import Struct
from pydantic import Field, PrivateAttr, model_validator

from outrigger.cases.below import HouseEdge, HouseRafter, WallTie
from outrigger.cases.between_keys import cross_faults
from outrigger.cases.faults import CaseFaultsError
from outrigger.cases.hold_down import HoldDown
from outrigger.cases.section import Section
from outrigger.cases.sections import (
    OPTIONAL,
    SECTIONS,
    Basis,
    Gap,
    GarageRoof,
    GarageWall,
    HouseRoof,
    Layout,
    Limits,
    Outrigger,
    Project,
)
from outrigger.cases.settings import Override
from outrigger.cases.weather import Seismic, Snow, Wind


class Origin(Struct, frozen=True):
    """What a case was read from: its tables as written, settings put over them; the text of the
    file before those settings, empty where it was none; the settings, as typed and as read; the
    file's path."""

    tables: Mapping[str, Any]
    text: str = ""
    settings: tuple[str, ...] = ()
    overrides: tuple[Override, ...] = ()
    path: str = ""


class Case(Section):
    """One run of outriggers as stated. `sources` holds the source text of each load key."""

    project: Project
    basis: Basis
    gap: Gap
    outrigger: Outrigger
    house_roof: HouseRoof = Field(default_factory=HouseRoof)
    garage_roof: GarageRoof = Field(default_factory=GarageRoof)
    garage_wall: GarageWall = Field(default_factory=GarageWall)
    snow: Snow = Field(default_factory=Snow)
    wind: Wind = Field(default_factory=Wind)
    seismic: Seismic = Field(default_factory=Seismic)
    hold_down: list[HoldDown] = Field(default_factory=list)
    limits: Limits = Field(default_factory=Limits)
    layout: Layout | None = None
    house_edge: HouseEdge | None = None
    wall_tie: WallTie | None = None
    house_rafter: HouseRafter | None = None
    sources: dict[str, str] = Field(default_factory=dict)

    _origin: Origin | None = PrivateAttr(default=None)
    _changed_from: "Case | None" = PrivateAttr(default=None)

    @property
    def origin(self) -> Origin | None:
        """What it was read from; None: it was built or changed in Python."""
        return self._origin

    @property
    def changed_from(self) -> "Case | None":
        """The case that was read, of one that was changed from it in Python."""
        return self._changed_from

    def read_from(self, origin: Origin) -> Self:
        """The same case, knowing what it was read from. That is no part of what it states."""
        copied = self.model_copy()
        copied._origin = origin
        return copied

    def model_copy(self, *, update: Mapping[str, Any] | None = None, deep: bool = False) -> Self:
        """The same case with other tables, as `Section.model_copy`; changed, it has no origin."""
        copied = super().model_copy(update=update, deep=deep)
        if update:
            copied._origin = None
            copied._changed_from = self if self._origin is not None else self._changed_from
        return copied

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Case) and dict(self) == dict(other)

    @model_validator(mode="before")
    @classmethod
    def _sources_apart(cls, tables: Any) -> Any:
        """The tables without their source keys (dead_source says where dead comes from)."""
        if not isinstance(tables, Mapping):
            return tables
        plain, sources = dict(tables), dict(tables.get("sources", {}))
        for name, model in SECTIONS.items():
            if isinstance(table := plain.get(name), Mapping):
                plain[name], texts = split_sources(table, model)
                sources |= {f"{name}.{key}": text for key, text in texts.items()}
        return plain | {"sources": sources}

    @model_validator(mode="after")
    def _keys_agree(self) -> Self:
        """Refuse what lies between keys, every fault at once."""
        if faults := list(cross_faults(dict(self))):
            raise CaseFaultsError("case", faults)
        return self

    def __hash__(self) -> int:
        return hash(self.digest)

    @property
    def digest(self) -> str:
        """First 12 hex digits of the sha256 of the case in lb and in, defaults filled; that its
        data is made up, its house wall, and a table that may be left out, count where they are."""
        stated = self.model_dump(mode="json")
        if not self.project.invented:
            del stated["project"]["invented"]
        if not self.project.house_wall:
            del stated["project"]["house_wall"]
        for table in OPTIONAL:
            if table != "layout" and stated[table] is None:
                del stated[table]
        text = json.dumps(stated, sort_keys=True)
        return hashlib.sha256(text.encode()).hexdigest()[:12]


def split_sources(
    table: Mapping[str, Any], model: type[Section]
) -> tuple[dict[str, Any], dict[str, str]]:
    """A table without its source keys (dead_source says where dead comes from), and those."""
    texts = {
        key.removesuffix("_source"): value
        for key, value in table.items()
        if key.endswith("_source")
        and key not in model.model_fields
        and key.removesuffix("_source") in model.model_fields
        and isinstance(value, str)
    }
    return {
        k: v for k, v in table.items() if k.removesuffix("_source") not in texts or k in texts
    }, texts
