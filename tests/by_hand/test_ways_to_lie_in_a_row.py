"""Loads that lie on the back span alone, in a row of three places: what lies on the arm then
presses an inner place, or holds down an edge that would lift off. And bending at a hole there.

Loads of the level case by hand, with house snow of 40 psf, wind uplift of 50 psf, storage of 10 psf
and roof members everywhere, on back 44 in, a clip at 16 in and an edge without a tie; spacing 16
in, arm 7 + 5/8 + 2 3/4 + 1/4 + 1 3/4 = 12.375 in, end 18.375 in. lb, in:
    wall line: roof 147 in: D 15/144 x 147 x 16 = 245 and the wall 12/144 x 30 x 16 = 40; L 163.33;
    W up 816.67; D + 0.75L + 0.45W up = 285 + 122.5 - 367.5 = 40 lb
    own weight: 62.4 x 0.43 / (1 + 0.009 x 0.43 x 19) x 1.19 = 29.743 pcf, 0.18719 lb/in
    strip: 1.3333 + 0.18719 to the end; wind 0.45 x 5.5556 = 2.5 up to 9.375 in and past the wall
    back span: dead 1, snow 0.75 x 4.4444 = 3.3333, own weight to 4 in behind the back
"""

import pytest
from level_case import clip, designed, row
from published import printed
from stiffness_method import stiffness_method

BACK, MID = -44.0, -16.0
OWN = 62.4 * 0.43 / (1 + 0.009 * 0.43 * 19) * 1.19 / 1728 * 10.875
E = 1.03 * 1.3e6
EI, GA = E * 1.5 * 7.25**3 / 12, 5 / 6 * E / 16 * 10.875


def in_a_row():
    return designed(
        hold_down=[clip("back"), clip("16 in")],
        garage_roof__storage="10 psf",
        garage_roof__member_spacing="uniform",
        house_roof__snow="40 psf",
        wind__uplift="50 psf",
    )


def test_snow_on_the_back_span_alone_beside_storage_and_wind():
    """The push at 16 in, by the stiffness method on the three places (the edge bears); over 1 1/2
    in of a member 1 1/2 in wide, on a panel of 360 psi."""
    loads = [
        ("point", 12.375, 40.0),
        ("uniform", 0.0, 18.375, 12 / 9 + OWN),
        ("uniform", 0.0, 9.375, -2.5),
        ("uniform", 12.375, 18.375, -2.5),
        ("uniform", BACK, 0.0, 1 + 10 / 3),
        ("uniform", BACK - 4, 0.0, OWN),
    ]
    rigid = [float("inf")] * 3
    R = stiffness_method([BACK, MID, 0.0], rigid, EI, GA, BACK - 4, 18.375, loads).reactions
    assert R[2] > 0
    found = row(in_a_row(), "back_bearing", "sheathing", "16 in")
    name = "D + 0.75L + 0.75S + 0.45W up, snow on the back span only, wind up none on the back span"
    assert found.check.combinations[found.check.governing()].text == name
    assert found.ratio == pytest.approx(R[1] / (1.5 * 1.5) / 360, rel=1e-9)


def test_snow_on_the_back_span_alone_stands_beside_storage_on_two_supports_too():
    """Storage takes off from what presses the back there, and leaves the least compression beside a
    pull along the member."""
    for found in (designed(house_roof__snow="40 psf"), in_a_row()):
        texts = {c.text for c in found.main.combinations.all}
        assert any("L +" in t and "snow on the back span only" in t for t in texts)


def test_hole_of_a_lag_between_blocks():
    """Blocked at the edge, 8 and 20 in and the back, a lag at 30 in: unbraced 24 in, while the
    stretch of 12 in nearer to the edge governs bending elsewhere.

    Dead load: Fb* 850 x 0.9 x 1.2 = 918; le 2.06 x 24 = 49.44, RB^2 49.44 x 7.25 / 2.25 = 159.31,
    FbE 1.2 x 470,000 / 159.31 = 3540.3; (1 + 3.8565) / 1.9 = 2.55607; CL 0.98318; 902.6 psi.
    """
    lag = {"at": "30 in", "kind": "through", "count": 1, "deck_fastener": "lag 3/8 in x 11 in",
           "deck_fasteners": 1, "into": "framing"}  # fmt: skip
    blocks = ["edge", "8 in", "20 in", "back"]
    result = designed(hold_down=[clip("back"), lag], outrigger__blocking=blocks)
    (hole,) = [c for c in result.checks if c.link.id == "at the hole"]
    dead = [c.text for c in hole.combinations].index("D")
    assert hole.capacity_at(0, dead) == printed("902.6")
