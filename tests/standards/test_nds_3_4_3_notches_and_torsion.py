"""NDS 3.4.3 notches, 3.10.3 bearing at an angle, and the torsion of a rectangle.

The notch cases are derived from the equations, not published; torsion is held to Saint-Venant's
series, summed here.
"""

import math

import numpy as np
import pytest

from outrigger.wood import bearing, notch


@pytest.mark.parametrize(
    ("case", "tension", "compression"),
    [
        # b, d, dn in, e in, Fv' psi; Vr' lb by Eq. 3.4-3 and 3.4-5
        pytest.param((1.5, 7.25, 5.5, 1.5, 180.0), 569.75, 1219.09, id="2x8 DERIVED"),
        pytest.param((1.5, 11.25, 9.25, 3.0, 135.0), 844.217, 1431.18, id="2x12 DERIVED"),
    ],
)
def test_notched_ends(case, tension, compression):
    b, d, d_n, e, Fv = case
    assert notch.tension_side(Fv, b, d_n, d) == pytest.approx(tension, abs=0.005)
    assert notch.compression_side(Fv, b, d, d_n, e) == pytest.approx(compression, abs=0.005)


def test_a_notch_that_reaches_past_its_depth_leaves_the_net_depth():
    """e over dn counts as dn (3.4.3.2(e)): 2/3 Fv' b dn. No notch: the full depth, both ways."""
    assert notch.compression_side(180.0, 1.5, 7.25, 5.5, 60.0) == pytest.approx(2 / 3 * 180 * 8.25)
    full = 2 / 3 * 180.0 * 1.5 * 7.25
    assert notch.compression_side(180.0, 1.5, 7.25, 7.25, 3.0) == pytest.approx(full)
    assert notch.tension_side(180.0, 1.5, 7.25, 7.25) == pytest.approx(full)


@pytest.mark.parametrize(
    ("angle", "value"),
    [(0.0, 1500.0), (90.0, 405.0), (45.0, 2 * 1500.0 * 405.0 / 1905.0)],
)
def test_hankinson(angle, value):
    """0 degrees: Fc*; 90: Fc perp'; 45: twice their product over their sum."""
    assert bearing.at_an_angle(1500.0, 405.0, angle) == pytest.approx(value, rel=1e-12)


def saint_venant(deep, thin):
    """Largest shear for unit torque: 8 G theta thin/pi^2 sums over odd n, Timoshenko's series."""
    k = deep / thin
    odd = np.arange(1, 400, 2)
    J = (
        thin**3
        * deep
        / 3
        * (1 - 192 / (math.pi**5 * k) * np.sum(np.tanh(odd * math.pi * k / 2) / odd**5))
    )
    with np.errstate(over="ignore"):
        most = thin * (1 - 8 / math.pi**2 * np.sum(1 / (odd**2 * np.cosh(odd * math.pi * k / 2))))
    return most / J


@pytest.mark.parametrize(
    ("deep", "thin"), [(5.5, 1.5), (7.25, 1.5), (11.25, 1.5), (9.25, 5.5), (3.5, 3.5)]
)
def test_torsion_of_a_rectangle(deep, thin):
    """0.5 %: the handbook's polynomial is a fit to the series."""
    assert notch.torsion_stress(1.0, deep, thin) == pytest.approx(
        saint_venant(deep, thin), rel=5e-3
    )


def test_shear_relief_is_continuous():
    """A load at d counts whole, at the face not at all, and between in proportion (3.4.3.1(a))."""
    full = {"V_full": 1000.0, "P": 600.0, "d": 10.0, "w_arm": 0.0, "l_near": 0.0}
    assert notch.near_support(**full, x_load=10.0) == 1000.0
    assert notch.near_support(**full, x_load=12.0) == 1000.0
    assert notch.near_support(**full, x_load=0.0) == 400.0
    assert notch.near_support(**full, x_load=4.0) == pytest.approx(640.0)
