"""The bent leg of a thin steel clip: prying, bending, pull-over. Statics by hand."""

import pytest

from outrigger.fasteners import bent_leg as clip_leg
from outrigger.fasteners.dowel_bearing import read_steel
from outrigger.fasteners.withdrawal import pull_through


def test_prying_by_hand():
    """U 100, e 3/4, toe 1/2: free T = 100 (1 + 1.5) = 250; held T = 100 (1 + 0.75) = 175."""
    assert clip_leg.fastener_pull(100, 0.75, 0.5, bend_held=False).value == 250
    assert clip_leg.fastener_pull(100, 0.75, 0.5, bend_held=True).value == 175
    assert clip_leg.side_couple(100, 0.75) == 37.5


@pytest.mark.parametrize("held", [True, False])
def test_moments_of_the_leg_balance(held):
    """Taken about the bend: T e = Q (e + a) plus the bend's own moment, Q = T - U."""
    U, e, a = 130.0, 0.8, 0.6
    T = clip_leg.fastener_pull(U, e, a, bend_held=held).value
    Q = T - U
    at_bend = clip_leg.side_couple(U, e) if held else 0.0
    assert T * e == pytest.approx(Q * (e + a) + at_bend)
    assert clip_leg.leg_moment(U, e, bend_held=held).value == pytest.approx(Q * a)


def test_bare_leg_of_16_gage():
    """16 ga, w 2, Fy 33 ksi: 33000 x 2 x 0.06^2 / 6 / 1.67 = 23.7 lb-in; at e 3/4 that is U = 32 lb
    with the bend free, 63 lb held. DERIVED by hand in the reference; the 1.67 MEMORY."""
    steel = read_steel("16 ga")
    assert (steel.t, steel.Fy) == (0.060, 33_000)
    moment = clip_leg.leg_capacity(steel.Fy, 2.0, steel.t, "ASD").value
    assert moment == pytest.approx(23.7, abs=0.05)
    for held, U in ((False, 32), (True, 63)):
        per_pound = clip_leg.leg_moment(1.0, 0.75, bend_held=held).value
        assert moment / per_pound == pytest.approx(U, abs=0.5)
    strength = clip_leg.leg_capacity(steel.Fy, 2.0, steel.t, "LRFD").value
    assert strength == pytest.approx(0.90 * moment * 1.67)


def test_pull_over_by_hand():
    """16 ga, head 0.363, Fu 45 ksi: 1.5 x 0.06 x 0.363 x 45000 = 1470.15; / 3.0 = 490.05 (the 3.0
    SEEN, the rest MEMORY); LRFD x 0.50 = 735.08."""
    assert clip_leg.pull_over(0.060, 0.363, 45_000, "ASD").value == pytest.approx(490.05)
    assert clip_leg.pull_over(0.060, 0.363, 45_000, "LRFD").value == pytest.approx(735.075)


@pytest.mark.parametrize(
    ("DH", "pounds"), [(0.5, 675.0), (0.75, 675.0), (0.9375, 675.0), (0.363, 490.05)]
)
def test_pull_over_counts_no_head_over_half_an_inch(DH, pounds):
    """City of Everett, Washington, permit record 1550732 p. 46, a sheet of the screw provisions:
    1.5 t dw Fu / 3.0, dw 5/16 to 1/2 in. 16 ga: 1.5 x 0.060 x 0.5 x 45,000 / 3 = 675 lb; a 5/8 in
    lag, 0.9375 in across the flats, would have 1.875 times as much."""
    assert clip_leg.pull_over(0.060, DH, 45_000, "ASD").value == pytest.approx(pounds)


@pytest.mark.parametrize(
    ("kind", "DH", "said"),
    [
        ("screw", 0.363, ""),
        ("screw", 0.312, ""),  # 5/16 in as the tables of heads print it
        ("screw", 0.262, "a head of 0.262 in is under the 5/16 in"),
        ("nail", 0.281, "a head of 0.281 in is under the 5/16 in"),
        ("lag", 0.75, "pull-over is for screws: of a lag by analogy"),
        ("nail", 0.312, "pull-over is for screws: of a nail by analogy"),
    ],
)
def test_pull_over_is_for_screws_with_heads_of_5_16(kind, DH, said):
    found = clip_leg.why_by_analogy(kind, DH)
    assert found.startswith(said)
    assert bool(found) == bool(said)


def test_pull_over_is_no_pull_through():
    """A head through 7/16 OSB holds less than through steel: 690 pi 0.363 0.25 0.4375 = 86.06."""
    assert pull_through(0.363, 0.5, 0.4375).value == pytest.approx(86.06, abs=0.005)


def test_status_of_the_steel_factors_travels():
    over = clip_leg.pull_over(0.060, 0.363, 45_000, "LRFD")
    assert [s.status for s in over.chain() if s.symbol == "phi_steel"] == ["MEMORY"]
    assert read_steel("16 ga").step("Fy").status == "MEMORY"
    assert read_steel("16 ga").step("Fe").status == "SECOND-HAND"  # quoted, no author on file
    assert read_steel("1/4 in").step("Fy").status == "SECOND-HAND"  # A36, two calculations
