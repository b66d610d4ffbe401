"""Faults of a case file: all at once, each with its line, key, value and what is allowed."""

import re

import pytest
from sample_case import (
    DRIFT,
    DRIFTING,
    SAMPLE,
    case_of,
    changed,
    faults_of,
    in_hold_downs,
    line_of,
    set_to,
    the_fault,
)

from outrigger.cases.faults import CaseFaultsError

WIDTH = 'width = "6 in"'


def test_all_faults_at_once():
    """Each with its line, key, what was written and what is allowed."""
    text = set_to(
        SAMPLE,
        gap__width="6",
        outrigger__spacing='"5 ft"',
        outrigger__size='"2x7"',
        outrigger__incised="0",
        outrigger__moisture='"damp"',
        garage_roof__dead='"15 plf"',
        garage_wall__along='"10 psf"',
        house_roof__pitch="4",
    )
    text = in_hold_downs(("rated_for", "rated_foo"), text=text)
    text = changed(("[limits]", "[limit]"), ("\nuplift = ", "\nupliftt = "), text=text)
    found = faults_of(text)
    expected = {
        "width": ("gap.width", "6", '"6 in"'),
        "spacing": ("outrigger.spacing", '"5 ft"', "over 48 in", '"5 in"'),
        "size": ("outrigger.size", '"2x7"', "2x6, 2x8"),
        "incised": ("outrigger.incised", "0", "true or false"),
        "moisture": ("outrigger.moisture", '"damp"', '"dry", "wet"'),
        "dead = \"15": ("garage_roof.dead", '"15 plf"', "line load", "pressure"),
        "along": ("garage_wall.along", '"10 psf"', "pressure", "line load"),
        "pitch": ("house_roof.pitch", "4", '"4:12"'),
        "rated_foo": ("hold_down[0].rated_foo", "no such key", "rated_for"),
        "[limit]": ("limit", "no such table", "[limits]"),
        "upliftt": ("wind.upliftt", "no such key", "uplift"),
    }  # fmt: skip
    for start, words in expected.items():
        line = line_of(text, start)
        (fault,) = [f for f in found if f.startswith(f"line {line}: ")]
        for word in words:
            assert word in fault
    second = line_of(text, "rated_foo", 2)
    assert sum(f.startswith(f"line {second}: hold_down[1].rated_foo") for f in found) == 1


