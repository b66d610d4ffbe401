"""The questions of `new`, in the order in which a job is told; nothing here states a value."""

from outrigger.cli.answers import (
    YES,
    Fact,
    Question,
    amount,
    choice,
    dead,
    number,
    pitch,
    species,
    stamp,
    text,
)
from outrigger.cli.readings import (
    BACK,
    EDGE,
    LETTERS,
    as_at_the_back,
    bears,
    edition,
    heated,
    member,
    no_roof,
    no_slide,
    no_step,
    on_a_member,
    panel,
    sheet,
    terrain,
    yes_none,
)
from outrigger.verdict.missing_fact import CODE, ENGINEER, FRAMER, MAKER, TRUSS

SUPPORTS = {"wall": "wall", "blocking": "blocking", "rafter": "rafter", "panel only": "panel only",
            "crossing member": "crossing member", "rafter tail": "rafter tail"}  # fmt: skip
BLOCKED = {"wall": ["edge"], "back": ["back"], "both": ["edge", "back"], "none": []}
COLUMNS = {one: one for one in ("wind", "roof live", "snow", "live", "dead", "any duration")}
WAYS = {"down": "down the slope", "down the slope": "down the slope",
        "across": "across the slope", "across the slope": "across the slope"}  # fmt: skip
FORMS = {one: one for one in
         ("trusses", "tied rafters", "rafters with ridge beam", "untied rafters")}  # fmt: skip
SHAPES = {one: one for one in ("gable", "hip", "high at the house", "low at the house")}
INTO = {one: one for one in ("framing", "blocking", "sheathing only")}


def _clips(at: str) -> tuple[Fact, ...]:
    return (number("clips", f"{at}.count", whole=True), choice("into", f"{at}.into", INTO))


def _listed(at: str) -> tuple[Fact, ...]:
    """What a maker's table says of one clip or tie."""
    return (
        amount("listed uplift", "lb", f"{at}.rated_uplift"),
        amount("sideways", "lb", f"{at}.rated_lateral"),
        choice("column", f"{at}.rated_for", COLUMNS),
        species("wood", f"{at}.rated_wood"),
        choice("across the grain", f"{at}.rated_across_grain", YES),
        text("source", f"{at}.rated_source", rest=True),
    )


def _listing(at: str) -> tuple[Fact, ...]:
    """The same of a clip, and what it was tested into."""
    *values, across, source = _listed(at)
    return (*values, text("listed into", f"{at}.rated_into"), across, source)


