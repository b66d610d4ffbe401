"""Section, plan and diagrams: true lengths, labels that can be read, alike in each format."""

import json
import math
import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import ezdxf
import numpy as np
import pypdf
import pytest
from fontTools.ttLib import TTFont
from thorough import THOROUGH, in_turn

from outrigger.cases.read import read_case
from outrigger.layout.layout import layout
from outrigger.report.draw import dxf, lettering, picture, place
from outrigger.report.draw.diagrams import diagrams
from outrigger.report.draw.plan import PAGE_POINTS, apart, plan
from outrigger.report.draw.primitives import Area, Dimension, Dot, Line, Text
from outrigger.report.draw.section import section
from outrigger.report.draw.svg import svg
from outrigger.report.write import typeset
from outrigger.studies.curves import curves
from outrigger.verdict.design import design

ROOT = Path(__file__).parents[2]
EXAMPLES = {path.stem: path for path in sorted((ROOT / "examples").glob("*.toml"))}
EXAMPLES["sample"] = ROOT / "outrigger" / "sample.toml"
HAIR = 1e-6  # in


def case_of(name, *settings):
    return read_case(EXAMPLES[name], settings)[0]


def section_of(name, *settings, **how):
    return section(design(case_of(name, *settings)), True, **how)


def plan_of(name, *settings, **how):
    case = case_of(name)
    more = [] if case.layout is not None else ["layout.run=24 ft"]
    return plan(layout(case_of(name, *more, *settings)), True, **how)


def texts(drawing):
    found = [one for one in drawing.items if isinstance(one, Text)]
    return found + [one.text for one in drawing.items if isinstance(one, Dimension)]


def said(drawing):
    return " ".join(" ".join(one.lines) for one in texts(drawing))


def lengths(drawing):
    return {one.name: one for one in drawing.items if isinstance(one, Dimension)}


DRAWINGS = [
    lambda name: section_of(name),
    lambda name: diagrams(curves(design(case_of(name)))),
    lambda name: plan_of(name),
    lambda name: section_of(name, alone=False, brief=True),
    lambda name: plan_of(name, wide=PAGE_POINTS, alone=False),
]


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_text_can_be_read(name):
    """None on another, none outside the picture, no leader through one, each box wide enough. Of
    each example two drawings, in turn; all five when thorough."""
    first = list(EXAMPLES).index(name)
    turns = range(5) if THOROUGH else (first % 5, (first + 3) % 5)
    for drawing in (DRAWINGS[i](name) for i in turns):
        boxes = [(place.corners(one), one) for one in texts(drawing)]
        (left, low), (right, high) = drawing.low, drawing.high
        for box, one in boxes:
            assert all(left - HAIR <= x <= right + HAIR for x, _ in box), one.lines
            assert all(low - HAIR <= y <= high + HAIR for _, y in box), one.lines
            wide, tall = lettering.box(one.lines, one.size, one.bold)
            assert one.wide >= wide * drawing.point - HAIR
            assert one.high == pytest.approx(tall * drawing.point)
        all_boxes = [box for box, _ in boxes]
        here = place.Shapes(*all_boxes)
        for i, j in np.argwhere(np.triu(here.touched(np.array(all_boxes)), k=1)):
            pytest.fail(f"{drawing.title}: {boxes[i][1].lines} on {boxes[j][1].lines}")
        lines = [one for one in drawing.items if isinstance(one, Line)]
        leaders = [one.points for one in lines if one.weight == place.LEADER]
        assert not leaders or not here.touched(np.array(leaders)).any(), drawing.title


@pytest.mark.parametrize(("bold", "file"), [(False, "DejaVuSans"), (True, "DejaVuSans-Bold")])
def test_the_widths_are_those_of_the_font(bold, file):
    """Never less than the font's own tables say, for any letter that it has."""
    with TTFont(typeset._font_folder() / f"{file}.ttf") as font:
        unit, widths = font["head"].unitsPerEm, font["hmtx"]
        for code, name in font.getBestCmap().items():
            true = 1000 * widths[name][0] / unit
            ours = lettering.width(chr(code), 1000.0, bold)
            assert ours >= true - 0.5
            assert not 32 <= code < 127 or ours <= true + 1


def test_every_lag_down_through_a_piece_is_counted():
    """Two in each of one: two, as they are checked and bought, in few words and in many."""
    two = "hold_down[back].deck_fasteners=2"
    assert "back clip: 2 through" in said(
        section_of("lag_through_the_outrigger", two, alone=False, brief=True)
    )
    assert "2 through the outrigger" in said(section_of("lag_through_the_outrigger", two))


