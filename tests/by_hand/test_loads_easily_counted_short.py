"""What is easily counted for less than it is, and slips of unit in what loads follow from."""

import json

import numpy as np
import pytest
from codes_case import (
    GONE,
    LINE,
    MODERN,
    NO_DRIFT,
    STATED_WIND,
    asked,
    back_psf,
    case,
    checked,
    designed,
    in_combination,
    pounds,
    said,
    same_bits,
    strip_psf,
    tables,
    the_fault,
)
from published import printed
from thorough import spread

from outrigger.cases.batch import batch_of
from outrigger.cases.faults import CaseFaultsError
from outrigger.cases.paths import with_numbers
from outrigger.verdict import notes
from outrigger.verdict.design import design, designs_of
from outrigger.verdict.taken import defaults, stated_none

# What is easily counted for less than it is.


def test_risk_category_iv_is_never_a_pass_at_importance_one():
    """7-16 Table 1.5-2: category IV, Is 1.2: 25.2 psf, 453.6 lb balanced, bending over 1."""
    result = designed(basis__risk_category="IV", snow__importance=GONE)
    assert result.verdict != "pass" or pounds(result, "S") == printed("453.6")


@pytest.mark.parametrize("text", ["iv", "4", "Category IV", "Risk Category IV"])
def test_risk_category_in_other_letters(text):
    """7-22 7.3.3: pm of category IV is up to 40 psf: with pg 45, 40; category II would have 30."""
    result = designed(
        **MODERN, basis__risk_category=text, snow__ground="45 psf", garage_roof__pitch="1:12"
    )
    assert strip_psf(result, "S_min") == printed("40.0")


def test_back_span_shear_where_the_edge_lifts_off_beside_a_drift_on_the_house():
    """Row of two without an edge tie, 150 mph: under 0.6D + 0.6W up the edge lifts and the beam
    hangs on 20 in and 48 in. Where the snow lies does not matter to a combination without snow."""
    holds = tables()["hold_down"]
    places = [{**holds[0], "at": "20 in"}, holds[0]]
    changes = {"hold_down": places, "wind__speed": "150 mph", "house_roof__wind_uplift": "none"}
    found = [
        in_combination(
            designed(**changes, snow__drift__on=on), "shear", "back span", "", "0.6D + 0.6W up"
        )
        for on in ("garage roof", "house roof")
    ]
    assert found[1] == pytest.approx(found[0], rel=1e-3)


def test_a_longer_garage_never_lowers_the_leeward_drift():
    """Span 10 ft, pg 30, house 100 ft: hd = 0.43 x 4.64159 x 2.51487 - 1.5 = 3.519 ft, 21.1 ft wide
    across the gap. Past the far bearing the roof is another span's: what lies there must not
    relieve the wall line. With 10 ft of garage bending is 1.02, with 30 ft a pass at 0.957."""
    changes = {"snow__ground": "30 psf", "snow__drift__house_step": "10 ft"}
    changes |= {"snow__drift__house_length": "100 ft", "garage_roof__span": "10 ft"}
    short, long = (
        designed(**changes, snow__drift__garage_length=length) for length in ("10 ft", "30 ft")
    )
    assert short.verdict == "fail"
    assert pounds(long, "S_lee") >= pounds(short, "S_lee")


@pytest.mark.parametrize("length", ["8 ft", "17 ft 11 in"])
def test_a_garage_roof_shorter_than_its_span(length):
    """The roof spans 18 ft, so it is no shorter: 20 in for 20 ft takes 0.94 to 0.78. At a span of
    20 ft it takes a fail, 1.01, to a pass, 0.85."""
    result = designed(snow__drift__garage_length=length)
    assert result.not_covered == ["snow.drift.garage_length: shorter than the roof's span"]
    assert result.verdict == "open"


def test_a_garage_roof_as_long_as_its_span():
    result = designed(snow__drift__garage_length="18 ft")
    assert (result.not_covered, result.verdict) == ([], "pass")


@pytest.mark.parametrize(("length", "meant"), [("20 in", ' Did you mean "20 ft"?'), ("2 ft", "")])
def test_a_garage_roof_of_a_few_feet_is_a_slip(length, meant):
    fault = the_fault(snow__drift__garage_length=length)
    assert fault == f'snow.drift.garage_length = "{length}": under 4 ft.{meant}'


@pytest.mark.parametrize(
    ("category", "sds"), [("A", 1.5), ("A", 0.167), ("none", 1.5), ("none", 0.167)]
)
def test_sds_beside_a_category_that_has_none(category, sds):
    """Table 11.6-1: category A is SDS under 0.167; 1.5 is D."""
    fault = the_fault(seismic__category=category, seismic__sds=sds)
    asks = "which asks for under 0.167."
    assert fault == f"seismic.sds = {sds}: beside category {category}, {asks}"


