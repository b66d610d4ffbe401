"""What holds an outrigger against tipping over sideways, each way worked by hand.

The level case of level_case.py without overhang, 30 plf along the wall, under D + 0.6A: 0.6 x 30 x
16/12 = 24 lb at the top of the arm, 12.375 in out of a back span of 44 in: 24 x 56.375/44 = 30.75
lb across at the edge, 6.75 lb at the back. Half of 7.25 in: M = (24 + 30.75) x 3.625 = 198.469
lb-in at the edge, 6.75 x 3.625 = 24.469 at the back. CD 1.6. Hem-Fir G 0.43, 1 1/2 in wide: Fe
16,600 G^1.84 = 3513 psi; OSB G 0.50, 4637 psi; SPF 0.42, 3364 psi. Blocks 16 - 1.5 = 14.5 in long.
"""

from pathlib import Path

import pytest
from in_combination import demand_in
from level_case import GONE, TABLES, capacity, case, check, designed, row
from stiffness_method import stiffness_method

from outrigger.cases.faults import CaseFaultsError
from outrigger.cases.read import read_case
from outrigger.checks.block_ends import at_row_ends
from outrigger.checks.tipping_clips import pull_at_last
from outrigger.fasteners.toe_nails import penetration, reach
from outrigger.fasteners.trade_names import read_fastener
from outrigger.verdict.design import design
from outrigger.verdict.diaphragm import into_diaphragm
from outrigger.verdict.handed import at_ends_of_row

PUSHED = "D + 0.6A"
LIFTED = "0.6D + 0.6A + 0.6W up, wind up none on the back span"
DECK = {
    "house_roof__sheathing": "OSB",
    "house_roof__sheathing_thickness": "7/16 in",
    "house_roof__sheathing_nail": "ring shank nail 0.131 x 2 1/2 in",
    "house_roof__sheathing_nail_spacing": "6 in",
}
SCREWS = {"fastener": "wood screw #10 x 2 1/2 in", "spacing": "4 in"}
TOES = {
    "fastener": "nail 0.148 x 3 in", "count": 3, "spread": "4 in", "driven": "toe-nailed",
}  # fmt: skip


def pushed(**changes):
    """The case pushed along its wall."""
    along = {"garage_wall__along": "30 plf", "garage_roof__overhang": "none"}
    return designed(**{**along, **changes})


def on_deck(spacing="4 in", **changes):
    screws = {**SCREWS, "spacing": spacing}
    return pushed(outrigger__blocking_to_deck=screws, **{**DECK, **changes})


def toe_nailed(**changes):
    return pushed(outrigger__blocking_fastening={**TOES, **changes})


def used(result, link, place, name=PUSHED):
    """Demand over capacity in one combination."""
    found = check(result, "roll_over", link, place)
    return demand_in(found, name) / capacity(found, name)


def test_blocks_screwed_to_the_deck():
    """No. 10 at 4 in: 3 in 14.5 in. To the deck 30.75 lb, more than 198.469/7.25 = 27.375: 10.25 lb
    each; the last pulls 6 x 198.469/(4 x 3 x 4) = 24.809; together 26.843 lb.

    Root 0.152 in, Fyb 80,000, ls 7/16, lm 2 1/16 in: IIIs with Re 0.75767, k3 = -1 + sqrt(4.6397 +
    5.0534) = 2.1134: 2.1134 x 0.152 x 0.4375 x 3513/(2.75767 x 2.2) = 81.38 lb, the least (IV
    108.4, Is 140.2); x 1.6 = 130.21. Head 0.363 in through the OSB: 690 pi 0.363 x 0.25 x 0.4375 =
    86.06, x 1.6 = 137.70, less than 2850 x 0.1849 x 0.19 x 1.667 in x 1.6 = 267.
    12.4-1: 137.70 x 130.21/(137.70 x 0.14581 + 130.21 x 0.85419) = 136.56: 0.19657.
    """
    found = check(on_deck(), "roll_over", "blocks to the deck", "edge")
    assert demand_in(found, PUSHED) == pytest.approx(26.843, abs=5e-4)
    assert capacity(found, PUSHED) == pytest.approx(136.56, abs=0.005)
    assert used(on_deck(), "blocks to the deck", "edge") == pytest.approx(0.19657, abs=5e-6)


