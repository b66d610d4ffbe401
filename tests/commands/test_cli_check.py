"""The commands `check` and `new`, run as a user runs them."""

import csv
import io
import json
import os
import re
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest
import running
from check_cases import BETWEEN, CASES
from sample_case import FEW, SAMPLE, SMALLEST, case_of, set_to, without
from thorough import in_turn

from outrigger.report.screen import check as screen
from outrigger.verdict.design import design

SAID = "SAMPLE, not your job"
ENGINEERS_LINE = "Not permission to build: the engineer of record decides."
STATUS = {"pass": 0, "fail": 1, "open": 3}
KEYS = [
    "program", "digest", "sample", "verdict", "governing", "geometry", "loads", "reactions",
    "envelopes", "diaphragm",
    "connections", "checks", "movement", "not_given", "not_covered", "cautions",
    "not_checked", "declared_none", "defaults", "notes",
]  # fmt: skip
LOAD_CASES = {"D", "L", "Lr", "S", "W_up", "W_down", "E"}


@pytest.fixture
def job(tmp_path):
    """Writes a case file and gives its path."""

    def write(text=SAMPLE, name="job.toml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write


@pytest.fixture(scope="module")
def ran(run, tmp_path_factory):
    """Runs `check` on a named case, each run once."""
    folder = tmp_path_factory.mktemp("cases")
    for name, text in CASES.items():
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")

    @cache
    def once(name, *options, width=80):
        options = options or ("--all",)
        return run("check", folder / f"{name}.toml", *options, width=width)

    return once


@cache
def designed(name):
    return design(case_of(CASES[name]))


def unfolded(text):
    """An output with its folded lines in one piece."""
    return " ".join(text.split())


def strict(text):
    """JSON as the standard has it: no NaN, no Infinity."""

    def refuse(name):
        raise AssertionError(name)

    return json.loads(text, parse_constant=refuse)


def verdict_at_the_end(lines):
    """The lines from the last blank line to the engineer's line."""
    blank = max(i for i, line in enumerate(lines) if not line)
    return lines[blank + 1 :]


# The sample


def test_the_sample(run, tmp_path):
    """Runs without a file, says first and last that it is a sample, passes as one."""
    result = run("check", "--all", folder=tmp_path)
    lines = result.stdout.splitlines()
    assert (result.returncode, result.stderr) == (0, "")
    assert lines[0] == lines[-1] == SAID
    assert lines[-2] == ENGINEERS_LINE
    assert lines[-3].startswith("SAMPLE: pass, ")
    assert lines.count(lines[-3]) == 2
    assert "PASS" not in result.stdout
    assert "not computed" not in result.stdout


def test_the_sample_as_data(run, tmp_path):
    """Only "sample": true is in the data; on stderr the words, and the cautions of bare rows."""
    result = run("check", "--json", folder=tmp_path)
    data = strict(result.stdout)
    assert (result.returncode, result.stderr) == (0, f"{SAID}\n")
    assert (data["sample"], data["verdict"]) == (True, "pass")
    assert data["not_covered"] == data["not_given"] == []
    assert SAID not in result.stdout
    table = run("check", "--csv", folder=tmp_path)
    assert table.returncode == 0 and table.stderr.startswith(f"{SAID}\nA licensed engineer must")
    assert SAID not in table.stdout


def test_settings_over_the_sample(run, tmp_path):
    """Said right behind the first line; in capitals only in a case of one's own."""
    result = run("check", "--all", "gap=9 in", "snow=90 psf", folder=tmp_path)
    lines = result.stdout.splitlines()
    assert lines[:3] == [
        SAID, "gap 9 in, file says 6 in",
        "snow 90 psf, file says 25 psf; on the member below 144 plf too, was 40 plf",
    ]  # fmt: skip  # 40 x 90/25
    assert result.returncode == 1
    assert lines[-1] == SAID
    assert any(line.startswith("SAMPLE: fail: ") for line in lines)
    assert "FAIL:" not in result.stdout


def test_settings_are_printed_first(run, job):
    lines = run("check", "--all", job(), "gap=9 in").stdout.splitlines()
    assert lines[0] == "gap 9 in, file says 6 in"


# Verdict and exit status


@pytest.mark.parametrize(
    ("text", "status", "word"),
    [
        (SAMPLE, 0, "PASS, "),
        (CASES["fails"], 1, "FAIL: "),
        (SMALLEST, 3, "OPEN: cannot say yet, "),
        (without(SAMPLE, "snow", "drift"), 3, "OPEN: cannot say yet, drifted snow not given"),
        (CASES["no edge tie"], 1, "FAIL: "),
    ],
)
def test_exit_status_and_verdict(run, job, text, status, word):
    result = run("check", "--all", job(text))
    assert (result.returncode, result.stderr) == (status, "")
    lines = result.stdout.splitlines()
    assert lines[-1] == ENGINEERS_LINE
    assert verdict_at_the_end(lines)[0].startswith(word)
    assert SAID not in result.stdout
    assert "SAMPLE" not in result.stdout


def test_bad_input(run, job):
    path = job(set_to(SAMPLE, gap__width="6", snow__roof="20"))
    result = run("check", "--all", path)
    assert (result.returncode, result.stdout) == (2, "")
    assert result.stderr.startswith("outrigger: job.toml: 2 faults\n  line ")
    for options in (["--json"], ["--csv"], ["--steps"]):
        assert run("check", "--all", path, *options) == result


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["nothing.toml"], 'nothing.toml: no such file. "outrigger new nothing.toml" writes'),
        (["."], ".: a folder. Name a file in it."),
        (["gapp=9in"], '"gapp=9in": no key gapp. Did you mean gap=9in?'),
        (
            ["job.toml", "gap"],
            '"gap": a setting is written name=value, "gap=9in" say, without blanks.',
        ),
    ],
)
def test_bad_words(run, job, words, said):
    folder = job().parent
    result = run("check", "--all", *words, folder=folder)
    assert (result.returncode, result.stdout) == (2, "")
    assert f"outrigger: {said}" in unfolded(result.stderr)


