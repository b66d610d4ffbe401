"""Which outriggers work: every choice a design of its own, ranked; what is rejected, and why."""

import shlex
import subprocess
from pathlib import Path

import numpy as np
import pytest
from level_case import case, clip

import outrigger
from outrigger.cases.read import read_case
from outrigger.report.data.sweeps import size_rows
from outrigger.report.screen.size import page
from outrigger.studies.sizes import back_spans, board_feet_per_foot, sizes
from outrigger.verdict.design import design
from outrigger.wood import dressed, reference

SAMPLE = Path(outrigger.__file__).with_name("sample.toml")
PASSES = Path(__file__).parents[2] / "examples" / "passes.toml"  # of fewer combinations


def test_board_feet_by_hand():
    """2x6, 62 1/2 in long, at 16 in: 2 x 6 / 12 = 1 board foot a foot, 5.2083 ft, every 1.3333 ft:
    3.90625 for a foot of wall; two plies twice that."""
    size = dressed.read_size("2x6")
    assert board_feet_per_foot(size, 1, 62.5, 16.0) == 3.90625
    assert board_feet_per_foot(size, 2, 62.5, 16.0) == 7.8125


@pytest.fixture(scope="module")
def sample():
    case, _ = read_case(SAMPLE)
    return sizes(case)


def test_every_choice_works_by_its_own_command(sample):
    """The settings of each are read again as typed, and run alone: same member, same ratio."""
    for one in sample.choices[::7]:
        case, _ = read_case(SAMPLE, one.settings)
        alone = design(case)
        assert alone.works, one.settings
        governing = alone.closest
        assert (governing.check.id, governing.ratio) == (one.row.check.id, one.row.ratio)
        assert (alone.wood.size.name, alone.wood.row.grade) == (one.size, one.grade)
        assert (case.outrigger.spacing, case.outrigger.back_span) == (one.spacing, one.back_span)
        length = float(alone.shape.length[0, 0])
        feet = board_feet_per_foot(alone.wood.size, 1, length, one.spacing)
        assert one.board_feet == pytest.approx(feet, rel=1e-12)


def test_what_is_not_a_choice_does_not_work(sample):
    """All grades, sizes, spacings and back spans again, one by one in part, by single designs."""
    chosen = {(c.size, c.spacing, c.back_span, g) for c in sample.choices for g in c.grades}
    checked = 0
    for size in ("2x4", "2x6", "2x8"):
        for grade in ("Select Structural", "No. 2", "No. 3"):
            for spacing in sample.spacings[::2]:
                for back in sample.back_spans[::5]:
                    words = [f"size={size}", f"grade={grade}", f"spacing={spacing}in"]
                    case, _ = read_case(SAMPLE, [*words, f"back_span={back}in"])
                    expected = (size, spacing, back, grade) in chosen
                    assert design(case).works == expected, (words, back)
                    checked += 1
    assert checked == 3 * 3 * 2 * 3


def test_ranked_by_lumber_then_clips_with_the_framing_first():
    found = sizes(read_case(PASSES, ["house_roof.framing_parallel=true"])[0])
    keys = [(c.off_framing, c.board_feet, c.clips) for c in found.choices]
    assert keys == sorted(keys)
    assert found.choices[0].spacing == 16  # framing beside the outriggers, at 16 in
    assert {c.spacing for c in found.choices if c.off_framing} == {12, 19.2, 24}


def test_a_rejected_family_names_its_closest(sample):
    rejected = {r.size: r for r in sample.rejected}
    assert rejected["2x4"].every
    one = rejected["2x4"]
    words = [f"size={one.size}", f"grade={one.grade}", f"spacing={one.spacing}in"]
    case, _ = read_case(SAMPLE, [*words, f"back_span={one.back_span}in"])
    governing = design(case).closest
    assert (governing.check.id, governing.ratio) == (one.row.check.id, one.row.ratio)
    assert governing.ratio > 1


