"""Forces along a member that runs down a slope, against its equilibrium square to the sheathing.

A vertical load F on a slope of theta gives F cos square to the sheathing and F sin along it: so
what a part of the load brings along the arm is tan(theta) times its shear just outside the house
wall, and along the whole member tan(theta) times the sum of its reactions. Wind on strip and back
span is square to the sheathing and brings nothing.
"""

import numpy as np
import pytest
from codes_case import designed
from published import printed

STEP = {"on": "both", "house_step": "4 ft", "house_length": "30 ft", "garage_length": "24 ft"}
WIND = ("W_up", "W_down", "W_back", "W_press_back")


def down(**changes):
    return designed(
        house_roof__pitch="6:12",
        house_roof__direction="down the slope",
        snow__drift=STEP,
        snow__on_house={"step": "6 ft"},
        **changes,
    )


@pytest.mark.parametrize("overhang", ["none", "6 in"])
def test_every_part_along_is_what_it_is_square_times_the_slope(overhang):
    """Drift and sliding on both roofs, each with its strip, its ramp and its reach."""
    result = down(garage_roof__overhang=overhang)
    on, whole, parts = result.model.by_axis, result.model.whole, result.model.parts
    assert {"S_lee", "S_wind", "S_house", "S_shed", "D_own", "worker"} <= set(parts)
    assert result.loads.strip_ramp.keys() == {"S_lee", "S_wind"}
    assert result.loads.house.keys() == {"S_house"} and result.loads.shed.keys() == {"S_shed"}
    for i, part in enumerate(parts):
        if part in WIND:
            continue
        arm, back = (float(np.ravel(by.get(part, 0.0))[0]) for by in (on.on_arm, on.on_back))
        square = sum(float(R[0, i]) for R in whole.R)
        assert arm == pytest.approx(whole.V_arm[0, i] / 2, rel=1e-9, abs=1e-9)
        assert arm + back == pytest.approx(square / 2, rel=1e-9, abs=1e-9)


def test_a_worker_and_a_back_span_along_the_slope():
    """sin(26.565) = 0.44721: 300 lb of a worker 134.16 lb; wind on the roof's wall line alone."""
    result = down()
    on, P = result.model.by_axis, result.loads.wall_line
    assert float(on.on_arm["worker"][0, 0]) == printed("134.16")
    assert float(on.on_arm["W_up"][0, 0]) == pytest.approx(float(P["W_up"][0, 0]) * 5**-0.5)
    assert float(np.ravel(on.on_back["W_back"])[0]) == 0
