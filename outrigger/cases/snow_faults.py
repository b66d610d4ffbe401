"""Faults between the keys of snow, and with the edition of ASCE 7."""

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Any

from outrigger.base.quantity import NONE
from outrigger.cases.faults import Fault, unread
from outrigger.cases.weather import Drift, OnHouse
from outrigger.formula.numbers import pick
from outrigger.loads.snow.roof import by_risk_category, exposure_factor, thermal_factor


def snow_faults(parts: Mapping[str, Any]) -> Iterator[Fault]:
    """Keys of snow that contradict each other, are needed, or belong to another edition."""
    snow, basis = parts.get("snow"), parts.get("basis")
    if not snow:
        return
    if snow.ground and snow.roof is not None:
        yield Fault("snow.roof", "stands beside ground: give the roof snow or the ground snow.")
    if snow.ground == 0 and snow.roof:
        text = "stands beside snow on the roof: give the roof snow or the ground snow."
        yield Fault("snow.ground", f'= "none": {text}')
    missing = {"exposure": snow.exposure, "thermal": snow.thermal or snow.roof_r}
    for key, words in (("exposure", "C, partially exposed"), ("thermal", "unheated")):
        if snow.ground and missing[key] is None:
            text = f'is not given, and is needed with ground: a number, or "{words}" and the like.'
            yield Fault(f"snow.{key}", text)
    if isinstance(snow.exposure, str):
        yield from unread("snow.exposure", snow.exposure, exposure_factor)
    if isinstance(snow.thermal, str) and basis:
        yield from unread("snow.thermal", snow.thermal, partial(thermal_factor, basis.loads))
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
