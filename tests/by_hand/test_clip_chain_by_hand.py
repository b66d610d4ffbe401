"""Hold-downs built of fasteners, each style worked by hand.

The level case of level_case.py without overhang, two hold-downs, under D + S (see
test_member_kinds_by_hand.py): T at the back = 14,679.43/44 - 3.52052 x 22 - 0.18719 x 4 x 46/44 =
255.39 lb. Hem-Fir outrigger, G 0.43; framing Spruce-Pine-Fir, G 0.42; sheathing 7/16 in; CD 1.15.
"""

import json

import numpy as np
import pytest
from in_combination import demand_in
from level_case import CLIP, GONE, capacity, check, designed, row
from published import printed

from outrigger.cases.faults import CaseFaultsError
from outrigger.report import words
from outrigger.report.data.check import as_data
from outrigger.report.screen import arithmetic
from outrigger.verdict import dangers
from outrigger.verdict.clip_forces import clip_forces, most_pulls

DS = "D + S"
BENT = {
    "at": "back",
    "count": 2,
    "side_fastener": "10d x 1 1/2 in",
    "side_fasteners": 3,
    "side_height": "3 in",
    "deck_fastener": "wood screw #10 x 2 1/2 in",
    "deck_fasteners": 2,
    "into": "framing",
    "steel": "12 ga",
    "leg_offset": "3/4 in",
}
EDGE = {"at": "edge", "count": 2, "rated_uplift": "450 lb", **CLIP}


def held(back, **changes):
    return designed(
        garage_roof__overhang="none",
        house_roof__sheathing_thickness="7/16 in",
        house_roof__sheathing="OSB",
        house_roof__framing_parallel=False,
        hold_down=[back, EDGE],
        **changes,
    )


def ratio(result, link):
    one = check(result, "hold_down:back", link)
    return demand_in(one, DS) / capacity(one, DS)


def test_what_a_chain_carries_is_said_of_its_weakest_link():
    """Without snow the leg governs: steel holds no more for a short load, so where the pull is the
    most; the side fasteners come first and govern under D + Lr, where it is less."""
    result = held(BENT, snow__roof="none", house_roof__snow="none")
    leg, side = (row(result, "hold_down:back", link) for link in ("bent leg", "side fasteners"))
    assert leg.ratio > side.ratio
    (back,) = [one for one in clip_forces(result) if one.at == "back"]
    assert back.combination == leg.combination != side.combination
    assert back.uplift == pytest.approx(2 * most_pulls(result)["back"], rel=1e-12)


def test_a_listed_side_value_of_a_built_clip_counts_in_the_asd_set():
    """30 plf along, in LRFD too: D + 0.6A, 24 x 12.375/44 = 6.75 lb at the back on 2 x 160 lb."""
    side = {"rated_lateral": "160 lb", "rated_for": "wind", "rated_across_grain": True,
            "rated_wood": "Spruce-Pine-Fir", "rated_source": "a listing"}  # fmt: skip
    for method in ("ASD", "LRFD"):
        result = held({**BENT, **side}, basis__method=method, garage_wall__along="30 plf")
        found = row(result, "slide", "across", "back")
        assert found.combination == "D + 0.6A"
        assert found.demand == pytest.approx(6.75)
        assert found.capacity == pytest.approx(320.0)


def test_a_clip_of_fasteners_is_listed_for_no_pull_across_the_grain():
    """It has no listing: the outrigger may split at its side fasteners whatever the file says."""
    told, plain = held({**BENT, "rated_across_grain": True}), held(BENT)
    rows = [row(found, "split:back") for found in (told, plain)]
    assert rows[0].ratio == rows[1].ratio
    assert not [one for one in held(EDGE | {"at": "back"}).checks if one.id == "split:back"]


