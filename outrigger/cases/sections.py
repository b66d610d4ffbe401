"""The tables of a case file, each a set of keys: what the user states of one part.

Lengths are in, loads lb, lb/in and psi, whatever the file wrote. None is "not given", which is
never zero; "none" in the file is zero by the user's word.
"""

from typing import Annotated, Literal

from pydantic import Field

from outrigger.base.quantity import NONE
from outrigger.cases.below import HouseEdge, HouseRafter, LineLoads, WallStuds, WallTie
from outrigger.cases.fields import (
    BackSpan,
    BearingLength,
    BehindBack,
    Category,
    Clips,
    ClipValue,
    Count,
    DateText,
    DeckDead,
    Distance,
    Elevation,
    ExposureFactor,
    Fasteners,
    Flag,
    Force,
    FramingSpacing,
    GapWidth,
    ImportanceFactor,
    JobName,
    JointClass,
    Length,
    Limit,
    LineLoad,
    LoadsEdition,
    MeanHeight,
    MemberSpacing,
    NailSpacing,
    Nothing,
    Overhang,
    Percent,
    Pitch,
    Place,
    Plates,
    PlateWidth,
    Plies,
    Pressure,
    RatedInto,
    RiskCategory,
    RoofLive,
    RoofR,
    RoofSpan,
    RoofStep,
    Run,
    SideHeight,
    SizeName,
    SnowLoad,
    Spacing,
    Species,
    SpectralAcceleration,
    Speed,
    Stiffness,
    Stress,
    Text,
    ThermalFactor,
    Thickness,
    TopographicFactor,
    TrussDead,
    WallDead,
    WallHeight,
    WindExposure,
    WindPressure,
    WinterWind,
)
from outrigger.cases.kinds import SERVICE, SNOW_LEVEL, STRENGTH
from outrigger.cases.section import Section


class Project(Section):
    """Text that names the job; only the name is required. `invented`: its data is made up, so that
    every output says that it is a sample."""

    name: JobName
    invented: Flag = False
    number: Text = ""
    address: Text = ""
    sheet: Text = ""
    detail: Text = ""
    location: Text = ""
    house_wall: Text = ""
    prepared_by: Text = ""
    checked_by: Text = ""
    engineer_of_record: Text = ""
    revision: Text = "0"
    date: DateText | None = None


class Basis(Section):
    """Method and editions."""

    method: Literal["ASD", "LRFD"] = "ASD"
    loads: LoadsEdition
    wood: Literal["NDS 2018"] = "NDS 2018"
    code: Text = ""
    jurisdiction: Text = ""
    amendments: Text = ""
    risk_category: RiskCategory = ""


class Gap(Section):
    """The gap and the bearing at its house side."""

    width: GapWidth
    house_finish: Distance | None = None
    garage_plate: PlateWidth
    edge_bearing: BearingLength
    edge_setback: Distance = 0.0
    roof_insulation: Distance | None = None


class BlockingFastening(Section):
    """Each end of each block: `spread` from the lowest fastener to the highest; toe-nails go
    through the block into the side of the outrigger, end nails through it into end grain."""

    fastener: Text
    count: Count
    spread: Length
    driven: Literal["toe-nailed", "end-nailed"] | None = None


class BlockingToDeck(Section):
    """Fasteners up through the sheathing of the house into each block, all along it."""

    fastener: Text
    spacing: NailSpacing


class Outrigger(Section):
    """The member."""

    species: Species
    grade: Text
    size: SizeName
    plies: Plies = 1
    laid: Literal["on edge", "flat"] = "on edge"
    spacing: Spacing
    back_span: BackSpan
    tail: Distance | None = None
    behind_back: BehindBack = 3.0
    moisture: Literal["dry", "wet"] | None = None
    seasoned: Flag = True
    incised: Flag = False
    temperature: Literal["to 100 F", "100 to 125 F", "125 to 150 F"] = "to 100 F"
    repetitive: Flag = False
    near_support_relief: Flag = False
    top_notch: Distance = 0.0
    bottom_notch: Distance = 0.0
    blocking: list[Place] | None = None
    blocking_fastening: BlockingFastening | None = None
    blocking_to_deck: BlockingToDeck | None = None
    tipping: Literal["blocks", "clips"] | None = None


