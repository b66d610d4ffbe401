"""One case from the ridge of the garage roof to the foundation of the house, by hand, both methods.

Worked from ASCE 7-16 2.3.1 and 2.4.1, NDS 2018 chapters 3, 4 and Appendix N, and statics alone:

    2x8 Douglas Fir-Larch No. 2 at 16 in; gap 8 in, finish 1/2 in, plate 3 1/2 in, edge bearing
    3 1/2 in; back span 48 in, tail 3 in, 3 in behind the back. Trusses at 24 in over a 20 ft span.
    Under the edge two 2x10 over an opening of 48 in, on two 2x6 jack studs at each end; at the back
    a 2x12 rafter that crosses below, 96 in from bearing to bearing, rafters at 24 in.

    a = 8 + 0.5 + 3.5/2 + 3.5/2 = 12 in (arm); a / Lb = 12/48 = 1/4; e = 12 + 3 = 15 in to the end
    A = 1.5 x 7.25 = 10.875 in2; S = 1.5 x 7.25^2 / 6 = 13.1406 in3; I = 1.5 x 7.25^3 / 12 = 47.6348

NDS Supplement Table 4A, psi:

                           Fb    Ft   Fv  Fc_perp   Fc     E      Emin      CF of Fb, Fc
    DF-L No. 2            900   575  180    625    1350  1.6e6  580,000   2x8 1.2, 1.05; 2x10 1.1
    SPF No. 1/No. 2       875   450  135    425    1150  1.4e6  510,000   2x12 1.0; 2x6 1.3
    SPF Stud              675   350  135    425     725  1.2e6  440,000   2x4 1.1, 1.05; 2x6 1, 1

LRFD, KF x phi: Fb 2.54 x 0.85 = 2.159; Ft, Fv, Fc 2.16; Fc_perp 1.67 x 0.9 = 1.503; Emin 1.76 x
0.85 = 1.496; lambda 0.8 with 1.6S or 1.6Lr, 1.0 with 1.0W.
"""

import copy

import pytest
from in_combination import demand_in
from published import printed

from outrigger.cases.validate import validate
from outrigger.report.data.check import as_data
from outrigger.verdict.design import design

CLIP = {
    "count": 2,
    "rated_uplift": "420 lb",
    "rated_lateral": "320 lb",
    "rated_for": "wind",
    "rated_wood": "Spruce-Pine-Fir",
    "rated_into": "framing through OSB 7/16 in",
    "rated_across_grain": True,
    "rated_source": "invented for this test",
    "into": "framing",
}
CARRIES = {"D": "120 plf", "Lr": "180 plf", "S": "180 plf", "W_up": "120 plf"}
TABLES = {
    "project": {"name": "From the ridge to the foundation", "invented": True},
    "basis": {"method": "ASD", "loads": "ASCE 7-16", "wood": "NDS 2018"},
    "gap": {
        "width": "8 in",
        "house_finish": "1/2 in",
        "garage_plate": "3 1/2 in",
        "edge_bearing": "3 1/2 in",
    },
    "outrigger": {
        "species": "Douglas Fir-Larch",
        "grade": "No. 2",
        "size": "2x8",
        "spacing": "16 in",
        "back_span": "48 in",
        "tail": "3 in",
        "behind_back": "3 in",
        "moisture": "dry",
        "blocking": ["edge", "back"],
    },
    "house_roof": {
        "pitch": "0:12",
        "edge_support": "wall",
        "edge_support_width": "3 1/2 in",
        "sheathing": "OSB",
        "sheathing_thickness": "7/16 in",
        "framing_species": "Spruce-Pine-Fir",
        "framing_spacing": "24 in",
        "framing_parallel": False,
        "dead": "9 psf",
        "live": "18 psf",
        "snow": "18 psf",
        "wind_uplift": "18 psf",
    },
    "garage_roof": {
        "form": "trusses",
        "shape": "gable",
        "span": "20 ft",
        "overhang": "none",
        "member_spacing": "24 in",
        "pitch": "6:12",
        "dead": "15 psf",
        "live": "18 psf",
        "storage": "none",
        "strip_dead": "9 psf",
    },
    "garage_wall": {
        "height": "3 ft",
        "dead": "10 psf",
        "plate_species": "Spruce-Pine-Fir",
        "plates": 2,
        "studs_over_outriggers": True,
        "stud_spacing": "16 in",
        "studs": {"size": "2x4", "species": "Spruce-Pine-Fir", "grade": "Stud"},
        "out_of_plane_wind": "20 psf",
        "along": "none",
    },
    "wall_tie": {
        "count": 2,
        "rated_uplift": "420 lb",
        "rated_lateral": "200 lb",
        "rated_for": "wind",
        "rated_wood": "Spruce-Pine-Fir",
        "rated_across_grain": True,
        "rated_source": "invented for this test",
    },
    "snow": {
        "roof": "27 psf",
        "drift": "none",
        "sliding": "none",
        "unbalanced": "none",
        "on_house": "none",
    },
    "wind": {"uplift": "27 psf", "down": "9 psf"},
    "seismic": {"category": "A"},
    "hold_down": [{"at": "back", **CLIP}, {"at": "edge", **CLIP}],
    "house_edge": {
        "kind": "header",
        "size": "2x10",
        "plies": 2,
        "species": "Douglas Fir-Larch",
        "grade": "No. 2",
        "moisture": "dry",
        "span": "48 in",
        "end_bearing": "3 in",
        "stud": {
            "size": "2x6",
            "species": "Spruce-Pine-Fir",
            "grade": "Stud",
            "height": "80 in",
            "count": 2,
            "wind": "none",
        },
        "carries": CARRIES,
        "ends": {"rated_up": "500 lb", "rated_for": "wind"},
    },
    "house_rafter": {
        "kind": "rafter",
        "size": "2x12",
        "species": "Spruce-Pine-Fir",
        "grade": "No. 2",
        "spacing": "24 in",
        "span": "8 ft",
        "bearing": "3 1/2 in",
        "edge_tie": {"rated": "1100 lb", "rated_for": "wind"},
    },
}
PLATE = {
    "kind": "top plate on studs",
    "size": "2x6",
    "plies": 2,
    "species": "Spruce-Pine-Fir",
    "grade": "No. 2",
    "moisture": "dry",
    "span": "16 in",
    "stud": {
        "size": "2x6",
        "species": "Spruce-Pine-Fir",
        "grade": "Stud",
        "height": "96 in",
        "wind": "none",
    },
    "carries": CARRIES,
    "ends": {"rated_up": "500 lb", "rated_for": "wind"},
}
METHODS = ("ASD", "LRFD")


