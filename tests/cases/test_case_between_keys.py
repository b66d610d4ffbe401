"""Faults between the keys of a case file: what belongs to one edition, what needs another key."""

import pytest
from sample_case import (
    DRIFT,
    DRIFTING,
    SAMPLE,
    changed,
    faults_of,
    line_of,
    set_to,
    the_fault,
    without,
)

MODERN = changed(('loads = "ASCE 7-16"', 'loads = "ASCE 7-22"'))


def test_importance_belongs_to_7_16():
    text = changed(('roof = "20 psf"', 'roof = "20 psf"\nimportance = 1.0'), text=MODERN)
    assert the_fault(text).startswith(
        f"line {line_of(text, 'importance')}: snow.importance ASCE 7-22"
    )
    assert faults_of(text.replace("7-22", "7-16")) == []


def test_roof_r_belongs_to_7_22():
    text = changed(('roof = "20 psf"', 'roof = "20 psf"\nroof_r = 30'))
    assert the_fault(text).endswith("snow.roof_r belongs to ASCE 7-22, not to ASCE 7-16.")
    assert faults_of(text.replace("7-16", "7-22")) == []


def test_winter_wind_belongs_to_7_22_and_is_needed_there():
    windy = changed((DRIFT, DRIFT + "winter_wind = 0.45\n"), text=DRIFTING)
    assert faults_of(DRIFTING) == []
    assert "snow.drift.winter_wind belongs to ASCE 7-22" in the_fault(windy)
    assert "snow.drift.winter_wind is not given" in the_fault(DRIFTING.replace("7-16", "7-22"))
    assert faults_of(windy.replace("7-16", "7-22")) == []


@pytest.mark.parametrize("key", ["exposure", "thermal"])
def test_ground_snow_needs_its_factors(key):
    text = changed(('roof = "20 psf"', 'ground = "40 psf"\nexposure = 1.0\nthermal = 1.2'))
    assert faults_of(text) == []
    assert f"snow.{key} is not given, and is needed with ground: a number, or" in the_fault(
        without(text, "snow", key)
    )


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ('exposure = "c, Partially Exposed"\nthermal = "Unheated"', ""),
        ('exposure = "sheltered"', "Table 7.3-1 has the terrains B; C; D; above the tree line"),
        ('exposure = "B, windy"', "in terrain B: fully exposed, partially exposed, sheltered"),
        ('thermal = "garage"', "ASCE 7-16 Table 7.3-2 has: heated; just above freezing or cold"),
        ('thermal = "freezer"', ""),
    ],
)
def test_snow_factors_in_the_words_of_their_tables(words, said):
    """Read by the edition; the fault lists the words there are."""
    text = changed(('roof = "20 psf"', f'roof = "20 psf"\n{words}'))
    if said:
        assert said in the_fault(text)
    else:
        assert faults_of(text) == []


def test_a_heated_roof_of_the_newer_edition_is_sent_to_its_r_value():
    text = changed(('roof = "20 psf"', 'roof = "20 psf"\nthermal = "heated"'))
    assert faults_of(text) == []
    assert "A heated roof: give roof_r." in the_fault(text.replace("7-16", "7-22"))


def test_no_ground_snow_needs_no_factors():
    assert faults_of(changed(('roof = "20 psf"', 'ground = "none"'))) == []


def test_ground_and_roof_snow():
    text = changed(
        ('roof = "20 psf"', 'roof = "20 psf"\nground = "40 psf"\nexposure = 1.0\nthermal = 1.2')
    )
    assert "snow.roof stands beside ground" in the_fault(text)


def test_no_ground_snow_beside_snow_on_the_roof():
    """The roof's snow would count, and what drifts and slides onto the house would not be asked."""
    both = changed(('roof = "20 psf"', 'roof = "20 psf"\nground = "none"'))
    said = 'snow.ground = "none": stands beside snow on the roof: give the roof snow or the ground'
    assert said in the_fault(both)
    assert faults_of(both.replace('roof = "20 psf"', 'roof = "none"')) == []


@pytest.mark.parametrize("text", [SAMPLE, DRIFTING])
def test_drift_line_beside_drift(text):
    line = 'drift_line = "131 plf"'
    text = changed(('sliding = "none"', f'sliding = "none"\n{line}'), text=text)
    assert the_fault(text).startswith(f"line {line_of(text, line)}: snow.drift_line stands beside")
    assert faults_of(without(SAMPLE, "snow", "drift")) == []


