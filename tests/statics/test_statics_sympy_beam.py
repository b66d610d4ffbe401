"""sympy's continuum-mechanics Beam as witness: two beams solved exactly, in rational numbers.

sympy takes loads positive up and couples as ours; its shear, moment, slope and deflection have the
opposite signs of ours, as its load and deflection are positive up. Shear deformation off.
"""

import pytest
from sympy import Rational, symbols
from sympy.physics.continuum_mechanics.beam import Beam as ExactBeam

from outrigger.statics.beam import Beam, Couple, Point, Uniform, solve

EXACT = 1e-12  # of exact values: round-off only
EI = 128_609_000


def exact(length, supports, points, spreads, couples):
    """The beam in sympy, its support forces solved for, and their values."""
    beam = ExactBeam(length, EI, 1)
    forces = symbols(f"R1:{len(supports) + 1}")
    for force, at in zip(forces, supports, strict=True):
        beam.apply_load(force, at, -1)
    for at, P in points:
        beam.apply_load(-P, at, -1)
    for start, end, w in spreads:
        beam.apply_load(-w, start, 0, end=end)
    for at, M0 in couples:
        beam.apply_load(M0, at, -2)
    beam.bc_deflection = [(at, 0) for at in supports]
    beam.solve_for_reaction_loads(*forces)
    return beam, [beam.reaction_loads[force] for force in forces]


def assert_same(ours, beam, reactions, places):
    """Reactions, and at places between loads the four lines of the beam."""
    assert ours.reactions[0, 0] == pytest.approx([float(R) for R in reactions], rel=EXACT)
    x = beam.variable
    floats = [float(place) for place in places]
    for line, result in (
        (beam.shear_force(), ours.shear(floats)),
        (beam.bending_moment(), ours.moment(floats)),
        (beam.slope(), ours.slope(floats)),
        (beam.deflection(), ours.deflection(floats)),
    ):
        values = [float(-line.subs(x, place)) for place in places]
        scale = max(map(abs, values))
        assert result[:, 0] == pytest.approx(values, rel=EXACT, abs=EXACT * scale)


def test_overhang_statically_determinate():
    """sympy: supports at 12 and 84 of 120 in; force in the span and at the tip, even load over the
    outer support, couple near the tip."""
    points, spreads, couples = [(40, 300), (120, 500)], [(60, 100, 7)], [(110, 4000)]
    beam, reactions = exact(120, (12, 84), points, spreads, couples)
    # the same by hand: moments about 84: R1 = (300 x 44 + 280 x 4 - 500 x 36 - 4000) / 72
    assert reactions[0] == Rational(300 * 44 + 280 * 4 - 500 * 36 - 4000, 72)
    loads = [Point(40, 300), Point(120, 500), Uniform(60, 100, 7), Couple(110, 4000)]
    ours = solve(Beam((12, 84), EI, 0, 120), loads)
    places = [6, 20, 50, Rational(145, 2), 90, 105, 115]
    assert_same(ours, beam, reactions, places)


def test_three_supports_statically_indeterminate():
    """sympy: supports at 0, 32 and 80 of 104 in; force in a span and at the tip, even load on part
    of the spans, couple on the overhang."""
    points, spreads, couples = [(16, 240), (104, 450)], [(20, 70, 9)], [(92, -2500)]
    beam, reactions = exact(104, (0, 32, 80), points, spreads, couples)
    loads = [Point(16, 240), Point(104, 450), Uniform(20, 70, 9), Couple(92, -2500)]
    ours = solve(Beam((0, 32, 80), EI, 0, 104), loads)
    places = [8, 18, Rational(51, 2), 40, 60, 75, 85, 100]
    assert_same(ours, beam, reactions, places)
