"""The page of a case that stands on a base: what is from there, what is typed over it, emptied and
saved; a base that is changed, missing or broken meanwhile."""

import json
import re
import shutil
import tomllib
from html import unescape
from pathlib import Path

import pytest
from pages import KEY, ask, desk_of, opened, posted

from outrigger.base.errors import InputError
from outrigger.cases.read import read_case
from outrigger.page.beside import over
from outrigger.page.server import application
from outrigger.report import verdict_words
from outrigger.verdict.design import design

EXAMPLE = Path(__file__).parents[2] / "examples" / "linden_row"


@pytest.fixture
def job(tmp_path):
    """The runs of the example, to be written in."""
    shutil.copytree(EXAMPLE, tmp_path / "job")
    return tmp_path / "job"


@pytest.fixture
def left(job):
    """A desk with the left run, its text, its stamp."""
    return opened(job / "left.toml")


def own(found):
    """What the file itself says."""
    return tomllib.loads(found["text"])


def in_base(job, old, new):
    """The base changed by an editor."""
    text = (job / "job.toml").read_text(encoding="utf-8")
    assert old in text
    (job / "job.toml").write_text(text.replace(old, new), encoding="utf-8")


def verdict_of(path):
    """What check says of a file of the example, which is a sample."""
    return verdict_words.verdict_line(design(read_case(path)[0]), True)


def test_what_is_from_the_base_says_so(left, job):
    desk, text, stamp = left
    found = desk.answer(text, stamp, {})
    assert found["verdict"] == verdict_of(job / "left.toml")
    assert found["values"]["gap.width"] == "6 in"
    assert found["stands"]["gap.width"] == "from job.toml"
    assert found["values"]["hold_down[back].count"] == "2"
    assert found["stands"]["hold_down[back].count"] == "from job.toml"
    assert found["stands"]["project.name"] == "stated in left.toml"
    assert "gap.roof_insulation" not in found["stands"]
    assert not found["changed"] and "changed" not in found["html"].partition("<picture>")[0]


def test_a_file_without_a_base_says_nothing_of_it(job):
    desk, text, stamp = opened(job / "job.toml")
    assert desk.answer(text, stamp, {})["stands"] == {}


def test_what_is_typed_is_a_key_of_the_file_itself(left, job):
    desk, text, stamp = left
    base = (job / "job.toml").read_bytes()
    found = desk.answer(text, stamp, {"gap.width": "8"})
    assert own(found)["gap"] == {"width": "8 in"}
    assert found["stands"]["gap.width"] == "stated in left.toml; job.toml says 6 in"
    assert "rev 0 changed" in found["html"]
    saved = desk.save(found["text"], stamp)
    assert saved["told"] == "Saved as revision 1."
    written = (job / "left.toml").read_text(encoding="utf-8")
    assert tomllib.loads(written)["project"]["revision"] == "1"
    assert tomllib.loads(written)["gap"] == {"width": "8 in"}
    assert written.startswith(text[: text.index("\n")])  # its remarks are kept
    assert (job / "job.toml").read_bytes() == base
    assert saved["verdict"] == verdict_of(job / "left.toml") and not saved["changed"]


def test_emptied_the_base_counts_again_and_that_is_said(left):
    desk, text, stamp = left
    found = desk.answer(text, stamp, {"gap.width": "8"})
    back = desk.answer(found["text"], stamp, {"gap.width": ""})
    assert "width" not in own(back).get("gap", {})
    assert back["values"]["gap.width"] == "6 in"
    assert back["stands"]["gap.width"] == "from job.toml"
    assert back["back"].endswith("6 in, from job.toml.")
    again = desk.answer(text, stamp, {"gap.width": ""})  # it was never stated here
    assert again["text"] == text and again["back"] == back["back"]
    assert again["status"] == back["status"] != "none"


def test_a_key_of_the_file_alone_is_emptied_as_ever(left):
    """The base says nothing of a double at openings: nothing comes in its place."""
    desk, text, stamp = left
    found = desk.answer(text, stamp, {"layout.double_at_openings": ""})
    assert "double_at_openings" not in own(found)["layout"] and found["back"] == ""
    assert "layout.double_at_openings" not in found["values"]


def test_the_source_of_another_value_does_not_count(left, job):
    in_base(job, 'dead = "15 psf"', 'dead = "15 psf"\ndead_source = "sheet 3"')
    desk, text, stamp = opened(job / "left.toml")
    found = desk.answer(text, stamp, {"garage_roof.dead": "17"})
    assert "garage_roof.dead_source" not in found["values"]
    said = found["stands"]["garage_roof.dead_source"]
    assert said == "not said here; sheet 3 in job.toml does not count"