def test_the_end_of_the_outrigger_behind_the_back_clip():
    """10d nails in the side: 5 x 0.148 = 0.74 in to the end; 4 in run on behind the back, 1/2 in
    does not give full value, by the commentary's guidance: open. A stated distance counts itself;
    none of the edge's is known."""
    link = "end of the outrigger"
    found = row(held(BENT), "hold_down:back", link)
    assert (found.demand, found.capacity) == (pytest.approx(0.74), 4.0)
    short = held(BENT, outrigger__behind_back="1/2 in")
    assert row(short, "hold_down:back", link).status == "open"
    stated = held({**BENT, "end_distance": "2 in"}, outrigger__behind_back="1/2 in")
    assert row(stated, "hold_down:back", link).capacity == 2.0


@pytest.mark.parametrize(
    ("change", "why"),
    [({"outrigger__moisture": "wet", "house_roof__sheathing_bearing": "300 psi"}, "dry, cool"),
     ({"outrigger__seasoned": False}, "dry when the clip goes on"),
     ({"house_roof__framing_species": "Western Cedars"}, "listed for G 0.42")],
)  # fmt: skip
def test_a_listed_side_value_of_a_built_clip_is_for_its_own_wood_and_service(change, why):
    """The 20 lb along of 20 psf on the wall against two clips of 160 lb, as above; the listing is
    for dry Spruce-Pine-Fir, G 0.42: not for wet wood, nor for Western Cedars, G 0.36."""
    side = {"rated_lateral": "160 lb", "rated_for": "wind", "rated_wood": "Spruce-Pine-Fir",
            "rated_into": "framing through OSB 7/16 in", "rated_source": "a listing"}  # fmt: skip
    both = [{**BENT, **side}, {**BENT, **side, "at": "edge"}]
    on = {"hold_down": both, "garage_wall__out_of_plane_wind": "20 psf"}
    on |= {"house_roof__sheathing": "OSB", "house_roof__sheathing_thickness": "7/16 in"}
    assert row(designed(**on), "slide", "along").status == "pass"
    found = row(designed(**on, **change), "slide", "along")
    assert found.status == "open"
    assert why in found.check.why


@pytest.mark.parametrize("key", ["rated_for", "rated_wood", "rated_into", "rated_source"])
def test_a_listed_side_value_of_a_built_clip_is_asked_of_its_listing(key):
    """As a listed pull is: a number of no listing held 2000 lb of sliding."""
    found = held({**BENT, "rated_lateral": "2000 lb"})
    assert f"hold_down[0].{key}" in [one.key for one in found.not_given]


def test_side_fasteners_longer_than_the_piece_are_a_danger():
    """1 1/2 in nails end in 1 1/2 in of wood, 3 in nails come out of it, not of 3 1/2 in."""
    long = {**BENT, "side_fastener": "10d common"}
    assert not dangers.holds(held(BENT))["long nails"]
    assert dangers.holds(held(long))["long nails"]
    assert not dangers.holds(held(long, outrigger__size="4x8"))["long nails"]


def test_bent_clip_into_rafters():
    """A clip U = 127.69 lb.

    Side, three 10d x 1 1/2 (D 0.148) through 0.105 in steel: p = 1.395 in, 9.426 D. Fem 16,600 x
    0.43^1.84 = 3513.1, Fes 61,850, Fyb 90,000, Rd 2.2: mode IIIs 112.74 lb direct, 0.9426 x 112.74
    = 106.26 in proportion; x 1.15 x 3 = 366.6.
    Leg: 127.69 x 0.75 = 95.77 lb-in; w 2 (2 x 0.75 + 0.363) = 3.726, 33,000 x 3.726 x 0.105^2/6 /
    1.67 = 135.29. Prying to a toe 1/2 in off: 127.69 x (1 + 0.75/0.5) = 319.24, 159.62 a screw.
    Screw #10: W = 2850 x 0.42^2 x 0.190 = 95.521; thread 2 x 2.5/3 = 1.6667 in of p = 1.9575:
    95.521 x 1.15 x 1.6667 = 183.08. Head: 1.5 x 0.105 x 0.363 x 45,000/3 = 857.6."""
    result = held(BENT)
    side = check(result, "hold_down:back", "side fasteners")
    assert demand_in(side, DS) == pytest.approx(127.69, abs=0.005)
    assert capacity(side, DS) == pytest.approx(366.6, abs=0.05)
    Z = next(s for s in side.steps[1].chain() if s.symbol == "Z")
    assert Z.note == "mode IIIs, penetration in proportion"
    leg = check(result, "hold_down:back", "bent leg")
    assert demand_in(leg, DS) == pytest.approx(95.77, abs=0.005)
    assert capacity(leg, DS) == pytest.approx(135.29, abs=0.005)
    deck = check(result, "hold_down:back", "deck fasteners")
    assert demand_in(deck, DS) == pytest.approx(159.62, abs=0.005)
    assert capacity(deck, DS) == pytest.approx(183.08, abs=0.005)
    head = check(result, "hold_down:back", "head on the clip")
    assert capacity(head, DS) == pytest.approx(857.6, abs=0.05)
    said = words.weakest(result.rows)
    assert said[0].startswith(
        "Back clip, weakest link: its fasteners pull out of the house framing"
    )


