"""A design: what follows from a case. `design(case)` is the one path of every command."""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from outrigger.actions.axes import by_axis
from outrigger.actions.combined import Combined, combine
from outrigger.actions.geometry import Geometry, column, geometry
from outrigger.actions.loads import Loads, loads_on
from outrigger.actions.model import CRUSH_IN, Model, unit_droop
from outrigger.actions.reactions import reactions_by_case, side_reactions
from outrigger.actions.response import stiffness
from outrigger.actions.sums import combinations_of
from outrigger.cases.model import Case
from outrigger.checks.every import all_checks
from outrigger.checks.loaded_member import LEAST_CONTACT_IN, SHEATHING_PSI, LoadedMember, contact
from outrigger.checks.movement import Bent, bent, movements
from outrigger.formula.check import Check, Status
from outrigger.formula.numbers import Array, Bools
from outrigger.loads.combinations import PARTS
from outrigger.marks.of_case import at_marks
from outrigger.verdict import unsaid as stated
from outrigger.wood import lumber
from outrigger.wood.adjusted import Conditions

REPETITIVE_MOST_IN = 24.0


@dataclass(frozen=True, eq=False)
class CheckResult:
    """One check of one case at its governing combination. ratio None: see `Check.status`."""

    check: Check
    case: int
    status: Status
    combination: int
    demand: float
    capacity: float | None
    ratio: float | None

    @property
    def combination_text(self) -> str:
        """The combination's name; empty where a rule has none."""
        named = self.check.combinations
        return named[self.combination].text if named else ""

    @property
    def combination_words(self) -> str:
        """The combination in words."""
        named = self.check.combinations
        return named[self.combination].words if named else ""


@dataclass(frozen=True, eq=False)
class Design:
    """What follows from a case, for one or many cases at once."""

    case: Case
    wood: lumber.Wood
    shape: Geometry
    loads: Loads
    model: Model
    main: Combined
    clips: Combined
    checks: tuple[Check, ...]
    member: LoadedMember

    @property
    def count(self) -> int:
        """How many cases; 1 where nothing swept reaches any check."""
        sides = [side for c in self.checks for side in (c.demand, c.capacity) if side is not None]
        return max(len(np.atleast_2d(np.asarray(side))) for side in sides)

    @cached_property
    def not_given(self) -> list[stated.NotGiven]:
        """Needed, and not in the file."""
        return stated.not_given(self.case)

    @cached_property
    def not_covered(self) -> list[str]:
        """In the file, and not computed."""
        return stated.not_covered(self.case)

    @cached_property
    def defaults(self) -> list[str]:
        """Taken because the file leaves them out."""
        return stated.defaults(self.case)

    def row(self, check: Check, case: int = 0) -> CheckResult:
        """One check at its governing combination."""
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

    def rows(self, case: int = 0) -> list[CheckResult]:
        """Every check of one case."""
        return [self.row(check, case) for check in self.checks]

    def verdict(self, case: int = 0) -> Status:
        """Fail if any check fails, else open if anything is open, not given or not covered."""
        found = {check.status(case) for check in self.checks}
        if "fail" in found:
            return "fail"
        return "open" if "open" in found or self.not_given or self.not_covered else "pass"

    def governing(self, case: int = 0) -> CheckResult:
        """The check that decides: one that fails by a rule, else the largest ratio."""
        rows = self.rows(case)
        by_rule = [row for row in rows if row.status == "fail" and row.ratio is None]
        if by_rule:
            return by_rule[0]
        strengths = [row for row in rows if not row.check.link.is_distance or row.status != "pass"]
        return max(strengths, key=lambda row: -1.0 if row.ratio is None else row.ratio)

    @cached_property
    def ratios(self) -> Array:
        """The largest ratio of each check, (checks, cases).

        NaN where none is known; infinite where a rule or a missing tie decides.
        """
        found = np.full((len(self.checks), self.count), np.nan)
        for check, row in zip(self.checks, found, strict=True):
            if check.rule == "fail":
                row[:] = np.inf
            elif check.capacity is not None:
                row[:] = check.largest_ratio
        return found

    @cached_property
    def working(self) -> Bools:
        """Of each case: no check fails, and none that has a ratio is over 1. What is open stays
        open."""
        known = np.array([c.capacity is not None or c.rule == "fail" for c in self.checks])
        return np.asarray(np.all(self.ratios[known] <= 1, axis=0))

    @cached_property
    def leading(self) -> NDArray[np.intp]:
        """Of each case: which of the checks governs, as `governing` has it."""
        analogy = np.array([[check.rule == "analogy"] for check in self.checks])
        distance = np.array([[check.link.is_distance] for check in self.checks])
        aside = (np.isinf(self.ratios) & analogy) | ((self.ratios <= 1) & distance)
        shown = np.where(aside, np.nan, self.ratios)
        return np.asarray(np.argmax(np.where(np.isnan(shown), -1.0, shown), axis=0))

    def leading_row(self, case: int) -> CheckResult:
        """As `governing`, without the rows of the others."""
        at = case if len(self.leading) > 1 else 0  # a number that reaches no check is one case
        return self.row(self.checks[self.leading[at]], case)

    def works(self, case: int = 0) -> bool:
        """No check fails and none that has a ratio is over 1: what is open stays open."""
        return bool(self.working[case])

    @cached_property
    def reactions(self) -> dict[str, dict[str, Array]]:
        """Unfactored reactions, lb, square to the sheathing, by place and load case."""
        return reactions_by_case(self.model)

    @cached_property
    def side_reactions(self) -> dict[str, dict[str, Array]]:
        """Unfactored forces in the plane of the sheathing, lb: along, and across by place."""
        return side_reactions(self.model)

    @cached_property
    def tip_stiffness(self) -> Array:
        """Force at the wall line for 1 in of movement there, lb/in."""
        return 1 / unit_droop(self.model)

    @cached_property
    def bent(self) -> Bent:
        """Bow of the back span, and turn of the end at the wall line, of the first case."""
        return bent(self.member)


