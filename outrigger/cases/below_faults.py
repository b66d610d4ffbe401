"""What is wrong with the tables of what carries on, each by itself and beside the house roof."""

from collections.abc import Iterator, Mapping
from typing import Any

from outrigger.base.errors import InputError
from outrigger.base.quantity import length
from outrigger.cases.below import (
    BLOCKING,
    CROSSING_MEMBER,
    HEADER,
    RAFTER,
    TOP_PLATE,
    HouseEdge,
    HouseRafter,
    MemberEnds,
    WallTie,
    width_of,
)
from outrigger.cases.faults import Fault, unread
from outrigger.fasteners.trade_names import read_fastener
from outrigger.loads.gravity import fastener_gravity
from outrigger.wood import adjusted, dressed, lumber

HAIR_IN = 1e-6
THICKEST_RAFTER_IN = 3.5  # a 4x: blocks between thicker ones are shorter
STANDS_ON = {  # what each kind is called as house_roof.edge_support
    TOP_PLATE: "wall",
    HEADER: "wall",
    BLOCKING: BLOCKING,
    CROSSING_MEMBER: CROSSING_MEMBER,
    RAFTER: RAFTER,
}


def below_faults(parts: Mapping[str, Any]) -> Iterator[Fault]:
    """Every fault of the tables that a case may leave out."""
    if edge := parts.get("house_edge"):
        yield from _house_edge(edge, parts.get("house_roof"))
    if rafter := parts.get("house_rafter"):
        yield from _house_rafter(rafter, parts.get("house_roof"))
    if wall := parts.get("garage_wall"):
        yield from _studs(wall, parts.get("gap"))
    if tie := parts.get("wall_tie"):
        yield from _wall_tie(tie)


def _house_edge(edge: HouseEdge, house: Any) -> Iterator[Fault]:
    key = "house_edge"
    yield from _lumber(key, edge)
    if edge.stud is not None:
        yield from _lumber(f"{key}.stud", edge.stud)
        if edge.kind not in (TOP_PLATE, HEADER):
            yield Fault(f"{key}.stud", f"stands beside kind = {edge.kind}: it has none.")
    if edge.edge_at is not None and edge.kind != RAFTER:
        yield Fault(f"{key}.edge_at", f"stands beside kind = {edge.kind}: it is for a rafter.")
    elif edge.edge_at is not None and edge.edge_at >= edge.span:
        yield Fault(
            f"{key}.edge_at", f"= {length(edge.edge_at)}: beyond the span, {length(edge.span)}."
        )
    yield from _on_its_studs(edge)
    yield from _between_rafters(edge, house)
    if edge.ends is not None:
        yield from _ends(f"{key}.ends", edge.ends, edge.kind)
    support = house.edge_support if house else None
    if support not in (None, STANDS_ON[edge.kind]):
        text = f"= {edge.kind}: beside house_roof.edge_support = {support}. Which is it?"
        yield Fault(f"{key}.kind", text)
    if edge.kind in (BLOCKING, CROSSING_MEMBER, RAFTER):
        yield from _lighter(key, edge.species, house)
    stated = house.edge_support_width if house else None
    wide = None if list(_lumber(key, edge)) else width_of(edge)
    if stated is not None and wide is not None and stated > wide + HAIR_IN:
        text = f"is {length(wide)} wide, and house_roof.edge_support_width says {length(stated)}."
        yield Fault(f"{key}.size", f"= {edge.size}: {text} Which is it?")


def _on_its_studs(edge: HouseEdge) -> Iterator[Fault]:
    """A header that bears on more than the studs under its end are thick."""
    if edge.kind != HEADER or edge.stud is None or edge.end_bearing is None:
        return
    if list(_lumber("house_edge.stud", edge.stud)):
        return  # told by itself
    thick = edge.stud.count * dressed.read_size(edge.stud.size).b
    if edge.end_bearing > thick + HAIR_IN:
        studs = f"{edge.stud.count} of {edge.stud.size}"
        text = f"= {length(edge.end_bearing)}: the studs there, {studs}, are {length(thick)} thick."
        yield Fault("house_edge.end_bearing", f"{text} Which is it?")


def _between_rafters(edge: HouseEdge, house: Any) -> Iterator[Fault]:
    """Blocks whose span is less than clear between the rafters along the outriggers."""
    apart = house.framing_spacing if house and house.framing_parallel else None
    if edge.kind == BLOCKING and apart and edge.span < apart - THICKEST_RAFTER_IN - HAIR_IN:
        text = (
            f"= {length(edge.span)}: house_roof.framing_spacing says {length(apart)}. Which is it?"
        )
        yield Fault("house_edge.span", text)


