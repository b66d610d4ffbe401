"""The case file on the desk of the page: what is typed, what comes of it, what is saved."""

import re
import tomllib
from pathlib import Path

import pytest
from pages import opened
from sample_case import BUNDLED, EVERY_KEY, EVERY_OTHER_KEY, STATED

from outrigger.base.errors import InputError
from outrigger.cases.filled import stated
from outrigger.cases.names import BASE_KEY
from outrigger.cases.read import CaseFile
from outrigger.cli.form import form
from outrigger.page.desk import Desk
from outrigger.page.form import BY_HAND, shown
from outrigger.page.sheet import Sheet, taken
from outrigger.report import verdict_words
from outrigger.verdict.design import design

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.mark.parametrize("text", [EVERY_KEY, EVERY_OTHER_KEY, STATED, BUNDLED])
def test_what_a_field_shows_may_be_typed(tmp_path, text):
    """Every value of a file, shown in its field and typed there again, leaves what it says."""
    sheet = Sheet(CaseFile(tmp_path / "job.toml", text))
    made = form(sheet.given)
    typed = {
        key: value
        for key, value in sheet.values(made).items()
        if value and value != BY_HAND and key != "project.date"  # which is text in a field
    }
    after = taken(made, sheet, typed)
    assert after.refused == {}
    before = {key: value for key, value in tomllib.loads(text).items() if value}
    said = tomllib.loads(after.sheet.text)
    for table in before:
        assert said[table] == before[table], table


def test_every_key_has_a_field():
    """Each key of the schema stands in the form once, clips at the back and at the edge; the base
    of a file is named above its fields."""
    from outrigger.cli.keys import rows

    fields = form(stated(EVERY_KEY)).fields
    keys = [field.key for field in fields]
    assert len(keys) == len(set(keys)) == len({field.id for field in fields})
    for key, written, *_ in rows():
        if key == BASE_KEY:
            continue
        key = re.sub(r"^(garage_roof.point|layout.openings)\.", r"\1[0].", key)
        if written != "table" and not re.fullmatch(r"hold_down.*\.at", key):
            assert key in keys, key


def test_what_is_said_to_be_none_is_told_as_check_tells_it(tmp_path):
    """The sample states no storage, no force along the wall and no sliding."""
    desk, text, stamp = opened(tmp_path / "job.toml", BUNDLED)
    html = desk.answer(text, stamp, {})["html"]
    assert "You said none of: storage, force along the wall, sliding." in html


def test_what_other_marks_of_a_layout_use_more_of_is_told(tmp_path):
    """The rows are of mark 1, at which the house rafter decides; an outrigger inside the row bends
    under two thirds more of the roof, and its 0.76 stood nowhere."""
    text = (EXAMPLES / "rafters_and_studs.toml").read_text(encoding="utf-8")
    desk, text, stamp = opened(tmp_path / "job.toml", f'{text}\n[layout]\nrun = "20 ft"\n')
    html = desk.answer(text, stamp, {})["html"]
    assert "Rows are of mark 1. Others use more of: bending at the house wall 0.76 (mark 4)" in html


def test_the_answer_is_that_of_check(tmp_path):
    desk, text, stamp = opened(tmp_path / "job.toml", STATED)
    found = desk.answer(text, stamp, {"gap.width": "9"})
    case, _ = CaseFile(tmp_path / "job.toml", STATED).case(["gap=9 in"])
    assert found["verdict"] == verdict_words.verdict_line(design(case))
    assert found["values"]["gap.width"] == "9 in"
    assert found["changed"] and "rev 0 changed" in found["html"]


@pytest.mark.parametrize(
    ("key", "typed", "said", "written"),
    [
        ("gap.width", "7-1/2", "7-1/2 in", "7-1/2 in"),
        ("gap.width", "7 1/2\"", '7 1/2"', '7 1/2"'),
        ("garage_roof.span", "22", "22 ft", "22 ft"),
        ("outrigger.blocking", "none", "none", []),
        ("house_roof.framing_parallel", "no", "no", False),
        ("snow.exposure", "C partly", "C, partially exposed", "C, partially exposed"),
        ("garage_wall.along", "none", "none", "none"),
        ("hold_down[back].count", "3", "3", 3),
    ],
)  # fmt: skip
def test_a_bare_number_is_in_the_unit_beside_it(tmp_path, key, typed, said, written):
    desk, text, stamp = opened(tmp_path / "job.toml", STATED)
    found = desk.answer(text, stamp, {key: typed})
    assert found["values"][key] == said
    table, _, name = key.partition(".")
    tables = tomllib.loads(found["text"])
    place = next(e for e in tables["hold_down"] if e["at"] == "back")
    assert (place if table.startswith("hold") else tables[table])[name] == written


