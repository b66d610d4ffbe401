"""What a study says of one of its rows is what `check` says of the very same settings: verdict,
what is open, ratio."""

import json
from pathlib import Path

import numpy as np
import pytest
from remembered import MEMORY
from sample_case import changed, written
from thorough import in_turn

from outrigger.cases.read import opened, read_case
from outrigger.page.pocket import pocket
from outrigger.report.data import gap as gap_rows
from outrigger.report.data.sweeps import reserve_rows, size_rows
from outrigger.report.screen.card import page as card_page
from outrigger.report.screen.gap import brief, page
from outrigger.report.screen.reserve import page as reserve_page
from outrigger.report.screen.size import page as size_page
from outrigger.studies import consequences
from outrigger.studies import gaps as study
from outrigger.studies.card import card, own_axes
from outrigger.studies.changes import ways
from outrigger.studies.gap_cases import at_gap, fields_of
from outrigger.studies.reserve import quantities, reserve
from outrigger.studies.sizes import sizes
from outrigger.verdict.design import design
from outrigger.verdict.unknown import Unknown

EXAMPLES = Path(__file__).parents[2] / "examples"
PASSES = EXAMPLES / "passes.toml"
RUN = "layout.run=20ft"
SKYLIGHT = 'layout.openings=[{from = "9 ft", to = "11 ft"}]'
PAIR = "layout.double_at=[6]"
BLOCKS = ("hold_down[back].into=blocking", "hold_down[edge].into=blocking")

SIZED = [
    ("passes.toml", ()),
    ("passes.toml", (RUN, SKYLIGHT)),
    ("passes.toml", (RUN, SKYLIGHT, "layout.double_at_openings=true")),
    ("passes.toml", (RUN, PAIR)),
    ("passes.toml", ("back_span=50in",)),
    ("passes.toml", ("house_roof.framing_parallel=true", *BLOCKS)),
    ("marks_on_the_plate.toml", ()),
    ("linden_row/left.toml", ()),
    ("linden_row/rake.toml", ()),
]


