"""What the case leaves unsaid: not given, not covered, taken by default, stated as none."""

from collections.abc import Iterator
from typing import Any

from msgspec import Struct

from outrigger.actions.geometry import truss_spacing
from outrigger.actions.places import place_name
from outrigger.base.quantity import length
from outrigger.cases import described
from outrigger.cases.fields import NONE
from outrigger.cases.listing import read_base
from outrigger.cases.model import Case
from outrigger.cases.sections import (
    THROUGH,
    Drift,
    HoldDown,
    Sliding,
    built,
    clip_or_through,
    on_rafters,
    through,
)
from outrigger.checks.at_wall import SLIP_IN
from outrigger.loads.layers import LIGHT_SIDE
from outrigger.loads.snow.rules import slope_of
from outrigger.loads.wind.components import edge_zones
from outrigger.marks.bays import crowded, over_openings, points_between
from outrigger.marks.of_case import clips_off, missing
from outrigger.wood import lumber

ENGINEER, TRUSS, FRAMER = "engineer of record", "truss designer", "framer on site"
CODE, MAKER, DESIGNER = "building department", "maker's listing", "designer"
RUN = "layout.run"
INVENTED = "invented"  # of a source: its value is made up
JUST_OVER = 1.005  # under it two digits say 1.00
LINE_LOADS = ("D", "L", "Lr", "S")


class NotGiven(Struct, frozen=True):
    """Something needed that the file does not say: its key, the question, who may know; `lack`,
    what is wrong with it; `bears`: a load or a strength hangs on it, so that nothing can be said
    to work without it."""

    key: str
    question: str
    who: str
    lack: str = "not given"
    bears: bool = True

    @property
    def line(self) -> str:
        """What to add to the file."""
        section, _, field = self.key.rpartition(".")
        if self.key == "wall_tie":
            return "[wall_tie] count, rated_uplift, rated_lateral, rated_for; or fastener, count"
        if not section:
            return '[[hold_down]] at = "back", count, rated_uplift, rated_for, into ...'
        header = "[[hold_down]]" if section.startswith("hold_down") else f"[{section}]"
        return f"{header} {field} = {described.of(self.key).shown}"


def snows(case: Case) -> bool:
    """Whether there is snow on the garage roof or on its truss sheet."""
    line = case.garage_roof.line
    return any((case.snow.ground, case.snow.roof, line and line.S))


def windless(case: Case) -> bool:
    """Whether the file says that there is no wind at all."""
    return _no_uplift(case) and not case.wind.down


def _no_uplift(case: Case) -> bool:
    return case.wind.uplift is not None and not case.wind.uplift


def not_given(case: Case) -> list[NotGiven]:
    """Every load or condition that is needed and absent: the verdict is then at most open."""
    rows = [*_roof(case), *_weather(case), *_wall_and_house(case), *_member(case)]
    for i, hold in enumerate(case.hold_down):
        rows += _hold_down(case, i, hold)
    return list(
        dict.fromkeys([*rows, *_made_up(case), *_by_layers(case), *_taken(case), *_joint(case)])
    )


def run(ratio: float | None) -> NotGiven:
    """How long the wall is, where it decides; ratio: of the second outrigger from each end."""
    used = ""
    if ratio is not None and ratio > 1:
        used = f" ({ratio:.2f})" if ratio >= JUST_OVER else " (just over 1)"
    may = f"the second outrigger from each end may be over{used}"
    return NotGiven(
        RUN,
        f"say how long the wall is (layout.run): {may}. Two side by side there share it.",
        FRAMER,
        f"not given: {may}",
        bears=False,  # what hangs on it is counted: while that one is over, nothing works
    )


