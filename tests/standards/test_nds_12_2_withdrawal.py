"""Withdrawal: NDS 2018 12.2: what counts of a length, laws."""

import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st

from outrigger.fasteners import withdrawal
from outrigger.fasteners.trade_names import read_fastener


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


def test_which_counted_lengths_are_recalled():
    """Threads of wood screws and rings of nails; all of a smooth nail, and a lag's table, not."""
    for text, recalled in (
        ("16d common", False),
        ("lag 1/4 in x 3 in", False),
        ("wood screw #10 x 3 in", True),
        ("ring shank nail 0.131 x 2 1/2 in", True),
    ):
        found = withdrawal.counted_length(read_fastener(text), 2.0)
        assert (found.status == "MEMORY") == recalled


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
