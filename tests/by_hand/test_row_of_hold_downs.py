"""Three and four supports: what each hold-down is asked for, with and without a tie at the edge.

A row of clips does not share evenly, and how it shares is not known: each is asked for the larger
of the rigid row and what it would carry alone. By hand from statics, and cell by cell against
the beam solved once for each whole combination with the edge able only to push.
"""

import numpy as np
import pytest
from in_combination import demand_in
from level_case import case, check, clip, designed, row
from one_way import solve_one_way
from published import printed

from outrigger.cases.batch import batch_of
from outrigger.cases.paths import with_numbers
from outrigger.cases.validate import CaseFaultsError
from outrigger.loads.parts import PARTS
from outrigger.statics import beam as statics
from outrigger.verdict import notes
from outrigger.verdict.clip_forces import most_pulls
from outrigger.verdict.design import design, designs_of

ARM, END, BACK, BEHIND = 12.375, 18.375, 44.0, 4.0
TIE = clip("edge", "450 lb")
ROWS = {
    "back and 16 in": [16.0],
    "back and 30 in": [30.0],
    "back, 28 in and 12 in": [28.0, 12.0],
}
UPLIFT = "0.6D + 0.6W up"
GRAVITY = "D + S, dead on the back span x 0.6, snow none on the back span"


def row_of(inner, tied, **changes):
    """The level case with clips at the back and at these distances, with or without a tie."""
    clips = [clip("back"), *(clip(f"{x:g} in") for x in inner), *([TIE] if tied else [])]
    return designed(hold_down=clips, **changes)


def whole_combinations(result, over, inner):
    """Reactions (combinations, supports) of the beam under each combination at once, the edge able
    only to push unless tied; inner support first."""
    on = result.loads
    factors = {p: np.array([c.factors[PARTS.index(p)] for c in over.all]) for p in PARTS}

    def total(by_part):
        return sum(
            factors[p] * float(by_part[p][0, 0]) for p in by_part if p in factors
        ) + np.zeros(len(over.all))

    weight = float(on.self_weight[0, 0])
    moving = {p: q for p, q in on.strip.items() if p != "D"}
    covered = float(on.covered[0, 0])
    loads = [
        statics.Point(ARM, total(on.wall_line)[None]),
        statics.Point(END, 300 * factors["worker"][None]),
        statics.Uniform(0, END, factors["D"][None] * (float(on.strip["D"][0, 0]) + weight)),
        statics.Uniform(0, ARM - covered, total(moving)[None]),
        statics.Uniform(ARM, END, total(moving)[None]),
        statics.Uniform(-BACK - BEHIND, 0, (factors["D_back"] + factors["D_own"])[None] * weight),
        statics.Uniform(-BACK, 0, total(on.back)[None]),
    ]
    EI, GA = result.model.stiff.EI_number, result.model.stiff.GA_number
    beam = statics.Beam([-BACK, *(-x for x in inner), 0.0], EI, -BACK - BEHIND, END, GA)
    solved = solve_one_way(beam, loads, [True] * (1 + len(inner)) + [result.model.tied])
    return solved


@pytest.mark.parametrize("tied", [True, False])
@pytest.mark.parametrize("inner", ROWS.values(), ids=ROWS)
@pytest.mark.parametrize("method", ["ASD", "LRFD"])
@pytest.mark.parametrize("edition", ["ASCE 7-16", "ASCE 7-22"])
def test_actions_against_the_beam_solved_one_way(edition, method, inner, tied):
    """Superposed parts, and the row without the edge where it lifts: the same reactions."""
    result = row_of(inner, tied, basis__method=method, basis__loads=edition)
    solved = whole_combinations(result, result.main.combinations, inner)
    assert solved.stands.all()
    found = np.stack([r[0] for r in result.main.R], axis=-1)
    assert found == pytest.approx(solved.reactions[0], abs=1e-6, rel=1e-9)
    M = np.stack([m[0] for m in result.main.M], axis=-1)
    places = [-BACK, *(-x for x in inner), 0.0]
    by_place = [solved.moment(x, "left")[0] for x in places]
    assert pytest.approx(np.stack(by_place, axis=-1), abs=1e-5, rel=1e-9) == M
    if not tied:
        assert (found[:, -1] >= 0).all()


