"""Case files whose numbers are worked by hand in the tests, and their designs."""

from sample_case import DATA

from outrigger.cases.read import read_case
from outrigger.verdict.design import design


def case_of(name, *settings):
    """A case of tests/data/cases/by_hand, with settings as on the command line."""
    return read_case(DATA / "by_hand" / f"{name}.toml", settings)[0]


def design_of(name, *settings):
    """Its design."""
    return design(case_of(name, *settings))
