"""The option -o of commands that print a table: the same for a spreadsheet or a program."""

import json
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, Any

import typer
from msgspec import Struct

from outrigger.base.outputs import Output
from outrigger.cli.common import fold
from outrigger.report.data.tables import Cell
from outrigger.verdict.design import Design

KINDS = (".xlsx", ".csv", ".json")
TableFile = Annotated[
    Path | None, typer.Option("-o", "--output", help="Write the table: .xlsx, .csv or .json.")
]


class Tables(Struct, frozen=True):
    """What a table file holds: data for a program, CSV, sheets by name; title: of the workbook."""

    title: str
    data: Any
    csv: str
    sheets: Mapping[str, list[dict[str, Cell]]]


def write(to: Output, found: Tables, design: Design, sample: bool) -> None:
    """Write a table in the kind that its file's name asks for, and say so."""
    ending = to.path.suffix.lower()
    if ending == ".json":
        to.write(json.dumps(found.data, indent=1, allow_nan=False) + "\n")
    elif ending == ".csv":
        to.write(found.csv)
    else:
        from outrigger.report.book import tables  # its library is slow to import

        to.write(tables.written(design, found.sheets, sample, found.title))
    print(fold(f"Wrote {to.path}."), file=sys.stderr)