def designed(method, **tables):
    changed = {**copy.deepcopy(TABLES), **tables}
    changed["basis"]["method"] = method
    return design(validate(changed, "case"))


@pytest.fixture(scope="module")
def both():
    return {method: designed(method) for method in METHODS}


@pytest.fixture(scope="module")
def data(both):
    return {method: as_data(result) for method, result in both.items()}


@pytest.fixture(scope="module")
def plates():
    return {method: designed(method, house_edge=PLATE) for method in METHODS}


def held(results, id, *by_link):
    """Each link with its numbers by method: demand, capacity, and how the combination begins."""
    for link, place, *numbers in by_link:
        for method, (demand, capacity, combination) in zip(METHODS, numbers, strict=True):
            (found,) = (
                r for r in results[method].rows if (r.id, r.link, r.place) == (id, link, place)
            )
            where = (method, id, link)
            assert (where, found.demand) == (where, printed(demand))
            assert (where, found.capacity) == (where, printed(capacity))
            assert found.combination.startswith(combination), (where, found.combination)
            assert found.status == "pass"


def test_all_of_it_passes(both):
    for result in both.values():
        assert (result.verdict, result.not_given, result.not_covered) == ("pass", [], [])


def test_lengths(data):
    """a, Lb, and 3 + 48 + 15 = 66 in of lumber."""
    found = data["ASD"]["geometry"]
    assert (found["arm_in"], found["back_span_in"], found["length_in"]) == (12.0, 48.0, 66.0)


def test_on_the_wall_line(data):
    """Trusses at 24 in over outriggers at 16 in: 24 x (1 - 0) + 2 x 24 x max(0, 1 - 24/16) = 24 in,
    one whole truss: psf x 20/2 ft x 2 ft = 20 sf. The wall 10 psf x 3 ft x 16/12 ft = 40 lb.

        D 300 + 40 = 340; Lr 360; S 540; W up -540; W down 180 lb
    """
    found = data["ASD"]["loads"]["wall_line_lb"]
    assert {case: found[case] for case in ("D", "L", "Lr", "S", "W_up", "W_down", "E")} == {
        "D": printed("340"),
        "L": 0.0,
        "Lr": printed("360"),
        "S": printed("540"),
        "W_up": printed("-540"),
        "W_down": printed("180"),
        "E": 0.0,
    }


