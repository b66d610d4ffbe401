"""What ties the garage wall to the outriggers, worked by hand.

The case of test_level_design_by_hand.py. On the wall line of one outrigger: D 407.5, L 122.5, Lr
490, W up 588 lb; wall 30 in high, 12 psf, 16 in of it.

    uplift, 0.6D + 0.6W: 0.6 x 588 - 0.6 x 407.5 = 352.8 - 244.5 = 108.3 lb
    least along a member: 0.05 x (407.5 + 122.5 + 490) = 51.0 lb (ASCE 7 1.4.3, recalled), x 0.7
    in ASD (2.6) = 35.7 lb
    least square to the wall: 5 psf x 1.25 ft x 16/12 ft = 8.33 lb, more than 0.2 x 12 psf (1.4.4)
"""

import pytest
from level_case import GONE, case, check, designed, row
from published import printed

from outrigger.cases.batch import batch_of
from outrigger.cases.faults import CaseFaultsError
from outrigger.verdict.design import design, designs_of

SCREWS = {"fastener": "wood screw #14 x 4 in", "count": 2}
WIND = {"garage_wall__out_of_plane_wind": "20 psf"}


def ids(result):
    return [c.link.id for c in result.checks if c.id == "wall_tie"]


def test_a_listed_tie_in_uplift():
    """108.3 / 2 = 54.15 lb of 900 each."""
    found = row(designed(), "wall_tie", "uplift")
    assert found.combination.startswith("0.6D + 0.6W up")
    assert (found.demand, found.capacity) == (printed("54.15"), printed("900"))


def test_a_listed_tie_with_a_side_force():
    """20 psf on the wall: 20 x 1.25 x 16/12 = 33.33 lb, x 0.6 = 20.0: 54.15 / 900 + 20 / (2 x 900)
    = 0.06017 + 0.01111 = 0.07128. By itself 20 of 1800 lb."""
    found = designed(**WIND)
    both = row(found, "wall_tie", "uplift")
    assert both.demand == printed("0.0713")
    along = check(found, "wall_tie", "along")
    names = [c.text for c in along.combinations]
    assert along.demand_at(0, names.index("D + 0.6H away")) == printed("20.0")
    assert along.capacity_at(0, names.index("D + 0.6H away")) == printed("1800")


def test_the_least_that_it_must_hold():
    """35.7 lb each way, of 2 x 900 x 1.0 / 1.6 = 1125 lb: no duration is printed for it."""
    found = designed()
    assert ids(found) == ["uplift", "along, least", "across, least"]
    for link in ("along, least", "across, least"):
        one = row(found, "wall_tie", link)
        assert (one.demand, one.capacity) == (printed("35.7"), printed("1125"))
        assert one.check.steps[0].status == "MEMORY"


def test_a_tall_heavy_wall_has_its_own_least():
    """8 ft of 15 psf: 5 psf still; of 30 psf: 0.2 x 30 = 6 psf x 4 ft x 16/12 = 32 lb; with a roof
    of half the load 0.05 x (D + L + Lr) is less: span 6 ft: D 15 x 3.25 x 2 + 30 x 8 x 16/12 =
    97.5 + 320 = 417.5, L 32.5, Lr 130: 29.0. So 32 x 0.7 = 22.4 lb."""
    found = designed(garage_wall__height="8 ft", garage_wall__dead="30 psf",
                     garage_roof__span="6 ft")  # fmt: skip
    assert row(found, "wall_tie", "along, least").demand == printed("22.4")
    assert row(found, "wall_tie", "across, least").demand == printed("20.3")


def test_a_tall_light_wall_has_five_psf():
    """10 ft of 10 psf under the same roof: 5 psf x 5 ft x 16/12 ft = 33.33 lb, more than 2 psf of
    its weight and 0.05 x (97.5 + 133.3 + 32.5 + 130) = 19.7: x 0.7 = 23.33 lb."""
    found = designed(garage_wall__height="10 ft", garage_wall__dead="10 psf",
                     garage_roof__span="6 ft")  # fmt: skip
    assert row(found, "wall_tie", "along, least").demand == printed("23.33")


def test_a_force_along_the_wall():
    """30 plf x 16/12 = 40 lb, x 0.6 = 24 lb across the outrigger."""
    found = check(designed(garage_wall__along="30 plf"), "wall_tie", "across")
    names = [c.text for c in found.combinations]
    assert found.demand_at(0, names.index("D + 0.6A")) == printed("24.0")


