"""Slope, both axes, notches and every kind of member, each worked by hand.

The level case of level_case.py without overhang and under D + S: arm 12.375 in, end 18.375 in, back
span 44 in, trusses at 24 in over 16 in: P = 15 x 12 x 2 + 12 x 2.5 x 16/12 = 400 lb dead and
30 x 12 x 2 = 720 lb snow; strip 12 psf and 30 psf x 16/144 = 1.33333 and 3.33333 lb/in; self weight
of a 2x8 Hem-Fir 0.18719 lb/in (G 0.43 at 19 %). Level: M = 1120 x 12.375 + 4.85385 x 18.375^2 / 2 =
14,679.4 lb-in.
"""

import numpy as np
import pytest
from in_combination import demand_in
from level_case import capacity, case, check, designed, row

from outrigger.cases.batch import Batch
from outrigger.checks.notches import net_depth
from outrigger.formula.text import line, show
from outrigger.report import cautions
from outrigger.verdict import near

DS = "D + S"
SLOPES = {"4:12": 4.0, "6:12": 6.0, "12:12": 12.0}


def hand_case(**changes):
    return designed(garage_roof__overhang="none", **changes)


def sloped(way, **changes):
    return hand_case(house_roof__pitch="6:12", house_roof__direction=f"{way} the slope", **changes)


def ratio(result, id, link=None, place=None):
    """Demand over capacity under D + S."""
    one = check(result, id, link, place)
    return demand_in(one, DS) / capacity(one, DS)


@pytest.mark.parametrize("pitch", SLOPES)
def test_arm_down_the_slope_times_P_cos_is_P_times_the_horizontal_distance(pitch):
    """Storage lies on the wall line alone: 5 psf x 12 ft x 2 ft = 120 lb. Horizontal distance from
    the middle of the bearing to the wall line: 7 + 0.625 + 2.75 in, and 2 in along the slope. To
    it the force along, 120 sin at the top of a 7.25 in member, adds its couple."""
    result = hand_case(house_roof__pitch=pitch, house_roof__direction="down the slope")
    cos = 12 / np.hypot(12, SLOPES[pitch])
    sin = SLOPES[pitch] / np.hypot(12, SLOPES[pitch])
    part = result.model.parts.index("L")
    M = result.model.whole.M[-1][0, part]
    assert pytest.approx(120 * (10.375 + 2 * cos) + 120 * sin * 7.25, rel=1e-9) == -M
    arm = float(result.shape.arm[0, 0])
    assert 120 * cos * arm == pytest.approx(120 * (10.375 + 2 * cos), rel=1e-12)


def test_down_the_slope():
    """6:12: cos 0.894427, sin 0.447214. arm = 10.375 / cos + 2 = 13.5996, end 19.5996 in.

    P = 1120 lb: square 1001.76, along 500.88. Strip (1.33333 + 3.33333) cos + 0.18719 = 4.36119
    lb/in vertical: square 3.90076, along 1.95038. N of the arm = 500.88 + 1.95038 x 19.5996 =
    539.10; of the back span (1 + 2.33333) cos sin x 44 + 0.18719 sin x 48 = 62.69 lb.
    M = 1001.76 x 13.5996 + 3.90076 x 19.5996^2 / 2 = 14,372.7; couple (539.10 + 62.69) x 7.25 =
    4363.0; inside the edge 18,735.7 lb-in: fb = / 13.1406 = 1425.8 psi.
    Arm: M = 14,372.7 + 539.10 x 3.625 = 16,327.0, fb 1242.5; ft = 539.10 / 10.875 = 49.573;
    Ft' = 525 x 1.15 x 1.2 = 724.5, Fb* = 1173: 0.06842 + 1.05925 = 1.1277.
    Back: 18,735.7/44 - 2.83409 x 22 - 0.16743 x 4 x 46/44 = 362.76 lb; a clip 181.38 of 500 x
    1.15/1.6 = 359.375; along 601.79 x 2/4 = 300.89 of 2 x 200 x 1.15/1.6 = 287.5: 0.5047 + 1.0466.
    Edge: all 601.79 of 287.5: 2.0932. Its garage plate on a level seat: 1120 / (1.5 x 5.5) =
    135.76 psi; 63.435 degrees to the grain, Fc* 1300 x 1.15 x 1.05 = 1569.75, Fc perp' 405 x
    5.875/5.5 = 432.61: 1569.75 x 432.61 / (1569.75 x 0.8 + 432.61 x 0.2) = 505.9 psi.
    """
    result = sloped("down")
    assert float(result.shape.arm[0, 0]) == pytest.approx(13.5996, abs=5e-5)
    assert demand_in(check(result, "bending", place="edge", link=""), DS) == pytest.approx(
        1425.8, abs=0.05
    )
    assert ratio(result, "axial_bending", "tension", "arm") == pytest.approx(1.1277, abs=5e-5)
    assert ratio(result, "hold_down:back") == pytest.approx(1.5513, abs=1e-4)  # two roundings
    assert ratio(result, "slide", "along") == pytest.approx(2.0932, abs=5e-5)
    seat = check(result, "wall_bearing", "outrigger")
    assert demand_in(seat, DS) == pytest.approx(135.76, abs=0.005)
    assert capacity(seat, DS) == pytest.approx(505.9, abs=0.05)


