"""The bundled sample, from ground snow, step and wind speed to bending, worked by hand.

ASCE 7-16, ASD. Ground snow 25 psf, Ce 1, Ct 1.2, Is 1; gable 6:12, span 18 ft, trusses at 24 in
over outriggers at 16 in, so that one takes 24 in of wall; step 4 ft, house 28 ft, garage 20 ft;
gap 6 in, plate 3 1/2 in, arm 9.75 in, tail 1.75 in; house face 7.75 in from the wall line.
"""

import json
import math

import numpy as np
import pytest
from draws import few_draws
from hypothesis import given
from hypothesis import strategies as st
from in_combination import demand_in
from published import printed
from sample_case import DRIFTED, case_of, changed, faults_of, set_to
from thorough import spread

from outrigger.base.errors import RangeError
from outrigger.cases.batch import batch_of
from outrigger.cases.paths import with_numbers
from outrigger.verdict.design import design, designs_of


@pytest.fixture(scope="module")
def sample():
    return design(case_of(DRIFTED))


def modern(text=DRIFTED):
    """The sample under ASCE 7-22: no importance factor, a winter wind."""
    return changed(
        ('loads = "ASCE 7-16"', 'loads = "ASCE 7-22"'),
        ("importance = 1.0 ", "# importance = 1.0 "),
        ("# winter_wind = 0.45", "winter_wind = 0.45"),
        text=text,
    )


def pounds(result, part):
    return float(result.loads.wall_line[part][0, 0])


def test_balanced_snow(sample):
    """pf = 0.7 x 1 x 1.2 x 1 x 25 = 21.0 psf (7.3-1); cold roof, 26.6 degrees under the knee of 45:
    Cs 1. On the wall line 21 x 9 = 189 plf, x 2 ft = 378 lb."""
    assert pounds(sample, "S") == printed("378.0")


def test_drift_reaches_the_wall_line_by_statics(sample):
    """7.7.1: gamma = 0.13 x 25 + 14 = 17.25; hb = 21/17.25 = 1.217; hc = 2.783 ft.

    Leeward, lu 28: hd = 0.43 x 28^(1/3) x 35^(1/4) - 1.5 = 1.6759 ft; peak 28.910 psf; attached
    over 4 hd = 6.70 ft, across the gap (7.7.2) over 6 hd = 10.055 ft: the wider one.
    The drift begins at the house face, 0.64583 ft outside the wall line; from there inward
    28.910 x (1 - 0.64583/10.0555) = 27.053 psf, falling to 0 over 9.4097 ft:
    27.053 x 9.4097/2 = 127.28 plf, at 3.1366 ft: x (18 - 3.1366)/18 = 105.10 plf.
    With the balanced 189: 294.10 plf x 2 ft = 588.2 lb (peak x width would give 634).
    """
    assert pounds(sample, "S_lee") == printed("588.2")


def test_windward_drift(sample):
    """lu 20: hd = 0.43 x 20^(1/3) x 35^(1/4) - 1.5 = 1.33898; x 0.75 = 1.00423 ft; 17.323 psf over
    4.01693 ft. At the wall line 17.323 x (1 - 0.64583/4.01693) = 14.538, over 3.37110 ft:
    24.505 plf at 1.12370 ft: x (18 - 1.1237)/18 = 22.975 plf; (189 + 22.975) x 2 = 423.9 lb."""
    assert pounds(sample, "S_wind") == printed("423.9")


def test_unbalanced_snow(sample):
    """7.6.1: W = 9 ft, taken 20 ft: hd = 0.43 x 20^(1/3) x 35^(1/4) - 1.5 = 1.33898; S = 2;
    surcharge 1.33898 x 17.25/sqrt 2 = 16.332 psf from the ridge over 8 x 1.33898 x sqrt 2/3 =
    5.0497 ft. Heavy here: 21 on this half, the surcharge 3.9503 to 9 ft, 6.3 on the far half:
    21 x 9 x 13.5/18 + 16.332 x 5.0497 x (18 - 6.47515)/18 + 6.3 x 9 x 4.5/18
    = 141.75 + 52.804 + 14.175 = 208.73 plf, x 2 = 417.5 lb.
    Heavy there: 6.3 x 9 x 13.5/18 + 21 x 9 x 4.5/18 + 16.332 x 5.0497 x (18 - 11.52485)/18
    = 42.525 + 47.25 + 29.668 = 119.44 plf, x 2 = 238.9 lb."""
    assert pounds(sample, "S_near") == printed("417.5")
    assert pounds(sample, "S_far") == printed("238.9")


