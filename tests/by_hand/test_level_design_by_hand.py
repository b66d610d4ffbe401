"""One level design worked by hand from loads to ratios: clips at the back, a tie at the edge.

No published example of such a member exists: every number below is worked by hand, line by line,
with statics and the clauses named, never by the program. The case is that of level_case.py:

    2x8 Hem-Fir No. 2 at 16 in; gap 7 in, finish 5/8 in, plate 5 1/2 in, edge bearing 3 1/2 in, set
    back 1/4 in; back span 44 in, tail 6 in, 4 in behind the back; blocked at the edge, at 20 in and
    at the back. Trusses at 24 in, span 24 ft, overhang 3 in.

    a  = 7 + 0.625 + 5.5/2 + 0.25 + 3.5/2           = 12.375 in  (arm)
    e  = 12.375 + 6                                 = 18.375 in  (edge to end)
    A  = 1.5 x 7.25                                 = 10.875 in2
    S  = 1.5 x 7.25^2 / 6                           = 13.1406 in3
    I  = 1.5 x 7.25^3 / 12                          = 47.6348 in4

NDS Supplement 2018 Table 4A, Hem-Fir No. 2: Fb 850, Fv 150, Fc_perp 405, E 1,300,000,
Emin 470,000, G 0.43; CF of 2x8 1.2. Spruce-Pine-Fir Fc_perp 425.
"""

import pytest
from in_combination import demand_in
from level_case import capacity, check, designed, row
from published import printed

CLIP_COMBINATION = "D + S, dead on the back span x 0.6, snow none on the back span"


@pytest.fixture(scope="module")
def asd():
    return designed()


@pytest.fixture(scope="module")
def lrfd():
    return designed(basis__method="LRFD")


@pytest.fixture(scope="module")
def modern():
    return designed(basis__loads="ASCE 7-22")


def test_lengths(asd):
    """a and e as above. Length of the piece: 4 + 44 + 18.375 = 66.375 in."""
    shape = asd.shape
    assert float(shape.arm[0, 0]) == printed("12.375")
    assert float(shape.end[0, 0]) == printed("18.375")
    assert float(shape.length[0, 0]) == printed("66.375")


def test_load_on_the_wall_line(asd):
    """Roof psf x (24/2 + 3/12 = 12.25 ft), times the share of one outrigger.

    Trusses at 24 in over outriggers at 16 in: none of the neighbours reaches, share 24 in = 2 ft.

        D   15 x 12.25 = 183.75 plf x 2 ft = 367.5, wall 12 psf x 2.5 ft x 16/12 ft = 40:  407.5 lb
        L    5 x 12.25 =  61.25 plf x 2 ft                                              =  122.5 lb
        Lr  20 x 12.25 = 245    plf x 2 ft                                              =  490 lb
        S   30 x 12.25 = 367.5  plf x 2 ft                                              =  735 lb
        W  -24 x 12.25 = -294   plf x 2 ft                                              = -588 lb
        W   10 x 12.25 = 122.5  plf x 2 ft                                              =  245 lb
    """
    on_line = {part: float(value[0, 0]) for part, value in asd.loads.wall_line.items()}
    by_hand = {
        "D": printed("407.5"),
        "L": printed("122.5"),
        "Lr": printed("490.0"),
        "S": printed("735.0"),
        "W_up": printed("-588.0"),
        "W_down": printed("245.0"),
    }
    assert on_line == by_hand
    assert float(asd.loads.share.ravel()[0]) == printed("24.0")


def test_strip_back_span_and_self_weight(asd):
    """Lines in lb/in: psf x 16 in / 144.

    strip       D 12 x 16/144 = 1.3333, Lr 2.2222, S 3.3333, W -2.6667 and 1.1111
    back span   D  9 x 16/144 = 1.0000, S 21 x 16/144 = 2.3333, W -18 x 16/144 = -2.0000
    self weight 62.4 x 0.43 / (1 + 0.009 x 0.43 x 19) x 1.19 = 26.832 / 1.07353 x 1.19
                = 29.743 pcf;  29.743 / 1728 x 10.875 = 0.18719
    """
    strip = {part: float(q[0, 0]) for part, q in asd.loads.strip.items()}
    assert strip == {
        "D": printed("1.3333"),
        "Lr": printed("2.2222"),
        "S": printed("3.3333"),
        "W_up": printed("-2.6667"),
        "W_down": printed("1.1111"),
    }
    back = {part: float(q[0, 0]) for part, q in asd.loads.back.items()}
    assert back == {
        "D_back": printed("1.0000"),
        "Lr_back": 0,
        "S_back": printed("2.3333"),
        "W_back": printed("-2.0000"),
    }
    assert float(asd.loads.self_weight[0, 0]) == printed("0.18719")


