"""Lengths that follow from a case, and the columns of cases that all actions are built of."""

import math
from typing import Any, Literal

import numpy as np
from msgspec import Struct

from outrigger.cases.batch import Batch
from outrigger.cases.model import Case
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Array, Num, cos_deg

TRUSS_SPACING_IN = 24.0  # taken when not given, and listed
TRADE_SPACINGS_IN = (12.0, 16.0, 19.2, 24.0)  # marked on a tape
HOUSE_FINISH_IN = 0.5  # taken when not given, and listed
RUN = 12.0  # of a pitch, rise over 12


def column(value: Any) -> Array:
    """A number, or an array of cases, as a column (cases, 1)."""
    return np.asarray(value, dtype=float).reshape(-1, 1)


def truss_spacing(case: Case) -> float | Literal["uniform"]:
    """How far apart the roof members stand on the garage wall, in; or "uniform"."""
    roof = case.garage_roof
    if roof.member_spacing is None:
        return TRUSS_SPACING_IN if roof.form == "trusses" else "uniform"
    return "uniform" if roof.member_spacing == "uniform" else float(roof.member_spacing)


def tail_of(case: Case) -> float:
    """Wall line to the end of the outrigger, in: half the garage plate when it is not given."""
    tail = case.outrigger.tail
    return case.gap.garage_plate / 2 if tail is None else tail


@formula("a", "in", clause="geometry")
def arm_level(x_gap: Num, t_finish: Num, w_plate: Num, e_setback: Num, l_edge: Num) -> Num:
    """House edge to wall line, level or across the slope."""
    return x_gap + t_finish + w_plate / 2 + e_setback + l_edge / 2


@formula("a", "in", clause="geometry: what is measured horizontally is longer along the slope")
def arm_down_the_slope(
    x_gap: Num, t_finish: Num, w_plate: Num, theta_roof: Num, e_setback: Num, l_edge: Num
) -> Num:
    """House edge to wall line along a member that runs down the slope."""
    return (x_gap + t_finish + w_plate / 2) / cos_deg(theta_roof) + e_setback + l_edge / 2


class Tilt(Struct, frozen=True):
    """How the house roof slopes under the member: theta degrees; down its length, or across it."""

    theta: float = 0.0
    way: Literal["level", "down", "across"] = "level"

    @property
    def cos(self) -> float:
        """Cosine of theta; 1 exactly when level."""
        return math.cos(math.radians(self.theta))

    @property
    def sin(self) -> float:
        """Sine of theta; 0 exactly when level."""
        return math.sin(math.radians(self.theta))

    @property
    def down(self) -> bool:
        """The outer end lies lower than the house."""
        return self.way == "down"

    @property
    def across(self) -> bool:
        """The member is level along its length and tilted with the sheathing."""
        return self.way == "across"


LEVEL = Tilt()


class Geometry(Struct, frozen=True, eq=False):
    """Lengths of the outrigger, in, columns of cases, all along the member and the sheathing.

    x is 0 at the edge, positive outward. `face`: x of the house finish's outer face, where the gap
    begins.
    """

    arm: Array
    back_span: Array
    tail: Array
    behind_back: Array
    spacing: Array
    wall_bearing: Array
    face: Array
    tilt: Tilt
    arm_step: Step  # how the arm came about
    carried: Array | None = None  # length of wall, in plan, where a layout says it

    @property
    def plan(self) -> float:
        """Horizontal distance of a length along the member."""
        return self.tilt.cos if self.tilt.down else 1.0

    @property
    def plan_spacing(self) -> Array:
        """Length of wall that one outrigger carries, in plan: a spacing, or as a layout has it."""
        if self.carried is not None:
            return self.carried
        return self.spacing * self.cos_along_wall

    @property
    def cos_along_wall(self) -> float:
        """Horizontal distance of a length along the row."""
        return self.tilt.cos if self.tilt.across else 1.0

    @property
    def plan_area(self) -> Array:
        """Plan area that one outrigger carries for each inch of its length."""
        return self.spacing * self.tilt.cos

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


def tilt_of(case: Case) -> Tilt:
    """The slope under the outriggers; a direction that is not given is taken down the slope."""
    house = case.house_roof
    if not house.pitch:
        return LEVEL
    theta = math.degrees(math.atan(house.pitch / RUN))
    return Tilt(theta, "across" if house.direction == "across the slope" else "down")


def geometry(batch: Batch) -> Geometry:
    """Lengths that follow from the cases.

    Down the slope what is measured horizontally (gap, house finish, half the garage plate) is
    longer along the member by 1 / cos.
    """
    tilt, mark = tilt_of(batch.case), batch.mark
    cos = tilt.cos if tilt.down else 1.0
    plate = batch.column("gap.garage_plate")
    finish = batch.column("gap.house_finish", HOUSE_FINISH_IN)
    setback, bearing = batch.column("gap.edge_setback"), batch.column("gap.edge_bearing")
    lengths: dict[str, Num | Step] = {
        "x_gap": batch.column("gap.width"),
        "t_finish": finish,
        "w_plate": plate,
        "e_setback": setback,
        "l_edge": bearing,
    }
    arm = arm_level.step(**lengths)
    if tilt.down:
        theta = given("theta_roof", tilt.theta, "deg", "", "slope of the house roof")
        arm = arm_down_the_slope.step(**lengths, theta_roof=theta)
    tail = plate / 2 if batch.case.outrigger.tail is None else batch.column("outrigger.tail")
    return Geometry(
        arm=np.asarray(arm.value),
        back_span=batch.column("outrigger.back_span"),
        tail=tail,
        behind_back=batch.column("outrigger.behind_back"),
        spacing=batch.column("outrigger.spacing") if mark is None else mark.tributary,
        wall_bearing=np.minimum(plate, plate / 2 + tail * cos),
        face=finish / cos + setback + bearing / 2,
        tilt=tilt,
        arm_step=arm,
        carried=None if mark is None else mark.carried,
    )
