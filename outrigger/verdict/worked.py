"""What is computed of a batch of cases: the one path of every command."""

from functools import cached_property

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from outrigger.actions.axes import by_axis
from outrigger.actions.combined import Combined, combine
from outrigger.actions.geometry import Geometry, geometry
from outrigger.actions.loads import Loads, loads_on
from outrigger.actions.model import CRUSH_IN, Model
from outrigger.actions.response import stiffness
from outrigger.cases.batch import Batch
from outrigger.checks.at_wall import AtWall
from outrigger.checks.every import all_checks
from outrigger.checks.loaded_member import LEAST_CONTACT_IN, SHEATHING_PSI, LoadedMember, contact
from outrigger.checks.movement import movements
from outrigger.formula.check import Check
from outrigger.formula.numbers import Array, Bools
from outrigger.formula.settled import settled
from outrigger.loads.parts import PARTS
from outrigger.marks.of_case import at_marks
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.first_inside import at_first_inside, takes_more
from outrigger.verdict.worst_mark import worst_of_each
from outrigger.wood import lumber
from outrigger.wood.adjusted import Conditions

REPETITIVE_MOST_IN = 24.0
# cells, cases times combinations, of one design: more take more memory (0.6 kB a cell) than they
# save time; cases of the first, whose combinations are not known yet: up to 1,250
CHUNK, FIRST = 240_000, 192


class Worked(Struct, frozen=True, eq=False, dict=True):
    """What is computed of a batch, alike for one case and for many; arrays (cases, ...).

    `counted`: its checks are worked down to what is asked of many, without their steps.
    `marks`: of one case with a layout, the same of each of its marks that carries otherwise than
    those before it; None: no layout, or many cases.
    """

    batch: Batch
    wood: lumber.Wood
    shape: Geometry
    loads: Loads
    model: Model
    main: Combined
    clips: Combined
    checks: tuple[Check, ...]
    member: LoadedMember
    at_wall: AtWall
    counted: bool = False
    marks: "Worked | None" = None

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
        return CheckResult(
            check=check,
            case=case,
            status=status,
            column=combination,
            demand=demand,
            capacity=capacity,
            ratio=ratio,
        )

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

    @property
    def over_marks(self) -> "Worked":
        """The marks of a layout; itself where there is none."""
        return self.marks or self

    @cached_property
    def strength(self) -> Combined:
        """The actions in the combinations of strength design, whatever the method of the case."""
        if self.main.combinations.method == "LRFD":
            return self.main
        return combine(self.model, self.model.combinations("LRFD"), self.main.edge_stiffness)

    @cached_property
    def numbers(self) -> list[int | None]:
        """The mark of each case, numbered from the datum; None: no layout."""
        mark = self.batch.mark
        return [None] * self.batch.count if mark is None else [int(n) for n in mark.number[:, 0]]

    @cached_property
    def levels(self) -> NDArray[np.intp]:
        """The status of each check, (checks, cases): its number in `STATUSES`."""
        every = [np.broadcast_to(check.levels, self.batch.count) for check in self.checks]
        return np.stack(every)

    @cached_property
    def holding(self) -> Bools:
        """Of each case, whether it works with the share of the roof that it has."""
        known = np.array([c.capacity is not None or c.rule == "fail" for c in self.checks])
        return np.asarray(np.all(self.ratios[known] <= 1, axis=0))

    @cached_property
    def inside(self) -> "tuple[Worked, NDArray[np.intp]] | None":
        """What is computed of the first outrigger inside a continuous plate, and which of the cases
        it is of: those that work, and have no layout; None: no such case.

        Every one of them: what holds a pull back does not grow with the share, so that a pull may
        grow to any multiple.
        """
        asked = takes_more(self.batch, self.shape)
        if not np.any(asked) or not np.any(asked & self.holding):
            return None
        which = np.flatnonzero(asked & self.holding)
        cases = at_first_inside(self.batch, self.shape, self.loads.share, which)
        return worked_of(cases, counted=self.counted), which

    @cached_property
    def over_inside(self) -> NDArray[np.intp]:
        """Of each case its number in `inside` where it does not work there; -1 elsewhere."""
        found = np.full(self.batch.count, -1)
        if self.inside is not None:
            first, which = self.inside
            over = np.flatnonzero(~first.holding)
            found[which[over]] = over
        return found

    @cached_property
    def working(self) -> Bools:
        """Of each case, whether it works, the first outrigger inside a continuous plate too."""
        return self.holding & (self.over_inside < 0)

    @cached_property
    def deciding(self) -> Array:
        """As `ratios`, of the first outrigger inside where only that one does not work."""
        over = np.flatnonzero(self.over_inside >= 0)
        if self.inside is None or not len(over):
            return self.ratios
        first, found = self.inside[0], self.ratios.copy()
        for i, check in enumerate(self.checks):
            at = first.like(check)
            found[i, over] = np.nan if at is None else first.ratios[at, self.over_inside[over]]
        return found

    def like(self, check: Check) -> int | None:
        """Where the check of the same thing at the same place stands among these."""
        same = (i for i, c in enumerate(self.checks)
                if (c.link, c.place) == (check.link, check.place))  # fmt: skip
        return next(same, None)

    @cached_property
    def leading(self) -> NDArray[np.intp]:
        """Of each case: which of the checks decides, (cases,)."""
        analogy = np.array([[check.rule == "analogy"] for check in self.checks])
        distance = np.array([[check.link.is_distance] for check in self.checks])
        aside = (np.isinf(self.deciding) & analogy) | ((self.deciding <= 1) & distance)
        shown = np.where(aside | np.isnan(self.deciding), -1.0, self.deciding)
        return np.asarray(np.argmax(shown, axis=0))

    def decides(self, case: int) -> CheckResult:
        """The check that decides one case: of the outrigger that is checked, or where only that
        does not work of the first one inside a continuous plate."""
        check = self.checks[self.leading[case]]
        if self.inside is not None and (at := int(self.over_inside[case])) >= 0:
            first = self.inside[0]
            if (same := first.like(check)) is not None:
                return first.row(first.checks[same], at)
        return self.row(check, case)


