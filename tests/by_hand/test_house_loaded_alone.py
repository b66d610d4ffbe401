"""What lies on the back span alone, and wind that presses it: the level case, by hand.

Unfactored at the back, lb, down positive (worked in test_level_design_by_hand.py): dead of the arm
-120.443, of the back span 26.901; snow of the arm -217.037, of the back span 51.333; wind up 60 psf
on the arm 434.073. Wind pressing the back span with 12 psf: 16/144 x 12 x 44/2 = 29.333 at the back
and as much at the edge.
"""

import pytest
from in_combination import demand_in
from level_case import case, check, designed

from outrigger.cases.batch import batch_of
from outrigger.verdict import notes
from outrigger.verdict.design import design, designs_of

PRESSED = {"house_roof__wind_down": "12 psf"}


def at_back(result, text):
    """Push less pull at the back, lb, 2.25 in2 of sheathing and two clips."""
    down = demand_in(check(result, "back_bearing", "sheathing"), text) * 2.25
    return down - 2 * demand_in(check(result, "hold_down:back"), text)


def test_snow_on_the_house_alone():
    """D + S, none on the arm: -93.542 + 51.333 = -42.209 lb, which the clips hold."""
    assert at_back(designed(), "D + S, snow on the back span only") == pytest.approx(
        -42.209, abs=0.01
    )


def test_snow_on_the_house_and_wind_up_on_the_garage():
    """D + 0.75S + 0.45W up, none on the arm, pressure on the back span: -93.542 + 0.75 x 51.333 +
    0.45 x (434.073 + 29.333) = 153.49 lb down."""
    result = designed(wind__uplift="60 psf", **PRESSED)
    text = (
        "D + 0.75S + 0.45W up, snow on the back span only, wind up with pressure on the back span"
    )
    assert at_back(result, text) == pytest.approx(153.49, abs=0.02)


def test_wind_presses_the_edge_too():
    """D + 0.75L + 0.75S + 0.45W down: 0.45 x 29.333 = 13.200 lb more than without."""
    name = "D + 0.75L + 0.75S + 0.45W down"
    before, after = designed(), designed(**PRESSED)

    def push(result, text):
        texts = [c.text for c in result.main.combinations.all]
        return float(result.main.R_edge[0, texts.index(text)])

    more = push(after, f"{name}, wind down with pressure on the back span") - push(before, name)
    assert more == pytest.approx(13.200, abs=0.001)


def test_not_given_is_said_with_its_key():
    assert any("house_roof.wind_down is not given" in text for text in notes.of(designed()))
    for stated in ("12 psf", "none"):
        result = designed(house_roof__wind_down=stated)
        assert not any("house_roof.wind_down" in text for text in notes.of(result))


def test_a_house_rafter_is_pressed_by_it():
    """Rafters 22 in apart: 12 psf x 22/144 = 1.8333 lb/in, D 9 psf 1.375 lb/in; under D + 0.6W down
    the clips pull: (1.375 + 1.1) x 144^2/8 = 6415.2 lb-in on 21.391 in3: 299.9 psi."""
    rafter = {
        "kind": "rafter", "size": "2x10", "species": "Spruce-Pine-Fir", "grade": "No. 2",
        "spacing": "22 in", "span": "12 ft",
    }  # fmt: skip
    found = check(designed(house_rafter=rafter, **PRESSED), "house_rafter", "bending", "back")
    text = "D + 0.6W down, wind down with pressure on the back span"
    assert demand_in(found, text) == pytest.approx(299.9, abs=0.1)


def test_a_sweep_of_it_is_its_cases():
    many = [0.05, 0.1]
    together = designs_of(batch_of(case(), {"house_roof.wind_down": many}))
    for i, value in enumerate(many):
        alone = design(batch_of(case(), {"house_roof.wind_down": value}).case)
        assert [r.ratio for r in together.rows(i)] == [r.ratio for r in alone.rows]
