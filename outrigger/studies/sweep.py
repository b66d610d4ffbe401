"""Any keys of a case over lists of values: a row for each, the same as the case designed alone.

Numbers that a batch can hold run together; what needs another look-up, a size or a species, is a
batch of its own, and so are loads that are nothing in some rows: beside others they would be loads
of theirs too, and bring in their combinations.
"""

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from itertools import product
from typing import Any

import numpy as np
from msgspec import Struct

from outrigger.base.errors import InputError
from outrigger.cases import one_snow
from outrigger.cases.base import OF_ITS_OWN
from outrigger.cases.batch import is_column
from outrigger.cases.between_keys import cross_faults
from outrigger.cases.faults import CaseFaultsError
from outrigger.cases.model import Case
from outrigger.cases.paths import read_value, with_values
from outrigger.cases.settings import full_name
from outrigger.formula.check import Status
from outrigger.formula.numbers import Array, Bools
from outrigger.studies.kept import largest_of_each, slim
from outrigger.studies.search import designs
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, design

Point = dict[str, Any]  # a value for each path
Found = tuple[bool, CheckResult, dict[str, float]]
FEWEST = 2_000  # rows of a worker: a process takes as long to start


class SweepRow(Struct, frozen=True, eq=False, dict=True):
    """One case of a sweep: its values as given and as `base` holds them, whether it works, its
    closest check, and the largest ratio of each check by id, NaN where none is known."""

    values: Mapping[str, Any]
    base: Case
    held: Point
    works: bool
    closest: CheckResult
    ratios: Mapping[str, float]

    @property
    def case(self) -> Case:
        """The case with these values."""
        return with_values(self.base, self.held)

    @cached_property
    def design(self) -> Design:
        """The case designed alone."""
        return design(self.case)

    @property
    def digest(self) -> str:
        """Digest of the case."""
        return self.case.digest

    @property
    def verdict(self) -> Status:
        """pass, fail or open."""
        return self.design.verdict

    @property
    def open(self) -> list[str]:
        """What is open: keys not given, what is not covered, checks."""
        alone = self.design
        checks = [row.id for row in alone.rows if row.status == "open"]
        return list(dict.fromkeys([*(one.key for one in alone.not_given), *alone.not_covered,
                                   *checks]))  # fmt: skip

    def as_dict(self) -> dict[str, Any]:
        """The row as plain data, flat."""
        closest = self.closest
        return {
            **self.values,
            "works": self.works,
            "verdict": self.verdict,
            "ratio": closest.ratio,
            "id": closest.id,
            "place": closest.place,
            "link": closest.link,
            "combination": closest.combination,
            "open": "; ".join(self.open),
            "digest": self.digest,
        }

    def __repr__(self) -> str:
        said = ", ".join(f"{path} {value}" for path, value in self.values.items())
        return f"<{said}: {'works' if self.works else 'does not work'}, {self.closest!r}>"


class Sweep(Struct, frozen=True, eq=False):
    """The rows of a sweep, in the order of its values, the last key changing first."""

    case: Case
    paths: tuple[str, ...]
    rows: tuple[SweepRow, ...]

    @property
    def works(self) -> Bools:
        """Of each row: no check fails, and none is over 1, (rows,)."""
        return np.array([row.works for row in self.rows])

    @property
    def ratio(self) -> Array:
        """Of each row the ratio of its closest check, (rows,); infinite where a rule decides."""
        return np.array([np.inf if (r := row.closest.ratio) is None else r for row in self.rows])

    @property
    def ratios(self) -> dict[str, Array]:
        """The largest ratio by id of check, (rows,) each; NaN where none is known."""
        ids = dict.fromkeys(id for row in self.rows for id in row.ratios)
        return {id: np.array([row.ratios.get(id, np.nan) for row in self.rows]) for id in ids}

    def as_dict(self) -> dict[str, Any]:
        """Plain data: `rows` go straight into a table. Verdicts run each row alone."""
        return {"case": self.case.digest, "rows": [row.as_dict() for row in self.rows]}

    def __len__(self) -> int:
        return len(self.rows)

    def __repr__(self) -> str:
        works = int(self.works.sum())
        return f"<Sweep of {', '.join(self.paths)}: {len(self)} rows, {works} work>"


