"""Forces along and across the outrigger at its hold-downs: sliding, tipping, and the roof's form.

A force along slides the outrigger over the sheathing; only hold-downs into framing resist it, and
friction is never counted. A force across is held at each place by its own reaction, and it tips
the member over sideways: blocking at edge and back takes that moment, or the member's own width.
"""

from dataclasses import replace

import numpy as np

from outrigger import connections
from outrigger.actions import BACK, EDGE, WALL_LINE, place_name
from outrigger.by_hand import Hand
from outrigger.case import Case, HoldDown
from outrigger.combine import Combined
from outrigger.desk import Desk
from outrigger.formula import Array, Check, Num, Step, formula, given
from outrigger.geometry import column

SHEATHING_ONLY = "sheathing only"
ESTIMATE = "an estimate of the earthquake's side force: ask the engineer"


@formula("M_roll", "lb-in", clause="statics")
def roll_moment(F_side: Num, d: Num) -> Num:
    """Moment that tips the member over sideways: a side force at its top."""
    return F_side * d


@formula("M_roll", "lb-in", clause="statics")
def roll_moment_at_edge(V_across: Num, R_across: Num, d: Num) -> Num:
    """Moment to the blocking at the edge: the arm's torque, and the reaction at the bottom."""
    return (V_across + R_across) * d / 2


@formula("M_roll", "lb-in", clause="statics")
def roll_moment_at_back(R_across: Num, d: Num) -> Num:
    """Moment to the blocking at the back: the reaction at the bottom of the member."""
    return R_across * d / 2


@formula("M_hold", "lb-in", clause="statics")
def own_width(R: Num, b: Num) -> Num:
    """Moment that the push on the house resists about the lower edge of the member."""
    return R * b / 2


def lateral_holds(case: Case) -> dict[str, HoldDown]:
    """Hold-downs into framing, by place: what resists sliding."""
    return {place_name(h.at, case): h for h in case.hold_down if h.into != SHEATHING_ONLY}


def along_at(case: Case, actions: Combined, place: str) -> Array | None:
    """Force along the member that one place may have to carry, lb; None: there is none.

    The edge, where it has a hold-down into framing, may carry all of it; else, and inward of the
    edge, each clip its share of all that stand in framing.
    """
    total = actions.side.N_all
    if total is None:
        return None
    holds = lateral_holds(case)
    if place not in holds:
        return np.zeros_like(total)
    if place == EDGE:
        return np.abs(total)
    return np.abs(total) * holds[place].count / sum(h.count for h in holds.values())


def across_at(model_places: list[str], actions: Combined, place: str) -> Array | None:
    """Force across the member at one place, lb; None: there is none."""
    if actions.side.R_across is None:
        return None
    return np.abs(actions.side.R_across[model_places.index(place)])


def lateral_capacity(desk: Desk, hold: HoldDown) -> Step | None:
    """What the listed clips of a place may carry sideways; None: no side value is given."""
    if hold.rated_lateral is None:
        return None
    source = hold.rated_source or "source not given"
    listed = given("F_listed", column(hold.rated_lateral), "lb", "listing", source)
    times = desk.clips.set.times
    return connections.rated_lateral(listed, hold.rated_for, times, float(hold.count))


def slides(desk: Desk) -> list[Check]:
    """Sliding along the slope, and across it at each place. Listed side values."""
    rows = _along(desk) + _across(desk)
    lateral = desk.model.loads.lateral
    if lateral is not None:
        why = f"{ESTIMATE}; the clips' side rating is not held to it"
        rows.append(
            Check("slide", EDGE, "statics", lateral.value, None, "lb", (lateral,), "earthquake",
                  "open", why)
        )  # fmt: skip
    return rows or [Check("slide", EDGE, "statics", np.zeros((1, 1)), 1.0, "lb", ())]


def _along(desk: Desk) -> list[Check]:
    total = desk.clips.side.N_all
    if total is None:
        return []
    holds = lateral_holds(desk.case)
    note = "along the member: no friction is counted"
    demand = given("F_along", np.abs(total), "lb", "statics", note)
    place = EDGE if EDGE in holds else BACK
    chosen = [holds[EDGE]] if EDGE in holds else list(holds.values())
    row = Check("slide", place, "listed value", demand.value, None, "lb", (demand,), "along")
    if not chosen:
        why = "no hold-down reaches framing: what keeps the outrigger from sliding is not known"
        return [desk.over(replace(row, why=why), desk.clips)]
    found = [lateral_capacity(desk, h) for h in chosen]
    caps = [cap for cap in found if cap is not None]
    if len(caps) < len(chosen):
        where = "at the edge, which may carry all of it," if EDGE in holds else "that resists it"
        why = f"no rated_lateral is given of the hold-down {where}"
        return [desk.over(replace(row, why=why), desk.clips)]
    whole = np.asarray(sum((cap.value for cap in caps[1:]), caps[0].value))
    if EDGE in holds:
        why = "the clips at the edge may carry all of it: more side rating there, or a stop"
        row = replace(row, why=why)
    return [desk.over(replace(row, capacity=whole, steps=(demand, *caps)), desk.clips)]


