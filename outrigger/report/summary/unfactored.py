"""Every part of the load on one outrigger, unfactored, and what each does: what the combinations
add up, and how each number of a row follows."""

from outrigger.actions import closed_forms as forms
from outrigger.actions.geometry import column
from outrigger.actions.places import EDGE
from outrigger.base import units
from outrigger.base.quantity import length
from outrigger.formula import layout as maths
from outrigger.formula import text as as_text
from outrigger.formula.formula import Formula
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import pick
from outrigger.formula.text import show
from outrigger.report import words
from outrigger.report.summary.work import Work
from outrigger.report.write.document import (
    Block,
    Bold,
    Chapter,
    Inline,
    Maths,
    Paragraph,
    Runs,
    Table,
)
from outrigger.studies.for_summary import Findings
from outrigger.studies.part_loads import PartLoad, Share
from outrigger.verdict.design import Design

TIE = "\N{NO-BREAK SPACE}"
TIMES, MINUS = " \N{MULTIPLICATION SIGN} ", "\N{MINUS SIGN}"
LEAST = 5e-7  # lb, lb-in: less is nothing, left over of a sum
THOUSANDTHS = 1000.0  # of an inch, in which a droop is printed
DROOP = (
    ("droop", forms.droop_at_wall), ("of which", forms.droop_of_point), ("", forms.droop_of_even),
    ("", forms.droop_of_shear), ("", forms.slope_at_edge),
)  # fmt: skip


def unfactored(found: Findings) -> Chapter:
    """Every part of the load on one outrigger, as the combinations take it, and what it does."""
    design = found.design
    kept = [one for one in found.parts if _acts(one)]
    names = [words.place(name) for name, _ in design.model.supports]
    along = any(one.F for one in kept)
    rows: list[tuple[Runs, ...]] = []
    for one in kept:
        name = words.capital(words.load_part(one.part))
        cells = [f"{name}, {show(one.W_end)} lb" if one.W_end else name, _effect(one.P)]
        for psf, w in ((one.psf_arm, one.w_arm), (one.psf_back, one.w_back)):
            cells += [_effect(psf), _effect(units.plf(w))]
        cells += [_effect(one.F)] if along else []
        cells += [_effect(value) for value in (one.M, one.V, *(short(R, 4) for R in one.R))]
        rows.append((*cells, _effect(short(one.droop * THOUSANDTHS, 3))))
    head = ["unfactored", "P, lb", "arm, psf", f"w{TIE}arm, plf", "back, psf", f"w{TIE}back, plf",
            *(["F, lb"] if along else []), f"M,{TIE}lb-in", "V, lb",
            *(f"{name}, lb" for name in names), "droop, in/1000"]  # fmt: skip
    count, supports = len(head) - 1, len(names)
    rest = (*([0.74] if along else []), 0.92, 0.8, *(0.82,) * (supports + 1))
    widths = (3.4, 0.78, *(0.72,) * 4, *rest)
    table = Table(head, rows, "l" + "r" * count, widths, "Unfactored loads, and what they do")
    blocks = [table, _columns(design), *_how(design, along), *_shares(found)]
    return Chapter("On one outrigger, unfactored", blocks, 2, "unfactored")


def _acts(one: PartLoad) -> bool:
    return any((one.P, one.w_arm, one.w_back, one.W_end, one.F, one.M, *one.R))


def short(value: float, decimals: int) -> float:
    """A small number without the digits that no sum needs; of a large one five are printed."""
    return round(value, decimals) if abs(value) < 10 ** (4 - decimals) else value


def _effect(value: float) -> str:
    return show(value) if abs(value) > LEAST else ""


def _columns(design: Design) -> Block:
    """What the columns are."""
    shape, weight = design.shape, units.plf(pick(design.loads.self_weight))
    s = show(units.feet(pick(shape.spacing)))
    on = f"psf{TIMES}{s} ft of {'spacing' if design.mark is None else 'run'}"
    if shape.tilt.way != "level":
        squared = show(shape.tilt.cos**2)
        on += f", what is vertical{TIMES}{squared} (cosine of the slope, of the area and again of "
        on += "the load); all square to the sheathing"
    said = (
        f"P on the garage wall; w arm on arm and tail, w back on the back span: {on}; dead with "
        f"the member's own {show(weight)} plf by its specific gravity at 19 % moisture"
    )
    covered = pick(design.loads.covered)
    if covered:
        said += f"; the roof's overhang covers {length(covered)} of the arm, where the strip "
        said += "brings dead load alone"
    said += (
        ". M just inside the house wall, V just outside it, hogging positive; at a place its push "
        "down, a pull is negative. A combination takes factor times number, part by part. In plf "
        f"on the house: over {s} ft."
    )
    return Paragraph(said, "small")