def unfactored(result, part):
    """V just outside the edge, M at it, R at back and edge, of one unfactored part."""
    whole, i = result.model.whole, result.model.parts.index(part)
    numbers = (whole.V_arm, whole.M[-1], *whole.R)
    return [float(table[0, i]) for table in numbers]


def test_unfactored_actions_of_each_part(asd):
    """V and M (hogging) at the edge, R_back = -M/44 and R_edge = V + M/44 of loads on the arm.

    Dead and self weight lie on the whole 18.375 in; snow, live and wind on the 12.375 - 3 =
    9.375 in that the overhang does not cover, and on the 6 in of tail, centred at 15.375 in.

        D   w = 1.33333 + 0.18719 = 1.52052
            V = 407.5 + 1.52052 x 18.375                     =   435.440 lb
            M = 407.5 x 12.375 + 1.52052 x 18.375^2 / 2
              = 5042.81 + 256.694                            =  5299.51 lb-in
        L   V = 122.5;            M = 122.5 x 12.375         =  1515.94
        Lr  V = 490 + 2.22222 x 15.375                       =   524.167
            M = 490 x 12.375 + 2.22222 x (9.375^2/2 + 6 x 15.375)
              = 6063.75 + 2.22222 x (43.9453 + 92.25)        =  6366.41
        S   V = 735 + 3.33333 x 15.375                       =   786.250
            M = 9095.63 + 3.33333 x 136.195                  =  9549.61
        Wup V = -588 - 2.66667 x 15.375                      =  -629.000
            M = -7276.50 - 2.66667 x 136.195                 = -7639.69

    On the back span, about the edge and about the back:

        D_back  w = 1 + 0.18719 = 1.18719 over 44 in, 0.18719 over the 4 in behind
                moment about the edge 1.18719 x 44^2/2 + 0.18719 x 4 x 46 = 1183.64
                R_back = 1183.64 / 44 = 26.901;  R_edge = 52.2362 + 0.74874 - 26.901 = 26.084
        S_back  R each 2.33333 x 22 = 51.333;  W_back  R each -44.000
    """
    assert unfactored(asd, "D") == [
        printed("435.440"), printed("-5299.51"), printed("-120.443"), printed("555.883")
    ]  # fmt: skip
    assert unfactored(asd, "L")[:2] == [printed("122.500"), printed("-1515.94")]
    assert unfactored(asd, "Lr")[:2] == [printed("524.167"), printed("-6366.41")]
    assert unfactored(asd, "S") == [
        printed("786.250"), printed("-9549.61"), printed("-217.037"), printed("1003.287")
    ]  # fmt: skip
    assert unfactored(asd, "W_up")[:2] == [printed("-629.000"), printed("7639.69")]
    assert unfactored(asd, "D_back")[2:] == [printed("26.901"), printed("26.084")]
    assert unfactored(asd, "S_back")[2:] == [printed("51.333"), printed("51.333")]
    assert unfactored(asd, "W_back")[2:] == [printed("-44.000"), printed("-44.000")]


