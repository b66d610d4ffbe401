"""Every check of a case, in the order of the load path: wall line to house."""

from collections.abc import Iterator

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
from outrigger.checks.stud import foot, stud
from outrigger.checks.wall_tie import wall_tie
from outrigger.formula.check import Check


def all_checks(member: LoadedMember) -> Iterator[Check]:
    """Every check, in the order of the load path: wall line to house."""
    brace = bracing(member)
    yield from wall_bearing(member)
    yield from wall_tie(member)
    yield from plate(member)
    yield from foot(member)
    yield from stud(member)
    yield from bending(member, brace)
    yield from combined(member, brace)
    yield from shear(member)
    yield from notches(member)
    yield from edge_bearing(member)
    yield from house_edge(member)
    yield from back_bearing(member)
    yield from house_rafter(member)
    yield from hold_downs(member)
    yield from splits(member)
    yield from slides(member)
    yield from rolls(member)
    yield from form(member)
