"""The member right under the outriggers at the house wall, worked by hand.

The outriggers are those of test_level_design_by_hand.py, 16 in apart. Push of one at the edge, lb:

    D 555.883, on the back span 26.084; S 786.250 + 9549.61 / 44 = 1003.287, on the back span 51.333
    D + S: 581.967 + 1054.620 = 1636.587
    0.6D + 0.6W: 0.6 x 581.967 - 0.6 x (629 + 7639.69 / 44 + 44) = 349.180 - 507.978 = -158.798,
    which the tie there pulls up with
"""

import pytest
from level_case import GONE, case, check, clip, designed, row
from published import printed

from outrigger.cases.batch import batch_of
from outrigger.cases.faults import CaseFaultsError
from outrigger.checks.loaded_member import contact
from outrigger.formula.numbers import Element, pick
from outrigger.verdict import notes
from outrigger.verdict.design import design, designs_of
from outrigger.verdict.missing_fact import ENGINEER
from outrigger.verdict.taken import stated_none

CARRIES = {"D": "120 plf", "S": "180 plf", "Lr": "0 plf", "W_up": "0 plf"}
HEADER = {
    "kind": "header",
    "size": "2x10",
    "plies": 2,
    "species": "Douglas Fir-Larch",
    "grade": "No. 2",
    "moisture": "dry",
    "span": "36 in",
    "end_bearing": "3 in",
    "stud": {
        "size": "2x6",
        "species": "Spruce-Pine-Fir",
        "grade": "Stud",
        "height": "84 in",
        "count": 2,
        "wind": "none",
    },
    "carries": CARRIES,
    "ends": {"rated_up": "450 lb", "rated_for": "wind"},
}
PLATE = {
    "kind": "top plate on studs",
    "size": "2x6",
    "plies": 2,
    "species": "Spruce-Pine-Fir",
    "grade": "No. 2",
    "moisture": "dry",
    "span": "16 in",
    "carries": CARRIES,
    "ends": {"rated_up": "450 lb", "rated_for": "wind"},
}
BLOCK = {
    "kind": "blocking",
    "size": "2x8",
    "species": "Spruce-Pine-Fir",
    "grade": "No. 2",
    "moisture": "dry",
    "span": "14 1/2 in",
    "carries": "none",
    "ends": {"fastener": "16d common", "count": 3},
}
ON_A_BLOCK = {
    "house_roof__edge_support": "blocking",
    "house_roof__edge_support_width": "1 1/2 in",
}
RAFTER = {
    "kind": "rafter",
    "size": "2x12",
    "species": "Douglas Fir-Larch",
    "grade": "No. 2",
    "moisture": "dry",
    "span": "10 ft",
    "edge_at": "6 in",
    "carries": "none",
}


@pytest.fixture(scope="module")
def header():
    return designed(house_edge=HEADER)


def at(found, combination):
    """The demand of a row in one combination."""
    return found.demand_at(0, [c.text for c in found.combinations].index(combination))


def test_a_header_bends(header):
    """Over 36 in three outriggers, the middle one at mid-span: M = R (3 x 18^2 / 36 - 16) = 11 R;
    two bring 2 (18 - 4)^2 / 36 = 10.89 R. It carries 120 + 180 plf = 25 lb/in:
    M = 11 x 1636.587 + 25 x 36^2 / 8 = 18,002.5 + 4,050 = 22,052 lb-in
    2 2x10: S = 3 x 9.25^2 / 6 = 42.781 in3: fb = 515.5 psi. DF-L No. 2: 900 x 1.15 x 1.1 = 1138.5;
    le = 2.06 x 36 = 74.16, RB^2 = 74.16 x 9.25 / 9 = 76.22, FbE = 1.2 x 580,000 / 76.22 = 9131;
    F = 8.0206: CL = 9.0206/1.9 - sqrt((9.0206/1.9)^2 - 8.0206/0.95) = 4.7477 - 3.7547 = 0.9930;
    Fb' = 1130.5 psi: 0.456."""
    found = row(header, "house_edge", "bending")
    assert found.combination == "D + S"
    assert found.demand == printed("515.5")
    assert found.capacity == pytest.approx(1130.5, abs=0.2)
    assert found.ratio == printed("0.456")


