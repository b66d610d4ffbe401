"""Where the feet of a hold-down stand beside the outrigger, and whether wood is below. Lengths in.

A clip holds by the fastener in its foot, not by the outrigger: what lands is that fastener.
"""

import numpy as np

from outrigger.base.quantity import length
from outrigger.cases.hold_down import CLIP, HoldDown, astride, at_edge, on_rafters, through
from outrigger.cases.model import Case
from outrigger.formula.numbers import Array
from outrigger.marks.framing import HALF_RAFTER_IN, framing_centres, off_centre

ONE_A_SIDE = 2  # clips of a place, one on each side of the outrigger
ALONG_THE_OUTRIGGER = ("rafter", "rafter tail")
ALONG_THE_EDGE = ("wall", "blocking", "crossing member")  # wood under every outrigger's edge


def thickness(case: Case) -> float:
    """Width of one outrigger along the wall, its plies together."""
    return case.outrigger.as_laid[0]


def beside(case: Case, hold: HoldDown) -> float:
    """How far the fastener of a foot stands from the middle of the outrigger; through it, 0.

    At its leg_offset from the outrigger's face, else in the middle of the foot.
    """
    if through(hold):
        return 0.0
    return thickness(case) / 2 + (hold.foot / 2 if hold.leg_offset is None else hold.leg_offset)


def both_sides(hold: HoldDown) -> bool:
    """Whether a place has a foot on each side: two clips and more, or a strap over the top."""
    return hold.count > 1 or astride(hold)


def on_edge_wood(case: Case, hold: HoldDown) -> bool:
    """Whether it stands at the edge over wood that runs along the wall, under every foot."""
    return at_edge(hold) and case.house_roof.edge_support in ALONG_THE_EDGE


def on_parallel(case: Case, hold: HoldDown) -> bool:
    """Whether a rafter along the outrigger is under it, or may be: all of them run so, or that
    under the edge does."""
    house = case.house_roof
    under_edge = at_edge(hold) and house.edge_support in ALONG_THE_OUTRIGGER
    return bool(house.framing_parallel) or under_edge


def over_one_rafter(case: Case, hold: HoldDown) -> bool:
    """Whether clips of a place stand on a rafter that crosses there, or may: it is so narrow that
    of those on one side of the outrigger one finds it."""
    clips = hold.kind == CLIP and on_rafters(hold) and not on_edge_wood(case, hold)
    return clips and not case.house_roof.framing_parallel


def off_parallel(
    case: Case, hold: HoldDown, middles: Array, centres: Array, outward: Array
) -> Array:
    """How far the fasteners at each outrigger stand from the middle of a parallel rafter: of two
    sides the farther, as both must hold; of one clip the nearer, as it may stand on either; of a
    piece of a pair the outer side, `outward` -1 or 1 of it, 0 of a single piece."""
    out = beside(case, hold)
    sides = np.array([off_centre(middles + side, centres) for side in (-out, out)])
    far = np.abs(sides).argmax(axis=0)
    chosen = far if both_sides(hold) else np.abs(sides).argmin(axis=0)
    chosen = np.where(outward == 0, chosen, (outward > 0).astype(int))
    return np.asarray(np.take_along_axis(sides, chosen[None], axis=0)[0])


def off_crossing(case: Case, hold: HoldDown, back_span: Array) -> Array | None:
    """How far a place lies from the middle of the rafter that crosses there, (cases, 1).

    None: not into framing, rafters that do not cross, or where they lie is not given.
    """
    house = case.house_roof
    if house.framing_parallel is not False or on_parallel(case, hold) or not on_rafters(hold):
        return None
    if on_edge_wood(case, hold):
        return np.zeros(back_span.shape)
    centres = framing_centres(
        spacing=house.framing_spacing,
        offset=house.framing_offset,
        at=house.framing_at,
        reach=float(np.max(back_span)),
    )
    if centres is None:
        return None
    inward = {"edge": np.zeros(back_span.shape), "back": back_span}.get(str(hold.at))
    return off_centre(np.full(back_span.shape, hold.at) if inward is None else inward, centres)


def on_bare_panel(case: Case, hold: HoldDown) -> str:
    """Why the feet of a place into framing stand on bare panel beside a parallel rafter, whatever
    the place of the outrigger; empty where they may find wood."""
    if not on_rafters(hold) or on_edge_wood(case, hold):
        return ""
    out = beside(case, hold)
    if not on_parallel(case, hold) or out < HALF_RAFTER_IN:
        return ""
    one_foot = case.house_roof.framing_parallel and not both_sides(hold)
    if case.layout is not None and one_foot:
        return ""  # one foot may find a rafter beside the outrigger: each mark is looked at
    return (
        f"over a parallel rafter these fasteners stand {length(out)} from its middle, beside it, "
        "on bare panel: put solid blocking under the feet, between the rafters, and say "
        f"{hold.path('into')}=blocking"
    )
