"""The command `summary`: the calculation summary for the engineer of record."""

from pathlib import Path
from typing import Annotated

import typer

from outrigger.base.errors import InputError
from outrigger.base.files import write_new
from outrigger.cases.read import parse, read_text
from outrigger.cases.settings import saved_text
from outrigger.cli.common import EXIT, CaseArgument, case_of, fold, say
from outrigger.report import verdict_words, words
from outrigger.verdict.design import design


def summary_command(
    case_words: CaseArgument = None,
    output: Annotated[
        Path | None, typer.Option("-o", "--output", help="File to write: .pdf, .html or .md.")
    ] = None,
    overwrite: Annotated[bool, typer.Option("--overwrite", help="Write over the file.")] = False,
    paper: Annotated[str, typer.Option("--paper", help="letter or a4.")] = "letter",
    since: Annotated[
        Path | None, typer.Option("--since", help="List what changed since this earlier case.")
    ] = None,
    again: Annotated[
        Path | None,
        typer.Option("--again", help="Compute a summary's own case again, and compare."),
    ] = None,
) -> None:
    """Write the calculation summary for the engineer of record.

    A PDF carries its case file: --again out.pdf takes it out, computes it again and says same or
    what differs (exit status 0 or 1). Else exit status: 0 pass, 1 fail, 3 open, 2 bad input.
    """
    from outrigger.report.summary import file as summary_file

    if again is not None:
        same, text = summary_file.again(again)
        say(fold(text))
        raise typer.Exit(0 if same else 1)
    if output is None:
        raise InputError("no file named. Add -o out.pdf (or .html, .md).")
    ending = summary_file.kind(output)
    if output.exists() and not overwrite:
        raise InputError(f"{output}: is there already. Add --overwrite, or name another file.")
    case, overrides, path, sample = case_of(case_words)
    text, result = saved_text(read_text(path), overrides), design(case)
    given = summary_file.Called(text, parse(text, path.name), sample, overrides)
    content = summary_file.written(result, given, ending, paper, since)
    write_new(output, content, overwrite=overwrite)
    lines = [f"{output} written.", verdict_words.verdict_line(result, sample), words.ENGINEERS_LINE]
    lines = [words.SAMPLE, *lines, words.SAMPLE] if sample else lines
    say("\n".join(map(fold, lines)))
    raise typer.Exit(EXIT[result.verdict()])
