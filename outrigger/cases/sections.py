"""The tables of a case file, each a set of keys: what the user states of one part.

Lengths are in, loads lb, lb/in and psi, whatever the file wrote. None is "not given", which is
never zero; "none" in the file is zero by the user's word. Snow, wind and earthquake are in
`weather`, clips and ties in `hold_down`, what carries the outriggers in `below`.
"""

from typing import Annotated, Literal

from pydantic import Field

from outrigger.cases.below import HouseEdge, HouseRafter, LineLoads, WallStuds, WallTie
from outrigger.cases.fields import (
    BackSpan,
    BearingLength,
    BehindBack,
    Count,
    DateText,
    DeckDead,
    Distance,
    Flag,
    Force,
    FramingSpacing,
    GapWidth,
    JobName,
    JointClass,
    Length,
    Limit,
    LineLoad,
    LoadsEdition,
    MemberSpacing,
    NailSpacing,
    Overhang,
    Percent,
    Pitch,
    Place,
    Plates,
    PlateWidth,
    Plies,
    Pressure,
    RiskCategory,
    RoofLive,
    RoofSpan,
    Run,
    SizeName,
    SnowLoad,
    Spacing,
    Species,
    Stress,
    Text,
    Thickness,
    TrussDead,
    WallDead,
    WallHeight,
    WindPressure,
)
from outrigger.cases.kinds import SERVICE, SNOW_LEVEL, STRENGTH
from outrigger.cases.section import Section
from outrigger.cases.weather import Seismic, Snow, Wind
from outrigger.wood import dressed


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

    @property
    def as_laid(self) -> tuple[float, float]:
        """Breadth of all plies along the wall, and depth along the load, in."""
        size = dressed.read_size(self.size)
        b, d = (size.d, size.b) if self.laid == "flat" else (size.b, size.d)
        return b * self.plies, d


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
