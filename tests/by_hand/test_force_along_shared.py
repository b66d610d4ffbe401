"""Force along the member, shared by side values, and the worker before the roof is on.

2x6 DF-L No. 2 at 16 in down a 6:12 slope, gap 4 in; one strong clip at the back (245 lb up, 1000 lb
along), four at the edge (300 lb up, 100 lb along each), all for any duration.
    theta = 26.565 deg, sin 0.44721, cos 0.89443; arm (4 + 1/2 + 1 3/4)/cos + 1 1/2 = 8.4877 in, end
    at 8.4877 + 1.75 = 10.2377 in; back span 30 in, 3 in behind it
    P: dead (15 psf x 11 ft + 10 psf x 2 ft) x 16/12 = 246.67 lb; strip 15 psf x 16/12/12 x cos =
    1.4907 lb/in; self 34.20 pcf x 8.25 in2 = 0.1633 lb/in; worker 300 lb at the end
"""

import pytest
from case_files import case_of, design_of
from in_combination import demand_in
from level_case import check, row

from outrigger.checks.side_values import along_at, lateral_of_place
from outrigger.verdict.design import design

ROOF_OFF = "D + worker, before the roof is on"
ONLY_OWN = "D + worker, dead on the back span x 0.6"  # the same where no house dead is stated


def test_by_rated_side_value_not_by_number():
    """D + worker, only its own weight on the back span: worked in proof/data/whole_cases.toml.

    Along 253.50 lb: by value 1000/(1000 + 4 x 100) of it at the back, 181.07 lb of 1000.
    """
    result = design_of("slope_strong_back_clip")
    back = row(result, "hold_down:back")
    assert back.combination == ONLY_OWN
    along = along_at(result.member, result.clips, "back")
    names = [one.text for one in result.clips.combinations.all]
    assert along[0, names.index(ROOF_OFF)] == pytest.approx(181.07, abs=0.02)
    assert result.verdict == "fail"


def test_the_edge_still_may_carry_all_of_it():
    """253.50 lb on four clips of 100 lb, whatever the back could take."""
    result = design_of("slope_strong_back_clip")
    slide = check(result, "slide", "along")
    assert demand_in(slide, ROOF_OFF) == pytest.approx(253.50, abs=0.02)
    assert slide.capacity_at(0, 0) == pytest.approx(400)


@pytest.mark.parametrize(
    ("settings", "at_back"),
    [
        (["hold_down[edge].rated_lateral=none"], 1.0),
        (["hold_down[back].rated_lateral=none"], 0.0),
        # both none: by their number, 1 of 5, and both fail for having no side value
        (["hold_down[back].rated_lateral=none", "hold_down[edge].rated_lateral=none"], 0.2),
    ],
)
def test_a_side_value_of_none_takes_nothing(settings, at_back):
    result = design_of("slope_strong_back_clip", *settings)
    along, whole = along_at(result.member, result.clips, "back"), abs(result.clips.side.N_all)
    assert along == pytest.approx(whole * at_back, rel=1e-12)


def test_a_side_value_not_given_leaves_them_by_number_and_open():
    """Not given is not zero, and makes nothing fail that the number of clips did not."""
    case = case_of("slope_strong_back_clip")
    back, edge = case.hold_down
    edge = edge.model_copy(update={"rated_lateral": None})
    result = design(case.model_copy(update={"hold_down": (back, edge)}))
    along, whole = along_at(result.member, result.clips, "back"), abs(result.clips.side.N_all)
    assert along == pytest.approx(whole / 5, rel=1e-12)
    assert row(result, "slide", "along").status == "open"


def test_built_clips_by_their_z_and_count():
    """Two of 3 nails at the back, four of 1 nail at the edge, of one kind: 6 to 4 of the nails."""
    case = case_of("slope_strong_back_clip")
    fastened = {
        "rated_uplift": None,
        "rated_lateral": None,
        "rated_for": None,
        "side_fastener": "nail 0.148 x 1 1/2 in",
        "side_fasteners": 12,
        "deck_fastener": "nail 0.148 x 3 in",
        "steel": "16 ga",
    }
    back, edge = (
        hold.model_copy(update={**fastened, "count": count, "deck_fasteners": nails})
        for hold, count, nails in zip(case.hold_down, (2, 4), (3, 1), strict=True)
    )
    result = design(case.model_copy(update={"hold_down": (back, edge)}))
    Z = [lateral_of_place(result.member, h.at, h).value[0, 0] for h in (back, edge)]
    assert Z[0] / Z[1] == pytest.approx(6 / 4, rel=1e-12)
    along, whole = along_at(result.member, result.main, "back"), abs(result.main.side.N_all)
    assert along == pytest.approx(whole * 0.6, rel=1e-12)
