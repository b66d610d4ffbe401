"""The largest push and the largest pull of each place on the house, over every combination and
pattern of loads, at ASD and at strength level; of a layout over its marks, each with its mark."""

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
    """The most that one place takes one way: lb, plf of wall at the outriggers' spacing, and the
    combination, by its name alone and with its pattern; `mark`: of a layout, from the datum.

    `pieces`: how many outriggers bring it side by side, 2 of a pair, together."""

    at: str
    way: str
    level: str
    force: float
    per_foot: float
    name: str
    combination: str
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
            _most(over, checked, at, way, level, actions, table)
            for at, way, table in tables(actions)
            if np.any(table > 0)
        ]
    order = list(dict.fromkeys((one.at, one.way) for one in found))
    return sorted(found, key=lambda one: order.index((one.at, one.way)))


def tables(on: Combined) -> Iterator[tuple[str, str, Array]]:
    """Forces of every place and way, lb, (cases, combinations); the edge first."""
    names = [name for name, _ in reversed(on.model.supports)]
    pulls = on.uplift if on.no_tie is None else on.uplift | {EDGE: on.no_tie}
    for name in names:
        yield name, PUSH, on.push[name]
        if name in pulls:
            yield name, PULL, pulls[name]
    if on.side.N_all is not None:
        yield ALONG, OUTWARD, on.side.N_all
        yield ALONG, INWARD, -on.side.N_all
    if on.side.R_across is not None:
        for name, across in zip(names, reversed(on.side.R_across), strict=True):
            yield name, ONE_WAY, across
            yield name, OTHER_WAY, -across


def _most(
    over: Worked, checked: int, at: str, way: str, level: str, actions: Combined, table: Array
) -> Most:
    """The largest force of a table, of a pair both pieces; the mark that is checked before others
    alike."""
    count, pieces = over.batch.count, over.batch.pieces
    forces = np.broadcast_to(table * pieces, (count, table.shape[1]))
    assert np.all(np.isfinite(forces))
    most = forces.max(axis=1)
    mark = checked if most[checked] >= most.max() * (1 - ALIKE) else int(np.argmax(most))
    apart = np.broadcast_to((over.shape.spacing * pieces)[:, 0], count)[mark]
    row = actions.combinations.all[int(np.argmax(forces[mark]))]
    force = float(most[mark])
    return Most(
        at=at,
        way=way,
        level=level,
        force=force,
        per_foot=float(plf(force / apart)),
        name=row.name,
        combination=row.text,
        mark=over.numbers[mark],
        pieces=int(np.broadcast_to(pieces[:, 0], count)[mark]),
    )