def test_nothing_passes_says_what_is_closest_and_what_stops_it():
    case, _ = read_case(PASSES, ["snow=300psf"])
    found = sizes(case)
    assert not found.choices
    text = page(found, 80, "", [])
    last = " ".join(" ".join(text.splitlines()[-4:]).split())
    assert "NOTHING WORKS. Closest: " in last
    assert "stopped by" in last


def test_back_spans_reach_the_framing_lines():
    """Framing across the outriggers at 24 in: lines every 24 in from the edge to 20 ft, and the
    stated 44 in. Beside them each half foot. Twice the arm of 12 3/8 in is the least, but for the
    stated one; a clip at 40 in leaves what is beyond it by 1 in."""
    across = {"house_roof__framing_parallel": False, "house_roof__framing_spacing": "24 in"}
    assert back_spans(case(**across)).tolist() == [44, *range(48, 241, 24)]
    beside = {"house_roof__framing_parallel": True}
    assert back_spans(case(**beside)).tolist() == [30, 36, 42, 44, *range(48, 241, 6)]
    held = [clip("back"), clip("40 in"), clip("edge")]
    spans = back_spans(case(**beside, hold_down=held))
    assert spans.tolist() == [42, 44, *range(48, 241, 6)]


def test_several_species_side_by_side():
    one = case()
    found = sizes(one, ["Hem-Fir", "Northern Species"])
    assert {c.species for c in found.choices} == {"Hem-Fir", "Northern Species"}
    worse = [c for c in found.choices if c.species == "Northern Species"]
    assert all("species=Northern Species" in c.settings for c in worse)


def test_deeper_than_the_roof_insulation_is_said():
    found = sizes(case(gap__roof_insulation="8 in"))
    assert {c.size for c in found.choices if c.deep} <= {"2x10", "2x12"}
    assert "deeper than the roof insulation" in page(found, 80, "", [])


def test_a_command_survives_a_shell():
    """Quotes around what a shell would split or cut: a grade of two words, a file with a blank."""
    found = sizes(case(gap__width="14 in"))
    rows = size_rows(found, "my job.toml", ["gap=14in"])
    quoted = [r for r in rows if "'grade=" in r["command"]]
    assert quoted
    for one in quoted:
        parts = shlex.split(one["command"])
        assert parts[:4] == ["outrigger", "check", "my job.toml", "gap=14in"]
        assert f"grade={one['grade']}" in parts


@pytest.mark.parametrize("name", ["$(touch pwned).toml", "it's.toml", "`id`.toml", "a;b&c|d.toml",
                                  '"$HOME".toml', "~.toml", "a!b*?.toml", "\\.toml"])  # fmt: skip
def test_a_command_runs_nothing_of_a_files_name(name):
    """Pasted into a shell each command names the file as it is, on screen and in the data."""
    found = sizes(case(gap__width="14 in"))
    commands = [row["command"] for row in size_rows(found, name, ["gap=14in"])]
    shown = [line.strip() for line in page(found, 200, name, ["gap=14in"]).splitlines()]
    commands += [line for line in shown if line.startswith("outrigger check")]
    for one in commands:
        told = f"set -- {one}; printf '%s\\n' \"$@\""
        done = subprocess.run(["bash", "-c", told], capture_output=True, text=True, check=True)
        assert done.stdout.splitlines()[:4] == ["outrigger", "check", name, "gap=14in"]


def test_a_notch_deeper_than_a_size_leaves_it_out():
    found = sizes(case(outrigger__top_notch="4 in"))
    assert all(np.isfinite(c.board_feet) for c in found.choices)
    assert "2x4" not in {c.size for c in found.choices}


PASSES = Path(__file__).parents[2] / "examples" / "passes.toml"
SNOWY = ["snow=50psf", "garage_roof.member_spacing=24in", "garage_roof.form=trusses"]


@pytest.fixture(scope="module")
def snowy():
    return sizes(read_case(PASSES, SNOWY)[0])