@pytest.mark.parametrize("shapes, over", [
    ((place.rectangle(0, 0, 2, 2), place.rectangle(1, 1, 3, 3)), True),
    ((place.rectangle(0, 0, 2, 2), place.rectangle(2, 0, 3, 2)), False),  # side by side
    ((place.rectangle(0, 0, 2, 2), ((3, 1), (1, 3.5), (3, 3.5))), False),  # off the corner
    ((place.rectangle(0, 0, 2, 2), ((3, 0), (0, 3))), True),  # a line across the corner
    ((place.rectangle(0, 0, 2, 2), ((5, 0), (0, 5))), False),
])  # fmt: skip
def test_what_overlaps(shapes, over):
    """By eye, on squared paper."""
    for one, other in (shapes, reversed(shapes)):
        assert place.Shapes(other).touched(np.array([one])).tolist() == [[over]]


def test_marks_stand_apart():
    """0 and 1 at least 4 apart stand around 0.5: -1.5 and 2.5; 20 stays where it is."""
    assert apart([0.0, 1.0, 20.0], 4.0) == pytest.approx([-1.5, 2.5, 20.0])
    assert apart([0.0, 10.0], 4.0) == [0.0, 10.0]


def test_lengths_of_a_level_section():
    """passes: arm 6 + 1/2 + 3 1/2 / 2 + 3 / 2 = 9 3/4 in; tail half the plate; a 2x6 is 5 1/2."""
    found = lengths(section_of("passes"))
    wanted = {"gap": 6.0, "bearing": 3.0, "arm": 9.75, "back span": 48.0, "tail": 1.75, "": 5.5}
    assert {name: one.length for name, one in found.items()} == pytest.approx(wanted)
    for one in found.values():
        assert math.dist(one.start, one.end) == pytest.approx(one.length)
        assert math.dist(*one.feet) == pytest.approx(one.length)


def test_walls_are_plumb_on_a_slope():
    """4:12 down: the gap is 6 in level; the arm along the member is (6 + 1/2 + 1 3/4) / cos
    + 1 1/2 = 8.25 x sqrt(10) / 3 + 1.5 = 10.196 in, and it falls by that over sqrt(10)."""
    found = lengths(section_of("slope_down_the_eave"))
    (x0, y0), (x1, y1) = found["gap"].start, found["gap"].end
    assert (x1 - x0, y1) == pytest.approx((6.0, y0))
    arm = found["arm"]
    assert arm.length == pytest.approx(8.25 * math.sqrt(10) / 3 + 1.5)
    assert arm.start[1] - arm.end[1] == pytest.approx(arm.length / math.sqrt(10))
    drawing = section_of("slope_down_the_eave")
    assert "tapered filler" in said(drawing)
    garage = [one for one in drawing.items if isinstance(one, Area) and one.layer == "garage"]
    walls = [one for one in garage if len(one.points) == 4]
    assert len(walls) == 3  # two plates, the wall
    for wall in walls:
        assert len({round(x, 9) for x, _ in wall.points}) == 2


@pytest.mark.parametrize(
    ("name", "parts"),
    [
        ("passes", ["2 clips, one each side, listed 420 lb each (wind), into framing",
                    "7/16 in OSB", "house finish 1/2 in", "2 plates 3 1/2 in wide",
                    "solid blocks between: house wall, back clip", "rafters at 16 in, crossing"]),
        ("straps_over_the_top", ["strap over the top, listed 560 lb each (any duration)"]),
        ("lag_through_the_outrigger", ["through the outrigger", "lag 3/8 in x 9 in"]),
        ("row_of_clips", ["back clip: 1 clip, one side", "clip 16 in: 2 clips"]),
        # checked at a piece of a pair, which has one: a single piece built so has half its clips
        ("marks_on_the_plate",
         [f"{place}: 2 clips, one each side (1 on the outer face of each piece of a pair)"
          for place in ("house wall", "back clip")]
         + ["wall tie: 2 (1 on the outer face of each piece of a pair), listed 420 lb up each"]),
        ("bent_clips_into_rafters", ["3 10d x 1 1/2 in into its side", "#10 x 2 1/2 in down"]),
        ("notched_over_the_wall", ["notch 3/4 in deep in the bottom, its reach not given"]),
        ("two_plies", ["2 plies, each 2x6"]),
        ("bent_clips_in_sheathing_only", ["sheathing only", "running along"]),
        ("uplift_without_edge_tie", ["house wall: no tie"]),
        ("slope_across_the_rake", ["seen along the outrigger: tilted 9.5°"]),
    ],
)  # fmt: skip
def test_what_a_section_says(name, parts):
    text = said(section_of(name))
    for part in parts:
        assert part in text, part