def test_across_the_slope():
    """6:12: plan spacing 16 cos = 14.3108 in; one truss still, wall 12 x 2.5 x 14.3108/12 = 35.777.

    P = 360 + 35.777 + 720 = 1115.777 lb, strip and self weight 4.17400 + 0.18719 = 4.36119 lb/in:
    vertical M = 1115.777 x 12.375 + 4.36119 x 18.375^2/2 = 14,544.0; square 13,008.6, across
    6504.3 lb-in. fb1 = 13,008.6/13.1406 = 989.95, fb2 = 6504.3/2.71875 = 2392.4 psi. Fb1' = 1173 x
    0.98175 (lu 20 in, FbE 4248.4) = 1151.6, Fb2' = 1173 x 1.15 = 1348.95:
    0.85964 + 2392.4/(1348.95 x (1 - (989.95/4248.4)^2)) = 2.7350.
    Shear: V = 1115.777 + 4.36119 x 18.375 = 1195.91: square 1069.66, across 534.83 lb: 147.54 and
    73.77, together 164.95 psi; torque 534.83 x 3.625 = 1938.8 lb-in: 3 T / (7.25 x 2.25) x 1.14976
    = 409.95; 574.9 psi. Blocked at the wall line: 164.95.
    Edge: 534.83 + 6504.3/44 + 1.41704 x 22 - 0.08371 x 16/88 = 713.81 lb across of 287.5: 2.4828;
    roll (534.83 + 713.81) x 3.625 = 4526.3 lb-in; back: 597.51 - 713.81 = -116.30 lb, 421.6 lb-in.
    """
    result = sloped("across")
    assert float(result.shape.arm[0, 0]) == 12.375
    assert ratio(result, "biaxial", place="edge") == pytest.approx(2.7350, abs=5e-5)
    assert demand_in(check(result, "shear", "arm side"), DS) == pytest.approx(574.9, abs=0.05)
    blocked = sloped("across", outrigger__blocking=["edge", "back", "20 in", "wall line"])
    assert demand_in(check(blocked, "shear", "arm side"), DS) == pytest.approx(164.95, abs=0.005)
    assert ratio(result, "slide", "across", "edge") == pytest.approx(2.4828, abs=5e-5)
    assert demand_in(check(result, "slide", "across", "back"), DS) == pytest.approx(
        116.30, abs=0.005
    )
    at_edge, at_back = (check(result, "roll_over", "blocking", p) for p in ("edge", "back"))
    assert demand_in(at_edge, DS) == pytest.approx(4526.3, abs=0.05)
    assert demand_in(at_back, DS) == pytest.approx(421.6, abs=0.05)
    assert at_edge.status() == "open"


