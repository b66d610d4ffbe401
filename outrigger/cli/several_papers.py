"""`layout`, `draw` and `summary` of several cases: one paper, each case named in it."""

import json
import shutil
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from outrigger.base.errors import InputError
from outrigger.base.outputs import output
from outrigger.cases.saving import whole
from outrigger.cli.common import fold, say, warn
from outrigger.cli.several import Called, read
from outrigger.report import crew, words
from outrigger.report.screen import layout as layout_screen
from outrigger.report.screen import runs as screen
from outrigger.report.screen import runs_laid
from outrigger.studies.runs import Run

if TYPE_CHECKING:
    from outrigger.report.summary.several import Part


def layout(
    given: list[str], *, as_csv: bool, as_json: bool, pdf: Path | None, overwrite: bool,
    lang: str, paper: str,
) -> NoReturn:  # fmt: skip
    """Marks of each case, one list of what to buy."""
    from outrigger.report.summary.file import paper_of

    size, language = paper_of(paper), crew.language(lang)
    found = read(given, layouts=True)
    to = output("--pdf", pdf, (".pdf",), found.reads, overwrite)
    if to is not None:
        found.all_or_nothing(to.path)
        from outrigger.report.draw import layout as files

        together = runs_laid.page_data(found.runs, found.laid, found.sample)
        to.write(files.pdf(found.laid, found.sample, language, size, together))
    if not found.cases:
        found.leave()
    rows = [
        {"file": one.run.file, **row}
        for one, laid in zip(found.cases, found.laid, strict=True)
        for row in layout_screen.mark_rows(laid, one.case.project.invented)
    ]
    if as_json:
        warn((), found.sample)
        say(json.dumps(rows, indent=1, allow_nan=False))
    elif as_csv:
        warn(screen.two_lines(found.runs), found.sample)
        say(layout_screen.rows_csv(rows).rstrip("\n"))
    else:
        width = shutil.get_terminal_size().columns
        say(runs_laid.page(found.runs, found.laid, found.refused, width, sample=found.sample,
                           overrides=found.overrides))  # fmt: skip
    found.leave()


def draw(given: list[str], path: Path, *, plan: bool, overwrite: bool) -> NoReturn:
    """One PDF, a sheet for each case.

    Raises:
        InputError: another kind of file, which holds one drawing.
    """
    if path.suffix.lower() != ".pdf":
        raise InputError(
            f"-o {path}: holds one drawing. Several cases go into one PDF, a sheet each: name it "
            f"{path.stem or 'out'}.pdf, or draw one case at a time."
        )
    from outrigger.report.draw import picture
    from outrigger.report.draw.plan import plan as drawn_plan
    from outrigger.report.draw.section import section

    found = read(given, layouts=plan)
    to = output("-o", path, (".pdf",), found.reads, overwrite)
    assert to is not None
    found.all_or_nothing(to.path)
    to.write(picture.sheets([
        drawn_plan(one.laid, one.case.project.invented) if one.laid is not None
        else section(one.run.design, one.case.project.invented)
        for one in found.cases
    ]))  # fmt: skip
    _told(path, found.runs, found.sample)
    found.leave()


def summary(
    given: list[str], path: Path, *, overwrite: bool, paper: str, since: Path | None
) -> NoReturn:
    """One document with one cover.

    Raises:
        InputError: a workbook, or what changed since, which are of one case.
    """
    from outrigger.report.summary import file as summary_file
    from outrigger.report.summary import several

    if since is not None:
        raise InputError("--since is of one case. Write the summary of that one by itself.")
    if path.suffix.lower() == ".xlsx":
        raise InputError(f"-o {path}: a workbook is of one case. Several go into .pdf, .html, .md.")
    size, found = summary_file.paper_of(paper), read(given)
    to = output("-o", path, several.KINDS, found.reads, overwrite)
    assert to is not None
    found.all_or_nothing(to.path)
    document = several.build([_part(one) for one in found.cases], found.sample)
    to.write(summary_file.written(document, path.suffix.lower(), size))
    _told(path, found.runs, found.sample)
    found.leave()


def _part(one: Called) -> "Part":
    from outrigger.report.summary import build, several
    from outrigger.studies import for_summary

    origin = one.case.origin
    assert origin is not None  # it was read just now
    text = whole(one.file, one.overrides, origin.tables)
    called = build.Called(text, origin.tables, one.case.project.invented, one.overrides)
    return several.Part(one.run, for_summary.findings(one.run.design), called)


def _told(path: Path, runs: list[Run], sample: bool) -> None:
    """What was written, the verdict of the whole, and what it is not."""
    lines = [f"{path} written.", *screen.two_lines(runs), screen.line(runs, {}, sample)]
    lines += [words.ENGINEERS_LINE]
    say("\n".join(map(fold, [words.SAMPLE, *lines, words.SAMPLE] if sample else lines)))
