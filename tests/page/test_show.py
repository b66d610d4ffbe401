"""The command `show` as it is started: the address, one page, Ctrl-C."""

import re
import signal
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest
from sample_case import STATED


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C is sent otherwise there")
def test_from_start_to_ctrl_c(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(STATED, encoding="utf-8")
    words = [sys.executable, "-m", "outrigger", "show", str(path), "--no-browser"]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as run:
        first = run.stdout.readline()
        address = run.stdout.readline().strip()
        assert first == "job.toml is open. Save on the page writes it.\n"
        assert re.fullmatch(r"http://127\.0\.0\.1:\d+/[\w-]{32}/", address)
        page = urllib.request.urlopen(address).read().decode()
        assert "PASS" in page
        run.send_signal(signal.SIGINT)
        said, wrong = run.communicate(timeout=20)
    assert (run.returncode, wrong) == (0, "")
    assert said.endswith("Ended.\n")


@pytest.mark.parametrize(
    ("words", "said"),
    [(["gap=9in"], "show takes a case file alone"), (["nothing.txt"], "no such file")],
)
def test_what_it_does_not_take(run, tmp_path, words, said):
    done = run("show", *words, "--no-browser", folder=tmp_path)
    assert done.returncode == 2 and said in done.stderr


def test_several_files_are_not_one_page(run, tmp_path):
    for words in (("a.toml", "b.toml"), ("a.toml", "gap=9in", "b.toml")):
        done = run("show", *words, "--no-browser", folder=tmp_path)
        assert done.returncode == 2
        said = " ".join(done.stderr.split())
        assert "show takes one case file, and 2 are named. For one: outrigger show a.toml" in said


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C is sent otherwise there")
def test_a_base_is_told_to_be_one():
    """Said at the start and on the page; no case of its own is needed for that."""
    base = Path(__file__).parents[2] / "examples" / "linden_row" / "job.toml"
    words = [sys.executable, "-m", "outrigger", "show", str(base), "--no-browser"]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as run:
        said = ""
        while "http:" not in said:
            said += run.stdout.readline()
        page = urllib.request.urlopen(said.split()[-1]).read().decode()
        run.send_signal(signal.SIGINT)
        _, wrong = run.communicate(timeout=20)
    told = "job.toml is the base of left.toml, rake.toml and right.toml: what you save here changes"
    assert told in " ".join(said.split()) and told in page
    assert (run.returncode, wrong) == (0, "")
