"""What `size` tries: every grade of a species in every size, over spacings and back spans."""

from collections.abc import Iterator, Sequence
from itertools import groupby, product

from msgspec import Struct

from outrigger.base.errors import InputError
from outrigger.cases.batch import batch_of
from outrigger.cases.model import Case
from outrigger.cases.paths import with_values
from outrigger.formula.numbers import Array
from outrigger.studies.reserve import named_places
from outrigger.studies.search import counted
from outrigger.verdict.design import Design, Designs
from outrigger.wood import lumber

MOST_PLIES, THICKER_IN = 3, (3.0, 4.0)

Built = tuple[int, float]  # plies, and their nominal thickness, in


class Family(Struct, frozen=True, eq=False):
    """One grade in one size at every spacing and back span."""

    case: Case
    grade: lumber.Grade
    size: str
    result: Designs

    @property
    def plies(self) -> int:
        """Pieces side by side."""
        return self.case.outrigger.plies

    @property
    def alike(self) -> tuple[str, int, str]:
        """What its grades share."""
        return self.grade.species, self.plies, self.size


def heavier(plies: int, thick: float) -> list[Built]:
    """What is tried where nothing of the stated build works: plies, and their thickness, in."""
    more = [(plies + 1, thick)] if plies < MOST_PLIES else []
    return [*more, *((1, wide) for wide in THICKER_IN if wide > thick)]


def families(
    asked: Design, species: Sequence[str], grid: dict[str, Array], built: Sequence[Built]
) -> Iterator[Family]:
    """Species, sizes and grades of some builds over the grid, the highest Fb first."""
    wood, base = asked.wood, named_places(asked.case)
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
                yield Family(one, row, size, Designs(counted(batch_of(one, grid))))
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
