"""The case file: read, overridden, validated with every fault at once, saved.

A fault names its line, its key, what was written and what is allowed.
"""

import difflib
import json
import re
import tomllib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from outrigger.base.errors import InputError
from outrigger.cases.faults import Fault, cross_faults, shown
from outrigger.cases.model import SECTIONS, Case, HoldDown, Section

LARGEST_FILE = 1_000_000  # bytes; a case file has a few thousand
CURLY = "“”„«»‘’"
SHORT_NAMES = {
    "gap": "gap.width",
    "spacing": "outrigger.spacing",
    "back_span": "outrigger.back_span",
    "size": "outrigger.size",
    "species": "outrigger.species",
    "grade": "outrigger.grade",
    "roof_span": "garage_roof.span",
}


_ALIKE = re.compile(r"hold_down\[([^\]]+)\]")
BACK_CLIP = "hold_down[back].rated_uplift"


@dataclass(frozen=True)
class Override:
    """One `name=value` of the command line: the key it sets, its new and its old value."""

    key: str
    value: Any
    before: Any

    @property
    def text(self) -> str:
        """For people: gap 9 in, file says 6 in."""
        said = "does not say" if self.before is None else f"says {spoken(self.before)}"
        short = {key: name for name, key in SHORT_NAMES.items()} | {BACK_CLIP: "clip"}
        short |= {"snow.roof": "snow", "snow.ground": "snow"}
        return f"{short.get(self.key, self.key)} {spoken(self.value)}, file {said}"


def spoken(value: object) -> str:
    """A value for people: 9 in for 9in, true for True."""
    if isinstance(value, str):
        return re.sub(r"(?<=\d)(?=(in|ft|psf|plf|lb|psi|mph)\b)", " ", value)
    return json.dumps(value, default=str)


class CaseFaultsError(InputError):
    """Every fault of a case file."""

    def __init__(self, name: str, faults: Sequence[Fault]) -> None:
        ordered = sorted(faults, key=lambda f: f.line or 0)
        self.faults = tuple(dict.fromkeys(ordered))
        count = "1 fault" if len(self.faults) == 1 else f"{len(self.faults)} faults"
        lines = "\n".join(f"  {fault.message}" for fault in self.faults)
        super().__init__(f"{name}: {count}\n{lines}")


def read_case(path: Path, settings: Iterable[str] = ()) -> tuple[Case, tuple[Override, ...]]:
    """The case of a file with `name=value` settings put over it.

    Raises:
        InputError: the file cannot be read, or a setting is not `name=value`.
        CaseFaultsError: the file is read but wrong; every fault at once.
    """
    text = read_text(path)
    raw = parse(text, path.name)
    overrides = tuple(apply(raw, setting) for setting in settings)
    return validate(raw, path.name, key_lines(text)), overrides


def tables_of(path: Path, settings: Iterable[str] = ()) -> dict[str, Any]:
    """The tables of a file as it writes them, with settings put over them.

    Raises:
        InputError: as `read_case`.
    """
    raw = parse(read_text(path), path.name)
    for setting in settings:
        apply(raw, setting)
    return raw


def read_text(path: Path) -> str:
    """The text of a case file, whatever its byte-order mark.

    Raises:
        InputError: no such file, a folder, too large, or not text.
    """
    try:
        if path.is_dir():
            raise InputError(f"{path}: a folder. Name the case file in it.")
        if not path.exists():
            raise InputError(f'{path}: no such file. "outrigger new {path.name}" writes a starter.')
        if path.stat().st_size > LARGEST_FILE:
            raise InputError(f"{path}: over {LARGEST_FILE // 1000} kB: not a case file.")
        data = path.read_bytes()
    except OSError as error:
        raise InputError(f"{path}: cannot be read: {error.strerror}.") from error
    utf16 = data.startswith((b"\xff\xfe", b"\xfe\xff"))
    try:
        text = data.decode("utf-16" if utf16 else "utf-8-sig")
    except UnicodeDecodeError:
        raise InputError(f"{path}: not text in UTF-8. Save it as plain text, UTF-8.") from None
    if "\0" in text:
        raise InputError(f"{path}: a binary file, not a case file.")
    return text.replace("\r\n", "\n")


