"""A picture travels alone: each one says itself whether it works, and shows where it fails."""

import xml.etree.ElementTree as ET
from pathlib import Path

import pypdf
import pytest

from outrigger.cases.read import read_case
from outrigger.report import verdict_words
from outrigger.report.draw import gaps as chart
from outrigger.report.screen.gap import verdict
from outrigger.studies import gaps as study

EXAMPLES = Path(__file__).parents[2] / "examples"
WEAK = EXAMPLES / "shear_in_a_weak_species.toml"
MARKS = EXAMPLES / "marks_on_the_plate.toml"
RUN = "layout.run=24 ft"


def text_of(path):
    root = ET.parse(path).getroot()
    texts = [
        " ".join("".join(e.itertext()).split()) for e in root.iter() if e.tag.endswith("}text")
    ]
    return " ".join(texts)


@pytest.mark.parametrize(
    "name",
    ["passes", "laid_flat", "notched_over_the_wall", "open_first_sketch", "two_plies",
     "uplift_without_edge_tie", "wet_and_incised"],
)  # fmt: skip
def test_the_picture_of_gaps_has_the_verdict_of_the_screen(tmp_path, name):
    case, _ = read_case(EXAMPLES / f"{name}.toml")
    found = study.study(case, study.gaps(2, 12, 2))
    to = tmp_path / "a.svg"
    to.write_bytes(chart.draw(found, ".svg", sample=True))
    said = text_of(to)
    assert verdict(found, sample=True) in said
    assert ("FAILS" in said) == any(not row.works for row in found.rows)
    assert "asked" not in said  # nothing was
    if found.answer == "open":
        assert "works to" not in said
    if found.answer != "open" and (reason := verdict_words.left_open(found.asked)):
        assert f"Open still: {reason}." in said


def test_a_gap_that_was_asked_for_is_drawn(run, tmp_path):
    to = tmp_path / "a.svg"
    run("gap", EXAMPLES / "passes.toml", "gap=7in", "--plot", to)
    assert "asked: 7 in" in text_of(to)


def test_what_fails_by_a_rule_is_named(run, tmp_path):
    """No tie under uplift has no curve: under it all curves stay below the limit to 8.9 in."""
    to = tmp_path / "a.svg"
    run("gap", EXAMPLES / "uplift_without_edge_tie.toml", "--plot", to)
    said = text_of(to)
    assert "no gap works, not even 1/16 in" in said
    assert "No curve shows it: uplift at the house wall, no tie there fails by a rule" in said
    assert "from 2 in to 12 in" in said


def stretches(path, *words, start=2.0, stop=12.0):
    case, _ = read_case(path, words)
    found = study.study(case, study.gaps(start, stop, 0.5))
    return found, chart.failing(found)


def test_the_shading_starts_at_the_largest_gap():
    found, ((start, end),) = stretches(EXAMPLES / "passes.toml")
    assert (start, end) == (found.largest.last, 12.0)
    assert stretches(EXAMPLES / "passes.toml", stop=8.5)[1] == []


def test_all_of_it_is_shaded_where_nothing_works():
    assert stretches(EXAMPLES / "uplift_without_edge_tie.toml")[1] == [(2.0, 12.0)]


def test_a_plan_of_a_wall_that_fails_says_so(run, tmp_path):
    to, stronger = tmp_path / "a.svg", "hold_down[back].rated_wood=Spruce-Pine-Fir"
    assert run("layout", WEAK, RUN, stronger, "--plan", to).returncode == 1
    said = text_of(to)
    assert "SAMPLE: fail: shear at the house wall, arm side 1.11." in said
    assert "FAILS: marks 3 to 17." in said
    assert said.count("FAILS") == 1 + 15
    assert "Open still: back clip pull-out is open" in said


def test_a_plan_of_a_wall_that_passes_says_that(run, tmp_path):
    to = tmp_path / "a.svg"
    assert run("layout", MARKS, "--plan", to).returncode == 0
    said = text_of(to)
    assert "SAMPLE: pass, " in said
    assert "FAIL" not in said


@pytest.mark.parametrize("width", [80, 40])
def test_a_wall_that_fails_has_no_boxes(run, width):
    """Marks 3 to 17, fifteen of them, carry more than the wood takes."""
    said = run("layout", WEAK, RUN, width=width).stdout
    assert "[ ]" not in said
    assert sum(line.startswith("FAILS ") for line in said.splitlines()) == 15
    assert "FAILS: marks 3 to 17. No boxes to tick:" in " ".join(said.split())
    assert max(map(len, said.splitlines())) <= width
    passing = run("layout", MARKS, width=width).stdout
    assert "[ ]" in passing
    assert "FAILS" not in passing


def test_the_page_to_build_from_says_it_too(run, tmp_path):
    to = tmp_path / "a.pdf"
    run("layout", WEAK, RUN, "--pdf", to)
    said = " ".join(pypdf.PdfReader(to).pages[0].extract_text().split())
    assert said.count("FAILS") == 1 + 15
    assert "used" in said
    assert said.count("1.11") >= 15
    run("layout", MARKS, "--pdf", tmp_path / "b.pdf")
    said = " ".join(pypdf.PdfReader(tmp_path / "b.pdf").pages[0].extract_text().split())
    assert "used" in said
    assert "0.64" in said
    assert "FAILS" not in said
