"""Where the answer turns over a range of gaps, what governs on each side of a turn."""

from collections.abc import Hashable
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from outrigger.cases.model import Case
from outrigger.formula.numbers import Array, Bools
from outrigger.studies import search
from outrigger.studies.gap_cases import at_gap, more_open
from outrigger.studies.gap_study import GapRow, Stretch
from outrigger.studies.kept import Key, key_of, slim
from outrigger.studies.screen import Index, Marks, Screen
from outrigger.verdict.design import Design, design


def by_gap(case: Case, only: frozenset[Hashable], fields: search.Fields) -> Screen:
    """Searches over gaps; `only`: the combinations asked by first."""

    def ask(_: Index, values: Array, look: search.Few | None) -> Marks:
        return search.every_mark(case, fields(values), look)

    return Screen(only, ask)


def ends(screen: Screen, every: Array) -> tuple[search.Turn | None, float | None]:
    """Where it stops working for good, None: it works at none of them; and the smallest gap of the
    stretch that ends there, None: from the first. Both in one search."""
    held, _ = screen.judged(np.arange(len(every)), every)
    if not np.any(held):
        return None, None
    last = int(np.flatnonzero(held)[-1])
    failing = np.flatnonzero(~held[:last])[-1:]
    beyond = np.array([last][: len(every) - 1 - last], dtype=np.intp)  # none at the end
    holds, fails = (np.hstack(pair) for pair in ((beyond, failing + 1), (beyond + 1, failing)))
    found = screen.turns(every[holds], every[fails])
    largest = found[0] if len(beyond) else search.Turn(float(every[last]), np.inf)
    return largest, found[-1].last if len(failing) else None


def surely(asked: Design, fields: search.Fields, every: Array) -> tuple[float, float] | None:
    """The widest stretch of some gaps, ascending, that works with nothing more open than in the
    case as stated."""
    held = [more == () for more in more_open(asked, fields(every))]
    if True not in held:
        return None
    last = first = len(held) - 1 - held[::-1].index(True)
    while first and held[first - 1]:
        first -= 1
    return float(every[first]), float(every[last])


def stretches(case: Case, fields: search.Fields, rows: list[GapRow]) -> list[Stretch]:
    """What governs over the range, and the exact gaps where it changes."""
    found, start = [], rows[0].gap
    governing = rows[0].governing
    for before, row in pairwise(rows):
        at, key = before.gap, key_of(row.governing)
        while key_of(governing) != key:
            lead = _led_by(case, fields, key_of(governing))
            turn = search.turns(lead, np.array([at]), np.array([row.gap]))[0]
            found.append(Stretch(governing, start, turn.last))
            at = start = turn.first
            governing = slim(design(at_gap(case, fields, at)).closest)
    return [*found, Stretch(governing, start, rows[-1].gap)]


def _led_by(case: Case, fields: search.Fields, key: Key) -> search.Judge:
    """Whether one check governs; and the ratio of the one that does over its own."""

    def judge(_: NDArray[np.intp], values: Array) -> tuple[Bools, Array]:
        held, over = np.empty(len(values), dtype=bool), np.full(len(values), np.nan)
        for part, result in search.designs(case, fields(values)):
            named = np.array([(c.link, c.place) == key for c in result.checks])
            held[part] = named[result.leading]
            deciding = result.worked.deciding
            own, rest = (np.nan_to_num(deciding[rows]).max(axis=0, initial=0.0)
                         for rows in (named, ~named))  # fmt: skip
            over[part] = np.divide(rest, own, out=over[part], where=own > 0)
        return held, over

    return judge
