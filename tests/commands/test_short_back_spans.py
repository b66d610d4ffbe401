"""No sweep shows a back span that is short beside the arm without its caution.

The arm of the example over its 6 in gap: 6 + 1/2 of finish + half of 3 1/2 of plate + half of 3 of
bearing = 9 3/4 in; over another gap as much more or less. Twice 19 1/2, three times 29 1/4 in.
"""

import csv
import io
import json
import re
from pathlib import Path

import pytest

from outrigger.cases.read import read_case
from outrigger.studies.changes import ways
from outrigger.verdict.back_span import SHORT_BACKS, short_back
from outrigger.verdict.design import design

PASSES = Path(__file__).parents[2] / "examples" / "passes.toml"
PULLS, TWICE, THRICE = (one.words for one in SHORT_BACKS)
BESIDE = 3.75  # of the arm, beside the gap


def asked(back, arm):
    """The words that a back span calls for, by hand."""
    if back >= 3 * arm:
        return ""
    return THRICE if back >= 2 * arm else TWICE if back >= arm else PULLS


def flat(text):
    return " ".join(text.split())


@pytest.mark.parametrize(
    ("back", "mark"), [(9.7, "!!"), (9.75, "!"), (19.4, "!"), (19.5, "*"), (29.2, "*"), (29.25, "")]
)
def test_the_three_steps(back, mark):
    found = short_back(back, 9.75)
    assert ("" if found is None else found.mark) == mark


def test_the_words():
    assert "the clip pulls more than the load" in PULLS
    assert "strongly" in TWICE
    assert all(words.endswith("(common practice, no source)") for words in (TWICE, THRICE))


@pytest.mark.parametrize("kind", ["--json", "--csv"])
def test_rows_of_gap(run, kind):
    text = run("gap", PASSES, "back_span=24in", "--to", "20 in", kind).stdout
    rows = json.loads(text) if kind == "--json" else list(csv.DictReader(io.StringIO(text)))
    seen = set()
    for row in rows:
        arm = float(row["gap_in"]) + BESIDE
        seen.add(row["caution"])
        assert row["caution"] == asked(float(row["back_span_in"]), arm)
        least = row["least_back_span_in"]
        words = asked(float(least), arm) if least not in (None, "") else ""
        assert row["least_back_span_caution"] == words
    assert seen == {"", THRICE, TWICE}


@pytest.mark.parametrize("words", [[], ["--back-span"]], ids=["gap", "back span"])
@pytest.mark.parametrize("kind", ["--json", "--csv"])
def test_rows_of_card(run, words, kind):
    text = run("card", PASSES, "size=2x10", *words, kind).stdout
    rows = json.loads(text) if kind == "--json" else list(csv.DictReader(io.StringIO(text)))
    seen = set()
    for row in rows:
        gap, back = (row.get("largest_gap_in"), 48) if not words else (6, row["least_back_span_in"])
        blank = "" in (gap, back) or None in (gap, back)
        assert row["caution"] == ("" if blank else asked(float(back), float(gap) + BESIDE))
        seen.add(row["caution"])
    assert TWICE in seen


def test_rows_of_reserve(run):
    rows = json.loads(run("reserve", PASSES, "--json").stdout)
    (down,) = (r for r in rows if r["key"] == "outrigger.back_span" and r["way"] == "down")
    (wider,) = (r for r in rows if r["key"] == "gap.width" and r["way"] == "up")
    assert down["caution"] == asked(down["works_at"], 9.75) == TWICE
    assert wider["caution"] == asked(48, wider["works_at"] + BESIDE) == ""


def test_rows_of_size(run):
    """Only the stated back span may be under twice the arm: 18 in here."""
    rows = json.loads(run("size", PASSES, "back_span=18in", "--json").stdout)
    assert {row["caution"] for row in rows} == {TWICE, ""}
    for row in rows:
        assert row["caution"] == asked(row["back_span_in"], 9.75)


MARKED = r"(?<![\d.,])(\d+(?: \d+/\d+)?)(?: in)?(!!|!|\*)"


@pytest.mark.parametrize(
    ("words", "some"),
    [
        (["gap"], "15 5/16 in*"),
        (["gap", "back_span=24in"], "12 in!"),
        (["card", "--back-span"], "16! to"),
        (["card", "size=2x10"], "24!"),
        (["reserve"], "12 5/16 in!"),
        (["size", "back_span=18in"], "18 in!"),
    ],
    ids=" ".join,
)
@pytest.mark.parametrize("width", [80, 40])
def test_on_screen_with_their_words(run, words, some, width):
    said = flat(run(words[0], PASSES, *words[1:], width=width).stdout)
    assert some in said
    for mark in {found[1] for found in re.findall(MARKED, said)}:
        (one,) = (one for one in SHORT_BACKS if one.mark == mark)
        assert f"{mark} {one.words}." in said


def test_the_largest_gap_says_it_beside_itself(run):
    """24 in at 9.2 in of gap: twice the arm is 2 x 12.95 = 25.9 in."""
    said = flat(run("gap", PASSES, "back_span=24in").stdout)
    assert f"There, {TWICE}." in said


def test_a_printed_card_has_them(run, tmp_path):
    from pypdf import PdfReader

    to = tmp_path / "card.pdf"
    run("card", PASSES, "--back-span", "--pdf", to)
    said = flat(PdfReader(to).pages[0].extract_text())
    assert "16! to 64" in said
    assert f"! {TWICE}." in said


def test_a_cure_with_a_short_back_span_says_so():
    """24 in, under 29 1/4 in."""
    words = ["back_span=9in", "clip=250lb", "house_roof.framing_spacing=6in"]
    found = ways(
        design(read_case(PASSES, words)[0]), lambda more: read_case(PASSES, [*words, *more])[0]
    )
    (way,) = (way for way in found if way.setting == "back_span=24in")
    assert way.words == f"with a back span of 24 in, a {THRICE}"
