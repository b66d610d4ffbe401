"""A case built in Python is held to the same faults as a file, those between its keys included."""

import copy
import re
import tomllib
from pathlib import Path

import pytest
from pydantic import ValidationError

import outrigger
from outrigger.base.errors import InputError
from outrigger.cases.faults import CaseFaultsError
from outrigger.cases.model import Case
from outrigger.cases.read import read_case
from outrigger.cases.validate import validate

PASSES = Path(__file__).parents[2] / "examples" / "passes.toml"
TABLES = tomllib.loads(PASSES.read_text(encoding="utf-8"))
SPEED = {"exposure": "C", "mean_height": "14 ft", "enclosure": "enclosed", "speed": "115 mph"}
DRIFT = {
    "on": "garage roof", "house_step": "9 ft", "house_length": "40 ft", "garage_length": "24 ft",
}  # fmt: skip


def tables(*without, **changes):
    """The tables of the example, some keys left out, some tables changed: snow={"ground": ...}."""
    raw = copy.deepcopy(TABLES)
    for path in without:
        table, key = path.split(".")
        raw[table].pop(key)
    for table, keys in changes.items():
        raw.setdefault(table, {}).update(keys)
    return raw


def twice():
    raw = tables()
    back = next(entry for entry in raw["hold_down"] if entry["at"] == "back")
    raw["hold_down"].append(dict(back))
    return raw


def only_the_edge():
    raw = tables()
    raw["hold_down"] = [{**raw["hold_down"][0], "at": "edge"}]
    return raw


