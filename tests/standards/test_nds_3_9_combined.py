"""NDS 3.9: axial force with bending, and bending about both axes: laws, by their own algebra."""

import numpy as np
import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st
from published import printed

from outrigger.formula.formula import given
from outrigger.wood import axial
from outrigger.wood.axial import column_stability

stress = st.floats(0.0, 400.0)
value = st.floats(500.0, 3000.0)
buckling = st.floats(500.0, 20000.0)


@drawn(fb1=stress, fb2=stress, ft=stress, Fb1=value, Fb2=value, Ft=value, FbE=buckling)
def test_interactions_reduce_to_their_parts(fb1, fb2, ft, Fb1, Fb2, Ft, FbE):
    """Where the others vanish each is its own stress over its own value."""
    assert axial.tension_and_bending(ft, Ft, 0.0, Fb1) == ft / Ft
    assert axial.tension_and_bending(0.0, Ft, fb1, Fb1) == fb1 / Fb1
    assert axial.tension_and_both(0.0, Ft, 0.0, Fb1, fb2, Fb2) == fb2 / Fb2
    assert axial.both_ways(fb1, Fb1, 0.0, Fb2, FbE) == fb1 / Fb1
    assert axial.both_ways(0.0, Fb1, fb2, Fb2, FbE) == fb2 / Fb2
    both = axial.compression_and_both(0.0, 900.0, fb1, Fb1, 5e3, fb2, Fb2, 5e3, FbE)
    assert both == pytest.approx(axial.both_ways(fb1, Fb1, fb2, Fb2, FbE), rel=1e-12)
    one = axial.compression_and_both(ft, 900.0, fb1, Fb1, 5e3, 0.0, Fb2, 5e3, FbE)
    assert one == axial.compression_and_bending(ft, 900.0, fb1, Fb1, 5e3)


@drawn(fc=st.floats(0.0, 2000.0), fb1=stress, FcE=buckling, FbE=buckling)
def test_an_unstable_member_never_passes(fc, fb1, FcE, FbE):
    """At or past 3.9-4 the interaction is over 1, whatever its brackets give."""
    stable = axial.stable_both.step(fc=fc, FcE1=FcE, FcE2=FcE, fb1=fb1, FbE=FbE)
    with np.errstate(divide="ignore", invalid="ignore"):
        raw = axial.compression_and_both.step(
            fc=np.float64(fc), Fc_adj=900.0, fb1=np.float64(fb1), Fb1_adj=1000.0, FcE1=FcE,
            fb2=1.0, Fb2_adj=1000.0, FcE2=FcE, FbE=FbE,
        )  # fmt: skip
    held = axial.unless_unstable(raw, stable)
    assert stable.value < 1 or held.value > 1


def test_column_stability_at_its_ends():
    """Short: CP to 1. Slender: Fc' to FcE, Euler with the standard's 0.822 Emin."""
    star = given("Fc_star", 1500.0, "psi")
    for FcE, CP, tolerance in ((1e9, 1.0, 1e-6), (1.5, 1.5 / 1500, 1e-6)):
        found = axial.stability_factor(given("FcE", FcE, "psi"), given("FcE", 1e12, "psi"), star)
        assert found.value == pytest.approx(CP, abs=tolerance)


def test_the_plane_that_buckles_first():
    """Element by element: the smaller FcE, as each alone."""
    star = given("Fc_star", 1500.0, "psi")
    one, two = np.array([900.0, 2500.0]), np.array([1800.0, 700.0])
    both = axial.stability_factor(given("FcE", one, "psi"), given("FcE", two, "psi"), star)
    alone = column_stability(np.array([900.0, 700.0]), 1500.0, 0.8)
    assert both.value == pytest.approx(alone, rel=1e-15)


def test_both_equations_of_3_9_2_by_hand():
    """fc 200 of Fc' 800, FcE1 1000, FcE2 500; fb1 600 of 1000, FbE 1200; fb2 90 of 900 psi.

    3.9-4: 200/500 + (600/1200)^2 = 0.40 + 0.25 = 0.65, over fc/FcE1 = 0.20. 3.9-3: (200/800)^2 +
    600/(1000 x 0.8) + 90/(900 x 0.35) = 0.0625 + 0.75 + 0.285714. Tension, 3.9-1 with both axes:
    ft 100 of 500: 0.2 + 600/1100 + 0.1."""
    pressed = {"fc": 200.0, "FcE1": 1000.0, "FcE2": 500.0, "fb1": 600.0, "FbE": 1200.0}
    assert axial.stable_both(**pressed) == printed("0.65")
    more = {"Fc_adj": 800.0, "Fb1_adj": 1000.0, "fb2": 90.0, "Fb2_adj": 900.0}
    assert axial.compression_and_both(**pressed, **more) == printed("1.098214")
    pulled = axial.tension_and_both(
        ft=100.0, Ft_adj=500.0, fb1=600.0, Fb1_tension=1100.0, fb2=90.0, Fb2_adj=900.0
    )
    assert pulled == printed("0.845455")


def test_bending_both_ways_of_a_member_that_cannot_roll():
    """NDS 3.9.2 without axial force and without amplification: 300/600 + 100/400 = 0.75."""
    assert axial.both_ways_stable(300.0, 600.0, 100.0, 400.0) == 0.75
