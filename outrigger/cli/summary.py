"""The command `summary`: the calculation summary for the engineer of record."""

from collections.abc import Sequence
from pathlib import Path
from typing import Annotated, NoReturn

import typer

from outrigger.base import outputs
from outrigger.base.errors import InputError, OutriggerError
from outrigger.cases.read import CaseFile
from outrigger.cases.saving import whole
from outrigger.cases.settings import Override
from outrigger.cli.common import EXIT, CaseArgument, case_of, fold, say, several_files
from outrigger.report import verdict_words, words
from outrigger.report.cautions import two_lines
from outrigger.verdict.design import Design, design


def summary_command(
    case_words: CaseArgument = None,
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", help="File to write: .pdf, .html, .md or .xlsx."),
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
    """Write the calculation summary for the engineer of record; as .xlsx a live workbook.

    Several case files make one document with one cover. A PDF carries its cases and their results:
    --again out.pdf takes them out and says whether the one gives the other, and the digest to be
    compared with the pages (exit status 0 or 1). Else exit status: 0 pass, 1 fail, 3 open, 2 bad
    input; of several that of the worst.
    """
    if again is not None:
        if case_words or output or since:
            raise InputError(
                "--again takes a summary's PDF alone: its own case is computed again. To set it "
                "beside another, compare the case files."
            )
        _again(again)
    from outrigger.report.summary import file as summary_file

    if output is None:
        raise InputError("no file named. Add -o out.pdf (or .html, .md, .xlsx).")
    if several_files(case_words):
        from outrigger.cli import several_papers  # one case starts sooner without

        several_papers.summary(
            list(case_words or []), output, overwrite=overwrite, paper=paper, since=since
        )
    case, overrides, file, sample = case_of(case_words)
    reads = [*file.reads, *([since] if since else [])]
    to = outputs.output("-o", output, summary_file.KINDS, reads, overwrite)
    assert to is not None
    size, result = summary_file.paper_of(paper), design(case)
    replaced = _replaced(output, result)
    if output.suffix.lower() == ".xlsx":
        to.write(_workbook(result, sample, overrides, size, since))
    else:
        to.write(_summary(result, (file, overrides, sample), since, output.suffix.lower(), size))
    lines = [f"{output} written.", *replaced, *two_lines(result)]
    lines += [verdict_words.verdict_line(result, sample), words.ENGINEERS_LINE]
    lines = [words.SAMPLE, *lines, words.SAMPLE] if sample else lines
    say("\n".join(map(fold, lines)))
    raise typer.Exit(EXIT[result.verdict])


def _again(path: Path) -> NoReturn:
    """Every case that a summary carries, computed again and compared."""
    from outrigger.report.summary.again import compared
    from outrigger.report.summary.attached import every
    from outrigger.studies import for_summary

    told = []
    for name, inside, before in every(path):
        now = for_summary.again(inside, f"case in {name}")
        told.append(compared(name, before, now))
    say(fold("\n\n".join([*(text for _, text in told), words.ENGINEERS_LINE])))
    raise typer.Exit(0 if all(same for same, _ in told) else 1)


def _summary(
    result: Design,
    called: tuple[CaseFile, Sequence[Override], bool],
    since: Path | None,
    ending: str,
    paper: str,
) -> str | bytes:
    """The summary of a design; called: its file and settings, and whether it is a sample."""
    from outrigger.report.summary import build
    from outrigger.report.summary import file as summary_file
    from outrigger.studies import for_summary

    (file, overrides, sample), origin = called, result.case.origin
    assert origin is not None  # it was read just now
    text = whole(file, overrides, origin.tables)
    given = build.Called(text, origin.tables, sample, overrides)
    earlier = None if since is None else for_summary.since(since, result, given.raw)
    document = build.build(for_summary.findings(result, earlier), given)
    return summary_file.written(document, ending, paper)


def _workbook(
    result: Design, sample: bool, overrides: Sequence[Override], paper: str, since: Path | None
) -> bytes:
    """The live workbook of a design."""
    if since is not None:
        raise InputError("--since: a workbook lists no changes. Write a .pdf, .html or .md too.")
    from outrigger.report.book import file as book_file  # its library is slow to import
    from outrigger.studies.workbook import workbook

    return book_file.written(workbook(result), sample, overrides, paper)


def _replaced(path: Path, result: Design) -> list[str]:
    """A word on the summary that is written over, where it may stand in somebody's hands."""
    if path.suffix.lower() != ".pdf" or not path.is_file():
        return []
    from outrigger.report.summary.attached import carried
    from outrigger.studies.for_summary import replaced

    try:
        said = replaced(carried(path)[0], path.name, result)
    except OutriggerError:  # no summary of ours, or of an older form
        return []
    return [said] if said else []
