"""The numbers on the page: the table against the data, the arithmetic done over again.

Each printed line of the arithmetic is symbol = expression = numbers = value unit. The numbers are
worked out here by Python's own arithmetic from the text alone, as a reader with a calculator would.
"""

import math
import re
from functools import cache

import pytest
from check_cases import CASES
from sample_case import SAMPLE, case_of, changed, in_hold_downs, set_to

from outrigger.loads.parts import WORDS
from outrigger.report.data import check as data
from outrigger.report.screen import check as screen
from outrigger.verdict.design import design

WET = changed(
    ('moisture = "dry"', 'moisture = "wet"'),
    ("incised = false", "incised = true"),
    ('temperature = "to 100 F"', 'temperature = "100 to 125 F"'),
)
FORCES = ("P = ", "H_wall = ", "A_wall = ", "Fp = ")  # on the wall line of one outrigger
ALL = CASES | {
    "wet and incised": WET,
    "wet and incised, lrfd": WET.replace('"ASD"', '"LRFD"'),
    "7-22": changed(('"ASCE 7-16"', '"ASCE 7-22"')),
    "southern pine 2x14": set_to(SAMPLE, outrigger__species='"SYP"', outrigger__size='"2x14"'),
    "not blocked": set_to(SAMPLE, outrigger__blocking="[]"),
    "ground snow, thirds": changed(
        ('roof = "20 psf"', 'ground = "33.3 psf"\nexposure = 0.9\nthermal = 1.2'),
        ('width = "6 in"', 'width = "6 1/3 in"'),
    ),
    "plate between": changed(("studs_over_outriggers = true", "studs_over_outriggers = false")),
    "point": changed(
        ("bearing = true", 'bearing = true\npoint = [{ at = "6 ft", D = "333 lb", S = "77.7 lb" }]')
    ),
    "side height": in_hold_downs(
        ("rated_across_grain = true", 'rated_across_grain = false\nside_height = "4 in"')
    ),
}  # fmt: skip
WHOLE = 20_000  # characters: no line is folded
PLACES = {"arm": "gap", "edge": "house wall", "back": "back clip", "wall line": "garage wall"}


@cache
def designed(name):
    return design(case_of(ALL[name]))


@cache
def page(name, steps=False):
    return screen.page(designed(name), WHOLE, steps=steps).splitlines()


@cache
def stated(name):
    return data.as_data(designed(name))


def place(name):
    """A place as the page says it."""
    return f"clip {name}" if name.endswith(" in") else PLACES.get(name, name)


def as_printed(text, value):
    """Whether a value rounds to a printed number: half a unit of its last digit."""
    digits = text.replace(",", "").replace("−", "-")
    half = 0.5 * 10.0 ** -len(digits.partition(".")[2])
    return abs(float(digits) - value) <= half * (1 + 1e-9)  # 1e-9: a value right at the half


# The table

NUMBER = r"[−-]?\d[\d,]*(?:\.\d+)?"
ROW = re.compile(
    rf"  (?P<words>\S.*?) +(?P<load>{NUMBER})(?: (?P<unit>psi|lb|in|lb-in))?"
    rf" +(?P<limit>{NUMBER}(?: (?:psi|lb|in|lb-in))?|not known|none)"
    r" +(?P<used>\d+\.\d+|none)  (?P<bar>[= ]*\|?=?|open|FAILS) *(?P<key>[a-z]?)$"
)


def table(name):
    """The rows of the table as printed."""
    lines = page(name)
    start = next(i for i, line in enumerate(lines) if line.startswith("  where ")) + 1
    rows = []
    for line in lines[start:]:
        found = ROW.fullmatch(line.ljust(2))
        if found is None:
            break
        rows.append(found.groupdict())
    return rows, lines[start + len(rows) :]


