"""The house rafter that the inner hold-downs are fastened to, worked by hand.

The case of test_level_design_by_hand.py, rafters crossing below, so that the back clips of a row of
outriggers 16 in apart pull one of them. At the back of one outrigger, lb, up negative:

    D 5299.51 / 44 = -120.443, on the back span 26.901; S -9549.61 / 44 = -217.037, on the back
    span 51.333; L -1515.94 / 44 = -34.453; W up 7639.69 / 44 = 173.629, on the back span -44.000

    D + S, none on the back span, its dead x 0.6: 120.443 - 16.141 + 217.037 = 321.339 up
    0.6D + 0.6W, no suction: 0.6 x (173.629 + 26.901 - 120.443) = 48.052 down

The roof on it, 22 in apart: D 9 psf = 16.5 plf = 1.375 lb/in, S 21 psf = 38.5 plf = 3.2083 lb/in, W
18 psf = 33 plf = 2.75 lb/in up.
"""

import pytest
from level_case import case, check, clip, designed, row
from published import printed

from outrigger.cases.batch import batch_of
from outrigger.cases.faults import CaseFaultsError
from outrigger.verdict.design import design, designs_of

RAFTER = {
    "kind": "rafter",
    "size": "2x10",
    "species": "Spruce-Pine-Fir",
    "grade": "No. 2",
    "spacing": "22 in",
    "span": "12 ft",
}
CLIP = "D + S, dead on the back span x 0.6, snow none on the back span"


def at(found, name):
    return found.demand_at(0, [c.text for c in found.combinations].index(name))


def test_the_clips_lift_it():
    """Nine outriggers fit on 144 in; eight, with one of the middle pair 4 in off mid-span: T (8 x
    68^2 / 144 - 16 x 3 x 4 / 2) = 160.89 T; nine, the middle one at mid-span: T (9 x 36 - 16 x 4 x
    5 / 2) = 164 T. Less 0.6 of 1.375 lb/in: 321.339 x 164 - 0.825 x 144^2 / 8 = 52,699.6 - 2138.4 =
    50,561 lb-in on S 1.5 x 9.25^2 / 6 = 21.391 in3: 2363.7 psi."""
    found = check(designed(house_rafter=RAFTER), "house_rafter", "bending, lifted", "back")
    assert at(found, CLIP) == pytest.approx(2363.7, abs=0.3)
    assert found.status() == "fail"


def test_its_own_roof_without_a_push():
    """D + S, snow on the back span too: the clip still pulls, nothing pushes: its own 1.375 +
    3.2083 lb/in x 144^2 / 8 = 11,880 lb-in: 555.4 psi of 875 x 1.15 x 1.1 = 1106.9, CL 1 by its
    sheathing."""
    found = check(designed(house_rafter=RAFTER), "house_rafter", "bending", "back")
    assert at(found, "D + S") == printed("555.4")
    names = [c.text for c in found.combinations]
    assert found.capacity_at(0, names.index("D + S")) == printed("1106.9")


def test_the_outriggers_push_it_down_in_the_wind():
    """0.6D + 0.6W without suction: 48.052 lb each, 164 x: 7880.5; its own 0.6 x 1.375 x 2592 =
    2138.4: 10,018.9 lb-in: 468.4 psi."""
    found = check(designed(house_rafter=RAFTER), "house_rafter", "bending", "back")
    same = "0.6D + 0.6W up, wind up none on the back span"
    assert at(found, same) == pytest.approx(468.4, abs=0.2)


def test_wind_lifts_its_own_roof_too():
    """0.6D + 0.6W with the suction on the house alone: the clips pull 0.6 x (44.000 + 120.443 -
    26.901) = 82.525 lb, 164 x: 13,534.1; its own roof is lifted by 0.6 x 2.75 - 0.6 x 1.375 =
    0.825 lb/in, 2138.4: 15,672.5 lb-in: 732.7 psi."""
    found = check(designed(house_rafter=RAFTER), "house_rafter", "bending, lifted", "back")
    alone = "0.6D + 0.6W up, wind up on the back span only"
    assert at(found, alone) == pytest.approx(732.7, abs=0.1)