def design(case: Case) -> Design:
    """What follows from a case; swept fields hold arrays (cases, 1). With a layout: of the mark
    that is the worst in each.

    Raises:
        InputError: species, grade, size or a factor that the tables do not have.
    """
    if case.layout is not None and case.mark is None:
        case = _at_worst_mark(case)
    piece = case.outrigger
    wood = lumber.wood(piece.species, piece.grade, piece.size)
    conditions = Conditions(
        case.basis.method,
        wet=piece.moisture == "wet",
        temperature=piece.temperature,
        incised=piece.incised,
        repetitive=_repetitive(case),
        flat=piece.laid == "flat",
    )
    shape = geometry(case)
    on = loads_on(case, wood, shape)
    present = on.present
    parts = tuple(part for part in PARTS if part in present)
    size = wood.size
    b, d = (size.d, size.b) if conditions.flat else (size.b, size.d)
    stiff = stiffness(wood, conditions, b * piece.plies, d)
    other = replace(conditions, flat=not conditions.flat)
    side = stiffness(wood, other, d * piece.plies, b)  # the plies bend side by side
    model = Model(case, wood, shape, on, parts, stiff, by_axis(on, shape, d), side)
    quake = (on.Ev_per_D, on.net_up)
    main_set = combinations_of(case.basis.loads, conditions.method, parts, *quake)
    clip_set = combinations_of(case.basis.loads, "ASD", parts, *quake)
    edge_stiffness = _edge_stiffness(case, wood, b * piece.plies, d)
    main = combine(model, main_set, edge_stiffness)
    clips = main if clip_set is main_set else combine(model, clip_set, edge_stiffness)
    member = LoadedMember(model, conditions, main, clips)
    strength = all_checks(member)
    checks = (*strength, *movements(member, strength))
    return Design(case, wood, shape, on, model, main, clips, checks, member)


def _at_worst_mark(case: Case) -> Case:
    """Each case at the mark with the largest ratio; the first where a rule decides for several."""
    every, owner = at_marks(case)
    found = design(every).ratios
    ratios = np.broadcast_to(found, (len(found), len(owner)))
    finite = np.where(np.isfinite(ratios), ratios, 0.0).max(axis=0)
    order = np.lexsort((-np.arange(len(owner)), finite, np.isinf(ratios).sum(axis=0), owner))
    last_of_owner = np.append(np.flatnonzero(np.diff(owner[order])), len(owner) - 1)
    return every.taken(order[last_of_owner])


def _repetitive(case: Case) -> bool | Bools:
    """Whether Cr is claimed and may be, case by case: 24 in at most (NDS 2018 4.3.9)."""
    if not case.outrigger.repetitive:
        return False
    close = column(case.outrigger.spacing) <= REPETITIVE_MOST_IN
    return bool(close[0, 0]) if len(close) == 1 else close


def _edge_stiffness(case: Case, wood: lumber.Wood, b: float, d: float) -> Array:
    """Spring at the edge, lb/in: bearing area x design value / 0.04 in, two layers in series."""
    area = b * np.maximum(contact(case, d), LEAST_CONTACT_IN)
    panel = case.house_roof.sheathing_bearing or SHEATHING_PSI
    give = CRUSH_IN / (area * wood.row.values["Fc_perp"].value) + CRUSH_IN / (area * panel)
    return np.asarray(1 / give)
