"""Draws of whole designs for two programs: words and plain numbers, and the same as a case file.

A template fixes what a batch has alike; the numbers of COLUMNS are then drawn for each case.
"""

import copy

from second_built import Fastener
from second_values import DRESSED

SPECIES = ("Douglas Fir-Larch", "Hem-Fir", "Spruce-Pine-Fir", "Spruce-Pine-Fir (South)",
           "Southern Pine")  # fmt: skip
PSF = 144.0
FT = 12.0
# what is drawn anew for each case of a batch: the path in the file, and a range in lb and in
COLUMNS = {
    "width": ("gap.width", 2, 14),
    "spacing": ("outrigger.spacing", 12, 30),
    "back_span": ("outrigger.back_span", 20, 90),
    "tail": ("outrigger.tail", 1, 9),
    "behind": ("outrigger.behind_back", 2, 9),
    "finish": ("gap.house_finish", 0.375, 2),
    "span": ("garage_roof.span", 10 * FT, 34 * FT),
    "dead": ("garage_roof.dead", 8 / PSF, 22 / PSF),
    "strip_dead": ("garage_roof.strip_dead", 6 / PSF, 15 / PSF),
    "wall_dead": ("garage_wall.dead", 6 / PSF, 14 / PSF),
    "house_dead": ("house_roof.dead", 6 / PSF, 18 / PSF),
}
# drawn so too where the template has the load at all
LOADS = {
    "live": ("garage_roof.live", 12 / PSF, 25 / PSF),
    "storage": ("garage_roof.storage", 5 / PSF, 20 / PSF),
    "snow": ("snow.roof", 12 / PSF, 70 / PSF),
    "wind_up": ("wind.uplift", 10 / PSF, 60 / PSF), "wind_down": ("wind.down", 5 / PSF, 25 / PSF),
    "house_live": ("house_roof.live", 12 / PSF, 20 / PSF),
    "house_snow": ("house_roof.snow", 12 / PSF, 70 / PSF),
    "house_up": ("house_roof.wind_uplift", 8 / PSF, 40 / PSF),
    "house_down": ("house_roof.wind_down", 5 / PSF, 20 / PSF),
    "square": ("garage_wall.out_of_plane_wind", 10 / PSF, 35 / PSF),
    "along": ("garage_wall.along", 2 / FT, 40 / FT),
    "overhang": ("garage_roof.overhang", 1, 8),
}  # fmt: skip
PLAIN = {"plies": 1, "laid": "on edge", "wet": False, "seasoned": True, "incised": False,
         "temperature": "to 100 F", "repetitive": False, "relief": False, "top_notch": 0.0,
         "bottom_notch": 0.0, "pitch": 0.0, "direction": "down the slope", "category": "",
         "sds": 0.0, "member_spacing": None}  # fmt: skip


def template(rng):
    """What a batch has alike: wood, conditions, places, which loads there are."""

    def maybe(p, yes, no):
        return yes() if rng.random() < p else no

    def pick(*of):
        return of[rng.integers(len(of))]

    n = dict(PLAIN)
    n["species"] = pick(*SPECIES)
    n["grade"] = pick("Select Structural", "No. 1", "No. 2", "No. 3")
    if n["species"] == "Spruce-Pine-Fir":  # prints No. 1 and No. 2 in one row
        n["grade"] = pick("Select Structural", "No. 1/No. 2", "No. 3")
    n["size"] = (int(pick(2, 2, 2, 3, 4)), int(pick(4, 6, 8, 10, 12)))
    n["method"], n["loads"] = pick("ASD", "LRFD"), pick("ASCE 7-16", "ASCE 7-22")
    n["plies"] = int(maybe(0.25, lambda: pick(2, 3), 1))
    n["laid"] = maybe(0.1, lambda: "flat", "on edge")
    n["plies"] = 1 if n["laid"] == "flat" else n["plies"]
    for key, p in (("wet", 0.2), ("incised", 0.2), ("repetitive", 0.3), ("relief", 0.2)):
        n[key] = bool(rng.random() < p)
    n["seasoned"] = not n["wet"] and rng.random() < 0.8
    n["temperature"] = maybe(0.2, lambda: pick("100 to 125 F", "125 to 150 F"), "to 100 F")
    if rng.random() < 0.5:
        n["pitch"] = float(pick(1, 3, 5, 8, 12))
        n["direction"] = pick("down the slope", "across the slope")
    n["blocking"] = ["edge", *pick([], ["back"], ["back", "wall line"], ["back", 16.0])]
    if rng.random() < 0.03:
        n["blocking"] = n["blocking"][1:]
    n["framing"], n["plate_species"] = pick(*SPECIES), pick(*SPECIES)
    n["plate"], n["edge_bearing"] = float(pick(3.5, 5.5)), float(rng.uniform(1.5, 7))
    n["setback"], n["support_width"] = float(rng.uniform(0, 1)), float(rng.uniform(2, 8))
    n["panel"], n["height"] = maybe(0.5, lambda: float(rng.uniform(200, 500)), 360.0), 36.0
    n["member_spacing"] = maybe(0.6, lambda: float(pick(12, 16, 19.2, 24)), None)
    if rng.random() < 0.25:
        n["category"], n["sds"] = pick("B", "C", "D", "E"), float(rng.uniform(0.1, 1.2))
    for key, without in (("live", 0.3), ("storage", 0.6), ("snow", 0.25), ("wind_up", 0.3),
                   ("wind_down", 0.4), ("house_live", 0.4), ("house_snow", 0.4), ("house_up", 0.4),
                   ("house_down", 0.6), ("square", 0.7), ("along", 0.85),
                   ("overhang", 0.6)):  # fmt: skip
        n[key] = 0.0 if rng.random() < without else None
    if n["wind_up"] == 0:  # what lifts the house roof lifts the garage's
        n["house_up"] = n["wind_down"] = 0.0
    if n["wind_down"] == 0:
        n["house_down"] = 0.0
    if n["laid"] == "on edge" and rng.random() < 0.2:
        n[pick("bottom_notch", "bottom_notch", "top_notch")] = float(rng.uniform(0.25, 1))
    rows = int(maybe(0.35, lambda: pick(1, 2), 0))
    between = sorted({float(x) for x in rng.choice([6, 8, 10, 13, 16], rows, replace=False)})
    deep = DRESSED[n["size"][n["laid"] == "on edge"]]
    places = [None, *between, *([0.0] if rng.random() < 0.6 else [])]
    if rng.random() < 0.3 and n["along"] == 0 and n["direction"] == "down the slope":
        n["holds"] = fastened(rng, n, places)
    else:
        n["holds"] = [hold(rng, x, deep) for x in places]
    return n


