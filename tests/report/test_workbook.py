"""The live workbook: recalculated by another program, changed, and read as a stranger reads it."""

import ast
import math
import re
import sys
import zipfile
from pathlib import Path

import numpy as np
import pytest
import spreadsheets
from sample_case import EVERY_KEY, FEW
from test_formulas import every_formula, numbers_for
from thorough import THOROUGH, some

import outrigger
from outrigger.cases.read import opened
from outrigger.formula.cells import cell_formula
from outrigger.formula.formula import Formula, Step, given
from outrigger.report import verdict_words, words
from outrigger.report.rows import worst_first
from outrigger.verdict.design import design

EXAMPLES = Path(__file__).parents[2] / "examples"
SAMPLE = Path(outrigger.__file__).with_name("sample.toml")
SIMPLE = EXAMPLES / "clip_listed_for_wind.toml"
SO = {"pass": "passes", "fail": "FAILS", "open": "open"}
AGAIN = "run check again"


def ratios(book):
    """The table of the first sheet, in its order."""
    return spreadsheets.table(book["Summary"], "where")


def verdict(book):
    """The live verdict: the large line under the job."""
    begin = ("PASS", "FAIL", "OPEN", "SAMPLE:", "RUN")
    lines = [row[0] for row in book["Summary"] if isinstance(row[0], str)]
    return next(line for line in lines[3:] if line.startswith(begin))


# --- the printer


def evaluated(text):
    """Python's own arithmetic on a formula of a spreadsheet."""
    names = {"SQRT": math.sqrt, "MIN": min, "MAX": max, "RADIANS": math.radians}
    names |= {"SIN": math.sin, "COS": math.cos}
    return eval(text.replace("^", "**"), names)


@every_formula
def test_a_formula_of_a_spreadsheet_is_the_formula(one):
    numbers = numbers_for(one)
    cells = {name: f"({value!r})" for name, value in numbers.items()}
    assert evaluated(cell_formula(one, cells)) == pytest.approx(one(**numbers), rel=1e-12)


def test_a_sign_before_a_power_is_written_as_meant():
    """A spreadsheet reads -2^2 as 4, the standard as -4."""

    def turned(a, b):
        return -(a**2) + b

    one = Formula("M", "lb-in", "", turned)
    assert cell_formula(one, {"a": "A1", "b": "B1"}) == "(-(A1^2))+B1"
    assert isinstance(one.tree, ast.expr)


# --- read without recalculation


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    """Writes a workbook once for each case of the module."""
    from running import run

    folder, made = tmp_path_factory.mktemp("books"), {}

    def of(path):
        if path not in made:
            to = folder / f"{path.stem}.xlsx"
            run("summary", path, "-o", to)
            made[path] = to
        return made[path]

    return of


@pytest.mark.parametrize("path", [SAMPLE, SIMPLE, EXAMPLES / "open_first_sketch.toml"])
def test_the_values_inside_are_the_programs(path, written):
    book, result = spreadsheets.read(written(path)), design(opened(path).case()[0])
    rows = worst_first(result.rows)
    lines = ratios(book)
    assert len(lines) == len(rows)
    for row, line in zip(rows, lines, strict=True):
        assert line["so"] == SO[row.status]
        if words.quiet(row):
            assert line["under, as run"] == "nothing to carry"
            continue
        assert line["demand"] == row.demand
        if row.ratio is not None:
            assert line["used"] == row.ratio
    sample = path == SAMPLE or result.case.project.invented
    word = result.verdict if sample else result.verdict.upper()
    assert verdict(book) == (f"SAMPLE: {word}" if sample else word)
    said = [row[0] for row in book["Summary"]]
    assert f"As run: {verdict_words.verdict_line(result, sample)}" in said
    assert {row[0] for row in book["Summary"]} >= {"Cautions, the most dangerous first"}


