"""Several runs as plain data: each as `check --json` has it, its file, house wall and totals."""

from collections.abc import Mapping, Sequence
from typing import Any

from outrigger.report.data import check
from outrigger.studies.runs import Run


def rows(runs: Sequence[Run], refused: Mapping[str, str]) -> list[dict[str, Any]]:
    """One entry for each run, the worst first; before them the files that are no case."""
    bad = [{"file": name, "verdict": "bad input", "fault": said} for name, said in refused.items()]
    return [*bad, *(_row(run) for run in runs)]


def _row(run: Run) -> dict[str, Any]:
    return {
        "file": run.file,
        "house_wall": run.wall,
        "run_in": run.length,
        "totals": [
            {
                "at": one.at,
                "way": one.way,
                "level": one.level or "unfactored",
                **({"source": one.source, "case": one.case} if one.case else {}),
                "force_lb": one.force,
            }
            for one in run.totals
        ],
        **check.as_data(run.design),
    }
