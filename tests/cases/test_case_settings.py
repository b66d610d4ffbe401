"""Settings over a case file, name=value: which key, in which spelling, in whose words."""

from pathlib import Path

import pytest
from sample_case import EVERY_OTHER_KEY, SAMPLE, SMALLEST, changed, written

from outrigger.base.errors import InputError
from outrigger.cases.faults import CaseFaultsError
from outrigger.cases.read import read_case
from outrigger.cli.common import SAMPLE_FILE

PASSES = Path(__file__).parents[2] / "examples" / "passes.toml"


@pytest.mark.parametrize(
    ("setting", "key", "value"),
    [
        ("gap=9in", "gap.width", 9),
        ("gap=9 in", "gap.width", 9),
        ('gap="9 in"', "gap.width", 9),
        ('gap=9"', "gap.width", 9),
        ("gap.width=7 1/2 in", "gap.width", 7.5),
        ("spacing=12in", "outrigger.spacing", 12),
        ("back_span=3'-6\"", "outrigger.back_span", 42),
        ("back_span=3 ft", "outrigger.back_span", 36),
        ("size=2x8", "outrigger.size", "2x8"),
        ("species=SPF", "outrigger.species", "Spruce-Pine-Fir"),
        ("species=Hem-Fir", "outrigger.species", "Hem-Fir"),
        ("grade=#2", "outrigger.grade", "#2"),
        ("grade=Select Structural", "outrigger.grade", "Select Structural"),
        ("grade=No. 1", "outrigger.grade", "No. 1"),
        ("roof_span=24 ft", "garage_roof.span", 288),
        ("outrigger.incised=true", "outrigger.incised", True),
        ("outrigger.plies=2", "outrigger.plies", 2),
        ("outrigger.moisture=wet", "outrigger.moisture", "wet"),
        ('outrigger.blocking=["edge"]', "outrigger.blocking", ["edge"]),
        ("outrigger.blocking=[]", "outrigger.blocking", []),
        ("limits.live_deflection=360", "limits.live_deflection", 360),
        ("limits.live_deflection=L/360", "limits.live_deflection", 360),
        ("garage_roof.storage=20psf", "garage_roof.storage", 20 / 144),
        ("garage_wall.along=none", "garage_wall.along", 0),
        ("project.revision=2b", "project.revision", "2b"),
        ("layout.run=24 ft", "layout.run", 288),
    ],
)
def test_a_setting(tmp_path, setting, key, value):
    path = written(tmp_path)
    case, (override,) = read_case(path, [setting])
    section, name = key.split(".")
    assert getattr(getattr(case, section), name) == value
    assert override.key == key


def test_snow_sets_what_the_file_has(tmp_path):
    """snow.roof if the file has it, else snow.ground."""
    roof = written(tmp_path)
    ground = written(
        tmp_path,
        changed(('roof = "20 psf"', 'ground = "20 psf"\nexposure = 1.0\nthermal = 1.0')),
        "ground.toml",
    )
    assert read_case(roof, ["snow=30psf"])[0].snow.roof == pytest.approx(30 / 144)
    case, (override,) = read_case(ground, ["snow=30psf"])
    assert (case.snow.roof, override.key) == (None, "snow.ground")
    assert case.snow.ground == pytest.approx(30 / 144)
    bare = written(tmp_path, SMALLEST, "bare.toml")
    assert read_case(bare, ["snow=none"])[0].snow.ground == 0


def test_clip_sets_the_back_clip_alone(tmp_path):
    case, _ = read_case(written(tmp_path), ["clip=300 lb"])
    assert [hold.rated_uplift for hold in case.hold_down] == [300, 420]
    edge_first = SAMPLE.replace('at = "back"', 'at = "??"').replace('at = "edge"', 'at = "back"')
    edge_first = edge_first.replace('at = "??"', 'at = "edge"')
    case, _ = read_case(written(tmp_path, edge_first), ["clip=300 lb"])
    assert [hold.rated_uplift for hold in case.hold_down] == [420, 300]


@pytest.mark.parametrize(
    "setting",
    ["garage_roof.line.D=200 plf", "snow.drift.house_step=8 ft", "snow.sliding.slippery=true"],
)
def test_a_setting_of_a_key_in_a_table_of_a_table(tmp_path, setting):
    path = written(tmp_path, EVERY_OTHER_KEY)
    assert read_case(path, [setting])[0] != read_case(path)[0]


def test_several_settings_and_a_setting_twice(tmp_path):
    case, overrides = read_case(written(tmp_path), ["gap=9in", "spacing=12in", "gap=8in"])
    assert (case.gap.width, case.outrigger.spacing) == (8, 12)
    assert len(overrides) == 3


@pytest.mark.parametrize(
    ("setting", "said"),
    [
        ("gap", "name=value"),
        ("=9in", "name=value"),
        ("gapp=9in", "Did you mean gap=9in?"),
        ("span=9in", "no key span"),
        ("foo.bar=3", "gap.width=9in"),
        ("outrigger=5", "no key outrigger"),
        ("hold_down=5", "no key hold_down"),
    ],
)
def test_a_wrong_name(tmp_path, setting, said):
    with pytest.raises(InputError) as told:
        read_case(written(tmp_path), [setting])
    assert setting in str(told.value)
    assert said in str(told.value)