def test_every_caution_stands_in_full(written):
    from outrigger.report import cautions

    said = {row[0] for row in spreadsheets.read(written(SAMPLE))["Summary"]}
    full = cautions.as_data(design(opened(SAMPLE).case()[0]))
    for one in (*full["cautions"], *full["not_checked"]):
        assert one[:1].upper() + one[1:] in said


def test_what_other_marks_of_a_layout_use_more_of_is_told(run, tmp_path):
    """The rows are of the end mark, where the house rafter decides; inside the row bending is 0.76,
    two thirds more of the roof."""
    case, book = EXAMPLES / "rafters_and_studs.toml", tmp_path / "row.xlsx"
    assert run("summary", case, "layout.run=20ft", "-o", book).returncode == 0
    said = {str(row[0]) for row in spreadsheets.read(book)["Summary"]}
    assert any(one.startswith("Rows are of mark 1.") and "bending at the house wall 0.76" in one
               for one in said)  # fmt: skip


def test_each_input_has_its_source_and_status(written):
    rows = spreadsheets.read(written(SAMPLE))["Inputs"]
    Fb = next(row for row in rows if row[0] == "Fb" and "Douglas Fir-Larch No. 2" in row[8])
    assert Fb[2] == 900 and Fb[3] == "psi"  # NDS Supplement Table 4A
    assert Fb[8].startswith("NDS Supplement 2018, Table 4A, Douglas Fir-Larch No. 2")
    assert Fb[9] == "UNVERIFIED: second-hand"
    dead = [row for row in rows if row[10] == "garage_roof.dead"]
    assert [row[2:4] for row in dead] == [[15.0, "psf"]]


def test_the_same_bytes_each_time(run, tmp_path):
    run("summary", SIMPLE, "-o", tmp_path / "one.xlsx")
    run("summary", SIMPLE, "-o", tmp_path / "other.xlsx")
    assert (tmp_path / "one.xlsx").read_bytes() == (tmp_path / "other.xlsx").read_bytes()


NAMES = ("=1+1", "+cmd|' /C calc'!A0", "@SUM(1)", "-2+3", "{=1}", "=HYPERLINK(1)", "&G &A")


@pytest.mark.parametrize("name", NAMES)
def test_a_users_text_is_never_a_formula(name, run, tmp_path):
    """Each name by one of the two commands in turn, by both when thorough."""
    case = tmp_path / "job.toml"
    text = re.sub(r"(?m)^name = .*$", lambda _: f"name = '''{name}'''", FEW, count=1)
    case.write_text(text.replace("a listing of", name), encoding="utf-8")
    both = ("summary", "layout")
    for command in both if THOROUGH else [both[NAMES.index(name) % 2]]:
        to = tmp_path / f"{command}.xlsx"
        more = ["layout.run=24ft"] if command == "layout" else []
        run(command, case, *more, "-o", to)
        with zipfile.ZipFile(to) as inside:
            for part in inside.namelist():
                if part.startswith("xl/worksheets/sheet"):
                    xml = inside.read(part).decode()
                    formulas = re.findall(r"<f>(.*?)</f>", xml)
                    assert not [one for one in formulas if "calc" in one or "HYPER" in one]
                    assert "<hyperlink" not in xml
            if name == "&G &A":  # a picture and a sheet's name in the foot of a page
                assert "&amp;8andG andA, rev" in xml
        said = [cell for rows in spreadsheets.read(to).values() for row in rows for cell in row]
        assert any(isinstance(one, str) and one.startswith(name) for one in said)


def test_every_sheet_of_a_sample_says_so(run, tmp_path, monkeypatch):
    monkeypatch.setattr("outrigger.cli.common.SAMPLE_FILE", EXAMPLES / "passes.toml")
    for command in ("summary", "layout", "gap", "size", "card"):
        run(command, "-o", tmp_path / f"{command}.xlsx")
        with zipfile.ZipFile(tmp_path / f"{command}.xlsx") as inside:
            sheets = [one for one in inside.namelist() if one.startswith("xl/worksheets/sheet")]
            for one in sheets:
                assert "SAMPLE, not your job" in inside.read(one).decode(), (command, one)


