"""Movement at the wall line: droop, live and total; the seal between the buildings."""

from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise

import numpy as np

from outrigger.actions import closed_forms as by_hand
from outrigger.actions.geometry import column
from outrigger.actions.places import BACK, EDGE, WALL_LINE
from outrigger.actions.sums import summed
from outrigger.checks.bearing import EDGE_BEARING
from outrigger.checks.loaded_member import LoadedMember
from outrigger.checks.one_clip import HOLD_DOWN
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array, Num, sqrt
from outrigger.loads.combinations import NAMES, SIDEWAYS, SNOW_CASES, WORDS, Edition
from outrigger.wood import deflection

# IBC Table 1604.3 footnote f, 0.7 x 0.6, of component-and-cladding pressures: UFC 3-301-01
# (change 4) Table 2-1 note a; USGNN trade news, 4 May 2012, on IBC change S78
WIND_FOR_DEFLECTION = 0.42
# of main-system loads, and of the force along the wall: the footnote names neither, so that no more
# than ASD takes off is taken off
MAIN_WIND_FOR_DEFLECTION = 0.6
SNOW_722_FOR_SERVICE = 0.7  # 7-22 snow is at strength level; common practice, no source
HELPING_DEAD = 0.6
LIVE = Link(Kind("live_deflection", "droop", together="droop, live"), "", "live")
TOTAL = Link(Kind("total_deflection", "droop", together="droop, total"), "", "total")
JOINT = Kind("joint", "seal movement")
SLIP = Link(JOINT, "slip of the seal", "")
RISE = Link(JOINT, "rise of the wall", "rise of the wall")
SPACE_BELOW = Link(JOINT, "space below", "space below", "movement")


@formula("u_slip", "in", clause="statics")
def slip_at_wall(u_clip: Num, r_clip: Num, a: Num, L_b: Num) -> Num:
    """Movement at the wall line by slip of the back clip."""
    return u_clip * r_clip * a / L_b


@formula("u_slip", "in", clause="statics")
def edge_slip_at_wall(u_clip: Num, r_clip: Num, a: Num, L_b: Num) -> Num:
    """Rise of the wall line by slip of the edge tie."""
    return u_clip * r_clip * (1 + a / L_b)


@formula("u_wall", "in", clause="sum of the movements")
def rise_at_wall(D_T: Num, u_slip: Num, u_build: Num) -> Num:
    """Rise of the wall line under wind, the buildings moving too."""
    return D_T + u_slip + u_build


@formula(
    "u_crush", "in", clause="NDS 2018 4.2.6: 0.04 in at the design value", constants={"0.04": "in"}
)
def crush_at_wall(r_layers: Num, a: Num, L_b: Num) -> Num:
    """Movement at the wall line by crushing of the layers at the edge."""
    return 0.04 * r_layers * (1 + a / L_b)


@formula("u_shrink", "in", clause="common practice, no source: 0.2 % per point of moisture")
def shrinkage(mc_change: Num, d: Num) -> Num:
    """Shrinkage of the depth of the member."""
    return 0.0020 * mc_change * d


@formula("u_wall", "in", clause="sum of the movements")
def movement_at_wall(D_T: Num, u_slip: Num, u_crush: Num, u_shrink: Num, u_build: Num) -> Num:
    """Movement at the wall line, the buildings moving too."""
    return D_T + u_slip + u_crush + u_shrink + u_build


@formula("u_joint", "in", clause="ASTM C920 class, slip along the joint")
def joint_capacity(S_class: Num, W_joint: Num) -> Num:
    """Slip that a sealed joint allows."""
    return sqrt((1 + S_class) ** 2 - 1) * W_joint


@dataclass(frozen=True, eq=False)
class Service:
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


def transient(member: LoadedMember) -> Services:
    """Each transient load alone, with and without its part on the back span."""
    wind = MAIN_WIND_FOR_DEFLECTION if member.case.wind.method == "main" else WIND_FOR_DEFLECTION
    return _transient(member.model.parts, member.case.basis.loads, wind)


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
    for part in SIDEWAYS:
        if part in present:
            along = part.startswith("A_")
            factor = MAIN_WIND_FOR_DEFLECTION if along else WIND_FOR_DEFLECTION
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

    In a row of hold-downs the back may hold alone, and an edge without a tie may lift off under
    wind up: the larger of what may be.
    """
    model, tilt = member.model, member.model.shape.tilt
    total = _droop(model.whole.droop, model.parts, rows, term)
    if len(model.supports) > 2:
        other = _droop(model.alone[BACK].droop, model.parts, rows, term)
        total = np.where(np.abs(other) > np.abs(total), other, total)
        if not model.tied and model.lifted is not None:
            free = _droop(model.lifted.droop, model.parts, rows, term)
            rises = np.array(["W_up" in row.short for row in rows])
            total = np.where(rises & (np.abs(free) > np.abs(total)), free, total)
    if model.sideways is not None and tilt.across:  # the vertical sum of both axes
        side = _droop(model.sideways.droop, model.parts, rows, term)
        total = total * tilt.cos + side * tilt.sin
    return total


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


def movements(member: LoadedMember, others: list[Check]) -> list[Check]:
    """Live and total droop against their limits, and the seal where one is given.

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
    rows.append(_with_stiffness(member, total, whole))
    return [*rows, *seal(member, total, others)]


