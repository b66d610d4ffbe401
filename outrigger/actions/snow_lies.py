"""How one snow lies: on the wall line, on the strip over the gap, on the house roof."""

import numpy as np
from msgspec import Struct, field

from outrigger.actions.design_loads import DesignLoad
from outrigger.actions.geometry import column
from outrigger.base.units import psi
from outrigger.cases.batch import Batch
from outrigger.formula.formula import Step
from outrigger.formula.numbers import Array
from outrigger.loads.gravity import roof_line_load


class Lie(Struct, frozen=True, eq=False):
    """How one load lies, in lb and in, columns of cases.

    `line` lb/in on the wall line; `strip` psi on arm and tail, growing by `strip_slope` psi per in
    of x past the house face (0: even); `house` psi on the house roof at the garage wall, falling to
    nothing over `house_width` in (0: none); `house_even` psi even there over `even_width` in.
    `steps`: how it came about; `derived`: what it is made of, for people, where that follows from
    the ground snow.
    """

    line: Array
    strip: Array
    steps: tuple[Step, ...] = ()
    strip_slope: Array = field(default_factory=lambda: column(0.0))
    house: Array = field(default_factory=lambda: column(0.0))
    house_width: Array = field(default_factory=lambda: column(0.0))
    house_even: Array = field(default_factory=lambda: column(0.0))
    even_width: Array = field(default_factory=lambda: column(0.0))
    derived: tuple[DesignLoad, ...] = ()


def even(batch: Batch, pressure: Step) -> Lie:
    """An even pressure in psf on the whole garage roof and the strip."""
    q = psi(np.asarray(pressure.value))
    roof = batch.case.garage_roof
    if roof.span is None or not roof.bearing:  # only the strip takes this
        return Lie(np.zeros_like(q), q, (pressure,))
    line = roof_line_load(q, batch.load("garage_roof.span"), batch.load("garage_roof.overhang"))
    return Lie(np.asarray(line), q, (pressure,))
