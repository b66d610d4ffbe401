"""What is needed and the case does not give, with who may know it."""

from collections.abc import Iterator

from outrigger.actions.geometry import truss_spacing
from outrigger.base.quantity import NONE, length
from outrigger.cases.model import Case
from outrigger.loads.layers import LIGHT_SIDE
from outrigger.verdict.missing_fact import CODE, DESIGNER, ENGINEER, FRAMER, TRUSS, NotGiven
from outrigger.verdict.unsaid_clips import of_hold_down
from outrigger.wood import lumber

INVENTED = "invented"  # of a source: its value is made up
LINE_LOADS = ("D", "L", "Lr", "S")


def snows(case: Case) -> bool:
    """Whether there is snow on the garage roof or on its truss sheet."""
    line = case.garage_roof.line
    return any((case.snow.ground, case.snow.roof, line and line.S))


def windless(case: Case) -> bool:
    """Whether the file says that there is no wind at all."""
    return no_uplift(case) and case.wind.down == 0


def no_uplift(case: Case) -> bool:
    """Whether the file says that no wind lifts."""
    return case.wind.uplift is not None and not case.wind.uplift


def not_given(case: Case) -> list[NotGiven]:
    """Every load or condition that is needed and absent: the verdict is then at most open."""
    rows = [*_roof(case), *_weather(case), *_wall_and_house(case), *_member(case)]
    for i, hold in enumerate(case.hold_down):
        rows += of_hold_down(case, i, hold)
    return list(
        dict.fromkeys([*rows, *_made_up(case), *_by_layers(case), *_taken(case), *_joint(case)])
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
        computed = computed and bool(case.garage_roof.span)  # of a gable wall it may be left out
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
    if wind.uplift is not None and wind.down is None:
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
        "building_movement": "how far do the two buildings move against each other, or none?",
    }
    if limits.joint_width is not None:
        asked["joint_class"] = "class of the sealant (ASTM C920)?"
        asked["below_clearance"] = "free space under the garage wall?"
    for key, question in asked.items():
        if getattr(limits, key) is None:
            yield NotGiven(f"limits.{key}", question, DESIGNER, bears=False)
