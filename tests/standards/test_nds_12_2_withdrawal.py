"""Withdrawal: NDS 2018 12.2, Tables 12.2A to 12.2E, and AWC solved examples."""

import pytest
from fastener_rows import fastener_of, named
from hypothesis import given as drawn
from hypothesis import strategies as st
from published import printed, read

from outrigger.fasteners import withdrawal
from outrigger.fasteners.trade_names import read_fastener

ROWS = read("withdrawal")


@pytest.mark.parametrize(
    "row", named([r for r in ROWS if not r["length_in"]], "table", "fastener", "G", "D_in")
)
def test_withdrawal_table(row):
    """Per inch, to 1 lb. 12.2A SEEN; B and C recalled but for one cell each, quoted."""
    W = withdrawal.reference_withdrawal(fastener_of(row), float(row["G"]))
    assert W.value == printed(row["published"])


@pytest.mark.parametrize("row", named([r for r in ROWS if r["length_in"]], "table", "G", "D_in"))
def test_solved_example_of_one_fastener(row):
    """AWC Structural Wood Design Solved Examples (second-hand): W times the counted length."""
    W = withdrawal.reference_withdrawal(fastener_of(row), float(row["G"]))
    total = W.value * float(row["length_in"])
    assert total == printed(row["published"])


def test_nail_example_from_its_name():
    """E2.1a (SEEN, second-hand): 8d nail, 2.5 in, through 0.105 in steel into Spruce-Pine-Fir,
    G 0.42: p = 2.395; 49.5 lb."""
    nail = read_fastener("8d common nail")
    pt = withdrawal.counted_length(nail, nail.length - 0.105)
    W = withdrawal.reference_withdrawal(nail, 0.42)
    assert pt.value == pytest.approx(2.395)
    assert W.value * pt.value == printed("49.5")


def test_lag_example_from_its_name():
    """E2.3 (SEEN, second-hand): 1/2 x 4 lag, 1.5 in side member, Southern Pine: thread 2 1/2 less
    the tip 5/16 is 2.1875 in; 955 lb."""
    lag = read_fastener("lag 1/2 in x 4 in")
    pt = withdrawal.counted_length(lag, lag.length - 1.5)
    assert pt.value == pytest.approx(2.1875)
    assert withdrawal.reference_withdrawal(lag, 0.55).value * pt.value == printed("955")


def test_counted_length_by_kind():
    """By hand: what counts of 2 in in the wood."""
    counts = {
        "16d common": 2.0,  # a smooth nail: all of it
        "wood screw #10 x 2 1/2 in": 2 * 2.5 / 3,  # thread 2L/3 with its tip
        "wood screw #10 x 3 in": 2.0,  # thread 2 in
        "lag 1/4 in x 3 in": 2 - 5 / 32,  # thread 3/2 + 1/2 less the tip
        "ring shank nail 0.131 x 2 1/2 in": 1.5,  # ring shank only
        "ring shank nail 0.148 x 3 in": 2.0,  # in no list: as a smooth nail
    }
    for text, length in counts.items():
        assert withdrawal.counted_length(read_fastener(text), 2.0).value == pytest.approx(length)


def test_ring_and_stainless_by_hand():
    """MEMORY: ring 1800 x 0.25 x 0.131 = 58.95; stainless 465 x 0.353553 x 0.131 = 21.537;
    ring in stainless steel is counted as smooth."""
    for text, W in (
        ("ring shank nail 0.131 x 2 1/2 in", 58.95),
        ("stainless nail 0.131 x 2 1/2 in", 21.537),
        ("stainless ring shank nail 0.131 x 2 1/2 in", 21.537),
    ):
        step = withdrawal.reference_withdrawal(read_fastener(text), 0.5)
        assert step.value == pytest.approx(W, abs=5e-4)
        assert step.status == "MEMORY"


def test_under_the_least_penetration_nothing_counts():
    """A No. 10 screw in a 23/32 panel: 6D is 1.14 in."""
    screw = read_fastener("wood screw #10 x 2 1/2 in")
    assert withdrawal.counted_length(screw, 0.71875).value == 0
    assert withdrawal.counted_length(screw, 1.14).value == pytest.approx(1.14)


@drawn(
    st.sampled_from(["16d common", "wood screw #10 x 2 1/2 in", "lag 1/4 in x 3 in"]),
    st.floats(0.35, 0.6),
    st.floats(0.2, 3.0),
)
def test_withdrawal_never_rises_with_a_lower_G_or_a_shorter_penetration(text, G, p):
    fastener = read_fastener(text)

    def total(G, p):
        W = withdrawal.reference_withdrawal(fastener, G).value
        return W * withdrawal.counted_length(fastener, p).value

    assert total(G - 0.02, p) <= total(G, p)
    assert total(G, p - 0.05) <= total(G, p)
    assert total(G, p) >= 0