def parse(text: str, name: str) -> dict[str, Any]:
    """The tables of a TOML text.

    Raises:
        CaseFaultsError: not TOML; each line that cannot be read is named in words.
    """
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise CaseFaultsError(name, [Fault("", "nested too deep to be a case file.")]) from None
    except ValueError as error:  # not TOML, or a number beyond reading
        faults = [*_broken_lines(text), *_repeated_keys(text)]
        if not faults:
            found = re.search(r"at line (\d+)", str(error))
            line = int(found[1]) if found else None
            faults = [Fault("", _syntax(str(error), text, line), line)]
        raise CaseFaultsError(name, faults) from None


def _broken_lines(text: str) -> Iterator[Fault]:
    """Lines of the form key = value whose value alone is not TOML."""
    for number, line in enumerate(text.splitlines(), 1):
        found = re.match(r"\s*([\w.\-]+)\s*=\s*(.*?)\s*$", line)
        if found is None:
            continue
        key, value = found[1], found[2].partition(" #")[0].strip()
        if value.startswith(("[", "{", '"""', "'''")):  # may go on over lines
            if any(c in value for c in CURLY) and '"' not in value:
                yield Fault(key, f'= {value}: curly quotes; use straight ones, ".', number)
            continue
        try:
            tomllib.loads(line)
        except (ValueError, RecursionError):
            yield Fault(key, f"= {value}: {_mended(value)}", number)


def _mended(value: str) -> str:
    """What to do about a value that is not TOML."""
    bare = value.strip("\"'" + CURLY)
    if any(c in value for c in CURLY):
        return f'curly quotes; use straight ones: "{bare}".'
    if bare.lower() in ("true", "false", "yes", "no"):
        return "needs true or false, in small letters, without quotes."
    if re.fullmatch(r"\d{4}-\d\d-\d\d", value):
        return "no such date."
    if value.endswith('""') and not bare.endswith("in"):
        return f'inch mark and quotes run together; write "{bare} in".'
    return f'text needs straight quotes: "{bare}".'


def _repeated_keys(text: str) -> Iterator[Fault]:
    """Keys that stand twice in one table."""
    table, seen = "", dict[str, int]()
    for number, line in enumerate(text.splitlines(), 1):
        if header := re.match(r"\s*(\[\[?\s*[\w.\-]+\s*\]?\])", line):
            table = f"{header[1]}@{number}" if header[1].startswith("[[") else header[1]
        elif key := re.match(r"\s*([\w.\-]+)\s*=", line):
            name = f"{table}{key[1]}"
            if name in seen:
                yield Fault(
                    key[1], f"stands twice; line {seen[name]} has it too: keep one.", number
                )
            seen.setdefault(name, number)


def _syntax(message: str, text: str, line: int | None) -> str:
    written = text.splitlines()[line - 1].strip() if line else ""
    if "overwrite" in message or "already" in message or "twice" in message:
        return f"{written}: this key or table stands twice; keep one."
    return f"{written}: cannot be read ({message.partition(' (at')[0].lower()})."


def key_lines(text: str) -> dict[str, int]:
    """The line of each key path: "gap.width", "hold_down[1].at"."""
    lines: dict[str, int] = {}
    prefix, counts = "", dict[str, int]()
    for number, line in enumerate(text.splitlines(), 1):
        if table := re.match(r"\s*\[\[\s*([\w.\-]+)\s*\]\]", line):
            index = counts.get(table[1], 0)
            counts[table[1]] = index + 1
            prefix = f"{table[1]}[{index}]."
            lines[prefix[:-1]] = number
        elif table := re.match(r"\s*\[\s*([\w.\-]+)\s*\]", line):
            prefix = f"{table[1]}."
            lines[table[1]] = number
        elif key := re.match(r"\s*([\w.\-]+)\s*=", line):
            lines.setdefault(prefix + key[1], number)
    return lines


