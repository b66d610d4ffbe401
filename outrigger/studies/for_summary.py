"""All that a calculation summary shows beside its design, gathered at once: it is only printed."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from outrigger.actions.design_loads import DesignLoad, stated_loads
from outrigger.cases.read import key_lines, opened, parse
from outrigger.cases.validate import validate
from outrigger.layout.layout import LaidOut, layout
from outrigger.studies.compare import Comparison, compare
from outrigger.studies.curves import Compared, Curves, PartLoad, curves, independent, part_loads
from outrigger.studies.reserve import Reserve, reserve
from outrigger.verdict import near
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, design


@dataclass(frozen=True, eq=False)
class Findings:
    """A design and what its summary shows of it.

    `loads`: as stated, those derived behind them; `parts`: unfactored, on one outrigger; `witness`:
    the beam of the curves solved in exact fractions; `near`: what a small change decides; `laid`:
    the layout, where the case has one; `earlier`: what changed since another case.
    """

    design: Design
    loads: list[DesignLoad]
    parts: list[PartLoad]
    curves: Curves
    witness: list[Compared]
    near: list[tuple[CheckResult, str]]
    reserve: Reserve
    laid: LaidOut | None
    earlier: Comparison | None = None


def findings(result: Design, earlier: Comparison | None = None) -> Findings:
    """A design of one case, studied for its summary."""
    drawn = curves(result)
    return Findings(
        design=result,
        loads=[*stated_loads(result.case), *result.loads.derived],
        parts=part_loads(result),
        curves=drawn,
        witness=independent(result, drawn),
        near=near.of(result),
        reserve=reserve(result.case),
        laid=None if result.case.layout is None else layout(result.case),
        earlier=earlier,
    )


def since(earlier: Path, now: Design, raw: Mapping[str, Any]) -> Comparison:
    """What changed from an earlier case file to a design; raw: the tables of its file.

    Raises:
        InputError: the file cannot be read, or is not a case.
    """
    file = opened(earlier)
    return compare(design(file.case()[0]), now, file.tables(), raw)


def again(text: str, name: str) -> Design:
    """The design of the case file that a summary carries; `name` stands for it in a fault.

    Raises:
        InputError: it is not a case.
    """
    return design(validate(parse(text, name), name, key_lines(text)))
