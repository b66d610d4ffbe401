"""How the loads of a combination may lie: each on the arm, on the back span, on both; dead load on
the back span whole, or as much of it as may help."""

from msgspec import Struct

from outrigger.loads.parts import SNOW_CASES
from outrigger.wood.adjusted import Method

HELPING_DEAD: dict[Method, float] = {"ASD": 0.6, "LRFD": 0.9}


class Choice(Struct, frozen=True):
    """One way to lay a transient load: factors of its two parts, words, and of wind how much of it
    presses on the back span."""

    on_arm: float
    on_back: float
    words: str = ""
    press: float = 0.0


ALL = Choice(1, 1)
NOT_BACK = Choice(1, 0, "none on the back span")
ONLY_BACK = Choice(0, 1, "on the back span only")
WITH_SUCTION = Choice(1, 1, "with suction on the back span")
NO_SUCTION = Choice(1, 0)
WITH_PRESSURE = Choice(1, 0, "with pressure on the back span", 1)
ONLY_PRESSURE = Choice(0, 0, "pressing on the back span only", 1)
HALF_BACK = Choice(1, 0.5, "half on the back span")
HALF_ARM = Choice(0.5, 1, "half on the arm")


def on_back_span(load: str) -> str:
    """The part of a load on the back span; the cases of snow share one."""
    return f"{load.partition('_')[0]}_back"


def some_of(load: str, present: frozenset[str]) -> bool:
    """Whether any of a load is there, on the arm or on the back span."""
    if load == "W_down":
        return bool({load, "W_press_back"} & present)
    return load in present or (load not in SNOW_CASES and on_back_span(load) in present)


def roof_choices(load: str, present: frozenset[str]) -> tuple[Choice, ...]:
    """Roof live or snow on both parts, on one, and half of the balanced snow on one (ASCE 7 7.5).

    None on the arm but on the back span presses the back most, and with storage leaves the least
    compression beside a force along the member.
    """
    if not load or on_back_span(load) not in present or load not in present:
        return (ALL,)
    if load in SNOW_CASES:
        return (ALL, NOT_BACK)
    halves = (HALF_BACK, HALF_ARM) if load == "S" else ()
    return (ALL, NOT_BACK, *halves, ONLY_BACK)


def wind_choices(
    load: str, present: frozenset[str], alone: bool, in_row: bool
) -> tuple[Choice, ...]:
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


def point_choices(present: frozenset[str]) -> tuple[tuple[float, str], ...]:
    """Whether point loads that stand on one outrigger alone are taken off, and that in words."""
    if "D_else" not in present:
        return ((0.0, ""),)
    return ((0.0, ""), (1.0, "no point load"))


def dead_choices(
    factor: float, method: Method, present: frozenset[str]
) -> tuple[tuple[float, str], ...]:
    """Factors of the dead load on the back span: as it is, and where it may help; in words."""
    helping = HELPING_DEAD[method]
    if "D_back" not in present or factor <= helping:
        return ((factor, ""),)
    return ((factor, ""), (helping, f"dead on the back span x {helping:g}"))
