"""The first screen of check: its length, and what is never behind a flag; --brief and --ask."""

import shlex
from pathlib import Path

import pytest

from outrigger.cases.read import read_case
from outrigger.report import cautions
from outrigger.verdict.asked import settings
from outrigger.verdict.design import design
from outrigger.verdict.taken import stated_none

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
WINDOW = {80: 30, 40: 45}  # lines that stand at once on a screen so wide
SMALLEST = """
[project]
name = "Only what is required"
[basis]
loads = "ASCE 7-16"
[gap]
width = "4 in"
garage_plate = "3 1/2 in"
edge_bearing = "3 in"
[outrigger]
species = "DF-L"
grade = "#2"
size = "2x6"
spacing = "16 in"
back_span = "30 in"
[garage_roof]
span = "22 ft"
"""


def flat(text):
    return " ".join(text.split())


@pytest.mark.parametrize("width", WINDOW)
@pytest.mark.parametrize("path", [None, *EXAMPLES], ids=lambda p: p.stem if p else "sample")
def test_it_fits_a_window(run, path, width):
    name = (
        [f"examples/{path.name}"] if path else []
    )  # as README calls it: a command is copied whole
    page = run("check", *name, width=width, folder=ROOT).stdout
    lines = page.splitlines()
    assert len(lines) <= WINDOW[width]
    assert all(len(line) <= width for line in lines if not name or name[0] not in line)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_what_is_never_behind_a_flag(run, path):
    """Failing and open places, what is stated as none, the cautions of the case, the last line."""
    result = design(read_case(path)[0])
    page = flat(run("check", path, width=200).stdout)
    word = {"pass": "pass", "fail": "FAILS", "open": "open"}
    for row in result.rows:
        if row.status != "pass":
            assert row.check.kind.name in page and word[row.status] in page
    for name in stated_none(result.case):
        assert name in page.partition("You said none of: ")[2].partition(".")[0]
    for one in cautions.of_case(result):
        assert flat(one.short) in page
    assert "a licensed engineer must verify and adopt it; local codes govern." in page
    for one in result.not_given:
        assert one.who in page


def test_all_is_longer_and_has_what_the_first_screen_leaves_out(run):
    first, whole = (run("check", *words).stdout for words in ((), ("--all",)))
    assert len(whole.splitlines()) > 2 * len(first.splitlines())
    assert "--all" in first and "Taken by default" in whole


@pytest.mark.parametrize("path", [None, *EXAMPLES], ids=lambda p: p.stem if p else "sample")
def test_five_short_lines(run, path):
    done = run("check", *filter(None, [path]), "--brief")
    lines = done.stdout.splitlines()
    assert len(lines) == 5 and all(len(line) <= 40 for line in lines)
    word = {0: "yes", 1: "no", 3: "cannot say"}[done.returncode]  # made-up data: no capitals
    assert lines[1].startswith(f"{word}: ")
    assert lines[0].startswith("SAMPLE") and "No permit" in lines[4]


@pytest.mark.parametrize(
    ("name", "lumber", "gap"),
    [
        ("two_plies", "2 2x6 DF-L No. 2 @ 16 in, back 4 ft", "Gap 6 in"),
        ("laid_flat", "2x6 DF-L No. 2 flat @ 16 in, back 4 ft", "Gap 6 in"),
        ("marks_on_the_plate", "2x8 DF-L No. 2 @ 19.2 in, some in pairs", "Gap 6 in"),
        ("droop_of_a_shallow_piece", "2x4 DF-L Select Structural @ 16 in", "Gap 11 in"),
    ],
)
def test_the_short_lines_name_plies_wood_pairs_and_gap(run, name, lumber, gap):
    """One that is cut single where two plies pass has half of its wood; SPF has another Fb."""
    lines = run("check", ROOT / "examples" / f"{name}.toml", "--brief").stdout.splitlines()
    assert lines[2] == lumber and lines[3].startswith(f"{gap}: back clip ")


def test_a_change_goes_back_to_the_engineer(run):
    assert "back to the engineer" in run("check", "gap=7in", "--brief").stdout.splitlines()[-1]


@pytest.fixture
def smallest(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(SMALLEST, encoding="utf-8")
    return path


def test_every_setting_of_the_ask_sheet_pastes(run, smallest):
    """In one round: each stands on a command line as it is, and is asked no more."""
    before = design(read_case(smallest)[0])
    asked = settings(before)
    assert len(asked) > 15
    sheet = run("check", smallest, "--ask", width=200).stdout
    assert all(one in sheet for one in asked)
    given = [word for one in asked for word in shlex.split(one)]
    after = design(read_case(smallest, given)[0])
    keys = {one.key for one in after.not_given}
    assert not keys & {one.key for one in before.not_given if one.key != "hold_down"}


def test_the_ask_sheet_is_by_person_with_blanks(run, smallest):
    page = run("check", smallest, "--ask").stdout
    for who in dict.fromkeys(one.who for one in design(read_case(smallest)[0]).not_given):
        assert f"\n{who.capitalize()}:\n" in page
    assert page.count("______") == len(design(read_case(smallest)[0]).not_given)


@pytest.mark.parametrize("ending", ["pdf", "md"])
def test_the_ask_sheet_as_a_file(run, smallest, tmp_path, ending):
    out = tmp_path / f"ask.{ending}"
    done = run("check", smallest, "--ask", out)
    assert done.returncode == 3 and "written" in done.stdout
    assert (
        out.read_bytes()[:4] == b"%PDF"
        if ending == "pdf"
        else b"Building department" in out.read_bytes()
    )
    assert run("check", smallest, "--ask", out).returncode == 2  # never over a file
    assert run("check", smallest, "--ask", out, "--overwrite").returncode == 3


def test_nothing_is_asked_of_a_case_that_says_all(run):
    assert "Nothing is missing." in run("check", ROOT / "examples" / "passes.toml", "--ask").stdout


def test_what_the_house_gets_without_a_load_is_not_at_most(run, tmp_path):
    """Without the wind of 26 psf nothing lifts: 155 lb up with it, none without."""
    text = (ROOT / "examples" / "passes.toml").read_text("utf-8")
    path = tmp_path / "job.toml"
    path.write_text(text.replace('uplift = "26 psf"\n', ""), encoding="utf-8")
    page = run("check", path).stdout
    assert "The house gets by the loads given, each outrigger (ASD): wall 1,026 lb down;" in page
    assert "cannot say yet, wind not given. 32 of 32 checks pass so far." in page
    path.write_text(text.replace('dead = "15 psf"', 'dead = "none"'), encoding="utf-8")
    assert "You said none of: roof dead, " in run("check", path).stdout
