"""What carries over the bays of a layout, an opening among them. By hand.

The case of test_level_design_by_hand.py: one truss, every 24 in, brings D 367.5 and S 735 lb, so
15.3125 and 30.625 lb/in; the wall 12 psf x 30 in, 2.5 lb/in. Two flat 2x6 plates, 4.125 in3.
"""

import numpy as np
import pytest
from level_case import case, check, designed
from published import printed

from outrigger.layout.layout import layout
from outrigger.report.cautions import not_checked
from outrigger.report.summary.hand_over import plan_lines
from outrigger.studies.changes_below import below
from outrigger.verdict.design import design
from outrigger.verdict.handed import by_others

OPENING = {"run": "20 ft", "openings": [{"from": "9 ft", "to": "12 ft"}]}  # centres 96 and 160
HEADER = "layout.openings: the header over them, from mark 7 to mark 8, 64 in"


def at(found, combination="D + S", case_=0):
    """The demand of a row in one combination."""
    return found.demand_at(case_, [c.text for c in found.combinations].index(combination))


def test_a_header_over_an_opening_is_open_with_what_it_carries():
    """(15.3125 + 30.625 + 2.5) x 64 = 3100 lb under D + S. It is no pass, whatever is said of the
    studs, and stands in what is not computed."""
    for studs in ({}, {"garage_wall__stud_spacing": "16 in"},
                  {"garage_wall__studs_over_outriggers": False}):  # fmt: skip
        found = designed(layout=OPENING, **studs)
        header = check(found, "header")
        assert at(header) == printed("3100")
        assert header.status() == "open"
        assert "from mark 7 to mark 8, 64 in" in header.why
        assert HEADER in found.not_covered
        assert found.verdict != "pass"


def test_a_wall_that_bears_no_roof_needs_one_too():
    """Its own weight, 2.5 lb/in x 64 = 160 lb of dead load."""
    found = designed(layout=OPENING, garage_roof__bearing=False, garage_roof__overhang="none")
    assert at(check(found, "header"), "D") == printed("160")


def test_the_plate_spans_the_bays_that_no_opening_takes():
    """16 in beside the opening, not 64: one truss at mid-bay, 1102.5 x 4 / 4.125 = 1069.1 psi."""
    found = designed(layout=OPENING, garage_wall__studs_over_outriggers=False)
    assert at(check(found, "plate", "bending")) == printed("1069.1")


def past(name, **layout):
    """What the plate past the end marks gets under D + S, and its row at the worst of them."""
    over = design(case(layout={"run": "20 ft", **layout})).worked.over_marks
    found = [c for c in over.checks if (c.id, c.link.id) == ("plate_past_the_end", name)]
    return max((at(c, case_=i) for c in found for i in range(len(over.numbers))), default=None)


def test_the_plate_past_the_end_marks_is_a_cantilever():
    """The first piece at 15.25 in, 16 in to its middle: a roof member at the end of the run with
    half its bay, 12 in, and one 4 in beyond the outrigger in a bay of 24, at worst 12 in beyond.
    Members at 16 and 12 in: bays 4 in apart and 24, 2 and 14 in of roof: 45.9375 x (2 x 16 + 14 x
    12) = 9187.5; the wall 2.5 x 16^2 / 2 = 320: 9507.5 lb-in / 4.125 = 2304.8 psi. Shear 1.5 x
    (45.9375 x (16 + 12) + 2.5 x 16) / 16.5 = 120.6 psi."""
    assert past("bending", first_mark="15.25 in") == printed("2304.8")
    assert past("shear", first_mark="15.25 in") == printed("120.6")


