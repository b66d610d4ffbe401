"""All that a calculation summary shows beside its design, gathered at once: it is only printed."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from msgspec import Struct

from outrigger.actions.design_loads import DesignLoad, stated_loads
from outrigger.cases.read import key_lines, opened, parse
from outrigger.cases.revised import following, refuse_same
from outrigger.cases.validate import validate
from outrigger.formula.formula import Step
from outrigger.layout.layout import LaidOut, layout
from outrigger.studies.compare import Comparison, compare
from outrigger.studies.curves import Compared, Curves, curves, independent
from outrigger.studies.part_loads import PartLoad, Share, drifted, held, part_loads, shares
from outrigger.studies.reserve import Reserve, reserve
from outrigger.verdict import near
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, design


class Findings(Struct, frozen=True, eq=False):
    """A design and what its summary shows of it.

    `loads`: as stated, those derived behind them; `parts`: unfactored, on one outrigger; `drifted`:
    how those with a drift on the house roof add up; `shares`: what each support of a row takes;
    `witness`: the beam of the curves solved in exact fractions; `near`: what a small change
    decides; `laid`: the layout, where the case has one; `earlier`: what changed since another case.
    """

    design: Design
    loads: list[DesignLoad]
    parts: list[PartLoad]
    drifted: dict[str, list[Step]]
    shares: list[Share]
    curves: Curves
    witness: list[Compared]
    near: list[tuple[CheckResult, str]]
    reserve: Reserve
    laid: LaidOut | None
    earlier: Comparison | None = None


def findings(result: Design, earlier: Comparison | None = None) -> Findings:
    """A design of one case, studied for its summary."""
    drawn, parts, row = curves(result), part_loads(result), shares(result)
    held(result, parts, row)
    return Findings(
        design=result,
        loads=[*stated_loads(result.case), *result.loads.derived],
        parts=parts,
        drifted=drifted(result),
        shares=row,
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
        InputError: the file cannot be read, or is not a case; another case of the same revision.
    """
    file = opened(earlier)
    before = file.case()[0]
    refuse_same(before, now.case)
    return compare(design(before), now, file.tables(), raw)


def replaced(text: str, name: str, now: Design) -> str:
    """What to say of a summary, by the case in it, that another of the same revision replaces."""
    before, case = validate(parse(text, name), name, key_lines(text)), now.case
    same = before.project.revision == case.project.revision
    if before.digest == case.digest or not same or before.project.name != case.project.name:
        return ""
    was, at = case.project.revision, following(case.project.revision)
    return (
        f"{name} was revision {was} too, of another case. If that one was handed out, this is "
        f'revision {at}: set project.revision = "{at}" and write it again.'
    )


def again(text: str, name: str) -> Design:
    """The design of the case file that a summary carries; `name` stands for it in a fault.

    Raises:
        InputError: it is not a case.
    """
    return design(validate(parse(text, name), name, key_lines(text)))
