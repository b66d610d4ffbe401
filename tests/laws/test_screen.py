"""Searches that ask by few load combinations first find what those by every one do, to the bit."""

from itertools import product
from pathlib import Path

import numpy as np
import pytest
from thorough import THOROUGH

from outrigger.base.errors import OutriggerError
from outrigger.cases.read import read_case
from outrigger.cli.common import SAMPLE_FILE
from outrigger.report.data.gap import as_rows as gap_rows
from outrigger.report.data.sweeps import check_of, reserve_rows, size_rows
from outrigger.studies import gaps
from outrigger.studies.card import Card, card
from outrigger.studies.gap_cases import fields_of
from outrigger.studies.gap_study import GapStudy
from outrigger.studies.gap_turns import by_gap
from outrigger.studies.reserve import Sweep, quantities, reserve
from outrigger.studies.screen import Screen, governing
from outrigger.studies.search import Few
from outrigger.studies.sizes import Sizes, sizes
from outrigger.verdict.design import design

EXAMPLES = Path(__file__).parents[2] / "examples"
FILES = [SAMPLE_FILE, *sorted(EXAMPLES.rglob("*.toml"))]
WAYS = {
    "gap": lambda case: gaps.study(case, gaps.gaps(2.0, 12.0, 2.0)),
    "cut": lambda case: gaps.study(case, gaps.gaps(4.0, 9.0, 1.0), cut=True),
    "reserve": reserve,
    "size": sizes,
    "card": lambda case: card(case, spacings=(12.0, 24.0), snows=(20.0, 50.0), spans=(12.0, 28.0)),
    "back spans": lambda case: card(
        case, "back span", spacings=(16.0,), snows=(30.0, 70.0), spans=(24.0,)
    ),
}


def cases():
    """Every case that can be read alone, by the name of its file."""
    for path in FILES:
        try:
            yield path.stem, read_case(path)[0]
        except OutriggerError:
            continue


CASES = dict(cases())
PAIRS = [  # of every case by every way, which is what is compared when thorough
    ("sample", "gap"), ("row_of_clips", "cut"), ("clip_listed_for_wind", "reserve"),
    ("slope_down_the_eave", "card"), ("uplift_without_edge_tie", "back spans"),
    ("marks_on_the_plate", "size"), ("passes", "size"), ("rake_with_blocks_on_the_deck", "card"),
]  # fmt: skip


def said(found):
    """What a study says, every number of it in full."""
    match found:
        case GapStudy():
            ends = (found.largest, found.least, found.sure, found.more, check_of(found.beyond))
            return gap_rows(found), [(one.start, one.end) for one in found.stretches], ends
        case Sizes():
            failed = [(one.size, one.grades, check_of(one.row)) for one in found.rejected]
            return size_rows(found, "job.toml", []), failed, found.tried
        case Card():
            return [
                (one.low, one.high, one.open, one.to_the_end, check_of(one.stops))
                for one in found.cells
            ]
    return reserve_rows(found), [side.turn for side in found.sides]


@pytest.mark.parametrize("name", CASES)
def test_few_refuse_nothing_that_all_pass(name):
    """Each number of a case far and near, by the combinations that govern the case as it stands:
    no ratio is over that of all, of the outrigger that is checked; and a no is a no, of that or
    of the first one inside. Rows: four looks at every number, up and down."""
    case = CASES[name]
    sweep = Sweep(case, quantities(case))
    screen = Screen(governing(design(case).worked), sweep.marks)
    few = screen.look.only
    low, now, high = np.array([(one.low, one.now, one.high) for one in sweep.quantities]).T
    looks = [now + part * (end - now) for end in (low, high) for part in (0.02, 0.1, 0.4, 1.0)]
    which, values = np.tile(np.arange(len(now)), len(looks)), np.concatenate(looks)
    held, ratios = screen.every(which, values)
    for inside, mark in ((False, None), (True, None), (False, 1), (False, 3)):
        screen.look = Few(few, inside, mark)  # of a layout one mark alone
        some, most = screen.few(which, values)
        assert np.all(some | ~held), "refused by few, passed by all"
        assert inside or np.all(most <= ratios)


@pytest.mark.parametrize(("name", "way"), list(product(CASES, WAYS)) if THOROUGH else PAIRS)
def test_the_answers_are_those_of_every_combination(name, way, monkeypatch):
    try:
        found = said(WAYS[way](CASES[name]))
    except OutriggerError as error:
        pytest.skip(f"not for this case: {error}")
    monkeypatch.setattr(Screen, "few", Screen.every)
    assert found == said(WAYS[way](CASES[name]))


def test_what_refuses_and_was_not_asked_by_is_asked_by_then():
    """A search that begins with one combination alone ends where that of all ends."""
    case = CASES[SAMPLE_FILE.stem]
    fields = fields_of(case, None, cut=False)
    found = []
    for only in (None, 1):
        screen = by_gap(case, governing(design(case).worked), fields)
        if only:
            screen.look = Few(frozenset(list(screen.look.only)[:only]), inside=True)
        found.append(screen.turns(np.array([1.0]), np.array([24.0])))
    assert found[0] == found[1]
