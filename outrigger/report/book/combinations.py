"""The sheets of the combinations: factors, sums over the parts, actions, ratios in every one."""

from collections import Counter
from collections.abc import Hashable

import numpy as np

from outrigger.formula.notation import symbol
from outrigger.formula.text import unit_text
from outrigger.report import words
from outrigger.report.book.places import (
    FORMULAS,
    ROW,
    WORDS,
    Block,
    Places,
    SetPlace,
    of_end,
    worked,
)
from outrigger.report.book.sheet import SHADE, Sheet, digits, letters
from outrigger.studies.live import CombinationSet, Item
from outrigger.studies.live_items import FORCES
from outrigger.studies.workbook import End, LiveCheck

NUMBER, NAME, IN_WORDS, TIME = range(4)
HEADS = 7
FIRST = 2 + HEADS  # the row of the first combination
WIDTHS = (6, 34, 34, 7)
NOTHING = 1e99  # a ratio to a capacity of nothing


def place_set(sheet: Sheet, over: CombinationSet, checks: list[LiveCheck]) -> SetPlace:
    """Columns for the factors and for every item that differs between combinations."""
    column, factors = TIME + 1, list[int]()
    for _ in over.tables:
        factors.append(column)
        column += len(over.parts)
    columns, items = dict[Hashable, int](), dict[Hashable, Item]()
    mine = [check for check in checks if check.over is over]
    found = {one.key: one for check in mine for one in check.items if one.varies}
    found |= {one.key: one for one in over.shown}
    within = _within(mine, found)
    for item in sorted(found.values(), key=lambda one: one.way != "sum"):  # the sums first
        if item.key in within:
            continue
        items[item.key] = item
        columns[item.key] = TIME if item.way == "time" else column
        column += item.way != "time"
    return SetPlace(over, sheet, FIRST, factors, columns, items, within, column)


def _within(checks: list[LiveCheck], found: dict[Hashable, Item]) -> set[Hashable]:
    """The items that stand within the formula of the one column that takes them: stresses, factors
    and ratios, once in it; forces and moments have columns of their own."""
    taken: Counter[Hashable] = Counter()
    for item in found.values():
        for name, one in item.inputs.items():
            taken[one.key] += 1 if item.formula is None else item.formula.mentions(name)
        taken.update(one.key for one in item.beside)
    for check in checks:
        ends = [check.demand, *([] if check.capacity is None else [check.capacity])]
        taken.update(2 * [one.key for end in ends for one in end.items])
    return {
        key
        for key, item in found.items()
        if item.way in ("formula", "least", "greatest")
        and taken[key] == 1
        and not item.broken
        and item.unit not in FORCES
    }


def write_set(place: SetPlace, places: Places, blocks: list[Block]) -> None:
    """All of a set's combinations."""
    sheet, over = place.sheet, place.over
    sheet.text(0, 0, "Every combination", bold=True, font_size=14)
    sheet.text(1, 0, "Sums over the parts, factor times unfactored amount; what follows from them "
               "in each combination; the largest of each above.", italic=True)  # fmt: skip
    _names(place)
    for at, table in zip(place.factors, over.tables, strict=True):
        for i, part in enumerate(over.parts):
            _headed(sheet, at + i, part, words.load_part(part), "factor")
            style = sheet.book.style("0.0##")
            for row in np.flatnonzero(table[:, i]):  # an empty cell counts as 0 in a sum
                sheet.page.write_number(FIRST + int(row), at + i, float(table[row, i]), style)
    for key, item in place.items.items():
        if item.way != "time":
            _item(place, places, place.columns[key], item)
    column = place.wide
    for block in (one for one in blocks if one.ratio_column is not None):
        if block.check.over is over:
            _ratio(place, places, block)
            column += 1
    sheet.page.set_column(TIME + 1, column, 10)
    sheet.page.freeze_panes(FIRST, NAME + 1)
    sheet.page.repeat_rows(2, FIRST - 1)
    sheet.page.repeat_columns(0, NAME)
    sums = [at for key, at in place.columns.items() if place.items[key].way == "sum"]
    sheet.page.print_area(0, 0, place.last, max([*sums, TIME]))  # the rest is for the screen


def _names(place: SetPlace) -> None:
    sheet, over = place.sheet, place.over
    said = {NUMBER: ("no.", "", ""), NAME: ("combination", "", ""), IN_WORDS: ("in words", "", ""),
            TIME: ("time", "CD or lambda", "")}  # fmt: skip
    for column, texts in said.items():
        _headed(sheet, column, *texts)
    for i, label in enumerate(("largest", "least"), 2 + HEADS - 3):
        sheet.text(i, NAME, label, bold=True, bg_color=SHADE)
    for i, row in enumerate(over.rows):
        sheet.number(FIRST + i, NUMBER, i + 1, "0")
        sheet.text(FIRST + i, NAME, row.text)
        sheet.text(FIRST + i, IN_WORDS, row.words)
        if over.times is not None:
            sheet.number(
                FIRST + i, TIME, float(over.times[i if len(over.times) > 1 else 0]), "0.0#"
            )


