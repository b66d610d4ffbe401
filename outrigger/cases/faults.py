"""What is wrong with a case: faults, the error that names all of them, those between its keys."""

import json
import math
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from typing import Any

from msgspec import Struct

from outrigger.base.errors import InputError
from outrigger.base.plain import one_line
from outrigger.base.quantity import NONE, length
from outrigger.base.units import psf
from outrigger.cases.below_faults import below_faults
from outrigger.cases.block_faults import block_faults
from outrigger.cases.bounds import LEAST_APART_IN, LEAST_SPACING_IN, SPACINGS_IN
from outrigger.cases.hold_down import through
from outrigger.cases.weather import Drift, OnHouse
from outrigger.fasteners.dowel_bearing import read_steel
from outrigger.fasteners.trade_names import read_fastener
from outrigger.formula.numbers import pick
from outrigger.loads.snow.roof import by_risk_category, exposure_factor, thermal_factor
from outrigger.wood import adjusted as adjust
from outrigger.wood import lumber

LEAST_SDS_OF_B = 0.167  # ASCE 7 Table 11.6-1, from memory
SETTING = 0  # the line of a key that a setting has put over the file
LONGEST_RUN_IN = 2400.0  # of a wall


class Fault(Struct, frozen=True):
    """One thing wrong in a case file."""

    key: str
    text: str
    line: int | None = None
    file: str = ""  # that the line stands in, where it is another than the case's own

    @property
    def message(self) -> str:
        """For people, with the line when it is known."""
        line = f"{self.file} line" if self.file else "line"
        where = f"{line} {self.line}: " if self.line else "setting " if self.line == SETTING else ""
        return one_line(f"{where}{self.key}{' ' if self.key else ''}{self.text}")


def key_part(name: str) -> str:
    """One word of a key's path, as a file writes it: in quotes where it is no bare word."""
    return name if re.fullmatch(r"[\w\-]+", name) else json.dumps(name, ensure_ascii=False)


class CaseFaultsError(InputError):
    """Every fault of a case: `faults`, each with its key, its text, and its line where a file has
    one."""

    def __init__(self, name: str, faults: Sequence[Fault]) -> None:
        ordered = sorted(faults, key=lambda f: (f.file, f.line or 0))
        self.faults = tuple(dict.fromkeys(ordered))
        count = "1 fault" if len(self.faults) == 1 else f"{len(self.faults)} faults"
        lines = "\n".join(f"  {fault.message}" for fault in self.faults)
        super().__init__(f"{name}: {count}\n{lines}")


def shown(value: object) -> str:
    """A value as the file wrote it, near enough to be found there."""
    if isinstance(value, (bool, list)):
        return json.dumps(value, ensure_ascii=False, default=str)
    return f'"{value}"' if isinstance(value, str) else str(value)


def cross_faults(parts: Mapping[str, Any]) -> Iterator[Fault]:
    """Faults that lie between keys; parts that are faulty by themselves are None or absent."""
    if member := parts.get("outrigger"):
        yield from _member_faults(member)
    yield from _hold_down_faults(parts)
    yield from _fastener_faults(parts)
    yield from _snow_faults(parts)
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
    yield from (Fault(key, text) for key, text in below_faults(parts))
    house = parts.get("house_roof")
    if house and house.framing_at == []:
        text = "= []: names no rafter. Give the place of one at least, or leave the key out."
        yield Fault("house_roof.framing_at", text)


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
    depth = depth_as_laid(member)
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
    size = lumber.read_size(member.size)
    wide = size.d if member.laid == "flat" else member.plies * size.b
    if member.spacing >= max(wide, LEAST_SPACING_IN):
        return
    said = f"is less than the outriggers are wide, {length(wide)}."
    if member.spacing >= wide:
        said = f"leaves no room for clips between outriggers {length(wide)} wide."
    meant = [one for one in SPACINGS_IN if math.isclose(one, 10 * member.spacing)]
    hint = f' Did you mean "{meant[0]:g} in"?' if meant else ""
    yield Fault("outrigger.spacing", f"= {member.spacing:g} in: {said}{hint}")


def depth_as_laid(member: Any) -> float:
    """Depth of the member along the load, in."""
    size = lumber.read_size(member.size)
    return size.b if member.laid == "flat" else size.d


def _hold_down_faults(parts: Mapping[str, Any]) -> Iterator[Fault]:
    member, places = parts.get("outrigger"), parts.get("hold_down") or []
    if not places or not all(places) or member is None:
        return
    seen: set[object] = set()
    for i, place in enumerate(places):
        at = place.at
        beyond = at == "wall line" or (isinstance(at, float) and at > member.back_span)
        at = "back" if at == member.back_span else "edge" if at == 0 else at
        others = [0.0, float(member.back_span), *(a for a in seen if isinstance(a, float))]
        if beyond:
            text = f'= {shown(place.at)}: clips are at "back", "edge", or between them.'
            yield Fault(f"hold_down[{i}].at", text)
        elif at in seen:
            text = f"= {shown(at)}: stands twice; give one, with its count."
            yield Fault(f"hold_down[{i}].at", text)
        elif isinstance(at, float) and any(abs(at - x) < LEAST_APART_IN for x in others):
            yield Fault(f"hold_down[{i}].at", f"= {length(at)}: nearer than 1 in to another.")
        seen.add(at)
        if place.rated_uplift is None and place.rated_lateral is None and place.rated_for:
            yield Fault(
                f"hold_down[{i}].rated_for", "is given, but no rated_uplift or rated_lateral."
            )
    if "back" not in seen:
        yield Fault("hold_down", 'has no entry with at = "back": the innermost clip is the back.')


