"""From wind speed, seismic category and roof live load to loads on one outrigger, by hand."""

import re

import pytest
from codes_case import (
    GONE,
    MODERN,
    STATED_WIND,
    asked,
    case,
    checked,
    designed,
    pounds,
    row,
    said,
    strip_psf,
    tables,
)
from published import printed

from outrigger.cases.faults import CaseFaultsError
from outrigger.verdict import notes

# Wind.


@pytest.mark.parametrize(
    ("changes", "up", "down"),
    [
        # 13.7878 x (2.21783 + 0.55) = 38.162 psf; 0.47534 + 0.55 = 1.02534: 14.14, so 16
        ({"wind__enclosure": "partially enclosed"}, "686.9", "288.0"),
        # zone 1 and 2e: -1.5 up to 20 sf: 13.7878 x 1.68 = 23.163 psf
        ({"wind__zone": "2e"}, "416.9", "288.0"),
        # 85 mph: 13.7878 x (85/105)^2 = 9.0355; x 1.68 = 15.18, under 16 psf
        ({"wind__zone": "1", "wind__speed": "85 mph"}, "288.0", "288.0"),
        # 28.3, exposure B under 30 ft: Kz 0.70, qh 16.7933; zone 2E -1.07 - 0.18: 20.992 psf.
        # 27.3 down: Cp 0.3 at 26.6 degrees: 13.7878 x (0.85 x 0.3 + 0.18) = 5.998 psf
        ({"wind__method": "main"}, "377.8", "108.0"),
        # 7-22: 0.00256 x 0.70 x 11025 x 0.85 x 1.25 = 20.992 psf; 13.744 x 0.435 = 5.979 psf
        ({**MODERN, "wind__method": "main"}, "377.8", "107.6"),
        # exposure C: Kz 2.01 (15/900)^(2/9.5) = 0.84888: 20.3652 psf x 2.39783 = 48.832 psf
        ({"wind__exposure": "C"}, "879.0", "288.0"),
        # 1000 ft up: x e^-0.0362 = 0.964447; Kzt 1.5: 33.0607 x 1.44667 = 47.828 psf
        ({"wind__elevation": "1000 ft", "wind__kzt": 1.5}, "860.9", "288.0"),
    ],
    ids=["partial", "zone 2e", "16 psf", "main", "main 7-22", "C", "Ke and Kzt"],
)
def test_wind_variants_by_hand(changes, up, down):
    result = designed(**changes)
    assert -pounds(result, "W_up") == printed(up)
    assert pounds(result, "W_down") == printed(down)


@pytest.mark.parametrize(
    ("changes", "zones"),
    [
        ({"wind__zone": "3"}, "1, 2e, 2n, 2r, 3e, 3r"),
        ({**MODERN, "wind__zone": "3e"}, "1, 2, 3"),
        ({"wind__method": "main", "wind__zone": "3e"}, "2, 3, 2E, 3E"),
    ],
)
def test_a_wrong_zone_lists_the_zones(changes, zones, run, tmp_path):
    done = checked(run, tmp_path, **changes)
    assert (done.returncode, done.stdout) == (2, "")
    assert zones in " ".join(done.stderr.split())


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"wind__mean_height": "61 ft"}, "0 to 60 ft"),
        ({"wind__speed": "300 mph"}, "85 to 250 mph"),
        ({"garage_roof__pitch": "12.1:12"}, "0 to 45 deg"),
        ({"wind__kzt": 0.9}, "1 or more"),
        ({**MODERN, "snow__drift__winter_wind": 0.24}, "0.25 to 0.65"),
        ({**MODERN, "snow__drift__winter_wind": 0.66}, "0.25 to 0.65"),
        ({"snow__thermal": 1.15}, "1.0 or less, 1.1, and 1.2 or more"),
        ({"wind__method": "main", "wind__least_plan": "11 ft"}, "least plan dimension"),
    ],
)
def test_outside_a_provision_is_bad_input_and_names_its_range(changes, words, run, tmp_path):
    done = checked(run, tmp_path, **changes)
    assert (done.returncode, done.stdout) == (2, "")
    assert words in " ".join(done.stderr.split())


@pytest.mark.parametrize("edge", [0.25, 0.65])
def test_winter_wind_at_the_ends_of_its_range(edge):
    assert designed(**{**MODERN, "snow__drift__winter_wind": edge}).not_given == []


