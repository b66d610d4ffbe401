"""The command that works published values again."""

import json
import shutil
import sys
from pathlib import Path
from typing import Annotated

import typer

from outrigger.base.errors import InputError
from outrigger.base.outputs import output
from outrigger.cli.common import fold, say, warn


def prove_command(
    group: Annotated[
        str | None,
        typer.Argument(
            help="Every value of one: lumber, statics, stability, connections, snow, wind, "
            "combinations, cases."
        ),
    ] = None,
    every: Annotated[bool, typer.Option("--all", help="Every value of every group.")] = False,
    unverified: Annotated[
        bool, typer.Option("--unverified", help="Table rows that no named source showed.")
    ] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Every value as JSON.")] = False,
    pdf: Annotated[
        Path | None, typer.Option("--pdf", help="Write two pages to staple to a package, PDF.")
    ] = None,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="Write over a file that is there.")
    ] = False,
) -> None:
    """Work published values again, here, by the functions that check uses.

    Exit status: 0 every value is within the rounding of its source, 1 one is not, 2 bad input.
    """
    from outrigger.report import proof_words
    from outrigger.report.data import proof as data
    from outrigger.report.screen import proof as screen

    width = shutil.get_terminal_size().columns
    if unverified:
        if group or every or pdf:
            raise InputError("--unverified: give it alone, or with --json.")
        from outrigger.proof.unverified import unverified as of_tables

        listings = of_tables()
        if as_json:
            warn(proof_words.lines())
            say(json.dumps(data.unverified_data(listings), indent=1, allow_nan=False))
        else:
            say(screen.unverified_page(listings, width))
        return
    from outrigger.proof.prove import GROUPS, group_of, prove

    if group and pdf:
        raise InputError("--pdf: of all groups at once. Leave the group out.")
    to = output("--pdf", pdf, (".pdf",), (), overwrite)
    proof = prove((group_of(group),) if group else GROUPS)
    if to is not None:
        from outrigger.report.write import proof as page

        to.write(page.pdf(proof))
        print(fold(f"Wrote {pdf}."), file=sys.stderr)
    if as_json:
        warn(proof_words.lines())
        say(json.dumps(data.as_data(proof), indent=1, allow_nan=False))
    else:
        say(screen.page(proof, width, every=every or group is not None))
    raise typer.Exit(0 if proof.holds else 1)