def test_the_count_and_the_order_of_the_faults():
    """The heading counts them; they stand in the order of the file."""
    text = set_to(SAMPLE, gap__width="6", outrigger__plies="0", snow__roof="20")
    with pytest.raises(CaseFaultsError) as told:
        case_of(text)
    heading, *lines = str(told.value).splitlines()
    assert heading == "job.toml: 3 faults"
    numbers = [int(re.match(r"  line (\d+): ", line)[1]) for line in lines]
    assert numbers == sorted(numbers) == [line_of(text, k) for k in ("width", "plies", "roof =")]


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("gap__width", '"4 ft"', 'over 24 in. Did you mean "4 in"?'),
        ("gap__width", '"7\'"', 'over 24 in. Did you mean "7 in"?'),
        ("gap__width", '"7 1/2 ft"', 'over 24 in. Did you mean "7 1/2 in"?'),
        ("gap__width", '"24 1/16 in"', "over 24 in"),
        ("gap__width", '"none"', "more than zero"),
        ("gap__width", '"0 in"', "more than zero"),
        ("gap__width", '"-6 in"', "negative"),
        ("gap__width", '"6"', 'Did you mean "6 in"?'),
        ("gap__width", "6", 'such as "6 in"'),
        ("gap__width", '"6 psf"', "pressure"),
        ("gap__width", "true", "not true"),
        ("gap__width", "nan", "not nan"),
        ("gap__width", "inf", "not inf"),
        ("gap__garage_plate", '"none"', "more than zero"),
        ("gap__edge_bearing", '"0 in"', "more than zero"),
        ("outrigger__spacing", '"16 ft"', 'over 48 in. Did you mean "16 in"?'),
        ("outrigger__spacing", '"48 1/16 in"', "over 48 in"),
        ("outrigger__spacing", '"none"', "more than zero"),
        ("outrigger__back_span", '"none"', "more than zero"),
        ("outrigger__back_span", '"0 ft"', "more than zero"),
        ("outrigger__species", '"pine"', "Southern Pine"),
        ("outrigger__grade", '"good"', "Select Structural"),
        ("outrigger__grade", "2", "text in quotes"),
        ("outrigger__size", '"6x2"', '"2x6"'),
        ("outrigger__plies", "0", "1 or more"),
        ("outrigger__plies", "1.5", "whole number"),
        ("outrigger__plies", "true", "not true"),
        ("outrigger__plies", '"2"', "whole number"),
        ("outrigger__incised", '"no"', "true or false, without quotes"),
        ("outrigger__incised", "1", "true or false"),
        ("outrigger__laid", '"on its side"', '"on edge", "flat"'),
        ("outrigger__temperature", '"hot"', '"to 100 F", "100 to 125 F", "125 to 150 F"'),
        ("outrigger__blocking", '["edge", "10 ft"]', "beyond the member"),
        ("outrigger__blocking", '["middle"]', "not a length"),
        ("outrigger__blocking", '["edge", 16]', '"16 in"'),
        ("outrigger__top_notch", '"5 1/2 in"', "cuts through"),
        ("house_roof__dead", '"10 plf"', "line load"),
        ("house_roof__dead", '"1,2 psf"', "not a pressure"),
        ("house_roof__dead", '"-10 psf"', "negative"),
        ("house_roof__edge_support", '"post"', '"wall", "blocking", "rafter"'),
        ("house_roof__sheathing_bearing", '"360 psf"', "pressure"),
        ("garage_roof__form", '"scissors"', '"tied rafters"'),
        ("garage_roof__shape", '"mansard"', '"gable", "hip"'),
        ("garage_roof__span", '"none"', "more than zero"),
        ("garage_roof__member_spacing", '"none"', "more than zero"),
        ("garage_wall__along", '"20 psf"', "line load"),
        ("garage_wall__plates", "false", "not false"),
        ("snow__roof", '"20 plf"', "line load"),
        ("snow__drift", '"yes"', '"none", or the table [snow.drift]'),
        ("snow__sliding", "false", '"none", or the table [snow.sliding]'),
        ("seismic__category", '"G"', '"D"'),
        ("limits__live_deflection", "0", "240"),
        ("limits__live_deflection", "true", "not true"),
        ("limits__live_deflection", "nan", "finite"),
        ("limits__live_deflection", "inf", "finite"),
        ("limits__live_deflection", "-240", "negative"),
        ("basis__method", '"asd"', '"ASD", "LRFD"'),
        ("basis__loads", '"ASCE 7-10"', '"ASCE 7-16", "ASCE 7-22"'),
        ("basis__wood", '"NDS 2015"', '"NDS 2018"'),
        ("project__name", "5", "text in quotes"),
    ],
)
def test_a_fault_names_line_key_value_and_what_is_allowed(key, value, said):
    text = set_to(SAMPLE, **{key: value})
    fault = the_fault(text)
    table, name = key.split("__")
    section = text[: text.index(f"[{table}]")].count("\n")
    number = int(re.match(r"line (\d+): ", fault)[1])
    assert text.splitlines()[number - 1].startswith(f"{name} = {value}")
    assert number > section
    assert f"{table}.{name}" in fault
    assert said in fault
    if value.startswith('"') and "notch" not in name:
        assert value in fault


@pytest.mark.parametrize("key", ["exposure", "thermal", "importance"])
@pytest.mark.parametrize(
    ("value", "said"),
    [("nan", "finite"), ("inf", "finite"), ("-inf", "finite"), ("true", "not true"),
     ("-1.0", "negative"), ('"1.0"', "needs a number")],
)  # fmt: skip
def test_a_snow_factor_that_is_no_number(key, value, said):
    text = changed(('roof = "20 psf"', f'roof = "20 psf"\n{key} = {value}'))
    assert f"snow.{key}" in the_fault(text)
    assert said in the_fault(text)


@pytest.mark.parametrize("key", ["exposure", "thermal", "importance"])
def test_a_snow_factor_of_zero(key):
    """No factor of the snow is zero: it would leave no snow, or be read as not given."""
    factors = {"exposure": 1.0, "thermal": 1.2} | {key: 0}
    lines = "\n".join(f"{name} = {value}" for name, value in factors.items())
    text = changed(('roof = "20 psf"', f'ground = "20 psf"\n{lines}'))
    assert f"snow.{key}" in the_fault(text)


@pytest.mark.parametrize("value", ["nan", "inf", "true", '"much"'])
def test_sds_that_is_no_number(value):
    text = changed(('category = "none"', f'category = "B"\nsds = {value}'))
    assert "seismic.sds" in the_fault(text)