def test_its_tie():
    """Clips right at the end: 321.339 x (9 - 36 x 16 / 144) = 5 x = 1606.7; less 0.825 x 72 = 59.4:
    1547.3 lb under D + S; a tie listed for wind counts 1.15 / 1.6 of 450 = 323.4. Not given: open.
    An overhang of 12 in lightens it by 0.825 x 12 x (1 + 12/288) = 10.3."""
    tie = {"rated": "450 lb", "rated_for": "wind"}
    found = check(
        designed(house_rafter={**RAFTER, "edge_tie": tie}), "house_rafter", "uplift at its bearing"
    )
    assert at(found, CLIP) == pytest.approx(1547.3, abs=0.1)
    names = [c.text for c in found.combinations]
    assert found.capacity_at(0, names.index(CLIP)) == printed("323.4")
    assert found.status() == "fail"
    long = designed(house_rafter={**RAFTER, "overhang": "12 in"})
    open_ = check(long, "house_rafter", "uplift at its bearing")
    assert at(open_, CLIP) == pytest.approx(1537.0, abs=0.1)
    assert open_.status() == "open"


def test_beside_the_outriggers_each_rafter_has_one():
    """Parallel: 321.339 at mid-span, x 36 = 11,568.2 less 2138.4 = 9429.8 lb-in: 440.8 psi; at its
    bearing all of it: 321.339 - 59.4 = 261.9 lb."""
    found = designed(house_rafter=RAFTER, house_roof__framing_parallel=True)
    bent = check(found, "house_rafter", "bending, lifted")
    assert at(bent, CLIP) == printed("440.8")
    tie = check(found, "house_rafter", "uplift at its bearing")
    assert at(tie, CLIP) == printed("261.9")


def test_it_sags_upward():
    """EI = 1.4e6 x 98.932 = 1.38504e8. Nine on the span, one at mid-span, the others 56, 40, 24 and
    8 in from an end, a (3 x 144^2 - 4 a^2) / 48 EI each: (2,985,984 + 2 x 6,946,816) / 6.64819e9 =
    2.53897e-3 in/lb; two astride mid-span bring less. Snow on the garage side alone, none on the
    house roof to press: 217.037 lb: 0.5510 of 144/240 = 0.600 in. Dead pulls 120.443 - 0.6 x 26.901
    = 104.302 lb: 0.26482; its own, no more than 0.6 x 1.375 x 5 x 144^4 / 384 EI = 0.03335, helps:
    0.5510 + 1.5 x 0.23147 = 0.8982 of 0.800 in."""
    found = designed(house_rafter=RAFTER)
    live, total = (row(found, "house_rafter", f"{one} deflection") for one in ("live", "total"))
    assert (live.demand, live.capacity) == (pytest.approx(0.5510, abs=1e-4), printed("0.600"))
    assert live.combination == "S, snow none on the back span"
    assert (total.demand, total.capacity) == (pytest.approx(0.8982, abs=1e-4), printed("0.800"))
    assert total.status == "fail"


def test_beside_the_outriggers_its_one_clip_lifts_it():
    """Parallel, no snow on the house roof: 217.037 lb at mid-span, x 144^3 / 48 EI: 0.09748 in."""
    found = designed(
        house_rafter=RAFTER, house_roof__framing_parallel=True, house_roof__snow="none"
    )
    assert row(found, "house_rafter", "live deflection").demand == printed("0.09748")


def test_a_truss_stays_open():
    """The most it is pulled: D + 0.75L + 0.75S + 0.45W down with suction, the dead of the back span
    x 0.6: 104.302 + 0.75 x (34.453 + 217.037) + 0.45 x ((245 x 12.375 + 1.1111 x 136.195) / 44 =
    72.345 + 44.000) = 104.302 + 188.618 + 52.355 = 345.27 lb."""
    found = row(designed(house_rafter={"kind": "truss"}), "house_rafter", "truss")
    assert (found.status, found.demand) == ("open", pytest.approx(345.27, abs=0.02))
    assert "designer" in found.check.why