def test_reactions_of_each_load(data):
    """The strip, 16 in wide, brings psf / 9 lb/in over 15 in: D 1, Lr 2, S 3, W up -3, W down 1.

    Self weight: 62.4 x 0.50 / (1 + 0.009 x 0.50 x 19) x 1.19 = 34.2035 pcf x 10.875 / 1728 =
    0.21526 lb/in.

        M at the edge, hogging: P x 12 + w x 15^2/2; R_back = -M/48; R_edge = P + 15 w + M/48

        D      340 x 12 + 1.21526 x 112.5 = 4216.7    -87.848   340 +  18.229 + 87.848 = 446.08
        Lr     360 x 12 + 225             = 4545.0    -94.688   360 +  30     + 94.688 = 484.69
        S      540 x 12 + 337.5           = 6817.5   -142.03    540 +  45     + 142.03 = 727.03
        W up                               -6817.5    142.03                            -727.03
        W down 180 x 12 + 112.5           = 2272.5    -47.344   180 +  15     + 47.344 = 242.34

    The back span: D 9/9 = 1 lb/in over 48 in, self weight over 51 in, about the edge 0.21526 x 51^2
    / 2 = 279.94, so 24 + 279.94/48 = 29.832 at the back, 24 + 0.21526 x 51 - 5.832 = 29.146 at the
    edge. Lr and S 2 lb/in: 48 each; W -48 each.

    Wind on the wall, 20 psf x 3/2 ft x 16/12 ft = 40 lb at the top of the outrigger, held at its
    bottom: 40 x 7.25 = 290 lb-in, +-290/48 = 6.0417 lb.
    """
    by_hand = {
        ("garage side", "D"): ("-87.848", "446.08"),
        ("garage side", "Lr"): ("-94.688", "484.69"),
        ("garage side", "S"): ("-142.03", "727.03"),
        ("garage side", "W_up"): ("142.03", "-727.03"),
        ("garage side", "W_down"): ("-47.344", "242.34"),
        ("garage side", "H_away"): ("-6.0417", "6.0417"),
        ("garage side", "H_toward"): ("6.0417", "-6.0417"),
        ("back span", "D"): ("29.832", "29.146"),
        ("back span", "Lr"): ("48.00", "48.00"),
        ("back span", "S"): ("48.00", "48.00"),
        ("back span", "W_up"): ("-48.00", "-48.00"),
    }
    found = {(r["at"], r["source"], r["case"]): r["force_lb"] for r in data["ASD"]["reactions"]}
    for (source, case), (back, edge) in by_hand.items():
        assert found["back", source, case] == printed(back)
        assert found["edge", source, case] == printed(edge)


def test_the_stud_and_what_it_stands_on(both):
    """Bearing of the plate over 3.5 x 1.5 in = 5.25 in2, Cb 1: the end of the outrigger is 3 - 1.75
    = 1.25 in from it, and where the plates end is not said.

        ASD   D + S               340 + 540                       = 880 lb   167.6 psi of 625, 425
        LRFD  1.2D + 1.6S + 0.5W  408 + 864 + 90                  = 1362     259.4 of 939.4, 638.8

    The stud, 2x4, 36 in, held by its sheathing the weak way: 36/3.5 = 10.286; FcE = 0.822 x 440,000
    / 10.286^2 = 3418.6. Stability is fc/FcE in D + S: 167.62 / 3418.6 = 0.04903; in LRFD FcE x
    1.496 = 5114.3: 0.05073. Wind: 2 x H / 36 in on it, M = H x 36 / 4.

    ASD, D + 0.6W down: fc = (340 + 108) / 5.25 = 85.333. Fc* = 725 x 1.05 x 1.6 = 1218, FcE/Fc* =
    2.8067, CP = 0.91217, Fc' = 1111.0. H 24 lb: M = 216 lb-in on 3.0625 in3 = 70.53 psi of 675 x
    1.1 x 1.6 = 1188:
        (85.333 / 1111.0)^2 + 70.53 / (1188 x (1 - 85.333/3418.6)) = 0.00590 + 0.06089 = 0.0668
        beside D + 0.75S + 0.45W: (157.33 / 1111)^2 + 52.9 / (1188 x 0.954) = 0.0667
    LRFD: Fc* = 725 x 1.05 x 2.16 x 0.8 = 1315.4, CP = 0.94005, Fc' = 1236.6. H 20 lb: 180 / 3.0625
    = 58.78 of 675 x 1.1 x 2.159 x 0.8 = 1282.4:
        (259.43 / 1236.6)^2 + 58.78 / (1282.4 x (1 - 0.05073)) = 0.0440 + 0.0483 = 0.0923
    """
    held(
        both, "wall_bearing",
        ("outrigger", "wall line", ("167.6", "625.0", "D + S"),
         ("259.4", "939.4", "1.2D + 1.6S + 0.5W down")),
        ("garage plate", "wall line", ("167.6", "425.0", "D + S"),
         ("259.4", "638.8", "1.2D + 1.6S + 0.5W down")),
    )  # fmt: skip
    held(
        both, "stud",
        ("", "wall line", ("0.0668", "1", "D + 0.6H away + 0.6W down"),
         ("0.0923", "1", "1.2D + 0.5H away + 1.6S + 0.5W down")),
        ("stability", "wall line", ("0.04903", "1", "D + S"),
         ("0.05073", "1", "1.2D + 1.6S + 0.5W down")),
        ("slenderness", "wall line", ("10.286", "50", ""), ("10.286", "50", "")),
    )  # fmt: skip


