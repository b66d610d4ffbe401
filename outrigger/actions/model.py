"""What the statics of a case needs: its loads, parts, stiffness and supports."""

from collections.abc import Mapping
from functools import cached_property

import numpy as np
from msgspec import Struct

from outrigger.actions.axes import ByAxis
from outrigger.actions.geometry import Geometry
from outrigger.actions.loads import Loads
from outrigger.actions.places import EDGE, place_name, places
from outrigger.actions.response import Response, Stiffness, respond
from outrigger.actions.sums import Combinations, combinations_of
from outrigger.cases.batch import Batch
from outrigger.cases.hold_down import HoldDown
from outrigger.cases.model import Case
from outrigger.formula.numbers import Array
from outrigger.statics import beam as statics
from outrigger.wood import lumber
from outrigger.wood.adjusted import Method

_NONE = np.zeros((1, 1))
CRUSH_IN = 0.04  # crushing at the tabulated stress, NDS 2018 4.2.6


class Model(Struct, frozen=True, eq=False, dict=True):
    """What the statics of a case needs: its loads, parts and stiffness."""

    batch: Batch
    wood: lumber.Wood
    shape: Geometry
    loads: Loads
    parts: tuple[str, ...]
    stiff: Stiffness
    by_axis: ByAxis
    side: Stiffness  # bending across the member

    @property
    def case(self) -> Case:
        """What is stated alike of every case; numbers that may differ are read from the batch."""
        return self.batch.case

    @property
    def supports(self) -> list[tuple[str, Array]]:
        """Every support, inner first."""
        return places(self.batch)

    def combinations(self, method: Method, parts: tuple[str, ...] | None = None) -> Combinations:
        """The combinations of a method, of the parts of the load or of those named; of those that
        the batch looks at."""
        on, only = self.loads, self.batch.only
        found = combinations_of(
            self.case.basis.loads,
            method,
            parts or self.parts,
            on.Ev_per_D,
            on.net_up,
            len(self.supports) > 2,
        )
        return found if only is None else found.among(only)

    @cached_property
    def hold_downs(self) -> dict[str, HoldDown]:
        """What holds at each place, by its name."""
        back = self.batch.column("outrigger.back_span")
        return {place_name(hold.at, back): hold for hold in self.case.hold_down}

    @property
    def tied(self) -> bool:
        """Whether a hold-down stands at the edge."""
        return EDGE in self.hold_downs

    def respond(
        self, supports: list[tuple[str, Array]], springs: Array | float = np.inf
    ) -> Response:
        """Statics of the parts on some supports."""
        return respond(self.by_axis.square, self.shape, self.parts, self.stiff, supports, springs)

    @cached_property
    def whole(self) -> Response:
        """Every support holding both ways."""
        return self.respond(self.supports)

    @cached_property
    def sideways(self) -> Response | None:
        """What acts across the member, every support holding both ways; None: nothing does."""
        if self.by_axis.across is None:
            return None
        return respond(self.by_axis.across, self.shape, self.parts, self.side, self.supports)

    def table(self, by_part: Mapping[str, Array]) -> Array:
        """A column by part as (cases, parts)."""
        columns = [np.atleast_2d(by_part.get(part, _NONE)) for part in self.parts]
        return np.concatenate(np.broadcast_arrays(*columns), axis=1)

    @cached_property
    def lifted(self) -> Response | None:
        """The row of hold-downs without the edge; None where fewer than two are left."""
        inner = self.supports[:-1]
        return self.respond(inner) if len(inner) > 1 else None

    @cached_property
    def alone(self) -> dict[str, Response]:
        """Each hold-down as the only one beside the edge."""
        *inner, edge = self.supports
        return {name: self.respond([(name, x), edge]) for name, x in inner}

    @cached_property
    def nearest_two(self) -> Response | None:
        """The hold-down nearest the edge and the next inward, the edge lifted off."""
        inner = self.supports[:-1]
        return self.respond(inner[-2:]) if len(inner) > 1 else None

    def sprung(self, edge_stiffness: Array) -> list[Response]:
        """With every stated stiffness at 1/2, 1 and 2 times, the edge rigid and as a spring.

        Empty unless every hold-down states its stiffness. edge_stiffness lb/in, a column.
        """
        stated = self.hold_downs
        names = [name for name, _ in self.supports[:-1]]
        if not names or not all(n in stated and stated[n].stiffness for n in names):
            return []
        k = [float(stated[n].stiffness or 0.0) * self.batch.clips(stated[n]) for n in names]
        found = []
        for times in (0.5, 1.0, 2.0):
            for edge in (np.full_like(edge_stiffness, np.inf), edge_stiffness):
                row = np.broadcast_arrays(*(times * np.reshape(one, (-1, 1)) for one in k), edge)
                springs = np.concatenate(row, axis=1)
                each = springs if len(springs) > 1 else springs[0]
                found.append(self.respond(self.supports, each))
        return found


def unit_droop(model: Model) -> Array:
    """Droop at the wall line under 1 lb there, in, every support holding."""
    x = [np.broadcast_to(at[:, 0], model.shape.arm[:, 0].shape) for _, at in model.supports]
    shape, (EI, GA) = model.shape, model.stiff.each
    beam = statics.Beam(
        np.stack(np.broadcast_arrays(*x), axis=-1),
        EI,
        shape.house_end[:, 0],
        shape.end[:, 0],
        GA,
    )
    solved = statics.solve(beam, [statics.Point(shape.arm[:, 0], 1.0)])
    return solved.deflection(shape.arm[:, 0])