@pytest.mark.parametrize("name", CASES)
def test_the_exit_status_is_the_verdict(ran, name):
    """One verdict: in the data, in both lines of the page, in the exit status."""
    page, data = ran(name), ran(name, "--json")
    verdict = strict(data.stdout)["verdict"]
    assert page.returncode == data.returncode == STATUS[verdict]
    lines = page.stdout.splitlines()
    *said, last = verdict_at_the_end(lines)
    assert last == ENGINEERS_LINE
    assert said[0].startswith(verdict.upper())
    above = lines[: len(lines) - len(said) - 1]
    assert any(above[i : i + len(said)] == said for i in range(8))  # the same, at the top


@pytest.mark.parametrize("name", CASES)
def test_the_verdict_counts_the_checks(ran, name):
    data = strict(ran(name, "--json").stdout)
    said = unfolded("\n".join(verdict_at_the_end(ran(name).stdout.splitlines())))
    states = [c["status"] for c in data["checks"] if c["demand"] or c["status"] != "pass"]
    if found := re.search(r"(\d+) of (\d+) checks", said):
        assert (int(found[1]), int(found[2])) == (states.count("pass"), len(states))
    else:
        assert states.count("fail") > 0
        more = re.search(r"(\d+) more fail", said)
        assert states.count("fail") == 1 + (int(more[1]) if more else 0)


# Data


