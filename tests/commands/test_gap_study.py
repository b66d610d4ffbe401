"""A case over a range of gaps: rows are single checks, turns are exact, needs are least."""

import gc
import weakref
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
from draws import few_draws, fewest_draws
from hypothesis import given
from hypothesis import strategies as st
from level_case import case, clip
from thorough import THOROUGH

from outrigger.base.errors import InputError
from outrigger.cases.batch import batch_of
from outrigger.cases.paths import with_numbers
from outrigger.cases.read import parse, read_case
from outrigger.cases.validate import validate
from outrigger.layout.layout import layout
from outrigger.marks.of_case import at_marks
from outrigger.report.data.gap import as_rows
from outrigger.report.screen.gap import page
from outrigger.studies import consequences, gap_back_spans, gap_turns, search
from outrigger.studies import gaps as study
from outrigger.studies import heat as band
from outrigger.studies.gap_clips import pulls_of
from outrigger.studies.kept import key_of, slim
from outrigger.verdict.design import design, designs_of

ROOT = Path(__file__).parents[2]
SAMPLE = ROOT / "outrigger" / "sample.toml"
EXAMPLES = ["clip_listed_for_wind", "droop_of_a_shallow_piece", "passes", "row_of_clips"]
SLOPED = ["slope_across_the_rake", "slope_down_the_eave"]


def example(name, *changes):
    return read_case(ROOT / "examples" / f"{name}.toml", changes)[0]


def ratios_of(result):
    """The largest ratio of each group of checks, from the rows of a single design."""
    found = {}
    for row in result.rows:
        ratio = -1.0 if row.ratio is None else row.ratio
        found[row.check.group] = max(found.get(row.check.group, -1.0), ratio)
    return {group: None if ratio < 0 else ratio for group, ratio in found.items()}


@pytest.mark.parametrize(("start", "stop", "step", "typed"), [
    (2.0, 12.0, 0.5, ["2", "2.5", "11.5", "12"]), (2.0, 2.4, 0.1, ["2", "2.1", "2.3", "2.4"]),
    (7.0, 7.0, 0.5, ["7"]),
])  # fmt: skip
def test_gaps_are_those_that_would_be_typed(start, stop, step, typed):
    """2 + 3 x 0.1 is 2.3000000000000003 in floats; 2.3 is meant."""
    found = list(study.gaps(start, stop, step))
    assert [v for v in map(float, typed) if v not in found] == []
    assert found[-1] == float(typed[-1])


@pytest.mark.parametrize(
    ("start", "stop", "step", "said"),
    [(0.0, 5.0, 0.5, "0 < from"), (5.0, 4.0, 0.5, "from <= to"), (1.0, 60.0, 1.0, "<= 48 in"),
     (1.0, 2.0, 0.0, "step > 0"), (1.0, 40.0, 0.001, "39,001 gaps; at most 10,000")],
)  # fmt: skip
def test_a_range_that_is_none_is_refused(start, stop, step, said):
    with pytest.raises(InputError, match=said):
        study.gaps(start, stop, step)


@fewest_draws
@given(
    st.sampled_from([*EXAMPLES, *SLOPED]),
    st.lists(st.integers(8, 22 * 16), min_size=1, max_size=4, unique=True),
    st.booleans(),
)
def test_each_row_is_the_single_check_to_the_last_bit(name, sixteenths, lrfd):
    """The gap typed into the file, read, designed alone."""
    method = ["basis.method=LRFD"] if lrfd else []
    values = np.array(sorted(sixteenths)) / 16
    found = study.study(example(name, *method), values)
    for row, gap in zip(found.rows, values, strict=True):
        alone = design(example(name, *method, f"gap={float(gap)}in"))
        # a batch has bearing at the back where any of its cases is pressed there
        single = ratios_of(alone)
        assert {group: row.ratios[group] for group in single} == single
        assert all(row.ratios[group] == 0 for group in row.ratios.keys() - single.keys())
        governing = alone.closest
        assert key_of(governing) == key_of(row.governing)
        assert (governing.ratio, governing.combination) == (
            row.governing.ratio, row.governing.combination,
        )  # fmt: skip
        assert row.works == alone.works
        assert row.length == float(alone.shape.length.ravel()[0])


