"""The table of a hold-down, and of which kind one is: built or listed, through, astride, on
rafters. As `sections`: lb and in, None is not given."""

from typing import Literal

from outrigger.cases.fields import (
    Clips,
    ClipValue,
    Fasteners,
    Flag,
    Length,
    ListingPage,
    Place,
    RatedInto,
    SideHeight,
    Species,
    Stiffness,
    Text,
)
from outrigger.cases.section import Section

SHEATHING_ONLY = "sheathing only"  # how a hold-down says that it reaches no framing
BLOCKING = "blocking"  # that blocks stand between the rafters, right under its feet
CLIP, STRAP, THROUGH = "clip", "strap", "through"


class HoldDown(Section):
    """Clips or ties at one place: bent clips, straps, or screws down through the outrigger."""

    at: Place
    kind: Literal["clip", "strap", "through"] = "clip"
    count: Clips = 1
    rated_uplift: ClipValue | None = None
    rated_lateral: ClipValue | None = None
    rated_for: Literal["wind", "roof live", "snow", "live", "dead", "any duration"] | None = None
    rated_wood: Species | None = None
    rated_into: RatedInto = ""
    rated_across_grain: Flag | None = None
    rated_source: ListingPage = ""
    into: Literal["framing", "blocking", "sheathing only"] | None = None
    foot: Length = 1.5
    side_fastener: Text = ""
    side_fasteners: Fasteners | None = None
    side_height: SideHeight | None = None
    deck_fastener: Text = ""
    deck_fasteners: Fasteners | None = None
    steel: Text = ""
    leg_offset: Length | None = None
    bend_held: Flag | None = None
    stiffness: Stiffness | None = None
    edge_distance: Length | None = None
    end_distance: Length | None = None
    fastener_spacing: Length | None = None

    @property
    def name(self) -> str:
        """Its place as `at` says it: back, edge, 16 in."""
        return self.at if isinstance(self.at, str) else f"{self.at:g} in"

    def path(self, key: str) -> str:
        """The path of one of its keys: hold_down[back].count."""
        return f"hold_down[{self.name}].{key}"


def built(hold: HoldDown) -> bool:
    """Whether a hold-down is given by its fasteners and not by a listed value; a strap never is."""
    needed = {CLIP: hold.side_fastener, THROUGH: hold.deck_fastener}
    return hold.rated_uplift is None and bool(needed.get(hold.kind))


def through(hold: HoldDown) -> bool:
    """Whether the deck fastener goes through the outrigger itself, by the file's word alone."""
    return hold.kind == THROUGH


def astride(hold: HoldDown) -> bool:
    """Whether it goes over the outrigger, with a foot on each side: a strap, or over the top."""
    return not through(hold) and (hold.kind == STRAP or hold.side_height == "over the top")


def clip_or_through(hold: HoldDown) -> bool:
    """Whether deck fasteners alone are given, of a clip or of a screw through the outrigger."""
    alone = hold.deck_fastener and not hold.side_fastener
    return hold.kind == CLIP and hold.rated_uplift is None and bool(alone)


def down_through(hold: HoldDown) -> int:
    """How many screws or lags go down through the outrigger at its place."""
    return hold.count * (hold.deck_fasteners or 1)


def at_edge(hold: HoldDown) -> bool:
    """Whether it stands at the edge."""
    return hold.at in ("edge", 0.0)


def on_rafters(hold: HoldDown) -> bool:
    """Whether a rafter must be under the feet, or may be: no blocks of their own, not the panel."""
    return hold.into not in (SHEATHING_ONLY, BLOCKING)