@pytest.mark.parametrize("name", CASES)
def test_json(ran, name):
    """The keys and kinds of the data; no NaN, no Infinity; nothing on stderr."""
    result = ran(name, "--json")
    data = strict(result.stdout)
    assert result.stderr == ""
    of_layout = data.pop("at_other_marks", None)  # of a layout alone
    assert list(data) == KEYS
    assert (of_layout is not None) is (name == "every key")
    assert data["sample"] is False
    assert list(data["program"]) == ["name", "version"]
    assert re.fullmatch("[0-9a-f]{12}", data["digest"])
    assert list(data["governing"]) == ["id", "place", "ratio", "combination"]
    assert set(data["geometry"]) == {"arm_in", "arm_plan_in", "back_span_in", "length_in"}
    assert set(data["loads"]["wall_line_lb"]) == LOAD_CASES
    columns = {
        ("at", "source", "case", "force_lb", "line_plf"),
        ("at", "source", "case", "force_lb", "line_plf", "mark"),
    }
    assert {tuple(row) for row in data["reactions"]} <= columns  # a mark where there is a layout
    sideways = {"H_away", "H_toward", "A", "E_away", "E_toward"}
    assert {row["case"] for row in data["reactions"]} <= LOAD_CASES | sideways
    for row in data["connections"]:
        assert [key for key in row if key != "mark"] == [
            "at", "combination", "uplift_lb", "along_lb", "across_lb", "per_clip_lb"
        ]  # fmt: skip
    for row in data["checks"]:
        assert list(row) == [
            "id", "place", "link", "clause", "demand", "capacity", "unit", "ratio", "combination",
            "status", "why",
        ]  # fmt: skip
        assert row["status"] in STATUS
        assert row["why"] if row["status"] != "pass" and row["ratio"] is None else True
    assert set(data["movement"]) == {
        "live_in", "total_in", "joint_in", "tip_stiffness_lb_per_in", "end_rotation_rad",
        "back_span_bow_in", "droop_of_wood_in", "clip_slip_in", "crushing_in", "droop_at_wall_in",
    }  # fmt: skip
    for row in data["not_given"]:
        assert list(row) == ["key", "question", "who"]
        assert all(row.values())
    for name in KEYS[KEYS.index("not_covered") :]:
        assert all(isinstance(line, str) for line in data[name])


@pytest.mark.parametrize("name", CASES)
def test_json_agrees_with_itself(ran, name):
    """Ratios are demand over capacity, the governing one is the largest, the verdict follows."""
    data = strict(ran(name, "--json").stdout)
    checks = data["checks"]
    for row in checks:
        if row["ratio"] is None:
            assert row["capacity"] in (None, 0) or row["status"] != "pass"
        elif row["demand"] == 0:
            assert row["ratio"] == 0
        else:
            assert row["ratio"] == row["demand"] / row["capacity"]
        if row["ratio"] is not None and row["ratio"] > 1:
            assert row["status"] != "pass"
    states = {row["status"] for row in checks}
    open_ = "open" in states or data["not_given"] or data["not_covered"]
    assert data["verdict"] == ("fail" if "fail" in states else "open" if open_ else "pass")
    governing = data["governing"]
    if governing["ratio"] is None:
        (row, *_) = [
            r for r in checks if (r["id"], r["place"]) == (governing["id"], governing["place"])
        ]
        assert (row["status"], row["capacity"]) == ("fail", 0)
    else:
        assert governing["ratio"] == max(r["ratio"] for r in checks if r["ratio"] is not None)
    assert len({(row["id"], row["place"], row["link"]) for row in checks}) == len(checks)
    for row in data["connections"]:
        found = [
            c for c in checks
            if c["id"] == f"hold_down:{row['at']}" and c["combination"] == row["combination"]
        ]  # fmt: skip
        assert found  # of a chain the weakest link; of a listed clip the pull itself
        if [(c["link"], c["unit"]) for c in found] == [("rated clip", "lb")]:
            assert row["per_clip_lb"] == found[0]["demand"]


