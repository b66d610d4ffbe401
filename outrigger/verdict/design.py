"""A design, what follows from one case, and designs, what follows from many.

`design(case)` and `designs_of(batch)` are one computation: a single case is a batch of one.
"""

from functools import cached_property

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from outrigger.actions.combined import Combined
from outrigger.actions.geometry import Geometry
from outrigger.actions.loads import Loads
from outrigger.actions.model import Model, unit_droop
from outrigger.cases.batch import Batch
from outrigger.cases.model import Case
from outrigger.checks.at_wall import AtWall
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.movement import Bent, bent
from outrigger.formula.check import Check, Status
from outrigger.formula.numbers import Array, Bools
from outrigger.verdict import not_covered, taken, unsaid, unsaid_below
from outrigger.verdict.check_result import CheckResult, closest_of
from outrigger.verdict.missing_fact import NotGiven, run
from outrigger.verdict.worked import Worked, worked_of
from outrigger.wood import lumber


class Design(Struct, frozen=True, eq=False, dict=True):
    """What follows from one case."""

    worked: Worked

    @property
    def case(self) -> Case:
        """What the user states."""
        return self.worked.batch.case

    @property
    def mark(self) -> int | None:
        """Of a layout the number of the mark that is checked, the worst; from the datum."""
        mark = self.worked.batch.mark
        return None if mark is None else int(mark.number[0, 0])

    @property
    def wood(self) -> lumber.Wood:
        """The lumber."""
        return self.worked.wood

    @property
    def shape(self) -> Geometry:
        """Lengths."""
        return self.worked.shape

    @property
    def loads(self) -> Loads:
        """Loads on one outrigger."""
        return self.worked.loads

    @property
    def model(self) -> Model:
        """Loads, stiffness and supports, as the statics takes them."""
        return self.worked.model

    @property
    def main(self) -> Combined:
        """Actions in the combinations of the method."""
        return self.worked.main

    @property
    def clips(self) -> Combined:
        """Actions in the ASD combinations, for listed values."""
        return self.worked.clips

    @property
    def checks(self) -> tuple[Check, ...]:
        """Every check."""
        return self.worked.checks

    @property
    def member(self) -> LoadedMember:
        """What the checks are worked from."""
        return self.worked.member

    @cached_property
    def not_given(self) -> list[NotGiven]:
        """Needed, and not in the file."""
        over = self._over_inside
        found = [*unsaid.not_given(self.case), *unsaid_below.not_given(self.case, self.checks)]
        return [*found, *([] if over is None else [run(over.ratio)])]

    @cached_property
    def not_covered(self) -> list[str]:
        """In the file, and not computed."""
        return not_covered.not_covered(self.case)

    @cached_property
    def defaults(self) -> list[str]:
        """Taken because the file leaves them out."""
        return taken.defaults(self.case)

    @cached_property
    def rows(self) -> list[CheckResult]:
        """Every check at its governing combination."""
        return [self.worked.row(check) for check in self.checks]

    def row(self, check: Check) -> CheckResult:
        """One of its checks at its governing combination."""
        return self.worked.row(check)

    @property
    def verdict(self) -> Status:
        """Fail if any check fails, else open if anything is open, not given or not covered."""
        found = {check.status() for check in self.checks}
        if "fail" in found:
            return "fail"
        return "open" if "open" in found or self.not_given or self.not_covered else "pass"

    @property
    def works(self) -> bool:
        """No check fails, and none that has a ratio is over 1, nor would at the first outrigger
        inside a continuous plate: what is open stays open."""
        return self.worked.works()

    @property
    def closest(self) -> CheckResult:
        """The check that decides: one that fails by a rule, else the largest ratio; where only the
        first outrigger inside a continuous plate does not work, of that one."""
        return self._over_inside or closest_of(self.rows)

    @property
    def _over_inside(self) -> CheckResult | None:
        """What decides at the first outrigger inside, where only that one does not work."""
        return self.worked.decides(0) if self.worked.over_inside[0] >= 0 else None

    @cached_property
    def tip_stiffness(self) -> Array:
        """Force at the wall line for 1 in of movement there, lb/in."""
        return 1 / unit_droop(self.model)

    @property
    def at_wall(self) -> AtWall:
        """Droop at the garage wall: of the wood, and with slip and crushing."""
        return self.worked.at_wall

    @cached_property
    def bent(self) -> Bent:
        """Bow of the back span, and turn of the end at the wall line."""
        return bent(self.member)

    def __repr__(self) -> str:
        return f"<Design of {self.case.project.name!r}: {self.verdict}, closest {self.closest!r}>"


