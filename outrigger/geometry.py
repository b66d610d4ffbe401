"""Lengths that follow from a case, and the columns of cases that all actions are built of."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from outrigger.case import Case
from outrigger.formula import Array

HOUSE_FINISH_IN = 0.5  # taken when not given, and listed


def column(value: Any) -> Array:
    """A number, or an array of cases, as a column (cases, 1)."""
    return np.asarray(value, dtype=float).reshape(-1, 1)


def stated(value: Any) -> Array:
    """A load as a column; not given counts as zero here, and is listed as not given elsewhere."""
    return column(0.0 if value is None else value)


@dataclass(frozen=True, eq=False)
class Geometry:
    """Lengths of the outrigger, in, columns of cases; x is 0 at the edge, positive outward.

    `face`: x of the house finish's outer face, where the gap begins.
    """

    arm: Array
    back_span: Array
    tail: Array
    behind_back: Array
    spacing: Array
    wall_bearing: Array
    face: Array

    @property
    def end(self) -> Array:
        """x of the outer end."""
        return self.arm + self.tail

    @property
    def house_end(self) -> Array:
        """x of the inner end, negative."""
        return -(self.back_span + self.behind_back)

    @property
    def length(self) -> Array:
        """Length of the piece."""
        return self.end - self.house_end


def geometry(case: Case) -> Geometry:
    """Lengths that follow from the case; a level member (arm = plan distance)."""
    gap, piece = case.gap, case.outrigger
    plate = column(gap.garage_plate)
    finish = HOUSE_FINISH_IN if gap.house_finish is None else gap.house_finish
    face = column(finish) + column(gap.edge_setback) + column(gap.edge_bearing) / 2
    arm = column(gap.width) + column(finish) + plate / 2
    arm = arm + column(gap.edge_setback) + column(gap.edge_bearing) / 2
    tail = plate / 2 if piece.tail is None else column(piece.tail)
    bearing = np.minimum(plate, plate / 2 + tail)
    back, behind = column(piece.back_span), column(piece.behind_back)
    return Geometry(arm, back, tail, behind, column(piece.spacing), bearing, face)
