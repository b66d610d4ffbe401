"""All that a live workbook shows of a design: its inputs, its sums and the chain of every check.

A check follows a changed input where its whole chain does. Where a number of it is the program's
own, it says which kinds of input it does not follow.
"""

from collections.abc import Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.formula.check import Check, Named
from outrigger.formula.formula import given
from outrigger.formula.numbers import Array, Num
from outrigger.studies.live import (
    Amounts,
    CombinationSet,
    Item,
    Kind,
    Leaf,
    close,
    numbers,
    taken_of,
)
from outrigger.studies.live_items import FORCES, Leaves, Reader, ends
from outrigger.studies.live_loads import TakeDown
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.wood.adjusted import FORMULAS

STRENGTHS = ("Fb", "Ft", "Fv", "Fc")  # of the others the statics may have used one


class End(Struct, eq=False):
    """A demand or a capacity: the largest of some items, in a form; none: a number by itself."""

    values: Array
    items: tuple[Item, ...] = ()
    form: str = ""


class LiveCheck(Struct, eq=False):
    """One check: its items by chain, its demand and capacity, its set of combinations.

    deaf: kinds of input a change of which it does not follow.
    """

    row: CheckResult
    over: CombinationSet | None
    tops: tuple[Item, ...]
    demand: End
    capacity: End | None
    deaf: tuple[Kind, ...] = ()

    @property
    def items(self) -> list[Item]:
        """Every item once, earliest first."""
        found = {one.key: one for top in self.tops for one in top.chain()}
        return list(found.values())


class Workbook(Struct, eq=False):
    """A design as a workbook shows it."""

    design: Design
    leaves: list[Leaf]
    amounts: list[Amounts]
    sets: list[CombinationSet]
    checks: list[LiveCheck]


def workbook(design: Design) -> Workbook:
    """A design as a workbook shows it."""
    listed = {
        (name, value): f"hold_down[{name}].{key}"
        for name, hold in design.member.holds.items()
        for key in ("rated_uplift", "rated_lateral")
        if (value := getattr(hold, key)) is not None
    }
    leaves = Leaves(*_of_wood(design), listed)
    amounts: dict[tuple[str, bytes], Amounts] = {}
    down = TakeDown(design, Reader(leaves, "", None, amounts))
    for step in (one for check in design.checks for top in check.steps for one in top.chain()):
        terms = step.terms
        if terms is None or terms.parts != design.model.parts:  # of what a member carries itself
            continue
        if step.formula is None and len(terms.amounts) == 1:
            key = (step.symbol, (terms.amounts * terms.scale).tobytes())
            if key not in amounts:
                amounts[key] = down.of_sum(step, terms)
    sets = _sets(design, _known(design, down))
    if design.member.hand is None:  # no closed forms: the statics of every part stand for them
        for over in sets[:1]:
            over.shown = [_sum_of(rows, over) for rows in over.known if np.any(rows.values)]
    checks = [_live(row, leaves, sets, amounts) for row in design.rows]
    used = [one for one in sets if any(check.over is one for check in checks)]
    every = [item for check in checks for item in check.items]
    every += [item for over in sets for item in over.shown]
    rows = {id(item.amounts): item.amounts for item in every if item.amounts is not None}
    taken = {id(leaf) for item in every for leaf in item.leaves()}
    kept = [leaf for leaf in leaves.found.values() if id(leaf) in taken]
    if any(leaf.kind == "derived" for leaf in kept):  # they may hang on lengths too
        for leaf in kept:
            leaf.kind = "length" if leaf.kind == "load" and leaf.unit == "in" else leaf.kind
    return Workbook(design, kept, list(rows.values()), used, checks)


def _of_wood(design: Design) -> tuple[frozenset[object], frozenset[object]]:
    """What makes the values of the outrigger's wood, and of these what the statics may use."""
    adjusted = {name: ends([design.member.adjusted(name)]) for name in FORMULAS}
    strong = frozenset[object]().union(*(adjusted[name] for name in STRENGTHS))
    others = (marks for name, marks in adjusted.items() if name not in STRENGTHS)
    stiff = frozenset[object]().union(*others)
    return strong | stiff, stiff


def _sets(design: Design, known: Sequence[Amounts]) -> list[CombinationSet]:
    """The sets of combinations that checks share."""
    found: list[CombinationSet] = []
    for actions in dict.fromkeys((design.main, design.clips)):
        over = actions.combinations
        times = numbers(over.times)
        found.append(CombinationSet(over.all, times, over.parts, [over.factors], known))
    for check in design.checks:
        if check.combinations and not any(_alike(one.rows, check.combinations) for one in found):
            found.append(CombinationSet(check.combinations, known=known))
    return found


