"""Bending that is just what buckles the member: fails, says so in numbers, and warns of nothing."""

import math
from pathlib import Path

import numpy as np
import pytest
from msgspec.structs import replace

from outrigger.cases.read import read_case
from outrigger.checks import axial as checks
from outrigger.verdict.design import design

EXAMPLES = Path(__file__).parents[2] / "examples"


@pytest.mark.parametrize("name", ["_biaxial", "_compression"])
def test_bending_equal_to_its_buckling_stress(name, monkeypatch):
    """fb1 = FbE: 1 - (fb1 / FbE)^2 is 0, below which the standard's ratio has no meaning. Warnings
    are errors in the tests, so none is printed."""
    own, met = getattr(checks, name), []

    def at_the_limit(*given):
        at = next(one for one in given if isinstance(one, checks.BothAxes))
        if at.FbE is not None and at.fb2 is not None:
            met.append(at)
            shape = np.shape(at.fb1.value)
            fb1 = replace(at.fb1, value=np.array(np.broadcast_to(at.FbE.value, shape)))
            given = [replace(at, fb1=fb1) if one is at else one for one in given]
        return own(*given)

    monkeypatch.setattr(checks, name, at_the_limit)
    settings = ["garage_wall.out_of_plane_wind=20psf", "garage_wall.along=90plf"]
    case, _ = read_case(EXAMPLES / "slope_across_the_rake.toml", settings)
    result = design(case)
    assert met
    for row in result.rows:
        assert row.ratio is None or math.isfinite(row.ratio), row.check
    assert result.verdict == "fail"
