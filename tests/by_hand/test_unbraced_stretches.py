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
    """D + S: M at the edge = 1740 x 19 + 9.7785 x 20.75^2/2 = 33,060 + 2,105 = 35,165 lb-in.

    From the block at 6 in to the back 78 in are unbraced. The back span carries 0.6 x (1.1111 +
    0.3340) = 0.8671 lb/in; at the block M = 35,165 x 78/84 - 0.8671 (84 x 78 - 78^2)/2 = 32,653 -
    203 = 32,450 lb-in; S = 1.5 x 11.25^2/6 = 31.641 in3: fb = 1,025.6 psi.
    le = 2.06 x 78 = 160.7 (78/11.25 < 7), RB = sqrt(160.7 x 11.25)/1.5 = 28.34, FbE = 1.2 x 690,000
    / 28.34^2 = 1,031; Fb* = 1.15 x 1500 = 1,725, FbE/Fb* = 0.5975; 1.5975/1.9 = 0.84077, CL =
    0.84077 - sqrt(0.70689 - 0.62891) = 0.5615; Fb' = 968.6 psi; 1,025.6 / 968.6 = 1.059.
    The edge's own moment keeps its own row: lu = 19 in of arm, 0.66.
    """
    result = design_of("block_at_6in")
    found = row(result, "bending", "", "back span")
    assert found.combination == SNOW
    assert found.demand == pytest.approx(1025.6, abs=0.1)
    assert found.capacity == pytest.approx(968.6, abs=0.1)
    assert found.ratio == pytest.approx(1.059, abs=0.0005)
    assert row(result, "bending", "", "edge").ratio == pytest.approx(0.66, abs=0.005)
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


def test_wind_along_with_the_stretch_behind_a_block():
    """20 psf on the 3 ft wall: H = 20 x 1.5 x 16/12 = 40 lb. D + 0.45H toward the house + 0.75S:

    N = 18 lb. M at the edge = (240 + 1125) x 19 + (1.4451 + 6.25) x 20.75^2/2 = 25,935 + 1,656.6 =
    27,591.6 lb-in, less 18 x 11.25 = 202.5, the couple of the push: 27,389. At the block: x 78/84
    - 203 = 25,230 lb-in, 797.4 psi. Fb* = 2,400, FbE/Fb* = 0.42942: CL = 0.75233 - sqrt(0.56600 -
    0.45202) = 0.4147; Fb1' = 995.3 psi: 0.8012, and N next to nothing: 18/16.875 = 1.07 psi of
    FcE1 = 0.822 x 690,000/(84/11.25)^2 = 10,173 and of Fc' about 208 psi: 0.8013.
    Away from the house, D + 0.45H away + 0.75S: 27,591.6 + 202.5 = 27,794 at the edge, 25,606 at
    the block, 809.3 psi less 1.07 of tension: 808.2/995.3 = 0.812.
    """
    result = design_of("block_at_6in", "garage_wall.out_of_plane_wind=20 psf")
    push = row(result, "axial_bending", "compression", "back span")
    assert push.ratio == pytest.approx(0.8013, abs=0.0005)
    pull = row(result, "axial_bending", "tension, compression edge", "back span")
    assert pull.ratio == pytest.approx(0.812, abs=0.0005)


def test_a_force_along_the_wall_with_the_stretch_behind_a_block():
    """20 plf along the wall: 26.667 lb across the member; D + 0.45A + 0.75S: 12 lb at 19 in, at
    the edge 228 lb-in, at the block 228 x 78/84 = 211.7 lb-in: S = 11.25 x 1.5^2/6 = 4.2188 in3,
    fb2 = 50.18 psi of Fb2' = 1500 x 1.6 x 1.2 (Cfu 2x12) = 2,880 psi.
    Square: 27,591.6 x 78/84 - 203 = 25,418 lb-in, 803.3 psi of 995.3: 0.8071.
    3.9.2: 0.8071 + 50.18/(2,880 (1 - (803.3/1,030.6)^2)) = 0.8071 + 0.01742/0.3924 = 0.8515.
    """
    result = design_of("block_at_6in", "garage_wall.along=20 plf")
    both = check(result, "biaxial", "", "back span")
    assert demand_in(both, WITH_FORCE_ALONG) == pytest.approx(0.8515, abs=0.0005)


def test_more_blocks_each_stretch_has_its_own_length():
    """Blocks at 6, 20 and 60 in: D + S, M(x) = 35,165 (84 - x)/84 - 0.8671 x (84 - x)/2 lb-in.

    6 in: 32,450; lu 14: le 28.84, RB sqrt(28.84 x 11.25)/1.5 = 12.01, FbE 5,742, r 3.329, CL
    2.27826 - sqrt(5.19047 - 3.50389) = 0.9796: M/CL 33,126.
    20 in: 26,237; lu 40: le 82.4, RB 20.30, FbE 2,009.7, r 1.1650, CL 1.13948 -
    sqrt(1.29841 - 1.22633) = 0.8710: M/CL 30,120. 60 in: 9,423; lu 24: little.
    So the stretch of 14 in governs: 32,450/31.641/(0.9796 x 1725) = 0.607.
    """
    result = design_of("block_at_6in", 'outrigger.blocking=["edge","6 in","20 in","60 in","back"]')
    found = row(result, "bending", "", "back span")
    assert found.ratio == pytest.approx(0.607, abs=0.0005)
    # without the block at 20 in the stretch behind 6 in is 54 in: le 111.2, RB 23.58, FbE 1,489,
    # r 0.8631, CL 0.98056 - sqrt(0.96150 - 0.90851) = 0.7504: 0.792
    result = design_of("block_at_6in", 'outrigger.blocking=["edge","6 in","60 in","back"]')
    assert row(result, "bending", "", "back span").ratio == pytest.approx(0.792, abs=0.0005)


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
