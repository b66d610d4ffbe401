"""The rows of a design for people: the closest first, and a letter for each combination."""

import math
from collections.abc import Iterable, Sequence

from outrigger.verdict.check_result import CheckResult

_RANK = {"fail": 0, "open": 1, "pass": 2}


def closest_first(rows: Iterable[CheckResult]) -> list[CheckResult]:
    """By their ratio; what fails without one above all, then what is open without one."""

    def key(row: CheckResult) -> tuple[bool, float]:
        if row.ratio is None:
            return row.status != "fail", -math.inf
        return True, -row.ratio

    return sorted(rows, key=key)


def worst_first(rows: Iterable[CheckResult]) -> list[CheckResult]:
    """What fails, what is open, what passes; in each the closest first."""
    return sorted(closest_first(rows), key=lambda row: _RANK[row.status])


def letters(texts: Iterable[str]) -> dict[str, str]:
    """A letter for each text, as they come; one that comes again keeps its own."""
    return {text: chr(ord("a") + i) for i, text in enumerate(dict.fromkeys(texts))}


def keys(rows: Sequence[CheckResult]) -> dict[str, str]:
    """A letter for each combination that governs a row."""
    return letters(row.combination for row in rows if row.combination)


def in_words(rows: Sequence[CheckResult]) -> dict[str, str]:
    """What each combination that governs a row is called."""
    return {row.combination: row.combination_words for row in rows if row.combination}
