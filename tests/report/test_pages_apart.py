"""The pages of a summary that are handed on by themselves."""

from pathlib import Path

import pytest

from outrigger.cases.read import read_case
from outrigger.report.summary.apart import NOT_TO_BUILD, pages
from outrigger.report.write.document import Figure, Table
from outrigger.verdict.design import design

EXAMPLES = Path(__file__).parents[2] / "examples"


def said(chapter):
    """All that stands on a page, as one text."""
    return repr(chapter.blocks)


def of(name, *settings):
    drawn = Figure("", "the section")
    return pages(design(read_case(EXAMPLES / f"{name}.toml", settings)[0]), drawn)


def test_the_inspector_sees_what_the_case_rests_on():
    """Stamp, spacing, bearing, blocks, clips and ties as the file states them, each with a box."""
    (page,) = of("passes")
    (table,) = (block for block in page.blocks if isinstance(block, Table))
    assert all(row[0] == "[ ]" for row in table.rows)
    text = said(page)
    for what in ("2x6 Douglas Fir-Larch No. 2, dry in service", "Every 16 in; back span 4 ft",
                 "gap 6 in", "Bears 3 in", "blocks at: edge, back",
                 "Back clip: 2 on each, its fasteners seen in framing", "NDS 2018 3.3.1",
                 "Nobody on the end"):  # fmt: skip
        assert what in text, what


def test_the_inspector_of_a_layout_counts_pieces_at_its_marks():
    """Pairs and an opening: no piece stands "every 19.2 in" beside them, and a wall of single
    pieces 19 3/16 in apart would look right."""
    text = said(of("marks_on_the_plate")[0])
    assert "16 outriggers on 23" in text and "pairs side by side: marks 6, 7, 8, 9" in text
    assert "No outrigger from 9" in text and "Back span 4 ft; gap 6 in" in text
    assert "Every " not in text
    assert "Every 19.2 in; back span 4 ft" in said(of("passes", "spacing=19.2 in")[0])


@pytest.mark.parametrize("name", ["laid_flat", "uplift_without_edge_tie"])
def test_no_box_to_tick_for_a_wall_that_fails(name):
    page = of(name)[0]
    assert NOT_TO_BUILD in said(page) and "[ ]" not in said(page)


def test_the_designer_of_house_trusses_has_places_and_envelopes_of_both_signs():
    """The clip at the back, 4 ft in: up and down at ASD and at strength; snow on that roof."""
    apart = of("rafters_and_studs", "house_rafter.kind=truss")
    assert [one.title for one in apart] == [
        "For the inspector", "For the designer of the house trusses",
    ]  # fmt: skip
    text = said(apart[1])
    assert "4 ft in from the middle of the bearing" in text
    assert "pulls up on the house roof, back clip" in text
    assert "pushes down on the house roof, back clip" in text
    assert "Snow drifted on the house roof" in text
    envelope = next(block for block in apart[1].blocks if isinstance(block, Table))
    assert envelope.head[1:] == ("ASD", "strength") or list(envelope.head[1:]) == [
        "ASD",
        "strength",
    ]