def test_alone_under_gravity():
    """Clip at 16 in as the only one, D + S with no snow and 0.6 dead on the back span.

    Moment about the edge 14,849.1 - 0.6 x 1183.64 = 14,138.9 lb-in; / 16 in = 883.7 lb, 441.8 a
    clip. The back as the only one: 14,138.9/44 = 321.34 lb, 160.67 a clip.
    """
    result = row_of([16.0], tied=True)
    near, back = check(result, "hold_down:16 in"), check(result, "hold_down:back")
    assert 2 * demand_in(near, GRAVITY) >= 883.6
    assert demand_in(back, GRAVITY) == pytest.approx(160.67, abs=0.005)
    rigid = -result.clips.R[1][0]
    names = [c.text for c in near.combinations]
    alone = 14_138.9 / 16
    assert 2 * demand_in(near, GRAVITY) == pytest.approx(
        max(alone, rigid[names.index(GRAVITY)]), rel=1e-4
    )


@pytest.mark.parametrize("inner", ROWS.values(), ids=ROWS)
def test_each_is_asked_for_the_larger_of_the_row_and_alone(inner):
    """Every combination: rigid row from the beam solved whole; alone, moment about the edge over
    the distance, where the edge is pressed."""
    result = row_of(inner, tied=True)
    solved = whole_combinations(result, result.clips.combinations, inner).reactions[0]
    on, parts = result.loads, result.clips.combinations.all
    weight = float(on.self_weight[0, 0])

    def about_edge(one):
        f = dict(zip(PARTS, one.factors, strict=True))
        M = f["D"] * 5299.507 + f["L"] * 1515.9375 + f["Lr"] * 6366.406 + f["S"] * 9549.609
        M += f["W_up"] * -7639.688 + f["W_down"] * 3183.203 + f["worker"] * 300 * END
        back = f["D_back"] * 1.0 + f["S_back"] * 2.33333 + f["W_back"] * -2.0
        M -= back * BACK**2 / 2 + (f["D_back"] + f["D_own"]) * weight * (BACK + BEHIND) ** 2 / 2
        V = f["D"] * 435.4395 + f["L"] * 122.5 + f["Lr"] * 524.1667 + f["S"] * 786.25
        V += f["W_up"] * -629 + f["W_down"] * 262.0833 + f["worker"] * 300
        V += back * BACK + (f["D_back"] + f["D_own"]) * weight * (BACK + BEHIND)
        return M, V

    for i, x in enumerate([BACK, *inner]):
        name = "back" if x == BACK else f"{x:g} in"
        found = result.clips.uplift[name][0]
        for j, one in enumerate(parts):
            M, V = about_edge(one)
            alone = M / x if V + M / x > 0 else 0.0
            expected = max(0.0, -solved[j, i], alone)
            assert found[j] == pytest.approx(expected, abs=0.01), (name, one.text)


@pytest.mark.parametrize(("at", "x"), [("16 in", 16.0), ("30 in", 30.0)])
def test_the_edge_lifts_and_the_nearest_holds_with_the_next(at, x):
    """No tie at the edge, net uplift P alone (nothing else weighs): the clip at x carries
    P (1 + (a + x)/(44 - x)) and the back bears P (a + x)/(44 - x).

    0.6D + 0.6W up without suction on the back span. By moments about the back and about x:
        net of the arm V = 0.6 x (435.440 - 629) = -116.136 lb, M about the edge -1404.11 lb-in;
        back span 0.6 x 1.18719 x 44 = 31.342 lb at 22 in, 0.6 x 0.18719 x 4 = 0.449 lb at 46 in
        about the back:  T (44 - x) = 116.136 x 44 + 1404.11 - 31.342 x 22 + 0.449 x 2
        x = 16: T = (5110.00 + 1404.11 - 689.52 + 0.90)/28 = 208.05 lb; 104.03 a clip
        x = 30: T = 5825.49/14 = 416.11 lb
    """
    result = row_of([x], tied=False)
    text = f"{UPLIFT}, wind up none on the back span"
    T = {16.0: 208.05, 30.0: 416.11}[x]
    found = check(result, f"hold_down:{at}")
    assert 2 * demand_in(found, text) == pytest.approx(T, abs=0.01)
    down = check(result, "back_bearing", "sheathing", "back")
    # V + M balance: R_back = T - 116.136 + 31.342 + 0.449
    assert demand_in(down, text) * 2.25 == pytest.approx(T - 116.136 + 31.342 + 0.449, abs=0.01)
    assert any("the edge lifts off" in note for note in notes.of(result))
    assert not [c for c in result.checks if c.id == "hold_down:edge"]