def _sum_of(rows: Amounts, over: CombinationSet) -> Item:
    """A sum that stands in every combination for itself."""
    values = over.tables[0] @ rows.values
    key = ("sum", 0, "", id(rows), id(over))
    return Item("sum", rows.symbol, rows.unit, "statics", rows.note, "", values, key, amounts=rows)


def _alike(one: Sequence[Named], other: Sequence[Named]) -> bool:
    return one is other or one == other


def _known(design: Design, down: TakeDown) -> list[Amounts]:
    """Unfactored loads and actions of every part, which numbers of the statics may be sums of."""
    model, whole = design.model, design.model.whole
    own = {part: model.loads.self_weight for part in ("D_back", "D_own")}
    found = [
        ("P", "lb", "on the garage wall", model.table(model.by_axis.square.wall_line)),
        ("W_end", "lb", "at the end of the member", model.table({"worker": model.loads.worker})),
        ("w_self", "lb/in", "self weight behind the back clip", model.table(own)),
        ("V", "lb", "shear on the arm at the house wall", whole.V_arm),
        ("V", "lb", "shear on the arm by the garage wall", whole.V_wall),
    ]
    for name, R, M in zip(whole.names, whole.R, whole.M, strict=True):
        found += [("R", "lb", f"reaction at {name}", R), ("M", "lb-in", f"moment at {name}", M)]
    for words, by_part in (("arm", model.by_axis.on_arm), ("back span", model.by_axis.on_back)):
        if by_part:
            found.append(("F_along", "lb", f"along the {words}", model.table(by_part)))
    return [
        down.amounts(given(symbol, 0.0, unit, "statics", words), model.parts, numbers(table))
        for symbol, unit, words, table in found
    ]


def _live(
    row: CheckResult,
    leaves: Leaves,
    sets: Sequence[CombinationSet],
    amounts: dict[tuple[str, bytes], Amounts],
) -> LiveCheck:
    check = row.check
    mine = (one for one in sets if check.combinations and _alike(one.rows, check.combinations))
    over = next(mine, None)
    reader = Reader(leaves, check.place, over, amounts, used=(check.link, check.place))
    tops = tuple(reader.item(step) for step in check.steps)
    demand = _end(check, check.demand, tops)
    capacity = None if check.capacity is None else _end(check, check.capacity, tops)
    found = LiveCheck(row, over, tops, demand, capacity)
    rooms = {one.value for one in leaves.found.values() if one.kind == "load" and one.unit == "in"}
    return replace(found, deaf=_deaf(found, rooms))


def _end(check: Check, value: Num, tops: Sequence[Item]) -> End:
    """A demand or a capacity by the item that it is."""
    values = numbers(value)
    for step, top in zip(check.steps, tops, strict=True):
        if step.value is value:
            return End(values, (top,))
    for top in tops:
        form = taken_of(top.values, values, float(np.max(np.abs(values), initial=0.0)))
        if top.unit == check.unit and form is not None:
            return End(values, (top,), form)
    alike = tuple(one for one in tops if one.unit == check.unit)
    if len(alike) > 1 and _same(np.maximum.reduce(np.broadcast_arrays(
            *(one.values for one in alike))), values):  # fmt: skip
        return End(values, alike)
    return End(values)


def _same(one: Array, other: Array) -> bool:
    return bool(np.all(close(one, other, float(np.max(np.abs(other), initial=0.0)))))


def _deaf(check: LiveCheck, rooms: set[float]) -> tuple[Kind, ...]:
    """The kinds of input that a check does not follow; rooms: the lengths among the loads, which a
    check may take for itself too, as a stud takes the height of its wall."""
    leaves = [leaf for top in check.tops for leaf in top.leaves()]
    loose = not check.demand.items and bool(np.any(check.demand.values != 0))
    loose |= any(one.broken and not one.left_out for one in check.items)
    acts = not check.demand.items or any(one.way == "column" or one.broken for one in check.items)
    acts |= any(leaf.kind == "action" for leaf in leaves)
    # a movement or a ratio of other checks, which hang on strengths; a force does not
    alone = any(leaf.kind == "action" and leaf.unit not in FORCES for leaf in leaves)
    deaf: tuple[Kind, ...] = ("derived", "length", "action")
    if acts:
        deaf = (*deaf, "load", "stiffness")
    elif any(leaf.unit == "in" and leaf.kind == "length" and leaf.value in rooms
             for leaf in leaves):  # fmt: skip
        deaf = (*deaf, "load")
    if loose or alone:
        deaf = (*deaf, "value")
    return deaf
