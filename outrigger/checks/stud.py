"""The stud of the garage wall over an outrigger, as a column, where it is given.

All that the outrigger carries comes down through it; wind square to the wall bends it over its own
share of the wall. NDS 2018 3.7, 3.9.
"""

import numpy as np

from outrigger.actions.places import WALL_LINE
from outrigger.checks.loaded_member import LoadedMember
from outrigger.formula.check import Check
from outrigger.formula.formula import Step, formula, given
from outrigger.formula.kind import Kind, Link
from outrigger.formula.numbers import Array, Num
from outrigger.loads.parts import SHAKEN
from outrigger.wood import lumber
from outrigger.wood.adjusted import Conditions
from outrigger.wood.column import StudLinks, column

STUD = Kind("stud", "stud", stands_at=WALL_LINE)
LINKS = StudLinks(
    Link(STUD, "", ""),
    Link(STUD, "stability", "stability"),
    Link(STUD, "slenderness", "slenderness"),
)


@formula("w_stud", "lb/in", clause="statics: twice what its foot takes, over its height")
def wind_on_stud(H_wall: Num, h_stud: Num, s_stud: Num, s_plan: Num) -> Num:
    """Wind on one stud, from that on one outrigger."""
    return 2 * H_wall / h_stud * s_stud / s_plan


def stud(member: LoadedMember) -> list[Check]:
    """The rows of the stud; none where it is not given, or the wall has no height."""
    wall, model, over = member.case.garage_wall, member.model, member.main.combinations
    if wall.studs is None or not wall.height:
        return []
    P = over.combine(model.table(model.loads.wall_line)) * _on_one(member)
    note = "all that one outrigger carries, or nothing where it is pulled up"
    if np.any(_on_one(member) > 1):
        note = "all that both of a pair carry: not said that each has a stud"
    rows = column(
        LINKS,
        WALL_LINE,
        wood=lumber.wood(wall.studs.species, wall.studs.grade, wall.studs.size),
        use=Conditions(member.conditions.method, temperature=member.conditions.temperature),
        time=over.times,
        N=given("N_stud", np.maximum(P, 0.0), "lb", "statics", note),
        height=wall.height,
        wind=_wind(member, wall.height),
    )
    return [row if row.link == LINKS.slender else member.over(row) for row in rows]


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
