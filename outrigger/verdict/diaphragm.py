"""What wind and earthquake hand to the house roof as a diaphragm, over a foot of house wall: along
the outriggers and along the wall, each by its cause and level; of a layout the largest over its
marks. What dead load and snow push down a slope stands with the loads by load case."""

from collections.abc import Iterator

import numpy as np
from msgspec import Struct

from outrigger.actions.model import Model
from outrigger.actions.reactions import GARAGE_SIDE, ByReaction, side_reactions
from outrigger.base.units import plf
from outrigger.formula.numbers import Array
from outrigger.verdict.design import Design
from outrigger.verdict.envelopes import ASD, INWARD, ONE_WAY, OTHER_WAY, OUTWARD, STRENGTH
from outrigger.verdict.handed import ALONG

ACROSS = "across"  # the member, so along the wall: all places together
WIND, QUAKE, STATED = "wind", "earthquake", "force along the wall, as stated"
OF_WIND, OF_QUAKE = 0.6, 0.7  # of strength level in ASD, ASCE 7 2.4
WAYS = {ALONG: (OUTWARD, INWARD), ACROSS: (ONE_WAY, OTHER_WAY)}


class Into(Struct, frozen=True):
    """What one cause brings one way: `at` along or across the outrigger, lb of one outrigger, and
    plf of wall at the outriggers' spacing; `mark`: of a layout the one with the most."""

    at: str
    way: str
    cause: str
    level: str
    force: float
    per_foot: float
    mark: int | None = None


def into_diaphragm(design: Design) -> list[Into]:
    """Of each direction, way and cause the most, at strength level and as ASD takes it."""
    over = design.worked.over_marks
    apart = np.broadcast_to(over.shape.spacing[:, 0], over.batch.count)  # of each piece of a pair
    stated = OF_QUAKE if over.loads.Ev_per_D else OF_WIND
    factors = {WIND: OF_WIND, QUAKE: OF_QUAKE, STATED: stated}
    found = []
    for at, cause, totals in _totals(over.model):
        forces = np.array([np.broadcast_to(one[:, 0], over.batch.count) for one in totals])
        for way, sign in zip(WAYS[at], (1.0, -1.0), strict=True):
            each = (sign * forces).max(axis=0) / apart
            mark = int(np.argmax(each))
            if each[mark] <= 0:
                continue
            for level, factor in ((STRENGTH, 1.0), (ASD, factors[cause])):
                per = float(each[mark]) * factor
                force, per_foot = per * float(apart[mark]), float(plf(per))
                found.append(Into(at, way, cause, level, force, per_foot, over.numbers[mark]))
    return found


def _totals(model: Model) -> Iterator[tuple[str, str, list[Array]]]:
    """Of each direction and cause what may act at once, lb, strength level, columns of cases."""
    by_place = side_reactions(model)
    rows = {ALONG: [by_place[ALONG]] if ALONG in by_place else []}
    rows[ACROSS] = [row for place, row in by_place.items() if place != ALONG]
    for at, places in rows.items():
        none = np.zeros((1, 1))

        def of(*cases: str, places: list[ByReaction] = places, none: Array = none) -> list[Array]:
            return [none, *(_sum(places, case) for case in cases)]

        side, roof = of("H_away", "H_toward"), of("W_up", "W_down")
        yield at, WIND, [h + v for h in side for v in roof]
        lifted = model.loads.net_up * _sum(places, "D", GARAGE_SIDE)
        upright = of("E")[1]
        shaken = of("E_away", "E_toward")
        yield at, QUAKE, [-lifted, *(h + v for h in shaken for v in (upright, -upright))]
        pushed = of("A")[1]
        yield at, STATED, [pushed, -pushed]


def _sum(places: list[ByReaction], case: str, source: str | None = None) -> Array:
    """One load case over all places and sources, its largest way to lie."""
    found = np.zeros((1, 1))
    for row in places:
        for (brings, named), ways in row.items():
            if named == case and source in (None, brings):
                found = found + ways[0]
    return found
