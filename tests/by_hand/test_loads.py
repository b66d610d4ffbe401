"""Loads on one outrigger: shares of trusses, densities, snow, lines and points, overhang, signs.

Worked by hand from statics, or by brute force over every place of the trusses; the densities are
those that a handbook table of wood weights derives.
"""

import numpy as np
import pytest
from level_case import GONE, case, designed
from published import printed

from outrigger.loads import gravity as loads
from outrigger.verdict import notes
from outrigger.verdict.taken import stated_none


def by_brute_force(trusses, outriggers, steps=2000):
    """Most that one outrigger takes, in of wall: trusses at every place, simple plates between."""
    most = 0.0
    for shift in np.linspace(0, trusses, steps, endpoint=False):
        places = np.arange(-40, 41) * trusses + shift
        inside = np.abs(places) < outriggers  # the two bays beside the outrigger at 0
        most = max(most, float(np.sum(1 - np.abs(places[inside]) / outriggers)) * trusses)
    return most


@pytest.mark.parametrize("outriggers", [12.0, 16.0, 19.2, 24.0, 32.0, 48.0])
@pytest.mark.parametrize("trusses", [12.0, 16.0, 19.2, 24.0, 32.0, 48.0, 7.3])
def test_share_of_trusses_against_every_alignment(trusses, outriggers):
    assert loads.truss_share(trusses, outriggers) == pytest.approx(
        by_brute_force(trusses, outriggers), rel=1e-12
    )


@pytest.mark.parametrize(
    ("trusses", "outriggers", "share"),
    [
        (24, 16, 24),  # a whole truss, 1.5 times the even share
        (24, 24, 24),
        (24, 12, 24),
        (24, 32, 36),  # 24 (1 + 2 (1 - 24/32))
        (24, 48, 48),  # 24 (1 + 2 / 2)
        (16, 24, 26 + 2 / 3),  # 16 (1 + 2/3)
        (12, 48, 48),  # 12 (1 + 2 (3/4 + 1/2 + 1/4))
    ],
)
def test_share_of_trusses_by_hand(trusses, outriggers, share):
    assert loads.truss_share(trusses, outriggers) == pytest.approx(share, rel=1e-12)
    if (trusses, outriggers) == (24, 16):
        assert share == 1.5 * outriggers


def test_shares_of_many_spacings_are_those_of_each():
    """A batch of spacings, bit for bit."""
    spacings = np.linspace(8, 48, 81)
    together = loads.truss_share(24.0, spacings)
    assert together.tobytes() == np.array([loads.truss_share(24.0, s) for s in spacings]).tobytes()


@pytest.mark.parametrize("form", ["tied rafters", "trusses"])
def test_an_even_roof_gives_its_spacing(form):
    result = designed(garage_roof__form=form, garage_roof__member_spacing="uniform")
    assert float(np.ravel(result.loads.share)[0]) == 16.0


@pytest.mark.parametrize(
    ("form", "share"), [("trusses", 24.0), ("tied rafters", 16.0), ("rafters with ridge beam", 16)]
)
def test_spacing_of_roof_members_taken_when_not_given(form, share):
    """Trusses 24 in, anything else even; and it is said."""
    result = designed(garage_roof__form=form, garage_roof__member_spacing=GONE)
    assert float(np.ravel(result.loads.share)[0]) == share
    assert "garage_roof.member_spacing" in [one.key for one in result.not_given]


@pytest.mark.parametrize(("G", "pcf"), [(0.42, "29.1"), (0.50, "34.2"), (0.55, "37.3")])
def test_density_at_19_percent(G, pcf):
    """NDS Supplement 2018 3.1.3, at 19 %: a handbook table of weights derives these from it."""
    assert loads.density(G, 19.0) == printed(pcf)


