"""What an engineer starts from: the design criteria, the load path and who checks each link of it,
the combinations and patterns that were run."""

import re
from collections.abc import Iterator

from outrigger.base.quantity import length
from outrigger.cases.model import Case
from outrigger.formula.formula import Step
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import Num, pick
from outrigger.formula.text import show, unit_text
from outrigger.report import cautions, provenance, words
from outrigger.report.rows import worst_first
from outrigger.report.write.document import Blank, Block, Bold, Paragraph, Runs, Table
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design

HERE = {  # symbols of the loads' arithmetic, as the criteria call them
    "p_g": "ground snow pg", "Ce": "Ce", "C_thermal": "Ct", "Is": "Is", "p_f": "flat roof pf",
    "p_s": "roof snow ps", "V_wind": "wind speed V", "Kzt": "Kzt", "Kd": "Kd", "GCpi": "GCpi",
    "h_mean": "mean roof height", "qh": "qh",
}  # fmt: skip
ROOF_WIND = ("wind up on the garage roof", "wind down on the garage roof")
PATH = (  # the load path from the ridge down: its link, and the kinds of check that are of it
    ("garage roof", ()),
    ("garage plate, studs", ("header", "plate", "plate_past_the_end", "stud")),
    ("tie of that wall", ("wall_tie",)),
    ("outrigger", ("bending", "biaxial", "axial_bending", "shear", "notch", "wall_bearing",
                   "edge_bearing", "back_bearing", "live_deflection", "total_deflection")),
    ("clips", ("hold_down", "split")),
    ("member right below", ("house_edge",)),
    ("house rafters", ("house_rafter",)),
    ("sideways", ("slide", "roll_over")),
    ("house wall, foundation", ()),
    ("garage bracing", ()),
)  # fmt: skip


