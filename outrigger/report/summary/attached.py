"""The case and the results that travel inside a summary's PDF, taken out as its readers list them.

A PDF comes from anywhere: whatever is wrong with it is said in words, and nothing of it is taken
into memory beyond a limit.
"""

import io
import json
import logging
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from outrigger.base.errors import InputError
from outrigger.base.files import read_up_to
from outrigger.base.plain import one_line
from outrigger.cases.read import LARGEST_FILE

LARGEST_PDF = 100_000_000  # bytes; a summary has one
LARGEST_TEXT = {"toml": LARGEST_FILE, "json": 2_000_000}  # bytes; results have fifty thousand
ALONE = ""  # the run of a summary of one
RUN = r"run-(\d{1,3})\.(?:toml|json)"  # how a file of several runs is called
Held = tuple[str, str]  # run and kind of a file
MOST_NODES = 1000  # of the tree of names
LONGEST_INTEGER = 15  # digits; a float holds them all


def carried(path: Path) -> tuple[str, dict[str, Any]]:
    """The text of the case, and the results, that a summary's PDF carries.

    Raises:
        InputError: no such file, or no summary's case and results in it.
    """
    try:
        pdf = read_up_to(path, LARGEST_PDF, "a summary")
    except FileNotFoundError:
        raise InputError(f"{path}: no such file. Name a PDF that summary wrote.") from None
    return attached(pdf, path.name)


def every(path: Path) -> list[tuple[str, str, dict[str, Any]]]:
    """The same of each run of a summary, with its name: one of one run, or those of several.

    Raises:
        InputError: as `carried`.
    """
    try:
        pdf = read_up_to(path, LARGEST_PDF, "a summary")
    except FileNotFoundError:
        raise InputError(f"{path}: no such file. Name a PDF that summary wrote.") from None
    found = _inside(pdf, path.name)
    runs = {run for run, _ in found}
    if runs == {ALONE}:
        return [(path.name, *_pair(found, ALONE, path.name))]
    numbers = sorted(int(run) for run in runs)
    if numbers != list(range(1, len(numbers) + 1)):
        raise InputError(f"{path.name}: a run of it is missing. Name it as summary wrote it.")
    return [
        (f"{path.name}, run {n}", *_pair(found, str(n), f"{path.name}, run {n}")) for n in numbers
    ]


def attached(pdf: bytes, name: str) -> tuple[str, dict[str, Any]]:
    """The text of the case and the results in a PDF called `name`, once each.

    Raises:
        InputError: no PDF, none or two of a kind, too large, or not text; or encrypted.
    """
    return _pair(_inside(pdf, name), ALONE, name)


def _pair(found: dict[Held, str], run: str, name: str) -> tuple[str, dict[str, Any]]:
    """The case and the results of one run.

    Raises:
        InputError: one of them is not there.
    """
    if not {(run, kind) for kind in LARGEST_TEXT} <= set(found):
        raise InputError(f"{name}: no case and results in it. Name a PDF that summary wrote.")
    return found[run, "toml"].rstrip("\r\n"), _results(found[run, "json"], name)


def _inside(pdf: bytes, name: str) -> dict[Held, str]:
    """The texts in a PDF called `name`, by their run and kind, once each.

    Only what the tree of attached files names, as a reader of PDF shows it; not what else stands
    among the bytes.

    Raises:
        InputError: no PDF, two of a kind, too large, or not text; or encrypted.
    """
    import pypdf

    logging.getLogger("pypdf").setLevel(logging.CRITICAL)  # its remarks are of no use here
    found: dict[Held, str] = {}
    try:
        for run, kind, stream in _files(pypdf.PdfReader(io.BytesIO(pdf))):
            if (run, kind) in found:
                raise InputError(
                    f"{name}: two files of the kind .{kind} are attached, and no one can say which "
                    "is the summary's. Name the PDF as summary wrote it."
                )
            data = stream.get_data()
            if len(data) > LARGEST_TEXT[kind]:
                most = LARGEST_TEXT[kind] // 1000
                raise InputError(f"{name}: the .{kind} in it is over {most} kB: not a summary's.")
            found[run, kind] = data.decode()
    except InputError:
        raise
    except pypdf.errors.FileNotDecryptedError:
        raise InputError(
            f"{name}: is encrypted. Name a copy that opens without a password."
        ) from None
    except Exception as error:  # of a file that is no PDF, or is made to break its readers
        raise InputError(
            f"{name}: no PDF that can be read ({one_line(str(error))[:80]})."
        ) from None
    if not found:
        raise InputError(f"{name}: no case and results in it. Name a PDF that summary wrote.")
    return found


def _files(reader: Any) -> Iterator[tuple[str, str, Any]]:
    """Run, kind and stream of each file of a kind of ours in the tree of attached files."""
    names = _of(_of(reader.root_object, "/Names"), "/EmbeddedFiles")
    waiting, looked = [names], 0
    while waiting:
        node = waiting.pop()
        looked += 1
        if looked > MOST_NODES:
            raise ValueError("its tree of attached files has no end")
        waiting += [one.get_object() for one in reversed(_of(node, "/Kids", []))]
        pairs = _of(node, "/Names", [])
        for label, given in zip(pairs[::2], pairs[1::2], strict=False):
            given = given.get_object()
            streams: list[Any] = []
            for stream in _of(given, "/EF").values():
                if not any(stream.get_object() is other for other in streams):
                    streams.append(stream.get_object())
            for stream in streams:
                said = (str(_of(stream, "/Subtype", "")), str(label), str(_of(given, "/UF", "")))
                for kind in LARGEST_TEXT:
                    if any(one.lower().endswith((f"/{kind}", f".{kind}")) for one in said):
                        numbered = re.fullmatch(RUN, str(label))
                        yield numbered[1] if numbered else ALONE, kind, stream


def _of(table: Any, key: str, without: Any = None) -> Any:
    """What stands under a key of a table of the PDF, followed to where it is."""
    found = table.get(key)
    return ({} if without is None else without) if found is None else found.get_object()


def _results(text: str, name: str) -> dict[str, Any]:
    """The results as data.

    Raises:
        InputError: no JSON that `check --json` would write.
    """
    try:
        found = json.loads(text, object_pairs_hook=_once, parse_int=_integer)
    except (ValueError, RecursionError) as error:
        said = one_line(str(error))[:80]
        raise InputError(f"{name}: the results in it cannot be read ({said}).") from None
    if not isinstance(found, dict):
        raise InputError(f"{name}: the results in it are none of a check.")
    return found


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError("a key stands twice")
    return found


def _integer(digits: str) -> int | float:
    return int(digits) if len(digits) <= LONGEST_INTEGER else float(digits)
