"""Where no outrigger stands along a layout, in words: its openings, and point loads between."""

from itertools import pairwise

from outrigger.base.quantity import length
from outrigger.cases.hold_down import through
from outrigger.cases.model import Case
from outrigger.marks.feet import both_sides, thickness
from outrigger.marks.of_case import row_of
from outrigger.marks.row import PLATE_IN
from outrigger.marks.row import supports as row_supports

HAIR_IN = 1e-9


def over_openings(case: Case, *, by_others: bool = False) -> dict[str, float]:
    """The bays that an opening takes, from mark to mark, in words, with their length, in: where
    nobody is said to design the header, or where others do; none without a layout."""
    if case.layout is None or not case.layout.openings:
        return {}
    row = row_of(case)
    last, found = len(row.pieces), {}
    for one in row.taken:
        if (one in row.undesigned) != by_others:
            start = f"mark {one.before}" if one.before else "the start of the run"
            end = "the end of the run" if one.before == last else f"mark {one.before + 1}"
            found[f"from {start} to {end}, {length(one.apart)}"] = one.apart
    return found


def points_between(case: Case) -> list[str]:
    """The point loads of a layout that stand between two outriggers, in words: farther from all
    than a plate is thick."""
    if case.layout is None or not case.garage_roof.point:
        return []
    row = row_of(case)
    plan, runs = row.wanted.plan, row.taken
    faces = [(float(one.near) * plan - PLATE_IN, float(one.far) * plan + PLATE_IN)
             for one in row.pieces]  # fmt: skip
    found = []
    for x in (point.at * plan for point in case.garage_roof.point):
        before = sum(far < x for _, far in faces)
        over = any(near <= x <= far for near, far in faces)
        if not over and before not in (one.before for one in runs):  # an opening has its header
            found.append(length(x / plan))
    return found


def crowded(case: Case) -> list[str]:
    """Outriggers too close for the feet of the clips between them, in words. A single piece with
    two clips and more, or a strap, has a foot on each side; of a pair each piece has one on its
    outer face."""
    holds = [hold for hold in case.hold_down if not through(hold)]

    def room(*paired: bool) -> float:
        feet = [hold.foot * sum(one or both_sides(hold) for one in paired) for hold in holds]
        return max(feet, default=0.0)

    if case.layout is None:
        free = case.outrigger.spacing - thickness(case)
        close = f"{length(max(free, 0.0))} between them"
        return [close] if free < room(False, False) - HAIR_IN else []
    row, found = row_of(case), []
    of = row_supports(row.pieces).of
    for i, (one, other) in enumerate(pairwise(row.pieces)):
        free = float(other.near - one.far)
        if of[i] != of[i + 1] and free < room(one.pair, other.pair) - HAIR_IN:
            found.append(f"{length(max(free, 0.0))} between marks {i + 1} and {i + 2}")
    return found