def test_screws_straight_through():
    """Two #14 x 4 in through one 1 1/2 in plate of SPF (G 0.42) into Hem-Fir (0.43), 2 1/2 in deep.

    Withdrawal 2850 x 0.43^2 x 0.242 = 127.5 lb/in x 2.5 = 318.8; head 0.48 in through 1 1/2 in:
    least of 690 pi 0.48 x 0.42^2 x 1.5 = 275.3 and 1725 pi 0.48^2 x 0.42^2 = 220.2 lb: x 1.6 =
    352.4

    Fe 3513 and 3364 psi, Fyb 70,000, root 0.196 in, KD = 10 x 0.196 + 0.5 = 2.46; Re 1.0443:
    IV  0.196^2 / 2.46 x sqrt(2 x 3513 x 70,000 / (3 x 2.0443)) = 0.015616 x 8955 = 139.8 lb
    IIIs k3 = sqrt(3.9152 + 0.6905) - 1 = 1.1461: 1.1461 x 0.196 x 1.5 x 3513 / (3.0443 x 2.46) =
    158.1
    Z = 139.8: two at CD 1.0 hold 279.7 lb."""
    found = designed(wall_tie=SCREWS, garage_wall__plates=1)
    pull = row(found, "wall_tie", "uplift")
    assert (pull.demand, pull.capacity) == (printed("54.15"), pytest.approx(352.4, abs=0.2))
    least = row(found, "wall_tie", "along, least")
    assert least.capacity == pytest.approx(279.7, abs=0.4)


def test_screws_pulled_and_pushed_at_once():
    """The same under 20 psf on the wall, 20 lb at 0.6: V 10 lb on one screw, T 54.15: R = 55.07 lb,
    cos^2 = 100 / 3032.2 = 0.03298. Z' 139.8 x 1.6 = 223.7, W' 352.4 (NDS 12.4-1): 352.4 x 223.7 /
    (352.4 x 0.03298 + 223.7 x 0.96702) = 345.8 lb."""
    found = designed(wall_tie=SCREWS, garage_wall__plates=1, **WIND)
    both = row(found, "wall_tie", "uplift")
    assert (both.demand, both.check.clause) == (printed("55.07"), "NDS 2018 12.4")
    assert both.capacity == pytest.approx(345.8, abs=0.3)


def test_screws_split_the_top_of_the_outrigger_by_analogy():
    """2 1/2 in deep in 7 1/4, 6 in from the end: 2/3 x 150 x 1.6 x 1.5 x 2.5 x (2.5/7.25)^2 = 71.3
    lb against 108.3: over 1, by analogy, so open. #14 x 6 in: 4 1/2 deep: 2/3 x 240 x 1.5 x 4.5 x
    (4.5/7.25)^2 = 416.1 lb."""
    short = row(designed(wall_tie=SCREWS, garage_wall__plates=1), "wall_tie", "splitting")
    assert (short.demand, short.capacity) == (printed("108.3"), printed("71.3"))
    assert short.status == "open"
    long = designed(wall_tie={**SCREWS, "fastener": "wood screw #14 x 6 in"}, garage_wall__plates=1)
    assert row(long, "wall_tie", "splitting").capacity == printed("416.1")
    assert {c.status() for c in long.checks if c.id == "wall_tie"} == {"pass"}
    assert long.verdict == "pass"


def test_two_plates_leave_a_short_screw_nothing():
    """4 in less 3 in: 1 in, under 6D = 1.45 in: nothing counts, and it fails."""
    found = row(designed(wall_tie=SCREWS), "wall_tie", "uplift")
    assert (found.status, found.capacity) == ("fail", 0)
    assert "nothing counts" in found.check.why


def test_a_lag_has_its_washer_and_its_distances():
    """One 1/4 in x 6 in lag: its washer crushes the plate, a row of its own. Its end is 6 in off,
    7D = 1.75 in needed. Along the wall 4D = 1 in to the edge, 3/4 is there: open.
    Washer: 108.3 lb on pi/4 (0.734^2 - 0.25^2) = 0.37405 in2: 289.5 psi of 425 (SPF)."""
    lag = {"fastener": "lag 1/4 in x 6 in"}
    found = designed(wall_tie=lag)
    assert "washer" in ids(found)
    crushed = row(found, "wall_tie", "washer")
    assert (crushed.demand, crushed.capacity) == (printed("289.5"), printed("425"))
    assert row(found, "wall_tie", "uplift").status == "pass"
    pushed = designed(wall_tie=lag, garage_wall__along="30 plf")
    assert row(pushed, "wall_tie", "across").status == "open"
    assert row(designed(wall_tie={**lag, "count": 2}), "wall_tie", "uplift").status == "open"


