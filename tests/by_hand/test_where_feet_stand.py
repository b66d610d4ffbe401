"""Feet of clips on wood or on bare panel, what a listing holds in, members under the house wall.

The level case: a 2x8 of 1 1/2 in, back at 44 in, rafters at 22 in across it, 1 1/2 in thick.
"""

import pytest
from level_case import GONE, case, clip, designed, row
from test_clip_chain_by_hand import BENT, EDGE

from outrigger.cases.faults import CaseFaultsError
from outrigger.layout.layout import layout
from outrigger.verdict import dangers, notes

ON_RAFTERS = {
    "house_roof__framing_parallel": True,
    "house_roof__framing_spacing": "16 in",
    "outrigger__spacing": "16 in",
}
RUN = {"layout": {"run": "20'-1 1/2\""}}


def rated(result, at="back"):
    return row(result, f"hold_down:{at}", "rated clip")


def test_two_listed_clips_over_a_parallel_rafter_stand_on_bare_panel():
    """Half the outrigger 3/4 in and half a foot of 1 1/2 in: fasteners 1 1/2 in from the middle of
    a rafter that ends at 3/4 in."""
    assert rated(designed()).status == "pass"
    found = rated(designed(**ON_RAFTERS))
    assert found.status == "open"
    assert "stand 1 1/2 in from its middle" in found.why
    assert "solid blocking under the feet" in found.why


def test_the_foot_is_as_wide_as_the_listing_says():
    """Feet of 3 in: 3/4 + 1 1/2 = 2 1/4 in from the middle."""
    feet = [clip("back", foot="3 in"), clip("edge", foot="3 in")]
    found = rated(designed(**ON_RAFTERS, hold_down=feet))
    assert "stand 2 1/4 in from its middle" in found.why
    taken = "feet of the clips 1 1/2 in wide beside the outrigger"
    assert taken in designed().defaults
    assert taken not in designed(hold_down=feet).defaults


def test_the_wall_plate_carries_the_feet_at_the_edge():
    """The plate runs along the wall under every foot; the blocking is there, but is not checked."""
    assert rated(designed(**ON_RAFTERS), "edge").status == "pass"
    beside = designed(**ON_RAFTERS, house_roof__edge_support="rafter")
    assert rated(beside, "edge").status == "open"


def test_no_mark_of_two_feet_lands_on_a_parallel_rafter():
    """Feet 3 in apart, a rafter 1 1/2 in: both never stand on it. Pieces and rafters at 16, 32 in
    and on: off by 1 1/2 in at each."""
    laid = layout(case(**ON_RAFTERS, **RUN))
    assert {abs(line.misses["back"]) for line in laid.lines[1:15]} == {1.5}
    assert laid.design.verdict == "open"


def test_one_foot_may_stand_on_a_rafter_beside_the_outrigger():
    """One clip a place, rafters 1 1/2 in past the middle of every outrigger: its foot is on the
    middle of one. 1 in past: 1/2 in off, and 1/4 in of wood beside the fastener."""
    for offset, off in (("2 1/4 in", 0.0), ("1 3/4 in", 0.5)):
        laid = layout(
            case(
                **ON_RAFTERS, **RUN, house_roof__framing_offset=offset,
                layout__start="flush", layout__last="on spacing",
                hold_down=[clip("back", count=1), clip("edge", count=1)],
            )
        )  # fmt: skip
        assert abs(laid.lines[3].off["back"]) == pytest.approx(off)
        assert not laid.lines[3].misses


def test_a_strap_over_the_top_has_a_foot_on_each_side():
    over = {"count": 1, "side_height": "over the top", "rated_across_grain": True}
    found = designed(**ON_RAFTERS, hold_down=[clip("back", **over), clip("edge", **over)])
    assert rated(found).status == "open"


@pytest.mark.parametrize(("first", "edge", "status"), [
    ("44 in", 0.75, "pass"), ("43.75 in", 0.5, "pass"), ("43.5 in", 0.25, "open"),
    ("43.25 in", 0.0, "open"),
])  # fmt: skip
def test_free_edge_of_a_crossing_rafter_is_half_of_it_less_the_offset(first, edge, status):
    """#10 screws ask for 2.5 x 0.190 = 0.475 in. Back at 44 in: on a rafter at 44 in 3/4 in of
    wood; at 43 3/4, 1/2; at 43 1/2, 1/4; at 43 1/4 the fastener stands on the arris."""
    result = designed(
        house_roof__framing_at=[first], house_roof__framing_parallel=False,
        house_roof__sheathing_thickness="7/16 in", hold_down=[BENT, EDGE],
    )  # fmt: skip
    found = row(result, "hold_down:back", "edge of the rafter")
    assert found.status == status
    assert found.capacity == (pytest.approx(edge) if edge else None)
    missed = [text for text in result.not_covered if text.startswith("clips off the framing")]
    assert len(missed) == (edge == 0)


