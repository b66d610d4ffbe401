"""The edge tie of a row of hold-downs: the rigid row, or what it carries about the next inward.

2x8 DF-L No. 2 at 16 in, level, gap 6 in: arm = 6 + 1/2 + 1 3/4 + 1 3/4 = 10 in, tail 1 3/4 in;
clips at the edge, 8 in and the back (48 in); light garage roof, wind 50 psf up.
    P: dead (15 psf x 10 ft x 2 ft, a whole truss, + 10 psf x 3 ft x 16/12 ft) = 340 lb;
    wind 50 x 10 x 2 = 1,000 lb up
    strip, lb/in: dead 15 psf x 16/12/12 = 1.6667, wind 5.5556 up; self 34.20 pcf x 10.875 in2 =
    0.2153
"""

import numpy as np
import pytest
from case_files import case_of, design_of
from in_combination import demand_in
from level_case import check, row

from outrigger.verdict.design import design

UP = "0.6D + 0.6W up"


def test_the_tie_about_the_next_hold_down_inward():
    """0.6D + 0.6W, worked in proof/data/whole_cases.toml: V = -421.9 lb, M = -4,112 lb-in; about
    the clip at 8 in, which bears, 932.7 lb. The back span behind 8 in lies on the house."""
    result = design_of("tie_beside_a_near_clip")
    tie = row(result, "hold_down:edge")
    assert tie.combination == UP
    assert result.verdict == "fail"


def test_the_shear_beside_the_tie():
    """Just inside the edge 932.7 - 421.9 = 510.8 lb: 1.5 x 510.8/10.875 = 70.5 psi."""
    house = check(design_of("tie_beside_a_near_clip"), "shear", "house side", "edge")
    assert demand_in(house, UP) == pytest.approx(70.5, abs=0.05)


@pytest.mark.parametrize("at", [4.0, 8.0, 16.0, 30.0, 44.0])
def test_never_less_than_the_rigid_row_nor_than_about_the_next(at):
    """Every combination: T = -(V + M/x1 + w x1/2) about the next inward, w over those x1 in."""
    result = design_of("tie_beside_a_near_clip", f"hold_down[8 in].at={at:g} in")
    main = result.clips
    about = -(main.V_arm - main.M[-1] / at + main.w_back * at / 2)[0]
    expected = np.maximum(np.maximum(about, -main.R[-1][0]), 0.0)
    assert main.uplift["edge"][0] == pytest.approx(expected, abs=1e-6)


def test_two_supports_have_nothing_else_to_turn_about():
    """Without the clip at 8 in: about the back, T = 421.9 + 4,112/48 - 0.7958 x 48/2 + 0.6 x 0.2153
    x 3^2/2/48 = 421.9 + 85.67 - 19.10 + 0.01 = 488.5 lb."""
    three = case_of("tie_beside_a_near_clip")
    ends = tuple(hold for hold in three.hold_down if isinstance(hold.at, str))
    result = design(three.model_copy(update={"hold_down": ends}))
    assert 2 * demand_in(check(result, "hold_down:edge"), UP) == pytest.approx(488.5, abs=0.1)
