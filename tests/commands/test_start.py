"""`new` where someone is there to be asked: the answers, and nothing else, are the case file."""

import io
import math
import re
import tomllib
from contextlib import redirect_stdout

import pytest
import typer
from sample_case import BUNDLED

from outrigger.base.errors import InputError
from outrigger.cases import described
from outrigger.cases.filled import filled, stated
from outrigger.cli import start
from outrigger.cli.form_words import NAMES
from outrigger.cli.lumber_and_new import STARTER_FILE
from outrigger.cli.questions import QUESTIONS
from outrigger.loads.layers import read_layers

STARTER = STARTER_FILE.read_text(encoding="utf-8")
FULL = [
    "Elm Street, garage link; 12 Elm Street", "2021", "4, 1/2", "2x6 DF-L #2 covered", "16, 30",
    "wall, 3 1/2", "both", "4:12, down", "SPF, 16, yes", "OSB 7/16, 12",
    "trusses, gable, 22, 4:12", "24, 12, 15, none, truss sheet 3", "3, 3 1/2, SPF, yes, 10",
    "25 20 115 B A", "12, 22, enclosed, B partly, unheated", "9, 40, 24, garage roof",
    "15, 6:12, no", "2, framing", "420, 160, wind, DF-L, framing through OSB 7/16 in, yes, page 12",
    "same", "1, 430, 170, wind, DF-L, yes, page 13", "yes",
]  # fmt: skip
# what stands in the file for a word of an answer
MEANT = {
    "ASCE 7-16": "2021", "edge": "both", "back": "both", "down the slope": "down", "none": "yes",
    "partially exposed": "partly", "dry": "covered", "true": "yes", "false": "no",
}  # fmt: skip


def scripted(answers, seen=None):
    """Answers one by one; then the terminal is closed."""
    left = iter(answers)

    def ask(line):
        if seen is not None:
            seen.append(line)
        try:
            return next(left)
        except StopIteration:
            raise typer.Abort from None

    return ask


@pytest.fixture
def told(tmp_path, capsys, monkeypatch):
    """Runs the dialogue over a file: its exit status, what it said, what the file states more than
    the starter."""
    monkeypatch.setenv("COLUMNS", "200")
    path = tmp_path / "job.toml"

    def tell(*answers):
        with pytest.raises(typer.Exit) as left:
            start.begin(path, STARTER, scripted(answers))
        given = stated(path.read_text(encoding="utf-8"))
        more = {key: value for key, value in given.items() if key not in stated(STARTER)}
        return left.value.exit_code, capsys.readouterr().out, more

    tell.path = path
    return tell


@pytest.fixture(scope="module")
def full(tmp_path_factory):
    """The file of the full answers, told once: path, exit status, what was said, what is given."""
    path = tmp_path_factory.mktemp("full") / "job.toml"
    said = io.StringIO()
    with pytest.MonkeyPatch.context() as patch, redirect_stdout(said):
        patch.setenv("COLUMNS", "200")
        with pytest.raises(typer.Exit) as left:
            start.begin(path, STARTER, scripted(FULL))
    given = stated(path.read_text(encoding="utf-8"))
    more = {key: value for key, value in given.items() if key not in stated(STARTER)}
    return path, left.value.exit_code, said.getvalue(), more


def test_full_answers_make_a_case_with_nothing_missing(full, run):
    path, status, said, given = full
    done = run("check", path)
    assert (status, done.stderr) == (done.returncode, "")
    assert status in (0, 1)
    assert "Missing" not in done.stdout
    assert re.search(r"H house wall: wall, bearing 3 1/2 in, clips", said)
    assert "F to G gap: 4 in" in said
    verdict = "FAIL, not permission to build" if status else "PASS, but not permission to build"
    assert verdict in said
    assert verdict in done.stdout
    assert given["hold_down[edge].rated_uplift"] == "420 lb"
    assert given["basis.code"] == "2021"
    assert given["garage_roof.live"] == given["house_roof.live"] == "20 psf"


def test_every_value_in_the_file_comes_from_an_answer(full):
    """The numbers of each value stand in the answers, its words too or the word they mean."""
    _, _, _, given = full
    typed = " ".join(FULL).lower()
    words = set(re.findall(r"[\w#:/.-]+", typed))
    for key, value in given.items():
        for one in value if isinstance(value, list) else [value]:
            text = str(one).lower() if isinstance(one, bool) else str(one)
            if key.endswith("].at"):
                assert text in ("back", "edge")  # the question asks of that place
                continue
            plain = re.sub(r" (in|ft|psf|plf|lb|mph)$", "", text)
            for words_meant, word in MEANT.items():
                if plain.endswith(words_meant):
                    assert word in words, (key, one)
                    plain = plain.removesuffix(words_meant).strip(" ,")
            assert plain.lower() in typed, (key, one)


