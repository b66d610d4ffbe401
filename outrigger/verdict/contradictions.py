"""What one place of a case says, and another says is not so: the verdict is then never a pass."""

from collections.abc import Iterator

from outrigger.cases.below import Carries
from outrigger.cases.model import Case
from outrigger.cases.weather import Drift, OnHouse
from outrigger.verdict.unsaid import no_uplift

HAIR_IN = 1e-6


def contradictions(case: Case) -> list[str]:
    """Each by its key: loads of the truss sheet, of the roof over the gap and of the house roof;
    heights and lengths of the buildings."""
    return [
        *_weightless(case), *_lengths(case), *_heights(case), *_snow_on_the_house(case),
        *_truss_sheet(case), *_points(case),
    ]  # fmt: skip


def _weightless(case: Case) -> Iterator[str]:
    """A roof or a wall that weighs nothing: less weight may relieve, and more may not be there."""
    roof, wall = case.garage_roof, case.garage_wall
    if roof.bearing and roof.line is None and roof.dead == 0:
        yield "garage_roof.dead: none, and a roof weighs something"
    if wall.height and wall.dead == 0:
        yield "garage_wall.dead: none, and a wall weighs something"


def _lengths(case: Case) -> Iterator[str]:
    """A garage roof that is shorter, where snow blows off it or lies on it, than its own span."""
    snow, span = case.snow, case.garage_roof.span or 0.0
    for key, table in (("drift", snow.drift), ("on_house", snow.on_house)):
        if isinstance(table, Drift | OnHouse) and span > (table.garage_length or span):
            yield f"snow.{key}.garage_length: shorter than the roof's span"


def _heights(case: Case) -> Iterator[str]:
    """A step over the house roof, or a mean roof height, that is less than the garage wall."""
    snow, high = case.snow, (case.garage_wall.height or 0.0) - HAIR_IN
    stated = {"wind.mean_height": case.wind.mean_height}
    if isinstance(snow.on_house, OnHouse):
        stated["snow.on_house.step"] = snow.on_house.step
    if isinstance(snow.drift, Drift) and snow.drift.on == "house roof":
        stated["snow.drift.house_step"] = snow.drift.house_step
    for key, value in stated.items():
        if value is not None and value < high:
            yield f"{key}: less than the garage wall is high"


def _snowless(case: Case) -> bool:
    snow = case.snow
    return (snow.ground is not None or snow.roof is not None) and not (snow.ground or snow.roof)


def _snow_on_the_house(case: Case) -> Iterator[str]:
    line, below = case.garage_roof.line, case.house_edge and case.house_edge.carries
    if not _snowless(case):
        return
    if case.house_roof.snow and not (line and line.S):
        yield "house_roof.snow: beside none of it on the garage roof"
    if isinstance(below, Carries) and below.S:
        yield "house_edge.carries.S: beside none of it on the garage roof"


def _none_on_the_roof(case: Case) -> dict[str, bool]:
    """Whether the roof has none of a load, by the file's word."""
    roof, wind = case.garage_roof, case.wind
    return {
        "S": _snowless(case),
        "W_up": no_uplift(case),
        "W_down": wind.down == 0,
        "Lr": roof.live is not None and not roof.live,
    }


def _points(case: Case) -> Iterator[str]:
    """Loads of a point load that are none on the roof that it is of: one site has one of each."""
    for part, is_none in _none_on_the_roof(case).items():
        if is_none and any(getattr(point, part) for point in case.garage_roof.point):
            yield f"garage_roof.point {part}: beside none of it on the garage roof"


def _truss_sheet(case: Case) -> Iterator[str]:
    """Loads that are none in its reactions and some on the roof that they are of, or the other way
    about where the roof over the gap has the load too."""
    line, roof, snow, wind = case.garage_roof.line, case.garage_roof, case.snow, case.wind
    if line is None:
        return
    for part, is_none in _none_on_the_roof(case).items():
        if is_none and getattr(line, part):
            yield f"garage_roof.line.{part}: beside none of it on the roof over the gap"
    some = {
        "S": snow.ground or snow.roof,
        "W_up": wind.uplift or wind.speed,
        "W_down": wind.down or wind.speed,
        "Lr": roof.live,
        "D": roof.dead,
    }
    for part, stated in some.items():
        if getattr(line, part) == 0 and stated:
            yield f"garage_roof.line.{part}: none, beside some on the roof over the gap"
    if roof.storage and line.L == 0:
        yield "garage_roof.line.L: none, beside storage on the garage roof"
