"""A design as plain data (JSON) and its reactions as CSV."""

from typing import Any

import numpy as np

from outrigger import __version__
from outrigger.base.units import plf
from outrigger.checks.movement import LIVE, TOTAL
from outrigger.checks.seal import JOINT
from outrigger.formula.formula import Step
from outrigger.formula.kind import Kind
from outrigger.formula.text import line
from outrigger.loads.parts import SHAKEN
from outrigger.report import cautions
from outrigger.report.data.sweeps import bare, stamp
from outrigger.report.data.tables import csv_of, flat
from outrigger.verdict import handed, near, notes
from outrigger.verdict.clip_forces import clip_forces
from outrigger.verdict.design import Design
from outrigger.verdict.diaphragm import into_diaphragm
from outrigger.verdict.elsewhere import elsewhere
from outrigger.verdict.envelopes import envelopes
from outrigger.verdict.taken import stated_none
from outrigger.verdict.unknown import Unknown

COLUMNS = (
    "level", "at", "source", "case", "way", "combination", "force_lb", "line_plf",
    "line_combination", "alone",
)  # fmt: skip


def as_data(design: Design, sample: bool = False) -> dict[str, Any]:
    """Everything of one case, full precision, no NaN or infinity."""

    def at(table: Any) -> float:
        return float(np.ravel(table)[0])

    governing = design.closest
    shape, on = design.shape, design.loads
    return {
        "program": {"name": "outrigger", "version": __version__},
        "digest": design.case.digest,
        "sample": sample or design.case.project.invented,
        "verdict": design.verdict,
        "governing": {
            "id": governing.check.id,
            "place": governing.check.place,
            "ratio": governing.ratio,
            "combination": governing.combination,
        },
        **_elsewhere(design),
        "geometry": {
            "arm_in": at(shape.arm),
            "arm_plan_in": at(shape.arm) * shape.plan,
            "back_span_in": at(shape.back_span),
            "length_in": at(shape.length),
        },
        "loads": {
            "wall_line_lb": {
                **{name: at(on.wall_line.get(name, 0.0)) for name in handed.LOAD_CASES},
                "S": at(on.snow),
                "E": at(on.quake_vertical),
            },
            "snow_cases_lb": {name: at(P) for name, P in on.snow_cases.items()},
            "wall_wind_lb": {p: at(force) for p, force in on.on_wall.items() if p not in SHAKEN},
            "earthquake_lb": {p: at(on.on_wall[p]) for p in SHAKEN if p in on.on_wall},
            "along_wall_lb": {name: at(force) for name, force in on.along_wall.items()},
            "reactions_in_plane": side_rows(design),
            "takedown": {part: _takedown(steps) for part, steps in on.steps.items()},
            "why": list(on.reasons),
            "on_house_roof": [
                {
                    "what": one.what,
                    "psf": one.psf,
                    "length_ft": one.ft,
                    "not_given": list(one.lacks),
                    "why": one.said,
                }
                for one in on.on_house
            ],
            "strip_plf": {name: plf(at(q)) for name, q in on.strip.items()},
            "back_span_plf": {
                name.removesuffix("_back"): plf(at(q)) for name, q in on.back.items()
            },
            "self_weight_plf": plf(at(on.self_weight)),
            "share_in": at(on.share),
        },
        "reactions": reaction_rows(design),
        "envelopes": envelope_rows(design),
        "diaphragm": diaphragm_rows(design),
        "connections": [
            {
                "at": one.at,
                "combination": one.combination,
                "uplift_lb": one.uplift,
                "along_lb": one.along,
                "across_lb": one.across,
                "per_clip_lb": one.uplift / one.count,
                **_mark(one.mark),
            }
            for one in clip_forces(design)
        ],
        "checks": [
            {
                "id": row.check.id,
                "place": row.check.place,
                "link": row.check.link.id,
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
            "live_in": _demand(design, LIVE.kind),
            "total_in": _demand(design, TOTAL.kind),
            "joint_in": _demand(design, JOINT),
            "droop_of_wood_in": at(design.at_wall.wood.value),
            "clip_slip_in": at(design.at_wall.slip.value) if design.at_wall.known[0] else None,
            "crushing_in": at(design.at_wall.crush.value) if design.at_wall.known[1] else None,
            "droop_at_wall_in": at(design.at_wall.whole.value)
            if all(design.at_wall.known)
            else None,
            "tip_stiffness_lb_per_in": at(design.tip_stiffness),
            "end_rotation_rad": design.bent.turn,
            "back_span_bow_in": design.bent.bow,
        },
        "not_given": [
            {"key": one.key, "question": one.question, "who": one.who} for one in design.not_given
        ],
        "not_covered": design.not_covered,
        **cautions.as_data(design),
        "declared_none": stated_none(design.case),
        "defaults": design.defaults,
        "notes": [*notes.of(design), *_near(design)],
    }


def _near(design: Design) -> list[str]:
    """What is near the line, by the id, place and link of its check."""
    named = [(row.check, text) for row, text in near.of(design)]
    return [
        "near the line: " + ", ".join(part for part in (c.id, c.place, c.link.id, text) if part)
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


def _demand(design: Design, kind: Kind) -> float | None:
    found = [row.demand for row in design.rows if row.check.kind == kind]
    return max(found) if found else None


def reaction_rows(design: Design) -> list[dict[str, Any]]:
    """Unfactored reactions square to the sheathing, by place and load case; up is positive."""
    return [
        {
            "at": one.at,
            "source": one.source,
            "case": one.case,
            "force_lb": one.force,
            "line_plf": one.per_foot,
            **_mark(one.mark, one.pieces),
        }
        for one in handed.square(design)
    ]


def envelope_rows(design: Design) -> list[dict[str, Any]]:
    """The largest push and pull of each place over every combination, at ASD and at strength; with
    the sign of a reaction: a push on the house is positive, a pull on it negative."""
    return [
        {
            "at": "all hold-downs" if one.at == handed.ALONG else one.at,
            "way": one.way,
            "level": one.level,
            "force_lb": one.signed(one.force),
            "line_plf": one.signed(one.per_foot),
            "combination": one.combination,
            "line_combination": one.line[1],
            "alone": one.alone,
            **_mark(one.mark, one.pieces),
        }
        for one in envelopes(design)
    ]


def diaphragm_rows(design: Design) -> list[dict[str, Any]]:
    """What wind and earthquake hand to the house roof in its plane, along the house wall."""
    return [
        {
            "direction": one.at,
            "way": one.way,
            "cause": one.cause,
            "level": one.level,
            "force_lb": one.force,
            "line_plf": one.per_foot,
            **_mark(one.mark),
        }
        for one in into_diaphragm(design)
    ]


def side_rows(design: Design) -> list[dict[str, Any]]:
    """Unfactored forces in the plane of the sheathing: along, and across by place."""
    return [
        {
            "at": "all hold-downs" if one.at == handed.ALONG else one.at,
            "way": "along" if one.at == handed.ALONG else "across",
            "source": one.source,
            "case": one.case,
            "force_lb": one.force,
            **_mark(one.mark, one.pieces),
        }
        for one in handed.in_plane(design)
    ]


def _elsewhere(design: Design) -> dict[str, list[dict[str, Any]]]:
    """Of a layout what other marks use more of than the one that the checks are of."""
    if design.mark is None:
        return {}
    more = [
        {
            "id": one.row.check.id,
            "place": one.row.check.place,
            "link": one.row.check.link.id,
            "ratio": one.row.ratio,
            "mark": one.mark,
        }
        for one in elsewhere(design)
    ]
    return {"at_other_marks": more}


def _mark(number: int | None, pieces: int = 1) -> dict[str, int]:
    """Of a layout the mark that a force is of; of a pair, how many pieces bring it together."""
    found = {} if number is None else {"mark": number}
    return found | ({"pieces": pieces} if pieces > 1 else {})


def reactions_csv(design: Design, sample: bool = False) -> str:
    """The reactions as CSV: unfactored by source and load case, then the most of each place; each
    row says its case, its verdict and what is open, since a load not given makes it too small."""
    stamped = bare(stamp(Unknown(design), sample))
    one = {} if design.mark is None else {"mark": design.mark, "pieces": 1}
    blank = dict.fromkeys(COLUMNS, "")
    rows = [{"level": "unfactored", **row} for row in reaction_rows(design)]
    return csv_of([flat(blank | one | row | stamped) for row in rows + envelope_rows(design)])