def test_the_decks_own_nails_beside_the_blocks():
    """0.131 in ring shank at 6 in through 7/16 OSB, 1 1/2 in into SPF. Edge: pressed by far more
    than 6 x 198.469/16 = 74.4 lb, so nothing pulls: 30.75 x 6/16 = 11.531 lb; IIIs, Re 0.72556, k3
    = -1 + sqrt(4.7565 + 4.8427) = 2.0982: 67.47 lb, x 1.6 = 107.95: 0.1068.

    Back, pulled up: 6.75 x 6/16 = 2.531 lb, and 6 x 24.469/16 x 6/16 = 3.441 lb of 1800 x 0.1764 x
    0.131 x 1.5 in x 1.6 = 99.83 (head 690 pi 0.281 x 0.25 x 0.4375 x 1.6 = 106.6): 0.0234 + 0.0345.
    """
    result = on_deck()
    link = "deck to its framing"
    assert used(result, link, "edge") == pytest.approx(0.1068, abs=5e-5)
    assert used(result, link, "back") == pytest.approx(0.05792, abs=1e-5)
    assert row(result, "roll_over", link, "back").status == "pass"


def test_the_decks_nails_in_a_wet_plate():
    """A plate of the same wood, wet in service: CM 0.7 at the edge, 0.1068/0.7 = 0.1526; the back
    as it was."""
    plate = {"kind": "top plate on studs", "size": "2x6", "plies": 2, "grade": "No. 2",
             "species": "Spruce-Pine-Fir", "moisture": "wet", "span": "16 in", "carries": "none",
             "ends": {"rated_up": "450 lb", "rated_for": "wind"}}  # fmt: skip
    result = on_deck(house_edge=plate)
    assert used(result, "deck to its framing", "edge") == pytest.approx(0.1526, abs=1e-4)
    assert used(result, "deck to its framing", "back") == pytest.approx(0.05792, abs=1e-5)


def test_thinner_fasteners_fail():
    """Six times the force, 180 plf: 6 x 0.19657 = 1.1794 at 4 in. At 2 in, 7 in a block: V 184.5/7
    = 26.36, T 6 x 1190.81/(2 x 7 x 8) = 63.79 lb, together 69.02 of 137.70 x 130.21/(137.70 x
    0.14583 + 130.21 x 0.85417) = 136.6: 0.5054."""
    hard = {"garage_wall__along": "180 plf"}
    thin, close = on_deck(**hard), on_deck("2 in", **hard)
    link = "blocks to the deck"
    assert used(thin, link, "edge") == pytest.approx(1.1794, abs=5e-5)
    assert used(close, link, "edge") == pytest.approx(0.5054, abs=5e-4)
    found = row(thin, "roll_over", link, "edge")
    assert (found.status, found.why) == ("fail", "closer or larger fasteners in each block")
    assert row(close, "roll_over", link, "edge").status == "pass"


def test_blocks_toe_nailed_at_their_ends():
    """Three 0.148 x 3 in nails 4 in apart at the most. The last block: M = 198.469 x 14.5/16 =
    179.862 lb-in, V = 2 x 198.469/16 = 24.809 lb. The outermost pulls 179.862/4 + 30.75/3 = 55.216
    lb and takes 8.270 across.

    ls = 3/3 = 1 in; p = 3 cos 30 - 1 = 1.598, the outrigger is 1.5 in: over 10D. IIIs: k3 = -1 +
    sqrt(4 + 2 x 90,000 x 3 x 0.021904/(3 x 3513)) = 1.2633: 99.52 lb (IV 102.2, II 126.5); x 1.6 x
    0.83 = 132.16. Withdrawal 1380 x 0.43^2.5 x 0.148 = 24.763 x 1.5 x 1.6 x 0.67 = 39.82 lb.
    12.4-2: 8.270/132.16 + 55.216/39.82 = 0.0626 + 1.3867 = 1.4493.
    """
    result = toe_nailed()
    assert used(result, "ends of the blocks", "edge") == pytest.approx(1.4493, abs=1e-4)
    assert row(result, "roll_over", "ends of the blocks", "edge").status == "fail"


def test_the_last_block_lifts_the_last_outrigger():
    """0.6 D + 0.6 W: 0.6 x 400 - 0.6 x 576 = -105.6 lb at 12.375 in; on 18.375 in of the strip 0.8
    + 0.11231 - 1.6 = -0.68769 lb/in: M = -1306.80 - 116.10 = -1422.90 lb-in, V = -118.236 lb. Back
    span 0.6 + 0.11231 lb/in on 44 in, 0.449 lb 2 in behind it. Edge: 118.236 + 1422.90/44 - 15.671
    + 0.020 = 134.924 lb up, and 24.809 of the last block: 159.73. Each of two clips 79.87 of 450,
    with 30.75 of 2 x 200 across: 0.17748 + 0.07688."""
    lifted = used(toe_nailed(), "ends of the row", "edge", LIFTED)
    assert lifted == pytest.approx(0.25436, abs=5e-5)