def _lighter(key: str, species: str, house: Any) -> Iterator[Fault]:
    """Wood that the clips are fastened into, lighter than the framing that they are held to."""
    framing = house.framing_species if house else None
    if framing is not None and fastener_gravity(species) < fastener_gravity(framing):
        text = f"house_roof.framing_species says {framing}, a denser wood, and the clips are held "
        said = f"= {species}: {text}to that. Which is it? Give the lighter there."
        yield Fault(f"{key}.species", said)


def _lumber(key: str, piece: Any) -> Iterator[Fault]:
    try:
        lumber.wood(piece.species, piece.grade, piece.size)
    except InputError as error:
        name, _, said = str(error).partition(" =")
        yield Fault(f"{key}.{name}", f"={said}")


def _house_rafter(rafter: HouseRafter, house: Any) -> Iterator[Fault]:
    key = "house_rafter"
    if rafter.kind == "truss":
        return
    asked = {
        "size": 'which lumber? "2x10", say.',
        "species": 'what does the stamp say? "SPF", say.',
        "grade": 'what does the stamp say? "No. 2", say.',
        "spacing": 'how far from one to the next? "16 in", say.',
        "span": 'how far, horizontally, from bearing to bearing? "12 ft", say.',
    }
    lacking = [name for name in asked if not getattr(rafter, name)]
    yield from (Fault(f"{key}.{n}", f"is not given, and is needed: {asked[n]}") for n in lacking)
    if not set(lacking) & {"size", "species", "grade"}:
        yield from _lumber(key, rafter)
        yield from _repeated(key, rafter)
    if rafter.species:
        yield from _lighter(key, rafter.species, house)
    apart = house.framing_spacing if house else None
    if apart and rafter.spacing and apart != rafter.spacing:
        text = f"= {length(rafter.spacing)}: house_roof.framing_spacing says {length(apart)}."
        yield Fault(f"{key}.spacing", text)


def _repeated(key: str, rafter: HouseRafter) -> Iterator[Fault]:
    """Cr claimed of rafters that are too far apart or too thick for it. NDS 4.3.9."""
    if not rafter.repetitive:
        return
    if rafter.spacing and rafter.spacing > adjusted.REPETITIVE_MOST_IN:
        most = length(adjusted.REPETITIVE_MOST_IN)
        text = f"= true: NDS 4.3.9 asks for {most} at most between members."
        yield Fault(f"{key}.repetitive", text)
    try:
        wood = lumber.wood(str(rafter.species), rafter.grade, str(rafter.size))
        adjusted.repetitive(wood, stated=True)
    except InputError as error:
        if str(error).startswith("repetitive"):  # the rest is told of the lumber
            yield Fault(f"{key}.repetitive", f"={str(error).partition('=')[2]}")


def _studs(wall: Any, gap: Any) -> Iterator[Fault]:
    key = "garage_wall.studs"
    if wall.studs is not None:
        yield from _lumber(key, wall.studs)
        deep = dressed.read_size(wall.studs.size).d
        if gap and deep > gap.garage_plate:
            text = f"= {wall.studs.size}: deeper than the plate, {length(gap.garage_plate)}."
            yield Fault(f"{key}.size", text)


def _ends(key: str, ends: MemberEnds, kind: str) -> Iterator[Fault]:
    rated = (ends.rated_down, ends.rated_up)
    if ends.fastener:
        yield from _fastener(key, ends.fastener, ends.count)
        if kind not in (BLOCKING, CROSSING_MEMBER):
            text = "nails into the end grain of what stands below hold nothing up: give rated_up."
            yield Fault(f"{key}.fastener", text)
        if any(value is not None for value in rated):
            yield Fault(f"{key}.fastener", "stands beside a rated value: give one of them.")
    elif ends.count is not None:
        yield Fault(
            f"{key}.fastener", f"is not given, but {ends.count} of them: name the fastener."
        )
    elif all(value is None for value in rated):
        yield Fault(key, "is empty: give fastener and count, or rated_down and rated_up.")
    if ends.rated_for and all(value is None for value in rated):
        yield Fault(f"{key}.rated_for", "is given, but no rated_down or rated_up.")


def _fastener(key: str, text: str, count: int | None) -> Iterator[Fault]:
    """A fastener that is not read, or not counted."""
    yield from unread(f"{key}.fastener", text, read_fastener)
    if count is None:
        yield Fault(f"{key}.count", f"is not given: how many {text}?")


def _wall_tie(tie: WallTie) -> Iterator[Fault]:
    key, listed = "wall_tie", tie.rated_uplift is not None or tie.rated_lateral is not None
    if tie.fastener:
        yield from _fastener(key, tie.fastener, tie.count)
        if listed:
            yield Fault(f"{key}.fastener", "stands beside a rated value: give one of them.")
    elif not listed:
        yield Fault(key, "is empty: give fastener and count, or rated_uplift and rated_lateral.")
    if tie.rated_for and not listed:
        yield Fault(f"{key}.rated_for", "is given, but no rated_uplift or rated_lateral.")
