"""Numbers that no job has are faults: feet for inches, a decimal point too many, a held key."""

import numpy as np
import pytest
from level_case import case as level_case
from level_case import row
from sample_case import SAMPLE, case_of, changed, faults_of, set_to

from outrigger.verdict.design import design


@pytest.mark.parametrize(
    ("spacing", "more", "said"),
    [
        ("1.6 in", {}, "leaves no room for clips between outriggers 1 1/2 in wide."),
        ("1.6 in", {}, 'Did you mean "16 in"?'),
        ("2.4 in", {}, 'Did you mean "24 in"?'),
        ("1.92 in", {}, 'Did you mean "19.2 in"?'),
        ("3 15/16 in", {}, "leaves no room for clips"),
        ("0.0001 in", {}, "is less than the outriggers are wide, 1 1/2 in."),
        ("1.2 in", {}, 'is less than the outriggers are wide, 1 1/2 in. Did you mean "12 in"?'),
        ("4 in", {"plies": 3}, "is less than the outriggers are wide, 4 1/2 in."),
        ("5 in", {"laid": '"flat"'}, "is less than the outriggers are wide, 5 1/2 in."),
        # two flat plies side by side: 2 x 5 1/2
        ("10 in", {"laid": '"flat"', "plies": 2}, "is less than the outriggers are wide, 11 in."),
    ],
)  # fmt: skip
def test_a_spacing_that_no_outriggers_have(spacing, more, said):
    lines = "".join(f"{key} = {value}\n" for key, value in more.items())
    text = set_to(SAMPLE, outrigger__spacing=f'"{spacing}"')
    text = text.replace("[outrigger]\n", f"[outrigger]\n{lines}", 1)
    if "plies" in more:
        text = text.replace("\nplies = 1", "", 1)
    if "laid" in more:
        text = text.replace('\nlaid = "on edge"', "", 1)
    found = [fault for fault in faults_of(text) if "outrigger.spacing" in fault]
    assert len(found) == 1 and said in found[0]


def test_the_least_spacing_is_taken():
    assert case_of(set_to(SAMPLE, outrigger__spacing='"4 in"')).outrigger.spacing == 4


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("sheathing_nail_spacing", "6 ft", 'over 24 in. Did you mean "6 in"?'),
        ("sheathing_nail_spacing", "24 1/16 in", "over 24 in"),
        ("sheathing_nail_spacing", "1/4 in", "under 0.5 in"),
        ("sheathing_thickness", "0.001 in", "under 0.03125 in"),
        ("sheathing_thickness", "7/16 ft", 'over 3 in. Did you mean "7/16 in"?'),
        ("sheathing_thickness", "100 in", "over 3 in"),
        ("framing_spacing", "1 in", "under 6 in"),
        ("framing_spacing", "16 ft", 'over 120 in. Did you mean "16 in"?'),
        ("framing_offset", "1001 ft", "over 1000 ft"),
        ("sheathing_bearing", "999999999 psi", "over 2000 psi"),
        ("dead", "1001 psf", "over 1000 psf"),
        ("edge_support_width", f"{'9' * 37} in", "over 1000 ft"),
        ("framing_at", [], "names no rafter"),
    ],
)
def test_a_number_beyond_what_houses_have(key, value, said):
    lines = [line for line in SAMPLE.splitlines() if not line.startswith(f"{key} = ")]
    written = value if isinstance(value, list) else f'"{value}"'
    lines.insert(lines.index("[house_roof]") + 1, f"{key} = {written}")
    text = "\n".join(lines) + "\n"
    found = [fault for fault in faults_of(text) if f"house_roof.{key}" in fault]
    assert len(found) == 1 and said in found[0]


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('rated_uplift = "420 lb"', 'rated_uplift = "99999999 lb"', "over 100000 lb"),
        ('along = "none"', 'along = "10001 plf"', "over 10000 plf"),
        ('width = "6 in"', f'width = "{"9" * 37} in"', "over"),
        ('back_span = "4 ft"', f'back_span = "{"9" * 37} in"', "over 1000 ft"),
    ],
)
def test_a_load_or_length_of_too_many_digits(old, new, said):
    found = faults_of(changed((old, new)))
    assert found and all(said in fault for fault in found)


def test_the_town_may_lie_high():
    text = changed(("[wind]", '[wind]\nelevation = "5280 ft"'))
    assert not [fault for fault in faults_of(text) if "elevation" in fault]


