"""What the outriggers hand to the house, and how listed clip values were lowered, in words."""

from collections.abc import Sequence

import numpy as np

from outrigger.base.quantity import length
from outrigger.checks.at_wall import SLIP_IN
from outrigger.checks.hold_downs import RATED, listed_uplift
from outrigger.formula.numbers import pick
from outrigger.report import words
from outrigger.verdict.check_result import CheckResult
from outrigger.verdict.design import Design
from outrigger.verdict.diaphragm import ACROSS, into_diaphragm
from outrigger.verdict.envelopes import (
    INWARD,
    ONE_WAY,
    OTHER_WAY,
    OUTWARD,
    PULL,
    PUSH,
    Most,
    envelopes,
)
from outrigger.verdict.handed import (
    ALONG,
    LOAD_CASES,
    SIDE_CASES,
    at_ends_of_row,
    in_plane,
    square,
    tipping,
)

_WHERE = {"edge": "on the house wall", "back": "on the house roof, back clip"}


Cell = tuple[float, float] | None  # lb and plf of one load case; None: it brings none
Handed = tuple[str, list[Cell]]  # a phrase, and what each load case brings


def table(design: Design) -> tuple[list[Handed], list[str]]:
    """Unfactored loads, each in a line with a cell for each load case that occurs; those cases."""
    found: dict[str, dict[str, tuple[float, float]]] = {}
    for one in square(design):
        if round(one.force) == 0:
            continue
        label = f"{_where(one.at)}, from the {one.source}"
        phrase = f"pushes down {label}" if one.force > 0 else f"pulls up {label}"
        found.setdefault(phrase, {})[one.case] = (abs(one.force), abs(one.per_foot))
    cases = [c for c in (*LOAD_CASES, *SIDE_CASES) if any(c in r for r in found.values())]
    return [(phrase, [one.get(case) for case in cases]) for phrase, one in found.items()], cases


def _where(at: str) -> str:
    return _WHERE.get(at, f"on the house roof, clip at {at}")


def most(design: Design) -> list[tuple[str, list[Most]]]:
    """The most that each place takes each way, in words, at ASD and at strength level."""
    found: dict[str, list[Most]] = {}
    for one in envelopes(design):
        if round(one.force):
            found.setdefault(_way(one), []).append(one)
    return list(found.items())


def _way(one: Most) -> str:
    """A place and a way, in words."""
    ways = {
        PUSH: f"pushes down {_where(one.at)}",
        PULL: f"pulls up {_where(one.at)}",
        OUTWARD: "pulls outward along itself",
        INWARD: "pushes inward along itself",
        ONE_WAY: f"pushes sideways at the {words.place(one.at)}",
        OTHER_WAY: f"pushes sideways at the {words.place(one.at)}, the other way",
    }
    return ways[one.way]


def title(design: Design) -> str:
    """What the table holds, and at which level."""
    level = "snow and wind" if design.case.basis.loads == "ASCE 7-22" else "wind"
    sloped = design.shape.tilt.way != "level"
    return (
        f"under {words.each(design)}, {'square to its roof, ' if sloped else ''}"
        f"unfactored, by load and by what brings it ({level} at strength level; what the garage "
        "side and the back span bring is not set off, one against the other; plf is the worst "
        "placed outrigger over its spacing, more than the average along the wall)"
    )


def at_marks(design: Design) -> list[str]:
    """Of a layout the marks that hand over the most, where it is not the one that is checked."""
    if design.mark is None:
        return []
    elsewhere = dict[int, dict[str, None]]()
    for most in envelopes(design):
        if most.mark is not None and most.mark != design.mark and round(most.force):
            elsewhere.setdefault(most.mark, {})[_way(most)] = None
    for one in (*square(design), *in_plane(design)):
        if one.mark is not None and one.mark != design.mark and round(one.force):
            place = "along itself" if one.at == ALONG else f"at the {words.place(one.at)}"
            elsewhere.setdefault(one.mark, {})[f"{words.load_case(one.case)} {place}"] = None
    listed = [f"{', '.join(texts)} (mark {mark})" for mark, texts in sorted(elsewhere.items())]
    said = f"Each the largest over the marks: that of mark {design.mark}, which is checked"
    return [f"{said}; but {'; '.join(listed)}." if listed else f"{said}."]


def snow_on_house(design: Design) -> list[str]:
    """What the garage wall and roof bring to the house roof of snow, in psf, or what is missing."""
    level = "strength level" if design.case.basis.loads == "ASCE 7-22" else "allowable-stress level"
    return [
        words.capital(f"{one.said}{f' ({level})' if one.applies else ''}.")
        for one in design.loads.on_house
    ]


