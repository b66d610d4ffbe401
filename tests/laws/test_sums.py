"""Sums over the load parts, and the largest under each CD: against Python's own arithmetic."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from level_case import designed

from outrigger.actions.sums import Set
from outrigger.formula.check import Check


def set_of(columns, factors):
    """Combinations of given factors, (combinations, parts), under CD number `columns`."""
    parts = tuple(f"part {i}" for i in range(len(factors[0])))
    count = 1 + max(columns)
    times = np.linspace(0.9, 1.6, count)[None, :]
    return Set("ASD", (), parts, np.array(factors), times, np.array(columns, dtype=np.intp))


def plain(columns):
    """Combinations of one part each."""
    return set_of(columns, np.eye(len(columns)).tolist())


def by_largest(forces, columns=(0, 0, 1, 1), capacity=(200.0, 320.0)):
    over = plain(columns)
    force = over.push(np.array([forces]))
    demand, most = np.maximum(force.largest, 0.0), np.array([capacity])
    return Check("shear", "edge", "statics", demand, most, "lb", (), columns=over.columns,
                 combinations=over.all, grows_with=force.of)  # fmt: skip


@pytest.mark.parametrize(
    ("forces", "named"),
    [
        ([100.0, 120.0, 110.0, 90.0], 1),  # 120/200 = 0.60 over 110/320 = 0.34
        ([100.0, 120.0, 250.0, 300.0], 3),  # 300/320 = 0.94 over 120/200
        ([100.0, 100.0, 160.0, 160.0], 0),  # 0.50 all: the first
        ([99.0, 100.0, 160.0, 160.0], 1),  # 0.50 thrice: the first of these
        ([-5.0, -1.0, -9.0, -2.0], 0),  # nothing presses: the first
    ],
)
def test_the_combination_of_the_largest_force_is_named(forces, named):
    """By hand; capacities 200 lb under the first CD, 320 lb under the second."""
    check = by_largest(forces)
    ratios = [max(f, 0.0) / (200.0 if i < 2 else 320.0) for i, f in enumerate(forces)]
    assert check.governing() == named
    assert check.worst()[0].tolist() == [max(ratios)]
    assert check.demand_at(0, named) == max(forces[named], 0.0)


amounts = st.lists(st.floats(-1000, 1000), min_size=3, max_size=3)
rows = st.lists(st.sampled_from([0.0, 0.6, 0.75, 1.0, -1.0]), min_size=3, max_size=3)


@given(st.lists(st.tuples(st.integers(0, 2), rows), min_size=2, max_size=12),
       st.lists(amounts, min_size=1, max_size=4))  # fmt: skip
def test_sums_and_largest_against_plain_loops(combinations, cases):
    """The same sums and maxima by Python loops, twins and zero parts among them: to the last bit,
    since parts are added in their order."""
    present = sorted({column for column, _ in combinations})
    columns = [present.index(column) for column, _ in combinations]
    factors = [row for _, row in combinations]
    over, table = set_of(columns, factors), np.array(cases)

    def total(row, case):
        found = 0.0
        for factor, amount in zip(row, case, strict=True):
            found += factor * amount
        return found

    sums = [[total(row, case) for row in factors] for case in cases]
    assert over.combine(table).tolist() == sums
    for by_size, force in (
        (False, over.push(np.array(sums))),
        (False, over.push_of(table)),
        (True, over.size(np.array(sums))),
        (True, over.size_of(table)),
    ):
        sized = [[abs(x) if by_size else x for x in row] for row in sums]
        largest = [
            [max(x for x, c in zip(row, columns, strict=True) if c == column)
             for column in range(len(present))]
            for row in sized
        ]  # fmt: skip
        assert force.largest.tolist() == largest
        assert [force.of(i).tolist() for i in range(len(cases))] == sized


def test_what_lies_on_the_back_span_gives_the_arm_nothing():
    """Statics: a load between the supports of a level member makes no shear beyond them and no
    moment over the outer one: exactly none, so that combinations alike on the arm are one sum."""
    model = designed(house_roof__snow="30 psf", house_roof__live="20 psf").model
    whole = model.whole
    back = [i for i, part in enumerate(model.parts) if part.endswith("_back")]
    assert [model.parts[i] for i in back] == ["D_back", "Lr_back", "S_back", "W_back"]
    for table in (whole.V_arm, whole.V_wall, whole.M[-1]):
        assert not np.any(table[:, back])
    assert np.all(whole.R[0][:, back] != 0)