def test_a_row_of_three_hold_downs_has_its_place(ran):
    """A place between edge and back is written in inches from the edge."""
    data = strict(ran("three clips", "--json").stdout)
    assert {row["at"] for row in data["reactions"]} == {"edge", "16 in", "back"}
    assert "hold_down:16 in" in {row["id"] for row in data["checks"]}
    assert "clip 16 in" in ran("three clips").stdout


def test_a_half_inch_place(run, job):
    text = CASES["three clips"].replace('at = "16 in"', 'at = "30 1/2 in"')
    data = strict(run("check", job(text), "--json").stdout)
    assert {row["at"] for row in data["reactions"]} == {"edge", "30.5 in", "back"}


@pytest.mark.parametrize("name", ["pass", "three clips", "lrfd 7-22"])
def test_csv_is_the_reactions_of_the_data(ran, name):
    """Unfactored first, then the most of each place: every field of the data, as text; beside it
    what every row of data carries (`test_rows_are_stamped`)."""
    result = ran(name, "--csv")
    rows = list(csv.DictReader(io.StringIO(result.stdout)))
    data = strict(ran(name, "--json").stdout)
    each = [{"level": "unfactored", **row} for row in data["reactions"]] + data["envelopes"]
    assert len(rows) == len(each) and data["envelopes"]
    for row, one in zip(rows, each, strict=True):
        stamped = {"digest", "verdict", "open", "sample"}
        kept = {key: value for key, value in row.items() if key not in stamped}
        said = {key: str(one.get(key, "")) for key in kept}
        assert kept == said | ({"alone": said["alone"].lower()} if said["alone"] else {})
    assert "\r" not in result.stdout


def test_json_and_csv_together(run, job):
    result = run("check", job(), "--json", "--csv")
    assert (result.returncode, result.stdout) == (2, "")
    assert "--json and --csv" in result.stderr


def test_same_input_same_bytes(job):
    """Sets and dictionaries keep another order in each process: the output does not show it."""
    path, folder = job(FEW + BETWEEN), Path(running.__file__).parent
    code = (
        f"import sys; sys.path.insert(0, {str(folder)!r}); from running import run\n"
        "for option in ([], ['--json'], ['--csv'], ['--steps']):\n"
        f"    print(run('check', {str(path)!r}, *option).stdout)"
    )
    seeds = [
        subprocess.run(
            [sys.executable, "-c", code],
            env=os.environ | {"PYTHONHASHSEED": seed, "PYTHONIOENCODING": "utf-8"},
            stdout=subprocess.PIPE,
            check=True,
        ).stdout
        for seed in ("1", "2", "3")
    ]
    assert len(seeds[0].splitlines()) > 200
    assert len(set(seeds)) == 1


def test_the_folder_and_the_name_of_the_file_do_not_matter(run, job, tmp_path):
    first = run("check", job(), "--json").stdout
    (tmp_path / "far").mkdir()
    assert run("check", job(name="far/other.toml"), "--json").stdout == first


def test_steps_add_the_arithmetic_and_change_nothing_else(run, job):
    path = job()
    plain, steps = (run("check", path, *o).stdout.splitlines() for o in (["--all"], ["--steps"]))
    end = len(verdict_at_the_end(plain)) + 1
    assert steps[: len(plain) - end] == plain[:-end]
    assert steps[-end:] == plain[-end:]
    assert "Loads on one outrigger, unfactored" in steps


# new


def test_new_writes_what_check_asks_for(run, tmp_path):
    result = run("new", "job.toml", folder=tmp_path)
    assert (result.returncode, result.stderr) == (0, "")
    assert "outrigger check job.toml" in unfolded(result.stdout)
    assert [p.name for p in tmp_path.iterdir()] == ["job.toml"]
    check = run("check", "--all", "job.toml", folder=tmp_path)
    assert (check.returncode, check.stdout) == (2, "")
    text = (tmp_path / "job.toml").read_text(encoding="utf-8")
    assert text.count("#") > 20  # commented


