"""Wind on the garage roof's overhang by its own coefficients, on its own length.

The sample with 24 in of overhang: span 18 ft, slope 26.57 deg, one truss in 2 ft on an outrigger:
A = 2 x (9 + 2) = 22 sf of roof and overhang together. qh (7-16, exposure B, 15 ft) = 13.788 psf.
Nothing is computed here for the far overhang apart: both are taken alike.
"""

import pytest
from codes_case import LINE, MODERN, STATED_WIND, designed, pounds, row, said, strip_psf
from published import printed

from outrigger.cases.batch import batch_of
from outrigger.verdict.design import designs_of

HUNG = {"garage_roof__overhang": "24 in"}


@pytest.mark.parametrize(
    ("changes", "up"),
    [
        # Fig. 30.3-2C, 3e, log 2.2/log 15 = 0.29115: roof -2.5 + 1.3 x 0.29115 = -2.1215, with
        # 0.18: 31.733 psf on 9 ft; overhang -3.6 + 1.9 x 0.29115 = -3.0468, with 0.18 (as written
        # in the equation, the safe side): 44.490 psf on 2 ft; (285.60 + 88.98) x 2
        ({}, "749.2"),
        # 7-22, 13.744 psf: 3 -3.0 + 1.6 log 2.2 = -2.4521; the wall below 1.0 - 0.3 x 0.34242/
        # 1.69897 = 0.9395: roof 36.176, overhang 13.744 x (2.4521 + 0.9395 + 0.18) = 49.089
        (MODERN, "847.5"),
        # main: 28.3 2E -1.07 - 0.18: 16.7933 x 1.25 = 20.992; overhang 28.3.3: x (1.07 + 0.70) =
        # 29.724; 27.3.3 13.788 x 0.85 x (0.9 to 1.3 + 0.8) is less
        ({"wind__method": "main"}, "496.7"),
        # zone 2e stated: roof -1.5 + 0.7 log 1.1/log 15 = -1.4754: 22.824; overhang -2.0 +
        # 0.2 x 0.0352 = -1.9930: 29.960
        ({"wind__zone": "2e"}, "530.7"),
    ],
    ids=["components", "7-22", "main", "zone 2e"],
)
def test_uplift_of_roof_and_overhang(changes, up):
    result = designed(**HUNG, **changes)
    assert -pounds(result, "W_up") == pytest.approx(float(up), abs=0.15)


def test_down_as_on_the_roof_and_said():
    """No coefficient that presses on an overhang is on file: the roof's, 16 psf (30.2.2), which
    holds an internal suction that an overhang does not have: 16 x 11 x 2 = 352 lb."""
    result = designed(**HUNG)
    assert pounds(result, "W_down") == printed("352.0")
    assert "assumption: wind down on an overhang as on the roof" in said(result)
    assert "wind on the overhang of the garage roof: 44.5 psf up, zone 3e" in said(result)


def test_the_edge_tie():
    """0.6D + 0.6W, suction on the back span too. The overhang covers the arm; the tail 1 3/4 in.

    D: 370 lb, strip 10 psf and self (1.1111 + 0.1633) x 11.5 in: V 384.66, M 3,691.8 lb-in
    W: 749.15 lb, on the tail 31.733 psf = 3.526 lb/in: V 755.32, M 7,369.8
    R = 0.6 x (384.66 - 755.32) + 0.6 x (3,691.8 - 7,369.8)/48 + (0.7646 - 3.1069) x 24 =
    -222.40 - 45.98 - 56.21 - 0.01 = -324.60 lb
    """
    tie = row(designed(**HUNG), "hold_down:edge")
    assert 2 * tie.demand == pytest.approx(324.60, abs=0.05)


def test_it_stands_in_the_list_and_in_the_steps():
    result = designed(**HUNG)
    assert any(one.name == "wind up on the overhang" for one in result.loads.derived)
    line = result.loads.steps["W_up"]
    (total,) = (step for step in line if step.symbol == "w_roof")
    assert set(total.inputs) == {"q", "l_span", "q_overhang", "l_overhang"}


def test_the_roof_over_the_gap_keeps_the_roofs():
    """It is no overhang: a wall stands on either side."""
    assert -strip_psf(designed(**HUNG), "W_up") == pytest.approx(31.733, abs=0.001)


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"garage_roof__overhang": "none"},
        {**HUNG, "garage_roof__line": LINE},
        {"garage_roof__bearing": False, "garage_roof__overhang": "none"},
    ],
    ids=["sample", "none", "truss sheet", "gable wall"],
)
def test_no_overhang_of_its_own(changes):
    """None stated; the truss sheet holds it already; a gable wall carries no eave."""
    result = designed(**changes)
    assert "on the overhang" not in said(result)
    assert not any("overhang" in one.name for one in result.loads.derived)


def test_stated_pressures_lie_on_the_overhang_too_and_it_is_said():
    result = designed(**HUNG, **STATED_WIND)
    assert -pounds(result, "W_up") == printed("660.0")  # 30 x 11 x 2
    assert "net pressures as stated, on the overhang as on the roof" in said(result)


def test_in_a_batch_each_case_has_its_own():
    """One without an overhang among others: the same bits as alone."""
    swept = designs_of(batch_of(designed().case, {"garage_roof.overhang": [0.0, 12.0, 24.0]}))
    for i, inches in enumerate((0, 12, 24)):
        alone = designed(garage_roof__overhang=f"{inches} in" if inches else "none")
        found = swept.worked.loads.wall_line["W_up"][i, 0]
        assert found == alone.loads.wall_line["W_up"][0, 0]
