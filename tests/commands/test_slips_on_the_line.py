"""What people type wrong on the command line: each is told in words that lead to the mended words.

The rows stand in slips_on_the_line.toml; the file is the good one of cases/slips_in_the_file.toml.
"""

import shlex
import tomllib
from pathlib import Path

import pytest

HERE = Path(__file__)
TABLE = tomllib.loads(HERE.with_name("slips_on_the_line.toml").read_text(encoding="utf-8"))
IN_A_FILE = HERE.parents[1] / "cases" / "slips_in_the_file.toml"
GOOD = tomllib.loads(IN_A_FILE.read_text(encoding="utf-8"))["good"]
SLIPS, READ = TABLE["slip"], TABLE["read"]
DONE = {}  # what the mended words gave: many slips are of the same ones


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "job.toml").write_text(GOOD, encoding="utf-8")
    (tmp_path / "letter.docx").write_bytes(b"PK\x03\x04\x14\x00\x06\x00" + bytes(range(256)))
    (tmp_path / "folder").mkdir()
    return tmp_path


def unfolded(text):
    return " ".join(text.split())


def test_there_are_enough_of_them():
    assert len(SLIPS) >= 36
    assert len({row["typed"] for row in [*SLIPS, *READ]}) == len(SLIPS) + len(READ)


@pytest.mark.parametrize("row", SLIPS, ids=lambda row: row["typed"])
def test_a_slip_is_told_with_its_mend(run, folder, row):
    """Exit status 2, nothing on stdout, the key phrases; each of the mended words stands in the
    message or was typed, and they run."""
    done = run(*shlex.split(row["typed"]), folder=folder)
    assert (done.returncode, done.stdout) == (2, "")
    said = unfolded(done.stderr)
    assert "Traceback" not in said
    for phrase in row["said"]:
        assert phrase in said
    mended = shlex.split(row["mended"])
    if not row.get("own"):
        typed = shlex.split(row["typed"])
        assert [word for word in mended if word not in said and word not in typed] == []
    again = DONE.get(row["mended"]) or run(*mended, folder=folder)
    DONE[row["mended"]] = again
    assert again.returncode in (0, 1, 3), again.stderr
    assert row["shows"] in unfolded(again.stdout)


@pytest.mark.parametrize("row", READ, ids=lambda row: row["typed"])
def test_what_is_read_as_it_was_meant(run, folder, row):
    done = run(*shlex.split(row["typed"]), folder=folder)
    assert done.returncode in (0, 1, 3), done.stderr
    assert row["shows"] in unfolded(done.stdout)
