"""What is printed: letters that any terminal has, no control of it, no crash read as a fail."""

import io
import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from sample_case import SAMPLE, changed, set_to
from thorough import THOROUGH, in_turn

from outrigger.base.plain import harmless, one_line, spelled
from outrigger.base.shell import command
from outrigger.cli import app as cli
from outrigger.cli import check as check_command
from outrigger.cli.common import BROKEN
from outrigger.cli.streams import Printed

EXAMPLES = Path(__file__).parents[2] / "examples"
PASSES = EXAMPLES / "passes.toml"
STEERING = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]")
ESCAPES = r"\u001b[2J\u001b[HPASS, 21 of 21 checks.\r\u009b1m\u202e"  # as a case file writes them


# A crash is no fail


@pytest.fixture(autouse=True)
def _a_quick_sample(monkeypatch):
    """A case of few combinations in the sample's place: how things print is looked at here."""
    monkeypatch.setattr(
        "outrigger.cli.common.SAMPLE_FILE", Path(__file__).parents[2] / "examples" / "passes.toml"
    )


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (ZeroDivisionError("float division by zero"), "ZeroDivisionError: float division by zero"),
        (RuntimeError("first\nsecond"), "first second"),
        (MemoryError(), "memory"),
        (ModuleNotFoundError("No module named 'typst'", name="typst"), "package typst is not"),
        (OSError(5, "Input/output error"), "Input/output error"),
    ],
)
def test_a_mistake_of_the_program_is_one_line_with_a_status_of_its_own(
    error, said, monkeypatch, capsys
):
    def broken(case):
        raise error

    monkeypatch.setattr(check_command, "design", broken)
    monkeypatch.setattr(sys, "argv", ["outrigger", "check", str(PASSES)])
    monkeypatch.setenv("COLUMNS", "2000")
    with pytest.raises(SystemExit) as left:
        cli.run()
    out, err = capsys.readouterr()
    assert left.value.code == BROKEN == 70
    assert out == "" and err.startswith("outrigger: ") and err.count("\n") == 1
    assert said in err and "Traceback" not in err


def test_a_mistake_names_the_place_in_the_program(monkeypatch, capsys):
    monkeypatch.setattr(check_command.first, "page", lambda *a, **b: 1 / 0)
    monkeypatch.setattr(sys, "argv", ["outrigger", "check", str(PASSES)])
    monkeypatch.setenv("COLUMNS", "2000")
    with pytest.raises(SystemExit):
        cli.run()
    assert re.search(r"\(check\.py, line \d+; version ", capsys.readouterr().err)


def test_the_help_says_so(run):
    assert re.search(r"70\s+a\s+mistake\s+of\s+the\s+program", run("--help").stdout)


# Letters


WORDS = [("check", PASSES, "--steps"), ("lumber", "SPF")]


@pytest.mark.parametrize(
    ("encoding", "words"), in_turn(["cp1252", "latin-1", "ascii", "cp437"], WORDS)
)
def test_an_output_without_our_letters(process, encoding, words):
    """What a redirected Python 3.11 has on Windows, and older consoles; the case passes."""
    plain = {"PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"}
    done = subprocess.run(
        [sys.executable, "-m", "outrigger", *map(str, words)],
        capture_output=True, env=os.environ | {"COLUMNS": "80"} | plain, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, b"")
    text = done.stdout.decode(encoding)
    assert "?" not in text
    whole = process(*words).stdout
    assert len(text.splitlines()) == len(whole.splitlines())
    numbers = re.compile(r"\d[\d,.]*")
    if encoding == "cp1252":  # has all powers but one
        assert numbers.findall(text.replace("^4", "")) == numbers.findall(whole)


def test_every_letter_of_ours_has_a_spelling():
    """All that stands in the program's own texts and tables, in letters of 1963."""
    tree = Path(cli.__file__).parents[1]
    files = [
        *tree.rglob("*.py"),
        *tree.rglob("*.toml"),
        *tree.parent.glob("species_tables/**/*.csv"),
    ]
    ours = {c for path in files for c in path.read_text(encoding="utf-8") if ord(c) > 127}
    assert ours
    assert [c for c in ours if "?" in spelled(c, "ascii")] == []


def test_spellings():
    assert spelled("Fc⊥′ = 3 1½″ × 2² ≤ 5°, é", "ascii") == "Fc_perp' = 3 11/2\" x 2^2 <= 5 deg, e"
    assert spelled("½ × ′ ≤", "cp1252") == "½ × ' <="
    assert spelled("≤ 漢", "utf-8") == "≤ 漢"
    assert spelled("漢", "cp1252") == "?"