def test_the_tie_of_the_wall(both):
    """Listed, so in the ASD set by either method. 0.6D + 0.6W up: 0.6 x (540 - 340) = 120 lb up and
    0.6 x 40 = 24 lb sideways: 120/840 + 24/400 = 0.14286 + 0.06 = 0.2029. Never less than 5 % of D
    + Lr (ASCE 7 1.4.3): 0.05 x 700 = 35, x 0.7 = 24.5 lb, of 400 x 1.0/1.6 = 250, no duration being
    said for it; the wall's own, 0.2 x 10 psf or 5 psf on 1.5 ft x 16/12 ft, is 10 lb, less (1.4.4).
    """
    up = ("0.2029", "1", "0.6D + 0.6H")
    side, least = ("24.0", "400.0", "D + 0.6H"), ("24.5", "250.0", "")
    held(
        both, "wall_tie",
        ("uplift", "wall line", up, up),
        ("along", "wall line", side, side),
        ("along, least", "wall line", least, least),
        ("across, least", "wall line", least, least),
    )  # fmt: skip


def test_bending_of_the_outrigger(both):
    """CL, any loading over the 48 in between blocks: 48/7.25 = 6.62: le = 2.06 x 48 = 98.88; RB^2 =
    98.88 x 7.25 / 1.5^2 = 318.61, RB = 17.85; FbE = 1.2 x 580,000 / 318.61 = 2184.5. The arm alone,
    le 1.87 x 12 = 22.44, has RB 8.50 and more.

    ASD, D + S: M = 4216.7 + 6817.5 = 11,034.2: 839.7 psi. Fb* = 900 x 1.2 x 1.15 = 1242; FbE/Fb* =
    1.7588; CL = 1.4520 - sqrt(1.4520^2 - 1.8514) = 0.94511: 1173.8: 0.7154.
    LRFD, 1.2D + 1.6S + 0.5W: 1.2 x 4216.7 + 1.6 x 6817.5 + 0.5 x 2272.5 = 17,104.3, and 0.5 x 290 =
    145 where the wind on the wall leaves at the bottom of the edge: 17,249.3: 1312.7 psi. Fb* = 900
    x 1.2 x 2.159 x 0.8 = 1865.4; FbE 3268.0; CL 0.94472: 1762.3: 0.7449.

    Back span, ASD: sags most in D + 0.6W up and toward the house, no suction on it: at the back
    (-4216.7 + 0.6 x 6817.5 + 0.6 x 290) / 48 + 29.832 = 30.828 lb; no shear at (30.828 - 3 x
    0.21526) / 1.21526 = 24.836 in from it: M = 1.21526 x 24.836^2 / 2 - 0.21526 x 3^2/2 = 373.8:
    28.45 psi of 1542.6 (CD 1.6: Fb* 1728, CL 0.89272). LRFD, 1.2D + W up, toward, 0.5Lr on it
    alone: (-5060.1 + 6817.5 + 290) / 48 + 35.799 + 24 = 102.45; (102.45 - 0.77) / 2.45831 = 41.361
    in from it, 2.45831 x 41.361^2 / 2 - 1.2 = 2101.6: 159.9 psi of 2131.7 (lambda 1.0: Fb* 2331.7,
    CL 0.91423). In 0.9D + W up, toward, it sags more and more up to the edge: 6817.5 + 290 - 3795.0
    = 3312.5: 252.1 psi there.
    """
    held(
        both, "bending",
        ("", "edge", ("839.7", "1173.8", "D + S"),
         ("1312.7", "1762.3", "1.2D + 0.5H away + 1.6S + 0.5W down")),
        ("slenderness RB", "edge", ("17.85", "50", ""), ("17.85", "50", "")),
    )  # fmt: skip
    held(
        both, "bending",
        ("", "back span", ("28.45", "1542.6", "D + 0.6H toward + 0.6W up, wind up none"),
         ("159.9", "2131.7", "1.2D + H toward + 0.5Lr + W up, roof live on the back span only")),
    )  # fmt: skip
    (edge,) = (
        r.check for r in both["LRFD"].rows if (r.id, r.place, r.link) == ("bending", "edge", "")
    )
    assert demand_in(edge, "0.9D + H toward + W up") == printed("252.1")


def test_bending_with_the_wind_on_the_wall(both):
    """In the arm H acts d/2 above the axis: + or - H x 7.25 / 2 to the hogging; the back span has
    the same where the back holds all of H.

    ASD, D + 0.75S + 0.45W, H 18 lb: M = 4216.7 + 5113.1 + 1022.6 = 10,352.5, + 65.25: 792.79 psi;
    ft = 18 / 10.875 = 1.655. Fb* 1728; Ft' = 575 x 1.2 x 1.6 = 1104:
        1.655/1104 + 792.79/1728 = 0.4603;  (792.79 - 1.655) / 1542.6 = 0.5128
    toward the house - 65.25: 782.86 psi. Arm: le 2.1 x 12 = 25.2: 3.476 and 16.8; FcE 39,462, 1689;
    Fc* = 1350 x 1.05 x 1.6 = 2268; CP 0.5824; (1.655/1320.8)^2 + 782.86 / (1542.6 x (1 -
    1.655/39,462)) = 0.5075. Back span 48/1.5 = 32, FcE 466, 48/7.25: 10,877: 0.5076.

    LRFD, H 20 lb: 17,104.3 + 72.5: 1307.15 psi; 1.839/1192.3 + 1307.15/1865.4 = 0.7023; (1307.15 -
    1.839) / 1762.3 = 0.7407; - 72.5: 1296.12: 0.7355 and 0.7356.
    """
    asd, lrfd = "D + 0.45H {} + 0.75S + 0.45W down", "1.2D + 0.5H {} + 1.6S + 0.5W down"
    links = {
        "tension": ("away", "0.4603", "0.7023"),
        "tension, compression edge": ("away", "0.5128", "0.7407"),
        "compression": ("toward", "0.5075", "0.7355"),
    }
    for link, (way, a, b) in links.items():
        held(both, "axial_bending",
             (link, "arm", (a, "1", asd.format(way)), (b, "1", lrfd.format(way))))  # fmt: skip
    held(
        both, "axial_bending",
        ("compression", "back span", ("0.5076", "1", ""), ("0.7356", "1", "")),
        ("slenderness", "arm", ("16.8", "50", ""), ("16.8", "50", "")),
        ("slenderness", "back span", ("32.00", "50", ""), ("32.00", "50", "")),
    )  # fmt: skip


