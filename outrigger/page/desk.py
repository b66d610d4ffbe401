"""A case file on the desk: its text as the page has it, what comes of that, and saving it.

The page holds the text with its answers, and the stamp of the file as it was read; nothing is kept
here but the last few designs, so that several windows do not disturb each other.
"""

import hashlib
import time
from collections import OrderedDict
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from threading import Lock
from typing import Any

from msgspec import Struct, field
from msgspec.structs import replace

from outrigger.base.errors import InputError, OutriggerError
from outrigger.base.files import write_new
from outrigger.base.plain import series
from outrigger.cases.faults import Fault
from outrigger.cases.filled import filled
from outrigger.cases.names import BASE_KEY
from outrigger.cases.read import CaseFile, parse, read_text
from outrigger.cases.revised import KEY, following
from outrigger.cases.saving import saved
from outrigger.page import answer as page
from outrigger.page.beside import (
    ELSEWHERE,
    as_ended,
    differing,
    own_part,
    stamped,
    told,
)
from outrigger.page.form import Form
from outrigger.page.sheet import Sheet, Taken, at, taken
from outrigger.verdict.design import Design, design

TOUCHED = ("gap", "outrigger", "hold_down", "house_roof", BASE_KEY)
KEPT = 6  # designs that a picture or a paper may still be asked of
GONE = "That answer is no longer at hand. Change a field, or load the page again."


class SupersededError(Exception):
    """A newer answer has been asked for."""


class Answered(Struct, frozen=True):
    """A design, and the file that it is of, with its base as that was read."""

    sheet: Sheet
    design: Design


