"""A check worked down to its governing combinations says the same to the last bit."""

from pathlib import Path

import numpy as np
import pytest

from outrigger.cases.batch import batch_of
from outrigger.cases.read import read_case
from outrigger.formula.check import Check
from outrigger.formula.kind import Kind, Link
from outrigger.formula.settled import settled
from outrigger.verdict.design import Designs, designs_of
from outrigger.verdict.worked import worked_of

EXAMPLES = Path(__file__).parents[2] / "examples"
LINK = Link(Kind("made_up", "made up"), "", "")


def check_of(demand, capacity, rule=""):
    """A check of plain numbers."""
    return Check(
        link=LINK, place="edge", clause="", demand=demand, capacity=capacity, unit="lb",
        steps=(), rule=rule,
    )  # fmt: skip


@pytest.mark.parametrize("rule", ["", "open", "analogy", "fail"])
@pytest.mark.parametrize(
    ("demand", "capacity"),
    [
        (np.array([[1.0, 3.0, 3.0], [0.0, 0.0, 0.0]]), 2.0),
        (np.array([[1.0, 3.0, 2.0], [5.0, 1.0, 2.0]]), np.array([[2.0, 4.0, 0.0]])),
        (np.array([[1.0, 3.0, 2.0], [5.0, 1.0, 9.0]]), np.array([[0.0], [np.nan]])),
        (np.array([[2.0], [8.0]]), np.array([[4.0, 2.0, 1.0]])),
        (np.array([[0.0, 7.0], [0.0, 0.0]]), None),
        (3.0, 4.0),
        (0.0, 0.0),
    ],
)
def test_every_kind_of_check(demand, capacity, rule):
    """Ties, no capacity, one of zero and one that is no number, columns and plain numbers."""
    whole, least = check_of(demand, capacity, rule), settled(check_of(demand, capacity, rule))
    for case in range(len(np.atleast_2d(demand))):
        at = whole.governing(case)
        assert least.governing(case) == at
        assert np.array_equal(least.demand_at(case, at), whole.demand_at(case, at))
        if capacity is not None:
            found, wanted = least.capacity_at(case, at), whole.capacity_at(case, at)
            assert np.array_equal(found, wanted, equal_nan=True)
        assert least.status(case) == whole.status(case)
    if capacity is not None:
        assert np.array_equal(least.largest_ratio, whole.largest_ratio, equal_nan=True)
    else:
        with pytest.raises(ValueError, match="no capacity"):
            assert least.largest_ratio


@pytest.mark.parametrize("name", ["passes", "row_of_clips", "slope_across_the_rake"])
def test_designs_of_many(name):
    """Every row, ratio and status, of designs that keep their arrays and of those that do not."""
    case, _ = read_case(EXAMPLES / f"{name}.toml")
    batch = batch_of(case, {"gap.width": [3.0, 6.0, 12.0, 18.0]})
    whole, least = designs_of(batch), Designs(worked_of(batch, counted=True))
    assert np.array_equal(least.ratios, whole.ratios, equal_nan=True)
    assert np.array_equal(least.worked.levels, whole.worked.levels)
    assert np.array_equal(least.leading, whole.leading)
    assert np.array_equal(least.works, whole.works)
    for i in range(4):
        for one, other in zip(least.rows(i), whole.rows(i), strict=True):
            assert repr(one) == repr(other)
            assert (one.demand, one.capacity, one.column) == (
                other.demand, other.capacity, other.column,
            )  # fmt: skip
        assert repr(least.closest(i)) == repr(whole.closest(i))
    assert not any(np.size(check.demand) > 4 for check in least.checks)