def test_a_header_in_shear(header):
    """One right at the end, the next two beyond: R (1 + 20/36 + 4/36) = 1.6667 R = 2727.65, and 25
    x 18 = 450: V = 3177.65 lb; fv = 3 V / (2 x 3 x 9.25) = 171.8 psi; 180 x 1.15 = 207."""
    found = row(header, "house_edge", "shear")
    assert found.demand == printed("171.8")
    assert found.capacity == printed("207.0")


def test_a_header_in_shear_less_what_stands_near():
    """With 3.4.3.1 the first stands 9.25 in from the end, the next at 25.25: R (26.75 + 10.75) / 36
    = 1.04167 R = 1704.78, and 25 x (18 - 9.25) = 218.75: 1923.5 lb; fv = 103.97 psi."""
    found = row(designed(house_edge={**HEADER, "near_support_relief": True}), "house_edge", "shear")
    assert found.demand == pytest.approx(103.97, abs=0.05)


def test_the_ends_of_a_header(header):
    """3177.65 lb on 3 x 3 in = 353.1 psi, 625 allowed. Lifted: 158.798 x 1.66667 = 264.66, less 0.6
    x 10 lb/in x 18 = 108: 156.7 lb of 450."""
    bears = row(header, "house_edge", "bearing at its ends")
    assert (bears.demand, bears.capacity) == (printed("353.1"), printed("625.0"))
    lifted = row(header, "house_edge", "uplift at its ends")
    assert (lifted.demand, lifted.capacity) == (printed("156.7"), printed("450.0"))


def test_the_stud_of_a_header(header):
    """Two 2x6 SPF Stud of 84 in share 3177.65 lb: 1588.8 / 8.25 = 192.6 psi. Fc* = 725 x 1.15 =
    833.75 (CF 1.0); le/d = 84/5.5 = 15.273; FcE = 0.822 x 440,000 / 15.273^2 = 1550.6; F = 1.8597:
    CP = 2.8597/1.6 - sqrt((2.8597/1.6)^2 - 1.8597/0.8) = 1.7873 - 0.9327 = 0.8547; Fc' = 712.6."""
    found = row(header, "house_edge", "stud")
    assert found.combination == "D + S"
    assert found.demand == printed("192.6")
    assert found.capacity == pytest.approx(712.6, abs=0.2)
    assert row(header, "house_edge", "stud, slenderness").demand == printed("15.27")


def test_a_header_sags(header):
    """EI = 1.6e6 x 3 x 9.25^3 / 12 = 3.1658e8. Two astride mid-span, at 10 in: 2 x 10 x (3 x 36^2 -
    4 x 10^2) / 48 EI = 4.5907e-6 in/lb; one at mid-span and two at 2 in: 4.0895e-6. Snow: 1054.62
    lb brings 0.004842, 15 lb/in 5 x 15 x 36^4 / 384 EI = 0.001036: 0.00588 of 36/240 = 0.150 in.
    Dead: 581.967 lb 0.002672, 10 lb/in 0.000691: x 1.5 = 0.00504; in all 0.01092 of 0.200."""
    live, total = (row(header, "house_edge", f"{one} deflection") for one in ("live", "total"))
    assert (live.demand, live.capacity) == (printed("0.00588"), printed("0.150"))
    assert (total.demand, total.capacity) == (printed("0.01092"), printed("0.200"))


