"""The commands `gap` and `compare`, run as a user runs them."""

import csv
import io
import json
import math
import re
import subprocess
import sys
from pathlib import Path

import pytest

from outrigger.base import quantity
from outrigger.cases.read import read_case
from outrigger.verdict.design import design

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
PASSES, CLIPS = ROOT / "examples" / "passes.toml", ROOT / "examples" / "row_of_clips.toml"
SAID = "SAMPLE, not your job"
ENGINEERS_LINE = "Not permission to build: the engineer of record decides."


@pytest.fixture(autouse=True)
def _a_quick_sample(monkeypatch):
    """A case of few combinations in the sample's place: how things print is looked at here."""
    monkeypatch.setattr("outrigger.cli.common.SAMPLE_FILE", ROOT / "examples" / "passes.toml")


def flat(text):
    """The words of a page, whatever its folds."""
    return " ".join(text.split())


def last_sixteenth(run, page, *case):
    """The gap to which a page says that it works: check passes there and fails 1/16 in on."""
    said = re.search(r"works to(?: a gap of)? (\d+(?: \d+/\d+)? in)", page)[1]
    gap = quantity.read(said, "length")
    for width, status in ((gap, 0), (gap + 1 / 16, 1)):
        assert run("check", *case, f"gap={width}in").returncode == status, width
    return said


def test_gap_of_the_sample(run):
    done = run("gap")
    lines = done.stdout.splitlines()
    assert (lines[0], lines[-1], lines[-2]) == (SAID, SAID, ENGINEERS_LINE)
    assert done.returncode == 0
    assert sum(re.match(r"  \d+( 1/2)? in ", line) is not None for line in lines) == 21
    said = last_sixteenth(run, flat(done.stdout))
    assert f"SAMPLE: works to a gap of {said}. At 6 in it works" in flat(done.stdout)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_gap_of_every_example(run, path):
    done = run("gap", path, "--from", "3in", "--to", "5in", "--step", "2in")
    assert done.returncode in (0, 1, 3), done.stderr
    assert done.stderr == ""
    assert done.stdout.splitlines()[-2:] == [ENGINEERS_LINE, "SAMPLE, not your job"]


@pytest.mark.parametrize("width", [30, 40, 60, 80, 120])
@pytest.mark.parametrize("command", ["gap", "compare"])
def test_no_line_is_wider_than_the_screen(run, command, width):
    more = ("gap=7in",) if command == "gap" else (CLIPS,)
    page = run(command, PASSES, *more, width=width).stdout
    assert [line for line in page.splitlines() if len(line) > width] == []


def test_json_is_a_row_for_each_gap_as_check_gives_it(run):
    done = run("gap", CLIPS, "--from", "4 in", "--to", "6 in", "--step", "3/4 in", "--json")
    rows = json.loads(done.stdout)
    assert [row["gap_in"] for row in rows] == [4.0, 4.75, 5.5]
    for row in rows:
        check = json.loads(run("check", CLIPS, f"gap={row['gap_in']}in", "--json").stdout)
        largest = {}
        for one in check["checks"]:
            largest[one["id"]] = max(largest.get(one["id"], 0.0), one["ratio"] or 0.0)
        known = {id: ratio for id, ratio in row["ratios"].items() if ratio is not None}
        assert known == {id: largest[id] for id in known}
        for key in ("id", "place", "ratio", "combination"):
            assert row["governing"][key] == check["governing"][key]
        assert row["length_in"] == check["geometry"]["length_in"]
        assert row["sample"] is True
        for one in check["connections"]:  # there in the combination that governs, here the largest
            assert row["clip_pull_lb"][one["at"]] >= one["per_clip_lb"]


def test_the_exact_gap_of_json_turns_check(run):
    (row,) = json.loads(run("gap", PASSES, "--from", "6in", "--to", "6in", "--json").stdout)
    largest = row["largest_gap_in"]
    for gap, status in ((largest, 0), (math.nextafter(largest, 99.0), 1)):
        assert run("check", PASSES, f"gap={gap!r}in").returncode == status


def test_csv_has_the_numbers_of_json(run):
    options = ("gap", PASSES, "--from", "5in", "--to", "7in")
    rows = json.loads(run(*options, "--json").stdout)
    table = list(csv.DictReader(io.StringIO(run(*options, "--csv").stdout)))
    assert len(table) == len(rows) == 5
    for line, row in zip(table, rows, strict=True):
        assert float(line["gap_in"]) == row["gap_in"]
        assert float(line["ratios:bending"]) == row["ratios"]["bending"]
        assert line["governing:id"] == row["governing"]["id"]
        assert line["works"] == str(row["works"]).lower()


def test_sample_words_go_to_stderr_with_data(run):
    done = run("gap", "--json", "--to", "3in")
    assert done.stderr.strip() == SAID
    assert all(row["sample"] is True for row in json.loads(done.stdout))


def test_another_gap_than_the_files_lists_what_changes(run):
    """Pieces by hand: 62 1/2 in and 65 1/2 in. The answer is that of the new gap designed alone."""
    page = flat(run("gap", PASSES, "gap=9in", "--to", "9in").stdout)
    bending = design(read_case(PASSES, ["gap=9in"])[0]).closest
    assert (bending.check.id, bending.check.place, bending.status) == ("bending", "edge", "fail")
    no = f"No: bending at the house wall, {bending.ratio:.2f}."
    assert f"From 6 in to 9 in, does it work? {no}" in page
    assert "each 5'-5 1/2\" in place of 5'-2 1/2\"" in page
    assert "girth 3 in wider" in page
    assert "back to the engineer: yes, as a new revision." in page
    revision = "What was adopted is for 6 in, rev 0"
    assert revision in page


