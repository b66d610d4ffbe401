"""A beam some of whose supports can only push up: a witness for the row of hold-downs.

Superposition does not hold, so each (case, component) is a whole load combination.
"""

from dataclasses import dataclass
from itertools import combinations

import numpy as np
from msgspec.structs import replace

from outrigger.statics.beam import Couple, Point, Solution, solve

ROUND_OFF = 1e-10  # of the loads of a cell: a smaller pull is no pull


@dataclass(frozen=True, eq=False)
class OneWay:
    """Every set of supports that was tried, and the cells, (cases, components), that it holds.

    reactions lb, (cases, components, n); stands, False where no set is in equilibrium: there the
    numbers are those of the beam whose supports all hold both ways.
    """

    reactions: np.ndarray
    stands: np.ndarray
    tried: list[tuple[np.ndarray | None, Solution]]

    def of_each(self, name, *place):
        """Moment, shear, slope or deflection at a place, each cell by the set that holds it."""
        values = getattr(self.tried[0][1], name)(*place)
        for held, solved in self.tried[1:]:
            values = np.where(held, getattr(solved, name)(*place), values)
        return values

    def moment(self, x, side="right"):
        return self.of_each("moment", x, side)

    def shear(self, x, side="right"):
        return self.of_each("shear", x, side)

    def slope(self, x):
        return self.of_each("slope", x)

    def deflection(self, x):
        return self.of_each("deflection", x)


def solve_one_way(beam, loads, pulls):
    """The beam where a support pulls only if it is tied; pulls, one for each, True is tied.

    Where an untied support would pull, sets of untied supports are let go, the fewest first, until
    those left push and the beam does not press on any let go; two are the fewest that hold it.
    """
    n = np.shape(beam.supports)[-1]
    untied = [i for i in range(n) if not pulls[i]]
    slack = round_off(beam, loads)
    whole = solve(beam, loads)
    reactions, tried = whole.reactions, [(None, whole)]
    stands = (whole.reactions[..., untied] >= -slack[..., None]).all(axis=-1)
    for gone in (g for count in range(1, n - 1) for g in combinations(untied, count)):
        if stands.all():
            break
        kept = [i for i in range(n) if i not in gone]
        solved = solve(on(beam, kept), loads)
        free = [j for j, i in enumerate(kept) if i in untied]
        push = (solved.reactions[..., free] >= -slack[..., None]).all(axis=-1)
        held = ~stands & push & clear(beam, solved, gone, slack)
        found = np.zeros_like(reactions)
        found[..., kept] = solved.reactions
        reactions = np.where(held[..., None], found, reactions)
        stands |= held
        tried.append((held, solved))
    return OneWay(reactions, stands, tried)


def on(beam, kept):
    """The beam on some of its supports."""
    supports, stiffness = np.asarray(beam.supports), np.asarray(beam.stiffness)
    if stiffness.ndim:
        stiffness = stiffness[..., kept]
    return replace(beam, supports=supports[..., kept], stiffness=stiffness)


def round_off(beam, loads):
    """The pull that counts as none, lb, by the size of the loads."""
    length = np.asarray(beam.end - np.asarray(beam.start)).reshape(-1, 1)
    total = 0.0 * length
    for load in loads:
        if isinstance(load, Point):
            total = total + np.abs(load.force)
        elif isinstance(load, Couple):
            total = total + np.abs(load.moment) / length
        else:
            total = total + np.abs(load.load) * length
    return total * ROUND_OFF


def clear(beam, solved, gone, slack):
    """Whether the beam does not press on the supports let go."""
    length = np.asarray(beam.end - np.asarray(beam.start)).reshape(-1, 1)
    EI, GA = (np.asarray(value).reshape(-1, 1) for value in (beam.EI, beam.GA))
    give = (1 / np.atleast_2d(beam.stiffness)).max(axis=-1, keepdims=True)
    soft = slack * (length**3 / EI + length / GA + give)
    places = (np.asarray(beam.supports)[..., i] for i in gone)
    return np.all([solved.deflection(x) <= soft for x in places], axis=0)
