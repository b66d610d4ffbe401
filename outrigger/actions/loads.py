"""Loads on one outrigger, by part.

Every number is a column (cases, 1); a single case is a batch of one.
"""

from collections.abc import Mapping

import numpy as np
from msgspec import Struct, field
from msgspec.structs import replace

from outrigger.actions.design_loads import DesignLoad, derived
from outrigger.actions.geometry import Geometry, column, truss_spacing
from outrigger.actions.on_line import elsewhere, load_line, not_sure, snow_line
from outrigger.actions.snow import snow_of
from outrigger.actions.snow_on_house import OnHouseRoof
from outrigger.actions.wind import Pressures, wind_of
from outrigger.base.units import feet, pounds_per_inch, psi, square_feet
from outrigger.base.units import psf as psf_of
from outrigger.cases.batch import Batch
from outrigger.cases.model import Case
from outrigger.formula.formula import Step, given
from outrigger.formula.numbers import Array, greatest
from outrigger.loads import gravity as loads
from outrigger.loads import seismic
from outrigger.loads.parts import SHAKEN, SNOW_CASES
from outrigger.wood import lumber, rectangle


class Loads(Struct, frozen=True, eq=False):
    """Loads on one outrigger by part: lb on the wall line, lb/in on arm and back span.

    Vertical, but for wind on strip and back span, which is square to the sheathing; `axes.py`
    turns them into the axes of the member.

    `strip_ramp`: what the strip gains (less than 0: loses) from the house face to the end, lb/in;
    `house`: lb/in at the garage wall of a drift on the house roof, and its width in; `shed`: lb/in
    and width in of snow slid onto it, even; `on_house`: both for people, with what they wait for.
    `steps`: how they came about, by part; `reasons`: why drift, wind and the like do or do not
    apply; `share`: length of wall whose roof it carries.
    `on_wall`: wind square to the garage wall, lb on its line, away from the house positive;
    `along_wall`: force along it, lb, down a slope across the member positive; `couple_wall`,
    `couple_edge`: lb-in at the wall line and at the edge, of forces along the member; `quake`: how
    `Ev_per_D` and `net_up` came about; `derived`: what followed from ground snow, from a wind speed
    or from an area, for people.
    """

    wall_line: dict[str, Array]
    line: dict[str, Array]  # lb/in along the wall, of what the roof brings
    strip: dict[str, Array]
    back: dict[str, Array]
    self_weight: Array
    covered: Array  # length of arm next to the wall line that the roof's overhang covers
    share: Array
    steps: dict[str, list[Step]]
    totals: dict[str, list[Step]]  # of the steps those that add up to a part
    strip_ramp: dict[str, Array]
    house: dict[str, tuple[Array, Array]]
    shed: dict[str, tuple[Array, Array]]
    reasons: tuple[str, ...]
    Ev_per_D: float = 0.0
    net_up: float = 0.0
    on_wall: dict[str, Array] = field(default_factory=dict)
    along_wall: dict[str, Array] = field(default_factory=dict)
    worker: Array = field(default_factory=lambda: column(loads.WORKER_LB))
    couple_wall: Mapping[str, Array] = field(default_factory=dict)
    couple_edge: Mapping[str, Array] = field(default_factory=dict)
    quake: tuple[Step, ...] = ()
    derived: tuple[DesignLoad, ...] = ()
    on_house: tuple[OnHouseRoof, ...] = ()

    @property
    def snow_cases(self) -> dict[str, Array]:
        """Each case of snow on the wall line, lb."""
        parts = ("S", *SNOW_CASES)
        return {part: P for part, P in self.wall_line.items() if part in parts}

    @property
    def snow(self) -> Array:
        """The largest case of snow on the wall line, lb; 0 where there is none."""
        return np.asarray(greatest(*self.snow_cases.values()))

    def shed_behind(self, part: str, shape: Geometry) -> Array:
        """Even load on the whole back span of snow slid onto the house roof, lb/in; 0 where it
        ends before the back."""
        q, width = self.shed[part]
        return np.asarray(np.where(width >= shape.arm + shape.back_span, q, 0.0))

    @property
    def quake_vertical(self) -> Array:
        """Vertical effect of the earthquake on the wall line, lb, up and down."""
        return np.asarray(self.Ev_per_D * self.wall_line["D"])

    @property
    def present(self) -> frozenset[str]:
        """Parts that are not zero in every case; dead and the worker always count."""
        found = {"D", "D_back", "D_own", "worker", *self.house, *self.shed}
        for by_part in (self.wall_line, self.strip, self.back, self.on_wall, self.along_wall):
            found.update(part for part, load in by_part.items() if load.any())
        return frozenset(found)


def share_of_wall(batch: Batch, shape: Geometry) -> Array:
    """Length of wall whose roof load one outrigger takes, in."""
    if batch.mark is not None:
        return batch.mark.share
    spacing = truss_spacing(batch.case)
    if spacing == "uniform":
        return shape.plan_spacing
    return np.asarray(loads.truss_share(float(spacing), shape.plan_spacing))


