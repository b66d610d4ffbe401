"""Of a layout, what other marks use more of than the one that is checked."""

import numpy as np
from msgspec import Struct

from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design

MORE, LEAST = 0.005, 0.1  # of a ratio, as it prints; ratios under that decide nothing


class Elsewhere(Struct, frozen=True):
    """A check at the mark that uses the most of it, where that is not the one checked."""

    row: CheckResult
    mark: int


def elsewhere(design: Design) -> list[Elsewhere]:
    """Every check of which another mark uses more, and a tenth at least, the most first; none
    without a layout."""
    worked = design.worked
    if worked.marks is None:
        return []
    over, found = worked.marks, list[Elsewhere]()
    for check, ratios in zip(over.checks, over.ratios, strict=True):
        known = np.where(np.isfinite(ratios), ratios, -1.0)
        at, own = int(np.argmax(known)), worked.like(check)
        here = 0.0 if own is None else float(np.nan_to_num(worked.ratios[own, 0]))
        mark = over.numbers[at]
        if known[at] > max(here + MORE, LEAST) and mark is not None:
            found.append(Elsewhere(over.row(check, at), mark))
    return sorted(found, key=lambda one: -(one.row.ratio or 0.0))
