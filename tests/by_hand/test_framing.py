"""Clips on framing or not. The rule of half a rafter is common practice, no source."""

import numpy as np

from outrigger.marks.framing import framing_centres, lands, off_centre


def test_sixteen_over_twenty_four_meets_every_48_in():
    """Common practice, no source: 16 and 24 in have 48 in in common."""
    rafters = framing_centres(spacing=24.0, offset=0.0, at=None, reach=288.0)
    marks = 16.0 * np.arange(19)
    on = lands(off_centre(marks, rafters))
    assert list(marks[on]) == [0, 48, 96, 144, 192, 240, 288]
    assert set(np.abs(off_centre(marks[~on], rafters))) == {8.0}


def test_nineteen_point_two_over_sixteen_meets_every_96_in():
    """Common practice, no source: 5 x 19.2 = 6 x 16 = 96."""
    rafters = framing_centres(spacing=16.0, offset=0.0, at=None, reach=288.0)
    off = off_centre(19.2 * np.arange(16), rafters)
    assert [i for i, on in enumerate(lands(off)) if on] == [0, 5, 10, 15]
    np.testing.assert_allclose(off[:6], [0, 3.2, 6.4, -6.4, -3.2, 0], atol=1e-9)


def test_half_a_rafter_decides():
    """On the arris, 3/4 in off, there is no wood beside it; 1/1000 less, and there is."""
    off = off_centre([15.251, 15.25, 16.749, 16.75], np.array([0.0, 16.0, 32.0]))
    assert list(lands(off)) == [True, False, True, False]


def test_framing_as_measured_is_taken_as_it_is():
    centres = framing_centres(spacing=16.0, offset=1.0, at=[33.0, 0.75, 16.5], reach=100.0)
    assert list(centres) == [0.75, 16.5, 33.0]
    assert framing_centres(spacing=None, offset=0.0, at=None, reach=100.0) is None


def test_no_framing_is_invented_before_the_first():
    """First rafter 40 in from the datum at 16 in: the next is at 56 in, none before."""
    rafters = framing_centres(spacing=16.0, offset=40.0, at=None, reach=50.0)
    assert list(rafters) == [40.0, 56.0]