def test_a_short_end_has_the_member_at_the_end_of_the_run_alone():
    """5.25 in, 6 to the middle: 12 in of roof 6 in out, 551.25 x 6 = 3307.5, and 2.5 x 18 = 45:
    3352.5 / 4.125 = 812.7 psi. An even load, 45.9375 x 18 + 45 = 871.9: 211.4 psi."""
    assert past("bending", first_mark="5.25 in") == printed("812.7")
    over = design(
        case(
            layout={"run": "20 ft", "first_mark": "5.25 in"}, garage_roof__member_spacing="uniform"
        )
    ).worked.over_marks
    (found,) = [c for c in over.checks if (c.id, c.link.id) == ("plate_past_the_end", "bending")]
    assert max(at(found, case_=i) for i in range(len(over.numbers))) == printed("211.4")


def test_what_ends_a_run_bears_its_end():
    """A piece at each end, within a plate's thickness of it, or an opening with its header."""
    assert past("bending") is None
    assert past("bending", first_mark="1 1/2 in") is None
    assert past("bending", first_mark="1 9/16 in") > 0
    assert past("bending", last="on spacing") > 0
    ends = [{"from": "0 in", "to": "3 ft", "header": "by others"}]
    assert past("bending", openings=ends) is None


def test_a_wall_whose_plate_hangs_past_its_end_marks_fails():
    """2304.8 psi of some 950: no pass, whatever is said of the studs."""
    for studs in ({}, {"garage_wall__studs_over_outriggers": False}):
        found = designed(layout={"run": "20 ft", "first_mark": "15.25 in"}, **studs)
        assert found.verdict == "fail"
        assert "plate_past_the_end" in {row.id for row in found.rows if row.status == "fail"}


@pytest.mark.parametrize(
    ("layout", "cure"),
    [({"first_mark": "15.25 in"}, "layout.first_mark=none"),
     ({"last": "on spacing"}, "layout.last=flush")],
)  # fmt: skip
def test_an_outrigger_at_the_end_cures_it(layout, cure):
    found = designed(layout={"run": "20 ft", **layout})
    assert found.verdict == "fail"
    assert cure in dict(below(found))


def test_past_the_end_by_lrfd():
    """1.2D + 1.6S: roof 1.2 x 15.3125 + 1.6 x 30.625 = 67.375, wall 1.2 x 2.5 = 3: 67.375 x 200 + 3
    x 128 = 13,859 lb-in: 3359.8 psi."""
    over = design(
        case(layout={"run": "20 ft", "first_mark": "15.25 in"}, basis__method="LRFD")
    ).worked.over_marks
    (found,) = [c for c in over.checks if (c.id, c.link.id) == ("plate_past_the_end", "bending")]
    most = max(at(found, "1.2D + 1.6S", i) for i in range(len(over.numbers)))
    assert most == printed("3359.8")


def test_the_last_bay_of_a_flush_run_is_taken_as_long_as_it_is():
    """66 in: near edges 0, 15.25, 31.25, 47.25, and the end piece's 64.5 in place of 63.25, so the
    last bay is 17.25 in: 1102.5 x 17.25/4 / 4.125 = 1152.6 psi at its two marks; else 16 in."""
    run = {"layout": {"run": "66 in"}, "garage_wall__studs_over_outriggers": False}
    over = design(case(**run)).worked.over_marks
    (row,) = [c for c in over.checks if (c.id, c.link.id) == ("plate", "bending")]
    found = {mark: at(row, case_=i) for i, mark in enumerate(over.numbers)}
    assert max(found.values()) == printed("1152.6")
    assert found[2] == printed("1069.1")


def test_marks_beside_an_opening_are_open_and_the_others_are_not():
    """So the table of marks says where; of the wall nothing passes."""
    run = {"layout": OPENING | {"datum": "left end"}, "garage_roof__span": "8 ft"}
    laid = layout(case(**run, outrigger__size="2x10", outrigger__plies=2))
    assert [line.number for line in laid.lines if line.status == "open"] == [7, 8]
    assert laid.design.verdict == "open"


def test_an_opening_at_the_end_of_the_run():
    """To 40 in: the first piece left stands 48 in from the start, and a header runs to it."""
    start = {"run": "20 ft", "openings": [{"from": "0 in", "to": "40 in"}]}
    found = designed(layout=start)
    said = "layout.openings: the header over them, from the start of the run to mark 1, 4 ft"
    assert said in found.not_covered