def test_not_given():
    """Pulled up: open, asked for; no wind: nothing pulls, nothing is asked. It never fails."""
    found = designed(wall_tie=GONE, **WIND)
    assert ids(found) == ["uplift", "along"]
    assert row(found, "wall_tie", "uplift").demand == printed("108.3")
    assert found.verdict == "open"
    (asked,) = [one for one in found.not_given if one.key == "wall_tie"]
    assert asked.question.startswith("what ties the garage wall")
    assert asked.line.startswith("[wall_tie]")
    still = designed(wall_tie=GONE, house_roof__wind_uplift="none",
                     wind={"uplift": "none", "down": "none"})  # fmt: skip
    assert (ids(still), still.verdict) == ([], "pass")


def test_half_a_pound_is_a_force_too():
    """0.5 plf along the wall x 16 in x 0.6 = 0.4 lb on each tie, given or not."""
    for tie in ({}, {"wall_tie": GONE}):
        found = row(designed(garage_wall__along="0.5 plf", **tie), "wall_tie", "across")
        assert found.demand == printed("0.400")


def test_what_is_asked_of_a_listing():
    bare = {"count": 2, "rated_uplift": "900 lb"}
    found = designed(wall_tie=bare)
    asked = {one.key for one in found.not_given}
    keys = ("rated_for", "rated_wood", "rated_across_grain", "rated_source")
    assert asked == {f"wall_tie.{key}" for key in keys}
    assert row(found, "wall_tie", "along, least").status == "open"
    assert row(designed(wall_tie={**bare, "rated_wood": "Douglas Fir-Larch"}),
               "wall_tie", "uplift").status == "open"  # fmt: skip


def test_down_a_slope_the_dead_load_slides_it():
    """6:12: D on the line 407.5 x sin 26.565 = 182.24 lb along the outrigger, whatever the wind."""
    found = check(
        designed(house_roof__pitch="6:12", house_roof__direction="down the slope"),
        "wall_tie", "along",
    )  # fmt: skip
    names = [c.text for c in found.combinations]
    assert found.demand_at(0, names.index("D")) == printed("182.24")


def test_down_a_slope_fasteners_go_through_the_tapered_filler_too():
    """4:12 under the middle of 5 1/2 in of plate: 2.75 x 4/12 = 0.917 in, so that 6 in of screw
    leave 6 - 1.5 - 0.917 = 3.583 in in the wood, 4.5 level. 12:12: 2.75 in, 4 in of screw do not
    even reach the outrigger. The filler counts as a gap: it holds less along too."""
    long = {**SCREWS, "fastener": "wood screw #14 x 6 in"}
    slope = {"house_roof__direction": "down the slope", "garage_wall__plates": 1}
    level = designed(wall_tie=long, garage_wall__plates=1, **WIND)
    found = designed(wall_tie=long, house_roof__pitch="4:12", **slope)
    for result, deep in ((level, "4.500"), (found, "3.583")):
        steps = row(result, "wall_tie", "splitting").check.steps[1].chain()
        assert next(s for s in steps if s.symbol == "d_e").value == printed(deep)
    sides = [row(one, "wall_tie", "across, least").capacity for one in (level, found)]
    assert sides[1] < sides[0]
    steep = designed(wall_tie=SCREWS, house_roof__pitch="12:12", **slope)
    none = row(steep, "wall_tie", "across, least")
    assert (none.status, none.capacity) == ("fail", 0.0)


def test_strength_design_holds_a_listing_to_the_asd_set_and_fasteners_to_their_own():
    """0.9D + W up: 588 - 0.9 x 407.5 = 221.25 lb on two screws: 110.6 each; listed: 54.15."""
    lrfd = {"basis__method": "LRFD"}
    assert row(designed(**lrfd), "wall_tie", "uplift").demand == printed("54.15")
    own = designed(wall_tie=SCREWS, garage_wall__plates=1, **lrfd)
    assert row(own, "wall_tie", "uplift").demand == printed("110.6")
    assert row(own, "wall_tie", "along, least").demand == printed("51.0")


