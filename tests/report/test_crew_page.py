"""The marks page for the crew: where it says what, that all of it stands in the table of phrases,
and that no number of it is another than the layout's."""

import re
import string
from pathlib import Path

import pypdf
import pytest

from outrigger.base.quantity import tape
from outrigger.cases.read import read_case
from outrigger.layout import crew as marks
from outrigger.layout.layout import layout
from outrigger.report.crew import LANGUAGES, Speaker, page, phrases, places
from outrigger.report.draw.pattern import pattern

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "examples" / "marks_on_the_plate.toml"
RAKE = ROOT / "examples" / "slope_across_the_rake.toml"
NUMBER = r"""[0-9][0-9/'" ,.+\-]*|[0-9]+'-[0-9 /"]+"""
CASES = [
    (), ("outrigger.plies=2",), ("house_roof.framing_parallel=true", "layout.openings=[]"),
    ("gap=22in",), ("outrigger.blocking=[]",), ("garage_wall.studs_over_outriggers=false",),
    ("layout.double_at=[3]", "garage_wall.studs.size=2x4", "garage_wall.studs.species=SPF",
     "garage_wall.studs.grade=Stud"),
    ("outrigger.bottom_notch=1/2 in", 'outrigger.blocking=["edge", "16 in", "wall line"]'),
    ("hold_down[back].into=blocking",),
]  # fmt: skip


def laid(*settings, path=EXAMPLE):
    return layout(read_case(path, settings)[0])


def texts(found):
    """Every phrase of the page, in English, and beside it."""
    if isinstance(found, dict) and set(found) == {"en", "es"}:
        yield found
    elif isinstance(found, dict):
        for one in found.values():
            yield from texts(one)
    elif isinstance(found, list | tuple):
        for one in found:
            yield from texts(one)


def pattern_of(written):
    """What a phrase of the table may read, its braces numbers or other phrases of it."""
    parts = [re.escape(text) + (".+?" if name else "")
             for text, name, *_ in string.Formatter().parse(written)]  # fmt: skip
    return re.compile("".join(parts))


@pytest.mark.parametrize("settings", CASES, ids=str)
def test_every_phrase_of_the_page_is_in_the_table_or_a_number(settings):
    """Word for word, in both languages; what stands in braces is numbers, or other phrases."""
    one = laid(*settings)
    say = Speaker("es")
    found = page(one, say, True)
    known = {lang: [pattern_of(row[lang]) for row in phrases().values()] for lang in LANGUAGES}
    listed = [*texts(found), *(said for said, _ in places(one, say))]
    assert len(listed) > 30
    for said in listed:
        for lang in LANGUAGES:
            text = said[lang]
            assert text == "" or any(p.fullmatch(text) for p in known[lang]), text
    own = {"name", "revision", "member"}  # the user's words, and the lumber's stamp
    plain = [v for k, v in found.items() if isinstance(v, str) and k not in own]
    plain += [m[key] for m in found["marks"] for key in ("number", "tape", "feet", "stud", "used")]
    assert all(text == "" or re.fullmatch(NUMBER, text) for text in plain)


@pytest.mark.parametrize("settings", CASES, ids=str)
def test_the_words_of_the_first_page_are_those_of_the_table(settings, run, tmp_path):
    """The printed page, too: with the phrases, the numbers and the user's own words taken out,
    nothing is left."""
    run("layout", EXAMPLE, *settings, "--pdf", tmp_path / "a.pdf", "--lang", "es")
    text = pypdf.PdfReader(tmp_path / "a.pdf").pages[0].extract_text()
    left = set(re.findall(r"[^\W\d_]+", text))
    for row in phrases().values():
        left -= set(re.findall(r"[^\W\d_]+", f"{row['en']} {row['es']}"))
    case = read_case(EXAMPLE, settings)[0]
    own = f"{case.project.name} {case.layout.datum} Douglas Fir-Larch No. x rev case changed X in"
    left -= set(re.findall(r"[^\W\d_]+", own))
    assert {word for word in left if not re.fullmatch("[a-f]{1,4}", word)} == set()  # the digest


def test_the_table_is_whole():
    """Some forty phrases and more, each in both languages with the same numbers in it, marked as
    not yet read by a native speaker."""
    rows = phrases()
    assert len(rows) >= 40
    for key, row in rows.items():
        assert set(row) == {"en", "es"} and all(row.values()), key
        held = [sorted(name for _, name, *_ in string.Formatter().parse(row[lang]) if name)
                for lang in LANGUAGES]  # fmt: skip
        assert held[0] == held[1], key
    assert rows["unread"]["en"] == "Spanish words: to be read by a native speaker before use."
    source = (ROOT / "outrigger" / "report" / "phrases.toml").read_text("utf-8")
    assert "to be read by a native speaker before use" in source.split("\n\n")[0]


