"""Two programs on the same draws: their ratios, row by row."""

import math

import numpy as np
from random_cases import cases_of, tables_of, template
from second_checks import MEMBER, Checks
from second_clips import clips

from outrigger.cases.batch import batch_of
from outrigger.cases.validate import validate
from outrigger.verdict.design import designs_of

IDS = (*MEMBER, "slide", "hold_down", "split")
NEAR = 1e-3
SERIES = 5e-3  # the handbook's polynomial of torsion is so far off the series, on the safe side
POLE = 2  # of an interaction: near the stress that buckles it the figure has no meaning
WORTH = 0.01  # a ratio from which its relative difference says something
LITTLE = 1e-6  # a ratio whose difference is no more is round-off of what cancels


def second(n):
    """Ratios of the second program by (id, place, link)."""
    checks = Checks(n)
    clips(checks)
    return checks.ratios


def first(drawn, columns):
    """Ratios of the program, a list by case."""
    case = validate(tables_of(drawn[0]), "drawn")
    checks = designs_of(batch_of(case, columns)).checks
    rows = [c for c in checks if c.id.partition(":")[0] in IDS and c.capacity is not None]
    rows = [c for c in rows if c.link.id != "edge of the rafter"]  # open where a foot misses
    keys = [(c.id, c.place, c.link.id) for c in rows]
    values = [np.broadcast_to(c.largest_ratio, (len(drawn),)) for c in rows]
    found = [{} for _ in drawn]
    for key, value in zip(keys, values, strict=True):
        for one, ratio in zip(found, value, strict=True):  # a missing tie has a row of each set
            one[key] = max(one.get(key, 0.0), float(ratio))
    return found


def differ(ours, other):
    """Rows that the two do not say alike: (row, program, second, relative difference)."""
    found = []
    for key in ours.keys() | other.keys():
        a, b = ours.get(key, 0.0), other.get(key, 0.0)
        if a == b or (math.isinf(a) and math.isinf(b)):
            continue
        off = abs(a - b) / max(abs(a), abs(b))
        near = SERIES if key[0] == "shear" else NEAR
        if (off > near and abs(a - b) > LITTLE and not covered(key, ours, other)) or off != off:
            found.append((key, a, b, off))
    return found


def furthest(ours, other):
    """The largest relative difference of rows that the two say alike, and its row."""
    apart = {key for key, *_ in differ(ours, other)}
    found = (0.0, None)
    for key in (ours.keys() & other.keys()) - apart:
        a, b = ours[key], other[key]
        if WORTH < min(a, b) < np.inf and key[0] != "shear" and not covered(key, ours, other):
            found = max(found, (abs(a - b) / max(a, b), key), key=lambda one: one[0])
    return found


def covered(key, ours, other):
    """A moment of the back span that only one of the two looks at, since the whole diagram grows
    toward the edge there: the row of the edge has more, in both."""
    id, place, link = key
    edge = (id, "arm" if id == "axial_bending" else "edge", link)
    both = ours.get(key, 0.0), other.get(key, 0.0)
    if id in ("biaxial", "axial_bending") and min(both) > POLE:
        return True
    more = max(both)
    return (id in ("bending", "biaxial", "axial_bending") and place == "back span"
            and more <= min(ours.get(edge, 0.0), other.get(edge, 0.0)))  # fmt: skip


def compared(templates, each, seed=0):
    """`each` draws of every template of a range: (draw, program, second)."""
    for i in templates:
        rng = np.random.default_rng([seed, i])
        drawn, columns = cases_of(template(rng), rng, each)
        for n, ours in zip(drawn, first(drawn, columns), strict=True):
            yield n, ours, second(n)
