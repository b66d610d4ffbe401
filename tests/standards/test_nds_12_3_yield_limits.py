"""Lateral values: NDS 2018 12.3.1, Tables 12J to 12R, and the modes no table shows.

Conventions of the tables: Fe to 50 psi, root diameter for lags and screws, lm = p at 8D (lag) or
10D, one value rounded to 10 lb (lag) or 1 lb. Published cells are governed by modes IIIs and IV; Is
stands in a regression; Im, II and IIIm are held by the equilibrium of their stress blocks in
test_tr12_gap.py and by hand here.
"""

import math

import numpy as np
import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st
from published import rows

from outrigger.base.errors import InputError, RangeError
from outrigger.base.tables import load
from outrigger.fasteners import dowel_bearing, lateral
from outrigger.fasteners import yield_modes as yield_limits
from outrigger.fasteners.dowel_bearing import Layer
from outrigger.fasteners.trade_names import Fastener, read_fastener
from outrigger.formula.formula import given
from outrigger.proof.connections import fastener_of, joint_of, nearest_of


def test_the_mode_that_governs():
    """Of the DERIVED rows, which name it."""
    told = [row for row in rows("lateral") if row["mode"]]
    assert len(told) == 355
    for row in told:
        assert yield_limits.single_shear(*joint_of(row, nearest_of(row))).mode == row["mode"], row


def test_published_rows_cover_two_modes_only():
    """So that nobody takes the tables for more than they hold."""
    seen = {
        yield_limits.single_shear(*joint_of(row)).mode
        for row in rows("lateral")
        if row["status"] in ("SEEN", "SECOND-HAND")
    }
    assert seen == {"IIIs", "IV"}


def test_bearing_at_45_degrees_by_hand():
    """NDS 2018 12.3.4: sin2 = cos2 = 1/2, so Fe = 2 Fpar Fperp / (Fpar + Fperp).

    G 0.5, D 1/4: Fpar = 5600; Fperp = 6100 x 0.5^1.45 / 0.5 = 12200 x 0.366021 = 4465.46;
    Fe = 2 x 5600 x 4465.46 / 10065.46 = 4968.8.
    """
    Fe = dowel_bearing.in_wood(read_fastener("lag 1/4 in x 3 in"), 0.5, 45.0)
    assert Fe.value == pytest.approx(4968.8, abs=0.05)


def test_reduction_terms():
    """NDS 2018 Table 12.3.1B and its footnote 1, by hand at each boundary."""
    rows = {"D_in": "0.3", "Dr_in": "0.3", "fastener": "nail", "Fyb_psi": "45000"}
    large = yield_limits.reduction_terms(fastener_of(rows), 90.0)
    assert {m: s.value for m, s in large.items()} == pytest.approx(
        {"Im": 5, "Is": 5, "II": 4.5, "IIIm": 4, "IIIs": 4, "IV": 4}
    )
    for D, KD in ((0.1, 2.2), (0.17, 2.2), (0.171, 2.21), (0.2, 2.5), (0.249, 2.99)):
        small = yield_limits.reduction_terms(fastener_of(rows | {"D_in": D, "Dr_in": D}), 90.0)
        assert small["Im"].value == pytest.approx(KD)  # no effect of the angle
    lag = yield_limits.reduction_terms(read_fastener("lag 1/4 in x 3 in"), 90.0)
    assert lag["IV"].value == pytest.approx((10 * 0.173 + 0.5) * 1.25)
    with pytest.raises(RangeError, match="hold to 1 in"):
        yield_limits.reduction_terms(fastener_of(rows | {"D_in": "1.1"}), 0.0)


def plain(D, Fyb):
    return Fastener("dowel", "nail", D, D, 100.0, 0.3, Fyb)


def layer(Fe, length):
    return Layer(given("Fe", Fe, "psi"), length)


def test_equal_members_in_mode_II_by_hand():
    """Re = Rt = 1: k1 = (sqrt(1 + 2 x 3 + 1) - 2) / 2 = sqrt(2) - 1, the classic value."""
    found = yield_limits.single_shear(plain(0.1, 1e9), layer(4000, 0.5), layer(4000, 0.5))
    assert found.mode == "II"
    assert found.Z.value == pytest.approx((2**0.5 - 1) * 0.1 * 0.5 * 4000 / 2.2)


