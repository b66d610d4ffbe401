"""Fasteners straight down through the wall's plate into an outrigger: their values.

NDS 2018 12.2 withdrawal and pull-through, 12.3 lateral. Lengths in, forces lb.
"""

from functools import cached_property

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions.places import WALL_LINE
from outrigger.base import tables
from outrigger.base.quantity import length
from outrigger.checks.bearing import other_wood
from outrigger.checks.built_clip import washer_area, washer_stress
from outrigger.checks.loaded_member import (
    FRAMING_G,
    PLATE_THICKNESS_IN,
    TABLE_G,
    LoadedMember,
)
from outrigger.checks.panel import weaker
from outrigger.fasteners import adjusted as connection_values
from outrigger.fasteners import dowel_bearing, withdrawal
from outrigger.fasteners import spacing as fastener_spacing
from outrigger.fasteners.adjusted import Use
from outrigger.fasteners.dowel_bearing import Layer
from outrigger.fasteners.lateral import reference_lateral
from outrigger.fasteners.trade_names import Fastener
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, amount, formula, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array, Num, cos_deg, sin_deg
from outrigger.loads.gravity import fastener_gravity


@formula("F_place", "lb", clause="NDS 2018 11.2.1")
def all_sideways(n_ties: Num, Z_adj: Num) -> Num:
    """Lateral value of the fasteners of one outrigger."""
    return n_ties * Z_adj


@formula("g_gap", "in", clause="geometry: in the middle of the plate")
def filler_below(w_plate: Num, theta_roof: Num) -> Num:
    """Tapered filler between a level plate and the sloping outrigger, where the fasteners stand."""
    return w_plate / 2 * sin_deg(theta_roof) / cos_deg(theta_roof)


class Through(Struct, frozen=True, eq=False, dict=True):
    """Fasteners through a plate `side_in` thick into the top of the outrigger, down a slope through
    the filler below it too, which counts as a gap.

    tail: from them to the member's end, in; pushed_across: a force along the wall acts on them.
    """

    member: LoadedMember
    fastener: Fastener
    count: float
    side_in: float
    tail: Array
    pushed_across: bool

    @property
    def plate_G(self) -> Step:
        """G of the plate; 0.36 where its species is not given, and listed."""
        species = self.member.case.garage_wall.plate_species
        value = FRAMING_G if species is None else fastener_gravity(species)
        return given("G", value, "", TABLE_G, species or "plate not given")

    @property
    def use(self) -> Use:
        """Moisture and temperature; unseasoned lumber was wet when it was fastened."""
        return Use(self.member.conditions, wet_built=not self.member.case.outrigger.seasoned)

    @cached_property
    def filler(self) -> Step | None:
        """The filler that they go through; None where the plate lies on the outrigger."""
        tilt = self.member.model.shape.tilt
        if not tilt.down:
            return None
        theta = given("theta_roof", tilt.theta, "deg", "", "slope of the house roof")
        return filler_below.step(w_plate=self.member.case.gap.garage_plate, theta_roof=theta)

    @cached_property
    def penetration(self) -> Step:
        """Into the outrigger, in."""
        return dowel_bearing.penetration.step(
            L_f=self.fastener.step("L_f"),
            ts=self.side_in,
            g_gap=0.0 if self.filler is None else self.filler,
            tm=self.member.d,
        )

    @property
    def why_nothing(self) -> str:
        """Why the penetration counts for nothing; empty where it counts."""
        return dowel_bearing.why_nothing(self.fastener, float(np.asarray(self.penetration.value)))

    @property
    def why_open(self) -> str:
        """What is not computed of large fasteners."""
        if self.fastener.small:
            return ""
        if self.count > 1:
            return "a row of lags: Cg of NDS 11.3.6 is not computed"
        needed = fastener_spacing.full_distance(self.fastener, "edge, loaded", "across the grain")
        half = self.member.b / 2
        if self.pushed_across and needed.value > half:
            return (
                f"a force along the wall needs {length(float(np.asarray(needed.value)))} from the "
                f"lag to the edge of the outrigger, {length(half)} is there"
            )
        return ""

    def one(self, time: Num) -> Step:
        """Lateral value of one, both woods loaded across the grain, the weaker way."""
        f = self.fastener
        side = Layer(dowel_bearing.in_wood(f, self.plate_G, 90.0), self.side_in, 90.0)
        main = dowel_bearing.in_wood(f, self.member.own_G, 90.0)
        Z = reference_lateral(f, main, side, self.penetration, theta=90.0, gap=self.filler).Z
        CDelta = fastener_spacing.geometry_factor(f, "end", "tension along the grain", self.tail)
        return connection_values.adjusted_lateral(Z, f, self.use, time, CDelta=CDelta)

    def side(self, time: Num) -> Step:
        """Lateral value of all."""
        return all_sideways.step(n_ties=self.count, Z_adj=self.one(time))

    def pull(self, time: Num) -> Step:
        """What one holds against uplift: its thread or shank, and its head in the plate; of a lag
        the washer is a row of its own."""
        f = self.fastener
        W = withdrawal.reference_withdrawal(f, self.member.own_G)
        W_adj = connection_values.adjusted_withdrawal(W, f, self.use, time)
        between = 0.0 if self.filler is None else amount(self.filler)
        beyond = dowel_bearing.comes_out(f, self.side_in, between, self.member.d)
        pt = withdrawal.counted_length(f, self.penetration, beyond)
        Wp = connection_values.withdrawal_of_one.step(W_adj=W_adj, pt=pt)
        if f.kind == "lag":
            return Wp
        WH = withdrawal.pull_through(f.step("DH"), self.plate_G, PLATE_THICKNESS_IN)
        WH_adj = connection_values.adjusted_pull_through(WH, f, self.use, time)
        return weaker.step(Wp_adj=Wp, WH_adj=WH_adj)


def washer_row(member: LoadedMember, kind: Kind, T: Step, through: Through) -> Check | None:
    """A standard cut washer under a lag, crushed into the plate; None: no lag. NDS 2018 3.10."""
    f = through.fastener
    if f.kind != "lag":
        return None
    row = tables.load("washers").find(lag=length(f.D))
    note = "Type A plain washer, wide series, taken"
    size = given("D_washer", float(row["D_washer_in"]), "in", "ASME B18.21.1", note, row["status"])
    pi = given("pi", np.pi, "", "", "circumference over diameter")
    A = washer_area.step(pi=pi, D_washer=size, D_hole=given("D_hole", f.D, "in", "", "shank"))
    fc = washer_stress.step(T_f=replace(T, symbol="T_f"), A_washer=A)
    cap = other_wood(member, member.case.garage_wall.plate_species)
    check = Check(
        link=Link(kind, "washer", "washer"), place=WALL_LINE, clause="NDS 2018 3.10.2",
        demand=fc.value, capacity=cap.value, unit="psi", steps=(fc, cap),
    )  # fmt: skip
    return member.over(check)
