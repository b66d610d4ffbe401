"""Marks and what each carries. Trade arithmetic is common practice, no source; the rest is statics
by hand or by another method."""

from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import printed

from outrigger.base.errors import InputError
from outrigger.cases.read import read_case
from outrigger.marks import row as marks
from outrigger.marks.of_case import row_of
from outrigger.report.cautions import not_checked
from outrigger.statics import beam as statics
from outrigger.verdict.dangers import lifted_by_plate
from outrigger.verdict.design import design

F = Fraction

RUN = 288.0  # 24 ft


def row(run=RUN, spacing=16.0, **more):
    return marks.pieces(run=run, spacing=spacing, thickness=1.5, **more)


def near(found):
    return [p.near for p in found]


def test_sixteen_inch_centres_of_two_by():
    """Common practice, no source: 15 1/4, 31 1/4, 47 1/4 in, X beyond; panel edges on centres."""
    found = row()
    assert near(found)[:4] == [0, F(61, 4), F(125, 4), F(189, 4)]
    assert [p.centre for p in found[1:4]] == [16, 32, 48]


@pytest.mark.parametrize(("spacing", "count"), [(12.0, 25), (16.0, 19), (19.2, 16), (24.0, 13)])
def test_counts_for_24_ft(spacing, count):
    """Common practice, no source: 24 ft over the spacing, and one more."""
    assert len(row(spacing=spacing)) == count
    assert len(row(spacing=spacing, start="flush")) == count


def test_nineteen_point_two_stays_exact_over_24_ft():
    """5 spaces are 96 in exactly, 10 are 192 in; no rounding adds up."""
    found = row(spacing=19.2)
    assert found[1].near == F("18.45")
    assert (found[5].centre, found[10].centre) == (96, 192)
    assert found[-1].far == 288


def test_flush_start_measures_edge_to_edge():
    assert near(row(start="flush"))[:4] == [0, 16, 32, 48]


def test_a_first_mark_carries_the_spacing_on():
    """7 1/4, 23 1/4 in, ...; the last on the spacing: 7.25 + 16 x 17 = 279.25."""
    found = row(first_mark=7.25, last="on spacing")
    assert near(found)[:2] == [F(29, 4), F(93, 4)]
    assert found[-1].near == F("279.25")


def test_an_odd_run_ends_with_a_short_bay():
    """23'-5 3/8" = 281.375 in: the last regular mark at 271 1/4, the end piece at 279 7/8."""
    found = row(run=281.375)
    assert near(found)[-2:] == [F("271.25"), F("279.875")]
    assert found[-1].near - found[-2].far == F("7.125")
    assert near(row(run=281.375, last="on spacing"))[-1] == F("271.25")


def test_an_opening_takes_out_what_reaches_into_it():
    """108 to 144 in at 16 in: centres 112, 128 go; 144 reaches in by 3/4 in and goes too."""
    found = row(openings=[(108.0, 144.0)])
    centres = [p.centre for p in found]
    assert F(96) in centres and F(160) in centres
    assert not {F(112), F(128), F(144)} & set(centres)


def test_neighbours_of_an_opening_are_doubled_away_from_it():
    """Near edges 95 1/4 and 159 1/4 in: their partners at 93 3/4 and 160 3/4 in."""
    found = row(openings=[(108.0, 144.0)], double=True)
    assert [p.near for p in found if p.pair] == [F("93.75"), F("95.25"), F("159.25"), F("160.75")]
    held = marks.supports(found)
    assert len(held.at) == len(found) - 2
    assert 95.25 in held.at  # the middle of the pair
    assert list(held.part[[p.pair for p in found]]) == [0.5] * 4


def test_an_opening_edge_at_a_piece_leaves_it():
    """15 1/4 to 16 3/4 in: an opening from 16 3/4 in leaves it, from 16 5/8 in takes it."""
    assert F("15.25") in near(row(openings=[(16.75, 20.0)]))
    assert F("15.25") not in near(row(openings=[(16.625, 20.0)]))


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"run": 2.0}, "too short for two pieces"),
        ({"openings": [(0.0, 288.0)]}, "fewer than two marks"),
        ({"first_mark": 287.0, "last": "on spacing"}, "fewer than two marks"),
    ],
)
def test_too_little_is_said(given, said):
    with pytest.raises(InputError, match=said):
        row(**given)


