"""`outrigger layout` as a framer runs it: words, widths, files, errors."""

import csv
import io
import subprocess
import sys
from functools import partial
from pathlib import Path

import pypdf
import pytest

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "examples" / "marks_on_the_plate.toml"
LAST = "Not permission to build: the engineer of record decides."


@pytest.fixture
def layout(run):
    return partial(run, "layout")


def test_only_a_cut_list_loads_its_solver():
    """`layout`, and not `check` of the same case."""
    code = (
        "import sys; sys.argv = ['outrigger', *sys.argv[1:]]\n"
        "from outrigger.cli.app import run\n"
        "try: run()\n"
        "except SystemExit: pass\n"
        "print('highspy' in sys.modules, file=sys.stderr)"
    )
    for command, loaded in (("check", "False\n"), ("layout", "True\n")):
        done = subprocess.run([sys.executable, "-c", code, command, EXAMPLE],
                              text=True, capture_output=True, check=True)  # fmt: skip
        assert done.stderr == loaded, command


def test_the_page(layout):
    """Marks both ways, the side of the piece, tick boxes; the engineer's line ends it."""
    done = layout(EXAMPLE)
    assert (done.returncode, done.stderr) == (0, "")
    lines = done.stdout.splitlines()
    assert lines[-2:] == [LAST, "SAMPLE, not your job"]
    assert any(line.startswith("Datum: left end, looking at the garage") for line in lines)
    (mark,) = [line for line in lines if line.startswith("[ ]   7")]
    assert mark.split()[3:7] == ['95-1/4"', "7'-11", '1/4"', "|X"]
    assert sum(line.startswith("[ ] ") for line in lines) == 16


@pytest.mark.parametrize("width", [80, 40, 30])
@pytest.mark.parametrize("change", [(), ("house_roof.framing_parallel=true",)])
def test_it_fits_its_width(layout, width, change):
    done = layout(EXAMPLE, *change, width=width)
    assert max(map(len, done.stdout.splitlines())) <= width
    assert done.stdout.isascii()


def test_a_miss_is_said_with_its_amount(layout):
    """19.2 in over rafters at 16 in: the outrigger 3.2 in and 6.4 in off, the farther foot's
    fastener 1 1/2 in more: 4.7 and 7.9 in, 4 11/16 and 7 7/8 in on the tape."""
    done = layout(EXAMPLE, "house_roof.framing_parallel=true", "layout.openings=[]")
    assert done.returncode == 3
    rows = [line for line in done.stdout.splitlines() if line.startswith("[ ] ")]
    assert [row.split("  ")[-1] for row in rows[1:6]] == [
        'off 4-11/16"', 'off 7-7/8"', 'off 7-7/8"', 'off 4-11/16"', 'off 1-1/2"',
    ]  # fmt: skip
    assert "put solid blocking under the feet" in " ".join(done.stdout.split())
    assert "SAMPLE: open: cannot say yet, clips off the framing not computed" in done.stdout


def test_csv_writes_a_list_as_a_text(layout):
    row = next(csv.DictReader(io.StringIO(layout(EXAMPLE, "--csv").stdout)))
    assert row["not_checked"].startswith("house wall; house wall uplift; ")
    assert row["cautions"].startswith("A licensed engineer")
    assert (row["sample"], row["open"]) == ("true", "")


def test_csv_has_a_row_for_each_mark(layout):
    rows = list(csv.DictReader(io.StringIO(layout(EXAMPLE, "--csv").stdout)))
    assert len(rows) == 16
    assert float(rows[6]["near_edge_in"]) == 95.25
    assert sum(float(row["tributary_in"]) for row in rows) == pytest.approx(281.375)
    assert {row["status"] for row in rows} == {"pass"}


def test_without_a_file_the_sample_runs(layout, tmp_path):
    done = layout(folder=tmp_path)
    lines = done.stdout.splitlines()
    assert lines[0] == lines[-1] == "SAMPLE, not your job"
    assert "layout.run 24 ft, file does not say" in done.stdout
    assert "SAMPLE: " in done.stdout
    assert layout("--csv", folder=tmp_path).stderr.startswith("SAMPLE, not your job")