def test_roof_snow_from_the_ground():
    """ASCE 7 Eq. 7.3-1: 7-16 0.7 x 0.9 x 1.2 x 1.1 x 40 = 33.264 psf; 7-22 has no importance:
    0.7 x 0.9 x 1.2 x 40 = 30.24 psf."""
    ground = {
        "ground": "40 psf", "exposure": 0.9, "thermal": 1.2,
        "drift": "none", "sliding": "none", "unbalanced": "none",
    }  # fmt: skip
    old = designed(snow={**ground, "importance": 1.1})
    assert float(old.loads.strip["S"][0, 0]) * 144 / 16 == printed("33.264")
    new = designed(snow=ground, basis__loads="ASCE 7-22")
    assert float(new.loads.strip["S"][0, 0]) * 144 / 16 == printed("30.240")


def on_line(result, part):
    return float(result.loads.wall_line[part][0, 0])


def test_line_loads_stand_in_for_span_and_psf():
    """plf x 2 ft; the wall's 40 lb stays; the strip still takes its psf."""
    line = {
        "D": "150 plf", "L": "10 plf", "Lr": "200 plf",
        "S": "300 plf", "W_up": "180 plf", "W_down": "60 plf",
    }  # fmt: skip
    result = designed(garage_roof__line=line, garage_roof__span=GONE)
    found = {part: on_line(result, part) for part in line}
    by_hand = {"D": 340.0, "L": 20.0, "Lr": 400.0, "S": 600.0, "W_up": -360.0, "W_down": 120.0}
    assert found == pytest.approx(by_hand)
    assert float(result.loads.strip["S"][0, 0]) == printed("3.3333")


def test_a_point_load_falls_whole_on_one_outrigger():
    girder = {"at": "6 ft", "from": "girder", "D": "900 lb", "S": "1,400 lb", "W_up": "700 lb"}
    plain, loaded = designed(), designed(garage_roof__point=[girder])
    bare = dict.fromkeys(loaded.loads.wall_line, 0.0)
    bare |= {p: on_line(plain, p) for p in plain.loads.wall_line}
    added = {p: on_line(loaded, p) - bare[p] for p in bare}
    else_ = {"D_else": -900, "W_else": 700}
    assert added == pytest.approx(
        {"D": 900, "L": 0, "Lr": 0, "S": 1400, "W_up": -700, "W_down": 0, **else_}
    )
    said = "a point load from girder falls whole on one outrigger, and holds no other down"
    assert said in notes.of(loaded)


def test_drift_on_the_wall_line_is_on_P_only():
    """131 plf x 2 ft = 262 lb more snow; nothing more on the strip."""
    plain, drifted = designed(), designed(snow__drift=GONE, snow__drift_line="131 plf")
    assert on_line(drifted, "S") - on_line(plain, "S") == pytest.approx(262.0)
    assert drifted.loads.strip["S"] == plain.loads.strip["S"]


def test_a_stated_drift_comes_on_top_of_a_stated_line():
    """(300 + 131) plf x 2 ft = 862 lb."""
    line = {"D": "150 plf", "L": "10 plf", "Lr": "200 plf", "S": "300 plf"}
    more = {"W_up": "180 plf", "W_down": "60 plf"}
    result = designed(
        garage_roof__line={**line, **more}, snow__drift=GONE, snow__drift_line="131 plf"
    )
    assert on_line(result, "S") == pytest.approx(862.0)


def test_a_gable_wall_bears_no_roof():
    """bearing = false: the wall's weight and point loads only; the strip is still loaded."""
    result = designed(garage_roof__bearing=False, garage_roof__overhang="none")
    found = {part: on_line(result, part) for part in result.loads.wall_line}
    assert found == {"D": 40.0, "L": 0, "Lr": 0, "S": 0, "W_up": 0, "W_down": 0}
    assert float(result.loads.strip["S"][0, 0]) == printed("3.3333")


@pytest.mark.parametrize(
    ("overhang", "V"),
    [
        ("none", 720 + 18.375 * 10 / 3),  # 30 psf x 12 ft x 2 ft, whole strip of 18.375 in
        ("3 in", 735 + 15.375 * 10 / 3),
        ("12 3/8 in", 30 * (12 + 12.375 / 12) * 2 + 6 * 10 / 3),  # only the tail is left
        ("2 ft", 30 * 14 * 2 + 6 * 10 / 3),  # beyond the house wall: no more than the arm
    ],
)
def test_the_strip_that_the_overhang_covers_is_not_loaded_twice(overhang, V):
    result = designed(garage_roof__overhang=overhang)
    i = result.model.parts.index("S")
    assert float(result.model.whole.V_arm[0, i]) == pytest.approx(V, rel=1e-12)


