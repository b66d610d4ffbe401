"""The page of gaps for a phone: one file, no server, no request; each gap a whole design.

Nothing is drawn or reckoned between two gaps. Without its script the table of all gaps shows.
"""

import base64
import hashlib
import json
from collections.abc import Iterator, Sequence
from typing import Any

from markupsafe import Markup

from outrigger.actions.places import BACK, EDGE
from outrigger.base.errors import InputError
from outrigger.base.quantity import feet_and_inches, length, sixteenths
from outrigger.page.answer import TEMPLATES, rendered
from outrigger.page.answer import rows as checked_rows
from outrigger.page.answer import verdict as verdict_of
from outrigger.report import cautions, verdict_words, words
from outrigger.report.draw.place import rectangle
from outrigger.report.draw.primitives import Point
from outrigger.report.draw.scene import Scene
from outrigger.report.draw.section import BRIEF_POINTS
from outrigger.report.screen.gap import back_cell, clip_cell, clip_head
from outrigger.report.screen.gap import verdict as of_all
from outrigger.report.screen.gap_words import inches
from outrigger.studies.gap_cases import at_gap, fields_of
from outrigger.studies.gap_study import GapRow, GapStudy
from outrigger.verdict.back_span import SHORT_BACKS
from outrigger.verdict.back_span import words as caution_of
from outrigger.verdict.design import Design, design

LARGEST = 60_000  # bytes, for a message on a telephone
WALL_IN = 14.0  # of each wall that is drawn
EDGE_IN = 3.0  # round the drawing


def pocket(found: GapStudy, sample: bool) -> str:
    """The page.

    Raises:
        InputError: too many gaps for its size.
    """
    names, texts, box = _Table(), _Table(), _Box()
    stops, lines, size = list[dict[str, Any]](), list[dict[str, str]](), 0
    fields = fields_of(found.case, found.before, found.cut)
    for row in found.rows:
        result = design(at_gap(found.case, fields, row.gap))
        stops.append(_of_gap(row, result, names, texts, box))
        lines.append(_line(row, result))
        size += len(json.dumps(stops[-1]))
        _fits(size, found)
    script, style = (
        (TEMPLATES / f"pocket.{kind}").read_text(encoding="utf-8") for kind in ("js", "css")
    )
    asked, short = found.asked, {c for row in found.rows for c in (row.caution, row.least_caution)}
    text = rendered(
        "pocket.html.j2",
        script=Markup(script),
        style=Markup(style),
        policy=f"default-src 'none'; script-src '{_hash(script)}'; style-src '{_hash(style)}'; "
        "base-uri 'none'; form-action 'none'",
        sample=words.SAMPLE if sample else "",
        job=words.job(asked),
        digest=words.digest(asked.case.digest),
        title=words.title(asked),
        answer=of_all(found, sample),
        data={"gaps": stops, "names": names.texts, "texts": texts.texts},
        nearest=min(range(len(lines)), key=lambda i: abs(found.rows[i].gap - asked.case.gap.width)),
        box=box.view,
        table=lines,
        heads=(clip_head(found, BACK), clip_head(found, EDGE)),
        marks=[f"{one.mark} {one.words}." for one in SHORT_BACKS if one in short],
        cautions=[f"Caution: {one.short}." for one in cautions.of_case(asked)],
        not_checked=cautions.few(cautions.not_checked(asked)),
        engineer=words.ENGINEERS_LINE,
    )
    _fits(len(text.encode()), found)
    return text


def _fits(size: int, found: GapStudy) -> None:
    if size > LARGEST:
        raise InputError(
            f"--pocket: {len(found.rows)} gaps take over {LARGEST // 1000} kB, too much for a "
            "message. Take a larger --step, or fewer gaps with --from and --to."
        )


class _Box:
    """The view that holds all drawings, so that one scale is that of every gap."""

    def __init__(self) -> None:
        self.xs: list[float] = []
        self.ys: list[float] = []

    def points(self, points: Sequence[Point]) -> str:
        """The corners of an area, as SVG has them."""
        self.xs += [x for x, _ in points]
        self.ys += [-y for _, y in points]
        return " ".join(f"{x:.1f},{-y:.1f}" for x, y in points)

    @property
    def view(self) -> str:
        """Where it begins, and how wide and tall it is."""
        x, y = min(self.xs) - EDGE_IN, min(self.ys) - EDGE_IN
        wide, tall = max(self.xs) + EDGE_IN - x, max(self.ys) + EDGE_IN - y
        return f"{x:.1f} {y:.1f} {wide:.1f} {tall:.1f}"


