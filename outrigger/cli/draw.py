"""The command `draw`."""

from pathlib import Path
from typing import Annotated

import typer

from outrigger.base import outputs
from outrigger.base.errors import InputError
from outrigger.cli.common import EXIT, CaseArgument, case_of, fold, say, several_files
from outrigger.cli.layout import with_run
from outrigger.report import verdict_words, words
from outrigger.report.cautions import two_lines
from outrigger.verdict.design import design


def draw_command(
    case_words: CaseArgument = None,
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", help="File to write: .svg, .pdf, .png or .dxf."),
    ] = None,
    plan: Annotated[bool, typer.Option("--plan", help="The plan of the layout instead.")] = False,
    overwrite: Annotated[bool, typer.Option("--overwrite", help="Write over the file.")] = False,
) -> None:
    """Draw the section to scale, dimensioned, or with --plan the plan of the layout.

    It bears the verdict and shows where something fails. Several case files go into one PDF, a
    sheet each. Without a case file the bundled sample is
    drawn. Exit status as of check.
    """
    if output is None:
        raise InputError("no file named. Add -o section.svg (or .pdf, .png, .dxf).")
    given = list(case_words or [])
    if several_files(given):
        from outrigger.cli import several_papers  # one case starts sooner without

        several_papers.draw(given, output, plan=plan, overwrite=overwrite)
    case, _, file, sample = case_of(with_run(given) if plan else given)
    to = outputs.output("-o", output, outputs.DRAWINGS, file.reads, overwrite)
    assert to is not None
    from outrigger.report.draw import picture  # a drawing alone needs them

    if plan:
        from outrigger.layout.layout import layout
        from outrigger.report.draw.plan import plan as drawn_plan

        laid = layout(case)
        result, drawing = laid.design, drawn_plan(laid, sample)
    else:
        from outrigger.report.draw.section import section

        result = design(case)
        drawing = section(result, sample)
    to.write(picture.written(drawing, output.suffix.lower()))
    lines = [f"{output} written.", *two_lines(result), verdict_words.verdict_line(result, sample)]
    lines += [words.ENGINEERS_LINE]
    say("\n".join(map(fold, [words.SAMPLE, *lines, words.SAMPLE] if sample else lines)))
    raise typer.Exit(EXIT[result.verdict])
