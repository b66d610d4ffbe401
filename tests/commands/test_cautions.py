"""Cautions stand on every output of every command, whatever its format."""

import json
import re
import tomllib
from pathlib import Path

import pypdf
import pytest
import typer
from level_case import CLIP, GONE, designed
from thorough import in_turn

from outrigger.cli.app import COMMANDS, app_of
from outrigger.report import cautions
from outrigger.verdict import dangers

STUD = {"size": "2x6", "species": "Spruce-Pine-Fir", "grade": "Stud"}
PLATE = {
    "kind": "top plate on studs", "size": "2x6", "plies": 2, "species": "Spruce-Pine-Fir",
    "grade": "No. 2", "moisture": "dry", "span": "16 in", "carries": "none",
    "ends": {"rated_up": "450 lb", "rated_for": "wind"},
}  # fmt: skip
RAFTER = {"kind": "rafter", "size": "2x12", "species": "Spruce-Pine-Fir", "grade": "No. 2",
          "spacing": "22 in", "span": "9 ft"}  # fmt: skip
EXAMPLES = Path(__file__).parents[2] / "examples"
PASSES, MARKS = EXAMPLES / "passes.toml", EXAMPLES / "marks_on_the_plate.toml"
SEVERAL = [EXAMPLES / "linden_row" / f"{name}.toml" for name in ("left", "right")]
SHORT = [SEVERAL[1], SEVERAL[0].with_name("rake.toml")]  # quicker to study
# of each command every way to print: its words, and the file that it writes
WAYS = {
    "check": [(PASSES,), (PASSES, "--all"), (PASSES, "--steps"), (PASSES, "--json"),
              (PASSES, "--csv"), (PASSES, "--ask"), ("--ask", "out.pdf"), ("--ask", "out.md"),
              SEVERAL, (*SEVERAL, "--json")],
    "gap": [(PASSES,), (PASSES, "--json"), (PASSES, "--csv"), (PASSES, "--plot", "out.svg"),
            (PASSES, *["--from", "4in", "--to", "6in", "--step", "2in", "--pocket", "out.html"])],
    "compare": [(PASSES, "gap=7in")],
    "layout": [(MARKS,), (MARKS, "--csv"), (MARKS, "--json"), (MARKS, "--pdf", "out.pdf"),
               (MARKS, "--plan", "out.svg"), SEVERAL, (*SEVERAL, "--csv"), (*SEVERAL, "--json"),
               (*SEVERAL, "--pdf", "out.pdf")],
    "draw": [(MARKS, *plan, "-o", f"out.{kind}")
             for plan in ((), ("--plan",)) for kind in ("svg", "pdf", "dxf")]
    + [(*SEVERAL, "-o", "out.pdf")],
    "new": [("out.toml",), ("out.toml", "--blank"), ("out.toml", "--sample")],
    "lumber": [(), ("SPF",), ("SPF", "#2"), ("SPF", "--json"), ("--json",)],
    "prove": [("combinations", "--all"), ("combinations", "--json"), ("--pdf", "out.pdf"),
              ("--unverified",), ("--unverified", "--json")],
    "size": [(PASSES,), (PASSES, "--json")],
    "reserve": [(PASSES,), (PASSES, "--mishaps"), (PASSES, "--json"),
                (PASSES, "--mishaps", "--json")],
    "card": [(PASSES,), (PASSES, "--back-span"), (PASSES, "--json"), (PASSES, "--csv"),
             (PASSES, "--pdf", "out.pdf")],
    "summary": [(PASSES, "-o", f"out.{kind}") for kind in ("pdf", "html", "md")]
    + [(*SHORT, "-o", "out.md")],
}  # fmt: skip
EVERY = [(name, *words) for name, ways in WAYS.items() for words in ways]
# options that choose no format, or write what another option prints
OTHERS = {
    "--help", "--from", "--to", "--step", "--cut", "--overwrite", "--species", "--paper", "--since",
    "--again", "--save", "--schema", "--keys", "--output", "--lang",
    "--brief",  # five lines of 40 characters; they end in: engineer must adopt it, no permit
}  # fmt: skip


