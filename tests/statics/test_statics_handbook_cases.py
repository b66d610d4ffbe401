"""Overhanging beam: closed forms, cases a to f, as any handbook of beam diagrams prints them.

Pin at 0, roller at L (the wall), free end at L + a; shear deformation off. The formulas stand in
this file and are held to 1e-12; numbers made from them by another program are those of
`outrigger prove`, held to 1e-6, the digits of the shortest column.
"""

from math import sqrt

import numpy as np
import pytest

from outrigger.proof.beams import SHARE as PRINTED
from outrigger.proof.beams import inputs as numbers
from outrigger.proof.beams import load_of, solved
from outrigger.proof.read import rows
from outrigger.statics.beam import Beam, Couple, Point, Uniform, solve

EXACT = 1e-12  # round-off of two ways to write one formula

# Each case: its reactions R1, R2; M and deflection on the back span and on the overhang; the slope
# at 0, at the wall and at the tip; the place and value of the extreme of the back span, if printed.


def case_a(L, a, P, EI, **_):
    """Point load P at the end of the overhang."""
    return {
        "R": (-P * a / L, P * (L + a) / L),
        "M": (lambda x: -P * a * x / L, lambda x: P * (-L - a + x)),
        "y": (
            lambda x: P * a * x * (-L + x) * (L + x) / (6 * EI * L),
            lambda x: -P * (-L + x) * (L**2 + L * a - 2 * L * x - 3 * a * x + x**2) / (6 * EI),
        ),
        "tip": P * a**2 * (L + a) / (3 * EI),
        "slope": (-L * P * a / (6 * EI), L * P * a / (3 * EI), P * a * (2 * L + 3 * a) / (6 * EI)),
        "extreme": (L / sqrt(3), -sqrt(3) * L**2 * P * a / (27 * EI)),
    }


def case_b(L, a, w, EI, **_):
    """Uniform load w on the overhang only."""
    return {
        "R": (-(a**2) * w / (2 * L), a * w * (2 * L + a) / (2 * L)),
        "M": (lambda x: -(a**2) * w * x / (2 * L), lambda x: -w * (-L - a + x) ** 2 / 2),
        "y": (
            lambda x: a**2 * w * x * (-L + x) * (L + x) / (12 * EI * L),
            lambda x: (
                w
                * (-L + x)
                * (-(L**3) - 4 * L**2 * a + 3 * L**2 * x - 2 * L * a**2 + 8 * L * a * x)
                / (24 * EI)
                + w * (-L + x) * (-3 * L * x**2 + 6 * a**2 * x - 4 * a * x**2 + x**3) / (24 * EI)
            ),
        ),
        "tip": a**3 * w * (4 * L + 3 * a) / (24 * EI),
        "slope": (
            -L * a**2 * w / (12 * EI),
            L * a**2 * w / (6 * EI),
            a**2 * w * (L + a) / (6 * EI),
        ),
        "extreme": (L / sqrt(3), -sqrt(3) * L**2 * a**2 * w / (54 * EI)),
    }


def case_c(L, a, w, EI, **_):
    """Uniform load w over the whole length."""
    return {
        "R": (-w * (-L + a) * (L + a) / (2 * L), w * (L + a) ** 2 / (2 * L)),
        "M": (
            lambda x: -w * x * (-(L**2) + L * x + a**2) / (2 * L),
            lambda x: -w * (-L - a + x) ** 2 / 2,
        ),
        "y": (
            lambda x: (
                w
                * x
                * (-L + x)
                * (-(L**3) - L**2 * x + 2 * L * a**2 + L * x**2 + 2 * a**2 * x)
                / (24 * EI * L)
            ),
            lambda x: (
                w
                * (-L + x)
                * (-2 * L**3 - 4 * L**2 * a + 3 * L**2 * x - 2 * L * a**2 + 8 * L * a * x)
                / (24 * EI)
                + w * (-L + x) * (-3 * L * x**2 + 6 * a**2 * x - 4 * a * x**2 + x**3) / (24 * EI)
            ),
        ),
        "tip": a * w * (L + a) * (-(L**2) + L * a + 3 * a**2) / (24 * EI),
        "slope": (
            -L * w * (-(L**2) + 2 * a**2) / (24 * EI),
            L * w * (-L + 2 * a) * (L + 2 * a) / (24 * EI),
            w * (-(L**3) + 4 * L * a**2 + 4 * a**3) / (24 * EI),
        ),
        "sagging": w * (-L + a) ** 2 * (L + a) ** 2 / (8 * L**2),
    }


def case_d(L, a, c, P, EI, **_):
    """Point load P between the supports, c from the end of the back span."""
    slope_wall = P * c * (-L + c) * (L + c) / (6 * EI * L)

    def back_span(x):
        if x <= c:
            return P * x * (-L + c) * (-2 * L * c + c**2 + x**2) / (6 * EI * L)
        return P * c * (-L + x) * (-2 * L * x + c**2 + x**2) / (6 * EI * L)

    return {
        "R": (-P * (-L + c) / L, P * c / L),
        "M": (
            lambda x: -P * x * (-L + c) / L if x <= c else -P * c * (-L + x) / L,
            lambda x: 0.0,
        ),
        "y": (back_span, lambda x: P * c * (-L + c) * (-L + x) * (L + c) / (6 * EI * L)),
        "tip": P * a * c * (-L + c) * (L + c) / (6 * EI * L),
        "slope": (P * c * (-2 * L + c) * (-L + c) / (6 * EI * L), slope_wall, slope_wall),
    }


