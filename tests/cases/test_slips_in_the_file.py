"""What people type wrong in a case file: each is told in words that lead to the mended line.

The rows stand in slips_in_the_file.toml. What is read was worked out by hand: 4 1/2 ft is 54 in,
15 psf is 15/144 psi.
"""

import tomllib
from pathlib import Path

import pytest

from outrigger.cases.read import read_case

TABLE = tomllib.loads(
    Path(__file__).with_name("slips_in_the_file.toml").read_text(encoding="utf-8")
)
GOOD = TABLE["good"]
SLIPS, READ = TABLE["slip"], TABLE["read"]
STATUS = {}  # of a mended file: many slips are mended to the same one


def put(row, line):
    """The good file with a line in place of the row's good one."""
    lines = GOOD.splitlines()
    places = [i for i, one in enumerate(lines) if one == row["good"]]
    for i in places if row.get("all") else places[:1]:
        lines[i] = line
    assert places
    return "\n".join(lines) + "\n"


def value_at(path, key):
    """What a file states at a path: hold_down.0.count."""
    found = read_case(path)[0]
    for step in key.split("."):
        found = found[int(step)] if step.isdigit() else getattr(found, step)
    return found


def unfolded(text):
    return " ".join(text.split())


def test_there_are_enough_of_them():
    assert len(SLIPS) >= 62
    assert len({row["typed"] for row in [*SLIPS, *READ]}) == len(SLIPS) + len(READ)


@pytest.fixture
def job(tmp_path):
    """Writes a case file."""

    def write(text):
        path = tmp_path / "job.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return write


def test_the_good_file_is_good(run, job):
    assert run("check", job(GOOD)).returncode in (0, 1, 3)


@pytest.mark.parametrize("row", SLIPS, ids=lambda row: row["typed"].replace("\n", " "))
def test_a_slip_is_told_with_its_line_and_its_mend(run, job, row):
    """Exit status 2, nothing on stdout, one fault at the line where it stands, the key phrases; the
    mended value stands in the message, and is then read as meant."""
    text = put(row, row["typed"])
    done = run("check", job(text))
    assert (done.returncode, done.stdout) == (2, "")
    said = unfolded(done.stderr)
    assert "Traceback" not in said
    last = row["typed"].splitlines()[-1]
    lines = [n for n, line in enumerate(text.splitlines(), 1) if line == last]
    assert any(f" line {n}: " in said for n in lines), said
    for phrase in row["said"]:
        assert phrase in said
    if not row.get("own"):
        for line in row["mended"].splitlines():
            _key, equals, value = line.partition(" = ")
            assert (value.partition("  #")[0] if equals else line).strip('"') in said
    text = put(row, row["mended"])
    mended = job(text)
    if text not in STATUS:
        STATUS[text] = run("check", mended).returncode
    assert STATUS[text] in (0, 1, 3)
    assert value_at(mended, row["key"]) == pytest.approx(row["value"])


@pytest.mark.parametrize("row", READ, ids=lambda row: row["typed"])
def test_what_is_read_as_it_was_meant(run, job, row):
    path = job(put(row, row["typed"]))
    assert run("check", path).returncode in (0, 1, 3)
    assert value_at(path, row["key"]) == pytest.approx(row["value"])


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16"])
@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_however_an_editor_saves_it(run, tmp_path, encoding, ends):
    """A byte-order mark, UTF-16, the line ends of another system."""
    path = tmp_path / "job.toml"
    path.write_bytes(GOOD.replace("\n", ends).encode(encoding))
    assert run("check", path).returncode in (0, 1, 3)
    assert value_at(path, "gap.width") == 6


@pytest.mark.parametrize(
    ("data", "kind"),
    [
        (b"PK\x03\x04\x14\x00\x06\x00" + bytes(range(256)), "a word-processor"),
        (rb"{\rtf1\ansi [gap]\par width}", "a word-processor file"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(64), "a word-processor file"),
        (b"<!DOCTYPE html>\n<p>[gap]</p>\n", "a web page"),
        (b"%PDF-1.7\n%", "a PDF"),
    ],
)
def test_a_file_of_another_program(run, tmp_path, data, kind):
    path = tmp_path / "job.toml"
    path.write_bytes(data)
    done = run("check", path)
    assert (done.returncode, done.stdout) == (2, "")
    assert kind in unfolded(done.stderr)
    assert "A case is plain text, UTF-8." in unfolded(done.stderr)