def test_wind_signs():
    """Up is negative, also on the back span; down is positive."""
    result = designed()
    for by_part in (result.loads.wall_line, result.loads.strip):
        assert by_part["W_up"][0, 0] < 0 < by_part["W_down"][0, 0]
    assert result.loads.back["W_back"][0, 0] < 0


def test_wind_is_at_strength_level_in_both_editions():
    """24 psf stays 24 psf, -588 lb; 0.6 W and 1.0 W come with the combinations."""
    for edition in ("ASCE 7-16", "ASCE 7-22"):
        assert on_line(designed(basis__loads=edition), "W_up") == pytest.approx(-588.0)


def test_stated_roof_snow_is_taken_at_the_level_of_the_edition():
    """30 psf in either edition: what differs is the factor, 1.0 S or 0.7 S."""
    for edition in ("ASCE 7-16", "ASCE 7-22"):
        assert on_line(designed(basis__loads=edition), "S") == pytest.approx(735.0)


def test_a_roof_that_bears_elsewhere_brings_the_wall_no_snow():
    """Its strip over the gap has it: 30 psf x 16 in / 144 = 3.333 lb/in."""
    found = designed(garage_roof__bearing=False, garage_roof__overhang="none").loads
    assert float(np.max(np.abs(found.wall_line["S"]))) == 0
    assert float(found.strip["S"][0, 0]) == pytest.approx(3.3333, abs=1e-4)


def test_a_ridge_beam_ends_on_a_gable_wall():
    """24 ft of span, half of a ridge beam of 20 ft: 12 x 10 ft x 45 psf = 5,400 lb on one place of
    this wall. Its load is given, or said to be none here."""
    gable = {"garage_roof__bearing": False, "garage_roof__overhang": "none"}
    gable |= {"garage_roof__form": "rafters with ridge beam"}
    found = designed(**gable)
    assert [text.partition(":")[0] for text in found.not_covered] == ["garage_roof.point"]
    assert found.verdict == "open"
    beam = {"at": "12 ft", "from": "ridge beam", "D": "1800 lb", "S": "3600 lb"}
    assert designed(**gable, garage_roof__point=[beam]).verdict == "fail"
    none = [{"at": "12 ft", "from": "ridge beam", "D": "none"}]
    for key, value in (("point", none), ("form", "trusses")):
        assert designed(**{**gable, f"garage_roof__{key}": value}).not_covered == []


def test_rafters_on_a_ridge_beam_are_counted_as_trusses_and_that_is_said():
    """The beam takes half of what they span: 24 ft / 4 + 6 in for 24 ft / 2 + 6 in."""
    said = notes.of(designed(garage_roof__form="rafters with ridge beam"))
    text = "rafters on a ridge beam are counted as trusses, what the beam takes too; state less as "
    assert text + "garage_roof.line" in said
    assert not any("ridge beam" in one for one in notes.of(designed()))


def test_a_point_load_of_what_the_roof_has_none_of():
    """One site has one snow and one wind: 500 lb of it on one outrigger and none on the roof."""
    none = dict.fromkeys(("roof", "drift", "sliding", "unbalanced", "on_house"), "none")
    calm = {"wind": {"uplift": "none", "down": "none"}, "house_roof__wind_uplift": "none"}
    calm |= {"garage_wall__out_of_plane_wind": "none"}
    sites = {"S": {"snow": none, "house_roof__snow": "none"}, "W_up": calm, "W_down": calm}
    sites |= {"Lr": {"garage_roof__live": "none"}}
    for part, site in sites.items():
        found = designed(**site, garage_roof__point=[{"at": "6 ft", "D": "50 lb", part: "60 lb"}])
        assert found.not_covered == [
            f"garage_roof.point {part}: beside none of it on the garage roof"
        ]
        assert designed(**site, garage_roof__point=[{"at": "6 ft", "D": "50 lb"}]).not_covered == []