def hold(rng, x, deep):
    """A listed clip; x from the edge, None the back; the member `deep` as laid."""
    one = {
        "x": x,
        "count": int(rng.integers(1, 3)),
        "up": float(rng.uniform(200, 900)),
        "side": float(rng.uniform(100, 500)),
        "height": None,
        "for": str(rng.choice(["wind", "roof live", "snow", "live", "dead", "any duration"])),
    }
    if rng.random() < 0.3:  # fmt: skip
        one["height"] = float(rng.uniform(0.3, 0.95)) * deep
    return one


def fastened(rng, n, places):
    """Built clips, alike at every place: bent ones, or one fastener through the member."""
    kind = ("nail", "screw", "lag")[rng.integers(3)]
    size = {"nail": (0.131, 0.148, 0.162), "screw": (8, 10, 12, 14),
            "lag": (0.25, 0.3125, 0.375)}[kind]  # fmt: skip
    size = size[rng.integers(len(size))]
    one = {"count": int(rng.integers(1, 3)), "through": bool(kind == "lag" or rng.random() < 0.2)}
    if one["through"]:  # a row of lags needs what is drawn here of no case
        one["count"] = 1 if kind == "lag" else one["count"]
        wide = DRESSED[n["size"][n["laid"] == "on edge"]]
        length = min(12.0, float(wide + rng.choice([2.0, 3.0, 3.5])))
        one |= {"deck": Fastener(kind, size, length), "decks": 1}
        text = {"nail": "nail {} x {} in", "screw": "wood screw #{} x {} in",
                "lag": "lag {} in x {} in"}[kind]  # fmt: skip
        one["words"] = {
            "kind": "through",
            "deck_fasteners": 1,
            "deck_fastener": text.format(size, length),
        }
        return [{"x": x, **one} for x in places]
    length = float(rng.choice([1.5, 2.0, 2.5, 3.0]))
    side, side_L = (0.131, 0.148)[rng.integers(2)], float(rng.choice([1.5, 2.5, 3.0]))
    one |= {"deck": Fastener(kind, size, length), "decks": int(rng.integers(1, 5)),
            "side": Fastener("nail", side, side_L), "sides": int(rng.integers(1, 4)) * 2,
            "steel": str(rng.choice(["18 ga", "16 ga", "14 ga"])),
            "e": float(rng.uniform(0.4, 1.2)), "held": bool(rng.random() < 0.5),
            "apart": float(rng.uniform(1, 3))}  # fmt: skip
    text = "nail {} x {} in" if kind == "nail" else "wood screw #{} x {} in"
    one["words"] = {
        "side_fastener": f"nail {side} x {side_L} in", "side_fasteners": one["sides"],
        "deck_fastener": text.format(size, length), "deck_fasteners": one["decks"],
        "steel": one["steel"], "leg_offset": f"{one['e']!r} in", "bend_held": one["held"],
    }  # fmt: skip
    if one["held"]:
        one["words"]["fastener_spacing"] = f"{one['apart']!r} in"
    return [{"x": x, **one} for x in places]