def test_bending_at_the_edge(asd):
    """D + S, CD 1.15. NDS 2018 3.3.

    M = 5299.51 + 9549.61                      = 14,849.1 lb-in
    fb = 14,849.1 / 13.1406                    = 1130.0 psi
    Fb* = 850 x 1.15 x 1.2                     = 1173 psi
    arm: lu/d = 12.375/7.25 = 1.71 < 7, le = 1.87 x 12.375 = 23.141 in
         RB^2 = 23.141 x 7.25 / 1.5^2 = 74.566, FbE = 1.20 x 470,000 / 74.566 = 7563.7 psi
         r = 6.4482, (1 + r)/1.9 = 3.9201, CL = 3.9201 - sqrt(15.3672 - 6.78759) = 0.9910
    house side: lu = 20 in to the next block, le = 2.06 x 20 = 41.2 in
         RB^2 = 132.756, FbE = 4248.4, r = 3.62183, (1 + r)/1.9 = 2.43254
         CL = 2.43254 - sqrt(5.91726 - 3.81245) = 0.9817   governs
    Fb' = 1173 x 0.98175                       = 1151.6 psi;  1130.0 / 1151.6 = 0.981
    """
    found = check(asd, "bending", "", "edge")
    assert demand_in(found, "D + S") == printed("1130.0")
    assert capacity(found, "D + S") == printed("1151.6")
    governing = row(asd, "bending", "", "edge")
    assert governing.combination == "D + S"
    assert governing.ratio == printed("0.981")
    CL = next(s for s in found.steps[1].chain() if s.symbol == "CL" and "CL_arm" in s.inputs)
    at = found.governing()
    assert float(CL.inputs["CL_arm"].value[0, at]) == printed("0.9910")
    assert float(CL.inputs["CL_back"].value[0, at]) == printed("0.9817")
    assert float(CL.value[0, at]) == printed("0.98175")


def test_bending_in_the_back_span_uses_the_longest_stretch_between_blocks(asd):
    """Blocks at 20 and 44 in: lu = 24 in, le = 49.44 in, RB^2 = 159.307, FbE = 3540.3 psi.

    CD 1.15: r = 3.01819, (1 + r)/1.9 = 2.11484, CL = 2.11484 - sqrt(4.47255 - 3.17704) = 0.97664;
    Fb' = 1173 x 0.97664 = 1145.6 psi.
    """
    assert capacity(check(asd, "bending", "", "back span"), "D + S") == printed("1145.6")
    assert row(asd, "bending", "slenderness RB").demand == printed("12.622")


def test_shear_on_both_sides_of_the_edge(asd):
    """D + S, CD 1.15: Fv' = 172.5 psi; fv = 3 V / (2 x 10.875). NDS 2018 3.4.2.

    arm side    V = 435.440 + 786.250                       = 1221.69 lb, fv = 168.5 psi, 0.977
    house side  snow and dead whole on both: V less the push at the edge,
                1221.69 - (555.883 + 26.084 + 1003.287 + 51.333) = -414.90 lb,
                fv = 57.2 psi, 0.332
    """
    arm = check(asd, "shear", "arm side", "edge")
    assert demand_in(arm, "D + S") == printed("168.5")
    assert capacity(arm, "D + S") == printed("172.5")
    assert row(asd, "shear", "arm side").ratio == printed("0.977")
    house = check(asd, "shear", "house side", "edge")
    assert demand_in(house, "D + S") == printed("57.2")
    governing = row(asd, "shear", "house side")
    assert governing.combination == "D + S"
    assert governing.ratio == printed("0.332")  # 57.23 / 172.5


def test_bearing_at_the_edge(asd):
    """The largest push: D + 0.75L + 0.75S + 0.45W down, snow also on the back span. NDS 2018 3.10.

    V = 435.440 + 0.75 x 122.5 + 0.75 x 786.25 + 0.45 x (245 + 1.11111 x 15.375)
      = 435.440 + 91.875 + 589.688 + 117.938                    = 1234.94 lb
    M = 5299.51 + 1136.95 + 7162.21 + 0.45 x 3183.20            = 15,031.1 lb-in
    R = 1234.94 + 15,031.1/44 + 26.084 + 0.75 x 51.333          = 1641.1 lb
    wind suction left off. Contact 3 1/2 in: 1641.1 / (1.5 x 3.5) = 312.6 psi

    outrigger   Cb = (3.5 + 0.375)/3.5 = 1.10714, 18.375 - 1.75 > 3 in: 405 x 1.10714 = 448.4
    sheathing   360 psi (APA TT-001B)
    framing     Spruce-Pine-Fir, Cb 1: 425 psi
    """
    text = "D + 0.75L + 0.75S + 0.45W down"
    for link, limit, ratio in [
        ("outrigger", "448.4", "0.697"),
        ("sheathing", "360.0", "0.868"),
        ("framing below", "425.0", "0.736"),
    ]:
        found = check(asd, "edge_bearing", link)
        assert demand_in(found, text) == printed("312.6")
        governing = asd.row(found)
        assert (governing.combination, governing.demand) == (text, printed("312.6"))
        assert governing.capacity == printed(limit)
        assert governing.ratio == printed(ratio)