@pytest.mark.parametrize("name", [*EXAMPLES, *SLOPED, "timber", "wet_and_incised"])
def test_the_largest_gap_turns_the_answer_between_two_floats(name):
    one = example(name)
    largest = study.study(one, np.array([2.0, 5.0])).largest
    assert largest.first == np.nextafter(largest.last, np.inf)
    for gap, works in ((largest.last, True), (largest.first, False)):
        width = one.gap.model_copy(update={"width": gap})
        assert design(one.model_copy(update={"gap": width})).works is works


def test_no_wider_gap_works():
    """A look with another grid, 1/100 in from the largest to 48 in; of the sample, which has ten
    times the combinations, when thorough."""
    one = read_case(SAMPLE)[0] if THOROUGH else example("passes")
    largest = study.study(one, np.array([6.0])).largest
    wider = np.arange(largest.first, 48.0, 0.01)
    assert not designs_of(batch_of(one, {"gap.width": wider})).works.any()


def test_the_largest_gap_of_a_clip_by_the_closed_form():
    """Back clip pull-out governs, under D + S without snow on the back span. The closed form of
    the pull, T Lb = P a + w (a + t)^2 / 2 - w_back Lb^2 / 2 - w_self b (Lb + b / 2), is a
    quadratic in the arm a; solved for the T that both clips may hold, 1.15 / 1.6 of what is
    listed for wind."""
    one = example("clip_listed_for_wind")
    found = study.study(one, np.array([5.0]))
    result = design(one)
    row = next(r for r in result.rows if r.check.id == "hold_down:back")
    hand, at = result.member.clip_hand, row.column
    back = next(h for h in one.hold_down if h.at == "back")
    T = back.count * back.rated_uplift * 1.15 / 1.6
    P, w, w_back, w_self = (float(v[0, at]) for v in (hand.P, hand.w_arm, hand.w_back, hand.w_self))
    t, Lb, bb = one.gap.garage_plate / 2, one.outrigger.back_span, one.outrigger.behind_back
    assert row.combination_words == "dead + snow"
    moment = T * Lb + w_back * Lb**2 / 2 + w_self * bb * (Lb + bb / 2)
    arm = max(np.roots([w / 2, P + w * t, w * t**2 / 2 - moment]).real)
    gap = arm - one.gap.house_finish - t - one.gap.edge_bearing / 2
    assert found.largest.last == pytest.approx(gap, abs=1e-9)


@pytest.mark.parametrize("name", EXAMPLES)
def test_what_governs_changes_where_it_is_said_to(name):
    one = example(name)
    found = study.study(one, study.gaps(2.0, 12.0, 0.5))
    assert (found.stretches[0].start, found.stretches[-1].end) == (2.0, 12.0)
    assert len(found.stretches) > 1
    for before, after in zip(found.stretches, found.stretches[1:], strict=False):
        assert after.start == np.nextafter(before.end, np.inf)
        for stretch, gap in ((before, before.end), (after, after.start)):
            row = design(with_numbers(one, {"gap.width": gap})).closest
            assert key_of(row) == key_of(stretch.governing)


@pytest.mark.parametrize("name", ["clip_listed_for_wind", "row_of_clips", "slope_down_the_eave"])
def test_the_least_back_span_works_and_a_sixteenth_less_does_not(name):
    one = example(name)
    for row in study.study(one, np.array([3.0, 4.0, 5.0])).rows:
        need = row.least_back_span
        for back, works in ((need, True), (need - 1 / 16, False)):
            if back < study.least_back_span(one):
                continue
            fields = {"gap.width": row.gap, "outrigger.back_span": back}
            assert (design(with_numbers(one, fields)).verdict == "pass") is works