def test_the_library_is_not_imported_before_it_writes(process):
    code = (
        "import sys, outrigger.cli.app, outrigger.cli.summary; print('xlsxwriter' in sys.modules)"
    )
    import subprocess

    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def test_since_and_a_workbook_are_refused(run, tmp_path):
    done = run("summary", SIMPLE, "-o", tmp_path / "a.xlsx", "--since", SIMPLE)
    assert done.returncode == 2 and "--since" in done.stderr


# --- recalculated by LibreOffice


def differences(one, other):
    """Cells that differ by more than 1e-9 of the number, or 1e-11 of a pound or an inch."""
    for sheet, rows in one.items():
        for i, (row, again) in enumerate(zip(rows, other[sheet], strict=True), 1):
            for j, (a, b) in enumerate(zip(row, again, strict=False)):
                both = isinstance(a, float) and isinstance(b, float)
                if both and abs(a - b) <= 1e-9 * max(abs(a), abs(b)) + 1e-11:
                    continue
                if a != b:
                    yield sheet, i, j, a, b


def test_libreoffice_agrees_on_every_number_of_every_example(written, tmp_path):
    """Some thirty thousand formulas each, computed anew; texts, states and verdicts too."""
    every_key = tmp_path / "every_key.toml"
    every_key.write_text(EVERY_KEY, encoding="utf-8")
    every = sorted(EXAMPLES.glob("*.toml"))  # two of them by default, all before a release
    paths = [every_key, *([SAMPLE, *every] if THOROUGH else every[::16])]
    books = [written(path) for path in paths]
    found = spreadsheets.recalculated(books, tmp_path)
    for book in books:
        before = spreadsheets.read(book)
        assert list(before) == list(found[book.stem])
        assert not list(differences(before, found[book.stem])), book.stem


# what is changed: the key and its setting, or for the grade the values that Table 4A prints
NO_1 = {"Fb": 1000.0, "Fv": 180.0, "E": 1_700_000.0, "Emin": 620_000.0}  # DF-L No. 1
CHANGES = {
    "dead load": ("garage_roof.dead", 16.0, "psf", ("bending", "edge")),
    "roof span": ("garage_roof.span", 252.0, "in", ("bending", "edge")),
    "snow": ("snow.roof", 33.0, "psf", ("shear", "edge")),
    "house roof": ("house_roof.dead", 8.0, "psf", ("hold_down:back", "back")),
    "wall height": ("garage_wall.height", 40.0, "in", ("wall_bearing", "wall line")),
    "wall weight": ("garage_wall.dead", 12.0, "psf", ("shear", "edge")),
    "listed value": ("hold_down[back].rated_uplift", 300.0, "lb", ("hold_down:back", "back")),
    "grade": ("outrigger.grade", "No. 1", "", ("live_deflection", "wall line")),
}


@pytest.fixture(scope="module")
def again(written, tmp_path_factory):
    """The simple job computed anew with each of the changes, with hardly any snow, with a longer
    arm: by one start of the other program."""
    folder, book = tmp_path_factory.mktemp("changed"), written(SIMPLE)
    cells = spreadsheets.inputs(spreadsheets.read(book)["Inputs"])
    paths = []
    for name, (key, value, _, _) in CHANGES.items():
        if key == "outrigger.grade":
            was_2 = {900.0, 180.0, 1_600_000.0, 580_000.0}  # No. 2, in the same row
            rows = {r: NO_1[one] for r, one, old, *_ in cells if one in NO_1 and old in was_2}
            assert len(rows) == len(NO_1)
        else:
            rows = {row: value for row, _, _, _, of in cells if of == key}
            assert len(rows) == 1
        paths.append(spreadsheets.changed(book, folder / f"{name}.xlsx", rows))
    (snow,) = (row for row, *_, of in cells if of == "snow.roof")
    paths.append(spreadsheets.changed(book, folder / "light.xlsx", {snow: 1.0}))
    (arm,) = (row for row, symbol, *_ in cells if symbol == "a")
    paths.append(spreadsheets.changed(book, folder / "arm.xlsx", {arm: 20.0}))
    return spreadsheets.recalculated(paths, folder)


