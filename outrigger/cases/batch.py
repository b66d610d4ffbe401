"""Many cases at once: one case, and columns of the numbers in which they differ.

A column is an array (cases, 1), in lb and in; what is computed from it broadcasts to (cases,
combinations). A single case is a batch of one, so that a sweep and a check agree to the last bit.
"""

from collections.abc import Hashable, Mapping
from functools import cached_property
from typing import Any

import numpy as np
from msgspec import Struct, field
from msgspec.structs import astuple, replace
from numpy.typing import ArrayLike, NDArray

from outrigger.base.errors import InputError
from outrigger.cases.hold_down import HoldDown, through
from outrigger.cases.model import Case
from outrigger.cases.paths import number_at, range_at, with_numbers, with_values

Column = NDArray[np.float64]

COLUMNS = (  # the numbers that may differ within a batch; others differ from batch to batch
    "gap.width", "gap.house_finish", "gap.edge_bearing", "gap.edge_setback",
    "outrigger.spacing", "outrigger.back_span", "outrigger.tail", "outrigger.behind_back",
    "house_roof.dead", "house_roof.live", "house_roof.snow", "house_roof.wind_uplift",
    "house_roof.wind_down",
    "garage_roof.span", "garage_roof.overhang", "garage_roof.dead", "garage_roof.live",
    "garage_roof.storage", "garage_roof.strip_dead",
    "garage_roof.line.D", "garage_roof.line.L", "garage_roof.line.Lr", "garage_roof.line.S",
    "garage_roof.line.W_up", "garage_roof.line.W_down",
    "house_edge.carries.S",
    "garage_wall.dead", "garage_wall.along", "garage_wall.out_of_plane_wind",
    "snow.ground", "snow.roof", "snow.drift_line",
    "wind.uplift", "wind.down", "wind.speed",
    "layout.run", "layout.first_mark",
    "rated_uplift", "rated_lateral",  # of the hold-downs at a place: hold_down[back].rated_uplift
)  # fmt: skip


class UnderPlate(Struct, frozen=True, eq=False):
    """What an outrigger of a layout carries under one model of the plate: carried, of the wall, in;
    most, least: of the roof, in, where its members may stand; points: part of each point load."""

    carried: Column
    most: Column
    least: Column
    points: Column

    def taken(self, index: NDArray[np.intp]) -> "UnderPlate":
        """That of some of the cases."""
        return UnderPlate(*(of[index] for of in astuple(self)))


class Mark(Struct, frozen=True, eq=False):
    """What one outrigger of a layout carries, arrays (cases, 1).

    number: of its mark, from the datum; tributary: length of run by halves of its bays, in, along
    the sheathing; carried, share: of the wall, and of the roof on it, in plan, the larger of both
    plate models; points: part of each point load, (cases, loads), likewise. pieces: how many stand
    side by side there, each with its part: 2 of a pair. bay, widest: the longest bay beside it that
    no opening takes, and that one does.
    opening: the longest bay of its run that an opening takes, 0 for none; near: to the next place
    that holds the plate; past: of an end mark to the end of the run, 0 where it stands there, where
    an opening is, and of others; in, along the sheathing. plates: of each model of the plate what
    it gives the mark, where there are several.
    """

    number: NDArray[np.intp]
    tributary: Column
    carried: Column
    share: Column
    points: Column
    pieces: Column
    bay: Column
    widest: Column
    opening: Column
    near: Column
    past: Column
    plates: tuple[UnderPlate, ...] = ()

    def taken(self, index: NDArray[np.intp]) -> "Mark":
        """The marks of some of the cases."""
        *columns, plates = astuple(self)
        beside = tuple(one.taken(index) for one in plates)
        return Mark(*(*(of[index] for of in columns), beside))


class Grades(Struct, frozen=True, eq=False):
    """The grade of the lumber of each case: `names`, of one species and kind, and of each case the
    number of its own among them, (cases,)."""

    names: tuple[str, ...]
    which: NDArray[np.intp]

    def taken(self, index: NDArray[np.intp]) -> "Grades":
        """The grades of some of the cases."""
        return Grades(self.names, self.which[index])

    def of(self, i: int) -> dict[str, str]:
        """That of one case, by its path."""
        return {"outrigger.grade": self.names[self.which[i]]}


