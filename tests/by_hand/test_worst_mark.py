"""Which mark of a layout is checked, and what is handed over: the largest over the marks.

The other method: the same wall without a layout, where a truss at 24 in stands whole on one
outrigger, as it does on most marks of a row at 16 in; and each mark designed alone.
"""

from pathlib import Path

import numpy as np
import pytest

from outrigger.actions.reactions import reactions
from outrigger.cases.batch import Batch, batch_of
from outrigger.cases.paths import with_numbers
from outrigger.cases.read import read_case
from outrigger.formula.check import FAILS, OPEN, PASSES
from outrigger.layout.layout import layout
from outrigger.marks.of_case import at_marks
from outrigger.report import handed as told
from outrigger.report.verdict_words import at_other_marks
from outrigger.verdict.clip_forces import clip_forces
from outrigger.verdict.design import Design, design, designs_of
from outrigger.verdict.elsewhere import elsewhere
from outrigger.verdict.handed import _largest, square
from outrigger.verdict.worked import worked_of
from outrigger.verdict.worst_mark import worst_of_each

EXAMPLES = Path(__file__).parents[2] / "examples"
RUN = "layout.run=24 ft"
LAGGED = ("lag_through_the_outrigger", "garage_roof.span=18 ft",
          "garage_wall.out_of_plane_wind=none")  # that goes by the wall each holds up  # fmt: skip
NEAR_THE_EDGE = ("bent_clips_into_rafters", "garage_roof.span=28 ft",
                 "hold_down[back].edge_distance=1/4 in")  # fmt: skip
GIRDER = """
[[garage_roof.point]]
at = "6 ft"
W_up = "900 lb"
from = "girder"

[layout]
run = "24 ft"
openings = [{ from = "9 ft", to = "12 ft" }]
"""


def case(name, *settings):
    return read_case(EXAMPLES / f"{name}.toml", settings)[0]


def ratio_at_edge(found):
    return max(r.ratio for r in found.rows if r.id == "bending" and r.place == "edge" and r.ratio)


def each_mark(stated):
    """Every kind of mark designed alone."""
    every, _ = at_marks(Batch(stated))
    return [Design(worked_of(every.taken(np.array([i])))) for i in range(every.count)]


@pytest.fixture(scope="module")
def girder(tmp_path_factory):
    path = tmp_path_factory.mktemp("girder") / "case.toml"
    path.write_text((EXAMPLES / "passes.toml").read_text(encoding="utf-8") + GIRDER, "utf-8")
    return read_case(path)[0]


def test_a_distance_alike_at_every_mark_hides_no_failure():
    """Bolts too near the rafter's edge, 1.90 at every mark, and bending over 1 where a truss stands
    on the outrigger: fails, as without a layout."""
    plain, laid = design(case(*NEAR_THE_EDGE)), design(case(*NEAR_THE_EDGE, RUN))
    assert (plain.verdict, laid.verdict) == ("fail", "fail")
    assert ratio_at_edge(laid) == pytest.approx(ratio_at_edge(plain), rel=1e-3)
    assert f"{ratio_at_edge(laid):.2f}" == "1.04"
    page = layout(laid.case)
    line = page.lines[page.worst - 1]
    assert (line.status, line.governing.id) == ("fail", "bending")
    assert page.worst == laid.mark == 4