def criteria(design: Design) -> Table:
    """Pairs of what the loads follow from and its value; a blank where the case is silent."""
    pairs = [*_of_the_job(design.case), *_of_the_loads(design)]
    third = -(-len(pairs) // 3)
    columns = [pairs[start : start + third] for start in range(0, len(pairs), third)]
    columns = [[*column, *[("", "")] * (third - len(column))] for column in columns]
    rows: list[tuple[Runs, ...]] = [
        tuple(cell for pair in row for cell in pair) for row in zip(*columns, strict=True)
    ]
    widths = (1.15, 1.2) * len(columns)
    return Table((), rows, "l" * 2 * len(columns), widths, "Design criteria")


def _of_the_job(case: Case) -> Iterator[tuple[str, Runs]]:
    """What the file states of the buildings."""
    roof, house, wind, quake = case.garage_roof, case.house_roof, case.wind, case.seismic
    blank: Runs = (Blank(0, ""),)
    span = None if roof.span is None else length(roof.span)
    yield "garage roof", ", ".join(filter(None, (roof.form, roof.shape))) or blank
    yield "its span, pitch", ", ".join(filter(None, (span, _slope(roof.pitch)))) or blank
    height = case.garage_wall.height
    yield "garage wall", blank if height is None else f"{length(height)} high"
    yield "house roof", ", ".join(filter(None, (_slope(house.pitch), house.direction))) or "level"
    yield "wind exposure", wind.exposure or blank
    yield "enclosure", wind.enclosure or blank
    yield "risk category", case.basis.risk_category or blank
    sds = "" if quake.sds is None else f", SDS {quake.sds:g}"
    yield "seismic category", f"{quake.category}{sds}" if quake.category else blank


def _slope(pitch: float | None) -> str:
    return "" if pitch is None else f"{pitch:g}:12"


def _of_the_loads(design: Design) -> Iterator[tuple[str, Runs]]:
    """What the arithmetic of the loads found, each symbol once."""
    found: dict[str, Num] = {}
    for steps in design.loads.steps.values():
        for step in (one for top in steps for one in top.chain()):
            found.setdefault(step.symbol, step.value)
            for name, value in step.inputs.items() if step.formula is not None else ():
                if not isinstance(value, Step):
                    found.setdefault(name, value)
    for key, name in HERE.items():
        if key in found:
            yield name, f"{show(pick(found[key]))} {unit_text(symbol(key).unit)}".rstrip()
    for load in design.loads.derived:  # a symbol of the arithmetic may stand for several of these
        if load.over_ft or load.name in ROOF_WIND:
            over = f" over {load.over_ft:.1f} ft" if load.over_ft else ""
            short = re.sub(r" (?:onto|on) the (\w+) roof", r", \1", load.name)
            yield short, f"{load.value:.1f} {load.unit}{over}"


def load_path(design: Design) -> list[Block]:
    """Each link from the ridge down: checked here, how far it is used, or by whom; then what else
    is not checked here."""
    rows: list[tuple[Runs, ...]] = []
    for link, kinds in PATH:
        worst = worst_first(row for row in design.rows if row.check.kind.id in kinds)
        rows.append((link, _state(worst[0]) if worst else (Blank(0, "not here; by"),)))
    half = -(-len(rows) // 2)
    body = [(*a, *b) for a, b in zip(rows[:half], rows[half:], strict=True)]
    listed = dict.fromkeys(words.capital(one.few) for one in cautions.not_checked(design))
    pairs: list[Runs] = [(f"{text}, ", Blank(0.55, "by")) for text in listed]
    lines = [tuple(pairs[i : i + 3]) for i in range(0, len(pairs), 3)]
    lines = [(*line, *[""] * (3 - len(line))) for line in lines]
    return [
        Table((), body, "llll", (1.3, 2.2, 1.3, 2.2), "The load path, and who checks each link"),
        Paragraph((Bold("Not checked here, the most dangerous first"),), "small"),
        Table((), lines, "lll", (1.0, 1.0, 1.0), "Not checked, and by whom it is"),
        Paragraph(f"{cautions.SEALED} {words.ENGINEERS_LINE}", "small"),
    ]


def _state(row: CheckResult) -> Runs:
    used = "" if row.ratio is None else f", {words.ratio(row.ratio)} used"
    state = {"pass": "", "open": ", open", "fail": ", FAILS"}[row.status]
    return (f"checked here{used}", Bold(state))


def combinations(design: Design) -> list[Block]:
    """The combinations that were run: of each of the standard the factor of every load in it, its
    CD or lambda and how many patterns; the patterns once."""
    run = design.worked.main.combinations
    groups: dict[tuple[str, str, float, float], list[dict[str, float]]] = {}
    for one, row in zip(run.all, run.factors, strict=True):
        of = {part: float(factor) for part, factor in zip(run.parts, row, strict=True)}
        groups.setdefault((one.source, one.status, one.time, of.get("D", 0.0)), []).append(of)
    loads = list(dict.fromkeys(_load(part) for part in run.parts))
    rows: list[tuple[Runs, ...]] = []
    for (source, status, at, _), listed in groups.items():
        factors = dict.fromkeys(loads, 0.0)
        for of in listed:
            for part, factor in of.items():
                factors[_load(part)] = max(factors[_load(part)], factor)
        cells = (f"{factors[load]:g}" if factors[load] else "" for load in loads)
        named = ", ".join(filter(None, (source, provenance.warning(status))))
        rows.append((named, f"{at:g}", *cells, f"{len(listed)}"))
    time = "CD" if run.method == "ASD" else "λ"
    head: list[str] = ["combination", time, *loads, "run"]
    widths = (3.0, 0.4, *(0.5 if load == "worker" else 0.38 for load in loads), 0.35)
    align = "l" + "r" * (len(loads) + 2)
    table = Table(head, rows, align, widths, "The combinations that were run")
    patterns = dict.fromkeys(
        part for one in run.all for part in one.pattern.split(", ") if one.pattern
    )
    said = f"Each with and without every load that comes and goes, {len(run.all)} in all. "
    if patterns:
        said += f"Patterns, wherever they bear on it: {'; '.join(patterns)}. "
    said += "W and H: wind up, down, on the wall; S: each kind of snow; A, E: along, earthquake."
    return [table, Paragraph(said, "small")]


def _load(part: str) -> str:
    """The load case of a part: S of S_near, W of W_up."""
    return part.partition("_")[0]
