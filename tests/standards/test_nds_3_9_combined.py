"""NDS 3.9: axial force with bending, and bending about both axes.

AWC, Structural Wood Design Examples (2015/2018 edition), E1.6 and E1.7, read in transcriptions; the
laws by their own algebra.
"""

import numpy as np
import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st
from published import printed

from outrigger.base import units
from outrigger.formula.formula import given
from outrigger.wood import adjusted as adjust
from outrigger.wood import axial, bending, lumber
from outrigger.wood.adjusted import Conditions, adjusted
from outrigger.wood.axial import column_stability

DRY = Conditions()


def test_e1_6_bottom_chord():
    """HF No. 2 2x8, 12 ft, T of D 1420, Lr 880, W 880 lb, w of D 8 psf x 4 ft = 32 plf.

    As printed: ft 292.41, 211.49, 130.57 psi; 3.9-1 0.6124, 0.6811, 0.8033; 3.9-2 0.3539, 0.4847,
    0.6393, for D + Lr + W, D + Lr, D. M = 32 x 12^2 / 8 x 12 = 6912 lb-in."""
    wood = lumber.wood("HF", "#2", "2x8")
    b, d = wood.size.b, wood.size.d
    CD, T = np.array([1.6, 1.25, 0.9]), np.array([3180.0, 2300.0, 1420.0])
    Fb_star = adjusted("Fb", wood, DRY, CD)
    le = bending.effective_length("single span", "uniform load", units.inches(12.0), d)
    CL = bending.stability(le, b, d, Fb_star, adjusted("Emin", wood, DRY, CD)).CL
    Fb_adj = adjust.adjusted_bending(Fb_star.value, CL.value, 1.0)
    ft = axial.tension_stress(T, lumber.area(b, d))
    fb = bending.bending_stress(6912.0, lumber.section_modulus(b, d))
    Ft_adj = adjusted("Ft", wood, DRY, CD).value
    both = axial.tension_and_bending(ft, Ft_adj, fb, Fb_star.value)
    less = axial.bending_less_tension(fb, ft, Fb_adj)
    for i, (stress, one, two) in enumerate(
        (("292.41", "0.6124", "0.3539"), ("211.49", "0.6811", "0.4847"),
         ("130.57", "0.8033", "0.6393"))
    ):  # fmt: skip
        assert ft[i] == pytest.approx(float(stress), abs=0.0051)  # 130.575 is printed 130.57
        assert both[i] == printed(one)
        assert less[i] == printed(two)


def test_e1_7_stud_in_the_wind():
    """SP No. 1 2x6, 9 ft, P 1400 lb: fc 170 psi; D + S + W 0.89 with fb 1607, CL 1, FcE 1236."""
    wood = lumber.wood("SYP", "#1", "2x6")
    Emin = adjusted("Emin", wood, DRY, 1.6)
    slender, FcE1 = axial.buckling(axial.KE_PINNED, units.inches(9.0), wood.size.d, Emin)
    assert slender.value == printed("19.6")  # 108 / 5.5
    _, braced = axial.buckling(axial.KE_PINNED, 1e-3, wood.size.b, Emin)  # sheathed: cannot buckle
    Fc_star = adjusted("Fc", wood, DRY, 1.6)
    CP = axial.stability_factor(FcE1, braced, Fc_star)
    fc = axial.compression_stress(1400.0, lumber.area(wood.size.b, wood.size.d))
    assert fc == printed("170")
    Fc_adj = adjust.adjusted_compression(Fc_star.value, CP.value)
    Fb_adj = adjusted("Fb", wood, DRY, 1.6).value
    ratio = axial.compression_and_bending(fc, Fc_adj, 1606.61, Fb_adj, FcE1.value)
    assert ratio == printed("0.89")


def test_e1_7_without_wind():
    """D + S: fc/Fc' 0.17139; D: 0.075045. 0.1 %: the printed Fc' is rounded first."""
    wood = lumber.wood("SYP", "#1", "2x6")
    for CD, P, used in ((1.15, 1400.0, 0.17139), (0.9, 560.0, 0.075045)):
        fc, Fc_adj, _ = stud(wood, units.inches(9.0), CD, P)
        assert fc / Fc_adj == pytest.approx(used, rel=1e-3)


def test_e1_9_tall_stud():
    """SP No. 2 2x8, 19 ft, P 483 lb: fc 44, fb 951 psi; Fb' 1850 as printed, with the SDPWS factor
    1.25 for wall studs, which is not Cr of NDS 4.3.9: 0.59."""
    fc, Fc_adj, FcE1 = stud(lumber.wood("SYP", "#2", "2x8"), units.inches(19.0), 1.6, 483.0)
    assert fc == printed("44")
    assert axial.compression_and_bending(fc, Fc_adj, 951.083, 1850.0, FcE1) == printed("0.59")


def test_e1_5a_stud():
    """SPF No. 2 2x6, 91.5 in, CD 1.15: 8458 lb by buckling."""
    fc, Fc_adj, _ = stud(lumber.wood("SPF", "#2", "2x6"), units.inches(91.5 / 12), 1.15, 1.0)
    assert Fc_adj / fc == printed("8,458")


def stud(wood, height, CD, P):
    """fc, Fc' and FcE1 of a stud that sheathing holds flatwise."""
    Emin, star = adjusted("Emin", wood, DRY, CD), adjusted("Fc", wood, DRY, CD)
    _, FcE1 = axial.buckling(axial.KE_PINNED, height, wood.size.d, Emin)
    _, held = axial.buckling(axial.KE_PINNED, 1e-3, wood.size.b, Emin)
    CP = axial.stability_factor(FcE1, held, star)
    fc = axial.compression_stress(P, lumber.area(wood.size.b, wood.size.d))
    return fc, adjust.adjusted_compression(star.value, CP.value), FcE1.value


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
