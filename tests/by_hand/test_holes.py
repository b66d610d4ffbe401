"""The hole of what goes down through the outrigger, in every row that its moment stands in.

The level case of test_level_design_by_hand.py, a Hem-Fir 2x8: a hole of 3/8 in leaves 1 1/8 of
1 1/2 in, so that stresses are 4/3 of those beside it.
"""

import pytest
from in_combination import demand_in
from level_case import capacity, check, clip, designed, row

ALONG = "D + 0.6A"
PANEL = {"house_roof__sheathing": "OSB", "house_roof__sheathing_thickness": "7/16 in"}
BUILT = {
    "at": "edge",
    "kind": "through",
    "deck_fastener": "lag 3/8 in x 11 in",
    "deck_fasteners": 1,
    "into": "framing",
}
LISTED = {**clip("edge", count=1), "kind": "through"}
NAMED = {**LISTED, "deck_fastener": BUILT["deck_fastener"], "deck_fasteners": 1}


def held(edge, **changes):
    return designed(hold_down=[clip("back"), edge], **PANEL, **changes)


@pytest.mark.parametrize("edge", [BUILT, NAMED])
def test_a_listed_screw_leaves_a_hole_as_any_other(edge):
    """fb at the hole = 4/3 of that at the edge, of a listed screw as of one by its fasteners."""
    found = held(edge)
    at_edge = row(found, "bending", "", "edge")
    at_hole = row(found, "bending", "at the hole", "edge")
    assert at_hole.demand == pytest.approx(4 / 3 * at_edge.demand, rel=1e-9)


def test_a_listed_screw_that_is_not_named_is_asked_for():
    """Its hole is as wide as nobody says."""
    asked = [one.key for one in held(LISTED).not_given]
    assert "hold_down[1].deck_fastener" in asked
    assert held(LISTED).verdict == "open"
    assert "hold_down[1].deck_fastener" not in [one.key for one in held(NAMED).not_given]


def test_a_hole_in_bending_with_a_force_along():
    """Wind on the wall, 20 psf: ft / Ft' + fb / Fb* of the arm, both 4/3 of those of a whole piece
    under the same loads."""
    wind = {"garage_wall__out_of_plane_wind": "20 psf"}
    whole, cut = held(clip("edge"), **wind), held(NAMED, **wind)
    for link in ("tension", "compression"):
        one = row(whole, "axial_bending", link, "arm")
        other = row(cut, "axial_bending", link, "arm")
        assert other.ratio == pytest.approx(4 / 3 * one.ratio, rel=0.002)


@pytest.mark.parametrize("plies, times, across", [(1, 4 / 3, 1.0), (2, 3 / 2.625, 1.3061)])
def test_a_hole_in_bending_both_ways(plies, times, across):
    """Force along the wall, 30 plf x 16 in x 0.6 = 24 lb on an arm of 12.375 in: 297 lb-in across,
    on 7.25 x 1.5^2 / 6 = 2.719 in3 a ply: 109.2 psi of 850 x 1.2 x 1.6 x 1.15 = 1876.8: 0.0582, of
    two plies half of it. Beside a hole fb1 is 4/3, or 3 / 2.625, of that of a whole piece; of fb2
    two plies keep 2.625 / 2 in each, (3 / 2.625)^2 = 1.3061; of one ply the hole takes the middle,
    (3/8 / 1 1/2)^3 = 1.6 %, which is left out."""
    along = {"garage_wall__along": "30 plf", "outrigger__plies": plies}
    whole, cut = held(clip("edge"), **along), held(NAMED, **along)
    first = ratio(check(whole, "bending", "", "edge"))
    flat = 0.0582 / plies
    assert ratio(check(whole, "biaxial", place="edge")) == pytest.approx(first + flat, rel=0.01)
    left = times * first + across * flat
    assert ratio(check(cut, "biaxial", place="edge")) == pytest.approx(left, rel=0.01)
    inner = [ratio(check(found, "biaxial", place="back span")) for found in (whole, cut)]
    assert inner[0] == pytest.approx(inner[1], rel=1e-9)


def ratio(found):
    """Of a row under dead load and the force along the wall."""
    return demand_in(found, ALONG) / capacity(found, ALONG)