def test_a_bend_that_is_held():
    """U e/2 = 47.885 lb-in in the leg and on the side fasteners: two rows 1 in apart, 1.5 nails in
    each: 47.885/(1 x 1.5) = 31.92 lb pull; deck 127.69 (1 + 0.75/(2 x 0.5)) / 2 = 111.73 lb.
    Each side nail also takes 127.69/3 = 42.565 lb across: R = 53.206 lb, cos 0.8, sin 0.6. Hem-Fir:
    W = 1380 x 0.43^2.5 x 0.148 = 24.763, x 1.15 x 1.395 in = 39.727 lb; Z' = 106.26 x 1.15 =
    122.20: 39.727 x 122.20 / (39.727 x 0.8 + 122.20 x 0.6) = 46.19 lb (NDS 12.4-2)."""
    result = held({**BENT, "bend_held": True, "fastener_spacing": "1 in"})
    leg = check(result, "hold_down:back", "bent leg")
    assert demand_in(leg, DS) == pytest.approx(47.885, abs=0.005)
    deck = check(result, "hold_down:back", "deck fasteners")
    assert demand_in(deck, DS) == pytest.approx(111.73, abs=0.005)
    turned = check(result, "hold_down:back", "side fasteners, bend held")
    pull = next(s for s in turned.steps[0].chain() if s.symbol == "T_f")
    names = [c.text for c in turned.combinations]
    assert pull.value[0, names.index(DS)] == pytest.approx(31.92, abs=0.005)
    assert demand_in(turned, DS) == pytest.approx(53.206, abs=0.005)
    assert capacity(turned, DS) == pytest.approx(46.19, abs=0.005)
    free = held({**BENT, "bend_held": True})  # its side fasteners cannot be checked for it
    assert demand_in(check(free, "hold_down:back", "bent leg"), DS) == pytest.approx(
        95.77, abs=0.005
    )


def test_bent_clip_in_sheathing_only():
    """No withdrawal value; the panel's own 8d nails, 2 x 16/6 = 5 whole ones: 51.08 lb each. W =
    1380 x 0.42^2.5 x 0.131 = 20.667, x 1.15 x 2.0625 in = 49.02 lb; the head 690 pi x 0.281 x 0.25
    x 0.4375 x 1.15 = 76.61: 1.042. Panel: 255.39 x 16/4 = 1021.6 lb-in, no value on file."""
    more = {
        "house_roof__sheathing_nail": "nail 0.131 x 2 1/2 in",
        "house_roof__sheathing_nail_spacing": "6 in",
        "house_roof__framing_spacing": "16 in",
    }
    result = held({**BENT, "into": "sheathing only"}, **more)
    deck = row(result, "hold_down:back", "deck fasteners, panel only")
    assert (deck.status, deck.capacity) == ("open", None)
    nails = check(result, "hold_down:back", "panel nails")
    assert demand_in(nails, DS) == pytest.approx(51.08, abs=0.005)
    assert capacity(nails, DS) == pytest.approx(49.02, abs=0.02)  # G^2.5 to four digits
    assert row(result, "hold_down:back", "panel nails").status == "fail"
    bent = check(result, "hold_down:back", "panel between framing")
    assert demand_in(bent, DS) == pytest.approx(1021.6, abs=0.05)
    assert bent.status() == "open"
    without = held({**BENT, "into": "sheathing only"})
    assert row(without, "hold_down:back", "panel nails").status == "open"


