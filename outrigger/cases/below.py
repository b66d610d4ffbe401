"""The tables of what carries on: the house under the outriggers. As `sections`: lb and in, None is
not given, "none" in the file is zero by the user's word."""

from typing import Annotated, Literal

from outrigger.cases.fields import (
    Clips,
    Distance,
    Fasteners,
    Flag,
    Force,
    FramingSpacing,
    Length,
    LineLoad,
    ListingPage,
    Nothing,
    Plies,
    Pressure,
    SizeName,
    Species,
    Text,
)
from outrigger.cases.kinds import SERVICE, SNOW_LEVEL, STRENGTH
from outrigger.cases.section import Section
from outrigger.wood import dressed

RatedFor = Literal["wind", "roof live", "snow", "live", "dead", "any duration"]
TOP_PLATE, HEADER, BLOCKING = "top plate on studs", "header", "blocking"
CROSSING_MEMBER, RAFTER = "crossing member", "rafter"


class Stud(Section):
    """What stands under a top plate, or under each end of a header: a column as tall as `height`.

    `wind`: on the house wall, square to it."""

    size: SizeName
    species: Species
    grade: Text
    height: Length
    count: Clips = 1
    wind: Annotated[Pressure | None, STRENGTH] = None


class WallStuds(Section):
    """The studs of the garage wall."""

    size: SizeName
    species: Species
    grade: Text


class LineLoads(Section):
    """Loads of each case per length."""

    D: Annotated[LineLoad | None, SERVICE] = None
    L: Annotated[LineLoad | None, SERVICE] = None
    Lr: Annotated[LineLoad | None, SERVICE] = None
    S: Annotated[LineLoad | None, SNOW_LEVEL] = None
    W_up: Annotated[LineLoad | None, STRENGTH] = None
    W_down: Annotated[LineLoad | None, STRENGTH] = None


class Carries(LineLoads):
    """What a member already carries, along its own length."""


class MemberEnds(Section):
    """How each end of a member is held: fasteners through what it ends against into its end grain,
    or the listed values of one hanger or tie."""

    fastener: Text = ""
    count: Fasteners | None = None
    rated_down: Force | None = None
    rated_up: Force | None = None
    rated_for: RatedFor | None = None


class HouseEdge(Section):
    """The member right under the outriggers at the house wall.

    `edge_at`: of a rafter, from its outer bearing to the edge of the outrigger.
    """

    kind: Literal["top plate on studs", "header", "blocking", "crossing member", "rafter"]
    size: SizeName
    plies: Plies = 1
    species: Species
    grade: Text
    moisture: Literal["dry", "wet"] | None = None
    span: Length
    edge_at: Distance | None = None
    near_support_relief: Flag = False
    stud: Stud | None = None
    carries: Nothing | Carries | None = None
    ends: MemberEnds | None = None
    end_bearing: Length | None = None


def width_of(edge: HouseEdge) -> float | None:
    """Its width along the outriggers, in, where they lie right on it; None of a header, under its
    own plate, and of a rafter, which runs along them."""
    size = dressed.read_size(edge.size)
    if edge.kind == TOP_PLATE:
        return size.d
    return size.b * edge.plies if edge.kind in (BLOCKING, CROSSING_MEMBER) else None


class EdgeTie(Section):
    """What ties a rafter to the wall plate, as listed."""

    rated: Force
    rated_for: RatedFor | None = None


class HouseRafter(Section):
    """What the inner hold-downs are fastened to; its loads are those of the house roof."""

    kind: Literal["rafter", "truss"]
    size: SizeName | None = None
    species: Species | None = None
    grade: Text = ""
    spacing: FramingSpacing | None = None
    span: Length | None = None
    overhang: Distance = 0.0
    bearing: Length | None = None
    repetitive: Flag = False
    edge_tie: EdgeTie | None = None


class WallTie(Section):
    """What ties the garage wall's bottom plate to each outrigger: listed, each of `count` of them,
    or fasteners straight down through the plate into the outrigger."""

    fastener: Text = ""
    count: Fasteners = 1
    rated_uplift: Force | None = None
    rated_lateral: Force | None = None
    rated_for: RatedFor | None = None
    rated_wood: Species | None = None
    rated_across_grain: Flag | None = None
    rated_source: ListingPage = ""
