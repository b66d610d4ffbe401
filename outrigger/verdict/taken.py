"""What is taken at the word of the file, or for want of one: loads of none, values by default."""

from typing import Any

from outrigger.base.quantity import NONE, length
from outrigger.cases.hold_down import HoldDown, through
from outrigger.cases.model import Case
from outrigger.checks.at_wall import SLIP_IN
from outrigger.checks.loaded_member import width_below


def defaults(case: Case) -> list[str]:
    """Values taken because the file leaves them out, in words."""
    sections: list[tuple[str, Any, dict[str, str]]] = [
        ("project", case.project, {"revision": "revision 0"}),
        ("basis", case.basis, {"method": "method ASD", "wood": "NDS 2018"}),
        ("gap", case.gap, {"edge_setback": "edge bearing flush with the house framing"}),
        (
            "outrigger",
            case.outrigger,
            {
                "plies": "one ply",
                "laid": "on edge",
                "tail": "tail half the garage plate",
                "behind_back": "3 in of member behind the back clip",
                "seasoned": "seasoned lumber",
                "incised": "not incised",
                "temperature": "temperature to 100 F",
                "repetitive": "no repetitive member factor",
                "near_support_relief": "full shear at the edge",
                "top_notch": "no top notch",
                "bottom_notch": "no bottom notch",
            },
        ),
        (
            "house_roof",
            case.house_roof,
            {
                "sheathing_bearing": "sheathing bearing 360 psi",
                "framing_offset": "no framing offset",
            },
        ),
        (
            "garage_roof",
            case.garage_roof,
            {
                "bearing": "the wall bears roof",
                "form": "trusses",
                "strip_dead": "strip dead as roof",
            },
        ),
        ("garage_wall", case.garage_wall, {"plates": "one plate"}),
        (
            "limits",
            case.limits,
            {
                "live_deflection": "live droop to twice the arm / 240",
                "total_deflection": "total droop to twice the arm / 180",
                "clip_slip": f"clips slip {length(SLIP_IN)} at their listed value",
            },
        ),
    ]
    found = [
        words
        for _, section, texts in sections
        for key, words in texts.items()
        if key not in section.model_fields_set
    ]
    if width_below(case) is None:
        found.append(f"what is below the house wall as wide as the bearing there, "
                     f"{length(case.gap.edge_bearing)}")  # fmt: skip
    if any("count" not in h.model_fields_set for h in case.hold_down):
        found.append("one clip at a place")
    if any(_foot_taken(hold) for hold in case.hold_down):
        found.append("feet of the clips 1 1/2 in wide beside the outrigger")
    if case.snow.ground and not case.basis.risk_category:
        found.append("snow of risk category II")
    if case.wind.speed is not None:
        found += ["Kzt 1.0, no hill or ridge"] if case.wind.kzt is None else []
        found += ["wind at elevation 0 ft"] if case.wind.elevation is None else []
    return found


def _foot_taken(hold: HoldDown) -> bool:
    """Whether the foot of a clip into framing is taken as wide as it is."""
    stated = "foot" in hold.model_fields_set or hold.leg_offset is not None
    return hold.into == "framing" and not stated and not through(hold)


def stated_none(case: Case) -> list[str]:
    """Loads that are zero by the user's word."""
    named = {
        "roof dead": case.garage_roof.dead,
        "dead over the gap": case.garage_roof.strip_dead,
        "wall height": case.garage_wall.height,
        "wall weight": case.garage_wall.dead,
        "roof live": case.garage_roof.live,
        "storage": case.garage_roof.storage,
        "snow": case.snow.ground if case.snow.roof is None else case.snow.roof,
        "wind up" if case.wind.down else "wind": case.wind.uplift,
        "wind down": case.wind.down,
        "wind square to the wall": case.garage_wall.out_of_plane_wind,
        "force along the wall": case.garage_wall.along,
        "back span dead": case.house_roof.dead,
        "back span live": case.house_roof.live,
        "back span snow": case.house_roof.snow,
        "back span wind": case.house_roof.wind_uplift,
        "back span wind down": case.house_roof.wind_down,
    }
    if case.house_edge is not None and case.house_edge.stud is not None:
        named["wind on the house wall"] = case.house_edge.stud.wind
    if (line := case.garage_roof.line) is not None:
        named |= {
            f"{one} of the truss sheet": getattr(line, one) for one in type(line).model_fields
        }
    found = [name for name, value in named.items() if value is not None and not value]
    words: dict[str, object] = {"drift": case.snow.drift, "sliding": case.snow.sliding}
    words |= {"snow onto the house roof": case.snow.on_house}
    words |= {"unbalanced": case.snow.unbalanced, "seismic": case.seismic.category}
    return found + [name for name, value in words.items() if value == NONE]