def test_a_changed_input_moves_a_ratio_as_check_does(again):
    """Every row follows to 1e-9 or says that it does not; the one named follows and moves."""
    file, before = opened(SIMPLE), {}
    was = design(file.case()[0])
    for row in was.rows:
        before.setdefault((row.id, row.place), row)
    for name, (key, value, unit, named) in CHANGES.items():
        now = design(file.case([f"{key}={value} {unit}".strip()])[0])
        lines = dict(zip(map(id, (r.check for r in worst_first(was.rows))),
                         ratios(again[name]), strict=True))  # fmt: skip
        followed(was, now, lines, name)
        check = before[named].check
        line = lines[id(check)]
        after = next(r for r in now.rows if (r.check.link, r.place) == (check.link, check.place))
        assert after.combination == before[named].combination, name
        assert line["so"] != AGAIN, name
        assert abs(after.ratio - before[named].ratio) > 1e-3, name
        assert line["used"] == pytest.approx(after.ratio, rel=1e-9), name
        assert verdict(again[name]).endswith("run check again before it is used")


def followed(was, now, lines, name):
    """Each line of the workbook says what the program says, or that it does not follow."""
    after = {(row.check.link, row.place): row for row in now.rows}
    for row in was.rows:
        line, new = lines[id(row.check)], after.get((row.check.link, row.place))
        if line["so"] == AGAIN or new is None or new.ratio is None:
            continue
        assert line["used"] == pytest.approx(new.ratio, rel=1e-9, abs=1e-12), (name, row)
        assert line["so"] == SO[new.status], (name, row)


NAMED = ("passes", "row_of_clips", "earthquake_category_c", "rake_with_blocks_on_the_deck")
JOBS = [EXAMPLES / f"{name}.toml" for name in (NAMED if THOROUGH else NAMED[1:3])]


def test_what_is_not_followed_is_never_silent(written, tmp_path):
    """Each load and listed value of some jobs, a half more or a third: every row that does not say
    so is the program's. Rows of hold-downs and drifts have no closed forms."""
    paths, asked = [], []
    for case in [SAMPLE, *JOBS] if THOROUGH else JOBS:
        book, file = written(case), opened(case)
        was = design(file.case()[0])
        found = spreadsheets.inputs(spreadsheets.read(book)["Inputs"])
        keyed = [one for one in found if "." in one[4] and one[2]]
        turns = some(len(keyed), 3, case.stem)
        turns = turns if THOROUGH else turns[::2]
        for row, _, value, unit, key in (keyed[i] for i in turns):
            times = 1.5 if row % 2 else 0.3
            to = tmp_path / f"{case.stem}_{row}.xlsx"
            paths.append(spreadsheets.changed(book, to, {row: value * times}))
            number = abs(value) * times
            said = f"0 ft {number!r} in" if unit == "in" else f"{number!r} {unit}"
            now = design(file.case([f"{key}={said}"])[0])
            asked.append((was, now, f"{case.stem} {key}"))
    again = spreadsheets.recalculated(paths, tmp_path)
    for path, (was, now, name) in zip(paths, asked, strict=True):
        checks = (row.check for row in worst_first(was.rows))
        lines = dict(zip(map(id, checks), ratios(again[path.stem]), strict=True))
        followed(was, now, lines, name)
        assert "run check again" in verdict(again[path.stem]).lower(), name


def test_a_stud_is_as_high_as_its_wall(written, tmp_path):
    """le / d of a stud in a wall of 9 ft is 108 / 3.5 = 30.9 of 50, 0.62; it stood as 0.21, that of
    3 ft, and passed: the wall's height among the loads is the stud's own length too."""
    case = EXAMPLES / "rafters_and_studs.toml"
    rows = spreadsheets.inputs(spreadsheets.read(written(case))["Inputs"])
    (row,) = (row for row, *_, key in rows if key == "garage_wall.height")
    made = spreadsheets.changed(written(case), tmp_path / "high.xlsx", {row: 108.0})
    book = spreadsheets.recalculated([made], tmp_path)["high"]
    studs = [one for one in ratios(book) if one["where"] == "garage wall" and
             one["what"].startswith("stud")]  # fmt: skip
    assert len(studs) == 3
    assert {one["so"] for one in studs} == {AGAIN}