@pytest.mark.parametrize(
    "line",
    ['rated_uplift = "420 plf"', "rated_uplift = 420", "rated_uplift = true", "count = 0",
     "count = true", 'rated_for = "rain"', 'into = "studs"', 'rated_across_grain = "yes"'],
)  # fmt: skip
def test_a_fault_in_the_second_hold_down_has_its_own_line(line):
    key = line.partition(" ")[0]
    head, _, tail = SAMPLE.rpartition("[[hold_down]]")
    value = re.search(rf"(?m)^{key} = .*$", tail)[0]
    text = f"{head}[[hold_down]]{tail.replace(value, line)}"
    number = line_of(text, line)
    assert the_fault(text).startswith(f"line {number}: hold_down[1].{key} = ")


def test_wind_with_a_table_of_the_line_loads():
    """A fault below a table and one inside braces are found at their line."""
    text = changed(("[garage_wall]", '[garage_roof.line]\nD = nan\nQ = "1 plf"\n\n[garage_wall]'))
    first, second = faults_of(text)
    assert first.startswith(f"line {line_of(text, 'D = nan')}: garage_roof.line.D = nan")
    assert second.startswith(f"line {line_of(text, 'Q = ')}: garage_roof.line.Q no such key")


# Slips of the pen


@pytest.mark.parametrize(
    ("value", "said"),
    [
        ("“6 in”", "curly quotes"),
        ("”6 in”", "curly quotes"),
        ("6 in", 'text needs straight quotes: "6 in"'),
        ('"6 in', 'text needs straight quotes: "6 in"'),
        ('6 in"', 'text needs straight quotes: "6 in"'),
    ],
)
def test_quotes(value, said):
    text = changed((WIDTH, f"width = {value}"))
    fault = the_fault(text)
    assert fault.startswith(f"line {line_of(text, 'width')}: width = ")
    assert said in fault


def test_every_line_with_wrong_quotes_is_told_at_once():
    text = changed((WIDTH, "width = “6 in”"), ('grade = "No. 2"', "grade = No. 2"))
    assert [f.split(":")[0] for f in faults_of(text)] == [
        f"line {line_of(text, 'width')}",
        f"line {line_of(text, 'grade')}",
    ]


def test_single_quotes_are_read():
    assert case_of(changed((WIDTH, "width = '6 in'"))) == case_of(SAMPLE)


def test_curly_quotes_in_a_list():
    text = changed(('["edge", "back"]', "[“edge”, “back”]"))
    assert "curly quotes" in the_fault(text)


def test_curly_single_quotes():
    assert '"‘6 in’"' not in the_fault(changed((WIDTH, "width = ‘6 in’")))


def test_an_inch_mark_inside_quotes():
    """The fix keeps the inches: "6 in", or the mark escaped."""
    fault = the_fault(changed((WIDTH, 'width = "6""')))
    assert '"6 in"' in fault or '"6\\""' in fault


@pytest.mark.parametrize("value", ["True", "False", "yes"])
def test_true_with_a_capital(value):
    fault = the_fault(set_to(SAMPLE, outrigger__seasoned=value))
    assert f'"{value}"' not in fault
    assert "true" in fault


def test_a_date_that_does_not_exist():
    """30 February: quotes around it do not make it a date."""
    text = changed(('revision = "0"', 'revision = "0"\ndate = 2026-02-30'))
    assert "quotes" not in the_fault(text)


@pytest.mark.parametrize("value", ["0", "86400.0", "-86400"])
def test_a_number_is_no_date(value):
    assert "project.date" in the_fault(
        changed(('revision = "0"', f'revision = "0"\ndate = {value}'))
    )


@pytest.mark.parametrize("line", ["date = true", "date = 10:00:00", "date = 2026"])
def test_one_wrong_date_is_one_fault(line):
    the_fault(changed(('revision = "0"', f'revision = "0"\n{line}')))


@pytest.mark.parametrize("value", ["nan", "true", '"fifty"'])
def test_one_wrong_sealant_class_is_one_fault(value):
    the_fault(SAMPLE + f"joint_class = {value}\n")


def test_a_key_that_stands_twice():
    text = changed((WIDTH, f'{WIDTH}\nwidth = "7 in"'))
    first = line_of(text, "width")
    assert the_fault(text) == (
        f"line {first + 1}: width stands twice; line {first} has it too: keep one."
    )