@pytest.mark.parametrize("tie", [SCREWS, "listed"])
def test_a_batch_is_its_cases(tie):
    more = {} if tie == "listed" else {"wall_tie": tie, "garage_wall__plates": 1}
    base = case(**more, **WIND)
    for path, many in (("outrigger.tail", [2.0, 6.0, 40.0]), ("outrigger.spacing", [12.0, 16.0])):
        together = designs_of(batch_of(base, {path: many}))
        for i, value in enumerate(many):
            alone = design(batch_of(base, {path: value}).case)
            here = [(r.id, r.place, r.link, r.ratio) for r in together.rows(i)]
            assert here == [(r.id, r.place, r.link, r.ratio) for r in alone.rows]


@pytest.mark.parametrize(
    ("tie", "said"),
    [
        ({}, "wall_tie is empty"),
        ({"fastener": "16d"}, "which nail?"),
        ({**SCREWS, "rated_uplift": "400 lb"}, "wall_tie.fastener stands beside a rated value"),
        ({**SCREWS, "rated_for": "wind"}, "wall_tie.rated_for is given, but no"),
        ({"rated_uplift": "400 lb", "count": 0}, "wall_tie.count"),
        ({"rated": "400 lb"}, "wall_tie.rated no such key"),
    ],
)
def test_faults(tie, said):
    with pytest.raises(CaseFaultsError) as caught:
        case(wall_tie=tie)
    assert said in str(caught.value)


def splitting(found, case):
    """Capacity of the outrigger's top where its fasteners pull, in the uplift of the design."""
    (top,) = (c for c in found.checks if c.link.id == "splitting")
    names = [c.text for c in top.combinations]
    return top.capacity_at(case, names.index("0.6D + 0.6W up, wind up none on the back span"))


def test_far_from_the_end_the_top_splits_less_and_two_plies_hold_twice():
    """Fv' 150 x 1.6. 6 in from the end as before, 71.3 lb; 40 in from it, over 5 x 7.25 (3.4.3.3):
    2/3 x 240 x 1.5 x 2.5 = 600.0. Two plies with a screw in each hold 2 x 71.34, one screw in two
    plies 71.3."""
    stated = {"wall_tie": SCREWS, "garage_wall__plates": 1}
    both = designs_of(batch_of(case(**stated), {"outrigger.tail": [6.0, 40.0]}))
    assert [splitting(both, 0), splitting(both, 1)] == [printed("71.3"), printed("600.0")]
    pair = designed(**stated, outrigger__plies=2)
    assert splitting(pair, 0) == printed("142.7")
    one = designed(**stated | {"wall_tie": {**SCREWS, "count": 1}}, outrigger__plies=2)
    assert splitting(one, 0) == printed("71.3")


def test_a_lag_with_wood_enough_beside_it_holds_along_the_wall():
    """4D = 1 in to the loaded edge (Table 12.5.1C): a 4x8 has 1 3/4 in. Mode IV, both woods across
    the grain: Fe = 6100 G^1.45 / sqrt(1/4): 3588.29 of Hem-Fir, 3467.94 of SPF; Dr 0.173: My =
    70,000 x 0.173^3 / 6 = 60.4067; 2 My / (1 / (2 x 599.953) + 1 / (2 x 620.774)) = 73,718.6, its
    root 271.511 over Rd = (10 x 0.173 + 0.5) x 1.25 = 2.7875: 97.403, x 1.6 = 155.845 lb."""
    wide = {"outrigger__size": "4x8", "wall_tie": {"fastener": "lag 1/4 in x 6 in"}}
    found = row(designed(**wide, garage_wall__along="30 plf"), "wall_tie", "across")
    assert found.status == "pass"
    assert found.combination == "D + 0.6A"
    assert found.capacity == pytest.approx(155.845, abs=0.003)


def test_a_listed_tie_on_green_lumber():
    """NDS 2018 Table 11.3.3: fastened wet is 0.7 at most; a listing is for dry wood."""
    green = designed(outrigger__seasoned=False, **WIND)
    held = row(green, "wall_tie", "uplift")
    assert held.status == "open"
    assert row(designed(**WIND), "wall_tie", "uplift").status == "pass"
