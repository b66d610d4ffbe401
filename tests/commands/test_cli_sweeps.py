"""size, reserve and card as commands: words, widths, exit status, files, a wait, Ctrl-C."""

import csv
import io
import json
import os
import pty
import re
import select
import shlex
import signal
import subprocess
import sys
from pathlib import Path

import pytest

SWEEPS = [["size"], ["reserve"], ["reserve", "--mishaps"], ["card"], ["card", "--back-span"]]
ROOT = Path(__file__).parents[2]
ENGINEER = "Not permission to build: the engineer of record decides."


@pytest.fixture(autouse=True)
def _a_quick_sample(monkeypatch):
    """A case of few combinations in the sample's place: how a sweep prints is looked at here."""
    monkeypatch.setattr("outrigger.cli.common.SAMPLE_FILE", ROOT / "examples" / "passes.toml")


@pytest.mark.parametrize("columns", [80, 40, 30])
@pytest.mark.parametrize("words", SWEEPS, ids=" ".join)
def test_reads_well_at_each_width(run, words, columns):
    """No line over the terminal but a command, which is there to be copied whole."""
    done = run(*words, width=columns)
    assert (done.returncode, done.stderr) == (0, "")
    lines = done.stdout.splitlines()
    assert lines[0] == lines[-1] == "SAMPLE, not your job"
    assert " ".join(" ".join(lines[-4:-1]).split()).endswith(ENGINEER)
    for line in lines:
        assert len(line) <= columns or line.startswith("    outrigger check"), line
    assert "  \n" not in done.stdout
    assert "\x1b" not in done.stdout


@pytest.mark.parametrize("words", SWEEPS, ids=" ".join)
def test_rows_as_json_and_the_sample_said_aside(run, words):
    done = run(*words, "--json")
    assert done.stderr == "SAMPLE, not your job\n"
    rows = json.loads(done.stdout)
    assert isinstance(rows, list)
    assert len(rows) > 4


@pytest.mark.parametrize("words", [["size"], ["reserve"], ["card"]], ids=" ".join)
def test_help_ends_in_an_example(run, words):
    assert re.search(r"Example: outrigger \w+ .*\s*$", run(*words, "--help").stdout)


def test_what_is_open_is_said_in_the_first_lines(run):
    """A sketch that states little: what is missing stands above the rest, and nothing works."""
    for words in (["size"], ["reserve"], ["card"]):
        done = run(*words, ROOT / "examples" / "open_first_sketch.toml")
        first = " ".join(done.stdout.splitlines()[:6])
        assert "SAMPLE: cannot say wh" in first
        assert "13 facts are missing" in first
        assert done.returncode == 3


def test_every_command_of_size_runs_and_works(run):
    done = run("size", "gap=9in", width=120)
    commands = [line.strip() for line in done.stdout.splitlines() if "    outrigger check" in line]
    assert len(commands) > 2
    for command in commands:
        words = shlex.split(command)[1:]
        assert "gap=9in" in words
        assert run(*words).returncode == 0, command


def test_nothing_works_is_exit_status_1(run):
    done = run("size", "snow=300psf")
    assert done.returncode == 1
    assert "SAMPLE: nothing works. Closest:" in done.stdout
    done = run("card", "gap=6in", "hold_down[edge].rated_uplift=1lb", "wind.uplift=80psf",
               "garage_roof.dead=none")  # fmt: skip
    assert done.returncode == 1
    assert re.search(
        r"SAMPLE: 0 of \d+ cells have a gap that works; yours \(>\), .*: none\.",
        " ".join(done.stdout.split()),
    )


def test_a_case_that_fails_is_0_where_one_change_helps(run):
    done = run("reserve", "gap=12in")
    assert done.returncode == 0
    assert "It does not work as stated: bending at the house wall." in done.stdout
    assert "SAMPLE: does not work. The smallest change that works: " in done.stdout


def test_a_mishap_that_turns_the_verdict_is_named(run):
    done = run("reserve", "--mishaps", "clip=150lb")
    assert done.returncode == 0
    assert "TURNS IT: FAILS; back clip pull-out" in done.stdout
    assert "1 of 5 mishaps turn" in done.stdout


def test_bad_input_is_exit_status_2(run):
    done = run("size", "--species", "fir")
    assert done.returncode == 2
    assert 'species = "fir"' in done.stderr
    done = run("card", "--json", "--csv")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "outrigger: --json and --csv: give one of them.\n"


def test_card_as_csv(run):
    done = run("card", "--csv")
    rows = list(csv.DictReader(io.StringIO(done.stdout)))
    assert rows[0]["spacing_in"] == "12.0"
    assert {"largest_gap_in", "stopped_by"} <= set(rows[0])


def test_a_file_is_written_once_and_over_only_when_told(run, tmp_path):
    there = tmp_path / "card.pdf"
    assert run("card", "--pdf", str(there)).returncode == 0
    first = there.read_bytes()
    assert first.startswith(b"%PDF")
    again = run("card", "--pdf", str(there), "gap=9in")
    assert again.returncode == 2
    assert "is there already" in again.stderr
    assert there.read_bytes() == first
    assert run("card", "--pdf", str(there), "--overwrite").returncode == 0
    assert there.read_bytes() == first  # the same card, the same bytes
    assert [p.name for p in tmp_path.iterdir()] == ["card.pdf"]
    missing = run("card", "--pdf", str(tmp_path / "no" / "card.pdf"))
    assert "no such folder" in missing.stderr


# The search made as slow as a wait of hours: each chunk of designs rests a while.
SLOW = """
import signal, sys, time
signal.signal(signal.SIGINT, signal.default_int_handler)  # begun in the background, it is deaf
from outrigger.cli import app as cli
from outrigger.studies import search
own = search.every_mark
def slow(*asked):
    for found in own(*asked):
        print("looking", file=sys.stderr, flush=True)
        for _ in range({rests}):  # short ones: an interrupt just before a sleep does not end it
            time.sleep(0.02)
        yield found
search.every_mark = slow
search.CHUNK = 60_000  # cells: a hundred cases
sys.argv = ["outrigger", *{words!r}]
cli.run()
"""


def test_ctrl_c_leaves_no_partial_file(tmp_path):
    code = SLOW.format(rests=3000, words=["card", "--pdf", "card.pdf"])
    with subprocess.Popen(
        [sys.executable, "-c", code], cwd=tmp_path, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as started:
        assert started.stderr.readline() == b"looking\n"
        started.send_signal(signal.SIGINT)
        out, err = started.communicate(timeout=50)
    assert started.returncode == 130
    assert b"Traceback" not in err
    assert out == b""
    assert not list(tmp_path.iterdir())


def test_a_terminal_that_waits_is_told_how_far_it_is():
    """stderr is a terminal: after a second it hears of designs done, and the line is wiped."""
    main, end = pty.openpty()
    code = SLOW.format(rests=2, words=["card"])
    started = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.DEVNULL, stderr=end)
    os.close(end)
    said = b""
    while select.select([main], [], [], 60)[0]:
        try:
            more = os.read(main, 4096)
        except OSError:
            break
        if not more:
            break
        said += more
    started.wait(timeout=60)
    os.close(main)
    assert re.search(rb"[\d,]+ of [\d,]+ designs; Ctrl-C stops", said)
    assert said.endswith(b"\r")


def test_a_quick_command_says_nothing_on_stderr(run):
    assert run("card").stderr == ""
