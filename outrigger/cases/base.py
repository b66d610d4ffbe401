"""A case file over another: `base = "job.toml"` lets several cases share loads, clips and rules.

The file's own keys win: table by table, a list of tables as a whole. A base stands on no other.
What a base says of a value that the file over it states anew is of the old value: it goes, or is
refused until it is stated too.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from outrigger.base.quantity import NONE, tidied
from outrigger.cases.faults import Fault, shown
from outrigger.cases.names import BASE_KEY

SOURCE, RATED, KIND = "_source", "rated", "kind"
# what a listing says of its values; the values themselves are the other keys that begin so
LISTED = ("rated_for", "rated_wood", "rated_into", "rated_across_grain", "rated_source")


class Anew(NamedTuple):
    """Keys that a file may state anew, and what of its base was stated for the old ones."""

    keys: tuple[str, ...]
    of_it: tuple[str, ...]
    why: str


_SNOWS = ("house_roof.snow", "garage_roof.line.S", "house_edge.carries.S", "snow.drift_line")
_WINDS = (
    "house_roof.wind_uplift", "house_roof.wind_down", "garage_wall.out_of_plane_wind",
    "garage_wall.along", "garage_roof.line.W_up", "garage_roof.line.W_down",
    "house_edge.carries.W_up", "house_edge.carries.W_down", "house_edge.stud.wind",
)  # fmt: skip
_POINTS = "garage_roof.point"
FACTORS = ("snow.importance", "snow.exposure", "wind.kzt")  # bare numbers, or words
LINE = "garage_roof.line"
OF_THE_ROOF = tuple(f"garage_roof.{one}" for one in
                    ("span", "overhang", "pitch", "shape", "dead", "live", "storage"))  # fmt: skip
# asked for of a setting and a sweep too; snows go with one (`one_snow`), other winds are told
OF_ITS_OWN = (
    Anew(("basis.loads",), ("snow.ground", "snow.roof", *_SNOWS, _POINTS),
         "it is snow of that edition"),
    Anew(("snow.importance", "snow.exposure"), (*_SNOWS, _POINTS), "one site has one snow"),
    Anew(("wind.speed", "wind.exposure", "wind.mean_height", "wind.kzt"), (*_WINDS, _POINTS),
         "one site has one wind"),
    *(Anew((f"house_roof.{one}",), (f"house_edge.carries.{case}",),
           "the member below carries that roof")
      for one, case in (("dead", "D"), ("live", "Lr"), ("snow", "S"),
                        ("wind_uplift", "W_up"), ("wind_down", "W_down"))),
    Anew(OF_THE_ROOF, (LINE,), "the reactions of the truss sheet are of that roof"),
    Anew(("layout.datum",),
         ("layout.openings", "layout.double_at", "layout.first_mark", "layout.member_offset",
          "house_roof.framing_offset", "house_roof.framing_at", _POINTS),
         "it is measured from that datum"),
)  # fmt: skip
ANEW = (
    Anew(("snow.ground", "snow.roof"), (*_SNOWS, _POINTS), "one site has one snow"),
    Anew(("wind.uplift", "wind.down"), ("garage_roof.line.W_up", "garage_roof.line.W_down"),
         "the reactions of the truss sheet hold that wind"),
    *OF_ITS_OWN,
)  # fmt: skip


def merged(base: Mapping[str, Any], own: Mapping[str, Any]) -> dict[str, Any]:
    """The tables of a file over those of its base. Where a value is stated anew, what the base says
    of its source goes: that source is of the other value. So goes the rest of a listing whose
    values are, and of a member of another kind."""
    found = {key: value for key, value in base.items() if not _of_another(key, own)}
    for key, value in own.items():
        found[key] = merged(base[key], value) if _merges(base.get(key), value) else value
    found.pop(BASE_KEY, None)
    return found


def _merges(below: Any, value: Any) -> bool:
    """Whether two tables are one: not where each is a member of another kind."""
    if not (isinstance(below, Mapping) and isinstance(value, Mapping)):
        return False
    return KIND not in value or KIND not in below or value[KIND] == below[KIND]


def _of_another(key: str, own: Mapping[str, Any]) -> bool:
    """Whether a key of the base is of what the file states anew: its source, its listing."""
    if key in own:
        return False
    if key.startswith(RATED):
        stated = [one for one in own if one.startswith(RATED)]
        return any(one not in LISTED for one in stated) or (key == LISTED[-1] and bool(stated))
    return key.endswith(SOURCE) and key.removesuffix(SOURCE) in own


def of_the_old(
    base: Mapping[str, Any],
    own: Mapping[str, Any],
    name: str,
    anew: Iterable[Anew] = ANEW,
) -> list[Fault]:
    """What a base, called `name`, states for a value that the file over it states anew: it would
    stay, and be wrong beside the new one. Each is asked for; nothing is where it says none."""
    found = []
    for keys, of_it, why in anew:
        for key in keys:
            was, now = _at(base, key), _at(own, key)
            written = str | float | int if key in FACTORS else str
            if not (isinstance(was, written) and isinstance(now, written)):
                continue  # not given, or a fault of its own
            if _plain(key, was) == _plain(key, now):
                continue
            left = [one for one in of_it if one not in keys and _stays(base, own, one)]
            if left:
                which, them = ("which", "it") if len(left) == 1 else ("and these", "them")
                text = (
                    f"= {shown(now)}: {name} says {shown(was)}, and beside that "
                    f"{', '.join(left)}, {which} would stay: {why}. State {them} here too."
                )
                found.append(Fault(key, text))
    return found


def _stays(base: Mapping[str, Any], own: Mapping[str, Any], path: str) -> bool:
    """Whether a key of the base would stand in the case, and says something."""
    value = _at(base, path)
    if value in (None, [], {}) or (isinstance(value, str) and tidied(value) == NONE):
        return False
    if isinstance(value, Mapping):
        return any(_stays(base, own, f"{path}.{key}") for key in value)
    return _at(own, path) is None


def _at(tables: Any, path: str) -> Any:
    for key in path.split("."):
        tables = tables.get(key) if isinstance(tables, Mapping) else None
    return tables


def _plain(key: str, value: str | float) -> str:
    """A value to compare: blanks and capitals tell none apart; an edition by its numbers."""
    plain = "".join(value.lower().split()) if isinstance(value, str) else f"{value:g}"
    return re.sub(r"[^\d-]", "", plain) if key == "basis.loads" else plain


def kept_lines(
    lines: Mapping[str, int], base: Mapping[str, Any], own: Mapping[str, Any]
) -> dict[str, int]:
    """The lines of a base, by key, without those whose value the file over it replaces."""
    gone = [key for key in _replaced(base, own) if key]
    return {
        key: line
        for key, line in lines.items()
        if not any(key == one or key.startswith((f"{one}.", f"{one}[")) for one in gone)
    }


def _replaced(base: Mapping[str, Any], own: Mapping[str, Any], above: str = "") -> Iterator[str]:
    for key, value in own.items():
        if key not in base:
            continue
        if _merges(base[key], value):
            yield from _replaced(base[key], value, f"{above}{key}.")
        else:
            yield f"{above}{key}"
