"""Loads handed to the house: by source, never netted, and the most of each place by hand.

The case of level_case.py; its unfactored parts are worked in test_level_design_by_hand.py:

                     D       L        S       W_down    W_up      back span: D      S       W
    back, lb     -120.443  -34.453  -217.037  -72.346   173.629            26.901  51.333  -44
    edge, lb      555.883  156.953  1003.287  334.429  -802.629            26.084  51.333  -44
"""

import numpy as np
import pytest
from level_case import designed
from published import printed

from outrigger.cases.read import read_case
from outrigger.cli.common import SAMPLE_FILE
from outrigger.verdict.design import design
from outrigger.verdict.envelopes import envelopes
from outrigger.verdict.handed import square


@pytest.fixture(scope="module")
def asd():
    return designed()


def by_source(result, at):
    return {(one.source, one.case): one.force for one in square(result) if one.at == at}


def most(result):
    return {(one.at, one.way, one.level): one for one in envelopes(result)}


def test_what_the_back_span_brings_is_not_set_off(asd):
    """At the back the garage side pulls up under snow and its own snow pushes down: two numbers."""
    back = by_source(asd, "back")
    assert back["garage side", "D"] == printed("-120.443")
    assert back["back span", "D"] == printed("26.901")
    assert back["garage side", "S"] == printed("-217.037")
    assert back["back span", "S"] == printed("51.333")
    assert back["garage side", "W_up"] == printed("173.629")
    assert back["back span", "W_up"] == printed("-44.000")


# place, way, level: force, and the factors by hand
BY_HAND = {
    # 581.967 + 0.75 x 156.953 + 0.75 x 1054.620 + 0.45 x 334.429
    ("edge", "push", "ASD"): ("1641.14", "D + 0.75L + 0.75S + 0.45W down"),
    # 1.2 x 581.967 + 1.6 x 1054.620 + 0.5 x 334.429
    ("edge", "push", "strength"): ("2552.97", "1.2D + 1.6S + 0.5W down"),
    # 0.6 x (581.967 - 846.629)
    ("edge", "pull", "ASD"): ("158.80", "0.6D + 0.6W up"),
    # 846.629 - 0.9 x 581.967
    ("edge", "pull", "strength"): ("322.86", "0.9D + W up"),
    # 0.6 x (173.629 - 120.443 + 26.901), suction on the back span left away
    ("back", "push", "ASD"): ("48.05", "0.6D + 0.6W up"),
    # 173.629 - 0.9 x (120.443 - 26.901)
    ("back", "push", "strength"): ("89.44", "0.9D + W up"),
    # 120.443 - 0.6 x 26.901 + 0.75 x (34.453 + 217.037) + 0.45 x (72.346 + 44), no snow inside
    ("back", "pull", "ASD"): ("345.28", "D + 0.75L + 0.75S + 0.45W down"),
    # 1.2 x 120.443 - 0.9 x 26.901 + 1.6 x 217.037 + 0.5 x (72.346 + 44)
    ("back", "pull", "strength"): ("525.75", "1.2D + 1.6S + 0.5W down"),
}


@pytest.mark.parametrize("place", BY_HAND, ids=" ".join)
def test_the_most_of_each_place(asd, place):
    force, combination = BY_HAND[place]
    one = most(asd)[place]
    assert one.force == printed(force)
    assert one.combination.split(",")[0] == combination


def test_nothing_else_is_handed_over(asd):
    assert most(asd).keys() == BY_HAND.keys()


def test_the_method_of_the_case_changes_neither_level(asd):
    strength = most(designed(basis__method="LRFD"))
    for place, one in most(asd).items():
        assert strength[place].force == pytest.approx(one.force, rel=1e-12)


@pytest.mark.parametrize("settings", [(), ("basis.method=LRFD",), ("basis.loads=ASCE 7-22",)])
def test_no_clip_is_designed_for_more_than_is_handed_over(settings):
    """The pull of the ASD combinations is that of the clips' rows: the same combinations."""
    result = designed(**{k.replace(".", "__"): v for k, v in (s.split("=") for s in settings)})
    found = most(result)
    for at, pull in result.clips.uplift.items():
        assert found[at, "pull", "ASD"].force == pytest.approx(float(pull.max()), rel=1e-12)


def test_a_drift_on_the_house_roof_is_a_source_of_its_own():
    """The sample's drift lies on the house roof. By statics, with peak q at the garage wall falling
    to nothing over its width and cut off at the back: resultant and lever of the trapezoid from the
    arm inward, moments about the back."""
    result = design(read_case(SAMPLE_FILE)[0])
    (peak, width), shape = result.loads.house["S_house"], result.shape
    q, w = float(peak[0, 0]), float(width[0, 0])
    arm, back = float(shape.arm[0, 0]), float(shape.back_span[0, 0])
    reach = min(w, arm + back)  # what of it lies on the outrigger
    far = q * (1 - reach / w)  # its height there
    whole = (q + far) / 2 * reach
    lever = (far * reach**2 / 2 + (q - far) * reach**2 / 6) / whole  # from the garage wall
    x = arm - lever  # of the resultant, from the edge
    edge, inner = by_source(result, "edge"), by_source(result, "back")
    assert edge["drift on the house roof", "S"] == pytest.approx(whole * (back + x) / back)
    assert inner["drift on the house roof", "S"] == pytest.approx(-whole * x / back)


def test_snow_of_the_garage_side_is_without_that_on_the_house_roof():
    """Drift and slid snow lie beside the garage's own snow: what they bring stands apart, and the
    garage side hands over what it does without them."""
    files = [(), ("snow.on_house=none",)]
    both, alone = (design(read_case(SAMPLE_FILE, more)[0]) for more in files)
    for at in ("edge", "back"):
        found, known = by_source(both, at), by_source(alone, at)
        assert ("drift on the house roof", "S") in found
        assert ("drift on the house roof", "S") not in known
        garage = "garage side", "S"
        assert found[garage] == pytest.approx(known[garage], rel=1e-12)


def test_of_a_layout_each_with_its_mark():
    case = read_case(SAMPLE_FILE, ["layout.run=24 ft"])[0]
    result = design(case)
    over = result.worked.over_marks
    pushes = np.broadcast_to(over.clips.R[-1].max(axis=1), over.batch.count)
    one = most(result)["edge", "push", "ASD"]
    assert one.force == pytest.approx(float(pushes.max()), rel=1e-12)
    assert pushes[over.numbers.index(one.mark)] == pytest.approx(one.force, rel=1e-12)