def test_a_plate_between_studs():
    """Two flat 2x6 over 16 in, one outrigger at mid-span: M = 1636.587 x 4 + 25 x 16^2 / 8 = 6546.3
    + 800 = 7346.3 lb-in; S = 2 x 5.5 x 1.5^2 / 6 = 4.125: 1780.9 psi. SPF No. 2: 875 x 1.15 x 1.3
    (CF) x 1.15 (Cfu) = 1504.3: 1.184. The plate runs on over its studs: one takes two outriggers
    at mid-span, 2 x 0.6875 x 1636.587 = 2250.3, and 5/4 x 25 x 16 = 500: 2750.3 lb on 1.5 x 5.5:
    333.4 psi, 425 allowed. Shear: one beside a stud, and 5/8 x 25 x 16 = 250: 1886.6 lb x 1.5 /
    16.5 = 171.5 psi, 135 x 1.15 = 155.25. Up: 1.375 x 158.798 = 218.3, less 0.6 x 10 x 16 = 96, of
    one span alone where it helps: 122.3 lb of 450."""
    found = designed(house_edge=PLATE)
    bent = row(found, "house_edge", "bending")
    assert (bent.demand, bent.capacity) == (printed("1780.9"), pytest.approx(1504.3, abs=0.1))
    assert (bent.status, found.verdict) == ("fail", "fail")
    stands = row(found, "house_edge", "plate on the stud")
    assert (stands.demand, stands.capacity) == (printed("333.4"), printed("425"))
    cut = row(found, "house_edge", "shear")
    assert (cut.demand, cut.capacity) == (printed("171.5"), printed("155.25"))
    lifted = row(found, "house_edge", "uplift at its ends")
    assert (lifted.demand, lifted.capacity) == (printed("122.3"), printed("450.0"))


def test_a_plate_over_studs_closer_and_farther_than_the_outriggers():
    """At 24 in over outriggers at 16: astride a stud two at 8 in, 2 (1 - 1.5/9 + 0.5/27) = 1.7037;
    one over it and two at 16 in, 1 + 2 (1 - 1.5 x 4/9 + 0.5 x 8/27) = 1.9630. At 12 in: astride,
    8 in off, 2 (1 - 2/3 + 4/27) = 0.9630; one over it 1."""
    for span, most in (("24 in", 1.9630), ("12 in", 1.0)):
        found = designed(house_edge={**PLATE, "span": span, "carries": "none"})
        stands = at(check(found, "house_edge", "plate on the stud"), "D + S")
        assert stands * 8.25 == pytest.approx(most * 1636.587, rel=5e-5)


def test_a_crossing_member_that_runs_on():
    """A 4x8 over bearings 3 1/2 in long at 16 in runs on as a plate does: 1.375 R on
    3.5 x 3.5 in: 1.375 x 1636.587 / 12.25 = 183.7 psi. On hangers between two, one beside its end
    alone: 1636.6 lb."""
    across = {**BLOCK, "kind": "crossing member", "size": "4x8", "span": "16 in"}
    runs = {k: v for k, v in across.items() if k != "ends"}
    runs |= {"end_bearing": "3 1/2 in", "ends": {"rated_up": "400 lb", "rated_for": "wind"}}
    on = {"house_roof__edge_support": "crossing member"}
    on |= {"house_roof__edge_support_width": "3 1/2 in"}
    bears = check(designed(house_edge=runs, **on), "house_edge", "bearing at its ends")
    assert at(bears, "D + S") == printed("183.7")
    hung = {**across, "ends": {"rated_down": "1800 lb", "rated_up": "400 lb", "rated_for": "wind"}}
    ends = row(designed(house_edge=hung, **on), "house_edge", "listed at its ends")
    assert ends.demand == printed("1636.6")


def test_the_crushing_below_is_of_the_plate_itself():
    """SPF (South) plates: Fc_perp 335, though the rafters are SPF, 425."""
    soft = {**PLATE, "species": "Spruce-Pine-Fir (South)"}
    found = row(designed(house_edge=soft), "edge_bearing", "framing below")
    assert found.capacity == printed("335")


