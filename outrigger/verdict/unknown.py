"""What is not known though a load or a strength hangs on it: without it nothing is said to work."""

from functools import cached_property

from msgspec import Struct

from outrigger.cases.model import Case
from outrigger.formula.check import FAILS, OPEN, STATUSES, Check, Status
from outrigger.verdict import unsaid, unsaid_below
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design, Designs
from outrigger.verdict.missing_fact import RUN, NotGiven
from outrigger.verdict.not_covered import not_covered

# what people ask for first, in words; others are called by their key
WORDS = {
    "snow.ground": "snow",
    "garage_roof.dead": "roof dead load",
    "garage_roof.strip_dead": "roof dead load",
    "wind.uplift": "wind",
    "hold_down": "the back clip",
    "wall_tie": "what ties the garage wall down",
    "garage_roof.live": "roof live load",
    "house_roof.edge_support": "what is right below the house wall",
    "outrigger.blocking": "blocking",
    "outrigger.moisture": "dry or wet",
    "garage_wall.height": "wall height",
    "garage_wall.dead": "wall weight",
    "garage_roof.storage": "attic storage",
    "snow.drift": "drifted snow",
    "snow.sliding": "sliding snow",
    "snow.unbalanced": "unbalanced snow",
    "snow.on_house": "snow from the garage on the house roof",
    "snow.on_house.house_length": "length of the house roof",
    "snow.on_house.garage_length": "length of the garage roof",
    "snow.on_house.winter_wind": "winter wind of the site",
    "snow.on_house.slippery": "whether the garage roof is slippery",
    "wind.down": "wind pressing down",
    "seismic.category": "earthquake",
    "garage_wall.out_of_plane_wind": "wind square to the wall",
    "garage_wall.along": "force along the wall",
    "garage_wall.studs_over_outriggers": "whether studs stand over the outriggers",
    "house_roof.dead": "dead load on the back span",
    "house_roof.live": "live load on the back span",
    "house_roof.snow": "snow on the back span",
    "house_roof.wind_uplift": "wind on the back span",
    "outrigger.grade": "the grade",
    "garage_roof.pitch": "garage roof pitch",
    "garage_roof.shape": "garage roof shape",
    "garage_roof.member_spacing": "truss spacing",
    "garage_roof.overhang": "garage roof overhang",
    "house_roof.pitch": "house roof pitch",
    "house_roof.direction": "down or across the slope",
    "house_roof.framing_parallel": "which way the house rafters run",
    "house_roof.framing_spacing": "how far apart the house rafters are",
    "house_roof.sheathing_thickness": "sheathing thickness",
    "house_roof.sheathing": "kind of the sheathing",
    "house_roof.framing_species": "wood of the house framing",
    "garage_wall.plate_species": "wood of the garage plate",
    "gap.house_finish": "thickness of the house finish",
    "seismic.sds": "SDS",
    "limits.building_movement": "movement between the buildings",
    "layout.run": "how long the wall is",
}
OF_A_CLIP = {
    "into": "whether the clips reach framing",
    "rated_uplift": "pounds of a clip",
    "rated_lateral": "pounds of a clip sideways, the smaller of along and across",
    "rated_for": "column of the listing",
    "rated_wood": "wood of the listing",
    "rated_into": "into what it is listed",
    "rated_source": "page of the listing",
    "rated_across_grain": "whether it is listed across the grain",
    "side_height": "height of the side fasteners",
    "side_fastener": "side fasteners of the clip",
    "deck_fastener": "fastener down through the outrigger",
}
# tables and keys whose facts are loads, or what loads follow from
OF_LOADS = (
    "garage_roof.", "garage_wall.height", "garage_wall.dead", "garage_wall.out_of_plane_wind",
    "garage_wall.along", "snow.", "wind.", "seismic.", "house_roof.dead", "house_roof.live",
    "house_roof.snow", "house_roof.wind", "house_roof.pitch", "house_roof.direction",
)  # fmt: skip
RANK = {key: i for i, key in enumerate(WORDS)}
MOST_NAMED = 4


class Unknown(Struct, frozen=True, eq=False, dict=True):
    """What is open in a design: all of it, and of that what a load or a strength hangs on."""

    design: Design

    @cached_property
    def keys(self) -> list[str]:
        """Everything that is open: keys of the file, and ids of checks."""
        found = [one.key for one in self.design.not_given]
        found += [head(text) for text in self.design.not_covered]
        return list(dict.fromkeys([*found, *(row.check.id for row in self._open)]))

    @cached_property
    def missing(self) -> list[str]:
        """What keeps every answer back, in words, what people ask for first; none: nothing."""
        facts = sorted((n for n in self.design.not_given if n.bears), key=_rank)
        found = [in_words(one) for one in facts] + [head(text) for text in self.design.not_covered]
        if not found:  # an open check beside missing facts mostly follows from them
            found = [f"{row.check.kind.name} ({row.check.place})" for row in self._open]
        return found

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
        words = list(dict.fromkeys(self.missing))
        count, named = len(self.missing), ", ".join(words[:MOST_NAMED])
        facts = "1 fact is" if count == 1 else f"{count} facts are"
        among = ", among them" if count > MOST_NAMED else ":"
        return f"CANNOT SAY {what}: {facts} missing{among} {named}."


