"""What a reader is told of where a value is from; what a recalled grade does to a verdict."""

import json
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from codes_case import designed as on_codes
from in_combination import demand_in
from level_case import check, designed

from outrigger.loads.gravity import MOST_OF_FIRST_INTERIOR, first_interior
from outrigger.report.provenance import DEFINITIONS
from outrigger.verdict import notes

EXAMPLES = Path(__file__).parents[2] / "examples"


def flat(text):
    return " ".join(text.split())


# ---- lambda and the load factors


def test_a_recalled_lambda_is_named(run):
    """examples/strength_level_snow.toml, LRFD with 7-22: 0.8 of 3a-L is not in NDS 2018 Table N3
    beside 1.0S; 1.4D and what has no snow is."""
    screen = flat(run("check", "--all", EXAMPLES / "strength_level_snow.toml").stdout)
    said = screen.partition("Not verified, from memory: ")[2].partition("Not verified, ")[0]
    assert "lambda 0.8 with ASCE 7-22 2.3.1 combinations 2a, 3a-L, 3a-W;" in said
    assert "; lambda 0.8 with one worker, a rule of our own;" in said
    assert "lambda 0.6" not in said


def test_steps_cite_where_lambda_is_from(run):
    steps = flat(run("check", EXAMPLES / "strength_level_snow.toml", "--steps").stdout)
    assert (
        "λ = 0.8 [not in NDS 2018 Table N3, by its nearest row, UNVERIFIED: from memory]" in steps
    )
    assert "λ = 0.8 [NDS 2018 Table N3" not in steps
    old = flat(run("check", EXAMPLES / "passes.toml", "basis.method=LRFD", "--steps").stdout)
    assert "λ = 0.8 [NDS 2018 Table N3]" in old
    assert "combination 3a]" not in old


def test_steps_cite_the_load_combination(run):
    """ASCE 7-16 2.4.1 in a city building code and a code summary, no author on file."""
    steps = flat(run("check", EXAMPLES / "passes.toml", "--steps").stdout)
    assert "dead + snow (D + S), ASCE 7-16 2.4.1 combination 3, UNVERIFIED: second-hand" in steps


# ---- words


def test_each_unsure_value_has_its_word():
    """Fig. 30.3-2C of 7-16 in one independent source; a truss is no rafter, recalled."""
    found = notes.unverified(on_codes())
    assert any(t.startswith("GCp1, GCp2, ASCE 7-16 Fig. 30.3-2C") for t in found)
    assert all(t.endswith((" (second-hand)", " (from memory)", " (other edition)")) for t in found)
    words = [t.rpartition(" (")[2] for t in found]
    order = ["from memory)", "other edition)", "second-hand)"]
    assert words == sorted(words, key=order.index)
    assert len(set(found)) == len(found)


def test_another_edition_is_named(run):
    """Mixed Southern Pine, Table 4B: read in the 2024 edition alone."""
    words = ("check", EXAMPLES / "passes.toml", "species=Mixed Southern Pine")
    said = flat(run(*words, "--all").stdout)
    assert "Not verified, other edition: G of Mixed Southern Pine No. 2, own weight;" in said
    data = run(*words, "--json").stdout
    named = [n for n in json.loads(data)["notes"] if n.startswith("unverified value used: ")]
    assert any("Table 4B" in n and n.endswith("(other edition)") for n in named)
    listed = flat(run("lumber", "Mixed Southern Pine").stdout)
    assert "other edition, read in a later edition of the table only: all of these" in listed


def test_the_words_are_defined_once_in_a_summary(run, tmp_path):
    for name in ("passes.toml", "strength_level_snow.toml"):
        out = tmp_path / f"{name}.md"
        assert run("summary", EXAMPLES / name, "-o", out).returncode == 0
        text = flat(out.read_text(encoding="utf-8"))
        assert text.count("second-hand: read in a program or a transcription alone") == 1
        asked = text[text.index("Questions for the engineer") :]
        assert "kinds of value are of unverified source: is each as printed?" in asked
        assert "(second-hand)" in asked
    for word in ("seen", "derived", "second-hand", "other edition", "from memory"):
        assert f"{word}: " in DEFINITIONS.lower()


# ---- a grade that was read nowhere


@pytest.mark.parametrize("grade", ["1800f-1.5E", "900f-1.0E"])
def test_a_recalled_grade_keeps_the_verdict_open(run, grade):
    said = f"{grade}: from memory, not read in print: use none before it is read there"
    result = run("check", "--all", EXAMPLES / "passes.toml", "species=SPF", f"grade={grade}")
    assert result.returncode in (1, 3)
    assert said in flat(result.stdout)
    assert "outrigger.grade not given" not in flat(result.stdout)
    listed = flat(run("lumber", "SPF", grade).stdout)
    assert "from memory, not read in print: use none before it is read there" in listed


def test_a_recalled_grade_is_open_where_all_else_passes(run):
    result = run("check", "--all", EXAMPLES / "passes.toml", "species=SPF", "grade=1800f-1.5E")
    assert result.returncode == 3
    assert "open: cannot say yet, the grade not read in print." in flat(result.stdout)
    read = run("check", "--all", EXAMPLES / "passes.toml", "species=SPF", "grade=2100f-1.8E")
    assert read.returncode == 0  # second-hand, not recalled