LAG = {
    "at": "back",
    "kind": "through",
    "deck_fastener": "lag 3/8 in x 10 in",
    "deck_fasteners": 1,
    "into": "framing",
}


def test_lag_through_the_outrigger():
    """3/8 x 10 through 7.25 + 0.4375 in: p = 2.3125 in, less the tip 0.21875: 2.09375 in. W = 1800
    x 0.42^1.5 x 0.375^0.75 = 234.8, x 1.15 x 2.09375 = 565.3 lb for 255.39. Washer 1 in, hole 3/8:
    0.67495 in2, 378.4 psi of Fc perp' 405. Edge: 1.5 D = 0.5625 of 0.75 in."""
    result = held(LAG)
    deck = check(result, "hold_down:back", "deck fasteners")
    assert demand_in(deck, DS) == pytest.approx(255.39, abs=0.005)
    assert capacity(deck, DS) == pytest.approx(565.3, abs=0.1)  # W to four digits
    washer = check(result, "hold_down:back", "washer")
    assert demand_in(washer, DS) == pytest.approx(378.4, abs=0.05)
    assert capacity(washer, DS) == pytest.approx(405, abs=1e-9)
    assert row(result, "hold_down:back", "edge of the rafter").ratio == pytest.approx(0.75)
    net = check(result, "bending", "at the hole")
    assert net.place == "back"


def test_a_lag_too_short_counts_nothing():
    """3/8 x 9: 1.3125 - 0.21875 = 1.09 in in the framing, under 4 D = 1.5 in."""
    result = held({**LAG, "deck_fastener": "lag 3/8 in x 9 in"})
    deck = row(result, "hold_down:back", "deck fasteners")
    assert (deck.status, deck.capacity) == ("fail", 0.0)
    assert "nothing counts" in deck.check.why


def test_listed_strap_over_the_top():
    """500 lb for any duration: not lowered, no splitting row."""
    strap = {
        "at": "back", "rated_uplift": "500 lb", "rated_for": "any duration",
        "rated_wood": "Spruce-Pine-Fir", "rated_source": "listing", "into": "framing",
        "side_height": "over the top",
    }  # fmt: skip
    result = held(strap)
    assert ratio(result, "rated clip") == pytest.approx(255.39 / 500, abs=5e-6)
    assert not [c for c in result.checks if c.id == "split:back"]


def test_listed_clip():
    """500 lb for wind, two of them: 127.69 of 500 x 1.15/1.6 = 359.375 lb."""
    listed = {"at": "back", "count": 2, "rated_uplift": "500 lb", **CLIP}
    assert ratio(held(listed), "rated clip") == pytest.approx(127.69 / 359.375, abs=2e-5)


def test_dead_load_alone_on_smooth_nails_is_open():
    """Without the house roof's dead load, dead load alone lifts the back: nails creep out, screws
    do not."""
    nails = {**BENT, "deck_fastener": "nail 0.131 x 2 1/2 in"}
    result = held(nails, house_roof__dead="none")
    assert row(result, "hold_down:back", "deck fasteners").check.rule == "open"
    screws = held(BENT, house_roof__dead="none")
    assert row(screws, "hold_down:back", "deck fasteners").check.rule == ""


