"""The layout of a case: loads of each mark by hand, the worst one checked, clips, cut and material
lists by hand, laws. Trade arithmetic is common practice, no source."""

import tomllib
from pathlib import Path

import numpy as np
import pytest

from outrigger.base.errors import InputError
from outrigger.cases.batch import batch_of
from outrigger.cases.faults import CaseFaultsError
from outrigger.cases.paths import with_numbers
from outrigger.cases.read import read_case
from outrigger.cases.validate import validate
from outrigger.layout.layout import layout
from outrigger.marks.of_case import row_of
from outrigger.verdict import notes
from outrigger.verdict.design import design, designs_of

ROOT = Path(__file__).parents[2]
PASSES = ROOT / "examples" / "passes.toml"


def case(*, lagged=False, **changes):
    """examples/passes.toml on 24 ft with trusses from the datum, and changes: section__key.

    `lagged`: held by lags through its middle into parallel rafters.
    """
    raw = tomllib.loads(PASSES.read_text(encoding="utf-8"))
    raw["layout"] = {"run": "24 ft", "member_offset": "none"}
    if lagged:
        lag = {
            "kind": "through",
            "deck_fastener": "lag 3/8 in x 9 in",
            "deck_fasteners": 1,
            "into": "framing",
        }
        raw["hold_down"] = [{"at": "back", **lag}, {"at": "edge", **lag}]
        raw["house_roof"]["framing_parallel"] = True
    for name, value in changes.items():
        section, key = name.split("__")
        if value is None:
            raw[section].pop(key, None)
        else:
            raw.setdefault(section, {})[key] = value
    return validate(raw, "case")


def near(laid):
    return [float(line.piece.near) for line in laid.lines]


def test_loads_of_a_mark_under_a_truss_by_hand():
    """Mark 4 at 47 1/4 in, centre 48 in: the truss at 48 in stands on it and none within a bay, so
    it takes 2 ft of roof: D 15 psf x 10 ft x 2 ft = 300 lb, and 10 psf x 3 ft x 16 in / 12 = 40 lb
    of wall at the least; S 20 x 10 x 2 = 400 lb, W 26 x 10 x 2 = 520 lb up."""
    line = layout(case()).lines[3]
    assert line.share == pytest.approx(24.0, rel=2e-4)  # a hair more under a plate that runs on
    assert line.loads["D"] == pytest.approx(340.0, rel=1e-3)
    assert line.loads["S"] == pytest.approx(400.0, rel=2e-4)
    assert line.loads["W_up"] == pytest.approx(-520.0, rel=2e-4)


def test_uniform_roof_in_the_middle_of_a_long_row_is_the_plain_spacing():
    """By halves an interior mark takes 16 in; a continuous plate on many even spans tends to it."""
    laid = layout(case(garage_roof__member_spacing="uniform", layout__run="60 ft"))
    middle = laid.lines[22]
    assert (middle.tributary, middle.share) == (16.0, pytest.approx(16.0, rel=1e-4))
    assert middle.loads["D"] == pytest.approx(15 * 10 * 16 / 12 + 10 * 3 * 16 / 12, rel=1e-4)


def test_check_verifies_the_worst_mark():
    """No mark has a larger ratio than the one that the design is of; its share is that mark's.
    What is not computed is the header over the opening, marks 7 and 8, from 96 to 160 in."""
    laid = layout(case(layout__openings=[{"from": "9 ft", "to": "12 ft"}]))
    largest = max(line.governing.ratio for line in laid.lines)
    assert laid.design.closest.ratio == largest
    worst = laid.lines[laid.worst - 1]
    assert float(laid.design.loads.share.ravel()[0]) == worst.share
    assert any(f"mark {laid.worst} of {len(laid.lines)}" in note for note in notes.of(laid.design))
    said = "layout.openings: the header over them, from mark 7 to mark 8, 64 in"
    assert laid.design.not_covered == [said]


def test_neighbours_of_an_opening_carry_half_of_it():
    """108 to 144 in out of 16 in centres: left are centres 96 and 160; by halves each carries 8 in
    and 32 in."""
    laid = layout(case(layout__openings=[{"from": "9 ft", "to": "12 ft"}]))
    beside = [line for line in laid.lines if float(line.piece.centre) in (96.0, 160.0)]
    assert [line.tributary for line in beside] == [40.0, 40.0]


