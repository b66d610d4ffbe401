"""What the case states and the program does not compute, where its parts contradict each other, and
clips off the framing."""

from outrigger.base.quantity import length
from outrigger.cases.hold_down import on_rafters
from outrigger.cases.model import Case
from outrigger.cases.weather import Drift, Sliding
from outrigger.loads.snow.rules import slope_of
from outrigger.loads.wind.components import edge_zones
from outrigger.marks.bays import crowded, over_openings, points_between
from outrigger.marks.near_edges import near_edges
from outrigger.marks.of_case import clips_off, missing, row_of
from outrigger.verdict.contradictions import contradictions

MOST_BEHIND_IN = 6.0  # behind the back clip, twice what is taken: common practice, no source
LEAST_REPEATED = 3  # members that share a load, NDS 2018 4.3.9
RIDGE_BEAM = (
    "garage_roof.point: the ridge beam on a gable wall (one of D none where it ends elsewhere)"
)


def not_covered(case: Case) -> list[str]:
    """Stated keys that the program does not compute yet: the verdict is then never a pass."""
    snow, roof = case.snow, case.garage_roof
    blown = case.wind.speed is not None
    drawn = isinstance(snow.drift, Drift) or isinstance(snow.sliding, Sliding)
    shed = drawn and (roof.line is not None or snow.ground is None)
    listed = {
        "snow.drift, sliding: their geometry without the ground snow, or beside a line load": shed,
        "wind.speed: a hip or one-way roof (pressures of a gable taken)": blown
        and roof.shape not in (None, "gable"),
        "wind.zone: no zone along the edge at the wall (taken as stated)": _off_edge(case),
        "outrigger.repetitive: Cr of a run of fewer than three (NDS 4.3.9)": _too_few(case),
        "house_roof.framing_spacing: which clips land on framing": not _lands(case),
        f"outrigger.behind_back: the house roof on it, {length(case.outrigger.behind_back)} behind "
        "the back clip": _roof_behind(case),
        RIDGE_BEAM: _beam_ends_here(case),
        "house_rafter.overhang: bending over its bearing, more than in the span": _far_out(case),
    }
    found = [text for text, stated in listed.items() if stated]
    found += [f"layout.openings: the header over them, {one}" for one in over_openings(case)]
    if close := crowded(case):
        said = ", ".join(close)
        found.append(f"clips without room for their feet: {said}")
    if between := points_between(case):
        found.append(
            f"garage_roof.point: the plate under it, between outriggers at {', '.join(between)}"
        )
    return found + _clips_off(case) + contradictions(case)


def _clips_off(case: Case) -> list[str]:
    """Clips that miss the framing that they are fastened into: which places, or which marks."""
    if case.layout is None:
        said = ", ".join(f"{at} {length(abs(off))}" for at, off in clips_off(case).items())
        return [f"clips off the framing: {said} from the middle of the rafter"] if said else []
    found = (("clips off the framing", missing(case)),
             ("fasteners too near the edge of the rafter", near_edges(case)))  # fmt: skip
    return [
        f"{said}: at mark{'s' if off[1:] else ''} {', '.join(map(str, off))}"
        for said, off in found
        if off
    ]


def _too_few(case: Case) -> bool:
    """Whether Cr is claimed for a run that does not hold three members, plies counted."""
    piece = case.outrigger
    if not piece.repetitive or case.layout is None:
        return False
    return len(row_of(case).pieces) * piece.plies < LEAST_REPEATED


def _roof_behind(case: Case) -> bool:
    """Whether the outrigger runs on so far behind its back clip that snow, live load or wind on the
    house roof there, which no row has, is of size: w b (1 + b / 2 Lb) at the clip."""
    house = case.house_roof
    snow = case.snow.ground if house.snow is None else house.snow
    suction = case.wind.speed if house.wind_uplift is None else house.wind_uplift
    loads = (house.live, snow, suction, house.wind_down)
    return case.outrigger.behind_back > MOST_BEHIND_IN and any(loads)


def _far_out(case: Case) -> bool:
    """Whether house rafters overhang so far that their own roof bends them most over the bearing:
    w lo^2 / 2 there, w l^2 / 8 in the span."""
    rafter = case.house_rafter
    return rafter is not None and rafter.span is not None and rafter.overhang > rafter.span / 2


def _beam_ends_here(case: Case) -> bool:
    """Whether a ridge beam may end on this wall, which carries no rafters, and nothing says so: it
    brings half of the roof between it and its next support."""
    roof = case.garage_roof
    beam = roof.form == "rafters with ridge beam" and not roof.bearing
    return beam and not roof.point


def _off_edge(case: Case) -> bool:
    """Whether the stated zone of the roof cannot stand along its edge at the wall."""
    roof, wind = case.garage_roof, case.wind
    if wind.speed is None or wind.method == "main" or wind.zone in (None, "worst"):
        return False
    theta = slope_of(roof.pitch or 0.0)
    return wind.zone not in edge_zones(
        case.basis.loads, theta, "eave" if roof.bearing else "gable end"
    )


def _lands(case: Case) -> bool:
    """Whether every outrigger lies over a parallel rafter, or the framing crosses or is not stated.

    Rafters that cross are looked at place by place; a layout, mark by mark.
    """
    house = case.house_roof
    none = house.framing_spacing is None and house.framing_at is None
    if case.hold_down and not any(map(on_rafters, case.hold_down)):
        return True  # blocks of their own, or the panel: no rafter is looked for
    if none or case.layout is not None or house.framing_parallel is False:
        return True
    if house.framing_at is not None or house.framing_spacing is None or house.framing_offset:
        return False
    over = case.outrigger.spacing / house.framing_spacing
    return abs(over - round(over)) < 1e-9