@pytest.mark.parametrize("at", ["16.5 in", "16 1/2 in", """1'-4.5\\\"""", "16.50in"])
def test_clips_at_a_measured_place_have_fields(tmp_path, at):
    """A point in the place parts no key; typed, emptied and gone it is that clip's alone."""
    more = STATED[STATED.index("[[hold_down]]") :].partition('[[hold_down]]\nat = "edge"')[0]
    text = STATED + more.replace('at = "back"', f'at = "{at}"')
    place = tomllib.loads(text)["hold_down"][2]["at"].lower()
    key = f"hold_down[{place}].rated_uplift"
    desk, text, stamp = opened(tmp_path / "job.toml", text)
    found = desk.answer(text, stamp, {key: "500"})
    assert found["status"] in ("pass", "fail", "open") and found["values"][key] == "500 lb"
    uplifts = [one.get("rated_uplift") for one in tomllib.loads(found["text"])["hold_down"]]
    assert uplifts == ["420 lb", "420 lb", "500 lb"]
    emptied = desk.answer(found["text"], stamp, {key: ""})
    uplifts = [one.get("rated_uplift") for one in tomllib.loads(emptied["text"])["hold_down"]]
    assert uplifts == ["420 lb", "420 lb", None]
    wrong = desk.answer(text, stamp, {key: "heavy"})
    assert key in wrong["faults"]
    cured = desk.cured(text, stamp, [f"hold_down[{place}].count=3"])
    assert tomllib.loads(cured["text"])["hold_down"][2]["count"] == 3


def test_how_long_the_wall_is_is_asked(tmp_path):
    """A bare number is in ft; emptied the case is again of one outrigger, not one that asks."""
    asked = [field.key for group in form({}).asked for field in group.fields]
    assert asked.index("layout.run") == asked.index("outrigger.back_span") + 1
    desk, text, stamp = opened(tmp_path / "job.toml", STATED)
    before = desk.answer(text, stamp, {})
    found = desk.answer(text, stamp, {"layout.run": "16"})
    assert found["values"]["layout.run"] == "16 ft" and 'id="marks"' in found["html"]
    feet = desk.answer(found["text"], stamp, {"layout.run": """15'-8 1/2\""""})
    assert tomllib.loads(feet["text"])["layout"]["run"] == """15'-8 1/2\""""
    emptied = desk.answer(feet["text"], stamp, {"layout.run": ""})
    assert emptied["verdict"] == before["verdict"] and 'id="marks"' not in emptied["html"]
    again = desk.answer(emptied["text"], stamp, {"layout.run": "16"})
    assert again["verdict"] == found["verdict"]


@pytest.mark.parametrize("spelled", ["", 'openings = [{ from = "1 ft", to = "2 ft" }]'])
def test_tables_of_a_list_are_added_changed_and_removed(tmp_path, spelled):
    """An opening of the layout: half of it is asked for the rest; each is emptied by itself."""
    text = f'{STATED}\n[layout]\nrun = "16 ft"\n{spelled}\n'
    n = 1 if spelled else 0
    desk, text, stamp = opened(tmp_path / "job.toml", text)
    key = f"layout.openings[{n}]"
    half = desk.answer(text, stamp, {f"{key}.from": "6 ft"})
    assert half["status"] == "none" and f"{key}.to" in half["faults"]
    full = desk.answer(half["text"], stamp, {f"{key}.to": "8 ft"})
    openings = tomllib.loads(full["text"])["layout"]["openings"]
    assert openings[n:] == [{"from": "6 ft", "to": "8 ft"}] and full["token"]
    other = desk.answer(full["text"], stamp, {f"{key}.to": "9 ft"})
    assert other["values"][f"{key}.to"] == "9 ft"
    far = desk.answer(text, stamp, {f"layout.openings[{n + 1}].from": "6 ft"})
    assert far["faults"][f"layout.openings[{n + 1}].from"] == "fill in the one before it first."
    empty = desk.answer(other["text"], stamp, {f"{key}.from": "", f"{key}.to": ""})
    assert tomllib.loads(empty["text"]) == tomllib.loads(text)