lengths = st.integers(60 * 16, 720 * 16).map(lambda n: n / 16)
spacings = st.sampled_from([12.0, 16.0, 19.2, 24.0, 13.7])


@given(
    lengths,
    spacings,
    st.sampled_from(["half space", "flush"]),
    st.sampled_from(["flush", "on spacing"]),
    st.floats(0, 0.8),
    st.booleans(),
)
def test_laws_of_a_row(run, spacing, start, last, open_at, double):
    """Marks within the run, apart from one another, tributaries and shares sum to the run."""
    begin = round(open_at * run, 2)
    found = marks.pieces(
        run=run, spacing=spacing, thickness=1.5, start=start, last=last,
        openings=[(begin, begin + 20)], double=double,
    )  # fmt: skip
    assert found[0].near >= 0 and found[-1].far <= F(str(run))
    assert all(b.near >= a.far for a, b in pairwise(found))
    assert not any(p.near < F(str(begin + 20)) and p.far > F(str(begin)) for p in found)
    held = marks.supports(found)
    by_halves = held.each(marks.tributaries(held.at, run))
    assert sum(by_halves) == pytest.approx(run, rel=1e-12)
    places, carried = marks.trusses(run, 24.0, 7.0)
    assert sum(carried) == pytest.approx(run, rel=1e-12)
    for parts in (marks.simple_parts, marks.continuous_parts):
        taken = parts(held.at, places)
        assert taken.sum(axis=0) == pytest.approx(1, abs=1e-9)
    turned = marks.continuous_parts(held.at, places)  # moments balance too
    assert held.at @ turned == pytest.approx(places, abs=1e-6)


AT = np.array([5.0, 21.0, 37.0, 45.0, 80.0])
PLACES = np.array([0.0, 3.0, 5.0, 13.0, 21.0, 30.0, 44.0, 60.0, 79.0, 80.0, 90.0])


def test_continuous_parts_equal_the_force_method():
    """Another method: the beam solved by forces, one force at a time, shear switched off."""
    beam = statics.Beam(AT, 1e6, 0.0, 90.0)
    solved = statics.solve(
        beam, [statics.Point(x, np.eye(len(PLACES))[[i]]) for i, x in enumerate(PLACES)]
    )
    assert marks.continuous_parts(AT, PLACES) == pytest.approx(solved.reactions[0].T, abs=1e-9)


def test_two_supports_are_a_lever():
    """Overhang of a simple span: 10 in beyond one end of 40 in gives 1.25 and -0.25."""
    found = marks.continuous_parts(np.array([0.0, 40.0]), np.array([50.0, -10.0, 10.0]))
    assert found == pytest.approx(np.array([[-0.25, 1.25, 0.75], [1.25, -0.25, 0.25]]))


def test_even_load_on_three_equal_spans():
    """Handbook: continuous beam of three equal spans, even load: reactions 0.4, 1.1, 1.1, 0.4 w l;
    by halves 0.5, 1, 1, 0.5."""
    found = marks.even_shares(np.array([0.0, 10.0, 20.0, 30.0]), 30.0)
    assert found == pytest.approx(np.array([[5.0, 10.0, 10.0, 5.0], [4.0, 11.0, 11.0, 4.0]]))


def test_even_load_equals_the_force_method():
    beam = statics.Beam(AT, 1e6, 0.0, 90.0)
    solved = statics.solve(beam, [statics.Uniform(0.0, 90.0, 1.0)]).reactions[0, 0]
    by_halves = [13.0, 16.0, 12.0, 21.5, 27.5]  # by hand: half of each bay, the ends whole
    assert marks.even_shares(AT, 90.0) == pytest.approx(np.stack([by_halves, solved]))


def test_a_truss_over_a_mark_is_its_own():
    """Simple plate by hand: marks at 16 in centres, trusses at 24 in from the datum. One truss over
    the mark at 48 in carries 24 in of roof; none within 16 in: the mark takes 24 in. The mark at
    64 in has the truss at 72 in half way to the next: 12 in."""
    at = 16.0 * np.arange(19)
    places, carried = marks.trusses(RUN, 24.0, 0.0)
    simple = marks.simple_parts(at, places) @ carried
    assert (simple[3], simple[4], simple[0]) == (24.0, 12.0, 12.0)
    assert sum(simple) == pytest.approx(RUN)


