"""Loads that follow from the codes, over the editions: laws, and what the file leaves out."""

import json

import numpy as np
import pytest
from codes_case import (
    GONE,
    LINE,
    MODERN,
    NO_DRIFT,
    STATED_WIND,
    case,
    checked,
    designed,
    in_combination,
    said,
    same_bits,
    tables,
)
from draws import few_draws
from hypothesis import assume, given
from hypothesis import strategies as st
from thorough import spread

from outrigger.base.errors import InputError
from outrigger.cases.batch import batch_of
from outrigger.cases.faults import CaseFaultsError
from outrigger.verdict import notes

# Editions, and what the output says.


def test_importance_is_refused_in_seven_22(run, tmp_path):
    done = checked(run, tmp_path, **{**MODERN, "snow__importance": 1.0})
    assert done.returncode == 2
    assert "snow.importance" in done.stderr
    done = checked(run, tmp_path, snow__drift__winter_wind=0.45)
    assert done.returncode == 2
    assert "winter_wind belongs to ASCE 7-22" in " ".join(done.stderr.split())


@pytest.mark.parametrize(
    "changes",
    [
        {},
        MODERN,
        NO_DRIFT,
        {"snow__drift": GONE, "snow__sliding": GONE},
        {"snow__drift": GONE, "snow__drift_line": "50 plf"},
        {"garage_roof__shape": "high at the house"},
        {"garage_roof__pitch": "1:12"},
        {"garage_roof__bearing": False},
        {"garage_roof__line": LINE, **NO_DRIFT},
        {"snow__unbalanced": "none"},
        {**STATED_WIND},
        {"seismic__category": "none"},
        {"seismic__category": "D", "seismic__sds": 1.0},
    ],
)
def test_every_load_has_its_reason(changes):
    """Drift, sliding, unbalanced snow, wind, earthquake: each in a line, apply or not."""
    reasons = said(designed(**changes))
    for words in ("drift", "slid", "unbalanced snow", "wind", "earthquake"):
        assert words in reasons, words


def test_the_take_down_carries_clause_and_status(run, tmp_path):
    """Whatever is not surely the standard's is named in the notes, with its word."""
    data = json.loads(checked(run, tmp_path, "--json", **MODERN).stdout)
    steps = [s for part in data["loads"]["takedown"].values() for s in part]
    assert all({"clause", "status", "unit", "line"} <= set(step) for step in steps)
    clauses = {step["clause"] for step in steps}
    for clause in ("ASCE 7 Eq. 7.4-1", "ASCE 7 7.7.2", "ASCE 7 7.6.1", "ASCE 7 30.2.2"):
        assert clause in clauses, clause
    named = [note for note in data["notes"] if note.startswith("unverified value used: ")]
    words = {"MEMORY": "from memory", "SECOND-HAND": "second-hand"}
    unsure = [step for step in steps if step["status"] in words]
    assert {step["status"] for step in unsure} == set(words)
    for step in unsure:
        found = [n for n in named if f", {step['clause']}" in n and step["symbol"] in n]
        assert any(n.endswith(f" ({words[step['status']]})") for n in found), step
    assert any("p_ridge" in note for note in named)  # trusses are not prismatic rafters
    assert not any("alpha" in note for note in named)  # 7-22, B: NCh 432:2025 Table 6


def test_what_one_page_shows_of_main_wind_is_named():
    """GCpi 0.55 is read (ASCE 7-16 p. 271 in rohreng/anderson-rohr-calcs; NCh 432:2025 Table 7);
    G 0.85 of the main system stands in a page without an author."""
    components = notes.unverified(designed(wind__enclosure="partially enclosed"))
    assert not any(text.startswith("GCpi") for text in components)
    main = notes.unverified(designed(wind__method="main"))
    assert any(text.startswith("G_gust, ") and text.endswith(" (second-hand)") for text in main)


# Laws.


def drift_pounds(step, pg=25.0, house=28.0):
    result = designed(
        snow__drift__house_step=f"{step:.4f} ft",
        snow__ground=f"{pg:.4f} psf",
        snow__drift__house_length=f"{house:.4f} ft",
    )
    zero = np.zeros((1, 1))
    parts = (result.loads.wall_line.get(part, zero) for part in ("S_lee", "S_wind"))
    return max(float(P[0, 0]) for P in parts)


@few_draws
@given(st.floats(1, 12), st.floats(0.01, 4), st.floats(5, 90), st.floats(10, 100))
def test_a_higher_step_never_lowers_the_drift(step, more, pg, house):
    assert drift_pounds(step + more, pg, house) >= drift_pounds(step, pg, house) - 1e-9


@few_draws
@given(st.floats(5, 55), st.floats(0.1, 10), st.sampled_from(["16", "22"]))
def test_more_ground_snow_never_lowers_a_gravity_ratio(pg, more, edition):
    """A high step and a steep roof, so that no limit of a provision lies between; but rain on snow
    ends at a ground snow of 20 psf (7.10): the provision's own jump, on the level back span."""
    assume(not pg <= 20 < pg + more)
    changes = MODERN if edition == "22" else {}
    changes = {**changes, "snow__drift__house_step": "15 ft", "snow__sliding__house_slope": "6:12"}
    low, high = (designed(**changes, snow__ground=f"{x:.4f} psf") for x in (pg, pg + more))
    for before, after in zip(low.rows, high.rows, strict=True):
        if before.ratio is not None and "W up" not in before.combination:
            assert after.ratio >= before.ratio * (1 - 1e-9), before.check.id