def test_droop_across_the_slope_is_the_vertical_sum_of_both_axes():
    """Vertical loads alone: the part cos bends the deep axis and counts cos of its droop, the part
    sin the flat one and counts sin: D_v = D cos^2 + D (EI/EI2) sin^2 by bending, EI/EI2 =
    (7.25/1.5)^2 = 23.361, where D is the droop of the same vertical load on edge. By the engine of
    two level cases, on edge and laid flat, under storage."""
    tilted = sloped("across")
    part = tilted.model.parts.index("L")
    on_edge = hand_case()
    flat = hand_case(outrigger__laid="flat")
    P = 120.0
    edge = on_edge.model.whole.droop[0, on_edge.model.parts.index("L")] / P
    wide = flat.model.whole.droop[0, flat.model.parts.index("L")] / P
    model, tilt = tilted.model, tilted.shape.tilt
    both = model.whole.droop[0, part] * tilt.cos + model.sideways.droop[0, part] * tilt.sin
    by_hand = P * (edge * 0.8 + wide * 0.2)
    assert both == pytest.approx(by_hand, rel=1e-9)
    assert demand_in(check(tilted, "live_deflection"), "L") == pytest.approx(by_hand, rel=1e-9)


@pytest.mark.parametrize("way", ["down", "across"])
def test_no_slope_is_level(way):
    """0:12 gives the level case to the last bit, whatever the direction."""
    level, flat = (
        hand_case(),
        hand_case(house_roof__pitch="0:12", house_roof__direction=f"{way} the slope"),
    )
    for one, other in zip(level.checks, flat.checks, strict=True):
        assert one.id == other.id
        assert np.array_equal(one.demand, other.demand)


def test_wet_and_incised():
    """Fb CF = 850 x 1.2 = 1020 psi, not over 1150, so CM is 1; Ci 0.80, Emin' = 470,000 x 0.9 x
    0.95 = 401,850: Fb* = 1020 x 1.15 x 0.8 = 938.4, FbE 3632.4 at lu 20 in, CL 0.98326: 922.7 psi;
    fb = 14,679.4/13.1406 = 1117.1: 1.2107. Fv' = 150 x 1.15 x 0.97 x 0.8 = 133.86 psi, fv = 1.5 x
    1209.19/10.875 = 166.78. Fc perp' = 405 x 0.67 x 1.0 x 3.875/3.5 (Cb) = 300.4 psi."""
    result = hand_case(
        outrigger__moisture="wet", outrigger__incised=True, house_roof__sheathing_bearing="180 psi"
    )
    bending = check(result, "bending", place="edge", link="")
    assert demand_in(bending, DS) == pytest.approx(1117.1, abs=0.05)
    assert capacity(bending, DS) == pytest.approx(922.7, abs=0.05)
    assert ratio(result, "bending", "", "edge") == pytest.approx(1.2107, abs=5e-5)
    arm = check(result, "shear", "arm side")
    assert demand_in(arm, DS) == pytest.approx(166.78, abs=0.005)
    assert capacity(arm, DS) == pytest.approx(133.86, abs=0.005)
    assert capacity(check(result, "edge_bearing", "outrigger"), DS) == pytest.approx(
        300.4, abs=0.05
    )
    assert row(result, "hold_down:back").status == "open"  # the listing is for dry service


CALM = {"wind": {"uplift": "none"}, "house_roof__wind_uplift": "none"}


def test_notched_on_the_compression_side():
    """Bottom 1 in, no wind: deepest d/6 = 1.2083 in. dn 6.25: S = 1.5 x 6.25^2/6 = 9.7656 in3, fb =
    14,679.4/9.7656 = 1503.2 psi. Shear: 2/3 x 172.5 x 1.5 x 6.25 = 1078.1 lb for 1209.2 lb."""
    result = hand_case(outrigger__bottom_notch="1 in", **CALM)
    assert demand_in(check(result, "bending", place="edge", link=""), DS) == pytest.approx(
        1503.2, abs=0.05
    )
    deep = row(result, "notch", "bottom, depth")
    assert (deep.demand, round(deep.capacity, 4), deep.status) == (1.0, 1.2083, "pass")
    cut = check(result, "notch", "bottom, shear")
    assert demand_in(cut, DS) == pytest.approx(1209.2, abs=0.05)
    assert capacity(cut, DS) == pytest.approx(1078.1, abs=0.05)
    inside = check(result, "bending", place="back span")  # the notch is at the edge alone
    whole = check(hand_case(**CALM), "bending", place="back span")
    assert np.array_equal(inside.demand, whole.demand)


