"""A case over a base: its own keys win, a fault names the file of its line, saved it is short."""

import json
import tomllib

import pytest
from jsonschema import Draft7Validator
from sample_case import SAMPLE, set_to, written

import outrigger
from outrigger.base.errors import InputError
from outrigger.cases.base import merged, of_the_old
from outrigger.cases.faults import CaseFaultsError
from outrigger.cases.read import opened, read_case
from outrigger.cases.saving import saved, whole
from outrigger.cases.schema import schema

OWN = """# the left run
base = "job.toml"               # loads and clips

[project]
name = "left"

[gap]
width = "7 in"                  # measured
"""


@pytest.fixture
def left(tmp_path):
    """A case over the sample's text."""
    written(tmp_path)
    return written(tmp_path, OWN, "left.toml")


def messages(path):
    """The faults of a file, as printed, under its name."""
    with pytest.raises(CaseFaultsError) as caught:
        read_case(path)
    return str(caught.value).partition(":")[0], [one.message for one in caught.value.faults]


def test_its_own_keys_win_and_the_rest_is_the_base(left):
    whole_text = set_to(SAMPLE, project__name='"left"', gap__width='"7 in"')
    alone = read_case(written(left.parent, whole_text, "alone.toml"))[0]
    case = read_case(left)[0]
    assert case == alone
    assert case.digest == alone.digest
    assert case.gap.width == 7.0


def test_the_digest_is_of_the_whole(left):
    """A load changed in the base is another case."""
    before = read_case(left)[0].digest
    written(left.parent, set_to(SAMPLE, garage_roof__dead='"16 psf"'))
    assert read_case(left)[0].digest != before


def test_tables_are_merged_key_by_key_and_lists_as_a_whole():
    base = {"snow": {"drift": {"on": "garage roof", "house_step": "9 ft"}, "sliding": "none"},
            "hold_down": [{"at": "back"}, {"at": "edge"}]}  # fmt: skip
    own = {"base": "job.toml", "snow": {"drift": {"on": "both"}}, "hold_down": [{"at": "back"}]}
    assert merged(base, own) == {
        "snow": {"drift": {"on": "both", "house_step": "9 ft"}, "sliding": "none"},
        "hold_down": [{"at": "back"}],
    }
    assert merged(base, {"snow": {"drift": "none"}})["snow"]["drift"] == "none"


def test_a_value_stated_anew_drops_the_source_of_the_old_one():
    """The truss sheet of the base says nothing of another dead load, nor its listing of another
    tie."""
    base = {
        "garage_roof": {"dead": "15 psf", "dead_source": "sheet 3", "live": "20 psf"},
        "wall_tie": {"rated_uplift": "400 lb", "rated_source": "table 1", "count": 2},
    }
    own = {"garage_roof": {"dead": "17 psf"}, "wall_tie": {"rated_uplift": "500 lb"}}
    found = merged(base, own)
    assert found["garage_roof"] == {"dead": "17 psf", "live": "20 psf"}
    assert found["wall_tie"] == {"rated_uplift": "500 lb", "count": 2}
    assert merged(base, {"wall_tie": {"count": 1}})["wall_tie"]["rated_source"] == "table 1"
    given = merged(base, {"garage_roof": {"dead": "17 psf", "dead_source": "sheet 4"}})
    assert given["garage_roof"]["dead_source"] == "sheet 4"


def test_a_base_is_found_from_the_folder_of_the_file(left, run):
    folder = left.parent / "runs"
    folder.mkdir()
    text = OWN.replace("job.toml", "../job.toml")
    deep = written(folder, text, "deep.toml")
    assert read_case(deep)[0].digest == read_case(left)[0].digest
    assert run("check", "runs/deep.toml", "--brief", folder=left.parent).returncode == 0


