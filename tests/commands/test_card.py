"""The card: every cell against single designs, blank cells, one printed page."""

import csv
import io
import json
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from level_case import case
from pypdf import PdfReader
from sample_case import SMALLEST, written
from thorough import some

import outrigger
from outrigger.base import quantity
from outrigger.base.errors import InputError
from outrigger.cases.batch import batch_of
from outrigger.cases.read import read_case
from outrigger.report.screen import card as card_page
from outrigger.report.write.card import pdf
from outrigger.studies.card import GAP, card, own_axes
from outrigger.verdict.design import design, designs_of

SAMPLE = Path(outrigger.__file__).with_name("sample.toml")


@pytest.fixture(scope="module")
def sample():
    one, _ = read_case(SAMPLE)
    return card(one, **own_axes(one))


def alone(result, cell, length, *more):
    """The design of one cell at one gap or back span, by itself, its numbers as they are typed."""
    key = "gap" if result.over == "gap" else "back_span"
    words = [f"spacing={cell.spacing}in", f"snow={cell.snow}psf", f"roof_span={cell.span}ft"]
    one, _ = read_case(SAMPLE, [*words, f"{key}={length}in", *more])
    return design(one)


def largest_alone(result, cell):
    """The largest gap of a cell in steps of the card, by designs of their own: halving."""
    steps = np.arange(GAP[0], GAP[1] + GAP[2] / 2, GAP[2])
    low, high = 0, len(steps) - 1
    assert alone(result, cell, steps[low]).works and not alone(result, cell, steps[high]).works
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (
            (middle, high) if alone(result, cell, steps[middle]).works else (low, middle)
        )  # fmt: skip
    return steps[low]


def test_a_cell_works_at_its_gap_and_not_a_quarter_inch_on(sample):
    for cell in sample.cells[::5]:
        if cell.high is None:
            assert not alone(sample, cell, GAP[0]).works
            continue
        assert alone(sample, cell, cell.high).works
        past = alone(sample, cell, cell.high + GAP[2])
        assert not past.works
        assert past.closest.check.id == cell.stops.check.id


def test_a_back_span_works_and_a_line_less_does_not():
    """The rafters cross below at 16 in: between two of them the back clips miss."""
    one, _ = read_case(SAMPLE)
    found = card(one, "back span", spacings=[16], snows=[20, 25, 40], spans=[12, 18, 24])
    for cell in found.cells:
        if cell.low is None:
            continue
        assert alone(found, cell, cell.low).works
        assert cell.low % 16 == 0
        assert cell.low == found.lengths[0] or not alone(found, cell, cell.low - 16).works
        if not cell.to_the_end:
            assert not alone(found, cell, cell.high + 16).works


def test_along_the_framing_every_inch_is_a_back_span():
    along = "house_roof.framing_parallel=true"
    one, _ = read_case(SAMPLE, [along, "spacing=16in"])
    found = card(one, "back span", spacings=[16], snows=[25], spans=[18])
    assert set(np.diff(found.lengths)) == {1.0}
    (cell,) = found.cells
    assert alone(found, cell, cell.low, along).works
    assert not alone(found, cell, cell.low - 1, along).works


def test_no_gap_between_two_looks_is_missed():
    """Every quarter inch from 1 to 24 in of three cells, in one sweep: what works is one stretch,
    the one of the card."""
    one, _ = read_case(SAMPLE)
    found = card(one, spacings=[12, 24], snows=[30], spans=[18, 28])
    gaps = np.arange(GAP[0], GAP[1] + 0.1, GAP[2])
    for cell in found.cells:
        fields = {"outrigger.spacing": cell.spacing, "snow.ground": cell.snow / 144,
                  "garage_roof.span": cell.span * 12}  # fmt: skip
        works = gaps[designs_of(batch_of(one, {**fields, "gap.width": gaps})).works]
        if cell.low is None:
            assert not len(works)
        else:
            assert works.tolist() == np.arange(cell.low, cell.high + 0.1, GAP[2]).tolist()


def test_the_cell_of_the_case_itself_is_its_largest_gap(sample):
    """Reserve finds the sample's to the last float; the card's is the quarter inch below."""
    from outrigger.studies.reserve import reserve

    one, _ = read_case(SAMPLE)
    (cell,) = (c for c in sample.cells if (c.spacing, c.snow, c.span) == (16, 25, 18))
    (gap,) = (s for s in reserve(one).sides if s.quantity.name == "gap" and s.up)
    assert cell.high == np.floor(gap.turn.last * 4) / 4


def test_more_snow_or_span_never_allows_more(sample):
    """Law along each axis; a blank cell is no gap at all. Spacing is left out: a whole truss rests
    on one outrigger at any spacing under its own, and the tighter spacing has less dead load
    behind the edge to hold the back down."""
    at = {(c.spacing, c.snow, c.span): c.high or 0.0 for c in sample.cells}
    for spacing in sample.spacings:
        for snow in sample.snows:
            row = [at[spacing, snow, span] for span in sample.spans]
            assert row == sorted(row, reverse=True)
        for span in sample.spans:
            row = [at[spacing, snow, span] for snow in sample.snows]
            assert row == sorted(row, reverse=True)


def test_a_blank_cell_says_why(sample):
    blank = [c for c in sample.cells if c.low is None]
    assert blank
    assert all(c.stops is not None and c.stops.ratio > 1 for c in blank)
    text = card_page.page(sample, 80)
    letter = re.search(r"(?m)^  (\w): shear at the house wall, arm side$", text)
    assert letter and f" - {letter[1]}" in text


