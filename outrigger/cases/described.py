"""Every key of a case file in a few words: what it is, a value of the right form, its question.

The one place for it: the schema, `new --keys`, the ask sheet and the questions of `check` take it
from here. It stands apart from the models, which are built at each start.
"""

import re
from typing import Any, NamedTuple

LOAD = '"... psf", or "none" if there is none'


class Key(NamedTuple):
    """What a key is; a value of the right form, to be replaced by the true one, None where it is a
    load, since none may be invented; how `check` shows it where it is missing, as a value "say"
    where that says nothing else; the question where a case cannot be read without it."""

    about: str
    value: Any = None
    missing: str = ""
    question: str = ""

    @property
    def shown(self) -> str:
        """How it is written, for people."""
        if self.missing or self.value is None:
            return self.missing or LOAD
        if isinstance(self.value, bool):
            return "true or false"
        return f'"{self.value}", say' if isinstance(self.value, str) else f"{self.value}, say"


def of(path: str) -> Key:
    """What is said of a key, by its path, whatever place its hold-down has."""
    path = re.sub(r"\[[^\]]*\]", "", path)
    if path in KEYS:
        return KEYS[path]
    return SOURCE if path.endswith("_source") else Key("")


SOURCE = Key("where the value is from", "report, table, page", '"report, table, page"')
SPECIES, GRADE = "Spruce-Pine-Fir", "No. 2"
LINE = '"... plf", or "0 plf"'
COLUMN = '"wind", "snow", "any duration", ...'

_LOADS = {
    "D": "dead load", "L": "floor or attic load", "Lr": "roof live load", "S": "snow",
    "W_up": "wind that lifts", "W_down": "wind that presses",
}  # fmt: skip


def _loads(table: str, where: str, missing: str = "") -> dict[str, Key]:
    return {f"{table}.{k}": Key(f"{what} {where}", None, missing) for k, what in _LOADS.items()}


