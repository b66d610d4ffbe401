"""A case over a range of gaps as plain data: rows for JSON, and the same as CSV."""

import csv
import io
from typing import Any

from outrigger.report.data.sweeps import bare, stamp
from outrigger.studies.gap_study import GapRow, GapStudy
from outrigger.verdict.back_span import words


def as_rows(found: GapStudy, sample: bool = False) -> list[dict[str, Any]]:
    """A row for each gap, full precision, no NaN or infinity."""
    largest = None if found.unknown.missing else found.stops
    stamped = stamp(found.unknown, sample)
    own = ({"verdict": row.verdict, "open": list(row.open)} for row in found.rows)
    return [_row(row, largest) | stamped | said for row, said in zip(found.rows, own, strict=True)]


def _row(row: GapRow, largest: float | None) -> dict[str, Any]:
    governing = row.governing
    return {
        "gap_in": row.gap,
        "works": row.sure,
        "governing": {
            "id": governing.check.id,
            "place": governing.check.place,
            "link": governing.check.link.id,
            "ratio": governing.ratio,
            "combination": governing.combination,
        },
        "ratios": {group.id: ratio for group, ratio in row.ratios.items()},
        "back_span_in": row.back_span,
        "length_in": row.length,
        "caution": words(row.caution),
        "least_back_span_in": row.least_back_span,
        "least_back_span_caution": words(row.least_caution),
        "least_back_span_open": list(row.least_more),
        "clip_pull_lb": row.pulls,
        "clip_listed_lb": row.listed,
        "largest_gap_in": largest,
    }


def as_csv(found: GapStudy, sample: bool = False) -> str:
    """The rows as CSV: nested keys joined by a colon, blank where nothing is known."""
    flat = [_flat(bare(row)) for row in as_rows(found, sample)]
    columns = dict.fromkeys(key for row in flat for key in row)
    text = io.StringIO()
    writer = csv.DictWriter(text, list(columns), lineterminator="\n")
    writer.writeheader()
    writer.writerows(flat)
    return text.getvalue()


def _flat(row: dict[str, Any]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for key, value in row.items():
        if isinstance(value, dict):
            found |= {f"{key}:{name}": _cell(one) for name, one in value.items()}
        else:
            found[key] = _cell(value)
    return found


def _cell(value: Any) -> Any:
    if isinstance(value, list):
        return " ".join(value)
    return str(value).lower() if isinstance(value, bool) else value