def case_e(L, a, M0, EI, **_):
    """Moment M0 at the end of the overhang, in the sense of a load down there (hogging)."""
    return {
        "R": (-M0 / L, M0 / L),
        "M": (lambda x: -M0 * x / L, lambda x: -M0),
        "y": (
            lambda x: M0 * x * (-L + x) * (L + x) / (6 * EI * L),
            lambda x: M0 * (-L + x) * (-L + 3 * x) / (6 * EI),
        ),
        "tip": M0 * a * (2 * L + 3 * a) / (6 * EI),
        "slope": (-L * M0 / (6 * EI), L * M0 / (3 * EI), M0 * (L + 3 * a) / (3 * EI)),
        "extreme": (L / sqrt(3), -sqrt(3) * L**2 * M0 / (27 * EI)),
    }


def case_f(L, a, w, EI, **_):
    """Uniform load w between the supports only."""
    return {
        "R": (L * w / 2, L * w / 2),
        "M": (lambda x: -w * x * (-L + x) / 2, lambda x: 0.0),
        "y": (
            lambda x: w * x * (-L + x) * (-(L**2) - L * x + x**2) / (24 * EI),
            lambda x: -(L**3) * w * (-L + x) / (24 * EI),
        ),
        "tip": -(L**3) * a * w / (24 * EI),
        "slope": (L**3 * w / (24 * EI), -(L**3) * w / (24 * EI), -(L**3) * w / (24 * EI)),
    }


CASES = {"a": case_a, "b": case_b, "c": case_c, "d": case_d, "e": case_e, "f": case_f}


def close(value, expected, scale=0.0, to=EXACT):
    """To a part of the value or, where that can be zero, of the largest of its kind."""
    return value == pytest.approx(expected, rel=to, abs=to * abs(scale))


ROWS = rows("beam_closed_forms")
named = pytest.mark.parametrize("row", ROWS, ids=[row["case"] + row["set"] for row in ROWS])


def test_table_is_whole():
    """Six cases of three sets."""
    assert [row["case"] + row["set"] for row in ROWS] == [c + s for c in "abcdef" for s in "123"]


@named
def test_printed_formulas(row):
    """The closed forms: reactions, moment and deflection along the beam, slopes, extremes."""
    given = numbers(row)
    L, a = given["L"], given["a"]
    beam, form = solved(row["case"], given), CASES[row["case"]](**given)
    back = np.linspace(0, L, 17)
    over = np.linspace(L, L + a, 9)
    M = [form["M"][0](x) for x in back] + [form["M"][1](x) for x in over]
    y = [form["y"][0](x) for x in back] + [form["y"][1](x) for x in over]
    x = np.concatenate((back, over))
    assert close(beam.reactions[0, 0], form["R"])
    assert close(beam.moment(x, "left")[:, 0], M, scale=np.abs(M).max())
    assert close(beam.deflection(x)[:, 0], y, scale=np.abs(y).max())
    assert close(beam.deflection(L + a).item(), form["tip"])
    assert close(beam.slope((0, L, L + a))[:, 0], form["slope"], scale=form["slope"][0])
    assert close(beam.shear(0).item(), form["R"][0])  # V = R1 past the pin
    if "extreme" in form:
        at, value = form["extreme"]
        assert close(beam.deflection(at).item(), value)
        assert close(beam.slope(at).item(), 0.0, scale=form["slope"][0])  # an extreme is level
    if "sagging" in form:  # case c: at x = R1 / w
        assert close(beam.moment(form["R"][0] / given["w"]).item(), form["sagging"])
        assert close(beam.moment(L).item(), -given["w"] * a**2 / 2)


def test_all_rows_of_a_case_in_one_call():
    """The three sets of a case as one batch: the same printed numbers."""
    for case in "abcdef":
        of_case = [row for row in ROWS if row["case"] == case]
        given = {
            symbol: np.array([numbers(row)[symbol] for row in of_case])
            for symbol in numbers(of_case[0])
        }
        sized = {s: v[:, None] if s in ("P", "w", "M0") else v for s, v in given.items()}
        L, tip = given["L"], given["L"] + given["a"]
        supports = np.stack((0 * L, L), axis=1)
        beam = solve(Beam(supports, given["EI"], 0, tip), [load_of(case, sized)])
        assert beam.reactions.shape == (3, 1, 2)
        printed = [[float(row["R1_lb"]), float(row["R2_lb"])] for row in of_case]
        assert close(beam.reactions[:, 0], np.array(printed), to=PRINTED)
        tips = [float(row["tip_defl_in"]) for row in of_case]
        assert close(beam.deflection(tip)[:, 0], tips, to=PRINTED)


