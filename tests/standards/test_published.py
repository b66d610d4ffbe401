"""Every value that a source prints, derived, fitted or recalled ones too, as `outrigger prove` has
it: within its rounding, or within what is said beside it. The sources stand in proof/data."""

import pytest

from outrigger.proof.prove import GROUPS, prove


@pytest.mark.parametrize("group", GROUPS, ids=lambda group: group.name)
def test_every_value_of_a_group_is_within_its_rounding(group):
    """And what is known to differ does, so that a difference that is mended is counted again."""
    found = prove((group,))
    assert [(row.source.name, row.at, row.what, row.printed, row.here) for row in found.off] == []
    assert [row.what for row in found.rows if row.differs and row.within] == []
    assert len(found.rows) > 10
