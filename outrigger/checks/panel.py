"""A clip in sheathing only: the panel's own nails carry it on to the framing. NDS 2018 12.2.

The nails counted are those of the two framing members beside the clip, over one framing spacing.
How the panel bends between its framing has no published value on file: its moment is printed.
"""

import numpy as np
from msgspec.structs import replace

from outrigger.base.errors import InputError
from outrigger.base.quantity import length
from outrigger.checks.loaded_member import FRAMING_DEPTH_IN
from outrigger.checks.one_clip import Clip, part_of_clip, pull_of_one, withdrawal_value
from outrigger.fasteners import adjusted as connection_values
from outrigger.fasteners import dowel_bearing, withdrawal
from outrigger.fasteners.trade_names import read_fastener
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.numbers import Num, least

PANEL_NAILS = part_of_clip("panel nails", "the panel's own nails let go")
PANEL_BENDING = part_of_clip(
    "panel between framing", "the panel bends between the rafters, not known"
)


@formula("n_nails", "", clause="statics: both members, over one framing spacing")
def nails_beside(s_frame: Num, s_nail: Num) -> Num:
    """Nails of the panel that carry the clips of a place on."""
    return 2 * s_frame / s_nail


@formula("M_panel", "lb-in", clause="statics: at the middle of a simple span")
def moment_of_panel(T_place: Num, s_frame: Num) -> Num:
    """Moment in the panel under the pull of a place."""
    return T_place * s_frame / 4


@formula("T_cap", "lb", clause="NDS 2018 12.2.5: withdrawal or pull-through")
def weaker(Wp_adj: Num, WH_adj: Num) -> Num:
    """The less of withdrawal from the framing and the head's pull through the panel."""
    return least(Wp_adj, WH_adj)


def panel(clip: Clip) -> list[Check]:
    """The panel's own nails, and its bending, under the clips of a place."""
    return [_nails(clip), _bending(clip)]


def _place(clip: Clip) -> Step:
    value = np.asarray(clip.U.value) * clip.member.batch.clips(clip.hold)
    return given("T_place", value, "lb", "statics", f"uplift at {clip.name}")


def _nails(clip: Clip) -> Check:
    house, member = clip.member.case.house_roof, clip.member
    T = _place(clip)
    missing = [
        key
        for key, value in (
            ("sheathing", house.sheathing),
            ("sheathing_thickness", house.sheathing_thickness),
            ("sheathing_nail", house.sheathing_nail),
            ("sheathing_nail_spacing", house.sheathing_nail_spacing),
            ("framing_spacing", house.framing_spacing),
        )
        if not value
    ]
    if missing:
        why = f"the panel's own nails carry the clip on: give house_roof.{', '.join(missing)}"
        return clip.row(PANEL_NAILS, "NDS 2018 12.2", T, None, why=why)
    nail, t = read_fastener(house.sheathing_nail), clip.held.panel
    n = nails_beside.step(
        s_frame=house.framing_spacing or 0.0, s_nail=house.sheathing_nail_spacing or 1.0
    )
    whole = float(np.floor(n.value))
    if whole < 1:
        why = (
            f"nails {length(house.sheathing_nail_spacing or 0.0)} apart leave no whole nail of the "
            "panel beside the clip: nail it closer"
        )
        return replace(clip.row(PANEL_NAILS, "NDS 2018 12.2", T, None, why=why), capacity=0.0)
    pull = pull_of_one.step(
        T_head=given("T_head", T.value, "lb", "", "of the whole place"),
        n_f=given("n_f", whole, "", "", f"whole nails of {float(n.value):.1f}"),
    )
    p = dowel_bearing.penetration.step(L_f=nail.step("L_f"), ts=t, g_gap=0.0, tm=FRAMING_DEPTH_IN)
    Wp = withdrawal_value(clip, nail, member.framing_G, p)
    try:
        G = dowel_bearing.panel_gravity(house.sheathing)
    except InputError as error:
        return clip.row(PANEL_NAILS, "NDS 2018 12.2", pull, None, why=str(error).rstrip("."))
    WH = withdrawal.pull_through(nail.step("DH"), G, t)
    times = member.main.combinations.times
    WH_adj = connection_values.adjusted_pull_through(WH, nail, clip.held.use, times)
    cap = weaker.step(Wp_adj=Wp, WH_adj=WH_adj)
    lost = dowel_bearing.why_nothing(nail, float(np.asarray(p.value)))
    lost = lost or withdrawal.outside_pull_through(nail.head, float(t.value))
    return clip.row(PANEL_NAILS, "NDS 2018 12.2", pull, cap, why=lost)


def _bending(clip: Clip) -> Check:
    spacing = clip.member.case.house_roof.framing_spacing
    T = _place(clip)
    if spacing is None:
        why = "house_roof.framing_spacing is not given: how far the panel spans is not known"
        return clip.row(PANEL_BENDING, "statics", T, None, why=why)
    why = "no published bending value of the panel under a clip is on file: ask the engineer"
    M = moment_of_panel.step(T_place=T, s_frame=spacing)
    return clip.row(PANEL_BENDING, "statics", M, None, why=why)
