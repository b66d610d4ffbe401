"""Two designs side by side: what differs in, what differs out."""

from collections.abc import Mapping
from typing import Any

from msgspec import Struct

from outrigger.cases.model import Case
from outrigger.cases.names import SCHEMA_KEY
from outrigger.cases.settings import spoken
from outrigger.studies.consequences import Change, change
from outrigger.studies.kept import Key, key_of
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.handed import square

NOT_GIVEN = "not given"


class Input(Struct, frozen=True):
    """One stated input that differs: its key, and what each case says."""

    key: str
    before: str
    after: str


class Force(Struct, frozen=True, eq=False):
    """A load handed to the house by source and load case, lb, up on the outrigger positive; a place
    that one design does not have is 0."""

    at: str
    source: str
    case: str
    before: float
    after: float


class Comparison(Struct, frozen=True, eq=False):
    """Two designs: inputs that differ, checks of both, loads handed to the house, lengths and
    clips. A check that one of them does not have is None there."""

    before: Design
    after: Design
    inputs: list[Input]
    rows: list[tuple[CheckResult | None, CheckResult | None]]
    forces: list[Force]
    change: Change

    @property
    def clips(self) -> tuple[int, int]:
        """Clips on each outrigger."""
        one, other = (
            sum(hold.count for hold in side.case.hold_down) for side in (self.before, self.after)
        )
        return one, other


def compare(
    before: Design, after: Design, said: Mapping[str, Any], said_after: Mapping[str, Any]
) -> Comparison:
    """Two designs side by side; `said`: the tables of each file, settings put over them."""
    return Comparison(
        before=before,
        after=after,
        inputs=_inputs(before.case, after.case, said, said_after),
        rows=_pairs(before.rows, after.rows),
        forces=_forces(before, after),
        change=change(before, after),
    )


def _pairs(
    before: list[CheckResult], after: list[CheckResult]
) -> list[tuple[CheckResult | None, CheckResult | None]]:
    """Checks of one name, in the order of the first; those of the second alone behind."""
    mine, other = _by_key(before), _by_key(after)
    return [(mine.get(key), other.get(key)) for key in dict.fromkeys((*mine, *other))]


def _by_key(rows: list[CheckResult]) -> dict[tuple[Key, int], CheckResult]:
    """Rows by id, place and link; two alike are told apart by their number."""
    found: dict[tuple[Key, int], CheckResult] = {}
    for row in rows:
        number = sum(key == key_of(row) for key, _ in found)
        found[key_of(row), number] = row
    return found


def _forces(before: Design, after: Design) -> list[Force]:
    """Unfactored reactions square to the sheathing, by place, source and load case, of both."""
    one, other = _by_place(before), _by_place(after)
    keys = dict.fromkeys((*one, *other))
    return [Force(*key, one.get(key, 0.0), other.get(key, 0.0)) for key in keys]


def _by_place(result: Design) -> dict[tuple[str, str, str], float]:
    """Of each the largest; of a layout over its marks."""
    found = dict[tuple[str, str, str], float]()
    for one in square(result):
        found.setdefault((one.at, one.source, one.case), one.force)
    return found


def _inputs(
    before: Case, after: Case, said: Mapping[str, Any], said_after: Mapping[str, Any]
) -> list[Input]:
    """Inputs whose value differs, in the words of each file."""
    one, other = flat(before.model_dump(mode="json")), flat(after.model_dump(mode="json"))
    words, words_after = flat(said), flat(said_after)
    keys = [k for k in dict.fromkeys((*one, *other)) if one.get(k) != other.get(k)]
    found = [
        Input(
            key.removeprefix("sources.") + " source" * key.startswith("sources."),
            _said(key, one, words),
            _said(key, other, words_after),
        )
        for key in keys
    ]
    return [one for one in found if one.before != one.after]


def _said(key: str, values: Mapping[str, Any], words: Mapping[str, Any]) -> str:
    if values.get(key) is None or values[key] == "":
        return NOT_GIVEN
    if key in words:
        return as_said(words[key])
    return as_said(values[key]) + " by default" * (not key.startswith("sources."))


def as_said(value: Any) -> str:
    """A value of a file for people."""
    if isinstance(value, list):
        return ", ".join(map(as_said, value)) or "none"
    return f"{value:g}" if isinstance(value, float) else spoken(value)


def flat(tables: Mapping[str, Any], above: str = "") -> dict[str, Any]:
    """Nested tables as one, keys as the settings write them: hold_down[back].count."""
    found: dict[str, Any] = {}
    for key, value in tables.items():
        if key == SCHEMA_KEY:  # for an editor
            continue
        path = f"{above}{key}" if above != "sources." else f"sources.{key}"
        if key == "hold_down":
            for hold in value:
                found |= flat(hold, f"hold_down[{_place(hold['at'])}].")
        elif isinstance(value, Mapping):
            found |= flat(value, f"{path}.")
        else:
            found[path] = value
    return found


def _place(at: object) -> str:
    """A place as the file writes it, or as the case holds it."""
    return f"{at:g} in" if isinstance(at, float) else str(at).strip().lower()