def sweep(
    case: Case, values: Mapping[str, Iterable[Any]], *, cross: bool = True, workers: int = 1
) -> Sweep:
    """A case over lists of values by path, or by the short name that a setting has: "gap.width" or
    gap. A value is text as a file writes it ("7 in", "30 psf", "2x8"); a length may be a number, in
    inches. `cross`: every value with every other; else the lists are columns of one length.
    Another snow takes the other snows of the site with it; another wind none of the other winds.
    `workers`: processes that share the rows.

    Raises:
        InputError: no such path, a value it cannot hold, columns of unlike length, no worker.
        CaseFaultsError: a row whose keys do not go together, named by its values.
    """
    tables = {"snow": {"roof": case.snow.roof} if case.snow.roof is not None else {}}
    named = {full_name(path, tables): _listed(path, given) for path, given in values.items()}
    _refuse(case, named, cross=cross, workers=workers)
    points = product(*named.values()) if cross else zip(*named.values(), strict=True)
    given = [dict(zip(named, point, strict=True)) for point in points]
    read = [
        one_snow.moved(case, {path: read_value(case, path, value) for path, value in one.items()})
        for one in given
    ]
    for held, point in zip(read, given, strict=True):
        _check(with_values(case, held), point)
    groups = _groups(read)
    parts = [part for group in groups for part in _shares(group, workers)]
    firsts = [with_values(case, read[part[0]]) for part in parts]
    columns = [_columns([read[i] for i in part]) for part in parts]
    rows: list[SweepRow | None] = [None] * len(given)
    for part, found in zip(parts, _run(firsts, columns, workers), strict=True):
        for i, one in zip(part, found, strict=True):
            rows[i] = SweepRow(given[i], case, read[i], *one)
    return Sweep(case, tuple(named), tuple(row for row in rows if row is not None))


def _refuse(case: Case, named: Mapping[str, list[Any]], *, cross: bool, workers: int) -> None:
    """Refuse what cannot be swept: keys whose neighbors would stay, columns of unlike length."""
    if not isinstance(workers, int) or workers < 1:
        raise InputError(f"workers = {workers!r}: a whole number of processes, 1 at least.")
    if not named:
        raise InputError('sweep: name what changes, {"gap.width": ["6 in", "7 in"]} say.')
    for keys, of_it, why in OF_ITS_OWN:
        changed = [path for path in named if path in keys]
        left = [path for path in of_it if path not in keys and _stays(case, path, named)]
        if changed and left:
            raise InputError(
                f"sweep: {', '.join(changed)} beside {', '.join(left)}, which would stay: {why}. "
                "Give that too, or a case for each."
            )
    lengths = {len(given) for given in named.values()}
    if not cross and len(lengths) > 1:
        said = ", ".join(f"{path} {len(given)}" for path, given in named.items())
        raise InputError(f"sweep: columns of unlike length: {said}. Or let cross be True.")


def _stays(case: Case, path: str, named: Iterable[str]) -> bool:
    """Whether a case says something of a key, and no list of a sweep does."""
    at: Any = case
    for key in path.split("."):
        at = getattr(at, key, None)  # a table left out
    return bool(at) and not any(f"{one}.".startswith(f"{path}.") for one in named)


def _shares(group: list[int], workers: int) -> list[list[int]]:
    """The rows of a group for each worker; few of them are one share."""
    many = max(1, min(workers, len(group) // FEWEST))
    return [part.tolist() for part in np.array_split(group, many)]


def _run(
    firsts: list[Case], columns: list[dict[str, Array]], workers: int
) -> Iterable[list[Found]]:
    """What is found of the rows of each share, by one process or by several."""
    if workers == 1:
        return map(_designed, firsts, columns)
    from concurrent.futures import ProcessPoolExecutor  # most sweeps start no process

    with ProcessPoolExecutor(workers) as pool:
        return list(pool.map(_designed, firsts, columns))


def _designed(first: Case, columns: dict[str, Array]) -> list[Found]:
    """Of each row whether it works, its closest check, and its largest ratios."""
    rows = list[Found]()
    for part, result in designs(first, columns):
        count = part.stop - part.start
        ratios = {
            checks.id: np.broadcast_to(of, count).tolist()
            for checks, of in largest_of_each(result).items()
        }
        rows += [
            (
                bool(result.works[i]),
                slim(result.closest(i)),
                {id: of[i] for id, of in ratios.items()},
            )
            for i in range(count)
        ]
    return rows


def _listed(path: str, given: Iterable[Any]) -> list[Any]:
    """The values of a path."""
    if isinstance(given, str) or not isinstance(given, Iterable):
        raise InputError(f'{path}: a list of values is needed, ["6 in", "7 in"] say.')
    found = [one.item() if isinstance(one, np.generic) else one for one in given]
    if not found:
        raise InputError(f"{path}: its list of values is empty.")
    return found


def _check(case: Case, said: Point) -> None:
    """Refuse a row whose keys do not go together."""
    if faults := list(cross_faults(dict(case))):
        row = ", ".join(f"{path} = {value}" for path, value in said.items())
        raise CaseFaultsError(row, faults)


def _groups(read: Sequence[Point]) -> list[list[int]]:
    """Rows that one batch can hold: alike in what is no column, and in what is nothing."""
    groups: dict[tuple[Any, ...], list[int]] = {}
    for i, point in enumerate(read):
        key = [not value if is_column(path) else repr(value) for path, value in point.items()]
        alone = [] if any(map(is_column, point)) else [i]
        groups.setdefault((*key, *alone), []).append(i)
    return list(groups.values())


def _columns(points: Sequence[Point]) -> dict[str, Array]:
    """The columns of rows that one batch holds."""
    return {path: np.array([point[path] for point in points])
            for path in points[0] if is_column(path)}  # fmt: skip
