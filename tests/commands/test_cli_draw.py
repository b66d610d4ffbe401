"""The command `draw`: files of each kind, its refusals, its status."""

from pathlib import Path

import pypdf
import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"
PASSES, MARKS = EXAMPLES / "passes.toml", EXAMPLES / "marks_on_the_plate.toml"


@pytest.mark.parametrize("plan", [(), ("--plan",)])
@pytest.mark.parametrize(
    ("kind", "starts"),
    [("svg", b"<?xml"), ("pdf", b"%PDF"), ("png", b"\x89PNG"), ("dxf", b"  0\nSECTION")],
)
def test_a_file_of_each_kind(run, tmp_path, kind, starts, plan):
    out = tmp_path / f"a.{kind}"
    done = run("draw", MARKS, *plan, "-o", out)
    assert done.returncode == 0, done.stderr
    assert out.read_bytes().startswith(starts)
    assert "SAMPLE: pass" in done.stdout and "Local codes govern" in done.stdout


def test_a_pdf_is_tagged_and_says_the_verdict(run, tmp_path):
    out = tmp_path / "a.pdf"
    assert run("draw", PASSES, "gap=14in", "-o", out).returncode == 1
    reader = pypdf.PdfReader(out)
    text = " ".join(reader.pages[0].extract_text().split())
    assert "SAMPLE: fail" in text and "FAILS: bending" in text and "gap 14 in" in text
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((PASSES,), "no file named. Add -o section.svg"),
        ((PASSES, "-o", "a.jpg"), "-o a.jpg: is written as .svg, .pdf, .png, .dxf. Name it a.svg."),
        ((PASSES, "--plan", "-o", "a.svg"), "layout.run: is not given. Add [layout]"),
    ],
)
def test_what_it_refuses(run, tmp_path, words, said):
    done = run("draw", *words, folder=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert said in " ".join(done.stderr.split())
    assert not list(tmp_path.iterdir())


def test_never_over_a_file_unless_asked(run, tmp_path):
    there = tmp_path / "a.svg"
    there.write_text("mine")
    done = run("draw", PASSES, "-o", there)
    assert done.returncode == 2 and "is there already" in done.stderr
    assert there.read_text() == "mine"
    assert run("draw", PASSES, "-o", there, "--overwrite").returncode == 0


def test_the_sample_is_drawn_without_a_case(run, tmp_path):
    assert run("draw", "--plan", "-o", "a.svg", folder=tmp_path).returncode == 0
    assert "SAMPLE, not your job" in (tmp_path / "a.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", ["uplift_without_edge_tie", "open_first_sketch"])
def test_the_status_is_that_of_check(run, tmp_path, name):
    path = EXAMPLES / f"{name}.toml"
    wanted = run("check", path).returncode
    assert wanted in (1, 3)
    assert run("draw", path, "-o", tmp_path / "a.svg").returncode == wanted
