"""The JSON Schema of the case file: it takes what `check` reads, refuses a wrong unit, states no
default; and what is said of each key, once."""

import copy
import datetime
import json
import tomllib
from pathlib import Path

import pytest
from jsonschema import Draft7Validator
from sample_case import BUNDLED, DRIFTED, EVERY_KEY, EVERY_OTHER_KEY, SAMPLE, SMALLEST, case_of

import outrigger
from outrigger.base import quantity
from outrigger.cases import described
from outrigger.cases.kinds import kind_of, table_in
from outrigger.cases.names import TABLES
from outrigger.cases.schema import schema
from outrigger.cases.validate import value_error
from outrigger.cli.keys import rows

ROOT = Path(__file__).parents[2]
FILES = {path.stem: path.read_text("utf-8") for path in sorted((ROOT / "examples").glob("*.toml"))}
FILES |= {
    "sample": BUNDLED, "stated": SAMPLE, "drifted": DRIFTED, "every key": EVERY_KEY,
    "every other key": EVERY_OTHER_KEY, "smallest": SMALLEST,
}  # fmt: skip
FOUND = schema()
VALIDATOR = Draft7Validator(FOUND)


def plain(tables):
    """Tables as an editor's reader of TOML gives them to a schema: a date is text."""
    return json.loads(json.dumps(tables, default=datetime.date.isoformat))


def wrong(tables):
    return [error.json_path for error in VALIDATOR.iter_errors(plain(tables))]


def keys(model, path):
    """Every key that is no table: its path, its model, its name."""
    for name, field in model.model_fields.items():
        key = f"{path}.{field.alias or name}"
        if (inner := table_in(field.annotation)) is not None:
            yield from keys(inner, key)
        else:
            yield key, model, name


KEYS = [one for table, model in TABLES.items() for one in keys(model, table)]


def test_it_is_a_schema():
    Draft7Validator.check_schema(FOUND)


@pytest.mark.parametrize("name", FILES)
def test_every_case_is_taken(name):
    assert wrong(tomllib.loads(FILES[name])) == []


def places(value, path=()):
    """Every value inside tables that is none, with its path."""
    inside = value.items() if isinstance(value, dict) else enumerate(value)
    for key, one in inside:
        if isinstance(one, dict | list):
            yield from places(one, (*path, key))
        else:
            yield (*path, key), one


def model_at(path):
    """The table that holds the key at a path, and its name there."""
    words = [step for step in path if isinstance(step, str)]
    model = TABLES[words[0]]
    for step in words[1:-1]:
        model = table_in(model.model_fields[step].annotation)
    alias = {field.alias: name for name, field in model.model_fields.items() if field.alias}
    return model, alias.get(words[-1], words[-1])


@pytest.mark.parametrize("name", ["every key", "every other key"])
def test_a_wrong_unit_is_refused_wherever_it_stands(name):
    """Each quantity in turn: with another kind's unit, without one, as a bare number."""
    tables = tomllib.loads(FILES[name])
    tried = 0
    for path, _ in places(tables):
        if path[-1] in ("dead_source",) or path[0] == "$schema":
            continue
        model, key = model_at(path)
        kind = kind_of(model, key)
        if kind is None:
            continue
        other = "7 psf" if kind == "length" else "7 in"
        for value in (other, "7", 7, "-" + quantity.EXAMPLES[kind], "tall"):
            changed = copy.deepcopy(tables)
            at = changed
            for step in path[:-1]:
                at = at[step]
            at[path[-1]] = value
            assert wrong(changed), (path, value)
            tried += 1
    assert tried > 100


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("outrigger.back_span", "2'-6 1/2\""), ("gap.width", "6½ in"), ("gap.width", " 7 1/2 IN. "),
        ("gap.width", "7″"), ("gap.house_finish", "None"), ("outrigger.spacing", "16 in o.c."),
        ("outrigger.spacing", "1 ft 4 in"), ("hold_down.rated_uplift", "1,200 lbs"),
        ("garage_roof.dead", "15 PSF"), ("hold_down.at", "16 in"), ("hold_down.at", "back"),
        ("house_roof.pitch", "4/12"), ("limits.live_deflection", "L/240"),
        ("garage_roof.member_spacing", "uniform"), ("outrigger.species", "SPF"),
        ("outrigger.size", "2 x 6"), ("outrigger.grade", "#2"), ("wind.speed", "115 mph"),
        ("garage_wall.along", "12 lb/ft"),
    ],
)  # fmt: skip
def test_what_is_read_is_taken(path, value):
    """Spellings that `check` reads, whatever their capitals and marks."""
    table, key = path.split(".")
    assert value_error(TABLES[table], table, key, value) == ""
    of = FOUND["properties"][table]
    of = of["items"] if of["type"] == "array" else of
    assert list(Draft7Validator(of["properties"][key]).iter_errors(value)) == []


def test_it_states_no_default_and_describes_every_key():
    def parts(schema):
        yield schema
        for inside in schema.values() if isinstance(schema, dict) else schema:
            if isinstance(inside, dict | list):
                yield from parts(inside)

    for part in parts({**FOUND, "else": {}}):  # which only says what is required
        assert not isinstance(part, dict) or "default" not in part
        for key, own in part.get("properties", {}).items() if isinstance(part, dict) else ():
            assert key == "$schema" or own["description"], key


def test_lists_of_lumber():
    """Species, grades and sizes are offered by name; a stamp may stand there too."""
    member = FOUND["properties"]["outrigger"]["properties"]
    assert "Spruce-Pine-Fir" in member["species"]["anyOf"][0]["enum"]
    assert {"No. 2", "Stud"} <= set(member["grade"]["anyOf"][0]["enum"])
    assert "2x6" in member["size"]["anyOf"][0]["enum"]


def test_every_key_is_described_once():
    known = {key.replace("[back]", "") for key, *_ in rows()}
    assert known <= described.KEYS.keys()
    assert described.KEYS.keys() - known == {"wall_tie"}


@pytest.mark.parametrize(("path", "model", "name"), KEYS, ids=[key for key, *_ in KEYS])
def test_a_value_shown_is_of_the_right_form(path, model, name):
    """What is shown as an example is read; a load has none, so that none is invented."""
    value = described.of(path).value
    alias = model.model_fields[name].alias or name
    if value is not None:
        assert value_error(model, path.rpartition(".")[0], alias, value) == ""
    if kind_of(model, name) in ("pressure", "line load"):
        assert value is None


def test_a_file_may_name_its_schema(run, tmp_path):
    """$schema is no part of the case; the starter names it in a remark."""
    named = f'"$schema" = "case.schema.json"\n{SAMPLE}'
    assert case_of(named).digest == case_of(SAMPLE).digest
    starter = Path(outrigger.__file__).with_name("starter.toml").read_text("utf-8")
    assert starter.startswith("#:schema case.schema.json\n")
    path = tmp_path / "job.toml"
    path.write_text(named, encoding="utf-8")
    assert run("check", path).returncode in (0, 1, 3)
    assert run("summary", path, "-o", tmp_path / "out.md").returncode in (0, 1, 3)
    assert "schema" not in (tmp_path / "out.md").read_text("utf-8")
