"""Law: every line of a calculation says where it is from, in a source's words, and how surely."""

import re
from pathlib import Path

import pytest
from sample_case import BUNDLED, DRIFTED, EVERY_OTHER_KEY

from outrigger.base.tables import NAMED, STATUSES, WORDS
from outrigger.cases.read import parse, read_case
from outrigger.cases.validate import validate
from outrigger.formula.formula import Step
from outrigger.verdict import notes
from outrigger.verdict.design import design

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
TEXTS = {"sample": BUNDLED, "drift on the garage": DRIFTED, "many keys": EVERY_OTHER_KEY}
SOURCE = re.compile(
    r"(NDS|ASCE 7|the largest of ASCE 7|AWC TR|IBC Table|APA TT|AISI S|ASTM [A-Z]\d|ASME B|"
    r"Saint-Venant|statics|geometry|listing|listed value|stated|common practice, no source|"
    r"engineering judgement|smaller of the two|sum of the movements|total droop, see above|"
    r"rise under wind, see above)"
)


def steps(result):
    tops = [top for check in result.checks for top in check.steps]
    tops += [top for some in (*result.loads.steps.values(), result.loads.quake) for top in some]
    return [step for top in tops for step in top.chain()]


@pytest.mark.parametrize("case", [*EXAMPLES, *TEXTS], ids=lambda c: getattr(c, "stem", c))
def test_a_step_names_its_source_and_how_surely(case):
    read = validate(parse(TEXTS[case], case), case) if case in TEXTS else read_case(case)[0]
    found = steps(design(read))
    assert len(found) > 100
    for step in found:
        said = f"{step.symbol}: {step.clause!r}, {step.note!r}, {step.status!r}"
        assert step.status in ("", *STATUSES), said
        assert not step.clause or SOURCE.match(step.clause), said


@pytest.mark.parametrize("text", sorted(TEXTS))
def test_what_is_not_seen_in_print_is_named(text):
    """Each value and formula that is recalled or second-hand stands by its symbol in what the
    design rests on; a number handed on under the same symbol once, where it comes from."""
    result = design(validate(parse(TEXTS[text], text), text))
    found = notes.doubtful(result)
    for step in steps(result):
        handed_on = any(
            one.symbol == step.symbol for one in step.inputs.values() if isinstance(one, Step)
        )
        if step.status in NAMED and not handed_on:
            named = (said.split(", ") for said in found[WORDS[step.status]])
            assert any(step.symbol in said for said in named), (step.symbol, step.clause)