def worked_of(batch: Batch, *, counted: bool = False) -> Worked:
    """What is computed of a batch: the one path of every command.

    `counted`: each check is worked down as soon as it is made. The arrays of all of them take more
    memory than the rest, and the machine as long to find it as to compute them.

    Raises:
        InputError: species, grade, size or a factor that the tables do not have.
    """
    if batch.case.layout is not None and batch.mark is None:
        return _at_worst_mark(batch, counted)
    member = loaded_of(batch)
    strength = [settled(check) if counted else check for check in all_checks(member)]
    moved, droop = movements(member, strength)
    return Worked(
        batch=batch,
        wood=member.model.wood,
        shape=member.model.shape,
        loads=member.model.loads,
        model=member.model,
        main=member.main,
        clips=member.clips,
        checks=(*strength, *(settled(check) if counted else check for check in moved)),
        member=member,
        at_wall=droop,
        counted=counted,
    )


def loaded_of(batch: Batch) -> LoadedMember:
    """The actions that a batch is checked for; with a layout, at the marks that it names.

    Raises:
        InputError: species, grade, size or a factor that the tables do not have.
    """
    case = batch.case
    piece = case.outrigger
    wood = _wood(batch)
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
    model = Model(
        batch=batch,
        wood=wood,
        shape=shape,
        loads=on,
        parts=parts,
        stiff=stiff,
        by_axis=by_axis(on, shape, d),
        side=side,
    )
    main_set, clip_set = model.combinations(conditions.method), model.combinations("ASD")
    edge_stiffness = _edge_stiffness(batch, wood, b * piece.plies, d)
    main = combine(model, main_set, edge_stiffness)
    clips = main if clip_set is main_set else combine(model, clip_set, edge_stiffness)
    return LoadedMember(model, conditions, main, clips)


def _wood(batch: Batch) -> lumber.Wood:
    """The lumber of the cases, of each its own grade where they differ."""
    piece, grades = batch.case.outrigger, batch.grades
    if grades is None:
        return lumber.wood(piece.species, piece.grade, piece.size)
    woods = [lumber.wood(piece.species, grade, piece.size) for grade in grades.names]
    return lumber.together(woods, grades.which)


def _at_worst_mark(batch: Batch, counted: bool) -> Worked:
    """Each case at the worst of its marks."""
    every, owner = at_marks(batch)
    if batch.count == 1:
        found = worked_of(every, counted=counted)
        at_worst = every.taken(worst_of_each(found.ratios, found.levels, owner))
        return replace(worked_of(at_worst, counted=counted), marks=found)
    last = np.flatnonzero(np.append(np.diff(owner) > 0, True)) + 1  # where a case ends
    worst, start, rows = list[NDArray[np.intp]](), 0, FIRST
    while start < len(owner):
        within = last[(last > start) & (last <= start + rows)]
        stop = int(within[-1] if len(within) else last[last > start][0])
        found = worked_of(every.taken(np.arange(start, stop)), counted=True)
        own = owner[start:stop] - owner[start]
        worst.append(start + worst_of_each(found.ratios, found.levels, own))
        start, rows = stop, CHUNK // len(found.main.combinations.all)
    return worked_of(every.taken(np.hstack(worst)), counted=counted)


def _repetitive(batch: Batch) -> bool | Bools:
    """Whether Cr is claimed and may be, case by case: 24 in at most (NDS 2018 4.3.9), beside an
    opening too."""
    if not batch.case.outrigger.repetitive:
        return False
    apart = batch.bay if batch.mark is None else np.maximum(batch.bay, batch.mark.widest)
    close = apart <= REPETITIVE_MOST_IN
    return bool(close[0, 0]) if len(close) == 1 else close


def _edge_stiffness(batch: Batch, wood: lumber.Wood, b: float, d: float) -> Array:
    """Spring at the edge, lb/in: bearing area x design value / 0.04 in, two layers in series."""
    area = b * np.maximum(contact(batch, d), LEAST_CONTACT_IN)
    panel = batch.case.house_roof.sheathing_bearing or SHEATHING_PSI
    give = CRUSH_IN / (area * wood.value("Fc_perp")) + CRUSH_IN / (area * panel)
    return np.asarray(1 / give)