def test_one_not_given_is_listed_and_none_is_zero():
    for key in ("dead", "live", "storage"):
        gone = designed(**{f"garage_roof__{key}": GONE})
        assert f"garage_roof.{key}" in [one.key for one in gone.not_given]
        assert gone.verdict == "open"
        none = designed(**{f"garage_roof__{key}": "none"})
        assert not none.not_given


def test_self_weight_of_two_plies_is_twice_that_of_one():
    one, two = (loads.self_weight(designed().wood, 10.875 * plies) for plies in (1, 2))
    assert two == pytest.approx(2 * one)
    assert one == printed("0.18719")


def test_unbalanced_snow_is_not_silently_left_out():
    """ASCE 7 7.6.1: a gable of 6:12 has an unbalanced case; shape given, `unbalanced` not."""
    result = designed(snow__unbalanced=GONE)
    assert result.verdict == "open"


def test_an_importance_factor_of_zero_is_a_fault():
    """ASCE 7-16 Table 1.5-2 has 0.80 to 1.20."""
    snow = {
        "ground": "60 psf", "exposure": 1.0, "thermal": 1.0, "importance": 0.0,
        "drift": "none", "sliding": "none", "unbalanced": "none",
    }  # fmt: skip
    with pytest.raises(ValueError, match="importance"):
        case(snow=snow)


def test_snow_on_the_truss_sheet_but_none_in_the_snow_table_is_not_a_pass():
    line = {k: "300 plf" for k in ("D", "Lr", "S", "W_up", "W_down")} | {"L": "0 plf"}
    none = {"ground": "none", "drift": "none", "sliding": "none", "unbalanced": "none"}
    result = designed(
        garage_roof__line=line, garage_roof__live="none", snow=none, outrigger__spacing="8 in"
    )
    assert result.not_given or result.not_covered


@pytest.mark.parametrize(
    ("changes", "named"),
    [
        ({}, []),
        ({"garage_roof__live": "none"}, ["Lr"]),
        ({"snow": {"roof": "none"}}, ["S"]),
        ({"snow": {"ground": "none"}}, ["S"]),
        ({"wind__uplift": "none"}, ["W_up"]),
        ({"wind__down": "none"}, ["W_down"]),
    ],
)
def test_a_load_on_the_truss_sheet_that_the_file_says_is_not_there(changes, named):
    line = dict.fromkeys(("D", "L", "Lr", "S", "W_up", "W_down"), "100 plf")
    said = "beside none of it on the roof over the gap"
    found = designed(garage_roof__line=line, **changes).not_covered
    assert found == [f"garage_roof.line.{part}: {said}" for part in named]


@pytest.mark.parametrize("part", ["S", "W_up", "W_down", "Lr", "D"])
def test_a_load_on_the_roof_over_the_gap_that_the_truss_sheet_says_is_not_there(part):
    line = dict.fromkeys(("D", "L", "Lr", "S", "W_up", "W_down"), "100 plf") | {part: "none"}
    found = designed(garage_roof__line=line)
    assert found.not_covered == [
        f"garage_roof.line.{part}: none, beside some on the roof over the gap"
    ]
    assert found.verdict != "pass"


def test_storage_that_the_truss_sheet_says_is_not_there():
    """20 psf over half of 24 ft is 240 plf, and the reactions have none of it: no row has it."""
    line = dict.fromkeys(("D", "L", "Lr", "S", "W_up", "W_down"), "100 plf")
    said = "garage_roof.line.L: none, beside storage on the garage roof"
    none = designed(garage_roof__line=line | {"L": "none"}, garage_roof__storage="20 psf")
    assert none.not_covered == [said]
    assert none.verdict != "pass"
    some = designed(garage_roof__line=line, garage_roof__storage="20 psf")
    assert some.not_covered == []