def loads_on(batch: Batch, wood: lumber.Wood, shape: Geometry) -> Loads:
    """Loads of the cases, by part. Not given counts as none here and is listed elsewhere.

    Raises:
        InputError, RangeError: a wind or snow provision does not cover the case.
    """
    case, roof, share = batch.case, batch.case.garage_roof, share_of_wall(batch, shape)
    snow = snow_of(batch, shape, wood.size.d)
    lies = snow.lies
    wind = wind_of(batch, shape, share)
    if roof.line is not None:
        # the truss sheet has its own cases: its one load, beside each even snow on the strip
        kept = ("S", "S_min", "S_house", "S_shed")
        lies = {part: lie for part, lie in lies.items() if part in kept}
    live, live_why, live_derived = _roof_live(batch, share)
    psf = {"D": batch.load("garage_roof.dead"), "L": batch.load("garage_roof.storage"), "Lr": live}
    psf |= {"W_up": -np.asarray(wind.uplift.value), "W_down": np.asarray(wind.down.value)}
    hung = {}
    if wind.overhang is not None:  # only uplift differs: down has no coefficient of its own
        hung["W_up"] = replace(wind.overhang, value=-np.asarray(wind.overhang.value))
    on_line = {
        part: load_line(batch, part, q, share, shape, hung.get(part)) for part, q in psf.items()
    }
    on_line |= {part: snow_line(batch, part, lie, share) for part, lie in lies.items()}
    if (less := not_sure(batch, shape, on_line["D"], on_line["W_up"])) is not None:
        on_line["D_less"] = less
    on_line |= elsewhere(batch)
    steps = {
        part: [*wind.steps.get(part, ()), *one.before, *one.totals] for part, one in on_line.items()
    }
    wall_line = {part: one.P for part, one in on_line.items()}
    strip = {part: psf[part] * shape.spacing for part in ("W_up", "W_down")}
    dead = psf["D"] if roof.strip_dead is None else batch.column("garage_roof.strip_dead")
    strip |= {"Lr": psf["Lr"] * shape.plan_area, "D": dead * shape.plan_area}
    ramp, drifted, shed = {}, {}, {}
    for part, lie in lies.items():
        strip[part] = lie.strip * shape.plan_area
        if np.any(lie.strip_slope != 0):
            reach = (shape.end - shape.face) * shape.plan
            ramp[part] = lie.strip_slope * reach * shape.plan_area
        if np.any(lie.house != 0):
            drifted[part] = (lie.house * shape.plan_area, lie.house_width / shape.plan)
        if np.any(lie.house_even != 0):
            shed[part] = (lie.house_even * shape.plan_area, lie.even_width / shape.plan)
    back = {
        "D_back": batch.load("house_roof.dead"),
        "Lr_back": batch.load("house_roof.live"),
        "S_back": snow.back,
    }
    back = {part: q * shape.plan_area for part, q in back.items()}
    back["W_back"] = -wind.suction_back * shape.spacing
    if np.any(wind.press_back != 0):
        back["W_press_back"] = wind.press_back * shape.spacing
    size = wood.size
    weight = column(loads.self_weight(wood, rectangle.area(case.outrigger.plies * size.b, size.d)))
    covered = np.minimum(batch.load("garage_roof.overhang"), shape.arm)
    quake = earthquake(case, wall_line["D"])
    on_wall, along_wall, side_steps, side_why = sideways(batch, shape, wind)
    if quake.square is not None:
        on_wall |= {"E_away": np.asarray(quake.square.value)}
        on_wall |= {"E_toward": -on_wall["E_away"]}
        side_steps |= {part: [quake.square] for part in SHAKEN}
    steps |= side_steps
    totals = {part: one.totals for part, one in on_line.items()} | side_steps
    return Loads(
        wall_line=wall_line,
        line={part: one.line for part, one in on_line.items()},
        strip=strip,
        back=back,
        self_weight=weight,
        covered=covered,
        share=share,
        steps=steps,
        totals=totals,
        strip_ramp=ramp,
        house=drifted,
        shed=shed,
        on_house=snow.on_house,
        reasons=(
            *snow.reasons,
            *wind.reasons,
            *live_why,
            quake.reason,
            *side_why,
        ),
        Ev_per_D=quake.Ev_per_D,
        net_up=quake.net_up,
        on_wall=on_wall,
        along_wall=along_wall,
        quake=quake.steps,
        derived=(
            *live_derived,
            *(one for lie in lies.values() for one in lie.derived),
            *wind.derived,
        ),
    )