def test_point_loads_spelled_as_tables(tmp_path):
    """Each under its own line [[garage_roof.point]]: changed and removed all the same."""
    more = '\n[[garage_roof.point]]\nat = "5 ft"\nD = "300 lb"\n\n[layout]\nrun = "16 ft"\n'
    desk, text, stamp = opened(tmp_path / "job.toml", STATED + more)
    first = desk.answer(text, stamp, {})
    assert first["values"]["garage_roof.point[0].D"] == "300 lb"
    found = desk.answer(text, stamp, {"garage_roof.point[0].D": "400"})
    assert tomllib.loads(found["text"])["garage_roof"]["point"] == [{"at": "5 ft", "D": "400 lb"}]
    gone = desk.answer(text, stamp, {"garage_roof.point[0].D": "", "garage_roof.point[0].at": ""})
    assert "point" not in tomllib.loads(gone["text"])["garage_roof"]


def test_layers_are_weighed(tmp_path):
    """As `new` does: the load and where it is from."""
    desk, text, stamp = opened(tmp_path / "job.toml", STATED)
    found = desk.answer(text, stamp, {"house_roof.dead": "shingles + plywood 5/8"})
    assert found["values"]["house_roof.dead"].endswith("psf")
    assert "shingles" in found["values"]["house_roof.dead_source"]


@pytest.mark.parametrize(
    ("key", "typed", "said"),
    [
        ("gap.width", "12 parsecs", "not a length"),
        ("outrigger.size", "2x7", "no such size"),
        ("gap.edge_setback", "4", "4 in"),
        ("hold_down[back].rated_uplift", "1", "Write a thousand without a comma"),
        ("garage_wall.along", "yes", "plf"),
    ],
)
def test_what_cannot_be_read_is_not_in_the_file(tmp_path, key, typed, said):
    """The words stand beside its field; there is no verdict, and the text is as it was."""
    desk, text, stamp = opened(tmp_path / "job.toml", STATED)
    found = desk.answer(text, stamp, {key: typed})
    assert said in found["faults"][key]
    assert found["text"] == text and found["status"] == "none" and found["token"] == ""
    assert found["verdict"] == "No verdict: 1 answer cannot be read. See beside the field."
    assert "takes" not in found["html"]


def test_a_fault_of_the_file_stands_beside_its_field(tmp_path):
    """Of the clips at the edge, which are the second table of the file."""
    head, edge, tail = STATED.partition('at = "edge"')
    text = head + edge + tail.replace('rated_for = "wind"', 'rated_for = "windy"', 1)
    desk, text, stamp = opened(tmp_path / "job.toml", text)
    found = desk.answer(text, stamp, {})
    assert found["status"] == "none"
    assert 'allowed are "wind", "roof live"' in found["faults"]["hold_down[edge].rated_for"]
    assert 'href="#f-hold-down-edge--rated-for"' in found["html"]


def test_emptied_is_open_and_names_who_has_it(tmp_path):
    desk, text, stamp = opened(tmp_path / "job.toml", STATED)
    found = desk.answer(text, stamp, {"garage_roof.dead": ""})
    assert found["verdict"].startswith("OPEN: cannot say yet, roof dead load not given")
    assert 'href="#f-garage-roof-dead"' in found["html"]


def test_one_snow(tmp_path):
    """Snow of the house roof that is stated moves with the ground snow: 20 x 40/25 = 32 psf."""
    text = STATED.replace("[house_roof]", '[house_roof]\nsnow = "20 psf"')
    desk, text, stamp = opened(tmp_path / "job.toml", text)
    assert desk.answer(text, stamp, {})["values"]["snow.ground"] == "25 psf"
    found = desk.answer(text, stamp, {"snow.ground": "40"})
    assert tomllib.loads(found["text"])["house_roof"]["snow"] in ("32 psf", "32.0 psf")
    assert "Moved with it" in found["html"]


def test_another_roof_beside_its_truss_sheet_says_that_the_reactions_stay(tmp_path):
    """Reactions of a sheet for 18 ft, and a span of 40 ft typed."""
    line = 'line = { D = "150 plf", L = "0 plf", Lr = "200 plf", S = "200 plf", W_up = "180 plf" }'
    text = STATED.replace("[garage_roof]", f"[garage_roof]\n{line}")
    desk, text, stamp = opened(tmp_path / "job.toml", text)
    found = desk.answer(text, stamp, {"garage_roof.span": "40"})
    assert "beside that garage_roof.line, which would stay" in " ".join(found["html"].split())
    assert "which would stay" not in desk.answer(text, stamp, {"gap.width": "7"})["html"]