@pytest.mark.parametrize(("name", "words"), SIZED)
def test_each_choice_of_size_adopted_has_its_verdict_and_ratio(name, words):
    file = opened(EXAMPLES / name)
    found = sizes(file.case(words)[0])
    assert found.choices
    rows = size_rows(found, name, words)
    assert len(rows) == len(found.choices)
    for one, row in list(zip(found.choices, rows, strict=True))[:: max(1, len(rows) // 12)]:
        alone = design(file.case([*words, *one.settings])[0])
        assert alone.works, one.settings
        piece = alone.case.outrigger
        assert (one.spacing, one.back_span) == pytest.approx((piece.spacing, piece.back_span))
        assert one.row.ratio == pytest.approx(alone.closest.ratio, rel=1e-12)
        assert (row["verdict"], tuple(row["open"])) == (alone.verdict, one.open)
        assert one.open == tuple(Unknown(alone).keys)
        assert one.sure is not bool(Unknown(alone).missing)
        assert row["spacing_in"] == one.spacing


def test_spacing_of_a_layout_is_the_one_that_was_run():
    """A skylight from 9 to 11 ft in a run of 20 ft: its neighbors carry more run than one spacing,
    and the spacing stays a trade's. Four clips an outrigger at 19.2 in are 4 x 12 / 19.2 = 2.5 a
    foot; a piece of 46 1/2 in (32 in of back span, 14 1/2 in of the rest) of a 2x8, 2 x 8 / 12 =
    1.3333 board feet a foot of it: 1.3333 x 3.875 / 1.6 = 3.2292."""
    found = sizes(read_case(PASSES, [RUN, SKYLIGHT])[0])
    assert {one.spacing for one in found.choices} <= {12, 16, 19.2, 24}
    assert {one.spacing for one in found.rejected} <= {12, 16, 19.2, 24}
    one = next(c for c in found.choices if (c.size, c.spacing, c.back_span) == ("2x8", 19.2, 32))
    assert one.clips == pytest.approx(2.5)
    assert one.board_feet == pytest.approx(4 / 3 * 46.5 / 12 / 1.6)
    assert "spacing=19.2in" in one.settings
    assert "28.8" not in size_page(found, 100, str(PASSES), [RUN, SKYLIGHT])


def test_heat_of_a_band_is_by_the_spacing_that_is_laid():
    """6 in of gap, 2x6 of G 0.50 at 16 in, whatever more run the mark beside a skylight has. Wood
    conducts 0.50 x (1.34 + 0.028 x 12) + 0.129 = 0.967, 1.8 times that along the grain, 1.7406: R
    6 / 1.7406 = 3.447; 1.5 / 16 = 0.09375 of the band, the rest R 24. 1 / (0.09375 / 3.447 +
    0.90625 / 24) = 15.39."""
    alone = design(read_case(PASSES, [RUN, SKYLIGHT])[0])
    assert float(alone.shape.spacing[0, 0]) > 16
    assert consequences.heat(alone).value == pytest.approx(15.39, abs=0.01)


CUT = [
    ("passes.toml", ("size=2x8",), None),
    ("passes.toml", ("size=2x8", "gap=8in"), 6.0),
    ("passes.toml", ("size=2x8", RUN, SKYLIGHT), None),
    ("passes.toml", (), None),
    ("linden_row/left.toml", (), None),
    ("slope_down_the_eave.toml", (), None),
    ("open_first_sketch.toml", (), None),
    ("row_of_clips.toml", (), None),
]


@pytest.mark.parametrize(("asked", "cut"), in_turn(CUT, [True, False]))
def test_each_gap_has_the_verdict_of_check(asked, cut):
    name, words, before = asked
    case = read_case(EXAMPLES / name, words)[0]
    values = np.arange(3.0, 13.0, 1.25)
    found = study.study(case, values, before=before, cut=cut)
    fields = fields_of(case, before, cut)
    rows = gap_rows.as_rows(found)
    for row, data in zip(found.rows, rows, strict=True):
        alone = design(at_gap(case, fields, row.gap))
        unknown = Unknown(alone)
        assert row.verdict == alone.verdict == data["verdict"]
        assert list(row.open) == unknown.keys == data["open"]
        assert data["works"] is row.sure is (alone.works and not unknown.missing)
        assert row.governing.ratio == pytest.approx(alone.closest.ratio, rel=1e-12)
    if found.answer == "pass":
        last = design(at_gap(case, fields, found.stops))
        assert last.works
        assert not Unknown(last).missing


@pytest.fixture(scope="module")
def cut():
    """2x8 cut for 6 in over rafters that cross every 16 in, 48 in of back span."""
    return study.study(read_case(PASSES, ["size=2x8"])[0], np.arange(2.0, 12.1, 0.5), cut=True)


def test_a_cut_piece_works_where_its_clips_land(cut):
    """Rafters 1 1/2 in wide cross at 48 in: a clip there lands where it is less than 3/4 in off,
    with the back span from 47.25 to 48.75 in, that is at gaps between 5.25 and 6.75 in; in
    sixteenths 5 5/16 to 6 11/16 in. Beyond, the strength alone would do."""
    assert cut.sure == (5.3125, 6.6875)
    assert cut.stops == 6.6875
    assert cut.more == ("clips off the framing",)
    assert cut.largest.last > 12
    assert cut.answer == "pass"
    assert [row.gap for row in cut.rows if row.sure] == [5.5, 6.0, 6.5]


def test_that_is_what_every_page_of_it_says(cut):
    assert "13" not in brief(cut, changed=False, sample=False)
    told = " ".join(page(cut, consequences.of(cut), 100).split())
    assert "WORKS over a gap of 5 5/16 in to 6 11/16 in; wider, clips off the framing is" in told
    assert "From 6 in to 6 11/16 in, does it work? Yes" in told
    assert "8 in? " in told
    assert "6 in " in told
    data = gap_rows.as_rows(cut)
    assert {row["largest_gap_in"] for row in data} == {6.6875}
    phone = pocket(cut, False)
    assert "WORKS over a gap of 5 5/16 in to 6 11/16 in" in phone
    assert phone.count("<td>works</td>") == 3
    json.dumps(data, allow_nan=False)


def test_a_range_without_one_that_lands_cannot_say(run):
    done = run("gap", PASSES, "size=2x8", "--cut", "--from", "8in")
    assert done.returncode == 3
    text = " ".join(done.stdout.split())
    assert "cannot say to what gap it works: clips off the framing is open there" in text
    done = run("gap", PASSES, "size=2x8", "gap=8in", "--cut", "--brief")
    assert done.returncode == 3
    assert "cannot say: clips off the framing" in done.stdout


@pytest.mark.parametrize("words", [("house_roof.framing_parallel=true", "outrigger.plies=1"), ()])
def test_reserve_marks_a_number_that_check_leaves_open(words):
    """Rafters beside the outriggers at 16 in: a spacing of 25 5/16 in misses them. Across them, a
    back span between two lines does."""
    case = read_case(PASSES, words)[0]
    found = reserve(case)
    rows = {(row["key"], row["way"]): row for row in reserve_rows(found)}
    asked = set(Unknown(found.asked).missing)
    for side in found.sides:
        if side.shown is None:
            continue
        file = opened(PASSES)
        if side.quantity.key not in ("outrigger.spacing", "outrigger.back_span", "gap.width"):
            continue
        alone = design(file.case([*words, f"{side.quantity.key}={side.shown}in"])[0])
        assert alone.works
        more = set(Unknown(alone).missing) - asked
        assert bool(side.open) == bool(more), side.quantity.key
        assert set(side.open) <= set(rows[side.quantity.key, "up" if side.up else "down"]["open"])
    key = "outrigger.spacing" if words else "outrigger.back_span"
    assert {bool(side.open) for side in found.sides if side.quantity.key == key} >= {True}
    text = " ".join(reserve_page(found, 100).split())
    assert "? not known to work, open there: " in text


def test_pairs_at_marks_keep_the_spacing(run, tmp_path, monkeypatch):
    """Mark 6 of a run of 20 ft at 16 in is not there at 60 in, and is another place at 24 in."""
    monkeypatch.setattr(MEMORY, "on", True)  # one study, and what prints it
    words = [RUN, PAIR]
    case = read_case(PASSES, words)[0]
    found = reserve(case)
    assert "outrigger.spacing" not in {side.quantity.key for side in found.sides}
    kept = "The spacing is not varied: layout.double_at names marks of this one."
    assert kept in " ".join(reserve_page(found, 100).split())
    chosen = sizes(case)
    assert {one.spacing for one in chosen.choices} == {16}
    assert kept in " ".join(size_page(chosen, 100, str(PASSES), words).split())
    assert own_axes(case)["spacings"] == (16,)
    for ending in ("md", "pdf"):
        done = run("summary", PASSES, *words, "-o", tmp_path / f"paper.{ending}")
        assert done.returncode == 0, done.stderr
    assert kept in " ".join((tmp_path / "paper.md").read_text(encoding="utf-8").split()).replace(
        "\\", ""
    )


def test_a_short_run_keeps_two_marks():
    """5 ft, on spacing: 1 1/2 in of wood ends at 60 in at a spacing of 59 1/4 in (a half space is
    3/4 in short), and over that one mark is left."""
    case = read_case(PASSES, ["layout.run=5ft", "layout.last=on spacing"])[0]
    spacing = next(one for one in quantities(case) if one.key == "outrigger.spacing")
    assert 58 < spacing.high <= 59.25
    short = read_case(PASSES, ["layout.run=2ft", "layout.last=on spacing"])[0]
    assert own_axes(short)["spacings"] == (12, 16, 19.2)
    assert {one.spacing for one in sizes(short).choices} <= {12, 16, 19.2}
    assert card(short, snows=[20], spans=[20], spacings=own_axes(short)["spacings"]).cells


def test_ways_of_a_paired_row_that_fails():
    """A closer spacing is none of the ways: the pair would stand at another place."""
    words = ["layout.run=12ft", "layout.double_at=[3]", "garage_roof.span=40ft"]
    file = opened(PASSES)
    result = design(file.case(words)[0])
    assert result.verdict == "fail"
    found = ways(result, lambda more: file.case([*words, *more])[0])
    assert found
    assert not any("spacing" in one.setting for one in found)


@pytest.mark.parametrize(
    ("setting", "stays"),
    [
        ("wind.uplift=66psf", "down on the garage roof 8 psf, up on the house roof 20 psf, square"),
        ("wind.down=16psf", "up on the garage roof 26 psf, up on the house roof 20 psf, square"),
        ("house_roof.wind_uplift=30psf", "up on the garage roof 26 psf, down on the garage"),
        ("garage_wall.out_of_plane_wind=30psf", "up on the garage roof 26 psf, down on the"),
    ],
)
def test_another_wind_says_which_winds_stay(run, setting, stays):
    done = run("check", PASSES, setting)
    text = " ".join(done.stdout.split())
    assert f"wind {stays}" in text
    assert "as the file says: one site has one wind, state it anew" in text


def test_a_wind_stated_whole_says_nothing(run):
    every = ["wind.uplift=66psf", "wind.down=20psf", "house_roof.wind_uplift=51psf"]
    text = run("check", PASSES, *every, "garage_wall.out_of_plane_wind=51psf").stdout
    assert "one site has one wind" not in " ".join(text.split())
    assert "one wind" not in run("check", PASSES, "wind.uplift=26psf").stdout
    assert "one wind" not in run("check", PASSES, "gap=7in").stdout


def test_a_truss_sheet_and_a_member_below_are_told_of(tmp_path):
    """Reactions of a sheet hold a wind too."""
    line = 'line = { D = "150 plf", S = "200 plf", W_up = "180 plf", W_down = "none", Lr = "none" }'
    text = changed(('overhang = "none"\n', f'overhang = "none"\n{line}\n'),
                   text=PASSES.read_text())  # fmt: skip
    path = written(tmp_path, text)
    (one,) = opened(path).case(["house_roof.wind_uplift=30psf"])[1]
    assert "up in the reactions of the garage roof 180 plf" in one.text
    (one,) = opened(path).case(["garage_roof.line.W_up=300plf"])[1]
    assert "up on the house roof 20 psf" in one.text


def test_reserve_says_that_the_other_winds_stay():
    found = reserve(read_case(PASSES)[0])
    text = " ".join(reserve_page(found, 100).split())
    assert "Each wind load alone, the others as stated: " in text
    assert "20 psf square to the garage wall" in text
    rows = {row["key"]: row for row in reserve_rows(found)}
    assert rows["wind.uplift"]["as_stated"] == [
        "wind.down", "house_roof.wind_uplift", "garage_wall.out_of_plane_wind"
    ]  # fmt: skip
    assert rows["gap.width"]["as_stated"] == []


def test_a_card_of_a_paired_row_says_that_its_spacing_stays():
    case = read_case(PASSES, [RUN, PAIR])[0]
    found = card(case, spacings=own_axes(case)["spacings"], snows=[20], spans=[20])
    assert "The spacing is not varied" in " ".join(card_page(found, 100).split())
