"""Tables of a study or a layout as a workbook: texts and numbers, no formulas."""

from collections.abc import Mapping, Sequence
from typing import Any

from outrigger.base.errors import InputError
from outrigger.report import cautions, verdict_words, words
from outrigger.report.book.sheet import Book, Sheet
from outrigger.report.data.tables import Cell
from outrigger.verdict.design import Design

Rows = Sequence[Mapping[str, Cell]]
LEAST, MOST = 9, 60  # characters of a column
KINDS = (".xlsx", ".csv", ".json")


def written(design: Design, tables: Mapping[str, Rows], sample: bool, title: str) -> bytes:
    """A workbook of tables, a sheet each, the cautions in two lines above every one.

    Raises:
        InputError: there is no row to write.
    """
    if not any(tables.values()):
        raise InputError("there is no row to write.")
    book = Book(title, words.SAMPLE if sample else "")
    foot = f"{words.shortened(words.job(design), 60)}, case {words.digest(design.case.digest)}"
    for name, rows in tables.items():
        if rows:
            _table(book, name, rows, _above(design, sample), foot)
    return book.data()


def _above(design: Design, sample: bool) -> list[str]:
    """What stands above every table."""
    said = [words.SAMPLE] if sample else []
    said += [f"{words.job(design)}    case {words.digest(design.case.digest)}"]
    said += [words.title(design), verdict_words.verdict_line(design, sample)]
    return [*said, *cautions.two_lines(design), words.ENGINEERS_LINE]


def _table(book: Book, name: str, rows: Rows, above: Sequence[str], foot: str) -> None:
    columns = list(dict.fromkeys(key for row in rows for key in row))
    sheet = book.sheet(words.capital(name), [_width(key, rows) for key in columns], foot)
    for i, said in enumerate(above):
        sheet.text(i, 0, said, bold=i == 0 or said == words.ENGINEERS_LINE)
    head = len(above) + 1
    sheet.head(head, [heading(key) for key in columns])
    sheet.page.freeze_panes(head + 1, 1)
    sheet.page.repeat_rows(head)
    for i, row in enumerate(rows, head + 1):
        for column, key in enumerate(columns):
            _cell(sheet, i, column, row.get(key))


def _cell(sheet: Sheet, row: int, column: int, value: Cell) -> None:
    match value:
        case bool():
            sheet.text(row, column, "yes" if value else "no")
        case int() | float():
            sheet.number(row, column, float(value), "0" if value == int(value) else "0.0##")
        case str():
            sheet.text(row, column, value, text_wrap=True)


def heading(key: str) -> str:
    """A column's name for people: largest gap in, hold down:back."""
    return key.replace("_", " ")


def _width(key: str, rows: Rows) -> float:
    sizes = [len(value) for row in rows if isinstance(value := row.get(key), str)]
    longest = max((len(word) for word in heading(key).split()), default=0)
    return float(min(MOST, max(LEAST, longest + 1, *sizes, 0)))


def under_card(printed: Mapping[str, Any]) -> list[dict[str, Cell]]:
    """What a card holds for, and what its letters mean."""
    rows: list[dict[str, Cell]] = [
        {"what": name, "said": printed[name]} for name in ("snow", "member", "clips", "open", "how")
    ]
    rows += [{"what": f"letter {one['letter']}", "said": one["text"]} for one in printed["keys"]]
    held = (*printed["assumptions"], *printed["always"])
    rows += [{"what": one["name"], "said": one["text"]} for one in held]
    return [row for row in rows if row["said"]]


def of_card(printed: Mapping[str, Any]) -> list[dict[str, Cell]]:
    """A card as it is printed: a row for each spacing and snow, a column for each span."""
    rows: list[dict[str, Cell]] = []
    for group in printed["groups"]:
        for row in group["rows"]:
            said = [f"{cell['length']} {cell['letter']}".strip() for cell in row["cells"]]
            spans = dict(zip((f"span {span}" for span in printed["spans"]), said, strict=True))
            rows.append({"spacing": group["spacing"], "snow": row["snow"], **spans})
    return rows
