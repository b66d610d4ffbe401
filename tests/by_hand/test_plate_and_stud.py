"""The garage plate between outriggers and the stud over one, worked by hand.

The case of test_level_design_by_hand.py: one truss brings D 183.75 x 2 = 367.5 and S 735 lb, in all
P = 1102.5 lb under D + S; two flat 2x6 plates, S = 2 x 5.5 x 1.5^2 / 6 = 4.125 in3, A 16.5 in2. The
wall line has D 407.5, L 122.5, S 735 lb; the wall is 30 in high.
"""

import numpy as np
import pytest
from level_case import case, check, designed, row
from published import printed

from outrigger.cases.batch import batch_of
from outrigger.cases.faults import CaseFaultsError
from outrigger.verdict.design import design, designs_of
from outrigger.verdict.notes_below import below_notes

STUDS = {"size": "2x6", "species": "Spruce-Pine-Fir", "grade": "Stud"}


def at(found, name, combination="D + S"):
    """The demand of a row in one combination."""
    return found.demand_at(0, [c.text for c in found.combinations].index(combination))


def test_studs_that_may_stand_anywhere():
    """16 in bays, trusses 24 in apart: one at mid-bay, 1102.5 x 4 = 4410 lb-in: 1069.1 psi. Not
    said how far apart the studs are: V = P/2, 50.1 psi; said: one a depth from the outrigger,
    1102.5 x 14.5/16 = 999.1 lb: 90.8 psi."""
    loose = {"garage_wall__studs_over_outriggers": False}
    found = designed(**loose)
    assert at(check(found, "plate", "bending"), "bending") == printed("1069.1")
    assert at(check(found, "plate", "shear"), "shear") == printed("50.1")
    known = designed(**loose, garage_wall__stud_spacing="16 in")
    assert at(check(known, "plate", "shear"), "shear") == printed("90.8")


def test_a_stud_between_outriggers_that_have_their_own():
    """Outriggers at 32 in, studs at 16: one truss on the stud at mid-bay, two do not fit: 1102.5 x
    8 = 8820 lb-in: 2138.2 psi; V = 1102.5 x 16/32: 50.1 psi. Studs at 32 in: none between, and
    nothing to carry; not said how far apart: no row."""
    wide = {"outrigger__spacing": "32 in"}
    found = designed(**wide, garage_wall__stud_spacing="16 in")
    assert at(check(found, "plate", "bending"), "bending") == printed("2138.2")
    assert at(check(found, "plate", "shear"), "shear") == printed("50.1")
    alike = designed(**wide, garage_wall__stud_spacing="32 in")
    assert [np.max(c.demand) for c in alike.checks if c.id == "plate"] == [0, 0]
    assert not [c for c in designed(**wide).checks if c.id == "plate"]


def test_studs_that_do_not_fit_the_outriggers():
    """Outriggers at 16 in with a stud over each, the others 12 in apart: those may stand anywhere,
    as where no stud is known to stand over an outrigger: 1069.1 and 90.8 psi, and a note."""
    found = designed(garage_wall__stud_spacing="12 in")
    assert at(check(found, "plate", "bending"), "bending") == printed("1069.1")
    assert at(check(found, "plate", "shear"), "shear") == printed("90.8")
    said = "a stud stands over every outrigger by the file's word, beside those 12 in apart"
    assert [note for note in below_notes(found.case) if note.startswith(said)]


def test_a_column_of_spacings_with_a_stud_over_each():
    """Studs at 16 in: every spacing of the outriggers as its own case, the fitting ones too."""
    base = case(garage_wall__stud_spacing="16 in", garage_wall__studs=STUDS)
    many = [12.0, 16.0, 24.0, 32.0]
    together = designs_of(batch_of(base, {"outrigger.spacing": many}))
    for i, value in enumerate(many):
        alone = design(batch_of(base, {"outrigger.spacing": value}).case)
        here = [(r.id, r.place, r.link, r.ratio) for r in together.rows(i)]
        assert here == [(r.id, r.place, r.link, r.ratio) for r in alone.rows]


def test_two_trusses_in_one_bay():
    """48 in bays: two trusses 24 in apart, one 6 in off mid-bay: 1102.5 x 2 (24 - 6)^2 / 48 = 13.5
    P = 14,883.8 lb-in, more than 12 P of one at mid-bay: 3608.2 psi."""
    found = designed(outrigger__spacing="48 in", garage_wall__studs_over_outriggers=False)
    assert at(check(found, "plate", "bending"), "bending") == printed("3608.2")


def test_two_trusses_on_studs_shear_the_plate():
    """Trusses 12 in apart of 551.25 lb in bays of 16 in, the first a depth of 1.5 in from the
    outrigger, the second 12 in on: 551.25 x (14.5 + 2.5)/16 = 585.70 lb: 1.5 x 585.70/16.5 = 53.2
    psi; the first alone 45.4."""
    found = designed(
        garage_roof__member_spacing="12 in", garage_wall__studs_over_outriggers=False,
        garage_wall__stud_spacing="16 in",
    )  # fmt: skip
    assert at(check(found, "plate", "shear"), "shear") == printed("53.2")


def test_a_stud_as_a_column():
    """D + S 1142.5 lb on 8.25 in2: 138.5 psi. Fc* 725 x 1.15 = 833.75; le/d = 30/5.5 = 5.4545, FcE
    = 0.822 x 440,000 / 29.752 = 12,156; F = 14.580: CP = 9.7375 - sqrt(94.819 - 18.225) = 0.9857;
    Fc' = 821.8."""
    found = row(designed(garage_wall__studs=STUDS), "stud", "")
    assert found.combination == "D + S"
    assert found.demand == printed("138.5")
    assert found.capacity == pytest.approx(821.8, abs=0.2)


