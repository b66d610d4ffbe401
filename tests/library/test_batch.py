"""Columns of cases: held to their range, and each case in a batch the same as alone."""

import tomllib
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from thorough import THOROUGH

from outrigger.base.errors import InputError
from outrigger.cases.batch import COLUMNS, batch_of
from outrigger.cases.hold_down import HoldDown
from outrigger.cases.kinds import range_of
from outrigger.cases.paths import number_at, range_at, with_numbers
from outrigger.cases.read import read_case
from outrigger.cases.sections import SECTIONS, RoofLine
from outrigger.cases.validate import validate
from outrigger.verdict.design import design, designs_of

EXAMPLES = Path(__file__).parents[2] / "examples"
PASSES = EXAMPLES / "passes.toml"
CLIP = "hold_down[back].rated_uplift"


@pytest.fixture(scope="module")
def one():
    return read_case(PASSES)[0]


@pytest.mark.parametrize(
    ("path", "value", "allowed"),
    [
        (CLIP, -420.0, "no less than 0"),
        (CLIP, np.inf, "finite"),
        (CLIP, np.nan, "finite"),
        ("outrigger.spacing", -16.0, "more than 0"),
        ("outrigger.spacing", 0.0, "more than 0"),
        ("garage_roof.span", 0.0, "more than 0"),
        ("garage_wall.height", -36.0, "no less than 0"),
        ("snow.roof", -0.1, "no less than 0"),
        ("house_roof.pitch", 40.0, "between 0 and 36"),
    ],
)
def test_a_swept_number_is_held_to_its_range(one, path, value, allowed):
    """In a column, alone in a column, and by itself: path, value and what is allowed are named."""
    good = range_at(one, path).low + 1.0
    for values in ([good, value], [value], value):
        with pytest.raises(InputError, match=rf"= {value:g}: must .*{allowed}") as told:
            batch_of(one, {path: values})
        assert str(told.value).startswith(path)


def test_what_catches_feet_written_for_inches_does_not_hold_in_a_sweep(one):
    """The gap of 24 in and the spacing of 48 in at most are the file's."""
    swept = batch_of(one, {"gap.width": [6.0, 40.0], "outrigger.spacing": [16.0, 60.0]})
    assert designs_of(swept).count == 2


@pytest.mark.parametrize(
    "path", ["gap.widht", "gap", "gapp.width", "hold_down[back].rated", "gap.width.x", "", "gap."]
)
def test_a_path_that_is_none_is_refused(one, path):
    with pytest.raises(InputError, match="no such field to sweep"):
        batch_of(one, {path: [1.0, 2.0]})


@pytest.mark.parametrize("path", ["layout.run", "garage_roof.line.S"])
def test_a_table_that_the_case_leaves_out_is_refused(one, path):
    with pytest.raises(InputError, match=f"{path}: the case has no"):
        batch_of(one, {path: [300.0, 400.0]})


def test_a_place_without_clips_is_refused(one):
    with pytest.raises(InputError, match="no such clip"):
        batch_of(one, {"hold_down[17 in].rated_uplift": [1.0]})


def test_text_is_no_column(one):
    with pytest.raises(InputError, match=r"outrigger\.grade: holds no number"):
        batch_of(one, {"outrigger.grade": [1.0, 2.0]})


def test_columns_of_unlike_length_are_refused(one):
    with pytest.raises(InputError, match=r"gap.width 3, outrigger.spacing 2"):
        batch_of(one, {"gap.width": [5.0, 6.0, 7.0], "outrigger.spacing": [12.0, 16.0]})
    with pytest.raises(InputError, match=r"unlike length, or empty: gap.width 0"):
        batch_of(one, {"gap.width": []})


def test_one_number_alone_is_the_same_for_all(one):
    swept = batch_of(one, {"gap.width": [5.0, 6.0], "outrigger.spacing": 12.0})
    assert swept.count == 2
    assert [swept.at(i).outrigger.spacing for i in range(2)] == [12.0, 12.0]
    assert [swept.at(i).gap.width for i in range(2)] == [5.0, 6.0]


def test_what_is_no_column_does_not_differ_within_a_batch(one):
    """The depth of a notch, say, is read once for all."""
    with pytest.raises(InputError, match=r"top_notch: differs within one batch"):
        batch_of(one, {"outrigger.top_notch": [0.0, 0.5]})
    assert batch_of(one, {"outrigger.top_notch": [0.5, 0.5]}).case.outrigger.top_notch == 0.5


