"""A single case by closed forms, two supports: the arithmetic that prints beside the statics.

The values that the checks use come from the statics of a beam; the closed forms print beside them.
Where one is put to a number of the statics the two are compared (`attach`).
"""

from collections.abc import Callable, Mapping
from functools import cached_property

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions import closed_forms as forms
from outrigger.actions.model import Model
from outrigger.actions.sums import summed
from outrigger.base.errors import ContradictionError
from outrigger.formula.formula import Step, Terms, given
from outrigger.formula.numbers import Array, Num

AGREE = 1e-9  # of the largest term of the same unit in any combination


def as_it_is(value: Array) -> Array:
    """The number of a closed form, whatever its sign."""
    return value


def upward(value: Array) -> Array:
    """The number of a closed form, never below zero: a place that is pushed down pulls nothing."""
    return np.maximum(value, 0.0)


def size(value: Array) -> Array:
    """The size of a closed form's number."""
    return np.abs(value)


def attach(
    closed: Step,
    value: Num,
    taken: Callable[[Array], Array] = as_it_is,
    *others: Step,
) -> Step:
    """The closed form, printed for a number of the statics, which must be its own.

    Args:
        closed, value: the closed form, and the number over the combinations.
        taken: what counts of the form's number: `as_it_is`, `upward` or `size`.
        others: forms of other places, where the number is the larger of several.

    Raises:
        ContradictionError: the number is that of none of the forms.
    """
    number = np.asarray(value)
    values = [taken(np.asarray(one.value)) for one in (closed, *others)]
    off = np.min([np.abs(one - number) for one in values], axis=0)
    terms = [
        step.value for one in (closed, *others) for step in one.chain() if step.unit == one.unit
    ]
    scale = max(float(np.max(np.abs(one))) for one in terms)
    if not np.all(off <= AGREE * scale):
        at = np.unravel_index(int(np.argmax(off)), off.shape)
        said, found = (float(np.broadcast_to(v, off.shape)[at]) for v in (values[0], number))
        raise ContradictionError(
            f"{closed.symbol}, {closed.clause}: {said:.12g} {closed.unit} by its closed form, "
            f"{found:.12g} {closed.unit} by statics"
        )
    return replace(closed, value=value, how=taken, beside=others)


class Hand(Struct, frozen=True, eq=False, dict=True):
    """Loads of every combination, (cases, combinations), and what follows from them."""

    P: Array
    w_arm: Array
    W_end: Array
    w_back: Array
    w_self: Array
    a: Array
    t: Array
    L_b: Array
    b_b: Array
    w_fall: Array | None  # what the strip gains from the house face to the end; None: even
    x_face: Array
    w_shed: Array | None  # snow slid off the garage, to the wall line; None: none
    F_arm: Array | None  # forces along the member, of the arm and of the back span; None: none
    F_back: Array | None
    d: float
    axis: str  # which part of the loads, in words
    terms: Mapping[str, Terms]  # how each sum came about, by symbol

    def _sum(self, symbol: str, value: Array, unit: str, note: str) -> Step:
        return given(symbol, value, unit, "", note, terms=self.terms.get(symbol))

    @cached_property
    def _arm(self) -> dict[str, "Num | Step"]:
        said = ", ".join(part for part in ("on the garage wall", self.axis) if part)
        P = self._sum("P", self.P, "lb", said)
        w = self._sum("w_arm", self.w_arm, "lb/in", "strip and self weight")
        arm: dict[str, Num | Step] = {"P": P, "a": self.a, "w_arm": w, "t": self.t}
        arm["W_end"] = self.W_end
        if np.any(self.W_end != 0):
            arm["W_end"] = self._sum("W_end", self.W_end, "lb", "at the end of the member")
        if self.w_fall is not None:
            note = "what the strip's drift gains from the house face to the end"
            arm |= {
                "w_fall": self._sum("w_fall", self.w_fall, "lb/in", note),
                "x_face": self.x_face,
            }
        return arm

    @property
    def _shed(self) -> dict[str, "Num | Step"]:
        said = "slid off the garage, on arm and back span"
        return {"w_shed": self._sum("w_shed", np.asarray(self.w_shed), "lb/in", said), "a": self.a}

    def _moment_of_arm(self) -> Step:
        """Moment at the edge of what lies on the arm."""
        chosen = forms.edge_moment if self.w_fall is None else forms.edge_moment_with_drift
        M = chosen.step(**self._arm)
        if self.w_shed is None:
            return M
        return forms.moment_with_shed.step(M_strip=replace(M, symbol="M_strip"), **self._shed)

    def moment(self) -> Step:
        """Moment at the edge."""
        M = self._moment_of_arm()
        if self.F_arm is None or self.F_back is None:
            return M
        F_arm = self._sum("F_arm", self.F_arm, "lb", "along the member, loads of the arm")
        F_back = self._sum("F_back", self.F_back, "lb", "along the member, of the back span")
        C = forms.couple_of_force_along.step(F_arm=F_arm, F_back=F_back, d=self.d)
        return forms.moment_with_couple.step(M_load=replace(M, symbol="M_load"), C_along=C)

    def arm_moment(self) -> Step:
        """Moment just outside the edge."""
        M = self._moment_of_arm()
        if self.F_arm is None:
            return M
        F_arm = self._sum("F_arm", self.F_arm, "lb", "along the member, loads of the arm")
        return forms.moment_of_arm.step(M_load=replace(M, symbol="M_load"), F_arm=F_arm, d=self.d)

    def arm_shear(self) -> Step:
        """Shear on the arm side."""
        chosen = forms.arm_shear if self.w_fall is None else forms.arm_shear_with_drift
        V = chosen.step(**self._arm)
        if self.w_shed is None:
            return V
        return forms.arm_shear_with_shed.step(V_strip=replace(V, symbol="V_strip"), **self._shed)

    def _house(self) -> dict[str, "Num | Step"]:
        back = self._sum("w_back", self.w_back, "lb/in", "on the back span, with self weight")
        M_edge = self.moment()
        moment = Step(
            "M_edge", M_edge.value, "lb-in", "", formula=M_edge.formula, inputs=M_edge.inputs
        )
        house: dict[str, Num | Step] = {"M_edge": moment, "L_b": self.L_b, "w_back": back}
        return house | {"w_self": self.w_self, "b_b": self.b_b}

    def back_pull(self) -> Step:
        """Uplift at the back; negative where it is pushed down."""
        return forms.back_pull.step(**self._house())

    def wall_shear(self) -> Step | None:
        """Shear on the arm by the garage wall; None with a drift on the strip."""
        arm = {name: given for name, given in self._arm.items() if name != "a"}
        return forms.shear_by_wall.step(**arm) if self.w_fall is None else None

    def house_shear(self) -> Step:
        """Shear on the house side of the edge."""
        return forms.shear_at_edge.step(**self._back_span())

    def back_shear(self) -> Step:
        """Shear on the outer side of the back."""
        return forms.shear_at_back.step(**self._back_span())

    def _back_span(self) -> dict[str, "Num | Step"]:
        house = self._house()
        behind = forms.moment_behind.step(w_self=house["w_self"], b_b=house["b_b"])
        kept = {name: house[name] for name in ("M_edge", "L_b", "w_back")}
        return {**kept, "M_behind": behind}

    def droop(self, EI: Step, GA: Step) -> Step | None:
        """Droop at the wall line; None with a drift on the strip, snow slid off the garage or a
        force along the member."""
        if any(one is not None for one in (self.w_fall, self.w_shed, self.F_arm)):
            return None
        P, w_arm, t = self._arm["P"], self._arm["w_arm"], self.t
        slope = forms.slope_at_edge.step(**self._back_span(), EI=EI, GA=GA)
        return forms.droop_at_wall.step(
            D_point=forms.droop_of_point.step(P=P, a=self.a, EI=EI),
            D_even=forms.droop_of_even.step(w_arm=w_arm, a=self.a, t=t, EI=EI),
            D_shear=forms.droop_of_shear.step(P=P, a=self.a, w_arm=w_arm, t=t, GA=GA),
            slope_edge=slope,
            a=self.a,
        )

    def edge_push(self) -> Step:
        """Push at the edge; negative where it is pulled up."""
        return forms.edge_push.step(V=self.arm_shear(), **self._house())

    def back_push(self) -> Step:
        """Push at the back; negative where it is pulled up."""
        return forms.back_push.step(T_place=self.back_pull())

    def edge_pull(self) -> Step:
        """Uplift at the edge; none where it pushes down."""
        return forms.edge_pull.step(R=self.edge_push())