def test_sds_of_category_a_is_read():
    assert case(seismic__category="A", seismic__sds=0.1669).seismic.sds == 0.1669


def test_unbalanced_snow_beside_a_truss_sheet():
    """Whether the sheet's one snow load holds it is the user's to say: it is asked for."""
    result = designed(garage_roof__line=LINE, **NO_DRIFT)
    assert "unbalanced snow applies" not in said(result)
    assert "snow.unbalanced" in asked(result)
    assert result.verdict == "open"
    stated = designed(garage_roof__line=LINE, **NO_DRIFT, snow__unbalanced="none")
    assert asked(stated) == set()


def test_minimum_snow_on_the_strip_beside_a_truss_sheet():
    """1:12, pg 20: pm 20 psf on the roof over the gap, more than 0.7 x 1.2 x 20 = 16.8; on the
    wall line the sheet's 189 plf x 2 ft."""
    changes = {"snow__ground": "20 psf", "garage_roof__pitch": "1:12"}
    result = designed(garage_roof__line=LINE, **NO_DRIFT, **changes)
    assert strip_psf(result, "S_min") == printed("20.0")
    assert pounds(result, "S_min") == printed("378.0")


@pytest.mark.parametrize("roof", [{"line": LINE}, {"bearing": False}])
def test_rain_on_the_snow_of_the_strip_where_no_span_is_stated(roof):
    """pg 15, Ct 1.0: 10.5 psf and rain 5 psf (7-16 7.10), flat, of a roof of no stated run: 100 ft,
    as on the house roof. 0:12 is under 100/50 = 2 degrees; 0.5:12 = 2.39 degrees is not."""
    changes = {f"garage_roof__{key}": value for key, value in roof.items()}
    for key in ("span", "member_spacing", "overhang", "storage", "form"):
        changes[f"garage_roof__{key}"] = GONE
    changes |= {**NO_DRIFT, "snow__ground": "15 psf", "snow__thermal": 1.0}
    changes |= {"snow__unbalanced": "none"}
    flat = designed(**changes, garage_roof__pitch="0:12")
    assert strip_psf(flat, "S") == printed("15.5")
    assert strip_psf(designed(**changes, garage_roof__pitch="0.5:12"), "S") == printed("10.5")


def test_the_level_house_roof_has_its_own_minimum_snow():
    """House roof 0:12, pg 20, Ct 1.0: pf 14; pm = 20 psf (7.3.4); with rain 14 + 5 = 19 (7.10)."""
    result = designed(snow__ground="20 psf", snow__thermal=1.0)
    assert back_psf(result, "S_back") == printed("20.0")
    assert "snow on the back span: 20.0 psf, the minimum of a low slope" in said(result)


@pytest.mark.parametrize(
    ("changes", "psf", "words"),
    [
        ({}, "15.5", "flat-roof snow and rain on it"),  # 10.5 + 5; pm 15
        (MODERN, "18.5", "flat-roof snow and rain on it"),  # 10.5 + 8; pm 15
        # 0.25:12 = 1.193 degrees, W/50 = 28/50 = 0.56: no rain; pm 15
        ({"house_roof__pitch": "0.25:12"}, "15.0", "the minimum of a low slope"),
        # no length of the house roof is stated: 100/50 = 2 degrees
        ({"house_roof__pitch": "0.25:12", **NO_DRIFT}, "15.5", "flat-roof snow and rain on it"),
        ({"house_roof__pitch": "4:12"}, "10.5", "flat-roof snow"),  # 18.4 degrees
    ],
)
def test_rain_and_minimum_on_the_back_span(changes, psf, words):
    """pg 15, Ct 1.0: pf 10.5 psf; 7.10 and 7-16 7.3.4, 7-22 7.3.3."""
    changes = {**changes, "house_roof__direction": "down the slope"}
    result = designed(**changes, snow__ground="15 psf", snow__thermal=1.0)
    assert f"snow on the back span: {psf} psf, {words}, on the house roof" in said(result)


def test_drift_on_the_house_roof_under_a_roof_that_keeps_no_snow():
    """Garage roof over 70 degrees: Cs 0, so S_house holds only the drift on the house."""
    result = designed(**STATED_WIND, garage_roof__pitch="34:12", snow__drift__on="house roof")
    assert result.loads.house
    assert "S_house" in result.model.parts


