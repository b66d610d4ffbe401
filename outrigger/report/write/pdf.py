"""The PDF writer: a fixed Typst template, and the document as JSON data beside it.

User text never becomes markup: it reaches the template as data. Formulas are Typst math that
`maths.py` prints of the notation and of numbers.
"""

from pathlib import Path
from typing import Any

from outrigger.formula import layout as maths
from outrigger.report.write import typeset
from outrigger.report.write.document import (
    AdoptionBox,
    Bar,
    Blank,
    Block,
    Bold,
    Bullets,
    Calculation,
    Document,
    Figure,
    Inline,
    Maths,
    Page,
    PageBreak,
    Paragraph,
    Runs,
    Table,
    runs,
)
from outrigger.report.write.typeset import printed

GOES_ON = "continued"
TEMPLATE = Path(__file__).with_name("summary.typ")


def pdf(document: Document, paper: str = "us-letter") -> bytes:
    """The document as a tagged PDF (PDF/UA-1), its files attached; the same bytes each time.

    `paper`: as Typst names it, us-letter or a4.
    """
    return typeset.pdf(TEMPLATE, as_data(document, paper))


def as_data(document: Document, paper: str) -> dict[str, Any]:
    """The document as plain data for the template."""
    return {
        "title": document.title,
        "job": printed(document.job),
        "foot": printed(document.foot),
        "cover_foot": printed(document.cover_foot),
        "sample": document.sample,
        "paper": paper,
        "sections": [
            {
                "title": printed(section.title),
                "level": section.level,
                "anchor": section.anchor,
                "columns": section.columns,
                "foot": printed(section.foot),
                "blocks": [_block(block) for block in section.blocks],
            }
            for section in document.sections
        ],
        "attachments": [
            {"name": one.name, "text": one.text, "kind": one.kind, "says": one.says}
            for one in document.attachments
        ],
    }


def _block(block: Block) -> dict[str, Any]:
    match block:
        case Paragraph():
            return {"kind": "paragraph", "runs": _runs(block.runs), "role": block.role}
        case Bullets():
            items = [_runs(item) for item in block.items]
            return {"kind": "bullets", "items": items, "role": block.role}
        case Table():
            return {
                "kind": "table", "head": [_runs(cell) for cell in block.head],
                "align": list(block.align),
                "widths": list(block.widths), "say": block.say,
                "rows": [[_runs(cell) for cell in row] for row in block.rows],
            }  # fmt: skip
        case Calculation():
            return {"kind": "calculation", "label": block.label, "said": printed(block.said),
                    "pieces": _line(block.line)}  # fmt: skip
        case Figure():
            return {"kind": "figure", "svg": block.svg, "alt": block.alt,
                    "caption": printed(block.caption), "width": block.width}  # fmt: skip
        case AdoptionBox():
            return {"kind": "adoption", "heading": block.heading, "line": _runs(block.line)}
        case PageBreak():
            return {"kind": "break"}


def _line(line: maths.Line) -> list[dict[str, str]]:
    """The pieces of a line, each whole on its line of the page, as Typst math and as text; where
    there is no room for it, with all its fractions one over the other, or else all on one line that
    may break. Where the text is not cut as the formula is, all of it stands with the first."""
    parts = line.parts
    texts = line.text.split(" = ")
    if len(texts) != len(parts):
        texts = [line.text, *[GOES_ON] * (len(parts) - 1)]
    found: list[dict[str, str]] = []
    for i, (part, text) in enumerate(zip(parts, texts, strict=True)):
        sign = "= " if i else ""
        for j, one in enumerate(maths.terms(part)):
            before, said = ('"" ', GOES_ON) if j else (sign, sign + text)
            forms = {
                "source": maths.typst(one),
                "stacked": maths.typst(one, low=False),
                "flat": maths.typst(one, within=True),
            }
            found.append({**{k: before + form for k, form in forms.items()}, "text": said})
    start, *others = found
    if others and len(maths.terms(parts[0])) == 1:  # the symbol stays with what it is
        start = {key: f"{start[key]} {others[0][key]}" for key in start}
        others = others[1:]
    return [start, *others]


def _runs(given: Runs) -> list[dict[str, Any]]:
    return [_run(one) for one in runs(given)]


def _run(one: Inline) -> dict[str, Any]:
    match one:
        case str():
            return {"kind": "text", "text": printed(one)}
        case Bold(text=text):
            return {"kind": "bold", "text": printed(text)}
        case Page(anchor=anchor):
            return {"kind": "page", "anchor": anchor}
        case Blank(width=width, label=label):
            return {"kind": "blank", "width": width, "label": label}
        case Bar(ratio=ratio):
            return {"kind": "bar", "ratio": ratio}
        case Maths(layout=layout, text=text):
            return {"kind": "maths", "source": maths.typst(layout), "text": text}