class Batch(Struct, frozen=True, eq=False, dict=True):
    """Cases that differ in some numbers: `case` is the first of them, `columns` hold the numbers
    of all by their path, (cases, 1); `mark` names one outrigger of the layout of each. `only`: the
    load combinations looked at, None: every one. Some can refuse a case, and never pass it.
    `grades`: of each case its own; None: all have that of the case.

    A number that may differ is read from the batch, never from its case.
    """

    case: Case
    columns: Mapping[str, Column] = field(default_factory=dict)
    mark: Mark | None = None
    only: frozenset[Hashable] | None = None
    grades: Grades | None = None

    @cached_property
    def count(self) -> int:
        """How many cases."""
        if self.mark is not None:
            return len(self.mark.number)
        if self.grades is not None:
            return len(self.grades.which)
        return max((len(column) for column in self.columns.values()), default=1)

    def number(self, path: str) -> float | Column | None:
        """A number as stated, or its column where it differs; None: not given."""
        if (column := self.columns.get(path)) is not None:
            return column
        return number_at(self.case, path)

    def column(self, path: str, otherwise: float | None = None) -> Column:
        """A number as a column, (cases, 1), or (1, 1) where all cases have the same;
        `otherwise`: the number taken where it is not given.

        Raises:
            InputError: it is not given, and nothing is taken for it.
        """
        found = self._columns.get(path)  # a number is asked up to ten times a design
        if found is None:
            value = self.number(path)
            if value is None:
                if otherwise is None:
                    raise InputError(f"{path}: is not given, and is needed.")
                return np.asarray(otherwise, dtype=float).reshape(-1, 1)
            found = self._columns[path] = np.asarray(value, dtype=float).reshape(-1, 1)
        return found

    @cached_property
    def _columns(self) -> dict[str, Column]:
        """The numbers that were asked for, as columns."""
        return {}

    @cached_property
    def pieces(self) -> Column:
        """How many outriggers stand side by side at the mark of each case: 2 of a pair."""
        return np.ones((1, 1)) if self.mark is None else self.mark.pieces

    @property
    def paired(self) -> NDArray[np.bool_]:
        """Of each case whether its outrigger is a piece of a pair, a column."""
        return self.pieces > 1

    @cached_property
    def bay(self) -> Column:
        """From one outrigger to the next, in: of a layout the longest bay beside the mark that no
        opening takes, where that is longer than the spacing."""
        spacing = self.column("outrigger.spacing")
        return spacing if self.mark is None else np.maximum(spacing, self.mark.bay)

    def fit(self, count: int) -> float | Column:
        """How many of the connectors of one outrigger, half of them on each face, fit: of a piece
        of a pair those of its outer face, since the pieces touch."""
        if not np.any(self.paired):
            return float(count)
        return np.where(self.paired, float(on_one_face(count)), float(count))

    def clips(self, hold: HoldDown) -> float | Column:
        """How many of the hold-downs of a place hold one outrigger; what goes through it all."""
        if not np.any(self.paired):
            return float(hold.count)
        return np.where(self.paired, float(on_a_pair(hold)), float(hold.count))

    def load(self, path: str) -> Column:
        """A load as a column; not given counts as zero, and is listed as not given elsewhere."""
        return self.column(path, 0.0)

    def any(self, path: str) -> bool:
        """Whether a load is given, and is not zero in some case."""
        return bool(np.any(self.load(path) != 0))

    def at(self, i: int) -> Case:
        """One of the cases.

        Raises:
            IndexError: there are fewer.
        """
        self.check_index(i)
        case = self.case if self.grades is None else with_values(self.case, self.grades.of(i))
        return with_numbers(case, {p: float(c[i, 0]) for p, c in self.columns.items()})

    def check_index(self, i: int) -> None:
        """Refuse a case that the batch does not have.

        Raises:
            IndexError: there are fewer.
        """
        if not 0 <= i < self.count:
            raise IndexError(f"case {i}: the batch has {self.count}, 0 to {self.count - 1}")

    def taken(self, index: NDArray[np.intp]) -> "Batch":
        """The cases of an index, in its order, each as often as it stands there."""
        columns = {path: column[index] for path, column in self.columns.items()}
        first = with_numbers(self.case, {path: float(c[0, 0]) for path, c in columns.items()})
        mark = None if self.mark is None else self.mark.taken(index)
        grades = None if self.grades is None else self.grades.taken(index)
        return Batch(first, columns, mark, self.only, grades)

    def __repr__(self) -> str:
        changed = ", ".join(self.columns) or "nothing changed"
        return f"<Batch of {self.case.project.name!r}: {self.count} cases, {changed}>"

    def with_mark(self, mark: Mark) -> "Batch":
        """The same cases, each at a mark of its layout; one mark alone is that of all."""
        every = np.zeros(self.count, dtype=np.intp)
        return replace(self, mark=mark.taken(every) if len(mark.number) == 1 else mark)


def on_one_face(count: int) -> int:
    """How many of the connectors of one outrigger stand on one of its faces; one alone does."""
    return max(count // 2, 1)


def on_a_pair(hold: HoldDown) -> int:
    """How many of the hold-downs of a place hold one piece of a pair."""
    return hold.count if through(hold) else on_one_face(hold.count)


def batch_of(case: Case, values: Mapping[str, ArrayLike] | None = None) -> Batch:
    """A case in which some numbers differ: values (cases,) in lb and in by path, "gap.width" or
    "hold_down[back].rated_uplift", say; one number alone is the same for all.

    Raises:
        InputError: no such path, values outside its range, columns of unlike length, or a number
            that a batch cannot hold.
    """
    found = {path: np.asarray(value, dtype=float) for path, value in (values or {}).items()}
    for path, value in found.items():
        range_at(case, path).check(path, value)
    lengths = {path: value.size for path, value in found.items() if value.ndim}
    if len(set(lengths.values())) > 1 or 0 in lengths.values():
        said = ", ".join(f"{path} {count}" for path, count in lengths.items())
        raise InputError(f"columns of unlike length, or empty: {said}. Give each as many values.")
    columns = dict[str, Any]()
    for path, value in found.items():
        if value.ndim and (is_column(path) or len(np.unique(value)) > 1):
            if not is_column(path):
                raise InputError(f"{path}: differs within one batch. Make a batch for each value.")
            columns[path] = value.reshape(-1, 1)
    first = {path: float(value.flat[0]) for path, value in found.items()}
    return Batch(with_numbers(case, first), columns)


def is_column(path: str) -> bool:
    """Whether the number of a path may differ within a batch."""
    return path in COLUMNS or (path.startswith("hold_down[") and path.rpartition(".")[2] in COLUMNS)