def test_a_listed_clip_that_misses_a_crossing_rafter_is_open_without_a_layout():
    """Rafters at 16 in from the edge: 48 in, and the back at 44 in is 4 in short of it."""
    result = designed(house_roof__framing_spacing="16 in")
    assert "clips off the framing: back 4 in from the middle of the rafter" in result.not_covered
    assert result.verdict == "open"


def test_rafters_are_asked_for_with_a_listed_clip_into_framing():
    for key in ("framing_parallel", "framing_spacing"):
        asked = [one.key for one in designed(**{f"house_roof__{key}": GONE}).not_given]
        assert f"house_roof.{key}" in asked
        loose = {"hold_down__0__into": "sheathing only", "hold_down__1__into": "sheathing only"}
        asked = [one.key for one in designed(**{f"house_roof__{key}": GONE}, **loose).not_given]
        assert f"house_roof.{key}" not in asked


@pytest.mark.parametrize(("rated_into", "thickness", "status"), [
    ("framing", "7/16 in", "open"), ("framing", GONE, "open"),
    ("framing through sheathing", "7/16 in", "pass"),
    ("framing through OSB 7/16 in", "7/16 in", "pass"),
    ("framing through OSB 7/16 in", "1/2 in", "open"),
    ("framing through OSB 1/2 in", "7/16 in", "pass"),
    ("framing through OSB 7/16 in", GONE, "pass"),  # the thickness is asked for
    ("OSB 7/16 in", "7/16 in", "open"),
])  # fmt: skip
def test_a_listing_into_framing_must_hold_through_the_sheathing(rated_into, thickness, status):
    """A screw of given length has 7/16 in less in the rafter when OSB lies between."""
    result = designed(
        hold_down__0__rated_into=rated_into, house_roof__sheathing="OSB",
        **({} if thickness is GONE else {"house_roof__sheathing_thickness": thickness}),
    )  # fmt: skip
    found = rated(result)
    assert found.status == status
    if rated_into == "framing" and thickness is not GONE:
        assert found.why == (
            "the listing says into framing; OSB 7/16 in lies between: does it hold through it? "
            "Then hold_down[back].rated_into=framing through OSB 7/16 in"
        )


def test_what_a_listing_holds_in_has_no_default():
    result = designed(hold_down__0__rated_into=GONE)
    assert "hold_down[0].rated_into" in [one.key for one in result.not_given]
    assert result.verdict == "open"


def test_a_panel_between_is_named_with_its_thickness():
    with pytest.raises(CaseFaultsError, match="which panel, how thick"):
        case(hold_down__0__rated_into="framing through OSB")


@pytest.mark.parametrize("support", ["blocking", "crossing member", "rafter"])
def test_a_member_below_the_edge_is_not_passed_by_crushing(support):
    found = row(designed(house_roof__edge_support=support), "edge_bearing", "framing below")
    assert found.status == "open"
    assert found.ratio is not None
    assert found.ratio < 1
    said = f"the {support} under the outriggers is not checked: its bending and its ends"
    assert found.why == said


def test_a_wall_without_roof_says_so_and_has_no_overhang():
    """A gable truss and its rake stand on that wall: nothing of it is counted."""
    said = "carries no roof by the file's word: a gable truss and its rake overhang stand on a wall"
    roofless = {"garage_roof__bearing": False, "garage_roof__overhang": "none"}
    assert notes.roofless(case(**roofless)) == [said]
    assert notes.roofless(case()) == []
    with pytest.raises(CaseFaultsError, match=r"garage_roof.overhang = 3 in: beside bearing"):
        case(garage_roof__bearing=False, garage_roof__overhang="3 in")


def test_of_two_feet_the_farther_must_stand_on_a_rafter():
    """Rafters 1 1/2 in past the middle of every outrigger: one foot of each pair stands on the
    middle of one, the other 3 in from it."""
    laid = layout(
        case(
            **ON_RAFTERS, **RUN, house_roof__framing_offset="2 1/4 in",
            layout__start="flush", layout__last="on spacing",
        )
    )  # fmt: skip
    assert abs(laid.lines[3].misses["back"]) == pytest.approx(3.0)


@pytest.mark.parametrize(("sheathing", "other"), [
    ("OSB", False), ("Oriented strand board", False), ("OSB sheathing", False), ("", False),
    ("plywood", True), ("none", True), ("gypsum", True),
])  # fmt: skip
@pytest.mark.parametrize("into", ["framing", "sheathing only"])
def test_a_listing_through_or_into_another_panel_is_open(into, sheathing, other):
    """It is of the panel that it names: what a nail or screw holds in another is not known."""
    panel = "OSB 7/16 in" if into == "sheathing only" else "framing through OSB 7/16 in"
    result = designed(
        hold_down=[clip("back", into=into, rated_into=panel), clip("edge")],
        house_roof__sheathing=sheathing, house_roof__sheathing_thickness="7/16 in",
    )  # fmt: skip
    found = rated(result)
    said = "is another panel" if into == "sheathing only" else "lies between"
    assert (said in found.why) is other
    assert found.status == "open" if other else found.status != "fail"