class HouseRoof(Section):
    """What the outriggers lie on, and what lies on their back span."""

    pitch: Pitch | None = None
    direction: Literal["down the slope", "across the slope"] | None = None
    edge_support: (
        Literal["wall", "blocking", "rafter", "crossing member", "rafter tail", "panel only"] | None
    ) = None
    edge_support_width: Length | None = None
    sheathing: Text = ""
    sheathing_thickness: Thickness | None = None
    sheathing_nail: Text = ""
    sheathing_nail_spacing: NailSpacing | None = None
    sheathing_bearing: Stress | None = None
    framing_species: Species | None = None
    framing_spacing: FramingSpacing | None = None
    framing_parallel: Flag | None = None
    framing_offset: Distance = 0.0
    framing_at: list[Distance] | None = None
    dead: Annotated[DeckDead | None, SERVICE] = None
    live: Annotated[RoofLive | None, SERVICE] = None
    snow: Annotated[SnowLoad | None, SNOW_LEVEL] = None
    wind_uplift: Annotated[WindPressure | None, STRENGTH] = None
    wind_down: Annotated[Pressure | None, STRENGTH] = None


class RoofLine(LineLoads):
    """Loads on the wall line from a truss sheet, per length of wall."""


class PointLoad(Section):
    """A load on the wall line at one place."""

    at: Distance
    source: Text = Field(default="", alias="from")
    D: Annotated[Force, SERVICE] = 0.0
    L: Annotated[Force, SERVICE] = 0.0
    Lr: Annotated[Force, SERVICE] = 0.0
    S: Annotated[Force, SNOW_LEVEL] = 0.0
    W_up: Annotated[Force, STRENGTH] = 0.0
    W_down: Annotated[Force, STRENGTH] = 0.0


class GarageRoof(Section):
    """The roof that the outriggers carry a share of."""

    bearing: Flag = True
    form: Literal["trusses", "tied rafters", "rafters with ridge beam", "untied rafters"] = (
        "trusses"
    )
    shape: Literal["gable", "hip", "high at the house", "low at the house"] | None = None
    span: RoofSpan | None = None
    overhang: Overhang | None = None
    member_spacing: MemberSpacing | None = None
    pitch: Pitch | None = None
    dead: Annotated[TrussDead | None, SERVICE] = None
    live: Annotated[RoofLive | None, SERVICE] = None
    storage: Annotated[Pressure | None, SERVICE] = None
    reduce_live: Flag = False
    strip_dead: Annotated[DeckDead | None, SERVICE] = None
    line: RoofLine | None = None
    point: list[PointLoad] = Field(default_factory=list)


class GarageWall(Section):
    """The wall that stands on the ends of the outriggers."""

    height: WallHeight | None = None
    dead: Annotated[WallDead | None, SERVICE] = None
    plate_species: Species | None = None
    plates: Plates = 1
    studs_over_outriggers: Flag | None = None
    stud_spacing: FramingSpacing | None = None
    studs: WallStuds | None = None
    out_of_plane_wind: Annotated[WindPressure | None, STRENGTH] = None
    along: Annotated[LineLoad | None, STRENGTH] = None


class Drift(Section):
    """Geometry of a snow drift against the step between the roofs."""

    on: Literal["garage roof", "house roof", "both"]
    house_step: RoofStep
    house_length: RoofSpan
    garage_length: RoofSpan
    winter_wind: WinterWind | None = None


class Sliding(Section):
    """Geometry of a house roof that sheds snow onto the garage."""

    house_run: RoofSpan
    house_slope: Pitch
    slippery: Flag


class OnHouse(Section):
    """What the garage wall and roof bring to the house roof, drift and sliding, follows from these
    where `[snow.drift]` and the garage's own tables do not say it.

    `step`: top of the garage roof over the house roof, at the wall; lengths square to the gap;
    `slippery`: the garage roof.
    """

    step: RoofStep | None = None
    house_length: RoofSpan | None = None
    garage_length: RoofSpan | None = None
    winter_wind: WinterWind | None = None
    slippery: Flag | None = None