CASES = {
    "no span": (tables("garage_roof.span"), "garage_roof.span"),
    "no seismic, but an acceleration": (
        tables(seismic={"category": "none", "sds": 1.0}), "seismic.sds"),
    "wind lifts one roof only": (
        tables(wind={"uplift": "none"}, house_roof={"wind_uplift": "20 psf"}),
        "house_roof.wind_uplift"),
    "the back twice": (twice(), r"hold_down\[\d\].at"),
    "importance in 7-22": (
        tables(basis={"loads": "ASCE 7-22"}, snow={"importance": 1.2}), "snow.importance"),
    "speed beside pressures": (tables(wind=SPEED | {"uplift": "20 psf"}), "wind.speed"),
    "ground snow without exposure": (
        tables(*(f"snow.{key}" for key in TABLES["snow"] if key != "unbalanced"),
               snow={"ground": "30 psf", "thermal": 1.0}), "snow.exposure"),
    "Cr over 24 in": (
        tables(outrigger={"repetitive": True, "spacing": "30 in"}), "outrigger.repetitive"),
    "notch through the member": (
        tables(outrigger={"bottom_notch": "6 in"}), "outrigger.bottom_notch"),
    "two drifts": (
        tables(snow={"drift": DRIFT, "drift_line": "100 plf"}), "snow.drift_line"),
    "no clips at the back": (only_the_edge(), "hold_down"),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_faults_between_keys_refuse_a_dict(name):
    raw, key = CASES[name]
    with pytest.raises(CaseFaultsError, match=rf"(?m)^  {key} ") as told:
        validate(raw, "case")
    assert any(re.fullmatch(key, fault.key) for fault in told.value.faults)


@pytest.mark.parametrize("name", CASES)
def test_the_model_itself_refuses_them(name):
    raw, key = CASES[name]
    with pytest.raises(ValidationError, match=rf"(?m)^  {key} "):
        Case.model_validate(raw)


def test_every_fault_at_once():
    """Within a key and between keys, as a file has it."""
    raw = tables("garage_roof.span", gap={"width": 6}, seismic={"category": "none", "sds": 1.0})
    with pytest.raises(CaseFaultsError) as told:
        validate(raw, "case")
    keys = {fault.key for fault in told.value.faults}
    assert keys == {"garage_roof.span", "gap.width", "seismic.sds"}


def test_a_dict_reads_as_its_file():
    from_file, _ = read_case(PASSES)
    assert validate(TABLES, "case") == from_file
    assert Case.model_validate(TABLES) == from_file
    assert Case.model_validate(TABLES).digest == from_file.digest


def test_sources_and_aliases_read_from_a_dict_as_from_a_file():
    point = {"at": "6 ft", "from": "girder truss", "D": "900 lb"}
    raw = tables(
        garage_roof={"dead_source": "truss sheet 4", "point": [point]},
        layout={"run": "24 ft", "openings": [{"from": "9 ft", "to": "12 ft"}]},
    )
    for case in (validate(raw, "case"), Case.model_validate(raw)):
        assert case.sources["garage_roof.dead"] == "truss sheet 4"
        assert case.garage_roof.point[0].source == "girder truss"
        assert (case.layout.openings[0].start, case.layout.openings[0].end) == (108.0, 144.0)


def test_a_source_without_its_key_is_refused():
    with pytest.raises(ValidationError, match="deadd_source"):
        Case.model_validate(tables(garage_roof={"deadd_source": "truss sheet 4"}))


def test_reading_leaves_the_tables_alone():
    raw = tables(garage_roof={"dead_source": "truss sheet 4"})
    before = copy.deepcopy(raw)
    Case.model_validate(raw)
    validate(raw, "case")
    assert raw == before


def test_equal_cases_have_equal_hashes():
    one, other = validate(TABLES, "case"), Case.model_validate(TABLES)
    assert hash(one) == hash(other) and len({one, other}) == 1
    assert one not in {validate(tables(gap={"width": "7 in"}), "case")}


def changed(path, value):
    """The example with one key changed in Python, as its user does it."""
    case, _ = read_case(PASSES)
    table, _, key = path.partition(".")
    return case.model_copy(update={table: getattr(case, table).model_copy(update={key: value})})


@pytest.mark.parametrize(("path", "value"), [
    ("outrigger.laid", "on its side"), ("outrigger.moisture", "soaked"),
    ("garage_roof.form", "untied"), ("house_roof.edge_support", "walls"),
    ("snow.drift", "x"), ("basis.method", "lrfd"), ("outrigger.blocking", ["edgee"]),
    ("outrigger.spacing", None), ("gap.width", "9 psf"), ("gap.widht", 9.0),
])  # fmt: skip
def test_a_word_changed_in_python_is_held_to_those_of_its_key(path, value):
    """Each of them passed as if it were the other word, or stopped the program."""
    with pytest.raises(InputError, match=path.partition(".")[2]):
        changed(path, value)


def test_a_value_changed_in_python_is_read_as_a_file_writes_it():
    assert changed("gap.width", "9 in").gap.width == changed("gap.width", 9.0).gap.width == 9.0


@pytest.mark.parametrize("path", ["snow.ground", "wind.speed", "gap.edge_setback"])
def test_keys_changed_in_python_go_together(path):
    """100 psf of ground snow beside a stated roof snow of 20 psf passed by the 20."""
    case = changed(path, 4.0)
    ask = (outrigger.design, outrigger.largest_gap, outrigger.sizes,
           lambda one: outrigger.sweep(one, gap=[6.0]),
           lambda one: outrigger.summary(one, "never-written.pdf"))  # fmt: skip
    for one in ask:
        with pytest.raises(CaseFaultsError, match=path.partition(".")[0]):
            one(case)


@pytest.mark.parametrize("setting", ["garage_roof.span=40 ft", "garage_roof.dead=30 psf"])
def test_settings_over_tables_ask_for_what_is_of_the_old_as_over_a_file(setting):
    """Reactions of a truss sheet for 20 ft passed for a roof of 40 ft."""
    line = {"D": "150 plf", "Lr": "200 plf", "S": "200 plf", "W_up": "260 plf", "W_down": "80 plf",
            "L": "none"}  # fmt: skip
    raw = tables(garage_roof={"line": line})
    outrigger.case(raw)
    with pytest.raises(CaseFaultsError, match="the reactions of the truss sheet are of that roof"):
        outrigger.case(raw, setting)


def test_what_is_no_case_is_said():
    with pytest.raises(InputError, match="str: no case"):
        outrigger.design(str(PASSES))


def test_of_a_case_changed_in_python_no_cure_is_said_to_be_tried():
    """None was tried: a change is a setting over tables, and it has none."""
    said = str(outrigger.design(changed("gap.width", 9.0)))
    assert "fail" in said and "No single change" not in said


def test_another_edition_in_a_sweep_beside_snow_of_one():
    """20 psf of ASCE 7-16 are not 20 psf of 7-22, whose snow is at strength level."""
    case, _ = read_case(PASSES)
    with pytest.raises(InputError, match=r"snow\.roof, house_roof\.snow,.* snow of that edition"):
        outrigger.sweep(case, {"basis.loads": ["ASCE 7-16", "ASCE 7-22"]})


def test_a_sweep_asks_for_what_is_of_the_old_value_as_a_file_over_another_does():
    """A load on the wall with the snow of one edition; an opening from the datum of one end."""
    loaded, _ = read_case(PASSES, ['garage_roof.point=[{at="4 ft", S="200 lb"}]'])
    snows = {key: ["20 psf", "30 psf"] for key in ("snow.roof", "house_roof.snow")}
    with pytest.raises(InputError, match=r"beside garage_roof\.point, which would stay"):
        outrigger.sweep(loaded, {"basis.loads": ["ASCE 7-16", "ASCE 7-22"], **snows})
    laid, _ = read_case(PASSES, ["layout.run=24 ft", 'layout.openings=[{from="4 ft", to="8 ft"}]'])
    with pytest.raises(InputError, match=r"layout\.openings, which would stay: .* that datum"):
        outrigger.sweep(laid, {"layout.datum": ["house corner", "street corner"]})