def test_bending_at_the_edge(sample):
    """D 15 x 9 x 2 + 10 x 3 x 16/12 = 310.0 lb; with the leeward drift 898.20 lb x 9.75 = 8757.5.

    Strip, dead 13.333 plf and self weight 34.21 pcf x 8.25/144 = 1.960 plf: 1.2744 lb/in x 11.5^2/2
    = 84.3. Snow on it 21 + 28.910 = 49.910 psf x 16/12 = 5.5455 lb/in: x 11.5^2/2 = 366.7, less
    what it loses past the house face (2 in): 28.910/10.0555 psf per ft = 0.026620 lb/in per in over
    9.5 in: 0.25289 x 9.5/2 x (2 + 2 x 9.5/3) = 10.0.
    M = 8757.5 + 84.3 + 366.7 - 10.0 = 9198.5 lb-in; / 7.5625 = 1216.3 psi; Fb' 1296.3 (CD 1.15,
    CF 1.3, CL 0.9635): 0.938."""
    row = sample.closest
    assert (row.check.id, row.combination) == ("bending", "D + S drift leeward")
    assert row.demand == printed("1216.3")
    assert row.ratio == printed("0.938")


def test_wind_from_speed(sample):
    """26.10: Kz = 2.01 (15/1200)^(2/7) = 0.57472; qh = 0.00256 x 0.57472 x 0.85 x 105^2 = 13.788.

    Fig. 30.3-2C, A = 2 x 9 = 18 sf: zone 3e -2.5 + 1.3 log 1.8/log 15 = -2.2178; with GCpi 0.18:
    13.788 x 2.3978 = 33.06 psf up; x 9 x 2 = 595.1 lb. Down 0.7 - 0.4 log 9/log 50 = 0.4753, with
    0.18: 9.04 psf, so 16 psf (30.2.2): 288.0 lb. House roof flat, Fig. 30.3-2A, under 10 sf, zone
    3: 13.788 x (3.2 + 0.18) = 46.60 psf x 16/12 = 62.14 plf = 5.178 lb/in on the back span."""
    assert -pounds(sample, "W_up") == printed("595.1")
    assert pounds(sample, "W_down") == printed("288.0")
    assert -float(sample.loads.back["W_back"][0, 0]) == printed("5.178")


@pytest.mark.parametrize("method", ["ASD", "LRFD"])
@pytest.mark.parametrize("text", [DRIFTED, modern()], ids=["7-16", "7-22"])
def test_runs_to_a_verdict_with_no_pressure_typed(text, method):
    result = design(case_of(changed(('method = "ASD"', f'method = "{method}"'), text=text)))
    assert (result.not_given, result.not_covered) == ([], [])
    assert result.verdict in ("pass", "fail")


def test_each_load_says_why(sample):
    said = "\n".join(sample.loads.reasons)
    for word in ("minimum snow", "unbalanced", "drift", "sliding", "wind on the", "earthquake"):
        assert word in said
    assert "zone 3e" in said


def test_the_take_down_is_in_the_data(run, tmp_path):
    """Clause, unit, level and status of every step; unverified values are named in the notes."""
    (tmp_path / "job.toml").write_text(DRIFTED, encoding="utf-8")
    data = json.loads(run("check", "job.toml", "--json", folder=tmp_path).stdout)
    steps = data["loads"]["takedown"]["S_lee"]
    assert {"symbol", "line", "value", "unit", "clause", "note", "status"} == set(steps[0])
    assert any("7.7" in step["clause"] for step in steps)
    assert data["loads"]["wall_line_lb"]["S"] == max(data["loads"]["snow_cases_lb"].values())
    unsure = [s for part in data["loads"]["takedown"].values() for s in part
              if s["status"] in ("SECOND-HAND", "OTHER EDITION", "MEMORY")]  # fmt: skip
    assert unsure
    assert any(note.startswith("unverified value used") for note in data["notes"])


