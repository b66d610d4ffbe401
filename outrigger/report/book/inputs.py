"""The sheets of the inputs and of the take-down of the loads."""

from outrigger.base.units import plf, psf
from outrigger.formula.notation import symbol
from outrigger.formula.text import in_symbols, unit_text
from outrigger.report import provenance, words
from outrigger.report.book.places import Places, worked
from outrigger.report.book.sheet import GENERAL, HEADING, INPUT, Sheet
from outrigger.studies.live import Item, Kind, Leaf
from outrigger.studies.workbook import Workbook

HEAD = ("symbol", "what", "value", "unit", "as used", "unit", "as run", "changed", "source",
        "status", "key in the file", "used in")  # fmt: skip
WIDTHS = (9, 34, 10, 6, 10, 6, 9, 8, 32, 13, 23, 34)
SECTIONS: tuple[tuple[tuple[Kind, ...], str, str], ...] = (
    (("load",), "Loads",
     "Change the yellow cells. A check follows where its whole chain does; else it says: run check "
     "again."),
    (("value", "stiffness"), "Values of wood, fasteners and listings, factors",
     "Change the yellow cells, with a source of your own. Those of stiffness may move what the "
     "program's statics gave: the checks that hang on it then say: run check again."),
    (("derived", "length", "action"), "Lengths, counts, derived loads and actions of the program",
     "They hang together, and a change of one is not followed by the others: every check then "
     "says: run check again."),
)  # fmt: skip
COUNTED: tuple[Kind, ...] = ("load", "value", "stiffness", "derived", "length", "action")
FIRST = 4 + len(COUNTED)
MOST_NAMED = 3
NAMES: dict[Kind, str] = {
    "load": "loads", "value": "values of wood and listings",
    "stiffness": "values that the statics may use", "derived": "derived loads",
    "length": "lengths, counts", "action": "actions of the program",
}  # fmt: skip


def place_inputs(sheet: Sheet, found: Workbook, places: Places) -> list[tuple[int, Leaf]]:
    """A row for every input; gives the rows."""
    row, rows = FIRST, list[tuple[int, Leaf]]()
    for kinds, _, _ in SECTIONS:
        row += 3
        for leaf in (one for one in found.leaves if one.kind in kinds):
            rows.append((row, leaf))
            places.leaves[id(leaf)] = sheet.cell(row, 4)
            row += 1
    for i, kind in enumerate(COUNTED):
        places.counts[kind] = sheet.cell(2 + i, 2)
    return rows


def write_inputs(sheet: Sheet, rows: list[tuple[int, Leaf]]) -> None:
    """The inputs, each in one cell."""
    sheet.text(0, 0, "Inputs", bold=True, font_size=14)
    for i, kind in enumerate(COUNTED):
        cells = [f"H{row + 1}" for row, leaf in rows if leaf.kind == kind]
        spans = _spans(cells)
        sheet.text(2 + i, 1, f"changed: {NAMES[kind]}")
        sheet.formula(2 + i, 2, f"SUM({','.join(spans)})" if spans else "0", 0, "0")
    sheet.head(2 + len(COUNTED), HEAD)
    sheet.page.freeze_panes(3 + len(COUNTED), 2)
    sheet.page.repeat_rows(2 + len(COUNTED))
    where = {id(leaf): row for row, leaf in rows}
    for kinds, title, said in SECTIONS:
        mine = [(row, leaf) for row, leaf in rows if leaf.kind in kinds]
        if mine:
            sheet.text(mine[0][0] - 2, 0, title, bold=True, font_size=12)
            sheet.text(mine[0][0] - 1, 0, said, italic=True)
        for row, leaf in mine:
            _leaf(sheet, row, leaf, where)


def _spans(cells: list[str]) -> list[str]:
    """Cells of a column as ranges, where they follow each other."""
    spans: list[list[int]] = []
    for cell in cells:
        row = int(cell[1:])
        if spans and spans[-1][1] == row - 1:
            spans[-1][1] = row
        else:
            spans.append([row, row])
    return [f"H{first}:H{last}" for first, last in spans]


def _leaf(sheet: Sheet, row: int, leaf: Leaf, rows: dict[int, int]) -> None:
    """One input: as the trade writes it, and as the formulas take it."""
    sign, unit, value, times = symbol(leaf.symbol), leaf.unit, leaf.value, 1
    if leaf.kind in ("load", "derived") and unit in ("psi", "lb/in"):
        value, times = (psf(value), 144) if unit == "psi" else (plf(value), 12)
    open_to_change = leaf.kind in ("load", "value", "stiffness")
    shown = {"psi": "psf", "lb/in": "plf"}[unit] if times > 1 else unit_text(unit)
    colour = {"bg_color": INPUT} if open_to_change else {}
    sheet.text(row, 0, sign.text, bold=True)
    sheet.text(row, 1, _what(leaf), text_wrap=True)
    if leaf.after is None:
        sheet.number(row, 2, value, **colour)
    else:  # one site has one snow
        factor = leaf.value / leaf.after.value
        sheet.formula(row, 2, f"C{rows[id(leaf.after)] + 1}*{factor!r}", value, GENERAL, **colour)
    sheet.text(row, 3, shown, indent=1)
    typed, was = f"C{row + 1}", f"G{row + 1}"
    # a text, an empty cell, a load or a value of the other sign is no number to go on with
    used = f"IF(AND(ISNUMBER({typed}),{typed}*{was}>=0),{typed},NA())"
    used = f"{used}/{times}" if times > 1 else used
    sheet.formula(row, 4, used, leaf.value, "" if times > 1 else GENERAL)
    sheet.text(row, 5, unit_text(unit), indent=1)
    sheet.number(row, 6, value)
    moved = f"IF(ISNUMBER({typed}),IF(ABS({typed}-{was})<=1E-12*ABS({was}),0,1),1)"
    sheet.formula(row, 7, moved, 0, "0;;")
    note = "" if leaf.kind in ("load", "derived") else leaf.note
    sheet.text(row, 8, ", ".join(text for text in (leaf.clause, note) if text), text_wrap=True)
    sheet.text(row, 9, provenance.warning(leaf.status) or leaf.status.lower(), text_wrap=True)
    sheet.text(row, 10, leaf.key)
    sheet.text(row, 11, _used(leaf), text_wrap=True)