def test_a_stud_in_the_wind():
    """2x6 SPF Stud, 96 in, 16 in apart, 20 psf on the wall, strength level: in D + 0.6W w = 0.6 x
    20 x 16 / 144 = 1.3333 lb/in: M = 1.3333 x 96^2 / 8 = 1536 lb-in; fb = 1536 / 7.5625 = 203.1.
    The largest push there with wind is D + 0.45W down + 0.75S, w 0.45/0.6 of that: M = 1152, fb
    152.3. R: 581.967 + 0.75 x 1054.62 + 0.45 x (245 + 1.1111 x 15.375 + (245 x 12.375 + 1.1111 x
    136.195) / 44 = 334.43) = 581.967 + 790.965 + 150.49 = 1523.4; with Lr it is less: x 1.375,
    2094.7. What it carries: 120 + 0.75 x 180 = 255 plf = 21.25 lb/in x 20 = 425: N = 2519.7, fc
    305.4. Fc* = 725 x 1.6 = 1160; le/d = 17.4545; FcE = 0.822 x 440,000 / 304.66 = 1187.2; F =
    1.02342; CP = 1.26464 - sqrt(1.59931 - 1.27928) = 0.69893; Fc' = 810.8; Fb' = 675 x 1.6 = 1080:
    (305.4/810.8)^2 + 152.3 / (1080 x (1 - 305.4/1187.2)) = 0.1419 + 0.1899 = 0.332."""
    stud = {"size": "2x6", "species": "Spruce-Pine-Fir", "grade": "Stud", "height": "8 ft"}
    found = check(designed(house_edge={**PLATE, "stud": {**stud, "wind": "20 psf"}}),
                  "house_edge", "stud")  # fmt: skip
    names = [c.text for c in found.combinations]
    (same,) = [i for i, name in enumerate(names) if name == "D + 0.75S + 0.45W down"]
    assert found.demand_at(0, same) == pytest.approx(0.332, abs=0.001)


def test_blocking_hangs_on_its_nails():
    """Three 16d common through 1 1/2 in of SPF into SPF: Z 120 lb (NDS Table 12N); into end grain
    0.67; D + S 1.15: 3 x 120 x 0.67 x 1.15 = 277.4 lb. One outrigger beside the end, R = 1636.6."""
    found = row(
        designed(house_edge=BLOCK, **ON_A_BLOCK),
        "house_edge", "fasteners of its ends",
    )  # fmt: skip
    assert found.demand == printed("1636.6")
    assert found.capacity == pytest.approx(277.4, abs=1.2)  # 120 is to half a pound
    assert found.status == "fail"


def test_blocking_that_is_given_and_passes_closes_the_case():
    """The same blocks on listed hangers: the row of crushing below is no longer open."""
    kept = {**BLOCK, "ends": {"rated_down": "1800 lb", "rated_up": "400 lb", "rated_for": "wind"}}
    kept |= {"size": "4x8"}
    light = {"snow__roof": "10 psf", "house_roof__snow": "10 psf"}
    light |= {**ON_A_BLOCK, "house_roof__edge_support_width": "3 1/2 in"}
    before, after = designed(**light), designed(house_edge=kept, **light)
    assert row(before, "edge_bearing", "framing below").status == "open"
    assert row(after, "edge_bearing", "framing below").status == "pass"
    assert {c.status() for c in after.checks if c.id == "house_edge"} == {"pass"}
    assert (before.verdict, after.verdict) == ("open", "pass")


def test_listed_hangers_are_lowered_to_the_load():
    """1800 lb listed for wind counts 1800 x 1.15 / 1.6 = 1293.75 under snow: 1636.6 does not."""
    ends = {"rated_down": "1800 lb", "rated_up": "400 lb", "rated_for": "wind"}
    found = row(
        designed(house_edge={**BLOCK, "ends": ends}, **ON_A_BLOCK),
        "house_edge", "listed at its ends",
    )  # fmt: skip
    assert found.capacity == printed("1293.75")


def test_listed_hangers_hold_what_lifts_the_blocking():
    """One outrigger beside the end of a block lifts 158.80 lb there, of 400 listed for wind; where
    no value is listed the row stays open."""
    for ends, cap, status in (
        ({"rated_down": "1800 lb", "rated_up": "400 lb", "rated_for": "wind"}, 400.0, "pass"),
        ({"rated_down": "1800 lb", "rated_for": "wind"}, None, "open"),
    ):
        found = row(
            designed(house_edge={**BLOCK, "ends": ends}, **ON_A_BLOCK),
            "house_edge", "uplift at its ends",
        )  # fmt: skip
        assert found.demand == printed("158.80")
        assert (found.capacity, found.status) == (cap, status)