def _roof(case: Case) -> Iterator[NotGiven]:
    roof = case.garage_roof
    if not roof.bearing:
        if roof.dead is None and roof.strip_dead is None:
            yield NotGiven(
                "garage_roof.strip_dead", "dead load of the roof over the gap?", DESIGNER
            )
    elif roof.dead is None:
        yield NotGiven("garage_roof.dead", "dead load of the garage roof, per plan area?", TRUSS)
    if roof.live is None:
        yield NotGiven("garage_roof.live", "roof live load, or none?", CODE)
    if roof.line is not None:
        for part in LINE_LOADS:
            if getattr(roof.line, part) is None:
                yield NotGiven(
                    f"garage_roof.line.{part}", f"{part} on the garage wall, or 0?", TRUSS
                )
        for part in ("W_up", "W_down"):
            if getattr(roof.line, part) is None and not windless(case):
                yield NotGiven(
                    f"garage_roof.line.{part}", f"{part} on the garage wall, or 0?", TRUSS
                )
    elif roof.bearing and roof.storage is None:
        yield NotGiven("garage_roof.storage", "attic storage on the trusses, or none?", TRUSS)


def _weather(case: Case) -> Iterator[NotGiven]:
    snow, wind, seismic = case.snow, case.wind, case.seismic
    if snow.ground is None and snow.roof is None:
        yield NotGiven("snow.ground", "ground snow load, or none?", CODE)
    if snows(case):
        if snow.drift is None and snow.drift_line is None:
            yield NotGiven("snow.drift", "snow drifted against the house wall, or none?", ENGINEER)
        if snow.sliding is None:
            yield NotGiven("snow.sliding", "snow sliding off the house roof, or none?", ENGINEER)
        ridged = case.garage_roof.shape in ("gable", "hip", None)
        computed = case.garage_roof.shape is not None and snow.ground is not None
        computed = computed and case.garage_roof.line is None  # its sheet may hold it, or not
        modern = case.basis.loads == "ASCE 7-22" and snow.winter_wind is None
        if snow.unbalanced is None and ridged and (not computed or modern):
            question = "unbalanced snow, or the roof's shape?"
            if case.garage_roof.line is not None and snow.ground is not None:
                question = "does line.S hold the unbalanced snow, or none?"
            yield NotGiven("snow.unbalanced", question, ENGINEER)
    derives = snow.ground or wind.speed is not None
    if derives and case.garage_roof.pitch is None:
        yield NotGiven("garage_roof.pitch", "pitch of the garage roof? [flat taken]", DESIGNER)
    if wind.speed is not None and case.garage_roof.shape is None:
        yield NotGiven("garage_roof.shape", "shape of the garage roof? [gable taken]", DESIGNER)
    if wind.uplift is None and wind.speed is None:
        yield NotGiven("wind.uplift", "net wind uplift on the garage roof, or none?", ENGINEER)
    if wind.uplift and wind.down is None:
        yield NotGiven("wind.down", "wind pressing down on the garage roof, or none?", ENGINEER)
    if seismic.category is None:
        yield NotGiven("seismic.category", "seismic design category, or none?", CODE)
    elif seismic.category not in (NONE, "A") and seismic.sds is None and not seismic.exempt:
        yield NotGiven("seismic.sds", "SDS of the site?", CODE)


def _wall_and_house(case: Case) -> Iterator[NotGiven]:
    wall, house = case.garage_wall, case.house_roof
    asked = {
        "height": ("height of the garage wall on the outriggers, or none?", DESIGNER),
        "dead": ("weight of the garage wall, per area?", DESIGNER),
        "out_of_plane_wind": ("wind square to the garage wall, or none?", ENGINEER),
        "along": ("force along the wall on the outriggers, or none?", ENGINEER),
        "studs_over_outriggers": ("does a stud stand over every outrigger?", FRAMER),
    }
    if case.wind.speed is not None and wall.height:
        del asked["out_of_plane_wind"]  # follows from the wind speed
    for key, (question, who) in asked.items():
        if getattr(wall, key) is None:
            yield NotGiven(f"garage_wall.{key}", question, who)
    asked = {
        "dead": ("dead load that lies on the back span, or none?", DESIGNER),
        "live": ("roof live load on the back span, or none?", CODE),
        "snow": ("snow on the back span, or none?", ENGINEER),
        "wind_uplift": ("wind suction on the back span, or none?", ENGINEER),
        "edge_support": ("what stands right below the house wall?", FRAMER),
    }
    if case.snow.ground is not None and case.snow.roof is None:
        del asked["snow"]  # follows from the ground snow
    if case.wind.speed is not None:
        del asked["wind_uplift"]  # follows from the wind speed
    for key, (question, who) in asked.items():
        if getattr(house, key) is None:
            yield NotGiven(f"house_roof.{key}", question, who)


