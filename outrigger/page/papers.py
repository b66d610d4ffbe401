"""The papers that the page makes: the ask sheet, the calculation summary."""

import re

from outrigger.base.errors import InputError
from outrigger.cases.read import CaseFile
from outrigger.cases.saving import whole
from outrigger.page.desk import Desk
from outrigger.report import ask
from outrigger.report.summary.file import written
from outrigger.verdict.design import Design


def ask_sheet(result: Design, desk: Desk) -> tuple[str, bytes]:
    """The name and the bytes of the sheet of what is missing."""
    made = written(ask.document(result, result.case.project.invented), ".pdf")
    return _name(desk, "ask"), _bytes(made)


def summary(result: Design, desk: Desk) -> tuple[str, bytes]:
    """The name and the bytes of the summary for the engineer, of the file as it is saved.

    Raises:
        InputError: the answer is of another text than the file: two papers never carry one revision
            and two cases.
    """
    from outrigger.report.summary import build
    from outrigger.studies import for_summary

    origin = result.case.origin
    if origin is None or origin.text != desk.read()[0] or not desk.stamp():
        raise InputError("Save first: the summary carries the revision of the file as it is saved.")
    text = whole(CaseFile(desk.path, origin.text), (), origin.tables)
    called = build.Called(text, origin.tables, result.case.project.invented, ())
    document = build.build(for_summary.findings(result), called)
    return _name(desk, "summary"), _bytes(written(document, ".pdf"))


def _name(desk: Desk, what: str) -> str:
    """A name that every system takes."""
    stem = re.sub(r"[^A-Za-z0-9._-]+", "-", desk.path.stem).strip("-.") or "job"
    return f"{stem}-{what}.pdf"


def _bytes(made: str | bytes) -> bytes:
    return made if isinstance(made, bytes) else made.encode()