def test_a_case_that_a_batch_does_not_have_is_named(one):
    found = designs_of(batch_of(one, {"gap.width": [5.0, 6.0]}))
    for ask in (found.closest, found.rows, found.batch.at):
        with pytest.raises(IndexError, match="case 7: the batch has 2, 0 to 1"):
            ask(7)


def test_each_case_of_a_batch_has_its_digest(one):
    swept = batch_of(one, {"gap.width": [6.0, 7.0]})
    assert swept.at(0).digest == one.digest
    assert swept.at(1).digest == read_case(PASSES, ["gap=7 in"])[0].digest


def test_a_number_changed_in_python_is_held_to_its_range(one):
    with pytest.raises(InputError, match="width = -6: must be more than 0"):
        one.gap.model_copy(update={"width": -6.0})
    with pytest.raises(InputError, match=r"gap\.width = -6"):
        with_numbers(one, {"gap.width": -6.0})


def test_numbers_of_a_case_are_numbers(one):
    """Whatever runs many cases, no table of a case ever holds an array."""
    swept = batch_of(one, {"gap.width": [6.0, 7.0], CLIP: [300.0, 400.0]})
    assert type(swept.case.gap.width) is float
    assert all(type(h.rated_uplift) in (float, type(None)) for h in swept.case.hold_down)


# Every column, on cases that ask much: each case of a batch the same as alone, to the last bit.

LINE = {"D": "135 plf", "L": "10 plf", "Lr": "180 plf", "S": "189 plf", "W_up": "30 plf",
        "W_down": "44 plf"}  # fmt: skip
SAMPLE = tomllib.loads((EXAMPLES.parent / "outrigger" / "sample.toml").read_text("utf-8"))


def sample(**tables):
    raw = {name: dict(of) if isinstance(of, dict) else of for name, of in SAMPLE.items()}
    for name, keys in tables.items():
        raw[name] = {k: v for k, v in {**raw.get(name, {}), **keys}.items() if v is not None}
    return validate(raw, "case")


NO_DRIFT = {"drift": "none", "sliding": "none", "unbalanced": "none", "on_house": "none"}
STATED = {
    "snow": {**NO_DRIFT, "ground": None, "roof": "21 psf", "drift_line": None, "exposure": None,
             "thermal": None, "importance": None},
    "wind": {**dict.fromkeys(SAMPLE["wind"]), "uplift": "30 psf", "down": "16 psf"},
    "house_roof": {"wind_uplift": "20 psf", "wind_down": "12 psf", "snow": "21 psf",
                   "live": "20 psf", "dead": "10 psf"},
    "garage_roof": {"overhang": "8 in", "storage": "5 psf", "strip_dead": "8 psf"},
    "garage_wall": {"out_of_plane_wind": "20 psf", "along": "25 plf", "height": "3 ft",
                    "dead": "10 psf"},
    "outrigger": {"tail": "3 in", "behind_back": "4 in"},
    "gap": {"house_finish": "1/2 in", "edge_setback": "1/4 in"},
}  # fmt: skip
ACROSS = {"pitch": "4:12", "direction": "across the slope"}
DECK = {"sheathing": "OSB", "sheathing_thickness": "7/16 in", "sheathing_nail_spacing": "6 in",
        "sheathing_nail": "ring shank nail 0.131 x 2 1/2 in"}  # fmt: skip


def on_a_rake(**piece):
    house = STATED["house_roof"] | ACROSS | DECK
    return sample(**STATED | {"house_roof": house, "outrigger": STATED["outrigger"] | piece})


BASES = {
    "bundled": lambda: sample(),
    "stated": lambda: sample(**STATED),
    "across the slope": lambda: sample(**STATED | {"house_roof": STATED["house_roof"] | ACROSS}),
    "blocks on the deck": lambda: on_a_rake(
        blocking_to_deck={"fastener": "wood screw #10 x 2 1/2 in", "spacing": "3 in"}),
    "toe-nailed blocks": lambda: on_a_rake(
        blocking_fastening={"fastener": "ring shank nail 0.131 x 2 1/2 in", "count": 4,
                            "spread": "4 in", "driven": "toe-nailed"}),
    "a pair of clips": lambda: on_a_rake(tipping="clips"),
    "layout": lambda: sample(**STATED, layout={"run": "24 ft", "first_mark": "7 1/4 in"}),
    "truss sheet": lambda: sample(**STATED | {"garage_roof": {"line": LINE}}),
    "header": lambda: read_case(EXAMPLES / "header_under_the_edge.toml")[0],
    "drift stated": lambda: sample(
        **STATED | {"snow": STATED["snow"] | {"drift": None, "drift_line": "50 plf"}}),
}  # fmt: skip


