"""Without a layout: what passes with the plain share, and not with that of the first outrigger
inside a continuous plate, is open, and nothing says that it works.

The other method: the same load written into the file as lb per foot of wall, 1.15 times that of the
roof (four equal bays have 8/7, by three moments), the wall 1.15 times as heavy; strip and back span
as they are.
"""

from pathlib import Path

import numpy as np
import pytest

from outrigger.cases.batch import batch_of
from outrigger.cases.paths import with_numbers
from outrigger.cases.read import read_case
from outrigger.report.verdict_words import left_open, verdict
from outrigger.studies.gaps import study as gap_study
from outrigger.studies.reserve import reserve
from outrigger.studies.sizes import sizes
from outrigger.verdict.design import design, designs_of

PASSES = Path(__file__).parents[2] / "examples" / "passes.toml"
UNIFORM = ("garage_roof.member_spacing=uniform", "spacing=24in")
SNOW = ("snow=27psf", "house_roof.snow=27psf")
MORE = 1.15
RUN = "layout.run"


def case(*settings):
    return read_case(PASSES, settings)[0]


def as_line(*settings, snow):
    """Half of 20 ft of roof as lb per foot of wall: 15 psf dead, 20 live, snow, wind 26 and 8."""
    plf = {"D": 15, "L": 0, "Lr": 20, "S": snow, "W_up": 26, "W_down": 8}
    return case(
        *settings,
        "garage_wall.dead=11.5 psf",
        *(f"garage_roof.line.{part}={psf * 10 * MORE:.10g} plf" for part, psf in plf.items()),
    )


def asked(found):
    return [one for one in found.not_given if one.key == RUN]


def test_what_the_first_outrigger_inside_may_not_hold_is_open():
    """Bending 0.94 with 2 ft of wall; 1.08 with 1.15 times its roof and wall."""
    found, over = design(case(*UNIFORM, *SNOW)), design(as_line(*UNIFORM, *SNOW, snow=27))
    rows = {(r.id, r.place, r.link): r.ratio for r in found.rows}
    assert max(ratio for ratio in rows.values() if ratio is not None) < 1
    assert over.closest.id == "bending" and over.closest.ratio > 1
    assert over.verdict == "fail"
    assert found.verdict == "open" and not found.works
    assert found.closest.ratio == pytest.approx(over.closest.ratio, rel=1e-9)
    (one,) = asked(found)
    said = f"the second outrigger from each end may be over ({over.closest.ratio:.2f})"
    assert f"say how long the wall is (layout.run): {said}." in one.question
    assert said in left_open(found) and said in verdict(found)


def test_with_the_run_it_is_no_longer_asked():
    found = design(case(*UNIFORM, *SNOW, "layout.run=20 ft"))
    assert found.verdict == "fail" and asked(found) == []
    assert design(case(*UNIFORM, "snow=15psf", "house_roof.snow=15psf")).verdict == "pass"


def test_trusses_no_farther_apart_than_the_outriggers_too():
    """24 in on 24 in: one on each, the plain share. On 16 in one stands whole on an outrigger: that
    is the most, and nothing is asked."""
    found = design(case("spacing=24in", *SNOW))
    assert found.verdict == "open" and asked(found)
    assert design(case(*SNOW)).closest.ratio > 1 / MORE
    assert asked(design(case(*SNOW))) == []


def test_a_batch_is_its_cases():
    stated = case(*UNIFORM, *SNOW)
    spacing = np.array([12.0, 16.0, 20.0, 22.0, 22.5, 24.0, 30.0])
    together = designs_of(batch_of(stated, {"outrigger.spacing": spacing}))
    for i, value in enumerate(spacing):
        alone = design(with_numbers(stated, {"outrigger.spacing": value}))
        assert together.works[i] == alone.works
        assert (together.closest(i).id, together.closest(i).ratio) == (
            alone.closest.id, alone.closest.ratio
        )  # fmt: skip
        assert together.largest[i] >= together.closest(i).ratio
    assert list(together.works) == [True] * 4 + [False] * 3


def test_no_study_says_that_the_plain_share_alone_works():
    """The largest gap is that of the load written into the file, and the sizes are those of both;
    its trusses a hair farther apart than the outriggers: one on each, and no plate adds to it."""
    apart = ("garage_roof.member_spacing=24.00000001in", "spacing=24in")
    stated, over = case(*UNIFORM, *SNOW), as_line(*apart, *SNOW, snow=27)
    widths = np.arange(4.0, 9.0)
    found, other = (gap_study(one, widths) for one in (stated, over))
    assert found.largest.last == pytest.approx(other.largest.last, rel=1e-7)
    assert not found.asked.works
    result = reserve(stated)
    assert not result.works
    gap = next(s for s in result.sides if s.quantity.key == "gap.width" and not s.up)
    assert gap.turn.last == pytest.approx(other.largest.last, rel=1e-7)
    named, plain, more = (
        {(c.size, c.back_span, grade) for c in sizes(one).choices if c.spacing == 24.0
         for grade in c.grades} for one in (stated, case(*apart, *SNOW), over)
    )  # fmt: skip
    assert named == plain & more  # a long back span may need the wall's weight, and fail by less
    assert set() != named != plain
