"""A drift stated as a load on the wall line, in the plate between outriggers: once."""

import pytest
from case_files import design_of
from level_case import GONE, designed, row


def test_a_stated_drift_counts_once_in_the_plate():
    """Worked in proof/data/whole_cases.toml; here the combination it governs in."""
    assert row(design_of("plate_drift_line"), "plate", "bending").combination.startswith("D + S")


def test_a_stated_drift_beside_the_line_load_of_a_truss_sheet():
    """189 + 30 plf of snow on the 24 in of wall that one truss brings: 438 lb; dead 135 plf alone:
    270 lb with the 40 lb of the wall."""
    line = {"D": "135 plf", "L": "0 plf", "Lr": "180 plf", "S": "189 plf"}
    line |= {"W_up": "300 plf", "W_down": "144 plf"}
    result = designed(garage_roof__line=line, snow__drift=GONE, snow__drift_line="30 plf")
    P = {part: float(force[0, 0]) for part, force in result.loads.wall_line.items()}
    assert (P["S"], P["D"], P["Lr"]) == pytest.approx((438, 310, 360))
