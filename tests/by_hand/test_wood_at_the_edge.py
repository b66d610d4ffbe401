"""What the edge stands on and its clips are fastened into: the member there, not the rafters.

The level case of test_level_design_by_hand.py: push of one outrigger at the edge under D + S
1636.587 lb, pull under 0.6D + 0.6W 158.798 lb; a Hem-Fir 2x8, framing Spruce-Pine-Fir (G 0.42).
"""

import pytest
from level_case import GONE, case, clip, designed, row
from published import printed
from test_clip_chain_by_hand import BENT
from test_house_edge import BLOCK, HEADER, ON_A_BLOCK, PLATE, RAFTER

from outrigger.cases.faults import CaseFaultsError
from outrigger.verdict import notes
from outrigger.verdict.taken import defaults

LIFTED = "0.6D + 0.6W up"
DENSE = {
    "outrigger__species": "Douglas Fir-Larch",
    "house_roof__framing_species": "Douglas Fir-Larch",
    "garage_wall__plate_species": "Douglas Fir-Larch",
}
LISTED = [clip(at, rated_wood="Douglas Fir-Larch") for at in ("back", "edge")]
SCREWS = {**BENT, "at": "edge", "deck_fastener": "wood screw #10 x 3 in"}
PANEL = {"house_roof__sheathing": "OSB", "house_roof__sheathing_thickness": "7/16 in"}
ON_A_RAFTER = {"house_roof__edge_support": "rafter", "house_roof__edge_support_width": GONE}


def on(plate, hold=SCREWS, **changes):
    """The edge on a plate, its clips as given."""
    return designed(house_edge=plate, hold_down=[clip("back"), hold], **PANEL, **changes)


def deck(found):
    return row(found, "hold_down:edge", "deck fasteners")


def test_a_listing_of_the_edge_is_held_to_the_plate_there():
    """Listed for Douglas Fir-Larch, G 0.50; rafters of it, a wall plate of Spruce-Pine-Fir, 0.42:
    the clips of the edge are fastened into the plate, those of the back into a rafter."""
    dense = designed(
        house_edge={**PLATE, "species": "Douglas Fir-Larch"}, hold_down=LISTED, **DENSE
    )
    light = designed(house_edge=PLATE, hold_down=LISTED, **DENSE)
    for at in ("back", "edge"):
        assert row(dense, f"hold_down:{at}", "rated clip").status == "pass"
    assert row(light, "hold_down:back", "rated clip").status == "pass"
    found = row(light, "hold_down:edge", "rated clip")
    assert found.status == "open"
    assert "listed for G 0.5 (Douglas Fir-Larch), but the wood here is G 0.42" in found.why


def test_screws_of_the_edge_in_a_lighter_plate():
    """#10 x 3 in, thread 2 in, in two plates: 2850 x 0.42^2 x 0.19 = 95.52 lb/in, x 1.6 x 2 =
    305.7 lb in Spruce-Pine-Fir, as in framing of it; in rafters of Douglas Fir-Larch 433.2."""
    assert deck(on(PLATE)).capacity == pytest.approx(305.7, abs=0.1)
    assert deck(on(PLATE, **DENSE)).capacity == pytest.approx(305.7, abs=0.1)
    same = on({**PLATE, "species": "Douglas Fir-Larch"}, **DENSE)
    assert deck(same).capacity == pytest.approx(433.2, abs=0.1)


def test_a_single_plate_holds_no_more_thread_than_it_is_thick():
    """3 in less 0.105 in of steel, 0.4375 of panel and 1.5 of plate come out by 0.9575 in below:
    of the thread, 2 in, 1.0425 in are in the plate: 95.52 x 1.6 x 1.0425 = 159.3 lb."""
    single = {**PLATE, "plies": 1}
    assert deck(on(single)).capacity == pytest.approx(159.3, abs=0.1)


def test_plates_that_are_not_given_are_two():
    """#10 x 4 in: 0.4575 in of its thread, 2.6667, comes out below 3 in of plates: 95.52 x 1.6 x
    2.2092 = 337.6 lb. It is told; a crossing member below is 3 1/2 in deep at least, and the thread
    of 4 in stands in it whole."""
    long = {**SCREWS, "deck_fastener": "wood screw #10 x 4 in"}
    found = designed(hold_down=[clip("back"), long], **PANEL)
    assert deck(found).capacity == pytest.approx(337.7, abs=0.2)
    said = "edge: the clips' fasteners reach no deeper than two plates, 3 in, taken"
    assert said in notes.of(found)
    over = designed(
        hold_down=[clip("back"), long], house_roof__edge_support="crossing member", **PANEL
    )
    assert deck(over).capacity == pytest.approx(95.52 * 1.6 * 2.6667, abs=0.2)
    assert said not in notes.of(over)


