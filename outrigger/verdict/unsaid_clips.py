"""What a hold-down leaves unsaid: how it is made, what it is listed for, the wood under it."""

from collections.abc import Iterator

from outrigger.actions.places import place_name
from outrigger.cases.hold_down import THROUGH, HoldDown, built, clip_or_through, through
from outrigger.cases.listing import Base, read_base
from outrigger.cases.model import Case
from outrigger.verdict.missing_fact import DESIGNER, FRAMER, MAKER, NotGiven


def of_hold_down(case: Case, i: int, hold: HoldDown) -> Iterator[NotGiven]:
    """Every fact that is needed of one place and absent; `i`: which one it is in the file."""
    key, name = f"hold_down[{i}]", place_name(hold.at, case.outrigger.back_span)
    if hold.into is None:
        yield NotGiven(f"{key}.into", f"does the {name} clip reach framing?", FRAMER)
    yield from _rafters(case, hold)
    if hold.rated_uplift is None:
        if not built(hold):
            yield _kind_of(hold, key, name)
            return
        if case.house_roof.sheathing_thickness is None:
            question = "thickness of the roof sheathing under the clips? [3/4 in taken]"
            yield NotGiven("house_roof.sheathing_thickness", question, FRAMER)
        if hold.side_fastener and hold.side_height is None:
            question = f"how high above the sheathing is the {name} clip's top fastener?"
            yield NotGiven(f"{key}.side_height", question, FRAMER)
        if hold.rated_lateral is not None:
            yield from _listing(case, hold, key, name)
        return
    yield from _listing(case, hold, key, name)
    if through(hold) and not hold.deck_fastener:
        question = f"which screw goes down through the outrigger at the {name}: how wide a hole?"
        yield NotGiven(f"{key}.deck_fastener", question, DESIGNER)
    if not hold.rated_across_grain and hold.side_height is None and not through(hold):
        question = f"is the {name} clip listed across the grain, or how high are its fasteners?"
        yield NotGiven(f"{key}.rated_across_grain", question, MAKER)


def _listing(case: Case, hold: HoldDown, key: str, name: str) -> Iterator[NotGiven]:
    """What a listed value is for, up or sideways, and where it was read."""
    if hold.rated_for is None:
        question = f"for which loads is the {name} clip's value listed? (computed as wind)"
        yield NotGiven(f"{key}.rated_for", question, MAKER)
    if hold.rated_wood is None:
        yield NotGiven(f"{key}.rated_wood", f"for which wood is the {name} clip listed?", MAKER)
    if not hold.rated_into:
        question = f"into what is the {name} clip listed, through which sheathing?"
        yield NotGiven(f"{key}.rated_into", question, MAKER)
    else:
        yield from _panel_below(case, read_base(hold.rated_into))
    if not hold.rated_source:
        question = f"report and page of the {name} clip's listing?"
        yield NotGiven(f"{key}.rated_source", question, MAKER, bears=False)


def _panel_below(case: Case, base: Base) -> Iterator[NotGiven]:
    """What a listing names of the panel, where the file does not say it of the sheathing."""
    if base.thickness and case.house_roof.sheathing_thickness is None:
        question = "thickness of the roof sheathing under the clips?"
        yield NotGiven("house_roof.sheathing_thickness", question, FRAMER)
    if base.panel and not case.house_roof.sheathing:
        question = (
            f"what panel is the roof sheathing under the clips? The listing names {base.panel}"
        )
        yield NotGiven("house_roof.sheathing", question, FRAMER)


def _kind_of(hold: HoldDown, key: str, name: str) -> NotGiven:
    """What is asked of a place that says neither a listed value nor all of its fasteners."""
    if clip_or_through(hold):
        question = (
            f"at the {name}, a clip (then its side fasteners), or a screw down through the "
            'outrigger (kind = "through")?'
        )
        return NotGiven(f"{key}.side_fastener", question, FRAMER)
    if hold.kind == THROUGH:
        question = f"which screw or lag goes down through the outrigger at the {name}?"
        return NotGiven(f"{key}.deck_fastener", question, DESIGNER)
    return NotGiven(f"{key}.rated_uplift", f"listed uplift of one {name} {hold.kind}?", MAKER)


def _rafters(case: Case, hold: HoldDown) -> Iterator[NotGiven]:
    """Where the wood is that a place into framing must find."""
    house = case.house_roof
    if hold.into != "framing":
        return
    if house.framing_parallel is None:
        question = "do the house rafters run parallel to the outriggers?"
        yield NotGiven("house_roof.framing_parallel", question, FRAMER)
    if house.framing_spacing is None and house.framing_at is None:
        question = "how far apart are the house rafters, and where is the first?"
        yield NotGiven("house_roof.framing_spacing", question, FRAMER)