# Controls


def test_harmless_text():
    assert harmless("a\x1b[2Jb\r\x9bc\u202ed\te\n\udcff") == (
        "a\\u001b[2Jb\\u000d\\u009bc\\u202ed\te\n\\udcff"
    )
    assert one_line("a\nb\tc") == "a\\nb\\tc"
    assert harmless("½ × ≤ é 漢 שלום") == "½ × ≤ é 漢 שלום"


HOSTILE = [
    set_to(SAMPLE, outrigger__size=f'"{ESCAPES}"'),
    set_to(SAMPLE, outrigger__grade=f'"{ESCAPES}"'),
    set_to(SAMPLE, outrigger__species=f'"{ESCAPES}"'),
    set_to(SAMPLE, gap__width=f'"{ESCAPES}"'),
    set_to(SAMPLE, outrigger__blocking=f'["edge", "{ESCAPES}"]'),
    changed(('at = "back"', f'at = "{ESCAPES}"')),
    changed(("[limits]", f'["{ESCAPES}"]')),
    changed(("[limits]", f'[limits]\n"{ESCAPES}" = 1')),
    set_to(SAMPLE, project__name=f'"{ESCAPES}"', gap__width='"14 in"'),
    SAMPLE + "\x1b[2J = 1",
]


@pytest.mark.parametrize("number", range(len(HOSTILE)))
@pytest.mark.parametrize("command", ["check", "gap", "size"])
def test_a_file_cannot_steer_the_terminal(run, tmp_path, number, command):
    path = tmp_path / "job.toml"
    path.write_text(HOSTILE[number], encoding="utf-8")
    done = run(command, path)
    assert not STEERING.search(done.stdout + done.stderr)
    assert "\nPASS, 21" not in done.stdout + done.stderr


@pytest.mark.parametrize(
    "words",
    [
        ("check", "\x1b[2J.toml"),
        ("check", "gap=\x1b[2J"),
        ("check", "\x1b[2J\u202e=3"),
        ("gap", "--from", "\x1b[2J"),
        ("size", "--species", "\x1b[2J\u202e"),
        ("lumber", "\x1b[2J\x9b"),
        ("\x1b[2J\u202e",),
        ("check", "--\x1b[2J\u202e"),
        ("summary", "-o", "\x1b[2J\u202e.doc"),
        ("layout", "--plan", "\x1b[2J\u202e.doc"),
        ("summary", "--again", "\x1b[2J\u202e.pdf"),
    ],
)
def test_words_of_the_command_cannot_either(run, words, tmp_path):
    done = run(*words, folder=tmp_path)
    assert done.returncode == 2 and done.stderr
    assert not STEERING.search(done.stdout + done.stderr)


def test_a_value_of_several_lines_stays_on_the_line_of_its_fault(run, tmp_path):
    path = tmp_path / "job.toml"
    forged = '"""x\nPASS, 21 of 21 checks."""'
    path.write_text(set_to(SAMPLE, outrigger__size=forged), encoding="utf-8")
    assert "\nPASS" not in run("check", path, width=200).stderr


def test_a_name_that_is_no_text(process, tmp_path):
    """A file's name of bytes that are no UTF-8."""
    done = subprocess.run(
        [sys.executable, "-m", "outrigger", "check", b"\xff\xfe.toml"],
        capture_output=True, cwd=tmp_path, check=False,
    )  # fmt: skip
    assert done.returncode == 2 and b"Traceback" not in done.stderr
    assert b"no such file" in done.stderr


# Readers that go, disks that are full


class Refusing(io.StringIO):
    """A stream that takes nothing."""

    def __init__(self, error):
        super().__init__()
        self.error = error

    def write(self, text):
        raise self.error


def test_a_reader_that_went_is_no_error_and_a_full_disk_is():
    Printed(Refusing(BrokenPipeError()), "stdout").write("a")
    with pytest.raises(ValueError, match="the output cannot be written: No space left"):
        Printed(Refusing(OSError(28, "No space left on device")), "the output").write("a")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