@pytest.mark.parametrize(
    ("notch", "wind", "status"),
    [
        ("bottom_notch", CALM, "pass"),
        ("bottom_notch", {}, "fail"),  # uplift: the bottom is then in tension
        ("top_notch", CALM, "fail"),
    ],
)
def test_a_notch_on_the_side_in_tension_at_the_edge_is_refused(notch, wind, status):
    result = hand_case(**{f"outrigger__{notch}": "1/2 in"}, **wind)
    side = "top" if notch == "top_notch" else "bottom"
    assert row(result, "notch", f"{side}, depth").status == status


@pytest.mark.parametrize(("depth", "status"), [("1 3/16 in", "pass"), ("1 1/4 in", "fail")])
def test_the_deepest_notch(depth, status):
    """d / 6 = 1.2083 in of a 2x8, on either side of it."""
    result = hand_case(outrigger__bottom_notch=depth, **CALM)
    assert row(result, "notch", "bottom, depth").status == status


def test_two_plies():
    """b 3 in: self weight 0.37437, M = 1120 x 12.375 + 5.04104 x 18.375^2/2 = 14,711.0; S 26.28125:
    559.75 psi; CL by the single ply, 1151.6 psi: 0.48607. A caution asks that they be fastened."""
    result = hand_case(outrigger__plies=2)
    bending = check(result, "bending", place="edge", link="")
    assert demand_in(bending, DS) == pytest.approx(559.75, abs=0.005)
    assert capacity(bending, DS) == pytest.approx(1151.6, abs=0.05)
    assert any("fastened together" in one.short for one in cautions.of_case(result))


def test_laid_flat():
    """b 7.25, d 1.5: S 2.71875, fb = 14,679.4/2.71875 = 5399.3 psi; Fb' = 1173 x 1.15 (Cfu of a
    2x8) = 1348.95: no CL, 4.0026. Bearing at the edge 1620.23/(7.25 x 3.5) = 63.851 psi."""
    result = hand_case(outrigger__laid="flat", outrigger__blocking=[])
    bending = check(result, "bending", place="edge", link="")
    assert demand_in(bending, DS) == pytest.approx(5399.3, abs=0.05)
    assert capacity(bending, DS) == pytest.approx(1348.95, abs=0.005)
    assert bending.rule == ""  # not deeper than wide: nothing to hold (3.3.3.1)
    push = check(result, "edge_bearing", "sheathing")
    assert demand_in(push, DS) == pytest.approx(63.851, abs=0.0005)


def test_timber():
    """6x10 Beams & Stringers, DF-L No. 1, dressed 5.5 x 9.25: self weight of G 0.50 1.00701 lb/in,
    M = 13,860 + 5.67367 x 18.375^2/2 = 14,817.8; S 78.432: 188.93 psi. Fb* = 1350 x 1.15 = 1552.5,
    FbE 55,245, CL 0.99856: 1550.3 psi. Fv' = 170 x 1.15 = 195.5 psi for 36.096 psi."""
    result = hand_case(
        outrigger__species="Douglas Fir-Larch", outrigger__grade="No. 1", outrigger__size="6x10"
    )
    bending = check(result, "bending", place="edge", link="")
    assert demand_in(bending, DS) == pytest.approx(188.93, abs=0.005)
    assert capacity(bending, DS) == pytest.approx(1550.3, abs=0.05)
    arm = check(result, "shear", "arm side")
    assert demand_in(arm, DS) == pytest.approx(36.096, abs=0.0005)
    assert capacity(arm, DS) == pytest.approx(195.5, abs=0.05)


def test_machine_rated():
    """2100f-1.8E DF-L 2x8, no CF: self weight 0.21526, M = 13,860 + 4.88192 x 18.375^2/2 =
    14,684.2; 1117.5 psi. Fb* = 2100 x 1.15 = 2415, Emin 910,000: FbE 8225.6, CL 0.98020: 2367.2."""
    result = hand_case(outrigger__species="Douglas Fir-Larch", outrigger__grade="2100f-1.8E")
    bending = check(result, "bending", place="edge", link="")
    assert demand_in(bending, DS) == pytest.approx(1117.5, abs=0.05)
    assert capacity(bending, DS) == pytest.approx(2367.2, abs=0.05)