def test_a_rafter_under_one_outrigger():
    """10 ft, the edge 6 in from its bearing: M = R 6 x 114 / 120 = 5.7 R = 9328.5 lb-in under D +
    S, the back not pressed then; V = R 114/120 = 1554.8 lb on 16.875 in2: 138.2 psi."""
    found = designed(house_edge=RAFTER, house_roof__edge_support="rafter")
    assert row(found, "house_edge", "shear").demand == printed("138.2")
    bent = check(found, "house_edge", "bending")
    at = [c.text for c in bent.combinations].index("D + S")
    # S = 1.5 x 11.25^2 / 6 = 31.641 in3
    assert bent.demand_at(0, at) == pytest.approx(9328.5 / 31.641, abs=0.1)


def test_a_rafter_whose_edge_stands_nobody_says_where():
    """At mid-span: M = R x 120/4 = 30 R = 49,097.6 lb-in on 31.641 in3."""
    anywhere = {key: value for key, value in RAFTER.items() if key != "edge_at"}
    found = designed(house_edge=anywhere, house_roof__edge_support="rafter")
    bent = check(found, "house_edge", "bending")
    assert at(bent, "D + S") == pytest.approx(49097.6 / 31.641, abs=0.2)


def test_a_header_under_a_row_sags_by_the_nearest_hold_down_alone():
    """Clips at 16 in and the back: with the nearer alone the snow of the arm brings 786.25 +
    9549.61/16 = 1383.10 lb at the edge, and what the rigid row brings less is no less here:
    1383.10 x 4.5907e-6 = 0.006349, with 0.001036 of its own 0.00739 in at the least."""
    held = [clip("back"), clip("16 in"), clip("edge")]
    found = row(designed(house_edge=HEADER, hold_down=held), "house_edge", "live deflection")
    assert found.demand >= 0.00738


def test_a_load_of_the_house_that_the_garage_has_not():
    """No snow on the garage nor the roof: the plate's own 180 plf of snow still counts, in D + S of
    both together: R_D 581.967 x 4 + (120 + 180) / 12 x 32 = 2327.9 + 800 = 3127.9 lb-in."""
    found = check(
        designed(house_edge=PLATE, snow__roof="none", house_roof__snow="none",
                 garage_roof__live="none"),
        "house_edge", "bending",
    )  # fmt: skip
    at = [c.text for c in found.combinations].index("D + S")
    assert found.demand_at(0, at) == pytest.approx(3127.9 / 4.125, abs=0.1)


def test_strength_design():
    """LRFD 1.2D + 1.6S + 0.5W is more than 1.2D + 1.6S: there R = 1.2 x 581.967 + 1.6 x 1054.62 =
    2385.75; M = 4 R + (1.2 x 10 + 1.6 x 15) x 32 = 9543.0 + 1152 = 10,695 lb-in."""
    found = check(designed(house_edge=PLATE, basis__method="LRFD"), "house_edge", "bending")
    names = [c.text for c in found.combinations]
    at = names.index("1.2D + 1.6S")
    assert found.demand_at(0, at) == pytest.approx(10695 / 4.125, abs=0.2)


def test_a_batch_is_its_cases():
    base = case(house_edge=HEADER)
    values = [12.0, 16.0, 19.2, 24.0]
    for path in ("outrigger.spacing", "gap.width"):
        many = [v / 2 for v in values] if path == "gap.width" else values
        together = designs_of(batch_of(base, {path: many}))
        for i, value in enumerate(many):
            alone = design(batch_of(base, {path: value}).case)
            here = [(r.id, r.place, r.link, r.ratio) for r in together.rows(i)]
            assert here == [(r.id, r.place, r.link, r.ratio) for r in alone.rows]


def test_not_given_adds_no_row():
    assert not [c for c in designed().checks if c.id == "house_edge"]


def test_what_is_asked():
    bare = {k: v for k, v in BLOCK.items() if k not in ("moisture", "carries", "ends")}
    found = designed(house_edge=bare, **ON_A_BLOCK)
    asked = {one.key for one in found.not_given}
    assert {"house_edge.moisture", "house_edge.carries", "house_edge.ends"} <= asked
    assert row(found, "house_edge", "listed at its ends").status == "open"
    some = designed(house_edge={**PLATE, "carries": {"D": "120 plf"}})
    asked = {one.key for one in some.not_given}
    assert asked == {f"house_edge.carries.{one}" for one in ("Lr", "S", "W_up")}