def test_pairs_and_thicker_pieces_where_nothing_single_works(snowy):
    """No 2x works; what check offers for it, a pair and a 3x, is found, each by its own command."""
    assert {(one.plies, one.size[0]) for one in snowy.choices} == {(2, "2"), (1, "3"), (1, "4")}
    assert all(one.every for one in snowy.rejected)
    assert {one.size[0] for one in snowy.rejected} == {"2"}
    for one in snowy.choices[::29]:
        case, _ = read_case(PASSES, [*SNOWY, *one.settings])
        alone = design(case)
        assert case.outrigger.plies == one.plies
        assert (alone.verdict, alone.closest.ratio) == (one.verdict, one.row.ratio)
        assert alone.verdict == "pass"


def test_lumber_of_a_pair_by_hand(snowy):
    """A pair of 2x6, 32 + 9 3/4 + 1 3/4 + 3 in long = 46 1/2 in, at 24 in: 2 x 2 x 6 / 12 = 2 board
    feet a foot, 3.875 ft, every 2 ft: 3.875 for a foot of wall. One 3x6: 3 x 6 / 12 = 1 1/2, 2.906.
    """
    found = {(one.plies, one.size, one.spacing, one.back_span): one for one in snowy.choices}
    assert found[2, "2x6", 24, 32].board_feet == pytest.approx(3.875)
    assert found[1, "3x6", 24, 32].board_feet == pytest.approx(1.5 * 3.875 / 2)
    assert snowy.choices[0].board_feet == min(one.board_feet for one in snowy.choices)


def test_a_pair_halves_the_shear_of_one(snowy):
    """Of a 2x6 at the edge: the same load on twice the wood, but for its own weight, under 1 %."""
    row = {}
    for plies in (1, 2):
        words = ["size=2x6", "spacing=12in", "back_span=32in", f"outrigger.plies={plies}"]
        result = design(read_case(PASSES, [*SNOWY, *words])[0])
        row[plies] = max(r.ratio for r in result.rows if r.check.id == "shear")
    assert row[2] == pytest.approx(row[1] / 2, rel=0.01)


def test_trusses_that_land_whole_are_told(snowy):
    said = " ".join(page(snowy, 80, "", []).split())
    assert (
        "Each truss lands whole on one outrigger: closer spacing does not help; put one under each "
        "truss, or double it." in said
    )  # fmt: skip
    assert "as none of these works, 2 plies of Douglas Fir-Larch 2x4 to 2x12" in said
    assert "WORKS" in page(snowy, 80, "", []) and "NOTHING" not in said
    spread = sizes(read_case(PASSES, [*SNOWY, "garage_roof.member_spacing=uniform"])[0])
    assert "lands whole" not in page(spread, 80, "", [])


def test_singles_that_work_are_all_that_is_tried(sample):
    assert not sample.more
    assert {one.plies for one in sample.choices} == {1}
    assert "lands whole" not in page(sample, 80, "", [])


def test_every_row_has_its_plies(snowy):
    rows = size_rows(snowy, "job.toml", [])
    assert {row["plies"] for row in rows} == {1, 2}
    for row in rows:
        assert ("outrigger.plies=2" in row["command"]) == (row["plies"] == 2)


def test_southern_pine_is_tried_from_another_species():
    """Both are dimension lumber graded by eye, of two tables (4A, 4B): a case in one asks for the
    other."""
    found = sizes(read_case(PASSES)[0], ["Southern Pine"])
    assert {one.species for one in found.choices} == {"Southern Pine"}
    grades = {row.grade for row in reference.grades("Southern Pine") if row.kind == "southern pine"}
    assert {grade for one in found.choices for grade in one.grades} <= grades
    text = page(found, 100, "job.toml", [])
    assert "Least lumber: 2x6 Southern Pine" in text
    assert "12 in   2x6 Southern Pine No. 2 " in text


def test_a_species_without_grades_of_the_kind_is_said():
    """Redwood has no machine-rated grades (Table 4C)."""
    rated = read_case(PASSES.with_name("machine_rated.toml"))[0]
    text = page(sizes(rated, ["Redwood"]), 80, "job.toml", [])
    assert "nothing works: none of what is asked for is on file as machine rated" in text.lower()
    assert "outriggers run whole" not in text
