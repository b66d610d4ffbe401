"""How long the loads of a combination last: CD of NDS 2.3.2 (ASD), lambda of NDS N.3.3 (LRFD)."""

from collections.abc import Mapping
from functools import cache

from outrigger.base import tables
from outrigger.wood.adjusted import Method

DURATIONS = {  # rows of NDS Table 2.3.2
    "D": "permanent",
    "L": "ten years",
    "S": "two months",
    "Lr": "seven days",
    "worker": "seven days",
    "W": "ten minutes",
    "H": "ten minutes",
    "A": "ten minutes",
    "E": "ten minutes",
}
N3 = "NDS 2018 Table N3"
NOT_IN_N3 = "not in NDS 2018 Table N3, by its nearest row"


@cache
def duration_factor(load: str) -> float:
    """CD of a load. NDS 2018 Table 2.3.2; a worker as a construction load."""
    return float(_duration(load)["CD"])


@cache
def _duration(load: str) -> tables.Row:
    key = load if load == "worker" else load.partition("_")[0]
    key = "W" if key == "Ev" else key
    return tables.load("load_duration").find(duration=DURATIONS[key])


def time_of(
    row: tables.Row, method: Method, factors: Mapping[str, float]
) -> tuple[float, str, str]:
    """CD of the shortest load of a combination, or lambda of its row; where it stands, how surely.

    factors: of each load in it, those left out zero.
    """
    if method == "ASD":
        shortest = max((part for part, f in factors.items() if f), key=duration_factor)
        return duration_factor(shortest), "NDS 2018 2.3.2", _duration(shortest)["status"]
    storage = bool(factors.get("L")) and bool(row["lam_storage"])
    status = row["lam_status"]
    source = N3 if status == tables.SEEN else NOT_IN_N3
    return float(row["lam_storage" if storage else "lam"]), source, status