@pytest.mark.parametrize(
    ("over", "words"),
    [("8 in", "roof insulation 8 in, 2 1/2 in of it over the outriggers"),
     ("5 1/2 in", "flush with the outriggers"), ("4 in", "outriggers stand 1 1/2 in out of it")],
)  # fmt: skip
def test_the_cover_of_the_outriggers(over, words):
    """A 2x6 is 5 1/2 in deep."""
    assert words in said(section_of("passes", f"gap.roof_insulation={over}"))


def test_the_load_is_that_of_the_wall_line():
    """passes: trusses of 20 ft at 24 in over outriggers at 16 in carry 24 in of wall each: roof
    live 20 psf x 10 ft x 2 ft = 400 lb, snow as much; dead 15 x 10 x 2 + 10 psf x 3 ft x 4/3 ft
    = 340 lb; wind 26 x 10 x 2 = 520 lb up."""
    text = said(section_of("passes"))
    assert "P on one outrigger, unfactored (wind at strength level): dead 340 lb, roof" in text
    assert "roof live 400 lb, snow 400 lb, wind up 520 lb" in text


def test_snow_of_the_newer_edition_is_at_strength_level():
    assert "(snow and wind at strength level)" in said(section_of("strength_level_snow"))


def test_the_load_of_a_layout_is_that_of_its_worst_mark():
    number = design(case_of("marks_on_the_plate")).mark
    assert f"P on mark {number}, the worst, unfactored" in said(section_of("marks_on_the_plate"))


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_verdict_stands_in_it_and_what_fails_is_shown(name):
    result = design(case_of(name))
    drawing = section(result, False)
    text = said(drawing)
    assert {"pass": "PASS", "fail": "FAIL", "open": "OPEN"}[result.verdict] in text
    rings = [one for one in drawing.items if isinstance(one, Dot) and one.layer == "fails"]
    places = {row.check.place for row in result.rows if row.status == "fail"}
    assert len(rings) == len(places) == text.count("FAILS: ")
    assert "A licensed engineer must verify and adopt." in text and "Not checked:" in text


def test_openings_are_gaps_in_the_wall_and_not_in_the_roof():
    """marks_on_the_plate: the garage wall is in two pieces, the gap in one, 6 in wide."""
    drawing = plan_of("marks_on_the_plate")
    wall = [one for one in drawing.items if isinstance(one, Area) and one.layer == "garage"]
    (gap,) = [one for one in drawing.items if isinstance(one, Area) and one.layer == "gap"]
    opening = case_of("marks_on_the_plate").layout.openings[0]
    ends = [max(x for x, _ in wall[0].points), min(x for x, _ in wall[1].points)]
    assert len(wall) == 2 and ends == [opening.start, opening.end]
    ys = [y for _, y in gap.points]
    assert max(ys) - min(ys) == pytest.approx(6.0)
    assert lengths(drawing)["gap"].length == 6.0
    assert lengths(drawing)["run"].length == pytest.approx(case_of("marks_on_the_plate").layout.run)


def test_a_clip_off_the_framing_is_a_cross():
    crosses = [
        len([one for one in plan_of("marks_on_the_plate", setting).items
             if isinstance(one, Line) and one.layer == "fasteners"])
        for setting in ("house_roof.framing_parallel=false", "house_roof.framing_parallel=true")
    ]  # fmt: skip
    assert crosses[0] == 2 and crosses[1] > 20  # in the legend alone; at the marks


@pytest.mark.parametrize(("name", "of"), in_turn([*EXAMPLES], [section_of, plan_of]))
def test_a_dxf_holds_to_its_format(of, name, tmp_path):
    """Read by the library's own reader: no error, inches, dimensions that measure what they say."""
    drawing = of(name)
    path = tmp_path / "a.dxf"
    path.write_bytes(dxf.dxf(drawing))
    read = ezdxf.readfile(path)
    found = read.audit()
    assert not found.errors and not found.fixes
    assert read.units == 1 and read.header["$MEASUREMENT"] == 0
    layers = {one.dxf.layer for one in read.modelspace()}
    assert {"GARAGE", "DIMENSIONS", "FRAME"} <= layers <= {layer.dxf.name for layer in read.layers}
    stated = {one.in_feet: one.length for one in drawing.items if isinstance(one, Dimension)}
    measured = {one.dxf.text: one.get_measurement() for one in read.modelspace().query("DIMENSION")}
    assert measured == pytest.approx(stated) and measured
    for one in read.modelspace().query("DIMENSION"):
        assert one.get_dim_style().dxf.dimlfac == 1.0