def _how(design: Design, along: bool) -> list[Block]:
    """The statics of a row, in symbols, and the lengths."""
    shape, two = design.shape, len(design.model.supports) == 2
    lengths = [("arm ", "a", shape.arm), ("tail ", "t", shape.tail),
               ("back span ", "L_b", shape.back_span),
               ("behind the back ", "b_b", shape.behind_back)]  # fmt: skip
    lengths += [("depth ", "d", column(design.member.d))] if along else []
    runs: list[Inline] = ["Each row, in inches, w in lb/in (plf / 12): "]
    for said, name, value in lengths:
        runs += [said, _sign(name), f" = {show(pick(value))} in, "]
    runs += [_sign("W_end"), " the worker at the end, ", _sign("M_edge"), " the row's M, "]
    runs += [_sign("w_self"), " the member's own weight, "] if two else []
    runs += [_sign("F_axis"), " along the outrigger at its top"] if along else []
    runs[-1] = str(runs[-1]).removesuffix(", ") + ": "
    shown = [("M = ", forms.moment_of_part if along else forms.edge_moment)]
    shown += [("V = ", forms.arm_shear)]
    if two:
        shown += [("the pull at the back ", forms.back_pull)]
        shown += [("the push at the house wall ", forms.edge_push)]
    for before, form in shown:
        runs += [before, _right_side(form), "; "]
    runs[-1] = "."
    blocks: list[Block] = [Paragraph(tuple(runs), "small")]
    if two and not along:
        droop: list[Inline] = []
        for name, form in DROOP:
            sign = symbol(form.symbol)
            droop += [f"{name} " if name else "", Maths(maths.Sign(sign), sign.text), " = "]
            droop += [_right_side(form), "; "]
        droop[-1] = ", with "
        droop += [_sign("M_behind"), " = ", _right_side(forms.moment_behind), "; EI and "]
        droop += [_sign("GA"), " of the droop's check."]
        blocks.append(Paragraph(tuple(droop), "small"))
    return blocks


def _right_side(form: Formula) -> Maths:
    return Maths(maths.in_symbols(form), as_text.in_symbols(form))


def drifted(found: Findings, work: Work) -> list[Chapter]:
    """How the rows of a drift on the house roof, or of snow slid onto it, add up."""
    on = found.design.model.by_axis.square
    blocks: list[Block] = []
    for part in (*on.house, *on.shed):
        peak, width = (on.house | on.shed)[part]
        shape = "falling to nothing" if part in on.house else "even"
        said = (
            f"{words.capital(words.load_part(part))}: besides, {show(units.plf(pick(peak)))} plf "
            f"at the garage wall, {shape} over {show(units.feet(pick(width)))} ft toward the house"
        )
        end = "" if part in found.drifted else "; what it does by statics"
        blocks.append(Paragraph(f"{said}{end}.", "small"))
    names = {
        id(step): words.load_part(part)
        for part, steps in found.drifted.items()
        for top in steps
        for step in top.chain()
    }
    steps = [step for steps in found.drifted.values() for step in steps]
    blocks += work.lines(steps, names=names)
    title = "Snow on the house roof, on one outrigger"
    return [Chapter(title, blocks, 3, "on-house", columns=2)] if blocks else []


def _shares(found: Findings) -> list[Block]:
    """What each support of a row takes of M, w back and the member's own weight behind it."""
    if not found.shares:
        return []
    groups: dict[tuple[str, ...], list[Share]] = {}
    for one in found.shares:
        groups.setdefault(one.supports, []).append(one)
    blocks: list[Block] = [
        Paragraph(
            "The row on rigid supports, each holding both ways, by compatibility with its shear "
            "deflection, in exact fractions; w self lies on the end behind the back:", "small"
        )
    ]  # fmt: skip
    for supports, listed in groups.items():
        whole = len(supports) == len(found.design.model.supports)
        title = "All" if whole else f"{words.capital(words.place(supports[0]))} alone beside it"
        said = "; ".join(_share(one) for one in listed)
        blocks.append(Paragraph((Bold(f"{title}: "), f"{said}."), "small"))
    return blocks


def _share(one: Share) -> str:
    """A reaction in its unit loads."""
    terms = [(one.by_moment, "M"), (one.by_back, "w back"), (one.by_own, "w self")]
    said = "V" if one.place == EDGE else ""
    for value, name in terms:
        if abs(value) > LEAST:
            sign = (" - " if value < 0 else " + ") if said else ("-" if value < 0 else "")
            said += f"{sign}{show(abs(value))}{TIMES}{name}".replace("-", MINUS)
    return f"{words.place(one.place)} = {said}"


def _sign(name: str) -> Maths:
    return Maths(maths.Sign(symbol(name)), symbol(name).text)
