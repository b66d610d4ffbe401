"""The file of a summary: which writer, by its name."""

from outrigger.base.errors import InputError
from outrigger.report.write.document import Document

PAPERS = {"letter": "us-letter", "a4": "a4"}  # as the typesetter names them
KINDS = (".pdf", ".html", ".md", ".xlsx")  # the last is the live workbook, of report/book


def paper_of(name: str) -> str:
    """A size of paper as the typesetter names it.

    Raises:
        InputError: none of those that are known.
    """
    if name not in PAPERS:
        raise InputError(f"--paper {name}: allowed are {', '.join(PAPERS)}.")
    return PAPERS[name]


def written(document: Document, ending: str, paper: str = PAPERS["letter"]) -> str | bytes:
    """A summary as the content of a file of one kind; paper: of `paper_of`."""
    if ending == ".pdf":
        from outrigger.report.write import pdf as write_pdf

        return write_pdf.pdf(document, paper)
    if ending == ".html":
        from outrigger.report.write import html as write_html

        return write_html.html(document)
    from outrigger.report.write import markdown as write_markdown

    return write_markdown.markdown(document)
