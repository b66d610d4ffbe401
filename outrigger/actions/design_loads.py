"""The loads of a design as a list: stated and derived, each with unit, level and source."""

from typing import TYPE_CHECKING, Any

import numpy as np
from msgspec import Struct

from outrigger.base import quantity
from outrigger.cases.below import Carries
from outrigger.cases.kinds import LoadLevel, kind_of, level_of
from outrigger.cases.section import Section
from outrigger.cases.sections import PointLoad, RoofLine
from outrigger.formula.formula import Step, amount

if TYPE_CHECKING:
    from outrigger.cases.model import Case


class DesignLoad(Struct, frozen=True):
    """One load in the unit of the trade: psf, plf, lb; a wind speed in mph.

    `level` is None where the number is no load yet. `key`: of the case file; empty for a load that
    follows from others. `over_ft`: the length that a drift lies on; 0 for a load that is even.
    """

    name: str
    value: float
    unit: str
    level: LoadLevel | None
    source: str = ""
    key: str = ""
    over_ft: float = 0.0


_PARTS = {
    "D": "dead", "L": "storage", "Lr": "roof live", "S": "snow",
    "W_up": "wind up", "W_down": "wind down",
}  # fmt: skip
NAMES = {
    "garage_roof.dead": "dead, garage roof",
    "garage_roof.live": "roof live",
    "garage_roof.storage": "storage in the attic",
    "garage_roof.strip_dead": "dead, roof over the gap",
    **{f"garage_roof.line.{key}": f"{_PARTS[key]} on the garage wall"
       for key in RoofLine.model_fields},
    "garage_wall.dead": "dead, garage wall",
    "house_roof.dead": "dead on the back span",
    "house_roof.live": "roof live on the back span",
    "house_roof.snow": "snow on the back span",
    "house_roof.wind_uplift": "wind suction on the back span",
    "house_roof.wind_down": "wind pressure on the back span",
    "snow.ground": "ground snow",
    "snow.roof": "roof snow",
    "snow.drift_line": "snow drift, extra",
    "wind.speed": "wind speed",
    "wind.uplift": "wind up, net",
    "wind.down": "wind down, net",
    "garage_wall.out_of_plane_wind": "wind square to the wall",
    "garage_wall.along": "along the wall",
    "seismic.sds": "seismic, SDS",
    **{f"house_edge.carries.{key}": f"{_PARTS[key]}, on the member below already"
       for key in Carries.model_fields},
    "house_edge.stud.wind": "wind on the house wall",
}  # fmt: skip


def stated_loads(case: "Case") -> list[DesignLoad]:
    """Loads that the case states and that are not none, with the level of their key."""
    found = []
    for path, name in NAMES.items():
        above, _, key = path.rpartition(".")
        section: Any = case
        for part in above.split("."):
            section = getattr(section, part, None)
        if isinstance(section, Section) and getattr(section, key):
            found.append(_stated(case, section, key, name, case.sources.get(path, ""), path))
    for i, point in enumerate(case.garage_roof.point):
        at = quantity.length(point.at)
        for key in (k for k in PointLoad.model_fields if k in _PARTS and getattr(point, k)):
            path = f"garage_roof.point[{i}].{key}"
            name = f"{_PARTS[key]}, point load at {at}"
            found.append(_stated(case, point, key, name, point.source, path))
    return found


def _stated(
    case: "Case", section: Section, key: str, name: str, source: str, path: str
) -> DesignLoad:
    table, kind = type(section), kind_of(type(section), key)
    value, unit = getattr(section, key), ""
    if kind is not None:
        value, unit = quantity.in_trade(value, kind)
    return DesignLoad(
        name=name,
        value=value,
        unit=unit,
        level=level_of(table, key, case.basis.loads),
        source=source,
        key=path,
    )


def derived(
    name: str,
    value: "Step | Any",
    unit: str,
    level: LoadLevel,
    source: str,
    over_ft: "Step | Any" = 0.0,
) -> DesignLoad:
    """A load that follows from others, of the first case of a batch; its value in `unit`."""
    number, reach = (float(np.ravel(amount(one))[0]) for one in (value, over_ft))
    return DesignLoad(name, number, unit, level, source, over_ft=reach)