@pytest.mark.parametrize("name", ALL)
def test_every_number_of_the_table_is_that_of_the_data(name):
    """Load, limit and ratio of each row at the precision printed; no row more and none less.

    Rows of sliding and tipping without a demand stand in one line below.
    """
    checks = [
        c for c in stated(name)["checks"] if c["demand"] or c["id"] not in ("slide", "roll_over")
    ]
    rows, rest = table(name)
    legend = dict(re.findall(r"(?m)^  ([a-z]): .* \((.*)\)$", "\n".join(rest)))
    shared = re.search(r"(?m)^  All under .* \((.*)\)\.$", "\n".join(rest))
    assert len(rows) == len(checks)
    for row in rows:
        fits = [c for c in checks if agrees(row, c)]
        assert fits, row
        named = legend.get(row["key"], shared[1] if shared else "")
        fits = [c for c in fits if c["combination"] == named]
        assert fits, (row, named)
        checks.remove(fits[0])
    assert checks == []


def agrees(row, check):
    """Whether a printed row is that of a check."""
    if not row["words"].startswith(place(check["place"])):
        return False
    if (row["unit"] or "") != check["unit"] or not as_printed(row["load"], check["demand"]):
        return False
    capacity, ratio = check["capacity"], check["ratio"]
    if row["limit"] == "not known":
        if capacity is not None:
            return False
    elif row["limit"] == "none":
        if capacity != 0:
            return False
    elif not (capacity and as_printed(row["limit"].partition(" ")[0], capacity)):
        return False
    if row["used"] == "none":
        return ratio is None
    return ratio is not None and as_printed(row["used"], ratio)


@pytest.mark.parametrize("name", ALL)
def test_the_bar_and_the_word_say_what_the_ratio_says(name):
    """A tenth for each `=`, the tick at 1.00 passed only over 1; open and FAILS in words."""
    for row in table(name)[0]:
        if row["bar"] in ("open", "FAILS"):
            continue
        used, marks = float(row["used"]), row["bar"].partition("|")
        assert (marks[2].strip() == "=") == (used > 1), row
        assert abs(marks[0].count("=") - min(10, used * 10)) <= 0.5 + 0.05, row  # 0.05: used
        # is printed to 0.01, which is a tenth of a mark


@pytest.mark.parametrize("name", ALL)
def test_the_rows_stand_with_the_closest_first(name):
    ratios = [float(row["used"]) for row in table(name)[0] if row["used"] != "none"]
    assert ratios == sorted(ratios, reverse=True)
    first = [row["bar"] for row in table(name)[0]]
    assert "FAILS" not in first[first.count("FAILS") :]  # what fails without a ratio stands above


PLACE = {"back clip": "back"}


def carried(name):
    """The lines of what the house carries: way, place, and the rest of each."""
    lines = screen.page(designed(name), 79).splitlines()
    start = next(i for i, line in enumerate(lines) if line.startswith("The house carries"))
    text = "\n".join(lines[start : lines.index("", start)])
    for line in re.sub(r"\n {4,}", " ", text).splitlines():
        sentence = re.fullmatch(
            r"  (pushes down|pulls up) on the house (?:wall|roof, ([^,:]*))"
            r"(?:, from the (.*?))?: (.*)",
            line,
        )
        if sentence:
            way, said, source, rest = sentence.groups()
            at = "edge" if said is None else PLACE.get(said, said.removeprefix("clip at "))
            yield "push" if way == "pushes down" else "pull", at, source, rest


