"""The case: what the user states of one run of outriggers, read and validated.

However a case is built, the same faults refuse it, those that lie between its keys included.
"""

import hashlib
import json
from collections.abc import Mapping
from typing import Any, Self

import numpy as np
from pydantic import Field, model_validator

from outrigger.base.errors import InputError
from outrigger.cases.faults import CaseFaultsError, cross_faults
from outrigger.cases.sections import (
    SECTIONS,
    Basis,
    Gap,
    GarageRoof,
    GarageWall,
    HoldDown,
    HouseRoof,
    Layout,
    Limits,
    Outrigger,
    Project,
    Section,
    Seismic,
    Snow,
    Wind,
)


class Mark(Section):
    """What one outrigger of a layout carries; never in a file, arrays (cases, 1).

    number: of its mark, from the datum; tributary: length of run by halves of its bays, in, along
    the sheathing; carried, share: of the wall, and of the roof on it, in plan; points: part of each
    point load, (cases, loads).
    """

    number: Any
    tributary: Any
    carried: Any
    share: Any
    points: Any


class Case(Section):
    """One run of outriggers as stated. `sources` holds the source text of each load key; `mark`
    names one outrigger of its layout."""

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
    sources: dict[str, str] = Field(default_factory=dict)
    mark: Mark | None = Field(default=None, exclude=True)

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
        """First 12 hex digits of the sha256 of the case in lb and in, defaults filled."""
        text = json.dumps(self.model_dump(mode="json"), sort_keys=True)
        return hashlib.sha256(text.encode()).hexdigest()[:12]

    def swept(self, values: Mapping[str, "np.ndarray[Any, Any] | float"]) -> "Case":
        """The same case with arrays (cases, 1) in some fields, "gap.width" say, or
        "hold_down[back].rated_uplift".

        Raises:
            InputError: no such field.
        """
        case = self
        for path, value in values.items():
            section, _, key = path.rpartition(".")
            column = np.asarray(value, dtype=float).reshape(-1, 1)
            place = section.removeprefix("hold_down[").removesuffix("]")
            if section != place:
                holds = [h.with_column(key, column, path) if h.name == place else h
                         for h in case.hold_down]  # fmt: skip
                if all(new is old for new, old in zip(holds, case.hold_down, strict=True)):
                    raise InputError(f"{path}: no such hold-down to sweep.")
                case = case.model_copy(update={"hold_down": holds})
                continue
            part = getattr(case, section, None)
            if not isinstance(part, Section):
                raise InputError(f"{path}: no such field to sweep.")
            case = case.model_copy(update={section: part.with_column(key, column, path)})
        return case

    @property
    def cases(self) -> int:
        """How many cases the swept fields hold; 1 where none is swept."""
        parts = [part for _, part in self if isinstance(part, Section)]
        return max((len(v) for p in (*parts, *self.hold_down) for v in p.columns().values()),
                   default=1)  # fmt: skip

    def taken(self, index: "np.ndarray[Any, Any]") -> "Case":
        """Of the swept cases those of an index, in its order, each as often as it stands there."""
        parts = {key: p.taken(index) for key, p in self if isinstance(p, Section)}
        holds = [hold.taken(index) for hold in self.hold_down]
        return self.model_copy(update={**parts, "hold_down": holds})


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


def schema() -> dict[str, Any]:
    """JSON Schema of the case file. Each load key may have a <key>_source beside it."""
    found = Case.model_json_schema(by_alias=True)
    for name in ("sources", "mark"):
        del found["properties"][name]
    del found["$defs"]["Mark"]
    for name in ("HouseRoof", "GarageRoof", "GarageWall", "Snow", "Wind"):
        found["$defs"][name]["patternProperties"] = {"_source$": {"type": "string"}}
    return found
