"""What is needed, what is asked and what is taken when a key is absent is the contract of the
case file: not given is never zero, and never a pass.
"""

import itertools
import re
import tomllib

import pytest
from draws import few_draws
from hypothesis import given
from hypothesis import strategies as st
from level_case import GONE, TABLES, case
from sample_case import (
    SAMPLE,
    SMALLEST,
    case_of,
    changed,
    dropped,
    faults_of,
    in_hold_downs,
    named,
    paths,
    set_to,
    without,
)
from thorough import some

from outrigger.cases.faults import CaseFaultsError
from outrigger.cases.validate import validate
from outrigger.loads.layers import read_layers
from outrigger.verdict.design import design
from outrigger.verdict.taken import stated_none


def verdict(text):
    return design(case_of(text)).verdict


ASKED = [  # key taken out of the sample, key that is then asked
    *((key, key) for key in (
        "gap.house_finish",
        "outrigger.moisture", "outrigger.blocking",
        "house_roof.pitch", "house_roof.edge_support", "house_roof.framing_species",
        "house_roof.dead", "house_roof.live", "house_roof.snow", "house_roof.wind_uplift",
        "garage_roof.dead", "garage_roof.live", "garage_roof.storage", "garage_roof.overhang",
        "garage_roof.member_spacing",
        "garage_wall.height", "garage_wall.dead", "garage_wall.plate_species",
        "garage_wall.studs_over_outriggers", "garage_wall.out_of_plane_wind", "garage_wall.along",
        "snow.drift", "snow.sliding", "wind.uplift", "wind.down", "seismic.category",
        *(f"hold_down[{i}].{key}" for i in (0, 1) for key in (
            "into", "rated_uplift", "rated_for", "rated_wood", "rated_source",
            "rated_across_grain")),
    )),
    ("snow.roof", "snow.ground"),
]  # fmt: skip
PEOPLE = {"engineer of record", "truss designer", "framer on site", "building department",
          "maker's listing", "designer"}  # fmt: skip


def outcome(raw):
    """pass, open, fail or fault, with the design."""
    try:
        case = validate(raw, "job.toml")
    except CaseFaultsError:
        return "fault", None
    result = design(case)
    return result.verdict, result


def test_the_sample_passes_with_nothing_not_given():
    result = design(case_of(SAMPLE))
    assert (result.verdict, result.not_given, result.not_covered) == ("pass", [], [])


@pytest.mark.parametrize(("gone", "asked"), ASKED)
def test_not_given_is_asked_and_never_passes(gone, asked):
    """Law: without the key the verdict is at most open, and the key stands with its question."""
    raw = tomllib.loads(SAMPLE)
    (path,) = [p for p in paths(raw) if named(p) == gone]
    found, result = outcome(dropped(raw, path))
    assert found in ("open", "fail")
    (one,) = [n for n in result.not_given if n.key == asked]
    assert "?" in one.question
    assert one.who in PEOPLE
    section, _, field = asked.rpartition(".")
    header = "[[hold_down]]" if section.startswith("hold_down") else f"[{section}]"
    assert one.line.startswith(f"{header} {field} = ")


@pytest.mark.parametrize(
    "key",
    [
        "house_roof.pitch", "house_roof.framing_species", "garage_roof.member_spacing",
        "garage_roof.overhang", "gap.house_finish", "garage_wall.plate_species",
    ],
)  # fmt: skip
def test_a_value_taken_is_said(key):
    """Not given, but computed: the question says with what, in brackets."""
    raw = tomllib.loads(SAMPLE)
    result = outcome(dropped(raw, tuple(key.split("."))))[1]
    (one,) = [n for n in result.not_given if n.key == key]
    assert re.search(r"\[.+ taken\]", one.question)


@pytest.mark.parametrize("key", ["gap.house_finish", "garage_roof.member_spacing",
                                 "garage_roof.overhang"])  # fmt: skip
def test_a_value_taken_is_the_one_computed_with(key):
    """House finish 1/2 in, trusses at 24 in, no overhang: what the sample states, no more."""
    taken = outcome(dropped(tomllib.loads(SAMPLE), tuple(key.split("."))))[1]
    ratios = [row.ratio for row in taken.rows]
    assert ratios == [row.ratio for row in design(case_of(SAMPLE)).rows]


