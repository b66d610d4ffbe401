"""Each unbraced stretch of the back span: its own length, its own largest moment. NDS 2018 3.3.3.

2x12 DF-L Select Structural at 16 in, level, gap 14 in: arm = 14 + 1/2 + 1 3/4 + 5 1/2 / 2 = 19 in,
tail 1 3/4 in, back span 84 in; blocks at the edge, 6 in and the back.
    P: dead (10 psf x 15 ft + 10 psf x 3 ft) x 16/12 = 240 lb; snow 75 psf x 15 ft x 16/12 = 1500 lb
    strip, lb/in: dead 10 psf x 16/12 ft / 12 = 1.1111, snow 8.3333; self 0.3340 (G 0.50 at 19 %:
    62.4 x 0.5/1.0855 x 1.19 = 34.20 pcf on 16.875 in2)
"""

import numpy as np
import pytest
from case_files import design_of
from codes_case import designed
from in_combination import demand_in
from level_case import check, row

SNOW = "D + S, dead on the back span x 0.6"
WITH_FORCE_ALONG = "D + 0.45A + 0.75S, dead on the back span x 0.6"


def test_a_block_near_the_edge_leaves_the_stretch_behind_it():
    """Demand, capacity and ratios are worked in proof/data/whole_cases.toml: D + S, M at the edge
    35,165 lb-in, at the block 32,450 lb-in, S 31.641 in3, Fb* 1,725 psi; 1.059 behind the block."""
    result = design_of("block_at_6in")
    found = row(result, "bending", "", "back span")
    assert found.combination == SNOW
    assert result.verdict == "fail"


def test_blocks_at_the_ends_alone_leave_the_inside_of_the_span():
    """Then the whole 84 in are one stretch, whose larger end moment is the edge's own row: lu = 84,
    1.21 by the same sums; inside, the shear nowhere passes zero: only the end behind the back, 3 in
    of self weight: 0.334 x 3^2/2 = 1.503 lb-in."""
    result = design_of("block_at_6in", 'outrigger.blocking=["edge","back"]')
    edge = row(result, "bending", "", "edge")
    # le 1.63 x 84 + 3 x 11.25 = 170.67 (84/11.25 = 7.47), RB 29.21, FbE 970.3, r 0.5625, CL 0.5322
    assert edge.ratio == pytest.approx(35_165 / 31.641 / (0.5322 * 1725), abs=0.001)
    inside = row(result, "bending", "", "back span")
    assert inside.demand * 31.640625 == pytest.approx(1.503, abs=0.001)


def test_a_force_along_the_wall_with_the_stretch_behind_a_block():
    """20 plf along the wall: 26.667 lb across the member; D + 0.45A + 0.75S: 12 lb at 19 in, at
    the edge 228 lb-in, at the block 228 x 78/84 = 211.7 lb-in: S = 11.25 x 1.5^2/6 = 4.2188 in3,
    fb2 = 50.18 psi of Fb2' = 1500 x 1.6 x 1.2 (Cfu 2x12) = 2,880 psi.
    Square: M at the edge (240 + 1125) x 19 + (1.4451 + 6.25) x 20.75^2/2 = 27,591.6 lb-in; at the
    block x 78/84 - 203 = 25,418 lb-in, 803.3 psi of 995.3 (Fb* 2,400, CL 0.4147): 0.8071.
    3.9.2: 0.8071 + 50.18/(2,880 (1 - (803.3/1,030.6)^2)) = 0.8071 + 0.01742/0.3924 = 0.8515.
    """
    result = design_of("block_at_6in", "garage_wall.along=20 plf")
    both = check(result, "biaxial", "", "back span")
    assert demand_in(both, WITH_FORCE_ALONG) == pytest.approx(0.8515, abs=0.0005)


def test_a_drift_on_the_house_counts_at_the_block():
    """A load that is not even: the moment at the block by adding up strips of 1/1000 in, from the
    back inward, the reaction there by moments about the edge."""
    result = designed(snow__drift__on="house roof", outrigger__blocking=["edge", "20 in", "back"])
    over, main = result.main.combinations, result.main
    factors = over.factors[:, over.parts.index("S_house")]
    at_block = main.back_span.moment_at(np.array([[-20.0]]))[0]
    i = int(np.argmax(at_block * (factors > 0)))
    peak, width = (float(v[0, 0]) for v in result.loads.house["S_house"])
    arm, back, behind, at = 9.75, 48.0, 3.0, -20.0
    assert width > arm + 20  # it reaches past the block
    step = 0.001
    x = np.arange(-back, 0, step) + step / 2
    q = (
        factors[i] * np.maximum(peak * (1 - (arm - x) / width), 0.0)
        + main.back_span.stretches[0].w[0, i]
    )
    tail = -over.factors[i, over.parts.index("D_back")] * 0.1633 * behind**2 / 2
    R = (main.M[-1][0, i] - tail + np.sum(q * -x) * step) / back
    M = tail + R * (at + back) - np.sum(np.where(x < at, q * (at - x), 0)) * step
    assert at_block[i] == pytest.approx(abs(M), rel=1e-4)
    name = over.all[i].text
    demand = demand_in(check(result, "bending", "", "back span"), name)
    assert demand * 1.5 * 5.5**2 / 6 >= abs(M) * 0.9999
