"""Keys that are not written as keys are: each is a fault in words, at once, with its line."""

import json
import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample_case import SAMPLE, SMALLEST, changed, faults_of

from outrigger.base.errors import InputError
from outrigger.cases.read import key_lines, parse
from outrigger.cases.settings import apply

ODD = [
    "",
    "x]",
    "gap.",
    ".",
    "a[0]",
    "a[",
    "]",
    "[",
    "a b",
    'a"b',
    "a\\b",
    "\n",
    "function[x]",
    "a.b",
]
LINES = {
    "of a table": (("[gap]", "[gap]\n{}"), "gap."),
    "of the first hold-down": (("[[hold_down]]", "[[hold_down]]\n{}"), "hold_down[0]."),
    "of a table inside": (("[limits]", "[garage_roof.line]\n{}\n[limits]"), "garage_roof.line."),
}


@pytest.mark.parametrize("name", ODD)
@pytest.mark.parametrize("place", LINES)
def test_an_odd_key_in_quotes(place, name):
    """It is named as TOML writes it, with its line, and what a key looks like."""
    (old, new), path = LINES[place]
    head, _, tail = SAMPLE.partition(old)
    key = json.dumps(name)
    text = f"{head}{new.format(f'{key} = 1')}{tail}"
    (fault,) = [fault for fault in faults_of(text) if "no such key" in fault]
    line = text[: text.index(f"{key} = 1")].count("\n") + 1
    said = f"{path}{key}".replace("\n", "\\n")
    assert fault.startswith(f"line {line}: {said} no such key. A key is one word without quotes")


@pytest.mark.parametrize("name", ODD)
def test_an_odd_table(name):
    text = f"{SMALLEST}\n[{json.dumps(name)}]\nx = 1\n"
    (fault,) = faults_of(text)
    line = text.count("\n") - 1
    assert fault.startswith(f"line {line}: {json.dumps(name)} no such table.")


@pytest.mark.parametrize("name", ["Drift", "Sliding", "BlockingFastening"])
def test_a_key_named_as_a_kind_of_table_inside_is(name):
    (fault,) = faults_of(changed(("[gap]", f"[gap]\n{name} = 1")))
    assert f"gap.{name} no such key" in fault


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ('width..x = "6 in"', 'width..x no key: one dot between two words. Write it "width.x"'),
        ('width. = "6 in"', 'Write it "width"'),
        ('.width = "6 in"', 'Write it "width"'),
    ],
)
def test_dots_that_stand_double_or_alone(line, said):
    (fault,) = faults_of(changed(('width = "6 in"', line)))
    assert said in fault


@pytest.mark.parametrize(
    ("setting", "said"),
    [
        ("gap..width=9in", "Did you mean gap.width?"),
        ("gap.width.=9in", "Did you mean gap.width?"),
        (".gap.width=9in", "Did you mean gap.width?"),
        ("outrigger.=9", "outrigger. is not how a key is written"),
        ("hold_down[back].x]=1", "hold_down[back].x] is not how a key is written"),
        ("hold_down[back]..count=1", "Did you mean hold_down[back].count?"),
        ("hold_down[back]count=1", "hold_down[back].count=2"),
        ("hold_down[]=back", "is not how a key is written"),
        ("gap.[=1", "gap.[ is not how a key is written"),
        ('gap."x]"=1', "is not how a key is written"),
        (".=1", "is not how a key is written"),
        ("hold_down[mid]={a=1}", "hold_down[mid]=back"),
        ("hold_down[mid]=[1]", "hold_down[mid]=back"),
        ("hold_down[mid]=3", "hold_down[mid]=back"),
    ],
)
def test_a_setting_that_names_no_key(setting, said):
    with pytest.raises(InputError) as told:
        apply(tomllib.loads(SAMPLE), setting)
    assert said in str(told.value)


@pytest.mark.parametrize("value", ["{}", "{ a = 1 }", "[]", "3"])
def test_a_table_where_one_of_some_words_is_needed(value):
    """In a table inside, too, where a key may be a word or a table."""
    inside = changed(
        ('drift = "none"', f'drift = {{ on = {value}, house_step = "9 ft", house_length = "40 ft", '
         'garage_length = "24 ft" }')
    )  # fmt: skip
    (fault,) = faults_of(inside)
    assert "snow.drift.on = " in fault and '"garage roof", "house roof", "both"' in fault


def test_the_line_of_a_key_in_quotes():
    text = '["gap"]\n"width" = 1\n\'odd one\' = 2\n[[hold_down]]\n"at" . x = 1\n'
    lines = key_lines(text)
    assert lines == {"gap": 1, "gap.width": 2, 'gap."odd one"': 3, "hold_down[0]": 4,
                     "hold_down[0].at.x": 5}  # fmt: skip


@settings(max_examples=300)
@given(
    st.text(alphabet="ab.[]\"'=\\ \n#", max_size=12),
    st.sampled_from(["", "[gap]\n", "[[hold_down]]\n"]),
)
def test_whatever_stands_before_the_equals_sign(key, head):
    """Read or refused in words; never anything else, and never for long."""
    faults_of(f"{head}{key} = 1\n")
    with pytest.raises(InputError):
        apply(tomllib.loads(SAMPLE), f"{key}.=1")


def test_a_long_line_of_blanks_is_read_at_once():
    """100,000 of them, in a file that is no TOML: time in their number, not in its square."""
    with pytest.raises(InputError):
        parse("a = b" + " " * 100_000 + "x\n", "job.toml")
