"""What may go wrong on site, one thing at a time, and whether it turns the verdict.

Each mishap is a whole design of the case as it would stand.
"""

from collections.abc import Iterator
from typing import Any

from msgspec import Struct

from outrigger.actions.geometry import tail_of
from outrigger.actions.places import place_name
from outrigger.base.quantity import NONE
from outrigger.cases.batch import on_one_face
from outrigger.cases.below import Carries
from outrigger.cases.hold_down import through
from outrigger.cases.model import Case
from outrigger.cases.section import Section
from outrigger.checks.bearing import WALL_BEARING
from outrigger.checks.one_clip import HOLD_DOWN
from outrigger.formula.check import Status
from outrigger.marks.of_case import row_of
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, design

SHORT_IN = 0.5  # what a piece is cut short by


class Mishap(Struct, frozen=True, eq=False):
    """One thing gone wrong: at which place, what, more of it, and the design as it then stands.

    `bare`: the place that is left without any clip.
    """

    place: str
    what: str
    more: str
    result: Design
    bare: str = ""

    @property
    def text(self) -> str:
        """What went wrong, in full."""
        return f"{self.what}, {self.more}" if self.more else self.what

    @property
    def unheld(self) -> CheckResult | None:
        """The uplift at a place that is left without any clip."""
        for row in self.result.rows:
            held = row.check.kind == HOLD_DOWN and row.check.place == self.bare
            if held and row.demand and row.ratio is None:
                return row
        return None

    @property
    def stops(self) -> CheckResult:
        """The check that decides."""
        return self.unheld or self.result.closest

    @property
    def own(self) -> CheckResult | None:
        """What holds at the place itself: its clips, or bearing at the wall line."""
        rows = [
            row
            for row in self.result.rows
            if row.check.kind in (HOLD_DOWN, WALL_BEARING) and row.check.place == self.place
        ]
        return max(rows, key=lambda r: -1.0 if r.ratio is None else r.ratio, default=None)

    @property
    def verdict(self) -> Status:
        """Verdict of the design; a place with uplift and no clip fails."""
        return "fail" if self.unheld else self.result.verdict


def mishaps(case: Case) -> list[Mishap]:
    """A clip left out, a clip beside the rafter, a piece cut short, a worker before the roof."""
    return [*_clips(case), *_short(case), _worker(case)]


def _clips(case: Case) -> Iterator[Mishap]:
    """One clip less at each place. One beside the rafter is in sheathing only and counts as none:
    fasteners there have no published withdrawal value (NDS 2018 12.2)."""
    paired = case.layout is not None and any(piece.pair for piece in row_of(case).pieces)
    for i, hold in enumerate(case.hold_down):
        place = place_name(hold.at, case.outrigger.back_span)
        others = [*case.hold_down[:i], *case.hold_down[i + 1 :]]
        left = case.hold_down.copy()
        if hold.count > 1:
            left[i] = hold.model_copy(update={"count": hold.count - 1})
        else:
            left = others
        result = design(case.model_copy(update={"hold_down": left}))
        beside = "or beside the rafter" if hold.into == "framing" else ""
        bare = place if hold.count == 1 else ""
        yield Mishap(place, "one clip left out", beside, result, bare)
        if paired and not through(hold) and hold.count > 1:
            yield _of_a_pair(case, i, beside)


def _of_a_pair(case: Case, i: int, beside: str) -> Mishap:
    """One clip less at a piece of a pair, which has those of its outer face alone; a single piece
    is then looked at with as many less on each of its faces."""
    hold, left = case.hold_down[i], case.hold_down.copy()
    place, fewer = place_name(hold.at, case.outrigger.back_span), on_one_face(hold.count) - 1
    left[i : i + 1] = [hold.model_copy(update={"count": 2 * fewer})] if fewer else []
    result = design(case.model_copy(update={"hold_down": left}))
    return Mishap(place, "one clip of a pair left out", beside, result, "" if fewer else place)


def _short(case: Case) -> Iterator[Mishap]:
    """A piece cut short, laid so that either end takes the loss."""
    piece = case.outrigger
    for place, key, length in (
        ("wall line", "tail", tail_of(case)),
        ("back", "behind_back", piece.behind_back),
    ):
        if length >= SHORT_IN:
            changed = piece.model_copy(update={key: length - SHORT_IN})
            result = design(case.model_copy(update={"outrigger": changed}))
            yield Mishap(place, "one piece cut 1/2 in short", "short at this end", result)


def _worker(case: Case) -> Mishap:
    """A worker on the end of the bare outrigger: no roof, wall, snow or wind on it yet."""
    edge = case.house_edge
    if edge is not None and isinstance(edge.carries, Carries):
        edge = edge.model_copy(update={"carries": _without(edge.carries, "S", "W_up")})
    bare = case.model_copy(
        update={
            "house_edge": edge,
            "house_roof": _without(case.house_roof, "dead", "live", "snow", "wind_uplift"),
            "garage_roof": _without(
                case.garage_roof, "dead", "live", "storage", "strip_dead", bearing=False,
                line=None, point=[],
            ),
            "garage_wall": _without(
                case.garage_wall, "height", "dead", "out_of_plane_wind", "along"
            ),
            "snow": _without(case.snow, "ground", "roof", drift=NONE, sliding=NONE,
                             drift_line=None, unbalanced=NONE),
            "wind": _without(case.wind, "uplift", "down", speed=None),
        }
    )  # fmt: skip
    return Mishap("end", "a worker", "300 lb, before the roof is on", design(bare))


def _without(part: Section, *loads: str, **others: Any) -> Any:
    """A table of the case with its loads set to none."""
    return part.model_copy(update=dict.fromkeys(loads, 0.0) | others)
