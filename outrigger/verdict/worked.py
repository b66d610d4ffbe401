"""What is computed of a batch of cases: the one path of every command."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from outrigger.actions.axes import by_axis
from outrigger.actions.combined import Combined, combine
from outrigger.actions.geometry import Geometry, geometry
from outrigger.actions.loads import Loads, loads_on
from outrigger.actions.model import CRUSH_IN, Model
from outrigger.actions.response import stiffness
from outrigger.actions.sums import combinations_of
from outrigger.cases.batch import Batch
from outrigger.checks.every import all_checks
from outrigger.checks.loaded_member import LEAST_CONTACT_IN, SHEATHING_PSI, LoadedMember, contact
from outrigger.checks.movement import movements
from outrigger.formula.check import Check
from outrigger.formula.numbers import Array, Bools
from outrigger.loads.combinations import PARTS
from outrigger.marks.of_case import at_marks
from outrigger.verdict.check_result import CheckResult
from outrigger.wood import lumber
from outrigger.wood.adjusted import Conditions

REPETITIVE_MOST_IN = 24.0


@dataclass(frozen=True, eq=False)
class Worked:
    """What is computed of a batch, alike for one case and for many; arrays (cases, ...)."""

    batch: Batch
    wood: lumber.Wood
    shape: Geometry
    loads: Loads
    model: Model
    main: Combined
    clips: Combined
    checks: tuple[Check, ...]
    member: LoadedMember

    def row(self, check: Check, case: int = 0) -> CheckResult:
        """One check of one case at its governing combination."""
        combination = check.governing(case)
        demand = check.demand_at(case, combination)
        capacity = check.capacity_at(case, combination)
        ratio = None
        if capacity is not None and capacity > 0 and check.rule != "fail":
            ratio = demand / capacity if demand else 0.0
        elif demand == 0 and check.rule != "fail" and capacity is not None:
            ratio = 0.0
        status = check.status(case)
        return CheckResult(check, case, status, combination, demand, capacity, ratio)

    def works(self, case: int = 0) -> bool:
        """No check fails, and none that has a ratio is over 1: what is open stays open."""
        return bool(self.working[case])

    @cached_property
    def ratios(self) -> Array:
        """The largest ratio of each check, (checks, cases).

        NaN where none is known; infinite where a rule or a missing tie decides.
        """
        found = np.full((len(self.checks), self.batch.count), np.nan)
        for check, row in zip(self.checks, found, strict=True):
            if check.rule == "fail":
                row[:] = np.inf
            elif check.capacity is not None:
                row[:] = check.largest_ratio
        return found

    @cached_property
    def working(self) -> Bools:
        """Of each case, whether it works."""
        known = np.array([c.capacity is not None or c.rule == "fail" for c in self.checks])
        return np.asarray(np.all(self.ratios[known] <= 1, axis=0))


def worked_of(batch: Batch) -> Worked:
    """What is computed of a batch: the one path of every command.

    Raises:
        InputError: species, grade, size or a factor that the tables do not have.
    """
    case = batch.case
    if case.layout is not None and batch.mark is None:
        batch = _at_worst_mark(batch)
    piece = case.outrigger
    wood = lumber.wood(piece.species, piece.grade, piece.size)
    conditions = Conditions(
        case.basis.method,
        wet=piece.moisture == "wet",
        temperature=piece.temperature,
        incised=piece.incised,
        repetitive=_repetitive(batch),
        flat=piece.laid == "flat",
    )
    shape = geometry(batch)
    on = loads_on(batch, wood, shape)
    present = on.present
    parts = tuple(part for part in PARTS if part in present)
    size = wood.size
    b, d = (size.d, size.b) if conditions.flat else (size.b, size.d)
    stiff = stiffness(wood, conditions, b * piece.plies, d)
    other = replace(conditions, flat=not conditions.flat)
    side = stiffness(wood, other, d * piece.plies, b)  # the plies bend side by side
    model = Model(batch, wood, shape, on, parts, stiff, by_axis(on, shape, d), side)
    quake = (on.Ev_per_D, on.net_up)
    main_set = combinations_of(case.basis.loads, conditions.method, parts, *quake)
    clip_set = combinations_of(case.basis.loads, "ASD", parts, *quake)
    edge_stiffness = _edge_stiffness(batch, wood, b * piece.plies, d)
    main = combine(model, main_set, edge_stiffness)
    clips = main if clip_set is main_set else combine(model, clip_set, edge_stiffness)
    member = LoadedMember(model, conditions, main, clips)
    strength = all_checks(member)
    checks = (*strength, *movements(member, strength))
    return Worked(batch, wood, shape, on, model, main, clips, checks, member)


def _at_worst_mark(batch: Batch) -> Batch:
    """Each case at the mark with the largest ratio; the first where a rule decides for several."""
    every, owner = at_marks(batch)
    ratios = worked_of(every).ratios
    finite = np.where(np.isfinite(ratios), ratios, 0.0).max(axis=0)
    order = np.lexsort((-np.arange(len(owner)), finite, np.isinf(ratios).sum(axis=0), owner))
    last_of_owner = np.append(np.flatnonzero(np.diff(owner[order])), len(owner) - 1)
    return every.taken(order[last_of_owner])


def _repetitive(batch: Batch) -> bool | Bools:
    """Whether Cr is claimed and may be, case by case: 24 in at most (NDS 2018 4.3.9)."""
    if not batch.case.outrigger.repetitive:
        return False
    close = batch.column("outrigger.spacing") <= REPETITIVE_MOST_IN
    return bool(close[0, 0]) if len(close) == 1 else close


def _edge_stiffness(batch: Batch, wood: lumber.Wood, b: float, d: float) -> Array:
    """Spring at the edge, lb/in: bearing area x design value / 0.04 in, two layers in series."""
    area = b * np.maximum(contact(batch, d), LEAST_CONTACT_IN)
    panel = batch.case.house_roof.sheathing_bearing or SHEATHING_PSI
    give = CRUSH_IN / (area * wood.row.values["Fc_perp"].value) + CRUSH_IN / (area * panel)
    return np.asarray(1 / give)
