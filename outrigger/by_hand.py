"""Closed forms of a level outrigger on two supports, for the printed arithmetic.

The values that the checks use come from statics.py; these formulas print beside them, and the
two agree to 1e-9.
"""

from dataclasses import dataclass

import numpy as np

from outrigger.actions import Set
from outrigger.combine import Model
from outrigger.formula import Array, Num, Step, formula, given
from outrigger.loads import WORKER_LB


@formula("M", "lb-in", clause="statics, two supports")
def edge_moment(P: Num, a: Num, w_arm: Num, t: Num, W_end: Num) -> Num:
    """Hogging moment at the house edge."""
    return P * a + w_arm * (a + t) ** 2 / 2 + W_end * (a + t)


@formula("V", "lb", clause="statics")
def arm_shear(P: Num, w_arm: Num, a: Num, t: Num, W_end: Num) -> Num:
    """Shear on the arm side of the house edge."""
    return P + w_arm * (a + t) + W_end


@formula("T_place", "lb", clause="statics, two supports")
def back_pull(M_edge: Num, L_b: Num, w_back: Num, w_self: Num, b_b: Num) -> Num:
    """Uplift at the back hold-down."""
    return M_edge / L_b - w_back * L_b / 2 - w_self * b_b * (L_b + b_b / 2) / L_b


@formula("R", "lb", clause="statics, two supports")
def edge_push(V: Num, M_edge: Num, L_b: Num, w_back: Num, w_self: Num, b_b: Num) -> Num:
    """Push on the house at the edge."""
    return V + M_edge / L_b + w_back * L_b / 2 - w_self * b_b**2 / (2 * L_b)


@dataclass(frozen=True, eq=False)
class Hand:
    """Loads of every combination of a set, (cases, combinations), and what follows from them."""

    P: Array
    w_arm: Array
    W_end: Array
    w_back: Array
    w_self: Array
    a: Array
    t: Array
    L_b: Array
    b_b: Array

    def moment(self) -> Step:
        """Moment at the edge."""
        P = given("P", self.P, "lb", "", "on the wall line")
        w = given("w_arm", self.w_arm, "lb/in", "", "strip and self weight")
        return edge_moment.step(P=P, a=self.a, w_arm=w, t=self.t, W_end=self.W_end)

    def arm_shear(self) -> Step:
        """Shear on the arm side."""
        P = given("P", self.P, "lb", "", "on the wall line")
        w = given("w_arm", self.w_arm, "lb/in", "", "strip and self weight")
        return arm_shear.step(P=P, w_arm=w, a=self.a, t=self.t, W_end=self.W_end)

    def _house(self) -> dict[str, "Num | Step"]:
        back = given("w_back", self.w_back, "lb/in", "", "on the back span, with self weight")
        M_edge = self.moment()
        moment = Step(
            "M_edge", M_edge.value, "lb-in", "", formula=M_edge.formula, inputs=M_edge.inputs
        )
        house: dict[str, Num | Step] = {"M_edge": moment, "L_b": self.L_b, "w_back": back}
        return house | {"w_self": self.w_self, "b_b": self.b_b}

    def back_pull(self) -> Step:
        """Uplift at the back; negative where it is pushed down."""
        return back_pull.step(**self._house())

    def edge_push(self) -> Step:
        """Push at the edge; negative where it is pulled up."""
        return edge_push.step(V=self.arm_shear(), **self._house())


def hand(model: Model, over: Set) -> Hand | None:
    """The closed forms of a single case; None with more than two supports or a covered arm."""
    on, shape, cases = model.loads, model.shape, len(model.whole.V_arm)
    if cases > 1 or len(model.supports) > 2 or np.any(on.covered > 0) or on.strip_ramp or on.house:
        return None

    def combined(by_part: dict[str, Array]) -> Array:
        table = np.zeros((cases, len(model.parts)))
        for i, part in enumerate(model.parts):
            if part in by_part:
                table[:, i] = by_part[part][:, 0]
        return over.combine(table)

    weight = on.self_weight
    strip = {**on.strip, "D": on.strip["D"] + weight}
    return Hand(
        combined(on.wall_line),
        combined(strip),
        combined({"worker": np.full((1, 1), WORKER_LB)}),
        over.combine(model.whole.w_back),
        combined({"D_back": weight}),
        shape.arm,
        shape.tail,
        shape.back_span,
        shape.behind_back,
    )