def test_shear_relief_near_the_bearing():
    """2x12, d 11.25: bearing face 1.75 in out of the edge, the wall line 12.375 - 1.75 = 10.625 in
    beyond it, less than d. V = 1120 + 4.95713 x 18.375 = 1211.09; P counts 10.625/11.25, the strip
    from 13 in: 1211.09 - 1120 x (1 - 0.94444) - 4.95713 x 13 = 1084.42 lb: fv = 1.5 V/16.875."""
    asked = {"outrigger__size": "2x12", "outrigger__near_support_relief": True}
    near = hand_case(**asked)
    arm = check(near, "shear", "arm side")
    assert demand_in(arm, DS) == pytest.approx(1.5 * 1084.42 / 16.875, abs=0.0005)
    full = hand_case(outrigger__size="2x12")
    whole = check(full, "shear", "arm side")
    assert demand_in(whole, DS) == pytest.approx(1.5 * 1211.09 / 16.875, abs=0.0005)
    for combination in arm.combinations:  # never under uplift, nor on the house side
        if "W up" in combination.text and "only" not in combination.text:
            same = demand_in(whole, combination.text)
            assert demand_in(arm, combination.text) == pytest.approx(same, rel=1e-12)  # round-off
    for link in ("house side", "by the wall"):
        assert np.array_equal(check(near, "shear", link).demand, check(full, "shear", link).demand)


def test_wind_on_the_wall_of_a_level_member():
    """20 psf x 30/12/2 x 16/12 = 33.333 lb at the top of the member, both ways. D + 0.6 H away: M =
    400 x 12.375 + 1.52052 x 18.375^2/2 = 5206.7, couple 20 x 7.25 = 145; inside the edge 5351.7:
    407.26 psi; D + 0.6 H toward: the arm's side, 5206.7 - 20 x 3.625 = 5134.2: 390.71 psi.
    Slides 20 lb, held to 2 x 200 lb at the edge."""
    result = hand_case(garage_wall__out_of_plane_wind="20 psf")
    bending = check(result, "bending", place="edge", link="")
    assert demand_in(bending, "D + 0.6H away") == pytest.approx(407.26, abs=0.005)
    assert demand_in(bending, "D + 0.6H toward") == pytest.approx(390.71, abs=0.005)
    slide = check(result, "slide", "along")
    assert demand_in(slide, "D + 0.6H away") == pytest.approx(20.0, abs=1e-9)
    assert demand_in(slide, "D + 0.6H toward") == pytest.approx(20.0, abs=1e-9)
    assert capacity(slide, "D + 0.6H away") == pytest.approx(400.0)


def test_compression_with_bending_under_wind_toward_the_house():
    """LRFD, 1.2D + 1.0H toward, no roof: N = 33.333 lb compression, fc = 3.0651 psi. Arm le = 2.1 x
    12.375 = 25.9875: flatwise le/d = 17.325, Emin' = 470,000 x 1.76 x 0.85 = 703,120, FcE2 = 0.822
    x 703,120/300.16 = 1925.6; edgewise le/d 3.5845, FcE1 44,982. Fc* = 1300 x 1.05 x 2.40 x 0.90 =
    2948.4: F = 0.65310, (1 + F)/1.6 = 1.03319, CP = 1.03319 - sqrt(1.06748 - 0.81638) = 0.53209,
    Fc' 1568.8. M = 1.2 x 5206.7 - 33.333 x 3.625 = 6127.2, fb 466.28; Fb* = 850 x 1.2 x 2.54 x 0.85
    = 2202.2, FbE = 1.2 x 703,120/132.756 = 6355.6, F 2.88605, (1 + F)/1.9 = 2.04529, CL = 2.04529 -
    sqrt(4.18321 - 3.03795) = 0.97512: 2147.4. Ratio (3.0651/1568.8)^2 + 466.28/(2147.4 x
    (1 - 3.0651/44,982)) = 0.21716."""
    result = hand_case(garage_wall__out_of_plane_wind="20 psf", basis__method="LRFD")
    one = check(result, "axial_bending", "compression", "arm")
    names = [c.text for c in one.combinations if "H toward" in c.text and "W" not in c.text]
    plain = [n for n in names if n.startswith("1.2D + H toward") and "S" not in n]
    assert plain
    assert demand_in(one, plain[0]) == pytest.approx(0.21716, abs=5e-5)


