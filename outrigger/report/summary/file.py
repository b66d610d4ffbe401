"""The file of a summary: which writer, by its name; and a PDF's own case computed again."""

import json
import re
import zlib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from outrigger.base.errors import InputError
from outrigger.formula.text import show
from outrigger.report import words
from outrigger.report.data import check as data
from outrigger.report.write.document import Document
from outrigger.verdict.design import Design

PAPERS = {"letter": "us-letter", "a4": "a4"}  # as the typesetter names them
KINDS = (".pdf", ".html", ".md")
LEAST_DIFFERENCE = 1e-9  # of a number; less is the last bits of another machine
MOST_SHOWN = 20


def kind(path: Path) -> str:
    """Which kind of file a path asks for.

    Raises:
        InputError: none of those that are written.
    """
    ending = path.suffix.lower()
    if ending not in KINDS:
        raise InputError(f"{path}: a summary is written as {', '.join(KINDS)}. Name it out.pdf.")
    return ending


def paper_of(name: str) -> str:
    """A size of paper as the typesetter names it.

    Raises:
        InputError: none of those that are known.
    """
    if name not in PAPERS:
        raise InputError(f"--paper {name}: allowed are {', '.join(PAPERS)}.")
    return PAPERS[name]


def written(document: Document, ending: str, paper: str = PAPERS["letter"]) -> str | bytes:
    """A summary as the content of a file of one kind; paper: of `paper_of`."""
    if ending == ".pdf":
        from outrigger.report.write import pdf as write_pdf

        return write_pdf.pdf(document, paper)
    if ending == ".html":
        from outrigger.report.write import html as write_html

        return write_html.html(document)
    from outrigger.report.write import markdown as write_markdown

    return write_markdown.markdown(document)


def carried(path: Path) -> tuple[str, dict[str, Any]]:
    """The case file and the results that a summary's PDF carries.

    Raises:
        InputError: no such file, or no summary's case and results in it.
    """
    try:
        found = dict(attached(path.read_bytes()))
    except OSError as error:
        raise InputError(f"{path}: cannot be read: {error.strerror}.") from error
    if not {"toml", "json"} <= set(found):
        raise InputError(f"{path}: no case and results in it. Name a PDF that summary wrote.")
    return found["toml"], json.loads(found["json"])


def compared(name: str, before: Mapping[str, Any], result: Design) -> tuple[bool, str]:
    """Whether the results that a PDF carries are those of a design, and what differs, in words."""
    now = data.as_data(result, bool(before.get("sample")))
    lines = [f"{name}: case {words.digest(str(before.get('digest', '')))}"]
    old, new = (dict(_flat(one)) for one in (before, now))
    version = old.pop("program.version", ""), new.pop("program.version", "")
    if version[0] != version[1]:
        lines.append(f"made by version {version[0]}, computed again by {version[1]}")
    other = [key for key in {**old, **new} if not _alike(old.get(key), new.get(key))]
    verdict = str(now["verdict"]).upper()
    if not other:
        return True, "\n".join([*lines, f"Same: {verdict}, all {len(new)} values are as printed."])
    lines.append(f"Differs: {len(other)} of {len(new)} values. Verdict now {verdict}.")
    lines += [
        f"  {key}: was {_text(old.get(key))}, is {_text(new.get(key))}"
        for key in other[:MOST_SHOWN]
    ]
    if len(other) > MOST_SHOWN:
        lines.append(f"  and {len(other) - MOST_SHOWN} more")
    return False, "\n".join(lines)


def attached(pdf: bytes) -> Iterator[tuple[str, str]]:
    """Kind and text of each text file inside a PDF, compressed or plain."""
    for mark in re.finditer(rb"/Type\s*/EmbeddedFile", pdf):
        opens = re.compile(rb"stream\r?\n").search(pdf, mark.end())
        if opens is None:
            continue
        head = pdf[pdf.rfind(b" obj", 0, mark.start()) : opens.start()]
        named = re.search(rb"/Subtype\s*/application#2[fF](\w+)", head)
        ends = pdf.find(b"endstream", opens.end())
        if named is None or ends < 0:
            continue
        body = pdf[opens.end() : ends]
        try:
            plain = zlib.decompressobj().decompress(body) if b"/FlateDecode" in head else body
            yield named[1].decode(), plain.decode().rstrip("\r\n")
        except (zlib.error, UnicodeDecodeError):
            continue


def _flat(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    if isinstance(value, Mapping):
        for key, one in value.items():
            yield from _flat(one, f"{path}.{key}" if path else str(key))
    elif isinstance(value, list):
        for number, one in enumerate(value):
            yield from _flat(one, f"{path}[{_name(one, number)}]")
    else:
        yield path, value


def _name(one: Any, number: int) -> str:
    """How a row of a list is named: by what it is, where it says so."""
    if isinstance(one, Mapping) and "id" in one:
        return ", ".join(str(one[k]) for k in ("id", "place", "link") if one.get(k))
    return str(number)


def _alike(one: Any, other: Any) -> bool:
    numbers = (int, float)
    if isinstance(one, numbers) and isinstance(other, numbers):
        return abs(one - other) <= LEAST_DIFFERENCE * max(1.0, abs(one), abs(other))
    return bool(one == other)


def _text(value: Any) -> str:
    if isinstance(value, float):
        return show(value)
    return "not there" if value is None else str(value)
