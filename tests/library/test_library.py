"""What `import outrigger` offers: the same cases, designs and outputs as the commands."""

import json
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

import outrigger
from outrigger.cases.paths import with_numbers
from outrigger.studies import sweep
from outrigger.verdict.worked import FIRST

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
PASSES = ROOT / "examples" / "passes.toml"
FAILS = ROOT / "examples" / "uplift_without_edge_tie.toml"
OPEN = ROOT / "examples" / "open_first_sketch.toml"


@pytest.fixture(scope="module")
def one():
    return outrigger.read_case(PASSES)


def python(code):
    return subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT
    ).stdout


def test_no_module_takes_the_place_of_a_public_name():
    """A submodule imported later would set itself over a function of its name."""
    code = (
        "import importlib, pkgutil, outrigger\n"
        "for found in pkgutil.walk_packages(outrigger.__path__, 'outrigger.'):\n"
        "    if not found.name.endswith('__main__'): importlib.import_module(found.name)\n"
        "names = [name for name in outrigger.__all__ if name[0] != '_']\n"
        "print([name for name in names if not callable(getattr(outrigger, name))])"
    )
    assert python(code).strip() == "[]"


def test_importing_loads_nothing_until_a_name_is_used():
    heavy = "[m for m in ('numpy', 'pydantic', 'typer', 'outrigger.library') if m in sys.modules]"
    assert python(f"import sys, outrigger; print({heavy})").strip() == "[]"


def test_public_names_are_listed_and_others_are_not():
    assert set(outrigger.__all__) == set(dir(outrigger))
    assert "read_case" in dir(outrigger)
    with pytest.raises(AttributeError, match="no attribute 'chek'"):
        _ = outrigger.chek


def test_every_public_name_says_what_it_is():
    for name in outrigger.__all__:
        if not name.startswith("_"):
            assert len(getattr(outrigger, name).__doc__) > 20, name


# Cases.


def test_a_file_with_settings_and_its_tables_with_settings_are_one_case(one):
    file = outrigger.read_case(str(PASSES), "gap=7 in", "size=2x8")
    tables = outrigger.case(one.origin.tables, "gap=7 in", "size=2x8")
    assert file == tables
    assert file.gap.width == 7.0
    assert one.gap.width == 6.0


def test_a_dict_with_faults_has_them_all(one):
    raw = {**one.origin.tables, "garage_roof": {}, "seismic": {"category": "none", "sds": 1.0}}
    with pytest.raises(outrigger.CaseFaultsError) as told:
        outrigger.case(raw)
    assert {fault.key for fault in told.value.faults} == {"garage_roof.span", "seismic.sds"}
    assert isinstance(told.value, outrigger.InputError)
    assert isinstance(told.value, ValueError)


def test_a_file_with_faults_has_their_lines(tmp_path):
    text = PASSES.read_text(encoding="utf-8").replace('width = "6 in"', 'width = "6"')
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    with pytest.raises(outrigger.CaseFaultsError) as told:
        outrigger.read_case(tmp_path / "job.toml")
    (fault,) = told.value.faults
    assert (fault.key, text.splitlines()[fault.line - 1]) == ("gap.width", 'width = "6"')


def test_the_tables_stay_as_they_are(one):
    before = json.dumps(one.origin.tables)
    outrigger.case(one.origin.tables, "gap=9 in", "hold_down[edge].count=2")
    assert json.dumps(one.origin.tables) == before


def test_a_setting_that_is_none_is_refused(one):
    with pytest.raises(outrigger.InputError, match="gapp"):
        outrigger.case(one.origin.tables, "gapp=9 in")


def test_a_changed_case_has_no_origin(one):
    assert with_numbers(one, {"gap.width": 7.0}).origin is None
    assert with_numbers(one, {}).origin is one.origin