KEYS: dict[str, Key] = {
    "base": Key("another case file, whose keys this one shares; its own win", "job.toml"),
    # the job
    "project.name": Key("the job, as on the permit", "Smith house, garage link", "",
                        'what is the job called on the permit? "Smith house, garage link", say.'),
    "project.invented": Key("true where the data is made up: every output then says SAMPLE", False),
    "project.number": Key("number of the job", "17"),
    "project.address": Key("address, as on the permit", "12 Orchard Row"),
    "project.sheet": Key("sheet of the plans", "S2"),
    "project.detail": Key("detail on that sheet", "4"),
    "project.location": Key("where on the building", "north side"),
    "project.house_wall": Key("the house wall it stands on: runs of one wall are added", "north"),
    "project.prepared_by": Key("who prepared it", "A. Builder"),
    "project.checked_by": Key("who checked it", "C. Checker"),
    "project.engineer_of_record": Key("the engineer of record", "B. Engineer"),
    "project.revision": Key("revision of the case", "1"),
    "project.date": Key("its date", "2 March 2026"),
    # the rules
    "basis.method": Key("ASD or LRFD", "ASD"),
    "basis.loads": Key("edition of ASCE 7 that the code adopts", "ASCE 7-16", "",
                       "which code year has the building department adopted? "
                       '"ASCE 7-16" or "ASCE 7-22".'),
    "basis.wood": Key("edition of the NDS", "NDS 2018"),
    "basis.code": Key("code and year on the permit", "2021"),
    "basis.jurisdiction": Key("whose code it is", "the county"),
    "basis.amendments": Key("local amendments", "none known"),
    "basis.risk_category": Key("risk category of the building", "II"),
    # the gap
    "gap.width": Key("clear from the house finish to the garage framing", "7 in", "",
                     "how wide is it, clear from the house finish to the garage framing? "
                     '"7 in", say.'),
    "gap.house_finish": Key("thickness of the finish on the house framing", "1/2 in"),
    "gap.garage_plate": Key("width of the plate of the garage wall", "5 1/2 in", "",
                            'how wide is the plate of the garage wall? "5 1/2 in", say.'),
    "gap.edge_bearing": Key("length of solid bearing under an outrigger at the house wall", "3 in",
                            "", "how long is the solid bearing under an outrigger at the house "
                            'wall? "3 in", say.'),
    "gap.edge_setback": Key("outer end of that bearing back from the framing face", "1/2 in"),
    "gap.roof_insulation": Key("thickness of the insulation over the house roof deck", "4 in"),
    # the member
    "outrigger.species": Key("the wood, from its stamp", "SPF", "",
                             'what does the stamp say? "SPF" or "DF-L", say.'),
    "outrigger.grade": Key("the grade, from its stamp", GRADE,
                           '"...", one that outrigger lumber prints without a *',
                           'what does the stamp say? "No. 2", say.'),
    "outrigger.size": Key("the lumber, as sold", "2x8", "", 'which lumber? "2x8", say.'),
    "outrigger.plies": Key("pieces side by side in one outrigger", 2),
    "outrigger.laid": Key("on edge or flat", "on edge"),
    "outrigger.spacing": Key("from one outrigger to the next", "16 in", "",
                             'how far from one outrigger to the next? "16 in", say.'),
    "outrigger.back_span": Key("from the house wall back to the last clip", "5 ft", "",
                               'how far from the house wall back to the last clip? "5 ft", say.'),
    "outrigger.tail": Key("beyond the middle of the garage plate", "2 3/4 in"),
    "outrigger.behind_back": Key("wood beyond the back clip", "3 in"),
    "outrigger.moisture": Key("in service: dry, or wet where rain or dripping can reach it", "dry",
                              '"dry" or "wet"'),
    "outrigger.seasoned": Key("dry when it is put in", True),
    "outrigger.incised": Key("true where the treating left cuts in the wood", False),
    "outrigger.temperature": Key("temperature in service", "to 100 F"),
    "outrigger.repetitive": Key("the repetitive-member factor is claimed", False),
    "outrigger.near_support_relief": Key("loads near a support are left out of shear", False),
    "outrigger.top_notch": Key("depth of a notch in the top at the house wall", "1/2 in"),
    "outrigger.bottom_notch": Key("depth of a notch in the bottom at the house wall", "1/2 in"),
    "outrigger.blocking": Key("where solid blocks stand between the outriggers",
                              ["edge", "back"], '["edge", "back"], or []'),
    "outrigger.blocking_fastening": Key("what holds each end of each block"),
    "outrigger.blocking_fastening.fastener": Key("the nails or screws", "nail 0.148 x 3 in"),
    "outrigger.blocking_fastening.count": Key("how many at one end", 3),
    "outrigger.blocking_fastening.spread": Key("height between the outer two", "4 in"),
    "outrigger.blocking_fastening.driven": Key("how they are driven", "toe-nailed"),
    "outrigger.blocking_to_deck": Key("what holds each block down on the sheathing"),
    "outrigger.blocking_to_deck.fastener": Key("screws or nails up through it into the block",
                                               "wood screw #10 x 2 1/2 in"),
    "outrigger.blocking_to_deck.spacing": Key("from one to the next along a block", "4 in"),
    "outrigger.tipping": Key("what holds tipping where blocks do not: a pair of listed clips",
                             "clips"),
    # the house roof
    "house_roof.pitch": Key("pitch of the house roof, rise in 12", "4:12", '"0:12", say'),
    "house_roof.direction": Key("the way the outriggers run on it", "down the slope",
                                '"down the slope" or "across the slope"'),
    "house_roof.edge_support": Key("what is right below the outriggers at the house wall", "wall",
                                   '"wall", "blocking", "rafter", ...'),
    "house_roof.edge_support_width": Key("its width, along the outrigger", "3 1/2 in"),
    "house_roof.sheathing": Key("what the panel is", "OSB"),
    "house_roof.sheathing_thickness": Key("thickness of the panel, from its stamp", "7/16 in"),
    "house_roof.sheathing_nail": Key("nails of the panel", "nail 0.131 x 2 1/2 in"),
    "house_roof.sheathing_nail_spacing": Key("their spacing along a rafter", "6 in"),
    "house_roof.sheathing_bearing": Key("what the panel takes square to its face, dry", "360 psi"),
    "house_roof.framing_species": Key("the wood of the rafters, from a stamp", SPECIES),
    "house_roof.framing_spacing": Key("spacing of the rafters", "16 in",
                                      '"16 in", say, or framing_at'),
    "house_roof.framing_parallel": Key("true where the rafters run as the outriggers do", True),
    "house_roof.framing_offset": Key("first rafter from the datum of the layout", "8 in"),
    "house_roof.framing_at": Key("places of the rafters, one by one", ["8 in", "24 in"]),
    "house_roof.dead": Key("what lies on the back span, all layers, thick insulation too"),
    "house_roof.live": Key("roof live load of the code on the house roof"),
    "house_roof.snow": Key("snow on the house roof"),
    "house_roof.wind_uplift": Key("wind that lifts the house roof, strength level"),
    "house_roof.wind_down": Key("wind that presses the house roof, strength level"),
    # the garage roof
    "garage_roof.bearing": Key("false where the roof does not stand on this wall", True),
    "garage_roof.form": Key("what the roof is framed of", "trusses"),
    "garage_roof.shape": Key("its shape", "gable", '"gable", "hip", "high at the house", ...'),
    "garage_roof.span": Key("from bearing to bearing, truss sheet", "24 ft"),
    "garage_roof.overhang": Key("overhang beyond this wall", "12 in", '"... in", or "none"'),
    "garage_roof.member_spacing": Key("spacing of the trusses or rafters, or uniform", "24 in",
                                      '"24 in", or "uniform"'),
    "garage_roof.pitch": Key("pitch of the garage roof, rise in 12", "4:12", '"0:12", say'),
    "garage_roof.dead": Key("top and bottom chord together, per plan area, truss sheet"),
    "garage_roof.live": Key("roof live load of the code on the garage roof"),
    "garage_roof.storage": Key("attic storage on the trusses"),
    "garage_roof.reduce_live": Key("roof live load reduced by area and slope", False),
    "garage_roof.strip_dead": Key("weight of the roof over the gap"),
    "garage_roof.line": Key("loads along the wall from a truss sheet, in place of span and psf"),
    **_loads("garage_roof.line", "along the wall", LINE),
    "garage_roof.point": Key("loads at one place of the wall line, a girder truss say"),
    "garage_roof.point.at": Key("how far along the wall", "6 ft"),
    "garage_roof.point.from": Key("what it comes from", "girder truss"),
    **_loads("garage_roof.point", "at that place"),
    # the garage wall
    "garage_wall.height": Key("height of the wall that stands on the outriggers", "3 ft"),
    "garage_wall.dead": Key("its weight, per area"),
    "garage_wall.plate_species": Key("the wood of its plate, from the stamp", SPECIES),
    "garage_wall.plates": Key("how many plates lie on the outriggers", 2),
    "garage_wall.studs_over_outriggers": Key("true where a stud stands over every outrigger", True),
    "garage_wall.stud_spacing": Key("spacing of its studs", "16 in"),
    "garage_wall.studs": Key("its studs, where they are to be checked"),
    "garage_wall.studs.size": Key("their lumber", "2x4"),
    "garage_wall.studs.species": Key("their wood, from the stamp", SPECIES),
    "garage_wall.studs.grade": Key("their grade, from the stamp", "Stud"),
    "garage_wall.out_of_plane_wind": Key("wind square to this wall, strength level; engineer"),
    "garage_wall.along": Key("force along it at the outriggers, strength level; engineer", None,
                             '"... plf", or "none" if there is none'),
    # snow
    "snow.ground": Key("ground snow: building department, or the map of the code"),
    "snow.exposure": Key("Ce, or the words of its table", "B, partially exposed"),
    "snow.thermal": Key("Ct, or the words of its table", "unheated"),
    "snow.importance": Key("Is, ASCE 7-16 alone", 1.0),
    "snow.roof": Key("snow on the garage roof, in place of ground and factors"),
    "snow.drift": Key("snow drifted against the step of the roofs", None,
                      '"none", or its geometry'),
    "snow.drift.on": Key("the roof it lies on", "garage roof"),
    "snow.drift.house_step": Key("from the lower roof up to the upper one at the wall", "9 ft"),
    "snow.drift.house_length": Key("house roof, square to the gap", "40 ft"),
    "snow.drift.garage_length": Key("garage roof, square to the gap", "24 ft"),
    "snow.drift.winter_wind": Key("W2, ASCE 7-22 alone", 0.45),
    "snow.sliding": Key("snow that slides off the house roof", None, '"none", or its geometry'),
    "snow.sliding.house_run": Key("eave to ridge, sloping to the garage", "15 ft"),
    "snow.sliding.house_slope": Key("pitch of that roof, rise in 12", "6:12"),
    "snow.sliding.slippery": Key("true for metal and the like", True),
    "snow.unbalanced": Key("none, or left out where the shape of the garage roof is given", None,
                           '"none", or [garage_roof] shape'),
    "snow.drift_line": Key("drift on the wall line, in place of its geometry", None, LINE),
    "snow.on_house": Key("what the garage wall and roof bring to the house roof", None,
                         '"none", or the table [snow.on_house] beside the ground snow'),
    "snow.on_house.step": Key("top of the garage roof over the house roof at the wall", "5 ft"),
    "snow.on_house.house_length": Key("house roof, square to the gap", "28 ft"),
    "snow.on_house.garage_length": Key("garage roof, square to the gap", "24 ft"),
    "snow.on_house.winter_wind": Key("W2, ASCE 7-22 alone", 0.45),
    "snow.on_house.slippery": Key("garage roof: true for metal and the like", True),
    "snow.roof_r": Key("R-value of the roof, for Ct of ASCE 7-22", 30),
    # wind
    "wind.uplift": Key("wind that lifts the garage roof, net, strength level"),
    "wind.down": Key("wind that presses on the garage roof, net, strength level"),
    "wind.speed": Key("basic wind speed: building department, or the map of the code", "115 mph"),
    "wind.exposure": Key("exposure letter", "B"),
    "wind.mean_height": Key("mean height of the garage roof", "12 ft"),
    "wind.enclosure": Key("enclosed: doors that hold wind shut", "enclosed"),
    "wind.least_plan": Key("shorter side of the garage", "22 ft"),
    "wind.zone": Key("zone of the roof, or worst", "worst"),
    "wind.kzt": Key("factor of a hill", 1.0),
    "wind.elevation": Key("height of the site above the sea", "800 ft"),
    "wind.method": Key("pressures of components, or of the main system", "components"),
    # earthquake
    "seismic.category": Key("seismic design category, as the permit prints it", "B",
                            '"B", say; "none" only where the code says so'),
    "seismic.sds": Key("short-period acceleration SDS, from category B on", 0.2, "0.20, say"),
    "seismic.exempt": Key("true for a detached dwelling that ASCE 7 11.1.2 lets off", False),
    # movement
    "limits.live_deflection": Key("twice the arm over this, for live loads", 240),
    "limits.total_deflection": Key("twice the arm over this, for all loads", 180),
    "limits.joint_width": Key("width of the joint at the garage wall", "1/2 in"),
    "limits.joint_class": Key("class of its sealant, ASTM C920", 50),
    "limits.moisture_change": Key("change of the wood's moisture", "6 %"),
    "limits.clip_slip": Key("slip of a clip at its listed load", "1/8 in"),
    "limits.below_clearance": Key("free space under the wall, down to what stands there", "1 in"),
    "limits.building_movement": Key("movement expected between the two buildings", "1/4 in"),
    # marks
    "layout.datum": Key("where the tape is hooked", "north corner"),
    "layout.run": Key("length of this wall", "24 ft"),
    "layout.start": Key("first mark at half a space, or flush", "half space"),
    "layout.first_mark": Key("first mark from the datum, in place of start", "8 in"),
    "layout.last": Key("last mark flush, or on the spacing", "flush"),
    "layout.double_at_openings": Key("a pair beside each opening", True),
    "layout.double_at": Key("marks with a second piece, counted without any pair", [2, 18]),
    "layout.kerf": Key("width of a saw cut", "1/8 in"),
    "layout.squaring": Key("cut off each stock piece to square it", "1/2 in"),
    "layout.openings": Key("stretches without outriggers, a skylight say"),
    "layout.openings.from": Key("its start from the datum", "8 ft"),
    "layout.openings.to": Key("its end from the datum", "10 ft"),
    "layout.openings.header": Key("who designs the header over it", "by others"),
    "layout.member_offset": Key("first truss from the datum", "12 in"),
    "layout.stock": Key("lengths that the yard sells", ["12 ft", "16 ft"]),
    # the house under the outriggers
    "house_edge.kind": Key("the member right under them at the house wall", "header"),
    "house_edge.size": Key("its lumber", "2x8"),
    "house_edge.plies": Key("pieces side by side in it", 2),
    "house_edge.species": Key("its wood, from the stamp", SPECIES),
    "house_edge.grade": Key("its grade, from the stamp", GRADE),
    "house_edge.moisture": Key("in service: dry or wet", "dry", '"dry" or "wet"'),
    "house_edge.span": Key("from bearing to bearing, or from stud to stud", "3 ft"),
    "house_edge.edge_at": Key("of a rafter: from its outer bearing to the outrigger", "6 in"),
    "house_edge.near_support_relief": Key("loads near a support are left out of shear", False),
    "house_edge.stud": Key("what stands under it"),
    "house_edge.stud.size": Key("its lumber", "2x4"),
    "house_edge.stud.species": Key("its wood, from the stamp", SPECIES),
    "house_edge.stud.grade": Key("its grade, from the stamp", "Stud"),
    "house_edge.stud.height": Key("its height", "8 ft"),
    "house_edge.stud.count": Key("how many stand there", 2),
    "house_edge.stud.wind": Key("wind on the house wall, square to it, strength level"),
    "house_edge.carries": Key("what it carries already", None,
                              '{ D = "... plf", ... }, or "none"'),
    **_loads("house_edge.carries", "along it", LINE),
    "house_edge.ends": Key("how each of its ends is held", None,
                           '{ fastener = "16d common", count = 3 }, say'),
    "house_edge.ends.fastener": Key("the nails through what it ends against", "16d common"),
    "house_edge.ends.count": Key("how many at one end", 3),
    "house_edge.ends.rated_down": Key("listed value of one hanger, down"),
    "house_edge.ends.rated_up": Key("listed value of one hanger, up"),
    "house_edge.ends.rated_for": Key("the column you read", "wind", COLUMN),
    "house_edge.end_bearing": Key("length that each end bears on", "1 1/2 in"),
    "house_rafter.kind": Key("rafter or truss under the inner clips", "rafter"),
    "house_rafter.size": Key("its lumber", "2x8"),
    "house_rafter.species": Key("its wood, from the stamp", SPECIES),
    "house_rafter.grade": Key("its grade, from the stamp", GRADE),
    "house_rafter.spacing": Key("spacing of the rafters", "16 in"),
    "house_rafter.span": Key("from bearing to bearing, level", "12 ft"),
    "house_rafter.overhang": Key("its overhang, level", "12 in"),
    "house_rafter.bearing": Key("length that it bears on the plate", "3 1/2 in"),
    "house_rafter.repetitive": Key("the repetitive-member factor is claimed", False),
    "house_rafter.edge_tie": Key("what ties it to the wall plate, as listed"),
    "house_rafter.edge_tie.rated": Key("listed uplift of that tie"),
    "house_rafter.edge_tie.rated_for": Key("the column you read", "wind", COLUMN),
    # what holds the garage wall
    "wall_tie": Key("what ties the plate of the garage wall to each outrigger"),
    "wall_tie.fastener": Key("screws or lags down through the plate", "lag 3/8 in x 6 in"),
    "wall_tie.count": Key("ties on one outrigger", 2),
    "wall_tie.rated_uplift": Key("listed uplift of one tie", "400 lb", '"... lb", of one tie'),
    "wall_tie.rated_lateral": Key("listed side value of one tie", "150 lb", '"... lb", of one tie'),
    "wall_tie.rated_for": Key("the column you read", "wind", COLUMN),
    "wall_tie.rated_wood": Key("the wood it is listed for", SPECIES),
    "wall_tie.rated_across_grain": Key("true where it is listed for a pull across the grain", True,
                                       "true, or side_height"),
    "wall_tie.rated_source": SOURCE._replace(about="report, table, fastener schedule, page"),
    # clips
    "hold_down.at": Key("back, edge (the house wall), or a length between them", "back"),
    "hold_down.kind": Key("clip, strap, or through: a screw down through the outrigger", "clip"),
    "hold_down.count": Key("clips on one outrigger there", 2),
    "hold_down.rated_uplift": Key("listed uplift of one clip: the maker's table", "400 lb",
                                  '"... lb", of one clip'),
    "hold_down.rated_lateral": Key("listed side value of one clip", "150 lb",
                                   '"... lb", of one clip'),
    "hold_down.rated_for": Key("the column you read", "wind", COLUMN),
    "hold_down.rated_wood": Key("the wood it is listed for", SPECIES),
    "hold_down.rated_into": Key("what its screws go into, as listed",
                                "framing through OSB 7/16 in"),
    "hold_down.rated_across_grain": Key("true where it is listed for a pull across the grain", True,
                                        "true, or side_height"),
    "hold_down.rated_source": SOURCE._replace(about="report, table, fastener schedule, page"),
    "hold_down.into": Key("what its screws reach; blocking: blocks between the rafters", "framing",
                          '"framing", "blocking" or "sheathing only"'),
    "hold_down.foot": Key("how far its foot reaches out beside the outrigger", "1 1/2 in"),
    "hold_down.side_fastener": Key("its fasteners into the outrigger", "10d x 1 1/2 in",
                                   '"10d x 1 1/2 in" and side_fasteners, say; or kind = "through"'),
    "hold_down.side_fasteners": Key("how many of them, each clip", 4),
    "hold_down.side_height": Key("highest of them above the sheathing, or over the top", "4 in",
                                 '"... in", above the sheathing'),
    "hold_down.deck_fastener": Key("its fasteners down into the house", "lag 3/8 in x 9 in",
                                   '"lag 3/8 in x 9 in" and deck_fasteners, say'),
    "hold_down.deck_fasteners": Key("how many of them, each clip", 2),
    "hold_down.steel": Key("its steel", "18 ga"),
    "hold_down.leg_offset": Key("deck fastener from the face of the outrigger", "3/4 in"),
    "hold_down.bend_held": Key("true where its bend is held to the outrigger", True),
    "hold_down.stiffness": Key("stiffness of one clip", "8000 lb/in"),
    "hold_down.edge_distance": Key("fastener to the edge of what it is in", "3/4 in"),
    "hold_down.end_distance": Key("fastener to the end of what it is in", "4 in"),
    "hold_down.fastener_spacing": Key("between two fasteners", "2 in"),
}  # fmt: skip