@pytest.mark.parametrize(
    ("name", "setting"),
    [
        ("lag_through_the_outrigger", "gap=6in"),
        ("passes", "gap=6in"),
        ("passes", "house_roof.framing_spacing=48in"),
        ("bent_clips_into_rafters", "gap=6in"),
        ("row_of_clips", "gap=6in"),
    ],
)
def test_check_passes_with_the_least_back_span(name, setting):
    """Rafters across every 16 in: at 16 3/4 in of back span a lag misses them, which `check` leaves
    open, and at 32 in, or a hair less, it finds one; so every 4 ft."""
    one = example(name, setting)
    assert design(one).verdict == "pass"
    for row in study.study(one, np.array([3.0, 5.5, 6.0])).rows:
        fields = {"gap.width": row.gap, "outrigger.back_span": row.least_back_span}
        assert design(with_numbers(one, fields)).verdict == "pass"
        assert row.least_more == ()


@pytest.mark.parametrize("name", ["two_plies", "rake_with_blocks_on_the_deck"])
def test_the_least_back_span_keeps_every_block_on_the_piece(name):
    """A block 24 in from the house wall, 3 in of wood behind the back clip: at 21 in it is on the
    piece, at less `check` refuses the file. With rafters every 16 in, 31 5/16 in: a clip there is
    less than 3/4 in from the one at 32."""
    for row in study.study(example(name), np.array([2.0, 6.0])).rows:
        assert row.least_back_span == 31.3125
        setting = f"back_span={row.least_back_span}in"
        assert design(example(name, f"gap={row.gap}in", setting)).verdict == "pass"


@pytest.mark.parametrize("cut", [False, True])
def test_a_back_clip_by_its_distance_is_that_of_the_back(cut):
    """48 in from the edge in a file that says 4 ft of back span: the same case, the same pulls."""
    text = (ROOT / "examples" / "passes.toml").read_text(encoding="utf-8")
    raw = parse(text.replace('at = "back"', 'at = "48 in"'), "passes.toml")
    inches = validate(raw, "passes.toml")
    one, other = (
        study.study(each, np.array([5.5, 6.0]), cut=cut) for each in (example("passes"), inches)
    )
    assert as_rows(one) == as_rows(other)
    assert all(row.pulls["back"] > 0 for row in other.rows)


def test_a_back_span_that_leaves_more_open_says_so(monkeypatch):
    """Where none is found with nothing more open, the least that works stands with what is open:
    a clip at 7 1/4 in, rafters 48 in apart."""
    monkeypatch.setattr(gap_back_spans, "_longer", lambda *asked: None)
    found = study.study(example("passes", "house_roof.framing_spacing=48in"), np.array([2.0]))
    assert found.rows[0].least_back_span < 47
    assert found.rows[0].least_more == ("clips off the framing",)
    assert "in!?" in page(found, None, 80)
    assert "? not known to work, open there: clips off" in " ".join(page(found, None, 80).split())
    assert as_rows(found)[0]["least_back_span_open"] == ["clips off the framing"]


@pytest.mark.parametrize("name", ["clip_listed_for_wind", "row_of_clips", "slope_down_the_eave"])
def test_the_listed_value_is_enough_and_a_pound_less_is_not(name):
    """On the slope the clips carry a side force too: the interaction, not a mere product."""
    one = example(name)
    for row in study.study(one, np.array([3.0, 9.0])).rows:
        for place, pounds in row.listed.items():
            for listed, holds in ((pounds, True), (pounds - 1, False)):
                if listed < 1:
                    continue
                path = f"hold_down[{place}].rated_uplift"
                result = design(with_numbers(one, {"gap.width": row.gap, path: listed}))
                name = (f"hold_down:{place}", "rated clip")
                status = [r.status for r in result.rows if (r.check.id, r.check.link.id) == name]
                assert (status == ["pass"]) is holds


def test_a_cut_piece_keeps_its_length():
    """Cut for 6 in, 48 in of back span: over 8 in it has 46 in left. By hand."""
    one = example("passes", "gap=8in")
    found = study.study(one, np.array([4.0, 6.0, 8.0]), before=6.0, cut=True)
    assert [row.back_span for row in found.rows] == [50.0, 48.0, 46.0]
    assert {row.length for row in found.rows} == {62.5}
    assert found.asked.case.outrigger.back_span == 46.0
    alone = design(example("passes", "gap=8in", "back_span=46in"))
    assert found.rows[2].ratios == ratios_of(alone)


