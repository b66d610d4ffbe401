"""A workbook file and its sheets: formats, widths, print set-up; a text is never a formula."""

import datetime
import io
import math
from collections.abc import Sequence
from functools import cache
from typing import Any

import xlsxwriter
from msgspec import Struct, field
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from outrigger.report.words import printable

MADE = datetime.datetime(2000, 1, 1)  # no date of the day: the same bytes each time
LONGEST = 31  # characters of a sheet's name
INPUT, SHADE = "#FFF4CC", "#E7E6E6"
FONT = "Calibri"
HEADING = {"bold": True, "bg_color": SHADE, "bottom": 1, "text_wrap": True}
GENERAL = "General"
LINE = 13.5  # points, of a line of text
NUMBERS = {"value", "as used", "as run", "demand", "capacity", "used"}  # headings
BESIDE = {"unit", "so"}  # of what stands beside a number
PAPERS = {"us-letter": 1, "a4": 9}  # as the file numbers them


def letters(column: int) -> str:
    """A column by its letters, counted from 0."""
    found, rest = "", column + 1
    while rest:
        rest, one = divmod(rest - 1, 26)
        found = chr(ord("A") + one) + found
    return found


class Page(Worksheet):  # type: ignore[misc]
    """A sheet of the file whose formulas are written as they are.

    The library looks for thirty functions of newer programs in every formula, four fifths of the
    time of a workbook; none of them is used here.
    """

    def _prepare_formula(self, formula: str, expand_future_functions: bool = False) -> str:
        return formula.removeprefix("=")


class Book:
    """A workbook in memory."""

    def __init__(self, title: str, sample: str, paper: str = "us-letter") -> None:
        self.memory = io.BytesIO()
        options = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False,
                   "strings_to_numbers": False}  # fmt: skip
        self.file = xlsxwriter.Workbook(self.memory, options)
        self.file.set_properties({"title": printable(title), "created": MADE})
        self.file.set_calc_mode("auto")
        self.sample = sample
        self.paper = PAPERS[paper]
        self.names: set[str] = set()
        self.style = cache(self._style)

    def _style(self, number: str = "", **more: Any) -> Format:
        kept = {"font_name": FONT, "font_size": 10, "valign": "top", **more}
        if "indent" in more:  # which means nothing but from a side
            kept.setdefault("align", "left")
        return self.file.add_format({**kept, "num_format": number} if number else kept)

    def sheet(self, name: str, widths: Sequence[float], foot: str) -> "Sheet":
        """A new sheet; foot: printed under each of its pages."""
        plain = "".join(" " if one in "[]:*?/\\'" else one for one in name)[:LONGEST]
        unique, n = plain, 2
        while unique.lower() in self.names:
            unique = f"{plain[: LONGEST - 3]} {n}"
            n += 1
        self.names.add(unique.lower())
        page = self.file.add_worksheet(unique, Page)
        page.set_landscape()
        page.set_paper(self.paper)
        page.fit_to_pages(1, 0)
        page.set_margins(0.5, 0.5, 0.6, 0.7)
        page.hide_gridlines(2)
        said = foot.replace("&", "and")  # there it stands before a code: of the page, of a picture
        page.set_footer(f"&L&8{said}&R&8&A, &P of &N")
        if self.sample:
            page.set_header(f"&C&12{self.sample}")
        for i, width in enumerate(widths):
            page.set_column(i, i, width)
        return Sheet(self, unique, page, widths)

    def data(self) -> bytes:
        """The whole file."""
        self.file.close()
        return self.memory.getvalue()


class Sheet(Struct, eq=False):
    """One sheet; rows and columns count from 0."""

    book: Book
    name: str
    page: Worksheet
    widths: Sequence[float]
    heights: dict[int, float] = field(default_factory=dict)

    def text(self, row: int, column: int, said: str, **style: Any) -> None:
        """A text, whatever it begins with."""
        if said:
            shown = printable(said) or " "
            self.page.write_string(row, column, shown, self.book.style(**style))
            self.room(row, column, shown, **style)

    def room(self, row: int, column: int, said: str, across: int = 1, **style: Any) -> None:
        """Make a row high enough for a text in a column, or across several."""
        wide = sum(self.widths[column : column + across]) or 10.0
        lines = math.ceil(len(said) * 0.87 / wide) if style.get("text_wrap") else 1
        height = lines * LINE * style.get("font_size", 10) / 10
        if height > max(self.heights.get(row, 0.0), LINE):
            self.heights[row] = height
            self.page.set_row(row, height)

    def number(self, row: int, column: int, value: float, form: str = "", **style: Any) -> None:
        """A number that stands by itself, all its digits."""
        self.page.write_number(row, column, value, self.book.style(form, **style))

    def formula(
        self, row: int, column: int, said: str, value: float | str, form: str = "", **style: Any
    ) -> None:
        """A formula and the value that it has."""
        shown = form or (digits(value) if isinstance(value, float) else "")
        self.page.write_formula(row, column, f"={said}", self.book.style(shown, **style), value)

    def head(self, row: int, names: Sequence[str], **style: Any) -> None:
        """A row of headings, each on the side of what stands under it."""
        for i, name in enumerate(names):
            side = "right" if name in NUMBERS else "left"
            kept = {**HEADING, "align": side, **({"indent": 1} if name in BESIDE else {}), **style}
            self.text(row, i, name or " ", **kept)

    def cell(self, row: int, column: int) -> str:
        """A cell as another sheet names it."""
        return f"'{self.name}'!${letters(column)}${row + 1}"

    def column(self, column: int, first: int, last: int) -> str:
        """Cells of a column as another sheet names them."""
        at = letters(column)
        return f"'{self.name}'!${at}${first + 1}:${at}${last + 1}"

    def across(self, row: int, first: int, last: int) -> str:
        """Cells of a row as another sheet names them."""
        return (f"'{self.name}'!${letters(first)}${row + 1}:"
                f"${letters(last)}${row + 1}")  # fmt: skip


def digits(value: float) -> str:
    """The number format of a result, five digits that count; whatever it becomes, never fewer
    places, so that a changed one does not read as a round number."""
    if not math.isfinite(value) or value == 0:
        return "0.0000"
    if abs(value) >= 10_000:
        return "#,##0"
    return f"0.{'0' * min(9, max(1, 4 - math.floor(math.log10(abs(value)))))}"


def whole(unit: str, value: float) -> str:
    """The number format of a demand or a capacity, as the ratio table has it."""
    if unit == "":
        return "0.00"
    if unit == "in":
        return "0.000"
    return "#,##0" if abs(value) >= 9.95 or value == 0 else "0.0"