def test_shear_deflection_of_an_overhang():
    """By hand: a point load at the tip adds V x / GA on each length of constant shear. Back span:
    V = -P a / L over L, so the chord turns by -P a / (L GA) and is pinned back to 0 at L; overhang:
    V = P over a. Tip: P a / GA + a (P a / L) / GA = P a (1 + a / L) / GA."""
    L, a, P, EI, GA = 96.0, 24.0, 500.0, 1.28609e8, 2.5e5
    stiff = solve(Beam((0, L), EI, 0, L + a), [Point(L + a, P)])
    soft = solve(Beam((0, L), EI, 0, L + a, GA=GA), [Point(L + a, P)])
    added = soft.deflection(L + a) - stiff.deflection(L + a)
    assert added.item() == pytest.approx(P * a * (1 + a / L) / GA, rel=1e-12)
    assert soft.reactions == pytest.approx(stiff.reactions, rel=1e-15)


def test_couple_shears_through_its_reactions_only():
    """By hand: a couple M0 at the tip gives V = -M0 / L on the back span and 0 beyond. The back
    span alone would rise by M0 / GA at the wall; pinned back, the overhang turns by M0 / (L GA)."""
    L, a, M0, EI, GA = 96.0, 24.0, 6000.0, 1.28609e8, 2.5e5
    stiff = solve(Beam((0, L), EI, 0, L + a), [Couple(L + a, M0)])
    soft = solve(Beam((0, L), EI, 0, L + a, GA=GA), [Couple(L + a, M0)])
    added = soft.deflection(L + a) - stiff.deflection(L + a)
    assert added.item() == pytest.approx(M0 * a / (L * GA), rel=1e-10)  # difference of two numbers


def test_springs_under_a_simple_beam():
    """By hand: a rigid-body rotation on two springs. R1 = -125, R2 = 625 (case a1); the springs
    give R / k, the tip y1 + (y2 - y1)(1 + a / L) more than on rigid supports."""
    L, a, P, EI = 96.0, 24.0, 500.0, 1.28609e8
    k1, k2 = 4000.0, 9000.0
    rigid = solve(Beam((0, L), EI, 0, L + a), [Point(L + a, P)])
    sprung = solve(Beam((0, L), EI, 0, L + a, stiffness=(k1, k2)), [Point(L + a, P)])
    y1, y2 = -125 / k1, 625 / k2
    assert sprung.deflection((0, L))[:, 0] == pytest.approx([y1, y2], rel=1e-12)
    added = (sprung.deflection(L + a) - rigid.deflection(L + a)).item()
    assert added == pytest.approx(y1 + (y2 - y1) * (1 + a / L), rel=1e-12)


def test_sides_of_a_jump():
    """By hand, case d1 with a couple of 100 at the load: outward, V falls by P, M rises by M0."""
    L, c, P, M0 = 96.0, 36.0, 500.0, 100.0
    beam = solve(Beam((0, L), 1e8, 0, L), [Point(c, P), Couple(c, M0)])
    R1 = P * (L - c) / L - M0 / L
    assert beam.shear(c, "left").item() == pytest.approx(R1, rel=1e-12)
    assert beam.shear(c, "right").item() == pytest.approx(R1 - P, rel=1e-12)
    assert beam.moment(c, "left").item() == pytest.approx(R1 * c, rel=1e-12)
    assert beam.moment(c, "right").item() == pytest.approx(R1 * c + M0, rel=1e-12)


def test_three_equal_supports_under_a_uniform_load():
    """Two equal spans l, uniform w, any handbook: 3/8 w l, 10/8 w l, 3/8 w l; -w l^2 / 8 over the
    middle and 9/128 w l^2 at 3/8 l."""
    w, span = 12.0, 48.0
    beam = solve(Beam((0, span, 2 * span), 1e7, 0, 2 * span), [Uniform(0, 2 * span, w)])
    reactions = [3 / 8 * w * span, 10 / 8 * w * span, 3 / 8 * w * span]
    assert beam.reactions[0, 0] == pytest.approx(reactions, rel=1e-12)
    assert beam.moment(span).item() == pytest.approx(-w * span**2 / 8, rel=1e-12)
    assert beam.moment(3 / 8 * span).item() == pytest.approx(9 / 128 * w * span**2, rel=1e-12)


def test_doubling_loads_doubles_results_and_components_add():
    """Law: the beam is linear."""
    L, a = 96.0, 24.0
    loads = [Point(L + a, [[500.0, 1000.0, 300.0]]), Uniform(0, L, [[0.0, 0.0, 10.0]])]
    beam = solve(Beam((0, 30, L), 1e8, 0, L + a, GA=2e5), loads)
    alone = solve(Beam((0, 30, L), 1e8, 0, L + a, GA=2e5), [Uniform(0, L, 10.0)])
    assert beam.reactions[0, 1] == pytest.approx(2 * beam.reactions[0, 0], rel=1e-14)
    both = alone.reactions[0, 0] + 0.6 * beam.reactions[0, 0]
    assert beam.reactions[0, 2] == pytest.approx(both, rel=1e-12)