@pytest.mark.parametrize("key", ["exposure", "mean_height", "enclosure"])
def test_what_a_wind_speed_needs(key):
    with pytest.raises(CaseFaultsError, match=rf"wind\.{key}"):
        case(**{f"wind__{key}": GONE})


def test_least_plan_is_needed_by_the_main_method():
    with pytest.raises(CaseFaultsError, match=r"wind\.least_plan"):
        case(wind__method="main", wind__least_plan=GONE)


@pytest.mark.parametrize(
    ("stated", "part"), [("wind_down", "W_back"), ("wind_uplift", "W_press_back")]
)
def test_one_way_stated_on_the_house_leaves_the_other_to_the_speed(stated, part):
    """Suction stated says nothing of what presses, nor the other way round."""
    way = {"house_roof__wind_uplift": GONE, "house_roof__wind_down": GONE}
    neither, one = designed(**way), designed(**way | {f"house_roof__{stated}": "5 psf"})
    assert neither.loads.back[part][0, 0] != 0
    assert one.loads.back[part][0, 0] == neither.loads.back[part][0, 0]
    assert notes.SUCTION_NOTE not in notes.assumed(neither)  # the speed says what presses it


def test_wind_square_to_the_wall_follows_from_the_speed():
    """Wall 3 ft, 16 in: A = 3 x 4/3 = 4 sf, so the values at 10 sf. In: 13.7878 x (1.0 + 0.18) =
    16.270 psf x 3/2 = 24.40 plf; out, zone 5: 13.7878 x (1.4 + 0.18) = 21.785 x 1.5 = 32.68.
    At 16 in 32.54 lb away from the house and 43.57 toward it."""
    result = designed(garage_wall__out_of_plane_wind=GONE)
    lines = [why for why in result.loads.reasons if "square to the wall" in why]
    assert len(lines) == 1
    assert "zone 5: 24 plf inward, 33 plf outward" in lines[0]
    on_wall = result.loads.on_wall
    assert float(on_wall["H_away"][0, 0]) == pytest.approx(32.54, abs=0.005)
    assert float(on_wall["H_toward"][0, 0]) == pytest.approx(-43.57, abs=0.005)
    assert any("H away" in c.text for c in result.main.combinations.all)
    flat = designed(garage_wall__out_of_plane_wind=GONE, garage_wall__height="none")
    assert flat.verdict == "open"
    assert "garage_wall.out_of_plane_wind" in asked(flat)


# Earthquake.


def combinations(result):
    return {c.name: c for c in result.main.combinations.all}


def test_category_a_asks_for_nothing():
    result = designed()
    assert "category A asks for no seismic load" in said(result)
    assert not any("Ev" in name or "net up" in name for name in combinations(result))


def test_category_b_by_hand():
    """SDS 0.5: Ev = 0.1 D. 2.4.5: 1 + 0.7 x 0.1 = 1.07 D, 0.6 - 0.07 = 0.53 D, row 9 1.0525 D and
    0.75 S; CD 1.6. Square to the wall 0.4 x 0.5 x ka 2.0 x 310 = 124 lb, x 0.7 = 86.8 lb; along it
    0.5 x 310/6.5 = 23.85 lb each is what its own braced lines take, by the word of the file."""
    result = designed(seismic__category="B", seismic__sds=0.5)
    found, parts = combinations(result), result.main.combinations.parts
    D, S, worst = parts.index("D"), parts.index("S"), parts.index("S_lee")

    def factors(name):
        return result.main.combinations.factors[
            [c.name for c in result.main.combinations.all].index(name)
        ]

    assert factors("D + 0.7Ev")[D] == pytest.approx(1.07)
    assert factors("0.6D - 0.7Ev")[D] == pytest.approx(0.53)
    assert factors("D + 0.525Ev + 0.75S")[[D, S]] == pytest.approx([1.0525, 0.75])
    assert factors("D + 0.525Ev + 0.75S drift leeward")[worst] == pytest.approx(0.75)
    for name in ("D + 0.7Ev", "0.6D - 0.7Ev", "D + 0.525Ev + 0.75S"):
        assert found[name].time == 1.6
    assert "-0.2D net up" not in found
    slide = row(result, "slide")
    assert (slide.demand, slide.status) == (printed("86.8"), "pass")
    assert row(result, "roll_over").demand == 0
    assert result.verdict == "pass"
    assert "about 24 lb each, an estimate" in said(result)


