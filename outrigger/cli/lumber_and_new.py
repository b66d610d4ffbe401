"""The commands that need no case: lumber and new."""

import json
import shutil
from pathlib import Path
from typing import Annotated

import typer

from outrigger.base.errors import InputError
from outrigger.base.files import write_new
from outrigger.base.shell import command
from outrigger.cli import keys as all_keys
from outrigger.cli import start
from outrigger.cli.common import (
    COMPLETING,
    SAMPLE_FILE,
    fold,
    say,
    warn,
)
from outrigger.report.cautions import without_case
from outrigger.report.screen import lumber as lumber_list
from outrigger.wood import reference, stamps

STARTER_FILE = Path(__file__).parents[1] / "starter.toml"


def new_command(
    file: Annotated[Path | None, typer.Argument(help="The case file to write.")] = None,
    blank: Annotated[
        bool, typer.Option("--blank", help="Ask nothing: write the questions as remarks.")
    ] = False,
    sample: Annotated[
        bool, typer.Option("--sample", help="Write the invented sample; it stays marked SAMPLE.")
    ] = False,
    schema: Annotated[
        bool, typer.Option("--schema", help="Print the JSON Schema of the case file.")
    ] = False,
    keys: Annotated[
        bool, typer.Option("--keys", help="List every key: unit, default, who knows it.")
    ] = False,
) -> None:
    """Ask for a job, one question at a time, and write the case file; never over a finished one.

    On an unfinished file it goes on where it stopped. Where no one is there to be asked, and with
    --blank, it writes every key as a question and states nothing.
    """
    if keys:
        say(fold(all_keys.page(shutil.get_terminal_size().columns)))
        return
    if schema:
        from outrigger.cases.schema import schema as schema_of_case  # asked for seldom

        say(json.dumps(schema_of_case(), indent=1, ensure_ascii=False))
        return
    if file is None:
        raise InputError('new: name the file to write, "outrigger new job.toml".')
    if blank and sample:
        raise InputError("--blank and --sample: give one of them.")
    if not (blank or sample) and start.on_terminal():
        start.begin(file, STARTER_FILE.read_text(encoding="utf-8"))
        return
    source = SAMPLE_FILE if sample else STARTER_FILE
    write_new(file, source.read_text(encoding="utf-8"))
    then = command("check", str(file))
    if sample:
        say(fold(f"Wrote {file}, an invented job: every output says SAMPLE. Now: {then}"))
    else:
        say(fold(f"Wrote {file}, questions only. Fill in what you know, then: {then}"))


def _species_words(incomplete: str) -> list[str]:
    from outrigger.cli.completion import species_words

    return species_words(incomplete)


def _grade_words(ctx: typer.Context, incomplete: str) -> list[str]:
    from outrigger.cli.completion import grade_words

    return grade_words(str(ctx.params.get("species") or ""), incomplete)


def lumber_command(
    species: Annotated[
        str | None,
        typer.Argument(
            help="Full name or exact stamp (SPF, SPFs, DF-L, HF, SYP).",
            autocompletion=_species_words if COMPLETING else None,
        ),
    ] = None,
    grade: Annotated[
        str | None,
        typer.Argument(
            help="One grade as stamped (#2, SS, 1650f-1.5E).",
            autocompletion=_grade_words if COMPLETING else None,
        ),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Rows as JSON.")] = False,
) -> None:
    """List species, or one species' grades: values, units, source and status.

    A vague name is never guessed: the candidates are listed.
    """
    width = shutil.get_terminal_size().columns
    if species is None:
        listed = stamps.species_list()
        if as_json:
            warn(without_case())
            keys = ("species", "stamps", "tables")
            say(json.dumps([dict(zip(keys, row, strict=True)) for row in listed], indent=1))
        else:
            say(lumber_list.species_page(listed, width))
        return
    name = stamps.read_species(species)
    rows, notes = stamps.rows_of_grade(grade, name) if grade else (reference.grades(name), ())
    if as_json:
        warn(without_case())
        say(json.dumps(lumber_list.as_rows(rows), indent=1))
        return
    heading = name if name == species else f"{species} is read as {name}"
    if grade and rows[0].grade != grade:
        heading += f", {grade} as {rows[0].grade}"
    say(lumber_list.grades_page("; ".join((heading, *notes)), rows, width))