def test_an_opening_that_leaves_no_piece_out_needs_no_header():
    """Between the centres at 96 and 112 in: the plate runs on."""
    between = {"run": "20 ft", "openings": [{"from": "100 in", "to": "108 in"}]}
    found = designed(layout=between)
    assert not [one for one in found.not_covered if "header" in one]


def test_beside_an_opening_nothing_shares():
    """NDS 4.3.9: Cr for members not more than 24 in apart; marks 7 and 8 stand 64 in apart, the
    others 16."""
    over = design(case(layout=OPENING, outrigger__repetitive=True)).worked.over_marks
    claimed = np.ravel(over.member.conditions.repetitive)
    assert {mark for mark, yes in zip(over.numbers, claimed, strict=True) if not yes} == {7, 8}


def test_the_plate_under_a_point_load_between_outriggers_is_not_computed():
    """Centres 80 and 96 in: a girder at 88 in bends the plate by P x 16/4, which no row has; at 80
    in it stands on mark 6."""
    for place, said in (("80 in", []), ("88 in", ["88 in"])):
        point = [{"at": place, "from": "girder", "D": "500 lb", "S": "700 lb"}]
        found = designed(layout={"run": "20 ft"}, garage_roof__point=point)
        between = [one for one in found.not_covered if one.startswith("garage_roof.point")]
        assert [one.rpartition(" at ")[2] for one in between] == said
        assert not said or found.verdict != "pass"


def test_a_header_that_others_design_is_told_and_left_to_them():
    """The row is gone and the wall passes as before; what is not checked names it. One of two
    openings left open keeps the wall open, for that one alone."""
    left = {"from": "9 ft", "to": "12 ft", "header": "by others"}
    light = {"garage_roof__span": "8 ft", "outrigger__size": "2x10", "outrigger__plies": 2}
    done = designed(layout={"run": "20 ft", "openings": [left]}, **light)
    assert not [c for c in done.checks if c.id == "header"]
    assert not done.not_covered and done.verdict == "pass"
    assert "headers by others" in [one.few for one in not_checked(done)]
    other = {"from": "15 ft", "to": "17 ft"}
    both = designed(layout={"run": "20 ft", "openings": [left, other]}, **light)
    assert len(both.not_covered) == 1 and "from mark 11 to mark 13" not in both.not_covered[0]
    assert both.verdict == "open"
    assert at(check(both, "header")) < at(check(designed(layout=OPENING, **light), "header"))


def test_what_a_header_by_others_carries_and_from_where_to_where_is_handed_on():
    """From mark to mark, as the marks have it, not over the opening of 36 in alone. D 17.8125, L
    5.1042, S 30.625, W down 10.2083 lb/in: (17.8125 + 0.75 x 35.7292 + 0.45 x 10.2083) x 64 =
    3149.0 lb, half to each."""
    opening = {**OPENING["openings"][0], "header": "by others"}
    found = designed(layout={**OPENING, "openings": [opening]})
    (over,) = by_others(found).items()
    assert over == ("from mark 7 to mark 8, 64 in", printed("3149.0"))
    told = next(one for one in not_checked(found) if one.few == "headers by others")
    assert "from mark 7 to mark 8, 64 in" in told.short and over[0] in told.long
    assert "up to 3,149 lb of roof and wall" in " ".join(map(str, plan_lines(found)))


def test_of_two_openings_the_header_of_the_longer_is_named():
    """64 in from mark 7 to 8, and 32 in from 16 to 18 ft, which leaves one piece out: 3100 lb."""
    openings = [*OPENING["openings"], {"from": "16 ft", "to": "17 ft"}]
    found = designed(layout={"run": "20 ft", "openings": openings})
    assert at(check(found, "header")) == printed("3100")
    assert len([one for one in found.not_covered if "header" in one]) == 2
