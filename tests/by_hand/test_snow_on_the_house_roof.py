"""Snow that the garage wall and roof bring to the house roof: a drift against the step, and what
slides off the garage roof. Worked by hand, in every case with snow; the case of codes_case.py.

ASCE 7-16, ground snow 25 psf, Ct 1.2: pf 21.0 psf, on the garage at 6:12 ps 21.0 psf; density
0.13 x 25 + 14 = 17.25 pcf; house roof 28 ft long, garage 20 ft, wall 3 ft, outrigger 5 1/2 in, gap
6 in.
"""

import numpy as np
import pytest
from codes_case import GONE, MODERN, asked, case, designed, said, same_bits
from published import printed

from outrigger.actions.snow_on_house import lacking

RAFTER = {
    "kind": "rafter",
    "size": "2x10",
    "species": "Spruce-Pine-Fir",
    "grade": "No. 2",
    "spacing": "16 in",
    "span": "12 ft",
}


def on_house(result):
    """Drift and sliding, each psf at the wall and the ft that it lies on."""
    return {one.what: (one.psf, one.ft) for one in result.loads.on_house}


def test_the_drift_is_worked_out_unasked():
    """The file asks for the drift on the garage roof alone. Step 3 + 5.5/12 + 1 = 4.458 ft; hb
    1.217, hc 3.241 ft. Off the garage, lu 20: 0.43 x 2.71442 x 2.43230 - 1.5 = 1.33898 ft under hc:
    17.25 x 1.33898 = 23.097 psf, attached over 4 hd = 5.356 ft, across the gap over 6 hd = 8.034
    ft. Off the house, lu 28: 1.6759 x 0.75 = 1.2569 ft: 21.682 psf over 5.028 ft. Simple span of 28
    ft, reaction w q / 2 (1 - w/84): 23.097 x 8.034/2 x 0.9044 = 83.9 plf leads 57.9 and 51.3."""
    result = designed(snow__drift__on="garage roof")
    psf, ft = on_house(result)["drift"]
    assert (psf, ft) == (printed("23.097"), printed("8.034"))
    assert {"S_lee", "S_wind", "S_house"} <= set(result.loads.wall_line)
    assert "step 4.46 ft" in said(result)


def test_the_drift_holds_those_of_every_rule():
    """A house roof of 60 ft, garage 20 ft: windward 0.43 x 3.914868 x 2.432299 - 1.5 = 2.594516 ft,
    x 0.75 = 1.945887 ft under hc: 33.567 psf over 4 h = 7.784 ft, 125 plf on the whole roof; across
    the gap 23.097 psf over 8.034 ft, 89 plf. The peak of the one over the width of the other: the
    outrigger lies beside the wall alone, and farther in the other has more."""
    result = designed(snow__drift__on="garage roof", snow__on_house={"house_length": "60 ft"})
    assert on_house(result)["drift"] == (printed("33.567"), printed("8.034"))


def test_what_slides_off_the_garage_lies_even():
    """7.9: eave to ridge 9 ft: 0.4 x 21 x 9 = 75.6 plf, / 15 ft = 5.04 psf, whatever slides off the
    house. On the outrigger 5.04/144 x 16 = 0.56 lb/in from the back to the wall line, 48 + 9.75 in:
    32.34 lb; about the back 32.34 x 28.875 / 48 = 19.455 at the edge, 12.885 at the back."""
    result = designed(snow__sliding="none")
    assert on_house(result)["sliding"] == (printed("5.04"), 15.0)
    q, width = result.loads.shed["S_shed"]
    assert (float(q[0, 0]), float(width[0, 0])) == (printed("0.56"), 180.0)
    whole, part = result.model.whole, result.model.parts.index("S_shed")
    even = designed(snow__sliding="none", garage_roof__shape="high at the house")
    plain = even.model.parts.index("S")
    alone = [
        float(R[0, part] - P[0, plain]) for R, P in zip(whole.R, even.model.whole.R, strict=True)
    ]
    assert alone == [printed("12.885"), printed("19.455")]


def test_a_moment_under_it_in_the_back_span():
    """Even on the whole back span, so its peak is where the shear is zero: with the back reaction
    12.885 lb and 0.56 lb/in, at 23.01 in: 12.885^2 / (2 x 0.56) = 148.2 lb-in."""
    result = designed(snow__sliding="none")
    whole, part = result.model.whole, result.model.parts.index("S_shed")
    plain = result.model.parts.index("S")
    at = np.array([-48 + 12.885 / 0.56])
    M = whole.solution.moment(at)[0, part] - whole.solution.moment(at)[0, plain]
    # beside it the balanced snow bends the back span, the same in both
    assert float(M) == pytest.approx(148.2, abs=0.1)
    assert float(whole.w_back[0, part]) == printed("0.56")


