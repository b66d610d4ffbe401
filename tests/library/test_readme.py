"""The lines of Python in README run as they stand, and print what stands under them."""

import contextlib
import csv
import html
import io
import re
import shutil
from pathlib import Path

from running import run

import outrigger
from outrigger.base.quantity import tape

ROOT = Path(__file__).parents[2]


def test_the_lines_from_python_print_what_stands_under_them(tmp_path, monkeypatch):
    section = (ROOT / "README.md").read_text(encoding="utf-8").split("## From Python")[1]
    code, printed = (
        re.search(rf"```{kind}\n(.*?)```", section, re.S)[1] for kind in ("python", "text")
    )
    (tmp_path / "examples").mkdir()
    shutil.copy(ROOT / "examples" / "passes.toml", tmp_path / "examples")
    monkeypatch.chdir(tmp_path)
    said = io.StringIO()
    with contextlib.redirect_stdout(said):
        exec(compile(code, "README", "exec"), {})
    assert said.getvalue() == printed
    assert (tmp_path / "job.pdf").read_bytes().startswith(b"%PDF")


def test_the_pictures_are_of_the_cases_as_they_stand():
    """Each picture is there; gap plot and section bear the digest of their case, the plan its
    marks."""
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    named = re.findall(r"!\[.*?\]\((.*?)\)", readme)
    assert sorted(named) == [f"examples/pictures/{one}.svg" for one in ("gap", "plan", "section")]
    gap, plan, section = (
        html.unescape((ROOT / name).read_text(encoding="utf-8")) for name in sorted(named)
    )
    for picture, settings in ((gap, ["gap=7in"]), (section, [])):
        case = outrigger.read_case(ROOT / "examples" / "passes.toml", *settings)
        assert re.sub(r"(.{4})(?=.)", r"\1 ", case.digest) in picture
    marks = run("layout", ROOT / "examples" / "marks_on_the_plate.toml", "--csv").stdout
    placed = [float(row["near_edge_in"]) for row in csv.DictReader(marks.splitlines())]
    assert len(placed) == 16 and all(tape(one) in plan for one in placed)
