"""Settings over a case file: name=value."""

import json
import re
import tomllib
from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from outrigger.base import quantity
from outrigger.base.errors import InputError
from outrigger.cases import one_snow, one_wind
from outrigger.cases.as_written import PLACES
from outrigger.cases.names import key_meant, table_and_key, written_so
from outrigger.cases.sections import SECTIONS

SHORT_NAMES = {
    "gap": "gap.width",
    "spacing": "outrigger.spacing",
    "back_span": "outrigger.back_span",
    "size": "outrigger.size",
    "species": "outrigger.species",
    "grade": "outrigger.grade",
    "roof_span": "garage_roof.span",
}

_WORD = r"[^\W\d][\w\-]*"
_NAME = rf"{_WORD}(?:\[[^\[\]]+\])?(?:\.{_WORD})*"  # "hold_down[back].count", "gap.width"
ALIKE = re.compile(r"hold_down\[([^\]]+)\]")  # a place that takes the clips of another
INSULATION = ("insulation", "roof_insulation", "gap.insulation")
# what a key that moves no ratio by itself means for another that does
BEARS_ELSEWHERE = {
    "gap.roof_insulation": ": thicker insulation and its sheathing are dead load on the back span, "
    "house_roof.dead"
}
BACK, EDGE = PLACES[:2]
HAIR_IN = 1e-9
BACK_CLIP = "hold_down[back].rated_uplift"


class Override(Struct, frozen=True):
    """One `name=value` of the command line: the key it sets, its new and its old value.

    too: what it moves with it; `left`: what it does not move, for people; `unmoved`: no ratio moves
    with it.
    """

    key: str
    value: Any
    before: Any
    too: "tuple[Override, ...]" = ()
    left: str = ""
    unmoved: bool = False

    @property
    def text(self) -> str:
        """For people: gap 9 in, file says 6 in."""
        said = "does not say" if self.before is None else f"says {spoken(self.before)}"
        short = {key: name for name, key in SHORT_NAMES.items()} | {BACK_CLIP: "clip"}
        short |= {"snow.roof": "snow", "snow.ground": "snow"}
        text = f"{short.get(self.key, self.key)} {spoken(self.value)}, file {said}"
        for one in self.too:
            where, now, was = one_snow.FOLLOW[one.key][1], _shortly(one.value), _shortly(one.before)
            text += f"; {where} {now} too, was {was}"
        if self.unmoved:
            text += f"; no ratio moves with it{BEARS_ELSEWHERE.get(self.key, '')}"
        return text + self.left


def _shortly(value: object) -> str:
    """A load for people, in three decimals at most: 17.857 psf."""
    return re.sub(r"(\.\d{3})\d+", r"\1", spoken(value))


def spoken(value: object) -> str:
    """A value for people: 9 in for 9in, true for True."""
    if isinstance(value, str):
        return re.sub(r"(?<=\d)(?=(in|ft|psf|plf|lb|psi|mph)\b)", " ", value)
    return json.dumps(value, default=str)


def apply_all(raw: dict[str, Any], settings: Iterable[str]) -> tuple[Override, ...]:
    """Put settings over the tables of a file, and one snow over the whole site: every snow that
    the file states beside the garage roof's moves with it, unless it is set itself.

    Raises:
        InputError: as `apply`.
    """
    if settings := list(settings):
        _name_the_back(raw)
    found = _each_beside_the_file([apply(raw, setting) for setting in settings])
    snows = [i for i, one in enumerate(found) if one.key in one_snow.SNOWS]
    if snows:
        last = found[snows[-1]]
        first = next(one for one in found if one.key == last.key)
        keys = {one.key for one in found}
        found[snows[-1]] = _with_its_followers(raw, last, first.before, keys)
    return tuple(_told_of_other_winds(raw, found))


def _told_of_other_winds(raw: dict[str, Any], found: list[Override]) -> list[Override]:
    """The last setting that changes a wind, with the other wind loads of the file: they stay."""
    at = [i for i, one in enumerate(found) if one_wind.changes(one.key) and _another(one)]
    others = one_wind.left_in_file(raw, {one.key for one in found}) if at else []
    if others:
        last = found[at[-1]]
        found[at[-1]] = replace(last, left=f"{last.left}; {one_wind.told(others)}")
    return found


