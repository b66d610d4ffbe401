"""A pair of outriggers side by side: one support of the house, one face each for clips. By hand.

The case of test_level_design_by_hand.py on a run of 26 in at 24 in: marks 1 and 2 are a pair, its
middle 1.5 in from the datum, the other piece's 25.25 in. Two supports share by the lever alone,
whatever the plate: a point load at the pair's middle is all on the pair, half on each piece. From
D = 1000 to 3000 lb there, each piece has 1000 lb more on its wall line; arm 12.375 in, back span
44 in: 1000 x (1 + 12.375/44) = 1281.25 lb more at the house wall, 281.25 lb more pull at the back.
All else is the same and drops out.
"""

import csv

import numpy as np
import pytest
from level_case import case, clip, designed
from published import printed
from test_house_edge import PLATE

from outrigger.actions.places import BACK, EDGE, WALL_LINE
from outrigger.cases.batch import batch_of
from outrigger.cases.paths import with_numbers
from outrigger.checks.tipping import to_blocks
from outrigger.layout.layout import layout
from outrigger.marks.of_case import clip_offsets, pieces_of, wanted_of
from outrigger.report.data.check import reactions_csv
from outrigger.studies.gaps import study as gap_study
from outrigger.verdict.clip_forces import most_pulls
from outrigger.verdict.design import design, designs_of
from outrigger.verdict.envelopes import ASD, PUSH, envelopes

RUN = {"outrigger__spacing": "24 in", "layout": {"run": "26 in", "double_at": [1]}}
LIFTS = "0.6D + 0.6W up"


def pair(load=1000, case_="D", **changes):
    """The pair under a point load at its middle."""
    point = [{"at": "1.5 in", "from": "girder", case_: f"{load} lb"}]
    return designed(**RUN | {"garage_roof__point": point} | changes)


def demand(found, id, link, place, combination="D + S", mark=1):
    """The demand of a row at one mark."""
    over = found.worked.over_marks
    (check,) = [c for c in over.checks if (c.id, c.link.id, c.place) == (id, link, place)]
    column = [c.text for c in check.combinations].index(combination)
    return check.demand_at(over.numbers.index(mark), column)


def more(id, link, place, combination="D + S", case_="D", **changes):
    """How much more a row has under 3000 lb than under 1000."""
    small, large = (pair(load, case_, **changes) for load in (1000, 3000))
    at = (id, link, place, combination)
    return demand(large, *at) - demand(small, *at)


def test_both_of_a_pair_stand_on_the_member_below():
    """2562.5 lb at mid-span of 16 in: 10,250 lb-in; two flat 2x6 have 4.125 in3: 2484.8 psi. Half
    a bay apart the two would bring 1281.25 x 4 and no more: 1242.4 psi."""
    assert more("house_edge", "bending", EDGE, house_edge=PLATE) == printed("2484.8")


def test_a_stud_takes_what_both_bring():
    """The next support 13.375 in off, by halves of its bays: two places astride the stud, each
    0.41797 of a span off: 2 x (1 - 1.5 x 0.17470 + 0.5 x 0.07302) = 1.54892 of 2562.5 lb: 3969.1
    lb on 5.5 x 1.5 in: 481.1 psi."""
    assert more("house_edge", "plate on the stud", EDGE, house_edge=PLATE) == printed("481.1")


@pytest.mark.parametrize("parallel", [False, True])
def test_both_pull_on_the_house_rafter(parallel):
    """562.5 lb more pull at the back, at mid-span of a 2x8 over 12 in, where one place of the row
    stands at a time: 562.5 x 12/4 = 1687.5 lb-in; 13.141 in3: 128.4 psi. Under a parallel rafter
    the push at the edge presses and does not pull."""
    rafter = {
        "kind": "rafter", "size": "2x8", "species": "Spruce-Pine-Fir", "grade": "No. 2",
        "spacing": "22 in", "span": "12 in", "bearing": "3 1/2 in",
    }  # fmt: skip
    changes = {"house_rafter": rafter, "house_roof__framing_parallel": parallel}
    found = more("house_rafter", "bending, lifted", BACK, **changes)
    assert found == printed("128.4")


def test_the_house_wall_is_told_of_both():
    """2 x 1281.25 = 2562.5 lb more on one place, over 13.375 in of wall for each piece's half."""
    small, large = (
        next(one for one in envelopes(pair(load), (ASD,)) if (one.at, one.way) == (EDGE, PUSH))
        for load in (1000, 3000)
    )
    assert (small.pieces, large.pieces) == (2, 2)
    assert large.force - small.force == pytest.approx(2562.5)
    assert large.per_foot - small.per_foot == pytest.approx(2562.5 / 13.375 * 12)