@pytest.mark.parametrize(
    ("base", "said"),
    [
        (
            '"jobs.toml"',
            ["no such file. Did you mean", "from the folder of left.toml"],
        ),
        ('""', ['needs the name of a case file, "job.toml" say']),
        ("5", ["= 5: needs the name of a case file"]),
        ('["job.toml"]', ["needs the name of a case file"]),
        ('"left.toml"', ["is this file itself", "leave base out"]),
        ('"./left.toml"', ["is this file itself"]),
        ('"other.toml"', ["has a base of its own, line 1 there; a base stands on no other"]),
        ('"."', ["a folder"]),
    ],
)
def test_what_is_no_base(left, base, said):
    """A chain ends at its second step, so that no cycle is longer than one file."""
    written(left.parent, 'base = "left.toml"\n', "other.toml")
    written(left.parent, OWN.replace('"job.toml"', base), "left.toml")
    name, (message,) = messages(left)
    assert name == "left.toml"
    assert message.startswith("line 2: base = ")
    for words in said:
        assert words in message


def test_a_fault_names_the_file_and_the_line_in_which_it_stands(left):
    """The base's own width is replaced, and no fault of the case."""
    text = set_to(SAMPLE, gap__width='"300 in"', garage_roof__pitch='"steep"')
    written(left.parent, text)
    line = 1 + text.splitlines().index('pitch = "steep"')
    (message,) = messages(left)[1]
    assert message.startswith(f'job.toml line {line}: garage_roof.pitch = "steep": ')
    written(left.parent, OWN.replace("7 in", "30 in"), "left.toml")
    own, of_base = messages(left)[1]
    assert own.startswith('line 8: gap.width = "30 in": over 24 in')
    assert of_base.startswith(f"job.toml line {line}: ")


def test_a_list_put_over_that_of_the_base_has_its_own_lines(left):
    """The second clip of the base is gone, and so is its line."""
    text = f'{OWN}\n[[hold_down]]\nat = "back"\nrated_uplift = "4 psf"\n'
    written(left.parent, text, "left.toml")
    (message,) = messages(left)[1]
    assert message.startswith("line 12: hold_down[0].rated_uplift")


def test_a_base_that_is_not_toml_is_named(left):
    written(left.parent, SAMPLE.replace("[gap]", "[gap"))
    assert messages(left)[0] == "job.toml"


def test_tables_alone_have_no_base():
    with pytest.raises(CaseFaultsError, match="base names a file, and tables alone have none"):
        outrigger.case({**tomllib.loads(SAMPLE), "base": "job.toml"})


SETTINGS = ["gap=9 in", "clip=300 lb", "snow=30psf", "garage_wall.plates=1", "wall_tie.count=1",
            "limits.joint_width=1/2 in", "hold_down[edge].count=1", "spacing=12 in"]  # fmt: skip


@pytest.mark.parametrize("settings", [*([one] for one in SETTINGS), SETTINGS], ids=str)
@pytest.mark.parametrize("folder", [".", "later"])
def test_saved_it_keeps_base_and_comments_and_says_only_what_differs(left, settings, folder):
    """Tables that no setting touches stay in the base; the way to it is right from elsewhere."""
    to = left.parent / folder / "new.toml"
    to.parent.mkdir(exist_ok=True)
    file = opened(left)
    case, overrides = file.case(settings)
    text = saved(file, overrides, case.origin.tables, to)
    to.write_text(text, encoding="utf-8")
    assert read_case(to)[0].digest == case.digest
    assert "# the left run" in text and "# loads and clips" in text and "# measured" in text
    assert "house_roof" not in text.replace("snow", "") or any("snow" in one for one in settings)
    assert ("hold_down" in text) == any("clip" in one or "hold_down" in one for one in settings)
    assert len(text) < len(SAMPLE)


def test_a_source_stays_where_a_setting_leaves_it(left):
    """A setting over a file leaves its source beside it; saved over a base it is written there."""
    text = SAMPLE.replace("[garage_roof]", '[garage_roof]\ndead_source = "sheet 3"')
    written(left.parent, text)
    file = opened(left)
    case, overrides = file.case(["garage_roof.dead=14 psf"])
    saved_text = saved(file, overrides, case.origin.tables, left.with_name("new.toml"))
    assert 'dead_source = "sheet 3"' in saved_text
    written(left.parent, saved_text, "new.toml")
    assert read_case(left.with_name("new.toml"))[0].digest == case.digest