def test_the_spring_at_the_edge_is_of_the_panel_stated():
    """0.04 in at the design value (NDS 4.2.6), outrigger and panel in series, on 1.5 x 3.5 in: 1 /
    (0.04/(5.25 x 405) + 0.04/(5.25 x 180)) = 1 / (1.88125e-5 + 4.23280e-5) = 16,356 lb/in."""
    result = designed(house_roof__sheathing_bearing="180 psi")
    assert float(result.main.edge_stiffness[0, 0]) == printed("16,356")


def test_the_rule_of_the_lifted_edge_alone():
    """Only P lifts: weightless, no strip, no suction: P_up (1 + (a + x)/(x2 - x)), three clips.

    The middle clip alone with the next inward: 12 in and 28 in: 1 + (12.375 + 12)/16 = 2.5234.
    """
    line = dict.fromkeys(("D", "L", "Lr", "S", "W_down"), "0 plf") | {"W_up": "600 plf"}
    result = row_of(
        [28.0, 12.0],
        tied=False,
        garage_roof__line=line,
        garage_roof__strip_dead="none",
        garage_wall__dead="none",
        wind={"uplift": "none", "down": "none"},
        house_roof__dead="none",
        house_roof__wind_uplift="none",
    )
    text = "0.6D + 0.6W up"
    P = 0.6 * 600 / 12 * 24  # 720 lb
    found = 2 * demand_in(check(result, "hold_down:12 in"), text)
    weight = 0.6 * 0.18719 * 66.375  # 7.5 lb of self weight, little against 720
    assert found >= P * (1 + (ARM + 12) / 16) - 3 * weight
    rigid = -result.model.lifted.R[1][0, result.model.parts.index("W_up")] * 0.6
    assert found >= rigid - 3 * weight


def test_no_tie_fails_with_what_the_tie_would_carry():
    """Only the back is held: 0.6D + 0.6W up lifts the edge by 158.80 lb (0.6 x (581.97 - 846.63)).

    By rule, not by a ratio; the words say what to add; the back is pushed down as with a tie.
    """
    result = designed(hold_down=[clip("back")])
    found = row(result, "hold_down:edge", "no tie")
    assert (found.status, found.ratio, found.capacity) == ("fail", None, 0.0)
    assert found.demand == pytest.approx(158.80, abs=0.005)
    assert found.combination == UPLIFT
    assert "edge" in found.check.why
    assert "[[hold_down]]" in found.check.why
    assert result.verdict == "fail"
    assert result.closest.check is found.check


def test_no_hold_down_given_is_open_not_fail():
    result = designed(hold_down=[])
    assert result.verdict == "open"
    assert {row(result, f"hold_down:{p}").status for p in ("back", "edge")} == {"open"}


def test_a_tie_pushes_the_back_down():
    """The mechanism turns over: the tie carries 132.40 lb, the back bears 48.05 lb (by hand in
    test_level_design_by_hand.py), no suction on the back span."""
    result = designed()
    text = f"{UPLIFT}, wind up none on the back span"
    assert 2 * demand_in(check(result, "hold_down:edge"), text) == pytest.approx(132.40, abs=0.005)
    assert demand_in(check(result, "hold_down:back"), text) == 0
    assert demand_in(check(result, "back_bearing", "sheathing"), text) * 2.25 == pytest.approx(
        48.05, abs=0.005
    )