def test_a_stud_in_the_wind():
    """20 psf on studs 16 in apart, D + 0.6H: w = 0.6 x 20 x 16/144 = 1.3333 lb/in: M = 1.3333 x
    30^2 / 8 = 150 lb-in, fb 19.83; N 407.5, fc 49.39. Fc* 1160, F 10.479: CP = 7.1744 - sqrt(51.472
    - 13.099) = 0.9798; Fc' 1136.6: (49.39/1136.6)^2 + 19.83 / (1080 (1 - 49.39/12,156)) = 0.0203.
    Studs not said: as the outriggers; at 8 in: half of the wind, 0.00189 + 0.00922 = 0.0111."""
    wind = {"garage_wall__out_of_plane_wind": "20 psf", "garage_wall__studs": STUDS}
    found = check(designed(**wind), "stud", "")
    assert at(found, "stud", "D + 0.6H away") == printed("0.0203")
    close = check(designed(**wind, garage_wall__stud_spacing="8 in"), "stud", "")
    assert at(close, "stud", "D + 0.6H away") == printed("0.0111")


def test_a_batch_is_its_cases():
    base = case(
        garage_wall__studs_over_outriggers=False, garage_wall__stud_spacing="16 in",
        garage_wall__studs=STUDS, garage_wall__out_of_plane_wind="20 psf",
    )  # fmt: skip
    many = [12.0, 16.0, 32.0, 48.0]
    together = designs_of(batch_of(base, {"outrigger.spacing": many}))
    for i, value in enumerate(many):
        alone = design(batch_of(base, {"outrigger.spacing": value}).case)
        here = [(r.id, r.place, r.link, r.ratio) for r in together.rows(i)]
        assert here == [(r.id, r.place, r.link, r.ratio) for r in alone.rows]


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"garage_wall__studs": {**STUDS, "size": "2x8"}}, "garage_wall.studs.size = 2x8: deeper"),
        ({"garage_wall__studs": {**STUDS, "grade": "best"}}, "garage_wall.studs.grade"),
        ({"garage_wall__stud_spacing": "none"}, "garage_wall.stud_spacing"),
    ],
)
def test_faults(changes, said):
    with pytest.raises(CaseFaultsError) as caught:
        case(**changes)
    assert said in str(caught.value)


def test_plate_and_stud_are_as_hot_as_the_outrigger():
    """NDS 2018 Table 2.3.3, dry, 125 to 150 F: strength x 0.7, and Emin x 0.9 of a stud."""
    hot, cool = (
        designed(outrigger__temperature=t, garage_wall__studs_over_outriggers=False,
                 garage_wall__studs={"size": "2x4", "species": "SPF", "grade": "Stud"})
        for t in ("125 to 150 F", "to 100 F")
    )  # fmt: skip

    def capacity_of(result, id, link):
        dead = [c.text for c in result.main.combinations.all].index("D")
        return check(result, id, link).capacity_at(0, dead)

    for link in ("bending", "shear"):
        both = [capacity_of(result, "plate", link) for result in (hot, cool)]
        assert both[0] == pytest.approx(0.7 * both[1])
    used = [row(result, "stud", "").ratio for result in (hot, cool)]
    assert 1 / 0.9 < used[0] / used[1] < (1 / 0.7) ** 2


UNDER = ("wall_bearing", "plate under stud")


def under(**changes):
    """The row of the plate under the foot of a stud, none where it has none."""
    found = [one for one in designed(**changes).rows if (one.id, one.check.link.id) == UNDER]
    return found[0] if found else None


def test_a_plate_is_crushed_by_a_stud_narrower_than_the_outriggers():
    """Two plies, 3 in: D + S 1142.5 lb on 3 x 5.5 in from below, 69.2 psi; a stud on it has 1.5 x
    5.5 in, 138.5 psi of 425, of a 2x4 stud 1.5 x 3.5 in, 217.6 psi. Of one ply with studs as deep
    as the plate the row of the plate is that of its stud too: none of its own."""
    assert under() is None
    for more in ({}, {"garage_wall__studs": STUDS}):
        found = under(outrigger__plies=2, **more)
        assert at(found.check, "D + S") == printed("138.5")
        assert (found.capacity, found.status) == (425.0, "pass")
    small = {"garage_wall__studs": {**STUDS, "size": "2x4"}}
    for plies in (1, 2):
        found = under(outrigger__plies=plies, **small)
        assert at(found.check, "D + S") == printed("217.6")


def test_a_stud_that_is_not_given_leaves_the_plate_open_and_never_fails_it():
    """Roof snow of 120 psf: 407.5 + 4 x 735 = 3347.5 lb on 8.25 in2, 405.8 psi; of 150 psf 4082.5
    lb, 494.8 psi: 1.16 of 425, open without a stud, failed with one."""
    heavy = {"outrigger__plies": 2, "snow__roof": "150 psf"}
    assert at(under(**heavy | {"snow__roof": "120 psf"}).check, "D + S") == printed("405.8")
    found = under(**heavy)
    assert (found.ratio, found.status) == (printed("1.16"), "open")
    assert "say garage_wall.studs" in found.check.why
    assert under(**heavy, garage_wall__studs=STUDS).status == "fail"


def test_no_stud_no_foot():
    """Without height the roof stands right on the plate; where studs may stand anywhere, none is
    known to stand over an outrigger."""
    two = {"outrigger__plies": 2}
    assert under(**two, garage_wall__height="none", garage_wall__out_of_plane_wind=None) is None
    assert under(**two, garage_wall__studs_over_outriggers=False) is None
