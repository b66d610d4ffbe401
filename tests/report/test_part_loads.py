"""What each part of the load does on one outrigger, by hand: what the combinations add up."""

from pathlib import Path

import pytest

from outrigger.cases.read import read_case
from outrigger.cli.common import SAMPLE_FILE
from outrigger.formula.numbers import pick
from outrigger.studies.part_loads import drifted, held, part_loads, shares
from outrigger.studies.sums import Sums
from outrigger.verdict.design import design

EXAMPLES = Path(__file__).parents[2] / "examples"


def made(path):
    return design(read_case(path, [])[0])


def test_dead_load_of_the_sample():
    """P 310 lb at a = 9 3/4 in, w 15.293 plf = 1.27440 lb/in over 11 1/2 in, back span 48 in.

    M = 310 x 9.75 + 1.27440 x 11.5^2 / 2 = 3022.5 + 84.27 = 3106.77 lb-in
    V = 310 + 1.27440 x 11.5 = 324.66 lb; back clip -3106.8 / 48 = -64.72; wall 324.66 + 64.72
    """
    dead = next(row for row in part_loads(made(SAMPLE_FILE)) if row.part == "D")
    assert (dead.P, dead.psf_arm) == pytest.approx((310, 10))
    assert 12 * dead.w_arm == pytest.approx(15.293, abs=5e-4)
    found = (dead.M, dead.V, *dead.R)
    assert found == pytest.approx((3106.77, 324.66, -64.72, 389.38), abs=0.01)


def test_snow_drifted_on_the_house_roof_of_the_sample():
    """P 378 lb, arm 28 plf = 2.33333 lb/in, drift 30.797 plf = 2.56642 lb/in at the garage wall to
    nothing over 8.0339 ft = 96.407 in: at the house wall 2.56642 (1 - 9.75 / 96.407) = 2.30687, at
    the back 2.56642 (1 - 57.75 / 96.407) = 1.02908.

    M = 378 x 9.75 + 2.33333 x 11.5^2 / 2 + 9.75^2 (2 x 2.56642 + 2.30687) / 6
      = 3685.5 + 154.29 + 117.87 = 3957.7
    V = 378 + 26.833 + 9.75 (2.56642 + 2.30687) / 2 = 428.59
    T = 3957.7 / 48 - 48^2 (2.30687 + 2 x 1.02908) / (6 x 48) = 82.452 - 34.920 = 47.53
    R = 428.59 + 47.53 + 48 (2.30687 + 1.02908) / 2 = 556.18
    """
    (R,) = drifted(made(SAMPLE_FILE))["S_house"]
    found = {step.symbol: pick(step.value) for step in R.chain()}
    assert found["M"] == pytest.approx(3957.7, abs=0.05)
    assert found["V"] == pytest.approx(428.59, abs=5e-3)
    assert found["T_place"] == pytest.approx(47.53, abs=0.01)
    assert found["R"] == pytest.approx(556.18, abs=0.01)


def test_what_each_support_of_a_row_takes():
    """The back clip alone, 48 in from the wall, 3 in of member behind it: of a moment 1 / 48; of an
    even load half of 48; of the end 3 (48 + 1.5) / 48 = 3.09375, the wall 3 - 3.09375. The clip at
    16 in alone: 1 / 16; 48 x 24 / 16 = 72; 3 x 49.5 / 16 = 9.28125. Of all three equilibrium."""
    result = made(EXAMPLES / "row_of_clips.toml")
    found = shares(result)
    held(result, part_loads(result), found)
    whole, back, near = found[:3], found[3:5], found[5:]
    assert [one.by_moment for one in back] == pytest.approx([-1 / 48, 1 / 48])
    assert [one.by_back for one in back] == pytest.approx([24, 24])
    assert [one.by_own for one in back] == pytest.approx([3.09375, -0.09375])
    assert [one.by_moment for one in near] == pytest.approx([-1 / 16, 1 / 16])
    assert [one.by_back for one in near] == pytest.approx([72, -24])
    assert [one.by_own for one in near] == pytest.approx([9.28125, -6.28125])
    assert sum(one.by_moment for one in whole) == pytest.approx(0, abs=1e-12)
    assert sum(one.by_back for one in whole) == pytest.approx(48)
    arms = (48, 16, 0)
    assert sum(one.by_moment * x for one, x in zip(whole, arms, strict=True)) == pytest.approx(-1)
    assert sum(one.by_back * x for one, x in zip(whole, arms, strict=True)) == pytest.approx(1152)


@pytest.mark.parametrize("name", ["row_of_clips", "slope_down_the_eave", "bent_clips_into_rafters"])
def test_a_sum_gives_the_number(name):
    """Of each row, what is found to add up does, in its combination."""
    result = made(EXAMPLES / f"{name}.toml")
    sums, count = Sums(result), 0
    for row in result.rows:
        element = row.check.element(row.case)
        of = row.check.combinations[row.column] if row.check.combinations else None
        for step in (one for top in row.check.steps for one in top.chain()):
            _, terms = sums.of(step, element, of)
            if terms:
                count += 1
                total = sum(factor * amount for _, factor, amount in terms)
                assert total == pytest.approx(pick(step.value, element), rel=1e-8)
    assert count > 5
