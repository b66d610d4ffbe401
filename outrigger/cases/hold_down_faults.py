"""Faults of hold-downs beside each other and the outrigger, and fasteners that are not read."""

import math
from collections.abc import Iterator, Mapping
from typing import Any

from outrigger.base.quantity import length
from outrigger.cases.block_faults import block_faults
from outrigger.cases.bounds import LEAST_APART_IN
from outrigger.cases.faults import Fault, shown, unread
from outrigger.cases.hold_down import through
from outrigger.fasteners.dowel_bearing import read_steel
from outrigger.fasteners.trade_names import read_fastener


def hold_down_faults(parts: Mapping[str, Any]) -> Iterator[Fault]:
    """Places that no hold-down has, or two have, or none has and one must."""
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


def fastener_faults(parts: Mapping[str, Any]) -> Iterator[Fault]:
    """Fasteners and steel that are not read, and clips that say only half of them."""
    house, member = parts.get("house_roof"), parts.get("outrigger")
    if member:
        yield from block_faults(member)
    if house and house.sheathing_nail:
        yield from unread("house_roof.sheathing_nail", house.sheathing_nail, read_fastener)
    for i, hold in enumerate(parts.get("hold_down") or []):
        if not hold:
            continue
        height = hold.side_height
        if through(hold):
            yield from _of_a_clip_alone(hold, f"hold_down[{i}]")
        if hold.side_fastener and hold.rated_uplift is None and height == "over the top":
            text = '= "over the top": belongs to a listed strap; give the height of the fasteners.'
            yield Fault(f"hold_down[{i}].side_height", text)
        deep = member.as_laid[1] if member else math.inf
        if isinstance(height, float) and height > deep:
            text = f"= {length(height)}: above the outrigger, {length(deep)} deep."
            yield Fault(f"hold_down[{i}].side_height", text)
        for part in ("side", "deck"):
            key, text = f"hold_down[{i}].{part}_fastener", getattr(hold, f"{part}_fastener")
            count = getattr(hold, f"{part}_fasteners")
            if text:
                yield from unread(key, text, read_fastener)
                if count is None:
                    yield Fault(f"{key}s", f"is not given: how many {text} in one clip?")
            elif count is not None:
                yield Fault(key, f"is not given, but {count} of them: name the fastener.")
        if hold.steel:
            yield from unread(f"hold_down[{i}].steel", hold.steel, read_steel)


def _of_a_clip_alone(hold: Any, path: str) -> Iterator[Fault]:
    """Keys of a bent clip beside a screw down through the outrigger, which has neither leg nor
    side."""
    for key in ("side_fastener", "side_fasteners", "side_height", "leg_offset", "bend_held"):
        if getattr(hold, key):
            text = 'stands beside kind = "through", which has no side and no leg: drop one of them.'
            yield Fault(f"{path}.{key}", text)
