"""What the crew marks beyond the outriggers: studs on the garage plate, blocks along one piece,
which marks are pairs, which miss the framing. Lengths in."""

from outrigger.actions.places import BACK, EDGE, WALL_LINE
from outrigger.cases.hold_down import on_rafters
from outrigger.layout.layout import LaidOut
from outrigger.marks.row import supports
from outrigger.wood import dressed

STUD_IN = 1.5  # of studs whose size is not given


def pairs(laid: LaidOut) -> list[tuple[int, ...]]:
    """The marks that stand side by side as pairs, by their numbers."""
    of = supports([line.piece for line in laid.lines]).of
    groups: dict[int, list[int]] = {}
    for line, at in zip(laid.lines, of, strict=True):
        groups.setdefault(int(at), []).append(line.number)
    return [tuple(numbers) for numbers in groups.values() if numbers[1:]]


def missing(laid: LaidOut) -> list[int]:
    """The marks some of whose clips miss the framing."""
    return [line.number for line in laid.lines if line.misses]


def framing_unknown(laid: LaidOut) -> bool:
    """Whether clips go into framing whose place is not given."""
    return not laid.clips and any(map(on_rafters, laid.case.hold_down))


def sloped(laid: LaidOut) -> bool:
    """Whether the row climbs along the wall, so that its marks are none of a level plate."""
    return laid.design.shape.tilt.across


def stud_marks(laid: LaidOut) -> list[float] | None:
    """Near edge of the stud over the middle of each outrigger, from the datum; None where the case
    does not put studs there, or the row is sloped."""
    wall = laid.case.garage_wall
    if not wall.studs_over_outriggers or sloped(laid):
        return None
    wide = STUD_IN if wall.studs is None else dressed.read_size(wall.studs.size).b
    return [float(line.piece.centre) - wide / 2 for line in laid.lines]


def blocks_along(laid: LaidOut) -> list[float] | None:
    """Middle of each block, in from the outer end of a piece; None: not given."""
    blocking = laid.case.outrigger.blocking
    if blocking is None:
        return None
    shape = laid.design.shape
    end, tail, back = (float(x[0, 0]) for x in (shape.end, shape.tail, shape.back_span))
    places = {WALL_LINE: tail, EDGE: end, BACK: end + back}
    return sorted(places[one] if isinstance(one, str) else end + one for one in blocking)