@pytest.mark.parametrize("table", ["[wind]", "[snow.drift]\n"])
def test_a_table_that_stands_twice(table):
    text = (DRIFTING if "drift" in table else SAMPLE) + f"\n{table}\n"
    fault = the_fault(text)
    assert fault.startswith(f"line {line_of(text, table.strip(), 2)}: {table.strip()}")
    assert "stands twice" in fault


def test_drift_as_a_word_and_as_a_table():
    assert "stands twice" in the_fault(SAMPLE + DRIFT)


@pytest.mark.parametrize(
    ("old", "new", "near"),
    [
        (WIDTH, 'widht = "6 in"', "width"),
        ('house_finish = "1/2 in"', 'house_finnish = "1/2 in"', "house_finish"),
        ('moisture = "dry"', 'moist = "dry"', "moisture"),
        ('studs_over_outriggers = true', "studs_over_outrigger = true", "studs_over_outriggers"),
        ('drift = "none"', 'drifts = "none"', "drift"),
        ("live_deflection = 240", "live_deflect = 240", "live_deflection"),
    ],
)  # fmt: skip
def test_an_unknown_key_names_the_nearest(old, new, near):
    text = changed((old, new))
    key = new.partition(" ")[0]
    (fault,) = [f for f in faults_of(text) if key in f]
    assert fault.startswith(f"line {line_of(text, new)}: ")
    assert fault.endswith(f".{key} no such key. Did you mean {near}?")


def test_an_unknown_key_like_no_other():
    fault = the_fault(changed((WIDTH, f'{WIDTH}\nzzz = "6 in"')))
    assert "gap.zzz no such key. Keys here: width, house_finish, garage_plate" in fault


@pytest.mark.parametrize(
    ("table", "said"),
    [("[snows]", "Did you mean [snow]?"), ("[holddown]", "Did you mean [[hold_down]]?"),
     ("[banana]", "Known: project, basis, gap")],
)  # fmt: skip
def test_an_unknown_table(table, said):
    text = f"{SAMPLE}\n{table}\nx = 1\n"
    fault = the_fault(text)
    assert fault.startswith(f"line {line_of(text, table)}: ")
    assert "no such table" in fault
    assert said in fault


def test_an_unknown_table_in_two_brackets():
    text = f"{SAMPLE}\n[[hold_downs]]\nx = 1\n"
    assert the_fault(text).startswith(f"line {line_of(text, '[[hold_downs]]')}: hold_downs")


def test_a_key_above_the_tables():
    fault = the_fault(f"{WIDTH}\n{SAMPLE}")
    assert fault.startswith("line 1: width no such table")


def test_one_bracket_for_a_hold_down():
    text = SAMPLE.partition("[[hold_down]]")[0] + '[hold_down]\nat = "back"\n'
    assert "[[hold_down]]" in the_fault(text)


@pytest.mark.parametrize("value", ["5", '"6 in"', "true", "[1]"])
def test_a_value_in_place_of_a_table(value):
    text = f"gap = {value}\n" + SAMPLE.partition("[gap]")[0]
    text += "[outrigger]" + SAMPLE.partition("[outrigger]")[2]
    assert "needs a table, [gap]" in the_fault(text)


def test_brackets_that_the_reader_gives_up_on():
    fault = the_fault(changed((WIDTH, f"width = {'[' * 5000}")))
    assert fault == "nested too deep to be a case file."


def test_digits_that_the_reader_gives_up_on():
    text = changed((WIDTH, f"width = {'9' * 5000}"))
    fault = the_fault(text)
    assert fault.startswith(f"line {line_of(text, 'width')}: width = 999")
    assert 'text needs straight quotes. "999' in fault


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('width = "6 in"', 'width = "6 in" // as built', "a remark begins with #."),
        ('width = "6 in"', 'width = "6 in"  "7 in"', "two values; keep one."),
        ('width = "6 in"', 'width: "6 in"', 'write width = "6 in"'),
        ('blocking = ["edge", "back"]', "blocking = yes", 'which places? ["edge", "back"], say;'),
    ],
)
def test_a_slip_of_the_pen_is_told_as_one(old, new, said):
    (fault,) = faults_of(changed((old, new)))
    assert said in fault


def test_hold_downs_in_single_brackets_are_told_once_each():
    """Not each of their keys, which only seem to stand twice."""
    found = faults_of(SAMPLE.replace("[[hold_down]]", "[hold_down]"))
    assert len(found) == 2
    assert all("write [[hold_down]], in two brackets" in fault for fault in found)
