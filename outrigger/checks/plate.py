"""The garage plate between outriggers. NDS 2018 3.3, 3.4."""

from dataclasses import replace

import numpy as np

from outrigger.actions.geometry import column, truss_spacing
from outrigger.actions.places import WALL_LINE
from outrigger.checks.loaded_member import (
    PLATE_GRADE,
    PLATE_SPECIES,
    PLATE_THICKNESS_IN,
    LoadedMember,
)
from outrigger.formula.check import Check
from outrigger.formula.formula import given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array
from outrigger.wood import bending, lumber, shear
from outrigger.wood.adjusted import Conditions, adjusted, flat_use

PLATE = Kind("plate", "plate")
BENT, CUT = Link(PLATE, "bending", "bending"), Link(PLATE, "shear", "shear")


def plate(member: LoadedMember) -> list[Check]:
    """The garage plate between outriggers under one truss or stud. NDS 2018 3.3, 3.4.

    One reaction at mid-bay of a simple span, flat plates sharing; only where studs are not known
    to stand over the outriggers.
    """
    case = member.case
    if case.garage_wall.studs_over_outriggers or not case.garage_roof.bearing:
        return []
    return Plate(member).rows()


class Plate:
    """The garage plate as a flat beam of its own."""

    def __init__(self, member: LoadedMember) -> None:
        self.member = member
        wall = member.case.garage_wall
        self.count = wall.plates
        sizes = [lumber.read_size(f"2x{depth}") for depth in lumber.DEPTHS_IN]
        fits = [size.name for size in sizes if size.d <= member.case.gap.garage_plate]
        size = fits[-1] if fits else "2x4"
        self.wood = lumber.wood(wall.plate_species or PLATE_SPECIES, PLATE_GRADE, size)
        self.b = self.wood.size.d * self.count
        self.d = PLATE_THICKNESS_IN
        self.conditions = Conditions(member.conditions.method, flat=True)

    def force(self) -> Array:
        """One truss reaction, or the load of one spacing, by its size, lb."""
        member = self.member
        model, apart = member.model, truss_spacing(member.case)
        reach = model.shape.plan_spacing if apart == "uniform" else column(apart)
        table = model.table({part: line * reach for part, line in model.loads.line.items()})
        return np.abs(member.main.combinations.combine(table))

    def rows(self) -> list[Check]:
        """Bending and shear."""
        member, P = self.member, self.force()
        times = member.main.combinations.times
        S = lumber.section_modulus.step(b=self.b, d=self.d)
        note = f"one truss at mid-bay, {self.count} flat {self.wood.size.name} {PLATE_GRADE} taken"
        spacing = member.batch.column("outrigger.spacing")
        M = given("M", P * spacing / 4, "lb-in", "statics, P s / 4", note)
        V = given("V", P / 2, "lb", "statics, P / 2", note)
        Fb_star = adjusted("Fb", self.wood, self.conditions, times)
        one = given("CL", 1.0, "", "NDS 2018 3.3.3.1", "flat")
        Cfu = flat_use(self.wood, True)
        bend = bending.bending(
            link=BENT, place=WALL_LINE, M=M, S=S, Fb_star=Fb_star, CL=one, Cfu=Cfu
        )
        Fv_adj = adjusted("Fv", self.wood, self.conditions, times)
        cut = shear.shear(link=CUT, place=WALL_LINE, V=V, b=self.b, d=self.d, Fv_adj=Fv_adj)
        return [self.where_known(member.over(bend)), self.where_known(member.over(cut))]

    def where_known(self, row: Check) -> Check:
        """Over 1 open, not a failure, while nobody has said where the studs stand."""
        if self.member.case.garage_wall.studs_over_outriggers is not None:
            return row
        why = "not said whether a stud stands over every outrigger"
        return replace(row, rule="analogy", why=why)
