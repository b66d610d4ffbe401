"""One site has one snow: where the garage roof's moves, every snow that a case states of its own
beside it moves in the same proportion: on the house roof, in the stated reactions of the garage
roof, on the member below.

A house roof whose snow follows from the ground snow needs none of this: it is computed anew.
"""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from outrigger.base import quantity
from outrigger.base.errors import InputError

if TYPE_CHECKING:  # a case knows its settings, and they come here
    from outrigger.cases.model import Case

HOUSE, LINE, BELOW = "house_roof.snow", "garage_roof.line.S", "house_edge.carries.S"
FOLLOW: dict[str, tuple[quantity.Kind, str]] = {  # what moves along, and where it lies
    HOUSE: ("pressure", "on the house roof"),
    LINE: ("line load", "in the reactions of the garage roof"),
    BELOW: ("line load", "on the member below"),
}
SNOWS = ("snow.roof", "snow.ground")
STAY = {"snow.drift_line": "the stated drift", "garage_roof.point": "point loads"}  # by hand, both


def moved(case: "Case", values: Mapping[str, Any]) -> dict[str, Any]:
    """Values by path, numbers or arrays in lb and in, and beside another snow the snows that follow
    it in the same proportion; not those among the values themselves."""
    found = dict(values)
    for key, stated in zip(SNOWS, (case.snow.roof, case.snow.ground), strict=True):
        if key in values and stated:
            for path, each in own(case).items():
                if path not in values:
                    found[path] = each * (values[key] / stated)
    return found


def own(case: "Case") -> dict[str, float]:
    """The snows that a case states of its own beside the garage roof's psf."""
    found = {}
    for path in FOLLOW:
        at: Any = case
        for name in path.split("."):
            at = getattr(at, name, None)  # a table left out, or none
        if isinstance(at, float) and at:
            found[path] = at
    return found


def follow(case: "Case") -> tuple[str, ...]:
    """The paths that move with the snow; none where there is no snow to go by."""
    stated = case.snow.ground if case.snow.roof is None else case.snow.roof
    return tuple(own(case)) if stated else ()


def stays(case: "Case") -> bool:
    """Whether the house roof has a snow of its own that nothing tells how to move."""
    return bool(case.house_roof.snow) and HOUSE not in follow(case)


def left(case: "Case", key: str) -> list[str]:
    """The paths of snow that stays as stated where a study changes another; none where it does not
    change the snow."""
    if key not in SNOWS:
        return []
    roof = case.garage_roof
    found = {"snow.drift_line": case.snow.drift_line,
             "garage_roof.point": any(point.S for point in roof.point)}  # fmt: skip
    return [path for path, some in found.items() if some]


def in_proportion(path: str, own: object, before: object, after: object) -> str:
    """A snow that follows, as a file writes it, after another snow in place of one; empty: there is
    none of its own, or none to go by."""
    kind = FOLLOW[path][0]
    try:
        number = 0.0 if is_none(own) else quantity.read(own, kind)
        was, now = (
            0.0 if is_none(one) else quantity.read(one, "pressure") for one in (before, after)
        )
    except InputError:
        return ""  # a fault of the case, or not given
    if not number or not was:
        return ""
    if not now:
        return quantity.NONE
    shown, unit = quantity.in_trade(number * (now / was), kind)
    return f"{f'{shown:.9f}'.rstrip('0').removesuffix('.')} {unit}"


def stated(raw: Mapping[str, Any], path: str) -> tuple[dict[str, Any] | None, object]:
    """The table that a path names in a file, None where it is not there, and what it says."""
    table: Any = raw
    *names, key = path.split(".")
    for name in names:
        table = table.get(name) if isinstance(table, dict) else None
    return (table, table.get(key)) if isinstance(table, dict) else (None, None)


def is_none(written: object) -> bool:
    """Whether a file says none."""
    return isinstance(written, str) and quantity.tidied(written) == quantity.NONE
