"""The sheets of the checks: one a kind, each check line by line at its governing combination."""

from outrigger.formula.kind import Kind
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import Array
from outrigger.formula.text import in_symbols, unit_text
from outrigger.report import provenance, words
from outrigger.report.book.combinations import NAME
from outrigger.report.book.places import VALUE, WORDS, Block, Places, SetPlace, of_end, worked
from outrigger.report.book.sheet import GENERAL, Book, Sheet, digits
from outrigger.studies.live import Item
from outrigger.studies.workbook import End, LiveCheck, Workbook

WIDTHS = (9, 50, 13, 8, 30, 34, 14)
HEAD = ("symbol", "is", "value", "unit", "clause", "where from", "status")
AGAIN = "run check again"
DIGITS = 9  # characters of a value that is shown as it is stated
STATES = {"pass": "passes", "open": "open", "fail": "FAILS"}


def place_checks(book: Book, found: Workbook, places: Places, foot: str) -> dict[int, Sheet]:
    """A sheet for every kind of check, a block for each check; the sheets by their kind."""
    sheets: dict[int, Sheet] = {}
    next_row: dict[int, int] = {}
    for check in (one for one in found.checks if not words.quiet(one.row)):
        kind = check.row.check.kind
        if id(kind) not in sheets:
            sheets[id(kind)] = book.sheet(_name(kind), WIDTHS, foot)
            next_row[id(kind)] = 2
        sheet, first = sheets[id(kind)], next_row[id(kind)]
        rows = {one.key: first + 4 + i for i, one in enumerate(check.items)}
        block = Block(check, sheet, first, rows, first + 2, first + 4 + len(rows))
        next_row[id(kind)] = block.state + 3
        places.blocks.append(block)
        for one in check.items:
            if not one.varies:
                places.home.setdefault(one.key, sheet.cell(rows[one.key], VALUE))
    return sheets


def _name(kind: Kind) -> str:
    return words.capital(kind.id.replace("_", " "))


def place_ratios(place: SetPlace, blocks: list[Block]) -> None:
    """A column of the set for the ratio of each of its checks."""
    column = place.wide
    for block in blocks:
        check = block.check
        if check.over is place.over and check.capacity is not None and _differs(check):
            block.ratio_column = column
            column += 1


def _differs(check: LiveCheck) -> bool:
    ends = (check.demand, check.capacity)
    return any(end is not None and len(end.values) > 1 for end in ends)


def write_block(block: Block, places: Places) -> None:
    """One check."""
    sheet, row, check = block.sheet, block.check.row, block.check
    sheet.text(block.first, 0, words.capital(words.subject(row)), bold=True, font_size=12)
    loads = provenance.of_loads(row)
    said = f"{loads + '; ' if loads else ''}{row.clause}; id {row.id}"
    sheet.text(block.first + 1, 0, words.capital(said), italic=True)
    place = None if check.over is None else places.sets[id(check.over)]
    if place is not None and check.items:
        _governs(block, place)
    sheet.head(block.first + 3, HEAD)
    of = provenance.combination_of(row)
    for item in check.items:
        at = block.rows[item.key]
        clause, note, status = item.clause, item.note, provenance.warning(item.status)
        if item.way == "time" and of is not None:
            clause, status = of.time_source, provenance.warning(of.time_status)
        sheet.text(at, 0, symbol(item.symbol).text, bold=True)
        sheet.text(at, 1, _is(item), text_wrap=True)
        _value(block, places, place, item)
        sheet.text(at, 3, unit_text(item.unit), indent=1)
        sheet.text(at, 4, clause, text_wrap=True)
        sheet.text(at, 5, note, text_wrap=True)
        sheet.text(at, 6, status, text_wrap=True)
    _ends(block, places, place)


def _governs(block: Block, place: SetPlace) -> None:
    """The combination that governs now, and the one that did."""
    sheet, at, run = block.sheet, block.governs, block.check.row.column + 1
    sheet.text(at, 0, "governs", bold=True)
    names, cell = place.column(NAME), f"C{at + 1}"
    now = place.over.rows[run - 1].text
    sheet.formula(at, 1, f"INDEX({names},{cell})", words.printable(now), text_wrap=True)
    if block.ratio_column is None:
        sheet.number(at, VALUE, run, "0")
    else:
        # of several alike the one that governed; a hair of round-off changes nothing
        ratios, was = place.column(block.ratio_column), f"E{at + 1}"
        largest = f"MAX({ratios})"
        same = f"INDEX({ratios},{was})>={largest}*(1-1E-9)"
        found = f"IF({same},{was},MATCH({largest},{ratios},0))"
        sheet.formula(at, VALUE, found, run, "0")
    sheet.text(at, 3, "as run")
    sheet.number(at, 4, run, "0", align="left")
    if block.ratio_column is not None:
        said = f'IF({cell}={was},"","another combination governs now: {AGAIN}")'
        sheet.formula(at, 5, said, "", text_wrap=True, bold=True)