def test_doubled_neighbours_share_alike():
    """The pair's middle at 95 1/4 in: half of 14 1/4... by hand (95.25 - 80) / 2 + (160.75 - 95.25)
    / 2 = 7.625 + 32.75 = 40.375 in, 20.1875 in each."""
    opened = {"layout__openings": [{"from": "9 ft", "to": "12 ft"}]}
    laid = layout(case(**opened, layout__double_at_openings=True))
    pairs = [line for line in laid.lines if line.piece.pair]
    assert [line.tributary for line in pairs] == [20.1875] * 4
    assert len({line.loads["D"] for line in pairs[:2]}) == 1
    plain = layout(case(**opened))
    assert laid.design.closest.ratio < plain.design.closest.ratio


def test_a_point_load_falls_on_the_marks_beside_it():
    """900 lb at 56 in, half way between centres 48 and 64 in: by the lever 450 lb each at least;
    none of it whole on one, and the row carries it all by a plate that breaks over each."""
    point = [{"at": "56 in", "from": "girder truss", "D": "900 lb"}]
    bare, laid = layout(case()), layout(case(garage_roof__point=point))
    more = [b.loads["D"] - a.loads["D"] for a, b in zip(bare.lines, laid.lines, strict=True)]
    assert 450.0 <= more[3] < 900.0 and 450.0 <= more[4] < 900.0
    assert sum(more) >= 900.0


def test_a_sweep_equals_its_single_cases_to_the_last_bit():
    """Each gap of a sweep finds its own worst mark, as the case alone does."""
    one = case(layout__openings=[{"from": "9 ft", "to": "12 ft"}])
    gaps = np.array([4.0, 6.0, 11.0])
    batch = designs_of(batch_of(one, {"gap.width": gaps}))
    for i, gap in enumerate(gaps):
        alone = design(with_numbers(one, {"gap.width": gap}))
        assert [row.demand for row in batch.rows(i)] == [row.demand for row in alone.rows]
        assert batch.worked.batch.mark.number[i, 0] == alone.mark


def test_a_sweep_of_spacings_has_rows_of_different_length():
    one = case()
    spacings = np.array([12.0, 16.0, 19.2, 24.0])
    swept = batch_of(one, {"outrigger.spacing": spacings})
    assert [len(row_of(swept.at(i)).pieces) for i in range(4)] == [25, 19, 16, 13]
    batch = designs_of(swept)
    for i, spacing in enumerate(spacings):
        alone = design(with_numbers(one, {"outrigger.spacing": spacing}))
        assert batch.closest(i).ratio == alone.closest.ratio


def test_nineteen_point_two_over_sixteen_lands_every_96_in():
    """Common practice, no source: 19.2 and 16 have 96 in in common; between, 3.2 and 6.4 in off.
    The ends stand 3/4 in from a rafter's centre, on its arris: no wood beside the lag. The house
    wall holds the edge."""
    laid = layout(
        case(
            lagged=True,
            outrigger__spacing="19.2 in",
            house_roof__framing_spacing="16 in",
            garage_roof__span="16 ft",
        )
    )
    landed = [line.number for line in laid.lines if not line.misses]
    assert landed == [6, 11]
    amounts = {round(abs(off), 6) for line in laid.lines for off in line.misses.values()}
    assert amounts == {0.75, 3.2, 6.4}
    assert {at for line in laid.lines for at in line.misses} == {"back"}
    assert laid.design.verdict == "open"
    assert laid.design.not_covered == [
        "clips off the framing: at marks 1, 2, 3, 4, 5, 7, 8, 9, 10, 12, 13, 14, 15, 16"
    ]
    (better,) = [one for one in laid.better if one.key == "outrigger.spacing"]
    assert (better.value, better.misses) == (16.0, 2)  # the ends


def test_a_first_mark_that_lands_them_all():
    """Rafters 5 in past every 16 in: flush start off by 5 - 3/4 = 4 1/4 in, all but the last. Near
    edges at 5 - 3/4 = 4 1/4 in and on by the spacing land, the end piece excepted."""
    laid = layout(
        case(lagged=True, house_roof__framing_spacing="16 in", house_roof__framing_offset="5 in",
             layout__last="on spacing", layout__start="flush")
    )  # fmt: skip
    assert laid.misses == len(laid.lines)
    assert round(laid.lines[1].misses["back"], 6) == -4.25
    (better,) = [one for one in laid.better if one.key == "layout.first_mark"]
    assert (better.value, better.misses, better.shift) == (4.25, 0, 4.25)
    moved = layout(
        case(lagged=True, house_roof__framing_spacing="16 in", house_roof__framing_offset="5 in",
             layout__last="on spacing", layout__first_mark="4 1/4 in")
    )  # fmt: skip
    assert moved.misses == 0