def typed_in(book, to, row, text):
    """A copy of a workbook with a text in column C of its sheet of inputs, by row from 0."""
    cell = rf'<c r="C{row + 1}"( s="\d+")?><v>[^<]*</v></c>'
    with zipfile.ZipFile(book) as old, zipfile.ZipFile(to, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            data = old.read(name)
            if name == "xl/worksheets/sheet2.xml":
                said = f'<c r="C{row + 1}" t="inlineStr"><is><t>{text}</t></is></c>'
                changed, count = re.subn(cell, said, data.decode())
                assert count == 1
                data = changed.encode()
            new.writestr(name, data)
    return to


def test_what_is_no_number_or_of_the_other_sign_is_not_taken(written, tmp_path):
    """Wind up stands as -26 psf: 26 is wind that presses. A listed value of -420 lb passed at 0.02
    with the force along it, and "1,000" was read as a number or not, as the program likes."""
    case = EXAMPLES / "passes.toml"
    rows = {key or symbol: row for row, symbol, *_, key in
            reversed(spreadsheets.inputs(spreadsheets.read(written(case))["Inputs"]))}  # fmt: skip
    wind, snow = rows["wind.uplift"], rows["snow.roof"]
    clip = rows["hold_down[back].rated_uplift"]
    books = [spreadsheets.changed(written(case), tmp_path / "wind.xlsx", {wind: 26.0}),
             spreadsheets.changed(written(case), tmp_path / "clip.xlsx", {clip: -420.0}),
             typed_in(written(case), tmp_path / "snow.xlsx", snow, "40 psf"),
             typed_in(written(case), tmp_path / "empty.xlsx", snow, "")]  # fmt: skip
    found = spreadsheets.recalculated(books, tmp_path)
    for name, what in (("wind", "bending"), ("clip", "pull-out (uplift), each"),
                       ("snow", "bending"), ("empty", "bending")):  # fmt: skip
        line = next(one for one in ratios(found[name]) if one["what"] == what)
        assert line["so"] == AGAIN, name
        assert verdict(found[name]).startswith("SAMPLE: run check again"), name


def test_another_combination_that_governs_is_said(again):
    """Of 30 psf of snow and 20 of roof live, snow governs; with 1 psf of snow roof live does."""
    (bending,) = (one for one in ratios(again["light"]) if one["what"].startswith("bending") and
                  one["where"] == "house wall" and one["demand"] > 100)  # fmt: skip
    assert bending["under, as run"] == "dead + snow"
    assert "another combination governs now: run check again" in bending.values()
    assert any(row[1] == "D + Lr" for row in again["light"]["Bending"])


def test_a_changed_length_is_not_followed(again):
    assert {one["so"] for one in ratios(again["arm"])} == {AGAIN}
    assert "RUN CHECK AGAIN" in verdict(again["arm"]).upper()


def test_what_a_step_takes_of_its_formula_is_kept():
    from outrigger.formula.formula import changed
    from outrigger.studies.live import form_of

    step = given("R", np.array([[1.0, 2.0]]), "lb")
    assert form_of(step) == ""
    for how, form in ((np.abs, "size"), (lambda r: np.maximum(r, 0.0), "not below 0"),
                      (np.negative, "turned")):  # fmt: skip
        one = changed(step, how)
        assert isinstance(one, Step)
        assert form_of(one) == form
    twice = changed(changed(step, np.negative), lambda r: np.maximum(r, 0.0))
    assert form_of(twice) == "turned, not below 0"
    assert form_of(changed(step, lambda r: r**2)) is None