# Designs.


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_a_design_prints_what_check_prints(path, run, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    result = outrigger.design(outrigger.read_case(path))
    done = run("check", path, width=80)
    assert str(result) + "\n" == done.stdout
    assert {"pass": 0, "fail": 1, "open": 3}[result.verdict] == done.returncode


def test_with_settings_too(run, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    result = outrigger.design(outrigger.read_case(PASSES, "gap=11in", "basis.method=LRFD"))
    assert str(result) + "\n" == run("check", PASSES, "gap=11in", "basis.method=LRFD").stdout


@pytest.mark.parametrize("path", [PASSES, FAILS, OPEN], ids=lambda p: p.stem)
def test_as_dict_is_the_json_of_check(path, run):
    result = outrigger.design(outrigger.read_case(path))
    printed = json.loads(run("check", path, "--json").stdout)
    assert json.loads(json.dumps(result.as_dict())) == printed


def test_rows_have_the_fields_of_the_json(one):
    result = outrigger.design(one)
    fields = ("id", "place", "link", "clause", "demand", "capacity", "unit", "ratio",
              "combination", "status", "why")  # fmt: skip
    rows = [{name: getattr(row, name) for name in fields} for row in result.rows]
    assert rows == result.as_dict()["checks"]
    assert result.closest.id == result.as_dict()["governing"]["id"]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_a_typed_name_does_not_flood_a_notebook(path):
    result = outrigger.design(outrigger.read_case(path))
    for shown in (result, result.closest, result.closest.check, result.worked.batch):
        assert len(repr(shown)) < 250, shown
    assert result.verdict in repr(result)
    assert result.closest.id in repr(result)


# Sweeps.


def alone(one, **settings):
    return outrigger.design(
        outrigger.case(one.origin.tables, *(f"{key}={value}" for key, value in settings.items()))
    )


def test_every_row_is_the_case_designed_alone(one):
    found = outrigger.sweep(
        one, {"gap.width": ["6 in", "9 in", "12 in"], "outrigger.size": ["2x4", "2x6", "2x8"]},
        spacing=["12 in", 16],
    )  # fmt: skip
    assert len(found) == 18
    for row in found.rows:
        gap, size, spacing = row.values.values()
        spacing = spacing if isinstance(spacing, str) else f"{spacing} in"
        single = alone(one, gap=gap, size=size, spacing=spacing)
        assert (row.closest.ratio, row.closest.id, row.closest.combination) == (
            single.closest.ratio, single.closest.id, single.closest.combination
        )  # fmt: skip
        assert (row.verdict, row.digest, row.works) == (
            single.verdict, single.case.digest, single.works
        )  # fmt: skip


def test_rows_of_every_chunk_are_the_cases_designed_alone(one):
    """More rows than the first chunk holds, of which no more than a chunk is kept at once."""
    found = outrigger.sweep(one, gap=np.linspace(5, 9, 2 * FIRST + 3))
    for i in (0, FIRST - 1, FIRST, 2 * FIRST + 2):
        single = outrigger.design(found.rows[i].case)
        row = found.rows[i]
        assert (row.closest.ratio, row.works) == (single.closest.ratio, single.works)
        own = [one.ratio or 0.0 for one in single.rows if one.id == row.closest.id]
        assert row.ratios[row.closest.id] == max(own)


def test_workers_share_the_rows(one, monkeypatch):
    """The same rows, in the same order, to the last bit."""
    values = {"gap.width": np.linspace(5, 9, 9), "outrigger.size": ["2x6", "2x8"]}
    found = outrigger.sweep(one, values)
    monkeypatch.setattr(sweep, "FEWEST", 2)
    shared = outrigger.sweep(one, values, workers=2)
    assert shared.as_dict() == found.as_dict()
    assert [row.ratios for row in shared.rows] == [row.ratios for row in found.rows]
    with pytest.raises(outrigger.InputError, match=r"workers = 0: a whole number of processes"):
        outrigger.sweep(one, values, workers=0)


def test_the_last_key_changes_first_and_arrays_follow_the_rows(one):
    found = outrigger.sweep(one, gap=[6, 7], spacing=["12 in", "16 in"])
    assert found.paths == ("gap.width", "outrigger.spacing")
    assert [tuple(row.values.values()) for row in found.rows] == [
        (6, "12 in"), (6, "16 in"), (7, "12 in"), (7, "16 in"),
    ]  # fmt: skip
    assert found.ratio.tolist() == [row.closest.ratio for row in found.rows]
    assert found.works.tolist() == [row.works for row in found.rows]
    assert max(found.ratios["bending"]) == found.rows[3].ratios["bending"]


def test_columns_of_one_length_without_crossing(one):
    found = outrigger.sweep(one, gap=[6, 7], back_span=[48, 60], cross=False)
    assert [row.case.gap.width for row in found.rows] == [6.0, 7.0]
    assert [row.case.outrigger.back_span for row in found.rows] == [48.0, 60.0]
    with pytest.raises(outrigger.InputError, match=r"unlike length: gap.width 2, .*spacing 1"):
        outrigger.sweep(one, gap=[6, 7], spacing=[16], cross=False)


def test_numpy_values_and_short_names(one):
    found = outrigger.sweep(one, gap=np.arange(4, 7), clip=["300 lb", "500 lb"])
    assert found.paths == ("gap.width", "hold_down[back].rated_uplift")
    assert len(found) == 6


def test_a_load_that_is_none_in_some_rows_brings_nothing_into_the_others(one):
    """Beside others it would bring its combinations, and what else acts in them."""
    found = outrigger.sweep(one, {"garage_roof.live": ["none", "20 psf"], "gap.width": [6, 8]})
    for row in found.rows:
        live, gap = row.values.values()
        single = alone(one, **{"garage_roof.live": live, "gap": f"{gap} in"})
        assert row.closest.ratio == single.closest.ratio
        assert row.ratios == {r.id: row.ratios[r.id] for r in single.rows}
    assert [row.case.garage_roof.live == 0 for row in found.rows] == [True, True, False, False]


def test_what_is_no_number_is_swept_too(one):
    found = outrigger.sweep(
        one, {"outrigger.plies": [1, 2], "outrigger.moisture": ["dry", "wet"], "snow": ["30 psf"]}
    )
    assert [row.case.outrigger.plies for row in found.rows] == [1, 1, 2, 2]
    assert found.rows[0].closest.ratio > found.rows[2].closest.ratio


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({"hold_down[back].rated_uplift": [-420.0]}, r"rated_uplift = -420\.0: needs text"),
        ({"hold_down[back].rated_uplift": ["-420 lb"]}, "negative"),
        ({"gap.width": [float("inf")]}, r"gap\.width = inf: must be more than 0"),
        ({"gap.width": [float("nan")]}, r"gap\.width = nan: must be more than 0"),
        ({"outrigger.spacing": [-16]}, r"spacing = -16: must be more than 0"),
        ({"outrigger.spacing": [0]}, r"spacing = 0: must be more than 0"),
        ({"garage_roof.span": ["none"]}, r"span = 0: must be more than 0"),
        ({"garage_wall.height": [-36]}, r"height = -36: must be no less than 0"),
        ({"snow.roof": [30]}, 'such as "30 psf"'),
        ({"gap.width": ["6 psf"]}, "a pressure"),
        ({"gap.width": [True]}, "true"),
        ({"gap.widht": [6]}, "no such field"),
        ({"gap.width": []}, "empty"),
        ({"gap.width": "6 in"}, "a list of values"),
        ({}, "name what changes"),
        ({"outrigger.size": ["2x7"]}, 'size = "2x7": no such size'),
        ({"outrigger.laid": ["upright"]}, 'laid = "upright"'),
        ({"outrigger.plies": [7]}, "plies = 7"),
    ],
)
def test_a_sweep_refuses_in_words(one, values, words):
    with pytest.raises(outrigger.InputError, match=words):
        outrigger.sweep(one, values)


