"""The garage plate between outriggers. NDS 2018 3.3, 3.4."""

from dataclasses import replace

import numpy as np

from outrigger.actions.geometry import column
from outrigger.actions.places import WALL_LINE
from outrigger.checks.loaded_member import (
    PLATE_GRADE,
    PLATE_THICKNESS_IN,
    LoadedMember,
)
from outrigger.formula.check import Check
from outrigger.formula.formula import given
from outrigger.formula.numbers import Array
from outrigger.wood import bending, lumber, shear
from outrigger.wood.adjusted import Conditions, adjusted, flat_use


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
        species = wall.plate_species or "Spruce-Pine-Fir (South)"
        nominal = {3.5: "2x4", 5.5: "2x6", 7.25: "2x8", 9.25: "2x10", 11.25: "2x12"}
        width = float(np.max(column(member.case.gap.garage_plate)))
        fits = [name for dressed, name in nominal.items() if dressed <= width]
        self.wood = lumber.wood(species, PLATE_GRADE, fits[-1] if fits else "2x4")
        self.b = self.wood.size.d * self.count
        self.d = PLATE_THICKNESS_IN
        self.conditions = Conditions(member.conditions.method, flat=True)

    def force(self) -> Array:
        """One truss reaction, or the load of one spacing, by its size, lb."""
        member = self.member
        roof, on, shape = member.case.garage_roof, member.model.loads, member.model.shape
        spacing = roof.member_spacing
        if spacing is None:
            spacing = 24.0 if roof.form == "trusses" else "uniform"
        reach = shape.plan_spacing if spacing == "uniform" else column(spacing)
        columns = []
        for part in member.model.parts:
            lines = [s for s in on.steps.get(part, []) if s.symbol == "w_roof"]
            total = sum((np.asarray(s.value) for s in lines), np.zeros((1, 1)))
            columns.append(total * reach)
        table = np.concatenate(np.broadcast_arrays(*columns), axis=1)
        return np.abs(member.main.combinations.combine(table))

    def rows(self) -> list[Check]:
        """Bending and shear."""
        member, P = self.member, self.force()
        times = member.main.combinations.times
        S = lumber.section_modulus.step(b=self.b, d=self.d)
        note = f"one truss at mid-bay, {self.count} flat {self.wood.size.name} {PLATE_GRADE} taken"
        M = given(
            "M", P * column(member.case.outrigger.spacing) / 4, "lb-in", "statics, P s / 4", note
        )
        V = given("V", P / 2, "lb", "statics, P / 2", note)
        Fb_star = adjusted("Fb", self.wood, self.conditions, times)
        one = given("CL", 1.0, "", "NDS 2018 3.3.3.1", "flat")
        Cfu = flat_use(self.wood, True)
        bend = bending.bending(place=WALL_LINE, M=M, S=S, Fb_star=Fb_star, CL=one, Cfu=Cfu)
        Fv_adj = adjusted("Fv", self.wood, self.conditions, times)
        cut = shear.shear(place=WALL_LINE, V=V, b=self.b, d=self.d, Fv_adj=Fv_adj)
        return [
            member.over(replace(bend, id="plate", link="bending")),
            member.over(replace(cut, id="plate", link="shear")),
        ]