def test_worst_alignment_is_at_least_a_whole_truss_inside():
    """24 in trusses over 16 in marks: one and a half times the even share, wherever they stand."""
    at = 16.0 * np.arange(19)
    assert np.all(marks.truss_shares(at, RUN, 24.0, None).max(axis=(0, 1))[2:-2] >= 24.0 - 1e-9)


@pytest.mark.parametrize("offset", [0.0, 5.0, 12.0, 23.0])
def test_worst_alignment_is_no_less_than_any(offset):
    at = np.array([0.75, 16.0, 32.0, 64.0, 96.0, 119.25])
    (most, least), known = (
        np.moveaxis(marks.truss_shares(at, 120.0, 24.0, one), 1, 0) for one in (None, offset)
    )
    assert known[0] == pytest.approx(known[1])  # of one alignment the most is the least
    assert np.all(most >= known - 1e-9) and np.all(least <= known + 1e-9)


def test_a_point_load_between_two_marks():
    """Lever by hand: a force a quarter of the bay from one mark is 3/4 its own at the least; one
    over a mark is all its own."""
    at = 16.0 * np.arange(5)
    found = marks.point_parts(at, np.array([20.0, 32.0])).max(axis=0)
    assert found[1, 0] >= 0.75 and found[2, 0] >= 0.25
    assert found[2, 1] == pytest.approx(1.0)


def test_a_second_piece_at_marks_by_their_number():
    """24 ft at 16 in, 1 1/2 in thick: mark 2 at 16 - 3/4 = 15 1/4 in, its second piece at 16 3/4;
    mark 19 ends the run at 286 1/2, so its second stands before it, at 285 in."""
    found = row(double_at=(2, 19))
    assert [float(p.near) for p in found if p.pair] == [15.25, 16.75, 285.0, 286.5]
    assert len(found) == 21


@pytest.mark.parametrize("number", [0, 20, 99])
def test_a_second_piece_at_no_mark_is_refused(number):
    with pytest.raises(InputError, match=f"no mark {number}; the marks are 1 to 19"):
        row(double_at=(number,))


def test_a_force_beyond_either_end_of_three_supports():
    """Three-moment equation, bays of 10 in, the force c = 2 in beyond an end: M there = -P c, in
    the middle P c / 4; the end takes 1 + 5 c / (4 x 10) = 1.25 P, the middle -3 c / (2 x 10) =
    -0.30 P, the far end c / (4 x 10) = 0.05 P."""
    found = marks.continuous_parts(np.array([0.0, 10.0, 20.0]), np.array([-2.0, 22.0])).T
    assert found[0] == pytest.approx([1.25, -0.30, 0.05], rel=1e-12)
    assert found[1] == pytest.approx([0.05, -0.30, 1.25], rel=1e-12)


def test_two_marks_are_a_layout():
    """A run of 10 in at 16 in: a piece at each end; 2 in hold no second."""
    found = marks.pieces(run=10.0, spacing=16.0, thickness=1.5, start="half space", last="flush")
    assert [float(one.centre) for one in found] == [0.75, 9.25]
    with pytest.raises(InputError, match="run"):
        marks.pieces(run=2.0, spacing=16.0, thickness=1.5, start="half space", last="flush")


def test_an_end_mark_that_a_plate_which_runs_on_lifts():
    """Bays of 16 in, the last 3.5 in, 0.75 in beyond it, under 1 lb/in. Far off M = -16^2/12 =
    -21.333; each support nearer the end has 0.26795 (2 - sqrt 3) of the next one's difference, with
    the other sign. Three moments at the last but one, M: 16 (-21.333 - 0.26795 (M + 21.333)) +
    2 (16 + 3.5) M - 3.5 x 0.28125 = -(16^3 + 3.5^3)/4, so M = -17.314. The end takes
    3.5/2 + 0.75 + (-17.314 + 0.28125)/3.5 = -2.366 lb: pulled up. Told, not computed."""
    path = Path(__file__).parents[2] / "examples" / "passes.toml"
    short, _ = read_case(path, ["layout.run=245 in", "layout.start=flush"])
    assert float(row_of(short).plates[-1].carried[-1, 0]) == printed("-2.366")
    assert lifted_by_plate(design(short)) == [17]
    said = [one.short for one in not_checked(design(short))]
    assert any(text.startswith("the pull of the garage plate at mark 17: ") for text in said)
    whole, _ = read_case(path, ["layout.run=21 ft"])
    assert lifted_by_plate(design(whole)) == []
