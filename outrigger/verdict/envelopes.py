"""The largest push and the largest pull of each place on the house, over every combination and
pattern of loads, at ASD and at strength level; of a layout over its marks, each with its mark.

One worker stands on one outrigger: what that one takes is no load of every foot of wall.
"""

from collections.abc import Iterator, Sequence

import numpy as np
from msgspec import Struct

from outrigger.actions.combined import Combined
from outrigger.actions.places import EDGE
from outrigger.base.units import plf
from outrigger.formula.numbers import Array
from outrigger.verdict.design import Design
from outrigger.verdict.handed import ALONG
from outrigger.verdict.worked import Worked
from outrigger.verdict.worst_mark import ALIKE

PUSH, PULL = "push", "pull"  # down on the house, up on it
OUTWARD, INWARD = "outward", "inward"  # along the member, away from the house and toward it
ONE_WAY, OTHER_WAY = "one way", "the other way"  # across the member; down a slope is one way
ASD, STRENGTH = LEVELS = ("ASD", "strength")


class Most(Struct, frozen=True):
    """The most that one place takes one way: lb, and the combination, by its name alone and with
    its pattern; `mark`: of a layout, from the datum.

    `alone`: it is of the one outrigger that has the worker; `per_foot`: plf of wall, the most of
    one without him over their spacing, and `line` the combination of that; `pieces`: how many
    outriggers bring the force side by side, 2 of a pair, together."""

    at: str
    way: str
    level: str
    force: float
    per_foot: float
    name: str
    combination: str
    alone: bool
    line: tuple[str, str]
    mark: int | None = None
    pieces: int = 1

    def signed(self, size: float) -> float:
        """A size of it with the sign of a reaction: positive for a push on the house, for a force
        outward along the member, and for one way across it."""
        return -size if self.way in (PULL, INWARD, OTHER_WAY) else size


def envelopes(design: Design, levels: Sequence[str] = LEVELS) -> list[Most]:
    """Of each place and way the most, ASD before strength; nothing where it takes nothing."""
    over = design.worked.over_marks
    checked = over.numbers.index(design.mark)
    found = []
    for level in levels:
        actions = over.clips if level == ASD else over.strength
        found += [
            _most(over, checked, at, way, level, actions, force, others)
            for at, way, force, others in tables(actions)
            if np.any(force > 0)
        ]
    order = list(dict.fromkeys((one.at, one.way) for one in found))
    return sorted(found, key=lambda one: order.index((one.at, one.way)))


def tables(on: Combined) -> Iterator[tuple[str, str, Array, Array]]:
    """Forces of every place and way, lb, (cases, combinations), the edge first: of the outrigger
    that has the worker, where the combination has him, and of each of the others."""
    found, few = _forces(on), on.no_worker
    beside = None if few is None else _forces(few)
    for (name, way), force in found.items():
        others = force if beside is None else on.beside(force, beside[name, way])
        yield name, way, force, others


def _forces(on: Combined) -> dict[tuple[str, str], Array]:
    """Forces of every place and way, of one outrigger."""
    names = [name for name, _ in reversed(on.model.supports)]
    pulls = on.uplift if on.no_tie is None else on.uplift | {EDGE: on.no_tie}
    found = dict[tuple[str, str], Array]()
    for name in names:
        found[name, PUSH] = on.push[name]
        if name in pulls:
            found[name, PULL] = pulls[name]
    if on.side.N_all is not None:
        found |= {(ALONG, OUTWARD): on.side.N_all, (ALONG, INWARD): -on.side.N_all}
    if on.side.R_across is not None:
        for name, across in zip(names, reversed(on.side.R_across), strict=True):
            found |= {(name, ONE_WAY): across, (name, OTHER_WAY): -across}
    return found


def _most(
    over: Worked,
    checked: int,
    at: str,
    way: str,
    level: str,
    actions: Combined,
    force: Array,
    others: Array,
) -> Most:
    """The largest force of a place, of a pair both pieces; the mark that is checked before others
    alike."""
    pieces, every = over.batch.pieces, actions.combinations.all
    whole, mark, row = _largest(over, checked, force + (pieces - 1) * others)
    along, there, line = _largest(over, checked, pieces * others)
    apart = np.broadcast_to((over.shape.spacing * pieces)[:, 0], over.batch.count)
    return Most(
        at=at,
        way=way,
        level=level,
        force=whole,
        per_foot=float(plf(max(along, 0.0) / apart[there])),
        name=every[row].name,
        combination=every[row].text,
        alone=whole > along,
        line=(every[line].name, every[line].text),
        mark=over.numbers[mark],
        pieces=int(np.broadcast_to(pieces[:, 0], over.batch.count)[mark]),
    )


def _largest(over: Worked, checked: int, table: Array) -> tuple[float, int, int]:
    """The largest of a table of forces, its mark and its combination."""
    forces = np.broadcast_to(table, (over.batch.count, table.shape[1]))
    assert np.all(np.isfinite(forces))
    most = forces.max(axis=1)
    mark = checked if most[checked] >= most.max() * (1 - ALIKE) else int(np.argmax(most))
    return float(most[mark]), mark, int(np.argmax(forces[mark]))