def _is(item: Item) -> str:
    """What a line is, in symbols, or the meaning of what stands by itself."""
    if item.formula is not None:
        beside = ", or the same at its other side, the larger" if item.beside else ""
        broken = ", where it acts" if item.broken else ""
        return f"{in_symbols(item.formula)}{WORDS[item.form]}{beside}{broken}"
    meaning = symbol(item.symbol).meaning
    if item.way == "sum":
        return f"{meaning}: sum over the parts{WORDS[item.form]}"
    if item.way in ("least", "greatest"):
        listed = ", ".join(symbol(one.symbol).text for one in item.inputs.values())
        return f"{'least' if item.way == 'least' else 'largest'} of {listed}"
    return f"{meaning}: by the program's statics" if item.way == "column" else meaning


def _at(values: Array, block: Block) -> float:
    return float(values[block.check.row.column if len(values) > 1 else 0])


def _value(block: Block, places: Places, place: SetPlace | None, item: Item) -> None:
    """The value of a line: a formula of the lines above it, or where it stands elsewhere."""
    value = _at(item.values, block)
    if item.leaf is not None:
        formula = places.leaf(item.leaf)
    elif item.varies and (item.way in ("sum", "time", "column") or item.broken):
        assert place is not None
        column = place.column(place.columns[item.key])
        formula = f"INDEX({column},$C${block.governs + 1})"
    else:
        cells = {name: f"C{block.rows[one.key] + 1}" for name, one in item.inputs.items()}
        beside = [f"C{block.rows[one.key] + 1}" for one in item.beside]
        formula = worked(item, cells, beside)
    stated = item.leaf is not None or item.way == "time"
    form = GENERAL if stated and len(f"{value:.12g}") <= DIGITS else ""
    block.sheet.formula(block.rows[item.key], VALUE, formula, value, form)


def _ends(block: Block, places: Places, place: SetPlace | None) -> None:
    """Demand, capacity, their ratio and what follows."""
    sheet, check, row = block.sheet, block.check, block.check.row
    unit = unit_text(row.unit)
    line = {"top": 1}
    for at, label, end in ((block.demand, "demand", check.demand),
                           (block.capacity, "capacity", check.capacity)):  # fmt: skip
        sheet.text(at, 0, label, bold=True, **(line if label == "demand" else {}))
        sheet.text(at, 3, unit, indent=1)
        if end is None:
            sheet.text(at, VALUE, "not known")
            continue
        value = _at(end.values, block)
        if end.items:
            cells = [f"C{block.rows[one.key] + 1}" for one in end.items]
            sheet.formula(at, VALUE, of_end(end, cells, ""), value, digits(value), bold=True)
        elif len(end.values) == 1:
            sheet.number(at, VALUE, value, bold=True)
        else:
            _listed(block, end, at)
    d, c = f"C{block.demand + 1}", f"C{block.capacity + 1}"
    sheet.text(block.used, 0, "used", bold=True)
    sheet.text(block.state, 0, "so", bold=True)
    if row.ratio is not None:
        sheet.formula(block.used, VALUE, f"IF({d}=0,0,{d}/{c})", row.ratio, "0.000", bold=True)
    sheet.formula(
        block.state, VALUE, state(block, places), STATES[row.status], bold=True, align="right"
    )
    sheet.text(block.state, 4, row.why)


def _listed(block: Block, end: End, at: int) -> None:
    """A demand of the program, by the number of the combination."""
    value = _at(end.values, block)
    if len(end.values) > 250:  # as many as CHOOSE takes; else as it was
        block.sheet.number(at, VALUE, value)
        return
    listed = ",".join(repr(float(one)) for one in end.values)
    block.sheet.formula(at, VALUE, f"CHOOSE($C${block.governs + 1},{listed})", value)


def state(block: Block, places: Places) -> str:
    """Whether the check passes, as far as it follows what was changed."""
    row, used = block.check.row, f"C{block.used + 1}"
    moved = "+".join(places.counts[kind] for kind in block.check.deaf)
    held = STATES["open" if row.check.rule == "open" or row.status == "open" else "pass"]
    over = STATES["open" if row.check.rule == "analogy" else "fail"]
    if row.ratio is None:
        every = "+".join(places.counts.values())
        return f'IF({every}>0,"{AGAIN}","{STATES[row.status]}")'
    if row.check.rule == "analogy":
        held = STATES["pass"]
    found = f'IF({used}>1,"{over}","{held}")'
    return f'IF(OR({moved}>0,ISERROR({used})),"{AGAIN}",{found})'
