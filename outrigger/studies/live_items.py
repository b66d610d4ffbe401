"""The items of a check's steps, each value that stands by itself once."""

from collections.abc import Hashable, Iterable, Mapping

import numpy as np
from msgspec import Struct, field

from outrigger.formula.formula import Step, Terms, amount
from outrigger.formula.kind import Link
from outrigger.formula.notation import symbol
from outrigger.formula.numbers import Array, Num
from outrigger.studies.live import (
    FORMS,
    Amounts,
    CombinationSet,
    Item,
    Kind,
    Leaf,
    Way,
    close,
    computed,
    form_of,
    numbers,
    scale_of,
    taken_of,
)

LENGTHS = ("in", "deg", "in2", "in3", "in4", "ft")
FORCES = ("lb", "lb-in", "lb/in", "plf", "psf")


class Leaves(Struct):
    """Every value that stands by itself, by what makes it the same."""

    of_wood: frozenset[Hashable]  # of the outrigger's wood, shared by all its checks
    stiff: frozenset[Hashable]  # of these those that the statics may have used
    listed: Mapping[tuple[str, float], str]  # place and pounds of a listed value, to its key
    found: dict[Hashable, Leaf] = field(default_factory=dict)

    def leaf(self, key: Hashable, made: Leaf) -> Leaf:
        """The leaf of a key, made where there is none yet."""
        return self.found.setdefault(key, made)


def mark(step: Step) -> Hashable:
    """What makes a step without a formula the same wherever it stands."""
    return (step.symbol, float(numbers(step.value)[0]), step.unit, step.clause, step.note,
            step.status)  # fmt: skip


def ends(steps: Iterable[Step]) -> frozenset[Hashable]:
    """The marks of the steps without a formula that some hang on."""
    return frozenset(mark(one) for top in steps for one in top.chain() if one.formula is None)


