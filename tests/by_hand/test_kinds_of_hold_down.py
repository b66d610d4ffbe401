"""A clip, a strap, or a screw down through the outrigger: only the file's word says which.

The level case of level_case.py, its back and edge held otherwise.
"""

import pytest
from in_combination import demand_in
from level_case import CLIP, designed, row

from outrigger.cases.faults import CaseFaultsError
from outrigger.layout.layout import layout
from outrigger.report.screen import layout as layout_page

SCREWS = {"deck_fastener": "wood screw #10 x 2 1/2 in", "deck_fasteners": 2, "into": "framing"}
EDGE = {"at": "edge", "count": 2, "rated_uplift": "450 lb", **CLIP}
LISTED = {"at": "back", "count": 2, "rated_uplift": "500 lb", **CLIP}


def held(back, edge=EDGE, **changes):
    return designed(
        house_roof__sheathing_thickness="7/16 in", hold_down=[{"at": "back", **back}, edge],
        **changes,
    )  # fmt: skip


def test_deck_fasteners_alone_are_asked_about_and_never_read_as_through():
    """A 2 1/2 in screw cannot pass 7 1/4 in of wood: so read it failed, nothing in the rafter."""
    result = held(SCREWS)
    assert result.verdict == "open"
    asked = {one.key: one.question for one in result.not_given}
    assert asked["hold_down[0].side_fastener"] == (
        "at the back, a clip (then its side fasteners), or a screw down through the outrigger "
        '(kind = "through")?'
    )
    (found,) = [one for one in result.rows if one.check.id == "hold_down:back"]
    assert (found.status, found.capacity) == ("open", None)
    assert "hold_down[back].kind is not said" in found.check.why


def test_through_by_the_word_alone():
    """A 9 in lag of 3/8: 9 - 7 1/4 - 7/16 = 1.31 in is in the rafter; washer and hole are rows."""
    lag = {"deck_fastener": "lag 3/8 in x 9 in", "deck_fasteners": 1, "into": "framing"}
    links = {r.check.link.id for r in held({**lag, "kind": "through"}).rows}
    assert {"washer", "deck fasteners", "at the hole"} <= links
    assert "washer" not in {r.check.link.id for r in held(lag).rows}


def test_through_without_its_screw_is_asked():
    result = held({"kind": "through", "into": "framing"})
    assert "hold_down[0].deck_fastener" in [one.key for one in result.not_given]
    assert result.verdict == "open"


def test_a_strap_holds_by_its_listing_alone():
    """Its own nails are not checked link by link: without a listing it is open."""
    nails = {"side_fastener": "10d x 1 1/2 in", "side_fasteners": 4, "side_height": "4 in"}
    result = held({"kind": "strap", **nails, **SCREWS})
    assert "hold_down[0].rated_uplift" in [one.key for one in result.not_given]
    (found,) = [one for one in result.rows if one.check.id == "hold_down:back"]
    assert (found.status, found.check.why) == ("open", "no listed uplift of the strap is given")
    listed = held({**LISTED, "kind": "strap", "count": 1, "side_height": "over the top"})
    assert row(listed, "hold_down:back", "rated clip").status == "pass"


@pytest.mark.parametrize(
    "more",
    [
        {"side_fastener": "10d x 1 1/2 in", "side_fasteners": 2},
        {"side_height": "3 in"},
        {"leg_offset": "3/4 in"},
        {"bend_held": True},
    ],
)
def test_a_screw_through_has_no_side_and_no_leg(more):
    with pytest.raises(CaseFaultsError) as told:
        held({**SCREWS, "kind": "through", **more})
    assert 'stands beside kind = "through"' in str(told.value)


# Blocks put between the rafters, right under the feet


def test_a_listed_clip_on_blocks_never_passes_for_itself():
    """The listing holds; the blocks are open, with the pull of both clips as their load."""
    plain, blocks = held(LISTED), held({**LISTED, "into": "blocking"})
    assert plain.verdict == "pass"
    assert blocks.verdict == "open"
    found = row(blocks, "hold_down:back", "blocks between rafters")
    assert (found.status, found.capacity) == ("open", None)
    clip = row(blocks, "hold_down:back", "rated clip")
    assert clip.status == "pass"
    assert demand_in(found.check, "D + S") == pytest.approx(2 * demand_in(clip.check, "D + S"))
    assert "the engineer says how they are held" in found.check.why


def test_blocks_carry_the_feet_where_no_rafter_is():
    """Over a parallel rafter as thick as the outrigger both feet are on bare panel; on blocks they
    stand on wood, wherever the rafters lie."""
    beside = {"house_roof__framing_parallel": True, "house_roof__framing_spacing": "16 in"}
    bare = row(held(LISTED, **beside), "hold_down:back", "rated clip")
    assert bare.status == "open" and "hold_down[back].into=blocking" in bare.check.why
    on = [{**one, "into": "blocking"} for one in (LISTED, EDGE)]
    result = held(*on, **beside)
    assert row(result, "hold_down:back", "rated clip").status == "pass"
    off = held(*on, house_roof__framing_parallel=True, house_roof__framing_spacing="22 in")
    assert not off.not_covered and not off.not_given
    assert off.verdict == "open"


def test_the_layout_lists_the_blocks():
    """24 ft at 16 in: 19 outriggers."""
    on = {**LISTED, "into": "blocking"}
    laid = layout(held(on, {**EDGE, "into": "blocking"}, layout={"run": "24 ft"}).case)
    listed = layout_page.material_lines(laid)
    said = "[ ] 19 blocks or pairs of them between the house rafters, back (right under every foot"
    assert [line for line in listed if line.startswith(said)]
    notes = " ".join(layout_page.notes(laid))
    assert (
        "The back clip and the house wall clip stand on blocks between the house rafters" in notes
    )
    assert "lands on the framing" not in notes and "Clips on framing or not" not in notes


def test_the_layout_buys_screws_through_the_outrigger_and_no_clips():
    lag = {"deck_fastener": "lag 3/8 in x 9 in", "deck_fasteners": 1, "into": "framing"}
    laid = layout(held({**lag, "kind": "through"}, layout={"run": "24 ft"}).case)
    items = {item.what: item.how for item in laid.items}
    assert "clips, back" not in items
    assert items["lag 3/8 in x 9 in, back"].startswith("1 in each outrigger, into the house roof")
