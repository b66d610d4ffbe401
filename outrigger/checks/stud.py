"""The stud of the garage wall over an outrigger, as a column, where it is given.

All that the outrigger carries comes down through it; wind square to the wall bends it over its own
share of the wall. NDS 2018 3.7, 3.9.
"""

import numpy as np
from msgspec.structs import replace

from outrigger.actions.places import WALL_LINE
from outrigger.checks.bearing import WALL_BEARING, other_wood
from outrigger.checks.loaded_member import COMMON, LoadedMember
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array, Num
from outrigger.loads.parts import SHAKEN
from outrigger.wood import bearing, dressed, lumber
from outrigger.wood.adjusted import Conditions
from outrigger.wood.column import StudLinks, column

STUD = Kind("stud", "stud", stands_at=WALL_LINE)
LINKS = StudLinks(
    Link(STUD, "", ""),
    Link(STUD, "stability", "stability"),
    Link(STUD, "slenderness", "slenderness"),
)
FOOT = Link(WALL_BEARING, "plate under stud", "garage plate under its stud")
STUD_IN = 1.5  # thickness of a stud that is not given


@formula("w_stud", "lb/in", clause="statics: twice what its foot takes, over its height")
def wind_on_stud(H_wall: Num, h_stud: Num, s_stud: Num, s_plan: Num) -> Num:
    """Wind on one stud, from that on one outrigger."""
    return 2 * H_wall / h_stud * s_stud / s_plan


def stud(member: LoadedMember) -> list[Check]:
    """The rows of the stud; none where it is not given, or the wall has no height."""
    wall, over = member.case.garage_wall, member.main.combinations
    if wall.studs is None or not wall.height:
        return []
    rows = column(
        LINKS,
        WALL_LINE,
        wood=lumber.wood(wall.studs.species, wall.studs.grade, wall.studs.size),
        use=Conditions(member.conditions.method, temperature=member.conditions.temperature),
        time=over.times,
        N=_compression(member),
        height=wall.height,
        wind=_wind(member, wall.height),
    )
    return [row if row.link == LINKS.slender else member.over(row) for row in rows]


def foot(member: LoadedMember) -> list[Check]:
    """Crushing of the garage plate under the foot of a stud that is narrower than the outrigger
    below: of several plies, flat, timber. NDS 2018 3.10.2.

    A stud that is said to stand over each outrigger and not given is one of 1 1/2 in, as deep as
    the plate is wide: over 1 open, since there may be two.
    """
    wall, plate = member.case.garage_wall, member.batch.column("gap.garage_plate")
    if not wall.height or not (wall.studs or wall.studs_over_outriggers):
        return []
    size = None if wall.studs is None else dressed.read_size(wall.studs.size)
    b, d = (STUD_IN, plate) if size is None else (size.b, size.d)
    if not np.any(b * d < member.b * member.model.shape.wall_bearing * _on_one(member)):
        return []
    said = f"of the {wall.studs.size} stud" if wall.studs else "of one stud 1 1/2 in thick, taken"
    row = bearing.bearing(
        link=FOOT, place=WALL_LINE, R=replace(_compression(member), symbol="R"),
        b=b, l_bearing=given("l_bearing", d, "in", "" if wall.studs else COMMON, said),
        Fc_perp_adj=other_wood(member, wall.plate_species),
    )  # fmt: skip
    if wall.studs is None:
        why = "more than one stud of 1 1/2 in may bring the plate: say garage_wall.studs"
        row = replace(row, rule="analogy", why=why)
    return [member.over(row)]


def _compression(member: LoadedMember) -> Step:
    """What comes down through one stud in every combination, lb."""
    model, over = member.model, member.main.combinations
    P = over.combine(model.table(model.loads.wall_line)) * _on_one(member)
    note = "all that one outrigger carries, or nothing where it is pulled up"
    if np.any(_on_one(member) > 1):
        note = "all that both of a pair carry: not said that each has a stud"
    return given("N_stud", np.maximum(P, 0.0), "lb", "statics", note)


def _on_one(member: LoadedMember) -> Array:
    """How many outriggers one stud may stand over: both of a pair, but where it is said that one
    stands over each."""
    each = bool(member.case.garage_wall.studs_over_outriggers)
    return np.ones((1, 1)) if each else member.batch.pieces


def _wind(member: LoadedMember, height: float) -> Step | None:
    """Wind on the stud in every combination, lb/in; None: there is none."""
    model = member.model
    blown = {part: np.abs(H) for part, H in model.loads.on_wall.items() if part not in SHAKEN}
    if not blown:
        return None
    table = model.table(blown)
    H = given("H_wall", member.main.combinations.combine(table), "lb", "", "in the combination")
    own = model.shape.plan_spacing
    bay = own * _on_one(member)
    stated = member.case.garage_wall.stud_spacing
    apart = bay if stated is None else np.full((1, 1), stated)
    note = "studs as far apart as the outriggers, taken" if stated is None else "as stated"
    s = given("s_stud", apart, "in", "", note)
    return wind_on_stud.step(H_wall=H, h_stud=height, s_stud=s, s_plan=own)
