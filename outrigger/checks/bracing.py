"""How the member is braced: unsupported lengths from the blocking, and CL, FbE, FcE from them.

Blocking counts only where the file says that it stands; a hold-down is not blocking. Whether the
top or the bottom edge is in compression does not matter: neither is held but at the blocks, so one
CL serves hogging and sagging. NDS 2018 3.3.3, 3.7.1, 4.4.1.
"""

from collections.abc import Callable
from itertools import pairwise

import numpy as np
from msgspec import Struct

from outrigger.actions.geometry import column
from outrigger.actions.places import BACK, EDGE, WALL_LINE
from outrigger.actions.spans import BackSpan
from outrigger.cases.batch import Batch
from outrigger.checks.loaded_member import LoadedMember
from outrigger.formula.formula import Step, given
from outrigger.formula.numbers import Array, greatest
from outrigger.wood import axial, bending


def blocked(batch: Batch) -> list[Array] | None:
    """Distances of the blocked places from the edge into the house, in; None: not given."""
    places = batch.case.outrigger.blocking
    if places is None:
        return None
    named = {EDGE: column(0.0), BACK: batch.column("outrigger.back_span")}
    return [named[p] if isinstance(p, str) else column(p) for p in places if p != WALL_LINE]


class Bracing(Struct, frozen=True, eq=False):
    """Unsupported lengths and what follows: `lu_longest` in, of the back span between blocks;
    `stretches` between them, near and far in from the edge, and `stable`, the stability of one by
    its length; CL, RB and FbE, bending edgewise, at the edge, of the longest stretch of the back
    span and of the one that governs; M_back lb-in, the largest moment of that one, `where` it is in
    words, M_largest of any; M_across lb-in, the largest across the back span and at its blocks
    (None: nothing acts so)."""

    lu_longest: Array
    stretches: list[tuple[Array, Array]]
    stable: Callable[[Array], bending.Stability]
    at_edge: bending.Stability
    longest: bending.Stability
    in_back: bending.Stability
    M_back: Array
    M_largest: Array
    where: str
    M_across: Array | None = None

    def CL(self, member: LoadedMember, place: str) -> Step:
        """CL of the moment square to the sheathing: 1 where the member lies flat."""
        if member.flat:
            return given("CL", 1.0, "", "NDS 2018 3.3.3.1", "not deeper than wide")
        return self.at_edge.CL if place == EDGE else self.in_back.CL

    def CL_over(self, member: LoadedMember, place: str) -> Step:
        """CL of the moment over a hold-down: of the longer of the stretches that meet there."""
        x = -dict(member.model.supports)[place]
        if member.flat or place == EDGE or len(self.stretches) < 2:
            return self.CL(member, place)
        lu = greatest(*(np.where((a <= x) & (x <= b), b - a, 0.0) for a, b in self.stretches))
        return self.stable(np.asarray(lu)).CL

    def buckling(
        self, member: LoadedMember, place: str
    ) -> tuple[tuple[Step, Step], tuple[Step, Step]]:
        """(le/d, FcE) edgewise and flatwise of the arm or of the back span."""
        size, shape = member.model.wood.size, member.model.shape
        Emin = member.adjusted("Emin")
        thick, deep = (size.b, size.d)
        if place == "arm":
            K, one, two = axial.KE_CANTILEVER, shape.arm, shape.arm
        else:
            x = [at for _, at in member.model.supports]
            longest = np.asarray(greatest(*(b - a for a, b in pairwise(x))))
            K, one, two = axial.KE_PINNED, longest, self.lu_longest
            if member.flat:
                one, two = two, one
        return axial.buckling(K, one, deep, Emin), axial.buckling(K, two, thick, Emin)