def test_screws_pulled_and_pushed_aside_together():
    """12.4.1 for screws, with 20 psf on the wall: V along 20 lb at the edge alone, none at the
    back of two places; with no edge clip the back has all of it: 20/4 = 5 lb on each screw in D +
    0.6H away. Z over a 7/16 in gap is not repeated here: W'p Z'/(W'p cos^2 + Z' sin^2)."""
    result = designed(
        garage_roof__overhang="none", house_roof__sheathing_thickness="7/16 in",
        garage_wall__out_of_plane_wind="20 psf", wind={"uplift": "none"},
        house_roof__wind_uplift="none", hold_down=[BENT],
    )  # fmt: skip
    deck = check(result, "hold_down:back", "deck fasteners")
    R, Z_alpha = deck.steps
    V = next(s for s in R.chain() if s.symbol == "V_f")
    names = [c.text for c in deck.combinations]
    i = names.index("D + 0.6H away")
    assert V.value[0, i] == pytest.approx(5.0, abs=1e-9)
    T = next(s for s in R.chain() if s.symbol == "T_f")
    size = (V.value[0, i] ** 2 + T.value[0, i] ** 2) ** 0.5
    assert R.value[0, i] == pytest.approx(size, rel=1e-12)
    Wp, Z = (next(s for s in Z_alpha.chain() if s.symbol == k) for k in ("Wp_adj", "Z_adj"))
    w, z = (float(s.value[..., i].item()) for s in (Wp, Z))
    cos2, sin2 = (V.value[0, i] / size) ** 2, (T.value[0, i] / size) ** 2
    assert Z_alpha.value[0, i] == pytest.approx(w * z / (w * cos2 + z * sin2), rel=1e-9)


def test_nails_into_the_ends_of_blocks_do_not_close_the_tipping():
    """They would be pulled out of end grain (NDS 12.1.6.1): the moment is printed, and open. At the
    edge 24 + 30.75 lb over half of 7.25 in: 198.5 lb-in."""
    fastening = {"fastener": "nail 0.148 x 3 in", "count": 2, "spread": "4 in"}
    result = held(BENT, garage_wall__along="30 plf", outrigger__blocking_fastening=fastening)
    roll = check(result, "roll_over", "blocking", "edge")
    assert demand_in(roll, "D + 0.6A") == pytest.approx((24 + 30.75) * 7.25 / 2, abs=1e-6)
    assert roll.status() == "open"
    assert "end grain" in roll.why


@pytest.mark.parametrize(
    ("change", "words_"),
    [
        ({"side_fastener": "10d"}, "which nail"),
        ({"side_fasteners": GONE}, "how many"),
        ({"side_fastener": GONE}, "name the fastener"),
        ({"deck_fastener": "wood screw #11 x 2 in"}, "no wood screw #11"),
        ({"steel": "17 ga"}, "no such gage"),
        ({"deck_fasteners": -1}, "whole number"),
    ],
)
def test_bad_fasteners_are_faults(change, words_):
    clip = {key: value for key, value in {**BENT, **change}.items() if value is not GONE}
    with pytest.raises(CaseFaultsError, match=words_):
        held(clip)


@pytest.mark.parametrize(
    ("gone", "link"),
    [
        (("deck_fastener", "deck_fasteners"), "deck fasteners"),
        (("steel",), "side fasteners"),
        (("steel",), "bent leg"),
        (("leg_offset",), "bent leg"),
    ],
)
def test_a_clip_of_which_only_half_is_known_is_open(gone, link):
    clip = {key: value for key, value in BENT.items() if key not in gone}
    found = row(held(clip), "hold_down:back", link)
    assert (found.status, found.capacity) == ("open", None)


