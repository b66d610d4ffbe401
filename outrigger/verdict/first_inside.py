"""The first outrigger inside a continuous plate, where no layout says how long the wall is."""

import numpy as np
from numpy.typing import NDArray

from outrigger.actions.geometry import Geometry, truss_spacing
from outrigger.cases.batch import Batch, Mark
from outrigger.formula.numbers import Array, Bools
from outrigger.loads.gravity import first_interior

MORE = first_interior(4)  # of the plain share: four equal bays have the most of four and over


def takes_more(batch: Batch, shape: Geometry) -> Bools:
    """Of each case whether its plate hands the first outrigger inside more than the plain share,
    (cases,): roof members everywhere, or not much farther apart than the outriggers. Where they
    are, one stands whole on an outrigger; with a layout each mark has its own share."""
    if batch.mark is not None or not batch.case.garage_roof.bearing:
        return np.zeros(batch.count, dtype=bool)
    apart = truss_spacing(batch.case)
    close = apart == "uniform" or np.asarray(apart < MORE * shape.plan_spacing[:, 0])
    return np.broadcast_to(close, batch.count)


def at_first_inside(batch: Batch, shape: Geometry, share: Array, which: NDArray[np.intp]) -> Batch:
    """Some of the cases at that outrigger: more of the wall and of the roof on it; the strip and
    the back span are its own spacing's, and a point load is whole on it as before."""

    def column(of: Array, times: float = 1.0) -> Array:
        return times * np.broadcast_to(of, (batch.count, 1))[which]

    apart = truss_spacing(batch.case)
    close = apart == "uniform" or np.asarray(apart <= shape.plan_spacing)
    # roof members a little farther apart bring what they weigh per foot of wall, and no more
    share = np.where(close, MORE * share, np.maximum(share, MORE * shape.plan_spacing))
    mark = Mark(
        number=np.zeros((len(which), 1), dtype=np.intp),  # on no layout
        tributary=column(shape.spacing),
        carried=column(shape.plan_spacing, MORE),
        share=column(share),
        points=np.ones((len(which), len(batch.case.garage_roof.point))),
        pieces=column(np.ones((1, 1))),
        bay=column(shape.spacing),
        widest=column(np.zeros((1, 1))),
        opening=column(np.zeros((1, 1))),
        near=column(shape.spacing),
        past=column(np.zeros((1, 1))),
    )
    return batch.taken(which).with_mark(mark)
