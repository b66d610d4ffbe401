"""The general dowel equations with a gap: AWC TR12. No value is published.

Held by the equilibrium of each mode's stress blocks, solved here by bisection; by identity with the
NDS formulas at no gap; and by a file of values computed apart from this program (a regression).
"""

import pytest
from hypothesis import given as drawn
from hypothesis import strategies as st
from published import rows

from outrigger.fasteners import dowel_bearing, lateral
from outrigger.fasteners import yield_modes as yield_limits
from outrigger.fasteners.dowel_bearing import Layer
from outrigger.fasteners.trade_names import Fastener
from outrigger.formula.formula import given
from outrigger.proof.connections import joint_of

LENGTHS, STRENGTHS = st.floats(0.05, 4.0), st.floats(1500, 90_000)
JOINTS = st.tuples(
    st.floats(0.1, 0.24), st.floats(45_000, 100_000), STRENGTHS, LENGTHS, STRENGTHS, LENGTHS
)


def modes_of(joint, gap):
    """Design values times Rd: the yield load of each mode."""
    D, Fyb, Fem, lm, Fes, ls = joint
    dowel = Fastener("dowel", "nail", D, D, 100.0, 0.3, Fyb)
    main, side = Layer(given("Fe", Fem, "psi"), lm), Layer(given("Fe", Fes, "psi"), ls)
    modes = yield_limits.single_shear(dowel, main, side, gap).modes
    Rd = yield_limits.reduction_terms(dowel, 0.0)
    return {mode: step.value * Rd[mode].value for mode, step in modes.items()}


def turning(q, length, P):
    """Moment at the face of a member in which the dowel turns: q one way on b at the face, the
    other way on the rest; the blocks' forces differ by P."""
    b = (length + P / q) / 2
    near, far = q * b, q * (length - b)
    assert near - far == pytest.approx(P)
    return far * (b + (length - b) / 2) - near * b / 2


def hinged(q, My, P):
    """Moment at the face of a member with a hinge at x, where the shear P has been taken up."""
    x = P / q
    return My - (P * x - q * x * x / 2)


def yield_load(side, main, gap, most):
    """P at which the moments at the two faces and P over the gap are in equilibrium."""
    low, high = 0.0, most
    for _ in range(200):
        P = (low + high) / 2
        low, high = (P, high) if side(P) + main(P) > P * gap else (low, P)
    return low


@drawn(JOINTS, st.floats(0, 2.0))
def test_each_mode_is_in_equilibrium(joint, gap):
    """Yield blocks in each member, by bisection: the same yield load, mode by mode."""
    D, Fyb, Fem, lm, Fes, ls = joint
    q_m, q_s, My = Fem * D, Fes * D, Fyb * D**3 / 6
    found = modes_of(joint, gap)

    def turn_main(P):
        return turning(q_m, lm, P)

    def turn_side(P):
        return turning(q_s, ls, P)

    def hinge_main(P):
        return hinged(q_m, My, P)

    def hinge_side(P):
        return hinged(q_s, My, P)

    for mode, side, main in (
        ("II", turn_side, turn_main),
        ("IIIm", hinge_side, turn_main),
        ("IIIs", turn_side, hinge_main),
        ("IV", hinge_side, hinge_main),
    ):
        assert found[mode] == pytest.approx(yield_load(side, main, gap, 1e7), rel=1e-9), mode
    assert found["Im"] == pytest.approx(q_m * lm, rel=1e-12)
    assert found["Is"] == pytest.approx(q_s * ls, rel=1e-12)


@drawn(JOINTS)
def test_no_gap_is_the_standards_own_formula(joint):
    """NDS 2018 Table 12.3.1A and TR12 at g = 0, mode by mode."""
    own, general = modes_of(joint, None), modes_of(joint, 0.0)
    for mode, P in own.items():
        assert general[mode] == pytest.approx(P, rel=1e-12), mode


@drawn(JOINTS, st.floats(0, 2.0), st.floats(0.01, 1.0))
def test_a_wider_gap_never_raises_a_mode(joint, gap, more):
    narrow, wide = modes_of(joint, gap), modes_of(joint, gap + more)
    assert all(wide[mode] <= narrow[mode] * (1 + 1e-12) for mode in narrow)


def test_the_mode_and_the_smaller_of_two_routes():
    """DERIVED rows of `outrigger prove`: the mode that governs each, and which route counts."""
    for row in rows("lateral_gap"):
        fastener, main, side = joint_of(row)
        p, gap = float(row["p_in"]), float(row["gap_in"])
        whole = yield_limits.single_shear(fastener, main, side, gap)
        found = lateral.reference_lateral(fastener, main.Fe, side, p, gap=gap)
        prorated = found.full.Z.value * dowel_bearing.proration(fastener, p).value
        assert (whole.mode, found.direct.mode) == (row["mode_lm_p"], row["mode_lm_p_tip"]), row
        assert found.Z.value == min(found.direct.Z.value, prorated), row