def test_nothing_known_is_nothing_written(told):
    count = len(QUESTIONS)
    status, said, given = told(*[""] * count)
    assert (status, given) == (2, {})
    assert told.path.read_text() == STARTER
    assert "gap.width is not given, and is needed" in said
    assert f"outrigger new {told.path}" in said


def test_where_to_find_it_then_asked_again(told):
    _, said, given = told("?", "Elm", "?", "2018")
    assert "As on the permit. So it is written: " in said
    assert "building department" in said
    assert given["project.name"] == "Elm"
    assert given["basis.loads"] == "ASCE 7-16"


def test_back_one_question_and_told_anew(told):
    _, said, given = told("Elm", "2021", "4, 1/2", "<", "5, 5/8", "<", "")
    assert "So far: gap 4 in, house finish 1/2 in. Enter keeps it." in said
    assert (given["gap.width"], given["gap.house_finish"]) == ("5 in", "5/8 in")
    assert told.path.read_text().count("\nwidth = ") == 1


def test_at_the_first_question_there_is_none_before_it(told):
    assert told("<", "Elm")[2] == {"project.name": "Elm"}


def test_an_answer_is_taken_out(told):
    assert told("Elm", "2021", "4, 1/2", "<", "-")[2].keys() == {
        "project.name", "basis.loads", "basis.code",
    }  # fmt: skip
    assert not [line for line in told.path.read_text().splitlines() if line.startswith("width")]


@pytest.mark.parametrize(
    ("at", "wrong", "said"),
    [
        (2, "4 psf", "a pressure (psf), but a length is needed"),
        (2, "4 ft", 'over 24 in. Did you mean "4 in"?'),
        (2, "4, 1/2, 3", "3 things, but 2 are asked: gap, house finish."),
        (3, "2x6 pine #2", "not an exact name or stamp, and none is guessed"),
        (3, "2x6 DF-L #9", 'grade = "#9": not a grade'),
        (1, "2015", "an older code is not taken here"),
        (4, "16, 4", "under 6 in"),
        (5, "dirt, 3", "one of: wall, blocking"),
        (10, "rafters, gable, 22, 4:12", "one of: trusses, tied rafters"),
        (12, "3, 3 1/2, SPF, yes, 2x4 studs", "is a layer left out?"),
        (9, "OSB 7/16, shingles + OSB 7/16", "give the pitch of this roof first"),
    ],
)
def test_a_wrong_answer_is_named_and_nothing_is_lost(told, at, wrong, said):
    before = ["Elm", *[""] * (at - 1)] if at else []
    _, shown, given = told(*before, wrong)
    assert said in " ".join(shown.split())
    assert given == {"project.name": "Elm"}


def test_several_facts_in_a_line(told):
    _, said, given = told(*[""] * 13, "30, , 110, c")
    assert "ground snow 30 psf" in said
    assert "Open still: roof live on both roofs, seismic category." in said
    assert given == {"snow.ground": "30 psf", "wind.speed": "110 mph", "wind.exposure": "C"}


@pytest.mark.parametrize(
    ("line", "values"),
    [
        ("25, 20, 115, b, D0, 0.5", ["25 psf", "20 psf", "20 psf", "115 mph", "B", "D0", 0.5]),
        ("25 psf 20 psf 115 mph B A", ["25 psf", "20 psf", "20 psf", "115 mph", "B", "A"]),
        ("none, 20 psf", ["none", "20 psf", "20 psf"]),
    ],
)
def test_one_call_to_the_building_department(line, values):
    call = next(one for one in QUESTIONS if "snow.ground" in one.keys)
    assert list(call.read(line, {}).values()) == values


@pytest.mark.parametrize(
    ("line", "read"),
    [
        ("2x6 DF-L #2", {"size": "2x6", "species": "DF-L", "grade": "#2"}),
        ("No. 2 Spruce-Pine-Fir 2 x 8", {"size": "2x8", "species": "Spruce-Pine-Fir",
                                          "grade": "No. 2"}),
        ("2x10, Southern Pine, Select Structural, wet",
         {"size": "2x10", "species": "Southern Pine", "grade": "Select Structural",
          "moisture": "wet"}),
        ("SPF", {"species": "SPF"}),
    ],
)  # fmt: skip
def test_a_stamp_in_any_order(line, read):
    assert QUESTIONS[3].read(line, {}) == {f"outrigger.{key}": v for key, v in read.items()}


