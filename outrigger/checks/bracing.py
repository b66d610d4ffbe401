"""How the member is braced: unsupported lengths from the blocking, and CL, FbE, FcE from them.

Blocking counts only where the file says that it stands; a hold-down is not blocking. Whether the
top or the bottom edge is in compression does not matter: neither is held but at the blocks, so one
CL serves hogging and sagging. NDS 2018 3.3.3, 3.7.1, 4.4.1.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from outrigger.actions.geometry import column
from outrigger.actions.places import BACK, EDGE, WALL_LINE
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


@dataclass(frozen=True, eq=False)
class Bracing:
    """Unsupported lengths and what follows: `lu_longest` in, of the back span between blocks;
    CL, RB and FbE at the edge and in the back span; M_inside lb-in, the moments inside the back
    span and over its inner supports."""

    lu_longest: Array
    at_edge: bending.Stability  # bending edgewise
    in_back: bending.Stability
    M_inside: list[Array]

    def CL(self, member: LoadedMember, place: str) -> Step:
        """CL of the moment square to the sheathing: 1 where the member lies flat."""
        if member.flat:
            return given("CL", 1.0, "", "NDS 2018 3.3.3.1", "not deeper than wide")
        return self.at_edge.CL if place == EDGE else self.in_back.CL

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
    le = bending.effective_length("either", "any loading not listed", lu_longest, deep)
    in_back = bending.stability(le, thick, deep, values["Fb_star"], values["Emin_adj"])
    inside = [s.M_inside for s in member.stretches] + member.main.M[:-1]
    return Bracing(lu_longest, at_edge, in_back, inside)