def test_wind_on_the_strip_of_a_gable_wall():
    """It takes the strip alone, 16 x 11.5 in = 1.3 sf: Figure 30.3-2C zone 3r, -3.6 up to 4 sf:
    13.7878 x (3.6 + 0.18) = 52.118 psf, whatever span the file gives."""
    assert -strip_psf(designed(garage_roof__bearing=False), "W_up") == printed("52.118")


def test_wind_on_a_roof_of_unknown_shape():
    """A one-way roof has figures of its own: with its shape stated the case is open."""
    result = designed(garage_roof__shape=GONE, snow__ground="none")
    assert asked(result) == {"garage_roof.shape"}
    assert result.verdict == "open"


def test_a_heavy_roof_live_load_is_not_reduced_by_area():
    """4.8.2 is for Lo of 20 psf; 40 psf is no ordinary roof."""
    heavy = designed(garage_roof__reduce_live=True, garage_roof__live="40 psf")
    assert pounds(heavy, "Lr") == printed("720.0")
    assert "roof live: 40.0 psf, not reduced" in said(heavy)


@pytest.mark.parametrize(("live", "psf"), [("none", "0.0"), ("10 psf", "10.0"), ("12 psf", "12.0")])
def test_a_small_roof_live_load_is_not_raised_by_its_reduction(live, psf):
    """Not under 12 psf (Eq. 4.8-1) is for what is reduced from 20."""
    result = designed(garage_roof__reduce_live=True, garage_roof__live=live)
    assert strip_psf(result, "Lr") == printed(psf)


def test_the_strip_of_a_gable_wall_is_too_small_for_a_reduction_by_area():
    """The span is no part of its area: R1 1 and R2 1, 20 psf."""
    changes = {"span": "700 ft", "pitch": "4:12", "bearing": False, "reduce_live": True}
    result = designed(**STATED_WIND, **{f"garage_roof__{key}": v for key, v in changes.items()})
    assert strip_psf(result, "Lr") == printed("20.0")


def test_reduced_roof_live_is_covered():
    """By its slope 20 x 0.9 = 18 psf is computed, and the case said to be not reduced."""
    result = designed(garage_roof__reduce_live=True)
    assert pounds(result, "Lr") == printed("324.0")
    assert not any("not reduced" in text for text in result.not_covered)


def test_the_falling_drift_takes_nothing_off_a_covered_strip():
    """Overhang 8 in covers x 1.75 to 9.75; the strip has 5.5455 lb/in on 0 to 1.75 and, less its
    fall, on 9.75 to 11.5: 5.5455 x 3.5 - 0.02662 x (7.75 + 9.5)/2 x 1.75 = 19.008 lb."""
    result = designed(garage_roof__overhang="8 in")
    part = result.model.parts.index("S_lee")
    on_strip = float(result.model.whole.V_arm[0, part]) - pounds(result, "S_lee")
    assert on_strip == printed("19.008")


def test_the_falling_drift_along_a_slope_and_in_a_sweep():
    """Whatever lies on the arm, its part along the slope is tan(4/12) = 1/3 of that square to it.

    The overhang is given from nothing to past the house face, at x = 2 in."""
    base = case(house_roof__pitch="4:12", house_roof__direction="down the slope")
    overhangs = np.array([0.0, 4.0, 8.0, 12.0])
    model = designs_of(batch_of(base, {"garage_roof.overhang": overhangs})).worked.model
    part = model.parts.index("S_lee")
    along, square = model.by_axis.on_arm["S_lee"][:, 0], model.whole.V_arm[:, part]
    assert along / square == pytest.approx(np.full(4, 1 / 3), rel=1e-12)
    same_bits(case(), "garage_roof.overhang", overhangs)


@pytest.mark.parametrize("back_span", ["2 ft", "12 ft"])
def test_the_drift_on_the_house_along_a_slope(back_span):
    """4:12, sin = 1/sqrt(10): what lies on the back span, summed in thin strips, drags down the
    slope by that much of it; the drift reaches past a short back span, not past a long one."""
    result = designed(
        snow__drift__on="house roof",
        house_roof__pitch="4:12",
        house_roof__direction="down the slope",
        outrigger__back_span=back_span,
    )
    peak, width = (float(of[0, 0]) for of in result.loads.house["S_house"])
    x = np.linspace(0, width, 100_001)
    x, thin = (x[1:] + x[:-1]) / 2, width / 100_000
    arm = float(result.shape.arm[0, 0])
    end = arm + float(result.shape.back_span[0, 0])
    falls = peak * (1 - x / width) * thin / np.sqrt(10)
    assert (end < width) == (back_span == "2 ft")
    behind = falls[(x >= arm) & (x < end)].sum()
    on_back = result.model.by_axis.on_back["S_house"]
    assert on_back[0, 0] == pytest.approx(behind, rel=1e-3)