def test_shear_and_crushing_values_count_as_strength():
    """DF-L 2400f-2.0E: Fb by msrlumber.org, Fv and Fc_perp of Table 4C footnote 2 recalled."""
    result = designed(outrigger__grade="2400f-2.0E", outrigger__species="Douglas Fir-Larch")
    (one,) = (n for n in result.not_given if n.key == "outrigger.grade")
    assert one.question.startswith("Fv, Fc_perp of Douglas Fir-Larch 2400f-2.0E: from memory")
    pine = designed(outrigger__grade="No. 2", outrigger__species="Southern Pine")
    assert not [n for n in pine.not_given if n.key == "outrigger.grade"]


# ---- the first interior outrigger


def three_moments(bays):
    """Reaction at the first support inside, in w L: equal bays under an even load.

    M(i-1) + 4 M(i) + M(i+1) = -1/2 (w L2), no moment at the ends; solved in exact fractions.
    """
    n = bays - 1
    rows = [[Fraction(0)] * n + [Fraction(-1, 2)] for _ in range(n)]
    for i in range(n):
        rows[i][i] = Fraction(4)
        for j in (i - 1, i + 1):
            if 0 <= j < n:
                rows[i][j] = Fraction(1)
    for i, j in pairwise(range(n)):
        factor = rows[j][i] / rows[i][i]
        rows[j] = [b - factor * a for a, b in zip(rows[i], rows[j], strict=True)]
    M = [Fraction(0)] * (bays + 1)
    for i in reversed(range(n)):
        known = sum(rows[i][k] * M[k + 1] for k in range(i + 1, n))
        M[i + 1] = (rows[i][n] - known) / rows[i][i]
    left = Fraction(1, 2) - M[1] + M[0]  # shears at the support, of the bays to both sides
    right = Fraction(1, 2) + M[2] - M[1]
    return left + right


@pytest.mark.parametrize(
    ("bays", "exact"),
    [(2, "5/4"), (3, "11/10"), (4, "8/7"), (5, "43/38"), (6, "59/52"), (7, None), (8, None)],
)
def test_first_interior_by_the_three_moment_equation(bays, exact):
    """Handbook coefficients of equal continuous spans: 1.25, 1.10, 1.143, 1.132, 1.135 w L."""
    found = three_moments(bays)
    if exact is not None:
        assert found == Fraction(exact)
    assert found <= Fraction(str(first_interior(bays)))
    assert Fraction(str(first_interior(bays))) - found < Fraction(2, 100)  # not much over
    assert first_interior(bays) <= MOST_OF_FIRST_INTERIOR


def test_one_bay_has_no_outrigger_inside():
    assert first_interior(1) == 1.0


def test_the_note_on_the_first_interior_outrigger_begins_at_0_80():
    """1 / 1.25: what a plate over two bays adds."""
    result = designed(garage_roof__member_spacing="uniform")
    (note,) = (n for n in notes.assumed(result) if "first interior outrigger" in n)
    assert "x 1.25 over two bays, 1.10 over three, up to 1.15 over more" in note
    near = {r.check.id for r in result.rows if r.ratio is not None and r.ratio > 0.8}
    listed = note.partition("; over 0.80 here: ")[2]
    assert {part.rpartition(" ")[0] for part in listed.split(", ") if part} == near


# ---- droop under wind


BARE = "wind up none on the back span"


def test_main_system_wind_droops_with_0_6_of_it():
    """0.42 = 0.7 x 0.6 is of component-and-cladding loads: UFC 3-301-01 (change 4) Table 2-1 note
    a; USGNN trade news, 4 May 2012, IBC change S78. Main-system wind: 0.6, as ASD has it."""
    main = on_codes(wind__method="main")
    names = [c.text for c in check(main, "live_deflection").combinations]
    assert any(n.startswith("0.6W up") for n in names)
    assert not any(n.startswith("0.42W") for n in names)
    (note,) = (n for n in notes.assumed(main) if "droop takes 0.6 of main-system wind" in n)
    assert "0.42 is that of component-and-cladding pressures alone (IBC Table 1604.3" in note
    # the same beam: droop goes with the factor and with the uplift
    other = on_codes()
    rise = demand_in(check(main, "live_deflection"), f"0.6W up, {BARE}")
    usual = demand_in(check(other, "live_deflection"), f"0.42W up, {BARE}")
    uplift = (float(one.loads.wall_line["W_up"][0, 0]) for one in (main, other))
    assert rise / usual == pytest.approx(0.6 / 0.42 * next(uplift) / next(uplift), rel=1e-9)


def test_the_force_along_the_wall_droops_with_0_6_of_it():
    result = on_codes(garage_wall__along="20 plf", house_roof__pitch="4:12",
                      house_roof__direction="across the slope")  # fmt: skip
    names = [c.text for c in check(result, "live_deflection").combinations]
    assert any("0.6A" in n for n in names)
    assert not any("0.42A" in n for n in names)


def test_stated_wind_is_said_to_be_of_components():
    (note,) = (n for n in notes.assumed(designed()) if n.startswith("droop takes 0.42 of stated"))
    assert "as that of component-and-cladding pressures alone" in note