@pytest.mark.parametrize(
    ("setting", "words"),
    [
        ("gap=9", ("gap.width = 9", '"9 in"')),
        ("gap=9psf", ('gap.width = "9psf"', "pressure")),
        ("gap=4ft", ("over 24 in", '"4 in"')),
        ("gap=", ('gap.width = ""',)),
        ("gap=-9in", ("negative",)),
        ("gap=true", ("not true",)),
        ("gap=nan", ("not nan",)),
        ("size=2x7", ('outrigger.size = "2x7"', "no such size")),
        ("species=fir", ("outrigger.species", "Douglas Fir-Larch")),
        ("grade=good", ("outrigger.grade", "Select Structural")),
        ("gap.widht=9in", ("gap.widht", "Did you mean width?")),
        ("snow=30", ("snow.roof", '"30 psf"')),
        ("clip=300", ("hold_down[0].rated_uplift", '"300 lb"')),
    ],
)
def test_a_wrong_value_of_a_setting(tmp_path, setting, words):
    with pytest.raises(CaseFaultsError) as told:
        read_case(written(tmp_path), [setting])
    for word in words:
        assert word in str(told.value)


def test_clip_without_a_back_clip(tmp_path):
    with pytest.raises(InputError, match=r"clip: the file has no \[\[hold_down\]\]"):
        read_case(written(tmp_path, SMALLEST), ["clip=300lb"])


@pytest.mark.parametrize(
    ("setting", "said"),
    [
        ("gap=9 in", "gap 9 in, file says 6 in"),
        ("spacing=12 in", "spacing 12 in, file says 16 in"),
        (
            "snow=30 psf",
            "snow 30 psf, file says 20 psf; on the house roof 30 psf too, was 20 psf",
        ),
        ("clip=300 lb", "clip 300 lb, file says 420 lb"),
        ("grade=#2", "grade #2, file says No. 2"),
        ("size=2x8", "size 2x8, file says 2x6"),
        ("garage_wall.plates=1", "garage_wall.plates 1, file says 2"),
        ("limits.joint_width=1/2 in", "limits.joint_width 1/2 in, file does not say"),
    ],
)
def test_a_setting_is_told_with_what_the_file_says(tmp_path, setting, said):
    (override,) = read_case(written(tmp_path), [setting])[1]
    assert override.text == said


@pytest.mark.parametrize("setting", ["outrigger.incised=true", 'outrigger.blocking=["edge"]'])
def test_a_setting_is_told_as_the_file_writes_it(tmp_path, setting):
    (override,) = read_case(written(tmp_path), [setting])[1]
    assert override.text.startswith(setting.replace("=", " "))


def test_another_edition_asks_for_its_snow(tmp_path):
    """20 psf of ASCE 7-16 is snow at service level; taken as of 7-22 it counted 0.7 of that, and
    passes went from 0.76 to 0.71. Another snow of the site takes the others with it."""
    edition = "basis.loads=ASCE 7-22"
    with pytest.raises(CaseFaultsError, match=r"snow\.roof, house_roof\.snow, and these would"):
        read_case(written(tmp_path, SAMPLE), [edition])
    case, _ = read_case(PASSES, [edition, "snow=32 psf"])
    assert case.house_roof.snow == case.snow.roof == pytest.approx(32 / 144)
    (told,) = read_case(written(tmp_path, SMALLEST), [edition])[1]
    assert told.text.endswith("file says ASCE 7-16")


@pytest.mark.parametrize("setting", ["snow.importance=1.2", "snow.exposure=D, fully exposed"])
def test_another_factor_of_the_snow_asks_for_the_snows_that_are_stated(setting):
    """Is of 1.2 for 1.0 moved the snow of the garage, worked out from the ground, and left 40 plf
    on the member below, with no word of it."""
    with pytest.raises(CaseFaultsError, match=r"carries\.S, which would stay: one site has"):
        read_case(SAMPLE_FILE, [setting])
    case, _ = read_case(SAMPLE_FILE, [setting, "house_edge.carries.S=48 plf"])
    snow = case.house_edge.carries.S * 12
    assert snow == pytest.approx(48)
    assert read_case(SAMPLE_FILE, ["snow.importance=1"])  # as the file has it


@pytest.mark.parametrize("setting", ["wind.exposure=C", "wind.mean_height=40 ft"])
def test_so_does_what_every_wind_of_the_site_follows_from(setting):
    with pytest.raises(CaseFaultsError, match=r"carries\.W_up, house_edge\.stud\.wind, and these"):
        read_case(SAMPLE_FILE, [setting])