def test_the_pdf_holds_every_mark_on_one_page(layout, tmp_path):
    """With what each needs and the pattern of one piece; plan and lists on the next."""
    first, again = tmp_path / "a.pdf", tmp_path / "b.pdf"
    assert layout(EXAMPLE, "--pdf", first).returncode == 0
    assert layout(EXAMPLE, "--pdf", again).returncode == 0
    assert first.read_bytes() == again.read_bytes()
    pages = pypdf.PdfReader(first).pages
    assert len(pages) == 2
    plan = " ".join(pages[1].extract_text().split())
    for said in ("opening", "gap 6 in", "SAMPLE: pass", "licensed engineer must verify",
                 "Cut list", "Material"):  # fmt: skip
        assert said in plan
    text = pages[0].extract_text()
    for said in ('95-1/4"', "7'-11 1/4\"", "hook the tape here: left end", "page 1 / 2", LAST,
                 "NOBODY ON THE END BEFORE THE CLIPS ARE IN.", '59-1/2"'):  # fmt: skip
        assert said in text


def test_twenty_five_marks_still_fit_one_page(layout, tmp_path):
    done = layout(EXAMPLE, "spacing=12in", "layout.run=24 ft", "layout.openings=[]",
               "--pdf", tmp_path / "a.pdf")  # fmt: skip
    assert "25 outriggers" in done.stdout
    first = pypdf.PdfReader(tmp_path / "a.pdf").pages[0].extract_text()
    assert '286-1/2"' in first and "What it needs" in first


def test_user_text_is_never_markup(layout, tmp_path):
    text = EXAMPLE.read_text(encoding="utf-8")
    text = text.replace("Juniper Court, garage link", "#panic() *A* $x$ [b]")
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    assert layout("job.toml", "--pdf", "a.pdf", folder=tmp_path).returncode == 0
    text = pypdf.PdfReader(tmp_path / "a.pdf").pages[0].extract_text()
    assert "#panic() *A* $x$ [b]" in text


@pytest.mark.parametrize(("name", "start"), [("a.svg", b"<?xml"), ("a.png", b"\x89PNG")])
def test_the_plan_repeats_byte_for_byte(layout, tmp_path, name, start):
    """Clips that miss are drawn as crosses; in the SVG the text stays text."""
    change = "house_roof.framing_parallel=true"
    for folder in ("one", "two"):
        (tmp_path / folder).mkdir()
        layout(EXAMPLE, change, "--plan", tmp_path / folder / name)
    first = (tmp_path / "one" / name).read_bytes()
    assert first.startswith(start)
    assert first == (tmp_path / "two" / name).read_bytes()
    if name.endswith("svg"):
        for said in ("clip misses framing", "opening", "DATUM: left end", '95-1/4"'):
            assert said.encode() in first.replace(b"&#34;", b'"')


def test_sample_is_on_the_pdf_and_the_plan(layout, tmp_path):
    layout("--pdf", "a.pdf", "--plan", "a.svg", folder=tmp_path)
    assert "SAMPLE, not your job" in pypdf.PdfReader(tmp_path / "a.pdf").pages[0].extract_text()
    assert b"SAMPLE, not your job" in (tmp_path / "a.svg").read_bytes()


def test_never_over_a_file_unless_asked(layout, tmp_path):
    there = tmp_path / "a.pdf"
    there.write_text("mine")
    done = layout(EXAMPLE, "--pdf", there)
    assert done.returncode == 2
    assert "is there already" in done.stderr
    assert there.read_text() == "mine"
    assert layout(EXAMPLE, "--pdf", there, "--overwrite").returncode == 0
    assert there.read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((ROOT / "examples" / "passes.toml",), "layout.run: is not given. Add [layout]"),
        ((EXAMPLE, "layout.run=2 in", "layout.openings=[]"), "too short for two pieces"),
        ((EXAMPLE, "layout.run=24"), "needs text with a unit"),
        ((EXAMPLE, "--plan", "a.jpg"), "is written as .svg, .pdf, .png, .dxf. Name it a.svg."),
        ((EXAMPLE, 'layout.stock=["5 ft"]'), "does not hold a piece"),
    ],
)
def test_bad_input_is_said_in_words(layout, arguments, said):
    done = layout(*arguments)
    assert (done.returncode, done.stdout) == (2, "")
    assert said in " ".join(done.stderr.split())


def test_readme_prints_what_the_program_prints(layout):
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    shown = [line for line in readme.splitlines() if line.startswith("[ ] ")]
    assert shown
    assert shown == [line for line in layout(EXAMPLE).stdout.splitlines() if line in shown]


def test_help_ends_in_an_example(layout):
    done = layout("--help")
    assert "Example: outrigger layout job.toml" in done.stdout.splitlines()[-1]