def test_crossing_framing_is_met_by_the_back_span():
    """Rafters every 16 in from the edge: 48 in lands on the fourth, 52 in is 4 in beyond it."""
    house = {"house_roof__framing_spacing": "16 in", "house_roof__framing_parallel": False}
    assert layout(case(**house)).misses == 0
    laid = layout(case(**house, outrigger__back_span="52 in"))
    assert laid.misses == len(laid.lines)
    assert laid.lines[0].misses == {"back": 4.0}
    assert [(one.key, one.value, one.misses) for one in laid.better] == [
        ("outrigger.back_span", 48.0, 0)
    ]


def test_framing_as_measured():
    at = ["3/4 in", "16 in", "32 in", "49 in"]
    laid = layout(case(lagged=True, house_roof__framing_at=at))
    assert [bool(line.misses) for line in laid.lines[:5]] == [False, False, False, True, True]
    assert laid.lines[3].misses["back"] == -1.0


def test_cut_list_by_hand():
    """Piece: 3 + 48 + 9 3/4 + 1 3/4 = 62 1/2 in. Blocks at two places: first bay 15 1/4 - 1 1/2 =
    13 3/4, sixteen of 14 1/2, last bay 286 1/2 - 272 3/4 = 13 3/4 in."""
    laid = layout(case())
    assert [(c.what, c.length, c.count) for c in laid.cuts] == [
        ("outrigger", 62.5, 19),
        ("block", 14.5, 32),
        ("block", 13.75, 4),
    ]
    used = 19 * 62.5 + 32 * 14.5 + 4 * 13.75
    assert laid.packing.used == pytest.approx(used)
    assert laid.packing.bought >= laid.packing.bound >= used


def test_an_odd_run():
    """23'-5 3/8" = 281 3/8 in: end piece at 279 7/8, last block 279 7/8 - 272 3/4 = 7 1/8 in."""
    laid = layout(case(layout__run="23'-5 3/8\""))
    assert near(laid)[-2:] == [271.25, 279.875]
    assert min(c.length for c in laid.cuts) == 7.125
    assert sum(line.tributary for line in laid.lines) == pytest.approx(281.375)


def test_lengths_round_the_safe_way():
    """Gap 6.01 in makes a piece of 62.51 in: cut 62 9/16, never 62 1/2. At 19.2 in the clear is
    17.7 in: blocks of 17 11/16 (17.6875), never 17 3/4."""
    laid = layout(case(gap__width="6.01 in", outrigger__spacing="19.2 in"))
    assert laid.cuts[0].length == 62.5625
    assert max(c.length for c in laid.cuts if c.what == "block") == 17.6875


def test_plies_and_flat_set_the_thickness_and_the_count():
    """Two plies are 3 in thick: centres stay at 16 in, marks at 14 1/2 in; 38 pieces to cut. Laid
    flat a 2x6 is 5 1/2 in wide: 13 1/4 in."""
    two = layout(case(outrigger__plies=2))
    assert (near(two)[1], two.cuts[0].count) == (14.5, 38)
    assert near(layout(case(outrigger__laid="flat")))[1] == 13.25


def test_fasteners_with_a_tenth_more_by_hand():
    """19 outriggers, 2 clips, 4 nails into the outrigger: 152 and a tenth, 168 (up from 167.2);
    2 screws down: 76, 84. 36 blocks, two ends, 3 nails: 216, 238. Common practice, no source."""
    built = {"count": 2, "side_fastener": "nail 0.148 x 1 1/2 in", "side_fasteners": 4,
             "deck_fastener": "wood screw #10 x 2 1/2 in", "deck_fasteners": 2,
             "into": "framing", "side_height": "4 in"}  # fmt: skip
    raw = tomllib.loads(PASSES.read_text(encoding="utf-8"))
    raw["layout"] = {"run": "24 ft"}
    raw["hold_down"][1] = {"at": "edge", **built}
    raw["outrigger"]["blocking_fastening"] = {
        "fastener": "nail 0.148 x 3 in", "count": 3, "spread": "4 in",
    }  # fmt: skip
    items = {item.what: item.count for item in layout(validate(raw, "case")).items}
    assert items["clips, back"] == items["clips, edge"] == items["ties, garage plate"] == 38
    assert items["nail 0.148 x 1 1/2 in, edge"] == 168
    assert items["wood screw #10 x 2 1/2 in, edge"] == 84
    assert items["nail 0.148 x 3 in, blocks"] == 238
    assert items["penetrations to seal"] == 19


