"""What the commands share: their words, the case they name, printing, exit status."""

import os
import re
import shutil
import sys
import textwrap
from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from outrigger.base import quantity
from outrigger.base.errors import InputError, OutriggerError
from outrigger.base.shell import command
from outrigger.cases.model import Case
from outrigger.cases.read import CaseFile, opened, read_text
from outrigger.cases.settings import Override
from outrigger.formula.check import Status
from outrigger.report import words
from outrigger.verdict.design import Design

BAD_INPUT = 2
BROKEN = 70  # a mistake of the program itself; as other programs say it
STOPPED = 130  # by Ctrl-C; as shells say it
EXIT = {"pass": 0, "fail": 1, "open": 3}
# set by a shell that asks what a word may become: nothing of it is built otherwise
COMPLETING = "_OUTRIGGER_COMPLETE" in os.environ
SAMPLE_FILE = Path(__file__).parents[1] / "sample.toml"


def fold(text: str) -> str:
    """Lines folded to the terminal, each keeping its own indent."""
    width = shutil.get_terminal_size().columns
    folded = []
    for line in text.splitlines():
        indent = line[: len(line) - len(line.lstrip())]
        folded.append(textwrap.fill(line, max(20, width), subsequent_indent=indent + "  "))
    return "\n".join(folded)


def _complete(ctx: typer.Context, incomplete: str) -> list[str]:
    """What a shell offers for a word of a case command."""
    from outrigger.cli.completion import case_words  # nothing else needs it

    before = next((one for one in ctx.params.values() if isinstance(one, (list, tuple))), ())
    return case_words([str(one) for one in before], incomplete)


CaseArgument = Annotated[
    list[str] | None,
    typer.Argument(
        metavar="[CASE.toml ...] [name=value ...]",
        help="The case file, then settings over it: gap=9in spacing=12in snow=30psf.",
        autocompletion=_complete if COMPLETING else None,
    ),
]


def is_file(word: str) -> bool:
    """Whether a word of a command names a case file, not a setting."""
    return "=" not in word or word.endswith(".toml")


def split(words_given: list[str] | None) -> tuple[str, list[str]]:
    """The case file of a command's words, empty for the sample, and its settings.

    Raises:
        InputError: a word is empty; it is not taken for the sample.
    """
    given = list(words_given or [])
    if any(not word.strip() for word in given):
        raise InputError(
            'an empty word, "": a file or a setting is missing there, in a script say. Leave it '
            "out to run the sample."
        )
    named = bool(given) and is_file(given[0])
    return (given[0], given[1:]) if named else ("", given)


def several_files(words_given: list[str] | None) -> list[str]:
    """The case files that lead the words of a command, where there are two and more."""
    files: list[str] = []
    for word in words_given or []:
        if not (is_file(word) and (word.endswith(".toml") or not files)):
            break
        files.append(word)
    return files if files[1:] else []


def case_of(words_given: list[str] | None) -> tuple[Case, tuple[Override, ...], CaseFile, bool]:
    """The case of a command's words, its settings and its file; without a file the bundled sample.
    The last: whether its data is made up."""
    file, settings = split(words_given)
    if not file:
        here = [path for path in sorted(Path().glob("*.toml")) if _is_case(path)]
        if len(here) == 1:
            hint = f"One case file is here. To check it: {command('check', here[0].name)}"
            print(fold(hint), file=sys.stderr)
    read = opened(Path(file) if file else SAMPLE_FILE)
    case, overrides = read.case(settings)
    return case, overrides, read, not file or case.project.invented


def told(
    file: CaseFile, settings: Sequence[str], overrides: tuple[Override, ...], result: Design
) -> tuple[Override, ...]:
    """The settings as they are told, those marked that move no ratio."""
    if not overrides:
        return ()
    from outrigger.studies.unmoved import marked  # most runs set nothing, and start sooner

    return marked(file, settings, overrides, result)


def _is_case(path: Path) -> bool:
    """Whether a file looks like a case: it has a [gap] table, or names a base that may."""
    try:
        return path.is_file() and bool(re.search(r"(?m)^(\[gap\]|base\s*=)", read_text(path)))
    except (OutriggerError, OSError):
        return False


def say(text: str) -> None:
    """Print results, at once."""
    print(text, flush=True)


def length_of(name: str, written: object) -> float:
    """A length of the command line, in inches; `name` is what the error calls it."""
    try:
        return quantity.read(written, "length")
    except InputError as error:
        raise InputError(f'{name} "{written}": {error}') from None


def warn(lines: Sequence[str], sample: bool = False) -> None:
    """Beside bare rows the two lines of caution, and SAMPLE, on stderr."""
    for line in [words.SAMPLE, *lines] if sample else lines:
        print(fold(line), file=sys.stderr)


def tell(text: str, answer: Status) -> None:
    """Print a sweep and leave: 0 when something works, 1 when nothing, 3 when it cannot say."""
    say(text)
    raise typer.Exit(EXIT[answer])
