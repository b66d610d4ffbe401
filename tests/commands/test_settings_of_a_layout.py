"""A setting over a layout is looked at over all of its marks, not at the worst one alone."""

from pathlib import Path

import pytest

LEFT = Path(__file__).parents[2] / "examples" / "linden_row" / "left.toml"


def flat(text):
    return " ".join(text.split())


@pytest.mark.parametrize(("setting", "moves"), [
    ("hold_down[back].count=1", True), ("gap.roof_insulation=4in", False)])  # fmt: skip
def test_what_moves_at_another_mark_is_not_told_as_nothing(run, setting, moves):
    """Mark 6 is the worst, one of a pair, each piece with one clip on its outer face, with one or
    two stated. A single outrigger has two, and with one its clip takes all: twice the ratio."""
    said = flat(run("check", LEFT, setting).stdout)
    assert ("no ratio moves with it" not in said) == moves


def test_two_layouts_side_by_side_name_their_marks(run):
    """The rows are of mark 6 of both, which the second clip of the others does not move."""
    said = flat(run("compare", LEFT, "hold_down[back].count=1").stdout)
    assert "at the worst mark of the layout (A 6, B 6) alone: no ratio moves, 35 alike." in said
