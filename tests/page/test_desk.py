"""The case file on the desk of the page: what is typed, what comes of it, what is saved."""

import tomllib

import pytest
from pages import opened
from sample_case import BUNDLED, EVERY_KEY, EVERY_OTHER_KEY, STATED

from outrigger.base.errors import InputError
from outrigger.cases.read import CaseFile
from outrigger.cli.form import form
from outrigger.page.desk import Desk
from outrigger.page.form import BY_HAND, shown, taken, values_of
from outrigger.report import verdict_words
from outrigger.verdict.design import design


@pytest.mark.parametrize("text", [EVERY_KEY, EVERY_OTHER_KEY, STATED, BUNDLED])
def test_what_a_field_shows_may_be_typed(text):
    """Every value of a file, shown in its field and typed there again, leaves what it says."""
    made = form(text)
    typed = {
        key: value
        for key, value in values_of(made, text).items()
        if value and value != BY_HAND and key != "project.date"  # which is text in a field
    }
    after = taken(made, text, typed)
    assert after.refused == {}
    before = {key: value for key, value in tomllib.loads(text).items() if value}
    said = tomllib.loads(after.text)
    for table in before:
        assert said[table] == before[table], table


def test_every_key_has_a_field():
    """Each key of the schema stands in the form once, clips at the back and at the edge."""
    from outrigger.cli.keys import rows

    fields = form(EVERY_KEY).fields
    keys = [field.key for field in fields]
    assert len(keys) == len(set(keys)) == len({field.id for field in fields})
    inside = ("garage_roof.point.", "layout.openings.")  # lists of tables, left to the file
    for key, written, *_ in rows():
        if key == "base":  # a file, named in the file
            continue
        if written != "table" and not key.startswith(inside) and not key.endswith("].at"):
            assert key in keys, key


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
    ground = values_of(form(text), text)["snow.ground"]
    assert ground == "25 psf"
    found = desk.answer(text, stamp, {"snow.ground": "40"})
    assert tomllib.loads(found["text"])["house_roof"]["snow"] in ("32 psf", "32.0 psf")
    assert "Moved with it" in found["html"]


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


def over_a_base(folder):
    """A desk of a run that states a gap alone, over a job that states all else."""
    (folder / "job.toml").write_text(STATED, encoding="utf-8")
    text = 'base = "job.toml"\n\n[layout]\ndatum = "left end"\nrun = "12 ft"\n'
    (folder / "left.toml").write_text(text, encoding="utf-8")
    return opened(folder / "left.toml", text)


def test_a_case_over_a_base_is_saved_as_the_next_revision_over_it(tmp_path):
    """Its project table is the base's; what is saved says only what differs."""
    desk, text, stamp = over_a_base(tmp_path)
    found = desk.answer(text, stamp, {"gap.width": "9"})
    saved = desk.save(found["text"], stamp)
    assert saved["told"] == "Saved as revision 1."
    said = tomllib.loads(saved["text"])
    assert said["base"] == "job.toml" and said["gap"] == {"width": "9 in"}
    assert said["project"] == {"revision": "1"} and "outrigger" not in said
    again = desk.save(saved["text"], saved["stamp"])
    assert again["told"] == "Saved."


def test_a_cure_is_put_over_the_base_too(tmp_path):
    desk, text, stamp = over_a_base(tmp_path)
    found = desk.cured(text, stamp, ["outrigger.size=2x8"])
    said = tomllib.loads(found["text"])
    assert said["outrigger"] == {"size": "2x8"} and said["base"] == "job.toml"


def test_a_base_changed_elsewhere_is_a_file_changed_elsewhere(tmp_path):
    """The loads are there: what the page said is of the old ones."""
    desk, text, stamp = over_a_base(tmp_path)
    other = STATED.replace('dead = "15 psf"', 'dead = "19 psf"')
    assert other != STATED
    (tmp_path / "job.toml").write_text(other, encoding="utf-8")
    assert desk.answer(text, stamp, {})["elsewhere"]
    with pytest.raises(InputError, match="changed elsewhere"):
        desk.save(text, stamp)


def test_a_fault_in_the_base_is_told_in_its_own_words(tmp_path):
    """Not as the question of a key that is not given."""
    desk, text, _ = over_a_base(tmp_path)
    (tmp_path / "job.toml").write_text(
        STATED.replace('width = "6 in"', 'width = "300 in"'), encoding="utf-8"
    )
    found = desk.answer(text, desk.stamp(), {})
    assert "over 24 in" in found["faults"]["gap.width"]


def test_the_summary_of_a_case_over_a_base_carries_it_whole(tmp_path, run):
    from outrigger.page.papers import summary

    desk, text, stamp = over_a_base(tmp_path)
    token = desk.answer(text, stamp, {})["token"]
    name, made = summary(desk.designed(token), desk)
    (tmp_path / name).write_bytes(made)
    (tmp_path / "job.toml").unlink()
    assert run("summary", "--again", tmp_path / name).returncode == 0
