"""What the form of `show` calls its questions, its keys and its tables."""

from outrigger.cli.answers import Question, amount, text
from outrigger.cli.readings import BACK, EDGE
from outrigger.verdict.missing_fact import FRAMER

# a title for each question, by its first key, and the keys that its other words set
TITLES: dict[str, tuple[str, tuple[str, ...]]] = {
    "project.name": ("The job", ()),
    "basis.loads": ("Code year on the permit", ()),
    "gap.width": ("The gap", ()),
    "outrigger.size": ("The lumber, by its stamp", ()),
    "outrigger.spacing": ("Spacing and back span", ()),
    "layout.run": ("How long this wall is", ()),
    "house_roof.edge_support": ("Under it at the house wall", ()),
    "house_edge.size": ("That member under it", ()),
    "outrigger.blocking": ("Solid blocks between the outriggers", ()),
    "house_roof.pitch": ("Pitch of the house roof", ()),
    "house_roof.framing_species": ("Rafters of the house", ()),
    "house_roof.sheathing_thickness": ("Sheathing of the house roof, and what lies on it", ()),
    "garage_roof.form": ("Garage roof on this wall", ("garage_roof.bearing",)),
    "garage_roof.member_spacing": ("The truss sheet", ()),
    "garage_wall.height": ("Garage wall on the outriggers", ()),
    "snow.ground": ("From the building department", ()),
    "wind.mean_height": ("The garage, for wind and snow", ()),
    "snow.drift.house_step": ("A step of the roofs that snow drifts against", ("snow.drift",)),
    "snow.sliding.house_run": ("A house roof that sheds snow onto the garage", ("snow.sliding",)),
    f"{BACK}.count": ("Clips at the back, on each outrigger", ()),
    f"{BACK}.rated_uplift": ("Listing of the back clips", ()),
    f"{EDGE}.count": ("Clips at the house wall, on each outrigger", ()),
    f"{EDGE}.rated_uplift": ("Listing of the house wall clips", ()),
    "wall_tie.count": ("Ties of the garage wall, on each outrigger", ()),
    "garage_wall.along": ("A force along the wall", ()),
    "garage_wall.out_of_plane_wind": ("Wind square to the wall", ()),
}
# asked beside the questions of `new`, which begins with one outrigger
RUN = Question(
    "How long is this wall; where is the tape hooked?", "24, north corner",
    "Tape, along the garage wall from end to end. With it every outrigger has its mark, its piece "
    "and its clips; without it one outrigger in a long row is looked at.",
    FRAMER, (amount("length of the wall", "ft", "layout.run"),
             text("tape hooked at", "layout.datum", also=True)),
)  # fmt: skip
# where its answer is found, of a question that is put another way beside fields
WHERE = {
    "garage_wall.along": '"none" where the garage braces itself, so that nothing pushes this wall '
    "along it. If you do not know, leave it: the engineer is asked.",
    "garage_wall.out_of_plane_wind": '"none" where this wall is held in and out, so that wind '
    "square to it does not push the outriggers. If you do not know, leave it: it follows from the "
    "wind speed, or the engineer is asked.",
}
# what a key is called where its own word, or that of its question, is too short beside a field
NAMES = {
    "basis.loads": "edition of ASCE 7", "basis.code": "code year",
    "outrigger.species": "wood", "house_edge.size": "size", "house_edge.kind": "kind of member",
    "house_edge.species": "wood", "house_edge.span": "clear span",
    "house_edge.end_bearing": "bearing of each end",
    "house_roof.edge_support": "what is right under it", "gap.edge_bearing": "solid bearing",
    "house_roof.framing_species": "wood of the rafters",
    "house_roof.framing_spacing": "spacing of the rafters",
    "house_roof.framing_parallel": "same way as the outriggers",
    "house_roof.sheathing_thickness": "sheathing thickness", "house_roof.sheathing": "panel",
    "house_roof.direction": "outriggers run", "garage_roof.member_spacing": "truss spacing",
    "garage_roof.dead_source": "truss sheet", "garage_roof.bearing": "a roof stands on this wall",
    "garage_roof.live": "roof live, garage roof", "house_roof.live": "roof live, house roof",
    "garage_wall.plate_species": "wood of the plate", "gap.garage_plate": "width of the plate",
    "garage_wall.along": "force along, or none",
    "garage_wall.out_of_plane_wind": "wind square to it, or none",
    "garage_wall.studs_over_outriggers": "a stud over each outrigger",
    "wind.speed": "wind speed", "wind.exposure": "wind exposure", "snow.thermal": "garage heated",
    "snow.roof_r": "R-value of its roof", "snow.drift": "drift", "snow.sliding": "sliding snow",
    "snow.drift.house_step": "height of the step",
    "snow.drift.house_length": "length of the house roof",
    "snow.drift.garage_length": "length of the garage roof", "snow.drift.on": "the snow lies on",
    "snow.sliding.slippery": "metal, or as slippery",
}  # fmt: skip
TABLES = {
    "project": "The job", "basis": "The rules", "gap": "The gap", "outrigger": "The outriggers",
    "house_roof": "House roof", "garage_roof": "Garage roof", "garage_wall": "Garage wall",
    "snow": "Snow", "wind": "Wind", "seismic": "Earthquake", "limits": "Limits of movement",
    "layout": "Marks along the wall", "house_edge": "Member under the house wall edge",
    "wall_tie": "Ties of the garage wall", "house_rafter": "House rafters",
    "garage_roof.point": "Point loads on this wall, each by itself",
    "layout.openings": "Stretches of this wall without outriggers",
}  # fmt: skip