def _member(case: Case) -> Iterator[NotGiven]:
    piece = case.outrigger
    if recalled := lumber.wood(piece.species, piece.grade, piece.size).row.recalled:
        question = f"{recalled}. What does the printed table say?"
        yield NotGiven("outrigger.grade", question, ENGINEER, "not read in print")
    if case.outrigger.moisture is None:
        yield NotGiven("outrigger.moisture", "dry or wet in service?", DESIGNER)
    if case.outrigger.blocking is None:
        yield NotGiven("outrigger.blocking", "which places are blocked? [] for none", FRAMER)
    if not case.hold_down:
        yield NotGiven("hold_down", "what holds the back of the outrigger down?", DESIGNER)


def _hold_down(case: Case, i: int, hold: HoldDown) -> Iterator[NotGiven]:
    key, name = f"hold_down[{i}]", place_name(hold.at, case.outrigger.back_span)
    if hold.into is None:
        yield NotGiven(f"{key}.into", f"does the {name} clip reach framing?", FRAMER)
    yield from _rafters(case, hold)
    if hold.rated_uplift is None:
        if not built(hold):
            yield _kind_of(hold, key, name)
            return
        if case.house_roof.sheathing_thickness is None:
            question = "thickness of the roof sheathing under the clips? [3/4 in taken]"
            yield NotGiven("house_roof.sheathing_thickness", question, FRAMER)
        if hold.side_fastener and hold.side_height is None:
            question = f"how high above the sheathing is the {name} clip's top fastener?"
            yield NotGiven(f"{key}.side_height", question, FRAMER)
        return
    if hold.rated_for is None:
        question = f"for which loads is the {name} clip's value listed? (computed as wind)"
        yield NotGiven(f"{key}.rated_for", question, MAKER)
    if hold.rated_wood is None:
        yield NotGiven(f"{key}.rated_wood", f"for which wood is the {name} clip listed?", MAKER)
    if not hold.rated_into:
        question = f"into what is the {name} clip listed, through which sheathing?"
        yield NotGiven(f"{key}.rated_into", question, MAKER)
    elif read_base(hold.rated_into).thickness and case.house_roof.sheathing_thickness is None:
        question = "thickness of the roof sheathing under the clips?"
        yield NotGiven("house_roof.sheathing_thickness", question, FRAMER)
    if not hold.rated_source:
        question = f"report and page of the {name} clip's listing?"
        yield NotGiven(f"{key}.rated_source", question, MAKER, bears=False)
    if not hold.rated_across_grain and hold.side_height is None and not through(hold):
        question = f"is the {name} clip listed across the grain, or how high are its fasteners?"
        yield NotGiven(f"{key}.rated_across_grain", question, MAKER)


def _kind_of(hold: HoldDown, key: str, name: str) -> NotGiven:
    """What is asked of a place that says neither a listed value nor all of its fasteners."""
    if clip_or_through(hold):
        question = (
            f"at the {name}, a clip (then its side fasteners), or a screw down through the "
            'outrigger (kind = "through")?'
        )
        return NotGiven(f"{key}.side_fastener", question, FRAMER)
    if hold.kind == THROUGH:
        question = f"which screw or lag goes down through the outrigger at the {name}?"
        return NotGiven(f"{key}.deck_fastener", question, DESIGNER)
    return NotGiven(f"{key}.rated_uplift", f"listed uplift of one {name} {hold.kind}?", MAKER)