def test_rows_and_csv_hold_every_cell(sample):
    rows = card_page.as_rows(sample)
    assert len(rows) == len(sample.spacings) * len(sample.snows) * len(sample.spans)
    lines = card_page.as_csv(sample).splitlines()
    assert len(lines) == len(rows) + 1
    first = next(csv.DictReader(lines))
    assert [first[key] for key in ("digest", "verdict", "open", "sample")] == [
        sample.asked.case.digest, "pass", "", "false",
    ]  # fmt: skip
    cell = [float(first[key]) for key in list(first)[4:8]]
    assert cell == [12.0, 20.0, 12.0, 1.0]
    assert float(first["largest_gap_in"]) == largest_alone(sample, sample.cells[0])
    empty = next(line for line, row in zip(lines[1:], rows, strict=True)
                 if row["largest_gap_in"] is None)  # fmt: skip
    assert ",,," in empty


@pytest.mark.parametrize(
    ("changes", "fault"),
    [
        ({"garage_roof__line": {"D": "150 plf"}}, "truss sheet"),
        ({"garage_roof__bearing": False, "garage_roof__overhang": "none"}, "bears no roof"),
        ({"snow": {"ground": "none"}}, "no snow to change"),
    ],
)
def test_a_card_needs_a_span_and_a_snow(changes, fault):
    with pytest.raises(InputError, match=fault):
        card(case(**changes))


@pytest.mark.parametrize("over", ["gap", "back span"])
def test_a_cell_works_only_where_check_passes(sample, over):
    """A roof of more span than the sample's garage is long is open in check, and so is its cell:
    marked, and not among those that work."""
    found = sample if over == "gap" else card(read_case(SAMPLE)[0], over, snows=[20, 30])
    within = [cell for cell in found.cells if cell.low is not None]
    for cell in (within[i] for i in some(len(within), 24)):
        verdicts = {alone(found, cell, length).verdict for length in {cell.low, cell.high}}
        assert verdicts == ({"pass"} if cell.works else {"open"}), cell
        assert bool(cell.open) != cell.works
    opened = [cell for cell in found.cells if cell.open]
    assert opened
    assert {cell.open for cell in opened} == {("snow.drift.garage_length",)}
    rows = card_page.as_rows(found)
    assert {row["verdict"] for row in rows if not row["works"] and row["open"]} == {"open"}
    text = " ".join(card_page.page(found, 80).split())
    works = sum(cell.works for cell in found.cells)
    assert f"{works} of {len(found.cells)} cells" in text
    assert f"{len(opened)} more are open (?)" in text
    assert "? not known to work, open there: snow.drift.garage_length." in text


def test_no_snow_given_cannot_say(run, tmp_path):
    """Not given is not zero, and no fault either; a truss sheet in place of it is one."""
    path = written(tmp_path, SMALLEST)
    done = run("card", path)
    assert done.returncode == 3
    assert "CANNOT SAY what works" in done.stdout
    assert "snow" in done.stdout.partition("missing")[2].partition(".")[0]
    assert not any(row["works"] for row in json.loads(run("card", path, "--json").stdout))
    assert run("card", path, "garage_roof.line.D=150plf").returncode == 2


def text_of(page):
    return " ".join(PdfReader(io.BytesIO(page)).pages[0].extract_text().split())


def test_one_page_with_its_assumptions(sample):
    page = pdf(sample, sample=True)
    reader = PdfReader(io.BytesIO(page))
    text = text_of(page)
    assert len(reader.pages) == 1
    first = quantity.length(largest_alone(sample, sample.cells[0])).removesuffix(" in")
    for said in ("SAMPLE, NOT YOUR JOB", first, "rated uplift 420 lb", "dead 15 psf",
                 "house edge: kind top plate on studs", "house rafter: kind rafter",
                 "Not permission to build", "one worker, 300 lb"):  # fmt: skip
        assert said in text, said
    assert page == pdf(sample, sample=True)


def test_the_cell_of_the_case_is_marked_on_paper_as_on_the_screen():
    """The words "yours (>)" stand below the table: one cell of it is so marked."""
    asked = case()
    span = asked.garage_roof.span / 12
    snow = (asked.snow.ground or asked.snow.roof) * 144
    here = asked.outrigger.spacing
    page = text_of(pdf(card(asked, spacings=[here, 24], snows=[snow], spans=[span, 24])))
    found = page.partition("yours (>), ")[2].partition(": ")[2].partition(" in.")[0]
    assert found and f">{found}" in page.replace("> ", ">")


def test_text_of_the_user_is_never_markup():
    """Marks of the typesetter in a name or a source print as they are."""
    name = 'Job #let x = 1 *bold* $y$ <z> @a "b" \\ [c]'
    page = pdf(card(case(project__name=name), spacings=[16], snows=[30], spans=[20, 24]))
    assert name in text_of(page)


def test_a_long_list_still_makes_one_page():
    """What does not fit is counted, and the screen has it all."""
    rows = [f"2 bundles of {i} of the yard's own mill, as marked on the invoice" for i in range(99)]
    one = case(hold_down__0__rated_source="; ".join(rows))
    page = pdf(card(one, spacings=[12, 16, 24], snows=[20, 30, 40, 50, 70], spans=[12, 16, 20]))
    reader = PdfReader(io.BytesIO(page))
    assert len(reader.pages) == 1
    assert "more: the card on screen lists them all." in text_of(page)
    assert "not checked: house wall, house wall uplift, house rafters" in text_of(page)


def test_the_typesetter_loads_only_to_write():
    code = (
        "import sys, outrigger.cli.app, outrigger.report.write.card; print('typst' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
