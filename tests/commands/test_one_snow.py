"""One site has one snow: where the garage roof's changes, the house roof's own goes with it."""

import json
from pathlib import Path

import numpy as np
import pytest
from sample_case import changed, set_to, written

from outrigger.cases.read import read_case
from outrigger.library import sweep
from outrigger.studies.card import card, own_axes
from outrigger.studies.reserve import reserve
from outrigger.verdict.design import design

PASSES = Path(__file__).parents[2] / "examples" / "passes.toml"
GROUND = 'ground = "20 psf"\nexposure = 1.0\nthermal = 1.0'


def snows(case):
    """Of the garage roof, stated or on the ground, and of the house roof, psf."""
    garage = case.snow.ground if case.snow.roof is None else case.snow.roof
    house = case.house_roof.snow
    return round(garage * 144, 6), None if house is None else round(house * 144, 6)


@pytest.mark.parametrize(
    ("words", "found"),
    [
        (["snow=40psf"], (40, 40)),
        (["snow.roof=40 psf"], (40, 40)),
        (["snow=30psf", "snow=50psf"], (50, 50)),
        (["snow=35.7psf"], (35.7, 35.7)),
        (["snow=none"], (0, 0)),
        (["snow=40psf", "house_roof.snow=10psf"], (40, 10)),
        (["house_roof.snow=10psf", "snow.roof=40psf"], (40, 10)),
        (["house_roof.snow=none", "snow=40psf"], (40, 0)),
        (["gap=7in"], (20, 20)),
    ],
)
def test_a_setting_moves_both(words, found):
    assert snows(read_case(PASSES, words)[0]) == found


@pytest.mark.parametrize(("stated", "found"), [("30 psf", 45), ("none", 0), ("12.6 psf", 18.9)])
def test_in_proportion(tmp_path, stated, found):
    """30 psf beside 20 psf are 45 beside 30; 12.6 x 1.5 = 18.9."""
    path = written(tmp_path, set_to(PASSES.read_text(), house_roof__snow=f'"{stated}"'))
    assert snows(read_case(path, ["snow=30psf"])[0]) == (30, found)


def test_a_stated_psf_beside_ground_snow_moves_too(tmp_path):
    path = written(tmp_path, changed(('roof = "20 psf"', GROUND), text=PASSES.read_text()))
    assert snows(read_case(path, ["snow=25psf"])[0]) == (25, 25)


def test_a_house_snow_that_is_computed_is_left_to_that(tmp_path):
    text = changed(('roof = "20 psf"', GROUND), ('snow = "20 psf"\n', ""), text=PASSES.read_text())
    case, (said,) = read_case(written(tmp_path, text), ["snow=25psf"])
    assert snows(case) == (25, None)
    assert said.text == "snow 25 psf, file says 20 psf"


def test_it_is_said():
    (said,) = read_case(PASSES, ["snow=40psf"])[1]
    assert said.text == (
        "snow 40 psf, file says 20 psf; on the house roof 40 psf too, was 20 psf"
    )  # fmt: skip


def test_no_snow_to_go_by_is_said(tmp_path):
    path = written(tmp_path, set_to(PASSES.read_text(), snow__roof='"none"'))
    case, (said,) = read_case(path, ["snow=30psf"])
    assert snows(case) == (30, 20)
    assert said.text.endswith("; on the house roof 20 psf as the file says: no snow there to go by")


def test_saved_with_both(run, tmp_path):
    to = tmp_path / "new.toml"
    assert run("check", PASSES, "snow=30psf", "--save", to).returncode == 0
    assert snows(read_case(to)[0]) == (30, 30)


@pytest.mark.parametrize(
    ("spacing", "snow", "span", "gap", "ratio"),
    [
        ("24in", "40psf", "16ft", "13.5in", 1.05),
        ("19.2in", "70psf", "12ft", "8in", 1.09),
        ("16in", "50psf", "16ft", "10.25in", 1.05),
    ],
)
def test_crushing_with_the_house_snow_as_well(spacing, snow, span, gap, ratio):
    """Sheathing under the edge takes 360 psi x 1.5 in x 3 in = 1,620 lb. With 20 psf left on the
    house it is at 0.9995, 0.99 and 0.999; the rest of the snow lies on a back span of 48 in, half
    of it at the edge: 20 psf / 144 x 24 in x 24 in = 80 lb, 0.049; 50 psf at 19.2 in 160 lb, 0.099;
    30 psf at 16 in 80 lb, 0.049."""
    words = ["size=2x10", f"spacing={spacing}", f"snow={snow}", f"roof_span={span}", f"gap={gap}"]
    found = design(read_case(PASSES, words)[0])
    assert found.verdict == "fail"
    assert found.closest.check.id == "edge_bearing"
    assert found.closest.ratio == pytest.approx(ratio, abs=0.005)


def test_every_cell_of_a_card_passes_check():
    case, _ = read_case(PASSES, ["size=2x10"])
    found = card(case, **own_axes(case))
    worked = [cell for cell in found.cells if cell.high is not None]
    assert worked
    for cell in worked:
        assert cell.house_snow == pytest.approx(cell.snow)
        words = [f"spacing={cell.spacing}in", f"snow={cell.snow}psf", f"roof_span={cell.span}ft"]
        house = f"house_roof.snow={cell.snow}psf"
        for gap in {cell.low, cell.high}:
            alone, _ = read_case(PASSES, ["size=2x10", *words, house, f"gap={gap}in"])
            assert design(alone).verdict == "pass", cell


