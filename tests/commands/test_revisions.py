"""No two papers carry one revision and two cases."""

import re

import pytest
from running import run

import outrigger
from outrigger.base.errors import InputError
from outrigger.cases.revised import following, revision

FILE = "examples/passes.toml"


@pytest.mark.parametrize(
    ("now", "then"),
    [("0", "1"), ("9", "10"), ("09", "10"), ("A", "B"), ("b", "c"), ("P2", "P3"), ("2a", "2b")],
)
def test_the_revision_after_one(now, then):
    assert following(now) == then


@pytest.mark.parametrize("now", ["Z", "issued", "", "1-"])
def test_a_revision_that_nothing_follows_is_asked_for(now):
    with pytest.raises(InputError, match="a number or a letter"):
        following(now)


def test_a_changed_case_is_saved_as_the_next_revision(tmp_path):
    once, twice = tmp_path / "once.toml", tmp_path / "twice.toml"
    screen = run("check", FILE, "gap=5in", "--save", once).stdout
    assert "project.revision 1, file does not say" in screen and re.search(r"rev 1 +case", screen)
    run("check", once, "gap=6in", "--save", twice)
    assert 'revision = "2"' in twice.read_text()


def test_a_copy_without_settings_keeps_its_revision(tmp_path):
    run("check", FILE, "--save", tmp_path / "copy.toml")
    assert "revision" not in (tmp_path / "copy.toml").read_text()


def test_a_revision_of_the_users_own_is_kept(tmp_path):
    run("check", FILE, "gap=5in", "project.revision=7", "--save", tmp_path / "own.toml")
    assert 'revision = "7"' in (tmp_path / "own.toml").read_text()


@pytest.mark.parametrize("command", [["check"], ["check", "--all"], ["check", "--brief"]])
def test_settings_over_a_file_never_pass_for_its_revision(command):
    changed, stated = (run(*command, FILE, *more).stdout for more in (["gap=5in"], []))
    assert "rev 0 changed" in changed and "changed, " not in stated.splitlines()[1]
    assert "rev 0" in stated and "rev 0 changed" not in stated


def test_a_summary_since_a_case_of_its_own_revision_is_refused(tmp_path):
    later = tmp_path / "later.toml"
    run("check", FILE, "gap=5in", "project.revision=0", "--save", later)
    done = run("summary", later, "-o", tmp_path / "out.pdf", "--since", FILE)
    assert done.returncode == 2
    assert 'Give this one its own: project.revision = "1"' in " ".join(done.stderr.split())


def test_a_summary_that_replaces_another_case_of_its_revision_says_so(tmp_path):
    out = tmp_path / "out.pdf"
    run("summary", FILE, "-o", out)
    same = run("summary", FILE, "-o", out, "--overwrite").stdout
    other = run("summary", FILE, "gap=5in", "-o", out, "--overwrite").stdout
    assert "was revision 0 too" in other and "was revision" not in same


def test_pieces_cut_for_another_gap_never_pass_for_the_revision_of_the_file():
    """--cut takes 1 in of back span for 1 in of gap: no case that the file states."""
    for more in ([], ["--brief"]):
        assert "rev 0 changed" in run("gap", FILE, "gap=7in", "--cut", *more).stdout


def test_a_case_changed_in_python_never_passes_for_its_revision():
    case = outrigger.read_case(FILE)
    piece = case.outrigger.model_copy(update={"back_span": 40.0})
    changed = case.model_copy(update={"outrigger": piece})
    assert revision(changed) == "0 changed"
    assert revision(changed.model_copy(update={"outrigger": case.outrigger})) == "0"
    own = case.project.model_copy(update={"revision": "1"})
    assert revision(changed.model_copy(update={"project": own})) == "1"