def more_open(found: Designs, i: int, case: Case, own: Design) -> list[str]:
    """What is open in one of many cases, itself `case`, that is not open in the case as stated, and
    that a load or a strength hangs on; in words, each once."""
    open_rows = {(row.check.link, row.check.place) for row in own.rows if row.status == "open"}
    keys = {one.key for one in own.not_given}
    said = [in_words(one) for one in unsaid.not_given(case) if one.bears and one.key not in keys]
    before = {head(text) for text in own.not_covered}
    said += [one for one in map(head, not_covered(case)) if one not in before]
    if not said:
        for check, levels in zip(found.checks, found.worked.levels, strict=True):
            if levels[i] == OPEN and (check.link, check.place) not in open_rows:
                said.append(f"{check.kind.name} ({check.place})")
    return list(dict.fromkeys(said))


def head(text: str) -> str:
    """What is not covered, without its reason."""
    return text.partition(":")[0]


def _rank(one: NotGiven) -> int:
    return RANK.get(one.key, len(RANK))


def in_words(one: NotGiven) -> str:
    """A fact that is missing as people call it; others by the question that asks for it."""
    section, _, field = one.key.rpartition(".")
    if section.startswith("hold_down[") and field in OF_A_CLIP:
        return OF_A_CLIP[field]
    if field.endswith("_source"):
        return WORDS.get(one.key.removesuffix("_source"), field.removesuffix("_source"))
    return WORDS.get(one.key) or one.question.partition("?")[0].partition(" [")[0]


def loads_missing(design: Design) -> list[str]:
    """The loads that are not given, in words: what is handed to the house is then of the others."""
    facts = (n for n in design.not_given if n.bears and n.key.startswith(OF_LOADS))
    return list(dict.fromkeys(in_words(one) for one in sorted(facts, key=_rank)))


class OpenInEach:
    """What is open in each of many cases, as `Unknown` has it of each designed alone.

    For cases alike in what is given: their lengths alone say what is covered, since a clip lands on
    the framing at some of them and misses it at others. `case`: one of them, by itself the first;
    where their grades differ one of the grade that is asked for.
    """

    def __init__(self, found: Designs, case: Case | None = None) -> None:
        self.found = found
        case = found.batch.case if case is None else case
        self.facts = [*unsaid.not_given(case), *unsaid_below.not_given(case, found.checks)]
        self._said: dict[tuple[float, ...], list[str]] = {}

    def not_covered(self, i: int) -> list[str]:
        """What one case states that is not computed. The gap has no part in it: it moves no clip,
        so that cases alike in all else are asked once."""
        batch = self.found.batch
        moved = tuple(float(c[i, 0]) for path, c in batch.columns.items() if path != "gap.width")
        if moved not in self._said:
            self._said[moved] = not_covered(batch.at(i))
        return self._said[moved]

    def verdict(self, i: int) -> Status:
        """The verdict that `check` gives one case."""
        worked = self.found.worked
        level = int(worked.levels[:, i].max())
        lacking = self.facts or worked.over_inside[i] >= 0 or self.not_covered(i)
        return STATUSES[OPEN if level != FAILS and lacking else level]

    def keys(self, i: int) -> tuple[str, ...]:
        """Everything that is open in one case: keys of the file, and ids of checks."""
        found = [one.key for one in self.facts]
        found += [RUN] if self.found.worked.over_inside[i] >= 0 else []
        found += map(head, self.not_covered(i))
        return tuple(dict.fromkeys([*found, *(check.id for check in self._open(i))]))

    def missing(self, i: int) -> bool:
        """Whether anything is missing in one case that a load or a strength hangs on."""
        facts = any(one.bears for one in self.facts)
        return facts or bool(self.not_covered(i)) or bool(self._open(i))

    def more(self, i: int, own: Design) -> tuple[str, ...]:
        """What is missing in one case and not in the case as stated, in words."""
        return tuple(more_open(self.found, i, self.found.batch.at(i), own))

    def _open(self, i: int) -> list[Check]:
        levels = self.found.worked.levels[:, i]
        return [c for c, level in zip(self.found.checks, levels, strict=True) if level == OPEN]
