"""The rows of a design for people: the closest first, and a letter for each combination."""

from collections.abc import Iterable, Sequence

from outrigger.verdict.check_result import CheckResult

_RANK = {"fail": 0, "open": 1, "pass": 2}


def closest_first(rows: Iterable[CheckResult]) -> list[CheckResult]:
    """What fails, what is open, what passes: in each those without a ratio, then the closest."""
    return sorted(rows, key=lambda r: (_RANK[r.status], -9.0 if r.ratio is None else -r.ratio))


def letters(texts: Iterable[str]) -> dict[str, str]:
    """A letter for each text, as they come; one that comes again keeps its own."""
    return {text: chr(ord("a") + i) for i, text in enumerate(dict.fromkeys(texts))}


def keys(rows: Sequence[CheckResult]) -> dict[str, str]:
    """A letter for each combination that governs a row."""
    return letters(row.combination for row in rows if row.combination)


def in_words(rows: Sequence[CheckResult]) -> dict[str, str]:
    """What each combination that governs a row is called."""
    return {row.combination: row.combination_words for row in rows if row.combination}