@pytest.fixture(autouse=True)
def _a_quick_sample(monkeypatch):
    """A case of few combinations in the sample's place: how things print is looked at here."""
    monkeypatch.setattr(
        "outrigger.cli.common.SAMPLE_FILE", Path(__file__).parents[2] / "examples" / "passes.toml"
    )


def told(run, words, folder):
    """All that a run leaves: screen, stderr, and the text of its file."""
    done = run(*words, folder=folder)
    assert done.returncode in (0, 1, 3), done.stderr
    text = done.stdout + done.stderr
    file = next((Path(folder, str(w)) for w in words if str(w).startswith("out.")), None)
    if file is not None:
        text = (
            "\n".join(page.extract_text() for page in pypdf.PdfReader(file).pages)
            if file.suffix == ".pdf"
            else file.read_text(encoding="utf-8")
        )
    return " ".join(re.sub(r"<[^>]+>|\n# ", " ", text).split()).lower()


@pytest.mark.parametrize("words", EVERY, ids=lambda words: " ".join(map(str, words))[-60:])
def test_every_output_of_every_command_has_them(run, tmp_path, words):
    """A PNG is the figure of the SVG, whose text is text."""
    text = told(run, words, tmp_path)
    assert "licensed engineer" in text
    assert "local codes govern" in text
    assert "not checked" in text or "not_checked" in text


def test_no_command_and_no_format_is_left_out():
    """The page of `show` is served, not printed: `tests/page/test_server.py`."""
    assert {*WAYS, "show"} == set(COMMANDS)
    commands = typer.main.get_command(app_of([])).commands
    for name, command in commands.items():
        if name == "show":
            continue
        given = {str(word) for words in WAYS[name] for word in words}
        options = {max(one.opts, key=len) for one in command.params if one.opts[0].startswith("-")}
        assert options - OTHERS <= given, name


ROWS = ("gap", "size", "reserve", "card")


@pytest.mark.parametrize("name", ROWS)
def test_every_row_of_a_study_carries_them(run, name):
    """The back span of 18 in is under twice the arm of 9 3/4 in."""
    rows = json.loads(run(name, PASSES, "back_span=18in", "--json").stdout)
    for row in rows:
        assert "back span under twice the arm" in row["cautions"]
        assert "house rafters" in row["not_checked"]


def test_the_data_of_check_lists_them_apart(run):
    found = json.loads(run("check", PASSES, "back_span=18in", "--json").stdout)
    assert found["cautions"][0].startswith("The back span, 18 in, is less than twice the arm")
    assert found["cautions"][-1].startswith("Not a sealed document: a licensed engineer")
    assert any("house rafters" in text for text in found["not_checked"])
    assert {"storage", "drift", "sliding"} <= set(found["declared_none"])
    assert not any("back span, " in note for note in found["notes"])


SCREENS = [
    ("check",), ("gap",), ("size",), ("reserve",), ("reserve", "--mishaps"),
    ("compare", "spacing=12in"), ("card",), ("card", "--back-span"), ("layout", "layout.run=24 ft"),
]  # fmt: skip


SPANS = [
    ("9 in", "the back span, 9 in, is shorter than the arm, 9 3/4 in: the clip pulls more"),
    ("19 1/4 in", "is less than twice the arm, 9 3/4 in: strongly consider a longer one"),
    ("29 in", "is less than three times the arm, 9 3/4 in"),
]


@pytest.mark.parametrize(("words", "short"), in_turn(SCREENS, SPANS), ids=lambda part: part[0])
def test_a_short_back_span_is_a_caution_of_its_own_on_every_screen(run, words, short):
    (name, *more), (back_span, said) = words, short
    done = run(name, PASSES, f"back_span={back_span}", *more)
    text = " ".join(done.stdout.split())
    assert f"Caution: the back span, {back_span}, " in text and said in text


def test_a_long_back_span_is_none():
    """Three times 9 3/4 in is 29 1/4 in."""
    assert not [one for one in shorts(gap__width="6 in") if "back span" in one]


