"""The arithmetic of the summary: loads as they come down, the curves, every check in full.

Each line has a number. A line that stands already is not printed again; its number is said.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from outrigger.base import units
from outrigger.base.quantity import length
from outrigger.formula import layout as maths
from outrigger.formula.check import Named
from outrigger.formula.formula import Step, amount
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import FIRST, Element, pick
from outrigger.formula.text import show, unit_text
from outrigger.report import provenance, words
from outrigger.report.write.document import (
    Block,
    Bold,
    Calculation,
    Chapter,
    Paragraph,
    Runs,
)
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design

MOST_ONCE = 0.5  # a check under this ratio stands in the appendix


class Work:
    """Numbers the lines of a document, and remembers which stand already."""

    def __init__(self, design: Design) -> None:
        self.design = design
        self.labels: dict[tuple[str, str], int] = {}
        self.count = 0
        self.symbols: dict[str, None] = {}
        self.anchors = {id(row.check): f"check-{i}" for i, row in enumerate(design.rows, 1)}

    def lines(
        self,
        tops: Sequence[Step],
        element: Element = FIRST,
        again: bool = False,
        of: Named | None = None,
    ) -> list[Block]:
        """The steps that led to some, each once in the whole document; `again`: `tops` anyway;
        `of`: the combination of the element."""
        chain = {id(step): step for top in tops for step in top.chain()}
        last = {id(top) for top in tops} if again else set[int]()
        blocks: list[Block] = []
        above: dict[str, None] = {}
        before = self.count
        for key, step in chain.items():
            line = maths.line(step, element)
            said = _said(step, element, of)
            self._note(step)
            label = self.labels.get((line.text, said))
            if label is not None and key not in last:
                if label <= before:
                    above[f"{_short(step, element)} ({label})"] = None
                continue
            self.count = label = self.count + 1
            self.labels[line.text, said] = label
            blocks.append(Calculation(str(label), line, said))
        needed = list(above)
        if needed and blocks:
            return [Paragraph(f"From above: {'; '.join(needed)}.", "small"), *blocks]
        return [Paragraph(f"As above: {'; '.join(needed)}.", "small")] if needed else blocks

    def _note(self, step: Step) -> None:
        self.symbols[step.symbol] = None
        if step.formula is not None:  # else its inputs only say which lines come before
            self.symbols |= dict.fromkeys(step.inputs)

    def checks(self) -> tuple[list[Chapter], list[Chapter]]:
        """The arithmetic of the checks that govern, and of the others."""
        rows = self.design.rows
        first = {id(row.check) for row in _governing(rows)}
        now = [row for row in rows if id(row.check) in first]
        later = [row for row in rows if id(row.check) not in first]
        return (
            [
                Chapter("The checks that govern", [_explained()], 2, "governing"),
                *(self._check(row) for row in now),
            ],
            [
                Chapter("Appendix", [], 1, "appendix"),
                Chapter("The other checks", [], 2, "other-checks"),
                *(self._check(row) for row in later),
            ],
        )

    def _check(self, row: CheckResult) -> Chapter:
        check = row.check
        title = words.subject(row)
        loads = provenance.of_loads(row)
        said = f"{loads + '; ' if loads else ''}{check.clause}; id {check.id}"
        blocks: list[Block] = [Paragraph(words.capital(said) + ".", "small")]
        of = provenance.combination_of(row)
        blocks += self.lines(check.steps, check.element(row.case), of=of)
        blocks.append(Paragraph(_ending(row)))
        return Chapter(words.capital(title), blocks, 3, self.anchors[id(check)])


def _explained() -> Paragraph:
    return Paragraph(
        "Of each kind of check the one with the largest ratio. Each line: symbols, numbers put in, "
        "value; then its clause or where it comes from. A number in parentheses is the line that "
        "it stands in. Numbers print to five digits and are carried in full.",
        "small",
    )


def _governing(rows: Sequence[CheckResult]) -> list[CheckResult]:
    """Every row that does not pass, and of each id the largest ratio that is not small."""
    kept: dict[str, CheckResult] = {}
    for row in rows:
        other = kept.get(row.check.id)
        if row.ratio is not None and (other is None or row.ratio > (other.ratio or 0.0)):
            kept[row.check.id] = row
    largest = max((row.ratio or 0.0) for row in rows)
    least = min(MOST_ONCE, largest)
    return [
        *(row for row in rows if row.status != "pass"),
        *(row for row in kept.values() if row.status == "pass" and (row.ratio or 0.0) >= least),
    ]


def _short(step: Step, element: Element) -> str:
    value = f"{show(pick(step.value, element))} {unit_text(step.unit)}".rstrip()
    return f"{symbol(step.symbol).text} = {value}"


def _ending(row: CheckResult) -> Runs:
    load = words.amount(row.demand, row.check.unit)
    parts = f"{load} of {words.limit(row)}"
    if row.ratio is not None and not words.quiet(row):
        used = f"used {words.ratio(row.ratio)}"
        state = {"pass": "", "fail": ": FAILS", "open": ": open"}[row.status]
        tail = f". {sentence(row.check.why)}" if row.status != "pass" and row.check.why else "."
        return (f"{parts}: ", Bold(used + state), tail)
    if row.status == "pass" or words.quiet(row):
        return (f"{load}: nothing to carry.",)
    state = "FAILS" if row.status == "fail" else "open"
    return (f"{load}: ", Bold(state), f". {sentence(row.check.why)}")


def sentence(text: str) -> str:
    """A text as a sentence; empty where there is none."""
    return f"{words.capital(text)}." if text else ""


def _said(step: Step, element: Element, of: Named | None) -> str:
    """Clause, note, status, which loads a sum is of, and the stated inputs in trade units."""
    parts = ", ".join(words.load_part(part) for part, _, _ in step.summed(element))
    put_in = ", ".join(_stated(step, element))
    return "; ".join(text for text in (*provenance.cited(step, of), parts, put_in) if text)


def _stated(step: Step, element: Element) -> Iterator[str]:
    """Inputs that no line gives, in the units that the file writes."""
    for name, value in step.inputs.items() if step.formula is not None else ():
        if isinstance(value, Step) or np.all(np.asarray(amount(value)) == 0):
            continue
        number, sign = pick(value, element), symbol(name)
        said = _trade(name, number, sign.unit)
        if said:
            yield f"{sign.text} {said}"


def _trade(name: str, value: float, unit: str) -> str:
    """A stated input as the trade writes it; empty where the line says it already."""
    if unit == "psi" and name in ("q", "q_overhang"):
        return f"{show(units.psf(value))} psf"
    if unit == "lb/in" and name in ("w_along", "w_roof"):
        return f"{show(units.plf(value))} plf"
    if name in ("l_span", "h_wall", "l_overhang"):
        return length(value)
    return ""