def _used(leaf: Leaf) -> str:
    """The checks that an input stands in, the first of them by name."""
    named = [link.said_at(words.place(place)) for link, place in leaf.used]
    more = len(named) - MOST_NAMED
    return "; ".join(named[:MOST_NAMED]) + (f"; and {more} more" if more > 0 else "")


def _what(leaf: Leaf) -> str:
    meaning = symbol(leaf.symbol).meaning
    if not leaf.part:
        return meaning
    said = words.load_part(leaf.part)
    return f"{meaning}: {said}, {leaf.note}" if leaf.note else f"{meaning}: {said}"


BY_PART = (
    "Each part has its own factor in every combination. Amounts with a formula follow the loads; "
    "the others are the program's."
)
LOADS_WIDTHS = (9, 36, 12, 11, 11, 11, 11, 11, 11, 11, 11, 11, 11, 11, 11, 11, 11, 11, 11, 11)


def place_loads(sheet: Sheet, found: Workbook, places: Places) -> dict[int, int]:
    """A row for every sum's amounts, one for each line of the take-down; rows of the amounts."""
    rows, row = dict[int, int](), 4
    for one in found.amounts:
        rows[id(one)] = row
        places.amounts[id(one)] = sheet.across(row, 3, 2 + len(one.parts))
        row += 1
    row += 3
    for item in _lines(found):
        places.take_down[item.key] = sheet.cell(row, 2)
        row += 1
    return rows


def _lines(found: Workbook) -> list[Item]:
    """The lines of the take-down, each once, in order."""
    lines = {
        one.key: one
        for amounts in found.amounts
        for item in amounts.items
        if item is not None
        for one in item.chain()
        if one.leaf is None
    }
    return list(lines.values())


def write_loads(sheet: Sheet, found: Workbook, places: Places, rows: dict[int, int]) -> None:
    """Unfactored amounts of the parts on one outrigger, then how each came about."""
    sheet.text(0, 0, "Loads on one outrigger, unfactored, by part", bold=True, font_size=14)
    sheet.text(1, 0, f"{BY_PART} Up is negative.", italic=True)
    parts = found.amounts[0].parts if found.amounts else ()
    sheet.head(2, ("symbol", "what", "unit"))
    sheet.head(3, ("", "", ""), font_size=8)
    for i, part in enumerate(parts, 3):
        for row, said, small in ((2, part, 10), (3, words.load_part(part), 8)):
            sheet.text(row, i, said, **HEADING, align="right", font_size=small)
    sheet.page.freeze_panes(4, 3)
    for one in found.amounts:
        row = rows[id(one)]
        sheet.text(row, 0, symbol(one.symbol).text, bold=True)
        sheet.text(row, 1, one.note, text_wrap=True)
        sheet.text(row, 2, unit_text(one.unit), indent=1)
        for i, item in enumerate(one.items):
            if item is None:
                sheet.number(row, 3 + i, 0.0)
                continue
            cell = _cell(item, places)
            sheet.formula(row, 3 + i, cell, float(one.values[i]))
    lines = _lines(found)
    if not lines:
        return
    row = 4 + len(found.amounts) + 2
    sheet.head(row, ("symbol", "is", "value", "unit", "source", "of"))
    for i, item in enumerate(lines, row + 1):
        _line(sheet, i, item, places)
        of = dict.fromkeys(words.load_part(leaf.part) for leaf in item.leaves() if leaf.part)
        sheet.text(i, 5, ", ".join(of))


def _cell(item: Item, places: Places) -> str:
    return places.leaf(item.leaf) if item.leaf is not None else places.take_down[item.key]


def _line(sheet: Sheet, row: int, item: Item, places: Places) -> None:
    cells = {name: _cell(one, places) for name, one in item.inputs.items()}
    sheet.text(row, 0, symbol(item.symbol).text, bold=True)
    said = in_symbols(item.formula) if item.formula is not None else (
        "turned round" if item.form else "sum of the forces")  # fmt: skip
    sheet.text(row, 1, said, text_wrap=True)
    sheet.formula(row, 2, worked(item, cells, []), float(item.values[0]))
    sheet.text(row, 3, unit_text(item.unit), indent=1)
    sheet.text(row, 4, item.clause)
