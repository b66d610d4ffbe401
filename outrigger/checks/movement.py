"""Movement at the wall line: droop, live and total; the seal between the buildings."""

from functools import cache
from itertools import pairwise

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions import by_hand
from outrigger.actions.places import BACK, WALL_LINE
from outrigger.actions.sums import summed
from outrigger.checks.at_wall import AtWall, at_wall
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.seal import seal
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array
from outrigger.loads.combinations import Edition
from outrigger.loads.parts import ALONG_WALL, BLOWN, NAMES, SNOW_CASES, WORDS
from outrigger.wood import deflection

# IBC Table 1604.3 footnote f, 0.7 x 0.6, of component-and-cladding pressures: UFC 3-301-01
# (change 4) Table 2-1 note a; USGNN trade news, 4 May 2012, on IBC change S78
WIND_FOR_DEFLECTION = 0.42
# of main-system loads, and of the force along the wall: the footnote names neither, so that no more
# than ASD takes off is taken off
MAIN_WIND_FOR_DEFLECTION = 0.6
SNOW_722_FOR_SERVICE = 0.7  # 7-22 snow is at strength level; common practice, no source
HELPING_DEAD = 0.6
LIVE = Link(
    Kind("live_deflection", "droop", engineers="deflection", together="droop, live"), "", "live"
)
TOTAL = Link(
    Kind("total_deflection", "droop", engineers="deflection", together="droop, total"), "", "total"
)


class Service(Struct, frozen=True, eq=False):
    """A service combination: factors of the parts, apart for long and short term."""

    text: str
    words: str
    long: dict[str, float]
    short: dict[str, float]
    source: str = ""
    status: str = ""
    time_source: str = ""
    time_status: str = ""


Services = tuple[Service, ...]


def transient(member: LoadedMember, parts: tuple[str, ...] = ()) -> Services:
    """Each transient load alone, with and without its part on the back span; of other parts than
    the outrigger's where they are given."""
    wind = MAIN_WIND_FOR_DEFLECTION if member.case.wind.method == "main" else WIND_FOR_DEFLECTION
    return _transient(parts or member.model.parts, member.case.basis.loads, wind)


@cache
def _transient(present: tuple[str, ...], edition: Edition, wind: float) -> Services:
    snow = SNOW_722_FOR_SERVICE if edition == "ASCE 7-22" else 1.0
    listed = [
        ("L", "storage", "L", "", 1.0),
        ("Lr", "roof live", "Lr", "Lr_back", 1.0),
        *((NAMES[p], WORDS[p], p, "S_back", snow) for p in ("S", *SNOW_CASES)),
        ("W up", "wind up", "W_up", "W_back", wind),
        ("W down", "wind down", "W_down", "W_back", wind),
    ]
    found = []
    for name, words, part, back, factor in listed:
        if part not in present:
            continue
        text = name if factor == 1 else f"{factor:g}{name}"
        if back not in present:
            found.append(Service(text, words, {}, {part: factor}))
            continue
        plain = "snow" if part in SNOW_CASES else words
        sucked = part == "W_down"
        with_back = f"{text}, wind down with suction on the back span" if sucked else text
        without = text if sucked else f"{text}, {plain} none on the back span"
        found.append(Service(with_back, words, {}, {part: factor, back: factor}))
        found.append(Service(without, words, {}, {part: factor}))
    return (*found, *_sideways(present, found))


def _sideways(present: tuple[str, ...], rows: list[Service]) -> list[Service]:
    """Wind on the garage wall and force along it, alone and with each row of wind on the roof."""
    found = []
    blown = [row for row in rows if {"W_up", "W_down"} & set(row.short)]
    for part in BLOWN:
        if part in present:
            factor = MAIN_WIND_FOR_DEFLECTION if part in ALONG_WALL else WIND_FOR_DEFLECTION
            more, text, words = {part: factor}, f"{factor:g}{NAMES[part]}", WORDS[part]
            found.append(Service(text, words, {}, more))
            for row in blown:
                both = Service(f"{row.text} + {text}", f"{row.words} + {words}", {}, {})
                found.append(replace(both, short={**row.short, **more}))
    return found


@cache
def with_dead(rows: Services) -> Services:
    """The rows with dead load as the long-term part, the back span's as it is and x 0.6."""
    found = []
    for back, said in ((1.0, ""), (HELPING_DEAD, ", dead on the back span x 0.6")):
        dead = {"D": 1.0, "D_back": back}
        found.append(Service(f"D{said}", "dead", dead, {}))
        for row in rows:
            words = f"dead + {row.words}"
            found.append(Service(f"D + {row.text}{said}", words, dead, row.short))
    return tuple(found)


