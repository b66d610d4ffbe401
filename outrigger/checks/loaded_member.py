"""What the checks are worked from, and what several of them share."""

from functools import cached_property

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from outrigger.actions import by_hand
from outrigger.actions.combined import Combined
from outrigger.actions.model import Model
from outrigger.actions.places import BACK, EDGE
from outrigger.cases.batch import Batch
from outrigger.cases.below import HEADER, TOP_PLATE, width_of
from outrigger.cases.hold_down import HoldDown
from outrigger.cases.model import Case
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, given
from outrigger.formula.numbers import Array, Num, greatest
from outrigger.loads.gravity import fastener_gravity
from outrigger.wood import deflection, dressed
from outrigger.wood.adjusted import Conditions, adjusted

SHEATHING_PSI = 360.0  # APA TT-001B: dry panel between two solids


SHEATHING_LRFD = 1.5  # by analogy with Fc_perp: KF phi = 1.67 x 0.90


FRAMING_PSI = 335.0  # taken where framing or plate species is not given, and listed


FRAMING_G = 0.36
TABLE_G = "NDS 2018 Table 12.3.3A"


COMMON = "common practice, no source"


BACK_BEARING_IN = 1.5  # where a clip's place is pushed down: common practice, no source


LEAST_CONTACT_IN = 1e-6  # no contact: the stress is then beyond any limit


PLATE_GRADE = "No. 3"  # taken for plates, whose grade the file does not say
PLATE_SPECIES = "Spruce-Pine-Fir (South)"  # taken where the species is not given


PLATE_THICKNESS_IN = 1.5
PLATES = 2  # of the house wall, taken where they are not given: common practice, no source
FRAMING_DEPTH_IN = 3.5  # of the house framing under the sheathing, the least taken
RAFTER_IN = 1.5  # thickness of a rafter that is not given


COOL = "to 100 F"


WALL, BLOCKING, CROSSING_MEMBER = "wall", "blocking", "crossing member"
RAFTER, RAFTER_TAIL, PANEL_ONLY = "rafter", "rafter tail", "panel only"


class LoadedMember(Struct, frozen=True, eq=False, dict=True):
    """What the checks are worked from: the model, the conditions, the combined actions."""

    model: Model
    conditions: Conditions
    main: Combined  # the method's own combinations
    clips: Combined  # the ASD set, for listed values

    @property
    def case(self) -> Case:
        """What is stated alike of every case."""
        return self.model.case

    @property
    def batch(self) -> Batch:
        """The numbers that may differ from case to case."""
        return self.model.batch

    @property
    def holds(self) -> dict[str, HoldDown]:
        """The stated hold-downs by place."""
        return self.model.hold_downs

    @property
    def creep(self) -> Step:
        """Creep factor of the long-term part of a droop."""
        return deflection.creep_factor(self.conditions.wet, self.case.outrigger.seasoned)

    @property
    def b(self) -> float:
        """Breadth of the member, in, all plies."""
        size = self.model.wood.size
        return (size.d if self.flat else size.b) * self.case.outrigger.plies

    @property
    def d(self) -> float:
        """Depth of the member along the load, in."""
        size = self.model.wood.size
        return size.b if self.flat else size.d

    @property
    def flat(self) -> bool:
        """Laid flat."""
        return self.case.outrigger.laid == "flat"

    def adjusted(self, name: str, Cb: Num | Step = 1.0) -> Step:
        """An adjusted design value of the member, in every combination."""
        time: Num = 1.0 if name in ("E", "Emin", "Fc_perp") else self.main.combinations.times
        return adjusted(name, self.model.wood, self.conditions, time, Cb)

    def over(self, check: Check, actions: Combined | None = None) -> Check:
        """The check with the combinations of its actions."""
        return replace(check, combinations=(actions or self.main).combinations.all)

    def closed_pull(self, T: Step, name: str, hand: by_hand.Hand | None) -> Step:
        """The uplift at back or edge by its closed form, where there is one."""
        if hand is None or name not in (BACK, EDGE):
            return T
        closed = hand.back_pull() if name == BACK else hand.edge_pull()
        return by_hand.attach(closed, T.value, by_hand.upward)

    def force(self, symbol: str, value: Array, unit: str, note: str) -> Step:
        """A combined action as a step without its own arithmetic."""
        return given(symbol, value, unit, "statics", note)

    @property
    def own_G(self) -> Step:
        """G of the outrigger for fasteners."""
        species = self.model.wood.row.species
        return given("G", fastener_gravity(species), "", TABLE_G, species)

    @property
    def framing_G(self) -> Step:
        """G of the house framing for fasteners."""
        return self.framing_G_at("")

    def framing_G_at(self, place: str) -> Step:
        """G of the house framing under a place: at the edge of the member there where lighter."""
        G, said = framing_gravity(self.case), self.case.house_roof.framing_species
        edge = self.case.house_edge
        if framing_gravity(self.case, place) < G and edge is not None:
            G, said = framing_gravity(self.case, place), edge.species
        return given("G", G, "", TABLE_G, said or "framing not given")

    def below(self, place: str) -> Conditions:
        """What the wood under a place is used under: at the edge wet where the member there is."""
        edge = self.case.house_edge
        if place == EDGE and edge is not None and edge.moisture == "wet":
            return replace(self.conditions, wet=True)
        return self.conditions

    def depth_below(self, place: str) -> float:
        """Depth of the wood of the house under a place, in: of the framing the least taken, or of
        the member that is given; at the edge on a wall of its plates, two where not given."""
        house, edge, rafter = self.case.house_roof, self.case.house_edge, self.case.house_rafter
        deep = FRAMING_DEPTH_IN
        if place != EDGE:
            return min(deep, dressed.read_size(rafter.size).d) if rafter and rafter.size else deep
        if edge is None:
            return PLATES * PLATE_THICKNESS_IN if house.edge_support == WALL else deep
        if edge.kind == HEADER:  # and the plates on it
            return deep
        size = dressed.read_size(edge.size)
        return min(deep, size.b * edge.plies if edge.kind == TOP_PLATE else size.d)

    @cached_property
    def M_arm(self) -> Array:
        """Moment just outside the edge, lb-in; hogging is negative."""
        inner, couple = self.main.M[-1], self.main.side.couple_edge
        return inner if couple is None else inner + couple

    @cached_property
    def M_edge(self) -> Array:
        """Moment at the edge, lb-in: the larger of its two sides, which forces along tell apart."""
        inner = self.main.M[-1]
        return np.where(np.abs(self.M_arm) > np.abs(inner), self.M_arm, inner)

    @cached_property
    def hand(self) -> by_hand.Hand | None:
        """The same actions by closed forms, where two supports carry the member."""
        return by_hand.hand(self.model, self.main.combinations.factors, self.d)

    @cached_property
    def side_hand(self) -> by_hand.Hand | None:
        """What acts across the member by closed forms."""
        return by_hand.hand(self.model, self.main.combinations.factors, self.d, across=True)

    @cached_property
    def clip_hand(self) -> by_hand.Hand | None:
        """The same for the combinations of the listed values."""
        if self.clips is self.main:
            return self.hand
        return by_hand.hand(self.model, self.clips.combinations.factors, self.d)

    @cached_property
    def clip_side_hand(self) -> by_hand.Hand | None:
        """What acts across, in the combinations of the listed values."""
        return by_hand.hand(self.model, self.clips.combinations.factors, self.d, across=True)


