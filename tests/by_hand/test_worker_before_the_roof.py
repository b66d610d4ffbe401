"""One worker at the end before the house roof lies on the back span: its own weight stays.

The level case: M at the edge of dead 5,299.51 lb-in, worker 300 x 18.375 = 5,512.5; back span 44 in
with 4 in behind it, self weight 0.18719 lb/in; house dead 1.0000 lb/in.
"""

import pytest
from in_combination import demand_in
from level_case import check, designed


@pytest.mark.parametrize(
    ("method", "dead", "load", "helping"), [("ASD", 1.0, 1.0, 0.6), ("LRFD", 1.2, 1.6, 0.9)]
)
def test_only_the_house_dead_leaves(method, dead, load, helping):
    """T = (dead x 5,299.51 + load x 5,512.5 - helping x 0.18719 x (44^2/2 + 4 x 46))/44.

    ASD: (10,812.0 - 0.6 x 215.64)/44 = 242.79 lb. LRFD: (15,179.4 - 0.9 x 215.64)/44 = 340.57 lb,
    of which the back bears nothing: V inside the back is that pull.
    """
    result = designed(basis__method=method)
    names = [one.text for one in result.main.combinations.all]
    name = next(n for n in names if n.endswith("before the roof is on"))
    expected = (dead * 5299.51 + load * 5512.5 - helping * 0.18719 * (44**2 / 2 + 4 * 46)) / 44
    pull = result.main.uplift["back"][0, names.index(name)]
    assert pull == pytest.approx(expected, abs=0.005)


def test_no_house_dead_stated_is_the_same_with_and_without_the_roof():
    """Then there is nothing to take away."""
    result = designed(house_roof__dead="none")
    back = check(result, "hold_down:back")
    before = demand_in(back, "D + worker, before the roof is on")
    assert before == pytest.approx(demand_in(back, "D + worker, dead on the back span x 0.6"))
