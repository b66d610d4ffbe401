"""Adjusted values of connections: NDS 2018 Table 11.3.1, and lateral load with withdrawal, 12.4."""

import numpy as np
import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st

from outrigger.base.errors import InputError
from outrigger.fasteners import adjusted as values
from outrigger.fasteners import spacing as fastener_spacing
from outrigger.fasteners.adjusted import Use
from outrigger.fasteners.trade_names import read_fastener
from outrigger.formula.formula import given
from outrigger.wood.adjusted import Conditions

NAIL, SCREW = read_fastener("10d common"), read_fastener("wood screw #10 x 2 1/2 in")
LAG = read_fastener("lag 3/8 in x 4 in")
DRY = Use(Conditions())
Z, W, WH = given("Z", 100.0, "lb"), given("W", 100.0, "lb/in"), given("WH", 100.0, "lb")


def use(method="ASD", wet=False, temperature="to 100 F", **more):
    return Use(Conditions(method=method, wet=wet, temperature=temperature), **more)


@pytest.mark.parametrize(
    ("fastener", "how", "lateral", "withdrawal", "through"),
    [
        (NAIL, use(), 160, 160, 160),
        (NAIL, use(wet=True), 160 * 0.7, 160 * 0.25, 160 * 0.7),
        (NAIL, use(wet=True, wet_built=True), 160 * 0.7, 160, 160 * 0.7),
        (NAIL, use(wet_built=True), 160 * 0.7, 160 * 0.25, 160),
        (LAG, use(wet_built=True), 160 * 0.4, 160, 160),
        (LAG, use(wet=True), 160 * 0.7, 160 * 0.7, 160 * 0.7),
        (SCREW, use(wet=True), 160 * 0.7, 160 * 0.7, 160 * 0.7),
        (NAIL, use(temperature="100 to 125 F"), 160 * 0.8, 160 * 0.8, 160 * 0.8),
        (SCREW, use(wet=True, temperature="125 to 150 F"), 160 * 0.35, 160 * 0.35, 160 * 0.35),
    ],
)
def test_factors_asd(fastener, how, lateral, withdrawal, through):
    """100 at CD 1.6. Tables 11.3.3 and 11.3.4: nails at 0.25 SEEN, all other factors MEMORY."""
    found = values.adjusted_lateral(Z, fastener, how, 1.6)
    assert found.value == pytest.approx(lateral)
    assert values.adjusted_withdrawal(W, fastener, how, 1.6).value == pytest.approx(withdrawal)
    assert values.adjusted_pull_through(WH, fastener, how, 1.6).value == pytest.approx(through)


def test_factors_lrfd():
    """KF 3.32, phi 0.65 (Tables N1, N2): 100 x 3.32 x 0.65 x 0.8 = 172.64; no CD."""
    for one, step in (
        (values.adjusted_lateral, Z),
        (values.adjusted_withdrawal, W),
        (values.adjusted_pull_through, WH),
    ):
        assert one(step, NAIL, use("LRFD"), 0.8).value == pytest.approx(172.64)
        assert "CD" not in one(step, NAIL, use("LRFD"), 0.8).formula.arguments


def test_wet_and_warm_lrfd():
    """A screw wet in service at 125 to 150 F: CM 0.7 and Ct 0.5 besides: 172.64 x 0.35 = 60.424; a
    nail to 125 F: CM 0.25 in withdrawal, Ct 0.7: 172.64 x 0.175 = 30.212. End grain: Z x 0.67;
    toe-nailed: x 0.83."""
    hot, warm = (use("LRFD", wet=True, temperature=t) for t in ("125 to 150 F", "100 to 125 F"))
    for one, step in (
        (values.adjusted_lateral, Z),
        (values.adjusted_withdrawal, W),
        (values.adjusted_pull_through, WH),
    ):
        assert one(step, SCREW, hot, 0.8).value == pytest.approx(60.424)
    assert values.adjusted_withdrawal(W, NAIL, warm, 0.8).value == pytest.approx(30.212)
    lrfd = use("LRFD")
    for how, factor in (({"end_grain": True}, 0.67), ({"toe_nailed": True}, 0.83)):
        found = values.adjusted_lateral(Z, NAIL, lrfd, 0.8, **how)
        assert found.value == pytest.approx(172.64 * factor)


def test_no_impact_factor_for_connections():
    """CD at most 1.6 (NDS 11.3.2), lambda at most 1.0 (Table N3)."""
    assert values.adjusted_lateral(Z, NAIL, DRY, 2.0).value == pytest.approx(160)
    assert values.adjusted_lateral(Z, NAIL, use("LRFD"), 1.25).value == pytest.approx(215.8)


def test_every_factor_is_a_step_also_when_it_is_1():
    found = values.adjusted_lateral(Z, NAIL, DRY, np.array([[0.9, 1.15, 1.6]]))
    symbols = [step.symbol for step in found.chain()]
    assert symbols == ["Z", "CD", "CM", "Ct", "Cg", "CDelta", "Ceg", "Cdi", "Ctn", "Z_adj"]
    assert found.value.tolist() == [[90.0, pytest.approx(115.0), 160.0]]


def test_only_what_departs_from_the_base_is_unverified():
    """CM and Ct are 1 where the values are for, dry and cool; of any other CM is second-hand (a
    program, no author on file), Ct seen (Kodestruct.Design)."""
    base = values.adjusted_lateral(Z, NAIL, DRY, 1.6)
    assert not any(step.status for step in base.chain())
    other = values.adjusted_lateral(Z, NAIL, use(wet=True, temperature="100 to 125 F"), 1.6)
    found = {s.symbol: s.status for s in other.chain() if s.status}
    assert found == {"CM": "SECOND-HAND", "Ct": "SEEN"}