def test_a_garage_roof_shorter_than_its_span_is_a_contradiction():
    """Snow blows off the whole of a roof of 24 ft (3 in of overhang apart), not off 20 ft."""
    said = "snow.on_house.garage_length: shorter than the roof's span"
    for length, found in (("20 ft", [said]), ("24 ft", []), ("25 ft", [])):
        on_house = {"step": "5 ft", "house_length": "30 ft", "garage_length": length}
        assert designed(snow__on_house=on_house).not_covered == found


@pytest.mark.parametrize("step", ["snow.on_house", "snow.drift"])
def test_a_step_over_the_house_roof_is_no_less_than_the_garage_wall(step):
    """The wall stands on outriggers that lie on the house roof: 30 in of it are 2.5 ft of step,
    and outrigger and roof besides."""
    lengths = {"house_length": "30 ft", "garage_length": "24 ft"}
    for feet, less in (("2.4 ft", True), ("2.5 ft", False), ("4 ft", False)):
        changes = {"snow__on_house": {"step": feet, **lengths}}
        if step == "snow.drift":
            drawn = {"on": "house roof", "house_step": feet, **lengths}
            changes = {"snow__drift": drawn, "snow__on_house": {"slippery": True}}
        snow = {"snow__roof": GONE, "snow__ground": "30 psf", "snow__exposure": 1.0,
                "snow__thermal": 1.2}  # fmt: skip
        found = designed(**snow, **changes).not_covered
        key = f"{step}.step" if step == "snow.on_house" else f"{step}.house_step"
        assert (f"{key}: less than the garage wall is high" in found) is less


def test_a_mean_roof_height_is_no_less_than_the_garage_wall():
    """A wall of 12 ft stands on the house roof: no roof on it has a mean height of 10 ft."""
    blown = {"wind": {"speed": "110 mph", "exposure": "B", "mean_height": "10 ft",
                      "enclosure": "enclosed", "least_plan": "24 ft"}}  # fmt: skip
    said = "wind.mean_height: less than the garage wall is high"
    assert said in designed(garage_wall__height="12 ft", **blown).not_covered
    assert said not in designed(garage_wall__height="9 ft", **blown).not_covered


@pytest.mark.parametrize("part", ["garage_roof", "garage_wall"])
def test_a_roof_or_a_wall_that_weighs_nothing(part):
    """None of it is less on every outrigger: never a pass. A wall of no height weighs nothing."""
    found = designed(**{f"{part}__dead": "none"})
    said = f"{part}.dead: none, and a {part.removeprefix('garage_')} weighs something"
    assert (found.not_covered, found.verdict) == ([said], "open")
    bare = designed(garage_wall__dead="none", garage_wall__height="none")
    assert bare.not_covered == []
    assert "wall height" in stated_none(bare.case)
    assert "wall height" not in stated_none(found.case)


def test_snow_on_the_house_roof_alone_is_a_contradiction():
    """One site has one snow: 21 psf on the house and none on the garage is open; none on both is
    not."""
    none = dict.fromkeys(("roof", "drift", "sliding", "unbalanced", "on_house"), "none")
    found = designed(snow=none)
    assert found.not_covered == ["house_roof.snow: beside none of it on the garage roof"]
    assert found.verdict == "open"
    assert designed(snow=none, house_roof__snow="none").verdict == "pass"
    line = dict.fromkeys(("D", "L", "Lr", "W_up", "W_down"), "100 plf") | {"S": "none"}
    found = designed(snow=none, garage_roof__line=line)
    assert "house_roof.snow: beside none of it on the garage roof" in found.not_covered


def test_what_a_design_takes_for_granted():
    """An overhang is of both walls; wind that presses the garage roof alone is told, where neither
    the file nor a wind speed says what presses the house roof."""
    alike = "the roof overhangs both walls alike"
    assert alike in notes.assumed(designed())
    assert alike not in notes.assumed(designed(garage_roof__overhang="none"))
    assert notes.SUCTION_NOTE in notes.assumed(designed())
    pressed = designed(house_roof__wind_down="5 psf")
    assert notes.SUCTION_NOTE not in notes.assumed(pressed)
