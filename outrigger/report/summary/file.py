"""The file of a summary: which writer, by its name; and a PDF's own case computed again."""

import json
import re
import zlib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from outrigger.base.errors import InputError
from outrigger.cases.read import key_lines, parse
from outrigger.cases.validate import validate
from outrigger.formula.text import show
from outrigger.report import words
from outrigger.report.data import check as data
from outrigger.report.summary import build as summary
from outrigger.report.summary.build import Called
from outrigger.verdict.design import Design, design

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


def written(
    result: Design, given: Called, ending: str, paper: str = "letter", since: Path | None = None
) -> str | bytes:
    """A design's summary as the content of a file; `since`: an earlier case to compare with.

    Raises:
        InputError: no such paper; the earlier case cannot be read.
    """
    if paper not in PAPERS:
        raise InputError(f"--paper {paper}: allowed are {', '.join(PAPERS)}.")
    if since is not None:
        given = replace(given, earlier=summary.since(since, result, given.raw))
    document = summary.build(result, given)
    if ending == ".pdf":
        from outrigger.report.write import pdf as write_pdf

        return write_pdf.pdf(document, PAPERS[paper])
    if ending == ".html":
        from outrigger.report.write import html as write_html

        return write_html.html(document)
    from outrigger.report.write import markdown as write_markdown

    return write_markdown.markdown(document)


def again(path: Path) -> tuple[bool, str]:
    """Whether a summary's PDF says what its own case gives now, and what differs, in words.

    Raises:
        InputError: no such file, or no summary's case and results in it.
    """
    try:
        found = dict(attached(path.read_bytes()))
    except OSError as error:
        raise InputError(f"{path}: cannot be read: {error.strerror}.") from error
    if not {"toml", "json"} <= set(found):
        raise InputError(f"{path}: no case and results in it. Name a PDF that summary wrote.")
    before = json.loads(found["json"])
    text = found["toml"]
    case = validate(parse(text, f"case in {path.name}"), f"case in {path.name}", key_lines(text))
    now = data.as_data(design(case), bool(before.get("sample")))
    lines = [f"{path.name}: case {words.digest(str(before.get('digest', '')))}"]
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


__all__ = ["Called", "again", "attached", "kind", "written"]
