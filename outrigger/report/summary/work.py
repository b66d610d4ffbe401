"""The arithmetic of the summary: loads as they come down, the curves, every check in full.

Each line has a number. A line that stands already is not printed again; its number is said.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from outrigger.actions.geometry import truss_spacing
from outrigger.base import units
from outrigger.base.quantity import length
from outrigger.formula import layout as maths
from outrigger.formula.check import Named
from outrigger.formula.formula import Step, amount
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import FIRST, Element, pick
from outrigger.formula.text import show, unit_text
from outrigger.report import provenance, words
from outrigger.report.draw import section as figures
from outrigger.report.write.document import (
    Block,
    Bold,
    Bullets,
    Calculation,
    Figure,
    Paragraph,
    Runs,
    Section,
    Table,
)
from outrigger.studies.curves import PartLoad
from outrigger.studies.for_summary import Findings
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.notes import share_notes

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

    def checks(self) -> tuple[list[Section], list[Section]]:
        """The arithmetic of the checks that govern, and of the others."""
        rows = self.design.rows
        first = {id(row.check) for row in _governing(rows)}
        now = [row for row in rows if id(row.check) in first]
        later = [row for row in rows if id(row.check) not in first]
        return (
            [
                Section("The checks that govern", [_explained()], 2, "governing"),
                *(self._check(row) for row in now),
            ],
            [
                Section("Appendix", [], 1, "appendix"),
                Section("The other checks", [], 2, "other-checks"),
                *(self._check(row) for row in later),
            ],
        )

    def _check(self, row: CheckResult) -> Section:
        check = row.check
        title = words.subject(row)
        loads = provenance.of_loads(row)
        said = f"{loads + '; ' if loads else ''}{check.clause}; id {check.id}"
        blocks: list[Block] = [Paragraph(words.capital(said) + ".", "small")]
        of = provenance.combination_of(row)
        blocks += self.lines(check.steps, check.element(row.case), of=of)
        blocks.append(Paragraph(_ending(row)))
        return Section(words.capital(title), blocks, 3, self.anchors[id(check)])


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
        tail = f". {_sentence(row.check.why)}" if row.status != "pass" and row.check.why else "."
        return (f"{parts}: ", Bold(used + state), tail)
    if row.status == "pass" or words.quiet(row):
        return (f"{load}: nothing to carry.",)
    state = "FAILS" if row.status == "fail" else "open"
    return (f"{load}: ", Bold(state), f". {_sentence(row.check.why)}")


def _sentence(text: str) -> str:
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
    if unit == "psi" and name == "q":
        return f"{show(units.psf(value))} psf"
    if unit == "lb/in" and name in ("w_along", "w_roof"):
        return f"{show(units.plf(value))} plf"
    if name in ("l_span", "h_wall", "l_overhang"):
        return length(value)
    return ""


def loads(found: Findings, work: Work) -> list[Section]:
    """How the loads come down to one outrigger, and all of them unfactored."""
    design = found.design
    shape, on = design.shape, design.loads
    share = length(pick(on.share))
    geometry: list[Block] = [
        *work.lines([shape.arm_step]),
        Paragraph(f"The outer end lies {length(pick(shape.end))} outside the house edge."),
    ]
    if design.case.garage_roof.bearing:
        geometry.append(Paragraph(_share_text(design, share)))
    sections = [
        Section("Arithmetic", [], 1, "arithmetic"),
        Section("Arm and share", geometry, 2, "geometry"),
        Section(
            "Which loads apply, and why", [Bullets([_sentence(r) for r in on.reasons])], 2, "why"
        ),
    ]
    for part, steps in on.steps.items():
        total = float((on.wall_line | on.on_wall | on.along_wall)[part].ravel()[0])
        if not total:
            continue
        more = design.model.by_axis.steps.get(part, ())
        title = f"{words.load_case(part)} on the wall line: {abs(total):,.1f} lb"
        title += " up" if part == "W_up" else ""
        blocks = work.lines([*steps, *more], again=True)
        sections.append(Section(words.capital(title), blocks, 3, f"load-{part}"))
    return [*sections, _unfactored(design, found.parts)]


def _share_text(design: Design, share: str) -> str:
    spacing, apart = pick(design.shape.plan_spacing), truss_spacing(design.case)
    said = f"Each outrigger takes the roof load of {share} of wall"
    if design.mark is not None:
        return " ".join([f"The worst mark takes the roof load of {share} of wall.",
                         *map(_sentence, share_notes(design))])  # fmt: skip
    if apart == "uniform":
        return f"{said}: its own spacing."
    return (
        f"{said}: members {length(apart)} apart over outriggers {length(spacing)} apart in plan, "
        "plates that span simply, the worst place: spacing of the members times the sum over k of "
        "the larger of 0 and 1 - |k| times their spacing over that of the outriggers."
    )


def _unfactored(design: Design, parts: Sequence[PartLoad]) -> Section:
    """Every part of the load on one outrigger, as the combinations take it."""
    rows: list[tuple[Runs, ...]] = []
    for one in parts:
        if any((one.P, one.w_arm, one.w_back, one.W_end)):
            cells = (one.P, one.w_arm, one.w_back, one.W_end)
            rows.append((words.load_part(one.part), *(_cell(value) for value in cells)))
    weight, tilted = show(pick(design.loads.self_weight)), ""
    if design.shape.tilt.way != "level":
        tilted = "; all square to the sheathing, what is vertical times the cosine of the slope"
    head = ("unfactored", "P, lb", "w arm, lb/in", "w back, lb/in", "W end, lb")
    said = (
        "P on the wall line; w arm on arm and tail, the roof over the gap; w back on the back "
        f"span; W end at the end. Dead includes the member's own {weight} lb/in by its specific "
        f"gravity at 19 % moisture{tilted}. A combination takes factor times amount, "
        "part by part: the lines named P and w below."
    )
    return Section(
        "On one outrigger, unfactored",
        [Table(head, rows, "lrrrr", (2.6, 1.0, 1.0, 1.0, 1.0), "Unfactored loads"),
         Paragraph(said, "small")],
        2,
        "unfactored",
    )  # fmt: skip


def _cell(value: float) -> str:
    return show(value) if value else ""


def curves(found: Findings) -> Section:
    """Diagrams with their values, and the same beam solved another way."""
    design, drawn, rows = found.design, found.curves, found.witness
    strength, service = drawn.strength, drawn.service
    alt = (
        f"Shear: {figures.said_of(drawn.V.marks, 'lb')}. "
        f"Moment: {figures.said_of(drawn.M.marks, 'lb-in')}. "
        f"Droop: {figures.said_of(drawn.droop.marks, 'in')}."
    )
    said = (
        f"Shear and moment under {strength.combination_words} ({strength.combination}), where "
        f"bending at the house edge governs; droop under {service.combination_words} "
        f"({service.combination}), creep included. Hogging is drawn down, as is droop."
    )
    if len(drawn.supports) > 2:
        said += " The row of hold-downs is drawn as it shares on rigid supports."
    if design.shape.tilt.way != "level":
        said += " What acts square to the sheathing."
    off = max(row.off for row in rows)
    listed = ", ".join(f"{_named(row.what)} {words.amount(row.exact, row.unit)}" for row in rows)
    check = (
        f"Independent check: the same beam solved in exact fractions by sympy gives {listed}. "
        f"The largest difference is {off:.0e} of the value."
    )
    return Section(
        "Shear, moment and droop",
        [Figure(figures.diagrams(drawn), alt, said), Paragraph(check)],
        2,
        "curves",
    )


def _named(what: str) -> str:
    return f"{words.place(what)} reaction" if " in" not in what and "at the" not in what else what


def evidence(design: Design) -> Section:
    """Each listed hold-down in one row: value, column read, what it is listed for, where."""
    rows: list[tuple[Runs, ...]] = []
    for hold in design.case.hold_down:
        place = words.place(hold.name)
        if hold.rated_uplift is None and (hold.side_fastener or hold.deck_fastener):
            said = "no listing: built of fasteners, see its links"
            rows.append((place, f"{hold.count}", *("",) * 5, said))
            continue
        listed = "" if hold.rated_uplift is None else words.amount(hold.rated_uplift, "lb")
        side = "" if hold.rated_lateral is None else words.amount(hold.rated_lateral, "lb")
        rows.append(
            (
                place,
                f"{hold.count}",
                (Bold(listed),),
                (Bold(side),),
                hold.rated_for or "not given",
                hold.rated_wood or "not given",
                hold.rated_into,
                words.printable(hold.rated_source) or "not given",
            )
        )
    head = ("where", "clips", "uplift, each", "side, each", "column read", "wood listed",
            "listed into", "report, schedule, page")  # fmt: skip
    blocks: list[Block] = [Paragraph("No hold-down is given.")]
    if rows:
        widths = (0.8, 0.45, 0.75, 0.7, 0.8, 1.1, 0.9, 1.6)
        blocks = [Table(head, rows, "lrrrllll", widths, "Evidence of the listed hold-downs")]
        blocks.append(
            Paragraph(
                "A listed value is lowered to the duration of the load that it holds, by CD over "
                "the CD of the column read, and never raised.", "small")
        )  # fmt: skip
    return Section("Evidence of the hold-downs", blocks, 2, "evidence")