def test_a_file_begins_with_nothing_stated(tmp_path):
    """The starter, then answers; Save makes the file, of revision 0: no paper of it was out."""
    desk, text, stamp = opened(tmp_path / "new.toml")
    first = desk.answer(text, stamp, {})
    assert first["verdict"].startswith("Nothing is stated yet.")
    assert stamp == "" and not (tmp_path / "new.toml").exists()
    found = desk.answer(text, stamp, {"gap.width": "4", "project.name": "Mine"})
    assert found["verdict"].startswith("No verdict yet:")
    saved = desk.save(found["text"], stamp)
    written = tomllib.loads((tmp_path / "new.toml").read_text())
    assert saved["told"] == "Saved."
    assert written["gap"]["width"] == "4 in" and written["project"]["revision"] == "0"
    again = desk.answer(saved["text"], saved["stamp"], {"gap.house_finish": "1/2"})
    desk.save(again["text"], again["stamp"])
    assert tomllib.loads((tmp_path / "new.toml").read_text())["project"]["revision"] == "0"


def test_saved_whole_with_its_comments_and_the_next_revision(tmp_path):
    path = tmp_path / "job.toml"
    desk, text, stamp = opened(path, f"# a remark of mine\n{STATED}")
    found = desk.answer(text, stamp, {"gap.width": "5"})
    saved = desk.save(found["text"], stamp)
    after = path.read_text(encoding="utf-8")
    assert after.startswith("# a remark of mine\n")
    assert tomllib.loads(after)["gap"]["width"] == "5 in"
    assert saved["told"] == "Saved as revision 1." and not saved["changed"]
    assert tomllib.loads(after)["project"]["revision"] == "1"
    assert "changed" not in saved["html"].partition("<picture>")[0]


@pytest.mark.parametrize("end", [b"\n", b"\r\n"])
def test_line_ends_are_kept(tmp_path, end):
    """A file of another system is saved with its line ends, and read again as it was."""
    path = tmp_path / "job.toml"
    path.write_bytes(STATED.encode().replace(b"\n", end))
    desk, text, stamp = opened(path)
    assert "\r" not in text
    saved = desk.save(desk.answer(text, stamp, {"gap.width": "5"})["text"], stamp)
    written = path.read_bytes()
    assert written.count(b"\n") == written.count(end) and b"\r\r" not in written
    assert not saved["changed"] and saved["elsewhere"] == ""
    assert desk.read()[0] == saved["text"]


def test_never_over_a_change_made_elsewhere(tmp_path):
    path = tmp_path / "job.toml"
    desk, text, stamp = opened(path, STATED)
    path.write_text(STATED + "# by an editor\n", encoding="utf-8")
    found = desk.answer(text, stamp, {"gap.width": "5"})
    assert "changed elsewhere" in found["elsewhere"]
    with pytest.raises(InputError, match="changed elsewhere"):
        desk.save(found["text"], stamp)
    assert path.read_text(encoding="utf-8").endswith("# by an editor\n")


def test_a_file_that_has_come_to_be_is_not_written_over(tmp_path):
    desk, text, stamp = opened(tmp_path / "new.toml")
    (tmp_path / "new.toml").write_text(STATED, encoding="utf-8")
    with pytest.raises(InputError, match="changed elsewhere"):
        desk.save(text, stamp)


def test_the_sample_is_not_written(tmp_path):
    path = tmp_path / "sample.toml"
    path.write_text(BUNDLED, encoding="utf-8")
    desk = Desk(path, form, sample=True)
    text, stamp = desk.read()
    with pytest.raises(InputError, match="sample is not written over"):
        desk.save(text, stamp)


@pytest.mark.parametrize(
    ("wrong", "key"),
    [("gap = 3", "gap.width"), ("hold_down = 3", "hold_down[back].count"),
     ("hold_down = [3]", "hold_down[back].count"), ('[gap]\nwidth = ["a"]', "gap.width"),
     ("[gap]\nwidth = { a = 1 }", "gap.house_finish"), ("[snow]\ndrift = 3", "snow.drift.on")],
)  # fmt: skip
def test_a_file_that_is_no_case_at_all(tmp_path, wrong, key):
    """It is told in words; what is typed beside it breaks nothing."""
    desk, text, stamp = opened(tmp_path / "job.toml", f"{wrong}\n")
    for typed in ({}, {key: "garage roof"}, {key: "2"}, {key: ""}):
        found = desk.answer(text, stamp, typed)
        assert found["status"] == "none" and found["html"]


def test_values_for_people():
    assert shown(True) == "yes" and shown([]) == "none" and shown(["a", "b"]) == "a, b"
