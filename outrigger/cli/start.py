"""`new` on a terminal: one question at a time; the answers are the case file, saved after each."""

import shutil
import sys
from collections.abc import Callable
from pathlib import Path

import typer
from msgspec import Struct

from outrigger.base.errors import InputError
from outrigger.base.files import write_new
from outrigger.base.shell import command
from outrigger.cases.faults import CaseFaultsError
from outrigger.cases.filled import filled, stated
from outrigger.cases.names import SCHEMA_KEY, TABLES
from outrigger.cases.read import opened, parse, read_text
from outrigger.cli.answers import Given, Question, Values
from outrigger.cli.check import ways_of
from outrigger.cli.common import BAD_INPUT, EXIT, STOPPED, fold, say
from outrigger.cli.questions import QUESTIONS
from outrigger.loads.layers import LISTED

Ask = Callable[[str], str]
HELP = ("Enter: not known, it stays open. ?: where to find it. <: one back. -: take an answer out. "
        "Ctrl-C stops; what was answered is kept.")  # fmt: skip


def prompt(line: str) -> str:
    """One answer from the terminal."""
    return str(typer.prompt(line, default="", show_default=False, prompt_suffix=" "))


class Draft(Struct, frozen=True):
    """The file that is being answered: read anew before each change, written whole after it, so
    that what an editor wrote into it meanwhile stays."""

    path: Path

    @property
    def given(self) -> Given:
        """What it states so far, by path."""
        text = read_text(self.path)
        parse(text, self.path.name)  # its error is in words
        return stated(text)

    def put(self, values: Values) -> None:
        """Write answers into it."""
        text = filled(read_text(self.path), values)
        write_new(self.path, text, overwrite=True)


def begin(file: Path, starter: str, ask: Ask = prompt) -> None:
    """Ask for what a case file does not say, a new one or one with questions left.

    Raises:
        InputError: the file cannot be written, or is there and is not to be filled in.
    """
    goes_on = _open(file)
    if not goes_on:
        write_new(file, starter)
    draft = Draft(file)
    say(fold(f"{'Going on with' if goes_on else 'New'}: {file}. {HELP}"))
    try:
        _dialogue(draft, ask)
    except (typer.Abort, KeyboardInterrupt, EOFError):
        left = len(_left(draft.given))
        say(fold(f"\nStopped; what was answered is saved, {left} questions are left. To go on:"))
        say(f"  {command('new', str(file))}")
        raise typer.Exit(STOPPED) from None
    _end(draft)


def _open(file: Path) -> bool:
    """Whether a file is there that reads as a case with questions left: not a sample, not another
    kind of file."""
    if not file.is_file():
        return False
    try:
        text = read_text(file)
        tables = parse(text, file.name)
        given = stated(text)
    except InputError:
        return False
    ours = {*TABLES, SCHEMA_KEY}
    whole = set(tables) <= ours and {"project", "gap", "outrigger"} <= set(tables)
    return whole and not given.get("project.invented") and bool(_left(given))


def _left(given: Given) -> list[int]:
    """The questions that are not answered in full."""
    return [i for i, one in enumerate(QUESTIONS) if one.only(given) and one.lacking(given)]


def _dialogue(draft: Draft, ask: Ask) -> None:
    at: int | None = next(iter(_left(draft.given)), None)
    asked = None
    while at is not None:
        question, given = QUESTIONS[at], draft.given
        if at != asked:
            _put_question(at, question, given)
        asked = at
        answer = ask(">").strip()
        if answer == "?":
            say(fold(f"   {question.where} So it is written: {question.example}"))
            continue
        if answer == "<":
            before = [i for i in range(at) if QUESTIONS[i].only(given)]
            at, asked = before[-1] if before else at, None
            continue
        try:
            _take(draft, question, answer)
        except InputError as error:
            say(fold(f"   {error}"))
            continue
        at = next((i for i in _left(draft.given) if i > at), None)


def _put_question(at: int, question: Question, given: Given) -> None:
    say(fold(f"\n{at + 1} of {len(QUESTIONS)}  {question.ask}  (say {question.example})"))
    if now := question.back(given):
        say(fold(f"   So far: {now}. Enter keeps it."))


def _take(draft: Draft, question: Question, answer: str) -> None:
    """Write one answer into the file and read it back."""
    if not answer:
        return
    if answer == "-":
        given = draft.given
        draft.put({key: None for key in given if _belongs(key, question)})
        say("   Taken out; open again.")
        return
    values = question.read(answer, draft.given)
    if not values:
        say("   Nothing is written.")
        return
    draft.put(values)
    given = draft.given
    say(fold(f"   {question.back(given)}"))
    for key, value in values.items():
        if key.endswith("dead_source") and value and LISTED in value:
            say(fold(f"   {value}"))
    if lacking := question.lacking(given):
        say(fold(f"   Open still: {', '.join(lacking)}."))


def _belongs(key: str, question: Question) -> bool:
    """Whether a key goes with an answer that is taken out: the listing with the clips, the table
    of a drift with its "none"."""
    counted = [one.removesuffix("count") for one in question.keys if one.endswith("].count")]
    tables = [one.rpartition(".")[0] for one in question.keys if one.count(".") == 2]
    return key in (*question.keys, *tables) or (
        key.startswith(tuple(counted)) and not key.endswith("].at")
    )


def _end(draft: Draft) -> None:
    """The section, the first screen of check, or what is still needed; how to go on."""
    file, width = str(draft.path), shutil.get_terminal_size().columns
    say("")
    read = opened(draft.path)
    go_on = f"To answer what was left:\n  {command('new', file)}"
    try:
        case, _ = read.case()
    except CaseFaultsError as error:
        say(fold(f"Saved, but not yet a case that can be checked. {error}"))
        say(go_on)
        raise typer.Exit(BAD_INPUT) from None
    from outrigger.report.screen import first, sketch
    from outrigger.verdict.design import design

    result = design(case)
    found, tried = ways_of(result, [file], read)
    say(sketch.sketch(result, width))
    say(f"\nSaved. To check it again:\n  {command('check', file)}")
    if _left(draft.given):
        say(go_on)
    say("")
    say(first.page(result, width, ways=found, command=tried))
    raise typer.Exit(EXIT[result.verdict])


def on_terminal() -> bool:
    """Whether someone is there to be asked."""
    return sys.stdin is not None and sys.stdin.isatty()
