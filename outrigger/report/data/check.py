"""A design as plain data (JSON) and its reactions as CSV."""

import csv
import io
import math
from collections.abc import Iterator
from typing import Any

import numpy as np

from outrigger import __version__
from outrigger.base.units import INCHES_PER_FOOT
from outrigger.formula.formula import Step
from outrigger.formula.text import line
from outrigger.verdict import near, notes
from outrigger.verdict.clip_forces import clip_forces
from outrigger.verdict.design import Design

LOAD_CASES = ("D", "L", "Lr", "S", "W_up", "W_down", "E")
SIDE_CASES = ("H_away", "H_toward", "A")


def as_data(design: Design, sample: bool = False) -> dict[str, Any]:
    """Everything of one case, full precision, no NaN or infinity."""

    def at(table: Any) -> float:
        return float(np.ravel(table)[0])

    governing = design.closest
    shape, on = design.shape, design.loads
    plf = INCHES_PER_FOOT
    return {
        "program": {"name": "outrigger", "version": __version__},
        "digest": design.case.digest,
        "sample": sample,
        "verdict": design.verdict,
        "governing": {
            "id": governing.check.id,
            "place": governing.check.place,
            "ratio": governing.ratio,
            "combination": governing.combination,
        },
        "geometry": {
            "arm_in": at(shape.arm),
            "arm_plan_in": at(shape.arm) * shape.plan,
            "back_span_in": at(shape.back_span),
            "length_in": at(shape.length),
        },
        "loads": {
            "wall_line_lb": {
                **{name: at(on.wall_line.get(name, 0.0)) for name in LOAD_CASES},
                "S": max((at(p) for n, p in on.wall_line.items() if n[0] == "S"), default=0.0),
                "E": on.Ev_per_D * at(on.wall_line["D"]),
            },
            "snow_cases_lb": {n: at(p) for n, p in on.wall_line.items() if n[0] == "S"},
            "wall_wind_lb": {name: at(force) for name, force in on.on_wall.items()},
            "along_wall_lb": {name: at(force) for name, force in on.along_wall.items()},
            "reactions_in_plane": side_rows(design),
            "takedown": {part: _takedown(steps) for part, steps in on.steps.items()},
            "why": list(on.reasons),
            "strip_plf": {name: at(q) * plf for name, q in on.strip.items()},
            "back_span_plf": {
                name.removesuffix("_back"): at(q) * plf for name, q in on.back.items()
            },
            "self_weight_plf": at(on.self_weight) * plf,
            "share_in": at(on.share),
        },
        "reactions": reaction_rows(design),
        "connections": [
            {
                "at": one.at,
                "combination": one.combination,
                "uplift_lb": one.uplift,
                "along_lb": one.along,
                "across_lb": one.across,
                "per_clip_lb": one.uplift / one.count,
            }
            for one in clip_forces(design)
        ],
        "checks": [
            {
                "id": row.check.id,
                "place": row.check.place,
                "link": row.check.link,
                "clause": row.check.clause,
                "demand": row.demand,
                "capacity": row.capacity,
                "unit": row.check.unit,
                "ratio": row.ratio,
                "combination": row.combination,
                "status": row.status,
                "why": row.check.why if row.status != "pass" else "",
            }
            for row in design.rows
        ],
        "movement": {
            "live_in": _demand(design, "live_deflection"),
            "total_in": _demand(design, "total_deflection"),
            "joint_in": _demand(design, "joint"),
            "tip_stiffness_lb_per_in": at(design.tip_stiffness),
            "end_rotation_rad": design.bent.turn,
            "back_span_bow_in": design.bent.bow,
        },
        "not_given": [
            {"key": one.key, "question": one.question, "who": one.who} for one in design.not_given
        ],
        "not_covered": design.not_covered,
        "defaults": design.defaults,
        "notes": [*notes.of(design), *_near(design)],
    }


def _near(design: Design) -> list[str]:
    """What is near the line, by the id, place and link of its check."""
    named = [(row.check, text) for row, text in near.of(design)]
    return [
        "near the line: " + ", ".join(part for part in (c.id, c.place, c.link, text) if part)
        for c, text in named
    ]


def _takedown(steps: list[Step]) -> list[dict[str, Any]]:
    """Every step of one load, back to what was stated, each once and after what it rests on."""
    return [_step(step) for step in {id(s): s for top in steps for s in top.chain()}.values()]


def _step(step: Step) -> dict[str, Any]:
    """One step of the take-down of a load, with provision, level and status."""
    return {
        "symbol": step.symbol,
        "line": line(step),
        "value": float(np.ravel(step.value)[0]),
        "unit": step.unit,
        "clause": step.clause,
        "note": step.note,
        "status": step.status,
    }


def _demand(design: Design, id: str) -> float | None:
    found = [row.demand for row in design.rows if row.check.id == id]
    return max(found) if found else None


def reaction_rows(design: Design) -> list[dict[str, Any]]:
    """Unfactored reactions square to the sheathing, by place and load case; up is positive."""
    apart = float(design.shape.spacing[0, 0])
    rows = []
    for place, name, value in _forces(design.reactions):
        plf = value / apart * INCHES_PER_FOOT
        rows.append({"at": place, "case": name, "force_lb": value, "line_plf": plf})
    return rows


def side_rows(design: Design) -> list[dict[str, Any]]:
    """Unfactored forces in the plane of the sheathing: along, and across by place."""
    return [
        {
            "at": "all hold-downs" if place == "along" else place,
            "way": "along" if place == "along" else "across",
            "case": name,
            "force_lb": value,
        }
        for place, name, value in _forces(design.side_reactions)
    ]


def _forces(table: dict[str, dict[str, Any]]) -> Iterator[tuple[str, str, float]]:
    for place, by_case in table.items():
        for name, force in by_case.items():
            value = float(force[0, 0])
            assert math.isfinite(value)
            yield place, name, value


def reactions_csv(design: Design) -> str:
    """The reactions as CSV."""
    text = io.StringIO()
    writer = csv.DictWriter(text, ("at", "case", "force_lb", "line_plf"), lineterminator="\n")
    writer.writeheader()
    writer.writerows(reaction_rows(design))
    return text.getvalue()