def test_springs_replace_the_clip_alone():
    """Stiffness given for every clip: each is asked for the largest of the rigid row and of the
    springs at 1/2, 1 and 2 times, with the edge rigid and with the edge a spring."""
    k = 6000.0
    clips = [clip("back", stiffness=f"{k:g} lb/in"), clip("16 in", stiffness=f"{k:g} lb/in"), TIE]
    result = designed(hold_down=clips)
    model, over = result.model, result.clips.combinations
    area, give = 1.5 * 3.5, 0.04
    edge = 1 / (give / (area * 405) + give / (area * 360))  # outrigger and sheathing in series
    largest = {0: -model.whole.R[0], 1: -model.whole.R[1]}
    largest = {i: np.maximum(over.combine(r), 0)[0] for i, r in largest.items()}
    for times in (0.5, 1, 2):
        for last in (np.inf, edge):
            springs = np.array([2 * k * times, 2 * k * times, last])
            response = model.respond(model.supports, springs)
            for i in largest:
                largest[i] = np.maximum(largest[i], -over.combine(response.R[i])[0])
    assert result.clips.uplift["back"][0] == pytest.approx(largest[0], abs=1e-9)
    assert result.clips.uplift["16 in"][0] == pytest.approx(largest[1], abs=1e-9)
    alone = designed(hold_down=[clip("back"), clip("16 in"), TIE])
    assert result.clips.uplift["16 in"].max() <= alone.clips.uplift["16 in"].max()


def test_springs_at_half_and_twice_are_those_of_such_springs():
    """3000 lb/in at twice, and 12,000 at half, are 6000 as stated."""

    def reactions(k):
        clips = [clip(at, stiffness=f"{k} lb/in") for at in ("back", "16 in")]
        found = designed(hold_down=[*clips, TIE])
        return [np.array(one.R) for one in found.model.sprung(found.main.edge_stiffness)]

    half, stated, twice = (reactions(k) for k in (12000, 6000, 3000))
    for i in (0, 1):  # the edge rigid, and as a spring
        assert half[i] == pytest.approx(stated[2 + i], rel=1e-9, abs=1e-9)
        assert twice[4 + i] == pytest.approx(stated[2 + i], rel=1e-9, abs=1e-9)


def test_stiffness_of_one_clip_only_is_not_enough():
    """Then the clip alone stays the rule."""
    some = designed(hold_down=[clip("back"), clip("16 in", stiffness="6000 lb/in"), TIE])
    none = designed(hold_down=[clip("back"), clip("16 in"), TIE])
    assert some.clips.uplift["16 in"].tobytes() == none.clips.uplift["16 in"].tobytes()


def test_a_distance_equal_to_the_back_span_is_the_back():
    by_word, by_inches = designed(), designed(hold_down__0__at="44 in")
    assert row(by_word, "hold_down:back").demand == row(by_inches, "hold_down:back").demand
    assert most_pulls(by_inches) == most_pulls(by_word)
    assert most_pulls(by_inches)["back"] > 0
    at_edge = designed(hold_down__0__at="44 in", hold_down__1__at="0 in")
    assert [hold.at for hold in at_edge.case.hold_down] == ["back", "edge"]
    assert at_edge.case.digest == by_word.case.digest


@pytest.mark.parametrize(
    ("at", "as_read"),
    [("0.02 in", "0 in"), ("15/16 in", "15/16 in"), ("43 1/16 in", "43 1/16 in"),
     ("43.99 in", "44 in")],
)  # fmt: skip
def test_a_clip_right_beside_another_place_is_a_fault_in_words(at, as_read):
    """The edge at 0 and the back at 44 in: nothing stands nearer than 1 in to either."""
    with pytest.raises(CaseFaultsError) as told:
        case(hold_down=[clip("back"), clip(at), TIE])
    (fault,) = told.value.faults
    assert fault.message == f"hold_down[1].at = {as_read}: nearer than 1 in to another."


@pytest.mark.parametrize(("at", "inches"), [("1 in", 1), ("43 in", 43)])
def test_a_clip_an_inch_from_another_place_is_read(at, inches):
    assert case(hold_down=[clip("back"), clip(at), TIE]).hold_down[1].at == inches


def test_no_tie_in_strength_design():
    """Uplift that 0.6D + 0.6W does not show but 0.9D + 1.0W does is no equilibrium either."""
    result = designed(
        basis__method="LRFD",
        hold_down=[clip("back")],
        wind__uplift="16 psf",
        snow__roof="20 psf",
        garage_roof__storage="none",
    )
    assert (result.main.R[-1] < 0).any()
    assert not (result.clips.R[-1] < 0).any()
    assert result.verdict == "fail"