def test_what_presses_the_last_outrigger_holds_its_block_down():
    """150 lb up at its end on 120 lb of push leave 30, 100 lb nothing; 50 lb of pull add up."""
    assert pull_at_last(150.0, 0.0, 120.0) == pytest.approx(30.0)
    assert pull_at_last(100.0, 0.0, 120.0) == 0
    assert pull_at_last(100.0, 50.0, 0.0) == pytest.approx(150.0)


def test_what_the_last_block_brings_is_handed_over():
    """2 x 198.469/16 = 24.8 lb at the house wall, 2 x 24.469/16 = 3.06 at the back, in ASD with D
    + 0.6A or whatever stands beside it."""
    found = at_ends_of_row(toe_nailed())
    assert [row.place for row in found] == ["edge", "back"]
    assert [row.demand for row in found] == pytest.approx([24.809, 3.0586], abs=5e-4)
    assert at_ends_of_row(on_deck()) == []


def test_a_pair_of_clips_as_a_couple():
    """198.469/(2/3 x 1.5 in) = 198.47 lb on the clip of one side; of 450, with 30.75 of 400 across:
    0.4410 + 0.0769."""
    result = pushed(outrigger__tipping="clips")
    assert used(result, "pair of clips", "edge") == pytest.approx(0.5179, abs=5e-5)
    alone = pushed(outrigger__tipping="clips", hold_down__1__count=1)
    assert row(alone, "roll_over", "blocking", "edge").status == "open"


def test_nothing_said_of_the_blocks_is_open():
    found = row(pushed(), "roll_over", "blocking", "edge")
    assert found.status == "open"
    assert "blocking_to_deck" in found.why and "blocking_fastening" in found.why


@pytest.mark.parametrize(
    ("gone", "said"),
    [
        ("house_roof__sheathing", "house_roof.sheathing"),
        ("house_roof__sheathing_thickness", "sheathing_thickness"),
        ("house_roof__sheathing_nail", "sheathing_nail"),
        ("house_roof__sheathing_nail_spacing", "sheathing_nail_spacing"),
    ],
)
def test_what_is_missing_of_the_deck_is_asked_for(gone, said):
    known = {key: value for key, value in DECK.items() if key != gone}
    result = pushed(outrigger__blocking_to_deck=SCREWS, **known)
    found = row(result, "roll_over", "deck to its framing", "edge")
    assert found.status == "open"
    assert said in found.why


def test_a_deck_that_spans_under_the_blocks_is_open():
    """Rafters parallel to the outriggers: nothing runs along under the blocks at the back."""
    result = on_deck(house_roof__framing_parallel=True, house_roof__framing_spacing="16 in")
    found = row(result, "roll_over", "deck to its framing", "back")
    assert found.status == "open"
    assert "no member runs along" in found.why


def test_smooth_nails_that_dead_load_pulls_are_open():
    """On a rake the dead load tips the blocks for good; ring shank nails hold."""
    rake = {"house_roof__pitch": "0.25:12", "house_roof__direction": "across the slope"}
    for smooth, link, key, stated in (
        ("nail 0.131 x 2 1/2 in", "blocks to the deck", "blocking_to_deck", {"spacing": "2 in"}),
        ("nail 0.148 x 3 in", "ends of the blocks", "blocking_fastening",
         {**TOES, "count": 6, "spread": "6 in"}),
    ):  # fmt: skip
        for fastener, status in ((smooth, "open"), ("ring shank nail 0.131 x 2 1/2 in", "pass")):
            change = {f"outrigger__{key}": {**stated, "fastener": fastener}}
            found = row(designed(**rake, **DECK, **change), "roll_over", link, "back")
            assert found.status == status
            assert ("smooth nails" in found.why) == (status == "open")


