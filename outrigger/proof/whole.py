"""Whole cases worked by hand, run as `check` runs them. Nothing of them is published."""

import tomllib
from functools import cache
from typing import Any

from outrigger.base.errors import TableError
from outrigger.base.tables import DERIVED
from outrigger.cases.read import read_case
from outrigger.proof.compared import Compared, number
from outrigger.proof.read import DATA, source
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, design

GROUP = "cases"
WHY = "by hand"


@cache
def hand_cases() -> tuple[dict[str, Any], ...]:
    """The cases, each with its settings, its working and its values."""
    text = (DATA / "whole_cases.toml").read_text(encoding="utf-8")
    return tuple(tomllib.loads(text)["case"])


def whole_cases() -> list[Compared]:
    """Every value of every case."""
    who, found = source("by hand", GROUP), []
    for one in hand_cases():
        result = design(read_case(DATA / "cases" / f"{one['file']}.toml", one["settings"])[0])
        name = " ".join((one["file"].replace("_", " "), *one["settings"]))
        for value in one["value"]:
            row = _row(result, value, name)
            said = " ".join(filter(None, (value["check"], value.get("link"), value.get("place"))))
            here = getattr(row, value["of"])
            found.append(
                Compared(
                    GROUP, who, name, f"{said}: {value['of']}", value["printed"],
                    number(value["printed"]), float(here), value.get("unit", ""), DERIVED,
                    value["allow"], WHY,
                )
            )  # fmt: skip
    return found


def _row(result: Design, value: dict[str, Any], name: str) -> CheckResult:
    """The one row of a check, a link and a place; what is not said may be any.

    Raises:
        TableError: there is no such row, or more than one.
    """
    found = [
        row
        for row in result.rows
        if row.check.id == value["check"]
        and value.get("link") in (None, row.check.link.id)
        and value.get("place") in (None, row.check.place)
    ]
    if len(found) != 1:
        raise TableError(f"whole_cases.toml, {name}: {len(found)} rows of {value['check']}.")
    return found[0]
