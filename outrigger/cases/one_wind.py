"""One site has one wind, and a case may state it at several places: on the garage roof, on the
house roof, square to the walls, in the reactions of a truss sheet, on the member below.

Where one of them changes the others stay as they are stated, and that is told: they do not go with
it as snow does (`one_snow`). The snows of a site are parts of one ground snow, but a pressure of
wind follows from a zone and a shape too: another uplift may be another corner, overhang or pitch
under the same wind, and of the same wind uplift, pressing and suction on a wall grow apart, since
each has a least value of its own. A factor would be a guess, and on the unsafe side where the new
uplift is the smaller one.
"""

from collections.abc import Collection, Mapping
from typing import TYPE_CHECKING, Any

from outrigger.base import quantity
from outrigger.cases.one_snow import is_none, stated

if TYPE_CHECKING:  # a case knows its settings, and they come here
    from outrigger.cases.model import Case

WINDS: dict[str, tuple[quantity.Kind, str]] = {  # loads, and where they act
    "wind.uplift": ("pressure", "up on the garage roof"),
    "wind.down": ("pressure", "down on the garage roof"),
    "house_roof.wind_uplift": ("pressure", "up on the house roof"),
    "house_roof.wind_down": ("pressure", "down on the house roof"),
    "garage_wall.out_of_plane_wind": ("pressure", "square to the garage wall"),
    "garage_wall.along": ("line load", "along the garage wall"),
    "garage_roof.line.W_up": ("line load", "up in the reactions of the garage roof"),
    "garage_roof.line.W_down": ("line load", "down in the reactions of the garage roof"),
    "house_edge.carries.W_up": ("line load", "up on the member below"),
    "house_edge.carries.W_down": ("line load", "down on the member below"),
    "house_edge.stud.wind": ("pressure", "square to the house wall"),
}
POINTS = "garage_roof.point"
OF_THE_SITE = "wind."  # speed, exposure and the like: what the computed ones follow from


def changes(key: str) -> bool:
    """Whether a key is a wind load, or what wind loads follow from."""
    return key in WINDS or key.startswith(OF_THE_SITE)


def left_in_file(raw: Mapping[str, Any], keys: Collection[str]) -> list[str]:
    """The wind loads of a file that stay beside those of some keys, in words."""
    found = []
    for path, (_, where) in WINDS.items():
        set_here = any(path == key or path.startswith(f"{key}.") for key in keys)
        own = stated(raw, path)[1]
        if isinstance(own, str) and not set_here and not is_none(own):
            found.append(f"{where} {own}")
    points = stated(raw, POINTS)[1]
    if POINTS not in keys and isinstance(points, list) and any(map(_lifts, points)):
        found.append("in the point loads")
    return found


def told(others: Collection[str]) -> str:
    """That they stay, for people."""
    return f"wind {', '.join(others)} as the file says: one site has one wind, state it anew"


def _lifts(point: object) -> bool:
    return isinstance(point, Mapping) and ("W_up" in point or "W_down" in point)


def left(case: "Case", key: str) -> list[str]:
    """The paths of the wind loads of a case that stay where a study changes one; none where that is
    no wind."""
    if not changes(key):
        return []
    found = [path for path in WINDS if path != key and _at(case, path)]
    points = any(point.W_up or point.W_down for point in case.garage_roof.point)
    return [*found, *([POINTS] if points else [])]


def _at(case: "Case", path: str) -> Any:
    at: Any = case
    for name in path.split("."):
        at = getattr(at, name, None)  # a table left out, or none
    return at


def in_words(case: "Case", path: str) -> str:
    """A wind load of a case, and where it acts."""
    if path == POINTS:
        return "in the point loads"
    kind, where = WINDS[path]
    shown, unit = quantity.in_trade(_at(case, path), kind)
    return f"{shown:.4g} {unit} {where}"
