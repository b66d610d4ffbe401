"""Sums over the load parts, and the combination that governs: against Python's own arithmetic."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from level_case import designed

from outrigger.actions.sums import Combinations
from outrigger.formula.check import Check
from outrigger.wood.shear import IN_SHEAR


@pytest.mark.parametrize(
    ("forces", "named"),
    [
        ([100.0, 120.0, 110.0, 90.0], 1),  # 120/200 = 0.60 over 110/320 = 0.34
        ([100.0, 120.0, 250.0, 300.0], 3),  # 300/320 = 0.94 over 120/200
        ([100.0, 100.0, 160.0, 160.0], 0),  # 0.50 all: the first
        ([99.0, 100.0, 160.0, 160.0], 1),  # 0.50 thrice: the first of these
        ([0.0, 0.0, 0.0, 0.0], 0),  # nothing presses: the first
    ],
)
def test_the_combination_of_the_largest_ratio_governs(forces, named):
    """By hand; capacities 200 lb in the first two combinations, 320 lb in the others."""
    capacity = np.array([[200.0, 200.0, 320.0, 320.0]])
    check = Check(
        link=IN_SHEAR, place="edge", clause="statics", demand=np.array([forces]),
        capacity=capacity, unit="lb", steps=(),
    )  # fmt: skip
    assert check.governing() == named
    assert check.worst()[0].tolist() == [forces[named] / capacity[0, named]]
    assert check.demand_at(0, named) == forces[named]


amounts = st.lists(st.floats(-1000, 1000), min_size=3, max_size=3)
rows = st.lists(st.sampled_from([0.0, 0.6, 0.75, 1.0, -1.0]), min_size=3, max_size=3)


@given(st.lists(rows, min_size=1, max_size=12), st.lists(amounts, min_size=1, max_size=4))
def test_sums_against_plain_loops(factors, cases):
    """The same sums by Python loops, twins and zero parts among them: to the last bit, since parts
    are added in their order."""
    times = np.ones((1, len(factors)))
    over = Combinations("ASD", (), ("one", "two", "three"), np.array(factors), times)

    def total(row, case):
        found = 0.0
        for factor, amount in zip(row, case, strict=True):
            found += factor * amount
        return found

    sums = [[total(row, case) for row in factors] for case in cases]
    assert over.combine(np.array(cases)).tolist() == sums


def test_what_lies_on_the_back_span_gives_the_arm_nothing():
    """Statics: a load between the supports of a level member makes no shear beyond them and no
    moment over the outer one: exactly none, no round-off."""
    model = designed(house_roof__snow="30 psf", house_roof__live="20 psf").model
    whole = model.whole
    back = [i for i, part in enumerate(model.parts) if part.endswith("_back")]
    assert [model.parts[i] for i in back] == ["D_back", "Lr_back", "S_back", "W_back"]
    for table in (whole.V_arm, whole.V_wall, whole.M[-1]):
        assert not np.any(table[:, back])
    assert np.all(whole.R[0][:, back] != 0)