def test_one_clip_typed_states_all_of_them(left, job):
    """A list of tables is replaced as a whole; every other word of the base's clips is kept."""
    desk, text, stamp = left
    found = desk.answer(text, stamp, {"hold_down[back].count": "3"})
    base = tomllib.loads((job / "job.toml").read_text(encoding="utf-8"))["hold_down"]
    assert own(found)["hold_down"] == [base[0] | {"count": 3}, base[1]]
    assert found["stands"]["hold_down[back].count"] == "stated in left.toml; job.toml says 2"
    assert found["stands"]["hold_down[edge].count"] == "stated in left.toml, as in job.toml"
    back = desk.answer(found["text"], stamp, {"hold_down[back].count": ""})
    assert "hold_down" not in own(back)
    assert back["stands"]["hold_down[edge].count"] == "from job.toml"
    assert back["back"].endswith("2, from job.toml.")
    untouched = desk.answer(text, stamp, {"hold_down[edge].rated_uplift": ""})
    assert untouched["text"] == text and "420 lb, from job.toml" in untouched["back"]


def test_an_opening_of_the_base(left, job):
    """Changed it is stated here with all of its list; emptied the base's counts again."""
    in_base(job, "[layout]", '[layout]\nopenings = [{ from = "2 ft", to = "4 ft" }]')
    text = left[1].replace('openings = [{ from = "9 ft", to = "12 ft", header = "by others" }]', "")
    desk, text, stamp = opened(job / "left.toml", text)
    first = desk.answer(text, stamp, {})
    assert first["stands"]["layout.openings[0].to"] == "from job.toml"
    found = desk.answer(text, stamp, {"layout.openings[0].to": "5 ft"})
    assert own(found)["layout"]["openings"] == [{"from": "2 ft", "to": "5 ft"}]
    back = desk.answer(found["text"], stamp, {"layout.openings[0].to": ""})
    assert "openings" not in own(back)["layout"] and "4 ft, from job.toml" in back["back"]


def test_none_and_tables_over_the_base(left):
    """The base says that no snow drifts; a step stated here is a table in its place."""
    desk, text, stamp = left
    found = desk.answer(text, stamp, {"snow.drift.house_step": "3 ft"})
    assert own(found)["snow"] == {"drift": {"house_step": "3 ft"}}
    back = desk.answer(found["text"], stamp, {"snow.drift.house_step": ""})
    assert "drift" not in own(back).get("snow", {})
    assert back["values"]["snow.drift"] == "none"


def test_one_snow_over_the_base(left):
    """Another snow moves the base's own of the house roof, 20 x 30/20; emptied both are back."""
    desk, text, stamp = left
    found = desk.answer(text, stamp, {"snow.roof": "30"})
    assert own(found)["snow"]["roof"] == "30 psf"
    assert own(found)["house_roof"]["snow"] in ("30 psf", "30.0 psf")
    assert "Moved with it" in found["html"]
    back = desk.answer(found["text"], stamp, {"snow.roof": ""})
    assert back["values"]["snow.roof"] == "20 psf"
    assert back["values"]["house_roof.snow"] in ("20 psf", "20.0 psf")


def test_a_cure_is_written_into_the_file(job):
    """The run on the north wall fails; its first cure is a key of the run, not of the base."""
    desk, text, stamp = opened(job / "rake.toml")
    found = desk.answer(text, stamp, {})
    assert found["status"] == "fail"
    settings = json.loads(
        unescape(re.search(r'data-settings="([^"]*)"', desk.more(found["token"]))[1])
    )
    base = (job / "job.toml").read_bytes()
    cured = desk.cured(text, stamp, settings)
    assert cured["status"] == "pass" and "base" in own(cured)
    assert desk.save(cured["text"], stamp)["told"] == "Saved as revision 1."
    assert (job / "job.toml").read_bytes() == base


def test_a_clip_as_a_cure(left):
    desk, text, stamp = left
    found = desk.cured(text, stamp, ["hold_down[back].count=3"])
    assert found["values"]["hold_down[back].count"] == "3"
    assert [one["at"] for one in own(found)["hold_down"]] == ["back", "edge"]


def test_the_revision_may_stand_in_the_base(left, job):
    """Its table, its revision: what follows is stated in the file."""
    in_base(job, "[basis]", '[project]\nname = "Linden Row"\nrevision = "B"\n\n[basis]')
    text = "\n".join(
        line for line in left[1].splitlines() if not re.match(r"\[project|name|inv", line)
    )
    text = text.replace('house_wall = "east"', "")
    desk, text, stamp = opened(job / "bare.toml", text)
    assert "project" not in tomllib.loads(text)
    found = desk.answer(text, stamp, {"gap.width": "8"})
    assert desk.save(found["text"], stamp)["told"] == "Saved as revision C."
    assert own({"text": (job / "bare.toml").read_text()})["project"] == {"revision": "C"}


def test_a_base_that_is_changed_meanwhile(left, job):
    """Told once, the answer is of the new one, its token and stamp too; Save still writes."""
    desk, text, stamp = left
    before = desk.answer(text, stamp, {})
    in_base(job, 'width = "6 in"', 'width = "14 in"')
    assert desk.stamp() != stamp  # which the page asks for
    after = desk.answer(text, stamp, {})
    assert after["elsewhere"].startswith("job.toml has been changed since this page read it.")
    assert after["values"]["gap.width"] == "14 in"
    assert after["verdict"] == verdict_of(job / "left.toml")
    assert after["token"] != before["token"] and after["stamp"] == desk.stamp() != stamp
    assert not after["changed"]
    assert desk.answer(text, after["stamp"], {})["elsewhere"] == ""
    saved = desk.save(desk.answer(text, stamp, {"gap.house_finish": "1"})["text"], stamp)
    assert saved["elsewhere"].startswith("job.toml has been changed")
    assert saved["stamp"] == desk.stamp()


