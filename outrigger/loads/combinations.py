"""Load combinations of ASCE 7 sections 2.3 and 2.4, each and each subset, with CD or lambda.

The parts that they factor are in `parts`, how each may lie on the back span in `patterns`, CD and
lambda in `times`.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from functools import cache
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from outrigger.base import tables
from outrigger.loads.parts import (
    ALONG_WALL,
    BLOWN,
    NAMES,
    PARTS,
    SHAKEN,
    SIDEWAYS,
    SNOW_CASES,
    WORDS,
)
from outrigger.loads.patterns import (
    HELPING_DEAD,
    dead_choices,
    on_back_span,
    point_choices,
    roof_choices,
    some_of,
    wind_choices,
)
from outrigger.loads.times import time_of
from outrigger.wood.adjusted import Method

Edition = Literal["ASCE 7-16", "ASCE 7-22"]
OURS = "one worker, a rule of our own"


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
    the back span enters as it is, and times 0.6 (ASD) or 0.9 (LRFD) where it may help. Of a mark's
    dead load what is not sure to lie there is taken off in the rows in which it helps, those with
    less than all of it. What point loads bring to one outrigger alone is there, and is not. Rain,
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
    roofs = [("", 0.0), *((k, float(f)) for k, f in kinds if float(f) and some_of(k, present))]
    winds = ["", *(w for w in ("W_up", "W_down") if float(row["W"]) and some_of(w, present))]
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


def _plain(load: str) -> str:
    """A load in words, its cases not told apart."""
    return WORDS["S" if load in SNOW_CASES else load]


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
    Ev, helps = factors.pop("Ev", 0.0) * Ev_per_D, factors["D"] < 1
    factors["D"] += Ev
    if helps and "D_less" in present:
        factors["D_less"] = factors["D"]
    for load, factor in (roof, wind):
        if load:
            named[load] = factor
    name = " + ".join(_term(load, factor) for load, factor in named.items()).replace("+ -", "- ")
    words = " + ".join(WORDS[load] for load in named)
    for on_roof in roof_choices(roof[0], present):
        for on_wind in wind_choices(wind[0], present, not roof[0], in_row):
            for back_dead, dead_words in dead_choices(factors["D_back"], method, present):
                helping_Ev = min(Ev, 0.0) if dead_words else Ev  # no help from the upward half
                full = {**factors, "D_back": back_dead + helping_Ev}
                said = [dead_words]
                for (load, factor), choice in ((roof, on_roof), (wind, on_wind)):
                    if load:
                        back = on_back_span(load)
                        full[load] = full.get(load, 0.0) + factor * choice.on_arm
                        full[back] = full.get(back, 0.0) + factor * choice.on_back
                        if choice.press:
                            full["W_press_back"] = factor * choice.press
                        said.append(f"{_plain(load)} {choice.words}" if choice.words else "")
                if Ev:
                    full["Ev"] = 1.0  # for CD only: the effect is in the dead load's factor
                for off, without in point_choices(present):
                    full["D_else"], full["W_else"] = off * full["D"], off * full.get("W_up", 0.0)
                    texts = [text for text in (*said, without) if text]
                    yield _combination(row, method, name, words, texts, full)


def _term(load: str, factor: float) -> str:
    text = NAMES[load]
    return text if factor == 1 else f"{factor:g}{text}"


def _combination(
    row: tables.Row,
    method: Method,
    name: str,
    words: str,
    said: list[str],
    full: dict[str, float],
) -> Combination:
    factors = tuple(full.get(part, 0.0) for part in PARTS)
    time, time_source, time_status = time_of(row, method, full)
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
    lies = [({"D_back": back}, said) for back, said in dead_choices(dead, method, present)]
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
