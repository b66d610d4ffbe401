"""Snow of a case: from what the file states to loads on the wall line and the strip.

Snow goes to the wall line by statics over the garage span, and to the strip by position. Each case
of snow says in one line why it does or does not apply. ASCE 7 keeps its feet and psf; what leaves
`snow_of` is in pounds and inches. What a ground snow brings is in `snow_from_ground` and
`snow_uneven`.
"""

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions import snow_uneven
from outrigger.actions.geometry import Geometry
from outrigger.actions.snow_from_ground import Ground
from outrigger.actions.snow_lies import Lie, even
from outrigger.actions.snow_on_house import OnHouseRoof, on_house_roof, waiting
from outrigger.base.quantity import NONE
from outrigger.base.units import psf, psi
from outrigger.cases.batch import Batch
from outrigger.cases.model import Case
from outrigger.formula.formula import amount, given
from outrigger.formula.numbers import Array, pick

ON_HOUSE = {"drift": "S_house", "sliding": "S_shed"}  # the parts of what lies on the house roof


class Snow(Struct, frozen=True, eq=False):
    """Snow by part, the back span's even snow, reasons, and what the garage brings to the house
    roof."""

    lies: dict[str, Lie]
    back: Array
    reasons: list[str]
    on_house: tuple[OnHouseRoof, ...] = ()


def snow_of(batch: Batch, shape: Geometry, deep: float) -> Snow:
    """Snow of the cases; `deep`: the outrigger, in."""
    case, stated_snow, roof = batch.case, batch.case.snow, batch.case.garage_roof
    back = batch.load("house_roof.snow")
    if stated_snow.ground is None or stated_snow.roof is not None:
        on_roof = psf(batch.load("snow.roof"))
        pf = given("p_f", on_roof, "psf", case.basis.loads, "roof snow, stated")
        lies = {"S": _with_line(batch, even(batch, pf))}
        some = bool(np.any(amount(pf) != 0))
        reasons = _stated_reasons(case) if some else ["snow: none stated"]
        on_sheet = roof.line is not None and bool(roof.line.S)
        on_house = waiting(case) if some or on_sheet else ()
        return Snow(lies, back, [*reasons, *(one.said for one in on_house)], on_house)
    ground = Ground(batch, shape)
    balanced, on_back = ground.balanced(), ground.back_span()
    if case.house_roof.snow is None:
        back = psi(np.asarray(on_back.value))
        under = ground.load("snow on the back span", on_back, on_back.note)
        balanced = replace(
            balanced,
            steps=(*balanced.steps, on_back),
            derived=(*balanced.derived, under),
        )
    lies = {"S": _with_line(batch, balanced)}
    if np.all(ground.pg == 0):
        return Snow(lies, back, ["snow: none, the ground snow is none"])
    reasons = [ground.reason]
    if case.house_roof.snow is None:
        reasons.append(f"snow on the back span: {pick(amount(on_back)):.1f} psf, {on_back.note}")
    for found, why in (
        ground.minimum(),
        snow_uneven.unbalanced(ground),
        snow_uneven.drift(ground),
        snow_uneven.sliding(ground),
    ):
        lies |= found
        reasons += why
    if roof.shape is None:
        reasons.append("unbalanced snow: the shape of the roof is not given")
    on_house = on_house_roof(ground.site(deep))
    lies |= {part: snow_uneven.on_house(ground, one) for one in on_house if one.applies
             for part in (ON_HOUSE[one.what],)}  # fmt: skip
    reasons += [one.said for one in on_house]
    reasons += [caution for one in on_house for caution in snow_uneven.buried(one.found)]
    return Snow(lies, back, reasons, on_house)


def _stated_reasons(case: Case) -> list[str]:
    """Why drift, sliding and unbalanced snow are not computed from a stated roof snow."""
    found = ["snow: roof snow as stated"]
    for name, value in (("drift", case.snow.drift), ("sliding", case.snow.sliding),
                        ("unbalanced", case.snow.unbalanced)):  # fmt: skip
        if value == NONE:
            found.append(f"{name} snow: none, by the file's word")
    if case.snow.drift_line is not None:
        found.append("drift snow: stated as a load on the garage wall")
    return found


def _with_line(batch: Batch, lie: Lie) -> Lie:
    """The stated drift on the wall line added to the balanced snow."""
    if batch.case.snow.drift_line is None:
        return lie
    extra = batch.column("snow.drift_line")
    step = given(
        "w_roof", extra, "lb/in", batch.case.basis.loads, "drift on the garage wall, stated"
    )
    return replace(lie, line=lie.line + extra, steps=(*lie.steps, step))