def test_rise_where_the_edge_lifts():
    """No tie, clips at 16 in and the back, D + 0.42W up with 60 psf: the edge lifts off (-442 lb if
    it could pull), the beam turns about the clips and rises 0.082 in, not 0.042 in."""
    wood = {"wind__uplift": "60 psf", "garage_wall__dead": "none"}
    result = designed(hold_down=[clip("back", "2,000 lb"), clip("16 in", "2,000 lb")], **wood)
    parts = result.model.parts
    factors = {"D": 1, "D_back": 1, "W_up": 0.42, "W_back": 0.42}

    def summed(table):
        return sum(f * float(table[0, parts.index(part)]) for part, f in factors.items())

    assert summed(result.model.whole.R[-1]) < 0
    rise = -summed(result.model.lifted.droop)
    text = "D + 0.42W up"
    assert demand_in(check(result, "total_deflection"), text) >= 0.99 * rise


def test_compression_in_a_row_whose_back_span_is_swept():
    """Wind toward the house presses along: the longest stretch of the row goes into FcE case by
    case. Stretches of which one alone changes stopped it once; each is that of a single run."""
    row_of_three = [clip("back"), clip("16 in"), clip("edge")]
    one = case(hold_down=row_of_three, garage_wall__out_of_plane_wind="20 psf")
    backs = np.array([30.0, 44.0, 60.0])
    together = designs_of(batch_of(one, {"outrigger.back_span": backs}))
    for i, back in enumerate(backs):
        piece = one.outrigger.model_copy(update={"back_span": back})
        alone = design(one.model_copy(update={"outrigger": piece}))
        assert [r.ratio for r in together.rows(i) if r.check.id == "axial_bending"] == [
            r.ratio for r in alone.rows if r.check.id == "axial_bending"
        ]
    assert any(c.link.id.startswith("compression") for c in together.checks)


@pytest.mark.parametrize("tied", [True, False])
@pytest.mark.parametrize("inner", ROWS.values(), ids=ROWS)
def test_moments_at_blocked_places_against_the_beam_solved_one_way(inner, tied):
    """At 20 in and at 5 in, between supports, the edge lifted off too, in every combination."""
    result = row_of(inner, tied)
    solved = whole_combinations(result, result.main.combinations, inner)
    back = result.main.back_span
    for x in (-20.0, -5.0):
        found = back.moment_at(np.array([[x]]))[0]
        assert found == pytest.approx(np.abs(solved.moment(x)[0]), abs=1e-5, rel=1e-9)
    between = np.linspace(-BACK, -20.0, 241)
    sampled = np.max([np.abs(solved.moment(x)[0]) for x in between], axis=0)
    largest = back.largest_between(np.array([[-BACK]]), np.array([[-20.0]]))[0]
    assert (largest >= sampled - 1e-5).all()
    assert largest == pytest.approx(sampled, rel=2e-3, abs=2.0)


def test_springs_of_a_batch_are_each_its_own():
    """The edge's spring follows from its bearing: swept, each case has its own."""
    clips = [clip("back", stiffness="6000 lb/in"), clip("16 in", stiffness="6000 lb/in"), TIE]
    stated = case(hold_down=clips)
    swept = np.array([1.5, 3.5, 5.0])
    together = designs_of(batch_of(stated, {"gap.edge_bearing": swept}))
    for i, length in enumerate(swept):
        alone = design(with_numbers(stated, {"gap.edge_bearing": length}))
        at = alone.main.uplift["16 in"]
        assert np.array_equal(together.worked.main.uplift["16 in"][i], at[0])


def test_a_place_within_a_row_is_pushed_as_the_only_one_beside_the_edge():
    """Back, 16 in and a tied edge under 0.6D + 0.6W up, none on the back span. Arm about the edge:
    D 407.5 x 12.375 + 1.52052 x 18.375^2 / 2 = 5299.50, W up 7639.69: 0.6 x -2340.19 = -1404.11
    lb-in. Back span 1 lb/in on 44 in and 0.18719 on 48: 0.6 x (968 + 215.64) = 710.19. On the place
    at 16 in alone (710.19 + 1404.11) / 16 = 132.14 lb; the rigid row has less there."""
    result = row_of([16.0], True)
    names = [one.text for one in result.main.combinations.all]
    i = names.index("0.6D + 0.6W up, wind up none on the back span")
    assert result.main.push["16 in"][0, i] == pytest.approx(132.14, abs=0.005)
    assert result.main.R[1][0, i] < 100