def test_a_mirrored_joint_swaps_III():
    """Main and side exchanged: IIIm becomes IIIs, everything else stays."""
    one = yield_limits.single_shear(plain(0.12, 9e4), layer(4000, 1.2), layer(6000, 0.4)).modes
    two = yield_limits.single_shear(plain(0.12, 9e4), layer(6000, 0.4), layer(4000, 1.2)).modes
    swap = {"Im": "Is", "Is": "Im", "II": "II", "IIIm": "IIIs", "IIIs": "IIIm", "IV": "IV"}
    for mode, other in swap.items():
        assert one[mode].value == pytest.approx(two[other].value, rel=1e-12)


def test_modes_of_arrays_equal_single_ones():
    ts = np.array([[0.036], [0.3], [1.5]])
    joint = (plain(0.148, 90_000), layer(4637.0, 1.48))
    batch = yield_limits.single_shear(*joint, layer(4637.0, ts))
    for row, t in enumerate(ts[:, 0]):
        one = yield_limits.single_shear(*joint, layer(4637.0, t))
        assert batch.Z.value[row, 0] == pytest.approx(one.Z.value, rel=1e-14)
        assert batch.mode[row, 0] == one.mode


# ------------------------------------------------------------------ penetration

STEEL = dowel_bearing.read_steel("16 ga")
SIDE = Layer(STEEL.step("Fe"), STEEL.step("ts"))


def value(text, p, G=0.5, gap=None, theta=0.0):
    fastener = read_fastener(text)
    Fem = dowel_bearing.in_wood(fastener, G, theta)
    return lateral.reference_lateral(fastener, Fem, SIDE, p, theta=theta, gap=gap)


def test_penetration_geometry():
    """By hand: 1 1/2 - 0.060 - 7/16 = 1.0025; through a 3/4 in member only 3/4 counts."""
    assert dowel_bearing.penetration(1.5, 0.060, 0.4375, 3.5) == pytest.approx(1.0025)
    assert dowel_bearing.penetration(3.0, 0.060, 0.0, 0.75) == 0.75


def test_short_nail_takes_the_smaller_of_two_routes_and_says_which():
    """10d x 1 1/2 through 16 ga into G 0.5: p 1.44 = 9.73 D. Mode IIIs does not see lm, so the
    direct value stays and the proportion, 1.44 / 1.48 = 0.97297, governs."""
    found = value("10d x 1 1/2 in", 1.44)
    assert found.route == lateral.PRORATED
    assert found.Z.value == pytest.approx(found.direct.Z.value * 1.44 / 1.48, rel=1e-12)
    assert value("10d x 1 1/2 in", 1.48).route == lateral.DIRECT
    lm = dowel_bearing.bearing_length(read_fastener("10d x 1 1/2 in"), np.array([1.44, 1.48]))
    assert lm.value == pytest.approx([1.44 - 0.148, 1.48])  # half of the tip of 2D is D


def test_lag_counts_without_its_tip():
    """1/4 lag, tip 5/32: 8D = 2 in is reached at p = 2.15625; 4D = 1 in at 1.15625."""
    lag = read_fastener("lag 1/4 in x 3 in")
    assert dowel_bearing.proration(lag, 2.15625).value == 1
    assert dowel_bearing.proration(lag, 1.65625).value == pytest.approx(1.5 / 2)
    assert dowel_bearing.deep_enough(lag, 1.15625)
    assert not dowel_bearing.deep_enough(lag, 1.15)


@pytest.mark.parametrize(
    ("text", "least"),
    [("8d common", 6 * 0.131), ("wood screw #10 x 3 in", 6 * 0.19), ("lag 3/8 in x 4 in", 1.71875)],
)
def test_under_the_least_penetration_nothing_counts(text, least):
    """NDS 2018 12.1.4.6, 12.1.5.6, 12.1.6.4: lag 4D without its tip, screw and nail 6D."""
    at, under = value(text, least), value(text, least - 0.001)
    assert at.Z.value > 0
    assert (under.Z.value, under.route) == (0.0, lateral.NOTHING)
    fastener = read_fastener(text)
    assert dowel_bearing.why_nothing(fastener, least) == ""
    assert "nothing counts" in dowel_bearing.why_nothing(fastener, least - 0.001)
    assert value(text, 0.05).Z.value == 0.0  # no bearing length at all
    assert value(text, -0.4).Z.value == 0.0  # the side member is thicker than the fastener is long


