"""The arithmetic of the summary: loads as they come down, the curves, every check in full.

Each line has a number. A line that stands already is not printed again; its number is said.
"""

from collections.abc import Iterator, Mapping, Sequence

import numpy as np
from msgspec.structs import replace

from outrigger.base import units
from outrigger.base.quantity import length
from outrigger.checks.tie_actions import WALL_TIE
from outrigger.formula import layout as maths
from outrigger.formula.check import Named
from outrigger.formula.formula import Step, amount
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import FIRST, Element, pick
from outrigger.formula.text import show, unit_text
from outrigger.report import provenance, words
from outrigger.report.summary import repeated, tabled
from outrigger.report.summary.repeated import Item
from outrigger.report.write.document import (
    Block,
    Bold,
    Calculation,
    Chapter,
    Paragraph,
    Runs,
)
from outrigger.studies.sums import Sums
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design

LEAST = 0.5  # a kind of check under this ratio stands in the table alone
MAIN = ("bending", "biaxial", "shear", "edge_bearing", "live_deflection", "total_deflection")
LEAST_MAIN = 0.1  # of these, and of clips and ties, which hold the wall down
LEAST_OTHER = 0.75  # and one that does not govern its kind under this one


class Work:
    """Numbers the lines of a document, and remembers which stand already, and which symbols."""

    def __init__(self, design: Design) -> None:
        self.design, self.sums = design, Sums(design)
        self.labels: dict[tuple[str, str], int] = {}
        self.count = 0
        self.told = set[str]()
        self.formulas: dict[tuple[str, str], int] = {}
        self.first = _governing(design.rows)
        chosen = {id(row.check) for row in self.first}
        self.later = [
            row
            for row in design.rows
            if id(row.check) not in chosen and row.demand and (row.ratio or 0.0) >= LEAST_OTHER
        ]
        printed = [*self.first, *self.later]
        self.anchors = {id(row.check): f"check-{i}" for i, row in enumerate(printed, 1)}

    def lines(
        self,
        tops: Sequence[Step],
        element: Element = FIRST,
        of: Named | None = None,
        names: Mapping[int, str] | None = None,
    ) -> list[Block]:
        """The steps that led to some, each once in the whole document.

        `of`: the combination of the element; `names`: what a step is of, by its id, for the tables
        of formulas that stand at several places. Factors that are 1 stand in one line.
        """
        chain = {id(step): step for top in tops for step in top.chain()}
        last, before = {id(top) for top in tops}, self.count
        made = {key: self._item(step, element, of) for key, step in chain.items()}
        items: dict[repeated.Key, Item] = {}
        named: dict[repeated.Key, str] = {}
        above: dict[str, None] = {}

        def said_above(one: Item) -> None:
            if (label := self.labels.get(one.key, before + 1)) <= before:
                above[f"{_short(one.step, element)} ({label})"] = None

        for key, one in made.items():
            named.setdefault(one.key, (names or {}).get(key, ""))
            if one.key in self.labels:
                if key in last:
                    said_above(one)
                continue
            given = {
                name: made[id(other)]
                for name, other in one.step.inputs.items()
                if isinstance(other, Step)
            }
            taken = {name: other.key for name, other in given.items()}
            items.setdefault(one.key, replace(one, inputs=taken))
            for other in given.values() if one.step.formula is not None else ():
                said_above(other)
        blocks: list[Block] = []
        alone: list[Item] = []
        for unit in repeated.units([*items.values()]):
            if isinstance(unit, repeated.Rows):
                blocks += self._together(alone, element)
                blocks += tabled.table(self, unit, element, named)
                continue
            step = unit.step
            if alone and not _alike(alone[-1], unit, element):
                blocks += self._together(alone, element)
            if unit.read:
                alone.append(unit)
                self.labels[unit.key] = self.count + 1
                continue
            blocks += self._together(alone, element)
            self.count = self.labels[unit.key] = self.count + 1
            line, like = self._once(step, unit.line, self.count)
            told = "; ".join(text for text in (like, *self.meanings(step), unit.said) if text)
            blocks.append(Calculation(str(self.count), line, told))
        blocks += self._together(alone, element)
        needed = "; ".join(above)
        if needed and blocks:
            return [Paragraph(f"From above: {needed}.", "small"), *blocks]
        return [Paragraph(f"As above: {needed}.", "small")] if needed else blocks

    def _item(self, step: Step, element: Element, of: Named | None) -> Item:
        """A step as a line, with what is said of it."""
        what, terms = self.sums.of(step, element, of)
        line, said = maths.line(step, element, terms), _said(step, element, of)
        if terms:
            said = "; ".join(filter(None, (said, _column(what))))
        read = step.formula is None and len(line.parts) == 2
        return Item((line.text, said), step, line, said, read)

    def _together(self, read: list[Item], element: Element) -> list[Block]:
        """Values that are read and stand side by side, in one line: factors that are 1, or of one
        clause; they are then forgotten."""
        if not read:
            return []
        self.count += 1
        if len(read) == 1:
            line = read[0].line
        elif _is_one(read[0].step, element):
            line = maths.all_one(dict.fromkeys(one.step.symbol for one in read))
        else:
            line = maths.side_by_side([one.line for one in read])
        told: dict[str, None] = {}
        for one in read:
            told |= dict.fromkeys((*self.meanings(one.step), *one.said.split("; ")))
        read.clear()
        return [Calculation(str(self.count), line, "; ".join(filter(None, told)))]

    def _once(self, step: Step, line: maths.Line, label: int) -> tuple[maths.Line, str]:
        """A line without its symbols where the same formula stands above, and where that is."""
        if step.formula is None or len(line.parts) < 4:  # symbol, symbols, numbers, value
            return line, ""
        texts = line.text.split(" = ")
        if len(texts) != len(line.parts):
            return line, ""
        first = self.formulas.setdefault((texts[0], texts[1]), label)
        if first == label:
            return line, ""
        return (
            maths.Line((line.parts[0], *line.parts[2:]), " = ".join([texts[0], *texts[2:]])),
            f"as ({first})",
        )

    def meanings(self, step: Step) -> Iterator[str]:
        """What the symbols of a line are, where they stand for the first time."""
        if step.symbol not in self.told:
            self.told.add(step.symbol)
            yield symbol(step.symbol).meaning
        for name, value in step.inputs.items() if step.formula is not None else ():
            if name not in self.told and not isinstance(value, Step):
                self.told.add(name)
                yield f"{symbol(name).text} {symbol(name).meaning}"

    def checks(self) -> tuple[list[Chapter], list[Chapter]]:
        """The arithmetic of the checks that govern, and of the others."""
        return (
            [
                Chapter("The checks that govern", [_explained()], 2, "governing", columns=2),
                *(self._check(row) for row in self.first),
            ],
            [
                *(self._check(row) for row in self.later),
                Chapter("", [_left_out()], 3, "left-out", columns=2),
            ],
        )

    def _check(self, row: CheckResult) -> Chapter:
        check = row.check
        title = words.subject(row)
        loads = provenance.of_loads(row, in_words=False)
        said = f"{loads + '; ' if loads else ''}{check.clause}; id {check.id}"
        blocks: list[Block] = [Paragraph((*_ending(row), f" {words.capital(said)}."), "small")]
        of = provenance.combination_of(row)
        blocks += self.lines(row.steps, check.element(row.case), of=of)
        return Chapter(words.capital(title), blocks, 3, self.anchors[id(check)], columns=2)


