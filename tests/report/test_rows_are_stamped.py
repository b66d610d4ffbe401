"""Every row that leaves the program as data says which case it is of, its verdict, what is open."""

import csv
import io
import json

import pytest
from sample_case import FEW, SMALLEST, written

STUDS = "[garage_wall]\nstuds_over_outriggers = true\n"
RUN = "layout.run=12 ft"
WORDS = [
    ["gap", "--to", "4 in"],
    ["gap", "gap=7in", "--to", "4 in"],
    ["size"],
    ["reserve"],
    ["reserve", "--mishaps"],
    ["card"],
    ["card", "--back-span"],
    ["layout", RUN],
]
JSON = [(words, "--json") for words in WORDS]
CSV = [(words, "--csv") for words in [["check"], *WORDS]
       if words[0] in ("check", "gap", "card", "layout")]  # fmt: skip
OPEN = {"garage_roof.dead", "wind.uplift", "hold_down"}


@pytest.mark.parametrize(("words", "kind"), [*JSON, *CSV], ids=lambda part: "".join(part))
@pytest.mark.parametrize("text", [FEW, SMALLEST + STUDS], ids=["stated", "sketch"])
def test_every_row(run, tmp_path, words, kind, text):
    path = written(tmp_path, text)
    settings = [word for word in words[1:] if "=" in word]
    said = json.loads(run("check", path, *settings, "--json").stdout)
    done = run(words[0], path, *words[1:], kind)
    data = kind == "--json"
    rows = json.loads(done.stdout) if data else list(csv.DictReader(io.StringIO(done.stdout)))
    assert rows, done.stderr
    for row in rows:
        assert row["digest"] == said["digest"]
        assert row["verdict"] in ("pass", "fail", "open")
        assert row["sample"] == (False if data else "false")
        named = row["open"] if data else row["open"].split()
        assert isinstance(named, list)
        if text is not FEW:
            assert row["verdict"] != "pass"
            assert set(named) >= OPEN
        elif row["verdict"] == "open":
            assert named


def test_made_up_data_is_said(run):
    rows = json.loads(run("layout", "--json").stdout)
    assert all(row["sample"] is True for row in rows)
    assert run("layout", "--json").stderr.startswith("SAMPLE")


def test_one_of_json_and_csv(run, tmp_path):
    done = run("layout", written(tmp_path, FEW), RUN, "--json", "--csv")
    assert (done.returncode, "give one of them" in done.stderr) == (2, True)