def test_force_along_the_wall():
    """30 plf x 16/12 = 40 lb across the arm at its top: D + 0.6A, 24 lb: M = 24 x 12.375 = 297
    lb-in about the flat axis, 109.24 psi; edge 24 x (1 + 12.375/44) = 30.75, back 6.75 lb; torque
    87 lb-in."""
    result = hand_case(garage_wall__along="30 plf")
    at_edge, at_back = (check(result, "slide", "across", p) for p in ("edge", "back"))
    assert demand_in(at_edge, "D + 0.6A") == pytest.approx(30.75, abs=1e-9)
    assert demand_in(at_back, "D + 0.6A") == pytest.approx(6.75, abs=1e-9)
    both = check(result, "biaxial", place="edge")
    text = next(s for s in both.steps[0].chain() if s.symbol == "fb2")
    names = [c.text for c in both.combinations]
    assert np.atleast_2d(text.value)[0, names.index("D + 0.6A")] == pytest.approx(109.24, abs=0.005)


def test_not_blocked_a_flat_member_holds_by_its_own_width():
    """2x8 laid flat, 30 plf along the wall: roll 24 x 1.5 = 36 lb-in; the push at the edge a
    sixth of 7.25 in off its middle: far more, it passes; the same member on edge is refused."""
    flat = hand_case(garage_wall__along="30 plf", outrigger__laid="flat", outrigger__blocking=[])
    roll = check(flat, "roll_over", "own width")
    assert demand_in(roll, "D + 0.6A") == pytest.approx(36.0, abs=1e-9)
    push = flat.main.R[-1]
    names = [c.text for c in roll.combinations]
    i = names.index("D + 0.6A")
    assert np.atleast_2d(roll.capacity)[0, i] == pytest.approx(push[0, i] * 7.25 / 6, rel=1e-12)
    on_edge = hand_case(garage_wall__along="30 plf", outrigger__blocking=[])
    assert row(on_edge, "bending", "", "edge").status == "fail"


def test_side_force_without_a_side_rating_is_open():
    from level_case import GONE

    result = hand_case(garage_wall__along="30 plf", hold_down__1__rated_lateral=GONE)
    assert row(result, "slide", "across", "edge").status == "open"
    assert row(result, "hold_down:edge").status == "open"
    assert result.verdict != "pass"


def test_building_movement_adds_to_the_seal():
    """1/4 in expected between the buildings: slip, rise and the space below each 1/4 in more."""
    limits = {
        "live_deflection": 240, "total_deflection": 180, "joint_width": "1/2 in",
        "joint_class": 50, "moisture_change": "6 %", "clip_slip": "1/8 in",
        "below_clearance": "1 in",
    }  # fmt: skip
    still = hand_case(limits=limits)
    moving = hand_case(limits={**limits, "building_movement": "1/4 in"})
    for link in ("slip of the seal", "rise of the wall", "space below"):
        before, after = (row(r, "joint", link).demand for r in (still, moving))
        assert after - before == pytest.approx(0.25, abs=1e-12)


def test_near_the_line_names_what_a_small_change_decides():
    """Edge bearing 3.5 in on its panel: 1620.23/(1.5 x 3.5 x 360) = 0.857. A snow that brings it to
    0.96 makes 1/4 in less bearing decide: 0.96 x 3.5/3.25 = 1.034."""
    result = hand_case(snow__roof="35.5 psf", **CALM)
    used = row(result, "edge_bearing", "sheathing").ratio
    assert 0.95 < used < 1 < used * 3.5 / 3.25
    told = [text for row, text in near.of(result) if row.check.link.id == "sheathing"]
    assert any("passes, but not with" in t and "1/4 in less bearing" in t for t in told)
    assert f"used {used:.3f}" in told


@pytest.mark.parametrize(("over", "said"), [(-4e-7, "used 0.9999996"), (3e-4, "used 1.0003")])
def test_near_the_line_a_ratio_says_on_which_side_it_is(over, said):
    """A panel that takes a hair more than it carries passes, one that takes less fails: neither is
    used 1.000."""
    demand = row(hand_case(**CALM), "edge_bearing", "sheathing").demand
    result = hand_case(house_roof__sheathing_bearing=f"{demand / (1 + over):.9f} psi", **CALM)
    told = [text for row, text in near.of(result) if row.check.link.id == "sheathing"]
    assert told[0] == said


