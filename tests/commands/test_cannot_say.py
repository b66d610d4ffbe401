"""No sweep says that anything works while a load, a clip or the like is not given."""

import csv
import io
import json
import re

import pytest
from sample_case import FEW, SMALLEST, changed, set_to, without, written

SWEEPS = [["gap"], ["gap", "gap=7in"], ["size"], ["reserve"], ["reserve", "--mishaps"]]
SNOW = '[snow]\nroof = "20 psf"\n'
STUDS = "[garage_wall]\nstuds_over_outriggers = true\n"
SNOWY = SMALLEST + STUDS + SNOW  # a card goes over snow
ROWS = [["gap"], ["size"], ["reserve"], ["reserve", "--mishaps"], ["card"]]
# what each table of the sample loses, and how the answer calls it
LOST = {
    "dead": ("garage_roof", "dead", "roof dead load"),
    "live": ("garage_roof", "live", "roof live load"),
    "edge": ("house_roof", "edge_support", "what is right below the house wall"),
    "blocking": ("outrigger", "blocking", "blocking"),
    "moisture": ("outrigger", "moisture", "dry or wet"),
}


def called(run, words, path, *options):
    name, *settings = words
    return run(name, path, *settings, *options)


def flat(text):
    return " ".join(text.split())


@pytest.mark.parametrize("words", [*SWEEPS, ["card"]], ids=" ".join)
def test_a_case_of_required_keys_alone(run, tmp_path, words):
    """No load and no clip: the numbers so far are no answer."""
    done = called(run, words, written(tmp_path, SNOWY))
    assert done.returncode == 3, done.stdout + done.stderr
    assert flat(done.stdout).count("facts are missing, among them roof dead load, wind, the") == 2
    assert "CANNOT SAY" in done.stdout.split("\n\n")[0]
    assert "CANNOT SAY" in done.stdout.split("\n\n")[-1]
    assert "WORKS" not in done.stdout
    assert "Yes" not in done.stdout


@pytest.mark.parametrize("words", SWEEPS, ids=" ".join)
def test_a_plate_over_1_that_may_carry_nothing(run, tmp_path, words):
    """Where the studs stand is not given: that is no reason to say that nothing works."""
    done = called(run, words, written(tmp_path, SMALLEST + SNOW))
    assert done.returncode == 3
    assert not re.search(r"NOTHING WORKS|NO GAP|DOES NOT WORK", flat(done.stdout))
    assert "CANNOT SAY" in done.stdout.split("\n\n")[-1]


@pytest.mark.parametrize("lost", LOST)
@pytest.mark.parametrize("words", [["reserve"], ["gap"]], ids=" ".join)
def test_one_fact_is_missing(run, tmp_path, words, lost):
    table, key, said = LOST[lost]
    done = called(run, words, written(tmp_path, without(FEW, table, key)))
    assert done.returncode == 3
    assert f"1 fact is missing: {said}." in flat(done.stdout)
    assert "WORKS" not in done.stdout


def test_no_back_clip(run, tmp_path):
    text = FEW.partition("[[hold_down]]")[0]
    done = run("gap", written(tmp_path, text))
    assert done.returncode in (1, 3)
    assert "WORKS" not in done.stdout


@pytest.mark.parametrize("words", [["gap"], ["reserve"], ["size"]], ids=" ".join)
def test_the_page_of_a_listing_alone_keeps_nothing_back(run, tmp_path, words):
    """No load and no strength hangs on it: it works, and what is open is named."""
    source = '\nrated_source = "a listing of these tests"'
    done = called(run, words, written(tmp_path, changed((source, ""), text=FEW)))
    assert done.returncode == 0, done.stdout
    assert "WORKS" in done.stdout
    assert "page of the listing not given and 2 more" in flat(done.stdout)


def test_an_earthquake_that_is_given_keeps_nothing_back(run, tmp_path):
    """Its force square to the wall runs through the rows of any side force."""
    text = set_to(FEW, seismic__category='"C"\nsds = 0.2')
    path = written(tmp_path, text)
    assert run("check", path).returncode == 0
    done = run("reserve", path)
    assert (done.returncode, "WORKS" in done.stdout) == (0, True)


@pytest.mark.parametrize("words", ROWS, ids=" ".join)
def test_every_row_says_what_is_open(run, tmp_path, words):
    path = written(tmp_path, SNOWY)
    digest = json.loads(run("check", path, "--json").stdout)["digest"]
    rows = json.loads(called(run, words, path, "--json").stdout)
    assert rows
    for row in rows:
        assert (row["digest"], row["verdict"], row["sample"]) == (digest, "open", False)
        assert {"garage_roof.dead", "wind.uplift", "hold_down"} <= set(row["open"])
        assert not row.get("works")


@pytest.mark.parametrize("words", [["gap"], ["card"]], ids=" ".join)
def test_every_row_of_csv_says_what_is_open(run, tmp_path, words):
    rows = list(csv.DictReader(io.StringIO(
        called(run, words, written(tmp_path, SNOWY), "--csv").stdout
    )))  # fmt: skip
    assert rows
    assert all(row["verdict"] == "open" and row["digest"] for row in rows)
    assert all("wind.uplift" in row["open"].split() for row in rows)


def test_a_row_has_the_verdict_that_check_gives_it(run, tmp_path):
    path = written(tmp_path, FEW)
    rows = json.loads(
        run("gap", path, "--from", "6in", "--to", "14in", "--step", "4in", "--json").stdout
    )
    for row in rows:
        alone = run("check", path, f"gap={row['gap_in']}in", "--json")
        assert row["verdict"] == json.loads(alone.stdout)["verdict"]
    assert {"pass", "fail"} == {row["verdict"] for row in rows}