def test_the_file_and_its_base_changed_meanwhile(left, job):
    desk, text, stamp = left
    in_base(job, 'width = "6 in"', 'width = "14 in"')
    (job / "left.toml").write_text(text + "# by an editor\n", encoding="utf-8")
    found = desk.answer(text, stamp, {})
    assert "The file has been changed elsewhere" in found["elsewhere"]
    assert "job.toml has been changed" in found["elsewhere"]
    with pytest.raises(InputError, match="changed elsewhere"):
        desk.save(text, found["stamp"])


def test_faults_of_the_base_name_its_file(left, job):
    in_base(job, 'grade = "No. 2"', 'grade = "No. 7"')
    desk, text, stamp = left
    found = desk.answer(text, stamp, {})
    lines = (job / "job.toml").read_text(encoding="utf-8").splitlines()
    line = 1 + lines.index('grade = "No. 7"')
    assert found["status"] == "none" and found["token"] == ""
    assert found["faults"]["outrigger.grade"].startswith(f"job.toml line {line}: ")
    assert f"job.toml line {line}: " in found["html"]
    cured = desk.answer(text, stamp, {"outrigger.grade": "No. 2"})
    assert cured["status"] == "pass" and own(cured)["outrigger"] == {"grade": "No. 2"}


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda path: path.unlink(), "no such file."),
        (lambda path: path.write_text("[gap\nwidth = 3\n"), "job.toml line 1: "),
        (lambda path: path.write_text('base = "left.toml"\n'), "has a base of its own"),
    ],
)
def test_a_base_that_is_missing_or_broken(left, job, spoil, said):
    """In words, no verdict; nothing is typed over it or saved; put right, all is as it was."""
    desk, text, stamp = left
    kept = (job / "job.toml").read_text(encoding="utf-8")
    spoil(job / "job.toml")
    found = desk.answer(text, stamp, {"gap.width": "8"})
    assert found["status"] == "none" and found["token"] == "" and found["text"] == text
    assert said in found["html"]
    assert "fault" not in found["html"].partition("<li>")[2]
    assert found["faults"]["gap.width"] == "job.toml cannot be read: put that right first."
    assert found["elsewhere"].startswith("job.toml has been changed")
    assert found["values"]["project.name"] == "Linden Row, left run"
    with pytest.raises(InputError, match="Its base cannot be read"):
        desk.save(text, stamp)
    status, _, page = ask(application(desk, "127.0.0.1:8000", KEY), f"/{KEY}/")
    assert status == 200 and said.encode() in page and b"PASS" not in page
    assert b"which cannot be read" in page
    (job / "job.toml").write_text(kept, encoding="utf-8")
    assert desk.answer(text, stamp, {})["status"] == "pass"


def test_papers_over_a_base(job):
    """The summary is of the file and the base as both stand on the disk."""
    desk, text, stamp = opened(job / "right.toml")
    app = application(desk, "127.0.0.1:8000", KEY)
    token = desk.answer(text, stamp, {})["token"]
    status, _, body = ask(app, f"/{KEY}/summary.pdf?of={token}")
    assert status == 200 and body.startswith(b"%PDF")
    in_base(job, 'width = "6 in"', 'width = "7 in"')
    status, _, said = ask(app, f"/{KEY}/summary.pdf?of={token}")
    assert status == 409 and "job.toml has been changed" in json.loads(said)["error"]
    status, found = posted(app, "answer", {"text": text, "stamp": stamp, "typed": {}})
    assert ask(app, f"/{KEY}/summary.pdf?of={found['token']}")[0] == 200
    assert json.loads(ask(app, f"/{KEY}/stamp")[2]) == {"stamp": found["stamp"]}


def test_a_base_says_who_shares_it(job):
    assert over(job / "job.toml") == ("left.toml", "rake.toml", "right.toml")
    assert over(job / "left.toml") == ()
    desk = desk_of(job / "job.toml")
    desk.shared_by = over(job / "job.toml")
    text, stamp = desk.read()
    found = desk.answer(text, stamp, {"gap.width": "7"})
    assert found["status"] == "none"  # it names no job of its own
    saved = desk.save(found["text"], stamp)["told"]
    assert saved == (
        "Saved. left.toml, rake.toml and right.toml are other cases now: give each its next "
        "revision."
    )


def test_of_a_folder_that_has_other_files(job):
    (job / "not.toml").write_text("base = [", encoding="utf-8")
    (job / "odd.toml").write_text('base = 3\n[base2]\nx = "job.toml"\n', encoding="utf-8")
    (job / "binary.toml").write_bytes(b"base\0\xff")
    assert over(job / "job.toml") == ("left.toml", "rake.toml", "right.toml")