def _by_hand(
    member: LoadedMember, rows: Services, term: str, symbol: str, value: Array, said: str
) -> Step:
    """One term of each row's droop, by its closed form where there is one."""
    model, plain = member.model, given(symbol, value, "in", "statics", f"at the wall line{said}")
    if model.sideways is not None or len(value) > 1:
        return plain
    hand = by_hand.hand(model, _factors(model.parts, rows, term), member.d)
    closed = hand.droop(model.stiff.EI, model.stiff.GA) if hand is not None else None
    return plain if closed is None else replace(by_hand.attach(closed, value), symbol=symbol)


def _with_stiffness(member: LoadedMember, check: Check, rows: Services) -> Check:
    """The check with EI and GA among its steps, and its combinations."""
    stiff = member.model.stiff
    return replace(check, steps=(stiff.EI, stiff.GA, *check.steps), combinations=rows)


@dataclass(frozen=True)
class Bent:
    """How the member bends under service loads: bow of the back span in, turn of its end."""

    bow: float
    turn: float


BOW_PLACES = 24  # between two supports


def bent(member: LoadedMember) -> Bent:
    """Largest bow of the back span and turn of the end at the wall line, creep included.

    Every support holding both ways; of the first case.
    """
    model, rows = member.model, with_dead(transient(member))
    K_cr = float(np.asarray(member.creep.value))
    solution = model.whole.solution
    x = [float(at.ravel()[0]) for _, at in model.supports]
    places = np.concatenate([np.linspace(a, b, BOW_PLACES) for a, b in pairwise(x)])

    def largest(values: Array) -> float:
        whole = K_cr * _droop(values, model.parts, rows, "long")
        return float(np.max(np.abs(whole + _droop(values, model.parts, rows, "short"))))

    bow = largest(np.concatenate([solution.deflection(at)[:1] for at in places]))
    return Bent(bow, largest(solution.slope(model.shape.arm[:, 0])[:1]))


def seal(member: LoadedMember, total: Check, others: list[Check]) -> list[Check]:
    """The seal between the buildings, and the free space below the wall. ASTM C920."""
    limits, shape = member.case.limits, member.model.shape
    if limits.joint_width is None and limits.below_clearance is None:
        return []
    worst = np.asarray(total.steps[0].value)
    lever = {"a": shape.arm, "L_b": shape.back_span}
    u_clip = limits.clip_slip or 0.0
    slip = slip_at_wall.step(u_clip=u_clip, r_clip=_ratio(others, HOLD_DOWN, BACK), **lever)
    crush = crush_at_wall.step(r_layers=_ratio(others, EDGE_BEARING, EDGE), **lever)
    shrink = shrinkage.step(mc_change=limits.moisture_change or 0.0, d=member.d)
    note = "expected between the two buildings, as stated"
    between = given("u_build", limits.building_movement or 0.0, "in", "", note)
    droop = np.max(np.maximum(worst, 0.0), axis=1, keepdims=True)
    moved = movement_at_wall.step(
        D_T=given("D_T", droop, "in", "total droop, see above"),
        u_slip=slip,
        u_crush=crush,
        u_shrink=shrink,
        u_build=between,
    )
    rise = np.max(np.maximum(-worst, 0.0), axis=1, keepdims=True)
    up = rise_at_wall.step(
        D_T=given("D_T", rise, "in", "rise under wind, see above"),
        u_slip=edge_slip_at_wall.step(
            u_clip=u_clip, r_clip=_ratio(others, HOLD_DOWN, EDGE), **lever
        ),
        u_build=between,
    )
    rows = []
    if limits.joint_width is not None:
        known = limits.joint_class is not None
        S_class = 1.0 if limits.joint_class == "100/50" else float(limits.joint_class or 0.0) / 100
        allowed = joint_capacity.step(S_class=S_class, W_joint=column(limits.joint_width))
        for step, link in ((moved, SLIP), (up, RISE)):
            row = _joint(link, "ASTM C920", step)
            if known:
                row = replace(row, capacity=allowed.value, steps=(step, allowed))
            else:
                row = replace(row, why="the class of the sealant is not given")
            rows.append(row)
    if limits.below_clearance is not None:
        free = column(limits.below_clearance)
        rows.append(replace(_joint(SPACE_BELOW, "geometry", moved), capacity=free))
    return rows


def _joint(link: Link, clause: str, moved: Step) -> Check:
    """A movement, in, against nothing yet."""
    return Check(
        link=link,
        place=WALL_LINE,
        clause=clause,
        demand=moved.value,
        capacity=None,
        unit="in",
        steps=(moved,),
    )


def _ratio(checks: list[Check], kind: Kind, place: str) -> Array:
    """Largest ratio of a kind at a place, a column: summed over the layers of a bearing, which all
    give; of a chain of links the weakest; 0 without a capacity."""
    total = np.zeros((1, 1))
    for check in checks:
        here = check.kind == kind and check.place == place
        if here and check.capacity is not None and check.rule != "fail":
            largest = check.largest_ratio.reshape(-1, 1)
            largest = np.where(np.isfinite(largest), largest, 0.0)
            total = np.maximum(total, largest) if kind.chained else total + largest
    return total
