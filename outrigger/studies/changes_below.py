"""Changes of what carries the outriggers, and of what they carry: the member under the house wall,
the rafters, the tie of the garage wall, its plate. Only of what does not pass."""

from collections.abc import Iterator

from outrigger.cases.below import HouseEdge, HouseRafter, WallTie
from outrigger.cases.model import Case
from outrigger.checks.house_edge import HOUSE_EDGE, HOUSE_RAFTER
from outrigger.checks.plate import PAST, PLATE
from outrigger.checks.tie_actions import WALL_TIE
from outrigger.verdict.design import Design
from outrigger.wood import dressed

MOST_PLIES, MOST_STUDS, MOST_TIES, DEEPER = 4, 4, 6, 3
MORE_LB = (50.0, 100.0, 150.0, 200.0, 300.0, 400.0, 600.0, 800.0, 1200.0)  # as listings go

Found = tuple[str, str]  # setting, and what it is in words


def below(result: Design) -> Iterator[Found]:
    """Changes of each member in the load path that does not pass, the cheapest in labor first."""
    case: Case = result.case
    kinds = {check.kind for check in result.checks if check.status() != "pass"}
    if WALL_TIE in kinds and case.wall_tie is not None:
        yield from _tie(case.wall_tie)
    if PAST in kinds and case.layout is not None:
        if case.layout.last != "flush":
            yield "layout.last=flush", "with an outrigger at the end of the run"
        if case.layout.first_mark:
            yield "layout.first_mark=none", "with the first outrigger at the datum"
    if PLATE in kinds or PAST in kinds:
        yield "garage_wall.plates=2", "with two plates on the garage wall"
    if HOUSE_EDGE in kinds and case.house_edge is not None:
        yield from _member(case.house_edge)
    if HOUSE_RAFTER in kinds and case.house_rafter is not None:
        yield from _rafter(case.house_rafter)


def _tie(tie: WallTie) -> Iterator[Found]:
    for count in range(tie.count + 1, MOST_TIES + 1):
        what = "fasteners" if tie.fastener else "ties"
        yield f"wall_tie.count={count}", f"with {count} {what} at the garage wall on each outrigger"
    for key, word in (("rated_uplift", "up"), ("rated_lateral", "sideways")):
        now = getattr(tie, key)
        for listed in (one for one in MORE_LB if now is not None and one > now):
            yield f"wall_tie.{key}={listed:g}lb", f"with a wall tie listed for {listed:g} lb {word}"


def _member(edge: HouseEdge) -> Iterator[Found]:
    stud = edge.stud
    for count in range(stud.count + 1, MOST_STUDS + 1) if stud is not None else ():
        yield f"house_edge.stud.count={count}", f"with {count} studs under it"
    for plies in range(edge.plies + 1, MOST_PLIES + 1):
        yield f"house_edge.plies={plies}", f"with {plies} plies of the {edge.kind}"
    for size in _deeper(edge.size):
        yield f"house_edge.size={size}", f"with a {size} {edge.kind}"


def _rafter(rafter: HouseRafter) -> Iterator[Found]:
    for size in _deeper(rafter.size) if rafter.size else ():
        yield f"house_rafter.size={size}", f"with {size} house rafters"


def _deeper(name: str) -> Iterator[str]:
    size = dressed.read_size(name)
    deeper = [depth for depth in dressed.DEPTHS_IN if depth > size.nominal_d]
    return (f"{size.nominal_b:g}x{depth}" for depth in deeper[:DEEPER])