def test_a_wet_member_under_the_edge_weakens_what_is_fastened_into_it():
    """Wood screws in withdrawal, wet in service: CM 0.7 (NDS Table 11.3.3): 305.7 x 0.7 = 214.0 lb.
    A listing is for dry wood: open."""
    wet = {**PLATE, "moisture": "wet"}
    assert deck(on(wet)).capacity == pytest.approx(214.0, abs=0.1)
    found = designed(house_edge=wet)
    assert row(found, "hold_down:edge", "rated clip").status == "open"
    assert row(found, "hold_down:back", "rated clip").status == "pass"


def test_side_screws_that_come_out_of_the_piece():
    """A bend that is held pulls the side fasteners: #10 x 2 1/2 in through 0.105 in of steel and
    1 1/2 in of wood come out by 0.895 in: of 1.6667 in of thread 0.7717 in hold. Hem-Fir, G 0.43:
    2850 x 0.43^2 x 0.19 = 100.12 lb/in; in 3 in of two plies all of it."""
    held = {**SCREWS, "side_fastener": "wood screw #10 x 2 1/2 in", "bend_held": True,
            "side_fasteners": 4, "fastener_spacing": "1 1/2 in"}  # fmt: skip

    def thread(found):
        one = row(found, "hold_down:edge", "side fasteners, bend held")
        (step,) = {s for s in _steps(one.steps) if s.symbol == "pt"}
        return float(step.value)

    assert thread(on(PLATE, held)) == pytest.approx(0.7717, abs=1e-4)
    assert thread(on(PLATE, held, outrigger__plies=2)) == pytest.approx(1.6667, abs=1e-4)


def _steps(steps):
    """Every step of some, and of their inputs."""
    for step in steps:
        yield step
        inner = [one for one in (step.inputs or {}).values() if hasattr(one, "symbol")]
        yield from _steps(inner)


def test_a_header_is_crushed_no_less_than_the_plate_on_it():
    """1636.587 lb on 1.5 x 3.5 in: 311.7 psi. The header of Douglas Fir-Larch would take 625, the
    plate that lies on it, of the framing's Spruce-Pine-Fir, 425; a header of a softer wood less."""
    link = ("edge_bearing", "framing below")
    found = row(designed(house_edge=HEADER), *link)
    assert found.capacity == printed("425.0")
    soft = {**HEADER, "species": "Spruce-Pine-Fir (South)"}
    assert row(designed(house_edge=soft), *link).capacity == printed("335.0")


def test_shear_of_a_rafter_whose_edge_stands_nobody_says_where():
    """Right at a bearing: all of R, 1636.587 lb on 16.875 in2: 145.5 psi; from 6 in before the far
    end of 10 ft as from 6 in past the near: R 114/120 = 1554.8 lb, 138.2 psi."""
    anywhere = {key: value for key, value in RAFTER.items() if key != "edge_at"}
    found = row(designed(house_edge=anywhere, **ON_A_RAFTER), "house_edge", "shear")
    assert found.demand == printed("145.5")
    far = designed(house_edge={**RAFTER, "edge_at": "114 in"}, **ON_A_RAFTER)
    assert row(far, "house_edge", "shear").demand == printed("138.2")


@pytest.mark.parametrize("rafter, thick", [("2x12", 1.5), ("4x12", 3.5)])
def test_a_wide_piece_bears_on_a_rafter_no_wider_than_it_is(rafter, thick):
    """Two plies, 3 in, along a rafter of 1 1/2 in: its own weight more, about 1640 lb on 1.5 x 3.5
    in, 312 psi, on 3 in half of that; a rafter of 3 1/2 in carries all of the width."""
    below = {**RAFTER, "size": rafter}
    found = designed(house_edge=below, outrigger__plies=2, **ON_A_RAFTER)
    one = row(found, "edge_bearing", "sheathing")
    own = row(designed(house_edge=below, **ON_A_RAFTER), "edge_bearing", "sheathing")
    assert own.demand == pytest.approx(312.0, rel=0.01)
    assert one.demand == pytest.approx(own.demand * 1.5 / min(3.0, thick), rel=0.01)


def test_the_feet_at_the_edge_stand_beside_a_rafter_there():
    """Rafters that cross, and by the file's word one along the outrigger under its edge: the feet
    stand 1 1/2 in from its middle, on bare panel; a layout and one foot alone are no other."""
    one = [clip("back"), clip("edge", count=1)]
    for more in ({}, {"layout": {"run": "20 ft"}, "hold_down": one}):
        found = row(designed(**ON_A_RAFTER, **more), "hold_down:edge", "rated clip")
        assert found.status == "open"
        assert "stand 1 1/2 in from its middle" in found.why
        assert row(designed(**more), "hold_down:edge", "rated clip").status == "pass"


