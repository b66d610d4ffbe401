"""Where an answer turns: exact to the last float; a whole sweep judged as its cases are."""

from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
from draws import few_draws
from hypothesis import given
from hypothesis import strategies as st
from level_case import case, clip

from outrigger.cases.batch import batch_of
from outrigger.cases.read import opened, read_case
from outrigger.cli.common import SAMPLE_FILE
from outrigger.studies import changes, search
from outrigger.verdict.design import design, designs_of

EXAMPLES = Path(__file__).parents[2] / "examples"


def below(limit):
    return lambda values: values <= limit


def turn(answer, holds, fails):
    """One search of an answer that has no ratio."""
    judge = lambda _, v: (answer(v), np.full(len(v), np.nan))  # noqa: E731
    return search.turns(judge, np.array([holds]), np.array([fails]))[0]


@pytest.mark.parametrize(
    ("holds", "fails", "limit"), [(0.0, 10.0, np.pi), (-3.0, 5.0, 1 / 3), (0.0, 1e6, 2.0**-3)]
)
def test_a_turn_lies_between_two_neighbouring_floats(holds, fails, limit):
    found = turn(below(limit), holds, fails)
    assert found.last == limit
    assert found.first == np.nextafter(limit, np.inf)


def test_a_turn_going_down():
    """Holds from 2.5 up: the last that holds, going down, is 2.5 itself."""
    found = turn(lambda v: v >= 2.5, 9.0, 0.0)
    assert (found.last, found.first) == (2.5, np.nextafter(2.5, 0.0))


def test_a_turn_at_zero_ends():
    """Nothing over zero holds: a trillionth of the stretch is near enough."""
    found = turn(below(0.0), 0.0, 8.0)
    assert found.last == 0.0
    assert 0 < found.first <= 8e-12


STEPS = np.arange(2.0, 62.0, 6.0)  # each of 96 sixteenths


@given(st.integers(0, 2**32 - 1), st.integers(1, 40))
def test_the_least_of_each_is_the_first_step_that_holds_refined(seed, cases):
    """Of a table of yes and no for every sixteenth: the answer says yes, the sixteenth before it
    no, no step before it says yes, and NaN is said only where no step does."""
    draw = np.random.default_rng(seed)
    table = np.sort(draw.random((cases, 4)) * 60, axis=1)  # yes from the first to the second ...

    def answer(which, numbers):
        return np.sum(table[which] <= numbers[:, None], axis=1) % 2 == 1

    found = search.least_of_each(answer, cases, STEPS, 1 / 16)
    for i, least in enumerate(found):
        at = answer(np.full(len(STEPS), i), STEPS)
        assert np.isnan(least) == (not at.any())
        if at.any():
            first = int(np.argmax(at))
            here = np.array([i])
            assert answer(here, np.array([least]))[0]
            assert least == STEPS[first] or STEPS[first - 1] < least < STEPS[first]
            assert first == 0 or not answer(here, np.array([least - 1 / 16]))[0]


HELD = [[clip("back"), clip("edge")], [clip("back")], [clip("back"), clip("16 in"), clip("edge")]]


@few_draws
@given(
    st.lists(st.integers(16, 400), min_size=1, max_size=6),
    st.sampled_from(HELD),
    st.sampled_from(["wall", "rafter tail", "panel only"]),
    st.sampled_from(["trusses", "untied rafters"]),
)
def test_a_sweep_judges_each_case_as_the_case_alone(gaps, held, support, form):
    """Works, what governs, its ratio: to the last bit."""
    one = case(
        hold_down=held, house_roof__edge_support=support, garage_roof__form=form, snow__roof="9 psf"
    )
    values = np.array(gaps) / 16
    together = designs_of(batch_of(one, {"gap.width": values}))
    for i, gap in enumerate(values):
        alone = design(one.model_copy(update={"gap": one.gap.model_copy(update={"width": gap})}))
        row = alone.closest
        assert together.works[i] == alone.works == all(r.status != "fail" for r in alone.rows)
        led = together.closest(i)
        assert led.ratio == row.ratio
        named, asked = led.check, row.check
        assert (named.id, named.place, named.link) == (asked.id, asked.place, asked.link)


def test_an_analogy_over_one_is_open_but_does_not_work():
    """Splitting at side fasteners low on the member: no failure, a ratio over 1, so it does not
    work."""
    side = {"rated_across_grain": False, "side_height": "1/2 in"}
    one = case(hold_down=[clip("back"), clip("edge", **side)], wind__uplift="60 psf")
    result = design(one)
    split = [row for row in result.rows if row.check.id == "split:edge"]
    assert split[0].status == "open" and split[0].ratio > 1
    assert not result.works


def test_a_sweep_that_reaches_no_check_has_an_answer_for_each_case():
    """No hold-down takes a listed value sideways where nothing acts along or across."""
    answer = search.works(case(), "hold_down[back].rated_lateral")
    found = answer(np.array([100.0, 200.0, 300.0]))
    assert len(found) == 3
    assert len(set(found)) == 1


@pytest.mark.parametrize(
    ("name", "more"),
    [("uplift_without_edge_tie", "gap=10in"), ("notched_over_the_wall", "gap=14in")],
)
def test_two_changes_left_out_untried_would_not_do(name, more, monkeypatch):
    """The same cures as with every two of them run whole."""
    file = opened(EXAMPLES / f"{name}.toml")

    def read(settings):
        return file.case([more, *settings])[0]

    result = design(read([]))
    assert result.verdict == "fail"
    found = [(way.settings, way.verdict) for way in changes.ways(result, read)]
    assert found
    monkeypatch.setattr(changes, "HOPE", np.inf)
    assert found == [(way.settings, way.verdict) for way in changes.ways(result, read)]


def test_what_is_worked_at_once_stays_in_bounds_of_memory():
    """A row of marks in the 1,787 combinations of a roof across the slope by LRFD: each array over
    both is no larger than the bound, but for the first few that tell how many combinations there
    are, and no case is left out."""
    laid, _ = read_case(SAMPLE_FILE, ["layout.run=24 ft", "spacing=8in"])
    gaps, at_once = np.linspace(4, 12, 300), []

    def counted(swept):
        at_once.append(swept.count)
        combinations = SimpleNamespace(all=range(1787))
        return SimpleNamespace(main=SimpleNamespace(combinations=combinations))

    ends = [0]
    for part, _, owner in search._chunks(laid, {"gap.width": gaps}, counted, marked=True):
        assert part.start == ends[-1]
        assert set(owner) == set(range(part.stop - part.start))
        ends.append(part.stop)
    assert ends[-1] == len(gaps)
    assert at_once[0] <= search.FIRST
    assert len(at_once) > 10
    assert all(count * 1787 <= search.CHUNK for count in at_once[1:])
