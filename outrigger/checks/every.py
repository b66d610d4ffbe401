"""Every check of a case, in the order of the load path: wall line to house."""

from outrigger.checks.axial import combined
from outrigger.checks.bearing import back_bearing, edge_bearing, wall_bearing
from outrigger.checks.bending import bending
from outrigger.checks.blocks import rolls
from outrigger.checks.bracing import bracing
from outrigger.checks.hold_downs import hold_downs, splits
from outrigger.checks.house_edge_ends import house_edge
from outrigger.checks.house_rafter import house_rafter
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.notches import notches
from outrigger.checks.plate import plate
from outrigger.checks.shear import shear
from outrigger.checks.sideways import form
from outrigger.checks.sliding import slides
from outrigger.checks.stud import stud
from outrigger.checks.wall_tie import wall_tie
from outrigger.formula.check import Check


def all_checks(member: LoadedMember) -> list[Check]:
    """Every check, in the order of the load path: wall line to house."""
    brace = bracing(member)
    rows = [
        *wall_bearing(member),
        *wall_tie(member),
        *plate(member),
        *stud(member),
        *bending(member, brace),
        *combined(member, brace),
    ]
    rows += [*shear(member), *notches(member)]
    rows += [*edge_bearing(member), *house_edge(member)]
    rows += [*back_bearing(member), *house_rafter(member)]
    rows += [*hold_downs(member), *splits(member)]
    return [*rows, *slides(member), *rolls(member), *form(member)]
