"""The arithmetic of a design: loads as they came about, then every check at its combination."""

from collections.abc import Sequence

import numpy as np

from outrigger.actions.axes import SQUARE
from outrigger.base.quantity import length
from outrigger.formula.check import Named
from outrigger.formula.formula import Step
from outrigger.formula.notation import symbol
from outrigger.formula.text import line as line_of
from outrigger.report import provenance, words
from outrigger.report.words import wrap
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design


def page(design: Design, rows: Sequence[CheckResult], width: int) -> str:
    """Loads, then the steps of every check, then the symbols."""
    parts = [_takedown(design, width), *(_one(row, width) for row in rows if row.check.steps)]
    return "\n\n".join([*parts, _symbols(rows, width)])


def _takedown(design: Design, width: int) -> str:
    """How each load on the outrigger came about."""
    shape, on = design.shape, design.loads
    lines = [wrap("Loads on one outrigger, unfactored", width)]
    said = f"arm {length(float(shape.arm[0, 0]))}, end {length(float(shape.end[0, 0]))} outside"
    lines.append(wrap(f"{said} the house wall", width, "  "))
    lines.append(
        wrap(f"takes the roof load of {length(float(on.share.ravel()[0]))} of wall", width, "  ")
    )
    shown, totals = set[str](), {id(s) for found in on.totals.values() for s in found}
    theta = shape.tilt.theta
    if theta:
        way = "down" if shape.tilt.down else "across"
        lines.append(wrap(f"the house roof slopes {theta:.4g}°, {way} its slope", width, "  "))
    for part, steps in on.steps.items():
        total = float((on.wall_line | on.on_wall | on.along_wall)[part].ravel()[0])
        if total:
            load = words.load_case(part)
            shown_total = total if part in on.wall_line else abs(total)  # a sense in words
            lines.append(wrap(f"{load} on the garage wall: {shown_total:,.1f} lb, of", width, "  "))
            steps = [*steps, *design.model.by_axis.steps.get(part, ())]
            chain = {id(s): s for top in steps for s in top.chain()}
            printed = {key: _step(step, width, "    ") for key, step in chain.items()}
            lines += [line for line in printed.values() if line not in shown]  # stands above
            # the totals of each part stand again, though a part above has the same
            shown |= {line for key, line in printed.items() if key not in totals}
    for part, q in on.strip.items():
        if value := float(q.ravel()[0]):
            how = ", square to the sheathing" if theta and part in SQUARE else ""
            text = f"{words.load_case(part)} on the arm: {value:.4g} lb/in{how}"
            lines.append(wrap(text, width, "  "))
    for part, q in on.back.items():
        if value := float(q.ravel()[0]):
            name = "wind suction" if part == "W_back" else words.load_case(part[: -len("_back")])
            lines.append(wrap(f"{name} on the back span: {value:.4g} lb/in", width, "  "))
    acting, along = design.model.by_axis, dict[str, list[float]]()
    for i, by_part in enumerate((acting.on_arm, acting.on_back)):
        for part, force in by_part.items():
            if part == "D_own":  # it is in the dead load
                continue
            along.setdefault(part.removesuffix("_back"), [0.0, 0.0])[i] = float(np.ravel(force)[0])
    for part, (arm, back) in along.items():
        if arm or back:
            said = f"{arm:,.1f} lb of the arm, {back:,.1f} lb of the back span"
            load = words.load_case(part)
            lines.append(wrap(f"{load} along the member: {said}", width, "  "))
    weight = float(on.self_weight.ravel()[0])
    lines.append(wrap(f"self weight, whole length: {weight:.4g} lb/in", width, "  "))
    return "\n".join(lines)


def _step(step: Step, width: int, indent: str, text: str = "", of: Named | None = None) -> str:
    said = ", ".join(provenance.cited(step, of))
    line = text or line_of(step)
    return wrap(f"{line}  [{said}]" if said else line, width, indent)


def _one(row: CheckResult, width: int) -> str:
    """One check's steps at its governing combination."""
    place = words.place(row.check.place)
    lines = [wrap(f"{place}: {words.what(row)}  [{row.check.clause}]", width)]
    if loads := provenance.of_loads(row):
        lines.append(wrap(loads, width, "  "))
    of = provenance.combination_of(row)
    element = row.check.element(row.case)
    steps = {id(s): s for top in row.steps for s in top.chain()}
    lines += [_step(step, width, "  ", line_of(step, element), of) for step in steps.values()]
    used = f"used {words.ratio(row.ratio)}" if row.ratio is not None else row.check.why
    load = words.amount(row.demand, row.check.unit)
    lines.append(wrap(f"has {load}, takes {words.limit(row)}: {used}", width, "  "))
    return "\n".join(lines)


def _symbols(rows: Sequence[CheckResult], width: int) -> str:
    keys = dict.fromkeys(s.symbol for r in rows for top in r.steps for s in top.chain())
    meant = [f"{symbol(key).text} {symbol(key).meaning}" for key in keys]
    return wrap(f"Symbols: {'; '.join(meant)}.", width)
