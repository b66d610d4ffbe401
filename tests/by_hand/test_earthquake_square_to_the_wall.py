"""The earthquake square to the garage wall, worked by hand. ASCE 7 12.11.2, recalled.

The case of test_level_design_by_hand.py: D 407.5 lb on the line of one outrigger, wall and roof.

    category B, SDS 0.2: 0.4 x 0.2 = 0.08, at least 0.2; ka 2.0 where the length of the diaphragm is
    not known: 0.2 x 2.0 x 1.0 x 407.5 = 163.0 lb; 0.7E = 114.1 lb along each outrigger
    run 20 ft: ka 1 + 20/100 = 1.2: 97.8 lb; 0.7E = 68.46 lb
    category D, SDS 1.0: 0.4 x 2.0 x 407.5 = 326.0 lb; 0.7E = 228.2 lb
    risk category III: x 1.25
"""

import pytest
from level_case import GONE, case, check, designed, row
from published import printed

from outrigger.cases.faults import CaseFaultsError

B = {"seismic": {"category": "B", "sds": 0.2}}
D = {"seismic": {"category": "D", "sds": 1.0}}


def at(found, name):
    return found.demand_at(0, [c.text for c in found.combinations].index(name))


def test_it_slides_the_outrigger_and_its_tie():
    """114.1 lb in D + 0.7Ev + 0.7E, of 2 x 200 lb at the edge, listed for wind as short a load; the
    tie 114.1 of 2 x 900."""
    found = designed(**B)
    slides = check(found, "slide", "along")
    name = "D + 0.7Ev + 0.7E away"
    assert at(slides, name) == printed("114.1")
    assert slides.capacity_at(0, [c.text for c in slides.combinations].index(name)) == printed(
        "400"
    )
    assert at(check(found, "wall_tie", "along"), name) == printed("114.1")
    assert found.verdict == "pass"
    assert not [one for one in found.not_given]


def test_the_length_of_the_diaphragm():
    with_run = {"run": "20 ft", "start": "half space"}
    found = check(designed(**B, layout=with_run), "wall_tie", "along")
    mark = [c.text for c in found.combinations].index("D + 0.7Ev + 0.7E away")
    # a mark carries its own dead load: 0.2 x 1.2 x 0.7 of it
    dead = designed(**B, layout=with_run).loads.wall_line["D"][0, 0]
    assert found.demand_at(0, mark) == pytest.approx(0.2 * 1.2 * 0.7 * dead)


def test_a_hard_earthquake_can_fail():
    """228.2 lb; clips rated 100 lb sideways hold 200."""
    weak = {f"hold_down__{i}__rated_lateral": "100 lb" for i in (0, 1)}
    found = row(designed(**D, **weak), "slide", "along")
    assert (found.demand, found.capacity) == (printed("228.2"), printed("200"))
    assert found.status == "fail"


def test_a_building_that_matters():
    found = check(designed(**B, basis__risk_category="III"), "wall_tie", "along")
    assert at(found, "D + 0.7Ev + 0.7E away") == printed("142.6")


def test_strength_design():
    """1.2D + Ev + E: 163 lb, whole."""
    found = designed(**B, basis__method="LRFD", wall_tie={"fastener": "wood screw #14 x 6 in"},
                     garage_wall__plates=1)  # fmt: skip
    names = [c.text for c in check(found, "wall_tie", "along").combinations]
    name = next(n for n in names if n.startswith("1.2D + Ev + E away"))
    assert at(check(found, "wall_tie", "along"), name) == printed("163.0")


def test_it_does_not_droop_and_does_not_bend_the_stud():
    found = designed(**B, garage_wall__studs={"size": "2x6", "species": "SPF", "grade": "Stud"})
    droop = check(found, "live_deflection")
    assert not any("E " in c.text for c in droop.combinations)
    assert "psi" in check(found, "stud", "").unit  # compression alone


def test_its_status_and_its_words():
    found = designed(**B)
    (said,) = [r for r in found.loads.reasons if r.startswith("earthquake")]
    assert "163 lb square to the wall (ASCE 7 12.11.2, from memory)" in said
    assert "the garage's own braced lines take it" in said
    (step,) = found.loads.steps["E_away"]
    assert step.status == "MEMORY"


def test_exempt_by_the_user_s_word():
    """ASCE 7 11.1.2: a detached one- or two-family dwelling in A, B or C; sds is not asked for."""
    found = designed(seismic={"category": "C", "exempt": True})
    assert found.verdict == "pass"
    (said,) = [r for r in found.loads.reasons if r.startswith("earthquake")]
    assert "11.1.2" in said
    assert "E_away" not in found.model.parts
    with pytest.raises(CaseFaultsError, match="exempt = true: beside category D"):
        case(seismic={"category": "D", "sds": 1.0, "exempt": True})
    unknown = designed(seismic={"exempt": True})
    assert [one.key for one in unknown.not_given] == ["seismic.category"]


def test_a_tie_that_is_not_given_is_open():
    found = designed(**B, wall_tie=GONE, wind={"uplift": "none"}, house_roof__wind_uplift="none")
    assert row(found, "wall_tie", "along").status == "open"