def test_a_cut_piece_down_a_slope():
    """Along the member a gap of 1 in more takes 1 / cos of back span. 3:12: 13 / 12.37 or
    sqrt(153) / 12."""
    one = example("slope_down_the_eave")
    rise = one.house_roof.pitch
    per_inch = np.hypot(12.0, rise) / 12.0
    found = study.study(one, np.array([one.gap.width, one.gap.width + 1]), cut=True)
    lost = found.rows[0].back_span - found.rows[1].back_span
    assert lost == pytest.approx(per_inch, rel=1e-12)
    assert found.rows[0].length == pytest.approx(found.rows[1].length, rel=1e-12)


def test_a_cut_piece_too_short_for_any_gap():
    with pytest.raises(InputError, match="back span under 17 in"):
        study.study(example("row_of_clips"), np.array([46.0]), cut=True)


def test_no_gap_works():
    found = study.study(example("laid_flat"), np.array([2.0, 3.0]))
    assert found.largest is None
    assert not found.works
    assert found.beyond.ratio > 1


def test_a_stretch_that_begins_above_the_smallest_gap():
    """No case here has one, so the search is asked with an answer made up."""
    every = np.arange(1.0, 10.0)

    def asked(answer):
        judge = lambda _, v: (answer(v), np.full(len(v), np.nan))  # noqa: E731
        turns = lambda holds, fails: search.turns(judge, holds, fails)  # noqa: E731
        return gap_turns.ends(SimpleNamespace(judged=judge, turns=turns), every)

    largest, least = asked(lambda v: (v > 2.25) & (v <= 6.5))
    assert (largest.last, largest.first) == (6.5, np.nextafter(6.5, 7.0))
    assert least == np.nextafter(2.25, 3.0)
    assert asked(lambda v: v < 5)[1] is None
    assert asked(lambda v: v > 5)[0].first == np.inf
    assert asked(lambda v: v > 5)[1] == np.nextafter(5.0, 6.0)
    assert asked(lambda v: v > 50) == (None, None)


def test_pieces_from_a_board_by_hand():
    """A 12 ft board, 1/2 in to square it, 1/8 in a cut. Two pieces of 62 1/2: 125 1/8 of 143 1/2;
    three: 187 3/4, no. Three pieces of 63 3/4 fill 191 1/2 of a 16 ft board."""
    assert consequences.pieces_per_board(62.5, 144.0, 0.125, 0.5) == 2
    assert consequences.longest_piece(3, 192.0, 0.125, 0.5) == 63.75
    assert consequences.pieces_per_board(63.75, 192.0, 0.125, 0.5) == 3
    assert consequences.pieces_per_board(63.8125, 192.0, 0.125, 0.5) == 2
    assert consequences.pieces_per_board(200.0, 192.0, 0.125, 0.5) == 0


def test_what_a_wider_gap_costs_by_hand():
    """Pieces of 62 1/2 in over 6 in: over 8 in they are 64 1/2 in. A 16 ft board then gives 2
    (3 x 64.5 + 2/8 = 193.75 > 191.5), two 8 ft longs less than before. Roof insulation 8 in over
    5 1/2 in of member: 2 1/2 in of cover."""
    one = example("passes", "gap=8in", "gap.roof_insulation=8 in")
    found = consequences.of(study.study(one, np.array([6.0, 8.0]), before=6.0))
    assert found.lengths == (62.5, 64.5)
    boards = {y.board: (y.before, y.after) for y in found.yields}
    assert boards[192.0] == (3, 2)
    assert boards[144.0] == (2, 2)
    assert found.cover == 2.5
    assert found.girth == 2.0
    two_from_12_ft = next(y for y in found.yields if y.board == 144.0)
    # (144 - 1/2 + 1/8) / 2 - 1/8 = 71.6875 in, 7 3/16 in more than 64 1/2
    assert two_from_12_ft.until == 8 + 7.1875