class Designs(Struct, frozen=True, eq=False, dict=True):
    """What follows from many cases at once: arrays, a column or an element for each case."""

    worked: Worked

    @property
    def batch(self) -> Batch:
        """The cases."""
        return self.worked.batch

    @property
    def count(self) -> int:
        """How many cases."""
        return self.batch.count

    @property
    def checks(self) -> tuple[Check, ...]:
        """The checks, of all the cases."""
        return self.worked.checks

    @property
    def shape(self) -> Geometry:
        """Lengths, columns (cases, 1), or (1, 1) where all have the same."""
        return self.worked.shape

    @property
    def ratios(self) -> Array:
        """The largest ratio of each check, (checks, cases).

        NaN where none is known; infinite where a rule or a missing tie decides.
        """
        return self.worked.ratios

    @property
    def works(self) -> Bools:
        """Of each case: no check fails, and none that has a ratio is over 1, (cases,), nor would at
        the first outrigger inside a continuous plate. What is open stays open."""
        return self.worked.working

    @cached_property
    def largest(self) -> Array:
        """Of each case the largest ratio; 0 where none is known, (cases,)."""
        found = self.worked.deciding
        return np.asarray(np.where(np.isnan(found), 0.0, found).max(axis=0))

    @cached_property
    def own(self) -> Array:
        """As `largest`, of the outrigger that is checked alone, (cases,)."""
        return np.asarray(np.nan_to_num(self.worked.ratios, nan=0.0, posinf=np.inf).max(axis=0))

    @cached_property
    def with_inside(self) -> Array:
        """As `largest`, and no less than at the first outrigger inside where that was looked at:
        without the jump to it, so that a search can follow it, (cases,)."""
        found = self.largest.copy()
        if self.worked.inside is not None:
            first, which = self.worked.inside
            found[which] = np.maximum(found[which], Designs(first).largest)
        return found

    @property
    def leading(self) -> NDArray[np.intp]:
        """Of each case: which of the checks decides, as `closest` of its design, (cases,)."""
        return self.worked.leading

    def closest(self, case: int) -> CheckResult:
        """The check that decides one of the cases, as `closest` of its design.

        Raises:
            IndexError: there are fewer cases.
        """
        self.batch.check_index(case)
        return self.worked.decides(case)

    def row(self, check: Check, case: int) -> CheckResult:
        """One of the checks of one of the cases at its governing combination.

        Raises:
            IndexError: there are fewer cases.
        """
        self.batch.check_index(case)
        return self.worked.row(check, case)

    def rows(self, case: int) -> list[CheckResult]:
        """Every check of one of the cases at its governing combination.

        Raises:
            IndexError: there are fewer cases.
        """
        self.batch.check_index(case)
        return [self.row(check, case) for check in self.checks]

    def __repr__(self) -> str:
        return f"<Designs of {self.batch!r}: {int(self.works.sum())} work>"


def design(case: Case) -> Design:
    """What follows from a case; with a layout, of the mark that is the worst.

    Raises:
        InputError: species, grade, size or a factor that the tables do not have.
    """
    return Design(worked_of(Batch(case)))


def designs_of(batch: Batch) -> Designs:
    """What follows from many cases; with a layout, of the mark that is the worst in each.

    Raises:
        InputError: species, grade, size or a factor that the tables do not have.
    """
    return Designs(worked_of(batch))