def cases_of(n, rng, count):
    """`count` draws of a template, and their columns: paths to arrays."""
    columns, drawn = {}, [copy.copy(n) for _ in range(count)]
    for key, (path, low, high) in (COLUMNS | LOADS).items():
        if key in LOADS and n[key] is not None:
            continue  # the template has it as none
        high = 24 if key == "spacing" and n["repetitive"] else high
        values = rng.uniform(low, high, count)
        columns[path] = values
        for one, value in zip(drawn, values, strict=True):
            one[key] = float(value)
    for one in drawn:
        one["holds"] = [{**h, "x": one["back_span"] if h["x"] is None else h["x"]}
                        for h in n["holds"]]  # fmt: skip
    return drawn, columns


def tables_of(n):
    """A draw as the tables of a case file."""

    def inches(value):
        return f"{value:.20f} in" if value else "none"

    def psf(value):
        return f"{value * PSF!r} psf" if value else "none"

    case = {
        "project": {"name": "a drawn case"},
        "basis": {"method": n["method"], "loads": n["loads"], "wood": "NDS 2018"},
        "gap": {"width": inches(n["width"]), "house_finish": inches(n["finish"]),
                "garage_plate": inches(n["plate"]), "edge_bearing": inches(n["edge_bearing"]),
                "edge_setback": inches(n["setback"])},
        "outrigger": {
            "species": n["species"], "grade": n["grade"], "plies": n["plies"], "laid": n["laid"],
            "size": f"{n['size'][0]}x{n['size'][1]}", "spacing": inches(n["spacing"]),
            "back_span": inches(n["back_span"]), "tail": inches(n["tail"]),
            "behind_back": inches(n["behind"]), "moisture": "wet" if n["wet"] else "dry",
            "seasoned": n["seasoned"], "incised": n["incised"], "temperature": n["temperature"],
            "repetitive": n["repetitive"], "near_support_relief": n["relief"],
            "top_notch": inches(n["top_notch"]), "bottom_notch": inches(n["bottom_notch"]),
            "blocking": [p if isinstance(p, str) else inches(p) for p in n["blocking"]]},
        "house_roof": {
            "pitch": f"{n['pitch']:g}:12", "direction": n["direction"], "edge_support": "wall",
            "edge_support_width": inches(n["support_width"]), "sheathing": "OSB",
            "sheathing_thickness": "7/16 in", "sheathing_bearing": f"{n['panel']!r} psi",
            "framing_species": n["framing"], "framing_spacing": "16 in",
            "framing_parallel": False, "dead": psf(n["house_dead"]),
            "live": psf(n["house_live"]), "snow": psf(n["house_snow"]),
            "wind_uplift": psf(n["house_up"]), "wind_down": psf(n["house_down"])},
        "garage_roof": {
            "form": "trusses", "shape": "gable", "span": inches(n["span"]),
            "overhang": inches(n["overhang"]),
            "member_spacing": inches(n["member_spacing"]) if n["member_spacing"] else "uniform",
            "pitch": "4:12", "dead": psf(n["dead"]), "live": psf(n["live"]),
            "storage": psf(n["storage"]), "strip_dead": psf(n["strip_dead"])},
        "garage_wall": {
            "height": inches(n["height"]), "dead": psf(n["wall_dead"]),
            "plate_species": n["plate_species"], "plates": 2, "studs_over_outriggers": True,
            "out_of_plane_wind": psf(n["square"]),
            "along": f"{n['along'] * FT!r} plf" if n["along"] else "none"},
        "snow": {"roof": psf(n["snow"]), "drift": "none", "sliding": "none",
                 "unbalanced": "none"},
        "wind": {"uplift": psf(n["wind_up"]), "down": psf(n["wind_down"])},
        "seismic": {"category": n["category"] or "none"},
        "hold_down": [clip(h, n) for h in n["holds"]],
    }  # fmt: skip
    if n["sds"]:
        case["seismic"]["sds"] = n["sds"]
    return case


def clip(h, n):
    """A hold-down of a draw as a table of the file."""
    at = "edge" if h["x"] == 0 else "back" if h["x"] == n["back_span"] else f"{h['x']!r} in"
    if "deck" in h:
        return {"at": at, "count": h["count"], "into": "framing", "edge_distance": "3/4 in",
                **h["words"]}  # fmt: skip
    found = {"at": at, "count": h["count"], "rated_uplift": f"{h['up']!r} lb",
             "rated_lateral": f"{h['side']!r} lb", "rated_for": h["for"],
             "rated_wood": "Spruce-Pine-Fir (South)", "rated_into": "framing through sheathing",
             "rated_across_grain": h["height"] is None, "rated_source": "a drawn listing",
             "into": "framing"}  # fmt: skip
    if h["height"]:
        found["side_height"] = f"{h['height']!r} in"
    return found
