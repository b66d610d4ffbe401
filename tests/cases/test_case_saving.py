"""A case saved with its settings: the same case, its comments kept, never over a file."""

import json
import tomllib

import pytest
from sample_case import DRIFT, DRIFTING, EVERY_KEY, SAMPLE, SMALLEST, case_of, written

from outrigger.cases import saving
from outrigger.cases.read import opened
from outrigger.cases.saving import saved_text

SETTINGS = ["gap=9 in", "grade=#2", "clip=300 lb", "garage_wall.plates=1", "snow=30psf",
            'outrigger.blocking=["edge", "back", "16 in"]', "project.date=2026-03-02",
            "limits.joint_width=1/2 in", "garage_roof.line={ D = \"90 plf\" }",
            "outrigger.incised=true"]  # fmt: skip


def saved_with(path, settings):
    """The case of a file with settings, and the text that is saved of it."""
    file = opened(path)
    case, overrides = file.case(settings)
    return case, saved_text(file.text, overrides, file.tables(settings))


def test_a_saved_case_is_the_case_with_its_settings(tmp_path):
    """Same digest, the comments kept, and no more lines changed than were set."""
    case, saved = saved_with(written(tmp_path), SETTINGS)
    again = case_of(saved)
    assert again == case
    assert again.digest == case.digest
    comments = [line.partition("#")[2].strip() for line in SAMPLE.splitlines() if "#" in line]
    assert all(comment in saved for comment in comments)
    left = [line for line in SAMPLE.splitlines() if line not in saved.splitlines()]
    # gap, grade, clip, plates, snow and that on the house, blocking, incised; three are new
    assert len(left) == 8


@pytest.mark.parametrize("setting", SETTINGS)
@pytest.mark.parametrize(
    "text", [SAMPLE, EVERY_KEY, SAMPLE.replace("\n", "\r\n"), DRIFTING], ids=range(4)
)
def test_each_setting_can_be_saved(tmp_path, setting, text):
    if "snow" in setting and text is EVERY_KEY:
        setting = "snow=30psf"
    case, saved = saved_with(written(tmp_path, text), [setting])
    assert case_of(saved).digest == case.digest


@pytest.mark.parametrize("setting", ["snow.sliding=none", "wind.uplift=none", "seismic.category=A"])
@pytest.mark.parametrize("text", [SMALLEST, SMALLEST + DRIFT], ids=["no table", "a table below it"])
def test_a_setting_of_a_table_that_the_file_lacks_can_be_saved(tmp_path, setting, text):
    case, saved = saved_with(written(tmp_path, text), [setting])
    assert case_of(saved) == case


def test_a_setting_of_inline_tables_can_be_saved(tmp_path):
    text = 'gap = { width = "6 in", garage_plate = "3 1/2 in", edge_bearing = "3 in" }\n'
    text += SMALLEST.replace(SMALLEST[SMALLEST.index("[gap]") : SMALLEST.index("[outrigger]")], "")
    case, saved = saved_with(written(tmp_path, text), ["gap=9in"])
    assert case_of(saved) == case


def test_save_on_the_command_line(run, tmp_path):
    """The new file alone runs to the same digest; the old file is as it was."""
    path = written(tmp_path)
    first = run(
        "check", path, "gap=9in", "spacing=12 in", "--json", "--save", tmp_path / "new.toml"
    )
    again = run("check", tmp_path / "new.toml", "--json")
    assert first.returncode == again.returncode
    assert first.stdout == again.stdout
    assert path.read_text(encoding="utf-8") == SAMPLE
    assert sorted(p.name for p in tmp_path.iterdir()) == ["job.toml", "new.toml"]


def test_save_is_never_over_a_file(run, tmp_path):
    path, other = written(tmp_path), written(tmp_path, "kept", "new.toml")
    for target in (other, path):
        result = run("check", path, "gap=9in", "--save", target)
        assert (result.returncode, result.stdout) == (2, "")
        assert "is there already" in result.stderr
    assert other.read_text(encoding="utf-8") == "kept"
    assert path.read_text(encoding="utf-8") == SAMPLE


