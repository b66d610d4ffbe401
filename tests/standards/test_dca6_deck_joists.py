"""Deck joists of AWC DCA 6, Table 2: which of its assumptions the spans need.

The spans and overhangs themselves are held by `outrigger prove`; the model stands in proof/spans.
"""

import numpy as np
import pytest
from published import rows

from outrigger.proof.spans import LONGEST_DECK, Deck

ROWS = rows("dca6_deck_joists")
GROUP = [row for row in ROWS if row["species"].startswith("Douglas")]


def test_both_limits_of_the_overhang_are_at_work():
    deck = Deck(ROWS)
    capped = deck.overhangs() == deck.printed / 4
    assert 5 < capped.sum() < 17  # the quarter span and the tip load
    assert (deck.spans() == LONGEST_DECK).sum() == 1  # printed 18-0: the cap
    assert len(ROWS) == 22


def test_incising_is_needed():
    """Ci is 0.80 for Fb and 0.95 for E: without it every span but the one at the cap is more than
    the rounding of the table over what is printed."""
    spans, printed = Deck(GROUP).spans(), Deck(GROUP).printed
    assert spans == pytest.approx(printed, abs=0.5, rel=0)
    longer = Deck(GROUP, incised=False).spans()
    capped = printed == LONGEST_DECK
    assert capped.sum() == 1
    assert (longer > printed + 0.5)[~capped].all()
    assert longer[capped] == LONGEST_DECK


def test_wet_service_is_needed():
    """CM is 0.9 for E, and for Fb 0.85 where Fb CF is over 1,150 psi: that is Douglas Fir-Larch in
    2x6, 900 x 1.3 = 1,170. Dry, the spans that these decide are over what is printed: 2x6 at 12 in
    and 2x8 at 12 in, by deflection, and 2x6 at 24 in, by bending. The others stay."""
    wet, printed = Deck(GROUP).spans(), Deck(GROUP).printed
    dry = Deck(GROUP, wet=False).spans()
    longer = dry > printed + 0.5
    assert np.flatnonzero(longer).tolist() == [0, 1, 2]
    assert dry[~longer] == pytest.approx(wet[~longer], rel=1e-12)