def test_bearing_at_an_edge_near_the_outer_end():
    """Gap 1/4 in, plate 3 1/2 in, tail 1/4 in, no setback: the end is 1/4 + 5/8 + 1 3/4 + 1/4 =
    2.875 in from the bearing, under 3 in: Cb 1. A tail of 1/2 in leaves 3.125 in: Cb 1.10714."""
    gap = {"gap__width": "1/4 in", "gap__garage_plate": "3 1/2 in", "gap__edge_setback": "none"}
    for tail, limit in (("1/4 in", "405.0"), ("1/2 in", "448.4")):
        near = designed(**gap, outrigger__tail=tail)
        assert row(near, "edge_bearing", "outrigger").capacity == printed(limit)


def test_bearing_under_the_garage_wall(asd):
    """P of the same combination: 407.5 + 91.875 + 551.25 + 110.25 = 1160.875 lb.

    Length: min(5.5, 2.75 + 6) = 5.5 in; 1160.875 / (1.5 x 5.5) = 140.7 psi. From the bearing to
    the end 6 - 2.75 = 3.25 in: Cb = 5.875/5.5 = 1.06818, 405 x 1.06818 = 432.6. Plate 425 psi.
    """
    outrigger, plate = (
        row(asd, "wall_bearing", "outrigger"),
        row(asd, "wall_bearing", "garage plate"),
    )
    assert outrigger.demand == plate.demand == printed("140.7")
    assert (outrigger.capacity, plate.capacity) == (printed("432.6"), printed("425.0"))
    assert (outrigger.ratio, plate.ratio) == (printed("0.325"), printed("0.331"))


def test_bearing_at_the_back(asd):
    """Pushed down by 0.6D + 0.6W up, wind left off the back span: over 1 1/2 in, Cb 1.

    M = 0.6 x 5299.51 - 0.6 x 7639.69 = -1404.1 lb-in
    R_back = 1404.1/44 + 0.6 x 26.901 = 31.912 + 16.141 = 48.05 lb;  / (1.5 x 1.5) = 21.36 psi
    """
    for link, limit in (("outrigger", "405"), ("sheathing", "360"), ("framing below", "425")):
        found = row(asd, "back_bearing", link, "back")
        assert found.demand == printed("21.36")
        assert found.capacity == printed(limit)


def test_clips_at_the_back(asd):
    """D + S with no snow on the back span and its dead load at 0.6.

    T = 14,849.1/44 - 0.6 x 1183.64/44 = 337.480 - 16.141 = 321.34 lb; 160.67 lb a clip
    listed 500 lb for wind, lowered to snow: 500 x 1.15/1.6 = 359.4 lb;  160.67/359.4 = 0.447
    D + worker, before the roof is on: (5299.51 + 300 x 18.375)/44 = 245.73 lb,
    less its own weight: 0.6 x 0.18719 x (44 x 22 + 4 x 46)/44 = 2.94: 242.79 lb, less than D + S.
    """
    governing = row(asd, "hold_down:back")
    assert governing.combination == CLIP_COMBINATION
    assert governing.demand == printed("160.67")
    assert governing.capacity == printed("359.4")
    assert governing.ratio == printed("0.447")
    worker = demand_in(check(asd, "hold_down:back"), "D + worker, before the roof is on")
    assert 2 * worker == printed("242.79")


