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
from outrigger.formula.numbers import Num
from outrigger.loads.combinations import SHAKEN
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
    P = over.combine(model.table(model.loads.wall_line))
    note = "all that one outrigger carries, or nothing where it is pulled up"
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


def _wind(member: LoadedMember, height: float) -> Step | None:
    """Wind on the stud in every combination, lb/in; None: there is none."""
    model = member.model
    blown = {part: np.abs(H) for part, H in model.loads.on_wall.items() if part not in SHAKEN}
    if not blown:
        return None
    table = model.table(blown)
    H = given("H_wall", member.main.combinations.combine(table), "lb", "", "in the combination")
    own = model.shape.plan_spacing
    stated = member.case.garage_wall.stud_spacing
    apart = own if stated is None else np.full((1, 1), stated)
    note = "studs as far apart as the outriggers, taken" if stated is None else "as stated"
    s = given("s_stud", apart, "in", "", note)
    return wind_on_stud.step(H_wall=H, h_stud=height, s_stud=s, s_plan=own)
