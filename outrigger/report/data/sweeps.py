"""Rows of size and reserve as plain data."""

from collections.abc import Sequence
from typing import Any

from outrigger.base.shell import command
from outrigger.cases import one_snow, one_wind
from outrigger.cases.model import Case
from outrigger.report import cautions
from outrigger.studies.mishaps import Mishap
from outrigger.studies.reserve import Reserve
from outrigger.studies.sizes import Sizes
from outrigger.verdict.back_span import words
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.unknown import Unknown


def stamp(unknown: Unknown, sample: bool) -> dict[str, Any]:
    """What every row carries: the case as asked, its verdict, the keys that are open in it, whether
    its data is made up, and the cautions in few words."""
    asked = unknown.design
    return {
        "digest": asked.case.digest,
        "verdict": asked.verdict,
        "open": unknown.keys,
        "sample": sample or asked.case.project.invented,
        **cautions.stamped(asked),
    }


def moved_with(case: Case, key: str) -> list[str]:
    """Keys that move in proportion with one that a study changes."""
    return list(one_snow.follow(case)) if key in one_snow.SNOWS else []


def bare(row: dict[str, Any]) -> dict[str, Any]:
    """A row for CSV, whose cautions stand on stderr."""
    return {key: value for key, value in row.items() if key not in ("cautions", "not_checked")}


def check_of(row: CheckResult | None) -> dict[str, Any] | None:
    """Which check: id, place, ratio (null where a rule decides)."""
    if row is None:
        return None
    return {"id": row.check.id, "place": row.check.place, "ratio": row.ratio}


def reserve_rows(result: Reserve, sample: bool = False) -> list[dict[str, Any]]:
    """One row for each way of each number, in its own unit; null: no turn as far as was looked."""
    rows, stamped = [], stamp(result.unknown, sample)
    for side in result.sides:
        one, turn = side.quantity, side.turn
        rows.append(
            {
                "key": one.key,
                "with_it": moved_with(result.asked.case, one.key),
                "as_stated": [
                    *one_snow.left(result.asked.case, one.key),
                    *one_wind.left(result.asked.case, one.key),
                ],
                "unit": one.unit,
                "stated": one.now * one.times,
                "way": "up" if side.up else "down",
                "works_at": None if turn is None else turn.last * one.times,
                "fails_at": None if turn is None else turn.first * one.times,
                "looked_to": (one.high if side.up else one.low) * one.times,
                "governing": check_of(side.stops),
                "caution": words(side.caution),
            }
            | stamped
            | {"open": [*stamped["open"], *side.open]}
        )
    return rows


def mishap_rows(
    asked: Design, found: Sequence[Mishap], sample: bool = False
) -> list[dict[str, Any]]:
    """One row for each mishap."""
    stamped = stamp(Unknown(asked), sample)
    return [
        stamped
        | {
            "place": one.place,
            "mishap": one.text,
            "verdict": one.verdict,
            "governing": check_of(one.stops),
        }
        for one in found
    ]


def size_rows(
    result: Sizes, file: str, typed: Sequence[str], sample: bool = False
) -> list[dict[str, Any]]:
    """Every choice, as ranked."""
    stamped = stamp(result.unknown, sample)
    return [
        stamped
        | {
            "species": one.species,
            "plies": one.plies,
            "size": one.size,
            "grade": one.grade,
            "grades": list(one.grades),
            "spacing_in": one.spacing,
            "back_span_in": one.back_span,
            "board_feet_per_ft": one.board_feet,
            "clips_per_ft": one.clips,
            "caution": words(one.caution),
            "follows_framing": not one.off_framing,
            "governing": check_of(one.row),
            "command": command("check", file, [*typed, *one.settings]),
            "verdict": one.verdict,
            "open": list(one.open),
        }
        for one in result.choices
    ]