def test_tie_at_the_edge(asd):
    """0.6D + 0.6W up, also on the back span: the listed value is for wind and stays.

    R = 0.6 x (581.97 - 846.63) = -158.80 lb; 79.40 lb a tie, of 450 lb: 0.176
    """
    governing = row(asd, "hold_down:edge")
    assert governing.combination == "0.6D + 0.6W up"
    assert governing.demand == printed("79.40")
    assert governing.capacity == printed("450")
    assert governing.ratio == printed("0.176")


def test_droop_at_the_wall_line(asd):
    """Closed forms of an overhanging beam with shear deformation, Roark or any handbook of beams.

    E = 1.03 x 1,300,000 = 1,339,000 psi; EI = 1,339,000 x 47.6348 = 63,782,951 lb-in2;
    G = 1,339,000/16 = 83,687.5 psi; GA = 5/6 x 83,687.5 x 10.875 = 758,418 lb. L = 44, a = 12.375.

    P at a                   P a^2 (L + a)/(3 EI) + P a (1 + a/L)/GA
        a^2 (L + a)/(3 EI) = 153.141 x 56.375 / 191,348,854  = 4.51181e-5
        a (1 + a/L)/GA     = 12.375 x 1.28125 / 758,418      = 2.09060e-5,  sum 6.60241e-5 in/lb
        D 407.5: 0.0269048    S 735: 0.0485277
    w on the whole e         w [a^2 (6 e^2 - 4 e a + a^2)/24 + e^2/2 x L a/3]/EI
                             + w [e a - a^2/2 + e^2/2 x a/L]/GA
        D 1.52052: 0.0009235 + 0.0003976                      = 0.0013211
    w on c = 9.375 in from the edge:  w [c^3 (4 a - c)/24 + c^2/2 x L a/3]/EI
                             + w [c^2/2 + c^2/2 x a/L]/GA
        S 3.33333: 0.0004888 + 0.0002475                      = 0.0007363
    w on the tail t = 6 in, M = w t (a + t/2):  w [t a^3/3 + t^2 a^2/4]/EI + M L a/(3 EI)
                             + w t a/GA + M a/(L GA)
        S 3.33333: 0.0011451 + 0.0004404                      = 0.0015855
    w on the back span       -w L^3 a/(24 EI); by symmetry no shear part
        D 1.18719: -0.0008175
    w behind the back, M = w 4^2/2:  M L a/(6 EI) - M a/(L GA)
        D 0.18719: 0.0000021 - 0.0000006                      = 0.0000016

        live   S, nothing on the back span: 0.0485277 + 0.0007363 + 0.0015855 = 0.050850 in
               limit 2 x 12.375/240 = 0.103125 in:  0.493
        total  D with the back span at 0.6: 0.0269048 + 0.0013211 - 0.6 x 0.0008159 = 0.0277364
               1.5 x 0.0277364 + 0.0508495 = 0.092454 in;  limit 24.75/180 = 0.1375:  0.672
    """
    live, total = row(asd, "live_deflection"), row(asd, "total_deflection")
    assert live.combination == "S, snow none on the back span"
    assert live.demand == printed("0.050850")
    assert live.capacity == printed("0.103125")
    assert live.ratio == printed("0.493")
    assert total.combination == "D + S, snow none on the back span, dead on the back span x 0.6"
    assert total.demand == printed("0.092454")
    assert total.capacity == printed("0.1375")
    assert total.ratio == printed("0.672")
    # 1 lb at the wall line droops 6.60241e-5 in: 15,146 lb/in
    assert float(asd.tip_stiffness.ravel()[0]) == printed("15,146")


def test_verdict(asd):
    """All pass; the closest is bending at the edge, 0.981."""
    assert asd.verdict == "pass"
    governing = asd.closest
    assert (governing.check.id, governing.check.place) == ("bending", "edge")
    assert not asd.not_given
    assert not asd.not_covered


