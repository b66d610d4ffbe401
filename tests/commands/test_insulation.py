"""Another thickness of insulation: which one is meant, and that one of them moves no ratio."""

import pytest
from sample_case import changed, written

GIVEN = changed(("[gap]\n", '[gap]\nroof_insulation = "4 in"\n'))
MOVES_NOTHING = "gap.roof_insulation 7 in, file says 4 in; no ratio moves with it"


def flat(text):
    return " ".join(text.split())


@pytest.fixture
def path(tmp_path):
    return written(tmp_path, GIVEN)


@pytest.mark.parametrize("name", ["insulation", "roof_insulation"])
def test_which_insulation_is_asked(run, path, name):
    done = run("check", path, f"{name}=7in")
    assert done.returncode == 2
    said = flat(done.stderr)
    for part in ("which insulation?", "gap.roof_insulation=7in", "gap.width=7in", "the arm"):
        assert part in said


def test_check_says_that_no_ratio_moves(run, path):
    said = flat(run("check", path, "gap.roof_insulation=7in").stdout)
    assert MOVES_NOTHING in said
    assert "dead load on the back span, house_roof.dead" in said


@pytest.mark.parametrize(
    "setting", ["gap=7in", "project.revision=2", "gap.roof_insulation=4 in", "snow=25psf"]
)
def test_what_moves_or_says_nothing_is_not_told_so(run, path, setting):
    assert "no ratio moves with it" not in flat(run("check", path, setting).stdout)


def test_each_setting_is_looked_at_alone(run, path):
    """Beside a wider gap, which moves them all, the thicker insulation still moves none."""
    said = flat(run("check", path, "gap=7in", "gap.roof_insulation=7in").stdout)
    assert said.count("no ratio moves with it") == 1
    assert MOVES_NOTHING in said


def test_compare_says_so_and_lists_no_equal_rows(run, path):
    said = flat(run("compare", path, "gap.roof_insulation=7in").stdout)
    assert MOVES_NOTHING in said
    assert "Used of each limit: no ratio moves, " in said
    said = flat(run("compare", path, "gap=7in").stdout)
    assert "no ratio moves" not in said
    assert "more do not move." in said


def test_gap_tells_left_from_set(run, path):
    """4 in less a 2x6, 5 1/2 in, is 1 1/2 in short; 7 in leaves 1 1/2 in over it."""
    left = flat(run("gap", path, "gap=7in").stdout)
    assert "roof insulation is left at 4 in: outriggers 5 1/2 in deep stand 1 1/2 in out" in left
    put = flat(run("gap", path, "gap=7in", "gap.roof_insulation=7in").stdout)
    assert "roof insulation is set to 7 in: 1 1/2 in of it lies over outriggers" in put
    assert "left at" not in put
