"""The command line: `outrigger lumber`, run as a user runs it."""

import json

import pytest

from outrigger import __version__
from outrigger.base.tables import STATUSES

VALUES = ("Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "G")


def test_a_species(run):
    """NDS Supplement 2018, Table 4A (transcribed): SPF No. 1/No. 2 as printed, on one line."""
    result = run("lumber", "SPF")
    assert (result.returncode, result.stderr) == (0, "")
    assert result.stdout.startswith("SPF is read as Spruce-Pine-Fir\n")
    (row,) = [line for line in result.stdout.splitlines() if line.startswith("No. 1/No. 2")]
    assert " ".join(row.split()[-8:]) == "875 450 135 425 1150 1400000 510000 0.42"


def test_all_species(run):
    result = run("lumber")
    assert (result.returncode, result.stderr) == (0, "")
    for name in ("Spruce-Pine-Fir (South)", "SPFs, S-P-F-s", "Redwood"):
        assert name in result.stdout


def test_one_grade(run):
    result = run("lumber", "SPF", "2&BTR")
    assert result.returncode == 0
    heading = " ".join(result.stdout.split("\n\n")[0].split())
    assert "2&BTR is designed as No. 2" in heading
    assert "prints No. 2 in its row No. 1/No. 2" in heading
    assert "Select Structural" not in result.stdout


def test_values_from_memory_are_marked(run):
    """A value that nobody read has a star, and the star is explained."""
    result = run("lumber", "SPF", "1350f-1.3E")
    assert "1350*" in result.stdout
    assert "660000+" in result.stdout
    assert "* unverified" in result.stdout
    assert "+ derived" in result.stdout
    assert "unverified" not in run("lumber", "SPF", "#3").stdout


@pytest.mark.parametrize(
    ("text", "candidates"),
    [
        ("pine", ["Eastern White Pine", "Southern Pine, stamped SYP", "Spruce-Pine-Fir (South)"]),
        ("#2 fir", ["Douglas Fir-Larch, stamped DF-L", "Hem-Fir, stamped HF"]),
        ("SPF south", ["Spruce-Pine-Fir (South), stamped SPFs", "Spruce-Pine-Fir, stamped SPF"]),
        ("", ["Alaska Cedar", "Yellow Poplar"]),
    ],
)
@pytest.mark.parametrize("options", [(), ("--json",)])
def test_a_vague_species(run, text, candidates, options):
    """Exit status 2, the candidates on stderr, nothing on stdout."""
    result = run("lumber", text, *options)
    assert (result.returncode, result.stdout) == (2, "")
    assert result.stderr.startswith(f'outrigger: species = "{text}": not an exact name')
    lines = [line.strip() for line in result.stderr.splitlines()]
    for candidate in candidates:
        assert any(line.startswith(candidate) for line in lines)


def test_a_grade_that_does_not_exist(run):
    result = run("lumber", "SPF", "good")
    assert (result.returncode, result.stdout) == (2, "")
    assert 'grade = "good": not a grade on file of Spruce-Pine-Fir' in result.stderr
    assert "Select Structural" in result.stderr


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (("timber",), "No such command 'timber'"),
        (("lumber", "--inches"), "No such option: --inches"),
        (("lumber", "a", "b", "c"), "unexpected extra argument(s) (c)"),
    ],
)
def test_wrong_words(run, wrong, said):
    result = run(*wrong)
    assert (result.returncode, result.stdout) == (2, "")
    assert said in result.stderr


def test_json_of_a_grade(run):
    """Rows with value, unit and status of each property, ready for a program."""
    result = run("lumber", "SPF", "#2", "--json", width=40)
    assert result.returncode == 0
    assert result.stderr.startswith("A licensed engineer must verify and\n")
    rows = json.loads(result.stdout)
    first = rows[0]
    assert tuple(first)[:11] == ("species", "grade", "size_class", *VALUES)
    assert set(first) - set(VALUES) - {"species", "grade", "size_class"} == {
        "source",
        "agency",
        "note",
    }
    for row in rows:
        assert row["species"] == "Spruce-Pine-Fir"
        for name in VALUES:
            assert set(row[name]) == {"value", "unit", "status"}
            assert row[name]["unit"] == ("" if name == "G" else "psi")
            assert row[name]["status"] in STATUSES
    assert (first["grade"], first["size_class"]) == ("No. 1/No. 2", "2 in & wider")
    # Table 4A, transcribed twice, no author on file
    assert first["Fb"] == {"value": 875, "unit": "psi", "status": "SECOND-HAND"}
    assert first["source"] == "NDS Supplement 2018, Table 4A"


