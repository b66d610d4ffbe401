"""Which fasteners land on the house framing, and how far off the others are. Plain numbers, in.

Framing runs parallel to the outriggers (its centres measured along the row, from the datum of the
layout) or crosses under them (its centres measured inward from the edge). The rule is the same.
"""

from collections.abc import Sequence

import numpy as np

from outrigger.formula.numbers import Array, Bools

HALF_RAFTER_IN = 0.75  # half the breadth of a 2x rafter
ROUND_OFF_IN = 1e-9


def framing_centres(
    *, spacing: float | None, offset: float, at: Sequence[float] | None, reach: float
) -> Array | None:
    """Centres of the framing out to reach: as measured, else by spacing from the first at offset.

    None: neither is given.
    """
    if at is not None:
        return np.array(sorted(at), dtype=float)
    if spacing is None:
        return None
    count = max(int((reach - offset) / spacing), 0) + 2
    return np.asarray(offset + spacing * np.arange(count), dtype=float)


def off_centre(places: Sequence[float] | Array, centres: Array) -> Array:
    """How far each place lies from the nearest framing centre, positive beyond it."""
    apart = np.asarray(places, dtype=float)[..., None] - centres
    nearest = np.argmin(np.abs(apart), axis=-1)
    return np.asarray(np.take_along_axis(apart, nearest[..., None], axis=-1)[..., 0])


def free_edge(off: Array) -> Array:
    """Wood beside a fastener that far off a framing centre: half a rafter less that, at least 0."""
    return np.asarray(np.maximum(HALF_RAFTER_IN - np.abs(off), 0.0))


def lands(off: Array) -> Bools:
    """Whether a fastener that far off a framing centre finds wood: inside the rafter's edges."""
    return np.asarray(free_edge(off) > ROUND_OFF_IN)