@pytest.mark.parametrize(("key", "case"), [("dead", "D"), ("live", "Lr")])
def test_another_load_of_the_house_roof_asks_for_that_of_the_member_that_carries_it(key, case):
    """The header under the outriggers kept 40 plf of dead load of a roof twice as heavy."""
    with pytest.raises(CaseFaultsError, match=rf"carries\.{case}, which would stay: the member"):
        read_case(SAMPLE_FILE, [f"house_roof.{key}=25 psf"])
    anew = [f"house_roof.{key}=25 psf", f"house_edge.carries.{case}=100 plf"]
    assert read_case(SAMPLE_FILE, anew)[0].house_roof.dead is not None


def test_another_wind_speed_asks_for_the_loads_of_wind_that_are_stated():
    """At 130 mph for 105 the stud of the house wall kept its 16 psf; by the square of the speed it
    is 16 x (130 / 105)^2 = 24.5 psf."""
    with pytest.raises(CaseFaultsError, match=r"carries\.W_up, house_edge\.stud\.wind, and these"):
        read_case(SAMPLE_FILE, ["wind.speed=130 mph"])
    anew = ["house_edge.carries.W_up=60 plf", "house_edge.stud.wind=24.5 psf"]
    case, _ = read_case(SAMPLE_FILE, ["wind.speed=130 mph", *anew])
    assert case.house_edge.stud.wind == pytest.approx(24.5 / 144)


@pytest.mark.parametrize(
    "setting",
    ['layout.openings=[{from="9 ft", to="12 ft"}]', 'layout.openings=[{from = "9 ft",to="12 ft"}]'],
)
def test_a_table_on_the_line_with_and_without_blanks(tmp_path, setting):
    found, _ = read_case(written(tmp_path, SAMPLE), ["layout.run=24 ft", setting])
    assert [(one.start, one.end) for one in found.layout.openings] == [(108.0, 144.0)]


LINE = {"D": "150 plf", "L": "0 plf", "Lr": "200 plf", "S": "200 plf", "W_up": "180 plf",
        "W_down": "60 plf"}  # fmt: skip
SHEET = "line = { " + ", ".join(f'{one} = "{load}"' for one, load in LINE.items()) + " }"


@pytest.mark.parametrize(
    "setting",
    ["roof_span=40 ft", "garage_roof.overhang=24 in", "garage_roof.dead=25 psf",
     "garage_roof.live=30 psf", "garage_roof.storage=20 psf", "garage_roof.pitch=12:12",
     "garage_roof.shape=hip"],
)  # fmt: skip
def test_another_roof_beside_the_reactions_of_a_truss_sheet_is_asked_for(tmp_path, setting):
    """Reactions of a sheet for 20 ft stay 150 plf of dead load under a span of 40 ft, where half of
    that at 15 psf is 300: what passes then is another roof."""
    path = written(tmp_path, changed(('form = "trusses"', f'form = "trusses"\n{SHEET}')))
    with pytest.raises(CaseFaultsError) as refused:
        read_case(path, [setting])
    (fault,) = refused.value.faults
    assert "beside that garage_roof.line, which would stay" in fault.text
    anew = SHEET.replace("line =", "garage_roof.line=", 1)
    assert read_case(path, [setting, anew])[0].garage_roof.line is not None
    every = [f"garage_roof.line.{one}={load}" for one, load in LINE.items()]
    assert read_case(path, [setting, *every])[0].garage_roof.line is not None
    with pytest.raises(CaseFaultsError):
        read_case(path, [setting, *every[1:]])


def test_the_same_roof_beside_a_truss_sheet_is_none_other(tmp_path):
    path = written(tmp_path, changed(('form = "trusses"', f'form = "trusses"\n{SHEET}')))
    span = read_case(path)[0].garage_roof.span / 12
    assert read_case(path, [f"roof_span={span:g} ft", "gap=7 in", "garage_roof.line.D=160 plf"])


def test_another_datum_asks_for_what_is_measured_from_it(tmp_path):
    layout = '\n[layout]\nrun = "24 ft"\ndatum = "left end"\n'
    path = written(tmp_path, SAMPLE + layout + 'openings = [{ from = "4 ft", to = "6 ft" }]\n')
    with pytest.raises(CaseFaultsError, match=r"layout.openings, which would stay"):
        read_case(path, ["layout.datum=right end"])
    assert read_case(written(tmp_path, SAMPLE + layout, "b.toml"), ["layout.datum=right end"])


@pytest.mark.parametrize("place", ["back", "48 in", "4 ft"])
def test_a_clip_is_set_by_its_word_or_its_distance(tmp_path, place):
    """The back stands 48 in from the edge, however file and setting spell it, and moves with
    another back span, as in every study."""
    path = written(tmp_path, changed(('at = "back"', 'at = "4 ft"')))
    case, (override,) = read_case(path, [f"hold_down[{place}].count=1"])
    assert (case.hold_down[0].at, case.hold_down[0].count) == ("back", 1)
    assert override.before == 2
    longer, _ = read_case(path, ["back_span=5 ft"])
    assert (longer.hold_down[0].at, longer.outrigger.back_span) == ("back", 60.0)
    gone, _ = read_case(path, [f"hold_down[{place}].count=1", "back_span=5 ft"])
    assert gone.hold_down[0].count == 1
