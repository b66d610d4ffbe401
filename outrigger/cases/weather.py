"""The tables of snow, wind and earthquake. As `sections`: lb and in, None is not given, "none" in
the file is zero by the user's word."""

from typing import Annotated, Literal

from outrigger.base.quantity import NONE
from outrigger.cases.fields import (
    Category,
    Elevation,
    ExposureFactor,
    Flag,
    ImportanceFactor,
    LineLoad,
    MeanHeight,
    Nothing,
    Pitch,
    Pressure,
    RoofR,
    RoofSpan,
    RoofStep,
    Run,
    SnowLoad,
    SpectralAcceleration,
    Speed,
    Text,
    ThermalFactor,
    TopographicFactor,
    WindExposure,
    WindPressure,
    WinterWind,
)
from outrigger.cases.kinds import SNOW_LEVEL, STRENGTH
from outrigger.cases.section import Section


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
