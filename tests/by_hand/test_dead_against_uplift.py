"""What dead load a mark of a layout has against uplift: that of the model of the plate which lifts
it more, a plate that breaks over every outrigger or one that runs on.

The examples' roof: 20 ft of span, dead 15 psf, wind up 26 psf: net (26 - 15) x 10 ft = 110 plf up;
a wall of 10 ft and 10 psf: 100 plf down. Marks at 19.2 in, trusses at 24 in from the datum.

Mark 11 of marks_on_the_plate stands 192 in from the datum, and so does the truss 8 x 24 in. A plate
that breaks gives it 24 in of roof and 19.2 of wall: 110 x 2 - 100 x 1.6 = 60 lb up, x 0.6 = 36.0.
A plate that runs on gives it 24.48 in of roof and 24.19 of wall (next to it is the bay of the
opening): 22.8 x 0.6 = 13.7. Had it the larger of both, 22.8 too.
"""

from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from published import printed

from outrigger.cases.batch import Batch, Mark
from outrigger.cases.read import read_case
from outrigger.checks.tie_actions import AtWallLine
from outrigger.loads.combinations import combinations
from outrigger.loads.parts import PARTS
from outrigger.marks.of_case import at_marks, row_of
from outrigger.marks.row import supports, trusses
from outrigger.statics import beam as statics
from outrigger.verdict.design import design
from outrigger.verdict.worked import worked_of

EXAMPLES = Path(__file__).parents[2] / "examples"
TALL = "garage_wall.height=10 ft"
POINTS = """
[[garage_roof.point]]
at = "6 ft"
D = "900 lb"
W_up = "{W_up}"
from = "girder"

[[garage_roof.point]]
at = "15 ft"
D = "300 lb"
from = "machine"
"""


def case(name, *settings):
    return read_case(EXAMPLES / f"{name}.toml", settings)[0]


def uplift(batch, less_than=1.0):
    """Uplift on wall tie and edge tie of each case, lb, the most of the rows with less than all of
    the dead load."""
    member = worked_of(batch).member
    over = member.main.combinations
    factor = over.factors[:, over.parts.index("D")]
    helps = (factor > 0) & (factor < less_than)
    both = AtWallLine(member, member.main).uplift, member.main.edge_pull
    return [np.broadcast_to(one, (batch.count, len(helps)))[:, helps].max(axis=1) for one in both]


def of_marks(stated):
    """The same of every mark."""
    batch, _ = at_marks(Batch(stated))
    return [one[row_of(stated).alike[1]] for one in uplift(batch)]


def breaks(at, run, x):
    """Reactions of a plate that breaks over each support: of an even load of one, and of a force of
    one at each place; by the lever in each bay."""
    even, parts = np.zeros(len(at)), np.zeros((len(at), len(x)))
    for i, (a, b) in enumerate(pairwise(at)):
        even[[i, i + 1]] += (b - a) / 2
        inside = (x >= a) & (x < b)
        parts[i, inside], parts[i + 1, inside] = (
            (b - x[inside]) / (b - a),
            (x[inside] - a) / (b - a),
        )
    even[[0, -1]] += at[0], run - at[-1]
    parts[0, x < at[0]], parts[-1, x >= at[-1]] = 1.0, 1.0
    return even, parts


def runs_on(at, run, x):
    """The same of one beam on them all, by the force method."""
    beam = statics.Beam(at, 1e6, 0.0, run)
    even = statics.solve(beam, [statics.Uniform(0.0, run, 1.0)]).reactions[0, 0]
    loads = [statics.Point(one, np.eye(len(x))[[i]]) for i, one in enumerate(x)]
    return even, statics.solve(beam, loads).reactions[0].T if len(x) else np.zeros((len(at), 0))


def under(stated, model, offset):
    """Every mark with what one model of the plate gives it of roof, wall and point loads."""
    row = row_of(stated)
    wanted, held = row.wanted, supports(row.pieces)
    at, run = held.at * wanted.plan, wanted.run * wanted.plan
    even, points = model(at, run, np.array(wanted.points) * wanted.plan)
    share = even
    if wanted.trusses != "uniform":
        places, carried = trusses(run, wanted.trusses, offset)
        share = model(at, run, places)[1] @ carried
    columns = {
        "number": np.arange(1, len(row.pieces) + 1), "tributary": row.tributary,
        "carried": held.each(even), "share": held.each(share), "points": held.each(points),
        "pieces": row.side_by_side, "bay": row.bay, "widest": row.widest,
        "opening": row.opening, "near": row.near, "past": row.past,
    }  # fmt: skip
    count = len(row.pieces)
    mark = Mark(**{name: np.reshape(of, (count, -1)) for name, of in columns.items()})
    return Batch(stated).taken(np.zeros(count, dtype=np.intp)).with_mark(mark)


def alignments(stated):
    """Where a row of roof members may begin."""
    wanted = row_of(stated).wanted
    if wanted.trusses == "uniform":
        return [0.0]
    if wanted.offset is not None:
        return [wanted.offset]
    return [*np.linspace(0, wanted.trusses, 8, endpoint=False)]


