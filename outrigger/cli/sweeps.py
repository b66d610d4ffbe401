"""The commands that run many designs: gap, size, reserve, card, compare."""

import json
import shutil
import sys
from pathlib import Path
from typing import Annotated

import typer

from outrigger.base.errors import InputError
from outrigger.base.outputs import PICTURES, output
from outrigger.cases.read import opened
from outrigger.cli import tables
from outrigger.cli.common import (
    EXIT,
    SAMPLE_FILE,
    CaseArgument,
    case_of,
    fold,
    is_file,
    length_of,
    say,
    split,
    tell,
    told,
    warn,
)
from outrigger.cli.tables import TableFile
from outrigger.report.cautions import two_lines
from outrigger.report.screen.progress import Progress
from outrigger.verdict.design import design
from outrigger.verdict.unknown import Unknown
from outrigger.wood import stamps


def gap_command(
    case_words: CaseArgument = None,
    first: Annotated[str, typer.Option("--from", help="Smallest gap.")] = "2 in",
    last: Annotated[str, typer.Option("--to", help="Widest gap.")] = "12 in",
    step: Annotated[str, typer.Option("--step", help="From one gap to the next.")] = "1/2 in",
    cut: Annotated[
        bool, typer.Option("--cut", help="The pieces are cut: a wider gap takes back span.")
    ] = False,
    plot: Annotated[
        Path | None, typer.Option("--plot", help="Draw the ratios to a .png or .svg file.")
    ] = None,
    pocket: Annotated[
        Path | None, typer.Option("--pocket", help="Write one .html file for a phone.")
    ] = None,
    table: TableFile = None,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="Write over a file that is there.")
    ] = False,
    brief: Annotated[bool, typer.Option("--brief", help="Five short lines to send.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="A row for each gap as JSON.")] = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="A row for each gap as CSV.")] = False,
) -> None:
    """Run the case over a range of gaps: ratios, what governs, the largest gap that works.

    gap=7in asks for another gap than the file's: what changes is listed. Exit status: 0 some gap
    of the range works, 1 none, 2 bad input, 3 cannot say: a load or the like is not given.
    """
    from outrigger.report.data import gap as gap_data
    from outrigger.report.data import tables as table_data
    from outrigger.report.screen import gap as gap_page
    from outrigger.studies import consequences
    from outrigger.studies import gaps as study

    if as_json and as_csv:
        raise InputError("--json and --csv: give one of them.")
    case, overrides, file, sample = case_of(case_words)
    picture = output("--plot", plot, PICTURES, file.reads, overwrite)
    phone = output("--pocket", pocket, (".html",), file.reads, overwrite)
    to = output("-o", table, tables.KINDS, file.reads, overwrite)
    values = study.gaps(
        *(length_of(option, text)
          for option, text in (("--from", first), ("--to", last), ("--step", step)))
    )  # fmt: skip
    if phone is not None:  # which begins at the case as it stands
        values = study.beside(values, case.gap.width)
    files_gap = next((o.before for o in overrides if o.key == "gap.width"), None)
    before = None if files_gap is None else length_of("gap.width", files_gap)
    with Progress("gaps", len(values)) as progress:
        found = study.study(case, values, before=before, cut=cut, told=progress.told)
    if picture is not None:
        from outrigger.report.draw import gaps as gap_chart

        picture.write(gap_chart.draw(found, picture.path.suffix, sample))
    if phone is not None:
        from outrigger.page.pocket import pocket as pocket_page

        phone.write(pocket_page(found, sample))
    if to is not None:
        rows = gap_data.as_rows(found, sample)
        sheets = {"gap": table_data.plain(rows)}
        made = tables.Tables("Gaps", rows, gap_data.as_csv(found, sample), sheets)
        tables.write(to, made, found.asked, sample)
    if as_json:
        warn((), sample)
        say(json.dumps(gap_data.as_rows(found, sample), indent=1, allow_nan=False))
    elif as_csv:
        warn(two_lines(found.asked), sample)
        say(gap_data.as_csv(found, sample).rstrip("\n"))
    elif brief:
        say(gap_page.brief(found, changed=bool(overrides), sample=sample))
    else:
        width = shutil.get_terminal_size().columns
        change = consequences.of(found)
        overrides = told(file, split(case_words)[1], overrides, found.asked)
        say(gap_page.page(found, change, width, sample=sample, overrides=overrides))
    raise typer.Exit(EXIT[found.answer])


def compare_command(
    case_words: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[A.toml] [name=value ...] [B.toml] [name=value ...]",
            help="Two case files, each with settings after it; or one, and what B changes in it.",
        ),
    ] = None,
) -> None:
    """Two cases side by side: inputs that differ, every ratio, loads on the house, pieces, clips.

    Without a case file the bundled sample is compared with itself at another gap. Exit status as
    check has it, of B: 0 pass, 1 fail, 3 open, 2 bad input.
    """
    from outrigger.report.screen import compare as compare_page
    from outrigger.studies import compare

    given = list(case_words or [])
    file, rest = split(given)
    second = next((i for i, word in enumerate(rest) if is_file(word)), None)
    if second is not None:
        mine, second_file, theirs = rest[:second], rest[second], rest[second + 1 :]
    else:
        mine, second_file, theirs = [], file, rest
    if not theirs and second is None:
        if file:
            raise InputError("compare: name a second case, or what B changes: spacing=12in.")
        theirs = ["gap=7in"]
    sides = [
        (Path(name) if name else SAMPLE_FILE, settings)
        for name, settings in ((file, mine), (second_file, theirs))
    ]
    files = {path: opened(path) for path in dict.fromkeys(path for path, _ in sides)}
    cases = [files[path].case(settings) for path, settings in sides]
    said = [files[path].tables(settings) for path, settings in sides]
    before, after = (design(case) for case, _ in cases)
    found = compare.compare(before, after, *said)
    one, other = (str(path) if path != SAMPLE_FILE else "the sample" for path, _ in sides)
    width = shutil.get_terminal_size().columns
    overrides = told(files[sides[1][0]], sides[1][1], cases[1][1], after)
    sample = before.case.project.invented or after.case.project.invented
    say(compare_page.page(found, (one, other), width, sample=sample, overrides=overrides))
    raise typer.Exit(EXIT[after.verdict])