def _rafters(case: Case, hold: HoldDown) -> Iterator[NotGiven]:
    """Where the wood is that a place into framing must find."""
    house = case.house_roof
    if hold.into != "framing":
        return
    if house.framing_parallel is None:
        question = "do the house rafters run parallel to the outriggers?"
        yield NotGiven("house_roof.framing_parallel", question, FRAMER)
    if house.framing_spacing is None and house.framing_at is None:
        question = "how far apart are the house rafters, and where is the first?"
        yield NotGiven("house_roof.framing_spacing", question, FRAMER)


def _made_up(case: Case) -> Iterator[NotGiven]:
    """Sources that say of their value that it is invented, in a case that is no sample."""
    if case.project.invented:
        return
    texts = {f"{key}_source": text for key, text in case.sources.items()}
    texts |= {f"hold_down[{i}].rated_source": hold.rated_source
              for i, hold in enumerate(case.hold_down)}  # fmt: skip
    if case.wall_tie is not None:
        texts["wall_tie.rated_source"] = case.wall_tie.rated_source
    for key, text in texts.items():
        if text and INVENTED in text.lower():
            question = "its source says that the value is invented: what is the real one?"
            yield NotGiven(key, question, DESIGNER, INVENTED)


def _by_layers(case: Case) -> Iterator[NotGiven]:
    """Dead loads summed from layers, on the heavy side, where wind that lifts is held against
    them."""
    if windless(case):
        return
    for key, text in case.sources.items():
        if LIGHT_SIDE in text:
            question = "a sum of usual layers, heavier than may be: what does it weigh at least?"
            who = TRUSS if key.startswith("garage_roof.") else DESIGNER
            yield NotGiven(key, question, who, "known on the heavy side only, and wind lifts")


def _taken(case: Case) -> Iterator[NotGiven]:
    """Not given, computed with the value in brackets."""
    house, roof = case.house_roof, case.garage_roof
    if house.pitch is None:
        yield NotGiven("house_roof.pitch", "pitch of the house roof? [0:12 taken]", FRAMER)
    elif house.pitch and house.direction is None:
        question = "do the outriggers run down or across the slope?"
        yield NotGiven("house_roof.direction", question, FRAMER)
    if roof.bearing and roof.member_spacing is None:
        apart = truss_spacing(case)
        taken = apart if isinstance(apart, str) else length(apart)
        question = f"spacing of the roof members? [{taken} taken]"
        yield NotGiven("garage_roof.member_spacing", question, TRUSS)
    if roof.bearing and roof.overhang is None:
        yield NotGiven("garage_roof.overhang", "overhang at this wall? [none taken]", TRUSS)
    if case.gap.house_finish is None:
        question = "thickness of the house finish at the gap? [1/2 in taken]"
        yield NotGiven("gap.house_finish", question, FRAMER)
    if case.garage_wall.plate_species is None:
        yield NotGiven("garage_wall.plate_species", "species of the plate? [335 psi taken]", FRAMER)
    if house.framing_species is None:
        question = "species of the house framing? [335 psi, G 0.36 taken]"
        yield NotGiven("house_roof.framing_species", question, FRAMER)


def _joint(case: Case) -> Iterator[NotGiven]:
    limits = case.limits
    if limits.joint_width is None and limits.below_clearance is None:
        return
    asked = {
        "moisture_change": "change of moisture content of the outrigger?",
        "clip_slip": "slip of the clip at its listed value, or none?",
    }
    if limits.joint_width is not None:
        asked["joint_class"] = "class of the sealant (ASTM C920)?"
        asked["below_clearance"] = "free space under the garage wall?"
    for key, question in asked.items():
        if getattr(limits, key) is None:
            yield NotGiven(f"limits.{key}", question, DESIGNER, bears=False)


