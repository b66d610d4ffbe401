"""Faults that lie between the keys of a case."""

import math
from collections.abc import Iterator, Mapping
from typing import Any

from outrigger.base.errors import InputError
from outrigger.base.quantity import NONE, length
from outrigger.base.units import psf
from outrigger.cases.below import width_of
from outrigger.cases.below_faults import below_faults
from outrigger.cases.bounds import LEAST_SPACING_IN, SPACINGS_IN
from outrigger.cases.faults import Fault
from outrigger.cases.hold_down_faults import fastener_faults, hold_down_faults
from outrigger.cases.snow_faults import snow_faults
from outrigger.wood import adjusted as adjust
from outrigger.wood import lumber

LEAST_SDS_OF_B = 0.167  # ASCE 7 Table 11.6-1, from memory
LONGEST_RUN_IN = 2400.0  # of a wall


def cross_faults(parts: Mapping[str, Any]) -> Iterator[Fault]:
    """Faults that lie between keys; parts that are faulty by themselves are None or absent."""
    if member := parts.get("outrigger"):
        yield from _member_faults(member)
    yield from hold_down_faults(parts)
    yield from fastener_faults(parts)
    yield from snow_faults(parts)
    roof, wind = parts.get("garage_roof"), parts.get("wind")
    quake = parts.get("seismic")
    if quake and quake.category in (NONE, "A") and (quake.sds or 0) >= LEAST_SDS_OF_B:
        text = f"= {quake.sds:g}: beside category {quake.category}, which asks for under 0.167."
        yield Fault("seismic.sds", text)
    if quake and quake.exempt and quake.category in ("D", "E", "F"):
        text = f"= true: beside category {quake.category}. ASCE 7 11.1.2 lets off A, B and C."
        yield Fault("seismic.exempt", text)
    if roof and roof.bearing and roof.span is None and roof.line is None:
        yield Fault(
            "garage_roof.span",
            "is not given, and is needed (or line) when it bears: "
            'what does the truss sheet say? "24 ft", say.',
        )
    if roof and not roof.bearing and roof.line is not None:
        yield Fault("garage_roof.line", "stands beside bearing = false: drop one of them.")
    if roof and not roof.bearing and roof.overhang:
        text = (
            f"= {length(roof.overhang)}: beside bearing = false. A roof that overhangs this wall "
            "stands on it: give its line loads and let it bear, or drop the overhang."
        )
        yield Fault("garage_roof.overhang", text)
    yield from _wind_faults(wind, parts.get("house_roof"), roof)
    yield from _layout_faults(parts.get("layout"), roof)
    yield from below_faults(parts)
    yield from _setback_faults(parts)
    house = parts.get("house_roof")
    if house and house.framing_at == []:
        text = "= []: names no rafter. Give the place of one at least, or leave the key out."
        yield Fault("house_roof.framing_at", text)


def _setback_faults(parts: Mapping[str, Any]) -> Iterator[Fault]:
    """A bearing that begins beyond what is below the edge."""
    gap, house, edge = (parts.get(name) for name in ("gap", "house_roof", "house_edge"))
    wide = house and house.edge_support_width
    if wide is None and edge:
        wide = width_of(edge)
    if gap and wide and gap.edge_setback >= wide:
        text = f"= {length(gap.edge_setback)}: beyond what is below, {length(wide)} wide."
        yield Fault("gap.edge_setback", f"{text} The outriggers would bear on nothing there.")