def _across(desk: Desk) -> list[Check]:
    rows, holds = [], lateral_holds(desk.case)
    names = [name for name, _ in desk.model.supports]
    for name in names:
        force = across_at(names, desk.clips, name)
        if force is None:
            return []
        demand = given("R_across", force, "lb", "statics", f"across the member at {name}")
        if desk.clip_side_hand is not None:
            demand = _reaction(desk.clip_side_hand, name, force)
        row = Check("slide", name, "listed value", force, None, "lb", (demand,), "across")
        cap = lateral_capacity(desk, holds[name]) if name in holds else None
        if cap is None:
            why = (
                "no rated_lateral is given of the hold-down here"
                if name in holds
                else "no hold-down into framing holds the outrigger sideways here"
            )
            row = replace(row, why=why)
        else:
            row = replace(row, capacity=cap.value, steps=(demand, cap))
        rows.append(desk.over(row, desk.clips))
    return rows


def _reaction(hand: Hand, name: str, force: Array) -> Step:
    """A reaction across by its closed form, its size."""
    closed = hand.edge_push() if name == EDGE else hand.back_pull()
    return replace(closed, symbol="R_across", value=force)


def rolls(desk: Desk) -> list[Check]:
    """Tipping over sideways. Statics.

    Blocked at edge and back: the moment handed to the blocking there, open until its fastening is
    given. Not blocked: the push at the edge over half the member's own width resists.
    """
    rows = []
    side = desk.main.side
    if side.R_across is not None and side.V_across is not None:
        rows += _blocked(desk) if blocked_both(desk.case) else _unblocked(desk)
    lateral = desk.model.loads.lateral
    if lateral is not None:
        moment = roll_moment.step(F_side=lateral, d=desk.d)
        why = f"{ESTIMATE}; the blocking and its nails must carry this moment"
        rows.append(
            Check("roll_over", EDGE, "statics", moment.value, None, "lb-in", (moment,),
                  "earthquake", "open", why)
        )  # fmt: skip
    return rows or [Check("roll_over", EDGE, "statics", np.zeros((1, 1)), 1.0, "lb-in", ())]


def blocked_both(case: Case) -> bool:
    """Whether blocking stands at edge and back; not given counts as blocked, and is listed."""
    stops = case.outrigger.blocking
    if stops is None:
        return True
    back = column(case.outrigger.back_span)
    places = {place_name(p, case) if p == 0 else p for p in stops}
    at_back = BACK in places or any(isinstance(p, float) and np.all(back == p) for p in stops)
    return EDGE in places and at_back


def _blocked(desk: Desk) -> list[Check]:
    side, rows = desk.main.side, []
    assert side.R_across is not None and side.V_across is not None
    V = given("V_across", np.abs(side.V_across), "lb", "statics", "at the top of the arm")
    if desk.side_hand is not None:
        V = replace(desk.side_hand.arm_shear(), symbol="V_across", value=V.value)
    for name, index in ((EDGE, -1), (BACK, 0)):
        R = given("R_across", np.abs(side.R_across[index]), "lb", "statics", f"at {name}")
        if desk.side_hand is not None:
            R = _reaction(desk.side_hand, name, np.asarray(R.value))
        if name == EDGE:
            moment = roll_moment_at_edge.step(V_across=V, R_across=R, d=desk.d)
        else:
            moment = roll_moment_at_back.step(R_across=R, d=desk.d)
        why = "the blocking carries this moment: give blocking_fastening, or ask the engineer"
        row = Check(
            "roll_over", name, "statics", moment.value, None, "lb-in", (moment,), "blocking"
        )
        rows.append(desk.over(replace(row, why=why)))
    return rows


def _unblocked(desk: Desk) -> list[Check]:
    side = desk.main.side
    assert side.R_across is not None and side.V_across is not None
    whole = np.abs(sum(side.R_across[1:], side.R_across[0]))
    F = given("F_side", whole, "lb", "statics", "across the member, at its top")
    moment = roll_moment.step(F_side=F, d=desk.d)
    push = given("R", np.maximum(desk.main.R[-1], 0.0), "lb", "statics", "pushes on the house here")
    hold = own_width.step(R=push, b=desk.b)
    why = "not blocked at edge and back: only its own width keeps it from tipping over; block it"
    row = Check(
        "roll_over", EDGE, "statics", moment.value, hold.value, "lb-in", (moment, hold), "own width"
    )
    return [replace(row, why=why, combinations=desk.main.set.all)]


def form(desk: Desk) -> list[Check]:
    """Rafters that are not tied fail by rule."""
    roof = desk.case.garage_roof
    if not roof.bearing or roof.form != "untied rafters":
        return []
    why = "untied rafters push the wall over: tie them, hang them on a ridge beam, or use trusses"
    return [Check("form", WALL_LINE, "statics", 1.0, 0.0, "", (), "", "fail", why)]