@cache
def base_case(name):
    return BASES[name]()


PATHS = [p for p in COLUMNS if "." in p] + [CLIP, "hold_down[back].rated_lateral"]


def values_of(case, path):
    """Numbers about the stated one, all of them more than nothing; None: the case has it not."""
    try:
        now = number_at(case, path)
    except InputError:
        return None
    if not now:
        return None
    least = 90.0 if path == "wind.speed" else 0.0
    return np.maximum(now * np.array([1.0, 0.83, 1.19]), least)


def each_and_its_bases():
    """Every number with the bases that state it; by default with half of them, in turn."""
    bases = {name: base_case(name) for name in BASES}
    for i, path in enumerate(PATHS):
        stated = [name for name, case in bases.items() if values_of(case, path) is not None]
        for name in stated if THOROUGH else stated[i % 2 :: 2] or stated:
            yield path, name


@pytest.mark.parametrize(("path", "base"), list(each_and_its_bases()))
def test_each_case_in_a_batch_is_the_case_alone(base, path):
    """Three numbers together, each beside the case alone; by default one of them, in turn."""
    case = base_case(base)
    values = values_of(case, path)
    swept = batch_of(case, {path: values})
    together = designs_of(swept)
    turn = (PATHS.index(path) + list(BASES).index(base)) % len(values)
    for i in range(len(values)) if THOROUGH else [turn]:
        alone = design(with_numbers(case, {path: values[i]}))
        assert swept.at(i) == alone.case
        many = {(r.id, r.place, r.link): r for r in together.rows(i)}
        for row in alone.rows:
            here = many[row.id, row.place, row.link]
            if row.link == "slenderness RB":  # one row stands for the steepest of the batch
                continue
            assert (here.demand, here.capacity, here.ratio, here.combination) == (
                row.demand, row.capacity, row.ratio, row.combination
            ), row  # fmt: skip
        closest = together.closest(i)
        assert (closest.ratio, closest.id) == (alone.closest.ratio, alone.closest.id)
        assert together.works[i] == alone.works


def test_every_column_is_tried_somewhere():
    for path in PATHS:
        assert any(values_of(base_case(base), path) is not None for base in BASES), path


def test_every_number_of_the_file_has_a_range():
    """A number that a sweep could set without a check would be one that a file refuses."""
    unchecked = {"joint_class", "at", "side_height"}  # a class or a place, by its name too
    for model in [*SECTIONS.values(), HoldDown, RoofLine]:
        for key, field in model.model_fields.items():
            holds = str(field.annotation)
            if "float" in holds and "list" not in holds and key not in unchecked:
                assert range_of(model, key) is not None, (model, key)


def test_slenderness_stands_only_for_the_cases_that_are_pushed():
    """2x6 of 1 1/2 in, 8 ft between the blocks: le/d = 96 / 1.5 = 64, over 50 (NDS 3.7.1.4) by
    1.28. Down this slope the dead load pulls the back span outward; only 40 psf of uplift turns
    that about, so the others are no columns, as each is alone."""
    case = read_case(
        EXAMPLES / "slope_down_the_eave.toml", ["back_span=8ft", "house_roof.wind_uplift=10psf"]
    )[0]
    uplift = np.array([2.0, 5.0, 10.0, 40.0]) / 144
    together = designs_of(batch_of(case, {"wind.uplift": uplift}))
    assert list(together.works) == [True, True, True, False]
    for i, value in enumerate(uplift):
        alone = design(with_numbers(case, {"wind.uplift": value}))
        assert together.works[i] == alone.works
        many = {(r.id, r.place, r.link): r.ratio for r in together.rows(i)}
        assert all(many[r.id, r.place, r.link] == r.ratio for r in alone.rows)
    slender = [r for r in together.rows(3) if r.link == "slenderness" and r.place == "back span"]
    assert [r.ratio for r in slender] == [pytest.approx(96 / 1.5 / 50)]


@pytest.mark.parametrize("none", ["wind.down=none", "snow.roof=none"])
@pytest.mark.parametrize("path", ["gap.width", "outrigger.spacing", "garage_roof.dead"])
def test_a_gable_wall_in_a_batch(none, path):
    """Of what no roof brings to the wall line the strip still has its own, case by case."""
    case = read_case(PASSES, ["garage_roof.bearing=false", none])[0]
    values = values_of(case, path)
    together = designs_of(batch_of(case, {path: values}))
    for i, value in enumerate(values):
        alone = design(with_numbers(case, {path: value}))
        assert [(r.id, r.ratio) for r in together.rows(i)] == [(r.id, r.ratio) for r in alone.rows]