def test_heat_through_the_band_by_hand():
    """Douglas Fir-Larch, G 0.50: k = 0.50 (1.34 + 0.028 x 12) + 0.129 = 0.967; along the grain
    x 1.8 = 1.7406; 6 in of it R 3.447. Insulation 6 x 4 = R 24. Wood 1.5 / 16 = 0.09375 of the
    band: 1 / (0.09375 / 3.447 + 0.90625 / 24) = 15.39."""
    R = band.resistance(6.0, 1.5, 16.0, 0.50)
    assert float(R.value) == pytest.approx(15.39, abs=0.005)


@few_draws
@given(st.floats(1.0, 24.0), st.sampled_from([1.5, 3.0, 4.5]), st.floats(8.0, 48.0))
def test_heat_lies_between_wood_and_insulation(width, breadth, spacing):
    """Parallel paths: less than the insulation, more than the wood, and linear in the width."""
    R = float(band.resistance(width, breadth, spacing, 0.43).value)
    wood = width / (1.8 * (0.43 * (1.34 + 0.028 * 12) + 0.129))
    assert wood < R < 4 * width
    assert float(band.resistance(2 * width, breadth, spacing, 0.43).value) == pytest.approx(2 * R)


def test_a_hold_down_is_swept_by_its_place():
    one = case(hold_down=[clip("back"), clip("16 in"), clip("edge")])
    swept = batch_of(one, {"hold_down[16 in].rated_uplift": np.array([100.0, 900.0])})
    sizes = [swept.column(f"hold_down[{at}].rated_uplift").size for at in ("back", "16 in", "edge")]
    assert sizes == [1, 2, 1]
    with pytest.raises(InputError, match=r"hold_down\[17 in\].rated_uplift: no such clip"):
        batch_of(one, {"hold_down[17 in].rated_uplift": 1.0})
    with pytest.raises(InputError, match=r"hold_down\[back\].rated: no such field"):
        batch_of(one, {"hold_down[back].rated": 1.0})


def test_with_a_layout_every_mark_counts():
    """A row works where every mark of it does; clips are held to the mark that pulls most, which
    need not be the mark that decides. Each mark designed alone here."""
    one = example("marks_on_the_plate")
    found = study.study(one, np.array([6.0, 14.0]))
    for row in found.rows:
        every, _ = at_marks(batch_of(one, {"gap.width": row.gap}))
        alone = [designs_of(every.taken(np.array([i]))) for i in range(every.count)]
        assert len(alone) > 1
        assert row.works is all(result.works[0] for result in alone)
        pulls = [pulls_of(result.worked.member)["back"].item() for result in alone]
        assert row.pulls["back"] == max(pulls)
        back = next(h for h in one.hold_down if h.at == "back")
        needed = [  # the ratio of a listed clip without side force goes with 1 / listed
            back.rated_uplift * r.ratio for result in alone for r in result.rows(0)
            if (r.check.id, r.check.link.id) == ("hold_down:back", "rated clip")
        ]  # fmt: skip
        assert row.listed["back"] == np.ceil(max(needed))
    largest = found.largest
    for gap, works in ((largest.last, True), (largest.first, False)):
        assert design(with_numbers(one, {"gap.width": gap})).works is works


def test_what_a_layout_buys_is_what_its_cut_list_has():
    one = example("marks_on_the_plate", "gap=8in")
    found = consequences.of(study.study(one, np.array([6.0, 8.0]), before=6.0))
    for gap, count, packing in zip(("6in", "8in"), found.pieces, found.bought, strict=True):
        laid = layout(example("marks_on_the_plate", f"gap={gap}"))
        assert count == len(laid.lines)
        assert packing == laid.packing


def test_a_row_of_the_study_does_not_keep_its_design_alive():
    """10,000 gaps would else hold the tables of every chunk in memory."""
    result = design(case())
    kept = [slim(row) for row in result.rows]
    tables = [weakref.ref(table) for table in (result.model.whole.M[-1], result.main.R[0])]
    del result
    gc.collect()
    assert [table() for table in tables] == [None, None]
    assert len(kept) > 20