def test_save_over_a_dangling_link_or_a_folder(run, tmp_path):
    (tmp_path / "link.toml").symlink_to(tmp_path / "nowhere.toml")
    (tmp_path / "folder").mkdir()
    for name in ("link.toml", "folder"):
        result = run("check", "--save", tmp_path / name)
        assert (result.returncode, result.stdout) == (2, "")
        assert "is there already, and is not written over" in " ".join(result.stderr.split())
    assert not (tmp_path / "nowhere.toml").exists()


def test_save_in_a_missing_folder(run, tmp_path):
    result = run("check", "--save", tmp_path / "no" / "new.toml")
    assert (result.returncode, result.stdout) == (2, "")
    assert "no such folder" in " ".join(result.stderr.split())


def test_a_faulty_case_is_not_saved(run, tmp_path):
    result = run("check", written(tmp_path), "gap=9", "--save", tmp_path / "new.toml")
    assert (result.returncode, result.stdout) == (2, "")
    assert 'gap.width = 9: needs text with a unit, such as "9 in"' in result.stderr
    assert not (tmp_path / "new.toml").exists()


def spellings():
    """The sample in other ways to write TOML: dotted keys, tables on one line, no last line end."""

    def value(one):
        if isinstance(one, dict):
            return "{ " + ", ".join(f"{key} = {value(v)}" for key, v in one.items()) + " }"
        if isinstance(one, list):
            return f"[{', '.join(map(value, one))}]"
        return json.dumps(one)

    tables = tomllib.loads(SAMPLE)
    dotted, inline = [], []
    for name, table in tables.items():
        pairs = table.items() if isinstance(table, dict) else ()
        dotted += [f"{name}.{key} = {value(one)}" for key, one in pairs]
        if not pairs:
            dotted.append(f"{name} = {value(table)}")
        inline.append(f"{name} = {value(table)}")
    quoted = SAMPLE.replace("[gap]", '["gap"]').replace("\nwidth = ", '\n"width" = ')
    return {
        "dotted": "\n".join(dotted) + "\n", "dotted, no last line end": "\n".join(dotted),
        "tables on one line": "\n".join(inline) + "\n",
        "no last line end": SAMPLE.rstrip("\n"), "quoted": quoted,
    }  # fmt: skip


MORE_SETTINGS = [*SETTINGS, "garage_roof.line.D=10plf", "hold_down[16 in]=back",
                 "hold_down[back].count=3", "limits.clip_slip=1/8 in", "layout.run=20 ft",
                 'snow.drift={ on = "both", house_step = "9 ft", house_length = "40 ft", '
                 'garage_length = "24 ft" }']  # fmt: skip


@pytest.mark.parametrize("setting", MORE_SETTINGS)
@pytest.mark.parametrize("spelling", spellings())
def test_whatever_way_a_file_is_written(tmp_path, setting, spelling):
    """What is saved has the very tables that were checked."""
    path = written(tmp_path, spellings()[spelling])
    case, saved = saved_with(path, [setting])
    assert tomllib.loads(saved) == case.origin.tables
    assert case_of(saved).digest == case.digest


def test_several_settings_into_dotted_keys(tmp_path):
    path = written(tmp_path, spellings()["dotted"])
    case, saved = saved_with(path, ["garage_roof.line.D=10plf", "garage_roof.line.S=20plf",
                                    "garage_roof.line.Lr=3plf", "gap=5in"])  # fmt: skip
    assert tomllib.loads(saved) == case.origin.tables


def test_what_would_read_otherwise_is_not_written(run, tmp_path, monkeypatch):
    """Refused in words, and no file; the summary that would carry it, too."""
    path = written(tmp_path)
    for wrong in ("[gap]\nwidth = '6 in'\n", "not TOML"):
        monkeypatch.setattr(saving, "_written_into", lambda text, overrides, w=wrong: w)
        for words in (("check", path, "gap=5in", "--save", tmp_path / "new.toml"),
                      ("summary", path, "gap=5in", "-o", tmp_path / "new.md")):  # fmt: skip
            done = run(*words)
            assert (done.returncode, done.stdout) == (2, "")
            assert "cannot be written into this file as it is spelled" in " ".join(
                done.stderr.split()
            )
    assert [one.name for one in tmp_path.iterdir()] == ["job.toml"]
