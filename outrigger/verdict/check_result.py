"""One check of one case, at the combination that governs it."""

from msgspec import Struct

from outrigger.base.plain import deciding
from outrigger.formula.check import Check, Status
from outrigger.formula.formula import Step, printed


class CheckResult(Struct, frozen=True, eq=False):
    """One check of one case at its governing combination.

    `column`: of that combination in the arrays; capacity None: not given; ratio None: there is
    none, or a rule decides, see `status`.
    """

    check: Check
    case: int
    status: Status
    column: int
    demand: float
    capacity: float | None
    ratio: float | None

    @property
    def id(self) -> str:
        """Which check: bending, hold_down:back."""
        return self.check.id

    @property
    def place(self) -> str:
        """Where: edge, back, wall line, 16 in."""
        return self.check.place

    @property
    def link(self) -> str:
        """Which link of a chain; empty where there is one alone."""
        return self.check.link.id

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps that led there, as they print at its combination."""
        return printed(self.check.steps, self.check.element(self.case))

    @property
    def unit(self) -> str:
        """Unit of demand and capacity; empty for a ratio."""
        return self.check.unit

    @property
    def clause(self) -> str:
        """Where the standard has it."""
        return self.check.clause

    @property
    def why(self) -> str:
        """Why it does not pass, in words; empty where the numbers say it."""
        return self.check.why if self.status != "pass" else ""

    @property
    def combination(self) -> str:
        """The combination's name; empty where a rule has none."""
        named = self.check.combinations
        return named[self.column].text if named else ""

    @property
    def combination_words(self) -> str:
        """The combination in words."""
        named = self.check.combinations
        return named[self.column].words if named else ""

    def __repr__(self) -> str:
        used = "no ratio" if self.ratio is None else deciding(self.ratio, 3)
        where = ", ".join(part for part in (self.place, self.link) if part)
        under = f" under {self.combination}" if self.combination else ""
        return f"<{self.id} at {where}: {used}{under}, {self.status}>"


def closest_of(rows: list[CheckResult]) -> CheckResult:
    """Of the checks of a case the one that decides: it fails by a rule, else the largest ratio."""
    by_rule = [row for row in rows if row.status == "fail" and row.ratio is None]
    if by_rule:
        return by_rule[0]
    strengths = [row for row in rows if not row.check.link.is_distance or row.status != "pass"]
    return max(strengths, key=lambda row: -1.0 if row.ratio is None else row.ratio)