def test_loads_handed_over_are_not_those_of_the_end_mark():
    """18 ft of roof and 24 in of it on the outrigger: roof live alone is 20 psf x 9 ft x 2 ft and
    the strip's. The end mark, half a bay, has about half."""
    plain, laid = design(case(*LAGGED)), design(case(*LAGGED, RUN))
    assert laid.mark == 4 and (plain.verdict, laid.verdict) == ("pass", "pass")
    one = {(r.at, r.case): r.force for r in square(plain)}
    other = {(r.at, r.case): r.force for r in square(laid)}
    assert other.keys() == one.keys()
    assert list(other.values()) == pytest.approx(list(one.values()), rel=2e-3)
    assert ratio_at_edge(laid) == pytest.approx(ratio_at_edge(plain), rel=1e-3)
    pulls = [{c.at: c.uplift for c in clip_forces(d)} for d in (plain, laid)]
    assert pulls[1] == pytest.approx(pulls[0], rel=2e-3)
    assert told.at_marks(plain) == []
    # mark 3 has a quarter of a pound less of wall on it: 310.0 of 310.27 lb; against uplift mark 4
    # has no more, since a plate that breaks gives both 16 in
    assert told.at_marks(laid) == [
        "Each the largest over the marks: that of mark 4, which is checked; but pushes down "
        "on the house roof, back clip (mark 3)."
    ]


def test_slenderness_alike_at_every_mark_does_not_choose_it():
    """Pushed along the slope at a 5 ft back span: le/d = 60 / 1.5 = 40, of 50, at every mark."""
    settings = ("slope_down_the_eave", "back_span=5ft")
    plain, laid = (design(case(*settings, *run)) for run in ((), (RUN,)))
    assert [r.ratio for r in laid.rows if r.link == "slenderness" and r.place == "back span"] == [
        pytest.approx(60 / 1.5 / 50)
    ]
    dead = [
        next(r.force for r in square(d) if (r.at, r.case) == ("edge", "D")) for d in (plain, laid)
    ]
    assert dead[1] == pytest.approx(dead[0], rel=2e-3)


def force_of(alone, one):
    """The same reaction of a mark by itself, lb."""
    (force,) = reactions(alone.model)[one.at][one.source, one.case]
    return float(force[0, 0])


def test_each_force_is_the_largest_over_the_marks(girder):
    """Bending decides beside the opening; a girder that lifts at 72 in, by the lever half of it on
    each of the marks at 64 and 80 in, pulls the edge clip most at mark 5, not where is checked."""
    laid, alone = design(girder), each_mark(girder)
    assert laid.mark not in (5, None)
    for one in square(laid):
        forces = [force_of(d, one) for d in alone]
        assert one.force == pytest.approx(max(forces, key=abs), rel=1e-9)
        at = next(d for d in alone if d.mark == one.mark)
        assert one.force == pytest.approx(force_of(at, one), rel=1e-9)
    pulls = {c.at: c for c in clip_forces(laid)}
    for at, most in pulls.items():
        own = [c.uplift for d in alone for c in clip_forces(d) if c.at == at]
        assert most.uplift == pytest.approx(max(own), rel=1e-9)
    assert pulls["edge"].mark == 5 and pulls["back"].mark == laid.mark
    arm, back = (float(v[0, 0]) for v in (laid.shape.arm, laid.shape.back_span))
    without = design(girder.model_copy(
        update={"garage_roof": girder.garage_roof.model_copy(update={"point": []})}
    ))  # fmt: skip
    bare = next(d for d in each_mark(without.case) if d.mark == 4)
    own = {c.at: c.uplift for c in clip_forces(bare)}
    more = pulls["edge"].uplift - own["edge"]
    assert more >= 0.6 * 450 * (1 + arm / back) * 0.98
    assert more <= 0.6 * 900 * (1 + arm / back)
    assert any("(mark 5)" in text for text in told.at_marks(laid))


def test_a_batch_is_checked_at_the_marks_of_its_cases():
    """Each at its own worst mark, with the bending that it has alone."""
    for name in (NEAR_THE_EDGE, ("slope_down_the_eave", "back_span=5ft")):
        stated = case(*name, RUN)
        values = np.array([10.0, 16.0, 20.0, 28.0]) * 12
        together = designs_of(batch_of(stated, {"garage_roof.span": values}))
        for i, value in enumerate(values):
            alone = design(with_numbers(stated, {"garage_roof.span": value}))
            assert together.worked.numbers[i] == alone.mark
            assert ratio_at_edge(alone) == max(
                r.ratio for r in together.rows(i) if r.id == "bending" and r.place == "edge"
            )


