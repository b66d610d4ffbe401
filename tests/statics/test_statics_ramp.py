"""A load that grows along the member: closed forms, and the limit of many even slices."""

import numpy as np
import pytest

from outrigger.statics.beam import Beam, Ramp, Uniform, solve


def test_simple_span_under_a_triangle():
    """Handbook closed form, simple span, load 0 at the left to w at the right: R = wl/6, wl/3;
    M = w x (l^2 - x^2) / (6 l); deflection = w x (3x^4 - 10 l^2 x^2 + 7 l^4) / (360 EI l)."""
    span, w, EI = 96.0, 12.0, 3.0e7
    solved = solve(Beam([0.0, span], EI, 0.0, span), [Ramp(0.0, span, w)])
    assert solved.reactions[0, 0] == pytest.approx([w * span / 6, w * span / 3], rel=1e-12)
    for x in (10.0, 48.0, 55.4, 90.0):
        assert solved.moment(x)[0, 0] == pytest.approx(w * x * (span**2 - x**2) / (6 * span))
        sag = w * x * (3 * x**4 - 10 * span**2 * x**2 + 7 * span**4) / (360 * EI * span)
        assert solved.deflection(x)[0, 0] == pytest.approx(sag, rel=1e-9)


def test_cantilever_end_under_a_triangle():
    """By statics: on an overhang a, growing outward to w: its resultant w a / 2 acts at 2a/3."""
    back, a, w = 48.0, 12.0, 3.0
    solved = solve(Beam([-back, 0.0], 1e7, -back, a), [Ramp(0.0, a, w)])
    assert solved.moment(0.0)[0, 0] == pytest.approx(-w * a / 2 * 2 * a / 3)
    assert solved.reactions[0, 0, 0] == pytest.approx(-w * a / 2 * (2 * a / 3) / back)


@pytest.mark.parametrize("GA", [np.inf, 5.0e5])
def test_many_slices_have_the_same_limit(GA):
    """Another method: 2,000 even slices on three supports; the difference falls as 1/n^2."""
    beam = Beam([-60.0, -20.0, 0.0], 2.0e7, -66.0, 14.0, GA=GA)
    exact = solve(beam, [Ramp(-50.0, 12.0, 4.0)])
    edges = np.linspace(-50.0, 12.0, 2001)
    middle = (edges[1:] + edges[:-1]) / 2
    heights = 4.0 * (middle + 50.0) / 62.0
    slices = [Uniform(a, b, h) for a, b, h in zip(edges, edges[1:], heights, strict=False)]
    sliced = solve(beam, slices)
    near = 1e-6  # of 2,000 slices: 1/n^2 = 2.5e-7
    assert exact.reactions == pytest.approx(sliced.reactions, rel=near)
    for x in (-55.0, -31.7, 5.0, 13.0):
        assert exact.deflection(x) == pytest.approx(sliced.deflection(x), rel=near)
        assert exact.shear(x) == pytest.approx(sliced.shear(x), rel=1e-4)  # within one slice


def test_no_length_is_no_load():
    solved = solve(Beam([0.0, 10.0], 1e6, 0.0, 10.0), [Ramp(4.0, 4.0, 5.0)])
    assert solved.reactions[0, 0] == pytest.approx([0.0, 0.0])