def _sum(member: LoadedMember, rows: Services, term: str) -> Array:
    """Droop at the wall line of one term of each row, (cases, rows).

    In a row of hold-downs the back may hold alone, and an edge without a tie may lift off where
    dead load and a short-term load together lift it: the larger of what may be. What is short-term
    is then the rise of both together, less the droop of dead load on an edge that bears.
    """
    model, tilt = member.model, member.model.shape.tilt
    total = _droop(model.whole.droop, model.parts, rows, term)
    if len(model.supports) > 2:
        other = _droop(model.alone[BACK].droop, model.parts, rows, term)
        total = np.where(np.abs(other) > np.abs(total), other, total)
        if term == "short" and not model.tied and model.lifted is not None:
            dead = _factors(model.parts, _dead_beside(rows), "long")
            both = dead + _factors(model.parts, rows, "short")
            rise = summed(model.lifted.droop, both) - summed(model.whole.droop, dead)
            lifts = summed(model.whole.R[-1], both) < 0
            total = np.where(lifts & (np.abs(rise) > np.abs(total)), rise, total)
    if model.sideways is not None and tilt.across:  # the vertical sum of both axes
        side = _droop(model.sideways.droop, model.parts, rows, term)
        total = total * tilt.cos + side * tilt.sin
    return total


@cache
def _dead_beside(rows: Services) -> Services:
    """The rows with the dead load that acts beside them: where none is named, no more than helps
    on the back span."""
    return tuple(replace(r, long=r.long or {"D": 1.0, "D_back": HELPING_DEAD}) for r in rows)


def _droop(droop: Array, parts: tuple[str, ...], rows: Services, term: str) -> Array:
    """Sums over the parts of one statics, (cases, rows)."""
    return summed(droop, _factors(parts, rows, term))


@cache
def _factors(parts: tuple[str, ...], rows: Services, term: str) -> Array:
    """Factors of one term, (rows, parts)."""
    found = np.zeros((len(rows), len(parts)))
    for i, row in enumerate(rows):
        for part, factor in getattr(row, term).items():
            found[i, parts.index(part)] = factor
    return found


def movements(member: LoadedMember, others: list[Check]) -> tuple[list[Check], AtWall]:
    """Live and total droop against their limits, and the seal where one is given; the droop at the
    wall with slip and crushing.

    `others`: the strength checks, whose ratios scale slip and crushing.
    """
    limits, arm = member.case.limits, member.model.shape.arm
    K_cr = member.creep
    live, rows = transient(member), list[Check]()
    if live:
        short = _by_hand(member, live, "short", "D_ST", _sum(member, live, "short"), "")
        check = deflection.deflection(
            link=LIVE,
            place=WALL_LINE,
            long_term=0.0,
            short_term=short,
            K_cr=K_cr,
            span=2 * arm,
            limit=limits.live_deflection,
        )
        rows.append(_with_stiffness(member, check, live))
    whole = with_dead(live)
    long, short_sum = _sum(member, whole, "long"), _sum(member, whole, "short")
    of_dead = _by_hand(member, whole, "long", "D_LT", long, ", dead")
    # a part that helps is not counted on
    of_dead = replace(of_dead, value=np.where(long * short_sum < 0, 0.0, long))
    total = deflection.deflection(
        link=TOTAL,
        place=WALL_LINE,
        long_term=of_dead,
        short_term=_by_hand(member, whole, "short", "D_ST", short_sum, ""),
        K_cr=K_cr,
        span=2 * arm,
        limit=limits.total_deflection,
    )
    found = at_wall(member, np.asarray(total.steps[0].value), others)
    total_row = _with_stiffness(member, total, whole)
    rows.append(replace(total_row, steps=(*total_row.steps, found.whole)))
    return [*rows, *seal(member, total, others)], found


def _by_hand(
    member: LoadedMember, rows: Services, term: str, symbol: str, value: Array, said: str
) -> Step:
    """One term of each row's droop, by its closed form where there is one."""
    model, plain = member.model, given(symbol, value, "in", "statics", f"at the garage wall{said}")
    if model.sideways is not None:
        return plain
    hand = by_hand.hand(model, _factors(model.parts, rows, term), member.d)
    closed = hand.droop(model.stiff.EI, model.stiff.GA) if hand is not None else None
    return plain if closed is None else replace(by_hand.attach(closed, value), symbol=symbol)


def _with_stiffness(member: LoadedMember, check: Check, rows: Services) -> Check:
    """The check with EI and GA among its steps, and its combinations."""
    stiff = member.model.stiff
    return replace(check, steps=(stiff.EI, stiff.GA, *check.steps), combinations=rows)


class Bent(Struct, frozen=True):
    """How the member bends under service loads: bow of the back span in, turn of its end."""

    bow: float
    turn: float


BOW_PLACES = 24  # between two supports


def bent(member: LoadedMember) -> Bent:
    """Largest bow of the back span and turn of the end at the wall line, creep included.

    Every support holding both ways; of a design of one case.
    """
    model, rows = member.model, with_dead(transient(member))
    K_cr = float(np.asarray(member.creep.value))
    solution = model.whole.solution
    x = [float(at.ravel()[0]) for _, at in model.supports]
    places = np.concatenate([np.linspace(a, b, BOW_PLACES) for a, b in pairwise(x)])

    def largest(values: Array) -> float:
        whole = K_cr * _droop(values, model.parts, rows, "long")
        return float(np.max(np.abs(whole + _droop(values, model.parts, rows, "short"))))

    bow = largest(np.concatenate([solution.deflection(at) for at in places]))
    return Bent(bow, largest(solution.slope(model.shape.arm[:, 0])))