def test_no_uplift_still_asks_for_wind_that_presses():
    """A roof that nothing lifts may be pressed by wind: "none" of one is not "none" of both."""
    calm = set_to(SAMPLE, wind__uplift='"none"', house_roof__wind_uplift='"none"')
    result = design(case_of(without(calm, "wind", "down")))
    assert "wind.down" in [one.key for one in result.not_given]
    assert result.verdict == "open"
    both = design(case_of(set_to(calm, wind__down='"none"')))
    assert "wind.down" not in [one.key for one in both.not_given]


def test_a_sloped_house_roof_asks_for_the_direction():
    result = design(case_of(set_to(SAMPLE, house_roof__pitch='"4:12"')))
    assert "house_roof.direction" in [n.key for n in result.not_given]
    assert result.verdict != "pass"


def test_a_seismic_category_asks_for_sds():
    result = design(case_of(set_to(SAMPLE, seismic__category='"B"')))
    assert "seismic.sds" in [n.key for n in result.not_given]
    assert result.verdict != "pass"


def test_a_joint_asks_for_what_its_check_needs():
    result = design(case_of(SAMPLE + 'joint_width = "1/2 in"\n'))
    asked = {n.key for n in result.not_given}
    assert {"limits.below_clearance", "limits.joint_class"} <= asked
    assert result.verdict != "pass"


def test_no_hold_down_is_asked_and_never_passes():
    text = SAMPLE.partition("[[hold_down]]")[0]
    result = design(case_of(text))
    assert [n.key for n in result.not_given] == ["hold_down"]
    assert result.verdict != "pass"


def test_no_snow_asks_nothing_more_of_the_snow():
    """No snow at all: no drift, no sliding, nothing unbalanced."""
    text = without(SAMPLE, "snow", "drift", "sliding", "unbalanced")
    text = set_to(text, snow__roof='"none"', house_roof__snow='"none"')
    assert verdict(text) == "pass"


@pytest.mark.parametrize("part", ["D", "L", "Lr", "S", "W_up", "W_down"])
def test_a_line_load_that_is_left_out_is_asked(part):
    loads = {p: "10 plf" for p in ("D", "L", "Lr", "S", "W_up", "W_down") if p != part}
    line = ", ".join(f'{p} = "{q}"' for p, q in loads.items())
    result = design(case_of(changed(("bearing = true", f"bearing = true\nline = {{ {line} }}"))))
    assert [n.key for n in result.not_given] == [f"garage_roof.line.{part}"]
    assert result.verdict != "pass"


def asked_of(**changes):
    return {n.key for n in design(case(**changes)).not_given}


def test_what_follows_from_ground_snow_asks_for_the_pitch():
    """Cs hangs on the pitch of the garage roof, with no wind speed stated too; with snow and wind
    stated nothing does."""
    ground = {"snow__roof": GONE, "snow__ground": "30 psf", "snow__importance": 1.0}
    ground |= {"snow__exposure": 1.0, "snow__thermal": "unheated"}
    assert "garage_roof.pitch" in asked_of(garage_roof__pitch=GONE, **ground)
    assert "garage_roof.pitch" not in asked_of(garage_roof__pitch=GONE)


def test_what_is_stated_in_another_way_is_not_asked():
    """A drift as a line load; rafters by their places. A free space below without a joint asks how
    far the wood moves, and how far the clip slips."""
    line = {"snow__drift": GONE, "snow__drift_line": "30 plf"}
    assert "snow.drift" not in asked_of(**line)
    placed = {"house_roof__framing_spacing": GONE, "house_roof__framing_at": ["3/4 in", "21 in"]}
    assert "house_roof.framing_spacing" not in asked_of(**placed)
    below = asked_of(limits={"below_clearance": "1 in"})
    assert {"limits.moisture_change", "limits.clip_slip"} <= below


def test_what_is_not_given_is_not_said_to_be_none():
    """Loads that are zero by the user's word: those of the file that say so, and no others."""
    assert stated_none(case_of(SMALLEST)) == []
    none = {"snow__roof": "none", "garage_wall__along": "none"}
    said = stated_none(case(**none, garage_roof__live=GONE, wind={"uplift": "20 psf"}))
    assert {"snow", "force along the wall", "wind square to the wall"} <= set(said)
    assert not {"roof live", "wind", "wind down", "roof dead"} & set(said)


def test_unbalanced_snow_of_a_gable_roof_is_never_left_out_in_silence():
    """Roof snow on a 6:12 gable roof (ASCE 7-16 7.6.1: 2.38 to 30.2 degrees), unbalanced not
    stated: it is not computed, so it is no pass.
    """
    assert verdict(without(SAMPLE, "snow", "unbalanced")) != "pass"