class Snow(Section):
    """Snow, from the ground or as a roof load, at the level of the stated edition."""

    ground: Annotated[SnowLoad | None, SNOW_LEVEL] = None
    exposure: ExposureFactor | None = None
    thermal: ThermalFactor | None = None
    importance: ImportanceFactor | None = None
    roof: Annotated[SnowLoad | None, SNOW_LEVEL] = None
    drift: Nothing | Drift | None = None
    sliding: Nothing | Sliding | None = None
    unbalanced: Nothing | None = None
    drift_line: Annotated[LineLoad | None, SNOW_LEVEL] = None
    roof_r: RoofR | None = None
    on_house: Nothing | OnHouse | None = None

    @property
    def winter_wind(self) -> float | None:
        """W2 of ASCE 7-22, wherever it is stated."""
        tables = (self.drift, self.on_house)
        stated = (one.winter_wind for one in tables if isinstance(one, Drift | OnHouse))
        return next((W2 for W2 in stated if W2 is not None), None)


class Wind(Section):
    """Wind on the garage roof, strength level: net pressures, or what they follow from."""

    uplift: Annotated[WindPressure | None, STRENGTH] = None
    down: Annotated[Pressure | None, STRENGTH] = None
    speed: Speed | None = None
    exposure: WindExposure | None = None
    mean_height: MeanHeight | None = None
    enclosure: Literal["enclosed", "partially enclosed"] | None = None
    least_plan: Run | None = None
    zone: Text | None = None
    kzt: TopographicFactor | None = None
    elevation: Elevation | None = None
    method: Literal["components", "main"] | None = None


class Seismic(Section):
    """Seismic design category, as the permit prints it, and short-period acceleration; `exempt`: a
    detached one- or two-family dwelling that ASCE 7 11.1.2 lets off, by the user's word."""

    category: Category | None = None
    sds: Annotated[SpectralAcceleration | None, STRENGTH] = None
    exempt: Flag = False

    @property
    def letter(self) -> str | None:
        """The category of ASCE 7: the residential code's D0, D1 and D2 are D there."""
        return self.category[0] if self.category and self.category != NONE else self.category


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
    rated_source: Text = ""
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


def on_rafters(hold: HoldDown) -> bool:
    """Whether a rafter must be under the feet, or may be: no blocks of their own, not the panel."""
    return hold.into not in (SHEATHING_ONLY, BLOCKING)


class Limits(Section):
    """Limits of movement."""

    live_deflection: Limit = 240.0
    total_deflection: Limit = 180.0
    joint_width: Distance | None = None
    joint_class: JointClass | None = None
    moisture_change: Percent | None = None
    clip_slip: Distance | None = None
    below_clearance: Distance | None = None
    building_movement: Distance | None = None


class Opening(Section):
    """A stretch of wall without outriggers. `header`: who designs what carries over it."""

    start: Distance = Field(alias="from")
    end: Distance = Field(alias="to")
    header: Literal["by others"] | None = None


class Layout(Section):
    """Marks along the wall."""

    datum: Text = ""
    run: Run
    start: Literal["half space", "flush"] = "half space"
    first_mark: Distance | None = None
    last: Literal["flush", "on spacing"] = "flush"
    double_at_openings: Flag = False
    double_at: list[Count] = Field(default_factory=list)
    kerf: Distance = 0.125
    squaring: Distance = 0.5
    openings: list[Opening] = Field(default_factory=list)
    member_offset: Distance | None = None
    stock: list[Length] = Field(default_factory=list)


SECTIONS: dict[str, type[Section]] = {
    "project": Project, "basis": Basis, "gap": Gap, "outrigger": Outrigger,
    "house_roof": HouseRoof, "garage_roof": GarageRoof, "garage_wall": GarageWall,
    "snow": Snow, "wind": Wind, "seismic": Seismic, "limits": Limits, "layout": Layout,
    "house_edge": HouseEdge, "wall_tie": WallTie, "house_rafter": HouseRafter,
}  # fmt: skip
OPTIONAL = (
    "layout",
    "house_edge",
    "wall_tie",
    "house_rafter",
)  # tables that a case may leave out as a whole