def size_command(
    case_words: CaseArgument = None,
    species: Annotated[
        list[str] | None,
        typer.Option("--species", help="Another species to try; repeat it for several."),
    ] = None,
    table: TableFile = None,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="Write over a file that is there.")
    ] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Every choice as JSON rows.")] = False,
) -> None:
    """Find the outriggers that work: size, grade, spacing, back span, least lumber first.

    Each ends in the command that adopts it. Exit status: 0 something works, 1 nothing, 2 bad input,
    3 cannot say: a load or the like is not given.
    """
    from outrigger.report.data import sweeps as sweep_data
    from outrigger.report.data import tables as table_data
    from outrigger.report.screen import size as size_page
    from outrigger.studies.sizes import sizes

    case, overrides, read, sample = case_of(case_words)
    to = output("-o", table, tables.KINDS, read.reads, overwrite)
    file, typed = split(case_words)
    names = [stamps.read_species(name) for name in species or []]
    with Progress("designs") as progress:
        result = sizes(case, names, progress.told)
    rows = sweep_data.size_rows(result, file, typed, sample)
    if to is not None and rows:
        text = table_data.csv_of([table_data.flat(sweep_data.bare(row)) for row in rows])
        made = tables.Tables("Sizes", rows, text, {"size": table_data.plain(rows)})
        tables.write(to, made, result.asked, sample)
    if as_json:
        warn(() if rows else two_lines(result.asked), sample)
        tell(json.dumps(rows, indent=1, allow_nan=False), result.answer)
    width = shutil.get_terminal_size().columns
    text = size_page.page(result, width, file, typed, sample=sample, overrides=overrides)
    tell(text, result.answer)


