"""Half the snow on one part, together with wind. ASCE 7 7.5. The level case, wind 60 psf up.

Unfactored reactions at the back, lb (worked in test_level_design_by_hand.py): dead of the arm
-120.443, of the back span 26.901; snow of the arm -217.037, of the back span 51.333; wind on the
arm 60/24 x 7639.69/44 = 434.07.
"""

import pytest
from in_combination import demand_in
from level_case import check, designed


@pytest.mark.parametrize(
    ("pattern", "arm", "back"),
    [("snow half on the arm", 0.5, 1.0), ("snow half on the back span", 1.0, 0.5)],
)
def test_the_back_under_wind_up_and_half_the_snow(pattern, arm, back):
    """D + 0.45W up + 0.75S, no suction on the back span:

    half on the arm: -93.542 + 0.75 x (-108.519 + 51.333) + 195.33 = 58.90 lb down on 1.5 x 1.5 in;
    half on the back span: -93.542 + 0.75 x (-217.037 + 25.667) + 195.33 = -41.74 lb, up: 20.87 a
    clip.
    """
    result = designed(wind__uplift="60 psf")
    names = [one.text for one in result.clips.combinations.all]
    (text,) = (
        n for n in names
        if n.startswith("D + 0.75S + 0.45W up") and pattern in n and "wind up none" in n
        and "x 0.6" not in n
    )  # fmt: skip
    R = -93.542 + 0.75 * (arm * -217.037 + back * 51.333) + 0.45 * 434.073
    down = demand_in(check(result, "back_bearing", "sheathing"), text) * 2.25
    up = 2 * demand_in(check(result, "hold_down:back"), text)
    assert down - up == pytest.approx(R, abs=0.01)