def sideways(
    batch: Batch, shape: Geometry, wind: Pressures
) -> tuple[dict[str, Array], dict[str, Array], dict[str, list[Step]], list[str]]:
    """Wind square to the garage wall and force along it, on one outrigger, both ways, lb."""
    pushed, why = dict[str, Step](), list[str]()
    pressed, height = batch.load("garage_wall.out_of_plane_wind"), batch.load("garage_wall.height")
    if wind.wall is not None:
        pushed |= {
            "H_away": _by_spacing(wind.wall.inward_line, shape),
            "H_toward": _by_spacing(wind.wall.outward_line, shape),
        }
    elif np.any(pressed != 0) and np.any(height != 0):
        H = loads.wall_wind.step(q=pressed, h_wall=height, s_plan=shape.plan_spacing)
        pushed |= {"H_away": H, "H_toward": H}
        why.append("wind square to the garage wall: half its height, the roof holds its top")
    steps = {part: [H] for part, H in pushed.items()}
    on_wall = {part: np.asarray(H.value) for part, H in pushed.items()}
    if on_wall:
        on_wall["H_toward"] = -on_wall["H_toward"]
    along_wall = {}
    if batch.any("garage_wall.along"):
        along = batch.column("garage_wall.along")
        A = loads.wall_force.step(w_along=along, s_plan=shape.plan_spacing)
        along_wall["A_one"] = np.asarray(A.value)
        steps["A_one"] = [A]
        if shape.tilt.across:  # elsewhere the two ways mirror each other
            along_wall["A_other"] = -along_wall["A_one"]
    return on_wall, along_wall, steps, why


def _by_spacing(line: Step, shape: Geometry) -> Step:
    """A line load in plf on one outrigger."""
    w = given("w_square", pounds_per_inch(line.value), "lb/in", "", "of the wall, from its plf")
    return loads.wall_wind_of_line.step(
        w_square=replace(w, inputs={line.symbol: line}), s_plan=shape.plan_spacing
    )


def _roof_live(batch: Batch, share: Array) -> tuple[Array, list[str], list[DesignLoad]]:
    """Roof live load, psi; reduced by the outrigger's own tributary area when asked."""
    roof, live = batch.case.garage_roof, batch.load("garage_roof.live")
    if not roof.reduce_live or not np.any(live != 0):
        return live, [], []
    run = batch.load("garage_roof.span") / 2 + batch.load("garage_roof.overhang")
    area = square_feet(share * (run if roof.bearing else column(0.0)))  # the strip is no 200 sf
    reduced = loads.reduced_roof_live(psf_of(live), area, roof.pitch or 0.0)
    value = np.asarray(reduced.value)
    said = reduced.note or f"reduced for {float(area.ravel()[0]):.0f} sf"
    listed = derived("roof live on the garage roof", value, "psf", "service", said)
    said = f"roof live: {float(value.ravel()[0]):.1f} psf, {said}"
    return psi(value) + np.zeros_like(share), [said], [listed]


class Earthquake(Struct, frozen=True, eq=False):
    """Vertical effect per dead load, net upward case per dead load, reason; `square`: the force
    square to the wall, lb."""

    reason: str
    Ev_per_D: float = 0.0
    net_up: float = 0.0
    steps: tuple[Step, ...] = ()
    square: Step | None = None


def earthquake(case: Case, dead: Array) -> Earthquake:
    """What the seismic design category asks of one outrigger. ASCE 7 12.4.2.2, 12.4.4."""
    category, SDS = case.seismic.letter, case.seismic.sds
    stated = case.seismic.category
    named = category if stated == category else f"{stated} (designed as {category})"
    if category in (None, "none"):
        said = "not given" if category is None else "none, by the file's word"
        return Earthquake(f"earthquake: {said}")
    if category == "A":
        return Earthquake("earthquake: category A asks for no seismic load effect here")
    if case.seismic.exempt:
        who = "a detached one- or two-family dwelling, by the file's word"
        return Earthquake(f"earthquake: exempt, ASCE 7 11.1.2 (from memory): {who}")
    if SDS is None:
        return Earthquake(f"earthquake: category {named}, but sds is not given")
    E_up = seismic.upward(category=category, D_dead=1.0)
    E_v = seismic.vertical(SDS=SDS, D_dead=1.0)
    up = float(E_up.value)
    lateral = seismic.lateral(SDS=SDS, W_seismic=dead)
    run = None if case.layout is None else float(feet(case.layout.run))
    risk = case.basis.risk_category
    square = seismic.anchorage(SDS=SDS, W_p=dead, run_ft=run, risk_category=risk)
    said = f"earthquake: category {named}, 0.2 SDS D = {0.2 * SDS:g} D up and down"
    said += f"; {up:g} D net up alone" if up else ""
    first, along = (float(np.ravel(step.value)[0]) for step in (square, lateral))
    said += f"; {first:.0f} lb square to the wall (ASCE 7 12.11.2, from memory); along it about "
    said += f"{along:.0f} lb each, an estimate: the garage's own braced lines take it"
    return Earthquake(said, float(E_v.value), up, (E_v, E_up), square)
