"""IRC joist and rafter spans, beyond what `outrigger prove` compares: ties, criteria, formulas.

International Residential Code, Tables R502.3.1(1)(2), R802.4.1(2)(3)(5)(7), R802.5.1(2); the model
and the assumptions of the tables stand in proof/spans.
"""

from collections import Counter

import numpy as np
import pytest
from published import column, rows

from outrigger.checks.house_edge_sag import deflection_of_row
from outrigger.loads.row_of_loads import moment_of_row
from outrigger.proof.members_alike import bending_ratio, deflection_ratio, largest
from outrigger.proof.spans import LONGEST_IRC, Spans

ROWS = rows("irc_spans")
PRINTED = column(ROWS, "span")

# By hand: under 20 psf at L/240 these spans are L = 30 d exactly (L^3 / d^3 = 384 E b / (12 x 5 x
# 240 w) = 27,000 for E 1.5e6 at 16 in and 1.8e6 at 19.2 in): 217.5 and 277.5 in, a half inch that
# may round either way. The table itself does both: 18-1 and 18-2 for the same 217.5.
TIES = {
    ("R802.5.1(2)", "Spruce-Pine-Fir", "SS", "16", "2x8"): 217.5,
    ("R802.5.1(2)", "Spruce-Pine-Fir", "SS", "16", "2x10"): 277.5,
    ("R802.5.1(2)", "Southern Pine", "SS", "19.2", "2x8"): 217.5,
    ("R802.5.1(2)", "Southern Pine", "SS", "19.2", "2x10"): 277.5,
}
KEYS = [
    (
        row["at"].removeprefix("Table "),
        *(row[k] for k in ("species", "grade", "spacing_in", "size")),
    )
    for row in ROWS
]


@pytest.fixture(scope="module")
def spans():
    return Spans(ROWS).longest()


def test_the_formulas_of_a_member_of_the_house_give_the_same_spans(spans):
    """The same tables by what holds a house rafter or a header: `moment_of_row` and
    `deflection_of_row` without an outrigger on the span."""
    model = Spans(ROWS)
    dead, live = model.load.T

    def ratios(span):
        M = moment_of_row(0.0, 1.0, span, 0.0, span, 0.0, dead + live)
        sag = deflection_of_row(0.0, 0.0, live, span, model.EI)
        return np.maximum(
            bending_ratio(M, model.S, model.Fb_star), deflection_ratio(sag, span, model.limit)
        )

    found = largest(ratios, np.full(len(PRINTED), LONGEST_IRC))
    assert found == pytest.approx(spans, rel=1e-9)


def test_half_inch_ties_by_name(spans):
    """IRC Table R802.5.1(2), ceilings 20 + 10 psf: the four rows that are an exact half inch. All
    others are under a half off."""
    found = {key: i for i, key in enumerate(KEYS) if key in TIES}
    assert set(found) == set(TIES)
    for key, i in found.items():
        assert spans[i] == pytest.approx(TIES[key], rel=1e-12)  # worked by hand above
        assert abs(PRINTED[i] - TIES[key]) == 0.5
    others = [i for i, key in enumerate(KEYS) if key not in TIES]
    assert (np.abs(spans - PRINTED)[others] < 0.5).all()
    assert len(others) == 314


def test_no_cell_stands_twice_or_is_lost():
    """By table, and in all."""
    assert Counter(key[0] for key in KEYS) == {
        "R502.3.1(1)": 25,
        "R502.3.1(2)": 79,
        "R802.4.1(2)": 5,
        "R802.4.1(3)": 34,
        "R802.4.1(5)": 43,
        "R802.4.1(7)": 35,
        "R802.5.1(2)": 97,
    }
    cells = {(*key, row["dead_psf"]) for key, row in zip(KEYS, ROWS, strict=True)}
    assert len(cells) == len(ROWS) == 318


def test_both_criteria_are_at_work(spans):
    """Law: at the span found the larger ratio is 1; each criterion governs many of the rows."""
    bending, deflection = Spans(ROWS).ratios(spans)
    assert np.maximum(bending, deflection) == pytest.approx(1.0, rel=1e-9)
    assert (bending > deflection).sum() > 100
    assert (deflection > bending).sum() > 50


def test_one_row_alone_equals_the_batch(spans):
    """Law: a batch of one gives the same bits."""
    for i in (0, 104, 317):
        assert Spans(ROWS[i : i + 1]).longest()[0] == spans[i]
