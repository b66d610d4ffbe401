"""What `size` tries: every grade of a species in every size, over spacings and back spans."""

from collections.abc import Iterator, Sequence
from itertools import groupby, product
from typing import NamedTuple

import numpy as np
from msgspec import Struct

from outrigger.base.errors import InputError
from outrigger.cases.batch import Grades
from outrigger.cases.model import Case
from outrigger.cases.paths import with_values
from outrigger.formula.numbers import Array, Bools
from outrigger.studies.reserve import named_places
from outrigger.studies.screen import Index, Marks, Screen, governing
from outrigger.studies.search import Few, designs, every_mark
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, Designs
from outrigger.wood import dressed, reference

MOST_PLIES, THICKER_IN = 3, (3.0, 4.0)

Built = tuple[int, float]  # plies, and their nominal thickness, in


class Closest(NamedTuple):
    """Of a family of which nothing works what comes closest: lengths in, the ratio, its check."""

    spacing: float
    back_span: float
    arm: float
    ratio: float
    row: CheckResult


class Family(Struct, frozen=True, eq=False):
    """One grade in one size at every spacing and back span: which of them work, what follows of
    each that does as its designs and its number among them, and where none does what comes closest.
    """

    case: Case
    grade: reference.Grade
    size: str
    works: Bools
    found: dict[int, tuple[Designs, int]]
    closest: Closest | None

    @property
    def plies(self) -> int:
        """Pieces side by side."""
        return self.case.outrigger.plies

    @property
    def alike(self) -> tuple[str, int, str]:
        """What its grades share."""
        return self.grade.species, self.plies, self.size


class Tried(NamedTuple):
    """Grades of one species and kind in one size, over the same spacings and back spans: all of
    them in one batch, since they differ in a few design values alone."""

    cases: list[Case]
    grades: list[reference.Grade]
    size: str
    grid: dict[str, Array]

    @property
    def wide(self) -> int:
        """How many spacings and back spans."""
        return len(next(iter(self.grid.values())))

    def of(self, rows: Index) -> tuple[Case, dict[str, Array], Grades]:
        """Some rows, grade by grade of the grid, as a sweep takes them."""
        names = tuple(one.outrigger.grade for one in self.cases)
        swept = {path: of[rows % self.wide] for path, of in self.grid.items()}
        return self.cases[0], swept, Grades(names, rows // self.wide)

    def ask(self, _: Index, rows: Index, look: Few | None) -> Marks:
        """The rows, as a search asks them."""
        case, swept, grades = self.of(rows)
        return every_mark(case, swept, look, grades)

    def designs(self, rows: Index) -> Iterator[tuple[Index, Designs]]:
        """The designs of some rows, in chunks, each with the rows that it holds."""
        case, swept, grades = self.of(rows)
        for part, result in designs(case, swept, grades=grades):
            yield rows[part], result

    def families(self, screen: Screen, mark: int | None) -> Iterator[Family]:
        """Of each grade what works. What few combinations refuse is asked no more, of a layout what
        they refuse at one mark, the worst of the case, at no other."""
        rows = np.arange(len(self.cases) * self.wide)
        held, ratios = np.ones(len(rows), dtype=bool), np.zeros(len(rows))
        for at in dict.fromkeys([mark, None]):
            left = np.flatnonzero(held)
            held[left], ratios[left] = screen.at_mark(at).few(left, left)
        works, found = np.zeros(len(rows), dtype=bool), dict[int, tuple[Designs, int]]()
        for part, result in self.designs(rows[held]):
            works[part] = result.works
            found |= {int(row): (result, i) for i, row in enumerate(part) if works[row]}
        of_each = works.reshape(-1, self.wide)
        none = np.flatnonzero(~of_each.any(axis=1))
        least = self._closest(screen, none, ratios.reshape(-1, self.wide))
        for i, (case, grade) in enumerate(zip(self.cases, self.grades, strict=True)):
            own = {j: found[i * self.wide + j] for j in np.flatnonzero(of_each[i]).tolist()}
            yield Family(case, grade, self.size, of_each[i], own, least.get(i))

    def _closest(self, screen: Screen, none: Index, ratios: Array) -> dict[int, Closest]:
        """Of each grade of which nothing works what comes closest; ratios: by few combinations."""
        if not len(none):
            return {}
        rows = none[:, None] * self.wide + np.arange(self.wide)
        nearest = none * self.wide + screen.closest(rows, rows, ratios[none])
        return {
            int(row) // self.wide: Closest(
                *place(found, i), float(found.largest[i]), found.closest(i)
            )
            for part, found in self.designs(nearest)
            for i, row in enumerate(part)
        }