class Reader(Struct):
    """Reads the steps of one check: its place and its set; the take-down of its sums."""

    leaves: Leaves
    place: str
    over: CombinationSet | None
    amounts: "Mapping[tuple[str, bytes], Amounts]" = field(default_factory=dict)
    used: tuple[Link, str] | None = None
    _items: dict[int, Item] = field(default_factory=dict)
    _alike: dict[Hashable, list[Step]] = field(default_factory=dict)

    def item(self, step: Step) -> Item:
        """The item of a step; the same step, the same item."""
        found = self._items.get(id(step))
        if found is None:
            found = self._items[id(step)] = self._read(step)
        return found

    def _read(self, step: Step) -> Item:
        values = numbers(step.value)
        if step.formula is not None:
            return self._worked(step, values)
        if step.terms is not None and (sum_ := self._summed(step, step.terms, values)):
            return sum_
        if step.inputs and len(values) > 1 and (one := self._chosen(step, values)):
            return one
        return self._alone(step, values)

    def _worked(self, step: Step, values: Array) -> Item:
        assert step.formula is not None
        inputs = {
            name: self.item(one) if isinstance(one, Step) else self._raw(name, one)
            for name, one in step.inputs.items()
        }
        form, scale = form_of(step) or "", scale_of(step)
        taken = FORMS[form](computed(step))
        beside = tuple(self.item(one) for one in step.beside)
        for other in step.beside:
            taken = np.maximum(taken, FORMS[form](numbers(other.value)))
        fits = np.broadcast_to(close(taken, values, scale), np.broadcast_shapes(
            taken.shape, values.shape))  # fmt: skip
        if not np.any(fits):
            return self._column(step, values)
        if len(fits) > len(values):  # the same in every combination all the same
            values = np.broadcast_to(values, fits.shape)
        key = ("formula", id(step.formula), form, tuple((n, i.key) for n, i in inputs.items()),
               tuple(one.key for one in beside),
               None if np.all(fits) else values.tobytes())  # fmt: skip
        return self._item(
            "formula", step, values, key, inputs=inputs, formula=step.formula, form=form, fits=fits,
            beside=beside,
        )  # fmt: skip

    def _item(self, way: Way, step: Step, values: Array, key: Hashable, **more: object) -> Item:
        return Item(way, step.symbol, step.unit, step.clause, step.note, step.status, values, key,
                    **more)  # type: ignore[arg-type]  # fmt: skip

    def _summed(self, step: Step, terms: Terms, values: Array) -> Item | None:
        """A sum over the load parts, where its factors are those of the set."""
        rows = self.amounts.get((step.symbol, (terms.amounts * terms.scale).tobytes()))
        form = form_of(step)
        if self.over is None or rows is None or form is None or len(terms.amounts) > 1:
            return None
        table = self.over.table(terms)
        if table is None:
            return None
        plain = terms.factors @ rows.values
        if not np.all(close(FORMS[form](plain), values, float(np.max(np.abs(rows.values))))):
            return None
        key = ("sum", table, form, id(rows), id(self.over))
        return self._item("sum", step, values, key, form=form, amounts=rows, table=table)

    def _chosen(self, step: Step, values: Array) -> Item | None:
        """A step that is the least or the largest of what it names."""
        if not all(isinstance(one, Step) for one in step.inputs.values()):
            return None
        given = [numbers(amount(one)) for one in step.inputs.values()]
        for way, of in (("least", np.minimum), ("greatest", np.maximum)):
            if np.all(close(of.reduce(np.broadcast_arrays(*given)), values)):
                inputs = {n: self.item(s) for n, s in step.inputs.items() if isinstance(s, Step)}
                key = (way, tuple(one.key for one in inputs.values()))
                return self._item("least" if way == "least" else "greatest", step, values, key,
                                  inputs=inputs)  # fmt: skip
        return None

    def _alone(self, step: Step, values: Array) -> Item:
        if len(values) > 1:
            return (
                self._time(step, values) or self._known(step, values) or self._column(step, values)
            )
        key: Hashable = mark(step)
        stiff = key in self.leaves.stiff
        listed = (
            self.leaves.listed.get((self.place, float(values[0]))) if step.unit == "lb" else None
        )
        if key in self.leaves.of_wood:
            kind: Kind = "stiffness" if stiff else "value"
        elif listed is not None:  # a force along is shared by side values
            kind = "value" if listed.endswith("uplift") else "stiffness"
            key = (listed, key)
        else:
            alike = self._alike.setdefault(key, [])
            if not any(one is step for one in alike):
                alike.append(step)
            nth = next(i for i, one in enumerate(alike) if one is step)
            key = (self.place, nth, key)
            kind = _kind(step)
        leaf = Leaf(kind, step.symbol, float(values[0]), step.unit, step.clause, step.note,
                    step.status, key=listed or "")  # fmt: skip
        return self._of_leaf(key, leaf, values)

    def _of_leaf(self, key: Hashable, made: Leaf, values: Array) -> Item:
        leaf = self.leaves.leaf(key, made)
        if self.used is not None:
            leaf.used[self.used] = None
        return Item("leaf", leaf.symbol, leaf.unit, leaf.clause, leaf.note, leaf.status, values,
                    ("leaf", key), leaf=leaf)  # fmt: skip

    def _raw(self, name: str, value: Num) -> Item:
        """A number put in without a step of its own."""
        values, unit = numbers(value), symbol(name).unit
        plain = Step(name, value, unit, "")
        if len(values) > 1:
            return (
                self._time(plain, values)
                or self._known(plain, values)
                or self._column(plain, values)
            )
        sized = np.ndim(value) > 0 and unit not in LENGTHS
        kind: Kind = "action" if sized or unit in FORCES else "length"
        return self._of_leaf(
            (name, float(values[0]), self.place if kind == "action" else ""),
            Leaf(kind, name, float(values[0]), unit), values,
        )  # fmt: skip

    def _time(self, step: Step, values: Array) -> Item | None:
        """CD or lambda of the combination."""
        times = None if self.over is None else self.over.times
        if times is None or not np.array_equal(times, values):
            return None
        return self._item("time", step, values, ("time", id(self.over)))

    def _known(self, step: Step, values: Array) -> Item | None:
        """An action of the statics as a sum of those of the parts."""
        if self.over is None or not self.over.tables:
            return None
        acts = bool(np.any(values))
        for rows in self.over.known:
            most = float(np.max(np.abs(rows.values), initial=0.0))
            # nothing in every combination is a sum of anything: of its own parts alone
            if rows.unit != step.unit or not most or not (acts or rows.symbol == step.symbol):
                continue
            for factors in [*self.over.known_tables()]:
                form = taken_of(factors @ rows.values, values, most)
                if form is not None:
                    table = self.over.number(factors)
                    key = ("sum", table, form, id(rows), id(self.over))
                    return self._item(
                        "sum", step, values, key, form=form, amounts=rows, table=table
                    )
        return None

    def stated(self, made: Leaf) -> Item:
        """A number of the take-down, which stands by itself."""
        key = (made.symbol, made.value, made.note or made.unit, made.part, made.key)
        return self._of_leaf(key, made, np.array([made.value]))

    def fixed(self, symbol_: str, value: float, unit: str, note: str, part: str) -> Item:
        """A number of the program's statics, which nothing follows."""
        made = Leaf("action", symbol_, value, unit, "statics", note, part=part)
        return self._of_leaf(("fixed", symbol_, unit, note, part, value), made, np.array([value]))

    def _column(self, step: Step, values: Array) -> Item:
        """Numbers of the program, one for each combination; of one alone a leaf."""
        if len(values) == 1:
            key = (self.place, "taken", mark(step))
            made = Leaf("action", step.symbol, float(values[0]), step.unit, step.clause,
                        step.note, step.status)  # fmt: skip
            return self._of_leaf(key, made, values)
        return self._item("column", step, values, ("column", step.symbol, values.tobytes()))


def _kind(step: Step) -> Kind:
    """What a value with a step of its own is, by its shape and its unit: what follows from the case
    is an array, what a table or a listing gives a number."""
    if np.ndim(step.value) == 0:
        if step.unit in LENGTHS:
            return "length"
        return "stiffness"
    return "length" if step.unit == "" else "action"
