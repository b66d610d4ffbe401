"""One model of a document: sections of blocks. Three writers print it; it holds no markup.

Text is plain text, whatever characters it holds; the writers escape it. Numbers are in it as
`words.py` and the steps print them.
"""

from collections.abc import Sequence
from typing import Literal

from msgspec import Struct, field

from outrigger.formula.layout import Line, Part


class Bold(Struct, frozen=True):
    """A run of bold text."""

    text: str


class Page(Struct, frozen=True):
    """The page of an anchor; where there are no pages, a link to it."""

    anchor: str


class Blank(Struct, frozen=True):
    """A line to write on: its width in, 0 for what there is; what belongs there."""

    width: float
    label: str


class Bar(Struct, frozen=True):
    """A ratio as a bar with a tick at 1.00; None: there is no ratio."""

    ratio: float | None


class Maths(Struct, frozen=True):
    """A symbol or a part of a formula within text, and the same as text."""

    layout: Part
    text: str


Inline = str | Bold | Page | Blank | Bar | Maths
Runs = str | tuple[Inline, ...]


class Paragraph(Struct, frozen=True):
    """Running text. `role`: "" plain, "lead" what a reader must not miss, "small" 9 pt."""

    runs: Runs
    role: Literal["", "lead", "small", "warning"] = ""


class Bullets(Struct, frozen=True):
    """A list. `role`: "small" 9 pt, "run" so and on paper one item behind the other."""

    items: Sequence[Runs]
    role: Literal["", "small", "run"] = ""


class Table(Struct, frozen=True):
    """A table: one header row, its columns aligned "l" or "r", their widths as shares or 0 for as
    wide as needed. Rows stay whole over a page break, and the header repeats."""

    head: Sequence[Runs]
    rows: Sequence[Sequence[Runs]]
    align: str
    widths: Sequence[float] = ()
    say: str = ""  # what the table is, for those who hear it


class Calculation(Struct, frozen=True):
    """One numbered line of arithmetic, with what is said of it."""

    label: str
    line: Line
    said: str = ""


class Figure(Struct, frozen=True):
    """A drawing as SVG, with what it shows in words."""

    svg: str
    alt: str
    caption: str = ""
    width: float = 1.0  # of the text; 0: what is left of the page


class AdoptionBox(Struct, frozen=True):
    """The empty reserved box: its heading, its completing line, a stamp's room. No seal."""

    heading: str
    line: tuple[Inline, ...]


class PageBreak(Struct, frozen=True):
    """What follows starts a page."""


Block = Paragraph | Bullets | Table | Calculation | Figure | AdoptionBox | PageBreak


class Chapter(Struct, frozen=True):
    """A heading and what stands under it; level 1 is a part, 2 a section, 3 a check; on paper in
    one column or more."""

    title: str
    blocks: Sequence[Block]
    level: int = 2
    anchor: str = ""
    columns: int = 1
    foot: str = ""  # of the pages from here on, where it is another than before


class Attachment(Struct, frozen=True):
    """A file inside the PDF."""

    name: str
    text: str
    kind: str
    says: str


class Document(Struct, frozen=True):
    """The whole: what stands on every page, and the sections in order."""

    title: str
    job: str
    foot: str
    cover_foot: str
    sample: str  # said on every page of a sample; else empty
    sections: Sequence[Chapter]
    attachments: Sequence[Attachment] = field(default_factory=tuple)


def runs(given: Runs) -> tuple[Inline, ...]:
    """The runs of a text."""
    return (given,) if isinstance(given, str) else given
