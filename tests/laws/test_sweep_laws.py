"""Laws of the sweeps: what grows never helps, what is bigger or better never harms; and where not.

Whole designs of level cases without wind up, every combination and check. Exceptions, each with
its reason, the commonest shown to be real at the end of this file:

- checks in the back span and bearing at its hold-downs: load over the gap unloads them, they are
  governed by what lies on the house;
- dead load holds down what wind lifts: the edge tie, and the back clip where it lies on the house;
- droop, where a heavy back span lifts the wall line: load on the arm first brings it back;
- slenderness, and by it bending in a back span that is not blocked: a deeper piece rolls sooner;
- bearing at a hold-down between: a stiffer piece shares otherwise;
- on slopes, which these laws leave out, bending both ways: near fb1 = FbE its ratio has no order,
  it fails either way.

Spacing: test_laws.py; snow and span along the rows of a card: test_card.py.
"""

from itertools import pairwise

import numpy as np
import pytest
from draws import few_draws
from hypothesis import given
from hypothesis import strategies as st
from level_case import case, clip

from outrigger.cases.batch import batch_of
from outrigger.loads import gravity
from outrigger.verdict.design import design, designs_of

NONE = ("dead", "live", "snow", "wind_uplift")


def inches(low, high):
    return st.integers(low, high).map(lambda n: f"{n} in")


def psf(low, high):
    return st.integers(low, high).map(lambda n: f"{n} psf")


CALM = st.fixed_dictionaries(
    {
        "gap__width": inches(1, 20),
        "outrigger__spacing": inches(8, 40),
        "outrigger__back_span": inches(24, 90),
        "outrigger__tail": inches(0, 24),
        "outrigger__blocking": st.just(["edge"]),
        "garage_roof__span": st.integers(6, 40).map(lambda n: f"{n} ft"),
        "garage_roof__overhang": inches(0, 20),
        "garage_roof__dead": psf(5, 40),
        "garage_roof__live": psf(10, 40),
        "garage_roof__storage": psf(1, 20),
        "snow__roof": psf(3, 90),
        "wind__uplift": st.just("none"),
        "wind__down": psf(1, 30),
        "house_roof__dead": psf(2, 30),
        "house_roof__live": psf(10, 20),
        "house_roof__snow": psf(3, 60),
        "house_roof__wind_uplift": st.just("none"),
        "basis__method": st.sampled_from(["ASD", "LRFD"]),
        "basis__loads": st.sampled_from(["ASCE 7-16", "ASCE 7-22"]),
        "hold_down": st.sampled_from(
            [
                [clip("back"), clip("edge")],
                [clip("back")],
                [clip("back"), clip("16 in"), clip("edge")],
            ]
        ),
    }
)
GROWS = {
    "gap.width": np.linspace(1, 24, 24),
    "garage_roof.dead": np.linspace(1, 40, 14) / 144,
    "garage_roof.live": np.linspace(1, 40, 14) / 144,
    "garage_roof.storage": np.linspace(1, 40, 14) / 144,
    "garage_roof.span": np.linspace(72, 480, 14),
    "garage_wall.dead": np.linspace(1, 40, 14) / 144,
    "snow.roof": np.linspace(1, 90, 14) / 144,
    "wind.down": np.linspace(1, 40, 14) / 144,
}


def in_back_span(check):
    return check.id.startswith("back_bearing") or check.place == "back span"


def is_droop(check):
    return "deflection" in check.id


@pytest.mark.parametrize("field", GROWS)
@few_draws
@given(CALM)
def test_more_gap_load_or_span_never_lowers_a_ratio(field, changes):
    if field == "gap.width":
        changes = {**changes, "garage_roof__overhang": "none"}  # it covers no more of a longer arm
    result = designs_of(batch_of(case(**changes), {field: GROWS[field]}))
    for check, row in zip(result.checks, result.ratios, strict=True):
        if not in_back_span(check) and not is_droop(check):
            assert (np.diff(row) >= -1e-9).all(), (check.id, check.place, check.link)


@pytest.mark.parametrize("field", [f for f in GROWS if f != "gap.width"])
@few_draws
@given(CALM)
def test_nor_does_it_lessen_droop_where_nothing_lies_on_the_back_span(field, changes):
    """The limit of droop grows with the arm, so the gap is left out."""
    bare = {f"house_roof__{key}": "none" for key in NONE}
    result = designs_of(batch_of(case(**{**changes, **bare}), {field: GROWS[field]}))
    for check, row in zip(result.checks, result.ratios, strict=True):
        if is_droop(check):
            assert (np.diff(row) >= -1e-9).all(), (check.id, check.place, check.link)