@pytest.mark.parametrize(("count", "each"), [(1, 281.25), (2, 281.25), (3, 281.25), (4, 140.625)])
def test_clips_stand_on_the_outer_face_alone(count, each):
    """Half of the clips would stand on the inner face, which the other piece touches: of two one
    is left, of four two. One alone stands on the outer face."""
    found = more("hold_down:back", "rated clip", BACK, hold_down__0__count=count)
    assert found == pytest.approx(each)


def test_what_is_said_of_a_clip_is_of_those_that_fit():
    """The pull on each: 281.25 lb more, as the row has it; of the single piece nothing more."""
    small, large = (most_pulls(pair(load, hold_down__0__rated_uplift="2000 lb"))
                    for load in (8000, 10000))  # fmt: skip
    assert large[BACK] - small[BACK] == pytest.approx(281.25)


def test_a_listed_tie_of_the_garage_wall_stands_on_the_outer_face_too():
    """0.6 x 1000 lb more lift on each piece: on one of two ties all of it; lags down through the
    plate keep both, 300 lb each."""
    at = ("wall_tie", "uplift", WALL_LINE, LIFTS, "W_up")
    listed = {"wall_tie__rated_uplift": "9000 lb"}
    assert more(*at, **listed) == pytest.approx(600.0)
    down = {"wall_tie": {"count": 2, "fastener": "lag 3/8 in x 8 in"}}
    assert more(*at, **down) == pytest.approx(300.0)


@pytest.mark.parametrize("over", [{"kind": "strap"}, {"side_height": "over the top"}])
def test_a_strap_on_a_piece_of_a_pair_stays_open(over):
    """It has no foot between the two; on the single piece, mark 3, it holds as listed."""
    holds = [clip("back", uplift="3000 lb", **over), clip("edge", uplift="3000 lb")]
    found = pair(hold_down=holds)
    over_marks = found.worked.over_marks
    (row,) = [c for c in over_marks.checks if (c.id, c.link.id) == ("hold_down:back", "rated clip")]
    assert [row.status(over_marks.numbers.index(mark)) for mark in (1, 3)] == ["open", "pass"]
    assert "no foot between the two" in row.why
    assert found.verdict != "pass"


def test_the_material_list_counts_what_fits():
    """One single piece with two clips, two of a pair with one each: four at each place."""
    listed = {"layout": RUN["layout"] | {"datum": "left end"}}
    items = [item for item in layout(case(**RUN | listed)).items if "clips" in item.what]
    assert [item.count for item in items] == [4, 4]
    assert all("1 on the outer face of each piece of a pair" in item.how for item in items)


def test_the_outer_foot_of_each_piece_is_looked_for():
    """Mark 2 at 24 in doubled: pieces about 24 and 25.5 in, fasteners 1.5 in from their middles:
    outer ones at 22.5 and 27 in, over rafters there; the inner ones would be 3 in off."""
    one = case(
        outrigger__spacing="24 in",
        layout={"run": "8 ft", "double_at": [2]},
        house_roof__framing_parallel=True,
        house_roof__framing_at=["22.5 in", "27 in"],
        hold_down__0__foot="1 1/2 in",
    )
    wanted = wanted_of(one)
    off = clip_offsets(one, pieces_of(wanted), wanted.run)[BACK]
    assert list(off[1:3]) == [0.0, 0.0]


def test_blocks_take_what_tips_both():
    """20 plf along the wall; by the lever the pair has 26 x (25.25 - 13) / 23.75 = 13.4105 in of
    it, 22.351 lb: (22.351 + 22.351 x 1.28125) x 7.25 / 2 = 184.83 lb-in to the blocks at the edge,
    0.6 of it under 0.6W."""
    found = designed(**RUN, garage_wall__along="20 plf").worked.over_marks
    (row,) = [one for one in to_blocks(found.member) if one.place == EDGE]
    most = float(np.max(np.atleast_2d(row.demand)[found.numbers.index(1)]))
    assert most == pytest.approx(0.6 * 184.83, rel=1e-4)


def test_a_pair_of_clips_is_none_on_one_face():
    """`tipping = "clips"`: both would stand on the outer face, and no couple holds the piece."""
    found = designed(**RUN, garage_wall__along="20 plf", outrigger__tipping="clips")
    over = found.worked.over_marks
    rows = [c for c in over.checks if c.id == "roll_over"]
    assert {c.status(over.numbers.index(1)) for c in rows} <= {"open", "fail"}


def test_one_stud_may_stand_over_both():
    """Not said that each outrigger has a stud: all of 2000 lb more on one 2x6, 8.25 in2, 242.4
    psi; said: one over each piece, 121.2 psi."""
    studs = {"size": "2x6", "species": "Spruce-Pine-Fir", "grade": "Stud"}
    for each, psi in ((False, "242.4"), (True, "121.2")):
        changes = {"garage_wall__studs": studs, "garage_wall__studs_over_outriggers": each}
        small, large = (pair(load, **changes) for load in (1000, 3000))
        found = [demand(one, "stud", "", WALL_LINE) for one in (small, large)]
        assert found[1] - found[0] == printed(psi)