def test_it_ends_where_the_fifteen_feet_end():
    """House roof 4 ft long: on 48 in from the wall line, to -38.25 in: 26.88 lb, 14.25 in behind
    the edge: 26.88 x 14.25/48 = 7.98 at the back, 18.90 at the edge. No even load on all of the
    back span: the moment at -18 in is 7.98 x 30 less 0.56 x 20.25^2/2 = 124.6 lb-in."""
    both = designed(snow__drift__house_length="4 ft", snow__sliding="none")
    part, plain = (both.model.parts.index(p) for p in ("S_shed", "S"))
    alone = [float(R[0, part] - R[0, plain]) for R in both.model.whole.R]
    assert alone == [printed("7.98"), printed("18.90")]
    assert float(both.model.whole.w_back[0, part]) == 0.0
    M = both.model.whole.solution.moment(np.array([-18.0]))[0]
    assert float(M[part] - M[plain]) == printed("124.6")
    over, at = both.main.combinations, np.array([[-18.0]])
    row = [c.text for c in over.all].index("D + S slid on the house")
    whole = over.combine(both.model.whole.solution.moment(at[:, 0]))
    assert abs(whole[0, row]) == pytest.approx(both.main.back_span.moment_at(at)[0, row])


def test_a_batch_in_which_it_ends_before_the_back_of_some():
    """From end to end on a back span of 48 in, not on one of 16 ft: each alone is the same."""
    same_bits(case(snow__sliding="none"), "outrigger.back_span", [48.0, 192.0])


def test_in_seven_22():
    """Strength level. W2 0.35: lu 20: 20^0.7 = 8.1418, 25^0.74 = 10.8260, 0.35^1.7 = 0.16787: 1.5 x
    sqrt(10.8260 x 8.1418 x 0.16787 / 17.25) = 1.5 x sqrt(0.85777) = 1.38924 ft: 23.964 psf, across
    the gap over 8.3354 ft. Exempt? 25 psf is over 10 psf and 20 ft under 300 with 5 psf: no."""
    changes = {**MODERN, "snow__drift__winter_wind": 0.35, "snow__drift__on": "both"}
    drift = designed(**changes).loads.on_house[0]
    lee = {one.rule: one for one in drift.found.candidates}["leeward across the gap"]
    assert float(lee.peak.value[0, 0]) == pytest.approx(23.964, abs=0.002)
    assert float(lee.width.value[0, 0]) == pytest.approx(8.3354, abs=0.001)


@pytest.mark.parametrize(
    ("changes", "drift", "sliding"),
    [
        ({"snow__drift": "none"}, ("snow.on_house.house_length",), ()),
        ({"snow__drift": "none", "snow__on_house": {"house_length": "28 ft"}}, (), ()),
        ({"snow__drift": GONE}, ("snow.on_house.house_length",), ()),
        ({"garage_wall__height": GONE}, ("garage_wall.height",), ()),
        ({"garage_wall__height": GONE, "snow__on_house": {"step": "4 ft"}}, (), ()),
        ({"garage_wall__height": GONE, "snow__drift__on": "house roof"}, (), ()),
        ({"garage_roof__shape": GONE}, (), ("garage_roof.shape",)),
        ({"garage_roof__pitch": GONE}, (), ("garage_roof.pitch",)),
        ({"garage_roof__pitch": "2:12"}, (), ("snow.on_house.slippery",)),
        ({"garage_roof__pitch": "2:12", "snow__on_house": {"slippery": True}}, (), ()),
        ({"garage_roof__pitch": "0:12"}, (), ()),
        ({"snow__on_house": "none"}, (), ()),
        (
            {**MODERN, "snow__drift": "none", "snow__drift__winter_wind": GONE},
            ("snow.on_house.house_length", "snow.on_house.winter_wind"),
            (),
        ),
    ],
)
def test_what_it_waits_for(changes, drift, sliding):
    """Nothing that is not given counts as none: it is named with the loads handed to the house, it
    is asked for, and keeps the case open, with a house rafter and without."""
    result = designed(**changes)
    assert lacking(result.case, "drift") == drift
    assert lacking(result.case, "sliding") == sliding
    for one, keys in zip(result.loads.on_house, (drift, sliding), strict=True):
        assert (one.psf is None) is bool(keys)
        for key in keys:
            assert "not worked out and not counted" in one.said
            assert key in one.said
    own = {key for key in (*drift, *sliding) if key.startswith("snow.on_house")}
    for one in (result, designed(**changes, house_rafter=RAFTER)):
        assert {key for key in asked(one) if key.startswith("snow.on_house")} == own
        if own:
            assert one.verdict != "pass"


def test_from_a_stated_roof_snow_neither_follows():
    stated = {"snow__ground": GONE, "snow__exposure": GONE, "snow__thermal": GONE,
              "snow__roof": "21 psf", "snow__drift": "none", "snow__sliding": "none"}  # fmt: skip
    result = designed(**stated, house_roof__snow="21 psf")
    assert all(one.lacks == ("snow.ground",) for one in result.loads.on_house)
    assert not {"S_house", "S_shed"} & set(result.loads.wall_line)
    assert "snow.on_house" in asked(result)
    assert result.verdict != "pass"
    said_none = designed(**stated, house_roof__snow="21 psf", snow__on_house="none")
    assert "snow.on_house" not in asked(said_none)
    assert "none, by the file's word (snow.on_house)" in said(said_none)


