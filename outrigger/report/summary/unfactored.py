"""Every part of the load on one outrigger, unfactored, and what each does: the take-down of the
combinations, which add these numbers up."""

from collections.abc import Sequence

from outrigger.actions import closed_forms as forms
from outrigger.base import units
from outrigger.base.quantity import length
from outrigger.formula import layout as maths
from outrigger.formula import text as as_text
from outrigger.formula.formula import Formula
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import pick
from outrigger.formula.text import show
from outrigger.report import words
from outrigger.report.write.document import Block, Chapter, Inline, Maths, Paragraph, Runs, Table
from outrigger.studies.curves import PartLoad
from outrigger.verdict.design import Design

TIMES = " \N{MULTIPLICATION SIGN} "
LEAST = 5e-7  # lb, lb-in: less is nothing, left over of a sum


def unfactored(design: Design, parts: Sequence[PartLoad]) -> Chapter:
    """Every part of the load on one outrigger, as the combinations take it, and what it does."""
    kept = [one for one in parts if any((one.P, one.w_arm, one.w_back, one.W_end, one.M, *one.R))]
    names = [words.place(name) for name, _ in design.model.supports]
    ends = any(one.W_end for one in kept)
    s = units.feet(pick(design.shape.spacing))
    rows: list[tuple[Runs, ...]] = []
    for one in kept:
        cells = [show(one.P) if one.P else ""]
        for psf, w in ((one.psf_arm, one.w_arm), (one.psf_back, one.w_back)):
            cells += [f"{show(psf)}" if psf else "", show(units.plf(w)) if w else ""]
        cells += [show(one.W_end) if one.W_end else ""] if ends else []
        cells += [_effect(value) for value in (one.M, one.V, *one.R)]
        cells.append(show(one.droop) if abs(one.droop) > LEAST else "")
        rows.append((words.capital(words.load_part(one.part)), *cells))
    head = ["unfactored", "P, lb", "arm, psf", "w arm, plf", "back, psf", "w back, plf",
            *(["W end, lb"] if ends else []), "M, lb-in", "V, lb",
            *(f"{name}, lb" for name in names), "droop, in"]  # fmt: skip
    count = len(head) - 1
    table = Table(
        head, rows, "l" + "r" * count, (2.35, *(0.75,) * count), "Unfactored loads, and their work"
    )
    return Chapter(
        "On one outrigger, unfactored", [table, *_said(design, s)], 2, "unfactored"
    )


def _effect(value: float) -> str:
    return show(value) if abs(value) > LEAST else ""


def _said(design: Design, s: float) -> list[Block]:
    """What the columns are, and how the numbers of a row follow from one another."""
    shape, weight = design.shape, units.plf(pick(design.loads.self_weight))
    on = f"psf{TIMES}{show(s)} ft of spacing"
    if shape.tilt.way != "level":
        squared = show(shape.tilt.cos**2)
        on += f", what is vertical{TIMES}{squared} (cosine of the slope, of the area and again of "
        on += "the load); all square to the sheathing"
    first = (
        f"P on the garage wall; w arm on arm and tail, w back on the back span: {on}; dead with the "
        f"member's own {show(weight)} plf by its specific gravity at 19 % moisture"
    )
    if pick(design.loads.covered):
        first += f"; the roof's overhang covers {length(pick(design.loads.covered))} of the arm, "
        first += "where the strip takes dead load alone"
    third = "M and V just outside the house wall, hogging; push at a place, a pull is negative. A "
    third += f"combination takes factor times number, part by part. In plf on the house: over {show(s)} ft."
    return [Paragraph(f"{first}. {third}", "small"), *_how(design)]


def _how(design: Design) -> list[Block]:
    """The statics of a row."""
    shape = design.shape
    lengths = (("a", shape.arm), ("t", shape.tail), ("L_b", shape.back_span),
               ("b_b", shape.behind_back))  # fmt: skip
    runs: list[Inline] = ["In inches, w in lb/in, plf / 12: "]
    for name, value in lengths:
        runs += [_sign(name), f" = {show(pick(value))} in, "]
    shown: list[tuple[str, Formula]] = [("M", forms.edge_moment), ("V", forms.arm_shear)]
    if len(design.model.supports) == 2:
        shown += [("the pull at the back", forms.back_pull), ("the push at the wall", forms.edge_push)]
    for name, form in shown:
        runs += [f"{name} ", Maths(maths.in_symbols(form), as_text.in_symbols(form)), ", "]
    runs[-1] = "."
    return [Paragraph(tuple(runs), "small")]


def _sign(name: str) -> Maths:
    return Maths(maths.Sign(symbol(name)), symbol(name).text)