@pytest.mark.parametrize(
    ("rows", "levels", "worst"),
    [
        ([[0.8, 0.8, 0.8], [0.2, 0.5, 0.3]], {}, 1),  # the first row is alike everywhere
        ([[0.8, 0.0, 0.8], [0.2, 0.5, 0.3]], {}, 1),  # and tells nothing where it is not loaded
        ([[0.8, 0.8, 0.8], [0.5, 0.5, 0.5]], {}, 0),
        ([[1.9, 1.9, 1.9], [0.5, 1.1, 1.2]], {0: OPEN}, 2),
        ([[0.9, 0.2, 0.4], [np.nan, np.nan, np.nan]], {1: [PASSES, OPEN, PASSES]}, 1),
        ([[1.9, 0.2, 1.1], [0.5, 1.1, 1.2]], {0: [OPEN, PASSES, OPEN]}, 2),
        ([[1.5, 0.2, 0.1], [0.9, 1.1, 1.2]], {0: [OPEN, PASSES, PASSES]}, 2),  # a fail comes first
        ([[1.3, 1.2, 0.1], [0.5, np.inf, 0.2]], {}, 1),
    ],
)  # fmt: skip
def test_the_worst_of_three_marks(rows, levels, worst):
    ratios = np.array(rows)
    found = np.where(ratios > 1, FAILS, PASSES)
    for row, of in levels.items():
        found[row] = of
    assert worst_of_each(ratios, found, np.zeros(3, dtype=int)).tolist() == [worst]
    twice = worst_of_each(
        np.hstack([ratios, ratios]), np.hstack([found, found]), np.repeat([0, 1], 3)
    )
    assert twice.tolist() == [worst, worst + 3]


def test_the_largest_of_some_forces_and_of_those_the_other_way():
    """Two ways to lie at three marks; the last is checked: 5 lb at the second, 4 lb back at the
    first; where the mark that is checked is alike, it is named."""
    forces = np.array([[1.0, 5.0, 2.0], [-4.0, 3.0, 2.0]])
    assert list(_largest(forces, 2)) == [(0, 1), (1, 0)]
    assert list(_largest(np.array([[5.0, 3.0, 5.0]]), 2)) == [(0, 2)]


HELD = '[[garage_roof.point]]\nat = "95.5 in"\nD = "350 lb"\n\n[layout]\nrun = "16 ft"\n'


def test_what_other_marks_use_more_of_is_told(tmp_path):
    """350 lb holds mark 7 down, the worst by crushing: its own house wall clip pulls nearly nothing
    and those of marks without it far more. What other marks use more of, the most of any, is told,
    by name and mark."""
    text = (EXAMPLES / "passes.toml").read_text("utf-8")
    path = tmp_path / "held.toml"
    path.write_text(f"{text}\n{HELD}", encoding="utf-8")
    found = design(read_case(path, ["size=2x8"])[0])
    over, more = found.worked.over_marks, elsewhere(found)
    told = {(one.row.check.link, one.row.place): one for one in more}
    for check, ratios in zip(over.checks, over.ratios, strict=True):
        most = np.nanmax(ratios)
        same = (r for r in found.rows if (r.check.link, r.place) == (check.link, check.place))
        here = getattr(next(same, None), "ratio", 0.0)  # 0: a check of other marks alone
        if most > max(here + 0.005, 0.1):
            one = told.pop((check.link, check.place))
            assert one.row.ratio == pytest.approx(most)
            assert ratios[over.numbers.index(one.mark)] == most
    assert not told
    pulls = [one for one in more if one.row.check.id == "hold_down:edge"]
    assert pulls and all(one.mark != found.mark for one in pulls)
    said = at_other_marks(found)
    assert said.startswith(f"Rows are of mark {found.mark}. Others use more of: ")
    assert not at_other_marks(design(case("passes")))