def place(result: Designs, i: int) -> tuple[float, float, float]:
    """Spacing, back span and arm of one of the cases, in: as stated, where the shape of a mark has
    the run that it carries."""
    batch, arm = result.batch, np.broadcast_to(result.shape.arm.ravel(), result.count)
    spacing, back = (batch.column(f"outrigger.{key}") for key in ("spacing", "back_span"))
    return float(spacing[i, 0]), float(back[i, 0]), float(arm[i])


def heavier(plies: int, thick: float) -> list[Built]:
    """What is tried where nothing of the stated build works: plies, and their thickness, in."""
    more = [(plies + 1, thick)] if plies < MOST_PLIES else []
    return [*more, *((1, wide) for wide in THICKER_IN if wide > thick)]


def families(
    asked: Design, species: Sequence[str], grid: dict[str, Array], built: Sequence[Built]
) -> Iterator[Family]:
    """Species, sizes and grades of some builds over the grid, the highest Fb first."""
    wood, base = asked.wood, named_places(asked.case)
    stated = Tried([base], [wood.row], wood.size.name, grid)
    screen = Screen(governing(asked.worked), stated.ask, inside=False)
    for name, (plies, thick) in product(dict.fromkeys(species or (wood.row.species,)), built):
        rows = sorted(reference.grades(name), key=lambda row: -row.values["Fb"].value)
        kind = [row for row in rows if row.graded == wood.row.graded]
        for size in (f"{thick:g}x{depth}" for depth in dressed.DEPTHS_IN if depth >= thick):
            fitting = [row for row in kind if reference.fits(row, dressed.read_size(size))]
            for grades in _together(fitting):
                tried = _tried(base, plies, size, grades, grid)
                try:
                    yield from tried.families(screen.over(tried.ask), asked.mark)
                except InputError:
                    continue  # a notch deeper than the member, a factor the tables have no row for


def _together(rows: list[reference.Grade]) -> list[list[reference.Grade]]:
    """Grades of one size that one batch holds: of one table. What a timber takes laid flat hangs on
    its grade, so that each is alone."""
    if rows and rows[0].kind == "timber":
        return [[row] for row in rows]
    return [
        [row for row in rows if row.kind == kind] for kind in dict.fromkeys(r.kind for r in rows)
    ]


def _tried(
    base: Case, plies: int, size: str, grades: list[reference.Grade], grid: dict[str, Array]
) -> Tried:
    stated = ({
        "outrigger.species": row.species, "outrigger.grade": row.grade, "outrigger.size": size,
        "outrigger.plies": plies,
    } for row in grades)  # fmt: skip
    return Tried([with_values(base, one) for one in stated], grades, size, grid)


def named(found: Sequence[Family]) -> list[str]:
    """2x4 to 2x12 in every grade, of each species and build."""
    groups = groupby(
        found, key=lambda one: (one.grade.species, one.plies, one.size.partition("x")[0])
    )
    return [_depths(list(group)) for _, group in groups]


def _depths(family: list[Family]) -> str:
    ends = " to ".join(dict.fromkeys((family[0].size, family[-1].size)))
    plies = f"{family[0].plies} plies of " if family[0].plies > 1 else ""
    return f"{plies}{family[0].grade.species} {ends} in every grade"
