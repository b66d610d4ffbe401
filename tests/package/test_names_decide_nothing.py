"""No number, verdict or choice hangs on how a thing is called: symbols, ids and words renamed.

A step's symbol, a kind's id and a link's words are for print. With every one of them changed the
program must answer as before.
"""

import re
import sys
from contextlib import contextmanager
from pathlib import Path

import pytest
from msgspec.structs import force_setattr
from thorough import in_turn

from outrigger.cases.read import read_case
from outrigger.formula.formula import Step
from outrigger.formula.kind import Kind, Link
from outrigger.verdict.design import design

EXAMPLES = Path(__file__).parents[2] / "examples"
FILES = sorted(path.stem for path in EXAMPLES.glob("*.toml"))
FAILING = [
    ("passes", "gap=12in"),
    ("passes", "garage_wall.studs_over_outriggers=false"),
    ("bent_clips_into_rafters", "hold_down[back].steel=20 ga"),
]
PRINTED = {  # symbols that the notation has, each for another that it has
    "P": "P_line", "w_roof": "w_snow", "RB": "r_column", "FbE": "FcE", "K_cr": "K_e",
    "T_cap": "T_listed", "CD_listed": "CD", "M": "M_load", "V": "V_full",
}  # fmt: skip


@contextmanager
def symbols(renamed):
    """Every step under another symbol, wherever it is made."""

    class Renaming(type):
        def __instancecheck__(cls, value):
            return isinstance(value, Step)

        def __call__(cls, symbol, *rest, **more):
            made.append(renamed(symbol))
            return Step(made[-1], *rest, **more)

    class Renamed(metaclass=Renaming):
        pass

    made = []
    with pytest.MonkeyPatch.context() as patch:
        for name in [name for name in sys.modules if name.startswith("outrigger.")]:
            if vars(sys.modules[name]).get("Step") is Step:
                patch.setattr(sys.modules[name], "Step", Renamed)
        yield made


def named():
    """Every kind and link that a module of the program holds."""
    found = {}
    for name in [name for name in sys.modules if name.startswith("outrigger.")]:
        for value in vars(sys.modules[name]).values():
            if isinstance(value, Link):
                found[id(value)], found[id(value.kind)] = value, value.kind
            elif isinstance(value, Kind):
                found[id(value)] = value
    return found.values()


@contextmanager
def words():
    """Every kind and link under another id and other words."""
    kept = []
    for one in named():
        for field in ("id", "name", "more", "together", "weakest"):
            if text := getattr(one, field, ""):
                kept.append((one, field, text))
                force_setattr(one, field, f"other {text[::-1]}")
    assert len(kept) > 50
    try:
        yield
    finally:
        for one, field, text in kept:
            force_setattr(one, field, text)


def told(name, *settings):
    """The verdict, which check decides, and the numbers of every check."""
    result = design(read_case(EXAMPLES / f"{name}.toml", settings)[0])
    rows = result.rows
    numbers = [(r.status, r.demand, r.capacity, r.ratio, r.combination, r.why) for r in rows]
    deciding = next(i for i, row in enumerate(rows) if row.check is result.closest.check)
    return result.verdict, deciding, numbers


@pytest.mark.parametrize(("name", "setting"), [*FAILING, *((file, None) for file in FILES)])
def test_no_answer_hangs_on_a_symbol_an_id_or_a_word(name, setting):
    settings = [] if setting is None else [setting]
    plain = told(name, *settings)
    assert setting is None or plain[0] == "fail"
    with symbols(lambda symbol: f"x_{symbol}") as made:
        assert told(name, *settings) == plain
    assert len(made) > 100
    assert all(symbol.startswith("x_") for symbol in made)
    with words():
        assert told(name, *settings) == plain


COMMANDS = [
    ("size",), ("check", "--steps"), ("check", "--json"), ("gap", "--json"),
    ("reserve", "--mishaps"), ("compare", "gap=5in"),
]  # fmt: skip


@pytest.mark.parametrize(("words_of", "failing"), in_turn(COMMANDS, FAILING))
def test_every_command_prints_the_same_numbers_of_renamed_checks(run, words_of, failing):
    (command, *more), (name, setting) = words_of, failing
    asked = (command, EXAMPLES / f"{name}.toml", setting, *more)
    plain = run(*asked, width=300)  # wide, so that longer words fold no line
    with words():
        other = run(*asked, width=300)
    assert other.returncode == plain.returncode
    assert re.findall(r"[\d.,]*\d", other.stdout) == re.findall(r"[\d.,]*\d", plain.stdout)


@pytest.mark.parametrize(("name", "setting"), FAILING)
def test_the_table_of_checks_stands_under_other_symbols(run, name, setting):
    """Up to the arithmetic, which prints the symbols, nothing changes; the arithmetic prints."""
    asked = ("check", EXAMPLES / f"{name}.toml", setting, "--steps")
    plain = run(*asked)
    with symbols(lambda symbol: PRINTED.get(symbol, symbol)):
        other = run(*asked)
    head = "Loads on one outrigger, unfactored"
    assert (other.returncode, other.stderr) == (plain.returncode, plain.stderr)
    assert other.stdout.partition(head)[0] == plain.stdout.partition(head)[0]
    assert other.stdout.count("\n") > 200


def test_a_link_of_a_hold_down_must_say_what_it_is_as_the_weakest():
    kind = Kind("hold_down", "pull-out", chained=True)
    with pytest.raises(TypeError, match="words for the weakest link are missing"):
        Link(kind, "new part", "", "new part")
    assert Link(kind, "no tie", "no tie there", "uplift", missing=True).weakest == ""