def test_keys_that_do_not_go_together_refuse_a_row(one):
    with pytest.raises(outrigger.CaseFaultsError, match=r"top_notch.*cuts through") as told:
        outrigger.sweep(one, {"outrigger.top_notch": ["none", "5 1/2 in"], "gap.width": [6]})
    assert str(told.value).startswith("outrigger.top_notch = 5 1/2 in, gap.width = 6: 1 fault")


def test_a_sweep_of_another_roof_asks_for_the_reactions_of_its_truss_sheet(one):
    """They would stay, of the old span."""
    line = dict.fromkeys(("D", "L", "Lr", "S", "W_up", "W_down"), "100 plf")
    setting = "garage_roof.line={" + ", ".join(f'{k}="{v}"' for k, v in line.items()) + "}"
    sheet = outrigger.read_case(PASSES, setting)
    with pytest.raises(outrigger.InputError, match="reactions of the truss sheet are of that roof"):
        outrigger.sweep(sheet, roof_span=["20 ft", "40 ft"])
    both = {"garage_roof.span": ["20 ft", "40 ft"], "garage_roof.line.D": ["100 plf", "200 plf"]}
    assert len(outrigger.sweep(sheet, both, cross=False).rows) == 2


def test_rows_go_into_a_table(one):
    rows = outrigger.sweep(one, gap=["6 in", "20 in"]).as_dict()["rows"]
    assert list(rows[0]) == ["gap.width", "works", "verdict", "ratio", "id", "place", "link",
                             "combination", "open", "digest"]  # fmt: skip
    assert [row["verdict"] for row in rows] == ["pass", "fail"]
    json.dumps(rows, allow_nan=False)