class Desk(Struct, eq=False):
    """The file of a page; `make`: the form of what a file states; `starter`: the text of a file
    that is not there yet; `sample`: it belongs to the program and is not written; `shared_by`: the
    cases whose base it is."""

    path: Path
    make: Callable[[Mapping[str, Any]], Form]
    starter: str = ""
    sample: bool = False
    shared_by: tuple[str, ...] = ()
    newest: str = ""
    _designs: "OrderedDict[str, Answered]" = field(default_factory=OrderedDict)
    _disk: tuple[tuple[str, str], dict[str, Any] | None] | None = None
    _lock: Lock = field(default_factory=Lock)

    def read(self) -> tuple[str, str]:
        """The text of the file and its stamp, empty for one that is not there yet.

        Raises:
            InputError: it cannot be read.
        """
        own, text = self._own(), self._text()
        return text, stamped(own, self._readable(text))

    def stamp(self) -> str:
        """What the file on the disk and its base are known by now."""
        return self.read()[1]

    def sheet(self, text: str) -> Sheet:
        """The file with a text."""
        return Sheet(CaseFile(self.path, text))

    def _readable(self, text: str) -> Sheet | None:
        """The file with a text; None where that is no TOML."""
        try:
            parse(text, self.path.name)
        except InputError:
            return None
        return self.sheet(text)

    def _text(self) -> str:
        begins = self.starter and not self.path.exists()
        return self.starter if begins else read_text(self.path)

    def _own(self) -> str:
        """What the file on the disk is known by, without its base; empty: it is not there."""
        try:
            return hashlib.sha256(self.path.read_bytes()).hexdigest()
        except FileNotFoundError:
            return ""
        except OSError as error:
            raise InputError(f"{self.path}: cannot be read: {error.strerror}.") from None

    def answer(self, text: str, stamp: str, typed: Mapping[str, str]) -> dict[str, Any]:
        """A text with what was typed in it, and what comes of it: the verdict, or faults."""
        begun = time.perf_counter()
        sheet = self.sheet(text)
        form = self.make(sheet.given)
        found = taken(form, sheet, typed)
        answer = self._of(form, found) | self._state(found.sheet, stamp)
        return answer | {"ms": round(1000 * (time.perf_counter() - begun), 1)}

    def cured(self, text: str, stamp: str, settings: Sequence[str]) -> dict[str, Any]:
        """A text with the settings of a cure in it, and what comes of it."""
        file = CaseFile(self.path, text)
        case, overrides = file.case(settings)
        assert case.origin is not None  # it was read just now
        return self.answer(saved(file, overrides, case.origin.tables, self.path), stamp, {})

    def _of(self, form: Form, found: Taken) -> dict[str, Any]:
        """What comes of a file: values of the fields, where they stand, faults beside them, the
        answer in HTML."""
        sheet, refused = found.sheet, found.refused
        links, places = form.links, sheet.places
        answer: dict[str, Any] = {
            "text": sheet.text, "values": sheet.values(form), "stands": sheet.stands(form),
            "hidden": sheet.hidden(form), "faults": dict(refused), "back": " ".join(found.back),
            "token": "", "verdict": "", "status": "none",
        }  # fmt: skip
        of = f"{sheet.text}\0{sheet.base_said}"
        self.newest = token = hashlib.sha256(of.encode()).hexdigest()[:20]
        listed: Sequence[Fault] = ()
        try:
            result = design(self._case(sheet))
        except OutriggerError as error:
            listed = getattr(error, "faults", (Fault("", str(error)),))
        if sheet.wrong:
            listed = (Fault("", sheet.wrong),)
        if listed or refused:
            given = {} if sheet.wrong else sheet.file.stands()[0]
            beside = {page.keyed(one.key, places): one for one in listed}
            answer["faults"] = {
                key: page.fault_words(one, given) for key, one in beside.items() if key in links
            } | answer["faults"]
            untouched = _untouched(sheet) and not refused
            answer["verdict"] = _no_verdict(len(listed), len(refused), untouched)
            answer["html"] = page.faults(listed, refused, given, links, places, untouched)
            return answer
        self._keep(token, Answered(sheet, result))
        line = page.verdict(result)
        return answer | {
            "token": token, "verdict": line, "status": result.verdict,
            "html": page.answer(result, token, line, links, places, found.moved),
        }  # fmt: skip

    def _case(self, sheet: Sheet) -> Any:
        """The case of a file; it knows which of its keys the file on the disk has otherwise."""
        case, _ = sheet.file.case()
        assert case.origin is not None  # it was read just now
        before, now = self._on_disk(), case.origin.tables
        changed = () if before is None else tuple(differing(before, now))
        return case.read_from(replace(case.origin, overrides=changed))

    def _on_disk(self) -> dict[str, Any] | None:
        """The tables of the file on the disk over its base, where they are a case: a paper of it
        may be out."""
        sheet = self._readable(self._text())
        if sheet is None:
            return None
        of = sheet.text, sheet.base_said
        if self._disk is None or self._disk[0] != of:
            try:
                sheet.file.case()
                self._disk = of, sheet.tables
            except InputError:
                self._disk = of, None
        return self._disk[1]

    def _state(self, sheet: Sheet, stamp: str) -> dict[str, Any]:
        """How the page's text and its base stand beside the disk; the stamp is then of the base
        that was answered."""
        return {
            "changed": sheet.text != self._text(),
            "elsewhere": told(sheet, self._own(), stamp),
            "stamp": stamped(own_part(stamp), sheet),
        }

    def _keep(self, token: str, result: Answered) -> None:
        with self._lock:
            self._designs[token] = result
            self._designs.move_to_end(token)
            while len(self._designs) > KEPT:
                self._designs.popitem(last=False)

    def answered(self, token: str) -> Answered:
        """A design that was answered just now, and its file.

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

        kept = self.answered(token)
        result, file = kept.design, kept.sheet.file

        def read(settings: Sequence[str]) -> Any:
            if self.newest != token:
                raise SupersededError
            return file.case(settings)[0]

        found = changes.ways(result, read)
        laid = None if result.case.layout is None else layout(result.case)
        return page.more(result, found, laid, token)

    def save(self, text: str, stamp: str) -> dict[str, Any]:
        """Write the text to the file, unless that was changed elsewhere; a changed case has the
        next revision.

        Raises:
            InputError: it was, it belongs to the program, or it cannot be written.
        """
        if self.sample:
            raise InputError("The sample is not written over. Begin your own: outrigger new.")
        own = self._own()
        if own != own_part(stamp):
            raise InputError(ELSEWHERE)
        parse(text, self.path.name)  # its error is in words
        sheet = self.sheet(text)
        if sheet.wrong:
            raise InputError(f"Its base cannot be read. {sheet.wrong}")
        before, said = self._on_disk() if own else None, "Saved."
        if before is not None and before != sheet.tables:
            old, new = (str(at(one, KEY) or "0") for one in (before, sheet.tables))
            if old == new:
                text = filled(text, {KEY: following(new)})
                said = f"Saved as revision {following(new)}."
        ended = as_ended(text, self.path.read_bytes()) if own else text
        write_new(self.path, ended, overwrite=bool(own))
        now = stamp.replace(own, self._own(), 1) if own else self._own()
        return self.answer(text, now, {}) | {"told": f"{said} {self._others()}".strip()}

    def _others(self) -> str:
        """What is said of the cases that stand on a base when it is saved."""
        if not self.shared_by:
            return ""
        several = (
            "are other cases now: give each"
            if self.shared_by[1:]
            else ("is another case now: give it")
        )
        return f"{series(self.shared_by)} {several} its next revision."


def _untouched(sheet: Sheet) -> bool:
    """Whether nothing is said of a job: a starter as it is written."""
    return not any(sheet.tables.get(name) for name in TOUCHED)


def _no_verdict(faults: int, refused: int, untouched: bool) -> str:
    """What stands where the verdict would."""
    if untouched:
        return "Nothing is stated yet. Fill in what is asked; what you do not know, leave."
    if refused:
        one = "1 answer" if refused == 1 else f"{refused} answers"
        return f"No verdict: {one} cannot be read. See beside the field."
    things = "1 thing is" if faults == 1 else f"{faults} things are"
    return f"No verdict yet: {things} to be said or put right."