@few_draws
@given(CALM)
def test_more_wind_up_never_lowers_a_tie_or_a_clip(changes):
    one = case(**{**changes, "wind__uplift": "5 psf"})
    result = designs_of(batch_of(one, {"wind.uplift": np.linspace(1, 80, 20) / 144}))
    for check, row in zip(result.checks, result.ratios, strict=True):
        if check.id.startswith("hold_down") and not np.isnan(row).any():
            steps = np.diff(np.where(np.isinf(row), 1e9, row))  # no tie: beyond any number
            assert (steps >= -1e-9).all(), (check.id, check.place, check.link)


def by_key(changes):
    result = design(case(**changes))
    largest = np.max(result.worked.ratios, axis=1)
    keys = [(c.id, c.place, c.link.id) for c in result.checks]
    return {key: ratio for key, ratio in zip(keys, largest, strict=True) if np.isfinite(ratio)}


def never_rises(rows, excepted):
    for worse, better in pairwise(rows):
        for key in worse.keys() & better.keys():
            if not excepted(*key):
                assert better[key] <= worse[key] + 1e-9, key


@pytest.fixture
def same_weight(monkeypatch):
    """The weight grows with size and G: held at one value, so that the loads are left as they
    were."""
    monkeypatch.setattr(gravity, "self_weight", lambda wood, area: 0.18719)


def test_a_deeper_piece_never_raises_a_ratio(same_weight):
    @few_draws
    @given(CALM)
    def holds(changes):
        rows = [by_key({**changes, "outrigger__size": f"2x{n}"}) for n in (4, 6, 8, 10, 12)]
        never_rises(
            rows,
            lambda id, place, link: (
                link == "slenderness RB"
                or (id, place) == ("bending", "back span")
                or id == "back_bearing"
            ),
        )

    holds()


def test_a_better_grade_never_raises_a_ratio(same_weight):
    @few_draws
    @given(CALM)
    def holds(changes):
        grades = ("No. 3", "No. 2", "No. 1", "Select Structural")
        rows = [by_key({**changes, "outrigger__grade": grade}) for grade in grades]
        never_rises(rows, lambda *key: False)

    holds()


# The exceptions, each in one case: were one gone, its line above would have to go too.


def test_exception_dead_load_holds_the_edge_down():
    """Roof dead from 5 to 15 psf under 40 psf of uplift: the tie has less to hold."""
    one = case(wind__uplift="40 psf")
    found = designs_of(batch_of(one, {"garage_roof.dead": np.array([5.0, 15.0]) / 144}))
    (tie,) = (i for i, c in enumerate(found.checks) if c.id == "hold_down:edge")
    assert found.ratios[tie, 1] < found.ratios[tie, 0]


def test_exception_dead_load_on_the_house_holds_the_back_down():
    found = designs_of(batch_of(case(), {"house_roof.dead": np.array([2.0, 20.0]) / 144}))
    (back,) = (i for i, c in enumerate(found.checks) if c.id == "hold_down:back")
    assert found.ratios[back, 1] < found.ratios[back, 0]


def test_exception_load_over_the_gap_unloads_the_back_span():
    """A heavy house roof on a long back span, blocked at the edge: it sags less when the arm is
    loaded."""
    one = case(
        house_roof__dead="30 psf", house_roof__snow="60 psf", outrigger__back_span="90 in",
        outrigger__spacing="24 in", garage_roof__span="6 ft",
    )  # fmt: skip
    found = designs_of(batch_of(one, {"garage_wall.dead": np.array([1.0, 40.0]) / 144}))
    at = [i for i, c in enumerate(found.checks) if c.place == "back span" and c.id == "bending"]
    assert found.ratios[at, 1] < found.ratios[at, 0]


def test_exception_a_deeper_piece_is_slenderer(same_weight):
    """RB = sqrt(le d / b^2) grows with d."""
    shallow, deep = (by_key({"outrigger__size": size}) for size in ("2x6", "2x12"))
    key = ("bending", "edge", "slenderness RB")
    assert deep[key] > shallow[key]