def test_new_is_never_over_a_file(run, tmp_path):
    (tmp_path / "job.toml").write_text("kept", encoding="utf-8")
    result = run("new", "job.toml", folder=tmp_path)
    assert (result.returncode, result.stdout) == (2, "")
    assert "is there already" in unfolded(result.stderr)
    assert (tmp_path / "job.toml").read_text(encoding="utf-8") == "kept"
    assert [p.name for p in tmp_path.iterdir()] == ["job.toml"]


@pytest.mark.parametrize("name", ["no/job.toml", "a.toml/job.toml"])
def test_new_in_a_missing_folder(run, tmp_path, name):
    (tmp_path / "a.toml").write_text("a file", encoding="utf-8")
    result = run("new", name, folder=tmp_path)
    assert (result.returncode, result.stdout) == (2, "")
    assert "no such folder" in unfolded(result.stderr)
    assert [p.name for p in tmp_path.iterdir()] == ["a.toml"]


def test_new_over_a_folder(run, tmp_path):
    result = run("new", tmp_path)
    assert (result.returncode, result.stdout) == (2, "")
    assert "is there already, and is not written over" in unfolded(result.stderr)
    assert list(tmp_path.iterdir()) == []


def test_new_without_a_name(run, tmp_path):
    result = run("new", folder=tmp_path)
    assert (result.returncode, result.stdout) == (2, "")
    assert "outrigger new job.toml" in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_new_schema(run, tmp_path):
    result = run("new", "--schema", folder=tmp_path)
    assert (result.returncode, result.stderr) == (0, "")
    assert strict(result.stdout)["type"] == "object"
    assert list(tmp_path.iterdir()) == []


# A case file in the folder


def test_the_only_case_file_is_offered(run, job):
    """On stderr, by name; the sample runs all the same."""
    folder = job(name="orchard.toml").parent
    result = run("check", "--all", folder=folder)
    assert "outrigger check orchard.toml" in unfolded(result.stderr)
    assert result.stdout.startswith(SAID)
    assert "orchard" not in result.stdout
    data = run("check", "--json", folder=folder)
    assert "outrigger check orchard.toml" in unfolded(data.stderr)
    assert strict(data.stdout)["sample"] is True


def test_nothing_is_offered_of_two_or_of_none(run, job, tmp_path):
    (tmp_path / "notes.toml").write_text('title = "no case"\n', encoding="utf-8")
    assert run("check", folder=tmp_path).stderr == ""
    job(name="a.toml")
    assert "a.toml" in run("check", folder=tmp_path).stderr
    job(name="b.toml")
    assert run("check", folder=tmp_path).stderr == ""


def test_a_named_case_offers_nothing(run, job):
    assert run("check", job(name="a.toml")).stderr == ""


@pytest.mark.parametrize("what", ["a folder", "a link to nowhere"])
def test_what_is_named_like_a_case_file_and_is_none(run, tmp_path, what):
    odd = tmp_path / "odd.toml"
    odd.mkdir() if what == "a folder" else odd.symlink_to("nowhere")
    result = run("check", "--all", folder=tmp_path)
    assert (result.returncode, result.stderr) == (0, "")
    assert result.stdout.startswith(SAID)


def test_a_case_file_in_utf_16_is_offered(run, tmp_path):
    (tmp_path / "job.toml").write_bytes(SAMPLE.encode("utf-16"))
    assert "job.toml" in run("check", folder=tmp_path).stderr


def test_a_name_that_is_too_long(run, tmp_path):
    result = run("check", "a" * 300, folder=tmp_path)
    assert (result.returncode, result.stdout) == (2, "")
    assert result.stderr.endswith("cannot be read: File name too long.\n")


def test_a_load_beyond_all_measure(run):
    """A slip of the keyboard: a load of 300 digits is a fault, in words."""
    result = run("check", f"garage_roof.dead={'9' * 300} psf")
    assert (result.returncode, result.stdout) == (2, "")
    said = unfolded(result.stderr)
    assert "1 fault" in said and 'garage_roof.dead = "999' in said
    assert said.endswith('psf": too long for a pressure. Write it as "15 psf".')