@pytest.mark.parametrize("name", ALL)
def test_what_the_house_carries_is_that_of_the_data(name):
    """Each reaction in whole pounds and plf, with its sense in words; none under 0.5 lb."""
    words = {"dead": "D", "storage": "L", "roof live": "Lr", "snow": "S", "wind up": "W_up",
             "wind down": "W_down", "seismic": "E", "wall wind away from the house": "H_away",
             "wall wind toward the house": "H_toward", "force along the wall": "A",
             "earthquake away from the house": "E_away",
             "earthquake toward the house": "E_toward"}  # fmt: skip
    found = {}
    for way, at, source, rest in carried(name):
        if source is not None:
            for part in re.finditer(rf"([a-z ]+?) ({NUMBER}) lb \(({NUMBER}) plf\)", rest):
                found[way, at, source, words[part[1].strip()]] = (part[2], part[3])
    reactions = {
        ("push" if r["force_lb"] > 0 else "pull", r["at"], r["source"], r["case"]): r
        for r in stated(name)["reactions"]
        if round(r["force_lb"])
    }
    assert found.keys() == reactions.keys()
    for key, (force, plf) in found.items():
        assert as_printed(force, abs(reactions[key]["force_lb"]))
        assert as_printed(plf, abs(reactions[key]["line_plf"]))


def of_one(said):
    """Force, plf, the combination of each, and whether it is of one outrigger alone."""
    every = re.fullmatch(rf"\w+ ({NUMBER}) lb \(({NUMBER}) plf\), (.*)", said)
    if every:
        return (*every.groups(), every[3], False)
    alone = rf"\w+ ({NUMBER}) lb, (.*), under one of them; without the worker ({NUMBER}) plf(, .*)?"
    force, combination, plf, line = re.fullmatch(alone, said).groups()
    return force, plf, combination, line.removeprefix(", ") if line else combination, True


@pytest.mark.parametrize("name", ALL)
def test_the_most_of_each_place_is_that_of_the_data(name):
    found = {}
    for way, at, source, rest in carried(name):
        if source is None:
            for one in re.split(r"; (?=strength)", rest):
                found[at, way, one.partition(" ")[0]] = of_one(one)
    envelopes = {
        (r["at"], r["way"], r["level"]): r
        for r in stated(name)["envelopes"]
        if r["way"] in ("push", "pull") and round(r["force_lb"])
    }
    assert found.keys() == envelopes.keys()
    for key, (force, plf, *rest) in found.items():
        assert as_printed(force, abs(envelopes[key]["force_lb"]))
        assert as_printed(plf, abs(envelopes[key]["line_plf"]))
        names = ("combination", "line_combination", "alone")
        assert rest == [envelopes[key][name] for name in names]


@pytest.mark.parametrize("name", ALL)
def test_the_closest_check_of_the_verdict_is_the_governing_one(name):
    """Its ratio, as printed, is the one in the data and the largest of the table."""
    said = page(name)[-2]
    governing = stated(name)["governing"]
    if found := re.search(r"Closest: .*, (\d+\.\d+)|^FAIL: .* (\d+\.\d+)\.", said):
        printed = found[1] or found[2]
        assert as_printed(printed, governing["ratio"])
        assert place(governing["place"]).removesuffix(" clip") in said
        assert printed == next(row["used"] for row in table(name)[0] if row["used"] != "none")


@pytest.mark.parametrize("name", ALL)
def test_the_heading_states_the_case(name):
    case, geometry = case_of(ALL[name]), stated(name)["geometry"]
    text = "\n".join(page(name)[:4])
    groups = re.search(r"case ((?:[0-9a-f]{4} ?){3})", text)[1].replace(" ", "")
    assert groups == stated(name)["digest"] == case.digest
    arm = re.search(r"arm ([\d /]+) in$", text, re.M)[1]
    # printed to sixteenths
    assert abs(sum(eval(part) for part in arm.split()) - geometry["arm_in"]) <= 1 / 32
    for word in (case.project.name, case.basis.method, case.basis.loads, case.basis.wood,
                 case.outrigger.size, case.outrigger.species):  # fmt: skip
        assert word in text


# The arithmetic