def test_cut_pieces_keep_their_length(run):
    """By hand: 2 in more of gap, 9 3/4 + 2 in of arm, 48 - 2 in of back span."""
    page = flat(run("gap", PASSES, "gap=8in", "--cut").stdout)
    assert "each 5'-2 1/2\", cut already; back span 46 in" in page
    assert "back span 46 in, arm 11 3/4 in" in page


def test_what_is_open_is_said_in_the_first_lines(run):
    done = run("gap", ROOT / "examples" / "open_first_sketch.toml")
    first = flat(done.stdout.partition("\n\n")[0])
    assert "SAMPLE: cannot say to what gap it works: 13 facts are missing, among them" in first
    assert "what ties the garage wall down, attic storage, drifted snow, sliding snow" in first
    assert done.returncode == 3


def test_exit_status_when_no_gap_works(run):
    done = run("gap", ROOT / "examples" / "laid_flat.toml")
    assert done.returncode == 1
    assert "SAMPLE: no gap works, not even 1/16 in" in done.stdout


@pytest.mark.parametrize(("options", "said"), [
    (("--from", "2"), '--from "2": has no unit. Did you mean "2 in"?'),
    (("--to", "soon"), '--to "soon": not a length'),
    (("--step", "0 in"), "step > 0"),
    (("--from", "9in", "--to", "5in"), "0 < from <= to"),
    (("--json", "--csv"), "give one of them"),
    (("--plot", "gaps.pdf"), 'gaps.pdf: is written as .svg, .png'),
    (("gap=nine",), "gap.width"),
    (("no_such.toml",), "no such file"),
])  # fmt: skip
def test_bad_input(run, options, said, tmp_path):
    done = run("gap", *options, folder=tmp_path)
    assert done.returncode == 2
    assert said in flat(done.stderr)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(("kind", "starts"), [("png", b"\x89PNG\r\n\x1a\n"), ("svg", b"<?xml")])
def test_plots_repeat_byte_for_byte(run, kind, starts, tmp_path):
    one, other = tmp_path / f"one.{kind}", tmp_path / f"other.{kind}"
    for path in (one, other):
        assert run("gap", PASSES, "--plot", path).returncode == 0
    assert one.read_bytes() == other.read_bytes()
    assert one.read_bytes().startswith(starts)
    again = run("gap", PASSES, "--plot", one)
    assert again.returncode == 2
    assert "is there already" in again.stderr
    assert run("gap", CLIPS, "--plot", one, "--overwrite").returncode == 0
    assert one.read_bytes() != other.read_bytes()
    assert len(list(tmp_path.iterdir())) == 2


def test_a_plot_names_job_checks_and_limit(run, tmp_path):
    path = tmp_path / "gaps.svg"
    run("gap", "project.name=Price $5, then $6", "--plot", path)
    text = path.read_text(encoding="utf-8")
    for words in ("Price $5, then $6", "limit", "bending", "crushing at the house wall",
                  "clear width of the gap, in", SAID):  # fmt: skip
        assert words in text
    assert f"works to {last_sixteenth(run, text)}" in text


def test_nothing_is_drawn_with_without_a_plot():
    code = (
        "import sys, outrigger.cli.app as c\n"
        "try: c.app_of(['gap'])(['gap'], standalone_mode=False)\nexcept BaseException: pass\n"
        "print('matplotlib' in sys.modules, file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "False"


def test_compare_two_files(run):
    """Rows that do not move are counted, not listed: at another gap bending does move."""
    done = run("compare", PASSES, CLIPS, "gap=7in")
    page = done.stdout
    assert done.returncode == 0
    assert "hold_down[back].count: A 2; B 1" in page
    assert re.search(r"^  clips on each outrigger +4 +5$", page, re.M)
    for path, settings, column in ((PASSES, [], 1), (CLIPS, ["gap=7in"], 2)):
        for row in design(read_case(path, settings)[0]).rows:
            if row.check.id == "bending" and row.check.place == "edge" and not row.check.link.id:
                said = re.search(r"bending at the house wall +(\S+) +(\S+)", page)
                assert said[column] == f"{row.ratio:.2f}"


def test_compare_one_file_with_settings(run):
    page = run("compare", PASSES, "gap=9in", "outrigger.plies=2").stdout
    assert re.search(r"^  gap\.width +6 in +9 in$", page, re.M)
    assert re.search(r"^  outrigger\.plies +1 by default +2$", page, re.M)
    assert "B: gap 9 in, file says 6 in" in page


def test_compare_settings_before_the_second_file_are_the_firsts(run):
    page = flat(run("compare", PASSES, "gap=9in", PASSES, "gap=10in").stdout)
    assert "gap.width 9 in 10 in" in page


def test_compare_a_case_with_itself(run):
    page = run("compare", PASSES, PASSES).stdout
    assert "What differs in: no input that changes a number." in page


def test_compare_exit_status_is_that_of_the_second(run):
    for words, status, verdicts in (
        ((PASSES, "gap=14in"), 1, ("pass,", "fail:")),
        ((PASSES, "gap=14in", PASSES), 0, ("fail:", "pass,")),
        ((PASSES, ROOT / "examples" / "open_first_sketch.toml"), 3, ("pass,", "open:")),
    ):
        done = run("compare", *words)
        assert done.returncode == status
        assert re.search(
            r"(?m)^A SAMPLE: {}.*\n(?:  .*\n)?B SAMPLE: {}".format(*verdicts), done.stdout
        )
    done = run("compare", PASSES)
    assert (done.returncode, done.stdout) == (2, "")
    assert "name a second case, or what B changes: spacing=12in." in flat(done.stderr)
    done = run("compare")
    assert done.returncode == 0
    assert (done.stdout.splitlines()[0], done.stdout.splitlines()[-1]) == (SAID, SAID)