def test_sliding_on_bent_clips():
    """20 psf on the wall slides 20 lb along in D + 0.6H away: no listed edge clip, so the two bent
    clips at the back hold it, CD 1.6. Deck: #10 (Dr 0.152, KD 2.2) through 0.105 in of steel and a
    7/16 in gap into SPF, G 0.42, Fem 3364.2 psi; the yield modes over a gap solved here from their
    quadratic; p = 1.9575 in, 10.3 D, so nothing in proportion. Side: 106.26 x 1.6 x 3 = 510.1."""
    result = designed(
        garage_roof__overhang="none", house_roof__sheathing_thickness="7/16 in",
        garage_wall__out_of_plane_wind="20 psf", wind={"uplift": "none"},
        house_roof__wind_uplift="none", hold_down=[BENT],
    )  # fmt: skip
    D, g, lm, ls, Fyb = 0.152, 0.4375, 1.9575, 0.105, 80_000.0
    qm, qs, M = 16_600 * 0.42**1.84 * D, 61_850.0 * D, Fyb * D**3 / 6
    quadratics = {
        "II": (1 / (4 * qs) + 1 / (4 * qm), ls / 2 + g + lm / 2, -qs * ls**2 / 4 - qm * lm**2 / 4),
        "IIIm": (1 / (2 * qs) + 1 / (4 * qm), g + lm / 2, -M - qm * lm**2 / 4),
        "IIIs": (1 / (4 * qs) + 1 / (2 * qm), ls / 2 + g, -qs * ls**2 / 4 - M),
        "IV": (1 / (2 * qs) + 1 / (2 * qm), g, -2 * M),
    }
    P = {m: (-B + (B * B - 4 * A * C) ** 0.5) / (2 * A) for m, (A, B, C) in quadratics.items()}
    Z = min(*P.values(), qm * lm, qs * ls) / 2.2
    slide = check(result, "slide", "along")
    assert demand_in(slide, "D + 0.6H away") == pytest.approx(20.0, abs=1e-9)
    assert capacity(slide, "D + 0.6H away") == pytest.approx(
        2 * min(510.1, 2 * Z * 1.6), rel=1e-4
    )  # the tip of the screw bears in part from 10 D on
    assert slide.clause == "NDS 2018 12.3"


def test_spacing_of_the_side_fasteners():
    """5 D across the grain is 0.74 in for 0.148 in nails, guidance of the commentary: 1/2 in is
    open, 3/4 in passes."""
    for spacing, status in (("1/2 in", "open"), ("3/4 in", "pass")):
        result = held({**BENT, "fastener_spacing": spacing})
        assert row(result, "hold_down:back", "fastener spacing").status == status


def test_a_lag_near_the_end_of_the_outrigger():
    """4 D = 1.5 in behind a 3/8 lag: 1 in is too near, 1 1/2 in is not."""
    for behind, status in (("1 in", "fail"), ("1 1/2 in", "pass")):
        result = held(LAG, outrigger__behind_back=behind)
        assert row(result, "hold_down:back", "end of the outrigger").status == status


def test_a_stated_edge_distance_is_no_more_than_the_rafter_leaves():
    """Framing_at puts the rafter 1/2 in off: 3/4 - 1/2 = 1/4 in to its edge, whatever is stated,
    and #10 asks for 2.5 x 0.190 = 0.475 in; 1/8 in that is stated is less than either."""
    off = {"house_roof__framing_at": ["0 in", "22 in", "43 1/2 in"]}
    off |= {"house_roof__framing_spacing": GONE}
    for stated, least in (("3 in", 0.25), ("1/8 in", 0.125)):
        found = row(held({**BENT, "edge_distance": stated}, **off),
                    "hold_down:back", "edge of the rafter")  # fmt: skip
        assert (found.demand, found.capacity) == (printed("0.475"), pytest.approx(least))
        assert found.status == "open"


def test_beside_a_parallel_rafter_is_open():
    """Legs on both sides of a 1 1/2 in outrigger, 3/4 in out: 1 1/2 in off the middle of a rafter
    that ends at 3/4 in."""
    result = held(BENT)
    assert row(result, "hold_down:back", "edge of the rafter").status == "pass"
    parallel = designed(
        garage_roof__overhang="none", house_roof__sheathing_thickness="7/16 in",
        house_roof__framing_parallel=True, hold_down=[BENT, EDGE],
    )  # fmt: skip
    found = row(parallel, "hold_down:back", "edge of the rafter")
    assert (found.status, found.capacity) == ("open", None)


def test_a_lag_under_a_plate_goes_through_the_outrigger_too():
    """A 12 ga plate under the head takes 0.105 in from the penetration, 2.3125 to 2.2075 in, and a
    4 in lag never leaves a 7 1/4 in outrigger."""
    plate = held({**LAG, "steel": "12 ga"})
    deck = check(plate, "hold_down:back", "deck fasteners")
    p = next(s for s in deck.steps[1].chain() if s.symbol == "p")
    assert float(p.value) == pytest.approx(2.2075, abs=1e-9)
    short = held({**LAG, "steel": "12 ga", "deck_fastener": "lag 3/8 in x 4 in"})
    assert row(short, "hold_down:back", "deck fasteners").status == "fail"


