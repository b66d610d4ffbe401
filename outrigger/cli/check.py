"""The command `check`."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from outrigger.base.errors import InputError
from outrigger.base.outputs import output
from outrigger.cases.read import CaseFile
from outrigger.cases.settings import saved_text
from outrigger.cli.common import (
    EXIT,
    CaseArgument,
    case_of,
    say,
    split,
    warn,
)
from outrigger.report.cautions import two_lines
from outrigger.report.data import check as data
from outrigger.report.screen import check as screen
from outrigger.verdict.design import Design, design

if TYPE_CHECKING:
    from outrigger.studies.changes import Way


def check_command(
    case_words: CaseArgument = None,
    steps: Annotated[bool, typer.Option("--steps", help="Show the arithmetic.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Everything as JSON.")] = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="The reactions as CSV.")] = False,
    save: Annotated[
        Path | None, typer.Option("--save", help="Write the case with its settings to a new file.")
    ] = None,
) -> None:
    """Check one run of outriggers: ratios, clip loads, loads handed to the house, verdict.

    Without a case file the bundled sample runs. Exit status: 0 pass, 1 fail, 3 open, 2 bad input.
    """
    if as_json and as_csv:
        raise InputError("--json and --csv: give one of them.")
    case, overrides, file, sample = case_of(case_words)
    if (to := output("--save", save, (), [file.path])) is not None:
        _, settings = split(case_words)
        to.write(saved_text(file.text, overrides, file.tables(settings)))
    result = design(case)
    width = shutil.get_terminal_size().columns
    if as_json:
        warn((), sample)
        say(json.dumps(data.as_data(result, sample), indent=1, allow_nan=False))
    elif as_csv:
        warn(two_lines(result), sample)
        say(data.reactions_csv(result).rstrip("\n"))
    else:
        found, command = ways_of(result, case_words, file)
        page = screen.page(
            result,
            width,
            sample=sample,
            overrides=overrides,
            steps=steps,
            ways=found,
            command=command,
        )
        say(page)
    raise typer.Exit(EXIT[result.verdict])


def ways_of(
    result: Design, case_words: list[str] | None, read: CaseFile
) -> "tuple[list[Way], Callable[[Way], str]]":
    """What would make a case that does not pass work, and the command that tries each."""
    if result.verdict == "pass":
        return [], str
    from outrigger.studies import changes as ways  # most runs pass, and start sooner without it

    file, settings = split(case_words)
    found = ways.ways(result, lambda one: read.case([*settings, one])[0])
    return found, lambda way: ways.command_of(file, settings, way)
