"""The take-down of the loads as items: unfactored amounts of every part, from psf to pounds.

Each amount that the design has is looked for among what the steps of its part give; one that is
none of these stays the program's number.
"""

from collections.abc import Iterator, Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.cases.batch import is_column
from outrigger.formula.formula import Formula, Step, Terms, amount
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import Array, Num
from outrigger.loads import gravity
from outrigger.loads.parts import SNOW_CASES
from outrigger.studies.live import Amounts, Item, Kind, Leaf, close, numbers
from outrigger.studies.live_items import LENGTHS, Reader
from outrigger.verdict.design import Design

ROOMS = {"l_span": "garage_roof.span", "h_wall": "garage_wall.height"}
ROOF_KEYS = {
    "D": "garage_roof.dead", "L": "garage_roof.storage", "Lr": "garage_roof.live",
    "S": "snow.roof", "W_up": "wind.uplift", "W_down": "wind.down",
}  # fmt: skip
OF_MARK = {"w_dead": "D", "w_wind": "W_up"}  # line loads of two parts on one mark
HOUSE_KEYS = {
    "D_back": "house_roof.dead", "Lr_back": "house_roof.live", "S_back": "house_roof.snow",
    "W_back": "house_roof.wind_uplift",
}  # fmt: skip


class TakeDown(Struct):
    """Reads the take-down of one design."""

    design: Design
    reader: Reader
    snow: Leaf | None = None  # the one snow on the garage roof, which the house roof's follows

    def of_sum(self, step: Step, terms: Terms) -> Amounts:
        """The amounts of a sum over the parts, each with how it came about."""
        values = numbers(terms.amounts * terms.scale)
        return self.amounts(step, terms.parts, values)

    def amounts(self, step: Step, parts: Sequence[str], values: Array) -> Amounts:
        """Unfactored amounts of the parts; step: says what they are of."""
        items = [
            self._amount(part, step, float(value)) if value else None
            for part, value in zip(parts, values, strict=True)
        ]
        return Amounts(step.symbol, step.unit, step.note, parts, values, items)

    def _amount(self, part: str, step: Step, value: float) -> Item:
        for one in self._candidates(part, step.unit):
            if np.all(close(one.values, np.array([value]))):
                return one
        weight = float(np.ravel(self.design.loads.self_weight)[0])
        if step.unit == "lb/in" and value == weight:
            return self._weight()
        if part == "worker" and value == float(np.ravel(self.design.loads.worker)[0]):
            made = Leaf("length", step.symbol, value, "lb", note="one worker at the end")
            return self.reader.stated(made)
        return self.reader.fixed(step.symbol, value, step.unit, step.note, part)

    def _candidates(self, part: str, unit: str) -> Iterator[Item]:
        """What the steps of a part give, in a unit."""
        if unit == "lb":
            yield from self._forces(part)
        elif part.endswith("_back") or part == "D_own":
            yield from self._on_back(part)
        else:
            yield from self._on_strip(part)

    def _forces(self, part: str) -> Iterator[Item]:
        steps = [one for one in self.design.loads.totals.get(part, ()) if one.unit == "lb"]
        if not steps:
            return
        items = [self._item(one, part) for one in steps]
        for sign in (1.0, -1.0):
            total = _added(items, sign)
            yield total
            for turned in self.design.model.by_axis.steps.get(part, ()):
                yield self._turned(turned, total)

    def _turned(self, step: Step, total: Item) -> Item:
        """Its part in an axis of the member."""
        assert step.formula is not None
        inputs = {
            name: self._length(name, one, "deg") if name == "theta_roof" else total
            for name, one in step.inputs.items()
        }
        return _worked(step.formula, inputs, step.clause)

    def _on_strip(self, part: str) -> Iterator[Item]:
        """Strip of the roof over the gap, level: q times the length of wall."""
        s = self._length("s_strip", self.design.shape.plan_area, "in")
        for q in self._pressures(part):
            yield _worked(gravity.strip_load, {"q": q, "s_strip": s}, "statics")
            if part == "D":
                yield self._with_self(q, s)

    def _with_self(self, q: Item, s: Item) -> Item:
        inputs = {"q": q, "s_strip": s, "w_self": self._weight()}
        return _worked(gravity.strip_load_with_self, inputs, "statics")

    def _pressures(self, part: str) -> Iterator[Item]:
        """Loads per area that the strip may carry."""
        key = "garage_roof.strip_dead"
        if part == "D" and self.design.case.garage_roof.strip_dead is not None:
            q = float(self.design.worked.batch.load(key)[0, 0])
            yield self._load("q", q, "psi", part, "roof over the gap", key)
            return
        for step in self.design.loads.totals.get(part, ()):
            for one in step.chain():
                if one.formula in (gravity.roof_line_load, gravity.roof_line_load_with_overhang):
                    yield self._put_in(one, "q", one.inputs["q"], part)

    def _on_back(self, part: str) -> Iterator[Item]:
        """The back span's load, level."""
        total = self.design.loads.back.get(part)
        if total is None:
            return
        s = self._length("s_strip", self.design.shape.plan_area, "in")
        value = float(numbers(total)[0]) / float(s.values[0])
        q = self._load("q", value, "psi", part, "house roof", HOUSE_KEYS.get(part, ""))
        if part == "S_back" and q.leaf is not None and self.snow is not None:
            q.leaf.after = self.snow
        yield _worked(gravity.strip_load, {"q": q, "s_strip": s}, "statics")
        if part == "D_back":
            yield self._with_self(q, s)

    def _item(self, step: Step, part: str) -> Item:
        """A step of the take-down; what has no formula stands by itself."""
        if step.formula is None:
            value = float(numbers(step.value)[0])
            key = f"garage_roof.line.{part}"
            key = key if step.unit == "lb/in" and is_column(key) else ""
            return self._load(step.symbol, value, step.unit, part, step.note, key)
        of = dict.fromkeys(step.inputs, "D" if part == "D_less" else part) | OF_MARK
        inputs = {n: self._put_in(step, n, one, of[n]) for n, one in step.inputs.items()}
        return _worked(step.formula, inputs, step.clause, numbers(step.value))

    def _put_in(self, step: Step, name: str, one: "Num | Step", part: str) -> Item:
        if isinstance(one, Step):
            return self._item(replace(one, symbol="w_roof") if name in OF_MARK else one, part)
        value = float(numbers(one)[0])
        if name in ROOMS:
            key = ROOMS[name]
            kind: Kind = "load" if self._is(key, value) else "length"
            return self.reader.stated(Leaf(kind, name, value, "in", key=key))
        if name not in ("q", "w_along"):
            unit = symbol(name).unit
            # what is no length may hang on other loads: the weight that an earthquake shakes
            kind = "length" if unit in LENGTHS else "action"
            return self.reader.stated(Leaf(kind, name, value, unit, part=part))
        if step.formula in (gravity.wall_weight, gravity.net_on_mark):
            return self._load(name, value, "psi", part, "garage wall", "garage_wall.dead")
        if step.formula == gravity.wall_wind:
            key = "garage_wall.out_of_plane_wind"
            return self._load(name, value, "psi", "H_away", "garage wall", key)
        unit = "psi" if name == "q" else "lb/in"
        found = self._load(name, value, unit, part, "garage roof", ROOF_KEYS.get(part, ""))
        if part == "S" and found.leaf is not None and found.leaf.kind == "load":
            self.snow = found.leaf
        return found

    def _load(self, name: str, value: float, unit: str, part: str, where: str, key: str) -> Item:
        """A load by part; derived where the case does not state it, nor is it the one snow."""
        stated = bool(key) and self._is(key, value)
        snows = [one for one in self.design.model.parts if one in ("S", *SNOW_CASES)]
        snow = part in snows or part == "S_back"
        followed = stated if not snow else len(snows) == 1
        kind: Kind = "load" if followed else "derived"
        key = key if stated else ""
        return self.reader.stated(Leaf(kind, name, value, unit, note=where, part=part, key=key))

    def _is(self, key: str, value: float) -> bool:
        """Whether the case states a number, or its size."""
        stated = self.design.worked.batch.number(key) if key else None
        return stated is not None and bool(np.all(close(np.ravel(stated), np.array([abs(value)]))))

    def _length(self, name: str, value: "Num | Step", unit: str) -> Item:
        return self.reader.stated(Leaf("length", name, float(numbers(amount(value))[0]), unit))

    def _weight(self) -> Item:
        weight = float(numbers(self.design.loads.self_weight)[0])
        said = "the member's own weight"
        return self.reader.stated(Leaf("length", "w_self", weight, "lb/in", note=said))


def _worked(
    formula: Formula, inputs: dict[str, Item], clause: str, values: Array | None = None
) -> Item:
    if values is None:
        values = numbers(formula(**{name: one.values for name, one in inputs.items()}))
    key = ("formula", id(formula), "", tuple((n, i.key) for n, i in inputs.items()), (), None)
    return Item("formula", formula.symbol, formula.unit, clause, "", "", values, key,
                inputs=inputs, formula=formula, fits=np.ones(1, dtype=bool))  # fmt: skip


def _added(items: list[Item], sign: float) -> Item:
    """The sum of the forces of a part, or that turned round."""
    if len(items) == 1 and sign > 0:
        return items[0]
    values = sign * sum((one.values for one in items), np.zeros(1))
    inputs = {str(i): one for i, one in enumerate(items)}
    key = ("added", sign, tuple(one.key for one in items))
    symbol_ = items[0].symbol
    return Item("added", symbol_, "lb", "statics", "", "", values, key, inputs=inputs,
                form="" if sign > 0 else "turned")  # fmt: skip