class _Table:
    """Texts, each once, by their number."""

    def __init__(self) -> None:
        self.texts: list[str] = []

    def number(self, text: str) -> int:
        """The number of a text."""
        if text not in self.texts:
            self.texts.append(text)
        return self.texts.index(text)


def _of_gap(row: GapRow, result: Design, names: _Table, texts: _Table, box: _Box) -> dict[str, Any]:
    """What the slider shows at one gap."""
    scene = Scene(result, BRIEF_POINTS, brief=True)
    rows = checked_rows(result)
    said = [one.short for one in cautions.of_case(result)]
    others = verdict_words.at_other_marks(result)
    return {
        "gap": inches(row.gap),
        "verdict": verdict_of(result),
        "status": result.verdict,
        "rows": [
            [names.number(f"{one['place']}: {one['what']}"), one["ratio"], one["bar"],
             one["word"], one["figures"]] for one in rows
        ],
        "lengths": ", ".join(
            (f"gap {inches(row.gap)}", f"arm {length(scene.arm)}",
             f"back span {length(scene.back)}")
        ),
        "needs": [*_needs(row), *([others] if others else [])],
        "cautions": [texts.number(words.capital(one)) for one in said],
        "drawn": {name: box.points(points) for name, points in _drawn(scene)},
        "named": _named(scene),
    }  # fmt: skip


def _needs(row: GapRow) -> list[str]:
    """Piece, least back span, clips."""
    back = "No back span works at this gap"
    if row.least_back_span is not None:
        back = f"Back span at least: {sixteenths(row.least_back_span)}"
    if caution := caution_of(row.least_caution):
        back += f"; caution: {caution}"
    if row.least_more:
        back += f"; not known to work, open there: {'; '.join(row.least_more)}"
    found = [f"Piece: {feet_and_inches(row.length)}", back]
    for place, name in ((BACK, "Back clip"), (EDGE, "House wall clip")):
        if cell := clip_cell(row, place):
            said = "listed for at least" if place in row.listed else "pulls"
            found.append(f"{name}, each: {said} {cell}")
    return found


def _drawn(scene: Scene) -> Iterator[tuple[str, Sequence[Point]]]:
    """The areas of the section, each by its corners."""
    case, half = scene.case, scene.case.gap.edge_bearing / 2
    low, face, garage = -WALL_IN - scene.panel, scene.framing_face, scene.garage_face
    inner = min(-half * scene.cos, face)
    over = garage + case.gap.garage_plate
    yield "gap", rectangle(scene.finish_face, low, garage, scene.top_at(garage))
    yield "finish", rectangle(face, low, scene.finish_face, scene.under_at(face))
    yield "house", rectangle(inner, low, face, scene.under_at(face))
    yield "panel", scene.block(scene.start, -scene.panel, half, 0.0)
    yield "member", scene.block(scene.start, 0.0, scene.end, scene.deep)
    yield "garage", rectangle(garage, scene.top_at(garage), over, scene.top_at(garage) + WALL_IN)
    for i, hold in enumerate(case.hold_down):
        x = _place(scene, hold.at)
        yield f"clip{i}", scene.block(x - 0.8, 0.0, x + 0.8, 0.6 * scene.deep)


def _named(scene: Scene) -> list[tuple[str, str]]:
    """What stands beside the areas: its words and their place."""
    low = -WALL_IN - scene.panel + 1.0
    over = scene.garage_face + scene.case.gap.garage_plate + 1.0
    spots = (
        ("end", "house wall", scene.framing_face - scene.case.gap.edge_bearing - 1.0, low),
        ("start", "gap", scene.garage_face + 1.0, low),
        ("end", "garage wall", scene.garage_face - 1.0, scene.top_at(over) + WALL_IN - 3.0),
    )
    return [(f"{anchor} {x:.1f},{-y:.1f}", said) for anchor, said, x, y in spots]


def _place(scene: Scene, at: object) -> float:
    """Where a clip stands along the member."""
    if isinstance(at, float):
        return -at
    return 0.0 if at == EDGE else -scene.back


def _line(row: GapRow, result: Design) -> dict[str, str]:
    """A gap in the table of all."""
    closest = row.governing
    return {
        "gap": f"{inches(row.gap)}{row.caution.mark if row.caution else ''}",
        "verdict": {"pass": "works", "fail": "FAILS", "open": "open"}[result.verdict],
        "used": words.ratio(closest.ratio),
        "what": words.subject(closest),
        "piece": feet_and_inches(row.length),
        "back": back_cell(row),
        "back_clip": clip_cell(row, BACK),
        "wall_clip": clip_cell(row, EDGE),
    }


def _hash(text: str) -> str:
    """How a policy names a text that may run."""
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"