def bracing(member: LoadedMember) -> Bracing:
    """The bracing of a case; stability by the single ply, standing edgewise."""
    size, shape = member.model.wood.size, member.model.shape
    stops = blocked(member.batch)
    # not blocked inward: free to the inner end; a hold-down is not blocking
    free = shape.back_span + shape.behind_back
    lines = np.concatenate(
        np.broadcast_arrays(column(0.0), free, *(np.minimum(x, free) for x in stops or [])), axis=1
    )
    lines = np.sort(lines, axis=1)
    lu_next = np.min(np.where(lines > 0, lines, np.inf), axis=1, keepdims=True)
    lu_longest = np.max(np.diff(lines, axis=1), axis=1, keepdims=True)
    thick, deep = size.b, size.d
    values = {"Fb_star": member.adjusted("Fb"), "Emin_adj": member.adjusted("Emin")}
    at_edge = bending.edge_stability(arm=shape.arm, back_lu=lu_next, b=thick, d=deep, **values)

    def stable(lu: Array) -> bending.Stability:
        le = bending.effective_length("either", "any loading not listed", lu, deep)
        return bending.stability(le, thick, deep, **values)

    longest, stretches = stable(lu_longest), unbraced(lines, shape.back_span)
    across, side = None, member.main.side.back
    if side is not None:
        across = np.asarray(greatest(*(_largest(side, member, *one) for one in stretches)))
    if len(stretches) < 2 or member.flat:
        M = member.main.back_span.largest
        return Bracing(
            lu_longest=lu_longest,
            stretches=stretches,
            stable=stable,
            at_edge=at_edge,
            longest=longest,
            in_back=longest,
            M_back=M,
            M_largest=M,
            where="largest inside the back span",
            M_across=across,
        )
    M, M_largest, lu = _governing(member, stretches, lu_longest, stable)
    said = "largest of the stretch between blocks that governs, its ends included"
    return Bracing(
        lu_longest=lu_longest,
        stretches=stretches,
        stable=stable,
        at_edge=at_edge,
        longest=longest,
        in_back=stable(lu),
        M_back=M,
        M_largest=M_largest,
        where=said,
        M_across=across,
    )


def unbraced(lines: Array, back: Array) -> list[tuple[Array, Array]]:
    """Distances from the edge, near and far, of each stretch between blocks that may govern, of
    the sorted places of a case where it is held; the end behind the back does not, where no longer
    than the stretch before it: the moment over the back is that one's too."""
    found = list[tuple[Array, Array]]()
    for near, far in pairwise(np.split(lines, lines.shape[1], axis=1)):
        if np.all(far <= near):
            continue
        if found and np.all((near >= back) & (far - near <= found[-1][1] - found[-1][0])):
            continue
        found.append((near, far))
    return found


def _largest(back: BackSpan, member: LoadedMember, near: Array, far: Array) -> Array:
    """Largest moment of a stretch between blocks, near and far from the edge, lb-in."""
    whole = member.model.shape.back_span
    M = back.largest_between(-np.minimum(far, whole), -np.minimum(near, whole))
    return np.where(far > near, M, 0.0)


def _governing(
    member: LoadedMember,
    stretches: list[tuple[Array, Array]],
    lu_longest: Array,
    stable: Callable[[Array], bending.Stability],
) -> tuple[Array, Array, Array]:
    """Largest moment lb-in of the stretch with the largest M / CL, of any stretch, and length in of
    that one, in every combination; the longest where there is no moment. NDS 2018 3.3.3.

    Its M / FbE counts with the FbE of the longest stretch: CL falls slower than FbE, so no other
    stretch has more of both.
    """
    back = member.main.back_span
    M_most, of_CL = np.zeros_like(back.M[-1]), np.zeros_like(back.M[-1])
    M_any, lu_most = M_most, lu_longest + M_most
    for near, far in stretches:
        there = far > near
        lu = np.where(there, far - near, lu_longest)
        M, CL_here = _largest(back, member, near, far), stable(lu).CL.value
        more = M / CL_here > of_CL
        M_any = np.maximum(M_any, M)
        of_CL = np.where(more, M / CL_here, of_CL)
        M_most, lu_most = np.where(more, M, M_most), np.where(more, lu, lu_most)
    return M_most, M_any, lu_most