def test_lengths_of_a_step_are_of_the_roofs_that_the_keys_name():
    """Snow on a house roof of 20 ft below a garage of 40 ft, 25 psf: by the garage's length to
    windward 0.43 x 40^(1/3) x 35^(1/4) - 1.5 = 2.08 ft of drift. Asked for as the upper and the
    lower roof, they were taken the other way round: 3/4 of that, 1.56 ft, by 7.7.1."""
    (step,) = (one for one in QUESTIONS if "snow.drift.on" in one.keys)
    assert "length of the house roof ft, of the garage roof ft" in step.ask
    found = step.read("4, 20, 40, house roof", {})
    assert found["snow.drift.house_length"] == "20 ft"
    assert found["snow.drift.garage_length"] == "40 ft"
    for key, roof in (("house_length", "house roof"), ("garage_length", "garage roof")):
        path = f"snow.drift.{key}"
        assert roof in NAMES[path] and roof in described.of(path).about


def test_it_goes_on_where_it_stopped(told):
    status, said, _ = told("Elm", "2021", "", "2x6 DF-L #2 dry")
    assert status == 130
    assert f"To go on:\n  outrigger new {told.path}" in said
    told.path.write_text(told.path.read_text().replace("# tail", "# mine\n# tail"))
    _, said, given = told("6, 1/2", "24, 36")
    assert "3 of" in said.split("> ")[0]
    assert given["gap.width"] == "6 in"
    assert given["outrigger.back_span"] == "36 in"
    assert "# mine" in told.path.read_text()


def test_what_an_editor_writes_meanwhile_stays(tmp_path):
    path = tmp_path / "job.toml"

    def ask(line):
        if "Elm" in path.read_text():
            path.write_text(path.read_text().replace("# tail =", 'tail = "2 in" #'))
            raise EOFError
        return "Elm"

    with pytest.raises(typer.Exit):
        start.begin(path, STARTER, ask)
    assert stated(path.read_text())["outrigger.tail"] == "2 in"


def test_never_over_another_file(tmp_path, full):
    path = full[0]
    finished = path.read_bytes()
    with pytest.raises(InputError, match="is there already"):
        start.begin(path, STARTER, scripted([]))
    assert path.read_bytes() == finished
    for name, text in (("sample", BUNDLED), ("notes", "milk, eggs"), ("other", "[tool]\nx = 1\n")):
        path = tmp_path / f"{name}.toml"
        path.write_text(text)
        with pytest.raises(InputError, match="is there already"):
            start.begin(path, STARTER, scripted([]))
        assert path.read_text() == text


def test_clips_are_taken_out_with_their_listing(told):
    _, _, given = told(*[""] * 17, "2, framing", FULL[18], "same", "<", "<", "-")
    assert given["hold_down[back].count"] == 2
    assert not [key for key in given if key.startswith("hold_down[edge]")]


def test_layers_weigh_by_the_surface_and_stand_by_plan(told):
    """At 4:12 the surface is sqrt(1 + 1/9) = 1.0541 of the plan: shingles 3.0, plywood 5/8 at
    0.4 psf an eighth 2.0, EPS 8 in at 0.15 an inch 1.2: 6.2 x 1.0541 = 6.54 psf; light 2.0, 1.75,
    0.64: 4.39 x 1.0541 = 4.63."""
    _, said, given = told(*[""] * 7, "4:12", "", "OSB 7/16, shingles + plywood 5/8 + EPS 8")
    assert given["house_roof.dead"] == "6.54 psf"
    assert "common practice, no source, from memory" in given["house_roof.dead_source"]
    assert "4.63 psf on the light side" in said
    found = read_layers("shingles + OSB 7/16 + trusses", "roof", 0.0)
    assert math.isclose(found.psf, 3.0 + 1.5 + 2.5)
    assert math.isclose(read_layers("gravel 6 psf + OSB 1/2", "roof", 0.0).psf, 7.5)
    light = read_layers("shingles", "roof", 12.0).light  # 2.0 psf at 45 degrees, sqrt 2
    assert light == pytest.approx(2.8284, abs=5e-5)
    steep = read_layers("slate 10 psf", "roof", 12.0)
    assert (steep.psf, steep.light) == (pytest.approx(14.142, abs=5e-4),) * 2


