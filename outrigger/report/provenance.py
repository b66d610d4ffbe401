"""Where the numbers of a line come from, and how surely, in words."""

from outrigger.base.tables import DERIVED, STATUSES, UNSURE, WORDS
from outrigger.formula.check import Named
from outrigger.formula.formula import Step
from outrigger.verdict.check_result import CheckResult

MEANINGS = {
    "SEEN": "read in a named publication or page that shows it",
    "DERIVED": "computed from such values by the standard's own identity",
    "SECOND-HAND": ("read in a program or a transcription alone, or in pages that name no author"),
    "OTHER EDITION": "read in another edition of the same table only",
    "MEMORY": "recalled, read nowhere",
}
DEFINITIONS = (
    "Nobody here has read the printed standards themselves. "
    + "; ".join(f"{WORDS[status]}: {MEANINGS[status]}" for status in STATUSES).capitalize()
    + "."
)


def warning(status: str) -> str:
    """What a line says of a value that is not surely the standard's; empty where it is."""
    if status in UNSURE:
        return f"UNVERIFIED: {WORDS[status]}"
    return WORDS[status] if status == DERIVED else ""


def cited(step: Step, of: Named | None = None) -> tuple[str, ...]:
    """Clause, note and warning of a line; of a factor of the combination, the combination's."""
    clause, status = step.clause, step.status
    if step.of_combination and of is not None:
        clause, status = of.time_source, of.time_status
    return tuple(text for text in (clause, step.note, warning(status)) if text)


def combination_of(row: CheckResult) -> Named | None:
    """The combination that governs a row, if it has any."""
    return row.check.combinations[row.column] if row.check.combinations else None


def of_loads(row: CheckResult, in_words: bool = True) -> str:
    """The governing combination of a row: `in_words`, by name, and where it stands."""
    of = combination_of(row)
    if of is None or not of.text:
        return ""
    surely = warning(of.status) if in_words else ""  # else it stands beside the combinations
    said = ", ".join(text for text in (of.source, surely) if text)
    named = f"{of.words} ({of.text})" if in_words else of.text
    return named + (f", {said}" if said else "")