def test_the_wind_on_a_stud_is_asked_and_not_taken_as_none():
    """Of the studs of a plate and of a header; "none" is the user's word, and told."""
    calm = {**HEADER["stud"], "wind": "none"}
    blown = {k: v for k, v in calm.items() if k != "wind"}
    for edge in (HEADER, PLATE):
        found = designed(house_edge={**edge, "stud": blown})
        (asked,) = [one for one in found.not_given if one.key == "house_edge.stud.wind"]
        assert (asked.who, found.verdict) == (ENGINEER, "open" if edge is HEADER else "fail")
        said = designed(house_edge={**edge, "stud": calm})
        assert not said.not_given
        assert "wind on the house wall" in stated_none(said.case)
    still = {"wind__uplift": "none", "wind__down": "none", "house_roof__wind_uplift": "none"}
    assert not [
        one
        for one in designed(house_edge={**HEADER, "stud": blown}, **still).not_given
        if one.key == "house_edge.stud.wind"
    ]


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"size": "2x7"}, "house_edge.size"),
        ({"grade": "best"}, "house_edge.grade"),
        ({"edge_at": "6 in"}, "house_edge.edge_at stands beside kind = header"),
        ({"kind": "blocking"}, "house_edge.kind = blocking: beside house_roof.edge_support = wall"),
        ({"kind": "rafter", "edge_at": "4 ft"}, "house_edge.edge_at = 4 ft: beyond the span"),
        ({"ends": {}}, "house_edge.ends is empty"),
        ({"ends": {"fastener": "16d common"}}, "house_edge.ends.count is not given"),
        ({"ends": {"fastener": "16d common", "count": 3}}, "hold nothing up"),
        ({"ends": {"fastener": "16d", "count": 3}}, "which nail?"),
        ({"ends": {"count": 3}}, "house_edge.ends.fastener is not given"),
        ({"ends": {"rated_for": "wind"}}, "house_edge.ends"),
        ({"carries": {"Q": "2 plf"}}, "house_edge.carries.Q no such key"),
        ({"carries": "some"}, 'allowed are "none", or the table [house_edge.carries]'),
        ({"stud": {"size": "2x6"}}, "house_edge.stud.species is not given"),
        ({"span": "none"}, "house_edge.span"),
    ],
)
def test_faults(changes, said):
    with pytest.raises(CaseFaultsError) as caught:
        case(house_edge={**HEADER, **changes})
    assert said in str(caught.value)


def test_clips_in_a_block_are_not_held_to_a_denser_wood():
    """Blocks of Spruce-Pine-Fir, G 0.42, under clips held to Douglas Fir-Larch, 0.50: what they are
    fastened into is the block. A plate may be of another wood than the rafters on it."""
    dense = {"house_roof__framing_species": "Douglas Fir-Larch"}
    with pytest.raises(CaseFaultsError, match=r"house_edge.species = .*a denser wood"):
        case(house_edge=BLOCK, **ON_A_BLOCK, **dense)
    assert case(house_edge=BLOCK, **ON_A_BLOCK).house_edge.kind == "blocking"
    assert case(house_edge=PLATE, **dense).house_edge.species == "Spruce-Pine-Fir"


def test_what_it_carries_prints_as_factor_times_load():
    """D 120 plf = 10 lb/in, S 180 plf = 15, W_up 60 plf = 5. Pressed by D + S 10 + 15 = 25; lifted
    by 0.6D + 0.6W, 0.6 x 5 - 0.6 x 10 = -3."""
    found = designed(house_edge={**HEADER, "carries": {**CARRIES, "W_up": "60 plf"}})
    for link, terms, total in (
        ("bending", [("D", 1.0, 10.0), ("S", 1.0, 15.0)], 25.0),
        ("uplift at its ends", [("D", -0.6, 10.0), ("W_up", 0.6, 5.0)], -3.0),
    ):
        at = Element(0, row(found, "house_edge", link).column)
        chain = (s for top in check(found, "house_edge", link).steps for s in top.chain())
        (w,) = [step for step in chain if step.symbol == "w_beam"]
        assert sorted(w.summed(at)) == [(name, pytest.approx(f), pytest.approx(load))
                                        for name, f, load in terms]  # fmt: skip
        assert pick(w.value, at) == pytest.approx(total)