def test_without_the_height_of_its_fasteners_a_clip_is_open():
    """Splitting cannot be checked then."""
    clip = {key: value for key, value in BENT.items() if key != "side_height"}
    assert any(one.key == "hold_down[0].side_height" for one in held(clip).not_given)


@pytest.mark.parametrize("height", ["9 in", "over the top"])
def test_heights_that_no_side_fastener_has(height):
    with pytest.raises(CaseFaultsError, match="side_height"):
        held({**BENT, "side_height": height})


def test_a_force_across_leaves_bent_clips_open():
    result = held(BENT, garage_wall__along="30 plf")
    assert row(result, "hold_down:back", "side fasteners").status == "open"
    deck = row(result, "hold_down:back", "deck fasteners")
    assert deck.status != "pass"  # over 1 it fails by what is computed, pried up it pulls more
    assert "pries the foot up" in deck.check.why
    assert row(result, "slide", "across", "back").status == "open"


def test_a_lag_pulled_toward_its_end():
    """Down the slope 3/8 in behind_back 1 1/2 in is 4 D: CDelta = 4/7 (Table 12.5.1A, 7 D full)."""
    result = held(
        LAG, house_roof__pitch="3:12", house_roof__direction="down the slope",
        outrigger__behind_back="1 1/2 in",
    )  # fmt: skip
    deck = check(result, "hold_down:back", "deck fasteners")
    C = next(s for s in deck.steps[1].chain() if s.symbol == "CDelta")
    assert float(np.ravel(C.value)[0]) == pytest.approx(4 / 7, abs=1e-9)


def test_listed_values_of_none_fail_in_words():
    """No traceback, no infinity: a clip that carries a side force and lists none."""
    for key in ("rated_lateral", "rated_uplift"):
        result = designed(
            garage_wall__out_of_plane_wind="20 psf", **{f"hold_down__1__{key}": "none"}
        )
        found = row(result, "hold_down:edge")
        assert (found.status, found.ratio) == ("fail", None)


def test_splitting_counts_the_plies_that_a_clip_stands_against():
    """Two plies, one clip: 1 1/2 in splits, as a single ply; two clips: both."""
    one = held({**BENT, "count": 1}, outrigger__plies=2)
    two = held(BENT, outrigger__plies=2)
    single = held(BENT)
    caps = [float(row(r, "split:back").capacity) for r in (one, two, single)]
    assert caps[1] == pytest.approx(2 * caps[0])
    assert caps[2] == pytest.approx(caps[0])


def test_a_lag_under_a_force_across_is_told_in_words():
    """4 D of a 3/8 lag is 1.5 in, the loaded edge of a 1 1/2 in outrigger 0.75 in off (NDS Table
    12.5.1C): it fails, and the screen says which link."""
    result = held(LAG, garage_wall__along="30 plf")
    edge = row(result, "hold_down:back", "edge of the outrigger")
    assert (edge.demand, edge.capacity, edge.status) == (1.5, 0.75, "fail")
    assert any("near the edge of the outrigger" in said for said in words.weakest(result.rows))


def test_a_lag_too_short_to_count_is_told_with_its_arithmetic():
    """3/8 x 8 reaches 8 - 7.25 - 7/16 in less its tip, under 4D, and a side force acts: nothing
    holds, and the arithmetic and the JSON say so (both stopped at 0 / 0)."""
    result = held({**LAG, "deck_fastener": "lag 3/8 in x 8 in"}, garage_wall__along="30 plf")
    link = row(result, "hold_down:back", "deck fasteners")
    assert (link.capacity, link.status) == (0.0, "fail")
    assert "nothing counts" in link.check.why
    printed = arithmetic.page(result, result.rows, 80)
    assert "no number, taken as 0 lb" in printed
    json.dumps(as_data(result), allow_nan=False)