def test_reserve_ends_where_check_fails():
    case, _ = read_case(PASSES)
    (side,) = (s for s in reserve(case).sides if s.quantity.key == "snow.roof" and s.up)
    below, above = (
        read_case(PASSES, [f"snow={psf:.9f}psf", f"house_roof.snow={psf:.9f}psf"])[0]
        for psf in (side.turn.last * 144 - 1e-6, side.turn.last * 144 + 1e-6)
    )
    assert design(below).verdict == "pass"
    assert design(above).verdict == "fail"


def test_rows_and_pages_say_it(run):
    rows = json.loads(run("reserve", PASSES, "--json").stdout)
    assert {tuple(r["with_it"]) for r in rows if r["key"] == "snow.roof"} == {("house_roof.snow",)}
    assert {tuple(r["with_it"]) for r in rows if r["key"] == "gap.width"} == {()}
    rows = json.loads(run("card", PASSES, "--json").stdout)
    assert all(row["house_snow_psf"] == pytest.approx(row["snow_psf"]) for row in rows)
    for word in ("reserve", "card"):
        said = " ".join(run(word, PASSES).stdout.split())
        assert "Snow as stated goes with the garage roof's in proportion: 20 psf on the" in said
        assert ", snow 20 psf," not in said


def test_snow_that_stays_is_told_of(run, tmp_path):
    """A stated drift of 60 plf and 150 lb of a point load are of 20 psf, beside whatever other snow
    reserve and card look at."""
    text = PASSES.read_text(encoding="utf-8")
    point = '[[garage_roof.point]]\nat = "6 ft"\nD = "50 lb"\nS = "150 lb"\n\n[garage_wall]'
    both = changed(('drift = "none"', 'drift_line = "60 plf"'), ("[garage_wall]", point), text=text)
    path = written(tmp_path, both)
    told = "The snow of the stated drift and point loads stays as stated beside another snow"
    for word in ("reserve", "card"):
        assert told in " ".join(run(word, path).stdout.split())
        assert "stays as stated beside another snow" not in run(word, PASSES).stdout
    rows = json.loads(run("reserve", path, "--json").stdout)
    stay = {tuple(r["as_stated"]) for r in rows if r["key"] == "snow.roof"}
    assert stay == {("snow.drift_line", "garage_roof.point")}
    assert {tuple(r["as_stated"]) for r in rows if r["key"] == "gap.width"} == {()}


def test_a_sweep_of_the_library():
    case, _ = read_case(PASSES)
    found = sweep(case, snow=["20 psf", "40 psf"])
    assert [snows(row.case) for row in found.rows] == [(20, 20), (40, 40)]
    both = sweep(case, {"snow.roof": ["40 psf"], "house_roof.snow": ["20 psf"]})
    assert snows(both.rows[0].case) == (40, 20)
    alone = [design(read_case(PASSES, [f"snow={psf}psf"])[0]).closest.ratio for psf in (20, 40)]
    assert np.allclose(found.ratio, alone, rtol=1e-12)


BELOW = PASSES.with_name("header_under_the_edge.toml")
LINE = '\n[garage_roof.line]\nD = "100 plf"\nLr = "100 plf"\nS = "120 plf"\n'


def test_snow_on_the_member_below_and_in_the_truss_sheet_moves_too(tmp_path):
    """By hand: 160 plf on the header and 120 plf of the sheet, beside 30 psf in place of 20."""
    case, overrides = read_case(written(tmp_path, BELOW.read_text() + LINE), ["snow=30psf"])
    assert pytest.approx(240) == case.house_edge.carries.S * 12
    assert pytest.approx(180) == case.garage_roof.line.S * 12
    said = overrides[-1].text
    assert "in the reactions of the garage roof 180 plf too, was 120 plf" in said
    assert "on the member below 240 plf too, was 160 plf" in said
    own = read_case(BELOW, ["house_edge.carries.S=200plf", "snow=30psf"])[0]
    assert pytest.approx(200) == own.house_edge.carries.S * 12


def test_what_does_not_move_is_said(tmp_path):
    point = '\n[[garage_roof.point]]\nat = "4 ft"\nfrom = "header"\nS = "300 lb"\n'
    path = written(tmp_path, PASSES.read_text() + point)
    said = read_case(path, ["snow=30psf"])[1][-1].text
    assert said.endswith("; point loads as the file says")


def test_a_sweep_over_snow_moves_the_header_too():
    case = read_case(BELOW)[0]
    rows = sweep(case, snow=["20 psf", "26 psf", "30 psf"]).rows
    alone = [design(read_case(BELOW, [f"snow={psf}psf"])[0]) for psf in (20, 26, 30)]
    for row, single in zip(rows, alone, strict=True):
        below = [r.ratio for r in single.rows if r.id == "house_edge"]
        assert [r.ratio for r in design(row.case).rows if r.id == "house_edge"] == below
        assert pytest.approx(single.case.house_edge.carries.S) == row.case.house_edge.carries.S
