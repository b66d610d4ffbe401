"""The file that `new` writes: questions only, or the sample, which stays marked as one."""

import csv
import io
import json
import re
import tomllib

import pytest
from sample_case import BUNDLED, STATED, changed, set_to, written
from thorough import THOROUGH

from outrigger.cases.model import Case
from outrigger.cases.sections import SECTIONS

SAMPLE = "SAMPLE, not your job"
ADOPT = "A licensed engineer must verify and adopt. Local codes govern."
DEFAULTS = {
    "project": {"revision": "0"},
    "basis": {"method": "ASD", "wood": "NDS 2018"},
    "limits": {"live_deflection": 240, "total_deflection": 180},
}
REQUIRED = {
    "project.name": '"Smith house, garage link"',
    "basis.loads": '"ASCE 7-16"',
    "gap.width": '"7 in"',
    "gap.garage_plate": '"5 1/2 in"',
    "gap.edge_bearing": '"3 in"',
    "outrigger.species": '"DF-L"',
    "outrigger.grade": '"No. 2"',
    "outrigger.size": '"2x8"',
    "outrigger.spacing": '"16 in"',
    "outrigger.back_span": '"5 ft"',
    "garage_roof.span": '"24 ft"',
}


def flat(text):
    return " ".join(text.split())


def starter(run, folder, *options):
    path = folder / "new.toml"
    assert run("new", path, *options).returncode == 0
    return path


@pytest.mark.parametrize("options", [[], ["--blank"]], ids=["plain", "blank"])
def test_a_new_file_states_nothing_of_a_job(run, tmp_path, options):
    stated = tomllib.loads(starter(run, tmp_path, *options).read_text())
    assert {name: table for name, table in stated.items() if table} == DEFAULTS


def test_its_first_check_asks(run, tmp_path):
    """Bad input, never a pass: each key that is needed with its question and an example."""
    done = run("check", starter(run, tmp_path))
    assert (done.returncode, done.stdout) == (2, "")
    said = flat(done.stderr)
    for key, example in REQUIRED.items():
        assert re.search(
            rf"{key} is not given, and is needed[^?]*\?[^?]*{re.escape(example)}", said
        )
    assert said.count("is needed") == len(REQUIRED)


def test_with_what_is_needed_it_is_open(run, tmp_path):
    path = starter(run, tmp_path)
    settings = [f"{key}={example.strip(chr(34))}" for key, example in REQUIRED.items()]
    assert run("check", path, *settings).returncode == 3
    assert run("gap", path, *settings).returncode == 3


def test_every_question_is_a_key_of_the_case(run, tmp_path):
    """A line without its # is a key that the case has, and asked once."""
    table, seen = "", set()
    for line in starter(run, tmp_path).read_text().splitlines():
        if header := re.match(r"(?:# )?\[\[?(\w+)\]\]?$", line):
            table = header[1]
        elif key := re.match(r"(?:# )?(\w+) = ", line):
            model = SECTIONS.get(table) or Case.model_fields[table].annotation.__args__[0]
            assert key[1] in model.model_fields, (table, key[1])
            assert (table, key[1]) not in seen or key[1] == "at"
            seen.add((table, key[1]))
    assert {tuple(key.split(".")) for key in REQUIRED} <= seen


def test_the_sample_stays_a_sample(run, tmp_path):
    path = starter(run, tmp_path, "--sample")
    assert path.read_text() == BUNDLED
    longer = ("reserve", "size", "card") if THOROUGH else ()
    for name in ("check", "gap", "layout", *longer):
        settings = ["layout.run=8 ft"] if name == "layout" else []
        page = run(name, path, *settings).stdout
        first, *_, last = page.splitlines()
        assert (first, last) == (SAMPLE, SAMPLE), name
        assert name != "check" or "SAMPLE: pass" in page


def test_made_up_data_is_told_apart_in_every_format(run, tmp_path):
    path = written(tmp_path, set_to(STATED, project__name='"A demo"\ninvented = true'))
    done = run("check", path, "--json")
    assert json.loads(done.stdout)["sample"] is True
    assert done.stderr.strip() == SAMPLE
    for words in (["check"], ["gap"], ["card"]):
        first, second, *_ = run(*words, path, "--csv").stderr.splitlines()
        assert (first, second) == (SAMPLE, ADOPT)
    row = next(csv.DictReader(io.StringIO(run("gap", path, "--csv").stdout)))
    assert row["sample"] == "true"
    page = tmp_path / "page.md"
    assert run("summary", path, "-o", page).stdout.startswith(SAMPLE)
    assert page.read_text().startswith(f"**{SAMPLE}**")
    assert "SAMPLE" not in run("check", written(tmp_path, STATED)).stdout


@pytest.mark.parametrize(
    ("text", "what"),
    [
        (
            changed(("a listing of these tests", "INVENTED for now"), text=STATED),
            "page of the listing",
        ),
        (
            set_to(STATED, house_roof__dead='"10 psf"\ndead_source = "invented"'),
            "dead load on the back span",
        ),
    ],
)
def test_an_invented_source_keeps_a_job_open(run, tmp_path, text, what):
    path = written(tmp_path, text)
    assert run("check", written(tmp_path, STATED, "real.toml")).returncode == 0
    done = run("check", path)
    assert done.returncode == 3
    assert f"OPEN: cannot say yet, {what} invented" in flat(done.stdout)
    assert run("gap", path).returncode == 3
    assert run("check", path, "project.invented=true").returncode == 0


def test_the_digest_of_a_job_is_what_it_was_before_it_could_be_made_up():
    """A key left at its default is no part of what is stated; made up, it is another case."""
    from sample_case import case_of

    real = case_of(STATED)
    made = case_of(
        set_to(STATED, project__name='"Sample: link over a six inch gap"\ninvented = true')
    )
    assert "invented" in real.model_dump()["project"]
    assert real.digest != made.digest