def turned(design: Design) -> list[str]:
    """The moment that the blocking takes, in its governing combination; of toe-nailed blocks what
    they bring at the ends of the row."""
    said = {
        "tips the blocking at the": tipping(design),
        "the last block lifts one end of the row, and presses the other, at the": at_ends_of_row(
            design
        ),
    }
    return [
        f"{phrase} {words.place(row.check.place)}: "
        f"{words.amount(row.demand, row.check.unit)}, {row.combination_words}"
        for phrase, rows in said.items()
        for row in rows
    ]


def diaphragm(design: Design) -> list[str]:
    """What wind and earthquake push into the house roof in its plane, each with its level."""
    down, up = "along the wall", "along the wall, the other way"
    if design.shape.tilt.across:
        down, up = "along the wall, down the slope", "along the wall, up the slope"
    ways = {
        (ALONG, OUTWARD): "away from the house",
        (ALONG, INWARD): "toward the house",
        (ACROSS, ONE_WAY): down,
        (ACROSS, OTHER_WAY): up,
    }
    said: dict[str, dict[str, list[str]]] = {}
    for one in into_diaphragm(design):
        amounts = said.setdefault(ways[one.at, one.way], {}).setdefault(one.cause, [])
        amounts.append(f"{one.per_foot:,.1f} plf {one.level}")
    each = [
        f"{way}, "
        + ", ".join(f"{cause} {strength} ({asd})" for cause, (strength, asd) in causes.items())
        for way, causes in said.items()
    ]
    if not each:
        return []
    return [f"as a diaphragm, over each foot of house wall, at most: {'; '.join(each)}"]


def bent(design: Design) -> str:
    """Which mark of a layout the loads are of, how the outrigger bends under service loads, and
    what a forced movement puts on it."""
    shape, stiff = design.bent, float(design.tip_stiffness.ravel()[0])
    said = [
        *at_marks(design),
        f"The end turns {np.degrees(shape.turn):.2f}° and the back span bows {shape.bow:.3f} in. "
        "Leave room under the garage wall: pushed up 1/16 in, each outrigger takes "
        f"{stiff / 16:,.0f} lb.",
    ]
    forced = design.case.limits.building_movement
    if forced:
        said.append(f"The stated building movement, {length(forced)}: {stiff * forced:,.0f} lb.")
    return " ".join(said)


def droop(design: Design) -> str:
    """The droop at the garage wall: of the wood alone, and with what clips and bearing give."""
    found, limits = design.at_wall, design.case.limits
    wood, slip, crush, whole = (
        float(np.ravel(step.value)[0])
        for step in (found.wood, found.slip, found.crush, found.whole)
    )
    at, taken = length(limits.clip_slip or 0.0), ""
    if limits.clip_slip is None:
        at, taken = length(SLIP_IN), ", taken"
    slips = f"{slip:.3f} in ({at} at its listed value{taken})" if found.known[0] else "not known"
    crushes = f"{crush:.3f} in" if found.known[1] else "not known"
    more = "" if all(found.known) else ", and more"
    return (
        f"Droop at the garage wall: the wood alone {wood:.3f} in; with slip of the back clip, "
        f"{slips}, and crushing at the house wall, {crushes}: {whole:.3f} in{more}. Its limit "
        "above is for the wood alone."
    )


def sideways(design: Design) -> list[str]:
    """Forces in the plane of the house roof, unfactored: along the member, and across it."""
    said: dict[str, list[str]] = {}
    for one in in_plane(design):
        if force := round(one.force):
            if one.at == ALONG:
                place = "pulls outward along itself" if force > 0 else "pushes inward along itself"
            else:
                place = f"pushes sideways at the {words.place(one.at)}"
                place += "" if force > 0 else ", the other way"
            place += f", from the {one.source}"
            said.setdefault(place, []).append(f"{words.load_case(one.case)} {abs(force):,} lb")
    return [f"{place}: {', '.join(forces)}" for place, forces in said.items()]


def lowered(design: Design, rows: Sequence[CheckResult]) -> list[str]:
    """For each listed clip: what it was listed for, and how it was lowered."""
    found = []
    for row in rows:
        if row.check.link != RATED or row.capacity is None or not row.demand:
            continue
        name = words.clip(row.check.place)
        clip = listed_uplift(design.member, design.member.holds[row.check.place])
        if clip.duration is None:
            found.append(f"{name}: {clip.cap.note}.")
            continue
        element = row.check.element(row.case)
        listed = pick(clip.value.value, element)
        factor = pick(clip.cap.value, element) / listed if listed else 1.0
        how = f"lowered x {factor:.2f} to the load here" if factor < 1 else "not lowered here"
        found.append(f"{name}: {clip.duration.note}, {how}.")
    return [words.capital(text) for text in found]