def test_wind_on_the_house_roof_and_none_on_the_garage():
    """A run of one case left the suction out in silence, a batch of several applied it."""
    calm = set_to(SAMPLE, wind__uplift='"none"')
    said = "house_roof.wind_uplift = 20 psf: beside wind.uplift = none. Wind that lifts the house"
    assert said in the_fault(calm)
    assert faults_of(set_to(calm, house_roof__wind_uplift='"none"')) == []


def test_wind_speed_beside_a_pressure():
    assert "wind.speed stands beside" in the_fault(changed(("[wind]", '[wind]\nspeed = "115 mph"')))


def test_no_hold_down_at_the_back():
    fault = the_fault(changed(('at = "back"', 'at = "40 in"')))
    assert 'no entry with at = "back"' in fault


def test_only_an_edge_tie():
    head, _, tail = SAMPLE.partition('[[hold_down]]\nat = "back"')
    text = head + "[[hold_down]]" + tail.partition("[[hold_down]]")[2]
    assert 'no entry with at = "back"' in the_fault(text)


def test_no_hold_down_at_the_back_has_a_line():
    assert the_fault(changed(('at = "back"', 'at = "40 in"'))).startswith("line ")


@pytest.mark.parametrize("at", ["back", "4 ft", "48 in", "Back"])
def test_the_back_twice(at):
    """A place equal to the back span is the back."""
    assert "stands twice" in the_fault(changed(('at = "edge"', f'at = "{at}"')))


@pytest.mark.parametrize("more", ["edge", "0 in", "16 in"])
def test_a_place_twice(more):
    first = "16 in" if more == "16 in" else "edge"
    again = f'at = "{more}"'
    text = changed(('at = "edge"', f'at = "{first}"')) + f"[[hold_down]]\n{again}\n"
    number = line_of(text, again, 2 if more == first else 1)
    assert the_fault(text).startswith(f"line {number}: hold_down[2].at")
    assert "stands twice" in the_fault(text)


@pytest.mark.parametrize("at", ["48 1/16 in", "10 ft", "wall line"])
def test_a_hold_down_beyond_the_back_or_outside(at):
    outside = f'at = "{at}"'
    text = changed(('at = "edge"', outside))
    assert the_fault(text).startswith(f"line {line_of(text, outside)}: hold_down[1].at")


def test_a_hold_down_between_edge_and_back():
    assert faults_of(changed(('at = "edge"', 'at = "47 in"'))) == []


def test_a_bearing_wall_needs_its_span_or_line():
    text = without(SAMPLE, "garage_roof", "span")
    assert "garage_roof.span is not given" in the_fault(text)
    assert faults_of(text.replace("bearing = true", "bearing = false")) == []
    assert faults_of(text.replace("bearing = true", 'line = { D = "150 plf" }')) == []


@pytest.mark.parametrize(
    "keys",
    [
        ("project", "name"), ("basis", "loads"), ("gap", "width"), ("gap", "garage_plate"),
        ("gap", "edge_bearing"), ("outrigger", "species"), ("outrigger", "grade"),
        ("outrigger", "size"), ("outrigger", "spacing"), ("outrigger", "back_span"),
        ("garage_roof", "span"),
    ],
)  # fmt: skip
def test_a_required_key(keys):
    """Named with the line of its table."""
    text = without(SAMPLE, *keys)
    fault = the_fault(text)
    assert fault.startswith(f"line {line_of(text, f'[{keys[0]}]')}: {'.'.join(keys)} is not given")


def test_an_empty_project_name():
    assert "project.name" in the_fault(set_to(SAMPLE, project__name='""'))


@pytest.mark.parametrize(
    ("category", "importance", "needed"),
    [("IV", 1.0, "1.2"), ("III", 1.0, "1.1"), ("II", 0.8, "1")],
)
def test_an_importance_less_than_the_risk_category_asks_for(category, importance, needed):
    """ASCE 7-16 Table 1.5-2: Is 0.8, 1.0, 1.1, 1.2. More than it asks for stands."""
    snow = f'ground = "30 psf"\nexposure = 1.0\nthermal = 1.2\nimportance = {importance:g}'
    text = changed(('roof = "20 psf"', snow))
    text = text.replace("[basis]", f'[basis]\nrisk_category = "{category}"')
    assert the_fault(text).endswith(
        f"snow.importance = {importance:g}: risk category {category} asks for {needed} "
        "(Table 1.5-2). Leave one of the two out."
    )
    assert faults_of(text.replace(f"importance = {importance:g}", "importance = 1.2")) == []