def _fastener_faults(parts: Mapping[str, Any]) -> Iterator[Fault]:
    """Fasteners and steel that are not read, and clips that say only half of them."""
    house, member = parts.get("house_roof"), parts.get("outrigger")
    if member:
        yield from (Fault(key, text) for key, text in block_faults(member))
    if house and house.sheathing_nail:
        yield from _unread("house_roof.sheathing_nail", house.sheathing_nail, read_fastener)
    for i, hold in enumerate(parts.get("hold_down") or []):
        if not hold:
            continue
        height = hold.side_height
        if through(hold):
            yield from _of_a_clip_alone(hold, f"hold_down[{i}]")
        if hold.side_fastener and hold.rated_uplift is None and height == "over the top":
            text = '= "over the top": belongs to a listed strap; give the height of the fasteners.'
            yield Fault(f"hold_down[{i}].side_height", text)
        if member and isinstance(height, float) and height > depth_as_laid(member):
            text = f"= {length(height)}: above the outrigger, {length(depth_as_laid(member))} deep."
            yield Fault(f"hold_down[{i}].side_height", text)
        for part in ("side", "deck"):
            key, text = f"hold_down[{i}].{part}_fastener", getattr(hold, f"{part}_fastener")
            count = getattr(hold, f"{part}_fasteners")
            if text:
                yield from _unread(key, text, read_fastener)
                if count is None:
                    yield Fault(f"{key}s", f"is not given: how many {text} in one clip?")
            elif count is not None:
                yield Fault(key, f"is not given, but {count} of them: name the fastener.")
        if hold.steel:
            yield from _unread(f"hold_down[{i}].steel", hold.steel, read_steel)


def _of_a_clip_alone(hold: Any, path: str) -> Iterator[Fault]:
    """Keys of a bent clip beside a screw down through the outrigger, which has neither leg nor
    side."""
    for key in ("side_fastener", "side_fasteners", "side_height", "leg_offset", "bend_held"):
        if getattr(hold, key):
            text = 'stands beside kind = "through", which has no side and no leg: drop one of them.'
            yield Fault(f"{path}.{key}", text)


def _unread(key: str, text: str, read: Callable[[str], object]) -> Iterator[Fault]:
    try:
        read(text)
    except InputError as error:
        said = str(error).removeprefix(f'"{text}": ')
        yield Fault(key, f'= "{text}": {said}')


def _snow_faults(parts: Mapping[str, Any]) -> Iterator[Fault]:
    snow, basis = parts.get("snow"), parts.get("basis")
    if not snow:
        return
    if snow.ground and snow.roof is not None:
        yield Fault("snow.roof", "stands beside ground: give the roof snow or the ground snow.")
    missing = {"exposure": snow.exposure, "thermal": snow.thermal or snow.roof_r}
    for key, words in (("exposure", "C, partially exposed"), ("thermal", "unheated")):
        if snow.ground and missing[key] is None:
            text = f'is not given, and is needed with ground: a number, or "{words}" and the like.'
            yield Fault(f"snow.{key}", text)
    if isinstance(snow.exposure, str):
        yield from _unread("snow.exposure", snow.exposure, exposure_factor)
    if isinstance(snow.thermal, str) and basis:
        yield from _unread("snow.thermal", snow.thermal, partial(thermal_factor, basis.loads))
    if snow.drift_line is not None and snow.drift is not None:
        other = "drift is none" if snow.drift == NONE else "[snow.drift] is given"
        yield Fault("snow.drift_line", f"stands beside drift ({other}): give one of them.")
    own, drawn = isinstance(snow.on_house, OnHouse), isinstance(snow.drift, Drift)
    if own and snow.on_house.step and drawn and snow.drift.on == "house roof":
        text = "stands beside snow.drift.house_step of the same step: give one of them."
        yield Fault("snow.on_house.step", text)
    if not basis:
        return
    modern = basis.loads == "ASCE 7-22"
    if modern and snow.importance is not None:
        yield Fault(
            "snow.importance", "ASCE 7-22 has none: its ground snow holds the risk category."
        )
    risk = basis.risk_category
    if not modern and risk and snow.importance is not None:
        needed = pick(by_risk_category(basis.loads, risk).value)
        if snow.importance < needed:
            said = f"= {snow.importance:g}: risk category {risk} asks for {needed:g} (Table 1.5-2)."
            yield Fault("snow.importance", f"{said} Leave one of the two out.")
    if modern and drawn and snow.drift.winter_wind is None:
        yield Fault("snow.drift.winter_wind", "is not given, and ASCE 7-22 needs it.")
    for name in ("drift", "on_house"):
        table = getattr(snow, name)
        if not modern and getattr(table, "winter_wind", None) is not None:
            yield Fault(f"snow.{name}.winter_wind", "belongs to ASCE 7-22, not to ASCE 7-16.")
    if not modern and snow.roof_r is not None:
        yield Fault("snow.roof_r", "belongs to ASCE 7-22, not to ASCE 7-16.")
