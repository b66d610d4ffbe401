"""Each command in a process of its own, as `python -m outrigger`: byte for byte what it says and
writes in the process of the tests, where the other tests run it."""

from pathlib import Path

import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"
PASSES = EXAMPLES / "passes.toml"
COMMANDS = {
    "check": (PASSES, "gap=14in", "--steps"),
    "gap": (PASSES, "--from", "5in", "--to", "7in"),
    "compare": (PASSES, EXAMPLES / "row_of_clips.toml"),
    "layout": (EXAMPLES / "marks_on_the_plate.toml", "--pdf", "out.pdf", "--plan", "out.svg"),
    "draw": (PASSES, "-o", "out.dxf"),
    "size": (PASSES, "gap=9in"),
    "reserve": (PASSES, "--json"),
    "card": (PASSES, "--csv"),
    "lumber": ("SPF", "#2"),
    "summary": (EXAMPLES / "open_first_sketch.toml", "-o", "out.pdf"),
    "new": ("out.toml",),
    "prove": ("combinations", "--json"),
}
BARE = [("--version",), ("--help",), ("lumber", "pine"), ("timber",), ("check", "gapp=9in"), ()]


def same(run, process, words, folder):
    """What both said, once it is the same; each has a folder of its own to write into."""
    done = []
    for run_as in (run, process):
        where = folder / str(len(done))
        where.mkdir()
        said = run_as(*words, folder=where)
        done.append((said, {path.name: path.read_bytes() for path in where.iterdir()}))
    assert done[0] == done[1]
    return done[0]


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_is_the_same_in_a_process_of_its_own(run, process, name, tmp_path):
    said, files = same(run, process, (name, *COMMANDS[name]), tmp_path)
    assert said.returncode in (0, 1, 3)
    assert said.stdout
    assert len(files) == sum(str(word).startswith("out.") for word in COMMANDS[name])


@pytest.mark.parametrize("words", BARE, ids=" ".join)
def test_so_are_help_and_faults(run, process, words, tmp_path):
    said, files = same(run, process, words, tmp_path)
    assert said.returncode == (0 if words and words[0].startswith("--") else 2)
    assert said.stdout or said.stderr
    assert not files


def test_every_command_is_among_them(run):
    """But `show`, which serves until it is ended: `tests/page/test_show.py`."""
    listed = run("--help").stdout.partition("Commands:")[2].partition("Example")[0]
    assert {line.split()[0] for line in listed.splitlines() if line[:3].strip()} == {
        *COMMANDS,
        "show",
    }