def test_shape_not_given_leaves_every_number_and_says_so(sample):
    text = changed(('shape = "gable"\n', ""), text=DRIFTED)
    result = design(case_of(text))
    assert "S_near" not in result.loads.wall_line
    assert pounds(result, "S_lee") == pounds(sample, "S_lee")
    assert any("shape of the roof is not given" in why for why in result.loads.reasons)
    assert result.verdict == "open"


def test_722_without_winter_wind_is_refused():
    text = changed(("winter_wind = 0.45", "# winter_wind = 0.45"), text=modern())
    assert any("winter_wind" in fault for fault in faults_of(text))


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (("mean_height = \"12 ft\"", "mean_height = \"70 ft\""), "outside 0 to 60 ft"),
        (("speed = \"105 mph\"", "speed = \"300 mph\""), "85 to 250 mph"),
        (("pitch = \"6:12\"", "pitch = \"14:12\""), "0 to 45 deg"),
    ],
)  # fmt: skip
def test_outside_the_provision_names_its_range(run, change, said, tmp_path):
    (tmp_path / "job.toml").write_text(changed(change, text=DRIFTED))
    done = run("check", "job.toml", folder=tmp_path)
    assert done.returncode == 2
    assert said in " ".join(done.stderr.split())


def test_winter_wind_outside_what_is_mapped():
    text = changed(("winter_wind = 0.45", "winter_wind = 0.70"), text=modern())
    with pytest.raises(RangeError, match=r"0\.25 to 0\.65"):
        design(case_of(text))