def apply(raw: dict[str, Any], setting: str) -> Override:
    """Put one `name=value` over the tables of a file.

    Raises:
        InputError: not name=value, or a name that is no key.
    """
    name, equals, written = setting.partition("=")
    name = name.strip()
    if not equals or not name:
        raise InputError(f'"{setting}": a setting is written name=value, "gap=9in" say.')
    value = _value(written.strip())
    key = _full_name(name, raw)
    section, *path = key.split(".")
    if section.startswith("hold_down[") and len(path) == 1:
        return _set_clip(raw, key, value)
    if (alike := _ALIKE.fullmatch(key)) is not None:
        return _same_clips(raw, alike[1], value)
    if section not in SECTIONS or not path:
        near = difflib.get_close_matches(name, [*SHORT_NAMES, "snow", "clip"], n=3)
        hint = f" Near: {', '.join(near)}." if near else ""
        raise InputError(
            f'"{setting}": no key {name}.{hint} Write it as in the file, gap.width=9in, or short: '
            f"{' '.join([*SHORT_NAMES, 'snow', 'clip'])}."
        )
    table = raw
    for step in (section, *path[:-1]):
        table = table.setdefault(step, {})
        if not isinstance(table, dict):
            raise InputError(f'"{setting}": {step} is not a table in the file.')
    before = table.get(path[-1])
    table[path[-1]] = value
    return Override(key, value, before)


def _full_name(name: str, raw: Mapping[str, Any]) -> str:
    if name == "snow":
        snow = raw.get("snow")
        return "snow.roof" if isinstance(snow, dict) and "roof" in snow else "snow.ground"
    if name == "clip":
        return BACK_CLIP
    return SHORT_NAMES.get(name, name)


def _same_clips(raw: dict[str, Any], place: str, like: object) -> Override:
    """Put the clips of one place at another too: hold_down[edge]=back."""
    entries = raw.get("hold_down", [])
    tables = [e for e in entries if isinstance(e, dict)] if isinstance(entries, list) else []
    by_place = {str(entry.get("at", "")).strip().lower(): entry for entry in tables}
    key = f"hold_down[{place}]"
    if place in by_place:
        raise InputError(f"{key}: the file has clips there. Set one of their keys, {key}.count=2.")
    if like not in by_place:
        raise InputError(f'{key}: the file has no [[hold_down]] with at = "{like}" to copy.')
    entries.append({**by_place[like], "at": place})
    return Override(key, like, None)


def _set_clip(raw: dict[str, Any], key: str, value: Any) -> Override:
    """Set a key of the hold-down at a place: hold_down[back].count."""
    place, _, field = key.removeprefix("hold_down[").partition("].")
    entries = raw.get("hold_down", [])
    for entry in entries if isinstance(entries, list) else []:
        if isinstance(entry, dict) and str(entry.get("at", "")).strip().lower() == place:
            before, entry[field] = entry.get(field), value
            return Override(key, value, before)
    name = "clip" if key == BACK_CLIP else key
    raise InputError(f'{name}: the file has no [[hold_down]] with at = "{place}".')


def _value(written: str) -> Any:
    """A setting's value: TOML where it is TOML, else text (9in, 2x6, #2)."""
    try:
        return tomllib.loads(f"x = {written}")["x"]
    except (ValueError, KeyError, RecursionError):
        return written


def validate(raw: Mapping[str, Any], name: str, lines: Mapping[str, int] | None = None) -> Case:
    """The case of a file's tables.

    Raises:
        CaseFaultsError: every fault at once.
    """
    lines = lines or {}
    faults: list[Fault] = []
    parts: dict[str, Any] = {}
    sources: dict[str, str] = {}
    for section, model in SECTIONS.items():
        if section not in raw and section not in ("project", "basis", "gap", "outrigger"):
            continue
        table = raw.get(section, {})
        if not isinstance(table, dict):
            faults.append(Fault(section, f"needs a table, [{section}], given once."))
            continue
        plain, texts = _split_sources(table, model)
        sources |= {f"{section}.{key}": text for key, text in texts.items()}
        parts[section] = _section(model, plain, section, faults)
    entries = raw.get("hold_down", [])
    if isinstance(entries, list) and all(isinstance(entry, dict) for entry in entries):
        parts["hold_down"] = [
            _section(HoldDown, entry, f"hold_down[{i}]", faults) for i, entry in enumerate(entries)
        ]
    else:
        faults.append(Fault("hold_down", "needs tables, each under its own line [[hold_down]]."))
    for section in raw:
        if section not in SECTIONS and section != "hold_down":
            near = difflib.get_close_matches(section, [*SECTIONS, "hold_down"], n=1)
            hint = f" Did you mean [{near[0]}]?" if near else f" Known: {', '.join(SECTIONS)}."
            faults.append(Fault(section, f"no such table.{hint}"))
    faults += cross_faults(raw, parts)
    if faults:
        raise CaseFaultsError(name, [Fault(f.key, f.text, _line(f.key, lines)) for f in faults])
    fields: dict[str, Any] = {
        key: parts[key] if key in parts else model()
        for key, model in SECTIONS.items()
        if key in parts or key != "layout"
    }
    layout = fields.pop("layout", None)
    return Case(**fields, hold_down=parts["hold_down"], layout=layout, sources=sources)


