"""What is not known though a load or a strength hangs on it: without it nothing is said to work."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from outrigger.formula.check import FAILS, OPEN, STATUSES, Status
from outrigger.formula.numbers import Bools
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, Designs
from outrigger.verdict.unsaid import RUN, NotGiven

# what people ask for first, in words; others are called by their key
WORDS = {
    "snow.ground": "snow",
    "garage_roof.dead": "roof dead load",
    "garage_roof.strip_dead": "roof dead load",
    "wind.uplift": "wind",
    "hold_down": "the back clip",
    "wall_tie": "what ties the garage wall down",
    "garage_roof.live": "roof live load",
    "house_roof.edge_support": "what is right below the house edge",
    "outrigger.blocking": "blocking",
    "outrigger.moisture": "dry or wet",
    "garage_wall.height": "wall height",
    "garage_wall.dead": "wall weight",
    "garage_roof.storage": "attic storage",
    "snow.drift": "drifted snow",
    "snow.sliding": "sliding snow",
    "snow.unbalanced": "unbalanced snow",
    "wind.down": "wind pressing down",
    "seismic.category": "earthquake",
    "garage_wall.out_of_plane_wind": "wind square to the wall",
    "garage_wall.along": "force along the wall",
    "garage_wall.studs_over_outriggers": "whether studs stand over the outriggers",
    "house_roof.dead": "dead load on the back span",
    "house_roof.live": "live load on the back span",
    "house_roof.snow": "snow on the back span",
    "house_roof.wind_uplift": "wind on the back span",
}
RANK = {key: i for i, key in enumerate(WORDS)}
MOST_NAMED = 4


@dataclass(frozen=True, eq=False)
class Unknown:
    """What is open in a design: all of it, and of that what a load or a strength hangs on."""

    design: Design

    @cached_property
    def keys(self) -> list[str]:
        """Everything that is open: keys of the file, and ids of checks."""
        found = [one.key for one in self.design.not_given]
        found += [_head(text) for text in self.design.not_covered]
        return list(dict.fromkeys([*found, *(row.check.id for row in self._open)]))

    @cached_property
    def missing(self) -> list[str]:
        """What keeps every answer back, in words, what people ask for first; none: nothing."""
        facts = sorted((n for n in self.design.not_given if n.bears), key=_rank)
        found = [_words(one) for one in facts] + [_head(text) for text in self.design.not_covered]
        if not found:  # an open check beside missing facts mostly follows from them
            rows = [row.check for row in self._open if not row.check.link.estimate]
            found = [f"{row.kind.name} ({row.place})" for row in rows]
        return list(dict.fromkeys(found))

    @property
    def _open(self) -> list[CheckResult]:
        return [row for row in self.design.rows if row.status == "open"]

    def answer(self, works: bool) -> Status:
        """Of a sweep in which something works by the numbers, or nothing does: open while anything
        is missing, unless it fails by what is known."""
        if self.missing and (works or self.design.verdict != "fail"):
            return "open"
        return "pass" if works else "fail"

    def cannot_say(self, what: str) -> str:
        """The words in place of an answer, with what is missing; empty: nothing is."""
        if not self.missing:
            return ""
        count, named = len(self.missing), ", ".join(self.missing[:MOST_NAMED])
        facts = "1 fact is" if count == 1 else f"{count} facts are"
        among = ", among them" if count > MOST_NAMED else ":"
        return f"CANNOT SAY {what}: {facts} missing{among} {named}."


def _head(text: str) -> str:
    """What is not covered, without its reason."""
    return text.partition(":")[0]


def _rank(one: NotGiven) -> int:
    return RANK.get(one.key, len(RANK))


def _words(one: NotGiven) -> str:
    return WORDS.get(one.key, one.key)


def held_back(found: Designs, own: Design) -> Bools:
    """Of each case, whether anything is missing that a load or a strength hangs on: as `verdicts`,
    with what is not covered left to the caller."""
    strength = np.array([not check.link.estimate for check in found.checks])
    rows = (found.worked.levels[strength] == OPEN).any(axis=0)
    facts = any(one.bears for one in own.not_given)
    return np.asarray(rows | facts)


def verdicts(found: Designs, own: Design) -> list[Status]:
    """Of each case the verdict that `check` gives it; own: the design of the case as stated, whose
    facts not given hold for all.

    For cases that differ in nothing that decides what is needed or covered.
    """
    levels = found.worked.levels.max(axis=0)
    stated = bool(own.not_covered) or any(one.key != RUN for one in own.not_given)
    ends = found.worked.over_inside >= 0
    return [
        STATUSES[int(level) if level == FAILS or not (stated or end) else OPEN]
        for level, end in zip(levels, ends, strict=True)
    ]
