"""The file of a live workbook."""

from collections.abc import Sequence

from outrigger.cases.settings import Override
from outrigger.report import words
from outrigger.report.book import checks, combinations, front, inputs
from outrigger.report.book.places import Places
from outrigger.report.book.sheet import Book
from outrigger.studies.workbook import Workbook


def written(
    found: Workbook,
    sample: bool,
    overrides: Sequence[Override] = (),
    paper: str = "us-letter",
) -> bytes:
    """The workbook as the content of a file; the same bytes each time.

    paper: us-letter or a4.
    """
    design = found.design
    said = words.SAMPLE if sample else ""
    book = Book("Outrigger calculation workbook", said, paper)
    name = words.shortened(words.printable(design.case.project.name), 60)
    foot = f"{name}, {words.revision(design.case)}; preliminary until adopted, see first sheet"
    places = Places()
    first = book.sheet("Summary", front.WIDTHS, foot)
    given = book.sheet("Inputs", inputs.WIDTHS, foot)
    loads = book.sheet("Loads", inputs.LOADS_WIDTHS, foot)
    rows = inputs.place_inputs(given, found, places)
    amounts = inputs.place_loads(loads, found, places)
    checks.place_checks(book, found, places, foot)
    for over in found.sets:
        sheet = book.sheet("Combinations", combinations.WIDTHS, foot)
        places.sets[id(over)] = place = combinations.place_set(sheet, over, found.checks)
        checks.place_ratios(place, places.blocks)
    front.write_front(first, found, places, said, overrides)
    inputs.write_inputs(given, rows)
    inputs.write_loads(loads, found, places, amounts)
    for block in places.blocks:
        checks.write_block(block, places)
    for place in places.sets.values():
        combinations.write_set(place, places, places.blocks)
    return book.data()