def test_a_zone_that_the_figure_has_not(run, tmp_path):
    text = changed(('enclosure = "enclosed"', 'enclosure = "enclosed"\nzone = "7"'), text=DRIFTED)
    (tmp_path / "job.toml").write_text(text)
    done = run("check", "job.toml", folder=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert "3e" in done.stderr


def test_house_roof_drift_is_a_triangle_over_strip_and_back_span():
    """The garage wall stands on the house roof: lu = 20 ft leeward and 28 ft windward (7.7.1).

    Leeward hd 1.33898, across the gap 6 hd = 8.034 ft; windward 0.75 x 1.67592 = 1.25694, 5.028 ft.
    The peak at the wall line: 17.25 x 1.33898 = 23.097 psf x 16/12 = 30.797 plf = 2.5664 lb/in.
    """
    result = design(case_of(changed(('on = "garage roof"', 'on = "house roof"'), text=DRIFTED)))
    peak, width = result.loads.house["S_house"]
    assert float(peak[0, 0]) == printed("2.5664")
    assert float(width[0, 0]) == pytest.approx(8.0339 * 12, abs=0.01)
    part = result.model.parts.index("S_house")
    total = sum(float(R[0, part]) for R in result.model.whole.R)
    # all of the triangle within the member: it ends 86.7 in inside, the back span is 48 in
    inside = 57.75 / (8.0339 * 12)
    on_member = 2.5664 * 57.75 * (1 - inside / 2)
    balanced = pounds(result, "S_house") + 21 / 144 * 16 * 11.5
    assert total == pytest.approx(on_member + balanced, rel=1e-4)  # the peak has five digits


def test_earthquake_adds_its_vertical_effect_and_pushes_the_wall():
    """12.4.2.2: 0.2 x 0.9 x D = 0.18 D; D to F also 0.2 D net up alone (12.4.4). D 310.0 lb: square
    to the wall 0.4 x 0.9 x ka 2.0 x 310 = 223.2 lb (12.11.2), x 0.7 = 156.2 lb."""
    text = changed(('category = "A"', 'category = "D"\nsds = 0.9'), text=DRIFTED)
    result = design(case_of(text))
    assert result.loads.Ev_per_D == pytest.approx(0.18)
    assert result.verdict == "pass"
    (slides,) = (row for row in result.rows if row.check.id == "slide")
    assert slides.demand == printed("156.2")
    assert "0.7E " in slides.combination
    names = [c.name for c in result.main.combinations.all]
    assert {"D + 0.7Ev", "0.6D - 0.7Ev", "-0.2D net up"} <= set(names)
    assert any("0.525Ev" in name for name in names)  # row 9


def test_earthquake_without_sds_is_open():
    result = design(case_of(changed(('category = "A"', 'category = "C"'), text=DRIFTED)))
    assert "seismic.sds" in [one.key for one in result.not_given]


@pytest.mark.parametrize(
    ("span", "pitch", "psf"),
    [("18 ft", "4:12", "20.0"), ("18 ft", "8:12", "16.0"), ("18 ft", "12:12", "12.0")],
)
def test_roof_live_is_reduced_by_slope(span, pitch, psf):
    """4.8.2: R2 = 1 to 4:12, 1.2 - 0.05 F between, 0.6 from 12:12; 18 sf is under 200: R1 = 1."""
    text = changed(("member_spacing", "reduce_live = true\nmember_spacing"), text=DRIFTED)
    text = set_to(text, garage_roof__pitch=f'"{pitch}"', garage_roof__span=f'"{span}"')
    assert pounds(design(case_of(text)), "Lr") / (9 * 2) == printed(psf)


def test_722_snow_at_seven_tenths():
    """7-22 takes 0.7 S where 7-16 takes S: ground snow raised by 1/0.7 gives the same balanced row
    (no importance, Ct and Ce alike)."""
    plain = 'drift = "none"\nsliding = "none"\nunbalanced = "none"\non_house = "none"\n'
    start, end = DRIFTED.index("[snow.drift]"), DRIFTED.index("\n[wind]\n")
    text = changed(("importance = 1.0", f"{plain}importance = 1.0"),
                   text=DRIFTED[:start] + DRIFTED[end:])  # fmt: skip
    old = design(case_of(text))
    new = set_to(
        changed(("importance = 1.0 ", "# importance = 1.0 "), text=text),
        basis__loads='"ASCE 7-22"', snow__ground='"35.714286 psf"',
    )  # fmt: skip
    result = design(case_of(new))

    def demand(one, name):
        check = next(c for c in one.checks if c.id == "bending" and c.place == "edge")
        return demand_in(check, name)

    assert demand(result, "D + 0.7S") == pytest.approx(demand(old, "D + S"), rel=1e-6)


@few_draws
@given(st.floats(1.5, 12.0), st.floats(0.1, 3.0))
def test_a_higher_step_never_lowers_the_drift(step, more):
    low, high = (
        design(case_of(set_step(value))).loads.wall_line.get("S_lee", np.zeros((1, 1)))
        for value in (step, step + more)
    )
    assert float(high[0, 0]) >= float(low[0, 0]) - 1e-9


def set_step(feet):
    return changed(('house_step = "4 ft" ', f'house_step = "{feet:.4f} ft" '), text=DRIFTED)


def test_a_wall_that_bears_no_roof_still_has_drift_on_its_strip():
    """A gable wall: P is the wall's weight alone; the strip takes 21 + 28.910 psf at the face."""
    text = changed(("bearing = true", "bearing = false"), text=DRIFTED)
    loads = design(case_of(text)).loads
    assert float(loads.wall_line["S_lee"][0, 0]) == 0
    assert float(loads.strip["S_lee"][0, 0]) == printed("5.5455")


def test_no_snow_no_drift():
    result = design(case_of(set_to(DRIFTED, snow__ground='"none"')))
    assert all(not np.any(p) for part, p in result.loads.wall_line.items() if part[0] == "S")


@pytest.mark.parametrize("field", ["snow.ground", "gap.width", "garage_roof.span"])
def test_a_sweep_equals_single_runs_bit_for_bit(field):
    """Drift, unbalanced snow and wind from speed, all with arrays."""
    case = case_of(DRIFTED)
    low, high = {"snow.ground": (0.05, 0.4), "gap.width": (2.0, 12.0),
                 "garage_roof.span": (120.0, 300.0)}[field]  # fmt: skip
    values = spread(low, high, 9, every=23)
    together = designs_of(batch_of(case, {field: values}))
    for i, value in enumerate(values):
        alone = design(with_numbers(case, {field: value}))
        for many, one in zip(together.checks, alone.checks, strict=True):
            assert (many.id, many.place, many.link) == (one.id, one.place, one.link)
            if one.ratio is None:
                continue
            row = np.atleast_2d(many.ratio)
            single = np.atleast_2d(one.ratio)
            assert row[i if len(row) > 1 else 0].tobytes() == single[0].tobytes(), many.id


def test_hand_arithmetic_of_this_file():
    """The drift's height once more, by plain arithmetic."""
    assert pytest.approx(1.6759, abs=5e-5) == 0.43 * 28 ** (1 / 3) * 35**0.25 - 1.5
    assert math.isclose(0.7 * 1.2 * 25, 21.0)