# The screen


# Three headings are not folded: see the test below this one.
HEADINGS = (
    "Loads on one outrigger, unfactored",
    "Not given, so not a pass. Add the line, or ask:",
    "In the file but not computed, so not a pass:",
)


@pytest.mark.parametrize("width", [30, 40, 60, 80, 120])
@pytest.mark.parametrize("steps", [False, True])
@pytest.mark.parametrize("name", CASES)
def test_no_line_is_wider_than_the_screen(name, width, steps):
    page = screen.page(designed(name), width, steps=steps)
    wide = [line for line in page.splitlines() if len(line) > width]
    assert [line for line in wide if line not in HEADINGS] == []


@pytest.mark.parametrize("width", [30, 40])
def test_no_heading_is_wider_than_the_screen(width):
    page = screen.page(designed("every key"), width, steps=True)
    assert [line for line in page.splitlines() if len(line) > width] == []


@pytest.mark.parametrize("width", [40, 80, 200])
def test_the_screen_is_as_wide_as_it_says(ran, width):
    """COLUMNS decides; a wide screen is used."""
    lines = ran("pass", width=width).stdout.splitlines()
    assert "\n".join(lines) == screen.page(designed("pass"), width)
    assert width - 40 < max(map(len, lines)) <= width


@pytest.mark.parametrize("width", [30, 40, 80])
def test_no_line_of_a_message_is_wider_than_the_screen(run, job, width):
    text = set_to(SAMPLE, gap__width="6", outrigger__size='"2x7"', outrigger__species='"fir"')
    result = run("check", "--all", job(text), width=width, folder=job().parent)
    assert [line for line in result.stderr.splitlines() if len(line) > width] == []


@pytest.mark.parametrize("name", CASES)
def test_a_narrow_screen_loses_nothing(name):
    """Law: each number with its unit stands on 30 columns as on 200, in the table and below."""
    narrow, wide = (unfolded(screen.page(designed(name), width)) for width in (30, 200))
    numbers = re.compile(r"\d[\d,.]* (?:psi|lb|in|plf)\b")
    assert set(numbers.findall(wide)) == set(numbers.findall(narrow))
    used = re.compile(r"(?<![\d.])\d\.\d\d(?![\d.])")
    assert set(used.findall(wide)) <= set(used.findall(narrow)) | {"1.00"}


INKS = [{"NO_COLOR": "1"}, {"FORCE_COLOR": "1"}]


@pytest.mark.parametrize(("options", "variables"), in_turn(["--all", "--steps", "--json"], INKS))
def test_one_ink(run, job, variables, options):
    """No escape codes, wherever it is printed; NO_COLOR changes nothing."""
    path = job(CASES["fails"])
    result, plain = run("check", path, options, **variables), run("check", path, options)
    assert "\x1b" not in result.stdout + result.stderr + plain.stdout
    assert result.stdout == plain.stdout


@pytest.mark.parametrize("variables", INKS)
def test_one_ink_of_a_process(job, process, variables):
    """What a library reads of the environment while it loads, too."""
    result = process("check", job(CASES["fails"]), **variables)
    assert "\x1b" not in result.stdout + result.stderr
    assert "\x1b" not in process("check", "--help", **variables).stdout


@pytest.mark.parametrize("name", ["red \\u001b[31m", "bell \\u0007", "two\\nlines"])
def test_control_characters_of_a_name_are_not_sent_to_the_screen(name):
    """An escape code out of the file's own text is no ink of ours; a name is one line."""
    case = case_of(set_to(SAMPLE, project__name=f'"{name}"'))
    lines = screen.page(design(case), 80).splitlines()
    assert all(line.isprintable() for line in lines)
    assert "case " in lines[0]