def test_a_listing_that_names_a_panel_asks_which_it_is():
    """Listed through OSB, the sheathing not said to be it: open, asked for."""
    through = [clip(at, rated_into="framing through OSB 7/16 in") for at in ("back", "edge")]
    key = "house_roof.sheathing"
    unnamed = designed(hold_down=through, **{**PANEL, "house_roof__sheathing": ""})
    assert key in [one.key for one in unnamed.not_given]
    assert unnamed.verdict == "open"
    assert key not in [one.key for one in designed(hold_down=through, **PANEL).not_given]


@pytest.mark.parametrize(
    "size, spacing, said",
    [("2x10", "32 in", "24 in at most"), ("6x8", "16 in", "lumber 2 to 4 in thick")],
)
def test_cr_of_rafters_too_far_apart_or_too_thick(size, spacing, said):
    """NDS 4.3.9, as of the outriggers."""
    rafter = {"kind": "rafter", "size": size, "species": "Douglas Fir-Larch", "grade": "No. 1",
              "spacing": spacing, "span": "9 ft", "repetitive": True}  # fmt: skip
    with pytest.raises(CaseFaultsError, match=r"house_rafter\.repetitive") as found:
        case(house_rafter=rafter, house_roof__framing_spacing=spacing)
    assert said in str(found.value)


def test_a_header_bears_on_no_more_than_its_studs():
    """3 in on one stud of 1 1/2 in: 353 psi would be 706. Two of them are 3 in."""
    one = {**HEADER, "stud": {**HEADER["stud"], "count": 1}}
    with pytest.raises(CaseFaultsError, match="1 of 2x6, are 1 1/2 in thick"):
        case(house_edge=one)
    case(house_edge=HEADER)
    case(house_edge={**one, "end_bearing": "1 1/2 in"})


def test_blocks_span_from_rafter_to_rafter():
    """14 1/2 in between rafters 16 in apart, and where these are 4x at 18 in; at 24 in they are not
    what is there: 22 1/2 in with 2x."""
    for apart, told in (("16 in", False), ("18 in", False), ("24 in", True)):
        changes = {"house_roof__framing_parallel": True, "house_roof__framing_spacing": apart}
        if not told:
            case(house_edge=BLOCK, **ON_A_BLOCK, **changes)
            continue
        with pytest.raises(CaseFaultsError, match=r"house_edge\.span = 14 1/2 in"):
            case(house_edge=BLOCK, **ON_A_BLOCK, **changes)


def test_a_shallow_member_is_no_deeper_than_it_is():
    """#10 x 4 in into a 2x3 on edge, 2 1/2 in: 0.9575 in comes out, 1.7092 of 2.6667 in of thread
    are in it: 95.52 x 1.6 x 1.7092 = 261.2 lb."""
    long = {**SCREWS, "deck_fastener": "wood screw #10 x 4 in"}
    shallow = {**BLOCK, "size": "2x3"}
    found = on(shallow, long, **ON_A_BLOCK)
    assert deck(found).capacity == pytest.approx(261.2, abs=0.2)


@pytest.mark.parametrize("rafter, thick", [(None, 1.5), ("2x10", 1.5), ("4x10", 3.5)])
def test_at_the_back_a_wide_piece_bears_on_a_rafter_along_it_no_wider_than_that(rafter, thick):
    """Two plies, 3 in, over 1 1/2 in of a rafter that runs along them: R / (1.5 x 1.5) for R / (3 x
    1.5) over one that crosses, twice the stress; 3 1/2 in carry all of their breadth."""
    along = {"house_roof__framing_parallel": True}
    if rafter is not None:
        along["house_rafter"] = {"kind": "rafter", "size": rafter, "species": "Spruce-Pine-Fir",
                                 "grade": "No. 2", "spacing": "22 in", "span": "9 ft"}  # fmt: skip
    for layer in ("outrigger", "sheathing", "framing below"):
        crossing, found = (row(designed(outrigger__plies=2, **more), "back_bearing", layer)
                           for more in ({}, along))  # fmt: skip
        assert found.demand == pytest.approx(crossing.demand * 3.0 / min(3.0, thick))


def test_a_width_below_that_is_not_given_is_told():
    """3 1/2 in of bearing on what is not said to be as wide: 8 in crushed 8 in of a plate."""
    stated, taken = designed(), designed(house_roof__edge_support_width=GONE)
    said = "what is below the house wall as wide as the bearing there, 3 1/2 in"
    assert said not in defaults(stated.case)
    assert said in defaults(taken.case)