def _another(one: Override) -> bool:
    """Whether a setting puts another value in place of one that the file states."""
    return one.before is not None and spoken(one.value) != spoken(one.before)


def _with_its_followers(
    raw: dict[str, Any], snow: Override, before: object, keys: Collection[str]
) -> Override:
    """Another snow, and the snows that go with it put over the tables; `keys`: those set."""
    too, left = [], []
    for path, (_, where) in one_snow.FOLLOW.items():
        table, own = one_snow.stated(raw, path)
        if table is None or path in keys or any(path.startswith(f"{key}.") for key in keys):
            continue
        if now := one_snow.in_proportion(path, own, before, snow.value):
            table[path.rpartition(".")[2]] = now
            too.append(Override(path, now, own))
        elif own is not None and not one_snow.is_none(own):
            left.append(f"; {where} {spoken(own)} as the file says: no snow there to go by")
    for key, name in one_snow.STAY.items():
        own = one_snow.stated(raw, key)[1]
        if own and not one_snow.is_none(own) and key not in keys:
            left.append(f"; {name} as the file says")
    return replace(snow, too=tuple(too), left="".join(left))


def _each_beside_the_file(found: list[Override]) -> list[Override]:
    """Of a setting given twice: the last is taken, and each is told beside what the file says."""
    told = []
    for i, one in enumerate(found):
        first = next(other for other in found if other.key == one.key)
        again = any(later.key == one.key for later in found[i + 1 :])
        left = "; not taken, given again" if again else one.left
        told.append(replace(one, before=first.before, left=left))
    return told


def apply(raw: dict[str, Any], setting: str) -> Override:
    """Put one `name=value` over the tables of a file.

    Raises:
        InputError: not name=value, or a name that is no key.
    """
    name, equals, written = setting.partition("=")
    name = name.strip()
    if not equals or not name:
        raise InputError(f'"{setting}": {written_so(setting)}')
    if not re.fullmatch(_NAME, name):
        bare = re.sub(r"\.{2,}", ".", name).strip(".")
        whole = re.fullmatch(_NAME, bare) and ("." in bare or bare in SHORT_NAMES)
        meant = f" Did you mean {bare}?" if whole and bare != name else ""
        raise InputError(
            f'"{setting}": {name} is not how a key is written.{meant} Write it as in the file, one '
            "dot between two words: gap.width=9in, or hold_down[back].count=2."
        )
    if name in INSULATION:
        raise InputError(
            f'"{setting}": which insulation? Over the deck, gap.roof_insulation={written.strip()}: '
            "the screws through it and what it covers follow, and what it weighs is "
            f"house_roof.dead. Between the buildings, gap.width={written.strip()}: the arm follows."
        )
    key = full_name(name, raw)
    section, rest = table_and_key(key)
    path = rest.split(".") if rest else []
    value = _value(written.strip().removeprefix("="))
    text = isinstance(value, str) and section != "project"  # a table has its own commas
    if two := re.search(rf"[,;]\s*({_NAME})=", written) if text else None:
        apart = f"{name}={written[: two.start()].strip()} {written[two.start(1) :].strip()}"
        raise InputError(f'"{setting}": settings stand apart, with a blank: {apart}')
    words = section == "project" or path[-1:] == ["grade"]
    if words and not isinstance(value, str | bool):
        value = written.strip()  # a revision 1, a sheet 2, a grade 2: text there
    if section.startswith("hold_down[") and len(path) == 1:
        return _set_clip(raw, key, value)
    if (alike := ALIKE.fullmatch(key)) is not None:
        return _same_clips(raw, alike[1], value)
    if section not in SECTIONS or not path:
        raise InputError(f'"{setting}": no key {name}.{key_meant(name, written.strip())}')
    table = raw
    for step in (section, *path[:-1]):
        table = table.setdefault(step, {})
        if not isinstance(table, dict):
            raise InputError(f'"{setting}": {step} is not a table in the file.')
    before = table.get(path[-1])
    table[path[-1]] = value
    return Override(key, value, before)


