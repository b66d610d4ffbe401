"""What a design must be warned of: which conditions hold, and the numbers that the words name."""

import numpy as np

from outrigger.actions.places import EDGE
from outrigger.base.quantity import length
from outrigger.cases.hold_down import CLIP, SHEATHING_ONLY, HoldDown, built, on_rafters, through
from outrigger.cases.model import Case
from outrigger.checks.block_ends import ENDS
from outrigger.checks.blocks_on_deck import TO_DECK
from outrigger.checks.house_edge import HOUSE_EDGE, HOUSE_RAFTER
from outrigger.checks.house_edge_ends import HELD_UP
from outrigger.checks.plate import PLATE
from outrigger.checks.sideways import side_forces_act
from outrigger.checks.stud import STUD
from outrigger.checks.tie_actions import WALL_TIE
from outrigger.fasteners.trade_names import read_fastener
from outrigger.loads.parts import WORDS
from outrigger.marks.bays import over_openings
from outrigger.marks.feet import ONE_A_SIDE, over_one_rafter
from outrigger.marks.of_case import row_of
from outrigger.verdict.design import Design
from outrigger.verdict.unsaid import snows

LIFTS = 0.01  # of a spacing: less is of no size


def holds(result: Design) -> dict[str, bool]:
    """Each condition that a caution may name, and whether it holds."""
    case = result.case
    house, piece, held = case.house_roof, case.outrigger, case.hold_down
    checked = {check.kind for check in result.checks}
    links = {check.link for check in result.checks}
    below = house.edge_support
    return {
        "": True,
        **_short_back_span(result),
        **_lifted(result, HELD_UP in links),
        "member below": below != "wall" and HOUSE_EDGE not in checked,
        "house wall": below == "wall" and (case.house_edge is None or case.house_edge.stud is None),
        "wall under rafters": below == "wall" and bool(house.framing_parallel),
        "rafters": HOUSE_RAFTER not in checked,
        "below the rafters": HOUSE_RAFTER in checked,
        "into framing": any(on_rafters(one) for one in held) or not held,
        "through sheathing": any(_listed_on_wood(one) for one in held),
        "snow": (snows(case) or "S" in result.model.parts) and HOUSE_RAFTER not in checked,
        "rakes": _raked(case),
        "bare points": bool(_bare_points(result)),
        "stated drift": bool(case.snow.drift_line),
        "uplift": "W_up" in result.model.parts and WALL_TIE not in checked,
        "uplift above its tie": "W_up" in result.model.parts and WALL_TIE in checked,
        "anchorage": WALL_TIE not in checked,
        "one side": bool(one_sided(result)),
        "several a side": bool(several_a_side(result)),
        "row": len(result.model.supports) > 2,
        "blocks on the deck": TO_DECK in links,
        "blocks toe-nailed": ENDS in links,
        "pushed sideways": side_forces_act(result.main),
        "roofless": not case.garage_roof.bearing,
        **_above(result, PLATE in checked, STUD in checked),
        "filler": result.shape.tilt.down,
        "plies": piece.plies > 1,
        "plies and lag": piece.plies > 1 and any(map(through, held)),
        "long nails": bool(_coming_out(result)),
        "lifted by its plate": bool(lifted_by_plate(result)),
        "headers": bool(over_openings(case, by_others=True)),
        "trusses": case.garage_roof.bearing and case.garage_roof.form == "trusses",
    }


def _raked(case: Case) -> bool:
    """Whether the roof may run on beyond the ends of a layout, over the end outriggers."""
    return case.layout is not None and case.garage_roof.bearing and case.garage_roof.shape != "hip"


def _bare_points(result: Design) -> dict[str, list[str]]:
    """Of each point load, by what it comes from and its place, the loads that the roof has and that
    are not given for it, in words."""
    parts = [part for part in ("L", "Lr", "S", "W_up", "W_down") if part in result.model.parts]
    found = {
        f"{point.source or 'a point'} at {length(point.at)}":
            [WORDS[part] for part in parts if part not in point.model_fields_set]
        for point in result.case.garage_roof.point
    }  # fmt: skip
    return {at: lacking for at, lacking in found.items() if lacking}


def _lifted(result: Design, tied: bool) -> dict[str, bool]:
    """The edge is lifted, and what takes that on is given or not."""
    lifted = edge_uplift(result) > 0
    return {"edge lifts": lifted and not tied, "edge lifts its tie": lifted and tied}


