"""The papers that the page makes: the ask sheet, the calculation summary."""

import re

from outrigger.base.errors import InputError
from outrigger.cases.saving import whole
from outrigger.page.beside import own_part, stamped
from outrigger.page.desk import Answered, Desk
from outrigger.report import ask
from outrigger.report.summary.file import written


def ask_sheet(found: Answered, desk: Desk) -> tuple[str, bytes]:
    """The name and the bytes of the sheet of what is missing."""
    result = found.design
    made = written(ask.document(result, result.case.project.invented), ".pdf")
    return _name(desk, "ask"), _bytes(made)


def summary(found: Answered, desk: Desk) -> tuple[str, bytes]:
    """The name and the bytes of the summary for the engineer, of the file as it is saved; over a
    base it carries both in one.

    Raises:
        InputError: the answer is of another text than the file, or of another base: two papers
            never carry one revision and two cases.
    """
    from outrigger.report.summary import build
    from outrigger.studies import for_summary

    result, sheet = found.design, found.sheet
    origin = result.case.origin
    assert origin is not None  # it was read just now
    text, stamp = desk.read()
    if sheet.text != text or not own_part(stamp):
        raise InputError("Save first: the summary carries the revision of the file as it is saved.")
    if stamped(own_part(stamp), sheet) != stamp:
        raise InputError(f"{sheet.base_name} has been changed since this answer. Reload the file.")
    given = whole(sheet.file, (), origin.tables)
    called = build.Called(given, origin.tables, result.case.project.invented, ())
    document = build.build(for_summary.findings(result), called)
    return _name(desk, "summary"), _bytes(written(document, ".pdf"))


def _name(desk: Desk, what: str) -> str:
    """A name that every system takes."""
    stem = re.sub(r"[^A-Za-z0-9._-]+", "-", desk.path.stem).strip("-.") or "job"
    return f"{stem}-{what}.pdf"


def _bytes(made: str | bytes) -> bytes:
    return made if isinstance(made, bytes) else made.encode()