def hand(model: Model, factors: Array, d: float, *, across: bool = False) -> Hand | None:
    """The closed forms of a single case, square to the sheathing or `across` the member.

    factors (combinations, parts).

    None with more than two supports, a covered arm, a drift on the house roof or slid snow that
    ends before the back, and across where nothing acts so.
    """
    on = model.by_axis.across if across else model.by_axis.square
    whole = model.sideways if across else model.whole
    if on is None or whole is None:
        return None
    shape, cases = model.shape, len(whole.V_arm)
    if cases > 1 or len(model.supports) > 2 or np.any(on.covered > 0) or on.house:
        return None
    behind = [on.shed_behind(part, shape) for part in on.shed]
    if any(np.any(one == 0) for one in behind):
        return None

    sums: dict[str, Terms] = {}

    def combined(symbol: str, by_part: Mapping[str, Array]) -> Array:
        table = np.zeros((cases, len(model.parts)))
        for i, part in enumerate(model.parts):
            if part in by_part:
                table[:, i] = by_part[part][:, 0]
        sums[symbol] = Terms(model.parts, factors, table)
        return summed(table, factors)

    tilted = shape.tilt.way != "level"
    along = not across and bool(model.by_axis.on_arm or model.by_axis.on_back)
    weight = on.self_weight
    strip = {**on.strip, "D": on.strip["D"] + weight}
    sums["w_back"] = Terms(model.parts, factors, whole.w_back)
    return Hand(
        P=combined("P", on.wall_line),
        w_arm=combined("w_arm", strip),
        W_end=combined("W_end", {"worker": on.worker}),
        w_back=summed(whole.w_back, factors),
        w_self=combined("w_self", {"D_back": weight, "D_own": weight}),
        a=shape.arm,
        t=shape.tail,
        L_b=shape.back_span,
        b_b=shape.behind_back,
        w_fall=combined("w_fall", on.strip_ramp) if on.strip_ramp else None,
        x_face=shape.face,
        w_shed=combined("w_shed", {p: q for p, (q, _) in on.shed.items()}) if on.shed else None,
        F_arm=combined("F_arm", model.by_axis.on_arm) if along else None,
        F_back=combined("F_back", model.by_axis.on_back) if along else None,
        d=d,
        axis="across the member" if across else "square to the sheathing" if tilted else "",
        terms=sums,
    )
