"""What `size` tries: every grade of a species in every size, over spacings and back spans."""

from collections.abc import Iterator, Sequence
from itertools import groupby, product
from typing import NamedTuple

import numpy as np
from msgspec import Struct

from outrigger.base.errors import InputError
from outrigger.cases.batch import batch_of
from outrigger.cases.model import Case
from outrigger.cases.paths import with_values
from outrigger.formula.numbers import Array, Bools
from outrigger.studies.reserve import named_places
from outrigger.studies.screen import Ask, Index, Marks, Screen, governing
from outrigger.studies.search import Few, counted, every_mark
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, Designs
from outrigger.wood import lumber

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
    """One grade in one size at every spacing and back span: which of them work, and what follows;
    where none does only what comes closest is kept."""

    case: Case
    grade: lumber.Grade
    size: str
    works: Bools
    result: Designs | None
    closest: Closest | None

    @property
    def plies(self) -> int:
        """Pieces side by side."""
        return self.case.outrigger.plies

    @property
    def alike(self) -> tuple[str, int, str]:
        """What its grades share."""
        return self.grade.species, self.plies, self.size


def family(
    case: Case, grade: lumber.Grade, size: str, grid: dict[str, Array], screen: Screen
) -> Family:
    """A grade in a size over the grid."""
    rows = np.arange(len(next(iter(grid.values()))))
    if case.layout is not None:  # of many marks, few combinations tell sooner that nothing works
        held, ratios = screen.few(rows, rows)
        if not held.any():
            nearest = screen.closest(rows[None], rows[None], ratios[None])
            grid = {path: of[nearest] for path, of in grid.items()}
    found = Designs(counted(batch_of(case, grid)))
    if found.works.any():
        return Family(case, grade, size, found.works, found, None)
    at = int(np.argmin(found.largest))
    closest = Closest(*place(found, at), float(found.largest[at]), found.closest(at))
    return Family(case, grade, size, np.zeros(len(rows), dtype=bool), None, closest)


def _over(case: Case, grid: dict[str, Array]) -> Ask:
    """Rows of the grid, of one case."""

    def ask(_: Index, rows: Index, look: Few | None) -> Marks:
        return every_mark(case, {path: of[rows] for path, of in grid.items()}, look)

    return ask


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
    screen = Screen(governing(asked.worked), _over(base, grid), inside=False)
    for name, (plies, thick) in product(dict.fromkeys(species or (wood.row.species,)), built):
        rows = sorted(lumber.grades(name), key=lambda row: -row.values["Fb"].value)
        sized = (f"{thick:g}x{depth}" for depth in lumber.DEPTHS_IN if depth >= thick)
        for size, row in product(sized, rows):
            if row.kind != wood.row.kind or not lumber.fits(row, lumber.read_size(size)):
                continue
            tried = {
                "outrigger.species": name, "outrigger.grade": row.grade, "outrigger.size": size,
                "outrigger.plies": plies,
            }  # fmt: skip
            one = with_values(base, tried)
            try:
                yield family(one, row, size, grid, screen.over(_over(one, grid)))
            except InputError:
                continue  # a notch deeper than the member, a factor the tables have no row for


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