def largest(values: list[Array]) -> Array:
    """Largest size, element by element."""
    return np.asarray(greatest(*(np.abs(v) for v in values)))


def framing_gravity(case: Case, place: str = "") -> float:
    """G of the house framing, 0.36 where its species is not given, and listed; at the edge no more
    than that of the member there, which the fasteners reach."""
    species, edge = case.house_roof.framing_species, case.house_edge
    G = FRAMING_G if species is None else fastener_gravity(species)
    return min(G, fastener_gravity(edge.species)) if place == EDGE and edge is not None else G


def contact(batch: Batch, depth: float) -> Array:
    """Length of contact at the edge, in: no longer than what is below, which begins at the face
    of the framing while the bearing begins at its setback; depth of the member, in."""
    length, below = batch.column("gap.edge_bearing"), width_below(batch.case)
    if below is not None:
        length = np.minimum(length, below - batch.column("gap.edge_setback"))
    if batch.case.house_roof.edge_support == RAFTER:
        length = np.minimum(length, depth)
    return np.maximum(length, 0.0)


def breadth_at(member: LoadedMember, place: str) -> float:
    """Breadth of contact on the house, along the wall, in: on a rafter along the outrigger no more
    than it is thick, 1 1/2 in where it is not given."""
    case, thick = member.case, RAFTER_IN
    if place != EDGE:
        rafter = case.house_rafter
        if not case.house_roof.framing_parallel:
            return member.b
        if rafter is not None and rafter.size:
            thick = dressed.read_size(rafter.size).b
    elif case.house_roof.edge_support not in (RAFTER, RAFTER_TAIL):
        return member.b
    elif case.house_edge is not None:
        thick = dressed.read_size(case.house_edge.size).b * case.house_edge.plies
    return min(member.b, thick)


def width_below(case: Case) -> float | None:
    """Width of what is below the edge, along the outrigger, in: as stated, or that of the member
    there; None: neither is given."""
    stated = case.house_roof.edge_support_width
    if stated is None and case.house_edge is not None:
        return width_of(case.house_edge)
    return stated
