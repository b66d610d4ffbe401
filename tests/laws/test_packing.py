"""Stock lengths and cutting patterns: against brute force on small runs, and laws on large ones."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from outrigger.base.errors import InputError
from outrigger.layout.cutting import pack


def brute_force(pieces, stock, kerf, squaring):
    """Least total length: every piece in every open stick or in a new one, longest piece first."""
    order = sorted((x for x, n in pieces for _ in range(n)), reverse=True)
    best = math.inf

    def place(i, sticks, bought):
        nonlocal best
        if bought >= best:
            return
        if i == len(order):
            best = bought
            return
        for room in sorted(set(sticks)):
            if room >= order[i] + kerf - 1e-9:
                rest = list(sticks)
                rest.remove(room)
                place(i + 1, [*rest, room - order[i] - kerf], bought)
        for s in stock:
            room = s - squaring + kerf - order[i] - kerf
            if room >= -1e-9:
                place(i + 1, [*sticks, room], bought + s)

    place(0, [], 0.0)
    return best


def test_by_hand():
    """Four pieces of 46 in, kerf 1/8, squaring 1/2: an 8 ft stick takes two (92.125 + 0.5 in), so
    two sticks, 16 ft in all; a 16 ft stick takes four (184.375 + 0.5 in): the same length."""
    found = pack([(46.0, 4)], [96.0, 192.0], kerf=0.125, squaring=0.5)
    assert found.bought == 192.0 == found.bound
    assert found.waste == pytest.approx(1 - 184 / 192)


def test_a_kerf_decides():
    """Two of 47.6 in: 95.2 + one kerf 1/8 + squaring 1/2 = 95.825 in fits 8 ft; with 3/4 in of
    squaring 96.075 in does not."""
    assert pack([(47.6, 2)], [96.0], kerf=0.125, squaring=0.5).bought == 96.0
    assert pack([(47.6, 2)], [96.0], kerf=0.125, squaring=0.75).bought == 192.0


small = st.lists(
    st.tuples(st.integers(20, 90), st.integers(1, 3)), min_size=1, max_size=3,
    unique_by=lambda one: one[0],
)  # fmt: skip


@given(small, st.sets(st.sampled_from([96.0, 120.0, 144.0, 192.0]), min_size=1))
def test_equals_brute_force_on_small_runs(pieces, stock):
    found = pack(pieces, sorted(stock), kerf=0.125, squaring=0.5)
    least = brute_force(pieces, sorted(stock), 0.125, 0.5)
    assert found.bought == least
    assert found.bound <= least


large = st.lists(
    st.tuples(st.integers(20 * 16, 90 * 16).map(lambda n: n / 16), st.integers(1, 60)),
    min_size=1, max_size=5, unique_by=lambda one: one[0],
)  # fmt: skip


@given(large, st.sets(st.sampled_from([96.0, 120.0, 144.0, 192.0]), min_size=1))
def test_laws_of_a_packing(pieces, stock):
    """Every piece cut, every stick holds its pieces with kerfs and squaring, never under the bound
    and at most one stick over it."""
    found = pack(pieces, sorted(stock), kerf=0.125, squaring=0.5)
    for i, length in enumerate(found.lengths):
        cut = sum(stick.cuts[i] * count for stick, count in found.sticks)
        assert cut == dict(pieces)[length]
    for stick, _ in found.sticks:
        n = sum(stick.cuts)
        assert found.used <= found.bought
        assert sum(c * x for c, x in zip(stick.cuts, found.lengths, strict=True)) <= (
            stick.stock - 0.5 - 0.125 * (n - 1) + 1e-6
        )
    assert found.bound <= found.bought <= found.bound + max(stock)
    total = sum(x * n for x, n in pieces)
    assert found.bound >= total


def test_a_piece_longer_than_the_stock_is_said():
    with pytest.raises(InputError, match=r"layout.stock: the longest, 96 in.*95.6 in"):
        pack([(95.6, 1)], [96.0], kerf=0.125, squaring=0.5)
