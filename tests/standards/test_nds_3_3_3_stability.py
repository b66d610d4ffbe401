"""Lateral stability of bending members: NDS 2018 3.3.3 and Table 3.3.3."""

import numpy as np
import pytest
from hypothesis import given as every
from hypothesis import strategies as st
from published import printed, rows

from outrigger.base.tables import load
from outrigger.formula.formula import given
from outrigger.wood import bending, lumber, rectangle
from outrigger.wood.adjusted import Conditions, adjusted

FB_STAR = given("Fb_star", 1500.0, "psi")
EMIN = given("Emin_adj", 510000.0, "psi")
ONE = given("CL", 1.0)
ANY = ("either", "any loading not listed")
D = 9.25
step = np.nextafter

TABLE = rows("effective_length")


def test_the_two_columns_of_table_3_3_3():
    """NDS 2018 Table 3.3.3: at lu/d = 5 and at lu/d = 10, d = 10 in; and lu/d < 7 takes the first
    column, lu/d >= 7 the second, which meet at 7 within the rounding of their two decimals."""
    lengths = np.array([50.0, 100.0])
    at = np.array([step(7.0, 0), 7.0, step(7.0, 8)])
    for row in TABLE:
        member, short, long = row["member"], float(row["short"]), float(row["long"])
        deep = float(row["deep"] or 0)
        le = bending.effective_length(member, row["loading"], lengths, 10.0).value
        assert le == pytest.approx([short * 50, long * 100 + deep * 10], rel=1e-12), row
        le = bending.effective_length(member, row["loading"], at, 1.0)
        assert list(le.inputs["k_lu"].value) == [short, long, long]
        assert list(le.inputs["k_d"].value) == [0, deep, deep]
        assert le.value[0] == pytest.approx(le.value[1], abs=0.035 + 1e-9)  # 7 x half of 0.01


def test_boundary_at_14_3():
    """NDS 2018 Table 3.3.3, footnote 1: 1.63 lu + 3 d up to and with 14.3, then 1.84 lu."""
    at = np.array([step(14.3, 0), 14.3, step(14.3, 15)])
    le = bending.effective_length(*ANY, at, 1.0)
    assert list(le.inputs["k_lu"].value) == [1.63, 1.63, 1.84]
    assert list(le.inputs["k_d"].value) == [3, 3, 0]
    assert le.value[1] == pytest.approx(le.value[2], abs=0.0715)  # 14.3 x half of 0.01
    beyond = bending.effective_length("single span", "uniform load", at, 1.0)
    assert list(beyond.inputs["k_lu"].value) == [1.63, 1.63, 1.63]  # the footnote is not for it


def test_no_such_loading():
    """A row that the table does not have is refused, and the rows it has are listed."""
    with pytest.raises(LookupError, match="no row for member cantilever, loading one wheel"):
        bending.effective_length("cantilever", "one wheel", 24.0, D)
    with pytest.raises(LookupError, match="concentrated load at the unsupported end"):
        bending.effective_length("cantilever", "one wheel", 24.0, D)


def test_short_beam_has_no_reduction():
    """Law of Eq. 3.3-6: as RB goes to 0, FbE grows and CL goes to 1, never over it.

    By hand: CL is the smaller root of 0.95 CL^2 - (1 + r) CL + r = 0, r = FbE / Fb*, so that for
    a large r CL = 1 - 0.05 / r, the next term being 0.045 / r^2."""
    found = bending.stability(np.array([1e-2, 1e-3]), 1.5, D, FB_STAR, EMIN)
    CL, r = found.CL, found.FbE[0].value / FB_STAR.value
    assert CL.value == pytest.approx(1 - 0.05 / r, abs=1e-9)  # r about 1e4
    assert (CL.value <= 1).all()


def test_slender_beam_buckles():
    """Law of Eq. 3.3-6: a long beam tends to FbE / Fb*, from below."""
    le = np.array([1e4, 1e5, 1e6])
    found = bending.stability(le, 1.5, D, FB_STAR, EMIN)
    CL, r = found.CL, found.FbE[0].value / FB_STAR.value
    assert CL.value == pytest.approx(r, rel=0.02)
    assert CL.value[2] == pytest.approx(r[2], rel=1e-4)
    assert (CL.value < r).all()


@every(
    le=st.floats(1.0, 5000.0),
    Fb_star=st.floats(100.0, 9000.0),
    Emin=st.floats(2e5, 2e6),
)
def test_between_its_limits(le, Fb_star, Emin):
    """Law: CL is over 0, not over 1 and not over FbE / Fb*."""
    found = bending.stability(
        le, 1.5, D, given("Fb_star", Fb_star, "psi"), given("Emin_adj", Emin, "psi")
    )
    assert 0 < found.CL.value <= min(1, found.FbE[0].value / Fb_star) * (1 + 1e-12)


def test_equal_buckling_and_bending():
    """By hand, r = 1: 2/1.9 - sqrt((2/1.9)^2 - 1/0.95) = 1.052632 - sqrt(1.108033 - 1.052632)
    = 1.052632 - 0.235376 = 0.8173."""
    assert bending.beam_stability(FbE=1000.0, Fb_star=1000.0) == printed("0.8173")


def test_not_deeper_than_wide():
    """NDS 2018 3.3.3.1: d <= b has CL 1, at the boundary too; one step deeper the formula runs."""
    b = 5.5
    for d in (b / 2, step(b, 0), b):
        CL = bending.stability(600.0, b, d, FB_STAR, EMIN).CL
        assert CL.value == 1.0
        assert CL.formula is None
    deeper = bending.stability(600.0, b, step(b, 9), FB_STAR, EMIN).CL
    assert deeper.formula is bending.beam_stability
    assert deeper.value < 1