def test_what_is_open_stands_in_each_row():
    sketch = outrigger.read_case(OPEN)
    for row in outrigger.sweep(sketch, gap=[6, 7]).rows:
        keys = [one.key for one in outrigger.design(row.case).not_given]
        assert keys
        assert row.open[: len(keys)] == keys


# Studies and the summary.


@pytest.mark.parametrize("path", [PASSES, OPEN], ids=lambda p: p.stem)
def test_the_largest_gap_works_and_the_next_sixteenth_does_not(path):
    case = outrigger.read_case(path)
    gap = outrigger.largest_gap(case)
    assert outrigger.design(with_numbers(case, {"gap.width": gap})).works
    assert not outrigger.design(with_numbers(case, {"gap.width": gap + 1 / 16})).works


def test_no_gap_works():
    assert outrigger.largest_gap(outrigger.read_case(FAILS)) is None


def test_sizes_are_those_of_the_command(one, run):
    found = outrigger.sizes(one)
    printed = json.loads(run("size", PASSES, "--json").stdout)
    assert [c.size for c in found.choices] == [row["size"] for row in printed]
    assert len(repr(found)) < 100


def test_a_summary_is_that_of_the_command(run, tmp_path):
    of_command, of_python = tmp_path / "a.md", tmp_path / "b.md"
    run("summary", PASSES, "gap=7in", "-o", of_command)
    case = outrigger.read_case(PASSES, "gap=7in")
    assert outrigger.summary(case, of_python) == of_python
    assert of_python.read_bytes() == of_command.read_bytes()
    with pytest.raises(outrigger.InputError, match="overwrite=True"):
        outrigger.summary(outrigger.design(case), of_python)
    outrigger.summary(outrigger.design(case), of_python, overwrite=True)
    assert of_python.read_bytes() == of_command.read_bytes()


def test_a_summary_of_tables_carries_them(one, tmp_path):
    written = outrigger.summary(outrigger.case(one.origin.tables), tmp_path / "job.pdf")
    assert written.read_bytes().startswith(b"%PDF")


def test_a_summary_of_a_changed_case_is_refused(one, tmp_path):
    with pytest.raises(outrigger.InputError, match="changed in Python"):
        outrigger.summary(with_numbers(one, {"gap.width": 7.0}), tmp_path / "job.md")
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("name", "path", "values"),
    [
        ("plate_drift_line", "house_roof.sheathing_bearing", ["120 psi", "400 psi"]),
        ("plate_drift_line", "gap.garage_plate", ["3 1/2 in", "5 1/2 in", "7 1/4 in"]),
        ("lag_through_the_outrigger", "outrigger.behind_back", ["3/4 in", "3 in", "1 in"]),
    ],
)
def test_a_number_that_other_numbers_hang_on_is_each_rows_own(name, path, values):
    """Crushing by its own sheathing, the plate as wide as it is, a lag's end distance."""
    places = (ROOT / "outrigger" / "proof" / "data" / "cases", ROOT / "examples")
    (file,) = (p for folder in places if (p := folder / f"{name}.toml").exists())
    found = outrigger.sweep(outrigger.read_case(file), {path: values})
    for i, value in enumerate(values):
        single = outrigger.design(outrigger.read_case(file, f"{path}={value}"))
        for id in {one.id for one in single.rows if one.ratio is not None}:
            largest = max(r.ratio for r in single.rows if r.id == id and r.ratio is not None)
            assert found.ratios[id][i] == largest, (value, id)