def with_points(tmp_path, W_up, *settings):
    path = tmp_path / "points.toml"
    text = (EXAMPLES / "marks_on_the_plate.toml").read_text(encoding="utf-8")
    path.write_text(text + POINTS.format(W_up=W_up), encoding="utf-8")
    return read_case(path, settings)[0]


def test_a_truss_over_a_mark_beside_the_bay_of_an_opening():
    """36.0 lb of mark 11, as above; no other mark has more."""
    stated = case("marks_on_the_plate", TALL)
    tie, _ = of_marks(stated)
    assert (tie[10], tie.max()) == (printed("36.0"), printed("36.0"))
    found = [uplift(under(stated, model, 0.0))[0][10] for model in (breaks, runs_on)]
    assert found == [printed("36.0"), printed("13.7")]


def test_a_wall_alone_on_four_equal_bays():
    """A gable wall of 100 plf on five marks 24 in apart: a plate that runs on gives them 0.3929,
    1.1429, 0.9286 of a bay and so on (handbook), one that breaks a half, one, one. Between the two,
    in lb: (0.5 - 0.3929) x 200 = 21.4, 0.1429 x 200 = 28.6, 0.0714 x 200 = 14.3. The run goes 3/4
    in past the outer marks: 3/4 x 3/4 / 2 x 100 / 12 = 2.3 lb-in on a bay of 24, a tenth of a
    pound."""
    stated = case("marks_on_the_plate", TALL, "layout.run=97.5 in", "layout.start=flush",
                  "outrigger.spacing=24 in", "layout.openings=[]",
                  "garage_roof.bearing=false")  # fmt: skip
    centres = [float(one.centre) for one in row_of(stated).pieces]
    assert centres == [0.75, 24.75, 48.75, 72.75, 96.75]
    batch, _ = at_marks(Batch(stated))
    on = worked_of(batch).loads.wall_line
    less = on["D_less"][row_of(stated).alike[1], 0]
    assert less == pytest.approx([-21.4, -28.6, -14.3, -28.6, -21.4], abs=0.2)
    whole = on["D"][row_of(stated).alike[1], 0]
    assert whole == pytest.approx([106.25, 228.6, 200.0, 228.6, 106.25], abs=0.2)


def test_what_is_lacking_leaves_the_dead_load_whole():
    """Of mark 6, which is checked, the larger share of the wall, 26.973 in, and of the roof, 27.056
    in: 100 plf x 26.973 / 12 + 150 plf x 27.056 / 12 = 224.8 + 338.2 = 563.0 lb; wind 260 plf x
    27.056 / 12 = 586.2 up. A plate that breaks: the truss stands 2.25 in before the middle of the
    pair, which takes half of 41.848 in of roof: 110 x 20.924 / 12 - 100 x 19.3875 / 12 = 191.8 -
    161.6 = 30.2 lb up, where by the larger shares 23.2 go up: 7.0 are lacking, and 0.6 x 30.2 =
    18.1 pull on the tie."""
    found = design(case("marks_on_the_plate", TALL))
    on = found.loads.wall_line
    assert found.mark == 6
    P = {part: float(on[part][0, 0]) for part in ("D", "D_less", "W_up")}
    assert list(P.values()) == [printed("563.0"), printed("-7.0"), printed("-586.2")]
    assert float(AtWallLine(found.member, found.main).uplift.max()) == printed("18.1")


LAID = ("marks_on_the_plate", TALL)
SLOPED = ("slope_down_the_eave", "layout.run=22 ft", TALL)
STATED = [
    LAID,
    ("marks_on_the_plate",),
    (*LAID, "layout.run=20 ft"),
    (*LAID, "layout.run=21 ft", "layout.openings=[]"),
    (*LAID, "basis.method=LRFD"),
    (*LAID, "garage_roof.bearing=false"),
    (*LAID, "wind.uplift=12 psf"),
    (*LAID, "garage_roof.member_spacing=uniform"),
    ("passes", "layout.run=22 ft", TALL),
    ("passes", "layout.run=15 ft", TALL, "wind.uplift=10 psf", "layout.first_mark=9 in"),
    SLOPED,
    (*SLOPED, "basis.method=LRFD", "garage_roof.bearing=false"),
    ("earthquake_category_d", "layout.run=22 ft", TALL),
    ("slope_across_the_rake", "layout.run=22 ft", TALL),
    ("linden_row/rake", TALL),
]


def no_less(stated):
    """No mark has less uplift than under either model of the plate alone, in the rows with less
    than all of the dead load. A mark beside bays of other lengths may have less
    than nothing of a plate that runs on: what presses lifts it, which is another matter."""
    here = of_marks(stated)
    for model in (breaks, runs_on):
        for offset in alignments(stated):
            one = under(stated, model, offset)
            alone, pressed = uplift(one), np.minimum(one.mark.carried, one.mark.share)[:, 0] >= 0
            for had, has in zip(alone, here, strict=True):
                least = np.where(pressed, has - had, 0.0)
                assert np.all(least >= -1e-6), (model.__name__, offset, least)


