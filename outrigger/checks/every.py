"""Every check of a case, in the order of the load path: wall line to house."""

from outrigger.checks.axial import combined
from outrigger.checks.bearing import back_bearing, edge_bearing, wall_bearing
from outrigger.checks.bending import bending
from outrigger.checks.bracing import bracing
from outrigger.checks.hold_downs import hold_downs, splits
from outrigger.checks.loaded_member import Desk
from outrigger.checks.notches import notches
from outrigger.checks.plate import plate
from outrigger.checks.shear import shear
from outrigger.checks.sideways import form, rolls
from outrigger.checks.sliding import slides
from outrigger.formula.check import Check


def all_checks(desk: Desk) -> list[Check]:
    """Every check, in the order of the load path: wall line to house."""
    brace = bracing(desk)
    rows = [*wall_bearing(desk), *plate(desk), *bending(desk, brace), *combined(desk, brace)]
    rows += [*shear(desk), *notches(desk)]
    rows += [*edge_bearing(desk), *back_bearing(desk), *hold_downs(desk), *splits(desk)]
    return [*rows, *slides(desk), *rolls(desk), *form(desk)]