def test_dotted_keys_are_saved_too(left):
    written(left.parent, 'base = "job.toml"\ngap.width = "7 in"\n', "left.toml")
    file = opened(left)
    case, overrides = file.case(["gap=9in", "garage_roof.dead=14psf"])
    text = saved(file, overrides, case.origin.tables, left.with_name("new.toml"))
    written(left.parent, text, "new.toml")
    assert read_case(left.with_name("new.toml"))[0].digest == case.digest


def test_what_it_cannot_be_written_into_is_said(left):
    """No text is handed out that reads back as another case."""
    file = opened(left)
    case, overrides = file.case(["gap=9in"])
    other = {**case.origin.tables, "snow": {}}
    with pytest.raises(InputError, match="beside its base, job"):
        saved(file, overrides, other, left.with_name("new.toml"))


def test_save_never_writes_over_the_base(left, run):
    done = run("check", left, "gap=9in", "--save", left.with_name("job.toml"))
    assert done.returncode == 2
    assert "job.toml: is there already" in " ".join(done.stderr.split())


def test_in_one_file_it_needs_no_base(left):
    file = opened(left)
    case, overrides = file.case(["gap=9in"])
    text = whole(file, overrides, case.origin.tables)
    assert "base" not in tomllib.loads(text)
    alone = written(left.parent / "..", text, "alone.toml")
    assert read_case(alone)[0].digest == case.digest


def test_its_summary_carries_it_whole(left, run, tmp_path):
    """Without the base beside it the PDF gives the case back."""
    done = run("summary", left, "gap=8in", "-o", tmp_path / "left.pdf")
    assert done.returncode == 0, done.stderr
    for one in ("left.toml", "job.toml"):
        (left.parent / one).unlink()
    again = run("summary", "--again", tmp_path / "left.pdf")
    assert again.returncode == 0
    assert "Same: the case inside gives the results inside" in " ".join(again.stdout.split())


def test_the_library_writes_it_whole_too(left, tmp_path, run):
    case = outrigger.read_case(left, "gap=8 in")
    outrigger.summary(case, tmp_path / "left.pdf")
    assert run("summary", "--again", tmp_path / "left.pdf").returncode == 0


def test_the_schema_takes_a_case_over_a_base_and_asks_a_case_alone_for_all():
    check = Draft7Validator(schema())
    own = tomllib.loads(OWN)
    assert list(check.iter_errors(own)) == []
    del own["base"]
    missing = {error.message for error in check.iter_errors(own)}
    assert "'garage_plate' is a required property" in missing
    assert "'outrigger' is a required property" in missing
    assert list(check.iter_errors({"base": 5}))


def test_keys_list_it(run):
    assert run("new", "--keys", width=300).stdout.splitlines()[1].startswith("base ")
    listed = json.loads(run("new", "--schema").stdout)["properties"]["base"]["description"]
    assert "another case file" in listed


def test_the_house_wall_counts_in_the_digest_where_it_is_given(left):
    without, named = read_case(left)[0], read_case(left, ["project.house_wall=north"])[0]
    assert named.digest != without.digest
    assert named.project.house_wall == "north"


LINE = '{ D = "150 plf", Lr = "200 plf", S = "200 plf", W_up = "260 plf", W_down = "80 plf" }'
TRUSS_SHEET = {
    "garage_roof": {"span": "22 ft", "dead": "15 psf", "line": tomllib.loads(f"x = {LINE}")["x"]}
}
POINT = {"garage_roof": {"point": [{"at": "6 ft", "S": "900 lb"}]}, "snow": {"roof": "20 psf"}}
SNOW = {"snow": {"roof": "20 psf"}, "house_roof": {"snow": "20 psf"}}
OF_16 = {**SNOW, "basis": {"loads": "7-16"}}
TRUSSES = ["garage_roof.line"]
DATUM = {"layout": {"datum": "left end", "openings": [{"from": "9 ft", "to": "12 ft"}]}}