def test_a_dxf_says_feet_and_inches():
    read = [one.in_feet for one in lengths(section_of("passes")).values()]
    assert "arm 0'-9 3/4\"" in read and "back span 4'-0\"" in read


BEGINS = {".svg": b"<?xml", ".pdf": b"%PDF", ".png": b"\x89PNG", ".dxf": b"  0\nSECTION"}


def test_the_bytes_repeat_in_another_process(tmp_path):
    """Of each kind; hashes are otherwise in each process."""
    found = []
    for seed in ("1", "2", "4"):  # 4 orders the kinds of things in a DXF otherwise
        outs = [tmp_path / f"{seed}{kind}" for kind in BEGINS]
        done = one_after_another([("draw", EXAMPLES["passes"], "-o", out) for out in outs],
                                 tmp_path, PYTHONHASHSEED=seed)  # fmt: skip
        assert done.returncode == 0, done.stderr
        found.append([out.read_bytes() for out in outs])
    assert found[0] == found[1] == found[2]
    for data, begin in zip(found[0], BEGINS.values(), strict=True):
        assert data.startswith(begin)


def test_text_of_users_is_text_in_every_format(tmp_path):
    name = "a <b>&amp;</b> %%u \\P {x} ^J #panic() $y$"
    case = case_of("passes")
    case = case.model_copy(update={"project": case.project.model_copy(update={"name": name})})
    drawing = section(design(case), False)
    root = ET.fromstring(svg(drawing))
    assert any(name in "".join(one.itertext()) for one in root.iter())
    (tmp_path / "a.pdf").write_bytes(picture.written(drawing, ".pdf"))
    assert name in " ".join(pypdf.PdfReader(tmp_path / "a.pdf").pages[0].extract_text().split())
    (tmp_path / "a.dxf").write_bytes(picture.written(drawing, ".dxf"))
    read = ezdxf.readfile(tmp_path / "a.dxf")
    lines = [one.dxf.text for one in read.modelspace().query("TEXT")]
    assert any("<b>&amp;</b> % %u \\P {x} ^ J" in one for one in lines)
    assert not read.audit().errors


def test_letters_that_the_fonts_lack_stand_by_their_names():
    """Of the job, and of a label."""
    case, lacking = case_of("passes"), "Lot \N{HOUSE BUILDING}"
    named = case.project.model_copy(update={"name": lacking})
    roof = case.house_roof.model_copy(update={"sheathing": lacking})
    changed = case.model_copy(update={"project": named, "house_roof": roof})
    drawing = section(design(changed), False)
    assert "Lot [house building]: section" in said(drawing)
    assert "7/16 in Lot [house building]" in said(drawing)
    assert picture.written(drawing, ".pdf").startswith(b"%PDF")


def one_after_another(runs, folder, **variables):
    """Commands in one process of their own; after each, which libraries it has by then."""
    code = (
        "import sys, json\n"
        "from outrigger.cli.app import run\n"
        "for words in json.loads(sys.argv[1]):\n"
        "    sys.argv = ['outrigger', *words]\n"
        "    try: run()\n"
        "    except SystemExit as left: assert left.code in (None, 0, 1, 3), left.code\n"
        "    has = [m for m in ('matplotlib', 'ezdxf', 'typst') if m in sys.modules]\n"
        "    print('has', words[-1], *has, file=sys.stderr)"
    )
    typed = json.dumps([[str(word) for word in words] for words in runs])
    return subprocess.run([sys.executable, "-c", code, typed], cwd=folder, text=True, check=False,
                          capture_output=True, env=os.environ | variables)  # fmt: skip


def test_only_the_chart_loads_the_library_of_charts(tmp_path):
    """That of DXF is loaded by the last of them alone."""
    runs = [("draw", "-o", "a.svg"), ("draw", "-o", "a.pdf"), ("summary", "-o", "a.html"),
            ("draw", "-o", "a.dxf")]  # fmt: skip
    done = one_after_another(runs, tmp_path)
    assert done.returncode == 0, done.stderr
    loaded = [row.split()[1:] for row in done.stderr.splitlines() if row.startswith("has ")]
    assert [names[0] for names in loaded] == [words[-1] for words in runs]
    assert not any("matplotlib" in names for names in loaded)
    assert ["ezdxf" in names for names in loaded] == [False, False, False, True]
