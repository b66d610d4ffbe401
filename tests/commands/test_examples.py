"""Every example runs, and gives the verdict and the governing check that its first lines name."""

import json
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
EXIT = {"pass": 0, "fail": 1, "open": 3}


def test_there_are_at_least_six():
    assert len(EXAMPLES) >= 6


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_example_is_what_it_says(run, path):
    """The first lines are words for the reader, held to what the program finds: no proof of it."""
    said = re.search(r"^# Verdict: (\w+)\. Governs: (\S+) at ([^.]+)\.$", path.read_text(), re.M)
    done = run("check", path, "--json")
    result = json.loads(done.stdout)
    assert result["verdict"] == said[1]
    assert (result["governing"]["id"], result["governing"]["place"]) == (said[2], said[3])
    assert done.returncode == EXIT[said[1]]
    assert not result["not_covered"]


COMPLETE = {  # the load path from the garage stud to a house stud, and the one link that fails
    "sample": "",
    "rafters_and_studs": "",
    "header_under_the_edge": "",
    "earthquake_category_d": "",
    "light_house_rafters": "house_rafter",
    "light_wall_tie": "wall_tie",
    "light_header": "house_edge",
}
PATH = {"stud", "wall_tie", "bending", "hold_down:back", "house_edge", "house_rafter"}


@pytest.mark.parametrize("name", COMPLETE)
def test_a_load_path_that_is_complete(run, name):
    """Every link has its rows, nothing is open, and one that fails fails in its weak link alone."""
    of = [] if name == "sample" else [ROOT / "examples" / f"{name}.toml"]
    found = json.loads(run("check", *of, "--json").stdout)
    ids = {row["id"] for row in found["checks"]}
    links = {row["link"] for row in found["checks"] if row["id"] == "house_edge"}
    assert ids >= PATH and "stud" in links
    status = {row["id"]: row["status"] for row in found["checks"] if row["status"] != "pass"}
    weak = COMPLETE[name]
    assert status == ({weak: "fail"} if weak else {})
    assert not found["not_given"]
    left = " ".join(found["not_checked"])
    for gone in ("The plate and studs of the house wall", "The house rafters, plates",
                 "plate and studs between", "plate and studs above", "The studs of"):  # fmt: skip
        assert gone not in left
    assert ("of the garage wall" in left) and ("foundation" in left)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_example_says_what_it_shows(path):
    assert path.read_text().startswith("# Shows: ")


def test_readme_prints_what_the_program_prints(process):
    """The first `text` block under the case in README is the output of its command."""
    readme = (ROOT / "README.md").read_text()
    shown = re.search(r"```text\n(.*?)```", readme, re.S)[1]
    command = re.search(r"^\$ outrigger (.*)$", shown, re.M)[1].split()
    printed = process(*command, folder=ROOT).stdout
    assert shown.partition("\n")[2] == printed


def test_readme_prints_what_several_cases_print(run):
    """Its block is the beginning of the output, in the folder of that job."""
    readme = (ROOT / "README.md").read_text("utf-8")
    shown = re.search(r"```text\n\$ outrigger (check left.toml.*?)\n(.*?)```", readme, re.S)
    printed = run(*shown[1].split(), folder=ROOT / "examples" / "linden_row").stdout
    assert printed.partition("\n")[2].startswith(shown[2])
    verdicts = re.findall(r"^  (\w+)\.toml +(\w+) ", shown[2], re.M)
    assert verdicts == [("rake", "fail"), ("left", "pass"), ("right", "pass")]


def heading(path):
    """What an example shows and its verdict, from the comment it starts with."""
    text = " ".join(
        line.removeprefix("#").strip()
        for line in path.read_text("utf-8").partition("\n\n")[0].splitlines()
        if line.startswith("#")
    )
    shows, _, rest = text.removeprefix("Shows: ").partition(" Verdict: ")
    return shows, rest.partition(".")[0]


def test_readme_lists_every_example():
    """A row of its table for each, in the words and with the verdict of the file's first lines."""
    readme = (ROOT / "README.md").read_text("utf-8")
    listed = re.findall(r"^\| `(\w+)` \| (.*) \| (\w+) \|$", readme, re.M)
    assert listed == [(path.stem, *heading(path)) for path in EXAMPLES]