def shorts(**changes):
    return [one.short for one in cautions.cautions(designed(**changes))]


def whens(**changes):
    return [one.when for one in cautions.cautions(designed(**changes)) if one.when]


def test_every_condition_is_known():
    named = set(
        re.findall(r'when = "(.*)"', Path(cautions.__file__).with_suffix(".toml").read_text())
    )
    assert named == set(dangers.holds(designed())) - {""}


def test_no_caution_stands_twice():
    raw = tomllib.loads(Path(cautions.__file__).with_suffix(".toml").read_text(encoding="utf-8"))
    texts = [one["short"] for one in raw["caution"]]
    assert len(texts) == len(set(texts))


@pytest.mark.parametrize("support", ["blocking", "rafter", "crossing member", "rafter tail"])
def test_the_member_under_the_edge_is_named(support):
    said = f"the {support} right under the outriggers at the house wall"
    found = shorts(house_roof__edge_support=support)
    assert [one for one in found if one.startswith(said)]
    assert "the plate and studs of the house wall right under the outriggers" not in found


def test_uplift_at_the_house_wall_with_its_pounds():
    """The largest uplift that a check of the edge tie is asked for."""
    result = designed()
    rows = [r for r in result.rows if r.check.id == "hold_down:edge"]
    assert rows and dangers.edge_uplift(result) > 0
    up = f"{dangers.edge_uplift(result):,.0f} lb"
    assert [one for one in shorts() if f"lifted by up to {up} an outrigger" in one]
    still = {"wind": {"uplift": "none", "down": "none"}, "house_roof__wind_uplift": "none"}
    assert dangers.edge_uplift(designed(**still)) == 0
    assert "edge lifts" not in whens(**still)


def test_a_clip_on_one_side_only():
    """1 1/2 in of outrigger: the pull of a clip on its face is 3/4 in off its middle."""
    one = {"at": "back", "count": 1, "rated_uplift": "500 lb", **CLIP}
    edge = {"at": "edge", "count": 2, "rated_uplift": "450 lb", **CLIP}
    said = "back: one clip on one side twists the outrigger, pull x 0.75 in"
    assert said in shorts(hold_down=[one, edge])
    assert said not in shorts()
    over = one | {"kind": "strap", "side_height": "over the top"}
    assert said not in shorts(hold_down=[over, edge])


def test_a_wall_under_rafters_that_run_along_the_outriggers():
    """Such rafters lie on the wall's plate, and the sheathing on them: a plate right under it is
    the file's word, which a caution repeats."""
    assert "wall under rafters" not in whens()
    assert "wall under rafters" in whens(house_roof__framing_parallel=True)
    along = {"house_roof__framing_parallel": True, "house_roof__edge_support": "rafter"}
    assert "wall under rafters" not in whens(**along)


def test_clips_land_and_go_through_the_sheathing():
    assert {"into framing", "through sheathing"} <= set(whens())
    panel = [{"at": at, "count": 2, "rated_uplift": "450 lb", **CLIP, "into": "sheathing only"}
             for at in ("back", "edge")]  # fmt: skip
    assert not {"into framing", "through sheathing"} & set(whens(hold_down=panel))


def test_what_is_given_is_no_longer_named():
    """A plate on studs tied at its head, rafters, garage studs over the outriggers: left are what
    holds those studs down, the foundation and the garage's top plate."""
    given = {
        "house_edge": PLATE | {"stud": STUD | {"height": "8 ft", "wind": "none"}},
        "house_rafter": RAFTER,
        "garage_wall__studs": STUD,
        "garage_wall__stud_spacing": "16 in",
    }
    before, after = (
        [one.few for one in cautions.not_checked(designed(**more))] for more in ({}, given)
    )
    gone = {"house wall", "house wall uplift", "house rafters", "snow on rafters",
            "garage plate and studs"}  # fmt: skip
    assert gone <= set(before) and not gone & set(after)
    left = {"uplift below the ties", "foundation", "garage top plate"}
    assert left <= set(after) and not left & set(before)
    loose = {"garage_wall__studs_over_outriggers": False}
    assert {"garage studs", "garage top plate"} <= {
        one.few for one in cautions.not_checked(designed(**loose))
    }