def test_a_short_header_in_shear_less_what_stands_near():
    """Over 24 in, more than twice 9.25: one outrigger 9.25 in from the end, the next beyond it: R x
    14.75/24 = 1005.82, and 25 x (12 - 9.25) = 68.75: 1074.57 lb; fv = 58.08 psi. Over 18 in, less
    than twice the depth, nothing comes off: R (1 + 2/18) + 25 x 9 = 2043.43 lb: 110.46 psi."""
    for span, fv in (("24 in", "58.08"), ("18 in", "110.46")):
        stated = {**HEADER, "span": span, "near_support_relief": True}
        assert row(designed(house_edge=stated), "house_edge", "shear").demand == printed(fv)


def test_snow_on_the_member_below_is_asked_for_where_only_the_house_roof_has_snow():
    def asked(**changes):
        some = {**HEADER, "carries": {"D": "120 plf", "Lr": "0 plf", "W_up": "0 plf"}}
        snow = {
            "roof": "none",
            "drift": "none",
            "sliding": "none",
            "unbalanced": "none",
            "on_house": "none",
        }
        return [one.key for one in designed(house_edge=some, snow=snow, **changes).not_given]

    assert "house_edge.carries.S" in asked(house_roof__snow="21 psf")
    assert "house_edge.carries.S" not in asked(house_roof__snow="none")


def test_no_outrigger_bears_on_more_than_the_member_below_has():
    """Plates of 2x4 on edge of the wall are 3 1/2 in wide: beside a stated 5 1/2 in a fault; where
    no width is stated, 5 in of bearing behind a setback of 1/4 in is 3 1/4 in long."""
    narrow = {**PLATE, "size": "2x4"}
    wide = {"gap__edge_bearing": "5 in", "house_roof__edge_support_width": "5 1/2 in"}
    with pytest.raises(CaseFaultsError, match=r"3 1/2 in wide, and .*edge_support_width says 5"):
        case(house_edge=narrow, **wide)
    bare = {"gap__edge_bearing": "5 in", "house_roof__edge_support_width": GONE}
    found = designed(house_edge=narrow, **bare)
    assert float(contact(found.worked.batch, 7.25)[0, 0]) == 3.25
    block = designed(house_edge=BLOCK, house_roof__edge_support="blocking", **bare)
    assert float(contact(block.worked.batch, 7.25)[0, 0]) == 1.25
    header = designed(house_edge=HEADER, **bare)  # its plate is not known
    assert float(contact(header.worked.batch, 7.25)[0, 0]) == 5.0


def test_plates_that_share_have_no_joint_between_the_studs():
    """Two plates in bending: S is of both, and a joint in one leaves half of it. Told, as of the
    garage wall's where its plates are looked at."""
    said = "all 2 plates carry, none with a joint between the studs there"
    garage = "all 2 plates of the garage wall carry what lands between the outriggers"
    found = notes.of(designed(house_edge=PLATE, garage_wall__studs_over_outriggers=False))
    assert any(said in one for one in found)
    assert any(one.startswith(garage) for one in found)
    single = notes.of(designed(house_edge={**PLATE, "plies": 1}))
    assert not any("none with a joint" in one for one in single)


@pytest.mark.parametrize(
    ("below", "change"),
    [({"moisture": "wet"}, {}),
     ({}, {"outrigger__temperature": "100 to 125 F", "house_roof__sheathing_bearing": "300 psi"})],
)  # fmt: skip
def test_a_listed_tie_of_its_ends_is_for_dry_and_cool_wood(below, change):
    """450 lb of a listing holds the plate down dry, as of the clips: a listing is for dry, cool
    service (NDS 11.3.3, 11.3.4 lower its fasteners: 0.7 wet, 0.7 hot)."""
    dry = row(designed(house_edge=PLATE), "house_edge", "uplift at its ends")
    assert dry.status == "pass"
    found = row(designed(house_edge={**PLATE, **below}, **change), "house_edge",
                "uplift at its ends")  # fmt: skip
    assert found.status == "open"
    assert "dry, cool service" in found.check.why
