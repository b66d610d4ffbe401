"""Case files whose numbers are worked by hand in the tests, and their designs."""

from outrigger.cases.read import read_case
from outrigger.proof.read import DATA
from outrigger.verdict.design import design


def case_of(name, *settings):
    """A case of the proof, with settings as on the command line."""
    return read_case(DATA / "cases" / f"{name}.toml", settings)[0]


def design_of(name, *settings):
    """Its design."""
    return design(case_of(name, *settings))
