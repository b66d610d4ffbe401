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
                "kind": "table", "head": list(block.head), "align": list(block.align),
                "widths": list(block.widths), "say": block.say,
                "rows": [[_runs(cell) for cell in row] for row in block.rows],
            }  # fmt: skip
        case Calculation():
            return {"kind": "calculation", "label": block.label, "said": printed(block.said),
                    **_line(block.line)}  # fmt: skip
        case Figure():
            return {"kind": "figure", "svg": block.svg, "alt": block.alt,
                    "caption": printed(block.caption), "width": block.width}  # fmt: skip
        case AdoptionBox():
            return {"kind": "adoption", "heading": block.heading, "line": _runs(block.line)}
        case PageBreak():
            return {"kind": "break"}


def _line(line: maths.Line) -> dict[str, Any]:
    """Parts as Typst math; as text the whole line, and each part where the text has as many."""
    parts = [maths.typst(part) for part in line.parts]
    texts = line.text.split(" = ")
    said = texts if len(texts) == len(parts) else [line.text, *["continued"] * (len(parts) - 1)]
    return {"parts": parts, "texts": said, "text": line.text}


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