def test_every_phrase_is_said_somewhere():
    said = "".join((ROOT / "outrigger" / "report" / "crew.py").read_text("utf-8").split())
    keys = set(re.findall(r'"(\w+)"', said)) | {"plan", "cuts", "material", "notes"}
    assert set(phrases()) - keys - {"pass", "fail", "open"} == set()


def test_spanish_stands_beside_the_english_where_it_is_asked(run, tmp_path):
    run("layout", EXAMPLE, "--pdf", tmp_path / "en.pdf")
    done = run("layout", EXAMPLE, "--pdf", tmp_path / "es.pdf", "--lang", "es", "--paper", "a4")
    assert done.returncode == 0
    english, both = (pypdf.PdfReader(tmp_path / f"{lang}.pdf") for lang in LANGUAGES)
    assert "NADIE" not in english.pages[0].extract_text()
    text = both.pages[0].extract_text()
    for said in ("NOBODY ON THE END BEFORE THE CLIPS ARE IN.", "NADIE EN LA PUNTA",
                 "to be read by a native speaker", "95-1/4\""):  # fmt: skip
        assert said in text
    assert [round(float(x)) for x in both.pages[0].mediabox[2:]] == [595, 842]  # A4, points
    assert [round(float(x)) for x in english.pages[0].mediabox[2:]] == [612, 792]


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--lang", "fr", "--pdf", "a.pdf"), "--lang fr: allowed are en, es"),
        (("--lang", "es"), "--lang es: is of the page to build from. Add --pdf marks.pdf."),
        (("--paper", "a3", "--pdf", "a.pdf"), "--paper a3: allowed are letter, a4."),
    ],
)
def test_what_is_no_language_or_paper(run, tmp_path, options, said):
    done = run("layout", EXAMPLE, *options, folder=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert said in " ".join(done.stderr.split())
    assert not list(tmp_path.iterdir())


def test_nobody_on_the_end_stands_first_and_a_wall_that_fails_has_no_boxes():
    found = page(laid(), Speaker(), False)
    assert found["nobody"]["en"] == "NOBODY ON THE END BEFORE THE CLIPS ARE IN."
    assert all(mark["box"] for mark in found["marks"])
    fails = laid("size=2x4")
    assert fails.design.verdict == "fail"
    found = page(fails, Speaker(), False)
    assert found["verdict"]["en"] == "The check FAILS: this wall is not to be built so."
    assert found["count"]["en"].endswith("Cut none yet.")
    assert not any(mark["box"] for mark in found["marks"])
    failing = [m["number"] for m in found["marks"] if {"en": "FAILS", "es": ""} in m["needs"]]
    assert failing == [str(n) for n in fails.failing]


# numbers


def test_studs_of_the_garage_over_outriggers_as_thick_as_they():
    """1 1/2 in over 1 1/2 in: the same marks."""
    one = laid()
    assert marks.stud_marks(one) == [float(line.piece.near) for line in one.lines]
    found = page(one, Speaker(), False)
    assert not found["studs"]
    assert any(said["en"].startswith("Garage plate: same datum, same") for said in found["needs"])


def test_studs_of_the_garage_over_two_plies():
    """Two plies are 3 in; a stud of 1 1/2 in over their middle starts 3/4 in beyond their mark: at
    19.2 in from a first mark half short, 19.2 - 1.5 = 17.7, and 18.45 in, 18 7/16 on the tape."""
    one = laid("outrigger.plies=2", "layout.openings=[]")
    near, studs = float(one.lines[1].piece.near), marks.stud_marks(one)
    assert (near, studs[1]) == (pytest.approx(17.7), pytest.approx(18.45))
    found = page(one, Speaker(), False)
    assert found["studs"]
    assert found["marks"][1]["stud"] == '18-7/16"' == tape(18.45)


def test_the_crew_ties_the_garage_plate_down(run, tmp_path):
    """Two at each piece, one on the outer face of each of a pair; without a pair two alike; where
    wind lifts and none is given it is asked for. The page before the plan stays one."""

    def tied(one):
        said = [said["en"] for said in page(one, Speaker(), False)["pattern_says"]]
        return [line for line in said if "ties" in line or "tied" in line]

    assert tied(laid()) == ["Garage plate tied to every piece: 2; of a pair 1, outer face."]
    single = laid("layout.openings=[]")
    assert tied(single) == ["Garage plate tied to every outrigger: 2 each."]
    none = layout(single.case.model_copy(update={"wall_tie": None}))
    assert tied(none) == [
        "What ties the garage plate to the outriggers is not given. Ask before you build."
    ]
    run("layout", EXAMPLE, "--pdf", tmp_path / "a.pdf")
    assert len(pypdf.PdfReader(tmp_path / "a.pdf").pages) == 2


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("lag_through_the_outrigger", "1 down through it at the back (screw or lag), 2 at the"),
        ("straps_over_the_top", "1 over it at the back (strap), 1 over it at the house wall"),
        ("passes", "clips: 2 at the back, 2 at the house wall."),
    ],
)
def test_a_lag_or_a_strap_is_no_clip(name, said):
    one = laid("layout.run=20 ft", path=ROOT / "examples" / f"{name}.toml")
    assert said in page(one, Speaker(), False)["needs"][0]["en"]