def test_between_the_clips_a_hold_down_tips_the_member_too():
    """A third pair at 22 in holds more across than the back: the back's blocks take that moment. Of
    297 lb-in at the edge of two equal spans 297/4 comes back at the middle: (297 + 74.25)/22 +
    74.25/22 = 20.25 lb; shear in the short spans makes it 2 % less. Half of 7.25 in."""
    third = {"at": "22 in", "count": 2, "rated_uplift": "500 lb"}
    clips = [*TABLES["hold_down"], {**TABLES["hold_down"][0], **third}]
    result = pushed(hold_down=clips)
    found = check(result, "roll_over", "blocking", "back")
    # by bending alone
    assert demand_in(found, PUSHED) == pytest.approx(20.25 * 3.625, rel=0.025)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (
            {"outrigger__blocking_to_deck": {**SCREWS, "spacing": "8 in"}},
            r"outrigger.blocking_to_deck.spacing = 8 in: leaves 1 in a block 14 1/2 in long, "
            r"which nothing keeps from turning. Allowed: to 7 1/4 in",
        ),
        (
            {"outrigger__blocking_to_deck": {**SCREWS, "fastener": "10d"}},
            "outrigger.blocking_to_deck.fastener .*which nail",
        ),
        (
            {"outrigger__blocking_to_deck": SCREWS, "outrigger__blocking": []},
            "there are no blocks",
        ),
        (
            {"outrigger__blocking_fastening": {**TOES, "fastener": "wood screw #10 x 3 in"}},
            "toe-nails are nails",
        ),
        (
            {"outrigger__blocking_fastening": {**TOES, "count": 1}},
            "blocking_fastening.count = 1: .*2 or more in each end",
        ),
        (
            {"outrigger__blocking_fastening": {**TOES, "spread": "8 in"}},
            "blocking_fastening.spread = 8 in: more than the outrigger is deep, 7 1/4 in",
        ),
        (
            {"outrigger__blocking_fastening": {**TOES, "driven": "slanted"}},
            '"toe-nailed", "end-nailed"',
        ),
        ({"outrigger__tipping": "friction"}, '"blocks", "clips"'),
    ],
)
def test_faults(change, said):
    with pytest.raises(CaseFaultsError, match=said):
        case(**change)


def plf(result):
    return {(o.at, o.way, o.cause, o.level): o.per_foot for o in into_diaphragm(result)}


def test_into_the_house_roof_as_a_diaphragm():
    """30 plf as stated along the wall, 0.6 of it in ASD. Wind square to it: 20 psf on half of 30 in
    is 25 plf, 15 in ASD. Category B: 0.2 x 2.0 x 400 lb of wall and roof in 16 in = 160 lb, 120
    plf, x 0.7 = 84; then 0.7 of what is stated along the wall too, 21."""
    stated = "force along the wall, as stated"
    found = plf(pushed(garage_wall__out_of_plane_wind="20 psf"))
    for way in ("one way", "the other way"):
        assert found["across", way, stated, "strength"] == pytest.approx(30)
        assert found["across", way, stated, "ASD"] == pytest.approx(18)
    for way in ("outward", "inward"):
        assert found["along", way, "wind", "strength"] == pytest.approx(25)
        assert found["along", way, "wind", "ASD"] == pytest.approx(15)
    shaken = plf(pushed(seismic={"category": "B", "sds": 0.2}))
    for way in ("outward", "inward"):
        assert shaken["along", way, "earthquake", "strength"] == pytest.approx(120)
        assert shaken["along", way, "earthquake", "ASD"] == pytest.approx(84)
    assert shaken["across", "one way", stated, "ASD"] == pytest.approx(21)


def test_into_the_house_roof_down_a_rake():
    """6:12 across, sin 0.44721: wind up 24 psf on the garage roof, 12 ft x 2 ft of one truss: 576
    lb x 0.44721 = 257.60 lb up the slope, each 16 in: 193.2 plf, 115.9 in ASD. Down 10 psf: 240 lb:
    107.33 lb, 80.5 plf."""
    rake = {"house_roof__pitch": "6:12", "house_roof__direction": "across the slope"}
    found = plf(designed(**rake, garage_roof__overhang="none"))
    assert found["across", "the other way", "wind", "strength"] == pytest.approx(193.2, abs=0.05)
    assert found["across", "the other way", "wind", "ASD"] == pytest.approx(115.9, abs=0.05)
    assert found["across", "one way", "wind", "strength"] == pytest.approx(80.5, abs=0.05)


