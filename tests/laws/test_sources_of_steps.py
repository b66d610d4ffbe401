"""Law: every line of a calculation says where it is from, in a source's words, and how surely."""

import re
from pathlib import Path

import pytest
from sample_case import BUNDLED, DRIFTED, EVERY_OTHER_KEY

from outrigger.base.tables import STATUSES
from outrigger.cases.read import parse, read_case
from outrigger.cases.validate import validate
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
