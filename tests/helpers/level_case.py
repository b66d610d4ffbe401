"""A level case with everything given, and ways to change it and to find one check of its design.

The case of test_level_design_by_hand.py; the other tests of the engine change one thing of it.
"""

import copy

from outrigger.cases.validate import validate
from outrigger.verdict.design import design

CLIP = {
    "rated_lateral": "200 lb",
    "rated_for": "wind",
    "rated_wood": "Spruce-Pine-Fir",
    "rated_into": "framing through sheathing",
    "rated_across_grain": True,
    "rated_source": "a listing of this test",
    "into": "framing",
}
TABLES = {
    "project": {"name": "Level case worked by hand"},
    "basis": {"method": "ASD", "loads": "ASCE 7-16", "wood": "NDS 2018"},
    "gap": {
        "width": "7 in",
        "house_finish": "5/8 in",
        "garage_plate": "5 1/2 in",
        "edge_bearing": "3 1/2 in",
        "edge_setback": "1/4 in",
    },
    "outrigger": {
        "species": "Hem-Fir",
        "grade": "No. 2",
        "size": "2x8",
        "spacing": "16 in",
        "back_span": "44 in",
        "tail": "6 in",
        "behind_back": "4 in",
        "moisture": "dry",
        "blocking": ["edge", "20 in", "back"],
    },
    "house_roof": {
        "pitch": "0:12",
        "edge_support": "wall",
        "edge_support_width": "3 3/4 in",
        "sheathing_bearing": "360 psi",
        "framing_species": "Spruce-Pine-Fir",
        "framing_spacing": "22 in",
        "framing_parallel": False,
        "dead": "9 psf",
        "live": "none",
        "snow": "21 psf",
        "wind_uplift": "18 psf",
    },
    "garage_roof": {
        "form": "trusses",
        "shape": "gable",
        "span": "24 ft",
        "overhang": "3 in",
        "member_spacing": "24 in",
        "pitch": "6:12",
        "dead": "15 psf",
        "live": "20 psf",
        "storage": "5 psf",
        "strip_dead": "12 psf",
    },
    "garage_wall": {
        "height": "30 in",
        "dead": "12 psf",
        "plate_species": "Spruce-Pine-Fir",
        "plates": 2,
        "studs_over_outriggers": True,
        "out_of_plane_wind": "none",
        "along": "none",
    },
    "wall_tie": {
        "count": 2,
        "rated_uplift": "900 lb",
        "rated_lateral": "900 lb",
        "rated_for": "wind",
        "rated_wood": "Spruce-Pine-Fir (South)",
        "rated_across_grain": True,
        "rated_source": "a listing of this test",
    },
    "snow": {
        "roof": "30 psf",
        "drift": "none",
        "sliding": "none",
        "unbalanced": "none",
        "on_house": "none",
    },
    "wind": {"uplift": "24 psf", "down": "10 psf"},
    "seismic": {"category": "none"},
    "hold_down": [
        {"at": "back", "count": 2, "rated_uplift": "500 lb", **CLIP},
        {"at": "edge", "count": 2, "rated_uplift": "450 lb", **CLIP},
    ],
    "limits": {"live_deflection": 240, "total_deflection": 180},
}
GONE = object()  # in place of a value: the key is left out


def case(**changes):
    """The case with keys changed: case(snow__roof="40 psf", hold_down__0__count=1)."""
    tables = copy.deepcopy(TABLES)
    for path, value in changes.items():
        *parents, key = (int(p) if p.isdigit() else p for p in path.split("__"))
        table = tables
        for parent in parents:
            table = table[parent]
        if value is GONE:
            del table[key]
        else:
            table[key] = copy.deepcopy(value)
    return validate(tables, "case")


def designed(**changes):
    """The design of the changed case."""
    return design(case(**changes))


def clip(at, uplift="500 lb", count=2, **more):
    """A hold-down of the case, at another place."""
    return {"at": at, "count": count, "rated_uplift": uplift, **CLIP, **more}


def check(result, id, link=None, place=None):
    """The one check of a design with this id, link and place."""
    (found,) = (
        c
        for c in result.checks
        if c.id == id and link in (None, c.link.id) and place in (None, c.place)
    )
    return found


def row(result, id, link=None, place=None):
    """The check at its governing combination."""
    return result.row(check(result, id, link, place))


def capacity(found, combination):
    """The capacity of a check in one combination."""
    names = [c.text for c in found.combinations]
    return found.capacity_at(0, names.index(combination))