def test_not_given_adds_no_row():
    assert not [c for c in designed().checks if c.id == "house_rafter"]


def test_a_batch_is_its_cases():
    base = case(house_rafter=RAFTER)
    for path, many in (
        ("outrigger.spacing", [12.0, 16.0, 24.0]),
        ("house_roof.snow", [0.1, 0.2]),
        ("outrigger.back_span", [30.0, 60.0]),
    ):
        together = designs_of(batch_of(base, {path: many}))
        for i, value in enumerate(many):
            alone = design(batch_of(base, {path: value}).case)
            here = [(r.id, r.place, r.link, r.ratio) for r in together.rows(i)]
            assert here == [(r.id, r.place, r.link, r.ratio) for r in alone.rows]


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"size": "2x7"}, "house_rafter.size"),
        ({"grade": "best"}, "house_rafter.grade"),
        ({"spacing": "16 in"}, "house_roof.framing_spacing says 22 in"),
        ({"edge_tie": {}}, "house_rafter.edge_tie.rated is not given"),
        ({"kind": "beam"}, "house_rafter.kind"),
    ],
)
def test_faults(changes, said):
    with pytest.raises(CaseFaultsError) as caught:
        case(house_rafter={**RAFTER, **changes})
    assert said in str(caught.value)
    with pytest.raises(CaseFaultsError) as caught:
        case(house_rafter={"kind": "rafter"})
    assert str(caught.value).count("is not given, and is needed") == 5


def test_each_hold_down_of_a_row_pulls_on_a_rafter_of_its_own():
    """Rafters that cross: the back and the clip at 16 in stand on other rafters, each checked."""
    clips = [clip("back"), clip("16 in"), clip("edge")]
    found = designed(hold_down=clips, house_rafter=RAFTER, house_roof__framing_parallel=False)
    places = {row.check.place for row in found.rows if row.check.id == "house_rafter"}
    assert {"back", "16 in"} <= places


@pytest.mark.parametrize(("own", "framing", "refused"), [
    ("Spruce-Pine-Fir", "Douglas Fir-Larch", True),
    ("Spruce-Pine-Fir", "Spruce-Pine-Fir", False),
    ("Douglas Fir-Larch", "Spruce-Pine-Fir", False),
])  # fmt: skip
def test_the_clips_are_not_held_to_a_denser_wood_than_the_rafters(own, framing, refused):
    """G 0.50 of Douglas Fir-Larch, 0.42 of Spruce-Pine-Fir (NDS Table 12.3.3A): a clip listed for
    the first holds less in the second."""
    changes = {"house_rafter": {**RAFTER, "species": own}, "house_roof__framing_species": framing}
    if not refused:
        assert case(**changes).house_rafter.species == own
        return
    with pytest.raises(CaseFaultsError, match=r"house_rafter.species = .*a denser wood"):
        case(**changes)


@pytest.mark.parametrize("overhang, said", [("6 ft", False), ("73 in", True)])
def test_an_overhang_that_bends_it_more_than_its_span(overhang, said):
    """Of its own roof w lo^2 / 2 over the bearing, w l^2 / 8 in the span: alike at lo = l / 2, 6 ft
    of 12. Beyond that the rows are not all that it carries."""
    found = designed(house_rafter={**RAFTER, "overhang": overhang}).not_covered
    assert any("house_rafter.overhang" in one for one in found) is said


def test_a_listed_tie_of_a_hot_rafter_is_open():
    """450 lb of a listing, for cool service (NDS 11.3.4 lowers its fasteners to 0.7 over 100 F)."""
    tied = {**RAFTER, "edge_tie": {"rated": "4500 lb", "rated_for": "wind"}}
    hot = {"outrigger__temperature": "100 to 125 F", "house_roof__sheathing_bearing": "300 psi"}
    found = [row(designed(house_rafter=tied, **change), "house_rafter", "uplift at its bearing")
             for change in ({}, hot)]  # fmt: skip
    assert [one.status for one in found] == ["pass", "open"]