def _headed(sheet: Sheet, column: int, sign: str, what: str, unit: str) -> None:
    """The heading of a column: its symbol, what it is, its unit."""
    for row, said in ((2, sign), (3, what), (4, unit)):
        style = {"bold": row == 2, "font_size": 10 if row == 2 else 8}
        sheet.text(row, column, said or " ", bg_color=SHADE, text_wrap=True, **style)
    for row in (5, 6, 7, 8):
        sheet.page.write_blank(row, column, None, sheet.book.style(bg_color=SHADE))


def _extremes(place: SetPlace, column: int, values: list[float], form: str) -> None:
    at = letters(column)
    cells = f"{at}{place.first + 1}:{at}{place.last + 1}"
    style = {"bold": True, "bg_color": SHADE}
    place.sheet.formula(HEADS - 1, column, f"MAX({cells})", max(values), form, **style)
    place.sheet.formula(HEADS, column, f"MIN({cells})", min(values), form, **style)


def _item(place: SetPlace, places: Places, column: int, item: Item) -> None:
    """A column of one number in every combination."""
    sheet, said = place.sheet, item.note or item.clause
    if item.way == "sum" and item.amounts is not None:
        said = f"{item.amounts.note}{WORDS[item.form]}"
    _headed(sheet, column, symbol(item.symbol).text, said, unit_text(item.unit))
    values = [float(value) for value in item.values]
    most = digits(max(values, key=abs))
    formula = "" if item.way == "column" else _formula(place, places, item)
    style, fits = sheet.book.style(most), _fits(item)
    for i, value in enumerate(values):
        row = place.first + i
        if formula and fits[i]:
            cells = formula.replace(ROW, str(row + 1))
            sheet.page.write_formula(row, column, cells, style, value)
        else:
            sheet.page.write_number(row, column, value, style)
    _extremes(place, column, values, most)


def _fits(item: Item) -> list[bool]:
    if item.fits is None:
        return [True] * len(item.values)
    return [bool(fit) for fit in np.broadcast_to(item.fits, item.values.shape)]


def _formula(place: SetPlace, places: Places, item: Item) -> str:
    """The formula of a column, its row left open."""
    if item.way == "sum":
        assert item.amounts is not None
        first = place.factors[item.table]
        last = first + len(place.over.parts) - 1
        factors = f"${letters(first)}{ROW}:${letters(last)}{ROW}"
        total = f"SUMPRODUCT({factors},{places.row_of(item.amounts)})"
        return "=" + FORMULAS[item.form].format(total)
    cells = {name: places.in_set(one, place) for name, one in item.inputs.items()}
    beside = [places.in_set(one, place) for one in item.beside]
    return "=" + worked(item, cells, beside)


def _ratio(place: SetPlace, places: Places, block: Block) -> None:
    """The ratio of a check in every combination."""
    column, check = block.ratio_column, block.check
    assert column is not None and check.capacity is not None
    count = len(place.over.rows)
    demand, capacity = (_end(place, places, end) for end in (check.demand, check.capacity))
    d, c = (np.broadcast_to(end.values, (count,)) for end in (check.demand, check.capacity))
    with np.errstate(divide="ignore", invalid="ignore"):
        ratios = np.where(d == 0, 0.0, np.where(c == 0, NOTHING, d / c))
    subject = words.subject(check.row)
    _headed(place.sheet, column, "used", subject, "ratio")
    style = place.sheet.book.style("0.000")
    for i, value in enumerate(ratios):
        row = str(place.first + i + 1)
        top, under = demand.replace(ROW, row), capacity.replace(ROW, row)
        if not check.demand.items and len(check.demand.values) > 1:
            top = repr(float(d[i]))
        if not check.capacity.items and len(check.capacity.values) > 1:
            under = repr(float(c[i]))
        over = f"({top})/({under})" if c[i] else f"IF(({under})=0,{NOTHING!r},({top})/({under}))"
        formula = f"=IF(({top})=0,0,{over})"
        place.sheet.page.write_formula(place.first + i, column, formula, style, float(value))
    _extremes(place, column, [float(value) for value in ratios], "0.000")


def _end(place: SetPlace, places: Places, end: End) -> str:
    cells = [places.in_set(one, place) for one in end.items]
    return of_end(end, cells, repr(float(end.values[0])))