# ------------------------------------------------------------------ lateral and withdrawal

FORCES = st.floats(0, 500)
CAPACITIES = st.floats(10, 500)


def combined(fastener, Z_adj, Wp, V, T):
    steps = given("Z_adj", Z_adj, "lb"), given("Wp_adj", Wp, "lb")
    R, capacity = values.combined(fastener, *steps, V, T)
    return R.value, capacity.value


def test_combined_by_hand():
    """V 60, T 80: R 100, cos 0.6, sin 0.8; Z' 200, W'p 150.

    Nail: 150 x 200 / (150 x 0.6 + 200 x 0.8) = 30000 / 250 = 120, ratio 60/200 + 80/150 = 0.8333.
    Lag: 30000 / (150 x 0.36 + 200 x 0.64) = 30000 / 182 = 164.835.
    """
    assert combined(NAIL, 200, 150, 60, 80) == pytest.approx((100, 120))
    assert combined(LAG, 200, 150, 60, 80) == pytest.approx((100, 164.835), abs=5e-4)
    assert combined(SCREW, 200, 150, 60, 80)[1] == combined(LAG, 200, 150, 60, 80)[1]
    assert combined(NAIL, 200, 150, -60, 80) == pytest.approx((100, 120))  # either way


@drawn(st.sampled_from([NAIL, LAG]), CAPACITIES, CAPACITIES, st.floats(1, 500))
def test_combined_reduces_to_each_part(fastener, Z_adj, Wp, load):
    """NDS 2018 12.4 (forms MEMORY): Z' at alpha 0, W'p at alpha 90."""
    assert combined(fastener, Z_adj, Wp, load, 0.0)[1] == pytest.approx(Z_adj)
    assert combined(fastener, Z_adj, Wp, 0.0, load)[1] == pytest.approx(Wp)


@drawn(CAPACITIES, CAPACITIES, FORCES, FORCES)
def test_combined_of_nails_is_the_linear_sum_and_of_screws_never_more_severe(Z_adj, Wp, V, T):
    R, capacity = combined(NAIL, Z_adj, Wp, V, T)
    ratio = R / capacity
    assert ratio == pytest.approx(V / Z_adj + T / Wp, abs=1e-12)
    R, capacity = combined(LAG, Z_adj, Wp, V, T)
    assert R / capacity <= ratio + 1e-12


@pytest.mark.parametrize("fastener", [NAIL, LAG, SCREW])
def test_combined_where_values_are_nothing(fastener):
    """A shank that is too short: the forms are 0 / 0. Both values 0: nothing holds; no lateral
    value and a pull alone: W'p; no withdrawal and a side force alone: Z'. Never NaN, which printed
    as a number once and stopped the arithmetic."""
    assert combined(fastener, 0.0, 0.0, 60.0, 80.0) == (100.0, 0.0)
    assert combined(fastener, 0.0, 0.0, 0.0, 80.0) == (80.0, 0.0)
    assert combined(fastener, 0.0, 150.0, 0.0, 80.0) == (80.0, 150.0)
    assert combined(fastener, 0.0, 150.0, 60.0, 80.0) == (100.0, 0.0)
    assert combined(fastener, 200.0, 0.0, 60.0, 0.0) == (60.0, 200.0)


def test_combined_where_withdrawal_counts_for_nothing():
    """W'p 0: nothing when it pulls, Z' when it does not; no load at all is Z' too."""
    V, T = np.array([[50.0, 50.0, 0.0]]), np.array([[0.0, 10.0, 0.0]])
    for fastener in (NAIL, LAG):
        R, capacity = combined(fastener, 100.0, 0.0, V, T)
        assert capacity.tolist() == [[100.0, 0.0, 100.0]]
        assert R[0, 2] == 0


# ------------------------------------------------------------------ distances


def test_geometry_factor_of_a_large_fastener():
    """NDS 2018 12.5.1 (MEMORY): end in tension along the grain 7D full, 3.5D least; D 3/8."""

    def factor(actual):
        load = "tension along the grain"
        return fastener_spacing.geometry_factor(LAG, "end", load, actual).value

    assert factor(7 * 0.375) == 1
    assert factor(9.0) == 1
    assert factor(3.5 * 0.375) == 0.5
    assert factor(3.5 * 0.375 - 0.01) == 0
    assert factor(np.array([[1.0], [2.1]])).tolist() == [[0.0], [pytest.approx(0.8)]]
    row = fastener_spacing.geometry_factor(LAG, "spacing in a row", "along the grain", 1.2)
    assert row.value == pytest.approx(1.2 / 1.5)


def test_distances_of_small_fasteners_are_guidance():
    """Commentary (MEMORY): no CDelta; edge 2.5D, end 10D in steel and 15D in wood."""
    assert fastener_spacing.geometry_factor(NAIL, "end", "any", 0.1).value == 1
    load = "tension along the grain"
    assert fastener_spacing.full_distance(NAIL, "edge", load).value == pytest.approx(0.37)
    assert fastener_spacing.full_distance(NAIL, "end", load).value == pytest.approx(1.48)
    assert fastener_spacing.full_distance(NAIL, "end", load, "wood").value == pytest.approx(2.22)
    with pytest.raises(InputError, match="middle, up: no rule on file for 10d common nail"):
        fastener_spacing.full_distance(NAIL, "middle", "up")


def test_edge_distances_of_large_fasteners():
    """NDS 2018 Table 12.5.1C (SEEN): loaded edge 4D, unloaded 1.5D."""
    load = "across the grain"
    loaded = fastener_spacing.full_distance(LAG, "edge, loaded", load)
    assert loaded.value == 1.5
    assert next(s.status for s in loaded.chain()) == "SEEN"
    assert fastener_spacing.full_distance(LAG, "edge, unloaded", load).value == 0.5625