def test_what_ties_the_garage_plate_is_bought_too():
    """19 outriggers, one pair among them more: 20 pieces. Listed ties 18 x 2 and one on each of the
    pair, 38; screws down through the plate 20 x 3, 60 and a tenth: 66. None given, none bought."""
    raw = tomllib.loads(PASSES.read_text(encoding="utf-8"))
    raw["layout"] = {"run": "24 ft", "double_at": [6]}

    def ties(**tie):
        given = {key: one for key, one in raw.items() if key != "wall_tie"} | tie
        return [(item.count, item.what) for item in layout(validate(given, "case")).items
                if "garage plate" in item.what]  # fmt: skip

    assert ties(wall_tie=raw["wall_tie"]) == [(38, "ties, garage plate")]
    screws = {"fastener": "wood screw #14 x 4 1/2 in", "count": 3}
    assert ties(wall_tie=screws) == [(66, "wood screw #14 x 4 1/2 in, garage plate")]
    assert ties() == []


def test_screws_into_the_blocks_and_the_blocks_outside_the_row():
    """18 bays at house wall and back, 36 blocks of 14 1/2 in; one outside each end of the row at
    both: 40. At 4 in three in each: 120, 132 with a tenth. A third line of blocks, over the gap,
    takes none."""
    raw = tomllib.loads(PASSES.read_text(encoding="utf-8"))
    raw["layout"] = {"run": "24 ft"}
    raw["outrigger"]["blocking_to_deck"] = {
        "fastener": "wood screw #10 x 2 1/2 in", "spacing": "4 in",
    }  # fmt: skip
    raw["outrigger"]["blocking"] = ["edge", "back", "wall line"]
    items = {item.what: item.count for item in layout(validate(raw, "case")).items}
    assert items["more blocks, outside the row"] == 4
    assert items["wood screw #10 x 2 1/2 in, blocks to the deck"] == 132


@pytest.mark.parametrize(("run", "count"), [("10 ft", 1), ("19'-8\"", 2), ("19'-9\"", 3)])
def test_flashing_lengths_with_their_laps(run, count):
    """10 ft lengths, 4 in laps: two cover 236 in, 19'-8". Common practice, no source."""
    (item,) = [i for i in layout(case(layout__run=run)).items if i.what.startswith("flashing")]
    assert item.count == count
    assert "girth 14 in" in item.how  # 6 in gap, 4 in each side


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"layout__openings": [{"from": "12 ft", "to": "9 ft"}]}, "from must be less than to"),
        ({"layout__openings": [{"from": "9 ft", "to": "25 ft"}]}, "beyond the run, 24 ft"),
        ({"layout__first_mark": "25 ft"}, "beyond the run"),
        ({"layout__first_mark": "7 in", "layout__start": "flush"}, "stands beside start"),
        ({"layout__run": "300 ft"}, "one wall at a time"),
        ({"layout__stock": ["1/4 in"]}, "no more than squaring takes"),
        ({"layout__run": "24"}, "has no unit"),
        ({"garage_roof__point": [{"at": "25 ft", "D": "9 lb"}]}, "beyond the run of the layout"),
        ({"layout__last": "anywhere"}, 'allowed are "flush", "on spacing"'),
    ],
)
def test_faults_of_a_layout(changes, said):
    with pytest.raises(CaseFaultsError, match="layout") as caught:
        case(**changes)
    assert said in str(caught.value)


def test_a_piece_longer_than_its_stock():
    with pytest.raises(InputError, match=r"layout.stock: the longest, 60 in.*62.5 in"):
        layout(case(layout__stock=["5 ft"]))


def test_a_mark_is_no_part_of_the_file_or_the_digest():
    one = case()
    assert design(one).case.digest == one.digest
    with pytest.raises(CaseFaultsError, match="no such table"):
        case(mark__number=1)


def test_the_example_is_read_as_it_stands():
    one, _ = read_case(ROOT / "examples" / "marks_on_the_plate.toml")
    laid = layout(one)
    assert near(laid)[5:7] == [93.75, 95.25]
    assert laid.lines[1].piece.near == pytest.approx(18.45)
