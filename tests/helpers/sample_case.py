"""What the tests of the case file and of the screen share: the sample's text, changes, faults."""

import re
from pathlib import Path

import outrigger
from outrigger.cases.faults import CaseFaultsError
from outrigger.cases.read import key_lines, parse
from outrigger.cases.validate import validate

DATA = Path(__file__).parents[1] / "data" / "cases"
# the bundled sample with its snow and wind stated, so that no load follows from another
SAMPLE = (DATA / "stated_sample.toml").read_text(encoding="utf-8")
BUNDLED = Path(outrigger.__file__).with_name("sample.toml").read_text(encoding="utf-8")
# much the same with a drift on the garage roof and sliding, whose numbers are worked by hand
DRIFTED = (DATA / "drift_on_the_garage.toml").read_text(encoding="utf-8")
# the same as the case of a real job would be: nothing in it says that it is made up
STATED = re.sub(r"(?m)^invented = .*\n", "", BUNDLED).replace(
    "invented listing, for the sample only", "a listing of these tests"
)
# a real job of a tenth of the combinations, for how studies print
FEW = re.sub(
    r"(?m)^invented = .*\n",
    "",
    (DATA.parents[2] / "examples" / "passes.toml").read_text(encoding="utf-8"),
).replace("invented listing, for the example only", "a listing of these tests")
EVERY_KEY = (DATA / "every_key.toml").read_text(encoding="utf-8")
EVERY_OTHER_KEY = (DATA / "every_other_key.toml").read_text(encoding="utf-8")

SMALLEST = """
[project]
name = "Only what is required"
[basis]
loads = "ASCE 7-16"
[gap]
width = "6 in"
garage_plate = "3 1/2 in"
edge_bearing = "3 in"
[outrigger]
species = "Hem-Fir"
grade = "No. 2"
size = "2x6"
spacing = "16 in"
back_span = "3 ft"
[garage_roof]
span = "20 ft"
"""


def changed(*pairs, text=SAMPLE):
    """A case text with each `old` replaced; every `old` must stand in it."""
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new)
    return text


def in_hold_downs(*pairs, text=SAMPLE):
    """A case text with each `old` replaced in its hold-downs alone."""
    head, first, tail = text.partition("[[hold_down]]")
    return head + first + changed(*pairs, text=tail)


def set_to(text, **values):
    """A case text with keys set: outrigger__spacing='"12 in"'. The key must stand in its table."""
    for path, value in values.items():
        table, key = path.split("__")
        pattern = rf"(?ms)(^\[{table}\]$.*?^){key} = .*?$"
        found = re.search(pattern, text)
        assert found, path
        text = f"{text[: found.start()]}{found[1]}{key} = {value}{text[found.end() :]}"
    return text


def without(text, table, *keys):
    """A case text without some keys of a table."""
    for key in keys:
        pattern = rf"(?ms)(^\[{table}\]$.*?^){key} = .*?\n"
        text, count = re.subn(pattern, r"\g<1>", text, count=1)
        assert count == 1, key
    return text


def case_of(text):
    """The case of a text."""
    return validate(parse(text, "job.toml"), "job.toml", key_lines(text))


def faults_of(text):
    """The faults of a text, as printed, in their order; none when it is read."""
    try:
        case_of(text)
    except CaseFaultsError as error:
        return [fault.message for fault in error.faults]
    return []


def line_of(text, start, nth=1):
    """Number of the nth line of a text that begins so."""
    found = [n for n, line in enumerate(text.splitlines(), 1) if line.startswith(start)]
    return found[nth - 1]


def the_fault(text):
    """The only fault of a text."""
    found = faults_of(text)
    assert len(found) == 1, found
    return found[0]


def written(folder, text=SAMPLE, name="job.toml"):
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def paths(raw):
    """Every key of a case's tables, as tuples."""
    for section, table in raw.items():
        tables = enumerate(table) if isinstance(table, list) else [(None, table)]
        for i, entries in tables:
            for key in entries:
                yield (section, key) if i is None else (section, i, key)


def dropped(raw, *gone):
    """A case's tables without some keys."""
    left = {
        section: [dict(entry) for entry in table] if isinstance(table, list) else dict(table)
        for section, table in raw.items()
    }
    for *above, key in gone:
        table = left
        for part in above:
            table = table[part]
        del table[key]
    return left


def named(path):
    *above, key = path
    return f"{above[0]}[{above[1]}].{key}" if len(above) == 2 else f"{above[0]}.{key}"


DRIFT = """
[snow.drift]
on = "both"
house_step = "9 ft"
house_length = "40 ft"
garage_length = "24 ft"
"""
# the sample with its drift as geometry; the table stands behind [snow]
DRIFTING = changed(("\n[wind]\n", f"{DRIFT}\n[wind]\n"), text=without(SAMPLE, "snow", "drift"))