def test_none_by_the_files_word():
    result = designed(snow__on_house="none", snow__drift__on="garage roof")
    assert not {"S_house", "S_shed"} & set(result.loads.wall_line)
    assert on_house(result) == {"drift": (0.0, 0.0), "sliding": (0.0, 0.0)}


@pytest.mark.parametrize(
    ("changes", "psf"),
    [
        ({"garage_roof__shape": "high at the house"}, 0.0),
        ({"garage_roof__bearing": False}, 0.0),
        # it falls to the house over all its 18 ft: 0.4 x 21 x 18 / 15
        ({"garage_roof__shape": "low at the house"}, 10.08),
        ({"garage_roof__overhang": "12 in"}, 5.6),  # 10 ft from eave to ridge
        ({"garage_roof__pitch": "2:12", "snow__on_house": {"slippery": True}}, 5.04),
        ({"garage_roof__pitch": "2:12", "snow__on_house": {"slippery": False}}, 0.0),
    ],
)
def test_which_way_the_garage_roof_sheds(changes, psf):
    found = on_house(designed(**changes))["sliding"][0]
    assert found == pytest.approx(psf)


def test_a_rafter_that_crosses_carries_it():
    """Rafters 16 in apart, 12 ft: drift 23.097 psf on all of it = 30.80 plf = 2.5664 lb/in; slid
    snow 5.04 psf = 0.56 lb/in; its roof: D 10 psf and S 21 psf = 3.4444 lb/in. D + S drift on the
    house, nothing from the outriggers pressing it: (3.4444 + 2.5664) x 144^2/8 = 15,580.0 lb-in, S
    21.391: 728.4 psi; slid: 4.0044 x 2592 = 10,379.5: 485.2 psi."""
    result = designed(house_rafter=RAFTER, snow__drift__on="house roof", house_roof__dead="10 psf")
    (bent,) = [c for c in result.checks if c.id == "house_rafter" and c.link.id == "bending"]
    names = [c.text for c in bent.combinations]
    # the place at the back: pulled up under D + S, so its own roof alone presses
    assert bent.demand_at(0, names.index("D + S drift on the house")) == printed("728.4")
    assert bent.demand_at(0, names.index("D + S slid on the house")) == printed("485.2")


def test_a_rafter_beside_the_outriggers_has_its_triangle():
    """Over 12 ft its outer end takes 2.5664 x 96.41/2 x (1 - 96.41/432) = 96.10 lb of it: as an
    even load 2 x 96.10/144 = 1.3348 lb/in, which bends no less: at x from the far end the triangle
    has 27.61 x - 2.5664 (x - 47.59)^3 / (6 x 96.41), 2152 lb-in at 93.1 in; 1.3348 x 2592 = 3460.
    With 3.4444 of dead and balanced snow 4.7792 x 2592 = 12,387.6: 579.1 psi."""
    result = designed(
        house_rafter=RAFTER, snow__drift__on="house roof", house_roof__dead="10 psf",
        house_roof__framing_parallel=True,
    )  # fmt: skip
    (bent,) = [c for c in result.checks if c.id == "house_rafter" and c.link.id == "bending"]
    names = [c.text for c in bent.combinations]
    at = names.index("D + S drift on the house")
    assert bent.demand_at(0, at) == pytest.approx(579.1, abs=0.1)


@pytest.mark.parametrize("way", ["down the slope", "across the slope"])
@pytest.mark.parametrize("pitch", ["0:12", "4:12"])
def test_closed_forms_beside_slid_snow(way, pitch):
    """Two supports, no drift on the house: every closed form that prints is compared with the
    statics when it is made, and M at the edge holds 0.56 x 9.75^2/2 = 26.62 lb-in of slid snow."""
    result = designed(
        snow__drift="none", snow__sliding="none", house_roof__pitch=pitch,
        house_roof__direction=way, garage_wall__along="none",
    )  # fmt: skip
    hand = result.member.hand
    assert hand is not None
    assert hand.w_shed is not None
    moment = hand.moment()
    assert np.allclose(np.asarray(moment.value), -result.main.M[-1], rtol=1e-9)
    if pitch == "0:12":
        plain, row = result.main.combinations, "D + S slid on the house"
        at = [c.text for c in plain.all].index(row)
        without = [c.text for c in plain.all].index("D + S")
        M = np.asarray(moment.value)[0]
        assert M[at] - M[without] == printed("26.62")


def test_the_drift_of_a_long_house_roof_crushes_a_short_bearing():
    """It lies on the back span behind the edge, whatever carries that: without the lengths the case
    is open, and with a house roof of 60 ft the edge has more to carry than without any."""
    short = {"snow__drift": "none", "snow__sliding": "none", "gap__edge_bearing": "2 1/4 in"}
    bare = designed(**short)
    assert "snow.on_house.house_length" in asked(bare) and bare.verdict != "pass"
    long = {"house_length": "60 ft", "garage_length": "24 ft"}
    drifted, none = (designed(**short, snow__on_house=one) for one in (long, "none"))
    pushes = [float(one.main.R_edge.max()) for one in (drifted, none)]
    assert pushes[0] > pushes[1] + 20