def test_why_nothing_in_words():
    words = dowel_bearing.why_nothing(read_fastener("wood screw #10 x 2 1/2 in"), 0.4375)
    assert words == (
        "wood screw #10, 0.19 in x 2 1/2 in: 0.44 in in the wood, under 6D = 1.14 in "
        "(NDS 2018 12.1.5.6): nothing counts"
    )


def test_routes_of_arrays():
    found = value("10d x 1 1/2 in", np.array([[0.5], [1.2], [1.48]]))
    assert found.route[:, 0].tolist() == [lateral.NOTHING, lateral.PRORATED, lateral.DIRECT]
    assert found.Z.value[:, 0] == pytest.approx(
        [value("10d x 1 1/2 in", p).Z.value for p in (0.5, 1.2, 1.48)], rel=1e-14
    )


NAMES = st.sampled_from(
    ["10d x 1 1/2 in", "16d common", "wood screw #10 x 2 1/2 in", "lag 1/4 in x 3 in", "8d box"]
)


@drawn(NAMES, st.floats(0.35, 0.6), st.floats(0.8, 3.0), st.floats(0, 1.0), st.floats(0, 90))
def test_capacity_never_rises_as_things_get_worse(text, G, p, gap, theta):
    """A wider gap, a lower G, a shorter penetration."""
    Z = value(text, p, G, gap, theta).Z.value
    slack = 1 + 1e-12
    assert value(text, p, G, gap + 0.1, theta).Z.value <= Z * slack
    assert value(text, p, G - 0.03, gap, theta).Z.value <= Z * slack
    assert value(text, p - 0.05, G, gap, theta).Z.value <= Z * slack


@drawn(st.floats(0.02, 2.0), st.floats(1.0, 3.0), st.floats(0.35, 0.6))
def test_no_jump_where_the_mode_changes(ts, lm, G):
    """Z is continuous in the bearing lengths: a millionth changes it by no more than that."""
    nail = read_fastener("16d common")
    Fe = dowel_bearing.in_wood(nail, G)
    one = yield_limits.single_shear(nail, Layer(Fe, lm), Layer(Fe, ts)).Z.value
    two = yield_limits.single_shear(nail, Layer(Fe, lm), Layer(Fe, ts * (1 + 1e-6))).Z.value
    assert two == pytest.approx(one, rel=2e-6)


# ------------------------------------------------------------------ side members


def test_steel_and_panels():
    """NDS 2018 Tables 12K and 12P (thickness, Fe, second-hand); Table 12.3.3B (G)."""
    assert (STEEL.t, STEEL.Fe) == (0.060, 61850)
    plate = dowel_bearing.read_steel("1/4 in")
    assert (plate.t, plate.Fe) == (0.25, 87000)
    assert dowel_bearing.read_steel("10 gage").t == 0.134
    with pytest.raises(InputError, match=r"no G of this panel on file\. It has: OSB"):
        dowel_bearing.panel_gravity("gypsum")
    with pytest.raises(InputError, match=r"no such gage on file\. It has: 20 ga, 18 ga"):
        dowel_bearing.read_steel("15 ga")
    with pytest.raises(InputError, match="more than zero"):
        dowel_bearing.read_steel("0 in")


def test_sheet_steel_follows_its_tensile_strength():
    """NDS 2018, Tables 12B, 12K and 12P, footnote 2 (a quotation): 61,850 psi for ASTM A653 Grade
    33 and 87,000 psi for A36. By hand: 2.2 x 45,000 / 1.6 = 61,875 under 1/4 in, printed to the
    50 psi below; 2.4 x 58,000 / 1.6 = 87,000 from it on. The two Fu are those of the grades."""
    thin, thick = load("clip_steel").rows
    assert [float(row["Fu_psi"]) for row in (thin, thick)] == [45000, 58000]
    assert math.floor(2.2 * float(thin["Fu_psi"]) / 1.6 / 50) * 50 == float(thin["Fe_psi"])
    assert 2.4 * float(thick["Fu_psi"]) / 1.6 == pytest.approx(float(thick["Fe_psi"]), rel=1e-12)


def test_plates_thicker_than_a_quarter_are_bars():
    """NDS Table 12B, footnote: ASTM A 36 plate, Fe 87,000 psi, from 1/4 in on; sheet under it,
    61,850."""
    found = [
        dowel_bearing.read_steel(t).Fe for t in ("10 ga", "7 ga", "1/4 in", "5/16 in", "1/2 in")
    ]
    assert found == [61850, 61850, 87000, 87000, 87000]