def test_both_methods_agree_where_they_must():
    """LRFD, 1.2D + 1.0A: 30 plf x 16/12 = 40 lb, all forces 1/0.6 of D + 0.6A; Z' with KF 3.32, phi
    0.65, lambda 1.0 in place of CD 1.6: 2.158/1.6 = 1.34875 times as much: ratios 1.2357 times."""
    name = "1.2D + A"
    found = check(on_deck(basis__method="LRFD"), "roll_over", "blocks to the deck", "edge")
    by_asd = used(on_deck(), "blocks to the deck", "edge")
    ratio = demand_in(found, name) / capacity(found, name)
    assert ratio == pytest.approx(by_asd / 0.6 / 1.34875, rel=1e-9)


def test_editions_alike_where_their_factors_are():
    one, other = (used(on_deck(basis__loads=f"ASCE 7-{year}"), "blocks to the deck", "edge")
                  for year in (16, 22))  # fmt: skip
    assert one == other


def test_end_nails_stay_open():
    result = toe_nailed(driven="end-nailed")
    found = row(result, "roll_over", "blocking", "edge")
    assert (found.status, "end grain" in found.why) == ("open", True)


def test_the_example_on_a_rake_holds_until_its_screws_are_thinned_out():
    """10 1/2 in blocks: four screws at 2 1/2 in, two at 5 in, where the pull is 6 M/(5 x 2 x 3) in
    place of 6 M/(2.5 x 4 x 5): 5/3 times, and the shear twice."""
    path = Path(__file__).parents[2] / "examples" / "rake_with_blocks_on_the_deck.toml"
    spacing = "outrigger.blocking_to_deck.spacing"
    close, thin = (
        design(read_case(path, [f"{spacing}={apart}"])[0]) for apart in ("2 1/2 in", "5 in")
    )
    assert close.verdict == "pass"
    assert thin.verdict == "fail"
    pulls, shears = (
        [
            next(s.value for s in one.steps[0].chain() if s.symbol == symbol)
            for one in (check(r, "roll_over", "blocks to the deck", "edge") for r in (close, thin))
        ]
        for symbol in ("T_f", "V_f")
    )
    assert pulls[1] == pytest.approx(pulls[0] * 5 / 3, rel=1e-12)
    assert shears[1] == pytest.approx(shears[0] * 2, rel=1e-12)


def test_tipping_at_the_edge_of_a_row():
    """A third place at 16 in: what the edge holds across is that of the row of three, by the
    stiffness method, more than 24 x 28.375/16 = 42.5625 lb with the place at 16 in alone beside it;
    M = (24 + R) x 3.625. E 1.03 x 1.3e6 psi, I 7.25 x 1.5^3 / 12, GA 5/6 E/16 x 10.875."""
    more = [*TABLES["hold_down"], {**TABLES["hold_down"][0], "at": "16 in"}]
    result = pushed(hold_down=more, outrigger__blocking=["edge", "back"])
    E, rigid = 1.03 * 1.3e6, [float("inf")] * 3
    EI, GA = E * 7.25 * 1.5**3 / 12, 5 / 6 * E / 16 * 10.875
    solved = stiffness_method([-44, -16, 0], rigid, EI, GA, -44, 12.375, [("point", 12.375, 24)])
    R = solved.reactions[2]
    assert R > 42.5625
    found = check(result, "roll_over", None, "edge")
    assert demand_in(found, PUSHED) == pytest.approx((24 + R) * 3.625, rel=1e-9)


def test_how_deep_a_toe_nail_reaches():
    """NDS 12.1.6.3, at 30 degrees and a third of its length from the end: 2.5 cos 30 - 2.5/3 =
    1.3317 in of a thick side, and no more than the side is thick."""
    assert reach(2.5, 30.0, 3.5) == pytest.approx(1.3317, abs=5e-5)
    assert reach(2.5, 30.0, 1.25) == 1.25
    nail = read_fastener("nail 0.131 x 2 1/2 in")
    assert penetration(nail, 3.5).value == pytest.approx(1.3317, abs=5e-5)


def test_end_nailed_blocks_bring_nothing_to_the_ends_of_a_row_that_is_worked_out():
    assert at_row_ends(toe_nailed().member)
    assert at_row_ends(toe_nailed(driven="end-nailed").member) == []


def test_a_clip_that_nobody_listed_sideways_does_not_hold_the_last_outrigger():
    """The last block lifts it, and the listing at the edge is for uplift alone."""
    for key in ("rated_lateral", "rated_uplift"):
        result = pushed(outrigger__blocking_fastening=TOES, **{f"hold_down__1__{key}": GONE})
        found = row(result, "roll_over", "ends of the row", "edge")
        assert found.status == "open"
        assert "listed for uplift and sideways" in found.why