def test_shear_of_the_outrigger(both):
    """fv = 1.5 V / 10.875, of 180 x 1.15 = 207; LRFD 180 x 2.16 x 0.8 = 311.04.

    arm side     358.229 + 585 = 943.23                  130.1
          LRFD   429.875 + 936 + 97.5 = 1463.37          201.8
    by the wall  P + 3 in of strip: 343.646 + 549        123.1
          LRFD   412.375 + 878.4 + 91.5 = 1382.27        190.7
    house side   of the edge: 87.848 + 142.031 + 29.146 + 48 = 307.03       42.35
          LRFD   105.418 + 227.25 + 23.672 + 3.021 + 34.975 + 76.8 = 471.14   64.98
    at the back  its pull, and 3 in of its own weight behind it that helps x 0.6:
                 211.980 + 0.387 = 212.37                29.29
          LRFD   356.512 + 0.581 = 357.09                49.25
    """
    w = "1.2D + 1.6S + 0.5W down"
    h = "1.2D + 0.5H away + 1.6S + 0.5W down"
    held(
        both, "shear",
        ("arm side", "edge", ("130.1", "207.0", "D + S"), ("201.8", "311.04", w)),
        ("by the wall", "arm", ("123.1", "207.0", "D + S"), ("190.7", "311.04", w)),
        ("house side", "edge", ("42.35", "207.0", "D + S"), ("64.98", "311.04", h)),
        ("", "back span", ("29.29", "207.0", "D + S, dead on the back span x 0.6"),
         ("49.25", "311.04", h)),
    )  # fmt: skip


def test_crushing_at_the_edge(both):
    """R = 446.08 + 29.146 + 727.03 + 48 = 1250.25 lb on 3.5 x 1.5 in: 238.1 psi. LRFD: 1.2 x
    475.223 + 1.6 x 775.031 + 0.5 x (242.344 + 6.042) = 1934.51: 368.5.

    Outrigger: Cb = 3.875/3.5 = 1.1071: 692.0; LRFD x 1.503 = 1040.0. OSB 360, LRFD x 1.5. The
    plate on the header, of the framing's wood: 425, LRFD x 1.503 = 638.8.

    Back, pushed down: 0.6D + 0.6W up, no suction: 0.6 x (142.031 + 6.042 + 29.832 - 87.848) = 54.03
    lb on 1.5 x 1.5: 24.02 psi; LRFD 142.031 + 6.042 - 1.2 x 58.016 + 0.5 x 48, roof live
    there alone: 102.45: 45.53.
    """
    a, b = "D + S", "1.2D + 0.5H away + 1.6S + 0.5W down"
    held(
        both, "edge_bearing",
        ("outrigger", "edge", ("238.1", "692.0", a), ("368.5", "1040.0", b)),
        ("sheathing", "edge", ("238.1", "360.0", a), ("368.5", "540.0", b)),
        ("framing below", "edge", ("238.1", "425.0", a), ("368.5", "638.8", b)),
    )  # fmt: skip
    a = "0.6D + 0.6H toward + 0.6W up, wind up none"
    b = "1.2D + H toward + 0.5Lr + W up, roof live on the back span only"
    held(
        both, "back_bearing",
        ("outrigger", "back", ("24.02", "625.0", a), ("45.53", "939.4", b)),
        ("sheathing", "back", ("24.02", "360.0", a), ("45.53", "540.0", b)),
        ("framing below", "back", ("24.02", "425.0", a), ("45.53", "638.8", b)),
    )  # fmt: skip


