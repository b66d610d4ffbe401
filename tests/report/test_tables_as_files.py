"""Cut list, material list, card, gaps and sizes as files for a spreadsheet or a program."""

import csv
import io
import json

import pytest
import spreadsheets
from sample_case import FEW

HEADS = {"marks": "mark", "cut list": "what", "stock": "count", "material list": "count"}


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(FEW + '\n[layout]\nrun = "24 ft"\n', encoding="utf-8")
    return path


@pytest.fixture
def plain(tmp_path):
    """The same without a layout, so that no study runs each mark."""
    path = tmp_path / "plain.toml"
    path.write_text(FEW, encoding="utf-8")
    return path


def test_a_layout_as_a_workbook(run, job, tmp_path):
    """24 ft at 16 in: 19 outriggers of 4 ft + 3 in + 9 3/4 in + 1 3/4 in = 62 1/2 in; a wall of 18
    bays, blocked at edge and back: two blocks a bay."""
    done = run("layout", job, "-o", tmp_path / "wall.xlsx")
    assert done.returncode == 0 and "Wrote" in done.stderr
    book = spreadsheets.read(tmp_path / "wall.xlsx")
    assert list(book) == ["Marks", "Cut list", "Stock", "Material list"]
    cuts = spreadsheets.table(book["Cut list"], "what")
    assert cuts[0]["what"] == "outrigger" and cuts[0]["count"] == 19
    assert cuts[0]["length in"] == 62.5 and cuts[0]["length ft in"] == "5'-2 1/2\""
    assert sum(one["count"] for one in cuts if one["what"] == "block") == 2 * 18
    assert len(spreadsheets.table(book["Marks"], "mark")) == 19
    stock = spreadsheets.table(book["Stock"], "count")
    material = spreadsheets.table(book["Material list"], "count")
    assert sum(one["count"] for one in stock) == sum(
        one["count"] for one in material if one["how"] == "stock"
    )
    for rows in book.values():
        said = " ".join(str(row[0]) for row in rows[:8])
        assert "A licensed engineer must verify and adopt." in said
        assert "Not checked:" in said and "Not permission to build" in said
        assert "SAMPLE" not in said


def test_a_layout_as_an_object_and_as_lists(run, job, tmp_path):
    run("layout", job, "-o", tmp_path / "wall.json")
    found = json.loads((tmp_path / "wall.json").read_text(encoding="utf-8"))
    assert found["sample"] is False and found["verdict"] == "pass" and found["not_checked"]
    assert len(found["marks"]) == 19 and found["cut_list"][0]["length_in"] == 62.5
    assert {one["what"] for one in found["cut_list"]} == {"outrigger", "block"}
    assert found["stock"] and found["material_list"]
    run("layout", job, "-o", tmp_path / "wall.csv")
    rows = list(csv.DictReader(io.StringIO((tmp_path / "wall.csv").read_text(encoding="utf-8"))))
    assert {row["list"] for row in rows} == {"cut", "material"}
    assert {row["sample"] for row in rows} == {"false"}
    assert rows[0]["length_in"] == "62.5" and rows[0]["count"] == "19"


@pytest.mark.parametrize("command", ["gap", "size", "card"])
def test_a_study_as_a_file_has_the_rows_of_its_json(command, run, plain, tmp_path):
    said = json.loads(run(command, plain, "--json").stdout)
    for ending in ("json", "csv", "xlsx"):
        done = run(command, plain, "-o", tmp_path / f"{command}.{ending}")
        assert done.returncode == 0
    assert json.loads((tmp_path / f"{command}.json").read_text(encoding="utf-8")) == said
    text = (tmp_path / f"{command}.csv").read_text(encoding="utf-8")
    assert len(list(csv.DictReader(io.StringIO(text)))) == len(said)
    book = spreadsheets.read(tmp_path / f"{command}.xlsx")
    name = "Cells" if command == "card" else command.capitalize()
    rows = next(i for i, row in enumerate(book[name]) if row[0] == "verdict" or row[0] == "gap in"
                or row[0] == "species")  # fmt: skip
    assert len(book[name]) - rows - 1 == len(said)


def test_a_card_keeps_its_letters_and_what_it_holds_for(run, plain, tmp_path):
    run("card", plain, "-o", tmp_path / "card.xlsx")
    book = spreadsheets.read(tmp_path / "card.xlsx")
    assert list(book) == ["Card", "It holds for", "Cells"]
    named = [row[0] for row in book["It holds for"]]
    assert any(str(one).startswith("letter ") for one in named) and "member" in named


def test_other_endings_and_files_that_are_there_are_refused(run, job, tmp_path):
    for command in ("layout", "gap", "size", "card"):
        done = run(command, job, "-o", tmp_path / "out.ods")
        assert done.returncode == 2 and ".xlsx" in done.stderr
    (tmp_path / "there.xlsx").write_text("kept", encoding="utf-8")
    done = run("gap", job, "-o", tmp_path / "there.xlsx")
    assert done.returncode == 2 and "--overwrite" in done.stderr
    assert (tmp_path / "there.xlsx").read_text(encoding="utf-8") == "kept"