def reserve_command(
    case_words: CaseArgument = None,
    site: Annotated[
        bool, typer.Option("--mishaps", help="What goes wrong on site, and what it turns.")
    ] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Rows as JSON.")] = False,
) -> None:
    """How far each number can go, alone, before the answer changes, and what then decides.

    Exit status: 0 it works or one change makes it work, 1 neither, 2 bad input, 3 cannot say: a
    load or the like is not given.
    """
    from outrigger.report.data import sweeps as sweep_data
    from outrigger.report.screen import reserve as reserve_page
    from outrigger.studies.mishaps import mishaps
    from outrigger.studies.reserve import reserve

    case, overrides, _, sample = case_of(case_words)
    width = shutil.get_terminal_size().columns
    if site:
        asked, found = design(case), mishaps(case)
        rows, answer = (
            sweep_data.mishap_rows(asked, found, sample),
            Unknown(asked).answer(asked.works),
        )
        text = reserve_page.mishaps_page(asked, found, width, sample=sample, overrides=overrides)
    else:
        result = reserve(case)
        rows, answer = sweep_data.reserve_rows(result, sample), result.answer
        text = reserve_page.page(result, width, sample=sample, overrides=overrides)
    if as_json:
        warn((), sample)
        tell(json.dumps(rows, indent=1, allow_nan=False), answer)
    tell(text, answer)


def card_command(
    case_words: CaseArgument = None,
    back_span: Annotated[
        bool, typer.Option("--back-span", help="Least back span instead of largest gap.")
    ] = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="The cells as CSV.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="The cells as JSON rows.")] = False,
    pdf: Annotated[Path | None, typer.Option("--pdf", help="Write one page, PDF.")] = None,
    table: TableFile = None,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="Write over a file that is there.")
    ] = False,
) -> None:
    """One lumber and clip: the largest gap over spacing, snow and roof span, every cell run whole.

    Exit status: 0 some cell works, 1 none, 2 bad input, 3 cannot say: a load or the like is not
    given.
    """
    from outrigger.report.data import tables as table_data
    from outrigger.report.screen import card as card_page
    from outrigger.studies.card import card, own_axes

    if as_json and as_csv:
        raise InputError("--json and --csv: give one of them.")
    case, overrides, file, sample = case_of(case_words)
    page = output("--pdf", pdf, (".pdf",), file.reads, overwrite)
    to = output("-o", table, tables.KINDS, file.reads, overwrite)
    with Progress("designs") as progress:
        result = card(
            case, "back span" if back_span else "gap", told=progress.told, **own_axes(case)
        )
    if page is not None:
        from outrigger.report.write import card as card_pdf

        page.write(card_pdf.pdf(result, sample))
        print(fold(f"Wrote {pdf}."), file=sys.stderr)
    if to is not None:
        from outrigger.report.book.tables import of_card, under_card

        rows = card_page.as_rows(result, sample)
        printed = card_page.as_printed(result, sample)
        sheets = {
            "card": of_card(printed),
            "it holds for": under_card(printed),
            "cells": table_data.plain(rows),
        }
        made = tables.Tables("Card", rows, card_page.as_csv(result, sample), sheets)
        tables.write(to, made, result.asked, sample)
    if as_json:
        rows = card_page.as_rows(result, sample)
        warn((), sample)
        tell(json.dumps(rows, indent=1, allow_nan=False), result.answer)
    if as_csv:
        warn(two_lines(result.asked), sample)
        tell(card_page.as_csv(result, sample).rstrip("\n"), result.answer)
    width = shutil.get_terminal_size().columns
    text = card_page.page(result, width, sample=sample, overrides=overrides)
    tell(text, result.answer)