def test_no_rain_on_drifted_snow():
    """7.10: with the balanced case only. pg 15 at 0:12: 12.6 psf, 226.8 lb, not 316.8."""
    result = designed(
        snow__ground="15 psf", garage_roof__pitch="0:12", snow__drift__on="house roof"
    )
    assert pounds(result, "S_house") == printed("226.8")


def test_a_swept_ground_snow_has_its_defaults():
    swept = batch_of(case(), {"snow.ground": np.array([0.1, 0.2])})
    assert "one ply" not in defaults(swept.at(1))


def test_a_sweep_into_no_drift_equals_single_runs():
    """Step 2 ft: over about 30 psf the balanced snow leaves no room for a drift."""
    base = case(snow__drift__on="house roof", snow__drift__house_step="2 ft")
    same_bits(base, "snow.ground", spread(0.05, 0.4, 11, every=41))


@pytest.mark.parametrize("words", ["E_v", "12.4.4"])
def test_recalled_seismic_values_are_named(words):
    """LRFD: the rows of 2.3.6 are seen, 12.4.2.2 and 12.4.4 are recalled."""
    result = designed(basis__method="LRFD", seismic__category="D", seismic__sds=0.5)
    assert any("unverified" in note and words in note for note in notes.of(result))


def test_the_take_down_in_the_data_goes_back_to_what_was_stated(run, tmp_path):
    """Flat-roof snow, drift height, velocity pressure: a reader cannot redo ps without pf."""
    data = json.loads(checked(run, tmp_path, "--json").stdout)
    symbols = {s["symbol"] for part in data["loads"]["takedown"].values() for s in part}
    assert {"p_f", "h_d", "gamma_snow", "qh", "Kz", "GCp"} <= symbols


def test_a_height_above_the_sea_that_no_site_has():
    """50,000 ft: Ke 0.16, uplift down to the 16 psf minimum."""
    fault = the_fault(wind__elevation="50000 ft")
    assert fault.startswith('wind.elevation = "50000 ft": over 15000 ft')


def test_topographic_factor_not_given_is_a_default_that_is_said():
    """140 mph: Kzt 1.5 fails at the edge clip, 1.39; left out it passes, printed as "stated"."""
    assert designed(wind__speed="140 mph", wind__kzt=1.5).verdict == "fail"
    result = designed(wind__speed="140 mph")
    assert result.verdict != "pass" or any("kzt" in text.lower() for text in result.defaults)


@pytest.mark.parametrize("zone", ["1", "2r"])
def test_a_zone_that_cannot_stand_along_the_eave(zone):
    """Figure 30.3-2C: along an eave 2e and 3e. Zone 1 at 160 mph takes the edge clip from 1.17, a
    fail, to 0.79, a pass."""
    result = designed(wind__zone=zone)
    assert f"zone {zone} as stated, not along the eave" in said(result)
    assert result.verdict == "open"
    assert result.not_covered == [
        "wind.zone: no zone along the edge at the wall (taken as stated)"
    ]  # fmt: skip


@pytest.mark.parametrize("zone", ["2e", "3e", "worst"])
def test_a_zone_along_the_eave_is_taken_without_a_word(zone):
    assert designed(wind__zone=zone).not_covered == []


def test_wind_down_alone_is_not_told_as_none():
    """20 psf x 9 x 2 = 360 lb down."""
    stated = {"wind": {"uplift": "none", "down": "20 psf"}, "house_roof__wind_uplift": "none"}
    result = designed(**stated)
    assert pounds(result, "W_down") == printed("360.0")
    assert "wind: none" not in said(result)
    assert "wind up" in stated_none(result.case)
    assert "wind" not in stated_none(result.case)
    line = {key: value for key, value in LINE.items() if key != "W_down"}
    assert "garage_roof.line.W_down" in asked(designed(**stated, garage_roof__line=line))


@pytest.mark.parametrize(("pg", "hair"), [("37 psf", False), ("40 psf", True)])
def test_a_whole_drift_dropped_by_a_hair_is_said(pg, hair):
    """Step 2 ft: none under hc/hb 0.2, so over hb 2/1.2 = 1.667 ft. pg 37: 31.08/18.81 = 1.652 ft;
    pg 40: 33.6/19.2 = 1.750 ft: 8 % more snow takes the whole drift off."""
    result = designed(snow__ground=pg, snow__drift__house_step="2 ft")
    assert ("S_lee" not in result.loads.wall_line) is hair
    assert ("snow, 1.75 ft deep, fills the step; at 1.67 ft or less" in said(result)) is hair
    assert ("caution" in said(result)) is hair