def keys_set(raw: Mapping[str, Any], overrides: Iterable[Override]) -> Iterator[str]:
    """The keys that settings have put over a file, as faults name them: hold_down[0].count."""
    entries = raw.get("hold_down")
    tables = [e for e in entries if isinstance(e, dict)] if isinstance(entries, list) else []
    for one in overrides:
        place, dot, field = one.key.removeprefix("hold_down[").partition("].")
        clip = one.key.startswith("hold_down[") and bool(dot)
        at = next((i for i, e in enumerate(tables) if clip and stands_at(raw, e, place)), None)
        yield one.key if at is None else f"hold_down[{at}].{field}"


def stands_at(raw: Mapping[str, Any], entry: Mapping[str, Any], place: str) -> bool:
    """Whether a [[hold_down]] of a file is the one that a setting names: by its word, or at the
    same distance, the back at the back span and the edge at none."""
    said = str(entry.get("at", "")).strip().lower()
    if said == place:
        return True
    member = raw.get("outrigger")
    ends = {BACK: member.get("back_span") if isinstance(member, dict) else None, EDGE: "0 in"}
    try:
        own, named = (quantity.read(ends.get(one, one), "length") for one in (said, place))
    except InputError:
        return False
    return abs(own - named) < HAIR_IN


def _name_the_back(raw: dict[str, Any]) -> None:
    """Clips at the distance of the back span are those of the back, and move with it where a
    setting moves it."""
    entries = raw.get("hold_down")
    for entry in entries if isinstance(entries, list) else []:
        if isinstance(entry, dict) and stands_at(raw, entry, BACK):
            entry["at"] = BACK


def as_tables(stated: Mapping[str, Any]) -> dict[str, Any]:
    """Values by path as the tables of a file would have them."""
    found: dict[str, Any] = {}
    for path, value in stated.items():
        *above, key = path.split(".")
        table = found
        for name in above:
            inside = table.get(name)
            table[name] = dict(inside) if isinstance(inside, dict) else {}
            table = table[name]
        table[key] = value
    return found


def full_name(name: str, raw: Mapping[str, Any]) -> str:
    """The path that a name means in a file's tables: gap is gap.width."""
    if name == "snow":
        snow = raw.get("snow")
        return "snow.roof" if isinstance(snow, dict) and "roof" in snow else "snow.ground"
    if name == "clip":
        return BACK_CLIP
    return SHORT_NAMES.get(name, name)


def _same_clips(raw: dict[str, Any], place: str, like: object) -> Override:
    """Put the clips of one place at another too: hold_down[edge]=back."""
    key = f"hold_down[{place}]"
    if not isinstance(like, str):
        raise InputError(f"{key}: name the place whose clips stand here too, {key}=back.")
    entries = raw.get("hold_down", [])
    tables = [e for e in entries if isinstance(e, dict)] if isinstance(entries, list) else []
    if any(stands_at(raw, entry, place) for entry in tables):
        raise InputError(f"{key}: the file has clips there. Set one of their keys, {key}.count=2.")
    found = next((entry for entry in tables if stands_at(raw, entry, like)), None)
    if found is None:
        raise InputError(f'{key}: the file has no [[hold_down]] with at = "{like}" to copy.')
    entries.append({**found, "at": place})
    return Override(key, like, None)


def _set_clip(raw: dict[str, Any], key: str, value: Any) -> Override:
    """Set a key of the hold-down at a place: hold_down[back].count."""
    place, _, field = key.removeprefix("hold_down[").partition("].")
    entries = raw.get("hold_down", [])
    for entry in entries if isinstance(entries, list) else []:
        if isinstance(entry, dict) and stands_at(raw, entry, place):
            before, entry[field] = entry.get(field), value
            return Override(key, value, before)
    name = "clip" if key == BACK_CLIP else key
    raise InputError(f'{name}: the file has no [[hold_down]] with at = "{place}".{_at(raw, key)}')


def _at(raw: Mapping[str, Any], key: str) -> str:
    """Where the file has clips, as a setting names them."""
    entries = raw.get("hold_down")
    places = [str(e.get("at", "")).strip().lower() for e in entries or [] if isinstance(e, dict)]
    field = key.rpartition(".")[2]
    named = " or ".join(f"hold_down[{place}].{field}" for place in places if place)
    return f" Write {named}." if named else ""


def _value(written: str) -> Any:
    """A setting's value: TOML where it is TOML, else text (9in, 2x6, #2)."""
    try:
        return tomllib.loads(f"x = {written}")["x"]
    except (ValueError, KeyError, RecursionError):
        return written
