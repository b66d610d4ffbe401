"""Two programs on the same draws: their ratios, row by row."""

import math

import numpy as np
from random_cases import cases_of, tables_of, template
from second_checks import Checks, MEMBER
from second_clips import clips

from outrigger.cases.batch import batch_of
from outrigger.cases.validate import validate
from outrigger.verdict.design import designs_of

IDS = (*MEMBER, "slide", "hold_down", "split")
NEAR = 1e-3
LITTLE = 1e-6  # a ratio whose difference is no more is round-off of what cancels


def second(n):
    """Ratios of the second program by (id, place, link)."""
    checks = Checks(n)
    clips(checks)
    return checks.ratios


def first(drawn, columns):
    """Ratios of the program, a list by case."""
    case = validate(tables_of(drawn[0]), "drawn")
    found = designs_of(batch_of(case, columns))
    rows = [c for c in found.checks if c.id.partition(":")[0] in IDS and c.capacity is not None]
    values = [np.broadcast_to(c.largest_ratio, (len(drawn),)) for c in rows]
    keys = [(c.id, c.place, c.link.id) for c in rows]
    return [dict(zip(keys, (float(v[i]) for v in values), strict=True)) for i in range(len(drawn))]


def differ(ours, other):
    """Rows that the two do not say alike: (row, program, second, relative difference)."""
    found = []
    for key in ours.keys() | other.keys():
        a, b = ours.get(key, 0.0), other.get(key, 0.0)
        if a == b or (math.isinf(a) and math.isinf(b)):
            continue
        off = abs(a - b) / max(abs(a), abs(b))
        if off > NEAR and abs(a - b) > LITTLE or math.isnan(a) or math.isnan(b):
            found.append((key, a, b, off))
    return found


def compared(seed, templates, each):
    """Every draw with what the two programs say: (draw, program, second)."""
    for i in range(templates):
        rng = np.random.default_rng([seed, i])
        drawn, columns = cases_of(template(rng), rng, each)
        for n, ours in zip(drawn, first(drawn, columns), strict=True):
            yield n, ours, second(n)
