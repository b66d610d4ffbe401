"""Droop of a row of clips without an edge tie: lifted only where dead load and wind lift it.

2x6 DF-L No. 2 at 16 in, level: arm 6 + 1/2 + 2 3/4 + 1 1/2 = 10.75 in, tail 2.75 in, back span
48 in; clips at the back and 24 in, none at the edge. Light roof, wind 20 psf up, snow 10 psf.
    EI = 1.03 x 1.6e6 x 20.797 = 34.27e6 lb-in2; GA = 1.648e6/16 x 5/6 x 8.25 = 708,125 lb
    P: dead (18 psf x 10 ft + 10 psf x 3 ft) x 16/12 = 280 lb, snow 133.3 lb, wind 266.7 lb
    strip, lb/in: dead 18 x 16/144 = 2.0 and self 0.1633, snow 1.1111, wind 2.2222
"""

import numpy as np
import pytest
from case_files import design_of
from in_combination import demand_in
from level_case import check
from stiffness_method import stiffness_method


def test_an_edge_that_stays_down_keeps_its_stiffness():
    """Droop under live load and in all is worked in proof/data/whole_cases.toml: D + 0.42W lifts
    nothing, live is the snow's, 0.01206 in as if the back held alone. Wind lifts 0.84 of that."""
    result = design_of("droop_of_an_untied_row")
    wind = demand_in(check(result, "live_deflection"), "0.42W up")
    assert wind == pytest.approx(0.84 * 0.01206, abs=0.00001)
    assert result.verdict == "pass"


def droop(supports, P, w_arm, w_back):
    """Droop at the wall line by the stiffness method, the second witness of the beam."""
    EI, GA = 1.03 * 1.6e6 * 20.796875, 1.03 * 1.6e6 / 16 * 5 / 6 * 8.25
    loads = [
        ("point", 10.75, P),
        ("uniform", 0.0, 13.5, w_arm),
        ("uniform", -48.0, 0.0, w_back),
        ("uniform", -51.0, -48.0, 0.6 * 0.16331),
    ]
    rigid = [np.inf] * len(supports)
    solved = stiffness_method(supports, rigid, EI, GA, -51.0, 13.5, loads, [10.75])
    return solved.deflection[10.75], solved.reactions


def test_an_edge_that_lifts_rises_from_where_dead_load_leaves_it():
    """60 psf up: P = 280 - 0.42 x 800 = -56 lb, strip 2.1633 - 0.42 x 6.6667 = -0.6367 lb/in, back
    span 0.6 x 1.2744 lb/in: an edge that could pull would (below), so the member turns about the
    clips at 24 and 48 in; the rise counts from the droop under dead load, the edge bearing."""
    result = design_of("droop_of_an_untied_row", "wind.uplift=60 psf")
    w_back = 0.6 * (1.11111 + 0.16331)
    dead, _ = droop([-48.0, -24.0, 0.0], 280.0, 2.16331, w_back)
    _, held = droop([-48.0, -24.0, 0.0], -56.0, -0.63669, w_back)
    assert held[-1] < 0
    both, _ = droop([-48.0, -24.0], -56.0, -0.63669, w_back)
    assert both < 0
    found = demand_in(check(result, "live_deflection"), "0.42W up")
    assert found == pytest.approx(dead - both, rel=1e-4)


def test_the_boundary_where_the_edge_begins_to_lift():
    """The whole reaction at the edge turns over between two wind pressures 1 % apart; below it the
    droop is that of the edge held, 0.42 of the wind alone."""
    w_back = 0.6 * (1.11111 + 0.16331)

    def pushes(psf):
        P, w = 280 - 0.42 * psf * 40 / 3, 2.16331 - 0.42 * psf / 9
        return droop([-48.0, -24.0, 0.0], P, w, w_back)[1][-1]

    low, high = 20.0, 60.0
    while high / low > 1.001:
        middle = (low + high) / 2
        low, high = (middle, high) if pushes(middle) > 0 else (low, middle)
    held, lifted = (
        design_of("droop_of_an_untied_row", f"wind.uplift={psf} psf")
        for psf in (low * 0.995, high * 1.005)
    )
    one, other = (demand_in(check(r, "live_deflection"), "0.42W up") for r in (held, lifted))
    alone = abs(droop([-48.0, 0.0], -0.42 * low * 0.995 * 40 / 3, -0.42 * low * 0.995 / 9, 0)[0])
    assert one == pytest.approx(alone, rel=2e-3)
    assert other > one
