"""How the loads come down to one outrigger, step by step, and all of them unfactored."""

from collections.abc import Iterator

from outrigger.actions.geometry import truss_spacing
from outrigger.base import units
from outrigger.base.quantity import length
from outrigger.formula.formula import Step
from outrigger.formula.numbers import pick
from outrigger.formula.text import show
from outrigger.loads import gravity
from outrigger.loads.parts import SNOW_CASES
from outrigger.report import words
from outrigger.report.summary.unfactored import drifted
from outrigger.report.summary.work import Work, sentence
from outrigger.report.write.document import (
    Block,
    Chapter,
    Paragraph,
    Runs,
    Table,
)
from outrigger.studies.for_summary import Findings
from outrigger.verdict.design import Design
from outrigger.verdict.notes import share_notes

TIMES = " \N{MULTIPLICATION SIGN} "
SNOW = ("S", *SNOW_CASES)
ON_LINE = (
    gravity.roof_line_load, gravity.roof_line_load_with_overhang, gravity.share_of_line,
    gravity.wall_weight, gravity.wall_wind_of_line, gravity.wall_wind, gravity.wall_force,
)  # fmt: skip


def loads(found: Findings, work: Work) -> list[Chapter]:
    """How the loads come down to one outrigger, and all of them unfactored."""
    design = found.design
    shape, on = design.shape, design.loads
    share = length(pick(on.share))
    geometry: list[Block] = [
        *work.lines([shape.arm_step]),
        Paragraph(f"The outer end lies {length(pick(shape.end))} outside the house wall.", "small"),
    ]
    if design.case.garage_roof.bearing:
        geometry.append(Paragraph(_share_text(design, share), "small"))
    parts = [part for part in on.steps if _total(design, part)]
    groups = {
        "Snow": [part for part in parts if part in SNOW],
        "Wind": [part for part in parts if part.startswith(("W_", "H_"))],
    }
    rest = [part for part in parts if not any(part in listed for listed in groups.values())]
    groups = {"Other loads": rest, **groups}
    chapters = [
        Chapter("Loads", [], 2, "arithmetic", columns=2),
        Chapter("Arm and share", geometry, 3, "geometry", columns=2),
    ]
    for title, listed in groups.items():
        tops = {part: [*_before(design, part)] for part in listed}
        names = {
            id(step): words.load_case(part)
            for part, steps in reversed(tops.items())
            for top in steps
            for step in top.chain()
        }
        blocks = work.lines([step for steps in tops.values() for step in steps], names=names)
        if blocks:
            chapters.append(
                Chapter(title, blocks, 3, f"load-{title[:5].strip().lower()}", columns=2)
            )
    return [*chapters, *drifted(found, work)]


def _total(design: Design, part: str) -> float:
    on = design.loads
    return float((on.wall_line | on.on_wall | on.along_wall)[part].ravel()[0])


def _before(design: Design, part: str) -> Iterator[Step]:
    """The steps of a part before those that the table of the take-down holds."""
    on = design.loads
    totals = {id(step) for step in on.totals.get(part, ())}
    for step in on.steps[part]:
        worked = step.formula not in ON_LINE and (step.formula is not None or step.inputs)
        if id(step) not in totals or worked:
            yield step
        for given in step.inputs.values() if step.formula in ON_LINE else ():
            if isinstance(given, Step) and given.formula not in ON_LINE:
                yield from (one for one in given.inputs.values() if isinstance(one, Step))
    yield from design.model.by_axis.steps.get(part, ())


def take_down(design: Design) -> Chapter:
    """Each load on the garage wall, from psf and feet to pounds on one outrigger."""
    parts = [part for part in design.loads.steps if _total(design, part)]
    rows: list[tuple[Runs, ...]] = []
    for part in parts:
        for step in design.loads.totals.get(part, ()):
            if (row := _taken_down(step)) is not None:
                rows.append((words.capital(words.load_case(part)), *row))
    head = ("on the garage wall", "pressure \N{MULTIPLICATION SIGN} run", "line load, plf",
            "\N{MULTIPLICATION SIGN} length", "lb")  # fmt: skip
    widths = (2.4, 2.6, 0.9, 0.8, 1.2)
    table = Table(head, rows, "llrrr", widths, "From the roof down to one outrigger")
    return Chapter("From the roof to one outrigger", [table], 2, "take-down")


def _taken_down(step: Step) -> tuple[str, str, str, str] | None:
    """Pressure and run, line load, length and force of a step that adds to a part, as text."""
    put_in = {name: pick(value) for name, value in step.numbers().items()}
    force = show(pick(step.value))
    if step.formula is gravity.share_of_line:
        w = step.inputs["w_roof"]
        how = _run_of(w) if isinstance(w, Step) else ""
        return how, _plf(put_in["w_roof"]), _ft(put_in["l_share"]), force
    if step.formula in (gravity.wall_weight, gravity.wall_wind):
        q, h = put_in["q"], put_in["h_wall"]
        half = " / 2" if step.formula is gravity.wall_wind else ""
        line = units.plf(q * h) / (2 if half else 1)
        return f"{_psf(q)}{TIMES}{_ft(h)}{half}", show(line), _ft(put_in["s_plan"]), force
    if step.formula in (gravity.wall_wind_of_line, gravity.wall_force):
        w = put_in["w_square" if "w_square" in put_in else "w_along"]
        return "line load of the wall", _plf(w), _ft(put_in["s_plan"]), force
    if step.formula is None and step.symbol == "P":
        return step.note, "", "", force
    return None


def _run_of(w: Step) -> str:
    """What makes the line load of the roof, in psf and feet."""
    put_in = {name: pick(value) for name, value in w.numbers().items()}
    if w.formula is None:
        return w.note if w.note != "snow" else "the sum of its parts over the span, above"
    q, span, over = put_in["q"], put_in["l_span"], put_in["l_overhang"]
    if w.formula is gravity.roof_line_load_with_overhang:
        hung = _psf(put_in["q_overhang"])
        return f"{_psf(q)}{TIMES}{_ft(span)} / 2 + {hung}{TIMES}{_ft(over)}"
    run = f"{_ft(span)} / 2"
    return f"{_psf(q)}{TIMES}({run} + {_ft(over)})" if over else f"{_psf(q)}{TIMES}{run}"


def _psf(value: float) -> str:
    return f"{show(units.psf(value))} psf"


def _plf(value: float) -> str:
    return show(units.plf(value))


def _ft(value: float) -> str:
    return f"{show(units.feet(value))} ft"


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