def test_every_lag_down_through_a_piece_is_counted():
    """Two in each of one: two, as they are checked and bought."""
    path, two = (
        ROOT / "examples" / "lag_through_the_outrigger.toml",
        "hold_down[back].deck_fasteners=2",
    )
    one = laid("layout.run=20 ft", two, path=path)
    assert "clips: 2 down through it at the back" in page(one, Speaker(), False)["needs"][0]["en"]


def test_studs_that_the_case_does_not_put_there_have_no_marks():
    for settings, said in (
        (("garage_wall.studs_over_outriggers=false",), "Garage studs need not stand"),
        ((), "Garage plate"),
    ):
        found = page(laid(*settings), Speaker(), False)
        assert any(one["en"].startswith(said) for one in found["needs"])
    case = read_case(EXAMPLE)[0]
    wall = case.garage_wall.model_copy(update={"studs_over_outriggers": None})
    open_case = layout(case.model_copy(update={"garage_wall": wall}))
    assert marks.stud_marks(open_case) is None
    assert "not given. Ask before you mark" in page(open_case, Speaker(), False)["needs"][-1]["en"]


def test_a_row_up_a_slope_gives_no_marks_of_a_level_plate():
    one = laid("layout.run=20 ft", path=RAKE)
    assert marks.stud_marks(one) is None
    said = page(one, Speaker(), False)["needs"][-1]["en"]
    assert "take the stud marks from the outriggers" in said


def test_places_along_one_piece_by_hand():
    """Tail 1 3/4; arm 9 3/4 (3/2 + 1/2 + 6 + 7/4): edge at 11 1/2, framing face 1 1/2 outside it,
    back clip 48 in on, end 3 in behind: 62 1/2."""
    found = [(said["en"], tape(x)) for said, x in places(laid(), Speaker())]
    assert found == [
        ("garage wall, center", '1-3/4"'), ("house framing, face", '10"'),
        ("house bearing, middle", '11-1/2"'), ("back clip", '59-1/2"'), ("whole piece", '62-1/2"'),
    ]  # fmt: skip


def test_blocks_along_one_piece_by_hand():
    """At the house wall 11 1/2, 16 in from the edge outward or inward as the case counts it, at
    the back 59 1/2, over the wall line 1 3/4."""
    one = laid('outrigger.blocking=["edge", "back", "16 in", "wall line"]')
    assert [tape(x) for x in marks.blocks_along(one)] == ['1-3/4"', '11-1/2"', '27-1/2"', '59-1/2"']
    bare = page(laid("outrigger.blocking=[]"), Speaker(), False)["pattern_says"]
    assert bare[0]["en"] == "No blocks between the pieces."


def test_the_pattern_bears_every_length():
    for settings in CASES:
        one = laid(*settings)
        drawn = pattern(one, Speaker("es"), 540.0)
        for said, x in places(one, Speaker("es")):
            assert tape(x) in drawn.said and said["es"] in drawn.said
        assert drawn.wide == pytest.approx(540.0)


def test_pairs_and_clips_that_miss():
    """The example's pairs stand beside its opening, 6 with 7 and 8 with 9."""
    assert marks.pairs(laid()) == [(6, 7), (8, 9)]
    rows = page(laid(), Speaker(), False)["marks"]
    assert rows[5]["needs"] == [{"en": "pair with 7", "es": ""}]
    missed = laid("house_roof.framing_parallel=true", "layout.openings=[]")
    found = page(missed, Speaker(), False)
    assert marks.missing(missed) == [line.number for line in missed.lines if line.misses]
    assert found["marks"][1]["needs"] == [{"en": 'clip off 4-11/16"', "es": ""}]


def test_an_open_wall_is_not_to_be_cut():
    """Where it is not known what holds the blocks: marks may be drawn, nothing cut."""
    run = ("layout.run=12 ft", "layout.datum=left end")
    passing = laid(*run, path=EXAMPLE.with_name("passes.toml"))
    assert ". Cut " in page(passing, Speaker(), False)["count"]["en"]
    unknown = laid(*run, path=RAKE)
    assert unknown.design.verdict == "open"
    assert page(unknown, Speaker(), False)["count"]["en"].endswith("Cut none yet.")
