"""A drift stated as a load on the wall line, in the plate between outriggers: once."""

from case_files import design_of
from level_case import row


def test_a_stated_drift_counts_once_in_the_plate():
    """Worked in proof/data/whole_cases.toml; here the combination it governs in."""
    assert row(design_of("plate_drift_line"), "plate", "bending").combination.startswith("D + S")
