"""The parts of the loads, and what each is called.

Loads come in parts, since the back span may carry its live, snow or wind or not, and its dead
load helps or harms:

    D       dead on the wall line and the arm        D_back  dead on the back span, with its
                                                             own weight
    D_less  of D what a mark of a layout may not have, upward: taken off where D helps
    D_else, W_else  of D and W_up what point loads bring to one outrigger alone, turned about: both
                    make a combination that of an outrigger that they do not stand on
    worker  300 lb at the end                        D_own   its own weight there, while nothing
                                                             else lies on it yet
    L       attic storage on the wall line
    Lr, S   on the wall line and the arm             Lr_back, S_back
    W_up, W_down  on the wall line and the arm       W_back, W_press_back  wind there: suction,
                                                             pressure
    H_away, H_toward  wind square to the garage wall, away from the house and toward it
    A_one, A_other  force along the garage wall, one way (down a slope across it) and the other
    E_away, E_toward  earthquake square to the garage wall, away from the house and toward it

Snow that lies otherwise than balanced is a case of its own: S_min (minimum for low slopes), S_near
and S_far (unbalanced, heavy on this or the other side of the ridge), S_lee and S_wind (drifted
against the house), S_slide (slid off the house), S_house (drifted on the house roof against the
garage wall), S_shed (slid off the garage onto the house roof). Each holds all the snow of its case
on wall line and arm; S_back goes with each.
"""

SNOW_CASES = ("S_min", "S_near", "S_far", "S_lee", "S_wind", "S_slide", "S_house", "S_shed")
PARTS = (
    "D", "D_less", "D_else", "D_back", "D_own", "L", "Lr", "Lr_back", "S", *SNOW_CASES, "S_back",
    "W_up", "W_else", "W_down", "W_back", "W_press_back", "worker", "H_away", "H_toward",
    "A_one", "A_other", "E_away", "E_toward",
)  # fmt: skip
ALONG_WALL = ("A_one", "A_other")
SHAKEN = ("E_away", "E_toward")
BLOWN = ("H_away", "H_toward", *ALONG_WALL)
SIDEWAYS = (*BLOWN, *SHAKEN)  # one at a time: one wind or earthquake, one direction
WORDS = {
    "D": "dead",
    "D_less": "dead not counted against uplift",
    "D_else": "dead of point loads, taken off",
    "W_else": "wind on point loads, taken off",
    "L": "storage",
    "Lr": "roof live",
    "S": "snow",
    "S_min": "minimum snow",
    "S_near": "unbalanced snow, heavy on this side",
    "S_far": "unbalanced snow, heavy on the far side",
    "S_lee": "snow drifted off the house roof",
    "S_wind": "snow drifted across the garage roof",
    "S_slide": "snow slid off the house roof",
    "S_house": "snow drifted on the house roof",
    "S_shed": "snow slid off the garage roof",
    "W_up": "wind up",
    "W_down": "wind down",
    "W_press": "wind pressing",
    "Ev": "earthquake",
    "worker": "one worker at the end",
    "H_away": "wall wind away from the house",
    "H_toward": "wall wind toward the house",
    "A_one": "force along the wall",
    "A_other": "force back along the wall",
    "E_away": "earthquake away from the house",
    "E_toward": "earthquake toward the house",
}
NAMES = {
    **{part: part for part in ("D", "L", "Lr", "S", "Ev")},
    "W_up": "W up", "W_down": "W down",
    "H_away": "H away", "H_toward": "H toward", "A_one": "A", "A_other": "A back",
    "E_away": "E away", "E_toward": "E toward",
    "S_min": "S minimum", "S_near": "S unbalanced near", "S_far": "S unbalanced far",
    "S_lee": "S drift leeward", "S_wind": "S drift windward", "S_slide": "S sliding",
    "S_house": "S drift on the house", "S_shed": "S slid on the house",
}  # fmt: skip