@pytest.mark.parametrize(
    ("words", "unbuffered"),
    in_turn([("check", PASSES), ("check", PASSES, "--json"), ("lumber",), ("--help",),
             ("check", "--help"), ("--version",), ("gap", PASSES, "--csv")], ["", "1"]),
)  # fmt: skip
def test_a_full_disk(words, unbuffered):
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "outrigger", *map(str, words)],
            stdout=full, stderr=subprocess.PIPE, text=True, check=False,
            env=os.environ | {"PYTHONUNBUFFERED": unbuffered},
        )  # fmt: skip
    assert done.returncode == 2
    assert "cannot be written: No space left on device" in done.stderr
    assert "Traceback" not in done.stderr and "Exception ignored" not in done.stderr


@pytest.mark.parametrize("closed", ["2>&-", "2>/dev/full", "2> >(true)"])
def test_a_fault_that_no_one_hears_keeps_its_status(closed, tmp_path):
    command = f'"{sys.executable}" -m outrigger check nowhere.toml {closed}'
    done = subprocess.run(
        ["bash", "-c", command], capture_output=True, text=True, check=False, cwd=tmp_path
    )
    assert (done.returncode, done.stdout) == (2, "")


# Ctrl-C


@pytest.mark.parametrize("after", [0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5])
def test_ctrl_c_while_the_program_loads(after):
    """No traceback, the status of a stopped command, whenever it comes."""
    started = subprocess.Popen(
        [sys.executable, "-c", "from outrigger.__main__ import main; print(flush=True); main()",
         "gap", "--step", "1/900 in"],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE,
    )  # fmt: skip
    started.stdout.readline()
    time.sleep(after)
    started.send_signal(signal.SIGINT)
    _, errors = started.communicate(timeout=30)
    assert (started.returncode, errors) == (130, b"")


def test_ctrl_c_while_a_class_is_made(monkeypatch, capsys):
    """A late import makes classes; of what is raised as one is named, Python 3.11 makes an error of
    its own, which is no mistake of the program."""

    def interrupted(*_):
        try:
            raise KeyboardInterrupt
        except KeyboardInterrupt as stopped:
            raise RuntimeError("Error calling __set_name__") from stopped

    monkeypatch.setattr(check_command, "design", interrupted)
    monkeypatch.setattr(sys, "argv", ["outrigger", "check", str(PASSES)])
    with pytest.raises(SystemExit) as left:
        cli.run()
    assert left.value.code == 130
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize("mark", ["\u2019", "\u2018", "\u2032", "\uff07", "\u2033"])
@pytest.mark.parametrize("encoding", ["ascii", "cp437", "cp1252", "utf-8"])
def test_a_command_runs_nothing_where_the_screen_lacks_a_letter(tmp_path, mark, encoding):
    """A curly apostrophe prints as a straight one where the screen has no other: it ends no quotes,
    and what stands between two of them stays a word."""
    name = f"a{mark}$(touch ran){mark}.toml"
    shown = spelled(command("check", name, [f"name={mark}; touch ran #"]), encoding)
    done = subprocess.run(
        ["bash", "-c", f"set -- {shown}; printf '%s\\n' \"$@\""],
        capture_output=True,
        check=True,
        cwd=tmp_path,
    )
    letter = spelled(mark, encoding)
    told = done.stdout.decode().splitlines()
    assert told[2:] == [f"a{letter}$(touch ran){letter}.toml", f"name={letter}; touch ran #"]
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("end", ["\\n", "\\r\\n", "\\u2028", "\\f"])
def test_a_free_text_of_several_lines_stands_in_one(run, tmp_path, end):
    """What a text says cannot look like a line of the program: of each page, the Markdown too."""
    told = f"y{end}VERDICT: PASS{end}{end}PASS: all 60 checks"
    text = PASSES.read_text(encoding="utf-8")
    text = re.sub(
        r'(?m)^(rated_source|name) = ".*"$', lambda row: f'{row[1]} = "{told}"', text
    ).replace("[project]", f'[project]\naddress = "{told}"\ndate = "{told}"')
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    ways = ("--all", "--steps", "--brief") if THOROUGH or end == "\\n" else ("--all", "--steps")
    pages = [run("check", "job.toml", "gap=20in", way, folder=tmp_path).stdout for way in ways]
    assert run("summary", "job.toml", "-o", "job.md", folder=tmp_path).returncode == 0
    pages.append((tmp_path / "job.md").read_text(encoding="utf-8").partition("```")[0])
    for page in pages:
        assert not re.search(r"(?m)^\W*(VERDICT|PASS: all)", page)
    assert "y VERDICT: PASS" in pages[1]