def test_edge_takes_the_smaller_side():
    """NDS 2018 3.3.3.8: the moment at the edge serves the arm and the back span. The arm is a
    cantilever loaded at its end, the back span takes the footnote; arrays over both lengths."""
    arm, back = np.array([24.0, 96.0, 24.0]), np.array([24.0, 24.0, 120.0])
    both = bending.edge_stability(arm=arm, back_lu=back, b=1.5, d=D, Fb_star=FB_STAR, Emin_adj=EMIN)
    tip = bending.effective_length("cantilever", "concentrated load at the unsupported end", arm, D)
    on_arm = bending.stability(tip, 1.5, D, FB_STAR, EMIN).CL.value
    on_back = bending.stability(
        bending.effective_length(*ANY, back, D), 1.5, D, FB_STAR, EMIN
    ).CL.value
    assert list(both.CL.value) == [min(pair) for pair in zip(on_arm, on_back, strict=True)]
    assert (on_arm < on_back).tolist() == [False, True, False]


def test_longer_arm_never_helps():
    """Law: CL at the edge never rises with the arm or with the unblocked length behind it."""
    lengths = np.linspace(1.0, 400.0, 400)
    for own, other in (("arm", "back_lu"), ("back_lu", "arm")):
        CL = bending.edge_stability(
            **{own: lengths, other: 12.0}, b=1.5, d=D, Fb_star=FB_STAR, Emin_adj=EMIN
        ).CL.value
        # the columns of Table 3.3.3 do not meet to the last digit: 0.01 of 1.63 lu at 14.3
        assert (np.diff(CL) <= 1e-3).all()
        assert CL[-1] < CL[0] - 0.1


def test_slenderness_over_50():
    """NDS 2018 3.3.3.7: RB not over 50. By hand: RB^2 = le d / b^2 = 2500 with b = 1.5, d = 9: le
    = 625 in; 1 in more fails."""
    for le, status in ((624.0, "pass"), (625.0, "pass"), (626.0, "fail")):
        check = bending.slenderness_check("edge", bending.stability(le, 1.5, 9.0, FB_STAR, EMIN).RB)
        assert check.status() == status
        assert check.link is bending.SLENDERNESS
    both = bending.edge_stability(
        arm=24.0, back_lu=96.0, b=1.5, d=9.0, Fb_star=FB_STAR, Emin_adj=EMIN
    )
    assert len(both.RB) == 2  # the arm and the back span
    largest = max(float(one.value) for one in both.RB)
    assert bending.slenderness_check("edge", both.RB).demand == largest
    assert bending.stability(0.0, 1.5, 9.0, FB_STAR, EMIN).RB == ()  # held all along
    assert bending.stability(625.0, 9.0, 9.0, FB_STAR, EMIN).RB == ()  # d <= b


def test_not_held_at_the_bearing_fails_by_rule():
    """NDS 2018 3.3.3.4: an end that can roll over is no matter of a ratio."""
    S = rectangle.section_modulus.step(b=1.5, d=D)
    given_ = {"place": "edge", "M": -1.0, "S": S, "Fb_star": FB_STAR, "CL": ONE, "Cfu": ONE}
    held = bending.bending(**given_)
    loose = bending.bending(**given_, held=False)
    assert held.status() == "pass"
    assert loose.status() == "fail"
    assert (loose.rule, loose.clause) == ("fail", "NDS 2018 3.3.3.4")
    assert "not held against rotation here: block it" in loose.why
    assert bending.bending(**given_ | {"M": 0.0}, held=False).status() == "fail"  # without load too
    assert held.demand == loose.demand > 0  # hogging counts by its size


def test_arrays_equal_scalars():
    """Law: a batch gives each case the bits it has alone, over combinations too."""
    wood = lumber.wood("SPF", "#2", "2x10")
    CD = np.array([0.9, 1.15, 1.6])
    arms = np.array([6.0, 24.0, 63.0, 64.75, 96.0, 132.0, 140.0])

    def CL(arm, time):
        return bending.edge_stability(
            arm=arm,
            back_lu=2 * arm,
            b=wood.size.b,
            d=wood.size.d,
            Fb_star=adjusted("Fb", wood, Conditions(), time),
            Emin_adj=adjusted("Emin", wood, Conditions(), time),
        ).CL.value

    batch = CL(arms[:, None], CD)
    assert batch.shape == (7, 3)
    for i, arm in enumerate(arms):
        for j, time in enumerate(CD):
            assert batch[i, j] == CL(float(arm), float(time))


def test_array_of_sizes_equals_scalars():
    """Law: sizes may be swept too: a 2x4 on edge and laid flat in one batch."""
    b, d = np.array([1.5, 3.5]), np.array([3.5, 1.5])
    batch = bending.stability(96.0, b, d, FB_STAR, EMIN).CL.value
    alone = [
        bending.stability(96.0, *size, FB_STAR, EMIN).CL.value for size in zip(b, d, strict=True)
    ]
    assert list(batch) == alone


def test_no_arm_has_no_reduction():
    """Law: without an arm only the back span counts; RB of the arm is 0 and FbE has no bound."""
    CL = bending.edge_stability(
        arm=np.array([0.0, 1e-9]), back_lu=48.0, b=1.5, d=D, Fb_star=FB_STAR, Emin_adj=EMIN
    ).CL.value
    assert CL[0] == CL[1]


def test_every_row_with_numbers_is_held_here():
    """The proof has every row of the table on file but the multi-span note."""
    held = {(row["member"], row["loading"]) for row in TABLE}
    on_file = {(r["member"], r["loading"]) for r in load("effective_length").rows}
    assert on_file - held == {("multi-span", "")}
    assert not held - on_file
