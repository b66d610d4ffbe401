"""What runs of wall hand to a house wall in all, by hand; the worst run first.

The level case, its wall line 12.375 in outside the edge (setback 1/4, half the bearing 1 3/4,
finish 5/8, gap 7, half the plate 2 3/4), its back clip 44 in behind it. Storage, 5 psf, on half
the span of 24 ft and the overhang of 3 in: 5 x 12.25 = 61.25 plf of wall, whatever the trusses.
At the house wall (44 + 12.375) / 44 = 1.28125 of it presses; at the back clips 0.28125 pulls.
"""

import copy

import pytest
from level_case import TABLES

import outrigger
from outrigger.studies.runs import Run, Wall, verdict, walls, worst_first
from outrigger.verdict.design import design
from outrigger.verdict.envelopes import ASD, LEVELS, PULL, PUSH, STRENGTH, envelopes

PLF = 61.25
AT_EDGE, AT_BACK = 1.28125, 0.28125


def run(file, length="", wall="", **changes):
    """A run of the level case; changes: of keys, as outrigger__spacing."""
    tables = copy.deepcopy(TABLES)
    tables["project"] = {"name": file, "house_wall": wall}
    if length:
        tables["layout"] = {"run": length}
    for path, value in changes.items():
        table, key = path.split("__")
        tables.setdefault(table, {})[key] = value
    return Run(file, design(outrigger.case(tables)))


def unfactored(of, at, way, case):
    return sum(
        one.force
        for one in of.totals
        if (one.at, one.way, one.case, one.source) == (at, way, case, "garage side")
    )


@pytest.mark.parametrize("spacing", ["16 in", "11 in", "24 in"])
def test_the_run_is_carried_once_whatever_the_spacing(spacing):
    """20 ft of wall: 1225 lb; 1569.53 lb down at the house wall, 344.53 lb up at the back. Each
    mark alone is counted with the most that a truss may bring it: they sum to more."""
    one = run("left", "20 ft", outrigger__spacing=spacing)
    assert unfactored(one, "edge", PUSH, "L") == pytest.approx(20 * PLF * AT_EDGE)
    assert unfactored(one, "back", PULL, "L") == pytest.approx(20 * PLF * AT_BACK)
    assert unfactored(one, "edge", PULL, "L") == 0


def test_an_opening_takes_nothing_off():
    """The wall over an opening stands on the outriggers beside it."""
    one = run("left", "20 ft", layout__openings=[{"from": "6 ft", "to": "9 ft"}],
              layout__double_at_openings=True)  # fmt: skip
    assert unfactored(one, "edge", PUSH, "L") == pytest.approx(20 * PLF * AT_EDGE)


def test_a_point_load_is_counted_once():
    """900 lb of a girder truss on the wall line: 900 x 1.28125 = 1153.125 lb more."""
    without = run("left", "20 ft")
    point = [{"at": "6 ft", "from": "girder truss", "D": "900 lb"}]
    beside = run("left", "20 ft", garage_roof__point=point)
    more = unfactored(beside, "edge", PUSH, "D") - unfactored(without, "edge", PUSH, "D")
    assert more == pytest.approx(900 * AT_EDGE)


def test_runs_of_one_house_wall_are_added():
    """20 ft and 12 ft: 32 x 61.25 x 1.28125 = 2511.25 lb; the run on the other wall apart."""
    runs = [run("left", "20 ft", "North"), run("right", "12 ft", " north "),
            run("rake", "10 ft", "east")]  # fmt: skip
    north, east = walls(runs)
    assert ([one.file for one in north.runs], north.length) == (["left", "right"], 32 * 12)
    assert unfactored(north, "edge", PUSH, "L") == pytest.approx(2511.25)
    assert unfactored(east, "edge", PUSH, "L") == pytest.approx(10 * PLF * AT_EDGE)


def test_without_a_name_each_run_is_a_wall_of_its_own():
    assert [wall.name for wall in walls([run("left", "20 ft"), run("right", "12 ft")])] == [
        "left", "right",
    ]  # fmt: skip


def test_a_run_of_unknown_length_is_in_no_total():
    wall = walls([run("left", "20 ft", "north"), run("right", "", "north")])[0]
    assert [one.file for one in wall.measured] == ["left"]
    assert unfactored(wall, "edge", PUSH, "L") == pytest.approx(20 * PLF * AT_EDGE)


def test_a_total_is_no_less_than_an_even_share_and_no_more_than_the_marks_at_their_worst():
    """Per foot of wall the most of all is no more than that of the worst placed outrigger over its
    spacing; and no less than dead and storage together."""
    one = run("left", "20 ft")
    wall = Wall("", (one,))
    per_foot = {
        (m.at, m.way, m.level): m.force for m in envelopes(one.design) if m.way in (PUSH, PULL)
    }
    pieces = 16
    for level in LEVELS:
        total = wall.total("edge", PUSH, level)
        assert total <= pieces * per_foot["edge", PUSH, level] * (1 + 1e-9)
        least = sum(unfactored(one, "edge", PUSH, case) for case in ("D", "L"))
        assert total >= least
    assert wall.total("edge", PUSH, STRENGTH) > wall.total("edge", PUSH, ASD)


def test_loads_of_two_editions_are_not_added():
    """Snow of ASCE 7-22 is at strength level; the levels of the combinations are added."""
    other = run("right", "12 ft", "north", basis__loads="ASCE 7-22")
    wall = walls([run("left", "20 ft", "north"), other])[0]
    assert len(wall.editions) == 2
    assert not [one for one in wall.totals if not one.level]
    assert wall.total("edge", PUSH, ASD) > 0


def test_the_worst_first_and_never_a_pass_while_one_is_open():
    """Fails before open before passes, the larger ratio first."""
    passes = run("a", "20 ft")
    wide = run("b", "20 ft", gap__width="11 in")
    bare = run("c", "20 ft", garage_roof__storage=None)
    fails = run("d", "20 ft", outrigger__size="2x4")
    assert [r.design.verdict for r in (passes, bare, fails)] == ["pass", "open", "fail"]
    listed = worst_first([passes, bare, wide, fails])
    states = [one.design.verdict for one in listed]
    assert states == sorted(states, key=("fail", "open", "pass").index)
    assert states[0] == "fail"
    assert verdict([passes, bare]) == "open"
    assert verdict([passes, bare, fails]) == "fail"
    assert verdict([passes]) == "pass"
