"""The case file: read from disk, its TOML put right or its mistakes named, settings put over it."""

import re
import tomllib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from outrigger.base.errors import InputError
from outrigger.base.files import read_up_to
from outrigger.base.shell import command
from outrigger.cases.faults import CaseFaultsError, Fault, key_part
from outrigger.cases.model import Case, Origin
from outrigger.cases.settings import Override, apply_all
from outrigger.cases.validate import validate

LARGEST_FILE = 1_000_000  # bytes; a case file has a few thousand
CURLY = "“”„«»‘’"


@dataclass(frozen=True)
class CaseFile:
    """A case file as it was read, once: a pipe gives its text once, a file may change meanwhile."""

    path: Path
    text: str

    def case(self, settings: Iterable[str] = ()) -> tuple[Case, tuple[Override, ...]]:
        """Its case with `name=value` settings put over it.

        Raises:
            InputError: a setting is not `name=value`.
            CaseFaultsError: the file is wrong; every fault at once.
        """
        raw, typed = self.tables(), tuple(settings)
        overrides = apply_all(raw, typed)
        case = validate(raw, self.path.name, key_lines(self.text))
        return case.read_from(Origin(raw, self.text, typed, overrides, str(self.path))), overrides

    def tables(self, settings: Iterable[str] = ()) -> dict[str, Any]:
        """Its tables as it writes them, with settings put over them.

        Raises:
            InputError: as `case`.
        """
        raw = parse(self.text, self.path.name)
        apply_all(raw, settings)
        return raw


def opened(path: Path) -> CaseFile:
    """A case file, read.

    Raises:
        InputError: as `read_text`.
    """
    return CaseFile(path, read_text(path))


def read_case(path: Path, settings: Iterable[str] = ()) -> tuple[Case, tuple[Override, ...]]:
    """The case of a file with `name=value` settings put over it.

    Raises:
        InputError: the file cannot be read, or a setting is not `name=value`.
        CaseFaultsError: the file is read but wrong; every fault at once.
    """
    return opened(path).case(settings)


def read_text(path: Path) -> str:
    """The text of a case file, whatever its byte-order mark.

    Raises:
        InputError: no such file, a folder, too large, or not text.
    """
    try:
        data = read_up_to(path, LARGEST_FILE, "a case file")
    except FileNotFoundError:
        new = command("new", path.name)
        raise InputError(f'{path}: no such file. "{new}" writes a starter.') from None
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
        found = re.match(r"\s*([\w.\-]+)\s*=\s*(.*)$", line.rstrip())
        if found is None:
            continue
        key, value = found[1], found[2].partition(" #")[0].strip()
        if not all(key.split(".")):
            yield Fault(
                key, f'no key: one dot between two words. Write it "{_undotted(key)}".', number
            )
            continue
        if value.startswith(("[", "{", '"""', "'''")):  # may go on over lines
            if any(c in value for c in CURLY) and '"' not in value:
                yield Fault(key, f'= {value}: curly quotes; use straight ones, ".', number)
            continue
        try:
            tomllib.loads(line)
        except (ValueError, RecursionError):
            yield Fault(key, f"= {value}: {_mended(key, value)}", number)


def _undotted(key: str) -> str:
    """A key with one dot between its words."""
    return ".".join(part for part in key.split(".") if part) or "gap.width"


def _mended(key: str, value: str) -> str:
    """What to do about a value that is not TOML."""
    bare = value.strip("\"'" + CURLY)
    quoted = r"""(?:"[^"]*"|'[^']*')"""
    if re.fullmatch(rf"{quoted}\s*(//|--|;).*", value):
        return "a remark begins with #."
    if re.fullmatch(rf"{quoted}[\s,]+{quoted}", value):
        return "two values; keep one."
    if any(c in value for c in CURLY):
        return f'curly quotes; use straight ones: "{bare}".'
    if key == "blocking" and bare.lower() in ("yes", "no", "true", "false"):
        return 'which places? ["edge", "back"], say; [] for none.'
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
            if re.sub(r"\s", "", header[1]) == "[hold_down]":  # its keys stand for one place
                said = "[hold_down]: write [[hold_down]], in two brackets, for each place."
                yield Fault("", said, number)
                table = f"@{number}"
                continue
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
    if found := re.match(r"([\w.\-]+)\s*:\s*(\S.*)", written):
        return f"{written}: write {found[1]} = {found[2]}"
    if "overwrite" in message or "already" in message or "twice" in message:
        return f"{written}: this key or table stands twice; keep one."
    return f"{written}: cannot be read ({message.partition(' (at')[0].lower()})."


_PART = r"""(?:[\w\-]+|"(?:[^"\\]|\\.)*"|'[^']*')"""
_KEY = rf"\s*({_PART}(?:\s*\.\s*{_PART})*)\s*"


def key_lines(text: str) -> dict[str, int]:
    """The line of each key path: "gap.width", "hold_down[1].at", 'gap."no word"'."""
    lines: dict[str, int] = {}
    prefix, counts = "", dict[str, int]()
    for number, line in enumerate(text.splitlines(), 1):
        if table := re.match(rf"\s*\[\[{_KEY}\]\]", line):
            name = _path(table[1])
            index = counts.get(name, 0)
            counts[name] = index + 1
            prefix = f"{name}[{index}]."
            lines[prefix[:-1]] = number
        elif table := re.match(rf"\s*\[{_KEY}\]", line):
            prefix = f"{_path(table[1])}."
            lines[prefix[:-1]] = number
        elif key := re.match(rf"{_KEY}=", line):
            lines.setdefault(prefix + _path(key[1]), number)
    return lines


def _path(written: str) -> str:
    """A key as faults name it: no blanks, quotes only where they are needed."""
    if re.fullmatch(r"[\w.\-]+", written):
        return written
    try:
        table: Any = tomllib.loads(f"{written} = 0")
    except ValueError:
        return written
    parts = []
    while isinstance(table, dict):
        ((name, table),) = table.items()
        parts.append(key_part(name))
    return ".".join(parts)
