"""Load combinations of ASCE 7 sections 2.3 and 2.4, each and each subset, with CD or lambda.

Loads come in parts, since the back span may carry its live, snow or wind or not, and its dead
load helps or harms:

    D       dead on the wall line and the arm        D_back  dead on the back span, with its
                                                             own weight
    worker  300 lb at the end                        D_own   its own weight there, while nothing
                                                             else lies on it yet
    L       attic storage on the wall line
    Lr, S   on the wall line and the arm             Lr_back, S_back
    W_up, W_down  on the wall line and the arm       W_back, W_press_back  wind there: suction,
                                                             pressure
    H_away, H_toward  wind square to the garage wall, away from the house and toward it
    A_one, A_other  force along the garage wall, one way (down a slope across it) and the other
    E_away, E_toward  earthquake square to the garage wall, away from the house and toward it

Snow that lies otherwise than balanced is a case of its own: S_min (minimum for low slopes), S_near
and S_far (unbalanced, heavy on this or the other side of the ridge), S_lee and S_wind (drifted
against the house), S_slide (slid off the house), S_house (drifted on the house roof against the
garage wall), S_shed (slid off the garage onto the house roof). Each holds all the snow of its case
on wall line and arm; S_back goes with each.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from functools import cache
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from outrigger.base import tables
from outrigger.wood.adjusted import Method

Edition = Literal["ASCE 7-16", "ASCE 7-22"]

SNOW_CASES = ("S_min", "S_near", "S_far", "S_lee", "S_wind", "S_slide", "S_house", "S_shed")
PARTS = (
    "D", "D_back", "D_own", "L", "Lr", "Lr_back", "S", *SNOW_CASES, "S_back",
    "W_up", "W_down", "W_back", "W_press_back", "worker", "H_away", "H_toward", "A_one", "A_other",
    "E_away", "E_toward",
)  # fmt: skip
ALONG_WALL = ("A_one", "A_other")
SHAKEN = ("E_away", "E_toward")
BLOWN = ("H_away", "H_toward", *ALONG_WALL)
SIDEWAYS = (*BLOWN, *SHAKEN)  # one at a time: one wind or earthquake, one direction
WORDS = {
    "D": "dead",
    "L": "storage",
    "Lr": "roof live",
    "S": "snow",
    "S_min": "minimum snow",
    "S_near": "unbalanced snow, heavy on this side",
    "S_far": "unbalanced snow, heavy on the far side",
    "S_lee": "snow drifted off the house roof",
    "S_wind": "snow drifted across the garage roof",
    "S_slide": "snow slid off the house roof",
    "S_house": "snow drifted on the house roof",
    "S_shed": "snow slid off the garage roof",
    "W_up": "wind up",
    "W_down": "wind down",
    "W_press": "wind pressing",
    "Ev": "earthquake",
    "worker": "one worker at the end",
    "H_away": "wall wind away from the house",
    "H_toward": "wall wind toward the house",
    "A_one": "force along the wall",
    "A_other": "force back along the wall",
    "E_away": "earthquake away from the house",
    "E_toward": "earthquake toward the house",
}
NAMES = {
    **{part: part for part in ("D", "L", "Lr", "S", "Ev")},
    "W_up": "W up", "W_down": "W down",
    "H_away": "H away", "H_toward": "H toward", "A_one": "A", "A_other": "A back",
    "E_away": "E away", "E_toward": "E toward",
    "S_min": "S minimum", "S_near": "S unbalanced near", "S_far": "S unbalanced far",
    "S_lee": "S drift leeward", "S_wind": "S drift windward", "S_slide": "S sliding",
    "S_house": "S drift on the house", "S_shed": "S slid on the house",
}  # fmt: skip
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
OURS = "one worker, a rule of our own"
NOT_IN_N3 = "not in NDS 2018 Table N3, by its nearest row"
HELPING_DEAD: dict[Method, float] = {"ASD": 0.6, "LRFD": 0.9}


class Combination(Struct, frozen=True, cache_hash=True):
    """Factors of the parts, with CD (ASD) or lambda (LRFD) as `time`.

    `name` is as the standard prints it; `pattern` says in words what differs on the back span.
    `section` and `id` say where the load factors stand, `status` how surely; `time_source` and
    `time_status` the same of `time`. `ours`: a case of our own, which no standard lists.
    """

    name: str
    words: str
    pattern: str
    factors: tuple[float, ...]
    time: float
    section: str
    id: str
    status: str
    time_source: str
    time_status: str
    ours: bool = False

    @property
    def source(self) -> str:
        """Where the load factors stand."""
        return OURS if self.ours else f"{self.section} combination {self.id}"

    @property
    def text(self) -> str:
        """Name with its pattern."""
        return f"{self.name}, {self.pattern}" if self.pattern else self.name


class _Choice(Struct, frozen=True):
    """One way to lay a transient load: factors of its two parts, words, and of wind how much of it
    presses on the back span."""

    on_arm: float
    on_back: float
    words: str = ""
    press: float = 0.0


ALL = _Choice(1, 1)
NOT_BACK = _Choice(1, 0, "none on the back span")
ONLY_BACK = _Choice(0, 1, "on the back span only")
WITH_SUCTION = _Choice(1, 1, "with suction on the back span")
NO_SUCTION = _Choice(1, 0)
WITH_PRESSURE = _Choice(1, 0, "with pressure on the back span", 1)
ONLY_PRESSURE = _Choice(0, 0, "pressing on the back span only", 1)
HALF_BACK = _Choice(1, 0.5, "half on the back span")
HALF_ARM = _Choice(0.5, 1, "half on the arm")


@cache
def duration_factor(load: str) -> float:
    """CD of a load. NDS 2018 Table 2.3.2; a worker as a construction load."""
    return float(_duration(load)["CD"])


@cache
def _duration(load: str) -> tables.Row:
    key = load if load == "worker" else load.partition("_")[0]
    key = "W" if key == "Ev" else key
    return tables.load("load_duration").find(duration=DURATIONS[key])


@cache
def combinations(
    edition: Edition,
    method: Method,
    present: frozenset[str],
    Ev_per_D: float = 0.0,
    net_up: float = 0.0,
    in_row: bool = False,
) -> tuple[Combination, ...]:
    """Every combination and every subset with a transient load left out, of the parts present.

    CD is that of the shortest load in the subset; lambda stays with the combination. Dead load on
    the back span enters as it is, and times 0.6 (ASD) or 0.9 (LRFD) where it may help. Rain,
    flood and ice are not computed. Duplicates are left out.

    Args:
        edition, method, present: which rows; the parts that are not zero.
        Ev_per_D: vertical seismic effect per dead load, 0.2 SDS; 0: no seismic rows.
        net_up: net upward load on the arm per its dead load, a case of its own; 0: none.
        in_row: more than two places hold the member; load on the arm then presses some of them, or
            keeps down an edge that would lift off, so that fewer ways to lie can be left out.

    Source: ASCE 7-16 or 7-22 2.3.1, 2.3.6, 2.4.1, 2.4.5, 12.4.4; NDS 2018 2.3.2, N.3.3.
    """
    found: dict[tuple[tuple[float, ...], float], Combination] = {}
    rows = tables.load("load_combinations").matching(edition=edition, method=method)
    for row in rows:
        if not float(row["Ev"] or 0) or Ev_per_D:
            for one in _subsets(row, method, present, Ev_per_D, in_row):
                found.setdefault((one.factors, one.time), one)
    extra = [*(_worker(method, present) if "worker" in present else ())]
    extra += _net_up(edition, method, net_up) if net_up else ()
    for one in extra:
        found.setdefault((one.factors, one.time), one)
    return _told_apart(found.values())


def _told_apart(found: Iterable[Combination]) -> tuple[Combination, ...]:
    """Combinations of one name and several lambdas, each with its lambda in the name."""
    rows = list(found)
    names = Counter(one.text for one in rows)
    apart = []
    for one in rows:
        if names[one.text] > 1:
            said = ", ".join(part for part in (one.pattern, f"lambda {one.time:g}") if part)
            one = replace(one, pattern=said)
        apart.append(one)
    return tuple(apart)


def _subsets(
    row: tables.Row, method: Method, present: frozenset[str], Ev_per_D: float, in_row: bool
) -> Iterator[Combination]:
    """The combination of a table row with each choice of its transient loads."""
    dead = float(row["D"])
    snows = ("S", *SNOW_CASES)
    kinds = [("Lr", row["Lr"]), *((snow, row["S"]) for snow in snows)]
    roofs = [("", 0.0), *((k, float(f)) for k, f in kinds if float(f) and _any(k, present))]
    winds = ["", *(w for w in ("W_up", "W_down") if float(row["W"]) and _any(w, present))]
    for storage in (False, True) if float(row["L"]) and "L" in present else (False,):
        for roof in roofs:
            for wind in winds:
                factors = {"D": dead, "D_back": dead}
                if float(row["Ev"]):
                    factors["Ev"] = float(row["Ev"])
                if storage:
                    factors["L"] = float(row["L"])
                on_wind = (wind, float(row["W"]) if wind else 0.0)
                for side in _sideways(row, present):
                    every = {**factors, **side}
                    yield from _patterns(
                        row, method, present, every, roof, on_wind, Ev_per_D, in_row
                    )


def _sideways(row: tables.Row, present: frozenset[str]) -> list[dict[str, float]]:
    """No side force, and each one alone: H with wind, E with earthquake, A with either."""
    found: list[dict[str, float]] = [{}]
    for side in SIDEWAYS:
        quake = float(row["Eh"] or 0) if side in (*ALONG_WALL, *SHAKEN) else 0.0
        factor = (float(row["W"]) if side in BLOWN else 0.0) or quake
        if side in present and factor:
            found.append({side: factor})
    return found


def _back(load: str) -> str:
    """The part of a load on the back span; the cases of snow share one."""
    return f"{load.partition('_')[0]}_back"


def _plain(load: str) -> str:
    """A load in words, its cases not told apart."""
    return WORDS["S" if load in SNOW_CASES else load]


def _any(load: str, present: frozenset[str]) -> bool:
    if load == "W_down":
        return bool({load, "W_press_back"} & present)
    return load in present or (load not in SNOW_CASES and _back(load) in present)


def _patterns(
    row: tables.Row,
    method: Method,
    present: frozenset[str],
    factors: dict[str, float],
    roof: tuple[str, float],
    wind: tuple[str, float],
    Ev_per_D: float,
    in_row: bool,
) -> Iterator[Combination]:
    """One subset with every way its loads may lie on the back span."""
    named = {**factors}
    named.pop("D_back")
    Ev = factors.pop("Ev", 0.0) * Ev_per_D
    factors["D"] += Ev
    for load, factor in (roof, wind):
        if load:
            named[load] = factor
    name = " + ".join(_term(load, factor) for load, factor in named.items()).replace("+ -", "- ")
    words = " + ".join(WORDS[load] for load in named)
    for on_roof in _roof_choices(roof[0], present):
        for on_wind in _wind_choices(wind[0], present, not roof[0], in_row):
            for back_dead, dead_words in _dead_choices(factors["D_back"], method, present):
                helping_Ev = min(Ev, 0.0) if dead_words else Ev  # no help from the upward half
                full = {**factors, "D_back": back_dead + helping_Ev}
                said = [dead_words]
                for (load, factor), choice in ((roof, on_roof), (wind, on_wind)):
                    if load:
                        back = _back(load)
                        full[load] = full.get(load, 0.0) + factor * choice.on_arm
                        full[back] = full.get(back, 0.0) + factor * choice.on_back
                        if choice.press:
                            full["W_press_back"] = factor * choice.press
                        said.append(f"{_plain(load)} {choice.words}" if choice.words else "")
                if Ev:
                    full["Ev"] = 1.0  # for CD only: the effect is in the dead load's factor
                yield _combination(row, method, name, words, [s for s in said if s], full)


def _term(load: str, factor: float) -> str:
    text = NAMES[load]
    return text if factor == 1 else f"{factor:g}{text}"


def _roof_choices(load: str, present: frozenset[str]) -> tuple[_Choice, ...]:
    """Roof live or snow on both parts, on one, and half of the balanced snow on one (ASCE 7 7.5).

    None on the arm but on the back span presses the back most, and with storage leaves the least
    compression beside a force along the member.
    """
    if not load or _back(load) not in present or load not in present:
        return (ALL,)
    if load in SNOW_CASES:
        return (ALL, NOT_BACK)
    halves = (HALF_BACK, HALF_ARM) if load == "S" else ()
    return (ALL, NOT_BACK, *halves, ONLY_BACK)


def _wind_choices(
    load: str, present: frozenset[str], alone: bool, in_row: bool
) -> tuple[_Choice, ...]:
    """Wind on the arm with suction on the back span, with pressure on it, or without either.

    Between suction and pressure lies none of both: it is looked at where one of them is not given.
    Suction there alone, beside a load of the roof, is less than with wind pressing the arm down: on
    two supports; in a row, where the edge may lift off, each of them is looked at. Pressure there
    alone always: it takes the pull off a clip and leaves the force along, at whose lesser angle a
    fastener takes less (NDS 2018 12.4).
    """
    if not load or (load == "W_up" and load not in present):
        return (ALL,)
    sucked, pressed = "W_back" in present, "W_press_back" in present
    pressing = (WITH_PRESSURE,) if pressed else ()
    if load == "W_down":
        if load not in present:
            return pressing
        only = (ONLY_PRESSURE,) if pressed else ()
        if not sucked:
            return (ALL, *pressing, *only)
        neither = (NO_SUCTION,) if in_row or not pressed else ()
        return (WITH_SUCTION, *pressing, *neither, *only)
    if not sucked:
        return (ALL, *pressing)
    only = (ONLY_BACK,) if in_row or alone or "W_down" not in present else ()
    neither = (NOT_BACK,) if in_row or not pressed else ()
    return (ALL, *pressing, *neither, *only)


def _dead_choices(
    factor: float, method: Method, present: frozenset[str]
) -> tuple[tuple[float, str], ...]:
    helping = HELPING_DEAD[method]
    if "D_back" not in present or factor <= helping:
        return ((factor, ""),)
    return ((factor, ""), (helping, f"dead on the back span x {helping:g}"))


def _combination(
    row: tables.Row,
    method: Method,
    name: str,
    words: str,
    said: list[str],
    full: dict[str, float],
) -> Combination:
    factors = tuple(full.get(part, 0.0) for part in PARTS)
    if method == "ASD":
        shortest = max((part for part, f in full.items() if f), key=duration_factor)
        time, time_status = duration_factor(shortest), _duration(shortest)["status"]
        time_source = "NDS 2018 2.3.2"
    else:
        storage = bool(full.get("L")) and bool(row["lam_storage"])
        time, time_status = float(row["lam_storage" if storage else "lam"]), row["lam_status"]
        time_source = N3 if time_status == tables.SEEN else NOT_IN_N3
    return Combination(
        name=name,
        words=words,
        pattern=", ".join(said),
        factors=factors,
        time=time,
        section=f"{row['edition']} {row['ref']}",
        id=row["id"],
        status=row["status"],
        time_source=time_source,
        time_status=time_status,
    )


def _worker(method: Method, present: frozenset[str]) -> Iterator[Combination]:
    """D + worker, never with roof live; again before the roof lies on the back span, where the
    member's own weight alone helps."""
    row = {"edition": "worker", "ref": "at the end,", "id": "own case", "lam": "0.8"}
    row |= {"lam_storage": "", "lam_status": tables.MEMORY, "status": tables.MEMORY}
    dead, load = (1.0, 1.0) if method == "ASD" else (1.2, 1.6)
    name = "D + worker" if method == "ASD" else "1.2D + 1.6 worker"
    lies = [({"D_back": back}, said) for back, said in _dead_choices(dead, method, present)]
    for on_back, said in (*lies, ({"D_own": HELPING_DEAD[method]}, "before the roof is on")):
        factors = {"D": dead, **on_back, "worker": load}
        words = [said] if said else []
        one = _combination(row, method, name, "dead + one worker at the end", words, factors)
        yield replace(one, ours=True)


def _net_up(edition: Edition, method: Method, share: float) -> Iterator[Combination]:
    """Net upward load on the arm, alone, with and without the dead load of the back span."""
    row = {"edition": edition, "ref": "12.4.4", "id": "net upward", "lam": "1.0"}
    row |= {"lam_storage": "", "lam_status": tables.MEMORY, "status": tables.MEMORY}
    for back, said in ((0.0, "nothing on the back span"), (1.0, "")):
        factors = {"D": -share, "D_back": back, "Ev": 1.0}
        words = [said] if said else []
        yield _combination(row, method, f"-{share:g}D net up", "earthquake, net up", words, factors)
