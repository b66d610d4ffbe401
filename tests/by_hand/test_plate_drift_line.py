"""A drift stated as a load on the wall line, in the plate between outriggers: once."""

import pytest
from case_files import design_of
from level_case import row


def test_a_stated_drift_counts_once_in_the_plate():
    """Roof 10 psf dead and 20 psf snow x 8 ft, drift 150 plf: (80 + 160 + 150) x 16/12 = 520 lb at
    mid-bay of 16 in: M = 520 x 16/4 = 2,080 lb-in on two flat 2x6: S = 2 x 5.5 x 1.5^2/6 = 4.125
    in3: 504 psi. No. 3 DF-L: 525 x 1.15 x 1.3 (CF 2x6) x 1.15 (Cfu) = 903 psi: 0.559."""
    found = row(design_of("plate_drift_line"), "plate", "bending")
    assert found.combination.startswith("D + S")
    assert found.demand == pytest.approx(504.2, abs=0.1)
    assert found.capacity == pytest.approx(902.6, abs=0.3)