def test_the_clips(both, data):
    """Listed: the ASD set in either method.

    Back, D + S without snow inside, its dead load x 0.6: 87.848 + 142.031 - 17.899 = 211.98 lb, of
    2 x 420 x 1.15/1.6 = 603.75: 0.3511; per clip 105.99. In D + 0.75S + 0.45W it pulls 222.10, but
    of 840: 0.264.
    Edge, 0.6D + 0.6W up and toward: 0.6 x (727.031 + 48 + 6.042 - 475.223) = 183.51 lb, with 0.6 x
    40 = 24 lb along, all of it on the edge: 183.51/840 + 24/640 = 0.21846 + 0.0375 = 0.2560.
    """
    back, edge = ("0.3511", "1", "D + S, dead on the back span x 0.6"), ("0.2560", "1", "0.6D")
    along = ("24.0", "640.0", "D + 0.6H")
    held(both, "hold_down:back", ("rated clip", "back", back, back))
    held(both, "hold_down:edge", ("rated clip", "edge", edge, edge))
    held(both, "slide", ("along", "edge", along, along))
    for method in METHODS:
        uplift = {c["at"]: c["uplift_lb"] for c in data[method]["connections"]}
        assert (uplift["back"], uplift["edge"]) == (printed("211.98"), printed("183.51"))


def test_droop_at_the_wall_line(both):
    """True E = 1.03 x 1.6e6, EI = 7.8502e7; GA = E/16 x 10.875 x 5/6 = 9.3344e5. Virtual work of 1
    lb at the wall: (12 - x) in the arm, a quarter of the distance from the back inside.

        P  12^2 x 60 / 3 EI + 12 x 1.25 / GA = 3.6687e-5 + 1.6070e-5 = 5.2757e-5 in/lb
        w over 15 in, bending: arm, the integral of w (15 - x)^2 / 2 x (12 - x) = 4644 w; back,
           112.5 w x 12 x 48/3 = 21,600 w: 26,244 w / EI = 3.3431e-4 w
           shear: (15 x 12 - 12^2/2) w + 112.5 w x 12/48 = 136.125 w / GA = 1.4583e-4 w
           together 4.8014e-4 in per lb/in

    S: 540 x 5.2757e-5 + 3 x 4.8014e-4 = 0.028489 + 0.001440 = 0.02993 of 24/240 = 0.1.
    Dead on the arm 340 and 1.21526 lb/in: 0.017937 + 0.000583 = 0.01852. On the back span 1.21526
    lb/in turns the edge up by w 48^3 / 24 EI, x 12: 0.000856, less 0.000001 for the 3 in behind; it
    helps, x 0.6. In all 1.5 x (0.01852 - 0.00051) + 0.02993 = 0.05694 of 24/180 = 0.1333.
    """
    live, total = ("0.02993", "0.1000", "S"), ("0.05694", "0.1333", "D + S")
    held(both, "live_deflection", ("", "wall line", live, live))
    held(both, "total_deflection", ("", "wall line", total, total))


def test_the_header_in_itself(both):
    """Outriggers 16 in apart on 48 in, each with a whole truss: three, the middle one at mid-span:
    R x (1.5 x 24 - 16) = 20 R; two bring (2 x 48 - 16)^2 / (8 x 48) = 16.67 R. With one right at an
    end: R x (1 + 2/3 + 1/3) = 2 R of end shear. It carries 120 + 180 plf = 25 lb/in; LRFD 1.2 x 10
    + 1.6 x 15 = 36. S = 3 x 9.25^2 / 6 = 42.781, A = 27.75.

    Bending: 20 x 1250.25 + 25 x 48^2 / 8 = 25,005 + 7200 = 32,205: 752.8 psi. le = 2.06 x 48, RB^2
    = 98.88 x 9.25 / 3^2 = 101.63, FbE 6848.6; Fb* = 900 x 1.1 x 1.15 = 1138.5; CL 0.99024: 1127.4.
        LRFD 20 x 1934.51 + 36 x 288 = 49,058: 1146.7 of 990 x 2.159 x 0.8 x 0.99020 = 1693.2
    Shear: 2 x 1250.25 + 25 x 24 = 3100.5 lb: x 1.5 / 27.75 = 167.6 of 207
        LRFD 2 x 1934.51 + 36 x 24 = 4733.0: 255.8 of 311.0
    Sag at mid-span, three, at 8, 24 and 40 in: (2 x 8 x (3 x 48^2 - 4 x 8^2) + 24 x (3 x 48^2 - 4 x
    24^2)) / 48 EI = (106,496 + 110,592) / (48 x 1.6e6 x 197.86) = 1.4286e-5 in/lb; S: 775.03 lb
    0.011072, 15 lb/in 0.003275: 0.01435 of 48/240 = 0.2; dead 475.22 lb 0.006789, 10 lb/in
    0.002183: x 1.5 = 0.01346: 0.02781 of 48/180 = 0.2667.
    """
    a, b = "D + S", "1.2D + 0.5H away + 1.6S + 0.5W down"
    live, total = ("0.01435", "0.2000", "S"), ("0.02781", "0.2667", "D + S")
    held(
        both, "house_edge",
        ("bending", "edge", ("752.8", "1127.4", a), ("1146.7", "1693.2", b)),
        ("shear", "edge", ("167.6", "207.0", a), ("255.8", "311.0", b)),
        ("live deflection", "edge", live, live),
        ("total deflection", "edge", total, total),
    )  # fmt: skip