@pytest.mark.parametrize("piece", ["slate shingles", "lead", "EPS", "osb 7/16 ply", "shingles +"])
def test_no_layer_is_guessed(piece):
    with pytest.raises(InputError):
        read_layers(piece, "roof")


def test_a_line_of_the_starter_is_filled_in_its_place():
    text = filled(STARTER, {"gap.width": "4 in", "snow.drift.on": "both"})
    assert '\nwidth = "4 in"   # Tape, clear from the house finish to the garage framing\n' in text
    assert tomllib.loads(text)["snow"]["drift"] == {"on": "both"}
    assert len(text.splitlines()) == len(STARTER.splitlines())
    again = filled(text, {"gap.width": '7 1/2"'})
    assert tomllib.loads(again)["gap"]["width"] == '7 1/2"'
    assert stated(filled(again, {"gap.width": None, "snow.drift.on": None})) == stated(STARTER)


def test_a_file_written_otherwise_keeps_its_own_ways():
    text = 'gap = { width = "4 in" } # mine\n[outrigger]\nblocking = [\n "edge",\n]\n'
    new = filled(text, {"gap.width": "5 in", "outrigger.blocking": ["back"], "wind.speed": "9 mph"})
    assert "# mine" in new
    assert stated(new) == {
        "gap.width": "5 in", "outrigger.blocking": ["back"], "wind.speed": "9 mph",
    }  # fmt: skip


def test_the_examples_of_the_questions_are_read():
    given = {"house_roof.pitch": "4:12", "hold_down[back].count": 2}
    given |= {"hold_down[back].into": "framing", "house_roof.edge_support": "blocking"}
    for one in QUESTIONS:
        found = one.read(one.example, given)
        assert found, one.ask
        assert not one.lacking({**given, **found}), one.ask


def test_keys_lists_each_key_once(run):
    done = run("new", "--keys", width=260)
    lines = done.stdout.splitlines()
    keys = [line.split()[0] for line in lines[1:]]
    assert len(keys) == len(set(keys))
    asked = {key for one in QUESTIONS for key in one.keys if not key.endswith("dead_source")}
    assert {key.replace("edge]", "back]") for key in asked} - {"snow.roof_r"} <= set(keys)
    assert any(re.match(r"gap\.width +in or ft +needed +framer on site", line) for line in lines)
    assert any(re.match(r"snow\.ground +psf +nothing +building department", line) for line in lines)


def test_where_no_one_is_there_it_writes_the_questions(run, tmp_path, monkeypatch):
    assert run("new", tmp_path / "one.toml").returncode == 0
    assert (tmp_path / "one.toml").read_text() == STARTER
    monkeypatch.setattr(start, "on_terminal", lambda: True)
    assert run("new", tmp_path / "two.toml", "--blank").returncode == 0
    assert (tmp_path / "two.toml").read_text() == STARTER
    monkeypatch.setattr(start, "prompt", scripted([]))
    monkeypatch.setattr(start.begin, "__defaults__", (start.prompt,))
    done = run("new", tmp_path / "three.toml")
    assert (done.returncode, done.stderr) == (130, "")
    assert "Stopped" in done.stdout


@pytest.mark.parametrize("width", [40, 80])
def test_the_section_fits_its_screen(tmp_path, capsys, monkeypatch, width):
    monkeypatch.setenv("COLUMNS", str(width))
    with pytest.raises(typer.Exit):
        start.begin(tmp_path / "job.toml", STARTER, scripted(FULL))
    said = capsys.readouterr().out
    lines = [line for line in said.splitlines() if str(tmp_path) not in line]
    assert all(len(line) <= width for line in lines)
    drawn = next(line for line in said.splitlines() if "H" in line and "G" in line and "B" in line)
    assert drawn.index("B") < drawn.index("H") < drawn.index("F") < drawn.index("G")


def test_a_member_right_under_the_outriggers_is_asked_for():
    """Blocking, a crossing member or a rafter; a wall's plate on its studs is not."""
    ask = next(one for one in QUESTIONS if "house_edge.size" in one.keys)
    assert ask.only({"house_roof.edge_support": "blocking"})
    assert not ask.only({"house_roof.edge_support": "wall"}) and not ask.only({})
    said = ask.read("2x10, SPF, No. 2, 14 1/2, 1 1/2", {"house_roof.edge_support": "blocking"})
    assert said == {
        "house_edge.size": "2x10",
        "house_edge.kind": "blocking",
        "house_edge.species": "SPF",
        "house_edge.grade": "No. 2",
        "house_edge.span": "14 1/2 in",
        "house_edge.end_bearing": "1 1/2 in",
    }
