"""The command `layout`."""

import json
import shutil
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from outrigger.base.errors import InputError
from outrigger.base.outputs import DRAWINGS, output
from outrigger.cli import tables
from outrigger.cli.common import EXIT, CaseArgument, case_of, say, several_files, warn
from outrigger.report.cautions import two_lines

if TYPE_CHECKING:
    from outrigger.layout.layout import LaidOut

SAMPLE_RUN = "layout.run=24 ft"


def with_run(given: list[str]) -> list[str]:
    """The words of a command; the sample, which has no layout, with a run."""
    no_file = not given or ("=" in given[0] and not given[0].endswith(".toml"))
    if no_file and not any(word.startswith("layout.run") for word in given):
        return [*given, SAMPLE_RUN]
    return given


def layout_command(
    case_words: CaseArgument = None,
    as_csv: Annotated[bool, typer.Option("--csv", help="The marks as CSV.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="The marks as JSON rows.")] = False,
    pdf: Annotated[Path | None, typer.Option("--pdf", help="Write the page to build from.")] = None,
    plan: Annotated[
        Path | None, typer.Option("--plan", help="Write the plan to scale: .svg, .pdf, .png, .dxf.")
    ] = None,
    lists: Annotated[
        Path | None,
        typer.Option("-o", "--output", help="Marks, cut and material list: .xlsx, .json; .csv."),
    ] = None,
    overwrite: Annotated[bool, typer.Option("--overwrite", help="Over a file too.")] = False,
    lang: Annotated[
        str, typer.Option("--lang", help="es: Spanish beside the English words of --pdf.")
    ] = "en",
    paper: Annotated[str, typer.Option("--paper", help="Of --pdf: letter or a4.")] = "letter",
) -> None:
    """Lay out the marks from one datum: clips on framing or not, cut list, material list.

    Of several case files the marks of each, and one list of what to buy. With --pdf the crew's
    pages: marks, studs of the garage, the pattern of one piece, the plan.
    The case needs [layout] with its run. Without a case file the bundled sample runs, on 24 ft.
    Exit status as of check, at the worst mark.
    """
    from outrigger.layout.layout import layout
    from outrigger.report.screen import layout as layout_page

    if as_json and as_csv:
        raise InputError("--json and --csv: give one of them.")
    if lang != "en" and pdf is None:
        raise InputError(f"--lang {lang}: is of the page to build from. Add --pdf marks.pdf.")
    if names := several_files(case_words):
        from outrigger.cli import several, several_papers  # one case starts sooner without

        several.refuse({"--plan": plan, "-o": lists}, names)
        several_papers.layout(
            list(case_words or []), as_csv=as_csv, as_json=as_json, pdf=pdf, overwrite=overwrite,
            lang=lang, paper=paper,
        )  # fmt: skip
    case, overrides, file, sample = case_of(with_run(list(case_words or [])))
    page = output("--pdf", pdf, (".pdf",), file.reads, overwrite)
    picture = output("--plan", plan, DRAWINGS, file.reads, overwrite)
    to = output("-o", lists, tables.KINDS, file.reads, overwrite)
    laid = layout(case)
    if page is not None:
        from outrigger.report import crew
        from outrigger.report.draw import layout as layout_files
        from outrigger.report.summary.file import paper_of

        page.write(layout_files.pdf([laid], sample, crew.language(lang), paper_of(paper)))
    if picture is not None:
        from outrigger.report.draw import picture as drawn
        from outrigger.report.draw.plan import plan as plan_of

        picture.write(drawn.written(plan_of(laid, sample), picture.path.suffix.lower()))
    if to is not None:
        tables.write(to, _tables(laid, sample), laid.design, sample)
    if as_csv:
        warn(two_lines(laid.design), sample)
        say(layout_page.marks_csv(laid, sample).rstrip("\n"))
    elif as_json:
        warn((), sample)
        say(json.dumps(layout_page.mark_rows(laid, sample), indent=1, allow_nan=False))
    else:
        width = shutil.get_terminal_size().columns
        say(layout_page.page(laid, width, sample=sample, overrides=overrides))
    raise typer.Exit(EXIT[laid.design.verdict])


def _tables(laid: "LaidOut", sample: bool) -> tables.Tables:
    """A layout as a file; as CSV its cut and material list, the marks having their own."""
    from outrigger.report.data import tables as data
    from outrigger.report.screen import layout as layout_page

    marks = layout_page.mark_rows(laid, sample)
    sheets = {
        "marks": data.plain(marks),
        "cut list": data.cut_rows(laid),
        "stock": data.stick_rows(laid),
        "material list": data.material_rows(laid),
    }
    stamped: dict[str, data.Cell] = {
        "digest": laid.design.case.digest,
        "verdict": laid.design.verdict,
        "sample": sample,
    }
    text = data.csv_of([{**row, **stamped} for row in data.lists(laid)])
    return tables.Tables("Layout", data.laid_out(laid, marks), text, sheets)