def test_near_the_line_names_a_wall_farther_out():
    """Back clips of 233 lb under wind hold 2 x 233 x 1.15/1.6 = 334.9 lb of 321.339 in D + S. A
    sixth of the plate, 11/12 in, farther out, the tail as much shorter: dead (407.5 x 13.2917 +
    256.7)/44 = 128.93, snow (735 x 13.2917 + 454.0)/44 = 232.35: 128.93 - 16.141 + 232.35 = 345.1
    lb, 1.030."""
    result = designed(hold_down__0__rated_uplift="233 lb")
    assert row(result, "hold_down:back", "rated clip").ratio == pytest.approx(0.9595, abs=0.0001)
    (told,) = [text for one, text in near.of(result)
               if one.check.id == "hold_down:back" and "not with" in text]  # fmt: skip
    assert told.startswith("passes, but not with the garage wall")
    assert told.count("farther out") == 1
    assert "farther in" not in told


def test_a_notch_weakens_every_check_at_the_edge():
    """Down the slope, no wind: the pull and the bending of the arm are those of the 6.25 in left:
    ft = N / (1.5 x 6.25), fb = M / 9.7656, 1.16 and 1.3456 times those of the whole 7.25 in."""
    notched = sloped("down", outrigger__bottom_notch="1 in", **CALM)
    whole = sloped("down", **CALM)
    for symbol, factor in (("ft", 7.25 / 6.25), ("fb1", (7.25 / 6.25) ** 2)):
        values = [
            next(
                s
                for s in check(r, "axial_bending", "tension", "arm").steps[0].chain()
                if s.symbol == symbol
            ).value
            for r in (notched, whole)
        ]
        assert values[0] == pytest.approx(values[1] * factor, rel=1e-12)
    for link in ("arm side", "house side"):
        cut, full = (check(r, "shear", link).demand for r in (notched, whole))
        assert cut == pytest.approx(full * 7.25 / 6.25, rel=1e-12)


def test_past_stability_the_row_says_where_its_ratio_comes_from():
    """Eq. 3.9-4 is not met by far: 1 + (fb1/FbE)^2 stands in place of 3.9-3, with the reason."""
    result = sloped(
        "across", outrigger__size="2x12", gap__width="24 in", outrigger__back_span="16 ft",
        outrigger__blocking=["edge"], snow__roof="200 psf", garage_roof__span="40 ft",
    )  # fmt: skip
    row = next(r for r in result.rows if (r.check.id, r.check.place) == ("biaxial", "edge"))
    stable, ratio = row.check.steps
    numbers = stable.numbers(row.check.element())
    assert row.ratio == pytest.approx(1 + (numbers["fb1"] / numbers["FbE"]) ** 2, rel=1e-12)
    said = line(ratio, row.check.element())
    assert f"taken as {show(row.ratio)}" in said and "1 + the stability ratio" in ratio.note
    assert row.status == "fail"


def test_the_small_changes_that_are_tried():
    """The wall a sixth of its plate out and in, 5 1/2 in / 6, the outrigger's end where it was; 1/4
    in more and less of bearing and of setback."""
    said, moved = near._moved(Batch(case()))
    sixth = 5.5 / 6
    assert len(said) == 6
    assert moved.columns["gap.width"][:, 0] == pytest.approx([7, 7 + sixth, 7 - sixth, 7, 7, 7, 7])
    assert moved.columns["outrigger.tail"][:, 0] == pytest.approx(
        [6, 6 - sixth, 6 + sixth, *[6] * 4]
    )
    assert list(moved.columns["gap.edge_bearing"][:, 0]) == [3.5, 3.5, 3.5, 3.75, 3.25, 3.5, 3.5]
    assert list(moved.columns["gap.edge_setback"][:, 0]) == [0.25, 0.25, 0.25, 0.25, 0.25, 0.5, 0.0]


def test_the_depth_left_by_both_notches():
    """7 1/4 less 1/2 above and 3/4 below: 6 in."""
    found = designed(outrigger__top_notch="1/2 in", outrigger__bottom_notch="3/4 in")
    assert net_depth(found.member) == 6.0
