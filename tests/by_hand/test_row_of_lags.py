"""Lags through the outrigger in a row along it, into a rafter beside it: Cg and CDelta by hand.

The level case of level_case.py, wind square to the garage wall, its back held by 3/8 in lags that
also keep it from sliding (no hold-down at the edge has a side value). Outrigger 2x8 Hem-Fir No. 2,
1.3e6 psi x 10.875 in2 = 14.1375e6 lb; rafter 2x8 Spruce-Pine-Fir No. 2, 1.4e6: 15.225e6 lb.
"""

import pytest
from level_case import designed

RAFTER = {
    "kind": "rafter",
    "size": "2x8",
    "species": "Spruce-Pine-Fir",
    "grade": "No. 2",
    "spacing": "22 in",
    "span": "12 ft",
}
LAG = {"at": "back", "kind": "through", "deck_fastener": "lag 3/8 in x 10 in", "into": "framing"}


def held(count, spacing=None, parallel=True, rafter=RAFTER):
    apart = {"fastener_spacing": spacing} if spacing else {}
    return designed(
        hold_down=[{**LAG, "deck_fasteners": count, **apart}],
        house_roof__framing_parallel=parallel,
        house_roof__sheathing_thickness="7/16 in",
        garage_wall__out_of_plane_wind="20 psf",
        **({"house_rafter": rafter} if rafter else {}),
    )


def along(result):
    (found,) = [c for c in result.checks if c.id == "slide" and c.link.id == "along"]
    return found


@pytest.mark.parametrize(
    ("spacing", "CDelta", "Cg"),
    [
        # 4D = 1 1/2 in: whole. gamma 180,000 x 0.375^1.5 = 41,335; u 1 + 41,335 x 0.75 x (70.734 +
        # 65.681)e-9 = 1.0042291; m 0.9121638, m^2 0.8320429, R 0.9285714: 0.999844
        ("1 1/2 in", 1.0, 0.999844),
        # 3D = 1 1/8 in: 0.75; u 1.0031718, m 0.9234620: 0.999883
        ("1 1/8 in", 0.75, 0.999883),
        # nearer than 3D: not allowed
        ("1 in", 0.0, 1.0),
    ],
)
def test_two_in_a_row(spacing, CDelta, Cg):
    """Against one alone: 2 x Cg x CDelta."""
    one, two = along(held(1)), along(held(2, spacing))
    assert one.status() != "open"
    assert two.capacity_at(0, 0) == pytest.approx(
        2 * Cg * CDelta * one.capacity_at(0, 0), rel=2e-6, abs=1e-9
    )


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({}, "hold_down[back].fastener_spacing"),
        ({"spacing": "2 in", "rafter": None}, "[house_rafter] with its size, species and grade"),
        ({"spacing": "2 in", "parallel": False}, "is for a rafter along the outrigger alone"),
    ],
)
def test_what_is_missing_is_said_and_open(changes, said):
    result = held(2, **changes)
    assert along(result).status() == "open"
    pulled = [
        c for c in result.checks if c.id == "hold_down:back" and c.link.id == "deck fasteners"
    ]
    assert any(said in c.why and c.status() != "pass" for c in pulled)


def test_a_row_of_lags_in_the_leg_of_a_clip_is_open():
    """Two 1/4 in lags into the outrigger: their row's Cg and distances are not computed."""
    clip = {
        "at": "back", "count": 2, "side_fastener": "lag 1/4 in x 1 1/2 in", "side_fasteners": 2,
        "side_height": "4 in", "deck_fastener": "wood screw #10 x 2 1/2 in", "deck_fasteners": 2,
        "steel": "12 ga", "leg_offset": "3/4 in", "into": "framing",
    }  # fmt: skip
    result = designed(hold_down=[clip], house_roof__sheathing_thickness="7/16 in")
    rows = [c for c in result.checks if c.link.id == "side fasteners" and "leg of a clip" in c.why]
    assert rows
    assert all(row.status() != "pass" for row in rows)


@pytest.mark.parametrize(("count", "row"), [(1, False), (2, True), (3, True)])
def test_lags_in_the_leg_of_a_clip_are_a_row_from_two_on(count, row):
    """Cg of NDS 11.3.6 and their distances are then not computed: open, and said."""
    bent = {"at": "back", "count": 1, "side_fastener": "lag 1/4 in x 1 1/2 in",
            "side_fasteners": count, "side_height": "4 in", "deck_fasteners": 2, "steel": "14 ga",
            "deck_fastener": "wood screw #10 x 3 in", "leg_offset": "3/4 in",
            "into": "framing"}  # fmt: skip
    result = designed(hold_down=[bent], house_roof__sheathing_thickness="7/16 in")
    (found,) = [c for c in result.checks if c.link.id == "side fasteners" and c.id != "split:back"]
    assert ("11.3.6" in found.why, found.rule == "open") == (row, row)