def not_covered(case: Case) -> list[str]:
    """Stated keys that the program does not compute yet: the verdict is then never a pass."""
    snow, roof = case.snow, case.garage_roof
    blown = case.wind.speed is not None
    drawn = isinstance(snow.drift, Drift) or isinstance(snow.sliding, Sliding)
    shed = drawn and (roof.line is not None or snow.ground is None)
    short = isinstance(snow.drift, Drift) and (roof.span or 0.0) > snow.drift.garage_length
    listed = {
        "snow.drift.garage_length: shorter than the roof's span": short,
        "snow.drift, sliding: their geometry without the ground snow, or beside a line load": shed,
        "wind.speed: a hip or one-way roof (pressures of a gable taken)": blown
        and roof.shape not in (None, "gable"),
        "wind.zone: no zone along the edge at the wall (taken as stated)": _off_edge(case),
        "house_roof.framing_spacing: which clips land on framing": not _lands(case),
    }
    found = [text for text, stated in listed.items() if stated]
    found += [f"layout.openings: the header over them, {one}" for one in over_openings(case)]
    if close := crowded(case):
        said = ", ".join(close)
        found.append(f"clips without room for their feet: {said}")
    if between := points_between(case):
        found.append(
            f"garage_roof.point: the plate under it, between outriggers at {', '.join(between)}"
        )
    return found + _clips_off(case) + _contradictions(case)


def _clips_off(case: Case) -> list[str]:
    """Clips that miss the framing that they are fastened into: which places, or which marks."""
    if case.layout is None:
        said = ", ".join(f"{at} {length(abs(off))}" for at, off in clips_off(case).items())
        return [f"clips off the framing: {said} from the middle of the rafter"] if said else []
    if not (off := missing(case)):
        return []
    named = ", ".join(map(str, off))
    return [f"clips off the framing: at mark{'s' if off[1:] else ''} {named}"]


def _off_edge(case: Case) -> bool:
    """Whether the stated zone of the roof cannot stand along its edge at the wall."""
    roof, wind = case.garage_roof, case.wind
    if wind.speed is None or wind.method == "main" or wind.zone in (None, "worst"):
        return False
    theta = slope_of(roof.pitch or 0.0)
    return wind.zone not in edge_zones(
        case.basis.loads, theta, "eave" if roof.bearing else "gable end"
    )


def _contradictions(case: Case) -> list[str]:
    """Loads that one place of the file says are there, and another says are not: the truss sheet,
    the roof over the gap, the house roof."""
    line, snow = case.garage_roof.line, case.snow
    snowless = (snow.ground is not None or snow.roof is not None) and not (snow.ground or snow.roof)
    liveless = case.garage_roof.live is not None and not case.garage_roof.live
    found = []
    if snowless and case.house_roof.snow and not (line and line.S):
        found.append("house_roof.snow: beside none of it on the garage roof")
    if line is None:
        return found
    none = {"S": snowless, "W_up": _no_uplift(case), "Lr": liveless}
    some = {"S": snow.ground or snow.roof, "W_up": case.wind.uplift or case.wind.speed,
            "Lr": case.garage_roof.live}  # fmt: skip
    for part, is_none in none.items():
        stated = getattr(line, part)
        if is_none and stated:
            found.append(f"garage_roof.line.{part}: beside none of it on the roof over the gap")
        if stated == 0 and some[part]:
            found.append(f"garage_roof.line.{part}: none, beside some on the roof over the gap")
    return found


def _lands(case: Case) -> bool:
    """Whether every outrigger lies over a parallel rafter, or the framing crosses or is not stated.

    Rafters that cross are looked at place by place; a layout, mark by mark.
    """
    house = case.house_roof
    none = house.framing_spacing is None and house.framing_at is None
    if case.hold_down and not any(map(on_rafters, case.hold_down)):
        return True  # blocks of their own, or the panel: no rafter is looked for
    if none or case.layout is not None or house.framing_parallel is False:
        return True
    if house.framing_at is not None or house.framing_spacing is None or house.framing_offset:
        return False
    over = case.outrigger.spacing / house.framing_spacing
    return abs(over - round(over)) < 1e-9


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