def test_the_header_on_its_studs(both):
    """One end: 3100.5 lb, LRFD 4733.0, on 3 x 3 in: 344.5 psi of 625, 525.9 of 939.4.

    Two 2x6 SPF Stud, 80 in, held the weak way: 80/5.5 = 14.545; FcE = 0.822 x 440,000 / 211.57 =
    1709.5; Fc* = 725 x 1.15 = 833.75; CP = 1.9065 - sqrt(1.9065^2 - 2.5630) = 0.87125: 726.4; fc =
    3100.5 / 16.5 = 187.9. LRFD FcE 2557.4, Fc* 725 x 2.16 x 0.8 = 1252.8, CP 0.87054: 1090.6;
    286.8.

    Up, 0.6D + 0.6W: 2 x 183.51 = 367.0 lb; 0.6 x (10 - 10) lb/in of its own: none. Straps listed
    for wind, 500 lb, in the ASD set.
    """
    a, b = "D + S", "1.2D + 0.5H away + 1.6S + 0.5W down"
    up = ("367.0", "500.0", "0.6D + 0.6H toward + 0.6W up")
    held(
        both, "house_edge",
        ("bearing at its ends", "edge", ("344.5", "625.0", a), ("525.9", "939.4", b)),
        ("stud", "edge", ("187.9", "726.4", a), ("286.8", "1090.6", b)),
        ("stud, slenderness", "edge", ("14.545", "50", ""), ("14.545", "50", "")),
        ("uplift at its ends", "edge", up, up),
    )  # fmt: skip


def test_a_plate_on_studs_in_its_place(plates):
    """Two flat 2x6 over studs at 16 in: b = 11, d = 1.5; S = 4.125, A = 16.5. One outrigger at
    mid-span: 4 x 1250.25 + 25 x 16^2/8 = 5801: 1406.3 psi of 875 x 1.3 x 1.15 (Cfu) x 1.15 =
    1504.3. It runs on over its studs. Beside one: 1250.25 + 5/8 x 25 x 16 = 1500.25: 136.4 psi of
    135 x 1.15 = 155.25. Over one: two outriggers at mid-span, each 0.6875, and 5/4 x 25 x 16:
    1719.09 + 500 = 2219.09 lb on 1.5 x 5.5 in: 269.0 psi of 425, Cb 1; the stud, 96 in: 17.455, FcE
    1187.2, Fc* 833.75, CP 0.79720: 664.7.

    LRFD 4 x 1934.51 + 36 x 32 = 8890: 2155.2 of 875 x 1.495 x 2.159 x 0.8 = 2259.4; 1934.51 + 360 =
    2294.5: 208.6 of 135 x 2.16 x 0.8 = 233.3; 1.375 x 1934.51 + 720 = 3379.95 lb: 409.7 of 638.8,
    and of 1252.8 x 0.79607 = 997.3. Up: 1.375 x 183.51 = 252.3 lb.
    """
    a, b = "D + S", "1.2D + 0.5H away + 1.6S + 0.5W down"
    up = ("252.3", "500.0", "0.6D + 0.6H toward + 0.6W up")
    held(
        plates, "house_edge",
        ("bending", "edge", ("1406.3", "1504.3", a), ("2155.2", "2259.4", b)),
        ("shear", "edge", ("136.4", "155.25", a), ("208.6", "233.3", b)),
        ("plate on the stud", "edge", ("269.0", "425.0", a), ("409.7", "638.8", b)),
        ("stud", "edge", ("269.0", "664.7", a), ("409.7", "997.3", b)),
        ("stud, slenderness", "edge", ("17.455", "50", ""), ("17.455", "50", "")),
        ("uplift at its ends", "edge", up, up),
    )  # fmt: skip