@pytest.mark.parametrize(
    ("on", "own", "step"),
    [
        ("both", None, "4.46"),
        ("garage roof", None, "4.46"),
        ("house roof", None, "4"),
        ("both", "6 ft", "6"),
        ("garage roof", "6 ft", "6"),
    ],
)
def test_each_roof_has_its_own_step(on, own, step):
    """house_step 4 ft is that of the lower roof that is named. Of the other: as stated, or wall
    3 ft, outrigger 5 1/2 in and 12 in of roof: 4.458 ft."""
    result = designed(snow__drift__on=on, snow__on_house={"step": own} if own else GONE)
    drift, _ = result.loads.on_house
    assert f"drift applies: step {step} ft" in drift.said
    on_garage = "garage roof: drift applies: step 4 ft" in said(result)
    assert on_garage is (on != "house roof")


# Slips of unit.


@pytest.mark.parametrize(
    ("path", "value", "words"),
    [
        ("snow__drift__house_step", "4 in", ['Did you mean "4 ft"?', 'write "0 ft 4 in"']),
        ("garage_wall__height", "3 in", ['Did you mean "3 ft"?', 'write "0 ft 3 in"']),
        ("garage_wall__height", '3 1/2"', ['Did you mean "3 1/2 ft"?']),
        ("outrigger__back_span", "4 in", ["under 6 in", 'Did you mean "4 ft"?']),
        ("wind__mean_height", "25 in", ['Did you mean "25 ft"?']),
        ("wind__elevation", "5280 in", ['Did you mean "5280 ft"?']),
        ("wind__elevation", "15001 ft", ["over 15000 ft"]),
        ("garage_roof__span", "18 in", ["under 4 ft", 'Did you mean "18 ft"?']),
        ("house_roof__dead", "0.5 kPa", ["kPa is not read; 1 kPa is 20.9 psf"]),
        ("snow__ground", "1.2 kPa", ["kPa is not read; 1 kPa is 20.9 psf"]),
        ("basis__risk_category", "V", ["allowed are I, II, III, IV"]),
        ("basis__risk_category", True, ["allowed are I, II, III, IV"]),
        ("outrigger__blocking", ["baxk"], ['Did you mean "back"?']),
        ("outrigger__blocking", ["wall lin"], ['Did you mean "wall line"?']),
    ],
)
def test_a_slip_is_asked_back(path, value, words):
    key, shown = path.replace("__", "."), value[0] if isinstance(value, list) else value
    with pytest.raises(CaseFaultsError) as error:
        case(**{path: value})
    for text in (key, str(shown).lower() if shown is True else shown, *words):
        assert text in str(error.value)


def test_a_slip_in_the_place_of_a_clip_is_asked_back():
    clip = {**tables()["hold_down"][0], "at": "baxk"}
    with pytest.raises(CaseFaultsError, match=r'at = "baxk": .*Did you mean "back"\?'):
        case(hold_down=[clip])


@pytest.mark.parametrize(
    ("path", "value", "inches"),
    [
        ("snow__drift__house_step", "12 in", 12.0),
        ("snow__drift__house_step", "0'-9\"", 9.0),
        ("garage_wall__height", "0 ft 3 in", 3.0),
        ("garage_wall__height", "none", 0.0),
        ("outrigger__back_span", "6 in", 6.0),
        ("wind__elevation", "15000 ft", 180_000.0),
        ("wind__elevation", "none", 0.0),
    ],
)
def test_what_is_meant_is_read(path, value, inches):
    part = case(**{path: value})
    for key in path.split("__"):
        part = getattr(part, key)
    assert part == inches


def test_sweeps_go_past_what_is_asked_back():
    low = with_numbers(case(), {"garage_wall.height": 3.0, "outrigger.back_span": 4.0})
    assert design(low).verdict == "fail"


def test_the_overhang_is_part_of_the_area_that_reduces_the_roof_live_load():
    """ASCE 7 4.8.1: (95 + 6) ft x 2 ft of wall is 202 sf: R1 = 1.2 - 0.202 = 0.998; 6:12, R2 = 1.2
    - 0.3 = 0.9: 20 x 0.998 x 0.9 = 17.964 psf."""
    wide = {"span": "190 ft", "overhang": "6 ft", "pitch": "6:12", "reduce_live": True}
    result = designed(**STATED_WIND, **{f"garage_roof__{key}": v for key, v in wide.items()})
    assert strip_psf(result, "Lr") == printed("17.964")