@pytest.mark.parametrize("settings", STATED, ids=" ".join)
def test_no_mark_has_less_uplift_than_either_plate_gives_it(settings):
    no_less(case(*settings))


@pytest.mark.parametrize("W_up", ["0 lb", "700 lb", "1200 lb"])
def test_nor_beside_point_loads(tmp_path, W_up):
    no_less(with_points(tmp_path, W_up, TALL))


@pytest.mark.parametrize("settings", [LAID, ("marks_on_the_plate",), ("linden_row/rake", TALL)])
def test_nor_more_on_the_wall_tie_in_asd(settings):
    """Wind and dead load by the same factor: no more than the larger of the two plates, for trusses
    that stand where they are said to."""
    stated = case(*settings)
    models = [uplift(under(stated, model, 0.0))[0] for model in (breaks, runs_on)]
    assert np.all(of_marks(stated)[0] <= np.maximum(*models) + 1e-6)


@pytest.mark.parametrize("method", ["ASD", "LRFD"])
def test_it_is_taken_off_where_dead_load_helps_and_nowhere_else(method):
    """With the factor of D in rows of 0.6D or 0.9D, less what an earthquake takes of it; none in
    the others, with a worker, or where dead load itself is turned upward (ASCE 7 12.4.4)."""
    present = frozenset(PARTS) - {"A_one", "A_other"}
    found = combinations("ASCE 7-16", method, present, 0.2 * 1.0, 0.2)
    seen = set()
    for one in found:
        of = dict(zip(PARTS, one.factors, strict=True))
        assert of["D_less"] == (of["D"] if 0 < of["D"] < 1 else 0), one.text
        seen.add(round(of["D"], 3))
    helping = {"ASD": {0.6, 0.46}, "LRFD": {0.9, 0.7}}[method]  # 0.6 - 0.7 x 0.2, 0.9 - 0.2
    assert {f for f in seen if 0 < f < 1} == helping
    assert -0.2 in seen
    without = combinations("ASCE 7-16", method, present - {"D_less"}, 0.2 * 1.0, 0.2)
    assert len(without) == len(found)


def test_without_a_layout_or_with_one_model_nothing_is_lacking():
    """Two marks alone are a simple span in either model."""
    two = case("marks_on_the_plate", "layout.run=20 in", "layout.openings=[]")
    for stated in (case("passes"), two):
        assert "D_less" not in design(stated).loads.wall_line


def rows_with_points(tmp_path, name, points, *settings):
    """The rows of an example without its point loads and with them: place, id, link to ratio."""
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    path = tmp_path / "points.toml"
    path.write_text(text + points, encoding="utf-8")
    return [
        {(row.check.place, row.check.id, row.check.link.id): row.ratio for row in found.rows}
        for found in (design(case(name, *settings)), design(read_case(path, settings)[0]))
    ]


@pytest.mark.parametrize("W_up", ["0 lb", "700 lb", "1200 lb"])
def test_without_a_layout_a_point_load_holds_no_other_outrigger_down(tmp_path, W_up):
    """900 and 300 lb stand on one outrigger of the row. All others are lifted as without them: wind
    up of 45 psf on 24 in of 10 ft, 900 lb, of a roof of 300 and a wall of 3 ft, 40 lb: 0.6 x (900 -
    340) = 336 lb on the tie. Where wind lifts a point load by more than it weighs, 1,200 of 900 lb,
    the one under it is lifted by 0.6 x 300 = 180 lb more, the 300 lb of the other not there."""
    plain = (EXAMPLES / "passes.toml").read_text(encoding="utf-8")
    path, wind = tmp_path / "points.toml", "wind.uplift=45 psf"
    path.write_text(plain + POINTS.format(W_up=W_up), encoding="utf-8")
    bare, loaded = (
        uplift(Batch(one)) for one in (case("passes", wind), read_case(path, [wind])[0])
    )
    more = 180.0 if W_up == "1200 lb" else 0.0
    assert bare[0] == pytest.approx(336.0)
    assert loaded[0] == pytest.approx(336.0 + more)
    assert loaded[1] == pytest.approx(bare[1]) if not more else loaded[1] > bare[1]


@pytest.mark.parametrize("method", ["ASD", "LRFD"])
@pytest.mark.parametrize("name", ["rafters_and_studs", "passes", "slope_down_the_eave"])
def test_nor_does_it_hold_the_back_of_another_up(tmp_path, name, method):
    """300 lb at the end take 300 x 9.75 / 48 = 61 lb off what one outrigger presses on a house
    rafter; the others press as without them: no row has less than without the point load."""
    points = '[[garage_roof.point]]\nat = "3 ft"\nD = "300 lb"\nW_up = "100 lb"\n'
    bare, loaded = rows_with_points(tmp_path, name, points, f"basis.method={method}")
    assert set(bare) <= set(loaded)
    for row, ratio in bare.items():
        assert ratio is None or loaded[row] >= ratio * (1 - 1e-9), row
