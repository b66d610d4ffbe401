"""Drawings and charts: text of users as it stands, no settings but the program's."""

import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import matplotlib
import pytest

from outrigger.cases.read import read_case
from outrigger.layout.layout import layout
from outrigger.report.draw import gaps as gap_chart
from outrigger.report.draw.diagrams import diagrams
from outrigger.report.draw.plan import plan
from outrigger.report.draw.section import section
from outrigger.report.draw.style import own_style
from outrigger.report.draw.svg import svg
from outrigger.studies import gaps as study
from outrigger.studies.curves import curves
from outrigger.verdict.design import design

EXAMPLES = Path(__file__).parents[2] / "examples"
NASTY = {
    "dollars": "Lot 4: $40k house, $20k garage",
    "formula": "${7*7} %s $(id)",
    "underscores": "left stake, $5 nail_1 to $6 nail_2",
    "backslashes": r"\frac{1}{2} \undefined $\sqrt$",
    "markup": "<b>&amp;</b> \"x\" 'y'",
}
SHORT = ("layout.run=8 ft", "layout.openings=[]")  # quicker to study
CONTROLS = "OSB\fplain\x1b[2J\x00\x9b\u202e\udcff\ufffe end"


def case_with(text):
    case, _ = read_case(EXAMPLES / "marks_on_the_plate.toml", ["layout.run=12 ft"])
    project = case.project.model_copy(update={"name": text})
    roof = case.house_roof.model_copy(update={"sheathing": text})
    marks = case.layout.model_copy(update={"datum": text, "openings": []})
    return case.model_copy(update={"project": project, "house_roof": roof, "layout": marks})


def drawings(case):
    """Every drawing of a case as SVG; `sheathing`: that which shows it."""
    result = design(case)
    yield "section", svg(section(result, False))
    yield "diagrams", svg(diagrams(curves(result)))
    yield "plan", svg(plan(layout(case), False))
    found = study.study(case, study.gaps(5.0, 6.0, 0.5))
    yield "gaps", gap_chart.draw(found, ".svg").decode()


def texts(svg):
    root = ET.fromstring(svg)
    return [" ".join("".join(e.itertext()).split()) for e in root.iter() if e.tag.endswith("}text")]


@pytest.mark.parametrize("name", NASTY)
def test_text_of_users_stands_as_it_is(name):
    """No dollar sign opens mathematics, no letter is lost, in any drawing that shows it."""
    said = NASTY[name]
    drawn = drawings(case_with(said))
    shown = {name for name, one in drawn if any(said in text for text in texts(one))}
    assert shown == {"section", "plan", "gaps"}


def test_control_characters_do_not_reach_a_picture():
    for name, drawn in drawings(case_with(CONTROLS)):
        ET.fromstring(drawn)  # is XML, which it would not be with them
        assert all(c.isprintable() or c == "\n" for c in drawn), name


@pytest.mark.parametrize("name", ["formula", "dollars"])
@pytest.mark.parametrize(
    "words",
    [("layout", "--plan", "out.svg"), ("layout", "--plan", "out.png"),
     ("summary", "-o", "out.pdf"), ("summary", "-o", "out.html")],
)  # fmt: skip
def test_the_commands_write_their_files(run, tmp_path, name, words):
    text = (EXAMPLES / "marks_on_the_plate.toml").read_text(encoding="utf-8")
    path = tmp_path / "job.toml"
    lines = [f'name = "{NASTY[name]}"' if line.startswith("name = ") else line
             for line in text.splitlines()]  # fmt: skip
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    done = run(words[0], path, *SHORT, *words[1:], folder=tmp_path)
    assert done.returncode in (0, 3), done.stderr
    assert (tmp_path / words[-1]).exists()


HOSTILE_SETTINGS = """\
text.usetex: True
text.color: white
axes.facecolor: black
savefig.bbox: tight
path.sketch: 1, 100, 2
font.size: 30
svg.fonttype: path
savefig.transparent: True
lines.linewidth: 9
figure.dpi: 31
"""


BOTH = f"""
import sys
from outrigger.cli.app import run
for words in (["layout", {str(EXAMPLES / "marks_on_the_plate.toml")!r}, "--plan", "out.svg"],
              ["gap", {str(EXAMPLES / "passes.toml")!r}, "--plot", "gap.svg"]):
    sys.argv = ["outrigger", *words]
    try:
        run()
    except SystemExit as left:
        assert left.code in (None, 0, 3), left.code
"""


def test_settings_of_the_folder_change_nothing(tmp_path):
    """A matplotlibrc where the commands run: the same bytes as without it."""
    found = []
    for folder in ("plain", "hostile"):
        where = tmp_path / folder
        where.mkdir()
        if folder == "hostile":
            (where / "matplotlibrc").write_text(HOSTILE_SETTINGS, encoding="utf-8")
        done = subprocess.run(
            [sys.executable, "-c", BOTH], cwd=where, capture_output=True, text=True, check=False
        )
        assert (done.returncode, done.stderr) == (0, "")
        found.append({p.name: p.read_bytes() for p in where.iterdir() if p.name[:3] in "outgap"})
    assert found[0] == found[1] and len(found[0]) == 2


def test_settings_are_put_back():
    before = dict(matplotlib.rcParams)
    with own_style({"font.size": 3}):
        assert matplotlib.rcParams["font.size"] == 3
    assert dict(matplotlib.rcParams) == before
