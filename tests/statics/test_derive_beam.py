"""A beam in exact fractions against closed forms of the handbooks, and the closed forms that print.

Closed forms: any beam table ("beam overhanging one support"), written here by hand.
"""

import numpy as np
import pytest

from outrigger.actions import closed_forms as by_hand
from outrigger.formula.formula import given
from outrigger.statics import exact
from outrigger.statics.exact import Load

EI, L, A = 3.0e7, 48.0, 10.0
STIFF = 1e30  # no shear deflection: the tables leave it out


def beam(*loads, GA=STIFF, supports=(-L, 0.0), at=A):
    return exact.exact_beam(supports, loads, EI, GA, at)


def test_point_load_at_the_end_of_an_overhang():
    """R_back = -P a / L, R_edge = P (1 + a/L), M = -P a, droop = P a^2 (L + a) / 3 EI."""
    found = beam(Load("point", A, A, 800.0))
    assert found.reactions == pytest.approx((-800 * 10 / 48, 800 * 58 / 48), rel=1e-12)
    assert found.moment == -8000
    assert found.deflection == pytest.approx(800 * 100 * 58 / (3 * EI), rel=1e-12)


def test_even_load_on_the_overhang():
    """droop at the end = w a^3 (4 L + 3 a) / 24 EI, M = -w a^2 / 2."""
    found = beam(Load("even", 0.0, A, 6.0))
    assert found.moment == -300
    assert found.deflection == pytest.approx(6 * 1000 * (4 * 48 + 30) / (24 * EI), rel=1e-12)


def test_even_load_between_the_supports():
    """The overhang rises by w L^3 a / 24 EI; each support w L / 2."""
    found = beam(Load("even", -L, 0.0, 3.0))
    assert found.reactions == (72.0, 72.0)
    assert found.deflection == pytest.approx(-3 * 48**3 * 10 / (24 * EI), rel=1e-12)


def test_load_that_grows_on_the_overhang():
    """A triangle, largest at the end: its sum w a / 2 at 2 a / 3; M = -w a^2 / 3; as a cantilever
    11 w a^4 / 120 EI, and the turn M L / 3 EI of the back span times a."""
    found = beam(Load("growing", 0.0, A, 6.0))
    assert found.moment == -200
    by_table = 11 * 6 * 10**4 / (120 * EI) + 200 * 48 / (3 * EI) * 10
    assert found.deflection == pytest.approx(by_table, rel=1e-12)


def test_couple_at_the_wall_line():
    """A couple C hogs the back span: R = C / L up and down, droop = C a^2 / 2 EI + C L a / 3 EI."""
    found = beam(Load("couple", A, A, 1000.0))
    assert found.reactions == pytest.approx((-1000 / 48, 1000 / 48), rel=1e-12)
    by_table = 1000 * 100 / (2 * EI) + 1000 * 48 * 10 / (3 * EI)
    assert found.deflection == pytest.approx(by_table, rel=1e-12)


def test_moment_of_a_part_as_it_prints():
    """800 lb at 10 in, 6 lb/in on 12 in, 50 lb at its end, 20 lb along x 5 in: 8000 + 432 + 600 +
    100 lb-in; the beam's has the same under the first three."""
    assert by_hand.moment_of_part(800.0, 10.0, 6.0, 2.0, 50.0, 20.0, 5.0) == pytest.approx(9132.0)
    ends = Load("point", A, A, 800.0), Load("point", 12.0, 12.0, 50.0)
    assert beam(*ends, Load("even", 0.0, 12.0, 6.0)).moment == -9032


def test_shear_of_an_overhang():
    """By hand: P a / GA on the arm, and a times the mean shear P a / L of the back span / GA."""
    bent, both = (beam(Load("point", A, A, 800.0), GA=g).deflection for g in (STIFF, 7e5))
    assert both - bent == pytest.approx(8000 / 7e5 + 10 * 8000 / 48 / 7e5, rel=1e-9)


def test_three_supports():
    """Two equal spans under an even load: 3/8, 5/4, 3/8 of w L, M over the middle -w L^2 / 8."""
    found = beam(Load("even", -96.0, 0.0, 2.0), supports=(-96.0, -48.0, 0.0), at=0.0)
    assert found.reactions == pytest.approx((36.0, 120.0, 36.0), rel=1e-12)
    assert found.deflection == 0


def test_droop_by_its_terms_is_that_of_the_beam():
    """The formulas that print, one after the other, against the beam in exact fractions."""
    GA, t, b_b, P, w, w_back, w_self = 7e5, 1.75, 3.0, 740.0, 4.05, 3.5, 0.16
    M_edge = P * A + w * (A + t) ** 2 / 2
    M_behind = by_hand.moment_behind(w_self, b_b)
    total = by_hand.droop_at_wall(
        by_hand.droop_of_point(P, A, EI),
        by_hand.droop_of_even(w, A, t, EI),
        by_hand.droop_of_shear(P, A, w, t, GA),
        by_hand.slope_at_edge(M_edge, M_behind, L, w_back, EI, GA),
        A,
    )
    loads = (
        Load("point", A, A, P), Load("even", 0.0, A + t, w), Load("even", -L, 0.0, w_back),
        Load("even", -L - b_b, -L, w_self),
    )  # fmt: skip
    found = beam(*loads, GA=GA)
    assert found.deflection == pytest.approx(total, rel=1e-12)
    assert found.moment == pytest.approx(-M_edge, rel=1e-12)
    inside = by_hand.shear_at_edge(M_edge, M_behind, L, w_back)
    assert found.reactions[1] == pytest.approx(P + w * (A + t) + inside, rel=1e-12)
    outer = by_hand.shear_at_back(M_edge, M_behind, L, w_back)
    assert found.reactions[0] == pytest.approx(w_self * b_b - outer, rel=1e-12)
    assert by_hand.shear_by_wall(P, w, t, 0.0) == pytest.approx(P + w * t)


def test_the_arm_by_its_formula():
    """By hand: 6 + 1/2 + 1 3/4 + 0 + 1 1/2 = 9 3/4 in; down 18.435 deg (4:12 is 18.435)
    (6 + 1/2 + 1 3/4) / cos = 8.25 / 0.948683 = 8.69626, + 1 1/2 = 10.19626 in."""
    from outrigger.actions.geometry import arm_down_the_slope, arm_level

    lengths = {"x_gap": 6.0, "t_finish": 0.5, "w_plate": 3.5, "e_setback": 0.0, "l_edge": 3.0}
    assert arm_level(**lengths) == 9.75
    theta = given("theta_roof", np.degrees(np.arctan(4 / 12)), "deg")
    assert arm_down_the_slope.step(**lengths, theta_roof=theta).value == pytest.approx(
        10.19626, abs=5e-6
    )