def test_strength_design_seismic_rows():
    """2.3.6 rows 6 and 7, SDS 0.5: 1.2 + 0.1 = 1.3 D with 0.2 S (7-16), 0.15 S (7-22); 0.9 - 0.1 =
    0.8 D. lambda 1.0."""
    for changes, snow in (({}, 0.2), (MODERN, 0.15)):
        changes = {**changes, "basis__method": "LRFD"}
        result = designed(**changes, seismic__category="B", seismic__sds=0.5)
        names, parts = (
            [c.name for c in result.main.combinations.all],
            result.main.combinations.parts,
        )
        columns = [parts.index("D"), parts.index("S")]
        heavy = names.index(f"1.2D + Ev + {snow:g}S")
        assert result.main.combinations.factors[heavy][columns] == pytest.approx([1.3, snow])
        (light,) = (i for i, name in enumerate(names) if re.fullmatch("0.9D - 1?Ev", name))
        assert result.main.combinations.factors[light][columns] == pytest.approx([0.8, 0])
        assert {result.main.combinations.all[i].time for i in (heavy, light)} == {1.0}


def test_net_upward_case_alone_lifts_the_edge():
    """12.4.4, category D, no wind: 0.2 D up, alone, the back span bare.

    0.2 x (310 x (1 + 9.75/48) + 1.27441 x 11.5 x (1 + 5.75/48)) = 0.2 x (372.97 + 16.41) = 77.9 lb
    at the edge tie, two clips: 38.9 each; at CD 1.6. Without a tie it fails."""
    changes = {"seismic__category": "D", "seismic__sds": 0.5, "wind": {"uplift": "none"}}
    changes |= {"wind": {"uplift": "none", "down": "none"}, "house_roof__wind_uplift": "none"}
    result = designed(**changes)
    names = [c.text for c in result.clips.combinations.all]
    up = names.index("-0.2D net up, nothing on the back span")
    assert result.clips.uplift["edge"][0, up] / 2 == printed("38.9")
    assert result.clips.combinations.all[up].time == 1.6
    back = tables()["hold_down"][:1]
    untied = designed(**changes, hold_down=back)
    assert row(untied, "hold_down:edge").demand == printed("77.9")
    assert untied.verdict == "fail"
    assert "net up alone" in said(result)


def test_no_net_upward_case_in_category_c():
    result = designed(seismic__category="C", seismic__sds=0.5)
    assert not any("net up" in name for name in combinations(result))


@pytest.mark.parametrize("category", ["B", "C", "D", "E", "F"])
def test_sds_missing_is_open(category):
    result = designed(seismic__category=category)
    assert "seismic.sds" in asked(result)
    assert result.verdict == "open"
    assert "sds is not given" in said(result)


# Roof live load.


@pytest.mark.parametrize(
    ("span", "pitch", "psf"),
    [
        ("150 ft", "4:12", "20.0"),  # 150 sf: R1 1, R2 1
        ("300 ft", "4:12", "18.0"),  # R1 1.2 - 0.3 = 0.9
        ("700 ft", "4:12", "12.0"),  # R1 0.6
        ("150 ft", "8:12", "16.0"),  # R2 1.2 - 0.4 = 0.8
        ("300 ft", "8:12", "14.4"),
        ("700 ft", "8:12", "12.0"),  # 9.6, so 12
        ("150 ft", "14:12", "12.0"),  # R2 0.6
        ("300 ft", "14:12", "12.0"),  # 10.8, so 12
        ("700 ft", "14:12", "12.0"),  # 7.2, so 12
    ],
)
def test_roof_live_reduced_by_hand(span, pitch, psf):
    """4.8.2, Lo 20 psf, the outrigger's own area: 2 ft of wall x half the span."""
    result = designed(
        **STATED_WIND,
        garage_roof__reduce_live=True,
        garage_roof__span=span,
        garage_roof__pitch=pitch,
    )
    half = float(span.split()[0]) / 2
    assert pounds(result, "Lr") / half / 2 == printed(psf)
    assert strip_psf(result, "Lr") == printed(psf)
