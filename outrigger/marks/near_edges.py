"""Marks whose fasteners find a rafter beside the outrigger, but stand too near its edge.

NDS 2018 12.5.1. Of rafters that cross, the check of the place itself looks at that.
"""

import numpy as np

from outrigger.cases.hold_down import HoldDown, built, on_rafters
from outrigger.cases.model import Case
from outrigger.fasteners import spacing
from outrigger.fasteners.trade_names import read_fastener
from outrigger.formula.formula import amount
from outrigger.marks.feet import on_edge_wood
from outrigger.marks.framing import ROUND_OFF_IN, free_edge, lands
from outrigger.marks.of_case import clip_offsets, pieces_of, wanted_of


def near_edges(case: Case) -> list[int]:
    """Numbers of these marks of a layout; a distance that is stated counts as stated."""
    if case.layout is None or not case.house_roof.framing_parallel:
        return []
    wanted, found = wanted_of(case), set[int]()
    offsets = clip_offsets(case, pieces_of(wanted), wanted.run)
    for hold in case.hold_down:
        if hold.name not in offsets or not _looked_at(case, hold):
            continue
        off = offsets[hold.name]
        near = lands(off) & (free_edge(off) < _needed(hold) - ROUND_OFF_IN)
        found |= {int(n) + 1 for n in np.flatnonzero(near)}
    return sorted(found)


def _looked_at(case: Case, hold: HoldDown) -> bool:
    """Whether its fasteners are known, and stand in a rafter by the place of the mark."""
    fastened = built(hold) and bool(hold.deck_fastener) and hold.edge_distance is None
    return fastened and on_rafters(hold) and not on_edge_wood(case, hold)


def _needed(hold: HoldDown) -> float:
    """Edge distance that gives the full value, in."""
    deck = read_fastener(hold.deck_fastener)
    load = "any" if deck.small else "withdrawal"
    return float(np.asarray(amount(spacing.full_distance(deck, "edge", load))))
