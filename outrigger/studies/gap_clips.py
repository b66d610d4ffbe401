"""Over a range of gaps the largest pull on one clip of each place, and the least listed value that
is enough."""

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from outrigger.actions.places import place_name
from outrigger.cases.model import Case
from outrigger.checks.hold_downs import RATED, hold_downs
from outrigger.checks.loaded_member import LoadedMember
from outrigger.formula.numbers import Array, Bools
from outrigger.studies import search
from outrigger.studies.kept import known

LOADED_ROWS = 300  # asked at once, of one check alone
CLIP_STEPS_LB = np.array([1.0, 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0])


def pulls(case: Case, fields: search.Fields, values: Array) -> dict[str, Array]:
    """Largest uplift on one clip of each place at any mark, lb, (gaps,)."""
    found: dict[str, Array] = {}
    for part, member, owner in search.every_load(case, fields(values)):
        for place, pull in pulls_of(member).items():
            largest = found.setdefault(place, np.zeros(len(values)))
            np.maximum.at(largest[part], owner, pull)
    return found


def pulls_of(member: LoadedMember) -> dict[str, Array]:
    """Largest uplift on one clip of each place, lb, (cases,) or (1,)."""
    return {
        place: np.max(table / member.batch.clips(member.holds[place]), axis=1)
        for place, table in member.clips.uplift.items()
        if place in member.holds
    }


def listed(case: Case, fields: search.Fields, values: Array) -> dict[str, list[float | None]]:
    """By place of rated clips: the least listed value that is enough at each gap, whole pounds."""
    found: dict[str, list[float | None]] = {}
    for hold in case.hold_down:
        place = place_name(hold.at, case.outrigger.back_span)
        ratio, unit = _clip_ratio(case, fields(values), place, len(values))
        if hold.rated_uplift is None or unit is None:
            continue
        if unit == "lb" and hold.rated_uplift:  # pull alone: it goes with one over the listed value
            needed = np.ceil(hold.rated_uplift * ratio)
            needed = np.where(needed <= CLIP_STEPS_LB[-1], needed, np.nan)
        else:
            path = f"hold_down[{hold.name}].rated_uplift"
            needed = _searched_listing(case, fields(values), path, place, len(values))
        found[place] = [known(float(one)) for one in needed]
    return found


def _clip_ratio(
    case: Case, swept: Mapping[str, Array], place: str, cases: int
) -> tuple[Array, str | None]:
    """Largest ratio of a rated clip at any mark, (cases,), and its unit; None: no such check."""
    ratio, unit = np.zeros(cases), None
    for part, member, owner in search.every_load(case, swept):
        for check in hold_downs(member):
            if (check.link, check.place) == (RATED, place):
                unit = check.unit
                np.maximum.at(ratio[part], owner, check.largest_ratio)
    return ratio, unit


def _searched_listing(
    case: Case, at_gaps: Mapping[str, Array], path: str, place: str, cases: int
) -> Array:
    """The least listing by search, where a side force takes its own part of the clip."""

    def answer(which: NDArray[np.intp], pounds: Array) -> Bools:
        swept = {name: column[which] for name, column in at_gaps.items()}
        ratio, _ = _clip_ratio(case, {**swept, path: pounds}, place, len(pounds))
        return ratio <= 1

    return search.least_of_each(answer, cases, CLIP_STEPS_LB, 1.0, LOADED_ROWS)
