"""Cantilevered joists of IRC Table R502.3.3(1): its blank cells, and a law.

The cells are recalled, none was read; the model, its fitted constants and the cells that are not
blank stand in proof/cantilevers and are held by `outrigger prove`.

Table R502.3.3(2), balconies, is left out: two of its cells were read and no model is known that
gives both, so that a check wide enough to pass would hold nothing.
"""

import numpy as np

from outrigger.base import units
from outrigger.proof.cantilevers import LEAST_PRINTED_IN, Cantilevers

ALL = Cantilevers()
ROWS, BLANK = ALL.rows, ALL.blank


def test_cells_that_are_compared():
    assert (~BLANK).sum() == 19


def test_blank_cells():
    """IRC Table R502.3.3(1): a cell is blank where the model gives less than the least cantilever
    the table prints (here 16 in), or where the member reaches W/8 and so do lighter ones."""
    arms = ALL.longest()[BLANK]
    short, full = arms < LEAST_PRINTED_IN, arms == (ALL.width / 8)[BLANK]
    assert (short | full).all()
    assert (short.sum(), full.sum()) == (9, 5)
    assert (arms[short] < 14).all()  # none is near the least that is printed


def test_more_snow_never_allows_more():
    """Law: at one size, spacing and width more snow never allows a longer cantilever."""
    arms = ALL.longest(np.full(len(ROWS), units.inches(24.0) / 8))
    load = (ALL.tip_dead + ALL.tip_snow) / ALL.spacing
    for kind in {(row["size"], row["spacing_in"]) for row in ROWS}:
        own = np.array([(row["size"], row["spacing_in"]) == kind for row in ROWS])
        same_width = ALL.width[own][:, None] == ALL.width[own]
        heavier = (load[own][:, None] > load[own]) & same_width
        longer = arms[own][:, None] > arms[own] + 1e-9
        assert not (heavier & longer).any()