def _above(result: Design, plate: bool, stud: bool) -> dict[str, bool]:
    """What of the garage wall no row looks at, whether its plate and its stud have rows."""
    over = bool(result.case.garage_wall.studs_over_outriggers)
    return {
        "studs above": over and not stud,
        "plate": not plate and not (over and stud),
        "garage plates": not plate and over and stud,
        "garage studs": plate and not stud and not over,
        "garage top plate": plate and (stud or not over),
    }


def said(result: Design) -> dict[str, str]:
    """What the words of a caution name: lengths, pounds, places."""
    shape = result.shape
    below = result.case.house_roof.edge_support
    most, of_a_pair = _most_uplift(result)
    return {
        "arm": length(float(np.max(shape.arm))),
        "back": length(float(np.min(shape.back_span))),
        "edge_kind": "member" if result.case.house_edge is None else result.case.house_edge.kind,
        "edge_up": f"{most:,.0f} lb {'a pair' if of_a_pair else 'an outrigger'}",
        "below": below or "member",
        "twist": f"{result.member.b / 2:g} in",
        "bare_points": "; ".join(f"{at}: {_listed(of)}" for at, of in _bare_points(result).items()),
        "by_plate": _marks(lifted_by_plate(result)),
        "headers": "; ".join(over_openings(result.case, by_others=True)),
        "one_sided": _places(one_sided(result)),
        "several": _places(several_a_side(result)),
        "coming_out": _places(_coming_out(result)),
    }


def _short_back_span(result: Design) -> dict[str, bool]:
    """A back span under the arm, twice or three times the arm: the first that holds."""
    arm, back = float(np.max(result.shape.arm)), float(np.min(result.shape.back_span))
    times = next((n for n in (1, 2, 3) if back < n * arm), 0)
    return {f"under {n} arms": times == n for n in (1, 2, 3)}


def lifted_by_plate(result: Design) -> list[int]:
    """End marks of a layout that a plate which runs on lifts where roof and wall weigh it down:
    the bay beside them is much shorter than the next. Beside an opening a header parts the plate.
    """
    if result.case.layout is None:
        return []
    row = row_of(result.case)
    runs = row.plates[-1]
    roof = runs.least if result.case.garage_roof.bearing else runs.carried
    least = np.minimum(runs.carried, roof)[:, 0]
    ends = [0, len(least) - 1]
    return [i + 1 for i in ends if least[i] < -LIFTS * result.case.outrigger.spacing]


def _listed(words: list[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def _marks(numbers: list[int]) -> str:
    return f"mark{'s' if numbers[1:] else ''} {' and '.join(map(str, numbers))}"


def edge_uplift(result: Design) -> float:
    """Largest uplift at the house wall at any mark, lb, tied or not, in either set of combinations;
    of a pair both pieces."""
    return _most_uplift(result)[0]


def _most_uplift(result: Design) -> tuple[float, bool]:
    """That, and whether it is of a pair."""
    over = result.worked.over_marks
    pieces = np.broadcast_to(over.batch.pieces, (over.batch.count, 1))
    most = np.zeros(over.batch.count)
    for actions in (over.main, over.clips):
        pulls = [pull for at, pull in actions.uplift.items() if at == EDGE]
        for pull in (*pulls, *([] if actions.no_tie is None else [actions.no_tie])):
            most = np.maximum(most, np.max(pull * pieces, axis=1))
    at = int(np.argmax(most))
    return float(most[at]), bool(pieces[at, 0] > 1)


def one_sided(result: Design) -> list[HoldDown]:
    """Places with one clip on one side, which twists the piece."""
    return [
        one
        for one in result.case.hold_down
        if one.count == 1 and one.kind == CLIP and one.side_height != "over the top"
    ]


def several_a_side(result: Design) -> list[HoldDown]:
    """Places with more clips than one a side on a rafter that takes one."""
    return [one for one in result.case.hold_down
            if one.count > ONE_A_SIDE and over_one_rafter(result.case, one)]  # fmt: skip


def _coming_out(result: Design) -> list[HoldDown]:
    """Places whose side fasteners are longer than the piece is thick."""
    return [
        one
        for one in result.case.hold_down
        if built(one)
        and one.side_fastener
        and read_fastener(one.side_fastener).length > result.member.b
    ]


def _listed_on_wood(hold: HoldDown) -> bool:
    """A listed clip whose fasteners go through the sheathing into wood, or may."""
    return hold.rated_uplift is not None and hold.into != SHEATHING_ONLY


def _places(found: list[HoldDown]) -> str:
    return " and ".join(one.name for one in found)
