"""Which unfactored numbers an action of the statics is the sum of, in one combination.

An action of a combination is the sum, part by part, of factor times what that part does alone. The
sum is looked for among the actions of the parts, and taken only where it gives the number.
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property

import numpy as np
from msgspec import Struct

from outrigger.actions.response import Response
from outrigger.checks.movement import Service
from outrigger.formula.check import Named
from outrigger.formula.formula import Step, same
from outrigger.formula.numbers import Array, Element, pick
from outrigger.loads.combinations import Combination
from outrigger.loads.parts import PARTS
from outrigger.verdict.design import Design

LEAST = 1e-9  # a number under this is nothing
Sum = Sequence[tuple[str, float, float]]  # part, factor, amount


class Known(Struct, frozen=True, eq=False):
    """What each part of the load does alone, (cases, parts): its unit, and what it is."""

    unit: str
    what: str
    table: Array


class Sums(Struct, frozen=True, eq=False, dict=True):
    """The sums of a design."""

    design: Design

    def of(self, step: Step, element: Element, combination: Named | None) -> tuple[str, Sum]:
        """What adds up to a number that has no arithmetic of its own, and the terms; empty where
        nothing does."""
        value = pick(step.value, element)
        if step.formula is not None or step.inputs or abs(value) < LEAST:
            return "", ()
        for factors in _factors(combination):
            for known in self._known:
                if known.unit != step.unit:
                    continue
                row = known.table[min(element.case, len(known.table) - 1)]
                terms = [
                    (part, factors[part], float(amount))
                    for part, amount in zip(self.design.model.parts, row, strict=True)
                    if factors.get(part) and abs(amount) > LEAST
                ]
                total = sum(factor * amount for _, factor, amount in terms)
                if terms and same(total, value):
                    return known.what, terms
                if terms and same(-total, value):
                    return known.what, [(part, f, -amount) for part, f, amount in terms]
        return "", ()

    @cached_property
    def _known(self) -> list[Known]:
        return [*_known(self.design)]


def _factors(combination: Named | None) -> Iterator[Mapping[str, float]]:
    """The factors of the parts in a combination, and of an outrigger beside the one that the worker
    stands on; of one of service, long and short term apart."""
    if isinstance(combination, Combination):
        found = dict(zip(PARTS, combination.factors, strict=True))
        yield found
        if found["worker"]:
            yield found | {"worker": 0.0}
    elif isinstance(combination, Service):
        yield combination.long
        yield combination.short


def _known(design: Design) -> Iterator[Known]:
    """What the parts do, with every support holding, then otherwise."""
    model, whole = design.model, design.model.whole
    square, along = model.by_axis.square, model.by_axis
    yield Known("lb", "P", model.table(square.wall_line))
    yield Known("lb-in", "M", whole.M[-1])
    yield Known("lb", "V", whole.V_arm)
    yield from _reactions(whole, "")
    yield Known("in", "droop", whole.droop)
    yield Known("lb", "shear by the garage wall", whole.V_wall)
    yield Known("lb", "house wall less V", whole.R[-1] - whole.V_arm)
    if square.couple_edge:
        outside = whole.M[-1] + model.table(square.couple_edge)
        yield Known("lb-in", "M outside the house wall", outside)
    none = np.zeros((1, 1))
    both = {
        part: along.on_arm.get(part, none) + along.on_back.get(part, none)
        for part in {*along.on_arm, *along.on_back}
    }
    for what, by in (("along", both), ("along the arm", along.on_arm),
                     ("on the garage wall, level", design.loads.on_wall)):  # fmt: skip
        if by:
            yield Known("lb", what, model.table(by))
    if model.sideways is not None and along.across is not None:
        yield Known("lb", "P across", model.table(along.across.wall_line))
        yield Known("lb-in", "M across", model.sideways.M[-1])
        yield Known("lb", "V across", model.sideways.V_arm)
        yield from _reactions(model.sideways, " across")
    if len(model.supports) > 2:
        yield from _rows(design)


def _reactions(found: Response, more: str) -> Iterator[Known]:
    for name, R in zip(found.names, found.R, strict=True):
        yield Known("lb", f"{name}{more}", R)


def _rows(design: Design) -> Iterator[Known]:
    """Of a row of hold-downs: each as the only one, and the row without the house wall."""
    model = design.model
    for name, x in model.supports[:-1]:
        one = model.alone[name]
        yield Known("lb", f"{name} alone", one.R[0])
        yield Known("lb", f"edge beside {name} alone", one.R[-1])
        yield Known("lb", f"edge turned about {name}", one.R[-1] + one.M[0] / x)
        yield Known("in", f"droop, {name} alone", one.droop)
    if not model.tied:
        for what, free in (("edge lifted off", model.lifted), ("nearest two", model.nearest_two)):
            if free is not None:
                yield from _reactions(free, f", {what}")