def test_the_rafter_at_the_back(both):
    """A row 16 in apart on 96 in. Six on it, the fourth 4 in beyond mid-span and the middle of all
    4 in short of it: from the right 6 x 44/96 x 44 - 16 - 32 = 73; five, or six astride, bring 72.
    Right at an end: 1 + 5/6 + 4/6 + 3/6 + 2/6 + 1/6 = 3.5. Its own roof on 24 in: D 1.5 lb/in, Lr
    3, S 3, W -3. 2x12: S = 31.641, A = 16.875, I = 177.98.

    Down, ASD: D + 0.75Lr + 0.45W up, live on the house roof alone: the back pushes -58.016 + 36 +
    0.45 x 148.073 = 44.617 lb: 73 x 44.617 + (1.5 + 2.25) x 1152 = 7577.0: 239.5 of 875 x 1.6 =
    1400; at its end 3.5 x 44.617 + 3.75 x 48 = 336.2 lb.
        LRFD 1.2D + 1.6Lr + 0.5W up, the same: -69.619 + 76.8 + 0.5 x 148.073 = 81.218 lb: 73 x
        81.218 + (1.8 + 4.8) x 1152 = 13,532: 427.7 of 875 x 2.159 x 0.8 = 1511.3; 601.1 lb
    Up, ASD: D + 0.75S + 0.45W, suction on the house: 87.848 - 17.899 + 106.523 + 21.305 + 2.719 +
    21.6 = 222.10 lb each: 73 x 222.10 + (0.45 x 3 - 0.6 x 1.5) x 1152 = 16,731: 528.8 psi. 96/11.25
    = 8.53: le = 1.63 x 96 + 33.75 = 190.23, RB^2 951.15, FbE 643.4; Fb* 1400; CL 0.44208: 618.9.
        LRFD 105.418 - 26.849 + 227.25 + 23.672 + 3.021 + 24 = 356.51: 73 x 356.51 + (1.5 - 1.35) x
        1152 = 26,198: 828.0; FbE 962.6, Fb* 1511.3, CL 0.59357: 897.1
    Shear, D + S: 3.5 x 211.98 - 0.9 x 48 = 698.7: 62.11 of 155.25; LRFD 3.5 x 356.51 + 0.15 x 48 =
    1255.0: 111.6 of 135 x 2.16 x 0.8 = 233.3. Its tie has the same 698.7 lb of 1100 x 1.15/1.6 =
    790.6, in the ASD set. On its 1.5 x 3.5 in: 3.5 x 54.034 + 0.9 x 48 = 232.3: 44.25 psi, LRFD 3.5
    x 95.858 + 1.35 x 48 = 400.3: 76.25.
    Sag, upward: five: 16, 32, 48, 64 and 80 in, or six: 8, 24, 40 and as far from the other end;
    six are more: 2 x (8 x 27,392 + 24 x 25,344 + 40 x 21,248) / (48 x 1.4e6 x 177.98) = 2.8048e-4
    in/lb. Snow on the garage alone, none of its own to hold it down: 142.03 lb: 0.03984 of 96/240 =
    0.4. Dead 87.848 - 17.899 = 69.949 lb: 0.01962, less 0.6 x 1.5 lb/in: 0.00399: x 1.5 = 0.02344:
    0.0633 of 96/180 = 0.5333.
    """
    up = "D + 0.45H away + 0.75S + 0.45W down, dead on the back span x 0.6"
    up_strength = "1.2D + 0.5H away + 1.6S + 0.5W down, dead on the back span x 0.9"
    clip = "D + S, dead on the back span x 0.6, snow none on the back span"
    alone = "roof live on the back span only"
    a = f"D + 0.45H toward + 0.75Lr + 0.45W up, {alone}"
    b = f"1.2D + 0.5H toward + 1.6Lr + 0.5W up, {alone}"
    bears = (("64.03", "425.0", a), ("114.5", "638.8", b))
    tied = ("698.7", "790.6", clip)
    live, total = ("0.0398", "0.4000", "S, snow none"), ("0.0633", "0.5333", "D + S, snow none")
    held(
        both, "house_rafter",
        ("bending", "back", ("239.5", "1400.0", a), ("427.7", "1511.3", b)),
        ("bending, lifted", "back", ("528.8", "618.9", up), ("828.0", "897.1", up_strength)),
        ("shear", "back", ("62.11", "155.25", clip), ("111.6", "233.3", up_strength)),
        ("bearing at its end", "back", *bears),
        ("its end on the plate", "back", *bears),
        ("uplift at its bearing", "back", tied, tied),
        ("live deflection", "back", live, live),
        ("total deflection", "back", total, total),
    )  # fmt: skip


def test_down_to_the_foundation(data):
    """Handed to the house, per outrigger and per foot of wall, 16/12 ft, whatever the method:

        edge down  D + S                   1250.25 lb   937.7 plf;  strength 1934.51, 1450.9 plf
        edge up    0.6D + 0.6W              183.51      137.6;                353.37,  265.0
        back down  0.6D + 0.6W               54.03       40.5;                102.45,   76.8
        back up    D + 0.75S + 0.45W        222.10      166.6;                356.51,  267.4

    The foundation of the wall has that of every outrigger, each with its whole truss, beside what
    the house roof brings: 937.7 + 300 plf, and under the jack studs 3100.5 lb of D + S each end.
    """
    by_hand = {
        ("edge", "push", "ASD"): ("1250.25", "937.7"),
        ("edge", "push", "strength"): ("1934.51", "1450.9"),
        ("edge", "pull", "ASD"): ("183.51", "137.6"),
        ("edge", "pull", "strength"): ("353.37", "265.0"),
        ("back", "push", "ASD"): ("54.03", "40.5"),
        ("back", "push", "strength"): ("102.45", "76.8"),
        ("back", "pull", "ASD"): ("222.10", "166.6"),
        ("back", "pull", "strength"): ("356.51", "267.4"),
    }
    for method in METHODS:
        most = {(e["at"], e["way"], e["level"]): e for e in data[method]["envelopes"]}
        for key, (force, plf) in by_hand.items():
            assert abs(most[key]["force_lb"]) == printed(force)
            assert abs(most[key]["line_plf"]) == printed(plf)