def test_unbalanced_snow_from_the_ground_is_a_case_of_its_own():
    """ASCE 7-16 7.6.1, gable at 6:12: more on the leeward side than balanced."""
    text = without(SAMPLE, "snow", "unbalanced")
    text = changed(
        ('roof = "20 psf"', 'ground = "20 psf"\nexposure = 1.0\nthermal = 1.0'), text=text
    )
    loads = design(case_of(text)).loads
    assert loads.wall_line["S_near"][0, 0] > loads.wall_line["S"][0, 0]
    assert any("unbalanced" in reason for reason in loads.reasons)


def test_a_listing_that_does_not_cover_pull_across_the_grain():
    """rated_across_grain = false and no side_height: splitting cannot be checked, so no pass."""
    text = changed(("rated_across_grain = true", "rated_across_grain = false"))
    assert verdict(text) != "pass"


def test_a_wall_that_bears_nothing_beside_a_line_load():
    """bearing = false, and 900 plf of snow from a truss sheet: one of the two is wrong."""
    line = 'D = "500 plf", L = "0 plf", Lr = "0 plf", S = "900 plf", W_up = "0 plf"'
    line = f'line = {{ {line}, W_down = "0 plf" }}'
    text = changed(("bearing = true", f"bearing = false\n{line}"))
    assert faults_of(text) or verdict(text) != "pass"


@pytest.mark.parametrize("key", ["rated_for", "rated_wood", "rated_across_grain"])
def test_a_clip_over_the_top_asks_no_more_than_it_must(key):
    """side_height stands in for rated_across_grain, and for nothing else."""
    text = in_hold_downs(
        ("rated_across_grain = true", 'rated_across_grain = true\nside_height = "over the top"')
    )
    raw = tomllib.loads(text)
    gone = [p for p in paths(raw) if p[-1] == key and p[0] == "hold_down"]
    found = outcome(dropped(raw, *gone))[0]
    assert found == ("pass" if key == "rated_across_grain" else "open")


def test_whole_tables_left_out():
    """Law: no table can be left out and the verdict stay a pass."""
    raw = tomllib.loads(SAMPLE)
    for section in raw:
        found, _ = outcome({name: table for name, table in raw.items() if name != section})
        assert found in ("fault", "open", "fail") or section == "limits", section


def test_without_any_one_or_two_keys_nothing_turns_into_a_pass():
    """Law: what is open, fails or is faulty without one key does not pass without two. 200 pairs,
    every pair when thorough.

    Keys with a default that the sample states as it is (two plates, say) may be left out.
    """
    raw = tomllib.loads(SAMPLE)
    everything = list(paths(raw))
    alone = {path: outcome(dropped(raw, path))[0] for path in everything}
    assert sum(found == "open" for found in alone.values()) > 30
    worse = {"fault": 3, "fail": 2, "open": 1, "pass": 0}
    pairs = list(itertools.combinations(everything, 2))
    for pair in (pairs[i] for i in some(len(pairs), 200)):
        single = [alone[path] for path in pair]
        if "fault" in single:
            assert_faulty(dropped(raw, *pair))
        elif single != ["pass", "pass"]:
            found = outcome(dropped(raw, *pair))[0]
            assert worse[found] > 0, pair


def assert_faulty(raw):
    with pytest.raises(CaseFaultsError):
        validate(raw, "job.toml")


FAILING = {
    "snow": set_to(SAMPLE, snow__roof='"90 psf"'),
    "dead": set_to(SAMPLE, garage_roof__dead='"80 psf"'),
    "gap": set_to(SAMPLE, gap__width='"20 in"'),
    "back span": set_to(SAMPLE, outrigger__back_span='"6 in"'),
    "clips": changed(('rated_uplift = "420 lb"', 'rated_uplift = "20 lb"')),
    "wind": set_to(SAMPLE, wind__uplift='"150 psf"'),
    "blocking": set_to(SAMPLE, outrigger__blocking="[]"),
}


@pytest.mark.parametrize("text", FAILING.values(), ids=FAILING.keys())
def test_a_fail_never_turns_into_a_pass_without_a_key(text):
    """Law: leaving out what makes it fail is open at best."""
    raw = tomllib.loads(text)
    assert outcome(raw)[0] == "fail"
    for path in paths(raw):
        assert outcome(dropped(raw, path))[0] != "pass", path


