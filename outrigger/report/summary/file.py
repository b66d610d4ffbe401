"""The file of a summary: which writer, by its name."""

from dataclasses import replace
from pathlib import Path

from outrigger.base.errors import InputError
from outrigger.report.summary import build as summary
from outrigger.report.summary.build import Called
from outrigger.verdict.design import Design

PAPERS = {"letter": "us-letter", "a4": "a4"}  # as the typesetter names them
KINDS = (".pdf", ".html", ".md")


def written(
    result: Design, given: Called, ending: str, paper: str = "letter", since: Path | None = None
) -> str | bytes:
    """A design's summary as the content of a file; `since`: an earlier case to compare with.

    Raises:
        InputError: no such paper; the earlier case cannot be read.
    """
    if paper not in PAPERS:
        raise InputError(f"--paper {paper}: allowed are {', '.join(PAPERS)}.")
    if since is not None:
        given = replace(given, earlier=summary.since(since, result, given.raw))
    document = summary.build(result, given)
    if ending == ".pdf":
        from outrigger.report.write import pdf as write_pdf

        return write_pdf.pdf(document, PAPERS[paper])
    if ending == ".html":
        from outrigger.report.write import html as write_html

        return write_html.html(document)
    from outrigger.report.write import markdown as write_markdown

    return write_markdown.markdown(document)


__all__ = ["Called", "written"]
