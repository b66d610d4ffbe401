"""Hold-downs: what a listed clip or tie may carry."""

from msgspec import Struct

from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Num, least, sqrt
from outrigger.loads.times import duration_factor

LISTED_FOR = {"wind": "W_up", "roof live": "Lr", "snow": "S", "live": "L", "dead": "D"}


@formula("T_cap", "lb", clause="listed value, lowered to the duration of the load")
def lowered_listing(T_listed: Num, CD: Num, CD_listed: Num) -> Num:
    """A listed value in a combination: lowered where its column is for a shorter load."""
    return T_listed * least(1, CD / CD_listed)


@formula("F_place", "lb", clause="listed value, lowered to the duration of the load")
def lowered_lateral(F_listed: Num, CD: Num, CD_listed: Num, n_clips: Num) -> Num:
    """Listed side values of the clips of a place, lowered as the uplift is."""
    return F_listed * least(1, CD / CD_listed) * n_clips


@formula("F_place", "lb", clause="listed value")
def lateral_of_place(F_listed: Num, n_clips: Num) -> Num:
    """Listed side values of the clips of a place, steel governing."""
    return F_listed * n_clips


@formula("F_result", "lb", clause="statics")
def resultant(F_along: Num, F_across: Num) -> Num:
    """Force along and across together."""
    return sqrt(F_along**2 + F_across**2)


@formula("r_listed", "", clause="listed values, linear interaction")
def pull_and_slide(T_clip: Num, T_cap: Num, F_result: Num, F_place: Num) -> Num:
    """Pull of one clip and side force of its place together, against their listed values."""
    return T_clip / T_cap + F_result / F_place


@formula("T_clip", "lb", clause="statics")
def per_clip(T_place: Num, n_clips: Num) -> Num:
    """Uplift on one clip of a place."""
    return T_place / n_clips


def rated_lateral(listed: Step, rated_for: str | None, CD: Num, count: Num) -> Step:
    """Capacity of the listed clips of a place along or across, lb, lowered as `rated_uplift`."""
    if rated_for == "any duration":
        return lateral_of_place.step(F_listed=listed, n_clips=count)
    base = _listed_duration(rated_for)
    return lowered_lateral.step(F_listed=listed, CD=CD, CD_listed=base, n_clips=count)


def _listed_duration(rated_for: str | None) -> Step:
    column = rated_for or "wind"
    note = f"listed for {column}" + ("" if rated_for else ": column not given, wind taken")
    return given("CD_listed", duration_factor(LISTED_FOR[column]), "", "NDS 2018 2.3.2", note)


class Listed(Struct, frozen=True, eq=False):
    """A listed uplift, lb: as it stands in the listing, and as it counts in each combination.

    `duration`: CD of the loads it is listed for; None: for any duration, nothing is lowered.
    """

    value: Step
    cap: Step
    duration: Step | None = None


def rated_uplift(listed: Step, rated_for: str | None, CD: Num) -> Listed:
    """Capacity of one listed clip in uplift, lb, for the CD of each combination.

    A listed value is for one column of load duration; it is lowered to a longer load by the ratio
    of the CDs and never raised. "any duration": steel governs, nothing is lowered. Column not
    known: as for wind, the most that can be lost.

    Source: NDS 2018 2.3.2 for the ratio; the lowering is our rule, on the safe side.
    """
    if rated_for == "any duration":
        note = f"{listed.note}: for any duration, steel governs"
        return Listed(listed, given("T_cap", listed.value, "lb", listed.clause, note))
    base = _listed_duration(rated_for)
    return Listed(listed, lowered_listing.step(T_listed=listed, CD=CD, CD_listed=base), base)
