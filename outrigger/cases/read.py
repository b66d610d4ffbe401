"""The case file: read from disk, its TOML put right or its mistakes named, settings put over it."""

import difflib
import re
import tomllib
from collections.abc import Iterable, Mapping
from copy import deepcopy
from functools import cached_property, lru_cache
from pathlib import Path
from typing import Any

from msgspec import Struct

from outrigger.base.errors import InputError
from outrigger.base.files import read_up_to
from outrigger.base.shell import command
from outrigger.cases import base as bases
from outrigger.cases.faults import SETTING, CaseFaultsError, Fault, key_part, shown
from outrigger.cases.model import Case, Origin
from outrigger.cases.names import BASE_KEY
from outrigger.cases.settings import Override, apply_all, as_tables, keys_set
from outrigger.cases.validate import validate

LARGEST_FILE = 1_000_000  # bytes; a case file has a few thousand

# how files of other programs begin
OTHER_FILES = {
    b"PK\x03\x04": "a word-processor or other packed file", b"{\\rtf": "a word-processor file",
    b"\xd0\xcf\x11\xe0": "a word-processor file", b"%PDF": "a PDF", b"<!": "a web page",
    b"<html": "a web page",
}  # fmt: skip


class CaseFile(Struct, frozen=True, dict=True):
    """A case file as it was read, once: a pipe gives its text once, a file may change meanwhile."""

    path: Path
    text: str

    @cached_property
    def base(self) -> "CaseFile | None":
        """The file whose keys it shares; None: it names none.

        Raises:
            CaseFaultsError: it names no case file, itself, or one that stands on another.
        """
        tables = parse(self.text, self.path.name)
        if BASE_KEY not in tables:
            return None
        named = tables[BASE_KEY]
        path = self.path.parent / named if isinstance(named, str) and named.strip() else None
        if path is None:
            raise self._of_base(named, 'needs the name of a case file, "job.toml" say.')
        if path.resolve() == self.path.resolve():
            raise self._of_base(
                named, "is this file itself. Name the file whose keys it shares, or leave base out."
            )
        try:
            found = CaseFile(path, read_text(path))
        except InputError as error:
            text = f"{error} It is looked for from the folder of {self.path.name}."
            raise self._of_base(named, text) from None
        if BASE_KEY in parse(found.text, path.name):
            raise self._of_base(
                named,
                f"has a base of its own, line {key_lines(found.text).get(BASE_KEY)} there; a base "
                "stands on no other. Put what it takes from there into it.",
            )
        return found

    def _of_base(self, named: object, text: str) -> CaseFaultsError:
        line = key_lines(self.text).get(BASE_KEY)
        return CaseFaultsError(self.path.name, [Fault(BASE_KEY, f"= {shown(named)}: {text}", line)])

    @property
    def reads(self) -> list[Path]:
        """The files that it is read from."""
        return [self.path, *([self.base.path] if self.base else [])]

    def case(self, settings: Iterable[str] = ()) -> tuple[Case, tuple[Override, ...]]:
        """Its case with `name=value` settings put over it.

        Raises:
            InputError: a setting is not `name=value`.
            CaseFaultsError: the file is wrong; every fault at once.
        """
        raw, typed = self.tables(), tuple(settings)
        overrides = apply_all(raw, typed)
        more = [*self._of_the_old(), *beside_settings(self.tables(), overrides, self.path.name)]
        lines, files = self.stands()
        put_over = keys_set(raw, overrides)
        lines |= dict.fromkeys(put_over, SETTING)
        files = {key: name for key, name in files.items() if key not in put_over}
        case = validate(raw, self.path.name, lines, files, more)
        text = "" if self.base else self.text  # its own text alone is not the case
        return case.read_from(Origin(raw, text, typed, overrides, str(self.path))), overrides

    def _of_the_old(self) -> list[Fault]:
        """What the base says for values that the file states anew."""
        if self.base is None:
            return []
        own = parse(self.text, self.path.name)
        return bases.of_the_old(self.base.tables(), own, self.base.path.name)

    def stands(self) -> tuple[dict[str, int], dict[str, str]]:
        """The line of every key that counts, and the name of the base for those that stand there.

        Raises:
            InputError: as `base`.
        """
        lines = key_lines(self.text)
        if self.base is None:
            return lines, {}
        own = parse(self.text, self.path.name)
        below = bases.kept_lines(key_lines(self.base.text), self.base.tables(), own)
        return {**below, **lines}, {key: self.base.path.name for key in below if key not in lines}

    def tables(self, settings: Iterable[str] = ()) -> dict[str, Any]:
        """Its tables as it writes them over those of its base, with settings put over them.

        Raises:
            InputError: as `case`.
        """
        raw = parse(self.text, self.path.name)
        if self.base is not None:
            raw = bases.merged(self.base.tables(), raw)
        apply_all(raw, settings)
        return raw


def beside_settings(
    tables: Mapping[str, Any], overrides: Iterable[Override], name: str
) -> list[Fault]:
    """What tables, called `name`, say for values that settings over them state anew, and what these
    do not move with them."""
    every = [each for one in overrides for each in (one, *one.too)]
    if not (own := as_tables({one.key: one.value for one in every})):
        return []
    return bases.of_the_old(tables, own, name, bases.OF_ITS_OWN)


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
        like = _alike(path)
        hint = f" Did you mean {like}?" if like else ""
        raise InputError(f'{path}: no such file.{hint} "{new}" writes a starter.') from None
    for start, kind in OTHER_FILES.items():
        if data.startswith(start):
            raise InputError(f"{path}: {kind}, not a case file. A case is plain text, UTF-8.")
    utf16 = data.startswith((b"\xff\xfe", b"\xfe\xff"))
    try:
        text = data.decode("utf-16" if utf16 else "utf-8-sig")
    except UnicodeDecodeError:
        raise InputError(f"{path}: not text in UTF-8. Save it as plain text, UTF-8.") from None
    if "\0" in text:
        raise InputError(f"{path}: a binary file, not a case file.")
    return text.replace("\r\n", "\n")


def _alike(path: Path) -> Path | None:
    """The case file in the same folder that a name was probably meant for."""
    try:
        here = {one.name: one for one in path.parent.glob("*.toml")}
    except OSError:
        return None
    near = difflib.get_close_matches(path.name, list(here), n=1, cutoff=0.75)
    names = [f"{path.name}.toml", f"{path.stem}.toml", *near]
    return next((here[name] for name in names if name in here), None)


def parse(text: str, name: str) -> dict[str, Any]:
    """The tables of a TOML text.

    Raises:
        CaseFaultsError: not TOML; each line that cannot be read is named in words.
    """
    try:
        return deepcopy(_loaded(text))
    except RecursionError:
        raise CaseFaultsError(name, [Fault("", "nested too deep to be a case file.")]) from None
    except ValueError as error:  # not TOML, or a number beyond reading
        from outrigger.cases.broken import broken  # a good file starts sooner

        found = re.search(r"at line (\d+)", str(error))
        line = int(found[1]) if found else None
        raise CaseFaultsError(name, broken(text, str(error), line)) from None


@lru_cache(8)
def _loaded(text: str) -> dict[str, Any]:
    """A text as TOML has it; a page asks for the same few again and again."""
    return tomllib.loads(text)


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