def test_loads_that_are_not_given_for_a_point_load():
    """The roof has storage, live, snow and wind both ways: its girder truss has them too."""
    girder = {"at": "6 ft", "from": "girder", "D": "900 lb", "S": "1400 lb"}
    text = "not given for a point load, and counted as none there: girder at 6 ft"
    said = f"{text}: storage, roof live, wind up and wind down"
    assert said in shorts(garage_roof__point=[girder])
    none = {"L": "none", "Lr": "none", "W_up": "none", "W_down": "0 lb"}
    assert "bare points" not in whens(garage_roof__point=[girder | none])
    assert "bare points" not in whens()


def test_a_rake_overhang_beyond_the_ends_of_a_layout():
    """Rafters at every place, 12 in of rake: an end mark has 8 + 12 in of roof, the others
    16. The marks have the roof of the run alone."""
    laid = {"layout": {"run": "20 ft"}}
    assert "rakes" in whens(**laid)
    hip = {"garage_roof__shape": "hip"}
    gable = {"garage_roof__bearing": False, "garage_roof__overhang": "none"}
    for none in ({}, {**laid, **hip}, {**laid, **gable}):
        assert "rakes" not in whens(**none)


def test_a_stated_drift_lies_on_the_garage_wall_alone():
    """28.9 psf at the house over 10.06 ft of garage roof, 107 plf on the wall: the same from its
    geometry lays 3.2 lb/in more on the arm, and passes over 1 where the stated one has 0.997."""
    stated = {"snow__drift": GONE, "snow__drift_line": "107 plf"}
    assert "stated drift" in whens(**stated)
    assert "stated drift" not in whens()
    assert "stated drift" not in whens(**{**stated, "snow__drift_line": "none"})


def test_above_a_checked_tie_the_studs_are_lifted_all_the_same():
    """The tie of the bottom plate is one link: trusses to plates to studs are the others."""
    still = {"wind__uplift": "none", "wind__down": "none", "house_roof__wind_uplift": "none"}
    for more, named in (({}, True), (still, False)):
        few = {one.few for one in cautions.not_checked(designed(**more))}
        assert ("lifted studs" in few) is named
        assert "garage wall tie" not in few


def test_what_always_stands():
    text = " ".join(shorts())
    for said in (
        "holes and notches cut by others",
        "nobody on the end before the clips are in",
        "house rafters under snow drifted against the garage wall",
        "fire separation",
        "the roof deck over the gap",
    ):
        assert said in text
    dry = {"snow__roof": "none", "house_roof__snow": "none"}
    assert "house rafters under snow" not in " ".join(shorts(**dry))


def test_the_worst_stand_first():
    """Falling down before fire, and fire before water."""
    found = whens(outrigger__back_span="10 in", house_roof__framing_spacing="10 in",
                  outrigger__blocking=["edge", "back"])  # fmt: skip
    assert found[0] == "under 1 arms"
    few = [one.few for one in cautions.not_checked(designed())]
    assert few[:3] == ["house wall", "house wall uplift", "house rafters"]
    assert few[-3:] == ["gap deck", "fire", "water"]


def test_a_wall_without_roof_says_so_beside_the_verdict_everywhere(run, tmp_path):
    settings = ["garage_roof.bearing=false", "garage_roof.overhang=none"]
    said = "The wall carries no roof by the file's word"
    for words in (("check",), ("layout", "layout.run=24 ft")):
        lines = run(words[0], PASSES, *settings, *words[1:]).stdout.splitlines()
        verdict = next(i for i, line in enumerate(lines) if line.startswith("SAMPLE: "))
        assert lines[verdict + 1].startswith(said)
    out = tmp_path / "out.md"
    run("summary", PASSES, *settings, "-o", out)
    cover = out.read_text(encoding="utf-8").partition("\n## ")[0]
    assert said in cover