# Where no whole nail of the panel is left


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("garage_roof__dead", "1.5 psf", 'under 5 psf. Did you mean "15 psf"?'),
        ("garage_roof__dead", "4.9 psf", '"none" where there is none'),
        ("garage_roof__live", "2 psf", 'under 10 psf. Did you mean "20 psf"?'),
        ("garage_roof__strip_dead", "1 psf", 'under 2 psf. Did you mean "10 psf"?'),
        ("garage_wall__dead", "1 psf", 'under 3 psf. Did you mean "10 psf"?'),
        ("house_roof__dead", "1 psf", 'under 2 psf. Did you mean "10 psf"?'),
        ("snow__roof", "2 psf", 'under 3 psf. Did you mean "20 psf"? If not, write "3 psf"'),
        ("wind__uplift", "2.6 psf", 'under 5 psf. Did you mean "26 psf"?'),
        ("house_roof__sheathing_thickness", "7 in", 'over 3 in. Did you mean "7/16 in"?'),
        ("house_roof__sheathing_thickness", "15 in", 'over 3 in. Did you mean "15/32 in"?'),
        ("outrigger__spacing", "160 in", 'over 48 in. Did you mean "16 in"?'),
        ("gap__width", "60 in", 'over 24 in. Did you mean "6 in"?'),
        ("outrigger__behind_back", "0 in", 'Did you mean "3 in"? If not, write "none".'),
        ("outrigger__behind_back", "0.3 in", 'Did you mean "3 in"?'),
        ("gap__garage_plate", "0.35 in", 'under 1.5 in. Did you mean "3.5 in"?'),
        ("gap__garage_plate", "35 in", "over 12 in."),
        ("gap__garage_plate", "3 1/2 ft", 'over 12 in. Did you mean "3 1/2 in"?'),
        ("gap__edge_bearing", "3 ft", 'over 24 in. Did you mean "3 in"?'),
        ("gap__edge_bearing", "30 in", 'over 24 in. Did you mean "3 in"?'),
        ("outrigger__size", "2x60", "no such size"),
    ],
)  # fmt: skip
def test_a_slip_of_the_decimal_point_or_the_unit_is_asked_back(key, value, said):
    text = SAMPLE
    table, name = key.split("__")
    if not [line for line in SAMPLE.splitlines() if line.startswith(f"{name} = ")]:
        text = SAMPLE.replace(f"[{table}]\n", f'[{table}]\n{name} = "1 in"\n', 1)
    found = faults_of(set_to(text, **{key: f'"{value}"'}))
    assert len(found) == 1 and said in found[0], found


@pytest.mark.parametrize(
    ("value", "said"),
    [
        ("4200 lb", 'over 3000 lb. Did you mean "420 lb"? If not, write "3000 lb".'),
        ("45000 lb", 'over 3000 lb. If not, write "3000 lb".'),
        ("3001 lb", 'Did you mean "300.1 lb"?'),
    ],
)
def test_a_clip_of_ten_times_its_value_is_asked_back(value, said):
    found = faults_of(changed(('rated_uplift = "420 lb"', f'rated_uplift = "{value}"')))
    assert found and all(said in fault for fault in found)
    assert not faults_of(changed(('rated_uplift = "420 lb"', 'rated_uplift = "3000 lb"')))


@pytest.mark.parametrize("written", ["3 psf", "none", "0 psf"])
def test_a_real_low_snow_may_be_stated(written):
    assert case_of(set_to(SAMPLE, snow__roof=f'"{written}"')).snow.roof is not None


def test_ground_snow_of_a_mild_place_is_taken():
    text = changed(('roof = "20 psf"', 'ground = "5 psf"\nexposure = 1.0\nthermal = 1.0'))
    assert case_of(text).snow.ground == pytest.approx(5 / 144)


def test_none_behind_the_back_clip_is_taken_by_the_word():
    assert case_of(set_to(SAMPLE, outrigger__behind_back='"none"')).outrigger.behind_back == 0


@pytest.mark.parametrize("quoted", [True, False])
@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("garage_roof__span", "22", '"22 ft"'),
        ("outrigger__back_span", "4", '"4 ft" or "4 in"'),
        ("garage_wall__height", "3", '"3 ft"'),
        ("garage_roof__overhang", "16", '"16 in" or "16 ft"'),
        ("gap__width", "6", '"6 in"'),
        ("outrigger__spacing", "16", '"16 in"'),
    ],
)
def test_a_number_without_a_unit_is_asked_in_the_units_of_its_key(quoted, key, value, said):
    found = faults_of(set_to(SAMPLE, **{key: f'"{value}"' if quoted else value}))
    assert len(found) == 1
    assert (f"Did you mean {said}?" if quoted else f"such as {said}, not {value}.") in found[0]


PANEL = {
    "house_roof__sheathing": "OSB", "house_roof__sheathing_thickness": "7/16 in",
    "house_roof__sheathing_nail": "nail 0.131 x 2 1/2 in",
}  # fmt: skip


@pytest.mark.parametrize(
    ("framing", "nails", "whole"),
    [("8 in", "16 in", 1), ("8 in", "17 in", 0), ("6 in", "24 in", 0)],
)
def test_a_panel_without_a_whole_nail_beside_the_clip_fails(framing, nails, whole):
    """2 x 8 in / 16 in is one nail; 2 x 8 / 17 is none: capacity 0, never a number that is none."""
    clip = {"at": "back", "count": 2, "side_fastener": "nail 0.148 x 1 1/2 in",
            "side_fasteners": 4, "side_height": "4 in", "steel": "16 ga",
            "deck_fastener": "wood screw #10 x 2 1/2 in", "deck_fasteners": 2,
            "into": "sheathing only"}  # fmt: skip
    case = level_case(
        hold_down=[clip, clip | {"at": "edge"}], house_roof__framing_spacing=framing,
        house_roof__sheathing_nail_spacing=nails, **PANEL,
    )  # fmt: skip
    result = design(case)
    found = row(result, "hold_down:back", "panel nails")
    assert found.demand > 0
    if whole:
        assert found.capacity > 0 and np.isfinite(found.ratio)
    else:
        assert (found.status, found.capacity, found.ratio) == ("fail", 0, None)
        assert "no whole nail of the panel" in found.check.why
        assert result.verdict == "fail"
