"""Several grades in one batch, each case with its own design values, are those grades alone."""

from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace
from thorough import THOROUGH

from outrigger.base.errors import OutriggerError
from outrigger.cases.batch import Grades, batch_of
from outrigger.cases.paths import with_values
from outrigger.cases.read import read_case
from outrigger.cli.common import SAMPLE_FILE
from outrigger.verdict.design import designs_of
from outrigger.wood import lumber, reference

EXAMPLES = Path(__file__).parents[2] / "examples"
GAPS = np.array([5.0, 8.0])


def cases():
    """Every case of dimension lumber, by the name of its file and what is changed in it."""
    for path in (SAMPLE_FILE, *sorted(EXAMPLES.rglob("*.toml"))):
        try:
            case = read_case(path)[0]
        except OutriggerError:
            continue
        if fitting(case)[0].kind != "timber":
            yield path.stem, case
    wet = {"outrigger.moisture": "wet"}
    yield "wet", with_values(read_case(SAMPLE_FILE)[0], wet)  # CM of some grades alone is 1
    dense = {"outrigger.species": "Southern Pine", "outrigger.grade": "No. 2"}
    yield "dense", with_values(read_case(SAMPLE_FILE)[0], dense)  # grades that differ in G
    rated = {"outrigger.grade": "1650f-1.5E"}
    yield "rated", with_values(read_case(SAMPLE_FILE)[0], rated)


def fitting(case):
    """The grades of its species and kind that its size comes in."""
    piece = case.outrigger
    own = lumber.wood(piece.species, piece.grade, piece.size)
    rows = reference.grades(own.row.species)
    return [row for row in rows if row.kind == own.row.kind and reference.fits(row, own.size)]


CASES = dict(cases())
DEFAULT = (
    "sample", "wet", "dense", "rated", "row_of_clips", "laid_flat", "marks_on_the_plate",
    "two_plies", "wet_and_incised",
)  # fmt: skip


@pytest.mark.parametrize("name", CASES if THOROUGH else DEFAULT)
def test_grades_together_are_each_alone(name):
    """Every ratio and answer to the last bit, at two gaps, at the worst mark of a layout: the plain
    way is a batch of one grade. A row that only another grade needs demands nothing."""
    case = CASES[name]
    names = tuple(row.grade for row in fitting(case))
    which = np.repeat(np.arange(len(names)), len(GAPS))
    swept = batch_of(case, {"gap.width": np.tile(GAPS, len(names))})
    together = designs_of(replace(swept, grades=Grades(names, which)))
    assert len(names) > 1
    for i, grade in enumerate(names):
        alone = designs_of(
            batch_of(with_values(case, {"outrigger.grade": grade}), {"gap.width": GAPS})
        )
        rows = np.flatnonzero(which == i)
        own = dict(zip(keys(alone), alone.ratios, strict=True))
        for key, ratios in zip(keys(together), together.ratios[:, rows], strict=True):
            assert np.array_equal(ratios, own.pop(key, np.zeros(len(GAPS))), equal_nan=True), key
        assert not own
        assert np.array_equal(together.works[rows], alone.works)
        assert np.array_equal(together.largest[rows], alone.largest)
        assert together.batch.at(int(rows[0])).outrigger.grade == grade


def keys(found):
    """What each check is of."""
    return [(check.link, check.place) for check in found.checks]
