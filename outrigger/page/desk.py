"""A case file on the desk: its text as the page has it, what comes of that, and saving it.

The page holds the text with its answers, and the stamp of the file as it was read; nothing is kept
here but the last few designs, so that several windows do not disturb each other.
"""

import hashlib
import time
import tomllib
from collections import OrderedDict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from threading import Lock
from typing import Any

from outrigger.base.errors import InputError, OutriggerError
from outrigger.base.files import write_new
from outrigger.cases.faults import Fault
from outrigger.cases.filled import filled
from outrigger.cases.model import Origin
from outrigger.cases.read import CaseFile, key_lines, parse, read_text
from outrigger.cases.revised import KEY, following
from outrigger.cases.saving import saved
from outrigger.cases.settings import Override
from outrigger.page import answer as said
from outrigger.page.form import Form, hidden, places_of, taken, values_of
from outrigger.verdict.design import Design, design

KEPT = 6  # designs that a picture or a paper may still be asked of
ELSEWHERE = (
    "The file has been changed elsewhere since this page read it: Save does not write over that. "
    "Reload to see it; what you changed here is then gone, so note it first."
)
GONE = "That answer is no longer at hand. Change a field, or load the page again."


class SupersededError(Exception):
    """A newer answer has been asked for."""


@dataclass(eq=False)
class Desk:
    """The file of a page; `make`: the form of a text; `starter`: the text of a file that is not
    there yet; `sample`: it belongs to the program and is not written."""

    path: Path
    make: Callable[[str], Form]
    starter: str = ""
    sample: bool = False
    newest: str = ""
    _designs: "OrderedDict[str, Design]" = field(default_factory=OrderedDict)
    _disk: tuple[str, dict[str, Any] | None] | None = None
    _lock: Lock = field(default_factory=Lock)

    def read(self) -> tuple[str, str]:
        """The text of the file and its stamp, empty for one that is not there yet.

        Raises:
            InputError: it cannot be read.
        """
        if self.starter and not self.path.exists():
            return self.starter, ""
        stamp = self.stamp()
        return read_text(self.path), stamp

    def stamp(self) -> str:
        """What the file on the disk and its base are known by; empty: it is not there."""
        try:
            found = self.path.read_bytes()
        except FileNotFoundError:
            return ""
        except OSError as error:
            raise InputError(f"{self.path}: cannot be read: {error.strerror}.") from None
        base = self._base(found.decode(errors="replace"))
        return hashlib.sha256(found + (base.text.encode() if base else b"")).hexdigest()

    def _base(self, text: str) -> CaseFile | None:
        """The base of a text; None where it names none, or none that can be read."""
        try:
            return CaseFile(self.path, text).base
        except InputError:
            return None

    def _lines(self, text: str) -> dict[str, int]:
        """The keys that a text and its base state, as faults name them."""
        base = self._base(text)
        return {**(key_lines(base.text) if base else {}), **key_lines(text)}

    def answer(self, text: str, stamp: str, typed: Mapping[str, str]) -> dict[str, Any]:
        """A text with what was typed in it, and what comes of it: the verdict, or faults."""
        begun = time.perf_counter()
        form = self.make(text)
        found = taken(form, text, typed)
        answer = self._of(form, found.text, found.told, found.refused)
        answer |= self._state(found.text, stamp)
        return answer | {"ms": round(1000 * (time.perf_counter() - begun), 1)}

    def cured(self, text: str, stamp: str, settings: Sequence[str]) -> dict[str, Any]:
        """A text with the settings of a cure in it, and what comes of it."""
        file = CaseFile(self.path, text)
        case, overrides = file.case(settings)
        assert case.origin is not None  # it was read just now
        return self.answer(saved(file, overrides, case.origin.tables, self.path), stamp, {})

    def _of(
        self, form: Form, text: str, told: Sequence[str], refused: Mapping[str, str]
    ) -> dict[str, Any]:
        """What comes of a text: values of the fields, faults beside them, the answer in HTML."""
        links = form.links
        places = places_of(text)
        found: dict[str, Any] = {
            "text": text, "values": values_of(form, text), "hidden": hidden(form, text),
            "faults": dict(refused), "token": "", "verdict": "", "status": "none",
        }  # fmt: skip
        self.newest = token = hashlib.sha256(text.encode()).hexdigest()[:20]
        listed: Sequence[Fault] = ()
        try:
            result = design(self._case(text))
        except OutriggerError as error:
            listed = getattr(error, "faults", (Fault("", str(error)),))
        if listed or refused:
            given = self._lines(text)
            beside = {said.keyed(one.key, places): one for one in listed}
            found["faults"] = {
                key: said.fault_words(one, given) for key, one in beside.items() if key in links
            } | found["faults"]
            untouched = self._untouched(text) and not refused
            found["verdict"] = _no_verdict(len(listed), len(refused), untouched)
            found["html"] = said.faults(listed, refused, given, links, places, untouched)
            return found
        self._keep(token, result)
        return found | {
            "token": token, "verdict": said.verdict(result), "status": result.verdict,
            "html": said.answer(result, token, links, places, told),
        }  # fmt: skip

    def _untouched(self, text: str) -> bool:
        """Whether nothing is said of a job: a starter as it is written."""
        tables = tomllib.loads(text)
        return not any(tables.get(name) for name in ("gap", "outrigger", "hold_down", "house_roof"))

    def _case(self, text: str) -> Any:
        """The case of a text; it knows which of its keys the file on the disk has otherwise."""
        case, _ = CaseFile(self.path, text).case()
        assert case.origin is not None  # it was read just now
        changed = tuple(self._changed(case.origin.tables))
        return case.read_from(Origin(case.origin.tables, text, (), changed, str(self.path)))

    def _changed(self, tables: Mapping[str, Any]) -> "list[Override]":
        """The keys that differ from the file on the disk; none where it is no case."""
        before = self._on_disk()
        if before is None:
            return []
        return [
            Override(key, _at(tables, key), _at(before, key))
            for key in dict.fromkeys((*_flat(tables), *_flat(before)))
            if _at(tables, key) != _at(before, key)
        ]

    def _on_disk(self) -> dict[str, Any] | None:
        """The tables of the file on the disk, where it is a case: a paper of it may be out."""
        text, stamp = self.read()
        if self._disk is None or self._disk[0] != stamp:
            try:
                file = CaseFile(self.path, text)
                file.case()
                self._disk = stamp, file.tables()
            except InputError:
                self._disk = stamp, None
        return self._disk[1]

    def _state(self, text: str, stamp: str) -> dict[str, Any]:
        """How the page's text stands beside the file."""
        now, at = self.read()
        elsewhere = at != stamp
        return {"changed": text != now, "elsewhere": ELSEWHERE if elsewhere else "", "stamp": stamp}

    def _keep(self, token: str, result: Design) -> None:
        with self._lock:
            self._designs[token] = result
            self._designs.move_to_end(token)
            while len(self._designs) > KEPT:
                self._designs.popitem(last=False)

    def designed(self, token: str) -> Design:
        """A design that was answered just now.

        Raises:
            InputError: it is no longer at hand.
        """
        with self._lock:
            found = self._designs.get(token)
        if found is None:
            raise InputError(GONE)
        return found

    def more(self, token: str) -> str:
        """What takes longer: cures and marks.

        Raises:
            SupersededError: a newer answer was asked for meanwhile.
        """
        from outrigger.layout.layout import layout
        from outrigger.studies import changes

        result = self.designed(token)
        origin = result.case.origin
        assert origin is not None
        file = CaseFile(self.path, origin.text)

        def read(settings: Sequence[str]) -> Any:
            if self.newest != token:
                raise SupersededError
            return file.case(settings)[0]

        found = changes.ways(result, read)
        laid = None if result.case.layout is None else layout(result.case)
        return said.more(result, found, laid, token)

    def save(self, text: str, stamp: str) -> dict[str, Any]:
        """Write the text to the file, unless that was changed elsewhere; a changed case has the
        next revision.

        Raises:
            InputError: it was, it belongs to the program, or it cannot be written.
        """
        if self.sample:
            raise InputError("The sample is not written over. Begin your own: outrigger new.")
        if self.stamp() != stamp:
            raise InputError(ELSEWHERE)
        parse(text, self.path.name)  # its error is in words
        before, told = self._on_disk() if stamp else None, "Saved."
        now = CaseFile(self.path, text).tables()
        if before is not None and before != now:
            old, new = (one.get("project", {}).get("revision", "0") for one in (before, now))
            if old == new:
                text = filled(text, {KEY: following(str(new))})
                told = f"Saved as revision {following(str(new))}."
        write_new(self.path, text, overwrite=bool(stamp))
        return self.answer(text, self.stamp(), {}) | {"told": told}


def _no_verdict(faults: int, refused: int, untouched: bool) -> str:
    """What stands where the verdict would."""
    if untouched:
        return "Nothing is stated yet. Fill in what is asked; what you do not know, leave."
    if refused:
        one = "1 answer" if refused == 1 else f"{refused} answers"
        return f"No verdict: {one} cannot be read. See beside the field."
    things = "1 thing is" if faults == 1 else f"{faults} things are"
    return f"No verdict yet: {things} to be said or put right."


def _flat(tables: Mapping[str, Any]) -> list[str]:
    """The keys of a file, a table and a key each."""
    return [
        f"{name}.{key}" if isinstance(table, dict) else name
        for name, table in tables.items()
        for key in (table if isinstance(table, dict) else [""])
    ]


def _at(tables: Mapping[str, Any], path: str) -> Any:
    name, _, key = path.partition(".")
    table = tables.get(name)
    return table.get(key) if isinstance(table, dict) and key else table
