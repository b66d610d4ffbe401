"""The kinds of value that keys of a case file hold, each with how it is read and its range."""

from typing import Annotated, Literal

from pydantic import AfterValidator, BeforeValidator, WithJsonSchema

from outrigger.cases import as_written
from outrigger.cases.bounds import (
    BEARINGS_IN,
    BEHIND_IN,
    LARGEST_GAP_IN,
    LARGEST_SPACING_IN,
    LEAST_BACK_SPAN_IN,
    LEAST_BEHIND_IN,
    LEAST_DECK_DEAD_PSF,
    LEAST_LIVE_PSF,
    LEAST_MEAN_HEIGHT_IN,
    LEAST_RISE_IN,
    LEAST_SNOW_PSF,
    LEAST_SPAN_IN,
    LEAST_SPEED_MPH,
    LEAST_TRUSS_DEAD_PSF,
    LEAST_WALL_DEAD_PSF,
    LEAST_WIND_PSF,
    LIMITS,
    MEMBER_SPACINGS_IN,
    MOST_CLIP_LB,
    MOST_ELEVATION_IN,
    NAIL_SPACINGS_IN,
    PLATES_IN,
    SHEATHING_IN,
    STEEPEST,
)
from outrigger.cases.kinds import Form, Range, Written
from outrigger.cases.listing import page
from outrigger.cases.sizes import at_least, behind_a_clip, from_least, measured, no_more, up_to

# Words

Text = Annotated[str, BeforeValidator(as_written.text)]
JobName = Annotated[str, BeforeValidator(as_written.job_name)]
ListingPage = Annotated[str, BeforeValidator(as_written.text), AfterValidator(page)]
DateText = Annotated[str, BeforeValidator(as_written.date_text)]
Nothing = Literal["none"]
Species = Annotated[str, BeforeValidator(as_written.species)]
SizeName = Annotated[str, BeforeValidator(as_written.size)]
RatedInto = Annotated[str, BeforeValidator(as_written.rated_into)]
LoadsEdition = Annotated[
    Literal["ASCE 7-16", "ASCE 7-22"], BeforeValidator(as_written.loads_edition)
]
RiskCategory = Annotated[
    Literal["", "I", "II", "III", "IV"], BeforeValidator(as_written.risk_category)
]
Category = Annotated[
    Literal["none", "A", "B", "C", "D", "D0", "D1", "D2", "E", "F"],
    BeforeValidator(as_written.category),
]
WindExposure = Annotated[Literal["B", "C", "D"], BeforeValidator(as_written.letter)]

# Counts, numbers, factors

Flag = Annotated[bool, BeforeValidator(as_written.flag)]
Count = Annotated[int, BeforeValidator(as_written.count)]
Plies = Annotated[int, BeforeValidator(as_written.few(3))]
Plates = Annotated[int, BeforeValidator(as_written.few(4))]
Clips = Annotated[int, BeforeValidator(as_written.few(8))]
Fasteners = Annotated[int, BeforeValidator(as_written.few(24))]
Number = Annotated[float, BeforeValidator(as_written.number), Range()]
Percent = Annotated[
    float, BeforeValidator(as_written.percent), WithJsonSchema({"type": "string"}), Range()
]
Pitch = Annotated[
    float,
    BeforeValidator(as_written.pitch),
    Form("pitch"),
    WithJsonSchema({"type": "string"}),
    Range(high=STEEPEST),
]
Limit = Annotated[
    float,
    BeforeValidator(as_written.limit),
    Form("limit"),
    WithJsonSchema({"type": ["number", "string"]}),
    Range(*LIMITS),
]
JointClass = Annotated[str | float, BeforeValidator(as_written.joint_class)]
ExposureFactor = Annotated[
    float | str, BeforeValidator(as_written.number_or_words(0.7, 1.2, "Ce")), Range(0.7, 1.2)
]
ThermalFactor = Annotated[
    float | str, BeforeValidator(as_written.number_or_words(0.85, 1.3, "Ct")), Range(0.85, 1.3)
]
ImportanceFactor = Annotated[
    float, BeforeValidator(as_written.within(0.8, 1.2, "Is")), Range(0.8, 1.2)
]
# no map and no hill has more (common practice, no source)
TopographicFactor = Annotated[
    float, BeforeValidator(as_written.within(0.5, 5.0, "Kzt")), Range(0.5, 5.0)
]
WinterWind = Annotated[float, BeforeValidator(as_written.within(0.0, 1.0, "W2")), Range(0.0, 1.0)]
RoofR = Annotated[float, BeforeValidator(as_written.within(0.0, 200.0, "R")), Range(0.0, 200.0)]
# the largest of any site in the maps of ASCE 7 is under 3 g (common practice, no source)
SpectralAcceleration = Annotated[
    float, BeforeValidator(as_written.within(0.0, 4.0, "SDS")), Range(0.0, 4.0)
]

# Lengths

