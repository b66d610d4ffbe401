"""The take-down of the loads as items: unfactored amounts of every part, from psf to pounds.

Each amount that the design has is looked for among what the steps of its part give; one that is
none of these stays the program's number.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from outrigger.formula.formula import Formula, Step, Terms
from outrigger.formula.numbers import Array, Num
from outrigger.loads import gravity
from outrigger.studies.live import Amounts, Item, Kind, close, numbers
from outrigger.studies.live_items import FORCES, Reader
from outrigger.verdict.design import Design

WALL = "garage wall"
ROOF_KEYS = {
    "D": "garage_roof.dead", "L": "garage_roof.storage", "Lr": "garage_roof.live",
    "S": "snow.roof", "W_up": "wind.uplift", "W_down": "wind.down",
}  # fmt: skip
HOUSE_KEYS = {
    "D_back": "house_roof.dead", "Lr_back": "house_roof.live", "S_back": "house_roof.snow",
    "W_back": "house_roof.wind_uplift",
}  # fmt: skip


@dataclass
class TakeDown:
    """Reads the take-down of one design."""

    design: Design
    reader: Reader

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
            return self._stated("length", "w_self", value, "lb/in", "the member's own weight", "")
        if part == "worker" and value == float(np.ravel(self.design.loads.worker)[0]):
            return self._stated("length", step.symbol, value, "lb", "one worker at the end", "")
        return self.reader.fixed(step.symbol, value, step.unit, f"{step.note}, {part}")

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
            name: total if name != "theta_roof" else self._stated(
                "length", name, float(numbers(one.value)[0]), "deg", one.note, "")
            for name, one in step.inputs.items() if isinstance(one, Step)
        }  # fmt: skip
        return _worked(step.formula, inputs, step.clause)

    def _on_strip(self, part: str) -> Iterator[Item]:
        """Strip of the roof over the gap, level: q times the length of wall."""
        spread = float(np.ravel(self.design.shape.plan_area)[0])
        s = self._stated("length", "s_strip", spread, "in", "", "")
        for q in self._pressures(part):
            yield _worked(gravity.strip_load, {"q": q, "s_strip": s}, "statics")
            if part == "D":
                yield self._with_self(q, s)

    def _with_self(self, q: Item, s: Item) -> Item:
        weight = float(np.ravel(self.design.loads.self_weight)[0])
        w = self._stated("length", "w_self", weight, "lb/in", "the member's own weight", "")
        inputs = {"q": q, "s_strip": s, "w_self": w}
        return _worked(gravity.strip_load_with_self, inputs, "statics")

    def _pressures(self, part: str) -> Iterator[Item]:
        """Loads per area that the strip may carry."""
        batch = self.design.worked.batch
        if part == "D" and self.design.case.garage_roof.strip_dead is not None:
            q = float(batch.load("garage_roof.strip_dead")[0, 0])
            yield self._stated(
                "load", "q", q, "psi", "roof over the gap, D", "garage_roof.strip_dead"
            )
            return
        for step in self.design.loads.totals.get(part, ()):
            for one in step.chain():
                if one.formula in (gravity.roof_line_load, gravity.roof_line_load_with_overhang):
                    yield self._put_in(one, "q", one.inputs["q"], part)

    def _on_back(self, part: str) -> Iterator[Item]:
        """The back span's load, level."""
        on, shape = self.design.loads, self.design.shape
        s = self._stated("length", "s_strip", float(np.ravel(shape.plan_area)[0]), "in", "", "")
        total = on.back.get(part)
        if total is None:
            return
        value = float(np.ravel(total)[0]) / s.values[0]
        key = HOUSE_KEYS.get(part, "")
        stated = self.design.worked.batch.number(key) if key else None
        kept = stated is not None and np.all(close(np.ravel(stated), np.array([abs(value)])))
        q = self._stated("load", "q", value, "psi", f"house roof, {part}", key if kept else "")
        yield _worked(gravity.strip_load, {"q": q, "s_strip": s}, "statics")
        if part == "D_back":
            yield self._with_self(q, s)

    def _item(self, step: Step, part: str) -> Item:
        """A step of the take-down; what has no formula stands by itself."""
        if step.formula is None:
            return self._stated("load", step.symbol, float(numbers(step.value)[0]), step.unit,
                                f"{step.note}, {part}", "")  # fmt: skip
        inputs = {name: self._put_in(step, name, one, part) for name, one in step.inputs.items()}
        return _worked(step.formula, inputs, step.clause, numbers(step.value))

    def _put_in(self, step: Step, name: str, one: "Num | Step", part: str) -> Item:
        if isinstance(one, Step):
            return self._item(one, part)
        value = float(numbers(one)[0])
        wall = step.formula in (gravity.wall_weight, gravity.wall_wind)
        key, note = "", part
        if name == "q":
            key = ROOF_KEYS.get(part, "")
            note = f"garage roof, {part}"
            if wall:
                key = "garage_wall.dead" if part == "D" else "garage_wall.out_of_plane_wind"
                note = f"{WALL}, {'D' if part == 'D' else 'H'}"
        elif name in ("l_span", "h_wall"):
            key = {"l_span": "garage_roof.span", "h_wall": "garage_wall.height"}[name]
            note = key
        unit = {"q": "psi", "w_along": "lb/in"}.get(name, "in")
        load = name in ("l_span", "h_wall") or unit in (*FORCES, "psi")
        stated = self.design.worked.batch.number(key) if key else None
        if stated is None or not np.all(close(np.ravel(stated), np.array([abs(value)]))):
            key = ""
        return self._stated("load" if load else "length", name, value, unit,
                            note if load else "", key)  # fmt: skip

    def _stated(self, kind: Kind, name: str, value: float, unit: str, note: str, key: str) -> Item:
        return self.reader.stated(kind, name, value, unit, note, key)


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