@pytest.mark.parametrize(
    ("thickness", "thinner"), [(GONE, False), ("7/16 in", True), ("3/4 in", False)]
)
def test_a_listing_in_a_panel_thicker_than_the_one_there(thickness, thinner):
    """Listed in 1/2 in, fastened into the sheathing alone: a thinner panel is named; one whose
    thickness is not given is asked for."""
    panel = {} if thickness is GONE else {"house_roof__sheathing_thickness": thickness}
    result = designed(
        hold_down=[clip("back", into="sheathing only", rated_into="OSB 1/2 in"), clip("edge")],
        house_roof__sheathing="OSB", **panel,
    )  # fmt: skip
    found = rated(result)
    assert ("is thinner" in found.why) is thinner
    asked = "house_roof.sheathing_thickness" in [one.key for one in result.not_given]
    assert asked is (thickness is GONE)


def test_of_the_feet_of_a_strap_the_farther_must_stand_on_a_rafter():
    """As of two clips: one foot on the middle of a rafter, the other 3 in from it."""
    over = {"count": 1, "side_height": "over the top", "rated_across_grain": True}
    laid = layout(
        case(
            **ON_RAFTERS, **RUN, house_roof__framing_offset="2 1/4 in",
            layout__start="flush", layout__last="on spacing",
            hold_down=[clip("back", **over), clip("edge", **over)],
        )
    )  # fmt: skip
    assert abs(laid.lines[3].misses["back"]) == pytest.approx(3.0)


def test_a_strap_has_a_foot_on_each_side():
    """Pieces from 8 in to 9 1/2 in and every 16 in on, rafters 10 1/4 in and every 16 in on: the
    far foot, 3/4 + 3/4 in off the middle at 8 3/4 in, stands on a rafter's middle; one clip finds
    it. A strap has the near foot too, 3 in before it, said to go over the top or not."""
    rafters = {**ON_RAFTERS, "house_roof__framing_offset": "10 1/4 in"}
    run = {"layout": {"run": "20 ft", "first_mark": "8 in", "last": "on spacing"}}
    for kind, more, lands in (("clip", {}, True), ("strap", {}, False),
                              ("strap", {"side_height": "over the top"}, False)):  # fmt: skip
        one = clip("back", count=1, kind=kind, **more)
        found = rated(designed(**rafters, **run, hold_down=[one, clip("edge")]))
        assert found.status == ("pass" if lands else "open"), kind


@pytest.mark.parametrize(
    ("first", "said"),
    [("8 in", ""), ("7 13/16 in", ""), ("7 3/4 in", "too near the edge"),
     ("7 1/4 in", "off the framing")],
)  # fmt: skip
def test_a_lag_near_the_edge_of_a_parallel_rafter(first, said):
    """Rafters from 8 to 9 1/2 in and every 16 in on, a 3/8 in lag down the middle of each piece:
    1.5 D = 9/16 in of rafter beside it (NDS Table 12.5.1C); 3/16 in off its middle there is 9/16,
    1/4 in off 1/2, 3/4 in off none."""
    lag = {"at": "back", "kind": "through", "deck_fastener": "lag 3/8 in x 11 in",
           "deck_fasteners": 1, "into": "framing"}  # fmt: skip
    rafters = {**ON_RAFTERS, "house_roof__framing_offset": "8 3/4 in"}
    run = {"layout": {"run": "20 ft", "first_mark": first, "last": "on spacing"}}
    found = designed(**rafters, **run, hold_down=[lag, clip("edge")]).not_covered
    told = [one for one in found if "too near the edge" in one or "off the framing" in one]
    assert [said in one for one in told] == ([True] if said else [])
    stated = designed(
        **rafters, **run, hold_down=[{**lag, "edge_distance": "3/4 in"}, clip("edge")]
    )
    assert not any("too near the edge" in one for one in stated.not_covered)


def test_of_clips_beside_each_other_one_finds_a_crossing_rafter():
    """Two of four clips on a side, each w wide, stand w / 2 off the middle of a rafter 1 1/2 in
    wide: clips as wide as it and wider are beside it, at its edge 3/4 in off. Over a wall plate
    that runs along the edge there is room."""
    four = designed(hold_down=[clip("back", count=4), clip("edge", count=4)])
    assert dangers.holds(four)["several a side"]
    assert dangers.said(four)["several"] == "back"
    assert not dangers.holds(designed())["several a side"]
