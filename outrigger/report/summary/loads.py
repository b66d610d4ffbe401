"""How the loads come down to one outrigger, step by step, and all of them unfactored."""

from collections.abc import Sequence

from outrigger.actions.geometry import truss_spacing
from outrigger.base.quantity import length
from outrigger.formula.numbers import pick
from outrigger.formula.text import show
from outrigger.report import words
from outrigger.report.summary.work import Work, sentence
from outrigger.report.write.document import (
    Block,
    Chapter,
    Paragraph,
    Runs,
    Table,
)
from outrigger.studies.curves import PartLoad
from outrigger.studies.for_summary import Findings
from outrigger.verdict.design import Design
from outrigger.verdict.notes import share_notes


def loads(found: Findings, work: Work) -> list[Chapter]:
    """How the loads come down to one outrigger, and all of them unfactored."""
    design = found.design
    shape, on = design.shape, design.loads
    share = length(pick(on.share))
    geometry: list[Block] = [
        *work.lines([shape.arm_step]),
        Paragraph(f"The outer end lies {length(pick(shape.end))} outside the house wall."),
    ]
    if design.case.garage_roof.bearing:
        geometry.append(Paragraph(_share_text(design, share)))
    sections = [
        Chapter("Arithmetic", [], 2, "arithmetic", columns=2),
        Chapter("Arm and share", geometry, 2, "geometry", columns=2),
    ]
    for part, steps in on.steps.items():
        total = float((on.wall_line | on.on_wall | on.along_wall)[part].ravel()[0])
        if not total:
            continue
        more = design.model.by_axis.steps.get(part, ())
        title = f"{words.load_case(part)} on the garage wall: {abs(total):,.1f} lb"
        title += " up" if part == "W_up" else ""
        blocks = work.lines([*steps, *more], again=True)
        sections.append(Chapter(words.capital(title), blocks, 3, f"load-{part}", columns=2))
    return sections


def _share_text(design: Design, share: str) -> str:
    spacing, apart = pick(design.shape.plan_spacing), truss_spacing(design.case)
    said = f"Each outrigger takes the roof load of {share} of wall"
    if design.mark is not None:
        return " ".join([f"The worst mark takes the roof load of {share} of wall.",
                         *map(sentence, share_notes(design))])  # fmt: skip
    if apart == "uniform":
        return f"{said}: its own spacing."
    return (
        f"{said}: members {length(apart)} apart over outriggers {length(spacing)} apart in plan, "
        "plates that span simply, the worst place: spacing of the members times the sum over k of "
        "the larger of 0 and 1 - |k| times their spacing over that of the outriggers."
    )


def unfactored(design: Design, parts: Sequence[PartLoad]) -> Chapter:
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
        "P on the garage wall; w arm on arm and tail, the roof over the gap; w back on the back "
        f"span; W end at the end. Dead includes the member's own {weight} lb/in by its specific "
        f"gravity at 19 % moisture{tilted}. A combination takes factor times amount, "
        "part by part: the lines named P and w below."
    )
    return Chapter(
        "On one outrigger, unfactored",
        [Table(head, rows, "lrrrr", (2.6, 1.0, 1.0, 1.0, 1.0), "Unfactored loads"),
         Paragraph(said, "small")],
        2,
        "unfactored",
    )  # fmt: skip


def _cell(value: float) -> str:
    return show(value) if value else ""
