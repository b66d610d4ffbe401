"""What the outriggers bring to the member of the house below them, and what a rafter has of them.

Where a combination has the worker, one outrigger of a row has him, the others have not.
"""

import numpy as np
from msgspec import Struct

from outrigger.actions.combined import Combined
from outrigger.actions.places import EDGE
from outrigger.formula.formula import formula
from outrigger.formula.numbers import Array, Num, cos_deg


@formula("R_one", "lb", clause="statics: square to the sheathing, and what goes along it")
def vertical(R: Num, theta_roof: Num) -> Num:
    """What one outrigger brings, vertically."""
    return R / cos_deg(theta_roof)


@formula("R_one", "lb", clause="statics: side by side, taken as at one place")
def of_a_pair(R_each: Num, n_pair: Num) -> Num:
    """What the pieces of a pair bring together."""
    return R_each * n_pair


@formula("R_more", "lb", clause="statics: one outrigger of the row has the worker")
def more_by_worker(R_worker: Num, R_one: Num) -> Num:
    """What the outrigger with the worker brings more than another."""
    return R_worker - R_one


@formula("R_more", "lb", clause="statics: one piece of one pair has the worker")
def more_by_worker_on_piece(R_worker: Num, R_each: Num) -> Num:
    """What the piece with the worker brings more than another."""
    return R_worker - R_each


@formula("M", "lb-in", clause="statics")
def moment_of_rafter(R_one: Num, x_at: Num, l_beam: Num, R_rest: Num, w_beam: Num) -> Num:
    """Largest moment of a rafter, no more: every load at its own largest."""
    return R_one * x_at * (l_beam - x_at) / l_beam + R_rest * l_beam / 4 + w_beam * l_beam**2 / 8


@formula("V", "lb", clause="statics")
def end_shear_of_rafter(R_one: Num, x_at: Num, l_beam: Num, R_rest: Num, w_beam: Num) -> Num:
    """Largest shear at an end of a rafter, no more: x from the nearer bearing."""
    return R_one * (l_beam - x_at) / l_beam + R_rest + w_beam * l_beam / 2


class Brought(Struct, frozen=True, eq=False):
    """Forces of one outrigger, or of a pair, square to the sheathing, lb, at the edge and, of a
    rafter, at its other places; of a row all but the one with the worker, who is on `worker`, one
    outrigger or one piece; what the member carries itself, lb/in; these forces straight down.
    `R_more`: what the one with the worker brings more, in the combinations that have him; None: he
    is on no outrigger of a row, or what they bring is nothing.
    """

    edge: Array
    rest: Array
    worker: Array
    own: Array
    R_one: Array
    R_rest: Array
    R_more: Array | None


def pushes(on: Combined) -> dict[str, Array]:
    """What presses each place, never below 0."""
    names = (name for name, _ in on.model.supports)
    pushes = {**dict(zip(names, on.R, strict=True)), EDGE: on.R_edge}
    return {name: np.maximum(R, 0.0) for name, R in pushes.items()}
