"""Several runs of wall of one job: the worst first, and what each house wall is handed in all."""

import re
import unicodedata
from collections.abc import Iterable, Sequence
from functools import cached_property

import numpy as np
from msgspec import Struct

from outrigger.actions.reactions import reactions
from outrigger.formula.check import Status
from outrigger.formula.numbers import Array
from outrigger.marks.of_case import every_piece
from outrigger.verdict.design import Design
from outrigger.verdict.envelopes import ASD, LEVELS, PULL, PUSH, STRENGTH, tables
from outrigger.verdict.worked import Worked, worked_of

NO_NAMES = ("the", "house", "wall", "side", "of")  # words that tell no wall from another
ORDER: tuple[Status, ...] = ("fail", "open", "pass")  # the worst first


class Total(Struct, frozen=True):
    """What one run, or all runs of a house wall, hand to one kind of place: lb in all. `level`: ASD
    or strength, the most over every combination; or empty, unfactored, of `case` and `source`."""

    at: str
    way: str
    level: str
    force: float
    case: str = ""
    source: str = ""


class Run(Struct, frozen=True, eq=False, dict=True):
    """One run: the file that states it, and its design."""

    file: str
    design: Design

    @property
    def wall(self) -> str:
        """The house wall that it stands on; its own file's, where the case names none."""
        return self.design.case.project.house_wall.strip() or self.file

    @property
    def length(self) -> float | None:
        """Length of the run, in; None: no layout gives it."""
        layout = self.design.case.layout
        return None if layout is None else float(layout.run)

    @cached_property
    def totals(self) -> list[Total]:
        """What all its outriggers hand over together; empty without a layout.

        Each carries its half bays, so that the run is carried once, and one of them the worker. In
        every combination what pushes is added apart from what pulls, never one set off against the
        other.
        """
        if self.length is None:
            return []
        over = worked_of(every_piece(self.design.case))
        found = []
        for level in LEVELS:
            actions = over.clips if level == ASD else over.strength
            for at, way, force, others in tables(actions):
                if way in (PUSH, PULL):
                    found.append(Total(at, way, level, _summed(over, others, force)))
        return [one for one in (*found, *_unfactored(over)) if one.force > 0]


class Wall(Struct, frozen=True, eq=False, dict=True):
    """A house wall and the runs that stand on it."""

    name: str
    runs: tuple[Run, ...]

    @property
    def measured(self) -> list[Run]:
        """The runs whose length is known: those that are added."""
        return [run for run in self.runs if run.length is not None]

    @property
    def length(self) -> float:
        """Length of those, in."""
        return sum(run.length or 0.0 for run in self.measured)

    @property
    def editions(self) -> set[str]:
        """The editions of its loads: snow of two editions is of two levels, and is not added."""
        return {run.design.case.basis.loads for run in self.measured}

    @cached_property
    def totals(self) -> list[Total]:
        """The most of each run added, as if all came at once."""
        found: dict[tuple[str, str, str, str, str], float] = {}
        for run in self.measured:
            for one in run.totals:
                if one.level or len(self.editions) == 1:
                    key = (one.at, one.way, one.level, one.case, one.source)
                    found[key] = found.get(key, 0.0) + one.force
        return [
            Total(at, way, level, force, case, source)
            for (at, way, level, case, source), force in found.items()
        ]

    @property
    def handed(self) -> list[tuple[str, str, float, float]]:
        """Place, push or pull, the totals by ASD and at strength, lb; of those that are any."""
        found = []
        for at in dict.fromkeys(one.at for one in self.totals):
            for way in (PUSH, PULL):
                asd, strength = (self.total(at, way, level) for level in (ASD, STRENGTH))
                if round(asd) or round(strength):
                    found.append((at, way, asd, strength))
        return found

    def total(self, at: str, way: str, level: str) -> float:
        """One of them, lb."""
        return sum(
            one.force for one in self.totals if (one.at, one.way, one.level) == (at, way, level)
        )


def worst_first(runs: Iterable[Run]) -> list[Run]:
    """The worst run first: what fails, what is open, what passes, each by its largest ratio."""

    def place(run: Run) -> tuple[int, float]:
        ratio = run.design.closest.ratio
        return ORDER.index(run.design.verdict), -(np.inf if ratio is None else ratio)

    return sorted(runs, key=place)


def verdict(runs: Sequence[Run]) -> Status:
    """The verdict of the whole: that of its worst run."""
    return min((run.design.verdict for run in runs), key=ORDER.index)


def walls(runs: Sequence[Run]) -> list[Wall]:
    """The house walls, in the order of their worst runs. Capitals, blanks, signs and words like
    "wall" tell none apart: two walls taken as one are told too much, never too little."""
    found: dict[str, list[Run]] = {}
    for run in runs:
        found.setdefault(_plain(run), []).append(run)
    return [Wall(of[0].wall, tuple(of)) for of in found.values()]


def _plain(run: Run) -> str:
    """The name of a run's house wall, by what tells it from others; a file's as it is."""
    if not run.design.case.project.house_wall.strip():
        return f" {run.file}"
    name = unicodedata.normalize("NFKC", run.wall).casefold()
    said = re.findall(r"\w+", name.replace("_", " "))
    return " ".join([one for one in said if one not in NO_NAMES] or said) or name


def _summed(over: Worked, table: Array, of_one: Array | None = None) -> float:
    """The most of a table of forces, (outriggers, combinations), added over the outriggers;
    `of_one`: what one of them brings instead, whichever adds the most."""
    forces = np.maximum(np.broadcast_to(table, (over.batch.count, table.shape[1])), 0.0)
    assert np.all(np.isfinite(forces))
    found = forces.sum(axis=0)
    if of_one is not None:
        found = found + np.maximum(of_one - forces, 0.0).max(axis=0)
    return float(found.max())


def _unfactored(over: Worked) -> list[Total]:
    """Reactions by source and load case, added over the outriggers; the most of the ways a load
    may lie."""
    found = []
    for at, by_reaction in reactions(over.model).items():
        for (source, case), ways in by_reaction.items():
            table = np.hstack([np.broadcast_to(one, (over.batch.count, 1)) for one in ways])
            for way, sign in ((PUSH, 1.0), (PULL, -1.0)):
                found.append(Total(at, way, "", _summed(over, sign * table), case, source))
    return found
