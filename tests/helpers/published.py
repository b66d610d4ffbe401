"""What the tests of published numbers share: values as printed, data files, largest spans."""

import csv
from pathlib import Path

import numpy as np
import pytest

from outrigger.base.tables import HEADER_KEYS
from outrigger.formula.formula import given
from outrigger.formula.kind import Kind, Link
from outrigger.statics.beam import Beam
from outrigger.wood import adjusted as adjust
from outrigger.wood import bending, lumber
from outrigger.wood import deflection as wood_deflection

DATA = Path(__file__).parents[1] / "data"
NONE = given("CL", 1.0)  # a factor that a published table leaves at 1
ALONE = Link(Kind("alone", "check"), "", "")  # of one formula of the standard, no outrigger


def printed(text):
    """A number as printed, within half a unit of its last digit: 1,776 is 1776 +- 0.5."""
    digits = text.replace(",", "")
    half = 0.5 * 10.0 ** -len(digits.partition(".")[2])
    return pytest.approx(float(digits), abs=half + 1e-9, rel=0)  # 1e-9: 931.5 prints as 932


def read(name):
    """Rows of a data file; its header must say where the numbers come from."""
    lines = (DATA / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    comments = [line for line in lines if line.startswith("#")]
    keys = {line[1:].partition(":")[0].strip() for line in comments}
    assert not set(HEADER_KEYS) - keys
    return list(csv.DictReader(lines[len(comments) :]))


def column(rows, name):
    """A column as numbers; a blank cell is NaN."""
    return np.array([float(row[name] or "nan") for row in rows])


def inches_of(text):
    """12-6 is 150."""
    feet, inches = map(int, text.split("-"))
    return 12 * feet + inches


def stacked(woods, conditions, CD):
    """Fb*, E' and sections of many members as arrays: the look-ups are the only loop."""
    values = {
        name: np.array(
            [
                adjust.adjusted(name, wood, use, time).value
                for wood, use, time in zip(woods, conditions, CD, strict=True)
            ]
        )
        for name in ("Fb", "E")
    }
    b = np.array([wood.size.b for wood in woods])
    d = np.array([wood.size.d for wood in woods])
    S = lumber.section_modulus.step(b=b, d=d)
    EI = wood_deflection.bending_stiffness(
        values["E"], lumber.moment_of_inertia(b, d)
    )  # no shear term
    return given("Fb_star", values["Fb"], "psi"), S, EI


def beams(span, arm, EI):
    """Members on two supports, one for each row; shear deflection left out."""
    return Beam(np.stack((0 * span, span), axis=1), EI, 0.0, span + arm)


def bending_ratio(M, S, Fb_star):
    """Ratio of the bending check, braced, on the narrow face."""
    check = bending.bending(place="row", M=M, S=S, Fb_star=Fb_star, CL=NONE, Cfu=NONE)
    return check.ratio


def deflection_ratio(deflection, span, limit):
    """Ratio of the deflection check without creep: the tables take none."""
    check = wood_deflection.deflection(
        link=ALONE,
        place="row",
        long_term=0.0,
        short_term=deflection,
        K_cr=wood_deflection.creep_factor(wet=False, seasoned=True),
        span=span,
        limit=limit,
    )
    return check.ratio


def largest(ratio, most):
    """Per row, the largest length up to `most` at which the ratio is not over 1, by bisection."""
    low, high = np.full(most.shape, 1.0), most.copy()
    reached = ratio(most) <= 1
    for _ in range(60):  # 300 in / 2^60: to the last bit
        middle = (low + high) / 2
        passes = ratio(middle) <= 1
        low, high = np.where(passes, middle, low), np.where(passes, high, middle)
    return np.where(reached, most, low)
