"""The command `check`."""

import json
import shutil
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from outrigger.base.errors import InputError
from outrigger.base.outputs import Output, output
from outrigger.cases import revised
from outrigger.cases.read import CaseFile
from outrigger.cases.saving import saved
from outrigger.cli.common import (
    EXIT,
    CaseArgument,
    case_of,
    say,
    several_files,
    split,
    told,
    warn,
)
from outrigger.report import words
from outrigger.report.cautions import two_lines
from outrigger.report.data import check as data
from outrigger.report.screen import brief as brief_screen
from outrigger.report.screen import check as screen
from outrigger.report.screen import first
from outrigger.report.words import wrap
from outrigger.verdict.design import Design, design

if TYPE_CHECKING:
    from outrigger.studies.changes import Way

SHEETS = (".pdf", ".md")  # of --ask


def check_command(
    case_words: CaseArgument = None,
    everything: Annotated[
        bool, typer.Option("--all", help="Every row, load, assumption and caution.")
    ] = False,
    steps: Annotated[bool, typer.Option("--steps", help="Show the arithmetic.")] = False,
    brief: Annotated[bool, typer.Option("--brief", help="Five short lines to send.")] = False,
    ask: Annotated[
        bool, typer.Option("--ask", help="What is missing and who has it; --ask FILE.pdf or .md.")
    ] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Everything as JSON.")] = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="The reactions as CSV.")] = False,
    save: Annotated[
        Path | None, typer.Option("--save", help="Write the case with its settings to a new file.")
    ] = None,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="Replace the sheet of --ask.")
    ] = False,
) -> None:
    """Check runs of outriggers: ratios, clip loads, loads handed to the house, verdict.

    Of several case files a line for each, the worst first, and the totals of each house wall.
    Without a case file the bundled sample runs. Exit status: 0 pass, 1 fail, 3 open, 2 bad input;
    of several 2 where a file is bad, else 1 where one fails, else 3 where one is open.
    """
    if as_json and as_csv:
        raise InputError("--json and --csv: give one of them.")
    if names := several_files(case_words):
        from outrigger.cli import several  # most runs are of one case, and start sooner without

        several.refuse({"--all": everything, "--steps": steps, "--ask": ask, "--csv": as_csv,
                        "--save": save}, names)  # fmt: skip
        several.check(list(case_words or []), brief=brief, as_json=as_json)
    case_words, sheet = _sheet(case_words) if ask else (case_words, None)
    case, overrides, file, sample = case_of(case_words)
    if (to := output("--save", save, (), file.reads)) is not None:
        if more := revised.next_setting(case, overrides):
            case_words = [*(case_words or []), *more]
            case, overrides = file.case(split(case_words)[1])
        assert case.origin is not None  # it was read just now
        to.write(saved(file, overrides, case.origin.tables, to.path))
    result = design(case)
    width = shutil.get_terminal_size().columns
    if as_json:
        warn((), sample)
        say(json.dumps(data.as_data(result, sample), indent=1, allow_nan=False))
    elif as_csv:
        warn(two_lines(result), sample)
        say(data.reactions_csv(result, sample).rstrip("\n"))
    elif brief:
        say(brief_screen.lines(result, changed=bool(overrides), sample=sample))
    elif ask:
        _asked(result, output("--ask", sheet, SHEETS, file.reads, overwrite), width, sample)
    else:
        found, command = ways_of(result, case_words, file)
        overrides = told(file, split(case_words)[1], overrides, result)
        whole = partial(screen.page, steps=steps) if everything or steps else first.page
        say(whole(result, width, sample=sample, overrides=overrides, ways=found, command=command))
    raise typer.Exit(EXIT[result.verdict])


def _sheet(given: list[str] | None) -> tuple[list[str], Path | None]:
    """The words of --ask without the file of its sheet, and that file."""
    named = [word for word in given or [] if word.endswith(SHEETS) and "=" not in word]
    return [w for w in given or [] if w not in named], Path(named[0]) if named else None


def _asked(result: Design, to: Output | None, width: int, sample: bool) -> None:
    """Print the ask sheet, or write it."""
    from outrigger.report import ask

    if to is None:
        say(words.whole([ask.lines(result, width), "", wrap(words.ENGINEERS_LINE, width)], sample))
        return
    from outrigger.report.summary.file import written

    to.write(written(ask.document(result, sample), to.path.suffix.lower()))
    say(f"{to.path} written.")


def ways_of(
    result: Design, case_words: list[str] | None, read: CaseFile
) -> "tuple[list[Way], Callable[[Way], str]]":
    """What would make a case that does not pass work, and the command that tries each."""
    if result.verdict == "pass":
        return [], str
    from outrigger.studies import changes as ways  # most runs pass, and start sooner without it

    file, settings = split(case_words)
    found = ways.ways(result, lambda more: read.case([*settings, *more])[0])
    return found, lambda way: ways.command_of(file, settings, way)
