"""What a study keeps of a design: which check it is, its row without the arrays, largest ratios."""

import numpy as np
from msgspec.structs import replace

from outrigger.formula.kind import Group, Link
from outrigger.formula.numbers import Array
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Designs

Key = tuple[Link, str]  # what is checked, and where


def key_of(row: CheckResult) -> Key:
    """What names a check among the checks of a design."""
    return row.check.link, row.check.place


def slim(row: CheckResult) -> CheckResult:
    """A row without the arrays and steps of its design, which it would keep alive."""
    check = row.check
    own = check.combinations[row.column : row.column + 1]
    light = replace(
        check, demand=row.demand, capacity=row.capacity,
        combinations=own, steps=tuple(replace(s, value=0.0, inputs={}) for s in check.steps),
    )  # fmt: skip
    return replace(row, check=light, case=0, column=0)


def largest_of_each(result: Designs) -> dict[Group, Array]:
    """The largest ratio of each group, (cases,) or (1,); NaN where none of its checks has one."""
    found = dict[Group, Array]()
    for check, ratios in zip(result.checks, result.ratios, strict=True):
        finite = np.where(np.isfinite(ratios), ratios, np.nan)
        found[check.group] = np.fmax(found.get(check.group, finite), finite)
    return found


def known(number: float) -> float | None:
    """A number; None for NaN."""
    return None if np.isnan(number) else number