def _column(what: str) -> str:
    """What the terms of a sum are: a column of the table of what is on one outrigger, or else."""
    name, more, rest = what.partition(" ")
    return f"sum of {words.place(name)}{more}{rest}"


def _is_one(step: Step, element: Element) -> bool:
    """Whether a line is a factor that changes nothing."""
    return step.formula is None and not step.unit and float(pick(step.value, element)) == 1.0


def _alike(one: Item, other: Item, element: Element) -> bool:
    """Whether two values that are read stand in one line."""
    if not other.read:
        return False
    ones = [_is_one(each.step, element) for each in (one, other)]
    clause = one.step.clause
    return all(ones) or (not any(ones) and bool(clause) and clause == other.step.clause)


def _left_out() -> Paragraph:
    return Paragraph(
        f"Other checks used {LEAST_OTHER:.2f} or more stand here too; the rest prints with "
        "outrigger check --steps.",
        "small",
    )


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
    least = min(LEAST, largest)

    def is_shown(row: CheckResult) -> bool:
        kind = row.check.kind
        main = kind.chained or kind == WALL_TIE or kind.id in MAIN
        return row.status == "pass" and (row.ratio or 0.0) >= (LEAST_MAIN if main else least)

    return [*(row for row in rows if row.status != "pass"), *filter(is_shown, kept.values())]


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