def test_strength_design(lrfd):
    """The same by LRFD, 1.2D + 1.6S + 0.5W down, lambda 0.8. NDS 2018 appendix N.

    V = 1.2 x 435.440 + 1.6 x 786.25 + 0.5 x 262.083               = 1911.57 lb
    fv = 3 x 1911.57/21.75                                          = 263.66 psi
    Fv' = 150 x 2.88 x 0.75 x 0.8                                   = 259.2 psi:  1.017, fails
    M = 1.2 x 5299.51 + 1.6 x 9549.61 + 0.5 x 3183.20               = 23,230.4 lb-in
    fb = 23,230.4/13.1406                                           = 1767.8 psi
    Fb* = 850 x 1.2 x 2.54 x 0.85 x 0.8 = 1761.74; Emin' = 470,000 x 1.76 x 0.85 = 703,120
    house side: FbE = 1.20 x 703,120/132.756 = 6355.6, r = 3.60757, (1 + r)/1.9 = 2.42504,
         CL = 2.42504 - sqrt(5.88082 - 3.79744) = 0.98165
    Fb' = 1761.74 x 0.98165                                         = 1729.4 psi:  1.022, fails
    R = 1911.57 + 23,230.4/44 + 1.2 x 26.084 + 1.6 x 51.333         = 2552.97 lb
        / 5.25                                                      = 486.3 psi
    outrigger 405 x 1.67 x 0.90 x 1.10714 = 673.9; sheathing 360 x 1.5 = 540;
    framing 425 x 1.67 x 0.90 = 638.8
    P = 1.2 x 407.5 + 1.6 x 735 + 0.5 x 245 = 1787.5; / 8.25        = 216.7 psi
    """
    shear, bending = row(lrfd, "shear", "arm side"), row(lrfd, "bending", "", "edge")
    assert shear.combination.startswith("1.2D + 1.6S + 0.5W down")
    assert (shear.demand, shear.capacity) == (printed("263.66"), printed("259.2"))
    assert (shear.ratio, shear.status) == (printed("1.017"), "fail")
    assert (bending.demand, bending.capacity) == (printed("1767.8"), printed("1729.4"))
    assert (bending.ratio, bending.status) == (printed("1.022"), "fail")
    for link, limit in (("outrigger", "673.9"), ("sheathing", "540.0"), ("framing below", "638.8")):
        found = row(lrfd, "edge_bearing", link)
        assert (found.demand, found.capacity) == (printed("486.3"), printed(limit))
    assert row(lrfd, "wall_bearing", "outrigger").demand == printed("216.7")
    assert lrfd.verdict == "fail"


def test_strength_design_leaves_listed_clips_and_droop_alone(asd, lrfd):
    """A listed value belongs to ASD combinations; droop is at service level: the same numbers."""
    for id in ("hold_down:back", "hold_down:edge", "live_deflection", "total_deflection"):
        first, second = row(asd, id), row(lrfd, id)
        assert second.combination == first.combination
        assert (second.demand, second.capacity) == (first.demand, first.capacity)


def test_snow_at_strength_level(modern):
    """ASCE 7-22 ASD: 30 psf is at strength level, D + 0.7S at CD 1.15.

    V = 435.440 + 0.7 x 786.25 = 985.81 lb, fv = 135.97 psi of 172.5:  0.788
    M = 5299.51 + 0.7 x 9549.61 = 11,984.2 lb-in, fb = 912.0 psi of 1151.6:  0.792
    T = 11,984.2/44 - 16.141 = 256.23 lb, 128.11 lb a clip of 359.4:  0.356
    live droop 0.7 x 0.0508495 = 0.035595 in; total 1.5 x 0.0277364 + 0.035595 = 0.077199 in
    the edge tie: the same, 79.40 lb
    """
    shear, bending = row(modern, "shear", "arm side"), row(modern, "bending", "", "edge")
    assert (shear.combination, shear.ratio) == ("D + 0.7S", printed("0.788"))
    assert shear.demand == printed("135.97")
    assert (bending.demand, bending.capacity) == (printed("912.0"), printed("1151.6"))
    clips = row(modern, "hold_down:back")
    assert clips.combination == CLIP_COMBINATION.replace("D + S", "D + 0.7S")
    assert (clips.demand, clips.ratio) == (printed("128.11"), printed("0.356"))
    live, total = row(modern, "live_deflection"), row(modern, "total_deflection")
    assert live.combination == "0.7S, snow none on the back span"
    assert (live.demand, total.demand) == (printed("0.035595"), printed("0.077199"))
    assert row(modern, "hold_down:edge").demand == printed("79.40")