def test_json_of_the_species(run):
    rows = json.loads(run("lumber", "--json").stdout)
    assert {"species": "Southern Pine", "stamps": "SYP", "tables": "4B 4C 4D"} in rows
    assert all(set(row) == {"species", "stamps", "tables"} for row in rows)


@pytest.mark.parametrize("width", [40, 80])
@pytest.mark.parametrize(
    "arguments",
    [
        (),
        ("SPF",),
        ("SYP",),
        ("Mixed Southern Pine",),
        ("DF-L",),
        ("Hem-Fir",),
        ("Spruce-Pine-Fir (South)",),
        ("SPF", "2&BTR"),
        ("SYP", "1650f-1.5E"),
    ],
)
def test_no_line_is_wider_than_the_screen(run, width, arguments):
    result = run("lumber", *arguments, width=width)
    assert result.returncode == 0
    assert [line for line in result.stdout.splitlines() if len(line) > width] == []


@pytest.mark.parametrize("arguments", [("pine",), ("SPF", "good")])
def test_no_line_of_a_message_is_wider_than_the_screen(run, arguments):
    result = run("lumber", *arguments)
    assert [line for line in result.stderr.splitlines() if len(line) > 80] == []


def test_a_narrow_screen_loses_nothing(run):
    """Law: on 40 columns the same numbers stand as on 80."""
    wide, narrow = (run("lumber", "SYP", "#2", width=width).stdout for width in (80, 40))
    assert narrow.count("1400000") == wide.count("1400000") > 0
    assert "Fb 1100" in narrow  # 2-4 in wide, Table 4B (transcribed)


@pytest.mark.parametrize("command", [("--help",), ("lumber", "--help"), ("new", "-h")])
@pytest.mark.parametrize("width", [40, 80])
def test_help_ends_in_an_example(run, command, width):
    result = run(*command, width=width)
    assert (result.returncode, result.stderr) == (0, "")
    last = result.stdout.rstrip().splitlines()[-1].strip()
    assert last.startswith(f"Example: outrigger {'lumber' if 'lumber' in command else 'new'}")


def test_no_words_shows_the_help(run):
    result = run()
    assert result.returncode == 2
    assert "Example: outrigger new job.toml" in result.stdout + result.stderr


def test_examples_of_the_help_run(run):
    """Each example in a help text is a command that works."""
    for arguments in (("lumber", "SPF"), ("lumber", "SPF", "#2")):
        result = run(*arguments)
        assert (result.returncode, result.stderr) == (0, "")
        assert "No. 1/No. 2" in result.stdout


def test_version(run):
    result = run("--version")
    assert (result.returncode, result.stdout) == (0, f"outrigger {__version__}\n")


def test_help_asked_for_in_every_way(run):
    """-h, --help, help; of a command, and of the program: whole sentences, `new` before `check`."""
    whole = run("--help").stdout
    assert run("-h").stdout == run("help").stdout == whole
    assert run("check", "-h").stdout == run("help", "check").stdout == run("check", "--help").stdout
    listed = whole.partition("Commands:\n")[2].partition("\n\n")[0].splitlines()
    assert [line.split()[0] for line in listed[:2]] == ["new", "check"]
    assert all(line.endswith((".", "?")) and not line.endswith("...") for line in listed)


def test_a_case_file_alone_is_checked(run, tmp_path):
    path = tmp_path / "job.toml"
    assert run("new", path, "--sample").returncode == 0
    for more in ((), ("gap=7in",), ("--brief",)):
        assert run(path, *more) == run("check", path, *more)
