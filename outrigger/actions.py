"""From a case to the actions on one outrigger: geometry, loads by part, statics, combinations.

Every number is a column (cases, 1); a single case is a batch of one.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from outrigger import combinations, loads, lumber, member, statics
from outrigger.adjust import Conditions, Method, adjusted
from outrigger.case import Case
from outrigger.combinations import PARTS, Combination
from outrigger.formula import Array, Step, given

TRUSS_SPACING_IN = 24.0  # taken when not given, and listed
HOUSE_FINISH_IN = 0.5  # taken when not given, and listed
EDGE, BACK, WALL_LINE = "edge", "back", "wall line"


def column(value: Any) -> Array:
    """A number, or an array of cases, as a column (cases, 1)."""
    return np.asarray(value, dtype=float).reshape(-1, 1)


def stated(value: Any) -> Array:
    """A load as a column; not given counts as zero here, and is listed as not given elsewhere."""
    return column(0.0 if value is None else value)


@dataclass(frozen=True, eq=False)
class Geometry:
    """Lengths of the outrigger, in, columns of cases; x is 0 at the edge, positive outward."""

    arm: Array
    back_span: Array
    tail: Array
    behind_back: Array
    spacing: Array
    wall_bearing: Array

    @property
    def end(self) -> Array:
        """x of the outer end."""
        return self.arm + self.tail

    @property
    def house_end(self) -> Array:
        """x of the inner end, negative."""
        return -(self.back_span + self.behind_back)

    @property
    def length(self) -> Array:
        """Length of the piece."""
        return self.end - self.house_end


def geometry(case: Case) -> Geometry:
    """Lengths that follow from the case; a level member (arm = plan distance)."""
    gap, piece = case.gap, case.outrigger
    plate = column(gap.garage_plate)
    finish = HOUSE_FINISH_IN if gap.house_finish is None else gap.house_finish
    arm = column(gap.width) + column(finish) + plate / 2
    arm = arm + column(gap.edge_setback) + column(gap.edge_bearing) / 2
    tail = plate / 2 if piece.tail is None else column(piece.tail)
    bearing = np.minimum(plate, plate / 2 + tail)
    back, behind = column(piece.back_span), column(piece.behind_back)
    return Geometry(arm, back, tail, behind, column(piece.spacing), bearing)


def places(case: Case) -> list[tuple[str, Array]]:
    """Names and x of the supports, inner first: back, hold-downs between, edge."""
    between = sorted(
        (h.at for h in case.hold_down if isinstance(h.at, float) and not _is_end(h.at, case)),
        reverse=True,
    )
    inner = [(inches(at), column(-at)) for at in between]
    return [(BACK, -column(case.outrigger.back_span)), *inner, (EDGE, column(0.0))]


def inches(at: float) -> str:
    """The name of a place by its distance from the edge: 16 in, 30.5 in."""
    return f"{at:g} in"


def place_name(at: str | float, case: Case) -> str:
    """The name of a stated place: a distance equal to the back span is the back, 0 the edge."""
    if isinstance(at, str):
        return at
    if at == 0:
        return EDGE
    return BACK if bool(np.all(column(case.outrigger.back_span) == at)) else inches(at)


def _is_end(at: float, case: Case) -> bool:
    return place_name(at, case) in (EDGE, BACK)


@dataclass(frozen=True, eq=False)
class Loads:
    """Loads on one outrigger by part: lb on the wall line, lb/in on arm and back span.

    `steps`: how they came about, by load case; `share`: length of wall whose roof it carries.
    """

    wall_line: dict[str, Array]
    strip: dict[str, Array]
    back: dict[str, Array]
    self_weight: Array
    covered: Array  # length of arm next to the wall line that the roof's overhang covers
    share: Array
    steps: dict[str, list[Step]]

    @property
    def present(self) -> frozenset[str]:
        """Parts that are not zero in every case; dead and the worker always count."""
        found = {"D", "D_back", "worker"}
        for part in ("L", "Lr", "S", "W_up", "W_down"):
            if np.any(self.wall_line[part] != 0) or np.any(self.strip.get(part, 0.0) != 0):
                found.add(part)
        found |= {part for part in ("Lr_back", "S_back", "W_back") if np.any(self.back[part] != 0)}
        return frozenset(found)


def roof_snow(case: Case) -> Step:
    """Snow on the garage roof, psi, at the level of the edition."""
    snow = case.snow
    if snow.roof is not None:
        return given("pf", column(snow.roof), "psi", case.basis.loads, "roof snow as stated")
    pg = given("pg", stated(snow.ground), "psi", case.basis.loads, "ground snow as stated")
    if np.all(pg.value == 0):
        return given("pf", column(0.0), "psi", case.basis.loads, "no snow stated")
    factors: dict[str, Any] = {"Ce": snow.exposure or 1.0, "C_thermal": snow.thermal or 1.0}
    if case.basis.loads == "ASCE 7-22":
        return loads.flat_roof_snow_722.step(**factors, pg=pg)
    importance = 1.0 if snow.importance is None else snow.importance
    return loads.flat_roof_snow_716.step(**factors, Is=importance, pg=pg)


def share_of_wall(case: Case, shape: Geometry) -> Array:
    """Length of wall whose roof load one outrigger takes, in."""
    roof = case.garage_roof
    spacing = roof.member_spacing
    if spacing is None:
        spacing = TRUSS_SPACING_IN if roof.form == "trusses" else "uniform"
    if spacing == "uniform":
        return shape.spacing
    return np.asarray(loads.truss_share(float(spacing), shape.spacing))


def loads_on(case: Case, wood: lumber.Wood, shape: Geometry) -> Loads:
    """Loads of a level case, by part. Not given counts as none here and is listed elsewhere."""
    roof, house = case.garage_roof, case.house_roof
    snow, share = roof_snow(case), share_of_wall(case, shape)
    psf = {
        "D": stated(roof.dead),
        "L": stated(roof.storage),
        "Lr": stated(roof.live),
        "S": np.asarray(snow.value),
        "W_up": -stated(case.wind.uplift),
        "W_down": stated(case.wind.down),
    }
    wall_line: dict[str, Array] = {}
    steps: dict[str, list[Step]] = {}
    for part, q in psf.items():
        steps[part] = _wall_line(case, part, q, snow, share, shape)
        total = sum((np.asarray(s.value) for s in steps[part] if s.symbol == "P"), column(0.0))
        wall_line[part] = total
    strip_psf = {part: psf[part] for part in ("Lr", "S", "W_up", "W_down")}
    strip_psf["D"] = psf["D"] if roof.strip_dead is None else column(roof.strip_dead)
    strip = {part: q * shape.spacing for part, q in strip_psf.items()}
    on_house = {
        "D_back": house.dead,
        "Lr_back": house.live,
        "S_back": house.snow,
        "W_back": house.wind_uplift,
    }
    back = {part: stated(q) * shape.spacing for part, q in on_house.items()}
    back["W_back"] = -back["W_back"]
    size = wood.size
    weight = column(loads.self_weight(wood, lumber.area(case.outrigger.plies * size.b, size.d)))
    covered = np.minimum(stated(roof.overhang), shape.arm)
    return Loads(wall_line, strip, back, weight, covered, share, steps)


def _wall_line(
    case: Case, part: str, q: Array, snow: Step, share: Array, shape: Geometry
) -> list[Step]:
    """Steps of one load case on the wall line; those named P add up to it."""
    roof, wall = case.garage_roof, case.garage_wall
    sign = -1.0 if part == "W_up" else 1.0
    steps: list[Step] = [snow] if part == "S" else []
    if roof.bearing and roof.line is not None:
        amount = stated(getattr(roof.line, part)) * sign
        line = given("w_roof", amount, "lb/in", "", "line load as stated")
        steps += [line, loads.share_of_line.step(w_roof=line, l_share=share)]
    elif roof.bearing:
        line = loads.roof_line_load.step(
            q=snow if part == "S" else q,
            l_span=stated(roof.span),
            l_overhang=stated(roof.overhang),
        )
        steps += [line, loads.share_of_line.step(w_roof=line, l_share=share)]
    if part == "S" and case.snow.drift_line is not None:
        drift = column(case.snow.drift_line)
        line = given("w_roof", drift, "lb/in", case.basis.loads, "drift on the wall line, stated")
        steps += [line, loads.share_of_line.step(w_roof=line, l_share=share)]
    if part == "D":
        steps.append(
            loads.wall_weight.step(
                q=stated(wall.dead), h_wall=stated(wall.height), s_plan=shape.spacing
            )
        )
    for point in roof.point:
        note = f"point load from {point.source or 'a point'}, whole on one outrigger"
        force = getattr(point, part)
        if force:
            steps.append(given("P", column(force * sign), "lb", "", note))
    return steps


@dataclass(frozen=True, eq=False)
class Response:
    """Statics of the unfactored parts, (cases, parts), on one set of supports.

    M lb-in and R lb at the supports (inner first), w_back lb/in, V_arm lb just outside the edge,
    droop in at the wall line.
    """

    names: tuple[str, ...]
    x: tuple[Array, ...]
    R: list[Array]
    M: list[Array]
    w_back: Array
    V_arm: Array
    droop: Array


@dataclass(frozen=True, eq=False)
class Set:
    """The combinations of one method over the parts present, as arrays.

    factors (combinations, parts); times: the distinct CD or lambda; columns: which of them.
    """

    method: Method
    all: tuple[Combination, ...]
    parts: tuple[str, ...]
    factors: Array
    times: Array
    columns: Any

    def combine(self, amounts: Array) -> Array:
        """Sums over the parts, in their order: (cases, parts) to (cases, combinations)."""
        total = amounts[:, :1] * self.factors[:, 0]
        term = np.empty_like(total)
        for i in range(1, len(self.parts)):
            np.multiply(amounts[:, i : i + 1], self.factors[:, i], out=term)
            total += term
        return total


def combination_set(case: Case, method: Method, parts: tuple[str, ...]) -> Set:
    """The combinations of a method for the parts present."""
    found = combinations.combinations(case.basis.loads, method, frozenset(parts))
    factors = np.array([[c.factors[PARTS.index(p)] for p in parts] for c in found])
    distinct = list(dict.fromkeys(c.time for c in found))
    columns = np.array([distinct.index(c.time) for c in found], dtype=np.intp)
    return Set(method, found, parts, factors, np.array([distinct]), columns)


@dataclass(frozen=True, eq=False)
class Stiffness:
    """EI lb-in2 and GA lb of the member, from E adjusted, with their steps."""

    EI: Step
    GA: Step

    @property
    def EI_number(self) -> float:
        """EI as a number: no sweep changes it."""
        return float(np.asarray(self.EI.value).ravel()[0])

    @property
    def GA_number(self) -> float:
        """GA as a number."""
        return float(np.asarray(self.GA.value).ravel()[0])


def stiffness(wood: lumber.Wood, conditions: Conditions, b: float, d: float) -> Stiffness:
    """Bending and shear stiffness, load along d."""
    E_true = member.true_modulus.step(E_adj=adjusted("E", wood, conditions, 1.0))
    inertia = lumber.moment_of_inertia.step(b=b, d=d)
    G_v = member.rigidity.step(E_true=E_true)
    area = lumber.area.step(b=b, d=d)
    return Stiffness(
        member.bending_stiffness.step(E_true=E_true, I=inertia),
        member.shear_stiffness.step(G_v=G_v, A=area),
    )


def respond(
    on: Loads,
    shape: Geometry,
    parts: tuple[str, ...],
    stiff: Stiffness,
    supports: list[tuple[str, Array]],
    springs: Array | float = np.inf,
) -> Response:
    """Statics of every part at once, on the given supports (inner first)."""
    cases = max(len(shape.arm), len(shape.back_span), len(shape.spacing), len(on.share))
    cases = max(cases, *(len(v) for v in (*on.wall_line.values(), *on.back.values())))

    def spread(by_part: Mapping[str, Array]) -> Array:
        table = np.zeros((cases, len(parts)))
        for i, part in enumerate(parts):
            if part in by_part:
                table[:, i] = by_part[part][:, 0]
        return table

    start, arm, end = (v[:, 0] for v in (shape.house_end, shape.arm, shape.end))
    x = [np.broadcast_to(at[:, 0], (cases,)) for _, at in supports]
    beam = statics.Beam(
        np.stack(x, axis=-1),
        stiff.EI_number,
        start,
        end,
        stiff.GA_number,
        springs,
    )
    back_start, edge = -shape.back_span[:, 0], 0.0
    weight = on.self_weight
    dead_strip = {"D": on.strip["D"] + weight}
    moving_strip = {part: q for part, q in on.strip.items() if part != "D"}
    inner = (shape.arm - on.covered)[:, 0]
    on_back = spread(on.back)
    all_loads: list[statics.Load] = [
        statics.Point(arm, spread(on.wall_line)),
        statics.Point(end, spread({"worker": column(loads.WORKER_LB)})),
        statics.Uniform(edge, end, spread(dead_strip)),
        statics.Uniform(edge, inner, spread(moving_strip)),
        statics.Uniform(arm, end, spread(moving_strip)),
        statics.Uniform(start, edge, spread({"D_back": weight})),
        statics.Uniform(back_start, edge, on_back),
    ]
    solved = statics.solve(beam, all_loads)
    n = len(supports)
    return Response(
        tuple(name for name, _ in supports),
        tuple(at for _, at in supports),
        [solved.reactions[..., i] for i in range(n)],
        [solved.moment(at, "left") for at in x],
        on_back + spread({"D_back": weight}),
        solved.shear(edge, "right"),
        solved.deflection(arm),
    )