STEP, SLIDE = "snow.drift", "snow.sliding"
LISTING = "the maker's table: the row of your clip and its screws, the column you read"
QUESTIONS = (
    Question("Job name; address?", "Smith house, garage link; 12 Elm St", "As on the permit.",
             FRAMER, (text("job", "project.name"), text("address", "project.address", also=True)),
             between=";"),
    Question("Code year on the permit: 2018, 2021, 2024?", "2021",
             "The building department. Taken from memory: 2018 and 2021 are ASCE 7-16, 2024 is "
             "ASCE 7-22; ask them which.",
             CODE, (text("loads", "basis.loads"), text("code", "basis.code", also=True)),
             whole=edition),
    Question("Gap, in; thickness of the house finish, in?", "4, 1/2",
             "Tape: clear across the insulation, from the house finish to the garage framing.",
             FRAMER, (amount("gap", "in", "gap.width"),
                      amount("house finish", "in", "gap.house_finish"))),
    Question("Read me size and stamp; dry or wet in service?", "2x6 DF-L #2 dry",
             "The stamp on the face: the wood (SPF, DF-L, HF, SYP) and the grade (No. 2). Dry: "
             "covered, no rain or dripping can reach it.",
             FRAMER, (text("size", "outrigger.size"), text("wood", "outrigger.species"),
                      text("grade", "outrigger.grade"), text("in service", "outrigger.moisture")),
             whole=stamp),
    Question("Spacing, in; back span to the last clip, in?", "16, 30",
             "From one outrigger to the next; from the middle of its bearing on the house wall "
             "back to the last clip.",
             FRAMER, (amount("spacing", "in", "outrigger.spacing"),
                      amount("back span", "in", "outrigger.back_span"))),
    Question("What is right under it at the house wall; how long does it bear there, in?",
             "wall, 3 1/2",
             "wall (plate or studs), blocking, rafter, crossing member, rafter tail, panel only. "
             "Measure the solid bearing along the outrigger.",
             FRAMER, (choice("under it", "house_roof.edge_support", SUPPORTS),
                      amount("bearing", "in", "gap.edge_bearing"))),
    Question("That member: size, wood, grade, clear span in, how long its ends bear in?",
             "2x10, SPF, No. 2, 14 1/2, 1 1/2",
             "Its stamp; the tape between what holds its ends. What it carries already, and what "
             "holds its ends, is asked by the sheet.",
             FRAMER, (Fact("member", ("house_edge.size", "house_edge.kind"), member),
                      species("of", "house_edge.species"), text("grade", "house_edge.grade"),
                      amount("span", "in", "house_edge.span"),
                      amount("bears", "in", "house_edge.end_bearing")), only=on_a_member),
    Question("Solid blocks between them: wall, back, both, none?", "both",
             "At the house wall, at the last clip, or at both.",
             FRAMER, (choice("blocks at", "outrigger.blocking", BLOCKED),)),
    Question("House roof pitch; do the outriggers run down it or across it?", "4:12, down",
             "Rise in 12. At an eave they run down the slope, at a rake across it.",
             FRAMER, (pitch("house pitch", "house_roof.pitch"),
                      choice("running", "house_roof.direction", WAYS))),
    Question("House rafters: wood, spacing in, same way as the outriggers (yes, no)?",
             "SPF, 16, yes", "The stamp on a rafter; the tape.",
             FRAMER, (species("rafters", "house_roof.framing_species"),
                      amount("every", "in", "house_roof.framing_spacing"),
                      choice("same way", "house_roof.framing_parallel", YES))),
    Question("House roof sheathing; what lies on the back span, psf or its layers?",
             "OSB 7/16, shingles + plywood 5/8 + EPS 8",
             "The panel's stamp. Everything above the sheathing, thick insulation and its upper "
             "deck too; layers are weighed by a list, a maker's sheet is better.",
             FRAMER, (Fact("sheathing", ("house_roof.sheathing_thickness",
                                         "house_roof.sheathing"), panel),
                      dead("on the back span", "house_roof.dead", "roof", "house_roof.pitch"))),
    Question("Garage roof on this wall: form, shape, span ft, pitch; or none?",
             "trusses, gable, 22, 4:12",
             "The truss sheet. Form: trusses, tied rafters, rafters with ridge beam, untied "
             "rafters. Shape: gable, hip, high at the house, low at the house.",
             TRUSS, (choice("form", "garage_roof.form", FORMS),
                     choice("shape", "garage_roof.shape", SHAPES),
                     amount("span", "ft", "garage_roof.span"),
                     pitch("pitch", "garage_roof.pitch")), whole=no_roof, only=bears),
    Question("Its spacing in, overhang at this wall in, dead psf or layers, attic storage psf, "
             "sheet?", "24, 12, 15, none, truss sheet 3",
             "The truss sheet: top and bottom chord dead load together.",
             TRUSS, (amount("spacing", "in", "garage_roof.member_spacing"),
                     amount("overhang", "in", "garage_roof.overhang"),
                     dead("dead load", "garage_roof.dead", "roof", "garage_roof.pitch"),
                     amount("storage", "psf", "garage_roof.storage"),
                     Fact("sheet", ("garage_roof.dead_source",), sheet, also=True, rest=True)),
             only=bears),
    Question("Garage wall on the outriggers: height ft, plate width in, wood of the plate, a stud "
             "over each outrigger (yes, no), psf or layers?",
             "3, 3 1/2, SPF, yes, 2x4 studs + OSB 7/16 + gypsum 1/2",
             "The wall between the outriggers and the garage roof; its weight by its area.",
             FRAMER, (amount("wall height", "ft", "garage_wall.height"),
                      amount("plate", "in", "gap.garage_plate"),
                      species("of", "garage_wall.plate_species"),
                      choice("studs over outriggers", "garage_wall.studs_over_outriggers", YES),
                      dead("weight", "garage_wall.dead", "wall"))),
    Question("From the building department: ground snow psf, roof live psf, wind mph, exposure "
             "letter, seismic letter, SDS from B on?", "25 20 115 B A",
             "One call: ground snow load, roof live load, wind speed, wind exposure B, C or D, "
             "seismic design category, and SDS.",
             CODE, (amount("ground snow", "psf", "snow.ground"),
                    amount("roof live on both roofs", "psf", "garage_roof.live", "house_roof.live"),
                    amount("wind", "mph", "wind.speed"),
                    choice("exposure", "wind.exposure", LETTERS),
                    text("seismic category", "seismic.category"),
                    number("SDS", "seismic.sds", also=True))),
    Question("The garage: mean roof height ft, shorter side ft, enclosed or partially enclosed, "
             "snow terrain and how windswept, heated or unheated?",
             "12, 22, enclosed, B partly, unheated",
             "Enclosed: doors that hold wind shut. Snow: terrain letter, then windswept, partly or "
             "sheltered. A heated garage under ASCE 7-22: the roof's R-value, R30.",
             FRAMER, (amount("mean height", "ft", "wind.mean_height"),
                      amount("shorter side", "ft", "wind.least_plan"),
                      choice("enclosure", "wind.enclosure",
                             {one: one for one in ("enclosed", "partially enclosed")}),
                      Fact("snow terrain", ("snow.exposure",), terrain),
                      Fact("garage", ("snow.thermal", "snow.roof_r"), heated))),
    Question("A step of the roofs that snow drifts against: height ft, length of the house roof "
             "ft, of the garage roof ft, on garage roof, house roof or both; or none?",
             "9, 40, 24, garage roof",
             "Step: from the lower roof up to the upper one at the wall; snow lies on the lower. "
             "Lengths square to the gap. ASCE 7-22 asks the winter wind factor W2 last.",
             FRAMER, (amount("step", "ft", f"{STEP}.house_step"),
                      amount("house roof", "ft", f"{STEP}.house_length"),
                      amount("garage roof", "ft", f"{STEP}.garage_length"),
                      choice("on", f"{STEP}.on",
                             {"garage roof": "garage roof", "house roof": "house roof",
                              "both": "both"}),
                      number("winter wind", f"{STEP}.winter_wind", also=True)), whole=no_step),
    Question("A house roof that slopes to the garage roof below it, so that snow slides off: eave "
             "to ridge ft, pitch, metal (yes, no); or none?", "15, 6:12, no",
             "Metal and other slippery roofs shed more.",
             FRAMER, (amount("eave to ridge", "ft", f"{SLIDE}.house_run"),
                      pitch("pitch", f"{SLIDE}.house_slope"),
                      choice("metal", f"{SLIDE}.slippery", YES)), whole=no_slide),
    Question("Clips at the back, on each outrigger: how many; screws into framing, blocking or "
             "sheathing only?", "2, framing", "Look under the feet: is a rafter there?",
             FRAMER, _clips(BACK)),
    Question("Their listing: uplift lb of one, sideways lb, column, wood, into what, across the "
             "grain (yes, no), page?",
             "420, 160, wind, DF-L, framing through OSB 7/16 in, yes, table 3 page 12",
             LISTING, MAKER, _listing(BACK), only=lambda given: f"{BACK}.count" in given),
    Question("Clips at the house wall: how many, into what; same, or none?", "same",
             "Needed where wind lifts the garage roof.",
             FRAMER, _clips(EDGE), whole=as_at_the_back),
    Question("Their listing: uplift lb of one, sideways lb, column, wood, into what, across the "
             "grain (yes, no), page?",
             "420, 160, wind, DF-L, framing through OSB 7/16 in, yes, table 3 page 12",
             LISTING, MAKER, _listing(EDGE), only=lambda given: f"{EDGE}.count" in given),
    Question("What ties the plate of the garage wall down to each outrigger: how many, uplift lb "
             "of one, sideways lb, column, wood, across the grain (yes, no), page?",
             "1, 420, 160, wind, DF-L, yes, table 3 page 12",
             "A listed tie. Screws or lags down through the plate: wall_tie.fastener in the file.",
             MAKER, (number("ties", "wall_tie.count", whole=True), *_listed("wall_tie"))),
    Question("Does the garage brace itself, so that nothing pushes this wall along it? Yes, or "
             "no, or the force, plf", "yes",
             "Its own bracing takes it, not the outriggers. If you do not know, leave it: the "
             "engineer is asked.",
             ENGINEER, (yes_none("force along", "garage_wall.along", "plf"),)),
    Question("Is this wall held in and out, so that wind square to it does not push the "
             "outriggers? Yes, or no, or psf", "yes",
             "If you do not know, leave it: it follows from the wind speed, or the engineer is "
             "asked.",
             ENGINEER, (yes_none("wind square to it", "garage_wall.out_of_plane_wind", "psf"),),
             only=lambda given: "wind.speed" not in given),
)  # fmt: skip
