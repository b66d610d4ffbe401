"""The first sheet of a workbook: the job, the verdict, every ratio, the cautions in full."""

from collections.abc import Iterator, Sequence

from outrigger.cases.settings import Override
from outrigger.report import cautions, provenance, verdict_words, words
from outrigger.report.book.checks import AGAIN, STATES
from outrigger.report.book.places import VALUE, Block, Places
from outrigger.report.book.sheet import Sheet, whole
from outrigger.report.rows import worst_first
from outrigger.studies.workbook import Workbook
from outrigger.verdict import notes

HEAD = ("where", "what", "demand", "capacity", "unit", "used", "as run", "so", "under, as run", "")
WIDTHS = (13, 36, 9, 9, 7, 8, 8, 16, 44, 26)
PRELIMINARY = (
    "PRELIMINARY: not for construction, bidding or permit until adopted by the engineer of record"
)
CHANGED = " with changed inputs: run check again before it is used"
RULES = (
    "A live workbook: the yellow cells of Inputs may be changed, and what hangs on them follows.",
    "It follows the governing combination; where a changed input makes another govern it says so: "
    "run check again.",
    "Where a number of a check is the program's own and may move too, the check says: run check "
    "again. Only a run of the program covers every rule, and what is not given.",
)


def write_front(
    sheet: Sheet, found: Workbook, places: Places, sample: str, overrides: Sequence[Override]
) -> None:
    """The first sheet."""
    row = 0
    if sample:
        sheet.text(row, 0, sample, bold=True, font_size=14)
        row += 1
    sheet.text(row, 0, "Outrigger calculation workbook", bold=True, font_size=16)
    row += 1
    for said in _job(found, overrides):
        sheet.text(row, 0, said)
        row += 1
    verdict = row + 1
    row += 3
    design = found.design
    sheet.text(row, 0, f"As run: {verdict_words.verdict_line(design, bool(sample))}")
    sheet.text(row + 1, 0, words.title(design))
    sheet.text(row + 2, 0, words.ENGINEERS_LINE, bold=True)
    sheet.text(row + 3, 0, PRELIMINARY, bold=True)
    row += 5
    for said in RULES:
        sheet.text(row, 0, said, italic=True)
        row += 1
    row += 1
    first = row + 1
    sheet.head(row, HEAD)
    row = _ratios(sheet, first, found, places)
    states = f"H{first + 1}:H{row}"
    _verdict(sheet, verdict, found, places, states, bool(sample))
    for title, lines in _texts(found):
        row += 1
        sheet.text(row, 0, title, bold=True)
        row += 1
        for said in lines:
            sheet.page.merge_range(row, 0, row, len(HEAD) - 1, "")
            sheet.page.write_string(row, 0, words.printable(said), sheet.book.style(text_wrap=True))
            sheet.room(row, 0, said, len(HEAD), text_wrap=True)
            row += 1
    sheet.page.repeat_rows(first - 1)


def _job(found: Workbook, overrides: Sequence[Override]) -> Iterator[str]:
    case = found.design.case
    yield words.job(found.design)
    yield f"case {words.digest(case.digest)}"
    basis = case.basis
    said = (case.project.address, case.project.location, case.project.date, basis.code)
    if any(said):
        yield ", ".join(words.printable(str(one)) for one in said if one)
    yield f"{basis.loads}, {basis.wood}, {basis.method}"
    if found.design.mark is not None:
        yield f"At mark {found.design.mark}, the worst of the layout."
    for one in overrides:
        yield f"Set on the command line: {one.text}."


def _verdict(
    sheet: Sheet, row: int, found: Workbook, places: Places, states: str, sample: bool
) -> None:
    """The verdict, live."""
    design = found.design

    def said(text: str) -> str:
        return words.of_sample(text) if sample else text

    held = "OPEN" if design.not_given or design.not_covered else "PASS"
    open_, fails = (STATES[one] for one in ("open", "fail"))
    again = said("RUN CHECK AGAIN: more hangs on a changed input than is followed here")
    inside = f'IF(COUNTIF({states},"{open_}")>0,"{said("OPEN")}","{said(held)}")'
    inside = f'IF(COUNTIF({states},"{fails}")>0,"{said("FAIL")}",{inside})'
    formula = f'IF(COUNTIF({states},"{AGAIN}")>0,"{again}",{inside})'
    changed = "+".join(places.counts.values())
    formula += f'&IF({changed}>0,"{CHANGED}","")'
    value = said(design.verdict.upper())
    sheet.formula(row, 0, formula, value, bold=True, font_size=16)


def _ratios(sheet: Sheet, row: int, found: Workbook, places: Places) -> int:
    """Every check, the closest first; the row behind the last."""
    blocks = {id(one.check.row.check): one for one in places.blocks}
    for one in worst_first(found.design.rows):
        sheet.text(row, 0, words.place(one.place))
        sheet.text(row, 1, words.what(one, engineers=True), text_wrap=True)
        if id(one.check) in blocks:
            _ratio(sheet, row, blocks[id(one.check)])
        else:
            _quiet(sheet, row, places)
        row += 1
    return row


def _quiet(sheet: Sheet, row: int, places: Places) -> None:
    """A check with nothing to carry, as long as nothing is changed."""
    changed, state = "+".join(places.counts.values()), STATES["pass"]
    sheet.formula(row, 7, f'IF({changed}>0,"{AGAIN}","{state}")', state, indent=1)
    sheet.text(row, 8, "nothing to carry")


def _ratio(sheet: Sheet, row: int, block: Block) -> None:
    one = block.check.row
    cell = block.sheet.cell
    sheet.formula(row, 2, cell(block.demand, VALUE), one.demand, whole(one.unit, one.demand))
    if one.capacity is None:
        sheet.text(row, 3, "not known")
    else:
        form = whole(one.unit, one.capacity)
        sheet.formula(row, 3, cell(block.capacity, VALUE), one.capacity, form)
    sheet.text(row, 4, one.unit, indent=1)
    if one.ratio is not None:
        sheet.formula(row, 5, cell(block.used, VALUE), one.ratio, "0.00", bold=True)
        sheet.number(row, 6, one.ratio, "0.00")
    state = STATES[one.status]
    sheet.formula(row, 7, cell(block.state, VALUE), state, bold=one.status != "pass", indent=1)
    sheet.text(row, 8, "; ".join(
        text for text in (one.combination_words, one.why) if text), text_wrap=True)  # fmt: skip
    if block.ratio_column is not None:
        sheet.formula(row, 9, f'{cell(block.governs, 5)}&""', "", text_wrap=True)


def _texts(found: Workbook) -> Iterator[tuple[str, list[str]]]:
    """What stands under the ratios."""
    design = found.design
    if others := verdict_words.at_other_marks(design, None):
        yield "At other marks of the layout", [others]
    missing = [f"{one.key}: {one.question} ({one.who})" for one in design.not_given]
    if missing:
        yield "Not given", missing
    if design.not_covered:
        yield "In the file but not computed", list(design.not_covered)
    said = cautions.as_data(design)
    yield "Cautions, the most dangerous first", [words.capital(one) for one in said["cautions"]]
    yield "Not checked", [words.capital(one) for one in said["not_checked"]]
    taken = [words.capital(f"{one}.") for one in (*design.defaults, *notes.assumed(design))]
    yield "Taken for granted, or by default", list(dict.fromkeys(taken))
    if values := notes.unverified(design):
        title = "Values of unverified source: check each in print"
        yield title, [provenance.DEFINITIONS, *values]
