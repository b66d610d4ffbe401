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
from outrigger.wood import lumber

SAMPLE = Path(outrigger.__file__).with_name("sample.toml")


def test_board_feet_by_hand():
    """2x6, 62 1/2 in long, at 16 in: 2 x 6 / 12 = 1 board foot a foot, 5.2083 ft, every 1.3333 ft:
    3.90625 for a foot of wall; two plies twice that."""
    size = lumber.read_size("2x6")
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
    sample = sizes(read_case(SAMPLE, ["house_roof.framing_parallel=true"])[0])
    keys = [(c.off_framing, c.board_feet, c.clips) for c in sample.choices]
    assert keys == sorted(keys)
    assert sample.choices[0].spacing == 16  # framing beside the outriggers, at 16 in
    assert {c.spacing for c in sample.choices if c.off_framing} == {12, 19.2, 24}


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
    case, _ = read_case(SAMPLE, ["snow=300psf"])
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