Length = Annotated[
    float, BeforeValidator(measured("length", none=False)), Written("length", none=False)
]
Distance = Annotated[float, BeforeValidator(measured("length")), Written("length")]
GapWidth = Annotated[float, BeforeValidator(up_to(LARGEST_GAP_IN)), Written("length", none=False)]
Spacing = Annotated[
    float, BeforeValidator(up_to(LARGEST_SPACING_IN)), Written("length", none=False)
]
BackSpan = Annotated[
    float,
    BeforeValidator(at_least(LEAST_BACK_SPAN_IN, inches=True)),
    Written("length", none=False),
]
BehindBack = Annotated[
    float, BeforeValidator(behind_a_clip(LEAST_BEHIND_IN, BEHIND_IN)), Written("length")
]
PlateWidth = Annotated[
    float, BeforeValidator(up_to(PLATES_IN[1], PLATES_IN[0])), Written("length", none=False)
]
BearingLength = Annotated[
    float, BeforeValidator(up_to(BEARINGS_IN[1], BEARINGS_IN[0])), Written("length", none=False)
]
Thickness = Annotated[
    float,
    BeforeValidator(up_to(SHEATHING_IN[1], SHEATHING_IN[0], panel=True)),
    Written("length", none=False),
]
NailSpacing = Annotated[
    float,
    BeforeValidator(up_to(NAIL_SPACINGS_IN[1], NAIL_SPACINGS_IN[0])),
    Written("length", none=False),
]
FramingSpacing = Annotated[
    float,
    BeforeValidator(up_to(MEMBER_SPACINGS_IN[1], MEMBER_SPACINGS_IN[0])),
    Written("length", none=False),
]
Run = Annotated[
    float,
    BeforeValidator(measured("length", none=False, units=("ft",))),
    Written("length", none=False),
]
RoofSpan = Annotated[float, BeforeValidator(at_least(LEAST_SPAN_IN)), Written("length", none=False)]
Overhang = Annotated[
    float, BeforeValidator(measured("length", units=("in", "ft"))), Written("length")
]
RoofStep = Annotated[
    float, BeforeValidator(at_least(LEAST_RISE_IN, spelled=True)), Written("length", none=False)
]
WallHeight = Annotated[
    float, BeforeValidator(at_least(LEAST_RISE_IN, none=True, spelled=True)), Written("length")
]
MeanHeight = Annotated[
    float,
    BeforeValidator(at_least(LEAST_MEAN_HEIGHT_IN, spelled=True)),
    Written("length", none=False),
]
Elevation = Annotated[
    float, BeforeValidator(as_written.elevation), Written("length"), Range(high=MOST_ELEVATION_IN)
]
_ANY_TEXT = WithJsonSchema({"type": "string"})
_OR_WORD = Form("length or word")
Place = Annotated[str | float, BeforeValidator(as_written.place), _OR_WORD, _ANY_TEXT]
SideHeight = Annotated[str | float, BeforeValidator(as_written.side_height), _OR_WORD, _ANY_TEXT]
MemberSpacing = Annotated[
    str | float,
    BeforeValidator(as_written.member_spacing),
    _OR_WORD,
    _ANY_TEXT,
    Range(*MEMBER_SPACINGS_IN),
]

# Loads, and what clips and wood take

Pressure = Annotated[float, BeforeValidator(measured("pressure")), Written("pressure")]
TrussDead = Annotated[
    float, BeforeValidator(from_least("pressure", LEAST_TRUSS_DEAD_PSF)), Written("pressure")
]
DeckDead = Annotated[
    float, BeforeValidator(from_least("pressure", LEAST_DECK_DEAD_PSF)), Written("pressure")
]
WallDead = Annotated[
    float, BeforeValidator(from_least("pressure", LEAST_WALL_DEAD_PSF)), Written("pressure")
]
RoofLive = Annotated[
    float, BeforeValidator(from_least("pressure", LEAST_LIVE_PSF)), Written("pressure")
]
SnowLoad = Annotated[
    float, BeforeValidator(from_least("pressure", LEAST_SNOW_PSF)), Written("pressure")
]
WindPressure = Annotated[
    float, BeforeValidator(from_least("pressure", LEAST_WIND_PSF)), Written("pressure")
]
Speed = Annotated[
    float,
    BeforeValidator(from_least("speed", LEAST_SPEED_MPH, none=False)),
    Written("speed", none=False),
]
LineLoad = Annotated[float, BeforeValidator(measured("line load")), Written("line load")]
Force = Annotated[float, BeforeValidator(measured("force")), Written("force")]
ClipValue = Annotated[float, BeforeValidator(no_more("force", MOST_CLIP_LB)), Written("force")]
Stress = Annotated[
    float, BeforeValidator(measured("stress", none=False)), Written("stress", none=False)
]
Stiffness = Annotated[
    float, BeforeValidator(measured("stiffness", none=False)), Written("stiffness", none=False)
]