def _layout_faults(layout: Any, roof: Any) -> Iterator[Fault]:
    if not layout:
        return
    run = layout.run
    for i, point in enumerate(roof.point if roof else ()):
        if point.at > run:
            text = f"= {length(point.at)}: beyond the run of the layout, {length(run)}."
            yield Fault(f"garage_roof.point[{i}].at", text)
    if run > LONGEST_RUN_IN:
        text = f"= {length(run)}: over {length(LONGEST_RUN_IN)}; lay out one wall at a time."
        yield Fault("layout.run", text)
    if layout.first_mark is not None:
        if "start" in layout.model_fields_set:
            yield Fault("layout.first_mark", "stands beside start: give one of them.")
        if layout.first_mark >= run:
            text = f"= {length(layout.first_mark)}: beyond the run, {length(run)}."
            yield Fault("layout.first_mark", text)
    for i, opening in enumerate(layout.openings):
        key = f"layout.openings[{i}]"
        if opening.start >= opening.end:
            said = f"from {length(opening.start)} to {length(opening.end)}"
            yield Fault(key, f"{said}: from must be less than to.")
        elif opening.end > run:
            yield Fault(key, f"to {length(opening.end)}: beyond the run, {length(run)}.")
    for i, stock in enumerate(layout.stock):
        if stock <= layout.squaring:
            yield Fault(f"layout.stock[{i}]", f"= {length(stock)}: no more than squaring takes.")


def _wind_faults(wind: Any, house: Any, roof: Any) -> Iterator[Fault]:
    sheet = roof and ((roof.line and roof.line.W_up) or any(p.W_up for p in roof.point))
    if house and house.wind_uplift and wind and wind.uplift == 0 and not sheet:
        said = f"= {psf(house.wind_uplift):g} psf: beside wind.uplift = none. Wind that lifts"
        text = f"{said} the house roof lifts the garage roof too: give both or neither."
        yield Fault("house_roof.wind_uplift", text)
    if not wind or wind.speed is None:
        return
    if wind.uplift is not None or wind.down is not None:
        yield Fault("wind.speed", "stands beside uplift or down: give pressures or a speed.")
        return
    needed = ["exposure", "mean_height", "enclosure"]
    needed += ["least_plan"] if wind.method == "main" else []
    for key in needed:
        if getattr(wind, key) is None:
            yield Fault(f"wind.{key}", "is not given, and is needed with speed.")


def _member_faults(member: Any) -> Iterator[Fault]:
    try:
        wood = lumber.wood(member.species, member.grade, member.size)
        adjust.incising("Fb", wood, member.incised)
        adjust.repetitive(wood, member.repetitive)
        adjust.flat_use(wood, member.laid == "flat")
    except InputError as error:
        yield Fault(
            f"outrigger.{str(error).partition(' =')[0]}", f"={str(error).partition('=')[2]}"
        )
        return
    if member.repetitive and member.spacing > adjust.REPETITIVE_MOST_IN:
        text = "= true: NDS 4.3.9 asks for 24 in at most between members."
        yield Fault("outrigger.repetitive", text)
    yield from _too_close(member)
    _, depth = member.as_laid
    cut = member.top_notch + member.bottom_notch
    if cut >= depth:
        key = "top_notch" if member.top_notch >= member.bottom_notch else "bottom_notch"
        text = f"and its other notch cut through the {length(depth)} depth as laid."
        if not (member.top_notch and member.bottom_notch):
            text = f"cuts through the {length(depth)} depth as laid."
        yield Fault(f"outrigger.{key}", text)
    house = member.back_span + member.behind_back
    for i, place in enumerate(member.blocking or []):
        if isinstance(place, float) and place > house:
            text = f"= {length(place)}: beyond the member, which ends {length(house)} in the house."
            yield Fault(f"outrigger.blocking[{i}]", text)


def _too_close(member: Any) -> Iterator[Fault]:
    """A spacing that no outriggers can have, of a decimal point too many, say."""
    wide, _ = member.as_laid
    if member.spacing >= max(wide, LEAST_SPACING_IN):
        return
    said = f"is less than the outriggers are wide, {length(wide)}."
    if member.spacing >= wide:
        said = f"leaves no room for clips between outriggers {length(wide)} wide."
    meant = [one for one in SPACINGS_IN if math.isclose(one, 10 * member.spacing)]
    hint = f' Did you mean "{meant[0]:g} in"?' if meant else ""
    yield Fault("outrigger.spacing", f"= {member.spacing:g} in: {said}{hint}")