def test_a_piece_between_two_openings_is_doubled_once():
    """Mark 4 of 16 in centres, at 48 in, stands between openings on both sides."""
    openings = [{"from": "25 in", "to": "40 in"}, {"from": "57 in", "to": "70 in"}]
    wanted = wanted_of(
        case(layout={"run": "10 ft", "openings": openings, "double_at_openings": True})
    )
    beside = [float(p.centre) for p in pieces_of(wanted) if 40 < p.centre < 57]
    assert len(beside) == 2


def test_a_sweep_over_pairs_equals_its_single_cases_to_the_last_bit():
    """As of singles: whatever a pair changes is a column of the batch."""
    point = [{"at": "80 in", "from": "girder", "D": "500 lb", "S": "700 lb"}]
    run = {"run": "20 ft", "double_at": [6]}
    one = case(layout=run, garage_roof__point=point, house_edge=PLATE)
    gaps = np.array([4.0, 7.0, 11.0])
    batch = designs_of(batch_of(one, {"gap.width": gaps}))
    for i, gap in enumerate(gaps):
        alone = design(with_numbers(one, {"gap.width": gap}))
        assert [row.demand for row in batch.rows(i)] == [row.demand for row in alone.rows]
        assert [row.status for row in batch.rows(i)] == [row.status for row in alone.rows]


@pytest.mark.parametrize(
    ("run", "at", "span", "psi"),
    [("20.5 in", "18.25 in", "16 in", 2659.6), ("26.5 in", "21.25 in", "24 in", 3385.1)],
)
def test_a_point_load_between_two_that_stand_close(run, at, span, psi):
    """Centers 0.75, 16.75 and the last 3 or 9 in on; 2000 lb more halfway between the last two. By
    three moments the second takes 0.5 + M/3 + M/16 with M = 3.375/38: 0.53516, or 0.60547 with M =
    30.375/50 over 9 and 16; x 1.28125 on the house: 1371.3 and 1551.5 lb.

    3 in is less than half of 16: both at one place, 2 x 1371.3 x 16/4 / 4.125 = 2659.6 psi (3 in
    apart, 1281.25 each, 2040). At 9 in a row of them: three on 24 in, (1.5 x 12 - 9) x 1551.5 /
    4.125 = 3385.1."""
    layout = {"run": run, "start": "flush", "last": "flush"}
    plate = {**PLATE, "span": span}

    def bending(load):
        point = [{"at": at, "from": "girder", "D": f"{load} lb"}]
        found = designed(layout=layout, house_edge=plate, garage_roof__point=point)
        return demand(found, "house_edge", "bending", EDGE, mark=2)

    assert bending(3000) - bending(1000) == pytest.approx(psi, abs=0.3)


TOUCHES = {"run": "178.25 in"}  # at 16 in: the piece at its end touches the one before


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"layout": TOUCHES}, ["0 in between marks 12 and 13"]),
        ({"layout": {"run": "181 in"}}, ["2 3/4 in between marks 12 and 13"]),
        ({"layout": {"run": "181.25 in"}}, []),  # 3 in: a foot of 1 1/2 in of each
        ({"layout": TOUCHES, "hold_down": [clip("back", count=1), clip("edge", count=1)]}, []),
        ({"layout": TOUCHES | {"double_at": [12]}}, ["0 in between marks 13 and 14"]),
        ({"layout": {"run": "16 ft"}}, []),
        ({"outrigger__spacing": "4 in"}, ["2 1/2 in between them"]),
        ({"outrigger__spacing": "4 1/2 in"}, []),
    ],
)
def test_clips_beside_outriggers_that_stand_too_close(changes, said):
    """Two clips an outrigger have a foot of 1 1/2 in on each side; one clip stands on the free
    side; a piece of a pair has one on its outer face."""
    found = [one for one in designed(**changes).not_covered if "without room" in one]
    assert found == [f"clips without room for their feet: {one}" for one in said]


def test_the_pull_of_a_gap_is_that_of_one_clip_of_a_pair():
    """One clip holds a piece of a pair: the row of the gap has its pull, as `check` has."""
    stated = case(**RUN)
    (row,) = gap_study(stated, np.array([7.0])).rows
    assert row.pulls == pytest.approx(most_pulls(design(stated)))


def test_the_csv_hands_down_what_both_bring():
    """2 x 1281.25 = 2562.5 lb more at the house wall, in a row that says it is of two pieces."""
    small, large = (
        [
            row
            for row in csv.DictReader(reactions_csv(pair(load)).splitlines())
            if (row["level"], row["at"], row["case"]) == ("unfactored", EDGE, "D")
            and row["source"] == "garage side"
        ]
        for load in (1000, 3000)
    )
    (before,), (after,) = small, large
    assert float(after["force_lb"]) - float(before["force_lb"]) == printed("2562.5")
    assert (after["mark"], after["pieces"]) == ("1", "2")
