"""Plain columns of text, as every screen sets its tables: no rules, numbers formatted before."""

from collections.abc import Sequence

INDENT = "  "
_ALIGN = {"l": "left", "r": "right"}


def columns(
    rows: Sequence[Sequence[str]],
    align: str,
    width: int,
    *,
    least: Sequence[int] = (),
    between: str = " ",
    indent: str = INDENT,
) -> list[str] | None:
    """A line for each row, or None where one is wider than the screen.

    `align`: "l" or "r" for each column; `least`: how wide each is at least; blanks at the ends of a
    cell stay, so that one column can stand farther off than `between`.
    """
    from tabulate import DataRow, TableFormat, tabulate  # not every page has a table

    row = DataRow(indent, between, "")
    lines = tabulate(
        [_widened(rows[0], align, least), *rows[1:]],
        tablefmt=TableFormat(None, None, None, None, None, row, 0, None),
        colalign=[_ALIGN[one] for one in align],
        disable_numparse=True,
        preserve_whitespace=True,
    ).split("\n")
    return lines if max(len(line.rstrip()) for line in lines) <= width else None


def _widened(row: Sequence[str], align: str, least: Sequence[int]) -> list[str]:
    """The first row, its cells as wide as their columns are at least."""
    widths = [*least, *(0 for _ in row[len(least) :])]
    return [
        f"{cell:<{width}}" if side == "l" else f"{cell:>{width}}"
        for cell, side, width in zip(row, align, widths, strict=True)
    ]