@pytest.mark.parametrize(
    ("base", "own", "left"),
    [
        (SNOW, {"snow": {"roof": "40 psf"}}, ["house_roof.snow"]),
        (SNOW, {"snow": {"roof": "40 psf"}, "house_roof": {"snow": "none"}}, []),
        (SNOW, {"snow": {"roof": "20  PSF"}}, []),
        (OF_16, {"basis": {"loads": "ASCE 7-22"}}, ["snow.roof, house_roof.snow"]),
        (OF_16, {"basis": {"loads": "ASCE 7-16"}}, []),
        (TRUSS_SHEET, {"garage_roof": {"span": "30 ft"}}, ["garage_roof.line"]),
        (TRUSS_SHEET, {"garage_roof": {"dead": "30 psf"}}, ["garage_roof.line"]),
        (TRUSS_SHEET, {"garage_roof": {"dead": "9 psf", "line": {"D": "3 plf"}}}, TRUSSES),
        (POINT, {"snow": {"roof": "40 psf"}}, ["garage_roof.point"]),
        (DATUM, {"layout": {"datum": "chimney"}}, ["layout.openings"]),
        (DATUM, {"layout": {"datum": "chimney", "openings": []}}, []),
        (DATUM, {"layout": {"run": "12 ft"}}, []),
    ],
)  # fmt: skip
def test_what_the_base_says_for_a_value_stated_anew_is_asked_for(base, own, left):
    """Snow of 40 psf on the garage beside 20 on the house, a span of 30 ft beside the reactions of
    a truss sheet for 22 (half the span, 15 ft, at 20 psf of snow is 300 plf, not its 200), snow of
    7-16 taken as of 7-22, openings measured from another end: each would be wrong in silence."""
    found = of_the_old(base, own, "job.toml")
    assert [one.text.partition("beside that ")[2].partition(", ")[0] for one in found] == [
        one.partition(", ")[0] for one in left
    ]
    for fault, keys in zip(found, left, strict=True):
        assert f"beside that {keys}, " in fault.text


def test_it_is_a_fault_of_the_line_that_states_it_anew(left):
    """The house roof's snow is the base's, 20 psf; every other fault stands beside it."""
    written(left.parent, f'{OWN}\n[snow]\nroof = "40 psf"\ndrift = 3\n', "left.toml")
    said = messages(left)[1]
    (anew,) = [one for one in said if one.startswith("line 11: snow.roof = ")]
    assert "house_roof.snow, which would stay" in anew
    assert any(one.startswith("line 12: snow.drift") for one in said)


def test_a_listing_stated_anew_leaves_what_was_said_of_the_old_one():
    """A value read in the wind column, 1.6 of its load's duration, is no value of steel that
    governs, which nothing lowers."""
    tie = {"rated_for": "any duration", "rated_wood": "SPF", "rated_source": "table 1"}
    tie |= {"count": 2, "rated_uplift": "400 lb", "rated_lateral": "200 lb"}
    rafter = {"kind": "rafter", "edge_tie": {"rated": "400 lb", "rated_for": "dead"}}
    base = {"wall_tie": tie, "house_rafter": rafter}
    own = {
        "wall_tie": {"rated_uplift": "900 lb"},
        "house_rafter": {"edge_tie": {"rated": "700 lb"}},
    }
    assert merged(base, own) == {
        "wall_tie": {"count": 2, "rated_uplift": "900 lb"},
        "house_rafter": {"kind": "rafter", "edge_tie": {"rated": "700 lb"}},
    }
    column = merged(base, {"wall_tie": {"rated_for": "wind"}})["wall_tie"]
    assert column["rated_uplift"] == "400 lb" and "rated_source" not in column


def test_a_member_of_another_kind_takes_nothing_of_the_one_in_the_base():
    """A header over 5 ft with the plies, the stud and the load of a plate would be another."""
    plate = {"kind": "top plate on studs", "size": "2x6", "plies": 2, "span": "16 in"}
    header = {"kind": "header", "span": "5 ft"}
    assert merged({"house_edge": plate}, {"house_edge": header}) == {"house_edge": header}
    same = merged({"house_edge": plate}, {"house_edge": {**plate, "span": "24 in"}})
    assert same["house_edge"] == {**plate, "span": "24 in"}