@pytest.mark.parametrize("changes", [{}, MODERN, {"snow__drift__on": "both"}])
def test_no_snow_no_drift(changes):
    result = designed(**changes, snow__ground="none")
    assert "snow: none, the ground snow is none" in said(result)
    for by in (result.loads.wall_line, result.loads.strip, result.loads.back):
        assert not any(np.any(q != 0) for part, q in by.items() if part.startswith("S"))
    assert not result.loads.house


@pytest.mark.parametrize(
    ("field", "low", "high"),
    [
        ("snow.ground", 0.0, 0.6),  # psi
        ("gap.width", 1.0, 24.0),
        ("garage_roof.span", 48.0, 480.0),
    ],
)
def test_swept_cases_equal_single_runs_bit_for_bit(field, low, high):
    """Drift, sliding, unbalanced snow and a wind speed, all at once."""
    base = case(snow__sliding__house_slope="6:12")
    same_bits(base, field, spread(low, high))


def test_a_sweep_with_a_drift_on_both_roofs_equals_single_runs():
    base = case(snow__sliding__house_slope="6:12", snow__drift__on="both")
    same_bits(base, "gap.width", spread(2.0, 12.0, 11, every=41))
    same_bits(base, "snow.ground", spread(0.05, 0.4, 11, every=41))


def test_seven_22_at_seven_tenths_equals_7_16():
    """0.7 S of 7-22 is S of 7-16 with ground snow / 0.7, where the formulas are the same: balanced
    and sliding snow, no drift and no unbalanced."""
    plain = {"snow__drift": "none", "snow__unbalanced": "none"}
    plain |= {"snow__sliding__house_slope": "6:12"}
    old = designed(**plain)
    changes = {**MODERN, **plain, "snow__ground": f"{25 / 0.7:.12f} psf"}
    del changes["snow__drift__winter_wind"]
    new = designed(**changes)
    pairs = [("D + S", "D + 0.7S"), ("D + S sliding", "D + 0.7S sliding")]
    for before, after in pairs:
        for id, place, link in (
            ("bending", "edge", ""),
            ("shear", "edge", "arm side"),
            ("edge_bearing", "edge", "sheathing"),
        ):
            expected = in_combination(old, id, place, link, before)
            assert in_combination(new, id, place, link, after) == pytest.approx(expected, rel=1e-9)


# Keys left out: never a pass that carries less than before.

BASES = {
    "7-16": {},
    "7-22": MODERN,
    "main, D": {"wind__method": "main", "seismic__category": "D", "seismic__sds": 0.5},
    "sliding, both": {"snow__sliding__house_slope": "6:12", "snow__drift__on": "both"},
    "stated": STATED_WIND,
}
SECTIONS = ("snow", "snow__drift", "snow__sliding", "wind", "seismic")


def removals():
    for name, changes in BASES.items():
        found = tables(**changes)
        for section in SECTIONS:
            top, _, sub = section.partition("__")
            table = found[top][sub] if sub else found[top]
            yield name, section
            yield from ((name, f"{section}__{key}") for key in table)


@pytest.mark.parametrize(("base", "gone"), sorted(set(removals())))
def test_a_key_left_out_never_gives_a_pass_with_less_load(base, gone):
    full = designed(**BASES[base])
    try:
        result = designed(**{**BASES[base], gone: GONE})
    except CaseFaultsError as error:
        (fault,) = error.faults
        assert fault.message.startswith(f"{gone.replace('__', '.')} is not given, and ")
        return
    if result.verdict != "pass":
        assert result.not_given or result.not_covered or full.verdict != "pass"
        return
    for name in ("wall_line", "strip", "back"):
        before, after = getattr(full.loads, name), getattr(result.loads, name)
        for part, amount in before.items():
            if np.any(amount != 0):
                assert part in after, (name, part)
                assert abs(after[part][0, 0]) >= abs(amount[0, 0]) - 1e-12, (name, part)


@pytest.mark.parametrize("key", ["house_step", "house_length", "garage_length"])
@pytest.mark.parametrize("text", ["-4 ft", "0 ft", "none", "4", "4 psf", 4, [4], True])
def test_odd_values_of_a_drift_are_faults(key, text):
    with pytest.raises(CaseFaultsError, match=rf"snow\.drift\.{key}"):
        case(**{f"snow__drift__{key}": text})


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("snow__ground", "-25 psf"),
        ("snow__ground", "25"),
        ("snow__ground", "25 psi"),
        ("snow__ground", "25 plf"),
        ("snow__ground", ["25 psf"]),
        ("snow__exposure", -1.0),
        ("snow__thermal", float("nan")),
        ("snow__importance", 10),
        ("wind__speed", "-105 mph"),
        ("wind__speed", "105"),
        ("wind__speed", "none"),
        ("wind__exposure", "A"),
        ("wind__enclosure", "open"),
        ("seismic__sds", -0.5),
        ("seismic__sds", True),
        ("seismic__category", "G"),
        ("snow__sliding__house_run", "0 ft"),
        ("snow__sliding__slippery", "no"),
    ],
)
def test_odd_values_are_faults(path, value):
    with pytest.raises(CaseFaultsError, match=path.rpartition("__")[2]):
        case(**{path: value})


def test_snow_factors_in_words_give_the_numbers_of_their_tables():
    """7-16 Tables 7.3-1 and 7.3-2: terrain D fully exposed 0.8, freezer building 1.3."""
    words = designed(snow__exposure="D, fully exposed", snow__thermal="freezer")
    numbers = designed(snow__exposure=0.8, snow__thermal=1.3)
    assert words.worked.ratios.tolist() == numbers.worked.ratios.tolist()


def test_a_sweep_refuses_a_case_out_of_range():
    base = case()
    with pytest.raises(InputError, match=r"snow\.ground = -0\.1: must be no less than 0"):
        batch_of(base, {"snow.ground": np.array([0.1, -0.1])})