LINE = re.compile(r" +(?P<line>\S+ = .*?)(?:  \[.*\])?$")
VALUE = re.compile(rf"({NUMBER})(?: (\S+))?")
TOKEN = re.compile(r"least of|greatest of|[A-Za-zφλγℓΔ][^\s()^,]*(?:,[A-Za-z]+)?|√|[\d,.]*\d|[^\s]")
UNITS = {"psi", "lb", "in", "in²", "in³", "in⁴", "lb-in", "lb/in", "lb-in²", None}
UNITS |= {"psf", "plf", "pcf", "ft", "sf", "mph", "°", "in/lb"}


def blocks(name):
    """The lines of the arithmetic, in their groups: the loads, then one check each."""
    lines = page(name, True)
    start = lines.index("Loads on one outrigger, unfactored")
    end = next(i for i, line in enumerate(lines) if line.startswith("Symbols: "))
    group = []
    for line in [*lines[start:end], ""]:
        if line:
            group.append(line)
        elif group:
            yield group
            group = []


def equations(group):
    """symbol, expression, numbers, value and unit of each line that is one."""
    for line in group:
        found = LINE.fullmatch(line)
        if found is None:
            continue
        symbol, *middle, value = found["line"].split(" = ")
        number = VALUE.fullmatch(value)
        assert number, line
        yield symbol, middle, number[1], number[2], line


def worked_out(numbers):
    """The numbers of a line by Python's arithmetic, and how far their printed digits carry.

    Each number stands for its value within half a unit of its fifth digit (whole numbers of
    10,000 and more within 0.5); to first order what that makes of the result is summed up.
    """
    tokens = re.findall(
        r"least of|greatest of|√|[\d,.]*\d|\S", re.sub(r"(?<=\d),(?=\d{3})", "", numbers)
    )
    words = {"least of": "min", "greatest of": "max", "√": "math.sqrt", "×": "*", "−": "-",
             "^": "**", "/": "/"}  # fmt: skip
    values = [float(t) for t in tokens if t[-1].isdigit()]

    def evaluate(given):
        left = iter(given)
        text = " ".join(
            repr(next(left)) if t[-1].isdigit() else words.get(t, t) for t in tokens
        )  # fmt: skip
        return eval(text, {"math": math, "min": min, "max": max, "__builtins__": {}})

    exact = evaluate(values)
    carried = 0.0
    for i, value in enumerate(values):
        near = list(values)
        near[i] = value + half_unit(value)
        carried += abs(evaluate(near) - exact)
    return exact, carried


def half_unit(value):
    """Half a unit of the fifth significant digit; 0.5 from 10,000 on."""
    if value == 0:
        return 0.0
    return 0.5 * 10.0 ** min(0, math.floor(math.log10(abs(value))) - 4)


@pytest.mark.parametrize("name", ALL)
def test_the_arithmetic_can_be_done_over(name):
    """Numbers put in give the value printed, within what five digits of each carry."""
    count = 0
    for group in blocks(name):
        for symbol, middle, value, unit, line in equations(group):
            assert unit in UNITS, line
            if not middle:
                continue
            numbers = middle[1] if len(middle) == 2 else value
            exact, carried = worked_out(numbers)
            printed = float(value.replace(",", "").replace("−", "-"))
            assert abs(exact - printed) <= carried * 1.01 + half_unit(printed), line  # 1.01:
            # the second order of the carrying over
            assert symbol
            count += 1
    assert count > 40


@pytest.mark.parametrize("name", ALL)
def test_the_numbers_put_in_are_those_printed_above(name):
    """A symbol's number in a line is the value of the line above that ends in this symbol."""
    count = 0
    for group in blocks(name):
        above = {}
        for symbol, middle, value, _, line in equations(group):
            if len(middle) == 2:
                symbols, numbers = (re.findall(TOKEN, text) for text in middle)
                assert len(symbols) == len(numbers) or "(−" in middle[1] or "−" in middle[1], line
                if len(symbols) == len(numbers):
                    for sign, number in zip(symbols, numbers, strict=True):
                        if sign in above:
                            assert number == above[sign], (sign, line)
                            count += 1
                        elif not sign[0].isalpha():
                            assert sign == number, line  # operators and constants as they are
            above[symbol] = value
    assert count > 30


