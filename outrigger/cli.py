"""The command line: a command reads its input, makes one call, prints."""

import json
import shutil
import sys
import textwrap
from typing import Annotated

import typer

from outrigger import __version__, lumber
from outrigger.errors import OutriggerError
from outrigger.report import lumber_list

BAD_INPUT = 2

app = typer.Typer(
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
    no_args_is_help=True,
)


def main() -> None:
    """Entry point: errors on stderr in words, exit status 2, never a traceback."""
    try:
        app()
    except OutriggerError as error:
        print(fold(f"outrigger: {error}"), file=sys.stderr)
        sys.exit(BAD_INPUT)
    except BrokenPipeError:  # the reader of a pipe has seen enough
        sys.stderr.close()
        sys.exit(0)


def fold(text: str) -> str:
    """Lines folded to the terminal, each keeping its own indent."""
    width = shutil.get_terminal_size().columns
    folded = []
    for line in text.splitlines():
        indent = line[: len(line) - len(line.lstrip())]
        folded.append(textwrap.fill(line, max(20, width), subsequent_indent=indent + "  "))
    return "\n".join(folded)


def _version(wanted: bool) -> None:
    if wanted:
        print(f"outrigger {__version__}")
        raise typer.Exit


@app.callback(epilog="Example: outrigger lumber SPF")
def every_command(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")
    ] = False,
) -> None:
    """Check the small wood outriggers that carry a garage wall across an insulation gap."""


@app.command("lumber", epilog='Example: outrigger lumber SPF "#2"')
def lumber_command(
    species: Annotated[
        str | None, typer.Argument(help="Full name or exact stamp (SPF, SPFs, DF-L, HF, SYP).")
    ] = None,
    grade: Annotated[
        str | None, typer.Argument(help="One grade as stamped (#2, SS, 1650f-1.5E).")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Rows as JSON.")] = False,
) -> None:
    """List species, or one species' grades: values, units, source and status.

    A vague name is never guessed: the candidates are listed.
    """
    width = shutil.get_terminal_size().columns
    if species is None:
        listed = lumber.species_list()
        if as_json:
            keys = ("species", "stamps", "tables")
            print(json.dumps([dict(zip(keys, row, strict=True)) for row in listed], indent=1))
        else:
            print(lumber_list.species_page(listed, width))
        return
    name = lumber.read_species(species)
    rows, notes = lumber.rows_of_grade(grade, name) if grade else (lumber.grades(name), ())
    if as_json:
        print(json.dumps(lumber_list.as_rows(rows), indent=1))
        return
    heading = name if name == species else f"{species} is read as {name}"
    if grade and rows[0].grade != grade:
        heading += f", {grade} as {rows[0].grade}"
    print(lumber_list.grades_page("; ".join((heading, *notes)), rows, width))
