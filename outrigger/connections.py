"""Hold-downs: what a listed clip or tie may carry."""

from outrigger.combinations import duration_factor
from outrigger.formula import Num, Step, formula, given, least

LISTED_FOR = {"wind": "W_up", "roof live": "Lr", "snow": "S", "live": "L", "dead": "D"}


@formula("T_cap", "lb", clause="listed value, lowered to the duration of the load")
def lowered_listing(T_listed: Num, CD: Num, CD_listed: Num) -> Num:
    """A listed value in a combination: lowered where its column is for a shorter load."""
    return T_listed * least(1, CD / CD_listed)


@formula("T_clip", "lb", clause="statics")
def per_clip(T_place: Num, n_clips: Num) -> Num:
    """Uplift on one clip of a place."""
    return T_place / n_clips


def rated_uplift(listed: Step, rated_for: str | None, CD: Num) -> Step:
    """Capacity of one listed clip in uplift, lb, for the CD of each combination.

    A listed value is for one column of load duration; it is lowered to a longer load by the ratio
    of the CDs and never raised. "any duration": steel governs, nothing is lowered. Column not
    known: as for wind, the most that can be lost.

    Source: NDS 2018 2.3.2 for the ratio; the lowering is our rule, on the safe side.
    """
    if rated_for == "any duration":
        note = f"{listed.note}: for any duration, steel governs"
        return given("T_cap", listed.value, "lb", listed.clause, note)
    column = rated_for or "wind"
    note = f"listed for {column}" + ("" if rated_for else ": column not given, wind taken")
    base = given("CD_listed", duration_factor(LISTED_FOR[column]), "", "NDS 2018 2.3.2", note)
    return lowered_listing.step(T_listed=listed, CD=CD, CD_listed=base)