@pytest.mark.parametrize("name", ALL)
def test_each_check_ends_in_its_row(name):
    """Load, limit and ratio at the foot of the arithmetic are a row of the table."""
    rows = table(name)[0]
    foot = re.compile(rf"  has ({NUMBER})[^,]*?, takes (.*?): (?:used (.*)|.*)")
    for group in list(blocks(name))[1:]:
        load, limit, used = foot.fullmatch(group[-1]).groups()
        fits = [r for r in rows if (r["load"], r["limit"]) == (load, limit)]
        fits = [r for r in fits if used in (None, r["used"])]
        assert [r for r in fits if group[0].startswith(r["words"].split("  ")[0].split(" ")[0])]


@pytest.mark.parametrize("name", ALL)
def test_the_last_value_of_a_check_is_its_limit(name):
    """Where the arithmetic ends in a capacity it is the printed limit, to the digits printed."""
    for group in list(blocks(name))[1:]:
        limit = re.search(rf", takes ({NUMBER})", group[-1])
        if limit is None:
            continue
        values = [float(v.replace(",", "").replace("−", "-")) for _, _, v, _, _ in equations(group)]
        if "slenderness" in group[0] or "space below" in group[0]:
            continue  # 50 by its clause and the file's clearance: no step leads there
        if limit[1] == "1.00":
            continue  # an interaction: 1 by its clause
        printed = float(limit[1].replace(",", ""))
        last = 0.5 * 10.0 ** -len(limit[1].partition(".")[2])
        assert any(abs(v - printed) <= last + half_unit(v) for v in values), group[0]


@pytest.mark.parametrize("name", ALL)
def test_the_loads_of_the_arithmetic_are_those_of_the_data(name):
    """The wall line's loads add up from their parts, and are the data's. What point loads bring to
    one outrigger alone is taken off for the others: no load of the data."""
    group = next(blocks(name))
    found = stated(name)["loads"]
    # each case of snow by itself; E is 0.2 SDS D, no load of its own on the wall line
    loads = {k: v for k, v in found["wall_line_lb"].items() if k not in ("S", "E")}
    pushed = found["wall_wind_lb"] | found["earthquake_lb"]
    loads |= found["snow_cases_lb"] | pushed | found["along_wall_lb"]
    words = {text: part for part, text in WORDS.items()}
    seen, parts, total = set(), 0.0, None
    for line in [*group, "  end"]:
        heading = re.fullmatch(rf"  (.*) on the garage wall: ({NUMBER}) lb, of", line)
        if heading or not line.startswith("    "):
            if total is not None:
                assert parts == pytest.approx(total, abs=0.05 + 0.01)  # 0.01: parts to 5 digits
            total, parts = None, 0.0
        if heading:
            if words[heading[1]] in ("D_else", "W_else"):
                continue
            seen.add(words[heading[1]])
            sense_in_words = words[heading[1]] in pushed
            load = loads[words[heading[1]]]
            assert as_printed(heading[2], abs(load) if sense_in_words else load)
            total = float(heading[2].replace(",", ""))
        elif total is not None and line.strip().startswith(FORCES):
            value = next(equations([line]))[2]
            parts += float(value.replace(",", "").replace("−", "-"))
    assert seen == {case for case, force in loads.items() if force}


@pytest.mark.parametrize("name", ALL)
def test_every_symbol_of_the_arithmetic_is_explained(name):
    """Each symbol on the left of a line of the checks stands in the list below, with words."""
    (line,) = [line for line in page(name, True) if line.startswith("Symbols: ")]
    listed = {entry.split(" ")[0] for entry in line.removeprefix("Symbols: ").split("; ")}
    for group in list(blocks(name))[1:]:
        for symbol, _, _, _, printed in equations(group):
            assert symbol in listed, printed