def test_a_long_revision():
    case = case_of(set_to(SAMPLE, project__revision=f'"{"B for the plan check " * 5}"'))
    page = screen.page(design(case), 80)
    assert [line for line in page.splitlines() if len(line) > 80] == []


def test_help_without_colour(run):
    for variables in ({"NO_COLOR": "1"}, {}):
        result = run("check", "--help", **variables)
        assert "\x1b" not in result.stdout
        assert (
            result.stdout.rstrip().splitlines()[-1].strip().startswith("Example: outrigger check")
        )


@pytest.mark.parametrize("steps", [False, True])
@pytest.mark.parametrize("name", CASES)
def test_words_that_are_not_ours(name, steps):
    """Words and forms that recall other programs of the trade are not used."""
    page = unfolded(screen.page(designed(name), 80, steps=steps))
    for phrase in ("pass, capacity exceeds", "capacity exceeds demand", "2L/", "@ "):
        assert phrase not in page
    for phrase in ("member report", "job summary"):
        assert phrase not in page.lower()
    assert re.search(r"(?i)pass\w*[ ,:(]*\d+ ?%", page) is None


@pytest.mark.parametrize("name", CASES)
def test_every_page_says_what_is_not_checked(name):
    result = designed(name)
    page = unfolded(screen.page(result, 80))
    edge = result.case.house_edge
    on_wall = result.case.house_roof.edge_support == "wall"
    first = "the plate and studs of the house wall right under the outriggers; "
    first = first if on_wall else "the member right under the outriggers at the house wall"
    first = "" if edge is not None and (edge.stud or not on_wall) else first
    for phrase in (
        "Not a sealed document", "a licensed engineer must verify", "local codes govern",
        f"Not checked: {first}",
        "" if result.case.house_rafter else "the house rafters, plates, walls and foundation",
        "fire separation", "corrosion", "settlement between the buildings",
    ):  # fmt: skip
        assert phrase in page


def test_words_without_ratio_are_said(run, job):
    """What fails by a rule, or is open, has its reason and what to add on the page."""
    page = unfolded(run("check", "--all", job(CASES["no edge tie"])).stdout)
    assert 'add [[hold_down]] with at = "edge"' in page
    page = unfolded(run("check", "--all", job(SMALLEST)).stdout)
    for key in ("snow.ground", "wind.uplift", "hold_down", "house_roof.edge_support"):
        assert f"{key}: " in page
    assert "Ask: framer on site." in page
    assert "add [snow] ground = " in page


def test_an_ascii_terminal(process, job):
    """A terminal that has no prime and no multiplication sign: no traceback."""
    result = process("check", job(), "--steps", PYTHONIOENCODING="ascii:replace", PYTHONUTF8="0")
    assert result.returncode == 0
    assert result.stdout.isascii() and ENGINEERS_LINE in result.stdout


# Pipes


def piped(*arguments, read):
    """A command whose reader takes some lines and goes."""
    process = subprocess.Popen(
        [sys.executable, "-m", "outrigger", *map(str, arguments)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env=os.environ | {"PYTHONIOENCODING": "utf-8"},
        text=True,
    )
    for _ in range(read):
        process.stdout.readline()
    process.stdout.close()
    errors = process.stderr.read()
    process.stderr.close()
    return process.wait(timeout=60), errors


@pytest.mark.parametrize(
    ("options", "read"), in_turn([[], ["--steps"], ["--json"], ["--csv"]], [0, 1])
)
def test_the_reader_of_a_pipe_goes_early(job, options, read):
    errors = piped("check", job(), *options, read=read)[1]
    beside = "A licensed engineer must verify and adopt." if options == ["--csv"] else ""
    assert errors[: len(beside) or None] == beside
    assert "Error" not in errors and "Broken" not in errors


def test_a_pipe_closed_early_is_no_fail(job):
    """The case passes; 1 is kept for a check that fails."""
    assert piped("check", job(), read=0)[0] != 1