@given(st.data())
@few_draws
def test_any_number_of_keys_left_out(data):
    """Law: faults, or a verdict; a pass only when every key left out may be left out."""
    raw = tomllib.loads(SAMPLE)
    gone = data.draw(st.lists(st.sampled_from(list(paths(raw))), unique=True, max_size=12))
    alone = {outcome(dropped(raw, path))[0] for path in gone}
    found = outcome(dropped(raw, *gone))[0]
    assert found != "pass" or alone <= {"pass"}


def test_only_what_is_required_is_open():
    result = design(case_of(SMALLEST))
    assert result.verdict == "open"
    asked = {n.key for n in result.not_given}
    either = {"wind.down", "seismic.sds", "house_roof.direction", "snow.drift", "snow.sliding"}
    wanted = {asked_key for _, asked_key in ASKED if "hold_down" not in asked_key} - either
    assert asked == wanted | {"hold_down"}


def test_a_clip_listed_for_nothing(run):
    """A listed uplift of none holds nothing: it fails, in words."""
    result = run("check", "--all", "clip=none")
    assert result.returncode == 1
    said = " ".join(result.stdout.split())
    assert said.count("SAMPLE: fail: back clip pull-out: its listed value is none.") == 2


def test_a_dead_load_by_its_layers_is_open_where_wind_lifts():
    """Its heavy side is stated, 3 + 1 1/2 + 2 1/2 = 7 psf; what holds down against wind may be 5.05
    psf, so that 0.6 of 7 psf is not known to be there."""
    layers = read_layers("shingles + OSB 7/16 + trusses", "roof")
    assert (layers.psf, layers.light) == (pytest.approx(7.0), pytest.approx(5.05))
    text = set_to(SAMPLE, garage_roof__dead=f'"7 psf"\ndead_source = "{layers.text}"')
    (asked,) = (n for n in design(case_of(text)).not_given if n.key == "garage_roof.dead")
    assert "at least" in asked.question and asked.bears
    still = set_to(
        text, wind__uplift='"none"', wind__down='"none"', house_roof__wind_uplift='"none"'
    )
    assert "garage_roof.dead" not in [n.key for n in design(case_of(still)).not_given]


@pytest.mark.parametrize(("into", "asked"), [("framing", True), ("sheathing only", False)])
def test_which_way_the_rafters_run_is_asked_where_a_clip_must_find_them(into, asked):
    holds = [{**one, "into": into} for one in TABLES["hold_down"]]
    stated = case(house_roof__framing_parallel=GONE, hold_down=holds)
    keys = {one.key for one in design(stated).not_given}
    assert ("house_roof.framing_parallel" in keys) is asked


@pytest.mark.parametrize(
    ("spacing", "rafters", "said"), [("16 in", "16 in", False), ("16 in", "22 in", True)]
)
def test_clips_on_parallel_rafters_of_another_spacing_are_not_covered(spacing, rafters, said):
    """Every outrigger over a rafter where their spacings agree; else some clips land on panel."""
    stated = case(
        house_roof__framing_parallel=True,
        house_roof__framing_spacing=rafters,
        outrigger__spacing=spacing,
    )
    found = [text for text in design(stated).not_covered if "which clips land" in text]
    assert bool(found) is said


@pytest.mark.parametrize("said", ["none", "N/A", "?", " - ", "unknown", "TBD", "assumed",
                                  "report, table, page",  # as the ask sheet has it, pasted
                                  "report, table, fastener schedule, page"])  # fmt: skip
@pytest.mark.parametrize("key", ["hold_down[0].rated_source", "wall_tie.rated_source"])
def test_a_word_that_names_no_page_gives_none(key, said):
    """A clip of no listing passed as if one had been read, in a case that is no sample too."""
    tie = {"count": 2, "rated_uplift": "420 lb", "rated_lateral": "200 lb", "rated_for": "wind",
           "rated_wood": "Spruce-Pine-Fir", "rated_across_grain": True,
           "rated_source": "a listing"}  # fmt: skip
    raw = tomllib.loads(SAMPLE) | {"wall_tie": tie}
    assert outcome(raw)[0] == "pass"
    at, _, last = key.partition(".")
    (raw["wall_tie"] if at == "wall_tie" else raw["hold_down"][0])[last] = said
    verdict, result = outcome(raw)
    assert verdict == "open"
    assert [one.key for one in result.not_given] == [key]


def test_a_page_in_any_letters_is_one():
    for said in ("ESR-1 p. 3", "3", "таблица", "表"):
        raw = tomllib.loads(SAMPLE)
        raw["hold_down"][0]["rated_source"] = said
        assert outcome(raw)[0] == "pass"
