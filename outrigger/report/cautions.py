"""Cautions: one list, each tied to the case, for screen and summary alike."""

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from outrigger.checks.plate import PLATE
from outrigger.verdict.design import Design

if TYPE_CHECKING:
    pass
from outrigger.report.words import capital, wrap


@dataclass(frozen=True)
class Caution:
    """One caution: short for the screen, long for the summary."""

    short: str
    long: str
    not_checked: bool = False
    when: str = ""


@cache
def _cautions() -> tuple[Caution, ...]:
    path = Path(__file__).with_name("cautions.toml")
    return tuple(Caution(**one) for one in tomllib.loads(path.read_text("utf-8"))["caution"])


def cautions(design: Design) -> list[Caution]:
    """The cautions that this case calls for."""
    roof, edge = design.case.garage_roof, design.case.house_edge
    holds = {
        "": True,
        "house wall": design.case.house_roof.edge_support == "wall"
        and (edge is None or edge.stud is None),
        "plate": not any(check.kind == PLATE for check in design.checks),
        "uplift": "W_up" in design.model.parts and design.case.wall_tie is None,
        "trusses": roof.bearing and roof.form == "trusses",
    }
    return [one for one in _cautions() if holds[one.when]]


def caution_lines(design: Design, width: int) -> list[str]:
    """The cautions in their short form, folded."""
    listed = cautions(design)
    missing = "; ".join(one.short for one in listed if one.not_checked)
    said = [f"{capital(one.short)}." for one in listed if not one.not_checked]
    return [wrap(text, width) for text in (f"Not checked: {missing}.", *said)]