def _split_sources(
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


def _section(
    model: type[Section], table: Mapping[str, Any], path: str, faults: list[Fault]
) -> Section | None:
    try:
        return model.model_validate(table)
    except ValidationError as error:
        for detail in error.errors(include_url=False):
            if not _other_branch(detail):
                faults.append(_fault(detail, model, path))
        return None


def _other_branch(detail: Any) -> bool:
    """Whether an error only says that a value is not the other form a key may take."""
    table = isinstance(detail["input"], dict)
    literal = detail["type"] == "literal_error" and len(detail["loc"]) > 1
    branch = len(detail["loc"]) > 1 and detail["loc"][-1] in ("Drift", "Sliding")
    return (literal and table) or (detail["type"] == "model_type" and branch and not table)


def _fault(detail: Any, model: type[Section], path: str) -> Fault:
    """One of pydantic's errors in our words."""
    keys = [part for part in detail["loc"] if not (isinstance(part, str) and "[" in part)]
    keys = [
        k
        for i, k in enumerate(keys)
        if not (i and isinstance(k, str) and k[0].isupper() and k in _MODELS)
    ]
    key = path + "".join(f"[{k}]" if isinstance(k, int) else f".{k}" for k in keys)
    written = detail.get("input")
    kind = detail["type"]
    if kind == "missing":
        return Fault(key, "is not given, and is needed.")
    if kind == "extra_forbidden":
        near = difflib.get_close_matches(str(keys[-1]), list(model.model_fields), n=1)
        hint = f" Did you mean {near[0]}?" if near else ""
        return Fault(key, f"no such key.{hint}")
    if kind == "value_error":
        return Fault(key, f"= {shown(written)}: {detail['ctx']['error']}")
    if kind == "model_type":
        return Fault(key, f"= {shown(written)}: needs a table, {{ ... }}.")
    if kind == "list_type":
        return Fault(key, f'= {shown(written)}: needs a list, ["edge", "back"] say.')
    if kind in ("literal_error", "enum"):
        allowed = detail["ctx"]["expected"].replace("'", '"').replace(" or ", ", ")
        if keys[-1:] and keys[-1] in ("drift", "sliding"):
            allowed += f", or the table [{key}]"
        return Fault(key, f"= {shown(written)}: allowed are {allowed}.")
    return Fault(key, f"= {shown(written)}: {detail['msg'].lower()}.")


_MODELS = {"Drift", "Sliding", "BlockingFastening"}


def _line(key: str, lines: Mapping[str, int]) -> int | None:
    """The line of a key, or of the nearest table above it."""
    while key:
        for name in (key, f"{key}[0]"):
            if name in lines:
                return lines[name]
        key = re.sub(r"(\[\d+\]|\.?[^.\[\]]+)$", "", key)
    return None


def saved_text(text: str, overrides: Sequence[Override]) -> str:
    """The text of a case file with overrides written into it, its comments kept."""
    if not overrides:
        return text
    import tomlkit

    document: Any = tomlkit.parse(text)
    for override in overrides:
        *path, field = override.key.split(".")
        if (alike := _ALIKE.fullmatch(override.key)) is not None:
            entries = document["hold_down"]
            like = next(e for e in entries if str(e["at"]).strip().lower() == override.value)
            entries.append({**like.unwrap(), "at": alike[1]})
            continue
        if path[0].startswith("hold_down["):
            place = path[0].removeprefix("hold_down[").removesuffix("]")
            table = next(e for e in document["hold_down"] if str(e["at"]).strip().lower() == place)
        else:
            table = document
            for step in path:
                if step not in table:
                    table[step] = tomlkit.table()
                table = table[step]
        table[field] = override.value
    return tomlkit.dumps(document)
