"""Settings that move no ratio, told as such: a change that changes nothing is easily taken for
one that was checked."""

from collections.abc import Sequence

from msgspec.structs import replace

from outrigger.base.errors import OutriggerError
from outrigger.cases.read import CaseFile
from outrigger.cases.settings import Override
from outrigger.verdict.design import Design, design

LABELS = ("project.", "layout.")  # what says nothing of the loads, or where pieces stand


def marked(
    file: CaseFile, settings: Sequence[str], overrides: Sequence[Override], result: Design
) -> tuple[Override, ...]:
    """The settings of a design, those marked without which it would be the same."""
    found = []
    for i, one in enumerate(overrides):
        rest = [*settings[:i], *settings[i + 1 :]]
        again = any(later.key == one.key for later in overrides[i + 1 :])
        same = one.value == one.before or one.key.startswith(LABELS) or again
        unmoved = not same and _alike(file, rest, result)
        found.append(replace(one, unmoved=True) if unmoved else one)
    return tuple(found)


def _alike(file: CaseFile, settings: Sequence[str], result: Design) -> bool:
    """Whether the file with other settings gives the same rows, and leaves the same open."""
    try:
        other = design(file.case(settings)[0])
    except OutriggerError:
        return False  # without the setting it is no case
    return _rows(other) == _rows(result)


def _rows(result: Design) -> tuple[object, ...]:
    """What a person sees move: each check and its ratio, at every mark of a layout, what is not
    given, what not covered."""
    rows = [(row.check.link, row.check.place, row.ratio, row.status) for row in result.rows]
    over = result.worked.over_marks
    marks = [
        (check.link, check.place, ratios.tobytes(), levels.tobytes())
        for check, ratios, levels in zip(over.checks, over.ratios, over.levels, strict=True)
    ]
    return rows, marks, [one.key for one in result.not_given], result.not_covered
